package survey

import (
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// chordError is how far, in mm, the straight pieces of a curve may lie from
// it: less than a knife line is wide.
const chordError = 0.05

// stepAngle returns half the angle of the longest chord of a circle that stays
// within chordError of it. A chord that spans the angle t lies s = R(1 -
// cos(t/2)) = 2R sin²(t/4) from the middle of its arc.
func stepAngle(radius float64) float64 {
	if radius <= chordError {
		return math.Pi / 4
	}
	return min(math.Pi/4, 2*math.Asin(math.Sqrt(chordError/(2*radius))))
}

// Arc returns points on a bowed wall between corners a and b, without the two,
// from the chord and the rise in its middle. A positive rise bulges to the
// right of the way from a to b, out of a room run counter-clockwise; a
// negative one into it. The straight pieces between the points stay within
// 0.05 mm of the arc; a rise of no more needs no points.
//
// The radius is (c²/4 + s²)/2s for a chord c and a rise s. The error is a
// *ShapeError for more than half a circle: a wall that overhangs its own ends
// needs a corner where it is widest.
func Arc(a, b plane.Point, rise length.Length) ([]plane.Point, error) {
	chord := b.Sub(a)
	c, s := chord.Length(), math.Abs(float64(rise))
	if !(c >= sameCorner && c <= float64(length.Longest)) {
		return nil, &ShapeError{words{"A bowed wall cannot run over ", length.Length(c)}, words{"Check its two corners"}}
	}
	if !(s <= c/2*(1+1e-12)) {
		return nil, &ShapeError{
			words{"A wall of ", length.Length(c), " from corner to corner cannot bow by ", length.Length(s)},
			words{"Give at most ", length.Length(c / 2), ", half a circle, or put a corner where the wall is widest"},
		}
	}
	if s <= chordError {
		return nil, nil
	}
	radius := (c*c/4 + s*s) / (2 * s)
	half := 2 * math.Atan2(2*s, c) // half the angle that the arc spans
	pieces := int(math.Ceil(half / stepAngle(radius)))
	along := chord.Times(1 / c)
	out := plane.Point{X: along.Y, Y: -along.X}.Times(math.Copysign(1, float64(rise)))
	points := make([]plane.Point, 0, pieces-1)
	for k := 1; k < pieces; k++ {
		t := half * (2*float64(k)/float64(pieces) - 1)
		low := math.Sin(t / 2)
		points = append(points, a.
			Add(along.Times(c/2+radius*math.Sin(t))).
			Add(out.Times(s-2*radius*low*low)))
	}
	return points, nil
}

// Circle returns the outline of a round column, counter-clockwise from the
// point on its right, with its corners on the circle and its sides within 0.05
// mm of it. The error is a *ShapeError.
func Circle(centre plane.Point, radius length.Length) (plane.Ring, error) {
	if !(radius > sameCorner && radius <= length.Longest/2) {
		return nil, &ShapeError{words{"A column cannot have a radius of ", radius}, words{"Give half its thickness"}}
	}
	// Whole quarters, so that the circle is the same from all four sides.
	quarter := int(math.Ceil(math.Pi / 4 / stepAngle(float64(radius))))
	ring := make(plane.Ring, 0, 4*quarter)
	for _, along := range []plane.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
		for k := range quarter {
			sin, cos := math.Sincos(math.Pi / 2 * float64(k) / float64(quarter))
			ring = append(ring, centre.Add(along.Turned(cos, sin).Times(float64(radius))))
		}
	}
	return ring, nil
}

// Scribe returns points on an uneven wall, taped from a string between a and
// b: the ordinates stand square to the string at equal distances from a to b,
// both ends included, and are positive into a room run counter-clockwise. End
// ordinates other than 0 put the string beside the corners. The error is a
// *ShapeError.
func Scribe(a, b plane.Point, ordinates []length.Length) ([]plane.Point, error) {
	way := b.Sub(a)
	c := way.Length()
	switch {
	case !(c >= sameCorner && c <= float64(length.Longest)):
		return nil, &ShapeError{words{"A string cannot run over ", length.Length(c)}, words{"Check its two ends"}}
	case len(ordinates) < 2:
		return nil, &ShapeError{words{"An uneven wall needs an ordinate at both ends of the string"}, words{"Give two or more"}}
	}
	in := plane.Point{X: -way.Y, Y: way.X}.Times(1 / c)
	points := make([]plane.Point, len(ordinates))
	for k, o := range ordinates {
		if !(math.Abs(float64(o)) <= c) { // so that NaN fails too
			return nil, &ShapeError{words{"Ordinate " + strconv.Itoa(k+1) + " cannot be ", o, " from a string of ", length.Length(c)},
				words{"Tape it square to the string"}}
		}
		at := a.Add(way.Times(float64(k) / float64(len(ordinates)-1)))
		if k == len(ordinates)-1 {
			at = b
		}
		points[k] = at.Add(in.Times(float64(o)))
	}
	return points, nil
}

// ScribeLine returns where a straight first row runs along an uneven wall, by
// its distance from the string, and what is left between them at every
// ordinate: at least gap, and just that at the narrowest, by its number. Where
// the wall runs back the rest is scribed onto the row, or hidden.
func ScribeLine(ordinates []length.Length, gap length.Length) (line length.Length, offsets []length.Length, narrowest int) {
	for k, o := range ordinates {
		if o > ordinates[narrowest] {
			narrowest = k
		}
	}
	if len(ordinates) == 0 {
		return gap, nil, 0
	}
	line = ordinates[narrowest] + gap
	for _, o := range ordinates {
		offsets = append(offsets, line-o)
	}
	return line, offsets, narrowest
}
