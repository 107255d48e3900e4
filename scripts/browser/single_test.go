package browser

import (
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"keelrow/scripts/internal/site"
)

// folder returns a house without a server: a folder with the page as one file
// in it. A file that is double-clicked has an address such as this.
func folder(t *testing.T) *house {
	t.Helper()
	h, err := enter()
	if errors.Is(err, errNoBrowser) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "Floors & stairs, no. 3")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(h.dist, site.Single))
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, site.Single), text, 0o666)
	}
	if err != nil {
		t.Fatal(err)
	}
	return &house{root: h.root, dist: dir, origin: (&url.URL{Scheme: "file", Path: dir}).String(), browser: h.browser}
}

// requests returns what the tab has asked for from now on, apart from what
// stands in the page itself.
func (p *person) requests() func() []string {
	p.t.Helper()
	var mu sync.Mutex
	var urls []string
	err := chromedp.Listen(p.ctx, func(event any) {
		e, ok := event.(*network.EventRequestWillBeSent)
		if !ok || strings.HasPrefix(e.Request.URL, "data:") || strings.HasPrefix(e.Request.URL, "blob:null/") {
			return
		}
		mu.Lock()
		urls = append(urls, e.Request.URL)
		mu.Unlock()
	})
	if err != nil {
		p.t.Fatal(err)
	}
	return func() []string {
		mu.Lock()
		defer mu.Unlock()
		return slices.Clone(urls)
	}
}

// sheets sets the sheets that are chosen and returns what is written on them.
func (p *person) sheets() string {
	p.t.Helper()
	p.run(`() => { window.print = () => {}; }`)
	p.click("Print")
	p.wait("the sheets to be set", `() => document.querySelector('body > .sheets') !== null`)
	return p.text("body > .sheets")
}

// TestOneFile opens the page from a folder, as one who double-clicks it does.
func TestOneFile(t *testing.T) {
	h := folder(t)
	p := newTab(t, h, desk)
	asked := p.requests()

	// Without a link there is the demo.
	p.visit(site.Single)
	p.ready()
	same(p, "link", p.link(), demo)

	// A bookmark with a link. 5 m by 3.6 m are 18 m².
	p.do(chromedp.Navigate("about:blank")) // so that the next is no step within the page
	p.visit(site.Single + job)
	p.works()
	p.typeInto("Width", "5000")
	p.see(".facts", "18.00 m²")
	same(p, "room in the link", p.key("room"), "5000x3600")
	p.typeInto("Width", "five")
	p.see(".facts", "18.00 m²")
	p.typeInto("Width", "5000")

	p.click("Lay")
	_, all := p.laid()
	p.run(`() => { location.hash = location.hash.replace('&laid=', '&x=') + '&laid=0'; }`)
	p.rest()
	p.click("Play")
	p.until("blocks to be laid", func() bool { n, _ := p.laid(); return n > 2 })
	p.click("Pause")
	if n, again := p.laid(); n == 0 || n == again || again != all {
		t.Errorf("after playing and pausing it has laid %d of %d blocks, of %d before", n, again, all)
	}
	for _, stage := range stages {
		p.click(stage)
		p.allFilled()
		same(p, "title", p.text("#stage-title"), stage)
	}
	p.click("Sheets")
	if p.shown(`[data-do="one-file"]`) {
		t.Error("the page as one file offers to make one of itself")
	}
	if text := p.sheets(); strings.Contains(text, h.origin) || !strings.Contains(text, "room=5000x3600") {
		t.Errorf("the sheets have the file's own address, or no link: %.1000s", text)
	}
	if p.shown("#problem") || p.shown(".masthead .offline") {
		t.Error("it shows a problem, or speaks of what is kept on the device")
	}
	file := h.origin + "/" + site.Single
	for _, url := range asked() {
		if bare, _, _ := strings.Cut(url, "#"); bare != file && bare != "about:blank" {
			t.Errorf("it asks for %s", url)
		}
	}
	if n := eval[int](p, `() => document.querySelectorAll('script[src], link:not([href^="data:"])').length`); n > 0 {
		t.Errorf("%d elements name other files", n)
	}
}

