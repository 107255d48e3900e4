// Package state is what the page knows and what a person can do to it. It
// knows nothing of a browser.
//
// The link is the one source of the job: inputs hold text as it was typed,
// and every text that can be read goes into the link. A plan that cannot be
// computed leaves the last good one, with its link, in place.
package state

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/survey"
)

// State is all the page knows. It is a value: an action gives a new one.
type State struct {
	Link link.Link // of the floor that is shown
	View link.View
	Plan *floor.Plan
	Rows []floor.Row

	// Taped is what the typed readings of the room come to, also when they
	// disagree too much to be laid out; nil when the room is given otherwise.
	Taped *survey.Result

	// Typed is the text of every input, as typed; Problems says what keeps a
	// text from being used, by the same names.
	Typed    map[string]string
	Problems map[string]string
	// Notes are sentences about the whole link: keys that are not known or
	// not usable.
	Notes []string

	Laid    float64 // blocks laid so far, as the laying is played
	Playing bool
	Failure string // set when the page's own code failed; the floor stays

	Sheets Sheets // what is to be printed
	Jobs   bool   // the kept jobs are shown in place of the stage
	part   part   // of the laying that the lesson plays

	StrandsFrom int // the first strand of the leaf that is open
	rowsFrom    int // one more than the first row of the leaf turned to; 0 follows the laying

	draft   link.Link         // the link with every text that can be read
	refused map[string]string // keys of Link that are without effect, and why
	typing  string            // the input in which typing on is one change
}

// Step says what the link's history should do after an action.
type Step int

const (
	Stay    Step = iota // the link has not changed
	Replace             // still the same change: typing on
	Push                // a change to come back from
)

// Open returns the state a link opens. Paint the page however faulty the link
// is: what cannot be used takes its default and is said.
func Open(text string) State {
	l := link.Open(text)
	s := State{Link: l, draft: l, Typed: texts(l), Problems: map[string]string{}}
	s.View, _ = l.View()
	s.compute()
	if s.View.Laid >= 0 {
		s.Laid = min(s.Laid, float64(s.View.Laid))
	}
	return s
}

// compute makes the plan of the draft. What cannot be laid out is left out
// when it came with a link; when it was typed, the last good plan stays.
func (s *State) compute() {
	given, faults := s.draft.Job()
	s.Taped, _ = given.Survey()
	s.Notes = noted(s.draft)
	for _, fault := range faults {
		s.problem(fault.Key, fault.Error())
	}
	unread := maps.Clone(s.Problems)
	job, left := given, map[string]string{}
	for {
		plan, err := floor.New(job)
		if err == nil {
			s.take(plan, left)
			return
		}
		list, again := fieldErrors(err), false
		if job.Centre == nil { // the room's middle is the room's problem
			list = slices.DeleteFunc(list, func(e *floor.FieldError) bool { return e.Key == "centre" })
		}
		for _, e := range list {
			s.problem(e.Key, e.Error())
			if s.optional(e.Key) && without(&job, e.Key) {
				left[e.Key], again = e.Error(), true
			}
		}
		if again {
			continue
		}
		if s.optional("room") && without(&job, "room") {
			// The room is too large even for the usual blocks. The others
			// get another chance in the usual room.
			left = map[string]string{"room": list[0].Error()}
			s.Problems = maps.Clone(unread)
			s.problem("room", left["room"])
			job = given
			without(&job, "room")
			continue
		}
		s.keep(list)
		return
	}
}

// optional says whether a key may be left out for the floor's sake: its value
// came with the link and was not typed here.
func (s *State) optional(key string) bool {
	return s.Plan == nil ||
		s.refused[key] != "" && slices.Equal(s.draft.All(key), s.Link.All(key))
}

// keep keeps the last good plan and says everything that stands in the way of
// a new one.
func (s *State) keep(list []*floor.FieldError) {
	for _, e := range list {
		if s.Problems[e.Key] != e.Error() {
			s.Notes = append(s.Notes, e.Error())
		}
	}
	for key, why := range s.refused {
		if s.optional(key) {
			s.problem(key, why)
		}
	}
}

// take makes a plan the one that is shown; left is the keys it leaves out.
func (s *State) take(plan *floor.Plan, left map[string]string) {
	first := s.Plan == nil
	whole := first || s.Laid >= float64(s.Blocks())
	s.Plan, s.Link, s.refused = plan, s.draft, left
	rows := len(s.Rows)
	s.Rows = slices.Collect(plan.Rows())
	if len(s.Rows) != rows {
		s.rowsFrom, s.StrandsFrom = 0, 0
	}
	all := s.Blocks()
	if whole && !s.Playing {
		s.Laid = float64(all)
	}
	s.Laid = min(s.Laid, float64(all))
	if n := s.View.Laid; !first && !s.Playing && n >= 0 && s.Laid == float64(all) && (!whole || n < all) {
		*s = s.set("laid")
	}
}

// noted returns what is to be said about a link as a whole.
func noted(l link.Link) (notes []string) {
	_, faults := l.View()
	for _, fault := range faults {
		notes = append(notes, fault.Error())
	}
	for _, key := range l.Unknown() {
		notes = append(notes, "The link's key “"+shown(key)+"” is not known here. It is kept and not used.")
	}
	if size := len(l.String()); size >= link.Most { // with its #
		notes = append(notes, "The link is "+strconv.Itoa(size)+" characters long. With "+
			strconv.Itoa(link.Most)+" or more it will not open again.")
	}
	return notes
}

