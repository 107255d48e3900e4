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

	lengths bool   // whether the value holds lengths
	between string // what may stand between those
	read    func(s *settings, text string) (why string, ok bool)
}

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
		lengths: true, between: "x,;", read: readRoom},
	{Name: "hole", Form: "X,Y;X,Y;X,Y…", Default: "none", Example: "1400,3000;2600,3000;2600,3600;1400,3600",
		Meaning: "Corners of a hearth, column or island; up to 200 of them.",
		Want:    "at least three corners, such as 0,0;600,0;600,400;0,400",
		lengths: true, between: ",;", read: readHole, Repeatable: true},
	{Name: "gap", Form: "LENGTH", Default: "0", Example: "12",
		Meaning: "Expansion gap at every wall and hole.",
		Want:    "a length of 0 or more, such as 12mm or 1/2in", lengths: true, read: readGap},
	{Name: "border", Form: "LENGTH", Default: "0", Example: "127",
		Meaning: "Width of the border between the gap and the field.",
		Want:    "a length of 0 or more, such as 127mm or 5in", lengths: true, read: readBorder},
	{Name: "pattern", Form: "herringbone or chevron", Default: "herringbone", Example: "chevron",
		Meaning: "The pattern that is laid.",
		Want:    "herringbone or chevron", read: readPattern},
	{Name: "block", Form: "WIDTHxLENGTH", Default: "70mmx350mm", Example: "2-1/2inx15in",
		Meaning: "Size of a block; for chevron the length is taken along the long edge.",
		Want:    "a width and a length of more than 0, such as 70x350", lengths: true, between: "x", read: readBlock},
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
		Want:    "two lengths, such as 2100,1800", lengths: true, between: ",", read: readCentre},
	{Name: "shift", Form: "ACROSS,ALONG", Default: "0,0", Example: "-35,120",
		Meaning: "How far the pattern is moved from the centre point: to the right of the axis, and along it.",
		Want:    "two lengths, such as -35,120", lengths: true, between: ",", read: readShift},
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
