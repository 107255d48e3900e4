package floor

import (
	"errors"
	"math"
	"strings"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
)

// checkField checks that an error is one *FieldError for a key, in sentences
// that have the given words.
func checkField(t *testing.T, name string, err error, key, says string) *FieldError {
	t.Helper()
	list := fieldErrors(t, err)
	if len(list) != 1 {
		t.Errorf("%s: %d errors, want one: %v", name, len(list), err)
		return nil
	}
	if list[0].Key != key {
		t.Errorf("%s: key %q, want %q: %v", name, list[0].Key, key, err)
	}
	for _, words := range strings.Split(says, "|") {
		if !strings.Contains(list[0].Error(), words) {
			t.Errorf("%s: %q does not say %q", name, list[0].Error(), words)
		}
	}
	checkSentence(t, list[0].Error())
	return list[0]
}

// tapes reads a tape by corner numbers: from, to, length, and so on.
func tapes(list ...float64) (readings []survey.Reading) {
	for i := 0; i+2 < len(list); i += 3 {
		readings = append(readings, survey.Reading{From: int(list[i]), To: int(list[i+1]), Length: length.Length(list[i+2])})
	}
	return readings
}

// A room from its walls and diagonals has the area of Bretschneider's formula,
// worked in geometry handbooks from the sides and the diagonals p, q alone:
// ¼·√(4p²q² - (b² + d² - a² - c²)²). The room is (0,0) (6,0) (7,4) (1,5),
// with shoelace area 27.5, in units of 500 mm.
func TestTapedRoom(t *testing.T) {
	a, b, c, d, p, q := 3000.0, 500*math.Sqrt(17), 500*math.Sqrt(37), 500*math.Sqrt(26), 500*math.Sqrt(65), 500*math.Sqrt(50)
	job := Job{Tapes: tapes(0, 1, a, 1, 2, b, 2, 3, c, 3, 0, d, 0, 2, p, 1, 3, q)}
	want := math.Sqrt(4*p*p*q*q-math.Pow(b*b+d*d-a*a-c*c, 2)) / 4
	if math.Abs(want-27.5*500*500) > 1e-3 {
		t.Fatalf("Bretschneider's formula gives %v", want)
	}
	plan := planOf(t, job)
	if got := roomArea(plan); math.Abs(got-want) > 1e-3 {
		t.Errorf("%v mm², want %v", got, want)
	}
	// Per-wall gaps keep the names of the walls: AB lies on the x axis.
	job.Gap, job.GapAt = 10, []AtWall{{0, 25}}
	if low, _ := planOf(t, job).Field()[0].Box(); math.Abs(low.Y-25) > 1e-9 {
		t.Errorf("the field begins at y = %v, want 25", low.Y)
	}
	addsUp(t, job)
}

// An L-shape walked in turn, to the right at its inner corner: 5200·3100 +
// 2100·1500 = 19 270 000 by its rectangles.
func TestWalkedRoom(t *testing.T) {
	legs := []survey.Leg{{Length: 5200, Turn: 90}, {Length: 3100, Turn: 90}, {Length: 3100, Turn: -90}, {Length: 1500, Turn: 90}, {Length: 2100, Turn: 90}, {Length: 4600, Turn: 90}}
	job := Job{Legs: legs, Gap: 12, Border: 80, BorderAt: []AtWall{{4, 0}}}
	if got := roomArea(planOf(t, job)); math.Abs(got-19_270_000) > 1e-3 {
		t.Errorf("%v mm², want 19270000", got)
	}
	addsUp(t, job)
	// 2 mm short on the last wall closes within the 3 mm, and is shared out or
	// left to the last wall: either way about 2 mm by half of 5200 at most.
	legs[5].Length = 4598
	for _, share := range []bool{false, true} {
		if got := roomArea(planOf(t, Job{Legs: legs, Share: share})); math.Abs(got-19_270_000) > 2*5200 {
			t.Errorf("shared %v: %v mm²", share, got)
		}
	}
}

