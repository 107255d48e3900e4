package survey

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Doorway is an opening between two rooms, measured in each.
type Doorway struct {
	// WallA and WallB are the walls it is in. AtA and AtB are the distances
	// from the first corner of the wall to the nearer jamb, each in the order
	// in which its room's corners are given.
	WallA, WallB int
	AtA, AtB     length.Length
	Width        length.Length // between the jambs
	Depth        length.Length // through the wall, 0 for an opening without one
}

// Joined is two rooms and the passage between them as one room.
type Joined struct {
	// Outline runs counter-clockwise and lies where the first room lies.
	Outline plane.Ring

	from, to plane.Point // a jamb in the second room's frame, and in the first's
	cos, sin float64     // how the second room is turned
}

// FromSecond takes a point of the second room's frame, of a hearth say, to the
// frame of the outline.
func (j *Joined) FromSecond(p plane.Point) plane.Point {
	return p.Sub(j.from).Turned(j.cos, j.sin).Add(j.to)
}

// Join lays room b so that its wall faces room a's across a doorway, and makes
// one outline of the two and the passage. Both may run either way. The walls
// of the doorway are parallel by construction: b is turned to fit. The error is
// a *ShapeError when a room is no outline, the doorway does not fit on a wall,
// or the rooms come to lie on one another.
func Join(a, b plane.Ring, door Doorway) (*Joined, error) {
	first, errA := newSide(a, door.WallA, door.AtA, door.Width, "first")
	second, errB := newSide(b, door.WallB, door.AtB, door.Width, "second")
	if errA != nil {
		return nil, errA
	}
	if errB != nil {
		return nil, errB
	}
	if !(door.Depth >= 0 && door.Depth <= length.Longest) {
		return nil, &ShapeError{words{"A doorway cannot be ", door.Depth, " deep"}, words{"Give the thickness of the wall, or 0"}}
	}
	u, v := first.along, second.along
	out := plane.Point{X: u.Y, Y: -u.X}
	j := &Joined{
		from: second.jambs[1],
		to:   first.jambs[0].Add(out.Times(float64(door.Depth))),
		// v is turned to -u.
		cos: -v.Dot(u), sin: -v.Cross(u),
	}
	var labels []words // of the edge that starts at each corner
	add := func(p plane.Point, edge words) {
		if n := len(j.Outline); n > 0 && p.Sub(j.Outline[n-1]).Length() < sameCorner {
			labels[n-1] = edge
			return
		}
		j.Outline = append(j.Outline, p)
		labels = append(labels, edge)
	}
	passage := words{"the passage"}
	n, m := len(first.ring), len(second.ring)
	for k := 1; k <= n; k++ {
		i := (first.wall + k) % n
		add(first.ring[i], first.label(i))
	}
	add(first.jambs[0], passage)
	add(j.FromSecond(second.jambs[1]), second.label(second.wall))
	for k := 1; k <= m; k++ {
		i := (second.wall + k) % m
		add(j.FromSecond(second.ring[i]), second.label(i))
	}
	add(j.FromSecond(second.jambs[0]), passage)
	add(first.jambs[1], first.label(first.wall))
	if last := len(j.Outline) - 1; j.Outline[last].Sub(j.Outline[0]).Length() < sameCorner {
		j.Outline, labels = j.Outline[:last], labels[:last]
	}
	switch flaw, e, f := j.Outline.Check(); flaw {
	case plane.Sound:
		return j, nil
	case plane.Crossing:
		wrong := append(append(words{"The rooms would lie on one another: "}, labels[e]...), " and ")
		return nil, &ShapeError{append(append(wrong, labels[f]...), " meet"),
			words{"Check which walls the doorway is in, and where in them"}}
	default:
		return nil, &ShapeError{words{"The rooms would lie on one another"},
			words{"Check which walls the doorway is in, and where in them"}}
	}
}

// side is one room of a doorway, run counter-clockwise.
type side struct {
	ring     plane.Ring
	wall     int
	along    plane.Point    // unit vector along the wall
	jambs    [2]plane.Point // in that order
	room     string
	reversed bool
}

func newSide(ring plane.Ring, wall int, at, width length.Length, room string) (*side, error) {
	n := len(ring)
	for _, p := range ring {
		if !(math.Abs(p.X) <= float64(length.Longest) && math.Abs(p.Y) <= float64(length.Longest)) { // so that NaN fails too
			return nil, &ShapeError{words{"The " + room + " room has a corner that is no place"}, words{"Check its readings"}}
		}
	}
	if flaw, _, _ := ring.Check(); flaw != plane.Sound {
		return nil, &ShapeError{words{"The outline of the " + room + " room crosses itself or has no floor"}, words{"Put that right first"}}
	}
	if wall < 0 || wall >= n {
		return nil, &ShapeError{words{"The " + room + " room has no such wall"}, words{"Choose one of AB to " + WallName(n-1, n)}}
	}
	p, q := ring.Edge(wall)
	whole := length.Length(q.Sub(p).Length())
	if !(width > sameCorner && width <= length.Longest) {
		return nil, &ShapeError{words{"A doorway cannot be ", width, " wide"}, words{"Give the distance between its jambs"}}
	}
	if !(at >= -sameCorner && at+width <= whole+sameCorner) {
		return nil, &ShapeError{
			words{"A doorway from ", at, " to ", at + width, " does not fit on wall " + WallName(wall, n) + " of the " + room + " room, which is ", whole, " long"},
			words{"Check the doorway's width and its distance from corner " + CornerName(wall)},
		}
	}
	s := &side{ring: ring, wall: wall, room: room}
	if ring.Area() < 0 {
		s.ring, s.reversed = ring.Reversed(), true
		s.wall = s.given(wall)
		at = whole - at - width
	}
	p, q = s.ring.Edge(s.wall)
	s.along = q.Sub(p).Times(1 / float64(whole))
	s.jambs = [2]plane.Point{
		p.Add(s.along.Times(float64(at))),
		p.Add(s.along.Times(float64(at + width))),
	}
	return s, nil
}

// given takes the number of a wall in the ring to the one it was given by, and
// the other way.
func (s *side) given(wall int) int {
	n := len(s.ring)
	if !s.reversed {
		return wall
	}
	return ((n-2-wall)%n + n) % n
}

func (s *side) label(wall int) words {
	return words{"wall " + WallName(s.given(wall), len(s.ring)) + " of the " + s.room + " room"}
}
