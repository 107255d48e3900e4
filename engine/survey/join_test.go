package survey

import (
	"math"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

func TestJoin(t *testing.T) {
	room := outline(0, 0, 4200, 0, 4200, 3600, 0, 3600)
	hall := outline(0, 0, 1200, 0, 1200, 5000, 0, 5000)
	// From the room's BC, jambs at 1000 and 1900, through 115 mm, to the hall's
	// DA, which runs down on the left: its jambs at 2500 and 3400 from D.
	got, err := Join(room, hall, Doorway{WallA: 1, AtA: 1000, WallB: 3, AtB: 2500, Width: 900, Depth: 115})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", got.Outline.Area(), 4200*3600+1200*5000+900*115, 1e-6)
	// The hall's jamb nearer to A, 1600 from it, lies at 1000: A at (4315, -600).
	for i, want := range []plane.Point{{X: 4315, Y: -600}, {X: 5515, Y: -600}, {X: 5515, Y: 4400}, {X: 4315, Y: 4400}} {
		if p := got.FromSecond(hall[i]); p.Sub(want).Length() > 1e-9 {
			t.Errorf("hall's corner %s at %v, want %v", CornerName(i), p, want)
		}
	}
	if len(got.Outline) != 4+4+4 {
		t.Errorf("%d corners, want 12: %v", len(got.Outline), got.Outline)
	}
	// Clockwise rooms are the same: CB from C, jambs at 3600 - 1900.
	back, err := Join(room.Reversed(), hall.Reversed(), Doorway{WallA: 1, AtA: 1700, WallB: 3, AtB: 600, Width: 900, Depth: 115})
	if err == nil {
		near(t, "area, clockwise", back.Outline.Area(), got.Outline.Area(), 1e-6)
	} else {
		t.Error(err)
	}
	// Without depth, a full-width opening of two equal rooms.
	got, err = Join(room, room, Doorway{WallA: 1, WallB: 3, Width: 3600})
	if err != nil || len(got.Outline) != 6 {
		t.Fatalf("%v, %v", got, err)
	}
	near(t, "area of two", got.Outline.Area(), 2*4200*3600, 1e-6)
}

func TestJoinRandomRooms(t *testing.T) {
	r := random(t)
	joined := 0
	for range 300 {
		a, b := randomRoom(r, 4+r.IntN(4)), randomRoom(r, 4+r.IntN(4))
		door := Doorway{WallA: r.IntN(len(a)), WallB: r.IntN(len(b)), Width: 700, Depth: length.Length(r.IntN(300)), AtA: length.Length(r.IntN(900)), AtB: length.Length(r.IntN(900))}
		if r.IntN(2) == 0 {
			b = b.Reversed()
		}
		got, err := Join(a, b, door)
		if err != nil {
			continue
		}
		joined++
		near(t, "area", got.Outline.Area(), a.Area()+math.Abs(b.Area())+float64(door.Width*door.Depth), 1e-4)
		// The passage's middle is inside, and so is the middle of every wall of b
		// on the outline.
		for i := range b {
			p, q := b.Edge(i)
			if i == door.WallB {
				continue
			}
			middle := got.FromSecond(p.Add(q).Times(0.5))
			nearest := math.Inf(1)
			for e := range got.Outline {
				c, d := got.Outline.Edge(e)
				nearest = min(nearest, plane.FromEdge(middle, c, d))
			}
			if nearest > 1e-6 {
				t.Fatalf("%v %v %+v: wall %d is %v off the outline", a, b, door, i, nearest)
			}
		}
		if flaw, _, _ := got.Outline.Check(); flaw != plane.Sound {
			t.Fatalf("flaw %v", flaw)
		}
	}
	if joined < 50 {
		t.Errorf("only %d of 300 pairs of rooms could be joined", joined)
	}
}

func TestJoinRefuses(t *testing.T) {
	room := outline(0, 0, 4200, 0, 4200, 3600, 0, 3600)
	ell := outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	for _, tt := range []struct {
		name string
		a, b plane.Ring
		door Doorway
		want string
	}{
		{"too wide", room, room, Doorway{WallA: 1, WallB: 3, AtA: 3000, Width: 900},
			"A doorway from 3000 mm to 3900 mm does not fit on wall BC of the first room, which is 3600 mm long. Check the doorway's width and its distance from corner B."},
		{"no such wall", room, room, Doorway{WallA: 1, WallB: 4, Width: 900}, "The second room has no such wall. Choose one of AB to DA."},
		{"on one another", ell, room, Doorway{WallA: 2, AtA: 2100, WallB: 0, AtB: 1000, Width: 900, Depth: 100}, "The rooms would lie on one another: "},
		{"no width", room, room, Doorway{WallA: 1, WallB: 3}, "A doorway cannot be 0 mm wide."},
		{"no depth", room, room, Doorway{WallA: 1, WallB: 3, Width: 900, Depth: length.Length(math.NaN())}, "A doorway cannot be that deep."},
		{"no outline", outline(0, 0, 1, 1, 1, 0, 0, 1), room, Doorway{Width: 900}, "The outline of the first room crosses itself"},
		{"no place", outline(0, 0, math.NaN(), 1, 1, 0), room, Doorway{Width: 900}, "The first room has a corner that is no place"},
	} {
		got, err := Join(tt.a, tt.b, tt.door)
		if err == nil || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%s: %v, %v, want %s", tt.name, got, err, tt.want)
		}
	}
}
