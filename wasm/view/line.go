package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/engine/floor"
	"keelrow/wasm/state"
	"keelrow/wasm/words"
)

// selection is a list to choose a text from, for an input that few texts fit.
func (p *Page) selection(name, label string, options []option) *vecty.HTML {
	now := p.State.Typed[name]
	children := []vecty.MarkupOrChild{vecty.Markup(prop.ID("in-"+name), prop.Value(now), vecty.Attribute("data-input", name))}
	for _, o := range options {
		children = append(children, elem.Option(
			vecty.Markup(prop.Value(o.value), vecty.Property("selected", o.value == now)), vecty.Text(o.label)))
	}
	return div("field", elem.Label(vecty.Markup(prop.For("in-"+name)), vecty.Text(label)), elem.Select(children...))
}

// axisCounts says whether the centre line goes by the turn that is typed.
func axisCounts(s *state.State) bool {
	kind := s.Typed["line.kind"]
	return kind == "axis" || kind == "hole"
}

// line is where the centre line comes from.
func (p *Page) line() *vecty.HTML {
	w, s := &p.Words.Marks, &p.State
	kind := s.Typed["line.kind"]
	fields := []vecty.MarkupOrChild{}
	switch kind {
	case "midway":
		fields = append(fields, p.wallOf("line.a", w.LineOfWall), p.wallOf("line.b", w.LineOtherWall))
	case "square", "wall":
		fields = append(fields, p.wallOf("line.a", w.LineOfWall))
	case "door":
		fields = append(fields, p.selection("line.a", w.LineOfDoor, numbered(len(s.Plan.Job().Doors), p.Words.Survey.Door)))
	case "hole":
		fields = append(fields, p.selection("line.a", w.LineOfHole, numbered(s.Holes(), p.Words.Hole)))
	case "through":
		fields = append(fields,
			p.input(input{name: "line.a", label: w.LineFirst, unit: w.LineXY}),
			p.input(input{name: "line.b", label: w.LineSecond, unit: w.LineXY}))
	}
	return div("line-from",
		p.selection("line.kind", w.LineFrom, []option{
			{"axis", w.LineAxis}, {"midway", w.LineMidway}, {"square", w.LineSquare}, {"wall", w.LineWall},
			{"door", w.LineDoor}, {"hole", w.LineHole}, {"through", w.LineThrough}}),
		elem.Div(append([]vecty.MarkupOrChild{vecty.Markup(vecty.Key(kind), vecty.Class("fields"))}, fields...)...))
}

// wallOf is a wall to choose, or to type where there are many.
func (p *Page) wallOf(name, label string) *vecty.HTML {
	n := len(p.State.Plan.Job().Room)
	if n > mostNames {
		return p.input(input{name: name, label: label})
	}
	options := make([]option, n)
	for i := range options {
		wall := floor.WallName(i, n)
		options[i] = option{wall, wall}
	}
	return p.selection(name, label, options)
}

// numbered is options from 1 to n.
func numbered(n int, text string) (options []option) {
	for i := range n {
		k := strconv.Itoa(i + 1)
		options = append(options, option{k, words.Fill(text, "n", k)})
	}
	return options
}
