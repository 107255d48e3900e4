package browser

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// shown is a small floor on its own; without a graphics card every pixel of it
// is the processor's.
const shown = "room=4200x3600&border=110&block=70x350&paint=webgl&face=show"

var small8 = screen{wide: 480, high: 640, touch: true}

// showFilled waits until the controls of the open panel are there.
func (p *person) showFilled() {
	p.t.Helper()
	p.wait("the controls", `() => {
		const e = document.getElementById('desk-show');
		return e.dataset.shows && e.dataset.shows.startsWith(e.dataset.wants + ' ') && e.textContent !== '' && e.getAttribute('aria-busy') === 'false';
	}`)
	p.rest()
}

func (p *person) panel(name string) {
	p.t.Helper()
	p.click(name, ".show-strip")
	p.showFilled()
}

// pressedOnes returns what is chosen, as keys with their values.
func (p *person) pressedOnes() string {
	p.t.Helper()
	return eval[string](p, `() => [...document.querySelectorAll('#face [data-do="dress"][aria-pressed="true"]')].map((e) => e.dataset.arg).join(' ')`)
}

// TestShowShots puts pictures of the face into artefacts/, for people to look
// at.
func TestShowShots(t *testing.T) {
	if !*shots {
		t.Skip("run with -shots")
	}
	for _, s := range []struct {
		name string
		on   screen
	}{{"390", phone}, {"768", tablet}, {"1440", desk}, {"dark", screen{wide: 768, high: 1024, touch: true, dark: true}}} {
		p := open(t, "#"+demo+"&paint=webgl&face=show", s.on)
		p.shot("show " + s.name + " plan")
		for _, panel := range []string{"Wood", "Light", "View", "Compare", "Take away"} {
			p.panel(panel)
			p.shot("show " + s.name + " " + panel)
		}
		p.click("Keep")
		p.shot("show " + s.name + " kept")
		p.run(`() => { localStorage.clear(); }`)
		p.leave()
		p = open(t, "#"+demo+"&paint=webgl&face=show&view=standing&wood=walnut&light=day:16", s.on)
		p.shot("show " + s.name + " standing")
		p.leave()
		p = open(t, "#"+demo+"&paint=webgl&face=show&beside=wood%3Dwalnut%26block%3D120x720", s.on)
		p.beside()
		p.shot("show " + s.name + " beside")
		p.leave()
	}
}

func (p *person) beside() {
	p.t.Helper()
	p.wait("the second floor", `() => !document.getElementById('show-divider').hidden && !!document.querySelector('#beside canvas')`)
	p.rest()
}

// jargon is what a client need not know. Beside it there are no numbers.
var jargon = regexp.MustCompile(`(?i)\b(seams?|strands?|mitres?|mitred|intervals?|spacing|kerf|tips?|spines?|axis|infill|hand|joints?|grade|bevel\w*|step|field|species|webgl|canvas|render\w*|shader)\b|[0-9]`)

