package floor

import (
	"math"
	"testing"

	"keelrow/engine/length"
)

// Field case 34: tiers of 1-1/2, 1/2, 2-1/4, 1/2, 1-1/2 in, so 6-1/4 in, in a
// room of 13 ft 4 in by 17 ft 9 in, 160 by 213 in, behind a gap of 1/2 in and
// an apron of 4 in (both assumed). Knots fill the corners where the tiers
// cross. From knot to knot run 160 - 2·10-3/4 = 138-1/2 and 213 - 2·10-3/4 =
// 191-1/2 in.
//
// With a repeat of 4-1/2 in (assumed) 138.5/4.5 = 30.8 and 191.5/4.5 = 42.6.
// 31 repeats are 139.5: the apron is to be 1/2 in narrower at both ends; 30
// would be 135, 1-3/4 in wider. 43 are 193.5: 1 in narrower; 42 are 189, 1-1/4
// in wider. So within an inch there is one way.
func TestCase34KnottedBorder(t *testing.T) {
	const in = length.Inch
	list := Closings([2]length.Length{138.5 * in, 191.5 * in}, 4.5*in, in)
	if len(list) != 1 || list[0].Repeats != [2]int{31, 43} ||
		math.Abs(float64(list[0].Wider[0]+in/2)) > 1e-9 || math.Abs(float64(list[0].Wider[1]+in)) > 1e-9 {
		t.Fatalf("%+v, want 31 and 43 repeats, 1/2 in and 1 in narrower", list)
	}
	// The apron is the outermost strip, so walls of their own width set it: 4 -
	// 1/2 at the ends of the short runs, BC and DA, and 4 - 1 at AB and CD.
	job := Job{Room: rect(0, 0, 160*25.4, 213*25.4), Gap: in / 2, Width: 2.25 * in, Length: 11.25 * in,
		Strips:   []length.Length{4 * in, 1.5 * in, in / 2, 2.25 * in, in / 2, 1.5 * in},
		BorderAt: []AtWall{{0, 9.25 * in}, {2, 9.25 * in}, {1, 9.75 * in}, {3, 9.75 * in}}}
	strips := stripsOf(t, job)
	if len(strips) != 24 {
		t.Fatalf("%d strips, want 6 on each of 4 walls", len(strips))
	}
	// Line positions off the wall: gap, apron, then tier by tier.
	for _, s := range strips {
		tier := []length.Length{0, 1.5, 0.5, 2.25, 0.5, 1.5}[s.Band] * in
		if s.Band == 0 {
			tier = []length.Length{3 * in, 3.5 * in}[s.Wall%2]
		} else if math.Abs(s.From-45)+math.Abs(s.To-45) > 1e-6 {
			t.Errorf("tier %d is cut at %v and %v", s.Band, s.From, s.To)
		}
		if math.Abs(float64(s.Width-tier)) > 1e-6 {
			t.Errorf("strip %d along wall %d is %v in wide, want %v", s.Band, s.Wall, s.Width/in, tier/in)
		}
		if s.Band == 5 { // the run from knot to knot
			want := []length.Length{139.5 * in, 193.5 * in}[s.Wall%2]
			if math.Abs(float64(s.Inner-want)) > 1e-6 {
				t.Errorf("the run along wall %d is %v in, want %v", s.Wall, s.Inner/in, want/in)
			}
		}
		if s.Band == 1 { // 12-1/2 in more over both knots
			want := []length.Length{152 * in, 206 * in}[s.Wall%2]
			if math.Abs(float64(s.Outer-want)) > 1e-6 {
				t.Errorf("the first tier along wall %d is %v in, want %v", s.Wall, s.Outer/in, want/in)
			}
		}
	}
}

