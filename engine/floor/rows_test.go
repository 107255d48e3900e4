package floor

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"keelrow/engine/plane"
)

// visible returns the outlines of what can be seen of a block.
func visible(b Block) []plane.Ring {
	if b.Full {
		return []plane.Ring{b.Corners[:]}
	}
	var rings []plane.Ring
	for _, piece := range b.Pieces {
		rings = append(rings, piece.Outline)
	}
	return rings
}

// apart returns the distance between two outlines that do not overlap, or any
// number over the limit when they are further apart than that.
func apart(a, b plane.Ring, limit float64) float64 {
	aLow, aHigh := a.Box()
	bLow, bHigh := b.Box()
	if aLow.X > bHigh.X+limit || bLow.X > aHigh.X+limit || aLow.Y > bHigh.Y+limit || bLow.Y > aHigh.Y+limit {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for _, pair := range [][2]plane.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			for i := range pair[1] {
				q, r := pair[1].Edge(i)
				d := r.Sub(q)
				t := 0.0
				if d != (plane.Point{}) {
					t = max(0, min(1, p.Sub(q).Dot(d)/d.Dot(d)))
				}
				least = min(least, p.Sub(q.Add(d.Times(t))).Length())
			}
		}
	}
	return least
}

// checkRows checks that rows and blocks agree with the plan's own counts, that
// no block is lost or comes twice, and that no row is laid in the air.
func checkRows(t *testing.T, job Job) {
	t.Helper()
	p, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	const touching = 1e-6
	seen := map[place]bool{}
	perStrand := map[int]Count{}
	var before []plane.Ring
	var all Count
	order, number := 0, 0
	start, _ := p.Start()
	spineSeen, infillSeen := false, false
	for row := range p.Rows() {
		number++
		if row.Number != number {
			t.Errorf("row %d says it is row %d", number, row.Number)
		}
		if row.First != order {
			t.Errorf("row %d starts with block %d, want %d", number, row.First, order)
		}
		if row.Stage == Infill {
			infillSeen = true
		} else if infillSeen {
			// A row may have to wait for infill to reach it, in rooms with
			// arms that lie behind the start.
			if row.Stage == Spine {
				t.Errorf("row %d is of the spine, after infill", number)
			}
		}
		if row.Stage == Spine {
			if spineSeen || !slices.Equal(row.Strands, []int{-1, 0}) {
				t.Errorf("row %d is a second spine or one of strands %v", number, row.Strands)
			}
			spineSeen = true
		}
		full, cut := 0, 0
		var rings []plane.Ring
		last := start - 1
		for b := range p.Blocks(row) {
			if b.Order != order {
				t.Errorf("block %d of the laying says it is number %d", order, b.Order)
			}
			order++
			at := place{b.Strand, b.Sub, b.Index}
			if seen[at] {
				t.Errorf("block %v comes twice", at)
			}
			seen[at] = true
			if !slices.Contains(row.Strands, b.Strand) {
				t.Errorf("block of strand %d in a row of %v", b.Strand, row.Strands)
			}
			if forward := b.Index >= start; forward == (row.Stage == Infill) {
				t.Errorf("block %v in stage %d, the start is at %d", at, row.Stage, start)
			}
			if row.Stage != Infill && b.Index < last || row.Stage == Infill && len(rings) > 0 && b.Index > last {
				t.Errorf("row %d: block index %d after %d", number, b.Index, last)
			}
			last = b.Index
			c := perStrand[b.Strand]
			if b.Full {
				full++
				c.Full, c.Area = c.Full+1, c.Area+p.Pattern().BlockArea()
			} else {
				cut++
				c.Cut++
				for _, piece := range b.Pieces {
					c.Pieces, c.Area = c.Pieces+1, c.Area+piece.Area
				}
			}
			perStrand[b.Strand] = c
			for _, r := range visible(b) {
				rings = append(rings, slices.Clone(r))
			}
		}
		if full != row.Full || cut != row.Cut {
			t.Errorf("row %d has %d full and %d cut, says %d and %d", number, full, cut, row.Full, row.Cut)
		}
		if row.Blocks() == 0 {
			t.Errorf("row %d has no blocks", number)
		}
		all.Full, all.Cut = all.Full+full, all.Cut+cut
		touches := number == 1
		for _, r := range rings {
			for _, q := range before {
				touches = touches || apart(r, q, 1) < touching
			}
		}
		if !touches {
			t.Errorf("row %d, strands %v, stage %d, touches nothing laid before", number, row.Strands, row.Stage)
		}
		before = append(before, rings...)
	}
	count := p.Count()
	if all.Full != count.Full || all.Cut != count.Cut || order != count.Full+count.Cut {
		t.Errorf("rows have %d full and %d cut, the plan %d and %d", all.Full, all.Cut, count.Full, count.Cut)
	}
	for k, s := range p.Strands() {
		got := perStrand[k]
		if got.Full != s.Count.Full || got.Cut != s.Count.Cut || got.Pieces != s.Count.Pieces || math.Abs(got.Area-s.Count.Area) > 1e-9*p.FieldArea() {
			t.Errorf("strand %d: rows give %+v, the strand says %+v", k, got, s.Count)
		}
	}
	if left, right := p.CountHand(0), p.CountHand(1); left.Full+right.Full != count.Full || left.Cut+right.Cut != count.Cut {
		t.Errorf("hands of %+v and %+v, together %+v", left, right, count)
	}
	if t.Failed() {
		t.Logf("job: %+v, centre %v", job, p.Job().Centre)
	}
}

