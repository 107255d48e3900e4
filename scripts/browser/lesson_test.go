package browser

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
)

// step waits until a step of the lesson has come.
func (p *person) lessonStep(n int) {
	p.t.Helper()
	p.wait("step "+strconv.Itoa(n), `(n) => { const e = document.querySelector('.lesson-step'); return !!e && e.dataset.step === n; }`, strconv.Itoa(n))
	p.rest()
}

// TestLesson goes through every step of the lesson on a floor and looks for
// its numbers, which the plan of the same link has.
func TestLesson(t *testing.T) {
	p := open(t, "#"+plain+"&face=lesson", desk)
	p.allows("NavigationEntryMarkedSkippable")
	job, _ := link.Open("#" + plain).Job()
	plan, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	lines := plan.Pattern()
	exact := func(l length.Length) string { return length.Decimal(l, length.Millimetres, 2) }
	count := plan.Count()
	blocks := count.Full + count.Cut
	spine := 0
	for r := range plan.Rows() {
		spine = r.Blocks()
		break
	}
	want := map[int][]string{
		1: {"Why 45 degrees", "45°"}, 2: {"350 ÷ 70 = 5"},
		3: {exact(lines.Spacing())}, 4: {exact(lines.Step()), exact(lines.Spacing())}, 5: {exact(lines.Interval())},
		6: {exact(lines.Spacing()), exact(lines.Interval())}, 7: {exact(lines.Spacing())}, 8: {exact(length.Length(350 * math.Sqrt2))},
		9: {exact(lines.Step())}, 12: {fmt.Sprintf("%.2f m²", plan.FieldArea()/1e6), strconv.Itoa(count.Cut) + " cut = " + strconv.Itoa(blocks) + " blocks"},
		13: {"AB", "BC", "CD", "DA"},
	}
	for n := 1; n <= 13; n++ {
		p.lessonStep(n)
		for _, text := range want[n] {
			p.see(".lesson-step", text)
		}
		// Something is lit on the floor, and the working is drawn.
		if d := eval[string](p, `() => document.getElementById('overlay-now').getAttribute('d') || ''`); !strings.HasPrefix(d, "M") {
			t.Errorf("step %d lights %q", n, d)
		}
		// What is small is looked at from nearer; the room is 4200 mm wide.
		if wide := eval[float64](p, `() => document.getElementById('overlay').viewBox.baseVal.width`); (wide < 4200) != (n <= 5 || n == 7 || n == 8) {
			t.Errorf("step %d shows %.0f mm of the floor", n, wide)
		}
		if n <= 8 {
			same(p, "drawn", p.shown(".lesson-step .lesson-draw"), true)
		}
		same(p, "working lines show", eval[string](p, `() => getComputedStyle(document.querySelector('.overlay .working-line')).display`) != "none", n >= 3 && n <= 11)
		if n < 13 {
			p.click("Next")
		}
	}
	same(p, "step in the link", p.key("step"), "13")
	n, all := p.counted()
	same(p, "all is laid", n, all)

	// The first row is played, can be stopped, repeated and goes on.
	p.click("All steps")
	p.click("9. The first row")
	p.lessonStep(9)
	p.until("blocks to be laid", func() bool { n, _ := p.counted(); return n > 2 })
	p.click("Stop")
	n, _ = p.counted()
	p.rest()
	if now, _ := p.counted(); now != n || n >= spine {
		t.Errorf("stopped at %d, then %d of the row's %d", n, now, spine)
	}
	p.click("Play")
	p.until("the row to end", func() bool { n, _ := p.counted(); return n == spine })
	p.wait("the button to say Play", `() => person.all('.lesson-foot').some((b) => person.name(b) === 'Play')`)
	p.click("Repeat")
	p.until("the row to begin again", func() bool { n, _ := p.counted(); return n < spine })
	p.click("Back")
	p.lessonStep(8)
	p.run(`() => document.activeElement.blur()`)
	for _, k := range []struct {
		key  string
		step int
	}{{kb.ArrowRight, 9}, {kb.PageDown, 10}, {kb.ArrowLeft, 9}, {kb.Home, 1}, {kb.End, 13}} {
		p.keys(k.key)
		p.lessonStep(k.step)
	}
	p.keys("r")
	p.keys(" ")

	// Back to the work: every block lies there.
	p.click("Back to work")
	same(p, "face", p.key("face"), "")
	p.until("every block", func() bool { n, all := p.counted(); return n == all })
	p.click("Lesson")
	p.lessonStep(13)

	// A link opens its step; a chevron has its own.
	p.run(`(link) => { location.hash = link; }`, "#room=4200x3600&pattern=chevron&block=90x600&mitre=60&face=lesson&step=3")
	p.comes(".lesson-title", "The step")
	p.see(".lesson-step", "90 ÷ sin 60° = 103.92 mm")
}

