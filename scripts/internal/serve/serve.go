// Package serve answers requests for the built page as the host does: the
// same headers, compressed where the browser takes it, and the page "not
// found" where there is no file.
package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
)

// contentTypes is a table of our own, because the one of package mime depends
// on the machine.
var contentTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml; charset=utf-8",
	".webmanifest": "application/manifest+json; charset=utf-8",
	".wasm":        "application/wasm",
	".png":         "image/png",
}

// notFound is the page for an address without a file.
const notFound = "404.html"

// Handler serves the files of dir. A file NAME with NAME.br or NAME.gz beside
// it is sent in that form to whoever takes it.
func Handler(dir fs.FS, rules Rules) http.Handler {
	return &handler{dir, rules}
}

type handler struct {
	dir   fs.FS
	rules Rules
}

func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "This page can only be read.", http.StatusMethodNotAllowed)
		return
	}
	name, status := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/"), http.StatusOK
	if name == "" {
		name = "index.html"
	}
	if !h.exists(name) {
		name, status = notFound, http.StatusNotFound
	}
	h.rules.set(w.Header(), r.URL.Path)
	if status == http.StatusNotFound {
		w.Header().Set("Cache-Control", "no-cache") // the file may be there tomorrow
	}
	h.send(w, r, name, status)
}

func (h *handler) exists(name string) bool {
	info, err := fs.Stat(h.dir, name)
	return err == nil && info.Mode().IsRegular()
}

func (h *handler) send(w http.ResponseWriter, r *http.Request, name string, status int) {
	header := w.Header()
	var offered []string
	suffix := map[string]string{identity: ""}
	for _, c := range []struct{ coding, suffix string }{{"br", ".br"}, {"gzip", ".gz"}} {
		if h.exists(name + c.suffix) {
			offered = append(offered, c.coding)
			suffix[c.coding] = c.suffix
		}
	}
	if offered != nil {
		header.Add("Vary", "Accept-Encoding")
	}
	accept := r.Header.Values("Accept-Encoding")
	coding, ok := choose(strings.Join(accept, ","), accept != nil, offered)
	if !ok {
		http.Error(w, "This file is sent with brotli, with gzip or as it is, and the browser takes none of these.", http.StatusNotAcceptable)
		return
	}
	content, err := fs.ReadFile(h.dir, name+suffix[coding])
	if err != nil {
		if name == notFound {
			http.Error(w, "There is no page at this address.", http.StatusNotFound)
			return
		}
		http.Error(w, "The file cannot be read.", http.StatusInternalServerError)
		return
	}
	kind := contentTypes[path.Ext(name)]
	if kind == "" {
		kind = "application/octet-stream"
	}
	header.Set("Content-Type", kind)
	if coding != identity {
		header.Set("Content-Encoding", coding)
	}
	sum := sha256.Sum256(content)
	tag := `"` + hex.EncodeToString(sum[:8]) + `"`
	header.Set("ETag", tag)
	if status == http.StatusOK && known(r.Header.Values("If-None-Match"), tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	header.Set("Content-Length", strconv.Itoa(len(content)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		w.Write(content)
	}
}

// known says whether the browser already holds the file with this tag.
func known(held []string, tag string) bool {
	for _, line := range held {
		for t := range strings.SplitSeq(line, ",") {
			if t = strings.TrimSpace(t); t == "*" || strings.TrimPrefix(t, "W/") == tag {
				return true
			}
		}
	}
	return false
}
