package tables

import (
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
)

// Start returns the starting block's size, its halves, its place on its line
// and the dry-lay check, as HTML.
func Start(o Order) string {
	w := newWriter(o)
	s := strike.NewStart(o.Plan)
	chevron := w.job.Pattern == floor.Chevron
	w.title(w.m.StartBlock)
	w.startPicture()
	w.put(`<dl class="facts">`)
	fact := func(name, value string) { w.put("<dt>", markup.Escape(name), "</dt><dd>", value, "</dd>") }
	fact(w.m.StartSide, w.reading(s.Side))
	fact(w.m.StartPoints, w.reading(s.Wide))
	if chevron {
		fact(w.m.StartHigh, w.reading(s.High))
	}
	fact(w.m.StartHalf, w.reading(s.Side)+" × "+w.reading(s.Wide/2))
	if s.OnLine > 0 {
		fact(w.m.StartOnLine, w.reading(s.OnLine)+` <span class="off">`+fill(w.m.StartLine,
			"wall", markup.Escape(w.wall(s.Mark.Hole, s.Mark.Wall)), "length", markup.Escape(w.plain(s.Mark.Distance)), "corner", markup.Escape(w.corner(s.Mark.Hole, s.Mark.Corner)))+"</span>")
	}
	w.put("</dl>")
	if s.Back > 0 {
		text := w.m.StartDry
		if chevron {
			text = w.m.StartDryChevron
		}
		w.put(`<div class="note"><p>`, fill(text, "units", strconv.Itoa(s.Units), "blocks", strconv.Itoa(s.Blocks)), "</p></div>")
	}
	return w.String()
}

// startPicture draws what the first row is set against, and beside it the
// half for a row on the right, to the pattern's own proportions.
func (w *writer) startPicture() {
	blocks := w.Plan.Pattern()
	const wide, high = 300.0, 110.0
	draw := func(rings []plane.Ring, left, room float64) string {
		var all plane.Ring
		for _, r := range rings {
			all = append(all, r...)
		}
		low, top := all.Box()
		k := min(room/(top.X-low.X), high/(top.Y-low.Y))
		d := ""
		for _, r := range rings {
			at := make(plane.Ring, len(r))
			for i, q := range r {
				at[i] = plane.Point{X: left + (q.X-low.X)*k, Y: 4 + (top.Y-q.Y)*k}
			}
			d += markup.Path(at, true)
		}
		return d
	}
	w.put(`<svg class="start-picture" role="img" viewBox="0 0 `, markup.Num(wide), " ", markup.Num(high+8), `"`, markup.Attr("aria-label", w.m.StartPicture), `><path class="piece" d="`,
		draw(blocks.StartingBlock(0), 4, 170), `"/><path class="piece half" d="`, draw([]plane.Ring{blocks.StartingHalf(1, 0)}, 200, 90), `"/></svg>`)
}
