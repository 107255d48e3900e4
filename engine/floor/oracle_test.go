package floor

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

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
	return rand.New(rand.NewPCG(seed, 0))
}

// uniform returns a random number from low to high.
func uniform(rng *rand.Rand, low, high float64) float64 { return low + (high-low)*rng.Float64() }

// cyclic returns a convex room about the origin: corners on an ellipse.
func cyclic(rng *rand.Rand, corners int, a, b float64) plane.Ring {
	var r plane.Ring
	for i := range corners {
		sin, cos := math.Sincos((float64(i) + 0.9*rng.Float64()) / float64(corners) * 2 * math.Pi)
		r = append(r, plane.Point{X: a * cos, Y: b * sin})
	}
	return r
}

// star returns a room that is seen whole from the origin.
func star(rng *rand.Rand, corners int, size float64) plane.Ring {
	r := cyclic(rng, corners, size, size)
	for i := range r {
		r[i] = r[i].Times(uniform(rng, 0.35, 1))
	}
	return r
}

// squareCornered returns an L, a T, a U or a staircase of a room about the
// origin, of the given size.
func squareCornered(rng *rand.Rand, size float64) plane.Ring {
	x := func(from, to float64) float64 { return size * uniform(rng, from, to) }
	a, b := x(0.7, 1), x(0.7, 1)
	u, v, w := x(0.2, 0.4), x(0.2, 0.4), x(0.2, 0.4)
	var r plane.Ring
	switch rng.IntN(4) {
	case 0: // L
		r = plane.Ring{{X: 0, Y: 0}, {X: a, Y: 0}, {X: a, Y: v}, {X: u, Y: v}, {X: u, Y: b}, {X: 0, Y: b}}
	case 1: // T
		r = plane.Ring{{X: u, Y: 0}, {X: u + w, Y: 0}, {X: u + w, Y: v}, {X: u + w + u, Y: v}, {X: u + w + u, Y: b}, {X: 0, Y: b}, {X: 0, Y: v}, {X: u, Y: v}}
	case 2: // U
		r = plane.Ring{{X: 0, Y: 0}, {X: u + w + v, Y: 0}, {X: u + w + v, Y: b}, {X: u + w, Y: b}, {X: u + w, Y: v}, {X: u, Y: v}, {X: u, Y: a}, {X: 0, Y: a}}
	default: // stairs
		r = plane.Ring{{X: 0, Y: 0}, {X: a, Y: 0}, {X: a, Y: v}, {X: u + w, Y: v}, {X: u + w, Y: v + w}, {X: u, Y: v + w}, {X: u, Y: b}, {X: 0, Y: b}}
	}
	low, high := r.Box()
	middle := low.Add(high).Times(0.5)
	for i := range r {
		r[i] = r[i].Sub(middle)
	}
	return r
}

// turnedRing returns a ring turned by an angle in degrees and moved.
func turnedRing(r plane.Ring, degrees float64, by plane.Point) plane.Ring {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = p.Turned(cos, sin).Add(by)
	}
	return out
}

// randomJob returns a room of about as many blocks as asked for, and a
// pattern in it. It is a job that can be laid out.
func randomJob(rng *rand.Rand, blocks float64) Job {
	for {
		job := Job{Width: length.Length(uniform(rng, 40, 150))}
		job.Length = job.Width * length.Length(uniform(rng, 1, 8))
		if rng.IntN(3) == 0 {
			job.Length = job.Width * length.Length(2+rng.IntN(6))
		}
		if rng.IntN(3) == 0 {
			job.Pattern, job.Mitre = Chevron, uniform(rng, minMitre, maxMitre)
		} else {
			job.Strands = 1 + rng.IntN(3)
		}
		size := 1.2 * math.Sqrt(blocks*float64(job.Width*job.Length))
		var room plane.Ring
		switch rng.IntN(3) {
		case 0:
			room = cyclic(rng, 3+rng.IntN(8), size*uniform(rng, 0.4, 0.8), size*uniform(rng, 0.4, 0.8))
		case 1:
			room = star(rng, 3+rng.IntN(10), 0.8*size)
		default:
			room = squareCornered(rng, size)
		}
		by := plane.Point{X: uniform(rng, -5000, 5000), Y: uniform(rng, -5000, 5000)}
		angle := 0.0
		if rng.IntN(2) == 0 {
			angle = uniform(rng, -180, 180)
		}
		job.Room = turnedRing(room, angle, by)
		if rng.IntN(2) == 0 {
			slices.Reverse(job.Room)
		}
		for range rng.IntN(4) {
			at := plane.Point{X: by.X + size*uniform(rng, -0.4, 0.4), Y: by.Y + size*uniform(rng, -0.4, 0.4)}
			hole := cyclic(rng, 3+rng.IntN(4), size*uniform(rng, 0.01, 0.15), size*uniform(rng, 0.01, 0.15))
			job.Holes = append(job.Holes, turnedRing(hole, 0, at))
		}
		switch rng.IntN(3) {
		case 0:
			job.Axis = uniform(rng, -360, 360)
		case 1:
			job.Axis = angle
		}
		if rng.IntN(2) == 0 {
			job.Gap, job.Border = length.Length(uniform(rng, 0, 20)), length.Length(uniform(rng, 0, 60))
		}
		if rng.IntN(2) == 0 {
			job.Across, job.Along = length.Length(uniform(rng, -500, 500)), length.Length(uniform(rng, -500, 500))
		}
		if rng.IntN(2) == 0 {
			job.Start = FromWall
		}
		if p, err := New(job); err == nil && p.FieldArea() > blocks/4*float64(job.Width*job.Length) {
			return job
		}
	}
}

