package paper

import (
	"encoding/xml"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"keelrow/engine/cuts"
	"keelrow/engine/strike"
	"keelrow/wasm/opened"
	"keelrow/wasm/words"
)

var every = []string{Survey, Striking, Laying, Cuts}

func order(t *testing.T, text string, which ...string) Order {
	t.Helper()
	p, view := opened.Plan(t, text)
	return Order{Plan: p, View: view, Words: words.English(), Which: which, Paper: A4, Date: "1 May 2026", Address: "https://example.org/#" + text}
}

// read takes the sheets apart as an XML reader sees them: the text of each,
// and how often each element and class occurs.
func read(t *testing.T, set string) (sheets []string, elements map[string]int) {
	t.Helper()
	elements = map[string]int{}
	d := xml.NewDecoder(strings.NewReader("<all>" + set + "</all>"))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return sheets, elements
		}
		if err != nil {
			t.Fatalf("the sheets are not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			elements[token.Name.Local]++
			for _, a := range token.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") {
					t.Fatalf("an element has the attribute %s, which the page's policy does not let through", a.Name.Local)
				}
				if a.Name.Local == "class" {
					elements["."+a.Value]++
				}
			}
			if token.Name.Local == "section" {
				sheets = append(sheets, "")
			}
		case xml.CharData:
			if len(sheets) > 0 {
				sheets[len(sheets)-1] += string(token) + " "
			}
		}
	}
}

var floors = []string{
	"room=4200x3600&gap=12&border=100&block=70x350&door=AB:600,900,Hall",
	"unit=in&fraction=64&room=0,0;14ft7-5/8in,0;14ft8-1/8in,12ft3/8in;9ft,12ft1/4in;9ft,10ft;5ft,10ft;5ft,12ft3/16in;1/8in,12ft&gap=1/2&border=5-1/8&block=2-1/4x13-7/16&axis=12.5&hole=3ft,3ft;5ft,3ft;5ft,5ft;3ft,5ft",
	"room=6000x5000&gap=10&pattern=chevron&block=90x600&mitre=52.5&start=wall",
	"room=30000x12000&gap=15&block=90x600&axis=45&shift=35,20",
	"room=0,0;0,3000;4000,3000;4000,0&block=100x400&bow=AB:80",
	"room=300x200&block=70x350",
}

func TestSheetsAreNumbered(t *testing.T) {
	for _, text := range floors {
		for _, p := range []Paper{A4, Letter} {
			o := order(t, text, every...)
			o.Paper = p
			sheets, _ := read(t, HTML(o))
			for i, s := range sheets {
				if want := "Sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(sheets)); !strings.Contains(s, want) {
					t.Errorf("%s on %s: sheet %d does not say %q", text, p.Name, i+1, want)
				}
				if !strings.Contains(s, "1 May 2026") || !strings.Contains(s, "room ") && !strings.Contains(s, "Room ") {
					t.Errorf("%s on %s: sheet %d lacks the date or the job: %s", text, p.Name, i+1, s)
				}
			}
		}
	}
	if HTML(order(t, floors[0])) != "" {
		t.Error("sheets are set that nobody asked for")
	}
}

// Every line end, row and kind of piece is on the sheets, each once.
func TestNothingIsLeftOut(t *testing.T) {
	for _, text := range floors {
		o := order(t, text, every...)
		p := o.Plan
		sheets, elements := read(t, HTML(o))
		rows := 0
		for range p.Rows() {
			rows++
		}
		if elements[".tick"] != rows {
			t.Errorf("%s: %d rows to tick off, want %d", text, elements[".tick"], rows)
		}
		groups := cuts.List(p, cuts.Options{Tolerance: o.View.Same})
		if elements[".group"] != len(groups) {
			t.Errorf("%s: %d kinds of pieces on the sheets, want %d", text, elements[".group"], len(groups))
		}
		all := strings.Join(strings.Fields(strings.Join(sheets, " ")), " ")
		tape := p.Job().Tape()
		for _, m := range strike.Marks(p) {
			for _, part := range m.Parts {
				for _, e := range part.Ends {
					if mark := strings.Replace(e.Reading(tape).FeetText(), "-", "−", map[bool]int{true: 1}[e.Distance < 0]); !strings.Contains(all, mark) {
						t.Errorf("%s: no sheet has the mark at %s", text, mark)
					}
				}
			}
		}
	}
}

