package link

import (
	"flag"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
)

var update = flag.Bool("update", false, "rewrite the generated part of DEVELOPERS.md")

func TestDevelopersHasTheTable(t *testing.T) {
	const path, begin, end = "../../DEVELOPERS.md", "<!-- keys -->\n", "<!-- /keys -->"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, found := strings.Cut(string(text), begin)
	block, tail, closed := strings.Cut(rest, end)
	if !found || !closed {
		t.Fatalf("%s has no block between %q and %q", path, begin, end)
	}
	if block == Table() {
		return
	}
	if !*update {
		t.Fatalf("the table of keys in %s is not the one the code gives; go test ./engine/link -update rewrites it", path)
	}
	if err := os.WriteFile(path, []byte(head+begin+Table()+end+tail), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestTableHoldsWhatItSays(t *testing.T) {
	var defaults, examples Link
	for i, k := range Keys() {
		if slices.ContainsFunc(Keys()[:i], func(o Key) bool { return o.Name == k.Name }) {
			t.Errorf("%s stands twice in the table", k.Name)
		}
		for _, field := range []string{k.Name, k.Form, k.Meaning, k.Default, k.Example, k.Want} {
			if field == "" || strings.ContainsAny(field, "|\n") {
				t.Errorf("%s: %q cannot stand in the table", k.Name, field)
			}
		}
		examples = examples.With(k.Name, k.Example)
		switch k.Name {
		case "tape", "walk", "join", "hole", "column", "bow", "scribe", "door", "window", "centre", "laid", "eye", "looking", "beside": // these say it in words
		default:
			defaults = defaults.With(k.Name, k.Default)
		}
	}
	for _, l := range []Link{defaults, examples} {
		_, faults := l.Job()
		_, more := l.View()
		for _, f := range append(faults, more...) {
			t.Errorf("the table itself: %v", f)
		}
	}
	if got, want := must(t, defaults), (floor.Job{
		Fraction: 16, Room: []plane.Point{{X: 0, Y: 0}, {X: 4200, Y: 0}, {X: 4200, Y: 3600}, {X: 0, Y: 3600}},
		Width: 70, Length: 350, Strands: 1, Mitre: 45, Misfit: survey.DefaultLimit,
	}); !reflect.DeepEqual(got, want) {
		t.Errorf("the defaults written out give %+v, want what floor.Job says its zero value is: %+v", got, want)
	}
	got, _ := defaults.View()
	want, _ := Link{}.View()
	if got != want {
		t.Errorf("the view's defaults written out give %+v, but an empty link %+v", got, want)
	}
	if want != (View{Show: ShowAll, Laid: -1, Speed: 12, Stage: "measure", Paint: "auto", Lang: "en", Face: "work",
		Sliver: 20, Same: 0.5, Marking: 0.8, Step: 1,
		Looks: Looks{Wood: "oak", Border: "same", Grade: "mixed", Finish: "oiled", Tone: "natural", Edge: "bevelled", Joint: "natural"},
		Light: Light{From: "sun", Direction: 305, Height: 32}, Stand: Stand{Height: 1600}}) {
		t.Errorf("an empty link's view is %+v", want)
	}
}

func must(t *testing.T, l Link) floor.Job {
	t.Helper()
	job, faults := l.Job()
	if len(faults) > 0 {
		t.Errorf("%q: %v", l, faults)
	}
	return job
}

func TestJob(t *testing.T) {
	const in = 25.4 // mm, exact: international yard and pound agreement, 1959
	square := []plane.Point{{X: 0, Y: 0}, {X: 600, Y: 0}, {X: 600, Y: 400}}
	for _, tt := range []struct {
		link string
		want floor.Job
	}{
		{"", floor.Job{}},
		{"v=1", floor.Job{}},
		{"unit=in", floor.Job{Unit: length.Inches}},
		{"fraction=64", floor.Job{Fraction: 64}},
		{"room=4200x3600", floor.Job{Room: rectangle(4200, 3600)}},
		{"room=14ftx12ft6-1/2in", floor.Job{Room: rectangle(168*in, 150.5*in)}},
		{"room=168x150-1/2&unit=in", floor.Job{Unit: length.Inches, Room: rectangle(168*in, 150.5*in)}},
		{"room=4.2mx360cm", floor.Job{Room: rectangle(4200, 3600)}},
		{"room=0,0;600,0;600,400", floor.Job{Room: square}},
		{"room=0%2C0%3B600,0%3B600,400", floor.Job{Room: square}},
		{"room=%200,%200;%2060cm,0;0.6m,400mm%20", floor.Job{Room: square}},
		{"room=-1,0;1,-2.5;1,2.5", floor.Job{Room: []plane.Point{{X: -1, Y: 0}, {X: 1, Y: -2.5}, {X: 1, Y: 2.5}}}},
		{"hole=0,0;600,0;600,400&hole=0,0;600,0;600,400", floor.Job{Holes: [][]plane.Point{square, square}}},
		{"gap=350", floor.Job{Gap: 350}},
		{"gap=350mm&unit=in", floor.Job{Unit: length.Inches, Gap: 350}},
		{"gap=2-1/4in", floor.Job{Gap: 57.15}},      // 9/4 × 25.4
		{"gap=2%201/4%22", floor.Job{Gap: 57.15}},   // as typed: 2 1/4"
		{"gap=14ft", floor.Job{Gap: 4267.2}},        // 14 × 304.8
		{"gap=14ft6-1/2in", floor.Job{Gap: 4432.3}}, // 4267.2 + 6.5 × 25.4
		{"gap=3.5m", floor.Job{Gap: 3500}},          // SI
		{"gap=35cm", floor.Job{Gap: 350}},           // SI
		{"gap=0", floor.Job{}},                      //
		{"border=127", floor.Job{Border: 127}},      //
		{"border=5in", floor.Job{Border: 127}},      // 5 × 25.4
		{"pattern=herringbone", floor.Job{}},        //
		{"pattern=chevron", floor.Job{Pattern: floor.Chevron}},
		{"block=70x350", floor.Job{Width: 70, Length: 350}},
		{"block=2-1/4inx9in", floor.Job{Width: 57.15, Length: 228.6}}, // common practice, no source; 9 × 25.4
		{"block=2-1/4x9&unit=in", floor.Job{Unit: length.Inches, Width: 57.15, Length: 228.6}},
		{"strands=3", floor.Job{Strands: 3}},
		{"mitre=52.5", floor.Job{Mitre: 52.5}},
		{"mitre=25", floor.Job{Mitre: 25}},
		{"mitre=75.0", floor.Job{Mitre: 75}},
		{"axis=-45", floor.Job{Axis: -45}},
		{"axis=%2B.5", floor.Job{Axis: .5}},
		{"axis=+360", floor.Job{Axis: 360}},
		{"centre=2100,-1750.5", floor.Job{Centre: &plane.Point{X: 2100, Y: -1750.5}}},
		{"centre=0,0", floor.Job{Centre: &plane.Point{}}},
		{"shift=-35,120", floor.Job{Across: -35, Along: 120}},
		{"shift=1ft,-1/2in", floor.Job{Across: 304.8, Along: -12.7}},
		{"start=wall", floor.Job{Start: floor.FromWall}},
		{"start=centre", floor.Job{}},
		{"tape=AB:4200;BC:3600;CD:4195;DA:3610;AC:5530", floor.Job{Tapes: []survey.Reading{
			{From: 0, To: 1, Length: 4200}, {From: 1, To: 2, Length: 3600}, {From: 2, To: 3, Length: 4195}, {From: 3, To: 0, Length: 3610}, {From: 0, To: 2, Length: 5530}}}},
		{"tape=CA:1;A2Z:1/2&unit=in", floor.Job{Unit: length.Inches, Tapes: []survey.Reading{{From: 2, To: 0, Length: 25.4}, {From: 26, To: 25, Length: 12.7}}}},
		{"walk=4200;L;36in;R;1;-12.5;%2014ft;%20+90%20", floor.Job{Legs: []survey.Leg{
			{Length: 4200, Turn: 90}, {Length: 914.4, Turn: -90}, {Length: 1, Turn: -12.5}, {Length: 4267.2, Turn: 90}}}}, // 36 × 25.4, 14 × 304.8
		{"share=yes", floor.Job{Share: true}},
		{"share=no", floor.Job{}},
		{"misfit=5", floor.Job{Misfit: 5}},
		{"join=BC:1200,813,120:DA:900:3000x2500", floor.Job{Joins: []floor.Join{
			{Wall: 1, At: 1200, Width: 813, Depth: 120, Room: rectangle(3000, 2500), OtherWall: 3, OtherAt: 900}}}},
		{"join=AB:1,2,0:CA:4:0,0;600,0;600,400&join=LA:1,2,3:AB:4:5x6&bow=ZA:1&bow=DE:1", floor.Job{
			Joins: []floor.Join{
				{Wall: 0, At: 1, Width: 2, Room: square, OtherWall: 2, OtherAt: 4},
				{Wall: 11, At: 1, Width: 2, Depth: 3, Room: rectangle(5, 6), OtherAt: 4}},
			Bows: []floor.Bow{{Wall: 25, Rise: 1}, {Wall: 3, Rise: 1}}}},
		{"tape=AB:1;AC:1;DE:1&gap=1;EA:2&bow=FG:1", floor.Job{
			Tapes: []survey.Reading{{From: 0, To: 1, Length: 1}, {From: 0, To: 2, Length: 1}, {From: 3, To: 4, Length: 1}},
			Gap:   1, GapAt: []floor.AtWall{{Wall: 4, Length: 2}},
			Bows: []floor.Bow{{Wall: 5, Rise: 1}}}},
		{"gap=12;AB:10;DA:0", floor.Job{Gap: 12, GapAt: []floor.AtWall{{Wall: 0, Length: 10}, {Wall: 3}}}},
		{"gap=1/2;%20BC%20:%201/4&unit=in", floor.Job{Unit: length.Inches, Gap: 12.7, GapAt: []floor.AtWall{{Wall: 1, Length: 6.35}}}},
		{"border=110;AB:90", floor.Job{Border: 110, BorderAt: []floor.AtWall{{Wall: 0, Length: 90}}}},
		{"border=38+13+57", floor.Job{Border: 108, Strips: []length.Length{38, 13, 57}}}, // 38 + 13 + 57
		{"border=1-1/2+1/2;CD:1&unit=in", floor.Job{Unit: length.Inches, Border: 50.8, Strips: []length.Length{38.1, 12.7},
			BorderAt: []floor.AtWall{{Wall: 2, Length: 25.4}}}},
		{"bow=BC:120&bow=DA:-4cm", floor.Job{Bows: []floor.Bow{{Wall: 1, Rise: 120}, {Wall: 3, Rise: -40}}}},
		{"room=0,0;600,0;600,400&bow=CA:5", floor.Job{Room: square, Bows: []floor.Bow{{Wall: 2, Rise: 5}}}},
		{"bow=FG:1&bow=ZA2:1&bow=B3C3:1", floor.Job{Bows: []floor.Bow{{Wall: 5, Rise: 1}, {Wall: 25, Rise: 1}, {Wall: 53, Rise: 1}}}}, // for floor.New to refuse
		{"scribe=AB:0,3,-8,3,0", floor.Job{Scribes: []floor.Scribe{{Wall: 0, Ordinates: []length.Length{0, 3, -8, 3, 0}}}}},
		{"column=2400,1800,350", floor.Job{Rounds: []floor.Round{{Centre: plane.Point{X: 2400, Y: 1800}, Diameter: 350}}}},
		{"column=8ft,6ft,1ft&unit=in", floor.Job{Unit: length.Inches, Rounds: []floor.Round{{Centre: plane.Point{X: 2438.4, Y: 1828.8}, Diameter: 304.8}}}},
		{"door=AB:1200,813", floor.Job{Doors: []floor.Door{{Wall: 0, At: 1200, Width: 813}}}},
		{"door=AB:4ft,32in,hall", floor.Job{Doors: []floor.Door{{Wall: 0, At: 1219.2, Width: 812.8, Name: "hall"}}}}, // 4 × 304.8, 32 × 25.4
		{"door=AB:0,1,%20to%20the%20%C3%A9tage,%20left:%261%20", floor.Job{Doors: []floor.Door{{Wall: 0, Width: 1, Name: "to the étage, left:&1"}}}},
		{"window=BC:900,1200", floor.Job{Windows: []floor.Window{{Wall: 1, At: 900, Width: 1200}}}},
		{"window=BC:3ft,4ft,30in,5ft,south,%202&window=AB:0,1,0,2", floor.Job{Windows: []floor.Window{ // 304.8 mm a foot
			{Wall: 1, At: 914.4, Width: 1219.2, Sill: 762, Height: 1524, Name: "south, 2"}, {Wall: 0, Width: 1, Height: 2}}}},
		{"line=axis", floor.Job{}},
		{"line=midway:AB:CD", floor.Job{Line: floor.LineSetting{From: floor.LineMidway, A: 0, B: 2}}},
		{"line=square:DA", floor.Job{Line: floor.LineSetting{From: floor.LineSquare, A: 3}}},
		{"line=wall:BC", floor.Job{Line: floor.LineSetting{From: floor.LineWall, A: 1}}},
		{"line=door:1", floor.Job{Line: floor.LineSetting{From: floor.LineDoor}}},
		{"line=hole:3", floor.Job{Line: floor.LineSetting{From: floor.LineHole, A: 2}}},
		{"line=through:0,1:2.5,-3", floor.Job{Line: floor.LineSetting{From: floor.LineThrough, Points: [2]plane.Point{{X: 0, Y: 1}, {X: 2.5, Y: -3}}}}},
		{"?gap=12&unit=in&other=1", floor.Job{Unit: length.Inches, Gap: 304.8}}, // unit counts wherever it stands
	} {
		t.Run(tt.link, func(t *testing.T) {
			if got := must(t, Open(tt.link)); !reflect.DeepEqual(got, tt.want) {
				t.Errorf("Open(%q).Job() = %+v, want %+v", tt.link, got, tt.want)
			}
		})
	}
}

func TestView(t *testing.T) {
	with := func(change func(*View)) View {
		v := usual
		change(&v)
		return v
	}
	for _, tt := range []struct {
		link string
		want View
	}{
		{"show=none", with(func(v *View) { v.Show = 0 })},
		{"show=centre", with(func(v *View) { v.Show = ShowCentre })},
		{"show=start,working", with(func(v *View) { v.Show = ShowStart | ShowWorking })},
		{"show=diagonals%2Cborder", with(func(v *View) { v.Show = ShowDiagonals | ShowBorder })},
		{"laid=0", with(func(v *View) { v.Laid = 0 })},
		{"laid=240", with(func(v *View) { v.Laid = 240 })},
		{"speed=2.5", with(func(v *View) { v.Speed = 2.5 })},
		{"stage=strike", with(func(v *View) { v.Stage = "strike" })},
		{"paint=canvas", with(func(v *View) { v.Paint = "canvas" })},
		{"sliver=15", with(func(v *View) { v.Sliver = 15 })},
		{"sliver=1/2&unit=in", with(func(v *View) { v.Sliver = 12.7 })}, // half of 25.4
		{"sliver=15&unit=cm", with(func(v *View) { v.Sliver = 15 })},    // the unit's fault is the job's
		{"same=0", with(func(v *View) { v.Same = 0 })},
		{"mark=1mm&unit=in", with(func(v *View) { v.Marking = 1 })},
		{"wood=wenge&borderwood=ash", with(func(v *View) { v.Looks.Wood, v.Looks.Border = "wenge", "ash" })},
		{"borderwood=same", with(func(v *View) {})},
		{"grade=lively&finish=raw&tone=limed&edge=square&joint=light", with(func(v *View) {
			v.Looks = Looks{"oak", "same", "lively", "raw", "limed", "square", "light"}
		})},
		{"light=sun:0,7.5", with(func(v *View) { v.Light = Light{From: "sun", Height: 7.5} })},
		{"light=day:17.25&north=200", with(func(v *View) { v.Light = Light{From: "day", Hour: 17.25, North: 200} })},
		{"light=window:3", with(func(v *View) { v.Light = Light{From: "window", Window: 2} })},
		{"light=lamp", with(func(v *View) { v.Light = Light{From: "lamp"} })},
		{"view=standing&eye=1ft,2,1500mm&looking=270,-5&unit=in", with(func(v *View) {
			v.Stand = Stand{In: true, Placed: true, Aimed: true, X: 304.8, Y: 50.8, Height: 1500, Direction: 270, Down: -5}
		})},
		{"beside=block%3D90x600%26border", with(func(v *View) { v.Beside = "block=90x600&border" })},
		{"lang=en&gap=abc", with(func(v *View) {})},
	} {
		if got, faults := Open(tt.link).View(); got != tt.want || len(faults) > 0 {
			t.Errorf("Open(%q).View() = %+v, %v, want %+v", tt.link, got, faults, tt.want)
		}
	}
	for s := range ShowAll + 1 {
		if got, faults := Open("#show=" + s.String()).View(); got.Show != s || len(faults) > 0 {
			t.Errorf("show=%v opens as %v, %v", s, got.Show, faults)
		}
	}
}

func TestFaults(t *testing.T) {
	many := strings.Repeat("1,1;", 2000) + "1,1"
	for _, tt := range []struct {
		link string
		keys []string // of the faults, in order
		says string   // in the first fault
	}{
		{"v=2", []string{"v"}, "newer version"},
		{"v=0", []string{"v"}, "1"},
		{"v=", []string{"v"}, "empty"},
		{"unit=cm", []string{"unit"}, "mm or in"},
		{"unit=MM", []string{"unit"}, "mm or in"},
		{"fraction=8", []string{"fraction"}, "16, 32 or 64"},
		{"room=", []string{"room"}, "such as"},
		{"room=4200", []string{"room"}, "such as"},
		{"room=4200x", []string{"room"}, "depth is missing"},
		{"room=4200x3600x1", []string{"room"}, "such as"},
		{"room=4200x0", []string{"room"}, "such as"},
		{"room=-4200x3600", []string{"room"}, "such as"},
		{"room=4200xabc", []string{"room"}, "depth “abc”"},
		{"room=0,0;4200,0", []string{"room"}, "2 corners"},
		{"room=0,0;4200;4200,3600", []string{"room"}, "Corner 2"},
		{"room=0,0;4200,0;4200,36OO", []string{"room"}, "Corner 3 is “4200,36OO”. Its y “36OO”"},
		{"room=0,0;4200,0;4200,3600;", []string{"room"}, "Corner 4"},
		{"room=" + many, []string{"room"}, "2001 corners"},
		{"hole=1,1", []string{"hole"}, "three corners"},
		{"hole=" + many, []string{"hole"}, "2001 corners"},
		{"hole=bad&hole=0,0;1,0;1,1&hole=worse", []string{"hole", "hole"}, "“bad”"},
		{strings.Repeat("hole=0,0;1,0;1,1&", 205), []string{"hole"}, "200 times"},
		{"gap=-1", []string{"gap"}, "0 or more"},
		{"gap=abc", []string{"gap"}, "“abc”"},
		{"gap", []string{"gap"}, "empty"},
		{"gap=1/2", []string{"gap"}, "1/2in"}, // half a millimetre is not on a tape
		{"gap=NaN", []string{"gap"}, "NaN"},
		{"gap=1e3", []string{"gap"}, "1e3"},
		{"border=5yd", []string{"border"}, "5yd"},
		{"tape=", []string{"tape"}, "empty"},
		{"tape=4200;3600", []string{"tape"}, "Reading 1, “4200”"},
		{"tape=AB:4200;ABC:1", []string{"tape"}, "Reading 2, “ABC:1”"},
		{"tape=AB:4200;AC", []string{"tape"}, "Reading 2, “AC”"},
		{"tape=AB:4200;AC:55O0", []string{"tape"}, "From A to C: “55O0”"},
		{"tape=" + strings.Repeat("AB:1;", 2000) + "AB:1", []string{"tape"}, "2001 readings"},
		{"walk=", []string{"walk"}, "empty"},
		{"walk=4200;L;3600", []string{"walk"}, "turn after wall 2 is missing"},
		{"walk=4200;L;;L", []string{"walk"}, "Wall 2: "},
		{"walk=4200;left;3600;L", []string{"walk"}, "turn after wall 1 is “left”"},
		{"walk=4200;361;3600;L", []string{"walk"}, "turn after wall 1 is “361”"},
		{"walk=L;4200", []string{"walk"}, "Wall 1: “L”"},
		{"walk=" + strings.Repeat("1;L;", 2000) + "1;L", []string{"walk"}, "2001 walls"},
		{"share=maybe", []string{"share"}, "yes or no"},
		{"misfit=0", []string{"misfit"}, "more than 0"},
		{"misfit=-1", []string{"misfit"}, "more than 0"},
		{"join=BC", []string{"join"}, "such as BC:1200"},
		{"join=BC:1200,813,120:DA:900", []string{"join"}, "such as BC:1200"},
		{"join=BA:1200,813,120:DA:900:3000x2500", []string{"join"}, "from corner B runs wall BC"},
		{"join=BC:1200,813:DA:900:3000x2500", []string{"join"}, "“1200,813” is not a distance"},
		{"join=BC:1200,813,x:DA:900:3000x2500", []string{"join"}, "“x”"},
		{"join=BC:1200,813,120:CD:900:0,0;9,0;9,9", []string{"join"}, "from corner C runs wall CA"},
		{"join=BC:1200,813,120:DA:9OO:3000x2500", []string{"join"}, "“9OO”"},
		{"join=BC:1200,813,120:DA:900:3000", []string{"join"}, "“3000” is not a room"},
		{"join=BC:1200,813,120:DA:900:3000x", []string{"join"}, "depth is missing"},
		{"walk=1;L;1;L;1;L&gap=12;CD:1", []string{"gap"}, "from corner C runs wall CA"},
		{"tape=AB:1;EA:1&gap=12;DA:1", []string{"gap"}, "from corner D runs wall DE"},
		{"tape=AB:1;AE:1&gap=12;DA:1", []string{"gap"}, "from corner D runs wall DE"},
		{"gap=12;", []string{"gap"}, "“” is not a wall with its length"},
		{"gap=;AB:12", []string{"gap"}, "0 or more"},
		{"gap=AB:12", []string{"gap"}, "such as 12;AB:10"},
		{"gap=12;AB:-1", []string{"gap"}, "At wall AB it is below 0"},
		{"gap=12;AB:1O", []string{"gap"}, "At wall AB, “1O”"},
		{"gap=12;AB:1;AB:1", []string{"gap"}, "Wall AB is given more than once"},
		{"gap=12;ab:1", []string{"gap"}, "letters of its two corners"},
		{"gap=12;BA:1", []string{"gap"}, "from corner B runs wall BC"},
		{"gap=12;DE:1", []string{"gap"}, "from corner D runs wall DA"}, // four corners
		{"gap=12;GF:1", []string{"gap"}, "no wall “GF”"},
		{"room=0,0;9,0;9,9;5,9;0,9&gap=12;DA:1", []string{"gap"}, "from corner D runs wall DE"}, // five corners
		{"border=110+", []string{"border"}, "Strip 2 is missing"},
		{"border=38+0", []string{"border"}, "Strip 2 has to be wider than 0"},
		{"border=38+-1", []string{"border"}, "Strip 2 has to be wider than 0"},
		{"border=38+x", []string{"border"}, "Strip 2: “x”"},
		{"border=1" + strings.Repeat("+1", 20), []string{"border"}, "21 strips"},
		{"border=38+13;AB:5+5", []string{"border"}, "At wall AB, “5+5”"},
		{"bow=BC", []string{"bow"}, "BC:120"},
		{"bow=BC:", []string{"bow"}, "No length"},
		{"bow=A1B:5", []string{"bow"}, "letters of its two corners"},
		{"bow=A02B2:5", []string{"bow"}, "letters of its two corners"},
		{"bow=A99999999999999999999B:5", []string{"bow"}, "letters of its two corners"},
		{"bow=A2001B2001:5", []string{"bow"}, "letters of its two corners"},
		{"scribe=AB:0,,1", []string{"scribe"}, "Ordinate 2 is missing"},
		{"scribe=AB:", []string{"scribe"}, "Ordinate 1 is missing"},
		{"scribe=0,3,0", []string{"scribe"}, "such as AB:0,3,8,3,0"},
		{"scribe=AB:0" + strings.Repeat(",0", 200), []string{"scribe"}, "201 ordinates"},
		{"door=AB:1200", []string{"door"}, "width is missing"},
		{"door=AB:,813", []string{"door"}, "corner is missing"},
		{"door=1200,813", []string{"door"}, "such as AB:1200,813"},
		{"window=AB:1200", []string{"window"}, "such as BC:900,1200"},
		{"window=AB:1200,", []string{"window"}, "width is missing"},
		{"window=AB:1200,900,850", []string{"window"}, "such as BC:900,1200"},
		{"window=AB:1200,900,850,0", []string{"window"}, "such as BC:900,1200"},
		{"window=AB:1200,900,850,high", []string{"window"}, "height “high”"},
		{"line=", []string{"line"}, "empty"},
		{"line=diagonal", []string{"line"}, "midway:AB:CD"},
		{"line=axis:AB", []string{"line"}, "midway:AB:CD"},
		{"line=midway:AB", []string{"line"}, "midway:AB:CD"},
		{"line=midway:AB:DC", []string{"line"}, "from corner D runs wall DA"},
		{"line=square:1", []string{"line"}, "letters of its two corners"},
		{"line=door:0", []string{"line"}, "door:1"},
		{"line=door:AB", []string{"line"}, "door:1"},
		{"line=hole:1:2", []string{"line"}, "hole:1"},
		{"line=through:0,0:5", []string{"line"}, "through"},
		{"line=through:0,0:5,y", []string{"line"}, "Point 2 is “5,y”"},
		{"sliver=-1", []string{"sliver"}, "0 or more"},
		{"same=", []string{"same"}, "empty"},
		{"mark=1/32", []string{"mark"}, "1/32in"},
		{"pattern=Herringbone", []string{"pattern"}, "herringbone or chevron"},
		{"block=70", []string{"block"}, "such as 70x350"},
		{"block=0x350", []string{"block"}, "more than 0"},
		{"block=70x-350", []string{"block"}, "more than 0"},
		{"strands=4", []string{"strands"}, "1, 2 or 3"},
		{"strands=1.0", []string{"strands"}, "1, 2 or 3"},
		{"mitre=24.9", []string{"mitre"}, "25 to 75"},
		{"mitre=75.1", []string{"mitre"}, "25 to 75"},
		{"axis=361", []string{"axis"}, "-360 to 360"},
		{"axis=1e2", []string{"axis"}, "degrees"},
		{"axis=0x1p4", []string{"axis"}, "degrees"},
		{"axis=Inf", []string{"axis"}, "degrees"},
		{"axis=--1", []string{"axis"}, "degrees"},
		{"axis=.", []string{"axis"}, "degrees"},
		{"axis=1.2.3", []string{"axis"}, "degrees"},
		{"axis=4_5", []string{"axis"}, "degrees"},
		{"centre=1", []string{"centre"}, "two lengths"},
		{"centre=1,,2", []string{"centre"}, "two lengths"},
		{"shift=1,", []string{"shift"}, "along is missing"},
		{"start=door", []string{"start"}, "centre or wall"},
		{"gap=12&gap=15", []string{"gap"}, "the first is used and “15” is left out"},
		{"gap=x&gap=15", []string{"gap", "gap"}, "“x”"},
		{"border=x&gap=x&foo=x", []string{"gap", "border"}, "gap"}, // in table order; foo is unknown, not faulty
		{"show=walls", []string{"show"}, "none"},
		{"show=", []string{"show"}, "empty"},
		{"show=none,centre", []string{"show"}, "none"},
		{"laid=-1", []string{"laid"}, "whole number"},
		{"laid=1.5", []string{"laid"}, "whole number"},
		{"laid=12345678901", []string{"laid"}, "whole number"},
		{"speed=0", []string{"speed"}, "more than 0"},
		{"speed=1001", []string{"speed"}, "1000"},
		{"stage=mill", []string{"stage"}, "measure"},
		{"paint=svg", []string{"paint"}, "webgl"},
		{"lang=de", []string{"lang"}, "en"},
		{"wood=plywood", []string{"wood"}, "oak or walnut"},
		{"wood=same", []string{"wood"}, "oak or walnut"},
		{"borderwood=Oak", []string{"borderwood"}, "same"},
		{"grade=a", []string{"grade"}, "lively"},
		{"finish=wet", []string{"finish"}, "lacquered"},
		{"tone=red", []string{"tone"}, "smoked"},
		{"edge=round", []string{"edge"}, "square"},
		{"joint=red", []string{"joint"}, "light"},
		{"light=sun", []string{"light"}, "sun:305,32"},
		{"light=sun:305,0", []string{"light"}, "sun:305,32"},
		{"light=day:5.9", []string{"light"}, "day:15.5"},
		{"light=day:18.1", []string{"light"}, "day:15.5"},
		{"light=window:0", []string{"light"}, "window:1"},
		{"light=lamp:1", []string{"light"}, "lamp"},
		{"north=-1", []string{"north"}, "0 to 360"},
		{"view=walk", []string{"view"}, "standing"},
		{"eye=1,2", []string{"eye"}, "600,500,1600"},
		{"eye=1,2,99", []string{"eye"}, "600,500,1600"},
		{"eye=1,2,2401", []string{"eye"}, "600,500,1600"},
		{"eye=1,2,x", []string{"eye"}, "Length 3: “x”"},
		{"looking=361,0", []string{"looking"}, "45,20"},
		{"looking=0,81", []string{"looking"}, "45,20"},
		{"beside=", []string{"beside"}, "empty"},
		{"beside=gap%3D12", []string{"beside"}, "cannot differ in “gap=12”"},
	} {
		t.Run(tt.link[:min(len(tt.link), 40)], func(t *testing.T) {
			l := Open("#" + tt.link)
			_, faults := l.Job()
			_, more := l.View()
			faults = append(faults, more...)
			var keys []string
			for _, f := range faults {
				keys = append(keys, f.Key)
			}
			if !slices.Equal(keys, tt.keys) {
				t.Fatalf("%q: faults at %q, want %q: %v", tt.link, keys, tt.keys, faults)
			}
			if say := faults[0].Error(); !strings.Contains(say, tt.says) || !strings.HasPrefix(say, tt.keys[0]+" ") || !strings.HasSuffix(say, ".") {
				t.Errorf("%q: fault says %q, want a sentence about %s with %q", tt.link, say, tt.keys[0], tt.says)
			}
		})
	}
}

func TestTheRestStillOpens(t *testing.T) {
	l := Open("#v=7&room=4200x&gap=12&hole=0,0;1,0&hole=0,0;9,0;9,9&block=0x1&border=5&border=6&axis=9")
	job, faults := l.Job()
	want := floor.Job{Gap: 12, Border: 5, Axis: 9, Holes: [][]plane.Point{{{X: 0, Y: 0}, {X: 9, Y: 0}, {X: 9, Y: 9}}}}
	if !reflect.DeepEqual(job, want) || len(faults) != 5 {
		t.Errorf("%q opens as %+v with %d faults, want %+v with 5: %v", l, job, len(faults), want, faults)
	}
}

func TestCapsAreInclusive(t *testing.T) {
	room := strings.TrimSuffix(strings.Repeat("1,1;", 2000), ";")
	l := Open("#room=" + room + strings.Repeat("&hole=0,0;1,0;1,1", 200))
	if job := must(t, l); len(job.Room) != 2000 || len(job.Holes) != 200 {
		t.Errorf("%d corners and %d holes opened, want 2000 and 200", len(job.Room), len(job.Holes))
	}
}

func TestFaultsAreShortAndPrintable(t *testing.T) {
	_, faults := Open("#gap=" + strings.Repeat("%00%ff\u202e", 500)).Job()
	if len(faults) != 1 {
		t.Fatalf("faults: %v", faults)
	}
	say := faults[0].Error()
	if len(say) > 600 || strconv.Quote(say) != `"`+say+`"` {
		t.Errorf("fault says %q", say)
	}
}
