package browser

import (
	"slices"
	"testing"

	"github.com/chromedp/cdproto/page"

	"keelrow/wasm/scene"
)

// spots returns where in the window the middles of some blocks of both hands
// lie: for a room of 4200 x 3600 with blocks of 70 x 350, laid from its
// middle.
func (p *person) spots() (left, right [][2]float64) {
	p.t.Helper()
	for i := -8; i <= 7; i++ {
		x, y := middle(-1, i, 70, 350, 2100, 1800)
		x, y = p.place(x, y)
		right = append(right, [2]float64{x, y})
		x, y = middle(0, i, 70, 350, 2100, 1800)
		x, y = p.place(x, y)
		left = append(left, [2]float64{x, y})
	}
	return left, right
}

func mean(pic picture, at [][2]float64) (light float64, wooden int) {
	for _, s := range at {
		c := pic.at(s[0], s[1], 2)
		light += c.light()
		if c.wooden() {
			wooden++
		}
	}
	return light / float64(len(at)), wooden
}

func TestPaintersShowTheSameFloor(t *testing.T) {
	for _, dark := range []bool{false, true} {
		on := desk
		on.dark = dark
		pictures := map[string]picture{}
		var wall box
		for _, paint := range []string{"webgl", "canvas"} {
			p := open(t, "#room=4200x3600&block=70x350&show=none&paint="+paint, on)
			same(p, "painter", eval[string](p, `() => person.one('#floor').dataset.painter`), paint)
			left, right := p.spots()
			pic := p.floor()
			pictures[paint] = pic
			wall = p.box("#overlay .wall")
			l, woodL := mean(pic, left)
			r, woodR := mean(pic, right)
			if woodL < len(left) || woodR < len(right) {
				t.Errorf("%s: %d of %d left-hand and %d of %d right-hand blocks have the colour of wood", paint, woodL, len(left), woodR, len(right))
			}
			// The two hands answer the light differently, which is what
			// makes a herringbone floor's bands.
			t.Logf("%s, dark %v: left-hand blocks %.0f light, right-hand blocks %.0f", paint, dark, l, r)
			if d := l - r; d < 8 && d > -8 {
				t.Errorf("%s: both hands are as light: %.1f and %.1f", paint, l, r)
			}
			// Outside the walls is paper.
			for _, at := range [][2]float64{{-150, 1800}, {4350, 1800}, {2100, -150}, {2100, 3750}} {
				x, y := p.place(at[0], at[1])
				if c := pic.at(x, y, 1); c.wooden() {
					t.Errorf("%s: %v is wood, outside the room", paint, at)
				}
			}
			p.leave()
		}
		// Both painters have the same tone for the same block, near enough.
		a, b := pictures["webgl"], pictures["canvas"]
		far := 0
		n := 0
		for x := wall.left + 10; x < wall.right-10; x += 17 {
			for y := wall.top + 10; y < wall.bottom-10; y += 17 {
				n++
				if a.at(x, y, 4).apart(b.at(x, y, 4)) > 60 {
					far++
				}
			}
		}
		if far > n/20 {
			t.Errorf("dark %v: the painters are far apart at %d of %d points", dark, far, n)
		}
	}
}

func TestPaintIsChangedByTheLink(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&show=none&paint=webgl", desk)
	p.allows("NavigationEntryMarkedSkippable")
	for _, paint := range []string{"canvas", "webgl"} {
		p.run(`(paint) => { location.hash = '#room=4200x3600&block=70x350&show=none&paint=' + paint; }`, paint)
		p.wait("the painter to change", `(paint) => person.one('#floor').dataset.painter === paint`, paint)
		p.rest()
		left, _ := p.spots()
		if _, wood := mean(p.floor(), left); wood < len(left) {
			t.Errorf("%s shows %d of %d blocks", paint, wood, len(left))
		}
	}
}