func TestRowsInRandomRooms(t *testing.T) {
	rng := random(t)
	for i := range 60 {
		job := randomJob(rng, 150)
		t.Run("room "+strconv.Itoa(i), func(t *testing.T) { checkRows(t, job) })
	}
}

// Rooms whose parts can be reached from the spine only round a corner, and
// starts outside the field.
func TestRowsRoundCorners(t *testing.T) {
	u := plane.Ring{{X: 0, Y: 0}, {X: 6000, Y: 0}, {X: 6000, Y: 4000}, {X: 4600, Y: 4000}, {X: 4600, Y: 1200}, {X: 1400, Y: 1200}, {X: 1400, Y: 4000}, {X: 0, Y: 4000}}
	c := plane.Ring{{X: 0, Y: 0}, {X: 5000, Y: 0}, {X: 5000, Y: 1000}, {X: 1000, Y: 1000}, {X: 1000, Y: 3000}, {X: 5000, Y: 3000}, {X: 5000, Y: 4000}, {X: 0, Y: 4000}}
	s := plane.Ring{{X: 0, Y: 0}, {X: 5000, Y: 0}, {X: 5000, Y: 3000}, {X: 1000, Y: 3000}, {X: 1000, Y: 4000}, {X: 5000, Y: 4000}, {X: 5000, Y: 5000}, {X: 0, Y: 5000}, {X: 0, Y: 2000}, {X: 4000, Y: 2000}, {X: 4000, Y: 1000}, {X: 0, Y: 1000}}
	island := [][]plane.Point{rect(800, 1000, 4000, 2500)}
	for name, job := range map[string]Job{
		"U open at the far end":        {Room: u},
		"U, spine in the right leg":    {Room: u, Centre: &plane.Point{X: 5300, Y: 2600}},
		"U, spine in the left leg":     {Room: u, Centre: &plane.Point{X: 700, Y: 2600}},
		"U open to the near wall":      {Room: turnedRing(u, 180, plane.Point{})},
		"U lying on its side":          {Room: turnedRing(u, 90, plane.Point{})},
		"C":                            {Room: c},
		"C, centre far along":          {Room: c, Centre: &plane.Point{X: 3000, Y: 3600}},
		"C, spine at the open end":     {Room: c, Centre: &plane.Point{X: 4600, Y: 500}},
		"S":                            {Room: s},
		"S, spine at the end":          {Room: s, Centre: &plane.Point{X: 4500, Y: 4500}},
		"round an island":              {Room: rect(0, 0, 4800, 3600), Holes: island},
		"spine in the island":          {Room: rect(0, 0, 4800, 3600), Holes: island, Centre: &plane.Point{X: 2400, Y: 1700}},
		"spine beside the island":      {Room: rect(0, 0, 4800, 3600), Holes: island, Centre: &plane.Point{X: 300, Y: 1700}},
		"centre left of the room":      {Room: rect(0, 0, 2400, 1800), Centre: &plane.Point{X: -3000, Y: 900}},
		"centre right of the room":     {Room: rect(0, 0, 2400, 1800), Centre: &plane.Point{X: 5000, Y: 900}},
		"centre beyond the far wall":   {Room: rect(0, 0, 2400, 1800), Centre: &plane.Point{X: 1200, Y: 9000}},
		"centre before the near wall":  {Room: rect(0, 0, 2400, 1800), Centre: &plane.Point{X: 1200, Y: -9000}},
		"thin walls between two rooms": {Room: plane.Ring{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 2500}, {X: 2010, Y: 2500}, {X: 2010, Y: 300}, {X: 1990, Y: 300}, {X: 1990, Y: 2500}, {X: 0, Y: 2500}}},
		"walls across the strands":     {Room: plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1990}, {X: 300, Y: 1990}, {X: 300, Y: 2010}, {X: 3000, Y: 2010}, {X: 3000, Y: 4000}, {X: 0, Y: 4000}}},
	} {
		for _, start := range []Start{FromCentre, FromWall} {
			for pattern, change := range map[string]func(*Job){
				"single":  func(j *Job) {},
				"double":  func(j *Job) { j.Strands = 2 },
				"triple":  func(j *Job) { j.Strands, j.Length = 3, 420 },
				"short":   func(j *Job) { j.Strands, j.Length, j.Width = 2, 120, 100 },
				"chevron": func(j *Job) { j.Pattern, j.Width, j.Length = Chevron, 90, 500 },
				"steep":   func(j *Job) { j.Pattern, j.Width, j.Length, j.Mitre = Chevron, 90, 500, 30 },
			} {
				job := job
				job.Start = start
				change(&job)
				t.Run(name+", "+pattern+", start "+strconv.Itoa(int(start)), func(t *testing.T) { checkRows(t, job) })
			}
		}
	}
}

