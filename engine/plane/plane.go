// Package plane is the plane geometry of a floor: points, rings and straight
// cuts through them.
//
// Coordinates are millimetres, x to the right and y away from the reader. A
// ring that runs counter-clockwise has its inside on the left.
package plane

import "math"

// Point is a place on the floor, or a direction, in millimetres.
type Point struct{ X, Y float64 }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times returns p stretched by k.
func (p Point) Times(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product of p and q.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of the vector product of p and q: positive
// when q lies counter-clockwise of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Length returns the distance of p from the origin.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Turned returns p turned about the origin, counter-clockwise, by an angle
// given by its cosine and sine.
func (p Point) Turned(cos, sin float64) Point {
	return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
}
