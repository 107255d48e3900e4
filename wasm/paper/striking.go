package paper

import (
	"math"
	"slices"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/engine/survey"
	"keelrow/wasm/words"
)

// crowded is how many seams lie within the breadth of a number where not all
// of them are drawn.
const crowded = 3

// striking is what is set out on the subfloor.
func (w *writer) striking() {
	t := &w.Words.Sheets
	w.turn(t.Striking)
	marks := strike.Marks(w.Plan)
	p := w.newPlan(12.5, w.height*planShare)
	// Where seams lie so close that their lines would run together, fewer are drawn.
	every := max(1, int(math.Ceil(9*p.scale/float64(w.Plan.Pattern().Interval()))))
	drawn := marks
	if every >= crowded {
		drawn = slices.DeleteFunc(slices.Clone(marks), func(m strike.Mark) bool {
			return (m.Kind == strike.Working || m.Kind == strike.Seam) && m.Seam%every != 0
		})
	}
	w.drawLines(p, drawn, every)
	p.put("")
	w.put(8, el("div", "scale", w.legend()))
	if every >= crowded {
		w.say("", words.Fill(t.OneIn, "n", strconv.Itoa(every)))
	}

	w.setOut()
	w.start()

	w.heading(t.MarksTitle, tableHead+3*rowHigh)
	w.say("hint", t.MarksMean)
	var rows, border [][]html
	for _, m := range marks {
		for _, part := range m.Parts {
			a, b := part.Ends[0], part.Ends[1]
			if m.Kind == strike.Border {
				border = append(border, []html{el("b", "", text(w.wall(m.Hole, m.Wall))), text(w.corner(a.Hole, a.Corner)),
					w.reading(a.Distance), w.reading(a.Offset), w.reading(b.Distance), w.reading(b.Offset)})
				continue
			}
			rows = append(rows, []html{text(w.lineName(m)), w.hook(a), w.reading(a.Distance), w.hook(b), w.reading(b.Distance)})
		}
	}
	w.table(table{"of-marks", []string{t.LineName, t.FirstEnd, t.OnTape, t.SecondEnd, t.OnTape}, rows})
	if len(border) > 0 {
		w.heading(t.LineField, tableHead+3*rowHigh)
		w.say("hint", t.BorderMeans)
		w.table(table{"of-border", []string{t.Wall, t.FromCorner, t.FirstMark, t.OffWall, t.LastMark, t.OffWall}, border})
	}
}

// drawLines draws everything to strike, with the seams' numbers outside the
// walls and where the first block goes.
func (w *writer) drawLines(p *plan, marks []strike.Mark, every int) {
	p.rings("field", w.Plan.Field())
	p.lines("working", marks, strike.Working, strike.Seam)
	p.lines("diagonal", marks, strike.Diagonal)
	p.lines("spine", marks, strike.Spine, strike.Origin)
	p.lines("centre", marks, strike.Centre, strike.Cross)
	p.rings("block", w.Plan.StartingBlock())
	p.walls()
	w.seamNumbers(p, marks, every)
	for _, m := range marks {
		if m.Kind == strike.Centre || m.Kind == strike.Cross {
			for _, part := range m.Parts {
				for _, e := range part.Ends {
					p.beside(e.Hole, e.Wall, e.Point, 9.4, words.Fill(w.Words.Sheets.From, "length", w.plain(e.Distance), "corner", w.corner(e.Hole, e.Corner)))
				}
			}
		}
	}
	_, point := w.Plan.Start()
	c := p.at(point)
	const arm = 2.2
	p.path("start", false, []plane.Point{{X: c.X - arm, Y: c.Y - arm}, {X: c.X + arm, Y: c.Y + arm}}, []plane.Point{{X: c.X - arm, Y: c.Y + arm}, {X: c.X + arm, Y: c.Y - arm}})
	// The way the row runs: an arrow on the line, ahead of the start.
	_, along := w.Plan.Axis()
	ahead := plane.Point{X: along.X, Y: -along.Y}
	right := plane.Point{X: -ahead.Y, Y: ahead.X}
	tip := c.Add(ahead.Times(22))
	p.path("arrow", false, []plane.Point{tip.Sub(ahead.Times(4)).Sub(right.Times(1.6)), tip, tip.Sub(ahead.Times(4)).Add(right.Times(1.6))})
}

// seamNumbers numbers every so many-th seam where its lines come to a wall.
func (w *writer) seamNumbers(p *plan, marks []strike.Mark, every int) {
	type ends struct {
		sum [2]plane.Point
		n   float64
		at  [2]strike.End
	}
	seams := map[int]*ends{}
	first, last := 0, 0
	for _, m := range marks {
		if m.Kind != strike.Working && m.Kind != strike.Seam || m.Seam%every != 0 {
			continue
		}
		s := seams[m.Seam]
		if s == nil {
			s = &ends{}
			seams[m.Seam] = s
		}
		// Where both lines of a seam end at the same walls, between them.
		a, b := m.Parts[0].Ends[0], m.Parts[len(m.Parts)-1].Ends[1]
		if s.n > 0 && (s.at[0].Wall != a.Wall || s.at[1].Wall != b.Wall || s.at[0].Hole != a.Hole || s.at[1].Hole != b.Hole) {
			continue
		}
		s.at = [2]strike.End{a, b}
		s.sum[0], s.sum[1], s.n = s.sum[0].Add(a.Point), s.sum[1].Add(b.Point), s.n+1
		first, last = min(first, m.Seam), max(last, m.Seam)
	}
	for j := first; j <= last; j++ {
		s := seams[j]
		if s == nil {
			continue
		}
		for k, e := range s.at {
			out := p.away(e.Hole, e.Wall)
			at := s.sum[k].Times(1 / s.n).Add(out.Times(4.2 * p.scale))
			if !p.lettered(at) {
				p.label("seam", p.at(at), 0, signed(j))
			}
		}
	}
}

