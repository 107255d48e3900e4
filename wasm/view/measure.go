package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/wasm/state"
	"keelrow/wasm/words"
)

// box is filled by the desk with what it wants.
func (p *Page) box(wants string) *vecty.HTML { return p.boxOf(wants, "") }

// boxOf is filled with a part of a long list.
func (p *Page) boxOf(list, from string) *vecty.HTML {
	wants := list
	if from != "" {
		wants += " " + from
	}
	return elem.Div(vecty.Markup(prop.ID("desk-"+list), vecty.Class("desk"),
		vecty.Attribute("data-wants", wants), vecty.Attribute("data-works", p.Words.DeskWorks)))
}

func (p *Page) measure() vecty.List {
	w, s := p.Words, &p.State
	unit := "mm"
	if s.Unit() == length.Inches {
		unit = "in"
	}
	return vecty.List{
		choice("unit", w.Unit, unit, option{"mm", w.Millimetres}, option{"in", w.Inches}),
		when(unit == "in", choice("fraction", w.Fraction, strconv.Itoa(s.Plan.Job().Fraction),
			option{"16", "1/16 in"}, option{"32", "1/32 in"}, option{"64", "1/64 in"})),
		p.keyProblem("unit"), p.keyProblem("fraction"),
		section(w.Room,
			choice("shape", w.Given, string(s.Way()),
				option{string(state.BySize), w.ByWidth}, option{string(state.ByTape), w.Survey.ByTape},
				option{string(state.ByWalk), w.Survey.ByWalk}, option{string(state.ByCorners), w.ByCorners}),
			p.room(),
			paragraph("hint", w.LengthHelp),
		),
		p.walls(),
		p.doors(),
		p.joined(),
		p.holes(),
		section(w.Gap+", "+w.Border,
			div("fields", p.input(input{name: state.Gap, label: w.Gap}), p.input(input{name: state.Border, label: w.Border})),
			paragraph("hint", w.GapHelp),
			paragraph("hint", w.BorderHelp),
			p.input(input{name: "repeat", label: w.Survey.Repeat, empty: "0"}),
			paragraph("hint", w.Survey.RepeatHelp),
		),
		elem.DescriptionList(markup("facts", nil),
			fact(w.RoomArea, vecty.Text(p.area(ringsArea(s.Plan.Room())))),
			fact(w.FieldArea, vecty.Text(p.area(s.Plan.FieldArea()))),
			fact(w.RoundWalls, reading(s.Plan.Job().Tape(), length.Length(s.Plan.Room()[0].Perimeter()), w)),
		),
		p.box("report"),
	}
}

func ringsArea(rings []plane.Ring) (area float64) {
	for _, ring := range rings {
		area += ring.Area()
	}
	return area
}

// room is the inputs of the outline, in the way in which it is given.
func (p *Page) room() vecty.List {
	w := p.Words
	switch p.State.Way() {
	case state.BySize:
		return vecty.List{div("fields",
			p.input(input{name: state.RoomWidth, label: w.Width}),
			p.input(input{name: state.RoomDepth, label: w.Depth})), p.keyProblem("room")}
	case state.ByTape:
		return p.taped()
	case state.ByWalk:
		return p.walked()
	}
	return vecty.List{p.corners("room"), p.keyProblem("room")}
}

// item is a row of a list of readings, with a button that leaves it out. It
// lights up its line on the plan while it is typed in.
func (p *Page) item(key string, i int, line, remove string, children ...vecty.MarkupOrChild) *vecty.HTML {
	children = append([]vecty.MarkupOrChild{markup("item", attrs{"data-line", line})}, children...)
	return elem.Div(append(children, elem.Button(
		markup("small", attrs{"type", "button", "data-do", "remove-item", "data-arg", key + "." + strconv.Itoa(i),
			"aria-label", remove, "title", remove}), vecty.Text("−")))...)
}

// taped is the readings of walls and diagonals, each with what the whole room
// makes of it.
func (p *Page) taped() vecty.List {
	w, s := p.Words, &p.State
	n := s.Items("tape")
	rows := []vecty.MarkupOrChild{}
	for i := range min(n, mostRows) {
		at, number := "tape."+strconv.Itoa(i), strconv.Itoa(i+1)
		rows = append(rows, p.item("tape", i, s.Typed[at+".pair"], words.Fill(w.Survey.RemoveReading, "n", number),
			p.input(input{name: at + ".pair", label: w.Survey.Line}),
			p.input(input{name: at + ".length", label: w.Survey.Taped}),
			span("check", vecty.Text(p.check(i, n)))))
	}
	return vecty.List{
		paragraph("hint", w.Survey.TapeHelp),
		div("items", rows...),
		p.more(n),
		button("add-item", "tape", "", w.Survey.AddReading),
		p.keyProblem("tape"),
		p.input(input{name: "misfit", label: w.Survey.Misfit, empty: "3 mm"}),
		p.keyProblem("misfit"),
		paragraph("hint", w.Survey.MisfitHelp),
	}
}