// shown shortens a text from a link and replaces what cannot be printed.
func shown(text string) string {
	const most = 60
	if runes := []rune(text); len(runes) > most {
		text = string(runes[:most]) + "…"
	}
	return strings.Map(func(r rune) rune {
		if strconv.IsPrint(r) {
			return r
		}
		return '\uFFFD'
	}, text)
}

// fieldErrors takes a joined error apart.
func fieldErrors(err error) (list []*floor.FieldError) {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range many.Unwrap() {
			list = append(list, fieldErrors(e)...)
		}
		return list
	}
	var e *floor.FieldError
	if errors.As(err, &e) {
		list = append(list, e)
	}
	return list
}

// without resets the value of a key to its default and says whether that
// changed anything.
func without(job *floor.Job, key string) bool {
	switch key {
	case "room":
		changed := job.Room != nil
		job.Room = nil
		return changed
	case "hole":
		changed := job.Holes != nil
		job.Holes = nil
		return changed
	case "tape":
		changed := job.Tapes != nil
		job.Tapes = nil
		return changed
	case "walk":
		changed := job.Legs != nil
		job.Legs = nil
		return changed
	case "join":
		changed := job.Joins != nil
		job.Joins = nil
		return changed
	case "column":
		changed := job.Rounds != nil
		job.Rounds = nil
		return changed
	case "bow":
		changed := job.Bows != nil
		job.Bows = nil
		return changed
	case "scribe":
		changed := job.Scribes != nil
		job.Scribes = nil
		return changed
	case "door":
		changed := job.Doors != nil
		job.Doors = nil
		return changed
	case "window":
		changed := job.Windows != nil
		job.Windows = nil
		return changed
	case "line":
		changed := job.Line.From != floor.LineTyped
		job.Line = floor.LineSetting{}
		return changed
	case "gap":
		changed := job.Gap != 0 || job.GapAt != nil
		job.Gap, job.GapAt = 0, nil
		return changed
	case "border":
		changed := job.Border != 0 || job.BorderAt != nil || job.Strips != nil
		job.Border, job.BorderAt, job.Strips = 0, nil, nil
		return changed
	case "block":
		changed := job.Width != 0 || job.Length != 0
		job.Width, job.Length = 0, 0
		return changed
	case "strands":
		changed := job.Strands != 0
		job.Strands = 0
		return changed
	case "mitre":
		changed := job.Mitre != 0
		job.Mitre = 0
		return changed
	case "axis":
		changed := job.Axis != 0
		job.Axis = 0
		return changed
	case "centre":
		changed := job.Centre != nil
		job.Centre = nil
		return changed
	case "shift":
		changed := job.Across != 0 || job.Along != 0
		job.Across, job.Along = 0, 0
		return changed
	}
	return false
}

// problem puts a sentence at a key, unless one of its inputs has its own.
// What has no input goes to the notes.
func (s *State) problem(key, text string) {
	if key == "" || key == "v" {
		s.Notes = append(s.Notes, text)
		return
	}
	for input := range s.Problems {
		if keyOf(input) == key {
			return
		}
	}
	s.Problems[key] = text
}

// Blocks returns how many blocks the floor that is shown has.
func (s State) Blocks() int {
	if n := len(s.Rows); n > 0 {
		return s.Rows[n-1].First + s.Rows[n-1].Blocks()
	}
	return 0
}

// Row returns which of the rows the laying has come to, by its place in Rows:
// the row of the last block laid. It is -1 before the first block.
func (s State) Row() int {
	n, _ := slices.BinarySearchFunc(s.Rows, int(s.Laid), func(r floor.Row, laid int) int {
		if r.First < laid {
			return -1
		}
		return 1
	})
	return n - 1
}

// Unit returns the unit that is meant by a bare number.
func (s State) Unit() length.Unit {
	return unitOf(s.draft)
}

func unitOf(l link.Link) length.Unit {
	if unit, _ := l.Get("unit"); strings.TrimSpace(unit) == "in" {
		return length.Inches
	}
	return length.Millimetres
}

// Address returns the link to show in the address bar.
func (s State) Address() string { return s.Link.String() }

// copied returns the state with maps of its own, and no problems.
func (s State) copied() State {
	s.Typed, s.Problems = maps.Clone(s.Typed), map[string]string{}
	return s
}

// set gives a setting of the page another value, or none. What was noted
// about the old one goes.
func (s State) set(key string, values ...string) State {
	_, faults := s.Link.View()
	s.Notes = slices.DeleteFunc(slices.Clone(s.Notes), func(note string) bool {
		return slices.ContainsFunc(faults, func(f link.Fault) bool { return f.Key == key && f.Error() == note })
	})
	s.Link, s.draft = s.Link.With(key, values...), s.draft.With(key, values...)
	s.View, _ = s.Link.View()
	return s
}

// withLaid goes to a point of the laying and writes it to the link.
func (s State) withLaid(laid float64) (State, Step) {
	s.Playing = false
	s.Laid = 0
	if laid > 0 { // so that NaN is 0 too
		s.Laid = math.Floor(min(laid, float64(s.Blocks())))
	}
	n := int(s.Laid)
	if n >= s.Blocks() {
		n = -1
	}
	switch {
	case n == s.View.Laid:
		return s, Stay
	case n < 0:
		return s.set("laid"), Replace
	}
	return s.set("laid", strconv.Itoa(n)), Replace
}
