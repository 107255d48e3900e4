package browser

import (
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// focused returns the name of what has the keyboard, and the id of its
// outermost part of the page.
func (p *person) focused() string {
	p.t.Helper()
	return eval[string](p, `() => { const e = document.activeElement; return e === document.body ? '' : person.name(e) || e.id; }`)
}

func TestTabReachesEverything(t *testing.T) {
	p := open(t, "#"+plain+"&pattern=herringbone", desk)
	for _, stage := range stages {
		t.Run(stage, func(t *testing.T) {
			p.t = t
			p.click(stage)
			p.allFilled() // the desk's tables have controls too
			// Tab begins at the top of the page again.
			p.run(`() => { document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex'); }`)
			// Of radio buttons of one name, Tab reaches the chosen one; the
			// arrows reach the others.
			want := eval[[]string](p, `() => person.all().filter((e) => !e.disabled && (e.type !== 'radio' || e.checked)).map((e) => person.name(e))`)
			var got []string
			for range len(want) + 3 {
				p.do(chromedp.KeyEvent(kb.Tab))
				seen := eval[[]string](p, `() => {
					const e = document.activeElement;
					if (e === document.body) return [];
					const mark = e.type === 'radio' || e.type === 'checkbox' ? e.nextElementSibling : e;
					const s = getComputedStyle(mark), r = e.getBoundingClientRect();
					const sight = r.bottom > 0 && r.right > 0 && r.top < innerHeight && r.left < innerWidth;
					return [person.name(e) || e.id, s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 ? 'ring' : 'no ring', sight ? 'in sight' : 'out of sight'];
				}`)
				if len(seen) == 0 {
					break // past the last one
				}
				got = append(got, seen[0])
				if seen[1] != "ring" || seen[2] != "in sight" {
					t.Errorf("%s has the keyboard with %s, %s", seen[0], seen[1], seen[2])
				}
			}
			for _, name := range want {
				if !slices.Contains(got, name) {
					t.Errorf("Tab never reaches %s", name)
				}
			}
			// The order on the screen is the order of the keyboard: first the
			// masthead, then the floor, its laying, the stages, the numbers.
			last := -1
			for _, name := range []string{"Share", "Zoom in", "Play", "Measure"} {
				i := slices.Index(got, name)
				if i <= last {
					t.Errorf("%s comes out of order in %s", name, strings.Join(got, " | "))
				}
				last = i
			}
			if got[0] != "Skip to the numbers" {
				t.Errorf("Tab first reaches %q", got[0])
			}
		})
	}
}

func TestSkip(t *testing.T) {
	p := open(t, "#"+plain, desk)
	p.do(chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Enter))
	p.rest()
	same(p, "focus", eval[string](p, `() => document.activeElement.id`), "stage")
	same(p, "link", p.link(), plain)
	p.do(chromedp.KeyEvent(kb.Tab))
	if !eval[bool](p, `() => person.one('#stage').contains(document.activeElement)`) {
		t.Error("the next Tab leaves the stage")
	}
}

func TestArrowsChooseAmongRadioButtons(t *testing.T) {
	p := open(t, "#"+plain+"&stage=choose", desk)
	p.run(`() => person.find('Herringbone').focus()`)
	p.keys(kb.ArrowRight)
	same(p, "pattern", p.key("pattern"), "chevron")
	same(p, "focus", p.focused(), "Chevron")
	p.keys(kb.ArrowLeft)
	same(p, "pattern", p.key("pattern"), "herringbone")
	same(p, "focus", p.focused(), "Herringbone")
	// Space ticks a box.
	p.click("Lay")
	p.run(`() => person.find('Diagonals').focus()`)
	p.keys(" ")
	same(p, "show", p.key("show"), "centre,working,border,start")
	same(p, "focus", p.focused(), "Diagonals")
	// Enter presses a button, and the keyboard stays where it is.
	p.run(`() => person.find('Strike').focus()`)
	p.keys(kb.Enter)
	same(p, "title", p.text("#stage-title"), "Strike")
	same(p, "focus", p.focused(), "Strike")
}

