package state

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/plane"
)

// Action is one thing a person did. It returns the new state and what the
// history of links should do.
type Action interface {
	apply(s State) (State, Step)
}

// Do returns the state after an action.
func (s State) Do(a Action) (State, Step) { return a.apply(s) }

// recompute reads every input whose text is not what the draft shows, and
// makes the plan anew. Edited is the key that was changed.
func (s State) recompute(step Step, edited string) (State, Step) {
	before := s.Link.String()
	s.typing = ""
	shows := texts(s.draft)
	for _, key := range inputKeys {
		if key == "room" && (s.Way() == ByTape || s.Way() == ByWalk) {
			continue // it has no inputs then
		}
		// An empty centre shows like a faulty one without any digits.
		cleared := key == "centre" && key == edited && s.noCentre()
		if cleared || !sameTexts(s.Typed, shows, key) {
			s.rewrite(key)
		}
	}
	s.compute()
	if s.Link.String() == before {
		return s, Stay
	}
	return s, step
}

// inputKeys is the keys of the job that have inputs to type in.
var inputKeys = []string{"room", "tape", "walk", "misfit", "join", "hole", "column", "bow", "scribe", "door", "gap", "border",
	"block", "mitre", "axis", "centre", "line", "shift"}

// Edit is typing in an input.
type Edit struct {
	Input, Text string
	On          bool // typing on in the same input
}

func (a Edit) apply(s State) (State, Step) {
	_, _, optional := atWall(a.Input)
	if _, ok := s.Typed[a.Input]; !ok && !optional {
		return s, Stay
	}
	if slices.Contains(settings, a.Input) {
		return a.setting(s)
	}
	// Typing on belongs to the change before only if that one was made: a
	// text may become readable with its second character.
	on := a.On && s.typing == a.Input
	step := Push
	if on {
		step = Replace
	}
	s = s.copied()
	s.Typed[a.Input] = a.Text
	if a.Input == "line.kind" {
		s.Typed["line.a"], s.Typed["line.b"] = s.lineFrom(a.Text)
	}
	if optional && strings.TrimSpace(a.Text) == "" {
		delete(s.Typed, a.Input)
	}
	s, step = s.recompute(step, keyOf(a.Input))
	if on || step == Push {
		s.typing = a.Input
	}
	return s, step
}

// setting is typing in an input of what is reported.
func (a Edit) setting(s State) (State, Step) {
	s.Typed, s.Problems = maps.Clone(s.Typed), maps.Clone(s.Problems)
	s.Typed[a.Input] = a.Text
	delete(s.Problems, a.Input)
	if strings.TrimSpace(a.Text) == "" {
		return s.set(a.Input), Replace
	}
	canonical, err := length.Canonical(a.Text, s.Unit())
	if err != nil {
		s.Problems[a.Input] = sentence(err.Error())
		return s, Stay
	}
	if _, faults := s.Link.With(a.Input, canonical).View(); slices.ContainsFunc(faults, func(f link.Fault) bool { return f.Key == a.Input }) {
		s.Problems[a.Input] = faults[0].Error()
		return s, Stay
	}
	return s.set(a.Input, canonical), Replace
}

// Choose is a choice among the few values of a key of the job: pattern,
// strands, start or fraction.
type Choose struct{ Key, Value string }

func (a Choose) apply(s State) (State, Step) {
	i := slices.IndexFunc(link.Keys(), func(k link.Key) bool { return k.Name == a.Key })
	if i < 0 || !slices.Contains([]string{"pattern", "strands", "start", "fraction", "share"}, a.Key) {
		return s, Stay
	}
	if _, given := s.draft.Get(a.Key); !given && a.Value == link.Keys()[i].Default {
		return s, Stay
	}
	s = s.copied()
	draft := s.draft.With(a.Key, a.Value)
	if fault, ok := newFault(s.draft, draft, a.Key); ok {
		s.problem(a.Key, fault.Error())
	} else {
		s.draft = draft
	}
	return s.recompute(Push, a.Key)
}

// ChangeUnit changes the unit of readings and of bare numbers. Lengths that
// were typed without a unit mark get the one they had, so that the floor
// stays as it is. Only a text that was no length before, such as 1/2 among
// millimetres, may become one.
type ChangeUnit struct{ Unit length.Unit }

func (a ChangeUnit) apply(s State) (State, Step) {
	old := s.Unit()
	if old == a.Unit {
		return s, Stay
	}
	s = s.copied()
	showed := texts(s.draft)
	s.Link, s.draft = s.Link.Rebased(a.Unit), s.draft.Rebased(a.Unit)
	shows := texts(s.draft)
	for input, text := range s.Typed {
		if text == showed[input] {
			s.Typed[input] = shows[input]
			continue
		}
		if input == Mitre || input == Axis {
			continue
		}
		canonical, err := length.Canonical(text, old)
		if marked, _ := length.Marked(text, old); err == nil && marked != canonical {
			s.Typed[input] = marked
		}
	}
	// The floor that is shown gets its readings in the new unit even when
	// the draft cannot be laid out.
	job := s.Plan.Job()
	job.Unit = a.Unit
	if plan, err := floor.New(job); err == nil {
		s.Plan = plan
	}
	s, _ = s.recompute(Push, "unit")
	return s, Push
}

