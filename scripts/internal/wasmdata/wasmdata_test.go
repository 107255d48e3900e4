package wasmdata

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// memory returns what is in memory when a program starts.
func memory(t *testing.T, file []byte) map[int64]byte {
	t.Helper()
	segments, err := Segments(file)
	if err != nil {
		t.Fatal(err)
	}
	m := map[int64]byte{}
	for _, s := range segments {
		for i, b := range s.Bytes {
			if b != 0 {
				m[s.Offset+int64(i)] = b
			} else {
				delete(m, s.Offset+int64(i))
			}
		}
	}
	return m
}

// A file put together by hand from the WebAssembly Core Specification,
// section 5.5.14: three segments, the first two five bytes apart.
func TestJoin(t *testing.T) {
	file := []byte(head + "\x0b\x17\x03" +
		"\x00\x41\x08\x0b\x03abc" +
		"\x00\x41\x10\x0b\x02de" +
		"\x00\x41\x80\x80\x01\x0b\x01f")
	want := []byte(head + "\x0b\x16\x02" +
		"\x00\x41\x08\x0b\x0aabc\x00\x00\x00\x00\x00de" +
		"\x00\x41\x80\x80\x01\x0b\x01f")
	want[9] = byte(len(want) - 10)
	file[9] = byte(len(file) - 10)
	got, err := Join(file)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("Join = %q, %v, want %q", got, err, want)
	}
	for n := range len(file) - 1 {
		if _, err := Join(file[:n]); err == nil && n != headSize {
			t.Errorf("the first %d bytes are taken for a whole file", n)
		}
	}
}

// A real program must start with the same memory, and still run: Node runs
// one before and after.
func TestJoinedProgram(t *testing.T) {
	dir := t.TempDir()
	source := filepath.Join(dir, "main.go")
	if err := os.WriteFile(source, []byte(program), 0o600); err != nil {
		t.Fatal(err)
	}
	built := filepath.Join(dir, "program.wasm")
	cmd := exec.Command("go", "build", "-ldflags=-s -w", "-o", built, source)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	file, err := os.ReadFile(built)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := Join(file)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := Segments(file)
	after, _ := Segments(joined)
	if len(after) >= len(before)/10 {
		t.Errorf("%d segments became %d", len(before), len(after))
	}
	want, got := memory(t, file), memory(t, joined)
	if len(want) == 0 || len(got) != len(want) {
		t.Fatalf("%d bytes of memory are set, want %d", len(got), len(want))
	}
	for at, b := range want {
		if got[at] != b {
			t.Fatalf("memory at %d is %d, want %d", at, got[at], b)
		}
	}
	short, err := JoinWithoutLines(file)
	if err != nil {
		t.Fatal(err)
	}
	for name, file := range map[string][]byte{"joined": joined, "without lines": short} {
		if text := run(t, built, file); text != "laid recovered: index out of range [7] with length 3 500500 made: 3 of 3 ?\n" && name != "joined" || !strings.HasPrefix(text, "laid recovered: index out of range [7] with length 3 500500 made: 3 of 3 ") {
			t.Errorf("the program, %s, said %q", name, text)
		}
	}
	// Names go, but for those that the running program compares.
	for name, stays := range map[string]bool{"main.broken": false, "strings.Index\x00": false, "runtime.findRunnable": false, "reflect.makeFuncStub\x00": true} {
		if !bytes.Contains(joined, []byte(name)) || bytes.Contains(short, []byte(name)) != stays {
			t.Errorf("%q stays: %t, want %t", name, !stays, stays)
		}
	}
}

// run runs a program in Node and returns what it says.
func run(t *testing.T, path string, file []byte) string {
	t.Helper()
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", filepath.Join(string(bytes.TrimSpace(root)), "lib", "wasm", "wasm_exec_node.js"), path)
	node.Env = []string{"PATH=" + os.Getenv("PATH")}
	text, err := node.CombinedOutput()
	if err != nil {
		t.Errorf("the program ended with %v and said %q", err, text)
	}
	return string(text)
}

// program grows its stack, collects its garbage, panics and recovers, runs
// goroutines, and asks for the line it is on: all that reads the tables.
const program = `package main

import (
	"reflect"
	"runtime"
	"strings"
)

type row struct {
	next  *row
	blocks [50]int
}

func grow(n int) (r *row) {
	if n == 0 {
		return nil
	}
	var space [40]int
	space[n%40] = n
	r = &row{next: grow(n - 1)}
	r.blocks[n%50] = space[n%40]
	return r
}

func broken(list []int) (said string) {
	defer func() { said = recover().(error).Error() }()
	return string(rune(list[7]))
}

type layer struct{ said []string }

// Recover is deferred through an interface, which takes a wrapper.
func (l layer) Recover() { recover() }

// made calls a function that package reflect makes, whose arguments the
// garbage collector has to find while it runs.
func made() (n int) {
	var deferred interface{ Recover() } = layer{}
	defer deferred.Recover()
	collect := reflect.MakeFunc(reflect.TypeOf(func(*row, []string) *row { return nil }), func(args []reflect.Value) []reflect.Value {
		runtime.GC()
		n = args[1].Len()
		return args[:1]
	}).Interface().(func(*row, []string) *row)
	if r := collect(grow(3), []string{"a", "b", "c"}); r.next.next.blocks[1] != 1 {
		n = -1
	}
	panic("recovered")
}

func main() {
	sum := make(chan int)
	for range 4 {
		go func() {
			total := 0
			for r := grow(1000); r != nil; r = r.next {
				for _, b := range r.blocks {
					total += b
				}
			}
			runtime.GC()
			sum <- total
		}()
	}
	total := 0
	for range 4 {
		total = <-sum
	}
	_, file, _, _ := runtime.Caller(0)
	text := broken([]int{1, 2, 3})
	println("laid recovered:", text[strings.Index(text, "index"):], total, "made:", made(), "of", 3, file)
}
`
