package strike

import (
	"math"
	"slices"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// RunOut returns how far, at the worst, a line runs out at a distance beyond
// its base, when each of the two marks it is struck by is good to miss.
//
// The worst is one mark off to one side and the other off to the other. The
// line then starts from the nearer mark off by miss, and turns away by 2 miss
// in each base: miss + distance * 2 miss / base. A line squared off from the
// base turns by the same angle, so it runs out no more.
func RunOut(base, miss, distance length.Length) length.Length {
	return miss * (1 + 2*distance/base)
}

// BaseFor returns the shortest base whose run-out stays within limit. It
// reports false when the limit is no more than a mark's own error, which no
// base can mend.
func BaseFor(limit, miss, distance length.Length) (length.Length, bool) {
	if !(limit > miss) {
		return 0, false
	}
	return 2 * miss * distance / (limit - miss), true
}

// Base is a line that others can be set out from.
type Base struct {
	Across length.Length // of the job's centre point, to the right of the axis
	Part
}

// clearance is how far in mm a base line is kept from a wall that runs along
// it, so that it can be struck and measured from.
const clearance = 25

// LongestBase returns the longest line along the axis that can be struck in
// the room, the one nearest the centre line where several are as long. It
// reports false in a room where there is none.
//
// Between two corners the length of such lines changes evenly across the axis,
// so the longest lies beside a corner, a clearance off it.
func LongestBase(p *floor.Plan) (Base, bool) {
	_, along := p.Axis()
	across, centre := right(along), *p.Job().Centre
	b := room(p)
	var at []float64
	for _, ring := range b.rings {
		for _, q := range ring {
			at = append(at, q.Sub(centre).Dot(across))
		}
	}
	slices.Sort(at)
	at = slices.CompactFunc(at, func(x, y float64) bool { return math.Abs(x-y) <= tiny })
	tries := []float64{0}
	for i := range len(at) - 1 {
		if at[i+1]-at[i] <= 2*clearance {
			tries = append(tries, (at[i]+at[i+1])/2)
		} else {
			tries = append(tries, at[i]+clearance, at[i+1]-clearance)
		}
	}
	slices.SortFunc(tries, func(x, y float64) int {
		switch d := math.Abs(x) - math.Abs(y); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	best, found := Base{}, false
	for _, x := range tries {
		for _, part := range b.parts(centre.Add(across.Times(x)), along) {
			if !found || part.Long > best.Long+tiny {
				best, found = Base{length.Length(x), part}, true
			}
		}
	}
	return best, found
}

// Doorway is what a doorway gives to set out from, and what is seen from it.
type Doorway struct {
	Door   int         // its place in the job
	Middle plane.Point // on the line of the wall
	Base   length.Length
	Depth  length.Length // straight in from its middle to the wall opposite
	// Angle is how the spine's direction lies to someone who comes in, in
	// degrees, counter-clockwise from straight ahead: 0 when the tips point
	// away, 180 when they point at the door, 90 and -90 when the rows cross
	// the way in.
	Angle float64
	// Along says that the view is along the rows rather than across them.
	Along bool
	// Off is how far to the right of the doorway's middle, as one comes in, the
	// nearest seam's mean lies, looking along the rows; looking across them,
	// the nearest of the steps counted from the pattern's centre point.
	Off length.Length
}

// RunOut returns the run-out at the wall opposite of a line set out from two
// marks at the jambs, each good to miss.
func (d Doorway) RunOut(miss length.Length) length.Length { return RunOut(d.Base, miss, d.Depth) }

// Doorways returns every doorway of the job.
func Doorways(p *floor.Plan) []Doorway {
	var list []Doorway
	origin, along := p.Axis()
	across := right(along)
	b := room(p)
	for i, door := range p.Job().Doors {
		from, to := p.Chord(0, door.Wall)
		u := to.Sub(from).Times(1 / to.Sub(from).Length())
		d := Doorway{Door: i, Middle: from.Add(u.Times(float64(door.At + door.Width/2))), Base: door.Width}
		var in plane.Point
		for _, w := range b.walls {
			if w.hole == 0 && w.number == door.Wall {
				in = w.outward().Times(-1)
			}
		}
		// From within the room, or a wall that bows out hides the one opposite.
		for _, c := range b.crossings(d.Middle, in) {
			if w := b.walls[c.wall]; c.at > tiny && !(w.hole == 0 && w.number == door.Wall) {
				d.Depth = length.Length(c.at)
				break
			}
		}
		d.Angle = math.Atan2(in.Cross(along), in.Dot(along)) * 180 / math.Pi
		d.Along = math.Abs(in.Dot(along)) >= math.Abs(in.Cross(along))
		way, repeat := across, float64(p.Pattern().Interval())
		if !d.Along {
			way, repeat = along, float64(p.Pattern().Step())
		}
		if way.Dot(right(in)) < 0 {
			way = way.Times(-1)
		}
		d.Off = length.Length(-math.Remainder(d.Middle.Sub(origin).Dot(way), repeat))
		list = append(list, d)
	}
	return list
}
