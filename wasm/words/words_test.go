package words

import (
	"reflect"
	"testing"
)

// Every language must have every text, and the same names in braces as
// English has.
func TestNoTextIsMissing(t *testing.T) {
	english := reflect.ValueOf(*English())
	for _, c := range Languages() {
		v := reflect.ValueOf(*c)
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			if v.Field(i).IsZero() {
				t.Errorf("language %q has no text for %s", c.Lang, name)
			}
			if v.Field(i).Kind() != reflect.String {
				continue
			}
			if got, want := braces(v.Field(i).String()), braces(english.Field(i).String()); !reflect.DeepEqual(got, want) {
				t.Errorf("language %q: %s fills in %v, want %v", c.Lang, name, got, want)
			}
		}
	}
}

// braces returns the names in braces that a text has.
func braces(text string) map[string]bool {
	names := map[string]bool{}
	for i, from := 0, -1; i < len(text); i++ {
		switch text[i] {
		case '{':
			from = i + 1
		case '}':
			names[text[from:i]] = true
		}
	}
	return names
}

func TestIn(t *testing.T) {
	for _, lang := range []string{"en", "", "xx"} {
		if got := In(lang).Lang; got != "en" {
			t.Errorf("In(%q) is in %q, want en", lang, got)
		}
	}
}

func TestFill(t *testing.T) {
	if got, want := Fill("{n} of {all}, {n}", "n", "3", "all", "9"), "3 of 9, 3"; got != want {
		t.Errorf("Fill = %q, want %q", got, want)
	}
}
