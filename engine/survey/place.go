package survey

import (
	"math"
	"slices"

	"keelrow/engine/plane"
)

// order returns the corners in an order in which each, from the third on, is
// held by two or more readings to corners before it. Whole is false when no
// order takes in all corners; then it is the longest.
func (w *web) order() (longest []int, whole bool) {
	for k, r := range w.readings {
		if w.between(r.From, r.To) != k {
			continue // left out
		}
		order := w.orderFrom(r.From, r.To)
		if len(order) == w.n {
			return order, true
		}
		if len(order) > len(longest) {
			longest = order
		}
	}
	return longest, false
}

// orderFrom builds on one reading, always taking the corner that is held best.
func (w *web) orderFrom(a, b int) []int {
	order := []int{a, b}
	held := make([]int, w.n) // readings to corners placed; -1 once placed itself
	place := func(i int) {
		held[i] = -1
		for j := range w.n {
			if held[j] >= 0 && w.between(i, j) >= 0 {
				held[j]++
			}
		}
	}
	place(a)
	place(b)
	for {
		best := 0
		for i := range w.n {
			if held[i] > held[best] {
				best = i
			}
		}
		if held[best] < 2 {
			return order
		}
		order = append(order, best)
		place(best)
	}
}

// placing is one way to build the corners up.
type placing struct {
	ring    plane.Ring // as Result.Outline
	flipped []int      // the corners put on the less usual side
	free    []int      // the corners whose side only a rule decides
	sum     float64    // of squared differences from the readings
	worst   float64    // largest difference
	rank    int        // see rankOf
	short   float64    // largest miss between two readings that have to meet
	shortAt [3]int     // at the first of these corners, coming from the others
}

// place puts the corners down in order. A corner that two readings hold goes
// to the side that keeps corners counter-clockwise in the order of their
// letters, which is right for every triangle within the room, or to the other
// side if it is flipped. A corner that more readings hold goes where the
// others fit.
func (w *web) place(order, flipped []int) placing {
	p := placing{ring: make(plane.Ring, w.n), flipped: flipped}
	ring := p.ring
	ring[order[1]] = plane.Point{X: w.taped(w.between(order[0], order[1]))}
	for step, v := range order[2:] {
		var held []int
		for _, i := range order[:step+2] {
			if w.between(v, i) >= 0 {
				held = append(held, i)
			}
		}
		a, b := w.base(ring, v, held)
		if a > b {
			a, b = b, a
		}
		left, right, short := w.meet(ring, v, a, b)
		if short > p.short {
			p.short, p.shortAt = short, [3]int{v, a, b}
		}
		if a < v && v < b {
			left, right = right, left
		}
		if len(held) == 2 {
			p.free = append(p.free, v)
		} else if l, r := w.misfit(ring, v, left, held), w.misfit(ring, v, right, held); r < l/4 {
			left, right = right, left
		}
		if slices.Contains(flipped, v) {
			left, right = right, left
		}
		ring[v] = left
	}
	p.ring = framed(ring)
	for _, r := range w.readings {
		if k := w.between(r.From, r.To); k >= 0 {
			off := p.ring[r.From].Sub(p.ring[r.To]).Length() - w.taped(k)
			p.sum += off * off
			p.worst = max(p.worst, math.Abs(off))
		}
	}
	return p
}

// base chooses the two of the corners that hold v whose readings meet most
// squarely.
func (w *web) base(ring plane.Ring, v int, held []int) (a, b int) {
	const enough = 8 // a good pair is among the first ones
	if len(held) > enough {
		held = held[:enough]
	}
	best := math.Inf(-1)
	a, b = held[0], held[1]
	for k, i := range held {
		for _, j := range held[:k] {
			p, q := w.taped(w.between(v, i)), w.taped(w.between(v, j))
			d := ring[i].Sub(ring[j]).Length()
			if square := -math.Abs(p*p+q*q-d*d) / (p * q); square > best {
				best, a, b = square, i, j
			}
		}
	}
	return a, b
}

// meet returns where the readings from a and b to v meet, left and right of
// the way from a to b. When they do not reach each other, that is one point
// between, and short is by how much.
func (w *web) meet(ring plane.Ring, v, a, b int) (left, right plane.Point, short float64) {
	p, q := w.taped(w.between(v, a)), w.taped(w.between(v, b))
	way := ring[b].Sub(ring[a])
	d := way.Length()
	if d < sameCorner {
		// Two corners before fell on one point; any direction serves.
		way, d = plane.Point{X: 1}, 1
		return ring[a].Add(way.Times(p)), ring[a].Add(way.Times(p)), math.Abs(p - q)
	}
	way = way.Times(1 / d)
	short = max(d-p-q, p-q-d, q-p-d, 0)
	along := ((p-q)*(p+q)/d + d) / 2
	// Height from the stable form of Heron's formula.
	square := (p + q + d) * (p + q - d) * (d + p - q) * (d + q - p)
	if short > 0 || square <= 0 {
		along = max(min(along, p), -p)
		square = 0
	}
	up := math.Sqrt(square) / (2 * d)
	foot := ring[a].Add(way.Times(along))
	out := plane.Point{X: -way.Y, Y: way.X}.Times(up)
	return foot.Add(out), foot.Sub(out), short
}

// misfit returns the sum of squared differences of the readings to v, were it
// at p.
func (w *web) misfit(ring plane.Ring, v int, p plane.Point, held []int) (sum float64) {
	for _, i := range held {
		off := ring[i].Sub(p).Length() - w.taped(w.between(v, i))
		sum += off * off
	}
	return sum
}

