package drawing

import (
	"strings"
	"unicode/utf8"
)

// Table is rows of fields under a header.
type Table struct {
	Header []string // empty for none
	Rows   [][]string
}

// AppendCSV appends t as RFC 4180 has it, in UTF-8 without a byte order mark:
// commas between fields, CR LF after every record, a field with a comma, a
// quote or a line end in quotes. Every record gets as many fields as the
// longest has.
//
// What a field holds is kept, with these exceptions. A control character
// other than a line end is not allowed in CSV and becomes a space, bytes that
// are not UTF-8 become U+FFFD, a byte order mark is left out. Spreadsheets run a field that starts like a
// formula, and a text in a link may come from a stranger, so a field that
// starts with one of = + - @ (as wide as a Chinese character too) or a line
// end gets an apostrophe in front, which spreadsheets take as the mark of a
// text. Plain numbers, like -12.5, are safe and left alone.
func AppendCSV(dst []byte, t Table) []byte {
	width := max(1, len(t.Header))
	for _, row := range t.Rows {
		width = max(width, len(row))
	}
	if len(t.Header) > 0 {
		dst = appendRecord(dst, t.Header, width)
	}
	for _, row := range t.Rows {
		dst = appendRecord(dst, row, width)
	}
	return dst
}

func appendRecord(dst []byte, fields []string, width int) []byte {
	start := len(dst)
	for i := range width {
		if i > 0 {
			dst = append(dst, ',')
		}
		if i < len(fields) {
			dst = appendField(dst, fields[i])
		}
	}
	if len(dst) == start { // one field, and nothing of it is kept
		dst = append(dst, `""`...) // readers pass over an empty line
	}
	return append(dst, "\r\n"...)
}

func appendField(dst []byte, field string) []byte {
	field = strings.Map(func(r rune) rune {
		switch {
		case r == '\uFEFF':
			return -1 // at the front of the file it would hide a formula's start
		case (r < ' ' || r == 0x7f) && r != '\r' && r != '\n':
			return ' '
		}
		return r
	}, strings.ToValidUTF8(field, "\uFFFD"))
	if startsFormula(field) {
		field = "'" + field
	}
	if !strings.ContainsAny(field, ",\"\r\n") {
		return append(dst, field...)
	}
	dst = append(dst, '"')
	for _, c := range []byte(field) {
		if c == '"' {
			dst = append(dst, '"')
		}
		dst = append(dst, c)
	}
	return append(dst, '"')
}

// startsFormula reports whether a spreadsheet may run field: the list is that
// of OWASP, CSV Injection, of which a tab has become a space already.
func startsFormula(field string) bool {
	first, _ := utf8.DecodeRuneInString(field)
	return strings.ContainsRune("=+-@\r\n＝＋－＠", first) && !isNumber(field)
}

// isNumber reports whether field is digits with at most one point among or
// after them, and a sign or none.
func isNumber(field string) bool {
	if field != "" && (field[0] == '-' || field[0] == '+') {
		field = field[1:]
	}
	whole, part, _ := strings.Cut(field, ".")
	return whole != "" && strings.Trim(whole+part, "0123456789") == ""
}
