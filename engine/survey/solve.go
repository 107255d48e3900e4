package survey

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Solve finds the corners of a room from taped walls and diagonals. All walls
// have to be taped, and enough diagonals to build the room up triangle by
// triangle: one for four walls, two for five, and so on. With more, the room
// is the one whose squared differences from all readings add up to least
// (every reading weighs the same).
//
// A corner held by two readings could lie on either side of the line between
// their other ends. The side is chosen so that the outline does not cross
// itself and every diagonal runs inside the room, as a tape does; then so that
// surplus readings fit; and where both sides would do, so that the room is
// wider. Corners known to be inner ones, where the room takes up more than
// half a turn, can be named as inner.
//
// Limit is how far a reading may be off the adjusted room; DefaultLimit suits
// a room. The error is one or several *ReadingError, joined, when the readings
// make no room, and a *MisfitError, beside a result, when they disagree.
func Solve(corners int, readings []Reading, limit length.Length, inner ...int) (*Result, error) {
	if !(limit > finest) {
		limit = finest
	}
	w, err := newWeb(corners, readings)
	if err != nil {
		return nil, err
	}
	if err := w.trianglesError(limit); err != nil {
		return nil, err
	}
	order, whole := w.order()
	if !whole {
		return nil, w.looseError(order)
	}
	surplus := len(readings) - (2*corners - 3)
	found := w.search(order, float64(limit), inner, mostPlacings)
	if surplus == 0 && found.short > float64(limit) {
		return nil, w.shortError(found)
	}
	room := w.adjust(found.ring)
	result := &Result{
		Outline: room.ring,
		Surplus: surplus,
		Checks:  make([]Check, len(readings)),
		Sway:    room.sway(),
	}
	redundancy := room.redundancy(w)
	for k, r := range readings {
		off := length.Length(room.residual[k])
		result.Checks[k] = Check{r.Length, r.Length + off, off, redundancy[k]}
		if math.Abs(room.residual[k]) > math.Abs(room.residual[result.Worst]) {
			result.Worst = k
		}
	}
	if surplus > 0 && math.Abs(room.residual[result.Worst]) > float64(limit) {
		result.Suspects = w.suspects(room, redundancy, inner, float64(limit))
		return result, &MisfitError{
			Result: result, Readings: readings, Limit: limit, corners: corners,
			whole: len(readings) == corners*(corners-1)/2,
		}
	}
	if err := w.outlineError(room.ring, inner); err != nil {
		return nil, err
	}
	result.Either = w.either(order, found, inner, float64(limit))
	return result, nil
}

// finest is the least limit and the least reading: less is rounding, not tape.
const finest = 1e-3

// web is the taped lines between corners.
type web struct {
	n        int
	readings []Reading
	at       []int // number of the reading between corners i and j at i*n+j, -1 without one
}

func (w *web) between(i, j int) int { return w.at[i*w.n+j] }

func (w *web) name(k int) string { return LineName(w.readings[k].From, w.readings[k].To, w.n) }

func (w *web) taped(k int) float64 { return float64(w.readings[k].Length) }

func (w *web) isWall(k int) bool {
	r := w.readings[k]
	return (r.From+1)%w.n == r.To || (r.To+1)%w.n == r.From
}

// without returns the web with reading k left out.
func (w *web) without(k int) *web {
	less := *w
	less.at = slices.Clone(w.at)
	r := w.readings[k]
	less.at[r.From*w.n+r.To], less.at[r.To*w.n+r.From] = -1, -1
	return &less
}

