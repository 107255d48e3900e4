package drawing

import (
	"slices"
	"strconv"

	"keelrow/engine/plane"
)

// lineType is a Dash as DXF names and describes it.
type lineType struct {
	dash              Dash
	name, description string
}

// lineTypes is every line type of the drawing, by the names programs know
// them under.
var lineTypes = [...]lineType{
	{Continuous, "CONTINUOUS", "Solid line"},
	{Dashed, "DASHED", "__ __ __ __ __"},
	{Chain, "CENTER", "____ _ ____ _ ____"},
	{Dotted, "DOT", ". . . . . . . ."},
}

// AppendDXF appends d as a DXF drawing of release 12 (AC1009), in ASCII: what
// every program that opens DXF can read. An outline is a closed POLYLINE, a
// line LINE or, with more than two points, POLYLINE, a label TEXT. Layers have
// their names with underscores for spaces, and colour 7, which is black on
// white and white on black.
//
// Release 12 has no units and no line weights: one drawing unit is a
// millimetre, as a comment says, and weights are left to whoever plots.
func (d Drawing) AppendDXF(dst []byte) []byte {
	f := dxf(dst)
	if d.Title != "" {
		f.text(999, oneASCIILine(d.Title))
	}
	f.text(999, "One drawing unit is one millimetre.")
	low, high := d.Box()
	f.open("HEADER")
	f.text(9, "$ACADVER")
	f.text(1, "AC1009")
	f.text(9, "$EXTMIN")
	f.point(low)
	f.text(9, "$EXTMAX")
	f.point(high)
	f.text(9, "$LUNITS") // 2 is decimal numbers
	f.count(70, 2)
	f.text(9, "$LUPREC")
	f.count(70, decimals)
	f.shut()
	names := d.names()
	f.tables(d.Layers, names)
	f.open("ENTITIES")
	for i, l := range d.Layers {
		for _, ring := range l.Closed {
			f.polyline(names[i], ring, true)
		}
		for _, line := range l.Lines {
			if len(line) == 2 {
				f.entity("LINE", names[i])
				f.point(line[0])
				f.number(11, line[1].X)
				f.number(21, line[1].Y)
				f.number(31, 0)
			} else {
				f.polyline(names[i], line, false)
			}
		}
		for _, t := range l.Texts {
			f.label(names[i], t)
		}
	}
	f.shut()
	f.text(0, "EOF")
	return f
}

// dxf is a drawing as far as it is written: groups of a code, which says what
// a value is, and the value, each on a line.
type dxf []byte

// code starts a group. Codes stand at the right of three columns.
func (f *dxf) code(code int) {
	digits := strconv.Itoa(code)
	*f = append(*f, "   "[len(digits):]...)
	*f = append(*f, digits...)
	*f = append(*f, "\r\n"...)
}

func (f *dxf) text(code int, value string) {
	f.code(code)
	*f = append(*f, value...)
	*f = append(*f, "\r\n"...)
}

func (f *dxf) count(code, n int) { f.text(code, strconv.Itoa(n)) }

// number writes v with a decimal point, by which some readers know a real.
func (f *dxf) number(code int, v float64) {
	f.code(code)
	start := len(*f)
	*f = appendDecimal(*f, v)
	if !slices.Contains((*f)[start:], '.') {
		*f = append(*f, ".0"...)
	}
	*f = append(*f, "\r\n"...)
}

// point writes p as the first point of whatever it belongs to.
func (f *dxf) point(p plane.Point) {
	f.number(10, p.X)
	f.number(20, p.Y)
	f.number(30, 0)
}

func (f *dxf) open(section string) {
	f.text(0, "SECTION")
	f.text(2, section)
}

func (f *dxf) shut() { f.text(0, "ENDSEC") }

// table opens a table of n entries.
func (f *dxf) table(name string, n int) {
	f.text(0, "TABLE")
	f.text(2, name)
	f.count(70, n)
}

