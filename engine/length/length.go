// Package length knows lengths as they are typed, marked and read on a tape.
//
// A length is held in millimetres. Nothing here knows about floors.
package length

// Length is a distance on the floor in millimetres.
type Length float64

// Lengths of the units a tape shows. Inch and Foot are exact since the
// international yard and pound agreement of 1959.
const (
	Millimetre Length = 1
	Centimetre Length = 10
	Metre      Length = 1000
	Inch       Length = 25.4
	Foot       Length = 12 * Inch
)

// Unit is the unit meant by a number typed without a unit mark, and the unit
// readings are given in.
type Unit int

const (
	Millimetres Unit = iota
	Inches
)
