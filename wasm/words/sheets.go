package words

// Sheets is the texts of the printed sheets and of the files.
type Sheets struct {
	_                                                                incomparable
	Title, Lead, ToPrint, Which, Paper, A4, Letter, Print, PrintHelp string
	Files, FilesHelp                                                 string
	SVG, DXF, JSON, MarksCSV, RowsCSV, CutsCSV                       string
	OneFile, OneFileHelp, NoOneFile                                  string
	Saved, Close                                                     string

	// Every sheet.
	Number, Job, Scale          string
	Link, LinkMeans, LinkBehind string

	// Survey.
	Survey, Diagonals, Triangle                     string
	CornersWalls, Corner, Angle, OffSquare, RunsOff string
	Wall, Length, Opens, Closes, Square             string
	Doorway, DoorwayAt, FromCorner                  string
	Holes                                           string

	// Striking.
	Striking, From, MarksTitle, MarksMean, LineName    string
	FirstEnd, SecondEnd, OffWall                       string
	LineCentre, LineCross, LineSpine, LineOrigin       string
	LineWorking, LineSeam, LineDiagonal, LineField     string
	OnTape, Bowed, BorderMeans, FirstMark, LastMark    string
	TrammelInterval, TrammelStep, Stepped              string
	OneIn, CrossCheck, CrossTriangle, Start, StartBack string

	// Laying.
	Laying, LayingCount, LayingMeans   string
	LaidByThen, Check, Done, BothHands string

	// Cut list.
	CutList, CutCount, CutMeans, Times, Scribe, ForRows string
	SquareCut, AngleCut, RipCut                         string
	OnRight, OnLeft, OnFarEnd, OnStopEnd                string
	KeepStop, KeepFar, KeepRight, KeepLeft              string
	Strips, StripsMean, Band, OuterEdge, InnerEdge      string
	MitreFrom, MitreTo                                  string
}

