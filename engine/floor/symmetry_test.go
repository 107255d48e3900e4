package floor

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// areas returns the areas of all pieces, smallest first.
func areas(t testing.TB, job Job) (list []float64, count Count) {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					list = append(list, piece.Area)
				}
			}
		}
	}
	slices.Sort(list)
	return list, p.Count()
}

// movedJob returns the job with every point of it taken elsewhere.
func movedJob(j Job, move func(plane.Point) plane.Point) Job {
	j = j.WithDefaults()
	ring := func(r []plane.Point) (out []plane.Point) {
		for _, p := range r {
			out = append(out, move(p))
		}
		return out
	}
	centre := move(*j.Centre)
	j.Centre, j.Room = &centre, ring(j.Room)
	holes := j.Holes
	j.Holes = nil
	for _, h := range holes {
		j.Holes = append(j.Holes, ring(h))
	}
	return j
}

// intact returns a job that has no piece near the size that is dropped, so
// that neither rounding nor twice the size can add or take one: none a little
// over it, and nothing of the field missing that was under it.
func intact(t testing.TB, next func() Job) Job {
	for {
		job := next()
		p, err := New(job)
		if err != nil {
			t.Fatal(err)
		}
		list, count := areas(t, job)
		if len(list) > 0 && list[0] > 2*smallestPiece && math.Abs(p.FieldArea()-count.Area) < smallestPiece/100 {
			return job
		}
	}
}

// same checks that two jobs give the same pieces, those of the second scaled.
func same(t *testing.T, what string, a, b Job, scale float64) {
	t.Helper()
	before, countBefore := areas(t, a)
	after, countAfter := areas(t, b)
	if countBefore.Full != countAfter.Full || countBefore.Cut != countAfter.Cut || len(before) != len(after) {
		t.Errorf("%s: full, cut, pieces = %d, %d, %d, before %d, %d, %d\njob %+v, centre %v", what,
			countAfter.Full, countAfter.Cut, len(after), countBefore.Full, countBefore.Cut, len(before), a, a.WithDefaults().Centre)
		return
	}
	for i := range before {
		if math.Abs(after[i]-scale*before[i]) > 1e-9*scale*max(1e4, countBefore.Area) {
			t.Errorf("%s: piece %d of %v mm², before %v\njob %+v, centre %v", what, i, after[i], before[i], a, a.WithDefaults().Centre)
			return
		}
	}
}

// The room and the pattern turned and moved together: nothing changes.
func TestTurnedAndMoved(t *testing.T) {
	rng := random(t)
	for range 30 {
		job := intact(t, func() Job { return randomJob(rng, 200) })
		angle, by := uniform(rng, -180, 180), plane.Point{X: uniform(rng, -9000, 9000), Y: uniform(rng, -9000, 9000)}
		sin, cos := math.Sincos(angle * math.Pi / 180)
		turned := movedJob(job, func(p plane.Point) plane.Point { return p.Turned(cos, sin).Add(by) })
		turned.Axis = math.Mod(job.Axis+angle, 360)
		same(t, "turned by "+strconv.FormatFloat(angle, 'g', -1, 64), job, turned, 1)
	}
}

// Corners in the other order round, or from another first corner.
func TestCornerOrder(t *testing.T) {
	rng := random(t)
	for range 10 {
		job := intact(t, func() Job { return randomJob(rng, 200) })
		job = movedJob(job, func(p plane.Point) plane.Point { return p })
		again := movedJob(job, func(p plane.Point) plane.Point { return p })
		slices.Reverse(again.Room)
		for _, h := range again.Holes {
			slices.Reverse(h)
		}
		same(t, "the other way round", job, again, 1)
		again.Room = append(again.Room[1:], again.Room[0])
		same(t, "from another corner", job, again, 1)
	}
}

