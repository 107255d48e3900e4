package plane

import "math"

// InsetError names the edges between which an inset has no room. Edges are
// numbered as in the ring given to Inset. All is set when nothing is left of
// the whole ring.
type InsetError struct {
	Edges []int
	All   bool
}

func (e *InsetError) Error() string {
	if e.All {
		return "the inset leaves nothing of the outline"
	}
	return "the inset does not fit between some of the edges"
}

// Inset moves every edge of a sound ring to its left by its own distance in
// mm (to the inside of a ring that runs counter-clockwise, outward round a
// hole that runs clockwise) and mitres the corners. Edges says which edge of
// r each edge of the result comes from: an edge between two outward corners
// that the inset uses up is left out, and its neighbours meet instead.
//
// The error is an *InsetError when an alcove or the whole ring is too narrow.
func (r Ring) Inset(by []float64) (inset Ring, edges []int, err error) {
	edges = make([]int, len(r))
	for i := range edges {
		edges[i] = i
	}
	for len(edges) >= 3 {
		ring, ok := r.mitred(edges, by, 1)
		if !ok {
			return nil, nil, &InsetError{Edges: r.tight(edges, by)}
		}
		gone := r.firstGone(edges, by, ring)
		if gone < 0 {
			if (ring.Area() > 0) != (r.Area() > 0) {
				return nil, nil, &InsetError{Edges: edges, All: true}
			}
			if flaw, i, j := ring.Check(); flaw != Sound {
				if flaw == NoArea || flaw == TooFew {
					return nil, nil, &InsetError{Edges: edges, All: true}
				}
				return nil, nil, &InsetError{Edges: r.facing(edges, by, edges[i], edges[j])}
			}
			return ring, edges, nil
		}
		n := len(edges)
		before, at, after := edges[(gone+n-1)%n], edges[gone], edges[(gone+1)%n]
		if n > 3 && (r.turn(before, at) <= 0 || r.turn(at, after) <= 0 || r.opposed(before, after)) {
			// Between two opposed edges of the last four nothing else is left.
			whole := n == 4 && r.Area() > 0
			return nil, nil, &InsetError{Edges: []int{before, at, after}, All: whole}
		}
		edges = append(edges[:gone:gone], edges[gone+1:]...)
	}
	all := make([]int, len(r))
	for i := range all {
		all[i] = i
	}
	return nil, nil, &InsetError{Edges: all, All: true}
}

// direction returns the unit vector along edge i.
func (r Ring) direction(i int) Point {
	a, b := r.Edge(i)
	d := b.Sub(a)
	return d.Times(1 / d.Length())
}

// turn returns the sine of the turn to the left from edge i to edge j.
func (r Ring) turn(i, j int) float64 { return r.direction(i).Cross(r.direction(j)) }

// opposed says whether edges i and j face each other, so that they never meet
// in a corner however far both are moved.
func (r Ring) opposed(i, j int) bool {
	u, v := r.direction(i), r.direction(j)
	return u.Dot(v) < 0 && u.Cross(v) < 1e-9
}

// mitred returns the corners where the kept edges meet after each has moved
// by the share t of its distance. It fails where neighbours are parallel and
// do not lie in one line.
func (r Ring) mitred(edges []int, by []float64, t float64) (Ring, bool) {
	n := len(edges)
	ring := make(Ring, 0, n)
	for k, j := range edges {
		i := edges[(k+n-1)%n] // the corner between edge i and edge j
		u, v := r.direction(i), r.direction(j)
		_, end := r.Edge(i)
		start, _ := r.Edge(j)
		p := end.Add(Point{-u.Y, u.X}.Times(by[i] * t))
		q := start.Add(Point{-v.Y, v.X}.Times(by[j] * t))
		if s, ok := Meet(p, u, q, v); ok {
			ring = append(ring, p.Add(u.Times(s)))
			continue
		}
		if u.Dot(v) < 0 || math.Abs(q.Sub(p).Cross(u)) > samePoint {
			return nil, false
		}
		ring = append(ring, q)
	}
	return ring, true
}

// firstGone returns which of the kept edges the inset uses up first, or -1
// when every edge of the inset ring still runs the way it did.
func (r Ring) firstGone(edges []int, by []float64, ring Ring) int {
	first, when := -1, math.Inf(1)
	var before Ring
	for k, i := range edges {
		a, b := ring.Edge(k)
		after := b.Sub(a).Dot(r.direction(i))
		if after > samePoint {
			continue
		}
		if before == nil {
			before, _ = r.mitred(edges, by, 0)
		}
		a, b = before.Edge(k)
		length := b.Sub(a).Dot(r.direction(i))
		if t := length / (length - after); t < when {
			first, when = k, t
		}
	}
	return first
}

// facing returns the two kept edges that face each other and whose inset meets
// first; i and j, which are known to cross, if there are none such.
func (r Ring) facing(edges []int, by []float64, i, j int) []int {
	found, least, most := []int{i, j}, 1+1e-9, 0.0
	for k, i := range edges {
		for _, j := range edges[k+1:] {
			dot := r.direction(i).Dot(r.direction(j))
			if (i+1)%len(r) == j || (j+1)%len(r) == i || dot >= 0 {
				continue
			}
			// The share of the inset at which they can meet at the earliest;
			// of pairs that meet at the same corner, the more opposed one.
			a, b := r.Edge(i)
			c, d := r.Edge(j)
			share := apart(a, b, c, d) / (by[i] + by[j])
			if share < least-1e-9 || share < least+1e-9 && dot < most {
				found, least, most = []int{i, j}, share, dot
			}
		}
	}
	return found
}

// tight returns the neighbours among the kept edges that lie side by side
// without a corner between them.
func (r Ring) tight(edges []int, by []float64) []int {
	n := len(edges)
	for k, j := range edges {
		i := edges[(k+n-1)%n]
		u, v := r.direction(i), r.direction(j)
		if math.Abs(u.Cross(v)) < 1e-9 && (u.Dot(v) < 0 || math.Abs(by[i]-by[j]) > samePoint) {
			return []int{i, j}
		}
	}
	return edges
}
