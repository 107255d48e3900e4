package pattern

import (
	"math"
	"strconv"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Figures with 15 digits below come from 40-digit arithmetic; they hold sqrt 2
// as in OEIS A002193, 1.41421356237309504880.

func near(t *testing.T, what string, got length.Length, want float64) {
	t.Helper()
	if math.Abs(float64(got)-want) > 1e-12*max(1, math.Abs(want)) {
		t.Errorf("%s = %.15g, want %.15g", what, float64(got), want)
	}
}

func TestHerringboneMeasures(t *testing.T) {
	for _, tt := range []struct {
		source                  string
		h                       Herringbone
		interval, step, spacing float64
	}{
		{"OEIS A002193: a block sqrt 2 decimetres long and 1 wide",
			Herringbone{100, 141.421356237309505, 1}, 100, 141.421356237309505, 35.3553390593273762},
		{"350 x 70, 45-45-90 triangles (Euclid I.47)", Herringbone{70, 350, 1}, 247.487373415292, 98.9949493661167, 24.7487373415292},
		{"500 x 71", Herringbone{71, 500, 1}, 353.553390593274, 100.40916292849, 25.1022907321224},
		{"250 x 50", Herringbone{50, 250, 1}, 176.776695296637, 70.7106781186548, 17.6776695296637},
		{"420 x 70", Herringbone{70, 420, 1}, 296.98484809835, 98.9949493661167, 24.7487373415292},
		{"18 x 3 in", Herringbone{3 * length.Inch, 18 * length.Inch, 1}, 25.4 * 12.7279220613579, 25.4 * 4.24264068711929, 25.4 * 1.06066017177982},
		{"420 x 70 double: the unit is 140 wide, so twice the step of 420 x 70 single", Herringbone{70, 420, 2}, 296.98484809835, 197.989898732233, 49.4974746830583},
		{"420 x 70 triple", Herringbone{70, 420, 3}, 296.98484809835, 296.98484809835, 74.2462120245875},
	} {
		t.Run(tt.source, func(t *testing.T) {
			near(t, "Interval()", tt.h.Interval(), tt.interval)
			near(t, "Step()", tt.h.Step(), tt.step)
			near(t, "Spacing()", tt.h.Spacing(), tt.spacing)
		})
	}
}

// The blocks of the trade's own rule of thumb (common practice, no source):
// 2-1/4 x 9 in, four widths to the length, with an interval just under 6-3/8
// in; the step is the diagonal of a square as wide as the block, and the
// working lines stand a quarter of that diagonal off the seam's mean.
func TestTradeFacts(t *testing.T) {
	h := Herringbone{Width: 2.25 * length.Inch, Length: 9 * length.Inch, Strands: 1}
	if ratio := h.Length / h.Width; ratio != 4 {
		t.Errorf("length : width = %v, want 4", ratio)
	}
	if short := 6.375*length.Inch - h.Interval(); short <= 0 || short > length.Inch/64 {
		t.Errorf("the interval falls %v in short of 6-3/8 in, want a hair, under 1/64 in", short/length.Inch)
	}
	diagonal := math.Hypot(float64(h.Width), float64(h.Width))
	near(t, "Step()", h.Step(), diagonal)
	near(t, "Spacing()", h.Spacing(), diagonal/4)
	if ok, _, _, _ := h.LinesUp(); !ok {
		t.Error("4 : 1 does not line up")
	}

	h = Herringbone{Width: 3 * length.Inch, Length: 18 * length.Inch, Strands: 1}
	if ratio := h.Length / h.Width; math.Abs(float64(ratio)-6) > 1e-12 {
		t.Errorf("length : width = %v, want 6", ratio)
	}
	if ok, _, _, _ := h.LinesUp(); !ok {
		t.Error("6 : 1 does not line up")
	}
}

func TestChevronMeasures(t *testing.T) {
	for _, tt := range []struct {
		source                       string
		length, width, square        float64 // square: angle off the line square to the seam
		interval, step, rise, overal float64
	}{
		{"600 x 90 at 45", 600, 90, 45, 424.264068711929, 127.279220613579, 424.264068711929, 690},
		{"610 x 92 at 45", 610, 92, 45, 431.335136523794, 130.107647738325, 431.335136523794, 702},
		{"500 x 80 at 30", 500, 80, 30, 433.012701892219, 92.3760430703401, 250, 546.18802153517},
		{"450 x 75 at 60", 450, 75, 60, 225, 150, 389.711431702997, 579.903810567666},
		{"700 x 120 at 52.5", 700, 120, 52.5, 426.133000306104, 197.12155580455, 555.347338203865, 856.387044740945},
	} {
		t.Run(tt.source, func(t *testing.T) {
			c := Chevron{Width: length.Length(tt.width), Length: length.Length(tt.length), Mitre: 90 - tt.square}
			near(t, "Interval()", c.Interval(), tt.interval)
			near(t, "Step()", c.Step(), tt.step)
			near(t, "Rise()", c.Rise(), tt.rise)
			near(t, "TipToTip()", c.TipToTip(), tt.overal)
			near(t, "Spacing()", c.Spacing(), 0)
		})
	}
}

// patterns are the patterns that the rules below are tried on.
func patterns() map[string]Pattern {
	all := map[string]Pattern{
		"chevron 45":   Chevron{90, 600, 45},
		"chevron 60":   Chevron{80, 500, 60},
		"chevron 37.5": Chevron{120, 700, 37.5},
		"chevron 75":   Chevron{300, 320, 75},
	}
	for strands := 1; strands <= 3; strands++ {
		for _, size := range [][2]length.Length{{70, 350}, {70, 420}, {71, 500}, {2.25 * length.Inch, 9 * length.Inch}, {89, 457}, {100, 110}, {50, 50}} {
			h := Herringbone{size[0], size[1], strands}
			sizes := strconv.FormatFloat(float64(size[0]), 'g', 4, 64) + " x " + strconv.FormatFloat(float64(size[1]), 'g', 4, 64)
			all["herringbone "+strconv.Itoa(strands)+" "+sizes] = h
		}
	}
	return all
}

func moved(c Column, by float64) plane.Ring {
	r := make(plane.Ring, 4)
	for i, p := range c.Block {
		r[i] = plane.Point{X: p.X, Y: p.Y + by}
	}
	return r
}

func polygon(t testing.TB, r plane.Ring) geom.Geometry {
	t.Helper()
	var xy []float64
	for i := 0; i <= len(r); i++ {
		xy = append(xy, r[i%len(r)].X, r[i%len(r)].Y)
	}
	g := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))}).AsGeometry()
	if err := g.Validate(); err != nil {
		t.Fatalf("%v is not a polygon: %v", r, err)
	}
	return g
}

