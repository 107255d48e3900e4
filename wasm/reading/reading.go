// Package reading puts readings into the words of the page and its sheets, so
// that both say a length alike. Lengths are millimetres, read on the job's
// tape. Nothing here knows about a browser.
package reading

import (
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/cuts"
	"keelrow/engine/length"
	"keelrow/wasm/words"
)

// Plain is a length as the nearest mark of the tape.
func Plain(tape length.Tape, l length.Length) string {
	s := tape.Read(l).FeetText()
	if s[0] == '-' {
		return "−" + s[1:]
	}
	return s
}

// Exact is a length as a decimal number: to a hundredth of a millimetre or a
// thousandth of an inch.
func Exact(tape length.Tape, l length.Length) string {
	if tape.Unit == length.Inches {
		return length.Decimal(l, length.Inches, 3)
	}
	return length.Decimal(l, length.Millimetres, 2)
}

// Off says whether the true length lies shy of its mark or strong, and nothing
// of one that is on the mark.
func Off(r length.Reading, w *words.Catalogue) string {
	amount := r.OffText()
	amount = amount[strings.LastIndexByte(amount, ' ')+1:]
	switch {
	case r.Shy():
		return words.Fill(w.Shy, "n", amount)
	case r.Strong():
		return words.Fill(w.Strong, "n", amount)
	}
	return ""
}

// Rows lists the numbers of the rows that places are in, each once and in
// order, as many as most.
func Rows(places []cuts.Place, most int) string {
	var rows []int
	for _, p := range places {
		rows = append(rows, p.Row)
	}
	slices.Sort(rows)
	rows = slices.Compact(rows)
	s := ""
	for i, r := range rows {
		if i == most {
			return s + " …"
		}
		if i > 0 {
			s += " "
		}
		s += strconv.Itoa(r)
	}
	return s
}
