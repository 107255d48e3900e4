package site

import (
	"strings"
	"testing"
)

// TestHashedName has the SHA-256 of "abc" from FIPS 180-4; NIST publishes the
// worked example: ba7816bf 8f01cfea ...
func TestHashedName(t *testing.T) {
	for name, want := range map[string]string{
		"page.css":     "page.ba7816bf8f.css",
		"wasm_exec.js": "wasm_exec.ba7816bf8f.js",
	} {
		got := hashedName(name, []byte("abc"))
		if got != want {
			t.Errorf("hashedName(%s) = %s, want %s", name, got, want)
		}
		for _, n := range []string{got, got + ".br", got + ".gz"} {
			if !hashed.MatchString(n) {
				t.Errorf("%s is not known as a name of our own", n)
			}
		}
	}
	for _, name := range []string{"index.html", "index.html.br", "page.css", "photo.2024.png", "page.BA7816BF8F.css"} {
		if hashed.MatchString(name) {
			t.Errorf("%s would be removed as a name of our own", name)
		}
	}
}

func bindText(t *testing.T, sources map[string]string) (map[string]bound, error) {
	t.Helper()
	raw := map[string][]byte{}
	for name, text := range sources {
		raw[name] = []byte(text)
	}
	files, err := bind(raw)
	byName := map[string]bound{}
	for _, f := range files {
		byName[f.source] = f
	}
	return byName, err
}

func TestBind(t *testing.T) {
	files, err := bindText(t, map[string]string{
		"index.html":   `<link href="{{name page.css}}"><progress max="{{ size keelrow.wasm }}">`,
		"page.css":     "a { background: url({{name icon.svg}}) }",
		"icon.svg":     "abc",
		"keelrow.wasm": "12345678901{{",
		"wasm_exec.js": "x = {{}}", // not ours, so it is left alone
		"404.html":     `<link href="/{{name page.css}}">`,
	})
	if err != nil {
		t.Fatal(err)
	}
	page := files["index.html"]
	want := `<link href="` + files["page.css"].name + `"><progress max="13">`
	if got := string(page.content); got != want || page.name != "index.html" {
		t.Errorf("the page is %s with %s, want %s", page.name, got, want)
	}
	if got, want := string(files["page.css"].content), "a { background: url(icon.ba7816bf8f.svg) }"; got != want {
		t.Errorf("the style sheet is %s, want %s", got, want)
	}
	// A size is no reason to fetch a file, and the page for a wrong address is
	// no part of the first load.
	for name, want := range map[string]bool{
		"index.html": true, "page.css": true, "icon.svg": true,
		"keelrow.wasm": false, "wasm_exec.js": false, "404.html": false,
	} {
		if got := files[name].first; got != want {
			t.Errorf("first load fetches %s: %v, want %v", name, got, want)
		}
	}
}

// TestBindFollows changes one file and expects a new name for it and for all
// that name it, or a browser would keep the old ones.
func TestBindFollows(t *testing.T) {
	sources := map[string]string{
		"index.html": "{{name page.css}} {{name start.js}}",
		"page.css":   "{{name icon.svg}}",
		"start.js":   "start()",
		"icon.svg":   "one",
	}
	before, err := bindText(t, sources)
	if err != nil {
		t.Fatal(err)
	}
	sources["icon.svg"] = "two"
	after, err := bindText(t, sources)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"icon.svg": true, "page.css": true, "start.js": false, "index.html": false} {
		if got := before[name].name != after[name].name; got != want {
			t.Errorf("%s has a new name: %v, want %v", name, got, want)
		}
	}
	if string(before["index.html"].content) == string(after["index.html"].content) {
		t.Error("the page still names the old files")
	}
}

// TestWorker has the digest of "abc" from FIPS 180-4 in base64, as
// Subresource Integrity writes it (converted with openssl dgst and base64).
func TestWorker(t *testing.T) {
	sources := map[string]string{
		"index.html":           `{{name start.js}} {{later manifest.webmanifest}} {{later desk.js}} {{size keelrow.wasm}}`,
		"start.js":             "abc",
		"desk.js":              "{{name desk.wasm}}",
		"desk.wasm":            "the second program",
		"keelrow.wasm":         "the program",
		"manifest.webmanifest": "{{name icon.svg}}",
		"icon.svg":             "<svg/>",
		"picture.jpg":          "for a reader of the project, not of the page",
		"404.html":             "{{name icon.svg}}",
		"sw.js":                "const VERSION = '{{version}}', FILES = new Map({{files}});",
	}
	build := func() (map[string]bound, string) {
		files, err := bindText(t, sources)
		if err != nil {
			t.Fatal(err)
		}
		text := string(files[Worker].content)
		version, _, ok := strings.Cut(strings.TrimPrefix(text, "const VERSION = '"), "'")
		if !ok || len(version) != 10 {
			t.Fatalf("no version of ten digits in %s", text)
		}
		return files, version
	}
	files, version := build()
	worker := files[Worker]
	if worker.name != "sw.js" || worker.first {
		t.Errorf("the service worker is %s and part of the first load: %v; it has to keep its name and come later", worker.name, worker.first)
	}
	text := string(worker.content)
	if want := `["start.ba7816bf8f.js", "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="]`; !strings.Contains(text, want) {
		t.Errorf("the service worker lacks %s: %s", want, text)
	}
	for source, want := range map[string]bool{
		"start.js": true, "desk.js": true, "desk.wasm": true, "manifest.webmanifest": true, "icon.svg": true,
		"picture.jpg": false, "404.html": false, "index.html": false, "sw.js": false,
	} {
		if got := strings.Contains(text, `["`+files[source].name+`", "sha256-`); got != want {
			t.Errorf("%s is kept by its name: %v, want %v", source, got, want)
		}
	}
	if !strings.Contains(text, `["./", "sha256-`) {
		t.Errorf("the page itself is not kept: %s", text)
	}
	if _, again := build(); again != version {
		t.Errorf("built again, version %s became %s", version, again)
	}
	for _, tt := range []struct {
		source string
		moves  bool
	}{{"index.html", true}, {"desk.wasm", true}, {"icon.svg", true}, {"sw.js", true}, {"picture.jpg", false}, {"404.html", false}} {
		before := sources[tt.source]
		sources[tt.source] += " changed"
		if _, now := build(); (now != version) != tt.moves {
			t.Errorf("with another %s version %s became %s; it has to change: %v", tt.source, version, now, tt.moves)
		}
		sources[tt.source] = before
	}
}

func TestBindRefuses(t *testing.T) {
	for _, tt := range []struct{ text, says string }{
		{"{{name gone.css}}", "gone.css"},
		{"{{file page.css}}", "{{file page.css}}"},
		{"{{}}", "no placeholder"},
		{"{{name}}", "no placeholder"},
		{"{{name index.html}}", "in turn"},
		{"{{name sw.js}}", "keeps its name"},
		{"{{files}}", "no placeholder"},
	} {
		_, err := bindText(t, map[string]string{"index.html": tt.text, "page.css": ""})
		if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), "index.html") {
			t.Errorf("a page with %s: error %v, want one about index.html that says %q", tt.text, err, tt.says)
		}
	}
	if _, err := bindText(t, map[string]string{"page.css": ""}); err == nil {
		t.Error("bind makes a page without an entry")
	}
}