// Rooms of 4000 x 3000 and 3000 x 2500, joined by a passage 813 wide and 120
// deep: their areas add up. With a gap of 10 the passage reaches 10 further
// into both fields and is 20 narrower.
func TestJoinedRooms(t *testing.T) {
	further := Join{Wall: 1, At: 1200, Width: 813, Depth: 120, Room: rect(0, 0, 3000, 2500), OtherWall: 3, OtherAt: 900}
	job := Job{Room: rect(0, 0, 4000, 3000), Joins: []Join{further}}
	if got, want := roomArea(planOf(t, job)), 4000*3000+813*120+3000*2500.0; math.Abs(got-want) > 1e-3 {
		t.Errorf("%v mm², want %v", got, want)
	}
	job.Gap = 10
	p := planOf(t, job)
	if want := 3980*2980 + 793*140 + 2980*2480.0; math.Abs(p.FieldArea()-want) > 1e-3 {
		t.Errorf("field of %v mm², want %v", p.FieldArea(), want)
	}
	addsUp(t, job)
	compare(t, Job{Room: p.Job().Room, Gap: 10, Centre: p.Job().Centre})
	// A third room through the far wall of the second: the joined outline runs
	// A, B, the jambs C and D, E at the near left of the second, F and G along
	// its right wall.
	third := Join{Wall: 5, At: 500, Width: 800, Depth: 100, Room: ring(0, 0, 0, 2000, 2000, 2000, 2000, 0), OtherWall: 0, OtherAt: 100}
	job.Gap, job.Joins = 0, []Join{further, third}
	p = planOf(t, job)
	if got, want := roomArea(p), 4000*3000+813*120+3000*2500+800*100+2000*2000.0; math.Abs(got-want) > 1e-3 {
		t.Errorf("three rooms of %v mm², want %v", got, want)
	}
	if _, high := p.Room()[0].Box(); math.Abs(high.X-(4000+120+3000+100+2000)) > 1e-6 {
		t.Errorf("the rooms reach to x = %v, want 9220", high.X)
	}
	addsUp(t, job)
	// A single wall of the joined outline has a gap and a border of its own,
	// and the centre line can be midway between walls of different rooms.
	job.Gap, job.Border = 10, 60
	job.GapAt, job.BorderAt = []AtWall{{0, 15}}, []AtWall{{0, 0}}
	job.Line = LineSetting{From: LineMidway, A: 0, B: 4}
	stripsOf(t, job)
	addsUp(t, job)
	// A room given clockwise keeps its letters too: A to D are (0,0) (0,3000)
	// (4000,3000) (4000,0), so the doorway is in CD and AB stays the left wall.
	clockwise := Job{Room: ring(0, 0, 0, 3000, 4000, 3000, 4000, 0), Joins: []Join{further}, GapAt: []AtWall{{0, 20}}}
	clockwise.Joins[0].Wall, clockwise.Joins[0].At = 2, 3000-1200-813
	p = planOf(t, clockwise)
	if got, want := p.Job().Room[1], (plane.Point{Y: 3000}); got != want {
		t.Errorf("corner B of the clockwise room at %v, want %v", got, want)
	}
	if low, _ := p.Field()[0].Box(); math.Abs(low.X-20) > 1e-9 {
		t.Errorf("the gap of 20 at AB leaves the field at x = %v", low.X)
	}
}

// Random rooms joined by random doorways, with a gap: area by area.
func TestJoinedRoomsAddUp(t *testing.T) {
	rng := random(t)
	joined := 0
	for range 60 {
		a, b := cyclic(rng, 3+rng.IntN(4), 2500, 2000), cyclic(rng, 3+rng.IntN(4), 1800, 1500)
		if rng.IntN(2) == 0 {
			b = b.Reversed()
		}
		join := Join{Wall: rng.IntN(len(a)), At: length.Length(uniform(rng, 50, 300)), Width: length.Length(uniform(rng, 500, 900)), Depth: length.Length(uniform(rng, 0, 200)),
			Room: b, OtherWall: rng.IntN(len(b)), OtherAt: length.Length(uniform(rng, 50, 300))}
		job := Job{Room: a, Joins: []Join{join}, Axis: uniform(rng, -90, 90)}
		p, err := New(job)
		if err != nil {
			fieldErrors(t, err)
			continue
		}
		joined++
		want := math.Abs(a.Area()) + math.Abs(b.Area()) + float64(join.Width*join.Depth)
		if math.Abs(roomArea(p)-want) > 1e-9*want {
			t.Errorf("%v mm², want %v\njob %+v", roomArea(p), want, job)
		}
		job.Gap = 10
		addsUp(t, job)
	}
	if joined < 20 {
		t.Errorf("only %d of 60 rooms could be joined", joined)
	}
}

