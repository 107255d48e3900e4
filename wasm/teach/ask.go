package teach

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// The kinds of question: of a herringbone, then of a chevron.
const (
	askSpacing = iota
	askInterval
	askStep
	askStart
	askAcross
	askMitreStep
	askRise
	askTips
	kinds
)

// The slips that are known by what they give.
const (
	slipNone = iota
	slipHalfDiagonal
	slipDiagonal
	slipQuarterWidth
	slipHalfWidth
	slipOneBlock
	slipLength
	slipWidth
	slipHalfLength
	slipTimesRoot
	slipHalved
	slipItself
	slipSide
	slipTwice
	slipOverRoot
	slipToLine
	slipWhole
	slipSinCos
	slipTimesSin
	slipOverSin
	slip45
	slipTips
	slipNoMitre
	slipTan
	slipEnd
	slips
)

// slip is what a wrong way gives.
type slip struct {
	kind  int
	gives length.Length
}

// Question is a question about a block that the seed draws.
type Question struct {
	kind          int
	Width, Length length.Length
	Strands       int
	Mitre         float64       // of a chevron, in degrees; 0 for a herringbone
	Want          length.Length // the exact answer
	tape          length.Tape
	slips         []slip
}

// The blocks that are asked about: widths and lengths such as are sold, and
// lengths of whole widths.
var (
	widthsMm  = []float64{50, 60, 65, 70, 80, 90, 100, 120}
	lengthsMm = []float64{280, 300, 350, 400, 450, 500, 600, 750}
	widthsIn  = []float64{2, 2.25, 2.5, 2.75, 3, 3.5, 4, 5}
	lengthsIn = []float64{10, 12, 14, 15, 16, 18, 20, 24}
	mitres    = []float64{30, 40, 45, 50, 52.5, 55, 60}
)

// Ask draws a question: the same seed gives the same question on the same kind
// of floor and tape.
func Ask(job floor.Job, seed int) Question {
	r := rand.New(rand.NewPCG(uint64(seed), 45))
	pick := func(list []float64) length.Length { return length.Length(list[r.IntN(len(list))]) }
	q := Question{tape: job.Tape(), Strands: 1}
	unit := length.Millimetre
	widths, lengths := widthsMm, lengthsMm
	if job.Unit == length.Inches {
		unit, widths, lengths = length.Inch, widthsIn, lengthsIn
	}
	q.Width, q.Length = pick(widths), pick(lengths)
	if r.IntN(2) == 0 { // a whole number of widths
		q.Length = q.Width * length.Length(4+r.IntN(4))
	}
	q.Width, q.Length = q.Width*unit, q.Length*unit
	if job.Pattern == floor.Chevron {
		q.Mitre = float64(pick(mitres))
		q.kind = askAcross + r.IntN(kinds-askAcross)
		q.askChevron()
		return q
	}
	if r.IntN(5) == 0 {
		q.Strands = 2 + r.IntN(2)
		q.Length = max(q.Length, q.Width*length.Length(q.Strands+1))
	}
	q.kind = r.IntN(askAcross)
	q.askHerringbone()
	return q
}

func (q *Question) askHerringbone() {
	h := pattern.Herringbone{Width: q.Width, Length: q.Length, Strands: q.Strands}
	u, one, l := h.Unit(), pattern.Herringbone{Width: q.Width, Length: q.Length, Strands: 1}, q.Length
	switch q.kind {
	case askSpacing:
		q.Want = h.Spacing()
		q.slips = []slip{{slipOneBlock, one.Spacing()}, {slipHalfDiagonal, h.Step() / 2}, {slipDiagonal, h.Step()}, {slipQuarterWidth, u / 4},
			{slipHalfWidth, u / 2}, {slipLength, l * math.Sqrt2 / 4}, {slipHalved, h.Spacing() / 2}}
	case askInterval:
		q.Want = h.Interval()
		q.slips = []slip{{slipHalfLength, l / 2}, {slipTimesRoot, l * math.Sqrt2}, {slipItself, l}, {slipWidth, u / math.Sqrt2},
			{slipHalved, h.Interval() / 2}, {slipWidth, u * math.Sqrt2}}
	case askStep:
		q.Want = h.Step()
		q.slips = []slip{{slipOneBlock, one.Step()}, {slipSide, u}, {slipTwice, 2 * u}, {slipOverRoot, u / math.Sqrt2},
			{slipHalved, h.Step() / 4}, {slipLength, l * math.Sqrt2}, {slipLength, l / math.Sqrt2}}
	case askStart:
		q.Want = u / 2
		q.slips = []slip{{slipOneBlock, q.Width / 2}, {slipToLine, h.Spacing()}, {slipWhole, u}, {slipDiagonal, h.Step()}, {slipHalved, u / 4}, {slipLength, l / 2}}
	}
}

