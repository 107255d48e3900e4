package browser

import (
	"context"
	"errors"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"keelrow/scripts/internal/serve"
	"keelrow/scripts/internal/site"
)

// host is a server of its own at one address: the connection to it can go, it
// can hold another build, and it can break off at a file.
type host struct {
	t       *testing.T
	address string
	rules   serve.Rules
	server  *http.Server

	mu    sync.Mutex
	dist  string // the build that is served
	fails string // part of the path at which it breaks off, if any
}

func (s *host) up() {
	s.t.Helper()
	listener, err := net.Listen("tcp", s.address)
	if err != nil {
		s.t.Fatal(err)
	}
	s.address = listener.Addr().String()
	s.server = &http.Server{Handler: s}
	go s.server.Serve(listener)
}

func (s *host) down() { s.server.Close() }

func (s *host) serves(dist, fails string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.dist, s.fails = dist, fails
}

func (s *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	dist, fails := s.dist, s.fails
	s.mu.Unlock()
	if fails != "" && strings.Contains(r.URL.Path, fails) {
		panic(http.ErrAbortHandler) // the connection breaks off
	}
	serve.Handler(os.DirFS(dist), s.rules).ServeHTTP(w, r)
}

// fresh returns a house with a server of its own and a browser that has never
// been there.
func fresh(t *testing.T) (*house, *host) {
	t.Helper()
	h, err := enter()
	if errors.Is(err, errNoBrowser) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	rules, err := serve.ReadRules(filepath.Join(h.root, "netlify.toml"))
	if err != nil {
		t.Fatal(err)
	}
	s := &host{t: t, address: "127.0.0.1:0", rules: rules, dist: h.dist}
	s.up()
	t.Cleanup(s.down)
	own, shut := chromedp.NewContext(h.browser, chromedp.WithNewBrowserContext())
	t.Cleanup(shut)
	if err := chromedp.Do(own); err != nil {
		t.Fatal(err)
	}
	return &house{root: h.root, dist: h.dist, origin: "http://" + s.address, browser: own}, s
}

// job is a bookmark. 4.2 m by 3.6 m are 15.12 m².
const job = "#room=4200x3600"

// settled opens the job for the first time and waits until the device keeps the
// page.
func settled(t *testing.T, h *house) *person {
	t.Helper()
	p := newTab(t, h, desk)
	p.visit(job)
	p.ready()
	p.offline("ready")
	return p
}

func (p *person) offline(state string) {
	p.t.Helper()
	p.wait("the page to be kept: "+state, `(state) => document.documentElement.dataset.offline === state`, state)
	p.rest()
}

func (p *person) version() string {
	p.t.Helper()
	return eval[string](p, `() => document.documentElement.dataset.version`)
}

// works fails the test unless the job is open and the desk answers.
func (p *person) works() {
	p.t.Helper()
	p.ready()
	p.see(".facts", "15.12 m²")
	p.keys("3")
	p.wait("the desk to answer", `() => {
		const boxes = [...document.querySelectorAll('[data-wants]')];
		return boxes.length > 0 && boxes.every((b) => b.getAttribute('aria-busy') === 'false');
	}`)
	if text := p.text("#stage"); strings.Contains(text, "did not arrive") {
		p.t.Errorf("the desk does not run: %s", text)
	}
	p.keys("1")
}

// cold opens a link in a new tab and shuts it again.
func cold(t *testing.T, h *house, link string, look func(p *person)) {
	t.Helper()
	p := newTab(t, h, desk)
	defer p.leave()
	p.visit(link)
	look(p)
}

// secondBuild is the page with another style sheet.
var secondBuild = sync.OnceValues(func() (dist string, err error) {
	h, err := enter()
	if err != nil {
		return "", err
	}
	dir := filepath.Join(filepath.Dir(h.dist), "second")
	files := filepath.Join(dir, "site")
	if err := os.CopyFS(files, os.DirFS(filepath.Join(h.root, "site"))); err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(files, "page.css"))
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(filepath.Join(files, "page.css"), append(text, "\n:root { --second: yes; }\n"...), 0o666); err != nil {
		return "", err
	}
	dist = filepath.Join(dir, "dist")
	_, err = site.Build(context.Background(), site.Options{Root: h.root, Site: files, Out: dist})
	return dist, err
})

