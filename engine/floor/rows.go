package floor

import (
	"iter"
	"math"

	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Stage says which part of the laying a row belongs to.
type Stage int

const (
	Spine  Stage = iota // the first row, up the centre line
	Side                // a further strand, forward from its half starting block
	Infill              // what lies behind the starting blocks
)

// Row is blocks laid one after the other: the spine, or one strand, forward
// from the start or, as infill, back from it.
type Row struct {
	Number  int // from 1, in order of laying
	Stage   Stage
	Strands []int // the spine has two, laid turn about
	First   int   // Block.Order of its first block
	Full    int
	Cut     int
	back    bool
}

// Blocks returns how many blocks the row has.
func (r Row) Blocks() int { return r.Full + r.Cut }

// Block is one block of the floor.
type Block struct {
	Order       int // from 0, in order of laying over the whole floor
	Strand, Sub int
	Index       int // how many steps from the centre
	Hand        pattern.Hand
	Corners     [4]plane.Point // of the whole block: counter-clockwise, a long edge first, room frame
	Full        bool
	Pieces      []Piece // what is left of it, when not full
}

// Rows yields the rows in order of laying: the spine forward from the start,
// then strands on the right and the left in turn, then, in the same order,
// what lies behind the start. A row that nothing laid so far touches waits
// until something does. Nothing is laid out before it is asked for.
func (p *Plan) Rows() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		var waiting []Row
		laid := map[part]bool{}
		number, order := 0, 0
		lay := func(r Row) bool {
			number++
			r.Number, r.First = number, order
			order += r.Blocks()
			for _, k := range r.Strands {
				laid[part{k, r.back}] = true
			}
			return yield(r)
		}
		// settle lays what waited and is now touched.
		settle := func() bool {
			for again := true; again; {
				again = false
				for i, r := range waiting {
					if p.touched(r, laid) {
						waiting = append(waiting[:i:i], waiting[i+1:]...)
						if !lay(r) {
							return false
						}
						again = true
						break
					}
				}
			}
			return true
		}
		for r := range p.sequence() {
			if number > 0 && !p.touched(r, laid) {
				waiting = append(waiting, r)
				continue
			}
			if !lay(r) || !settle() {
				return
			}
		}
		for _, r := range waiting {
			if !lay(r) {
				return
			}
		}
	}
}

// part is the blocks of one strand ahead of the start or behind it.
type part struct {
	strand int
	back   bool
}

// sequence yields the rows that have blocks, in plain order.
func (p *Plan) sequence() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		reach := max(-p.first, p.last+1)
		for _, back := range []bool{false, true} {
			stage := Spine
			for n := range reach {
				pairs := [][]int{{n}, {-n - 1}}
				if n == 0 {
					pairs = [][]int{{-1, 0}}
				}
				for _, strands := range pairs {
					r := Row{Stage: stage, Strands: strands, back: back}
					if back {
						r.Stage = Infill
					}
					for _, k := range strands {
						full, cut := p.blocksOf(k, back)
						r.Full, r.Cut = r.Full+full, r.Cut+cut
					}
					if r.Blocks() > 0 && !yield(r) {
						return
					}
				}
				stage = Side
			}
		}
	}
}

// blocksOf counts the blocks of strand k ahead of the start or behind it.
func (p *Plan) blocksOf(k int, back bool) (full, cut int) {
	for _, c := range p.Strand(k).Columns {
		for _, r := range c.Runs {
			if back {
				full += max(0, min(r.To, p.start)-r.From)
			} else {
				full += max(0, r.To-max(r.From, p.start))
			}
		}
		for _, b := range c.Cuts {
			if back == (b.Index < p.start) {
				cut++
			}
		}
	}
	return full, cut
}

// indices returns the range of block indices of strand k ahead of the start
// or behind it; high is below low when there are none.
func (p *Plan) indices(k int, back bool) (low, high int) {
	low, high = math.MaxInt, math.MinInt
	for _, c := range p.Strand(k).Columns {
		if n := len(c.Runs); n > 0 {
			low, high = min(low, c.Runs[0].From), max(high, c.Runs[n-1].To-1)
		}
		if n := len(c.Cuts); n > 0 {
			low, high = min(low, c.Cuts[0].Index), max(high, c.Cuts[n-1].Index)
		}
	}
	if back {
		return low, min(high, p.start-1)
	}
	return max(low, p.start), high
}

// cursor finds blocks of a column by index, quickly when asked in order.
type cursor struct {
	column   *Column
	run, cut int
}

func newCursor(c *Column) cursor { return cursor{column: c} }

// find returns whether the column has the block, and its pieces if it is cut.
func (c *cursor) find(index int) (found bool, cut *Cut) {
	runs, cuts := c.column.Runs, c.column.Cuts
	for c.run < len(runs) && runs[c.run].To <= index {
		c.run++
	}
	for c.run > 0 && runs[c.run-1].To > index {
		c.run--
	}
	if c.run < len(runs) && runs[c.run].From <= index {
		return true, nil
	}
	for c.cut < len(cuts) && cuts[c.cut].Index < index {
		c.cut++
	}
	for c.cut > 0 && cuts[c.cut-1].Index >= index {
		c.cut--
	}
	if c.cut < len(cuts) && cuts[c.cut].Index == index {
		return true, &cuts[c.cut]
	}
	return false, nil
}

// Blocks yields the blocks of a row in order of laying.
func (p *Plan) Blocks(r Row) iter.Seq[Block] {
	return func(yield func(Block) bool) {
		var cursors []cursor
		low, high := math.MaxInt, math.MinInt
		for _, k := range r.Strands {
			from, to := p.indices(k, r.back)
			low, high = min(low, from), max(high, to)
			columns := p.Strand(k).Columns
			for i := range columns {
				cursors = append(cursors, newCursor(&columns[i]))
			}
		}
		order := r.First
		for n := range high - low + 1 {
			index := low + n
			if r.back {
				index = high - n
			}
			for i := range cursors {
				c := &cursors[i]
				if r.back { // the way back takes the blocks in the opposite order
					c = &cursors[len(cursors)-1-i]
				}
				found, cut := c.find(index)
				if !found {
					continue
				}
				col := c.column
				b := Block{Order: order, Strand: col.Strand, Sub: col.Sub, Index: index, Hand: col.Hand, Corners: col.corners(index), Full: cut == nil}
				if cut != nil {
					b.Pieces = cut.Pieces
				}
				if !yield(b) {
					return
				}
				order++
			}
		}
	}
}
