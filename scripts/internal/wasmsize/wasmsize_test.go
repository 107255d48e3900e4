package wasmsize

import (
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// module is a file written by hand from the WebAssembly Core Specification
// 2.0, sections 5.4.1 (code), 5.5.4 to 5.5.13 and 7.4.1 (names): one imported
// function, one imported memory, two functions of our own.
var module = "\x00asm\x01\x00\x00\x00" +
	"\x01\x04\x01\x60\x00\x00" + // type 0: no parameters, no results; 6 bytes
	"\x02\x0e\x02" + "\x01e\x01f\x00\x00" + "\x01e\x01m\x02\x00\x01" + // 16 bytes
	"\x03\x03\x02\x00\x00" + // two functions of type 0; 5 bytes
	"\x0a\x09\x02" + "\x02\x00\x0b" + "\x04\x00\x01\x01\x0b" + // end; nop nop end; 11 bytes
	"\x00\x28\x04name" + // 42 bytes
	"\x00\x02\x01m" + // the module's name
	"\x01\x1d\x03" + "\x00\x01f" + "\x01\x0bexample.Run" + "\x02\x0astrings.In"

func TestRead(t *testing.T) {
	m, err := Read([]byte(module))
	if err != nil {
		t.Fatal(err)
	}
	want := &Module{
		Sections: []Section{{"type", 6}, {"import", 16}, {"function", 5}, {"code", 11}, {"name", 42}},
		// A body is its length, its locals and its instructions: 1+1+1 and
		// 1+1+3 bytes. Number 0 is the import, so ours are 1 and 2.
		Functions: []Function{{"example.Run", 3}, {"strings.In", 5}},
	}
	if !reflect.DeepEqual(m, want) {
		t.Errorf("Read = %+v\nwant   %+v", m, want)
	}
}

func TestReadRefuses(t *testing.T) {
	for n := range len(module) {
		m, err := Read([]byte(module[:n]))
		if err != nil {
			continue
		}
		// A file that ends between two sections is whole, only shorter.
		sum := headSize
		for _, s := range m.Sections {
			sum += s.Size
		}
		if sum != n {
			t.Errorf("Read of the first %d bytes gives sections of %d bytes and no error", n, sum)
		}
	}
	if _, err := Read([]byte("MZ, another kind of program")); err == nil {
		t.Error("Read takes a file without the magic number")
	}
}

func TestByPackage(t *testing.T) {
	m := &Module{Functions: []Function{
		{"runtime.mallocgc", 10},
		{"runtime.mapaccess1", 20},
		{"internal_runtime_maps.__Map_.Delete", 7},
		{"example.com_two_v2._T_.Run", 100},
		{"gopkg.in_yaml_2ev3.Marshal", 40},
		{"type_.eq.strings.Builder", 3},
		{"main.main.func1", 1},
		{"wasm_export_run", 5},
	}}
	got := m.ByPackage([]string{"runtime", "internal/runtime/maps", "example.com/two/v2", "gopkg.in/yaml.v3", "strings"})
	want := []Part{
		{"example.com/two/v2", 1, 100},
		{"gopkg.in/yaml.v3", 1, 40},
		{"runtime", 2, 30},
		{"internal/runtime/maps", 1, 7},
		{"", 1, 5},
		{"strings", 1, 3},
		{"main", 1, 1},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("ByPackage = %v\nwant        %v", got, want)
	}
}

// TestGoProgram reads what the Go linker writes: its sections have to fill
// the file, and hardly any code may be without a package.
func TestGoProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("builds a program")
	}
	dir := t.TempDir()
	source, out := filepath.Join(dir, "main.go"), filepath.Join(dir, "out.wasm")
	if err := os.WriteFile(source, []byte("package main\n\nimport \"strings\"\n\nfunc main() { println(strings.ToUpper(\"tape\")) }\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) string {
		cmd := exec.Command("go", args...)
		cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		text, err := cmd.Output()
		if err != nil {
			t.Fatalf("go %v: %v", args, err)
		}
		return string(text)
	}
	run("build", "-ldflags=-w", "-o", out, source)
	file, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	m, err := Read(file)
	if err != nil {
		t.Fatal(err)
	}
	sum := headSize
	code := 0
	for _, s := range m.Sections {
		sum += s.Size
		if s.Name == "code" {
			code = s.Size
		}
	}
	if sum != len(file) {
		t.Errorf("the sections add up to %d bytes, the file has %d", sum, len(file))
	}
	parts := m.ByPackage(strings.Fields(run("list", "-deps", source)))
	sum, homeless := 0, 0
	for _, p := range parts {
		sum += p.Size
		if p.Package == "" {
			homeless = p.Size
		}
	}
	// What is left of the section is its head and the number of functions, at
	// most 1 + 5 + 5 bytes.
	if sum > code || sum < code-11 {
		t.Errorf("the functions add up to %d bytes, the code section has %d", sum, code)
	}
	if homeless*100 > code {
		t.Errorf("%d of %d bytes of code belong to no package", homeless, code)
	}
	if parts[0].Package != "runtime" {
		t.Errorf("the largest package is %q; in a program this small it is the runtime", parts[0].Package)
	}
}