// Everything there is to press does something, says in the link what, has room
// for a finger and a word that a client knows.
func TestShowControls(t *testing.T) {
	p := open(t, "#room=4200x3600&border=110&block=70x350&paint=canvas&stage=choose", small8)
	p.allows("NavigationEntryMarkedSkippable")
	p.click("Show")
	same(p, "face after one touch", p.key("face"), "show")
	whole := p.box("#floor")
	if whole.left != 0 || whole.top != 0 || whole.right != 480 || whole.bottom != 640 {
		t.Errorf("the floor is at %v of a window of 480 by 640", whole)
	}
	look := func(where string) {
		t.Helper()
		for _, fault := range eval[[]string](p, `() => [...document.querySelectorAll('#face button, #face input')].filter(person.seen).flatMap((e) => {
			const r = e.getBoundingClientRect();
			return r.height < 44 || r.width < 44 ? [person.name(e) + ' is ' + r.width + ' by ' + r.height] : [];
		})`) {
			t.Errorf("%s: %s", where, fault)
		}
		text := eval[string](p, `() => document.querySelector('#face').innerText + ' ' + [...document.querySelectorAll('#face [aria-label]')].filter(person.seen).map((e) => e.closest('.show-choice') ? '' : e.getAttribute('aria-label')).join(' ')`)
		if found := jargon.FindAllString(text, -1); len(found) > 0 {
			t.Errorf("%s has %q in %q", where, found, text)
		}
	}
	look("the strip")
	for _, panel := range []string{"Wood", "Light"} {
		p.panel(panel)
		look(panel)
		for _, arg := range eval[[]string](p, `() => [...document.querySelectorAll('#desk-show [data-do="dress"], #desk-show [data-do="light-window"]')].map((e) => e.dataset.arg)`) {
			p.clickOn(`#desk-show [data-arg="` + arg + `"]`)
			key, value, set := strings.Cut(arg, "=")
			if !set { // a wall that had no window
				p.showFilled()
				if window := p.key("window"); !strings.HasPrefix(window, arg+":") && !strings.Contains(p.link(), "window="+arg+":") {
					t.Errorf("wall %s has no window in %s", arg, p.link())
				}
				continue
			}
			want := map[string]string{"wood=oak": "", "borderwood=same": "", "grade=mixed": "", "tone=natural": "", "finish=oiled": "",
				"edge=bevelled": "", "joint=natural": "", "light=sun:305,32": ""}
			if d, is := want[arg]; is {
				value = d
			}
			same(p, arg, p.key(key), value)
			if !strings.Contains(" "+p.pressedOnes()+" ", " "+arg+" ") {
				t.Errorf("%s is not pressed: %s", arg, p.pressedOnes())
			}
		}
	}
	for _, s := range [][3]string{{"hour", "15.5", "day:15.5"}, {"direction", "90", "sun:90,32"}, {"height", "20", "sun:90,20"}} {
		name, value, want := s[0], s[1], s[2]
		p.run(`(name, value) => { const e = person.one('[data-slide="' + name + '"]'); e.value = value; e.dispatchEvent(new Event('input', { bubbles: true })); }`, name, value)
		same(p, "light by the slider "+name, p.key("light"), want)
	}
	p.click("Play a day")
	p.wait("the sun to have moved", `() => +person.one('[data-slide="hour"]').value > 6.2`)
	p.click("The sun")
	same(p, "light after the day was stopped", p.key("light"), "")
	for _, panel := range []string{"View", "Compare", "Take away"} {
		p.panel(panel)
		look(panel)
	}
	p.click("Take away", ".show-strip")
	same(p, "panel is shut", p.shown(".show-panel"), false)
	p.click("Play")
	p.wait("the floor to grow", `() => !!document.querySelector('.show-strip [data-do="pause"]')`)
	p.click("Stop")
	if n, all := p.laid(); n >= all {
		t.Errorf("%d of %d are laid after the start", n, all)
	}
	// A touch on the picture puts everything away, and another brings it back.
	p.press(240, 200)
	same(p, "strip", p.shown(".show-strip"), false)
	p.press(240, 200)
	same(p, "strip", p.shown(".show-strip"), true)
	p.press(240, 200)
	p.click("Controls")
	same(p, "strip", p.shown(".show-strip"), true)
	p.click("Back")
	same(p, "face", p.key("face"), "")
	p.do(chromedp.Evaluate[chromedp.Void](`history.back()`))
	p.wait("the way back", `() => person.one('#app').dataset.face === 'show'`)
}

