package teach

import (
	"math"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/wasm/words"
)

// herringbone is the lesson on a herringbone, in the order of understanding:
// first why, then how far, then where, then the laying.
var herringbone = []step{
	{func(t *Texts) *Part { return &t.Angle }, whyAngle},
	{func(t *Texts) *Part { return &t.Ratio }, howLong},
	{func(t *Texts) *Part { return &t.Measure }, measured},
	{func(t *Texts) *Part { return &t.Pythagoras }, workedOut},
	{func(t *Texts) *Part { return &t.Interval }, interval},
	{func(t *Texts) *Part { return &t.Lines }, workingLines},
	{func(t *Texts) *Part { return &t.Point }, startingPoint},
	{func(t *Texts) *Part { return &t.Block }, startingBlock},
	{func(t *Texts) *Part { return &t.Spine }, spine},
	{func(t *Texts) *Part { return &t.Sides }, sides},
	{func(t *Texts) *Part { return &t.Infill }, infill},
	{func(t *Texts) *Part { return &t.Border }, border},
	{func(t *Texts) *Part { return &t.Edges }, edges},
}

func (l *lesson) herringbone() pattern.Herringbone {
	return pattern.Herringbone{Width: l.job.Width, Length: l.job.Length, Strands: l.job.Strands}
}

func whyAngle(l *lesson, say []string) {
	l.lightBlocks(l.few())
	l.lines = "centre"
	for _, s := range say {
		l.say(s, "angle", "45")
	}
	l.html.WriteString(meeting(pattern.Herringbone{Width: 36, Length: 144, Strands: 1}, 45, l.t.Angle.Title))
	l.sum("90° ÷ 2 = 45°")
}

func howLong(l *lesson, say []string) {
	h := l.herringbone()
	first := l.few()
	l.lightBlocks(first[:min(1, len(first))])
	l.lines = "centre"
	if h.Strands > 1 {
		l.say(l.t.UnitOf, "n", strconv.Itoa(h.Strands), "unit", l.mark(h.Unit()))
	}
	ratio := float64(h.Length / h.Unit())
	text := strconv.FormatFloat(math.Round(ratio*1000)/1000, 'f', -1, 64)
	l.say(say[0], "width", l.mark(h.Width), "length", l.mark(h.Length), "unit", l.mark(h.Unit()), "ratio", text)
	if ok, miss, shorter, longer := h.LinesUp(); ok {
		l.say(l.t.RatioWhole)
	} else {
		l.say(l.t.RatioNot, "miss", l.both(miss), "shorter", l.both(shorter), "longer", l.both(longer))
	}
	l.html.WriteString(strip(ratio, l.mark(h.Unit()), l.mark(h.Length), l.t.Ratio.Title))
	l.sum(l.bare(h.Length) + " ÷ " + l.bare(h.Unit()) + " = " + text)
}

// lightStep lights one step along the right working line and the square that
// it is the diagonal of.
func (l *lesson) lightStep() {
	h := l.herringbone()
	from, half := h.Spacing(), h.Step()/2
	l.light(true, l.frame(from, -from), l.frame(from+half, half-from), l.frame(from, 2*half-from), l.frame(from-half, half-from))
	l.light(false, l.frame(from, -from), l.frame(from, 2*half-from))
}

func measured(l *lesson, say []string) {
	h := l.herringbone()
	l.few()
	l.lightStep()
	l.lines = "centre working"
	l.say(say[0], "unit", l.mark(h.Unit()), "diagonal", l.mark(h.Step()))
	l.say(say[1])
	l.say(say[2], "diagonal", l.mark(h.Step()))
	read := l.tape.Read(h.Step()).Mark
	l.html.WriteString(square(l.mark(h.Unit()), l.mark(h.Step()), l.mark(h.Spacing()), l.t.Measure.Title))
	l.sum(l.bare(read) + " ÷ 4 = " + l.exact(read/4))
	l.reading(l.t.Spacing, h.Spacing())
}

