package cuts

import (
	"math"

	"keelrow/engine/length"
)

// countable is how far, as a share of one part, a length may miss a whole
// number of parts and still be one: it absorbs the rounding of converted
// inches, and nothing that a saw could cut.
const countable = 1e-9

// Equal divides a run, as of a border, into the fewest equal pieces of which
// none is longer than a block. When that makes them shorter than the shortest
// allowed it cannot be done, n is 0 and each is the length they would have
// had. All lengths must be above 0.
func Equal(run, block, shortest length.Length) (n int, each length.Length) {
	n = max(1, int(math.Ceil(float64(run/block)-countable)))
	each = run / length.Length(n)
	if each < shortest*(1-countable) {
		return 0, each
	}
	return n, each
}

// BestOffset places a pattern that repeats along a strip so that the shorter
// of the pieces at the two ends is as long as it can be. Offset is how far
// from the strip's middle the nearest joint between two repeats lies: 0 or
// half a repeat. Smallest is the length of the smallest piece.
//
// Working: if the strip is a number of whole repeats and a rest, the end
// pieces together are the rest, or the rest and one repeat. The second halved
// is never shorter than anything the first gives. Without a rest nothing is
// cut.
func BestOffset(strip, repeat length.Length) (offset, smallest length.Length) {
	whole := math.Floor(float64(strip/repeat) + countable)
	rest := strip - length.Length(whole)*repeat
	if whole == 0 { // one piece does for it
		return repeat / 2, strip
	}
	smallest = repeat
	if float64(rest/repeat) > countable {
		whole--
		smallest = (rest + repeat) / 2
	}
	if math.Mod(whole, 2) == 1 {
		offset = repeat / 2
	}
	return offset, smallest
}

// EvenRows returns the most rows, an even number of them, that fit across
// between two walls with at least the least gap at each, and the gap they
// leave there. Interval is the breadth of a row, from one seam's mean to the
// next. There are no rows, and no gap, when not even two fit.
func EvenRows(across, interval, leastGap length.Length) (rows int, gap length.Length) {
	rows = 2 * int(math.Floor(float64((across-2*leastGap)/(2*interval))+countable))
	if rows < 2 {
		return 0, 0
	}
	return rows, (across - length.Length(rows)*interval) / 2
}
