// Package paper sets a plan on paper: the survey, what to strike, the laying
// list and the cut list, as the HTML of numbered sheets. Everything is computed
// from the plan; nothing here knows a browser.
//
// Sizes are millimetres of paper. A browser cannot tell on which page it
// prints, so what stands on a sheet is counted here: lines and rows have heights of
// their own, which the style sheet gives them too, and no sheet is fuller than
// its page.
package paper

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
	"keelrow/wasm/words"
)

// The sheets there are, by the names that an order has for them.
const (
	Survey   = "survey"
	Striking = "striking"
	Laying   = "laying"
	Cuts     = "cuts"
)

// Paper is a size of paper.
type Paper struct {
	Name       string // as CSS has it
	wide, high float64
}

// The two papers, upright.
var (
	A4     = Paper{"A4", 210, 297}         // ISO 216
	Letter = Paper{"letter", 215.9, 279.4} // 8-1/2 by 11 in
)

// PaperOf returns a paper by its name: A4 for one that is not known.
func PaperOf(name string) Paper {
	if name == Letter.Name {
		return Letter
	}
	return A4
}

// Order is what to print.
type Order struct {
	Plan    *floor.Plan
	View    link.View
	Words   *words.Catalogue
	Which   []string
	Paper   Paper
	Date    string // as it is written on the sheets
	Address string // with the whole job in it
}

// What every sheet keeps clear, and what its head and foot take. The style
// sheet has the same numbers.
const (
	edgeLeft   = 20 // for punching
	edgeOther  = 12
	headHigh   = 19
	footHigh   = 19
	rowHigh    = 6.4
	lineHigh   = 5  // of a running text of 10 pt
	titleHigh  = 10 // of a heading within a sheet
	spare      = 3  // for what a browser rounds
	letterWide = 1.95
	// headings of a table may take two lines
	tableHead = 11
)

// HTML returns the sheets, each an element of class sheet.
func HTML(o Order) string {
	w := &writer{Order: o, job: o.Plan.Job(), tape: o.Plan.Job().Tape()}
	w.width = o.Paper.wide - edgeLeft - edgeOther
	w.height = o.Paper.high - 2*edgeOther - headHigh - footHigh - spare
	for _, part := range []struct {
		name string
		set  func()
	}{{Survey, w.survey}, {Striking, w.striking}, {Laying, w.laying}, {Cuts, w.cutList}} {
		if slices.Contains(o.Which, part.name) {
			part.set()
		}
	}
	w.wholeLink()
	var b strings.Builder
	t := &o.Words.Sheets
	for i, s := range w.sheets {
		number := words.Fill(t.Number, "n", strconv.Itoa(i+1), "all", strconv.Itoa(len(w.sheets)))
		b.WriteString(string(el("section", "sheet",
			el("header", "", el("h1", "", text(s.title))+el("p", "number", el("b", "", text(number))+" "+text(o.Date))+el("p", "job", text(w.title())))+
				el("div", "body", html(s.body.String()))+
				el("footer", "", text(w.foot())))))
	}
	return b.String()
}

// html is text that is marked up and safe to be put into the page.
type html string

// text makes html of any text.
func text(s string) html { return html(markup.Escape(s)) }

// el is an element.
func el(tag, class string, inner html) html {
	open := html("<" + tag)
	if class != "" {
		open += html(` class="` + class + `"`)
	}
	return open + ">" + inner + html("</"+tag+">")
}

// sheet is one sheet being filled.
type sheet struct {
	title string
	body  strings.Builder
}

// writer fills one sheet after the other.
type writer struct {
	Order
	job           floor.Job
	tape          length.Tape
	width, height float64 // of what a sheet holds between head and foot
	sheets        []*sheet
	left          float64 // of the height of the last sheet
}

// turn starts a sheet.
func (w *writer) turn(title string) {
	w.sheets = append(w.sheets, &sheet{title: title})
	w.left = w.height
}

// put puts something of a height on the sheet, or on the next where it does
// not fit.
func (w *writer) put(high float64, body html) {
	last := w.sheets[len(w.sheets)-1]
	if high > w.left && w.left < w.height {
		w.turn(last.title)
		last = w.sheets[len(w.sheets)-1]
	}
	w.left -= high
	last.body.WriteString(string(body))
}

// say puts a paragraph of text.
func (w *writer) say(class, s string) {
	w.put(w.lines(s, w.width)*lineHigh+1.5, el("p", class, text(s)))
}

// lines returns how many lines a text takes at most.
func (w *writer) lines(s string, width float64) float64 {
	n, at := 1.0, 0.0
	for word := range strings.SplitSeq(s, " ") {
		long := float64(len([]rune(word))) * letterWide
		if at > 0 && at+long > width {
			n, at = n+1, 0
		}
		for ; long > width; long -= width {
			n++
		}
		at += long + letterWide
	}
	return n
}

