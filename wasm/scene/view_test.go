package scene

import (
	"math"
	"testing"

	"keelrow/engine/plane"
)

// In plan a mm is Scale pixels, and away from the reader is up.
func TestPlanIsDrawnToScale(t *testing.T) {
	v := View{Scale: 0.25, Width: 1200, Height: 800}
	if p, ok := v.Pixel(plane.Point{X: 100, Y: 200}); !ok || p.Sub(plane.Point{X: 625, Y: 350}).Length() > 1e-9 {
		t.Errorf("100 right and 200 up is at %v, want 625, 350", p)
	}
	if p, _ := v.PixelAbove(plane.Point{X: 100, Y: 200}, 2500); p.Sub(plane.Point{X: 625, Y: 350}).Length() > 1e-9 {
		t.Errorf("a point above it is at %v: walls lean in plan", p)
	}
	v.Centre = plane.Point{X: 2100, Y: 1800}
	if p, _ := v.Pixel(v.Centre); p.Sub(plane.Point{X: 600, Y: 400}).Length() > 1e-9 {
		t.Errorf("the centre is at %v", p)
	}
}

// pinhole is where a point of the room is seen, by a camera obscura: turn the
// room until the eye looks along +y and level, and divide by the depth.
func pinhole(e Eye, width, height float64, x, y, z float64) (px, py, depth float64) {
	dx, dy, dz := x-e.X, y-e.Y, z-e.Height
	a := e.Direction * math.Pi / 180 // clockwise: turn the room back
	right, ahead := dx*math.Cos(a)-dy*math.Sin(a), dx*math.Sin(a)+dy*math.Cos(a)
	d := e.Down * math.Pi / 180
	depth = ahead*math.Cos(d) - dz*math.Sin(d)
	above := ahead*math.Sin(d) + dz*math.Cos(d)
	// Half the field is seen on half the diagonal.
	f := math.Hypot(width, height) / 2 / math.Tan(e.Field/2*math.Pi/180)
	return width/2 + f*right/depth, height/2 - f*above/depth, depth
}

func TestStandingViewIsAPinholes(t *testing.T) {
	for _, e := range []Eye{
		{X: 300, Y: 300, Height: 1600, Direction: 40, Down: 20, Field: 84},
		{X: 4000, Y: 200, Height: 1200, Direction: 330, Down: 5, Field: 60},
		{X: -500, Y: 9000, Height: 1700, Direction: 181, Down: 60, Field: 100},
	} {
		v := View{Centre: plane.Point{X: 2100, Y: 1800}, Scale: 0.2, Width: 1440, Height: 900, Eye: e, Blend: 1}
		seen := 0
		for x := -1000.0; x <= 6000; x += 700 {
			for y := -1000.0; y <= 6000; y += 700 {
				for _, z := range []float64{0, 900, 2500} {
					wantX, wantY, depth := pinhole(e, 1440, 900, x, y, z)
					got, ok := v.PixelAbove(plane.Point{X: x, Y: y}, z)
					if ok != (depth > 0) {
						t.Fatalf("%v: %v, %v, %v is %.0f mm before the eye, seen %v", e, x, y, z, depth, ok)
					}
					if !ok || depth < 100 {
						continue
					}
					seen++
					if math.Hypot(got.X-wantX, got.Y-wantY) > 1e-6*(1+math.Hypot(wantX, wantY)) {
						t.Errorf("%v: %v, %v, %v is at %v, want %.3f, %.3f", e, x, y, z, got, wantX, wantY)
					}
				}
			}
		}
		if seen == 0 {
			t.Errorf("%v sees nothing", e)
		}
		// The painter's way to the eye.
		anchor := plane.Point{X: 1000, Y: -200}
		a, k := v.Towards(anchor)
		for _, p := range []plane.Point{{X: 0, Y: 0}, {X: 4200, Y: 3600}} {
			way := [3]float64{a[0] - k*(p.X-anchor.X), a[1] - k*(p.Y-anchor.Y), a[2]}
			want := [3]float64{e.X - p.X, e.Y - p.Y, e.Height}
			l, m := math.Hypot(math.Hypot(way[0], way[1]), way[2]), math.Hypot(math.Hypot(want[0], want[1]), want[2])
			for i := range way {
				if math.Abs(way[i]/l-want[i]/m) > 1e-9 {
					t.Errorf("from %v the eye is towards %v, want %v", p, way, want)
				}
			}
		}
	}
	if a, k := (View{Scale: 1, Width: 10, Height: 10}).Towards(plane.Point{}); k != 0 || math.Hypot(a[0], a[1]) > 1e-9 || a[2] < 0.99 {
		t.Errorf("in plan the eye is towards %v, %v", a, k)
	}
}

func TestViewGoesBothWays(t *testing.T) {
	for _, blend := range []float64{0, 0.3, 0.7, 1} {
		v := View{Centre: plane.Point{X: 2100, Y: 1800}, Scale: 0.25, Width: 1200, Height: 800, Blend: blend,
			Eye: Eye{X: 300, Y: 300, Direction: 49, Down: 14}}
		for _, q := range []plane.Point{{X: 1200, Y: 1400}, {X: 4200}, {X: 4200, Y: 3600}, {X: 1000, Y: 2500}} {
			px, ok := v.Pixel(q)
			back, ok2 := v.Room(px)
			if !ok || !ok2 || back.Sub(q).Length() > 1e-6 {
				t.Errorf("blend %v: %v is at %v, which is %v", blend, q, px, back)
			}
		}
	}
	v := View{Scale: 1, Width: 1200, Height: 800, Blend: 1, Eye: Eye{Down: 10}}
	if p, ok := v.Room(plane.Point{X: 600, Y: 10}); ok {
		t.Errorf("above the horizon lies %v", p)
	}
}

// From plan to standing the picture moves without a leap.
func TestTheMoveIsSmooth(t *testing.T) {
	v := View{Centre: plane.Point{X: 2100, Y: 1800}, Scale: 0.2, Width: 1440, Height: 900, Eye: Eye{X: 250, Y: 220, Direction: 310, Down: 14}}
	corners := []plane.Point{{X: 500, Y: 3600}, {X: 0, Y: 3600}, {X: 0, Y: 1500}}
	const steps = 200
	for _, q := range corners {
		before, _ := v.Pixel(q)
		for i := 1; i <= steps; i++ {
			v.Blend = float64(i) / steps
			now, ok := v.Pixel(q)
			if move := now.Sub(before).Length(); !ok || move > 1500.0/steps*6 {
				t.Fatalf("%v leaps %.1f pixels at %v, seen %v", q, move, v.Blend, ok)
			}
			before = now
		}
		v.Blend = 0
	}
}
