package browser

import (
	"context"
	"errors"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
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
	fails string // the path at which it breaks off, if any
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
	files := serve.Handler(os.DirFS(dist), s.rules)
	if r.URL.Path != fails {
		files.ServeHTTP(w, r)
		return
	}
	// Half of the file comes, then the connection breaks off.
	whole := httptest.NewRecorder()
	files.ServeHTTP(whole, r)
	maps.Copy(w.Header(), whole.Header())
	w.WriteHeader(whole.Code)
	w.Write(whole.Body.Bytes()[:whole.Body.Len()/2])
	w.(http.Flusher).Flush()
	panic(http.ErrAbortHandler)
}

// fresh returns a house with a server of its own and a browser that has never
// been there.
func fresh(t *testing.T, options ...chromedp.CreateBrowserContextOption) (*house, *host) {
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
	own, shut := chromedp.NewContext(h.browser, chromedp.WithNewBrowserContext(options...))
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

// wholePage goes through every stage, face and sheet, all that the desk answers
// included.
func (p *person) wholePage() {
	p.t.Helper()
	p.works()
	for _, stage := range stages {
		p.click(stage)
		p.allFilled()
		if text := p.text("#stage"); strings.Contains(text, "did not arrive") {
			p.t.Errorf("on %s the desk does not run: %s", stage, text)
		}
	}
	p.click("Sheets")
	if text := p.sheets(); !strings.Contains(text, "room=4200x3600") {
		p.t.Errorf("the sheets lack the link: %.300s", text)
	}
	for _, face := range []string{"site", "show", "lesson", "work"} {
		p.run(`(face) => { location.hash = location.hash.replace(/&face=\w+/, '') + '&face=' + face; }`, face)
		p.rest()
		same(p, "face", eval[string](p, `() => person.one('#app').dataset.face`), face)
		p.allFilled()
	}
	if p.shown("#problem") {
		p.t.Errorf("it says: %s", p.text("#problem"))
	}
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
	p.allows("NavigationEntryMarkedSkippable")
	p.wholePage()
	p.leave()

	// A cold start from a bookmark, in all the forms that a link has.
	for _, link := range []string{job, "?room=4200x3600", "index.html" + job} {
		cold(t, h, link, func(p *person) {
			p.allows("NavigationEntryMarkedSkippable")
			p.wholePage()
			p.offline("ready")
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

// files returns the paths of all that a build keeps on the device: the service
// worker's own list.
func files(t *testing.T, dist string) (paths []string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dist, site.Worker))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`\["([^"]+)", "sha256-`).FindAllSubmatch(text, -1) {
		paths = append(paths, "/"+strings.TrimPrefix(string(m[1]), "./"))
	}
	if len(paths) < 15 {
		t.Fatalf("the service worker keeps only %q", paths)
	}
	return paths
}

// updates has the browser look for a new version and returns what becomes of
// it: "redundant" when it is given up, "none" when there is none.
func (p *person) updates() string {
	p.t.Helper()
	return eval[string](p, `async () => {
		const r = await navigator.serviceWorker.getRegistration();
		const over = new Promise((done) => r.addEventListener('updatefound', () => {
			const next = r.installing;
			next.addEventListener('statechange', () => { if (next.state !== 'installing') done(next.state); });
		}));
		try {
			await r.update();
		} catch {
			return 'none';
		}
		return over;
	}`)
}

// TestUpdateBreaksOff: the second build breaks off at each of its files in
// turn, half of which has come. The first stays whole and in use.
func TestUpdateBreaksOff(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	p.allows("net::ERR_")
	before := p.version()
	count := eval[int](p, `async () => (await (await caches.open((await caches.keys())[0])).keys()).length`)
	for _, path := range append(files(t, second(t)), "/"+site.Worker) {
		s.serves(second(t), path)
		p.forget() // or the files that are the same would not be asked for
		want := "redundant"
		if path == "/"+site.Worker {
			want = "none"
		}
		same(p, "the update that breaks off at "+path, p.updates(), want)
		same(p, "caches after "+path, p.caches(), "keelrow-"+before)
		p.do(chromedp.Reload())
		p.ready()
		p.offline("ready") // all of its files are looked through
		same(p, "build after "+path, p.build(), "first")
		same(p, "version after "+path, p.version(), before)
	}
	same(p, "files kept", eval[int](p, `async () => (await (await caches.open((await caches.keys())[0])).keys()).length`), count)
	s.down()
	cold(t, h, job, func(p *person) {
		p.works()
		same(p, "build", p.build(), "first")
	})

	// It is tried again when the server is in order.
	s.up()
	s.serves(second(t), "")
	p.do(chromedp.Reload())
	p.ready()
	p.offline("update")
}

// TestUpdateIsMixed: the server has the new worker and still the old page.
func TestUpdateIsMixed(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	before := p.version()
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
	p.allows("Failed to find a valid digest")
	same(p, "the update", p.updates(), "redundant")
	same(p, "caches", p.caches(), "keelrow-"+before)
	p.do(chromedp.Reload())
	p.works()
	same(p, "build", p.build(), "first")
}

// TestOpenTabLooksForNewVersion: a tab that is open for days asks again, at
// most once an hour, when somebody comes back to it.
func TestOpenTabLooksForNewVersion(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	s.serves(second(t), "")
	back := func(minutes int) {
		t.Helper()
		p.run(`(minutes) => {
			const now = Date.now() + minutes * 60000;
			Date.now = () => now;
			document.dispatchEvent(new Event('visibilitychange'));
		}`, minutes)
	}
	back(59)
	p.run(`() => new Promise((r) => setTimeout(r, 500))`)
	same(p, "asked within the hour", eval[bool](p, `async () => { const r = await navigator.serviceWorker.getRegistration(); return !!(r.installing || r.waiting); }`), false)
	back(2)
	p.offline("update")
	same(p, "build", p.build(), "first")
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

// spoil puts something else in place of what is kept under a path, and of
// everything if it is "".
func (p *person) spoil(path string) {
	p.t.Helper()
	n := eval[int](p, `async (path) => {
		let n = 0;
		for (const name of await caches.keys()) {
			const cache = await caches.open(name);
			for (const r of await cache.keys()) {
				if (path && new URL(r.url).pathname !== path) continue;
				const type = (await cache.match(r)).headers.get('Content-Type');
				await cache.put(r, new Response('gar\0bage', { headers: { 'Content-Type': type } }));
				n++;
			}
		}
		return n;
	}`, path)
	if n == 0 {
		p.t.Fatalf("nothing is kept as %q", path)
	}
}

// stands waits until the page stands, which may load again by itself before.
func (p *person) stands() {
	p.t.Helper()
	p.until("the page to stand", func() bool {
		done, err := try[bool](p, `() => !!document.querySelector('#status')?.hidden`)
		return err == nil && done
	})
	p.ready()
}

// TestCacheIsDamaged spoils files that are kept, then all of them, then throws
// the whole cache away. With a connection the page is whole again after one
// start; without one it says what to do.
func TestCacheIsDamaged(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	kept := files(t, h.dist)
	// path returns the path of a file by how its name begins and ends.
	path := func(begins, ends string) string {
		t.Helper()
		i := slices.IndexFunc(kept, func(path string) bool { return strings.HasPrefix(path, begins) && strings.HasSuffix(path, ends) })
		if i < 0 {
			t.Fatalf("no file is called %s…%s", begins, ends)
		}
		return kept[i]
	}
	const incomplete, connect = "The page did not arrive complete. Check the connection and reload; the link holds your job.", "Connect once and open the same link again; the link holds your job."
	for _, tt := range []struct {
		what, path string
		says       string // without a connection
	}{
		{"the page", "/", connect},
		{"a script", path("/start.", ".js"), ""},
		{"a style sheet", path("/work.", ".css"), incomplete},
		{"the program", path("/keelrow.", ".wasm"), incomplete},
		{"the desk", path("/desk.", ".wasm"), "This part of the page did not arrive. Reload the page when there is a connection."},
		{"everything", "", connect},
		{"the cache itself", "gone", connect},
	} {
		damage := func() {
			t.Helper()
			p.forget()
			if tt.path == "gone" {
				p.run(`async () => { for (const name of await caches.keys()) await caches.delete(name); }`)
			} else {
				p.spoil(tt.path)
			}
		}
		mended := func() {
			t.Helper()
			cold(t, h, job, func(p *person) {
				p.allows("console.error") // of a program that is none
				p.stands()
				p.offline("ready")
				p.works()
			})
		}
		damage()
		mended()
		if tt.says == "" {
			continue
		}
		damage()
		s.down()
		cold(t, h, job, func(p *person) {
			p.allows("")
			p.until(tt.what+" to be missed: "+tt.says, func() bool {
				said, err := try[bool](p, `(says) => document.body.innerText.replace(/\s+/g, ' ').includes(says)`, tt.says)
				return err == nil && said
			})
		})
		s.up()
		mended()
	}
	// What was mended stays.
	s.down()
	p.forget()
	cold(t, h, job, func(p *person) { p.wholePage() })
}

// forget empties the browser's cache of what the server sent.
func (p *person) forget() {
	p.t.Helper()
	must(p, network.ClearBrowserCache, cdp.Empty{})
}
