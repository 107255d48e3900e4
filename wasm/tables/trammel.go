package tables

import (
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/words"
)

// Trammel returns what the trammel is set to and what stepping it costs, and
// how far the room's base lines can be trusted, as HTML.
func Trammel(o Order) string {
	w := newWriter(o)
	w.trammels()
	w.bases()
	return w.String()
}

func (w *writer) trammels() {
	interval, step := strike.Trammels(w.Plan, w.tape)
	w.title(w.m.Trammel)
	w.head("of-trammels", "", w.m.SetTo, w.m.Times, w.m.MissesBy)
	w.put("<tbody>")
	for _, t := range []struct {
		name string
		strike.Trammel
	}{{w.Words.Interval, interval}, {w.Words.Step, step}} {
		w.put(`<tr><th scope="row">`, markup.Escape(t.name), "</th><td>", w.whole(t.Setting), "</td><td>", strconv.Itoa(t.Steps),
			"</td><td>", markup.Escape(w.fine(length.Length(math.Abs(float64(t.Cost))))), "</td></tr>")
	}
	w.put("</tbody></table>")
	w.hint(w.m.TrammelHelp)
}

func (w *writer) bases() {
	type base struct {
		name            string
		long, far, runs length.Length
		seen            string
	}
	var list []base
	miss := w.View.Marking
	if b, ok := strike.LongestBase(w.Plan); ok {
		name := w.m.BaseOn
		switch {
		case b.Across > seen:
			name = words.Fill(w.m.BaseRight, "n", w.plain(b.Across))
		case b.Across < -seen:
			name = words.Fill(w.m.BaseLeft, "n", w.plain(-b.Across))
		}
		far := w.abreast(b)
		list = append(list, base{name: name, long: b.Long, far: far, runs: strike.RunOut(b.Long, miss, far)})
	}
	for _, d := range strike.Doorways(w.Plan) {
		name := w.job.Doors[d.Door].Name
		if name == "" {
			name = words.Fill(w.s.Doorway, "n", strconv.Itoa(d.Door+1))
		}
		off := w.m.OffMiddle
		switch {
		case d.Off > seen:
			off = words.Fill(w.m.OffRight, "n", w.plain(d.Off))
		case d.Off < -seen:
			off = words.Fill(w.m.OffLeft, "n", w.plain(-d.Off))
		}
		view := w.m.SeenAcross
		if d.Along {
			view = w.m.SeenAlong
		}
		list = append(list, base{name, d.Base, d.Depth, d.RunOut(miss), words.Fill(view, "off", off)})
	}
	if len(list) == 0 {
		return
	}
	w.title(w.m.Bases)
	w.hint(w.m.BaseHelp)
	w.head("of-bases", w.m.Base, w.m.BaseLong, w.m.FarWall, w.m.RunOut)
	w.put("<tbody>")
	for _, b := range list {
		w.put(`<tr><th scope="row">`, markup.Escape(b.name), "</th><td>", w.mark(b.long), "</td><td>", w.mark(b.far), "</td><td><b>", markup.Escape(w.fine(b.runs)), "</b></td></tr>")
		if b.seen != "" {
			w.put(`<tr class="under"><td colspan="4">`, markup.Escape(b.seen), "</td></tr>")
		}
	}
	w.put("</tbody></table>")
}

// abreast returns how far the room reaches square to a base line.
func (w *writer) abreast(b strike.Base) length.Length {
	_, along := w.Plan.Axis()
	across := plane.Point{X: along.Y, Y: -along.X}
	most := 0.0
	for _, q := range w.Plan.Room()[0] {
		most = max(most, math.Abs(q.Sub(b.Ends[0].Point).Dot(across)))
	}
	return length.Length(most)
}
