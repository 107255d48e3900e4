package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// printed runs the command and returns what it prints.
func printed(args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = run(args, &out, &err)
	return status, out.String(), err.String()
}

// planOf returns the plan printed for a link without faults.
func planOf(t *testing.T, link string) report {
	t.Helper()
	status, out, notes := printed(link)
	if status != 0 || notes != "" {
		t.Fatalf("plan %q exits with %d and says %q, want 0 and nothing", link, status, notes)
	}
	var r report
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatalf("plan %q: %v", link, err)
	}
	return r
}

const (
	square  = "room=400x400&block=100x200&axis=45&centre=350,0"
	chevron = "room=200x500&block=50x200&pattern=chevron&mitre=30&centre=100,0"
	single  = "room=4200x3600&block=70x350&gap=12"
	lRoom   = "room=0,0;5000,0;5000,2400;2600,2400;2600,4800;0,4800&hole=600,3600;1200,3600;1200,4200;600,4200&gap=10&border=90&block=80x400&centre=1300,2400"
	wall    = "unit=in&room=14ftx17ft&gap=1/2&border=5&block=3x15&start=wall"
	double  = "room=4000x3000&block=60x500&strands=2&gap=10&axis=90"
)

func TestGolden(t *testing.T) {
	for _, tt := range []struct{ file, link string }{
		{"square-100x200", square},
		{"chevron-50x200", chevron},
		{"single-70x350", single},
		{"l-room-80x400", lRoom},
		{"wall-start-3x15in", wall},
		{"double-60x500", double},
	} {
		t.Run(tt.file, func(t *testing.T) {
			status, got, notes := printed("#" + tt.link)
			if status != 0 || notes != "" {
				t.Fatalf("plan %q exits with %d and says %q", tt.link, status, notes)
			}
			path := filepath.Join("testdata", tt.file+".json")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			gotLines, wantLines := strings.Split(got, "\n"), strings.Split(string(want), "\n")
			for i := range max(len(gotLines), len(wantLines)) {
				if g, w := at(gotLines, i), at(wantLines, i); g != w {
					t.Fatalf("plan %q differs from %s at line %d:\ngot  %s\nwant %s", tt.link, path, i+1, g, w)
				}
			}
		})
	}
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "(nothing)"
}

// Blocks twice as long as wide, in a square of 4 by 4 such widths with the
// walls along the joints. Drawn on squared paper, far wall on top, == is a
// whole block across and two " one above the other are a whole block away
// from the near wall:
//
//	= = " "
//	" = = "
//	" " = =
//	= " " =
//
// Of each direction 3 are whole. The third square of the top row and the
// first, third and last of the bottom row are halves, 2 of each direction.
func TestCountedOnSquaredPaper(t *testing.T) {
	r := planOf(t, square)
	hand := count{Full: 3, Cut: 2, Pieces: 2}
	want := blocks{count: count{Full: 6, Cut: 4, Pieces: 4}, Smallest: 100 * 100, Left: hand, Right: hand}
	if r.Blocks != want {
		t.Errorf("blocks = %+v, want %+v", r.Blocks, want)
	}
}

// A chevron at 30 degrees of 50 x 200 mm: sin 30° = 1/2 makes each strand 100
// mm wide and each step 100 mm, and a block climbs 200 cos 30° = 173.2 mm. In
// a room of two strands and five steps the blocks of a strand start at the
// steps from -2 (which ends at -200 + 173.2 + 100 = 73.2, so in the room) to 4.
// Whole are those from 0 to 2 (which ends at 473.2 of 500): 3 whole, 4 cut.
func TestChevronWorkedByHand(t *testing.T) {
	r := planOf(t, chevron)
	hand := count{Full: 3, Cut: 4, Pieces: 4}
	if want := (count{Full: 6, Cut: 8, Pieces: 8}); r.Blocks.count != want || r.Blocks.Left != hand || r.Blocks.Right != hand {
		t.Errorf("blocks = %+v, want %+v, %+v of each hand", r.Blocks, want, hand)
	}
	if r.Lines.Interval != 100 || r.Lines.Step != 100 || r.Lines.Spacing != 0 {
		t.Errorf("lines = %+v, want interval 100, step 100, spacing 0", r.Lines)
	}
	if r.Seams != nil {
		t.Errorf("seams = %+v for a chevron, want none", *r.Seams)
	}
}

