package main

// report is what the tests read of a plan as it is printed.
type report struct {
	Room struct {
		Area      float64 `json:"area_mm2"`
		Perimeter float64 `json:"perimeter_mm"` // with that of the holes
	} `json:"room"`
	Field struct {
		Area float64 `json:"area_mm2"`
	} `json:"field"`
	Lines struct {
		Spacing  float64 `json:"spacing_mm"`
		Interval float64 `json:"interval_mm"`
		Step     float64 `json:"step_mm"`
		Start    start   `json:"start"`
	} `json:"lines"`
	Seams    *seams      `json:"seams,omitempty"` // herringbone only
	Blocks   blocks      `json:"blocks"`
	Balanced []placing   `json:"balanced"`
	Rows     []row       `json:"rows"`
	Strands  []strandRow `json:"strands"`
}

// start is where the point of the starting block goes, in the room frame, and
// how many steps that is from the centre.
type start struct {
	X     float64 `json:"x_mm"`
	Y     float64 `json:"y_mm"`
	Index int     `json:"index"`
}

// seams says whether those of every other row come to lie in line.
type seams struct {
	LineUp  bool    `json:"line_up"`
	Miss    float64 `json:"miss_mm"`
	Shorter float64 `json:"shorter_mm"`
	Longer  float64 `json:"longer_mm"`
}

type blocks struct {
	count
	Smallest float64 `json:"smallest_piece_mm2"` // 0 when nothing is cut
	Left     count   `json:"left"`               // of the left hand
	Right    count   `json:"right"`
}

// count is of whole blocks, of blocks that are cut, and of the pieces those
// give.
type count struct {
	Full   int `json:"full"`
	Cut    int `json:"cut"`
	Pieces int `json:"pieces"`
}

// placing is a shift that balances the walls of a rectangle.
type placing struct {
	Across float64 `json:"across_mm"`
	Along  float64 `json:"along_mm"`
}

// row is a row in order of laying.
type row struct {
	Number  int    `json:"number"`
	Stage   string `json:"stage"`
	Side    string `json:"side"`
	Strands []int  `json:"strands"`
	Full    int    `json:"full"`
	Cut     int    `json:"cut"`
}

type strandRow struct {
	Strand int `json:"strand"`
	count
	Area float64 `json:"area_mm2"`
}