// Worked by hand: (r - n·p)/2.
func TestClosings(t *testing.T) {
	for _, tt := range []struct {
		name         string
		inside       [2]length.Length
		repeat, vary length.Length
		want         []Closing
	}{
		{"both close as drawn", [2]length.Length{1000, 1500}, 100, 10, []Closing{{[2]int{10, 15}, [2]length.Length{0, 0}}}},
		{"none closes", [2]length.Length{1050, 1500}, 100, 20, nil},
		{"one of the pairs does not close", [2]length.Length{1500, 1050}, 100, 20, nil},
		// 1050 is 10 repeats and 25 at both ends, or 11 and -25; 1520 is 15 and
		// 10, or 16 and -40, or 14 and 60.
		{"two ways by two", [2]length.Length{1050, 1520}, 100, 40, []Closing{
			{[2]int{10, 15}, [2]length.Length{25, 10}}, {[2]int{11, 15}, [2]length.Length{-25, 10}},
			{[2]int{10, 16}, [2]length.Length{25, -40}}, {[2]int{11, 16}, [2]length.Length{-25, -40}}}},
		{"on the limit", [2]length.Length{1040, 1000}, 100, 20, []Closing{{[2]int{10, 10}, [2]length.Length{20, 0}}}},
		{"no change allowed", [2]length.Length{1000, 900}, 100, 0, []Closing{{[2]int{10, 9}, [2]length.Length{0, 0}}}},
		// Not less than one repeat.
		{"a short run", [2]length.Length{60, 100}, 100, 40, []Closing{{[2]int{1, 1}, [2]length.Length{-20, 0}}}},
	} {
		got := Closings(tt.inside, tt.repeat, tt.vary)
		if len(got) != len(tt.want) {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
			continue
		}
		for i, w := range tt.want {
			if g := got[i]; g.Repeats != w.Repeats || math.Abs(float64(g.Wider[0]-w.Wider[0]))+math.Abs(float64(g.Wider[1]-w.Wider[1])) > 1e-9 {
				t.Errorf("%s: way %d is %+v, want %+v", tt.name, i, g, w)
			}
		}
	}
	nan := length.Length(math.NaN())
	for _, list := range [][]Closing{
		Closings([2]length.Length{1000, 1000}, 0, 10), Closings([2]length.Length{1000, 1000}, nan, 10), Closings([2]length.Length{1000, 1000}, 100, nan),
		Closings([2]length.Length{nan, 1000}, 100, 10), Closings([2]length.Length{1000, 0}, 100, 10), Closings([2]length.Length{1000, 1000}, 1e-9, 10),
	} {
		if list != nil {
			t.Errorf("%+v of what is no length", list)
		}
	}
}

// What is said to close closes, none is left out, and the order is by the
// larger change.
func TestClosingsClose(t *testing.T) {
	rng := random(t)
	for range 300 {
		inside := [2]length.Length{length.Length(uniform(rng, 200, 8000)), length.Length(uniform(rng, 200, 8000))}
		repeat, vary := length.Length(uniform(rng, 30, 400)), length.Length(uniform(rng, 0, 30))
		list := Closings(inside, repeat, vary)
		ways := 1
		for _, run := range inside {
			n := 0
			for k := 1; float64(k) < 10000/30; k++ {
				if math.Abs(float64(run-length.Length(k)*repeat))/2 <= float64(vary) {
					n++
				}
			}
			ways *= n
		}
		if len(list) != ways {
			t.Errorf("%v, %v, %v: %d ways, counted %d", inside, repeat, vary, len(list), ways)
		}
		last := 0.0
		for _, c := range list {
			for pair, run := range inside {
				if off := run - 2*c.Wider[pair] - length.Length(c.Repeats[pair])*repeat; math.Abs(float64(off)) > 1e-9 {
					t.Errorf("%+v leaves %v", c, off)
				}
			}
			most := max(math.Abs(float64(c.Wider[0])), math.Abs(float64(c.Wider[1])))
			if most < last {
				t.Errorf("%+v comes after a larger change", c)
			}
			last = most
		}
	}
}

// Field case 29: kitchen 3.2 x 4.1 m, gap 12 mm (of 10 to 12), a border of two
// strips of 75 mm. The line that the field is sawn to lies 12 + 150 = 162 off
// every wall. Strips, outer and inner edge: 3200 - 24 = 3176 and 3026, then
// 2876 inside; 4076, 3926, 3776; all ends at 45 degrees. Wood in the border:
// 3176·4076 - 2876·3776 = 2,085,600 mm².
func TestCase29TwoBlockBorder(t *testing.T) {
	job := Job{Room: rect(0, 0, 3200, 4100), Gap: 12, Strips: []length.Length{75, 75}, Width: 75, Length: 300}
	strips := stripsOf(t, job)
	checkStrips(t, strips, []wanted{
		{0, 0, 0, 75, 3176, 3026, 45, 45}, {0, 0, 1, 75, 4076, 3926, 45, 45}, {0, 0, 2, 75, 3176, 3026, 45, 45}, {0, 0, 3, 75, 4076, 3926, 45, 45},
		{1, 0, 0, 75, 3026, 2876, 45, 45}, {1, 0, 1, 75, 3926, 3776, 45, 45}, {1, 0, 2, 75, 3026, 2876, 45, 45}, {1, 0, 3, 75, 3926, 3776, 45, 45}})
	var wood float64
	for _, s := range strips {
		wood += s.Outline.Area()
	}
	if math.Abs(wood-2_085_600) > 1e-3 {
		t.Errorf("border of %v mm², want 2085600", wood)
	}
	p := planOf(t, job)
	if field := p.Field()[0]; math.Abs(field.Perimeter()-13304) > 1e-6 { // 2·(2876 + 3776), to saw
		t.Errorf("line of %v mm, want 13304", field.Perimeter())
	}
}