// heading puts a heading that keeps some of what follows with it, as far as one
// sheet can hold it.
func (w *writer) heading(s string, follows float64) {
	if w.left < min(titleHigh+follows, w.height) {
		w.turn(w.sheets[len(w.sheets)-1].title)
	}
	w.put(titleHigh, el("h2", "", text(s)))
}

// table is rows under a head, all of one height.
type table struct {
	class string
	head  []string
	rows  [][]html
}

// table puts a table, on as many sheets as it takes.
func (w *writer) table(t table) {
	head := html("")
	for _, s := range t.head {
		head += el("th", "", text(s))
	}
	for rows := t.rows; len(rows) > 0; {
		n := min(len(rows), int((w.left-tableHead)/rowHigh))
		if n < min(3, len(rows)) { // no table begins with a row or two at the foot
			w.turn(w.sheets[len(w.sheets)-1].title)
			continue
		}
		if over := len(rows) - n; over == 1 || over == 2 { // nor ends with them overleaf
			n = max(3, n-3+over)
		}
		body := html("")
		for _, row := range rows[:n] {
			cells := html("")
			for _, c := range row {
				cells += "<td>" + c + "</td>"
			}
			body += "<tr>" + cells + "</tr>"
		}
		rows = rows[n:]
		w.put(tableHead+float64(n)*rowHigh, el("table", t.class, el("thead", "", "<tr>"+head+"</tr>")+el("tbody", "", body)))
	}
}

// fact is a name and what it comes to.
type fact struct {
	name  string
	value html
}

// facts puts facts side by side in two columns.
func (w *writer) facts(list []fact) {
	body, high, row := html(""), 0.0, 0.0
	for i, f := range list {
		body += el("div", "", el("dt", "", text(capital(f.name)))+el("dd", "", f.value))
		row = max(row, (1+w.lines(string(f.value), w.width/2-4))*lineHigh+2)
		if i%2 == 1 || i == len(list)-1 {
			high, row = high+row, 0
		}
	}
	w.put(high, el("dl", "", body))
}

// capital begins a text with a capital letter.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// title says what floor it is.
func (w *writer) title() string {
	low, high := w.Plan.Room()[0].Box()
	size := high.Sub(low)
	kind := w.Words.Herringbone
	if w.job.Pattern == floor.Chevron {
		kind = w.Words.Chevron
	}
	return words.Fill(w.Words.Sheets.Job, "width", w.plain(length.Length(size.X)), "depth", w.plain(length.Length(size.Y)),
		"pattern", kind, "block", w.plain(w.job.Width), "length", w.plain(w.job.Length))
}

// plain is a length as the nearest mark of the tape.
func (w *writer) plain(l length.Length) string { return reading.Plain(w.tape, l) }

// exact is a length as a decimal number.
func (w *writer) exact(l length.Length) string { return reading.Exact(w.tape, l) }

// off says whether the true length lies shy of the mark or strong, and nothing
// of one that is on the mark.
func (w *writer) off(l length.Length) string { return reading.Off(w.tape.Read(l), w.Words) }

// reading is a length as it is marked on site.
func (w *writer) reading(l length.Length) html {
	return el("b", "", text(w.plain(l))) + " " + text(w.off(l))
}

// said is the same in a sentence.
func (w *writer) said(l length.Length) string { return strings.TrimSpace(w.plain(l) + " " + w.off(l)) }

// ofHole puts a hole's number before the letters of its corners, as they are
// lettered on the plans.
func ofHole(hole int, name string) string {
	if hole == 0 {
		return name
	}
	return strconv.Itoa(hole) + name
}

func (w *writer) wall(hole, wall int) string {
	corners := len(w.job.Room)
	if hole > 0 {
		corners = len(w.job.Holes[hole-1])
	}
	return ofHole(hole, floor.WallName(wall, corners))
}

func (w *writer) corner(hole, corner int) string { return ofHole(hole, floor.CornerName(corner)) }

// mostFoot is how many characters of the address a foot holds.
func (w *writer) mostFoot() int { return 3 * w.letters() }

// letters is how many characters of an address a line holds.
func (w *writer) letters() int { return int(w.width / letterWide) }

// foot is the address at the foot of every sheet, or a word where it is too
// long for that.
func (w *writer) foot() string {
	if len(w.Address) <= w.mostFoot() {
		return w.Address
	}
	return w.Words.Sheets.LinkBehind
}

// wholeLink sets an address that no foot holds on a sheet of its own.
func (w *writer) wholeLink() {
	if len(w.Address) <= w.mostFoot() || len(w.sheets) == 0 {
		return
	}
	w.turn(w.Words.Sheets.Link)
	w.say("", w.Words.Sheets.LinkMeans)
	for rest := w.Address; rest != ""; {
		// Addresses are ASCII, or this would part a letter.
		n := min(len(rest), w.letters()*int(max(1, (w.left-2)/lineHigh)))
		lines := float64((n + w.letters() - 1) / w.letters())
		w.put(lines*lineHigh, el("p", "address", text(rest[:n])))
		rest = rest[n:]
	}
}
