package link

import (
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Demo is the job shown to someone who has not entered one: a living room
// with a chimney breast in the far wall, a little out of square.
const Demo = "v=1&unit=mm" +
	"&room=0,0;5200,0;5190,4120;3300,4115;3300,3700;1900,3700;1900,4105;10,4100" +
	"&gap=12&border=110&pattern=herringbone&block=80x480&strands=1&axis=0"

// FromJob returns the link of a job. Fields at zero are left out, except that
// a block of which only one side is set gets the default for the other.
// Lengths are millimetres to the last digit, so Job gives the same job back as
// long as none but zero lies below a thousandth of a millimetre; those are
// rounded to the digits a typed length may have. A single strip is written as
// the border it is, and spaces around a doorway's name are not kept.
func FromJob(job floor.Job) Link {
	var l Link
	add := func(key, value string) { l.pairs = append(l.pairs, written(key, value)) }
	mark := ""
	add("v", "1")
	if job.Unit == length.Inches {
		add("unit", "in")
		mark = "mm"
	}
	if job.Fraction != 0 {
		add("fraction", strconv.Itoa(job.Fraction))
	}
	if len(job.Room) > 0 {
		add("room", room(job.Room, mark))
	}
	if len(job.Tapes) > 0 {
		add("tape", tape(job.Tapes, mark))
	}
	if len(job.Legs) > 0 {
		add("walk", walk(job.Legs, mark))
	}
	if job.Share {
		add("share", "yes")
	}
	if job.Misfit != 0 {
		add("misfit", size(job.Misfit, mark))
	}
	first := job
	for i, j := range job.Joins {
		first.Joins = job.Joins[:i]
		add("join", join(j, walls(first), mark))
	}
	n := walls(job)
	for _, hole := range job.Holes {
		add("hole", corners(hole, mark))
	}
	for _, c := range job.Rounds {
		add("column", corner(c.Centre, mark)+","+size(c.Diameter, mark))
	}
	for _, b := range job.Bows {
		add("bow", wallName(b.Wall, n)+":"+size(b.Rise, mark))
	}
	for _, s := range job.Scribes {
		add("scribe", wallName(s.Wall, n)+":"+list(s.Ordinates, ",", mark))
	}
	for _, d := range job.Doors {
		add("door", door(d, n, mark))
	}
	for _, v := range job.Windows {
		add("window", window(v, n, mark))
	}
	if job.Gap != 0 || len(job.GapAt) > 0 {
		add("gap", allAndAt(size(job.Gap, mark), job.GapAt, n, mark))
	}
	if job.Border != 0 || len(job.Strips) > 0 || len(job.BorderAt) > 0 {
		add("border", allAndAt(border(job, mark), job.BorderAt, n, mark))
	}
	if job.Pattern == floor.Chevron {
		add("pattern", "chevron")
	}
	if job.Width != 0 || job.Length != 0 {
		w, l := job.Width, job.Length
		if w == 0 {
			w = 70
		}
		if l == 0 {
			l = 350
		}
		add("block", size(w, mark)+"x"+size(l, mark))
	}
	if job.Strands != 0 {
		add("strands", strconv.Itoa(job.Strands))
	}
	if job.Mitre != 0 {
		add("mitre", decimal(job.Mitre))
	}
	if job.Axis != 0 {
		add("axis", decimal(job.Axis))
	}
	if job.Centre != nil {
		add("centre", corner(*job.Centre, mark))
	}
	if job.Line.From != floor.LineTyped {
		add("line", line(job.Line, n, mark))
	}
	if job.Across != 0 || job.Along != 0 {
		add("shift", size(job.Across, mark)+","+size(job.Along, mark))
	}
	if job.Start == floor.FromWall {
		add("start", "wall")
	}
	return l
}

// room writes an outline in the shorter form if it is the one the shorter form
// is read as.
func room(outline []plane.Point, mark string) string {
	if len(outline) == 4 {
		w, d := outline[2].X, outline[2].Y
		if w > 0 && d > 0 && slices.Equal(outline, rectangle(w, d)) {
			return size(length.Length(w), mark) + "x" + size(length.Length(d), mark)
		}
	}
	return corners(outline, mark)
}

func corners(outline []plane.Point, mark string) string {
	texts := make([]string, len(outline))
	for i, p := range outline {
		texts[i] = corner(p, mark)
	}
	return strings.Join(texts, ";")
}

func corner(p plane.Point, mark string) string {
	return size(length.Length(p.X), mark) + "," + size(length.Length(p.Y), mark)
}

// size writes a length as the shortest decimal that reads as the same number.
func size(l length.Length, mark string) string {
	const digits = 20 // a typed length may have no more
	text := decimal(float64(l))
	whole, decimals, _ := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	if len(whole)+len(decimals) > digits && len(whole) < digits {
		text = strconv.FormatFloat(float64(l), 'f', digits-len(whole), 64)
	}
	return text + mark
}

func decimal(x float64) string {
	return strconv.FormatFloat(x+0, 'f', -1, 64) // +0 turns -0 into 0
}

// Rebased returns the link with another unit and the same job: every length
// that had no unit mark gets the mark of the unit it was meant in. A link that
// is in this unit already is returned as it is.
func (l Link) Rebased(unit length.Unit) Link {
	job, _ := l.Job()
	if job.Unit == unit {
		return l
	}
	pairs := slices.Clone(l.pairs)
	for i, p := range pairs {
		r := rank(p.key)
		if r < 0 || keys[r].lengths == nil {
			continue
		}
		mark := func(length string) string { return marked(length, job.Unit) }
		if value := keys[r].lengths(p.value, mark); value != p.value {
			pairs[i] = written(p.key, value)
		}
	}
	name := "mm"
	if unit == length.Inches {
		name = "in"
	}
	return Link{pairs: pairs}.With("unit", name)
}

// marked adds the mark of a unit to a length that has none.
func marked(text string, unit length.Unit) string {
	mm, errMm := length.Marked(text, length.Millimetres)
	in, errIn := length.Marked(text, length.Inches)
	meant, err, mark := mm, errMm, "mm"
	if unit == length.Inches {
		meant, err, mark = in, errIn, "in"
	}
	switch {
	case errMm != nil && errIn != nil, mm == in:
		return text // not a length in either unit, or marked already
	case err != nil:
		// A length in the other unit only, such as 1/2 among millimetres. It
		// must not become one by the change.
		return strings.TrimSpace(text) + mark
	}
	return meant
}
