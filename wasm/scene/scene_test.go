package scene

import (
	"fmt"
	"math"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// rooms are floors of every kind that a painter meets.
var rooms = []struct {
	name string
	job  floor.Job
}{
	{"zero job", floor.Job{}},
	{"border, skew axis", floor.Job{Gap: 12, Border: 127, Axis: 17.3}},
	{"border of three strips in a room with a bowed wall", floor.Job{Gap: 12, Strips: []length.Length{38, 13, 57}, Bows: []floor.Bow{{Wall: 1, Rise: 120}}}},
	{"border of its own at one wall", floor.Job{Gap: 12, Border: 100, BorderAt: []floor.AtWall{{Wall: 2, Length: 60}}}},
	{"long blocks far away", floor.Job{
		Room:  []plane.Point{{X: 20000, Y: -30000}, {X: 29000, Y: -30000}, {X: 29000, Y: -24000}, {X: 20000, Y: -24000}},
		Width: 150, Length: 1200, Axis: -33}},
	{"from a wall, double", floor.Job{Start: floor.FromWall, Strands: 2, Gap: 10, Border: 90}},
	{"chevron", floor.Job{Pattern: floor.Chevron, Width: 90, Length: 600, Mitre: 52, Gap: 8, Axis: 90}},
	{"L with a pipe inside a block", floor.Job{
		Room:  []plane.Point{{}, {X: 5000}, {X: 5000, Y: 2000}, {X: 3000, Y: 2000}, {X: 3000, Y: 4000}, {Y: 4000}},
		Holes: [][]plane.Point{{{X: 1000, Y: 1000}, {X: 1020, Y: 1000}, {X: 1020, Y: 1018}, {X: 1008, Y: 1024}, {X: 1000, Y: 1018}}},
		Gap:   2}},
	{"L with a border round a hearth", floor.Job{
		Room:  []plane.Point{{}, {X: 5000}, {X: 5000, Y: 2500}, {X: 3000, Y: 2500}, {X: 3000, Y: 4000}, {Y: 4000}},
		Holes: [][]plane.Point{{{X: 1200, Y: 1200}, {X: 1900, Y: 1200}, {X: 1900, Y: 1700}, {X: 1200, Y: 1700}}},
		Gap:   10, Border: 120}},
}

func planOf(t testing.TB, job floor.Job) *floor.Plan {
	p, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func areaOf(s *Scene, i int) float64 {
	corners := s.Corners(i)
	return plane.Ring(corners[:]).Area()
}

// The shoelace areas of the rings given to the plan are what everything
// drawn has to add up to.
func TestInstancesAddUp(t *testing.T) {
	for _, tt := range rooms {
		t.Run(tt.name, func(t *testing.T) {
			p := planOf(t, tt.job)
			s := Of(p, nil)
			var field, border float64
			perBlock := map[int]float64{}
			before := 0
			for i := range s.Instances() {
				order := s.Order(i)
				if order < before || order > before+1 {
					t.Fatalf("instance %d has order %d after %d", i, order, before)
				}
				before = order
				area := areaOf(s, i)
				if area < -1e-6 {
					t.Errorf("instance %d of order %d runs clockwise: %.4f mm²", i, order, area)
				}
				if s.Kind(i) == Border {
					border += area
				} else {
					field += area
					perBlock[order] += area
				}
			}
			wantField, wantBed := 0.0, 0.0
			for _, r := range p.Field() {
				wantField += r.Area()
			}
			for _, r := range p.Bed() {
				wantBed += r.Area()
			}
			if math.Abs(field-wantField) > 2e-5*wantField {
				t.Errorf("blocks cover %.1f mm², the field is %.1f", field, wantField)
			}
			if math.Abs(border-(wantBed-wantField)) > 2e-5*wantBed {
				t.Errorf("planks cover %.1f mm², the border is %.1f", border, wantBed-wantField)
			}
			for row := range p.Rows() {
				for b := range p.Blocks(row) {
					want, slack := p.Pattern().BlockArea(), 0.0
					if !b.Full {
						want = 0
						for _, piece := range b.Pieces {
							want += piece.Area
							// A corner is kept to a hundredth of a millimetre or so.
							slack += 0.02 * piece.Outline.Perimeter()
						}
					} else {
						slack = 0.02 * plane.Ring(b.Corners[:]).Perimeter()
					}
					if got := perBlock[b.Order]; math.Abs(got-want) > slack {
						t.Errorf("block %d is drawn with %.3f mm², it has %.3f", b.Order, got, want)
					}
				}
			}
			if s.Blocks != len(perBlock) || s.Rows[len(s.Rows)-1].After != s.Blocks {
				t.Errorf("%d blocks drawn, Blocks = %d, rows end at %d", len(perBlock), s.Blocks, s.Rows[len(s.Rows)-1].After)
			}
		})
	}
}

func TestCornersLieWhereTheBlocksDo(t *testing.T) {
	for _, tt := range rooms {
		t.Run(tt.name, func(t *testing.T) {
			p := planOf(t, tt.job)
			s := Of(p, nil)
			first := map[int]int{}
			for i := s.Instances() - 1; i >= 0; i-- {
				first[s.Order(i)] = i
			}
			sin, cos := math.Sincos(tt.job.Axis * math.Pi / 180)
			worst := 0.0
			for row := range p.Rows() {
				for b := range p.Blocks(row) {
					i := first[b.Order]
					// Towards the centre line is to the left for strands right of it.
					if right := s.Direction(i).Dot(plane.Point{X: cos, Y: sin}); (right < 0) != (b.Strand >= 0) {
						t.Fatalf("block %d of strand %d is pushed %v", b.Order, b.Strand, s.Direction(i))
					}
					if !b.Full {
						continue
					}
					for _, got := range s.Corners(i) {
						nearest := math.Inf(1)
						for _, want := range b.Corners {
							nearest = min(nearest, got.Add(s.Anchor).Sub(want).Length())
						}
						worst = max(worst, nearest)
					}
				}
			}
			if worst > 0.02 {
				t.Errorf("a corner is %.4f mm off", worst)
			}
		})
	}
}

// Every corner of a cut block's instances lies on or in its outline, and
// points chosen at random are covered exactly where there is wood.
func TestCutPiecesAreCoveredOnce(t *testing.T) {
	const seed = 7
	random := rand.New(rand.NewSource(seed))
	for _, tt := range rooms {
		p := planOf(t, tt.job)
		s := Of(p, nil)
		at := 0
		for row := range p.Rows() {
			for b := range p.Blocks(row) {
				from := at
				for at < s.Instances() && s.Order(at) == b.Order {
					at++
				}
				if b.Full {
					continue
				}
				low, high := plane.Ring(b.Corners[:]).Box()
				for range 40 {
					q := plane.Point{
						X: low.X + random.Float64()*(high.X-low.X),
						Y: low.Y + random.Float64()*(high.Y-low.Y)}
					if nearEdge(q, b.Pieces) {
						continue
					}
					want, got := 0, 0
					for _, piece := range b.Pieces {
						if plane.Inside(q, append([]plane.Ring{piece.Outline}, piece.Holes...)...) {
							want++
						}
					}
					onSeam := false
					for i := from; i < at; i++ {
						c := s.Corners(i)
						if plane.Inside(q.Sub(s.Anchor), plane.Ring(c[:])) {
							got++
						}
						for k := range c {
							onSeam = onSeam || nearLine(q.Sub(s.Anchor), c[k], c[(k+1)%4])
						}
					}
					if got != want && !onSeam {
						t.Errorf("%s, seed %d: block %d covers %v %d times, want %d", tt.name, seed, b.Order, q, got, want)
					}
				}
			}
		}
	}
}

func nearEdge(q plane.Point, pieces []floor.Piece) bool {
	for _, piece := range pieces {
		for _, r := range append([]plane.Ring{piece.Outline}, piece.Holes...) {
			for i := range r {
				if a, b := r.Edge(i); nearLine(q, a, b) {
					return true
				}
			}
		}
	}
	return false
}

func nearLine(q, a, b plane.Point) bool {
	along := b.Sub(a)
	if along.Length() < 1e-9 {
		return q.Sub(a).Length() < 0.05
	}
	t := min(1, max(0, q.Sub(a).Dot(along)/along.Dot(along)))
	return q.Sub(a.Add(along.Times(t))).Length() < 0.05
}

// A frame of wood round a hole, a comb, and a hole in a comb: areas by hand.
func TestOddPieces(t *testing.T) {
	square := func(x, y, side float64) plane.Ring {
		return plane.Ring{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
	}
	comb := plane.Ring{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 50, Y: 40}, {X: 40, Y: 40}, {X: 40, Y: 10},
		{X: 30, Y: 10}, {X: 30, Y: 40}, {X: 20, Y: 40}, {X: 20, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 40}, {X: 0, Y: 40}}
	for _, tt := range []struct {
		name    string
		outline plane.Ring
		holes   []plane.Ring
		want    float64
	}{
		{"40² less 10²", square(0, 0, 40), []plane.Ring{square(10, 10, 10).Reversed()}, 1600 - 100},
		{"the same, hole given the other way", square(0, 0, 40), []plane.Ring{square(10, 10, 10)}, 1600 - 100},
		{"two holes on one height", square(0, 0, 40), []plane.Ring{square(5, 10, 10), square(25, 10, 10)}, 1600 - 200},
		{"three holes, one behind the other", square(0, 0, 60), []plane.Ring{square(5, 25, 10), square(25, 25, 10), square(45, 25, 10)}, 3600 - 300},
		{"comb of three teeth", comb, nil, 50*10 + 3*10*30},
		{"comb with a hole in its back", comb, []plane.Ring{square(21, 2, 5)}, 50*10 + 3*10*30 - 25},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := NewBuilder(plane.Point{}, 0, 1, nil)
			corners := [4]plane.Point{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 60}, {X: 0, Y: 60}}
			b.Cut(Name{Strand: 1}, 1, &corners, []floor.Piece{{Outline: tt.outline, Holes: tt.holes}})
			s := b.Scene()
			got := 0.0
			for i := range s.Instances() {
				area := areaOf(s, i)
				if area < 0 {
					t.Errorf("instance %d is turned over", i)
				}
				got += area
			}
			if math.Abs(got-tt.want) > 1 {
				t.Errorf("drawn %.2f mm², want %.2f", got, tt.want)
			}
			path, next := s.AppendPath(nil, 0)
			if got := pathArea(t, string(path)); math.Abs(got-tt.want) > 1 || next != s.Instances() {
				t.Errorf("path of %.2f mm² to instance %d, want %.2f to %d", got, next, tt.want, s.Instances())
			}
		})
	}
}

