package state

import "keelrow/engine/link"

// passing is the keys of the link that say how the floor is looked at and
// make no difference to the job.
var passing = [...]string{"laid", "speed", "stage", "show", "paint", "face", "step", "ask", "host"}

// OpenJobs shows the jobs kept on this device in place of the stage, or the
// stage again.
type OpenJobs struct{ Open bool }

func (a OpenJobs) apply(s State) (State, Step) {
	s.Jobs, s.Sheets.Open = a.Open, false
	return s, Stay
}

// Bring puts the floor of another link in the place of this one's and looks
// at it in the same way.
type Bring struct {
	Text     string
	Followed bool // it was brought from elsewhere: nothing to come back from
}

func (a Bring) apply(s State) (State, Step) {
	l := link.Open("#" + a.Text)
	for _, key := range passing {
		l = l.With(key, s.Link.All(key)...)
	}
	text := l.String()
	if Floor(text) == Floor(s.Address()) || len(text) >= link.Most {
		return s, Stay
	}
	next := Open("#" + text)
	next.Sheets, next.Jobs = s.Sheets, s.Jobs
	if a.Followed {
		return next, Replace
	}
	return next, Push
}

// Floor returns a link without what makes no difference to the job.
func Floor(text string) string {
	l := link.Open("#" + text)
	for _, key := range passing {
		l = l.With(key)
	}
	return l.String()
}
