package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// module is a module with one package of each kind. What the checks have to
// say of it can be read off its files.
var module = map[string]string{
	"go.mod": "module example\n\ngo 1.26\n",

	"engine/plain/plain.go": "package plain\n",
	"engine/plain/plain_test.go": `package plain

import "testing"

func TestGood(t *testing.T) {
	t.Run("one", func(t *testing.T) {})
	t.Run("two", func(t *testing.T) {})
}
func TestGoodToo(t *testing.T) { t.Log("quiet words") }
func TestBad(t *testing.T) {
	t.Run("one", func(t *testing.T) { t.Error("loud words") })
	t.Run("two", func(t *testing.T) { t.Log("calm words") })
}
func TestSkipped(t *testing.T) { t.Skip("no reason") }
func FuzzGood(f *testing.F)   { f.Fuzz(func(t *testing.T, s string) {}) }
func Fuzzily()                {}

type helper struct{}

func (helper) FuzzNothing(*testing.F) {}
`,
	"engine/outside/outside.go":      "package outside\n",
	"engine/outside/outside_test.go": "package outside_test\n\nimport \"testing\"\n\nfunc FuzzOutside(f *testing.F) {}\n",

	"engine/broken/broken.go":      "package broken\n",
	"engine/broken/broken_test.go": "package broken\n\nvar x int = \"text\"\n",

	"engine/ends/ends.go":      "package ends\n",
	"engine/ends/ends_test.go": "package ends\n\nimport (\n\t\"os\"\n\t\"testing\"\n)\n\nfunc TestMain(m *testing.M) { println(\"last words\"); os.Exit(3) }\n",

	"engine/lost/lost.go": "package lost\n\nimport _ \"example/nowhere\"\n",

	"wasm/marked/marked.go": "//go:build js && wasm\n\npackage marked\n",
	"wasm/direct/direct.go": "package direct\n\nimport _ \"syscall/js\"\n",
	"wasm/main.go":          "package main\n\nimport _ \"example/wasm/direct\"\nimport _ \"example/wasm/marked\"\n\nfunc main() {}\n",
	"wasm/pure/pure.go":     "package pure\n",

	"scripts/browser/browser.go":         "package browser\n",
	"scripts/browser/engines/engines.go": "package engines\n",
	"scripts/browserish/x/main.go":       "package main\n\nfunc main() {}\n",
}

// write puts the module into a folder and goes there.
func write(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range module {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
	return dir
}

func TestPackages(t *testing.T) {
	write(t)
	var out bytes.Buffer
	s := &suite{out: &out}
	engine := []string{"example/engine/broken", "example/engine/ends", "example/engine/lost", "example/engine/outside", "example/engine/plain"}
	for _, tt := range []struct {
		what string
		got  packages
		want []string
	}{
		{"native", s.native(), append(engine[:5:5], "example/scripts/browser", "example/scripts/browser/engines", "example/scripts/browserish/x", "example/wasm/pure")},
		{"wasm", s.wasm(), append(engine[:5:5], "example/wasm", "example/wasm/direct", "example/wasm/marked", "example/wasm/pure")},
		{"browser", s.native().only("/scripts/browser").except("/scripts/browser/engines"), []string{"example/scripts/browser"}},
		{"engines", s.native().only("/scripts/browser/engines"), []string{"example/scripts/browser/engines"}},
		{"all but engine and scripts", s.native().except("/engine").except("/scripts"), []string{"example/wasm/pure"}},
		{"tested", s.native().tested(), []string{"example/engine/broken", "example/engine/ends", "example/engine/outside", "example/engine/plain"}},
	} {
		if got := tt.got.paths(); !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %q, want %q", tt.what, got, tt.want)
		}
	}
	if s.tally.failed > 0 {
		t.Errorf("looking for packages failed:\n%s", &out)
	}
	want := map[string][]string{"example/engine/plain": {"FuzzGood"}, "example/engine/outside": {"FuzzOutside"}}
	for _, p := range s.native().tested() {
		if got, err := p.fuzzTargets(); err != nil || !slices.Equal(got, want[p.ImportPath]) {
			t.Errorf("fuzz targets of %s: got %q, %v, want %q", p.ImportPath, got, err, want[p.ImportPath])
		}
	}
}

