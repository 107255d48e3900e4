package cuts

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

var seedFlag = flag.Uint64("seed", 1, "seed of the random rooms")

// random returns the source of a test's random rooms, and prints the seed if
// the test fails.
func random(t testing.TB) *rand.Rand {
	seed := *seedFlag
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("run again with -seed=%d", seed)
		}
	})
	return rand.New(rand.NewPCG(seed, 0))
}

func between(rng *rand.Rand, low, high float64) float64 { return low + (high-low)*rng.Float64() }

func rect(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

func turnedRing(r plane.Ring, degrees float64, by plane.Point) plane.Ring {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = p.Turned(cos, sin).Add(by)
	}
	return out
}

func plan(t testing.TB, job floor.Job) *floor.Plan {
	t.Helper()
	p, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// blockAt finds a block of the plan.
func blockAt(t testing.TB, p *floor.Plan, strand, sub, index int) floor.Block {
	t.Helper()
	for r := range p.Rows() {
		for b := range p.Blocks(r) {
			if b.Strand == strand && b.Sub == sub && b.Index == index {
				return b
			}
		}
	}
	t.Fatalf("no block %d of strand %d, %d, in the field", index, strand, sub)
	return floor.Block{}
}

// only returns the one cut of the one piece of a block.
func only(t testing.TB, p *floor.Plan, strand, index int) (Shape, Cut) {
	t.Helper()
	shapes := Of(p, blockAt(t, p, strand, 0, index))
	if len(shapes) != 1 || len(shapes[0].Cuts) != 1 {
		t.Fatalf("block %d of strand %d has shapes %+v, want one of one cut", index, strand, shapes)
	}
	return shapes[0], shapes[0].Cuts[0]
}

func near(a, b length.Length) bool { return math.Abs(float64(a-b)) < 1e-8 }

var origin = plane.Point{}

// Working, from the pattern's definition with u and v at 45 degrees to the
// axis, x = (u - v)/√2. Block 0 of strand -1 is u from -L to 0 and v from -W/2
// to W/2; it runs up to the right, so it stands at the stop with u = -L and
// its right-hand edge is v = -W/2. A wall at x = -c/√2 is the line u = v - c:
// it meets v = -W/2 at L - c - W/2 from the stop, and v = W/2 at L - c + W/2.
// Block 0 of strand 0 is u from 0 to W and v from W/2-L to W/2; it runs up to
// the left, so its right-hand edge is u = W. A wall at x = c/√2 is the line
// v = u - c: it meets u = W at L - c + W/2 from the stop, and u = 0 at
// L - c - W/2. Both are 45 degrees off square, as blocks lie at 45 degrees to
// the axis.
func TestWallAlongTheAxis(t *testing.T) {
	in := length.Inch
	for _, tt := range []struct {
		width, length, c    length.Length
		shorter, longer     length.Length
		unit                length.Unit
		shortRead, longRead string
	}{
		// 350 - 100 - 35 and 350 - 100 + 35
		{width: 70, length: 350, c: 100, shorter: 215, longer: 285, shortRead: "215 mm", longRead: "285 mm"},
		// 350 - 200 - 35 and 350 - 200 + 35
		{width: 70, length: 350, c: 200, shorter: 115, longer: 185, shortRead: "115 mm", longRead: "185 mm"},
		// Sizes of common practice, no source. 9 - 3 - 1 1/8 and 9 - 3 + 1 1/8
		{width: 2.25 * in, length: 9 * in, c: 3 * in, shorter: 4.875 * in, longer: 7.125 * in, unit: length.Inches, shortRead: "4-7/8 in", longRead: "7-1/8 in"},
		// 18 - 6 1/4 - 1 1/2 and 18 - 6 1/4 + 1 1/2
		{width: 3 * in, length: 18 * in, c: 6.25 * in, shorter: 10.25 * in, longer: 13.25 * in, unit: length.Inches, shortRead: "10-1/4 in", longRead: "13-1/4 in"},
	} {
		t.Run(fmt.Sprint(tt.shortRead, " and ", tt.longRead), func(t *testing.T) {
			x := float64(tt.c) / math.Sqrt2
			job := floor.Job{Unit: tt.unit, Width: tt.width, Length: tt.length, Centre: &origin}
			for _, w := range []struct {
				name     string
				room     plane.Ring
				strand   int
				hand     pattern.Hand
				keep     Keep
				from, to length.Length
				angle    float64
			}{
				{"the room is left of the wall", rect(-2000, -1500, -x, 1500), -1, pattern.RightHand, KeepStop, tt.shorter, tt.longer, 45},
				{"the room is right of the wall", rect(-x, -1500, 2000, 1500), -1, pattern.RightHand, KeepFar, tt.shorter, tt.longer, 45},
				{"left hand, the room is right of the wall", rect(x, -1500, 2000, 1500), 0, pattern.LeftHand, KeepStop, tt.longer, tt.shorter, -45},
				{"left hand, the room is left of the wall", rect(-2000, -1500, x, 1500), 0, pattern.LeftHand, KeepFar, tt.longer, tt.shorter, -45},
			} {
				job.Room = w.room
				s, c := only(t, plan(t, job), w.strand, 0)
				if s.Hand != w.hand || c.Kind != Across || c.Keep != w.keep || !near(c.From, w.from) || !near(c.To, w.to) || math.Abs(c.Angle-w.angle) > 1e-9 {
					t.Errorf("%s: hand %v, cut %+v, want hand %v, keeping %v, from %v to %v at %v", w.name, s.Hand, c, w.hand, w.keep, w.from, w.to, w.angle)
				}
				tape := job.Tape()
				tape.Fraction = 16
				reads := []string{tape.Read(min(c.From, c.To)).Text(), tape.Read(max(c.From, c.To)).Text()}
				if want := []string{tt.shortRead, tt.longRead}; !slices.Equal(reads, want) {
					t.Errorf("%s: reads %q, want %q", w.name, reads, want)
				}
			}
		})
	}
}

// The same block, and a wall that meets an end of it. Working as above with
// c = 20: the line meets the right-hand edge at 350 - 20 - 35 = 295 and the
// left-hand edge at 365, beyond the end; the end itself, u = 0, at v = 20,
// which is 20 + 35 = 55 across.
func TestCornerCut(t *testing.T) {
	job := floor.Job{Width: 70, Length: 350, Centre: &origin, Room: rect(-2000, -1500, -20/math.Sqrt2, 1500)}
	s, c := only(t, plan(t, job), -1, 0)
	if c.Kind != Corner || c.Keep != KeepStop || !near(c.From, 295) || !near(c.To, 365) || math.Abs(c.Angle-45) > 1e-9 {
		t.Errorf("cut %+v, want a corner cut from 295 to 365", c)
	}
	want := [2]plane.Point{{X: 295}, {X: 350, Y: 55}}
	if c.Marks[0].Sub(want[0]).Length() > 1e-8 || c.Marks[1].Sub(want[1]).Length() > 1e-8 {
		t.Errorf("marks %v, want %v", c.Marks, want)
	}
	outline := plane.Ring{{}, {X: 295}, {X: 350, Y: 55}, {X: 350, Y: 70}, {Y: 70}}
	if !slices.EqualFunc(s.Outline, outline, func(p, q plane.Point) bool { return p.Sub(q).Length() < 1e-8 }) {
		t.Errorf("outline %v, want %v", s.Outline, outline)
	}
}

// A cut through a corner of the block runs to the long edge, whichever way
// rounding falls. Working as above with c = W/2 and L - W/2: the line meets the
// left-hand edge at L, and the right-hand edge at 0.
func TestCutThroughACorner(t *testing.T) {
	for _, w := range []float64{40, 57.15, 63, 70, 76.2, 90, 100, 127} {
		l := 5 * w
		job := floor.Job{Width: length.Length(w), Length: length.Length(l), Centre: &origin}
		for _, tt := range []struct {
			c, from, to float64
			room        func(x float64) plane.Ring
		}{
			{w / 2, l - w, l, func(x float64) plane.Ring { return rect(-2000, -1500, x, 1500) }},
			{l - w/2, 0, w, func(x float64) plane.Ring { return rect(x, -1500, 2000, 1500) }},
		} {
			job.Room = tt.room(-tt.c / math.Sqrt2)
			_, c := only(t, plan(t, job), -1, 0)
			if c.Kind != Across || !near(c.From, length.Length(tt.from)) || !near(c.To, length.Length(tt.to)) {
				t.Errorf("block %v wide: %+v, want a cut across from %v to %v", w, c, tt.from, tt.to)
			}
		}
	}
}

// The same where the edge of the piece ends short of the block's corner: at 45
// degrees through (350, 70), a hair to either side.
func TestCutProducedThroughACorner(t *testing.T) {
	block := [4]plane.Point{{}, {X: 350}, {X: 350, Y: 70}, {Y: 70}}
	for n := range 6 {
		hair := float64(n%3-1) * 1e-9
		from, to := plane.Point{X: 300, Y: 20}, plane.Point{X: 310, Y: 30 + hair}
		if n >= 3 {
			from, to = to, from
		}
		c := cutAlong(from, to, &block)
		if c.Kind != Across || math.Abs(float64(c.From-280)) > 1e-7 || math.Abs(float64(c.To-350)) > 1e-7 {
			t.Errorf("%v off: %+v, want a cut across from 280 to 350", hair, c)
		}
	}
}

func TestClean(t *testing.T) {
	square := plane.Ring{{}, {X: 9}, {X: 9, Y: 9}, {Y: 9}}
	for name, ring := range map[string]plane.Ring{
		"nothing to drop":         square,
		"doubled corners":         {{}, {}, {X: 9}, {X: 9, Y: 1e-9}, {X: 9, Y: 9}, {Y: 9}, {Y: 9}, {X: 1e-9}},
		"on every side":           {{}, {X: 3}, {X: 9}, {X: 9, Y: 2}, {X: 9, Y: 5}, {X: 9, Y: 9}, {X: 4, Y: 9 + 1e-9}, {Y: 9}, {Y: 3}},
		"the first in a side":     {{X: 4}, {X: 9}, {X: 9, Y: 9}, {Y: 9}, {}},
		"doubled within a side":   {{}, {X: 3}, {X: 3}, {X: 3}, {X: 9}, {X: 9, Y: 9}, {Y: 9}},
		"there and back again":    {{}, {X: 9}, {X: 9, Y: 9}, {X: 5, Y: 9}, {X: 5, Y: 12}, {X: 5, Y: 9}, {Y: 9}},
		"doubled, last and first": {{X: 1e-9, Y: 1e-9}, {X: 9}, {X: 9, Y: 9}, {Y: 9}, {}},
	} {
		if got := fromStop(clean(ring)); len(got) != 4 || furthest(got, square) > 1e-8 || got[0].Length() > 1e-8 {
			t.Errorf("%s: %v, want the four corners of %v", name, got, square)
		}
	}
}

// With the axis at 45 degrees every block is parallel to two walls. Blocks
// that climb to the right of an axis turned 45 degrees to the left run along
// +y, so u = y and v = -x: block 0 of strand -1 is x from -35 to 35 and y from
// -350 to 0, its right-hand edge at x = 35.
func TestWallAlongTheBlocks(t *testing.T) {
	for _, tt := range []struct {
		name string
		room plane.Ring
		want Cut
	}{
		{"rip, the left-hand side is waste", rect(-15, -1500, 900, 1500), Cut{Kind: Rip, Keep: KeepRight, Angle: 90, AtStop: 50, AtFar: 50, Marks: [2]plane.Point{{Y: 50}, {X: 350, Y: 50}}}},
		{"rip, the right-hand side is waste", rect(-900, -1500, -15, 1500), Cut{Kind: Rip, Keep: KeepLeft, Angle: 90, AtStop: 20, AtFar: 20, Marks: [2]plane.Point{{Y: 50}, {X: 350, Y: 50}}}},
		{"square cut, the far end is waste", rect(-900, -1500, 900, -100), Cut{Kind: Across, Keep: KeepStop, From: 250, To: 250, Marks: [2]plane.Point{{X: 250}, {X: 250, Y: 70}}}},
		{"square cut, the end at the stop is waste", rect(-900, -100, 900, 1500), Cut{Kind: Across, Keep: KeepFar, From: 250, To: 250, Marks: [2]plane.Point{{X: 250}, {X: 250, Y: 70}}}},
		// From (-25, -350) to (-5, 0): 60 and 40 across from the right-hand edge.
		{"taper", plane.Ring{{X: -45, Y: -700}, {X: 900, Y: -700}, {X: 900, Y: 350}, {X: 15, Y: 350}}, Cut{Kind: Rip, Keep: KeepRight, AtStop: 60, AtFar: 40, Angle: -math.Atan2(350, 20) * 180 / math.Pi, Marks: [2]plane.Point{{Y: 60}, {X: 350, Y: 40}}}},
	} {
		job := floor.Job{Width: 70, Length: 350, Centre: &origin, Axis: 45, Room: tt.room}
		_, c := only(t, plan(t, job), -1, 0)
		got := []float64{float64(c.From), float64(c.To), c.Angle, float64(c.AtStop), float64(c.AtFar), c.Marks[0].X, c.Marks[0].Y, c.Marks[1].X, c.Marks[1].Y}
		w := tt.want
		want := []float64{float64(w.From), float64(w.To), w.Angle, float64(w.AtStop), float64(w.AtFar), w.Marks[0].X, w.Marks[0].Y, w.Marks[1].X, w.Marks[1].Y}
		if c.Kind != w.Kind || c.Keep != w.Keep || !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-8 }) {
			t.Errorf("%s: %+v, want %+v", tt.name, c, w)
		}
	}
}

