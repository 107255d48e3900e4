package floor

import (
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// LineFrom says where the centre line comes from.
type LineFrom int

const (
	LineTyped   LineFrom = iota // the job's Axis and Centre
	LineMidway                  // midway between walls A and B
	LineSquare                  // square to wall A, through the centre
	LineWall                    // square to wall A, through its middle
	LineDoor                    // square to the wall of doorway A, through the doorway's middle
	LineHole                    // along Axis, through the middle of hole A
	LineThrough                 // through two points, as a line goes on from another floor
)

// LineSetting is where the centre line comes from. Walls are numbered as the outline
// is given, doorways and holes from 0.
type LineSetting struct {
	From   LineFrom
	A, B   int
	Points [2]plane.Point
}

// alike is the cosine of how far, in a direction, walls may differ that run
// the same way: 30 degrees.
const alike = 0.866

// setLine works out Axis and Centre from the job's Line. The line runs away
// from the near wall where it can. A centre that was given moves along the
// line to where it is nearest.
func (j *Job) setLine() error {
	if j.Line.From == LineTyped {
		return nil
	}
	refuse := func(wrong, do string) error { return &FieldError{Key: "line", Wrong: wrong, Do: do} }
	corners := len(j.Room)
	chord := func(wall int) (a, along plane.Point) {
		from, to := plane.Ring(j.Room).Edge(wall)
		return from, to.Sub(from)
	}
	through := *j.Centre
	var dir plane.Point
	switch l := j.Line; l.From {
	case LineMidway, LineSquare, LineWall:
		if l.A < 0 || l.A >= corners || l.From == LineMidway && (l.B < 0 || l.B >= corners || l.B == l.A) {
			return refuse("The centre line is set by a wall that the room does not have", "Choose from "+WallName(0, corners)+" to "+WallName(corners-1, corners))
		}
		a, along := chord(l.A)
		switch l.From {
		case LineSquare:
			dir = plane.Point{X: -along.Y, Y: along.X}
		case LineWall:
			dir, through = plane.Point{X: -along.Y, Y: along.X}, a.Add(along.Times(0.5))
		default:
			b, other := chord(l.B)
			along, other = along.Times(1/along.Length()), other.Times(1/other.Length())
			if math.Abs(along.Cross(other)) < 1e-9 && math.Abs(along.Cross(b.Sub(a))) < 1e-6 {
				return refuse("Walls "+WallName(l.A, corners)+" and "+WallName(l.B, corners)+" run on in one line, so nothing lies midway between them",
					"Choose two walls that face each other")
			}
			// Of the two lines that are equally far from both walls, the one
			// that lies inside of both. Only where they run alike, as at a
			// recess, it is the one that runs along them.
			dir = along.Sub(other)
			if neighbours := (l.A+1)%corners == l.B || (l.B+1)%corners == l.A; !neighbours && along.Dot(other) > alike {
				dir = along.Add(other)
			}
			through = midway(through, dir, a, along, b, other)
		}
	case LineDoor:
		if l.A < 0 || l.A >= len(j.Doors) {
			return refuse("The centre line is set by doorway "+strconv.Itoa(l.A+1)+", which the room does not have", "Give the doorway on the Measure stage first")
		}
		door := j.Doors[l.A]
		a, along := chord(door.Wall)
		through = a.Add(along.Times(float64(door.At+door.Width/2) / along.Length()))
		dir = plane.Point{X: -along.Y, Y: along.X}
	case LineHole:
		if l.A < 0 || l.A >= len(j.Holes) {
			return refuse("The centre line is set by hole "+strconv.Itoa(l.A+1)+", which the room does not have", "Give the hole on the Measure stage first")
		}
		// Its middle as seen along the axis.
		cos, sin := turn(j.Axis)
		var seen plane.Ring
		for _, p := range j.Holes[l.A] {
			seen = append(seen, p.Turned(cos, -sin))
		}
		low, high := seen.Box()
		through, dir = low.Add(high).Times(0.5).Turned(cos, sin), plane.Point{X: -sin, Y: cos}
	case LineThrough:
		for _, p := range l.Points {
			if !(math.Abs(p.X) <= maxCoordinate && math.Abs(p.Y) <= maxCoordinate) { // so that NaN fails too
				return refuse("A point of the centre line is not a place within 1 km", "Check its two readings")
			}
		}
		through, dir = l.Points[0], l.Points[1].Sub(l.Points[0])
		if !(dir.Length() >= 1) {
			return refuse("The two points of the centre line are the same", "Take them as far apart as you can")
		}
	default:
		return refuse("It is not known where the centre line comes from", "Choose one of the ways offered")
	}
	dir = dir.Times(1 / dir.Length())
	if dir.Y < -1e-9 || dir.Y < 1e-9 && dir.X < 0 {
		dir = dir.Times(-1)
	}
	j.Axis = axisOf(dir)
	centre := through.Add(dir.Times(j.Centre.Sub(through).Dot(dir)))
	j.Centre = &centre
	return nil
}

// axisOf returns the axis of a direction in degrees, exact at quarter turns.
func axisOf(dir plane.Point) float64 {
	switch {
	case math.Abs(dir.X) < 1e-12:
		return 0
	case math.Abs(dir.Y) < 1e-12:
		return -90
	}
	return math.Atan2(-dir.X, dir.Y) * 180 / math.Pi
}

// midway returns the point, square to dir from p, that lies equally far from
// the lines through a along u and through b along v.
func midway(p, dir, a, u, b, v plane.Point) plane.Point {
	across := plane.Point{X: -dir.Y, Y: dir.X}
	s, okS := plane.Meet(p, across, a, u)
	t, okT := plane.Meet(p, across, b, v)
	if !okS || !okT {
		return p
	}
	// Both meetings lie on a line square to the bisector, so they mirror each
	// other in it.
	return p.Add(across.Times((s + t) / 2))
}

// wallErrors checks what is said of single walls.
func (j Job) wallErrors() []error {
	var errs []error
	corners := len(j.Room)
	refuse := func(key, wrong, do string, wall int) {
		errs = append(errs, &FieldError{Key: key, Wrong: wrong, Do: do, Walls: []int{wall}})
	}
	known := func(key string, wall int) bool {
		if wall >= 0 && wall < corners {
			return true
		}
		errs = append(errs, &FieldError{Key: key,
			Wrong: "The room has no wall " + WallName(max(0, wall), max(1, max(0, wall)+2)),
			Do:    "Its walls run from " + WallName(0, max(1, corners)) + " to " + WallName(max(0, corners-1), max(1, corners))})
		return false
	}
	lengths := func(key, what string, list []AtWall) {
		for _, a := range list {
			if known(key, a.Wall) && !(a.Length >= 0 && a.Length <= maxLength) {
				refuse(key, "The "+what+" at wall "+WallName(a.Wall, corners)+" cannot be "+mm(float64(a.Length)), "It can be from 0 to "+mm(maxLength), a.Wall)
			}
		}
	}
	lengths("gap", "gap", j.GapAt)
	lengths("border", "border", j.BorderAt)
	for _, s := range j.Strips {
		if !(s > 0 && s <= maxLength) {
			errs = append(errs, &FieldError{Key: "border", Wrong: "A strip of the border cannot be " + mm(float64(s)) + " wide", Do: "Give a width above 0 and up to " + mm(maxLength)})
		}
	}
	bent := make(map[int]bool)
	twice := func(key string, wall int) {
		if bent[wall] {
			refuse(key, "Wall "+WallName(wall, corners)+" is given as bowed or scribed more than once", "Keep one of them", wall)
		}
		bent[wall] = true
	}
	for _, b := range j.Bows {
		if known("bow", b.Wall) {
			twice("bow", b.Wall)
			from, to := plane.Ring(j.Room).Edge(b.Wall)
			if half := to.Sub(from).Length() / 2; !(math.Abs(float64(b.Rise)) <= half) {
				refuse("bow", "Wall "+WallName(b.Wall, corners)+" cannot bow by "+mm(float64(b.Rise))+", more than half its length", "Measure the rise in the middle of the straight line from corner to corner", b.Wall)
			}
		}
	}
	for _, s := range j.Scribes {
		if !known("scribe", s.Wall) {
			continue
		}
		twice("scribe", s.Wall)
		name := WallName(s.Wall, corners)
		switch last := len(s.Ordinates) - 1; {
		case last < 2:
			refuse("scribe", "Wall "+name+" is scribed by fewer than three ordinates", "Give one at each end and at least one between", s.Wall)
		case s.Ordinates[0] != 0 || s.Ordinates[last] != 0:
			refuse("scribe", "The first and the last ordinate of wall "+name+" are "+mm(float64(s.Ordinates[0]))+" and "+mm(float64(s.Ordinates[last]))+
				", and in its corners they can only be 0", "Measure from the straight line from corner to corner", s.Wall)
		}
	}
	fits := func(key, name, do string, wall int, at, width length.Length) {
		if !known(key, wall) {
			return
		}
		from, to := plane.Ring(j.Room).Edge(wall)
		if long := to.Sub(from).Length(); !(width > 0 && at >= 0 && float64(at+width) <= long+1e-6) {
			refuse(key, name+" does not fit on wall "+WallName(wall, corners)+", which is "+mm(long)+" long", "Measure from corner "+CornerName(wall)+" to "+do, wall)
		}
	}
	for i, d := range j.Doors {
		fits("door", "Doorway "+strconv.Itoa(i+1), "the near jamb, then the clear width", d.Wall, d.At, d.Width)
	}
	for i, w := range j.Windows {
		name := "Window " + strconv.Itoa(i+1)
		fits("window", name, "the window, then its width", w.Wall, w.At, w.Width)
		if sill, height := w.Opening(); !(sill >= 0 && height > 0 && sill+height <= maxHead) {
			refuse("window", name+" stands "+mm(float64(sill))+" above the floor and is "+mm(float64(height))+" high", "Measure from the floor to the sill, and from there to the head, up to "+mm(maxHead)+" in all", w.Wall)
		}
	}
	return errs
}
