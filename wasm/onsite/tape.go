package onsite

import (
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/wasm/markup"
)

// tape draws a short piece of tape: ticks to the chosen fraction, the nearest
// mark heavy, a needle at the true value.
func tape(t length.Tape, l length.Length) string {
	const wide, step = 320.0, 20.0 // of the drawing, and of it for each smallest mark
	unit, parts := length.Inch, t.Fraction
	if t.Unit == length.Millimetres {
		unit, parts = length.Centimetre, 10
	} else if parts == 0 {
		parts = 16
	}
	each := float64(unit) / float64(parts)
	mark := int(math.Round(float64(t.Read(l).Mark) / each))
	x := func(n float64) string { return markup.Num(wide/2 + (n-float64(mark))*step) }
	ticks, numbers := "", ""
	for n := mark - 8; n <= mark+8; n++ {
		if n < 0 {
			continue // the tape begins at its hook
		}
		if n != mark {
			ticks += "M" + x(float64(n)) + " 0V" + strconv.Itoa(tall(t.Unit, n, parts))
		}
		if n%parts == 0 {
			numbers += `<text x="` + x(float64(n)-0.35) + `" y="60">` + strconv.Itoa(n/parts) + "</text>"
		}
	}
	needle := x(float64(l) / each)
	return `<svg class="site-tape" viewBox="0 0 320 84" aria-hidden="true"><path class="edge" d="M0 0H320M0 66H320"/><path class="ticks" d="` + ticks +
		`"/><path class="lit" d="M` + x(float64(mark)) + " 0V" + strconv.Itoa(tall(t.Unit, mark, parts)) + `"/>` + numbers +
		`<path class="needle" d="M` + needle + " 84l-9 -15h18zM" + needle + ` 0V70"/></svg>`
}

// tall is how long the nth mark of a tape is drawn: the coarser the longer.
func tall(unit length.Unit, n, parts int) int {
	if unit == length.Millimetres {
		switch {
		case n%10 == 0:
			return 42
		case n%5 == 0:
			return 30
		}
		return 18
	}
	high := 42
	for n%parts != 0 {
		parts, high = parts/2, high-6
	}
	return max(high, 12)
}
