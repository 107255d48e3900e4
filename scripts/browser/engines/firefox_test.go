//go:build unix

package engines

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/coder/websocket"
)

// firefox is driven with WebDriver BiDi, which it speaks by itself:
// https://www.w3.org/TR/webdriver-bidi/.
type firefox struct {
	dir     string
	path    string
	process *process
	socket  *websocket.Conn
	context string // the tab

	mu       sync.Mutex
	last     int
	waiting  map[int]chan reply
	messages []string
	gone     error // why nothing comes any more
}

// reports has the browser say what else it writes to its own console only.
const reports = `addEventListener('securitypolicyviolation', (e) => console.error('policy: ' + e.violatedDirective + ' ' + e.blockedURI));`

// reply is what comes from the browser: an answer with an id, or an event.
type reply struct {
	ID      int             `json:"id"`
	Method  string          `json:"method"`
	Error   string          `json:"error"`
	Message string          `json:"message"`
	Result  json.RawMessage `json:"result"`
	Params  json.RawMessage `json:"params"`
}

// profile keeps the browser to itself: no updates, no questions, no calls
// home.
const profile = `user_pref("app.update.disabledForTesting", true);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("remote.settings.server", "data:,");
`

func startFirefox(dir string) (driver, error) {
	path, err := found("firefox-esr", "firefox")
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"home", "profile"} {
		if err := os.MkdirAll(filepath.Join(dir, name), 0o700); err != nil {
			return nil, err
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "profile", "user.js"), []byte(profile), 0o600); err != nil {
		return nil, err
	}
	f := &firefox{dir: dir, path: path}
	if err := f.open(); err != nil {
		return nil, errors.Join(err, f.close())
	}
	return f, nil
}

func (f *firefox) open() (err error) {
	f.process, err = start(f.dir, f.path, "--headless", "--no-remote", "--profile", filepath.Join(f.dir, "profile"), "--remote-debugging-port=0")
	if err != nil {
		return err
	}
	f.mu.Lock()
	f.waiting, f.context, f.gone = map[int]chan reply{}, "", nil
	f.mu.Unlock()
	return f.connect()
}

// restart shuts the browser as a person does and opens it again, with all that
// it has kept.
func (f *firefox) restart() error {
	if _, err := f.command("browser.close", object{}); err != nil {
		return err
	}
	select {
	case <-f.process.err:
	case <-time.After(patience):
		return errors.New("Firefox does not shut")
	}
	f.socket.CloseNow()
	return f.open()
}

// connect waits until the browser says where it listens, and opens a session.
func (f *firefox) connect() error {
	var address string
	err := f.process.until("Firefox to listen", func() bool {
		_, rest, ok := strings.Cut(f.process.said(), "WebDriver BiDi listening on ")
		address, _, _ = strings.Cut(rest, "\n")
		return ok && strings.Contains(rest, "\n")
	})
	if err != nil {
		return err
	}
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	if f.socket, _, err = websocket.Dial(ctx, address+"/session", nil); err != nil {
		return err
	}
	f.socket.SetReadLimit(-1)
	go f.hear()
	if _, err := f.command("session.new", object{"capabilities": object{}}); err != nil {
		return err
	}
	if _, err := f.command("session.subscribe", object{"events": []string{"log.entryAdded", "network.beforeRequestSent"}}); err != nil {
		return err
	}
	if _, err := f.command("script.addPreloadScript", object{"functionDeclaration": "() => {" + inPage + reports + "}"}); err != nil {
		return err
	}
	return f.fresh()
}