// Twice every size: the same blocks, four times the area.
func TestTwiceTheSize(t *testing.T) {
	rng := random(t)
	for range 20 {
		job := intact(t, func() Job { return randomJob(rng, 200) })
		twice := movedJob(job, func(p plane.Point) plane.Point { return p.Times(2) })
		for _, l := range []*length.Length{&twice.Width, &twice.Length, &twice.Gap, &twice.Border, &twice.Across, &twice.Along} {
			*l *= 2
		}
		same(t, "twice the size", job, twice, 4)
		small, err := New(job)
		if err != nil {
			t.Fatal(err)
		}
		large, err := New(twice)
		if err != nil {
			t.Fatal(err)
		}
		a, b := small.Pattern(), large.Pattern()
		if b.Step() != 2*a.Step() || b.Interval() != 2*a.Interval() || b.Spacing() != 2*a.Spacing() {
			t.Errorf("step, interval, spacing = %v, %v, %v, want twice %v, %v, %v", b.Step(), b.Interval(), b.Spacing(), a.Step(), a.Interval(), a.Spacing())
		}
	}
}

// A half-turn of the room about the middle of a block (International Tables
// for Crystallography, vol. A, plane groups 7 and 8: the middles of blocks
// are half-turn points of both patterns).
func TestHalfTurn(t *testing.T) {
	rng := random(t)
	for range 20 {
		job := intact(t, func() Job { return randomJob(rng, 200) })
		job.Strands = 1
		job = job.WithDefaults()
		b := wholeBlock(job, place{rng.IntN(7) - 3, 0, rng.IntN(9) - 4})
		middle := b[0].Add(b[2]).Times(0.5)
		turned := movedJob(job, func(p plane.Point) plane.Point { return middle.Times(2).Sub(p) })
		turned.Centre = job.Centre // the pattern stays
		same(t, "half-turn", job, turned, 1)
	}
}

// A herringbone is its own mirror image after a slide of half a step along
// the mirror, a seam's mean or, across the axis, the line a quarter step from
// a half-turn point and slid by half the repeat, one interval (plane group
// p2gg: two sets of glide lines). A chevron is its own plain mirror image in
// a seam (p2mg).
func TestMirrored(t *testing.T) {
	rng := random(t)
	for range 40 {
		job := intact(t, func() Job { return randomJob(rng, 200) })
		job = movedJob(job, func(p plane.Point) plane.Point { return p })
		sin, cos := math.Sincos(job.Axis * math.Pi / 180)
		step, interval := float64(job.Blocks().Step()), float64(job.Blocks().Interval())
		origin := job.Centre.Add(plane.Point{X: float64(job.Across), Y: float64(job.Along)}.Turned(cos, sin))
		reflect := func(move func(plane.Point) plane.Point) Job {
			mirrored := movedJob(job, func(p plane.Point) plane.Point {
				return move(p.Sub(origin).Turned(cos, -sin)).Turned(cos, sin).Add(origin)
			})
			mirrored.Centre = job.Centre
			return mirrored
		}
		seam := float64(rng.IntN(5)-2) * interval
		slide := step / 2
		if job.Pattern == Chevron {
			slide = 0
		}
		same(t, "mirrored in a seam", job, reflect(func(p plane.Point) plane.Point {
			return plane.Point{X: 2*seam - p.X, Y: p.Y + slide}
		}), 1)
		if job.Pattern == Herringbone {
			// The middle of the first unit, by the pattern's definition at
			// u = -L/2, v = 0.
			middle := -float64(job.Length) / 2 / math.Sqrt2
			glide := middle + step/4
			same(t, "mirrored across the axis", job, reflect(func(p plane.Point) plane.Point {
				return plane.Point{X: p.X + interval, Y: 2*glide - p.Y}
			}), 1)
		}
	}
}

// atWalls gathers, for each wall of a rectangle, the areas of the cut pieces
// that lie at it; corners says whether those in the corners count too.
func atWalls(t *testing.T, job Job, corners bool) (walls [4][]float64) {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					var at [4]bool
					count := 0
					for w := range walls {
						a, b := p.Field()[0].Edge(w)
						u := b.Sub(a).Times(1 / b.Sub(a).Length())
						at[w] = slices.ContainsFunc(piece.Outline, func(q plane.Point) bool { return u.Cross(q.Sub(a)) < 1e-6 })
						if at[w] {
							count++
						}
					}
					for w := range walls {
						if at[w] && (corners || count == 1) {
							walls[w] = append(walls[w], piece.Area)
						}
					}
				}
			}
		}
	}
	for w := range walls {
		slices.Sort(walls[w])
	}
	return walls
}

