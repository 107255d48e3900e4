package tables

import (
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

// LineEnd is one end of a line to strike: one mark on a wall, or off it.
type LineEnd struct {
	Line string         // what the line is called, with its group
	Part [2]plane.Point // from end to end, in the room frame
	Tick string         // names the mark among the ticks kept on a device
	strike.End
}

// markTick names the mark at an end of a line among the ticks. A mark that
// moves is another one: what was ticked is not where it belongs any more.
func markTick(m strike.Mark, e strike.End) string {
	name := "mark"
	for _, n := range []int{int(m.Kind), m.Seam, m.Side, e.Hole, e.Wall} {
		name += "-" + strconv.Itoa(n)
	}
	for _, l := range []length.Length{e.Distance, e.Offset} {
		name += "-" + strconv.FormatFloat(float64(l), 'f', 1, 64)
	}
	return name
}

// LineEnds returns the ends of every line to strike, in the order of the
// table of marks.
func LineEnds(o Order) (ends []LineEnd) {
	w := newWriter(o)
	for _, m := range strike.Marks(o.Plan) {
		for i, part := range m.Parts {
			_, says := w.named(m, i)
			for _, e := range part.Ends {
				ends = append(ends, LineEnd{says, [2]plane.Point{part.Ends[0].Point, part.Ends[1].Point}, markTick(m, e), e})
			}
		}
	}
	return ends
}

// Reading is a length as it is marked on site, fractions stacked, with shy or
// strong, as HTML.
func Reading(o Order, l length.Length) string { return newWriter(o).reading(l) }

// WallName names a wall; a hole's number stands before its letters.
func WallName(o Order, hole, wall int) string { return newWriter(o).wall(hole, wall) }

// CornerName names a corner likewise.
func CornerName(o Order, hole, corner int) string { return newWriter(o).corner(hole, corner) }

// RowName is what a row is called.
func RowName(o Order, r floor.Row) string { return newWriter(o).rowName(r) }

// RowTick names a row among the ticks kept on a device.
func RowTick(number int) string { return "row-" + strconv.Itoa(number) }
