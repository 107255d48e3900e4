package floor

import (
	"iter"
	"math"

	"keelrow/engine/plane"
)

// Piece is what is left of a block that meets an edge of the field.
type Piece struct {
	Outline plane.Ring   // counter-clockwise, room frame
	Holes   []plane.Ring // clockwise
	Area    float64      // mm², less the holes
}

// window cuts the field to one block.
//
// In the block's own directions the block is the rectangle from (0, 0) to
// (wide, high), so the field's edges are clipped by its four sides in turn
// (the parametric method of Liang and Barsky, 1984). The clipped edges chain
// up into lines that enter and leave the block, and each piece is walked
// round: along a chain to where it leaves, then counter-clockwise along the
// block's sides to where the next chain enters.
type window struct {
	wide, high float64
	inside     float64 // area of the block in its own directions times this is mm²

	edges  []edge        // that chains refer to
	points []plane.Point // of all chains
	chains []chain
	loops  []chain // edges of the field that run round inside the block
	rings  []outline
	walked []plane.Point // of all outlines
}

// outline is what is left of the block inside walked[from:to].
type outline struct {
	from, to int
	area     float64 // mm²
}

// outline returns the corners of ring k.
func (w *window) outline(k int) plane.Ring { return w.walked[w.rings[k].from:w.rings[k].to] }

// chain is a run of clipped edges: points[from:to], entering the block at in
// and leaving it at out, measured counter-clockwise along its sides.
type chain struct {
	from, to    int
	in, out     float64
	entry, exit int  // edges that it enters and leaves along
	open        bool // starts inside the block: its beginning comes last
	used        bool
}

// onSide is the distance in mm within which a corner of the field counts as
// lying on a block's side. Such a corner is moved just outside, so that every
// crossing is a clean one. A wall moved by this much changes a block's area
// by less than wholeShare; rounding is a thousand times smaller.
const onSide = 1e-8

// off moves a coordinate off the lines at 0 and at size, outward.
func off(x, size float64) float64 {
	if math.Abs(x) < onSide {
		return -onSide
	}
	if math.Abs(x-size) < onSide {
		return size + onSide
	}
	return x
}

// reset makes the window ready for a block.
func (w *window) reset() {
	w.points, w.chains, w.loops = w.points[:0], w.chains[:0], w.loops[:0]
	w.rings, w.walked = w.rings[:0], w.walked[:0]
}

// begin starts a chain at the end of the points.
func (w *window) begin(in float64, entry int, open bool) {
	w.chains = append(w.chains, chain{from: len(w.points), in: in, entry: entry, open: open})
}

// edge adds the part of edge e that lies in the block, and says whether the
// edge ends there. P and q are its ends in the block's directions. The chain
// of an edge that begins in the block must be open.
func (w *window) edge(e int, p, q plane.Point) (endsInside bool) {
	d := q.Sub(p)
	t0, t1 := 0.0, 1.0
	side0, side1 := -1, -1
	// Sides in counter-clockwise order: low, right, high, left.
	for side := range 4 {
		var dist, speed float64 // how far p is inside, and how fast that falls
		switch side {
		case 0:
			dist, speed = p.Y, -d.Y
		case 1:
			dist, speed = w.wide-p.X, d.X
		case 2:
			dist, speed = w.high-p.Y, d.Y
		case 3:
			dist, speed = p.X, -d.X
		}
		switch {
		case speed < 0:
			if t := dist / speed; t > t0 {
				t0, side0 = t, side
			}
		case speed > 0:
			if t := dist / speed; t < t1 {
				t1, side1 = t, side
			}
		case dist < 0:
			return false
		}
	}
	if t0 >= t1 {
		return false
	}
	if side0 >= 0 {
		at, s := w.onSide(p.Add(d.Times(t0)), side0)
		w.begin(s, e, false)
		w.points = append(w.points, at)
	}
	if side1 < 0 {
		w.points = append(w.points, q)
		return true
	}
	at, s := w.onSide(p.Add(d.Times(t1)), side1)
	w.points = append(w.points, at)
	last := &w.chains[len(w.chains)-1]
	last.to, last.out, last.exit = len(w.points), s, e
	return false
}

// onSide puts a point that was computed to lie on a side exactly there, and
// returns its distance from the block's first corner along the sides.
func (w *window) onSide(p plane.Point, side int) (plane.Point, float64) {
	switch side {
	case 0:
		x := clamp(p.X, w.wide)
		return plane.Point{X: x}, x
	case 1:
		y := clamp(p.Y, w.high)
		return plane.Point{X: w.wide, Y: y}, w.wide + y
	case 2:
		x := clamp(p.X, w.wide)
		return plane.Point{X: x, Y: w.high}, w.wide + w.high + w.wide - x
	default:
		y := clamp(p.Y, w.high)
		return plane.Point{Y: y}, 2*(w.wide+w.high) - y
	}
}

// clamp returns x, or the end of the range from 0 to size that it lies beyond.
// (The built-in min and max are function calls in WebAssembly.)
func clamp(x, size float64) float64 {
	if x < 0 {
		return 0
	}
	if x > size {
		return size
	}
	return x
}

