// Package survey turns what a layer taped into the corners of a room, and a
// room's corners into what a layer checks with a tape.
//
// Lengths are millimetres and angles degrees. Corners carry letters in order
// round the room, A first; wall i runs from corner i to the next. A surveyed
// room lies with A at the origin and B on the +x axis.
package survey

import (
	"strconv"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Fewest and most corners of a room that can be surveyed.
const (
	MinCorners = 3
	MaxCorners = 60
)

// DefaultLimit is how far an adjusted reading may be off the tape before the
// survey is not to be trusted: two careful readings over a room are within it
// (common practice, no source).
const DefaultLimit = 3 * length.Millimetre

// Reading is the length taped between two corners, numbered from 0 for A. A
// reading between neighbours is a wall, any other a diagonal.
type Reading struct {
	From, To int
	Length   length.Length
}

// CornerName returns the letter of corner i: A to Z, then A2 to Z2 and so on.
func CornerName(i int) string {
	name := string(rune('A' + i%26))
	if i >= 26 {
		name += strconv.Itoa(i/26 + 1)
	}
	return name
}

// WallName returns the name of wall i of n by its two corners: wall AB runs
// from A to B.
func WallName(i, n int) string { return CornerName(i) + CornerName((i+1)%n) }

// LineName returns the name of the line between two of n corners: a wall as
// WallName gives it, a diagonal with the earlier letter first.
func LineName(i, j, n int) string {
	if i == (j+1)%n || i > j && j != (i+1)%n {
		i, j = j, i
	}
	return CornerName(i) + CornerName(j)
}

// Result is a surveyed room.
type Result struct {
	// Outline has A at the origin and B on the +x axis. It runs
	// counter-clockwise, unless a room was walked the other way round.
	Outline plane.Ring
	// Checks has one entry for each reading, or for each wall walked.
	Checks []Check
	// Surplus counts the readings past those the shape needs. Without surplus
	// nothing checks the tape.
	Surplus int

	// The rest is set by Solve only.

	Worst    int       // number of the reading with the largest residual
	Suspects []Suspect // when that is past the limit: who may be wrong, likeliest first
	// Either lists corners that the readings leave on either side of a line;
	// they were put where the room is wider. Only they can be given as inner.
	Either []int
	// Sway says for each corner how far it may be out for every millimetre
	// the tape may be out: the long half axis of its error ellipse, with A
	// and the direction of AB held.
	Sway []float64

	Closing Closing // set by Walk only
}

// Check compares a reading with the room.
type Check struct {
	Taped, Adjusted length.Length
	// Residual is Adjusted less Taped.
	Residual length.Length
	// Redundancy is the share of an error in this reading that shows in its
	// residual: 0 when no other reading checks it, near 1 when others alone
	// would fix it. All of them add up to Surplus.
	Redundancy float64
}

// Suspect is a reading without which all others agree within the limit.
type Suspect struct {
	Reading  int
	ShouldBe length.Length // what the others make it
	Rest     length.Length // largest residual of the others
	sum      float64       // of the squares of those residuals
}
