// Package view is the page's components: what is seen of a state. Rendering
// only reads. Elements carry what they do as data attributes, and the page
// listens once for all of them: data-do is an action's name, data-arg what it
// is done to, data-input the input that is typed in.
package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/engine/length"
	"keelrow/wasm/words"
)

// attrs is names and values of attributes in turn.
type attrs []string

// apply makes markup of attributes.
func (a attrs) apply(list []vecty.Applyer) []vecty.Applyer {
	for i := 0; i+1 < len(a); i += 2 {
		list = append(list, vecty.Attribute(a[i], a[i+1]))
	}
	return list
}

// markup turns a class and attributes into markup.
func markup(class string, a attrs) vecty.MarkupList {
	list := []vecty.Applyer{}
	if class != "" {
		list = append(list, vecty.Attribute("class", class))
	}
	return vecty.Markup(a.apply(list)...)
}

// with puts markup before children.
func with(m vecty.MarkupList, children []vecty.MarkupOrChild) []vecty.MarkupOrChild {
	return append([]vecty.MarkupOrChild{m}, children...)
}

func div(class string, children ...vecty.MarkupOrChild) *vecty.HTML {
	return elem.Div(with(markup(class, nil), children)...)
}

func span(class string, children ...vecty.MarkupOrChild) *vecty.HTML {
	return elem.Span(with(markup(class, nil), children)...)
}

// when keeps the place of a child that is not always there.
func when(there bool, child vecty.ComponentOrHTML) vecty.ComponentOrHTML {
	if there {
		return child
	}
	return nil
}

func paragraph(class, text string) *vecty.HTML {
	return elem.Paragraph(markup(class, nil), vecty.Text(text))
}

// note is a crayon note: advice beside the thing it speaks of.
func note(children ...vecty.MarkupOrChild) *vecty.HTML { return div("note", children...) }

// svg makes an element of a drawing.
func svg(tag string, a attrs, children ...vecty.MarkupOrChild) *vecty.HTML {
	list := a.apply([]vecty.Applyer{vecty.Namespace("http://www.w3.org/2000/svg")})
	return vecty.Tag(tag, with(vecty.Markup(list...), children)...)
}

// svgText is a label in a drawing.
func svgText(x, y float64, class, text string) *vecty.HTML {
	return svg("text", attrs{"x", num(x), "y", num(y), "class", class}, vecty.Text(text))
}

// num writes a coordinate of a drawing.
func num(v float64) string {
	if v > -0.005 && v < 0 {
		v = 0 // no -0.00
	}
	return strconv.FormatFloat(v+0, 'f', 2, 64)
}

// button does an action when it is pressed.
func button(do, arg, class, text string, more ...vecty.MarkupOrChild) *vecty.HTML {
	return elem.Button(append([]vecty.MarkupOrChild{
		markup(class, attrs{"type", "button", "data-do", do, "data-arg", arg}),
		vecty.Text(text),
	}, more...)...)
}

// input is one text field for what a tape says, with its problem beneath.
type input struct {
	name, label, unit string
	numeric           bool // degrees rather than a length
	empty             string
}

func (p *Page) input(in input) *vecty.HTML {
	s := &p.State
	problem := s.Problems[in.name]
	described := ""
	if problem != "" {
		described = "problem-" + in.name
	}
	// Letters and fractions are typed, so a phone shows its full keyboard;
	// degrees are plain numbers.
	mode := "text"
	if in.numeric {
		mode = "decimal"
	}
	return div("field",
		elem.Label(
			vecty.Markup(prop.For("in-"+in.name)),
			vecty.Text(in.label),
		),
		elem.Input(
			vecty.Markup(
				prop.ID("in-"+in.name), prop.Type(prop.TypeText), prop.Value(s.Typed[in.name]),
				vecty.Attribute("data-input", in.name), vecty.Attribute("inputmode", mode),
				vecty.Attribute("autocomplete", "off"), vecty.Attribute("autocapitalize", "off"),
				vecty.Attribute("spellcheck", "false"), vecty.Attribute("placeholder", in.empty),
				vecty.Attribute("aria-invalid", strconv.FormatBool(problem != "")),
				vecty.Attribute("aria-describedby", described),
			),
		),
		when(in.unit != "", span("unit", vecty.Text(in.unit))),
		elem.Paragraph(
			vecty.Markup(prop.ID("problem-"+in.name), vecty.Class("problem"),
				vecty.Property("hidden", problem == ""), vecty.Attribute("role", "status")),
			vecty.Text(problem),
		),
	)
}

// keyProblem shows what is wrong with a key as a whole.
func (p *Page) keyProblem(key string) *vecty.HTML {
	problem := p.State.Problems[key]
	return elem.Paragraph(
		vecty.Markup(prop.ID("problem-key-"+key), vecty.Class("problem"),
			vecty.Property("hidden", problem == ""), vecty.Attribute("role", "status")),
		vecty.Text(problem),
	)
}

// option is one of few values to choose from.
type option struct{ value, label string }

