package state

import "strconv"

// Teach opens a step of the lesson or, when Ask is not 0, a question.
type Teach struct{ Step, Ask int }

func (a Teach) apply(s State) (State, Step) {
	next, step := s, Replace
	if s.View.Face != "lesson" {
		next, step = s.set("face", "lesson"), Push
	}
	next.Playing = false
	for _, k := range []struct {
		key       string
		now, none int
	}{{"step", a.Step, 1}, {"ask", a.Ask, 0}} {
		if k.now == k.none {
			next = next.set(k.key)
		} else {
			next = next.set(k.key, strconv.Itoa(k.now))
		}
	}
	if next.View.Step != a.Step || next.View.Ask != a.Ask {
		return s, Stay
	}
	if next.Address() == s.Address() {
		step = Stay
	}
	return next, step
}

// Part shows the laying from one block to another and stops there. What is
// laid in a lesson is not the link's.
type Part struct{ From, To int }

// part is what of the laying is being played, and how fast.
type part struct {
	to   int
	pace float64 // blocks a second, at least
}

// longest is how long a part of the laying takes at most, in seconds.
const longest = 9

func (a Part) apply(s State) (State, Step) {
	to := max(0, min(a.To, s.Blocks()))
	from := max(0, min(a.From, to))
	s.part = part{to, float64(to-from) / longest}
	s.Laid, s.Playing, s.rowsFrom = float64(from), from < to, 0
	return s, Stay
}

// partEnds stops at the end of the part that the lesson plays.
func (s *State) partEnds() bool {
	if s.View.Face != "lesson" || s.Laid < float64(s.part.to) {
		return false
	}
	s.Laid, s.Playing = float64(s.part.to), false
	return true
}
