package state

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/link"
)

// do runs actions and fails when one of them changes the state it started
// from.
func do(t *testing.T, s State, actions ...Action) State {
	t.Helper()
	for _, a := range actions {
		s, _ = step(t, s, a)
	}
	return s
}

func step(t *testing.T, s State, a Action) (State, Step) {
	t.Helper()
	old, address, draft := deepCopy(s), s.Address(), s.draft.String()
	job := s.Plan.Job()
	next, step := s.Do(a)
	if !reflect.DeepEqual(s, old) || s.Address() != address || s.draft.String() != draft || !reflect.DeepEqual(s.Plan.Job(), job) {
		t.Fatalf("%T%+v changed the state it was done to:\n%+v\nwas\n%+v", a, a, s, old)
	}
	if changed := next.Address() != address; changed && step == Stay {
		if _, follow := a.(Follow); !follow { // the address bar has the link already
			t.Fatalf("%T%+v changed the link from %q to %q and returned Stay", a, a, address, next.Address())
		}
	} else if !changed && step != Stay {
		t.Fatalf("%T%+v left the link %q as it is and returned %v", a, a, address, step)
	}
	return next, step
}

func deepCopy(s State) State {
	s.Typed, s.Problems, s.refused = maps.Clone(s.Typed), maps.Clone(s.Problems), maps.Clone(s.refused)
	s.Rows, s.Notes = slices.Clone(s.Rows), slices.Clone(s.Notes)
	for i := range s.Rows {
		s.Rows[i].Strands = slices.Clone(s.Rows[i].Strands)
	}
	return s
}

// wantFine fails when the state has anything to complain about.
func wantFine(t *testing.T, s State) {
	t.Helper()
	if len(s.Problems) > 0 || len(s.Notes) > 0 {
		t.Fatalf("link %q: problems %q, notes %q, want none", s.Address(), s.Problems, s.Notes)
	}
}

// wantProblem fails unless this is the only problem and its sentence holds
// the words.
func wantProblem(t *testing.T, s State, input, words string) {
	t.Helper()
	if len(s.Problems) != 1 || !strings.Contains(s.Problems[input], words) || s.Problems[input] == "" {
		t.Fatalf("problems %q, want one at %s with %q", s.Problems, input, words)
	}
	if text := s.Problems[input]; !strings.HasSuffix(text, ".") {
		t.Errorf("%q is not a sentence", text)
	}
}

func wantAddress(t *testing.T, s State, want string) {
	t.Helper()
	if s.Address() != want {
		t.Fatalf("link %q, want %q", s.Address(), want)
	}
}

