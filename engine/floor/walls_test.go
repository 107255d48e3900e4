package floor

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// roomArea returns the area of a plan's room in mm².
func roomArea(p *Plan) (area float64) {
	for _, r := range p.Room() {
		area += r.Area()
	}
	return area
}

// unevenJob returns a random room with gaps and borders of its own at some
// walls, bowed and scribed walls and strips. It is a job that can be laid out.
func unevenJob(rng *rand.Rand) Job {
	for {
		job := randomJob(rng, uniform(rng, 150, 600))
		job.Gap, job.Border = length.Length(uniform(rng, 0, 15)), length.Length(uniform(rng, 0, 60))
		for range rng.IntN(4) {
			job.Strips = append(job.Strips, length.Length(uniform(rng, 5, 40)))
		}
		for i := range job.Room {
			if rng.IntN(3) == 0 {
				job.GapAt = append(job.GapAt, AtWall{i, length.Length(uniform(rng, 0, 25))})
			}
			if rng.IntN(3) == 0 {
				job.BorderAt = append(job.BorderAt, AtWall{i, length.Length(max(0, uniform(rng, -30, 90)))})
			}
			a, b := plane.Ring(job.Room).Edge(i)
			long := b.Sub(a).Length()
			switch rng.IntN(8) {
			case 0:
				job.Bows = append(job.Bows, Bow{i, length.Length(long * uniform(rng, -0.02, 0.1))})
			case 1:
				s := Scribe{Wall: i, Ordinates: make([]length.Length, 3+rng.IntN(6))}
				for k := range s.Ordinates[1 : len(s.Ordinates)-1] {
					s.Ordinates[k+1] = length.Length(long * uniform(rng, -0.01, 0.01))
				}
				job.Scribes = append(job.Scribes, s)
			}
		}
		p, err := New(job)
		if err != nil {
			continue
		}
		if _, err := p.Strips(); err == nil {
			return job
		}
	}
}

// The pieces add up to the field, and the strips to the bed less the field, in
// rooms where hardly a wall is like the next.
func TestUnevenRoomsAddUp(t *testing.T) {
	rng := random(t)
	rooms := 60
	if testing.Short() {
		rooms = 15
	}
	for range rooms {
		job := unevenJob(rng)
		addsUp(t, job)
		stripsOf(t, job)
	}
}

// Block by block such rooms are what simplefeatures makes of them.
func TestUnevenRoomsAgainstSimplefeatures(t *testing.T) {
	rng := random(t)
	rooms := 8
	if testing.Short() {
		rooms = 2
	}
	for range rooms {
		compare(t, unevenJob(rng))
	}
}

// The field of a convex room is what lies beyond every wall moved in by its
// own gap and border: an intersection of half-planes, made by simplefeatures.
func TestFieldsOfConvexRooms(t *testing.T) {
	rng := random(t)
	fits := 0
	for range 150 {
		r := cyclic(rng, 3+rng.IntN(7), uniform(rng, 1000, 4000), uniform(rng, 1000, 4000))
		job := Job{Room: r, Gap: 12, Border: length.Length(uniform(rng, 0, 200))}
		by := slices.Repeat([]float64{float64(job.Gap + job.Border)}, len(r))
		for i := range r {
			if rng.IntN(2) == 0 {
				g := length.Length(uniform(rng, 0, 40))
				job.GapAt = append(job.GapAt, AtWall{i, g})
				by[i] += float64(g - job.Gap)
			}
			if rng.IntN(2) == 0 {
				w := length.Length(uniform(rng, 0, 200))
				job.BorderAt = append(job.BorderAt, AtWall{i, w})
				by[i] += float64(w - job.Border)
			}
		}
		left := polygon(t, r)
		for i := range r {
			a, b := r.Edge(i)
			u := b.Sub(a).Times(1 / b.Sub(a).Length())
			n := plane.Point{X: -u.Y, Y: u.X}
			a = a.Add(n.Times(by[i]))
			half := plane.Ring{a.Sub(u.Times(2e4)), a.Add(u.Times(2e4)), a.Add(u.Times(2e4)).Add(n.Times(2e4)), a.Sub(u.Times(2e4)).Add(n.Times(2e4))}
			var err error
			if left, err = geom.Intersection(left, polygon(t, half)); err != nil {
				t.Fatal(err)
			}
		}
		// Whichever way the corners were given.
		if rng.IntN(2) == 0 {
			job.Room = r.Reversed()
			turned := func(list []AtWall) {
				for k := range list {
					list[k].Wall = (2*len(r) - 2 - list[k].Wall) % len(r)
				}
			}
			turned(job.GapAt)
			turned(job.BorderAt)
		}
		p, err := New(job)
		if err != nil {
			fieldErrors(t, err)
			continue
		}
		fits++
		if math.Abs(p.FieldArea()-left.Area()) > 1e-9*r.Area() {
			t.Errorf("a field of %v mm², want %v\njob %+v", p.FieldArea(), left.Area(), job)
		}
	}
	if fits < 75 {
		t.Errorf("only %d of 150 rooms have a field: the test says too little", fits)
	}
}

