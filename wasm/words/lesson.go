package words

// Lesson is the texts of the lesson's controls, and what the page says to one
// that frames it. The desk has the lesson itself.
type Lesson struct {
	_                         incomparable
	Steps, Ask                string
	Back, Repeat, Stop, Next  string
	Play                      string
	OwnPage, OwnHelp, Snippet string
	NotVersion, NotKnown      string
	TooLong, TooMany          string
	NoStep, NoSeed            string
}

func englishLesson() Lesson {
	return Lesson{
		Steps:      "Steps",
		Ask:        "Try it yourself",
		Back:       "Back",
		Repeat:     "Repeat",
		Stop:       "Stop",
		Play:       "Play",
		Next:       "Next",
		OwnPage:    "For a page of your own",
		OwnHelp:    "Paste this where the floor is to stand. Width, height and lang are yours to change.",
		Snippet:    "Text to paste",
		NotVersion: "This page speaks version 1: keelrow has to be 1.",
		NotKnown:   "“do” has to be open, step, ask, play, pause, repeat, next, back, figures or link.",
		TooLong:    "The link has to be a text of less than 64 kB.",
		TooMany:    "More than 30 messages in a second: the rest of this second is not read.",
		NoStep:     "step has to be a whole number from 1 to 99.",
		NoSeed:     "ask has to be a whole number from 1 to 999999.",
	}
}
