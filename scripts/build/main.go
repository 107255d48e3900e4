// Command build writes the page, ready to be served, into a folder, and says
// how large it is.
//
//	go run ./scripts/build [-out dist]
//	go run ./scripts/build -single [-out FILE]
//
// The second form writes the page as one file, which opens without a server;
// the first writes it too, beside the page.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"

	"keelrow/scripts/internal/site"
)

func main() {
	var o site.Options
	single := flag.Bool("single", false, "write the page as one file only")
	flag.StringVar(&o.Out, "out", "", "folder to write (default dist beside go.mod); with -single the file (default "+site.Single+" there)")
	flag.StringVar(&o.Program, "program", "", "package to compile (default ./wasm)")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	do := run
	if *single {
		do = runSingle
	}
	if err := do(ctx, o); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context, o site.Options) error {
	report, err := site.Build(ctx, o)
	if err != nil {
		return err
	}
	fmt.Println("Written to", report.Dir)
	fmt.Println()
	report.Print(os.Stdout)
	module, parts, err := site.Parts(ctx, o)
	if err != nil {
		return err
	}
	fmt.Println()
	fmt.Println("keelrow.wasm before compression")
	site.PrintParts(os.Stdout, module, parts)
	if report.Wire() > site.Budget {
		fmt.Printf("\nThe first load is %d bytes over the budget.\n", report.Wire()-site.Budget)
	}
	return nil
}

func runSingle(ctx context.Context, o site.Options) error {
	report, err := site.BuildSingle(ctx, o)
	if err != nil {
		return err
	}
	for _, f := range report.Files {
		fmt.Printf("Written to %s: %d bytes\n", filepath.Join(report.Dir, f.Name), f.Size)
	}
	return nil
}
