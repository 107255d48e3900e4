package floor

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// ring writes an outline as x, y, x, y ...
func ring(xy ...float64) (r plane.Ring) {
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, plane.Point{X: xy[i], Y: xy[i+1]})
	}
	return r
}

func planOf(t testing.TB, job Job) *Plan {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// stripsOf returns a plan's strips. Their areas have to add up to the bed less
// the field.
func stripsOf(t testing.TB, job Job) []Strip {
	t.Helper()
	p := planOf(t, job)
	strips, err := p.Strips()
	if err != nil {
		t.Fatal(err)
	}
	var got, bed float64
	for _, s := range strips {
		got += s.Outline.Area()
		if s.Outline.Area() <= 0 || s.Width <= 0 {
			t.Errorf("strip of %v mm², %v wide: %+v", s.Outline.Area(), s.Width, s)
		}
	}
	for _, r := range p.Bed() {
		bed += r.Area()
	}
	if math.Abs(got-(bed-p.FieldArea())) > 1e-9*bed {
		t.Errorf("strips of %.6f mm², the bed less the field is %.6f", got, bed-p.FieldArea())
	}
	return strips
}

// wanted is a strip as worked by hand, to 0.0001 mm and degrees.
type wanted struct {
	band, hole, wall    int
	width, outer, inner length.Length
	from, to            float64
}

func checkStrips(t *testing.T, got []Strip, want []wanted) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d strips, want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		g := got[i]
		off := 0.0
		for _, d := range []float64{float64(g.Width - w.width), float64(g.Outer - w.outer), float64(g.Inner - w.inner), g.From - w.from, g.To - w.to} {
			off = max(off, math.Abs(d))
		}
		if g.Band != w.band || g.Hole != w.hole || g.Wall != w.wall || off > 1e-4 {
			t.Errorf("strip %d is %+v, want %+v", i, g, w)
		}
	}
}