// A wall along the edge of a block takes nothing off it, and one along an
// edge of its block is no cut of a piece. The room is x from -35, an edge of
// block 0 of strand -1 as above, and ends at y = -100.
func TestWallOnAnEdge(t *testing.T) {
	p := plan(t, floor.Job{Width: 70, Length: 350, Centre: &origin, Axis: 45, Room: rect(-35, -1500, 900, -100)})
	_, c := only(t, p, -1, 0)
	if c.Kind != Across || !near(c.From, 250) || c.Angle != 0 {
		t.Errorf("cut %+v, want one square cut at 250", c)
	}
}

// A hearth's corner in the middle of a block is scribed, not sawn across.
// Block 0 of strand -1 is x from -35 to 35 and y from -350 to 0 as above; the
// hearth takes x below 10 and y below -200, leaving u from 150 on and v from 0
// to 25 before it.
func TestNotch(t *testing.T) {
	p := plan(t, floor.Job{Width: 70, Length: 350, Centre: &origin, Axis: 45, Room: rect(-900, -900, 900, 900), Holes: [][]plane.Point{rect(-400, -600, 10, -200)}})
	shapes := Of(p, blockAt(t, p, -1, 0, 0))
	if len(shapes) != 1 || !shapes[0].Notch || shapes[0].Cuts != nil {
		t.Fatalf("shapes %+v, want one with a notch and no cuts", shapes)
	}
	want := plane.Ring{{}, {X: 350}, {X: 350, Y: 70}, {X: 150, Y: 70}, {X: 150, Y: 25}, {Y: 25}}
	if got := shapes[0].Outline; !slices.EqualFunc(got, want, func(p, q plane.Point) bool { return p.Sub(q).Length() < 1e-8 }) {
		t.Errorf("outline %v, want %v", got, want)
	}
	whole := 70*350.0 - 150*45
	if math.Abs(shapes[0].Area-whole) > 1e-6 {
		t.Errorf("area %v, want %v", shapes[0].Area, whole)
	}
}

