package floor

import (
	"math"

	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Run is whole blocks of a column, one after the other: From to To-1.
type Run struct{ From, To int }

// Cut is a block that meets an edge of the field, with what is left of it.
type Cut struct {
	Index  int
	Pieces []Piece
}

// Column is what lies of one column of the pattern in the field. Block i of
// it has the corners of First moved by i times Step, in the room frame.
type Column struct {
	Strand, Sub int
	Hand        pattern.Hand
	First       [4]plane.Point // counter-clockwise, a long edge first
	Step        plane.Point
	Runs        []Run // in order, never touching
	Cuts        []Cut // in order
}

// corners returns the corners of block i.
func (c *Column) corners(i int) [4]plane.Point {
	move := c.Step.Times(float64(i))
	return [4]plane.Point{c.First[0].Add(move), c.First[1].Add(move), c.First[2].Add(move), c.First[3].Add(move)}
}

// Strand is all blocks of one strand that reach into the field.
type Strand struct {
	Columns []Column
	Count   Count
}

// Count adds up blocks. Pieces counts the pieces the cut blocks give, Area is
// mm² of all blocks' visible parts, Smallest the smallest piece in mm² (0
// when nothing is cut).
type Count struct {
	Full, Cut, Pieces int
	Area, Smallest    float64
}

// Add returns both counts together.
func (c Count) Add(d Count) Count {
	smallest := c.Smallest
	if smallest == 0 || d.Smallest > 0 && d.Smallest < smallest {
		smallest = d.Smallest
	}
	return Count{c.Full + d.Full, c.Cut + d.Cut, c.Pieces + d.Pieces, c.Area + d.Area, smallest}
}

const (
	// smallestPiece is the area in mm² under which a piece is no piece.
	smallestPiece = 1e-3
	// wholeShare is the share of its area that a block may lack and be full.
	wholeShare = 1e-9
	// sameCorner is the distance in mm along a block's edges within which two
	// corners of a piece are one. A corner of the field on the side of a block
	// is moved by onSide, which parts the crossings of its edges.
	sameCorner = 10 * onSide
	// clear is the distance in mm that an edge must keep from a block's box
	// for the block to be taken without a look: well above rounding.
	clear = 1e-6
)

// edge is an edge of the field in the pattern frame, with its box.
type edge struct {
	a, b      plane.Point
	low, high plane.Point
	ring      int
}

// span is blocks from low to high that may meet an edge.
type span struct{ low, high int }

// layout lays out strands, one at a time. Everything in it is scratch, kept
// so that a strand costs no allocation beyond what it returns.
type layout struct {
	edges  []edge // of the whole field
	near   []edge // those that reach into the strand's breadth
	spans  []span
	window window

	// What is returned is cut from these, so that a thousand small lists are
	// a handful of large ones.
	runs   []Run
	cuts   []Cut
	pieces []Piece
	points []plane.Point
	store  int // how many items are set aside at a time
}

// Bounds of layout.store.
const (
	leastStore = 32
	mostStore  = 512
)

// spare returns the unused rest of a store, or a new one where too little is
// left for a list of the usual length.
func spare[T any](store []T, usual, size int) []T {
	if cap(store)-len(store) < usual {
		return make([]T, 0, max(usual, size))
	}
	return store[len(store):]
}

// strand lays out the columns of one strand. Step is how far a block moves
// along the axis; toRoom takes the pattern frame to the room frame.
func (l *layout) strand(columns []pattern.Column, step, blockArea float64, toRoom frame) Strand {
	s := Strand{Columns: make([]Column, len(columns))}
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range columns {
		for _, p := range c.Block {
			low, high = min(low, p.X), max(high, p.X)
		}
	}
	l.near = l.near[:0]
	for i := range l.edges {
		if e := &l.edges[i]; e.high.X >= low-clear && e.low.X <= high+clear {
			l.near = append(l.near, *e)
		}
	}
	if len(l.near) == 0 {
		return s
	}
	for k, c := range columns {
		col := Column{Strand: c.Strand, Sub: c.Sub, Hand: c.Hand, Step: toRoom.direction(plane.Point{Y: step})}
		for i, p := range c.Block {
			col.First[i] = toRoom.point(p)
		}
		l.column(&col, c, step, blockArea, &s.Count)
		s.Columns[k] = col
	}
	return s
}

// column finds the whole and the cut blocks of one column.
func (l *layout) column(col *Column, c pattern.Column, step, blockArea float64, count *Count) {
	low, high := plane.Ring(c.Block[:]).Box()
	l.mark(low, high, step)
	middle := c.Block[0].Add(c.Block[2]).Times(0.5)
	l.runs, l.cuts = spare(l.runs, 4, l.store), spare(l.cuts, 16, l.store)
	whole := func(from, to int) {
		if n := len(l.runs); n > 0 && l.runs[n-1].To == from {
			l.runs[n-1].To = to
		} else {
			l.runs = append(l.runs, Run{from, to})
		}
		count.Full += to - from
	}
	cutter := newCutter(c, col, &l.window)
	done := math.MinInt // blocks below this one are settled
	for _, s := range l.spans {
		if done > math.MinInt && s.low > done && l.covers(middle.X, middle.Y+float64(done)*step) {
			whole(done, s.low)
		}
		for i := max(s.low, done); i <= s.high; i++ {
			cutter.cut(l.near, i, step)
			pieces, area, touched := l.collect(&cutter, i, blockArea)
			switch {
			case !touched && l.covers(middle.X, middle.Y+float64(i)*step), len(pieces) == 1 && math.Abs(area-blockArea) < wholeShare*blockArea:
				whole(i, i+1)
			case len(pieces) > 0:
				l.cuts = append(l.cuts, Cut{i, pieces})
				count.Cut++
				count.Pieces += len(pieces)
				count.Area += area
				for _, p := range pieces {
					if count.Smallest == 0 || p.Area < count.Smallest {
						count.Smallest = p.Area
					}
				}
			}
		}
		done = max(done, s.high+1)
	}
	col.Runs, col.Cuts = l.runs[:len(l.runs):len(l.runs)], l.cuts[:len(l.cuts):len(l.cuts)]
	full := 0
	for _, r := range col.Runs {
		full += r.To - r.From
	}
	count.Area += float64(full) * blockArea
}

// mark lists, in order, the blocks of a column whose box an edge can touch.
// The box given is that of block 0.
func (l *layout) mark(low, high plane.Point, step float64) {
	l.spans = l.spans[:0]
	for k := range l.near {
		e := &l.near[k]
		if e.high.X < low.X-clear || e.low.X > high.X+clear {
			continue
		}
		a, b := e.a, e.b
		if a.X > b.X {
			a, b = b, a
		}
		// The edge within the column's breadth.
		from, to := a.Y, b.Y
		if d := b.X - a.X; d > clear {
			slope := (b.Y - a.Y) / d
			if a.X < low.X-clear {
				from = a.Y + (low.X-clear-a.X)*slope
			}
			if b.X > high.X+clear {
				to = a.Y + (high.X+clear-a.X)*slope
			}
		}
		if from > to {
			from, to = to, from
		}
		s := span{
			int(math.Ceil((from - high.Y - clear) / step)),
			int(math.Floor((to - low.Y + clear) / step)),
		}
		if s.low > s.high {
			// It passes between two blocks: both are looked at, so that
			// blocks between two spans always lie on one side of every edge.
			s.low, s.high = s.high, s.low
		}
		l.spans = append(l.spans, s)
	}
	for i := 1; i < len(l.spans); i++ { // a short list, nearly in order
		for j := i; j > 0 && l.spans[j].low < l.spans[j-1].low; j-- {
			l.spans[j], l.spans[j-1] = l.spans[j-1], l.spans[j]
		}
	}
}

// covers says whether a point that lies on no edge is in the field: whether
// an odd number of edges passes below it.
func (l *layout) covers(x, y float64) bool {
	odd := false
	for i := range l.near {
		a, b := l.near[i].a, l.near[i].b
		if (a.X > x) != (b.X > x) && a.Y+(x-a.X)/(b.X-a.X)*(b.Y-a.Y) < y {
			odd = !odd
		}
	}
	return odd
}

// cutter cuts the blocks of one column.
type cutter struct {
	win      *window
	low      plane.Point // box of block 0 in the pattern frame
	high     plane.Point
	corner   plane.Point // its first corner there
	toU, toV plane.Point // along both directions of the block, in the pattern frame
	first    plane.Point // its first corner in the room frame
	u, v     plane.Point // unit vectors of the two directions there
	step     plane.Point
}

func newCutter(c pattern.Column, col *Column, win *window) cutter {
	low, high := plane.Ring(c.Block[:]).Box()
	along, across := c.Block[1].Sub(c.Block[0]), c.Block[3].Sub(c.Block[0])
	win.wide, win.high = along.Length(), across.Length()
	u, v := along.Times(1/win.wide), across.Times(1/win.high)
	win.inside = u.Cross(v)
	return cutter{
		win: win, low: low, high: high, corner: c.Block[0],
		toU:   plane.Point{X: v.Y, Y: -v.X}.Times(1 / win.inside),
		toV:   plane.Point{X: -u.Y, Y: u.X}.Times(1 / win.inside),
		first: col.First[0], step: col.Step,
		u: col.First[1].Sub(col.First[0]).Times(1 / win.wide),
		v: col.First[3].Sub(col.First[0]).Times(1 / win.high),
	}
}

// local takes a point of the pattern frame to the directions of block i,
// moved off the block's sides.
func (c *cutter) local(p plane.Point, lift float64) plane.Point {
	d := plane.Point{X: p.X - c.corner.X, Y: p.Y - c.corner.Y - lift}
	return plane.Point{X: off(d.Dot(c.toU), c.win.wide), Y: off(d.Dot(c.toV), c.win.high)}
}

// cut leaves the outlines of what is left of block i in the window.
func (c *cutter) cut(edges []edge, i int, step float64) {
	w := c.win
	w.reset()
	w.edges = edges
	lift := float64(i) * step
	low, high := c.low.Y+lift-clear, c.high.Y+lift+clear
	firstOfRing, endsInside := 0, false
	for k := range edges {
		e := &edges[k]
		if e.high.Y >= low && e.low.Y <= high && e.high.X >= c.low.X-clear && e.low.X <= c.high.X+clear {
			p, q := c.local(e.a, lift), c.local(e.b, lift)
			if !endsInside && w.inWindow(p) {
				w.begin(0, 0, true)
				w.points = append(w.points, p)
			}
			endsInside = w.edge(k, p, q)
		}
		if k+1 == len(edges) || edges[k+1].ring != e.ring {
			if len(w.chains) > firstOfRing {
				w.closeRing(firstOfRing, endsInside)
			}
			firstOfRing, endsInside = len(w.chains), false
		}
	}
	w.walk()
}

// collect takes the pieces of block i out of the window, in the room frame,
// with their area together. Touched says whether any edge runs in the block.
func (l *layout) collect(c *cutter, i int, blockArea float64) (pieces []Piece, area float64, touched bool) {
	w := c.win
	if len(w.chains) == 0 && len(w.loops) == 0 {
		return nil, 0, false
	}
	l.pieces = spare(l.pieces, 4, l.store)
	for k := range w.rings {
		piece := Piece{Area: w.rings[k].area}
		for hole, area := range w.holesOf(k) {
			piece.Area -= area
			piece.Holes = append(piece.Holes, l.place(c, hole, i))
		}
		if piece.Area < smallestPiece {
			continue
		}
		piece.Outline = l.place(c, w.outline(k), i)
		l.pieces = append(l.pieces, piece)
		area += piece.Area
	}
	return l.pieces[:len(l.pieces):len(l.pieces)], area, true
}

// place takes an outline from the directions of block i to the room frame.
func (l *layout) place(c *cutter, ring plane.Ring, i int) plane.Ring {
	l.points = spare(l.points, len(ring), 4*l.store)
	origin := c.first.Add(c.step.Times(float64(i)))
	last := ring[len(ring)-1]
	for _, p := range ring {
		if math.Abs(p.X-last.X) > sameCorner || math.Abs(p.Y-last.Y) > sameCorner {
			l.points = append(l.points, origin.Add(c.u.Times(p.X)).Add(c.v.Times(p.Y)))
		}
		last = p
	}
	return l.points[:len(l.points):len(l.points)]
}
