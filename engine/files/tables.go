package files

import (
	"slices"
	"strconv"

	"keelrow/engine/cuts"
	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

// shyBy says how far a length is off its mark, as a reading does: shy by 0.3.
// On the mark it says so.
func shyBy(r length.Reading) string {
	if off := r.OffText(); off != "" {
		return off
	}
	return "on the mark"
}

// Marks returns a record for each end of each line to strike: the wall, the
// corner the tape is hooked on, the distance and how the tape reads it.
func Marks(p *floor.Plan) drawing.Table {
	tape := p.Job().Tape()
	t := drawing.Table{Header: []string{
		"Line", "Part", "End", "Wall", "Hook on corner", "Distance along the wall (mm)", "On the tape", "Shy or strong (" + unitOf(tape) + ")",
		"Off the wall (mm)", "Off the wall, on the tape", "Wall is bowed", "Length of the line (mm)", "To the right (mm)", "Away from you (mm)"}}
	for _, m := range strike.Marks(p) {
		for i, part := range m.Parts {
			for k, e := range part.Ends {
				r := e.Reading(tape)
				bowed := "no"
				if e.Bowed {
					bowed = "yes"
				}
				t.Rows = append(t.Rows, []string{
					lineName(p, m), strconv.Itoa(i + 1), strconv.Itoa(k + 1), wallName(p, e.Hole, e.Wall), cornerName(e.Hole, e.Corner),
					mm(e.Distance), r.FeetText(), shyBy(r), mm(e.Offset), e.OffsetReading(tape).FeetText(), bowed,
					mm(part.Long), mm(length.Length(e.Point.X)), mm(length.Length(e.Point.Y))})
			}
		}
	}
	return t
}

func unitOf(tape length.Tape) string {
	if tape.Unit == length.Inches {
		return "in"
	}
	return "mm"
}

// kindNames is what lines are struck for.
var kindNames = [...]string{
	strike.Centre: "centre line", strike.Cross: "cross line", strike.Spine: "pattern centre line", strike.Origin: "pattern cross line",
	strike.Working: "working line", strike.Seam: "seam", strike.Diagonal: "diagonal", strike.Border: "border line",
}

// lineName names a line so that no other of the plan has the same name.
func lineName(p *floor.Plan, m strike.Mark) string {
	name := kindNames[m.Kind]
	switch m.Kind {
	case strike.Working:
		name += " of seam " + strconv.Itoa(m.Seam)
		if m.Side != 0 {
			name += " " + sideOf(m.Side)
		}
	case strike.Seam:
		name += " " + strconv.Itoa(m.Seam)
	case strike.Diagonal:
		name += " " + sideOf(m.Side)
	case strike.Border:
		name += " " + wallName(p, m.Hole, m.Wall)
	}
	return name
}

func sideOf(side int) string {
	if side < 0 {
		return "left"
	}
	return "right"
}

// Rows returns a record for each row in order of laying, with what to measure
// when it is down: how far its last tip in the field lies from the wall ahead,
// along the line that the tip runs on.
func Rows(p *floor.Plan) drawing.Table {
	tape := p.Job().Tape()
	t := drawing.Table{Header: []string{
		"Row", "Stage", "Side", "Strands", "Hand", "Full blocks", "Cut blocks", "Blocks laid by then",
		"Last tip to the wall ahead (mm)", "On the tape", "Shy or strong (" + unitOf(tape) + ")", "Wall ahead"}}
	for c := range strike.RowChecks(p) {
		row := c.Row
		// The last first: a field that begins with a minus sign and is no
		// number would be quoted.
		strands := ""
		for _, k := range slices.Backward(row.Strands) {
			if strands != "" {
				strands += " "
			}
			strands += strconv.Itoa(k)
		}
		fields := []string{
			strconv.Itoa(row.Number), stageName(row.Stage), sideName(row.Strands), strands, handOf(p, row),
			strconv.Itoa(row.Full), strconv.Itoa(row.Cut), strconv.Itoa(row.First + row.Blocks())}
		if n := len(c.Tips); n > 0 && c.Tips[n-1].Distance > 0 {
			tip := c.Tips[n-1]
			r := tip.Reading(tape)
			fields = append(fields, mm(tip.Distance), r.FeetText(), shyBy(r), wallName(p, tip.Mark.Hole, tip.Mark.Wall))
		}
		t.Rows = append(t.Rows, fields)
	}
	return t
}

// handOf returns the hand of a row's blocks: the spine has both.
func handOf(p *floor.Plan, row floor.Row) string {
	if len(row.Strands) > 1 {
		return "both"
	}
	return handName(p.Pattern().Columns(row.Strands[0])[0].Hand)
}

func handName(h pattern.Hand) string {
	if h == pattern.LeftHand {
		return "left"
	}
	return "right"
}

func stageName(s floor.Stage) string {
	switch s {
	case floor.Spine:
		return "spine"
	case floor.Side:
		return "side"
	default:
		return "infill"
	}
}

// sideName says on which side of the centre line the strands of a row lie.
func sideName(strands []int) string {
	switch {
	case len(strands) > 1:
		return "middle"
	case strands[0] < 0:
		return "left"
	default:
		return "right"
	}
}

// Names of cuts and of what is kept.
var (
	cutNames  = [...]string{cuts.Across: "across", cuts.Corner: "corner", cuts.Rip: "rip"}
	keepNames = [...]string{cuts.KeepStop: "towards the stop", cuts.KeepFar: "away from the stop", cuts.KeepRight: "right-hand edge", cuts.KeepLeft: "left-hand edge"}
)

// Cuts returns a record for each saw cut of each group of pieces that are sawn
// alike, and one for a group that is scribed instead. Pieces count as alike
// when they differ by no more than the tolerance.
func Cuts(p *floor.Plan, tolerance length.Length) drawing.Table {
	tape := p.Job().Tape()
	t := drawing.Table{Header: []string{
		"Mark", "Pieces", "Hand", "Area of one (mm2)", "Cut", "Kind", "Keep",
		"From the stop, right-hand edge (mm)", "On the tape", "From the stop, left-hand edge (mm)", "On the tape",
		"On the end, from the right-hand edge (mm)", "On the tape", "Off square (degrees)", "Width left at the stop (mm)", "Width left at the far end (mm)"}}
	for _, g := range cuts.List(p, cuts.Options{Tolerance: tolerance}) {
		head := []string{g.Mark, strconv.Itoa(g.Count()), handName(g.Hand), decimal(g.Shape.Area, 3)}
		if g.Shape.Notch {
			t.Rows = append(t.Rows, append(head, "", "scribed"))
			continue
		}
		for i, c := range g.Shape.Cuts {
			row := append(head[:len(head):len(head)], strconv.Itoa(i+1), cutNames[c.Kind], keepNames[c.Keep])
			if c.Kind == cuts.Rip {
				row = append(row, "", "", "", "", "", "", decimal(c.Angle, 3), mm(c.AtStop), mm(c.AtFar))
			} else {
				var at [3][2]string // on the right-hand edge, the left-hand edge, an end
				for _, mark := range c.Marks {
					edge, l := met(mark, p.Job().Width)
					at[edge] = [2]string{mm(l), tape.Read(l).FeetText()}
				}
				row = append(row, at[0][0], at[0][1], at[1][0], at[1][1], at[2][0], at[2][1], decimal(c.Angle, 3))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// met says what a cut meets at one of its marks, 0 for the right-hand edge, 1
// for the left-hand edge and 2 for an end, and where on it.
func met(mark plane.Point, width length.Length) (edge int, at length.Length) {
	switch {
	case mark.Y <= 0:
		return 0, length.Length(mark.X)
	case mark.Y >= float64(width):
		return 1, length.Length(mark.X)
	}
	return 2, length.Length(mark.Y)
}

func decimal(v float64, places int) string { return strconv.FormatFloat(v+0, 'f', places, 64) }
