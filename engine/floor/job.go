package floor

import (
	"errors"
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
)

// Pattern says which of the block patterns is laid.
type Pattern int

const (
	Herringbone Pattern = iota
	Chevron
)

// Start says where the first blocks are laid.
type Start int

const (
	FromCentre Start = iota // at the centre point, then to both ends
	FromWall                // as many whole steps back from the centre as the field allows
)

// Job is everything the floor is computed from. The zero value is a usable
// job: a plain herringbone in a room of 4200 by 3600 mm.
//
// Lengths are millimetres in the room frame: x to the right, y away from the
// near wall, corners in order round the room, either way.
type Job struct {
	Unit     length.Unit // in which readings are given
	Fraction int         // smallest mark of an inch tape: 16, 32 or 64; 0 means 16

	Room    []plane.Point    // corners of the outline; none means 4200 by 3600
	Tapes   []survey.Reading // or taped walls and diagonals
	Legs    []survey.Leg     // or walls in turn
	Share   bool             // whether the closing error of walls in turn is shared out
	Misfit  length.Length    // how far readings may disagree; 0 means survey.DefaultLimit
	Joins   []Join           // further rooms, in order
	Holes   [][]plane.Point  // corners of hearths, columns, islands
	Rounds  []Round          // round holes, which come after the others
	Bows    []Bow
	Scribes []Scribe
	Doors   []Door
	Windows []Window // of no effect on the layout

	Gap      length.Length // expansion gap at every wall and hole
	GapAt    []AtWall      // and at single walls
	Border   length.Length // width of the border between gap and field
	BorderAt []AtWall      // and along single walls, where the outermost strip makes up the difference
	// Strips is the widths of the border's strips, from the walls inward. With
	// any, Border is their sum.
	Strips []length.Length

	Pattern Pattern
	Width   length.Length // of a block; 0 means 70
	Length  length.Length // of a block, for chevron along its long edge; 0 means 350
	Strands int           // blocks side by side in a herringbone unit, 1 to 3; 0 means 1
	Mitre   float64       // chevron: degrees between long edge and axis; 0 means 45

	Axis   float64       // degrees from +y, counter-clockwise, to the spine's direction
	Centre *plane.Point  // nil means the middle of the outline's bounding box
	Line   LineSetting   // where the centre line comes from, if not from Axis and Centre
	Across length.Length // the pattern moved from the centre, to the right of the axis
	Along  length.Length // and along the axis
	Start  Start
}

// Limits of what is laid out.
const (
	MaxBlocks     = 300_000
	maxCorners    = 2_000
	maxHoles      = 200
	maxCoordinate = 1_000_000 // mm
	minWidth      = 5         // mm
	maxLength     = 6_000     // mm
	maxHead       = 10_000    // mm, of a window
	minMitre      = 25        // degrees
	maxMitre      = 75
)

// WithDefaults returns the job with every value that was left out filled in.
func (j Job) WithDefaults() Job {
	if j.Fraction == 0 {
		j.Fraction = 16
	}
	if len(j.Room) == 0 {
		j.Room = []plane.Point{{X: 0, Y: 0}, {X: 4200, Y: 0}, {X: 4200, Y: 3600}, {X: 0, Y: 3600}}
	}
	if len(j.Strips) > 0 {
		j.Border = 0
		for _, s := range j.Strips {
			j.Border += s
		}
	}
	if j.Width == 0 {
		j.Width = 70
	}
	if j.Length == 0 {
		j.Length = 350
	}
	if j.Strands == 0 {
		j.Strands = 1
	}
	if j.Mitre == 0 {
		j.Mitre = 45
	}
	if j.Centre == nil {
		low, high := plane.Ring(j.Room).Box()
		middle := low.Add(high).Times(0.5)
		j.Centre = &middle
	}
	return j
}

// Blocks returns the pattern of the job's blocks.
func (j Job) Blocks() pattern.Pattern {
	j = j.WithDefaults()
	if j.Pattern == Chevron {
		return pattern.Chevron{Width: j.Width, Length: j.Length, Mitre: j.Mitre}
	}
	return pattern.Herringbone{Width: j.Width, Length: j.Length, Strands: j.Strands}
}

// Tape returns the tape that the job's readings are given on.
func (j Job) Tape() length.Tape { return length.Tape{Unit: j.Unit, Fraction: j.Fraction} }

