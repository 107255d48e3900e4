package site

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

// project makes a folder that Build can build: a program of one line and a
// page that names all there is.
func project(t *testing.T) Options {
	t.Helper()
	root := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":       "module small\n\ngo 1.26\n",
		"wasm/main.go": "package main\n\nfunc main() { println(\"here\") }\n",
		"site/index.html": `<html lang="en"><meta charset="utf-8"><script src="{{name wasm_exec.js}}"></script><script src="{{name start.js}}" data-program="{{name keelrow.wasm}}" data-desk="{{later desk.wasm}}"></script>` +
			`<body><progress max="{{size keelrow.wasm}}"></progress></body></html>`,
		"site/start.js": "start()",
		"site/404.html": "nothing here",
	} {
		put(t, filepath.Join(root, name), text)
	}
	return Options{Root: root, Out: filepath.Join(root, "out"), Desk: "./wasm"}
}

func put(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func TestBuild(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles and compresses a program")
	}
	o := project(t)
	// What an earlier build left goes, what someone else put there stays.
	put(t, filepath.Join(o.Out, "start.0123456789.js.br"), "old")
	put(t, filepath.Join(o.Out, "notes.txt"), "mine")
	r, err := Build(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(o.Out, "start.0123456789.js.br")); err == nil {
		t.Error("a file of an earlier build is still there")
	}
	if _, err := os.Stat(filepath.Join(o.Out, "notes.txt")); err != nil {
		t.Errorf("a file that is none of the build's is gone: %v", err)
	}

	page, err := os.ReadFile(filepath.Join(o.Out, Entry))
	if err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, f := range r.Files {
		plain, err := os.ReadFile(filepath.Join(o.Out, f.Name))
		if err != nil {
			t.Fatal(err)
		}
		if len(plain) != f.Size {
			t.Errorf("%s has %d bytes, the report says %d", f.Name, len(plain), f.Size)
		}
		if f.Source == Single { // holds the programs compressed
			if f.First || f.Brotli > 0 || f.Gzip > 0 {
				t.Errorf("the page as one file is %+v", f)
			}
			continue
		}
		br, err := os.ReadFile(filepath.Join(o.Out, f.Name+".br"))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(brotli.NewReader(bytes.NewReader(br))); err != nil || !bytes.Equal(got, plain) {
			t.Errorf("%s.br does not hold %s: %v", f.Name, f.Name, err)
		}
		gz, err := os.Open(filepath.Join(o.Out, f.Name+".gz"))
		if err != nil {
			t.Fatal(err)
		}
		defer gz.Close()
		z, err := gzip.NewReader(gz)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(z); err != nil || !bytes.Equal(got, plain) {
			t.Errorf("%s.gz does not hold %s: %v", f.Name, f.Name, err)
		}
		if f.Source == "404.html" {
			if f.First {
				t.Error("the page for a wrong address counts as part of the first load")
			}
			continue
		}
		if f.Source == "desk.wasm" { // named as one that comes later
			if f.First {
				t.Error("the desk counts as part of the first load")
			}
		} else {
			sum += len(br)
		}
		if f.Source != Entry && !strings.Contains(string(page), `"`+f.Name+`"`) {
			t.Errorf("the page does not name %s", f.Name)
		}
	}
	if got := r.Wire(); got != sum {
		t.Errorf("Wire() = %d, the files add up to %d", got, sum)
	}
	if strings.Contains(string(page), "{{") {
		t.Errorf("a placeholder is left: %s", page)
	}

	again, err := Build(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range again.Files {
		if f != r.Files[i] {
			t.Errorf("built again, %+v became %+v", r.Files[i], f)
		}
	}
}

func TestBuildSaysWhatIsWrong(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the compiler")
	}
	o := project(t)
	put(t, filepath.Join(o.Root, "wasm", "main.go"), "package main\n\nfunc main() { missing() }\n")
	if _, err := Build(t.Context(), o); err == nil || !strings.Contains(err.Error(), "undefined: missing") {
		t.Errorf("Build of a program with a mistake: %v, want the compiler's words", err)
	}
	put(t, filepath.Join(o.Root, "site", "icons", "a.svg"), "")
	if _, err := Build(t.Context(), o); err == nil || !strings.Contains(err.Error(), "icons") {
		t.Errorf("Build with a folder in site/: %v, want an error that names it", err)
	}
}

// TestCache lets a kept file rot: what is written must hold the content all
// the same.
func TestCache(t *testing.T) {
	dir := cache(t.TempDir())
	content := []byte(strings.Repeat("spine, row, row, infill. ", 200))
	for _, c := range codings {
		for _, state := range []string{"not kept yet", "kept", "rotten"} {
			small, err := dir.compress(c, content)
			if err != nil {
				t.Fatal(err)
			}
			if !c.holds(small, content) {
				t.Errorf("%s, %s: what comes out does not hold the content", c.suffix, state)
			}
			kept, err := filepath.Glob(filepath.Join(string(dir), "*"+c.suffix))
			if err != nil || len(kept) != 1 {
				t.Fatalf("%s, %s: kept files %v, %v", c.suffix, state, kept, err)
			}
			if state == "kept" {
				put(t, kept[0], string(small[:len(small)/2]))
			}
		}
	}
	if small, err := cache("").compress(codings[0], content); err != nil || !codings[0].holds(small, content) {
		t.Errorf("without a folder to keep files in: %v", err)
	}
}