// A link to any of it opens as it was left.
func TestShowOpensFromALink(t *testing.T) {
	p := open(t, "#room=4200x3600&border=110&block=70x350&window=BC:900,1200,850,1300,garden&paint=webgl&face=show&wood=ash&borderwood=wenge&grade=calm&finish=lacquered&tone=smoked&edge=square&joint=dark"+
		"&light=window:1&view=standing&eye=900,800,1500&looking=40,25", small8)
	link := p.link()
	p.panel("Wood")
	same(p, "chosen", p.pressedOnes(), "wood=ash grade=calm tone=smoked finish=lacquered edge=square joint=dark borderwood=wenge")
	p.panel("Light")
	same(p, "light", p.pressedOnes(), "light=window:1")
	p.see("#desk-show", "garden")
	p.panel("View")
	same(p, "view", p.pressedOnes(), "view=standing")
	same(p, "the link", p.link(), link)
	// A step ahead from where the link stands: 200 mm towards 40 degrees
	// clockwise from +y are 129 to the right and 153 on.
	p.keys(kb.ArrowUp)
	p.wait("the step", `() => location.hash.includes('eye=1029mm,953mm,1500mm')`)
	same(p, "looking", p.key("looking"), "40,25")
}

// The two hands answer the light differently; a quarter turn of the pattern in
// the same light changes which of them is the lighter.
func TestShowTurnSwapsTheBands(t *testing.T) {
	p := open(t, "#room=4200x4200&block=70x350&paint=webgl&face=show&grade=calm&joint=natural&light=sun:315,20", small8)
	p.allows("NavigationEntryMarkedSkippable")
	difference := func(turned bool) float64 {
		var left, right [][2]float64
		for i := -8; i <= 7; i++ {
			for strand, list := range []*[][2]float64{&right, &left} {
				x, y := middle(strand-1, i, 70, 350, 0, 0)
				if turned {
					x, y = -y, x
				}
				x, y = p.place(2100+x, 2100+y)
				*list = append(*list, [2]float64{x, y})
			}
		}
		pic := p.floor()
		l, woodL := mean(pic, left)
		r, woodR := mean(pic, right)
		if woodL+woodR < len(left)+len(right) {
			t.Errorf("turned %v: %d of %d blocks are wood", turned, woodL+woodR, len(left)+len(right))
		}
		return l - r
	}
	before := difference(false)
	p.panel("View")
	p.click("Turn the pattern")
	same(p, "axis", p.key("axis"), "90")
	p.rest()
	after := difference(true)
	t.Logf("left-hand blocks are lighter by %.1f, and after the turn by %.1f", before, after)
	if !(before*after < 0 && max(before, -before) > 8 && max(after, -after) > 8) {
		t.Errorf("left-hand blocks are lighter by %.1f, and after the turn by %.1f", before, after)
	}
	p.keys("t")
	same(p, "axis", p.key("axis"), "180")
}

func TestShowWalksIn(t *testing.T) {
	p := open(t, "#"+shown, screen{wide: 480, high: 640})
	p.allows("NavigationEntryMarkedSkippable")
	p.panel("View")
	same(p, "where one stands is seen", eval[bool](p, `() => document.getElementById('show-stand').classList.contains('there')`), true)
	x, y := p.place(1500, 1200)
	tox, toy := p.place(2300, 1200)
	p.drag(x, y, tox, toy) // to the right
	p.wait("the place", `() => location.hash.includes('eye=') && location.hash.includes('looking=90,')`)
	var ex, ey float64
	if _, err := fmt.Sscanf(strings.ReplaceAll(p.key("eye"), "mm", ""), "%f,%f", &ex, &ey); err != nil {
		t.Error(err)
	}
	near(p, "eye x", ex, 1500, 15)
	near(p, "eye y", ey, 1200, 15)
	plan := p.floor()
	p.click("Walk in")
	same(p, "view", p.key("view"), "standing")
	p.wait("the way in", `() => person.one('#app').dataset.standing === 'true'`)
	p.run(`() => new Promise((r) => setTimeout(r, 2500))`)
	p.keys("h")
	room := p.floor()
	if *shots {
		p.shot("show walks in")
	}
	p.keys("h")
	if d := plan.at(240, 60, 4).apart(room.at(240, 60, 4)); d < 4 {
		t.Errorf("the picture over the horizon differs by %.1f only", d)
	}
	if !room.at(100, 600, 3).wooden() {
		t.Error("there is no wood before one's feet")
	}
	// Dragging the picture to the right looks to the left; 84 degrees go from
	// corner to corner, 800 pixels apart: 100 pixels are 10.5 degrees.
	p.drag(200, 60, 300, 60)
	p.wait("the look round", `() => location.hash.includes('looking=79.5,')`)
	from := p.key("eye")
	p.wheel(240, 60, -200)
	p.wait("steps ahead", `(from) => !location.hash.includes('eye=' + from)`, from)
	p.keys(kb.ArrowLeft)
	p.wait("the look to the left", `() => location.hash.includes('looking=74.5,')`)
	down := p.key("looking")
	p.keys(kb.PageDown)
	p.wait("the look down", `(d) => !location.hash.includes('looking=' + d)`, down)
	p.click("From above")
	same(p, "view", p.key("view"), "")
	p.keys("v")
	same(p, "view by its key", p.key("view"), "standing")
	p.keys("h")
	same(p, "strip", p.shown(".show-strip"), false)
	p.keys("h")
	p.keys(kb.Escape)
	same(p, "panel after Escape", p.shown(".show-panel"), false)
	same(p, "face after Escape", p.key("face"), "show")
	p.keys(kb.Escape)
	same(p, "face", p.key("face"), "")
}

