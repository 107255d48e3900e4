package tables

import (
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/words"
)

// lines is marks that belong together.
type lines struct {
	title string
	marks []strike.Mark
}

// Marks returns every line to strike with both its ends as tape readings, as
// HTML. Each line has a button that shows it on the plan.
func Marks(o Order) string {
	w := newWriter(o)
	groups := w.grouped(strike.Marks(o.Plan))
	leaves, bowed := w.paged(groups), false
	for _, g := range groups {
		for _, m := range g.marks {
			for _, part := range m.Parts {
				bowed = bowed || part.Ends[0].Bowed || part.Ends[1].Bowed
			}
		}
	}
	leaf := min(max(0, o.From/o.Leaf), len(leaves)-1)
	first, all := 1, 0
	for i, l := range leaves {
		for _, g := range l {
			all += len(g.marks)
			if i < leaf {
				first += len(g.marks)
			}
		}
	}
	w.title(w.m.Title)
	w.hint(w.m.Means)
	if bowed {
		w.hint(w.m.BowedMeans)
	}
	w.head("of-marks", w.s.LineName, w.m.FirstEnd, w.m.SecondEnd)
	to := first - 1
	for _, g := range leaves[leaf] {
		w.put(`<tbody><tr class="set"><th colspan="3" scope="rowgroup">`, markup.Escape(g.title), "</th></tr>")
		for _, m := range g.marks {
			w.line(m)
		}
		w.put("</tbody>")
		to += len(g.marks)
	}
	w.put("</table>")
	w.leaves("marks", leaf, len(leaves)-1, first, to, all)
	return w.String()
}

// grouped puts lines that belong together under one title.
func (w *writer) grouped(marks []strike.Mark) (groups []lines) {
	for _, m := range marks {
		title := w.groupOf(m)
		if n := len(groups); n == 0 || groups[n-1].title != title {
			groups = append(groups, lines{title: title})
		}
		g := &groups[len(groups)-1]
		g.marks = append(g.marks, m)
	}
	return groups
}

// paged shares groups out among leaves, none of which parts a group that
// would fit one.
func (w *writer) paged(groups []lines) (leaves [][]lines) {
	left := 0
	for _, g := range groups {
		for len(g.marks) > 0 {
			n := len(g.marks)
			if n > left && (left < w.Leaf || n > w.Leaf) {
				leaves, left = append(leaves, nil), w.Leaf
			}
			n = min(n, left)
			last := &leaves[len(leaves)-1]
			*last = append(*last, lines{g.title, g.marks[:n]})
			g.marks, left = g.marks[n:], left-n
		}
	}
	return leaves
}

// groupOf is what a line's group is called.
func (w *writer) groupOf(m strike.Mark) string {
	switch m.Kind {
	case strike.Working, strike.Seam:
		seam := words.Fill(w.s.LineSeam, "n", signed(m.Seam))
		if m.Seam == 0 {
			seam = words.Fill(w.m.TheSpine, "seam", seam)
		}
		return seam
	case strike.Diagonal:
		return w.m.Diagonals
	case strike.Border:
		return w.s.LineField
	}
	return w.m.CentreCross
}

// lineName is what a line is called within its group.
func (w *writer) lineName(m strike.Mark) string {
	switch m.Kind {
	case strike.Centre:
		return w.s.LineCentre
	case strike.Cross:
		return w.s.LineCross
	case strike.Spine:
		return w.s.LineSpine
	case strike.Origin:
		return w.s.LineOrigin
	case strike.Seam:
		return w.groupOf(m)
	case strike.Border:
		return w.wall(m.Hole, m.Wall)
	case strike.Diagonal:
		if m.Side < 0 {
			return w.m.ClimbsLeft
		}
		return w.m.ClimbsRight
	}
	if m.Side < 0 {
		return w.m.LeftLine
	}
	return w.m.RightLine
}

// named is what a part of a line is called within its group, and on its own.
func (w *writer) named(m strike.Mark, part int) (name, says string) {
	name, group := w.lineName(m), w.groupOf(m)
	if len(m.Parts) > 1 {
		name = words.Fill(w.m.Part, "line", name, "n", strconv.Itoa(part+1))
	}
	if group == name || m.Kind == strike.Centre || m.Kind == strike.Cross {
		return name, name
	}
	return name, group + ", " + name
}

// line writes a line: a row for each of its parts.
func (w *writer) line(m strike.Mark) {
	for i, part := range m.Parts {
		name, says := w.named(m, i)
		a, b := part.Ends[0].Point, part.Ends[1].Point
		d := markup.Path([]plane.Point{{X: a.X, Y: -a.Y}, {X: b.X, Y: -b.Y}}, false) // the plan is drawn with y downward
		w.put(`<tr><th scope="row"><button type="button" class="line" data-do="show-mark" aria-pressed="false"`,
			markup.Attr("data-path", d), markup.Attr("aria-label", words.Fill(w.m.Show, "line", says)), ">", markup.Escape(name), "</button></th>",
			"<td>", w.end(says, markTick(m, part.Ends[0]), part.Ends[0]), "</td><td>", w.end(says, markTick(m, part.Ends[1]), part.Ends[1]), "</td></tr>")
	}
}

// end is where a line ends, as the tape finds it, and a tick for the mark.
func (w *writer) end(line, name string, e strike.End) string {
	wall, corner := w.wall(e.Hole, e.Wall), w.corner(e.Hole, e.Corner)
	hook := fill(w.m.Hook, "wall", "<b>"+markup.Escape(wall)+"</b>", "corner", markup.Escape(corner))
	if e.Bowed {
		hook += " " + markup.Escape(w.s.Bowed)
	}
	s := `<span class="hook">` + hook + "</span> " + w.whole(e.Distance)
	if e.Offset > seen || e.Offset < -seen {
		s += ` <span class="hook">` + markup.Escape(w.m.OffTheWall) + "</span> " + w.whole(e.Offset)
	}
	return s + tick(name, "", line+": "+words.Fill(w.m.Hook, "wall", wall, "corner", corner))
}

// seen is a distance that no tape shows.
const seen length.Length = 0.005
