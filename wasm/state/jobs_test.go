package state

import "testing"

func TestBring(t *testing.T) {
	s := do(t, Open("#gap=10&stage=lay&laid=7"), OpenJobs{Open: true})
	next, got := step(t, s, Bring{Text: "gap=12&stage=choose&border=90"})
	if got != Push || !next.Jobs || next.View.Stage != "lay" || next.Laid != 7 || next.Plan.Job().Gap != 12 || next.Plan.Job().Border != 90 {
		t.Errorf("step %v, %q, jobs open %v", got, next.Address(), next.Jobs)
	}
	if Floor(next.Address()) != "gap=12&border=90" {
		t.Errorf("floor %q", Floor(next.Address()))
	}
	if _, got := step(t, next, Bring{Text: "gap=12&border=90"}); got != Stay {
		t.Error("the same floor again is a step")
	}
	if _, got := step(t, s, Bring{Text: "gap=12", Followed: true}); got != Replace {
		t.Errorf("following another tab: %v", got)
	}
	if do(t, next, GoTo{"choose"}).Jobs || do(t, next, OpenSheets{Open: true}).Jobs || do(t, next, OpenSheets{Open: true}, OpenJobs{Open: true}).Sheets.Open {
		t.Error("more than one thing is open in place of the stage")
	}
}
