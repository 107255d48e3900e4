package state

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// lineFrom returns what a way of setting the centre line starts with: the
// walls, doorway, hole or points that keep the line as near as may be to where
// it is.
func (s *State) lineFrom(kind string) (a, b string) {
	_, along := s.Plan.Axis()
	room := plane.Ring(s.Plan.Job().Room)
	outward := 1.0
	if room.Area() < 0 {
		outward = -1
	}
	// facing names the wall with the most of its length to one side.
	facing := func(way plane.Point) string {
		best, most := 0, 0.0
		for i := range room {
			p, q := room.Edge(i)
			d := q.Sub(p)
			if m := outward * (plane.Point{X: d.Y, Y: -d.X}).Dot(way); m > most {
				best, most = i, m
			}
		}
		return floor.WallName(best, len(room))
	}
	right := plane.Point{X: along.Y, Y: -along.X}
	switch kind {
	case "midway":
		return facing(right.Times(-1)), facing(right)
	case "square", "wall":
		return facing(along.Times(-1)), ""
	case "door", "hole":
		return "1", ""
	case "through":
		centre := *s.Plan.Job().Centre
		return s.at(centre), s.at(centre.Add(along.Times(float64(length.Metre))))
	}
	return "", ""
}

// at writes a point of the room.
func (s *State) at(p plane.Point) string {
	return written(rounded(p.X), s.Unit()) + "," + written(rounded(p.Y), s.Unit())
}

// rounded rounds to a tenth of a millimetre.
func rounded(v float64) length.Length { return length.Length(math.Round(v*10) / 10) }