func TestShowCompares(t *testing.T) {
	p := open(t, "#"+shown+"&grade=calm", screen{wide: 480, high: 640})
	p.allows("NavigationEntryMarkedSkippable")
	p.panel("Compare")
	p.clickOn(`#desk-show [data-do="beside"][data-arg="wood=wenge"]`)
	same(p, "beside", p.key("beside"), "wood%3Dwenge")
	p.beside()
	lightAt := func(x float64) float64 {
		y := p.box("#overlay .wall").top + 80
		sum := 0.0
		pic := p.floor()
		for i := range 8 {
			sum += pic.at(x+float64(4*i), y, 3).light()
		}
		return sum / 8
	}
	if left, right := lightAt(120), lightAt(330); left < right+40 {
		t.Errorf("oak on the left is %.0f light, wenge on the right %.0f", left, right)
	}
	// The line is moved by the mouse and by keys.
	p.drag(240, 120, 400, 120)
	if right := lightAt(330); right < 90 {
		t.Errorf("with the line at 400 the floor at 330 is %.0f light", right)
	}
	p.run(`() => document.getElementById('show-divider').focus()`)
	now := eval[string](p, `() => document.getElementById('show-divider').getAttribute('aria-valuenow')`)
	p.keys(kb.ArrowLeft + kb.ArrowLeft)
	was, _ := strconv.Atoi(now)
	is, _ := strconv.Atoi(eval[string](p, `() => document.getElementById('show-divider').getAttribute('aria-valuenow')`))
	same(p, "the line by keys", was-is, 10)
	p.click("Change places")
	same(p, "wood", p.key("wood"), "wenge")
	same(p, "beside", p.key("beside"), "wood")
	p.click("Take the one on the right")
	same(p, "wood", p.key("wood"), "")
	same(p, "beside", p.key("beside"), "")
	// Everything else that may be beside.
	for _, arg := range eval[[]string](p, `() => [...document.querySelectorAll('#desk-show [data-do="beside"]')].map((e) => e.dataset.arg).filter((a) => !a.startsWith('wood='))`) {
		p.clickOn(`#desk-show [data-do="beside"][data-arg="` + arg + `"]`)
		p.beside()
		if p.key("beside") == "" {
			t.Errorf("nothing is beside for %s", arg)
		}
	}
	p.click("One floor again")
	same(p, "line", p.shown("#show-divider"), false)
	// What fits no room is said.
	p.run(`() => { location.hash += '&beside=border%3D3000'; }`)
	p.comes("#show-said", "does not fit")
}