// check says how a reading agrees with the others.
func (p *Page) check(i, n int) string {
	w, taped := &p.Words.Survey, p.State.Taped
	if taped == nil || len(taped.Checks) != n {
		return ""
	}
	c := taped.Checks[i]
	switch {
	case c.Redundancy < 1e-6:
		return w.Unchecked
	case max(c.Residual, -c.Residual) < length.Millimetre/2:
		return w.Agrees
	}
	return words.Fill(w.Off, "n", p.plain(c.Adjusted))
}

// walked is the walls in turn.
func (p *Page) walked() vecty.List {
	w, s := p.Words, &p.State
	rows := []vecty.MarkupOrChild{}
	n := s.Items("walk")
	for i := range min(n, mostRows) {
		at, number := "walk."+strconv.Itoa(i), strconv.Itoa(i+1)
		name := floor.WallName(i, n)
		rows = append(rows, p.item("walk", i, name, words.Fill(w.Survey.RemoveWall, "n", number),
			span("name", vecty.Text(name)),
			p.input(input{name: at + ".length", label: words.Fill(w.Survey.Wall, "n", name)}),
			p.input(input{name: at + ".turn", label: w.Survey.Turn})))
	}
	share := "no"
	if text, _ := s.Link.Get("share"); text == "yes" {
		share = "yes"
	}
	closing := ""
	if s.Taped != nil && s.Taped.Closing.Distance > 0 {
		closing = words.Fill(w.Survey.Closing, "n", p.plain(s.Taped.Closing.Distance))
	}
	return vecty.List{
		paragraph("hint", w.Survey.WalkHelp),
		div("items", rows...),
		p.more(n),
		button("add-item", "walk", "", w.Survey.AddWall),
		p.keyProblem("walk"),
		choice("share", w.Survey.Share, share, option{"no", w.Survey.ShareNo}, option{"yes", w.Survey.ShareIt}),
		when(closing != "", note(vecty.Text(closing))),
		p.input(input{name: "misfit", label: w.Survey.Misfit, empty: "3 mm"}),
		p.keyProblem("misfit"),
		paragraph("hint", w.Survey.MisfitHelp),
	}
}

// joined is the further rooms of the floor.
func (p *Page) joined() *vecty.HTML {
	w, s := p.Words, &p.State
	rows := []vecty.MarkupOrChild{}
	for i := range min(s.Items("join"), mostRows) {
		at, number := "join."+strconv.Itoa(i)+".", strconv.Itoa(i+1)
		rows = append(rows, div("hole",
			elem.Heading4(vecty.Text(words.Fill(w.Survey.Join, "n", number))),
			div("fields joint-here",
				p.input(input{name: at + "wall", label: w.Survey.JoinWall}),
				p.input(input{name: at + "at", label: w.Survey.DoorAt}),
				p.input(input{name: at + "width", label: w.Survey.DoorWidth}),
				p.input(input{name: at + "depth", label: w.Survey.JoinDepth})),
			div("fields joint-there",
				p.input(input{name: at + "room", label: w.Survey.JoinRoom, empty: "3000x2500"}),
				p.input(input{name: at + "other", label: w.Survey.JoinOther, empty: "AB"}),
				p.input(input{name: at + "otherat", label: w.Survey.DoorAt})),
			button("remove-item", "join."+strconv.Itoa(i), "quiet", words.Fill(w.Survey.RemoveJoin, "n", number))))
	}
	return elem.Section(elem.Heading3(vecty.Text(w.Survey.Joined)),
		div("holes", rows...),
		p.keyProblem("join"),
		paragraph("hint", w.Survey.JoinedHelp),
		button("add-item", "join", "", w.Survey.AddJoin))
}

// walls is what single walls have of their own.
func (p *Page) walls() *vecty.HTML {
	w, s := p.Words, &p.State
	room := s.Plan.Job().Room
	rows := []vecty.MarkupOrChild{}
	n := len(room)
	for i := range min(n, mostNames) {
		name := floor.WallName(i, n)
		a, b := plane.Ring(room).Edge(i)
		// One is open at a time: inputs of every wall would slow the typing in
		// all others.
		open := p.Wall == name
		rows = append(rows, elem.Div(
			vecty.Markup(vecty.Attribute("data-line", name)),
			elem.Button(markup("wall-button", attrs{"type", "button", "data-do", "open-wall", "data-arg", name, "aria-expanded", strconv.FormatBool(open)}),
				span("name", vecty.Text(name)),
				span("unit", vecty.Text(p.plain(length.Length(b.Sub(a).Length()))+p.ownOf(name)))),
			when(open, div("fields",
				p.input(input{name: "bow." + name, label: w.Survey.Bow, unit: w.Survey.BowHelp}),
				p.input(input{name: "scribe." + name, label: w.Survey.Scribe}),
				p.input(input{name: "gap." + name, label: w.Survey.GapHere}),
				p.input(input{name: "border." + name, label: w.Survey.BorderHere})))))
	}
	return elem.Section(elem.Heading3(vecty.Text(w.Survey.Walls)),
		paragraph("hint", w.Survey.WallsHelp),
		div("walls", rows...),
		p.keyProblem("bow"), p.keyProblem("scribe"), p.keyProblem("gap"), p.keyProblem("border"))
}

