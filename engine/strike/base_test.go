package strike

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Lines struck through two marks that are each off by up to the error: none
// runs out further than the formula says, and some come close to it.
func TestRunOutBySimulation(t *testing.T) {
	rng := random(t)
	for range 50 {
		base, miss, distance := uniform(rng, 300, 9000), uniform(rng, 0.1, 2), uniform(rng, 0, 8000)
		limit := float64(RunOut(length.Length(base), length.Length(miss), length.Length(distance)))
		worst, squared := 0.0, 0.0
		for range 20000 {
			a := plane.Point{Y: uniform(rng, -miss, miss)}
			b := plane.Point{X: base, Y: uniform(rng, -miss, miss)}
			dir := b.Sub(a)
			worst = max(worst, math.Abs(a.Y+dir.Y/dir.X*(base+distance)))
			// Squared off from the mark at b: as far off as that mark
			// and the turn over the distance make it.
			square := plane.Point{X: -dir.Y, Y: dir.X}
			squared = max(squared, math.Abs(b.Y)+math.Abs(square.X/square.Y*distance))
		}
		if worst > limit || worst < 0.97*limit {
			t.Errorf("base %v, marks good to %v, at %v: runs out %v in the simulation, %v by formula", base, miss, distance, worst, limit)
		}
		if squared > limit*(1+1e-9) {
			t.Errorf("base %v, marks good to %v, at %v: squared off it runs out %v, more than %v", base, miss, distance, squared, limit)
		}
		wanted := length.Length(miss * uniform(rng, 1.1, 6))
		need, ok := BaseFor(wanted, length.Length(miss), length.Length(distance))
		if !ok {
			t.Errorf("no base for %v with marks good to %v", wanted, miss)
		} else if got := RunOut(need, length.Length(miss), length.Length(distance)); distance > 0 && math.Abs(float64(got-wanted)) > 1e-9*float64(wanted) {
			t.Errorf("a base of %v runs out %v, want %v", need, got, wanted)
		}
	}
	if _, ok := BaseFor(1, 1, 1000); ok {
		t.Error("a base is offered that holds a line closer than its marks are")
	}
}

// No line along the axis is longer than the longest base, by trying many.
func TestLongestBase(t *testing.T) {
	rng := random(t)
	for range 25 {
		p := newPlan(t, randomJob(rng))
		got, ok := LongestBase(p)
		if !ok {
			t.Fatal("a room without a base line")
		}
		_, along := p.Axis()
		across := plane.Point{X: along.Y, Y: -along.X}
		centre := *p.Job().Centre
		if d := got.Ends[0].Point.Sub(centre).Dot(across) - float64(got.Across); math.Abs(d) > tiny {
			t.Errorf("the base lies %v off where it is said to", d)
		}
		var corners []float64
		for _, r := range p.Room() {
			for _, q := range r {
				corners = append(corners, q.Sub(centre).Dot(across))
			}
		}
	next:
		for range 400 {
			x := uniform(rng, -2500, 2500)
			for _, c := range corners {
				if math.Abs(x-c) < clearance {
					continue next
				}
			}
			q := centre.Add(across.Times(x))
			for _, s := range plane.Stretches(q, along, p.Room()...) {
				if s.To-s.From > float64(got.Long)+tiny {
					t.Errorf("a line %v off the centre is %v long, the longest base %v", x, s.To-s.From, got.Long)
				}
			}
		}
	}
}

// In a rectangle the centre line is as long as any, and is the one taken.
func TestLongestBaseIsTheCentreLine(t *testing.T) {
	if got, ok := LongestBase(newPlan(t, floor.Job{})); !ok || got.Across != 0 || got.Long != 3600 {
		t.Errorf("got %+v, want the centre line, 3600 long", got)
	}
}

// Stepping a trammel by the reading it was set to ends where Cost says.
func TestTrammelCost(t *testing.T) {
	rng := random(t)
	for range 30 {
		p := newPlan(t, randomJob(rng))
		for _, tape := range tapes {
			interval, step := Trammels(p, tape)
			for _, tr := range []Trammel{interval, step} {
				set, err := length.Parse(tr.Reading.Text(), length.Millimetres)
				if err != nil {
					t.Fatal(err)
				}
				var at, want length.Length
				for range tr.Steps {
					at, want = at+set, want+tr.Setting
				}
				if d := float64(at - want - tr.Cost); math.Abs(d) > 1e-6 {
					t.Errorf("stepped %d times it is off by %v, Cost says %v", tr.Steps, at-want, tr.Cost)
				}
				if tr.After(tr.Steps) != tr.Cost || tr.At(1) != tr.Setting {
					t.Errorf("After(%d) = %v, Cost %v", tr.Steps, tr.After(tr.Steps), tr.Cost)
				}
			}
		}
	}
	// 4200 wide, seams -8 to 8: the trammel goes over 16 times. Along, 3600
	// takes 3600/98.99 = 36.4 steps. 247.487 is set as 247: 16 * -0.487.
	interval, step := Trammels(newPlan(t, floor.Job{}), length.Tape{})
	if interval.Steps != 16 || step.Steps != 36 {
		t.Errorf("steps = %d and %d, want 16 and 36", interval.Steps, step.Steps)
	}
	near(t, "cost", interval.Cost, 16*(247-247.487373))
}
