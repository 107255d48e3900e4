// Package opened opens links for tests of what is written about a floor.
package opened

import (
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/link"
)

// Plan returns the plan of a link without its '#', and how it is to be shown.
// A link with a fault ends the test.
func Plan(t testing.TB, text string) (*floor.Plan, link.View) {
	t.Helper()
	l := link.Open("#" + text)
	job, faults := l.Job()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	plan, err := floor.New(job)
	if err != nil {
		t.Fatal(err)
	}
	view, _ := l.View()
	return plan, view
}
