package floor

import (
	"slices"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// AtWall is a length that holds at one wall of the outline.
type AtWall struct {
	Wall   int
	Length length.Length
}

// Bow is a wall that is an arc of a circle: its chord runs from corner to
// corner and its middle lies Rise out of the room, or into it when Rise is
// negative.
type Bow struct {
	Wall int
	Rise length.Length
}

// Scribe is a wall read by ordinates from its chord, at equal distances from
// its first corner to its last, positive into the room.
type Scribe struct {
	Wall      int
	Ordinates []length.Length
}

// Door is a doorway in a wall.
type Door struct {
	Wall  int
	At    length.Length // from the wall's first corner to the near jamb
	Width length.Length // clear
	Name  string
}

// walled is a ring of the room or of what the room has been cut down to, with
// the wall that each of its edges belongs to, as the outline was given. The
// edges of a hole are its own walls.
type walled struct {
	plane.Ring
	wall []int
}

// rings returns the room's outline counter-clockwise and its holes clockwise,
// with bowed and scribed walls drawn out.
func (j Job) rings() []walled {
	rings := []walled{turnedTo(j.bent(), true)}
	for _, hole := range j.Holes {
		rings = append(rings, turnedTo(straight(hole), false))
	}
	return rings
}

// straight gives every edge of an outline its own wall.
func straight(outline plane.Ring) walled {
	w := walled{Ring: outline, wall: make([]int, len(outline))}
	for i := range w.wall {
		w.wall[i] = i
	}
	return w
}

// turnedTo returns the ring run the way that is asked for.
func turnedTo(w walled, ccw bool) walled {
	if w.Area() > 0 == ccw {
		return w
	}
	// Edge k of the reversed ring runs between the corners that edge n-2-k did.
	n := len(w.wall)
	wall := make([]int, n)
	for k := range wall {
		wall[k] = w.wall[(2*n-2-k)%n]
	}
	return walled{w.Reversed(), wall}
}

// inset moves every edge of a ring inward by what its wall asks for.
func (w walled) inset(by func(wall int) float64) (walled, error) {
	distances, any := make([]float64, len(w.Ring)), false
	for i, wall := range w.wall {
		distances[i] = by(wall)
		any = any || distances[i] != 0
	}
	if !any {
		return w, nil // to the letter
	}
	ring, edges, err := w.Inset(distances)
	if err != nil {
		return walled{}, err
	}
	in := walled{Ring: ring, wall: make([]int, len(edges))}
	for k, e := range edges {
		in.wall[k] = w.wall[e]
	}
	return in, nil
}

// wallsOf returns the walls that edges belong to, each once, in order.
func (w walled) wallsOf(edges []int) []int {
	list := make([]int, len(edges))
	for i, e := range edges {
		list[i] = w.wall[e]
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// at returns what holds at a wall: its own length, or the one of all walls.
func at(list []AtWall, wall int, all length.Length) length.Length {
	for _, a := range list {
		if a.Wall == wall {
			return a.Length
		}
	}
	return all
}

// plain takes the rings without their walls.
func plain(rings []walled) []plane.Ring {
	out := make([]plane.Ring, len(rings))
	for i, w := range rings {
		out[i] = w.Ring
	}
	return out
}

// bent returns the outline as given, with bowed and scribed walls drawn out.
func (j Job) bent() walled { return straight(j.Room) }
