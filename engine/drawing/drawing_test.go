package drawing

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

var update = flag.Bool("update", false, "write the golden files anew")

// lRoom is a small room in the shape of an L with a few of its blocks and
// lines, for the golden files.
func lRoom() Drawing {
	inset := func(by float64) plane.Ring {
		return plane.Ring{
			{X: by, Y: by}, {X: 3000 - by, Y: by}, {X: 3000 - by, Y: 2000 - by},
			{X: 1800 - by, Y: 2000 - by}, {X: 1800 - by, Y: 3200 - by}, {X: by, Y: 3200 - by},
		}
	}
	// Blocks of 70 by 350 mm with their long edges up to the right, from
	// corner at.
	block := func(at plane.Point) plane.Ring {
		long, wide := plane.Point{X: 350}.Turned(math.Sqrt2/2, math.Sqrt2/2), plane.Point{Y: 70}.Turned(math.Sqrt2/2, math.Sqrt2/2)
		return plane.Ring{at, at.Add(long), at.Add(long).Add(wide), at.Add(wide)}
	}
	centre := plane.Point{X: 894, Y: 1600}
	step := plane.Point{Y: 70 * math.Sqrt2}
	spacing := 70 * math.Sqrt2 / 4
	return Drawing{
		Title: "Small room <L>",
		Layers: []Layer{
			{Name: "wall", Closed: []plane.Ring{inset(0)}, Weight: 4},
			{Name: "field", Closed: []plane.Ring{inset(12)}},
			{Name: "blocks full", Closed: []plane.Ring{block(centre), block(centre.Add(step))}},
			{Name: "blocks cut", Closed: []plane.Ring{{{X: 12, Y: 12}, {X: 12 + 70*math.Sqrt2, Y: 12}, {X: 12, Y: 12 + 70*math.Sqrt2}}}},
			{Name: "centre line", Lines: [][]plane.Point{{{X: 894}, {X: 894, Y: 3200}}}, Dash: Chain},
			{Name: "working lines", Dash: Dashed, Weight: 0.5, Lines: [][]plane.Point{
				{{X: 894 - spacing}, {X: 894 - spacing, Y: 3200}},
				{{X: 894 + spacing}, {X: 894 + spacing, Y: 3200}},
			}},
			{Name: "border line", Dash: Dotted, Lines: [][]plane.Point{{{X: 12, Y: 112}, {X: 1688, Y: 112}, {X: 1688, Y: 3188}}}},
			{Name: "marks", Texts: []Text{
				{At: centre, Height: 40, Text: "start & 45°"},
				{At: plane.Point{X: 880, Y: 200}, Height: 40, Angle: 90, Text: "35-3/16 in, shy by 0.008"},
			}},
		},
	}
}

func TestGolden(t *testing.T) {
	for name, got := range map[string][]byte{
		"l-room.svg": lRoom().AppendSVG(nil),
		"l-room.dxf": lRoom().AppendDXF(nil),
	} {
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what is written now; if the change is meant, run go test -update and look at the difference", path)
		}
	}
}

// Writers append: what a buffer holds already stays.
func TestAppend(t *testing.T) {
	for name, write := range map[string]func([]byte) []byte{
		"AppendSVG":  lRoom().AppendSVG,
		"AppendDXF":  lRoom().AppendDXF,
		"AppendCSV":  func(dst []byte) []byte { return AppendCSV(dst, Table{Rows: [][]string{{"1"}}}) },
		"AppendJSON": func(dst []byte) []byte { return AppendJSON(dst, func(o *Object) { o.Number("a", 1) }) },
	} {
		if got, want := string(write([]byte("before"))), "before"+string(write(nil)); got != want {
			t.Errorf("%s to a buffer = %.40q..., want %.40q...", name, got, want)
		}
	}
}

// AutoCAD Release 12 allowed letters, digits, $, - and _ in a layer's name, 31
// at most, and did not tell capitals from small letters (its Reference Manual,
// LAYER; from memory). XML 1.0, production 4, has names start with a letter or
// underscore.
func TestNames(t *testing.T) {
	for _, tt := range []struct{ given, want []string }{
		{[]string{"wall", "blocks full", "centre line"}, []string{"wall", "blocks_full", "centre_line"}},
		{[]string{"working lines", "working-lines", "Working Lines"}, []string{"working_lines", "working_lines_2", "Working_Lines_3"}},
		{[]string{"", "0", "Fußleiste", "«\">"}, []string{"layer", "layer_0", "Fu_leiste", "layer____"}},
		{[]string{strings.Repeat("a", 31), strings.Repeat("a", 32)}, []string{strings.Repeat("a", 31), strings.Repeat("a", 29) + "_2"}},
	} {
		var d Drawing
		for _, name := range tt.given {
			d.Layers = append(d.Layers, Layer{Name: name})
		}
		got := d.names()
		for i, want := range tt.want {
			if got[i] != want {
				t.Errorf("name of layer %q among %q = %q, want %q", tt.given[i], tt.given, got[i], want)
			}
		}
	}
}

func TestBox(t *testing.T) {
	for _, tt := range []struct {
		name      string
		layer     Layer
		low, high plane.Point
	}{
		{"nothing", Layer{}, plane.Point{}, plane.Point{}},
		{"outline and line", Layer{
			Closed: []plane.Ring{{{X: -10, Y: 5}, {X: 20, Y: 5}, {X: 20, Y: 30}}},
			Lines:  [][]plane.Point{{{X: 0, Y: 0}, {X: 0, Y: 50}}},
		}, plane.Point{X: -10, Y: 0}, plane.Point{X: 20, Y: 50}},
		// Three letters of 10 mm, read upward: 30 mm up and 10 mm to the left.
		{"text", Layer{Texts: []Text{{At: plane.Point{X: 100, Y: 100}, Height: 10, Angle: 90, Text: "45°"}}},
			plane.Point{X: 90, Y: 100}, plane.Point{X: 100, Y: 130}},
	} {
		low, high := Drawing{Layers: []Layer{tt.layer}}.Box()
		if low.Sub(tt.low).Length() > 1e-9 || high.Sub(tt.high).Length() > 1e-9 {
			t.Errorf("%s: Box() = %v, %v, want %v, %v", tt.name, low, high, tt.low, tt.high)
		}
	}
}

func TestDecimal(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {-4e-7, "0"}, {100, "100"}, {-1200, "-1200"},
		{57.15, "57.15"},                 // 2-1/4 in
		{100 * math.Sqrt2, "141.421356"}, // OEIS A002193
		{1e7, "10000000"},
	} {
		if got := string(appendDecimal(nil, tt.v)); got != tt.want {
			t.Errorf("appendDecimal(%v) = %s, want %s", tt.v, got, tt.want)
		}
	}
}

// A number that is not finite would make a file no program opens, so it must
// not be written.
func TestNotFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for name, d := range map[string]Drawing{
			"coordinate": {Layers: []Layer{{Closed: []plane.Ring{{{}, {X: 1}, {X: v, Y: v}}}}}},
			"height":     {Layers: []Layer{{Texts: []Text{{Height: length.Length(v), Text: "a"}}}}},
			"weight":     {Layers: []Layer{{Weight: length.Length(v)}}},
		} {
			func() {
				defer func() {
					if recover() == nil {
						t.Errorf("AppendSVG writes a %s of %v", name, v)
					}
				}()
				d.AppendSVG(nil)
			}()
		}
	}
}
