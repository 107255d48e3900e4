package browser

import (
	"math"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// scale returns how many CSS pixels the lines give a metre of the room.
func (p *person) scale() float64 {
	p.t.Helper()
	x0, y0 := p.place(0, 0)
	x1, y1 := p.place(1000, 0)
	return math.Hypot(x1-x0, y1-y0)
}

// fitted checks that the whole room is seen, as large as can be, midway
// between left and right. There is room for the corners' letters and, at the
// foot, for the buttons.
func (p *person) fitted(when string) {
	p.t.Helper()
	frame := p.box("#floor")
	left, bottom := p.place(0, 0)
	right, top := p.place(4200, 3600)
	near(p, when+": space left and right", left-frame.left, frame.right-right, 1)
	spare := min(left-frame.left, top-frame.top, frame.bottom-bottom)
	if spare < 16 || spare > 50 {
		p.t.Errorf("%s: the room at %.0f to %.0f, %.0f to %.0f leaves %.0f pixels of the box %v", when, left, right, top, bottom, spare, frame)
	}
}

const square = "room=4200x3600&block=70x350&paint=canvas"

func TestZoomWithButtonsAndKeys(t *testing.T) {
	p := open(t, "#"+square, desk)
	link := p.link()
	p.fitted("at first")
	first := p.scale()
	p.click("Zoom in")
	if s := p.scale(); s < first*1.1 {
		t.Errorf("zoom in: scale %.2f, before %.2f", s, first)
	}
	p.click("Zoom out")
	near(p, "scale after zooming in and out", p.scale(), first, 0.01)
	p.click("Zoom out")
	if s := p.scale(); s > first/1.1 {
		t.Errorf("zoom out: scale %.2f, before %.2f", s, first)
	}
	p.click("Fit")
	p.fitted("after Fit")
	p.click("Measure") // leaves the buttons; it is open already
	for _, k := range []struct {
		key, way string
		sign     float64
	}{{"w", "down", 1}, {"s", "up", -1}, {"a", "right", 1}, {"d", "left", -1}} {
		x0, y0 := p.place(0, 0)
		p.keys(k.key)
		x1, y1 := p.place(0, 0)
		moved := y1 - y0
		if k.key == "a" || k.key == "d" {
			moved = x1 - x0
		}
		if moved*k.sign < 20 {
			t.Errorf("key %s moves the floor by %.0f, %.0f, want it to go %s", k.key, x1-x0, y1-y0, k.way)
		}
	}
	p.keys("+")
	if s := p.scale(); s < first*1.1 {
		t.Errorf("key +: scale %.2f, before %.2f", s, first)
	}
	p.keys("-")
	near(p, "scale after + and -", p.scale(), first, 0.01)
	p.keys("-")
	p.keys("0")
	p.fitted("after key 0")
	same(p, "link", p.link(), link) // where one looks is not part of the job
}

func TestWheelAndDrag(t *testing.T) {
	p := open(t, "#"+square, desk)
	first := p.scale()
	// What lies under the pointer stays there.
	x, y := p.place(1000, 2500)
	p.wheel(x, y, -240)
	if s := p.scale(); s < first*1.2 {
		t.Errorf("wheel: scale %.2f, before %.2f", s, first)
	}
	x1, y1 := p.place(1000, 2500)
	near(p, "x under the pointer", x1, x, 0.5)
	near(p, "y under the pointer", y1, y, 0.5)
	p.drag(x, y, x+80, y+50)
	x2, y2 := p.place(1000, 2500)
	near(p, "x after dragging", x2, x+80, 0.5)
	near(p, "y after dragging", y2, y+50, 0.5)
	p.wheel(x, y, 240)
	near(p, "scale after turning the wheel back", p.scale(), first, 0.01)
	p.click("Fit")
	p.fitted("after Fit")
	if at := eval[float64](p, `() => scrollY`); at != 0 {
		t.Errorf("the wheel over the floor scrolls the page by %v", at)
	}
}

func TestPinch(t *testing.T) {
	p := open(t, "#"+square, phone)
	p.fitted("at first")
	first := p.scale()
	x, y := p.box("#floor").middle()
	// One finger moves the floor.
	x0, y0 := p.place(2100, 1800)
	p.touch([][2]float64{{x, y}}, [][2]float64{{x + 40, y + 20}})
	x1, y1 := p.place(2100, 1800)
	near(p, "x after a finger's move", x1-x0, 40, 1)
	near(p, "y after a finger's move", y1-y0, 20, 1)
	// Two fingers going apart to twice the distance: twice the size, and the
	// floor between them stays there.
	p.click("Fit")
	mx, my := p.room(x, y)
	p.touch([][2]float64{{x - 40, y}, {x + 40, y}}, [][2]float64{{x - 80, y}, {x + 80, y}})
	near(p, "scale after spreading two fingers", p.scale(), 2*first, 0.02*first)
	x2, y2 := p.place(mx, my)
	near(p, "x between the fingers", x2, x, 1)
	near(p, "y between the fingers", y2, y, 1)
	p.click("Fit")
	p.fitted("after Fit")
	if at := eval[float64](p, `() => scrollY`); at != 0 {
		t.Errorf("fingers on the floor scroll the page by %v", at)
	}
	// A changed room is fitted anew.
	p.typeInto("Width", "2100")
	p.keys(kb.Tab)
	frame := p.box("#floor")
	left, _ := p.place(0, 0)
	right, _ := p.place(2100, 0)
	near(p, "space left and right of a narrower room", left-frame.left, frame.right-right, 1)
}