// retyped gives a key a value of our own and its inputs the texts of it.
func (s State) retyped(key string, values ...string) (State, Step) {
	s.draft = s.draft.With(key, values...)
	for input := range s.Typed {
		if keyOf(input) == key {
			delete(s.Typed, input)
		}
	}
	for input, text := range texts(s.draft) {
		if keyOf(input) == key {
			s.Typed[input] = text
		}
	}
	return s.recompute(Push, key)
}

// AddCorner adds a corner to an outline ("room" or "hole.0") in the middle of
// the wall behind corner After.
type AddCorner struct {
	Outline string
	After   int
}

func (a AddCorner) apply(s State) (State, Step) {
	corners := s.typedCorners(a.Outline)
	if a.After < 0 || a.After >= len(corners) {
		return s, Stay
	}
	s = s.copied()
	middle := [2]string{}
	for i := range middle {
		p, errP := length.Parse(corners[a.After][i], s.Unit())
		q, errQ := length.Parse(corners[(a.After+1)%len(corners)][i], s.Unit())
		if errP == nil && errQ == nil {
			middle[i] = written((p+q)/2, s.Unit())
		}
	}
	s.setCorners(a.Outline, slices.Insert(corners, a.After+1, middle))
	return s.recompute(Push, keyOf(a.Outline))
}

// RemoveCorner takes a corner out of an outline.
type RemoveCorner struct {
	Outline string
	Corner  int
}

func (a RemoveCorner) apply(s State) (State, Step) {
	corners := s.typedCorners(a.Outline)
	if a.Corner < 0 || a.Corner >= len(corners) || len(corners) <= 3 {
		return s, Stay
	}
	s = s.copied()
	s.setCorners(a.Outline, slices.Delete(corners, a.Corner, a.Corner+1))
	return s.recompute(Push, keyOf(a.Outline))
}

// typedCorners returns the texts of an outline's corners.
func (s State) typedCorners(outline string) (corners [][2]string) {
	for i := range s.Corners(outline) {
		at := outline + "." + strconv.Itoa(i)
		corners = append(corners, [2]string{s.Typed[at+".x"], s.Typed[at+".y"]})
	}
	return corners
}

func (s *State) setCorners(outline string, corners [][2]string) {
	for input := range s.Typed {
		if strings.HasPrefix(input, outline+".") {
			delete(s.Typed, input)
		}
	}
	for i, c := range corners {
		at := outline + "." + strconv.Itoa(i)
		s.Typed[at+".x"], s.Typed[at+".y"] = c[0], c[1]
	}
}

// AddHole puts a hole a tenth of the room wide in the middle of the room, to
// be moved where it belongs.
type AddHole struct{}

func (AddHole) apply(s State) (State, Step) {
	low, high := s.Plan.Room()[0].Box()
	middle, half := low.Add(high).Times(0.5), high.Sub(low).Times(0.05)
	// Each further one stands beside the last, so that they do not lie on one
	// another.
	middle.X += float64(s.Holes()) * 3 * half.X
	from, to := middle.Sub(half), middle.Add(half)
	x, y := [2]string{}, [2]string{}
	for i, p := range []plane.Point{from, to} {
		x[i] = written(length.Length(math.Round(p.X)), s.Unit())
		y[i] = written(length.Length(math.Round(p.Y)), s.Unit())
	}
	s = s.copied()
	s.setCorners("hole."+strconv.Itoa(s.Holes()), [][2]string{{x[0], y[0]}, {x[1], y[0]}, {x[1], y[1]}, {x[0], y[1]}})
	return s.recompute(Push, "hole")
}

// RemoveHole takes a hole away.
type RemoveHole struct{ Hole int }

func (a RemoveHole) apply(s State) (State, Step) {
	n := s.Holes()
	if a.Hole < 0 || a.Hole >= n {
		return s, Stay
	}
	s = s.copied()
	for h := a.Hole; h < n; h++ {
		s.setCorners("hole."+strconv.Itoa(h), s.typedCorners("hole."+strconv.Itoa(h+1)))
	}
	return s.recompute(Push, "hole")
}

// Place moves the pattern to one of the four balanced placings.
type Place struct{ Placing int }

func (a Place) apply(s State) (State, Step) {
	if a.Placing < 0 || a.Placing > 3 {
		return s, Stay
	}
	s = s.copied()
	shift := s.Plan.Pattern().Balanced()[a.Placing]
	if shift.Across == 0 && shift.Along == 0 {
		return s.retyped("shift")
	}
	return s.retyped("shift", written(shift.Across, s.Unit())+","+written(shift.Along, s.Unit()))
}

