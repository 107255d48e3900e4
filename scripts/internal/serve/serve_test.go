package serve

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

var files = fstest.MapFS{
	"index.html":                 {Data: []byte("<p>page")},
	"404.html":                   {Data: []byte("<p>nothing here")},
	"404.html.br":                {Data: []byte("nothing, with brotli")},
	"keelrow.3fa2c1d09b.wasm":    {Data: []byte("plain")},
	"keelrow.3fa2c1d09b.wasm.br": {Data: []byte("brotli")},
	"keelrow.3fa2c1d09b.wasm.gz": {Data: []byte("gzip")},
	"folder/one.txt":             {Data: []byte("one")},
}

func get(t *testing.T, method, path string, header ...string) (*http.Response, string) {
	t.Helper()
	_, rules := netlify(t)
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	Handler(files, rules).ServeHTTP(w, r)
	body, err := io.ReadAll(w.Result().Body)
	if err != nil {
		t.Fatal(err)
	}
	return w.Result(), string(body)
}

func TestHandler(t *testing.T) {
	const program = "/keelrow.3fa2c1d09b.wasm"
	for _, tt := range []struct {
		method, path, accept string
		status               int
		body, coding, kind   string
	}{
		{"GET", "/", "br", 200, "<p>page", "", "text/html; charset=utf-8"},
		{"GET", "/index.html", "", 200, "<p>page", "", "text/html; charset=utf-8"},
		{"GET", program, "gzip, br", 200, "brotli", "br", "application/wasm"},
		{"GET", program, "gzip", 200, "gzip", "gzip", "application/wasm"},
		{"GET", program, "identity", 200, "plain", "", "application/wasm"},
		{"HEAD", program, "br", 200, "", "br", "application/wasm"},
		{"GET", program, "*;q=0", 406, "", "", "text/plain; charset=utf-8"},
		{"GET", "/folder", "", 404, "<p>nothing here", "", "text/html; charset=utf-8"},
		{"GET", "/folder/none", "br", 404, "nothing, with brotli", "br", "text/html; charset=utf-8"},
		{"GET", "/../serve.go", "", 404, "<p>nothing here", "", "text/html; charset=utf-8"},
		{"GET", "/folder/../index.html", "", 200, "<p>page", "", "text/html; charset=utf-8"},
		{"GET", "/folder/one.txt", "", 200, "one", "", "application/octet-stream"},
		{"POST", "/", "", 405, "", "", "text/plain; charset=utf-8"},
	} {
		res, body := get(t, tt.method, tt.path, "Accept-Encoding", tt.accept)
		if res.StatusCode != tt.status || tt.body != "" && body != tt.body || tt.method == "HEAD" && body != "" {
			t.Errorf("%s %s (%s) = %d %q, want %d %q", tt.method, tt.path, tt.accept, res.StatusCode, body, tt.status, tt.body)
		}
		if got := res.Header.Get("Content-Encoding"); got != tt.coding {
			t.Errorf("%s %s (%s): Content-Encoding %q, want %q", tt.method, tt.path, tt.accept, got, tt.coding)
		}
		if got := res.Header.Get("Content-Type"); got != tt.kind {
			t.Errorf("%s %s: Content-Type %q, want %q", tt.method, tt.path, got, tt.kind)
		}
		if tt.status < 405 && res.Header.Get("Content-Security-Policy") == "" {
			t.Errorf("%s %s: no content security policy", tt.method, tt.path)
		}
	}
}

func TestCaching(t *testing.T) {
	const program = "/keelrow.3fa2c1d09b.wasm"
	res, _ := get(t, "GET", program, "Accept-Encoding", "br")
	if got := res.Header.Get("Vary"); got != "Accept-Encoding" {
		t.Errorf("Vary is %q, want Accept-Encoding", got)
	}
	if got := res.Header.Get("Cache-Control"); !strings.Contains(got, "immutable") {
		t.Errorf("Cache-Control of a file named by its content is %q", got)
	}
	tag := res.Header.Get("ETag")
	if res, body := get(t, "GET", program, "Accept-Encoding", "br", "If-None-Match", `"other", W/`+tag); res.StatusCode != 304 || body != "" {
		t.Errorf("asked again with its tag: %d %q, want 304", res.StatusCode, body)
	}
	// RFC 9110, section 8.8.3.3: what is coded differently has another tag.
	if res, _ := get(t, "GET", program, "Accept-Encoding", "gzip", "If-None-Match", tag); res.StatusCode != 200 {
		t.Errorf("asked with the tag of the brotli form for the gzip form: %d, want 200", res.StatusCode)
	}
	res, _ = get(t, "GET", "/nowhere.js", "If-None-Match", "*")
	if got := res.Header.Get("Cache-Control"); res.StatusCode != 404 || got != "no-cache" {
		t.Errorf("an address without a file, asked for again: %d with Cache-Control %q, want 404 with no-cache", res.StatusCode, got)
	}
}