// Blocks are what they are said to be, whichever column they are of: width,
// length, area, counter-clockwise, a long edge first, of the hand they claim.
func TestColumns(t *testing.T) {
	for name, p := range patterns() {
		t.Run(name, func(t *testing.T) {
			wide, long := 0.0, 0.0
			switch p := p.(type) {
			case Herringbone:
				wide, long = float64(p.Width), float64(p.Length)
			case Chevron:
				wide, long = float64(p.Step()), float64(p.Length)
			}
			for k := -5; k <= 5; k++ {
				for s, c := range p.Columns(k) {
					r := plane.Ring(c.Block[:])
					along, across := r[1].Sub(r[0]), r[3].Sub(r[0])
					near(t, "area", length.Length(r.Area()), p.BlockArea())
					near(t, "long edge", length.Length(along.Length()), long)
					near(t, "short edge", length.Length(across.Length()), wide)
					if c.Strand != k || c.Sub != s {
						t.Errorf("column %d of strand %d says it is %d of %d", s, k, c.Sub, c.Strand)
					}
					if along.Y < 0 {
						along = along.Times(-1)
					}
					if right := along.X > 0; right != (c.Hand == RightHand) {
						t.Errorf("strand %d: long edge %v, hand %v", k, along, c.Hand)
					}
					// Its blocks lie about the strand, between seams k and k+1.
					mid := r[0].Add(r[2]).Times(0.5).X / float64(p.Interval())
					slack := float64(p.Step()) / 2 / float64(p.Interval())
					if mid < float64(k)+0.5-slack || mid > float64(k)+0.5+slack {
						t.Errorf("strand %d has its middle at %v intervals", k, mid)
					}
				}
			}
		})
	}
}

