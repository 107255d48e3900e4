package floor

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Strip is one strip of the border along one wall, with its mitred ends.
type Strip struct {
	Band  int // from 0 at the wall inward
	Hole  int // 0 along the outline, from 1 round a hole
	Wall  int // as the outline, or the hole, was given
	Width length.Length
	// Outer and Inner are the lengths of its two edges, that at the wall's
	// side and that at the field's.
	Outer, Inner length.Length
	// From and To are the angles of its two ends off a square cut, in
	// degrees, in the order in which the strip runs round the room: positive
	// where the outer edge is the longer.
	From, To float64
	Outline  plane.Ring // counter-clockwise, room frame
}

// Strips returns the strips of the border from the wall inward, each band
// counter-clockwise round the room and then round the holes. A single width
// is one band. The error is a *FieldError where a band does not fit, though
// the whole border does.
func (p *Plan) Strips() ([]Strip, error) {
	if p.job.Border == 0 && len(p.job.BorderAt) == 0 {
		return nil, nil
	}
	widths := p.job.Strips
	if len(widths) == 0 {
		widths = []length.Length{p.job.Border}
	}
	var strips []Strip
	outer := p.beds
	var inside length.Length // of the border, within this band
	for _, w := range widths {
		inside += w
	}
	for band, width := range widths {
		inside -= width
		rest := inside
		upTo := func(hole, wall int) length.Length {
			return p.job.gapAt(hole, wall) + max(0, p.job.borderAt(hole, wall)-rest)
		}
		inner, err := inset(p.rings, upTo, "border", "gap and the first strips of the border")
		if err != nil {
			return nil, err
		}
		for h := range inner {
			strips = append(strips, between(outer[h], inner[h], band, h)...)
		}
		outer = inner
	}
	return strips, nil
}

// between returns the strips between two rings of the same walls.
func between(outer, inner walled, band, hole int) (strips []Strip) {
	n, m := len(outer.Ring), len(inner.Ring)
	// Edges keep their order, so the inner ring is walked along with the
	// outer one. An edge that the inset used up has no inner edge: its strip
	// runs out in the corner where its neighbours meet.
	k := 0
	for i := range n {
		a, b := outer.Edge(i)
		along := b.Sub(a)
		long := along.Length()
		if long == 0 {
			continue
		}
		along = along.Times(1 / long)
		s := Strip{Band: band, Hole: hole, Wall: outer.wall[i], Outer: length.Length(long)}
		var c, d plane.Point
		if k < m && inner.wall[k] == outer.wall[i] && sameWay(inner, k, along) {
			c, d = inner.Edge(k)
			k++
		} else {
			c, _ = inner.Edge(k % m)
			d = c
		}
		normal := plane.Point{X: -along.Y, Y: along.X}
		s.Width, s.Inner = length.Length(c.Sub(a).Dot(normal)), length.Length(d.Sub(c).Length())
		if s.Width <= 0 {
			continue
		}
		s.From = math.Atan2(c.Sub(a).Dot(along), float64(s.Width)) * 180 / math.Pi
		s.To = math.Atan2(b.Sub(d).Dot(along), float64(s.Width)) * 180 / math.Pi
		s.Outline = plane.Ring{a, b, d, c}
		if c == d {
			s.Outline = s.Outline[:3]
		}
		strips = append(strips, s)
	}
	return strips
}

// sameWay says whether edge k of a ring runs along a direction.
func sameWay(w walled, k int, along plane.Point) bool {
	a, b := w.Edge(k)
	d := b.Sub(a)
	return d.Dot(along) > 0 && math.Abs(d.Cross(along)) <= 1e-6*d.Length()
}

// Mitre returns the angle off square to which both strips are cut that meet
// in a corner of so many degrees: half of what the corner lacks to a straight
// line. Corners of more than 180 degrees give it as a negative angle.
func Mitre(corner float64) float64 { return (180 - corner) / 2 }
