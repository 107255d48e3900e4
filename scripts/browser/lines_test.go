package browser

import (
	"math"
	"strings"
	"testing"
)

// lines is the boxes that show lines, and the paths of each.
var lines = []struct{ label, name, path string }{
	{"Centre line", "centre", ".centre-line"},
	{"Working lines", "working", ".working-line"},
	{"Diagonals", "diagonals", ".diagonal"},
	{"Border line", "border", ".border-line"},
	{"Starting block", "start", ".starting-block"},
}

func TestLinesAreShownAndHidden(t *testing.T) {
	for _, s := range []screen{phone, desk} {
		p := open(t, "#room=4200x3600&border=100&block=70x350&stage=lay", s)
		drawn := func(path string) bool {
			return eval[bool](p, `(path) => {
				const e = document.querySelector('#overlay ' + path), r = e && e.getBoundingClientRect();
				return !!e && (e.getAttribute('d') || '') !== '' && r.width + r.height > 0;
			}`, path)
		}
		left := []string{"centre", "working", "diagonals", "border", "start"}
		for _, line := range lines {
			if !drawn(line.path) {
				t.Errorf("%s is not drawn at first", line.label)
			}
			p.click(line.label)
			if drawn(line.path) {
				t.Errorf("%s is still drawn", line.label)
			}
			left = left[1:]
			want := strings.Join(left, ",")
			if want == "" {
				want = "none"
			}
			same(p, "show=", p.key("show"), want)
		}
		if !drawn(".wall") {
			t.Error("the walls have gone with the lines")
		}
		for _, line := range lines {
			p.click(line.label)
			if !drawn(line.path) {
				t.Errorf("%s does not come back", line.label)
			}
		}
		p.leave()
	}
}

// wood returns the box of all that has the colour of wood in the picture of
// the floor, apart from what lies over it.
func (p *person) wood() box {
	p.t.Helper()
	p.run(`() => { for (const e of document.querySelectorAll('#floor > :not(#painting)')) e.style.visibility = 'hidden'; }`)
	pic := p.floor()
	p.run(`() => { for (const e of document.querySelectorAll('#floor > :not(#painting)')) e.style.visibility = ''; }`)
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	r := pic.Bounds()
	one := 1 / pic.scale
	for py := range r.Dy() {
		for px := range r.Dx() {
			x, y := pic.left+float64(px)*one, pic.top+float64(py)*one
			if pic.at(x+one/2, y+one/2, 0).wooden() {
				b.left, b.right = min(b.left, x), max(b.right, x+one)
				b.top, b.bottom = min(b.top, y), max(b.bottom, y+one)
			}
		}
	}
	return b
}

// The lines lie on the floor that is painted: the walls' box against that of
// the wood, which reaches up to the walls here.
func (p *person) agree(when string) {
	p.t.Helper()
	walls := eval[[]float64](p, `() => {
		const d = person.one('#overlay .wall').getBBox();
		const a = person.place(d.x, -d.y), b = person.place(d.x + d.width, -d.y - d.height);
		return [a[0], a[1], b[0], b[1]];
	}`)
	wood := p.wood()
	frame := p.box("#floor")
	for i, pair := range [4][3]float64{
		{walls[0], wood.left, frame.left}, {walls[1], wood.top, frame.top},
		{walls[2], wood.right, frame.right}, {walls[3], wood.bottom, frame.bottom}} {
		side := [4]string{"left", "top", "right", "bottom"}[i]
		wall, edge := pair[0], pair[1]
		if i < 2 && wall < pair[2] || i >= 2 && wall > pair[2] {
			wall = pair[2] // zoomed in: the wall is outside, the wood fills the frame
		}
		if math.Abs(wall-edge) > 1.5 {
			p.t.Errorf("%s: the %s wall is drawn at %.1f, the wood ends at %.1f", when, side, wall, edge)
		}
	}
}

func TestLinesLieOnTheFloor(t *testing.T) {
	for _, paint := range []string{"canvas", "webgl"} {
		t.Run(paint, func(t *testing.T) {
			p := open(t, "#room=4200x3600&block=70x350&paint="+paint, desk)
			p.agree("at first")
			p.look(tablet)
			p.rest()
			p.agree("after the window became smaller")
			p.look(screen{wide: 1100, high: 700})
			p.rest()
			p.agree("after it became larger")
			p.click("Zoom out")
			p.agree("zoomed out")
			p.click("Zoom in")
			p.click("Zoom in")
			p.agree("zoomed in")
			x, y := p.box("#floor").middle()
			p.drag(x, y, x+40, y-30)
			p.agree("moved")
			p.look(screen{wide: 390, high: 844, touch: true, scale: 2})
			p.rest()
			p.agree("moved, then on a phone with a finer screen")
			p.click("Fit")
			p.agree("fitted again")
		})
	}
}

// The chalk lines are where the pattern's definition has them: the seams'
// working lines 24.75 mm, W√2/4, either side of the mean, and the means
// 247.49 mm, L/√2, apart.
func TestWhereLinesAre(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&show=working,centre", desk)
	xs := eval[[]float64](p, `() => [...new Set([...person.one('#overlay .working-line').getAttribute('d').matchAll(/[ML]([-\d.]+) /g)].map((m) => +m[1]))].sort((a, b) => a - b)`)
	var want []float64
	for j := -8; j <= 8; j++ {
		for _, side := range []float64{-1, 1} {
			x := 2100 + float64(j)*350/math.Sqrt2 + side*70*math.Sqrt2/4
			if x > 0 && x < 4200 {
				want = append(want, x)
			}
		}
	}
	if len(xs) != len(want) {
		t.Fatalf("working lines at %v, want %v", xs, want)
	}
	for i := range want {
		near(p, "working line", xs[i], want[i], 0.01)
	}
	centre := eval[[]float64](p, `() => { const b = person.one('#overlay .centre-line').getBBox(); return [b.x, b.width, b.height]; }`)
	near(p, "centre line", centre[0], 2100, 0.01)
	near(p, "its width", centre[1], 0, 0.01)
	near(p, "its length", centre[2], 3600, 0.01)
}
