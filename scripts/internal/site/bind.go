package site

import (
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Files in site/ refer to each other with placeholders:
//
//	{{name page.css}}      the name the file has in the built page
//	{{later desk.js}}      the same for a file that is fetched on demand, after
//	                       the first load
//	{{size keelrow.wasm}}  its size in bytes before compression
//
// The files that can be named are those of site/, wasm_exec.js, keelrow.wasm
// and desk.wasm. The service worker has two more of its own:
//
//	{{files}}    what it keeps: everything that a person can come to from the
//	             page, as a list of [name, digest]
//	{{version}}  changes with any of these files, and with its own text
//
// Anything else between double braces stops the build.
var placeholder = regexp.MustCompile(`\{\{([^{}]*)\}\}`)

// bound is a file as it is written.
type bound struct {
	source, name string
	content      []byte
	uses         []string // files whose names it holds
	later        []string // and those that are fetched on demand
	first        bool     // whether Entry leads to it
}

// hashed matches the names that hashedName gives, with those of compressed
// copies.
var hashed = regexp.MustCompile(`^[^.]+\.[0-9a-f]{10}\.[^.]+(\.br|\.gz)?$`)

// hashedName puts the first ten digits of the content's SHA-256 before the
// ending: page.css becomes page.3fa2c1d09b.css.
func hashedName(name string, content []byte) string {
	sum := sha256.Sum256(content)
	ext := filepath.Ext(name)
	return strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:])[:10] + ext
}

// Worker is the service worker.
const Worker = "sw.js"

// Embed is the script that other people's pages name.
const Embed = "embed.js"

// isPage says whether a file keeps its name: pages, which are opened by their
// name in the address, the service worker, which is another one to the
// browser when it has another name, and the script that other pages name.
func isPage(name string) bool {
	return filepath.Ext(name) == ".html" || name == Worker || name == Embed
}

// isText says whether placeholders in a file are filled in.
func isText(name string) bool {
	switch filepath.Ext(name) {
	case ".html", ".css", ".js", ".svg", ".webmanifest":
		return true
	}
	return false
}

// bind names all files and fills in their placeholders. Sources that come
// from elsewhere than site/ hold none.
func bind(sources map[string][]byte) ([]bound, error) {
	b := binder{sources: sources, done: map[string]*bound{}}
	names := make([]string, 0, len(sources))
	for name := range sources {
		names = append(names, name)
	}
	// The service worker holds digests of the others.
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(order(a != Worker), order(b != Worker)), cmp.Compare(a, b))
	})
	for _, name := range names {
		if _, err := b.bind(name); err != nil {
			return nil, err
		}
	}
	if b.done[Entry] == nil {
		return nil, fmt.Errorf("site/ lacks %s", Entry)
	}
	b.reach(Entry)
	files := make([]bound, 0, len(names))
	for _, name := range names {
		files = append(files, *b.done[name])
	}
	return files, nil
}

type binder struct {
	sources map[string][]byte
	done    map[string]*bound
	under   []string // files being bound, each named by the one before it
}

// bind binds one file after all that it names, because their names are part
// of its content and so of its own name.
func (b *binder) bind(source string) (*bound, error) {
	if f := b.done[source]; f != nil {
		return f, nil
	}
	content, ok := b.sources[source]
	if source == Worker && len(b.under) > 0 {
		return nil, fmt.Errorf("%s names %s, which keeps its name: write it without braces", b.under[len(b.under)-1], source)
	}
	if !ok {
		return nil, fmt.Errorf("%s names %s, which is not in site/", b.under[len(b.under)-1], source)
	}
	if slices.Contains(b.under, source) {
		return nil, fmt.Errorf("%s names %s, which names it in turn: neither can be named after its content", b.under[len(b.under)-1], source)
	}
	f := &bound{source: source, name: source}
	if isText(source) && source != "wasm_exec.js" {
		b.under = append(b.under, source)
		var err error
		content = placeholder.ReplaceAllFunc(content, func(match []byte) []byte {
			text, fault := b.fill(f, string(match))
			err = cmp.Or(err, fault)
			return []byte(text)
		})
		if err != nil {
			return nil, err
		}
		b.under = b.under[:len(b.under)-1]
	}
	f.content = content
	if !isPage(source) {
		f.name = hashedName(source, content)
	}
	b.done[source] = f
	return f, nil
}

// fill returns what stands for a placeholder of file f.
func (b *binder) fill(f *bound, match string) (string, error) {
	words := strings.Fields(strings.Trim(match, "{}"))
	if f.source == Worker && len(words) == 1 {
		switch list, version := b.kept(); words[0] {
		case "files":
			return list, nil
		case "version":
			return version, nil
		}
	}
	if len(words) != 2 || words[0] != "name" && words[0] != "later" && words[0] != "size" {
		return "", fmt.Errorf("%s: %s is no placeholder: those are {{name FILE}}, {{later FILE}} and {{size FILE}}", f.source, match)
	}
	named, err := b.bind(words[1])
	if err != nil {
		return "", err
	}
	if words[0] == "size" {
		return strconv.Itoa(len(named.content)), nil
	}
	if words[0] == "name" {
		f.uses = append(f.uses, words[1])
	} else {
		f.later = append(f.later, words[1])
	}
	return named.name, nil
}

// kept returns what the service worker keeps and the version of it. The
// digests are written as browsers check them: https://www.w3.org/TR/SRI/.
func (b *binder) kept() (list, version string) {
	reached := map[string]bool{}
	var reach func(source string)
	reach = func(source string) {
		if f := b.done[source]; f != nil && !reached[source] {
			reached[source] = true
			for _, name := range slices.Concat(f.uses, f.later) {
				reach(name)
			}
		}
	}
	reach(Entry)
	var text strings.Builder
	for _, source := range slices.Sorted(maps.Keys(reached)) {
		f := b.done[source]
		name := f.name
		if source == Entry {
			name = "./" // what its address ends with
		}
		sum := sha256.Sum256(f.content)
		fmt.Fprintf(&text, "  [%q, %q],\n", name, "sha256-"+base64.StdEncoding.EncodeToString(sum[:]))
	}
	list = "[\n" + text.String() + "]"
	sum := sha256.Sum256(append([]byte(list), b.sources[Worker]...))
	return list, hex.EncodeToString(sum[:])[:10]
}

// reach marks a file and all that it names.
func (b *binder) reach(source string) {
	if f := b.done[source]; !f.first {
		f.first = true
		for _, name := range f.uses {
			b.reach(name)
		}
	}
}
