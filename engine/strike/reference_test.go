package strike

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/floor"
	"keelrow/engine/length"
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
	return rand.New(rand.NewPCG(seed, 1))
}

func uniform(rng *rand.Rand, low, high float64) float64 { return low + (high-low)*rng.Float64() }

// rect returns a rectangle from its near left corner.
func rect(wide, deep length.Length) []plane.Point {
	w, d := float64(wide), float64(deep)
	return []plane.Point{{}, {X: w}, {X: w, Y: d}, {Y: d}}
}

// randomJob returns a job that can be laid out: a crooked rectangle, an L or a
// many-cornered room, given either way round, with or without a hearth, a gap,
// a border, single walls' own gaps and borders, and bowed walls.
func randomJob(rng *rand.Rand) floor.Job {
	for {
		job := floor.Job{
			Width:   length.Length(uniform(rng, 50, 130)),
			Strands: 1 + rng.IntN(3),
			Centre:  &plane.Point{X: uniform(rng, -200, 200), Y: uniform(rng, -200, 200)},
		}
		job.Length = job.Width * length.Length(uniform(rng, 2, 7))
		if rng.IntN(3) == 0 {
			job.Pattern, job.Mitre = floor.Chevron, uniform(rng, 30, 65)
		}
		a, b := uniform(rng, 1200, 2200), uniform(rng, 1200, 2200)
		off := func() float64 { return uniform(rng, -80, 80) }
		switch rng.IntN(3) {
		case 0:
			job.Room = []plane.Point{{X: -a + off(), Y: -b + off()}, {X: a + off(), Y: -b + off()}, {X: a + off(), Y: b + off()}, {X: -a + off(), Y: b + off()}}
		case 1:
			job.Room = []plane.Point{{X: -a, Y: -b}, {X: a, Y: -b}, {X: a, Y: 0.3 * b}, {X: 0.4 * a, Y: 0.3 * b}, {X: 0.4 * a, Y: b}, {X: -a, Y: b}}
		default:
			for i := range 7 {
				sin, cos := math.Sincos((float64(i) + 0.5*rng.Float64()) / 7 * 2 * math.Pi)
				job.Room = append(job.Room, plane.Point{X: a * cos, Y: b * sin})
			}
		}
		if rng.IntN(2) == 0 {
			slices.Reverse(job.Room)
		}
		if rng.IntN(3) == 0 {
			x, y := uniform(rng, -600, 0), uniform(rng, -600, 0)
			job.Holes = [][]plane.Point{{{X: x, Y: y}, {X: x + 310, Y: y + off()}, {X: x + 330, Y: y + 270}, {X: x, Y: y + 300}}}
		}
		if rng.IntN(2) == 0 {
			job.Axis = uniform(rng, -180, 180)
		}
		if rng.IntN(2) == 0 {
			job.Across, job.Along = length.Length(uniform(rng, -300, 300)), length.Length(uniform(rng, -300, 300))
		}
		if rng.IntN(2) == 0 {
			job.Gap, job.Border = length.Length(uniform(rng, 5, 20)), length.Length(uniform(rng, 20, 150))
			job.GapAt = []floor.AtWall{{Wall: 1, Length: 18}}
			job.BorderAt = []floor.AtWall{{Wall: 2, Length: 90}}
		}
		if rng.IntN(2) == 0 {
			job.Bows = []floor.Bow{{Wall: rng.IntN(4), Rise: length.Length(uniform(rng, -25, 25))}}
		}
		if _, err := floor.New(job); err == nil {
			return job
		}
	}
}

