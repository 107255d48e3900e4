package cuts

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Short runs of a border with blocks of 228 mm, none shorter than 120.
// Working: 1385/228 = 6.07, so 7 of 197.857; 310/228 = 1.36, so 2 of 155;
// 472/228 = 2.07, so 3 of 157.333; 915/228 = 4.01, so 5 of 183.
func TestCase30ShortRunsDividedEqually(t *testing.T) {
	for _, tt := range []struct {
		run, block, shortest length.Length
		n                    int
		each                 length.Length
	}{
		{1385, 228, 120, 7, 1385.0 / 7},
		{310, 228, 120, 2, 155},
		{472, 228, 120, 3, 472.0 / 3},
		{915, 228, 120, 5, 183},
		{228, 228, 120, 1, 228},
		{912, 228, 120, 4, 228},
		{120, 228, 120, 1, 120},
		// Two pieces of 230 mm would be 115 long: it cannot be done.
		{230, 228, 120, 0, 115},
		{100, 228, 120, 0, 100},
		// 54 1/2 in with 9 in blocks: 6.06, so 7 of 7.786 in.
		{54.5 * length.Inch, 9 * length.Inch, 4.75 * length.Inch, 7, 54.5 / 7 * length.Inch},
		{36 * length.Inch, 9 * length.Inch, 4.75 * length.Inch, 4, 9 * length.Inch},
	} {
		n, each := Equal(tt.run, tt.block, tt.shortest)
		if n != tt.n || !near(each, tt.each) {
			t.Errorf("Equal(%v, %v, %v) = %d of %v, want %d of %v", tt.run, tt.block, tt.shortest, n, each, tt.n, tt.each)
		}
	}
}

// As many whole blocks as were added up are that many pieces, whatever the
// rounding of sixteenths to millimetres.
func TestEqualOfWholeBlocks(t *testing.T) {
	for sixteenths := 1; sixteenths <= 320; sixteenths++ {
		for n := 1; n <= 12; n++ {
			block := length.Length(float64(sixteenths) / 16 * 25.4)
			run := length.Length(float64(n*sixteenths) / 16 * 25.4)
			if got, each := Equal(run, block, block); got != n || !near(each, block) {
				t.Fatalf("Equal of %d blocks of %d/16 in = %d of %v, want blocks of %v", n, sixteenths, got, each, block)
			}
		}
	}
}

// Strip of 70 in with a repeat of 2 7/8 in. Working: 24 repeats are 69 in and
// leave 1 in. With a joint in the middle both ends get 1/2 in; with a repeat
// in the middle, its joint 1 7/16 in off, both get (1 + 2 7/8)/2 = 1 15/16 in,
// with 23 whole between.
func TestCase31FeatureStrip(t *testing.T) {
	in := length.Inch
	for _, tt := range []struct{ strip, repeat, offset, smallest length.Length }{
		{70 * in, 2.875 * in, 1.4375 * in, 1.9375 * in},
		{1778, 73, 36.5, 49.5}, // 24 x 73 = 1752 leaves 26; (26 + 73)/2
		{730, 73, 0, 73},       // ten whole
		{803, 73, 36.5, 73},    // eleven whole
		{830, 73, 0, 50},       // ten whole, and (27 + 73)/2 at each end
		{50, 73, 36.5, 50},     // one piece
	} {
		offset, smallest := BestOffset(tt.strip, tt.repeat)
		if !near(offset, tt.offset) || !near(smallest, tt.smallest) {
			t.Errorf("BestOffset(%v, %v) = %v, %v, want %v, %v", tt.strip, tt.repeat, offset, smallest, tt.offset, tt.smallest)
		}
		if got := smallestEnd(float64(tt.strip), float64(tt.repeat), float64(offset)); math.Abs(got-float64(smallest)) > 1e-6 {
			t.Errorf("laying %v in %v at %v leaves a piece of %v, said to be %v", tt.strip, tt.repeat, offset, got, smallest)
		}
		// No other offset does better.
		for i := range 1000 {
			at := float64(tt.repeat) * float64(i) / 1000
			if got := smallestEnd(float64(tt.strip), float64(tt.repeat), at); got > float64(smallest)+1e-6 {
				t.Errorf("laying %v in %v at %v leaves a piece of %v, more than %v", tt.strip, tt.repeat, at, got, smallest)
			}
		}
	}
}