// inWindow says whether a corner of the field, moved off the sides, lies in
// the block.
func (w *window) inWindow(p plane.Point) bool {
	return p.X > 0 && p.X < w.wide && p.Y > 0 && p.Y < w.high
}

// closeRing ends the edges of one ring of the field: chains from first on
// belong to it. A first chain that began inside the block is the end of the
// last one, or the whole ring lies inside.
func (w *window) closeRing(first int, endsInside bool) {
	if endsInside {
		last := len(w.chains) - 1
		if last == first && w.chains[first].open {
			loop := w.chains[first]
			loop.to = len(w.points) - 1 // the last is the first again
			w.loops = append(w.loops, loop)
			w.chains = w.chains[:first]
			return
		}
		head, tail := w.chains[first], &w.chains[last]
		w.points = append(w.points, w.points[head.from+1:head.to]...)
		tail.to, tail.out, tail.exit = len(w.points), head.out, head.exit
		copy(w.chains[first:], w.chains[first+1:])
		w.chains = w.chains[:last]
	}
	// A chain no longer than a side's own tolerance only touches a corner.
	kept := first
	for k := first; k < len(w.chains); k++ {
		c := &w.chains[k]
		start := w.points[c.from]
		for _, p := range w.points[c.from+1 : c.to] {
			if math.Abs(p.X-start.X) > 10*onSide || math.Abs(p.Y-start.Y) > 10*onSide {
				if kept < k {
					w.chains[kept] = *c
				}
				kept++
				break
			}
		}
	}
	w.chains = w.chains[:kept]
}

// corner returns the block's corner k, counted counter-clockwise without end,
// and its distance from the first along the sides.
func (w *window) corner(k int) (plane.Point, float64) {
	turns := float64(k/4) * 2 * (w.wide + w.high)
	switch k % 4 {
	case 0:
		return plane.Point{}, turns
	case 1:
		return plane.Point{X: w.wide}, turns + w.wide
	case 2:
		return plane.Point{X: w.wide, Y: w.high}, turns + w.wide + w.high
	default:
		return plane.Point{Y: w.high}, turns + 2*w.wide + w.high
	}
}

// way returns how far it is, counter-clockwise along the block's sides, from
// where c leaves the block to where next enters it.
func (w *window) way(c, next *chain) float64 {
	round := 2 * (w.wide + w.high)
	d := next.in - c.out
	if math.Abs(d) < nearCorner || round-math.Abs(d) < nearCorner {
		if out, in := &w.edges[c.exit], &w.edges[next.entry]; out.b == in.a {
			// Both edges meet in a corner just outside. In a sharp corner they
			// cross the side closer together than rounding can tell, so the
			// turn says what lies between them: field, or none of it.
			if out.b.Sub(out.a).Cross(in.b.Sub(in.a)) > 0 {
				return max(0, d)
			}
			return round
		}
	}
	if d < 0 {
		d += round
	}
	return d
}

// nearCorner is the distance in mm along the sides within which two crossings
// may come in the wrong order for rounding.
const nearCorner = 1e-6

// walk joins the chains into outlines.
func (w *window) walk() {
	for first := range w.chains {
		if w.chains[first].used {
			continue
		}
		start, here := len(w.walked), first
		for {
			c := &w.chains[here]
			c.used = true
			w.walked = append(w.walked, w.points[c.from:c.to]...)
			next, way := first, math.Inf(1)
			for k := range w.chains {
				if d := w.way(c, &w.chains[k]); d < way {
					next, way = k, d
				}
			}
			for k := 0; ; k++ {
				p, s := w.corner(k)
				if s >= c.out+way {
					break
				}
				if s > c.out {
					w.walked = append(w.walked, p)
				}
			}
			if w.chains[next].used {
				break
			}
			here = next
		}
		w.endRing(start)
	}
	outlines := len(w.rings)
	for _, loop := range w.loops {
		if ring := plane.Ring(w.points[loop.from:loop.to]); ring.Area() > 0 {
			w.walked = append(w.walked, ring...)
			w.endRing(len(w.walked) - len(ring))
			outlines++
		}
	}
	if outlines == 0 && len(w.loops) > 0 {
		w.walked = append(w.walked, plane.Point{}, plane.Point{X: w.wide}, plane.Point{X: w.wide, Y: w.high}, plane.Point{Y: w.high})
		w.endRing(len(w.walked) - 4)
	}
}

// endRing makes what was walked since start an outline.
func (w *window) endRing(start int) {
	ring := plane.Ring(w.walked[start:])
	w.rings = append(w.rings, outline{start, len(w.walked), ring.Area() * w.inside})
}

// holesOf yields the loops that are holes in ring k, with their areas in mm².
func (w *window) holesOf(k int) iter.Seq2[plane.Ring, float64] {
	return func(yield func(plane.Ring, float64) bool) {
		for _, loop := range w.loops {
			hole := plane.Ring(w.points[loop.from:loop.to])
			if area := hole.Area(); area < 0 && plane.Inside(hole[0], w.outline(k)) && !yield(hole, -area*w.inside) {
				return
			}
		}
	}
}
