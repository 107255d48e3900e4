package survey

import (
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

var seed = flag.Uint64("seed", 345, "seed of the random rooms")

func random(t testing.TB) *rand.Rand {
	t.Logf("seed %d", *seed)
	return rand.New(rand.NewPCG(*seed, 0))
}

// outline returns the ring with the given coordinates, x and y in turn.
func outline(xy ...float64) (ring plane.Ring) {
	for i := 0; i < len(xy); i += 2 {
		ring = append(ring, plane.Point{X: xy[i], Y: xy[i+1]})
	}
	return ring
}

// taped returns the exact readings of all walls of a room and of the given
// diagonals.
func taped(room plane.Ring, diagonals ...[2]int) (readings []Reading) {
	var lines [][2]int
	for i := range room {
		lines = append(lines, [2]int{i, (i + 1) % len(room)})
	}
	for _, d := range append(lines, diagonals...) {
		readings = append(readings, Reading{d[0], d[1], length.Length(room[d[1]].Sub(room[d[0]]).Length())})
	}
	return readings
}

// fromAB returns a room with A at the origin and B on the x axis.
func fromAB(room plane.Ring) plane.Ring {
	u := room[1].Sub(room[0])
	u = u.Times(1 / u.Length())
	out := make(plane.Ring, len(room))
	for i, p := range room {
		d := p.Sub(room[0])
		out[i] = plane.Point{X: d.Dot(u), Y: u.Cross(d)}
	}
	return out
}

// furthest returns the largest distance between corners of two rooms.
func furthest(a, b plane.Ring) (most float64) {
	for i := range a {
		most = max(most, a[i].Sub(b[i]).Length())
	}
	return most
}

// quadrilaterals are out of square rooms with their exact areas. Sides,
// diagonals and angles were computed from the corners with 40-digit
// arithmetic; the areas by the shoelace formula with exact fractions and,
// agreeing to 18 figures, by Bretschneider's formula with diagonals p and q:
// (1/4) sqrt(4 p² q² - (b² + d² - a² - c²)²).
var quadrilaterals = []struct {
	corners    plane.Ring
	sides      [4]length.Length
	p, q       length.Length // AC and BD
	angleA     float64
	angleC     float64
	area       float64
	bound      float64 // Brahmagupta: largest area with these sides
	meanSides  float64 // product of the means of opposite sides
	inTheBound float64 // tolerance of the two
}{
	{outline(0, 0, 4000, 0, 4040, 3000, -25, 3020),
		[4]length.Length{4000, 3000.2666548159, 4065.0492001943, 3020.1034750485},
		5032.0572333788, 5032.0000993641, 90.4742919767, 89.5179973187, 12137900, 12137900.02748, 12138645.325184, 1e-4},
	{outline(0, 0, 5000, 30, 4960, 3550, 20, 3500),
		[4]length.Length{5000.08999919, 3520.2272653907, 4940.2530299571, 3500.0571423907},
		6099.516374271, 6069.7034523937, 89.3288285573, 90.0711633853, 17445100, 17445339.15053458, 17446008.79388, 1e-4},
	{outline(0, 0, 6, 0, 7, 4, 1, 5),
		[4]length.Length{6, 4.1231056256177, 6.0827625302982, 5.0990195135928},
		8.0622577482985, 7.0710678118655, 78.690067526, 85.4260787401, 27.5, 27.76505495078215, 27.857187020443, 1e-9},
	{outline(0, 0, 3600, -45, 3650, 4210, 40, 4180),
		[4]length.Length{3600.2812390145, 4255.2937618924, 3610.1246515875, 4180.1913831785},
		5571.947594872, 5524.8733017147, 90.1678917092, 88.8506238302, 15204425, 15204982.73430213, 15205817.945026, 1e-4},
	{outline(0, 0, 12, 0, 12.5, 9.75, -0.25, 10),
		[4]length.Length{12, 9.7628120948833, 12.752450744857, 10.003124511871},
		15.852838862488, 15.813364600868, 91.4320961842, 88.1876292677, 3911.0 / 32, 122.2194232930694, 122.31384307116, 1e-9},
}

func TestSolveAgreesWithBretschneider(t *testing.T) {
	for _, tt := range quadrilaterals {
		for name, diagonals := range map[string][]Reading{
			"AC": {{0, 2, tt.p}}, "BD": {{3, 1, tt.q}}, "both": {{2, 0, tt.p}, {1, 3, tt.q}},
		} {
			readings := []Reading{{0, 1, tt.sides[0]}, {2, 1, tt.sides[1]}, {2, 3, tt.sides[2]}, {3, 0, tt.sides[3]}}
			readings = append(readings, diagonals...)
			got, err := Solve(4, readings, DefaultLimit)
			if err != nil {
				t.Fatalf("%v, %s: %v", tt.corners, name, err)
			}
			// The readings have 10 decimals, so corners are good to about that.
			if off := furthest(got.Outline, fromAB(tt.corners)); off > 1e-8 {
				t.Errorf("%v, %s: corners %v, off by %g", tt.corners, name, got.Outline, off)
			}
			if math.Abs(got.Outline.Area()/tt.area-1) > 1e-11 {
				t.Errorf("%v, %s: area %v, want %v", tt.corners, name, got.Outline.Area(), tt.area)
			}
			if want := len(diagonals) - 1; got.Surplus != want || len(got.Either) != 0 {
				t.Errorf("%v, %s: surplus %d, either %v, want %d, none", tt.corners, name, got.Surplus, got.Either, want)
			}
			sides := tt.sides
			s := float64(sides[0]+sides[1]+sides[2]+sides[3]) / 2
			bound := math.Sqrt((s - float64(sides[0])) * (s - float64(sides[1])) * (s - float64(sides[2])) * (s - float64(sides[3])))
			if math.Abs(bound-tt.bound) > tt.inTheBound || got.Outline.Area() > tt.bound {
				t.Errorf("%v: area %v, largest with these sides %v, want %v", tt.corners, got.Outline.Area(), bound, tt.bound)
			}
		}
	}
}

func TestReportAgreesWithTheTable(t *testing.T) {
	for _, tt := range quadrilaterals {
		r := ReportOf(tt.corners)
		near := func(what string, got, want, within float64) {
			t.Helper()
			if math.Abs(got-want) > within {
				t.Errorf("%v: %s %v, want %v", tt.corners, what, got, want)
			}
		}
		near("angle A", r.Corners[0].Angle, tt.angleA, 6e-11)
		near("angle C", r.Corners[2].Angle, tt.angleC, 6e-11)
		near("area", r.Area, tt.area, 1e-9*tt.area)
		near("AC", float64(r.Diagonals[0]), float64(tt.p), 1e-9)
		near("BD", float64(r.Diagonals[1]), float64(tt.q), 1e-9)
		for i, side := range tt.sides {
			near("side "+WallName(i, 4), float64(r.Walls[i]), float64(side), 1e-9)
		}
		near("mean of sides", float64((r.Walls[0]+r.Walls[2])*(r.Walls[1]+r.Walls[3]))/4, tt.meanSides, 1e-6)
	}
}

func TestSolveAgreesWithHeron(t *testing.T) {
	for _, tt := range []struct {
		a, b, c length.Length
		area    float64
		source  string
	}{
		{13, 14, 15, 84, "Heron, Metrica I 8"},
		{7, 8, 9, 26.832815729997476357, "Heron, Metrica I: square root of 720"},
		{51, 52, 53, 1170, "s = 78: sqrt(78 27 26 25)"},
		{3000, 4000, 5005, 5999986.9661284213076, "Heron's formula with 40 digits"},
		{3.25, 4.1, 5.6, 6.5874992587760493804, "Heron's formula with 40 digits"},
		{5000, 5000, 0.001, 2.4999999999999875, "half of 0.001 times sqrt(5000² - 0.0005²)"},
	} {
		got, err := Solve(3, []Reading{{0, 1, tt.a}, {1, 2, tt.b}, {2, 0, tt.c}}, DefaultLimit)
		if err != nil || math.Abs(got.Outline.Area()/tt.area-1) > 1e-11 {
			t.Errorf("%v %v %v (%s): %v, %v, want area %v", tt.a, tt.b, tt.c, tt.source, got, err, tt.area)
		}
	}
}

func TestNames(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{CornerName(0), "A"}, {CornerName(25), "Z"}, {CornerName(26), "A2"}, {CornerName(52), "A3"},
		{WallName(3, 4), "DA"}, {WallName(0, 4), "AB"},
		{LineName(0, 3, 4), "DA"}, {LineName(3, 0, 4), "DA"}, {LineName(2, 1, 4), "BC"},
		{LineName(2, 0, 4), "AC"}, {LineName(3, 1, 4), "BD"}, {LineName(0, 2, 3), "CA"}, {LineName(2, 0, 3), "CA"},
	} {
		if tt.got != tt.want {
			t.Errorf("name %q, want %q", tt.got, tt.want)
		}
	}
}

