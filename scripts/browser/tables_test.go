package browser

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// filled waits until the desk has filled a box for the link that is shown.
func (p *person) filled(box string) {
	p.t.Helper()
	p.wait("the desk to fill "+box, `(id) => { const e = document.getElementById(id); return !!e && e.getAttribute('aria-busy') === 'false' && e.childElementCount > 0; }`, "desk-"+box)
}

// row returns what is written in the row of a box whose first cell is called
// so, under a group's title if one is given, with the title, a cell after the
// other.
func (p *person) tableRow(box, name, group string) string {
	p.t.Helper()
	p.filled(box)
	return eval[string](p, `(id, name, group) => {
		let now = '';
		for (const r of document.querySelectorAll('#desk-' + id + ' tbody tr')) {
			if (r.matches('.set')) now = person.tidy(r.textContent);
			else if (person.tidy(r.cells[0].textContent) === name && (!group || group === now))
				return [...r.cells].slice(1).map((c) => person.tidy(c.textContent)).join(' | ');
		}
		return 'no row ' + name;
	}`, box, name, group)
}

// The numbers are worked out by hand beside wasm/tables' own tests: centre at
// 2100, 1800, spacing 24.749, interval 247.487.
func TestMarksTable(t *testing.T) {
	p := open(t, "#"+plain+"&stage=strike", phone)
	same(p, "centre line", p.tableRow("marks", "Centre line", ""), "AB from A 2100 mm | CD from C 2100 mm")
	same(p, "cross line", p.tableRow("marks", "Cross line", ""), "DA from D 1800 mm | BC from B 1800 mm")
	same(p, "left line of the spine", p.tableRow("marks", "left line", "Seam 0, the spine's"),
		"AB from A 2075 mm strong by 0.3 · 2075.25 mm | CD from C 2125 mm shy by 0.3 · 2124.75 mm")
	same(p, "right line of seam 1", p.tableRow("marks", "right line", "Seam 1"),
		"AB from A 2372 mm strong by 0.2 · 2372.24 mm | CD from C 1828 mm shy by 0.2 · 1827.76 mm")

	// Pressed, a line is shown on the plan; pressed again, no longer.
	shown := func() string {
		return eval[string](p, `() => document.getElementById('overlay-now').getAttribute('d') || ''`)
	}
	same(p, "shown at first", shown(), "")
	p.click("Show on the plan: Centre line")
	same(p, "shown", shown(), "M2100 0L2100 -3600")
	p.click("Show on the plan: Cross line")
	same(p, "shown", shown(), "M0 -1800L4200 -1800")
	same(p, "lines pressed", eval[int](p, `() => document.querySelectorAll('.line[aria-pressed=true]').length`), 1)
	// It is seen in the crayon's red on the floor.
	same(p, "its colour", eval[string](p, `() => getComputedStyle(document.getElementById('overlay-now')).stroke`), "rgb(178, 58, 46)")
	p.click("Show on the plan: Cross line")
	same(p, "shown after a second press", shown(), "")
	p.click("Show on the plan: Seam 0, the spine's, left line")
	p.click("Lay")
	same(p, "shown on another stage", shown(), "")

	// The list goes on over leaves: 42 lines, pairs kept together.
	p.click("Strike")
	p.filled("marks")
	p.click("Sheets")
	p.click("Back to the stage")
	p.filled("marks") // again, after the sheets stood in its place
	p.see("#desk-marks .leaves", "1 to 38 of 42")
	p.click("After", "#desk-marks")
	p.comes("#desk-marks .leaves", "39 to 42 of 42")
	same(p, "border line", p.tableRow("marks", "AB", "Border line"),
		"AB from A 112 mm off the wall 112 mm | AB from A 4088 mm off the wall 112 mm")
	p.click("Before", "#desk-marks")
	p.comes("#desk-marks .leaves", "1 to 38 of 42")

	// A change is followed: with the centre 10 to the right.
	p.typeInto("to the right", "2110")
	p.typeInto("away from you", "1800")
	p.until("the mark to move", func() bool {
		return p.tableRow("marks", "Centre line", "") == "AB from A 2110 mm | CD from C 2090 mm"
	})
}

