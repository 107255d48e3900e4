package survey

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}

// A worked example of the compass rule as published: "Compass rule: adjustment
// of bearing and distance of a closed traverse" (a handout of a surveying course, document
// 493615208), sides in metres. Its latitudes (north) and departures (east) were
// rounded to 3 decimals and then adjusted to 4, so they are good to about
// 0.001. Its bearings N 76 E, S 36 E, S 61 W, N 38 W are turns of 68,
// 97, 81 and 114 degrees to the right.
func TestWalkCompassRule(t *testing.T) {
	legs := []Leg{{80.40, -68}, {46.30, -97}, {72.80, -81}, {68.00, -114}}
	adjusted := [][2]float64{{19.3653, 78.1055}, {-37.5063, 27.2678}, {-35.3716, -63.5874}, {53.5126, -41.7859}}
	got, err := Walk(legs, true, 1)
	if err != nil {
		t.Fatal(err)
	}
	var want plane.Ring
	var at plane.Point
	for i, d := range adjusted {
		want = append(want, at)
		at = at.Add(plane.Point{X: d[1], Y: d[0]})
		near(t, "wall "+WallName(i, 4), float64(got.Checks[i].Adjusted), math.Hypot(d[0], d[1]), 1e-3)
	}
	if off := furthest(got.Outline, fromAB(want)); off > 2e-3 {
		t.Errorf("corners %v, want %v", got.Outline, fromAB(want))
	}
	near(t, "closing error", float64(got.Closing.Distance), math.Hypot(0.285, 0.311), 1e-3)
	// The error runs 0.285 north and 0.311 west, and AB on a bearing of 76.
	near(t, "its direction", got.Closing.Direction, 90+math.Atan2(0.311, 0.285)*180/math.Pi-14, 0.2)
	near(t, "sum of turns", got.Closing.Turned, -360, 1e-12)
	near(t, "misclosure of the angles", got.Closing.Angle, 0, 1e-12)
}

func TestWalkExact(t *testing.T) {
	ell := outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	legs := []Leg{{5200, 90}, {3100, 90}, {3100, -90}, {1500, 90}, {2100, 90}, {4600, 90}}
	for _, share := range []bool{false, true} {
		got, err := Walk(legs, share, DefaultLimit)
		if err != nil || furthest(got.Outline, ell) > 1e-9 || got.Closing.Distance > 1e-9 {
			t.Errorf("share %v: %+v, %v", share, got, err)
		}
		// The same room the other way: every turn to the right.
		back := slices.Clone(legs)
		for i := range back {
			back[i].Turn = -legs[i].Turn
		}
		got, err = Walk(back, share, DefaultLimit)
		if err != nil || math.Abs(got.Outline.Area()+19270000) > 1e-6 {
			t.Errorf("share %v, clockwise: %+v, %v", share, got, err)
		}
	}
	r := random(t)
	for range 100 {
		room := randomRoom(r, 3+r.IntN(10))
		var legs []Leg
		for i := range room {
			a, b := room.Edge(i)
			_, c := room.Edge(i + 1)
			u, v := b.Sub(a), c.Sub(b)
			legs = append(legs, Leg{length.Length(u.Length()), math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi})
		}
		got, err := Walk(legs, true, DefaultLimit)
		if err != nil || furthest(got.Outline, fromAB(room)) > 1e-6 {
			t.Fatalf("%v: %v, %v", room, got, err)
		}
	}
}

