package survey

import (
	"math"
	"strconv"

	"keelrow/engine/length"
)

// words is a sentence whose lengths are still to be written for a tape: its
// parts are texts and lengths.
type words []any

// in writes the sentence with its lengths as read on tape t.
func (w words) in(t length.Tape) string {
	text := ""
	for _, part := range w {
		switch part := part.(type) {
		case string:
			text += part
		case length.Length:
			text += spoken(part, t)
		}
	}
	return text
}

// spoken writes a length as one says it: to a tenth of a millimetre, or to
// the nearest mark of an inch tape. What is no length reads on as "that".
func spoken(l length.Length, t length.Tape) string {
	switch {
	case math.IsNaN(float64(l)) || math.Abs(float64(l)) > 1e12:
		return "that"
	case t.Unit == length.Inches:
		return t.Read(l).FeetText()
	}
	return length.Decimal(l, length.Millimetres, 1)
}

// degrees writes an angle to a hundredth, likewise.
func degrees(v float64) string {
	if math.IsNaN(v) || math.Abs(v) > 1e6 {
		return "that"
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) + " degrees"
}

// list joins names as a sentence would, with the last after "and" or "or".
func list(names []string, last string) string {
	text := ""
	for k, name := range names {
		switch {
		case k == 0:
		case k == len(names)-1:
			text += " " + last + " "
		default:
			text += ", "
		}
		text += name
	}
	return text
}

// ReadingError says why readings make no room. Error is a sentence to show
// beside them, with lengths in millimetres.
type ReadingError struct {
	Readings  []int // numbers of the readings concerned, as given; of legs for Walk
	Corners   []int // corners concerned, if any
	wrong, do words
}

func (e *ReadingError) Error() string { return e.In(length.Tape{}) }

// In returns the sentence with its lengths as read on tape t.
func (e *ReadingError) In(t length.Tape) string { return e.wrong.in(t) + ". " + e.do.in(t) + "." }

// MisfitError says that readings disagree by more than the limit. Result holds
// the room that comes closest to all of them.
type MisfitError struct {
	Result   *Result
	Readings []Reading
	Limit    length.Length
	corners  int
	whole    bool // every diagonal is taped
}

func (e *MisfitError) Error() string { return e.In(length.Tape{}) }

// In returns the sentence with its lengths as read on tape t.
func (e *MisfitError) In(t length.Tape) string {
	name := func(k int) string { return LineName(e.Readings[k].From, e.Readings[k].To, e.corners) }
	taped := func(k int, shouldBe length.Length) string {
		return name(k) + " is taped " + spoken(e.Readings[k].Length, t) + ", and the other readings make it " + spoken(shouldBe, t)
	}
	suspects := e.Result.Suspects
	switch worst := e.Result.Checks[e.Result.Worst]; {
	case len(suspects) == 0:
		return "The readings disagree, and no single one explains it. " +
			name(e.Result.Worst) + " is taped " + spoken(worst.Taped, t) + ", and all readings together make it " + spoken(worst.Adjusted, t) +
			". Tape it again, then the others."
	case Certain(suspects):
		return taped(suspects[0].Reading, suspects[0].ShouldBe) + ". Tape it again."
	}
	var names []string
	for _, s := range suspects {
		names = append(names, name(s.Reading))
	}
	if len(names) > 6 {
		names = append(names[:5], "another")
	}
	text := "The readings disagree: " + taped(suspects[0].Reading, suspects[0].ShouldBe) +
		". But any one of " + list(names, "or") + " may be the wrong one. "
	if e.whole {
		return text + "Tape each of them again."
	}
	return text + "One more diagonal would tell which."
}

// Certain says whether the first of the suspects clearly is the reading that
// is wrong: no other explains the misfit nearly as well.
func Certain(suspects []Suspect) bool {
	const clearly = 9 // three times the misfit, in squares
	return len(suspects) == 1 ||
		len(suspects) > 1 && suspects[1].sum > clearly*suspects[0].sum && suspects[1].Rest > finest
}

// ClosingError says that a walk round the room does not come back to where it
// started. Result holds the room with the miss shared out; it is nil when the
// turns alone cannot close.
type ClosingError struct {
	Result  *Result
	Closing Closing
	Limit   length.Length
	// Along lists the walls that run the way of the miss: a wrong length of
	// one of them would explain it.
	Along []int
	legs  int
}

func (e *ClosingError) Error() string { return e.In(length.Tape{}) }

// In returns the sentence with its lengths as read on tape t.
func (e *ClosingError) In(t length.Tape) string {
	if e.Result == nil {
		return "The turns add up to " + degrees(e.Closing.Turned) + ", and once round a room is 360 to the left or to the right." +
			" Check which turn is missing, or goes the other way."
	}
	text := "The walls end " + spoken(e.Closing.Distance, t) + " away from corner A, and at most " + spoken(e.Limit, t) + " can be shared out. "
	if len(e.Along) == 0 {
		return text + "Check the turns, and tape the walls again."
	}
	var names []string
	for _, i := range e.Along {
		names = append(names, WallName(i, e.legs))
	}
	return text + "Tape " + list(names, "and") + " again first: " + plural(len(names), "it runs", "they run") + " the way of the miss."
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// ShapeError says why a curve, a triangle or a doorway cannot be made of what
// was given.
type ShapeError struct{ wrong, do words }

func (e *ShapeError) Error() string { return e.In(length.Tape{}) }

// In returns the sentence with its lengths as read on tape t.
func (e *ShapeError) In(t length.Tape) string { return e.wrong.in(t) + ". " + e.do.in(t) + "." }
