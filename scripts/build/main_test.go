package main

import (
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
