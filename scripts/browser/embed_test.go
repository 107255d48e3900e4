package browser

import (
	"fmt"
	"net"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// hostPage is a page of somebody else that frames the lesson and writes down
// what it is told.
const hostPage = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Host</title><link rel="icon" href="data:,"></head><body>
<iframe id="frame" title="floor" width="1100" height="700" %s src="%s"></iframe>
<script>
window.told = [];
addEventListener('message', (e) => { window.told.push({ ...e.data, origin: e.origin, here: e.source === document.getElementById('frame').contentWindow }); });
window.tell = (data, to) => document.getElementById('frame').contentWindow.postMessage(data, to || '*');
window.said = (said, more) => window.told.filter((m) => m.said === said && Object.entries(more || {}).every(([k, v]) => m[k] === v));
window.ask = async (data) => {
  const id = 'q' + Math.random();
  tell({ keelrow: 1, id, ...data });
  for (let i = 0; i < 500; i++) {
    const answer = window.told.find((m) => m.id === id);
    if (answer) return answer;
    await new Promise((r) => setTimeout(r, 20));
  }
  throw new Error('no answer to ' + JSON.stringify(data));
};
</script></body></html>`

// hosted opens a page on another origin that frames a link of the house.
func hosted(t *testing.T, link, attributes string) *person {
	t.Helper()
	p := newPerson(t, desk)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprintf(w, hostPage, attributes, p.h.origin+"/"+strings.ReplaceAll(strings.ReplaceAll(link, "ORIGIN", "http://"+r.Host), "&", "&amp;"))
	})}
	go server.Serve(listener)
	t.Cleanup(func() { server.Close() })
	host := "http://" + listener.Addr().String()
	p.allows("request to another origin: " + host)
	p.do(chromedp.Navigate(host + "/"))
	return p
}

// told waits until the host has been told something; more is JSON of what
// else it has to say.
func (p *person) told(said, more string) {
	p.t.Helper()
	p.wait("to be told "+said+" "+more, `(said, more) => window.said(said, JSON.parse(more)).length > 0`, said, more)
}

// answered asks and returns what is said, and a part of it.
func (p *person) answered(data, part string) (said, value string) {
	p.t.Helper()
	got := eval[[]string](p, `async (data, part) => {
		const a = await ask(JSON.parse(data));
		return [a.said, String(part.split('.').reduce((o, k) => o && o[k], a))];
	}`, data, part)
	return got[0], got[1]
}

// framed evaluates an expression in the frame of a sandbox, which the browser
// has as a target of its own.
func framed[T any](p *person, expression string) (v T) {
	p.t.Helper()
	for _, i := range must(p, target.GetTargets, target.GetTargetsParams{}).TargetInfos {
		if i.Type != "iframe" || !strings.HasPrefix(i.URL, p.h.origin) {
			continue
		}
		ctx, done := chromedp.NewContext(p.h.browser, chromedp.WithTargetID(i.TargetID))
		p.t.Cleanup(done) // the frame would go with it
		v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
		if err != nil {
			p.t.Fatal(err)
		}
		return v
	}
	p.t.Fatal("the browser has no such frame")
	return v
}

// TestFramed drives the lesson from a page on another origin, as it is and in
// a sandbox that gives it no origin and no storage.
func TestFramed(t *testing.T) {
	for _, c := range []struct{ name, attributes string }{{"other origin", ""}, {"sandboxed", `sandbox="allow-scripts"`}} {
		t.Run(c.name, func(t *testing.T) {
			p := hosted(t, "#"+plain+"&face=lesson&step=2&host=ORIGIN", c.attributes)
			p.told("ready", `{"version":1,"here":true}`)
			p.told("step", `{"step":2,"of":13}`)
			p.told("size", `{}`)

			if c.attributes != "" {
				// Its style sheets cannot be looked into there; nothing may be
				// said to be missing.
				same(p, "origin, and whether the bar of the start is hidden",
					framed[string](p, `self.origin + ' ' + document.querySelector('#status').hidden`), "null true")
			}
			check := func(ask, part, wantSaid, wantValue string) {
				t.Helper()
				said, value := p.answered(ask, part)
				if said != wantSaid || !strings.Contains(value, wantValue) {
					t.Errorf("%s is answered %s, %s %q; want %s, %q", ask, said, part, value, wantSaid, wantValue)
				}
			}
			check(`{"do":"step","step":9}`, "link", "done", "step=9")
			p.told("step", `{"step":9,"title":"The first row"}`)
			check(`{"do":"pause"}`, "do", "done", "pause")
			check(`{"do":"play"}`, "do", "done", "play")
			check(`{"do":"repeat"}`, "do", "done", "repeat")
			check(`{"do":"back"}`, "link", "done", "step=8")
			check(`{"do":"next"}`, "link", "done", "step=9")
			// √2 × 70 / 4, OEIS A002193; 350 / √2.
			check(`{"do":"figures"}`, "figures.lines.spacing_mm", "figures", "24.7487373")
			check(`{"do":"figures"}`, "figures.lines.interval_mm", "figures", "247.4873734")
			check(`{"do":"open","link":"room=3000x3000&block=80x400"}`, "link", "done", "room=3000x3000&block=80x400")
			p.told("step", `{"step":9}`)
			check(`{"do":"figures"}`, "figures.room.area_mm2", "figures", "9000000")
			check(`{"do":"ask","ask":7}`, "link", "done", "ask=7")
			p.told("step", `{"ask":7}`)

			// What is wrong changes nothing.
			before := eval[string](p, `async () => (await ask({ do: 'link' })).link`)
			check(`{"do":"open","link":"room=3000x3000&block=x"}`, "why", "error", "block")
			check(`{"do":"open","link":"room=3000x3000&border=2000"}`, "why", "error", "order")
			check(`{"do":"open","link":7}`, "why", "error", "text")
			check(`{"do":"open","link":{"length":3}}`, "why", "error", "text")
			check(`{"do":"step","step":"2"}`, "why", "error", "whole number")
			check(`{"do":"step","step":1e99}`, "why", "error", "whole number")
			check(`{"do":"step","step":2.5}`, "why", "error", "whole number")
			check(`{"do":"ask","ask":-1}`, "why", "error", "whole number")
			check(`{"do":"dance"}`, "why", "error", "has to be")
			check(`{"do":["step"],"step":2}`, "why", "error", "has to be")
			check(`{"keelrow":2,"do":"step","step":2}`, "why", "error", "version 1")
			check(`{"keelrow":"1","do":"step","step":2}`, "why", "error", "version 1")
			same(p, "the link after all that", eval[string](p, `async () => (await ask({ do: 'link' })).link`), before)

			// Junk: nothing is answered, nothing stops.
			n := eval[int](p, `async () => {
				await new Promise((r) => setTimeout(r, 1100)); // another second
				const n = told.length;
				tell('x'.repeat(2 << 20));
				tell({ keelrow: undefined }); tell(null); tell(7); tell([1, 2]); tell(new Map([['keelrow', 1]])); tell(new Uint8Array(1 << 20)); tell(10n);
				const round = {}; round.round = round; tell(round);
				tell(JSON.parse('{"__proto__": {"keelrow": 1, "do": "step", "step": 1}}'));
				tell({ do: 'step', step: 3 });
				await new Promise((r) => setTimeout(r, 200));
				return told.length - n;
			}`)
			same(p, "answers to junk", n, 0)
			got := eval[[]any](p, `async () => {
				const n = told.length;
				tell({ keelrow: 1, id: 'i'.repeat(2 << 20), do: 'open', link: 'room=9x9&' + 'x'.repeat(2 << 20) });
				const deep = { keelrow: 1, do: { toString: 1 } }; deep.deep = deep; tell(deep);
				tell({ keelrow: NaN, do: 'step' });
				await new Promise((r) => setTimeout(r, 300));
				return [told.slice(n).map((m) => m.said + ('id' in m)).join(' '), (await ask({ do: 'link' })).link];
			}`)
			same(p, "answers to wrong ones", got[0].(string), "errorfalse errorfalse errorfalse")
			same(p, "the link then", got[1].(string), before)
			many := eval[[]int](p, `async () => {
				await new Promise((r) => setTimeout(r, 1100));
				const n = told.length;
				for (let i = 0; i < 500; i++) tell({ keelrow: 1, do: 'link' });
				await new Promise((r) => setTimeout(r, 500));
				const all = told.slice(n);
				return [all.filter((m) => m.said === 'done').length, all.filter((m) => m.said === 'error').length];
			}`)
			if many[0] > 60 || many[1] < 1 || many[1] > 2 {
				t.Errorf("of 500 messages at once %d are done and %d refused", many[0], many[1])
			}
		})
	}
}

// A link may name the one origin that steers; the page alone hears nothing.
func TestFramedByAStranger(t *testing.T) {
	p := hosted(t, "#"+plain+"&face=lesson&host=https://school.example", "")
	p.allows("Failed to execute 'postMessage'")
	p.allows("target origin provided")
	n := eval[int](p, `async () => {
		await new Promise((r) => setTimeout(r, 2500));
		tell({ keelrow: 1, id: 1, do: 'step', step: 5 });
		await new Promise((r) => setTimeout(r, 300));
		return told.length;
	}`)
	same(p, "what a stranger is told", n, 0)

	alone := open(t, "#"+plain+"&face=lesson", desk)
	alone.lessonStep(1)
	alone.run(`async () => { postMessage({ keelrow: 1, do: 'step', step: 5 }, '*'); await new Promise((r) => setTimeout(r, 200)); }`)
	same(alone, "step", alone.key("step"), "")

	// What to paste is offered in the lesson and beside the files.
	alone.click("For a page of your own")
	alone.wait("the snippet", `() => document.querySelector('.own-page .snippet').value.includes('sandbox="allow-scripts"')`)
	want := strings.ReplaceAll(alone.h.origin+"/#"+plain+"&face=lesson&lang=en", "&", "&amp;")
	if got := eval[string](alone, `() => document.querySelector('.face .snippet').value`); !strings.Contains(got, want) {
		t.Errorf("the snippet is %s; want %s in it", got, want)
	}
	alone.click("Back to work")
	alone.click("Sheets")
	alone.click("For a page of your own")
	alone.wait("the snippet", `() => document.querySelector('.stage .snippet').value.includes('face=lesson')`)
}

// TestExamplePage uses the custom element as a teacher's page does.
func TestExamplePage(t *testing.T) {
	p := newPerson(t, desk)
	p.visit("example.html")
	p.comes("#said", "Step 1 of 13")
	p.click("The spacing")
	p.comes("#said", "Step 3 of 13: The spacing, measured")
	// 80 × √2 / 4 = 28.284 and 400 / √2 = 282.843 (OEIS A002193).
	// The browser learns a little later where a frame of another process has
	// gone when the page is scrolled.
	show := func(id string) {
		p.run(`async (id) => {
			document.getElementById(id).scrollIntoView({ block: 'center', behavior: 'instant' });
			await new Promise((r) => setTimeout(r, 500));
		}`, id)
	}
	show("compare")
	p.click("Compare")
	p.comes("[data-figure=spacing_mm]", "28.28 mm")
	p.comes("[data-figure=interval_mm]", "282.84 mm")
	show("ask")
	p.click("Ask it")
	p.comes("#said", "Question 9")
	got := eval[[]string](p, `async () => {
		const floor = document.querySelector('keelrow-floor'), out = [];
		floor.setAttribute('step', '4');
		for (let i = 0; i < 300 && !document.querySelector('#said').textContent.startsWith('Step 4'); i++) await new Promise((r) => setTimeout(r, 20));
		out.push(document.querySelector('#said').textContent);
		for (const f of [() => floor.open('room=3000x3000&block=70x350'), () => floor.next(), () => floor.play(), () => floor.repeat(), () => floor.pause(), () => floor.back(), () => floor.link()]) await f();
		out.push(await floor.link());
		out.push(await floor.open('room=1x').catch((e) => e.message));
		const frame = floor.shadowRoot.querySelector('iframe');
		out.push(frame.getAttribute('sandbox') + ' ' + frame.title + ' ' + frame.loading, String(frame.clientHeight > 400));
		floor.remove();
		out.push(await floor.step(3).catch((e) => e.message));
		return out;
	}`)
	for i, want := range []string{"Step 4 of 13", "room=3000x3000&block=70x350", "room", "allow-scripts The library floor, step by step", "true", "Put the floor on the page first."} {
		if !strings.Contains(got[i], want) {
			t.Errorf("%d: %q, want %q", i, got[i], want)
		}
	}
}