// Areas by the shoelace formula, by hand: 5200 x 3100 + 2100 x 1500, and 4500 x
// 4000 less two corners of 1200 x 1200 / 2.
func TestSolveInnerCornersAndBays(t *testing.T) {
	ell := outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	bay := outline(0, 0, 4500, 0, 4500, 2800, 3300, 4000, 1200, 4000, 0, 2800)
	// A chimney breast on AB and a U round a courtyard.
	breast := outline(0, 0, 1500, 0, 1500, 400, 3000, 400, 3000, 0, 4500, 0, 4500, 3600, 0, 3600)
	for _, tt := range []struct {
		name      string
		room      plane.Ring
		area      float64
		diagonals [][2]int
	}{
		{"L from A", ell, 19270000, [][2]int{{0, 2}, {0, 3}, {0, 4}}},
		{"L from B and D", ell, 19270000, [][2]int{{1, 3}, {1, 5}, {3, 5}}},
		{"L, only D sees all", ell, 19270000, [][2]int{{3, 0}, {3, 1}, {3, 5}}},
		{"bay from A", bay, 16560000, [][2]int{{0, 2}, {0, 3}, {0, 4}}},
		{"bay, strips", bay, 16560000, [][2]int{{0, 2}, {2, 5}, {3, 5}}},
		{"chimney breast", breast, 4500*3600 - 1500*400, [][2]int{{2, 0}, {2, 7}, {3, 7}, {3, 6}, {3, 5}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for turn := range tt.room { // whatever corner is called A
				n := len(tt.room)
				room := slices.Concat(tt.room[turn:], tt.room[:turn])
				var diagonals [][2]int
				for _, d := range tt.diagonals {
					diagonals = append(diagonals, [2]int{(d[0] - turn + n) % n, (d[1] - turn + n) % n})
				}
				got, err := Solve(n, taped(room, diagonals...), DefaultLimit)
				if err != nil {
					t.Fatal(err)
				}
				if off := furthest(got.Outline, fromAB(room)); off > 1e-6 || math.Abs(got.Outline.Area()-tt.area) > 1e-2 {
					t.Errorf("turned by %d: %v, off by %g, area %v", turn, got.Outline, off, got.Outline.Area())
				}
				if len(got.Either) > 0 {
					t.Errorf("turned by %d: either %v", turn, got.Either)
				}
			}
		})
	}
}