// Worked by hand: in a room of 4000 by 3000 mm both diagonals are 5000 (3, 4,
// 5 times 1000), and that is the largest triangle in whole hundreds too.
func TestSurvey(t *testing.T) {
	sheets, _ := read(t, HTML(order(t, "room=4000x3000", Survey)))
	all := strings.Join(sheets, " ")
	for _, want := range []string{
		"Diagonal AC is 5000 mm, BD is 5000 mm: they differ by 0 mm.",
		"To try corner A: 4000 mm along AB and 3000 mm along DA. It is square when those marks are 5000 mm apart.",
		"90.0°",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the survey does not say %q:\n%s", want, all)
		}
	}
}

// The scale is one that is offered, and the plan fits its sheet.
func TestScale(t *testing.T) {
	for _, text := range append(slices.Clone(floors), "room=500x400&block=40x80", "room=90000x60000&block=300x3000") {
		for _, paper := range []Paper{A4, Letter} {
			o := order(t, text)
			w := &writer{Order: o, job: o.Plan.Job(), tape: o.Plan.Job().Tape(), width: paper.wide - 32, height: paper.high - 65}
			p := w.newPlan(12.5, w.height*planShare)
			low, high := o.Plan.Room()[0].Box()
			a, b := p.at(low), p.at(high)
			if a.X < 12.4 || b.X > p.wide-12.4 || b.Y < 12.4 || a.Y > p.high-12.4 || p.high > w.height*planShare+0.1 {
				t.Errorf("%s on %s: drawn from %v to %v on %.1f by %.1f mm", text, paper.Name, a, b, p.wide, p.high)
			}
			if got := (b.X - a.X) * p.scale; got < (high.X-low.X)-1e-6 || got > (high.X-low.X)+1e-6 {
				t.Errorf("%s: at 1:%v the room is %v wide, want %v", text, p.scale, got, high.X-low.X)
			}
		}
	}
}

// A link that no foot holds has a sheet of its own, with all of it.
func TestLongLink(t *testing.T) {
	long := "room=0,0"
	for i := range 60 {
		long += ";" + strconv.Itoa(4000+i) + "," + strconv.Itoa(50*i)
	}
	long += ";0,3000&block=100x400"
	o := order(t, long, Laying)
	sheets, _ := read(t, HTML(o))
	last := sheets[len(sheets)-1]
	if !strings.Contains(strings.ReplaceAll(last, " ", ""), o.Address) {
		t.Errorf("the last sheet does not have the whole link:\n%s", last)
	}
	if !strings.Contains(sheets[0], words.English().Sheets.LinkBehind) {
		t.Error("the first sheet does not say where the link is")
	}
}

// Whatever a text says, it is text.
func FuzzText(f *testing.F) {
	for _, s := range []string{"", "a", `<b>"&`, "&amp;", "</svg><script>", "\x00\xff", "ü 2¼″"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !utf8.ValidString(s) || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r == 0xFFFE || r == 0xFFFF || r == '\r' }) {
			return // not in any link's text that is shown, and not in XML
		}
		var back struct {
			Text  string `xml:",chardata"`
			Class string `xml:"class,attr"`
		}
		if err := xml.Unmarshal([]byte(el("p", string(text(s)), text(s))), &back); err != nil || back.Text != s || back.Class != s {
			t.Fatalf("%q is set as %s, which reads %q, %q, %v", s, text(s), back.Text, back.Class, err)
		}
	})
}
