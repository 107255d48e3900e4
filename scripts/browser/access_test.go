package browser

import (
	"encoding/json"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
)

// stages is the stages of the work as they are called on the page.
var stages = []string{"Measure", "Choose", "Strike", "Lay"}

// Everything that can be used has a name that a screen reader can say, as the
// browser itself works it out.
func TestNames(t *testing.T) {
	for _, room := range []string{"room=4200x3600&unit=in", "room=0,0;4200,0;4200,3600;0,3600&hole=500,500;900,500;900,900&pattern=chevron"} {
		p := open(t, "#"+room, phone)
		for _, stage := range stages {
			p.click(stage)
			tree := must(p, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
			count := 0
			for _, node := range tree.Nodes {
				role, name := axText(node.Role), axText(node.Name)
				switch role {
				case "button", "textbox", "radio", "checkbox", "combobox", "slider", "link", "DisclosureTriangle", "dialog", "group", "radiogroup", "navigation", "main", "image":
					if node.Ignored {
						continue
					}
					count++
					if name == "" && role != "group" && role != "radiogroup" {
						t.Errorf("%s, %s: a %s has no name", room, stage, role)
					}
				}
			}
			if count < 10 {
				t.Errorf("%s: only %d things to use", stage, count)
			}
		}
		p.leave()
	}
}

func axText(v *accessibility.Value) string {
	if v == nil {
		return ""
	}
	var s string
	json.Unmarshal(v.Value, &s)
	return s
}

// Text stands out from what it is written on by 4.5 to 1, large text by 3 to
// 1 (WCAG 2.2, success criterion 1.4.3). Buttons that cannot be pressed are
// exempt there.
const contrast = `() => {
	const board = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
	const rgba = (colour) => {
		board.clearRect(0, 0, 1, 1);
		board.fillStyle = colour;
		board.fillRect(0, 0, 1, 1);
		const d = board.getImageData(0, 0, 1, 1).data;
		return [d[0], d[1], d[2], d[3] / 255];
	};
	const over = (a, b) => [0, 1, 2].map((i) => a[i] * a[3] + b[i] * (1 - a[3])).concat(1);
	const light = (c) => {
		const l = c.slice(0, 3).map((v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; });
		return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
	};
	const faults = [];
	let count = 0;
	const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let node; node = walker.nextNode();) {
		const e = node.parentElement;
		if (!node.textContent.trim() || !person.seen(e) || e.closest(':disabled, .visually-hidden, .skip, noscript, script')) continue;
		const layers = [];
		let opacity = 1;
		for (let p = e; p; p = p.parentElement) {
			const s = getComputedStyle(p);
			layers.push(rgba(s.backgroundColor));
			opacity *= parseFloat(s.opacity);
		}
		let ground = [255, 255, 255, 1];
		for (const l of layers.reverse()) ground = over(l, ground);
		const s = getComputedStyle(e);
		const ink = rgba(e instanceof SVGElement ? s.fill : s.color);
		ink[3] *= opacity;
		const a = light(over(ink, ground)), b = light(ground);
		const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
		const size = parseFloat(s.fontSize), large = size >= 24 || size >= 18.66 && +s.fontWeight >= 700;
		count++;
		if (ratio < (large ? 3 : 4.5)) faults.push(ratio.toFixed(2) + ' "' + person.tidy(node.textContent).slice(0, 40) + '" in ' + e.tagName + '.' + (e.getAttribute('class') || ''));
	}
	if (count < 20) faults.push('only ' + count + ' texts were looked at');
	return faults;
}`

func TestContrast(t *testing.T) {
	p := open(t, "#room=4200x3600&bolck=1&gap=9000&block=80x350&laid=20", phone)
	for _, dark := range []bool{false, true} {
		for _, on := range []screen{phone, desk} {
			on.dark = dark
			p.look(on)
			for _, stage := range stages {
				p.click(stage)
				p.run(`() => { for (const d of document.querySelectorAll('details')) d.open = true; }`)
				p.run(`() => new Promise((r) => setTimeout(r, 200))`) // colours change over 160 ms
				for _, fault := range eval[[]string](p, contrast) {
					t.Errorf("dark %v, %d wide, %s: %s", dark, on.wide, stage, fault)
				}
			}
		}
	}
}

// A thumb needs 44 px.
func TestTargets(t *testing.T) {
	p := open(t, "#room=0,0;4200,0;4200,3600;0,3600&hole=500,500;900,500;900,900&block=80x350&unit=in", phone)
	for _, stage := range stages {
		p.click(stage)
		faults := eval[[]string](p, `() => person.all().filter((e) => !e.matches('.skip')).map((e) => {
			const box = e.type === 'radio' || e.type === 'checkbox' ? e.nextElementSibling : e, r = box.getBoundingClientRect();
			return r.height < 43.9 || r.width < 43.9 ? person.name(e) + ': ' + r.width.toFixed(0) + ' x ' + r.height.toFixed(0) : '';
		}).filter((s) => s)`)
		for _, fault := range faults {
			t.Errorf("%s: %s px", stage, fault)
		}
	}
}

// Nothing has to be scrolled sideways, on a narrow phone and with text of
// twice the size (WCAG 2.2, success criteria 1.4.4 and 1.4.10).
func TestNothingIsWiderThanTheWindow(t *testing.T) {
	p := open(t, "#room=0,0;4200,0;4200,3600;0,3600&hole=500,500;900,500;900,900&block=2-1/4inx13-7/16in&unit=in&fraction=64&bolck=1", phone)
	for _, tt := range []struct {
		on   screen
		text string
	}{{phone, "100%"}, {screen{wide: 320, high: 640, touch: true}, "100%"}, {phone, "200%"}, {tablet, "200%"}, {desk, "200%"},
		{screen{wide: 720, high: 450}, "100%"}, {screen{wide: 844, high: 390, touch: true}, "100%"}} {
		p.look(tt.on)
		p.run(`(size) => { document.documentElement.style.fontSize = size; }`, tt.text)
		for i, stage := range stages {
			p.keys(string(rune('1' + i)))
			same(p, "title", p.text("#stage-title"), stage)
			p.run(`() => { for (const d of document.querySelectorAll('details')) d.open = true; }`)
			faults := eval[[]string](p, `() => {
				const out = [];
				for (const s of ['html', '#stage']) {
					const e = document.querySelector(s);
					if (e.scrollWidth > e.clientWidth + 1) out.push(s + ' is ' + e.scrollWidth + ' wide, its window ' + e.clientWidth);
				}
				for (const e of document.querySelectorAll('body *')) {
					if (!person.seen(e) || e.closest('svg, .visually-hidden, .skip, section > table, .desk table')) continue; // tables may slide
					const r = e.getBoundingClientRect();
					if (r.right > innerWidth + 1 || r.left < -1) out.push(e.tagName + '.' + (e.getAttribute('class') || '') + ' "' + person.tidy(e.textContent).slice(0, 30) + '" from ' + r.left.toFixed(0) + ' to ' + r.right.toFixed(0));
				}
				return out.slice(0, 4);
			}`)
			for _, fault := range faults {
				t.Errorf("%d x %d, text at %s, %s: %s", tt.on.wide, tt.on.high, tt.text, stage, fault)
			}
			if b := p.box("#floor"); b.bottom-b.top < 120 {
				t.Errorf("%d x %d, text at %s, %s: the floor is only %.0f high", tt.on.wide, tt.on.high, tt.text, stage, b.bottom-b.top)
			}
		}
	}
}

// Nothing is drawn over anything else among what is read: no text runs out of
// its box.
func TestNoTextIsCut(t *testing.T) {
	p := open(t, "#"+demo+"&unit=in", phone)
	for _, on := range []screen{phone, tablet, desk} {
		p.look(on)
		for _, stage := range stages {
			p.click(stage)
			for _, fault := range eval[[]string](p, `() => [...document.querySelectorAll('button, .option > label, h1, h2, h3, .readout, select')].filter(person.seen)
				.filter((e) => e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 2)
				.map((e) => person.name(e) + ': ' + e.scrollWidth + ' x ' + e.scrollHeight + ' in ' + e.clientWidth + ' x ' + e.clientHeight)`) {
				t.Errorf("%d wide, %s: %s", on.wide, stage, fault)
			}
		}
	}
}