func TestPathsCoverTheFloor(t *testing.T) {
	for _, tt := range rooms {
		p := planOf(t, tt.job)
		s := Of(p, nil)
		got, want, blocks := 0.0, 0.0, 0
		for _, r := range p.Bed() {
			want += r.Area()
		}
		for i := 0; i < s.Instances(); blocks++ {
			var path []byte
			path, i = s.AppendPath(nil, i)
			got += pathArea(t, string(path))
		}
		if math.Abs(got-want) > 5e-4*want || blocks != s.Orders {
			t.Errorf("%s: %d paths cover %.0f mm², want %d and %.0f", tt.name, blocks, got, s.Orders, want)
		}
	}
}

// pathArea adds up the areas of a path of M, l and z, by the shoelace formula.
func pathArea(t *testing.T, path string) (area float64) {
	for _, part := range strings.Split(strings.TrimSuffix(path, "z"), "z") {
		var ring plane.Ring
		for i, step := range strings.FieldsFunc(part, func(r rune) bool { return r == 'M' || r == 'l' }) {
			x, y, _ := strings.Cut(step, " ")
			dx, errX := strconv.ParseFloat(x, 64)
			dy, errY := strconv.ParseFloat(y, 64)
			if errX != nil || errY != nil {
				t.Fatalf("path %q does not read", path)
			}
			q := plane.Point{X: dx * PathUnit, Y: dy * PathUnit}
			if i > 0 {
				q = q.Add(ring[i-1])
			}
			ring = append(ring, q)
		}
		area += ring.Area()
	}
	return area
}

