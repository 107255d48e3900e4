package paper

import (
	"math"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
	"keelrow/wasm/words"
)

// scaleText says the scale of a plan.
func (w *writer) scaleText(scale float64) string {
	return words.Fill(w.Words.Sheets.Scale, "n", strconv.FormatFloat(scale, 'f', -1, 64))
}

// degrees writes an angle to a tenth, with a minus sign as it is set.
func degrees(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	if s == "-0.0" {
		s = "0.0"
	}
	if s[0] == '-' {
		s = "−" + s[1:]
	}
	return s + "°"
}

// survey is the room as it was measured.
func (w *writer) survey() {
	t := &w.Words.Sheets
	w.turn(t.Survey)
	outline := plane.Ring(w.job.Room)
	report := survey.ReportOf(outline)

	p := w.newPlan(12.5, w.height*planShare)
	if len(report.Diagonals) > 0 {
		p.path("diagonal", false, p.all([]plane.Point{outline[0], outline[2]}), p.all([]plane.Point{outline[1], outline[3]}))
	}
	p.walls()
	for i, long := range report.Walls {
		from, to := outline.Edge(i)
		s := w.plain(long)
		p.beside(0, i, from.Add(to).Times(0.5), 4.6, s)
	}
	for i, d := range report.Diagonals {
		from, to := outline[i], outline[i+2]
		p.label("", p.at(from.Add(to.Sub(from).Times(0.3))), upright(p.at(to).Sub(p.at(from))), w.plain(d))
	}
	if len(outline) <= mostLetters {
		p.angles(report)
	}
	p.doorNames()
	p.put("")

	if d := report.Diagonals; len(d) == 2 {
		w.say("", words.Fill(t.Diagonals, "first", survey.LineName(0, 2, 4), "a", w.said(d[0]), "second", survey.LineName(1, 3, 4), "b", w.said(d[1]),
			"difference", w.exact(length.Length(math.Abs(float64(d[0]-d[1]))))))
	}
	w.triangle(report)
	w.openings()

	rows := [][]html{}
	for i, long := range report.Walls {
		c := report.Corners[i]
		off, runs := "", ""
		if c.Out.Square {
			off, runs = degrees(c.Out.Degrees), w.runsOff(c.Out.OverShorter)
		}
		rows = append(rows, []html{
			el("b", "", text(floor.CornerName(i))), text(degrees(c.Angle)), text(off), text(runs),
			el("b", "", text(floor.WallName(i, len(outline)))), w.reading(long)})
	}
	w.heading(t.CornersWalls, tableHead+float64(len(rows))*rowHigh)
	w.table(table{"of-corners", []string{t.Corner, t.Angle, t.OffSquare, t.RunsOff, t.Wall, t.Length}, rows})
	w.holes()
}

// runsOff says how far a wall runs off square over its length.
func (w *writer) runsOff(l length.Length) string {
	t, amount := w.Words.Sheets.Opens, l
	if l < 0 {
		t, amount = w.Words.Sheets.Closes, -l
	}
	if amount < 0.05 {
		return w.Words.Sheets.Square
	}
	if w.tape.Unit == length.Inches {
		return words.Fill(t, "length", length.Decimal(amount, length.Inches, 2))
	}
	return words.Fill(t, "length", length.Decimal(amount, length.Millimetres, 1))
}

// triangle names the largest triangle to check a corner with.
func (w *writer) triangle(report survey.Report) {
	best, at := survey.Triangle{}, -1
	n := len(report.Walls)
	for i, c := range report.Corners {
		if !c.Out.Square || c.Angle > 180 {
			continue
		}
		t, ok := survey.Square345(report.Walls[i], report.Walls[(i+n-1)%n], w.tape.Unit)
		if ok && (at < 0 || t.Diagonal > best.Diagonal) {
			best, at = t, i
		}
	}
	if at >= 0 {
		w.say("", words.Fill(w.Words.Sheets.Triangle, "corner", floor.CornerName(at),
			"first", floor.WallName(at, n), "a", w.plain(best.Along), "second", floor.WallName((at+n-1)%n, n), "b", w.plain(best.Across),
			"diagonal", w.plain(best.Diagonal)))
	}
}

// angles writes each corner's angle inside the room.
func (p *plan) angles(report survey.Report) {
	outline := plane.Ring(p.w.job.Room)
	inward := 1.0
	if outline.Area() < 0 {
		inward = -1
	}
	for i, c := range report.Corners {
		before, at := outline.Edge(i - 1)
		_, after := outline.Edge(i)
		in, out := at.Sub(before), after.Sub(at)
		if min(in.Length(), out.Length())/p.scale < 18 {
			continue
		}
		in, out = in.Times(1/in.Length()), out.Times(1/out.Length())
		// Into the room, half way between the walls.
		middle := plane.Point{X: -in.Y - out.Y, Y: in.X + out.X}.Times(inward)
		if middle.Length() < 1e-9 {
			continue
		}
		middle = middle.Times(9 * p.scale / middle.Length())
		p.label("angle", p.at(at.Add(middle)), 0, degrees(c.Angle))
	}
}

// doorNames writes the names of doorways beside them, outside.
func (p *plan) doorNames() {
	for i, d := range p.w.job.Doors {
		from, to := p.w.Plan.Chord(0, d.Wall)
		along := to.Sub(from)
		middle := from.Add(along.Times(float64(d.At+d.Width/2) / along.Length()))
		p.beside(0, d.Wall, middle, 9.4, p.w.doorName(i))
	}
}

func (w *writer) doorName(i int) string {
	if name := w.job.Doors[i].Name; name != "" {
		return name
	}
	return words.Fill(w.Words.Sheets.Doorway, "n", strconv.Itoa(i+1))
}

// openings says where the doorways are.
func (w *writer) openings() {
	for i, d := range w.job.Doors {
		w.say("", words.Fill(w.Words.Sheets.DoorwayAt, "name", w.doorName(i), "wall", w.wall(0, d.Wall), "corner", floor.CornerName(d.Wall),
			"at", w.said(d.At), "width", w.said(d.Width)))
	}
}

// holes lists the corners of hearths, columns and islands by where they lie.
func (w *writer) holes() {
	t := &w.Words.Sheets
	rows := [][]html{}
	for h, hole := range w.job.Holes {
		for i, q := range hole {
			from, to := plane.Ring(hole).Edge(i)
			rows = append(rows, []html{el("b", "", text(w.corner(h+1, i))), w.reading(length.Length(q.X)), w.reading(length.Length(q.Y)),
				el("b", "", text(w.wall(h+1, i))), w.reading(length.Length(to.Sub(from).Length()))})
		}
	}
	if len(rows) > 0 {
		w.heading(t.Holes, tableHead+3*rowHigh)
		w.table(table{"", []string{t.Corner, w.Words.AlongX, w.Words.AlongY, t.Wall, t.Length}, rows})
	}
}