func TestMarksTableInInches(t *testing.T) {
	// 14 ft: the middle at 7 ft; spacing 2.25 √2 / 4 = 0.7955 in, so 84 -
	// 0.7955 = 83.2045 in, which is 6 ft 11-3/16 and 0.017 more.
	p := open(t, "#unit=in&room=14ftx12ft&block=2-1/4x9&stage=strike", desk)
	p.filled("marks")
	row := p.tableRow("marks", "left line", "Seam 0, the spine's")
	if want := "AB from A 6 ft 11-3/16 in"; !strings.HasPrefix(row, want) || !strings.Contains(row, "strong by 0.017 · 83.205 in") {
		t.Errorf("the left line reads %q, want %q and strong by 0.017", row, want)
	}
	// The fraction is stacked.
	same(p, "fraction", eval[string](p, `() => {
		const f = document.querySelector('#desk-marks .frac');
		const n = f.querySelector('.num').getBoundingClientRect(), d = f.querySelector('.den').getBoundingClientRect();
		return n.bottom <= d.top + 1 && Math.abs((n.left + n.right) - (d.left + d.right)) < 2 ? 'stacked' : 'not stacked';
	}`), "stacked")
}

func TestTrammelAndBaseLines(t *testing.T) {
	p := open(t, "#"+plain+"&door=AB:1200,800,hall&stage=strike", desk)
	same(p, "interval", p.tableRow("trammel", "Interval", ""), "247 mm strong by 0.5 · 247.49 mm | 16 | 7.8 mm")
	// 0.8 * (1 + 2*2100/3600) and 0.8 * (1 + 2*3600/800).
	same(p, "longest base", p.tableRow("trammel", "Longest line: the centre line", ""), "3600 mm | 2100 mm | 1.7 mm")
	same(p, "doorway", p.tableRow("trammel", "hall", ""), "800 mm | 3600 mm | 8 mm")
	p.typeInto("Error of one mark", "1.6")
	same(p, "mark", p.key("mark"), "1.6")
	p.until("the run-out to double", func() bool { return p.tableRow("trammel", "hall", "") == "800 mm | 3600 mm | 16 mm" })
	p.typeInto("Error of one mark", "x")
	if !p.shown("#problem-mark") {
		t.Error("nothing is said of a mark that is no length")
	}
	same(p, "mark", p.key("mark"), "1.6")
	p.typeInto("Error of one mark", "")
	same(p, "mark", p.key("mark"), "")
}

func TestLeftoversAndPlacings(t *testing.T) {
	p := open(t, "#room=0,0;4200,0;4180,3600;0,3600&block=70x350&stage=strike", desk)
	// The right wall comes in by 20 over its length.
	if row := p.tableRow("leftovers", "BC right", ""); !strings.HasSuffix(row, "| −20 mm") {
		t.Errorf("the right wall: %s", row)
	}
	few := p.tableRow("leftovers", "Slivers", "")
	p.typeInto("Sliver: narrower than", "100")
	same(p, "sliver", p.key("sliver"), "100")
	p.until("more slivers", func() bool { return p.tableRow("leftovers", "Slivers", "") != few })
	p.typeInto("Sliver: narrower than", "")
	p.filled("leftovers")
	p.click("Take: Strand on the centre line, ends one way")
	same(p, "shift", strings.HasPrefix(p.key("shift"), "123.743"), true)
	p.wait("the placing to be shown as taken", `() => person.one('#take-2').getAttribute('aria-pressed') === 'true'`)
	// The keyboard stays where it was.
	same(p, "focus", eval[string](p, `() => document.activeElement.id`), "take-2")
}

func TestStartingBlockTable(t *testing.T) {
	p := open(t, "#"+plain+"&stage=strike", phone)
	p.comes("#desk-start", "Side350 mm")
	p.comes("#desk-start", "Point to point495 mm") // 350 √2 = 494.97
	p.comes("#desk-start", "from AB, which the line meets 2125 mm from A")
	p.click("Near the wall")
	p.comes("#desk-start", "after 11 blocks in each of the two strands, 22 in all")
}

