package floor

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// fieldErrors takes a joined error apart. Every part has to be a *FieldError.
func fieldErrors(t testing.TB, err error) (list []*FieldError) {
	t.Helper()
	if err == nil {
		return nil
	}
	parts := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		parts = joined.Unwrap()
	}
	for _, part := range parts {
		var f *FieldError
		if !errors.As(part, &f) {
			t.Fatalf("%v is not a *FieldError", part)
		}
		list = append(list, f)
	}
	return list
}

// The zero job is a usable one.
func TestZeroJob(t *testing.T) {
	p, err := New(Job{})
	if err != nil {
		t.Fatal(err)
	}
	if got := p.FieldArea(); got != 4200*3600 {
		t.Errorf("field of %v mm², want 4200 x 3600", got)
	}
}

func TestErrors(t *testing.T) {
	room := rect(0, 0, 4200, 3600)
	alcove := plane.Ring{{X: 0, Y: 0}, {X: 4200, Y: 0}, {X: 4200, Y: 3600}, {X: 2600, Y: 3600}, {X: 2600, Y: 4000}, {X: 2000, Y: 4000}, {X: 2000, Y: 3600}, {X: 0, Y: 3600}}
	corridor := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1000}, {X: 4000, Y: 1000}, {X: 4000, Y: 0}, {X: 7000, Y: 0},
		{X: 7000, Y: 3000}, {X: 4000, Y: 3000}, {X: 4000, Y: 1200}, {X: 3000, Y: 1200}, {X: 3000, Y: 3000}, {X: 0, Y: 3000}}
	nan, inf := math.NaN(), math.Inf(1)
	many := make([]plane.Point, 2001)
	for i := range many {
		sin, cos := math.Sincos(float64(i) / 2001 * 2 * math.Pi)
		many[i] = plane.Point{X: 1000 * cos, Y: 1000 * sin}
	}
	holes := func(list ...[]plane.Point) [][]plane.Point { return list }
	for _, tt := range []struct {
		name string
		job  Job
		keys []string
		says []string // one for each key: words the sentence has to have
	}{
		{"two corners", Job{Room: room[:2]}, []string{"room"}, []string{"2 corners|at least three"}},
		{"2001 corners", Job{Room: many}, []string{"room"}, []string{"2,001 corners|2,000"}},
		{"bow-tie", Job{Room: []plane.Point{room[0], room[2], room[1], room[3]}}, []string{"room"}, []string{"crosses itself|walls AB and CD"}},
		{"corner twice", Job{Room: []plane.Point{room[0], room[1], room[1], room[2]}}, []string{"room"}, []string{"Corners B and C|same point"}},
		{"closed by hand", Job{Room: append(slices.Clone(room), room[0])}, []string{"room"}, []string{"Corners A and E|same point"}},
		{"on one line", Job{Room: []plane.Point{{X: 0, Y: 0}, {X: 1000, Y: 500}, {X: 3000, Y: 1500}, {X: 2000, Y: 1000}}}, []string{"room"}, []string{"on one line"}},
		{"corner not a number", Job{Room: []plane.Point{{X: 0, Y: 0}, {X: nan, Y: 0}, {X: 1000, Y: 1000}}}, []string{"room"}, []string{"Corner B|within 1 km"}},
		{"corner endless", Job{Room: []plane.Point{{X: 0, Y: 0}, {X: 1000, Y: -inf}, {X: 1000, Y: 1000}}}, []string{"room"}, []string{"Corner B|within 1 km"}},
		{"corner 2 km off", Job{Room: []plane.Point{{X: 0, Y: 0}, {X: 2e6, Y: 0}, {X: 1000, Y: 1000}}}, []string{"room"}, []string{"Corner B|within 1 km"}},
		{"hole of two corners", Job{Holes: holes(room[:2])}, []string{"hole"}, []string{"hole 1|2 corners"}},
		{"hole outside", Job{Holes: holes(rect(5000, 0, 5200, 200))}, []string{"hole"}, []string{"hole 1|outside the room"}},
		{"hole across a wall", Job{Holes: holes(rect(1000, 1000, 1200, 1200), rect(4100, 1000, 4300, 1200))}, []string{"hole"}, []string{"hole 2|wall BC"}},
		{"hole against a wall", Job{Holes: holes(rect(4000, 1000, 4200, 1200))}, []string{"hole"}, []string{"hole 1|wall BC"}},
		{"hole in a hole", Job{Holes: holes(rect(1000, 1000, 2200, 2200), rect(1100, 1100, 1200, 1200))}, []string{"hole"}, []string{"Holes 1 and 2|one another"}},
		{"hole round a hole", Job{Holes: holes(rect(1100, 1100, 1200, 1200), rect(1000, 1000, 2200, 2200))}, []string{"hole"}, []string{"Holes 1 and 2|one another"}},
		{"holes across", Job{Holes: holes(rect(1000, 1000, 2000, 2000), rect(1500, 1500, 2500, 2500))}, []string{"hole"}, []string{"Holes 1 and 2|one another"}},
		{"201 holes", Job{Holes: slices.Repeat(holes(rect(1, 1, 2, 2)), 201)}, []string{"hole"}, []string{"201 holes|200"}},
		{"gap below zero", Job{Gap: -1}, []string{"gap"}, []string{"gap cannot be -1 mm"}},
		{"gap not a number", Job{Gap: length.Length(nan)}, []string{"gap"}, []string{"gap cannot be"}},
		{"border endless", Job{Border: length.Length(inf)}, []string{"border"}, []string{"border cannot be"}},
		{"border below zero", Job{Border: -127}, []string{"border"}, []string{"-127 mm"}},
		{"gap wider than the room", Job{Gap: 1800}, []string{"gap"}, []string{"gap of 1800 mm leaves no field"}},
		{"border wider than the room", Job{Gap: 300, Border: 1600}, []string{"border"}, []string{"gap and border of 1900 mm leaves no field|narrower"}},
		{"alcove narrower than twice the border", Job{Room: alcove, Gap: 12, Border: 300}, []string{"border"}, []string{"312 mm|walls DE, EF and FG|recess"}},
		{"alcove, corners clockwise", Job{Room: alcove.Reversed(), Gap: 12, Border: 300}, []string{"border"}, []string{"walls BC, CD and DE"}},
		{"corridor narrower than twice the border", Job{Room: corridor, Border: 127}, []string{"border"}, []string{"127 mm|walls CD and IJ"}},
		{"hole too near a wall", Job{Gap: 12, Border: 60, Holes: holes(rect(4000, 1000, 4100, 1200))}, []string{"border"}, []string{"hole 1|wall BC|72 mm"}},
		{"holes too near each other", Job{Gap: 12, Border: 60, Holes: holes(rect(1000, 1000, 1100, 1200), rect(1200, 1000, 1300, 1200))}, []string{"border"}, []string{"holes 1 and 2|72 mm"}},
		{"no such pattern", Job{Pattern: 7}, []string{"pattern"}, []string{"herringbone or chevron"}},
		{"block below zero", Job{Width: -70}, []string{"block"}, []string{"-70 mm wide"}},
		{"block not a number", Job{Width: length.Length(nan)}, []string{"block"}, []string{"wide"}},
		{"length not a number", Job{Length: length.Length(nan)}, []string{"block"}, []string{"long"}},
		{"length endless", Job{Length: length.Length(inf)}, []string{"block"}, []string{"long"}},
		{"length first", Job{Width: 350, Length: 70}, []string{"block"}, []string{"70 mm long and 350 mm wide|width first"}},
		{"blocks of a hair", Job{Width: 1, Length: 5}, []string{"block"}, []string{"1 mm wide|5 mm or more"}},
		{"four strands", Job{Strands: 4}, []string{"strands"}, []string{"4 strands|1, 2 or 3"}},
		{"strands below zero", Job{Strands: -1}, []string{"strands"}, []string{"1, 2 or 3"}},
		{"flat mitre", Job{Pattern: Chevron, Mitre: 80}, []string{"mitre"}, []string{"80 degrees|25 to 75"}},
		{"mitre not a number", Job{Pattern: Chevron, Mitre: nan}, []string{"mitre"}, []string{"25 to 75"}},
		{"axis not a number", Job{Axis: nan}, []string{"axis"}, []string{"axis|-360 to 360"}},
		{"axis many times round", Job{Axis: 1e9}, []string{"axis"}, []string{"-360 to 360"}},
		{"centre not a number", Job{Centre: &plane.Point{X: nan}}, []string{"centre"}, []string{"centre point"}},
		{"shift not a number", Job{Across: length.Length(nan)}, []string{"shift"}, []string{"within 1 km"}},
		{"shift endless", Job{Along: length.Length(-inf)}, []string{"shift"}, []string{"within 1 km"}},
		{"no such start", Job{Start: 5}, []string{"start"}, []string{"centre or from a wall"}},
		{"no such unit", Job{Unit: 9}, []string{"unit"}, []string{"millimetres nor inches"}},
		{"no such tape", Job{Fraction: 12}, []string{"fraction"}, []string{"1/12 in|1/16, 1/32 or 1/64"}},
		{"several at once", Job{Room: room[:2], Gap: -1, Width: 350, Length: 70, Axis: inf},
			[]string{"room", "gap", "block", "axis"}, []string{"at least three", "-1 mm", "width first", "axis"}},
		// 50 m x 60 m less nothing, by blocks of 50 x 100 mm: 600,000, and
		// those at the walls.
		{"a hall of 600,000 blocks", Job{Room: rect(0, 0, 50000, 60000), Width: 50, Length: 100}, []string{"block"}, []string{"60|300,000|blocks larger"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p, err := New(tt.job)
			if err == nil {
				t.Fatalf("no error, but a field of %v mm²", p.FieldArea())
			}
			var first *FieldError
			if !errors.As(err, &first) {
				t.Fatalf("%v is not a *FieldError", err)
			}
			list := fieldErrors(t, err)
			var keys []string
			for _, f := range list {
				keys = append(keys, f.Key)
			}
			if !slices.Equal(keys, tt.keys) {
				t.Fatalf("errors for %v, want %v: %v", keys, tt.keys, err)
			}
			for i, f := range list {
				for _, words := range strings.Split(tt.says[i], "|") {
					if !strings.Contains(f.Error(), words) {
						t.Errorf("%q does not say %q", f.Error(), words)
					}
				}
				checkSentence(t, f.Error())
			}
		})
	}
}

