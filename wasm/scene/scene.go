// Package scene is a plan made ready for the painters: every block, cut piece
// and border plank in the order of laying, as bytes that go to the graphics
// card in one copy.
//
// Coordinates are millimetres in the room frame, measured from the scene's
// Anchor so that 32 bits hold them to a thousandth. A block has its own frame:
// the origin is its middle, u runs along the long edge the way the block is
// pushed home, and v across it, to the left of u. Nothing here knows about a
// browser.
package scene

import (
	"encoding/binary"
	"math"
	"sort"

	"keelrow/engine/plane"
)

// Stride is the number of bytes of an instance. An instance is a
// quadrilateral, little endian:
//
//	 0 float32 ×2  the block's middle, from the Anchor, mm
//	 8 int16 ×8    the four corners (u, v), counter-clockwise, in units of the scale
//	24 int16 ×2    the direction of u, as cosine and sine times any one number
//	28 float32     the order of laying, 0 first
//	32 float32     the scale, mm
//	36 uint16      the seed of the block's looks
//	38 uint8       the kind
//	39 uint8       the hand: 0 left, 1 right
//
// A triangle repeats its third corner.
const (
	Stride = 40

	AtMiddle    = 0
	AtCorners   = 8
	AtDirection = 24
	AtOrder     = 28
	AtScale     = 32
	AtSeed      = 36
	AtKind      = 38
	AtHand      = 39
)

// Kind says what an instance is a part of.
type Kind uint8

const (
	Block  Kind = iota
	Border      // a plank of the border
)

// Shape is that of a whole block in its own frame: the sides lie at
// v = ±HalfWidth, the ends at u - Skew[hand]·v = ±HalfLength.
type Shape struct {
	HalfLength, HalfWidth float64
	Skew                  [2]float64
	Along                 [2]plane.Point // the way u runs, or the opposite way
}

// Row says which blocks a row of the plan is: those with First <= order <
// After.
type Row struct{ Number, First, After int }

// Scene is a plan in laying order. It is not changed once built.
type Scene struct {
	Anchor    plane.Point
	Data      []byte // Stride bytes an instance, orders never falling
	Orders    int    // blocks and border planks; their orders run from 0
	Blocks    int    // blocks alone; the planks come after them
	Shape     Shape
	Rows      []Row
	Low, High plane.Point // bounding box of all that is laid, from the Anchor

	rings  []ring    // outlines of the cut blocks, in laying order
	points []float32 // their corners, from the Anchor
}

// ring is one outline of a cut block, in Scene.points.
type ring struct {
	order    int32
	from, to int32
}

// Instances returns how many instances there are.
func (s *Scene) Instances() int { return len(s.Data) / Stride }

// Laid returns how many instances belong to blocks that have begun to move
// when laid blocks have been laid: those with an order below laid.
func (s *Scene) Laid(laid float64) int {
	if laid >= float64(s.Orders) {
		return s.Instances()
	}
	return sort.Search(s.Instances(), func(i int) bool { return float64(s.Order(i)) >= laid })
}

// Order returns the order of laying of instance i.
func (s *Scene) Order(i int) int { return int(float32At(s.Data, i*Stride+AtOrder)) }

// Seed returns the seed of instance i.
func (s *Scene) Seed(i int) uint16 {
	return binary.LittleEndian.Uint16(s.Data[i*Stride+AtSeed:])
}

// Kind returns the kind of instance i.
func (s *Scene) Kind(i int) Kind { return Kind(s.Data[i*Stride+AtKind]) }

// Hand returns the hand of instance i.
func (s *Scene) Hand(i int) int { return int(s.Data[i*Stride+AtHand]) }

// Middle returns the middle of the block that instance i belongs to, from the
// Anchor.
func (s *Scene) Middle(i int) plane.Point {
	at := i*Stride + AtMiddle
	return plane.Point{X: float64(float32At(s.Data, at)), Y: float64(float32At(s.Data, at+4))}
}

// Direction returns the unit vector along u of instance i.
func (s *Scene) Direction(i int) plane.Point {
	at := i*Stride + AtDirection
	d := plane.Point{X: float64(int16At(s.Data, at)), Y: float64(int16At(s.Data, at+2))}
	return d.Times(1 / d.Length())
}

// Corners returns the corners of instance i, from the Anchor.
func (s *Scene) Corners(i int) (corners [4]plane.Point) {
	at := i * Stride
	middle, d := s.Middle(i), s.Direction(i)
	scale := float64(float32At(s.Data, at+AtScale))
	for c := range corners {
		u := float64(int16At(s.Data, at+AtCorners+4*c)) * scale
		v := float64(int16At(s.Data, at+AtCorners+4*c+2)) * scale
		corners[c] = plane.Point{X: middle.X + d.X*u - d.Y*v, Y: middle.Y + d.Y*u + d.X*v}
	}
	return corners
}

// RowAt returns the row in which the block of an order is laid, and false for
// border planks and orders that do not exist.
func (s *Scene) RowAt(order int) (Row, bool) {
	i := sort.Search(len(s.Rows), func(i int) bool { return s.Rows[i].After > order })
	if i == len(s.Rows) || order < s.Rows[i].First {
		return Row{}, false
	}
	return s.Rows[i], true
}

func float32At(data []byte, at int) float32 {
	return math.Float32frombits(binary.LittleEndian.Uint32(data[at:]))
}

func int16At(data []byte, at int) int16 { return int16(binary.LittleEndian.Uint16(data[at:])) }

func putFloat32(data []byte, at int, f float64) {
	binary.LittleEndian.PutUint32(data[at:], math.Float32bits(float32(f)))
}

func putInt16(data []byte, at int, f float64) {
	binary.LittleEndian.PutUint16(data[at:], uint16(int16(math.Round(f))))
}