func TestFiguresOfTheGoldenFiles(t *testing.T) {
	const root2 = 1.414213562373 // OEIS A002193
	s, l, w, d := planOf(t, single), planOf(t, lRoom), planOf(t, wall), planOf(t, double)
	const inch = 25.4 // 1959 yard and pound agreement
	for _, tt := range []struct {
		what      string // and where want comes from
		got, want float64
	}{
		{"single: room, 4200 x 3600", s.Room.Area, 15120000},
		{"single: walls, 2 x (4200 + 3600)", s.Room.Perimeter, 15600},
		{"single: field, 4176 x 3576", s.Field.Area, 14933376},
		{"single: step, diagonal of a square of 70", s.Lines.Step, 70 * root2},
		{"single: interval, side of a square with a diagonal of 350", s.Lines.Interval, 350 / root2},
		{"single: spacing, a quarter of the diagonal", s.Lines.Spacing, 70 * root2 / 4},
		{"single: start, right of the room's middle by the spacing", s.Lines.Start.X, 2100 + 70*root2/4},
		{"single: start, short of the room's middle by the spacing", s.Lines.Start.Y, 1800 - 70*root2/4},
		// The legs are 2400 and 2600 deep and wide: 5000 x 2400 + 2600 x 2400, less the hole of 600 x 600.
		{"L: room", l.Room.Area, 17880000},
		{"L: walls, as of 5000 x 4800, and the hole's", l.Room.Perimeter, 19600 + 2400},
		// 100 off every wall: 4800 x 2200 + 2400 x 2400; the hole grows to 800 x 800.
		{"L: field", l.Field.Area, 4800*2200 + 2400*2400 - 640000},
		{"wall: field, 157 in x 193 in", w.Field.Area, 157 * 193 * inch * inch},
		{"wall: step, diagonal of a square of 3 in", w.Lines.Step, 3 * inch * root2},
		{"double: step, diagonal of a square of 2 x 60", d.Lines.Step, 120 * root2},
		{"double: 500 misses 4 x 120 by 20", d.Seams.Miss, 20},
		{"double: next shorter, 4 x 120", d.Seams.Shorter, 480},
		{"double: next longer, 5 x 120", d.Seams.Longer, 600},
		{"double: start, the axis turned to the left", d.Lines.Start.X, 2000 + 120*root2/4},
		{"double: start, right of the axis is away from the near wall", d.Lines.Start.Y, 1500 + 120*root2/4},
	} {
		if math.Abs(tt.got-tt.want) > 1e-9*max(1, math.Abs(tt.want)) {
			t.Errorf("%s: got %.9f, want %.9f", tt.what, tt.got, tt.want)
		}
	}
	if !s.Seams.LineUp || d.Seams.LineUp {
		t.Errorf("seams line up: %t for 70x350 and %t for double 60x500, want true and false", s.Seams.LineUp, d.Seams.LineUp)
	}

	// From a wall: a starting block 15 in square, turned 45 degrees, reaches
	// 15√2 in = 21.2132 in behind its point. From the point, 3√2/4 in short of
	// the room's middle, to the field's edge are 193/2 - 1.0607 = 95.4393 in; 74.2261
	// of it are left, which holds 17 steps of 4.2426 in (72.125) and not 18.
	if got := w.Lines.Start.Index; got != -17 {
		t.Errorf("starting from the wall, the start is at step %d, want -17", got)
	}
}