// checkSentence checks the form of an error: sentences that begin with a
// capital, end with a stop and have no words of a programmer's.
func checkSentence(t *testing.T, text string) {
	t.Helper()
	if text == "" || strings.ToUpper(text[:1]) != text[:1] || !strings.HasSuffix(text, ".") || strings.Contains(text, "..") {
		t.Errorf("%q is not in sentences", text)
	}
	for _, word := range []string{"NaN", "Inf", "nil", "index", "invalid", "polygon", "vertex"} {
		if strings.Contains(text, word) {
			t.Errorf("%q has the word %q in it", text, word)
		}
	}
}

// The number of blocks that is too many is said, and is about right: 600,000
// whole ones and the cut ones along 220 m of wall.
func TestTooManyBlocks(t *testing.T) {
	_, err := New(Job{Room: rect(0, 0, 50000, 60000), Width: 50, Length: 100})
	list := fieldErrors(t, err)
	if len(list) != 1 {
		t.Fatalf("%d errors: %v", len(list), err)
	}
	said := 0
	for _, c := range list[0].Wrong {
		switch {
		case c >= '0' && c <= '9':
			said = 10*said + int(c-'0')
		case c != ',' && said > 0:
			goto done
		}
	}
done:
	if said < 600_000 || said > 600_000+2*220_000/50 {
		t.Errorf("%q says %d, want about 600,000", list[0].Wrong, said)
	}
	// Just under the limit is laid out.
	if _, err := New(Job{Room: rect(0, 0, 30000, 40000), Width: 50, Length: 100}); err != nil {
		t.Errorf("a hall of 240,000 blocks: %v", err)
	}
}

