package browser

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Stands in for what a machine without a screen or a voice does not have, and
// writes down what it is asked.
const siteStubs = `(() => {
	window.asked = []; window.said = [];
	Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request: (kind) => {
		window.asked.push(kind);
		return window.refuse ? Promise.reject(new DOMException('no', 'NotAllowedError')) : Promise.resolve({ release: () => { window.asked.push('released'); return Promise.resolve(); } });
	} } });
	Object.defineProperty(window, 'speechSynthesis', { configurable: true, value: {
		speaking: false, cancel() {}, getVoices: () => window.mute ? [] : ['one'], speak: (u) => window.said.push(u.lang + ': ' + u.text) } });
})();`

func openSite(t *testing.T, link, before string, on screen) *person {
	t.Helper()
	p := newPerson(t, on)
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: before})
	p.visit(link)
	p.ready()
	p.turned(".site-count", " of ")
	return p
}

// turned waits until the card has come that says so.
func (p *person) turned(selector, want string) {
	p.t.Helper()
	p.wait(selector+" to say "+want, `(selector, want) => { const e = document.querySelector(selector); return !!e && person.tidy(e.textContent).includes(want); }`, selector, want)
}

func (p *person) asked() string {
	return eval[string](p, `() => window.asked.join(' ')`)
}

func TestOnSiteMarks(t *testing.T) {
	p := openSite(t, "#"+plain+"&stage=strike&face=site", siteStubs, phone)
	p.allows("NavigationEntryMarkedSkippable") // some ticks are set without a real click
	comes := func(n int) {
		t.Helper()
		p.turned(".site-count", "Mark "+strconv.Itoa(n)+" of 84")
	}
	comes(1)
	// The same numbers as in the table: the centre line at 2100 from A.
	p.see(".site-where", "Wall AB Hook at corner A")
	p.turned(".site-reading", "2100 mm")
	same(p, "drawn", strings.HasPrefix(eval[string](p, `() => document.getElementById('overlay-now').getAttribute('d')`), "M2100 0L2100 -3600M"), true)
	same(p, "focus", eval[string](p, `() => document.activeElement.id`), "site-next")

	p.click("Next")
	comes(2)
	p.click("Back")
	comes(1)
	p.run(`() => { document.activeElement.blur(); }`) // a key that presses the button it stands on is the button's
	for i, key := range []string{kb.ArrowRight, kb.PageDown, " ", kb.ArrowDown} {
		p.keys(key)
		comes(i + 2)
	}
	for i, key := range []string{kb.PageUp, kb.ArrowLeft, kb.ArrowUp} {
		p.keys(key)
		comes(4 - i)
	}
	p.touch([][2]float64{{320, 420}}, [][2]float64{{80, 430}})
	comes(3)
	p.touch([][2]float64{{80, 420}}, [][2]float64{{320, 430}})
	comes(2)
	p.touch([][2]float64{{200, 500}}, [][2]float64{{180, 330}}) // upward is no swipe
	comes(2)
	p.keys(kb.Home)
	comes(1)

	// Done goes on to the next, and is kept.
	p.click("Done")
	comes(2)
	p.click("Done")
	comes(3)
	p.comes(".site-progress", "2 of 84 done")
	p.click("Next")
	p.click("First not done")
	comes(3)
	p.click("Back")
	comes(2)
	same(p, "pressed", eval[string](p, `() => person.find('Done').getAttribute('aria-pressed')`), "true")
	p.click("Done") // not after all
	p.comes(".site-progress", "1 of 84 done")
	p.do(chromedp.Reload())
	p.ready()
	comes(2)

	// The table has the same tick, and what is ticked there is done here.
	p.keys(kb.Escape)
	p.filled("marks")
	same(p, "ticked in the table", eval[int](p, `() => document.querySelectorAll('#desk-marks [data-tick]:checked').length`), 1)
	same(p, "focus", eval[string](p, `() => document.activeElement.id`), "to-site")
	p.run(`() => { document.querySelectorAll('#desk-marks [data-tick]')[1].click(); }`)
	p.click("One mark at a time")
	comes(3)
	p.comes(".site-progress", "2 of 84 done")

	// The last leads to the end, in words.
	p.run(`() => { for (let i = 0; i < 81; i++) person.find('Next').click(); }`)
	comes(84)
	p.click("Next")
	p.turned(".site-end", "Some are not done yet.")
	p.click("First not done")
	comes(3)
	p.run(`() => { for (let i = 0; i < 82; i++) person.find('Done').click(); }`)
	p.turned(".site-end", "Every mark is done.")
	p.comes(".site-progress", "84 of 84 done")
	p.click("Back to work")
	same(p, "face", p.key("face"), "")
	same(p, "no line is left drawn", eval[bool](p, `() => document.getElementById('overlay-now').hasAttribute('d')`), false)
	p.run(`() => { localStorage.clear(); }`)
}

