package floor

import (
	"math"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

func TestCentreLine(t *testing.T) {
	room := rect(0, 0, 4200, 3600)
	clockwise := room.Reversed() // (0,3600) (4200,3600) (4200,0) (0,0): BC is the right wall, DA the left
	// BC leans by (7, 24)/25, a triangle of 7-24-25, so its mean with DA runs
	// along (0, 25) + (7, 24) = (7, 49), or (1, 7): 8.130102 degrees to the
	// right. The walls meet at y = -4000·24/7 = -13714.2857, x = 0, so y = 7x -
	// 13714.2857. The middle of the box, (2437.5, 1500), is 1848.2143/7.0711 =
	// 261.3770 from it: 7·2437.5 - 1500 - 13714.2857 = 1848.2143, over √50. Its
	// foot is (2437.5 - 7·36.9643, 1500 + 36.9643), with 1848.2143/50 = 36.9643.
	leaning := ring(0, 0, 4000, 0, 4875, 3000, 0, 3000)
	// A 3-4-5 room: AB along (4, 3)/5.
	turned := ring(0, 0, 4000, 3000, 1000, 7000, -3000, 4000)
	alcove := ring(0, 0, 4200, 0, 4200, 3600, 2600, 3600, 2600, 4000, 2000, 4000, 2000, 3600, 0, 3600)
	hearth := rect(1400, 3000, 2600, 3400)
	wedge := ring(1000, 1000, 1600, 1000, 1000, 1600)
	at := func(x, y float64) *plane.Point { return &plane.Point{X: x, Y: y} }
	for _, tt := range []struct {
		name   string
		job    Job
		axis   float64
		centre plane.Point
	}{
		{"midway between the side walls", Job{Room: room, Line: LineSetting{From: LineMidway, A: 1, B: 3}}, 0, plane.Point{X: 2100, Y: 1800}},
		{"midway, the other way round", Job{Room: room, Line: LineSetting{From: LineMidway, A: 3, B: 1}}, 0, plane.Point{X: 2100, Y: 1800}},
		{"midway, a line that lies level", Job{Room: room, Line: LineSetting{From: LineMidway, A: 0, B: 2}}, -90, plane.Point{X: 2100, Y: 1800}},
		{"midway, with a centre given", Job{Room: room, Centre: at(100, 700), Line: LineSetting{From: LineMidway, A: 1, B: 3}}, 0, plane.Point{X: 2100, Y: 700}},
		{"midway, clockwise corners", Job{Room: clockwise, Line: LineSetting{From: LineMidway, A: 1, B: 3}}, 0, plane.Point{X: 2100, Y: 1800}},
		{"midway between walls out of parallel", Job{Room: leaning, Line: LineSetting{From: LineMidway, A: 1, B: 3}}, -8.130102354, plane.Point{X: 2178.75, Y: 1536.964286}},
		// Corners D C B A, so that BC, the leaning wall, is AB's neighbour BC again: (4875,3000)-(4000,0).
		{"the same, clockwise corners", Job{Room: leaning.Reversed(), Line: LineSetting{From: LineMidway, A: 1, B: 3}}, -8.130102354, plane.Point{X: 2178.75, Y: 1536.964286}},
		// Where walls meet it halves the corner: from B up to the left, the
		// line x + y = 4200, to which (2100, 1800) comes at (2250, 1950).
		{"midway between walls that meet", Job{Room: room, Line: LineSetting{From: LineMidway, A: 0, B: 1}}, 45, plane.Point{X: 2250, Y: 1950}},
		{"midway between a wall and a recess's", Job{Room: alcove, Line: LineSetting{From: LineMidway, A: 2, B: 4}}, -90, plane.Point{X: 2100, Y: 3800}},
		{"square to a wall, through the centre", Job{Room: turned, Centre: at(500, 3500), Line: LineSetting{From: LineSquare, A: 0}}, 36.869897646, plane.Point{X: 500, Y: 3500}},
		{"square to a side wall", Job{Room: room, Line: LineSetting{From: LineSquare, A: 1}}, -90, plane.Point{X: 2100, Y: 1800}},
		// From (2000, 1500) along (-3, 4)/5: (500, 3500) is that middle and
		// 2500 along.
		{"square to a wall at its middle", Job{Room: turned, Centre: at(580, 3560), Line: LineSetting{From: LineWall, A: 0}}, 36.869897646, plane.Point{X: 500, Y: 3500}},
		{"square to a side wall at its middle", Job{Room: room, Centre: at(300, 100), Line: LineSetting{From: LineWall, A: 3}}, -90, plane.Point{X: 300, Y: 1800}},
		{"doorway", Job{Room: room, Doors: []Door{{Wall: 2, At: 100, Width: 700}, {Wall: 0, At: 1200, Width: 813}}, Line: LineSetting{From: LineDoor, A: 1}}, 0, plane.Point{X: 1606.5, Y: 1800}},
		// CD runs from right to left: 4200 - 100 - 350.
		{"doorway in the far wall", Job{Room: room, Doors: []Door{{Wall: 2, At: 100, Width: 700}}, Line: LineSetting{From: LineDoor}}, 0, plane.Point{X: 3750, Y: 1800}},
		{"doorway in a side wall", Job{Room: room, Doors: []Door{{Wall: 1, At: 600, Width: 800}}, Line: LineSetting{From: LineDoor}}, -90, plane.Point{X: 2100, Y: 1000}},
		// AB runs from (0,3600) to the right, BC down: 600 to 1400 from the top.
		{"doorway in a side wall, clockwise corners", Job{Room: clockwise, Doors: []Door{{Wall: 1, At: 600, Width: 800}}, Line: LineSetting{From: LineDoor}}, -90, plane.Point{X: 2100, Y: 2600}},
		{"hearth", Job{Room: room, Holes: [][]plane.Point{hearth}, Line: LineSetting{From: LineHole}}, 0, plane.Point{X: 2000, Y: 1800}},
		{"hearth, across the room", Job{Room: room, Axis: 90, Holes: [][]plane.Point{hearth}, Line: LineSetting{From: LineHole}}, -90, plane.Point{X: 2100, Y: 3200}},
		// Seen along 45 degrees the wedge reaches from x + y = 2000 to 2600: the
		// line x + y = 2300, to which (2100, 1800) comes at (1300, 1000).
		{"wedge, at 45 degrees", Job{Room: room, Axis: 45, Holes: [][]plane.Point{wedge}, Line: LineSetting{From: LineHole}}, 45, plane.Point{X: 1300, Y: 1000}},
		// Along (3, 4)/5 the middle, (1100, 1800) from the first point, is 660
		// + 1440 = 2100 along: (1000 + 1260, 1680).
		{"through two points", Job{Room: room, Line: LineSetting{From: LineThrough, Points: [2]plane.Point{{X: 1000}, {X: 1300, Y: 400}}}}, -36.869897646, plane.Point{X: 2260, Y: 1680}},
		{"the same, backwards", Job{Room: room, Line: LineSetting{From: LineThrough, Points: [2]plane.Point{{X: 1300, Y: 400}, {X: 1000}}}}, -36.869897646, plane.Point{X: 2260, Y: 1680}},
		{"through two points, level", Job{Room: room, Line: LineSetting{From: LineThrough, Points: [2]plane.Point{{X: 900, Y: 500}, {X: 100, Y: 500}}}}, -90, plane.Point{X: 2100, Y: 500}},
		{"typed", Job{Room: room, Axis: 12, Centre: at(1, 2)}, 12, plane.Point{X: 1, Y: 2}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := planOf(t, tt.job)
			got := p.Job()
			if math.Abs(got.Axis-tt.axis) > 1e-6 || got.Centre.Sub(tt.centre).Length() > 1e-5 {
				t.Errorf("axis %.9f, centre %.6f, want %.9f, %.6f", got.Axis, *got.Centre, tt.axis, tt.centre)
			}
			addsUp(t, tt.job)
		})
	}
}

