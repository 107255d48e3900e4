package survey

import (
	"math"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Report is what a layer wants to know about a room before striking a line,
// for any sound outline, run either way; corners and walls keep its order.
type Report struct {
	Corners   []Corner
	Walls     []length.Length
	Opposite  []Opposite      // walls AB and CD, BC and DA; only for four corners
	Diagonals []length.Length // AC and BD; only for four corners
	Area      float64         // mm²
	Perimeter length.Length
}

// Corner is one corner of a report.
type Corner struct {
	Angle float64 // degrees inside the room, from 0 to 360
	Out   OutOfSquare
}

// OutOfSquare says how far an angle is off a right one: 90 degrees, or 270
// round an inner corner.
type OutOfSquare struct {
	// Square says whether a right angle can be meant: it is within 15
	// degrees. If not, as in a bay, the rest is 0.
	Square      bool
	Degrees     float64       // positive when the room opens wider than square
	PerMetre    float64       // mm that the wall runs off in a metre
	OverShorter length.Length // mm over the whole of the shorter wall
}

// Opposite is a pair of opposite walls of a room with four corners.
type Opposite struct {
	First, Second int     // walls
	Degrees       float64 // out of parallel, positive when they open along the first
	PerMetre      float64 // mm that they run apart in a metre
	OverShorter   length.Length
}

// meantSquare is how far, in degrees, an angle may be off a right one and
// still be a poor right angle rather than a bay.
const meantSquare = 15

// off returns how an angle inside a room compares with square.
func off(angle float64, shorter length.Length) OutOfSquare {
	right := 90.0
	if angle > 180 {
		right = 270
	}
	out := angle - right
	if math.Abs(out) > meantSquare {
		return OutOfSquare{}
	}
	slope := math.Tan(out * math.Pi / 180)
	return OutOfSquare{true, out, slope * 1000, length.Length(slope) * shorter}
}

// ReportOf returns the report of an outline.
func ReportOf(outline plane.Ring) Report {
	n := len(outline)
	r := Report{Area: math.Abs(outline.Area()), Perimeter: length.Length(outline.Perimeter())}
	way := math.Copysign(1, outline.Area())
	for i := range n {
		a, b := outline.Edge(i)
		r.Walls = append(r.Walls, length.Length(b.Sub(a).Length()))
	}
	for i := range n {
		before, at := outline.Edge(i - 1)
		_, after := outline.Edge(i)
		angle := 180 - way*turn(at.Sub(before), after.Sub(at))
		r.Corners = append(r.Corners, Corner{angle, off(angle, min(r.Walls[i], r.Walls[(i+n-1)%n]))})
	}
	if n != 4 {
		return r
	}
	r.Diagonals = []length.Length{
		length.Length(outline[2].Sub(outline[0]).Length()),
		length.Length(outline[3].Sub(outline[1]).Length()),
	}
	for first := range 2 {
		a, b := outline.Edge(first)
		c, d := outline.Edge(first + 2)
		// The second wall runs the other way. A second wall that turns further
		// left comes nearer to the first's start, so they open along it.
		out := way * turn(a.Sub(b), d.Sub(c))
		slope := math.Tan(out * math.Pi / 180)
		r.Opposite = append(r.Opposite, Opposite{first, first + 2, out, slope * 1000,
			length.Length(slope) * min(r.Walls[first], r.Walls[first+2])})
	}
	return r
}

// turn returns the turn from direction u to direction v in degrees, positive
// to the left.
func turn(u, v plane.Point) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi }

// Taper is how a line runs past a wall.
type Taper struct {
	Start, End length.Length // from the line to the wall's two ends, square to the line
	Taper      length.Length // End less Start, by size
	Degrees    float64       // between line and wall, 0 to 90
}

// TaperOf measures wall i of an outline from the line through p and q: an axis
// taken from two marks on the floor outside, say.
func TaperOf(outline plane.Ring, i int, p, q plane.Point) Taper {
	way := q.Sub(p)
	way = way.Times(1 / way.Length())
	a, b := outline.Edge(i)
	t := Taper{
		Start: length.Length(math.Abs(way.Cross(a.Sub(p)))),
		End:   length.Length(math.Abs(way.Cross(b.Sub(p)))),
	}
	t.Taper = t.End - t.Start
	t.Degrees = math.Abs(turn(way, b.Sub(a)))
	t.Degrees = min(t.Degrees, 180-t.Degrees)
	return t
}
