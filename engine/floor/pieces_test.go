package floor

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/plane"
)

func TestAgainstSimplefeatures(t *testing.T) {
	rng := random(t)
	rooms := 48
	if testing.Short() {
		rooms = 12
	}
	for i := range rooms {
		job := randomJob(rng, uniform(rng, 150, 900))
		t.Run("room "+strconv.Itoa(i), func(t *testing.T) { compare(t, job) })
	}
}

// rect returns the rectangle between two corners.
func rect(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// Walls and holes that lie on the corners and edges of blocks, as far as
// floating point can put them there.
func TestWallsOnTheLattice(t *testing.T) {
	origin := &plane.Point{}
	// Corners of 70 x 350 blocks lie on a square net of half a diagonal.
	net := 70 / math.Sqrt2
	block := Job{Centre: origin, Room: rect(-1500, -1500, 1500, 1500)}
	corner := func(k, i, c int) plane.Point { return wholeBlock(block, place{k, 0, i})[c] }
	for name, job := range map[string]Job{
		"walls through block corners":                 {Room: rect(-20*net, -18*net, 22*net, 19*net)},
		"walls through block corners, half a net off": {Room: rect(-20.5*net, -18.5*net, 22.5*net, 19.5*net)},
		"walls along blocks":                          {Axis: 45, Room: rect(-1050, -1085, 1400, 1225)},
		"walls along blocks, turned the other way":    {Axis: -45, Room: rect(-1050, -1085, 1400, 1225)},
		"walls along blocks, turned about":            {Axis: 135, Room: rect(-1050, -1085, 1400, 1225)},
		"double, walls along blocks":                  {Axis: 45, Strands: 2, Length: 420, Room: rect(-1050, -1120, 1400, 1190)},
		"triple, walls along blocks":                  {Axis: 45, Strands: 3, Length: 420, Room: rect(-1050, -1155, 1470, 1260)},
		"L, corner in a block's corner":               {Axis: 45, Room: plane.Ring{{X: -1050, Y: -1085}, {X: 1400, Y: -1085}, {X: 1400, Y: 35}, {X: 350, Y: 35}, {X: 350, Y: 1225}, {X: -1050, Y: 1225}}},
		"holes of one block and of several": {Room: rect(-1500, -1400, 1600, 1300), Holes: [][]plane.Point{
			wholeBlock(block, place{2, 0, 3}), wholeBlock(block, place{-3, 0, -2}),
			{corner(0, 6, 0), corner(0, 13, 0), corner(3, 13, 0)}}},
		"hole corners on block corners": {Axis: 45, Room: rect(-1060, -1087, 1403, 1221), Holes: [][]plane.Point{rect(-35, -35, 315, 385), rect(-700, -735, -350, -385)}},
		"hole touching nothing but corners": {Room: rect(-20*net, -18*net, 22*net, 19*net), Holes: [][]plane.Point{
			{{X: 0, Y: -net / 2}, {X: net, Y: net / 2}, {X: 0, Y: 3 * net / 2}, {X: -net, Y: net / 2}}}},
		"wall corners on block corners, walls slanting": {Room: plane.Ring{corner(-4, -9, 0), corner(3, -8, 1), corner(4, 3, 2), corner(0, 12, 3), corner(-5, 6, 0)}},
		"wall corners on the middles of edges": {Room: plane.Ring{
			corner(-4, -9, 0).Add(corner(-4, -9, 1)).Times(0.5), corner(3, -8, 1).Add(corner(3, -8, 2)).Times(0.5),
			corner(4, 3, 0).Add(corner(4, 3, 1)).Times(0.5), corner(-1, 9, 2).Add(corner(-1, 9, 3)).Times(0.5)}},
		"chevron, walls on seams and on tips": {Pattern: Chevron, Width: 90, Length: 600, Room: rect(-3*600/math.Sqrt2, -9*90*math.Sqrt2, 2*600/math.Sqrt2, 7*90*math.Sqrt2)},
		"chevron, wall along a block":         {Pattern: Chevron, Width: 90, Length: 600, Axis: 45, Room: rect(-1200, -900, 1300, 990)},
		"square blocks":                       {Axis: 45, Width: 100, Length: 100, Room: rect(-1050, -1050, 1050, 1050)},
	} {
		t.Run(name, func(t *testing.T) {
			job.Centre = origin
			compare(t, job)
		})
	}
}

// A wall beside the edge of a row of blocks, nearer and nearer: where the
// sliver is under 0.001 mm² it is no piece, and then the block behind the
// wall is whole.
func TestSlivers(t *testing.T) {
	for _, off := range []float64{1e-1, 1e-3, 1e-4, 1e-6, 1e-7, 1e-8, 3e-9, 1e-9, 1e-10, 1e-12} {
		for _, sign := range []float64{-1, 1} {
			d := off * sign
			t.Run(strconv.FormatFloat(d, 'g', -1, 64), func(t *testing.T) {
				compare(t, Job{Centre: &plane.Point{}, Axis: 45, Room: rect(-1050-d, -1085+d, 1400+d, 1225-d)})
				compare(t, Job{Centre: &plane.Point{}, Axis: 45, Room: rect(-1060, -1070, 1410, 1240),
					Holes: [][]plane.Point{rect(-35+d, -35-d, 315-d, 385+d)}})
			})
		}
	}
}

// Blocks so large that holes and whole fields lie in one of them.
func TestHolesInsideOneBlock(t *testing.T) {
	origin := &plane.Point{X: -250 - 500/math.Sqrt2, Y: 250 + 100/math.Sqrt2} // block 0 of strand 0 has its middle at -250, 250
	tri := func(x, y, r float64) plane.Ring {
		return plane.Ring{{X: x + r, Y: y}, {X: x, Y: y + r}, {X: x - r, Y: y - r}}
	}
	for name, job := range map[string]Job{
		"one hole":                             {Room: rect(-2000, -1500, 1700, 1900), Holes: [][]plane.Point{tri(-250, 250, 40)}},
		"three in one block":                   {Room: rect(-2000, -1500, 1700, 1900), Holes: [][]plane.Point{tri(-250, 250, 40), tri(-150, 150, 30), tri(-400, 400, 60)}},
		"beside a wall through the same block": {Room: rect(-2000, -1500, -230, 1900), Holes: [][]plane.Point{tri(-300, 280, 40), tri(-400, 420, 30)}},
		"beside a bay in the same block": {Room: plane.Ring{{X: -2000, Y: -1500}, {X: 1700, Y: -1500}, {X: 1700, Y: 1900}, {X: -200, Y: 1900},
			{X: -205, Y: 160}, {X: -215, Y: 1900}, {X: -2000, Y: 1900}}, Holes: [][]plane.Point{tri(-300, 280, 40)}},
		"field within one block":                {Room: tri(-250, 250, 80)},
		"field with a hole within one block":    {Room: tri(-250, 250, 90), Holes: [][]plane.Point{tri(-250, 250, 20)}},
		"field with two holes within one block": {Room: tri(-250, 250, 120), Holes: [][]plane.Point{tri(-240, 250, 12), tri(-270, 240, 10)}},
		"field of one block":                    {Room: wholeBlock(Job{Width: 400, Length: 1000, Strands: 1, Centre: origin}, place{0, 0, 0})},
		"a floor little larger than one block":  {Room: turnedRing(rect(-520, -220, 520, 220), 135, plane.Point{X: -212, Y: 212})},
		"field of one block with a hole":        {Room: wholeBlock(Job{Width: 400, Length: 1000, Strands: 1, Centre: origin}, place{0, 0, 0}), Holes: [][]plane.Point{tri(-250, 250, 20)}},
	} {
		t.Run(name, func(t *testing.T) {
			job.Centre, job.Width, job.Length = origin, 400, 1000
			compare(t, job)
			p, err := New(job)
			if err != nil {
				t.Fatal(err)
			}
			holes, within := 0, true
			for _, b := range laid(t, p) {
				within = within && b.Strand == 0 && b.Index == 0
				for _, piece := range b.Pieces {
					holes += len(piece.Holes)
				}
			}
			if holes != len(job.Holes) {
				t.Errorf("%d of %d holes lie inside pieces", holes, len(job.Holes))
			}
			if strings.Contains(name, "field") && !within {
				t.Error("the field lies in more blocks than one")
			}
		})
	}
}

// A block can come apart, and a recess can come into it from a side and leave
// it whole in one piece: the pieces are counted one by one.
func TestBlockInPieces(t *testing.T) {
	// Fingers of the room, 20 mm wide, run over blocks of 400 x 1000.
	comb := plane.Ring{{X: -1500, Y: -1500}, {X: 1500, Y: -1500}}
	for x := 1500.0; x > -1500; x -= 60 {
		comb = append(comb, plane.Point{X: x, Y: 1500}, plane.Point{X: x - 20, Y: 1500 - x/9},
			plane.Point{X: x - 40, Y: -700 + x/7}, plane.Point{X: x - 60, Y: -700 + x/7})
	}
	compare(t, Job{Room: comb, Width: 400, Length: 1000, Centre: &plane.Point{}})
}

// Spikes and clefts as thin as the Check lets through, their points in the
// corners and on the edges of blocks.
func TestThinSpikes(t *testing.T) {
	rng := random(t)
	for n := range 40 {
		job := Job{Centre: &plane.Point{}, Axis: []float64{0, 45, 10}[n%3], Room: rect(-900, -900, 900, 900)}
		b := wholeBlock(job, place{rng.IntN(3) - 1, 0, rng.IntN(5) - 2})
		tip := b[rng.IntN(4)]
		if rng.IntN(2) == 0 {
			p, q := b.Edge(rng.IntN(4))
			tip = p.Add(q.Sub(p).Times(rng.Float64()))
		}
		width := math.Pow(10, uniform(rng, -5, 1))
		reach := 900.0
		if n%2 == 0 {
			reach = 900 - math.Pow(10, uniform(rng, -3, 1))
		}
		cleft := plane.Ring{{X: -900, Y: -900}, {X: 900, Y: -900}, {X: 900, Y: reach}, {X: tip.X + width, Y: reach}, tip, {X: tip.X - width, Y: reach}, {X: -900, Y: reach}}
		spike := plane.Ring{{X: tip.X - width, Y: -900}, {X: tip.X + width, Y: -900}, tip}
		for _, room := range []plane.Ring{cleft, spike} {
			job.Room = room
			if _, err := New(job); err != nil {
				continue
			}
			addsUp(t, job)
		}
	}
}

// addsUp checks that the blocks cover the field and no more, to 1e-9. Slivers
// are no pieces, so a little may be missing at the edges. A wall on the edges
// of blocks counts as onSide of where it is, which in a room far longer than
// it is wide comes to more than 1e-9.
func addsUp(t testing.TB, job Job) {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	field, edges := p.FieldArea(), 0.0
	for _, r := range p.Field() {
		edges += r.Perimeter()
	}
	c := p.Count()
	tolerance := 1e-9*(field+p.Pattern().BlockArea()) + onSide*edges
	slivers := smallestPiece * (8 + 8*edges/float64(p.Job().Width))
	if c.Area > field+tolerance || c.Area < field-tolerance-slivers {
		t.Errorf("pieces of %v mm² cover a field of %v mm², out by %v\njob %+v, centre %v", c.Area, field, c.Area-field, job, job.Centre)
	}
}

// No two pieces overlap, each has the area it is said to have, runs
// counter-clockwise and lies in its block and in the field.
func TestPieces(t *testing.T) {
	rng := random(t)
	for range 8 {
		job := randomJob(rng, 80)
		p, err := New(job)
		if err != nil {
			t.Fatal(err)
		}
		var all []geom.Geometry
		for at, b := range laid(t, p) {
			block := polygon(t, b.Corners[:])
			if b.Full {
				all = append(all, block)
				continue
			}
			if len(b.Pieces) == 0 {
				t.Errorf("block %v is neither full nor in pieces", at)
			}
			for _, piece := range b.Pieces {
				g := polygon(t, append([]plane.Ring{piece.Outline}, piece.Holes...)...)
				all = append(all, g)
				if math.Abs(g.Area()-piece.Area) > 1e-9*block.Area() {
					t.Errorf("block %v: a piece of %v mm² is said to have %v", at, g.Area(), piece.Area)
				}
				for i := range piece.Outline {
					if a, b := piece.Outline.Edge(i); b.Sub(a).Length() < 1e-8 {
						t.Errorf("block %v: corners %d and %d of a piece are one: %v", at, i, i+1, piece.Outline)
					}
				}
				if piece.Outline.Area() <= 0 {
					t.Errorf("block %v: a piece runs clockwise", at)
				}
				for _, h := range piece.Holes {
					if h.Area() >= 0 {
						t.Errorf("block %v: a hole runs counter-clockwise", at)
					}
				}
				for i := range piece.Outline {
					from, to := piece.Outline.Edge(i)
					for _, q := range []plane.Point{from, from.Add(to).Times(0.5)} {
						if !within(q, b.Corners[:]) || !within(q, p.Field()...) {
							t.Errorf("block %v: a piece reaches out to %v", at, q)
						}
					}
				}
			}
		}
		for i, a := range all {
			for _, b := range all[:i] {
				if !a.Envelope().Intersects(b.Envelope()) {
					continue
				}
				over, err := geom.Intersection(a, b)
				if err != nil {
					t.Fatal(err)
				}
				if over.Area() > 1e-5 {
					t.Errorf("%v and %v overlap by %v mm²", a.AsText(), b.AsText(), over.Area())
				}
			}
		}
		if t.Failed() {
			t.Fatalf("job: %+v", job)
		}
	}
}

// within says whether a point lies inside rings or on them.
func within(q plane.Point, rings ...plane.Ring) bool {
	for _, r := range rings {
		for i := range r {
			if from, to := r.Edge(i); plane.FromEdge(q, from, to) < touching {
				return true
			}
		}
	}
	return plane.Inside(q, rings...)
}

// Pieces are the plan's own: they still hold after everything else has been
// laid out.
func TestPiecesLast(t *testing.T) {
	p, err := New(randomJob(random(t), 600))
	if err != nil {
		t.Fatal(err)
	}
	before := map[int][]float64{}
	for k, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					before[k] = append(before[k], piece.Outline.Area())
				}
			}
		}
	}
	for k, s := range p.Strands() {
		var after []float64
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					after = append(after, piece.Outline.Area())
				}
			}
		}
		if !slices.Equal(before[k], after) {
			t.Errorf("strand %d: pieces %v, later %v", k, before[k], after)
		}
	}
}