func TestCentreLineFrom(t *testing.T) {
	p := open(t, "#room=0,0;4200,0;4180,3600;0,3600&door=AB:1200,800&hole=500,500;900,500;900,900&block=70x350&stage=strike", desk)
	p.allows("NavigationEntryMarkedSkippable") // a list is chosen from without a real click
	p.choose("Centre line", "Midway between two walls")
	// What it starts with are the walls on both sides.
	same(p, "line", p.key("line"), "midway:DA:BC")
	p.choose("Wall", "AB")
	p.choose("Other wall", "CD")
	same(p, "line", p.key("line"), "midway:AB:CD")
	p.choose("Other wall", "AB")
	if !p.shown("#problem-key-line") {
		t.Error("nothing is said of a line midway between a wall and itself")
	}
	same(p, "line", p.key("line"), "midway:AB:CD")
	p.choose("Centre line", "Square to a wall, at its middle")
	p.choose("Wall", "AB")
	same(p, "line", p.key("line"), "wall:AB")
	// The middle of AB.
	p.until("the centre line to move", func() bool { return strings.HasPrefix(p.tableRow("marks", "Centre line", ""), "AB from A 2100 mm |") })
	p.choose("Centre line", "Square to a wall, through the centre point")
	same(p, "line", p.key("line"), "square:AB")
	p.choose("Centre line", "Through a doorway's middle")
	same(p, "line", p.key("line"), "door:1")
	p.until("the centre line to move", func() bool { return strings.HasPrefix(p.tableRow("marks", "Centre line", ""), "AB from A 1600 mm |") })
	p.choose("Doorway", "Doorway 1")
	p.choose("Centre line", "Through the middle of a hearth or column")
	same(p, "line", p.key("line"), "hole:1")
	p.choose("Hearth or column", "Hole 1")
	p.choose("Centre line", "Through two points")
	p.typeInto("First point", "2000, 0")
	p.typeInto("Second point", "2000,3 m")
	same(p, "line", p.key("line"), "through:2000,0:2000,3m")
	p.until("the centre line to move", func() bool { return strings.HasPrefix(p.tableRow("marks", "Centre line", ""), "AB from A 2000 mm |") })
	p.choose("Centre line", "By centre point and turn")
	same(p, "line", p.key("line"), "")
}

func TestRowsTable(t *testing.T) {
	p := open(t, "#"+plain+"&stage=lay&laid=0", phone)
	p.filled("rows")
	// The spine's last tip is 17 steps on: 1800 - 24.749 + 17 * 98.995 =
	// 3458.17; its outer seams lie 2100 - 247.487 from both walls.
	p.see("#row-1", "last tip to CD142 mm shy by 0.2")
	p.see("#row-1", "seam to DA1853 mm at both")
	// Ticked, and kept on this device.
	p.clickOn(`[data-tick="row-2"]`)
	if !eval[bool](p, `() => person.one('[data-tick="row-2"]').checked`) {
		t.Fatal("the tick is not set")
	}
	p.do(chromedp.Reload())
	p.ready()
	p.filled("rows")
	ticked := func() string {
		return eval[string](p, `() => [...document.querySelectorAll('[data-tick]')].filter((e) => e.checked).map((e) => e.dataset.tick).join(' ')`)
	}
	same(p, "ticked after reloading", ticked(), "row-2")
	p.clickOn(`[data-tick="row-2"]`)
	same(p, "ticked", ticked(), "")
	// The row that is laid is marked, also when the list comes later.
	p.clickOn(`[data-do="step-row"][data-arg="1"]`)
	p.wait("row 1 to be marked", `() => person.one('#row-1').getAttribute('aria-current') === 'true'`)
	p.visit("#" + p.link())
	p.ready()
	p.filled("rows")
	p.wait("row 1 to be marked", `() => person.one('#row-1').getAttribute('aria-current') === 'true'`)
	p.clickOn("#row-3 button")
	p.wait("row 3 to be marked", `() => person.one('#row-3').getAttribute('aria-current') === 'true' && document.querySelectorAll('.rows [aria-current]').length === 1`)
	// The strips come last: along AB 4200 - 24, at the field 200 less.
	same(p, "strip", strings.HasPrefix(p.tableRow("rows", "1 AB", ""), "4176 mm | 3976 mm | 45.0°, 45.0°"), true)
	p.clickOn(`[data-tick="strip-1"]`)
	same(p, "ticked", ticked(), "strip-1")
	p.clickOn(`[data-tick="strip-1"]`)
}

