#version 300 es
// One corner of a block, of four. Millimetres; see package scene for the
// layout of an instance.
precision highp float;
precision highp int;

layout(location = 0) in vec2 middle;
layout(location = 1) in vec4 corners01;
layout(location = 2) in vec4 corners23;
layout(location = 3) in vec2 direction;
layout(location = 4) in float order;
layout(location = 5) in float scale;
layout(location = 6) in uint seed;
layout(location = 7) in uint kindHand;

// Rows 0 to 2 take the floor to the canvas; see fields in webgl.go.
uniform vec4 v[9];

out vec2 at;              // in the block's own frame
flat out vec4 ends;       // u and slope of the near end, of the far end
flat out vec2 along;      // the way u runs in the room
flat out float halfWidth;
flat out float home;      // 0 just begun to move, 1 home
flat out uvec2 look;      // seed, kind and hand

void main() {
	vec2 corner = scale * (gl_VertexID == 0 ? corners01.xy : gl_VertexID == 1 ? corners01.zw :
		gl_VertexID == 2 ? corners23.zw : corners23.xy);
	along = normalize(direction);
	float done = v[1].w > 0.0 ? clamp((v[0].w - order) / v[1].w, 0.0, 1.0) : 1.0;
	float rest = (1.0 - done) * (1.0 - done) * (1.0 - done);
	home = 1.0 - rest;
	vec2 p = middle + along * (corner.x - v[2].w * rest) + vec2(-along.y, along.x) * corner.y;
	gl_Position = vec4(dot(v[0].xyz, vec3(p, 1.0)), dot(v[1].xyz, vec3(p, 1.0)), 0.0, dot(v[2].xyz, vec3(p, 1.0)));

	at = corner;
	look = uvec2(seed, kindHand);
	if ((kindHand & 255u) == 0u) {
		float skew = (kindHand >> 8u) == 0u ? v[8].z : v[8].w;
		ends = vec4(-v[8].x, skew, v[8].x, skew);
		halfWidth = v[8].y;
	} else { // a plank: its own corners are its edges
		vec4 near = scale * corners01, far = scale * corners23;
		halfWidth = far.y;
		float tall = 2.0 * max(halfWidth, 1e-3);
		ends = vec4((near.x + far.z) / 2.0, (far.z - near.x) / tall, (near.z + far.x) / 2.0, (far.x - near.z) / tall);
	}
}
