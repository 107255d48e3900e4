package cuts

import (
	"cmp"
	"math"
	"slices"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Options says which pieces may be sawn alike.
type Options struct {
	// Tolerance is how far a corner of a piece may lie from where the group's
	// drawing has it.
	Tolerance length.Length
	// Turn lets a piece that is not cut as any other be cut as one and laid
	// turned end for end, as square-edged blocks can be. Blocks with tongue
	// and groove cannot.
	Turn bool
}

// Group is pieces that are sawn alike. They are all of one hand, and no
// corner of any of them is further than the tolerance from one of Shape.
type Group struct {
	Mark   string // A, B ... Z, AA, AB ...
	Hand   pattern.Hand
	Shape  Shape         // of the first of them to be laid
	Within length.Length // how far their corners are from those of Shape at most
	Area   float64       // mm² of all of them
	Places []Place       // in order of laying
}

// Place is where a piece goes on the floor.
type Place struct {
	Row, Order         int // of the row and of the block in laying
	Strand, Sub, Index int // of the block
	Piece              int // which of the block's pieces, from 0
	Turned             bool
	Centroid           plane.Point // of the piece, in the room frame
}

// Count returns how many pieces are sawn alike.
func (g Group) Count() int { return len(g.Places) }

// Outline returns the piece to be drawn, in the block's own frame.
func (g Group) Outline() plane.Ring { return g.Shape.Outline }

// Totals adds up a cut list.
type Totals struct {
	Pieces, Blocks int // pieces, and the blocks they come from when each is cut from its own
	Area           float64
}

// Total adds up the groups. The totals are those of the plan's cut blocks.
func Total(groups []Group) Totals {
	var t Totals
	for _, g := range groups {
		t.Pieces += len(g.Places)
		t.Area += g.Area
		for _, p := range g.Places {
			if p.Piece == 0 {
				t.Blocks++
			}
		}
	}
	return t
}

// List groups all pieces of the plan's cut blocks: the largest group first,
// among equals that of the larger piece, then that laid first.
func List(p *floor.Plan, o Options) []Group {
	saw := newSaw(p)
	s := sorter{tolerance: max(float64(o.Tolerance), leastTolerance), turn: o.Turn, cells: map[cell][]int{}}
	for row := range p.Rows() {
		for b := range p.Blocks(row) {
			for i, piece := range b.Pieces {
				s.add(saw.shape(b, piece), Place{
					Row: row.Number, Order: b.Order, Strand: b.Strand, Sub: b.Sub, Index: b.Index,
					Piece: i, Centroid: centroid(piece),
				})
			}
		}
	}
	slices.SortStableFunc(s.groups, func(a, b Group) int {
		return cmp.Or(
			cmp.Compare(len(b.Places), len(a.Places)),
			// Whole mm², so that rounding does not part mirrored pieces.
			cmp.Compare(math.Round(b.Shape.Area), math.Round(a.Shape.Area)),
		)
	})
	for i := range s.groups {
		s.groups[i].Mark = mark(i)
	}
	return s.groups
}

// mark counts A to Z, then AA to ZZ, and so on.
func mark(i int) string {
	text := ""
	for i++; i > 0; i = (i - 1) / 26 {
		text = string(rune('A'+(i-1)%26)) + text
	}
	return text
}

// centroid returns the centre of gravity of a piece. It is taken about a
// corner, so that a room far from the origin loses no digits.
func centroid(piece floor.Piece) plane.Point {
	origin := piece.Outline[0]
	var sum plane.Point
	var twice float64
	add := func(ring plane.Ring) {
		for i := range ring {
			a, b := ring.Edge(i)
			a, b = a.Sub(origin), b.Sub(origin)
			area := a.Cross(b)
			sum = sum.Add(a.Add(b).Times(area))
			twice += area
		}
	}
	add(piece.Outline)
	for _, hole := range piece.Holes {
		add(hole)
	}
	return origin.Add(sum.Times(1 / (3 * twice)))
}

// leastTolerance in mm tells pieces apart that differ by more than rounding.
const leastTolerance = 1e-6

// sorter finds the group of one piece after the other. A piece joins the
// group whose first piece is nearest within the tolerance, or starts one, so
// every piece is measured against the drawing, never against a neighbour that
// is itself off.
type sorter struct {
	tolerance float64
	turn      bool
	groups    []Group
	cells     map[cell][]int // groups by the measures of their first piece
}

// cell is a hand and a range of each measure.
type cell struct {
	hand  pattern.Hand
	notch bool
	at    [measures]int64
}

const measures = 4

// measure returns numbers of which none differs by more than the tolerance
// between two shapes whose corners all lie within it of each other: each is
// the furthest reach in some direction, or a weighted mean of such.
func measure(ring plane.Ring) [measures]float64 {
	var reach [8]float64
	for i := range reach {
		reach[i] = math.Inf(-1)
	}
	for _, p := range ring {
		sum, less := (p.X+p.Y)/math.Sqrt2, (p.X-p.Y)/math.Sqrt2
		for i, x := range [8]float64{p.X, -p.X, p.Y, -p.Y, sum, -sum, less, -less} {
			reach[i] = max(reach[i], x)
		}
	}
	return [measures]float64{
		reach[0], reach[1],
		(2*reach[2] + reach[3]) / 3,
		// Unequal weights tell which corner of the block is off.
		(reach[4] + 2*reach[5] + 3*reach[6] + 4*reach[7]) / 10,
	}
}

func (s *sorter) add(shape Shape, at Place) {
	best, distance := s.nearest(shape)
	if best < 0 && s.turn {
		best, distance = s.nearest(shape.turned())
		at.Turned = best >= 0
	}
	if best < 0 {
		best, distance = len(s.groups), 0
		s.groups = append(s.groups, Group{Hand: shape.Hand, Shape: shape})
		own, _ := s.cell(shape)
		s.cells[own] = append(s.cells[own], best)
	}
	g := &s.groups[best]
	g.Places = append(g.Places, at)
	g.Area += shape.Area
	g.Within = max(g.Within, length.Length(distance))
}

// cell returns the cell of a shape, and the way to the nearer neighbouring
// cell in every measure. Cells are two tolerances wide, so whatever lies
// within one tolerance is in one or the other.
func (s *sorter) cell(shape Shape) (own cell, toNext [measures]int64) {
	own = cell{hand: shape.Hand, notch: shape.Notch}
	for i, x := range measure(shape.Outline) {
		x /= 2 * s.tolerance
		own.at[i] = int64(math.Floor(x))
		toNext[i] = 1
		if x-math.Floor(x) < 0.5 {
			toNext[i] = -1
		}
	}
	return own, toNext
}

// nearest returns the group whose first piece is nearest to the shape, and
// how far its corners are, or -1 when none is within the tolerance.
func (s *sorter) nearest(shape Shape) (best int, distance float64) {
	own, toNext := s.cell(shape)
	best, distance = -1, s.tolerance
	for n := range 1 << measures {
		c := own
		for i := range measures {
			if n>>i&1 == 1 {
				c.at[i] += toNext[i]
			}
		}
		for _, g := range s.cells[c] {
			d := apart(&s.groups[g].Shape, &shape, distance)
			if d < distance || d == distance && (best < 0 || g < best) {
				best, distance = g, d
			}
		}
	}
	return best, distance
}

// turned returns the piece with its block turned end for end.
func (s Shape) turned() Shape {
	whole := s.Block[0].Add(s.Block[2])
	turn := func(ring plane.Ring) plane.Ring {
		out := make(plane.Ring, len(ring))
		for i, p := range ring {
			out[i] = whole.Sub(p)
		}
		return out
	}
	s.Outline = turn(s.Outline)
	holes := s.Holes
	s.Holes = nil
	for _, h := range holes {
		s.Holes = append(s.Holes, turn(h))
	}
	return s
}

// apart returns how far the corners of two shapes are from each other: the
// least distance such that each corner of one has one of the other within it.
// For pieces without a notch that is enough for the outlines to be as near. A
// notched one must have the same corners in the same order. Anything above
// the limit is returned as infinite.
func apart(a, b *Shape, limit float64) float64 {
	if a.Notch != b.Notch || len(a.Holes) != len(b.Holes) {
		return math.Inf(1)
	}
	if !a.Notch {
		return max(strays(a.Outline, b.Outline, limit), strays(b.Outline, a.Outline, limit))
	}
	worst := inOrder(a.Outline, b.Outline)
	for _, pair := range [][2][]plane.Ring{{a.Holes, b.Holes}, {b.Holes, a.Holes}} {
		for _, h := range pair[0] {
			nearest := math.Inf(1)
			for _, other := range pair[1] {
				nearest = min(nearest, inOrder(h, other))
			}
			worst = max(worst, nearest)
		}
	}
	if worst > limit {
		return math.Inf(1)
	}
	return worst
}

// strays returns how far a corner of a can be from the nearest corner of b.
func strays(a, b plane.Ring, limit float64) float64 {
	worst := 0.0
	for _, p := range a {
		nearest := math.Inf(1)
		for _, q := range b {
			nearest = min(nearest, p.Sub(q).Dot(p.Sub(q)))
		}
		if worst = max(worst, nearest); worst > limit*limit {
			return math.Inf(1)
		}
	}
	return math.Sqrt(worst)
}

// inOrder returns how far corresponding corners of two rings are apart.
func inOrder(a, b plane.Ring) float64 {
	best := math.Inf(1)
	if len(a) != len(b) {
		return best
	}
	for shift := range b {
		worst := 0.0
		for i, p := range a {
			q, _ := b.Edge(i + shift)
			worst = max(worst, p.Sub(q).Length())
		}
		best = min(best, worst)
	}
	return best
}
