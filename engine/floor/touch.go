package floor

import (
	"math"

	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// touching is the distance in mm under which two pieces count as touching:
// above rounding, below anything that could be seen.
const touching = 1e-6

// neighbour says that block i of a column touches block i+By of the column
// Sub of the strand that many strands on.
type neighbour struct{ strand, sub, by int }

// neighbours lists them for every column of strand k. They are the same for
// all strands of one hand.
func neighbours(blocks pattern.Pattern, k int) [][]neighbour {
	step := float64(blocks.Step())
	columns := blocks.Columns(k)
	low, high := plane.Ring(columns[0].Block[:]).Box()
	// Blocks reach over their strand by a unit's diagonal at most.
	strands := int(math.Ceil((high.X-low.X+2*step)/float64(blocks.Interval()))) + 1
	lists := make([][]neighbour, len(columns))
	for s, c := range columns {
		block := plane.Ring(c.Block[:])
		low, high := block.Box()
		for d := -strands; d <= strands; d++ {
			for _, other := range blocks.Columns(k + d) {
				otherLow, otherHigh := plane.Ring(other.Block[:]).Box()
				if otherLow.X > high.X+touching || otherHigh.X < low.X-touching {
					continue
				}
				first := int(math.Floor((low.Y - otherHigh.Y) / step))
				last := int(math.Ceil((high.Y - otherLow.Y) / step))
				for by := first; by <= last; by++ {
					if touch(block, lifted(other, float64(by)*step)) && !(d == 0 && other.Sub == s && by == 0) {
						lists[s] = append(lists[s], neighbour{d, other.Sub, by})
					}
				}
			}
		}
	}
	return lists
}

func lifted(c pattern.Column, by float64) plane.Ring {
	ring := make(plane.Ring, len(c.Block))
	for i, p := range c.Block {
		ring[i] = plane.Point{X: p.X, Y: p.Y + by}
	}
	return ring
}

// touch says whether two outlines that do not overlap touch.
func touch(a, b plane.Ring) bool {
	aLow, aHigh := a.Box()
	bLow, bHigh := b.Box()
	if aLow.X > bHigh.X+touching || bLow.X > aHigh.X+touching ||
		aLow.Y > bHigh.Y+touching || bLow.Y > aHigh.Y+touching {
		return false
	}
	return cornerOnEdge(a, b) || cornerOnEdge(b, a)
}

func cornerOnEdge(a, b plane.Ring) bool {
	for i := range b {
		from, to := b.Edge(i)
		for _, p := range a {
			if plane.FromEdge(p, from, to) < touching {
				return true
			}
		}
	}
	return false
}

// touched says whether any part of the row touches what is laid.
func (p *Plan) touched(r Row, laid map[part]bool) bool {
	if p.beside[0] == nil {
		p.beside = [2][][]neighbour{neighbours(p.blocks, 0), neighbours(p.blocks, 1)}
	}
	// Whole blocks first: they need no measuring.
	return p.anyPair(r, laid, wholeMeet) || p.anyPair(r, laid, piecesMeet)
}

// anyPair says whether meet holds for a column of the row and a neighbouring
// column that is laid, each taken ahead of the start or behind it.
func (p *Plan) anyPair(r Row, laid map[part]bool, meet func(a, b portion, by int) bool) bool {
	for _, k := range r.Strands {
		columns := p.Strand(k).Columns
		for s := range columns {
			a := p.portionOf(&columns[s], r.back)
			for _, n := range p.beside[k&1][s] {
				for _, back := range []bool{false, true} {
					if !laid[part{k + n.strand, back}] {
						continue
					}
					b := p.portionOf(&p.Strand(k + n.strand).Columns[n.sub], back)
					if meet(a, b, n.by) {
						return true
					}
				}
			}
		}
	}
	return false
}

// portion is the blocks of a column from low to high.
type portion struct {
	*Column
	low, high int
}

func (p *Plan) portionOf(c *Column, back bool) portion {
	if back {
		return portion{c, math.MinInt, p.start - 1}
	}
	return portion{c, p.start, math.MaxInt}
}

func (c portion) has(index int) bool { return index >= c.low && index <= c.high }

// wholeMeet says whether a whole block of a has a whole block of b as
// neighbour.
func wholeMeet(a, b portion, by int) bool {
	j := 0
	for _, r := range a.Runs {
		from, to := max(r.From, a.low), min(r.To-1, a.high)
		for ; j < len(b.Runs) && b.Runs[j].To <= from+by; j++ {
		}
		for n := j; n < len(b.Runs) && b.Runs[n].From <= to+by; n++ {
			if from <= to && max(from+by, b.Runs[n].From, b.low) <= min(to+by, b.Runs[n].To-1, b.high) {
				return true
			}
		}
	}
	return false
}

// piecesMeet says whether a cut block of a or of b touches its neighbour.
func piecesMeet(a, b portion, by int) bool {
	at, bt := newCursor(a.Column), newCursor(b.Column)
	for i := range a.Cuts {
		if cut := &a.Cuts[i]; a.has(cut.Index) && b.has(cut.Index+by) {
			if found, other := bt.find(cut.Index + by); found && outlinesTouch(a, cut, b, other, by) {
				return true
			}
		}
	}
	for i := range b.Cuts {
		if cut := &b.Cuts[i]; b.has(cut.Index) && a.has(cut.Index-by) {
			if found, other := at.find(cut.Index - by); found && other == nil && outlinesTouch(b, cut, a, nil, -by) {
				return true
			}
		}
	}
	return false
}

// outlinesTouch says whether a piece of a cut block touches its neighbour, by
// blocks further on; other is nil when that is whole.
func outlinesTouch(a portion, cut *Cut, b portion, other *Cut, by int) bool {
	for _, piece := range cut.Pieces {
		if other == nil {
			corners := b.corners(cut.Index + by)
			if touch(piece.Outline, corners[:]) {
				return true
			}
			continue
		}
		for _, next := range other.Pieces {
			if touch(piece.Outline, next.Outline) {
				return true
			}
		}
	}
	return false
}