func workedOut(l *lesson, say []string) {
	h := l.herringbone()
	l.few()
	l.lightStep()
	l.lines = "centre working"
	read := l.tape.Read(h.Step()).Mark / 4
	l.say(say[0])
	l.say(say[1], "diagonal", l.exact(h.Step()), "spacing", l.exact(h.Spacing()), "measured", l.exact(read),
		"apart", l.exact(max(read-h.Spacing(), h.Spacing()-read)))
	unit := l.bare(h.Unit())
	l.html.WriteString(triangle(1, 1, [3]string{l.mark(h.Unit()), l.mark(h.Unit()), l.exact(h.Step())}, 2, l.t.Pythagoras.Title))
	l.sum("√(" + unit + "² + " + unit + "²) = " + l.exact(h.Step()))
	l.sum(l.bare(h.Step()) + " ÷ 4 = " + l.exact(h.Spacing()))
	l.reading(l.t.Spacing, h.Spacing())
}

func interval(l *lesson, say []string) {
	h := l.herringbone()
	l.few()
	l.light(false, l.frame(0, 0), l.frame(h.Interval(), 0))
	l.lines = "centre working"
	l.say(say[0])
	l.say(say[1], "length", l.mark(h.Length), "interval", l.both(h.Interval()))
	l.html.WriteString(triangle(1, 1, [3]string{l.exact(h.Interval()), "", l.mark(h.Length)}, 0, l.t.Interval.Title))
	l.sum(l.bare(h.Length) + " ÷ √2 = " + l.exact(h.Interval()))
	l.reading(l.t.IntervalName, h.Interval())
}

func workingLines(l *lesson, say []string) {
	h := l.herringbone()
	l.lightLines(floor.WorkingLine)
	l.lightLines(floor.CentreLine)
	l.lines = "centre working"
	l.say(say[0])
	l.say(say[1], "spacing", l.both(h.Spacing()))
	l.say(say[2], "interval", l.both(h.Interval()), "pairs", l.pairs(l.t.Pairs))
	l.centreLine()
	l.html.WriteString(parallel([]float64{-1, 1}, []string{l.mark(h.Spacing()), l.mark(h.Spacing())}, l.t.Lines.Title))
}

func startingPoint(l *lesson, say []string) {
	h := l.herringbone()
	s, u := h.Spacing(), h.Unit()/2
	l.lightLines(floor.Diagonal)
	_, at := l.Plan.Start()
	l.cross(at)
	l.closer(at, 1)
	l.lines = "centre working diagonals start"
	l.say(say[0])
	l.say(say[1], "across", l.both(s), "back", l.both(s))
	l.back()
	l.html.WriteString(triangle(1, 1, [3]string{l.exact(s), l.exact(s), l.exact(u)}, 0, l.t.Point.Title))
	l.sum("√(" + l.bare(s) + "² + " + l.bare(s) + "²) = " + l.exact(u))
	l.fromWalls(at)
}

func startingBlock(l *lesson, say []string) {
	h := l.herringbone()
	diagonal := h.Length * math.Sqrt2
	l.lightRings(l.Plan.StartingBlock()...)
	_, at := l.Plan.Start()
	l.closer(at, 1.7)
	l.lines = "centre working start"
	l.say(say[0], "length", l.both(h.Length), "diagonal", l.both(diagonal))
	l.say(say[1])
	l.say(say[2])
	l.html.WriteString(triangle(1, 1, [3]string{l.mark(h.Length), l.mark(h.Length), l.exact(diagonal)}, 2, l.t.Block.Title))
	l.sum(l.bare(h.Length) + " × √2 = " + l.exact(diagonal))
}

// cross lights a place on the floor.
func (l *lesson) cross(at plane.Point) {
	const arm = 70 // mm
	l.light(false, at.Add(plane.Point{X: -arm}), at.Add(plane.Point{X: arm}))
	l.light(false, at.Add(plane.Point{Y: -arm}), at.Add(plane.Point{Y: arm}))
}

// back says how far back a start from the wall stands.
func (l *lesson) back() {
	if index, _ := l.Plan.Start(); index < 0 {
		step := l.blocks().Step()
		total := step * length.Length(-index)
		l.say(l.t.StepsBack, "n", strconv.Itoa(-index), "step", l.bare(step), "total", l.both(total))
	}
}

// fromWalls gives the readings by which a place is checked.
func (l *lesson) fromWalls(at plane.Point) {
	for _, r := range l.Plan.FromWalls(at) {
		l.reading(words.Fill(l.t.FromWall, "wall", floor.WallName(r.Wall, len(l.job.Room))), r.Distance)
	}
}
