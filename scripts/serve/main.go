// Command serve builds the page and serves it to this machine, with the
// headers the host sends.
//
//	go run ./scripts/serve [-addr 127.0.0.1:8080] [-open] [-nobuild]
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"time"

	"keelrow/engine/link"
	"keelrow/scripts/internal/serve"
	"keelrow/scripts/internal/site"
)

func main() {
	addr := flag.String("addr", "127.0.0.1:8080", "where to listen; if the port is taken, the next free one is used")
	open := flag.Bool("open", false, "open the page in the browser")
	nobuild := flag.Bool("nobuild", false, "serve what was built before")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, *addr, *open, !*nobuild); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context, addr string, open, build bool) error {
	root, err := site.Root(ctx)
	if err != nil {
		return err
	}
	rules, err := serve.ReadRules(filepath.Join(root, "netlify.toml"))
	if err != nil {
		return err
	}
	dist := filepath.Join(root, "dist")
	if build {
		fmt.Println("Building the page.")
		report, err := site.Build(ctx, site.Options{Root: root, Out: dist})
		if err != nil {
			return err
		}
		fmt.Printf("First load: %d kB over the wire.\n", (report.Wire()+500)/1000)
	} else if _, err := os.Stat(filepath.Join(dist, site.Entry)); err != nil {
		return errors.New("there is no built page to serve: leave out -nobuild, or run go run ./scripts/build first")
	}
	listener, err := listen(addr)
	if err != nil {
		return err
	}
	page := address(listener.Addr())
	fmt.Println("Keelrow is at  ", page)
	fmt.Println("A floor to try:", page+"#"+link.Demo)
	fmt.Println("Ctrl-C ends it.")
	if open {
		if err := browse(page + "#" + link.Demo); err != nil {
			fmt.Fprintln(os.Stderr, "The browser did not open:", err)
		}
	}
	return serveUntil(ctx, listener, serve.Handler(os.DirFS(dist), rules))
}

// serveUntil serves until the context ends, then lets the answers under way
// finish.
func serveUntil(ctx context.Context, listener net.Listener, handler http.Handler) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 10 * time.Second}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	end, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	return server.Shutdown(end)
}

// tries is how many ports are tried before giving up.
const tries = 50

// listen listens at addr or, if that fails, at the next port that is free,
// and says so.
func listen(addr string) (net.Listener, error) {
	listener, first := net.Listen("tcp", addr)
	if first == nil {
		return listener, nil
	}
	host, text, err := net.SplitHostPort(addr)
	port, notNumber := strconv.Atoi(text)
	if err != nil || notNumber != nil {
		return nil, first
	}
	for next := port + 1; next <= port+tries && next < 1<<16; next++ {
		if listener, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(next))); err == nil {
			fmt.Printf("Port %d is taken (%v), so it is port %d.\n", port, first, next)
			return listener, nil
		}
	}
	return nil, first
}

// address returns what to type into a browser on this machine.
func address(a net.Addr) string {
	host, port, _ := net.SplitHostPort(a.String())
	if ip := net.ParseIP(host); ip == nil || ip.IsUnspecified() {
		host = "localhost"
	}
	return "http://" + net.JoinHostPort(host, port) + "/"
}

// browse opens an address in the browser.
func browse(address string) error {
	switch runtime.GOOS {
	case "darwin":
		return exec.Command("open", address).Start()
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", address).Start()
	}
	return exec.Command("xdg-open", address).Start()
}
