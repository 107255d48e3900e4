package strike

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// Facing is the side of the floor that a wall closes, as seen along the axis.
type Facing int

const (
	Left Facing = iota
	Right
	Near
	Far
)

// Leftover is what is left of the pattern at a wall: at the line along it that
// ends the field.
type Leftover struct {
	Hole, Wall int // Hole 0 is the outline
	Facing     Facing
	Pieces     int // cut pieces with an edge on that line
	Slivers    int // those of them narrower than asked for
	// Narrowest and Widest are the least and the most that any of them reaches
	// into the field, square to the line. 0 without pieces.
	Narrowest, Widest length.Length
	// Plain is the same for the pieces that meet no other wall: those that
	// come again and again along it.
	Plain struct {
		Pieces            int
		Narrowest, Widest length.Length
	}
	// Taper is how much more is left at the wall's last corner than at its
	// first: how much further that corner lies from a line along the axis, or,
	// at a wall that closes the near or the far end, from one square to it.
	Taper length.Length
}

// add counts a piece.
func (l *Leftover) add(reach, sliver length.Length, corner bool) {
	if l.Pieces == 0 || reach < l.Narrowest {
		l.Narrowest = reach
	}
	l.Widest = max(l.Widest, reach)
	l.Pieces++
	if reach < sliver-tiny {
		l.Slivers++
	}
	if corner {
		return
	}
	if l.Plain.Pieces == 0 || reach < l.Plain.Narrowest {
		l.Plain.Narrowest = reach
	}
	l.Plain.Widest = max(l.Plain.Widest, reach)
	l.Plain.Pieces++
}

// Leftovers returns what is left at every wall of the outline, in the order
// given, and then round the holes. A bowed wall is judged by its chord for its
// facing and its taper.
func Leftovers(p *floor.Plan, sliver length.Length) []Leftover {
	walls := p.FieldWalls()
	list := walledOff(p)
	place := map[[2]int]int{}
	for i, l := range list {
		place[[2]int{l.Hole, l.Wall}] = i
	}
	var sides []side
	for h, ring := range p.Field() {
		for i := range ring {
			sides = append(sides, newSide(ring, i, place[[2]int{h, walls[h][i]}]))
		}
	}
	var met []reached
	for _, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					met = meet(met[:0], sides, piece)
					for _, m := range met {
						list[m.wall].add(m.reach, sliver, len(met) > 1)
					}
				}
			}
		}
	}
	return list
}

// walledOff returns the walls of the outline and the holes, with their facing
// and taper and nothing counted yet.
func walledOff(p *floor.Plan) []Leftover {
	_, along := p.Axis()
	across := right(along)
	ways := [4]plane.Point{Left: across.Times(-1), Right: across, Near: along.Times(-1), Far: along}
	var list []Leftover
	job := p.Job()
	at := map[[2]int]wall{}
	for _, w := range room(p).walls {
		at[[2]int{w.hole, w.number}] = w
	}
	for h := range p.Room() {
		n := len(job.Room)
		if h > 0 {
			n = len(job.Holes[h-1])
		}
		for i := range n {
			w := at[[2]int{h, i}]
			l := Leftover{Hole: h, Wall: i}
			best, out := math.Inf(-1), w.outward()
			for f, way := range ways {
				if d := way.Dot(out); d > best+tiny {
					best, l.Facing = d, Facing(f)
				}
			}
			l.Taper = length.Length(w.to.Sub(w.from).Dot(ways[l.Facing]))
			list = append(list, l)
		}
	}
	return list
}

// side is an edge of the field with its box.
type side struct {
	from, to  plane.Point
	low, high plane.Point
	inward    plane.Point
	wall      int
}

func newSide(ring plane.Ring, i, wall int) side {
	s := side{wall: wall}
	s.from, s.to = ring.Edge(i)
	s.low, s.high = plane.Ring{s.from, s.to}.Box()
	d := s.to.Sub(s.from)
	s.inward = plane.Point{X: -d.Y, Y: d.X}.Times(1 / d.Length())
	return s
}

