#version 300 es
// Oak: tone by block, grain from the baked tile, light by the way the fibres
// run, eased joints. Everything finer than a pixel fades out before it can
// shimmer.
precision highp float;
precision highp int;

in vec2 at;
flat in vec4 ends;
flat in vec2 along;
flat in float halfWidth;
flat in float home;
flat in uvec2 look;

uniform vec4 v[9];
uniform sampler2D grain;

out vec4 colour;

// joint returns how dark an edge is at this distance from it: the pixel is
// across mm wide there. A joint thinner than a pixel is drawn a pixel wide
// and weaker, but never so weak that the pattern is lost.
float joint(float distance, float across) {
	float thick = v[6].w;
	float shown = max(thick, 0.5 * across);
	float strength = mix(0.42, 1.0, clamp(2.0 * thick / across, 0.0, 1.0));
	return strength * clamp((shown - distance) / across + 0.5, 0.0, 1.0);
}

void main() {
	float seedA = float(look.x & 255u) / 255.0, seedB = float(look.x >> 8u) / 255.0;
	bool border = (look.y & 255u) != 0u;

	// Where the edges are.
	float slopeA = inversesqrt(1.0 + ends.y * ends.y), slopeB = inversesqrt(1.0 + ends.w * ends.w);
	float toEndA = (at.x - ends.x - ends.y * at.y) * slopeA;
	float toEndB = (ends.z + ends.w * at.y - at.x) * slopeB;
	float toSide = halfWidth - abs(at.y);
	vec2 dx = dFdx(at), dy = dFdy(at);
	float sidePixel = length(vec2(dx.y, dy.y));
	float endPixel = length(vec2(dx.x - ends.y * dx.y, dy.x - ends.y * dy.y)) * slopeA;
	float pixel = sqrt(max(abs(dx.x * dy.y - dx.y * dy.x), 1e-12));
	toSide = max(toSide, 0.0);
	float toEnd = max(min(toEndA, toEndB), 0.0);

	// The tone of the block, most of them near the middle.
	float tone = 0.5 * (seedA + seedB) + 0.22 * (fract(float(look.x) * 0.61803) - 0.5);
	vec3 wood = tone < 0.5 ? mix(v[6].rgb, v[5].rgb, smoothstep(-0.35, 0.5, tone)) : mix(v[5].rgb, v[4].rgb, smoothstep(0.5, 1.2, tone));
	wood *= 1.0 + vec3(0.040, 0.012, -0.045) * (seedB - 0.5);

	// Grain: each block its own place on the tile, either way round.
	vec2 flip = vec2((look.x & 1u) == 0u ? 1.0 : -1.0, (look.x & 2u) == 0u ? 1.0 : -1.0);
	vec4 g = texture(grain, at * flip / vec2(1100.0, 200.0) + vec2(seedA * 7.31, seedB * 5.77));
	// The same tile again, finer, for looking closely; from afar it averages out.
	vec4 fine = texture(grain, at * flip / vec2(310.0, 46.0) + vec2(seedB * 3.17, seedA * 9.41));
	float strong = 0.5 + 0.9 * fract(float(look.x) * 0.7548777);
	float dark = strong * 0.46 * (g.r - 0.3) + 0.27 * (g.g - 0.08) +
		0.14 * (fine.r - 0.35) + 0.38 * (fine.g - 0.08);
	wood = mix(wood, wood * vec3(0.60, 0.50, 0.40), clamp(dark, -0.25, 1.0));
	wood *= 1.0 + 0.11 * (g.b - 0.5);

	// Fibres are like so many thin cylinders: light along them is lost,
	// light across them comes back.
	vec2 light = vec2(v[4].w, v[5].w);
	float low = length(light);
	float slant = low > 0.0 ? dot(along, light) / low : 0.0;
	float gain = 1.0 + low * (0.5 - slant * slant) * (0.24 + 0.24 * (g.b - 0.5) + 0.05 * (seedA - 0.5));
	wood *= pow(vec3(gain), vec3(0.90, 1.0, 1.05));
	if (border) {
		wood *= v[7].w;
	}

	// Eased edges catch the light on the near side and lose it on the far.
	const float eased = 1.1;
	float seen = clamp(1.2 * eased / pixel - 0.3, 0.0, 1.0);
	if (seen > 0.0) {
		vec2 across = vec2(-along.y, along.x);
		float side = 1.0 - smoothstep(0.0, eased, toSide), end = 1.0 - smoothstep(0.0, eased, toEnd);
		float facing = side * sign(at.y) * dot(across, light) + end * (toEndB < toEndA ? 1.0 : -1.0) * dot(along, light);
		wood *= 1.0 + seen * (0.16 * facing - 0.07 * max(side, end));
	}
	float edge = max(joint(toSide, max(sidePixel, 1e-6)), joint(toEnd, max(endPixel, 1e-6)));
	// Blocks a few pixels wide would be all joint.
	edge *= smoothstep(0.8, 5.0, 2.0 * halfWidth / pixel);
	wood = mix(wood, v[7].rgb, edge);

	colour = vec4(mix(v[3].rgb, wood, smoothstep(0.0, 0.6, home)), 1.0);
}
