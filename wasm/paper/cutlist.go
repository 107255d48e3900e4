package paper

import (
	"math"
	"strconv"

	"keelrow/engine/cuts"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/wasm/reading"
	"keelrow/wasm/words"
)

// cutList is the pieces to saw, and the strips of the border.
func (w *writer) cutList() {
	t := &w.Words.Sheets
	w.turn(t.CutList)
	groups := cuts.List(w.Plan, cuts.Options{Tolerance: w.View.Same})
	total := cuts.Total(groups)
	w.say("", words.Fill(t.CutCount, "pieces", strconv.Itoa(total.Pieces), "blocks", strconv.Itoa(total.Blocks), "kinds", strconv.Itoa(len(groups))))
	w.say("hint", words.Fill(t.CutMeans, "same", w.exact(w.View.Same)))
	w.say("hint", w.Words.CautionSaw+" "+w.Words.CautionDust)
	for _, g := range groups {
		w.group(g)
	}
	w.strips()
}

// Where the parts of a group stand, across the sheet.
const (
	markWide  = 26
	pieceWide = 60
)

// group is pieces that are sawn alike: their mark, the piece in its block, and
// how the saw is set.
func (w *writer) group(g cuts.Group) {
	t := &w.Words.Sheets
	settings, lines := html(""), 0.0
	say := func(s string) {
		settings += el("p", "", text(s))
		lines += w.lines(s, w.width-markWide-pieceWide-4)
	}
	if g.Shape.Notch {
		say(t.Scribe)
	}
	for i, c := range g.Shape.Cuts {
		s := w.setting(c)
		if len(g.Shape.Cuts) > 1 {
			s = strconv.Itoa(i+1) + ". " + s
		}
		say(s)
	}
	say(w.rowsOf(g))
	count := words.Fill(t.Times, "n", strconv.Itoa(g.Count()))
	hand := w.Words.RightHand
	if g.Hand == pattern.LeftHand {
		hand = w.Words.LeftHand
	}
	picture, high := w.piece(g.Shape)
	w.put(max(19, high+5, lines*lineHigh+5), el("div", "group",
		el("div", "", el("h3", "", text(g.Mark))+el("b", "", text(count))+el("span", "", text(hand)))+
			picture+el("div", "", settings)))
}

// setting says how the saw is set for a cut.
func (w *writer) setting(c cuts.Cut) string {
	t := &w.Words.Sheets
	keep := [...]string{cuts.KeepStop: t.KeepStop, cuts.KeepFar: t.KeepFar, cuts.KeepRight: t.KeepRight, cuts.KeepLeft: t.KeepLeft}[c.Keep]
	if c.Kind == cuts.Rip {
		return words.Fill(t.RipCut, "stop", w.plain(c.AtStop), "far", w.plain(c.AtFar), "keep", keep)
	}
	angle := degrees(math.Abs(c.Angle))
	if math.Abs(c.Angle) < 0.05 {
		return words.Fill(t.SquareCut, "length", w.said((c.From+c.To)/2), "keep", keep)
	}
	edge := func(mark plane.Point) string {
		switch {
		case mark.Y <= 1e-6:
			return words.Fill(t.OnRight, "length", w.plain(length.Length(mark.X)))
		case mark.Y >= float64(w.job.Width)-1e-6:
			return words.Fill(t.OnLeft, "length", w.plain(length.Length(mark.X)))
		}
		end := t.OnFarEnd
		if mark.X < float64(w.job.Length)/2 {
			end = t.OnStopEnd
		}
		return words.Fill(end, "length", w.plain(length.Length(mark.Y)))
	}
	return capital(words.Fill(t.AngleCut, "from", edge(c.Marks[0]), "to", edge(c.Marks[1]), "angle", angle, "keep", keep))
}

// rowsOf says which rows the pieces go to.
func (w *writer) rowsOf(g cuts.Group) string {
	return words.Fill(w.Words.Sheets.ForRows, "rows", reading.Rows(g.Places, 12))
}

// piece draws a piece in its whole block, with the stop on the left.
func (w *writer) piece(s cuts.Shape) (picture html, high float64) {
	low, top := plane.Ring(s.Block[:]).Box()
	k := min((pieceWide-8)/(top.X-low.X), 16/(top.Y-low.Y)) // mm of paper for each of the block
	d := drawing{wide: pieceWide, high: (top.Y-low.Y)*k + 4}
	at := func(list []plane.Point) []plane.Point {
		out := make([]plane.Point, len(list))
		for i, q := range list {
			out[i] = plane.Point{X: 3 + (q.X-low.X)*k, Y: 2 + (top.Y-q.Y)*k}
		}
		return out
	}
	d.path("stop", false, []plane.Point{{X: 1.8, Y: 0.5}, {X: 1.8, Y: d.high - 0.5}})
	d.path("rest", true, at(s.Block[:]))
	outlines := [][]plane.Point{at(s.Outline)}
	for _, h := range s.Holes {
		outlines = append(outlines, at(h))
	}
	d.path("piece", true, outlines...)
	if len(s.Cuts) > 1 {
		for i, c := range s.Cuts {
			d.label("seam", at([]plane.Point{c.Marks[0].Add(c.Marks[1]).Times(0.5)})[0], 0, strconv.Itoa(i+1))
		}
	}
	return d.html(), d.high
}

// strips lists the strips of the border.
func (w *writer) strips() {
	t := &w.Words.Sheets
	strips, err := w.Plan.Strips()
	if err != nil || len(strips) == 0 {
		return
	}
	rows := [][]html{}
	for _, s := range strips {
		rows = append(rows, []html{
			text(strconv.Itoa(s.Band + 1)), el("b", "", text(w.wall(s.Hole, s.Wall))), text(w.plain(s.Width)),
			w.reading(s.Outer), text(w.plain(s.Inner)), text(degrees(s.From)), text(degrees(s.To))})
	}
	w.heading(t.Strips, tableHead+3*rowHigh)
	w.say("hint", t.StripsMean)
	w.table(table{"of-strips", []string{t.Band, t.Wall, w.Words.Width, t.OuterEdge, t.InnerEdge, t.MitreFrom, t.MitreTo}, rows})
}
