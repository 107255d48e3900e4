package teach

import (
	"strconv"

	"keelrow/wasm/words"
)

// Part is the texts of one step: its title, and what it says, a paragraph
// each. Names in braces are filled in with the numbers of the floor.
type Part struct {
	Title string
	Say   []string
}

// Count is a text for one thing and one for any other number of them.
type Count struct{ One, Many string }

func (c Count) of(n int) string {
	if n == 1 {
		return words.Fill(c.One, "n", "1")
	}
	return words.Fill(c.Many, "n", strconv.Itoa(n))
}

// Texts is every text of the lesson in one language.
type Texts struct {
	StepOf, AllSteps         string
	Exactly                  string // "{mark} ({exact} exactly)"
	Pairs, SeamLines, Blocks Count

	Angle, Ratio, Measure, Pythagoras, Interval, Lines, Point, Block Part
	Mitre, Tips, ChevronStep, Rise, ChevronInterval, Seams, Wedges   Part
	Spine, Sides, Infill, Border, Edges                              Part

	RatioWhole, RatioNot                   string
	Spacing, IntervalName, Step, RiseName  string
	Half, UnitOf                           string
	StepsBack                              string
	MarkAt                                 string // "{line}: wall {wall}, {reading} from corner {corner}"
	CentreLine                             string
	FromWall                               string
	SpineRun, SeamToWall                   string
	SidesSum, CutSum                       string
	LeftRight, NearFar, And                string
	NoSides, NoInfill, NoBorder, NoCuts    string
	Caution                                string
	Wall, Narrowest, Widest                string
	EdgesEven, EdgesUneven, EdgesEvenShift string

	// Questions.
	Question, Given, GivenChevron string
	Strands                       [3]string
	Asked                         [kinds]Asked
	Answer, Check, Another        string
	Right, RightMark              string
	TooLong, TooShort, WrongUnit  string
	NotALength, Working, Score    string
	Slips                         [slips]string
}

// Asked is one kind of question: what is asked, and what the word means.
type Asked struct{ Question, Means string }

// In returns the texts of a language, English where there are none.
func In(lang string) *Texts { return &english }