func TestSolveAsksForInnerCorners(t *testing.T) {
	// BD lies outside this room, taped over a low wall, so C may lie either way.
	dart := outline(0, 0, 4000, 0, 1200, 1000, 0, 4000)
	readings := taped(dart, [2]int{1, 3})
	got, err := Solve(4, readings, DefaultLimit)
	if err != nil || reflex(got.Outline, 2) {
		t.Errorf("without a word: %v, %v, want C outward", got, err)
	}
	got, err = Solve(4, readings, DefaultLimit, 2)
	if err != nil || furthest(got.Outline, dart) > 1e-6 {
		t.Errorf("with C inner: %v, %v, want %v", got, err, dart)
	}
	if _, err = Solve(4, readings, DefaultLimit, 0); err == nil {
		t.Error("A can be an inner corner")
	}
	// A surplus reading tells.
	got, err = Solve(4, taped(dart, [2]int{1, 3}, [2]int{0, 2}), DefaultLimit)
	if err != nil || furthest(got.Outline, dart) > 1e-6 {
		t.Errorf("with AC: %v, %v, want %v", got, err, dart)
	}
	// D of this L is held by its two walls only: the tape cannot tell the side.
	ell := outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	readings = taped(ell, [2]int{0, 2}, [2]int{1, 5}, [2]int{0, 4})
	got, err = Solve(6, readings, DefaultLimit)
	if err != nil || !slices.Equal(got.Either, []int{3}) {
		t.Fatalf("L: either %v, %v, want D on either side", got.Either, err)
	}
	got, err = Solve(6, readings, DefaultLimit, 3)
	if err != nil || furthest(got.Outline, ell) > 1e-6 || len(got.Either) != 0 {
		t.Errorf("L with D inner: %+v, %v", got, err)
	}
}