func TestWalkCloses(t *testing.T) {
	// CD is 8 mm long. Shared over 15600 mm, AB gives 8 * 4200/15600 = 2.1538.
	legs := []Leg{{4200, 90}, {3600, 90}, {4208, 90}, {3600, 90}}
	got, err := Walk(legs, true, 10)
	if err != nil {
		t.Fatal(err)
	}
	whole := 4200.0 + 3600 + 4208 + 3600
	near(t, "AB", float64(got.Checks[0].Residual), 8*4200/whole, 1e-9)
	near(t, "CD", float64(got.Checks[2].Residual), -8*4208/whole, 1e-9)
	near(t, "miss along AB", got.Closing.Miss.X, -8, 1e-9)
	near(t, "direction", got.Closing.Direction, 180, 1e-9)

	// Without sharing the last wall takes it: sqrt(3600² + 8²).
	got, err = Walk(legs, false, 10)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "DA", float64(got.Checks[3].Adjusted), math.Hypot(3600, 8), 1e-9)
	near(t, "CD", float64(got.Checks[2].Residual), 0, 1e-9)

	got, err = Walk(legs, true, DefaultLimit)
	var closing *ClosingError
	if !errors.As(err, &closing) || closing.Result != got || got == nil || !slices.Equal(closing.Along, []int{0, 2}) {
		t.Fatalf("%v, %v", got, err)
	}
	want := "The walls end 8 mm away from corner A, and at most 3 mm can be shared out. Tape AB and CD again first: they run the way of the miss."
	if err.Error() != want {
		t.Errorf("%s\nwant\n%s", err, want)
	}
	want = "The walls end 5/16 in away from corner A, and at most 1/8 in can be shared out. Tape AB and CD again first: they run the way of the miss."
	if got := closing.In(length.Tape{Unit: length.Inches}); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}

	// Angles a degree over in all are shared: a square with 90.25 at each corner
	// is a square again.
	square := []Leg{{3000, 90.25}, {3000, 90.25}, {3000, 90.25}, {3000, 90.25}}
	got, err = Walk(square, true, DefaultLimit)
	if err != nil || furthest(got.Outline, outline(0, 0, 3000, 0, 3000, 3000, 0, 3000)) > 1e-9 {
		t.Errorf("%v, %v", got, err)
	}
	near(t, "angle", got.Closing.Angle, 1, 1e-9)
}

func TestWalkRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		legs []Leg
		want string
	}{
		{"too few", []Leg{{1, 90}}, "A room of 1 walls cannot be walked round. Give from 3 to 60 walls."},
		{"a missing turn", []Leg{{4200, 90}, {3600, 90}, {4200, 90}, {3600, 0}},
			"The turns add up to 270 degrees, and once round a room is 360 to the left or to the right. Check which turn is missing, or goes the other way."},
		{"a reversed turn", []Leg{{4200, 90}, {3600, -90}, {4200, 90}, {3600, 90}},
			"The turns add up to 180 degrees, and once round a room is 360 to the left or to the right. Check which turn is missing, or goes the other way."},
		{"no length", []Leg{{4200, 90}, {0, 90}, {length.Length(math.NaN()), 90}, {3600, 180}},
			"Wall BC cannot be 0 mm long. Tape it again.\nWall CD cannot be that long. Tape it again.\n" +
				"The turn at corner A cannot be 180 degrees. Give less than 180 degrees, to the left or, below zero, to the right."},
	} {
		_, err := Walk(tt.legs, true, DefaultLimit)
		if err == nil || err.Error() != tt.want {
			t.Errorf("%s: %v\nwant %s", tt.name, err, tt.want)
		}
	}
	// A walk that turns round once and yet crosses itself.
	legs := []Leg{{4000, 90}, {3000, 90}, {1000, 90}, {4000, -90}, {1000, -90}, {2000, 90}, {2000, 90}, {1000, 90}}
	sum := 0.0
	for _, l := range legs {
		sum += l.Turn
	}
	if sum != 360 {
		t.Fatalf("the turns add up to %v", sum)
	}
	legs[6].Length, legs[7].Length = 0, 0 // worked out to close
	var at plane.Point
	heading := 0.0
	for _, l := range legs {
		at = at.Add(along(heading).Times(float64(l.Length)))
		heading += l.Turn
	}
	legs[6].Length, legs[7].Length = length.Length(at.X), length.Length(at.Y)
	if legs[6].Length > 0 && legs[7].Length > 0 {
		if _, err := Walk(legs, false, DefaultLimit); err == nil || !strings.Contains(err.Error(), "cross or touch") {
			t.Errorf("a crossing walk: %v", err)
		}
	} else {
		t.Fatalf("the walk does not close: %v", at)
	}
}
