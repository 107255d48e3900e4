// Command test runs every check there is on Keelrow, one after the other:
//
//	go run ./scripts/test            everything
//	go run ./scripts/test -quick     without fuzzing and browser
//	go run ./scripts/test -run wasm  stages with "wasm" in their name
//
// A check that fails does not stop the ones after it. The last line counts
// them: a test, a fuzz target or a tool's verdict is one each. The exit status
// is 1 when one failed.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// stage is checks that are run under one heading.
type stage struct {
	name string
	slow bool // left out by -quick
	run  func(*suite)
}

// stages is what is run, in this order.
var stages = []stage{
	{name: "gofmt", run: (*suite).format},
	{name: "vet", run: func(s *suite) { s.vet(nil, s.native()) }},
	{name: "vet wasm", run: func(s *suite) { s.vet(wasmEnv, s.wasm()) }},
	{name: "tests", run: func(s *suite) { s.test(os.Environ(), s.native().except("/scripts/browser")) }},
	{name: "tests as wasm", run: (*suite).testWasm},
	{name: "fuzz", slow: true, run: (*suite).fuzz},
	{name: "browser", slow: true, run: func(s *suite) {
		s.browser(s.native().only("/scripts/browser").except("/scripts/browser/engines"), chromium, poppler, ffmpeg, zbar)
	}},
	{name: "engines", slow: true, run: func(s *suite) {
		s.browser(s.native().only("/scripts/browser/engines"), firefox, xvfb, webkit)
	}},
}

// The longest one package may take, and the time each fuzz target gets. The
// browser takes eight to ten minutes on two cores, the rest about five.
const (
	testTimeout    = "3m"
	browserTimeout = "25m"
	fuzzTime       = "5s"
)

func main() {
	quick := flag.Bool("quick", false, "leave out fuzzing and browser")
	only := flag.String("run", "", "run only stages with this `text` in their name")
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintf(os.Stderr, "%q is not understood: there are only the flags -quick and -run.\n", flag.Arg(0))
		os.Exit(2)
	}
	chosen := choose(stages, *quick, *only)
	if len(chosen) == 0 {
		fmt.Fprintf(os.Stderr, "No stage has %q in its name. They are:\n", *only)
		for _, st := range stages {
			fmt.Fprintln(os.Stderr, " ", st.name)
		}
		os.Exit(2)
	}
	if err := toModule(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	s := &suite{out: os.Stdout}
	for _, st := range chosen {
		start := time.Now()
		fmt.Fprintf(s.out, "\n== %s ==\n", st.name)
		st.run(s)
		fmt.Fprintf(s.out, "(%.1f s)\n", time.Since(start).Seconds())
	}
	if !s.summary() {
		os.Exit(1)
	}
}

// choose returns the stages to run.
func choose(all []stage, quick bool, only string) []stage {
	var chosen []stage
	for _, st := range all {
		if (!quick || !st.slow) && strings.Contains(st.name, only) {
			chosen = append(chosen, st)
		}
	}
	return chosen
}

// toModule changes to the module's folder.
func toModule() error {
	mod, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("the go command does not run: %w", err)
	}
	return os.Chdir(filepath.Dir(strings.TrimSpace(string(mod))))
}

// format checks that gofmt would change nothing.
func (s *suite) format() {
	gofmt, err := exec.LookPath("gofmt")
	if err != nil {
		gofmt = filepath.Join(goroot(), "bin", "gofmt")
	}
	out, err := exec.Command(gofmt, "-l", ".").CombinedOutput()
	if err == nil && len(out) > 0 {
		err = fmt.Errorf("these files are not as gofmt writes them")
	}
	s.verdict("gofmt", err, out)
}

// vet runs go vet over packages, with env in addition to the environment.
func (s *suite) vet(env []string, list packages) {
	if len(list) == 0 {
		fmt.Fprintln(s.out, "nothing to vet")
		return
	}
	cmd := exec.Command("go", append([]string{"vet"}, list.paths()...)...)
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.CombinedOutput()
	s.verdict("go vet", err, out)
}

// test runs the tests of packages, with further flags for go test.
func (s *suite) test(env []string, list packages, flags ...string) {
	if len(list) == 0 {
		fmt.Fprintln(s.out, "nothing to test")
		return
	}
	args := append([]string{"test", "-json", "-timeout", testTimeout}, flags...)
	cmd := exec.Command("go", append(args, list.paths()...)...)
	var complaints bytes.Buffer
	cmd.Env, cmd.Stderr = env, &complaints
	events, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		s.verdict("go test", err, nil)
		return
	}
	got, readErr := readEvents(events, s.out)
	err = cmd.Wait()
	if err == nil {
		err = readErr
	}
	s.tally.add(got)
	if err != nil && got.failed == 0 { // go test itself could not go on
		s.verdict("go test", err, complaints.Bytes())
	} else {
		s.out.Write(complaints.Bytes())
	}
}

// testWasm runs the tests of engine and page under Node as the page would run
// them: compiled to WebAssembly.
func (s *suite) testWasm() {
	if !s.need(node) {
		return
	}
	s.test(append(smallEnviron(), wasmEnv...), s.wasm().tested(), "-exec", filepath.Join(goroot(), "lib", "wasm", "go_js_wasm_exec"))
}

var wasmEnv = []string{"GOOS=js", "GOARCH=wasm"}

// smallEnviron returns only what the go command and Node need: Go's loader for
// WebAssembly has 12 kB for all arguments and variables together.
func smallEnviron() []string {
	var small []string
	for _, v := range os.Environ() {
		name, _, _ := strings.Cut(v, "=")
		switch name {
		case "PATH", "HOME", "TMPDIR", "XDG_CACHE_HOME":
			small = append(small, v)
		default:
			if strings.HasPrefix(name, "GO") {
				small = append(small, v)
			}
		}
	}
	return small
}

// fuzz gives each fuzz target a few seconds, one at a time.
func (s *suite) fuzz() {
	for _, p := range s.native().tested() {
		targets, err := p.fuzzTargets()
		if err != nil {
			s.verdict("fuzz targets of "+p.ImportPath, err, nil)
		}
		for _, name := range targets {
			run := func() ([]byte, error) {
				return exec.Command("go", "test", "-run", "^$", "-fuzz", "^"+name+"$", "-fuzztime", fuzzTime,
					"-fuzzminimizetime", fuzzTime, "-timeout", testTimeout, p.ImportPath).CombinedOutput()
			}
			out, err := run()
			if err != nil && onlyOutOfTime(out) {
				out, err = run()
			}
			s.verdict(name+" of "+p.ImportPath, err, out)
		}
	}
}

// onlyOutOfTime says whether a target failed for no other reason than that
// its time was up, which happens now and then before Go 1.27 and says nothing
// about the target (go.dev/issue/75804).
func onlyOutOfTime(out []byte) bool {
	return bytes.Contains(out, []byte("\n    context deadline exceeded\n")) &&
		!bytes.Contains(out, []byte("Failing input written"))
}

// browser runs tests that open the built page, with the tools they need. They
// build it themselves, which the test cache does not see.
func (s *suite) browser(list packages, tools ...tool) {
	if len(list) == 0 {
		fmt.Fprintln(s.out, "no browser tests here")
		return
	}
	if s.needAll(tools...) {
		s.test(os.Environ(), list, "-count=1", "-p=1", "-timeout", browserTimeout)
	}
}
