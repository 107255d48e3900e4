package floor

import (
	"errors"
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
	out := make([]walled, len(rings))
	for h, ring := range rings {
		in, err := ring.inset(func(wall int) float64 { return float64(by(h, wall)) })
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
