package cuts

import (
	"math"
	"slices"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// key is a piece of the plan.
type key struct{ strand, sub, index, piece int }

// shapes returns every piece of a plan, told one by one.
func shapes(p *floor.Plan) map[key]Shape {
	all := map[key]Shape{}
	for r := range p.Rows() {
		for b := range p.Blocks(r) {
			for i, s := range Of(p, b) {
				all[key{b.Strand, b.Sub, b.Index, i}] = s
			}
		}
	}
	return all
}

// turnedAbout returns an outline turned end for end with its block.
func turnedAbout(s Shape) plane.Ring {
	return turnedRing(s.Outline, 180, s.Block[0].Add(s.Block[2]))
}

// furthest returns the least distance such that every corner of either
// outline has a corner of the other within it.
func furthest(a, b plane.Ring) float64 {
	worst := 0.0
	for _, pair := range [][2]plane.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			least := math.Inf(1)
			for _, q := range pair[1] {
				least = min(least, math.Hypot(p.X-q.X, p.Y-q.Y))
			}
			worst = max(worst, least)
		}
	}
	return worst
}

// Every piece is in one group and no other, close enough to its drawing, and
// no two groups could be one without their drawings being further apart than
// the tolerance. The totals are the plan's.
func TestListCoversThePlan(t *testing.T) {
	rng := random(t)
	pieces, grouped, turned := 0, 0, 0
	for n := range 40 {
		job := randomJob(rng, 120)
		p := plan(t, job)
		o := Options{Tolerance: length.Length([]float64{0, 0.1, 1, 5, 30}[n%5]), Turn: n%2 == 1}
		groups, all := List(p, o), shapes(p)
		order := map[[3]int]floor.Block{}
		rows := map[[3]int]int{}
		for r := range p.Rows() {
			for b := range p.Blocks(r) {
				at := [3]int{b.Strand, b.Sub, b.Index}
				b.Pieces = slices.Clone(b.Pieces)
				order[at], rows[at] = b, r.Number
			}
		}
		limit := max(float64(o.Tolerance), leastTolerance)
		seen := map[key]bool{}
		for i, g := range groups {
			within, area := 0.0, 0.0
			grouped += g.Count() - 1
			for j, at := range g.Places {
				k := key{at.Strand, at.Sub, at.Index, at.Piece}
				s, ok := all[k]
				if !ok || seen[k] {
					t.Errorf("piece %+v is not on the floor, or twice in the list", k)
				}
				seen[k] = true
				b := order[[3]int{at.Strand, at.Sub, at.Index}]
				if at.Order != b.Order || at.Row != rows[[3]int{at.Strand, at.Sub, at.Index}] {
					t.Errorf("piece %+v is said to be block %d of row %d", k, at.Order, at.Row)
				}
				if j > 0 && g.Places[j-1].Order > at.Order {
					t.Errorf("group %s is not in order of laying", g.Mark)
				}
				if s.Hand != g.Hand || g.Shape.Hand != g.Hand || s.Notch != g.Shape.Notch {
					t.Errorf("piece %+v of hand %v is in a group of hand %v", k, s.Hand, g.Hand)
				}
				outline := s.Outline
				if at.Turned {
					turned++
					outline = turnedAbout(s)
				}
				within, area = max(within, furthest(outline, g.Shape.Outline)), area+s.Area
				piece := b.Pieces[at.Piece]
				if !s.Notch && !plane.Inside(at.Centroid, piece.Outline) && fromOutline(at.Centroid, piece.Outline) > 1e-6 {
					t.Errorf("the centroid %v of piece %+v lies outside it", at.Centroid, k)
				}
			}
			if !o.Turn && slices.ContainsFunc(g.Places, func(p Place) bool { return p.Turned }) {
				t.Errorf("group %s has turned pieces", g.Mark)
			}
			if within > limit*(1+1e-12) || !g.Shape.Notch && math.Abs(within-float64(g.Within)) > 1e-8 {
				t.Errorf("group %s: corners %v off the drawing, said to be %v, allowed %v", g.Mark, within, g.Within, limit)
			}
			if math.Abs(area-g.Area) > 1e-9*area {
				t.Errorf("group %s has %v mm², said to be %v", g.Mark, area, g.Area)
			}
			if i > 0 {
				before := groups[i-1]
				a, b := math.Round(before.Shape.Area), math.Round(g.Shape.Area)
				if n, m := before.Count(), g.Count(); n < m || n == m && (a < b || a == b && before.Places[0].Order > g.Places[0].Order) {
					t.Errorf("group %s comes before group %s: %d and %d pieces of %v and %v mm²", before.Mark, g.Mark, n, m, a, b)
				}
			}
			for _, other := range groups[:i] {
				if other.Hand != g.Hand || g.Shape.Notch || other.Shape.Notch {
					continue
				}
				d := furthest(g.Shape.Outline, other.Shape.Outline)
				if o.Turn {
					d = min(d, furthest(turnedAbout(g.Shape), other.Shape.Outline))
				}
				if d < limit*(1-1e-9) {
					t.Errorf("groups %s and %s are %v apart with a tolerance of %v", other.Mark, g.Mark, d, limit)
				}
			}
		}
		total, count := Total(groups), p.Count()
		full := float64(count.Full) * p.Pattern().BlockArea()
		if len(seen) != len(all) || total.Pieces != count.Pieces || total.Blocks != count.Cut || math.Abs(total.Area-(count.Area-full)) > 1e-9*count.Area {
			t.Errorf("listed %d pieces, %+v, want %d and %+v", len(seen), total, len(all), count)
		}
		pieces += total.Pieces
		if t.Failed() {
			t.Fatalf("job %+v, %+v", job, o)
		}
	}
	if grouped < pieces/10 || turned == 0 {
		t.Errorf("of %d pieces only %d are sawn as another, %d of them turned", pieces, grouped, turned)
	}
}