// randomRoom returns a simple room of n corners, many of them inner, by
// radii from its middle that differ.
func randomRoom(r *rand.Rand, n int) plane.Ring {
	for {
		room := make(plane.Ring, n)
		for i := range room {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.6*r.Float64()) / float64(n))
			room[i] = plane.Point{X: cos, Y: sin}.Times(1500 + 4000*r.Float64())
		}
		if flaw, _, _ := room.Check(); flaw == plane.Sound && room.Area() > 0 {
			return room
		}
	}
}

// inside says whether a diagonal lies well within a room, so that it can be
// taped.
func inside(room plane.Ring, i, j int) bool {
	n := len(room)
	if i == j || (i+1)%n == j || (j+1)%n == i {
		return false
	}
	for e := range room {
		f := (e + 1) % n
		if e == i || e == j || f == i || f == j {
			continue
		}
		if plane.EdgesTouch(room[e], room[f], room[i], room[j]) {
			return false
		}
	}
	return plane.Inside(room[i].Add(room[j]).Times(0.5), room)
}

// triangulated returns diagonals that cut a room into triangles, by cutting
// off ears, and whether no triangle is so thin that tape errors blow up.
func triangulated(room plane.Ring) (diagonals [][2]int, fat bool) {
	left := make([]int, len(room))
	for i := range left {
		left[i] = i
	}
	fat = true
	for len(left) > 3 {
		best, sharpest := -1, 0.0
		for k := range left {
			m := len(left)
			a, b, c := left[(k+m-1)%m], left[k], left[(k+1)%m]
			if !inside(room, a, c) {
				continue
			}
			p, q := room[b].Sub(room[a]), room[c].Sub(room[b])
			if turn := p.Cross(q) / (p.Length() * q.Length()); turn > sharpest {
				best, sharpest = k, turn
			}
		}
		if best < 0 {
			return nil, false
		}
		m := len(left)
		diagonals = append(diagonals, [2]int{left[(best+m-1)%m], left[(best+1)%m]})
		fat = fat && sharpest > 0.3
		left = slices.Delete(left, best, best+1)
	}
	p, q := room[left[1]].Sub(room[left[0]]), room[left[2]].Sub(room[left[1]])
	return diagonals, fat && p.Cross(q)/(p.Length()*q.Length()) > 0.3
}

// surveyed returns a random room with the diagonals that fix it and up to
// surplus further ones.
func surveyed(r *rand.Rand, n, surplus int) (room plane.Ring, diagonals [][2]int) {
	for {
		room = randomRoom(r, n)
		diagonals, fat := triangulated(room)
		if !fat {
			continue
		}
		for range 200 {
			i, j := r.IntN(n), r.IntN(n)
			if surplus > 0 && inside(room, i, j) && !slices.Contains(diagonals, [2]int{i, j}) && !slices.Contains(diagonals, [2]int{j, i}) {
				diagonals = append(diagonals, [2]int{i, j})
				surplus--
			}
		}
		if surplus == 0 {
			return room, diagonals
		}
		return surveyed(r, n, surplus)
	}
}

func TestSolveRecoversRandomRooms(t *testing.T) {
	r := random(t)
	for range 300 {
		n := 4 + r.IntN(9)
		surplus := 0
		if n > 5 {
			surplus = r.IntN(3)
		}
		room, diagonals := surveyed(r, n, surplus)
		readings := taped(room, diagonals...)
		r.Shuffle(len(readings), func(i, j int) { readings[i], readings[j] = readings[j], readings[i] })
		got, err := Solve(n, readings, DefaultLimit)
		if err != nil {
			t.Fatalf("%v with %v: %v", room, diagonals, err)
		}
		if off := furthest(got.Outline, fromAB(room)); off > 1e-6 {
			t.Fatalf("%v with %v: %v, off by %g", room, diagonals, got.Outline, off)
		}
		if got.Surplus != surplus {
			t.Fatalf("surplus %d, want %d", got.Surplus, surplus)
		}
	}
}

