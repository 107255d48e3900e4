package state

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/plane"
)

func TestEditKeepsTheText(t *testing.T) {
	s := Open("")
	for _, tt := range []struct{ text, link string }{
		{" 12 mm", "gap=12mm"}, {"1,5 CM ", "gap=1.5cm"}, {"½\"", "gap=1/2in"}, {"007", "gap=007"},
	} {
		s = do(t, s, Edit{Input: Gap, Text: tt.text}, GoTo{"lay"}, GoTo{"measure"})
		wantFine(t, s)
		if s.Typed[Gap] != tt.text {
			t.Errorf("%q was typed and %q is shown", tt.text, s.Typed[Gap])
		}
		wantAddress(t, s, tt.link+"&stage=measure")
	}
}

func TestEditSteps(t *testing.T) {
	s := Open("")
	for _, tt := range []struct {
		edit Edit
		want Step
	}{
		{Edit{Gap, "-", false}, Stay},
		{Edit{Gap, "1", true}, Push}, // the first of the run to change the link
		{Edit{Gap, "12", true}, Replace},
		{Edit{Gap, "12", true}, Stay},
		{Edit{Gap, "12x", true}, Stay},
		{Edit{Gap, "13", true}, Replace},
		{Edit{Border, "1", true}, Push},
		{Edit{Gap, "14", false}, Push},
		{Edit{"nothing", "14", false}, Stay},
		{Edit{"room.0.x", "14", false}, Stay}, // there are no corners
	} {
		var got Step
		if s, got = step(t, s, tt.edit); got != tt.want {
			t.Errorf("%+v: step %v, want %v", tt.edit, got, tt.want)
		}
	}
	if _, ok := s.Typed["nothing"]; ok {
		t.Error("an input came from nowhere")
	}
}

func TestUnreadableText(t *testing.T) {
	for _, tt := range []struct{ input, text, at string }{
		{Gap, "twelve", Gap}, {Gap, "", Gap}, {Gap, "-3", Gap}, {Gap, "1/2", Gap},
		{RoomWidth, "4m2", RoomWidth}, {RoomDepth, "", RoomDepth}, {RoomWidth, "0", "room"},
		{BlockWidth, "x", BlockWidth}, {BlockLength, "0", "block"},
		{Mitre, "80", Mitre}, {Mitre, "", Mitre}, {Axis, "1e2", Axis},
		{CentreX, "10", CentreY}, {Across, "&", Across},
	} {
		s := Open("#" + "border=110")
		plan := s.Plan
		s = do(t, s, Edit{Input: tt.input, Text: tt.text})
		wantProblem(t, s, tt.at, "")
		if s.Typed[tt.input] != tt.text || !reflect.DeepEqual(s.Plan.Job(), plan.Job()) || s.Address() != "border=110" {
			t.Errorf("%+v: text %q, link %q", tt, s.Typed[tt.input], s.Address())
		}
		// Another input still takes effect, and the problem stays.
		s = do(t, s, Edit{Input: Border, Text: "90"})
		wantProblem(t, s, tt.at, "")
		wantAddress(t, s, "border=90")
		if s.Plan.Job().Border != 90 || s.Typed[tt.input] != tt.text {
			t.Errorf("%+v: border %v, text %q", tt, s.Plan.Job().Border, s.Typed[tt.input])
		}
		// The old text brings back the old floor.
		s = do(t, s, Edit{Input: tt.input, Text: Open("").Typed[tt.input]})
		wantFine(t, s)
		wantAddress(t, s, "border=90")
	}
}

func TestUnreadableAfterUnlayable(t *testing.T) {
	s := do(t, Open("#gap=5&border=100"), Edit{Input: Border, Text: "2000"})
	wantProblem(t, s, Border, "leaves no field")
	s = do(t, s, Edit{Input: Border, Text: "2000k"}, Edit{Input: Gap, Text: "6"})
	wantProblem(t, s, Border, "no unit known")
	wantAddress(t, s, "gap=6&border=100")
}

