package main

import (
	"math"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
)

// report is the plan as it is printed. Lengths are millimetres to nine
// decimals and areas mm² to twelve digits: far finer than any use, and short
// of the digits in which two machines may differ.
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

// reportOn reads everything that is printed off the plan.
func reportOn(p *floor.Plan) report {
	var r report
	var area, perimeter float64
	for _, ring := range p.Room() {
		area += ring.Area()
		perimeter += ring.Perimeter()
	}
	r.Room.Area, r.Room.Perimeter = mm2(area), mm(perimeter)
	r.Field.Area = mm2(p.FieldArea())

	laid := p.Pattern()
	r.Lines.Spacing, r.Lines.Interval, r.Lines.Step = mm(laid.Spacing()), mm(laid.Interval()), mm(laid.Step())
	index, point := p.Start()
	r.Lines.Start = start{mm(point.X), mm(point.Y), index}
	if h, ok := laid.(pattern.Herringbone); ok {
		lineUp, miss, shorter, longer := h.LinesUp()
		r.Seams = &seams{lineUp, mm(miss), mm(shorter), mm(longer)}
	}
	for _, s := range laid.Balanced() {
		r.Balanced = append(r.Balanced, placing{mm(s.Across), mm(s.Along)})
	}

	all := p.Count()
	r.Blocks = blocks{
		count:    counted(all),
		Smallest: mm2(all.Smallest),
		Left:     counted(p.CountHand(pattern.LeftHand)),
		Right:    counted(p.CountHand(pattern.RightHand)),
	}
	r.Rows, r.Strands = []row{}, []strandRow{}
	for w := range p.Rows() {
		r.Rows = append(r.Rows, row{w.Number, stageName(w.Stage), sideName(w.Strands), w.Strands, w.Full, w.Cut})
	}
	for k, s := range p.Strands() {
		r.Strands = append(r.Strands, strandRow{k, counted(s.Count), mm2(s.Count.Area)})
	}
	return r
}

func counted(c floor.Count) count { return count{c.Full, c.Cut, c.Pieces} }

func stageName(s floor.Stage) string {
	switch s {
	case floor.Spine:
		return "spine"
	case floor.Side:
		return "side"
	default:
		return "infill"
	}
}

// sideName says on which side of the centre line the strands of a row lie.
func sideName(strands []int) string {
	switch {
	case len(strands) > 1:
		return "middle"
	case strands[0] < 0:
		return "left"
	default:
		return "right"
	}
}

func mm[L length.Length | float64](l L) float64 {
	return math.Round(float64(l)*1e9)/1e9 + 0 // +0 turns -0 into 0
}

func mm2(area float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(area, 'g', 12, 64), 64)
	if err != nil {
		panic(err) // our own digits
	}
	return short
}
