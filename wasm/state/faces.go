package state

// Turn turns the page to another face: work, site, show or lesson. It is a
// change to come back from.
type Turn struct{ Face string }

func (a Turn) apply(s State) (State, Step) {
	if a.Face == s.View.Face {
		return s, Stay
	}
	next := s.set("face")
	if a.Face != "work" {
		next = s.set("face", a.Face)
	}
	if next.View.Face != a.Face {
		return s, Stay
	}
	return next, Push
}
