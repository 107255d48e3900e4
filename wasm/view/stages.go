package view

import (
	"strconv"
	"strings"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/pattern"
	"keelrow/wasm/state"
	"keelrow/wasm/words"
)

// section is a group of things within a stage.
func section(title string, children ...vecty.MarkupOrChild) *vecty.HTML {
	return elem.Section(append([]vecty.MarkupOrChild{elem.Heading3(vecty.Text(title))}, children...)...)
}

// area writes an area in m² or square feet.
func (p *Page) area(mm2 float64) string {
	text, size := p.Words.Area, mm2/1e6
	if p.State.Unit() == length.Inches {
		text, size = p.Words.AreaFeet, mm2/float64(length.Foot*length.Foot)
	}
	return words.Fill(text, "n", strconv.FormatFloat(size, 'f', 2, 64))
}

// plain writes a length as a decimal number, for workings.
func (p *Page) plain(l length.Length) string {
	if p.State.Unit() == length.Inches {
		return length.Decimal(l, length.Inches, 3)
	}
	return length.Decimal(l, length.Millimetres, 2)
}

// bare writes a length like plain, without its unit.
func (p *Page) bare(l length.Length) string {
	number, _, _ := strings.Cut(p.plain(l), " ")
	return number
}

// fact is a name and a value.
func fact(name string, value vecty.MarkupOrChild) vecty.List {
	return vecty.List{elem.DefinitionTerm(vecty.Text(name)), elem.Description(value)}
}

func (p *Page) choose() vecty.List {
	w, s := p.Words, &p.State
	job := s.Plan.Job()
	chevron := job.Pattern == floor.Chevron
	kind, long := "herringbone", w.BlockLength
	if chevron {
		kind, long = "chevron", w.LongEdge
	}
	list := vecty.List{
		choice("pattern", w.Pattern, kind, option{"herringbone", w.Herringbone}, option{"chevron", w.Chevron}),
		p.keyProblem("pattern"),
		when(!chevron, choice("strands", w.Strands, strconv.Itoa(job.Strands),
			option{"1", w.Single}, option{"2", w.Double}, option{"3", w.Triple})),
		p.keyProblem("strands"),
		section(w.Block,
			div("fields",
				p.input(input{name: state.BlockWidth, label: w.BlockWidth}),
				p.input(input{name: state.BlockLength, label: long})),
			p.keyProblem("block"),
			p.ratio(job),
		),
	}
	if !chevron {
		return append(list, p.linesUp(job))
	}
	c := pattern.Chevron{Width: job.Width, Length: job.Length, Mitre: job.Mitre}
	return append(list,
		section(w.Mitre,
			p.input(input{name: state.Mitre, label: w.Mitre, unit: w.Degrees, numeric: true}),
			p.keyProblem("mitre"),
			paragraph("hint", w.MitreHelp)),
		note(vecty.Text(w.StraightSeams+" "+words.Fill(w.TipToTip, "length", p.plain(c.TipToTip())))),
	)
}

// ratio is the block's ratio and what is usual.
func (p *Page) ratio(job floor.Job) *vecty.HTML {
	w := p.Words
	ratio := float64(job.Length / job.Width)
	usual := w.RatioUsual
	if ratio < 4-1e-9 {
		usual = w.RatioLow
	} else if ratio > 6+1e-9 {
		usual = w.RatioHigh
	}
	text := strconv.FormatFloat(ratio, 'f', 2, 64)
	if whole := int(ratio + 0.5); ratio-float64(whole) < 1e-9 && float64(whole)-ratio < 1e-9 {
		text = strconv.Itoa(whole)
	}
	return div("ratio",
		div("readout", vecty.Text(words.Fill(w.Ratio, "ratio", text))),
		paragraph("", usual),
		paragraph("hint", w.RatioNote))
}

// linesUp says whether the seams of every other row line up.
func (p *Page) linesUp(job floor.Job) *vecty.HTML {
	w := p.Words
	h := pattern.Herringbone{Width: job.Width, Length: job.Length, Strands: job.Strands}
	ok, miss, shorter, longer := h.LinesUp()
	if ok {
		n := strconv.Itoa(int(float64(job.Length/h.Unit()) + 0.5))
		return note(vecty.Text(words.Fill(w.LinesUp, "n", n)))
	}
	children := []vecty.MarkupOrChild{paragraph("", words.Fill(w.LinesUpNot, "miss", p.plain(miss)))}
	for i, l := range []length.Length{shorter, longer} {
		if l >= job.Width && (i == 0 || l != shorter) {
			children = append(children, button("length", strconv.FormatFloat(float64(l), 'f', -1, 64), "",
				words.Fill(w.TryLength, "length", p.plain(l))))
		}
	}
	return note(children...)
}

