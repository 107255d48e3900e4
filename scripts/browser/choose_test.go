package browser

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

func TestChoose(t *testing.T) {
	p := open(t, "#room=4200x3600&block=70x350&stage=choose", desk)
	p.see(".ratio", "5 to 1")
	p.see(".ratio", "Within the usual")
	// Seams of every other row line up when the length is a multiple of the
	// unit's width: 350 = 5 * 70.
	p.see(".stage-body", "the length is 5 widths")
	p.typeInto("Width", "80")
	same(p, "block", p.key("block"), "80x350")
	p.see(".ratio", "4.38 to 1")                  // 350 / 80
	p.see(".stage-body", "miss each other by 30") // 350 mod 80
	p.click("Make it 320 mm")
	same(p, "block", p.key("block"), "80x320")
	same(p, "Length", p.value("Length"), "320")
	p.see(".stage-body", "the length is 4 widths")
	p.typeInto("Length", "2-1/4")
	p.typeInto("Length", `13-3/4"`)
	same(p, "block", p.key("block"), "80x13-3/4in")
	p.typeInto("Length", "350")
	p.click("Make it 400 mm")
	same(p, "block", p.key("block"), "80x400")
	p.click("Double")
	same(p, "strands", p.key("strands"), "2")
	p.see(".stage-body", "miss each other by 80") // 400 mod 160
	p.click("Triple")
	same(p, "strands", p.key("strands"), "3")
	p.click("Single")
	same(p, "strands", p.key("strands"), "1")
	p.typeInto("Length", "700")
	p.see(".ratio", "Longer than")
	p.typeInto("Length", "200")
	p.see(".ratio", "Shorter than")

	p.click("Chevron")
	same(p, "pattern", p.key("pattern"), "chevron")
	p.typeInto("Long edge", "600")
	p.typeInto("Width", "90")
	p.typeInto("Mitre angle", "60")
	same(p, "mitre", p.key("mitre"), "60")
	// Tip to tip: 600 + 90 * cot 60° = 651.96.
	p.see(".stage-body", "651.96")
	p.click("Strike")
	// Interval 600 * sin 60° = 519.62, step 90 / sin 60° = 103.92.
	p.see(".figures", "519.62")
	p.see(".figures", "103.92")
	p.click("Choose")
	p.pasteInto("Mitre angle", "80")
	if !p.shown("#problem-mitre, #problem-key-mitre") && !eval[bool](p, `() => [...document.querySelectorAll('.problem')].some(person.seen)`) {
		t.Error("nothing is said of a mitre of 80 degrees")
	}
	same(p, "mitre", p.key("mitre"), "60")
	p.typeInto("Mitre angle", "52,5")
	same(p, "mitre", p.key("mitre"), "52.5")
	p.click("Herringbone")
	same(p, "pattern", p.key("pattern"), "herringbone")
	p.see(".ratio", "to 1")
}

// The counts on the page against those computed with GEOS 3.11, through
// Shapely, block by block; the file belongs to the engine's tests.
func TestCountsAgainstGEOS(t *testing.T) {
	h, err := enter()
	if errors.Is(err, errNoBrowser) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string, into any) {
		t.Helper()
		data, err := os.ReadFile(filepath.Join(h.root, "engine", "floor", "testdata", name))
		if err == nil {
			err = json.Unmarshal(data, into)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	var cases []struct {
		Name, Pattern string
		Width, Length float64
		Strands       int
		Mitre         float64 `json:"mitre_deg"`
		Axis          float64 `json:"axis_deg"`
		Gap, Border   float64
		Room          [][2]float64
		Holes         [][][2]float64
		Centre        [2]float64
	}
	var values []struct {
		RoomArea  float64 `json:"room_area"`
		FieldArea float64 `json:"field_area"`
		Full      int
		Cut       int `json:"cut_blocks"`
		Pieces    int `json:"cut_pieces"`
	}
	read("geos-cases.json", &cases)
	read("geos-values.json", &values)
	text := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	corners := func(list [][2]float64) string {
		var out []string
		for _, c := range list {
			out = append(out, text(c[0])+","+text(c[1]))
		}
		return strings.Join(out, ";")
	}
	// One tab for all: each link follows the one before it.
	p := open(t, "#stage=lay", desk)
	p.allows("NavigationEntryMarkedSkippable")
	for i, c := range cases {
		want := values[i]
		link := "#room=" + corners(c.Room)
		for _, hole := range c.Holes {
			link += "&hole=" + corners(hole)
		}
		link += "&gap=" + text(c.Gap) + "&border=" + text(c.Border) + "&pattern=" + c.Pattern + "&block=" + text(c.Width) + "x" + text(c.Length)
		if c.Strands > 0 {
			link += "&strands=" + strconv.Itoa(c.Strands)
		}
		if c.Mitre > 0 {
			link += "&mitre=" + text(c.Mitre)
		}
		link += "&axis=" + text(c.Axis) + "&centre=" + text(c.Centre[0]) + "," + text(c.Centre[1]) + "&stage=lay"
		p.run(`(link) => { location.hash = link; }`, link)
		p.rest()
		counts := eval[[]string](p, `() => [...document.querySelectorAll('.counts .readout')].map((e) => person.text ? person.tidy(e.textContent) : '')`)
		if got := strings.Join(counts, " "); got != fmt.Sprint(want.Full, want.Cut, want.Pieces) {
			t.Errorf("%s: full, cut, pieces %s, want %d %d %d", c.Name, got, want.Full, want.Cut, want.Pieces)
		}
		p.see(".facts", strconv.FormatFloat(want.FieldArea/1e6, 'f', 2, 64)+" m²")
		if _, all := p.laid(); all != want.Full+want.Cut {
			t.Errorf("%s: the counter has %d blocks, want %d", c.Name, all, want.Full+want.Cut)
		}
	}
	if len(cases) < 10 {
		t.Errorf("only %d cases", len(cases))
	}
}