func TestUnlayableText(t *testing.T) {
	start := Open("#gap=%31%30&border=100&room=4000x3000")
	s := do(t, start, Edit{Input: Border, Text: "1490"})
	wantProblem(t, s, Border, "leaves no field")
	if s.Plan != start.Plan || s.Typed[Border] != "1490" {
		t.Error("the last good floor or the text is gone")
	}
	wantAddress(t, s, start.Address())
	// A view setting goes to the link that is shown.
	s = do(t, s, GoTo{"lay"})
	wantAddress(t, s, start.Address()+"&stage=lay")
	// What does not help waits with it.
	s = do(t, s, Edit{Input: BlockWidth, Text: "80"})
	wantProblem(t, s, Border, "leaves no field")
	wantAddress(t, s, start.Address()+"&stage=lay")
	// What makes room for it lets all take effect.
	s, got := step(t, s, Edit{Input: RoomDepth, Text: "3100"})
	wantFine(t, s)
	wantAddress(t, s, "gap=%31%30&border=1490&room=4000x3100&block=80x350&stage=lay")
	job := s.Plan.Job()
	if got != Push || job.Border != 1490 || job.Width != 80 || job.Room[2] != (plane.Point{X: 4000, Y: 3100}) {
		t.Errorf("step %v, job %+v", got, job)
	}
}

func TestEditWhatWasRefused(t *testing.T) {
	s := Open("#border=2000&mitre=80&gap=10")
	s = do(t, s, Edit{Input: Gap, Text: "12"})
	if s.Problems["border"] == "" || s.Problems["mitre"] == "" || len(s.Problems) != 2 || s.Plan.Job().Gap != 12 {
		t.Fatalf("problems %q, gap %v", s.Problems, s.Plan.Job().Gap)
	}
	wantAddress(t, s, "border=2000&mitre=80&gap=12")
	// Unreadable: the sentence is about what was typed, and others go on.
	s = do(t, s, Edit{Input: Border, Text: "wide"}, Edit{Input: Gap, Text: "13"})
	if !strings.Contains(s.Problems[Border], "wide") || s.Plan.Job().Gap != 13 {
		t.Errorf("problems %q, gap %v", s.Problems, s.Plan.Job().Gap)
	}
	// Live again, so it now has to fit.
	s = do(t, s, Edit{Input: Border, Text: "1900"})
	wantAddress(t, s, "border=2000&mitre=80&gap=13")
	s = do(t, s, Edit{Input: Border, Text: "150"}, Edit{Input: Mitre, Text: "60"})
	wantFine(t, s)
	wantAddress(t, s, "border=150&mitre=60&gap=13")
	if s.Plan.Job().Border != 150 {
		t.Errorf("border %v", s.Plan.Job().Border)
	}
}

// A border that was too wide for the room of the link is laid when the room
// grows, and then is a border like any other.
func TestRefusedBecomesPossible(t *testing.T) {
	s := do(t, Open("#border=2000"), Edit{Input: RoomWidth, Text: "6000"})
	wantProblem(t, s, Border, "leaves no field") // 3600 deep still
	s = do(t, s, Edit{Input: RoomDepth, Text: "5000"})
	wantFine(t, s)
	if s.Plan.Job().Border != 2000 {
		t.Fatalf("border %v, want 2000", s.Plan.Job().Border)
	}
	s = do(t, s, Edit{Input: RoomDepth, Text: "3000"})
	wantProblem(t, s, Border, "leaves no field")
	wantAddress(t, s, "room=6000x5000&border=2000")
}

// A refused key stays reported when something else cannot be laid out.
func TestRefusedStaysReported(t *testing.T) {
	s := do(t, Open("#border=2000"), Edit{Input: BlockWidth, Text: "400"})
	if s.Problems["border"] == "" || !strings.Contains(s.Problems["block"], "shorter") {
		t.Errorf("problems %q, want one at border and one at block", s.Problems)
	}
}