var english = Texts{
	StepOf:    "Step {n} of {all}",
	AllSteps:  "All steps",
	Exactly:   "{mark} ({exact} exactly)",
	Pairs:     Count{"{n} pair of working lines", "{n} pairs of working lines"},
	SeamLines: Count{"{n} line", "{n} lines"},
	Blocks:    Count{"{n} block", "{n} blocks"},

	Angle: Part{"Why 45 degrees", []string{
		"In a herringbone the end of every block meets the side of the next, square, at 90 degrees.",
		"The rows are to run straight up the room. So the centre line halves that square corner, and each block lies at half of 90: {angle} degrees to the line.",
		"One block leans to the left and the next to the right by the same angle. That is why both are set by one line.",
	}},
	Ratio: Part{"How long for how wide", []string{
		"These blocks are {width} wide and {length} long. {length} ÷ {unit} = {ratio}: so many widths go into the length.",
	}},
	UnitOf:     "{n} blocks lie side by side here and count as one, {unit} wide.",
	RatioWhole: "It is a whole number. So the zigzags of every other row stand side by side at the same height, and the pattern can end alike at opposite walls.",
	RatioNot:   "It is not a whole number. The zigzags of every other row miss each other by {miss}, and from the usual starting point the two end walls come out unlike. Lengths of {shorter} or {longer} would line up.",
	Measure: Part{"The spacing, measured", []string{
		"Draw a square with sides of {unit}, as wide as a block, and measure it from corner to corner: {diagonal}. By that much each block moves the row along. It is called the step.",
		"The leading corners of the blocks, their tips, stand left and right of the middle of the zigzag in turn, half a step further on each time. At 45 degrees as far along is as far across: half a step from side to side.",
		"So each side is a quarter of the diagonal away from the middle: {diagonal} ÷ 4. This is the spacing.",
	}},
	Pythagoras: Part{"The spacing, worked out", []string{
		"The diagonal is the long side of a right-angled triangle. By the theorem of Pythagoras, the squares on its two short sides add up to the square on the long one.",
		"A quarter of {diagonal} is {spacing}. The tape said {measured}: the two agree to {apart}.",
	}},
	Interval: Part{"The interval", []string{
		"From the middle of one zigzag to the middle of the next is one interval. A block reaches across it from one to the other, at 45 degrees.",
		"So the block, {length} long, is the diagonal of a square whose side is the interval. Divide by √2, which is 1.41421: that is {interval}.",
	}},
	Lines: Part{"Centre line and working lines", []string{
		"Strike the centre line first; everything else is measured from it. It is the middle of the first row's zigzag.",
		"Then strike a line on each side of it, {spacing} away. These are the working lines: the tips of the blocks run on them, never on the centre line.",
		"The next pair follows one interval of {interval} on. This floor has {pairs}, each measured from one hook of the tape so that rounding does not add up.",
	}},
	Point: Part{"The diagonals and the starting point", []string{
		"Through the centre point strike two lines at 45 degrees to the centre line. Along these the first blocks lie.",
		"Where the right working line meets the diagonal, behind the centre point, the first tip stands: {across} to the right and {back} back. It is the point of the starting block.",
	}},
	StepsBack: "This floor starts from the wall: the point stands {n} whole steps further back, {n} × {step} = {total}.",
	FromWall:  "Check it from wall {wall}",
	Block: Part{"The starting block", []string{
		"Cut a true square of board with sides of {length}, as long as a block. Its diagonal checks it: {diagonal} both ways.",
		"Set one corner on the starting point, the diagonal along the centre line, and fix it so that it cannot move. The first two blocks are pushed against it; every later error begins here.",
		"It comes up again when the rows stand.",
	}},
	Spine: Part{"The first row", []string{
		"The first block lies along the starting block, the second butts against its end, and so on, left and right in turn. This row is the spine: {full} whole blocks and {cut} cut.",
		"Watch the tips. Those of one side run on the right working line and those of the other on the left, one step of {step} after the other.",
		"Lay it dry first. What this row is out, every row after it will be out.",
	}},
	SpineRun: "After {n} blocks on one side the tip stands {n} × {step} = {total} further on.",
	Half:     "The starting block, sawn along its diagonal, gives two triangles with short sides of {length}. They start the later rows, one on each side.",
	Sides: Part{"The rows on both sides", []string{
		"Rows follow on the right and on the left in turn, each between its own working lines: {rows} rows with {blocks} blocks.",
		"Push every block home against the row before it, and measure from the row to the wall at both ends before the glue takes.",
	}},
	NoSides: "In this room the spine is the only row.",
	Infill: Part{"What lies behind the start", []string{
		"When the rows stand, the starting blocks come up. The same rows go on backward over their place to the wall: {rows} rows with {blocks} blocks.",
		"Blocks whose grooves face the wrong way here need a loose tongue, a spline.",
	}},
	NoInfill: "On this floor nothing lies behind the starting blocks: they stand at the wall.",
	Border: Part{"Border and cut", []string{
		"The wood moves with the air, so a gap of {gap} stays open at the walls. A border of {border} comes next, and the pattern ends at the border line.",
		"The area that the pattern covers is {field} m² of the room's {room} m². {cut} of {all} blocks meet the border line and are cut.",
	}},
	NoBorder: "The wood moves with the air, so a gap of {gap} stays open at the walls. There is no border here: the pattern runs up to the gap.",
	NoCuts:   "The area that the pattern covers is {field} m² of the room's {room} m². No block has to be cut.",
	Caution:  "Saws and their dust hurt. Guard on, eyes, ears and lungs protected, hands clear; follow the saw's instructions and the rules where you work.",
	Edges: Part{"Balanced edges", []string{
		"What is left at opposite walls should be alike. The eye sees at once when it is not.",
	}},
	EdgesEven:      "On this floor it is: left and right, and near and far, the pieces come out alike.",
	EdgesUneven:    "On this floor {pairs} differ. Crooked walls or a moved pattern do that, and so does a room with arms or a chimney breast.",
	EdgesEvenShift: "The Strike stage has four balanced placings to try; small slivers at a wall are the first thing to move away from.",

	Mitre: Part{"Why the ends are mitred", []string{
		"In a chevron the ends of the blocks meet in one straight line, the seam. Each block lies at {angle} degrees to it.",
		"So each end is cut at {angle} degrees to the long side. The two blocks of a V are mirror images: a left-hand and a right-hand block.",
	}},
	Tips: Part{"The length of a block", []string{
		"Along its long edge a block measures {length}, and it is {width} wide. The slanted end reaches {more} further.",
		"So it takes a board of {total} from tip to tip. Both long edges are equally long: the block is a parallelogram.",
	}},
	ChevronStep: Part{"The step", []string{
		"The slanted end lies on the seam, one above the other. Its length is what each block moves the row along: the step.",
		"The width, {width}, is measured square across; the end runs slanted over it and so is longer: {step}.",
	}},
	Rise: Part{"The rise", []string{
		"From one seam to the next a block climbs along the seam. This is the rise: {rise}.",
		"It is the second short side of the triangle whose long side is the block's edge, {length}.",
	}},
	ChevronInterval: Part{"The interval", []string{
		"From one seam to the next is one interval. It is how far a block reaches across.",
		"With an edge of {length} at {angle} degrees that is {interval}.",
	}},
	Seams: Part{"Centre line and seams", []string{
		"Strike the centre line first; everything else is measured from it. The first seam lies on it.",
		"A chevron's seams are straight, so there is no spacing: the tips run on the line itself. The next line follows one interval of {interval} on.",
		"This floor has {pairs}, each measured from one hook of the tape so that rounding does not add up.",
	}},
	Wedges: Part{"Start with two wedges", []string{
		"The first two blocks lie slanted and need something to lie against: two wedges, right-angled triangles, one on each side of the centre line.",
		"Each is {interval} wide and {rise} high. Fix both with their points where the first seam begins, so that they cannot move.",
	}},

	Spacing: "Spacing", IntervalName: "Interval", Step: "Step", RiseName: "Rise",
	CentreLine: "Centre line",
	MarkAt:     "{line}, wall {wall}: from corner {corner}",
	Wall:       "Wall", Narrowest: "Narrowest", Widest: "Widest",
	SeamToWall: "From the row's outer seam to wall {wall}",
	SidesSum:   "{right} on the right + {left} on the left = {all} rows",
	CutSum:     "{full} whole + {cut} cut = {all} blocks",
	LeftRight:  "left and right", NearFar: "near and far", And: ", and ",

	Question:     "Try it yourself",
	Given:        "Herringbone, blocks {width} wide and {length} long{strands}.",
	GivenChevron: "Chevron, blocks {width} wide, {length} along the long edge, mitred at {angle}° to it.",
	Strands:      [3]string{"", ", laid double: two side by side count as one", ", laid triple: three side by side count as one"},
	Asked: [kinds]Asked{
		askSpacing:   {"What is the spacing?", "How far each working line is from the middle of the zigzag."},
		askInterval:  {"What is the interval?", "From the middle of one zigzag to the middle of the next."},
		askStep:      {"What is the step?", "How far one block moves the row along."},
		askStart:     {"How far is the first tip from the centre point, along the diagonal?", "The first tip is the point of the starting block."},
		askAcross:    {"What is the interval?", "From one seam to the next, square across."},
		askMitreStep: {"What is the step?", "How far one block moves the row along: the length of its slanted end."},
		askRise:      {"What is the rise?", "How far a block climbs along the seam from one seam to the next."},
		askTips:      {"How long is a block from tip to tip?", "The board that it is cut from."},
	},
	Answer: "Your answer", Check: "Check", Another: "Next question",
	Right:      "Right.",
	RightMark:  "{exact} exactly, {mark} on the tape.",
	TooLong:    "Too long by {by}.",
	TooShort:   "Too short by {by}.",
	WrongUnit:  "The number is right, but in the wrong unit.",
	NotALength: "Write a length, such as {example}.",
	Working:    "The working",
	Score:      "{right} of {all} right at the first try",
	Slips: [slips]string{
		slipNone:         "",
		slipHalfDiagonal: "That is half of the diagonal: the distance from one working line to the other. Halve it once more.",
		slipDiagonal:     "That is the whole diagonal, the step. The spacing is a quarter of it.",
		slipQuarterWidth: "A quarter of the width was taken. Take a quarter of the diagonal: multiply by √2 first.",
		slipHalfWidth:    "Half of the width was taken. Take a quarter of the diagonal of the square on the width.",
		slipOneBlock:     "The width of a single block was taken. Blocks that lie side by side count as one, with their widths together.",
		slipLength:       "The length of the block was taken where its width belongs.",
		slipWidth:        "The width of the block was taken where its length belongs.",
		slipHalfLength:   "Half of the length was taken: L ÷ 2. Divide by √2 instead, which is 1.414.",
		slipTimesRoot:    "It was multiplied by √2. Divide: the block is the diagonal, the interval the side.",
		slipHalved:       "It was halved once too often.",
		slipItself:       "That is the block's own measure. At a slant it reaches less far across.",
		slipSide:         "That is the side of the square. One block moves the row along by the diagonal.",
		slipTwice:        "That is twice the side. The diagonal is 1.414 times the side.",
		slipOverRoot:     "It was divided by √2. The diagonal is longer than the side: multiply.",
		slipToLine:       "That is the spacing, square to the centre line. Along the diagonal it is further: √2 times as far.",
		slipWhole:        "That is twice as much. Half the width lies on each side of the centre point.",
		slipSinCos:       "Sine and cosine were changed over.",
		slipTimesSin:     "It was multiplied by the sine. The slanted end is longer than the width: divide.",
		slipOverSin:      "It was divided by the sine. Across, a block reaches less than its own length: multiply.",
		slip45:           "That would be so at 45 degrees. The angle here is another.",
		slipTips:         "The length from tip to tip was taken. Use that of the long edge.",
		slipNoMitre:      "That is the long edge only. The slanted end reaches further.",
		slipTan:          "It was multiplied by the tangent. Divide the width by it.",
		slipEnd:          "The slanted end itself was added. Only what it reaches along the block counts.",
	},
}
