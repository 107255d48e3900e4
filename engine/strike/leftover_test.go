package strike

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Pieces at every wall, cut again by simplefeatures from the pattern's
// definition and measured from the field's edges.
func TestLeftoversAgainstSimplefeatures(t *testing.T) {
	rng := random(t)
	pieces := 0
	for range 12 {
		p := newPlan(t, randomJob(rng))
		const sliver = 12
		type key struct{ hole, wall int }
		want := map[key]*Leftover{}
		walls := p.FieldWalls()
		for _, b := range cutAll(t, p) {
			for _, piece := range b.pieces {
				reach := map[key]float64{}
				for h, ring := range p.Field() {
					for i := range ring {
						from, to := ring.Edge(i)
						u := to.Sub(from).Times(1 / to.Sub(from).Length())
						touches, most := false, 0.0
						for j := range piece {
							c, d := piece.Edge(j)
							most = max(most, u.Cross(c.Sub(from)))
							// How much of the two edges lies on one another.
							lo, hi := u.Dot(c.Sub(from)), u.Dot(d.Sub(from))
							if lo > hi {
								lo, hi = hi, lo
							}
							shared := min(hi, to.Sub(from).Length()) - max(lo, 0)
							if math.Abs(u.Cross(c.Sub(from))) < 1e-6 && math.Abs(u.Cross(d.Sub(from))) < 1e-6 && shared > 1e-4 {
								touches = true
							}
						}
						if touches {
							k := key{h, walls[h][i]}
							reach[k] = max(reach[k], most)
						}
					}
				}
				for k, r := range reach {
					if want[k] == nil {
						want[k] = &Leftover{Narrowest: length.Length(math.Inf(1))}
					}
					w := want[k]
					w.Pieces++
					w.Narrowest, w.Widest = min(w.Narrowest, length.Length(r)), max(w.Widest, length.Length(r))
					if r < sliver {
						w.Slivers++
					}
				}
			}
		}
		for _, got := range Leftovers(p, sliver) {
			w := want[key{got.Hole, got.Wall}]
			if w == nil {
				w = &Leftover{}
			}
			pieces += got.Pieces
			if got.Pieces != w.Pieces || got.Slivers != w.Slivers || math.Abs(float64(got.Narrowest-w.Narrowest)) > 1e-5 || math.Abs(float64(got.Widest-w.Widest)) > 1e-5 {
				t.Errorf("hole %d wall %d: %d pieces, %d slivers, %v to %v, simplefeatures finds %d, %d, %v to %v\njob %+v",
					got.Hole, got.Wall, got.Pieces, got.Slivers, got.Narrowest, got.Widest, w.Pieces, w.Slivers, w.Narrowest, w.Widest, p.Job())
			}
		}
	}
	if pieces < 500 {
		t.Errorf("only %d pieces were compared", pieces)
	}
}

// Balanced placings leave the same on opposite walls of a rectangle; a
// placing moved off them does not.
func TestLeftoversBalance(t *testing.T) {
	for name, job := range map[string]floor.Job{
		"single 70 x 350":                 {},
		"single 71 x 500, not a multiple": {Width: 71, Length: 500},
		"double 70 x 420":                 {Strands: 2, Length: 420},
		"triple 60 x 400, not a multiple": {Strands: 3, Width: 60, Length: 400},
		"chevron 80 x 500, mitre 60":      {Pattern: floor.Chevron, Width: 80, Length: 500, Mitre: 60},
		"single 70 x 350, turned":         {Axis: 90},
	} {
		t.Run(name, func(t *testing.T) {
			job.Room, job.Gap, job.Border = rect(5217, 6331), 12, 50
			p := newPlan(t, job)
			same := func(a, b Leftover) bool {
				return math.Abs(float64(a.Plain.Narrowest-b.Plain.Narrowest)) < 1e-6 && math.Abs(float64(a.Plain.Widest-b.Plain.Widest)) < 1e-6
			}
			placings, err := Placings(p, 20)
			if err != nil {
				t.Fatal(err)
			}
			turns := 0
			for _, pl := range placings {
				e := pl.Ends
				if e[Left].Plain.Pieces < 10 || e[Near].Plain.Pieces < 10 {
					t.Fatalf("too few pieces to compare: %+v", e)
				}
				if !same(e[Left], e[Right]) || !same(e[Near], e[Far]) {
					t.Errorf("placing %+v leaves %+v", pl.Shift, e)
				}
				if e[Left].Pieces == e[Right].Pieces && e[Near].Pieces == e[Far].Pieces && e[Left].Slivers == e[Right].Slivers &&
					math.Abs(float64(e[Left].Narrowest-e[Right].Narrowest)) < 1e-6 && math.Abs(float64(e[Near].Narrowest-e[Far].Narrowest)) < 1e-6 {
					turns++
				}
				for f, l := range e {
					if l.Taper > tiny {
						t.Errorf("facing %d: taper %v in a rectangle", f, l.Taper)
					}
				}
				off := job
				off.Across, off.Along = pl.Shift.Across+0.21*p.Pattern().Interval(), pl.Shift.Along
				if e := Ends(newPlan(t, off), 20); same(e[Left], e[Right]) {
					t.Errorf("placing %+v moved across still leaves the same at both sides", pl.Shift)
				}
			}
			// One placing has a half-turn point in the middle of the room:
			// there the corners agree too.
			if turns == 0 {
				t.Error("no placing agrees piece for piece")
			}
		})
	}
}

// Taper worked by hand: a room 4000 wide whose right wall runs 24 out over
// 3000 leaves 24 more at its far end; its far wall drops 15 from left to right.
func TestTaper(t *testing.T) {
	job := floor.Job{Room: []plane.Point{{}, {X: 4000}, {X: 4024, Y: 2985}, {Y: 3000}}, Centre: &plane.Point{X: 2000, Y: 1500}}
	l := Leftovers(newPlan(t, job), 0)
	for i, want := range []struct {
		facing Facing
		taper  length.Length
	}{{Near, 0}, {Right, 24}, {Far, 15}, {Left, 0}} {
		if l[i].Facing != want.facing {
			t.Errorf("wall %d faces %d, want %d", i, l[i].Facing, want.facing)
		}
		near(t, "taper", l[i].Taper, want.taper)
	}
}