func (p *Page) strike() vecty.List {
	w, s := p.Words, &p.State
	job, blocks := s.Plan.Job(), s.Plan.Pattern()
	start := "centre"
	if job.Start == floor.FromWall {
		start = "wall"
	}
	return vecty.List{
		p.figures(job, blocks),
		section(w.Marks.LineFrom,
			p.line(),
			p.keyProblem("line"),
			paragraph("hint", w.Marks.LineHelp)),
		section(w.Centre,
			div("fields",
				p.input(input{name: state.CentreX, label: w.CentreX}),
				p.input(input{name: state.CentreY, label: w.CentreY})),
			p.keyProblem("centre"),
			paragraph("hint", w.CentreHelp),
			elem.Div(vecty.Markup(vecty.Class("field"), vecty.Property("hidden", !axisCounts(s))),
				p.input(input{name: state.Axis, label: w.Axis, unit: w.Degrees, numeric: true}),
				p.keyProblem("axis"),
				paragraph("hint", w.AxisHelp))),
		section(w.Balanced,
			p.balanced(blocks),
			paragraph("hint", w.BalancedHelp)),
		section(w.Shift,
			div("fields",
				p.input(input{name: state.Across, label: w.Across}),
				p.input(input{name: state.Along, label: w.Along})),
			p.keyProblem("shift"),
			paragraph("hint", w.ShiftHelp)),
		p.startPoint(),
		section(w.StartFrom,
			choice("start", w.StartFrom, start, option{"centre", w.StartCentre}, option{"wall", w.StartWall}),
			p.startNote(),
			paragraph("hint", w.StartHelp),
			p.box("start")),
		elem.Section(
			p.input(input{name: "sliver", label: w.Marks.Sliver, empty: p.plain(s.View.Sliver)}),
			p.box("leftovers")),
		elem.Section(p.toSite(w.Site.OneMark), p.box("marks")),
		elem.Section(
			p.input(input{name: "mark", label: w.Marks.Marking, empty: p.plain(s.View.Marking)}),
			p.box("trammel")),
	}
}

// balanced offers the four balanced placings, with the one in force pressed.
func (p *Page) balanced(blocks pattern.Pattern) *vecty.HTML {
	w, job := p.Words, p.State.Plan.Job()
	names := []string{w.OnSeam, w.OnSeam, w.MidStrand, w.MidStrand}
	ends := []string{w.FirstEnd, w.SecondEnd, w.FirstEnd, w.SecondEnd}
	row := []vecty.MarkupOrChild{markup("placings", attrs{"role", "group", "aria-label", w.Balanced})}
	for i, shift := range blocks.Balanced() {
		pressed := near(shift.Across, job.Across) && near(shift.Along, job.Along)
		row = append(row, elem.Button(
			markup("", attrs{"type", "button", "data-do", "place", "data-arg", strconv.Itoa(i), "aria-pressed", strconv.FormatBool(pressed)}),
			placingGlyph(i),
			vecty.Text(words.Fill(w.Placing, "where", names[i], "end", ends[i]))))
	}
	return div("", row...)
}

// near says whether two lengths are the same on any tape.
func near(a, b length.Length) bool { return max(a-b, b-a) < 0.001 }

// placingGlyph shows where the centre line falls on the pattern: on a seam or
// on a strand, at one or the other of two heights.
func placingGlyph(i int) *vecty.HTML {
	blocks := "M0 18l12 12l12 -12M0 6l12 12l12 -12M0 30l12 12l12 -12"
	if i >= 2 {
		blocks = "M-6 24l12 12l12 -12l12 12M-6 12l12 12l12 -12l12 12M-6 0l12 12l12 -12l12 12"
	}
	lift := strconv.Itoa(i % 2 * 6)
	return svg("svg", attrs{"class", "placing", "viewBox", "0 0 24 44", "aria-hidden", "true"},
		svg("path", attrs{"class", "block-line", "d", blocks, "transform", "translate(0 -" + lift + ")"}),
		svg("path", attrs{"class", "chalk", "d", "M12 0V44"}))
}

// startPoint says where the point of the starting block goes.
func (p *Page) startPoint() *vecty.HTML {
	w, s := p.Words, &p.State
	job := s.Plan.Job()
	_, at := s.Plan.Start()
	means := w.StartMeans
	if job.Pattern == floor.Chevron {
		means = w.StartMeansChevron
	}
	across, along := s.Plan.FromCentre(at)
	sideways, ahead := w.FromCentreRight, w.FromCentreAhead
	if across < 0 {
		sideways, across = w.FromCentreLeft, -across
	}
	if along <= 0 {
		ahead, along = w.FromCentreBack, -along
	}
	tape := job.Tape()
	list := vecty.List{
		p.mark(tape, across, sideways),
		p.mark(tape, along, ahead),
	}
	readings := s.Plan.FromWalls(at)
	for _, r := range readings {
		list = append(list, p.mark(tape, r.Distance,
			words.Fill(w.FromWall, "wall", floor.WallName(r.Wall, len(job.Room)))))
	}
	return section(w.StartPoint,
		div("marks", list),
		when(len(readings) == 0, note(vecty.Text(w.NoWalls))),
		paragraph("hint", means))
}