// A wall that bows into the room by 2 mm in 4 m is sawn straight, not scribed:
// in the 100 mm that a block takes of it, 2 mm * (100/4000)² = 0.00125 mm.
func TestBowedWall(t *testing.T) {
	room := plane.Ring{{X: -2000, Y: -1500}, {X: 2000, Y: -1500}}
	for i := range 401 {
		x := 1 - float64(i)/200
		room = append(room, plane.Point{X: 2000 * x, Y: 1500 - 2*(1-x*x)})
	}
	at := 0
	for _, g := range List(plan(t, floor.Job{Width: 70, Length: 350, Room: room}), Options{Tolerance: 0.5}) {
		if g.Shape.Notch || g.Shape.Off > 0.0013 {
			t.Errorf("group %s has a notch, or is %v off: %v", g.Mark, g.Shape.Off, g.Outline())
		}
		if g.Shape.Off > 0 {
			at += g.Count()
		}
	}
	if at < 40 {
		t.Errorf("only %d pieces at the bowed wall", at)
	}
}

// The block's own frame of a chevron: a parallelogram with its rear point at
// the stop, its head W cot a longer on one edge. A wall along the axis makes
// the mitre angle a with the long edges, so the cut is 90 - a off square; a
// wall square to the axis makes 90 - a with them, so it is a off square.
func TestChevronCuts(t *testing.T) {
	for _, mitre := range []float64{45, 50, 60} {
		lean := 70 / math.Tan(mitre*math.Pi/180)
		job := floor.Job{Pattern: floor.Chevron, Mitre: mitre, Width: 70, Length: 350, Centre: &origin, Room: rect(-100, -1500, 100, 1500)}
		seen := map[pattern.Hand]bool{}
		for _, g := range List(plan(t, job), Options{Tolerance: 0.01}) {
			seen[g.Hand] = true
			block := plane.Ring(g.Shape.Block[:])
			low, high := block.Box()
			if low.X != 0 || low.Y != 0 || math.Abs(high.X-350-lean) > 1e-9 || high.Y != 70 || math.Abs(block.Area()-70*350) > 1e-6 {
				t.Errorf("mitre %v: block %v, want a parallelogram 350 + %v long", mitre, block, lean)
			}
			for _, c := range g.Shape.Cuts {
				along, square := 90-mitre, -mitre
				if g.Hand == pattern.LeftHand {
					along, square = -along, -square
				}
				if math.Abs(c.Angle-along) > 1e-9 && math.Abs(c.Angle-square) > 1e-9 {
					t.Errorf("mitre %v, hand %v: a cut at %v, want %v or %v", mitre, g.Hand, c.Angle, along, square)
				}
			}
		}
		if len(seen) != 2 {
			t.Errorf("mitre %v: hands %v", mitre, seen)
		}
	}
}