func TestKeys(t *testing.T) {
	p := open(t, "#"+small+"&laid=10&speed=3", desk)
	laid := func(key string, want int) {
		t.Helper()
		p.keys(key)
		n, _ := p.laid()
		same(p, "blocks laid", n, want)
	}
	_, all := p.laid()
	laid(kb.ArrowRight, 11)
	laid(kb.ArrowLeft, 10)
	laid(kb.Home, 0)
	laid(kb.End, all)
	laid(kb.ArrowUp, p.rowEnd(-2))
	laid(kb.ArrowDown, all)
	laid(kb.Home, 0)
	laid(kb.ArrowDown, p.rowEnd(0))
	p.keys(" ")
	if !p.shown(`[data-do="pause"]`) {
		t.Error("Space does not play")
	}
	p.keys(" ")
	if !p.shown(`[data-do="play"]`) {
		t.Error("Space does not pause")
	}
	for i, stage := range stages {
		p.keys(string(rune('1' + i)))
		same(p, "title", p.text("#stage-title"), stage)
	}
	// The list of keys.
	p.keys("?")
	p.wait("the keys to be shown", `() => person.seen(person.one('#keys'))`)
	p.wait("the keyboard to be in the dialog", `() => person.one('#keys').contains(document.activeElement)`)
	for _, key := range []string{"Space", "→", "↓", "Home", "+", "W A S D", "0", "1 2 3 4", "?"} {
		p.see("#keys", key)
	}
	p.keys(kb.Escape)
	if p.shown("#keys") {
		t.Error("Escape does not close the list of keys")
	}
	p.wait("the keyboard to be back", `() => document.activeElement !== document.body`)
	same(p, "focus", p.focused(), "Keys")
	p.click("Keys")
	p.wait("the keys to be shown", `() => person.seen(person.one('#keys'))`)
	p.click("Close")
	if p.shown("#keys") {
		t.Error("Close does not close the list of keys")
	}
	// The slider's own keys do the same.
	p.run(`() => person.one('#ruler').focus()`)
	laid(kb.Home, 0)
	laid(kb.ArrowRight, 1)
	// Keys typed in a field are the field's.
	p.click("Measure")
	p.typeInto("Width", "14+0")
	n, _ := p.laid()
	same(p, "blocks laid after typing", n, 1)
	same(p, "Width", p.value("Width"), "14+0")
}

// rowEnd returns how many blocks are laid by the end of a row, as the list of
// rows has it; -2 is the last row but one.
func (p *person) rowEnd(i int) int {
	p.t.Helper()
	was := p.text("#stage-title")
	p.click("Lay")
	ends := p.rowEnds()
	p.click(was)
	p.run(`() => document.activeElement.blur()`)
	if i < 0 {
		i += len(ends)
	}
	return ends[i]
}

// On a phone the field that is typed in lies free between the floor and the
// stages, and the floor stays in sight.
func TestFieldsLieFreeOnAPhone(t *testing.T) {
	p := open(t, "#"+plain, phone)
	for _, stage := range stages[:3] {
		p.click(stage)
		names := eval[[]string](p, `() => [...document.querySelectorAll('#stage input[type="text"]')].filter(person.seen).map(person.name)`)
		if len(names) < 2 {
			t.Fatalf("stage %s has fields %v", stage, names)
		}
		for i, name := range names {
			if slices.Index(names, name) != i {
				continue // another of the same name
			}
			p.run(`(name) => { scrollTo(0, 0); [...document.querySelectorAll('#stage input[type="text"]')].find((e) => person.name(e) === name).focus(); }`, name)
			p.rest()
			p.keys("1")
			over := eval[[]float64](p, `() => {
				const f = document.activeElement.getBoundingClientRect();
				let top = 0, bottom = innerHeight;
				for (const s of ['#floor', '.ruler', '.stages', '.masthead']) {
					const e = document.querySelector(s);
					if (!e || getComputedStyle(e).position !== 'sticky') continue;
					const r = e.getBoundingClientRect();
					if (r.top < innerHeight / 2) top = Math.max(top, r.bottom); else bottom = Math.min(bottom, r.top);
				}
				const floor = document.querySelector('#floor').getBoundingClientRect();
				return [f.top - top, bottom - f.bottom, Math.min(floor.bottom, innerHeight) - Math.max(floor.top, 0)];
			}`)
			if over[0] < 0 || over[1] < 0 {
				t.Errorf("%s on %s: %.0f pixels below what sticks to the top, %.0f above what sticks to the foot", name, stage, over[0], over[1])
			}
			if over[2] < 150 {
				t.Errorf("%s on %s: only %.0f pixels of the floor are in sight", name, stage, over[2])
			}
		}
	}
}
