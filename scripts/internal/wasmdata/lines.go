package wasmdata

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// The head of the table of functions: a magic number, two zeros, the smallest
// instruction and the size of a pointer. Then come, as 64-bit numbers, how many
// functions and files there are, the start of the code, and where from the head
// the names, compile units, files, values and functions lie.
var tableHead = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

// A function's record: where it starts, its name, sizes, and the offsets of
// its stack, file and line tables, then counts. All are 32-bit numbers.
const (
	funcName   = 4
	funcStack  = 16
	funcFile   = 20
	funcLine   = 24
	funcValues = 28 // how many further value tables, whose offsets follow the record
	funcUnit   = 32 // compile unit, all ones for none
	funcStart  = 36 // line
	funcFacts  = 43 // how many facts, whose offsets follow those of the value tables
	funcSize   = 44
)

// Further tables that only traces and stopping a thread in mid-loop read, which
// WebAssembly has no way to do, by their place (PCDATA_* in internal/abi). The
// one of inlined calls is also looked at by recover, for functions that were
// inlined; none that recovers is in the packages that the build inlines.
const (
	unsafePoint   = 0
	inlined       = 2
	liveArguments = 3
)

// Facts about a function that only traces read, by their place (FUNCDATA_* in
// internal/abi): inlined calls, arguments, and what it wraps. All ones stands
// for none.
const (
	firstTraced  = 5
	inlinedCalls = 3
	none         = ^uint32(0)
)

// dropLines clears, in the joined segments of a program, the tables that say
// which line of which source file an instruction comes from. Only traces of a
// crash show them, and the page shows none; they are a fourteenth of the
// download. The names of functions go as well, as far as only traces read
// them. All that the garbage collector reads stays.
//
// The tables are Go's pclntab as runtime/symtab.go and runtime/runtime2.go of
// Go 1.26 lay it out. The error says when a file's is laid out in another way:
// then this has to be looked at before it is used with that release.
func dropLines(segments []Segment) error {
	for _, s := range segments {
		for at := 0; ; {
			found := bytes.Index(s.Bytes[at:], tableHead)
			if found < 0 {
				break
			}
			at += found
			t, ok := newTable(s.Bytes[at:])
			if ok {
				if err := t.dropNames(); err != nil {
					return err
				}
				return t.dropLines()
			}
			at += len(tableHead)
		}
	}
	return errors.New("the program has no table of functions as Go 1.26 lays it out")
}

// table is a program's table of functions.
type table struct {
	bytes                              []byte
	functions                          int
	names, units, files, values, funcs int // where they lie
}

func newTable(b []byte) (t table, ok bool) {
	const headEnd = 8 + 8*8
	if len(b) < headEnd {
		return t, false
	}
	number := func(k int) int { return int(binary.LittleEndian.Uint64(b[8+8*k:])) }
	t = table{bytes: b, functions: number(0), names: number(3), units: number(4), files: number(5), values: number(6), funcs: number(7)}
	ok = t.names >= headEnd && t.names <= t.units && t.units <= t.files && t.files <= t.values && t.values <= t.funcs &&
		t.functions > 0 && t.funcs+8*t.functions < len(b)
	return t, ok
}

func (t *table) at(i int) uint32     { return binary.LittleEndian.Uint32(t.bytes[i:]) }
func (t *table) set(i int, v uint32) { binary.LittleEndian.PutUint32(t.bytes[i:], v) }
func (t *table) odd(what string) error {
	return fmt.Errorf("the table of functions is not laid out as in Go 1.26: %s", what)
}

func (t *table) dropLines() error {
	needed, lines := map[uint32]bool{0: true}, map[uint32]bool{}
	for k := range t.functions {
		entry, record := t.at(t.funcs+8*k), t.funcs+int(t.at(t.funcs+8*k+4))
		if record+funcSize > len(t.bytes) || t.at(record) != entry {
			return t.odd("a function's record starts elsewhere")
		}
		count := int(t.at(record + funcValues))
		facts := int(t.bytes[record+funcFacts])
		if count > 16 || facts > 16 || record+funcSize+4*(count+facts) > len(t.bytes) {
			return t.odd("a function has too many tables")
		}
		for fact := range facts {
			if fact == inlinedCalls || fact >= firstTraced {
				t.set(record+funcSize+4*(count+fact), none)
			}
		}
		needed[t.at(record+funcStack)] = true
		for v := range count {
			at := record + funcSize + 4*v
			if v == unsafePoint || v == inlined || v == liveArguments {
				lines[t.at(at)] = true
				t.set(at, 0)
			} else {
				needed[t.at(at)] = true
			}
		}
		lines[t.at(record+funcFile)], lines[t.at(record+funcLine)] = true, true
		t.set(record+funcFile, 0)
		t.set(record+funcLine, 0)
		t.set(record+funcUnit, none)
		t.set(record+funcStart, 0)
	}
	// Tables are shared where they are alike: only those go that no function
	// needs for anything else.
	values := t.bytes[t.values:t.funcs]
	for from := range lines {
		if needed[from] {
			continue
		}
		size := valueSize(values, int(from))
		if size < 0 {
			return t.odd("a table of lines has no end")
		}
		clear(values[from:][:size])
	}
	clear(t.bytes[t.units:t.values]) // the files' names
	return nil
}

// dropNames clears the functions' names, but for what the running program
// compares: whether a goroutine is the runtime's own (isSystemGoroutine in
// runtime/traceback.go), and two functions of package reflect (argMapInternal
// in runtime/stkframe.go). All functions of the runtime share one name then,
// and all that have none share nothing.
func (t *table) dropNames() error {
	names := t.bytes[t.names:t.units]
	const own = "runtime."
	kept := map[string]int{}
	at := 0
	keep := func(name string) {
		kept[name] = at
		at += copy(names[at:], name) + 1
	}
	was := bytes.Clone(names)
	clear(names)
	for _, name := range []string{"", own, "reflect.makeFuncStub", "reflect.methodValueCall"} {
		if at+len(name) >= len(names) {
			return t.odd("it has hardly any names")
		}
		keep(name)
	}
	for k := range t.functions {
		record := t.funcs + int(t.at(t.funcs+8*k+4))
		if record+funcSize > len(t.bytes) || int(t.at(record+funcName)) >= len(was) {
			return t.odd("a function's name lies elsewhere")
		}
		name, _, _ := bytes.Cut(was[t.at(record+funcName):], []byte{0})
		to, ok := kept[string(name)]
		if !ok && bytes.HasPrefix(name, []byte(own)) {
			to = kept[own]
		}
		t.set(record+funcName, uint32(to))
	}
	return nil
}

// valueSize returns how long a table of values is: pairs of numbers, ended by
// a first number of 0 that is not the very first.
func valueSize(values []byte, from int) int {
	for i, first := from, true; i >= 0 && i < len(values); first = false {
		v, n := binary.Uvarint(values[i:])
		if n <= 0 {
			return -1
		}
		i += n
		if v == 0 && !first {
			return i - from
		}
		if _, n = binary.Uvarint(values[i:]); n <= 0 {
			return -1
		}
		i += n
	}
	return -1
}
