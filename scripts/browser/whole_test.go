package browser

import (
	"flag"
	"slices"
	"testing"
)

// TestEveryControlIsTried comes last, because of its file's name: the tests
// before it have clicked, or typed in, every control there is.
func TestEveryControlIsTried(t *testing.T) {
	if flag.Lookup("test.run").Value.String() != "" || testing.Short() {
		t.Skip("only some of the tests were run")
	}
	p := open(t, "#room=0,0;12000,0;12000,3000;0,3000&hole=900,900;1800,900;1800,1800&unit=in&block=80x350", desk)
	p.allows("NavigationEntryMarkedSkippable")
	all := map[string]bool{}
	for _, link := range []string{"", "&pattern=chevron", "&room=12000x3000", "&start=wall"} {
		if link != "" {
			p.run(`(link) => { location.hash = link; }`, "#unit=in&block=80x350"+link)
			p.rest()
		}
		for _, stage := range []string{"1", "2", "3", "4"} {
			p.keys(stage)
			p.run(`() => { for (const d of document.querySelectorAll('details')) d.open = true; }`)
			for _, c := range eval[[]string](p, `() => person.all().map(person.control)`) {
				all[c] = true
			}
		}
	}
	// These have tests that use them otherwise than by a click: the skip link
	// is reached with Tab, the ruler is dragged.
	delete(all, "skip")
	delete(all, "div")
	used.Lock()
	defer used.Unlock()
	var left []string
	for c := range all {
		if !used.controls[c] {
			left = append(left, c)
		}
	}
	slices.Sort(left)
	if len(all) < 40 || len(left) > 0 {
		t.Errorf("of %d controls none of the tests tries %q", len(all), left)
	}
}