// A segment of a circle has the area R²/2·(θ - sin θ) (a textbook formula). With
// a chord of 4200 and a rise of 300 the radius is (2100² + 300²)/600 = 7500, and
// half of θ has the sine 0.28, the cosine 0.96: sin θ = 0.5376. Straight pieces
// within 0.05 mm of the arc lose no more than that along it, R·θ = 4256.95.
func TestBowedWall(t *testing.T) {
	theta := 2 * math.Asin(0.28)
	segment := 7500.0 * 7500 / 2 * (theta - 0.5376)
	room := rect(0, 0, 4200, 3600)
	for _, tt := range []struct {
		name string
		room plane.Ring
		rise length.Length
		sign float64
	}{
		{"out of the room", room, 300, 1},
		{"into the room", room, -300, -1},
		{"out of a room given clockwise", ring(4200, 0, 0, 0, 0, 3600, 4200, 3600), 300, 1},
		{"into a room given clockwise", ring(4200, 0, 0, 0, 0, 3600, 4200, 3600), -300, -1},
	} {
		job := Job{Room: tt.room, Bows: []Bow{{0, tt.rise}}}
		p := planOf(t, job)
		less := segment - tt.sign*(roomArea(p)-4200*3600)
		if less < 0 || less > 0.05*7500*theta {
			t.Errorf("%s: %v mm² with the segment of %v, out by %v, want up to %v less", tt.name, roomArea(p), segment, less, 0.05*7500*theta)
		}
		// Its edges are one wall, one after the other.
		for i, wall := range p.RoomWalls()[0] {
			a, b := p.Room()[0].Edge(i)
			if near := a.Y <= 300 && b.Y <= 300; near != (wall == 0) {
				t.Errorf("%s: the edge from %v to %v is of wall %d", tt.name, a, b, wall)
			}
		}
		addsUp(t, job)
	}
}

// Half a circle on a wall is no more and no less: π/2·R².
func TestHalfRoundBay(t *testing.T) {
	p := planOf(t, Job{Room: rect(0, 0, 4200, 3600), Bows: []Bow{{1, 1800}}})
	half := math.Pi / 2 * 1800 * 1800
	if got := roomArea(p) - 4200*3600; got > half || got < half-0.05*math.Pi*1800 {
		t.Errorf("a bay of %v mm², want %v", got, half)
	}
}

