package scene

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/wasm/look"
)

// WallKind is what an upright plane of the shell is.
type WallKind uint8

const (
	Plain WallKind = iota
	Doorway
	Pane
)

// Wall is an upright plane. The room lies to the left of the way from From
// to To.
type Wall struct {
	From, To  plane.Point // in the room frame
	Low, High float64     // above the floor
	Kind      WallKind
	Bare      float64 // 1 where the room does not close round the corner at To, 2 at From, or both
}

// Shell is what stands round a floor. It is not changed once built.
type Shell struct {
	Ceiling float64 // mm above the floor
	Walls   []Wall
	Panes   []Wall // the windows among the walls
	Ground  [][4]plane.Point
}

const (
	CeilingHeight = 2500 // mm, unless a window is too tall for it
	doorHeight    = 2050
	// Openings are drawn so far before their wall.
	proud = 6
	// A hole that is no larger is a column up to the ceiling, a larger one a
	// hearth level with the floor.
	column = 700
)

// ShellOf returns the walls of a plan's room, with its doorways and windows.
// An opening in a wall that is not straight stands where the wall would be.
func ShellOf(p *floor.Plan) *Shell {
	s := &Shell{Ceiling: CeilingHeight}
	job := p.Job()
	for i := range job.Windows { // a tall window needs a tall room
		sill, height := job.Windows[i].Opening()
		s.Ceiling = max(s.Ceiling, float64(sill+height)+150)
	}
	room := p.Room()
	for h, ring := range room {
		low, high := ring.Box()
		if h > 0 && (high.X-low.X > column || high.Y-low.Y > column) {
			continue
		}
		before := len(ring) - 1
		for i := range ring {
			w := Wall{From: ring[before], To: ring[i], High: s.Ceiling}
			if corner(ring, i) < 0 {
				w.Bare = 1
			}
			if corner(ring, before) < 0 {
				w.Bare += 2
			}
			s.Walls = append(s.Walls, w)
			before = i
		}
	}
	backward := plane.Ring(job.Room).Area() < 0
	for _, d := range job.Doors {
		from, to := p.Chord(0, d.Wall)
		s.open(from, to, d.At, d.Width, backward, Wall{High: doorHeight, Kind: Doorway})
	}
	for _, w := range job.Windows {
		from, to := p.Chord(0, w.Wall)
		sill, height := w.Opening()
		s.open(from, to, w.At, w.Width, backward, Wall{Low: float64(sill), High: float64(sill + height), Kind: Pane})
	}
	var t triangles
	t.start(room[0], plane.Point{}, plane.Point{X: 1})
	s.Ground = t.quads()
	return s
}

// open puts an opening into the wall between two corners.
func (s *Shell) open(from, to plane.Point, at, width length.Length, backward bool, w Wall) {
	along := to.Sub(from)
	along = along.Times(1 / along.Length())
	in := plane.Point{X: -along.Y * proud, Y: along.X * proud}
	if backward {
		in = in.Times(-1)
	}
	from = from.Add(in)
	w.From, w.To = from.Add(along.Times(float64(at))), from.Add(along.Times(float64(at+width)))
	if backward {
		w.From, w.To = w.To, w.From
	}
	s.Walls = append(s.Walls, w)
	if w.Kind == Pane {
		s.Panes = append(s.Panes, w)
	}
}

// Middle returns the middle of a wall, with its height.
func (w Wall) Middle() (plane.Point, float64) {
	return w.From.Add(w.To).Times(0.5), (w.Low + w.High) / 2
}

// Light returns the light of one of the windows, and false if there is no
// such window.
func (s *Shell) Light(window int) (look.Light, bool) {
	if window < 0 || window >= len(s.Panes) {
		return look.Light{}, false
	}
	at, z := s.Panes[window].Middle()
	return look.Light{Kind: look.Window, X: at.X, Y: at.Y, Z: z}, true
}

// Stand returns an eye to begin with: a step inside the first doorway, or in
// the near corner, looking to the middle of the room.
func (s *Shell) Stand(p *floor.Plan) Eye {
	ring := p.Room()[0]
	low, high := ring.Box()
	size := high.Sub(low)
	from := low.Add(size.Times(0.06))
	for i := range s.Walls {
		if w := &s.Walls[i]; w.Kind == Doorway {
			from, _ = w.Middle()
			along := w.To.Sub(w.From)
			from = from.Add(plane.Point{X: -along.Y, Y: along.X}.Times(250 / along.Length()))
			break
		}
	}
	if !plane.Inside(from, ring) {
		// An odd room: the middle of a part of the ground.
		q := &s.Ground[0]
		from = q[0].Add(q[1]).Add(q[2]).Times(1.0 / 3)
	}
	to := low.Add(size.Times(0.5)).Sub(from)
	return Eye{X: from.X, Y: from.Y, Height: EyeHeight, Direction: math.Mod(math.Atan2(to.X, to.Y)*180/math.Pi+360, 360), Down: 14}
}

// ShellStride is the number of bytes of an instance of the shell: twelve
// float32, little endian: four corners counter-clockwise as they are seen
// from inside, from the anchor in mm; the height of the first two and of the
// other two; the kind; Bare. The kinds are those of walls, then the ground and
// the ceiling.
const ShellStride = 48

// Instances returns how many instances Bytes has.
func (s *Shell) Instances() int { return len(s.Walls) + 2*len(s.Ground) }

// Bytes returns the shell as instances.
func (s *Shell) Bytes(anchor plane.Point) []byte {
	const ground, ceiling = float64(Pane + 1), float64(Pane + 2)
	numbers := make([]float64, 0, s.Instances()*ShellStride/4)
	x, y := anchor.X, anchor.Y
	for i := range s.Walls {
		w := &s.Walls[i]
		ax, ay, bx, by := w.To.X-x, w.To.Y-y, w.From.X-x, w.From.Y-y
		numbers = append(numbers, ax, ay, bx, by, bx, by, ax, ay, w.Low, w.High, float64(w.Kind), w.Bare)
	}
	for i := range s.Ground {
		q := &s.Ground[i]
		for k := range q {
			numbers = append(numbers, q[k].X-x, q[k].Y-y)
		}
		numbers = append(numbers, 0, 0, ground, 0)
		for k := range q {
			numbers = append(numbers, q[3-k].X-x, q[3-k].Y-y)
		}
		numbers = append(numbers, s.Ceiling, s.Ceiling, ceiling, 0)
	}
	data := make([]byte, 4*len(numbers))
	for i, f := range numbers {
		putFloat32(data, 4*i, f)
	}
	return data
}
