// Package teach writes the lesson: how a herringbone or chevron is set out and
// laid, step by step, with the numbers of the floor that is open, and questions
// to try. The desk uses it. Lengths are millimetres, read on the job's tape.
// Nothing here knows about a browser.
package teach

import (
	"math"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/wasm/markup"
	"keelrow/wasm/reading"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// lesson is one step being written.
type lesson struct {
	tables.Order
	t    *Texts
	job  floor.Job
	tape length.Tape
	html strings.Builder

	path     strings.Builder // what is lit on the floor, y downward
	lines    string          // which lines show
	from, to int             // the blocks that are laid while it is shown
	view     string          // the part of the floor that is looked at, if not all of it
}

// step is one step of the lesson.
type step struct {
	text  func(t *Texts) *Part
	write func(l *lesson, say []string)
}

// steps returns the steps for the pattern of a job.
func steps(p floor.Pattern) []step {
	if p == floor.Chevron {
		return chevron
	}
	return herringbone
}

// Steps returns how many steps the lesson on a job has.
func Steps(job floor.Job) int { return len(steps(job.Pattern)) }

// Step returns a step of the lesson by its number from 1 as HTML; a number out
// of range gives the nearest. The element's data attributes say what is to be
// seen on the floor: data-path an SVG path with y downward, data-lines the
// lines that show, data-from and data-to the blocks that are laid meanwhile,
// data-view the middle and the size of what is looked at, if not all of it.
func Step(o tables.Order, n int) string {
	l := newLesson(o)
	all := steps(l.job.Pattern)
	n = max(1, min(n, len(all)))
	s := all[n-1]
	part := s.text(l.t)
	l.put("p", "lesson-count", markup.Escape(words.Fill(l.t.StepOf, "n", strconv.Itoa(n), "all", strconv.Itoa(len(all)))))
	l.html.WriteString(`<h2 class="lesson-title" id="lesson-title" tabindex="-1">` + markup.Escape(part.Title) + "</h2>")
	s.write(l, part.Say)
	l.list(all, n)
	return `<section class="lesson-step" aria-labelledby="lesson-title"` +
		markup.Attr("data-step", strconv.Itoa(n)) + markup.Attr("data-of", strconv.Itoa(len(all))) + markup.Attr("data-title", part.Title) +
		markup.Attr("data-path", l.path.String()) + markup.Attr("data-lines", l.lines) + markup.Attr("data-view", l.view) +
		markup.Attr("data-from", strconv.Itoa(l.from)) + markup.Attr("data-to", strconv.Itoa(l.to)) + ">" + l.html.String() + "</section>"
}

func newLesson(o tables.Order) *lesson {
	job := o.Plan.Job()
	return &lesson{Order: o, t: In(o.Words.Lang), job: job, tape: job.Tape()}
}

// list is every step, to go to.
func (l *lesson) list(all []step, now int) {
	l.html.WriteString(`<details class="lesson-list"><summary>` + markup.Escape(l.t.AllSteps) + "</summary><ol>")
	for i, s := range all {
		current := ""
		if i+1 == now {
			current = ` aria-current="step"`
		}
		n := strconv.Itoa(i + 1)
		l.html.WriteString(`<li><button type="button" id="lesson-go-` + n + `" data-do="lesson" data-arg="` + n + `"` + current + ">" +
			n + ". " + markup.Escape(s.text(l.t).Title) + "</button></li>")
	}
	l.html.WriteString("</ol></details>")
}

// put writes an element with marked-up text.
func (l *lesson) put(tag, class, html string) {
	l.html.WriteString("<" + tag + markup.Attr("class", class) + ">" + html + "</" + tag + ">")
}

// say writes a sentence or two with names filled in, which stand out.
func (l *lesson) say(text string, pairs ...string) {
	for i := 1; i < len(pairs); i += 2 {
		pairs[i] = "<b>" + markup.Escape(pairs[i]) + "</b>"
	}
	l.put("p", "", words.Fill(markup.Escape(text), pairs...))
}

// sum writes a working in numbers.
func (l *lesson) sum(text string) { l.put("p", "sum", markup.Escape(text)) }

// mark is a length as the nearest mark of the tape, exact is it as a decimal
// number, and both is the one with the other where they differ.
func (l *lesson) mark(v length.Length) string  { return reading.Plain(l.tape, v) }
func (l *lesson) exact(v length.Length) string { return reading.Exact(l.tape, v) }

func (l *lesson) both(v length.Length) string {
	if math.Abs(float64(l.tape.Read(v).Off)) < 0.0005 {
		return l.mark(v)
	}
	return words.Fill(l.t.Exactly, "mark", l.mark(v), "exact", l.exact(v))
}

// bare is a length in the job's unit without its name, for within a sum.
func (l *lesson) bare(v length.Length) string {
	return strings.TrimSuffix(strings.TrimSuffix(l.exact(v), " mm"), " in")
}

// reading puts a length large, with shy or strong.
func (l *lesson) reading(what string, v length.Length) {
	l.put("p", "lesson-reading", `<span class="what">`+markup.Escape(what)+"</span> "+tables.Reading(l.Order, v))
}

// frame returns the point so far to the right of the pattern's centre point
// and so far along its axis.
func (l *lesson) frame(across, along length.Length) plane.Point {
	c, a := l.Plan.Axis()
	right := plane.Point{X: a.Y, Y: -a.X}
	return c.Add(right.Times(float64(across))).Add(a.Times(float64(along)))
}

// closer has the floor looked at from nearer: about a point, as far round it
// as so many blocks are long.
func (l *lesson) closer(at plane.Point, blocks float64) {
	l.view = markup.Num(at.X) + " " + markup.Num(at.Y) + " " + markup.Num(2*blocks*float64(l.job.Length))
}

// light lights lines from point to point, or closed outlines.
func (l *lesson) light(closed bool, points ...plane.Point) {
	for i, p := range points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		l.path.WriteString(letter + markup.Num(p.X) + " " + markup.Num(-p.Y))
	}
	if closed && len(points) > 0 {
		l.path.WriteByte('Z')
	}
}