// TestOneFileReachesNothing: there is no server to forbid it, so the file does.
// Whatever runs in it, in the page or in a worker, fetches nothing, not even
// from the server that it comes from here.
func TestOneFileReachesNothing(t *testing.T) {
	h := folder(t)
	var hits atomic.Int32
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/" + site.Single:
			http.ServeFile(w, r, filepath.Join(h.dist, site.Single))
		case "/asked":
			hits.Add(1)
		case "/free.html":
			w.Header().Set("Content-Type", "text/html")
		default:
			http.NotFound(w, r)
		}
	}))
	defer server.Close()
	h.origin = server.URL
	const ask = `(url) => fetch(url).then(() => 'got it', () => 'nothing')`
	const byWorker = `async (ask, url) => {
		const text = 'onmessage = async () => postMessage(await (' + ask + ')("' + url + '"))';
		const worker = new Worker(URL.createObjectURL(new Blob([text])));
		const said = new Promise((done, fail) => { worker.onmessage = (e) => done(e.data); worker.onerror = fail; });
		worker.postMessage('');
		return said;
	}`
	for _, tt := range []struct {
		link, want string
		hits       int32
	}{
		{"free.html", "got it", 2}, // a page without such a rule
		{site.Single + job, "nothing", 0},
	} {
		p := newTab(t, h, desk)
		p.allows("error: ") // of the console, beside the issue
		p.visit(tt.link)
		if tt.hits == 0 {
			p.works()
			p.expects("ContentSecurityPolicy")
		} else {
			p.allows("") // it lacks an icon, a language and more
		}
		hits.Store(0)
		same(p, "asked by the page", eval[string](p, ask, h.origin+"/asked"), tt.want)
		same(p, "asked by a worker", eval[string](p, byWorker, ask, h.origin+"/asked"), tt.want)
		same(p, "requests that arrived", hits.Load(), tt.hits)
		p.leave()
	}
}

// TestOneFileTooOld: without what unpacks the programs there is a sentence.
func TestOneFileTooOld(t *testing.T) {
	p := newTab(t, folder(t), phone)
	must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `window.DecompressionStream = undefined;`})
	p.visit(site.Single + job)
	p.wait("the problem to be said", `() => person.seen(person.one('#problem'))`)
	p.see("#problem", "This browser is too old to open the page as one file. Update it, or open the file in a newer one; the link holds your job.")
	if p.shown("#reload") || p.shown("#progress") {
		t.Error("a browser that is too old is offered to wait or to reload")
	}
}

// TestPageHandsOverOneFile takes the file from the page and opens it.
func TestPageHandsOverOneFile(t *testing.T) {
	h, s := fresh(t)
	p := settled(t, h)
	p.allows("NavigationEntryMarkedSkippable")
	dir := t.TempDir()
	must(p, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir, BrowserContextID: chromedp.FromContext(p.ctx).BrowserContextID})
	// A name with all that could end an attribute, or stand for something else.
	const name = `hall "A" & B's <$&> $1 é`
	p.run(`(name) => { location.hash += '&door=AB:1200,813,' + encodeURIComponent(name) + '&stage=measure'; }`, name)
	p.rest()
	want := p.key("door")
	p.click("Sheets")
	p.click("The page as one file")
	p.comes("#sheets-said", "keelrow.html is made.")
	path := filepath.Join(dir, "keelrow.html")
	p.until("the file to come down", func() bool {
		text, err := os.ReadFile(path)
		return err == nil && strings.HasSuffix(string(text), "</html>\n")
	})

	// Without a connection it says so, since the device does not keep it.
	s.down()
	p.forget()
	p.click("The page as one file")
	p.expects("ERR_CONNECTION_REFUSED")
	p.comes("#sheets-said", "The file is not kept on this device. Connect once and press again; the link holds your job.")
	p.leave()

	for _, link := range []string{"", job} {
		at := newTab(t, &house{root: h.root, dist: dir, origin: (&url.URL{Scheme: "file", Path: dir}).String(), browser: h.browser}, desk)
		at.visit("keelrow.html" + link)
		at.works()
		if link == "" {
			same(at, "link", at.key("door"), want)
			at.click("Sheets")
			if text := at.sheets(); !strings.Contains(text, h.origin+"/#") {
				t.Errorf("the sheets do not lead to %s, which the file was taken from", h.origin)
			}
		} else {
			same(at, "link of its own", at.key("door"), "")
		}
		at.leave()
	}
}