// Midway is equally far from both walls at every point, however crooked they
// are, and runs inside both.
func TestMidwayIsEquallyFar(t *testing.T) {
	rng := random(t)
	for range 300 {
		r := cyclic(rng, 3+rng.IntN(6), uniform(rng, 1000, 4000), uniform(rng, 1000, 4000))
		if rng.IntN(2) == 0 {
			r = r.Reversed()
		}
		a := rng.IntN(len(r))
		b := (a + 1 + rng.IntN(len(r)-1)) % len(r)
		p := planOf(t, Job{Room: r, Line: LineSetting{From: LineMidway, A: a, B: b}})
		centre, along := p.Axis()
		inward := func(wall int, q plane.Point) float64 {
			from, to := r.Edge(wall)
			d := to.Sub(from)
			return math.Copysign(1, r.Area()) * d.Cross(q.Sub(from)) / d.Length()
		}
		from, to := r.Edge(a)
		other, end := r.Edge(b)
		if u, v := to.Sub(from), end.Sub(other); u.Dot(v) > 0.866*u.Length()*v.Length() {
			continue // they run the same way
		}
		for _, s := range []float64{-2000, -1, 0, 500, 3000} {
			q := centre.Add(along.Times(s))
			if d, e := inward(a, q), inward(b, q); math.Abs(d-e) > 1e-6 {
				t.Fatalf("%v mm along, %v and %v from the walls\nroom %v, walls %d and %d", s, d, e, r, a, b)
			}
		}
	}
}