func (q *Question) askChevron() {
	c := pattern.Chevron{Width: q.Width, Length: q.Length, Mitre: q.Mitre}
	sin, cos := math.Sincos(q.Mitre * math.Pi / 180)
	s, k := length.Length(sin), length.Length(cos)
	w, l := q.Width, q.Length
	switch q.kind {
	case askAcross:
		q.Want = c.Interval()
		q.slips = []slip{{slipSinCos, l * k}, {slip45, l / math.Sqrt2}, {slipOverSin, l / s}, {slipItself, l}, {slipTips, c.TipToTip() * s}, {slipWidth, w * s}}
	case askMitreStep:
		q.Want = c.Step()
		q.slips = []slip{{slipTimesSin, w * s}, {slipSinCos, w / k}, {slip45, w * math.Sqrt2}, {slipItself, w}, {slipLength, l / s}}
	case askRise:
		q.Want = c.Rise()
		q.slips = []slip{{slipSinCos, l * s}, {slip45, l / math.Sqrt2}, {slipItself, l}, {slipTips, c.TipToTip() * k}, {slipWidth, w * k}}
	case askTips:
		q.Want = c.TipToTip()
		q.slips = []slip{{slipNoMitre, l}, {slipTan, l + w*s/k}, {slipEnd, l + c.Step()}, {slip45, l + w}}
	}
}

// Verdict is what is to be said of an answer.
type Verdict struct {
	Right     bool
	Off       length.Length // the answer less the right one
	WrongUnit bool
	slip      int
}

// near says whether a length is the other one, read from a tape: no further
// off than half of the smallest mark.
func (q Question) near(a, b length.Length) bool {
	mark := length.Millimetre
	if q.tape.Unit == length.Inches {
		mark = length.Inch / length.Length(max(q.tape.Fraction, 16))
	}
	const hair = 1e-6 // mm, for what arithmetic loses
	return math.Abs(float64(a-b)) <= float64(mark)/2+hair
}

// Judge judges an answer.
func (q Question) Judge(given length.Length) Verdict {
	v := Verdict{Off: given - q.Want}
	if v.Right = q.near(given, q.Want); v.Right {
		return v
	}
	best := math.Inf(1)
	for _, s := range q.slips {
		if off := math.Abs(float64(given - s.gives)); q.near(given, s.gives) && off < best {
			v.slip, best = s.kind, off
		}
	}
	for _, unit := range []length.Length{length.Inch, length.Centimetre} {
		v.WrongUnit = v.WrongUnit || v.slip == slipNone && (q.near(given/unit, q.Want) || q.near(given*unit, q.Want))
	}
	return v
}

// given writes the block that is asked about.
func (q Question) given(t *Texts) string {
	text := t.Given
	if q.Mitre > 0 {
		text = t.GivenChevron
	}
	return words.Fill(text, "width", reading.Plain(q.tape, q.Width), "length", reading.Plain(q.tape, q.Length),
		"strands", t.Strands[q.Strands-1], "angle", degrees(q.Mitre))
}

// AskHTML returns the question that a seed draws, with the field for its
// answer.
func AskHTML(o tables.Order, seed int) string {
	l := newLesson(o)
	q, t := Ask(l.job, seed), l.t
	asked := t.Asked[q.kind]
	l.html.WriteString(`<section class="lesson-step lesson-ask" aria-labelledby="lesson-title"` + markup.Attr("data-ask", strconv.Itoa(seed)) +
		markup.Attr("data-title", t.Question) + ` data-lines="centre working">`)
	l.put("p", "lesson-count", markup.Escape(t.Question))
	l.put("p", "lesson-given", markup.Escape(q.given(t)))
	l.html.WriteString(`<h2 class="lesson-title" id="lesson-title" tabindex="-1">` + markup.Escape(asked.Question) + "</h2>")
	l.put("p", "hint", markup.Escape(asked.Means))
	l.html.WriteString(`<div class="lesson-answer field"><label for="lesson-answer">` + markup.Escape(t.Answer) +
		`</label><input id="lesson-answer" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" aria-describedby="lesson-said">` +
		`<button type="button" id="lesson-check" class="primary" data-do="lesson" data-arg="check">` + markup.Escape(t.Check) + "</button></div>" +
		`<div id="lesson-said" class="lesson-said" role="status"></div>` +
		`<p id="lesson-score" class="lesson-score"></p>` +
		`<button type="button" id="lesson-another" data-do="lesson" data-arg="another">` + markup.Escape(t.Another) + "</button></section>")
	return l.html.String()
}

// longest is how long an answer may be.
const longest = 60

