// Package site builds the page: it compiles the program, gives every file a
// name that changes with its content, writes those names into the files that
// refer to them, and lays a compressed copy beside each.
package site

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"keelrow/scripts/internal/wasmdata"
	"keelrow/scripts/internal/wasmsize"
)

// Budget is how many bytes the first load may take over the wire with brotli.
// At 10 Mbit/s that is two thirds of a second; more bytes cost the person who
// waits more than any other part of the start.
const Budget = 850_000

// Entry is the page that a first load begins with.
const Entry = "index.html"

// Options says what is built and where to. The zero value builds the page.
type Options struct {
	Root    string // folder that holds go.mod and site/; that of the current module if empty
	Site    string // folder with the page's own files; site in Root if empty
	Out     string // folder to write; dist in Root if empty
	Program string // package that is compiled to keelrow.wasm; ./wasm if empty
	Desk    string // and to desk.wasm; ./wasm/desk if empty
}

// Report says what was written.
type Report struct {
	Dir   string
	Files []File // those of the first load first, the largest first
}

// File is one file that was written. Sizes are in bytes.
type File struct {
	Source string // its name in site/, as placeholders have it
	Name   string // its name in Dir
	Size   int
	Brotli int  // 0 where there is no compressed copy
	Gzip   int  // the same
	First  bool // whether a first load fetches it
}

// Wire returns how many bytes of the file go to a browser that takes brotli.
func (f File) Wire() int {
	if f.Brotli > 0 {
		return f.Brotli
	}
	return f.Size
}

// Wire returns how many bytes a first load fetches with brotli, headers not
// counted.
func (r *Report) Wire() int {
	sum := 0
	for _, f := range r.Files {
		if f.First {
			sum += f.Wire()
		}
	}
	return sum
}

// Build writes the whole page into one folder. Files of earlier builds that
// are no longer part of it are removed; whatever else is there stays.
func Build(ctx context.Context, o Options) (*Report, error) {
	if err := o.complete(ctx); err != nil {
		return nil, err
	}
	files, err := o.bound(ctx)
	if err != nil {
		return nil, err
	}
	return write(o.Out, files)
}

// bound returns the files of the page with their names, and the page as one
// file.
func (o *Options) bound(ctx context.Context) ([]bound, error) {
	sources, err := read(o.Site)
	if err != nil {
		return nil, err
	}
	goroot, err := tool(ctx, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	if sources["wasm_exec.js"], err = os.ReadFile(filepath.Join(strings.TrimSpace(goroot), "lib", "wasm", "wasm_exec.js")); err != nil {
		return nil, fmt.Errorf("the Go installation lacks the file that starts programs in a browser: %w", err)
	}
	if sources["keelrow.wasm"], err = o.compile(ctx, o.Program, "-s -w"); err != nil {
		return nil, err
	}
	if sources["desk.wasm"], err = o.compile(ctx, o.Desk, "-s -w"); err != nil {
		return nil, err
	}
	files, err := bind(sources)
	if err != nil {
		return nil, err
	}
	cache := openCache()
	one, err := single(sources, files, func(program []byte) ([]byte, error) { return cache.compress(gzipped, program) })
	if err != nil {
		return nil, err
	}
	return append(files, bound{source: Single, name: Single, content: one}), nil
}

// Parts says what the compiled program consists of. It compiles the program
// once more, with the names of its functions, which are no part of the page.
func Parts(ctx context.Context, o Options) (*wasmsize.Module, []wasmsize.Part, error) {
	if err := o.complete(ctx); err != nil {
		return nil, nil, err
	}
	file, err := o.compile(ctx, o.Program, "-w")
	if err != nil {
		return nil, nil, err
	}
	m, err := wasmsize.Read(file)
	if err != nil {
		return nil, nil, err
	}
	packages, err := o.Packages(ctx)
	return m, m.ByPackage(packages), err
}

// Packages returns the import paths of all packages in the program.
func (o Options) Packages(ctx context.Context) ([]string, error) {
	if err := o.complete(ctx); err != nil {
		return nil, err
	}
	text, err := o.wasm(ctx, "list", "-deps", o.Program)
	return strings.Fields(text), err
}

// Root returns the folder that holds go.mod of the module we are in.
func Root(ctx context.Context) (string, error) {
	text, err := tool(ctx, "env", "GOMOD")
	if err != nil {
		return "", err
	}
	mod := strings.TrimSpace(text)
	if filepath.Base(mod) != "go.mod" {
		return "", errors.New("this folder belongs to no Go module: run the command inside the project")
	}
	return filepath.Dir(mod), nil
}

func (o *Options) complete(ctx context.Context) (err error) {
	if o.Root == "" {
		if o.Root, err = Root(ctx); err != nil {
			return err
		}
	}
	o.Site = cmp.Or(o.Site, filepath.Join(o.Root, "site"))
	o.Out = cmp.Or(o.Out, filepath.Join(o.Root, "dist"))
	o.Program = cmp.Or(o.Program, "./wasm")
	o.Desk = cmp.Or(o.Desk, "./wasm/desk")
	return nil
}

// inlined are the packages whose small functions are inlined. The loops over
// blocks need that, in the packages they call too: without math and
// encoding/binary they take twice as long. Everywhere else a call costs less
// than its place in the download; together that is 6 % of it.
var inlined = []string{
	"keelrow/engine/floor", "keelrow/engine/pattern", "keelrow/engine/plane", "keelrow/wasm/scene",
	"cmp", "encoding/binary", "iter", "math", "math/bits", "slices",
}

// compile returns the program. Without -buildvcs=false its content, and so
// its name, would change with every commit that leaves the program alone.
func (o *Options) compile(ctx context.Context, program, ldflags string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "keelrow")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "keelrow.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags=" + ldflags, "-gcflags=all=-l"}
	for _, pkg := range inlined {
		args = append(args, "-gcflags="+pkg+"=")
	}
	if _, err := o.wasm(ctx, append(args, "-o", out, program)...); err != nil {
		return nil, err
	}
	file, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	return wasmdata.JoinWithoutLines(file)
}

