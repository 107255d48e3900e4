package words

// Marks is the texts about lines, marks, leftovers, rows to check and cuts.
type Marks struct {
	_ incomparable
	// Where the centre line comes from.
	LineFrom, LineHelp            string
	LineAxis, LineMidway          string
	LineSquare, LineWall          string
	LineDoor, LineHole            string
	LineThrough                   string
	LineOfWall, LineOtherWall     string
	LineOfDoor, LineOfHole        string
	LineFirst, LineSecond, LineXY string

	// Marks.
	Title, Means, BowedMeans string
	CentreCross, TheSpine    string // "{seam}, the spine's"
	Diagonals                string
	LeftLine, RightLine      string
	ClimbsLeft, ClimbsRight  string
	Part                     string // "{line}, part {n}"
	Show                     string // "Show on the plan: {line}"
	Hook                     string // "{wall} from {corner}"
	OffTheWall               string
	FirstEnd, SecondEnd      string

	// Trammel and base lines.
	Trammel, SetTo, Times, MissesBy string
	TrammelHelp                     string
	Bases, BaseHelp, Marking        string
	Base, BaseLong, FarWall, RunOut string
	BaseOn, BaseRight, BaseLeft     string // "Longest line, {n} right of the centre line"
	SeenAlong, SeenAcross           string
	OffRight, OffLeft, OffMiddle    string

	// Leftovers.
	Leftovers, LeftoversHelp  string
	Sliver, Slivers, NoPieces string
	Narrowest, Widest, Taper  string
	TaperHelp                 string
	Faces                     [4]string // left, right, near, far
	Compare, CompareHelp      string
	Take, Taken               string // "Take: {placing}"

	// Starting block.
	StartBlock, StartSide, StartPoints string
	StartHigh, StartHalf, StartOnLine  string
	StartLine                          string // "from wall {wall}, along the line that meets it {length} from {corner}"
	StartDry, StartDryChevron          string
	StartPicture                       string

	// Rows.
	RowsHelp, RowLong, TipToWall string
	SeamToWall                   string // "seam to {wall}"
	ThenAtTip, AtBoth            string // "{first}, then {last}", "{n} at both"
	Down, RowDown, StripDown     string
	OneHand                      string // "{hand} hand"

	// Cuts.
	Same, CutPicture string
}

func englishMarks() Marks {
	return Marks{
		LineFrom:      "Centre line",
		LineHelp:      "Take it from what the eye will judge the floor by. A centre point that is given moves along the line.",
		LineAxis:      "By centre point and turn",
		LineMidway:    "Midway between two walls",
		LineSquare:    "Square to a wall, through the centre point",
		LineWall:      "Square to a wall, at its middle",
		LineDoor:      "Through a doorway's middle",
		LineHole:      "Through the middle of a hearth or column",
		LineThrough:   "Through two points",
		LineOfWall:    "Wall",
		LineOtherWall: "Other wall",
		LineOfDoor:    "Doorway",
		LineOfHole:    "Hearth or column",
		LineFirst:     "First point",
		LineSecond:    "Second point",
		LineXY:        "to the right, away from you",

		Title:       "Marks",
		Means:       "Hook the tape once on each wall's first corner and read every mark along that wall from there, so that no rounding adds to another. Press a line to see it on the plan.",
		BowedMeans:  "Along a bowed wall, mark on a string from corner to corner and square off from it to the wall.",
		CentreCross: "Centre and cross",
		TheSpine:    "{seam}, the spine's",
		Diagonals:   "Diagonals",
		LeftLine:    "left line",
		RightLine:   "right line",
		ClimbsLeft:  "up to the left",
		ClimbsRight: "up to the right",
		Part:        "{line}, part {n}",
		Show:        "Show on the plan: {line}",
		Hook:        "{wall} from {corner}",
		OffTheWall:  "off the wall",
		FirstEnd:    "One end",
		SecondEnd:   "Other end",

		Trammel:     "Trammel",
		SetTo:       "Set to",
		Times:       "Times here",
		MissesBy:    "Last mark misses by",
		TrammelHelp: "Set to the tape's mark and stepped over this room, it ends so far from where it should. Where that shows, read each mark from one hook.",
		Bases:       "Base lines",
		BaseHelp:    "How far a line set out from each may run out at the wall farthest from it, if both of its marks are off by the error of one, each to its side.",
		Marking:     "Error of one mark",
		Base:        "Base",
		BaseLong:    "Length",
		FarWall:     "To far wall",
		RunOut:      "Runs out by",
		BaseOn:      "Longest line: the centre line",
		BaseRight:   "Longest line, {n} right of the centre line",
		BaseLeft:    "Longest line, {n} left of the centre line",
		SeenAlong:   "You look along the rows: the nearest seam is {off}.",
		SeenAcross:  "You look across the rows: the nearest step is {off}.",
		OffRight:    "{n} right of the doorway's middle",
		OffLeft:     "{n} left of the doorway's middle",
		OffMiddle:   "on the doorway's middle",

		Leftovers:     "What is left at the walls",
		LeftoversHelp: "How far the cut pieces that come again and again along a wall reach in from it. Slivers count those in corners too.",
		Sliver:        "Sliver: narrower than",
		Slivers:       "Slivers",
		NoPieces:      "none",
		Narrowest:     "Least",
		Widest:        "Most",
		Taper:         "Taper",
		TaperHelp:     "Taper is how much more is left at the wall's last corner than at its first.",
		Faces:         [4]string{"left", "right", "near", "far"},
		Compare:       "The four placings side by side",
		CompareHelp:   "The least that is left on each side of the floor.",
		Take:          "Take: {placing}",
		Taken:         "Take",

		StartBlock:      "Starting block",
		StartSide:       "Side",
		StartPoints:     "Point to point",
		StartHigh:       "Along the axis",
		StartHalf:       "Half, for side rows",
		StartOnLine:     "Along its line",
		StartLine:       "from {wall}, which the line meets {length} from {corner}",
		StartDry:        "Dry lay: after {units} blocks in each of the two strands, {blocks} in all, the middle of the next block's end has to be on the centre point.",
		StartDryChevron: "Dry lay: after {units} pairs, {blocks} blocks in all, the point of the next V has to be on the centre point.",
		StartPicture:    "The starting block, and the half for side rows",

		RowsHelp:   "Measure when a row is down. The tip's figure is from the row's last tip along its line to the wall ahead; the seam's are from the row's outer seam square to the wall, abreast of its first and last tips: it is the wall that is crooked where they differ.",
		RowLong:    "first to last tip",
		TipToWall:  "last tip to {wall}",
		SeamToWall: "seam to {wall}",
		ThenAtTip:  "{first}, then {last}",
		AtBoth:     "{n} at both",
		Down:       "Down",
		RowDown:    "Row {n} is down",
		StripDown:  "Strip {n} is down",
		OneHand:    "{hand} hand",

		Same:       "Alike within",
		CutPicture: "Piece {mark} in its block, the stop on the left",
	}
}
