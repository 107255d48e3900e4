package link

import (
	"slices"
	"strings"
)

// Key is one key of the grammar. The same entry reads the key and documents
// it, so neither can be changed without the other.
type Key struct {
	Name       string
	Form       string // what may stand behind the '='
	Meaning    string
	Default    string // what holds without the key
	Example    string
	Want       string // completes "has to be ..." in a fault
	Repeatable bool
	View       bool // a setting of the page and not part of the job

	lengths lengthsOf // nil for a value without any
	read    func(s *settings, text string) (why string, ok bool)
}

// lengthsOf returns a value with each of its lengths replaced.
type lengthsOf func(value string, replace func(length string) string) string

// keys is the grammar. Its order is the order of Keys, of a written link and
// of faults. unit stands before every key that holds a length, because the
// reading of those depends on it.
var keys = []Key{
	{Name: "v", Form: "1", Default: "1", Example: "1",
		Meaning: "Version of this grammar. A link once written opens in every later version.",
		Want:    "1", read: readVersion},
	{Name: "unit", Form: "mm or in", Default: "mm", Example: "in",
		Meaning: "Unit of every length without a unit mark, and of the readings.",
		Want:    "mm or in", read: readUnit},
	{Name: "fraction", Form: "16, 32 or 64", Default: "16", Example: "32",
		Meaning: "Smallest mark of an inch tape, as a part of an inch.",
		Want:    "16, 32 or 64", read: readFraction},
	{Name: "room", Form: "WIDTHxDEPTH or X,Y;X,Y;X,Y…", Default: "4200mmx3600mm", Example: "0,0;4200,0;4180,3600;0,3610",
		Meaning: "A rectangle with its near left corner at 0,0, or the corners in order, either way round; 3 to 2000 corners.",
		Want:    "a width and a depth, such as 4200x3600, or at least three corners, such as 0,0;4200,0;4200,3600;0,3600",
		lengths: every("x,;"), read: readRoom},
	{Name: "tape", Form: "CORNERS:LENGTH;CORNERS:LENGTH…", Default: "none", Example: "AB:4200;BC:3600;CD:4195;DA:3610;AC:5530",
		Meaning: "Used instead of room: taped walls and diagonals, each by the letters of its two corners.",
		Want:    "walls and diagonals with their lengths, such as AB:4200;BC:3600;CD:4195;DA:3610;AC:5530", lengths: every(";:"), read: readTape},
	{Name: "walk", Form: "LENGTH;TURN;LENGTH;TURN…", Default: "none", Example: "4200;L;3600;L;4195;L;3610;L",
		Meaning: "Used instead of room: walls in turn, each with the turn at its end: L, R, or degrees to the left.",
		Want:    "walls in turn with the turn at the end of each, such as 4200;L;3600;L;4195;L;3610;L", lengths: walkLengths, read: readWalk},
	{Name: "share", Form: "yes or no", Default: "no", Example: "yes",
		Meaning: "Whether the closing error of walk is shared out among the walls; else the last wall takes it.",
		Want:    "yes or no", read: readShare},
	{Name: "misfit", Form: "LENGTH", Default: "3mm", Example: "5",
		Meaning: "How far the readings of tape may disagree, and walk may miss its first corner.",
		Want:    "a length of more than 0, such as 5mm or 1/8in", lengths: every(""), read: readMisfit},
	{Name: "join", Form: "WALL:AT,WIDTH,DEPTH:WALL:AT:ROOM", Default: "none", Example: "BC:1200,813,120:DA:900:3000x2500",
		Meaning: "A further room laid as one with the rest: the wall its doorway leads through, the distance from that wall's first corner to the near jamb, clear width and depth of the doorway; then the wall and distance in the further room, and that room, as in room.",
		Want:    "a doorway, its place in the further room and that room, such as BC:1200,813,120:DA:900:3000x2500", lengths: every(":,;x"), read: readJoin, Repeatable: true},
	{Name: "hole", Form: "X,Y;X,Y;X,Y…", Default: "none", Example: "1400,3000;2600,3000;2600,3600;1400,3600",
		Meaning: "Corners of a hearth, column or island; up to 200 of them.",
		Want:    "at least three corners, such as 0,0;600,0;600,400;0,400",
		lengths: every(",;"), read: readHole, Repeatable: true},
	{Name: "column", Form: "X,Y,DIAMETER", Default: "none", Example: "2400,1800,350",
		Meaning: "A round hole: the middle of a column and its diameter.",
		Want:    "the middle and the diameter, such as 2400,1800,350", lengths: every(","), read: readColumn, Repeatable: true},
	{Name: "bow", Form: "WALL:RISE", Default: "none", Example: "BC:120",
		Meaning: "A wall that is an arc: how far its middle lies off the straight line between its corners, out of the room, or into it with a minus sign.",
		Want:    "a wall and its rise, such as BC:120 or BC:-40", lengths: every(":"), read: readBow, Repeatable: true},
	{Name: "scribe", Form: "WALL:LENGTH,LENGTH,LENGTH…", Default: "none", Example: "AB:0,3,8,11,8,3,0",
		Meaning: "A wall that is not straight: its distances into the room from the straight line between its corners, at equal spaces from the first corner to the last; up to 200 of them.",
		Want:    "a wall and its ordinates, such as AB:0,3,8,3,0", lengths: every(":,"), read: readScribe, Repeatable: true},
	{Name: "door", Form: "WALL:AT,WIDTH or WALL:AT,WIDTH,NAME", Default: "none", Example: "AB:1200,813,hall",
		Meaning: "A doorway: from the wall's first corner to the near jamb, the clear width, and a name.",
		Want:    "a wall, a distance along it and a width, such as AB:1200,813 or AB:1200,813,hall", lengths: doorLengths, read: readDoor, Repeatable: true},
	{Name: "window", Form: "WALL:AT,WIDTH, then ,SILL,HEIGHT and ,NAME", Default: "none", Example: "BC:900,1200,850,1300,south",
		Meaning: "A window, for its light: from the wall's first corner, its width, its height above the floor and from there to its head (900mm and 1200mm if not given), and a name.",
		Want:    "a wall, a distance along it and a width, such as BC:900,1200 or BC:900,1200,850,1300,south", lengths: windowLengths, read: readWindow, Repeatable: true},
	{Name: "gap", Form: "LENGTH or LENGTH;WALL:LENGTH;WALL:LENGTH…", Default: "0", Example: "12;AB:10;CD:15",
		Meaning: "Expansion gap at every wall and hole, then at single walls.",
		Want:    "a length of 0 or more, such as 12mm or 1/2in, then other walls if any, such as 12;AB:10", lengths: every(";:"), read: readGap},
	{Name: "border", Form: "LENGTH or LENGTH+LENGTH…, then ;WALL:LENGTH…", Default: "0", Example: "38+13+57;AB:90",
		Meaning: "Width of the border between the gap and the field, or of each of its strips from the wall inward, up to 20; then the whole width along single walls.",
		Want:    "a length of 0 or more, such as 127mm or 5in, or the strips from the wall inward, such as 38+13+57, then other walls if any, such as 110;AB:90", lengths: every(";:+"), read: readBorder},
	{Name: "pattern", Form: "herringbone or chevron", Default: "herringbone", Example: "chevron",
		Meaning: "The pattern that is laid.",
		Want:    "herringbone or chevron", read: readPattern},
	{Name: "block", Form: "WIDTHxLENGTH", Default: "70mmx350mm", Example: "2-1/2inx15in",
		Meaning: "Size of a block; for chevron the length is taken along the long edge.",
		Want:    "a width and a length of more than 0, such as 70x350", lengths: every("x"), read: readBlock},
	{Name: "strands", Form: "1, 2 or 3", Default: "1", Example: "2",
		Meaning: "Blocks laid side by side in herringbone: single, double or triple.",
		Want:    "1, 2 or 3", read: readStrands},
	{Name: "mitre", Form: "DEGREES", Default: "45", Example: "60",
		Meaning: "Chevron: angle between a block's long edge and the axis, 25 to 75.",
		Want:    "from 25 to 75 degrees, such as 45 or 52.5", read: readMitre},
	{Name: "axis", Form: "DEGREES", Default: "0", Example: "-2.5",
		Meaning: "Direction of the spine: straight away from the near wall, turned counter-clockwise; -360 to 360.",
		Want:    "from -360 to 360 degrees, such as 0 or 22.5", read: readAxis},
	{Name: "centre", Form: "X,Y", Default: "the middle of the outline's bounding box", Example: "2100,1750",
		Meaning: "Centre point of the floor.",
		Want:    "two lengths, such as 2100,1800", lengths: every(","), read: readCentre},
	{Name: "line", Form: "axis, midway:WALL:WALL, square:WALL, wall:WALL, door:NUMBER, hole:NUMBER or through:X,Y:X,Y", Default: "axis", Example: "midway:AB:CD",
		Meaning: "Where the centre line comes from: the keys axis and centre; midway between two walls; square to a wall, through the centre; square to a wall at its middle; square through a doorway's middle; along the axis through a hole's middle; through two points.",
		Want:    "axis, midway:AB:CD, square:AB, wall:AB, door:1, hole:1 or through:0,0:0,3600", lengths: lineLengths, read: readLine},
	{Name: "shift", Form: "ACROSS,ALONG", Default: "0,0", Example: "-35,120",
		Meaning: "How far the pattern is moved from the centre point: to the right of the axis, and along it.",
		Want:    "two lengths, such as -35,120", lengths: every(","), read: readShift},
	{Name: "start", Form: "centre or wall", Default: "centre", Example: "wall",
		Meaning: "Where the first blocks are laid.",
		Want:    "centre or wall", read: readStart},

	{Name: "show", Form: "none, or any of centre,working,diagonals,border,start", Default: "centre,working,diagonals,border,start", Example: "centre,working",
		Meaning: "Which lines are drawn over the floor.",
		Want:    "none, or some of centre,working,diagonals,border,start with commas between", View: true, read: readShow},
	{Name: "laid", Form: "NUMBER", Default: "every block", Example: "40",
		Meaning: "How many blocks are shown as laid.",
		Want:    "a whole number of blocks, 0 or more", View: true, read: readLaid},
	{Name: "speed", Form: "NUMBER", Default: "12", Example: "2.5",
		Meaning: "Blocks laid in a second when the laying is played; more than 0, up to 1000.",
		Want:    "more than 0 and up to 1000 blocks a second, such as 12", View: true, read: readSpeed},
	{Name: "stage", Form: "measure, choose, strike or lay", Default: "measure", Example: "strike",
		Meaning: "The stage of the work that is open.",
		Want:    "measure, choose, strike or lay", View: true, read: readStage},
	{Name: "paint", Form: "auto, webgl or canvas", Default: "auto", Example: "canvas",
		Meaning: "What paints the floor.",
		Want:    "auto, webgl or canvas", View: true, read: readPaint},
	{Name: "repeat", Form: "LENGTH", Default: "0", Example: "114",
		Meaning: "Length of what repeats along the border, for the widths with which it closes at the corners; 0 for a plain border.",
		Want:    "a length of 0 or more, such as 114mm or 4-1/2in", lengths: every(""), View: true, read: readRepeat},
	{Name: "sliver", Form: "LENGTH", Default: "20mm", Example: "15",
		Meaning: "Width under which a cut piece counts as a sliver.",
		Want:    "a length of 0 or more, such as 20mm or 3/4in", lengths: every(""), View: true, read: readSliver},
	{Name: "same", Form: "LENGTH", Default: "0.5mm", Example: "1",
		Meaning: "Cut pieces that differ by no more than this are listed as equal.",
		Want:    "a length of 0 or more, such as 0.5mm or 1/32in", lengths: every(""), View: true, read: readSame},
	{Name: "mark", Form: "LENGTH", Default: "0.8mm", Example: "0.5",
		Meaning: "Error of one mark, for how far lines may run out.",
		Want:    "a length of 0 or more, such as 0.8mm or 1/32in", lengths: every(""), View: true, read: readMark},
	{Name: "face", Form: "work, site, show or lesson", Default: "work", Example: "show",
		Meaning: "What the page is for now: the work, one mark or row at a time on site, the picture alone, or the lesson.",
		Want:    "work, site, show or lesson", View: true, read: readFace},
	{Name: "wood", Form: "a species", Default: "oak", Example: "walnut",
		Meaning: "What the floor is made of: oak, ash, beech, birch, maple, walnut, cherry, elm, chestnut, larch, teak or wenge.",
		Want:    "one of the species that are known here, such as oak or walnut", View: true, read: readWood},
	{Name: "borderwood", Form: "same or a species", Default: "same", Example: "walnut",
		Meaning: "What the border is made of.",
		Want:    "same, or one of the species that are known here, such as walnut", View: true, read: readBorderWood},
	{Name: "grade", Form: "mixed, calm or lively", Default: "mixed", Example: "calm",
		Meaning: "How much the blocks differ from each other.",
		Want:    "mixed, calm or lively", View: true, read: readGrade},
	{Name: "finish", Form: "oiled, raw or lacquered", Default: "oiled", Example: "lacquered",
		Meaning: "What is on the wood.",
		Want:    "oiled, raw or lacquered", View: true, read: readFinish},
	{Name: "tone", Form: "natural, smoked or limed", Default: "natural", Example: "smoked",
		Meaning: "What the wood went through before it was finished.",
		Want:    "natural, smoked or limed", View: true, read: readTone},
	{Name: "edge", Form: "bevelled or square", Default: "bevelled", Example: "square",
		Meaning: "How the blocks' edges are left.",
		Want:    "bevelled or square", View: true, read: readEdge},
	{Name: "joint", Form: "natural, dark or light", Default: "natural", Example: "dark",
		Meaning: "Colour of what shows between blocks.",
		Want:    "natural, dark or light", View: true, read: readJoint},
	{Name: "light", Form: "sun:DIRECTION,HEIGHT, day:HOUR, window:NUMBER or lamp", Default: "sun:305,32", Example: "day:15.5",
		Meaning: "Where the light comes from: a sun, its direction in degrees clockwise from straight away from the near wall, and its height above the floor, 1 to 90 degrees; the sun at an hour of a day, 6 to 18; a window; a lamp over the middle of the room.",
		Want:    "sun with a direction and a height, such as sun:305,32, or day:15.5, window:1 or lamp", View: true, read: readLight},
	{Name: "north", Form: "DEGREES", Default: "0", Example: "40",
		Meaning: "Where north is, for the sun at an hour: clockwise from straight away from the near wall, 0 to 360.",
		Want:    "from 0 to 360 degrees, such as 40", View: true, read: readNorth},
	{Name: "view", Form: "plan or standing", Default: "plan", Example: "standing",
		Meaning: "Whether the picture shows the floor from above, or as one who stands in the room sees it.",
		Want:    "plan or standing", View: true, read: readSeen},
	{Name: "eye", Form: "X,Y,HEIGHT", Default: "inside the first doorway, or in a corner, 1600mm up", Example: "600mm,500mm,1600mm",
		Meaning: "Where one stands in the room, and how high the eye is: 100mm to 2400mm.",
		Want:    "a place in the room and a height of 100mm to 2400mm, such as 600,500,1600", lengths: every(","), View: true, read: readEye},
	{Name: "looking", Form: "DIRECTION,DOWN", Default: "to the middle of the room", Example: "45,20",
		Meaning: "Which way one looks: degrees clockwise from straight away from the near wall, 0 to 360, and below level, -30 to 80.",
		Want:    "a direction of 0 to 360 degrees and -30 to 80 degrees below level, such as 45,20", View: true, read: readLooking},
	{Name: "beside", Form: "KEY%3DVALUE%26KEY%3DVALUE…", Default: "none", Example: "block=90x600",
		Meaning: "Another choice to compare with: the keys in which it differs, of border, pattern, block, strands, mitre, axis, centre, line, shift, wood, borderwood, grade, finish, tone, edge and joint. A key alone means its default. A = is written %3D and a & between two keys %26.",
		Want:    "keys of the floor with their values, such as wood%3Dash", View: true},
	{Name: "step", Form: "NUMBER", Default: "1", Example: "3",
		Meaning: "The lesson's step that is open.",
		Want:    "a whole number from 1 to 99", View: true, read: readStep},
	{Name: "ask", Form: "NUMBER", Default: "0", Example: "7",
		Meaning: "The lesson's question that is asked instead of a step: the same number asks the same again, 0 none.",
		Want:    "a whole number from 0 to 999999", View: true, read: readAsk},
	{Name: "host", Form: "any or ORIGIN", Default: "any", Example: "https://school.example",
		Meaning: "The only origin whose page may steer this one by messages when it is framed; read once, as the page opens.",
		Want:    "any, or an origin such as https://school.example", View: true, read: readHost},
	{Name: "lang", Form: "en", Default: "en", Example: "en",
		Meaning: "Language of the page.",
		Want:    "en", View: true, read: readLang},
}

// Keys returns every key of the grammar, in the order of a written link.
func Keys() []Key { return slices.Clone(keys) }

// rank returns where the table has the key, or -1.
func rank(name string) int {
	return slices.IndexFunc(keys, func(k Key) bool { return k.Name == name })
}

// Table returns the keys as a Markdown table.
func Table() string {
	var b strings.Builder
	b.WriteString("| Key | Form | Meaning | Default | Example | Repeats |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- |\n")
	for _, k := range keys {
		repeats := "no"
		if k.Repeatable {
			repeats = "yes"
		}
		for _, cell := range []string{"`" + k.Name + "`", k.Form, k.Meaning, k.Default, "`" + k.Name + "=" + k.Example + "`", repeats} {
			b.WriteString("| " + cell + " ")
		}
		b.WriteString("|\n")
	}
	return b.String()
}
