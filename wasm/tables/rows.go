package tables

import (
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/words"
)

// Rows returns one leaf of the rows in order of laying, each with what to
// measure when it is down, as HTML. After the last row come the border's strips.
func Rows(o Order) string {
	w := newWriter(o)
	last := true
	w.hint(w.m.RowsHelp)
	w.head("rows", w.Words.Row, "", w.Words.Full, w.Words.Cut, w.Words.AllTold, "")
	for c := range strike.RowChecks(o.Plan) {
		if n := c.Row.Number - 1; n < o.From {
			continue
		} else if n >= o.From+o.Leaf {
			last = false
			break
		}
		w.row(c)
	}
	w.put("</table>")
	if last {
		w.strips()
	}
	return w.String()
}

// row writes a row: its counts, and beneath what to measure.
func (w *writer) row(c strike.RowCheck) {
	r := c.Row
	n, name := strconv.Itoa(r.Number), w.rowName(r)
	w.put("<tbody", markup.Attr("id", "row-"+n), `><tr><th scope="row"><button type="button" class="row" data-do="to-row"`, markup.Attr("data-arg", n),
		markup.Attr("aria-label", words.Fill(w.Words.GoToRow, "n", n, "name", name)), ">", n, "</button></th><td>", markup.Escape(name))
	if len(r.Strands) == 1 {
		w.put(" <small>", fill(w.m.OneHand, "hand", markup.Escape(w.hand(r.Strands[0]))), "</small>")
	}
	w.put("</td><td>", strconv.Itoa(r.Full), "</td><td>", strconv.Itoa(r.Cut), `</td><td class="told">`, strconv.Itoa(r.First+r.Blocks()),
		"</td><td>", tick(RowTick(r.Number), w.m.Down, words.Fill(w.m.RowDown, "n", n)), "</td></tr>")
	if len(c.Tips) > 0 {
		w.put(`<tr class="under"><td colspan="6"><dl>`)
		w.checks(c)
		w.put("</dl></td></tr>")
	}
	w.put("</tbody>")
}

// checks writes the row's length, its last tip's distance to the wall ahead and
// its outer seams' distances to the walls beside.
func (w *writer) checks(c strike.RowCheck) {
	say := func(name, value string) { w.put("<div><dt>", name, "</dt><dd>", value, "</dd></div>") }
	first, last := c.Tips[0], c.Tips[len(c.Tips)-1]
	if last.Distance > 0 {
		say(fill(w.m.TipToWall, "wall", markup.Escape(w.wall(last.Mark.Hole, last.Mark.Wall))), w.reading(last.Distance))
	}
	for _, s := range c.Seams {
		var at, walls []string
		for _, to := range s.ToWall[:len(c.Tips)] {
			if !to.OK {
				continue
			}
			at = append(at, w.mark(to.Distance))
			if wall := markup.Escape(w.wall(to.At.Hole, to.At.Wall)); len(walls) == 0 || walls[0] != wall {
				walls = append(walls, wall)
			}
		}
		if len(at) == 0 {
			continue
		}
		value, wall := at[0], walls[0]
		switch {
		case len(at) > 1 && at[0] == at[1]:
			value = fill(w.m.AtBoth, "n", at[0])
		case len(at) > 1:
			value = fill(w.m.ThenAtTip, "first", at[0], "last", at[1])
		}
		if len(walls) > 1 {
			wall += ", " + walls[1]
		}
		say(fill(w.m.SeamToWall, "wall", wall), value)
	}
	if first.Index != last.Index {
		_, along := w.Plan.Axis()
		d := last.Point.Sub(first.Point).Dot(along)
		say(markup.Escape(w.m.RowLong), w.mark(length.Length(d)))
	}
}

// rowName is what a row is called.
func (w *writer) rowName(r floor.Row) string {
	k := ""
	for i, strand := range r.Strands {
		if i > 0 {
			k += " "
		}
		k += strconv.Itoa(strand)
	}
	switch {
	case r.Stage == floor.Spine:
		return w.Words.SpineRow
	case r.Stage == floor.Infill:
		return words.Fill(w.Words.InfillRow, "k", k)
	case r.Strands[0] < 0:
		return words.Fill(w.Words.SideRow, "k", k) + ", " + w.Words.Left
	}
	return words.Fill(w.Words.SideRow, "k", k) + ", " + w.Words.Right
}

// hand names the hand of a strand's blocks.
func (w *writer) hand(strand int) string {
	if w.Plan.Pattern().Columns(strand)[0].Hand == pattern.LeftHand {
		return w.Words.Left
	}
	return w.Words.Right
}

// strips writes the border's strips, which are laid last.
func (w *writer) strips() {
	strips, err := w.Plan.Strips()
	if err != nil || len(strips) == 0 {
		return
	}
	w.title(w.s.Strips)
	w.hint(w.s.StripsMean)
	w.head("of-strips", "", w.s.OuterEdge, w.s.InnerEdge, w.s.MitreFrom+", "+w.s.MitreTo, "")
	w.put("<tbody>")
	for i, s := range strips {
		name := strconv.Itoa(s.Band+1) + " " + w.wall(s.Hole, s.Wall)
		w.put(`<tr><th scope="row">`, markup.Escape(name), "</th><td>", w.whole(s.Outer), "</td><td>", w.whole(s.Inner), "</td><td>", degrees(s.From), ", ", degrees(s.To),
			"</td><td>", tick("strip-"+strconv.Itoa(i+1), w.m.Down, words.Fill(w.m.StripDown, "n", name)), "</td></tr>")
	}
	w.put("</tbody></table>")
}
