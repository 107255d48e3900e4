package view

import (
	"math"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/wasm/words"
)

// figure is one computed length with its worked right-angled triangle.
type figure struct {
	name, means string
	value       length.Length
	sum         string        // the working in numbers
	base, rise  length.Length // legs of the triangle
	labels      [3]string     // of the base, the rise and the slope
	result      int           // which of the three is the value
}

// figures is spacing, interval and step, each as a reading and as a working.
func (p *Page) figures(job floor.Job, blocks pattern.Pattern) *vecty.HTML {
	var list []figure
	if job.Pattern == floor.Chevron {
		list = p.chevronFigures(job, blocks)
	} else {
		list = p.herringboneFigures(job)
	}
	children := []vecty.MarkupOrChild{}
	if blocks.Spacing() == 0 {
		children = append(children, note(vecty.Text(p.Words.StraightSpacing)))
	}
	for _, f := range list {
		children = append(children, p.figure(job.Tape(), f))
	}
	return div("figures", children...)
}

func (p *Page) herringboneFigures(job floor.Job) []figure {
	w := p.Words
	h := pattern.Herringbone{Width: job.Width, Length: job.Length, Strands: job.Strands}
	unit := h.Unit()
	return []figure{
		{name: w.Spacing, means: w.SpacingMeans, value: h.Spacing(),
			sum:  "√(" + p.bare(unit) + "² + " + p.bare(unit) + "²) ÷ 4 = " + p.plain(h.Spacing()),
			base: h.Spacing(), rise: h.Spacing(),
			labels: [3]string{p.plain(h.Spacing()), p.plain(h.Spacing()), p.plain(unit / 2)}, result: 0},
		{name: w.Interval, means: w.IntervalMeans, value: h.Interval(),
			sum:  p.bare(h.Length) + " ÷ √2 = " + p.plain(h.Interval()),
			base: h.Interval(), rise: h.Interval(),
			labels: [3]string{p.plain(h.Interval()), p.plain(h.Interval()), p.plain(h.Length)}, result: 0},
		{name: w.Step, means: w.StepMeans, value: h.Step(),
			sum:  "√(" + p.bare(unit) + "² + " + p.bare(unit) + "²) = " + p.plain(h.Step()),
			base: unit, rise: unit,
			labels: [3]string{p.plain(unit), p.plain(unit), p.plain(h.Step())}, result: 2},
	}
}

func (p *Page) chevronFigures(job floor.Job, blocks pattern.Pattern) []figure {
	w := p.Words
	c := pattern.Chevron{Width: job.Width, Length: job.Length, Mitre: job.Mitre}
	angle, _ := p.State.Link.Get("mitre")
	if angle == "" {
		angle = "45"
	}
	_, cos := math.Sincos(job.Mitre * math.Pi / 180)
	return []figure{
		{name: w.Interval, means: w.IntervalMeans, value: blocks.Interval(),
			sum:  p.bare(c.Length) + " × sin " + angle + "° = " + p.plain(c.Interval()),
			base: c.Interval(), rise: c.Rise(),
			labels: [3]string{p.plain(c.Interval()), p.plain(c.Rise()), p.plain(c.Length)}, result: 0},
		{name: w.Step, means: w.StepMeans, value: blocks.Step(),
			sum:  p.bare(c.Width) + " ÷ sin " + angle + "° = " + p.plain(c.Step()),
			base: c.Width, rise: c.Step() * length.Length(cos),
			labels: [3]string{p.plain(c.Width), p.plain(c.Step() * length.Length(cos)), p.plain(c.Step())}, result: 2},
	}
}

// figure draws one of them.
func (p *Page) figure(tape length.Tape, f figure) *vecty.HTML {
	return elem.Section(
		vecty.Markup(vecty.Class("figure")),
		elem.Heading3(vecty.Text(f.name)),
		div("readout", reading(tape, f.value, p.Words)),
		paragraph("exact", words.Fill(p.Words.Exactly, "length", p.plain(f.value))),
		tapeGlyph(tape, f.value),
		elem.Details(
			elem.Summary(vecty.Text(p.Words.Working)),
			triangle(f),
			paragraph("sum", f.sum),
			paragraph("hint", f.means),
		),
	)
}

// triangle draws the right-angled triangle of a figure to its own
// proportions, the side that is looked for in chalk blue.
func triangle(f figure) *vecty.HTML {
	const wide, high, left, top = 150.0, 110.0, 70.0, 14.0
	k := min(wide/float64(f.base), high/float64(f.rise))
	b, r := float64(f.base)*k, float64(f.rise)*k
	x0, y0 := left, top+r // the right angle
	corner := "M" + num(x0) + " " + num(y0-10) + "h10v10"
	sides := [3]string{
		"M" + num(x0) + " " + num(y0) + "h" + num(b),
		"M" + num(x0) + " " + num(y0) + "v" + num(-r),
		"M" + num(x0) + " " + num(y0-r) + "L" + num(x0+b) + " " + num(y0),
	}
	children := []vecty.MarkupOrChild{svg("path", attrs{"class", "right-angle", "d", corner})}
	for i, d := range sides {
		class := "side"
		if i == f.result {
			class = "side result"
		}
		children = append(children, svg("path", attrs{"class", class, "d", d}))
	}
	label := func(i int, x, y float64, anchor string) {
		class := "side-label"
		if i == f.result {
			class = "side-label result"
		}
		children = append(children, svg("text",
			attrs{"x", num(x), "y", num(y), "class", class, "text-anchor", anchor}, vecty.Text(f.labels[i])))
	}
	label(0, x0+b/2, y0+18, "middle")
	label(1, x0-6, y0-r/2+4, "end")
	label(2, x0+b/2+8, y0-r/2-4, "start")
	return svg("svg", attrs{"class", "working", "viewBox", "0 0 300 " + num(y0+26), "role", "img", "aria-label", f.name + ": " + f.sum}, children...)
}