// Blocks cover a window of the plane once: simplefeatures finds as much area
// in it as it has, and no two blocks overlap.
func TestTiling(t *testing.T) {
	for name, p := range patterns() {
		t.Run(name, func(t *testing.T) {
			x, step := float64(p.Interval()), float64(p.Step())
			w := max(1.1*x, 1.1*step)
			window := polygon(t, plane.Ring{{X: -w, Y: -0.9 * w}, {X: 1.2 * w, Y: -0.9 * w}, {X: 1.2 * w, Y: w}, {X: -w, Y: w}})
			var inside []geom.Geometry
			sum := 0.0
			kmax := int(3*w/x) + 2 + int(step/x)
			for k := -kmax; k <= kmax; k++ {
				for _, c := range p.Columns(k) {
					low, high := plane.Ring(c.Block[:]).Box()
					for i := int((-w-high.Y)/step) - 1; float64(i)*step+low.Y <= w; i++ {
						g, err := geom.Intersection(window, polygon(t, moved(c, float64(i)*step)))
						if err != nil {
							t.Fatal(err)
						}
						if g.Area() > 1e-6 {
							inside = append(inside, g)
							sum += g.Area()
						}
					}
				}
			}
			if math.Abs(sum-window.Area()) > 1e-9*window.Area() {
				t.Errorf("%d blocks cover %v mm² of %v", len(inside), sum, window.Area())
			}
			if len(inside) > 150 {
				return // enough to have added up
			}
			for i, a := range inside {
				for _, b := range inside[:i] {
					g, err := geom.Intersection(a, b)
					if err != nil {
						t.Fatal(err)
					}
					if g.Area() > 1e-6 {
						t.Errorf("%v and %v overlap in %v mm²", a.AsText(), b.AsText(), g.Area())
					}
				}
			}
		})
	}
}

// The first block of the spine's left strand has the middle of its end on the
// centre point: the trade's rule for setting the first block (common
// practice, no source). A unit of several has the middle of its ends there.
func TestFirstBlockOnCentre(t *testing.T) {
	for name, p := range patterns() {
		h, ok := p.(Herringbone)
		if !ok {
			continue
		}
		t.Run(name, func(t *testing.T) {
			// Strand -1 climbs to the right: its blocks run in u and their
			// far ends are corners 1 and 2.
			columns := h.Columns(-1)
			middle := columns[0].Block[1].Add(columns[len(columns)-1].Block[2]).Times(0.5)
			if middle.Length() > 1e-9 {
				t.Errorf("the middle of the end of the first unit lies at %v", middle)
			}
		})
	}
}

// Tips lie on the working lines, a spacing to either side of the seam's mean,
// each a corner of its block.
func TestTips(t *testing.T) {
	for name, p := range patterns() {
		t.Run(name, func(t *testing.T) {
			for k := -4; k <= 4; k++ {
				for _, i := range []int{-3, 0, 5} {
					tip := p.Tip(k, i)
					seam := float64(k+k&1) * float64(p.Interval()) // the even seam of the strand
					off := -float64(p.Spacing())
					if k&1 != 0 {
						off = -off
					}
					near(t, "tip off the seam's mean", length.Length(tip.X-seam), off)
					found := false
					for _, c := range p.Columns(k) {
						for _, q := range moved(c, float64(i)*float64(p.Step())) {
							found = found || q.Sub(tip).Length() < 1e-9
						}
					}
					if !found {
						t.Errorf("tip %v is no corner of block %d of strand %d", tip, i, k)
					}
				}
			}
			// One step apart along the axis.
			if d := p.Tip(0, 1).Sub(p.Tip(0, 0)); math.Abs(d.X) > 1e-9 || math.Abs(d.Y-float64(p.Step())) > 1e-9 {
				t.Errorf("from tip 0 to tip 1: %v, want straight on by %v", d, p.Step())
			}
		})
	}
}

