package present

import (
	"math"
	"strconv"

	"keelrow/wasm/look"
)

// Measures of a small picture of wood, in its own units.
const (
	swatchWide, swatchHigh = 72, 48
	blockWide, blockLong   = 9, 36
)

// swatch draws a small piece of floor, or of the border round it.
func swatch(wood string, border bool) string {
	h := &html{}
	of := look.Look{Wood: wood}.Field()
	h.put(`<svg viewBox="0 0 72 48" aria-hidden="true">`)
	colour := func(n int, x, y float64) string {
		tone := 0.2 + 0.15*float64((n*7+n*n*3)%5)
		light := look.Daylight.Seen(of, [2]float64{x, y}, 0, 0)
		return of.At(tone).By(light).Colour().CSS()
	}
	joint := of.Joint.Colour().CSS()
	box := func(x, y, w, l float64, fill string) {
		n := func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
		h.put(`<path d="M`, n(x), " ", n(y), "h", n(w), "v", n(l), "h", n(-w), `z" fill="`, fill, `" stroke="`, joint, `" stroke-width=".5"/>`)
	}
	if border {
		for i := range 4 {
			box(0, float64(12*i), swatchWide, 12, colour(i, 1, 0))
		}
		return h.String() + `</svg>`
	}
	// Herringbone by its own formula, turned so that the axis is upright; what
	// lies outside the picture is left out.
	h.put(`<g transform="translate(36 24) rotate(-45)">`)
	reach := math.Hypot(swatchWide, swatchHigh)/2 + blockLong
	for m := -2; m <= 2; m++ {
		for i := -8; i <= 8; i++ {
			u, shift := float64(i*blockWide), float64(m*blockLong)
			if math.Hypot(u+shift, u-shift) < reach {
				box(u-blockLong+shift, u-blockWide/2.0-shift, blockLong, blockWide, colour(i*3+m*5+60, 1, 1))
				box(u+shift, u+blockWide/2.0-blockLong-shift, blockWide, blockLong, colour(i*5+m*3+61, -1, 1))
			}
		}
	}
	return h.String() + `</g></svg>`
}