func englishSheets() Sheets {
	return Sheets{
		Title:       "Sheets",
		Lead:        "Paper for the wall and the saw, and files for other programs.",
		ToPrint:     "To print",
		Which:       "Sheets",
		Paper:       "Paper",
		A4:          "A4",
		Letter:      "Letter",
		Print:       "Print",
		PrintHelp:   "Print at full size (100 %), and the plans are to scale. A bar on each shows whether they are.",
		Files:       "Files",
		FilesHelp:   "Drawings are at full size in millimetres. The tables open in any spreadsheet.",
		SVG:         "Drawing (SVG)",
		DXF:         "Drawing (DXF)",
		JSON:        "Everything (JSON)",
		MarksCSV:    "Marks (CSV)",
		RowsCSV:     "Rows (CSV)",
		CutsCSV:     "Cuts (CSV)",
		Saved:       "{name} is made.",
		OneFile:     "The page as one file",
		OneFileHelp: "All of this page with the job in it. It opens from a folder or a memory stick, without a connection.",
		NoOneFile:   "The file is not kept on this device. Connect once and press again; the link holds your job.",
		Close:       "Back to the stage",

		Number:     "Sheet {n} of {all}",
		Job:        "{pattern}, blocks {block} by {length}. Room {width} by {depth}.",
		Scale:      "Scale 1:{n}",
		Link:       "Link",
		LinkMeans:  "The whole job, to be opened again. Type or copy it without spaces.",
		LinkBehind: "The link is too long for this line: it has a sheet of its own at the end.",

		Survey:       "Survey",
		Diagonals:    "Diagonal {first} is {a}, {second} is {b}: they differ by {difference}.",
		Triangle:     "To try corner {corner}: {a} along {first} and {b} along {second}. It is square when those marks are {diagonal} apart.",
		CornersWalls: "Corners and walls",
		Corner:       "Corner",
		Angle:        "Angle",
		OffSquare:    "Off square",
		RunsOff:      "Over the shorter wall",
		Wall:         "Wall",
		Length:       "Length",
		Opens:        "opens {length}",
		Closes:       "closes {length}",
		Square:       "square",
		Doorway:      "Doorway {n}",
		DoorwayAt:    "{name} in {wall}: {at} from {corner} to the near jamb, {width} clear.",
		FromCorner:   "From corner",
		Holes:        "Hearths, columns, islands",

		Striking:        "Striking",
		From:            "{length} from {corner}",
		MarksTitle:      "Marks",
		MarksMean:       "Hook the tape once on the first corner of the wall, A for AB, and read every mark along that wall from there, so that no rounding adds to another. A reading with no word beside it is on the mark.",
		LineName:        "Line",
		FirstEnd:        "From wall",
		SecondEnd:       "To wall",
		OffWall:         "Off the wall",
		LineCentre:      "Centre line",
		LineCross:       "Cross line",
		LineSpine:       "Spine",
		LineOrigin:      "Start line",
		LineWorking:     "Working line",
		LineSeam:        "Seam {n}",
		LineDiagonal:    "Diagonal",
		LineField:       "Border line",
		OnTape:          "On the tape",
		Bowed:           "(bowed)",
		BorderMeans:     "Along each wall from its corner, and square off it. A reading below 0 lies behind the corner, on the wall carried on.",
		FirstMark:       "First mark",
		LastMark:        "Last mark",
		TrammelInterval: "Trammel, seam to seam",
		TrammelStep:     "Trammel, step to step",
		Stepped:         "set to {reading} and stepped {n} times it ends {cost} off",
		OneIn:           "Of the seams, one in {n} is drawn. The list below has all of them.",
		CrossCheck:      "Cross of the lines",
		CrossTriangle:   "{a} and {b} from the cross: square when {diagonal} apart",
		Start:           "Point of the starting block",
		StartBack:       "The point stands {steps} steps back, {length} in all. After {blocks} blocks the middle of the next block's end has to be on the centre point.",

		Laying:      "Laying list",
		LayingCount: "{full} full blocks and {cut} cut ones: {left} of the left hand, {right} of the right.",
		LayingMeans: "The check is from the last tip of the row along its line to the wall named. Measure it when the row is down, and bring the next row back by what it is off.",
		LaidByThen:  "laid by then",
		Check:       "Check: last tip to the wall",
		Done:        "Done",
		BothHands:   "both",

		CutList:    "Cut list",
		CutCount:   "{pieces} pieces from {blocks} blocks, in {kinds} kinds.",
		CutMeans:   "Each block lies face up with its trailing end, the one nearer to where its row starts, at the stop, which is drawn as a bar. Right and left are as seen from the stop. Readings on an edge are from the stop, those on an end from the right edge. Nothing is allowed for the saw cut. Pieces within {same} of each other are one kind.",
		Times:      "{n} ×",
		Scribe:     "Scribe: lay a whole block in its place and mark it from the wall.",
		ForRows:    "Rows {rows}",
		SquareCut:  "Square, {length} from the stop. Keep {keep}.",
		AngleCut:   "{from}, {to}, {angle} off square. Keep {keep}.",
		RipCut:     "Rip, leaving {stop} at the stop and {far} at the far end. Keep {keep}.",
		OnRight:    "right edge {length}",
		OnLeft:     "left edge {length}",
		OnFarEnd:   "far end {length}",
		OnStopEnd:  "stop end {length}",
		KeepStop:   "the stop end",
		KeepFar:    "the far end",
		KeepRight:  "the right edge",
		KeepLeft:   "the left edge",
		Strips:     "Border strips",
		StripsMean: "In the order in which they run round the room, the field on their left. Mitres are degrees off square, above 0 where the wall's edge is the longer.",
		Band:       "Band",
		OuterEdge:  "Edge at the wall",
		InnerEdge:  "Edge at the field",
		MitreFrom:  "First mitre",
		MitreTo:    "Last mitre",
	}
}
