package state

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/link"
)

var seed = flag.Uint64("seed", 0, "seed of TestRandomActions; 0 runs the usual ones")

// texts that people type, and some that nobody should.
var texted = []string{
	"", " ", "0", "12", "110", "-35", "1/2", "2 1/4", "½", "4m", "3,5 m", "1,250", "14' 6-1/2\"", "10ft", "2000", "70", "350", "45", "80", "52,5°", "-360",
	"4200.5mm", "9999999999", "1e3", "x", "&", "%41", "a;b,c", "\x00", "“", "100000m", "0.0004",
}

var opened = []string{
	"", link.Demo, "unit=in&room=14ft6x12ft&gap=1/2in&block=2-1/4inx9in", "room=0,0;3000,0;3000,2500;0,2400&hole=900,900;1400,900;1400,1400",
	"border=2000&gap=10", "room=0,0;4000,3000;4000,0;0,3000&gap=5", "block=350x70&mitre=80&mine=1", "hole=x&hole=500,500;900,500;900,900&laid=40",
	"unit=%20in&centre=,&gap=12&gap=13", "room=1000000x1000000&block=80x480", "pattern=chevron&mitre=60&start=wall&laid=9999&axis=30",
}

// check does up to forty actions; next draws one of n.
func check(t *testing.T, open string, more []string, next func(n int) int) {
	var log strings.Builder
	fmt.Fprintf(&log, "Open(%q)", "#"+open)
	defer func() {
		if t.Failed() {
			t.Log(log.String())
		}
	}()
	typed := append(append([]string{}, texted...), more...)
	text := func() string { return typed[next(len(typed))] }
	pick := func(list ...string) string { return list[next(len(list))] }
	s := Open("#" + open)
	whole(t, s)
	for range next(40) {
		var inputs []string
		for _, name := range []string{RoomWidth, RoomDepth, Gap, Border, BlockWidth, BlockLength, Mitre, Axis, CentreX, CentreY, Across, Along,
			"room.0.x", "room.1.y", "room.3.x", "room.4.y", "hole.0.0.x", "hole.0.2.y", "hole.1.1.x"} {
			if _, ok := s.Typed[name]; ok {
				inputs = append(inputs, name)
			}
		}
		outline := pick("room", "hole.0", "hole.1", "gap")
		var a Action
		switch next(21) {
		case 0, 1, 2, 3, 4, 5:
			a = Edit{inputs[next(len(inputs))], text(), next(2) == 0}
		case 6:
			a = Choose{pick("pattern", "strands", "start", "fraction", "room", ""), pick("chevron", "herringbone", "1", "2", "3", "wall", "centre", "32", text())}
		case 7:
			a = ChangeUnit{length.Unit(next(2))}
		case 8:
			a = ShapeRoom{[]Way{BySize, ByCorners, ByTape, ByWalk}[next(4)]}
		case 9:
			a = AddCorner{outline, next(6) - 1}
		case 10:
			a = RemoveCorner{outline, next(6) - 1}
		case 11:
			a = AddHole{}
		case 12:
			a = RemoveHole{next(3)}
		case 13:
			a = Place{next(5)}
		case 14:
			a = Length{length.Length(next(600))}
		case 15:
			a = GoTo{pick("measure", "choose", "strike", "lay", text())}
		case 16:
			a = []Action{Draw{link.Set(next(32)), next(2) == 0}, Pace{pick("5", "1000", text())}, Fail{text()}}[next(3)]
		case 17:
			a = []Action{Play{}, Pause{}, Advance{float64(next(1000)) / 20}}[next(3)]
		case 18:
			a = []Action{StepBlocks{next(99) - 50}, StepRows{next(9) - 4}, Scrub{float64(next(2000)) - 9}, ToRow{next(99) - 9}}[next(4)]
		case 19:
			a = Follow{"#" + opened[next(len(opened))]}
		case 20:
			a = []Action{TurnRows{next(5) - 2}, TurnStrands{next(5) - 2}}[next(2)]
		}
		fmt.Fprintf(&log, ".Do(%T%+q)", a, a)
		before := s
		s, _ = step(t, s, a)
		whole(t, s)
		if unit, ok := a.(ChangeUnit); ok && len(before.Problems) == 0 {
			want := before.Plan.Job()
			want.Unit = unit.Unit
			if !reflect.DeepEqual(s.Plan.Job(), want) || len(s.Problems) > 0 {
				t.Errorf("the floor changed with the unit: %+v, want %+v, problems %q", s.Plan.Job(), want, s.Problems)
			}
		}
		if t.Failed() {
			return
		}
	}
}