// onLeft returns what of a convex ring lies left of the line from a towards b
// (the method of Sutherland and Hodgman, 1974).
func onLeft(ring plane.Ring, a, b plane.Point) plane.Ring {
	d := b.Sub(a)
	var out plane.Ring
	for i := range ring {
		p, q := ring.Edge(i)
		sp, sq := d.Cross(p.Sub(a)), d.Cross(q.Sub(a))
		if sp >= 0 {
			out = append(out, p)
		}
		if sp >= 0 != (sq >= 0) {
			out = append(out, p.Add(q.Sub(p).Times(sp/(sp-sq))))
		}
	}
	return out
}

// sawn saws a block as a layer would, from the numbers of each cut alone.
func sawn(s Shape) plane.Ring {
	ring := plane.Ring(s.Block[:])
	wide := s.Block[2].Y
	for _, c := range s.Cuts {
		right, left := plane.Point{X: float64(c.From)}, plane.Point{X: float64(c.To), Y: wide}
		if c.Kind == Rip {
			// The ends of the block, at the width that is left.
			width := [2]float64{float64(c.AtStop), float64(c.AtFar)}
			if c.Keep == KeepLeft {
				width = [2]float64{wide - width[0], wide - width[1]}
			}
			on := func(a, b plane.Point, y float64) plane.Point { return a.Add(b.Sub(a).Times(y / wide)) }
			right, left = on(s.Block[0], s.Block[3], width[0]), on(s.Block[1], s.Block[2], width[1])
		}
		switch c.Keep {
		case KeepStop, KeepLeft:
			ring = onLeft(ring, right, left)
		default:
			ring = onLeft(ring, left, right)
		}
	}
	return ring
}