// mark is a reading to be marked on site, with its piece of tape.
func (p *Page) mark(tape length.Tape, l length.Length, what string) *vecty.HTML {
	return div("tape-mark", reading(tape, l, p.Words), tapeGlyph(tape, l), span("what", vecty.Text(what)))
}

// startNote says what the start means for the two ends.
func (p *Page) startNote() vecty.List {
	w, s := p.Words, &p.State
	job := s.Plan.Job()
	index, _ := s.Plan.Start()
	list := vecty.List{}
	if job.Start == floor.FromWall {
		if index == 0 {
			list = append(list, note(vecty.Text(w.StartNoRoom)))
		} else {
			list = append(list, note(vecty.Text(words.Fill(w.StartSteps, "n", strconv.Itoa(-index),
				"length", s.Plan.Job().Tape().Read(length.Length(-index)*s.Plan.Pattern().Step()).FeetText()))))
		}
	}
	if job.Pattern == floor.Herringbone {
		if balanced := s.Plan.Pattern().Balanced()[0]; balanced.Along != 0 && job.Along == 0 {
			list = append(list, note(vecty.Text(words.Fill(w.UnevenEnds, "length", p.plain(balanced.Along)))))
		}
	}
	return list
}

func (p *Page) lay() vecty.List {
	w, s := p.Words, &p.State
	all := s.Plan.Count()
	left, right := s.Plan.CountHand(pattern.LeftHand), s.Plan.CountHand(pattern.RightHand)
	boxes := []vecty.MarkupOrChild{markup("choice", nil), elem.Legend(vecty.Text(w.Lines))}
	for _, o := range []struct {
		set         link.Set
		name, label string
	}{
		{link.ShowCentre, "centre", w.ShowCentre}, {link.ShowWorking, "working", w.ShowWorking},
		{link.ShowDiagonals, "diagonals", w.ShowDiagonals}, {link.ShowBorder, "border", w.ShowBorder},
		{link.ShowStart, "start", w.ShowStart},
	} {
		boxes = append(boxes, span("option",
			elem.Input(vecty.Markup(prop.ID("line-"+o.name), prop.Type(prop.TypeCheckbox),
				prop.Checked(s.View.Show.Has(o.set)),
				vecty.Attribute("data-do", "draw"), vecty.Attribute("data-arg", strconv.Itoa(int(o.set))))),
			elem.Label(vecty.Markup(prop.For("line-"+o.name)), span("swatch "+o.name), vecty.Text(o.label))))
	}
	return vecty.List{
		section(w.Blocks,
			div("counts",
				div("", div("readout", vecty.Text(strconv.Itoa(all.Full))), span("", vecty.Text(w.Full))),
				div("", div("readout", vecty.Text(strconv.Itoa(all.Cut))), span("", vecty.Text(w.Cut))),
				div("", div("readout", vecty.Text(strconv.Itoa(all.Pieces))), span("", vecty.Text(w.Pieces)))),
			table([]string{w.Hand, w.Full, w.Cut, w.Pieces}, [][]string{
				{w.LeftHand, strconv.Itoa(left.Full), strconv.Itoa(left.Cut), strconv.Itoa(left.Pieces)},
				{w.RightHand, strconv.Itoa(right.Full), strconv.Itoa(right.Cut), strconv.Itoa(right.Pieces)},
			}),
			elem.DescriptionList(markup("facts", nil), fact(w.FieldArea, vecty.Text(p.area(s.Plan.FieldArea()))))),
		div("", &strandList{Plan: s.Plan, From: s.StrandsFrom, Words: w}),
		section(w.Lines, elem.FieldSet(boxes...)),
		// What the desk fills in comes last, so that it moves nothing.
		p.toSite(w.Site.OneRow),
		p.rows(),
		section(w.Caution, note(paragraph("", w.CautionSaw), paragraph("", w.CautionDust))),
		section(w.Sheets.CutList,
			p.input(input{name: "same", label: w.Marks.Same, empty: p.plain(s.View.Same)}),
			p.box("cuts")),
	}
}

// table is a plain table with a header row.
func table(head []string, rows [][]string) *vecty.HTML {
	cells := func(make func(...vecty.MarkupOrChild) *vecty.HTML, texts []string) *vecty.HTML {
		row := []vecty.MarkupOrChild{}
		for _, t := range texts {
			row = append(row, make(vecty.Text(t)))
		}
		return elem.TableRow(row...)
	}
	body := []vecty.MarkupOrChild{}
	for _, r := range rows {
		body = append(body, cells(elem.TableData, r))
	}
	return elem.Table(elem.TableHead(cells(elem.TableHeader, head)), elem.TableBody(body...))
}