func second(t *testing.T) string {
	t.Helper()
	dist, err := secondBuild()
	if err != nil {
		t.Fatal(err)
	}
	return dist
}

// build says which of the two builds the page is.
func (p *person) build() string {
	p.t.Helper()
	return eval[string](p, buildOf)
}

const buildOf = `() => document.readyState !== 'complete' ? 'loading'
	: getComputedStyle(document.documentElement).getPropertyValue('--second').trim() === 'yes' ? 'second' : 'first'`

// becomesSecond waits until the page has loaded again as the second build.
func (p *person) becomesSecond() {
	p.t.Helper()
	p.until("the second build", func() bool {
		build, err := try[string](p, buildOf) // fails while one page gives way to the other
		return err == nil && build == "second"
	})
}

// caches returns the names of the caches that there are.
func (p *person) caches() string {
	p.t.Helper()
	return eval[string](p, `async () => (await caches.keys()).join(' ')`)
}

func TestOffline(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	p.see(".masthead", "Works offline")
	same(p, "caches", p.caches(), "keelrow-"+p.version())
	p.look(phone)
	p.see(".offline-foot", "Works offline. Version "+p.version()+".")
	if !p.shown(".offline-foot") || p.shown(".masthead .offline") {
		t.Error("on a phone it is said at the foot of the stage, and nowhere else")
	}
	p.look(desk)
	if !p.shown(".masthead .offline") || p.shown(".offline-foot") {
		t.Error("on a desk it is said in the masthead, and nowhere else")
	}

	// The connection goes while the page is open. Its desk has not run yet.
	s.down()
	p.forget()
	p.works()
	p.leave()

	// A cold start from a bookmark, in all the forms that a link has.
	for _, link := range []string{job, "?room=4200x3600", "index.html" + job} {
		cold(t, h, link, func(p *person) {
			p.works()
			p.offline("ready")
			if p.shown("#problem") {
				t.Errorf("%s: %s", link, p.text("#problem"))
			}
		})
	}
}

// TestOfflineLeavesOthersAlone: what is not the page's is answered by the
// server, and caches that are not the page's stay.
func TestOfflineLeavesOthersAlone(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	p.run(`() => caches.open('somebody else’s')`)
	p.expects("404")
	p.expects("405")
	same(p, "status of a wrong address", eval[int](p, `async () => (await fetch('no-such-page')).status`), 404)
	same(p, "status of a POST", eval[int](p, `async () => (await fetch('./', { method: 'POST' })).status`), 405)

	s.serves(second(t), "")
	p.do(chromedp.Reload())
	p.ready()
	p.offline("update")
	p.look(phone) // where the button stands at the foot of the stage
	p.clickOn(".offline-foot button")
	p.becomesSecond()
	p.ready()
	p.offline("ready")
	p.until("the earlier build's cache to go", func() bool {
		return p.caches() == "somebody else’s keelrow-"+p.version()
	})
}

func TestNewVersion(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	before := p.version()
	s.serves(second(t), "")

	// Until somebody agrees, every tab works with the first build, although
	// its files are no longer on the server.
	p.do(chromedp.Reload())
	p.ready()
	p.offline("update")
	same(p, "build before agreeing", p.build(), "first")
	same(p, "version before agreeing", p.version(), before)
	if p.shown(".masthead span.offline") {
		t.Error("next to the offer of a new version it says that the page works offline")
	}
	p.works()
	cold(t, h, job, func(p *person) {
		p.works()
		same(p, "build in another tab", p.build(), "first")
	})

	// It loads once, with the job that is open.
	other := newTab(t, h, desk)
	other.visit(job)
	other.ready()
	p.typeInto("Width", "4300")
	p.click("New version: load it")
	p.becomesSecond()
	p.ready()
	p.offline("ready")
	same(p, "room", p.key("room"), "4300x3600")
	if p.version() == before {
		t.Errorf("the version is still %s", before)
	}
	other.becomesSecond()
	other.works()

	s.down()
	cold(t, h, job, func(p *person) {
		p.works()
		same(p, "build without a connection", p.build(), "second")
	})
}

