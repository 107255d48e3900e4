package drawing

import "keelrow/engine/plane"

// capital is the height of a capital letter as a part of the font size, by
// which SVG sets text. In common sans-serif faces it is 0.71 to 0.73.
const capital = 0.72

// AppendSVG appends d as an SVG 1.1 document at full size: width and height
// are millimetres on the floor, and so is the unit of its coordinates, in which
// y runs down. The page ends half the heaviest line beyond Box. Each layer is
// a group with its name as title, styled by presentation attributes alone.
func (d Drawing) AppendSVG(dst []byte) []byte {
	low, high := d.Box()
	edge := 0.0
	for _, l := range d.Layers {
		edge = max(edge, l.weight()/2)
	}
	// Written once, so that the size on paper and the size in coordinates are
	// the same digits and the scale is 1.
	width := string(appendDecimal(nil, high.X-low.X+2*edge))
	height := string(appendDecimal(nil, high.Y-low.Y+2*edge))
	dst = append(dst, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"...)
	dst = append(dst, `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="`+width+`mm" height="`+height+`mm" viewBox="`...)
	dst = appendDecimal(dst, low.X-edge)
	dst = append(dst, ' ')
	dst = appendDecimal(dst, -high.Y-edge)
	dst = append(dst, ` `+width+` `+height+`">`+"\n"...)
	dst = appendTitle(dst, d.Title)
	names := d.names()
	for i, l := range d.Layers {
		dst = append(dst, `<g id="`+names[i]+`" fill="none" stroke="black" stroke-linejoin="round" stroke-width="`...)
		dst = appendDecimal(dst, l.weight())
		for j, size := range l.Dash.pattern() {
			if j == 0 {
				dst = append(dst, `" stroke-dasharray="`...)
			} else {
				dst = append(dst, ' ')
			}
			dst = appendDecimal(dst, size)
		}
		dst = append(dst, `">`+"\n"...)
		dst = appendTitle(dst, l.Name)
		for _, ring := range l.Closed {
			dst = appendPoints(dst, "polygon", ring)
		}
		for _, line := range l.Lines {
			dst = appendPoints(dst, "polyline", line)
		}
		for _, t := range l.Texts {
			dst = t.appendSVG(dst)
		}
		dst = append(dst, "</g>\n"...)
	}
	return append(dst, "</svg>\n"...)
}

func appendTitle(dst []byte, title string) []byte {
	dst = append(dst, "<title>"...)
	dst = appendXML(dst, title)
	return append(dst, "</title>\n"...)
}

// appendPoints appends an element that is drawn from point to point.
func appendPoints(dst []byte, element string, points []plane.Point) []byte {
	dst = append(dst, "<"+element+` points="`...)
	for i, p := range points {
		if i > 0 {
			dst = append(dst, ' ')
		}
		dst = appendDecimal(dst, p.X)
		dst = append(dst, ',')
		dst = appendDecimal(dst, -p.Y)
	}
	return append(dst, `"/>`+"\n"...)
}

func (t Text) appendSVG(dst []byte) []byte {
	dst = append(dst, `<text font-family="sans-serif" fill="black" stroke="none" font-size="`...)
	dst = appendDecimal(dst, float64(t.Height)/capital)
	dst = append(dst, `" x="`...)
	dst = appendDecimal(dst, t.At.X)
	dst = append(dst, `" y="`...)
	dst = appendDecimal(dst, -t.At.Y)
	if t.Angle != 0 {
		dst = append(dst, `" transform="rotate(`...)
		dst = appendDecimal(dst, -t.Angle)
		dst = append(dst, ' ')
		dst = appendDecimal(dst, t.At.X)
		dst = append(dst, ' ')
		dst = appendDecimal(dst, -t.At.Y)
		dst = append(dst, ')')
	}
	dst = append(dst, `">`...)
	dst = appendXML(dst, t.Text)
	return append(dst, "</text>\n"...)
}

// appendXML appends text on one line, escaped as the content of an element.
// The two characters beyond ASCII that XML 1.0 has no place for become U+FFFD.
func appendXML(dst []byte, text string) []byte {
	for _, r := range oneLine(text) {
		switch r {
		case '&':
			dst = append(dst, "&amp;"...)
		case '<':
			dst = append(dst, "&lt;"...)
		case '>':
			dst = append(dst, "&gt;"...)
		case '\uFFFE', '\uFFFF':
			dst = append(dst, "\uFFFD"...)
		default:
			dst = append(dst, string(r)...)
		}
	}
	return dst
}