// Validate reports every value that cannot be used, in form order, as one
// *FieldError each, joined.
func (j Job) Validate() error {
	centred := j.Centre != nil
	j, err := j.surveyed()
	if err != nil {
		return err
	}
	j = j.WithDefaults()
	var errs []error
	refuse := func(bad bool, key, wrong, do string) {
		if bad {
			errs = append(errs, &FieldError{Key: key, Wrong: wrong, Do: do})
		}
	}
	refuse(j.Unit != length.Millimetres && j.Unit != length.Inches, "unit",
		"The unit is neither millimetres nor inches", "Choose one of them")
	refuse(j.Fraction != 16 && j.Fraction != 32 && j.Fraction != 64, "fraction",
		"The tape's smallest mark cannot be 1/"+strconv.Itoa(j.Fraction)+" in", "Choose 1/16, 1/32 or 1/64")
	errs = append(errs, j.roomErrors()...)
	notBelowZero := func(v length.Length, key, what string) {
		refuse(!(v >= 0 && v <= maxLength), key,
			"The "+what+" cannot be "+mm(float64(v)), "It can be from 0 to "+mm(maxLength))
	}
	notBelowZero(j.Gap, "gap", "gap")
	notBelowZero(j.Border, "border", "border")
	errs = append(errs, j.wallErrors()...)
	refuse(j.Pattern != Herringbone && j.Pattern != Chevron, "pattern",
		"The pattern is not known", "Choose herringbone or chevron")
	switch {
	case !(j.Width >= minWidth && j.Width <= maxLength):
		refuse(true, "block", "A block cannot be "+mm(float64(j.Width))+" wide", "Give a width of "+mm(minWidth)+" or more")
	case !(j.Length <= maxLength):
		refuse(true, "block", "A block cannot be "+mm(float64(j.Length))+" long", "Give a length of up to "+mm(maxLength))
	default:
		refuse(j.Length < j.Width, "block",
			"The block is "+mm(float64(j.Length))+" long and "+mm(float64(j.Width))+" wide, so it is shorter than it is wide",
			"Give the width first, then the length")
	}
	refuse(j.Strands < 1 || j.Strands > 3, "strands",
		"A herringbone of "+strconv.Itoa(j.Strands)+" strands side by side is not laid out", "Choose 1, 2 or 3")
	refuse(!(j.Mitre >= minMitre && j.Mitre <= maxMitre), "mitre",
		"The mitre angle cannot be "+degrees(j.Mitre), "Give 25 to 75 degrees between the long edge and the axis")
	refuse(!(math.Abs(j.Axis) <= 360), "axis", "The axis is not an angle", "Give degrees from -360 to 360")
	far := func(v float64) bool { return !(math.Abs(v) <= maxCoordinate) }
	refuse(centred && (far(j.Centre.X) || far(j.Centre.Y)), "centre",
		"The centre point is not a place within 1 km", "Check its two readings")
	refuse(far(float64(j.Across)) || far(float64(j.Along)), "shift",
		"The pattern cannot be moved that far", "Give a shift within 1 km")
	refuse(j.Start != FromCentre && j.Start != FromWall, "start",
		"The start is not known", "Start from the centre or from a wall")
	return errors.Join(errs...)
}

// roomErrors checks the outline and the holes in it.
func (j Job) roomErrors() []error {
	if err := outlineError("room", "outline", j.Room); err != nil {
		return []error{err}
	}
	if len(j.Holes) > maxHoles {
		return []error{&FieldError{Key: "hole",
			Wrong: "The room has " + count(len(j.Holes)) + " holes",
			Do:    "At most " + count(maxHoles) + " can be laid out"}}
	}
	var errs []error
	for h, hole := range j.Holes {
		name := "hole " + strconv.Itoa(h+1)
		if err := outlineError("hole", name, hole); err != nil {
			errs = append(errs, err)
			continue
		}
		if i, _, ok := ringsCross(j.Room, hole); ok {
			errs = append(errs, &FieldError{Key: "hole",
				Wrong: "The outline of " + name + " meets " + walls([]int{i}, len(j.Room)),
				Do:    "Keep it inside the room, or make it part of the outline",
				Walls: []int{i}})
			continue
		}
		if !plane.Inside(hole[0], j.Room) {
			errs = append(errs, &FieldError{Key: "hole",
				Wrong: "The outline of " + name + " lies outside the room",
				Do:    "Check its readings against the room's corners"})
			continue
		}
		for g, other := range j.Holes[:h] {
			_, _, cross := ringsCross(other, hole)
			if cross || len(other) > 0 && (plane.Inside(hole[0], other) || plane.Inside(other[0], hole)) {
				errs = append(errs, &FieldError{Key: "hole",
					Wrong: "Holes " + strconv.Itoa(g+1) + " and " + strconv.Itoa(h+1) + " lie on one another",
					Do:    "Join them into one outline"})
			}
		}
	}
	return errs
}

// ringsCross returns the first edges of two rings that have a point in common.
func ringsCross(a, b plane.Ring) (i, j int, ok bool) {
	for i := range a {
		p, q := a.Edge(i)
		for j := range b {
			if r, s := b.Edge(j); plane.EdgesTouch(p, q, r, s) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}
