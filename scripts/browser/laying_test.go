package browser

import (
	"math"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
)

// rowEnds returns how many blocks are laid by the end of each row that is
// listed. The desk works the list out, which takes a moment.
func (p *person) rowEnds() []int {
	p.t.Helper()
	p.filled("rows")
	return eval[[]int](p, `() => [...document.querySelectorAll('.rows .told')].map((e) => +e.textContent)`)
}

// small is a floor of few blocks, so that a whole laying is soon over; bare
// of lines, so that nothing but wood and paper is seen inside the walls.
const small = "room=1400x1200&block=70x350&show=none"

func TestSteps(t *testing.T) {
	p := open(t, "#"+small+"&stage=lay&laid=0", desk)
	_, all := p.laid()
	at := func(what string, want int) {
		t.Helper()
		p.wait(what, `(text) => person.text('#laid-count').startsWith(text + ' of')`, want)
		link := strconv.Itoa(want)
		if want == all {
			link = ""
		}
		same(p, "laid= after "+what, p.key("laid"), link)
	}
	same(p, "row", p.text("#laid-row"), "Nothing laid yet")
	p.clickOn(`[data-do="step-block"][data-arg="1"]`)
	at("one block on", 1)
	p.clickOn(`[data-do="step-block"][data-arg="1"]`)
	at("another block on", 2)
	p.see("#laid-row", "Spine")
	p.clickOn(`[data-do="step-block"][data-arg="-1"]`)
	at("a block back", 1)
	// The spine is the first row of the list; its last column is how many
	// blocks are laid by its end.
	rows := p.rowEnds()
	p.clickOn(`[data-do="step-row"][data-arg="1"]`)
	at("the end of the spine", rows[0])
	p.clickOn(`[data-do="step-row"][data-arg="1"]`)
	at("the end of the second row", rows[1])
	p.clickOn(`[data-do="step-row"][data-arg="-1"]`)
	at("a row back", rows[0])
	p.clickOn(`[data-do="step-row"][data-arg="-1"]`)
	at("two rows back", 0)
	p.clickOn(`[data-do="step-row"][data-arg="-1"]`)
	at("no further back", 0)
	same(p, "the last row ends with every block", rows[len(rows)-1], all)
	// A row of the list is a button.
	p.clickOn(`#row-3 button`)
	at("a click on row 3", rows[2])
	if !eval[bool](p, `() => person.one('#row-3').getAttribute('aria-current') === 'true' && document.querySelectorAll('.rows [aria-current]').length === 1`) {
		t.Error("row 3 is not marked as the one being laid")
	}
	// Reload: the link holds how far it is.
	p.visit("#" + p.link())
	p.ready()
	at("reloading", rows[2])
}

func TestRuler(t *testing.T) {
	p := open(t, "#"+small+"&stage=lay", desk)
	rows := p.rowEnds()
	ruler := p.box("#ruler")
	high := ruler.bottom - ruler.top
	x, _ := ruler.middle()
	// Touched above in the middle: somewhere in the spine. Dragged to the
	// right the laying goes on row by row; below is infill, the last to come.
	p.drag(x-4, ruler.top+high/4, x+2, ruler.top+high/4)
	n, _ := p.laid()
	if !(n > 0 && n < rows[0]) {
		t.Errorf("%d blocks laid in the middle of the spine, whose end is %d", n, rows[0])
	}
	p.drag(x+2, ruler.top+high/4, ruler.right-3, ruler.top+high/4)
	far, _ := p.laid()
	if far <= rows[0] {
		t.Errorf("%d blocks laid at the right end of the ruler, the spine alone has %d", far, rows[0])
	}
	same(p, "laid=", p.key("laid"), strconv.Itoa(far))
	p.drag(ruler.left+3, ruler.top+high*3/4, ruler.left+3, ruler.top+high*3/4)
	if n, _ = p.laid(); n <= far {
		t.Errorf("%d blocks laid in the infill, which comes after the last row's %d", n, far)
	}
	same(p, "slider's value", eval[string](p, `() => person.one('#ruler').getAttribute('aria-valuetext')`), p.text("#laid-row"))
}

