package tables

import (
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/words"
)

// Leftovers returns what is left of the pattern at every wall, and on each
// side of the floor in the four balanced placings, as HTML.
func Leftovers(o Order) string {
	w := newWriter(o)
	w.title(w.m.Leftovers)
	w.hint(w.m.LeftoversHelp)
	list := strike.Leftovers(o.Plan, o.View.Sliver)
	const most = 60 // a round wall may have hundreds
	w.head("of-leftovers", w.s.Wall, w.m.Narrowest, w.m.Widest, w.m.Slivers, w.m.Taper)
	w.put("<tbody>")
	for _, l := range list[:min(len(list), most)] {
		name := markup.Escape(w.wall(l.Hole, l.Wall))
		if l.Hole == 0 {
			name = "<b>" + name + "</b> " + markup.Escape(w.m.Faces[l.Facing])
		}
		w.put(`<tr><th scope="row">`, name, "</th>")
		if l.Pieces == 0 {
			w.put(`<td colspan="2">`, markup.Escape(w.m.NoPieces), "</td>")
		} else {
			least, widest := least(l)
			w.put("<td>", w.mark(least), "</td><td>", w.mark(widest), "</td>")
		}
		w.put("<td>", slivers(l.Slivers), "</td><td>", w.taper(l.Taper), "</td></tr>")
	}
	w.put("</tbody></table>")
	w.hint(w.m.TaperHelp)
	w.placings()
	return w.String()
}

// least returns the least and the most that is left of the pieces that come
// again and again along a wall, or of all where every one meets a corner.
func least(l strike.Leftover) (narrowest, widest length.Length) {
	if l.Plain.Pieces > 0 {
		return l.Plain.Narrowest, l.Plain.Widest
	}
	return l.Narrowest, l.Widest
}

// slivers writes a number that stands out when it is not 0.
func slivers(n int) string {
	if n == 0 {
		return "0"
	}
	return `<b class="bad">` + strconv.Itoa(n) + "</b>"
}

// taper writes a difference with its sign.
func (w *writer) taper(l length.Length) string {
	switch {
	case l > 0.05:
		return "+" + markup.Escape(w.fine(l))
	case l < -0.05:
		return "−" + markup.Escape(w.fine(-l))
	}
	return "0"
}

// placings compares the four balanced placings.
func (w *writer) placings() {
	list, err := strike.Placings(w.Plan, w.View.Sliver)
	if err != nil {
		return
	}
	w.title(w.m.Compare)
	w.hint(w.m.CompareHelp)
	now := -1
	for i, p := range list {
		if near(p.Shift.Across, w.job.Across) && near(p.Shift.Along, w.job.Along) {
			now = i
		}
	}
	cell := func(tag string, i int) string {
		if i == now {
			return "<" + tag + ` class="now">`
		}
		return "<" + tag + ">"
	}
	w.put(`<table class="of-placings"><thead><tr><td></td>`)
	for i := range list {
		w.put(cell("th", i), glyph(i), "</th>")
	}
	w.put("</tr></thead><tbody>")
	for f, face := range w.m.Faces {
		w.put(`<tr><th scope="row">`, markup.Escape(face), "</th>")
		for i, p := range list {
			w.put(cell("td", i))
			if e := p.Ends[f]; e.Pieces > 0 {
				narrowest, _ := least(e)
				w.put(w.mark(narrowest))
			} else {
				w.put(markup.Escape(w.m.NoPieces))
			}
			w.put("</td>")
		}
		w.put("</tr>")
	}
	w.put(`<tr><th scope="row">`, markup.Escape(w.m.Slivers), "</th>")
	for i, p := range list {
		n := 0
		for _, e := range p.Ends {
			n += e.Slivers
		}
		w.put(cell("td", i), slivers(n), "</td>")
	}
	w.put(`</tr><tr><th scope="row">`, markup.Escape(w.Words.Cut), "</th>")
	for i, p := range list {
		w.put(cell("td", i), strconv.Itoa(p.Plan.Count().Cut), "</td>")
	}
	w.put("</tr><tr><td></td>")
	for i := range list {
		says := words.Fill(w.m.Take, "placing", w.placing(i))
		w.put(cell("td", i), `<button type="button" data-do="place"`, markup.Attr("data-arg", strconv.Itoa(i)), markup.Attr("id", "take-"+strconv.Itoa(i)),
			markup.Attr("aria-label", says), markup.Attr("aria-pressed", strconv.FormatBool(i == now)), ">", markup.Escape(w.m.Taken), "</button></td>")
	}
	w.put("</tr></tbody></table>")
}

// placing is what a balanced placing is called.
func (w *writer) placing(i int) string {
	where, end := w.Words.OnSeam, w.Words.FirstEnd
	if i >= 2 {
		where = w.Words.MidStrand
	}
	if i%2 == 1 {
		end = w.Words.SecondEnd
	}
	return words.Fill(w.Words.Placing, "where", where, "end", end)
}

// near says whether two lengths are the same on any tape.
func near(a, b length.Length) bool { return max(a-b, b-a) < 0.001 }

// glyph shows where the centre line falls on the pattern, as the buttons of
// the Strike stage do.
func glyph(i int) string {
	blocks := "M0 18l12 12l12 -12M0 6l12 12l12 -12M0 30l12 12l12 -12"
	if i >= 2 {
		blocks = "M-6 24l12 12l12 -12l12 12M-6 12l12 12l12 -12l12 12M-6 0l12 12l12 -12l12 12"
	}
	return `<svg class="placing" viewBox="0 0 24 44" aria-hidden="true"><path class="block-line" d="` + blocks +
		`" transform="translate(0 -` + strconv.Itoa(i%2*6) + `)"/><path class="chalk" d="M12 0V44"/></svg>`
}
