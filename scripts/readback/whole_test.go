package readback

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelrow/engine/files"
	"keelrow/engine/floor"
	"keelrow/engine/plane"
)

// A whole plan, as the page and scripts/plan write it, is found by other
// readers as it was drawn, and comes to the floor it is of.
func TestWholePlanReadBack(t *testing.T) {
	p, err := floor.New(floor.Job{
		Room:  []plane.Point{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 1800, Y: 2000}, {X: 1800, Y: 3200}, {X: 0, Y: 3200}},
		Holes: [][]plane.Point{{{X: 700, Y: 700}, {X: 1100, Y: 700}, {X: 1100, Y: 1000}, {X: 700, Y: 1000}}},
		Doors: []floor.Door{{Wall: 0, At: 400, Width: 800, Name: "Küche 1"}, {Wall: 5, At: 1000, Width: 700}},
		Gap:   12, Border: 100, Width: 80, Length: 400, Axis: 7,
	})
	if err != nil {
		t.Fatal(err)
	}
	d := files.Drawing(p)
	data, _ := files.Write(p, "dxf", files.Options{})
	path := filepath.Join(t.TempDir(), "floor.dxf")
	if err := os.WriteFile(path, data, 0o644); err != nil {
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
			want := wanted(d)
			for i := range want {
				if r.raw {
					want[i].Text = strings.ReplaceAll(want[i].Text, "ü", `\U+00FC`)
				}
			}
			compareEntities(t, got.Entities, want, r.raw)
			for _, name := range []string{"walls", "holes", "doorways", "border_strips", "border_line", "blocks_full", "blocks_cut", "centre_line",
				"cross_line", "working_lines", "diagonals", "starting_block", "corner_letters"} {
				if _, ok := got.Layers[name]; !ok {
					t.Errorf("there is no layer %q", name)
				}
			}
			number, area := map[string]int{}, map[string]float64{}
			for _, e := range got.Entities {
				number[e.Layer]++
				var ring plane.Ring
				for _, point := range e.Points {
					ring = append(ring, plane.Point{X: point[0], Y: point[1]})
				}
				if e.Closed {
					area[e.Layer] += ring.Area()
				}
			}
			// Two doorways, one with a name; corners A to F and four of the
			// hole; strips along six walls and round four sides of the hole.
			for layer, n := range map[string]int{"walls": 1, "holes": 1, "doorways": 3, "corner_letters": 10, "border_strips": 10, "border_line": 2, "blocks_full": p.Count().Full} {
				if number[layer] != n {
					t.Errorf("%d things on layer %s, want %d", number[layer], layer, n)
				}
			}
			// 3000 by 2000 and 1800 by 1200 mm. Gap and border take 112 mm at
			// every wall: 2776 by 1776 and 1576 by 1200, less the hole of 400
			// by 300 grown to 624 by 524.
			const walls, field = 3000*2000 + 1800*1200, 2776*1776 + 1576*1200 - 624*524
			for what, pair := range map[string][2]float64{
				"the room": {area["walls"], walls}, "the hole": {area["holes"], -400 * 300},
				"the field": {area["border_line"], field}, "what is laid": {area["blocks_full"] + area["blocks_cut"], field},
				// Between 12 and 112 mm off the walls.
				"the border": {area["border_strips"], 2976*1976 + 1776*1200 - 424*324 - field},
			} {
				if math.Abs(pair[0]-pair[1]) > 0.1 {
					t.Errorf("%s as read is %.3f mm², want %.3f", what, pair[0], pair[1])
				}
			}
		})
	}
}
