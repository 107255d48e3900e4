// Package cuts makes the cut list of a floor: how each cut block is sawn, and
// which of them are sawn alike.
//
// A piece is described in its block's own frame, as the block lies face up on
// the saw with its trailing end at the stop: the end nearer to where the row
// starts, seen along the axis. X is the length from the stop along the long
// edges, Y the width across from the right-hand long edge, right and left
// being as seen from the stop along the block. The frame is never mirrored,
// so left- and right-hand blocks are told apart by their Hand alone. A mitred
// block touches the stop with its rear point.
//
// Lengths are millimetres, areas mm², angles degrees. Nothing here allows for
// the width of the saw cut or for joints.
package cuts

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Kind says from where to where on the block a straight cut runs.
type Kind int

const (
	Across Kind = iota // from long edge to long edge
	Corner             // from a long edge to an end
	Rip                // from end to end
)

// Keep says which side of the cut belongs to the piece.
type Keep int

const (
	KeepStop  Keep = iota // towards the stop
	KeepFar               // away from the stop
	KeepRight             // of a rip: along the right-hand edge
	KeepLeft              // of a rip: along the left-hand edge
)

// Cut is one straight saw cut.
type Cut struct {
	Kind Kind
	Keep Keep
	// From and To are the lengths from the stop to where the cut meets the
	// right-hand and the left-hand long edge. A corner cut meets one of them
	// beyond the block's end, below 0 or past its length: Marks says where it
	// meets the end instead. Both are 0 for a rip.
	From, To length.Length
	// Angle is how far the cut is off square: 0 is a plain cross cut, above 0
	// runs further from the stop on the left-hand edge than on the right-hand
	// one, below 0 the other way. It is above -90, and 90 for a rip along the
	// long edges.
	Angle float64
	// AtStop and AtFar are, for a rip, the width that is left at the end by
	// the stop and at the far end, measured square to the long edges.
	AtStop, AtFar length.Length
	// Marks is where the saw's line enters and leaves the whole block: the
	// mark nearer to the right-hand edge first, for a rip the one at the stop.
	Marks [2]plane.Point
}

// Shape is a piece in its block's own frame.
type Shape struct {
	Hand    pattern.Hand
	Block   [4]plane.Point // the whole block: right-hand edge from the stop first, counter-clockwise
	Outline plane.Ring     // counter-clockwise, from the corner nearest to the stop and the right-hand edge
	Holes   []plane.Ring   // clockwise
	// Cuts make a whole block into the piece, in any order. They are listed
	// counter-clockwise.
	Cuts []Cut
	// Off is how far the cuts leave the outline at most: a wall that bows by
	// less than 0.1 mm in the width of a block is sawn straight.
	Off length.Length
	// Notch says that straight cuts right across the block cannot make the
	// piece, as at the corner of a hearth: it is scribed from the drawing,
	// and there are no Cuts.
	Notch bool
	Area  float64 // as in the plan
}

// Of returns the shapes of a cut block's pieces, in the plan's order, and
// none for a whole block.
func Of(p *floor.Plan, b floor.Block) []Shape {
	saw := newSaw(p)
	var shapes []Shape
	for _, piece := range b.Pieces {
		shapes = append(shapes, saw.shape(b, piece))
	}
	return shapes
}

// onSide is the distance in mm within which a corner lies on a side of its
// block, two corners are one, and a corner lies in a straight line with its
// neighbours. It is far above rounding in a room of up to a kilometre, and a
// sliver thinner than this is no piece of a plan.
const onSide = 1e-7

// saw knows what all blocks of a plan have in common.
type saw struct {
	along  plane.Point // the axis, in the room frame
	blocks [2][4]plane.Point
}

func newSaw(p *floor.Plan) saw {
	job := p.Job()
	l, w := float64(job.Length), float64(job.Width)
	lean := 0.0
	if job.Pattern == floor.Chevron {
		// How much further one end of a mitred head reaches than the other.
		sin, cos := math.Sincos(job.Mitre * math.Pi / 180)
		lean = w * cos / sin
	}
	s := saw{along: p.Tip(0, 1).Sub(p.Tip(0, 0))}
	s.blocks[pattern.RightHand] = [4]plane.Point{{}, {X: l}, {X: l + lean, Y: w}, {X: lean, Y: w}}
	s.blocks[pattern.LeftHand] = [4]plane.Point{{X: lean}, {X: l + lean}, {X: l, Y: w}, {Y: w}}
	return s
}