func TestPlayAndPause(t *testing.T) {
	p := open(t, "#"+small+"&stage=lay&speed=40&laid=0", phone)
	_, all := p.laid()
	p.click("Play")
	p.wait("some blocks to be laid", `() => parseInt(person.text('#laid-count')) >= 8`)
	p.click("Pause")
	n, _ := p.laid()
	if n < 8 || n >= all {
		t.Errorf("%d of %d blocks laid at the pause", n, all)
	}
	same(p, "laid= at the pause", p.key("laid"), strconv.Itoa(n))
	p.run(`() => new Promise((r) => setTimeout(r, 300))`)
	if now, _ := p.laid(); now != n {
		t.Errorf("the laying goes on after the pause: %d, then %d", n, now)
	}
	// On to the end, faster.
	p.choose("Pace", eval[string](p, `() => person.tidy(person.find('Pace').options[person.find('Pace').options.length - 1].textContent)`))
	same(p, "speed", p.key("speed"), "600")
	p.click("Play")
	p.wait("all to be laid", `() => !!document.querySelector('[data-do="play"]') && person.text('#laid-count').split(' ')[0] === person.text('#laid-count').split(' ')[2]`)
	same(p, "laid= at the end", p.key("laid"), "")
	// Play when all is laid begins anew.
	p.choose("Pace", eval[string](p, `() => person.tidy(person.find('Pace').options[1].textContent)`))
	p.click("Play")
	if n, _ := p.laid(); n > all/2 {
		t.Errorf("playing anew begins with %d of %d blocks", n, all)
	}
	p.click("Pause")
}

func TestPace(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&speed=40&laid=0", desk)
	begin := time.Now()
	p.click("Play")
	p.run(`() => new Promise((r) => setTimeout(r, 1000))`)
	p.click("Pause")
	n, _ := p.laid()
	long := time.Since(begin).Seconds()
	// 40 blocks in a second, on a machine that may be busy: a frame that
	// takes longer than a tenth of a second counts as a tenth.
	if float64(n) > 40*long+2 || float64(n) < 10 {
		t.Errorf("%d blocks laid in %.1f s at 40 a second", n, long)
	}
}

// Long lists come in leaves.
func TestLongLists(t *testing.T) {
	p := open(t, "#room=12000x3000&block=70x350&stage=lay&paint=canvas&laid=0", phone)
	begins := func(n int) {
		t.Helper()
		p.wait("row "+strconv.Itoa(n)+" to come first", `(n) => { const e = document.querySelector('.rows tbody th'); return !!e && person.tidy(e.textContent) === n; }`, strconv.Itoa(n))
	}
	begins(1)
	first := len(p.rowEnds())
	p.clickOn(`[data-do="leaf-rows"][data-arg="1"]`)
	begins(first + 1)
	p.clickOn(`[data-do="leaf-rows"][data-arg="-1"]`)
	begins(1)
	p.click("By strand")
	strands := func() string {
		return p.text(".stage-body details tbody td")
	}
	leftmost := strands()
	p.clickOn(`[data-do="leaf-strands"][data-arg="1"]`)
	n, err := strconv.Atoi(leftmost)
	if got, _ := strconv.Atoi(strands()); err != nil || got != n+first {
		t.Errorf("the second leaf of strands begins with %s, the first with %s", strands(), leftmost)
	}
	p.clickOn(`[data-do="leaf-strands"][data-arg="-1"]`)
	same(p, "first strand of the first leaf", strands(), leftmost)
}

// middle returns the middle of block i of the left or right hand of the
// spine, in the room's frame, from the pattern's definition: with W wide and L
// long, right-hand blocks lie at [iW-L, iW] x [iW-W/2, iW+W/2] along (u, v) in
// strand -1 (m = 0), left-hand ones at [iW, iW+W] x [iW+W/2-L, iW+W/2] in
// strand 0, with x = (u-v)/√2 and y = (u+v)/√2 from the centre.
func middle(strand, i int, wide, long, cx, cy float64) (x, y float64) {
	w := float64(i) * wide
	u, v := w-long/2, w
	if strand == 0 {
		u, v = w+wide/2, w+wide/2-long/2
	}
	return cx + (u-v)/math.Sqrt2, cy + (u+v)/math.Sqrt2
}

