package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelrow/engine/link"
)

// corpus is links of one version of the grammar with the figures that they
// have given ever since. A link once written opens in every later version, as
// the same floor.
type corpus []entry

type entry struct {
	Name    string   `json:"name"`
	Link    string   `json:"link"`
	Outside string   `json:"outside,omitempty"` // where else the figures come from
	Figures *figures `json:"figures,omitempty"`
}

// figures is what of a plan may never change for a link. Lengths are in
// millimetres, areas in square millimetres.
type figures struct {
	Room     float64   `json:"room"`
	Walls    float64   `json:"walls"`
	Field    float64   `json:"field"`
	Blocks   blocks    `json:"blocks"`
	Rows     int       `json:"rows"`
	Strands  int       `json:"strands"`
	Step     float64   `json:"step"`
	Interval float64   `json:"interval"`
	Spacing  float64   `json:"spacing"`
	Start    start     `json:"start"`
	Doorways []doorway `json:"doorways,omitempty"`
}

type doorway struct {
	Name  string  `json:"name"`
	Wall  string  `json:"wall"`
	Depth float64 `json:"depth_mm"`
}

func figuresOf(t *testing.T, link string) figures {
	t.Helper()
	status, out, notes := printed(link)
	if status != 0 {
		t.Fatalf("plan %q exits with %d and says %q", link, status, notes)
	}
	var r struct {
		report
		Doorways []doorway `json:"doorways"`
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	return figures{
		Room: r.Room.Area, Walls: r.Room.Perimeter, Field: r.Field.Area,
		Blocks: r.Blocks, Rows: len(r.Rows), Strands: len(r.Strands),
		Step: r.Lines.Step, Interval: r.Lines.Interval, Spacing: r.Lines.Spacing, Start: r.Lines.Start,
		Doorways: r.Doorways,
	}
}

// same compares counts and names exactly, and lengths and areas within a
// millionth of a millimetre and a billionth of themselves: machines differ in
// the last digits.
func (f figures) same(g figures) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6+1e-9*math.Abs(b) }
	numbers := func(f figures) []float64 {
		list := []float64{f.Room, f.Walls, f.Field, f.Step, f.Interval, f.Spacing, f.Start.X, f.Start.Y}
		for _, d := range f.Doorways {
			list = append(list, d.Depth)
		}
		return list
	}
	a, b := numbers(f), numbers(g)
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !near(a[i], b[i]) {
			return false
		}
	}
	for i := range f.Doorways {
		if f.Doorways[i].Name != g.Doorways[i].Name || f.Doorways[i].Wall != g.Doorways[i].Wall {
			return false
		}
	}
	// A small piece is the difference of large coordinates.
	if math.Abs(f.Blocks.Smallest-g.Blocks.Smallest) > 1e-6*max(1, g.Blocks.Smallest) {
		return false
	}
	f.Blocks.Smallest = g.Blocks.Smallest
	return f.Blocks == g.Blocks && f.Rows == g.Rows && f.Strands == g.Strands && f.Start.Index == g.Start.Index
}