func TestShowKeepsSix(t *testing.T) {
	p := open(t, "#"+shown, screen{wide: 480, high: 640})
	p.allows("NavigationEntryMarkedSkippable")
	p.panel("Wood")
	woods := []string{"oak", "ash", "walnut", "cherry", "teak", "larch"}
	for _, w := range woods {
		p.clickOn(`#desk-show [data-arg="wood=` + w + `"]`)
		p.click("Keep")
	}
	same(p, "kept", eval[int](p, `() => document.querySelectorAll('.show-choice').length`), 6)
	p.click("Keep")
	p.comes("#show-said", "Six choices are kept")
	p.click("Wood", ".show-strip") // shut
	p.click("Show kept choice 3")
	same(p, "wood", p.key("wood"), "walnut")
	p.click("Put kept choice 2 beside this one")
	p.beside()
	same(p, "beside", p.key("beside"), "wood%3Dash")
	p.click("Remove kept choice 1")
	p.comes("#show-said", "Removed")
	p.click("Put back")
	p.click("Show kept choice 1")
	same(p, "wood", p.key("wood"), "")
	p.click("Put kept choice 1 beside this one")
	p.comes("#show-said", "the same")
	p.do(chromedp.Reload())
	p.ready()
	same(p, "kept on the device", eval[int](p, `() => [...document.querySelectorAll('.show-choice img')].filter((e) => e.naturalWidth === 288).length`), 6)
	p.run(`() => { localStorage.clear(); }`)
	p.leave()

	// Without a store they last as long as the page.
	p = newPerson(t, screen{wide: 480, high: 640})
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('closed', 'SecurityError'); } });`})
	p.visit("#" + shown)
	p.ready()
	p.click("Keep")
	p.comes("#show-said", "keeps nothing")
	same(p, "kept", eval[int](p, `() => document.querySelectorAll('.show-choice').length`), 1)
}

// tool runs another program that has to be there.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skipf("%s is not on the path", name)
	}
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return string(out)
}

func TestShowTakesAway(t *testing.T) {
	p := open(t, "#"+shown+"&wood=cherry&speed=600", screen{wide: 480, high: 360})
	p.allows("NavigationEntryMarkedSkippable")
	dir := t.TempDir()
	must(p, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir})
	p.panel("Take away")
	take := func(label, name string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		_ = os.Remove(path)
		p.click(label)
		p.until(name+" to come down", func() bool { _, err := os.Stat(path); return err == nil })
		p.comes("#show-said", "downloads")
		return path
	}
	for _, size := range []struct {
		label      string
		wide, high int
	}{{"Picture", 480, 360}, {"Large picture", 3840, 2160}} {
		if size.wide > 1000 && !*measure {
			// Without a graphics card wood takes the processor minutes.
			p.run(`() => { location.hash = location.hash.replace('paint=webgl', 'paint=canvas'); }`)
			p.wait("the painter to change", `() => person.one('#floor').dataset.painter === 'canvas'`)
		}
		f, err := os.Open(take(size.label, "keelrow-floor.png"))
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		b := img.Bounds()
		if b.Dx() != size.wide || b.Dy() != size.high {
			t.Errorf("%s is %d by %d", size.label, b.Dx(), b.Dy())
		}
		wooden := 0
		for i := range 400 {
			r, g, bl, _ := img.At(b.Dx()*(40+i%20)/100, b.Dy()*(40+i/20)/100).RGBA()
			if (colour{float64(r >> 8), float64(g >> 8), float64(bl >> 8)}).wooden() {
				wooden++
			}
		}
		if wooden < 380 {
			t.Errorf("%s has wood at %d of 400 points", size.label, wooden)
		}
	}

	p.run(`() => { location.hash = location.hash.replace('paint=canvas', 'paint=webgl'); }`)
	p.wait("the painter to change", `() => person.one('#floor').dataset.painter === 'webgl'`)
	p.click("Video")
	var film string
	p.wait("the recording to begin", `() => person.text('#show-said').includes('Recording')`)
	for range 3 {
		if ok, _ := try[bool](p, `() => new Promise((r) => setTimeout(() => r(person.text('#show-said').includes('downloads')), 5000))`); ok {
			break
		}
	}
	p.comes("#show-said", "downloads")
	p.until("the film", func() bool {
		list, _ := filepath.Glob(filepath.Join(dir, "keelrow-floor.*"))
		for _, f := range list {
			if !strings.HasSuffix(f, ".png") && !strings.HasSuffix(f, "crdownload") {
				film = f
			}
		}
		return film != ""
	})
	var probe struct {
		Streams []struct {
			Width, Height int
			Frames        string `json:"nb_read_frames"`
		}
	}
	if err := json.Unmarshal([]byte(tool(t, "ffprobe", "-v", "error", "-count_frames", "-show_streams", "-of", "json", film)), &probe); err != nil || len(probe.Streams) != 1 {
		t.Fatalf("the film: %v, %+v", err, probe)
	}
	s := probe.Streams[0]
	frames, _ := strconv.Atoi(s.Frames)
	stamps := strings.Fields(tool(t, "ffprobe", "-v", "error", "-show_entries", "packet=pts_time", "-of", "csv=p=0", film))
	last, _ := strconv.ParseFloat(strings.Trim(stamps[len(stamps)-1], ","), 64)
	t.Logf("%s: %d frames in %.1f s", filepath.Base(film), frames, last)
	if s.Width != 1280 || s.Height != 720 || frames < 5 || last < 3 || last > 9 {
		t.Errorf("the film is %d by %d, %d frames, %.1f s long", s.Width, s.Height, frames, last)
	}

	// The code holds the link that is in the address bar.
	p.wait("the code", `() => !!document.querySelector('#show-code svg')`)
	p.run(`async () => {
		const svg = new XMLSerializer().serializeToString(document.querySelector('#show-code svg')).replace('<svg ', '<svg width="600" height="600" ');
		const img = new Image();
		img.src = 'data:image/svg+xml,' + encodeURIComponent(svg);
		await img.decode();
		const canvas = document.createElement('canvas');
		canvas.width = canvas.height = 600;
		canvas.getContext('2d').drawImage(img, 0, 0, 600, 600);
		window.code = canvas.toDataURL();
	}`)
	code := filepath.Join(dir, "code.png")
	data, err := base64.StdEncoding.DecodeString(eval[string](p, `() => code.slice(code.indexOf(',') + 1)`))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(code, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if got, want := strings.TrimSpace(tool(t, "zbarimg", "-q", "--raw", code)), p.h.origin+"/#"+p.link(); got != want {
		t.Errorf("the code holds %q, want %q", got, want)
	}

	// The sheet has the area, and nothing of money.
	p.run(`() => { window.asked = 0; window.print = () => window.asked++; }`)
	p.click("Sheet to print")
	p.wait("the sheet to be handed to the printer", `() => window.asked === 1`)
	own := true
	result := must(p, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &own})
	path := filepath.Join(dir, "sheet.pdf")
	if err := os.WriteFile(path, result.Data, 0o644); err != nil {
		t.Fatal(err)
	}
	pages := pagesOf(t, path)
	text := strings.Join(pages, "\n")
	// 4.2 m by 3.6 m are 15.12 m².
	for _, want := range []string{"Your floor", "15.1 m²", "Cherry", "Oiled", "Herringbone", "70 mm × 350 mm", "decide by a laid sample"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet has no %q:\n%s", want, text)
		}
	}
	if money := regexp.MustCompile(`(?i)price|cost|[€$£]`).FindString(text); money != "" || len(pages) != 1 {
		t.Errorf("the sheet has %d pages and %q", len(pages), money)
	}
	if images := tool(t, "pdfimages", "-list", path); !strings.Contains(images, "1600") {
		t.Errorf("the sheet's pictures are\n%s", images)
	}

	p.run(`() => {
		Object.defineProperty(navigator, 'clipboard', { configurable: true, value: { writeText: (t) => { window.clip = t; return Promise.resolve(); } } });
		Object.defineProperty(navigator, 'canShare', { configurable: true, value: undefined });
	}`)
	p.click("Copy the link")
	p.comes("#show-said", "copied")
	same(p, "copied", eval[string](p, `() => window.clip`), p.h.origin+"/#"+p.link())
	p.click("Share")
	p.comes("#show-said", "no sharing")
	p.run(`() => {
		Object.defineProperty(navigator, 'canShare', { configurable: true, value: (d) => d.files.length === 1 });
		Object.defineProperty(navigator, 'share', { configurable: true, value: (d) => { window.shared = d.files[0].type + ' ' + d.text; return Promise.resolve(); } });
	}`)
	p.click("Share")
	p.wait("the sharing", `() => !!window.shared`)
	same(p, "shared", eval[string](p, `() => window.shared`), "image/png "+p.h.origin+"/#"+p.link())
	// Where nothing can be recorded it is said.
	p.run(`() => { window.MediaRecorder = undefined; }`)
	p.click("Video")
	p.comes("#show-said", "cannot record")
}

// At rest nothing is drawn; a context that is lost comes back; a tab that was
// out of sight goes on.
func TestShowRests(t *testing.T) {
	p := newPerson(t, screen{wide: 480, high: 640})
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `(() => {
		window.frames_ = 0; window.draws = 0;
		const frame = window.requestAnimationFrame.bind(window);
		window.requestAnimationFrame = (f) => { window.frames_++; return frame(f); };
		const draw = WebGL2RenderingContext.prototype.drawArraysInstanced;
		WebGL2RenderingContext.prototype.drawArraysInstanced = function (...a) { window.draws++; return draw.apply(this, a); };
	})();`})
	p.visit("#" + shown + "&view=standing&beside=wood%3Dash")
	p.ready()
	p.beside()
	p.run(`() => new Promise((r) => setTimeout(r, 1500))`)
	counts := eval[[]int](p, `() => new Promise((r) => { frames_ = 0; draws = 0; setTimeout(() => r([frames_, draws]), 1000); })`)
	if counts[0] != 0 || counts[1] != 0 {
		t.Errorf("in a second at rest %d frames are asked for and %d draws made", counts[0], counts[1])
	}
	before := p.floor()
	p.run(`async () => {
		window.taken = ['#painting canvas', '#beside canvas'].map((s) => person.one(s).getContext('webgl2').getExtension('WEBGL_lose_context'));
		taken.forEach((e) => e.loseContext());
		await person.frames(5);
		taken.forEach((e) => e.restoreContext());
		await person.frames(20);
	}`)
	after := p.floor()
	for _, at := range [][2]float64{{120, 420}, {360, 420}, {120, 60}} {
		if d := before.at(at[0], at[1], 3).apart(after.at(at[0], at[1], 3)); d > 3 {
			t.Errorf("after the context came back the picture at %v differs by %.0f", at, d)
		}
	}
	p.run(`() => { for (const to of ['hidden', 'visible']) { Object.defineProperty(document, 'visibilityState', { configurable: true, value: to }); document.dispatchEvent(new Event('visibilitychange')); } }`)
	p.click("Play")
	p.wait("the floor to grow after that", `() => draws > 2`)
	p.click("Stop")
}

// Without a graphics card the plan is there, and what is not is said.
func TestShowFlat(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&paint=canvas&face=show&wood=walnut", small8)
	p.panel("View")
	p.see("#desk-show .flat-only", "flat and from above")
	p.click("Walk in")
	p.comes("#show-said", "graphics card")
	same(p, "view", p.key("view"), "")
	x, y := p.place(2100, 1800)
	if c := p.floor().at(x, y, 4); c.light() > 130 {
		t.Errorf("the walnut floor is %.0f light", c.light())
	}
	p.panel("Compare")
	p.clickOn(`#desk-show [data-do="beside"][data-arg="wood=maple"]`)
	p.beside()
	right, _ := p.place(3300, 2600)
	left, y := p.place(900, 2600)
	pic := p.floor()
	if l, r := pic.at(left, y, 4).light(), pic.at(right, y, 4).light(); r < l+40 {
		t.Errorf("walnut on the left is %.0f light, maple on the right %.0f", l, r)
	}
}
