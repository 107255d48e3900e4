package tables

import (
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
	"keelrow/wasm/words"
)

// Order is which floor is told of, and from where.
type Order struct {
	Plan  *floor.Plan
	View  link.View
	Words *words.Catalogue
	From  int // first row of a long list
	Leaf  int // and how many it shows at a time
}

// writer writes one answer.
type writer struct {
	strings.Builder
	Order
	job  floor.Job
	tape length.Tape
	m    *words.Marks
	s    *words.Sheets
}

func newWriter(o Order) *writer {
	job := o.Plan.Job()
	return &writer{Order: o, job: job, tape: job.Tape(), m: &o.Words.Marks, s: &o.Words.Sheets}
}

// put writes marked-up text.
func (w *writer) put(parts ...string) {
	for _, s := range parts {
		w.WriteString(s)
	}
}

// fill puts marked-up values into a text.
func fill(text string, pairs ...string) string { return words.Fill(markup.Escape(text), pairs...) }

func (w *writer) title(text string) { w.put("<h3>", markup.Escape(text), "</h3>") }

func (w *writer) hint(text string) { w.put(`<p class="hint">`, markup.Escape(text), "</p>") }

// head begins a table; an empty name heads a column that needs none.
func (w *writer) head(class string, names ...string) {
	w.put("<table", markup.Attr("class", class), "><thead><tr>")
	for _, name := range names {
		if name == "" {
			w.put("<td></td>")
			continue
		}
		w.put(`<th scope="col">`, markup.Escape(name), "</th>")
	}
	w.put("</tr></thead>")
}

// plain is a length as the nearest mark of the tape.
func (w *writer) plain(l length.Length) string { return reading.Plain(w.tape, l) }

// exact is a length as a decimal number.
func (w *writer) exact(l length.Length) string { return reading.Exact(w.tape, l) }

// fine is a small amount, such as a run-out, as a decimal number.
func (w *writer) fine(l length.Length) string {
	if w.tape.Unit == length.Inches {
		return length.Decimal(l, length.Inches, 3)
	}
	return length.Decimal(l, length.Millimetres, 1)
}

// off says whether the true length lies shy of the mark or strong, and
// nothing of one that is on the mark.
func (w *writer) off(l length.Length) string { return reading.Off(w.tape.Read(l), w.Words) }

// mark sets the nearest mark as the tape shows it, fractions stacked.
func (w *writer) mark(l length.Length) string {
	r := w.tape.Read(l)
	unit := func(name string) string { return ` <span class="unit">` + markup.Escape(name) + "</span>" }
	sign, whole := "", r.Whole
	if r.Negative {
		sign = "−"
	}
	if r.Unit == length.Millimetres {
		return `<b class="mark">` + sign + strconv.Itoa(whole) + unit(w.Words.Mm) + "</b>"
	}
	s := `<span class="visually-hidden">` + markup.Escape(w.plain(l)) + `</span><b class="mark" aria-hidden="true">` + sign
	if whole >= 24 { // a tape is read in feet from there
		s += strconv.Itoa(whole/12) + unit(w.Words.Ft) + " "
		whole %= 12
	}
	if whole > 0 || r.Num == 0 || r.Whole >= 24 {
		s += strconv.Itoa(whole)
	}
	if r.Num > 0 {
		class := "frac"
		if r.Whole == 0 {
			class = "frac only"
		}
		s += `<span class="` + class + `"><span class="num">` + strconv.Itoa(r.Num) + `</span><span class="den">` + strconv.Itoa(r.Den) + "</span></span>"
	}
	return s + unit(w.Words.In) + "</b>"
}

// reading is a length as it is marked on site: the mark, and shy or strong.
func (w *writer) reading(l length.Length) string {
	s := w.mark(l)
	if off := w.off(l); off != "" {
		s += ` <span class="off">` + markup.Escape(off) + "</span>"
	}
	return s
}

// whole is a reading with the exact value small beneath.
func (w *writer) whole(l length.Length) string {
	s, exact := w.mark(l), w.exact(l)
	if exact == w.tape.Read(l).Text() {
		return s // there is no more to say
	}
	if off := w.off(l); off != "" {
		exact = off + " · " + exact
	}
	return s + " <small>" + markup.Escape(exact) + "</small>"
}

// wall names a wall; a hole's number stands before its letters.
func (w *writer) wall(hole, wall int) string {
	corners := len(w.job.Room)
	if hole > 0 {
		corners = len(w.job.Holes[hole-1])
	}
	return ofHole(hole, floor.WallName(wall, corners))
}

func (w *writer) corner(hole, corner int) string { return ofHole(hole, floor.CornerName(corner)) }

func ofHole(hole int, name string) string {
	if hole == 0 {
		return name
	}
	return strconv.Itoa(hole) + name
}

// signed writes a number with a minus sign as it is set.
func signed(n int) string {
	if n < 0 {
		return "−" + strconv.Itoa(-n)
	}
	return strconv.Itoa(n)
}

// degrees writes an angle to a tenth.
func degrees(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	if s == "-0.0" {
		s = "0.0"
	}
	if s[0] == '-' {
		s = "−" + s[1:]
	}
	return s + "°"
}

// tick is a box to tick, kept on this device under a name.
func tick(name, label, says string) string {
	return `<span class="option tick"><input type="checkbox"` + markup.Attr("id", "tick-"+name) + markup.Attr("data-tick", name) + markup.Attr("aria-label", says) +
		"><label" + markup.Attr("for", "tick-"+name) + ">" + markup.Escape(label) + "</label></span>"
}

// leaves writes the buttons that turn the leaves of a long list: the page
// asks again with the text in data-leaf.
func (w *writer) leaves(list string, leaf, last, first, to, all int) {
	if last == 0 {
		return
	}
	button := func(id, text string, to int, there bool) string {
		s := `<button type="button" data-do="leaf"` + markup.Attr("id", list+"-"+id) + markup.Attr("data-leaf", list+" "+strconv.Itoa(to*w.Leaf))
		if !there {
			s += " disabled"
		}
		return s + ">" + markup.Escape(text) + "</button>"
	}
	w.put(`<div class="leaves">`, button("before", w.Words.LeafBack, leaf-1, leaf > 0),
		"<span>", fill(w.Words.LeafOf, "from", strconv.Itoa(first), "to", strconv.Itoa(to), "all", strconv.Itoa(all)), "</span>",
		button("after", w.Words.LeafOn, leaf+1, leaf < last), "</div>")
}
