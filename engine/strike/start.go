package strike

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Start is where the starting block goes and what has to be true of it.
type Start struct {
	Point     plane.Point         // of the starting block: the tip of the first block that climbs to the right
	FromWalls []floor.WallReading // the wall on the left and the wall behind
	// Across and Along place the point from the job's centre point.
	Across, Along length.Length
	// Mark is where the line that the point stands on meets the wall behind,
	// and OnLine is from there forward along the line to the point.
	Mark   End
	OnLine length.Length

	// Side is the length of the edge that the first block lies along, Wide and
	// High are the starting block's extent across the axis and along it: both
	// the diagonal of a herringbone's square. A chevron starts against two
	// wedges, which make Wide and High together. A half for a side row, cut
	// along the axis, is half as wide and has the same Side.
	Side, Wide, High length.Length

	// Back is how many steps the point stands back from where it would be at
	// the centre, and Distance is how far that is.
	Back     int
	Distance length.Length
	// After so many units dry-laid in each of the two strands, which are
	// Blocks blocks, the middle of the end of the next unit that climbs to the
	// right is on the pattern's centre point. Of a chevron, the seam's lower
	// corner of the next pair is.
	Units, Blocks int
	Check         plane.Point
}

// Reading returns the distance along the line as the tape shows it.
func (s Start) Reading(t length.Tape) length.Reading { return t.Read(s.OnLine) }

// NewStart returns the start of a plan.
func NewStart(p *floor.Plan) Start {
	index, point := p.Start()
	origin, along := p.Axis()
	blocks := p.Pattern()
	s := Start{Point: point, FromWalls: p.FromWalls(point), Back: -index, Units: -index, Check: origin}
	s.Across, s.Along = p.FromCentre(point)
	s.Mark, s.OnLine, _ = room(p).ahead(point, along.Times(-1))
	s.Distance = length.Length(s.Back) * blocks.Step()
	s.Side = p.Job().Length
	s.Blocks = s.Units * (len(blocks.Columns(-1)) + len(blocks.Columns(0)))
	low, high := extent(blocks.StartingBlock(index))
	s.Wide, s.High = length.Length(high.X-low.X), length.Length(high.Y-low.Y)
	return s
}

// extent returns the box of several rings.
func extent(rings []plane.Ring) (low, high plane.Point) {
	low, high = plane.Point{X: math.Inf(1), Y: math.Inf(1)}, plane.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, r := range rings {
		a, b := r.Box()
		low = plane.Point{X: min(low.X, a.X), Y: min(low.Y, a.Y)}
		high = plane.Point{X: max(high.X, b.X), Y: max(high.Y, b.Y)}
	}
	return low, high
}

// FirstLine is where the first row lies on a floor that can only be laid one
// way, from one side wall to the other, as a floor nailed through its tongues
// has to be.
type FirstLine struct {
	Shift pattern.Shift // the balanced placing that it belongs to
	Seam  int           // the first seam in the field on the start's side
	// FromCentre is how far the first line, that seam's mean, lies from the
	// job's centre point, to the right of the axis.
	FromCentre length.Length
	// First and Last are what is left between the first seam and the line that
	// ends the field on the start's side, and between the last seam and that
	// on the other, abreast of the centre point. They are equal in a room
	// that is the same on both sides.
	First, Last length.Length
	Line        []Part // the first line, from wall to wall
	Lines       []Mark // the working lines of its seam
	Plan        *floor.Plan
}

// OneWay returns the first line in each of the four balanced placings, which
// finish evenly at both sides and both ends, for work that goes from the left
// wall (start Left) or the right one. The placing that leaves most beside the
// first and last seams comes first. A placing without a seam in the field
// beside the centre point is left out.
func OneWay(p *floor.Plan, start Facing) ([]FirstLine, error) {
	placings, err := Placings(p, 0)
	if err != nil {
		return nil, err
	}
	var list []FirstLine
	for _, placing := range placings {
		f := FirstLine{Shift: placing.Shift, Plan: placing.Plan}
		if f.place(start) {
			list = append(list, f)
		}
	}
	for i := 1; i < len(list); i++ { // four at most
		for j := i; j > 0 && list[j].least() > list[j-1].least()+tiny; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
	return list, nil
}

func (f FirstLine) least() length.Length { return min(f.First, f.Last) }

// place finds the first and the last seam abreast of the centre point.
func (f *FirstLine) place(start Facing) bool {
	origin, along := f.Plan.Axis()
	across, centre := right(along), *f.Plan.Job().Centre
	interval := float64(f.Plan.Pattern().Interval())
	shift := origin.Sub(centre).Dot(across)
	for _, c := range field(f.Plan).parts(centre, across) {
		low, high := c.Ends[0].Point.Sub(centre).Dot(across), c.Ends[1].Point.Sub(centre).Dot(across)
		if low > 0 || high < 0 {
			continue
		}
		first, last := int(math.Ceil((low-shift)/interval-1e-9)), int(math.Floor((high-shift)/interval+1e-9))
		if first > last {
			return false
		}
		left, right := length.Length(shift+float64(first)*interval-low), length.Length(high-shift-float64(last)*interval)
		f.Seam, f.First, f.Last = first, left, right
		if start == Right {
			f.Seam, f.First, f.Last = last, right, left
		}
		f.FromCentre = length.Length(shift + float64(f.Seam)*interval)
		f.Line = room(f.Plan).parts(centre.Add(across.Times(float64(f.FromCentre))), along)
		for _, m := range Marks(f.Plan) {
			if (m.Kind == Working || m.Kind == Seam) && m.Seam == f.Seam {
				f.Lines = append(f.Lines, m)
			}
		}
		return true
	}
	return false
}