// counted is how much is laid, also where the ruler is hidden.
func (p *person) counted() (n, all int) {
	p.t.Helper()
	text := eval[string](p, `() => document.querySelector('#laid-count').textContent`)
	if _, err := fmt.Sscanf(text, "%d of %d", &n, &all); err != nil {
		p.t.Fatalf("the counter says %q", text)
	}
	return n, all
}

// TestLessonQuestions answers a question wrongly, slips, and answers it right.
func TestLessonQuestions(t *testing.T) {
	p := open(t, "#"+plain+"&face=lesson", phone)
	p.allows("NavigationEntryMarkedSkippable")
	p.lessonStep(1)
	p.click("Try it yourself")
	p.wait("a question", `() => document.getElementById('lesson-answer') !== null`)
	if p.key("ask") == "" {
		t.Error("the question is not in the link")
	}
	// One that is known: looked up by what it asks, worked out by hand here.
	seed := 0
	var wide float64
	for n := 1; n < 200 && seed == 0; n++ {
		p.run(`(link) => { location.hash = link; }`, "#"+plain+"&face=lesson&ask="+strconv.Itoa(n))
		p.wait("question "+strconv.Itoa(n), `(n) => document.querySelector('.lesson-step')?.dataset.ask === n`, strconv.Itoa(n))
		if p.text(".lesson-title") == "What is the spacing?" && !strings.Contains(p.text(".lesson-given"), "laid") {
			seed = n
			if _, err := fmt.Sscanf(p.text(".lesson-given"), "Herringbone, blocks %g mm wide", &wide); err != nil {
				t.Fatal(err)
			}
		}
	}
	answer := func(v float64, want ...string) {
		t.Helper()
		p.typeInto("Your answer", strconv.FormatFloat(v, 'f', 2, 64))
		p.click("Check")
		for _, text := range want {
			p.turned("#lesson-said", text)
		}
	}
	// A quarter of the diagonal, which is 1.41421356 times the width (OEIS A002193).
	answer(wide*1.41421356/2, "Too long by", "Halve it once more", "The working")
	answer(wide*1.41421356/4-5, "Too short by 5")
	answer(wide*1.41421356/4, "Right.", "÷ 4 =")
	p.see("#lesson-score", "0 of 1 right")
	p.typeInto("Your answer", "about so")
	p.keys(kb.Enter)
	p.turned("#lesson-said", "Write a length")

	p.click("Next question")
	p.wait("another question", `(n) => { const e = document.querySelector('.lesson-step'); return !!e.dataset.ask && e.dataset.ask !== n; }`, strconv.Itoa(seed))
	p.see("#lesson-score", "0 of 1 right")
	// The cursor comes into the field a moment later and may bring it into view.
	p.wait("the cursor in the field", `() => document.activeElement.id === 'lesson-answer'`)
	p.click("Steps")
	p.lessonStep(1)
	same(p, "no question in the link", p.key("ask"), "")
}

// TestLessonShots puts pictures into artefacts/, for people to look at.
func TestLessonShots(t *testing.T) {
	if !*shots {
		t.Skip("run with -shots")
	}
	for name, on := range map[string]screen{"390": phone, "768": tablet, "1440": desk, "1440 dark": {wide: 1440, high: 900, dark: true}} {
		on.still = true
		p := open(t, "#"+demo+"&face=lesson", on)
		p.allows("NavigationEntryMarkedSkippable")
		for _, n := range []int{1, 3, 4, 6, 7, 9, 12, 13} {
			p.run(`(link) => { location.hash = link; }`, "#"+demo+"&face=lesson&step="+strconv.Itoa(n))
			p.lessonStep(n)
			p.run(`() => new Promise((r) => setTimeout(r, 400))`)
			p.shot("lesson " + name + " " + strconv.Itoa(n))
		}
		p.run(`(link) => { location.hash = link; }`, "#unit=in&room=14ftx12ft&block=2-1/4x9&face=lesson&ask=3")
		p.wait("a question", `() => document.getElementById('lesson-answer') !== null`)
		p.typeInto("Your answer", "1-1/2")
		p.click("Check")
		p.turned("#lesson-said", "Too")
		p.shot("lesson " + name + " ask")
		p.leave()
		if on.dark {
			continue
		}
		q := newPerson(t, on)
		q.visit("example.html")
		q.wait("the floor to be ready", `() => document.querySelector('#said').textContent.startsWith('Step')`)
		q.run(`() => new Promise((r) => setTimeout(r, 1500))`)
		q.shot("lesson example " + name)
		q.run(`() => document.querySelector('keelrow-floor').scrollIntoView()`)
		q.run(`() => new Promise((r) => setTimeout(r, 300))`)
		q.shot("lesson example " + name + " floor")
		q.leave()
	}
}