// Counts are of the functions in the files above.
func TestCounts(t *testing.T) {
	write(t)
	for _, tt := range []struct {
		pkg        string
		want       tally
		show, hide []string
	}{
		{"plain", tally{passed: 3, failed: 1, skipped: 1}, []string{"loud words", "no reason"}, []string{"quiet words", "calm words", "=== RUN"}}, // the fuzz target runs as a test too
		{"broken", tally{failed: 1}, []string{"broken_test.go:3"}, nil},
		{"ends", tally{failed: 1}, []string{"last words"}, nil},
		{"lost", tally{failed: 1}, []string{"example/nowhere"}, nil},
	} {
		var out bytes.Buffer
		s := &suite{out: &out}
		s.test(os.Environ(), packages{{ImportPath: "example/engine/" + tt.pkg}})
		if s.tally != tt.want {
			t.Errorf("testing %s counts %+v, want %+v; it shows\n%s", tt.pkg, s.tally, tt.want, &out)
		}
		for _, words := range tt.show {
			if !strings.Contains(out.String(), words) {
				t.Errorf("testing %s does not show %q but\n%s", tt.pkg, words, &out)
			}
		}
		for _, words := range tt.hide {
			if strings.Contains(out.String(), words) {
				t.Errorf("testing %s shows %q", tt.pkg, words)
			}
		}
	}
}

