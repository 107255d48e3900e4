// Package drawing writes a floor's lines and numbers as files that other
// programs open: SVG and DXF drawings, CSV tables and JSON objects, each after
// its open standard.
//
// Drawings are in millimetres on the floor, at full size, x to the right and y
// away from the reader. Everything in them is black on nothing: layers are told
// apart by name, dashes and weight, never by colour alone. Nothing here knows
// what a floor is made of.
package drawing

import (
	"math"
	"strconv"
	"strings"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// Drawing is layers one over the other, the first at the bottom. Every
// coordinate, size and angle has to be finite; the writers panic at one that
// is not.
type Drawing struct {
	Title  string
	Layers []Layer
}

// Layer is what is drawn in one way and switched on or off together.
type Layer struct {
	Name   string          // in plain words, like working lines
	Closed []plane.Ring    // outlines, the last corner joined to the first
	Lines  [][]plane.Point // from the first point to the last; at least two
	Texts  []Text
	Dash   Dash          // of outlines and lines
	Weight length.Length // width of a line on the floor; 0 stands for 1 mm
}

// Text is a short label on one line, at most 255 characters.
type Text struct {
	At     plane.Point   // the near left corner of the first letter
	Height length.Length // of a capital letter
	Angle  float64       // degrees counter-clockwise from x
	Text   string
}

// Dash is how a line is broken up. The sizes of its dashes are those of a
// chalk line on the floor, whatever the weight.
type Dash int

// Kinds of line, by the basic types of ISO 128-2.
const (
	Continuous Dash = iota
	Dashed
	Chain // long and short dashes in turn, for centre lines
	Dotted
)

// pattern returns dashes and the spaces after them in turn, in millimetres;
// none for a continuous line.
func (d Dash) pattern() []float64 {
	switch d {
	case Dashed:
		return []float64{60, 30}
	case Chain:
		return []float64{120, 20, 20, 20}
	case Dotted:
		return []float64{6, 18}
	}
	return nil
}

// weight returns the width lines are drawn with, in millimetres.
func (l Layer) weight() float64 {
	if l.Weight == 0 {
		return float64(length.Millimetre)
	}
	return float64(l.Weight)
}

// letters returns about how far t runs on, in millimetres: a letter and the
// space beside it are seldom wider than a capital is high.
func (t Text) letters() float64 {
	n := 0
	for range t.Text {
		n++
	}
	return float64(n) * float64(t.Height)
}

// along returns the directions in which t is read and in which its letters
// stand.
func (t Text) along() (along, up plane.Point) {
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	return plane.Point{X: cos, Y: sin}, plane.Point{X: -sin, Y: cos}
}

// Box returns opposite corners of the box around everything drawn, without the
// width of lines. Room for texts is reckoned amply. Both corners are the
// origin when nothing is drawn.
func (d Drawing) Box() (low, high plane.Point) {
	low = plane.Point{X: math.Inf(1), Y: math.Inf(1)}
	high = plane.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	take := func(points ...plane.Point) {
		for _, p := range points {
			low = plane.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
			high = plane.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
	}
	for _, l := range d.Layers {
		for _, ring := range l.Closed {
			take(ring...)
		}
		for _, line := range l.Lines {
			take(line...)
		}
		for _, t := range l.Texts {
			along, up := t.along()
			end, top := along.Times(t.letters()), up.Times(float64(t.Height))
			take(t.At, t.At.Add(end), t.At.Add(top), t.At.Add(end).Add(top))
		}
	}
	if low.X > high.X {
		return plane.Point{}, plane.Point{}
	}
	return low, high
}

// longestName is the most characters the name of a layer has in DXF R12.
const longestName = 31

// names returns a name for every layer that is a valid DXF R12 layer name and
// a valid SVG id: letters, digits and underscores after a letter. Different
// layers have different names, in capitals too, which R12 does not tell apart.
func (d Drawing) names() []string {
	var names []string
	taken := func(name string) bool {
		for _, other := range names {
			if strings.EqualFold(other, name) {
				return true
			}
		}
		return false
	}
	for _, l := range d.Layers {
		base := plainName(l.Name)
		name := base[:min(len(base), longestName)]
		for n := 2; taken(name); n++ {
			mark := "_" + strconv.Itoa(n)
			name = base[:min(len(base), longestName-len(mark))] + mark
		}
		names = append(names, name)
	}
	return names
}

// plainName returns name with an underscore for all that is no letter or
// digit of ASCII.
func plainName(name string) string {
	var plain []byte
	for _, r := range name {
		if isLetter(r) || '0' <= r && r <= '9' {
			plain = append(plain, byte(r))
		} else {
			plain = append(plain, '_')
		}
	}
	if len(plain) == 0 {
		return "layer"
	}
	if !isLetter(rune(plain[0])) {
		return "layer_" + string(plain)
	}
	return string(plain)
}

func isLetter(r rune) bool { return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' }

// decimals is how many decimals of a millimetre are written: no coordinate is
// off by more than half of the last, 0.5 nm.
const decimals = 6

// appendDecimal appends v with at most decimals decimals, without trailing
// zeros and never as minus zero.
func appendDecimal(dst []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		panic("drawing: a number to be drawn is not finite")
	}
	start := len(dst)
	dst = strconv.AppendFloat(dst, v, 'f', decimals, 64)
	for dst[len(dst)-1] == '0' {
		dst = dst[:len(dst)-1]
	}
	if dst[len(dst)-1] == '.' {
		dst = dst[:len(dst)-1]
	}
	if string(dst[start:]) == "-0" {
		return append(dst[:start], '0')
	}
	return dst
}

// oneLine returns text as valid UTF-8 with a space for every control
// character, since neither format has room for one in a label.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || 0x7f <= r && r < 0xa0 {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}
