package floor

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Strip is one strip of the border along one wall, with its mitred ends. A
// bowed or scribed wall has one for each of its straight edges, one after the
// other: their lengths add up to that of a strip bent to the wall.
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
	for band := range widths {
		var rest length.Length // of the border, within this band
		for _, w := range widths[band+1:] {
			rest += w
		}
		upTo := func(hole, wall int) length.Length {
			return p.job.gapAt(hole, wall) + max(0, p.job.borderAt(hole, wall)-rest)
		}
		inner, err := inset(p.rings, upTo, "border", "gap and first strips of the border")
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

// noStrip is the width in mm up to which a strip is none: rounding, where a
// wall has no border.
const noStrip = 1e-6

// between returns the strips between two rings that were moved in from the
// same walls. Edges keep their order, so the rings are walked along together. An edge that the inset
// used up has no inner edge: its strip runs out in the corner where its
// neighbours meet. So does, outward, that of an edge which the gap used up and
// wider borders beside it leave again.
func between(outer, inner walled, band, hole int) (strips []Strip) {
	n, m := len(outer.Ring), len(inner.Ring)
	add := func(wall int, a, b, c, d plane.Point) {
		along := b.Sub(a)
		if a == b {
			along = d.Sub(c)
		}
		along = along.Times(1 / along.Length())
		normal := plane.Point{X: -along.Y, Y: along.X}
		s := Strip{Band: band, Hole: hole, Wall: wall,
			Width: length.Length(c.Sub(a).Dot(normal)),
			Outer: length.Length(b.Sub(a).Length()), Inner: length.Length(d.Sub(c).Length())}
		if s.Width <= noStrip {
			return
		}
		s.From = math.Atan2(c.Sub(a).Dot(along), float64(s.Width)) * 180 / math.Pi
		s.To = math.Atan2(b.Sub(d).Dot(along), float64(s.Width)) * 180 / math.Pi
		switch {
		case c == d:
			s.Outline = plane.Ring{a, b, c}
		case a == b:
			s.Outline = plane.Ring{a, d, c}
		default:
			s.Outline = plane.Ring{a, b, d, c}
		}
		strips = append(strips, s)
	}
	i, k := 0, 0
	for i < n || k < m {
		switch {
		case k == m || i < n && outer.edge[i] < inner.edge[k]:
			a, b := outer.Edge(i)
			c, _ := inner.Edge(k)
			add(outer.wall[i], a, b, c, c)
			i++
		case i == n || inner.edge[k] < outer.edge[i]:
			a, _ := outer.Edge(i)
			c, d := inner.Edge(k)
			add(inner.wall[k], a, a, c, d)
			k++
		default:
			a, b := outer.Edge(i)
			c, d := inner.Edge(k)
			add(outer.wall[i], a, b, c, d)
			i, k = i+1, k+1
		}
	}
	return strips
}

// Mitre returns the angle off square to which both strips are cut that meet
// in a corner of so many degrees: half of what the corner lacks to a straight
// line. Corners of more than 180 degrees give it as a negative angle.
func Mitre(corner float64) float64 { return (180 - corner) / 2 }