// ownOf names what a wall has of its own.
func (p *Page) ownOf(wall string) (list string) {
	w := &p.Words.Survey
	for _, own := range [][2]string{{"bow", w.Bow}, {"scribe", w.Scribe}, {"gap", w.GapHere}, {"border", w.BorderHere}} {
		if text := p.State.Typed[own[0]+"."+wall]; text != "" {
			list += " · " + own[1] + " " + text
		}
	}
	return list
}

// doors is the doorways.
func (p *Page) doors() *vecty.HTML {
	w, s := p.Words, &p.State
	rows := []vecty.MarkupOrChild{}
	for i := range min(s.Items("door"), mostRows) {
		at, number := "door."+strconv.Itoa(i), strconv.Itoa(i+1)
		rows = append(rows, div("hole",
			elem.Heading4(vecty.Text(words.Fill(w.Survey.Door, "n", number))),
			div("fields",
				p.input(input{name: at + ".wall", label: w.Survey.DoorWall}),
				p.input(input{name: at + ".at", label: w.Survey.DoorAt}),
				p.input(input{name: at + ".width", label: w.Survey.DoorWidth}),
				p.input(input{name: at + ".name", label: w.Survey.DoorName})),
			button("remove-item", "door."+strconv.Itoa(i), "quiet", words.Fill(w.Survey.RemoveDoor, "n", number))))
	}
	return elem.Section(elem.Heading3(vecty.Text(w.Survey.Doors)),
		div("holes", rows...),
		p.keyProblem("door"),
		paragraph("hint", w.Survey.DoorHelp),
		button("add-item", "door", "", w.Survey.AddDoor))
}

// holes is the hearths, columns and islands.
func (p *Page) holes() *vecty.HTML {
	w := p.Words
	rows := []vecty.MarkupOrChild{}
	all := p.State.Holes()
	for h := range min(all, mostRows) {
		n := strconv.Itoa(h + 1)
		rows = append(rows, div("hole",
			elem.Heading4(vecty.Text(words.Fill(w.Hole, "n", n))),
			p.corners("hole."+strconv.Itoa(h)),
			button("remove-hole", strconv.Itoa(h), "quiet", words.Fill(w.RemoveHole, "n", n))))
	}
	for i := range min(p.State.Items("column"), mostRows) {
		at, n := "column."+strconv.Itoa(i)+".", strconv.Itoa(i+1)
		rows = append(rows, div("hole",
			elem.Heading4(vecty.Text(words.Fill(w.Survey.Column, "n", n))),
			div("fields",
				p.input(input{name: at + "x", label: w.Survey.ColumnX}),
				p.input(input{name: at + "y", label: w.Survey.ColumnY}),
				p.input(input{name: at + "across", label: w.Survey.ColumnAcross})),
			button("remove-item", "column."+strconv.Itoa(i), "quiet", words.Fill(w.Survey.RemoveColumn, "n", n))))
	}
	return section(w.Holes, div("holes", rows...), p.more(all), p.keyProblem("hole"), p.keyProblem("column"),
		div("buttons", button("add-hole", "", "", w.AddHole), button("add-item", "column", "", w.Survey.AddColumn)))
}

// mostRows is how many corners of an outline, holes or readings have inputs.
// Browsers take seconds for a thousand, and nobody types so many.
const mostRows = 200

// more says how many there are beyond those with inputs.
func (p *Page) more(all int) vecty.ComponentOrHTML {
	return when(all > mostRows, paragraph("hint", words.Fill(p.Words.Survey.More, "n", strconv.Itoa(all-mostRows))))
}

// corners is the inputs of an outline.
func (p *Page) corners(outline string) *vecty.HTML {
	w, s := p.Words, &p.State
	n := s.Corners(outline)
	rows := []vecty.MarkupOrChild{markup("corners", nil),
		div("corner head", span("name"), span("", vecty.Text(w.AlongX)), span("", vecty.Text(w.AlongY)))}
	for i := range min(n, mostRows) {
		name, at := floor.CornerName(i), outline+"."+strconv.Itoa(i)
		label := words.Fill(w.Corner, "name", name)
		rows = append(rows, div("corner",
			span("name", vecty.Text(name)),
			p.input(input{name: at + ".x", label: label + " " + w.AlongX}),
			p.input(input{name: at + ".y", label: label + " " + w.AlongY}),
			elem.Button(markup("small", attrs{"type", "button", "data-do", "add-corner", "data-arg", at,
				"aria-label", words.Fill(w.AddCorner, "name", name), "title", words.Fill(w.AddCorner, "name", name)}), vecty.Text("+")),
			elem.Button(vecty.Markup(vecty.Class("small"), prop.Disabled(n <= 3)), markup("", attrs{"type", "button", "data-do", "remove-corner", "data-arg", at,
				"aria-label", words.Fill(w.RemoveCorner, "name", name), "title", words.Fill(w.RemoveCorner, "name", name)}), vecty.Text("−")),
		))
	}
	return elem.Div(append(rows, p.more(n))...)
}