// place is a block by its place in the pattern.
type place struct{ strand, sub, index int }

// wholeBlock returns the corners of a block by the pattern's definition, from
// the room's point of view and without the engine's own pattern package.
//
// Herringbone, in directions u and v at 45 degrees to the axis: blocks along
// u are [iU-L+mL, iU+mL] x [iU-U/2-mL+sW, +W] in strand 2m-1, blocks along v
// are [iU+mL+sW, +W] x [iU+U/2-L-mL, iU+U/2-mL] in strand 2m.
//
// Chevron: strand k is from k to k+1 times L sin a wide, and climbs L cos a
// from left to right where k is even, from right to left where it is odd.
func wholeBlock(job Job, at place) plane.Ring {
	job = job.WithDefaults()
	w, l := float64(job.Width), float64(job.Length)
	var r plane.Ring
	if job.Pattern == Chevron {
		sin, cos := math.Sincos(job.Mitre * math.Pi / 180)
		x0, x1 := float64(at.strand)*l*sin, float64(at.strand+1)*l*sin
		y0, y1 := 0.0, l*cos
		if at.strand%2 != 0 {
			y0, y1 = y1, y0
		}
		step := w / sin
		y0, y1 = y0+float64(at.index)*step, y1+float64(at.index)*step
		r = plane.Ring{{X: x0, Y: y0}, {X: x1, Y: y1}, {X: x1, Y: y1 + step}, {X: x0, Y: y0 + step}}
	} else {
		unit, i, s := w*float64(job.Strands), float64(at.index), float64(at.sub)
		var u0, u1, v0, v1 float64
		if at.strand%2 != 0 {
			m := float64((at.strand + 1) / 2)
			u0, u1 = i*unit-l+m*l, i*unit+m*l
			v0 = i*unit - unit/2 - m*l + s*w
			v1 = v0 + w
		} else {
			m := float64(at.strand / 2)
			u0 = i*unit + m*l + s*w
			u1 = u0 + w
			v0, v1 = i*unit+unit/2-l-m*l, i*unit+unit/2-m*l
		}
		for _, q := range [][2]float64{{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}} {
			r = append(r, plane.Point{X: (q[0] - q[1]) / math.Sqrt2, Y: (q[0] + q[1]) / math.Sqrt2})
		}
	}
	for i := range r {
		r[i] = r[i].Add(plane.Point{X: float64(job.Across), Y: float64(job.Along)})
	}
	return turnedRing(r, job.Axis, *job.Centre)
}

// candidates yields every place whose block's box meets the box of the field.
func candidates(job Job, field []plane.Ring, yield func(place, plane.Ring)) {
	job = job.WithDefaults()
	low, high := field[0].Box()
	reach := high.Sub(low).Length() + low.Add(high).Times(0.5).Sub(*job.Centre).Length() +
		math.Hypot(float64(job.Across), float64(job.Along)) + 2*float64(job.Length)
	step := wholeBlock(job, place{0, 0, 1})[0].Sub(wholeBlock(job, place{0, 0, 0})[0]).Length()
	interval := wholeBlock(job, place{2, 0, 0})[0].Sub(wholeBlock(job, place{0, 0, 0})[0])
	across := math.Abs(interval.Cross(wholeBlock(job, place{0, 0, 1})[0].Sub(wholeBlock(job, place{0, 0, 0})[0]))) / step / 2
	subs := job.Strands
	if job.Pattern == Chevron {
		subs = 1
	}
	strands := int(reach/across) + 3
	for k := -strands; k <= strands; k++ {
		for s := range subs {
			// Where the column passes the middle of the field.
			first := wholeBlock(job, place{k, s, 0})
			up := wholeBlock(job, place{k, s, 1})[0].Sub(first[0])
			at := low.Add(high).Times(0.5).Sub(first[0]).Dot(up) / (step * step)
			n := int(reach/step) + 3
			for i := int(at) - n; i <= int(at)+n; i++ {
				r := wholeBlock(job, place{k, s, i})
				a, b := r.Box()
				if a.X <= high.X && b.X >= low.X && a.Y <= high.Y && b.Y >= low.Y {
					yield(place{k, s, i}, r)
				}
			}
		}
	}
}

