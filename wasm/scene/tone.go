package scene

import (
	"math"

	"keelrow/engine/plane"
)

// Tone returns how light the wood of a block is by nature, from about 0 to
// 1, most of it near the middle. The WebGL painter's shader has the same
// formula.
func Tone(seed uint16) float64 {
	a, b := float64(seed&255)/255, float64(seed>>8)/255
	_, part := math.Modf(float64(seed) * 0.61803)
	return 0.5*(a+b) + 0.22*(part-0.5)
}

// Wood returns the colour of wood of a tone.
func (t Theme) Wood(tone float64) Colour {
	if tone < 0.5 {
		return t.Dark.mixed(t.Base, smooth(-0.35, 0.5, tone))
	}
	return t.Base.mixed(t.Light, smooth(0.5, 1.2, tone))
}

// Lit returns how much brighter wood is whose fibres run along dir than in
// light from straight above: fibres scatter light across themselves and lose
// it along.
func (v View) Lit(along plane.Point) float64 {
	low := math.Hypot(v.Light.X, v.Light.Y)
	if low == 0 {
		return 1
	}
	slant := (along.X*v.Light.X + along.Y*v.Light.Y) / low
	return 1 + low*(0.5-slant*slant)*litRange
}

// litRange is by how much the two hands can differ in full low light.
const litRange = 0.24

// smooth goes from 0 at from to 1 at to, level at both.
func smooth(from, to, x float64) float64 {
	x = min(1, max(0, (x-from)/(to-from)))
	return x * x * (3 - 2*x)
}

// mixed returns the colour a part of the way to another.
func (c Colour) mixed(to Colour, part float64) Colour {
	return c.each(func(i int, from float64) float64 {
		return from + (float64(to>>(8*i)&255)-from)*part
	})
}

// Times returns the colour brighter by a factor, or darker.
func (c Colour) Times(k float64) Colour {
	return c.each(func(_ int, from float64) float64 { return from * k })
}

// each changes blue, green and red, which are 0, 1 and 2.
func (c Colour) each(change func(i int, from float64) float64) (out Colour) {
	for i := range 3 {
		f := min(255, max(0, math.Round(change(i, float64(c>>(8*i)&255)))))
		out |= Colour(f) << (8 * i)
	}
	return out
}

// CSS returns the colour as a style sheet has it.
func (c Colour) CSS() string {
	const digits = "0123456789abcdef"
	out := []byte("#000000")
	for i := range 6 {
		out[6-i] = digits[c>>(4*i)&15]
	}
	return string(out)
}