// The line keeps its place when the whole room is turned and moved.
func TestCentreLineTurned(t *testing.T) {
	rng := random(t)
	leaning := ring(0, 0, 4000, 0, 4875, 3000, 0, 3000)
	for _, line := range []LineSetting{{From: LineMidway, A: 1, B: 3}, {From: LineMidway, A: 0, B: 1}, {From: LineWall, A: 1}, {From: LineDoor}} {
		doors := []Door{{Wall: 1, At: 500, Width: 800}}
		first := planOf(t, Job{Room: leaning, Doors: doors, Line: line})
		for range 20 {
			degrees, by := uniform(rng, -180, 180), plane.Point{X: uniform(rng, -9e3, 9e3), Y: uniform(rng, -9e3, 9e3)}
			p := planOf(t, Job{Room: turnedRing(leaning, degrees, by), Doors: doors, Line: line})
			c, along := first.Axis()
			moved := turnedRing(plane.Ring{c, c.Add(along)}, degrees, by)
			q, way := p.Axis()
			if off := math.Abs(way.Cross(moved[0].Sub(q))); off > 1e-6 || math.Abs(way.Cross(moved[1].Sub(moved[0]))) > 1e-9 {
				t.Errorf("%+v turned by %v: the line is %v off", line, degrees, off)
			}
			if way.Y < -1e-9 {
				t.Errorf("%+v turned by %v runs towards the near wall", line, degrees)
			}
		}
	}
}

func TestCentreLineErrors(t *testing.T) {
	room := rect(0, 0, 4200, 3600)
	alcove := ring(0, 0, 4200, 0, 4200, 3600, 2600, 3600, 2600, 4000, 2000, 4000, 2000, 3600, 0, 3600)
	nan := math.NaN()
	for _, tt := range []struct {
		name string
		line LineSetting
		says string
	}{
		{"no such wall", LineSetting{From: LineWall, A: 9}, "wall that the room does not have|AB to HA"},
		{"wall below zero", LineSetting{From: LineSquare, A: -1}, "wall that the room does not have"},
		{"second wall missing", LineSetting{From: LineMidway, A: 0, B: 8}, "wall that the room does not have"},
		{"a wall and itself", LineSetting{From: LineMidway, A: 2, B: 2}, "wall that the room does not have"},
		{"walls in one line", LineSetting{From: LineMidway, A: 2, B: 6}, "Walls CD and GH run on in one line|face each other"},
		{"no such doorway", LineSetting{From: LineDoor, A: 0}, "doorway 1"},
		{"no such hole", LineSetting{From: LineHole, A: 1}, "hole 2"},
		{"one point twice", LineSetting{From: LineThrough, Points: [2]plane.Point{{X: 5, Y: 5}, {X: 5, Y: 5.5}}}, "same|far apart"},
		{"a point that is none", LineSetting{From: LineThrough, Points: [2]plane.Point{{X: nan}, {X: 5}}}, "within 1 km"},
		{"a point far off", LineSetting{From: LineThrough, Points: [2]plane.Point{{}, {X: math.Inf(1)}}}, "within 1 km"},
		{"no such way", LineSetting{From: 99}, "not known"},
	} {
		_, err := New(Job{Room: alcove, Line: tt.line})
		checkField(t, tt.name, err, "line", tt.says)
	}
	// Neighbours in one line, too.
	split := ring(0, 0, 2500, 0, 4200, 0, 4200, 3600, 0, 3600)
	_, err := New(Job{Room: split, Line: LineSetting{From: LineMidway, A: 0, B: 1}})
	checkField(t, "neighbours in one line", err, "line", "Walls AB and BC run on")
	// A doorway that does not fit is told at the doorway.
	_, err = New(Job{Room: room, Doors: []Door{{Wall: 0, At: 4000, Width: length.Length(nan)}}, Line: LineSetting{From: LineDoor}})
	checkField(t, "doorway that does not fit", err, "door", "Doorway 1|wall AB|4200 mm")
}
