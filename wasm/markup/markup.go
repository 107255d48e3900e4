// Package markup writes the small parts that HTML and drawings consist of.
package markup

import (
	"strconv"
	"strings"

	"keelrow/engine/plane"
)

// Escape makes marked-up text of any text, also within an attribute.
func Escape(s string) string {
	if strings.ContainsAny(s, `&<>"`) {
		s = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(s)
	}
	return s
}

// Attr is an attribute with a value that is any text.
func Attr(name, value string) string { return " " + name + `="` + Escape(value) + `"` }

// Num writes a coordinate of a drawing to two decimals, without zeros at its
// end.
func Num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	if s == "-0.00" {
		return "0"
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Path writes a drawing's outline or, left open, its line.
func Path(points []plane.Point, closed bool) string {
	s := "M"
	for i, p := range points {
		if i > 0 {
			s += "L"
		}
		s += Num(p.X) + " " + Num(p.Y)
	}
	if closed {
		s += "Z"
	}
	return s
}
