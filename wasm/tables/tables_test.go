package tables

import (
	"encoding/xml"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/markup"
	"keelrow/wasm/opened"
	"keelrow/wasm/words"
)

// plain is a room whose numbers are easily worked out: the centre point lies
// at 2100, 1800; the field reaches from 112 to 4088 and from 112 to 3488. Of
// blocks 70 x 350 the interval is 350/√2 = 247.487, the spacing 70√2/4 =
// 24.749 and the step 70√2 = 98.995.
const plain = "room=4200x3600&gap=12&border=100&block=70x350"

func order(t *testing.T, text string, from int) Order {
	t.Helper()
	p, view := opened.Plan(t, text)
	return Order{Plan: p, View: view, Words: words.English(), From: from, Leaf: 40}
}

// read takes an answer apart: the text of every row of its tables and of
// every other block, with single spaces, and the elements' attributes.
func read(t *testing.T, answer string) (texts []string, attributes []xml.Attr) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<all>" + answer + "</all>"))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	depth, text := 0, ""
	flush := func() {
		if text = strings.Join(strings.Fields(text), " "); text != "" {
			texts = append(texts, text)
		}
		text = ""
	}
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("the answer is not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			depth++
			if slices.Contains([]string{"tr", "p", "li", "h3", "dt"}, token.Name.Local) {
				flush()
			}
			for _, a := range token.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") {
					t.Errorf("an element has the attribute %s, which the page's policy does not let through", a.Name.Local)
				}
			}
			attributes = append(attributes, token.Attr...)
		case xml.EndElement:
			depth--
			if !slices.Contains([]string{"b", "span", "small"}, token.Name.Local) {
				text += " "
			}
		case xml.CharData:
			text += string(token)
		}
	}
	flush()
	if depth != 0 {
		t.Errorf("%d elements are left open", depth)
	}
	return texts, attributes
}

// has fails the test unless one text begins and goes on so.
func has(t *testing.T, texts []string, want string) {
	t.Helper()
	for _, s := range texts {
		if strings.Contains(s, want) {
			return
		}
	}
	var like []string
	for _, s := range texts {
		if first, _, _ := strings.Cut(want, " "); strings.Contains(s, first) {
			like = append(like, s)
		}
	}
	t.Errorf("nothing says %q; it says:\n%s", want, strings.Join(like[:min(len(like), 12)], "\n"))
}

func values(attributes []xml.Attr, name string) (list []string) {
	for _, a := range attributes {
		if a.Name.Local == name {
			list = append(list, a.Value)
		}
	}
	return list
}

func TestMarks(t *testing.T) {
	texts, attributes := read(t, Marks(order(t, plain, 0)))
	for _, want := range []string{
		"Centre line AB from A 2100 mm CD from C 2100 mm",
		// It runs to the right: from D 3600 - 1800 down the left wall.
		"Cross line DA from D 1800 mm BC from B 1800 mm",
		"Seam 0, the spine's",
		// 2100 - 24.749, and from C 4200 less that.
		"left line AB from A 2075 mm strong by 0.3 · 2075.25 mm CD from C 2125 mm shy by 0.3 · 2124.75 mm",
		// 2100 + 247.487 + 24.749.
		"right line AB from A 2372 mm strong by 0.2 · 2372.24 mm CD from C 1828 mm shy by 0.2 · 1827.76 mm",
		"1 to 38 of 42",
	} {
		has(t, texts, want)
	}
	if d := values(attributes, "data-path")[0]; d != "M2100 0L2100 -3600" {
		t.Errorf("the centre line is shown as %q", d)
	}
	// 17 seams from -8 to 8, two lines each; 4 lines of the cross and the
	// diagonals, and 4 border lines, which lie 112 in.
	texts, _ = read(t, Marks(order(t, plain, 40)))
	has(t, texts, "AB AB from A 112 mm off the wall 112 mm AB from A 4088 mm off the wall 112 mm")
}

// Every line comes on one leaf, and pairs stay together.
func TestMarksOverLeaves(t *testing.T) {
	const long = "room=0,0;30000,0;30000,4000;16000,4000;16000,3000;0,3000&block=70x350"
	seen := map[string]int{}
	groups := map[string]int{}
	for from, more := 0, true; more; from += 40 {
		answer := Marks(order(t, long, from))
		texts, attributes := read(t, answer)
		for _, s := range values(attributes, "aria-label") {
			seen[s]++
		}
		for _, s := range texts {
			if strings.HasPrefix(s, "Seam ") {
				groups[s]++
			}
		}
		more = !strings.Contains(answer, `data-leaf="marks `+strconv.Itoa(from+40)+`" disabled`)
		if from > 2000 {
			t.Fatal("the leaves have no end")
		}
	}
	// Seams lie every 247.487 mm to both sides of 15000: 60 fit on each.
	if len(groups) != 121 {
		t.Errorf("%d seams, want 121", len(groups))
	}
	for s, n := range groups {
		if n != 1 {
			t.Errorf("%s comes %d times", s, n)
		}
	}
	for s, n := range seen {
		if n != 1 {
			t.Errorf("%q comes %d times", s, n)
		}
	}
}

