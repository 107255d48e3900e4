package onsite

import (
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/wasm/opened"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// How numbers are written out in English: British usage, with "and" before
// the tens, from memory.
func TestNumber(t *testing.T) {
	for n, want := range map[int]string{
		0: "nought", 13: "thirteen", 20: "twenty", 42: "forty-two", 100: "one hundred", 101: "one hundred and one",
		342: "three hundred and forty-two", 2000: "two thousand", 2103: "two thousand one hundred and three",
		12008: "twelve thousand and eight", 100000: "one hundred thousand", 1000001: "one million and one",
	} {
		if got := number(n); got != want {
			t.Errorf("%d is %q, want %q", n, got, want)
		}
	}
}

// How a tape is read aloud: common practice, no source.
func TestSpoken(t *testing.T) {
	const in, ft = length.Inch, length.Foot
	mm, inch := length.Tape{}, length.Tape{Unit: length.Inches, Fraction: 64}
	for _, tt := range []struct {
		tape length.Tape
		l    length.Length
		want string
	}{
		{mm, 2103.3, "two thousand one hundred and three millimetres, strong"},
		{mm, 1, "one millimetre"},
		{mm, 141.7, "one hundred and forty-two millimetres, shy"},
		{mm, -12, "minus twelve millimetres"},
		{inch, 14*ft + 6.5*in - in/200, "fourteen feet six and a half inches, shy"},
		{inch, 14 * ft, "fourteen feet"},
		{inch, 14*ft + in/2, "fourteen feet half an inch"},
		{inch, 3 * in / 8, "three eighths of an inch"},
		{inch, in / 4, "a quarter of an inch"},
		{inch, in, "one inch"},
		{inch, 23 * in, "twenty-three inches"},
		{inch, 6*ft + 11*in + 3*in/16 + in/100/2, "six feet eleven and three sixteenths inches, strong"},
		{inch, 2*ft + in/64, "two feet one sixty-fourth of an inch"},
		{inch, 7*in + 31*in/32, "seven and thirty-one thirty-seconds inches"},
		{inch, 0, "nought inches"},
	} {
		if got := spoken(tt.tape.Read(tt.l)); got != tt.want {
			t.Errorf("%v is said %q, want %q", float64(tt.l), got, tt.want)
		}
	}
}

// A room whose numbers are easily worked out: centre at 2100, 1800, spacing
// 70√2/4 = 24.749, interval 350/√2 = 247.487, step 70√2 = 98.995.
const plain = "room=4200x3600&gap=12&border=100&block=70x350"

func order(t *testing.T, text string) tables.Order {
	t.Helper()
	p, view := opened.Plan(t, text)
	return tables.Order{Plan: p, View: view, Words: words.English(), Leaf: 1000}
}

// attribute returns what an attribute of a card says.
func attribute(card, name string) string {
	_, rest, _ := strings.Cut(card, " "+name+`="`)
	value, _, _ := strings.Cut(rest, `"`)
	return value
}

func TestMark(t *testing.T) {
	o := order(t, plain)
	first := Mark(o, 0, false)
	if got, want := attribute(first, "data-say"), "Wall A B. Hook at corner A. Two thousand one hundred millimetres. For: Centre line."; got != want {
		t.Errorf("the first mark is said %q, want %q", got, want)
	}
	// 2100 - 24.749 = 2075.25.
	left := ""
	for i, e := range tables.LineEnds(o) {
		if e.Line == "Seam 0, the spine's, left line" && e.Wall == 0 {
			left = Mark(o, i, false)
		}
	}
	for _, want := range []string{"Wall <b>AB</b>", "Hook at corner <b>A</b>", `<b class="mark">2075 `, "strong by 0.3"} {
		if !strings.Contains(left, want) {
			t.Errorf("the left line's mark lacks %q: %s", want, left)
		}
	}
	if got, want := attribute(left, "data-say"), "Wall A B. Hook at corner A. Two thousand and seventy-five millimetres, strong. For: Seam 0, the spine's, left line."; got != want {
		t.Errorf("it is said %q, want %q", got, want)
	}
	if got := attribute(first, "data-draw"); !strings.HasPrefix(got, "M2100 0L2100 -3600M2010 0a") {
		t.Errorf("the line drawn is %q", got)
	}
	names := strings.Fields(attribute(first, "data-names"))
	// 42 lines of one part each have 84 ends, the last a border's, 112 off its
	// wall: the gap of 12 and the strip of 100.
	if len(names) != 84 {
		t.Fatalf("%d marks, want 84", len(names))
	}
	last := Mark(o, 83, false)
	if !strings.Contains(attribute(last, "data-say"), "Then square off the wall: one hundred and twelve millimetres.") {
		t.Errorf("the border's mark is said %q", attribute(last, "data-say"))
	}
	seen := map[string]bool{}
	for _, n := range names {
		if seen[n] {
			t.Errorf("two marks have the tick %s", n)
		}
		seen[n] = true
	}
	if none := Mark(o, -1, false); strings.Contains(none, "site-reading") || len(attribute(none, "data-names")) == 0 {
		t.Errorf("before the first mark there is %s", none)
	}
	if end := Mark(o, 84, false); !strings.Contains(end, "Some are not done") {
		t.Errorf("past the last: %s", end)
	}
	if end := Mark(o, 84, true); !strings.Contains(end, "Every mark is done") {
		t.Errorf("past the last, all done: %s", end)
	}
}

// The table and the cards say one thing: the table has every card's tick and
// its reading, in the same order.
func TestMarksAreThoseOfTheTable(t *testing.T) {
	for _, text := range []string{plain, "unit=in&room=0,0;14ft,0;13ft11in,12ft;0,12ft&gap=1/2in&border=5in&block=2-1/4x9&shift=1,1/2",
		"room=4200x3600&hole=1000,1000;1500,1000;1500,1500;1000,1500&block=90x600&pattern=chevron&bow=AB:20"} {
		o := order(t, text)
		rest := tables.Marks(o)
		for _, name := range strings.Fields(attribute(Mark(o, -1, false), "data-names")) {
			_, after, ok := strings.Cut(rest, `data-tick="`+name+`"`)
			if !ok {
				t.Fatalf("%s: the table has no tick %s after the one before", text, name)
			}
			rest = after
		}
		table := tables.Marks(o)
		for i, e := range tables.LineEnds(o) {
			card := Mark(o, i, false)
			_, reading, _ := strings.Cut(card, `<p class="site-reading">`)
			reading, _, _ = strings.Cut(reading, "</b>")
			before, _, _ := strings.Cut(table, `data-tick="`+e.Tick+`"`)
			if cell := before[strings.LastIndex(before, "<td>"):]; !strings.Contains(cell, reading) {
				t.Errorf("%s: card %d reads %s, its cell %s", text, i, reading, cell)
			}
		}
	}
}

func TestRow(t *testing.T) {
	o := order(t, plain)
	// The spine's last tip is 17 steps on: 1800 - 24.749 + 17 * 98.995 =
	// 3458.17, 141.8 short of the wall; its outer seams lie 2100 - 247.487 =
	// 1852.5 from both walls.
	say := attribute(Row(o, 0, false), "data-say")
	for _, want := range []string{
		"Row one of ", "Last tip to wall C D: one hundred and forty-two millimetres, shy.",
		"Seam to wall D A, both ends: one thousand eight hundred and fifty-three millimetres, shy.",
		"Seam to wall B C, both ends: one thousand eight hundred and fifty-three millimetres, shy.",
	} {
		if !strings.Contains(say, want) {
			t.Errorf("row 1 is said %q, which lacks %q", say, want)
		}
	}
	// Every row's cut pieces are on the card: as many as blocks are cut, or
	// more where a block gives two.
	rows := 0
	for r := range o.Plan.Rows() {
		rows++
		card, n := Row(o, r.Number-1, false), 0
		_, list, _ := strings.Cut(card, "cut list: <b>")
		list, _, _ = strings.Cut(list, "<")
		for _, part := range strings.Split(list, ", ") {
			k, err := strconv.Atoi(strings.Split(part, "\u00a0")[0])
			if err != nil && part != "" {
				k = 1 // one is not counted
			}
			n += k
		}
		if n < r.Cut || r.Cut == 0 && n > 0 {
			t.Errorf("row %d has %d pieces for %d cut blocks: %q", r.Number, n, r.Cut, list)
		}
	}
	if end := Row(o, rows, true); !strings.Contains(end, "Every row is down") {
		t.Errorf("past the last: %s", end)
	}
}
