package words

// Survey is the texts about the room as it was taped.
type Survey struct {
	_                       incomparable
	ByTape, ByWalk          string
	TapeHelp, WalkHelp      string
	Line, Taped             string
	AddReading              string
	RemoveReading           string // "Leave out reading {n}"
	Off                     string // "the others make it {n}"
	Agrees, Unchecked       string
	Misfit, MisfitHelp      string
	Wall, Turn              string
	AddWall, RemoveWall     string
	Share, ShareNo, ShareIt string
	Closing                 string // "The walls come back {n} from where they began."

	Walls, WallsHelp string
	Bow, BowHelp     string
	Scribe           string
	GapHere          string
	BorderHere       string

	Doors, Door, AddDoor string // "Doorway {n}"
	RemoveDoor           string
	DoorWall, DoorAt     string
	DoorWidth, DoorName  string
	DoorHelp             string
	Joined, JoinedHelp   string
	Join, AddJoin        string // "Room {n}"
	RemoveJoin           string
	JoinWall, JoinDepth  string
	JoinRoom, JoinOther  string

	More              string // "And {n} more"
	Column, AddColumn string // "Round hole {n}"
	RemoveColumn      string
	ColumnX, ColumnY  string
	ColumnAcross      string

	Report               string
	ReportCorner, Angle  string
	OutOfSquare          string // "{n} in a metre"
	Square, NotSquare    string
	Diagonals, Differ    string // "they differ by {n}"
	Opposite, Parallel   string
	Apart                string // "{a} and {b}: {n} apart over their length"
	Check345             string
	Check345Text         string // "{a} along, {b} square to it: the diagonal measures {c}."
	Tolerance            string
	Strips, Strip        string
	LongPoint, ShortSide string
	MitreAt              string
	Sway                 string
	Pieces, Equal        string // "{n} × {length}"
	Repeat, RepeatHelp   string
	CloseTitle           string
	Closes, ClosesNot    string
	RepeatsOn, ApronOn   string // "Repeats on {walls}"
}

func englishSurvey() Survey {
	return Survey{
		ByTape:        "Walls and diagonals",
		ByWalk:        "Walls in turn",
		TapeHelp:      "Corners carry letters round the room, counter-clockwise. Tape every wall, and as many diagonals as cut the room into triangles; one more checks the tape.",
		WalkHelp:      "From corner A along each wall, with the turn at its end: L, R, or degrees to the left.",
		Line:          "From, to",
		Taped:         "Taped",
		AddReading:    "Add a reading",
		RemoveReading: "Leave out reading {n}",
		Off:           "the room makes it {n}",
		Agrees:        "agrees",
		Unchecked:     "unchecked",
		Misfit:        "Readings may disagree by",
		MisfitHelp:    "Past this the room is not laid out. Empty means 3 mm.",
		Wall:          "Wall {n}",
		Turn:          "turn",
		AddWall:       "Add a wall",
		RemoveWall:    "Leave out wall {n}",
		Share:         "What is left over",
		ShareNo:       "Last wall takes it",
		ShareIt:       "Shared out",
		Closing:       "The walls come back {n} away from where they began.",

		Walls:      "Single walls",
		WallsHelp:  "Only where a wall is bowed, or wants a gap or border of its own.",
		Bow:        "Bowed out by",
		BowHelp:    "in the middle; with a minus sign into the room",
		Scribe:     "Or ordinates from a string, with commas",
		GapHere:    "Gap here",
		BorderHere: "Border here",

		Doors:      "Doorways",
		Door:       "Doorway {n}",
		AddDoor:    "Add a doorway",
		RemoveDoor: "Take doorway {n} away",
		DoorWall:   "In wall",
		DoorAt:     "From its first corner",
		DoorWidth:  "Clear width",
		DoorName:   "To",
		DoorHelp:   "To the near jamb, then between the jambs.",
		Joined:     "Joined rooms",
		JoinedHelp: "A further room through a doorway, laid as one floor with this one. Its size is width x depth, or corners as x,y; x,y; x,y.",
		Join:       "Room {n}",
		AddJoin:    "Add a room",
		RemoveJoin: "Take room {n} away",
		JoinWall:   "Through wall",
		JoinDepth:  "Thickness of the wall",
		JoinRoom:   "Size of the further room",
		JoinOther:  "Its wall with the doorway",

		Column:       "Round hole {n}",
		More:         "And {n} more, which the link holds.",
		AddColumn:    "Add a round hole",
		RemoveColumn: "Take round hole {n} away",
		ColumnX:      "Middle, to the right",
		ColumnY:      "Middle, away from you",
		ColumnAcross: "Diameter",

		Report:       "What the tape says",
		ReportCorner: "Corner",
		Angle:        "Angle",
		OutOfSquare:  "{n} in a metre",
		Square:       "square",
		NotSquare:    "no right angle",
		Diagonals:    "Diagonals",
		Differ:       "they differ by {n}",
		Opposite:     "Opposite walls",
		Parallel:     "parallel",
		Apart:        "{a} and {b} run {n} apart",
		Check345:     "Squaring the lines",
		Check345Text: "{a} along the centre line and {b} square to it: the diagonal measures {c} when they are square.",
		Tolerance:    "How much is too much stands in the contract and in the rules where the job is.",
		Strips:       "Strips of the border",
		Strip:        "Strip",
		LongPoint:    "Wall side",
		ShortSide:    "Field side",
		MitreAt:      "Cut off square",
		Pieces:       "In equal pieces",
		Equal:        "{n} × {length}",
		Repeat:       "Repeat of the border",
		RepeatHelp:   "Of a border with a pattern: the length of what repeats, for the widths with which it closes at all corners. 0 for a plain one.",
		CloseTitle:   "Closing at the corners",
		Closes:       "With the outermost strip so wide, whole repeats run from corner to corner. It may change by an inch.",
		ClosesNot:    "No change of the outermost strip by an inch or less makes whole repeats run from corner to corner.",
		RepeatsOn:    "Repeats on {walls}",
		ApronOn:      "Outermost strip on {walls}",
		Sway:         "Corner {name} is the least sure: 1 mm on the tape moves it by {n} mm.",
	}
}