// whole checks what holds for every state.
func whole(t *testing.T, s State) {
	t.Helper()
	if s.Plan == nil {
		t.Fatal("no plan")
	}
	if !(s.Laid >= 0 && s.Laid <= float64(s.Blocks())) || !s.Playing && s.Laid != float64(int(s.Laid)) {
		t.Errorf("%v of %d blocks laid, playing %v", s.Laid, s.Blocks(), s.Playing)
	}
	if row := s.Row(); row >= len(s.Rows) || row < 0 && s.Laid >= 1 {
		t.Errorf("row %d of %d", row, len(s.Rows))
	}
	if from := s.RowsFrom(); from < 0 || from > 0 && from >= len(s.Rows) {
		t.Errorf("the list starts with row %d of %d", from, len(s.Rows))
	}
	for input, text := range s.Problems {
		if text == "" || !strings.HasSuffix(text, ".") {
			t.Errorf("problem %q at %s is no sentence", text, input)
		}
	}
	if len(s.Address()) >= link.Most {
		return
	}
	// The link opens as the floor that is shown, also when something that was
	// typed waits or a key of the link has no effect.
	again := Open("#" + s.Address())
	if !reflect.DeepEqual(again.Plan.Job(), s.Plan.Job()) {
		t.Errorf("link %q opens as\n%+v, want\n%+v, problems %q", s.Address(), again.Plan.Job(), s.Plan.Job(), s.Problems)
	}
	if again.Address() != s.Address() {
		t.Errorf("link %q opens as link %q", s.Address(), again.Address())
	}
	if !s.Playing && again.Laid != s.Laid {
		t.Errorf("link %q opens with %v laid, want %v of %d", s.Address(), again.Laid, s.Laid, s.Blocks())
	}
	if again.View != s.View {
		t.Errorf("link %q opens with view %+v, want %+v", s.Address(), again.View, s.View)
	}
	// Without problems the inputs are the job.
	if len(s.Problems) == 0 && s.draft.String() != s.Address() {
		t.Errorf("no problems, and the link is %q while %q was typed", s.Address(), s.draft)
	}
}

func TestRandomActions(t *testing.T) {
	from, to := uint64(1), uint64(400)
	if *seed != 0 {
		from, to = *seed, *seed
	}
	for n := from; n <= to; n++ {
		r := rand.New(rand.NewPCG(n, 1))
		check(t, opened[r.IntN(len(opened))], nil, r.IntN)
		if t.Failed() {
			t.Fatalf("with -seed %d", n)
		}
	}
}

func FuzzActions(f *testing.F) {
	for i, text := range opened {
		f.Add(text, []byte{byte(i), 30, 1, 7, 1, 8, 1, 3, 11, 12, 0, 13, 2, 0, 9, 18, 19, 20, 21}, "12\n4m")
	}
	f.Fuzz(func(t *testing.T, open string, program []byte, words string) {
		if len(open) > 4000 || len(words) > 400 {
			return // long links have a test of their own
		}
		next := func(n int) int {
			if len(program) == 0 {
				return 0
			}
			b := program[0]
			program = program[1:]
			return int(b) % n
		}
		check(t, open, strings.Split(words, "\n"), next)
	})
}
