package onsite

import (
	"strings"

	"keelrow/engine/length"
)

var small = [...]string{"nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
	"eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}

var tens = [...]string{2: "twenty", 3: "thirty", 4: "forty", 5: "fifty", 6: "sixty", 7: "seventy", 8: "eighty", 9: "ninety"}

// number writes a number from 0 in English words, like two thousand one
// hundred and three.
func number(n int) string {
	join := func(head string, rest int) string {
		switch {
		case rest == 0:
			return head
		case rest < 100:
			return head + " and " + number(rest)
		}
		return head + " " + number(rest)
	}
	switch {
	case n < len(small):
		return small[n]
	case n < 100:
		if n%10 == 0 {
			return tens[n/10]
		}
		return tens[n/10] + "-" + small[n%10]
	case n < 1000:
		return join(small[n/100]+" hundred", n%100)
	case n < 1e6:
		return join(number(n/1000)+" thousand", n%1000)
	}
	return join(number(n/1e6)+" million", n%1e6)
}

// parts names the parts of an inch that a tape is marked in: one, and more.
var parts = map[int][2]string{
	2: {"half", "halves"}, 4: {"quarter", "quarters"}, 8: {"eighth", "eighths"}, 16: {"sixteenth", "sixteenths"},
	32: {"thirty-second", "thirty-seconds"}, 64: {"sixty-fourth", "sixty-fourths"},
}

// fraction writes a fraction of an inch: a half, three eighths.
func fraction(num, den int) string {
	switch {
	case num > 1:
		return number(num) + " " + parts[den][1]
	case den <= 4:
		return "a " + parts[den][0]
	}
	return "one " + parts[den][0]
}

// spoken writes a reading in words as the tape shows it, in feet from 24
// inches: fourteen feet six and a half inches, shy.
func spoken(r length.Reading) string {
	s := ""
	if r.Unit == length.Millimetres {
		s = number(r.Whole) + " " + many(r.Whole, "millimetre", "millimetres")
	} else {
		s = inches(r)
	}
	if r.Negative {
		s = "minus " + s
	}
	switch {
	case r.Shy():
		s += ", shy"
	case r.Strong():
		s += ", strong"
	}
	return s
}

func inches(r length.Reading) string {
	feet, whole := 0, r.Whole
	if whole >= 24 {
		feet, whole = whole/12, whole%12
	}
	var said []string
	if feet > 0 {
		said = append(said, number(feet)+" feet")
	}
	switch {
	case r.Num > 0 && whole > 0:
		said = append(said, number(whole)+" and "+fraction(r.Num, r.Den)+" inches")
	case r.Num == 1 && r.Den == 2:
		said = append(said, "half an inch")
	case r.Num > 0:
		said = append(said, fraction(r.Num, r.Den)+" of an inch")
	case whole > 0 || feet == 0:
		said = append(said, number(whole)+" "+many(whole, "inch", "inches"))
	}
	return strings.Join(said, " ")
}

func many(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// spelt parts the letters of a wall's name, so that they are read one by one.
func spelt(name string) string { return strings.Join(strings.Split(name, ""), " ") }