// randomJob returns a room of about as many blocks as asked for.
func randomJob(rng *rand.Rand, blocks float64) floor.Job {
	for {
		job := floor.Job{Width: length.Length(between(rng, 40, 150))}
		job.Length = job.Width * length.Length(between(rng, 1, 8))
		if rng.IntN(3) == 0 {
			job.Pattern, job.Mitre = floor.Chevron, between(rng, 25, 75)
		} else {
			job.Strands = 1 + rng.IntN(3)
		}
		size := math.Sqrt(blocks * float64(job.Width*job.Length))
		angle, by := 0.0, plane.Point{X: between(rng, -5000, 5000), Y: between(rng, -5000, 5000)}
		if rng.IntN(2) == 0 {
			angle = between(rng, -180, 180)
		}
		room := rect(-size/2, -size/2, size/2, size/2)
		switch rng.IntN(4) {
		case 3: // every wall bows, out or in, by a hundredth of its length at most
			var bowed plane.Ring
			for e := range room {
				a, b := room.Edge(e)
				rise := between(rng, -0.01, 0.01)
				out := plane.Point{X: b.Y - a.Y, Y: a.X - b.X}
				for k := range 30 {
					x := float64(k) / 30
					bowed = append(bowed, a.Add(b.Sub(a).Times(x)).Add(out.Times(rise*4*x*(1-x))))
				}
			}
			room = bowed
		case 0: // corners on an ellipse, some of them drawn in
			room, size = nil, 1.2*size
			n := 3 + rng.IntN(9)
			for i := range n {
				sin, cos := math.Sincos((float64(i) + 0.9*rng.Float64()) / float64(n) * 2 * math.Pi)
				room = append(room, plane.Point{X: cos, Y: sin}.Times(size/2*between(rng, 0.5, 1)))
			}
		case 1: // an alcove
			room = append(room[:3:3], plane.Point{X: size / 5, Y: size / 2}, plane.Point{X: size / 5, Y: size / 4}, plane.Point{X: -size / 2, Y: size / 4})
		}
		job.Room = turnedRing(room, angle, by)
		for range rng.IntN(3) {
			at := by.Add(plane.Point{X: size * between(rng, -0.3, 0.3), Y: size * between(rng, -0.3, 0.3)})
			job.Holes = append(job.Holes, turnedRing(rect(-size/15, -size/20, size/15, size/20), between(rng, 0, 90), at))
		}
		switch rng.IntN(3) {
		case 0:
			job.Axis = between(rng, -360, 360)
		case 1:
			job.Axis = angle
		default:
			job.Axis = angle + 45
		}
		if rng.IntN(2) == 0 {
			job.Across, job.Along = length.Length(between(rng, -500, 500)), length.Length(between(rng, -500, 500))
		}
		if p, err := floor.New(job); err == nil && p.Count().Cut > 0 {
			return job
		}
	}
}