func newPlan(t testing.TB, job floor.Job) *floor.Plan {
	t.Helper()
	p, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// near fails unless two lengths agree to a thousandth of a millimetre.
func near(t testing.TB, what string, got, want length.Length) {
	t.Helper()
	if math.Abs(float64(got-want)) > 1e-3 {
		t.Errorf("%s = %.4f mm (%.4f in), want %.4f mm (%.4f in)", what, float64(got), float64(got/length.Inch), float64(want), float64(want/length.Inch))
	}
}

// nearIn is near for inches worked to four places by hand.
func nearIn(t testing.TB, what string, got length.Length, inches float64) {
	t.Helper()
	if math.Abs(float64(got/length.Inch)-inches) > 0.0001 {
		t.Errorf("%s = %.4f in, want %.4f in", what, float64(got/length.Inch), inches)
	}
}

// lay is a block by the pattern's definition, in the room frame, without the
// engine's own pattern package. Herringbone: in directions u and v at 45
// degrees to the axis, blocks along u are [iU-L+mL, iU+mL] x [iU-U/2-mL+sW, +W]
// in strand 2m-1, blocks along v are [iU+mL+sW, +W] x [iU+U/2-L-mL, iU+U/2-mL]
// in strand 2m. Chevron: strand k is from k to k+1 times L sin a wide, climbs
// L cos a from left to right where k is even, from right to left where odd.
func lay(job floor.Job, strand, sub, index int) plane.Ring {
	w, l := float64(job.Width), float64(job.Length)
	var r plane.Ring
	if job.Pattern == floor.Chevron {
		sin, cos := math.Sincos(job.Mitre * math.Pi / 180)
		y0, y1 := 0.0, l*cos
		if strand%2 != 0 {
			y0, y1 = y1, y0
		}
		step := w / sin
		lift := float64(index) * step
		x0, x1 := float64(strand)*l*sin, float64(strand+1)*l*sin
		r = plane.Ring{{X: x0, Y: y0 + lift}, {X: x1, Y: y1 + lift}, {X: x1, Y: y1 + step + lift}, {X: x0, Y: y0 + step + lift}}
	} else {
		unit, i, s := w*float64(job.Strands), float64(index), float64(sub)
		var u0, u1, v0, v1 float64
		if strand%2 != 0 {
			m := float64((strand + 1) / 2)
			u0, u1, v0 = i*unit-l+m*l, i*unit+m*l, i*unit-unit/2-m*l+s*w
			v1 = v0 + w
		} else {
			m := float64(strand / 2)
			u0, v0, v1 = i*unit+m*l+s*w, i*unit+unit/2-l-m*l, i*unit+unit/2-m*l
			u1 = u0 + w
		}
		for _, q := range [][2]float64{{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}} {
			r = append(r, plane.Point{X: (q[0] - q[1]) / math.Sqrt2, Y: (q[0] + q[1]) / math.Sqrt2})
		}
	}
	sin, cos := math.Sincos(job.Axis * math.Pi / 180)
	for i := range r {
		r[i] = r[i].Add(plane.Point{X: float64(job.Across), Y: float64(job.Along)}).Turned(cos, sin).Add(*job.Centre)
	}
	return r
}

func polygon(rings ...plane.Ring) geom.Geometry {
	var lines []geom.LineString
	for _, r := range rings {
		var xy []float64
		for i := 0; i <= len(r); i++ {
			xy = append(xy, r[i%len(r)].X, r[i%len(r)].Y)
		}
		lines = append(lines, geom.NewLineString(geom.NewSequence(xy, geom.DimXY)))
	}
	return geom.NewPolygon(lines).AsGeometry()
}

// cutBlock is what simplefeatures, a port of the JTS topology suite that
// shares nothing with the engine, leaves of a block.
type cutBlock struct {
	strand, sub, index int
	whole              plane.Ring
	full               bool
	pieces             []plane.Ring // outlines of what is left of a cut block
	areas              []float64
}

// cutAll clips every block near the field with simplefeatures.
func cutAll(t testing.TB, p *floor.Plan) []cutBlock {
	t.Helper()
	job := p.Job()
	field := polygon(p.Field()...)
	low, high := p.Field()[0].Box()
	subs := job.Strands
	if job.Pattern == floor.Chevron {
		subs = 1
	}
	reach := high.Sub(low).Length()/2 + low.Add(high).Times(0.5).Sub(*job.Centre).Length() + math.Hypot(float64(job.Across), float64(job.Along)) + 2*float64(job.Length)
	first := lay(job, 0, 0, 0)
	step := lay(job, 0, 0, 1)[0].Sub(first[0])
	two := lay(job, 2, 0, 0)[0].Sub(first[0])
	interval := math.Abs(two.Cross(step)) / step.Length() / 2
	var out []cutBlock
	strands := int(reach/interval) + 3
	for k := -strands; k <= strands; k++ {
		for s := range subs {
			base := lay(job, k, s, 0)
			mid := int(low.Add(high).Times(0.5).Sub(base[0]).Dot(step) / step.Dot(step))
			n := int(reach/step.Length()) + 3
			for i := mid - n; i <= mid+n; i++ {
				r := lay(job, k, s, i)
				a, b := r.Box()
				if a.X > high.X || b.X < low.X || a.Y > high.Y || b.Y < low.Y {
					continue
				}
				g, err := geom.Intersection(field, polygon(r))
				if err != nil {
					t.Fatal(err)
				}
				c := cutBlock{strand: k, sub: s, index: i, whole: r}
				area := 0.0
				for _, part := range g.Dump() {
					poly, ok := part.AsPolygon()
					if !ok || poly.Area() < 1e-3 {
						continue
					}
					seq := poly.ExteriorRing().Coordinates()
					var outline plane.Ring
					for j := range seq.Length() - 1 {
						xy := seq.GetXY(j)
						outline = append(outline, plane.Point{X: xy.X, Y: xy.Y})
					}
					c.pieces, c.areas = append(c.pieces, outline), append(c.areas, poly.Area())
					area += poly.Area()
				}
				if len(c.pieces) == 0 {
					continue
				}
				if c.full = len(c.pieces) == 1 && math.Abs(area-r.Area()) < 1e-9*r.Area(); c.full {
					c.pieces, c.areas = nil, nil
				}
				out = append(out, c)
			}
		}
	}
	return out
}

// counted adds up what simplefeatures finds, by hand of block: Left is that of
// even strands in a herringbone, of odd ones in a chevron.
func counted(t testing.TB, p *floor.Plan) (full, cut, even, odd int) {
	for _, b := range cutAll(t, p) {
		if b.full {
			full++
		} else {
			cut++
		}
		if b.strand&1 == 0 {
			even++
		} else {
			odd++
		}
	}
	return full, cut, even, odd
}

// agrees checks a plan's count with simplefeatures and returns it.
func agrees(t testing.TB, p *floor.Plan) (full, cut int) {
	t.Helper()
	full, cut, _, _ = counted(t, p)
	if c := p.Count(); c.Full != full || c.Cut != cut {
		t.Errorf("%d full and %d cut, simplefeatures finds %d and %d", c.Full, c.Cut, full, cut)
	}
	return full, cut
}
