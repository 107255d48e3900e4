package plane

import (
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
)

var seedFlag = flag.Uint64("seed", 1, "seed of the random shapes")

// random returns the source of a test's random shapes, and prints the seed if
// the test fails.
func random(t *testing.T) *rand.Rand {
	seed := *seedFlag
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("run again with -seed=%d", seed)
		}
	})
	return rand.New(rand.NewPCG(seed, 0))
}

func all(by float64, n int) []float64 { return slices.Repeat([]float64{by}, n) }

// sameRing compares corner by corner, first corner included.
func sameRing(a, b Ring) bool {
	return slices.EqualFunc(a, b, func(p, q Point) bool { return p.Sub(q).Length() < 1e-9 })
}

func TestInset(t *testing.T) {
	room := Ring{{0, 0}, {4200, 0}, {4200, 3600}, {0, 3600}}
	l := Ring{{0, 0}, {5200, 0}, {5200, 3100}, {2100, 3100}, {2100, 4600}, {0, 4600}}
	// A 30 mm chamfer, at 45 degrees, of the far right corner.
	chamfered := Ring{{0, 0}, {4200, 0}, {4200, 3570}, {4170, 3600}, {0, 3600}}
	for _, tt := range []struct {
		name  string
		ring  Ring
		by    []float64
		want  Ring
		edges []int
	}{
		{"rectangle", room, all(12, 4), Ring{{12, 12}, {4188, 12}, {4188, 3588}, {12, 3588}}, []int{0, 1, 2, 3}},
		{"by nothing", room, all(0, 4), room, []int{0, 1, 2, 3}},
		{"each wall its own", room, []float64{10, 20, 30, 0}, Ring{{0, 10}, {4180, 10}, {4180, 3570}, {0, 3570}}, []int{0, 1, 2, 3}},
		{"L", l, all(100, 6), Ring{{100, 100}, {5100, 100}, {5100, 3000}, {2000, 3000}, {2000, 4500}, {100, 4500}}, []int{0, 1, 2, 3, 4, 5}},
		{"hole grows", Ring{{1000, 1000}, {1000, 1400}, {1800, 1400}, {1800, 1000}}, all(12, 4),
			Ring{{988, 988}, {988, 1412}, {1812, 1412}, {1812, 988}}, []int{0, 1, 2, 3}},
		{"a corner in the middle of a wall stays", Ring{{0, 0}, {2000, 0}, {4200, 0}, {4200, 3600}, {0, 3600}}, all(12, 5),
			Ring{{12, 12}, {2000, 12}, {4188, 12}, {4188, 3588}, {12, 3588}}, []int{0, 1, 2, 3, 4}},
		// Moved in by d, the chamfer loses (4 - 2*sqrt 2)*d / sqrt 2 of its
		// leg of 30 by the 45-45-90 triangle: at 10 mm 11.715728752538 of it.
		{"chamfer gets shorter", chamfered, all(10, 5), Ring{{10, 10}, {4190, 10},
			{4190, 3570 - 10*(math.Sqrt2-1)}, {4170 - 10*(math.Sqrt2-1), 3590}, {10, 3590}}, []int{0, 1, 2, 3, 4}},
		// At d = 30/(2 - sqrt 2) = 51.2 mm the chamfer is used up.
		{"chamfer still there at 51 mm", chamfered, all(51, 5), Ring{{51, 51}, {4149, 51},
			{4149, 3570 - 51*(math.Sqrt2-1)}, {4170 - 51*(math.Sqrt2-1), 3549}, {51, 3549}}, []int{0, 1, 2, 3, 4}},
		{"chamfer used up at 52 mm", chamfered, all(52, 5), Ring{{52, 52}, {4148, 52}, {4148, 3548}, {52, 3548}}, []int{0, 1, 3, 4}},
		{"chamfer long gone", chamfered, all(1000, 5), Ring{{1000, 1000}, {3200, 1000}, {3200, 2600}, {1000, 2600}}, []int{0, 1, 3, 4}},
		// Two chamfers at one corner, both used up.
		{"rounded corner used up", Ring{{0, 0}, {4200, 0}, {4200, 3570}, {4191, 3591}, {4170, 3600}, {0, 3600}}, all(200, 6),
			Ring{{200, 200}, {4000, 200}, {4000, 3400}, {200, 3400}}, []int{0, 1, 4, 5}},
		{"alcove wide enough", Ring{{0, 0}, {4200, 0}, {4200, 3600}, {2600, 3600}, {2600, 4000}, {2000, 4000}, {2000, 3600}, {0, 3600}}, all(127, 8),
			Ring{{127, 127}, {4073, 127}, {4073, 3473}, {2473, 3473}, {2473, 3873}, {2127, 3873}, {2127, 3473}, {127, 3473}}, []int{0, 1, 2, 3, 4, 5, 6, 7}},
		// Heron's triangle 13-14-15 has an inscribed circle of 84/21 = 4;
		// moved in by 1 it is the same triangle at three quarters.
		{"triangle 13-14-15 at three quarters", Ring{{0, 0}, {14, 0}, {5, 12}}, all(1, 3),
			Ring{{1.5, 1}, {12, 1}, {5.25, 10}}, []int{0, 1, 2}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, edges, err := tt.ring.Inset(tt.by)
			if err != nil || !sameRing(got, tt.want) || !slices.Equal(edges, tt.edges) {
				t.Errorf("Inset(%v) = %v, %v, %v, want %v, %v", tt.by, got, edges, err, tt.want, tt.edges)
			}
		})
	}
}

