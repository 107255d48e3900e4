// Package words is every text of the page. A language is one file that fills
// in a Catalogue; a text left out fails the test.
//
// Names in braces, as in "{n} blocks", are filled in by Fill.
package words

import "strings"

// Catalogue is the texts of one language.
type Catalogue struct {
	Lang string // as the link's key lang has it

	Survey  Survey
	Marks   Marks
	Sheets  Sheets
	Jobs    Jobs
	Offline Offline
	Site    Site
	Lesson  Lesson
	Show    Show

	// Faces.
	ToWork, ToShow, ToSite, ToLesson string

	// Stages.
	Stages                           string // the list of stages, for a screen reader
	Measure, Choose, Strike, Lay     string
	MeasureLead, ChooseLead          string
	StrikeLead, LayLead              string
	FloorLabel                       string // what the picture is, for a screen reader
	SkipToStage                      string
	ShareLink, LinkCopied, LinkShown string
	Keys, KeysTitle, KeysClose       string
	KeyList                          [][2]string // keys to press, and what they do

	// Measure.
	Unit, Millimetres, Inches       string
	Fraction                        string
	Room, Given                     string
	ByWidth, ByCorners              string
	Width, Depth                    string
	Corner, AlongX, AlongY          string
	AddCorner, RemoveCorner         string
	Holes, Hole, AddHole            string
	RemoveHole                      string
	Gap, GapHelp                    string
	Border, BorderHelp              string
	RoomArea, FieldArea, RoundWalls string
	LengthHelp                      string

	// Choose.
	Pattern, Herringbone, Chevron string
	Strands                       string
	Single, Double, Triple        string
	Block, BlockWidth             string
	BlockLength, LongEdge         string
	Mitre, MitreHelp              string
	Ratio, RatioUsual, RatioLow   string
	RatioHigh, RatioNote          string
	LinesUp, LinesUpNot           string
	TryLength                     string
	StraightSeams                 string
	TipToTip                      string

	// Strike.
	Axis, AxisHelp                   string
	Centre, CentreX, CentreY         string
	CentreHelp                       string
	Shift, Across, Along, ShiftHelp  string
	Balanced, BalancedHelp           string
	OnSeam, MidStrand                string
	Placing                          string // "{where}, {end}"
	FirstEnd, SecondEnd              string
	Spacing, SpacingMeans            string
	Interval, IntervalMeans          string
	Step, StepMeans                  string
	Exactly, Working                 string
	StraightSpacing                  string
	StartPoint, StartMeans           string
	StartMeansChevron                string
	FromCentreRight, FromCentreBack  string
	FromCentreLeft, FromCentreAhead  string
	FromWall                         string // "Square from wall {wall}"
	NoWalls                          string
	StartFrom, StartCentre           string
	StartWall, StartSteps, StartHelp string
	StartNoRoom                      string
	UnevenEnds                       string

	// Lay.
	Blocks, Full, Cut, Pieces        string
	LeftHand, RightHand              string
	Hand, Smallest                   string
	ByHand, ByStrand, Strand         string
	Rows, Row, RowBlocks             string
	SpineRow, SideRow, InfillRow     string // "Strand {k}"
	Right, Left                      string
	GoToRow                          string
	AllTold                          string
	LeafBack, LeafOn, LeafOf         string
	Speed, SpeedValue                string
	Lines, ShowCentre, ShowWorking   string
	ShowDiagonals, ShowBorder        string
	ShowStart                        string
	Caution, CautionSaw, CautionDust string

	// The ruler and the tools.
	Player, Play, Pause           string
	BlockBack, BlockOn            string
	RowBack, RowOn                string
	BlockLess, BlockMore          string
	RowLess, RowMore              string
	ToStart, ToEnd                string
	Laid                          string // "{n} of {all} blocks"
	RulerLabel, RulerRow          string
	RulerNothing                  string
	Tools, ZoomIn, ZoomOut, Fit   string
	PainterNote                   string
	NoPainter                     string
	Notes, ProblemsTitle          string
	Failed                        string
	DeskWorks, DeskStopped        string
	Area                          string // "{m2} m²"
	AreaFeet                      string
	Shy, Strong, OnMark           string
	Mm, In, Ft, Degrees, PerBlock string
}

// incomparable makes a struct one that cannot be compared: the compiler would
// write a function for that, of 20 kB for some of these.
type incomparable [0]func()

// Languages returns every catalogue, the first of which serves for a language
// that is not known.
func Languages() []*Catalogue { return []*Catalogue{English()} }

// In returns the catalogue of a language.
func In(lang string) *Catalogue {
	all := Languages()
	for _, c := range all {
		if c.Lang == lang {
			return c
		}
	}
	return all[0]
}

// Fill puts values into a text: Fill("{n} of {all}", "n", "3", "all", "9").
func Fill(text string, pairs ...string) string {
	for i := 0; i+1 < len(pairs); i += 2 {
		text = strings.ReplaceAll(text, "{"+pairs[i]+"}", pairs[i+1])
	}
	return text
}