// Every length by hand: a strip w wide loses w·tan of the angle off square at
// each end (mitres bisect the corner, Euclid I.9).
func TestStrips(t *testing.T) {
	room := rect(0, 0, 4000, 3000)
	l := ring(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	bay := ring(0, 0, 4500, 0, 4500, 2800, 3300, 4000, 0, 4000)
	chamfered := ring(0, 0, 4200, 0, 4200, 3570, 4170, 3600, 0, 3600)
	// atan(5/3) and atan(3/5): the mitre between a strip of 100 and one of 60.
	const steep, flat = 59.036243468, 30.963756532
	for _, tt := range []struct {
		name string
		job  Job
		want []wanted
	}{
		{"no border", Job{Room: room, Gap: 10}, nil},
		{"rectangle", Job{Room: room, Gap: 10, Border: 100}, []wanted{
			{0, 0, 0, 100, 3980, 3780, 45, 45}, {0, 0, 1, 100, 2980, 2780, 45, 45},
			{0, 0, 2, 100, 3980, 3780, 45, 45}, {0, 0, 3, 100, 2980, 2780, 45, 45}}},
		// The corners are A(0,0), B(0,3000), C(4000,3000), D(4000,0), and the
		// strips run counter-clockwise from the last wall, DA, back to AB.
		{"clockwise corners", Job{Room: ring(0, 0, 0, 3000, 4000, 3000, 4000, 0), Border: 100}, []wanted{
			{0, 0, 2, 100, 3000, 2800, 45, 45}, {0, 0, 1, 100, 4000, 3800, 45, 45},
			{0, 0, 0, 100, 3000, 2800, 45, 45}, {0, 0, 3, 100, 4000, 3800, 45, 45}}},
		{"AB of 60, the others of 100", Job{Room: room, Border: 100, BorderAt: []AtWall{{0, 60}}}, []wanted{
			{0, 0, 0, 60, 4000, 3800, steep, steep}, {0, 0, 1, 100, 3000, 2840, flat, 45},
			{0, 0, 2, 100, 4000, 3800, 45, 45}, {0, 0, 3, 100, 3000, 2840, 45, flat}}},
		// Without a border at BC, AB and CD end square against it.
		{"no border at BC", Job{Room: room, Gap: 10, Border: 100, BorderAt: []AtWall{{1, 0}}}, []wanted{
			{0, 0, 0, 100, 3980, 3880, 45, 0}, {0, 0, 2, 100, 3980, 3880, 0, 45}, {0, 0, 3, 100, 2980, 2780, 45, 45}}},
		{"a border at CD alone", Job{Room: room, BorderAt: []AtWall{{2, 80}}}, []wanted{{0, 0, 2, 80, 4000, 4000, 0, 0}}},
		{"a gap for each wall", Job{Room: room, Gap: 99, GapAt: []AtWall{{0, 10}, {1, 20}, {2, 30}, {3, 0}}, Border: 100}, []wanted{
			{0, 0, 0, 100, 3980, 3780, 45, 45}, {0, 0, 1, 100, 2960, 2760, 45, 45},
			{0, 0, 2, 100, 3980, 3780, 45, 45}, {0, 0, 3, 100, 2960, 2760, 45, 45}}},
		// 38 + 13 + 57 = 108: 4000 - 76 = 3924, less 26 is 3898, less 114 is 3784.
		{"three bands", Job{Room: room, Strips: []length.Length{38, 13, 57}}, []wanted{
			{0, 0, 0, 38, 4000, 3924, 45, 45}, {0, 0, 1, 38, 3000, 2924, 45, 45}, {0, 0, 2, 38, 4000, 3924, 45, 45}, {0, 0, 3, 38, 3000, 2924, 45, 45},
			{1, 0, 0, 13, 3924, 3898, 45, 45}, {1, 0, 1, 13, 2924, 2898, 45, 45}, {1, 0, 2, 13, 3924, 3898, 45, 45}, {1, 0, 3, 13, 2924, 2898, 45, 45},
			{2, 0, 0, 57, 3898, 3784, 45, 45}, {2, 0, 1, 57, 2898, 2784, 45, 45}, {2, 0, 2, 57, 3898, 3784, 45, 45}, {2, 0, 3, 57, 2898, 2784, 45, 45}}},
		// Of 60 at AB the field's strip takes 57, the next 3, the outermost
		// none: the field begins at y = 60 and runs from x = 108 to 3892. Band
		// 0 is cut square at AB; band 1 goes from 38 to 51 off the side walls:
		// atan(13/3) = 77.0053832 at AB.
		{"three bands, 60 at AB", Job{Room: room, Strips: []length.Length{38, 13, 57}, BorderAt: []AtWall{{0, 60}}}, []wanted{
			{0, 0, 1, 38, 3000, 2962, 0, 45}, {0, 0, 2, 38, 4000, 3924, 45, 45}, {0, 0, 3, 38, 3000, 2962, 45, 0},
			{1, 0, 0, 3, 3924, 3898, 77.0053832, 77.0053832}, {1, 0, 1, 13, 2962, 2946, 12.9946168, 45}, {1, 0, 2, 13, 3924, 3898, 45, 45}, {1, 0, 3, 13, 2962, 2946, 45, 12.9946168},
			{2, 0, 0, 57, 3898, 3784, 45, 45}, {2, 0, 1, 57, 2946, 2832, 45, 45}, {2, 0, 2, 57, 3898, 3784, 45, 45}, {2, 0, 3, 57, 2946, 2832, 45, 45}}},
		// Round the inner corner D the inner edges are the longer.
		{"L", Job{Room: l, Border: 100}, []wanted{
			{0, 0, 0, 100, 5200, 5000, 45, 45}, {0, 0, 1, 100, 3100, 2900, 45, 45}, {0, 0, 2, 100, 3100, 3100, 45, -45},
			{0, 0, 3, 100, 1500, 1500, -45, 45}, {0, 0, 4, 100, 2100, 1900, 45, 45}, {0, 0, 5, 100, 4600, 4400, 45, 45}}},
		// Corners of 135 degrees are cut at 22.5: 100·tan 22.5 = 100·(√2-1) =
		// 41.42136 off. CD is 1200·√2 = 1697.05627 long, less twice that.
		{"bay", Job{Room: bay, Border: 100}, []wanted{
			{0, 0, 0, 100, 4500, 4300, 45, 45}, {0, 0, 1, 100, 2800, 2658.57864, 45, 22.5}, {0, 0, 2, 100, 1697.05627, 1614.21356, 22.5, 22.5},
			{0, 0, 3, 100, 3300, 3158.57864, 22.5, 45}, {0, 0, 4, 100, 4000, 3800, 45, 45}}},
		// Round a hole of 600 x 400 the inner edge, at the field, is the longer.
		// The hole is given counter-clockwise and run clockwise.
		{"hole", Job{Room: room, Gap: 10, Border: 100, BorderAt: []AtWall{{0, 0}, {1, 0}, {2, 0}, {3, 0}}, Holes: [][]plane.Point{rect(1500, 1200, 2100, 1600)}}, []wanted{
			{0, 1, 2, 100, 620, 820, -45, -45}, {0, 1, 1, 100, 420, 620, -45, -45},
			{0, 1, 0, 100, 620, 820, -45, -45}, {0, 1, 3, 100, 420, 620, -45, -45}}},
		// The chamfer of 30·√2 = 42.42641 is used up; its strip is a triangle
		// up to the corner (4148, 3548) of the field, (7770 - 7696)/√2 =
		// 52.32590 off it. Half the chamfer by that is tan 22.0679. BC is cut
		// from (4200, 3570) to that corner: atan(22/52) = 22.9321, and they add up
		// to the 45 degrees by which the walls turn.
		{"wall used up", Job{Room: chamfered, Border: 52}, []wanted{
			{0, 0, 0, 52, 4200, 4096, 45, 45}, {0, 0, 1, 52, 3570, 3496, 45, 22.932098}, {0, 0, 2, 52.325902, 42.426407, 0, 22.067902, 22.067902},
			{0, 0, 3, 52, 4170, 4096, 22.932098, 45}, {0, 0, 4, 52, 3600, 3496, 45, 45}}},
		// The gap of 60 uses the chamfer up and leaves a corner at (4140, 3540);
		// 10 + 100 in from the chamfer x + y = 7770 - 110·√2, so the field loses
		// 7680 - 7614.43651 = 65.56349 there: 92.72078 long, 46.36039 high.
		{"wall used up by the gap, with a border", Job{Room: chamfered, Gap: 60, GapAt: []AtWall{{2, 10}}, BorderAt: []AtWall{{2, 100}}}, []wanted{
			{0, 0, 2, 46.36039, 0, 92.72078, -45, -45}}},
	} {
		t.Run(tt.name, func(t *testing.T) { checkStrips(t, stripsOf(t, tt.job), tt.want) })
	}
}

// A room at an odd angle has the same strips: a wall without a border has none
// from rounding.
func TestStripsTurned(t *testing.T) {
	job := Job{Room: rect(0, 0, 4000, 3000), Gap: 10, Strips: []length.Length{40, 60}, BorderAt: []AtWall{{1, 0}, {2, 60}}}
	want := stripsOf(t, job)
	for _, degrees := range []float64{17, 33.3, 90, 171} {
		turned := job
		turned.Room = turnedRing(job.Room, degrees, plane.Point{X: 1234.5, Y: -777})
		var list []wanted
		for _, s := range want {
			list = append(list, wanted{s.Band, s.Hole, s.Wall, s.Width, s.Outer, s.Inner, s.From, s.To})
		}
		checkStrips(t, stripsOf(t, turned), list)
	}
}

// Along an arc of chord 4000 and rise 100 the radius is (2000² + 100²)/200 =
// 20050, so its outer edges add up to 2·20050·asin(2000/20050). The inner ones
// lie on a circle of 19950 between the side borders: 2·19950·asin(1900/19950).
func TestStripsAlongABow(t *testing.T) {
	for _, room := range []plane.Ring{rect(0, 0, 4000, 3000), ring(4000, 0, 0, 0, 0, 3000, 4000, 3000)} {
		var outer, inner float64
		pieces := 0
		for _, s := range stripsOf(t, Job{Room: room, Border: 100, Bows: []Bow{{0, 100}}}) {
			if s.Wall != 0 {
				continue
			}
			pieces++
			outer, inner = outer+float64(s.Outer), inner+float64(s.Inner)
			// Beside the corners the side borders use up a piece or two of the
			// arc, which bend away from there by hundredths.
			if math.Abs(float64(s.Width)-100) > 0.05 {
				t.Errorf("width %v", s.Width)
			}
		}
		if want := 2 * 20050 * math.Asin(2000.0/20050); pieces < 2 || math.Abs(outer-want) > 0.01 {
			t.Errorf("outer edges of %v mm in %d pieces, want %v", outer, pieces, want)
		}
		if want := 2 * 19950 * math.Asin(1900.0/19950); math.Abs(inner-want) > 0.05 {
			t.Errorf("inner edges of %v mm, want %v", inner, want)
		}
	}
}

// A mitre halves the corner: 45 degrees at a square one, 22.5 at 135, and 29.5
// and 16 where walls turn by 59 and 32.
func TestMitre(t *testing.T) {
	for _, tt := range []struct{ corner, want float64 }{{90, 45}, {135, 22.5}, {60, 60}, {180, 0}, {270, -45}, {180 - 59, 29.5}, {180 - 32, 16}} {
		if got := Mitre(tt.corner); got != tt.want {
			t.Errorf("Mitre(%v) = %v, want %v", tt.corner, got, tt.want)
		}
	}
}

// In a room of any convex shape both ends that meet in a corner turn by what
// the walls turn, and by the same where both strips are equally wide.
func TestMitresOfConvexRooms(t *testing.T) {
	rng := random(t)
	compared := 0
	for range 200 {
		r := cyclic(rng, 3+rng.IntN(6), uniform(rng, 1500, 4000), uniform(rng, 1500, 4000))
		job := Job{Room: r, Border: length.Length(uniform(rng, 10, 120))}
		unequal := rng.IntN(2) == 0
		if unequal {
			for i := range r {
				job.BorderAt = append(job.BorderAt, AtWall{i, length.Length(uniform(rng, 10, 120))})
			}
		}
		p, err := New(job)
		if err != nil {
			continue
		}
		if len(p.Field()[0]) != len(r) {
			continue
		}
		strips := stripsOf(t, job)
		for i, s := range strips {
			next := strips[(i+1)%len(strips)]
			a, b := r.Edge(s.Wall)
			c, d := r.Edge(next.Wall)
			u, v := b.Sub(a), d.Sub(c)
			turn := math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi
			if math.Abs(s.To+next.From-turn) > 1e-6 {
				t.Errorf("%+v and %+v are cut at %v and %v, and the walls turn by %v", s, next, s.To, next.From, turn)
			}
			if !unequal && math.Abs(s.To-Mitre(180-turn)) > 1e-6 {
				t.Errorf("%v, want the mitre %v", s.To, Mitre(180-turn))
			}
			compared++
		}
	}
	if compared < 200 {
		t.Errorf("only %d corners compared", compared)
	}
}

// Strips do not overlap: the union has the area of all, by simplefeatures.
func TestStripsApart(t *testing.T) {
	rng := random(t)
	joined := 0
	for range 20 {
		job := unevenJob(rng)
		strips := stripsOf(t, job)
		if len(strips) > 150 {
			continue // a union of bows takes its time
		}
		var all []geom.Geometry
		sum := 0.0
		for _, s := range strips {
			all, sum = append(all, polygon(t, s.Outline)), sum+s.Outline.Area()
		}
		if len(all) == 0 {
			continue
		}
		joined++
		union, err := geom.UnionMany(all)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(union.Area()-sum) > 1e-6*sum {
			t.Errorf("strips of %v mm² cover %v\njob %+v", sum, union.Area(), job)
		}
	}
	if joined < 10 {
		t.Errorf("only %d of 20 rooms compared", joined)
	}
}
