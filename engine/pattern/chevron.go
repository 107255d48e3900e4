package pattern

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Chevron is parallelograms whose ends are mitred to meet on straight seams.
// Length is that of the long edge; Mitre is the acute angle in degrees
// between the long edge and the axis.
type Chevron struct {
	Width, Length length.Length
	Mitre         float64
}

func (c Chevron) angle() (sin, cos float64) { return math.Sincos(c.Mitre * math.Pi / 180) }

// Step returns the length of a mitred end.
func (c Chevron) Step() length.Length {
	sin, _ := c.angle()
	return length.Length(float64(c.Width) / sin)
}

// Interval returns the width of a strand.
func (c Chevron) Interval() length.Length {
	sin, _ := c.angle()
	return length.Length(float64(c.Length) * sin)
}

// Spacing returns 0: the seams of a chevron are straight.
func (c Chevron) Spacing() length.Length { return 0 }

// Rise returns how far a block climbs along the axis from seam to seam.
func (c Chevron) Rise() length.Length {
	_, cos := c.angle()
	return length.Length(float64(c.Length) * cos)
}

// TipToTip returns the overall length of the blank a block is cut from.
func (c Chevron) TipToTip() length.Length {
	sin, cos := c.angle()
	return c.Length + length.Length(float64(c.Width)*cos/sin)
}

// BlockArea returns the area of a block in mm².
func (c Chevron) BlockArea() float64 { return float64(c.Width * c.Length) }

// ends returns the heights of block 0 of strand k at its left and its right
// seam: even strands climb away from the axis, odd ones towards it.
func (c Chevron) ends(k int) (left, right float64) {
	if k&1 == 0 {
		return 0, float64(c.Rise())
	}
	return float64(c.Rise()), 0
}

// Columns returns the one column of strand k.
func (c Chevron) Columns(k int) []Column {
	left, right := c.ends(k)
	x, step := float64(c.Interval()), float64(c.Step())
	x0, x1 := float64(k)*x, float64(k+1)*x
	return []Column{{Strand: k, Hand: hand(k, RightHand), Block: [4]plane.Point{
		{X: x0, Y: left}, {X: x1, Y: right}, {X: x1, Y: right + step}, {X: x0, Y: left + step},
	}}}
}

// Tip returns the lower corner on the even seam of block i of strand k, where
// the point of a V lies.
func (c Chevron) Tip(k, i int) plane.Point {
	return plane.Point{X: float64(k+k&1) * float64(c.Interval()), Y: float64(i) * float64(c.Step())}
}

// StartingBlock returns the two wedges, left and right of the centre line,
// whose upper edges the first blocks of the spine lie along.
func (c Chevron) StartingBlock(i int) []plane.Ring {
	return []plane.Ring{c.StartingHalf(-1, i), c.StartingHalf(0, i)}
}

// StartingHalf returns the wedge under block i of strand k: a right triangle,
// one interval by one rise.
func (c Chevron) StartingHalf(k, i int) plane.Ring {
	left, right := c.ends(k)
	x, y := float64(c.Interval()), float64(i)*float64(c.Step())
	a := plane.Point{X: float64(k) * x, Y: y}
	b := plane.Point{X: float64(k+1) * x, Y: y}
	if left < right {
		return plane.Ring{a, b, {X: b.X, Y: y + right}}
	}
	return plane.Ring{a, b, {X: a.X, Y: y + left}}
}

// Balanced returns the placings derived from the pattern's plane group, p2mg
// (International Tables for Crystallography, vol. A, no. 7): seams are
// mirrors, half-turn centres lie midway between them at the middles of blocks
// and of joints, and glide axes run through those across the axis.
func (c Chevron) Balanced() [4]Shift {
	half := float64(c.Step()) / 2
	d := half - math.Mod(float64(c.Rise())/2, half)
	if half-d < lineUpTolerance*half {
		d = 0
	}
	return placings(c.Interval()/2, length.Length(d), length.Length(half))
}
