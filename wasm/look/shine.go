package look

import "math"

// How finished wood answers light: S. R. Marschner, S. H. Westin, A. Arbree
// and J. T. Moon, "Measuring and Modeling the Appearance of Finished Wood",
// ACM Transactions on Graphics 24 (3) (SIGGRAPH 2005), pages 727 to 734,
// formula from memory. Light enters the finish, meets fibres below it and is
// sent back along a cone about them:
//
//	f = k · g(β, ψi + ψr) / cos²((ψr - ψi) / 2)
//
// where ψi and ψr are the angles of the refracted directions of light and eye
// to the plane across the fibre, g is the normal distribution of standard
// deviation β, and k is how strong the fibres are. To that comes what the
// wood sends to all sides, both weakened by what the surface keeps out, and
// what the surface itself mirrors.
//
// The painter's program for the graphics card has the same formulas as Shine
// and Through.

// Index is the refractive index of finishes and of wood's substance.
const Index = 1.5

// mirror is which part of light straight from above the surface of that index
// sends back: ((1.5 - 1) / (1.5 + 1))².
const mirror = 0.04

// Shine returns how much light fibres of a direction send from the light to
// the eye, as a part of what they send to all sides. All are unit vectors, z
// away from the floor; to is where the light comes from.
func (p Palette) Shine(fibre, to, eye [3]float64) float64 {
	in, out := across(fibre, to), across(fibre, eye)
	g := math.Exp(-(in+out)*(in+out)/(2*p.Width*p.Width)) / (p.Width * math.Sqrt(2*math.Pi))
	c := math.Cos((out - in) / 2)
	return p.Fibre * g / (c * c)
}

// across returns the angle of a direction, refracted at the floor, to the
// plane across the fibre.
func across(fibre, d [3]float64) float64 {
	x, y := d[0]/Index, d[1]/Index
	z := math.Sqrt(max(0, 1-x*x-y*y))
	return math.Asin(min(1, max(-1, x*fibre[0]+y*fibre[1]+z*fibre[2])))
}

// Through returns which part of light from a height above the floor, as its
// sine, the surface lets in (Schlick's approximation of Fresnel's formula,
// Computer Graphics Forum 13 (3), 1994, from memory).
func Through(sine float64) float64 {
	return (1 - mirror) * (1 - math.Pow(1-min(1, max(0, sine)), 5))
}

// Ambient and Direct are how the floor's light is made up: what comes from
// all sides, and what comes from the light itself. The eye opens and closes
// with the light, so what is held is how much falls on the level floor.
const (
	Ambient = 0.36
	Direct  = 0.54
)

// From returns the direction to the sun, or to a window or lamp from a point
// of the floor.
func (l Light) From(x, y float64) [3]float64 {
	if l.Kind == Sun {
		sin, cos := math.Sincos(l.Azimuth * math.Pi / 180)
		up, level := math.Sincos(l.Height * math.Pi / 180)
		return [3]float64{sin * level, cos * level, up}
	}
	dx, dy, dz := l.X-x, l.Y-y, max(l.Z, 1)
	d := math.Sqrt(dx*dx + dy*dy + dz*dz)
	return [3]float64{dx / d, dy / d, dz / d}
}

// Seen returns the light that comes straight up, at a place in the room, from
// white wood whose fibres run along a level direction: for painters of flat
// tones.
func (l Light) Seen(p Palette, along [2]float64, x, y float64) RGB {
	to, d := l.From(x, y), math.Hypot(along[0], along[1])
	direct := Direct * Through(to[2]) / Through(1) * (1 + p.Shine([3]float64{along[0] / d, along[1] / d}, to, [3]float64{0, 0, 1}))
	seen := l.Colour().Times(direct)
	for i, sky := range l.Sky() {
		seen[i] = (seen[i] + sky*Ambient) * l.Strength()
	}
	return seen
}
