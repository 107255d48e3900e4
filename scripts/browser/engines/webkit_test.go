//go:build unix

package engines

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
)

// webkit is WebKitGTK's small browser, driven with WebDriver over HTTP:
// https://www.w3.org/TR/webdriver2/.
type webkit struct {
	process *process
	base    string // address of the session
	said    []string
}

func startWebKit(dir string) (driver, error) {
	for _, name := range []string{"WebKitWebDriver", "xvfb-run"} {
		if _, err := found(name); err != nil {
			return nil, err
		}
	}
	browsers, err := filepath.Glob("/usr/lib/*/webkit2gtk-4.*/MiniBrowser")
	if err != nil || len(browsers) == 0 {
		return nil, errors.Join(errMissing, errors.New("MiniBrowser of webkit2gtk is not there"))
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	_, port, _ := net.SplitHostPort(listener.Addr().String())
	listener.Close()
	p, err := start(dir, "xvfb-run", "-a", "-s", "-screen 0 1440x1000x24", "WebKitWebDriver", "--port="+port)
	if err != nil {
		return nil, err
	}
	w := &webkit{process: p, base: "http://127.0.0.1:" + port}
	if err := w.connect(browsers[len(browsers)-1]); err != nil {
		return nil, errors.Join(err, w.close())
	}
	return w, nil
}

func (w *webkit) connect(browser string) error {
	err := w.process.until("WebKitWebDriver to listen", func() bool {
		r, err := http.Get(w.base + "/status")
		if err == nil {
			r.Body.Close()
		}
		return err == nil
	})
	if err != nil {
		return err
	}
	result, err := w.command("POST", "/session", object{"capabilities": object{"alwaysMatch": object{
		"webkitgtk:browserOptions": object{"binary": browser, "args": []string{"--automation"}},
		"timeouts":                 object{"script": patience.Milliseconds(), "pageLoad": patience.Milliseconds()},
	}}})
	if err != nil {
		return err
	}
	var session struct{ SessionID string }
	if err := json.Unmarshal(result, &session); err != nil {
		return err
	}
	w.base += "/session/" + session.SessionID
	return w.size(1440, 900)
}

func (w *webkit) command(method, path string, params any) (json.RawMessage, error) {
	body, err := json.Marshal(params)
	if err != nil {
		return nil, err
	}
	request, err := http.NewRequest(method, w.base+path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	client := http.Client{Timeout: 2 * patience}
	r, err := client.Do(request)
	if err != nil {
		return nil, err
	}
	defer r.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(r.Body).Decode(&answer); err != nil {
		return nil, fmt.Errorf("%s %s: %w", method, path, err)
	}
	if r.StatusCode != http.StatusOK {
		var e struct{ Error, Message string }
		json.Unmarshal(answer.Value, &e)
		return nil, fmt.Errorf("%s %s: %s: %s", method, path, e.Error, e.Message)
	}
	return answer.Value, nil
}

func (w *webkit) fresh() error {
	w.listen()
	result, err := w.command("POST", "/window/new", object{"type": "tab"})
	if err != nil {
		return err
	}
	var tab struct{ Handle string }
	if err := json.Unmarshal(result, &tab); err != nil {
		return err
	}
	if _, err := w.command("DELETE", "/window", nil); err != nil {
		return err
	}
	_, err = w.command("POST", "/window", object{"handle": tab.Handle})
	return err
}

func (w *webkit) size(wide, high int) error {
	_, err := w.command("POST", "/window/rect", object{"width": wide, "height": high})
	return err
}

func (w *webkit) visit(url string) error {
	w.listen()
	_, err := w.command("POST", "/url", object{"url": url})
	return err
}

func (w *webkit) call(function string, args string) (string, error) {
	// There is no way to have a script in the page before its own.
	script := "if (!window.person) {" + inPage + "}" + `
		const done = arguments[arguments.length - 1];
		(async () => JSON.stringify(await (` + function + `)(...` + args + `) ?? null))().then((text) => done([text]), (e) => done([null, String(e)]));`
	result, err := w.command("POST", "/execute/async", object{"script": script, "args": []any{}})
	if err != nil {
		return "", err
	}
	var said []string
	if err := json.Unmarshal(result, &said); err != nil {
		return "", fmt.Errorf("%s: %w", result, err)
	}
	if len(said) > 1 {
		return "", errors.New(said[1])
	}
	return said[0], nil
}

func (w *webkit) picture() (string, error) {
	result, err := w.command("GET", "/screenshot", nil)
	var data string
	return data, errors.Join(err, json.Unmarshal(result, &data))
}

func (w *webkit) act(actions []object) error {
	_, err := w.command("POST", "/actions", object{"actions": actions})
	return err
}

// listen asks the page for what it has taken down. The driver has no way to
// hear the console: the server puts watch before the page's own scripts.
func (w *webkit) listen() {
	text, err := w.call(`() => {
		const said = window.complaints || [];
		window.complaints = [];
		for (const e of performance.getEntriesByType('resource')) said.push('`+asks+`' + e.name);
		performance.clearResourceTimings();
		return said;
	}`, "[]")
	var said []string
	if err == nil && json.Unmarshal([]byte(text), &said) == nil {
		w.said = append(w.said, said...)
	}
}

func (w *webkit) complaints() []string {
	w.listen()
	said := w.said
	w.said = nil
	return said
}

// watched serves the page with watch before its first own script. The service
// worker refuses such a page, so what is kept on the device is tried without.
func watched(page http.Handler) http.Handler {
	return http.HandlerFunc(func(answer http.ResponseWriter, r *http.Request) {
		if !strings.HasPrefix(r.URL.Path, "/start.") {
			page.ServeHTTP(answer, r)
			return
		}
		r.Header.Del("Accept-Encoding")
		r.Header.Del("If-None-Match")
		script := httptest.NewRecorder()
		page.ServeHTTP(script, r)
		maps.Copy(answer.Header(), script.Header())
		answer.Header().Del("Content-Length")
		answer.WriteHeader(script.Code)
		io.WriteString(answer, watch+script.Body.String())
	})
}

func (w *webkit) close() error {
	if strings.Contains(w.base, "/session/") {
		w.command("DELETE", "", nil)
	}
	return w.process.end()
}