// What was misread is named, in the tape's unit, at its own field.
func TestBadReadings(t *testing.T) {
	room := rect(0, 0, 4200, 3600)
	right := math.Hypot(4200, 3600)
	nan := length.Length(math.NaN())
	// Every diagonal of five corners; BD is 2000·√5 = 4472.136 and is misread.
	five := ring(0, 0, 4000, 0, 5000, 2500, 2000, 4000, -500, 2000)
	var pentagon []survey.Reading
	for i := range five {
		for k := i + 1; k < 5; k++ {
			pentagon = append(pentagon, survey.Reading{From: i, To: k, Length: length.Length(five[i].Sub(five[k]).Length())})
		}
	}
	pentagon[5].Length += 100
	for _, tt := range []struct {
		name string
		job  Job
		key  string
		says string
	}{
		{"triangle that cannot close", Job{Tapes: tapes(0, 1, 4200, 1, 2, 3600, 2, 3, 4200, 3, 0, 3600, 0, 2, 8000)}, "tape|tape",
			"AB, BC and AC cannot make a triangle: 4200 mm and 3600 mm do not reach 8000 mm|AC, CD and DA cannot make a triangle"},
		{"the same on an inch tape", Job{Unit: length.Inches, Tapes: tapes(0, 1, 10*25.4, 1, 2, 12*25.4, 2, 0, 24*25.4)}, "tape",
			"AB, BC and CA cannot make a triangle: 10 in and 1 ft 0 in do not reach 2 ft 0 in"},
		{"walls alone", Job{Tapes: tapes(0, 1, 4200, 1, 2, 3600, 2, 3, 4200, 3, 0, 3600)}, "tape", "4 walls alone do not fix the room|AC for a start"},
		{"wall not taped", Job{Tapes: tapes(0, 1, 4200, 1, 2, 3600, 3, 0, 3600, 0, 2, right)}, "tape", "Wall CD is not taped"},
		{"diagonal 100 mm off", Job{Tapes: tapes(0, 1, 4200, 1, 2, 3600, 2, 3, 4200, 3, 0, 3600, 0, 2, right, 1, 3, right+100)}, "tape",
			"any one of AC, BC, BD, CD, AB or DA may be the wrong one"},
		{"diagonal 100 mm off, all others checked", Job{Tapes: pentagon}, "tape", "BD is taped 4572.1 mm, and the other readings make it 4472.1 mm. Tape it again"},
		{"reading that is no length", Job{Tapes: tapes(0, 1, 4200, 1, 2, math.NaN(), 2, 0, 3600)}, "tape", "BC cannot be that long"},
		{"walls that do not close", Job{Legs: []survey.Leg{{Length: 4200, Turn: 90}, {Length: 3600, Turn: 90}, {Length: 4200, Turn: 90}, {Length: 3500, Turn: 90}}}, "walk",
			"The walls end 100 mm away from corner A|BC and DA again first"},
		{"turns that do not go round", Job{Legs: []survey.Leg{{Length: 4200, Turn: 90}, {Length: 3600, Turn: -90}, {Length: 4200, Turn: 90}, {Length: 3600, Turn: 90}}}, "walk",
			"The turns add up to 180 degrees"},
		{"wall of no length", Job{Legs: []survey.Leg{{Length: 4200, Turn: 90}, {Length: 0, Turn: 90}, {Length: 4200, Turn: 90}, {Length: 3600, Turn: 90}}}, "walk", "Wall BC cannot be 0 mm long"},
		{"doorway wider than its wall", Job{Room: room, Joins: []Join{{Wall: 0, At: 3600, Width: 813, Room: room}}}, "join", "A doorway from 3600 mm to 4413 mm does not fit on wall AB of the first room, which is 4200 mm long"},
		{"rooms on one another", Job{Room: ring(0, 0, 5000, 0, 5000, 3000, 3000, 3000, 3000, 1000, 0, 1000), Joins: []Join{{Wall: 4, At: 500, Width: 800, Room: rect(0, 0, 4000, 4000), OtherWall: 0, OtherAt: 100}}}, "join", "lie on one another"},
		{"further room without walls", Job{Room: room, Joins: []Join{{Wall: 0, At: 100, Width: 813}}}, "join", "second room"},
		{"bow past half a circle", Job{Room: room, Bows: []Bow{{1, 1900}}}, "bow", "Wall BC cannot bow by 1900 mm|half its length"},
		{"bow that is no length", Job{Room: room, Bows: []Bow{{1, nan}}}, "bow", "Wall BC cannot bow by that"},
		{"bow at no wall", Job{Room: room, Bows: []Bow{{4, 10}}}, "bow", "no wall EF|AB to DA"},
		{"bow across the room", Job{Room: rect(0, 0, 4200, 1000), Bows: []Bow{{0, -1100}}}, "bow", "crosses itself|walls AB and CD"},
		{"bowed twice", Job{Room: room, Bows: []Bow{{1, 10}, {1, 20}}}, "bow", "Wall BC is given as bowed or scribed more than once"},
		{"bowed and scribed", Job{Room: room, Bows: []Bow{{1, 10}}, Scribes: []Scribe{{1, []length.Length{0, 1, 0}}}}, "scribe", "Wall BC is given as bowed or scribed more than once"},
		{"two ordinates", Job{Room: room, Scribes: []Scribe{{2, []length.Length{0, 0}}}}, "scribe", "Wall CD is scribed by fewer than three"},
		{"ordinates that miss the corners", Job{Room: room, Scribes: []Scribe{{2, []length.Length{20, 25, 20}}}}, "scribe", "wall CD are 20 mm and 20 mm|only be 0"},
		{"ordinate longer than the wall", Job{Room: room, Scribes: []Scribe{{2, []length.Length{0, 5000, 0}}}}, "scribe", "Wall CD: Ordinate 2 cannot be 5000 mm from a string of 4200 mm"},
		{"ordinate that is no length", Job{Room: room, Scribes: []Scribe{{2, []length.Length{0, nan, 0}}}}, "scribe", "Wall CD: Ordinate 2 cannot be that"},
		{"doorway past the corner", Job{Room: room, Doors: []Door{{Wall: 3, At: 3000, Width: 813}}}, "door", "Doorway 1 does not fit on wall DA, which is 3600 mm long|corner D"},
		{"window past the corner", Job{Room: room, Windows: []Window{{Wall: 3, At: 3000, Width: 813}}}, "window", "Window 1 does not fit on wall DA, which is 3600 mm long|corner D"},
		{"window in no wall", Job{Room: room, Windows: []Window{{Wall: 4, Width: 813}}}, "window", ""},
		{"window higher than a hall", Job{Room: room, Windows: []Window{{Wall: 3, At: 300, Width: 813, Sill: 9000, Height: 1200}}}, "window", "Window 1 stands 9000 mm above the floor and is 1200 mm high|10000 mm in all"},
		{"doorway of no width", Job{Room: room, Doors: []Door{{Wall: 3, At: 3000}}}, "door", "Doorway 1"},
		{"gap at no wall", Job{Room: room, GapAt: []AtWall{{-1, 5}}}, "gap", "no wall|AB to DA"},
		{"gap at a wall below zero", Job{Room: room, GapAt: []AtWall{{1, -5}}}, "gap", "gap at wall BC cannot be -5 mm"},
		{"border at a wall that is no length", Job{Room: room, BorderAt: []AtWall{{1, nan}}}, "border", "border at wall BC cannot be that"},
		{"strip of no width", Job{Room: room, Strips: []length.Length{38, 0}}, "border", "strip of the border cannot be 0 mm wide"},
		{"strips wider than the room", Job{Room: room, Strips: []length.Length{900, 950}}, "border", "gap and border of 1850 mm leaves no field"},
		// The gap at these walls alone is too wide: no size of all walls is said.
		{"gap at one wall wider than the room", Job{Room: room, Gap: 12, GapAt: []AtWall{{0, 3600}}}, "gap", "The gap leaves no field"},
		{"walls in one line, gaps unlike", Job{Room: ring(0, 0, 2500, 0, 4200, 0, 4200, 3600, 0, 3600), Gap: 12, GapAt: []AtWall{{1, 0}}}, "gap",
			"Walls AB and BC run on in one line, and the gap would be 12 mm along the one and 0 mm along the other|Give both the same|two corners"},
		{"the same, clockwise corners", Job{Room: ring(0, 3600, 4200, 3600, 4200, 0, 2500, 0, 0, 0), Gap: 12, GapAt: []AtWall{{3, 0}}}, "gap",
			"Walls CD and DE run on in one line, and the gap would be 12 mm along the one and 0 mm along the other"},
		{"walls nearly in one line, borders unlike", Job{Room: ring(0, 0, 2500, 2, 4200, 0, 4200, 3600, 0, 3600), Gap: 12, Border: 100, BorderAt: []AtWall{{0, 0}}}, "border",
			"Walls AB and BC run on in one line, and the gap and border would be 12 mm along the one and 112 mm along the other"},
		{"the same, bent outward", Job{Room: ring(0, 0, 2500, -2, 4200, 0, 4200, 3600, 0, 3600), Gap: 12, Border: 100, BorderAt: []AtWall{{0, 0}}}, "border", "Walls AB and BC run on in one line"},
		{"last wall and first", Job{Room: ring(1000, 0, 4200, 0, 4200, 3600, 0, 3600, 0, 0), GapAt: []AtWall{{4, 9}}}, "gap", "Walls AB and EA run on in one line, and the gap would be 0 mm along the one and 9 mm"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := New(tt.job)
			keys := strings.Split(tt.key, "|")
			if len(keys) == 1 {
				checkField(t, tt.name, err, tt.key, tt.says)
				return
			}
			list := fieldErrors(t, err)
			if len(list) != len(keys) {
				t.Fatalf("%d errors, want %d: %v", len(list), len(keys), err)
			}
			for i, f := range list {
				checkField(t, tt.name, f, keys[i], strings.Split(tt.says, "|")[i])
			}
		})
	}
}

