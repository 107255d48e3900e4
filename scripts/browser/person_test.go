package browser

import (
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/fetch"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

//go:embed person.js
var inPage string

// screen is what the page is looked at on.
type screen struct {
	wide, high int64
	touch      bool
	dark       bool
	still      bool // less motion is asked for
	scale      float64
}

var (
	phone  = screen{wide: 390, high: 844, touch: true}
	tablet = screen{wide: 768, high: 1024, touch: true}
	desk   = screen{wide: 1440, high: 900}
)

// person is someone with the page open in a tab of its own.
type person struct {
	t      *testing.T // may be a part of the test that owns the tab
	owner  *testing.T
	h      *house
	ctx    context.Context
	screen screen

	mu       sync.Mutex
	messages []string // what the browser complained of
	expected []string // parts of messages that have to come
	allowed  []string // parts of messages that may come
	left     bool     // the tab is shut
	shut     func()
}

// open opens a link, waits until the page stands and returns who looks at it.
func open(t *testing.T, link string, on screen) *person {
	t.Helper()
	p := newPerson(t, on)
	p.visit(link)
	p.ready()
	return p
}

// newPerson opens an empty tab.
func newPerson(t *testing.T, on screen) *person {
	t.Helper()
	h, err := enter()
	if errors.Is(err, errNoBrowser) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	p := newTab(t, h, on)
	// The other tests look at the files as the server sends them.
	must(p, network.SetBypassServiceWorker, network.SetBypassServiceWorkerParams{Bypass: true})
	return p
}

// newTab opens an empty tab in the house's browser.
func newTab(t *testing.T, h *house, on screen) *person {
	t.Helper()
	tab, shut := chromedp.NewContext(h.browser)
	p := &person{t: t, owner: t, h: h, screen: on}
	long := time.Minute
	if *measure {
		long = 10 * time.Minute
	}
	ctx, stop := context.WithTimeout(tab, long)
	p.ctx, p.shut = ctx, func() { stop(); shut() }
	if err := chromedp.Listen(p.ctx, p.hear); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.leave)
	must(p, audits.Enable, cdp.Empty{})
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: inPage})
	p.look(on)
	return p
}

// leave shuts the tab and fails the test for what the browser complained of.
func (p *person) leave() {
	if p.left {
		return
	}
	p.left = true
	p.complain()
	p.shut()
}

// must gives the browser a command.
func must[P, R any](p *person, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	r, err := chromedp.Call(p.ctx, command, params)
	if err != nil {
		p.t.Fatalf("%s: %v", command.Method, err)
	}
	return r
}

// look changes the screen.
func (p *person) look(on screen) {
	p.t.Helper()
	p.screen = on
	options := []chromedp.EmulateViewportOption{chromedp.EmulateScale(max(1, on.scale))}
	if on.touch {
		options = append(options, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	p.do(chromedp.EmulateViewport(on.wide, on.high, options...))
	scheme, motion := "light", "no-preference"
	if on.dark {
		scheme = "dark"
	}
	if on.still {
		motion = "reduce"
	}
	must(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
		{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: motion}}})
}

func (p *person) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

// hear takes down what a page in order never makes a browser say.
func (p *person) hear(event any) {
	var message string
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		message = "console." + string(e.Type) + ":"
		for _, arg := range e.Args {
			message += " " + string(arg.Value) + " " + arg.Description
		}
	case *runtime.EventExceptionThrown:
		message = "exception: " + e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			message += " " + x.Description
		}
	case *log.EventEntryAdded:
		if strings.Contains(e.Entry.Text, "GL Driver Message (OpenGL, Performance") {
			return // without a graphics card every picture of WebGL is a slow copy
		}
		message = string(e.Entry.Level) + ": " + e.Entry.Text + " " + e.Entry.URL
	case *audits.EventIssueAdded:
		details, _ := json.Marshal(e.Issue.Details)
		message = "issue: " + string(e.Issue.Code) + " " + string(details)
	case *network.EventRequestWillBeSent:
		url := e.Request.URL
		if strings.HasPrefix(url, p.h.origin+"/") || strings.HasPrefix(url, "data:") || strings.HasPrefix(url, "blob:") || url == "about:blank" {
			return
		}
		message = "request to another origin: " + url
	default:
		return
	}
	p.mu.Lock()
	p.messages = append(p.messages, message)
	p.mu.Unlock()
}

