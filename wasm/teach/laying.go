package teach

import (
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
	"keelrow/wasm/markup"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// pairs says how many pairs of working lines, or seams, there are.
func (l *lesson) pairs(name Count) string {
	seams := map[int]bool{}
	for _, line := range l.Plan.Lines() {
		if line.Kind == floor.WorkingLine {
			seams[line.Seam] = true
		}
	}
	return name.of(len(seams))
}

// centreLine gives the readings at both ends of the centre line.
func (l *lesson) centreLine() {
	for _, m := range strike.Marks(l.Plan) {
		if m.Kind != strike.Centre || len(m.Parts) == 0 {
			continue
		}
		for _, e := range m.Parts[0].Ends {
			l.reading(words.Fill(l.t.MarkAt, "line", l.t.CentreLine,
				"wall", tables.WallName(l.Order, e.Hole, e.Wall), "corner", tables.CornerName(l.Order, e.Hole, e.Corner)), e.Distance)
		}
	}
}

func spine(l *lesson, say []string) {
	rows, _, done := l.rows()
	l.lines = "centre working start"
	l.to = done[floor.Spine]
	l.lightLines(floor.WorkingLine)
	l.lightLines(floor.CentreLine)
	var row floor.Row
	if len(rows) > 0 {
		row = rows[0]
	}
	step := l.blocks().Step()
	l.say(say[0], "full", strconv.Itoa(row.Full), "cut", strconv.Itoa(row.Cut))
	l.say(say[1], "step", l.both(step))
	l.say(say[2])
	n := max(1, row.Full/2)
	l.say(l.t.SpineRun, "n", strconv.Itoa(n), "step", l.bare(step), "total", l.both(step*length.Length(n)))
	for check := range strike.RowChecks(l.Plan) {
		for _, seam := range check.Seams {
			to := seam.ToWall[0]
			if to.OK {
				l.reading(words.Fill(l.t.SeamToWall, "wall", tables.WallName(l.Order, to.At.Hole, to.At.Wall)), to.Distance)
			}
		}
		break // that of the spine
	}
}

func sides(l *lesson, say []string) {
	rows, count, done := l.rows()
	l.lines = "centre working start"
	l.from, l.to = done[floor.Spine], done[floor.Side]
	if count[floor.Side] == 0 {
		l.say(l.t.NoSides)
		return
	}
	for _, k := range []int{-3, -2, 1, 2} {
		if half := l.Plan.StartingHalf(k); len(half) > 0 {
			l.lightRings(half)
		}
	}
	if l.job.Pattern == floor.Herringbone {
		l.say(l.t.Half, "length", l.both(l.job.Length))
	}
	right, left := 0, 0
	for _, r := range rows {
		if r.Stage == floor.Side && r.Strands[0] > 0 {
			right++
		} else if r.Stage == floor.Side {
			left++
		}
	}
	l.say(say[0], "rows", strconv.Itoa(count[floor.Side]), "blocks", strconv.Itoa(l.to-l.from))
	l.say(say[1])
	l.sum(words.Fill(l.t.SidesSum, "right", strconv.Itoa(right), "left", strconv.Itoa(left), "all", strconv.Itoa(right+left)))
}

func infill(l *lesson, say []string) {
	_, count, done := l.rows()
	l.lines = "centre working"
	l.from, l.to = done[floor.Side], done[floor.Infill]
	l.lightRings(l.Plan.StartingBlock()...)
	if count[floor.Infill] == 0 {
		l.say(l.t.NoInfill)
		return
	}
	l.say(say[0], "rows", strconv.Itoa(count[floor.Infill]), "blocks", strconv.Itoa(l.to-l.from))
	l.say(say[1])
	l.sum(strconv.Itoa(l.from) + " + " + strconv.Itoa(l.to-l.from) + " = " + l.t.Blocks.of(l.to))
}

func border(l *lesson, say []string) {
	_, _, done := l.rows()
	l.from, l.to = done[floor.Infill], done[floor.Infill]
	l.lines = "border"
	l.lightRings(l.Plan.Field()...)
	if l.job.Border > 0 || len(l.job.BorderAt) > 0 {
		l.say(say[0], "gap", l.both(l.job.Gap), "border", l.both(l.job.Border))
	} else {
		l.say(l.t.NoBorder, "gap", l.both(l.job.Gap))
	}
	room := 0.0
	for _, ring := range l.Plan.Room() {
		room += ring.Area()
	}
	all := l.Plan.Count()
	text := say[1]
	if all.Cut == 0 {
		text = l.t.NoCuts
	}
	l.say(text, "field", metres(l.Plan.FieldArea()), "room", metres(room), "cut", strconv.Itoa(all.Cut), "all", strconv.Itoa(all.Full+all.Cut))
	l.sum(l.bare(l.job.Gap) + " + " + l.bare(l.job.Border) + " = " + l.exact(l.job.Gap+l.job.Border))
	l.sum(words.Fill(l.t.CutSum, "full", strconv.Itoa(all.Full), "cut", strconv.Itoa(all.Cut), "all", strconv.Itoa(all.Full+all.Cut)))
	l.put("p", "note", markup.Escape(l.t.Caution))
}

// metres writes an area in m².
func metres(mm2 float64) string { return strconv.FormatFloat(mm2/1e6, 'f', 2, 64) }

// most is how many walls are listed; a round wall may have hundreds.
const most = 24

func edges(l *lesson, say []string) {
	_, _, done := l.rows()
	l.from, l.to = done[floor.Infill], done[floor.Infill]
	l.lines = "border centre"
	l.lightRings(l.Plan.Field()...)
	l.say(say[0])
	l.say(l.even())
	m := &l.Words.Marks
	l.html.WriteString(`<table class="lesson-edges"><thead><tr><th scope="col">` + markup.Escape(l.t.Wall) + `</th><th scope="col">` + markup.Escape(l.t.Narrowest) +
		`</th><th scope="col">` + markup.Escape(l.t.Widest) + "</th></tr></thead><tbody>")
	list := strike.Leftovers(l.Plan, l.View.Sliver)
	for _, left := range list[:min(len(list), most)] {
		if left.Hole > 0 || left.Pieces == 0 {
			continue
		}
		least, widest := left.Narrowest, left.Widest
		if left.Plain.Pieces > 0 {
			least, widest = left.Plain.Narrowest, left.Plain.Widest
		}
		l.html.WriteString(`<tr><th scope="row"><b>` + markup.Escape(tables.WallName(l.Order, 0, left.Wall)) + "</b> " + markup.Escape(m.Faces[left.Facing]) + "</th><td>" +
			markup.Escape(l.mark(least)) + "</td><td>" + markup.Escape(l.mark(widest)) + "</td></tr>")
	}
	l.html.WriteString("</tbody></table>")
}

// even says whether opposite sides come out alike, to the tape's mark.
func (l *lesson) even() string {
	ends := strike.Ends(l.Plan, l.View.Sliver)
	same := func(a, b strike.Leftover) bool {
		mark := l.tape.Read
		return mark(a.Narrowest).Mark == mark(b.Narrowest).Mark && mark(a.Widest).Mark == mark(b.Widest).Mark
	}
	var differ []string
	if !same(ends[strike.Left], ends[strike.Right]) {
		differ = append(differ, l.t.LeftRight)
	}
	if !same(ends[strike.Near], ends[strike.Far]) {
		differ = append(differ, l.t.NearFar)
	}
	if len(differ) == 0 {
		return l.t.EdgesEven
	}
	return words.Fill(l.t.EdgesUneven, "pairs", strings.Join(differ, l.t.And)) + " " + l.t.EdgesEvenShift
}

// parallel draws upright lines beside a centre line, each with its distance.
func parallel(at []float64, labels []string, says string) string {
	const reach, tall = 70.0, 110.0
	d := picture{wide: 2 * (beside + reach), high: tall + over + 8}
	x := beside + reach
	d.line("axis", false, plane.Point{X: x, Y: over}, plane.Point{X: x, Y: over + tall})
	for i, side := range at {
		d.line("side result", false, plane.Point{X: x + side*reach, Y: over}, plane.Point{X: x + side*reach, Y: over + tall})
		y := over + tall/2
		d.line("thin", false, plane.Point{X: x, Y: y}, plane.Point{X: x + side*reach, Y: y})
		d.text("label result", "middle", plane.Point{X: x + side*reach*0.5, Y: y - 8}, labels[i])
	}
	return d.html(says)
}
