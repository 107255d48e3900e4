package main

import (
	"bytes"
	"strings"
	"testing"
)

// The answers are worked by hand here; the same figures with their working
// stand in the tests of the packages that work them out.
func TestSmallSums(t *testing.T) {
	for _, tt := range []struct {
		about, question string
		want            []string
	}{
		// (4 + 8) in / √2 = 8.4853 in = 215.526 mm.
		{"case 4", "edge 4in 8in 0", []string{`"tips_mm": 215.52`}},
		// From 99 mm every 198: 99 + 2 * 198 = 495 is the first past 400.
		{"case 28", "seam 198 99 400", []string{`"at_mm": 495`, `"intervals": 2`}},
		// 1/32 in * (1 + 2 * 192 / 32) = 13/32 in = 10.31875 mm.
		{"case 27", "runout 32in 1/32in 192in", []string{`"runout_mm": 10.31`}},
		// 2 * 192 / (4 - 1) = 128 in = 3251.2 mm.
		{"case 27, base", "base 1/8in 1/32in 16ft", []string{`"base_mm": 3251.2`, `"possible": true`}},
		// 5 * 0.5 * √2 = 3.5355 mm.
		{"case 22", "pullback 5 0.5", []string{`"pullback_mm": 3.53553`}},
		// 38 / (0.5 * √2) = 53.7: 54 courses.
		{"case 26", "ease 38 0.5", []string{`"courses": 54`}},
		// 1385 / 228 = 6.07: 7 pieces of 197.857 mm.
		{"case 30", "equal 1385 228 120", []string{`"pieces": 7`, `"each_mm": 197.857`}},
		{"case 30, impossible", "equal 230 228 120", []string{`"pieces": 0`}},
		// 70 in hold 24 repeats of 2-7/8 in and 1 in: with a repeat in the
		// middle the ends are (1 + 2.875) / 2 = 1.9375 in = 49.2125 mm.
		{"case 31", "offset 70in 2-7/8in", []string{`"smallest_mm": 49.21`}},
		// 360 / √2 = 254.558: 14 rows are 3563.82, (3600 - 3563.82) / 2 = 18.09.
		{"case 8", "rows 3600 360 10", []string{`"rows": 14`, `"gap_mm": 18.09`}},
		// A V of 120 has each long edge 60 from the axis, and heads of 60.
		{"case 42", "angle 120 v", []string{`"axis": 60`, `"head": 60`, `"saw": 30`}},
		// asin(70 / 97) = 46.19 degrees, 372 * 97 / 70 = 515.49 mm.
		{"case 41", "match 372 97 70", []string{`"mitre_deg": 46.19`, `"length_mm": 515.485`}},
		// 32 + 59 turn by 91, one more than 90.
		{"case 46", "mitres 90 32 59", []string{`"miss_deg": 1`}},
		{"case 46, drift", "graduated 32 33 3", []string{"32,", "32.5,", "33"}},
		{"case 26, phase", "phase 70 280 18 61", []string{`"across_mm": 18`, `"along_mm": -37.99`}}, // 61 less a step of 98.995
		// Ordinates up to 16 mm with a gap of 10: the line is at 26.
		{"case 32", "scribe 10 0 16 0", []string{`"line_mm": 26`, `"narrowest": 2`}},
	} {
		var out, err bytes.Buffer
		if status := run([]string{"-sum", tt.question}, &out, &err); status != 0 {
			t.Errorf("%s: %q ends with %d: %s", tt.about, tt.question, status, err.String())
			continue
		}
		for _, want := range tt.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%s: %q gives %s, want %s in it", tt.about, tt.question, out.String(), want)
			}
		}
	}
}

func TestOneWaySum(t *testing.T) {
	var out, err bytes.Buffer
	// Case 1: slats 3 x 12 in in a room of 14 by 14 ft with a gap of 1/2 in.
	if status := run([]string{"-sum", "oneway left", "room=14ftx14ft&block=3inx12in&gap=1/2in"}, &out, &err); status != 0 {
		t.Fatalf("status %d: %s", status, err.String())
	}
	for _, want := range []string{`"from_centre_mm"`, `"first_mm"`} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%s lacks %s", out.String(), want)
		}
	}
}

func TestSumsThatCannotBeWorked(t *testing.T) {
	for question, want := range map[string]string{
		"list":                 "equal",
		"":                     "Give one link",
		"equal 1385":           "the block is missing",
		"equal a b c":          "equal:",
		"equal 1385 228 120 9": "one too many",
		"angle 60":             "angle:",
		"oneway left":          "give its link",
		"mitres":               "missing",
		"scribe 10":            "ordinates are missing",
		"seam 0 0 0":           "more than 0",
		"phase 0 0 0 0":        "width and a length",
	} {
		var out, err bytes.Buffer
		if status := run([]string{"-sum", question}, &out, &err); status != 2 || !strings.Contains(err.String(), want) || out.Len() > 0 {
			t.Errorf("%q ends with %d and says %q, want 2 and %q", question, status, err.String(), want)
		}
	}
}