func TestSolveTakesTheLargestRoom(t *testing.T) {
	// A polygon round a circle, all diagonals from every other corner.
	room := make(plane.Ring, MaxCorners)
	for i := range room {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / MaxCorners)
		room[i] = plane.Point{X: 8000 * cos, Y: 8000 * sin}
	}
	var diagonals [][2]int
	for i := range MaxCorners {
		for j := i + 2; j < MaxCorners; j++ {
			if i > 0 || j < MaxCorners-1 {
				diagonals = append(diagonals, [2]int{i, j})
			}
		}
	}
	got, err := Solve(MaxCorners, taped(room, diagonals...), DefaultLimit)
	if err != nil || furthest(got.Outline, fromAB(room)) > 1e-6 {
		t.Errorf("every diagonal of %d corners: %v", MaxCorners, err)
	}
	readings := taped(room, diagonals[:MaxCorners-3]...) // a fan from A
	got, err = Solve(MaxCorners, readings, DefaultLimit)
	if err != nil || furthest(got.Outline, fromAB(room)) > 1e-5 {
		t.Errorf("a fan over %d corners: %v", MaxCorners, err)
	}
}

func TestSolveFindsTheMisreading(t *testing.T) {
	r := random(t)
	found, certain := 0, 0
	for range 40 {
		n := 6 + r.IntN(4)
		room, diagonals := surveyed(r, n, 2+r.IntN(2))
		readings := taped(room, diagonals...)
		exact, err := Solve(n, readings, DefaultLimit)
		if err != nil {
			t.Fatal(err)
		}
		for k := range readings {
			if exact.Checks[k].Redundancy < 0.02 {
				continue // no other reading would show it
			}
			wrong := slices.Clone(readings)
			by := length.Length(100)
			if r.IntN(2) == 0 {
				by = -100
			}
			wrong[k].Length += by
			got, err := Solve(n, wrong, DefaultLimit)
			var misfit *MisfitError
			if !errors.As(err, &misfit) {
				var reading *ReadingError
				if errors.As(err, &reading) && slices.Contains(reading.Readings, k) {
					continue // it made a triangle impossible, and is named for it
				}
				// A reading that is hardly checked bends the room instead.
				if worst := got.Checks[got.Worst].Residual; err != nil || math.Abs(float64(worst)) > float64(DefaultLimit) {
					t.Fatalf("%v: reading %v taped %v: %v", room, readings[k], wrong[k].Length, err)
				}
				continue
			}
			if misfit.Result != got || got == nil {
				t.Fatal("the result is not beside the error")
			}
			at := slices.IndexFunc(got.Suspects, func(s Suspect) bool { return s.Reading == k })
			if at < 0 {
				t.Fatalf("%v with %v: %v taped %v, suspects %+v", room, diagonals, readings[k], wrong[k].Length, got.Suspects)
			}
			if off := got.Suspects[at].ShouldBe - readings[k].Length; math.Abs(float64(off)) > 1e-5 || got.Suspects[at].Rest > 1e-6 {
				t.Fatalf("%v taped %v: should be %v", readings[k], wrong[k].Length, got.Suspects[at].ShouldBe)
			}
			found++
			if Certain(got.Suspects) {
				certain++
			}
			if Certain(got.Suspects) && (at != 0 || !strings.HasPrefix(err.Error(), LineName(readings[k].From, readings[k].To, n)+" is taped ")) {
				t.Fatalf("%v taped %v: certain of another: %v", readings[k], wrong[k].Length, err)
			}
		}
	}
	t.Logf("%d misreadings found, %d of them with certainty", found, certain)
	if found < 200 || certain < found/10 {
		t.Errorf("only %d misreadings found, %d with certainty", found, certain)
	}
}

// With every diagonal of a convex room taped there is enough surplus to be
// certain.
func TestSolveIsCertainWithAllDiagonals(t *testing.T) {
	room := outline(0, 0, 4300, 60, 5200, 2300, 2700, 4400, -350, 3100)
	readings := taped(room, [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3}, [2]int{1, 4}, [2]int{2, 4})
	for k := range readings {
		for _, by := range []length.Length{100, -100, 1000, 25.4, -40} {
			wrong := slices.Clone(readings)
			wrong[k].Length += by
			got, err := Solve(5, wrong, DefaultLimit)
			var misfit *MisfitError
			if !errors.As(err, &misfit) {
				var reading *ReadingError
				if errors.As(err, &reading) && slices.Contains(reading.Readings, k) {
					continue
				}
				t.Errorf("%v by %v: %v", readings[k], by, err)
				continue
			}
			if !Certain(got.Suspects) || got.Suspects[0].Reading != k {
				t.Errorf("%v by %v: suspects %+v", readings[k], by, got.Suspects)
			}
		}
	}
}

