package drawing

import (
	"strconv"
	"strings"
	"testing"
)

type group struct {
	code  int
	value string
}

// groups takes a DXF file apart by the rules of the DXF Reference: lines in
// pairs, a group code and its value, in ASCII, 255 characters at most.
func groups(t *testing.T, data []byte) (list []group) {
	t.Helper()
	for i, c := range data {
		if c > '~' || c < ' ' && c != '\r' && c != '\n' {
			t.Fatalf("byte %d is %q, which is not printable ASCII", i, c)
		}
	}
	lines := strings.Split(string(data), "\r\n")
	if lines[len(lines)-1] != "" || len(lines)%2 != 1 || strings.ContainsAny(strings.Join(lines, ""), "\r\n") {
		t.Fatalf("%d lines, the last %q: not pairs of lines with CR LF", len(lines), lines[len(lines)-1])
	}
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimLeft(lines[i], " "))
		if err != nil || len(lines[i]) != 3 {
			t.Fatalf("line %d: %q is no group code", i+1, lines[i])
		}
		if len(lines[i+1]) > 255 {
			t.Fatalf("line %d has %d characters", i+2, len(lines[i+1]))
		}
		list = append(list, group{code, lines[i+1]})
	}
	return list
}

// The DXF Reference on the order of things: sections HEADER, TABLES, ENTITIES
// between SECTION and ENDSEC; LTYPE before LAYER; an entity's layer is in the
// table, a layer's line type too; SEQEND ends the vertices of a POLYLINE; EOF
// at the end.
func TestDXFStructure(t *testing.T) {
	list := groups(t, lRoom().AppendDXF(nil))
	var order []string
	names := map[string]map[string]bool{"LTYPE": {}, "LAYER": {}, "STYLE": {}}
	kind, section, table := "", "", ""
	entries, promised := 0, 0
	inPolyline := false
	for i, g := range list {
		switch g.code {
		case 0:
			if inPolyline != (g.value == "VERTEX" || g.value == "SEQEND") {
				t.Errorf("group %d: %s inside a polyline: %v", i, g.value, inPolyline)
			}
			switch g.value {
			case "POLYLINE":
				inPolyline = true
			case "SEQEND":
				inPolyline = false
			case "ENDTAB":
				if entries != promised {
					t.Errorf("table %s has %d entries and says %d", table, entries, promised)
				}
				table = ""
			case "ENDSEC":
				section = ""
			}
			if table != "" && g.value == table {
				entries++
			}
			kind = g.value
		case 2:
			switch {
			case kind == "SECTION":
				section = g.value
				order = append(order, section)
			case kind == "TABLE":
				table, entries = g.value, 0
				order = append(order, table)
			case section == "TABLES":
				if names[table][g.value] {
					t.Errorf("%s %s is there twice", table, g.value)
				}
				names[table][g.value] = true
			}
		case 6:
			if !names["LTYPE"][g.value] {
				t.Errorf("%s has line type %s, which is in no table", kind, g.value)
			}
		case 8:
			if !names["LAYER"][g.value] {
				t.Errorf("%s is on layer %s, which is in no table", kind, g.value)
			}
		case 70:
			if kind == "TABLE" {
				promised, _ = strconv.Atoi(g.value)
			}
		}
	}
	if got := strings.Join(order, " "); got != "HEADER TABLES LTYPE LAYER STYLE ENTITIES" {
		t.Errorf("order is %s", got)
	}
	if last := list[len(list)-1]; last != (group{0, "EOF"}) {
		t.Errorf("the last group is %v", last)
	}
	if !names["LAYER"]["0"] || len(names["LAYER"]) != 1+len(lRoom().Layers) {
		t.Errorf("layers are %v", names["LAYER"])
	}
}

// The DXF Reference on strings: %%d is a degree sign, %%p plus-minus, a caret
// and a space a caret, \U+XXXX a character by its code point.
func TestDXFText(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"6-3/8 in, shy by 0.011", "6-3/8 in, shy by 0.011"},
		{"45° ± 1", "45%%d %%p 1"},
		{"2¼″", `2\U+00BC\U+2033`},
		{"a^b", "a^ b"},
		{"5% 10%%d", "5% 10% %d"},
		{`\U+00BC and \n`, `\U+005CU+00BC and \n`},
		{"two\r\nlines\x00", "two  lines "},
		{"\xff🪵", `\U+FFFD\U+FFFD`},
	} {
		if got := oneASCIILine(tt.text); got != tt.want {
			t.Errorf("%q is written %q, want %q", tt.text, got, tt.want)
		}
	}
}

// Titles and names of layers may hold anything, and still the file is in
// pairs of lines.
func TestDXFAwkwardNames(t *testing.T) {
	d := Drawing{Title: "a\r\n0\r\nEOF", Layers: []Layer{{Name: "b\n  0\nEOF"}, {Name: "ü,;:\"<>|"}}}
	ends := 0
	for _, g := range groups(t, d.AppendDXF(nil)) {
		if g.code == 0 && g.value == "EOF" {
			ends++
		}
	}
	if ends != 1 {
		t.Errorf("%d groups end the file", ends)
	}
}
