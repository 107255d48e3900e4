package words

// Site is the texts of the controls of one mark or row at a time. The desk
// has those of the cards.
type Site struct {
	_                   incomparable
	OneMark, OneRow     string // opens it, on the stages
	Marks, Rows         string
	Back, Next          string
	Done, DoneOf        string // "{n} of {all} done"
	First               string
	Black, White        string // the ground to change to
	Aloud               string
	NoWake, WakeRefused string
	NoVoice             string
}

func englishSite() Site {
	return Site{
		OneMark:     "One mark at a time",
		OneRow:      "One row at a time",
		Marks:       "Marks",
		Rows:        "Rows",
		Back:        "Back",
		Next:        "Next",
		Done:        "Done",
		DoneOf:      "{n} of {all} done",
		First:       "First not done",
		Black:       "Black ground",
		White:       "White ground",
		Aloud:       "Read aloud",
		NoWake:      "This browser cannot keep the screen on. Set the device to a longer time until it darkens.",
		WakeRefused: "The device would not keep the screen on. It may be low on charge.",
		NoVoice:     "This browser has no voice to read with.",
	}
}