// What is printed must agree with itself.
func TestSums(t *testing.T) {
	for _, link := range []string{square, chevron, single, lRoom, wall, double} {
		r := planOf(t, link)
		var strands, rows, hands count
		var area float64
		for _, s := range r.Strands {
			strands.Full, strands.Cut, strands.Pieces = strands.Full+s.Full, strands.Cut+s.Cut, strands.Pieces+s.Pieces
			area += s.Area
		}
		for i, w := range r.Rows {
			rows.Full, rows.Cut = rows.Full+w.Full, rows.Cut+w.Cut
			if w.Number != i+1 {
				t.Errorf("plan %q: row %d has number %d", link, i+1, w.Number)
			}
		}
		for _, h := range []count{r.Blocks.Left, r.Blocks.Right} {
			hands.Full, hands.Cut, hands.Pieces = hands.Full+h.Full, hands.Cut+h.Cut, hands.Pieces+h.Pieces
		}
		rows.Pieces = strands.Pieces
		if all := r.Blocks.count; strands != all || rows != all || hands != all {
			t.Errorf("plan %q: blocks %+v, strands %+v, rows %+v, hands %+v", link, all, strands, rows, hands)
		}
		if math.Abs(area-r.Field.Area) > 1e-9*r.Field.Area {
			t.Errorf("plan %q: strands cover %.6f mm², the field is %.6f mm²", link, area, r.Field.Area)
		}
	}
}

// geosValue is what GEOS has of a case.
type geosValue struct {
	RoomArea  float64 `json:"room_area"`
	FieldArea float64 `json:"field_area"`
	Full      int
	CutBlocks int     `json:"cut_blocks"`
	CutPieces int     `json:"cut_pieces"`
	Smallest  float64 `json:"smallest_piece_area"`
	Strands   map[string]struct {
		Full      int
		CutBlocks int `json:"cut_blocks"`
		CutPieces int `json:"cut_pieces"`
		Area      float64
	}
}

// From link to print, against areas and counts computed with GEOS.
func TestGEOS(t *testing.T) {
	var cases []struct {
		Name, Pattern string
		Width, Length float64
		Strands       int
		Mitre         float64 `json:"mitre_deg"`
		Axis          float64 `json:"axis_deg"`
		Gap, Border   float64
		Room          [][2]float64
		Holes         [][][2]float64
		Centre        [2]float64
	}
	var values []geosValue
	read(t, "../../engine/floor/testdata/geos-cases.json", &cases)
	read(t, "../../engine/floor/testdata/geos-values.json", &values)
	if len(cases) == 0 || len(cases) != len(values) {
		t.Fatalf("%d cases and %d values", len(cases), len(values))
	}
	for i, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			link := fmt.Sprintf("https://example.org/?pattern=%s&block=%vx%v&gap=%v&border=%v&axis=%v&centre=%v,%v&room=%s",
				c.Pattern, c.Width, c.Length, c.Gap, c.Border, c.Axis, c.Centre[0], c.Centre[1], corners(c.Room))
			for _, h := range c.Holes {
				link += "&hole=" + corners(h)
			}
			if c.Strands > 0 {
				link += fmt.Sprint("&strands=", c.Strands)
			}
			if c.Mitre > 0 {
				link += fmt.Sprint("&mitre=", c.Mitre)
			}
			got, want := planOf(t, link), values[i]
			near := func(what string, got, want float64) {
				if math.Abs(got-want) > 1e-9*want {
					t.Errorf("%s = %.9f, GEOS has %.9f", what, got, want)
				}
			}
			near("room", got.Room.Area, want.RoomArea)
			near("field", got.Field.Area, want.FieldArea)
			// A small piece is the difference of large coordinates.
			if math.Abs(got.Blocks.Smallest-want.Smallest) > 1e-6*max(1, want.Smallest) {
				t.Errorf("smallest piece = %.9f mm², GEOS has %.9f", got.Blocks.Smallest, want.Smallest)
			}
			if w := (count{want.Full, want.CutBlocks, want.CutPieces}); got.Blocks.count != w {
				t.Errorf("blocks = %+v, GEOS has %+v", got.Blocks.count, w)
			}
			if len(got.Strands) != len(want.Strands) {
				t.Errorf("%d strands, GEOS has %d", len(got.Strands), len(want.Strands))
			}
			for _, s := range got.Strands {
				w := want.Strands[strconv.Itoa(s.Strand)]
				if g := (count{w.Full, w.CutBlocks, w.CutPieces}); s.count != g {
					t.Errorf("strand %d = %+v, GEOS has %+v", s.Strand, s.count, g)
				}
				if math.Abs(s.Area-w.Area) > 1e-9*want.FieldArea {
					t.Errorf("strand %d covers %.6f mm², GEOS has %.6f", s.Strand, s.Area, w.Area)
				}
			}
		})
	}
}

