package teach

import (
	"math"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/pattern"
)

// chevron is the lesson on a chevron.
var chevron = []step{
	{func(t *Texts) *Part { return &t.Mitre }, whyMitre},
	{func(t *Texts) *Part { return &t.Tips }, tipToTip},
	{func(t *Texts) *Part { return &t.ChevronStep }, chevronStep},
	{func(t *Texts) *Part { return &t.Rise }, rise},
	{func(t *Texts) *Part { return &t.ChevronInterval }, chevronInterval},
	{func(t *Texts) *Part { return &t.Seams }, seams},
	{func(t *Texts) *Part { return &t.Wedges }, wedges},
	{func(t *Texts) *Part { return &t.Spine }, spine},
	{func(t *Texts) *Part { return &t.Sides }, sides},
	{func(t *Texts) *Part { return &t.Infill }, infill},
	{func(t *Texts) *Part { return &t.Border }, border},
	{func(t *Texts) *Part { return &t.Edges }, edges},
}

func (l *lesson) chevron() pattern.Chevron {
	return pattern.Chevron{Width: l.job.Width, Length: l.job.Length, Mitre: l.job.Mitre}
}

// degrees writes an angle.
func degrees(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}

func whyMitre(l *lesson, say []string) {
	c := l.chevron()
	l.lightBlocks(l.few())
	l.lines = "centre"
	for _, s := range say {
		l.say(s, "angle", degrees(c.Mitre))
	}
	l.html.WriteString(meeting(pattern.Chevron{Width: 40, Length: 150, Mitre: c.Mitre}, c.Mitre, l.t.Mitre.Title))
}

func tipToTip(l *lesson, say []string) {
	c := l.chevron()
	more := c.TipToTip() - c.Length
	l.lightBlocks(l.few())
	l.lines = "centre"
	l.say(say[0], "length", l.both(c.Length), "width", l.both(c.Width), "more", l.both(more))
	l.say(say[1], "total", l.both(c.TipToTip()))
	l.html.WriteString(triangle(float64(more), float64(c.Width), [3]string{l.exact(more), l.mark(c.Width), ""}, 0, l.t.Tips.Title))
	l.sum(l.bare(c.Width) + " ÷ tan " + degrees(c.Mitre) + "° = " + l.exact(more))
	l.sum(l.bare(c.Length) + " + " + l.bare(more) + " = " + l.exact(c.TipToTip()))
}

func chevronStep(l *lesson, say []string) {
	c := l.chevron()
	l.few()
	l.light(false, l.frame(0, 0), l.frame(0, c.Step()))
	l.lines = "centre"
	l.say(say[0])
	l.say(say[1], "width", l.mark(c.Width), "step", l.both(c.Step()))
	base := float64(c.TipToTip() - c.Length)
	l.html.WriteString(triangle(base, float64(c.Width), [3]string{"", l.mark(c.Width), l.exact(c.Step())}, 2, l.t.ChevronStep.Title))
	l.sum(l.bare(c.Width) + " ÷ sin " + degrees(c.Mitre) + "° = " + l.exact(c.Step()))
	l.reading(l.t.Step, c.Step())
}

func rise(l *lesson, say []string) {
	c := l.chevron()
	l.few()
	l.light(false, l.frame(c.Interval(), 0), l.frame(c.Interval(), c.Rise()))
	l.lines = "centre"
	l.say(say[0], "rise", l.both(c.Rise()))
	l.say(say[1], "length", l.mark(c.Length))
	l.html.WriteString(triangle(float64(c.Interval()), float64(c.Rise()), [3]string{"", l.exact(c.Rise()), l.mark(c.Length)}, 1, l.t.Rise.Title))
	l.sum(l.bare(c.Length) + " × cos " + degrees(c.Mitre) + "° = " + l.exact(c.Rise()))
	l.reading(l.t.RiseName, c.Rise())
}

func chevronInterval(l *lesson, say []string) {
	c := l.chevron()
	l.few()
	l.light(false, l.frame(0, 0), l.frame(c.Interval(), 0))
	l.lines = "centre working"
	l.say(say[0])
	l.say(say[1], "length", l.mark(c.Length), "angle", degrees(c.Mitre), "interval", l.both(c.Interval()))
	l.html.WriteString(triangle(float64(c.Interval()), float64(c.Rise()), [3]string{l.exact(c.Interval()), "", l.mark(c.Length)}, 0, l.t.ChevronInterval.Title))
	l.sum(l.bare(c.Length) + " × sin " + degrees(c.Mitre) + "° = " + l.exact(c.Interval()))
	l.reading(l.t.IntervalName, c.Interval())
}

func seams(l *lesson, say []string) {
	c := l.chevron()
	l.lightLines(floor.WorkingLine)
	l.lightLines(floor.CentreLine)
	l.lines = "centre working"
	l.say(say[0])
	l.say(say[1], "interval", l.both(c.Interval()))
	l.say(say[2], "pairs", l.pairs(l.t.SeamLines))
	l.centreLine()
	l.html.WriteString(parallel([]float64{-1, 1}, []string{l.mark(c.Interval()), l.mark(c.Interval())}, l.t.Seams.Title))
}

func wedges(l *lesson, say []string) {
	c := l.chevron()
	l.lightRings(l.Plan.StartingBlock()...)
	_, at := l.Plan.Start()
	l.closer(at, 1.7)
	l.lines = "centre working start"
	l.say(say[0])
	l.say(say[1], "interval", l.both(c.Interval()), "rise", l.both(c.Rise()))
	l.back()
	l.html.WriteString(triangle(float64(c.Interval()), float64(c.Rise()), [3]string{l.mark(c.Interval()), l.mark(c.Rise()), l.mark(c.Length)}, 2, l.t.Wedges.Title))
	l.fromWalls(at)
}
