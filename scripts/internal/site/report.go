package site

import (
	"fmt"
	"io"
	"text/tabwriter"

	"keelrow/scripts/internal/wasmsize"
)

// Print writes the sizes as a table: what a first load fetches and its sum,
// then the other files.
func (r *Report) Print(w io.Writer) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "brotli\tgzip\tplain\t  ")
	first := true
	for _, f := range r.Files {
		if first && !f.First {
			r.printSum(t)
			first = false
		}
		fmt.Fprintf(t, "%d\t%d\t%d\t  %s\n", f.Brotli, f.Gzip, f.Size, f.Name)
	}
	if first {
		r.printSum(t)
	}
	t.Flush()
}

func (r *Report) printSum(w io.Writer) {
	fmt.Fprintf(w, "%d\t\t\t  first load over the wire, of at most %d\n", r.Wire(), Budget)
}

// shown is how many packages PrintParts lists.
const shown = 24

// PrintParts writes what the program consists of, in bytes before
// compression: its sections, and the code by package.
func PrintParts(w io.Writer, m *wasmsize.Module, parts []wasmsize.Part) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	for _, s := range m.Sections {
		if s.Name == "code" || s.Name == "data" {
			fmt.Fprintf(t, "%d\t\t  section %s\n", s.Size, s.Name)
		}
	}
	fmt.Fprintln(t, "bytes\tfunctions\t  code by package")
	var rest wasmsize.Part
	for i, p := range parts {
		if i >= shown {
			rest.Functions += p.Functions
			rest.Size += p.Size
			continue
		}
		name := p.Package
		if name == "" {
			name = "(no package: entry points and wrappers)"
		}
		fmt.Fprintf(t, "%d\t%d\t  %s\n", p.Size, p.Functions, name)
	}
	if rest.Functions > 0 {
		fmt.Fprintf(t, "%d\t%d\t  %d more packages\n", rest.Size, rest.Functions, len(parts)-shown)
	}
	t.Flush()
}
