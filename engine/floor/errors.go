package floor

import (
	"math"
	"strconv"

	"keelrow/engine/plane"
	"keelrow/engine/survey"
)

// FieldError reports one value of a Job that cannot be used. Error is a
// sentence to show beside the input.
type FieldError struct {
	Key   string // the value's key in a link, such as "block"
	Wrong string // what is wrong, a sentence without its full stop, or all that is to be said
	Do    string // what would do, likewise, or empty
	Walls []int  // walls of the outline concerned, if any
}

func (e *FieldError) Error() string {
	if e.Do == "" {
		return e.Wrong
	}
	return e.Wrong + ". " + e.Do + "."
}

// CornerName returns the letter of corner i of the outline, as survey names it.
func CornerName(i int) string { return survey.CornerName(i) }

// WallName returns the name of wall i of an outline with n corners.
func WallName(i, n int) string { return survey.WallName(i, n) }

// walls lists the names of walls as a sentence would.
func walls(list []int, n int) string {
	text := "wall "
	if len(list) > 1 {
		text = "walls "
	}
	for k, i := range list {
		switch {
		case k == 0:
		case k == len(list)-1:
			text += " and "
		default:
			text += ", "
		}
		text += WallName(i, n)
	}
	return text
}

// mm writes a length for an error message, to a tenth of a millimetre. What
// is no length at all reads on as "that".
func mm(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "that"
	}
	return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) + " mm"
}

// degrees writes an angle likewise.
func degrees(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "that"
	}
	return strconv.FormatFloat(v, 'g', 6, 64) + " degrees"
}

// count writes a large number with its thousands apart.
func count(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// outlineError says what is wrong with an outline, or returns nil.
func outlineError(key, what string, ring plane.Ring) *FieldError {
	if len(ring) > maxCorners {
		return &FieldError{Key: key,
			Wrong: "The " + what + " has " + count(len(ring)) + " corners",
			Do:    "At most " + count(maxCorners) + " can be laid out"}
	}
	for i, p := range ring {
		if !(math.Abs(p.X) <= maxCoordinate && math.Abs(p.Y) <= maxCoordinate) { // so that NaN fails too
			return &FieldError{Key: key,
				Wrong: "Corner " + CornerName(i) + " of the " + what + " is not a place within 1 km",
				Do:    "Check its two readings"}
		}
	}
	flaw, i, j := ring.Check()
	n := len(ring)
	switch flaw {
	case plane.TooFew:
		return &FieldError{Key: key,
			Wrong: "The " + what + " has " + strconv.Itoa(n) + " corners",
			Do:    "Give at least three"}
	case plane.Repeated:
		return &FieldError{Key: key,
			Wrong: "Corners " + CornerName(i) + " and " + CornerName(j) + " of the " + what + " are the same point",
			Do:    "Leave one of them out"}
	case plane.Crossing:
		return &FieldError{Key: key,
			Wrong: "The " + what + " crosses itself: " + walls([]int{i, j}, n) + " meet",
			Do:    "Give the corners in order, one after the other round the room",
			Walls: []int{i, j}}
	case plane.NoArea:
		return &FieldError{Key: key,
			Wrong: "The corners of the " + what + " lie on one line",
			Do:    "Give at least three corners with a floor between them"}
	}
	return nil
}
