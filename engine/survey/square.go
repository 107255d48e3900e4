package survey

import (
	"math"

	"keelrow/engine/length"
)

// Triangle is a triangle to set out with a tape: its right angle is square
// when the diagonal measures as it should.
type Triangle struct {
	Along, Across, Diagonal length.Length
	Unit                    length.Length // what 3, 4 and 5 are counted in, times Times
	Times                   int
}

// Square345 returns the largest 3-4-5 triangle that fits in a corner or on a
// cross of lines, with room for along one way and across the other. It is a
// whole multiple of 3-4-5 in 100 mm or feet, or where that is too large in 10
// mm or inches, so that all three marks are easy to read. The longer leg lies
// along when both ways give the same size. It reports false when not even
// that fits.
func Square345(along, across length.Length, unit length.Unit) (Triangle, bool) {
	steps := []length.Length{100 * length.Millimetre, 10 * length.Millimetre}
	if unit == length.Inches {
		steps = []length.Length{length.Foot, length.Inch}
	}
	if !(along > 0 && along <= length.Longest && across > 0 && across <= length.Longest) {
		return Triangle{}, false
	}
	for _, step := range steps {
		fits := func(room, leg length.Length) float64 {
			const hair = 1e-9 // a leg that just fits must not fail by rounding
			return math.Floor(float64(room/(leg*step)) + hair)
		}
		long := int(min(fits(along, 4), fits(across, 3)))
		short := int(min(fits(along, 3), fits(across, 4)))
		switch {
		case max(long, short) == 0:
			continue
		case long >= short:
			n := length.Length(long) * step
			return Triangle{4 * n, 3 * n, 5 * n, step, long}, true
		default:
			n := length.Length(short) * step
			return Triangle{3 * n, 4 * n, 5 * n, step, short}, true
		}
	}
	return Triangle{}, false
}

// CheckSquare returns the angle in degrees between legs a and b whose ends
// measure diagonal apart, and how far it is off square: cos C = (a² + b² -
// d²)/2ab. The error is a *ShapeError when the three make no triangle.
func CheckSquare(a, b, diagonal length.Length) (angle float64, out OutOfSquare, err error) {
	for _, l := range []length.Length{a, b, diagonal} {
		if !(l > 0 && l <= length.Longest) {
			return 0, out, &ShapeError{words{"A side of a triangle cannot be ", l, " long"}, words{"Tape it again"}}
		}
	}
	if diagonal >= a+b || a >= b+diagonal || b >= a+diagonal {
		return 0, out, &ShapeError{words{a, ", ", b, " and ", diagonal, " cannot make a triangle"}, words{"Tape the three again"}}
	}
	// The half angle from the sides keeps its digits where the triangle is
	// thin: tan²(C/2) = (s-a)(s-b)/(s(s-c)).
	angle = 2 * math.Atan2(
		math.Sqrt(float64((diagonal+a-b)*(diagonal+b-a))),
		math.Sqrt(float64((a+b+diagonal)*(a+b-diagonal)))) * 180 / math.Pi
	return angle, off(angle, min(a, b)), nil
}