// smallestEnd lays a strip out with a joint that far from its middle, one
// repeat after the other, and returns the smallest piece.
func smallestEnd(strip, repeat, offset float64) float64 {
	smallest := math.Inf(1)
	first := math.Floor((-strip/2-offset)/repeat) - 1
	for x := offset + first*repeat; x < strip/2; x += repeat {
		if piece := min(strip/2, x+repeat) - max(-strip/2, x); piece > 1e-6 {
			smallest = min(smallest, piece)
		}
	}
	return smallest
}

// Room of 3600 mm, gaps of 10 to 15 mm. Working: rows are L/√2 broad. 200 mm:
// 141.42, and 24 rows leave 102.94 at each wall; 300 mm: 212.13, and 16 leave
// the same; 360 mm: 254.56, and 14 leave (3600 - 3563.82)/2 = 18.09; 420 mm:
// 296.98, and 12 leave the same. So none of the four comes to even rows within
// the gap; 60 x 360 and 70 x 420 miss it by 3.1 mm, and blocks of 361 mm, 14
// rows of 255.27, would leave 13.15.
func TestCase8WholeRows(t *testing.T) {
	for _, tt := range []struct {
		width, length length.Length
		rows          int
		gap           length.Length
		inTheGap      bool
	}{
		{40, 200, 24, 1800 - 2400/math.Sqrt2, false},
		{50, 300, 16, 1800 - 2400/math.Sqrt2, false},
		{60, 360, 14, 1800 - 2520/math.Sqrt2, false},
		{70, 420, 12, 1800 - 2520/math.Sqrt2, false},
		{60, 361, 14, 1800 - 2527/math.Sqrt2, true},
	} {
		interval := pattern.Herringbone{Width: tt.width, Length: tt.length, Strands: 1}.Interval()
		rows, gap := EvenRows(3600, interval, 10)
		if rows != tt.rows || !near(gap, tt.gap) || (gap <= 15) != tt.inTheGap {
			t.Errorf("EvenRows of %v x %v = %d with %v left, want %d with %v", tt.width, tt.length, rows, gap, tt.rows, tt.gap)
		}
	}
	if rows, gap := EvenRows(500, 254, 10); rows != 0 || gap != 0 {
		t.Errorf("EvenRows where none fit = %d, %v", rows, gap)
	}
}

// inRectangle counts, block by block from the pattern's definition, the whole
// and the cut blocks of a single herringbone moved by shift in a rectangle
// about the origin, and the strands that have any.
func inRectangle(wide, deep, w, l, axis float64, shift pattern.Shift) (full, cut, strands int) {
	room := rect(-wide/2, -deep/2, wide/2, deep/2)
	for k := -40; k <= 40; k++ {
		before := full + cut
		for i := -60; i <= 60; i++ {
			fi := float64(i)
			var u0, u1, v0, v1 float64
			if k%2 != 0 {
				m := float64((k + 1) / 2)
				u0, u1, v0, v1 = fi*w-l+m*l, fi*w+m*l, fi*w-w/2-m*l, fi*w+w/2-m*l
			} else {
				m := float64(k / 2)
				u0, u1, v0, v1 = fi*w+m*l, fi*w+w+m*l, fi*w+w/2-l-m*l, fi*w+w/2-m*l
			}
			var block plane.Ring
			for _, q := range [][2]float64{{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}} {
				block = append(block, plane.Point{X: (q[0]-q[1])/math.Sqrt2 + float64(shift.Across), Y: (q[0]+q[1])/math.Sqrt2 + float64(shift.Along)})
			}
			block = turnedRing(block, axis, plane.Point{})
			for e := range room {
				a, b := room.Edge(e)
				block = onLeft(block, a, b)
			}
			if area := block.Area(); area > w*l*(1-1e-9) {
				full++
			} else if area >= 1e-3 {
				cut++
			}
		}
		if full+cut > before {
			strands++
		}
	}
	return full, cut, strands
}

