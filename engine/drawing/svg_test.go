package drawing

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"keelrow/engine/plane"
)

// svgDocument is what a reader of XML finds in a drawing.
type svgDocument struct {
	XMLName xml.Name
	Width   string `xml:"width,attr"`
	Height  string `xml:"height,attr"`
	ViewBox string `xml:"viewBox,attr"`
	Title   string `xml:"title"`
	Layers  []struct {
		ID       string    `xml:"id,attr"`
		Title    string    `xml:"title"`
		Weight   string    `xml:"stroke-width,attr"`
		Dashes   string    `xml:"stroke-dasharray,attr"`
		Polygon  []svgLine `xml:"polygon"`
		Polyline []svgLine `xml:"polyline"`
		Text     []struct {
			X         float64 `xml:"x,attr"`
			Y         float64 `xml:"y,attr"`
			Size      float64 `xml:"font-size,attr"`
			Transform string  `xml:"transform,attr"`
			Text      string  `xml:",chardata"`
		} `xml:"text"`
	} `xml:"g"`
}

type svgLine struct {
	Points string `xml:"points,attr"`
}

func (l svgLine) points(t *testing.T) (list []plane.Point) {
	t.Helper()
	for _, pair := range strings.Fields(l.Points) {
		x, y, _ := strings.Cut(pair, ",")
		list = append(list, plane.Point{X: number(t, x), Y: number(t, y)})
	}
	return list
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func readSVG(t *testing.T, d Drawing) svgDocument {
	t.Helper()
	var doc svgDocument
	if err := xml.Unmarshal(d.AppendSVG(nil), &doc); err != nil {
		t.Fatalf("AppendSVG writes what is not XML: %v", err)
	}
	return doc
}

// SVG 1.1, section 7.7: a viewBox is shown in the width and height given, so
// the scale is the width over the viewBox's third number. Section 7.10: mm is
// a unit of length. Section 7.3: y runs down.
func TestSVGTrueScale(t *testing.T) {
	// A square with sides of 1 m whose near left corner is at 500, 250, drawn
	// 2 mm wide: 1002 mm of paper, from 1 mm left of and above it.
	square := plane.Ring{{X: 500, Y: 250}, {X: 1500, Y: 250}, {X: 1500, Y: 1250}, {X: 500, Y: 1250}}
	doc := readSVG(t, Drawing{Layers: []Layer{{Name: "wall", Closed: []plane.Ring{square}, Weight: 2}}})
	if doc.XMLName.Space != "http://www.w3.org/2000/svg" || doc.XMLName.Local != "svg" {
		t.Errorf("the document is a %v", doc.XMLName)
	}
	if doc.Width != "1002mm" || doc.Height != "1002mm" || doc.ViewBox != "499 -1251 1002 1002" {
		t.Errorf("size and viewBox of a 1 m square = %s, %s, %s", doc.Width, doc.Height, doc.ViewBox)
	}
	if got, want := doc.Layers[0].Polygon[0].Points, "500,-250 1500,-250 1500,-1250 500,-1250"; got != want {
		t.Errorf("corners of a 1 m square = %s, want %s", got, want)
	}
}

func TestSVGReadsBack(t *testing.T) {
	d := lRoom()
	doc := readSVG(t, d)
	if doc.Title != d.Title {
		t.Errorf("title = %q, want %q", doc.Title, d.Title)
	}
	width := number(t, strings.TrimSuffix(doc.Width, "mm"))
	box := strings.Fields(doc.ViewBox)
	if number(t, box[2]) != width || number(t, box[3]) != number(t, strings.TrimSuffix(doc.Height, "mm")) {
		t.Errorf("%s by %s for the viewBox %s is not full size", doc.Width, doc.Height, doc.ViewBox)
	}
	if len(doc.Layers) != len(d.Layers) {
		t.Fatalf("%d layers, want %d", len(doc.Layers), len(d.Layers))
	}
	near := func(what string, got []plane.Point, want []plane.Point) {
		t.Helper()
		if len(got) != len(want) {
			t.Errorf("%s has %d points, want %d", what, len(got), len(want))
			return
		}
		for i, p := range want {
			if math.Abs(got[i].X-p.X) > 1e-6 || math.Abs(got[i].Y+p.Y) > 1e-6 {
				t.Errorf("%s: point %d = %v, want %v with y turned", what, i, got[i], p)
			}
		}
	}
	for i, l := range d.Layers {
		g := doc.Layers[i]
		if g.Title != l.Name || len(g.Polygon) != len(l.Closed) || len(g.Polyline) != len(l.Lines) || len(g.Text) != len(l.Texts) {
			t.Errorf("layer %q has %d, %d, %d outlines, lines, texts, want %q with %d, %d, %d", g.Title,
				len(g.Polygon), len(g.Polyline), len(g.Text), l.Name, len(l.Closed), len(l.Lines), len(l.Texts))
			continue
		}
		for j, ring := range l.Closed {
			near(l.Name, g.Polygon[j].points(t), ring)
		}
		for j, line := range l.Lines {
			near(l.Name, g.Polyline[j].points(t), line)
		}
		for j, text := range l.Texts {
			got := g.Text[j]
			near(text.Text, []plane.Point{{X: got.X, Y: got.Y}}, []plane.Point{text.At})
			if got.Text != text.Text {
				t.Errorf("text = %q, want %q", got.Text, text.Text)
			}
		}
	}
	// SVG 1.1, section 7.6: a positive angle turns clockwise, since y runs
	// down, so a label read upward has a negative one.
	if got, want := doc.Layers[7].Text[1].Transform, "rotate(-90 880 -200)"; got != want {
		t.Errorf("a label read upward is turned by %q, want %q", got, want)
	}
}

// A drawing printed in black has to show which line is which.
func TestSVGLinesDifferWithoutColour(t *testing.T) {
	seen := map[string]Dash{}
	for _, dash := range []Dash{Continuous, Dashed, Chain, Dotted} {
		doc := readSVG(t, Drawing{Layers: []Layer{{Dash: dash}}})
		dashes := doc.Layers[0].Dashes
		if other, ok := seen[dashes]; ok {
			t.Errorf("dashes %d and %d are both drawn %q", dash, other, dashes)
		}
		seen[dashes] = dash
	}
}

// XML 1.0, production 2, names the characters a document may have.
func isXML(r rune) bool {
	return r >= ' ' && r <= 0xD7FF || r >= 0xE000 && r <= 0xFFFD || r >= 0x10000
}

func FuzzSVGText(f *testing.F) {
	for _, s := range []string{
		"wall", `<g id="a">&amp;</g>`, "]]>", "<!--", "2¼″ ± 45°", "\x00\x1b\r\n\t", "\xff\xc0", "\uFFFE\uFFFF", "\u0085\u2028", "🪵", "-->'\"",
	} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		d := Drawing{Title: text, Layers: []Layer{{Name: name, Texts: []Text{{Height: 40, Text: text}}}}}
		data := d.AppendSVG(nil)
		if !utf8.Valid(data) {
			t.Fatalf("not UTF-8: %q", data)
		}
		reader := xml.NewDecoder(bytes.NewReader(data))
		var elements []string
		var content strings.Builder
		for {
			token, err := reader.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("not XML: %v in %q", err, data)
			}
			switch token := token.(type) {
			case xml.StartElement:
				elements = append(elements, token.Name.Local)
			case xml.CharData:
				content.Write(token)
			}
		}
		if got := strings.Join(elements, " "); got != "svg title g title text" {
			t.Errorf("texts change the elements to %s", got)
		}
		plain := func(s string) string {
			var out strings.Builder
			for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
				switch {
				case unicode.IsControl(r):
					out.WriteByte(' ')
				case !isXML(r):
					out.WriteRune(unicode.ReplacementChar)
				default:
					out.WriteRune(r)
				}
			}
			return out.String()
		}
		want := "\n\n" + plain(text) + "\n\n" + plain(name) + "\n" + plain(text) + "\n\n\n"
		if got := content.String(); got != want {
			t.Errorf("texts read back as %q, want %q", got, want)
		}
	})
}