func TestHugeRoomCanBeEdited(t *testing.T) {
	s := do(t, Open("#room=1000000x1000000"), Edit{Input: Gap, Text: "12"})
	wantProblem(t, s, "room", "blocks")
	wantAddress(t, s, "room=1000000x1000000&gap=12")
	s = do(t, s, Edit{Input: RoomWidth, Text: "5m"}, Edit{Input: RoomDepth, Text: "4m"})
	wantFine(t, s)
	wantAddress(t, s, "room=5mx4m&gap=12")
}

func TestUnchangedTextStays(t *testing.T) {
	rest := "room=14ft%20x%2012%27&block=2-1/4in%20x%209%22&shift=%200,0&axis=+0&mine=a%zz&hole=100%2C100;300,100;100,300&"
	s := Open("#gap=1&" + rest)
	if len(s.Problems) > 0 {
		t.Fatalf("problems %q", s.Problems)
	}
	s = do(t, s, Edit{Input: Gap, Text: "10"}, Place{9}, RemoveHole{5}, Choose{"pattern", "herringbone"})
	wantAddress(t, s, "gap=10&"+rest)
}

func TestKeysLeftOutStayOut(t *testing.T) {
	for _, unit := range []string{"", "unit=in"} {
		s := do(t, Open("#"+unit), Edit{Input: Gap, Text: "10mm"}, Edit{Input: Border, Text: "0"},
			Edit{Input: Along, Text: "1"}, Edit{Input: Along, Text: "0"},
			Choose{"strands", "1"}, Choose{"start", "centre"}, Choose{"fraction", "16"}, GoTo{"measure"})
		wantFine(t, s)
		wantAddress(t, s, strings.TrimPrefix(unit+"&gap=10mm&shift=0,0", "&"))
	}
}

func TestCentre(t *testing.T) {
	s := do(t, Open("#gap=10"), Edit{Input: CentreX, Text: "2000"})
	wantProblem(t, s, CentreY, "No length")
	s = do(t, s, Edit{Input: CentreY, Text: "1700"})
	wantFine(t, s)
	wantAddress(t, s, "gap=10&centre=2000,1700")
	s = do(t, s, Edit{Input: CentreX, Text: " "})
	wantProblem(t, s, CentreX, "No length")
	s = do(t, s, Edit{Input: CentreY, Text: ""})
	wantFine(t, s)
	wantAddress(t, s, "gap=10")
	if c := *s.Plan.Job().Centre; c != (plane.Point{X: 2100, Y: 1800}) {
		t.Errorf("centre %v, want the middle of 4200 by 3600", c)
	}
	s = do(t, Open("#centre=,"), Edit{Input: CentreX, Text: ""})
	wantFine(t, s)
	wantAddress(t, s, "")
}

func TestDegrees(t *testing.T) {
	s := do(t, Open("#pattern=chevron"), Edit{Input: Mitre, Text: " 52,5 °"}, Edit{Input: Axis, Text: "-2.5°"})
	wantFine(t, s)
	wantAddress(t, s, "pattern=chevron&mitre=52.5&axis=-2.5")
}

func TestChoose(t *testing.T) {
	s := do(t, Open(""), Choose{"pattern", "chevron"}, Choose{"strands", "2"}, Choose{"start", "wall"}, Choose{"fraction", "32"})
	wantFine(t, s)
	wantAddress(t, s, "fraction=32&pattern=chevron&strands=2&start=wall")
	job := s.Plan.Job()
	if job.Pattern != floor.Chevron || job.Strands != 2 || job.Start != floor.FromWall || job.Fraction != 32 {
		t.Errorf("job %+v", job)
	}
	wantProblem(t, do(t, s, Choose{"strands", "7"}), "strands", "7")
	for _, a := range []Action{Choose{"strands", "7"}, Choose{"room", "1x1"}, Choose{"", ""}, Choose{"mine", "a"}} {
		wantAddress(t, do(t, s, a), s.Address())
	}
}

