package floor

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// LineKind says what a line is struck for.
type LineKind int

const (
	CentreLine  LineKind = iota // the mean of the spine's seam
	WorkingLine                 // one of the pair on which the tips of a seam run
	Diagonal                    // through the centre point, along one hand's blocks
)

// Line is a straight line to be struck on the subfloor, in the parts of it
// that lie between walls, in the room frame.
type Line struct {
	Kind  LineKind
	Seam  int // working lines: which seam, 0 at the centre line
	Side  int // working lines: -1 left of the seam's mean, +1 right, 0 when both are one; diagonals: -1 climbs to the left, +1 to the right
	Parts [][2]plane.Point
}

// Lines returns the lines the rows are laid by: the centre line, the working
// lines of every seam that crosses the field, from left to right, and the
// two diagonals.
func (p *Plan) Lines() []Line {
	lines := []Line{p.line(CentreLine, 0, 0, plane.Point{}, plane.Point{Y: 1})}
	spacing := float64(p.blocks.Spacing())
	low, high := math.Inf(1), math.Inf(-1)
	for _, e := range p.layout.edges {
		low, high = min(low, e.a.X), max(high, e.a.X)
	}
	interval := float64(p.blocks.Interval())
	for j := int(math.Ceil(low / interval)); float64(j)*interval <= high; j++ {
		sides := []int{-1, 1}
		if spacing == 0 {
			sides = []int{0}
		}
		for _, side := range sides {
			x := float64(j)*interval + float64(side)*spacing
			lines = append(lines, p.line(WorkingLine, j, side, plane.Point{X: x}, plane.Point{Y: 1}))
		}
	}
	up := p.climb()
	return append(lines,
		p.line(Diagonal, 0, -1, plane.Point{}, plane.Point{X: -up.X, Y: up.Y}),
		p.line(Diagonal, 0, 1, plane.Point{}, up))
}

// climb returns the direction, in the pattern frame, in which blocks that
// climb to the right lie.
func (p *Plan) climb() plane.Point {
	if p.job.Pattern == Chevron {
		sin, cos := math.Sincos(p.job.Mitre * math.Pi / 180)
		return plane.Point{X: sin, Y: cos}
	}
	return plane.Point{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}
}

// line returns the parts in the room of a line given in the pattern frame.
func (p *Plan) line(kind LineKind, seam, side int, through, along plane.Point) Line {
	l := Line{Kind: kind, Seam: seam, Side: side}
	at, dir := p.frame.point(through), p.frame.direction(along)
	for _, s := range plane.Stretches(at, dir, p.Room()...) {
		l.Parts = append(l.Parts, [2]plane.Point{at.Add(dir.Times(s.From)), at.Add(dir.Times(s.To))})
	}
	return l
}

// WallReading is how far a point lies from a wall, measured square to it.
type WallReading struct {
	Wall     int // as the outline was given
	Distance length.Length
	Foot     plane.Point // where the tape meets the wall's line
}

// FromWalls reads a point in the room from two walls: the one met going left
// of the axis, and the one met going back along it. A point outside the room
// has none.
func (p *Plan) FromWalls(q plane.Point) []WallReading {
	var readings []WallReading
	for _, way := range []plane.Point{{X: -1}, {Y: -1}} {
		dir := p.frame.direction(way)
		nearest, wall := math.Inf(1), -1
		outline := p.rings[0].Ring
		for i := range outline {
			a, b := outline.Edge(i)
			s, ok := plane.Meet(q, dir, a, b.Sub(a))
			if !ok || s < 0 || s >= nearest {
				continue
			}
			t := q.Add(dir.Times(s)).Sub(a).Dot(b.Sub(a)) / b.Sub(a).Dot(b.Sub(a))
			if t >= 0 && t <= 1 {
				nearest, wall = s, i
			}
		}
		if wall < 0 || !plane.Inside(q, outline) {
			continue
		}
		a, b := outline.Edge(wall)
		along := b.Sub(a)
		foot := a.Add(along.Times(q.Sub(a).Dot(along) / along.Dot(along)))
		readings = append(readings, WallReading{p.rings[0].wall[wall], length.Length(q.Sub(foot).Length()), foot})
	}
	return readings
}

// FromCentre returns how far a point lies from the job's centre point, to the
// right of the axis and along it.
func (p *Plan) FromCentre(q plane.Point) (across, along length.Length) {
	d := q.Sub(*p.job.Centre).Turned(p.frame.cos, -p.frame.sin)
	return length.Length(d.X), length.Length(d.Y)
}
