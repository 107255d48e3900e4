package browser

import (
	"strings"
	"testing"
)

// plain is a room whose numbers are easily worked out in the head.
const plain = "room=4200x3600&gap=12&border=100&block=70x350"

func TestMeasureByWidthAndDepth(t *testing.T) {
	p := open(t, "#"+plain, phone)
	p.see(".facts", "Room15.12 m²") // 4.2 * 3.6
	// Field: (4200 - 2*112) * (3600 - 2*112) = 3976 * 3376 mm².
	p.see(".facts", "Field13.42 m²")
	p.see(".facts", "15600") // 2 * (4200 + 3600)
	for _, tt := range []struct{ label, text, key, value, facts string }{
		{"Width", "4.5 m", "room", "4.5mx3600", "Room16.20 m²"},
		{"Depth", "380cm", "room", "4.5mx380cm", "Room17.10 m²"},
		{"Depth", `12' 6-1/2"`, "room", "4.5mx12ft6-1/2in", "Room17.20 m²"}, // 150.5 in = 3822.7 mm
		{"Width", "4200", "room", "4200x12ft6-1/2in", "Room16.06 m²"},
		{"Gap at the walls", "15", "gap", "15", "Field14.26 m²"}, // (4200 - 2*115) * (3822.7 - 2*115) mm²
		{"Border", "0", "border", "0", "Field15.82 m²"},          // (4200 - 30) * (3822.7 - 30) mm²
	} {
		p.typeInto(tt.label, tt.text)
		same(p, tt.label+" as typed", p.value(tt.label), tt.text)
		same(p, tt.key, p.key(tt.key), tt.value)
		p.see(".facts", tt.facts)
	}
}

func TestMeasureUnits(t *testing.T) {
	p := open(t, "#"+plain, desk)
	p.click("Feet and inches")
	// What was typed as millimetres stays so many millimetres.
	same(p, "link", p.link(), "unit=in&room=4200mmx3600mm&gap=12mm&border=100mm&block=70mmx350mm")
	same(p, "Width", p.value("Width"), "4200mm")
	// 15.12 m² / 0.09290304 m² a square foot.
	p.see(".facts", "162.75 sq ft")
	// 15600 mm / 25.4 = 614.173 in = 51 ft 2.173 in: to the nearest 16th
	// 2-3/16, the true length shy of it; to the nearest 64th 2-11/64.
	p.see(".facts .visually-hidden", "51 ft 2-3/16 in, shy")
	p.click("1/32 in")
	same(p, "fraction", p.key("fraction"), "32")
	p.click("1/64 in")
	same(p, "fraction", p.key("fraction"), "64")
	p.see(".facts .visually-hidden", "51 ft 2-11/64 in, strong")
	p.click("1/16 in")
	same(p, "fraction", p.key("fraction"), "16")
	p.typeInto("Width", "168") // bare numbers are inches now: 14 ft
	same(p, "room", p.key("room"), "168x3600mm")
	p.see(".facts", "165.35 sq ft") // 14 ft * 3600/304.8 ft
	p.click("Metric")
	same(p, "unit", p.key("unit"), "mm")
	p.see(".facts", "15.36 m²") // 4.2672 * 3.6
}

func TestMeasureByCorners(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", desk)
	p.click("Corners")
	same(p, "room", p.key("room"), "0,0;4200,0;4200,3600;0,3600")
	p.typeInto("Corner C to the right", "4000")
	same(p, "room", p.key("room"), "0,0;4200,0;4000,3600;0,3600")
	p.see(".facts", "Room14.76 m²") // a trapezium: (4.2 + 4.0) / 2 * 3.6
	p.typeInto("Corner D away from you", "3.4 m")
	same(p, "room", p.key("room"), "0,0;4200,0;4000,3600;0,3.4m")
	p.see(".facts", "Room14.36 m²") // less a triangle: 4.0 * 0.2 / 2
	p.click("Add a corner after A")
	same(p, "room", p.key("room"), "0,0;2100,0;4200,0;4000,3600;0,3.4m")
	p.see(".facts", "Room14.36 m²") // on the wall, so nothing changes
	p.typeInto("Corner B away from you", "-500")
	p.see(".facts", "Room15.41 m²") // and a triangle: 4.2 * 0.5 / 2
	p.click("Leave out corner B")
	same(p, "room", p.key("room"), "0,0;4200,0;4000,3600;0,3.4m")
	p.see(".facts", "Room14.36 m²")
	p.click("Leave out corner D")
	same(p, "room", p.key("room"), "0,0;4200,0;4000,3600")
	p.see(".facts", "Room7.56 m²") // 4.2 * 3.6 / 2
	if !eval[bool](p, `() => person.find('Leave out corner A').disabled`) {
		t.Error("a room of three corners can lose another")
	}
	p.click("Width and depth")
	same(p, "room", p.key("room"), "4200x3600")
}

