//go:build js && wasm

package paint

// The floor's program: tone by block, figure from the baked tile, fibres that
// send light back along a cone (package look has the formula and its source),
// a coat that mirrors the windows, eased joints. Each block is a hair larger
// than it is, for blocks that share an edge do not share its rounding.
const (
	blockVertex = `#version 300 es
// One corner of a block; see package scene.
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

uniform vec4 v[33]; // see fields in webgl.go

out vec2 at;              // in the block's own frame
out vec2 place;           // in the room, from the anchor
flat out vec4 ends;       // u and slope of the near end, of the far end
flat out vec2 along;      // the way u runs in the room
flat out float halfWidth;
flat out float home;      // 0 just begun to move, 1 home
flat out uvec2 look;      // seed, kind and hand

void main() {
	vec2 corner = scale * (gl_VertexID == 0 ? corners01.xy : gl_VertexID == 1 ? corners01.zw :
		gl_VertexID == 2 ? corners23.zw : corners23.xy);
	along = normalize(direction);
	float done = v[3].y > 0.0 ? clamp((v[3].x - order) / v[3].y, 0.0, 1.0) : 1.0;
	float rest = (1.0 - done) * (1.0 - done) * (1.0 - done);
	home = 1.0 - rest;
	place = middle + along * (corner.x - v[3].z * rest) + vec2(-along.y, along.x) * corner.y;
	// A hair larger, so that no paper shines through between blocks.
	vec2 hair = sign(corner) * (0.015 + 0.008 * v[19].w);
	vec4 p = vec4(place + along * hair.x + vec2(-along.y, along.x) * hair.y, 0.0, 1.0);
	float w = dot(v[2], p);
	gl_Position = vec4(dot(v[0], p), dot(v[1], p), w - 0.04, w);

	at = corner;
	look = uvec2(seed, kindHand);
	if ((kindHand & 255u) == 0u) {
		float skew = (kindHand >> 8u) == 0u ? v[10].z : v[10].w;
		ends = vec4(-v[10].x, skew, v[10].x, skew);
		halfWidth = v[10].y;
	} else { // a plank: its own corners are its edges
		vec4 near = scale * corners01, far = scale * corners23;
		halfWidth = far.y;
		float tall = 2.0 * max(halfWidth, 1e-3);
		ends = vec4((near.x + far.z) / 2.0, (far.z - near.x) / tall, (near.z + far.x) / 2.0, (far.x - near.z) / tall);
	}
}
`

	blockFragment = `#version 300 es
// Wood in its light. Everything finer than a pixel fades out.
precision highp float;
precision highp int;

in vec2 at;
in vec2 place;
flat in vec4 ends;
flat in vec2 along;
flat in float halfWidth;
flat in float home;
flat in uvec2 look;

uniform vec4 v[33]; // see fields in webgl.go
uniform sampler2D grain;

out vec4 colour;

// joint is how dark an edge is at a distance, pixels being across mm wide: a
// thin one is a pixel wide and weaker, but never lost.
float joint(float distance, float across) {
	float thick = v[3].w;
	float shown = max(thick, 0.5 * across);
	float strength = mix(0.42, 1.0, clamp(2.0 * thick / across, 0.0, 1.0));
	return strength * clamp((shown - distance) / across + 0.5, 0.0, 1.0);
}

// bent is a direction below the surface.
vec3 bent(vec3 d) {
	vec2 h = d.xy / 1.5;
	return vec3(h, sqrt(1.0 - dot(h, h)));
}

// shine is what fibres send from one bent direction to another: Marschner and
// others 2005, see package look.
float shine(vec3 fibre, vec3 light, vec3 eye, vec2 kind) {
	float a = asin(dot(light, fibre)), b = asin(dot(eye, fibre));
	float turn = cos(0.5 * (b - a));
	return kind.x * exp(-(a + b) * (a + b) / (2.0 * kind.y * kind.y)) / (kind.y * 2.506628) / (turn * turn);
}

// through is what gets in from a height, as its sine.
float through(float sine) { return 0.96 * (1.0 - pow(1.0 - clamp(sine, 0.0, 1.0), 5.0)); }

void main() {
	float seedA = float(look.x & 255u) / 255.0, seedB = float(look.x >> 8u) / 255.0;
	float seedC = fract(float(look.x) * 0.7548777), seedD = fract(float(look.x) * 0.5698403);
	bool border = (look.y & 255u) != 0u;
	int of = border ? 20 : 15; // the palette
	vec4 rings = v[of], pores = v[of + 1], rays = v[of + 2], late = v[of + 3], figure = v[of + 4];

	// Where the edges are.
	float slopeA = inversesqrt(1.0 + ends.y * ends.y), slopeB = inversesqrt(1.0 + ends.w * ends.w);
	float toEndA = (at.x - ends.x - ends.y * at.y) * slopeA;
	float toEndB = (ends.z + ends.w * at.y - at.x) * slopeB;
	float toSide = halfWidth - abs(at.y);
	vec2 dx = dFdx(at), dy = dFdy(at);
	float sidePixel = max(length(vec2(dx.y, dy.y)), 1e-6);
	float endPixel = max(length(vec2(dx.x - ends.y * dx.y, dy.x - ends.y * dy.y)) * slopeA, 1e-6);
	float pixel = sqrt(max(abs(dx.x * dy.y - dx.y * dy.x), 1e-12));
	toSide = max(toSide, 0.0);
	float toEnd = max(min(toEndA, toEndB), 0.0);
	// Blocks, and whole strands, too small to be told apart.
	float coarse = max(sidePixel, endPixel);
	float blockFades = smoothstep(0.5, 1.4, coarse / (2.0 * halfWidth)), strandFades = border ? 0.0 : smoothstep(0.35, 1.0, coarse / v[9].w);

	// The tone of the block.
	vec2 spread = border ? v[14].zw : v[14].xy;
	float tone = 0.5 * (seedA + seedB) + 0.22 * (fract(float(look.x) * 0.61803) - 0.5);
	tone = 0.5 + (tone - 0.5) * spread.y * (1.0 - blockFades);
	vec3 wood = tone < 0.5 ? mix(rays.rgb, pores.rgb, smoothstep(-0.35, 0.5, tone)) : mix(pores.rgb, rings.rgb, smoothstep(0.5, 1.2, tone));
	wood *= 1.0 + vec3(0.07, 0.015, -0.09) * (seedD - 0.5) * spread.y * (1.0 - blockFades);

	// A knot pushes the grain aside.
	vec2 p = at;
	float knot = 0.0;
	if (seedC < figure.z) {
		vec2 d = (at - vec2((seedA - 0.5) * 1.2 * ends.z, (seedB - 0.5) * halfWidth)) * vec2(0.62, 1.0);
		float r = length(d), big = 3.0 + 5.0 * seedD;
		p.y -= sign(d.y) * 2.2 * big * exp(-r * r / (10.0 * big * big));
		knot = 1.0 - smoothstep(0.6 * big, 1.25 * big, r + 0.2 * big * sin(4.0 * atan(d.y, d.x) + 9.0 * seedA));
		knot *= 0.75 + 0.25 * cos(r * 4.0);
	}

	// Figure: each block its own place on the tile.
	vec2 flip = vec2((look.x & 1u) == 0u ? 1.0 : -1.0, (look.x & 2u) == 0u ? 1.0 : -1.0);
	vec2 stretch = figure.xy * (0.8 + 0.5 * seedC);
	vec4 g = texture(grain, p * flip / (vec2(1100.0, 200.0) * stretch) + vec2(seedA * 7.31, seedB * 5.77));
	// The tile again, finer, for looking closely.
	vec4 fine = texture(grain, p * flip / (vec2(310.0, 46.0) * stretch) + vec2(seedB * 3.17, seedA * 9.41));
	float strong = 0.45 + 0.9 * seedC;
	float dark = rings.a * (strong * 1.25 * (g.r - 0.33) + 0.42 * (fine.r - 0.36)) + pores.a * (0.65 * (g.g - 0.08) + 1.0 * (fine.g - 0.08));
	wood *= mix(vec3(1.0), late.rgb, clamp(dark, -0.5, 1.6));
	wood *= 1.0 + late.a * 0.42 * (g.b - 0.5);
	// Rays.
	float broad = smoothstep(0.72, 0.80, seedD);
	wood *= 1.0 - max(rays.a, 0.0) * 0.55 * (fine.a - 0.1) - min(rays.a, 0.0) * 0.6 * broad * (g.a - 0.1);
	wood *= mix(vec3(1.0), vec3(0.30, 0.22, 0.16), knot);

	// The light, and the eye.
	vec3 eye = normalize(v[4].xyz - v[4].w * vec3(place, 0.0));
	vec3 toLight = v[5].xyz;
	float falls = 1.0;
	if (v[5].w > 0.0) {
		toLight -= vec3(place, 0.0);
		float far = length(toLight);
		toLight /= far;
		// Walls give back half of what distance takes.
		falls = sqrt(v[6].w / (far * far * far));
		falls = min(falls, 2.2);
	}
	float stands = smoothstep(0.2, 1.0, v[7].w);
	vec3 mirrored = vec3(-eye.xy, eye.z);
	// A coat is never quite level.
	mirrored.xy += 0.012 * vec2(seedC - 0.5, seedD - 0.5) + 0.02 * (g.b - 0.5);
	float lit = 0.0, sky = 0.0, seen = 0.0;
	for (int i = 0; i < int(v[12].w); i++) {
		vec4 w = v[25 + 2 * i], h = v[26 + 2 * i];
		vec3 to = w.xyz - vec3(place, 0.0);
		float wide = length(h.xy), far = length(to), area = 4.0 * wide * w.w;
		sky += area / (far * far + area);
		// The sun through the window, and its image in the coat.
		float down = -dot(toLight.xy, h.zw), back = -dot(mirrored.xy, h.zw);
		if (v[5].w == 0.0 && down > 0.02) {
			vec3 q = toLight * (-dot(to.xy, h.zw) / down) - to;
			vec2 d = vec2(abs(dot(q.xy, h.xy)) / wide - wide, abs(q.z) - w.w);
			float soft = 14.0 + 0.012 * far;
			vec2 inner = 1.0 - smoothstep(-soft, soft, d);
			lit = max(lit, inner.x * inner.y);
		}
		if (back > 0.01) {
			float t = -dot(to.xy, h.zw) / back;
			vec3 q = mirrored * t - to;
			vec2 d = vec2(abs(dot(q.xy, h.xy)) / wide - wide, abs(q.z) - w.w);
			float soft = 8.0 + v[12].y * t;
			vec2 inner = 1.0 - smoothstep(-soft, soft, d);
			seen += inner.x * inner.y * min(1.0, wide * w.w / (soft * soft) + 0.25);
		}
	}
	if (v[12].w > 0.5) {
		falls *= mix(1.0, v[5].w > 0.0 ? 1.0 : mix(0.62, 1.5, lit), stands);
		sky = mix(1.0, 0.72 + 1.3 * sky, stands);
	} else {
		sky = 1.0;
	}

	vec2 fibres = border ? v[13].zw : v[13].xy;
	vec3 light = bent(toLight), bentEye = bent(eye);
	float rise = spread.x * (2.0 * seedB - 1.0) + 0.10 * late.a * (g.b - 0.5);
	float answer = shine(normalize(vec3(along, rise)), light, bentEye, fibres);
	if (strandFades > 0.0) {
		vec3 left = vec3(v[11].xy, 0.0), right = vec3(v[11].zw, 0.0);
		answer = mix(answer, 0.5 * (shine(left, light, bentEye, fibres) + shine(right, light, bentEye, fibres)), strandFades);
	}
	float pass = through(toLight.z) * through(eye.z) / 0.9216;
	vec3 c = wood * (v[7].rgb * sky + v[6].rgb * falls * pass * (1.0 + answer));

	// Eased edges.
	float eased = v[8].w, shown = clamp(1.2 * eased / pixel - 0.3, 0.0, 1.0);
	if (shown > 0.0) {
		vec2 across = vec2(-along.y, along.x);
		float side = 1.0 - smoothstep(0.0, eased, toSide), end = 1.0 - smoothstep(0.0, eased, toEnd);
		float facing = side * sign(at.y) * dot(across, toLight.xy) + end * (toEndB < toEndA ? 1.0 : -1.0) * dot(along, toLight.xy);
		c *= 1.0 + shown * (0.30 * facing - 0.12 * max(side, end));
	}

	// The coat mirrors the room; straight up it is in the wood's colour.
	float more = (pow(1.0 - clamp(eye.z, 0.0, 1.0), 5.0) * 0.96 + 0.04 * min(1.0, stands)) * v[12].x;
	vec3 room = v[7].rgb * 1.5 + v[6].rgb * 0.35;
	c += more * (room * 0.8 * stands + seen * 5.0 * (v[7].rgb + 0.4 * v[6].rgb));

	float edge = max(joint(toSide, sidePixel), joint(toEnd, endPixel));
	// Blocks a few pixels wide would be all joint.
	edge *= smoothstep(0.8, 5.0, 2.0 * halfWidth / coarse);
	c = mix(c, v[9].rgb * (v[7].rgb + v[6].rgb * falls), edge);

	// Very bright wood keeps its figure.
	c = mix(c, 0.7 + 0.3 * (1.0 - exp((0.7 - c) / 0.3)), step(0.7, c));
	c = clamp(mix(v[8].rgb, c, smoothstep(0.0, 0.6, home)), 0.0, 1.0);
	colour = vec4(mix(12.92 * c, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c)), 1.0);
}
`
)