func sameAreas(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) < 1e-4 })
}

// kinds leaves one of each size of piece.
func kinds(list []float64) []float64 {
	return slices.CompactFunc(slices.Clone(list), func(x, y float64) bool { return math.Abs(x-y) < 1e-4 })
}

// Balance as the trade means it: what is cut at one wall is what is cut at
// the wall opposite. Along a wall the cut pieces come again and again, so
// opposite walls are compared by the kinds of pieces at them; in the corners
// two walls cut at once. One of the four placings has a half-turn point in
// the middle of the room: there the pieces agree one for one, corners and all.
func TestBalancedPlacings(t *testing.T) {
	for name, change := range map[string]func(*Job){
		"single 70 x 350":                   func(j *Job) {},
		"single 71 x 500, not a multiple":   func(j *Job) { j.Width, j.Length = 71, 500 },
		"double 70 x 420":                   func(j *Job) { j.Strands, j.Length = 2, 420 },
		"double 70 x 350, not a multiple":   func(j *Job) { j.Strands = 2 },
		"triple 60 x 360":                   func(j *Job) { j.Strands, j.Width, j.Length = 3, 60, 360 },
		"triple 60 x 400, not a multiple":   func(j *Job) { j.Strands, j.Width, j.Length = 3, 60, 400 },
		"chevron 90 x 600":                  func(j *Job) { j.Pattern, j.Width, j.Length = Chevron, 90, 600 },
		"chevron 80 x 500, mitre 60":        func(j *Job) { j.Pattern, j.Width, j.Length, j.Mitre = Chevron, 80, 500, 60 },
		"chevron 120 x 457, mitre 37.5":     func(j *Job) { j.Pattern, j.Width, j.Length, j.Mitre = Chevron, 120, 457, 37.5 },
		"single 2-1/4 x 9 in, turned floor": func(j *Job) { j.Width, j.Length, j.Axis = 2.25*length.Inch, 9*length.Inch, 90 },
	} {
		t.Run(name, func(t *testing.T) {
			job := Job{Room: rect(0, 0, 5217, 6331)}
			change(&job)
			blocks := job.Blocks()
			balanced := func(s pattern.Shift) (sides, ends, turned bool) {
				j := job
				j.Across, j.Along = s.Across, s.Along
				w, all := atWalls(t, j, false), atWalls(t, j, true)
				for i := range w {
					if len(w[i]) < 10 {
						t.Fatalf("%d pieces at wall %d: the test says nothing", len(w[i]), i)
					}
				}
				near, right, far, left := 0, 1, 2, 3
				if job.Axis == 90 {
					near, right, far, left = 1, 2, 3, 0
				}
				return sameAreas(kinds(w[left]), kinds(w[right])), sameAreas(kinds(w[near]), kinds(w[far])),
					sameAreas(all[left], all[right]) && sameAreas(all[near], all[far])
			}
			halfTurns := 0
			for i, s := range blocks.Balanced() {
				sides, ends, turned := balanced(s)
				if !sides || !ends {
					t.Errorf("placing %d, %+v: sides balanced %v, ends balanced %v", i, s, sides, ends)
				}
				if turned {
					halfTurns++
				}
				for _, off := range []float64{0.09, 0.21, 0.37} {
					along := s
					along.Along += length.Length(off) * blocks.Step() / 2
					if _, ends, _ := balanced(along); ends {
						t.Errorf("placing %d moved along by %v of half a step: still balanced at the ends", i, off)
					}
					across := s
					across.Across += length.Length(off) * blocks.Interval() / 2
					if sides, _, _ := balanced(across); sides {
						t.Errorf("placing %d moved across by %v of half an interval: still balanced at the sides", i, off)
					}
				}
			}
			if halfTurns == 0 {
				t.Error("no placing has the pieces at opposite walls agree one for one")
			}
		})
	}
}
