package browser

import "testing"

func TestStrikeFigures(t *testing.T) {
	// Herringbone, block W by L: spacing W√2/4, interval L/√2, step W√2.
	// 70 x 350: 24.7487, 247.4874, 98.9949.
	p := open(t, "#room=4200x3600&block=70x350&stage=strike", phone)
	for _, want := range []string{"24.75", "247.49", "98.99"} {
		p.see(".figures", want)
	}
	same(p, "spacing on the tape", p.text(".figure .reading .visually-hidden"), "25 mm, shy by 0.3")
	p.run(`() => person.one('.figure summary').scrollIntoView({ block: 'center' })`)
	if p.shown(".figure .working") {
		t.Error("the working is open before it is asked for")
	}
	p.clickOn(".figure summary")
	if !p.shown(".figure .working") {
		t.Error("the working does not open")
	}
	p.see(".figure .sum", "√(70")
	p.leave()

	// Inches: common practice, no source: 2-1/4 x 9 in blocks have a step of
	// 3.182 in, 3-3/16 to the nearest 16th.
	p = open(t, "#unit=in&room=14ftx12ft&block=2-1/4x9&stage=strike", desk)
	p.see(".figures", "3.182")
	p.see(".figures", "3-3/16 in, shy")
}

func TestStrikeControls(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&stage=strike", desk)
	p.click("Near the wall")
	same(p, "start", p.key("start"), "wall")
	// The spine runs 1800 mm back from the centre and a step is 98.99 mm, so
	// no more than 18 whole steps fit, and the starting block needs some room.
	p.see(".stage-body", "steps back from the centre point")
	p.click("At the centre")
	same(p, "start", p.key("start"), "centre")

	p.typeInto("to the right", "2000")
	p.typeInto("away from you", "1700")
	same(p, "centre", p.key("centre"), "2000,1700")
	// The point of the starting block is (spacing, -spacing) from the centre:
	// 2000 + 24.75 from the left wall, 1700 - 24.75 from the near one.
	p.see(".marks", "2025 mm, shy by 0.3")
	p.see(".marks", "1675 mm, strong by 0.3")
	p.typeInto("to the right", "")
	p.typeInto("away from you", "")
	same(p, "centre", p.key("centre"), "")

	p.typeInto("Turn of the axis", "22.5")
	same(p, "axis", p.key("axis"), "22.5")
	p.typeInto("Turn of the axis", "0")

	p.typeInto("across", "35")
	same(p, "shift", p.key("shift"), "35,0")
	p.typeInto("along", "-1/2in")
	same(p, "shift", p.key("shift"), "35,-1/2in")

	// The four balanced placings of a block whose length is a multiple of its
	// width: on a seam or half an interval on (123.74), and in the other way
	// a quarter step on (24.75).
	for label, want := range map[string][2]string{
		"Seam on the centre line, ends one way":         {"", ""},
		"Seam on the centre line, ends the other way":   {"0", "24.748"},
		"Strand on the centre line, ends one way":       {"123.743", "0"},
		"Strand on the centre line, ends the other way": {"123.743", "24.748"},
	} {
		p.click(label)
		if !eval[bool](p, `(label) => person.find(label).getAttribute('aria-pressed') === 'true'`, label) {
			t.Errorf("%s is not shown as taken", label)
		}
		shift := p.key("shift")
		if want[0] == "" {
			same(p, label, shift, "")
			continue
		}
		across, along := p.value("across"), p.value("along")
		same(p, label, shift, across+","+along)
		if !begins(across, want[0]) || !begins(along, want[1]) {
			t.Errorf("%s: shift %s,%s, want %v", label, across, along, want)
		}
	}
	// 73 x 331 is no multiple: the ends come out uneven from the plain start.
	p.click("Choose")
	p.typeInto("Width", "73")
	p.typeInto("Length", "331")
	p.click("Strike")
	p.click("Seam on the centre line, ends one way")
	if p.key("shift") == "" {
		t.Error("the balanced placing of 73 x 331 moves nothing")
	}
}

func begins(text, with string) bool { return len(text) >= len(with) && text[:len(with)] == with }