func TestOpenAlwaysShowsAFloor(t *testing.T) {
	cross := "room=0,0;4000,3000;4000,0;0,3000"
	for _, tt := range []struct {
		link     string
		problems []string // keys
		notes    int
		gap      float64 // of the plan, to see that the rest opens
	}{
		{"", nil, 0, 0},
		{link.Demo, nil, 0, 12},
		{"gap=12&colour=red", nil, 1, 12},
		{"gap=12&room=abc", []string{"room"}, 0, 12},
		{"gap=12&" + cross, []string{"room"}, 0, 12},
		{"gap=12&border=2000", []string{"border"}, 0, 12},
		{"gap=2000&border=100", []string{"gap"}, 0, 0},
		{"gap=12&block=350x70", []string{"block"}, 0, 12},
		{"gap=12&block=70", []string{"block"}, 0, 12},
		{"gap=12&mitre=80&axis=north&strands=4", []string{"axis", "mitre", "strands"}, 0, 12},
		{"gap=12&centre=2000000,0", []string{"centre"}, 0, 12},
		{"gap=12&centre=,", []string{"centre"}, 0, 12},
		{"gap=12&hole=9000,0;9100,0;9000,100", []string{"hole"}, 0, 12},
		{"gap=12&hole=x", []string{"hole"}, 0, 12},
		{"gap=12&gap=13", []string{"gap"}, 0, 12},
		{"gap=12&unit=cm", []string{"unit"}, 0, 12},
		{"gap=12&v=2", nil, 1, 12},
		{"gap=12&speed=fast&stage=roof&laid=-1", nil, 3, 12},
		// 1 km² takes some 40 million blocks of the usual size.
		{"gap=12&room=1000000x1000000", []string{"room"}, 0, 12},
		{"gap=12&room=1000000x1000000&block=80x480", []string{"room"}, 0, 12},
		{"gap=12&room=1000000x1000000&block=480x80", []string{"block", "room"}, 0, 12},
		{"gap=12&room=40000x40000&block=5x20", []string{"block"}, 0, 12},
		{"gap=12&room=5000000x1", []string{"room"}, 0, 12},
		{"gap=12&note=" + strings.Repeat("a", link.Most), nil, 1, 0},
		{"&&=&%&%zz=%&=gap", nil, 4, 0},
	} {
		name := tt.link[:min(len(tt.link), 50)]
		t.Run(name, func(t *testing.T) {
			s := Open("#" + tt.link)
			if s.Plan == nil || s.Blocks() == 0 {
				t.Fatal("no floor is shown")
			}
			if got := slices.Sorted(maps.Keys(s.Problems)); !slices.Equal(got, tt.problems) {
				t.Errorf("problems %q, want them at %q", s.Problems, tt.problems)
			}
			if len(s.Notes) != tt.notes {
				t.Errorf("notes %q, want %d", s.Notes, tt.notes)
			}
			if got := float64(s.Plan.Job().Gap); got != tt.gap {
				t.Errorf("the floor's gap is %v, want %v", got, tt.gap)
			}
			if len(tt.link) <= link.Most && s.Address() != tt.link {
				t.Errorf("its link is %q", s.Address())
			}
			if s.Laid != float64(s.Blocks()) {
				t.Errorf("%v of %d blocks are laid", s.Laid, s.Blocks())
			}
			// Problems do not pile up while something else is done.
			again := do(t, s, GoTo{"lay"}, Edit{Input: Gap, Text: "x"}, Edit{Input: Gap, Text: "y"}, Edit{Input: Gap, Text: s.Typed[Gap]})
			if got := slices.Sorted(maps.Keys(again.Problems)); !slices.Equal(got, tt.problems) {
				t.Errorf("after typing to and fro: problems %q, were %q", again.Problems, s.Problems)
			}
			if len(again.Notes) > len(s.Notes) {
				t.Errorf("after typing to and fro: notes %q, were %q", again.Notes, s.Notes)
			}
		})
	}
}

// The engine's sentence, not one about reading the text, stands at a key that
// reads and cannot be laid out.
func TestOpenGivesTheEnginesSentence(t *testing.T) {
	for text, words := range map[string]string{
		"room=0,0;4000,3000;4000,0;0,3000": "crosses itself",
		"border=2000":                      "leaves no field",
		"block=350x70":                     "shorter than it is wide",
	} {
		key, _, _ := strings.Cut(text, "=")
		wantProblem(t, Open(text), key, words)
	}
}

func TestUnitWithSpaces(t *testing.T) {
	s := Open("#unit=%20in&gap=1/2")
	wantFine(t, s)
	if got := s.Unit(); got != s.Plan.Job().Unit {
		t.Errorf("Unit() is %v and the floor's is %v", got, s.Plan.Job().Unit)
	}
	s = do(t, s, Edit{Input: Gap, Text: "3/4"})
	wantFine(t, s)
	if got := s.Plan.Job().Gap; got != 19.05 { // 3/4 in of 25.4 mm
		t.Errorf("a gap of 3/4 in is %v mm, want 19.05", got)
	}
}

func TestInputsShowTheLink(t *testing.T) {
	s := Open("#unit=in&hole=1ft,1ft;2ft,1ft;1ft,2ft&block=2-1/4x9&centre=6ft,70")
	wantFine(t, s)
	for input, want := range map[string]string{
		RoomWidth: "4200mm", RoomDepth: "3600mm", Gap: "0", Border: "0", BlockWidth: "2-1/4", BlockLength: "9",
		Mitre: "45", Axis: "0", CentreX: "6ft", CentreY: "70", Across: "0", Along: "0", "hole.0.2.x": "1ft", "hole.0.2.y": "2ft",
	} {
		if got, ok := s.Typed[input]; !ok || got != want {
			t.Errorf("%s shows %q, want %q", input, got, want)
		}
	}
	if s.Holes() != 1 || s.Corners("hole.0") != 3 || s.Corners("room") != 0 || !s.Rectangle() {
		t.Errorf("holes %d, corners %d and %d, rectangle %v", s.Holes(), s.Corners("hole.0"), s.Corners("room"), s.Rectangle())
	}
}