func TestChangeUnit(t *testing.T) {
	for _, text := range []string{
		"", link.Demo, "unit=in", "unit=in&room=14ft6x12&gap=1/2&block=2%20¼x9%22&border=5in&shift=-1/2,3",
		"gap=12&laid=40&centre=2100,1700&hole=900,900;1400,900;1400,1400", "unit=cm&gap=12", "border=2000&gap=9",
	} {
		s := Open("#" + text)
		other := length.Millimetres
		if s.Unit() == other {
			other = length.Inches
		}
		next, got := step(t, s, ChangeUnit{other})
		want := s.Plan.Job()
		want.Unit = other
		if !reflect.DeepEqual(next.Plan.Job(), want) || got != Push || next.Unit() != other {
			t.Errorf("%q became %q, job %+v, want %+v", text, next.Address(), next.Plan.Job(), want)
		}
		if !reflect.DeepEqual(next.Rows, s.Rows) || next.Laid != s.Laid {
			t.Errorf("%q: rows or laying changed", text)
		}
		if again := Open("#" + next.Address()); !reflect.DeepEqual(again.Typed, next.Typed) {
			t.Errorf("%q: inputs show %q, its link shows %q", text, next.Typed, again.Typed)
		}
		same, got := step(t, next, ChangeUnit{other})
		if got != Stay || same.Address() != next.Address() {
			t.Errorf("the same unit again: %v, %q", got, same.Address())
		}
		back := do(t, next, ChangeUnit{1 - other})
		if !reflect.DeepEqual(back.Plan.Job(), s.Plan.Job()) {
			t.Errorf("%q and back: job %+v, want %+v", text, back.Plan.Job(), s.Plan.Job())
		}
	}
}

func TestChangeUnitOfTypedText(t *testing.T) {
	s := do(t, Open(""), Edit{Input: Gap, Text: " 12 "}, Edit{Input: Border, Text: "10 CM"}, Edit{Input: Along, Text: "x"},
		ChangeUnit{length.Inches})
	for input, want := range map[string]string{Gap: "12mm", Border: "10 CM", Along: "x", Axis: "0", Across: "0", BlockWidth: "70mm"} {
		if s.Typed[input] != want {
			t.Errorf("%s shows %q, want %q", input, s.Typed[input], want)
		}
	}
	wantProblem(t, s, Along, "x")
	wantAddress(t, s, "unit=in&gap=12mm&border=10cm")
	// While a border does not fit, the floor that is shown still changes.
	s = do(t, Open("#gap=10"), Edit{Input: Border, Text: "2000"}, ChangeUnit{length.Inches})
	wantAddress(t, s, "unit=in&gap=10mm")
	if s.Plan.Job().Unit != length.Inches || s.Typed[Border] != "2000mm" {
		t.Errorf("unit %v, border shows %q", s.Plan.Job().Unit, s.Typed[Border])
	}
	wantProblem(t, s, Border, "leaves no field")
}

func TestShapeRoom(t *testing.T) {
	s := do(t, Open("#unit=in&room=10ftx8ft"), ShapeRoom{Way: BySize})
	wantAddress(t, s, "unit=in&room=10ftx8ft")
	rows := s.Rows
	s = do(t, s, ShapeRoom{Way: ByCorners})
	wantFine(t, s)
	wantAddress(t, s, "unit=in&room=0mm,0mm;3048mm,0mm;3048mm,2438.4mm;0mm,2438.4mm") // 1 ft is 304.8 mm
	if s.Rectangle() || s.Corners("room") != 4 || !reflect.DeepEqual(s.Rows, rows) {
		t.Errorf("%d corners, rectangle %v", s.Corners("room"), s.Rectangle())
	}
	s = do(t, s, Edit{Input: "room.2.x", Text: "10ft2"}, ShapeRoom{Way: BySize})
	wantFine(t, s)
	wantAddress(t, s, "unit=in&room=3098.8mmx2438.4mm") // 122 in
	s = do(t, Open("#room=abc"), ShapeRoom{Way: ByCorners})
	wantFine(t, s)
	wantAddress(t, s, "room=0,0;4200,0;4200,3600;0,3600")
}

