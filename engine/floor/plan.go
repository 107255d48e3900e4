// Package floor turns a job into a plan: the field, every block in it, the
// lines to strike and the order of laying.
//
// Lengths are millimetres, areas mm². The room frame has x to the right and y
// away from the near wall; the pattern frame has its origin at the pattern's
// centre point and +y along the spine. Nothing here knows about a browser, a
// clock or a link.
package floor

import (
	"iter"
	"math"

	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Plan is the floor computed from a job. Strands are laid out when they are
// first asked for. A Plan is not safe for use by several goroutines at once.
type Plan struct {
	job    Job
	blocks pattern.Pattern
	rings  []walled     // the room
	beds   []walled     // the room less the gap: outer edge of the border
	fields []walled     // what the pattern covers
	field  []plane.Ring // the same, without walls
	frame  frame

	first, last int // strands that can reach into the field
	strands     []*Strand
	layout      layout
	start       int
	beside      [2][][]neighbour // of the columns of even and of odd strands
}

// frame takes the pattern frame to the room frame.
type frame struct {
	origin   plane.Point
	cos, sin float64
}

func (f frame) direction(p plane.Point) plane.Point { return p.Turned(f.cos, f.sin) }
func (f frame) point(p plane.Point) plane.Point     { return f.origin.Add(f.direction(p)) }
func (f frame) inverse(p plane.Point) plane.Point {
	return p.Sub(f.origin).Turned(f.cos, -f.sin)
}

// New checks the job and computes its field. The error joins one *FieldError
// for each value that cannot be used.
func New(job Job) (*Plan, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	job, err := job.surveyed()
	if err != nil {
		return nil, err
	}
	p := &Plan{job: job.WithDefaults(), blocks: job.Blocks()}
	if p.rings, err = p.job.rings(); err != nil {
		return nil, err
	}
	if err := p.job.setLine(); err != nil {
		return nil, err
	}
	if p.beds, err = inset(p.rings, p.job.gapAt, "gap", "gap"); err != nil {
		return nil, err
	}
	both := func(hole, wall int) length.Length { return p.job.gapAt(hole, wall) + p.job.borderAt(hole, wall) }
	if p.fields, err = inset(p.rings, both, "border", "gap and border"); err != nil {
		return nil, err
	}
	p.field = plain(p.fields)
	if err := p.countable(); err != nil {
		return nil, err
	}
	cos, sin := turn(p.job.Axis)
	p.frame = frame{cos: cos, sin: sin}
	p.frame.origin = p.job.Centre.Add(p.frame.direction(
		plane.Point{X: float64(p.job.Across), Y: float64(p.job.Along)}))
	p.spread()
	p.start = p.startIndex()
	return p, nil
}

// turn returns cosine and sine of an angle in degrees, exact at quarter turns
// so that walls along the axis stay along the axis.
func turn(degrees float64) (cos, sin float64) {
	if quarter := degrees / 90; quarter == math.Trunc(quarter) {
		switch (int(quarter)%4 + 4) % 4 {
		case 0:
			return 1, 0
		case 1:
			return 0, 1
		case 2:
			return -1, 0
		default:
			return 0, -1
		}
	}
	sin, cos = math.Sincos(degrees * math.Pi / 180)
	return cos, sin
}

// countable refuses a field of more blocks than are laid out. A block at the
// edge counts for the length of edge that can cut it.
func (p *Plan) countable() error {
	area, edges := 0.0, 0.0
	for _, ring := range p.field {
		area += ring.Area()
		edges += ring.Perimeter()
	}
	blocks := area/p.blocks.BlockArea() + edges/float64(p.job.Width)
	if blocks <= MaxBlocks {
		return nil
	}
	whole := count(math.MaxInt32)
	if blocks < math.MaxInt32 {
		whole = count(int(blocks))
	}
	return &FieldError{Key: "block",
		Wrong: "This floor takes about " + whole + " blocks, more than the " + count(MaxBlocks) + " that are laid out at once",
		Do:    "Make the blocks larger or lay out a part of the room"}
}

// spread moves the field's edges to the pattern frame and finds the strands
// that can reach into it.
func (p *Plan) spread() {
	low, high, length := math.Inf(1), math.Inf(-1), 0.0
	for r, ring := range p.field {
		length += ring.Perimeter()
		for i := range ring {
			a, b := ring.Edge(i)
			e := edge{a: p.frame.inverse(a), b: p.frame.inverse(b), ring: r}
			e.low, e.high = plane.Ring{e.a, e.b}.Box()
			low, high = min(low, e.low.X), max(high, e.high.X)
			p.layout.edges = append(p.layout.edges, e)
		}
	}
	// A wall cuts about a block for each width of a block.
	p.layout.store = int(min(max(length/float64(p.job.Width), leastStore), mostStore))
	interval := float64(p.blocks.Interval())
	// Blocks reach over a seam's mean by at most their unit's diagonal.
	over := float64(p.blocks.Step())
	p.first = int(math.Floor((low-over)/interval)) - 1
	p.last = int(math.Ceil((high+over)/interval)) + 1
	p.strands = make([]*Strand, p.last-p.first+1)
}

// Job returns the job with every default filled in.
func (p *Plan) Job() Job { return p.job }

// Blocks returns the pattern of the blocks.
func (p *Plan) Pattern() pattern.Pattern { return p.blocks }

// Room returns the outline of the room, counter-clockwise, then its holes,
// clockwise.
func (p *Plan) Room() []plane.Ring { return plain(p.rings) }

// Bed returns the room less the gap in the same form: the outer edge of the
// border.
func (p *Plan) Bed() []plane.Ring { return plain(p.beds) }

// Field returns what the pattern covers, in the same form.
func (p *Plan) Field() []plane.Ring { return p.field }

// FieldArea returns the area of the field in mm².
func (p *Plan) FieldArea() float64 {
	var area float64
	for _, ring := range p.field {
		area += ring.Area()
	}
	return area
}

// Span returns the numbers of the outermost strands that may reach into the
// field.
func (p *Plan) Span() (first, last int) { return p.first, p.last }

// Strand returns strand k. Its lists belong to the plan.
func (p *Plan) Strand(k int) *Strand {
	if k < p.first || k > p.last {
		return &Strand{}
	}
	s := &p.strands[k-p.first]
	if *s == nil {
		laid := p.layout.strand(p.blocks.Columns(k), float64(p.blocks.Step()), p.blocks.BlockArea(), p.frame)
		*s = &laid
	}
	return *s
}

// Strands yields the strands that reach into the field, from left to right,
// with their numbers.
func (p *Plan) Strands() iter.Seq2[int, *Strand] {
	return func(yield func(int, *Strand) bool) {
		for k := p.first; k <= p.last; k++ {
			if s := p.Strand(k); s.Count.Full+s.Count.Cut > 0 && !yield(k, s) {
				return
			}
		}
	}
}

// Count adds up all strands.
func (p *Plan) Count() Count {
	var all Count
	for _, s := range p.Strands() {
		all = all.Add(s.Count)
	}
	return all
}

// CountHand adds up the strands of one hand.
func (p *Plan) CountHand(hand pattern.Hand) Count {
	var all Count
	for _, s := range p.Strands() {
		if s.Columns[0].Hand == hand {
			all = all.Add(s.Count)
		}
	}
	return all
}

// Tip returns the place of the leading corner of block i of strand k.
func (p *Plan) Tip(k, i int) plane.Point { return p.frame.point(p.blocks.Tip(k, i)) }

// Start returns the index of the first blocks to be laid, in every strand,
// and where the point of the starting block goes: 0 from the centre, below 0
// from a wall.
func (p *Plan) Start() (index int, point plane.Point) { return p.start, p.Tip(-1, p.start) }

// startIndex counts how many steps back from the centre the starting block
// still lies in the field.
func (p *Plan) startIndex() int {
	if p.job.Start == FromCentre {
		return 0
	}
	index := 0
	for p.fits(p.blocks.StartingBlock(index - 1)) {
		index--
	}
	return index
}

// fits says whether outlines given in the pattern frame lie in the field.
func (p *Plan) fits(outlines []plane.Ring) bool {
	for _, outline := range outlines {
		moved := make(plane.Ring, len(outline))
		for i, q := range outline {
			moved[i] = p.frame.point(q)
		}
		if !plane.Inside(moved[0], p.field...) {
			return false
		}
		for _, ring := range p.field {
			if _, _, cross := ringsCross(ring, moved); cross {
				return false
			}
		}
	}
	return true
}

// StartingBlock returns, in the room frame, the outlines of what the first
// row is set against.
func (p *Plan) StartingBlock() []plane.Ring { return p.toRoom(p.blocks.StartingBlock(p.start)) }

// StartingHalf returns, in the room frame, the half that strand k is set
// against when its row starts.
func (p *Plan) StartingHalf(k int) plane.Ring {
	return p.toRoom([]plane.Ring{p.blocks.StartingHalf(k, p.start)})[0]
}

func (p *Plan) toRoom(rings []plane.Ring) []plane.Ring {
	out := make([]plane.Ring, len(rings))
	for r, ring := range rings {
		for _, q := range ring {
			out[r] = append(out[r], p.frame.point(q))
		}
	}
	return out
}

// Seam returns how far the mean of seam j lies to the right of the pattern's
// centre point, across the axis.
func (p *Plan) Seam(j int) length.Length { return length.Length(j) * p.blocks.Interval() }