// TestNewVersionWithoutAsking shuts all tabs: then there is nobody to ask.
func TestNewVersionWithoutAsking(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	s.serves(second(t), "")
	p.do(chromedp.Reload())
	p.ready()
	p.offline("update")
	p.leave()
	p = newTab(t, h, desk)
	p.until("the second build", func() bool {
		p.visit("404.html") // which is no part of what is kept
		p.visit(job)
		p.ready()
		return p.build() == "second"
	})
	p.works()
}

// TestUpdateBreaksOff: the second build never arrives whole.
func TestUpdateBreaksOff(t *testing.T) {
	for what, fails := range map[string]string{"a style sheet": "page.", "the page": "index.html"} {
		t.Run(what, func(t *testing.T) {
			h, s := fresh(t)
			p := settled(t, h)
			before := p.version()
			if fails == "index.html" {
				// The server has the new worker and still the old page.
				mixed := t.TempDir()
				if err := os.CopyFS(mixed, os.DirFS(second(t))); err != nil {
					t.Fatal(err)
				}
				for _, name := range []string{"index.html", "index.html.br", "index.html.gz"} {
					text, err := os.ReadFile(filepath.Join(h.dist, name))
					if err != nil {
						t.Fatal(err)
					}
					if err := os.WriteFile(filepath.Join(mixed, name), text, 0o666); err != nil {
						t.Fatal(err)
					}
				}
				s.serves(mixed, "")
			} else {
				s.serves(second(t), fails)
			}
			p.allows("Failed to find a valid digest")
			p.run(`async () => {
				const r = await navigator.serviceWorker.getRegistration();
				const over = new Promise((done) => r.addEventListener('updatefound', () => {
					const next = r.installing;
					next.addEventListener('statechange', () => { if (next.state !== 'installing') done(next.state); });
				}));
				await r.update().catch(() => {});
				const state = await over;
				if (state !== 'redundant') throw new Error('half a build is ' + state);
			}`)
			same(p, "caches", p.caches(), "keelrow-"+before)
			p.do(chromedp.Reload())
			p.works()
			p.offline("ready")
			s.down()
			cold(t, h, job, func(p *person) {
				p.works()
				same(p, "build", p.build(), "first")
				same(p, "version", p.version(), before)
			})

			// It is tried again when the server is in order.
			if fails == "index.html" {
				return
			}
			s.up()
			s.serves(second(t), "")
			p.do(chromedp.Reload())
			p.ready()
			p.offline("update")
		})
	}
}

// TestCacheIsIncomplete takes files out of what is kept.
func TestCacheIsIncomplete(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	drop := func(part string, count int) {
		t.Helper()
		if n := eval[int](p, `async (part) => {
			let n = 0;
			for (const name of await caches.keys()) {
				const cache = await caches.open(name);
				for (const r of await cache.keys()) {
					if (part === './' ? r.url.endsWith('/') : r.url.includes(part)) n += await cache.delete(r);
				}
			}
			return n;
		}`, part); n != count {
			t.Fatalf("%d files are called %s, want %d", n, part, count)
		}
	}
	for _, part := range []string{"/keelrow.", "/desk.", "/page.", "./"} {
		if part == "/desk." {
			drop(part, 2) // the program and its script
		} else {
			drop(part, 1)
		}
		p.forget()
		cold(t, h, job, func(p *person) { p.works() })
	}
	p.until("the files to be kept again", func() bool {
		return eval[int](p, `async () => (await (await caches.open((await caches.keys())[0])).keys()).filter((r) => /keelrow\.|desk|page|\/$/.test(r.url)).length`) == 5
	})

	// Without a connection the page says what to do.
	drop("./", 1)
	s.down()
	p.forget()
	cold(t, h, job, func(p *person) {
		p.expects("503")
		p.see("body", "Connect once and open the same link again; the link holds your job.")
	})
	s.up()
	cold(t, h, job, func(p *person) {
		p.works()
		drop("/keelrow.", 1)
		s.down()
		p.forget()
		p.expects(".wasm")
		p.expects("console.error")
		p.do(chromedp.Reload())
		p.wait("the problem to be said", `() => person.seen(person.one('#problem'))`)
		p.see("#problem", "Check the connection and reload; the link holds your job.")
		s.up()
		p.click("Reload the page")
		p.works()
	})
}

// forget empties the browser's cache of what the server sent.
func (p *person) forget() {
	p.t.Helper()
	must(p, network.ClearBrowserCache, cdp.Empty{})
}