// Where the laying starts changes the order, never the wood.
func TestSeedsDoNotDependOnOrder(t *testing.T) {
	seeds := func(start floor.Start) map[string]uint16 {
		s := Of(planOf(t, floor.Job{Start: start}), nil)
		out := map[string]uint16{}
		for i := range s.Instances() {
			m := s.Middle(i)
			out[fmt.Sprintf("%.1f %.1f", m.X, m.Y)] = s.Seed(i)
		}
		return out
	}
	centre, wall := seeds(floor.FromCentre), seeds(floor.FromWall)
	different := map[uint16]bool{}
	for place, seed := range centre {
		if wall[place] != seed {
			t.Fatalf("block at %s has seed %d from the centre, %d from the wall", place, seed, wall[place])
		}
		different[seed] = true
	}
	if len(different) < len(centre)*98/100 {
		t.Errorf("%d blocks share %d seeds", len(centre), len(different))
	}
}

func TestLaidCountsBlocksUnderWay(t *testing.T) {
	s := Of(planOf(t, floor.Job{Border: 100}), nil)
	for _, laid := range []float64{-1, 0, 0.5, 1, 17, 17.01, float64(s.Blocks), 1e9, math.Inf(1)} {
		want := 0
		for i := range s.Instances() {
			if float64(s.Order(i)) < laid {
				want++
			}
		}
		if got := s.Laid(laid); got != want {
			t.Errorf("Laid(%v) = %d, want %d", laid, got, want)
		}
	}
	row, ok := s.RowAt(s.Rows[3].First)
	if !ok || row != s.Rows[3] {
		t.Errorf("RowAt(first of row 4) = %v, %v", row, ok)
	}
	if _, ok := s.RowAt(s.Blocks); ok {
		t.Error("a border plank has a row")
	}
}