func TestMarksInInchesAndBowed(t *testing.T) {
	// A wall of 14 ft: its middle is at 7 ft; the spacing of 2-1/4 in blocks
	// is 2.25 √2 / 4 = 0.7955 in, so the lines of seam 0 are at 83.2045 and
	// 84.7955 in: 6 ft 11-3/16 strong by 0.017 and 7 ft 13/16 shy by 0.017.
	texts, _ := read(t, Marks(order(t, "unit=in&room=14ftx12ft&block=2-1/4x9&bow=CD:2", 0)))
	has(t, texts, "left line AB from A 6 ft 11-3/16 in")
	has(t, texts, "strong by 0.017 · 83.205 in")
	has(t, texts, "right line AB from A 7 ft 13/16 in")
	has(t, texts, "shy by 0.017 · 84.795 in")
	has(t, texts, "CD from C (bowed)")
	has(t, texts, "mark on a string from corner to corner")
}

func TestTrammel(t *testing.T) {
	texts, _ := read(t, Trammel(order(t, plain+"&door=AB:1200,800,hall%20%3Cb%3E", 0)))
	for _, want := range []string{
		// From seam -8 to seam 8; 16 * 0.4874 = 7.8.
		"Interval 247 mm strong by 0.5 · 247.49 mm 16 7.8 mm",
		// The spine is 3376 long in the field: 34 steps, 34 * 0.00505 = 0.17.
		"Step 99 mm 98.99 mm 34 0.2 mm",
		// 0.8 * (1 + 2 * 2100 / 3600) = 1.73.
		"Longest line: the centre line 3600 mm 2100 mm 1.7 mm",
		// 0.8 * (1 + 2 * 3600 / 800) = 8.
		"hall <b> 800 mm 3600 mm 8 mm",
		// Its middle is at 1600, 500 left of the centre line; the second seam
		// on the left is at 2100 - 494.97 = 1605.03.
		"You look along the rows: the nearest seam is 5 mm right of the doorway's middle.",
	} {
		has(t, texts, want)
	}
	// A doorway 32 in wide, a room 16 ft deep and marks good to 1/32 in:
	// 1/32 * (1 + 2 * 192 / 32) = 13/32 in.
	texts, _ = read(t, Trammel(order(t, "unit=in&fraction=32&room=12ftx16ft&block=2-1/4x9&door=AB:4ft,32&mark=1/32", 0)))
	has(t, texts, "Doorway 1 2 ft 8 in2 ft 8 in 16 ft 0 in16 ft 0 in 0.406 in")
}

func TestLeftovers(t *testing.T) {
	// The right wall comes in by 20 over its length; the others are square.
	texts, attributes := read(t, Leftovers(order(t, "room=0,0;4200,0;4180,3600;0,3600&block=70x350", 0)))
	for _, want := range []string{"AB near", "BC right", "CD far", "DA left"} {
		has(t, texts, want)
	}
	for _, s := range texts {
		if strings.HasPrefix(s, "BC right") && !strings.HasSuffix(s, "−20 mm") || strings.HasPrefix(s, "DA left") && !strings.HasSuffix(s, " 0") {
			t.Errorf("taper of %q", s)
		}
	}
	if pressed := values(attributes, "aria-pressed"); !slices.Equal(pressed, []string{"true", "false", "false", "false"}) {
		t.Errorf("placings in force: %v", pressed)
	}
	// By symmetry opposite walls are left the same in each placing.
	texts, _ = read(t, Leftovers(order(t, plain, 0)))
	var left, right string
	for _, s := range texts {
		if rest, ok := strings.CutPrefix(s, "left "); ok {
			left = rest
		}
		if rest, ok := strings.CutPrefix(s, "right "); ok {
			right = rest
		}
	}
	if left == "" || left != right {
		t.Errorf("left %q, right %q", left, right)
	}
	// On the right of a seam at x the tips of the strand beyond run on x +
	// interval + spacing; the field's edge is at 1988 from the centre, 8.034
	// intervals. Every piece of at most a block can be left: all are told.
	has(t, texts, "cut ")
}

func TestStart(t *testing.T) {
	texts, _ := read(t, Start(order(t, plain, 0)))
	has(t, texts, "Side 350 mm")
	has(t, texts, "Point to point 495 mm") // 350 √2 = 494.97
	has(t, texts, "Half, for side rows 350 mm × 247 mm strong by 0.5")
	has(t, texts, "Along its line 1775 mm strong by 0.3 from AB, which the line meets 2125 mm from A")
	// 1800 mm back to the wall less gap and border are 1688. The square's
	// middle lies 350/√2 behind its point, which stands 24.749 back of the
	// centre, and reaches as far again back: 1688 - 24.749 - 494.975 leaves
	// 1168.3 mm, 11 steps.
	texts, _ = read(t, Start(order(t, plain+"&start=wall", 0)))
	has(t, texts, "Dry lay: after 11 blocks in each of the two strands, 22 in all")
}

