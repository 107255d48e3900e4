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

func TestBindRefuses(t *testing.T) {
	for _, tt := range []struct{ text, says string }{
		{"{{name gone.css}}", "gone.css"},
		{"{{file page.css}}", "{{file page.css}}"},
		{"{{}}", "no placeholder"},
		{"{{name}}", "no placeholder"},
		{"{{name index.html}}", "in turn"},
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