// signed writes a number with a minus sign as it is set.
func signed(n int) string {
	if n < 0 {
		return "−" + strconv.Itoa(-n)
	}
	return strconv.Itoa(n)
}

// legend says which line is which.
func (w *writer) legend() html {
	t := &w.Words.Sheets
	list := html("")
	for _, l := range []struct{ class, name string }{
		{"centre", t.LineCentre}, {"working", t.LineWorking}, {"diagonal", t.LineDiagonal}, {"field", t.LineField},
	} {
		d := drawing{wide: 13, high: 4}
		d.path(l.class, false, []plane.Point{{X: 0, Y: 2}, {X: 12, Y: 2}})
		list += el("span", "key", d.html()+text(l.name))
	}
	return list
}

// setOut is what the lines are set out with.
func (w *writer) setOut() {
	t := &w.Words.Sheets
	blocks := w.Plan.Pattern()
	measure := func(l length.Length) html { return w.reading(l) + " " + text("("+w.exact(l)+")") }
	list := []fact{{w.Words.Interval, measure(blocks.Interval())}, {w.Words.Step, measure(blocks.Step())}}
	if blocks.Spacing() > 0 {
		list = append(list, fact{w.Words.Spacing, measure(blocks.Spacing())})
	}
	interval, step := strike.Trammels(w.Plan, w.tape)
	for _, s := range []struct {
		name string
		strike.Trammel
	}{{t.TrammelInterval, interval}, {t.TrammelStep, step}} {
		if s.Steps == 0 {
			continue
		}
		list = append(list, fact{s.name, text(words.Fill(t.Stepped, "reading", s.Reading.FeetText(), "n", strconv.Itoa(s.Steps),
			"cost", w.exact(length.Length(math.Abs(float64(s.Cost))))))})
	}
	if triangle, ok := w.cross(); ok {
		list = append(list, fact{t.CrossCheck, text(words.Fill(t.CrossTriangle, "a", w.plain(triangle.Along), "b", w.plain(triangle.Across), "diagonal", w.plain(triangle.Diagonal)))})
	}
	w.facts(list)
}

// cross returns the largest triangle that checks the cross of centre line and
// cross line.
func (w *writer) cross() (survey.Triangle, bool) {
	centre := *w.job.Centre
	reach := func(kind strike.Kind) (most length.Length) {
		for _, m := range strike.Marks(w.Plan) {
			if m.Kind != kind {
				continue
			}
			for _, part := range m.Parts {
				a, b := part.Ends[0].Point.Sub(centre), part.Ends[1].Point.Sub(centre)
				if a.Dot(b) <= 0 { // the part the centre lies in
					most = length.Length(max(a.Length(), b.Length()))
				}
			}
		}
		return most
	}
	return survey.Square345(reach(strike.Centre), reach(strike.Cross), w.tape.Unit)
}

// start is where the first block goes.
func (w *writer) start() {
	t := &w.Words.Sheets
	s := strike.NewStart(w.Plan)
	w.heading(t.Start, 4*lineHigh)
	means := w.Words.StartMeans
	if w.job.Pattern == floor.Chevron {
		means = w.Words.StartMeansChevron
	}
	list := []fact{}
	across, along := s.Across, s.Along
	sideways, ahead := w.Words.FromCentreRight, w.Words.FromCentreAhead
	if across < 0 {
		sideways, across = w.Words.FromCentreLeft, -across
	}
	if along <= 0 {
		ahead, along = w.Words.FromCentreBack, -along
	}
	list = append(list, fact{sideways, w.reading(across)}, fact{ahead, w.reading(along)})
	for _, r := range s.FromWalls {
		list = append(list, fact{words.Fill(w.Words.FromWall, "wall", w.wall(0, r.Wall)), w.reading(r.Distance)})
	}
	w.facts(list)
	w.say("", means)
	if s.Back > 0 {
		w.say("", words.Fill(t.StartBack, "steps", strconv.Itoa(s.Back), "length", w.plain(s.Distance), "blocks", strconv.Itoa(s.Blocks)))
	}
}

// hook is the wall a line ends at. The tape is hooked on its first corner.
func (w *writer) hook(e strike.End) html {
	hook := el("b", "", text(w.wall(e.Hole, e.Wall)))
	if e.Bowed {
		hook += " " + text(w.Words.Sheets.Bowed)
	}
	return hook
}

// lineName is what a line is called in the list.
func (w *writer) lineName(m strike.Mark) string {
	t := &w.Words.Sheets
	side := w.Words.Right
	if m.Side < 0 {
		side = w.Words.Left
	}
	switch m.Kind {
	case strike.Centre:
		return t.LineCentre
	case strike.Cross:
		return t.LineCross
	case strike.Spine:
		return t.LineSpine
	case strike.Origin:
		return t.LineOrigin
	case strike.Seam:
		return words.Fill(t.LineSeam, "n", signed(m.Seam))
	case strike.Diagonal:
		return t.LineDiagonal + ", " + side
	}
	return words.Fill(t.LineSeam, "n", signed(m.Seam)) + ", " + side
}