func TestCorners(t *testing.T) {
	s := do(t, Open("#room=0,0;4000,0;4000,3m;0,3001"), AddCorner{"room", 1})
	wantFine(t, s)
	wantAddress(t, s, "room=0,0;4000,0;4000,1500;4000,3m;0,3001")
	s = do(t, s, AddCorner{"room", 4}) // back to the first
	wantAddress(t, s, "room=0,0;4000,0;4000,1500;4000,3m;0,3001;0,1500.5")
	s = do(t, s, RemoveCorner{"room", 5}, RemoveCorner{"room", 0})
	wantFine(t, s)
	wantAddress(t, s, "room=4000,0;4000,1500;4000,3m;0,3001")
	s = do(t, s, RemoveCorner{"room", 1}, RemoveCorner{"room", 1}, RemoveCorner{"room", 0})
	wantAddress(t, s, "room=4000,0;4000,3m;0,3001") // three stay
	for _, a := range []Action{AddCorner{"room", -1}, AddCorner{"room", 3}, AddCorner{"gap", 0}, AddCorner{"", 0},
		AddCorner{"hole.0", 0}, RemoveCorner{"hole.0", 0}, RemoveCorner{"room", 9}} {
		if next, got := step(t, s, a); got != Stay || !reflect.DeepEqual(next, s) {
			t.Errorf("%T%+v did something", a, a)
		}
	}
	// Unreadable readings are kept, and the new corner waits for a reading.
	s = do(t, s, Edit{Input: "room.0.x", Text: "?"}, AddCorner{"room", 0})
	if s.Corners("room") != 4 || s.Typed["room.0.x"] != "?" || s.Problems["room.0.x"] == "" || s.Problems["room.1.x"] == "" {
		t.Errorf("typed %q, problems %q", s.Typed, s.Problems)
	}
	wantAddress(t, s, "room=4000,0;4000,3m;0,3001")
	s = do(t, s, RemoveCorner{"room", 1}, RemoveCorner{"room", 0}, Edit{Input: "room.0.x", Text: "4m"})
	if s.Problems["room.0.x"] == "" && len(s.Problems) > 0 {
		t.Errorf("problems %q", s.Problems)
	}
}

func TestHoles(t *testing.T) {
	s := do(t, Open("#gap=10"), AddHole{})
	wantFine(t, s)
	// A tenth of 4200 by 3600 about 2100, 1800.
	wantAddress(t, s, "hole=1890,1620;2310,1620;2310,1980;1890,1980&gap=10")
	if len(s.Plan.Job().Holes) != 1 || s.Holes() != 1 {
		t.Errorf("%d holes", s.Holes())
	}
	// A second one stands beside the first, and can be moved onto it.
	s = do(t, s, AddHole{})
	wantFine(t, s)
	if len(s.Plan.Job().Holes) != 2 {
		t.Errorf("%d holes", len(s.Plan.Job().Holes))
	}
	for i, x := range []string{"2m", "2,2m", "2200", "2000"} {
		s = do(t, s, Edit{Input: "hole.1." + string(rune('0'+i)) + ".x", Text: x})
	}
	wantProblem(t, s, "hole", "lie on one another")
	for i, x := range []string{"1m", "1,2m", "1200", "1000"} {
		s = do(t, s, Edit{Input: "hole.1." + string(rune('0'+i)) + ".x", Text: x})
	}
	wantFine(t, s)
	wantAddress(t, s, "hole=1890,1620;2310,1620;2310,1980;1890,1980&hole=1m,1620;1.2m,1620;1200,1980;1000,1980&gap=10")
	s = do(t, s, AddCorner{"hole.1", 0}, RemoveCorner{"hole.1", 2}, Edit{Input: "hole.0.0.x", Text: "?"})
	wantProblem(t, s, "hole.0.0.x", "“?”")
	// Texts stay with their hole when another is removed.
	s = do(t, s, RemoveHole{1})
	if s.Holes() != 1 || s.Typed["hole.0.0.x"] != "?" {
		t.Errorf("%d holes, typed %q", s.Holes(), s.Typed)
	}
	s = do(t, s, RemoveHole{0})
	wantFine(t, s)
	wantAddress(t, s, "gap=10")
	if s.Holes() != 0 || len(s.Plan.Job().Holes) != 0 {
		t.Error("a hole is left")
	}
	for _, h := range []int{-1, 0, 3} {
		if _, got := step(t, s, RemoveHole{h}); got != Stay {
			t.Errorf("removing hole %d: %v", h, got)
		}
	}
}

