package drawing

import (
	"math"
	"strconv"
	"strings"
)

// AppendJSON appends an object as RFC 8259 has it, on one line, with the
// members fill gives it, in that order.
func AppendJSON(dst []byte, fill func(*Object)) []byte {
	o := Object{dst: append(dst, '{')}
	fill(&o)
	return append(o.dst, '}')
}

// Object is an object being written. Every key should be given once only.
type Object struct {
	dst  []byte
	some bool // a member is written
}

func (o *Object) key(key string) {
	if o.some {
		o.dst = append(o.dst, ',')
	}
	o.some = true
	o.dst = append(appendQuoted(o.dst, key), ':')
}

// Number adds v in as few digits as read back as v; null when v is not finite,
// for which JSON has no number.
func (o *Object) Number(key string, v float64) {
	o.key(key)
	o.dst = appendNumber(o.dst, v)
}

// Text adds a text. Bytes that are not UTF-8 become U+FFFD.
func (o *Object) Text(key, text string) {
	o.key(key)
	o.dst = appendQuoted(o.dst, text)
}

// Flag adds true or false.
func (o *Object) Flag(key string, on bool) {
	o.key(key)
	o.dst = strconv.AppendBool(o.dst, on)
}

// Object adds an object with the members fill gives it.
func (o *Object) Object(key string, fill func(*Object)) {
	o.key(key)
	o.dst = AppendJSON(o.dst, fill)
}

// List adds a list of what fill gives it.
func (o *Object) List(key string, fill func(*List)) {
	o.key(key)
	o.dst = appendList(o.dst, fill)
}

// List is a list being written.
type List struct {
	dst  []byte
	some bool // a value is written
}

func appendList(dst []byte, fill func(*List)) []byte {
	l := List{dst: append(dst, '[')}
	fill(&l)
	return append(l.dst, ']')
}

func (l *List) next() {
	if l.some {
		l.dst = append(l.dst, ',')
	}
	l.some = true
}

// Number adds v, as Object.Number does.
func (l *List) Number(v float64) {
	l.next()
	l.dst = appendNumber(l.dst, v)
}

// Text adds a text, as Object.Text does.
func (l *List) Text(text string) {
	l.next()
	l.dst = appendQuoted(l.dst, text)
}

// Object adds an object with the members fill gives it.
func (l *List) Object(fill func(*Object)) {
	l.next()
	l.dst = AppendJSON(l.dst, fill)
}

// List adds a list of what fill gives it.
func (l *List) List(fill func(*List)) {
	l.next()
	l.dst = appendList(l.dst, fill)
}

// appendNumber appends v in the form of RFC 8785, section 3.2.2.3: without an
// exponent from 0.000001 up to 10^21.
func appendNumber(dst []byte, v float64) []byte {
	size := math.Abs(v)
	switch {
	case v == 0: // minus zero too
		return append(dst, '0')
	case size >= 1e-6 && size < 1e21:
		return strconv.AppendFloat(dst, v, 'f', -1, 64)
	case math.IsNaN(v) || math.IsInf(v, 0):
		return append(dst, "null"...)
	}
	dst = strconv.AppendFloat(dst, v, 'e', -1, 64)
	if n := len(dst) - 2; dst[n-1] == '-' && dst[n] == '0' { // e-07 is e-7
		dst = append(dst[:n], dst[n+1])
	}
	return dst
}

func appendQuoted(dst []byte, text string) []byte {
	const hex = "0123456789abcdef"
	dst = append(dst, '"')
	for _, c := range []byte(strings.ToValidUTF8(text, "\uFFFD")) {
		switch {
		case c == '"' || c == '\\':
			dst = append(dst, '\\', c)
		case c == '\n':
			dst = append(dst, `\n`...)
		case c < ' ':
			dst = append(dst, `\u00`...)
			dst = append(dst, hex[c>>4], hex[c&15])
		default:
			dst = append(dst, c)
		}
	}
	return append(dst, '"')
}