func TestSolveForgivesTheTape(t *testing.T) {
	r := random(t)
	for range 200 {
		n := 4 + r.IntN(9)
		surplus := 1
		if n > 5 {
			surplus += r.IntN(3)
		}
		room, diagonals := surveyed(r, n, surplus)
		readings := taped(room, diagonals...)
		for k := range readings {
			readings[k].Length += length.Length(r.Float64() - 0.5)
		}
		got, err := Solve(n, readings, DefaultLimit)
		if err != nil {
			t.Fatalf("%v with %v: %v", room, diagonals, err)
		}
		// Least squares lie nearer to the readings than the true room does, by
		// sum of squares, and so each within the root of that.
		if worst := math.Abs(float64(got.Checks[got.Worst].Residual)); worst > 0.5*math.Sqrt(float64(len(readings))) {
			t.Errorf("residual %v", worst)
		}
		sway := slices.Max(got.Sway)
		if off := furthest(got.Outline, fromAB(room)); off > 5*sway*0.5 {
			t.Errorf("corners off by %v with sway %v", off, sway)
		}
	}
}

// TestSolveAgreesWithGonum compares corners, redundancy numbers and sway with
// what gonum's matrices make of slopes taken numerically.
func TestSolveAgreesWithGonum(t *testing.T) {
	r := random(t)
	for range 25 {
		n := 5 + r.IntN(5)
		room, diagonals := surveyed(r, n, 2)
		readings := taped(room, diagonals...)
		for k := range readings {
			readings[k].Length += length.Length(4 * (r.Float64() - 0.5))
		}
		got, err := Solve(n, readings, 20)
		if err != nil {
			t.Fatal(err)
		}
		start := fromAB(room)
		ringOf := func(x []float64) plane.Ring {
			ring := plane.Ring{{}, {X: x[0]}}
			for i := 1; i+1 < len(x); i += 2 {
				ring = append(ring, plane.Point{X: x[i], Y: x[i+1]})
			}
			return ring
		}
		x := []float64{start[1].X}
		for _, p := range start[2:] {
			x = append(x, p.X, p.Y)
		}
		distance := func(x []float64, k int) float64 {
			ring := ringOf(x)
			return ring[readings[k].From].Sub(ring[readings[k].To]).Length()
		}
		gradient := func(x []float64, k int) []float64 { // central differences: exact enough at this size
			row := make([]float64, len(x))
			const h = 1e-2
			for c := range x {
				y := slices.Clone(x)
				y[c] += h
				up := distance(y, k)
				y[c] -= 2 * h
				row[c] = (up - distance(y, k)) / (2 * h)
			}
			return row
		}
		for range 30 { // Gauss-Newton; Solve of a tall matrix is by QR, not by normal equations
			jacobian, off := mat.NewDense(len(readings), len(x), nil), mat.NewVecDense(len(readings), nil)
			for k := range readings {
				jacobian.SetRow(k, gradient(x, k))
				off.SetVec(k, float64(readings[k].Length)-distance(x, k))
			}
			var step mat.VecDense
			if err := step.SolveVec(jacobian, off); err != nil {
				t.Fatal(err)
			}
			for c := range x {
				x[c] += step.AtVec(c)
			}
		}
		if off := furthest(got.Outline, ringOf(x)); off > 1e-5 {
			t.Errorf("corners %v, gonum %v, off by %g", got.Outline, ringOf(x), off)
		}

		var solved []float64
		solved = append(solved, got.Outline[1].X)
		for _, p := range got.Outline[2:] {
			solved = append(solved, p.X, p.Y)
		}
		m := len(readings)
		jacobian := mat.NewDense(m, len(solved), nil)
		for k := range readings {
			jacobian.SetRow(k, gradient(solved, k))
		}
		var normal, inverse, projection mat.Dense
		normal.Mul(jacobian.T(), jacobian)
		if err := inverse.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		projection.Product(jacobian, &inverse, jacobian.T())
		total := 0.0
		for k := range readings {
			if want := 1 - projection.At(k, k); math.Abs(got.Checks[k].Redundancy-want) > 1e-6 {
				t.Errorf("redundancy of %v = %v, gonum %v", readings[k], got.Checks[k].Redundancy, want)
			}
			total += got.Checks[k].Redundancy
		}
		if math.Abs(total-float64(got.Surplus)) > 1e-6 {
			t.Errorf("redundancies add up to %v, surplus is %d", total, got.Surplus)
		}
		for i := 2; i < n; i++ {
			block := mat.NewSymDense(2, []float64{
				inverse.At(2*i-3, 2*i-3), inverse.At(2*i-3, 2*i-2), inverse.At(2*i-2, 2*i-3), inverse.At(2*i-2, 2*i-2)})
			var eigen mat.EigenSym
			eigen.Factorize(block, false)
			if want := math.Sqrt(slices.Max(eigen.Values(nil))); math.Abs(got.Sway[i]/want-1) > 1e-5 {
				t.Errorf("sway of %s = %v, gonum %v", CornerName(i), got.Sway[i], want)
			}
		}
	}
}

