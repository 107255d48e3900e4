package tables

import (
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/wasm/words"
)

// A room of 13 ft 4 in by 17 ft 9 in with a gap of 1/2 in, an apron of 4 in
// and tiers of 1-1/2, 1/2, 2-1/4, 1/2 and 1-1/2 in: 138-1/2 and 191-1/2 in
// remain inside. With a repeat of 4-1/2 in, 31 repeats are 139-1/2 in: the
// apron at BC and DA is 1/2 in narrower; 43 are 193-1/2: 1 in narrower at AB
// and CD.
func TestReportOfARepeatingBorder(t *testing.T) {
	const in = length.Inch
	p, err := floor.New(floor.Job{Unit: length.Inches, Gap: in / 2,
		Room:   []plane.Point{{}, {X: 160 * 25.4}, {X: 160 * 25.4, Y: 213 * 25.4}, {Y: 213 * 25.4}},
		Strips: []length.Length{4 * in, 1.5 * in, in / 2, 2.25 * in, in / 2, 1.5 * in}})
	if err != nil {
		t.Fatal(err)
	}
	text := Report(p, 4.5*in, words.English())
	for _, want := range []string{
		"<th scope=row>31</th><td>43</td><td>3 in</td><td>3-1/2 in</td>",
		"<th scope=row>A</th><td>90.00°</td><td>square</td>",
		// From the middle it is 8.9 ft along and 6.7 ft across: 4 × 2 and 3 × 2.
		"8 ft 0 in along the centre line and 6 ft 0 in square to it: the diagonal measures 10 ft 0 in",
		"45.00°, 45.00°",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the report lacks %q:\n%s", want, text)
		}
	}
	if none := Report(p, 0, words.English()); strings.Contains(none, "Repeats") {
		t.Error("a plain border is said to repeat")
	}
}