func TestLinesUp(t *testing.T) {
	for _, tt := range []struct {
		h                     Herringbone
		ok                    bool
		miss, shorter, longer length.Length
	}{
		{Herringbone{70, 350, 1}, true, 0, 350, 350},
		{Herringbone{70, 350, 2}, false, 70, 280, 420},
		{Herringbone{70, 420, 3}, true, 0, 420, 420},
		{Herringbone{71, 500, 1}, false, 3, 497, 568},
		{Herringbone{70, 100, 2}, false, 100, 140, 140},
		{Herringbone{0.1, 0.3, 1}, true, 0, 0.3, 0.3}, // 0.3 is not 3 * 0.1 in binary
	} {
		ok, miss, shorter, longer := tt.h.LinesUp()
		if ok != tt.ok || math.Abs(float64(miss-tt.miss)) > 1e-9 || math.Abs(float64(shorter-tt.shorter)) > 1e-9 || math.Abs(float64(longer-tt.longer)) > 1e-9 {
			t.Errorf("%+v.LinesUp() = %v, %v, %v, %v, want %v, %v, %v, %v", tt.h, ok, miss, shorter, longer, tt.ok, tt.miss, tt.shorter, tt.longer)
		}
	}
}

// Seams of every other row lie in line if and only if the length is a
// multiple of the unit: then the long joints of strand k run on into those of
// strand k+2; otherwise they are offset by what LinesUp says.
func TestJointsInLine(t *testing.T) {
	for name, p := range patterns() {
		h, ok := p.(Herringbone)
		if !ok {
			continue
		}
		t.Run(name, func(t *testing.T) {
			unit := float64(h.Unit())
			for k := -3; k <= 1; k++ {
				// Long joints of a strand are lines one unit apart; measure
				// across them from one of strand k to one of strand k+2.
				a, b := h.Columns(k)[0].Block, h.Columns(k + 2)[0].Block
				along := a[1].Sub(a[0]).Times(1 / float64(h.Length))
				offset := math.Abs(along.Cross(b[0].Sub(a[0])))
				rest := math.Mod(offset, unit)
				if unit-rest < 1e-9 {
					rest = 0
				}
				up, miss, _, _ := h.LinesUp()
				if inLine := rest < 1e-9; inLine != up {
					t.Errorf("strands %d and %d: joints offset by %v of %v, LinesUp() = %v", k, k+2, rest, unit, up)
				}
				// Seen from one hand the offset is the miss, from the other
				// what it lacks of a unit.
				if m := float64(miss); math.Abs(rest-m) > 1e-9 && math.Abs(unit-rest-m) > 1e-9 {
					t.Errorf("strands %d and %d: joints offset by %v of %v, LinesUp() misses by %v", k, k+2, rest, unit, miss)
				}
			}
		})
	}
}