// newWeb checks every reading by itself, and that no wall is missing.
func newWeb(corners int, readings []Reading) (*web, error) {
	if corners < MinCorners || corners > MaxCorners {
		return nil, &ReadingError{
			wrong: words{"A room of " + strconv.Itoa(corners) + " corners cannot be worked out from a tape"},
			do:    words{"Give from " + strconv.Itoa(MinCorners) + " to " + strconv.Itoa(MaxCorners) + " corners"},
		}
	}
	w := &web{n: corners, readings: readings, at: make([]int, corners*corners)}
	for i := range w.at {
		w.at[i] = -1
	}
	var errs []error
	refuse := func(which []int, wrong, do words) {
		errs = append(errs, &ReadingError{Readings: which, wrong: wrong, do: do})
	}
	for k, r := range readings {
		if r.From < 0 || r.To < 0 || r.From >= corners || r.To >= corners {
			refuse([]int{k}, words{"Reading " + strconv.Itoa(k+1) + " runs to a corner that the room does not have"},
				words{"The room's corners are A to " + CornerName(corners-1)})
			continue
		}
		if r.From == r.To {
			refuse([]int{k}, words{"Reading " + strconv.Itoa(k+1) + " runs from corner " + CornerName(r.From) + " to itself"},
				words{"Tape from one corner to another"})
			continue
		}
		if !(r.Length >= finest && r.Length <= length.Longest) { // so that NaN fails too
			refuse([]int{k}, words{w.name(k) + " cannot be ", r.Length, " long"}, words{"Tape it again"})
		}
		if first := w.between(r.From, r.To); first >= 0 {
			refuse([]int{first, k}, words{w.name(k) + " is given twice: ", readings[first].Length, " and ", r.Length}, words{"Keep one of the two"})
			continue
		}
		w.at[r.From*corners+r.To], w.at[r.To*corners+r.From] = k, k
	}
	for i := range corners {
		if j := (i + 1) % corners; w.between(i, j) < 0 {
			errs = append(errs, &ReadingError{Corners: []int{i, j},
				wrong: words{"Wall " + WallName(i, corners) + " is not taped"}, do: words{"Tape every wall"}})
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	return w, nil
}

// trianglesError reports the taped triangles that cannot close. Up to the
// limit a triangle may fall short, for then it is flat, and tapes differ.
func (w *web) trianglesError(limit length.Length) error {
	var errs []error
	for i := range w.n {
		for j := i + 1; j < w.n; j++ {
			for k := j + 1; k < w.n; k++ {
				ij, jk, ik := w.between(i, j), w.between(j, k), w.between(i, k)
				if ij < 0 || jk < 0 || ik < 0 {
					continue
				}
				a, b, long := ij, jk, ik
				if w.taped(jk) > w.taped(long) {
					a, b, long = ij, ik, jk
				}
				if w.taped(ij) > w.taped(long) {
					a, b, long = jk, ik, ij
				}
				short, side := w.taped(long)-w.taped(a)-w.taped(b), min(w.taped(a), w.taped(b))
				if short <= min(float64(limit), side/10) {
					continue
				}
				errs = append(errs, &ReadingError{
					Readings: []int{ij, jk, ik},
					wrong: words{w.name(ij) + ", " + w.name(jk) + " and " + w.name(ik) + " cannot make a triangle: ",
						w.readings[a].Length, " and ", w.readings[b].Length, " do not reach ", w.readings[long].Length},
					do: words{"Tape the three again"},
				})
				if len(errs) == 3 { // one wrong reading can spoil many
					return errors.Join(errs...)
				}
			}
		}
	}
	return errors.Join(errs...)
}

// looseError says which corner lacks a diagonal when only the corners placed
// could be built up from one another.
func (w *web) looseError(placed []int) error {
	fixed := make([]bool, w.n)
	for _, i := range placed {
		fixed[i] = true
	}
	need := 2*w.n - 3 - len(w.readings)
	if len(placed) == 2 && len(w.readings) == w.n {
		return &ReadingError{
			Corners: []int{0, 2},
			wrong:   words{strconv.Itoa(w.n) + " walls alone do not fix the room, it could lean either way"},
			do: words{"Tape " + strconv.Itoa(need) + " " + plural(need, "diagonal", "diagonals") + " too, " + CornerName(0) + CornerName(2) +
				" for a start, so that triangles fill the room"},
		}
	}
	for i := range w.n {
		before := (i + w.n - 1) % w.n
		if fixed[i] || !fixed[before] {
			continue
		}
		// Corner i begins a run of loose corners: a diagonal to the corner
		// after the run closes a triangle. Without one, to any fixed corner.
		to := i
		for !fixed[to] {
			to = (to + 1) % w.n
		}
		for t := 0; (to == i || to == before || w.between(i, to) >= 0) && t < w.n; t++ {
			if fixed[t] {
				to = t
			}
		}
		return &ReadingError{
			Corners: []int{i, to},
			wrong:   words{"Corner " + CornerName(i) + " lacks a diagonal: so far only one reading holds it to the corners that are fixed"},
			do:      words{"Tape " + LineName(i, to, w.n) + ", or another diagonal from " + CornerName(i)},
		}
	}
	panic("survey: no corner is loose")
}

// shortError says that two readings do not reach each other, when the
// distance between their other ends follows from further readings.
func (w *web) shortError(p placing) error {
	a, b := w.between(p.shortAt[0], p.shortAt[1]), w.between(p.shortAt[0], p.shortAt[2])
	return &ReadingError{
		Readings: []int{a, b},
		Corners:  p.shortAt[:1],
		wrong: words{w.name(a) + " and " + w.name(b) + " do not meet in corner " + CornerName(p.shortAt[0]) + ": they miss by ",
			length.Length(p.short), " with " + CornerName(p.shortAt[1]) + " and " + CornerName(p.shortAt[2]) + " where the other readings put them"},
		do: words{"Tape both again, then the others"},
	}
}

// outlineError says that the adjusted room is no outline, or that an inner
// corner is none.
func (w *web) outlineError(ring plane.Ring, inner []int) error {
	flaw, i, j := ring.Check()
	switch {
	case flaw == plane.Repeated:
		return &ReadingError{Corners: []int{i, j},
			wrong: words{"With these readings corners " + CornerName(i) + " and " + CornerName(j) + " fall on the same point"},
			do:    words{"Check the readings to both"}}
	case flaw == plane.Crossing:
		return &ReadingError{
			Readings: []int{w.between(i, (i+1)%w.n), w.between(j, (j+1)%w.n)},
			wrong:    words{"With these readings walls " + WallName(i, w.n) + " and " + WallName(j, w.n) + " cross or touch"},
			do:       words{"Check the readings to their corners, and that the letters follow each other round the room"}}
	case flaw != plane.Sound:
		return &ReadingError{wrong: words{"With these readings all corners lie on one line"}, do: words{"Check the readings"}}
	}
	for _, i := range inner {
		if i < 0 || i >= w.n || !reflex(ring, i) {
			return &ReadingError{Corners: []int{i},
				wrong: words{"With these readings corner " + CornerName(max(i, 0)) + " is not an inner corner"},
				do:    words{"Check the readings to it"}}
		}
	}
	return nil
}

// reflex says whether a counter-clockwise ring takes up more than half a turn
// at corner i.
func reflex(ring plane.Ring, i int) bool {
	a, b := ring.Edge(i - 1)
	_, c := ring.Edge(i)
	return b.Sub(a).Cross(c.Sub(b)) < 0
}
