package floor

import (
	"cmp"
	"math"
	"slices"

	"keelrow/engine/length"
)

// Closing is a pair of apron widths with which a repeating border closes: on
// every wall a whole number of repeats runs from corner knot to corner knot.
type Closing struct {
	// Repeats is how many there are along each wall of the first pair and of
	// the second.
	Repeats [2]int
	// Wider is how much wider than drawn the apron, the plain strip at the
	// wall, becomes at both ends of those runs, which is along the other pair
	// of walls. Below 0 it becomes narrower.
	Wider [2]length.Length
}

// Closings returns the apron widths with which a border of a rectangular room
// closes, those first whose larger change is the smallest. Inside holds the
// runs from knot to knot along the first pair of walls and along the second,
// with the apron as drawn; vary is how far each apron may change, of which no
// more than a repeat is used. It is empty when none closes.
//
// An apron wider by d at both ends leaves a run of r - 2d, which is to be n
// repeats of p: so d = (r - n*p)/2, and n goes from (r - 2*vary)/p to
// (r + 2*vary)/p. The pairs do not touch each other's runs, so that any n of
// one goes with any of the other.
func Closings(inside [2]length.Length, repeat, vary length.Length) []Closing {
	if !(repeat > 0 && vary >= 0) { // so that NaN fails too
		return nil
	}
	vary = min(vary, repeat)
	// A run that closes but for rounding closes.
	const hair = 1e-9
	var counts [2][]int
	for pair, run := range inside {
		if !(run > 0 && run <= 2*maxCoordinate && run/repeat <= math.MaxInt32) {
			return nil
		}
		least := max(1, int(math.Ceil(float64((run-2*vary)/repeat)-hair)))
		most := int(math.Floor(float64((run+2*vary)/repeat) + hair))
		for n := least; n <= most; n++ {
			counts[pair] = append(counts[pair], n)
		}
	}
	var list []Closing
	for _, n := range counts[0] {
		for _, m := range counts[1] {
			list = append(list, Closing{[2]int{n, m}, [2]length.Length{
				(inside[0] - length.Length(n)*repeat) / 2,
				(inside[1] - length.Length(m)*repeat) / 2}})
		}
	}
	slices.SortStableFunc(list, func(a, b Closing) int {
		p, q := a.sizes(), b.sizes()
		return cmp.Or(cmp.Compare(p[1], q[1]), cmp.Compare(p[0], q[0]))
	})
	return list
}

// sizes returns the sizes of both changes, the smaller first.
func (c Closing) sizes() [2]float64 {
	a, b := math.Abs(float64(c.Wider[0])), math.Abs(float64(c.Wider[1]))
	return [2]float64{min(a, b), max(a, b)}
}