func TestSolveRefuses(t *testing.T) {
	square := func(more ...Reading) []Reading {
		return append([]Reading{{0, 1, 4200}, {1, 2, 3600}, {2, 3, 4200}, {3, 0, 3600}}, more...)
	}
	nan := length.Length(math.NaN())
	for _, tt := range []struct {
		name     string
		corners  int
		readings []Reading
		want     []string // sentences
		which    []int    // readings of the first
	}{
		{"two corners", 2, nil, []string{"A room of 2 corners cannot be worked out from a tape. Give from 3 to 60 corners."}, nil},
		{"triangle", 4, square(Reading{0, 2, 8000}),
			[]string{"AB, BC and AC cannot make a triangle: 4200 mm and 3600 mm do not reach 8000 mm. Tape the three again.",
				"AC, CD and DA cannot make a triangle: 4200 mm and 3600 mm do not reach 8000 mm. Tape the three again."}, []int{0, 1, 4}},
		{"triangle, short diagonal", 4, square(Reading{2, 0, 500}),
			[]string{"AB, BC and AC cannot make a triangle: 3600 mm and 500 mm do not reach 4200 mm. Tape the three again.",
				"AC, CD and DA cannot make a triangle: 500 mm and 3600 mm do not reach 4200 mm. Tape the three again."}, []int{0, 1, 4}},
		{"missing wall", 4, []Reading{{0, 1, 4200}, {1, 2, 3600}, {3, 0, 3600}, {0, 2, 5500}},
			[]string{"Wall CD is not taped. Tape every wall."}, nil},
		{"no diagonal", 4, square(),
			[]string{"4 walls alone do not fix the room, it could lean either way. Tape 1 diagonal too, AC for a start, so that triangles fill the room."}, nil},
		{"twice", 4, square(Reading{0, 2, 5530}, Reading{2, 0, 5531}),
			[]string{"AC is given twice: 5530 mm and 5531 mm. Keep one of the two."}, []int{4, 5}},
		{"zero, negative, no number", 4, square(Reading{0, 2, 0}, Reading{1, 3, -5}, Reading{0, 2, nan}),
			[]string{"AC cannot be 0 mm long. Tape it again.", "BD cannot be -5 mm long. Tape it again.",
				"AC cannot be that long. Tape it again.", "AC is given twice: 0 mm and that. Keep one of the two."}, []int{4}},
		{"beyond the corners", 4, square(Reading{0, 4, 5530}, Reading{2, 2, 10}),
			[]string{"Reading 5 runs to a corner that the room does not have. The room's corners are A to D.",
				"Reading 6 runs from corner C to itself. Tape from one corner to another."}, []int{4}},
		{"loose corner", 6, taped(outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600), [2]int{0, 2}, [2]int{0, 3}),
			[]string{"Corner E lacks a diagonal: so far only one reading holds it to the corners that are fixed. Tape AE, or another diagonal from E."}, nil},
		{"diagonals that only look enough", 6, taped(outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600), [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3}),
			[]string{"Corner E lacks a diagonal: so far only one reading holds it to the corners that are fixed. Tape AE, or another diagonal from E."}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Solve(tt.corners, tt.readings, DefaultLimit)
			if want := strings.Join(tt.want, "\n"); err == nil || err.Error() != want {
				t.Fatalf("%v, error\n%v\nwant\n%s", got, err, want)
			}
			var reading *ReadingError
			if !errors.As(err, &reading) || !slices.Equal(reading.Readings, tt.which) {
				t.Errorf("%+v, want readings %v", reading, tt.which)
			}
		})
	}
}