// wasm runs the go tool for the browser's side.
func (o *Options) wasm(ctx context.Context, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = o.Root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	return output(cmd)
}

func tool(ctx context.Context, args ...string) (string, error) {
	return output(exec.CommandContext(ctx, "go", args...))
}

func output(cmd *exec.Cmd) (string, error) {
	var out, problems bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &problems
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("%s: %w\n%s", strings.Join(cmd.Args, " "), err, bytes.TrimSpace(problems.Bytes()))
	}
	return out.String(), nil
}

// read returns the files of site/ by name.
func read(dir string) (map[string][]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	sources := map[string][]byte{}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		if e.IsDir() {
			return nil, fmt.Errorf("%s is a folder: site/ holds files only, because the page names them without a path", filepath.Join(dir, e.Name()))
		}
		if sources[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			return nil, err
		}
	}
	return sources, nil
}

// write writes the files and their compressed copies, the pages last, so that
// no page names a file that is not there yet.
func write(dir string, files []bound) (*Report, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	slices.SortStableFunc(files, func(a, b bound) int { return cmp.Compare(rank(a.name), rank(b.name)) })
	r := &Report{Dir: dir}
	cache := openCache()
	wanted := map[string]bool{}
	put := func(name string, content []byte) error {
		wanted[name] = true
		return replace(filepath.Join(dir, name), content)
	}
	for _, f := range files {
		file := File{Source: f.source, Name: f.name, Size: len(f.content), First: f.first}
		if compressible(f.name) {
			for _, c := range codings {
				small, err := cache.compress(c, f.content)
				if err != nil {
					return nil, err
				}
				if err := put(f.name+c.suffix, small); err != nil {
					return nil, err
				}
				switch c.suffix {
				case ".br":
					file.Brotli = len(small)
				case ".gz":
					file.Gzip = len(small)
				}
			}
		}
		if err := put(f.name, f.content); err != nil {
			return nil, err
		}
		r.Files = append(r.Files, file)
	}
	slices.SortStableFunc(r.Files, func(a, b File) int {
		if a.First != b.First {
			return cmp.Compare(order(a.First), order(b.First))
		}
		return cmp.Compare(b.Wire(), a.Wire())
	})
	return r, sweep(dir, wanted)
}

// rank puts the service worker behind all that it keeps.
func rank(name string) int {
	if name == Worker {
		return 2
	}
	return order(!isPage(name))
}

// order sorts true before false.
func order(first bool) int {
	if first {
		return 0
	}
	return 1
}

// replace writes a file so that a reader sees the old content or the new one.
func replace(name string, content []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // fails, as it should, once the file has its name
	_, err = f.Write(content)
	if err := errors.Join(err, f.Chmod(0o644), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// sweep removes files with a name that only this package gives.
func sweep(dir string, wanted map[string]bool) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if hashed.MatchString(e.Name()) && !wanted[e.Name()] {
			if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}