// CheckHTML returns what is to be said of an answer to the question of a seed.
// The element's data-right is yes or no, or empty when the answer was no
// length; data-score says how many were right of those asked, this one
// included when it is the first answer to it.
func CheckHTML(o tables.Order, seed int, text string, first bool, right, all int) string {
	l := newLesson(o)
	q, t := Ask(l.job, seed), l.t
	if runes := []rune(text); len(runes) > longest {
		text = string(runes[:longest])
	}
	given, err := length.Parse(text, l.job.Unit)
	if err != nil {
		example := "24.5"
		if l.job.Unit == length.Inches {
			example = "3-3/8"
		}
		return `<div data-right=""><p class="problem">` + markup.Escape(words.Fill(t.NotALength, "example", example)) + "</p></div>"
	}
	v := q.Judge(given)
	yes := "no"
	if v.Right {
		yes = "yes"
	}
	if first {
		all++
		if v.Right {
			right++
		}
	}
	score := words.Fill(t.Score, "right", strconv.Itoa(right), "all", strconv.Itoa(all))
	l.html.WriteString("<div" + markup.Attr("class", "lesson-verdict "+yes) + markup.Attr("data-right", yes) + markup.Attr("data-score", score) + ">")
	if v.Right {
		l.put("p", "", "<b>"+markup.Escape(t.Right)+"</b> "+markup.Escape(words.Fill(t.RightMark, "exact", l.exact(q.Want), "mark", l.mark(q.Want))))
	} else {
		says, by := t.TooLong, v.Off
		if by < 0 {
			says, by = t.TooShort, -by
		}
		l.put("p", "", "<b>"+markup.Escape(words.Fill(says, "by", l.exact(by)))+"</b>")
		if v.WrongUnit {
			l.put("p", "", markup.Escape(t.WrongUnit))
		} else if v.slip != slipNone {
			l.put("p", "lesson-slip", markup.Escape(t.Slips[v.slip]))
		}
	}
	l.html.WriteString("<details open><summary>" + markup.Escape(t.Working) + "</summary>")
	q.work(l)
	l.html.WriteString("</details></div>")
	return l.html.String()
}

// work draws and writes how the answer is come by.
func (q Question) work(l *lesson) {
	u := q.Width * length.Length(q.Strands)
	unit, long, wide, angle := l.bare(u), l.bare(q.Length), l.bare(q.Width), degrees(q.Mitre)+"°"
	mark, want := l.mark(u), l.exact(q.Want)
	if q.Strands > 1 {
		l.sum(strconv.Itoa(q.Strands) + " × " + wide + " = " + l.exact(u))
	}
	diagonal := u * math.Sqrt2
	c := pattern.Chevron{Width: q.Width, Length: q.Length, Mitre: q.Mitre}
	draw := func(base, rise length.Length, labels [3]string, result int) {
		l.html.WriteString(triangle(float64(base), float64(rise), labels, result, l.t.Working))
	}
	switch q.kind {
	case askSpacing:
		l.html.WriteString(square(mark, l.exact(diagonal), want, l.t.Working))
		l.sum("√(" + unit + "² + " + unit + "²) = " + l.exact(diagonal))
		l.sum(l.bare(diagonal) + " ÷ 4 = " + want)
	case askInterval:
		draw(1, 1, [3]string{want, "", l.mark(q.Length)}, 0)
		l.sum(long + " ÷ √2 = " + want)
	case askStep:
		draw(1, 1, [3]string{mark, mark, want}, 2)
		l.sum("√(" + unit + "² + " + unit + "²) = " + want)
	case askStart:
		s := l.exact(diagonal / 4)
		draw(1, 1, [3]string{s, s, want}, 2)
		l.sum(unit + " ÷ 2 = " + want)
	case askAcross:
		draw(c.Interval(), c.Rise(), [3]string{want, "", l.mark(q.Length)}, 0)
		l.sum(long + " × sin " + angle + " = " + want)
	case askMitreStep:
		draw(c.TipToTip()-c.Length, c.Width, [3]string{"", l.mark(q.Width), want}, 2)
		l.sum(wide + " ÷ sin " + angle + " = " + want)
	case askRise:
		draw(c.Interval(), c.Rise(), [3]string{"", want, l.mark(q.Length)}, 1)
		l.sum(long + " × cos " + angle + " = " + want)
	case askTips:
		more := c.TipToTip() - c.Length
		draw(more, c.Width, [3]string{l.exact(more), l.mark(q.Width), ""}, 0)
		l.sum(wide + " ÷ tan " + angle + " = " + l.exact(more))
		l.sum(long + " + " + l.bare(more) + " = " + want)
	}
}

// Answers is what is asked of this package: a step by its number, a question
// by its seed, or a question with an answer, as "check SEED FIRST RIGHT ALL
// ANSWER", with FIRST 1 for the first answer to it.
func Answers(o tables.Order, what string) string {
	name, rest, _ := strings.Cut(what, " ")
	part := append(strings.SplitN(rest, " ", 5), "", "", "", "", "")
	n := func(i int) int { v, _ := strconv.Atoi(part[i]); return v }
	switch name {
	case "ask":
		return AskHTML(o, n(0))
	case "check":
		return CheckHTML(o, n(0), part[4], part[1] == "1", n(2), n(3))
	}
	at, _ := strconv.Atoi(name)
	return Step(o, at)
}
