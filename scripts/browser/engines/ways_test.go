//go:build unix

package engines

import (
	"bytes"
	"context"
	"encoding/base64"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"keelrow/scripts/internal/serve"
	"keelrow/scripts/internal/site"
)

var shots = flag.Bool("shots", false, "put pictures of the page into artefacts/")

// inPage finds things by what is written on them. It is that of scripts/browser.
var inPage string

func TestMain(m *testing.M) {
	flag.Parse()
	os.Exit(run(m))
}

func run(m *testing.M) int {
	text, err := os.ReadFile(filepath.Join("..", "person.js"))
	if err == nil {
		inPage = string(text)
		temporary, err = os.MkdirTemp("", "keelrow")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(temporary)
	return m.Run()
}

// temporary is a folder for what all tests share.
var temporary string

// house is the built page and its server.
type house struct {
	dist    string
	handler http.Handler
	server  *httptest.Server
}

// build builds the page once.
var build = sync.OnceValues(func() (*house, error) {
	ctx := context.Background()
	root, err := site.Root(ctx)
	if err != nil {
		return nil, err
	}
	h := &house{dist: filepath.Join(temporary, "dist")}
	if _, err := site.Build(ctx, site.Options{Root: root, Out: h.dist}); err != nil {
		return nil, err
	}
	rules, err := serve.ReadRules(filepath.Join(root, "netlify.toml"))
	h.handler = serve.Handler(os.DirFS(h.dist), rules)
	return h, err
})

// another returns the same page with a server of its own.
func (h *house) another(t *testing.T, handler http.Handler) *house {
	own := &house{h.dist, handler, httptest.NewServer(handler)}
	t.Cleanup(own.server.Close)
	return own
}

// person is who uses a browser.
type person struct {
	t      *testing.T
	d      driver
	origin string
}

func (p *person) must(err error) {
	p.t.Helper()
	if err != nil {
		p.t.Fatal(err)
	}
}

// ask calls a function in the page.
func ask[T any](p *person, function string, args ...any) T {
	p.t.Helper()
	v, err := try[T](p, function, args...)
	if err != nil {
		p.t.Fatalf("%v\nin %s", err, function)
	}
	return v
}

func try[T any](p *person, function string, args ...any) (v T, err error) {
	list, err := json.Marshal(append([]any{}, args...))
	if err != nil {
		return v, err
	}
	text, err := p.d.call(function, string(list))
	if err != nil {
		return v, err
	}
	return v, json.Unmarshal([]byte(text), &v)
}

// comes waits until a function in the page returns true.
func (p *person) comes(what, function string, args ...any) {
	p.t.Helper()
	for end := time.Now().Add(patience); !ask[bool](p, function, args...); time.Sleep(30 * time.Millisecond) {
		if time.Now().After(end) {
			p.t.Fatalf("waited %v for %s; the browser says %q", patience, what, p.d.complaints())
		}
	}
}

func (p *person) rest() {
	p.t.Helper()
	ask[bool](p, `async () => { await person.frames(2); return true; }`)
}

// opens goes to a link and waits until its floor is there.
func (p *person) opens(link string) {
	p.t.Helper()
	p.must(p.d.visit(p.origin + "/" + link))
	p.comes("the page to stand", `() => !!window.person && document.querySelector('#status').hidden && person.text('#laid-count') !== ''`)
	p.rest()
}

func (p *person) text(selector string) string {
	p.t.Helper()
	return ask[string](p, `(s) => person.text(s)`, selector)
}

func (p *person) sees(selector, want string) {
	p.t.Helper()
	if got := p.text(selector); !strings.Contains(got, want) {
		p.t.Errorf("%s says %.300q, want %q in it", selector, got, want)
	}
}

func (p *person) same(what string, got, want any) {
	p.t.Helper()
	if got != want {
		p.t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// laid returns the counter: "40 of 700 blocks".
func (p *person) laid() (n, all int) {
	p.t.Helper()
	counts := ask[[]int](p, `() => person.text('#laid-count').match(/\d+/g).map(Number)`)
	return counts[0], counts[1]
}

// click puts the mouse on a control by what is written on it.
func (p *person) click(label string) {
	p.t.Helper()
	at := ask[[]any](p, `(label) => person.spot(label)`, label)
	x, y := math.Round(at[0].(float64)), math.Round(at[1].(float64))
	p.must(p.d.act([]object{{"type": "pointer", "id": "mouse", "parameters": object{"pointerType": "mouse"}, "actions": []object{
		{"type": "pointerMove", "x": x, "y": y}, {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}}}}))
	p.rest()
}

// types presses keys one after the other.
func (p *person) types(text string) {
	p.t.Helper()
	var keys []object
	for _, r := range text {
		keys = append(keys, object{"type": "keyDown", "value": string(r)}, object{"type": "keyUp", "value": string(r)})
	}
	p.must(p.d.act([]object{{"type": "key", "id": "keyboard", "actions": keys}}))
	p.rest()
}

// typeInto replaces what stands in a field.
func (p *person) typeInto(label, text string) {
	p.t.Helper()
	p.click(label)
	ask[any](p, `() => document.activeElement.select()`)
	p.types(text)
}

// deskAnswers waits until every box for the desk's answers is filled.
func (p *person) deskAnswers() {
	p.t.Helper()
	p.comes("the desk to answer", `() => {
		const boxes = [...document.querySelectorAll('[data-wants]')];
		return boxes.length > 0 && boxes.every((b) => b.getAttribute('aria-busy') === 'false' && b.textContent !== '');
	}`)
	if text := p.text("#stage"); strings.Contains(text, "did not arrive") {
		p.t.Errorf("the desk does not run: %.300s", text)
	}
}

// quiet fails the test for what the browser complained of.
func (p *person) quiet() {
	p.t.Helper()
	time.Sleep(50 * time.Millisecond) // what is said last is still under way
	for _, m := range p.d.complaints() {
		to, request := strings.CutPrefix(m, asks)
		if request && (strings.HasPrefix(to, p.origin+"/") || strings.HasPrefix(to, "data:") || strings.HasPrefix(to, "blob:") || to == "about:blank") {
			continue
		}
		p.t.Errorf("the browser says: %s", m)
	}
}

// job is a bookmark. 4.2 m by 3.6 m are 15.12 m².
const job = "#unit=mm&room=4200x3600&gap=12&block=70x350"

// ways are the main ways through the page.
var ways = []struct {
	name string
	goes func(p *person)
}{
	{"open a link", func(p *person) {
		p.opens(job)
		p.sees(".facts", "15.12 m²")
		n, all := p.laid()
		if n != all || all < 500 {
			p.t.Errorf("%d of %d blocks are laid", n, all)
		}
		p.wooden()
	}},
	{"lines", func(p *person) { p.struck() }},
	{"painters", func(p *person) {
		for _, paint := range []string{"webgl", "canvas"} {
			p.opens(job + "&paint=" + paint)
			p.wooden()
			p.t.Logf("asked for %s: %q", paint, ask[string](p, `() => document.querySelector('.painter-note')?.textContent || ''`))
		}
	}},
	{"on a phone", func(p *person) {
		p.must(p.d.size(390, 844))
		defer func() { p.must(p.d.size(1440, 900)) }()
		p.opens(job)
		p.wooden()
		if wide := ask[[]float64](p, `() => [document.scrollingElement.scrollWidth, innerWidth]`); wide[0] > wide[1] {
			p.t.Errorf("the page is %v pixels wide in a window of %v", wide[0], wide[1])
		}
		p.click("Choose")
		p.same("title", p.text("#stage-title"), "Choose")
		p.click("Measure")
		p.typeInto("Width", "5000")
		p.sees(".facts", "18.00 m²")
	}},
	{"edit", func(p *person) {
		p.opens(job)
		p.typeInto("Width", "5000")
		p.sees(".facts", "18.00 m²") // 5 m by 3.6 m
		p.comes("the link to have it", `() => location.hash.includes('room=5000x3600')`)
		// What cannot be used leaves the floor as it was.
		_, all := p.laid()
		p.typeInto("Width", "five")
		p.sees(".facts", "18.00 m²")
		_, still := p.laid()
		p.same("blocks after a bad width", still, all)
		if !ask[bool](p, `() => person.find('Width').getAttribute('aria-invalid') === 'true'`) {
			p.t.Error("the bad width is not marked")
		}
		p.typeInto("Width", "4200")
		p.sees(".facts", "15.12 m²")
	}},
	{"play, pause and step", func(p *person) {
		p.opens(job + "&laid=0&speed=30&stage=lay")
		p.click("Play")
		p.comes("blocks to be laid", `() => parseInt(person.text('#laid-count')) > 3`)
		p.click("Pause")
		n, all := p.laid()
		if n < 4 || n >= all {
			p.t.Errorf("paused at %d of %d blocks", n, all)
		}
		again, _ := p.laid()
		p.same("blocks a moment after the pause", again, n)
		p.click("Row +: on to the end of the row")
		row, _ := p.laid()
		if row <= n {
			p.t.Errorf("a row on from %d blocks there are %d", n, row)
		}
		p.click("Row −: back to the end of the row before")
		if back, _ := p.laid(); back >= row {
			p.t.Errorf("a row back from %d blocks there are %d", row, back)
		}
	}},
	{"stages and the desk", func(p *person) {
		p.opens(job)
		for _, stage := range []string{"Choose", "Strike", "Lay", "Measure"} {
			p.click(stage)
			p.same("title", p.text("#stage-title"), stage)
			if ask[int](p, `() => document.querySelectorAll('[data-wants]').length`) > 0 {
				p.deskAnswers()
			}
		}
		p.types("3")
		p.same("title after the key 3", p.text("#stage-title"), "Strike")
		p.deskAnswers()
	}},
	{"faces", func(p *person) {
		for _, face := range []string{"site", "show", "lesson", "work"} {
			p.opens(job + "&step=13&face=" + face) // the lesson's last step has the whole floor
			p.same("face", ask[string](p, `() => person.one('#app').dataset.face`), face)
			if face == "work" {
				p.sees(".facts", "15.12 m²")
			}
			p.wooden()
		}
	}},
	{"sheets", func(p *person) {
		p.opens(job)
		p.click("Sheets")
		ask[any](p, `() => { window.print = () => {}; }`)
		p.click("Print")
		p.comes("the sheets to be set", `() => document.querySelector('body > .sheets') !== null`)
		p.sees("body > .sheets", "4200 mm")
		p.sees("body > .sheets", "room=4200x3600")
	}},
	{"a bookmark in a new tab", func(p *person) {
		p.opens(job + "&stage=strike&laid=40")
		p.must(p.d.fresh())
		p.opens(job + "&stage=strike&laid=40")
		p.same("title", p.text("#stage-title"), "Strike")
		n, _ := p.laid()
		p.same("blocks laid", n, 40)
		p.deskAnswers()
	}},
}

// picture returns what is seen. at is the place of a point of the window, in
// CSS pixels.
func (p *person) picture() (seen image.Image, at func(x, y float64) (int, int)) {
	p.t.Helper()
	data, err := p.d.picture()
	p.must(err)
	file, err := base64.StdEncoding.DecodeString(data)
	p.must(err)
	seen, err = png.Decode(bytes.NewReader(file))
	p.must(err)
	if *shots {
		dir := filepath.Join("..", "..", "..", "artefacts")
		p.must(os.MkdirAll(dir, 0o777))
		p.must(os.WriteFile(filepath.Join(dir, "engine "+strings.ReplaceAll(p.t.Name(), "/", " ")+".png"), file, 0o666))
	}
	scale := float64(seen.Bounds().Dx()) / ask[float64](p, `() => innerWidth`)
	return seen, func(x, y float64) (int, int) { return int(x * scale), int(y * scale) }
}

// wooden fails the test unless the middle of the floor has the colours of
// wood: red above green above blue, in both painters and all engines.
func (p *person) wooden() {
	p.t.Helper()
	seen, at := p.picture()
	r := ask[[]float64](p, `() => person.rect(person.one('#floor'))`)
	found, looked := 0, 0
	for dx := -60.0; dx <= 60; dx += 7 {
		for dy := -60.0; dy <= 60; dy += 7 {
			red, green, blue, _ := seen.At(at((r[0]+r[2])/2+dx, (r[1]+r[3])/2+dy)).RGBA()
			looked++
			if red > green && green > blue && red-blue > 25<<8 {
				found++
			}
		}
	}
	if found*10 < looked*7 {
		p.t.Errorf("of %d spots in the middle of the floor %d look like wood", looked, found)
	}
}

// struck fails the test unless the centre line can be seen on the finished
// floor: most of its spots change when it is left out.
func (p *person) struck() {
	p.t.Helper()
	look := func(show string) (list []color.Color) {
		p.opens(job + "&show=" + show)
		seen, at := p.picture()
		for y := 300.0; y <= 3300; y += 10 {
			// 4200 mm across: the line is 2100 mm from A.
			spot := ask[[]float64](p, `(y) => person.place(2100, y)`, y)
			list = append(list, seen.At(at(spot[0], spot[1])))
		}
		return list
	}
	with, without := look("centre"), look("none")
	changed := 0
	for i := range with {
		if with[i] != without[i] {
			changed++
		}
	}
	if changed*2 < len(with) {
		p.t.Errorf("only %d of %d spots of the centre line show it", changed, len(with))
	}
}

func TestFirefox(t *testing.T) {
	engine(t, startFirefox, func(page http.Handler) http.Handler { return page })
}

func TestWebKit(t *testing.T) { engine(t, startWebKit, watched) }

// engine goes all ways in one browser, one after the other.
func engine(t *testing.T, begin func(dir string) (driver, error), heard func(http.Handler) http.Handler) {
	t.Parallel()
	shared, err := build()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	d, err := begin(dir)
	if errors.Is(err, errMissing) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := d.close(); err != nil {
			t.Error(err)
		}
	})
	h := shared.another(t, heard(shared.handler))
	way := func(name string, goes func(p *person)) {
		t.Run(name, func(t *testing.T) {
			p := &person{t, d, h.server.URL}
			goes(p)
			p.quiet()
		})
	}
	way("faults are noticed", func(p *person) { p.faults() })
	for _, w := range ways {
		way(w.name, w.goes)
	}
	way("offline", func(p *person) {
		own := shared.another(t, shared.handler)
		p.origin = own.server.URL
		p.withoutServer(own)
	})
	way("one file", func(p *person) {
		text := p.takesFile()
		p.quiet()
		p.must(os.WriteFile(filepath.Join(dir, "keelrow.html"), []byte(text), 0o666))
		p.origin = "file://" + dir
		p.opensFile("keelrow.html")
	})
}

// faults makes one fault of each kind: a test cannot do without their being
// noticed.
func (p *person) faults() {
	p.t.Helper()
	p.opens(job)
	if said := p.d.complaints(); !slices.ContainsFunc(said, func(m string) bool { return strings.HasPrefix(m, asks+p.origin+"/keelrow.") }) {
		p.t.Errorf("what the page asks for is not noticed: %q", said)
	}
	for _, tt := range []struct{ what, fault string }{
		{"left in", `() => console.error('left in')`},
		{"thrown by nobody", `() => { setTimeout(() => { throw new Error('thrown by nobody'); }); }`},
		{"rejected", `() => { Promise.reject(new Error('rejected')); }`},
		{"script-src", `() => document.body.append(Object.assign(document.createElement('script'), { textContent: '1' }))`},
		{"connect-src", `() => { fetch('http://127.0.0.2:9/').catch(() => {}); }`},
	} {
		ask[any](p, tt.fault)
		said := ""
		for end := time.Now().Add(3 * time.Second); !strings.Contains(said, tt.what) && time.Now().Before(end); {
			time.Sleep(30 * time.Millisecond)
			said += strings.Join(p.d.complaints(), "\n")
		}
		if !strings.Contains(said, tt.what) {
			p.t.Errorf("of %s nothing is noticed but %q", tt.fault, said)
		}
	}
	time.Sleep(300 * time.Millisecond) // some are said twice
	p.d.complaints()
}

// withoutServer has the page kept on the device, ends the server and starts
// cold from a bookmark.
func (p *person) withoutServer(h *house) {
	p.t.Helper()
	p.opens(job)
	p.comes("the page to be kept", `() => document.documentElement.dataset.offline === 'ready'`)
	p.sees(".masthead", "Works offline")
	h.server.CloseClientConnections()
	h.server.Close()
	if d, ok := p.d.(interface{ restart() error }); ok {
		p.must(d.restart())
	} else {
		p.t.Log("this browser forgets all when its driver shuts it: the start is as cold as a new tab makes it")
		p.must(p.d.fresh())
	}
	p.opens(job)
	p.sees(".facts", "15.12 m²")
	p.click("Strike")
	p.deskAnswers()
	p.click("Sheets")
	ask[any](p, `() => { window.print = () => {}; }`)
	p.click("Print")
	p.comes("the sheets to be set", `() => document.querySelector('body > .sheets') !== null`)
}

// takesFile takes the page as one file, with a job in it. Where a browser would
// put it differs, so it is looked at on the way there.
func (p *person) takesFile() string {
	p.t.Helper()
	p.opens("#room=5000x3600&door=AB:1200,813,caf%C3%A9%20%22A%22")
	ask[any](p, `() => {
		URL.createObjectURL = (blob) => { window.made = blob; return '#'; };
		HTMLAnchorElement.prototype.click = () => {};
	}`)
	p.click("Sheets")
	p.click("The page as one file")
	p.comes("the file to be made", `() => person.text('#sheets-said') === 'keelrow.html is made.'`)
	return ask[string](p, `() => window.made.text()`)
}

// opensFile opens the page as one file, first with the job that it was taken
// with and then with a link of its own.
func (p *person) opensFile(name string) {
	p.t.Helper()
	p.opens(name)
	p.sees(".facts", "18.00 m²")
	p.same("door", ask[string](p, `() => decodeURIComponent(location.hash.match(/door=([^&]*)/)[1])`), `AB:1200,813,café "A"`)
	p.must(p.d.fresh())
	p.opens(name + job)
	p.sees(".facts", "15.12 m²")
	p.wooden()
	p.typeInto("Width", "5000")
	p.sees(".facts", "18.00 m²")
	p.comes("the link to have it", `() => location.hash.includes('room=5000x3600')`)
	p.click("Strike")
	p.deskAnswers()
	p.click("Sheets")
	p.same("offers of another file", ask[int](p, `() => person.all().filter((e) => person.name(e) === 'The page as one file').length`), 0)
}
