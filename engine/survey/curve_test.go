package survey

import (
	"math"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// centreOf returns the centre of the circle through three points, by the
// determinant formula for the circumcentre.
func centreOf(a, b, c plane.Point) plane.Point {
	d := 2 * (a.X*(b.Y-c.Y) + b.X*(c.Y-a.Y) + c.X*(a.Y-b.Y))
	aa, bb, cc := a.Dot(a), b.Dot(b), c.Dot(c)
	return plane.Point{
		X: (aa*(b.Y-c.Y) + bb*(c.Y-a.Y) + cc*(a.Y-b.Y)) / d,
		Y: (aa*(c.X-b.X) + bb*(a.X-c.X) + cc*(b.X-a.X)) / d,
	}
}

func TestArc(t *testing.T) {
	for _, tt := range []struct {
		a, b plane.Point
		rise length.Length
	}{
		{plane.Point{}, plane.Point{X: 2400}, 300},
		{plane.Point{X: 100, Y: -50}, plane.Point{X: 3100, Y: 3950}, 16},
		{plane.Point{X: 100, Y: -50}, plane.Point{X: 3100, Y: 3950}, -625},
		{plane.Point{}, plane.Point{Y: 1000}, 500}, // half a circle
		{plane.Point{}, plane.Point{Y: 1000}, -500},
		{plane.Point{}, plane.Point{X: 8839}, 0.3},
		{plane.Point{}, plane.Point{X: 10}, 4},
		{plane.Point{}, plane.Point{X: 10_000_000}, 300},
	} {
		points, err := Arc(tt.a, tt.b, tt.rise)
		if err != nil || len(points) == 0 {
			t.Fatalf("%v: %v, %v", tt, points, err)
		}
		chord := tt.b.Sub(tt.a)
		right := plane.Point{X: chord.Y, Y: -chord.X}.Times(1 / chord.Length())
		top := tt.a.Add(tt.b).Times(0.5).Add(right.Times(float64(tt.rise)))
		centre := centreOf(tt.a.Sub(top), plane.Point{}, tt.b.Sub(top)).Add(top)
		radius := centre.Sub(top).Length()
		all := append(append([]plane.Point{tt.a}, points...), tt.b)
		worst := 0.0
		for i, p := range all {
			if off := math.Abs(p.Sub(centre).Length() - radius); off > 1e-9*radius+1e-9 {
				t.Fatalf("%v: point %v is %g off the circle", tt, p, off)
			}
			if i > 0 {
				middle := p.Add(all[i-1]).Times(0.5)
				worst = max(worst, math.Abs(radius-middle.Sub(centre).Length()))
				if p.Sub(all[i-1]).Dot(chord) <= -1e-9 {
					t.Fatalf("%v: the points go back at %v", tt, p)
				}
				if side := float64(tt.rise) * p.Sub(tt.a).Dot(right); side < -1e-6 {
					t.Fatalf("%v: %v is on the wrong side", tt, p)
				}
			}
		}
		if worst > 0.05*(1+1e-6)+1e-9*radius {
			t.Errorf("%v: a chord is %v mm off", tt, worst)
		}
		// One piece less would be too coarse: s = R(1 - cos(t/2)) for the angle t
		// of a piece.
		half := math.Asin(min(1, chord.Length()/2/radius))
		if coarse := radius * (1 - math.Cos(half/float64(len(points)))); coarse < 0.05 && radius < 1e6 {
			t.Errorf("%v: %d points, and one less would be %v mm off", tt, len(points), coarse)
		}
	}
	// Textbook: a chord of 2400 with a rise of 300 has a radius of (1200² +
	// 300²)/600 = 2550, so its middle lies 2550 from (1200, 2250).
	points, _ := Arc(plane.Point{}, plane.Point{X: 2400}, 300)
	for _, p := range points {
		near(t, "radius", math.Hypot(p.X-1200, p.Y-2250), 2550, 1e-9)
	}
	if points, err := Arc(plane.Point{}, plane.Point{X: 2400}, 0.04); err != nil || points != nil {
		t.Errorf("a rise of nothing: %v, %v", points, err)
	}
	for _, rise := range []length.Length{1201, -1201, length.Length(math.NaN()), length.Length(math.Inf(1))} {
		if points, err := Arc(plane.Point{}, plane.Point{X: 2400}, rise); err == nil {
			t.Errorf("rise %v: %v", rise, points)
		}
	}
	if _, err := Arc(plane.Point{X: 5}, plane.Point{X: 5}, 1); err == nil {
		t.Error("an arc over nothing")
	}
}

func TestCircle(t *testing.T) {
	for _, radius := range []length.Length{0.01, 1, 75, 400, 5000} {
		ring, err := Circle(plane.Point{X: 1000, Y: -200}, radius)
		if err != nil {
			t.Fatal(err)
		}
		if flaw, _, _ := ring.Check(); radius > 1 && flaw != plane.Sound || ring.Area() <= 0 {
			t.Errorf("radius %v: flaw %v, area %v", radius, flaw, ring.Area())
		}
		for i := range ring {
			a, b := ring.Edge(i)
			near(t, "on the circle", math.Hypot(a.X-1000, a.Y+200), float64(radius), 1e-9)
			middle := a.Add(b).Times(0.5)
			if off := float64(radius) - math.Hypot(middle.X-1000, middle.Y+200); off > 0.05*(1+1e-6) {
				t.Errorf("radius %v: a side is %v off", radius, off)
			}
		}
		// A circle is larger than its outline by less than a rim of 0.05 mm.
		whole := math.Pi * float64(radius*radius)
		if ring.Area() > whole || ring.Area() < whole-0.05*2*math.Pi*float64(radius) {
			t.Errorf("radius %v: area %v of %v", radius, ring.Area(), whole)
		}
	}
	for _, radius := range []length.Length{0, -5, length.Length(math.NaN()), length.Length(math.Inf(1))} {
		if ring, err := Circle(plane.Point{}, radius); err == nil {
			t.Errorf("radius %v: %v", radius, ring)
		}
	}
}

// A wall of 29 ft with a bow of 5/8 in; the ordinates, every 3 ft of a string
// of 27 ft, in sixteenths.
func TestBowedStartWall(t *testing.T) {
	const in, ft = length.Inch, length.Foot
	var ordinates []length.Length
	for _, n := range []float64{0, 2, 5, 7, 9, 10, 9, 6, 3, 0} {
		ordinates = append(ordinates, length.Length(n)*in/16)
	}
	points, err := Scribe(plane.Point{}, plane.Point{X: float64(27 * ft)}, ordinates)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range points {
		near(t, "along the string", p.X, float64(i)*float64(3*ft), 1e-9)
		near(t, "into the room", p.Y, float64(ordinates[i]), 1e-12)
	}
	// With a gap of 1/2 in the row's line lies 1-1/8 in off the string.
	line, offsets, narrowest := ScribeLine(ordinates, in/2)
	near(t, "line", float64(line), float64(in+in/8), 1e-12)
	if narrowest != 5 {
		t.Errorf("narrowest at %d, want at 15 ft", narrowest)
	}
	for i, sixteenths := range []length.Length{18, 16, 13, 11, 9, 8, 9, 12, 15, 18} {
		near(t, "offset", float64(offsets[i]), float64(sixteenths*in/16), 1e-12)
	}
	// Into a room that runs counter-clockwise, whichever way the wall lies.
	points, err = Scribe(plane.Point{X: 100, Y: 3000}, plane.Point{X: 100}, []length.Length{5, 20, -3})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []plane.Point{{X: 105, Y: 3000}, {X: 120, Y: 1500}, {X: 97}} {
		if points[i].Sub(want).Length() > 1e-9 {
			t.Errorf("point %d = %v, want %v", i, points[i], want)
		}
	}
	for _, bad := range [][]length.Length{nil, {1}, {1, length.Length(math.NaN())}, {1, 1e9}} {
		if points, err := Scribe(plane.Point{}, plane.Point{X: 3000}, bad); err == nil {
			t.Errorf("%v: %v", bad, points)
		}
	}
}
