package floor

import (
	"errors"
	"slices"
	"strconv"

	"keelrow/engine/plane"
)

// rings returns the room's outline counter-clockwise and its holes clockwise,
// and for each ring whether it had to be turned round for that.
func (j Job) rings() (rings []plane.Ring, turned []bool) {
	add := func(ring plane.Ring, ccw bool) {
		turn := ring.Area() > 0 != ccw
		if turn {
			ring = ring.Reversed()
		}
		rings, turned = append(rings, ring), append(turned, turn)
	}
	add(j.Room, true)
	for _, hole := range j.Holes {
		add(hole, false)
	}
	return rings, turned
}

// inset moves every edge of the room and its holes inward by the same
// distance in mm and says in the user's words where that does not fit. What
// names the distance, key is the value to change.
func (j Job) inset(by float64, key, what string) ([]plane.Ring, error) {
	rings, turned := j.rings()
	if by == 0 {
		return rings, nil
	}
	out := make([]plane.Ring, len(rings))
	for h, ring := range rings {
		inset, _, err := ring.Inset(slices.Repeat([]float64{by}, len(ring)))
		var tight *plane.InsetError
		if errors.As(err, &tight) {
			return nil, insetError(tight, h, len(ring), turned[h], key, what)
		}
		out[h] = inset
	}
	for h, hole := range out[1:] {
		name := "hole " + strconv.Itoa(h+1)
		if i, _, cross := ringsCross(out[0], hole); cross || !plane.Inside(hole[0], out[0]) {
			wall := []int{i}
			if !cross {
				wall = []int{j.nearestWall(rings[h+1][0], rings[0])}
			}
			if turned[0] {
				turnWalls(wall, len(rings[0]))
			}
			return nil, &FieldError{Key: key,
				Wrong: "There is no room between " + name + " and " + walls(wall, len(rings[0])) + " for the " + what + " at both",
				Do:    "Make it narrower, or make the hole part of the outline",
				Walls: wall}
		}
		for g, other := range out[1 : h+1] {
			if _, _, cross := ringsCross(other, hole); cross || plane.Inside(hole[0], other) {
				return nil, &FieldError{Key: key,
					Wrong: "There is no room between holes " + strconv.Itoa(g+1) + " and " + strconv.Itoa(h+1) + " for the " + what + " at both",
					Do:    "Make it narrower, or join the holes into one"}
			}
		}
	}
	return out, nil
}

// insetError names the walls between which an inset of ring h does not fit.
func insetError(tight *plane.InsetError, h, corners int, turned bool, key, what string) *FieldError {
	if tight.All && h == 0 {
		return &FieldError{Key: key,
			Wrong: "The " + what + " leaves no field in this room",
			Do:    "Make it narrower"}
	}
	list := slices.Clone(tight.Edges)
	if turned {
		turnWalls(list, corners)
	}
	slices.Sort(list)
	list = slices.Compact(list)
	err := &FieldError{Key: key,
		Wrong: "There is no room for the " + what + " between " + walls(list, corners),
		Do:    "Make it narrower, or leave that recess out of the outline"}
	if h == 0 {
		err.Walls = list
	} else {
		err.Wrong += " of hole " + strconv.Itoa(h)
	}
	return err
}

// turnWalls renumbers walls of a reversed outline to the order as given.
func turnWalls(list []int, corners int) {
	for k, i := range list {
		list[k] = (2*corners - 2 - i) % corners
	}
}

// nearestWall returns the edge of the ring that p lies nearest to.
func (j Job) nearestWall(p plane.Point, ring plane.Ring) int {
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