// place is where a block's own frame lies in the room.
type place struct{ origin, x, y plane.Point }

func (s *saw) place(b floor.Block) place {
	first, second := b.Corners[0], b.Corners[1]
	if second.Sub(first).Dot(s.along) < 0 { // it is told from its leading end
		first, second = b.Corners[2], b.Corners[3]
	}
	x := second.Sub(first)
	x = x.Times(1 / x.Length())
	return place{first.Sub(x.Times(s.blocks[b.Hand][0].X)), x, plane.Point{X: -x.Y, Y: x.X}}
}

// own takes a ring of the room frame to the block's own frame, puts corners
// on the sides exactly there, and drops those that are no corners.
func (f place) own(ring plane.Ring, block *[4]plane.Point) plane.Ring {
	out := make(plane.Ring, len(ring))
	wide := block[2].Y
	square := block[0].X == block[3].X
	for i, p := range ring {
		d := p.Sub(f.origin)
		q := plane.Point{X: d.Dot(f.x), Y: d.Dot(f.y)}
		q.Y = snapped(snapped(q.Y, 0), wide)
		if square {
			q.X = snapped(snapped(q.X, block[0].X), block[1].X)
		}
		out[i] = q
	}
	return clean(out)
}

func snapped(x, to float64) float64 {
	if math.Abs(x-to) < onSide {
		return to
	}
	return x
}

// clean drops corners that lie on one another or in a straight line with
// their neighbours, ahead of them or back again.
func clean(ring plane.Ring) plane.Ring {
	out := append(plane.Ring{}, ring...)
	for i := 0; i < len(out) && len(out) > 3; {
		prev, _ := out.Edge(i - 1)
		p, next := out.Edge(i)
		chord := next.Sub(prev)
		far := chord.Length()
		if p.Sub(prev).Length() >= onSide && math.Abs(chord.Cross(p.Sub(prev))) >= onSide*far && far >= onSide {
			i++
			continue
		}
		out = append(out[:i], out[i+1:]...)
		i = max(0, i-2) // its neighbours may now be in line
	}
	return out
}

// fromStop turns the list so that it begins with the corner nearest to the
// stop and the right-hand edge.
func fromStop(ring plane.Ring) plane.Ring {
	first := 0
	for i, p := range ring {
		if p.X+p.Y < ring[first].X+ring[first].Y-onSide {
			first = i
		}
	}
	return append(ring[first:len(ring):len(ring)], ring[:first]...)
}

func (s *saw) shape(b floor.Block, piece floor.Piece) Shape {
	block := &s.blocks[b.Hand]
	at := s.place(b)
	shape := Shape{Hand: b.Hand, Block: *block, Area: piece.Area, Outline: fromStop(at.own(piece.Outline, block))}
	for _, hole := range piece.Holes {
		shape.Holes = append(shape.Holes, fromStop(at.own(hole, block)))
	}
	sawn, off := straightened(shape.Outline, block)
	shape.Notch = len(shape.Holes) > 0 || hollow(sawn)
	if shape.Notch {
		return shape
	}
	shape.Off = length.Length(off)
	for i := range sawn {
		from, to := sawn.Edge(i)
		if !onOneSide(from, to, block) {
			shape.Cuts = append(shape.Cuts, cutAlong(from, to, block))
		}
	}
	return shape
}

// straight is the distance in mm by which edges of a piece may leave a
// straight line and be one cut: finer than a saw is set by hand.
const straight = 0.1

// straightened returns the outline with edges that the saw cannot tell from
// one straight line joined, and how far the corners dropped lie from the line
// at most. Corners on the sides of the block stay.
func straightened(ring plane.Ring, block *[4]plane.Point) (sawn plane.Ring, off float64) {
	first := 0 // an edge on a side of the block
	for ; first < len(ring); first++ {
		if from, to := ring.Edge(first); onOneSide(from, to, block) {
			break
		}
	}
	if first == len(ring) {
		return ring, 0
	}
	for i := 0; i < len(ring); {
		from, to := ring.Edge(first + i)
		sawn = append(sawn, from)
		n := 1 // edges of the cut that starts here
		if !onOneSide(from, to, block) {
			for n < len(ring)-i { // as far as the next edge on a side
				if a, b := ring.Edge(first + i + n); onOneSide(a, b, block) {
					break
				}
				n++
			}
			// The longest that can be one cut.
			for ; n > 1; n-- {
				_, end := ring.Edge(first + i + n - 1)
				worst := 0.0
				for k := 1; k < n && worst < straight; k++ {
					p, _ := ring.Edge(first + i + k)
					worst = max(worst, plane.FromEdge(p, from, end))
				}
				if worst < straight {
					off = max(off, worst)
					break
				}
			}
		}
		i += n
	}
	return fromStop(sawn), off
}

