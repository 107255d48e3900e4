// Package readback holds no program: its tests open the drawings Keelrow
// writes with readers others have written, and compare what those find with
// what was drawn.
package readback

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/plane"
)

// found is what a reader finds in a DXF drawing. Both scripts in testdata
// print it in this form.
type found struct {
	Version  string
	Problems []string          // what the reader does not like
	Layers   map[string]string // the line type of each
	Dashes   map[string][]float64
	Entities []entity
}

type entity struct {
	Type   string
	Layer  string
	Closed bool
	Points [][2]float64
	Text   string
	Height float64
	Angle  float64
}

// reader is a program that reads DXF.
type reader struct {
	name string
	read func(t *testing.T, path string) []byte
	raw  bool // gives texts as they stand in the file, and no line types of layers
}

var readers = []reader{
	{name: "dxf-parser under Node", raw: true, read: func(t *testing.T, path string) []byte {
		return run(t, "node", "testdata/parser.js", nodeParser(t), path)
	}},
	{name: "ezdxf under Python", read: func(t *testing.T, path string) []byte {
		return run(t, python(t), "testdata/reader.py", path)
	}},
}

func run(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	out, err := command(name, args...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// plan is an L-shaped room at an angle to its pattern, so that coordinates
// have no short decimals.
func plan(t *testing.T) *floor.Plan {
	t.Helper()
	p, err := floor.New(floor.Job{
		Room: []plane.Point{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 1800, Y: 2000}, {X: 1800, Y: 3200}, {X: 0, Y: 3200}},
		Gap:  12, Border: 100, Width: 80, Length: 400, Axis: 7,
	})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// draw makes a drawing of a floor with every kind of thing in it.
func draw(p *floor.Plan) drawing.Drawing {
	full := drawing.Layer{Name: "blocks full"}
	cut := drawing.Layer{Name: "blocks cut"}
	for row := range p.Rows() {
		for block := range p.Blocks(row) {
			if block.Full {
				full.Closed = append(full.Closed, block.Corners[:])
			}
			for _, piece := range block.Pieces {
				cut.Closed = append(cut.Closed, slices.Clone(piece.Outline))
				for _, hole := range piece.Holes {
					cut.Closed = append(cut.Closed, slices.Clone(hole))
				}
			}
		}
	}
	return drawing.Drawing{Title: "L room", Layers: []drawing.Layer{
		{Name: "wall", Closed: p.Room(), Weight: 4},
		{Name: "field", Closed: p.Field()},
		full,
		cut,
		{Name: "centre line", Dash: drawing.Chain, Lines: [][]plane.Point{{{X: 1500, Y: 0}, {X: 1500 - 1000*math.Sqrt2, Y: 3200}}}},
		{Name: "working lines", Dash: drawing.Dashed, Lines: [][]plane.Point{{{X: 1 / 3.0, Y: -1}, {X: 2, Y: 1e6}}}},
		{Name: "border line", Dash: drawing.Dotted, Lines: [][]plane.Point{{{X: 12, Y: 112}, {X: 1688, Y: 112}, {X: 1688, Y: 3188}}}},
		{Name: "marks", Texts: []drawing.Text{
			{At: plane.Point{X: 1500, Y: 40}, Height: 40, Text: "35-3/16 in, shy by 0.008"},
			{At: plane.Point{X: -20, Y: 1600.5}, Height: 25.4, Angle: 90, Text: `2¼″ at 45°, 5% 10%%d a^b \U+00BC “x”`},
			{At: plane.Point{X: 10, Y: 10}, Height: 25.4, Angle: -22.5, Text: "0"},
		}},
		{Name: "nothing yet"},
	}}
}

// wanted is what a reader has to find, written out from the drawing. A second
// percent sign is set off by a space, as the drawing's documentation says.
func wanted(d drawing.Drawing) (list []entity) {
	named := func(l drawing.Layer) string { return strings.ReplaceAll(l.Name, " ", "_") }
	points := func(from []plane.Point) (to [][2]float64) {
		for _, p := range from {
			to = append(to, [2]float64{p.X, p.Y})
		}
		return to
	}
	for _, l := range d.Layers {
		for _, ring := range l.Closed {
			list = append(list, entity{Type: "POLYLINE", Layer: named(l), Closed: true, Points: points(ring)})
		}
		for _, line := range l.Lines {
			kind := "POLYLINE"
			if len(line) == 2 {
				kind = "LINE"
			}
			list = append(list, entity{Type: kind, Layer: named(l), Points: points(line)})
		}
		for _, text := range l.Texts {
			list = append(list, entity{Type: "TEXT", Layer: named(l), Points: points([]plane.Point{text.At}),
				Text: text.Text, Height: float64(text.Height), Angle: text.Angle})
		}
	}
	return list
}

// finest is how far a coordinate may be off, in millimetres.
const finest = 1e-6

func TestDXFReadBack(t *testing.T) {
	p := plan(t)
	d := draw(p)
	path := filepath.Join(t.TempDir(), "floor.dxf")
	if err := os.WriteFile(path, d.AppendDXF(nil), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			var got found
			if err := json.Unmarshal(r.read(t, path), &got); err != nil {
				t.Fatal(err)
			}
			for _, problem := range got.Problems {
				t.Errorf("the reader says: %s", problem)
			}
			if got.Version != "AC1009" {
				t.Errorf("version is %q, want AC1009, which is release 12", got.Version)
			}
			compareLayers(t, got, r.raw)
			compareEntities(t, got.Entities, wanted(d), r.raw)
			compareFloor(t, got.Entities, p)
		})
	}
}