// A hole that cannot be read is no hindrance to the others.
func TestFaultyHole(t *testing.T) {
	good := "100,100;600,100;600,600"
	s := Open("#hole=here&hole=" + good)
	if len(s.Plan.Job().Holes) != 1 || s.Holes() != 2 || s.Problems["hole"] == "" {
		t.Fatalf("%d holes laid, %d typed, problems %q", len(s.Plan.Job().Holes), s.Holes(), s.Problems)
	}
	s = do(t, s, Edit{Input: "hole.1.0.x", Text: "150"})
	wantAddress(t, s, "hole=here&hole=150,100;600,100;600,600")
	wantProblem(t, s, "hole", "here")
	s = do(t, s, RemoveHole{0})
	wantFine(t, s)
	wantAddress(t, s, "hole=150,100;600,100;600,600")
}

func TestPlace(t *testing.T) {
	for _, text := range []string{"", "unit=in&block=2-1/4x9", "pattern=chevron&mitre=52.5", "block=71.3x401.7&axis=30"} {
		for placing := range 4 {
			s := do(t, Open("#"+text), Place{placing})
			wantFine(t, s)
			job, want := s.Plan.Job(), s.Plan.Pattern().Balanced()[placing]
			if job.Across != want.Across || job.Along != want.Along {
				t.Errorf("%q placing %d: %v, %v, want %+v", text, placing, job.Across, job.Along, want)
			}
			if _, got := step(t, s, Place{placing}); got != Stay {
				t.Errorf("placing again: %v", got)
			}
		}
	}
	s := do(t, Open("#shift=1,1"), Place{-1}, Place{4})
	wantAddress(t, s, "shift=1,1")
}

func TestLength(t *testing.T) {
	s := do(t, Open("#block=80x450"), Length{480})
	wantFine(t, s)
	wantAddress(t, s, "block=80x480")
	s = do(t, Open("#unit=in&block=2-1/4x8"), Length{228.6})
	wantFine(t, s)
	wantAddress(t, s, "unit=in&block=2-1/4x228.6mm")
	for _, l := range []length.Length{0, -1, length.Length(math.NaN()), length.Length(math.Inf(1))} {
		wantAddress(t, do(t, s, Length{l}), s.Address())
	}
	s = do(t, s, Edit{Input: BlockWidth, Text: "?"}, Length{300})
	wantProblem(t, s, BlockWidth, "?")
}

func TestWritten(t *testing.T) {
	for _, l := range []length.Length{0, 12.5, -35, 1.0 / 3, 1e-7 / 3, -2e-9 / 3, 1e6 / 3, 4267.2, length.Length(math.Copysign(0, -1))} {
		for _, unit := range []length.Unit{length.Millimetres, length.Inches} {
			text := written(l, unit)
			got, err := length.Parse(text, unit)
			if err != nil || math.Abs(float64(got-l)) > 1e-18 || math.Abs(float64(l)) > 1e-3 && got != l {
				t.Errorf("%v is written %q and read %v, %v", float64(l), text, float64(got), err)
			}
		}
	}
}

