package paper

import (
	"math"
	"strconv"
	"strings"

	"keelrow/engine/files"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

// drawing is a picture in millimetres of paper, y downward.
type drawing struct {
	wide, high float64
	body       strings.Builder
}

// num writes a coordinate.
func num(v float64) string { return strconv.FormatFloat(v+0, 'f', 2, 64) }

// html returns the finished drawing.
func (d *drawing) html() html {
	return html(`<svg width="` + num(d.wide) + `mm" height="` + num(d.high) + `mm" viewBox="0 0 ` + num(d.wide) + ` ` + num(d.high) + `">` +
		d.body.String() + `</svg>`)
}

// path draws points one after the other; closed joins the last to the first.
func (d *drawing) path(class string, closed bool, lists ...[]plane.Point) {
	d.body.WriteString(`<path class="` + class + `" d="`)
	for _, list := range lists {
		for i, p := range list {
			letter := "L"
			if i == 0 {
				letter = "M"
			}
			d.body.WriteString(letter + num(p.X) + " " + num(p.Y))
		}
		if closed {
			d.body.WriteByte('Z')
		}
	}
	d.body.WriteString(`"/>`)
}

// How large letters are drawn: 10 pt, and the letters of corners.
const (
	letters = 3.53
	large   = 4.6
)

// label writes text with its middle at a point, turned clockwise by degrees,
// on a ground that keeps lines away from it.
func (d *drawing) label(class string, at plane.Point, turn float64, s string) {
	size := letters
	if class == "corner" {
		size = large
	}
	wide, high := float64(len([]rune(s)))*size*0.56+1, size*1.1
	place := ` transform="translate(` + num(at.X) + ` ` + num(at.Y) + `)`
	if turn != 0 {
		place += ` rotate(` + num(turn) + `)`
	}
	d.body.WriteString(`<g` + place + `"><rect class="ground" x="` + num(-wide/2) + `" y="` + num(-high/2) + `" width="` + num(wide) + `" height="` + num(high) +
		`"/><text class="` + class + `" y="` + num(size*0.36) + `">` + string(text(s)) + `</text></g>`)
}

// upright returns the turn, in degrees clockwise on paper, at which text along
// a direction on paper is read from below or from the right.
func upright(along plane.Point) float64 {
	turn := math.Atan2(along.Y, along.X) * 180 / math.Pi
	if turn > 89.9 {
		turn -= 180
	} else if turn <= -90.1 {
		turn += 180
	}
	return turn
}

// scales offered, as so many mm of floor for each of paper: round numbers, and
// for a tape in inches those of a foot to a part of an inch.
var (
	metricScales = [...]float64{1, 2, 5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000}
	inchScales   = [...]float64{1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 360, 480, 720, 960}
)

// plan is the room on paper.
type plan struct {
	drawing
	w     *writer
	scale float64 // mm of floor for each mm of paper
	shift plane.Point
}

// newPlan returns an empty plan of the room, as large as a round scale allows,
// with a margin for what is written outside the walls.
func (w *writer) newPlan(margin, most float64) *plan {
	low, high := w.Plan.Room()[0].Box()
	size := high.Sub(low)
	need := max(size.X/(w.width-2*margin), size.Y/(most-2*margin))
	scale := 0.0
	list := metricScales[:]
	if w.tape.Unit == length.Inches {
		list = inchScales[:]
	}
	for _, s := range list {
		if s >= need {
			scale = s
			break
		}
	}
	if scale == 0 {
		scale = math.Ceil(need/100) * 100
	}
	p := &plan{w: w, scale: scale}
	p.wide, p.high = w.width, size.Y/scale+2*margin
	p.shift = plane.Point{X: p.wide/2 - (low.X+high.X)/2/scale, Y: margin + high.Y/scale}
	return p
}

// at returns where a point of the room is on paper.
func (p *plan) at(q plane.Point) plane.Point {
	return plane.Point{X: p.shift.X + q.X/p.scale, Y: p.shift.Y - q.Y/p.scale}
}

func (p *plan) all(list []plane.Point) []plane.Point {
	out := make([]plane.Point, len(list))
	for i, q := range list {
		out[i] = p.at(q)
	}
	return out
}

func (p *plan) rings(class string, rings []plane.Ring) {
	var lists [][]plane.Point
	for _, r := range rings {
		lists = append(lists, p.all(r))
	}
	if len(lists) > 0 {
		p.path(class, true, lists...)
	}
}

// planShare is how much of a sheet's height a plan may take.
const planShare = 0.66

// mostLetters is how many corners are lettered.
const mostLetters = 40

// walls draws the walls with doorways, corners and their letters.
func (p *plan) walls() {
	w := p.w
	p.rings("wall", w.Plan.Room())
	for _, door := range w.job.Doors {
		near, far, out := files.Doorway(w.Plan, door)
		tick := out.Times(2.2 * p.scale)
		p.path("opening", false, p.all([]plane.Point{near, far}))
		p.path("jamb", false, p.all([]plane.Point{near.Sub(tick.Times(0.5)), near.Add(tick)}), p.all([]plane.Point{far.Sub(tick.Times(0.5)), far.Add(tick)}))
	}
	letter := func(hole int, outline plane.Ring) {
		if len(outline) > mostLetters {
			return
		}
		for i, at := range files.Letters(outline, 4.6*p.scale) {
			name := floor.CornerName(i)
			p.label("corner", p.at(at), 0, ofHole(hole, name))
		}
	}
	letter(0, w.job.Room)
	for h, hole := range w.job.Holes {
		low, high := plane.Ring(hole).Box()
		if size := high.Sub(low); min(size.X, size.Y) > 24*p.scale { // else letters would lie on one another
			letter(h+1, hole)
			continue
		}
		p.label("corner", p.at(low.Add(high).Times(0.5)), 0, strconv.Itoa(h+1))
	}
}

// lettered says whether the letter of a corner of the outline stands at a point
// of the room.
func (p *plan) lettered(at plane.Point) bool {
	if len(p.w.job.Room) > mostLetters {
		return false
	}
	for _, q := range files.Letters(p.w.job.Room, 4.6*p.scale) {
		if q.Sub(at).Length() < 5*p.scale {
			return true
		}
	}
	return false
}

// away returns the unit vector that points out of the room at a wall, on the
// floor.
func (p *plan) away(hole, wall int) plane.Point {
	from, to := p.w.Plan.Chord(hole, wall)
	d := to.Sub(from)
	d = d.Times(1 / d.Length())
	ring := plane.Ring(p.w.job.Room)
	if hole > 0 {
		ring = p.w.job.Holes[hole-1]
	}
	out := plane.Point{X: d.Y, Y: -d.X}
	if (ring.Area() < 0) != (hole > 0) {
		out = out.Times(-1)
	}
	return out
}

// beside writes text along a wall, outside the room. A wall too short for it
// has it in the lists only.
func (p *plan) beside(hole, wall int, at plane.Point, off float64, s string) {
	from, to := p.w.Plan.Chord(hole, wall)
	along := p.at(to).Sub(p.at(from))
	if along.Length() < float64(len([]rune(s)))*2+8 {
		return
	}
	p.label("", p.at(at.Add(p.away(hole, wall).Times(off*p.scale))), upright(along), s)
}

// lines draws lines of a kind to strike.
func (p *plan) lines(class string, marks []strike.Mark, kinds ...strike.Kind) {
	var lists [][]plane.Point
	for _, m := range marks {
		for _, k := range kinds {
			if m.Kind != k {
				continue
			}
			for _, part := range m.Parts {
				lists = append(lists, p.all([]plane.Point{part.Ends[0].Point, part.Ends[1].Point}))
			}
		}
	}
	if len(lists) > 0 {
		p.path(class, false, lists...)
	}
}

// bar draws how long a round length is on this plan, below it on the left, for
// a sheet that was printed at another size.
func (p *plan) bar() html {
	unit, name := length.Metre, "1 m"
	if p.w.tape.Unit == length.Inches {
		unit, name = 3*length.Foot, "3 ft"
	}
	long := float64(unit) / p.scale
	for long > 60 { // a small room
		unit /= 10
		long, name = long/10, p.w.exact(unit)
	}
	d := drawing{wide: long + 24, high: 6}
	d.path("bar", false, []plane.Point{{X: 0.3, Y: 1.5}, {X: 0.3, Y: 4.5}}, []plane.Point{{X: 0.3, Y: 3}, {X: 0.3 + long, Y: 3}},
		[]plane.Point{{X: 0.3 + long, Y: 1.5}, {X: 0.3 + long, Y: 4.5}})
	d.body.WriteString(`<text class="start" x="` + num(long+2) + `" y="4.3">` + name + `</text>`)
	return d.html()
}

// put puts the plan on the sheet, with its scale beneath and what else there
// is to say of it.
func (p *plan) put(more html) {
	p.w.put(p.high, p.html())
	p.w.put(8, el("div", "scale", p.bar()+el("span", "", text(p.w.scaleText(p.scale)))+more))
}
