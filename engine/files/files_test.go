package files

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"flag"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/cuts"
	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

var update = flag.Bool("update", false, "write the golden files anew")

// Floors with something of everything.
const (
	small   = "room=1500x1200&gap=10&border=60&block=80x320&door=AB:300,700,Hall"
	inches  = "unit=in&fraction=32&room=0,0;10ft,0;10ft1/4in,8ft;0,8ft1/8in&gap=1/2&border=4&block=2-1/4x9&axis=10&hole=4ft,3ft;5ft,3ft;5ft,4ft;4ft,4ft"
	chevron = "room=0,0;0,3000;4000,3000;4000,0&pattern=chevron&block=90x500&mitre=55&gap=12&start=wall&shift=30,40"
	bowed   = "room=4000x3000&bow=BC:60&block=70x350&gap=12&border=50+30"
)

var floors = []string{small, inches, chevron, bowed}

func planOf(t *testing.T, text string) *floor.Plan {
	t.Helper()
	job, faults := link.Open("#" + text).Job()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	p, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

var usual = Options{Link: small, Sliver: 20, Same: 0.5, Marking: 0.8}

func TestGolden(t *testing.T) {
	p := planOf(t, small)
	for _, kind := range Kinds() {
		got, ok := Write(p, kind, usual)
		if !ok {
			t.Errorf("there is no file of %s", kind)
		}
		path := filepath.Join("testdata", "small."+kind)
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
			gotLines, wantLines := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
			for i := range min(len(gotLines), len(wantLines)) {
				if gotLines[i] != wantLines[i] {
					t.Errorf("%s differs at line %d:\ngot  %s\nwant %s", path, i+1, gotLines[i], wantLines[i])
					break
				}
			}
			t.Errorf("%s has %d lines, want %d", path, len(gotLines), len(wantLines))
		}
	}
	if _, ok := Write(p, "txt", usual); ok {
		t.Error("a file of no known kind is written")
	}
}

