package scene

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/plane"
	"keelrow/wasm/look"
)

// A room of 4 by 3 m, corners A to D from the lower left: figures by hand.
func TestOpeningsStandInTheirWalls(t *testing.T) {
	counter := []plane.Point{{}, {X: 4000}, {X: 4000, Y: 3000}, {Y: 3000}}
	clock := []plane.Point{{}, {Y: 3000}, {X: 4000, Y: 3000}, {X: 4000}}
	for _, tt := range []struct {
		name   string
		job    floor.Job
		window floor.Window
		middle plane.Point // proud of the wall by so much
		z      float64
		in     plane.Point
	}{
		// Wall 1 runs up the right side; 500 + 1000/2 along it.
		{"right", floor.Job{Room: counter}, floor.Window{Wall: 1, At: 500, Width: 1000, Sill: 900, Height: 1200}, plane.Point{X: 4000 - proud, Y: 1000}, 1500, plane.Point{X: -1}},
		// Given the other way round, wall 1 runs along the far side.
		{"far, clockwise", floor.Job{Room: clock}, floor.Window{Wall: 1, At: 500, Width: 1000, Height: 2000}, plane.Point{X: 1000, Y: 3000 - proud}, 1000, plane.Point{Y: -1}},
	} {
		tt.job.Windows = []floor.Window{tt.window}
		s := ShellOf(planOf(t, tt.job))
		l, ok := s.Light(0)
		if !ok || l.Kind != look.Window || math.Hypot(l.X-tt.middle.X, l.Y-tt.middle.Y) > 1e-9 || math.Abs(l.Z-tt.z) > 1e-9 {
			t.Errorf("%s: light %v, want from %v, %v", tt.name, l, tt.middle, tt.z)
		}
		w := s.Panes[0]
		along := w.To.Sub(w.From)
		in := plane.Point{X: -along.Y, Y: along.X}.Times(1 / along.Length())
		if in.Sub(tt.in).Length() > 1e-9 {
			t.Errorf("%s: the room lies to %v of it", tt.name, in)
		}
	}
	p := planOf(t, floor.Job{Room: counter, Doors: []floor.Door{{Wall: 3, At: 1000, Width: 800}}})
	// Four walls and a door; somebody in the doorway looks across the room,
	// from (0, 3000 - 1000 - 400) to (2000, 1500): nearly along +x.
	s := ShellOf(p)
	if len(s.Walls) != 5 || s.Walls[4].Kind != Doorway {
		t.Errorf("walls %v", s.Walls)
	}
	if e := s.Stand(p); e.X < 200 || e.X > 300 || math.Abs(e.Y-1600) > 1e-6 || e.Direction < 90 || e.Direction > 95 {
		t.Errorf("somebody stands at %v", e)
	}
}

// Walls are seen from inside: counter-clockwise there, which is how the card
// tells.
func TestShellFacesTheRoom(t *testing.T) {
	for _, room := range rooms {
		room.job.Windows = []floor.Window{{At: 300, Width: 900, Sill: 900, Height: 1000}}
		p := planOf(t, room.job)
		s := ShellOf(p)
		data := s.Bytes(plane.Point{})
		if len(data) != s.Instances()*ShellStride {
			t.Fatalf("%s: %d bytes, %d instances", room.name, len(data), s.Instances())
		}
		rings := p.Room()
		ground := 0.0
		for i := range s.Instances() {
			var c [4][3]float64
			at := i * ShellStride
			for k := range c {
				c[k] = [3]float64{float64(float32At(data, at+8*k)), float64(float32At(data, at+8*k+4)), float64(float32At(data, at+32+4*(k/2)))}
			}
			sub := func(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
			// Half the cross product of the diagonals.
			a, b := sub(c[2], c[0]), sub(c[3], c[1])
			normal := [3]float64{(a[1]*b[2] - a[2]*b[1]) / 2, (a[2]*b[0] - a[0]*b[2]) / 2, (a[0]*b[1] - a[1]*b[0]) / 2}
			switch kind := float32At(data, at+40); {
			case kind <= float32(Pane):
				l := math.Hypot(normal[0], normal[1])
				m := plane.Point{X: (c[0][0] + c[1][0]) / 2, Y: (c[0][1] + c[1][1]) / 2}
				if q := m.Add(plane.Point{X: normal[0], Y: normal[1]}.Times(2 / l)); !plane.Inside(q, rings...) {
					t.Errorf("%s: wall at %v does not face the room", room.name, m)
				}
			case normal[2] > 0:
				ground += normal[2]
			case normal[2] >= 0 || c[0][2] != CeilingHeight:
				t.Errorf("%s: a ceiling that is none: %v", room.name, c)
			}
		}
		if want := rings[0].Area(); math.Abs(ground-want) > 1e-5*want {
			t.Errorf("%s: the ground has %.0f mm², want %.0f", room.name, ground, want)
		}
		if e := s.Stand(p); !plane.Inside(plane.Point{X: e.X, Y: e.Y}, rings[0]) {
			t.Errorf("%s: somebody stands outside, at %v", room.name, e)
		}
	}
}