// entry opens an entry of a table. Its flags are those of one in use.
func (f *dxf) entry(table, name string) {
	f.text(0, table)
	f.text(2, name)
	f.count(70, 0)
}

// tables writes line types, layers and the one style of texts. Line types
// come before the layers that have them.
func (f *dxf) tables(layers []Layer, names []string) {
	f.open("TABLES")
	f.table("LTYPE", len(lineTypes))
	for _, t := range lineTypes {
		f.entry("LTYPE", t.name)
		f.text(3, t.description)
		f.count(72, 'A') // the only alignment there is
		pattern := t.dash.pattern()
		f.count(73, len(pattern))
		total := 0.0
		for _, size := range pattern {
			total += size
		}
		f.number(40, total)
		for i, size := range pattern {
			if i%2 == 1 {
				size = -size // a space
			}
			f.number(49, size)
		}
	}
	f.text(0, "ENDTAB")
	f.table("LAYER", len(layers)+1)
	f.layer("0", lineTypes[0]) // every drawing has it
	for i, l := range layers {
		used := lineTypes[0]
		for _, t := range lineTypes {
			if t.dash == l.Dash {
				used = t
			}
		}
		f.layer(names[i], used)
	}
	f.text(0, "ENDTAB")
	f.table("STYLE", 1)
	f.entry("STYLE", "STANDARD")
	f.number(40, 0) // height: each text has its own
	f.number(41, 1) // width factor
	f.number(50, 0) // slant
	f.count(71, 0)  // not mirrored
	f.number(42, 1) // height last used
	f.text(3, "txt")
	f.text(4, "")
	f.text(0, "ENDTAB")
	f.shut()
}

func (f *dxf) layer(name string, t lineType) {
	f.entry("LAYER", name)
	f.count(62, 7)
	f.text(6, t.name)
}

// entity opens an entity on a layer, from which it takes colour and line type.
func (f *dxf) entity(kind, layer string) {
	f.text(0, kind)
	f.text(8, layer)
}

func (f *dxf) polyline(layer string, points []plane.Point, closed bool) {
	f.entity("POLYLINE", layer)
	f.count(66, 1) // vertices follow
	f.point(plane.Point{})
	flags := 0
	if closed {
		flags = 1
	}
	f.count(70, flags)
	for _, p := range points {
		f.entity("VERTEX", layer)
		f.point(p)
	}
	f.entity("SEQEND", layer)
}

func (f *dxf) label(layer string, t Text) {
	f.entity("TEXT", layer)
	f.point(t.At)
	f.number(40, float64(t.Height))
	f.text(1, oneASCIILine(t.Text))
	f.number(50, t.Angle)
	f.text(7, "STANDARD")
}

// oneASCIILine returns text as a DXF string. Release 12 does not say which
// character set a file is in, so what is not ASCII is written as \U+ and its
// four hexadecimal digits, which readers since release 13 understand. A degree
// and a plus-minus sign have spellings of their own in every release.
//
// A caret makes a control character of what follows unless that is a space,
// and two percent signs start a special character, so a second one is set off
// by a space.
func oneASCIILine(text string) string {
	var out []byte
	runes := []rune(oneLine(text))
	for i, r := range runes {
		switch {
		case r == '°':
			out = append(out, "%%d"...)
		case r == '±':
			out = append(out, "%%p"...)
		case r == '^':
			out = append(out, "^ "...)
		case r == '%' && i > 0 && runes[i-1] == '%':
			out = append(out, " %"...)
		case r == '\\' && i+2 < len(runes) && runes[i+2] == '+':
			out = appendHex(out, r) // else it could be taken for one of ours
		case r > 0xFFFF:
			out = appendHex(out, '\uFFFD')
		case r > '~':
			out = appendHex(out, r)
		default:
			out = append(out, byte(r))
		}
	}
	return string(out)
}

func appendHex(dst []byte, r rune) []byte {
	const digits = "0123456789ABCDEF"
	return append(dst, '\\', 'U', '+', digits[r>>12&15], digits[r>>8&15], digits[r>>4&15], digits[r&15])
}
