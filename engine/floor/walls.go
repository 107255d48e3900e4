package floor

import "keelrow/engine/plane"

// RoomWalls returns, for each ring of Room, the wall that each of its edges
// belongs to, numbered as the outline or the hole was given. A bowed or
// scribed wall has several edges, one after the other.
func (p *Plan) RoomWalls() [][]int { return wallLists(p.rings) }

// FieldWalls returns the same for each ring of Field. A wall that the border
// used up has no edge.
func (p *Plan) FieldWalls() [][]int { return wallLists(p.fields) }

func wallLists(rings []walled) [][]int {
	lists := make([][]int, len(rings))
	for i, w := range rings {
		lists[i] = w.wall
	}
	return lists
}

// Chord returns the two corners of a wall in the order in which they were
// given. Hole is 0 for the outline and from 1 for the holes.
func (p *Plan) Chord(hole, wall int) (from, to plane.Point) {
	if hole > 0 {
		return plane.Ring(p.job.Holes[hole-1]).Edge(wall)
	}
	return plane.Ring(p.job.Room).Edge(wall)
}

// Axis returns the pattern's centre point, which the job's centre point is
// moved to by Across and Along, and the direction of the spine as a unit
// vector.
func (p *Plan) Axis() (centre, along plane.Point) {
	return p.frame.origin, p.frame.direction(plane.Point{Y: 1})
}
