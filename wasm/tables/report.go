package tables

import (
	"strconv"
	"strings"

	"keelrow/engine/cuts"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
	"keelrow/wasm/words"
)

// report writes what the tape says of a room. Its texts come from the
// catalogue and from numbers, so nothing needs escaping.
type report struct {
	strings.Builder
	plan *floor.Plan
	tape length.Tape
	w    *words.Catalogue
}

// Report returns the survey's report as HTML: corners, diagonals, opposite
// walls, how to square the lines in this room, the border's strips and, when
// the border repeats something, how it closes at the corners.
func Report(p *floor.Plan, repeat length.Length, w *words.Catalogue) string {
	r := &report{plan: p, tape: p.Job().Tape(), w: w}
	room := plane.Ring(p.Job().Room)
	of := survey.ReportOf(room)
	r.title(w.Survey.Report)
	r.corners(of)
	r.pairs(of)
	r.squaring()
	r.strips(repeat)
	r.WriteString(`<p class="hint">` + w.Survey.Tolerance + `</p>`)
	return r.String()
}

func (r *report) title(text string) { r.WriteString("<h3>" + text + "</h3>") }

// read writes a length as the tape reads it.
func (r *report) read(l length.Length) string { return r.tape.Read(l).FeetText() }

// small writes a small difference as a decimal.
func (r *report) small(l length.Length) string {
	if r.tape.Unit == length.Inches {
		return length.Decimal(l, length.Inches, 3)
	}
	return length.Decimal(l, length.Millimetres, 1)
}

func angle(degrees float64) string { return strconv.FormatFloat(degrees, 'f', 2, 64) + "°" }

func (r *report) head(names ...string) {
	r.WriteString("<table><thead><tr>")
	for _, name := range names {
		r.WriteString("<th scope=col>" + name + "</th>")
	}
	r.WriteString("</tr></thead><tbody>")
}

func (r *report) row(cells ...string) {
	r.WriteString("<tr>")
	for i, cell := range cells {
		if i == 0 {
			r.WriteString("<th scope=row>" + cell + "</th>")
			continue
		}
		r.WriteString("<td>" + cell + "</td>")
	}
	r.WriteString("</tr>")
}

func (r *report) end() { r.WriteString("</tbody></table>") }

// mostCorners is how many corners are listed one by one.
const mostCorners = 40

func (r *report) corners(of survey.Report) {
	w := &r.w.Survey
	if len(of.Corners) > mostCorners {
		return
	}
	r.head(w.ReportCorner, w.Angle, "")
	for i, c := range of.Corners {
		off := w.NotSquare
		if c.Out.Square {
			off = w.Square
			if c.Out.PerMetre >= 0.05 || c.Out.PerMetre <= -0.05 {
				off = words.Fill(w.OutOfSquare, "n", r.small(length.Length(c.Out.PerMetre)))
			}
		}
		r.row(survey.CornerName(i), angle(c.Angle), off)
	}
	r.end()
}

// pairs writes the diagonals and the opposite walls of a room with four
// corners.
func (r *report) pairs(of survey.Report) {
	w := &r.w.Survey
	if len(of.Diagonals) == 2 {
		d := of.Diagonals
		r.head(w.Diagonals, "", "")
		r.row("AC", r.read(d[0]), "")
		r.row("BD", r.read(d[1]), words.Fill(w.Differ, "n", r.small(max(d[0]-d[1], d[1]-d[0]))))
		r.end()
	}
	for _, o := range of.Opposite {
		a, b := survey.WallName(o.First, 4), survey.WallName(o.Second, 4)
		off := max(o.OverShorter, -o.OverShorter)
		if off < 0.05 {
			r.WriteString("<p>" + a + ", " + b + ": " + w.Parallel + "</p>")
			continue
		}
		r.WriteString("<p>" + words.Fill(w.Apart, "a", a, "b", b, "n", r.small(off)) + "</p>")
	}
}

// squaring writes the largest 3-4-5 triangle on the centre line and a line
// square to it.
func (r *report) squaring() {
	w := &r.w.Survey
	centre, along := r.plan.Axis()
	reach := func(dir plane.Point) length.Length {
		var most float64
		for _, s := range plane.Stretches(centre, dir, r.plan.Room()...) {
			if s.From <= 0 && s.To >= 0 {
				most = max(-s.From, s.To)
			}
		}
		return length.Length(most)
	}
	t, ok := survey.Square345(reach(along), reach(plane.Point{X: -along.Y, Y: along.X}), r.tape.Unit)
	if !ok {
		return
	}
	r.title(w.Check345)
	r.WriteString("<p>" + words.Fill(w.Check345Text, "a", r.read(t.Along), "b", r.read(t.Across), "c", r.read(t.Diagonal)) + "</p>")
}

// strips writes the border's strips: along each wall both lengths and the
// angles of the ends.
func (r *report) strips(repeat length.Length) {
	w := &r.w.Survey
	strips, err := r.plan.Strips()
	if err != nil || len(strips) == 0 {
		return
	}
	r.title(w.Strips)
	r.head(w.Strip, w.LongPoint, w.ShortSide, w.MitreAt, w.Pieces)
	block := r.plan.Job().Length
	bent := len(r.plan.Job().Bows)+len(r.plan.Job().Scribes) > 0
	for _, s := range strips {
		corners := len(r.plan.Job().Room)
		name := strconv.Itoa(s.Band+1) + " " + survey.WallName(s.Wall, corners)
		if s.Hole > 0 {
			name = strconv.Itoa(s.Band+1) + " " + words.Fill(r.w.Hole, "n", strconv.Itoa(s.Hole))
		}
		if bent && s.Outer < 150 {
			continue // a piece of a bowed wall's strip, which is bent or sawn to the curve
		}
		// Short runs are divided equally into pieces no longer than a block.
		equal := ""
		if n, each := cuts.Equal(s.Outer, block, block/2); n > 0 {
			equal = words.Fill(w.Equal, "n", strconv.Itoa(n), "length", r.read(each))
		}
		r.row(name, r.read(s.Outer), r.read(s.Inner), angle(s.From)+", "+angle(s.To), equal)
	}
	r.end()
	if repeat > 0 && len(r.plan.Job().Room) == 4 && !bent {
		r.closings(strips, repeat)
	}
}

// closings writes the widths of the outermost strip with which a repeating
// border closes in a room with four corners.
func (r *report) closings(strips []floor.Strip, repeat length.Length) {
	w := &r.w.Survey
	var inside, apron [2]length.Length
	for _, s := range strips { // the last band's are the innermost
		if s.Hole == 0 && s.Wall < 2 {
			inside[s.Wall] = s.Inner
			if s.Band == 0 {
				apron[s.Wall] = s.Width
			}
		}
	}
	r.title(w.CloseTitle)
	list := floor.Closings(inside, repeat, length.Inch)
	if len(list) == 0 {
		r.WriteString("<p>" + w.ClosesNot + "</p>")
		return
	}
	r.WriteString("<p>" + w.Closes + "</p>")
	r.head(words.Fill(w.RepeatsOn, "walls", "AB, CD"), words.Fill(w.RepeatsOn, "walls", "BC, DA"),
		words.Fill(w.ApronOn, "walls", "AB, CD"), words.Fill(w.ApronOn, "walls", "BC, DA"))
	for _, c := range list {
		// Runs along AB end at the strips along BC and DA.
		r.row(strconv.Itoa(c.Repeats[0]), strconv.Itoa(c.Repeats[1]), r.read(apron[0]+c.Wider[1]), r.read(apron[1]+c.Wider[0]))
	}
	r.end()
}
