// Package pattern says where every block of a herringbone or chevron lies.
//
// Lengths are in millimetres. The pattern has its own frame: the origin is
// the point the first blocks are set by, +y runs along the spine and +x to
// the right of it. Strands are numbered outward from the centre line,
// negative on the left: strand k lies between seams k and k+1, and seam j has
// its mean at x = j intervals. Results depend on the arguments alone; nothing
// here knows about a room.
package pattern

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Hand says which of the two directions a block lies in, seen along the axis.
type Hand int

const (
	LeftHand  Hand = iota // the block climbs to the left
	RightHand             // the block climbs to the right
)

// Column is one block of a strand and all its repeats along the axis: block i
// has the corners of Block moved by i steps.
type Column struct {
	Strand int
	Sub    int // which of the blocks side by side in a unit, 0 first
	Hand   Hand
	Block  [4]plane.Point // of block 0, counter-clockwise, a long edge first
}

// Pattern is a herringbone or a chevron.
type Pattern interface {
	// Step returns how far one block moves the row along the axis.
	Step() length.Length
	// Interval returns the distance from one seam's mean to the next.
	Interval() length.Length
	// Spacing returns the distance of each working line from the seam's mean.
	Spacing() length.Length
	// BlockArea returns the area of a whole block in mm².
	BlockArea() float64
	// Columns returns the columns of strand k, first to be laid first.
	Columns(k int) []Column
	// Tip returns the leading corner of block i of strand k, the one that
	// runs on a working line.
	Tip(k, i int) plane.Point
	// StartingBlock returns the outline of what the first blocks of the
	// spine are set against when the row starts with block i.
	StartingBlock(i int) []plane.Ring
	// StartingHalf returns the half that a later row, strand k, is set
	// against when it starts with block i.
	StartingHalf(k, i int) plane.Ring
	// Balanced returns the four placings of the pattern's origin against the
	// middle of a rectangle that leave the same cut pieces on opposite walls.
	Balanced() [4]Shift
}

// Shift is a movement of the pattern across the axis (to the right) and along
// it.
type Shift struct{ Across, Along length.Length }

// hand returns the hand of strand k: in both patterns even strands run one
// way and odd strands the other.
func hand(k int, even Hand) Hand {
	if k&1 == 0 {
		return even
	}
	return LeftHand + RightHand - even
}

// Herringbone is rectangles butted at a right angle, at 45 degrees to the
// axis. Strands is how many lie side by side in a unit: 1 single, 2 double, 3
// triple. It closes for every Width and Length.
type Herringbone struct {
	Width, Length length.Length
	Strands       int
}

// Unit returns the width of the blocks that lie side by side.
func (h Herringbone) Unit() length.Length { return length.Length(h.Strands) * h.Width }

// Step returns the diagonal of a square as wide as the unit.
func (h Herringbone) Step() length.Length { return h.Unit() * math.Sqrt2 }

// Interval returns the length of a block seen at 45 degrees.
func (h Herringbone) Interval() length.Length { return h.Length / math.Sqrt2 }

// Spacing returns a quarter of the diagonal of the unit's square.
func (h Herringbone) Spacing() length.Length { return h.Unit() * math.Sqrt2 / 4 }

// BlockArea returns the area of a block in mm².
func (h Herringbone) BlockArea() float64 { return float64(h.Width * h.Length) }

// LinesUp says whether the seams of every other row come to lie in line,
// which they do when the length is a whole multiple of the unit, and if not
// by how much they are offset along a block. Shorter and longer are the
// nearest lengths that line up; with a length that does, both are that length.
func (h Herringbone) LinesUp() (ok bool, miss, shorter, longer length.Length) {
	unit := float64(h.Unit())
	n := math.Floor(float64(h.Length)/unit + lineUpTolerance)
	rest := float64(h.Length) - n*unit
	if math.Abs(rest) <= lineUpTolerance*unit {
		return true, 0, h.Length, h.Length
	}
	shorter, longer = length.Length(n*unit), length.Length((n+1)*unit)
	if shorter < h.Unit() {
		shorter = h.Unit()
	}
	return false, length.Length(rest), shorter, longer
}

// lineUpTolerance is how far, as a share of the unit, a length may miss a
// whole multiple and still be called one: it absorbs the rounding of
// converted inches, and nothing that a saw could cut.
const lineUpTolerance = 1e-9