// Wall names go on after Z.
func TestWallNames(t *testing.T) {
	for _, tt := range []struct {
		i, n int
		want string
	}{{0, 4, "AB"}, {3, 4, "DA"}, {25, 40, "ZA2"}, {26, 40, "A2B2"}, {39, 40, "N2A"}} {
		if got := WallName(tt.i, tt.n); got != tt.want {
			t.Errorf("WallName(%d, %d) = %q, want %q", tt.i, tt.n, got, tt.want)
		}
	}
}

// Walls are named as the corners were given, whichever way round they run.
func TestWallsAsGiven(t *testing.T) {
	alcove := plane.Ring{{X: 0, Y: 0}, {X: 4200, Y: 0}, {X: 4200, Y: 3600}, {X: 2600, Y: 3600}, {X: 2600, Y: 4000}, {X: 2000, Y: 4000}, {X: 2000, Y: 3600}, {X: 0, Y: 3600}}
	for _, room := range []plane.Ring{alcove, alcove.Reversed()} {
		_, err := New(Job{Room: room, Gap: 310})
		list := fieldErrors(t, err)
		if len(list) != 1 || len(list[0].Walls) != 3 {
			t.Fatalf("%v, want one error with three walls", err)
		}
		for _, wall := range list[0].Walls {
			a, b := room.Edge(wall)
			for _, p := range []plane.Point{a, b} {
				if p.X < 2000 || p.X > 2600 || p.Y < 3600 {
					t.Errorf("wall %d of %v is named, which is not of the alcove", wall, room)
				}
			}
		}
	}
}
