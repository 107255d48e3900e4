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
		case "hole", "centre", "laid": // these say it in words
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
		Width: 70, Length: 350, Strands: 1, Mitre: 45,
	}); !reflect.DeepEqual(got, want) {
		t.Errorf("the defaults written out give %+v, want what floor.Job says its zero value is: %+v", got, want)
	}
	got, _ := defaults.View()
	want, _ := Link{}.View()
	if got != want {
		t.Errorf("the view's defaults written out give %+v, but an empty link %+v", got, want)
	}
	if want != (View{ShowAll, -1, 12, "measure", "auto", "en"}) {
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
		v := View{Show: ShowAll, Laid: -1, Speed: 12, Stage: "measure", Paint: "auto", Lang: "en"}
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