// A test that ends its whole program takes the tests after it along.
func TestPanicCounts(t *testing.T) {
	dir := write(t)
	text := "package ends\n\nimport \"testing\"\n\nfunc TestFirst(t *testing.T) {}\nfunc TestSecond(t *testing.T) { panic(\"famous words\") }\nfunc TestThird(t *testing.T) {}\n"
	if err := os.WriteFile(filepath.Join(dir, "engine/ends/ends_test.go"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	s := &suite{out: &out}
	s.test(os.Environ(), packages{{ImportPath: "example/engine/ends"}})
	if want := (tally{passed: 1, failed: 1}); s.tally != want || !strings.Contains(out.String(), "famous words") {
		t.Errorf("counts %+v, want %+v; it shows\n%s", s.tally, want, &out)
	}
}

func TestVetAndFormat(t *testing.T) {
	dir := write(t)
	var out bytes.Buffer
	s := &suite{out: &out}
	s.vet(nil, packages{{ImportPath: "example/wasm/pure"}})
	s.vet(wasmEnv, packages{{ImportPath: "example/wasm"}})
	if want := (tally{passed: 2}); s.tally != want {
		t.Errorf("vet counts %+v, want %+v; it shows\n%s", s.tally, want, &out)
	}
	s.vet(nil, packages{{ImportPath: "example/engine/broken"}})
	if s.tally.failed != 1 {
		t.Errorf("vet lets a package pass that does not build")
	}

	clean := filepath.Join(dir, "scripts")
	t.Chdir(clean)
	s = &suite{out: &out}
	s.format()
	if err := os.WriteFile(filepath.Join(clean, "loose.go"), []byte("package  loose\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	s.format()
	if want := (tally{passed: 1, failed: 1}); s.tally != want || !strings.Contains(out.String(), "loose.go") {
		t.Errorf("gofmt counts %+v, want %+v; it shows\n%s", s.tally, want, &out)
	}
}

func TestChoose(t *testing.T) {
	all := []stage{{name: "vet"}, {name: "vet wasm"}, {name: "fuzz", slow: true}}
	for _, tt := range []struct {
		quick bool
		only  string
		want  string
	}{
		{false, "", "vet,vet wasm,fuzz"},
		{true, "", "vet,vet wasm"},
		{false, "wasm", "vet wasm"},
		{false, "fuzz", "fuzz"},
		{true, "fuzz", ""},
	} {
		var names []string
		for _, st := range choose(all, tt.quick, tt.only) {
			names = append(names, st.name)
		}
		if got := strings.Join(names, ","); got != tt.want {
			t.Errorf("quick %t, only %q: %q, want %q", tt.quick, tt.only, got, tt.want)
		}
	}
}

func TestSummary(t *testing.T) {
	for _, tt := range []struct {
		errs []error
		ok   bool
		last string
	}{
		{[]error{nil, nil}, true, "2 passed, 0 failed"},
		{[]error{nil, errors.New("no"), nil}, false, "2 passed, 1 failed"},
	} {
		var out bytes.Buffer
		s := &suite{out: &out}
		for _, err := range tt.errs {
			s.verdict("check", err, nil)
		}
		ok := s.summary()
		lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
		if last := lines[len(lines)-1]; ok != tt.ok || last != tt.last {
			t.Errorf("verdicts %v: %t with last line %q, want %t, %q", tt.errs, ok, last, tt.ok, tt.last)
		}
	}
}

func TestNeedSaysWhatToInstall(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	var out bytes.Buffer
	s := &suite{out: &out}
	if s.need(chromium) || s.tally.failed != 1 || !strings.Contains(out.String(), "apt-get install chromium") {
		t.Errorf("without Chromium: %+v, %s", s.tally, &out)
	}
	if err := os.WriteFile(filepath.Join(os.Getenv("PATH"), "chromium-browser"), []byte("#!/bin/sh\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	if !s.need(chromium) {
		t.Error("a Chromium on the path is not found")
	}
	out.Reset()
	if s.needAll(chromium, firefox, webkit) || !strings.Contains(out.String(), "firefox-esr") || !strings.Contains(out.String(), "webkit2gtk-driver") {
		t.Errorf("of several that are missing not all are named: %s", &out)
	}
}

func TestSmallEnviron(t *testing.T) {
	t.Setenv("BULKY", strings.Repeat("x", 20000))
	t.Setenv("GOFLAGS", "-buildvcs=false")
	small := smallEnviron()
	if slices.ContainsFunc(small, func(v string) bool { return strings.HasPrefix(v, "BULKY=") }) {
		t.Error("BULKY is passed on")
	}
	for _, name := range []string{"PATH", "GOFLAGS"} {
		if want := name + "=" + os.Getenv(name); !slices.Contains(small, want) {
			t.Errorf("%s is not passed on", want)
		}
	}
}

// The outputs are Go 1.26's, shortened.
func TestOnlyOutOfTime(t *testing.T) {
	for _, tt := range []struct {
		out  string
		want bool
	}{
		{"fuzz: elapsed: 5s, execs: 40304 (0/sec)\n--- FAIL: FuzzLink (5.20s)\n    context deadline exceeded\nFAIL\n", true},
		{"--- FAIL: FuzzLink (0.03s)\n    --- FAIL: FuzzLink (0.00s)\n        link_test.go:9: boom\n\n    Failing input written to testdata/fuzz/FuzzLink/5838\nFAIL\n", false},
		{"--- FAIL: FuzzLink (5.20s)\n    context deadline exceeded\n    Failing input written to testdata/fuzz/FuzzLink/5838\nFAIL\n", false},
		{"link_test.go:9:2: undefined: x\nFAIL\tkeelrow/engine/link [build failed]\n", false},
	} {
		if got := onlyOutOfTime([]byte(tt.out)); got != tt.want {
			t.Errorf("%q: %t, want %t", tt.out, got, tt.want)
		}
	}
}

// A machine of its own with nothing but an apt-get that keeps a diary.
func TestNeedInstalls(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	script := `#!/bin/sh
echo "$*" >>"$PATH/diary"
case "$*" in *chromium|*nodejs)
	for program in chromium node; do
		echo '#!/bin/sh' >"$PATH/$program"
		/bin/chmod +x "$PATH/$program"
	done
esac
`
	if err := os.WriteFile(filepath.Join(dir, "apt-get"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	s := &suite{out: &out}
	gotPoppler, gotChromium := s.need(poppler), s.need(chromium)
	diary, _ := os.ReadFile(filepath.Join(dir, "diary"))
	want, wantChromium := "update -q\ninstall -q -y poppler-utils\ninstall -q -y chromium\n", true
	wantTally := tally{failed: 1} // the diary is all that comes of poppler-utils
	if os.Geteuid() != 0 {        // only root may install
		want, wantChromium, wantTally = "", false, tally{failed: 2}
	}
	if gotPoppler || gotChromium != wantChromium || string(diary) != want || s.tally != wantTally {
		t.Errorf("poppler %t, Chromium %t, want false and %t; apt-get was asked for\n%swant\n%s; counts %+v, want %+v",
			gotPoppler, gotChromium, wantChromium, diary, want, s.tally, wantTally)
	}
}