// reached is how far a piece reaches in from a wall.
type reached struct {
	wall  int
	reach length.Length
}

const (
	// onEdge is the distance in mm within which a piece's corner lies on an
	// edge of the field: above the rounding of the cut.
	onEdge = 1e-6
	// shortest is the length in mm of an edge that counts as lying along a
	// wall: so much longer than onEdge that it cannot stand across it.
	shortest = 1e-4
)

// meet adds the walls that a piece lies against, each once.
func meet(met []reached, sides []side, piece floor.Piece) []reached {
	low, high := piece.Outline.Box()
	for k := range sides {
		s := &sides[k]
		if s.low.X > high.X+onEdge || s.high.X < low.X-onEdge || s.low.Y > high.Y+onEdge || s.high.Y < low.Y-onEdge || !s.holds(piece) {
			continue
		}
		reach := 0.0
		for _, q := range piece.Outline {
			reach = max(reach, q.Sub(s.from).Dot(s.inward))
		}
		found := false
		for i := range met { // a piece against two edges of a bowed wall
			if met[i].wall == s.wall {
				met[i].reach, found = max(met[i].reach, length.Length(reach)), true
			}
		}
		if !found {
			met = append(met, reached{s.wall, length.Length(reach)})
		}
	}
	return met
}

// holds says whether an edge of the piece lies on the side.
func (s *side) holds(piece floor.Piece) bool {
	on := func(r plane.Ring) bool {
		for i := range r {
			a, b := r.Edge(i)
			if plane.FromEdge(a, s.from, s.to) <= onEdge && plane.FromEdge(b, s.from, s.to) <= onEdge && b.Sub(a).Length() >= shortest {
				return true
			}
		}
		return false
	}
	if on(piece.Outline) {
		return true
	}
	for _, hole := range piece.Holes {
		if on(hole) {
			return true
		}
	}
	return false
}

// Ends returns what is left at all walls of the outline that face one way
// together, by Facing. Wall is -1; Taper is the largest of any of them,
// whichever way it runs, and so never below zero.
func Ends(p *floor.Plan, sliver length.Length) [4]Leftover {
	var ends [4]Leftover
	for f := range ends {
		ends[f].Wall, ends[f].Facing = -1, Facing(f)
	}
	for _, l := range Leftovers(p, sliver) {
		if l.Hole > 0 {
			continue
		}
		e := &ends[l.Facing]
		e.Taper = max(e.Taper, length.Length(math.Abs(float64(l.Taper))))
		if l.Pieces > 0 && (e.Pieces == 0 || l.Narrowest < e.Narrowest) {
			e.Narrowest = l.Narrowest
		}
		if l.Plain.Pieces > 0 && (e.Plain.Pieces == 0 || l.Plain.Narrowest < e.Plain.Narrowest) {
			e.Plain.Narrowest = l.Plain.Narrowest
		}
		e.Widest, e.Plain.Widest = max(e.Widest, l.Widest), max(e.Plain.Widest, l.Plain.Widest)
		e.Pieces, e.Slivers, e.Plain.Pieces = e.Pieces+l.Pieces, e.Slivers+l.Slivers, e.Plain.Pieces+l.Plain.Pieces
	}
	return ends
}

// Placing is one of the four balanced placings of the pattern.
type Placing struct {
	Shift pattern.Shift
	Ends  [4]Leftover
	Plan  *floor.Plan
}

// Placings lays the floor in each of the pattern's four balanced placings
// about the job's centre point, to be compared. A shift the job has already is
// left out of account.
func Placings(p *floor.Plan, sliver length.Length) ([]Placing, error) {
	var list []Placing
	for _, s := range p.Pattern().Balanced() {
		job := p.Job()
		job.Across, job.Along = s.Across, s.Along
		moved, err := floor.New(job)
		if err != nil {
			return nil, err
		}
		list = append(list, Placing{s, Ends(moved, sliver), moved})
	}
	return list, nil
}