// The leaf of rows follows the laying.
func TestRowsFollowTheLaying(t *testing.T) {
	p := open(t, "#room=12000x3000&block=70x350&stage=lay&paint=canvas&laid=0&speed=600", desk)
	p.filled("rows")
	same(p, "first row", p.text(".rows tbody th"), "1")
	p.click("Play")
	p.wait("the second leaf", `() => person.text('.rows tbody th') === '41'`)
	p.click("Pause")
}

func TestCutsTable(t *testing.T) {
	p := open(t, "#"+plain+"&stage=lay", desk)
	p.filled("cuts")
	p.see("#desk-cuts", "45.0° off square. Keep the ")
	pieces := func() (n int) {
		for _, s := range eval[[]string](p, `() => [...document.querySelectorAll('.cuts li > div:first-child b')].map((e) => e.textContent)`) {
			k, err := strconv.Atoi(strings.TrimSuffix(s, " ×"))
			if err != nil {
				t.Errorf("%q is no count", s)
			}
			n += k
		}
		return n
	}
	kinds := func() int { return eval[int](p, `() => document.querySelectorAll('.cuts li').length`) }
	// The counts above are told on their own.
	all := eval[int](p, `() => +person.one('.counts > :nth-child(3) .readout').textContent`)
	if leaves := eval[int](p, `() => document.querySelectorAll('#desk-cuts .leaves').length`); leaves == 0 {
		same(p, "pieces of all kinds", pieces(), all)
	}
	few := kinds()
	p.typeInto("Alike within", "40")
	same(p, "same", p.key("same"), "40")
	p.until("fewer kinds", func() bool { return kinds() < few })
	same(p, "pieces of all kinds", pieces(), all)
	p.typeInto("Alike within", "")
	p.leave()

	// Out of square nearly every piece is of its own kind: leaf by leaf.
	p = open(t, "#unit=in&room=0,0;14ft,0;13ft11in,12ft;0,12ft&block=2-1/4x9&axis=1&stage=lay", phone)
	p.filled("cuts")
	same(p, "first", p.text(".cuts h4"), "A")
	sum := pieces()
	for range 40 {
		if eval[bool](p, `() => person.one('#cuts-after').disabled`) {
			break
		}
		before := p.text("#desk-cuts .leaves span")
		p.click("After", "#desk-cuts")
		p.wait("the next leaf", `(before) => person.text('#desk-cuts .leaves span') !== before`, before)
		sum += pieces()
	}
	same(p, "pieces over all leaves", sum, eval[int](p, `() => +person.one('.counts > :nth-child(3) .readout').textContent`))
}

// Nothing has to be scrolled sideways once the desk has filled its boxes.
func TestTablesFit(t *testing.T) {
	for _, on := range []screen{phone, desk, {wide: 320, high: 640, touch: true}} {
		for _, unit := range []string{"mm", "in&fraction=64"} {
			for _, stage := range []string{"strike", "lay"} {
				p := open(t, "#room=0,0;4200mm,0;4180mm,3600mm;0,3600mm&gap=12mm&border=100mm&block=70mmx350mm&door=AB:1200mm,800mm,hall&unit="+unit+"&stage="+stage, on)
				boxes := map[string][]string{"strike": {"leftovers", "start", "marks", "trammel"}, "lay": {"rows", "cuts"}}[stage]
				for _, box := range boxes {
					p.filled(box)
				}
				for _, fault := range eval[[]string](p, `() => {
					const out = [];
					for (const e of [document.documentElement, document.querySelector('#stage'), ...document.querySelectorAll('.desk')])
						if (e.scrollWidth > e.clientWidth + 1) out.push((e.id || e.tagName) + ' is ' + e.scrollWidth + ' wide, its window ' + e.clientWidth);
					return out;
				}`) {
					if on.wide >= 390 || !strings.HasPrefix(fault, "desk-") { // on the narrowest phones a table slides in its box
						t.Errorf("%d wide, %s, %s: %s", on.wide, unit, stage, fault)
					}
				}
				for _, fault := range eval[[]string](p, contrast) {
					t.Errorf("%d wide, %s, %s: %s", on.wide, unit, stage, fault)
				}
				for _, box := range boxes {
					if *shots {
						p.run(`(id) => { document.getElementById(id).scrollIntoView({ block: 'start', behavior: 'instant' }); }`, "desk-"+box)
						p.rest()
						p.shot(strconv.FormatInt(on.wide, 10) + " " + box + " " + unit[:2])
					}
				}
				p.leave()
			}
		}
	}
}
