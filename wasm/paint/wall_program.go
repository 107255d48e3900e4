//go:build js && wasm

package paint

// The program of walls, doors and windows.
const (
	wallVertex = `#version 300 es
// One corner of a plane of the room's shell, of four.
precision highp float;

layout(location = 0) in vec4 corners01;
layout(location = 1) in vec4 corners23;
layout(location = 2) in vec4 heights; // of the first two, of the other two; kind, nooks

uniform vec4 v[33]; // see fields in webgl.go

out vec3 place;     // in the room, from the anchor
out vec2 on;        // mm from the left and from below
flat out vec2 size; // of the plane, mm
flat out vec3 away; // out of the plane
flat out float kind;
flat out float bare;        // 1 no nook on the left, 2 on the right

void main() {
	bool second = gl_VertexID == 1 || gl_VertexID == 3, upper = gl_VertexID > 1;
	place = vec3(upper ? second ? corners23.xy : corners23.zw : second ? corners01.zw : corners01.xy,
		upper ? heights.y : heights.x);
	vec2 along = corners01.zw - corners01.xy;
	size = vec2(length(along), heights.y - heights.x);
	on = vec2(second ? size.x : 0.0, upper ? size.y : 0.0);
	along /= max(size.x, 1e-3);
	kind = heights.z;
	bare = heights.w;
	away = kind > 3.5 ? vec3(0.0, 0.0, -1.0) : kind > 2.5 ? vec3(0.0, 0.0, 1.0) : vec3(along.y, -along.x, 0.0);
	vec4 p = vec4(place, 1.0);
	float w = dot(v[2], p);
	// The ground lies a little behind the floor.
	gl_Position = vec4(dot(v[0], p), dot(v[1], p), w - 0.04 + (kind > 2.5 && kind < 3.5 ? 3e-4 * w : 0.0), w);
}
`

	wallFragment = `#version 300 es
// Plain plaster, doors and windows, in the light of the windows.
precision highp float;
precision highp int;

in vec3 place;
in vec2 on;
flat in vec2 size;
flat in vec3 away;
flat in float kind;
flat in float bare;

uniform vec4 v[33]; // see fields in webgl.go

out vec4 colour;

// edge is 1 where x lies beyond a line, over a pixel's width.
float edge(float line, float x) { return clamp((x - line) / max(fwidth(x), 1e-4) + 0.5, 0.0, 1.0); }

// inside is 1 in a frame's inside, so far from the plane's edges.
float inside(float rim) {
	vec2 d = min(on, size - on);
	return edge(rim, d.x) * edge(rim, d.y);
}

void main() {
	vec3 sun = v[6].rgb, sky = v[7].rgb;
	float high = v[12].z;
	// Soft light from the windows; without any, from all sides.
	float open = v[12].w < 0.5 ? 0.55 : 0.0;
	for (int i = 0; i < int(v[12].w); i++) {
		vec3 to = v[25 + 2 * i].xyz - place;
		vec2 into = v[26 + 2 * i].zw;
		float far = length(to), area = 4.0 * length(v[26 + 2 * i].xy) * v[25 + 2 * i].w;
		to /= far;
		open += area / (far * far + 0.5 * area) * (0.35 + 0.65 * max(dot(to, away), 0.0)) * (0.3 + 0.7 * max(-dot(to.xy, into), 0.0));
	}
	float lamp = 0.0;
	if (v[5].w > 0.0) {
		vec3 to = v[5].xyz - place;
		lamp = max(dot(normalize(to), away), 0.0) * 2.0e6 / (dot(to, to) + 2.0e6);
	}
	vec3 light = sky * 1.7 + sun * (0.42 + 0.85 * min(open, 1.0) + 0.5 * lamp);
	// Corners are a little darker; the wood throws its colour on the walls.
	float corner = kind < 2.5 ? min(min(place.z, high - place.z) * 1.6, min(on.x + 2000.0 * mod(bare, 2.0), size.x - on.x + 2000.0 * step(1.5, bare))) : 2000.0;
	light *= 1.0 - 0.20 * exp(-corner / 260.0);
	vec3 plaster = vec3(0.80, 0.77, 0.715);
	vec3 c = plaster * light + v[16].rgb * sun * 0.22 * exp(-place.z / 700.0) * step(kind, 2.5);

	if (kind < 0.5) {
		// A skirting with a lit upper edge.
		float skirt = 1.0 - edge(96.0, place.z);
		c = mix(c, vec3(0.90, 0.885, 0.85) * light * mix(0.9, 1.06, place.z / 96.0), skirt);
		c *= 1.0 - 0.16 * (edge(96.0, place.z) - edge(101.0, place.z)) + 0.10 * (edge(88.0, place.z) - edge(96.0, place.z));
		c *= 1.0 - 0.5 * (1.0 - edge(7.0, place.z));
	} else if (kind < 1.5) {
		// A door: its frame, a leaf with two sunk panels.
		vec3 leaf = vec3(0.80, 0.79, 0.76) * light;
		vec2 p = vec2(min(on.x, size.x - on.x), on.y);
		float inner = edge(62.0, p.x) * (1.0 - edge(size.y - 62.0, p.y));
		vec2 q = vec2(p.x - 170.0, min(abs(p.y - 520.0), abs(p.y - 1420.0)));
		float tall = abs(p.y - 520.0) < abs(p.y - 1420.0) ? 300.0 : 460.0;
		float panel = edge(0.0, q.x) * (1.0 - edge(tall, q.y)), sunk = edge(14.0, q.x) * (1.0 - edge(tall - 14.0, q.y));
		leaf *= 1.0 - 0.10 * (panel - sunk) - 0.03 * sunk;
		c = mix(vec3(0.87, 0.86, 0.83) * light, leaf * (0.93 - 0.25 * (1.0 - edge(67.0, p.x)) * inner), inner);
	} else if (kind < 2.5) {
		// A window: its frame, a bar, and the day outside.
		float t = on.y / size.y;
		vec3 day = mix(vec3(0.98, 0.97, 0.93), vec3(0.74, 0.86, 1.0), t) * (0.25 + 0.75 * v[7].g / 0.36) * mix(vec3(1.0), sun / max(sun.g, 1e-3), 0.8);
		float glass = inside(64.0);
		float bars = size.x > 900.0 ? 1.0 - edge(-24.0, -abs(on.x - size.x / 2.0)) : 1.0;
		c = mix(vec3(0.88, 0.87, 0.84) * light, day, glass * bars);
		c *= 1.0 - 0.25 * (inside(58.0) - glass);
	} else if (kind < 3.5) {
		c = vec3(0.19, 0.18, 0.17) * light; // stone, and the gap at the walls
	} else {
		c = vec3(0.86, 0.855, 0.84) * (sky * 1.5 + sun * (0.34 + 0.55 * min(open, 1.2)));
	}
	c = mix(v[8].rgb, c, smoothstep(0.0, 0.3, v[7].w));
	c = min(c, vec3(1.0));
	// A trace of noise, or the walls' soft light would show as steps.
	float noise = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5;
	colour = vec4(noise / 255.0 + mix(12.92 * c, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c)), 1.0);
}
`
)