func TestMisfitSentences(t *testing.T) {
	room := outline(0, 0, 4200, 0, 4200, 3600, 0, 3600)
	readings := taped(room, [2]int{0, 2}, [2]int{1, 3})
	readings[5].Length += 24
	got, err := Solve(4, readings, DefaultLimit)
	var misfit *MisfitError
	if !errors.As(err, &misfit) || got.Surplus != 1 || len(got.Suspects) != 6 || Certain(got.Suspects) {
		t.Fatalf("%+v, %v", got, err)
	}
	// By symmetry both diagonals differ by the same amount, the other way.
	for _, part := range []string{"The readings disagree: ", "AB", "BC", "CD", "DA", "AC", " or ", "Tape each of them again."} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q lacks %q", err, part)
		}
	}
	if again, err := Solve(4, readings, 30); err != nil || furthest(again.Outline, got.Outline) > 1e-9 {
		t.Errorf("with a limit of 30 mm: %v, %v", again, err)
	}

	five := outline(0, 0, 4300, 60, 5200, 2300, 2700, 4400, -350, 3100)
	readings = taped(five, [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3}, [2]int{1, 4}, [2]int{2, 4})
	readings[5].Length += 101.6
	_, err = Solve(5, readings, DefaultLimit)
	// AC is the root of 5200² + 2300², 5685.9 mm or 223.856 in, taped 4 in long.
	if want := "AC is taped 5787.5 mm, and the other readings make it 5685.9 mm. Tape it again."; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
	if errors.As(err, &misfit) {
		want := "AC is taped 18 ft 11-7/8 in, and the other readings make it 18 ft 7-7/8 in. Tape it again."
		if got := misfit.In(length.Tape{Unit: length.Inches}); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	readings = taped(five, [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3})
	readings[6].Length += 60
	if _, err = Solve(5, readings, DefaultLimit); err == nil || !strings.HasSuffix(err.Error(), "One more diagonal would tell which.") {
		t.Errorf("five corners, one surplus reading: %v", err)
	}
	readings = taped(five, [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3}, [2]int{1, 4}, [2]int{2, 4})
	readings[5].Length += 60
	readings[8].Length -= 85
	readings[1].Length -= 45
	if _, err = Solve(5, readings, DefaultLimit); err == nil || !strings.Contains(err.Error(), "no single one explains it") {
		t.Errorf("three wrong readings: %v", err)
	}
}

// A corner on a straight wall, a door jamb say: its triangle is flat, and tape
// noise must not make it impossible.
func TestSolveFlatTriangle(t *testing.T) {
	room := outline(0, 0, 4200, 0, 4200, 3600, 2000, 3600, 0, 3600)
	for _, noise := range []length.Length{0, 0.6, -0.6} {
		readings := taped(room, [2]int{0, 2}, [2]int{2, 4})
		readings[6].Length += noise
		got, err := Solve(5, readings, DefaultLimit)
		if err != nil {
			t.Errorf("noise %v: %v", noise, err)
			continue
		}
		for _, p := range got.Outline {
			if math.IsNaN(p.X + p.Y) {
				t.Fatalf("noise %v: %v", noise, got.Outline)
			}
		}
		if off := furthest(got.Outline, room); off > 60 || noise >= 0 && off > 2 {
			t.Errorf("noise %v: %v, off by %v", noise, got.Outline, off)
		}
		if got.Sway[3] < 10*got.Sway[2] {
			t.Errorf("noise %v: sway %v does not show that D is loose", noise, got.Sway)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	r := rand.New(rand.NewPCG(*seed, 0))
	room, diagonals := surveyed(r, 8, 2)
	readings := taped(room, diagonals...)
	for b.Loop() {
		if _, err := Solve(8, readings, DefaultLimit); err != nil {
			b.Fatal(err)
		}
	}
}

// The hardest survey there is: every diagonal of the largest room, and two of
// them wrong.
func BenchmarkMisfit(b *testing.B) {
	room := make(plane.Ring, MaxCorners)
	for i := range room {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / MaxCorners)
		room[i] = plane.Point{X: 8000 * cos, Y: 8000 * sin}
	}
	var diagonals [][2]int
	for i := range MaxCorners {
		for j := i + 2; j < MaxCorners && (i > 0 || j < MaxCorners-1); j++ {
			diagonals = append(diagonals, [2]int{i, j})
		}
	}
	for name, use := range map[string][][2]int{"all": diagonals, "from A and B": diagonals[:2*MaxCorners-6]} {
		b.Run(name, func(b *testing.B) {
			readings := taped(room, use...)
			readings[90].Length += 90
			readings[150].Length -= 120
			for b.Loop() {
				if _, err := Solve(MaxCorners, readings, DefaultLimit); err == nil {
					b.Fatal("two wrong readings of 100 mm went unseen")
				}
			}
		})
	}
}
