//go:build js && wasm

package paint

// The program that bakes the tile of figure.
const (
	grainVertex = `#version 300 es
// One triangle that covers the tile.
void main() {
	gl_Position = vec4(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0, 0.0, 1.0);
}
`

	grainFragment = `#version 300 es
// A tile of oak that repeats without a seam, baked once: x along the grain,
// y across. Red is the early wood of the rings, green the pores, blue broad
// lights and darks, alpha the rays' flecks.
precision highp float;
precision highp int;

uniform vec2 size; // of the tile in texels
out vec4 grain;

// at returns a random number for a lattice point (the final mixing step of
// MurmurHash3). Every period the numbers repeat.
float at(ivec2 p, ivec2 period, uint salt) {
	p = ((p % period) + period) % period;
	uint h = uint(p.x) * 0x9e3779b1u + uint(p.y) * 0x85ebca77u + salt * 0xc2b2ae3du;
	h ^= h >> 16;
	h *= 0x85ebca6bu;
	h ^= h >> 13;
	h *= 0xc2b2ae35u;
	h ^= h >> 16;
	return float(h >> 8) / 16777216.0;
}

// noise is smooth between the points of a lattice of so many cells a tile.
float noise(vec2 p, vec2 cells, uint salt) {
	p *= cells;
	ivec2 period = ivec2(cells), i = ivec2(floor(p));
	vec2 f = fract(p);
	f = f * f * f * (f * (f * 6.0 - 15.0) + 10.0);
	return mix(mix(at(i, period, salt), at(i + ivec2(1, 0), period, salt), f.x),
		mix(at(i + ivec2(0, 1), period, salt), at(i + ivec2(1, 1), period, salt), f.x), f.y);
}

void main() {
	vec2 p = gl_FragCoord.xy / size;

	// Rings run along the grain and wander; where they lean far over they
	// close to arches. In some places they stand upright and run straight.
	float upright = smoothstep(0.35, 0.65, noise(p, vec2(1.0, 4.0), 13u));
	float lean = mix(13.0 * noise(p, vec2(2.0, 3.0), 1u) + 6.0 * noise(p, vec2(4.0, 7.0), 2u),
		3.0 * noise(p, vec2(2.0, 3.0), 1u), upright) +
		1.1 * noise(p, vec2(9.0, 19.0), 3u) + 0.30 * noise(p, vec2(31.0, 61.0), 4u);
	float ring = fract(28.0 * p.y + lean);
	float year = 0.55 + 0.45 * noise(p, vec2(3.0, 40.0), 5u);
	float early = smoothstep(0.0, 0.10, ring) * (1.0 - smoothstep(0.10, 0.80, ring)) * year;

	// Fibre: fine streaks everywhere.
	float fibre = noise(p, vec2(14.0, 128.0), 6u) * 0.55 + noise(p, vec2(40.0, 256.0), 7u) * 0.45;

	// Pores: short dark dashes, most of them in the early wood.
	float dash = noise(p, vec2(110.0, 330.0), 8u) * 0.6 + noise(p, vec2(60.0, 400.0), 9u) * 0.4;
	float pore = smoothstep(0.60, 0.78, dash + 0.16 * early - 0.05) * (0.35 + 0.65 * early);

	float broad = 0.5 * noise(p, vec2(3.0, 4.0), 10u) + 0.3 * noise(p, vec2(7.0, 11.0), 11u) + 0.2 * noise(p, vec2(16.0, 30.0), 12u);

	// Flecks are lens-shaped and stand in loose rows.
	float fleck = smoothstep(0.62, 0.84, 0.62 * noise(p, vec2(56.0, 120.0), 14u) + 0.38 * noise(p, vec2(23.0, 90.0), 15u));

	grain = vec4(clamp(0.62 * early + 0.55 * (fibre - 0.25), 0.0, 1.0), pore, broad, fleck);
}
`
)
