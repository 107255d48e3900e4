package strike

import (
	"iter"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// RowCheck is what to measure when a row is down.
type RowCheck struct {
	Row floor.Row
	// Tips are the first and the last tip of the row that lie in the field, in
	// order of laying. There are none in a row whose tips are all cut off.
	Tips []TipCheck
	// Seams are the row's outer seams: one on its side, two of the spine.
	Seams []SeamCheck
}

// TipCheck is the place of a tip, as measured along the line it runs on.
type TipCheck struct {
	Strand, Index int
	Point         plane.Point
	Seam, Side    int // the line it runs on, named as in Mark
	// Mark is where that line meets the wall ahead of the row, and Distance is
	// from there back along the line to the tip.
	Mark     End
	Distance length.Length
}

// Reading returns the distance along the line as the tape shows it.
func (c TipCheck) Reading(t length.Tape) length.Reading { return t.Read(c.Distance) }

// SeamCheck is how far an outer seam's mean is from the wall on its side, so
// that eye and tape can be compared: the eye sees the two differ at the ends
// of the row when the wall, not the row, is crooked.
type SeamCheck struct {
	Seam, Side int // Side is -1 on the left, +1 on the right
	// ToWall is measured square to the axis, abreast of the row's first and
	// last tips. A seam that runs outside the room there has no reading.
	ToWall [2]ToWall
}

// ToWall is a distance from a line to a wall.
type ToWall struct {
	OK       bool
	From     plane.Point // on the line
	At       End         // on the wall
	Distance length.Length
}

// Reading returns the distance as the tape shows it.
func (w ToWall) Reading(t length.Tape) length.Reading { return t.Read(w.Distance) }

// More returns how much more there is to the wall at the row's last tip than
// at its first. It reports false where one end has no reading.
func (c SeamCheck) More() (length.Length, bool) {
	return c.ToWall[1].Distance - c.ToWall[0].Distance, c.ToWall[0].OK && c.ToWall[1].OK
}

// RowChecks yields the check of every row, in order of laying.
func RowChecks(p *floor.Plan) iter.Seq[RowCheck] {
	return func(yield func(RowCheck) bool) {
		b := room(p)
		for row := range p.Rows() {
			if !yield(rowCheck(p, b, row)) {
				return
			}
		}
	}
}

func rowCheck(p *floor.Plan, b boundary, row floor.Row) RowCheck {
	c := RowCheck{Row: row}
	origin, along := p.Axis()
	across := right(along)
	type place struct{ strand, index int }
	var places []place
	for block := range p.Blocks(row) {
		if block.Sub == 0 {
			places = append(places, place{block.Strand, block.Index})
		}
	}
	ahead := along
	if row.Stage == floor.Infill {
		ahead = along.Times(-1)
	}
	seek := func(from, step int) {
		for i := from; i >= 0 && i < len(places); i += step {
			q := p.Tip(places[i].strand, places[i].index)
			if !plane.Inside(q, p.Field()...) {
				continue
			}
			t := TipCheck{Strand: places[i].strand, Index: places[i].index, Point: q, Seam: places[i].strand + places[i].strand&1}
			switch {
			case p.Pattern().Spacing() == 0:
			case places[i].strand&1 == 0:
				t.Side = -1
			default:
				t.Side = 1
			}
			t.Mark, t.Distance, _ = b.ahead(q, ahead)
			c.Tips = append(c.Tips, t)
			return
		}
	}
	seek(0, 1)
	seek(len(places)-1, -1)
	for _, k := range row.Strands {
		s := SeamCheck{Seam: k, Side: -1}
		if k >= 0 {
			s = SeamCheck{Seam: k + 1, Side: 1}
		}
		for i, t := range c.Tips {
			from := origin.Add(across.Times(float64(p.Seam(s.Seam)))).Add(along.Times(t.Point.Sub(origin).Dot(along)))
			w := ToWall{From: from}
			w.At, w.Distance, w.OK = b.ahead(from, across.Times(float64(s.Side)))
			s.ToWall[i] = w
		}
		c.Seams = append(c.Seams, s)
	}
	return c
}