func TestLayingIsSeen(t *testing.T) {
	for _, paint := range []string{"canvas", "webgl"} {
		t.Run(paint, func(t *testing.T) {
			p := open(t, "#"+small+"&paint="+paint+"&laid=0", desk)
			same(p, "painter", eval[string](p, `() => person.one('#floor').dataset.painter`), paint)
			// The first blocks laid stand at the start; further on in the
			// spine nothing lies yet.
			type spot struct{ x, y float64 }
			var blocks []spot
			for i := 0; i <= 3; i++ {
				for _, strand := range []int{-1, 0} {
					x, y := middle(strand, i, 70, 350, 700, 600)
					x, y = p.place(x, y)
					blocks = append(blocks, spot{x, y})
				}
			}
			wooden := func(pic picture) (n int) {
				for _, b := range blocks {
					if pic.at(b.x, b.y, 3).wooden() {
						n++
					}
				}
				return n
			}
			if n := wooden(p.floor()); n != 0 {
				t.Errorf("%d blocks are seen before the first is laid", n)
			}
			p.keys(kb.ArrowRight)
			p.until("the first block to be seen", func() bool { return wooden(p.floor()) <= 1 })
			before := p.floor()
			p.keys(kb.ArrowDown)
			p.until("the whole spine to be seen", func() bool { return wooden(p.floor()) == len(blocks) })
			after := p.floor()
			changed := 0
			for _, b := range blocks {
				if before.at(b.x, b.y, 3).apart(after.at(b.x, b.y, 3)) > 20 {
					changed++
				}
			}
			if changed < len(blocks)-1 {
				t.Errorf("%d of %d blocks changed when the spine was laid", changed, len(blocks))
			}
			// Taken up again.
			p.keys(kb.Home)
			p.until("the floor to be bare", func() bool { return wooden(p.floor()) == 0 })
			p.keys(kb.End)
			p.until("the floor to be whole", func() bool { return wooden(p.floor()) == len(blocks) })
		})
	}
}

// Every piece is there at the end: a grid of points over the whole field
// shows wood and no paper.
func TestAllIsLaidAtTheEnd(t *testing.T) {
	for _, paint := range []string{"canvas", "webgl"} {
		t.Run(paint, func(t *testing.T) {
			p := open(t, "#"+small+"&border=100&paint="+paint+"&laid=0&speed=600", desk)
			var points [][2]float64 // in the window
			for x := 30.0; x < 1400; x += 67 {
				for y := 30.0; y < 1200; y += 67 {
					px, py := p.place(x, y)
					points = append(points, [2]float64{px, py})
				}
			}
			wooden := func() (n int) {
				pic := p.floor()
				for _, at := range points {
					if pic.at(at[0], at[1], 2).wooden() {
						n++
					}
				}
				return n
			}
			same(p, "points of wood before the first block", wooden(), 0)
			p.click("Play")
			p.wait("all to be laid", `() => !!document.querySelector('[data-do="play"]')`)
			// The border comes last, plank by plank.
			p.until("wood everywhere", func() bool { return wooden() == len(points) })
		})
	}
}

// Who asks for less motion sees rows appear whole.
func TestReducedMotion(t *testing.T) {
	still := desk
	still.still = true
	p := open(t, "#"+small+"&paint=canvas&laid=0&speed=1", still)
	x, y := middle(0, 2, 70, 350, 700, 600)
	x, y = p.place(x, y)
	p.click("Play")
	p.until("the spine to appear", func() bool { return p.floor().at(x, y, 3).wooden() })
	if n, _ := p.laid(); n > 8 {
		t.Errorf("%d blocks are counted when the spine appears", n)
	}
	p.click("Pause")
}