// hear takes in what comes until nothing comes any more.
func (f *firefox) hear() {
	for {
		_, text, err := f.socket.Read(context.Background())
		var r reply
		if err == nil {
			err = json.Unmarshal(text, &r)
		}
		f.mu.Lock()
		switch {
		case err != nil:
			f.gone = err
			for id, c := range f.waiting {
				delete(f.waiting, id)
				close(c)
			}
		case r.Method != "":
			f.event(r)
		case f.waiting[r.ID] != nil:
			f.waiting[r.ID] <- r
			delete(f.waiting, r.ID)
		}
		f.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// event takes down what a page in order never makes a browser say.
func (f *firefox) event(r reply) {
	var e struct {
		Level, Text string
		Source      struct{ Context string }
		Request     struct{ URL string }
	}
	if err := json.Unmarshal(r.Params, &e); err != nil {
		f.messages = append(f.messages, "an event that cannot be read: "+string(r.Params))
		return
	}
	switch {
	case r.Method != "log.entryAdded":
		f.messages = append(f.messages, asks+e.Request.URL)
	case e.Source.Context == f.context: // of the page and its workers; others are the browser's own
		f.messages = append(f.messages, e.Level+": "+e.Text)
	}
}

type object = map[string]any

func (f *firefox) command(method string, params object) (json.RawMessage, error) {
	f.mu.Lock()
	f.last++
	id, answer := f.last, make(chan reply, 1)
	f.waiting[id] = answer
	gone := f.gone
	f.mu.Unlock()
	if gone != nil {
		return nil, gone
	}
	text, err := json.Marshal(object{"id": id, "method": method, "params": params})
	if err != nil {
		return nil, err
	}
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	if err := f.socket.Write(ctx, websocket.MessageText, text); err != nil {
		return nil, err
	}
	select {
	case r, ok := <-answer:
		if !ok {
			return nil, io.ErrUnexpectedEOF
		}
		if r.Error != "" {
			return nil, fmt.Errorf("%s: %s: %s", method, r.Error, r.Message)
		}
		return r.Result, nil
	case <-ctx.Done():
		return nil, fmt.Errorf("%s: no answer within %v", method, patience)
	}
}

func (f *firefox) fresh() error {
	result, err := f.command("browsingContext.create", object{"type": "tab"})
	if err != nil {
		return err
	}
	before := f.context
	var tab struct{ Context string }
	if err := json.Unmarshal(result, &tab); err != nil {
		return err
	}
	f.mu.Lock()
	f.context = tab.Context
	f.mu.Unlock()
	if err := f.size(1440, 900); err != nil {
		return err
	}
	if before != "" {
		_, err = f.command("browsingContext.close", object{"context": before})
	}
	return err
}

func (f *firefox) size(wide, high int) error {
	_, err := f.command("browsingContext.setViewport", object{"context": f.context, "viewport": object{"width": wide, "height": high}})
	return err
}

func (f *firefox) visit(url string) error {
	_, err := f.command("browsingContext.navigate", object{"context": f.context, "url": url, "wait": "complete"})
	return err
}

func (f *firefox) call(function string, args string) (string, error) {
	result, err := f.command("script.callFunction", object{
		"functionDeclaration": "async () => JSON.stringify(await (" + function + ")(..." + args + ") ?? null)",
		"awaitPromise":        true, "target": object{"context": f.context}})
	if err != nil {
		return "", err
	}
	var r struct {
		Type             string
		Result           struct{ Value string }
		ExceptionDetails struct{ Text string }
	}
	if err := json.Unmarshal(result, &r); err != nil {
		return "", err
	}
	if r.Type != "success" {
		return "", errors.New(r.ExceptionDetails.Text)
	}
	return r.Result.Value, nil
}

func (f *firefox) act(actions []object) error {
	_, err := f.command("input.performActions", object{"context": f.context, "actions": actions})
	return err
}

func (f *firefox) picture() (string, error) {
	result, err := f.command("browsingContext.captureScreenshot", object{"context": f.context})
	var shot struct{ Data string }
	return shot.Data, errors.Join(err, json.Unmarshal(result, &shot))
}

func (f *firefox) complaints() []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	said := f.messages
	f.messages = nil
	return said
}

func (f *firefox) close() error {
	if f.process == nil {
		return nil
	}
	if f.socket != nil {
		f.socket.CloseNow()
	}
	return f.process.end()
}
