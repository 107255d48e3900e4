package floor

import (
	"slices"

	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
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
// its first corner to its last, positive into the room. The two in the corners
// are 0.
type Scribe struct {
	Wall      int
	Ordinates []length.Length
}

// Round is a round hole: a column, a pipe, a round hearth.
type Round struct {
	Centre   plane.Point
	Diameter length.Length
}

// Door is a doorway in a wall.
type Door struct {
	Wall  int
	At    length.Length // from the wall's first corner to the near jamb
	Width length.Length // clear
	Name  string
}

// Window is a window in a wall. The light through it shows the pattern; where
// the blocks lie does not depend on it.
type Window struct {
	Wall         int
	At           length.Length // from the wall's first corner
	Width        length.Length
	Sill, Height length.Length // above the floor, and from there to the head; with Height 0 neither is known
	Name         string
}

// Opening returns the window's sill and height, the usual ones where they are
// not known.
func (w Window) Opening() (sill, height length.Length) {
	if w.Height == 0 {
		return 900, 1200
	}
	return w.Sill, w.Height
}

// walled is a ring of the room or of what the room has been cut down to, with
// the wall that each of its edges belongs to, as the outline was given, and
// the edge of the room's own ring that it was moved in from. The edges of a
// hole are its own walls.
type walled struct {
	plane.Ring
	wall, edge []int
}

// rings returns the room's outline counter-clockwise and its holes clockwise,
// with bowed and scribed walls drawn out.
func (j Job) rings() ([]walled, error) {
	outline, err := j.bent()
	if err != nil {
		return nil, err
	}
	rings := []walled{turnedTo(outline, true)}
	for _, hole := range j.Holes {
		rings = append(rings, turnedTo(straight(hole), false))
	}
	for i := range rings {
		for e := range rings[i].Ring {
			rings[i].edge = append(rings[i].edge, e)
		}
	}
	return rings, nil
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
	return walled{Ring: w.Reversed(), wall: wall}
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
	in := walled{Ring: ring}
	for _, e := range edges {
		in.wall, in.edge = append(in.wall, w.wall[e]), append(in.edge, w.edge[e])
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
func (j Job) bent() (w walled, err error) {
	if len(j.Bows)+len(j.Scribes) == 0 {
		return straight(j.Room), nil
	}
	for i := range j.Room {
		a, b := plane.Ring(j.Room).Edge(i)
		points := []plane.Point{a}
		for _, bow := range j.Bows {
			if bow.Wall == i {
				// Arcs bulge to the right of their chord, out of a
				// counter-clockwise room.
				rise := bow.Rise
				if plane.Ring(j.Room).Area() < 0 {
					rise = -rise
				}
				arc, err := survey.Arc(a, b, rise)
				if err != nil {
					return w, &FieldError{Key: "bow", Walls: []int{i},
						Wrong: "Wall " + WallName(i, len(j.Room)) + ": " + said(err, j.Tape())}
				}
				points = append(points, arc...)
			}
		}
		for _, scribe := range j.Scribes {
			if scribe.Wall == i {
				ordinates := scribe.Ordinates
				if plane.Ring(j.Room).Area() < 0 {
					ordinates = turnedOver(ordinates)
				}
				uneven, err := survey.Scribe(a, b, ordinates)
				if err != nil {
					return w, &FieldError{Key: "scribe", Walls: []int{i},
						Wrong: "Wall " + WallName(i, len(j.Room)) + ": " + said(err, j.Tape())}
				}
				for _, p := range uneven {
					if p != a && p != b { // the corners themselves
						points = append(points, p)
					}
				}
			}
		}
		for _, p := range points {
			w.Ring, w.wall = append(w.Ring, p), append(w.wall, i)
		}
	}
	if len(w.Ring) > maxCorners {
		return w, &FieldError{Key: "bow",
			Wrong: "The bowed and scribed walls bend in " + count(len(w.Ring)) + " places",
			Do:    "At most " + count(maxCorners) + " can be laid out: leave out those that are nearly straight"}
	}
	if flaw, i, k := w.Check(); flaw != plane.Sound {
		list := w.wallsOf([]int{i, k})
		return w, &FieldError{Key: "bow", Walls: list,
			Wrong: "With its bowed walls the outline crosses itself: " + walls(list, len(j.Room)) + " meet",
			Do:    "Check which way they bow"}
	}
	return w, nil
}

// turnedOver returns the lengths with their signs changed.
func turnedOver(list []length.Length) []length.Length {
	out := make([]length.Length, len(list))
	for i, l := range list {
		out[i] = -l
	}
	return out
}