// expects names a part of a message that has to come and is no fault.
func (p *person) expects(part string) { p.expected = append(p.expected, part) }

// allows names a part of a message that is no fault if it comes.
func (p *person) allows(part string) { p.allowed = append(p.allowed, part) }

// complain fails the test for messages that were not expected, and for
// expected ones that did not come.
func (p *person) complain() {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, part := range p.expected {
		if !slices.ContainsFunc(p.messages, func(m string) bool { return strings.Contains(m, part) }) {
			p.owner.Errorf("the browser never said %q", part)
		}
	}
	fine := slices.Concat(p.expected, p.allowed)
	for _, m := range p.messages {
		if !slices.ContainsFunc(fine, func(part string) bool { return strings.Contains(m, part) }) {
			p.owner.Errorf("the browser says: %s", m)
		}
	}
}

// visit goes to a link: a fragment, a query or a path of the page.
func (p *person) visit(link string) {
	p.t.Helper()
	p.do(chromedp.Navigate(p.h.origin + "/" + strings.TrimPrefix(link, "/")))
}

// ready waits until the page stands and its floor is painted.
func (p *person) ready() {
	p.t.Helper()
	p.wait("the page to stand", `() => document.querySelector('#status').hidden && document.querySelector('#laid-count').textContent !== ''`)
	p.rest()
}

// eval calls a JavaScript function, given as text, with arguments.
func eval[T any](p *person, function string, args ...any) T {
	p.t.Helper()
	v, err := try[T](p, function, args...)
	if err != nil {
		p.t.Fatalf("%v\nin %s", err, function)
	}
	return v
}

func try[T any](p *person, function string, args ...any) (T, error) {
	list, err := json.Marshal(args)
	if err != nil || len(args) == 0 {
		list = []byte("[]")
	}
	return chromedp.Run(p.ctx, chromedp.Evaluate[T]("("+function+")(..."+string(list)+")", chromedp.EvalAwaitPromise))
}

// run calls a JavaScript function for what it does.
func (p *person) run(function string, args ...any) {
	p.t.Helper()
	eval[bool](p, "async (...args) => { await ("+function+")(...args); return true; }", args...)
}

// rest waits for two frames: an action has been drawn by then. If it made the
// page load again, they are frames of the page that comes.
func (p *person) rest() {
	p.t.Helper()
	p.until("two frames", func() bool {
		_, err := try[bool](p, `async () => { await person.frames(2); return true; }`)
		if err != nil && !strings.Contains(err.Error(), "navigated") {
			p.t.Fatal(err)
		}
		return err == nil
	})
}

// patience is how long a person waits for the page to do something.
const patience = 10 * time.Second

// wait waits until a JavaScript function returns true.
func (p *person) wait(what, function string, args ...any) {
	p.t.Helper()
	p.until(what, func() bool { return eval[bool](p, function, args...) })
}

// until waits until something holds.
func (p *person) until(what string, holds func() bool) {
	p.t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		if holds() {
			return
		}
		if time.Now().After(end) {
			p.t.Fatalf("waited %v for %s", patience, what)
		}
	}
}

// used is the controls that a test has clicked or typed in.
var used = struct {
	sync.Mutex
	controls map[string]bool
}{controls: map[string]bool{}}

// spot returns where a control is, by what is written on it.
func (p *person) spot(function string, args ...any) (x, y float64) {
	p.t.Helper()
	at := eval[[]any](p, function, args...)
	used.Lock()
	used.controls[at[2].(string)] = true
	used.Unlock()
	return at[0].(float64), at[1].(float64)
}

// press puts a finger, or the mouse, on a point of the window.
func (p *person) press(x, y float64) {
	p.t.Helper()
	if p.screen.touch {
		p.do(chromedp.TapXY(x, y))
	} else {
		p.do(chromedp.MouseClickXY(x, y))
	}
	p.rest()
}

