package floor

import (
	"errors"
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// gapAt returns the gap of a wall of the outline, or of a hole.
func (j Job) gapAt(hole, wall int) length.Length {
	if hole > 0 {
		return j.Gap
	}
	return at(j.GapAt, wall, j.Gap)
}

// borderAt returns the width of the border along a wall of the outline, or
// round a hole.
func (j Job) borderAt(hole, wall int) length.Length {
	if hole > 0 {
		return j.Border
	}
	return at(j.BorderAt, wall, j.Border)
}

// inset moves every edge of the room and its holes inward and says in the
// user's words where that does not fit. Hole is 0 for the outline and from 1
// for the holes. What names the distance, key is the value to change.
func inset(rings []walled, by func(hole, wall int) length.Length, key, what string) ([]walled, error) {
	// Where every wall asks for the same, its size is said.
	size, same := by(0, 0), true
	for h, ring := range rings {
		for _, wall := range ring.wall {
			same = same && by(h, wall) == size
		}
	}
	if same {
		what += " of " + mm(float64(size))
	}
	out := make([]walled, len(rings))
	for h, ring := range rings {
		here := func(wall int) length.Length { return by(h, wall) }
		if err := ring.stepError(here, key, what); err != nil {
			return nil, err
		}
		in, err := ring.inset(func(wall int) float64 { return float64(here(wall)) })
		var tight *plane.InsetError
		if errors.As(err, &tight) {
			return nil, insetError(tight, ring, h, key, what)
		}
		out[h] = in
	}
	corners := cornersOf(rings[0])
	for h, hole := range out[1:] {
		name := "hole " + strconv.Itoa(h+1)
		if i, _, cross := ringsCross(out[0].Ring, hole.Ring); cross || !plane.Inside(hole.Ring[0], out[0].Ring) {
			wall := out[0].wall[i]
			if !cross {
				wall = rings[0].wall[nearestEdge(rings[h+1].Ring[0], rings[0].Ring)]
			}
			return nil, &FieldError{Key: key,
				Wrong: "There is no room between " + name + " and " + walls([]int{wall}, corners) + " for the " + what + " at both",
				Do:    "Make it narrower, or make the hole part of the outline",
				Walls: []int{wall}}
		}
		for g, other := range out[1 : h+1] {
			if _, _, cross := ringsCross(other.Ring, hole.Ring); cross || plane.Inside(hole.Ring[0], other.Ring) {
				return nil, &FieldError{Key: key,
					Wrong: "There is no room between holes " + strconv.Itoa(g+1) + " and " + strconv.Itoa(h+1) + " for the " + what + " at both",
					Do:    "Make it narrower, or join the holes into one"}
			}
		}
	}
	return out, nil
}

// cornersOf returns how many corners the outline was given by.
func cornersOf(w walled) int {
	most := 0
	for _, wall := range w.wall {
		most = max(most, wall)
	}
	return most + 1
}

// Walls that turn by less than almostInLine, given by its sine, count as
// lying in one line where what is left along them differs.
const almostInLine = 0.035 // 2 degrees

// stepError refuses a ring where two walls in one line ask for different
// insets: no corner can be mitred there, or only one so far along that it uses
// up one of the two.
func (w walled) stepError(by func(wall int) length.Length, key, what string) error {
	n := len(w.Ring)
	long := make(map[int]float64)
	for i, wall := range w.wall {
		a, b := w.Edge(i)
		long[wall] += b.Sub(a).Length()
	}
	for j, second := range w.wall {
		i := (j + n - 1) % n
		first := w.wall[i]
		step := math.Abs(float64(by(second) - by(first)))
		if step <= noStrip {
			continue
		}
		a, corner := w.Edge(i)
		_, b := w.Edge(j)
		u, v := corner.Sub(a), b.Sub(corner)
		sine := math.Abs(u.Cross(v)) / (u.Length() * v.Length())
		if u.Dot(v) < 0 || sine > almostInLine || step < sine*min(long[first], long[second]) {
			continue
		}
		list := []int{min(first, second), max(first, second)}
		corners := cornersOf(w)
		return &FieldError{Key: key, Walls: list,
			Wrong: "Walls " + WallName(list[0], corners) + " and " + WallName(list[1], corners) + " run on in one line, and the " + what +
				" would be " + mm(float64(by(list[0]))) + " along the one and " + mm(float64(by(list[1]))) + " along the other",
			Do: "Give both the same, or put the step between them into the outline as two corners"}
	}
	return nil
}

// insetError names the walls between which an inset of ring h does not fit.
func insetError(tight *plane.InsetError, ring walled, h int, key, what string) *FieldError {
	if tight.All && h == 0 {
		return &FieldError{Key: key,
			Wrong: "The " + what + " leaves no field in this room",
			Do:    "Make it narrower"}
	}
	list := ring.wallsOf(tight.Edges)
	err := &FieldError{Key: key,
		Wrong: "There is no room for the " + what + " between " + walls(list, cornersOf(ring)),
		Do:    "Make it narrower, or leave that recess out of the outline"}
	if h == 0 {
		err.Walls = list
	} else {
		err.Wrong += " of hole " + strconv.Itoa(h)
	}
	return err
}

// nearestEdge returns the edge of the ring that p lies nearest to.
func nearestEdge(p plane.Point, ring plane.Ring) int {
	nearest, best := 0, -1.0
	for i := range ring {
		a, b := ring.Edge(i)
		along := b.Sub(a)
		t := min(1, max(0, p.Sub(a).Dot(along)/along.Dot(along)))
		if d := p.Sub(a.Add(along.Times(t))).Length(); best < 0 || d < best {
			nearest, best = i, d
		}
	}
	return nearest
}
