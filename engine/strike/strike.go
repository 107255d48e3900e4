// Package strike says what a layer marks on site: where every chalk line meets
// the walls, what the trammel is set to, how far a base line can be trusted,
// what is left at the walls, and what to measure as the rows go down.
//
// Lengths are millimetres in the room frame of package floor. Every reading
// along a wall is taken from the wall's first corner, as the outline was
// given, so that the tape is hooked once for each wall and no rounding adds to
// another. Nothing here knows how a reading is shown.
package strike

import (
	"math"
	"slices"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// tiny is the distance in mm under which two places are one: far below a mark
// on a tape, far above rounding.
const tiny = 1e-6

// wall is one wall of the room, or the line along it that ends the field.
type wall struct {
	hole, number int
	from, to     plane.Point // its corners, in the order in which they were given
	turned       bool        // that order runs against the ring's
	edges        int         // how many edges it is drawn with: more than one when bowed
}

// unit returns the direction from the wall's first corner to its last.
func (w wall) unit() plane.Point {
	d := w.to.Sub(w.from)
	return d.Times(1 / d.Length())
}

// outward returns the unit vector square to the wall that points out of the room.
func (w wall) outward() plane.Point {
	u := w.unit()
	if w.turned {
		u = u.Times(-1)
	}
	return plane.Point{X: u.Y, Y: -u.X} // rings have the room on their left
}

// end returns a point at the wall as a reading along it.
func (w wall) end(q plane.Point) End {
	u := w.unit()
	e := End{Hole: w.hole, Wall: w.number, Corner: w.number, Bowed: w.edges > 1, Point: q}
	e.Distance = length.Length(q.Sub(w.from).Dot(u))
	return e
}

// boundary is the rings of the room, or of the field, with their walls.
type boundary struct {
	rings []plane.Ring
	walls []wall
	of    [][]int // for each edge of each ring, its place in walls
}

// room returns the room's own walls.
func room(p *floor.Plan) boundary { return bounded(p, p.Room(), p.RoomWalls()) }

// field returns the lines along the walls that end the field.
func field(p *floor.Plan) boundary { return bounded(p, p.Field(), p.FieldWalls()) }

func bounded(p *floor.Plan, rings []plane.Ring, numbers [][]int) boundary {
	b := boundary{rings: rings, of: make([][]int, len(rings))}
	for h, ring := range rings {
		n := len(ring)
		b.of[h] = make([]int, n)
		// Begin where a wall begins.
		first := 0
		for first < n && numbers[h][first] == numbers[h][(first+n-1)%n] {
			first++
		}
		for k := range n {
			i := (first + k) % n
			from, to := ring.Edge(i)
			if k == 0 || numbers[h][i] != numbers[h][(i+n-1)%n] {
				b.walls = append(b.walls, wall{hole: h, number: numbers[h][i], from: from})
			}
			w := &b.walls[len(b.walls)-1]
			w.to = to
			w.edges++
			b.of[h][i] = len(b.walls) - 1
		}
	}
	for i := range b.walls {
		w := &b.walls[i]
		a, z := p.Chord(w.hole, w.number)
		if w.to.Sub(w.from).Dot(z.Sub(a)) < 0 {
			w.from, w.to, w.turned = w.to, w.from, true
		}
	}
	return b
}

// crossing is where a line meets a wall, as a multiple of its direction.
type crossing struct {
	at   float64
	wall int
}

// crossings returns in order where the line through q along dir meets the
// boundary: into what it bounds and out of it in turn.
func (b boundary) crossings(q, dir plane.Point) []crossing {
	var list []crossing
	for h, ring := range b.rings {
		for i := range ring {
			from, to := ring.Edge(i)
			sf, st := dir.Cross(from.Sub(q)), dir.Cross(to.Sub(q))
			if (sf > 0) == (st > 0) {
				continue
			}
			at := from.Add(to.Sub(from).Times(sf / (sf - st)))
			list = append(list, crossing{at.Sub(q).Dot(dir) / dir.Dot(dir), b.of[h][i]})
		}
	}
	slices.SortFunc(list, func(a, b crossing) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	return list
}

// parts returns the parts of the line through q along dir that lie within the
// boundary. A part that only touches a corner is left out.
func (b boundary) parts(q, dir plane.Point) []Part {
	var parts []Part
	list := b.crossings(q, dir)
	for i := 0; i+1 < len(list); i += 2 {
		long := (list[i+1].at - list[i].at) * dir.Length()
		if long <= tiny {
			continue
		}
		part := Part{Long: length.Length(long)}
		for k := range part.Ends {
			c := list[i+k]
			part.Ends[k] = b.walls[c.wall].end(q.Add(dir.Times(c.at)))
		}
		parts = append(parts, part)
	}
	return parts
}

// ahead returns the first wall met from q along dir, a unit vector, and how far it is.
func (b boundary) ahead(q, dir plane.Point) (e End, far length.Length, ok bool) {
	if !plane.Inside(q, b.rings...) {
		return End{}, 0, false
	}
	for _, c := range b.crossings(q, dir) {
		if c.at > 0 {
			return b.walls[c.wall].end(q.Add(dir.Times(c.at))), length.Length(c.at), true
		}
	}
	return End{}, 0, false
}

// right returns the direction to the right of a direction.
func right(along plane.Point) plane.Point { return plane.Point{X: along.Y, Y: -along.X} }

// whole returns how many whole times b goes into a, a hair short counting as whole.
func whole(a, b length.Length) int { return int(math.Floor(float64(a/b) + 1e-9)) }