func TestRows(t *testing.T) {
	texts, attributes := read(t, Rows(order(t, plain, 0)))
	// The spine's last tip in the field is on its right line, 17 steps on:
	// 1800 - 24.749 + 17 * 98.995 = 3458.17, so 141.83 from CD.
	has(t, texts, "last tip to CD 142 mm shy by 0.2")
	// Its outer seams lie an interval off the centre line: 2100 - 247.487.
	has(t, texts, "seam to DA 1853 mm at both")
	has(t, texts, "seam to BC 1853 mm at both")
	// Where the wall is crooked the two differ. It lies at 4200 - 20 y / 3600:
	// 4190.14 abreast of the spine's first tip, y = 1775.25, and 4180.79 of its
	// last, y = 3458.17; the seam lies at 2347.49.
	crooked, _ := read(t, Rows(order(t, "room=0,0;4200,0;4180,3600;0,3600&gap=12&border=100&block=70x350&centre=2100,1800", 0)))
	has(t, crooked, "seam to BC 1843 mm, then 1833 mm")
	ticks := values(attributes, "data-tick")
	o := order(t, plain, 0)
	rows := 0
	for r := range o.Plan.Rows() {
		rows++
		if want := "row-" + strconv.Itoa(r.Number); !slices.Contains(ticks, want) {
			t.Errorf("no tick for %s", want)
		}
	}
	// The strips come after the last row: 4200 - 24 at the wall and, mitred,
	// 200 less at the field.
	if len(ticks) != rows+4 {
		t.Errorf("%d ticks for %d rows and 4 strips", len(ticks), rows)
	}
	has(t, texts, "1 AB 4176 mm 3976 mm 45.0°, 45.0°")
}

func TestRowsOverLeaves(t *testing.T) {
	const long = "room=12000x3000&block=70x350&border=50"
	o := order(t, long, 0)
	var rows []floor.Row
	for r := range o.Plan.Rows() {
		rows = append(rows, r)
	}
	for from := 0; from < len(rows); from += 40 {
		o.From = from
		texts, attributes := read(t, Rows(o))
		var want []string
		for _, r := range rows[from:min(len(rows), from+40)] {
			want = append(want, "row-"+strconv.Itoa(r.Number))
		}
		last := from+40 >= len(rows)
		got := values(attributes, "data-tick")
		if last {
			got = got[:len(got)-4]
		}
		if !slices.Equal(got, want) {
			t.Errorf("from %d: %v, want %v", from, got, want)
		}
		if strips := slices.Contains(texts, "Border strips"); strips != last {
			t.Errorf("from %d of %d: strips are listed: %v", from, len(rows), strips)
		}
	}
}

func TestCuts(t *testing.T) {
	for _, text := range []string{plain, "unit=in&room=0,0;14ft,0;13ft11in,12ft;0,12ft&hole=5ft,5ft;6ft,5ft;6ft,6ft&pattern=chevron&block=3x18&mitre=52&same=1/8"} {
		o := order(t, text, 0)
		pieces := 0
		marks := map[string]bool{}
		for from, all := 0, 1; from < all; from += 40 {
			o.From = from
			texts, _ := read(t, Cuts(o))
			for _, s := range texts {
				if _, rest, ok := strings.Cut(s, " kinds."); ok || rest != "" {
					parts := strings.Fields(s)
					all, _ = strconv.Atoi(parts[len(parts)-2])
				}
				mark, rest, _ := strings.Cut(s, " ")
				if n, _, ok := strings.Cut(rest, " ×"); ok {
					k, err := strconv.Atoi(n)
					if err != nil || marks[mark] {
						t.Errorf("%q", s)
					}
					marks[mark] = true
					pieces += k
				}
			}
			if all < 2 {
				t.Fatalf("%d kinds: %v", all, texts)
			}
		}
		if want := o.Plan.Count().Pieces; pieces != want {
			t.Errorf("%s: %d pieces in all kinds, want %d", text, pieces, want)
		}
	}
	// A cut straight along the wall is at 45 degrees to every block of a
	// herringbone whose axis runs along it.
	texts, _ := read(t, Cuts(order(t, plain, 0)))
	has(t, texts, "45.0° off square. Keep the ")
}

func TestEsc(t *testing.T) {
	if got, want := markup.Escape(`<b>"Hall" & more`), "&lt;b&gt;&quot;Hall&quot; &amp; more"; got != want {
		t.Errorf("esc = %s, want %s", got, want)
	}
}

func BenchmarkLargeFloor(b *testing.B) {
	l := link.Open("#room=0,0;40000,0;39900,30000;0,30000&block=70x350&axis=3")
	job, _ := l.Job()
	view, _ := l.View()
	p, err := floor.New(job)
	if err != nil {
		b.Fatal(err)
	}
	n := p.Count()
	o := Order{Plan: p, View: view, Words: words.English(), Leaf: 40}
	for name, f := range map[string]func(Order) string{"marks": Marks, "trammel": Trammel, "leftovers": Leftovers, "start": Start, "rows": Rows, "cuts": Cuts} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				f(o)
			}
			b.ReportMetric(float64(n.Full+n.Cut), "blocks")
		})
	}
}
