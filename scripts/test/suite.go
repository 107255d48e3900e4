package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// suite runs stages and keeps count.
type suite struct {
	out   io.Writer
	tally tally

	listed               bool // whether packages have been looked for
	nativeList, wasmList packages
	refreshed            bool // whether the list of installable tools is fresh
}

// tally counts checks.
type tally struct{ passed, failed, skipped int }

func (t *tally) add(u tally) {
	t.passed += u.passed
	t.failed += u.failed
	t.skipped += u.skipped
}

// verdict counts one check, which failed if err is not nil; only then its
// output is shown.
func (s *suite) verdict(what string, err error, out []byte) {
	if err == nil {
		s.tally.passed++
		fmt.Fprintln(s.out, "ok  ", what)
		return
	}
	s.tally.failed++
	s.out.Write(out)
	fmt.Fprintf(s.out, "FAIL %s: %v\n", what, err)
}

// summary prints the counts and says whether nothing failed.
func (s *suite) summary() bool {
	fmt.Fprintln(s.out)
	if s.tally.skipped > 0 {
		fmt.Fprintf(s.out, "(%d skipped)\n", s.tally.skipped)
	}
	fmt.Fprintf(s.out, "%d passed, %d failed\n", s.tally.passed, s.tally.failed)
	return s.tally.failed == 0
}

// event is a line of go test -json, as go doc test2json has it.
type event struct {
	Action, Package, Test, Output string
}

// said is a line of output of a test, or of one within it.
type said struct{ test, line string }

// readEvents counts the tests that go test -json reports; a test within a
// test is part of it. It shows a line for each package and the output of what
// failed or was skipped. A package that failed by itself, because it does not
// build or ended early, counts as one failure.
func readEvents(r io.Reader, w io.Writer) (tally, error) {
	var t tally
	output := map[string][]said{}   // by package
	testFailed := map[string]bool{} // by package
	// take removes what a test and those within it said.
	take := func(pkg, test string) (lines []said) {
		output[pkg] = slices.DeleteFunc(output[pkg], func(s said) bool {
			of := s.test == test || strings.HasPrefix(s.test, test+"/")
			if of {
				lines = append(lines, s)
			}
			return of
		})
		return lines
	}
	show := func(lines []said) {
		for _, s := range lines {
			io.WriteString(w, s.line)
		}
	}
	in := bufio.NewReader(r)
	for {
		line, err := in.ReadBytes('\n')
		var e event
		if json.Unmarshal(line, &e) != nil {
			w.Write(line) // the go command's own words
		}
		outer := !strings.Contains(e.Test, "/")
		switch {
		case e.Action == "build-output":
			io.WriteString(w, e.Output)
		case e.Action == "output" && e.Test != "":
			if !strings.HasPrefix(e.Output, "=== ") { // RUN, PAUSE, CONT, NAME
				output[e.Package] = append(output[e.Package], said{e.Test, e.Output})
			}
		case e.Action == "output":
			if e.Output != "PASS\n" && e.Output != "FAIL\n" {
				io.WriteString(w, e.Output)
			}
		case e.Action == "pass" && e.Test != "":
			take(e.Package, e.Test)
			if outer {
				t.passed++
			}
		case e.Action == "skip" && e.Test != "" && outer:
			show(take(e.Package, e.Test))
			t.skipped++
		case e.Action == "fail" && e.Test != "" && outer:
			show(take(e.Package, e.Test))
			t.failed++
			testFailed[e.Package] = true
		case e.Action == "fail" && e.Test == "":
			show(output[e.Package])
			delete(output, e.Package)
			if !testFailed[e.Package] {
				t.failed++
			}
		}
		switch {
		case errors.Is(err, io.EOF):
			return t, nil
		case err != nil:
			return t, err
		}
	}
}