func TestInsetRefused(t *testing.T) {
	alcove := Ring{{0, 0}, {4200, 0}, {4200, 3600}, {2600, 3600}, {2600, 4000}, {2000, 4000}, {2000, 3600}, {0, 3600}}
	for _, tt := range []struct {
		name  string
		ring  Ring
		by    []float64
		edges []int // any order
		all   bool
	}{
		{"alcove of 600 mm, twice 301", alcove, all(301, 8), []int{3, 4, 5}, false},
		{"alcove of 600 mm, twice 300", alcove, all(300, 8), []int{3, 4, 5}, false},
		{"alcove of 600 mm, 400 and 201", alcove, []float64{12, 12, 12, 400, 12, 201, 12, 12}, []int{3, 4, 5}, false},
		{"corridor between two rooms", Ring{{0, 0}, {3000, 0}, {3000, 1000}, {4000, 1000}, {4000, 0}, {7000, 0},
			{7000, 3000}, {4000, 3000}, {4000, 1200}, {3000, 1200}, {3000, 3000}, {0, 3000}}, all(101, 12), []int{2, 8}, false},
		{"room of 3600 mm, twice 1801", Ring{{0, 0}, {4200, 0}, {4200, 3600}, {0, 3600}}, all(1801, 4), nil, true},
		{"room of 3600 mm, twice 1800", Ring{{0, 0}, {4200, 0}, {4200, 3600}, {0, 3600}}, all(1800, 4), nil, true},
		{"far more than the room", Ring{{0, 0}, {4200, 0}, {4200, 3600}, {0, 3600}}, all(100000, 4), nil, true},
		// The inscribed circle of the triangle 13-14-15 is 84/21 = 4.
		{"triangle 13-14-15 by its inscribed circle", Ring{{0, 0}, {14, 0}, {5, 12}}, all(4, 3), nil, true},
		{"triangle 13-14-15 by more", Ring{{0, 0}, {14, 0}, {5, 12}}, all(5, 3), nil, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, _, err := tt.ring.Inset(tt.by)
			var tight *InsetError
			if !errors.As(err, &tight) {
				t.Fatalf("Inset(%v) = %v, %v, want an *InsetError", tt.by, got, err)
			}
			edges := slices.Sorted(slices.Values(tight.Edges))
			if tight.All != tt.all || !tt.all && !slices.Equal(edges, tt.edges) {
				t.Errorf("Inset(%v): edges %v, all %v, want %v, %v", tt.by, edges, tight.All, tt.edges, tt.all)
			}
			if tight.Error() == "" {
				t.Error("the error says nothing")
			}
		})
	}
}

// polygon returns a ring in the terms of simplefeatures, the reference here
// for what insets should be.
func polygon(t testing.TB, r Ring) geom.Geometry {
	t.Helper()
	var xy []float64
	for _, p := range append(slices.Clone(r), r[0]) {
		xy = append(xy, p.X, p.Y)
	}
	g := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))}).AsGeometry()
	if err := g.Validate(); err != nil {
		t.Fatalf("%v is not a polygon: %v", r, err)
	}
	return g
}

