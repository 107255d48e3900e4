package onsite

import "keelrow/engine/length"

// Texts is what stands on the cards and is said aloud, in one language.
type Texts struct {
	MarkOf, RowOf       string // "Mark {n} of {all}"
	OnWall, HookAt      string
	ThenOff, For, Bowed string
	MarksDone, LastMark string
	RowsDone, LastRow   string
	Blocks              string // "{full} full, {cut} cut"
	TipTo               string
	SeamBoth            string // the seam's distance to a wall, the same at both ends of the row
	SeamFirst, SeamLast string // and at one of them
	Pieces, Watch       string
	Minus               string

	Number func(n int) string            // in words
	Spoken func(r length.Reading) string // a reading in words
}

// In returns the texts of a language, English where there are none.
func In(lang string) *Texts { return &english }

var english = Texts{
	MarkOf:    "Mark {n} of {all}",
	RowOf:     "Row {n} of {all}",
	OnWall:    "Wall {wall}",
	HookAt:    "Hook at corner {corner}",
	ThenOff:   "Then square off the wall",
	For:       "For: {line}",
	Bowed:     "The wall bows: mark on a string from corner to corner and square off from it.",
	MarksDone: "Every mark is done. Strike the lines, and check the first pair against each other before the first block.",
	LastMark:  "That was the last mark. Some are not done yet.",
	RowsDone:  "Every row is down.",
	LastRow:   "That was the last row. Some are not done yet.",
	Blocks:    "{full} full, {cut} cut",
	TipTo:     "Last tip to wall {wall}",
	SeamBoth:  "Seam to wall {wall}, both ends",
	SeamFirst: "Seam to wall {wall}, at the first tip",
	SeamLast:  "Seam to wall {wall}, at the last tip",
	Pieces:    "Pieces from the cut list: {list}",
	Watch:     "Measure before the glue takes. The tips stay on their line.",
	Minus:     "minus",
	Number:    number,
	Spoken:    spoken,
}
