package strike

import (
	"math"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

var tapes = []length.Tape{
	{Unit: length.Inches, Fraction: 16}, {Unit: length.Inches, Fraction: 32}, {Unit: length.Inches, Fraction: 64}, {},
}

// half returns half of a tape's smallest mark.
func half(t length.Tape) float64 {
	if t.Unit == length.Inches {
		return 25.4 / float64(2*t.Fraction)
	}
	return 0.5
}

// exact returns a point of a mark's line and its direction, from the
// pattern's definition alone: interval L/√2 or L sin a, spacing S W √2/4.
func exact(job floor.Job, m Mark) (q, dir plane.Point) {
	sin, cos := math.Sincos(job.Axis * math.Pi / 180)
	toRoom := func(p plane.Point) plane.Point { return p.Turned(cos, sin) }
	shift := plane.Point{X: float64(job.Across), Y: float64(job.Along)}
	var at, way plane.Point
	interval, spacing, lean := float64(job.Length)/math.Sqrt2, float64(job.Strands)*float64(job.Width)*math.Sqrt2/4, math.Pi/4
	if job.Pattern == floor.Chevron {
		lean = job.Mitre * math.Pi / 180
		interval, spacing = float64(job.Length)*math.Sin(lean), 0
	}
	switch m.Kind {
	case Centre:
		way = plane.Point{Y: 1}
	case Cross:
		way = plane.Point{X: 1}
	case Spine:
		at, way = shift, plane.Point{Y: 1}
	case Origin:
		at, way = shift, plane.Point{X: 1}
	case Working, Seam:
		at, way = shift.Add(plane.Point{X: float64(m.Seam)*interval + float64(m.Side)*spacing}), plane.Point{Y: 1}
	case Diagonal:
		at, way = shift, plane.Point{X: float64(m.Side) * math.Sin(lean), Y: math.Cos(lean)}
	}
	return job.Centre.Add(toRoom(at)), toRoom(way)
}

// corners returns the two corners of a wall as the job gives them.
func corners(job floor.Job, e End) (from, along plane.Point) {
	ring := plane.Ring(job.Room)
	if e.Hole > 0 {
		ring = job.Holes[e.Hole-1]
	}
	from, to := ring[e.Wall], ring[(e.Wall+1)%len(ring)]
	return from, to.Sub(from).Times(1 / to.Sub(from).Length())
}

// Every reading, written down as the tape shows it and measured off again
// from the corner it names, puts the mark within half the tape's smallest mark
// of the line. A mark for a bowed wall is set on the string from corner to
// corner and squared off from there.
func TestMarksReadBack(t *testing.T) {
	rng := random(t)
	bowed := 0
	for range 60 {
		job := randomJob(rng)
		p := newPlan(t, job)
		job = p.Job()
		for _, m := range Marks(p) {
			for _, part := range m.Parts {
				for _, e := range part.Ends {
					from, along := corners(job, e)
					if e.Corner != e.Wall {
						t.Fatalf("%+v: hooked on corner %d of wall %d", m, e.Corner, e.Wall)
					}
					if e.Bowed {
						bowed++
					}
					inward := plane.Point{X: -along.Y, Y: along.X}
					if given := plane.Ring(job.Room); (e.Hole == 0) != (given.Area() > 0) && e.Hole == 0 {
						inward = inward.Times(-1)
					}
					if e.Hole > 0 && plane.Ring(job.Holes[e.Hole-1]).Area() > 0 {
						inward = inward.Times(-1)
					}
					for _, tape := range tapes {
						read := func(r length.Reading) float64 {
							l, err := length.Parse(r.Text(), length.Millimetres)
							if err != nil {
								t.Fatal(err)
							}
							return float64(l)
						}
						got := from.Add(along.Times(read(e.Reading(tape))))
						if m.Kind == Border {
							off := read(e.OffsetReading(tape))
							want := float64(job.Gap + job.Border)
							if e.Hole == 0 {
								gap, border := job.Gap, job.Border
								for _, a := range job.GapAt {
									if a.Wall == e.Wall {
										gap = a.Length
									}
								}
								for _, a := range job.BorderAt {
									if a.Wall == e.Wall {
										border = a.Length
									}
								}
								want = float64(gap + border)
							}
							if !e.Bowed && math.Abs(off-want) > half(tape)+tiny {
								t.Errorf("border along wall %d: %v off it on %v, want %v", e.Wall, off, tape, want)
							}
							got = got.Add(inward.Times(off))
							if d := got.Sub(e.Point); math.Abs(d.Dot(along)) > half(tape)+tiny || math.Abs(d.Dot(inward)) > half(tape)+tiny {
								t.Errorf("border along wall %d ends at %v, read back as %v", e.Wall, e.Point, got)
							}
							continue
						}
						// Off the string to the wall, as far as the wall is there.
						got = got.Add(inward.Times(e.Point.Sub(from).Dot(inward)))
						q, dir := exact(job, m)
						if d := math.Abs(got.Sub(q).Cross(dir)); d > half(tape)+tiny {
							t.Errorf("%+v: read back on %v it is %v off the line\njob %+v", m, tape, d, job)
						}
					}
				}
			}
		}
	}
	if bowed == 0 {
		t.Error("no line ended at a bowed wall: bowed walls were not tested")
	}
}

// Lines run over all of the room, or of the field, and nowhere else: their
// parts are as long as simplefeatures finds them.
func TestMarksCoverTheRoom(t *testing.T) {
	rng := random(t)
	for range 25 {
		p := newPlan(t, randomJob(rng))
		for _, tt := range []struct {
			marks []Mark
			rings []plane.Ring
		}{{Marks(p), p.Room()}, {OnBorder(p), p.Field()}} {
			area := polygon(tt.rings...)
			for _, m := range tt.marks {
				if m.Kind == Border {
					continue
				}
				q, dir := exact(p.Job(), m)
				a, b := q.Sub(dir.Times(2e4)), q.Add(dir.Times(2e4))
				line := geom.NewLineString(geom.NewSequence([]float64{a.X, a.Y, b.X, b.Y}, geom.DimXY)).AsGeometry()
				g, err := geom.Intersection(area, line)
				if err != nil {
					t.Fatal(err)
				}
				sum := 0.0
				for _, part := range m.Parts {
					sum += float64(part.Long)
					for _, e := range part.Ends {
						off := math.Inf(1)
						for _, r := range tt.rings {
							for i := range r {
								from, to := r.Edge(i)
								off = min(off, plane.FromEdge(e.Point, from, to))
							}
						}
						if off > tiny {
							t.Errorf("%+v ends %v off the walls", m, off)
						}
						// Measured back along its wall the tape comes to a corner.
						_, u := corners(p.Job(), e)
						hook := e.Point.Sub(u.Times(float64(e.Distance)))
						if !e.Bowed && !slices.ContainsFunc(tt.rings[e.Hole], func(q plane.Point) bool { return q.Sub(hook).Length() < 1e-5 }) {
							t.Errorf("%+v: the tape for %+v hooks on no corner", m, e)
						}
					}
				}
				if math.Abs(sum-g.Length()) > 1e-5 {
					t.Errorf("%+v is %v long, simplefeatures finds %v", m, sum, g.Length())
				}
			}
		}
	}
}

// Every line a layer needs is there, once: a pair for every seam that crosses
// the field, one for a chevron's seam.
func TestMarksAreComplete(t *testing.T) {
	// 4200 by 3600, 70 x 350: interval 350/√2 = 247.49, 2100/247.49 = 8.49, so
	// seams -8 to 8 cross the field: 17 pairs.
	p := newPlan(t, floor.Job{Gap: 12, Border: 60})
	count := map[Kind]int{}
	seen := map[[3]int]bool{}
	for _, m := range Marks(p) {
		count[m.Kind]++
		key := [3]int{int(m.Kind), m.Seam*8 + m.Wall, m.Side}
		if seen[key] {
			t.Errorf("%+v comes twice", m)
		}
		seen[key] = true
	}
	want := map[Kind]int{Centre: 1, Cross: 1, Working: 34, Diagonal: 2, Border: 4}
	for k := Centre; k <= Border; k++ {
		if count[k] != want[k] {
			t.Errorf("%d lines of kind %d, want %d", count[k], k, want[k])
		}
	}
	// Chevron 600 x 90 at 45: interval 600/√2 = 424.26.
	q := newPlan(t, floor.Job{Pattern: floor.Chevron, Width: 90, Length: 600, Across: 30, Along: -20})
	count = map[Kind]int{}
	for _, m := range Marks(q) {
		count[m.Kind]++
	}
	// Moved 30 to the right, the walls lie (-2100-30)/424.26 = -5.02 and
	// (2100-30)/424.26 = 4.88 intervals off: seams -5 to 4.
	want = map[Kind]int{Centre: 1, Cross: 1, Spine: 1, Origin: 1, Seam: 10, Diagonal: 2}
	for k := Centre; k <= Border; k++ {
		if count[k] != want[k] {
			t.Errorf("chevron: %d lines of kind %d, want %d", count[k], k, want[k])
		}
	}
}
