package length

import (
	"math"
	"strconv"
)

// Tape is the tape a reading is for. The zero Tape is marked in millimetres.
type Tape struct {
	Unit     Unit
	Fraction int // marks to the inch: 16, 32 or 64; anything else means 16
}

// Closer to a mark than this, a length counts as on it. Each is half of the
// smallest amount OffText shows, and far less than a mark on a tape is wide.
const (
	onMarkInches      = 0.0005 * Inch
	onMarkMillimetres = 0.05 * Millimetre
)

// Reading is a length as read on a tape: its nearest mark, and how far the
// true length is off that mark.
type Reading struct {
	Unit     Unit
	Negative bool   // the mark is on the other side of zero
	Whole    int    // inches or millimetres of the mark
	Num, Den int    // fraction of an inch in lowest terms; Den is 0 for none
	Mark     Length // length at the mark, below zero when Negative
	Off      Length // true length minus Mark
}

// Read returns the reading of l: the nearest mark, halves away from zero. An
// exact half is told from its neighbours, as far as a Length can hold it. l
// has to be finite and should be within Longest.
func (t Tape) Read(l Length) Reading {
	marks := 1
	if t.Unit == Inches {
		switch marks = t.Fraction; marks {
		case 32, 64:
		default:
			marks = 16
		}
	}
	n := nearest(l, t.Unit, float64(marks))
	r := Reading{Unit: t.Unit, Negative: n < 0, Mark: Length(n)}
	if t.Unit == Inches {
		r.Mark = Length(n * 254 / float64(10*marks)) // one rounding: n * 254 is exact
	}
	r.Off = l - r.Mark
	size := int(math.Abs(n))
	r.Whole = size / marks
	if num := size % marks; num != 0 {
		for num%2 == 0 { // marks is a power of two
			num, marks = num/2, marks/2
		}
		r.Num, r.Den = num, marks
	}
	return r
}

// Text returns the mark, like 6-3/8 in or 247 mm. Parse takes it back.
func (r Reading) Text() string { return r.sign() + r.inner(r.Whole) }

// FeetText returns the mark in feet and inches, like 14 ft 6-1/2 in. Below a
// foot, and in millimetres, it is the same as Text.
func (r Reading) FeetText() string {
	if r.Unit != Inches || r.Whole < 12 {
		return r.Text()
	}
	return r.sign() + strconv.Itoa(r.Whole/12) + " ft " + r.inner(r.Whole%12)
}

func (r Reading) sign() string {
	if r.Negative {
		return "-"
	}
	return ""
}

// inner returns whole and the fraction with their unit mark.
func (r Reading) inner(whole int) string {
	s := ""
	if whole != 0 || r.Den == 0 {
		s = strconv.Itoa(whole)
	}
	if r.Den != 0 {
		if s != "" {
			s += "-"
		}
		s += strconv.Itoa(r.Num) + "/" + strconv.Itoa(r.Den)
	}
	return s + " " + r.Unit.mark()
}

// Shy reports whether the true length falls short of the mark. A negative
// length is read on a tape laid the other way, so there too shy means nearer
// to the hook.
func (r Reading) Shy() bool { return r.beyond() < 0 }

// Strong reports whether the true length goes past the mark, away from the
// hook of the tape.
func (r Reading) Strong() bool { return r.beyond() > 0 }

// beyond returns how far the true length goes past the mark, away from the
// hook, in the smallest amounts OffText shows: 0 when it counts as on it.
func (r Reading) beyond() float64 {
	on := onMarkMillimetres
	if r.Unit == Inches {
		on = onMarkInches
	}
	n := math.Round(float64(r.Off / (2 * on)))
	if r.Negative {
		return -n
	}
	return n
}

// OffText says how far the true length is off the mark, like shy by 0.011
// (inches) or strong by 0.4 (millimetres). It is empty on the mark.
func (r Reading) OffText() string {
	n := r.beyond()
	if n == 0 {
		return ""
	}
	places, scale := 1, 10.0
	if r.Unit == Inches {
		places, scale = 3, 1000
	}
	amount := strconv.FormatFloat(math.Abs(n)/scale, 'f', places, 64)
	if n < 0 {
		return "shy by " + amount
	}
	return "strong by " + amount
}

// String returns the whole reading, like 6-3/8 in, shy by 0.011.
func (r Reading) String() string {
	if off := r.OffText(); off != "" {
		return r.Text() + ", " + off
	}
	return r.Text()
}

// mostPlaces is the most decimals Decimal gives: past them nothing on a floor
// is real, and up to them every count of last places is exact.
const mostPlaces = 6

// Decimal returns l in unit with at most places decimals (0 to 6), halves away
// from zero, without trailing zeros, like 247.5 mm or 9.744 in.
func Decimal(l Length, unit Unit, places int) string {
	scale := 1.0
	for range min(places, mostPlaces) {
		scale *= 10
	}
	// The shortest digits of a decimal rounded to float64 are that decimal's.
	return strconv.FormatFloat(nearest(l, unit, scale)/scale, 'f', -1, 64) + " " + unit.mark()
}

// nearest returns l counted in dths of the unit: the nearest whole count,
// halves away from zero.
//
// A half count of inches, an odd multiple of 25.4/(2d) mm, has no exact
// float64, so counting first and rounding afterwards would let it fall either
// way. Its nearest float64 is one division of whole numbers, and l is compared
// with that. Counts below 2^45 are safe.
func nearest(l Length, unit Unit, d float64) float64 {
	size := math.Abs(float64(l))
	half := func(n float64) float64 { // the length half a count past n
		if unit == Inches {
			return (2*n + 1) * 127 / (10 * d)
		}
		return (2*n + 1) / (2 * d)
	}
	n := math.Floor(size * d)
	if unit == Inches {
		n = math.Floor(size * d / 25.4)
	}
	if size >= half(n) {
		n++
	}
	if l < 0 && n > 0 {
		return -n
	}
	return n
}
