// Package wasmsize says which Go packages a WebAssembly file owes its size to.
//
// It reads the binary format of the WebAssembly Core Specification, chapter 5:
// the sizes of all sections, the function bodies of the code section, and the
// function names of the custom section "name". The Go linker writes that
// section unless it is told to strip with -s.
package wasmsize

import (
	"encoding/binary"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Module is what the file consists of. All sizes are in bytes, uncompressed.
type Module struct {
	Sections  []Section
	Functions []Function // in the order of the code section; without imports
}

// Section is one section of the file.
type Section struct {
	Name string // "code", "data", ...; a custom section has its own name
	Size int    // with the section's own head
}

// Function is one function of the code section.
type Function struct {
	Name string // as the linker wrote it, empty without a name section
	Size int    // of its body, with the number in front that says how long it is
}

// headSize is the length of the magic number and the version.
const headSize = 8

var head = []byte("\x00asm\x01\x00\x00\x00")

// sectionNames holds the names of the section ids, from section 5.5.2.
var sectionNames = []string{
	"custom", "type", "import", "function", "table", "memory", "global",
	"export", "start", "element", "code", "data", "data count", "tag",
}

const (
	customSection = 0
	importSection = 2
	codeSection   = 10
	functionNames = 1 // subsection of the name section
)

// Read takes a WebAssembly file apart. The error says what is wrong with it.
func Read(file []byte) (*Module, error) {
	if !strings.HasPrefix(string(file), string(head)) {
		return nil, errors.New("this is not a WebAssembly file of version 1")
	}
	m := new(Module)
	imported := 0
	var names map[int]string
	all := reader{rest: file[headSize:]}
	for len(all.rest) > 0 && all.err == nil {
		before := len(all.rest)
		id := all.byte()
		body := reader{rest: all.bytes(all.count())}
		section := Section{Name: "unknown", Size: before - len(all.rest)}
		if int(id) < len(sectionNames) {
			section.Name = sectionNames[id]
		}
		switch id {
		case customSection:
			section.Name = body.text()
			if section.Name == "name" {
				names = body.functionNames()
			}
		case importSection:
			imported = body.importedFunctions()
		case codeSection:
			m.Functions = body.functions()
		}
		if body.err != nil {
			return nil, fmt.Errorf("section %q: %w", section.Name, body.err)
		}
		m.Sections = append(m.Sections, section)
	}
	if all.err != nil {
		return nil, all.err
	}
	for i := range m.Functions {
		m.Functions[i].Name = names[imported+i]
	}
	return m, nil
}

// Part is a share of the code section.
type Part struct {
	Package   string // import path; empty for functions of no listed package
	Functions int
	Size      int // bytes, uncompressed
}

// ByPackage adds up the functions of each of the packages, the largest first.
// The program's own package is called main, whatever its import path.
func (m *Module) ByPackage(packages []string) []Part {
	path := map[string]string{"main": "main"}
	longest := len("main")
	for _, p := range packages {
		prefix := symbolPrefix(p)
		path[prefix] = p
		longest = max(longest, len(prefix))
	}
	sums := map[string]*Part{}
	for _, f := range m.Functions {
		p := owner(f.Name, path, longest)
		if sums[p] == nil {
			sums[p] = &Part{Package: p}
		}
		sums[p].Functions++
		sums[p].Size += f.Size
	}
	var parts []Part
	for _, p := range sums {
		parts = append(parts, *p)
	}
	slices.SortFunc(parts, func(a, b Part) int {
		if a.Size != b.Size {
			return b.Size - a.Size
		}
		return strings.Compare(a.Package, b.Package)
	})
	return parts
}

var unfit = regexp.MustCompile(`[^\w.]`)

// symbolPrefix returns how the names of a package's functions start in the
// file. The compiler writes dots of the last path element as %2e, and the
// linker puts an underscore for whatever is no letter, digit or dot.
func symbolPrefix(path string) string {
	slash := strings.LastIndexByte(path, '/')
	path = path[:slash+1] + strings.ReplaceAll(path[slash+1:], ".", "%2e")
	return unfit.ReplaceAllString(path, "_")
}

// owner returns the package of a function: the longest listed path that
// stands before a dot of its name.
func owner(name string, path map[string]string, longest int) string {
	// Comparison functions that the compiler makes for a type are called
	// type:.eq.package.Type.
	for _, made := range []string{"type_.eq.", "type_.hash."} {
		name = strings.TrimPrefix(name, made)
	}
	for i := min(longest, len(name)-1); i > 0; i-- {
		if name[i] == '.' {
			if p, ok := path[name[:i]]; ok {
				return p
			}
		}
	}
	return ""
}

// reader reads values from the front of rest. After the first error every
// value is zero.
type reader struct {
	rest []byte
	err  error
}

var errShort = errors.New("the file ends too early")

func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.fail()
		return nil
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) fail() {
	r.err = errShort
	r.rest = nil
}

func (r *reader) byte() byte {
	if b := r.bytes(1); b != nil {
		return b[0]
	}
	return 0
}

// count reads an unsigned number of 32 bits. LEB128 of the specification is
// what package binary calls a uvarint.
func (r *reader) count() int {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 || n > 1<<32-1 {
		r.fail()
		return 0
	}
	r.rest = r.rest[size:]
	return int(n)
}

func (r *reader) text() string { return string(r.bytes(r.count())) }

func (r *reader) functions() []Function {
	var functions []Function
	for n := r.count(); n > 0 && r.err == nil; n-- {
		before := len(r.rest)
		r.bytes(r.count())
		functions = append(functions, Function{Size: before - len(r.rest)})
	}
	return functions
}

func (r *reader) functionNames() map[int]string {
	names := map[int]string{}
	for len(r.rest) > 0 && r.err == nil {
		id := r.byte()
		sub := reader{rest: r.bytes(r.count())}
		if id != functionNames {
			continue
		}
		for n := sub.count(); n > 0 && sub.err == nil; n-- {
			index := sub.count()
			names[index] = sub.text()
		}
		if sub.err != nil {
			r.err = sub.err
		}
	}
	return names
}

// importedFunctions counts the imports that are functions: they take the
// first function numbers.
func (r *reader) importedFunctions() int {
	functions := 0
	for n := r.count(); n > 0 && r.err == nil; n-- {
		r.text() // module
		r.text() // name
		switch kind := r.byte(); kind {
		case 0: // function: type
			functions++
			r.count()
		case 1: // table: element type, limits
			r.byte()
			r.limits()
		case 2: // memory: limits
			r.limits()
		case 3: // global: type, mutability
			r.bytes(2)
		case 4: // tag: attribute, type
			r.byte()
			r.count()
		default:
			r.err = fmt.Errorf("import of an unknown kind, %d", kind)
		}
	}
	return functions
}

func (r *reader) limits() {
	upper := r.byte()&1 == 1
	r.count()
	if upper {
		r.count()
	}
}