func TestMeasureHoles(t *testing.T) {
	p := open(t, "#room=4000x3000&block=70x350", desk)
	p.click("Add a hole")
	same(p, "room", p.key("room"), "4000x3000")
	if p.key("hole") == "" {
		t.Fatalf("no hole in the link %s", p.link())
	}
	for label, text := range map[string]string{
		"Corner A to the right": "500", "Corner A away from you": "1000", "Corner B to the right": "1500", "Corner B away from you": "1000",
		"Corner C to the right": "1500", "Corner C away from you": "1500", "Corner D to the right": "500", "Corner D away from you": "1500",
	} {
		p.typeInto(label, text, ".hole")
	}
	same(p, "hole", p.key("hole"), "500,1000;1500,1000;1500,1500;500,1500")
	p.see(".facts", "Room11.50 m²") // 12 less half a square metre
	p.click("Add a hole")
	same(p, "holes", strings.Count(p.link(), "hole="), 2)
	p.click("Take hole 1 away")
	same(p, "holes", strings.Count(p.link(), "hole="), 1)
	p.click("Take hole 1 away")
	same(p, "link", p.link(), "room=4000x3000&block=70x350")
	p.see(".facts", "Room12.00 m²")
}

// What is typed stays as it is typed, with the caret where it was.
func TestTypedTextStays(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", phone)
	p.typeInto("Width", "4 200,5")
	same(p, "Width", p.value("Width"), "4 200,5")
	// A digit in the middle: the caret stays behind it.
	p.run(`() => { person.find('Width').setSelectionRange(1, 1); }`)
	p.keys("1")
	same(p, "Width", p.value("Width"), "41 200,5")
	same(p, "caret", eval[int](p, `() => person.find('Width').selectionStart`), 2)
	p.typeInto("Width", `2-1/4"`)
	same(p, "Width", p.value("Width"), `2-1/4"`)
}

// A text that cannot be used is said at its field; the floor and the address
// stay until it is put right.
func TestBadTextIsSaid(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", phone)
	_, blocks := p.laid()
	for _, bad := range []string{"abc", "4,2,0", "-3", "12 furlongs", "1e9"} {
		t.Run(bad, func(t *testing.T) {
			p.t = t
			p.pasteInto("Depth", bad)
			same(p, "Depth", p.value("Depth"), bad)
			problem := eval[string](p, `() => {
				const e = person.find('Depth');
				const says = e.closest('.field').querySelector('.problem');
				const near = document.querySelector('#problem-key-room');
				return person.seen(says) ? person.tidy(says.textContent) : person.seen(near) ? person.tidy(near.textContent) : '';
			}`)
			if !strings.HasSuffix(problem, ".") || !strings.Contains(problem, " ") {
				t.Errorf("at the field it says %q, which is no sentence", problem)
			}
			same(p, "room", p.key("room"), "4200x3600")
			p.see(".facts", "Room15.12 m²")
			if _, now := p.laid(); now != blocks {
				t.Errorf("%d blocks, before %d", now, blocks)
			}
			p.typeInto("Depth", "3600")
			p.see(".facts", "Room15.12 m²")
			if eval[bool](p, `() => [...document.querySelectorAll('.problem')].some(person.seen)`) {
				t.Error("the problem is still shown")
			}
		})
	}
	p.t = t
	p.typeInto("Depth", "3000")
	same(p, "room", p.key("room"), "4200x3000")
	p.see(".facts", "Room12.60 m²")
}

// A border too wide for the room leaves the floor as it was and is said.
func TestBorderDoesNotFit(t *testing.T) {
	p := open(t, "#"+plain, phone)
	p.pasteInto("Border", "1900")
	if !eval[bool](p, `() => [...document.querySelectorAll('.problem')].some(person.seen)`) {
		t.Error("nothing is said of a border that does not fit")
	}
	p.see(".facts", "Field13.42 m²")
	p.typeInto("Border", "200")
	same(p, "border", p.key("border"), "200")
	p.see(".facts", "Field11.99 m²") // (4200 - 2*212) * (3600 - 2*212) mm²
}
