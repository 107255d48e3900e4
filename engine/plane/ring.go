package plane

import "math"

// Ring is a closed outline; the last corner is joined to the first. Edge i
// runs from corner i to the next.
type Ring []Point

// Edge returns the ends of edge i, for any whole i.
func (r Ring) Edge(i int) (from, to Point) {
	n := len(r)
	i = ((i % n) + n) % n
	return r[i], r[(i+1)%n]
}

// Area returns the area in mm², positive when the ring runs
// counter-clockwise (the shoelace formula, taken about the first corner so
// that a room far from the origin loses no digits).
func (r Ring) Area() float64 {
	var twice float64
	for i := 1; i+1 < len(r); i++ {
		twice += r[i].Sub(r[0]).Cross(r[i+1].Sub(r[0]))
	}
	return twice / 2
}

// Perimeter returns the length of all edges in mm.
func (r Ring) Perimeter() float64 {
	var sum float64
	for i := range r {
		a, b := r.Edge(i)
		sum += b.Sub(a).Length()
	}
	return sum
}

// Reversed returns the ring run the other way round.
func (r Ring) Reversed() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// Box returns the corners of the ring's bounding box.
func (r Ring) Box() (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range r {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	return low, high
}

// Inside says whether p lies inside the rings, by the even-odd rule. Points
// on an edge may fall either way.
func Inside(p Point, rings ...Ring) bool {
	odd := false
	for _, r := range rings {
		for i := range r {
			a, b := r.Edge(i)
			if (a.Y > p.Y) != (b.Y > p.Y) &&
				p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				odd = !odd
			}
		}
	}
	return odd
}

// Meet returns where the line through a along u meets the line through b
// along v, as a multiple of u from a. It reports false for parallel lines.
func Meet(a, u, b, v Point) (float64, bool) {
	den := u.Cross(v)
	if math.Abs(den) <= 1e-12*u.Length()*v.Length() {
		return 0, false
	}
	return b.Sub(a).Cross(v) / den, true
}

// EdgesTouch says whether the edge from a to b and the edge from c to d have
// a point in common, ends included, or come so close that they may as well.
func EdgesTouch(a, b, c, d Point) bool {
	if max(a.X, b.X)+samePoint < min(c.X, d.X) || max(c.X, d.X)+samePoint < min(a.X, b.X) ||
		max(a.Y, b.Y)+samePoint < min(c.Y, d.Y) || max(c.Y, d.Y)+samePoint < min(a.Y, b.Y) {
		return false
	}
	side := func(p, q, r Point) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	s1, s2 := side(a, b, c), side(a, b, d)
	s3, s4 := side(c, d, a), side(c, d, b)
	if !(s1 > 0 && s2 > 0 || s1 < 0 && s2 < 0 || s3 > 0 && s4 > 0 || s3 < 0 && s4 < 0) {
		return true
	}
	return apart(a, b, c, d) < samePoint
}

// apart returns the distance between two edges that do not cross.
func apart(a, b, c, d Point) float64 {
	return min(FromEdge(a, c, d), FromEdge(b, c, d), FromEdge(c, a, b), FromEdge(d, a, b))
}

// FromEdge returns the distance of p from the edge from a to b.
func FromEdge(p, a, b Point) float64 {
	along := b.Sub(a)
	t := min(1, max(0, p.Sub(a).Dot(along)/along.Dot(along)))
	return p.Sub(a.Add(along.Times(t))).Length()
}

// A Flaw says what keeps a ring from being an outline.
type Flaw int

const (
	Sound    Flaw = iota
	TooFew        // fewer than three corners
	Repeated      // corners I and J lie on the same point
	Crossing      // edges I and J cross, touch or lie on one another
	NoArea        // the corners lie on one line
)

// Check looks for the first flaw of the ring, with the corners or edges it
// concerns.
func (r Ring) Check() (flaw Flaw, i, j int) {
	n := len(r)
	if n < 3 {
		return TooFew, 0, 0
	}
	for i := range r {
		for j := i + 1; j < n; j++ {
			if d := r[i].Sub(r[j]); math.Abs(d.X) < samePoint && math.Abs(d.Y) < samePoint {
				return Repeated, i, j
			}
		}
	}
	// Corners on one line make edges that lie on one another, so they are
	// told first.
	if r.onOneLine() {
		return NoArea, 0, 0
	}
	for i := range r {
		a, b := r.Edge(i)
		// The next edge shares a corner: it must not fold back.
		_, c := r.Edge(i + 1)
		if b.Sub(a).Dot(c.Sub(b)) < 0 && min(FromEdge(c, a, b), FromEdge(a, b, c)) < samePoint {
			return Crossing, i, (i + 1) % n
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if c, d := r.Edge(j); EdgesTouch(a, b, c, d) {
				return Crossing, i, j
			}
		}
	}
	return Sound, 0, 0
}

// onOneLine says whether the ring is so thin that its corners lie on the line
// through its first corner and the one furthest from it.
func (r Ring) onOneLine() bool {
	var along Point
	for _, p := range r {
		if d := p.Sub(r[0]); d.Dot(d) > along.Dot(along) {
			along = d
		}
	}
	for _, p := range r {
		if math.Abs(along.Cross(p.Sub(r[0]))) > 1e-9*along.Dot(along) {
			return false
		}
	}
	return true
}

// samePoint is the distance in mm under which two typed corners are one: far
// below anything a tape shows, far above rounding.
const samePoint = 1e-6

// Stretch is a part of a straight line, between two multiples of its
// direction.
type Stretch struct{ From, To float64 }

// Stretches returns the parts of the line through p along dir that lie inside
// the rings, in order. A part that only touches a corner is left out.
func Stretches(p, dir Point, rings ...Ring) []Stretch {
	var at []float64
	for _, r := range rings {
		for i := range r {
			a, b := r.Edge(i)
			sa, sb := dir.Cross(a.Sub(p)), dir.Cross(b.Sub(p))
			if (sa > 0) == (sb > 0) {
				continue
			}
			q := a.Add(b.Sub(a).Times(sa / (sa - sb)))
			at = append(at, q.Sub(p).Dot(dir)/dir.Dot(dir))
		}
	}
	insertionSort(at)
	var out []Stretch
	for i := 0; i+1 < len(at); i += 2 {
		if (at[i+1]-at[i])*dir.Length() > samePoint {
			out = append(out, Stretch{at[i], at[i+1]})
		}
	}
	return out
}

// insertionSort sorts a short list.
func insertionSort(list []float64) {
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && list[j] < list[j-1]; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}