// From a wall the starting block lies as far back as it fits in the field,
// and the first row has nothing behind it but infill.
func TestStartFromWall(t *testing.T) {
	p, err := New(Job{Room: rect(0, 0, 4200, 3600), Start: FromWall})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: the centre is at y = 1800. The starting block's point lies a
	// spacing (24.7487 mm) behind it, its far corner 350*sqrt 2 = 494.9747 mm
	// further back, so 1800 - 24.7487 - 494.9747 = 1280.2766 mm are left, or
	// 12.93 steps of 98.9949 mm.
	index, tip := p.Start()
	if index != -12 {
		t.Errorf("start at %d, want -12", index)
	}
	want := plane.Point{X: 2100 + 24.7487373415292, Y: 1800 - 24.7487373415292 - 12*98.9949493661167}
	if tip.Sub(want).Length() > 1e-9 {
		t.Errorf("tip at %v, want %v", tip, want)
	}
	for _, outline := range p.StartingBlock() {
		for _, q := range outline {
			if !plane.Inside(q, p.Field()...) {
				t.Errorf("corner %v of the starting block lies outside", q)
			}
		}
	}
}

// Rows are computed as they are asked for, and can be asked for again.
func TestRowsStop(t *testing.T) {
	p, err := New(Job{})
	if err != nil {
		t.Fatal(err)
	}
	for row := range p.Rows() {
		for range p.Blocks(row) {
			break
		}
		break
	}
	done := 0
	for _, s := range p.strands {
		if s != nil {
			done++
		}
	}
	if done > 2 {
		t.Errorf("%d strands are laid out for the first row, want the 2 of the spine", done)
	}
	first, second := 0, 0
	for range p.Rows() {
		first++
	}
	for range p.Rows() {
		second++
	}
	if first != second || first == 0 {
		t.Errorf("%d rows, then %d", first, second)
	}
}
