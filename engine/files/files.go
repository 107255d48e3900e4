// Package files writes a plan as files that other programs open: drawings,
// tables, and the whole plan as JSON.
//
// Words in the files are plain English, whatever the page speaks. Lengths are
// millimetres in the room frame of package floor, each to a millionth; beside
// those that are marked on site stands the reading on the job's tape.
package files

import (
	"math"
	"strconv"

	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/length"
)

// Options says how the plan is reported.
type Options struct {
	Link    string        // of the job, without '#'; kept in JSON
	Sliver  length.Length // a cut piece narrower than this is a sliver
	Same    length.Length // cut pieces that differ by no more are equal
	Marking length.Length // how far one mark may be off
}

// kinds is the files there are, by how their names end.
var kinds = [...]string{"svg", "dxf", "marks.csv", "rows.csv", "cuts.csv", "json"}

// Kinds returns the kinds of files that Write knows.
func Kinds() []string { return kinds[:] }

// Write returns the content of a file of a kind, and whether the kind is
// known.
func Write(p *floor.Plan, kind string, o Options) ([]byte, bool) {
	switch kind {
	case "svg":
		return Drawing(p).AppendSVG(nil), true
	case "dxf":
		return Drawing(p).AppendDXF(nil), true
	case "marks.csv":
		return drawing.AppendCSV(nil, Marks(p)), true
	case "rows.csv":
		return drawing.AppendCSV(nil, Rows(p)), true
	case "cuts.csv":
		return drawing.AppendCSV(nil, Cuts(p, o.Same)), true
	case "json":
		return JSON(p, o), true
	}
	return nil, false
}

// Title returns what floor a plan is of, like 5200 mm by 4120 mm, herringbone
// of 80 mm by 480 mm.
func Title(p *floor.Plan) string {
	job, tape := p.Job(), p.Job().Tape()
	low, high := p.Room()[0].Box()
	size := high.Sub(low)
	kind := "herringbone"
	if job.Pattern == floor.Chevron {
		kind = "chevron"
	}
	text := func(l length.Length) string { return tape.Read(l).FeetText() }
	return text(length.Length(size.X)) + " by " + text(length.Length(size.Y)) + ", " + kind + " of " +
		text(job.Width) + " by " + text(job.Length)
}

// cornerName names a corner of the outline, or of a hole, with its letter.
func cornerName(hole, corner int) string { return ofHole(hole) + floor.CornerName(corner) }

// wallName names a wall of the outline, or of a hole.
func wallName(p *floor.Plan, hole, wall int) string {
	job := p.Job()
	corners := len(job.Room)
	if hole > 0 {
		corners = len(job.Holes[hole-1])
	}
	return ofHole(hole) + floor.WallName(wall, corners)
}

func ofHole(hole int) string {
	if hole == 0 {
		return ""
	}
	return "hole " + strconv.Itoa(hole) + " "
}

// rounded rounds to a millionth, so that two machines write the same.
func rounded(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 } // +0 turns -0 into 0

// mm writes a length in millimetres.
func mm(l length.Length) string { return strconv.FormatFloat(rounded(float64(l)), 'f', -1, 64) }
