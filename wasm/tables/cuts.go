package tables

import (
	"math"
	"strconv"

	"keelrow/engine/cuts"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
	"keelrow/wasm/words"
)

// Cuts returns one leaf of the cut list: every kind of piece with its count,
// its hand, a drawing, how the saw is set and where it goes, as HTML.
func Cuts(o Order) string {
	w := newWriter(o)
	groups := cuts.List(o.Plan, cuts.Options{Tolerance: o.View.Same})
	total := cuts.Total(groups)
	w.put("<p>", fill(w.s.CutCount, "pieces", strconv.Itoa(total.Pieces), "blocks", strconv.Itoa(total.Blocks), "kinds", strconv.Itoa(len(groups))), "</p>")
	if len(groups) == 0 {
		return w.String()
	}
	w.hint(words.Fill(w.s.CutMeans, "same", w.exact(o.View.Same)))
	last := (len(groups) - 1) / o.Leaf
	leaf := min(max(0, o.From/o.Leaf), last)
	from, to := leaf*o.Leaf, min(len(groups), (leaf+1)*o.Leaf)
	w.put(`<ul class="cuts">`)
	for _, g := range groups[from:to] {
		w.group(g)
	}
	w.put("</ul>")
	w.leaves("cuts", leaf, last, from+1, to, len(groups))
	return w.String()
}

// group writes a kind of piece.
func (w *writer) group(g cuts.Group) {
	hand := w.Words.RightHand
	if g.Hand == pattern.LeftHand {
		hand = w.Words.LeftHand
	}
	w.put("<li><div><h4>", markup.Escape(g.Mark), "</h4><b>", fill(w.s.Times, "n", strconv.Itoa(g.Count())), "</b> <small>", markup.Escape(hand), "</small></div>",
		w.piece(g), "<div>")
	if g.Shape.Notch {
		w.put("<p>", markup.Escape(w.s.Scribe), "</p>")
	}
	for i, c := range g.Shape.Cuts {
		w.put("<p>")
		if len(g.Shape.Cuts) > 1 {
			w.put(strconv.Itoa(i+1), ". ")
		}
		w.put(w.setting(c), "</p>")
	}
	w.put("<small>", markup.Escape(w.rowsOf(g)), "</small></div></li>")
}

// squareCut is the angle in degrees under which a cut is set as square: far
// less than a saw's scale shows.
const squareCut = 0.05

// setting says how the saw is set for a cut.
func (w *writer) setting(c cuts.Cut) string {
	keep := markup.Escape([...]string{cuts.KeepStop: w.s.KeepStop, cuts.KeepFar: w.s.KeepFar, cuts.KeepRight: w.s.KeepRight, cuts.KeepLeft: w.s.KeepLeft}[c.Keep])
	if c.Kind == cuts.Rip {
		return fill(w.s.RipCut, "stop", w.reading(c.AtStop), "far", w.reading(c.AtFar), "keep", keep)
	}
	if math.Abs(c.Angle) < squareCut {
		return fill(w.s.SquareCut, "length", w.reading((c.From+c.To)/2), "keep", keep)
	}
	edge := func(mark plane.Point) string {
		switch {
		case mark.Y <= 1e-6:
			return fill(w.s.OnRight, "length", w.reading(length.Length(mark.X)))
		case mark.Y >= float64(w.job.Width)-1e-6:
			return fill(w.s.OnLeft, "length", w.reading(length.Length(mark.X)))
		}
		end := w.s.OnFarEnd
		if mark.X < float64(w.job.Length)/2 {
			end = w.s.OnStopEnd
		}
		return fill(end, "length", w.reading(length.Length(mark.Y)))
	}
	return `<span class="setting">` + fill(w.s.AngleCut, "from", edge(c.Marks[0]), "to", edge(c.Marks[1]),
		"angle", degrees(math.Abs(c.Angle)), "keep", keep) + "</span>"
}

// rowsOf says which rows the pieces go to.
func (w *writer) rowsOf(g cuts.Group) string {
	return words.Fill(w.s.ForRows, "rows", reading.Rows(g.Places, 24))
}

// piece draws a piece in its block, with the stop on the left.
func (w *writer) piece(g cuts.Group) string {
	s := g.Shape
	low, top := plane.Ring(s.Block[:]).Box()
	const wide, most = 200.0, 72.0
	k := min((wide-14)/(top.X-low.X), most/(top.Y-low.Y))
	high := (top.Y-low.Y)*k + 8
	at := func(list []plane.Point) []plane.Point {
		out := make([]plane.Point, len(list))
		for i, q := range list {
			out[i] = plane.Point{X: 8 + (q.X-low.X)*k, Y: 4 + (top.Y-q.Y)*k}
		}
		return out
	}
	d := markup.Path(at(s.Outline), true)
	for _, h := range s.Holes {
		d += markup.Path(at(h), true)
	}
	svg := `<svg class="cut" role="img" viewBox="0 0 ` + markup.Num(wide) + " " + markup.Num(high) + `"` + markup.Attr("aria-label", words.Fill(w.m.CutPicture, "mark", g.Mark)) +
		`><path class="rest" d="` + markup.Path(at(s.Block[:]), true) + `"/><path class="piece" fill-rule="evenodd" d="` + d +
		`"/><path class="stop" d="M4 0V` + markup.Num(high) + `"/>`
	if len(s.Cuts) > 1 {
		for i, c := range s.Cuts {
			m := at([]plane.Point{c.Marks[0].Add(c.Marks[1]).Times(0.5)})[0]
			svg += `<text x="` + markup.Num(m.X) + `" y="` + markup.Num(m.Y+4) + `">` + strconv.Itoa(i+1) + "</text>"
		}
	}
	return svg + "</svg>"
}
