package browser

import (
	"context"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/fetch"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// demo is the job shown to someone without a link.
const demo = "v=1&unit=mm" +
	"&room=0,0;5200,0;5190,4120;3300,4115;3300,3700;1900,3700;1900,4105;10,4100" +
	"&gap=12&border=110&pattern=herringbone&block=80x480&strands=1&axis=0"

func TestDemo(t *testing.T) {
	p := open(t, "", desk)
	same(p, "link", p.link(), demo)
	if n, all := p.laid(); n != all || all == 0 {
		t.Errorf("the demo shows %d of %d blocks", n, all)
	}
	if p.shown("#notes") {
		t.Errorf("the demo's link brings notes: %s", p.text("#notes"))
	}
	// Shoelace formula, worked by hand: twice the area is 21,424,000 +
	// 7,760,850 - 1,369,500 + 5,180,000 + 769,500 + 7,748,950 = 41,513,800 mm².
	p.see(".facts", "20.76 m²")
	for _, stage := range []string{"Choose", "Strike", "Lay", "Measure"} {
		p.click(stage)
		same(p, "title", p.text("#stage-title"), stage)
	}
}

// What a test cannot do without: that a fault of each kind is noticed.
func TestFaultsAreNoticed(t *testing.T) {
	for what, fault := range map[string]string{
		"console.":                  `() => console.log('left in')`,
		"exception":                 `() => { setTimeout(() => { throw new Error('oh'); }); }`,
		"ContentSecurityPolicy":     `() => document.body.append(Object.assign(document.createElement('script'), { textContent: '1' }))`,
		"request to another origin": `() => { const i = new Image(); i.src = 'http://127.0.0.2:9/elsewhere.png'; }`,
	} {
		t.Run(what, func(t *testing.T) {
			p := open(t, "", desk)
			p.run(fault)
			p.until("the browser to say so", func() bool {
				p.mu.Lock()
				defer p.mu.Unlock()
				return strings.Contains(strings.Join(p.messages, "\n"), what)
			})
			p.left = true // without complaining
			p.shut()
		})
	}
}

// hold keeps the program from arriving until the returned function is called
// with how the request goes on.
func (p *person) hold() (release func(then func(context.Context, fetch.RequestID) error)) {
	p.t.Helper()
	waiting := make(chan fetch.RequestID, 4)
	p.answer("*.wasm", func(e fetch.EventRequestPaused) { waiting <- e.RequestID })
	return func(then func(context.Context, fetch.RequestID) error) {
		p.t.Helper()
		if err := then(p.ctx, <-waiting); err != nil {
			p.t.Fatal(err)
		}
	}
}

func TestBeforeTheProgram(t *testing.T) {
	for _, s := range []screen{phone, desk} {
		p := newPerson(t, s)
		release := p.hold()
		p.visit("")
		same(p, "name", p.text("h1"), "Keelrow")
		same(p, "what it is waiting for", p.text("#loading label"), "Bringing the tools in")
		for _, part := range []string{"h1", "svg.still", ".lead", "#progress"} {
			if !p.shown(part) {
				t.Errorf("%s cannot be seen before the program has arrived", part)
			}
		}
		// The still picture shows a floor: wood in the middle.
		x, y := p.box("svg.still").middle()
		if got := p.picture(p.box(".floor")).at(x+25, y+25, 6); !got.wooden() {
			t.Errorf("the still picture is %v in the middle, which is not wood", got)
		}
		if p.shown("#problem") {
			t.Errorf("a problem is shown before there is one: %s", p.text("#problem"))
		}
		release(func(ctx context.Context, id fetch.RequestID) error {
			_, err := chromedp.Call(ctx, fetch.ContinueRequest, fetch.ContinueRequestParams{RequestID: id})
			return err
		})
		p.ready()
		if p.shown("svg.still") || p.shown("#status") {
			t.Error("the still picture stays when the page stands")
		}
		p.leave()
	}
}

func TestProgramDoesNotArrive(t *testing.T) {
	const says = "The page did not arrive complete. Check the connection and reload; the link holds your job."
	for name, then := range map[string]func(context.Context, fetch.RequestID) error{
		"not found": func(ctx context.Context, id fetch.RequestID) error {
			_, err := chromedp.Call(ctx, fetch.FulfillRequest, fetch.FulfillRequestParams{RequestID: id, ResponseCode: http.StatusNotFound,
				ResponseHeaders: []*fetch.HeaderEntry{{Name: "Cross-Origin-Resource-Policy", Value: "cross-origin"}}})
			return err
		},
		"no connection": func(ctx context.Context, id fetch.RequestID) error {
			_, err := chromedp.Call(ctx, fetch.FailRequest, fetch.FailRequestParams{RequestID: id, ErrorReason: network.ErrorReasonInternetDisconnected})
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			p := newPerson(t, phone)
			release := p.hold()
			p.expects(".wasm") // the browser reports the failed request
			p.expects("console.error")
			p.visit("#room=4200x3600")
			release(then)
			p.wait("the problem to be said", `() => person.seen(person.one('#problem'))`)
			same(p, "problem", p.text("#problem"), says)
			if p.shown("#progress") {
				t.Error("the progress bar stays")
			}
			must(p, fetch.Disable, struct{}{})
			p.click("Reload the page")
			p.ready()
			same(p, "link after reloading", p.link(), "room=4200x3600")
		})
	}
}

func TestBrowserTooOld(t *testing.T) {
	p := newPerson(t, phone)
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `window.WebAssembly = undefined;`})
	p.allows("was preloaded using link preload but not used") // the program, which has no use here
	p.visit("")
	p.wait("the problem to be said", `() => person.seen(person.one('#problem'))`)
	same(p, "problem", p.text("#problem"), "This browser is too old to work the floor out. Update it, or open the same link in a newer one; the link holds your job.")
	if p.shown("#reload") || p.shown("#progress") {
		t.Error("a browser that is too old is offered to wait or to reload")
	}
}

func TestProgramBroken(t *testing.T) {
	p := newPerson(t, desk)
	release := p.hold()
	p.expects("console.error")
	p.visit("")
	release(func(ctx context.Context, id fetch.RequestID) error {
		_, err := chromedp.Call(ctx, fetch.FulfillRequest, fetch.FulfillRequestParams{RequestID: id, ResponseCode: http.StatusOK,
			ResponseHeaders: []*fetch.HeaderEntry{{Name: "Content-Type", Value: "application/wasm"}, {Name: "Cross-Origin-Resource-Policy", Value: "cross-origin"}},
			Body:            []byte("\x00asm\x01\x00\x00\x00 cut short")})
		return err
	})
	p.wait("the problem to be said", `() => person.seen(person.one('#problem'))`)
	if p.text("#problem") == "" {
		t.Error("nothing is said of a broken program")
	}
}

func TestNotFound(t *testing.T) {
	p := newPerson(t, phone)
	p.expects("404")
	p.visit("no-such-page")
	p.see("body", "Keelrow")
	if n := eval[int](p, `() => document.querySelectorAll('a[href]').length`); n == 0 {
		t.Error("the page for a wrong address leads nowhere")
	}
}
