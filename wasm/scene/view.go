package scene

import (
	"math"

	"keelrow/engine/plane"
)

// Colour is 0xrrggbb.
type Colour uint32

// Theme is what the floor is painted with.
type Theme struct {
	Paper             Colour // where nothing is laid yet
	Light, Base, Dark Colour // the wood, from the lightest block to the darkest
	Joint             Colour
}

// View is how a scene is looked at.
type View struct {
	Centre        plane.Point // what lies in the middle of the canvas, mm in the room frame
	Scale         float64     // device pixels for each mm, in the middle
	Width, Height int         // of the canvas in device pixels
	Tilt          float64     // radians from looking straight down; far walls rise

	// Laid is how far the laying is, in blocks: the block with order n begins
	// to move when Laid passes n, and lies home when Laid reaches n + Landing.
	// With Landing 0 a whole Laid shows so many blocks at rest.
	Laid, Landing float64

	// Light points to where the light comes from, in the room frame. Its
	// length, 0 to 1, is how low the light stands: how much the two hands
	// differ.
	Light plane.Point
	Theme Theme
}

// distance is how far the eye is from the middle of the floor when the view
// is tilted, in canvas heights: about what a person sees of a room from a
// doorway.
const distance = 1.6

// Matrix returns, row by row, the matrix that takes (x, y, 1), x and y in mm
// from the anchor, to clip coordinates x, y and w: -w to w is the canvas, y
// upward.
func (v View) Matrix(anchor plane.Point) (m [9]float64) {
	sin, cos := math.Sincos(v.Tilt)
	c := v.Centre.Sub(anchor)
	kx, ky := 2*v.Scale/float64(max(v.Width, 1)), 2*v.Scale/float64(max(v.Height, 1))
	kw := sin * v.Scale / (distance * float64(max(v.Height, 1)))
	return [9]float64{
		kx, 0, -kx * c.X,
		0, ky * cos, -ky * cos * c.Y,
		0, kw, 1 - kw*c.Y,
	}
}

// Pixel returns where a point of the room lies on the canvas, in device
// pixels from its upper left corner, y downward. It reports false for points
// behind the eye.
func (v View) Pixel(p plane.Point) (plane.Point, bool) {
	m := v.Matrix(plane.Point{})
	w := m[7]*p.Y + m[8]
	if w <= 0 {
		return plane.Point{}, false
	}
	return plane.Point{
		X: ((m[0]*p.X+m[2])/w + 1) / 2 * float64(v.Width),
		Y: (1 - (m[4]*p.Y+m[5])/w) / 2 * float64(v.Height),
	}, true
}

// Room returns the point of the room under a pixel. It reports false above
// the horizon.
func (v View) Room(pixel plane.Point) (plane.Point, bool) {
	m := v.Matrix(plane.Point{})
	x := 2*pixel.X/float64(max(v.Width, 1)) - 1
	y := 1 - 2*pixel.Y/float64(max(v.Height, 1))
	den := m[4] - y*m[7]
	if den <= 0 {
		return plane.Point{}, false
	}
	py := (y*m[8] - m[5]) / den
	w := m[7]*py + m[8]
	return plane.Point{X: (x*w - m[2]) / m[0], Y: py}, w > 0
}