// The first blocks lie along the starting block and its halves: they share an
// edge as long as the block's own, and no block ahead of the start overlaps
// what it is laid against.
func TestStartingBlock(t *testing.T) {
	for name, p := range patterns() {
		t.Run(name, func(t *testing.T) {
			step := float64(p.Step())
			for _, start := range []int{0, -2, 3} {
				whole := p.StartingBlock(start)
				shared := func(k int, rings ...plane.Ring) (longest float64) {
					for _, c := range p.Columns(k) {
						for _, r := range rings {
							longest = max(longest, sharedEdge(r, moved(c, float64(start)*step)))
						}
					}
					return longest
				}
				// A herringbone's odd strands lie along it with all their
				// length; even ones stand against it beyond the unit that
				// butts against them.
				along := func(k int) float64 {
					h, ok := p.(Herringbone)
					switch {
					case !ok:
						return float64(p.(Chevron).Length)
					case k&1 == 0:
						return max(0, float64(h.Length-h.Unit()))
					default:
						return float64(h.Length)
					}
				}
				for k := -1; k <= 0; k++ {
					if got, want := shared(k, whole...), along(k); got < want-1e-9 {
						t.Errorf("start %d: the first block of strand %d lies along the starting block for %v, want %v", start, k, got, want)
					}
				}
				for k := -4; k <= 3; k++ {
					half := p.StartingHalf(k, start)
					if half.Area() <= 0 {
						t.Errorf("the half for strand %d is not counter-clockwise: %v", k, half)
					}
					if got, want := shared(k, half), along(k); got < want-1e-9 {
						t.Errorf("start %d: the first block of strand %d lies along its half for %v, want %v", start, k, got, want)
					}
				}
				for k := -1; k <= 0; k++ {
					for _, c := range p.Columns(k) {
						for i := start; i < start+6; i++ {
							block := moved(c, float64(i)*step)
							for _, r := range whole {
								if over := overlap(t, r, block); over > 1e-6 {
									t.Errorf("start %d: block %d of strand %d overlaps the starting block by %v mm²", start, i, k, over)
								}
							}
						}
					}
				}
				// A half has the strand ahead of the start, and the laid
				// strand it grows from, as neighbours.
				for k := -4; k <= 3; k++ {
					half := p.StartingHalf(k, start)
					beside := k - 1
					if k < 0 {
						beside = k + 1
					}
					for _, j := range []int{k, beside} {
						for _, c := range p.Columns(j) {
							for i := start; i < start+6; i++ {
								if over := overlap(t, half, moved(c, float64(i)*step)); over > 1e-6 {
									t.Errorf("start %d: block %d of strand %d overlaps the half for strand %d by %v mm²", start, i, j, k, over)
								}
							}
						}
					}
				}
			}
		})
	}
}

func overlap(t *testing.T, a, b plane.Ring) float64 {
	t.Helper()
	g, err := geom.Intersection(polygon(t, a), polygon(t, b))
	if err != nil {
		t.Fatal(err)
	}
	return g.Area()
}

// sharedEdge returns the length of the longest stretch in which an edge of a
// and an edge of b lie on one another.
func sharedEdge(a, b plane.Ring) (longest float64) {
	for i := range a {
		p, q := a.Edge(i)
		u := q.Sub(p).Times(1 / q.Sub(p).Length())
		for j := range b {
			r, s := b.Edge(j)
			if math.Abs(u.Cross(r.Sub(p))) > 1e-9 || math.Abs(u.Cross(s.Sub(p))) > 1e-9 {
				continue
			}
			from, to := u.Dot(r.Sub(p)), u.Dot(s.Sub(p))
			if from > to {
				from, to = to, from
			}
			longest = max(longest, min(to, q.Sub(p).Length())-max(from, 0))
		}
	}
	return longest
}

// Whether the placings are balanced is for the floor's test, which compares
// the cut pieces at opposite walls; here it is where they put the seams.
func TestBalancedPlacings(t *testing.T) {
	for name, p := range patterns() {
		t.Run(name, func(t *testing.T) {
			seen := map[Shift]bool{}
			half := float64(p.Interval()) / 2
			for _, s := range p.Balanced() {
				seen[s] = true
				if a := float64(s.Across); a != 0 && math.Abs(a-half) > 1e-12*half {
					t.Errorf("placing %v is neither on a seam nor midway between two", s)
				}
				if s.Along < 0 || s.Along >= p.Step() {
					t.Errorf("placing %v moves along by more than a step of %v", s, p.Step())
				}
			}
			if len(seen) != 4 {
				t.Errorf("placings %v are not four", p.Balanced())
			}
		})
	}
	// With a length that is a multiple of the unit the trade's start on the
	// centre point is balanced as it stands.
	for _, strands := range []int{1, 2, 3} {
		if s := (Herringbone{70, 420, strands}).Balanced()[0]; s != (Shift{}) {
			t.Errorf("420 x 70, %d strands: first placing %v, want no shift", strands, s)
		}
	}
	if s := (Herringbone{71, 500, 1}).Balanced()[0]; s.Along == 0 {
		t.Error("500 x 71 is called balanced without a shift")
	}
}