// hollow says whether the outline has a corner that points inward.
func hollow(ring plane.Ring) bool {
	for i := range ring {
		a, b := ring.Edge(i)
		_, c := ring.Edge(i + 1)
		if b.Sub(a).Cross(c.Sub(b)) < 0 {
			return true
		}
	}
	return false
}

// onOneSide says whether an edge of a piece is part of a side of its block.
func onOneSide(from, to plane.Point, block *[4]plane.Point) bool {
	for i := range block {
		a, b := plane.Ring(block[:]).Edge(i)
		side := b.Sub(a)
		reach := onSide * side.Length()
		if math.Abs(side.Cross(from.Sub(a))) < reach && math.Abs(side.Cross(to.Sub(a))) < reach {
			return true
		}
	}
	return false
}

// Sides of a block, counted as its corners are.
const (
	rightEdge = iota
	farEnd
	leftEdge
	stopEnd
)

// cutAlong describes the cut along an edge of a piece, which lies left of it.
func cutAlong(from, to plane.Point, block *[4]plane.Point) Cut {
	var c Cut
	var sides [2]int
	c.Marks, sides = marks(from, to, block)
	wide := block[2].Y
	d := to.Sub(from)
	first, second := isLong(sides[0]), isLong(sides[1])
	switch {
	case !first && !second || d.Y == 0:
		c.Kind = Rip
	case first && second:
		c.Kind = Across
	default:
		c.Kind = Corner
	}
	c.Angle = 90
	if d.Y != 0 {
		c.Angle = math.Atan(d.X/d.Y) * 180 / math.Pi
	}
	if c.Kind == Rip {
		away := d.X > 0 // the edge runs away from the stop, with the piece on its left
		if !first && !second {
			away = sides[0] == stopEnd // mitred heads can overlap along a short block
		}
		if !away {
			c.Marks[0], c.Marks[1] = c.Marks[1], c.Marks[0]
		}
		c.Keep, c.AtStop, c.AtFar = KeepRight, length.Length(c.Marks[0].Y), length.Length(c.Marks[1].Y)
		if away {
			c.Keep, c.AtStop, c.AtFar = KeepLeft, length.Length(wide)-c.AtStop, length.Length(wide)-c.AtFar
		}
		return c
	}
	if c.Marks[0].Y > c.Marks[1].Y {
		c.Marks[0], c.Marks[1] = c.Marks[1], c.Marks[0]
	}
	c.From = length.Length(from.X - from.Y*d.X/d.Y)
	c.To = length.Length(from.X + (wide-from.Y)*d.X/d.Y)
	if d.Y < 0 {
		c.Keep = KeepFar
	}
	return c
}

func isLong(side int) bool { return side == rightEdge || side == leftEdge }

// marks returns where the line along an edge enters and leaves the block, and
// through which sides. A line through a corner of the block is taken to meet
// the long edge.
func marks(from, to plane.Point, block *[4]plane.Point) (at [2]plane.Point, sides [2]int) {
	d := to.Sub(from)
	enter, leave := math.Inf(-1), math.Inf(1)
	slack := onSide / d.Length()
	for _, i := range []int{rightEdge, leftEdge, farEnd, stopEnd} {
		a, b := plane.Ring(block[:]).Edge(i)
		inward := plane.Point{X: a.Y - b.Y, Y: b.X - a.X}
		speed := inward.Dot(d)
		t := inward.Dot(a.Sub(from)) / speed
		switch {
		case speed > 0 && t > enter+slack:
			enter, sides[0] = t, i
		case speed < 0 && t < leave-slack:
			leave, sides[1] = t, i
		}
	}
	for k, t := range []float64{enter, leave} {
		at[k] = from.Add(d.Times(t))
		switch sides[k] {
		case rightEdge:
			at[k].Y = 0
		case leftEdge:
			at[k].Y = block[2].Y
		}
	}
	return at, sides
}
