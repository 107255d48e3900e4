package plane

import (
	"math"
	"testing"
)

func TestArea(t *testing.T) {
	for _, tt := range []struct {
		source string
		ring   Ring
		want   float64
	}{
		{"L by parts: 5200*3100 + 2100*1500", Ring{{0, 0}, {5200, 0}, {5200, 3100}, {2100, 3100}, {2100, 4600}, {0, 4600}}, 19270000},
		{"half of 4*3", Ring{{0, 0}, {4, 0}, {0, 3}}, 6},
		{"shoelace in whole numbers, by hand: (72 - 0)/2", Ring{{2, 1}, {7, 2}, {9, 6}, {4, 8}, {1, 5}}, 36},
		{"bay by parts: 4500*4000 less two corners of 1200*1200/2", Ring{{0, 0}, {4500, 0}, {4500, 2800}, {3300, 4000}, {1200, 4000}, {0, 2800}}, 16560000},
		{"shoelace in fractions, by hand: 5291/32", Ring{{0.5, 0.25}, {15.25, 0.5}, {14.75, 12}, {0.75, 11.75}}, 165.34375},
		{"Heron, Metrica I (from memory): the triangle 13-14-15 holds 84", Ring{{0, 0}, {14, 0}, {5, 12}}, 84},
	} {
		t.Run(tt.source, func(t *testing.T) {
			if got := tt.ring.Area(); got != tt.want {
				t.Errorf("Area() = %v, want %v", got, tt.want)
			}
			if got := tt.ring.Reversed().Area(); got != -tt.want {
				t.Errorf("Reversed().Area() = %v, want %v", got, -tt.want)
			}
			// Far from the origin, by a move that is exact in binary.
			var moved Ring
			for _, p := range tt.ring {
				moved = append(moved, p.Add(Point{1 << 20, -1 << 20}))
			}
			if got := moved.Area(); got != tt.want {
				t.Errorf("moved by 2^20: Area() = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestPerimeter(t *testing.T) {
	// Pythagoras: 3-4-5.
	if got := (Ring{{0, 0}, {4, 0}, {0, 3}}).Perimeter(); got != 12 {
		t.Errorf("Perimeter() = %v, want 12", got)
	}
}

func TestTurned(t *testing.T) {
	if got, want := (Point{3, 4}).Turned(0, 1), (Point{-4, 3}); got != want {
		t.Errorf("a quarter turn counter-clockwise = %v, want %v", got, want)
	}
}

func TestCheck(t *testing.T) {
	for _, tt := range []struct {
		name string
		ring Ring
		flaw Flaw
		i, j int
	}{
		{"rectangle", Ring{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, Sound, 0, 0},
		{"clockwise rectangle", Ring{{0, 3}, {4, 3}, {4, 0}, {0, 0}}, Sound, 0, 0},
		{"a corner in the middle of a wall", Ring{{0, 0}, {2, 0}, {4, 0}, {4, 3}, {0, 3}}, Sound, 0, 0},
		{"nothing", nil, TooFew, 0, 0},
		{"one wall", Ring{{0, 0}, {4, 0}}, TooFew, 0, 0},
		{"bow-tie", Ring{{0, 0}, {4, 3}, {4, 0}, {0, 3}}, Crossing, 0, 2},
		{"bow-tie by the other pair", Ring{{0, 0}, {4, 0}, {0, 3}, {4, 3}}, Crossing, 1, 3},
		{"first corner typed again at the end", Ring{{0, 0}, {4, 0}, {4, 3}, {0, 3}, {0, 0}}, Repeated, 0, 4},
		{"a corner typed twice", Ring{{0, 0}, {4, 0}, {4, 0}, {4, 3}, {0, 3}}, Repeated, 1, 2},
		{"outline through one point twice", Ring{{0, 0}, {2, 2}, {4, 0}, {4, 4}, {2, 2}, {0, 4}}, Repeated, 1, 4},
		{"spike out", Ring{{0, 0}, {4, 0}, {8, 0}, {4, 0.5}, {4, 3}, {0, 3}}, Sound, 0, 0},
		{"spike of no width", Ring{{0, 0}, {6, 0}, {4, 0}, {4, 3}, {0, 3}}, Crossing, 0, 1},
		{"spike of no width, square to the wall", Ring{{0, 0}, {2, 0}, {2, -5}, {2, -1}, {4, 0}, {4, 3}, {0, 3}}, Crossing, 1, 2},
		{"three corners on one line", Ring{{0, 0}, {2, 2}, {4, 4}}, NoArea, 0, 0},
		{"five corners on one line", Ring{{0, 0}, {2, 2}, {4, 4}, {3, 3}, {1, 1}}, NoArea, 0, 0},
		{"four corners on one slanting line", Ring{{0, 0}, {3000, 1000}, {6000, 2000}, {1500, 500}}, NoArea, 0, 0},
		{"walls on one another", Ring{{0, 0}, {4, 0}, {4, 3}, {3, 3}, {3, 0}, {1, 0}, {1, 3}, {0, 3}}, Crossing, 0, 3},
		{"a corner on another wall", Ring{{0, 0}, {4, 0}, {4, 3}, {2, 0}, {0, 3}}, Crossing, 0, 2},
		{"crossing far round the room", Ring{{0, 0}, {9, 0}, {9, 9}, {5, 9}, {5, -1}, {4, -1}, {4, 9}, {0, 9}}, Crossing, 0, 3},
	} {
		t.Run(tt.name, func(t *testing.T) {
			flaw, i, j := tt.ring.Check()
			if flaw != tt.flaw || i != tt.i || j != tt.j {
				t.Errorf("Check() = %v, %d, %d, want %v, %d, %d", flaw, i, j, tt.flaw, tt.i, tt.j)
			}
		})
	}
}

func TestInside(t *testing.T) {
	l := Ring{{0, 0}, {5200, 0}, {5200, 3100}, {2100, 3100}, {2100, 4600}, {0, 4600}}
	hearth := Ring{{1000, 1000}, {1000, 1400}, {1800, 1400}, {1800, 1000}}
	for _, tt := range []struct {
		p    Point
		want bool
	}{
		{Point{500, 4000}, true},
		{Point{5000, 3000}, true},
		{Point{3000, 4000}, false},
		{Point{-1, 10}, false},
		{Point{1200, 1200}, false}, // in the hearth
		{Point{1200, 1500}, true},
		{Point{2000, 3100}, true}, // level with a corner
	} {
		if got := Inside(tt.p, l, hearth); got != tt.want {
			t.Errorf("Inside(%v) = %v, want %v", tt.p, got, tt.want)
		}
	}
}

func TestMeet(t *testing.T) {
	// Diagonals of a rectangle halve each other (Euclid).
	if s, ok := Meet(Point{0, 0}, Point{4, 3}, Point{4, 0}, Point{-4, 3}); !ok || s != 0.5 {
		t.Errorf("diagonals meet at %v, %v, want 0.5, true", s, ok)
	}
	if _, ok := Meet(Point{0, 0}, Point{4, 3}, Point{0, 1}, Point{8, 6}); ok {
		t.Error("parallel lines meet")
	}
}

func TestStretches(t *testing.T) {
	l := Ring{{0, 0}, {5200, 0}, {5200, 3100}, {2100, 3100}, {2100, 4600}, {0, 4600}}
	hearth := Ring{{1000, 1000}, {1000, 1400}, {1800, 1400}, {1800, 1000}}
	for _, tt := range []struct {
		name   string
		p, dir Point
		want   []Stretch
	}{
		{"through the hearth", Point{0, 1200}, Point{1, 0}, []Stretch{{0, 1000}, {1800, 5200}}},
		{"backwards, in half metres", Point{5200, 1200}, Point{-500, 0}, []Stretch{{0, 6.8}, {8.4, 10.4}}},
		{"up the narrow part", Point{500, 100}, Point{0, 1}, []Stretch{{-100, 4500}}},
		{"past the room", Point{0, 5000}, Point{1, 0}, nil},
		{"touching a corner", Point{2100, 4600}, Point{1, -1}, []Stretch{{1500, 3100}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Stretches(tt.p, tt.dir, l, hearth)
			same := len(got) == len(tt.want)
			for i := 0; same && i < len(got); i++ {
				same = math.Abs(got[i].From-tt.want[i].From) < 1e-9 && math.Abs(got[i].To-tt.want[i].To) < 1e-9
			}
			if !same {
				t.Errorf("Stretches = %v, want %v", got, tt.want)
			}
		})
	}
}
