package state

import "testing"

func TestSheets(t *testing.T) {
	s := Open("#room=4200x3600")
	for i, name := range SheetNames {
		if !s.Sheets.Printed(i) {
			t.Errorf("sheet %s is left out before anyone says so", name)
		}
	}
	// A4 is the paper of ISO 216 and of metric tapes, Letter that of inch tapes.
	if got := s.Paper(); got != "A4" {
		t.Errorf("paper for a metric tape = %q, want A4", got)
	}
	if got := Open("#unit=in&room=14ftx12ft").Paper(); got != "letter" {
		t.Errorf("paper for an inch tape = %q, want letter", got)
	}
	address := s.Address()
	for _, a := range []Action{
		OpenSheets{true}, ChooseSheet{1, false}, ChooseSheet{7, false}, ChooseSheet{-1, false}, ChoosePaper{"letter"}, ChoosePaper{"A0"}, ChooseSheet{2, false}, ChooseSheet{2, true},
	} {
		var step Step
		if s, step = s.Do(a); step != Stay || s.Address() != address {
			t.Errorf("%T%+v changes the link", a, a)
		}
	}
	if !s.Sheets.Open || s.Paper() != "letter" || !s.Sheets.Printed(0) || s.Sheets.Printed(1) || !s.Sheets.Printed(2) || !s.Sheets.Printed(3) {
		t.Errorf("after all that: %+v", s.Sheets)
	}
	if s, _ = s.Do(GoTo{Stage: s.View.Stage}); s.Sheets.Open {
		t.Error("the sheets still cover the stage that was asked for")
	}
}