// TestCorpus opens every link of every version. With -update it works out the
// figures of links that have none yet, and changes no others.
func TestCorpus(t *testing.T) {
	paths, err := filepath.Glob("testdata/corpus/v*.json")
	if err != nil || len(paths) == 0 {
		t.Fatalf("there is no corpus: %v", err)
	}
	for _, path := range paths {
		var c corpus
		read(t, path, &c)
		added := 0
		names := map[string]bool{}
		for i, e := range c {
			if names[e.Name] {
				t.Errorf("%s: there are two of %q", path, e.Name)
			}
			names[e.Name] = true
			got := figuresOf(t, e.Link)
			switch {
			case e.Figures == nil && *update:
				c[i].Figures = &got
				added++
			case e.Figures == nil:
				t.Errorf("%s: %q has no figures; look at its plan, then run this test with -update", path, e.Name)
			case !got.same(*e.Figures):
				t.Errorf("%s: %q is another floor than it was:\ngot  %+v\nwant %+v\nThis link is with people. Let it open as it did.", path, e.Name, got, *e.Figures)
			}
		}
		if added == 0 {
			continue
		}
		var text strings.Builder
		encoder := json.NewEncoder(&text)
		encoder.SetEscapeHTML(false)
		encoder.SetIndent("", "  ")
		if err := encoder.Encode(c); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestCorpusIsWhole: the first version's links use every key that makes a
// floor, and every form of those that have several.
func TestCorpusIsWhole(t *testing.T) {
	var c corpus
	read(t, "testdata/corpus/v1.json", &c)
	if len(c) < 50 {
		t.Errorf("of 50 links %d are left", len(c))
	}
	all := ""
	for _, e := range c {
		_, query, _ := strings.Cut(strings.ReplaceAll(e.Link, "?", "#"), "#")
		all += "&" + query
	}
	for _, key := range link.Keys() {
		if !key.View && !strings.Contains(all, "&"+key.Name+"=") {
			t.Errorf("no link has the key %s", key.Name)
		}
	}
	for _, form := range []string{
		"&line=axis", "&line=midway:", "&line=square:", "&line=wall:", "&line=door:", "&line=hole:", "&line=through:",
		"&strands=1", "&strands=2", "&strands=3", "&start=wall", "&start=centre", "&share=yes", "&share=no", "&unit=in", "&unit=mm",
		"&fraction=16", "&fraction=32", "&fraction=64", "&pattern=herringbone", "&pattern=chevron",
	} {
		if !strings.Contains(all, form) {
			t.Errorf("no link has %s", form)
		}
	}
}

// TestCorpusAgreesWithGEOS compares the figures that are kept, not those that
// are worked out today, with GEOS's.
func TestCorpusAgreesWithGEOS(t *testing.T) {
	var c corpus
	read(t, "testdata/corpus/v1.json", &c)
	var values []geosValue
	var cases []struct{ Name string }
	read(t, "../../engine/floor/testdata/geos-cases.json", &cases)
	read(t, "../../engine/floor/testdata/geos-values.json", &values)
	found := 0
	for _, e := range c {
		name, ok := strings.CutPrefix(e.Outside, "GEOS, ")
		if !ok || e.Figures == nil { // TestCorpus says so
			continue
		}
		for i, v := range values {
			if cases[i].Name != name {
				continue
			}
			found++
			f := e.Figures
			if want := (count{v.Full, v.CutBlocks, v.CutPieces}); f.Blocks.count != want {
				t.Errorf("%s: blocks %+v, GEOS has %+v", name, f.Blocks.count, want)
			}
			if math.Abs(f.Room-v.RoomArea) > 1e-9*v.RoomArea || math.Abs(f.Field-v.FieldArea) > 1e-9*v.FieldArea {
				t.Errorf("%s: room %.6f and field %.6f, GEOS has %.6f and %.6f", name, f.Room, f.Field, v.RoomArea, v.FieldArea)
			}
			if math.Abs(f.Blocks.Smallest-v.Smallest) > 1e-6*max(1, v.Smallest) {
				t.Errorf("%s: smallest piece %.9f, GEOS has %.9f", name, f.Blocks.Smallest, v.Smallest)
			}
		}
	}
	if found != len(values) {
		t.Errorf("%d of the links are GEOS's cases, want all %d", found, len(values))
	}
}

// TestCorpusWorkedByHand has the fields of rectangles and of an L, each side
// less gap and border at both ends, and a bowed wall's segment by the table of
// circle segments: 2/3 of rise times chord is its area but for 1 %.
func TestCorpusWorkedByHand(t *testing.T) {
	var c corpus
	read(t, "testdata/corpus/v1.json", &c)
	kept := map[string]*figures{}
	for _, e := range c {
		kept[e.Name] = e.Figures
	}
	const inch = 25.4 // 1959 yard and pound agreement
	for _, tt := range []struct {
		name        string
		room, field float64
		within      float64 // part of the field
	}{
		{"nothing but a room", 4200 * 3600, 4200 * 3600, 1e-9},
		{"a query", 5000 * 3600, 4980 * 3580, 1e-9},
		{"a whole address", 3200 * 2800, 3004 * 2604, 1e-9},
		{"feet and inches", 168 * 138 * inch * inch, 157 * 127 * inch * inch, 1e-9},
		{"marks mixed", 3500 * 174.5 * inch, 3476 * (174.5*inch - 24), 1e-9},
		{"sixteenths, from the wall", 168 * 204 * inch * inch, 167.25 * 203.25 * inch * inch, 1e-9},
		{"walls in turn, the last takes it", 5000*2400 + 2600*2400, 4980*2380 + 2580*2400, 1e-9},
		{"gap at single walls", 4200 * 3600, 4176 * 3575, 1e-9},
		{"border of strips, and at a wall", 5000 * 4200, 4764 * 3982, 1e-9},
		{"two holes", 6000*5000 - 600*500 - 500*800/2, 0, 1e-9},
		{"bowed wall", 4800*3600 + (120.0+40)*3600*2/3 - 2*40*3600*2/3, 0, 1e-2},
		{"a hall", 20000 * 9000, (20000 - 630) * (9000 - 630), 1e-9},
	} {
		f := kept[tt.name]
		if f == nil {
			t.Errorf("there are no figures of %q", tt.name)
			continue
		}
		if math.Abs(f.Room-tt.room) > tt.within*tt.room {
			t.Errorf("%s: room %.3f mm², by hand %.3f", tt.name, f.Room, tt.room)
		}
		if tt.field > 0 && math.Abs(f.Field-tt.field) > tt.within*tt.field {
			t.Errorf("%s: field %.3f mm², by hand %.3f", tt.name, f.Field, tt.field)
		}
	}
}