// Field case 32: a wall of 29 ft read every ninth of it: 0, 1/8, 5/16, 7/16,
// 9/16, 5/8, 9/16, 3/8, 3/16, 0 in. By the trapezoid rule the strip beyond the
// chord is 348/9 · 3.1875 = 123.25 sq in, so a room 12 ft deep (assumed) has
// 348 · 144 - 123.25 = 49988.75. The same wall behind the chord adds it.
func TestCase32BowedStartWall(t *testing.T) {
	const in, ft = length.Inch, length.Foot
	ordinates := []length.Length{0, in / 8, 5 * in / 16, 7 * in / 16, 9 * in / 16, 5 * in / 8, 9 * in / 16, 3 * in / 8, 3 * in / 16, 0}
	back := make([]length.Length, len(ordinates))
	for i, o := range ordinates {
		back[i] = -o
	}
	room := rect(0, 0, 348*25.4, 144*25.4)
	clockwise := plane.Ring{room[1], room[0], room[3], room[2]}
	for _, tt := range []struct {
		name      string
		room      plane.Ring
		ordinates []length.Length
		want      float64
	}{
		{"into the room", room, ordinates, 49988.75},
		{"back from the room", room, back, 50235.25},
		{"into a room given clockwise", clockwise, ordinates, 49988.75},
	} {
		job := Job{Room: tt.room, Gap: in / 2, Width: 3 * in, Length: 12 * in, Scribes: []Scribe{{0, tt.ordinates}}}
		p := planOf(t, job)
		if got := roomArea(p) / (25.4 * 25.4); math.Abs(got-tt.want) > 1e-6 {
			t.Errorf("%s: %v sq in, want %v", tt.name, got, tt.want)
		}
		addsUp(t, job)
	}
	// The first ordinate is the first corner's: unlike ones from the other end.
	p := planOf(t, Job{Room: room, Scribes: []Scribe{{0, []length.Length{0, 10, 20, 60, 0}}}})
	if !slices.ContainsFunc(p.Room()[0], func(q plane.Point) bool { return q.Sub(plane.Point{X: 348 * 25.4 * 3 / 4, Y: 60}).Length() < 1e-6 }) {
		t.Errorf("no corner 60 in from three quarters of the wall: %v", p.Room()[0])
	}
}

// Walls that run on in one line can have the same gap and border, and where
// they are to differ the outline has the step.
func TestWallsInOneLine(t *testing.T) {
	split := ring(0, 0, 2500, 0, 4200, 0, 4200, 3600, 0, 3600)
	p := planOf(t, Job{Room: split, Gap: 12, GapAt: []AtWall{{0, 10}, {1, 10}}, Border: 100})
	if got, want := p.FieldArea(), float64((4200-224)*(3600-222)); math.Abs(got-want) > 1e-6 {
		t.Errorf("field of %v mm², want %v", got, want)
	}
	// No gap at a threshold from 2500 to 3300, which is drawn 12 mm out, past
	// walls with a gap of 12: the field is (4200-24)·(3600-24), and up to the
	// threshold 12 deep and 800 wide, less a gap of 12 at its own two walls.
	threshold := ring(0, 0, 2500, 0, 2500, -12, 3300, -12, 3300, 0, 4200, 0, 4200, 3600, 0, 3600)
	p = planOf(t, Job{Room: threshold, Gap: 12, GapAt: []AtWall{{2, 0}}})
	if got, want := p.FieldArea(), float64((4200-24)*(3600-24)+(800-24)*24); math.Abs(got-want) > 1e-6 {
		t.Errorf("field with a threshold of %v mm², want %v", got, want)
	}
	// A bend that is enough for a mitre is mitred.
	bent := ring(0, 0, 2100, -100, 4200, 0, 4200, 3600, 0, 3600)
	if _, err := New(Job{Room: bent, Gap: 12, GapAt: []AtWall{{0, 10}}}); err != nil {
		t.Errorf("walls that bend by 5 degrees: %v", err)
	}
}

// A round hole of 350 mm takes π/4 · 350² = 96,211 mm² from the room; the
// circle's corners lie on it and its sides within 0.05 mm, so it is smaller by
// at most 0.05 mm all round. With a gap of 10 the hole in the field is a circle
// of 370.
func TestRoundHoles(t *testing.T) {
	job := Job{Gap: 10, Rounds: []Round{{Centre: plane.Point{X: 2400, Y: 1800}, Diameter: 350}}}
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what           string
		ring           plane.Ring
		diameter, over float64
	}{{"room", p.Room()[1], 350, 0}, {"field", p.Field()[1], 370, 0.05}} {
		area, circle := -c.ring.Area(), math.Pi/4*c.diameter*c.diameter
		if area > circle+c.over*math.Pi*c.diameter || area < circle-0.05*math.Pi*c.diameter {
			t.Errorf("the hole in the %s has %.0f mm², the circle %.0f", c.what, area, circle)
		}
	}
	if got, want := p.Count().Area, p.FieldArea(); math.Abs(got-want) > 1e-9*want {
		t.Errorf("blocks cover %.6f mm², the field is %.6f", got, want)
	}
	job.Rounds[0].Diameter = 0
	var e *FieldError
	if _, err := New(job); !errors.As(err, &e) || e.Key != "column" {
		t.Errorf("a round hole without a size: %v", err)
	}
}
