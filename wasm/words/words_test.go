package words

import (
	"reflect"
	"testing"
)

// Every language must have every text, and the same names in braces as
// English has.
func TestNoTextIsMissing(t *testing.T) {
	for _, c := range Languages() {
		checkTexts(t, c.Lang, reflect.ValueOf(*c), reflect.ValueOf(*English()))
	}
}

func checkTexts(t *testing.T, where string, v, english reflect.Value) {
	t.Helper()
	for i := range v.NumField() {
		name := where + " " + v.Type().Field(i).Name
		field, want := v.Field(i), english.Field(i)
		switch {
		case v.Type().Field(i).Name == "_":
		case field.Kind() == reflect.Struct:
			checkTexts(t, name, field, want)
		case field.IsZero():
			t.Errorf("no text for %s", name)
		case field.Kind() == reflect.String:
			if got, want := braces(field.String()), braces(want.String()); !reflect.DeepEqual(got, want) {
				t.Errorf("%s fills in %v, want %v", name, got, want)
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
