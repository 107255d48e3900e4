package survey

import (
	"cmp"
	"math"
	"slices"

	"keelrow/engine/length"
)

// likelier says whether a is to be preferred to b as the room without reading
// k: because it fits, then because it is an outline that holds its diagonals,
// then because reading k is less wrong.
func (w *web) likelier(a, b adjusted, k int, inner []int, limit float64) bool {
	if fitsA, fitsB := a.worst() <= limit, b.worst() <= limit; fitsA != fitsB {
		return fitsA
	}
	less := w.without(k)
	if rankA, rankB := less.rankOf(a.ring, inner), less.rankOf(b.ring, inner); rankA != rankB {
		return rankA > rankB
	}
	r := w.readings[k]
	wrong := func(room adjusted) float64 {
		return math.Abs(room.ring[r.From].Sub(room.ring[r.To]).Length() - w.taped(k))
	}
	return wrong(a) < wrong(b)
}

// suspects leaves out one reading after the other and returns those without
// which all others agree within the limit, likeliest first.
//
// In a room of many readings only those are tried whose absence would help
// most to first order, by v²/r with residual v and redundancy r (Baarda's data
// snooping).
func (w *web) suspects(room adjusted, redundancy []float64, inner []int, limit float64) []Suspect {
	const (
		most      = 24
		unchecked = 1e-6 // redundancy of a reading that no other checks
		tries     = 64   // ways of building up, for each
	)
	var tried []int
	for k, r := range redundancy {
		if r > unchecked {
			tried = append(tried, k)
		}
	}
	gain := func(k int) float64 { return room.residual[k] * room.residual[k] / redundancy[k] }
	slices.SortStableFunc(tried, func(i, j int) int { return cmp.Compare(gain(j), gain(i)) })
	if len(tried) > most {
		tried = tried[:most]
	}
	var found []Suspect
	for _, k := range tried {
		less := w.without(k)
		rest := less.adjust(room.ring)
		if order, whole := less.order(); whole {
			// The wrong reading may have bent the whole room, or put a corner on
			// the wrong side.
			fresh := less.adjust(less.search(order, limit, inner, tries).ring)
			if w.likelier(fresh, rest, k, inner, limit) {
				rest = fresh
			}
		}
		worst := rest.worst()
		if worst <= limit {
			r := w.readings[k]
			found = append(found, Suspect{
				Reading:  k,
				ShouldBe: length.Length(rest.ring[r.From].Sub(rest.ring[r.To]).Length()),
				Rest:     length.Length(worst),
				sum:      rest.sum,
			})
		}
	}
	slices.SortStableFunc(found, func(a, b Suspect) int { return cmp.Compare(a.sum, b.sum) })
	return found
}
