package browser

import "testing"

// A room of 4200 by 3600 mm has diagonals of √(4200² + 3600²) = 5531.73 mm.
func TestMeasureByTape(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", desk)
	p.click("Walls and diagonals")
	same(p, "tape", p.key("tape"), "AB:4200;BC:3600;CD:4200;DA:3600;AC:5531.7;BD:5531.7")
	p.see(".facts", "Room15.12 m²")
	p.see("[data-line=BD]", "agrees")
	p.comes("#desk-report", "Diagonals")
	p.comes("#desk-report", "90.00°square")
	// 3-4-5 in hundreds: 2100 mm either way of the centre across, 1800 along:
	// 2000 and 1500, with 2500 between them.
	p.comes("#desk-report", "1500 mm along the centre line and 2000 mm square to it: the diagonal measures 2500 mm")

	// One diagonal misread by 100 mm: with two diagonals any reading may be
	// the wrong one, so the room stays and the page says so.
	p.typeInto("Taped", "5631.7", "[data-line=BD]")
	same(p, "tape", p.key("tape"), "AB:4200;BC:3600;CD:4200;DA:3600;AC:5531.7;BD:5531.7")
	p.see("#problem-key-tape", "BD is taped 5631.7 mm")
	p.see(".facts", "Room15.12 m²")
	p.typeInto("Taped", "5531.7", "[data-line=BD]")
	p.see("[data-line=BD]", "agrees")

	// Its line lights up on the plan while it is typed in.
	p.enter("Taped", "[data-line=AC]")
	line := eval[[]float64](p, `() => document.getElementById('overlay-line').getAttribute('d').match(/-?[\d.]+/g).map(Number)`)
	if len(line) != 4 {
		t.Fatalf("the line on the plan has the numbers %v", line)
	}
	for i, want := range []float64{0, 0, 4200, -3600} {
		near(p, "line on the plan", line[i], want, 0.05) // the diagonals are rounded
	}

	// The limit is the person's own.
	p.typeInto("Taped", "5533", "[data-line=BD]")
	p.typeInto("Readings may disagree by", "0.1")
	p.see("#problem-key-tape", "5533 mm")
	p.typeInto("Readings may disagree by", "5")
	same(p, "misfit", p.key("misfit"), "5")
	same(p, "BD", p.key("tape"), "AB:4200;BC:3600;CD:4200;DA:3600;AC:5531.7;BD:5533")

	p.click("Leave out reading 6")
	p.see("[data-line=AC]", "unchecked")
	p.click("Add a reading")
	same(p, "readings", eval[int](p, `() => document.querySelectorAll('.item').length`), 6)
}

func TestMeasureByWalk(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&gap=10", phone)
	p.click("Walls in turn")
	same(p, "walk", p.key("walk"), "4200;L;3600;L;4200;L;3600;L")
	p.click("Shared out")
	same(p, "share", p.key("share"), "yes")
	// The last wall 2 mm long: the walls miss where they began by that, and
	// shared out the room is 4200 by 3601.
	p.typeInto("Wall DA", "3602")
	p.see("#stage", "The walls come back 2 mm away from where they began.")
	p.see(".facts", "Room15.12 m²")
	same(p, "walk", p.key("walk"), "4200;L;3600;L;4200;L;3602;L")
	// 20 mm is past the limit of 3.
	p.typeInto("Wall DA", "3620")
	p.see("#problem-key-walk", "20 mm")
	same(p, "walk", p.key("walk"), "4200;L;3600;L;4200;L;3602;L")
	p.typeInto("Wall DA", "3600")
	p.click("Last wall takes it")
	same(p, "share", p.key("share"), "no")
	same(p, "walk", p.key("walk"), "4200;L;3600;L;4200;L;3600;L")
	p.click("Add a wall")
	p.click("Leave out wall 5")
	p.typeInto("turn", "r", "[data-line=AB]")
	p.see("#problem-key-walk", "")
}

func TestSingleWalls(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&gap=10&border=100", desk)
	p.click("BC3600 mm", ".walls")
	p.typeInto("Bowed out by", "120")
	same(p, "bow", p.key("bow"), "BC:120")
	// A segment on a chord of 3600 with a rise of 120: R = (1800² + 120²) / 240
	// = 13560, area R²/2 (θ - sin θ) with θ = 2 asin(1800 / 13560): 0.2885 m².
	p.see(".facts", "Room15.41 m²")
	p.typeInto("Bowed out by", "")
	same(p, "bow", p.key("bow"), "")
	p.typeInto("Or ordinates from a string, with commas", "0,10,0")
	same(p, "scribe", p.key("scribe"), "BC:0,10,0")
	p.typeInto("Or ordinates from a string, with commas", "")
	p.typeInto("Gap here", "15")
	same(p, "gap", p.key("gap"), "10;BC:15")
	p.typeInto("Border here", "60")
	same(p, "border", p.key("border"), "100;BC:60")
	p.comes("#desk-report", "1 BC")
	p.typeInto("Border", "38+13+49")
	same(p, "border", p.key("border"), "38+13+49;BC:60")
	p.click("AB4200 mm", ".walls")
	p.see(".walls", "BC3600 mm · Gap here 15 · Border here 60")
}

func TestDoorwaysAndFurtherRooms(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&gap=10", desk)
	p.click("Add a doorway")
	p.typeInto("In wall", "ab")
	p.typeInto("From its first corner", "1200")
	p.typeInto("Clear width", "813")
	same(p, "door", p.key("door"), "AB:1200,813")
	p.typeInto("To", "hall")
	same(p, "door", p.key("door"), "AB:1200,813,hall")
	same(p, "opening on the plan", eval[string](p, `() => document.querySelector('.overlay .door').getAttribute('d')`),
		"M1200.00 0.00L2013.00 0.00")
	p.click("Take doorway 1 away")
	same(p, "door", p.key("door"), "")

	p.click("Add a room")
	p.typeInto("Through wall", "BC")
	p.typeInto("From its first corner", "1200", ".joint-here")
	p.typeInto("Clear width", "800")
	p.typeInto("Thickness of the wall", "120")
	p.typeInto("Size of the further room", "3000x2500")
	p.typeInto("Its wall with the doorway", "DA")
	p.typeInto("From its first corner", "900", ".joint-there")
	same(p, "join", p.key("join"), "BC:1200,800,120:DA:900:3000x2500")
	p.see(".facts", "Room22.72 m²") // 4.2 * 3.6 + 3.0 * 2.5 + 0.8 * 0.12
	p.click("Take room 1 away")
	p.see(".facts", "Room15.12 m²")
}

func TestRoundHole(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&gap=10", desk)
	p.click("Add a round hole")
	p.typeInto("Middle, to the right", "2400")
	p.typeInto("Middle, away from you", "1800")
	p.typeInto("Diameter", "1 m")
	same(p, "column", p.key("column"), "2400,1800,1m")
	p.see(".facts", "Room14.33 m²") // 4.2 * 3.6 - π/4
	p.click("Take round hole 1 away")
	same(p, "column", p.key("column"), "")
	p.see(".facts", "Room15.12 m²")
}

// With a border of 38 + 62 mm the runs inside are 3980 and 3380 mm. 40 repeats
// of 99 mm are 3960: the outermost strip on BC and DA is 10 mm wider; 34 are
// 3366: 7 mm wider on AB and CD.
func TestRepeatingBorder(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&gap=10&border=38+62", desk)
	p.typeInto("Repeat of the border", "99")
	same(p, "repeat", p.key("repeat"), "99")
	p.comes("#desk-report", "403445 mm48 mm")
}
