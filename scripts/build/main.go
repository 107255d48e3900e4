// Command build writes the page, ready to be served, into a folder, and says
// how large it is.
//
//	go run ./scripts/build [-out dist]
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"

	"keelrow/scripts/internal/site"
)

func main() {
	var o site.Options
	flag.StringVar(&o.Out, "out", "", "folder to write (default dist beside go.mod)")
	flag.StringVar(&o.Program, "program", "", "package to compile (default ./wasm)")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, o); err != nil {
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
