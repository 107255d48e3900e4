package reading

import (
	"testing"

	"keelrow/engine/cuts"
	"keelrow/engine/length"
	"keelrow/wasm/words"
)

// 9 in / √2 is 6.36396 in, 0.011 under 6-3/8 (common practice, no source).
func TestReadings(t *testing.T) {
	tape := length.Tape{Unit: length.Inches, Fraction: 16}
	l := length.Length(6.363961 * 25.4)
	for what, c := range map[string][2]string{
		"plain":       {Plain(tape, l), "6-3/8 in"},
		"below 0":     {Plain(length.Tape{}, -70), "−70 mm"},
		"exact":       {Exact(tape, l), "6.364 in"},
		"exact in mm": {Exact(length.Tape{}, 28.2843), "28.28 mm"},
		"off":         {Off(tape.Read(l), words.English()), "shy by 0.011"},
		"strong":      {Off(length.Tape{}.Read(28.3), words.English()), "strong by 0.3"},
		"on the mark": {Off(tape.Read(25.4), words.English()), ""},
	} {
		if c[0] != c[1] {
			t.Errorf("%s: %q, want %q", what, c[0], c[1])
		}
	}
}

func TestRows(t *testing.T) {
	places := []cuts.Place{{Row: 12}, {Row: 3}, {Row: 12}, {Row: 7}}
	if got := Rows(places, 5); got != "3 7 12" {
		t.Errorf("Rows = %q, want 3 7 12", got)
	}
	if got := Rows(places, 2); got != "3 7 …" {
		t.Errorf("two of them: %q", got)
	}
}
