// Package onsite writes one mark or one row at a time, large, for the layer on
// his knees, with the sentence that says it aloud. The desk uses it. Lengths
// are millimetres, read on the job's tape. Nothing here knows about a browser.
package onsite

import (
	"strconv"
	"strings"

	"keelrow/engine/cuts"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// card is what stands on the screen for one mark or row.
type card struct {
	tables.Order
	t     *Texts
	tape  length.Tape
	html  strings.Builder
	say   []string // sentences
	names []string // of the ticks of the whole list, in order
	draw  string   // what is shown on the plan, as an SVG path with y downward
}

func newCard(o tables.Order) *card {
	return &card{Order: o, t: In(o.Words.Lang), tape: o.Plan.Job().Tape()}
}

// Mark returns the mark with a number from 0 as HTML. Below 0 it has the list
// of ticks only; past the last it says that there are no more, and all tells
// whether every one is done.
func Mark(o tables.Order, at int, all bool) string {
	c := newCard(o)
	ends := tables.LineEnds(o)
	for _, e := range ends {
		c.names = append(c.names, e.Tick)
	}
	switch {
	case at >= len(ends):
		c.end(all, c.t.MarksDone, c.t.LastMark)
	case at >= 0:
		c.mark(ends[at], at+1, len(ends))
	}
	return c.String()
}

// Row returns the row with a number from 0 as HTML, likewise.
func Row(o tables.Order, at int, all bool) string {
	c := newCard(o)
	for r := range o.Plan.Rows() {
		c.names = append(c.names, tables.RowTick(r.Number))
	}
	if at >= len(c.names) {
		c.end(all, c.t.RowsDone, c.t.LastRow)
	}
	if at >= 0 && at < len(c.names) {
		for check := range strike.RowChecks(o.Plan) {
			if check.Row.Number == at+1 {
				c.row(check)
				break
			}
		}
	}
	return c.String()
}

// String wraps the card up with what the page needs beside it.
func (c *card) String() string {
	return `<div class="site-card"` + markup.Attr("data-names", strings.Join(c.names, " ")) + markup.Attr("data-say", strings.Join(c.say, " ")) +
		markup.Attr("data-draw", c.draw) + ">" + c.html.String() + "</div>"
}

// put writes an element with marked-up text.
func (c *card) put(tag, class, html string) {
	c.html.WriteString("<" + tag + markup.Attr("class", class) + ">" + html + "</" + tag + ">")
}

// strong fills marked-up, bold names into a text.
func strong(text string, pairs ...string) string {
	for i := 1; i < len(pairs); i += 2 {
		pairs[i] = "<b>" + markup.Escape(pairs[i]) + "</b>"
	}
	return words.Fill(markup.Escape(text), pairs...)
}

// sentence adds a sentence to what is said.
func (c *card) sentence(text string, pairs ...string) {
	s := strings.ReplaceAll(words.Fill(text, pairs...), "−", c.t.Minus+" ")
	c.say = append(c.say, strings.ToUpper(s[:1])+s[1:]+".")
}

// end says that the list has come to its end.
func (c *card) end(all bool, done, last string) {
	if !all {
		done = last
	}
	c.put("p", "site-end", markup.Escape(done))
	c.say = append(c.say, done)
}

func (c *card) mark(e tables.LineEnd, n, all int) {
	t := c.t
	wall, corner := tables.WallName(c.Order, e.Hole, e.Wall), tables.CornerName(c.Order, e.Hole, e.Corner)
	c.put("p", "site-count", markup.Escape(words.Fill(t.MarkOf, "n", strconv.Itoa(n), "all", strconv.Itoa(all))))
	c.put("p", "site-where", "<span>"+strong(t.OnWall, "wall", wall)+"</span> <span>"+strong(t.HookAt, "corner", corner)+"</span>")
	c.put("p", "site-reading", tables.Reading(c.Order, e.Distance))
	c.html.WriteString(tape(c.tape, e.Distance))
	c.sentence(t.OnWall, "wall", spelt(wall))
	c.sentence(t.HookAt, "corner", spelt(corner))
	c.sentence(t.Spoken(c.tape.Read(e.Distance)))
	if r := c.tape.Read(e.Offset); r.Mark != 0 {
		c.put("p", "site-then", markup.Escape(t.ThenOff))
		c.put("p", "site-reading second", tables.Reading(c.Order, e.Offset))
		c.sentence(t.ThenOff + ": " + t.Spoken(r))
	}
	if e.Bowed {
		c.put("p", "site-note", markup.Escape(t.Bowed))
		c.sentence(strings.TrimSuffix(t.Bowed, "."))
	}
	c.put("p", "site-for", strong(t.For, "line", e.Line))
	c.sentence(words.Fill(t.For, "line", e.Line))

	// The line, and a ring where it is marked.
	const r = 90 // mm
	xy := func(p plane.Point) string { return markup.Num(p.X) + " " + markup.Num(-p.Y) }
	half := func(way string) string {
		return "a" + markup.Num(r) + " " + markup.Num(r) + " 0 1 0 " + way + markup.Num(2*r) + " 0"
	}
	c.draw = "M" + xy(e.Part[0]) + "L" + xy(e.Part[1]) + "M" + xy(e.Point.Add(plane.Point{X: -r})) + half("") + half("-")
}

func (c *card) row(check strike.RowCheck) {
	t, r := c.t, check.Row
	n, all, name := strconv.Itoa(r.Number), strconv.Itoa(len(c.names)), tables.RowName(c.Order, r)
	c.put("p", "site-count", strong(t.RowOf, "n", n, "all", all))
	c.put("p", "site-row", markup.Escape(name))
	c.sentence(t.RowOf, "n", t.Number(r.Number), "all", t.Number(len(c.names)))
	c.sentence(name)
	blocks := words.Fill(t.Blocks, "full", strconv.Itoa(r.Full), "cut", strconv.Itoa(r.Cut))
	c.put("p", "site-blocks", markup.Escape(blocks))
	c.sentence(t.Blocks, "full", t.Number(r.Full), "cut", t.Number(r.Cut))
	if r.Cut > 0 {
		c.pieces(r)
	}
	c.checks(check)
	c.put("p", "site-note", markup.Escape(t.Watch))
}

// checks writes what to measure when the row is down.
func (c *card) checks(check strike.RowCheck) {
	t := c.t
	if len(check.Tips) == 0 {
		return
	}
	c.html.WriteString(`<dl class="site-checks">`)
	say := func(what, hole string, l length.Length) {
		c.html.WriteString("<div><dt>" + strong(what, "wall", hole) + "</dt><dd>" + tables.Reading(c.Order, l) + "</dd></div>")
		c.sentence(words.Fill(what, "wall", spelt(hole)) + ": " + t.Spoken(c.tape.Read(l)))
	}
	if last := check.Tips[len(check.Tips)-1]; last.Distance > 0 {
		say(t.TipTo, tables.WallName(c.Order, last.Mark.Hole, last.Mark.Wall), last.Distance)
	}
	for _, s := range check.Seams {
		first, last := s.ToWall[0], s.ToWall[1]
		wall := func(to strike.ToWall) string { return tables.WallName(c.Order, to.At.Hole, to.At.Wall) }
		one := len(check.Tips) == 1
		if first.OK && (last.OK || one) && wall(first) == wall(last) && c.tape.Read(first.Distance) == c.tape.Read(last.Distance) {
			say(t.SeamBoth, wall(first), first.Distance)
			continue
		}
		if first.OK {
			say(t.SeamFirst, wall(first), first.Distance)
		}
		if last.OK && !one {
			say(t.SeamLast, wall(last), last.Distance)
		}
	}
	c.html.WriteString("</dl>")
}

// pieces names the cut pieces of a row by their marks on the cut list.
func (c *card) pieces(r floor.Row) {
	var marks []string
	counts := map[string]int{}
	for _, g := range cuts.List(c.Plan, cuts.Options{Tolerance: c.View.Same}) {
		for _, p := range g.Places {
			if p.Row != r.Number {
				continue
			}
			if counts[g.Mark] == 0 {
				marks = append(marks, g.Mark)
			}
			counts[g.Mark]++
		}
	}
	var list []string
	for _, m := range marks {
		if counts[m] > 1 {
			m = strconv.Itoa(counts[m]) + "\u00a0×\u00a0" + m
		}
		list = append(list, m)
	}
	c.put("p", "site-pieces", strong(c.t.Pieces, "list", strings.Join(list, ", ")))
}
