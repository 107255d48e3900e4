// Command plan prints the plan of a floor as JSON: the same engine as the
// page's, without a browser.
//
//	go run ./scripts/plan '#room=4200x3600&block=70x350&gap=12'
//
// The link may be a whole address, a fragment or a query. With a value in it
// that cannot be used, nothing is printed on standard output; standard error
// has a sentence for each such value and the exit status is 2. Keys that are
// not known are left out with a note on standard error.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	"keelrow/engine/floor"
	"keelrow/engine/link"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run prints the plan of the link in args and returns the exit status.
func run(args []string, stdout, stderr io.Writer) int {
	if len(args) != 1 || args[0] == "-h" || args[0] == "-help" || args[0] == "--help" {
		fmt.Fprintln(stderr, "Give one link, in quotation marks: go run ./scripts/plan 'room=4200x3600&block=70x350&gap=12'")
		return 2
	}
	l := link.Open(args[0])
	plan, faults := open(l)
	if len(faults) > 0 {
		for _, f := range faults {
			fmt.Fprintln(stderr, f)
		}
		return 2
	}
	for _, key := range l.Unknown() {
		fmt.Fprintf(stderr, "Note: %q is not a key of this version and is left out.\n", key)
	}
	out := json.NewEncoder(stdout)
	out.SetIndent("", "  ")
	if err := out.Encode(reportOn(plan)); err != nil {
		fmt.Fprintln(stderr, "The plan could not be written:", err)
		return 1
	}
	return 0
}

// open returns the plan of a link, or a sentence for every value in it that
// cannot be used, each starting with the value's key.
func open(l link.Link) (*floor.Plan, []string) {
	job, jobFaults := l.Job()
	_, viewFaults := l.View()
	var sentences, faulty []string
	for _, f := range slices.Concat(jobFaults, viewFaults) {
		sentences, faulty = append(sentences, f.Error()), append(faulty, f.Key)
	}
	if len(faulty) == 0 {
		plan, err := floor.New(job)
		for _, f := range fieldErrors(err) {
			sentences = append(sentences, f.Key+": "+f.Error())
		}
		return plan, sentences
	}
	// A faulty value has its default in the job. The other values are judged
	// all the same, except by what they have to do with a faulty one.
	for _, f := range fieldErrors(job.Validate()) {
		room := f.Key == "hole" && slices.Contains(faulty, "room")
		if !room && !slices.Contains(faulty, f.Key) {
			sentences = append(sentences, f.Key+": "+f.Error())
		}
	}
	return nil, sentences
}

// fieldErrors takes apart what the floor's checks return.
func fieldErrors(err error) []*floor.FieldError {
	if err == nil {
		return nil
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*floor.FieldError
		for _, e := range joined.Unwrap() {
			all = append(all, fieldErrors(e)...)
		}
		return all
	}
	if f, ok := errors.AsType[*floor.FieldError](err); ok {
		return []*floor.FieldError{f}
	}
	panic("a check returned something other than a FieldError: " + err.Error())
}
