// Package look says what a floor looks like: its wood, how it is finished and
// what light falls on it.
//
// Colours of wood are plausible middles by eye, not measured, and no promise:
// wood is as it grew. Directions in the room are degrees clockwise from +y,
// seen from above, as a compass has them with the far wall to the north;
// heights are degrees above the floor, lengths millimetres. Nothing here
// knows about a browser, and nothing here is text for people except keys.
package look

import "slices"

// Look is how a floor is made to look. The zero value is oak of mixed grade,
// oiled, bevelled, its border of the same wood.
type Look struct {
	Wood   string // a key of Woods; "" is oak
	Border string // the border's wood; "" is the field's
	Grade  Grade
	Finish Finish
	Tone   Tone
	Edge   Edge
	Joint  Joint
}

// Grade is how much the blocks differ from each other.
type Grade uint8

const (
	Mixed  Grade = iota
	Calm         // even in tone, quiet figure
	Lively       // light and dark, strong figure, here and there a knot
)

// Finish is what is on the wood.
type Finish uint8

const (
	Oiled Finish = iota
	Raw
	Lacquered
)

// Tone is what the wood has been through before it was finished.
type Tone uint8

const (
	Natural Tone = iota
	Smoked
	Limed
)

// Edge is how the blocks' edges are left.
type Edge uint8

const (
	Bevelled Edge = iota
	Square
)

// Joint is the colour of what shows between blocks.
type Joint uint8

const (
	JointNatural Joint = iota // a dark shade of the wood
	JointDark
	JointLight
)

// The keys of each, in the order of the values; the first is the one meant
// where nothing is said.
var (
	Grades   = []string{"mixed", "calm", "lively"}
	Finishes = []string{"oiled", "raw", "lacquered"}
	Tones    = []string{"natural", "smoked", "limed"}
	Edges    = []string{"bevelled", "square"}
	Joints   = []string{"natural", "dark", "light"}
)

// Of returns the value of a key, such as Of[Grade](Grades, "calm").
func Of[E ~uint8](keys []string, key string) (E, bool) {
	i := slices.Index(keys, key)
	return E(max(0, i)), i >= 0
}
