package site

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// Single is the page as one file, which needs no server: styles and scripts
// stand in it as they are, the programs packed with gzip and in base64. Build
// writes it beside the page.
const Single = "keelrow-single.html"

// BuildSingle writes the page as one file and nothing else; o.Out names the
// file, Single in dist if it is empty.
func BuildSingle(ctx context.Context, o Options) (*Report, error) {
	out := o.Out
	if err := o.complete(ctx); err != nil {
		return nil, err
	}
	if out == "" {
		out = filepath.Join(o.Root, "dist", Single)
	}
	files, err := o.bound(ctx)
	if err != nil {
		return nil, err
	}
	for _, f := range files {
		if f.source == Single {
			return &Report{Dir: filepath.Dir(out), Files: []File{{Source: Single, Name: filepath.Base(out), Size: len(f.content)}}},
				replace(out, f.content)
		}
	}
	return nil, fmt.Errorf("site/ lacks %s", Entry)
}

var (
	linkTag   = regexp.MustCompile(`[ \t]*<link rel="([^"]*)" href="([^"]*)"([^>]*)>\n?`)
	scriptTag = regexp.MustCompile(`[ \t]*<script src="([^"]*)"([^>]*)></script>\n?`)
	loads     = regexp.MustCompile(`(?i)<[^>]*\s(?:src|href|srcset|poster|action)="?([^">\s]*)|url\(\s*["']?([^)"']*)|@import`)
)

// single makes the page as one file of all the others. Within it a file goes
// by the name of its source.
func single(sources map[string][]byte, files []bound, pack func([]byte) ([]byte, error)) ([]byte, error) {
	content := map[string][]byte{}
	for _, f := range files {
		content[f.source] = f.content
	}
	page := placeholder.ReplaceAllStringFunc(string(sources[Entry]), func(match string) string {
		words := strings.Fields(strings.Trim(match, "{}"))
		if words[0] == "size" {
			return strconv.Itoa(len(content[words[1]]))
		}
		return words[1]
	})
	var s singleFile
	page = linkTag.ReplaceAllStringFunc(page, func(tag string) string {
		t := linkTag.FindStringSubmatch(tag)
		switch rel, name, rest := t[1], t[2], t[3]; rel {
		case "stylesheet", "later":
			return s.inline("style", rest, content[name])
		case "icon":
			return fmt.Sprintf("<link rel=\"icon\" href=\"data:image/svg+xml;base64,%s\"%s>\n", base64.StdEncoding.EncodeToString(content[name]), rest)
		}
		return "" // for a page that is installed, or fetched
	})
	if err := s.nothingOutside(page); err != nil {
		return nil, err
	}

	// Scripts that ran when the page was there run at its end.
	var scripts strings.Builder
	page = scriptTag.ReplaceAllStringFunc(page, func(tag string) string {
		t := scriptTag.FindStringSubmatch(tag)
		scripts.WriteString(s.inline("script", ` id="`+t[1]+`"`+strings.Replace(t[2], " defer", "", 1), content[t[1]]))
		return ""
	})
	var data strings.Builder
	for _, f := range files {
		switch {
		case f.source == "keelrow.wasm" || f.source == "desk.wasm":
			small, err := pack(f.content)
			if err != nil {
				return nil, err
			}
			fmt.Fprintf(&data, "<script type=\"application/gzip\" id=%q>%s</script>\n", f.source, base64.StdEncoding.EncodeToString(small))
		case f.source == "desk.js":
			s.check(f.source, f.content)
			fmt.Fprintf(&data, "<script type=\"text/plain\" id=%q>%s</script>\n", f.source, f.content)
		}
	}
	if s.err != nil {
		return nil, s.err
	}
	for _, put := range []struct{ before, text string }{
		{`<html lang="en"`, ` data-single data-job="" data-home=""`},
		{`<meta charset="utf-8">`, "\n  " + s.policy()},
	} {
		if !strings.Contains(page, put.before) {
			return nil, fmt.Errorf("%s lacks %s", Entry, put.before)
		}
		page = strings.Replace(page, put.before, put.before+put.text, 1)
	}
	body := strings.LastIndex(page, "</body>")
	if body < 0 {
		return nil, fmt.Errorf("%s lacks </body>", Entry)
	}
	return []byte(page[:body] + data.String() + scripts.String() + page[body:]), nil
}

// singleFile gathers what its policy allows: the digests of styles and scripts.
type singleFile struct {
	styles, scripts []string
	err             error // the first
}

// inline returns content as an element.
func (s *singleFile) inline(tag, attributes string, content []byte) string {
	s.check(tag, content)
	sum := sha256.Sum256(content)
	digest := "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	if tag == "style" {
		s.styles = append(s.styles, digest)
	} else {
		s.scripts = append(s.scripts, digest)
	}
	return "<" + tag + attributes + ">" + string(content) + "</" + tag + ">\n"
}

// check refuses what would end its element, or hide its end.
func (s *singleFile) check(what string, content []byte) {
	low := bytes.ToLower(content)
	for _, bad := range []string{"</script", "</style", "<!--"} {
		if s.err == nil && bytes.Contains(low, []byte(bad)) {
			s.err = fmt.Errorf("%s: %q cannot stand in the page as one file", what, bad)
		}
	}
}

// nothingOutside refuses a page that would fetch something. Scripts are still
// to be taken in.
func (s *singleFile) nothingOutside(page string) error {
	for _, m := range loads.FindAllStringSubmatch(scriptTag.ReplaceAllString(page, ""), -1) {
		if to := m[1] + m[2]; !strings.HasPrefix(to, "data:") && !strings.HasPrefix(to, "#") {
			return fmt.Errorf("the page as one file cannot fetch anything, and %q does", m[0])
		}
	}
	return nil
}

// policy is the page's own rule against fetching anything: there is no server
// to send one. The worker is made of text in the page and is under it too.
func (s *singleFile) policy() string {
	return `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'wasm-unsafe-eval' ` + strings.Join(s.scripts, " ") +
		`; style-src ` + strings.Join(s.styles, " ") + `; img-src data: blob:; worker-src blob:; base-uri 'none'; form-action 'none'">`
}
