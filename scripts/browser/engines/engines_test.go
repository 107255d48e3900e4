//go:build unix

// Package engines opens the built page in browser engines other than
// Chromium's and goes the main ways through it: the tests in scripts/browser
// go all of them there.
//
//	go test ./scripts/browser/engines
//
// Firefox is driven with WebDriver BiDi and WebKitGTK, of the family of the
// browser on iPhones and iPads, with WebDriver. Where a driver cannot do or
// see something, the test's log says so.
package engines

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"time"
)

// driver is what the tests ask of a browser.
type driver interface {
	// visit goes to an address and waits until its page has loaded.
	visit(url string) error
	// call calls a function in the page with a list of arguments as JSON, and
	// returns what it returns, or what its promise comes to, as JSON.
	call(function, args string) (string, error)
	// act does a sequence of key or pointer actions, which both protocols
	// write alike.
	act(actions []object) error
	// picture returns what is seen, as a PNG file in base64.
	picture() (string, error)
	// size gives the window a size, or the page where the browser lets it.
	size(wide, high int) error
	// fresh shuts the tab and opens another one.
	fresh() error
	// complaints returns what a page in order never makes a browser say, since
	// the last time. Requests begin with asks.
	complaints() []string
	close() error
}

const asks = "request: "

// patience is how long a browser has for one thing.
const patience = 20 * time.Second

// watch takes down in the page what it makes the browser say.
const watch = `
	window.complaints = [];
	for (const level of ['error', 'warn', 'info', 'log', 'debug']) {
		const say = console[level];
		console[level] = (...words) => { complaints.push(level + ': ' + words.join(' ')); say.apply(console, words); };
	}
	addEventListener('error', (e) => complaints.push('error: ' + e.message));
	addEventListener('unhandledrejection', (e) => complaints.push('rejection: ' + e.reason));
	addEventListener('securitypolicyviolation', (e) => complaints.push('policy: ' + e.violatedDirective + ' ' + e.blockedURI));
`

var errMissing = errors.New("a browser is not installed")

// found returns the path of the first program that there is.
func found(names ...string) (string, error) {
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("%w: %s is not on the path", errMissing, names[0])
}

// process is a browser with all that it has started, which is a group of its
// own. What it says goes into a file: its children would keep a pipe open.
type process struct {
	cmd *exec.Cmd
	out *os.File
	err chan error
}

func start(dir, program string, args ...string) (*process, error) {
	out, err := os.Create(filepath.Join(dir, "said.txt"))
	if err != nil {
		return nil, err
	}
	home := filepath.Join(dir, "home")
	if err := os.MkdirAll(home, 0o700); err != nil {
		return nil, err
	}
	p := &process{cmd: exec.Command(program, args...), out: out, err: make(chan error, 1)}
	p.cmd.Stdout, p.cmd.Stderr = out, out
	p.cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CACHE_HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	p.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true}
	if err := p.cmd.Start(); err != nil {
		return nil, err
	}
	go func() { p.err <- p.cmd.Wait() }()
	return p, nil
}

// said returns all that the browser has written.
func (p *process) said() string {
	text, err := os.ReadFile(p.out.Name())
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// until waits until something holds, as long as the browser runs.
func (p *process) until(what string, holds func() bool) error {
	for end := time.Now().Add(patience); !holds(); time.Sleep(50 * time.Millisecond) {
		select {
		case err := <-p.err:
			p.err <- err
			return fmt.Errorf("waiting for %s: it ended, %v:\n%s", what, err, p.said())
		default:
		}
		if time.Now().After(end) {
			return fmt.Errorf("waited %v for %s:\n%s", patience, what, p.said())
		}
	}
	return nil
}

// end ends the whole group.
func (p *process) end() error {
	defer p.out.Close()
	syscall.Kill(-p.cmd.Process.Pid, syscall.SIGTERM)
	ctx, stop := context.WithTimeout(context.Background(), 5*time.Second)
	defer stop()
	select {
	case <-p.err:
	case <-ctx.Done():
	}
	if err := syscall.Kill(-p.cmd.Process.Pid, syscall.SIGKILL); err != nil && !errors.Is(err, syscall.ESRCH) {
		return err
	}
	return nil
}
