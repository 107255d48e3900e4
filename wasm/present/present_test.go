package present

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/look"
)

// orderOf returns what is asked about the floor of a link.
func orderOf(t *testing.T, text string) Order {
	t.Helper()
	l := link.Open("#" + text)
	job, faults := l.Job()
	view, more := l.View()
	if len(faults)+len(more) > 0 {
		t.Fatalf("%q: %v, %v", text, faults, more)
	}
	plan, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	return Order{Plan: plan, View: view, Link: text, Texts: In("en"), Home: "https://example.org/", Date: "1 May"}
}

// What a link may say is what the painters know, and has a name.
func TestLinkAndLookAgree(t *testing.T) {
	var woods []string
	for _, w := range look.Woods() {
		woods = append(woods, w.Key)
	}
	if !slices.Equal(woods, link.Woods) {
		t.Errorf("the painters have %q, links %q", woods, link.Woods)
	}
	texts := In("en")
	for key, of := range map[string]struct {
		values []string
		names  map[string]string
	}{
		"wood": {woods, texts.Woods}, "grade": {look.Grades, texts.Grades}, "finish": {look.Finishes, texts.Finishes},
		"tone": {look.Tones, texts.Tones}, "edge": {look.Edges, texts.Edges}, "joint": {look.Joints, texts.Joints},
	} {
		for _, value := range of.values {
			if _, faults := link.Open("#" + key + "=" + value).View(); len(faults) > 0 || of.names[value] == "" {
				t.Errorf("%s=%s: %v, named %q", key, value, faults, of.names[value])
			}
		}
	}
}

// Every control says something that the link takes, and what is written has
// no numbers.
func TestPanels(t *testing.T) {
	control := regexp.MustCompile(`data-do="(dress|beside)" data-arg="([^"]*)"`)
	tags := regexp.MustCompile(`<[^>]*>`)
	for _, text := range []string{"room=4200x3600&border=110", "pattern=chevron&window=BC:900,1200&window=BC:100,500&line=wall:AB", "strands=2&room=0,0;0,3000;900,3000;900,900;3000,900;3000,0"} {
		o := orderOf(t, text)
		for _, subject := range []string{"wood", "light", "view", "compare", "away"} {
			panel := Panel(o, subject)
			if found := regexp.MustCompile(`[0-9]`).FindString(tags.ReplaceAllString(panel, " ")); found != "" {
				t.Errorf("%s of %q has the number %s", subject, text, found)
			}
			for _, c := range control.FindAllStringSubmatch(panel, -1) {
				arg := strings.ReplaceAll(c[2], "&amp;", "&")
				l := link.Open("#" + text)
				if c[1] == "beside" {
					l = l.With("beside", arg)
					other, ok := l.Beside()
					job, faults := other.Job()
					if _, err := floor.New(job); !ok || len(faults) > 0 || err != nil {
						t.Errorf("%q beside %q: %v, %v, %v", text, arg, ok, faults, err)
					}
				} else {
					key, value, _ := strings.Cut(arg, "=")
					l = l.With(key, value)
				}
				if _, faults := l.View(); len(faults) > 0 {
					t.Errorf("%q with %q: %v", text, c[2], faults)
				}
			}
		}
	}
}

// ISO/IEC 18004, table 7, from memory: the largest code, of version 40 with
// the least correction, holds 2953 bytes.
func TestCodeSaysWhereItEnds(t *testing.T) {
	if _, ok := code(strings.Repeat("a", 2953)); !ok {
		t.Error("2953 bytes do not go into a code")
	}
	if drawn := Code(strings.Repeat("a", 2954), In("en")); strings.Contains(drawn, "<svg") || !strings.Contains(drawn, "Copy the link") {
		t.Errorf("2954 bytes give %.80q", drawn)
	}
}

// 4.2 m by 3.6 m less a hearth of 1 m by 0.5 m are 14.62 m²; 14 ft by 12 ft
// are 168 square feet.
func TestSheet(t *testing.T) {
	for text, want := range map[string][]string{
		"room=4200x3600&hole=1000,1000;2000,1000;2000,1500;1000,1500&wood=cherry&tone=smoked&finish=raw": {"14.6 m²", "Cherry, smoked", "Raw", "70 mm × 350 mm", "None"},
		"unit=in&room=14ftx12ft&pattern=chevron&border=5&borderwood=wenge":                               {"168 sq ft", "Chevron", "5 in, wenge", "<svg"},
	} {
		sheet := Sheet(orderOf(t, text))
		for _, w := range want {
			if !strings.Contains(sheet, w) {
				t.Errorf("the sheet of %q has no %q", text, w)
			}
		}
		if money := regexp.MustCompile(`(?i)price|cost|[€$£]`).FindString(sheet); money != "" {
			t.Errorf("the sheet of %q has %q", text, money)
		}
	}
}
