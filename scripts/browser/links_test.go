package browser

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

// kept is links of every sort, which the address bar has to keep to the
// letter: order, spaces, escapes and unknown keys included.
var kept = map[string]string{
	"demo":        demo,
	"wall start":  "v=1&unit=mm&room=4200x3600&gap=12&border=127&pattern=herringbone&block=70x350&start=wall",
	"inches":      "v=1&unit=in&fraction=64&room=14ft6-1/2inx12ft&gap=1/2in&border=5in&block=2-1/4inx9in",
	"mixed units": "unit=in&room=4.2mx360cm&block=57mmx9&gap=12mm",
	"chevron":     "v=1&room=4200x3600&pattern=chevron&block=90x600&mitre=52.5&axis=-7.25&shift=35,-12.5",
	"double":      "room=4200x3600&strands=2&block=50x400&centre=2000,1700&axis=45",
	"triple":      "strands=3&room=0,0;5003,0;5003,3811;0,3811&block=45x450&axis=7",
	"holes":       "room=4200x3600&hole=1000,1000;1600,1000;1600,1400;1000,1400&hole=3000,2000;3300,2000;3150,2300&block=70x350",
	"view":        "room=4200x3600&show=centre,working&laid=40&speed=2.5&stage=lay&paint=canvas&lang=en",
	"any order":   "stage=choose&block=80x480&gap=10&room=3000x3000&v=1",
	"escapes":     "room=4200%783600&gap=12&block=70x350",
	"empty pairs": "&room=4200x3600&&gap=12&",
}

func TestLinksAreKept(t *testing.T) {
	var p *person
	for name, link := range kept {
		if p == nil || name == "view" || name == "escapes" {
			p = open(t, "#"+link, desk)
			p.allows("NavigationEntryMarkedSkippable")
		} else { // one link follows the other in the same tab
			p.run(`(link) => { location.hash = link; }`, "#"+link)
			p.rest()
		}
		same(p, name, p.link(), link)
		if p.shown("#notes") {
			t.Errorf("%s brings notes: %s", name, p.text("#notes"))
		}
		// A change of one key leaves all others to the letter.
		if name == "demo" {
			p.typeInto("Gap at the walls", "15")
			same(p, name+" with another gap", p.link(), strings.Replace(link, "gap=12", "gap=15", 1))
		}
	}
}

func TestLinkOpensWhatItSays(t *testing.T) {
	p := open(t, "#v=1&unit=in&fraction=32&room=14ftx12ft6in&gap=1/2in&border=5in&pattern=chevron&block=2-1/4inx18in&mitre=60&axis=10&centre=80,70&shift=1/2in,3mm&start=wall&stage=measure", desk)
	field := func(label, want string, within ...string) {
		t.Helper()
		same(p, label, p.value(label, within...), want)
	}
	field("Width", "14ft")
	field("Depth", "12ft6in")
	field("Gap at the walls", "1/2in")
	field("Border", "5in")
	checked := func(id string) {
		t.Helper()
		if !eval[bool](p, `(id) => person.one('#' + CSS.escape(id)).checked`, id) {
			t.Errorf("%s is not chosen", id)
		}
	}
	checked("choice-unit-in")
	checked("choice-fraction-32")
	p.click("Choose")
	checked("choice-pattern-chevron")
	field("Width", "2-1/4in")
	field("Long edge", "18in")
	field("Mitre angle", "60")
	p.click("Strike")
	checked("choice-start-wall")
	field("Turn of the axis", "10")
	field("across", "1/2in")
	field("along", "3mm")
	field("to the right", "80")
	field("away from you", "70")
}