// Length gives the block one of the lengths that line up.
type Length struct{ Length length.Length }

func (a Length) apply(s State) (State, Step) {
	width, err := length.Canonical(s.Typed[BlockWidth], s.Unit())
	if err != nil || !(a.Length > 0 && a.Length <= length.Longest) {
		return s, Stay
	}
	s = s.copied()
	return s.retyped("block", width+"x"+written(a.Length, s.Unit()))
}

// Follow opens another link, as the history or the address bar gives it.
type Follow struct{ Text string }

func (a Follow) apply(s State) (State, Step) {
	if strings.TrimPrefix(a.Text, "#") == s.Address() {
		return s, Stay
	}
	if len(a.Text) > link.Most {
		// Nothing of it is a job, so the one that is open stays, in the address
		// bar too.
		_, faults := link.Open(a.Text).Job()
		s.Notes = []string{faults[0].Error()}
		return s, Replace
	}
	return Open(a.Text), Stay
}

// GoTo opens a stage of the work.
type GoTo struct{ Stage string }

func (a GoTo) apply(s State) (State, Step) {
	s.Sheets.Open, s.Jobs = false, false
	return s.viewed("stage", a.Stage)
}

// viewed writes a setting of the page to the link.
func (s State) viewed(key, value string) (State, Step) {
	next := s.set(key, value)
	_, faults := next.Link.View()
	_, given := s.Link.Get(key)
	if next.Address() == s.Address() || !given && next.View == s.View ||
		slices.ContainsFunc(faults, func(f link.Fault) bool { return f.Key == key }) {
		return s, Stay
	}
	return next, Replace
}

// Draw shows or hides lines over the floor.
type Draw struct {
	Lines link.Set
	On    bool
}

func (a Draw) apply(s State) (State, Step) {
	set := s.View.Show &^ a.Lines
	if a.On {
		set = s.View.Show | a.Lines
	}
	return s.viewed("show", set.String())
}

// Pace sets how many blocks are laid in a second.
type Pace struct{ Speed string }

func (a Pace) apply(s State) (State, Step) { return s.viewed("speed", a.Speed) }

// Play lays on from where the laying is, or from the start when all is laid.
type Play struct{}

func (Play) apply(s State) (State, Step) {
	s.rowsFrom = 0
	if int(s.Laid) >= s.Blocks() {
		s.Laid = 0
	}
	s.Playing = s.Blocks() > 0
	return s, Stay
}

// Pause stops the laying after the block that is landing.
type Pause struct{}

func (Pause) apply(s State) (State, Step) {
	if !s.Playing {
		return s, Stay
	}
	return s.withLaid(math.Ceil(s.Laid))
}

// Advance is time passing while the laying is played.
type Advance struct{ Seconds float64 }

func (a Advance) apply(s State) (State, Step) {
	if !s.Playing || !(a.Seconds > 0) {
		return s, Stay
	}
	s.Laid += a.Seconds * max(s.View.Speed, s.part.pace)
	if s.partEnds() {
		return s, Stay
	}
	if s.Laid >= float64(s.Blocks()) {
		return s.withLaid(s.Laid)
	}
	return s, Stay
}

// StepBlocks lays so many blocks more, or takes them up again.
type StepBlocks struct{ By int }

func (a StepBlocks) apply(s State) (State, Step) {
	return s.withLaid(math.Floor(s.Laid) + float64(a.By))
}

// StepRows goes to the end of so many rows further on, or back. A row begun is
// the first to be finished on the way on, and to be taken up on the way back.
type StepRows struct{ By int }

func (a StepRows) apply(s State) (State, Step) {
	if a.By == 0 {
		return s, Stay
	}
	most := len(s.Rows) + 1
	row := s.Row()
	to := row + max(-most, min(a.By, most))
	if a.By > 0 && row >= 0 && int(s.Laid) < after(s.Rows[row]) {
		to--
	}
	return s.withLaid(s.endOf(to))
}

// after returns how many blocks are laid when the row is.
func after(r floor.Row) int { return r.First + r.Blocks() }

// endOf returns how many blocks are laid at the end of a row.
func (s State) endOf(row int) float64 {
	if row < 0 || len(s.Rows) == 0 {
		return 0
	}
	return float64(after(s.Rows[min(row, len(s.Rows)-1)]))
}

// Scrub goes to any point of the laying.
type Scrub struct{ Laid float64 }

func (a Scrub) apply(s State) (State, Step) { return s.withLaid(a.Laid) }

// ToRow goes to the end of a row by its number; 0 is before the first.
type ToRow struct{ Number int }

func (a ToRow) apply(s State) (State, Step) { return s.withLaid(s.endOf(max(a.Number, 0) - 1)) }

// Fail reports that the page's own code failed while it did something.
type Fail struct{ What string }

func (a Fail) apply(s State) (State, Step) {
	s, step := Pause{}.apply(s)
	s.Failure = a.What
	return s, step
}
