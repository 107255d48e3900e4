package scene

import (
	"math"

	"keelrow/engine/plane"
	"keelrow/wasm/look"
)

// View is how a scene is looked at.
type View struct {
	Centre        plane.Point // what lies in the middle of the canvas in plan, mm in the room frame
	Scale         float64     // device pixels for each mm in plan
	Width, Height int         // of the canvas in device pixels

	// Eye is where somebody stands in the room. Blend goes from 0, the plan
	// from above, to 1, what that eye sees; between them the view moves down
	// and into the room.
	Eye   Eye
	Blend float64

	// Laid is how far the laying is, in blocks: the block with order n begins
	// to move when Laid passes n, and lies home when Laid reaches n + Landing.
	// With Landing 0 a whole Laid shows so many blocks at rest.
	Laid, Landing float64

	Look  look.Look
	Light look.Light
	Paper look.Colour // where nothing is laid yet
}

// Eye is the eye of somebody in the room.
type Eye struct {
	X, Y      float64 // mm in the room frame
	Height    float64 // mm above the floor; 0 means EyeHeight
	Direction float64 // looked in, degrees clockwise from +y
	Down      float64 // degrees below level
	Field     float64 // degrees seen from corner to corner of the canvas; 0 means EyeField
}

const (
	EyeHeight = 1600 // mm, of somebody who stands
	EyeField  = 84   // degrees, of a 24 mm lens on 36 by 24 mm
)

// focus is how far before the eye the point lies that stays in the middle of
// the canvas while the view moves, mm.
const focus = 3000

// camera is a view as a point that lies in the middle of the canvas, the
// directions of the canvas, and how much smaller things get with distance.
type camera struct {
	at              [3]float64
	right, up, into [3]float64
	scale           float64 // device pixels for each mm at that point
	shrink          float64 // for each mm further away, a part of the size there; 0 from infinitely far
}

func (v View) camera() camera {
	b := min(1, max(0, v.Blend))
	turn := math.Remainder(v.Eye.Direction, 360) * b * math.Pi / 180
	stand := v.Eye.camera(v.Width, v.Height)
	dip := (90 + (v.Eye.Down-90)*b) * math.Pi / 180
	c := turned(turn, dip)
	for i, plan := range [3]float64{v.Centre.X, v.Centre.Y, 0} {
		c.at[i] = plan + (stand.at[i]-plan)*b
	}
	c.scale = max(v.Scale, 1e-9) * math.Pow(stand.scale/max(v.Scale, 1e-9), b)
	c.shrink = stand.shrink * b
	return c
}

// turned returns a camera that looks in a direction, clockwise from +y, and
// down by an angle from level, radians.
func turned(turn, dip float64) (c camera) {
	sin, cos := math.Sincos(turn)
	down, level := math.Sincos(dip)
	c.right = [3]float64{cos, -sin, 0}
	c.up = [3]float64{sin * down, cos * down, level}
	c.into = [3]float64{sin * level, cos * level, -down}
	return c
}

func (e Eye) camera(width, height int) camera {
	c := turned(e.Direction*math.Pi/180, e.Down*math.Pi/180)
	high, field := e.Height, e.Field
	if high == 0 {
		high = EyeHeight
	}
	if field == 0 {
		field = EyeField
	}
	for i, from := range [3]float64{e.X, e.Y, high} {
		c.at[i] = from + focus*c.into[i]
	}
	diagonal := math.Hypot(float64(width), float64(height))
	c.scale = max(diagonal, 1) / 2 / math.Tan(field/2*math.Pi/180) / focus
	c.shrink = 1.0 / focus
	return c
}

// Matrix returns, row by row, the matrix that takes (x, y, z, 1), mm from the
// anchor and above the floor, to clip coordinates x, y and w: -w to w is the
// canvas, y upward. In plan w is 1 everywhere.
func (v View) Matrix(anchor plane.Point) (m [12]float64) {
	c := v.camera()
	rows := [3]struct {
		along [3]float64
		times float64
	}{{c.right, 2 * c.scale / float64(max(v.Width, 1))}, {c.up, 2 * c.scale / float64(max(v.Height, 1))}, {c.into, c.shrink}}
	for r, row := range rows {
		for i, a := range row.along {
			m[4*r+i] = a * row.times
		}
		m[4*r+3] = -row.times * (row.along[0]*(c.at[0]-anchor.X) + row.along[1]*(c.at[1]-anchor.Y) + row.along[2]*c.at[2])
	}
	m[11]++
	return m
}

// Towards returns numbers a and k such that from a point p, mm from the anchor
// and above the floor, the eye lies in the direction a - k·p. In plan k is 0.
func (v View) Towards(anchor plane.Point) (a [3]float64, k float64) {
	c := v.camera()
	for i, origin := range [3]float64{anchor.X, anchor.Y, 0} {
		a[i] = c.shrink*(c.at[i]-origin) - c.into[i]
	}
	return a, c.shrink
}

// Pixel returns where a point of the floor lies on the canvas, in device
// pixels from its upper left corner, y downward. It reports false for points
// behind the eye.
func (v View) Pixel(p plane.Point) (plane.Point, bool) { return v.PixelAbove(p, 0) }

// PixelAbove returns the same for a point at a height above the floor.
func (v View) PixelAbove(p plane.Point, z float64) (plane.Point, bool) {
	m := v.Matrix(plane.Point{})
	row := func(r int) float64 { return m[4*r]*p.X + m[4*r+1]*p.Y + m[4*r+2]*z + m[4*r+3] }
	w := row(2)
	if w <= 0 {
		return plane.Point{}, false
	}
	return plane.Point{
		X: (row(0)/w + 1) / 2 * float64(v.Width),
		Y: (1 - row(1)/w) / 2 * float64(v.Height),
	}, true
}

// Room returns the point of the floor's plane under a pixel. It reports false
// above the horizon.
func (v View) Room(pixel plane.Point) (plane.Point, bool) {
	m := v.Matrix(plane.Point{})
	x := 2*pixel.X/float64(max(v.Width, 1)) - 1
	y := 1 - 2*pixel.Y/float64(max(v.Height, 1))
	// Two equations: the point's clip x and y are x and y times its w.
	a, b, c := m[0]-x*m[8], m[1]-x*m[9], x*m[11]-m[3]
	d, e, f := m[4]-y*m[8], m[5]-y*m[9], y*m[11]-m[7]
	det := a*e - b*d
	if math.Abs(det) < 1e-18 {
		return plane.Point{}, false
	}
	p := plane.Point{X: (c*e - b*f) / det, Y: (a*f - c*d) / det}
	return p, m[8]*p.X+m[9]*p.Y+m[11] > 0
}
