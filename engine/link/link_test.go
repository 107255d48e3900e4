package link

import (
	"net/url"
	"slices"
	"strings"
	"testing"
)

// What an address's fragment and query are is RFC 3986, section 3.
func TestOpenFindsThePairs(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"", ""},
		{"#", ""},
		{"room=4200x3600", "room=4200x3600"},
		{"#room=4200x3600&gap=12", "room=4200x3600&gap=12"},
		{"?room=4200x3600&gap=12", "room=4200x3600&gap=12"},
		{"https://example.org/floor/#room=4200x3600", "room=4200x3600"},
		{"https://example.org/floor/?room=4200x3600", "room=4200x3600"},
		{"https://example.org/floor/?lang=en#room=4200x3600", "room=4200x3600"},
		{"https://example.org/floor/?room=4200x3600#top", "room=4200x3600"},
		{"https://example.org/floor/?room=4200x3600#", "room=4200x3600"},
		{"https://example.org/a=b/?room=4200x3600", "room=4200x3600"},
		{"https://example.org/floor/#about", ""},
		{"https://example.org/floor/", ""},
		{"/floor/index.html", ""},
		{"index.html?room=4200x3600", "room=4200x3600"},
		{"localhost:8000/#room=4200x3600", "room=4200x3600"},
		{"room=4200x3600&from=https://example.org/?a=b", "room=4200x3600&from=https://example.org/?a=b"},
		{"#foo", "foo"},
	} {
		if got := Open(tt.text).String(); got != tt.want {
			t.Errorf("Open(%q).String() = %q, want %q", tt.text, got, tt.want)
		}
	}
}

func TestExactTextIsKept(t *testing.T) {
	for _, text := range []string{
		Demo,
		"gap=12.00&room=4200.0x3600&v=1",
		"block=2-1/4inx9in&unit=in",
		"room=0%2C0%3B4200,0;4200,3600",
		"gap=2%201/4in&&colour=%C3%A9&a&=b&gap=%zz&%",
		"hole=1,1;2,1;2,2&room=4200x3600&hole=5,5;6,5;6,6&",
		"note=a+b&note=c%20d",
		" room = 4200x3600 ",
	} {
		if got := Open("#" + text).String(); got != text {
			t.Errorf("Open(%q).String() = %q", text, got)
		}
		l := Open("#" + text)
		for _, key := range []string{"gap", "room", "note", "hole"} {
			if values := l.All(key); values != nil {
				if got := l.With(key, values...).String(); got != text {
					t.Errorf("%q with its own %s again is %q", text, key, got)
				}
			}
		}
	}
}

func TestGet(t *testing.T) {
	l := Open("#note=a+b%20c&hole=1&hole=%32&%67ap=1%2&empty&=x")
	for _, tt := range []struct {
		key, want string
		found     bool
	}{
		{"note", "a+b c", true},
		{"hole", "1", true},
		{"gap", "1%2", true},
		{"empty", "", true},
		{"room", "", false},
		{"", "", false},
	} {
		if got, found := l.Get(tt.key); got != tt.want || found != tt.found {
			t.Errorf("Get(%q) = %q, %v, want %q, %v", tt.key, got, found, tt.want, tt.found)
		}
	}
	if got, want := l.All("hole"), []string{"1", "2"}; !slices.Equal(got, want) {
		t.Errorf("All(hole) = %q, want %q", got, want)
	}
	if got, want := l.Unknown(), []string{"note", "empty", "=x"}; !slices.Equal(got, want) {
		t.Errorf("Unknown() = %q, want %q", got, want)
	}
}