// turned takes a point from the blocks' directions, u along one hand and v
// along the other, to the pattern's frame.
func turned(u, v length.Length) plane.Point {
	return plane.Point{X: float64(u-v) / math.Sqrt2, Y: float64(u+v) / math.Sqrt2}
}

// Columns returns one column for each block of the unit. Their lattice is
// (U, U) along the axis and (L, -L) across it.
func (h Herringbone) Columns(k int) []Column {
	columns := make([]Column, h.Strands)
	for s := range columns {
		u0, v0 := h.corner(k, s)
		u1, v1 := u0+h.Length, v0+h.Width
		c := Column{Strand: k, Sub: s, Hand: hand(k, LeftHand)}
		if c.Hand == LeftHand {
			u1, v1 = u0+h.Width, v0+h.Length
			c.Block = [4]plane.Point{turned(u1, v0), turned(u1, v1), turned(u0, v1), turned(u0, v0)}
		} else {
			c.Block = [4]plane.Point{turned(u0, v0), turned(u1, v0), turned(u1, v1), turned(u0, v1)}
		}
		columns[s] = c
	}
	return columns
}

// corner returns the corner with the smallest u and v of block 0 of a column.
func (h Herringbone) corner(k, s int) (u, v length.Length) {
	unit, side := h.Unit(), length.Length(s)*h.Width
	if k&1 == 0 {
		m := length.Length(k / 2)
		return m*h.Length + side, unit/2 - h.Length - m*h.Length
	}
	m := length.Length((k + 1) / 2)
	return m*h.Length - h.Length, -unit/2 - m*h.Length + side
}

// Tip returns the leading corner of block i of strand k. The tips of strand
// -1 run on the right working line of seam 0, those of strand 0 on the left.
func (h Herringbone) Tip(k, i int) plane.Point {
	along, spacing := float64(i)*float64(h.Step()), float64(h.Spacing())
	if k&1 == 0 {
		return plane.Point{X: float64(k)*float64(h.Interval()) - spacing, Y: along + spacing}
	}
	return plane.Point{X: float64(k+1)*float64(h.Interval()) + spacing, Y: along - spacing}
}

// StartingBlock returns a square as long as a block on each side, turned 45
// degrees, with its point at the tip of block i of strand -1: the first block
// of strand -1 lies along its left upper edge, and that of strand 0 against
// its right upper edge by what the length has over the unit.
func (h Herringbone) StartingBlock(i int) []plane.Ring {
	tip := h.Tip(-1, i)
	return []plane.Ring{{
		tip,
		tip.Add(turned(-h.Length, 0)),
		tip.Add(turned(-h.Length, -h.Length)),
		tip.Add(turned(0, -h.Length)),
	}}
}

// StartingHalf returns the half of the starting block, cut along the axis,
// that the first block of strand k is set against: the left half for odd
// strands, whose block lies along it, and the right half for even ones. The
// halves of the two strands of a seam make up a starting block as at the
// spine, so that neither is in the way of what is laid from it.
func (h Herringbone) StartingHalf(k, i int) plane.Ring {
	if k&1 == 0 {
		tip := h.Tip(k-1, i)
		return plane.Ring{tip, tip.Add(turned(-h.Length, -h.Length)), tip.Add(turned(0, -h.Length))}
	}
	tip := h.Tip(k, i)
	return plane.Ring{tip, tip.Add(turned(-h.Length, 0)), tip.Add(turned(-h.Length, -h.Length))}
}

// Balanced returns the placings derived from the pattern's plane group, p2gg
// (International Tables for Crystallography, vol. A, no. 8): across, seams'
// means are glide axes and half-turn centres lie midway between them; along,
// the two follow each other every quarter step.
func (h Herringbone) Balanced() [4]Shift {
	quarter := float64(h.Step()) / 4
	d := math.Mod(float64(h.Length)/(2*math.Sqrt2), quarter)
	if quarter-d < lineUpTolerance*quarter || d < lineUpTolerance*quarter {
		d = 0
	}
	return placings(h.Interval()/2, length.Length(d), length.Length(quarter))
}

// placings lists on a seam first, then midway between two.
func placings(half, along, more length.Length) [4]Shift {
	return [4]Shift{{0, along}, {0, along + more}, {half, along}, {half, along + more}}
}
