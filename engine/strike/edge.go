package strike

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/pattern"
)

// Edge is where the first tips lie from a straight edge that runs along the
// axis, for a single herringbone laid with open joints.
type Edge struct {
	// Tips is from the edge to the first tip line when the edge stands a joint
	// off the outer tips of the first strand: what a straightedge on the tips
	// of a loose patch shows, plus the joint. It leaves, between the tips, half
	// squares as wide as a block.
	Tips length.Length
	// Reach is from the outer to the inner tips of one strand, on the blocks
	// themselves.
	Reach length.Length
	// Halves are the distances from the edge to the first and the second tip
	// line when every block at the edge is cut in two equal pieces and the cut
	// stands a joint off the edge.
	Halves [2]length.Length
}

// FromEdge returns the distances for blocks of a width and length, laid with a
// joint.
//
// With its share of the joint a block fills (L+j) by (W+j). At 45 degrees it
// reaches (L+W+2j)/√2 across the axis; its own corners stand back from that by
// j/√2 on each side, which leaves (L+W)/√2 on the block. A straight cut along
// the axis halves a block where it passes through its middle, midway between
// two seams: (L+j)/(2√2) from a seam's mean, whose tips stand (W+j)√2/4, less
// the corner's j/√2, to either side of it.
func FromEdge(width, long, joint length.Length) Edge {
	half, spacing := (long+joint)/(2*math.Sqrt2), (width+joint)*math.Sqrt2/4-joint/math.Sqrt2
	return Edge{
		Tips:   (long+width)/math.Sqrt2 + joint,
		Reach:  (long + width) / math.Sqrt2,
		Halves: [2]length.Length{half - spacing + joint, half + spacing + joint},
	}
}

// Residual returns the smallest shift that two fields of one pattern are out
// of phase by, each between minus a half and a half of its repeat: two
// intervals across and one step along.
func Residual(blocks pattern.Pattern, across, along length.Length) (length.Length, length.Length) {
	rest := func(a, b length.Length) length.Length { return length.Length(math.Remainder(float64(a), float64(b))) }
	return rest(across, 2*blocks.Interval()), rest(along, blocks.Step())
}

// NextSeam returns the first distance from a base line, no less than atLeast,
// at which a seam's mean lies when one lies at first, and how many intervals on
// that is. After an odd number the hands of the blocks beside it are swapped;
// with sameHand only even numbers count.
func NextSeam(interval, first, atLeast length.Length, sameHand bool) (at length.Length, n int) {
	n = int(math.Ceil(float64((atLeast-first)/interval) - 1e-9))
	if sameHand && n&1 != 0 {
		n++
	}
	return first + length.Length(n)*interval, n
}