// sameCorner is the distance under which two corners count as one point.
const sameCorner = 1e-6

// framed returns the ring with its first corner at the origin, its second on
// the +x axis, and running counter-clockwise.
func framed(ring plane.Ring) plane.Ring {
	way := ring[1].Sub(ring[0])
	d := way.Length()
	if d < sameCorner {
		way, d = plane.Point{X: 1}, 1
	}
	mirror := 1.0
	if ring.Area() < 0 {
		mirror = -1
	}
	out := make(plane.Ring, len(ring))
	for i, p := range ring {
		out[i] = p.Sub(ring[0]).Turned(way.X/d, -way.Y/d)
		out[i].Y *= mirror
	}
	out[1].Y = 0
	return out
}

// mostPlacings is how many ways of building up are tried at most. The first is
// right in nearly every room.
const mostPlacings = 2000

// search tries the ways to build up, those with fewer flips first: all of them
// in a small room, up to two flips in others. It stops at the first that
// nothing speaks against.
func (w *web) search(order []int, limit float64, inner []int, most int) placing {
	best := w.place(order, nil)
	best.rank = w.rankOf(best.ring, inner)
	flips := 2
	if len(best.free) <= 8 {
		flips = len(best.free)
	}
	tried := 1
	for size := 1; size <= flips; size++ {
		chosen := make([]int, size)
		for k := range chosen {
			chosen[k] = k
		}
		for more := true; more && tried < most; more = next(chosen, len(best.free)) {
			if best.rank == topRank && best.worst <= limit {
				return best
			}
			tried++
			flipped := make([]int, size)
			for k, f := range chosen {
				flipped[k] = best.free[f]
			}
			p := w.place(order, flipped)
			p.rank = w.rankOf(p.ring, inner)
			if p.beats(best, limit) {
				best = p
			}
		}
	}
	return best
}

// next moves on to the next choice of len(chosen) from n, in order, and
// reports whether there is one.
func next(chosen []int, n int) bool {
	for k := len(chosen) - 1; k >= 0; k-- {
		if chosen[k] < n-len(chosen)+k {
			chosen[k]++
			for l := k + 1; l < len(chosen); l++ {
				chosen[l] = chosen[l-1] + 1
			}
			return true
		}
	}
	return false
}

// beats says whether p is to be preferred to q, which has no more flips.
func (p placing) beats(q placing, limit float64) bool {
	const clearly = 16 // a quarter of the misfit, in squares
	switch {
	case p.rank == 0 || q.rank == 0:
		return p.rank > q.rank
	case q.worst > limit && p.sum < q.sum/clearly:
		return true
	case p.worst > limit && q.sum < p.sum/clearly:
		return false
	}
	return p.rank > q.rank
}

// topRank is the rank of a placing that nothing speaks against.
const topRank = 3

// rankOf returns 0 for a ring that is no outline, 1 for one that lacks an
// inner corner, 2 for one that a diagonal leaves, and topRank for others.
func (w *web) rankOf(ring plane.Ring, inner []int) int {
	if flaw, _, _ := ring.Check(); flaw != plane.Sound {
		return 0
	}
	for _, i := range inner {
		if i < 0 || i >= w.n || !reflex(ring, i) {
			return 1
		}
	}
	for k, r := range w.readings {
		if w.between(r.From, r.To) == k && !w.isWall(k) && leaves(ring, r.From, r.To) {
			return 2
		}
	}
	return topRank
}

// byAWall is how far a diagonal may run outside the outline, in mm, and still
// pass as taped along a wall or round an inner corner.
const byAWall = 10

// leaves says whether the line between corners i and j of a ring runs outside
// it.
func leaves(ring plane.Ring, i, j int) bool {
	a, b := ring[i], ring[j]
	middle := a.Add(b).Times(0.5)
	near := math.Inf(1)
	for e := range ring {
		c, d := ring.Edge(e)
		near = min(near, plane.FromEdge(middle, c, d))
		if f := (e + 1) % len(ring); e == i || e == j || f == i || f == j {
			continue
		}
		side := b.Sub(a)
		s, t := side.Cross(c.Sub(a)), side.Cross(d.Sub(a))
		wall := d.Sub(c)
		u, v := wall.Cross(a.Sub(c)), wall.Cross(b.Sub(c))
		if (s > 0) != (t > 0) && (u > 0) != (v > 0) &&
			min(plane.FromEdge(c, a, b), plane.FromEdge(d, a, b)) > byAWall {
			return true
		}
	}
	return near > byAWall && !plane.Inside(middle, ring)
}

// either returns the corners that could as well lie on the other side.
func (w *web) either(order []int, found placing, inner []int, limit float64) (corners []int) {
	for _, v := range found.free {
		var flipped []int
		for _, i := range found.flipped {
			if i != v {
				flipped = append(flipped, i)
			}
		}
		if len(flipped) == len(found.flipped) {
			flipped = append(flipped, v)
		}
		other := w.place(order, flipped)
		if other.worst > max(limit, 4*found.worst) || w.rankOf(other.ring, inner) < found.rank {
			continue
		}
		for i := range other.ring {
			if other.ring[i].Sub(found.ring[i]).Length() > 2*limit {
				corners = append(corners, v)
				break
			}
		}
	}
	slices.Sort(corners)
	return corners
}