// cyclic returns a convex ring: corners on an ellipse.
func cyclic(rng *rand.Rand, corners int, a, b float64) Ring {
	angles := make([]float64, corners)
	for i := range angles {
		angles[i] = (float64(i) + 0.9*rng.Float64()) / float64(corners) * 2 * math.Pi
	}
	var r Ring
	for _, angle := range angles {
		r = append(r, Point{a * math.Cos(angle), b * math.Sin(angle)})
	}
	return r
}

// A convex room less a strip along every wall is the part of the plane that
// lies beyond all the moved walls.
func TestInsetOfConvexRooms(t *testing.T) {
	rng := random(t)
	fits := 0
	for range 300 {
		r := cyclic(rng, 3+rng.IntN(9), 1000+2000*rng.Float64(), 1000+2000*rng.Float64())
		by := all(rng.Float64()*600, len(r))
		if rng.IntN(2) == 0 {
			for i := range by {
				by[i] *= 0.6 + 0.4*rng.Float64()
			}
		}
		left := polygon(t, r)
		for i := range r {
			a, b := r.Edge(i)
			u := b.Sub(a).Times(1 / b.Sub(a).Length())
			n := Point{-u.Y, u.X}
			a = a.Add(n.Times(by[i]))
			half := Ring{a.Sub(u.Times(2e4)), a.Add(u.Times(2e4)), a.Add(u.Times(2e4)).Add(n.Times(2e4)), a.Sub(u.Times(2e4)).Add(n.Times(2e4))}
			var err error
			if left, err = geom.Intersection(left, polygon(t, half)); err != nil {
				t.Fatal(err)
			}
		}
		inset, edges, err := r.Inset(by)
		var tight *InsetError
		if errors.As(err, &tight) {
			if left.Area() > 1e-3 || !tight.All {
				t.Errorf("%v.Inset(%v): %+v, but the moved walls leave %v mm²", r, by, tight, left.Area())
			}
			continue
		}
		fits++
		if math.Abs(inset.Area()-left.Area()) > 1e-9*r.Area() {
			t.Errorf("%v.Inset(%v) = %v of %v mm², want %v mm²", r, by, inset, inset.Area(), left.Area())
		}
		if len(edges) != len(inset) {
			t.Errorf("%d edges for %d corners", len(edges), len(inset))
		}
	}
	if fits < 100 {
		t.Errorf("only %d of 300 insets fit: the test says too little", fits)
	}
}

// The area that is left of a convex room while no wall is used up: the area
// less the perimeter times d plus d² for each corner's tan of half its turn
// (Steiner's formula for mitred corners).
func TestInsetAreaOfConvexRooms(t *testing.T) {
	rng := random(t)
	compared := 0
	for range 300 {
		r := cyclic(rng, 3+rng.IntN(9), 1000+2000*rng.Float64(), 1000+2000*rng.Float64())
		d := 40 * rng.Float64()
		inset, edges, err := r.Inset(all(d, len(r)))
		if err != nil || len(edges) < len(r) {
			continue
		}
		compared++
		want := r.Area() - r.Perimeter()*d
		for i := range r {
			a, b := r.Edge(i)
			_, c := r.Edge(i + 1)
			u, v := b.Sub(a), c.Sub(b)
			want += d * d * math.Tan(math.Atan2(u.Cross(v), u.Dot(v))/2)
		}
		if math.Abs(inset.Area()-want) > 1e-9*r.Area() {
			t.Errorf("%v.Inset(%v): area %v, want %v", r, d, inset.Area(), want)
		}
	}
	if compared < 100 {
		t.Errorf("only %d of 300 rooms keep all walls: the test says too little", compared)
	}
}

// staircase returns a room with square corners: under a skyline of random
// heights, over a floor line of random depths.
func staircase(rng *rand.Rand) Ring {
	n := 1 + rng.IntN(6)
	x := 0.0
	var low, high Ring
	for range n {
		w := 50 + 1500*rng.Float64()
		bottom, top := -200-1500*rng.Float64(), 200+1500*rng.Float64()
		low = append(low, Point{x, bottom}, Point{x + w, bottom})
		high = append(high, Point{x, top}, Point{x + w, top})
		x += w
	}
	return append(low, high.Reversed()...)
}

