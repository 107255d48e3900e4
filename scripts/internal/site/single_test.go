package site

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"regexp"
	"strings"
	"testing"
)

// small is a page with one of each thing that the page as one file treats in a
// way of its own.
func small() map[string][]byte {
	raw := map[string][]byte{}
	for name, text := range map[string]string{
		"index.html": `<!doctype html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <link rel="icon" href="{{name icon.svg}}" type="image/svg+xml">
  <link rel="manifest" href="{{later manifest.webmanifest}}">
  <link rel="stylesheet" href="{{name page.css}}">
  <link rel="stylesheet" href="{{name sheets.css}}" media="print">
  <link rel="preload" href="{{name keelrow.wasm}}" as="fetch" crossorigin>
  <script src="{{name wasm_exec.js}}" defer></script>
  <script src="{{name start.js}}" defer data-program="{{name keelrow.wasm}}" data-desk="{{later desk.js}}"></script>
</head>
<body>
  <progress max="{{size keelrow.wasm}}"></progress><a href="#stage">Skip</a>
</body>
</html>
`,
		"page.css":             "a { color: red }",
		"sheets.css":           "a { color: black }",
		"icon.svg":             "<svg/>",
		"manifest.webmanifest": "{{name icon.svg}}",
		"start.js":             "start()",
		"desk.js":              "importScripts('{{name wasm_exec.js}}', '{{name desk.wasm}}')",
		"wasm_exec.js":         "class Go {}",
		"keelrow.wasm":         "the program",
		"desk.wasm":            "the second program",
	} {
		raw[name] = []byte(text)
	}
	return raw
}

func singleOf(sources map[string][]byte) (string, error) {
	files, err := bind(sources)
	if err != nil {
		return "", err
	}
	text, err := single(sources, files, gzipped.compress)
	return string(text), err
}

func TestSingle(t *testing.T) {
	sources := small()
	text, err := singleOf(sources)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`<html lang="en" data-single data-job="" data-home="">`,
		`<style>a { color: red }</style>`,
		`<style media="print">a { color: black }</style>`,
		`<link rel="icon" href="data:image/svg+xml;base64,PHN2Zy8+" type="image/svg+xml">`, // base64 of <svg/> by coreutils
		`<progress max="11">`,
		`<script type="text/plain" id="desk.js">importScripts(`,
		`<script id="wasm_exec.js">class Go {}</script>`,
		`<script id="start.js" data-program="keelrow.wasm" data-desk="desk.js">start()</script>`,
	} {
		if strings.Count(text, want) != 1 {
			t.Errorf("it has %s %d times, want once:\n%s", want, strings.Count(text, want), text)
		}
	}
	for _, gone := range []string{"manifest", "preload", "{{", "src="} {
		if strings.Contains(text, gone) {
			t.Errorf("it still has %s", gone)
		}
	}
	// What the scripts use stands before them.
	if strings.Index(text, `id="desk.wasm"`) > strings.Index(text, `id="start.js"`) || strings.Index(text, "<progress") > strings.Index(text, `id="start.js"`) {
		t.Error("start.js runs before what it uses is there")
	}
	for _, name := range []string{"keelrow.wasm", "desk.wasm"} {
		if got := string(unpacked(t, text, name)); got != string(sources[name]) {
			t.Errorf("%s unpacks to %q", name, got)
		}
	}
	checkPolicy(t, text)
}

// unpacked returns what stands packed in the page under a name.
func unpacked(t *testing.T, text, name string) []byte {
	t.Helper()
	m := regexp.MustCompile(`<script type="application/gzip" id="` + regexp.QuoteMeta(name) + `">([^<]*)</script>`).FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("%s is not in it", name)
	}
	packed, err := base64.StdEncoding.DecodeString(m[1])
	if err != nil {
		t.Fatal(err)
	}
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	full, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return full
}

// checkPolicy works out anew, by Content Security Policy Level 3, section
// 6.7.3.3, which inline elements the page's policy allows: all that there are.
func checkPolicy(t *testing.T, text string) {
	t.Helper()
	policy := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]*)">`).FindStringSubmatch(text)
	if policy == nil {
		t.Fatal("it has no policy")
	}
	if !strings.HasPrefix(policy[1], "default-src 'none'; ") || strings.Contains(policy[1], "unsafe-inline") || strings.Contains(policy[1], "'self'") || strings.Contains(policy[1], "http") {
		t.Errorf("its policy is %s", policy[1])
	}
	first := strings.Index(text, "<style")
	if at := strings.Index(text, policy[0]); at > first {
		t.Error("the policy comes after what it is about")
	}
	inline := regexp.MustCompile(`(?s)<(script|style)(?: id="[^"]*"| media="[^"]*"| data-[a-z]+="[^"]*")*>(.*?)</(?:script|style)>`).FindAllStringSubmatch(text, -1)
	if len(inline) < 4 {
		t.Errorf("only %d elements stand inline", len(inline))
	}
	for _, m := range inline {
		sum := sha256.Sum256([]byte(m[2]))
		_, list, _ := strings.Cut(policy[1], m[1]+"-src ")
		list, _, _ = strings.Cut(list, ";")
		if digest := "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(list, digest) {
			t.Errorf("%s lacks %s of %.40q", m[1]+"-src", digest, m[2])
		}
	}
}

func TestSingleRefuses(t *testing.T) {
	for _, tt := range []struct{ name, add, says string }{
		{"start.js", "document.write('</script>')", "</script"},
		{"desk.js", "/* <!-- */", "<!--"},
		{"page.css", "/* </style> */", "</style"},
		{"page.css", "b { background: url(https://example.org/a.png) }", "example.org"},
		{"page.css", "@import 'more.css';", "@import"},
		{"index.html", `<img alt="" src="{{name icon.svg}}">`, "icon.svg"},
	} {
		sources := small()
		if tt.name == "index.html" {
			sources[tt.name] = bytes.Replace(sources[tt.name], []byte("<body>"), []byte("<body>"+tt.add), 1)
		} else {
			sources[tt.name] = append(sources[tt.name], tt.add...)
		}
		if _, err := singleOf(sources); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("with %q in %s: error %v, want one that says %q", tt.add, tt.name, err, tt.says)
		}
	}
}