func TestLaying(t *testing.T) {
	s := Open("#gap=10")
	all := s.Blocks()
	last := 0
	for _, r := range s.Rows {
		last += r.Blocks()
	}
	if all != last || all == 0 {
		t.Fatalf("%d blocks, rows add up to %d", all, last)
	}
	if next, got := step(t, s, Pause{}); got != Stay || next.Laid != float64(all) {
		t.Error("pausing what is not played did something")
	}
	s, got := step(t, s, Play{})
	if got != Stay || s.Laid != 0 || !s.Playing {
		t.Errorf("step %v, %v laid", got, s.Laid)
	}
	s = do(t, s, Advance{0.4}, Advance{-3}, Advance{math.NaN()}) // 12 a second
	if math.Abs(s.Laid-4.8) > 1e-9 {
		t.Errorf("%v blocks laid after 0.4 s at 12 a second, want 4.8", s.Laid)
	}
	wantAddress(t, s, "gap=10")
	s, got = step(t, s, Pause{}) // the fifth is landing
	if s.Laid != 5 || s.Playing || got != Replace || s.View.Laid != 5 {
		t.Errorf("step %v, %v laid", got, s.Laid)
	}
	wantAddress(t, s, "gap=10&laid=5")
	if again := Open("#" + s.Address()); again.Laid != 5 {
		t.Errorf("its link opens with %v laid", again.Laid)
	}
	s = do(t, s, Advance{9}, Play{}, Advance{1})
	if s.Laid != 17 {
		t.Errorf("%v laid, want 17", s.Laid)
	}
	s = do(t, s, Advance{1e9})
	if s.Laid != float64(all) || s.Playing {
		t.Errorf("%v laid, playing %v", s.Laid, s.Playing)
	}
	wantAddress(t, s, "gap=10")

	for _, tt := range []struct {
		a    Action
		laid int
	}{
		{StepBlocks{-1}, all - 1}, {StepBlocks{1}, all}, {StepBlocks{1}, all}, {StepBlocks{math.MaxInt}, all}, {StepBlocks{math.MinInt}, 0},
		{StepBlocks{-1}, 0}, {StepBlocks{3}, 3}, {Scrub{7.9}, 7}, {Scrub{-4}, 0}, {Scrub{math.NaN()}, 0}, {Scrub{math.Inf(1)}, all},
		{ToRow{1}, s.Rows[0].Blocks()}, {ToRow{0}, 0}, {ToRow{-5}, 0}, {ToRow{len(s.Rows)}, all}, {ToRow{math.MaxInt}, all},
		{ToRow{2}, s.Rows[0].Blocks() + s.Rows[1].Blocks()}, {ToRow{math.MinInt}, 0},
	} {
		s = do(t, s, tt.a)
		if s.Laid != float64(tt.laid) || s.Playing {
			t.Fatalf("%T%+v: %v laid, want %d", tt.a, tt.a, s.Laid, tt.laid)
		}
		if again := Open("#" + s.Address()); again.Laid != s.Laid || strings.Contains(s.Address(), "laid") == (tt.laid == all) {
			t.Fatalf("%T%+v: link %q for %d of %d", tt.a, tt.a, s.Address(), tt.laid, all)
		}
	}
	// While it is played, a step stops it at a whole block.
	s = do(t, s, Play{}, Advance{0.1}, StepBlocks{0})
	if s.Playing || s.Laid != math.Floor(s.Laid) {
		t.Errorf("%v laid, playing %v", s.Laid, s.Playing)
	}
	s = do(t, s, Play{}, Advance{0.11}, Fail{"paint"})
	if s.Playing || s.Failure != "paint" || s.Laid != math.Floor(s.Laid) {
		t.Errorf("%v laid, playing %v, failure %q", s.Laid, s.Playing, s.Failure)
	}
}

