package survey

import (
	"errors"
	"math"
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Leg is a wall and the turn at its end, in degrees, positive to the left: 90
// at a corner of a room walked counter-clockwise, -90 round a chimney breast.
type Leg struct {
	Length length.Length
	Turn   float64
}

// Closing says how a walk round a room came back to corner A.
type Closing struct {
	Miss      plane.Point   // from A to where the last wall ended, in the frame of the outline
	Distance  length.Length // its length
	Direction float64       // of the miss, degrees counter-clockwise from AB
	Turned    float64       // sum of all turns as given
	Angle     float64       // Turned less a whole turn, left or right
}

// mostAngle is how far, in degrees, the turns may be off a whole turn before
// one must be missing or reversed. A bevel held at a corner is closer.
const mostAngle = 5

// Walk lays the walls down in turn from corner A along +x. They come back to A
// only nearly. If share is set, the angle by which the turns miss a whole one
// is shared equally between the corners, and then the closing error between
// the walls in proportion to their length (Bowditch's compass rule). If not,
// the last wall takes it all and its own reading and turn are not used but for
// the check.
//
// The room may be walked either way and the outline keeps the order of the
// legs. The error is one or several *ReadingError, joined, a *ClosingError
// beside a result when the miss is more than limit, or one without a result
// when the turns do not go round once.
func Walk(legs []Leg, share bool, limit length.Length) (*Result, error) {
	n := len(legs)
	if n < MinCorners || n > MaxCorners {
		return nil, &ReadingError{
			wrong: words{"A room of " + strconv.Itoa(n) + " walls cannot be walked round"},
			do:    words{"Give from " + strconv.Itoa(MinCorners) + " to " + strconv.Itoa(MaxCorners) + " walls"},
		}
	}
	if !(limit > finest) {
		limit = finest
	}
	var errs []error
	for i, leg := range legs {
		if !(leg.Length >= finest && leg.Length <= length.Longest) { // so that NaN fails too
			errs = append(errs, &ReadingError{Readings: []int{i},
				wrong: words{"Wall " + WallName(i, n) + " cannot be ", leg.Length, " long"}, do: words{"Tape it again"}})
		}
		if !(math.Abs(leg.Turn) < 180) {
			errs = append(errs, &ReadingError{Readings: []int{i}, Corners: []int{(i + 1) % n},
				wrong: words{"The turn at corner " + CornerName((i+1)%n) + " cannot be " + degrees(leg.Turn)},
				do:    words{"Give less than 180 degrees, to the left or, below zero, to the right"}})
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	var closing Closing
	for _, leg := range legs {
		closing.Turned += leg.Turn
	}
	closing.Angle = closing.Turned - math.Copysign(360, closing.Turned)
	if !(math.Abs(closing.Angle) <= mostAngle) {
		return nil, &ClosingError{Closing: closing, Limit: limit, legs: n}
	}
	each := 0.0
	if share {
		each = closing.Angle / float64(n)
	}
	ring := make(plane.Ring, n)
	var at plane.Point
	var round, heading float64
	headings := make([]float64, n)
	for i, leg := range legs {
		ring[i], headings[i] = at, heading
		at = at.Add(along(heading).Times(float64(leg.Length)))
		round += float64(leg.Length)
		heading += leg.Turn - each
	}
	closing.Miss = at
	closing.Distance = length.Length(at.Length())
	closing.Direction = math.Atan2(at.Y, at.X) * 180 / math.Pi
	if share {
		walked := 0.0
		for i, leg := range legs {
			ring[i] = ring[i].Sub(at.Times(walked / round))
			walked += float64(leg.Length)
		}
		ring = framedAsWalked(ring)
	}
	result := &Result{Outline: ring, Surplus: 3, Closing: closing, Checks: make([]Check, n)}
	for i, leg := range legs {
		a, b := ring.Edge(i)
		adjusted := length.Length(b.Sub(a).Length())
		result.Checks[i] = Check{Taped: leg.Length, Adjusted: adjusted, Residual: adjusted - leg.Length}
	}
	if closing.Distance > limit {
		return result, &ClosingError{Result: result, Closing: closing, Limit: limit, legs: n,
			Along: wallsAlong(headings, legs, closing)}
	}
	if flaw, i, j := ring.Check(); flaw != plane.Sound {
		e := &ReadingError{wrong: words{"Walked like this the corners lie on one line"}, do: words{"Check the turns"}}
		switch flaw {
		case plane.Repeated:
			e.Corners = []int{i, j}
			e.wrong = words{"Walked like this corners " + CornerName(i) + " and " + CornerName(j) + " fall on the same point"}
		case plane.Crossing:
			e.Readings = []int{i, j}
			e.wrong = words{"Walked like this walls " + WallName(i, n) + " and " + WallName(j, n) + " cross or touch"}
			e.do = words{"Check the turns and the lengths between them"}
		}
		return nil, e
	}
	return result, nil
}

// along returns the unit vector of a heading in degrees. Headings in whole
// right angles are exact, so that a square room stays square.
func along(heading float64) plane.Point {
	switch math.Mod(math.Mod(heading, 360)+360, 360) {
	case 0:
		return plane.Point{X: 1}
	case 90:
		return plane.Point{Y: 1}
	case 180:
		return plane.Point{X: -1}
	case 270:
		return plane.Point{Y: -1}
	}
	sin, cos := math.Sincos(heading * math.Pi / 180)
	return plane.Point{X: cos, Y: sin}
}

// framedAsWalked turns a ring whose first corner is the origin until its
// second is on the +x axis.
func framedAsWalked(ring plane.Ring) plane.Ring {
	d := ring[1].Length()
	if d < sameCorner {
		return ring
	}
	cos, sin := ring[1].X/d, -ring[1].Y/d
	for i, p := range ring {
		ring[i] = p.Turned(cos, sin)
	}
	ring[1].Y = 0
	return ring
}

// wallsAlong returns the walls within 15 degrees of the way of the miss, so
// that a slip in one of them could be all that is wrong, at most three,
// those nearest to it first.
func wallsAlong(headings []float64, legs []Leg, closing Closing) (walls []int) {
	const near = 15
	off := func(i int) float64 { return math.Abs(math.Remainder(headings[i]-closing.Direction, 180)) }
	for i, leg := range legs {
		if off(i) > near || leg.Length < closing.Distance {
			continue
		}
		at := len(walls)
		for at > 0 && off(walls[at-1]) > off(i)+1e-9 {
			at--
		}
		walls = append(walls, 0)
		copy(walls[at+1:], walls[at:])
		walls[at] = i
	}
	return walls[:min(len(walls), 3)]
}