// Walls that are named can be shown: their numbers are with the error.
func TestBadWallsAreNumbered(t *testing.T) {
	room := rect(0, 0, 4200, 3600)
	for _, job := range []Job{
		{Room: room, Bows: []Bow{{2, 9999}}}, {Room: room, Scribes: []Scribe{{2, nil}}}, {Room: room, Scribes: []Scribe{{2, []length.Length{0, 9999, 0}}}},
		{Room: room, Doors: []Door{{Wall: 2, At: 9999, Width: 1}}}, {Room: room, GapAt: []AtWall{{2, -1}}}, {Room: room, BorderAt: []AtWall{{2, -1}}},
	} {
		_, err := New(job)
		list := fieldErrors(t, err)
		if len(list) != 1 || len(list[0].Walls) != 1 || list[0].Walls[0] != 2 {
			t.Errorf("%v is not about wall 2 alone", err)
		}
	}
}

// Two readings that disagree still give a result, to show which may be wrong.
func TestSurveyKeepsItsResult(t *testing.T) {
	result, err := Job{Tapes: tapes(0, 1, 3000, 1, 2, 4000, 2, 3, 3000, 3, 0, 4000, 0, 2, 5000, 1, 3, 5050)}.Survey()
	var misfit *survey.MisfitError
	if !errors.As(err, &misfit) || result == nil {
		t.Fatalf("%v, %v", result, err)
	}
	// The same within a wider limit is a room.
	if _, err := New(Job{Misfit: 60, Tapes: tapes(0, 1, 3000, 1, 2, 4000, 2, 3, 3000, 3, 0, 4000, 0, 2, 5000, 1, 3, 5050)}); err != nil {
		t.Error(err)
	}
	if result, err := (Job{}).Survey(); result != nil || err != nil {
		t.Errorf("nothing taped: %v, %v", result, err)
	}
}

// A room of bows so large that it would bend in thousands of places is refused.
func TestTooManyBends(t *testing.T) {
	_, err := New(Job{Room: rect(0, 0, 900_000, 900_000), Bows: []Bow{{0, 400_000}, {1, 400_000}}})
	checkField(t, "bows of 400 m", err, "bow", "places|2,000")
}