// click clicks the control that is called so, within a part of the page if
// one is given.
func (p *person) click(label string, within ...string) {
	p.t.Helper()
	p.press(p.spot(`person.spot`, append([]any{label}, anys(within)...)...))
}

// clickOn clicks what matches a selector, for what has no name of its own.
func (p *person) clickOn(selector string) {
	p.t.Helper()
	p.press(p.spot(`person.spotOf`, selector))
}

func anys(list []string) (out []any) {
	for _, s := range list {
		out = append(out, s)
	}
	return out
}

// typeInto replaces what stands in a field, key by key.
func (p *person) typeInto(label, text string, within ...string) {
	p.t.Helper()
	p.enter(label, within...)
	if text == "" {
		p.keys(kb.Delete)
	} else {
		p.keys(text)
	}
}

// pasteInto replaces what stands in a field at once.
func (p *person) pasteInto(label, text string, within ...string) {
	p.t.Helper()
	p.enter(label, within...)
	must(p, input.InsertText, input.InsertTextParams{Text: text})
	p.rest()
}

// enter goes into a field and selects all that stands there.
func (p *person) enter(label string, within ...string) {
	p.t.Helper()
	p.click(label, within...)
	p.wait("the cursor to be in "+label, `(...a) => document.activeElement === person.find(...a)`, append([]any{label}, anys(within)...)...)
	p.run(`() => document.activeElement.select()`)
}

// keys presses keys one after the other.
func (p *person) keys(text string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(text))
	p.rest()
}

// choose takes an option of a list by what is written on it.
func (p *person) choose(label, option string) {
	p.t.Helper()
	p.spot(`person.spot`, label)
	p.run(`(label, option) => {
		const list = person.find(label);
		const o = [...list.options].find((o) => person.tidy(o.textContent) === option);
		if (!o) throw new Error('no option ' + option);
		list.focus();
		list.value = o.value;
		list.dispatchEvent(new Event('input', { bubbles: true }));
		list.dispatchEvent(new Event('change', { bubbles: true }));
	}`, label, option)
	p.rest()
}

// text returns what is written in the first element that matches.
func (p *person) text(selector string) string {
	p.t.Helper()
	return eval[string](p, `person.text`, selector)
}

// value returns what stands in a field.
func (p *person) value(label string, within ...string) string {
	p.t.Helper()
	return eval[string](p, `(...a) => person.find(...a).value`, append([]any{label}, anys(within)...)...)
}

// link returns the fragment in the address bar, without its '#'.
func (p *person) link() string {
	p.t.Helper()
	return strings.TrimPrefix(eval[string](p, `() => location.hash`), "#")
}

// key returns the value of a key of the link as it stands there, or "".
func (p *person) key(name string) string {
	p.t.Helper()
	for pair := range strings.SplitSeq(p.link(), "&") {
		if key, value, _ := strings.Cut(pair, "="); key == name {
			return value
		}
	}
	return ""
}

// see fails the test unless what is written in an element contains a text.
func (p *person) see(selector, want string) {
	p.t.Helper()
	if got := p.text(selector); !strings.Contains(got, want) {
		p.t.Errorf("%s says %q, want %q in it", selector, got, want)
	}
}

// comes waits until what is written in an element contains a text: what the
// desk works out comes a moment later.
func (p *person) comes(selector, want string) {
	p.t.Helper()
	p.wait("“"+want+"” in "+selector, `(selector, want) => person.text(selector).includes(want)`, selector, want)
}

// allFilled waits until the desk has filled every box on the page.
func (p *person) allFilled() {
	p.t.Helper()
	p.wait("the desk's boxes to be filled", `() => [...document.querySelectorAll('[data-wants]')].every((e) => e.closest('[hidden]') || e.textContent !== '')`)
}

