package strike

import (
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Kind says what a line is struck for.
type Kind int

const (
	Centre   Kind = iota // along the axis through the job's centre point
	Cross                // through the same point, square to the axis
	Spine                // the mean of the spine's seam, where the pattern is moved across from the centre line
	Origin               // square to the axis through the pattern's centre point, where that is moved along
	Working              // one of the pair on which the tips of a seam run
	Seam                 // a chevron's seam: its tips run on the seam itself
	Diagonal             // through the pattern's centre point, along one hand's blocks
	Border               // the line that the field is cut to, along one wall
)

// Mark is one line to be struck on the subfloor. The tips of a double or
// triple herringbone run on the working lines too, so they need no lines of
// their own.
type Mark struct {
	Kind Kind
	Seam int // working lines and seams: which one, 0 the spine's, negative on the left
	Side int // working lines: -1 left of the seam's mean, +1 right; diagonals: -1 climbs to the left, +1 to the right
	// Hole and Wall say along which wall a border line runs: Hole is 0 for the
	// outline and from 1 for the holes.
	Hole, Wall int
	Parts      []Part
}

// Part is a line from wall to wall, its ends in the line's direction: along
// the axis, or to the right across it. A border line runs from its wall's
// first corner to its last.
type Part struct {
	Ends [2]End
	Long length.Length // from end to end
}

// End is where a line ends, as the tape finds it.
type End struct {
	Hole, Wall int
	Corner     int // that the tape is hooked on: always the first of the wall's two
	// Distance is how far along the wall. Along a bowed or scribed wall it is
	// measured on the straight line between the wall's corners, and squared
	// off from that line to the wall.
	Distance length.Length
	// Offset is how far square off the wall into the room. It is 0 for a line
	// that runs up to the wall; a border line ends off its wall. From a bowed
	// wall it is measured from the straight line between the wall's corners.
	Offset length.Length
	Bowed  bool // the wall is bowed or scribed
	Point  plane.Point
}

// Reading returns the distance along the wall as the tape shows it.
func (e End) Reading(t length.Tape) length.Reading { return t.Read(e.Distance) }

// OffsetReading returns the distance off the wall as the tape shows it.
func (e End) OffsetReading(t length.Tape) length.Reading { return t.Read(e.Offset) }

// Marks returns every line to strike, in the order of work: centre line,
// cross line, the spine's own lines where the pattern is moved off those, the
// pair of working lines of every seam that crosses the field from left to
// right (of a chevron, the seam), the diagonals and the border line of every
// wall that has a border. Ends lie at the room's walls.
func Marks(p *floor.Plan) []Mark { return append(struck(p, room(p)), borders(p)...) }

// OnBorder returns the same lines with their ends on the outline of the field
// instead: Wall and Corner name the wall that the border line runs along, and
// Distance is taken along the border line from its own corner at that end. It
// is for setting lines out again once the border line has been struck.
func OnBorder(p *floor.Plan) []Mark { return struck(p, field(p)) }

// struck returns the lines that run from edge to edge of a boundary.
func struck(p *floor.Plan, b boundary) []Mark {
	origin, along := p.Axis()
	across := right(along)
	job := p.Job()
	var marks []Mark
	add := func(m Mark, q, dir plane.Point) {
		if m.Parts = b.parts(q, dir); len(m.Parts) > 0 {
			marks = append(marks, m)
		}
	}
	add(Mark{Kind: Centre}, *job.Centre, along)
	add(Mark{Kind: Cross}, *job.Centre, across)
	if job.Across != 0 {
		add(Mark{Kind: Spine}, origin, along)
	}
	if job.Along != 0 {
		add(Mark{Kind: Origin}, origin, across)
	}
	blocks := p.Pattern()
	for _, l := range p.Lines() {
		if l.Kind != floor.WorkingLine {
			continue
		}
		m := Mark{Kind: Working, Seam: l.Seam, Side: l.Side}
		if l.Side == 0 {
			m.Kind = Seam
		}
		x := p.Seam(l.Seam) + length.Length(l.Side)*blocks.Spacing()
		add(m, origin.Add(across.Times(float64(x))), along)
	}
	up := climb(blocks)
	add(Mark{Kind: Diagonal, Side: -1}, origin, along.Times(up.Y).Sub(across.Times(up.X)))
	add(Mark{Kind: Diagonal, Side: 1}, origin, along.Times(up.Y).Add(across.Times(up.X)))
	return marks
}

// climb returns the direction in the pattern frame of blocks that climb to the right.
func climb(blocks pattern.Pattern) plane.Point {
	k := 0
	if blocks.Columns(0)[0].Hand == pattern.LeftHand {
		k = 1
	}
	block := blocks.Columns(k)[0].Block
	d := block[1].Sub(block[0])
	if d.Y < 0 {
		d = d.Times(-1)
	}
	return d.Times(1 / d.Length())
}

// borders returns the border line of every wall that has a border.
func borders(p *floor.Plan) []Mark {
	var marks []Mark
	job := p.Job()
	for _, w := range field(p).walls {
		width := job.Border
		if w.hole == 0 {
			for _, a := range job.BorderAt {
				if a.Wall == w.number {
					width = a.Length
				}
			}
		}
		if width <= 0 {
			continue
		}
		straight := w // from corner to corner of the room
		straight.from, straight.to = p.Chord(w.hole, w.number)
		from, along, inward := straight.from, straight.unit(), straight.outward().Times(-1)
		part := Part{Long: length.Length(w.to.Sub(w.from).Length())}
		for k, q := range [2]plane.Point{w.from, w.to} {
			e := w.end(q)
			e.Distance = length.Length(q.Sub(from).Dot(along))
			e.Offset = length.Length(q.Sub(from).Dot(inward))
			part.Ends[k] = e
		}
		marks = append(marks, Mark{Kind: Border, Hole: w.hole, Wall: w.number, Parts: []Part{part}})
	}
	return marks
}
