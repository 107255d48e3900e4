// Package browser opens the built page in a browser and does what a person
// does: clicks what a person clicks, types what a person types, and looks at
// what a person sees.
//
//	go test ./scripts/browser                        every check
//	go test ./scripts/browser -run Shots -shots      pictures into artefacts/
//	go test ./scripts/browser -run Measure -measure  times, as a table
//
// Any message on the console, any exception, any report of a violated policy
// and any request to somewhere else fails the test that it happens in.
package browser

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"

	"keelrow/scripts/internal/serve"
	"keelrow/scripts/internal/site"
)

var (
	shots   = flag.Bool("shots", false, "put pictures of the page into artefacts/")
	measure = flag.Bool("measure", false, "measure how long the page takes")
)

// house is what all tests share: the built page, its server and a browser.
type house struct {
	root    string // of the module
	dist    string // the built page
	origin  string // such as http://127.0.0.1:1234
	browser context.Context
	leave   func() error
}

var errNoBrowser = errors.New("there is no chromium on the path")

// enter builds, serves and starts once, when the first test asks for it.
var enter = sync.OnceValues(func() (*house, error) {
	path, err := chromium()
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	root, err := site.Root(ctx)
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "keelrow")
	if err != nil {
		return nil, err
	}
	if _, err := site.Build(ctx, site.Options{Out: filepath.Join(dir, "dist")}); err != nil {
		return nil, err
	}
	rules, err := serve.ReadRules(filepath.Join(root, "netlify.toml"))
	if err != nil {
		return nil, err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	go http.Serve(listener, serve.Handler(os.DirFS(filepath.Join(dir, "dist")), rules))

	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.UserDataDir(filepath.Join(dir, "profile")),
		chromedp.Flag("disable-gpu", true),
		chromedp.Flag("enable-unsafe-swiftshader", true), // WebGL without a graphics card
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true))
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // it refuses to run as root with one
	}
	allocator, stop := chromedp.NewExecAllocator(ctx, options...)
	browser, _ := chromedp.NewContext(allocator)
	if err := chromedp.Do(browser); err != nil {
		return nil, err
	}
	return &house{
		root: root, dist: filepath.Join(dir, "dist"), origin: "http://" + listener.Addr().String(), browser: browser,
		leave: func() error {
			err := chromedp.Cancel(browser)
			stop()
			return errors.Join(err, listener.Close(), os.RemoveAll(dir))
		},
	}, nil
})

// chromium returns the path of the browser.
func chromium() (string, error) {
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errNoBrowser
}

func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if h, err := enter(); err == nil {
		if err := h.leave(); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
	}
	os.Exit(code)
}