// same fails the test unless two values are the same.
func same[T comparable](p *person, what string, got, want T) {
	p.t.Helper()
	if got != want {
		p.t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// near fails the test unless two numbers are as close as by.
func near(p *person, what string, got, want, by float64) {
	p.t.Helper()
	if !(math.Abs(got-want) <= by) {
		p.t.Errorf("%s: %.4f, want %.4f within %.4f", what, got, want, by)
	}
}

// shown says whether an element is there and can be seen.
func (p *person) shown(selector string) bool {
	p.t.Helper()
	return eval[bool](p, `(s) => { const e = document.querySelector(s); return !!e && person.seen(e); }`, selector)
}

// laid returns the counter: how many blocks are laid, and of how many.
func (p *person) laid() (n, all int) {
	p.t.Helper()
	text := p.text("#laid-count")
	if _, err := fmt.Sscanf(text, "%d of %d", &n, &all); err != nil {
		p.t.Fatalf("the counter says %q", text)
	}
	return n, all
}

// box is where an element is in the window, in CSS pixels.
type box struct{ left, top, right, bottom float64 }

func (p *person) box(selector string) box {
	p.t.Helper()
	r := eval[[]float64](p, `(s) => person.rect(person.one(s))`, selector)
	return box{r[0], r[1], r[2], r[3]}
}

func (b box) middle() (x, y float64) { return (b.left + b.right) / 2, (b.top + b.bottom) / 2 }

// drag goes from one point of the window to another with the button held.
func (p *person) drag(x0, y0, x1, y1 float64) {
	p.t.Helper()
	held := func(m *input.DispatchMouseEventParams) {
		m.Button, m.Buttons, m.ClickCount = input.MouseButtonLeft, 1, 1
	}
	p.do(chromedp.MouseEvent(chromedp.MousePressed, x0, y0, held))
	for i := 1; i <= 4; i++ {
		k := float64(i) / 4
		p.do(chromedp.MouseEvent(chromedp.MouseMoved, x0+(x1-x0)*k, y0+(y1-y0)*k, held))
	}
	p.do(chromedp.MouseEvent(chromedp.MouseReleased, x1, y1, chromedp.ButtonLeft))
	p.rest()
}

// touch moves fingers from points to points.
func (p *person) touch(from, to [][2]float64) {
	p.t.Helper()
	send := func(kind input.DispatchTouchEventType, at [][2]float64) {
		points := []*input.TouchPoint{}
		for i, f := range at {
			id := float64(i)
			points = append(points, &input.TouchPoint{X: f[0], Y: f[1], ID: &id})
		}
		must(p, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
	}
	send(input.DispatchTouchEventTypeTouchStart, from)
	for i := 1; i <= 4; i++ {
		k, at := float64(i)/4, [][2]float64{}
		for f := range from {
			at = append(at, [2]float64{from[f][0] + (to[f][0]-from[f][0])*k, from[f][1] + (to[f][1]-from[f][1])*k})
		}
		send(input.DispatchTouchEventTypeTouchMove, at)
	}
	// Fingers that are lifted while they move throw the picture, and the next
	// tap would only stop it.
	p.run(`() => new Promise((r) => setTimeout(r, 120))`)
	send(input.DispatchTouchEventTypeTouchMove, to)
	send(input.DispatchTouchEventTypeTouchEnd, nil)
	p.rest()
}

// wheel turns the wheel over a point of the window.
func (p *person) wheel(x, y, by float64) {
	p.t.Helper()
	p.do(chromedp.MouseEvent(chromedp.MouseWheel, x, y, func(m *input.DispatchMouseEventParams) {
		m.DeltaX, m.DeltaY = 1e-6, by // a zero would be left out, and neither may be
	}))
	p.rest()
}

// answer lets a function answer the requests whose address matches.
func (p *person) answer(pattern string, with func(fetch.EventRequestPaused)) {
	p.t.Helper()
	paused := chromedp.Events(p.ctx, fetch.RequestPaused)
	must(p, fetch.Enable, fetch.EnableParams{Patterns: []*fetch.RequestPattern{{URLPattern: pattern}}})
	go func() {
		for e, err := range paused {
			if err != nil {
				return
			}
			with(e)
		}
	}()
}