// A hearth strip of 1575 x 406 mm in bricks of 92 x 194, without joints, its
// long side along x, in every balanced placing. Counted either way: at its
// best the axis along the strip, with the arrows running one way, takes fewer
// cuts than the axis across it at its best, but only with a seam up the
// middle; placed midway between two seams it takes the most of all.
func TestCase44HearthStripBothWays(t *testing.T) {
	type way struct{ full, cut, columns int }
	var ways [2][]way // axis across the strip, along it
	balanced := pattern.Herringbone{Width: 92, Length: 194, Strands: 1}.Balanced()
	for i, shift := range balanced {
		for k, axis := range []float64{0, 90} {
			p := plan(t, floor.Job{Width: 92, Length: 194, Axis: axis, Room: rect(-787.5, -203, 787.5, 203), Centre: &origin, Across: shift.Across, Along: shift.Along})
			count := p.Count()
			got := way{full: count.Full, cut: count.Cut}
			for range p.Strands() {
				got.columns++
			}
			var want way
			want.full, want.cut, want.columns = inRectangle(1575, 406, 92, 194, axis, shift)
			if got != want {
				t.Errorf("axis %v, placing %d: %+v, want %+v", axis, i, got, want)
			}
			if total := Total(List(p, Options{Tolerance: 0.5})); total.Blocks != want.cut {
				t.Errorf("axis %v, placing %d: the list has %d cut blocks, want %d", axis, i, total.Blocks, want.cut)
			}
			ways[k] = append(ways[k], got)
		}
	}
	t.Logf("axis across the strip %+v, along it %+v", ways[0], ways[1])
	across, along := ways[0], ways[1]
	fewest := min(across[0].cut, across[1].cut, across[2].cut, across[3].cut)
	most := max(across[0].cut, across[1].cut, across[2].cut, across[3].cut)
	for i := range along {
		if onSeam := i < 2; onSeam && along[i].cut >= fewest || !onSeam && along[i].cut <= most {
			t.Errorf("placing %d: %+v along the strip, across it %+v", i, along[i], across)
		}
	}
}

// A landing 1016 mm wide whose nosing, the near edge, is 10 mm out of
// parallel. Laid off the far wall every column is cut elsewhere at the nosing;
// with the nosing as the fixed line, the axis square to it, the cuts there
// repeat in every column of a hand: a block is (L + W)/√2 deep, three steps,
// and so meets a line in at most four places. What is out of parallel then
// shows at the far wall.
func TestCase49NosingIsTheFixedLine(t *testing.T) {
	const wide, out = 1016, 10
	room := plane.Ring{{}, {X: wide, Y: out}, {X: wide, Y: 1200}, {X: 0, Y: 1200}}
	angle := math.Atan2(out, wide) * 180 / math.Pi
	nosing := func(job floor.Job) (kinds, pieces int, smallest float64) {
		smallest = math.Inf(1)
		p := plan(t, job)
		for _, g := range List(p, Options{Tolerance: 0.2}) {
			n := 0
			for _, at := range g.Places {
				// At the nosing and at no other wall: one straight cut.
				if y := at.Centroid.Y - at.Centroid.X*out/wide; y < 250 && len(g.Shape.Cuts) == 1 && at.Centroid.X > 250 && at.Centroid.X < wide-250 {
					n++
					smallest = min(smallest, g.Shape.Area)
				}
			}
			if n > 0 {
				kinds++
			}
			pieces += n
		}
		return kinds, pieces, smallest
	}
	off := floor.Job{Width: 30, Length: 150, Room: room, Centre: &plane.Point{X: wide / 2, Y: 600}}
	fixed := off
	fixed.Axis = angle
	kindsOff, pieces, _ := nosing(off)
	kindsFixed, _, _ := nosing(fixed)
	if kindsFixed > 8 || kindsOff <= 2*kindsFixed || pieces < 10 {
		t.Errorf("%d kinds of piece at the nosing off the far wall, %d off the nosing, of %d", kindsOff, kindsFixed, pieces)
	}
	// The field moved along its axis through a step: the sliver goes.
	best, worst, at := 0.0, math.Inf(1), 0.0
	step := 30 * math.Sqrt2
	for i := range 60 {
		fixed.Along = length.Length(step * float64(i) / 60)
		_, _, smallest := nosing(fixed)
		if smallest > best {
			best, at = smallest, float64(fixed.Along)
		}
		worst = min(worst, smallest)
	}
	t.Logf("axis turned %.3f degrees and moved %.1f mm: smallest piece at the nosing %.0f mm², at worst %.0f", angle, at, best, worst)
	if best < 10*worst {
		t.Errorf("the best offset leaves %v mm², the worst %v", best, worst)
	}
}