// turns counts the corners of a closed line with square corners.
func turns(line geom.Sequence) int {
	count := 0
	n := line.Length() - 1
	for i := range n {
		a, b, c := line.GetXY(i), line.GetXY((i+1)%n), line.GetXY((i+2)%n)
		if u, v := b.Sub(a), c.Sub(b); math.Abs(u.Cross(v)) > 1e-6*u.Length()*v.Length() && min(u.Length(), v.Length()) > 1e-6 {
			count++
		}
	}
	return count
}

// In a room with square corners a strip along the walls is what a square
// twice as wide covers when its middle runs along the walls.
func TestInsetOfSquareCorneredRooms(t *testing.T) {
	rng := random(t)
	fits := 0
	for range 200 {
		r := staircase(rng)
		d := 250 * rng.Float64() * rng.Float64()
		left := polygon(t, r)
		for i := range r {
			a, b := r.Edge(i)
			low, high := Ring{a, b}.Box()
			low, high = low.Sub(Point{d, d}), high.Add(Point{d, d})
			var err error
			if left, err = geom.Difference(left, polygon(t, Ring{low, {high.X, low.Y}, high, {low.X, high.Y}})); err != nil {
				t.Fatal(err)
			}
		}
		inset, edges, err := r.Inset(all(d, len(r)))
		whole := left.IsPolygon() && left.MustAsPolygon().NumRings() == 1
		if err != nil {
			// A recess may be lost although one field is left: then the
			// field has fewer walls than the room.
			if whole && turns(left.MustAsPolygon().ExteriorRing().Coordinates()) >= len(r) {
				t.Errorf("%v.Inset(%v): %v, but the field has all walls: %v", r, d, err, left.AsText())
			}
			continue
		}
		fits++
		if !whole || math.Abs(inset.Area()-left.Area()) > 1e-9*r.Area() || len(edges) != len(r) {
			t.Errorf("%v.Inset(%v) = %v of %v mm², want %v of %v mm²", r, d, inset, inset.Area(), left.AsText(), left.Area())
		}
	}
	if fits < 60 {
		t.Errorf("only %d of 200 insets fit: the test says too little", fits)
	}
}

// star returns a ring seen whole from the origin.
func star(rng *rand.Rand, corners int) Ring {
	r := cyclic(rng, corners, 1, 1)
	for i := range r {
		r[i] = r[i].Times(800 + 2500*rng.Float64())
	}
	return r
}

// Whatever the room: an inset is a sound ring the same way round, each wall
// at its distance from the wall it comes from and running the same way, and
// inside the room.
func TestInsetOfAnyRoom(t *testing.T) {
	rng := random(t)
	fits := 0
	for range 2000 {
		r := star(rng, 3+rng.IntN(12))
		if rng.IntN(4) == 0 {
			r = r.Reversed() // a hole, which grows
		}
		if flaw, _, _ := r.Check(); flaw != Sound {
			continue
		}
		by := make([]float64, len(r))
		for i := range by {
			by[i] = 200 * rng.Float64() * rng.Float64()
		}
		inset, edges, err := r.Inset(by)
		if err != nil {
			continue
		}
		fits++
		if flaw, i, j := inset.Check(); flaw != Sound || (inset.Area() > 0) != (r.Area() > 0) || inset.Area() > r.Area() {
			t.Errorf("%v.Inset(%v) = %v: flaw %v at %d, %d, area %v of %v", r, by, inset, flaw, i, j, inset.Area(), r.Area())
		}
		for k, i := range edges {
			a, b := r.Edge(i)
			p, q := inset.Edge(k)
			u := b.Sub(a).Times(1 / b.Sub(a).Length())
			if math.Abs(u.Cross(p.Sub(a))-by[i]) > 1e-6 || math.Abs(u.Cross(q.Sub(a))-by[i]) > 1e-6 || u.Dot(q.Sub(p)) <= 0 {
				t.Errorf("%v.Inset(%v) = %v: edge %d is not edge %d moved by %v", r, by, inset, k, i, by[i])
			}
		}
		if r.Area() > 0 {
			for i, p := range inset {
				if !Inside(p, r) {
					t.Errorf("%v.Inset(%v) = %v: corner %d lies outside", r, by, inset, i)
				}
			}
		}
	}
	if fits < 500 {
		t.Errorf("only %d of 2000 insets fit: the test says too little", fits)
	}
}
