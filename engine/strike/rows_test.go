package strike

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Measuring back from the mark that is named lands on the tip; measuring
// across from the seam that is named lands on the wall.
func TestRowChecks(t *testing.T) {
	rng := random(t)
	tips, seams := 0, 0
	for range 20 {
		p := newPlan(t, randomJob(rng))
		_, along := p.Axis()
		across := plane.Point{X: along.Y, Y: -along.X}
		onWall := func(e End) float64 {
			off := math.Inf(1)
			r, walls := p.Room()[e.Hole], p.RoomWalls()[e.Hole]
			for i := range r {
				if walls[i] == e.Wall {
					a, b := r.Edge(i)
					off = min(off, plane.FromEdge(e.Point, a, b))
				}
			}
			return off
		}
		rows := 0
		for c := range RowChecks(p) {
			rows++
			ahead := along
			if c.Row.Stage == floor.Infill {
				ahead = along.Times(-1)
			}
			for i, tip := range c.Tips {
				tips++
				if got := tip.Mark.Point.Sub(ahead.Times(float64(tip.Distance))); got.Sub(tip.Point).Length() > tiny || onWall(tip.Mark) > tiny {
					t.Errorf("row %d: tip at %v, measured back to %v", c.Row.Number, tip.Point, got)
				}
				q, dir := exact(p.Job(), Mark{Kind: Working, Seam: tip.Seam, Side: tip.Side})
				if d := math.Abs(tip.Point.Sub(q).Cross(dir)); d > tiny {
					t.Errorf("row %d: tip %v off the line it is said to run on", c.Row.Number, d)
				}
				if i > 0 && tip.Point.Sub(c.Tips[0].Point).Dot(ahead) < -float64(p.Pattern().Step()) {
					t.Errorf("row %d: its last tip lies behind its first", c.Row.Number)
				}
			}
			for _, s := range c.Seams {
				for _, w := range s.ToWall {
					if !w.OK {
						continue
					}
					seams++
					if got := w.From.Add(across.Times(float64(s.Side) * float64(w.Distance))); got.Sub(w.At.Point).Length() > tiny || onWall(w.At) > tiny {
						t.Errorf("row %d: seam %d to the wall at %v, measured to %v", c.Row.Number, s.Seam, w.At.Point, got)
					}
				}
			}
		}
		n := 0
		for range p.Rows() {
			n++
		}
		if rows != n {
			t.Errorf("%d checks for %d rows", rows, n)
		}
	}
	if tips < 100 || seams < 100 {
		t.Errorf("only %d tips and %d seams were checked", tips, seams)
	}
}

// The trade's dry-lay check (common practice, no source): laid from the
// starting block, the row reaches the centre with the middle of a block's end
// on the centre point.
func TestStart(t *testing.T) {
	for _, job := range []floor.Job{
		{Start: floor.FromWall, Gap: 12},
		{Start: floor.FromWall, Strands: 2, Length: 420, Axis: 17, Room: rect(5200, 6100)},
		{Start: floor.FromWall, Width: 71, Length: 333, Across: 40, Along: -11},
		{},
	} {
		p := newPlan(t, job)
		s := NewStart(p)
		job := p.Job()
		if job.Start == floor.FromWall && s.Back == 0 {
			t.Errorf("%+v: no steps back from the centre", job)
		}
		// The unit that comes after so many, by the pattern's definition:
		// strand -1, its far end.
		next := -s.Back + s.Units
		a, b := lay(job, -1, 0, next), lay(job, -1, job.Strands-1, next)
		if d := a[1].Add(b[2]).Times(0.5).Sub(s.Check).Length(); d > tiny {
			t.Errorf("the middle of the next block's end is %v off the centre point", d)
		}
		if s.Blocks != 2*s.Units*job.Strands {
			t.Errorf("%d blocks in %d units of both strands", s.Blocks, s.Units)
		}
		// The point is a corner of the first block to be laid.
		first := lay(job, -1, 0, -s.Back)
		found := false
		for _, q := range first {
			found = found || q.Sub(s.Point).Length() < tiny
		}
		if !found {
			t.Errorf("the point %v is no corner of the first block %v", s.Point, first)
		}
		_, along := p.Axis()
		if d := s.Mark.Point.Add(along.Times(float64(s.OnLine))).Sub(s.Point).Length(); d > tiny {
			t.Errorf("measured along its line the point is %v off", d)
		}
		near(t, "distance back", s.Distance, length.Length(float64(s.Back)*float64(job.Strands)*float64(job.Width)*math.Sqrt2))
		near(t, "diagonal", s.Wide, job.Length*math.Sqrt2)
		near(t, "diagonal", s.High, job.Length*math.Sqrt2)
		if len(s.FromWalls) != 2 {
			t.Errorf("readings from %d walls", len(s.FromWalls))
		}
	}
}
