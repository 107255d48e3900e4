package state

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/link"
)

// Dress gives a setting of how the floor looks or is looked at a value; what
// holds without the key is not written. On is going on with the same change,
// such as a slider that is moved.
type Dress struct {
	Key, Value string
	On         bool
}

func (a Dress) apply(s State) (State, Step) {
	i := slices.IndexFunc(link.Keys(), func(k link.Key) bool { return k.Name == a.Key })
	if i < 0 || !link.Keys()[i].View {
		return s, Stay
	}
	next := s.set(a.Key)
	if a.Value != "" && a.Value != link.Keys()[i].Default {
		next = s.set(a.Key, a.Value)
	}
	_, faults := next.Link.View()
	if slices.ContainsFunc(faults, func(f link.Fault) bool { return f.Key == a.Key }) || next.Address() == s.Address() {
		return s, Stay
	}
	if a.On {
		return next, Replace
	}
	return next, Push
}

// Take opens another link in place of the one that is open, as a change to
// come back from.
type Take struct{ Text string }

func (a Take) apply(s State) (State, Step) {
	if text := strings.TrimPrefix(a.Text, "#"); text == s.Address() || len(text) > link.Most {
		return s, Stay
	}
	return Open(a.Text), Push
}

// Turned returns the link of the floor with its pattern turned by a right
// angle about the point where it is centred.
func (s State) Turned() link.Link {
	job := s.Plan.Job()
	axis := job.Axis + 90
	for axis > 180 {
		axis -= 360
	}
	l := s.Link
	if _, given := l.Get("line"); given {
		l = l.With("line").With("centre", s.at(*job.Centre))
	}
	return l.With("axis", strconv.FormatFloat(math.Round(axis*1e6)/1e6+0, 'f', -1, 64))
}
