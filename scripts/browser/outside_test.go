package browser

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"path"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// autofill is what Chromium asks its maker by itself for every page with
// fields. It gets nothing here.
const autofill = "CONNECT //content-autofill.googleapis.com:443"

// TestNothingFromElsewhere lets everything that the browser asks for go
// through a proxy, whoever asks for it: the page, the worker that the desk runs
// in, the service worker or the browser for the page's sake. The harness hears
// of the page's own requests only.
func TestNothingFromElsewhere(t *testing.T) {
	var mu sync.Mutex
	asked := map[string]bool{}
	forward := httputil.ReverseProxy{Rewrite: func(r *httputil.ProxyRequest) {}}
	proxy := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mu.Lock()
		asked[r.Method+" "+r.URL.String()] = true
		mu.Unlock()
		if r.Method == http.MethodConnect {
			http.Error(w, "there is nothing behind this proxy", http.StatusForbidden)
			return
		}
		forward.ServeHTTP(w, r)
	}))
	defer proxy.Close()
	h, s := fresh(t, func(p *target.CreateBrowserContextParams) {
		p.ProxyServer, p.ProxyBypassList = proxy.URL, "<-loopback>" // this machine too
	})
	p := settled(t, h)
	p.allows("NavigationEntryMarkedSkippable")
	p.wholePage()
	s.serves(second(t), "")
	p.do(chromedp.Reload())
	p.ready()
	p.offline("update")
	p.leave()

	mu.Lock()
	defer mu.Unlock()
	for request := range asked {
		if !strings.HasPrefix(request, "GET "+h.origin+"/") && request != autofill {
			t.Errorf("asked for: %s", request)
		}
	}
	// Of these the desk's worker and the service worker alone have asked.
	for _, name := range []string{"/desk.*.wasm", "/sw.js", "/icon-512.*.png"} {
		seen := false
		for request := range asked {
			ok, err := path.Match(name, strings.TrimPrefix(request, "GET "+h.origin))
			seen = seen || ok && err == nil
		}
		if !seen {
			t.Errorf("%s did not come through the proxy: %v", name, asked)
		}
	}
}

// TestJunkAsALink puts junk into the address bar of a page that is open: there
// is a sentence, and the floor stays or gives way to the usual one, soon.
func TestJunkAsALink(t *testing.T) {
	p := open(t, "#room=5000x3600", desk)
	p.allows("NavigationEntryMarkedSkippable")
	const stays, usual = "18.00 m²", "15.12 m²" // 5 m by 3.6 m, 4.2 m by 3.6 m
	for _, tt := range []struct {
		what, text  string
		says, floor string
	}{
		{"2 MB of one letter", strings.Repeat("x", 2_000_000), "The link is 2000001 characters long but has to be at most 65536. None of it was opened.", stays},
		{"2 MB of keys", strings.Repeat("a&", 1_000_000), "None of it was opened.", stays},
		{"2 MB behind a job", "room=4000x4000" + strings.Repeat("&hole=1,1;2,1;2,2", 120_000), "None of it was opened.", stays},
		// As long as a link may be.
		{"a key that is none", strings.Repeat("%41%zz", 10_000), "is not known here", usual},
		{"a room of 16,001 corners", "room=" + strings.Repeat("1,2;", 16_000), "There are 16001 corners; from 3 to 2000 can be used.", usual},
		{"3,600 holes", "room=4200x3600" + strings.Repeat("&hole=1,1;2,1;2,2", 3_600), "hole is given more than 200 times: the rest is left out.", usual},
		{"6,000 readings", "tape=" + strings.Repeat("AB:4200;", 6_000), "tape", usual},
	} {
		before := p.link()
		start := time.Now()
		p.run(`(text) => { location.hash = text; }`, tt.text)
		p.rest()
		if took := time.Since(start); took > patience {
			t.Errorf("%s takes %v", tt.what, took)
		}
		p.comes("#app", tt.says)
		p.see(".facts", tt.floor)
		if tt.floor == stays {
			same(p, "link after "+tt.what, p.link(), before)
		} else {
			p.run(`() => { location.hash = 'room=5000x3600'; }`)
			p.rest()
		}
	}
}