// records reads a table back.
func records(t *testing.T, table drawing.Table) (head []string, rows []map[string]string) {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(drawing.AppendCSV(nil, table))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, fields := range all[1:] {
		row := map[string]string{}
		for i, f := range fields {
			name := all[0][i]
			if _, twice := row[name]; twice {
				name += " of " + all[0][i-1]
			}
			row[name] = f
		}
		rows = append(rows, row)
	}
	return all[0], rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The reading beside each distance is the mark nearest to it: it is off by no
// more than half of the tape's smallest mark, as much as the next field says.
func TestMarks(t *testing.T) {
	for _, text := range floors {
		p := planOf(t, text)
		tape := p.Job().Tape()
		smallest := 1.0
		if tape.Unit == length.Inches {
			smallest = 25.4 / float64(tape.Fraction) // 1959 yard and pound agreement
		}
		_, rows := records(t, Marks(p))
		want := 0
		for _, m := range strike.Marks(p) {
			want += 2 * len(m.Parts)
		}
		if len(rows) != want || want < 10 {
			t.Errorf("%s: %d records for %d ends of lines", text, len(rows), want)
		}
		corners := p.Job().Room
		for _, row := range rows {
			exact := number(t, row["Distance along the wall (mm)"])
			reading := row["On the tape"]
			mark, err := length.Parse(strings.TrimPrefix(reading, "'"), tape.Unit) // a negative one is quoted for spreadsheets
			if err != nil {
				t.Fatal(err)
			}
			off := exact - float64(mark)
			if math.Abs(off) > smallest/2+1e-6 {
				t.Errorf("%s: %v mm reads %s, which is %v mm off", row["Line"], exact, reading, off)
			}
			said := row["Shy or strong (mm)"] + row["Shy or strong (in)"]
			if mark > 0 && (strings.HasPrefix(said, "shy") && off >= 0 || strings.HasPrefix(said, "strong") && off <= 0 || said == "") {
				t.Errorf("%s: %v mm reads %s, %s", row["Line"], exact, reading, said)
			}
			// The corner, the distance along the wall and the offset square to
			// it lead to the same place as the coordinates.
			if row["Wall is bowed"] == "yes" || strings.HasPrefix(row["Wall"], "hole") {
				continue
			}
			i := strings.Index("ABCDEFGH", row["Hook on corner"])
			from, to := plane.Ring(corners).Edge(i)
			along := to.Sub(from).Times(1 / to.Sub(from).Length())
			inward := plane.Point{X: -along.Y, Y: along.X}
			if plane.Ring(corners).Area() < 0 {
				inward = inward.Times(-1)
			}
			at := from.Add(along.Times(exact)).Add(inward.Times(number(t, row["Off the wall (mm)"])))
			if d := at.Sub(plane.Point{X: number(t, row["To the right (mm)"]), Y: number(t, row["Away from you (mm)"])}).Length(); d > 1e-5 {
				t.Errorf("%s: the tape leads %v mm away from %s, %s", row["Line"], d, row["To the right (mm)"], row["Away from you (mm)"])
			}
		}
		names := map[string]bool{}
		for _, row := range rows {
			key := row["Line"] + " " + row["Part"] + " " + row["End"]
			if names[key] {
				t.Errorf("%s: two records for %s", text, key)
			}
			names[key] = true
		}
	}
}

// A room of 1500 by 1200 mm: the centre line meets the near wall 750 mm from
// A, the far wall 750 mm from C. The lines of the spine's seam lie 80√2/4 =
// 28.284271 mm (OEIS A002193) on either side.
func TestMarksWorkedByHand(t *testing.T) {
	_, rows := records(t, Marks(planOf(t, small)))
	for _, want := range []struct{ line, end, wall, corner, distance, reading, off string }{
		{"centre line", "1", "AB", "A", "750", "750 mm", "on the mark"},
		{"centre line", "2", "CD", "C", "750", "750 mm", "on the mark"},
		{"cross line", "1", "DA", "D", "600", "600 mm", "on the mark"},
		{"working line of seam 0 left", "1", "AB", "A", "721.715729", "722 mm", "shy by 0.3"},
		{"working line of seam 0 right", "1", "AB", "A", "778.284271", "778 mm", "strong by 0.3"},
		{"border line AB", "1", "AB", "A", "70", "70 mm", "on the mark"},
		{"border line AB", "2", "AB", "A", "1430", "1430 mm", "on the mark"},
	} {
		i := slices.IndexFunc(rows, func(r map[string]string) bool { return r["Line"] == want.line && r["End"] == want.end })
		if i < 0 {
			t.Errorf("no record for end %s of the %s", want.end, want.line)
			continue
		}
		r := rows[i]
		if r["Wall"] != want.wall || r["Hook on corner"] != want.corner || r["Distance along the wall (mm)"] != want.distance || r["On the tape"] != want.reading || r["Shy or strong (mm)"] != want.off {
			t.Errorf("end %s of the %s = %v, want %+v", want.end, want.line, r, want)
		}
	}
}

func TestRowsAddUp(t *testing.T) {
	for _, text := range floors {
		p := planOf(t, text)
		_, rows := records(t, Rows(p))
		full, cut, last := 0.0, 0.0, 0.0
		for _, r := range rows {
			full, cut = full+number(t, r["Full blocks"]), cut+number(t, r["Cut blocks"])
			if last = number(t, r["Blocks laid by then"]); last != full+cut {
				t.Errorf("%s: after row %s %v blocks are laid, want %v", text, r["Row"], last, full+cut)
			}
		}
		if c := p.Count(); int(full) != c.Full || int(cut) != c.Cut {
			t.Errorf("%s: rows of %v and %v blocks, the plan has %d and %d", text, full, cut, c.Full, c.Cut)
		}
	}
}

func TestCuts(t *testing.T) {
	for _, text := range floors {
		p := planOf(t, text)
		_, rows := records(t, Cuts(p, 0.5))
		pieces := map[string]int{}
		for _, r := range rows {
			pieces[r["Mark"]] = int(number(t, r["Pieces"]))
			if r["Kind"] == "scribed" {
				continue
			}
			if r["Kind"] == "rip" {
				if r["Width left at the stop (mm)"] == "" {
					t.Errorf("%s: rip %s has no width", text, r["Mark"])
				}
				continue
			}
			right, left, end := r["From the stop, right-hand edge (mm)"], r["From the stop, left-hand edge (mm)"], r["On the end, from the right-hand edge (mm)"]
			if r["Kind"] == "corner" {
				if end == "" || (right == "") == (left == "") {
					t.Errorf("%s: corner cut of %s meets %q, %q and the end at %q", text, r["Mark"], right, left, end)
				}
				continue
			}
			// From edge to edge, a width apart, the cut runs off by the
			// tangent of its angle.
			run := number(t, left) - number(t, right)
			angle := math.Atan2(run, float64(p.Job().Width)) * 180 / math.Pi
			if end != "" || math.Abs(angle-number(t, r["Off square (degrees)"])) > 0.001 {
				t.Errorf("%s: cut of %s runs off by %v mm, which is %v degrees, and says %s", text, r["Mark"], run, angle, r["Off square (degrees)"])
			}
		}
		all := 0
		for _, n := range pieces {
			all += n
		}
		if all != p.Count().Pieces {
			t.Errorf("%s: %d pieces are listed, the plan has %d", text, all, p.Count().Pieces)
		}
	}
}

// document is what a reader of XML finds in the drawing.
type document struct {
	Width   string `xml:"width,attr"`
	Height  string `xml:"height,attr"`
	ViewBox string `xml:"viewBox,attr"`
	Title   string `xml:"title"`
	Layers  []struct {
		ID       string `xml:"id,attr"`
		Polygon  []line `xml:"polygon"`
		Polyline []line `xml:"polyline"`
		Text     []struct {
			Text string `xml:",chardata"`
		} `xml:"text"`
	} `xml:"g"`
}

type line struct {
	Points string `xml:"points,attr"`
}

func (l line) ring(t *testing.T) (ring plane.Ring) {
	for _, pair := range strings.Fields(l.Points) {
		x, y, _ := strings.Cut(pair, ",")
		ring = append(ring, plane.Point{X: number(t, x), Y: -number(t, y)})
	}
	return ring
}

// The drawing is at full size: the room measures on it what it measures, and
// the areas of what is drawn add up.
func TestDrawingIsTheFloor(t *testing.T) {
	for _, text := range floors {
		p := planOf(t, text)
		data, _ := Write(p, "svg", usual)
		var doc document
		if err := xml.Unmarshal(data, &doc); err != nil {
			t.Fatal(err)
		}
		box := strings.Fields(doc.ViewBox)
		if doc.Width != box[2]+"mm" || doc.Height != box[3]+"mm" {
			t.Errorf("%s: %s by %s for the viewBox %s is not full size", text, doc.Width, doc.Height, doc.ViewBox)
		}
		outlines, area, lines := map[string]int{}, map[string]float64{}, map[string]int{}
		for _, g := range doc.Layers {
			outlines[g.ID], lines[g.ID] = len(g.Polygon), len(g.Polyline)
			for _, polygon := range g.Polygon {
				area[g.ID] += polygon.ring(t).Area()
			}
			if g.ID == "walls" && len(g.Polygon) == 1 {
				low, high := g.Polygon[0].ring(t).Box()
				wantLow, wantHigh := p.Room()[0].Box()
				if low.Sub(wantLow).Length() > 1e-5 || high.Sub(wantHigh).Length() > 1e-5 {
					t.Errorf("%s: the walls are drawn from %v to %v, want %v to %v", text, low, high, wantLow, wantHigh)
				}
			}
		}
		c := p.Count()
		strips, err := p.Strips()
		if err != nil {
			t.Fatal(err)
		}
		for name, want := range map[string]int{
			"walls": 1, "holes": len(p.Job().Holes), "border_strips": len(strips), "border_line": 1 + len(p.Job().Holes), "blocks_full": c.Full, "starting_block": len(p.StartingBlock()),
		} {
			if outlines[name] != want {
				t.Errorf("%s: %d outlines of %s, want %d", text, outlines[name], name, want)
			}
		}
		if n := outlines["blocks_cut"]; n < c.Pieces {
			t.Errorf("%s: %d cut pieces are drawn, want %d", text, n, c.Pieces)
		}
		if lines["centre_line"] < 1 || lines["cross_line"] < 1 || lines["working_lines"] < 4 || lines["diagonals"] < 2 || lines["doorways"] != len(p.Job().Doors) {
			t.Errorf("%s: lines drawn: %v", text, lines)
		}
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-6*math.Abs(want)+0.1 {
				t.Errorf("%s: %s is %.3f mm² as drawn, want %.3f", text, what, got, want)
			}
		}
		near("the field", area["border_line"], p.FieldArea())
		near("what is laid", area["blocks_full"]+area["blocks_cut"], p.FieldArea())
		bed := 0.0
		for _, ring := range p.Bed() {
			bed += ring.Area()
		}
		near("the border", area["border_strips"], bed-p.FieldArea())
	}
	// 1500 by 1200 mm, whatever the program says.
	walls := Drawing(planOf(t, small)).Layers[0].Closed[0]
	if got := walls.Area(); got != 1500*1200 {
		t.Errorf("the room is drawn with %v mm², want %v", got, 1500*1200)
	}
}