func TestOnSiteRows(t *testing.T) {
	p := open(t, "#"+plain+"&stage=lay&paint=canvas", phone)
	p.filled("rows")
	p.clickOn(`[data-tick="row-1"]`)
	p.click("One row at a time")
	p.turned(".site-count", "Row 2 of ")
	row2, _ := p.laid()
	p.click("Back")
	p.turned(".site-count", "Row 1 of ")
	// As in the table of rows: worked out beside its test.
	p.see(".site-checks", "Last tip to wall CD142 mm shy by 0.2")
	p.see(".site-checks", "Seam to wall DA, both ends1853 mm")
	row1, _ := p.laid()
	if !(0 < row1 && row1 < row2) {
		t.Errorf("the picture has %d blocks with row 1 and %d with row 2", row1, row2)
	}
	p.click("Next")
	p.turned(".site-count", "Row 2 of ")
	p.click("Done")
	p.turned(".site-count", "Row 3 of ")
	p.click("Marks", ".site-top")
	p.turned(".site-count", "Mark 1 of 84")
	p.click("Rows", ".site-top")
	p.turned(".site-count", "Row 3 of ")
	p.keys(kb.Escape)
	p.filled("rows")
	same(p, "ticked in the list", eval[string](p, `() => [...document.querySelectorAll('#desk-rows [data-tick]:checked')].map((e) => e.dataset.tick).join(' ')`), "row-1 row-2")
	p.run(`() => { localStorage.clear(); }`)
}

func TestOnSiteStaysAwakeAndReads(t *testing.T) {
	p := openSite(t, "#unit=in&room=14ftx12ft&block=2-1/4x9&face=site", siteStubs, phone)
	same(p, "asked", p.asked(), "screen")
	turn := func(to string) {
		p.run(`(to) => { Object.defineProperty(document, 'visibilityState', { configurable: true, value: to }); document.dispatchEvent(new Event('visibilitychange')); }`, to)
	}
	turn("hidden")
	same(p, "asked when hidden", p.asked(), "screen")
	turn("visible")
	same(p, "asked again", p.asked(), "screen screen")
	if p.shown(".site-warns") {
		t.Error("there is a warning: " + p.text(".site-warns"))
	}
	p.run(`() => { window.refuse = true; }`)
	turn("visible")
	p.turned(".site-warns", "would not keep the screen on")
	p.run(`() => { window.refuse = false; }`)
	turn("visible")
	p.wait("the warning to go", `() => document.querySelector('.site-warns').hidden`)

	said := func() string { return eval[string](p, `() => window.said.join(' | ')`) }
	p.click("Read aloud")
	same(p, "said", said(), "en: Wall A B. Hook at corner A. Seven feet. For: Centre line.") // the middle of 14 ft
	p.click("Next")
	p.wait("the next to be said", `() => window.said.length === 2`)
	same(p, "said", strings.HasSuffix(said(), "| en: Wall C D. Hook at corner C. Seven feet. For: Centre line."), true)
	p.click("Read aloud")
	p.click("Next")
	p.turned(".site-count", "Mark 3 of")
	same(p, "said after it is turned off", eval[int](p, `() => window.said.length`), 2)
	p.run(`() => { window.mute = true; }`)
	p.click("Read aloud")
	p.turned(".site-warns", "no voice")
	p.click("Back to work")
	p.wait("the screen to be let go", `() => window.asked.at(-1) === 'released'`)
	p.leave()

	p = openSite(t, "#"+plain+"&face=site", `Object.defineProperty(navigator, 'wakeLock', { value: undefined }); Object.defineProperty(window, 'speechSynthesis', { value: undefined });`, phone)
	p.turned(".site-warns", "cannot keep the screen on")
	p.click("Read aloud")
	p.turned(".site-warns", "no voice")
}