// The list is the same every time.
func TestListIsDeterministic(t *testing.T) {
	job := randomJob(random(t), 800)
	first, second := List(plan(t, job), Options{Tolerance: 2}), List(plan(t, job), Options{Tolerance: 2})
	for i, g := range first {
		if other := second[i]; g.Mark != other.Mark || !slices.Equal(g.Places, other.Places) {
			t.Fatalf("group %d is %s with %v, then %s with %v", i, g.Mark, g.Places, other.Mark, other.Places)
		}
	}
}

func TestMarks(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := mark(i); got != want {
			t.Errorf("mark(%d) = %s, want %s", i, got, want)
		}
	}
}

// A chevron's seams are mirrors (plane group p2mg, International Tables for
// Crystallography, vol. A, no. 7), so in a rectangle with a seam up its middle
// each left-hand piece has a right-hand one that mirrors it: as many groups
// of either hand, of the same counts and sizes. The cuts of a mirrored piece
// change edges and the sign of the angle.
func TestMirroredRoom(t *testing.T) {
	job := floor.Job{Pattern: floor.Chevron, Mitre: 50, Width: 80, Length: 430, Room: rect(-1850, -1300, 1850, 1300), Centre: &origin, Along: 17}
	var hands [2][]Group
	groups := List(plan(t, job), Options{Tolerance: 0.001})
	for _, g := range groups {
		hands[g.Hand] = append(hands[g.Hand], g)
	}
	right := hands[pattern.RightHand]
	if len(right) != len(hands[pattern.LeftHand]) || len(right) == 0 {
		t.Fatalf("%d left-hand and %d right-hand groups", len(hands[pattern.LeftHand]), len(right))
	}
	for _, l := range hands[pattern.LeftHand] {
		var mirrored plane.Ring
		for _, p := range l.Outline() {
			mirrored = append(mirrored, plane.Point{X: p.X, Y: 80 - p.Y})
		}
		at := slices.IndexFunc(right, func(r Group) bool { return furthest(mirrored, r.Outline()) < 1e-6 })
		if at < 0 || right[at].Count() != l.Count() || math.Abs(right[at].Area-l.Area) > 1e-6*l.Area {
			t.Errorf("left-hand group %s of %d has no mirror image", l.Mark, l.Count())
			continue
		}
		r := right[at]
		right = slices.Delete(slices.Clone(right), at, at+1)
		for _, c := range l.Shape.Cuts {
			if !slices.ContainsFunc(r.Shape.Cuts, func(d Cut) bool {
				return c.Kind == d.Kind && near(c.From, d.To) && near(c.To, d.From) && math.Abs(c.Angle+d.Angle) < 1e-6
			}) {
				t.Errorf("cut %+v of group %s is not mirrored in group %s: %+v", c, l.Mark, r.Mark, r.Shape.Cuts)
			}
		}
	}
}