// The browser may take the drawing context away at any time.
func TestContextLost(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&show=none&paint=webgl", desk)
	left, right := p.spots()
	before := p.floor()
	p.run(`async () => {
		const gl = person.one('#painting canvas').getContext('webgl2');
		window.taken = gl.getExtension('WEBGL_lose_context');
		taken.loseContext();
		await person.frames(5);
	}`)
	// The page goes on meanwhile.
	p.click("Zoom in")
	p.click("Fit")
	p.run(`async () => { taken.restoreContext(); await person.frames(10); }`)
	after := p.floor()
	for _, s := range append(left, right...) {
		if d := before.at(s[0], s[1], 2).apart(after.at(s[0], s[1], 2)); d > 3 {
			t.Fatalf("after the context came back the block at %v differs by %.0f", s, d)
		}
	}
	// And it can be laid on.
	p.click("Choose")
	p.typeInto("Width", "140")
	x, y := p.place(2100, 1800)
	if !p.floor().at(x+5, y+40, 2).wooden() {
		t.Error("no wood after the change that followed")
	}
}

// Without WebGL there is the plain painter, and with none at all still the
// numbers.
func TestWithoutWebGL(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", desk)
	same(p, "painter on a machine without a graphics card", eval[string](p, `() => person.one('#floor').dataset.painter`), "canvas")
	if !p.shown(".painter-note") {
		t.Error("nothing is said of the plain painter")
	}
}

// TestMeasureFrames prints what a frame costs the page while the picture is
// moved, beside drawing each block by itself on a 2D canvas, and what the
// floor takes of memory. It judges nothing.
func TestMeasureFrames(t *testing.T) {
	if !*measure {
		t.Skip("run with -measure")
	}
	t.Log("milliseconds of script a frame, median of 20; megabytes of the program and of the blocks on the card")
	t.Logf("%7s  %12s  %12s  %12s  %9s  %9s", "blocks", "WebGL2", "canvas 2D", "one by one", "program", "card")
	for _, room := range []string{"7000x7000", "22100x22100", "70000x70000"} {
		var frame [2]float64
		var alone, memory float64
		var blocks int
		for i, paint := range []string{"webgl", "canvas"} {
			p := newPerson(t, desk)
			p.allows("NavigationEntryMarkedSkippable") // nobody presses a key here
			must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `(() => {
				const ask = window.requestAnimationFrame.bind(window);
				window.spent = [];
				for (const how of ['instantiate', 'instantiateStreaming']) {
					const make = WebAssembly[how];
					WebAssembly[how] = async (...args) => {
						const made = await make.apply(WebAssembly, args);
						window.program ??= (made.instance ?? made).exports;
						return made;
					};
				}
				window.requestAnimationFrame = (f) => ask((now) => { const from = performance.now(); f(now); spent.push(performance.now() - from); });
			})()`})
			p.visit("#room=" + room + "&block=70x350&paint=" + paint)
			p.ready()
			_, blocks = p.laid()
			p.rest()
			times := eval[[]float64](p, `async () => {
				const floor = person.one('#floor'), b = floor.getBoundingClientRect();
				const out = [];
				for (let i = 0; i < 22; i++) {
					spent = [];
					floor.dispatchEvent(new WheelEvent('wheel', { deltaY: i % 2 ? 40 : -40, clientX: b.left + 200, clientY: b.top + 200, bubbles: true, cancelable: true }));
					await person.frames(2);
					if (i > 1) out.push(Math.max(...spent));
				}
				return out;
			}`)
			slices.Sort(times)
			frame[i] = times[len(times)/2]
			if i == 0 {
				memory = eval[float64](p, `() => program.mem.buffer.byteLength / 1e6`)
				alone = eval[float64](p, `(blocks) => {
					const canvas = document.createElement('canvas');
					canvas.width = 1000; canvas.height = 700;
					const c = canvas.getContext('2d');
					const side = Math.ceil(Math.sqrt(blocks)), k = 700 / side / 160;
					const from = performance.now();
					for (let i = 0; i < blocks; i++) {
						const s = (i & 1 ? -1 : 1) * Math.SQRT1_2 * k;
						c.setTransform(Math.SQRT1_2 * k, s, -s, Math.SQRT1_2 * k, (i % side) * 160 * k, Math.floor(i / side) * 160 * k);
						c.fillStyle = i % 3 ? '#c9a576' : '#b98f60';
						c.fillRect(0, 0, 350, 70);
						c.strokeRect(0, 0, 350, 70);
					}
					c.getImageData(0, 0, 1, 1);
					return performance.now() - from;
				}`, blocks)
			}
			p.leave()
		}
		t.Logf("%7d  %12.2f  %12.2f  %12.2f  %9.1f  %9.1f", blocks, frame[0], frame[1], alone, memory, float64(blocks*scene.Stride)/1e6)
	}
}