// The JSON is valid and holds what the tables hold.
func TestJSON(t *testing.T) {
	for _, text := range floors {
		p := planOf(t, text)
		o := usual
		o.Link = text
		data := JSON(p, o)
		var got struct {
			Link  string
			Marks []struct {
				Line string
				Ends []struct {
					Wall     string
					Distance float64 `json:"distance_mm"`
				}
			}
			Strips []struct {
				Outer float64 `json:"outer_mm"`
			}
			Cuts []struct {
				Mark   string
				Pieces int
				Blocks []int
			}
			Doorways []struct {
				Width  float64 `json:"width_mm"`
				Depth  float64 `json:"depth_mm"`
				RunOut float64 `json:"run_out_mm"`
			}
		}
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		if got.Link != text {
			t.Errorf("the link reads %q, want %q", got.Link, text)
		}
		_, rows := records(t, Marks(p))
		n := 0
		for _, m := range got.Marks {
			for _, e := range m.Ends {
				if r := rows[n]; r["Line"] != m.Line || r["Wall"] != e.Wall || math.Abs(number(t, r["Distance along the wall (mm)"])-e.Distance) > 1e-6 {
					t.Errorf("%s: mark %d is %v in JSON and %v in the table", text, n+1, e, r)
				}
				n++
			}
		}
		if n != len(rows) {
			t.Errorf("%s: %d marks in JSON, %d in the table", text, n, len(rows))
		}
		groups := cuts.List(p, cuts.Options{Tolerance: o.Same})
		if len(got.Cuts) != len(groups) {
			t.Errorf("%s: %d kinds of pieces, want %d", text, len(got.Cuts), len(groups))
		}
		for _, c := range got.Cuts {
			if len(c.Blocks) != c.Pieces {
				t.Errorf("%s: kind %s has %d pieces of %d blocks", text, c.Mark, c.Pieces, len(c.Blocks))
			}
		}
		for _, d := range got.Doorways {
			// Two marks off to opposite sides turn the line by twice a mark's
			// error in the doorway's width.
			if want := 0.8 + 2*0.8/d.Width*d.Depth; math.Abs(d.RunOut-want) > 1e-6 {
				t.Errorf("a line from a doorway of %v runs out by %v at %v, want %v", d.Width, d.RunOut, d.Depth, want)
			}
		}
		var flat bytes.Buffer
		if err := json.Compact(&flat, data); err != nil {
			t.Fatal(err)
		}
		if again := laidOut(flat.Bytes()); !bytes.Equal(again, data) {
			t.Errorf("%s: laid out once more it is different", text)
		}
	}
}

// Laying out changes spaces only.
func FuzzLaidOut(f *testing.F) {
	for _, s := range []string{`{}`, `[]`, `{"a":[1,{"b":[],"c":{}}],"d":"x,:{}[]\"\\"}`, `{"a\\":{"b":{"c":{"d":[1,2]}}}}`, `""`, `"\\\""`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var flat, back bytes.Buffer
		if json.Compact(&flat, []byte(s)) != nil {
			return
		}
		out := laidOut(flat.Bytes())
		if err := json.Compact(&back, out); err != nil || !bytes.Equal(back.Bytes(), flat.Bytes()) {
			t.Fatalf("%s is laid out as %s, which is %s, %v", flat.Bytes(), out, back.Bytes(), err)
		}
	})
}