// The middle of a herringbone block is a half-turn centre (plane group p2gg,
// International Tables for Crystallography, vol. A, no. 8). With one in the
// middle of a rectangle every piece has another that is it turned end for
// end, so that square-edged blocks need half the groups and every group has
// an even count. Block 0 of strand 0 has its middle at u = W/2, v = W/2 - L/2.
// When the length is a whole multiple of the width the pattern also repeats
// along the walls: in steps of W√2 along the axis.
func TestBalancedRoom(t *testing.T) {
	w, l := 70.0, 350.0
	middle := plane.Point{X: l / 2 / math.Sqrt2, Y: (w - l/2) / math.Sqrt2}
	job := floor.Job{Width: 70, Length: 350, Room: rect(-1711, -1502, 1711, 1502), Centre: &origin,
		Across: length.Length(-middle.X), Along: length.Length(-middle.Y)}
	p := plan(t, job)
	kept, turned := List(p, Options{Tolerance: 0.001}), List(p, Options{Tolerance: 0.001, Turn: true})
	for _, g := range turned {
		half := 0
		for _, at := range g.Places {
			if at.Turned {
				half++
			}
		}
		// A piece that is its own half turn counts among those not turned.
		own := furthest(turnedAbout(g.Shape), g.Outline()) < 1e-6
		if g.Count()%2 != 0 || !own && half != g.Count()/2 {
			t.Errorf("group %s: %d of %d pieces are turned", g.Mark, half, g.Count())
		}
	}
	if len(kept) != 2*len(turned) {
		t.Errorf("%d groups, %d when blocks may be turned, want twice as many", len(kept), len(turned))
	}
	// Along a wall on one side the blocks of a hand that meet it repeat at
	// every step: there are as many kinds as a block is steps deep, and 2 hands
	// at 4 walls. A block is (L + W)/√2 deep, 3 steps, so it meets a wall in at
	// most 4 places; each corner of the room adds the few blocks it cuts twice.
	steps := int(math.Ceil((l + w) / math.Sqrt2 / (w * math.Sqrt2)))
	atCorners := 0
	for _, g := range kept {
		if len(g.Shape.Cuts) > 1 || g.Shape.Notch {
			atCorners++
		}
	}
	if most := 2*4*(steps+1) + atCorners; len(kept) > most || Total(kept).Pieces < 3*len(kept) {
		t.Errorf("%d groups of %d pieces, want at most %d", len(kept), Total(kept).Pieces, most)
	}
}

// A hundred thousand blocks and more in a hall whose walls are out of square:
// no two pieces alike, which is the most that a cut list can be.
func bigHall() floor.Job {
	return floor.Job{Width: 40, Length: 200, Axis: 1,
		Room: plane.Ring{{}, {X: 40000, Y: 130}, {X: 39800, Y: 40100}, {X: 90, Y: 39900}}}
}

func BenchmarkList(b *testing.B) {
	job := bigHall()
	p := plan(b, job)
	count := p.Count()
	b.Logf("%d whole and %d cut blocks", count.Full, count.Cut)
	for _, bb := range []struct {
		name      string
		tolerance length.Length
	}{{"exact", 0}, {"half a millimetre", 0.5}, {"five millimetres", 5}} {
		b.Run(bb.name, func(b *testing.B) {
			groups := 0
			for b.Loop() {
				groups = len(List(p, Options{Tolerance: bb.tolerance, Turn: true}))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(count.Pieces), "ns/piece")
			b.ReportMetric(float64(groups), "groups")
		})
	}
}
