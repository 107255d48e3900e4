package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"keelrow/scripts/internal/site"
)

// TestFirstLoad builds the page and weighs it.
func TestFirstLoad(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles and compresses the page")
	}
	r, err := site.Build(t.Context(), site.Options{Out: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("first load: %d bytes over the wire", r.Wire())
	if r.Wire() > site.Budget {
		t.Errorf("the first load takes %d bytes over the wire, %d more than the budget; go run ./scripts/build says what they are", r.Wire(), r.Wire()-site.Budget)
	}
	fetched := map[string]bool{}
	for _, f := range r.Files {
		fetched[f.Source] = f.First
	}
	for _, name := range []string{site.Entry, "keelrow.wasm", "wasm_exec.js", "start.js", "page.css"} {
		if !fetched[name] {
			t.Errorf("the sum lacks %s, which the page cannot start without", name)
		}
	}
}

// loads is what makes a browser fetch something from elsewhere.
var loads = regexp.MustCompile(`(?i)\b(?:src|href|srcset|action)\s*=\s*["']?(?:https?:)?//|url\(\s*["']?(?:https?:)?//|@import|\bimport\s*\(`)

// TestSingle looks into the page as one file.
func TestSingle(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles and compresses the page")
	}
	name := filepath.Join(t.TempDir(), "one.html")
	r, err := site.BuildSingle(t.Context(), site.Options{Out: name})
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("the page as one file: %d bytes", len(text))
	if len(r.Files) != 1 || r.Files[0].Size != len(text) {
		t.Errorf("the report is %+v of %d bytes", r, len(text))
	}
	// It is handed on by mail and on sticks: 4 MB is what most let through.
	if len(text) > 4_000_000 {
		t.Errorf("it has %d bytes", len(text))
	}
	if at := loads.FindIndex(text); at != nil {
		t.Errorf("it fetches something: %.200s", text[max(0, at[0]-40):])
	}
	for _, id := range []string{"keelrow.wasm", "desk.wasm", "desk.js", "wasm_exec.js", "start.js"} {
		if n := strings.Count(string(text), ` id="`+id+`"`); n != 1 {
			t.Errorf("it has %s %d times, want once", id, n)
		}
	}
}

// heavy packages have cost far more than they gave the page, by their size
// when added to an empty program.
var heavy = []string{
	"encoding/json", "fmt", "github.com/peterstace/simplefeatures", "golang.org/x/text",
	"html/template", "net/http", "net/url", "regexp", "text/template",
}

func TestProgramIsLight(t *testing.T) {
	packages, err := site.Options{}.Packages(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		for _, h := range heavy {
			// The standard library keeps its own copies under vendor/.
			if p := strings.TrimPrefix(p, "vendor/"); p == h || strings.HasPrefix(p, h+"/") {
				t.Errorf("the program contains %s; go list -deps ./wasm, with GOOS=js GOARCH=wasm, shows where from", p)
			}
		}
	}
}