// choice is a set of options as a row of radio buttons.
func choice(do, legend, chosen string, options ...option) *vecty.HTML {
	row := []vecty.MarkupOrChild{markup("choice", nil), elem.Legend(vecty.Text(legend))}
	for _, o := range options {
		id := "choice-" + do + "-" + o.value
		row = append(row, span("option",
			elem.Input(vecty.Markup(
				prop.ID(id), prop.Type(prop.TypeRadio), prop.Name("choice-"+do), prop.Value(o.value),
				vecty.Attribute("data-do", do), vecty.Attribute("data-arg", o.value),
				prop.Checked(o.value == chosen),
			)),
			elem.Label(vecty.Markup(prop.For(id)), vecty.Text(o.label)),
		))
	}
	return elem.FieldSet(row...)
}

// reading shows a length as the tape reads it, with a real stacked fraction
// and how far the true length lies off the mark.
func reading(tape length.Tape, l length.Length, w *words.Catalogue) *vecty.HTML {
	r := tape.Read(l)
	return span("reading",
		span("visually-hidden", vecty.Text(r.FeetText()+", "+off(r, w))),
		elem.Span(markup("mark", attrs{"aria-hidden", "true"}), stacked(r, w)),
		elem.Span(markup("off", attrs{"aria-hidden", "true"}), vecty.Text(off(r, w))),
	)
}

// off says whether the true length lies shy of its mark or strong.
func off(r length.Reading, w *words.Catalogue) string {
	amount := r.OffText()
	for i := range amount {
		if '0' <= amount[i] && amount[i] <= '9' {
			amount = amount[i:]
			break
		}
	}
	switch {
	case r.Shy():
		return words.Fill(w.Shy, "n", amount)
	case r.Strong():
		return words.Fill(w.Strong, "n", amount)
	}
	return w.OnMark
}

// stacked sets a reading as a tape shows it.
func stacked(r length.Reading, w *words.Catalogue) vecty.List {
	whole := r.Whole
	var parts vecty.List
	if r.Negative {
		parts = append(parts, vecty.Text("−"))
	}
	if r.Unit == length.Millimetres {
		return append(parts, vecty.Text(strconv.Itoa(whole)), span("unit", vecty.Text(w.Mm)))
	}
	if whole >= 24 { // a tape is read in feet from there
		parts = append(parts, vecty.Text(strconv.Itoa(whole/12)), span("unit", vecty.Text(w.Ft)))
		whole %= 12
	}
	if whole > 0 || r.Num == 0 || r.Whole >= 24 {
		parts = append(parts, vecty.Text(strconv.Itoa(whole)))
	}
	if r.Num > 0 {
		class := "frac"
		if r.Whole == 0 {
			class = "frac only"
		}
		parts = append(parts, span(class,
			span("num", vecty.Text(strconv.Itoa(r.Num))), span("den", vecty.Text(strconv.Itoa(r.Den)))))
	}
	return append(parts, span("unit", vecty.Text(w.In)))
}

// tapeGlyph is a short piece of tape: ticks to the chosen fraction, the
// nearest mark lit, a needle at the true value.
func tapeGlyph(tape length.Tape, l length.Length) *vecty.HTML {
	const wide, high = 220.0, 56.0
	unit, parts := length.Inch, tape.Fraction
	if parts == 0 {
		parts = 16
	}
	if tape.Unit == length.Millimetres {
		unit, parts = length.Centimetre, 10
	}
	small := unit / length.Length(parts) // the smallest mark
	r := tape.Read(l)
	step := 11.0 // of the drawing for each smallest mark
	if parts > 32 {
		step = 7
	}
	mark := int(float64(r.Mark)/float64(small) + 0.5)
	if r.Mark < 0 {
		mark = -int(float64(-r.Mark)/float64(small) + 0.5)
	}
	var ticks, lit string
	var numbers vecty.List
	reach := int(wide/2/step) + 1
	for n := mark - reach; n <= mark+reach; n++ {
		x := wide/2 + float64(n-mark)*step
		tall := 8.0
		for size, t := parts, 26.0; size > 1; size, t = size/2, t-4 {
			if tape.Unit == length.Millimetres {
				if n%10 == 0 {
					tall = 26
				} else if n%5 == 0 {
					tall = 18
				}
				break
			}
			if n%size == 0 {
				tall = max(t, 8)
				break
			}
		}
		d := "M" + num(x) + " 0V" + num(tall)
		if n == mark {
			lit = d
		} else {
			ticks += d
		}
		if n%parts == 0 && x > 10 && x < wide-10 {
			numbers = append(numbers, svgText(x, 40, "tape-number", strconv.Itoa(n/parts)))
		}
	}
	needle := wide/2 + float64(l-r.Mark)/float64(small)*step
	return svg("svg", attrs{"class", "tape", "viewBox", "0 0 " + num(wide) + " " + num(high), "aria-hidden", "true"},
		svg("rect", attrs{"class", "tape-body", "x", "0", "y", "0", "width", num(wide), "height", "44"}),
		svg("path", attrs{"class", "tape-ticks", "d", ticks}),
		svg("path", attrs{"class", "tape-lit", "d", lit}),
		numbers,
		svg("path", attrs{"class", "tape-needle", "d", "M" + num(needle) + " 54l-5 -8h10zM" + num(needle) + " 0V48"}),
	)
}