func TestStepRows(t *testing.T) {
	s := Open("")
	var ends []int // how many blocks are laid at the end of each row; ends[0] before the first
	for end := 0; ; {
		ends = append(ends, end)
		if len(ends) > len(s.Rows) {
			break
		}
		end += s.Rows[len(ends)-1].Blocks()
	}
	last := len(ends) - 1
	for i, end := range ends {
		at := do(t, s, Scrub{float64(end)})
		if at.Row() != i-1 {
			t.Fatalf("Row() at the end of row %d is %d", i, at.Row())
		}
		for _, by := range []int{-math.MaxInt, -2, -1, 0, 1, 2, math.MaxInt} {
			want := ends[max(0, min(last, max(-last, min(by, last))+i))]
			if got := do(t, at, StepRows{by}); got.Laid != float64(want) {
				t.Errorf("%d rows on from the end of row %d: %v, want %d", by, i, got.Laid, want)
			}
		}
	}
	for i := 1; i < last; i++ {
		if ends[i]-ends[i-1] < 2 {
			continue
		}
		at := do(t, s, Scrub{float64(ends[i] - 1)}) // in row i
		for by, want := range map[int]int{-2: ends[max(0, i-2)], -1: ends[i-1], 0: ends[i] - 1, 1: ends[i], 2: ends[i+1]} {
			if got := do(t, at, StepRows{by}); got.Laid != float64(want) {
				t.Errorf("%d rows on from the middle of row %d: %v, want %d", by, i, got.Laid, want)
			}
		}
	}
}

func TestLayingWhenThePlanChanges(t *testing.T) {
	grow, shrink := Edit{Input: RoomWidth, Text: "8m"}, Edit{Input: RoomWidth, Text: "1m"}
	whole := func(s State) bool { return s.Laid == float64(s.Blocks()) }

	s := do(t, Open(""), grow)
	if !whole(s) {
		t.Errorf("%v of %d laid", s.Laid, s.Blocks())
	}
	s = do(t, s, shrink)
	if !whole(s) {
		t.Errorf("%v of %d laid", s.Laid, s.Blocks())
	}
	s = do(t, Open("#laid=100"), grow)
	if s.Laid != 100 {
		t.Errorf("%v laid, want 100", s.Laid)
	}
	wantAddress(t, s, "room=8mx3600&laid=100")
	// Clamped: all of the small floor, and then of every other.
	few := Edit{Input: RoomDepth, Text: "500"}
	s = do(t, s, shrink, few)
	if !whole(s) || s.Blocks() >= 100 {
		t.Errorf("%v of %d laid", s.Laid, s.Blocks())
	}
	wantAddress(t, s, "room=1mx500")
	if s = do(t, s, grow); !whole(s) {
		t.Errorf("%v of %d laid", s.Laid, s.Blocks())
	}
	// More than all in the link is all, also of a larger floor.
	s = Open("#laid=" + "2000")
	if !whole(s) || s.Blocks() >= 2000 {
		t.Fatalf("%v of %d laid", s.Laid, s.Blocks())
	}
	s = do(t, s, Edit{Input: Gap, Text: "1"})
	wantAddress(t, s, "gap=1&laid=2000")
	s = do(t, s, Edit{Input: RoomWidth, Text: "20m"})
	if !whole(s) || s.Blocks() <= 2000 {
		t.Errorf("%v of %d laid", s.Laid, s.Blocks())
	}
	wantAddress(t, s, "room=20mx3600&gap=1")

	s = do(t, Open(""), Play{}, Advance{1}, grow)
	if s.Laid != 12 || !s.Playing {
		t.Errorf("%v laid, playing %v, want 12 and playing", s.Laid, s.Playing)
	}
	s = do(t, s, Advance{20}, shrink, few, Advance{0.01})
	if !whole(s) || s.Playing {
		t.Errorf("%v of %d laid, playing %v", s.Laid, s.Blocks(), s.Playing)
	}
}

func TestRoomOfALink(t *testing.T) {
	// The engine's own writing of a job opens as that job.
	job := Open("#" + link.Demo).Plan.Job()
	if again := Open("#" + link.FromJob(job).String()); !reflect.DeepEqual(again.Plan.Job(), job) {
		t.Errorf("job %+v, want %+v", again.Plan.Job(), job)
	}
	if !slices.Equal(job.Room, Open("#"+link.Demo).Plan.Job().Room) {
		t.Error("opening twice gives two rooms")
	}
}