func TestHistory(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350", desk)
	p.allows("NavigationEntryMarkedSkippable") // the test, and no click, changes the address
	p.see(".facts", "15.12 m²")                // 4.2 * 3.6
	// The hash is edited by hand.
	p.run(`() => { location.hash = '#room=5000x4000&block=70x350'; }`)
	p.rest()
	p.see(".facts", "20.00 m²")
	same(p, "Width", p.value("Width"), "5000")
	// Typing a number is one step to come back from, however many keys.
	p.typeInto("Width", "6000")
	same(p, "link", p.link(), "room=6000x4000&block=70x350")
	p.see(".facts", "24.00 m²")
	p.run(`() => history.back()`)
	p.rest()
	same(p, "link after going back", p.link(), "room=5000x4000&block=70x350")
	p.see(".facts", "20.00 m²")
	same(p, "Width after going back", p.value("Width"), "5000")
	p.run(`() => history.back()`)
	p.rest()
	p.see(".facts", "15.12 m²")
	p.run(`() => history.go(2)`)
	p.rest()
	p.see(".facts", "24.00 m²")
	p.do(chromedp.Reload())
	p.ready()
	same(p, "link after reloading", p.link(), "room=6000x4000&block=70x350")
	p.see(".facts", "24.00 m²")
}

func TestQueryBecomesFragment(t *testing.T) {
	p := open(t, "?room=5000x4000&gap=10&block=70x350", desk)
	address := eval[string](p, `() => location.href`)
	same(p, "address", address, p.h.origin+"/#room=5000x4000&gap=10&block=70x350")
	p.see(".facts", "20.00 m²")
}

func TestFaultyLink(t *testing.T) {
	p := open(t, "#room=5000x4000&block=70xlong&strands=7&bolck=1&gap=12", desk)
	p.see("#notes", "bolck")    // unknown keys
	p.see("#notes", "block is") // faulty keys of another stage
	p.see("#notes", "strands is")
	p.see(".facts", "20.00 m²") // the rest opens
	// Field: (5000 - 2*12) * (4000 - 2*12) mm².
	p.see(".facts", "19.78 m²")
	p.typeInto("Width", "6000")
	link := p.link()
	same(p, "link", link, "room=6000x4000&block=70xlong&strands=7&bolck=1&gap=12")
	p.click("Choose")
	if !p.shown("#problem-key-strands") || !p.shown("#problem-key-block") {
		t.Error("the stage of a faulty key says nothing of it")
	}
	p.click("Double")
	same(p, "strands", p.key("strands"), "2")
	if p.shown("#problem-key-strands") {
		t.Error("a fault that is put right is still shown")
	}
}

func TestCopyLink(t *testing.T) {
	for _, s := range []screen{phone, desk} {
		p := open(t, "#room=4200x3600&block=70x350", s)
		for _, name := range []string{"clipboard-read", "clipboard-write"} {
			if _, err := chromedp.CallBrowser(p.ctx, browser.SetPermission, browser.SetPermissionParams{
				Permission: &browser.PermissionDescriptor{Name: name}, Setting: browser.PermissionSettingGranted}); err != nil {
				t.Fatal(err)
			}
		}
		p.click("Share")
		p.wait("the page to say so", `() => person.text('#copied') === 'Link copied'`)
		same(p, "clipboard", eval[string](p, `() => navigator.clipboard.readText()`), p.h.origin+"/#room=4200x3600&block=70x350")
		p.leave()
	}
}

// A long list of keys in any order opens as the same job.
func TestOrderOfKeysIsFree(t *testing.T) {
	pairs := strings.Split("unit=in&room=14ftx12ft&gap=1/2&border=5&block=3x15&strands=2&axis=5&shift=1,2&start=wall&stage=lay", "&")
	var counts []string
	for range 2 {
		p := open(t, "#"+strings.Join(pairs, "&"), desk)
		counts = append(counts, p.text(".counts"))
		if u, err := url.Parse(eval[string](p, `() => location.href`)); err != nil || u.EscapedFragment() != strings.Join(pairs, "&") {
			t.Errorf("address %v, %v", u, err)
		}
		p.leave()
		slices.Reverse(pairs)
	}
	if counts[0] != counts[1] {
		t.Errorf("%q in one order, %q in the other", counts[0], counts[1])
	}
}