// polygon returns rings, the outline first, in the terms of simplefeatures.
func polygon(t testing.TB, rings ...plane.Ring) geom.Geometry {
	t.Helper()
	g := polygonUnchecked(rings...)
	if err := g.Validate(); err != nil {
		t.Fatalf("%v is not a polygon: %v", rings, err)
	}
	return g
}

func polygonUnchecked(rings ...plane.Ring) geom.Geometry {
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

// what is left of a block, by simplefeatures.
type left struct {
	full   bool
	pieces []float64 // areas, smallest first
}

// cutAll clips every candidate block with simplefeatures, a port of the JTS
// topology suite that shares nothing with this package.
func cutAll(t testing.TB, job Job, field []plane.Ring) map[place]left {
	t.Helper()
	whole := polygon(t, field...)
	block := float64(job.WithDefaults().Width * job.WithDefaults().Length)
	out := map[place]left{}
	candidates(job, field, func(at place, r plane.Ring) {
		g, err := geom.Intersection(whole, polygonUnchecked(r))
		if err != nil {
			t.Fatalf("block %v: %v", at, err)
		}
		var l left
		area := 0.0
		for _, part := range g.Dump() {
			if a := part.Area(); a >= smallestPiece {
				l.pieces = append(l.pieces, a)
				area += a
			}
		}
		if l.full = len(l.pieces) == 1 && math.Abs(area-block) < wholeShare*block; l.full {
			l.pieces = nil
		}
		if area > 0 {
			slices.Sort(l.pieces)
			out[at] = l
		}
	})
	return out
}

// laid returns the plan's blocks by place, in rows.
func laid(t testing.TB, p *Plan) map[place]Block {
	t.Helper()
	out := map[place]Block{}
	for row := range p.Rows() {
		for b := range p.Blocks(row) {
			at := place{b.Strand, b.Sub, b.Index}
			if _, twice := out[at]; twice {
				t.Errorf("block %v comes twice", at)
			}
			b.Pieces = slices.Clone(b.Pieces)
			out[at] = b
		}
	}
	return out
}

// compare checks a plan block by block against simplefeatures. Block by block
// areas agree to 1e-9 of the field.
func compare(t testing.TB, job Job) {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	want, got := cutAll(t, job, p.Field()), laid(t, p)
	tolerance := 1e-9 * p.FieldArea()
	faults := 0
	fault := func(at place, text string) {
		if faults++; faults <= 5 {
			t.Errorf("block %v: %s", at, text)
		}
	}
	var full, cut, pieces int
	for at, l := range want {
		b, ok := got[at]
		switch {
		case !ok:
			fault(at, "is missing")
		case b.Full != l.full:
			fault(at, "full is "+strconv.FormatBool(b.Full)+", the reference says "+strconv.FormatBool(l.full))
		case len(b.Pieces) != len(l.pieces):
			fault(at, strconv.Itoa(len(b.Pieces))+" pieces, the reference has "+strconv.Itoa(len(l.pieces)))
		default:
			var areas []float64
			for _, piece := range b.Pieces {
				areas = append(areas, piece.Area)
			}
			slices.Sort(areas)
			for i, a := range areas {
				if math.Abs(a-l.pieces[i]) > tolerance {
					fault(at, strconv.FormatFloat(a, 'g', -1, 64)+" mm², the reference has "+strconv.FormatFloat(l.pieces[i], 'g', -1, 64))
				}
			}
			for i, q := range wholeBlock(job, at) {
				// The engine starts each block with a long edge, the
				// definition with its own first corner.
				if !slices.ContainsFunc(b.Corners[:], func(c plane.Point) bool { return c.Sub(q).Length() < 1e-6 }) {
					fault(at, "has no corner "+strconv.Itoa(i))
				}
			}
		}
		if l.full {
			full++
		} else {
			cut, pieces = cut+1, pieces+len(l.pieces)
		}
	}
	for at := range got {
		if _, ok := want[at]; !ok {
			fault(at, "is not in the field")
		}
	}
	if c := p.Count(); c.Full != full || c.Cut != cut || c.Pieces != pieces || math.Abs(c.Area-p.FieldArea()) > tolerance {
		t.Errorf("full, cut, pieces, area = %d, %d, %d, %v, the reference has %d, %d, %d, %v",
			c.Full, c.Cut, c.Pieces, c.Area, full, cut, pieces, p.FieldArea())
	}
	if t.Failed() {
		t.Logf("job: %+v, centre %v", job, p.Job().Centre)
	}
}