// lightLines lights lines of one kind, of the spine's seam only if they belong
// to seams.
func (l *lesson) lightLines(kind floor.LineKind) {
	for _, line := range l.Plan.Lines() {
		if line.Kind == kind && line.Seam == 0 {
			for _, part := range line.Parts {
				l.light(false, part[0], part[1])
			}
		}
	}
}

func (l *lesson) lightRings(rings ...plane.Ring) {
	for _, r := range rings {
		l.light(true, r...)
	}
}

// rows returns the rows, how many there are of each stage, and the blocks that
// are laid when each stage is done. A row that can be laid only behind infill
// counts to what comes after.
func (l *lesson) rows() (rows []floor.Row, count [3]int, done [3]int) {
	for r := range l.Plan.Rows() {
		rows = append(rows, r)
		count[r.Stage]++
		end := r.First + r.Blocks()
		if r.Stage == floor.Spine || count[floor.Infill] == 0 {
			done[r.Stage] = end
		}
		done[floor.Infill] = end
	}
	if count[floor.Side] == 0 {
		done[floor.Side] = done[floor.Spine]
	}
	return rows, count, done
}

// few lays the first blocks of the spine and returns the first whole one of
// each hand, where there are any.
func (l *lesson) few() (blocks []floor.Block) {
	const some = 10
	l.closer(l.frame(0, 0), 1.2)
	for r := range l.Plan.Rows() {
		l.to = min(some, r.Blocks())
		for b := range l.Plan.Blocks(r) {
			if b.Full && len(blocks) < 2 && (len(blocks) == 0 || b.Hand != blocks[0].Hand) {
				blocks = append(blocks, b)
			}
			if len(blocks) == 2 {
				break
			}
		}
		break // the spine comes first
	}
	return blocks
}

func (l *lesson) lightBlocks(blocks []floor.Block) {
	for _, b := range blocks {
		l.light(true, b.Corners[:]...)
	}
}

func (l *lesson) blocks() pattern.Pattern { return l.Plan.Pattern() }
