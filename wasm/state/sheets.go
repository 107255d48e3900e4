package state

import "keelrow/engine/length"

// SheetNames is the sheets there are to print, in order.
var SheetNames = [...]string{"survey", "striking", "laying", "cuts"}

// Sheets is what is to be printed. It is kept as long as the page is open and
// not in the link: paper is a matter of the printer, not of the job.
type Sheets struct {
	Open  bool                  // shown in place of the stage
	left  [len(SheetNames)]bool // sheets that are left out
	paper string
}

// Printed says whether a sheet is to be printed.
func (s Sheets) Printed(sheet int) bool { return !s.left[sheet] }

// Paper returns the paper that was chosen, or the one that goes with the tape.
func (s State) Paper() string {
	switch {
	case s.Sheets.paper != "":
		return s.Sheets.paper
	case s.Unit() == length.Inches:
		return "letter"
	}
	return "A4"
}

// OpenSheets shows what there is to print, or the stage again.
type OpenSheets struct{ Open bool }

func (a OpenSheets) apply(s State) (State, Step) {
	s.Sheets.Open, s.Jobs = a.Open, false
	return s, Stay
}

// ChooseSheet takes a sheet or leaves it out.
type ChooseSheet struct {
	Sheet int
	On    bool
}

func (a ChooseSheet) apply(s State) (State, Step) {
	if a.Sheet >= 0 && a.Sheet < len(SheetNames) {
		s.Sheets.left[a.Sheet] = !a.On
	}
	return s, Stay
}

// ChoosePaper takes a paper: A4 or letter.
type ChoosePaper struct{ Paper string }

func (a ChoosePaper) apply(s State) (State, Step) {
	if a.Paper == "A4" || a.Paper == "letter" {
		s.Sheets.paper = a.Paper
	}
	return s, Stay
}