func TestWith(t *testing.T) {
	for _, tt := range []struct {
		name, link, key string
		values          []string
		want            string
	}{
		{"in place", "room=1x1&gap=12&border=5", "gap", []string{"10"}, "room=1x1&gap=10&border=5"},
		{"the same value keeps its text", "g%61p=1%32&border=5", "gap", []string{"12"}, "g%61p=1%32&border=5"},
		{"deleted", "room=1x1&gap=12&border=5&gap=13", "gap", nil, "room=1x1&border=5"},
		{"deleted last", "gap=12", "gap", nil, ""},
		{"deleting what is not there", "gap=12", "room", nil, "gap=12"},
		{"repeats dropped", "gap=1&room=1x1&gap=2", "gap", []string{"3"}, "gap=3&room=1x1"},
		{"new, in table order", "v=1&gap=12&speed=3", "border", []string{"5"}, "v=1&gap=12&border=5&speed=3"},
		{"new, first of the table", "gap=12", "v", []string{"1"}, "v=1&gap=12"},
		{"new, behind an unknown key", "mine=1&gap=12", "lang", []string{"en"}, "mine=1&gap=12&lang=en"},
		{"unknown goes to the end", "v=1&gap=12", "mine", []string{"a b&c=d#e%"}, "v=1&gap=12&mine=a%20b%26c%3Dd%23e%25"},
		{"more values", "hole=a&gap=1&hole=b", "hole", []string{"a", "c", "d"}, "hole=a&gap=1&hole=c&hole=d"},
		{"several new", "room=1x1&gap=1", "hole", []string{"a", "b"}, "room=1x1&hole=a&hole=b&gap=1"},
		{"in an empty link", "", "gap", []string{"12"}, "gap=12"},
		{"an empty key", "gap=12", " ", []string{"12"}, "gap=12"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			before := Open("#" + tt.link)
			if got := before.With(tt.key, tt.values...).String(); got != tt.want {
				t.Errorf("%q.With(%q, %q) = %q, want %q", tt.link, tt.key, tt.values, got, tt.want)
			}
			if got := before.String(); got != tt.link {
				t.Errorf("With changed the link it was called on: %q is now %q", tt.link, got)
			}
		})
	}
}

// net/url is the reference for what may stand in a fragment unescaped and for
// what an escape stands for.
func TestEscapesAgreeWithNetURL(t *testing.T) {
	var every strings.Builder
	for c := range 256 {
		every.WriteByte(byte(c))
	}
	for _, value := range []string{every.String(), "14' 6-1/2\"", "2¼″", "0,0;1,1", "50%", "%41"} {
		l := Link{}.With("note", value)
		if got, _ := l.Get("note"); got != value {
			t.Errorf("With(note, %q) gives %q back", value, got)
		}
		u, err := url.Parse("https://example.org/#" + l.String())
		if err != nil {
			t.Fatalf("net/url on %q: %v", l, err)
		}
		if u.Fragment != "note="+value {
			t.Errorf("net/url reads %q as %q, want %q", l, u.Fragment, "note="+value)
		}
		if q, err := url.ParseQuery(strings.ReplaceAll(l.String(), "+", "%2B")); err != nil && !strings.Contains(l.String(), ";") {
			t.Errorf("net/url on query %q: %v", l, err)
		} else if err == nil && q.Get("note") != value {
			t.Errorf("net/url reads query %q as %q, want %q", l, q.Get("note"), value)
		}
		if again := Open("#" + l.String()); again.All("note")[0] != value {
			t.Errorf("%q opens as %q", l, again.All("note"))
		}
	}
}

func TestTooLong(t *testing.T) {
	fits := "note=" + strings.Repeat("a", Most-len("note="))
	if _, faults := Open(fits).Job(); len(faults) > 0 {
		t.Errorf("a link of %d characters: %v", len(fits), faults)
	}
	l := Open(fits + "a&gap=12")
	job, faults := l.Job()
	if len(faults) != 1 || job.Gap != 0 || l.String() != "" {
		t.Errorf("a link of more than %d characters: %v, gap %v", Most, faults, job.Gap)
	}
	if _, faults := l.View(); len(faults) != 0 {
		t.Errorf("the same link's view: %v, want the one fault of Job only", faults)
	}
}
