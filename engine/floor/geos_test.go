package floor

import (
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// geosCase is a job as the file of check values writes it.
type geosCase struct {
	Name    string
	Pattern string
	Width   float64
	Length  float64
	Strands int
	Mitre   float64 `json:"mitre_deg"`
	Axis    float64 `json:"axis_deg"`
	Gap     float64
	Border  float64
	Room    [][2]float64
	Holes   [][][2]float64
	Centre  [2]float64
}

func (c geosCase) job() Job {
	points := func(list [][2]float64) (out []plane.Point) {
		for _, p := range list {
			out = append(out, plane.Point{X: p[0], Y: p[1]})
		}
		return out
	}
	job := Job{
		Room: points(c.Room), Gap: length.Length(c.Gap), Border: length.Length(c.Border),
		Width: length.Length(c.Width), Length: length.Length(c.Length),
		Strands: c.Strands, Mitre: c.Mitre, Axis: c.Axis,
		Centre: &plane.Point{X: c.Centre[0], Y: c.Centre[1]},
	}
	for _, hole := range c.Holes {
		job.Holes = append(job.Holes, points(hole))
	}
	if c.Pattern == "chevron" {
		job.Pattern = Chevron
	}
	return job
}

// geosValues is what GEOS makes of a case.
type geosValues struct {
	Name      string
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

func readJSON(t testing.TB, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatal(err)
	}
}

// The check values were computed with GEOS 3.11, through Shapely, from the
// pattern's definition, block by block.
func TestAgainstGEOS(t *testing.T) {
	var cases []geosCase
	var values []geosValues
	readJSON(t, "testdata/geos-cases.json", &cases)
	readJSON(t, "testdata/geos-values.json", &values)
	if len(cases) == 0 || len(cases) != len(values) {
		t.Fatalf("%d cases, %d values", len(cases), len(values))
	}
	for i, c := range cases {
		want := values[i]
		t.Run(c.Name, func(t *testing.T) {
			plan, err := New(c.job())
			if err != nil {
				t.Fatal(err)
			}
			near := func(what string, got, wanted float64) {
				t.Helper()
				if math.Abs(got-wanted) > 1e-9*want.FieldArea {
					t.Errorf("%s = %.9f, want %.9f", what, got, wanted)
				}
			}
			var room float64
			for _, ring := range plan.Room() {
				room += ring.Area()
			}
			near("room area", room, want.RoomArea)
			near("field area", plan.FieldArea(), want.FieldArea)
			got := plan.Count()
			if got.Full != want.Full || got.Cut != want.CutBlocks || got.Pieces != want.CutPieces {
				t.Errorf("full, cut, pieces = %d, %d, %d, want %d, %d, %d",
					got.Full, got.Cut, got.Pieces, want.Full, want.CutBlocks, want.CutPieces)
			}
			near("area of all blocks", got.Area, want.FieldArea)
			near("smallest piece", got.Smallest, want.Smallest)
			seen := 0
			for k, s := range plan.Strands() {
				w, ok := want.Strands[strconv.Itoa(k)]
				if !ok {
					t.Errorf("strand %d is not in the check values", k)
					continue
				}
				seen++
				if s.Count.Full != w.Full || s.Count.Cut != w.CutBlocks || s.Count.Pieces != w.CutPieces {
					t.Errorf("strand %d: full, cut, pieces = %d, %d, %d, want %d, %d, %d",
						k, s.Count.Full, s.Count.Cut, s.Count.Pieces, w.Full, w.CutBlocks, w.CutPieces)
				}
				near("area of strand "+strconv.Itoa(k), s.Count.Area, w.Area)
			}
			if seen != len(want.Strands) {
				t.Errorf("%d strands, want %d", seen, len(want.Strands))
			}
		})
	}
}