func corners(ring [][2]float64) string {
	var list []string
	for _, p := range ring {
		list = append(list, fmt.Sprintf("%v,%v", p[0], p[1]))
	}
	return strings.Join(list, ";")
}

func read(t *testing.T, path string, to any) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err == nil {
		err = json.Unmarshal(text, to)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestWhatALinkMayBe(t *testing.T) {
	_, want, _ := printed("#" + single)
	for _, link := range []string{
		single, "?" + single,
		"https://example.org/floor/#" + single,
		"https://example.org/floor/?" + single,
	} {
		if status, got, notes := printed(link); status != 0 || notes != "" || got != want {
			t.Errorf("plan %q exits with %d, says %q and prints %d bytes, want 0, nothing, and the %d bytes of the fragment", link, status, notes, len(got), len(want))
		}
	}
}

func TestFaults(t *testing.T) {
	for _, tt := range []struct {
		link string
		keys []string // that the lines on standard error start with
	}{
		{"gap=wide", []string{"gap "}},
		{"gap=wide&strands=7&room=4200x3600&lang=xx", []string{"gap ", "strands ", "lang "}},
		{"block=350x70", []string{"block:"}},
		{"gap=wide&block=350x70", []string{"gap ", "block:"}},
		{"room=1000x1000&gap=600", []string{"gap:"}},
		{"room=1000x1000&border=600", []string{"border:"}},
		{"hole=9000,0;9100,0;9100,100", []string{"hole:"}},
		{"room=oval&hole=9000,0;9100,0;9100,100", []string{"room "}}, // the hole may lie in the room that was meant
		{"room=100000x100000&block=5x5", []string{"block:"}},
		{"gap=1&gap=2", []string{"gap "}},
	} {
		status, out, notes := printed(tt.link)
		if status != 2 || out != "" {
			t.Errorf("plan %q exits with %d and prints %q, want 2 and nothing", tt.link, status, out)
		}
		lines := strings.Split(strings.TrimSuffix(notes, "\n"), "\n")
		if len(lines) != len(tt.keys) {
			t.Errorf("plan %q says %q, want a line for each of %q", tt.link, notes, tt.keys)
			continue
		}
		for i, key := range tt.keys {
			if !strings.HasPrefix(lines[i], key) {
				t.Errorf("plan %q says %q, want it to start with %q", tt.link, lines[i], key)
			}
		}
	}
}

func TestUnknownKeys(t *testing.T) {
	_, want, _ := printed(single)
	status, got, notes := printed(single + "&colour=oak")
	got = strings.Replace(got, "&colour=oak", "", 1) // the link is printed as it was given
	if status != 0 || got != want || !strings.Contains(notes, `"colour"`) {
		t.Errorf("with a key that is not known, plan exits with %d and says %q; the same plan printed: %t", status, notes, got == want)
	}
}

func TestWithoutALink(t *testing.T) {
	for _, args := range [][]string{nil, {"-h"}, {"gap=1", "block=70x350"}} {
		if status, out, notes := printed(args...); status != 2 || out != "" || !strings.Contains(notes, "one link") {
			t.Errorf("plan with %q exits with %d, prints %q and says %q", args, status, out, notes)
		}
	}
}