// In the sun there is black and white and nothing between, what is pressed is
// large, and the reading can be read from a distance.
func TestOnSiteIsReadInTheSun(t *testing.T) {
	for _, on := range []screen{phone, {wide: 844, high: 390, touch: true}, tablet, desk} {
		links := []string{plain + "&stage=strike", "unit=in&fraction=64&room=0,0;14ft,0;13ft11in,12ft;0,12ft&gap=1/2in&border=5in&block=2-1/4x9&stage=strike", plain + "&stage=lay"}
		if on != phone {
			links = links[1:]
		}
		for _, link := range links {
			p := openSite(t, "#"+link+"&face=site", siteStubs, on)
			if strings.HasPrefix(link, "unit") {
				p.run(`() => { for (let i = 0; i < 5; i++) person.find('Next').click(); }`)
				p.turned(".site-count", "Mark 6 of")
			}
			for _, ground := range []string{"White", "Black"} {
				if eval[bool](p, `(label) => person.all('.site-top').some((e) => person.name(e) === label)`, ground+" ground") {
					p.click(ground + " ground")
				}
				p.run(`() => { document.activeElement.blur(); }`)
				p.rest()
				for _, fault := range eval[[]string](p, `(ground) => {
					const out = [], pure = { 'rgb(0, 0, 0)': 'Black', 'rgb(255, 255, 255)': 'White' };
					for (const e of document.querySelectorAll('#face, #face *')) {
						if (!person.seen(e) || e.closest('.visually-hidden')) continue;
						const s = getComputedStyle(e);
						for (const what of [s.color, s.borderTopColor]) if (!pure[what]) out.push(e.className + ' is ' + what);
						if (s.opacity !== '1') out.push(e.className + ' is faint');
						if (s.backgroundColor !== 'rgba(0, 0, 0, 0)' && !pure[s.backgroundColor]) out.push(e.className + ' lies on ' + s.backgroundColor);
						if (e.tagName === 'BUTTON') {
							const r = e.getBoundingClientRect(), least = e.closest('.site-foot') ? 64 : 44;
							if (r.width < 44 || r.height < least) out.push(person.name(e) + ' is ' + r.width + ' by ' + r.height);
						}
						if (e.scrollWidth > e.clientWidth + 1 && s.display !== 'inline' && !e.closest('svg')) out.push(e.className + ' is ' + e.scrollWidth + ' wide in ' + e.clientWidth);
					}
					if (pure[getComputedStyle(document.getElementById('face')).backgroundColor] !== ground) out.push('the ground is not ' + ground);
					const r = document.querySelector('.site-reading .mark, .site-checks .mark');
					if (parseFloat(getComputedStyle(r).fontSize) < 56) out.push('the reading is ' + getComputedStyle(r).fontSize);
					for (const e of document.querySelectorAll('.site-foot button')) {
						const b = e.getBoundingClientRect();
						if (b.top < 0 || b.bottom > innerHeight + 1) out.push(person.name(e) + ' is out of sight');
					}
					return [...new Set(out)];
				}`, ground) {
					t.Errorf("%d by %d, %s, %s: %s", on.wide, on.high, link, ground, fault)
				}
				if *shots {
					p.shot("site " + strconv.FormatInt(on.wide, 10) + " " + link[:2] + link[len(link)-3:] + " " + ground)
				}
			}
			p.run(`() => { localStorage.clear(); }`)
			p.leave()
		}
	}
}