func TestViewKeys(t *testing.T) {
	s := Open("#speed=fast")
	if len(s.Notes) != 1 {
		t.Fatalf("notes %q, want one", s.Notes)
	}
	s, got := step(t, s, Pace{"5"})
	wantFine(t, s)
	if s.View.Speed != 5 || got != Replace {
		t.Errorf("speed %v, step %v", s.View.Speed, got)
	}
	wantAddress(t, s, "speed=5")
	for _, a := range []Action{Pace{"none"}, Pace{"5"}, GoTo{"measure"}, GoTo{"roof"}, Draw{link.ShowBorder, true}} {
		next, got := step(t, s, a)
		if got != Stay || next.Address() != "speed=5" {
			t.Errorf("%T%+v: link %q, step %v", a, a, next.Address(), got)
		}
	}
	s = do(t, s, GoTo{"lay"}, Draw{link.ShowBorder | link.ShowStart, false})
	wantAddress(t, s, "show=centre,working,diagonals&speed=5&stage=lay")
	s = do(t, s, Draw{link.ShowAll, false}, Draw{link.ShowStart, true})
	if s.View.Show != link.ShowStart || s.View.Stage != "lay" {
		t.Errorf("view %+v", s.View)
	}
	// View keys neither change the plan nor get lost by one.
	s = do(t, s, Edit{Input: Gap, Text: "10"})
	wantAddress(t, s, "gap=10&show=start&speed=5&stage=lay")
}

func TestFollow(t *testing.T) {
	s := do(t, Open("#gap=12"), Edit{Input: Border, Text: "x"}, Fail{"lay"})
	same, _ := step(t, s, Follow{"#gap=12"})
	if same.Typed[Border] != "x" || same.Failure == "" {
		t.Error("following the link that is open lost what was typed")
	}
	other, got := step(t, s, Follow{"#gap=10"})
	wantFine(t, other)
	if got != Stay || other.Plan.Job().Gap != 10 || other.Failure != "" {
		t.Errorf("step %v, gap %v, failure %q", got, other.Plan.Job().Gap, other.Failure)
	}
}

// A link that outgrows what opens is said to, and the floor stays.
func TestLongLink(t *testing.T) {
	note := strings.Repeat("a", link.Most-len("#gap=12&note="))
	s := Open("#gap=12&note=" + note)
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "not known") || len(s.Notes[0]) > 200 {
		t.Fatalf("notes %.300q, want one about the key", s.Notes)
	}
	s = do(t, s, Edit{Input: Gap, Text: "12.5"})
	if len(s.Notes) != 2 || !strings.Contains(s.Notes[1], "not open again") || s.Plan.Job().Gap != 12.5 {
		t.Errorf("notes %.300q, want one about the length", s.Notes)
	}
}

func TestElsewhere(t *testing.T) {
	s := Open("#gap=x&border=y&mitre=80&centre=1")
	for stage, want := range map[string][]string{
		"measure": {"mitre", "centre"}, "choose": {"gap", "border", "centre"}, "strike": {"gap", "border", "mitre"}, "lay": {"gap", "border", "mitre", "centre"},
	} {
		got := s.Elsewhere(stage)
		for i := range got {
			got[i], _, _ = strings.Cut(got[i], " ")
		}
		if !slices.Equal(got, want) {
			t.Errorf("Elsewhere(%s) is about %q, want %q", stage, got, want)
		}
	}
}

func TestLeaves(t *testing.T) {
	s := do(t, Open("#room=30000x30000"), TurnRows{1}, TurnRows{1}, TurnRows{-1})
	rows := len(s.Rows)
	if last := (rows - 1) / Leaf * Leaf; rows <= 2*Leaf || s.RowsFrom() != last-Leaf {
		t.Errorf("row %d of %d is first, want the leaf before the last", s.RowsFrom(), rows)
	}
	s = do(t, s, TurnRows{-99}, TurnStrands{1})
	if s.RowsFrom() != 0 || s.StrandsFrom != Leaf {
		t.Errorf("row %d and strand %d are first", s.RowsFrom(), s.StrandsFrom)
	}
	// A floor with other rows opens its lists at the front, or where it is laid.
	s = do(t, s, Edit{Input: RoomWidth, Text: "1000"}, Edit{Input: RoomDepth, Text: "1000"})
	if s.StrandsFrom != 0 {
		t.Errorf("strand %d is first", s.StrandsFrom)
	}
}