func compareLayers(t *testing.T, got found, raw bool) {
	want := map[string]string{
		"0": "CONTINUOUS", "wall": "CONTINUOUS", "field": "CONTINUOUS", "blocks_full": "CONTINUOUS", "blocks_cut": "CONTINUOUS",
		"centre_line": "CENTER", "working_lines": "DASHED", "border_line": "DOT", "marks": "CONTINUOUS", "nothing_yet": "CONTINUOUS",
	}
	for name, line := range want {
		if raw {
			line = ""
		}
		if got, ok := got.Layers[name]; !ok || got != line {
			t.Errorf("layer %q is there: %v, with line type %q, want %q", name, ok, got, line)
		}
	}
	for name := range got.Layers {
		if _, ok := want[name]; !ok {
			t.Errorf("there is a layer %q", name)
		}
	}
	for name, dashes := range got.Dashes {
		if continuous := name == "CONTINUOUS"; continuous != (len(dashes) == 0) {
			t.Errorf("line type %q has dashes %v", name, dashes)
		}
		for i, size := range dashes { // a dash, a space, a dash ...
			if size == 0 || (size > 0) != (i%2 == 0) {
				t.Errorf("line type %q has dashes %v, which are not dashes and spaces in turn", name, dashes)
			}
		}
	}
	if len(got.Dashes) != 4 {
		t.Errorf("%d line types, want 4", len(got.Dashes))
	}
}

func compareEntities(t *testing.T, got, want []entity, raw bool) {
	if len(got) != len(want) {
		t.Fatalf("%d entities, want %d", len(got), len(want))
	}
	for i, w := range want {
		g := got[i]
		if g.Type != w.Type || g.Layer != w.Layer || g.Closed != w.Closed || len(g.Points) != len(w.Points) {
			t.Errorf("entity %d is a %s on layer %q, closed %v, of %d points, want %s, %q, %v, %d", i,
				g.Type, g.Layer, g.Closed, len(g.Points), w.Type, w.Layer, w.Closed, len(w.Points))
			continue
		}
		for j := range w.Points {
			if math.Abs(g.Points[j][0]-w.Points[j][0]) > finest || math.Abs(g.Points[j][1]-w.Points[j][1]) > finest {
				t.Errorf("entity %d, a %s on %s: point %d = %v, want %v", i, g.Type, g.Layer, j, g.Points[j], w.Points[j])
			}
		}
		if math.Abs(g.Height-w.Height) > finest || math.Abs(g.Angle-w.Angle) > finest {
			t.Errorf("text %q is %v high at %v degrees, want %v at %v", g.Text, g.Height, g.Angle, w.Height, w.Angle)
		}
		text := w.Text
		if text == `2¼″ at 45°, 5% 10%%d a^b \U+00BC “x”` {
			text = `2¼″ at 45°, 5% 10% %d a^b \U+00BC “x”`
			if raw {
				text = `2\U+00BC\U+2033 at 45%%d, 5% 10% %d a^ b \U+005CU+00BC \U+201Cx\U+201D`
			}
		}
		if g.Text != text {
			t.Errorf("text reads %q, want %q", g.Text, text)
		}
	}
}

// compareFloor holds the drawing, as read, against the plan's own counts: as
// many blocks, and their areas add up to the field.
func compareFloor(t *testing.T, got []entity, p *floor.Plan) {
	number, area := map[string]int{}, map[string]float64{}
	for _, e := range got {
		number[e.Layer]++
		var ring plane.Ring
		for _, point := range e.Points {
			ring = append(ring, plane.Point{X: point[0], Y: point[1]})
		}
		if e.Closed {
			area[e.Layer] += ring.Area()
		}
	}
	count := p.Count()
	if number["blocks_full"] != count.Full || number["blocks_cut"] != count.Pieces {
		t.Errorf("%d whole blocks and %d pieces, want %d and %d", number["blocks_full"], number["blocks_cut"], count.Full, count.Pieces)
	}
	// 3000 by 2000 and 1800 by 1200 mm.
	if want := 8.16e6; math.Abs(area["wall"]-want) > 0.1 {
		t.Errorf("the room as read is %.3f mm², want %.3f", area["wall"], want)
	}
	// Gap and border take 112 mm at every wall: 2776 by 1776 and 1576 by
	// 1200 mm.
	const field = 2776*1776 + 1576*1200
	for _, layers := range []float64{area["field"], area["blocks_full"] + area["blocks_cut"]} {
		if math.Abs(layers-field) > 0.1 {
			t.Errorf("the field as read is %.3f mm², want %d", layers, field)
		}
	}
	if whole := float64(count.Full) * float64(p.Job().Width*p.Job().Length); math.Abs(area["blocks_full"]-whole) > 0.1 {
		t.Errorf("the whole blocks as read are %.3f mm², want %.3f", area["blocks_full"], whole)
	}
}
