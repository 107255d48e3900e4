package present

import (
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
)

// Sheet writes one sheet of paper for the client. Its picture is put in by the
// page.
func Sheet(o Order) string {
	t, job := o.Texts, o.Plan.Job()
	tape := length.Tape{Unit: job.Unit, Fraction: job.Fraction}
	h := &html{}
	h.put(`<section class="sheet client"><header><h1>`, t.SheetTitle, `</h1><p class="number">`, markup.Escape(o.Date), `</p></header><div class="body"><img alt="" class="client-picture"><dl>`)
	fact := func(name, what string) {
		h.put(`<div><dt>`, name, `</dt><dd>`, what, `</dd></div>`)
	}
	l := &o.View.Looks
	wood := t.Woods[l.Wood]
	if l.Tone != "natural" {
		wood += ", " + strings.ToLower(t.Tones[l.Tone])
	}
	kind := [...]string{t.Single, t.Double, t.Triple}[job.Strands-1]
	if job.Pattern == floor.Chevron {
		kind = t.Chevron
	}
	fact(t.Pattern, kind)
	fact(t.Blocks, reading.Plain(tape, job.Width)+" × "+reading.Plain(tape, job.Length))
	fact(t.Wood, wood)
	fact(t.Grade, t.Grades[l.Grade])
	fact(t.Finish, t.Finishes[l.Finish])
	fact(t.Edge, t.Edges[l.Edge])
	border := t.None
	if bordered(job) {
		border = reading.Plain(tape, job.Border)
		if l.Border != "same" {
			border += ", " + strings.ToLower(t.Woods[l.Border])
		}
	}
	fact(t.BorderName, border)
	area := 0.0
	for _, ring := range o.Plan.Room() {
		area += ring.Area() // holes count below 0
	}
	fact(t.Area, areaText(area, job.Unit))
	h.put(`</dl><div class="client-link">`)
	if drawn, ok := code(o.Home + "#" + o.Link); ok {
		h.put(drawn, `<p>`, t.CodeHint, `</p>`)
	} else {
		h.put(`<p>`, t.NoCode, `</p>`)
	}
	h.put(`</div></div><footer>`, t.Sample, `</footer></section>`)
	return h.String()
}

// areaText says an area of mm² to a tenth of a square metre, or to a square
// foot.
func areaText(mm2 float64, unit length.Unit) string {
	if unit == length.Inches {
		const foot = 304.8
		return strconv.FormatFloat(mm2/(foot*foot), 'f', 0, 64) + " sq ft"
	}
	return strconv.FormatFloat(mm2/1e6, 'f', 1, 64) + " m²"
}
