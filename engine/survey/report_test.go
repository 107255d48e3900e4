package survey

import (
	"math"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Angles from sides by cos C = (a² + b² - d²)/2ab with 40 digits; mm per metre
// is 1000 times the tangent of what is over 90 degrees.
func TestCheckSquare(t *testing.T) {
	for _, tt := range []struct {
		a, b, d            length.Length
		angle, out, aMetre float64
	}{
		{3000, 4000, 5005, 90.1194259768994, 0.119425976899, 2.08437952792},
		{3000, 4000, 4995, 89.8806933895669, -0.119306610433, -2.08229618103},
		{3000, 4000, 5001, 90.0238756294789, 0.0238756294789, 0.416708369513},
		{4 * length.Foot, 3 * length.Foot, 5*length.Foot + length.Inch/4, 90.4984016476623, 0.498401647662, 8.6989691621},
		{2400, 3200, 4010, 90.2987898919506, 0.298789891951, 5.21491465923},
	} {
		angle, out, err := CheckSquare(tt.a, tt.b, tt.d)
		if err != nil || !out.Square {
			t.Fatal(err)
		}
		near(t, "angle", angle, tt.angle, 1e-11)
		near(t, "out of square", out.Degrees, tt.out, 1e-11)
		near(t, "mm in a metre", out.PerMetre, tt.aMetre, 1e-9)
		near(t, "over the shorter", float64(out.OverShorter), tt.aMetre*float64(min(tt.a, tt.b))/1000, 1e-8)
	}
	// Right triangles of whole numbers.
	for _, s := range [][3]length.Length{{3, 4, 5}, {6, 8, 10}, {9, 12, 15}, {5, 12, 13}, {8, 15, 17}} {
		angle, _, err := CheckSquare(s[0], s[1], s[2])
		if err != nil {
			t.Fatal(err)
		}
		near(t, "right angle", angle, 90, 1e-12)
	}
	for _, s := range [][3]length.Length{{3000, 4000, 7000}, {3000, 4000, 900}, {0, 1, 1}, {length.Length(math.NaN()), 1, 1}} {
		if angle, _, err := CheckSquare(s[0], s[1], s[2]); err == nil {
			t.Errorf("%v makes an angle of %v", s, angle)
		}
	}
}

func TestSquare345(t *testing.T) {
	const ft, in = length.Foot, length.Inch
	for _, tt := range []struct {
		along, across length.Length
		unit          length.Unit
		want          Triangle // without one, nothing fits
		source        string
	}{
		{5 * ft, 4 * ft, length.Inches, Triangle{4 * ft, 3 * ft, 5 * ft, ft, 1}, "wood flooring installation guidelines (US trade association, 2007), 7 VII A: 4 ft along, 3 ft across"},
		{4200, 3600, length.Millimetres, Triangle{4000, 3000, 5000, 100, 10}, "4 x 10 in 42, 3 x 10 in 36"},
		{3600, 4200, length.Millimetres, Triangle{3000, 4000, 5000, 100, 10}, "the same turned"},
		{300, 350, length.Millimetres, Triangle{240, 320, 400, 10, 8}, "30 x 35: 4 x 8 in 35, 3 x 8 in 30"},
		{10 * in, 10 * in, length.Inches, Triangle{8 * in, 6 * in, 10 * in, in, 2}, "4 x 2 in 10"},
		{1200, 900, length.Millimetres, Triangle{1200, 900, 1500, 100, 3}, "just fits"},
		{39, 30, length.Millimetres, Triangle{}, ""},
		{0, 3000, length.Millimetres, Triangle{}, ""},
		{length.Length(math.Inf(1)), 3000, length.Millimetres, Triangle{}, ""},
	} {
		got, ok := Square345(tt.along, tt.across, tt.unit)
		if ok != (tt.want.Times > 0) || got != tt.want {
			t.Errorf("Square345(%v, %v) = %+v, %v, want %+v (%s)", tt.along, tt.across, got, ok, tt.want, tt.source)
		}
	}
	r := random(t)
	for range 300 {
		along, across := length.Length(500+r.IntN(9000)), length.Length(500+r.IntN(9000))
		best := 0
		for n := 1; n < 100; n++ {
			leg := length.Length(n) * 100
			if 4*leg <= along && 3*leg <= across || 3*leg <= along && 4*leg <= across {
				best = n
			}
		}
		got, ok := Square345(along, across, length.Millimetres)
		if best > 0 && (!ok || got.Times != best || got.Along > along || got.Across > across || got.Unit != 100) {
			t.Errorf("Square345(%v, %v) = %+v, %v, want %d times", along, across, got, ok, best)
		}
		if ok {
			near(t, "diagonal", math.Hypot(float64(got.Along), float64(got.Across)), float64(got.Diagonal), 1e-9)
		}
	}
}

func TestReport(t *testing.T) {
	// D is 40 mm further than C: between AB and CD it narrows by 40 in 4000.
	room := outline(0, 0, 4000, 0, 4000, 3000, 0, 3040)
	r := ReportOf(room)
	near(t, "area", r.Area, 4000*3020, 1e-6)
	near(t, "perimeter", float64(r.Perimeter), 4000+3000+math.Hypot(4000, 40)+3040, 1e-9)
	near(t, "AB and CD, mm in a metre", r.Opposite[0].PerMetre, -10, 1e-9)
	near(t, "over the shorter", float64(r.Opposite[0].OverShorter), -40, 1e-9)
	near(t, "BC and DA", r.Opposite[1].Degrees, 0, 1e-12)
	near(t, "C, mm in a metre", r.Corners[2].Out.PerMetre, 10, 1e-9)
	near(t, "C over BC", float64(r.Corners[2].Out.OverShorter), 30, 1e-9)
	near(t, "D, mm in a metre", r.Corners[3].Out.PerMetre, -10, 1e-9)
	near(t, "AC", float64(r.Diagonals[0]), 5000, 1e-9)
	near(t, "BD", float64(r.Diagonals[1]), math.Hypot(4000, 3040), 1e-9)

	// Clockwise, the same corners in another order.
	back := ReportOf(room.Reversed()) // D C B A
	for i, c := range back.Corners {
		if want := r.Corners[3-i]; math.Abs(c.Angle-want.Angle) > 1e-9 || math.Abs(c.Out.PerMetre-want.Out.PerMetre) > 1e-9 {
			t.Errorf("corner %d clockwise: %+v, want %+v", i, c, want)
		}
	}
	near(t, "area clockwise", back.Area, r.Area, 1e-6)
	near(t, "DC and BA, from 3040 at D to 3000 at C", back.Opposite[0].PerMetre, -10, 1e-9)
	turned := ReportOf(outline(0, 3040, 0, 0, 4000, 0, 4000, 3000)) // D A B C
	near(t, "BC and DA", turned.Opposite[0].Degrees, 0, 1e-12)
	near(t, "AB and CD", turned.Opposite[1].PerMetre, -10, 1e-9)
	turned = ReportOf(outline(4000, 3000, 0, 3040, 0, 0, 4000, 0)) // C D A B
	near(t, "CD and AB", turned.Opposite[0].PerMetre, 10, 1e-9)

	// The bay has corners of 135, the L one of 270; n corners add up to (n-2) 180.
	bay := ReportOf(outline(0, 0, 4500, 0, 4500, 2800, 3300, 4000, 1200, 4000, 0, 2800))
	near(t, "bay area", bay.Area, 16560000, 1e-6)
	near(t, "bay", bay.Corners[2].Angle, 135, 1e-9)
	if bay.Corners[2].Out.Square || !bay.Corners[0].Out.Square || len(bay.Opposite)+len(bay.Diagonals) > 0 {
		t.Errorf("bay: %+v", bay)
	}
	ell := ReportOf(outline(0, 0, 5200, 0, 5200, 3100, 2100, 3130, 2100, 4600, 0, 4600))
	near(t, "inner corner", ell.Corners[3].Angle, 270-math.Atan2(30, 3100)*180/math.Pi, 1e-9)
	near(t, "inner corner, mm in a metre", ell.Corners[3].Out.PerMetre, -1000*30/3100.0, 1e-9)
	sum := 0.0
	for _, c := range ell.Corners {
		sum += c.Angle
	}
	near(t, "sum of angles", sum, 720, 1e-9)
}

// A bathroom off a strip-oak hall, 5 by 8 ft: both side walls lean 1/8 in to
// the right over their 8 ft as seen from a string off the oak. The string runs
// out 1/8 in at both walls; the room's own axis, midway between the walls, at
// neither.
func TestAxisFromTheFloorOutside(t *testing.T) {
	const in = float64(length.Inch)
	room := outline(0, 0, 60*in, 0, 60.125*in, 96*in, 0.125*in, 96*in)
	oak := []plane.Point{{X: 25 * in, Y: -40 * in}, {X: 25 * in, Y: -4 * in}}
	right := TaperOf(room, 1, oak[0], oak[1])
	left := TaperOf(room, 3, oak[0], oak[1])
	near(t, "right wall at B", float64(right.Start), 35*in, 1e-9)
	near(t, "right wall, taper", float64(right.Taper), in/8, 1e-9)
	near(t, "left wall at D", float64(left.Start), (25-0.125)*in, 1e-9)
	near(t, "left wall, taper", float64(left.Taper), in/8, 1e-9)
	near(t, "left wall, degrees", left.Degrees, math.Atan2(0.125, 96)*180/math.Pi, 1e-9)
	for _, wall := range []int{1, 3} {
		own := TaperOf(room, wall, plane.Point{X: 30 * in}, plane.Point{X: 30.125 * in, Y: 96 * in})
		near(t, "taper from the room's own axis", float64(own.Taper), 0, 1e-9)
	}
	near(t, "far wall", TaperOf(room, 0, oak[0], oak[1]).Degrees, 90, 1e-9)
}

// An old chevron measured 372 mm across a strand and 97 mm along a step, of
// boards 70 mm wide: sin a = 70/97, L = 372 * 97/70. The pattern laid with
// them has the measures taken.
func TestMatchAnOldChevron(t *testing.T) {
	angles, long, err := MatchChevron(372, 97, 70)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sine", math.Sin(angles.Axis*math.Pi/180), 70.0/97, 1e-12)
	near(t, "long edge", float64(long), 372*97/70.0, 1e-9)
	blocks := pattern.Chevron{Width: 70, Length: long, Mitre: angles.Axis}
	near(t, "across", float64(blocks.Interval()), 372, 1e-9)
	near(t, "step", float64(blocks.Step()), 97, 1e-9)
	if _, _, err := MatchChevron(372, 70, 70); err == nil {
		t.Error("a step no longer than the block is wide")
	}
	if _, _, err := MatchChevron(372, length.Length(math.NaN()), 70); err == nil {
		t.Error("a step that is no length")
	}
}

// Heads sawn at 45 give a V of 90, heads sawn at 60 one of 120 (common
// practice, no source).
func TestWhich60Degrees(t *testing.T) {
	for _, tt := range []struct {
		degree float64
		said   Said
		want   ChevronAngles
	}{
		{45, HeadAngle, ChevronAngles{45, 90, 45, 45}},
		{60, HeadAngle, ChevronAngles{60, 120, 60, 30}},
		{60, AxisAngle, ChevronAngles{60, 120, 60, 30}},
		{60, VeeAngle, ChevronAngles{30, 60, 30, 60}},
		{120, VeeAngle, ChevronAngles{60, 120, 60, 30}},
		{30, SawSetting, ChevronAngles{60, 120, 60, 30}},
	} {
		if got, err := ChevronAngle(tt.degree, tt.said); err != nil || got != tt.want {
			t.Errorf("ChevronAngle(%v, %v) = %v, %v, want %v", tt.degree, tt.said, got, err, tt.want)
		}
	}
	_, err := ChevronAngle(60, Unsaid)
	want := "60 degrees can be the angle of the head, with a V of 120 degrees, or the V itself, with heads of 30 degrees, or what the saw is swung, with heads of 30 degrees. Say which it is."
	if err == nil || err.Error() != want {
		t.Errorf("a bare 60: %v\nwant %s", err, want)
	}
	for _, bad := range []float64{0, 90, 180, -5, math.NaN()} {
		if got, err := ChevronAngle(bad, HeadAngle); err == nil {
			t.Errorf("heads of %v: %v", bad, got)
		}
	}
}

// A splay between walls at 90 degrees, its corners measured as 32 and 59: one
// degree over. Half of each turn, and half of each less half a degree.
func TestCornersThatDoNotAddUp(t *testing.T) {
	mitres, miss := Mitres([]float64{32, 59}, 90)
	near(t, "miss", miss, 1, 1e-12)
	for i, want := range []Mitre{{32, 16, 15.75}, {59, 29.5, 29.25}} {
		if mitres[i] != want {
			t.Errorf("corner %d: %+v, want %+v", i, mitres[i], want)
		}
	}
	near(t, "shared cuts, twice", 2*(mitres[0].Shared+mitres[1].Shared), 90, 1e-12)
	cuts, err := Graduated(32, 33, 5)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{32, 32.25, 32.5, 32.75, 33} {
		near(t, "cut", cuts[i], want, 1e-12)
	}
	if _, err := Graduated(32, 33, 0); err == nil {
		t.Error("no pieces have cuts")
	}
	// A room with that splay, walked round: the degree is shared between its
	// five corners. CD runs 800 cos 31.5 = 682 up and 800 sin 31.5 = 418 back.
	splay := []Leg{{4000, 90}, {3000, 32}, {800, 59}, {3582, 90}, {3682, 90}}
	got, err := Walk(splay, true, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "misclosure", got.Closing.Angle, 1, 1e-12)
	sum := 0.0
	for _, c := range ReportOf(got.Outline).Corners {
		sum += c.Angle
	}
	near(t, "sum of angles", sum, 3*180, 1e-9)
}
