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

// RowName is what a row is called.
func RowName(r floor.Row, w *words.Catalogue) string {
	switch r.Stage {
	case floor.Spine:
		return w.SpineRow
	case floor.Side:
		return words.Fill(w.SideRow, "k", strconv.Itoa(r.Strands[0])) + ", " + sideName(r, w)
	}
	k := strconv.Itoa(r.Strands[0])
	for _, more := range r.Strands[1:] {
		k += " " + strconv.Itoa(more)
	}
	return words.Fill(w.InfillRow, "k", k)
}

func sideName(r floor.Row, w *words.Catalogue) string {
	if r.Strands[0] < 0 {
		return w.Left
	}
	return w.Right
}

// rows is the rows in order of laying, as many as fit a leaf, filled in by
// the desk. The row the laying has come to is marked by the page.
func (p *Page) rows() *vecty.HTML {
	w, from := p.Words, p.State.RowsFrom()
	return section(w.Rows, p.boxOf("rows", strconv.Itoa(from)), leaves("rows", from, len(p.State.Rows), w))
}

// leaves is the buttons that turn the leaves of a long list.
func leaves(list string, from, all int, w *words.Catalogue) vecty.MarkupOrChild {
	if all <= state.Leaf {
		return nil
	}
	to := min(all, from+state.Leaf)
	return div("leaves",
		elem.Button(vecty.Markup(prop.Disabled(from == 0)), markup("", attrs{"type", "button", "data-do", "leaf-" + list, "data-arg", "-1"}), vecty.Text(w.LeafBack)),
		span("", vecty.Text(words.Fill(w.LeafOf, "from", strconv.Itoa(from+1), "to", strconv.Itoa(to), "all", strconv.Itoa(all)))),
		elem.Button(vecty.Markup(prop.Disabled(to == all)), markup("", attrs{"type", "button", "data-do", "leaf-" + list, "data-arg", "1"}), vecty.Text(w.LeafOn)))
}

// strandList is the blocks by strand, from left to right.
type strandList struct {
	vecty.Core
	Plan  *floor.Plan      `vecty:"prop"`
	From  int              `vecty:"prop"`
	Words *words.Catalogue `vecty:"prop"`
}

// SkipRender skips while the plan and the leaf are the same.
func (l *strandList) SkipRender(prev vecty.Component) bool {
	before := prev.(*strandList)
	return before.Plan == l.Plan && before.From == l.From && before.Words == l.Words
}

func (l *strandList) Render() vecty.ComponentOrHTML {
	w := l.Words
	var rows [][]string
	all := 0
	for k, s := range l.Plan.Strands() {
		if all++; all > l.From && all <= l.From+state.Leaf {
			c := s.Count
			rows = append(rows, []string{strconv.Itoa(k), strconv.Itoa(c.Full), strconv.Itoa(c.Cut), strconv.Itoa(c.Pieces)})
		}
	}
	return elem.Details(
		elem.Summary(vecty.Text(w.ByStrand)),
		table([]string{w.Strand, w.Full, w.Cut, w.Pieces}, rows),
		leaves("strands", l.From, all, w))
}
