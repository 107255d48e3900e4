package scene

import (
	"math"

	"keelrow/engine/plane"
)

// triangles cuts one piece of a block into convex quadrilaterals, in the
// block's own frame. It is kept between pieces for its memory.
type triangles struct {
	ring plane.Ring // counter-clockwise; holes are joined to it by bridges
	hole plane.Ring
	out  [][4]plane.Point
}

// start takes the outline of a piece.
func (t *triangles) start(outline plane.Ring, middle, dir plane.Point) {
	t.ring = appendLocal(t.ring[:0], outline, middle, dir, true)
}

// appendLocal appends a ring in the block's own frame, turned round if need
// be so that it runs counter-clockwise, or clockwise. A corner given twice is
// taken once: it would hide which way the ring turns there.
func appendLocal(to, r plane.Ring, middle, dir plane.Point, counter bool) plane.Ring {
	forward := (r.Area() > 0) == counter
	const same = 1e-4 // mm, a hundredth of what an instance can hold
	for i := range r {
		p := r[i]
		if !forward {
			p = r[len(r)-1-i]
		}
		q := local(p.Sub(middle), dir)
		if n := len(to); n == 0 || q.Sub(to[n-1]).Length() > same {
			to = append(to, q)
		}
	}
	if n := len(to); n > 1 && to[n-1].Sub(to[0]).Length() <= same {
		to = to[:n-1]
	}
	return to
}

// bridge joins a hole to the outline: from the hole's rightmost corner to the
// nearest corner of the outline that it sees.
func (t *triangles) bridge(hole plane.Ring, middle, dir plane.Point) {
	t.hole = appendLocal(t.hole[:0], hole, middle, dir, false)
	if len(t.hole) < 3 {
		return
	}
	from := 0
	for i, p := range t.hole {
		if p.X > t.hole[from].X {
			from = i
		}
	}
	to, least := -1, math.Inf(1)
	for i, p := range t.ring {
		if d := p.Sub(t.hole[from]).Length(); d < least && t.sees(i, from) {
			to, least = i, d
		}
	}
	if to < 0 {
		return
	}
	joined := make(plane.Ring, 0, len(t.ring)+len(t.hole)+2)
	joined = append(joined, t.ring[:to+1]...)
	for i := range t.hole {
		joined = append(joined, t.hole[(from+i)%len(t.hole)])
	}
	joined = append(joined, t.hole[from], t.ring[to])
	t.ring = append(joined, t.ring[to+1:]...)
}

// sees says whether the way from corner i of the ring to corner j of the hole
// lies inside the ring and outside the hole.
func (t *triangles) sees(i, j int) bool {
	p, q := t.ring[i], t.hole[j]
	n := len(t.ring)
	before, after := t.ring[(i+n-1)%n], t.ring[(i+1)%n]
	way := q.Sub(p)
	left, right := after.Sub(p).Cross(way) >= 0, way.Cross(before.Sub(p)) >= 0
	if convex := p.Sub(before).Cross(after.Sub(p)) >= 0; convex && !(left && right) || !convex && !(left || right) {
		return false
	}
	clear := func(r plane.Ring) bool {
		for k := range r {
			a, b := r.Edge(k)
			if a == p || b == p || a == q || b == q {
				continue
			}
			if plane.EdgesTouch(p, q, a, b) {
				return false
			}
		}
		return true
	}
	return clear(t.ring) && clear(t.hole)
}

// quads returns convex quadrilaterals that make up the ring; a triangle
// repeats its third corner. Ears are cut off until the rest is convex (the
// two ears theorem: G. H. Meisters, American Mathematical Monthly 82, 1975,
// from memory); the rest is a fan.
func (t *triangles) quads() [][4]plane.Point {
	ring := t.ring
	t.out = t.out[:0]
	for len(ring) > 3 && !convex(ring) {
		ear := findEar(ring)
		n := len(ring)
		t.out = append(t.out, [4]plane.Point{ring[(ear+n-1)%n], ring[ear], ring[(ear+1)%n], ring[(ear+1)%n]})
		ring = append(ring[:ear], ring[ear+1:]...)
	}
	for i := 1; i+1 < len(ring); i += 2 {
		t.out = append(t.out, [4]plane.Point{ring[0], ring[i], ring[i+1], ring[min(i+2, len(ring)-1)]})
	}
	return t.out
}

// convex says whether a ring turns left at every corner and only once round.
// A ring that winds twice would need a corner turning right somewhere in it,
// unless its edges cross, which outlines do not.
func convex(ring plane.Ring) bool {
	for i := range ring {
		if corner(ring, i) < 0 {
			return false
		}
	}
	return true
}

// corner returns twice the area of the triangle at corner i, negative where
// the ring turns right.
func corner(ring plane.Ring, i int) float64 {
	n := len(ring)
	a, b, c := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
	return b.Sub(a).Cross(c.Sub(b))
}

// findEar returns a corner whose triangle lies inside the ring with no other
// corner in it: the largest, for the roundest triangles. Where rounding has
// left none it returns the flattest corner, which loses next to nothing.
func findEar(ring plane.Ring) int {
	n := len(ring)
	ear, flattest := -1, 0
	var largest float64
	least := math.Inf(1)
	for i := range ring {
		area := corner(ring, i)
		if math.Abs(area) < least {
			flattest, least = i, math.Abs(area)
		}
		if area <= largest {
			continue
		}
		a, b, c := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
		free := true
		for k := 2; k < n-1 && free; k++ {
			p := ring[(i+k)%n]
			free = p == a || p == b || p == c ||
				b.Sub(a).Cross(p.Sub(a)) < 0 || c.Sub(b).Cross(p.Sub(b)) < 0 || a.Sub(c).Cross(p.Sub(c)) < 0
		}
		if free {
			ear, largest = i, area
		}
	}
	if ear < 0 {
		return flattest
	}
	return ear
}