// A block sawn as described is the piece, wherever straight cuts make it; at a
// bowed wall it is as near as it is said to be.
func TestCutsMakeThePieces(t *testing.T) {
	rng := random(t)
	pieces, notches, straightened := 0, 0, 0
	kinds := map[Kind]int{}
	for range 150 {
		job := randomJob(rng, 150)
		p := plan(t, job)
		for r := range p.Rows() {
			for b := range p.Blocks(r) {
				for i, s := range Of(p, b) {
					pieces++
					// What is told in the block's own frame has the area of the
					// plan's piece, less the doubled corners.
					area := s.Outline.Area()
					for _, h := range s.Holes {
						area += h.Area()
					}
					slack := max(1e-6*s.Area, 1e-4)
					if math.Abs(area-b.Pieces[i].Area) > slack || s.Area != b.Pieces[i].Area {
						t.Errorf("piece of %v mm² has an outline of %v\njob %+v", b.Pieces[i].Area, area, job)
					}
					if s.Notch {
						notches++
						continue
					}
					for _, c := range s.Cuts {
						kinds[c.Kind]++
					}
					if s.Off > 0 {
						straightened++
						for _, q := range s.Outline {
							if d := fromOutline(q, sawn(s)); d > float64(s.Off)+1e-4 || s.Off > 0.1 {
								t.Errorf("block %d of strand %d: corner %v is %v mm off the sawn piece, said to be %v at most", b.Index, b.Strand, q, d, s.Off)
							}
						}
						continue
					}
					if got := sawn(s).Area(); math.Abs(got-s.Area) > slack {
						t.Errorf("block %d of strand %d: sawn %v mm², want %v\nshape %+v\njob %+v, centre %v", b.Index, b.Strand, got, s.Area, s, job, job.Centre)
					}
					// The same outline, not only as large: each corner of the
					// piece on what was sawn.
					for _, q := range s.Outline {
						if d := fromOutline(q, sawn(s)); d > 1e-4 {
							t.Errorf("block %d of strand %d: corner %v is %v mm off the sawn piece\nshape %+v", b.Index, b.Strand, q, d, s)
						}
					}
				}
			}
		}
		if t.Failed() {
			t.FailNow()
		}
	}
	if straightened < 200 || straightened > pieces/2 {
		t.Errorf("%d of %d pieces are sawn straight where a wall bows", straightened, pieces)
	}
	if pieces < 2000 || notches < 20 || kinds[Across] < 200 || kinds[Corner] < 200 || kinds[Rip] < 200 {
		t.Errorf("only %d pieces, %d notches, cuts %v", pieces, notches, kinds)
	}
}

func fromOutline(q plane.Point, ring plane.Ring) float64 {
	least := math.Inf(1)
	for i := range ring {
		a, b := ring.Edge(i)
		if a != b {
			least = min(least, plane.FromEdge(q, a, b))
		}
	}
	return least
}