func TestPlanks(t *testing.T) {
	b := NewBuilder(plane.Point{X: 2000, Y: 1500}, 0, 1, nil)
	strips, err := planOf(t, floor.Job{Border: 100, Room: []plane.Point{{}, {X: 4000}, {X: 4000, Y: 3000}, {Y: 3000}}}).Strips()
	if err != nil {
		t.Fatal(err)
	}
	b.Border(strips)
	s := b.Scene()
	// 4000 mm in planks of at most 1200 is 4 a wall, 3000 mm is 3.
	if s.Orders != 2*4+2*3 {
		t.Errorf("%d planks, want 14", s.Orders)
	}
	for i := range s.Instances() {
		c := s.Corners(i)
		low, high := plane.Ring(c[:]).Box()
		if size := high.Sub(low); max(size.X, size.Y) > LongestPlank+0.05 {
			t.Errorf("plank %d is %.1f by %.1f mm", i, size.X, size.Y)
		}
	}
	if s.Low.Sub(plane.Point{X: -2000, Y: -1500}).Length() > 1e-6 || s.High.Sub(plane.Point{X: 2000, Y: 1500}).Length() > 1e-6 {
		t.Errorf("box from %v to %v", s.Low, s.High)
	}
}

func TestMemoryIsUsedAgain(t *testing.T) {
	p := planOf(t, floor.Job{Border: 100})
	s := Of(p, nil)
	again := Of(p, s)
	fresh := Of(p, nil)
	if string(again.Data) != string(fresh.Data) || len(again.rings) != len(fresh.rings) {
		t.Error("a scene built in old memory differs")
	}
}

func BenchmarkBuild(b *testing.B) {
	p := planOf(b, floor.Job{Width: 70, Length: 350,
		Room: []plane.Point{{}, {X: 80000}, {X: 80000, Y: 60000}, {Y: 60000}}})
	var blocks []floor.Block
	for row := range p.Rows() {
		for block := range p.Blocks(row) {
			blocks = append(blocks, block)
		}
	}
	low, high := p.Room()[0].Box()
	var s *Scene
	b.ReportAllocs()
	for b.Loop() {
		build := NewBuilder(low.Add(high).Times(0.5), 0, len(blocks)+10000, s)
		for i := range blocks {
			block := &blocks[i]
			if block.Full {
				build.Whole(Name{block.Strand, block.Sub, block.Index}, int(block.Hand), &block.Corners)
			} else {
				build.Cut(Name{block.Strand, block.Sub, block.Index}, int(block.Hand), &block.Corners, block.Pieces)
			}
		}
		s = build.Scene()
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(blocks)), "ns/block")
	b.ReportMetric(float64(len(blocks)), "blocks")
}

func BenchmarkOf(b *testing.B) {
	p := planOf(b, floor.Job{Room: []plane.Point{{}, {X: 80000}, {X: 80000, Y: 60000}, {Y: 60000}}})
	var s *Scene
	b.ReportAllocs()
	for b.Loop() {
		s = Of(p, s)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(s.Blocks), "ns/block")
}
