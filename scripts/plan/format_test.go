package main

import (
	"strings"
	"testing"

	"keelrow/engine/files"
	"keelrow/engine/floor"
	"keelrow/engine/link"
)

// Every format is what the engine's files are, byte for byte, and the default
// is JSON.
func TestFormats(t *testing.T) {
	for _, text := range []string{square, chevron, single, lRoom, wall, double, single + "&same=3&sliver=40&mark=2"} {
		l := link.Open("#" + text)
		job, _ := l.Job()
		view, _ := l.View()
		plan, err := floor.New(job)
		if err != nil {
			t.Fatal(err)
		}
		o := files.Options{Link: text, Sliver: view.Sliver, Same: view.Same, Marking: view.Marking}
		for kind, args := range map[string][]string{
			"json": {"-format", "json"}, "svg": {"-format", "svg"}, "dxf": {"-format", "dxf"},
			"marks.csv": {"-format", "csv"}, "rows.csv": {"-format", "csv", "-what", "rows"}, "cuts.csv": {"-format=csv", "-what=cuts"},
		} {
			want, ok := files.Write(plan, kind, o)
			status, got, notes := printed(append(args, text)...)
			if !ok || status != 0 || notes != "" || got != string(want) {
				t.Errorf("plan %q %q exits with %d, says %q and prints %d bytes, want %d others", args, text, status, notes, len(got), len(want))
			}
		}
		if _, got, _ := printed(text); !strings.HasPrefix(got, "{\n") {
			t.Errorf("without a format plan %q prints no JSON", text)
		}
	}
}

func TestUnknownFormats(t *testing.T) {
	for _, args := range [][]string{{"-format", "pdf", single}, {"-format", "csv", "-what", "walls", single}} {
		if status, out, notes := printed(args...); status != 2 || out != "" || !strings.Contains(notes, "json, svg, dxf and csv") {
			t.Errorf("plan %q exits with %d, prints %q and says %q", args, status, out, notes)
		}
	}
	if status, out, notes := printed("-colour", single); status != 2 || out != "" || !strings.Contains(notes, "one link") {
		t.Errorf("an unknown flag exits with %d, prints %q and says %q", status, out, notes)
	}
}
