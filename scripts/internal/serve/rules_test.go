package serve

import (
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestPattern follows the host's documentation of custom headers ("Wildcards
// and placeholders in paths") and its published header parser,
// netlify/build, packages/headers-parser/src/for_regexp.ts.
func TestPattern(t *testing.T) {
	for _, tt := range []struct {
		pattern, path string
		want          bool
	}{
		{"/*", "/", true},
		{"/*", "/index.html", true},
		{"/*", "/lesson/one.html", true},
		{"/", "/", true},
		{"/", "/index.html", false},
		{"/*.wasm", "/keelrow.3fa2c1d09b.wasm", true},
		{"/*.wasm", "/parts/keelrow.wasm", true},
		{"/*.wasm", "/keelrow.wasm.br", false},
		{"/*.wasm", "/keelrowXwasm", false},
		{"/*.*.js", "/start.3fa2c1d09b.js", true},
		{"/*.*.js", "/sw.js", false},
		{"/*.html", "/404.html", true},
		{"/*.html", "/", false},
		{"/:page", "/lesson", true},
		{"/:page", "/lesson/one", false},
		{"/lesson/*", "/lesson", true},
		{"/lesson/*", "/lesson/one/two", true},
		{"/lesson/*", "/lessons", true}, // so the published parser
		{"/lesson", "/lesson/", true},
		{"/lesson", "/Lesson", true},
		{"/a+b", "/aab", false},
	} {
		if got := pattern(tt.pattern).MatchString(tt.path); got != tt.want {
			t.Errorf("pattern %s for %s: %v, want %v", tt.pattern, tt.path, got, tt.want)
		}
	}
}

func TestReadRules(t *testing.T) {
	name := filepath.Join(t.TempDir(), "netlify.toml")
	write := func(text string) {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(`
[[headers]]
for = "/*"
[headers.values]
X-One = "all"
X-Two = "all"
[[headers]]
for = "/*.css"
[headers.values]
X-Two = "css"
`)
	rules, err := ReadRules(name)
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{"/page.css": "all css", "/page.js": "all all"} {
		h := http.Header{}
		rules.set(h, path)
		if got := h.Get("X-One") + " " + h.Get("X-Two"); got != want {
			t.Errorf("headers for %s: %q, want %q", path, got, want)
		}
	}
	write("[[headers]]\nfor = \"page.css\"\n")
	if _, err := ReadRules(name); err == nil {
		t.Error("ReadRules takes a path without a slash in front")
	}
}

// netlify returns the project's own configuration.
func netlify(t *testing.T) (string, Rules) {
	t.Helper()
	name := filepath.Join("..", "..", "..", "netlify.toml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	rules, err := ReadRules(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text), rules
}

// TestHost checks what the host will send. The host's documentation does not
// say which of two values of one header it sends, so no two rules may set the
// same header for one file.
func TestHost(t *testing.T) {
	text, rules := netlify(t)
	for _, path := range []string{
		"/", "/index.html", "/404.html", "/keelrow.3fa2c1d09b.wasm", "/wasm_exec.3fa2c1d09b.js",
		"/start.3fa2c1d09b.js", "/page.3fa2c1d09b.css", "/icon.3fa2c1d09b.svg",
		"/sw.js", "/icon-192.3fa2c1d09b.png", "/manifest.3fa2c1d09b.webmanifest",
	} {
		from := map[string]string{}
		for _, r := range rules {
			if !r.path.MatchString(path) {
				continue
			}
			for key := range r.values {
				key = http.CanonicalHeaderKey(key)
				if from[key] != "" {
					t.Errorf("%s gets %s from %s and from %s", path, key, from[key], r.path)
				}
				from[key] = r.path.String()
			}
		}
		h := http.Header{}
		rules.set(h, path)
		want := "no-cache"
		if regexp.MustCompile(`\.[0-9a-f]{10}\.`).MatchString(path) {
			want = "public, max-age=31536000, immutable"
		}
		if got := h.Get("Cache-Control"); got != want {
			t.Errorf("Cache-Control of %s is %q, want %q", path, got, want)
		}
		if got := h.Get("X-Content-Type-Options"); got != "nosniff" {
			t.Errorf("X-Content-Type-Options of %s is %q, want nosniff", path, got)
		}
	}

	h := http.Header{}
	rules.set(h, "/")
	policy := map[string]string{}
	for directive := range strings.SplitSeq(h.Get("Content-Security-Policy"), ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(directive), " ")
		policy[name] = value
	}
	for name, value := range policy {
		if strings.Contains(value, "'unsafe-inline'") || strings.Contains(value, "'unsafe-eval'") {
			t.Errorf("the content security policy allows %s %s", name, value)
		}
	}
	for name, want := range map[string]string{
		"default-src": "'none'",
		"script-src":  "'self' 'wasm-unsafe-eval'",
		"style-src":   "'self'",
		"base-uri":    "'none'",
		"form-action": "'none'",
	} {
		if policy[name] != want {
			t.Errorf("the content security policy has %s %s, want %s", name, policy[name], want)
		}
	}
	// The page is made to be embedded.
	if got := policy["frame-ancestors"]; got != "" && got != "*" {
		t.Errorf("the content security policy keeps the page out of frames: frame-ancestors %s", got)
	}
	if got := h.Get("X-Frame-Options"); got != "" {
		t.Errorf("X-Frame-Options is %s; the page is made to be embedded", got)
	}

	mod, err := os.ReadFile(filepath.Join("..", "..", "..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	version := regexp.MustCompile(`(?m)^go (\S+)$`).FindSubmatch(mod)[1]
	if want := `GO_VERSION = "` + string(version) + `"`; !strings.Contains(text, want) {
		t.Errorf("netlify.toml lacks %s, the version in go.mod", want)
	}
}
