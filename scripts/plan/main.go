// Command plan prints the plan of a floor: the same engine as the page's,
// without a browser, and the same bytes as the page's files.
//
//	go run ./scripts/plan '#room=4200x3600&block=70x350&gap=12'
//	go run ./scripts/plan -format svg '#room=4200x3600&block=70x350&gap=12' > floor.svg
//
// The format is json, svg, dxf or csv. A csv is of the marks to strike, the
// rows or the saw cuts: -what marks, rows or cuts.
//
// Small sums that take a few readings are asked with -sum:
//
//	go run ./scripts/plan -sum 'equal 1385 228 120'
//
// The link may be a whole address, a fragment or a query. With a value in it
// that cannot be used, nothing is printed on standard output; standard error
// has a sentence for each such value and the exit status is 2. Keys that are
// not known are left out with a note on standard error.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"

	"keelrow/engine/files"
	"keelrow/engine/floor"
	"keelrow/engine/link"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run prints the plan of the link in args and returns the exit status.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("plan", flag.ContinueOnError)
	flags.SetOutput(stderr)
	format := flags.String("format", "json", "json, svg, dxf or csv")
	what := flags.String("what", "marks", "what a csv is of: marks, rows or cuts")
	question := flags.String("sum", "", "a sum instead of a plan, such as 'equal 1385 228 120'; -sum list says which there are")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "Give one link, in quotation marks: go run ./scripts/plan 'room=4200x3600&block=70x350&gap=12'")
		flags.PrintDefaults()
	}
	if flags.Parse(args) != nil {
		return 2
	}
	if *question != "" && flags.NArg() == 0 {
		return ask(*question, nil, stdout, stderr)
	}
	if flags.NArg() != 1 {
		flags.Usage()
		return 2
	}
	kind := *format
	if kind == "csv" {
		kind = *what + ".csv"
	}
	if !slices.Contains(files.Kinds(), kind) {
		fmt.Fprintf(stderr, "There is no file of %s. The formats are json, svg, dxf and csv, and a csv is of marks, rows or cuts.\n", kind)
		return 2
	}
	l := link.Open(flags.Arg(0))
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
	if *question != "" {
		return ask(*question, plan, stdout, stderr)
	}
	view, _ := l.View()
	data, _ := files.Write(plan, kind, files.Options{Link: l.String(), Sliver: view.Sliver, Same: view.Same, Marking: view.Marking})
	if _, err := stdout.Write(data); err != nil {
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
