package length

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	// longestText is the most characters a typed length may have. The longest
	// canonical text, with every number at longestNumber, stays below it.
	longestText = 64
	// longestNumber is the most digits one number may have: enough for every
	// digit a computed length can carry, and more than any tape shows.
	longestNumber = 20
	// longestFractionPart is the most digits over or under a fraction line.
	// It keeps every fraction exact in whole numbers below 2^53.
	longestFractionPart = 4
	// longestWhole is the digits of the longest whole number worth adding up:
	// with one more, even millimetres are past Longest.
	longestWhole = 8
)

// Longest is the longest length that can be typed, 10 km: far past any floor,
// and short enough for every tape mark on it to be counted exactly.
const Longest Length = 1e7

// ParseError says why a typed length cannot be used. Error is a sentence to
// show beside the input.
type ParseError struct {
	Text    string // as typed
	Problem string // completes the sentence that starts with Text
	Advice  string // what to write instead
}

// Error returns the whole sentence, without a full stop.
func (e *ParseError) Error() string {
	shown := strings.ToValidUTF8(strings.TrimSpace(e.Text), "\uFFFD")
	if shown == "" {
		return "No length was typed: " + e.Advice
	}
	if runes := []rune(shown); len(runes) > longestText/2 {
		shown = string(runes[:longestText/2]) + "…"
	}
	return "“" + shown + "” " + e.Problem + ": " + e.Advice
}

const examples = "write it like 350mm, 3.5m, 2-1/4in or 14ft6-1/2in"

// Parse returns the length typed as text. A number without a unit mark is in
// unit; after feet it is in inches. It takes what people write from a tape:
// 350, 35 cm, 3,5 m, 2-1/4in, 2 1/4", 2¼″, 14ft, 14' 6-1/2", 6.375in, in
// capitals or not, with a minus sign in front or not.
//
// The result is the float64 nearest to the exact length. An error is always a
// *ParseError.
func Parse(text string, unit Unit) (Length, error) {
	_, l, err := read(text, unit)
	return l, err
}

// Canonical returns text in the one spelling used in links: digits, points,
// dashes, slashes and lower-case letters, nothing else. The digits and the
// presence or absence of a unit mark stay as typed, so the length stays
// exactly the same; canonical text is returned unchanged.
func Canonical(text string, unit Unit) (string, error) {
	t, _, err := read(text, unit)
	if err != nil {
		return "", err
	}
	return t.text(), nil
}

// Marked returns text as Canonical does, with its unit mark added where none
// was typed, so that it means the same length whatever the unit.
func Marked(text string, unit Unit) (string, error) {
	t, _, err := read(text, unit)
	if err != nil {
		return "", err
	}
	t.mark = t.meant(unit)
	return t.text(), nil
}

// amount is one number as typed: whole or decimal, or with a fraction. All
// parts are digits.
type amount struct {
	whole    string // empty for a fraction alone
	decimals string
	num, den string // empty without a fraction
	comma    bool   // the decimal mark was a comma
}

func (a amount) isWhole() bool { return a.decimals == "" && a.num == "" }

func (a amount) text() string {
	s := a.whole
	if a.decimals != "" {
		s += "." + a.decimals
	}
	if a.num != "" {
		if s != "" {
			s += "-"
		}
		s += a.num + "/" + a.den
	}
	return s
}

// typed is a length taken apart into what was typed.
type typed struct {
	negative bool
	feet     string // whole feet with inches after them; empty for none
	number   amount
	mark     string // mm, cm, m, in, ft; empty when number has no unit mark
}

func (t typed) text() string {
	s := ""
	if t.negative {
		s = "-"
	}
	if t.feet != "" {
		s += t.feet + "ft"
	}
	return s + t.number.text() + t.mark
}

// meant returns the unit mark number has or stands for.
func (t typed) meant(unit Unit) string {
	switch {
	case t.mark != "":
		return t.mark
	case t.feet != "":
		return Inches.mark()
	}
	return unit.mark()
}

// mark returns the unit mark of u.
func (u Unit) mark() string {
	if u == Inches {
		return "in"
	}
	return "mm"
}

// markNamed returns the canonical mark for a word typed as a unit.
func markNamed(word string) string {
	switch word {
	case "mm", "cm", "m", "in", "ft":
		return word
	case "inch", "inches":
		return "in"
	case "foot", "feet":
		return "ft"
	}
	return ""
}

// millimetresIn returns the millimetres in the unit of a mark, exactly, as
// times * 10^power.
func millimetresIn(mark string) (times, power int) {
	switch mark {
	case "cm":
		return 1, 1
	case "m":
		return 1, 3
	case "in":
		return 254, -1
	case "ft":
		return 3048, -1
	}
	return 1, 0
}

// length returns t in millimetres, rounded once. All whole numbers have to be
// of at most longestWhole digits.
func (t typed) length(mark string) Length {
	a := t.number
	times, power := millimetresIn(mark)
	whole := 12*count(t.feet) + count(a.whole)
	var mm float64
	if a.num != "" {
		// Only inches and feet have fractions. Both sides of the division are
		// whole numbers below 2^53.
		den := count(a.den)
		mm = float64((whole*den+count(a.num))*int64(times)) / float64(10*den)
	} else {
		digits := multiplied(strconv.FormatInt(whole, 10)+a.decimals, times)
		// ParseFloat rounds to nearest and digits alone cannot fail.
		mm, _ = strconv.ParseFloat(digits+"e"+strconv.Itoa(power-len(a.decimals)), 64)
	}
	if t.negative && mm != 0 {
		mm = -mm
	}
	return Length(mm)
}

// count returns the number written by digits; none are 0.
func count(digits string) int64 {
	n := int64(0)
	for _, d := range []byte(digits) {
		n = 10*n + int64(d-'0')
	}
	return n
}

// multiplied returns the digits of times times the number written by digits.
func multiplied(digits string, times int) string {
	const room = 4 // times has at most four digits
	product := make([]byte, len(digits)+room)
	carry := 0
	for i := len(product) - 1; i >= 0; i-- {
		if i >= room {
			carry += int(digits[i-room]-'0') * times
		}
		product[i] = byte('0' + carry%10)
		carry /= 10
	}
	return string(product)
}

// read takes text apart, checks it, and returns it with its length.
func read(text string, unit Unit) (typed, Length, error) {
	refuse := func(problem, advice string) (typed, Length, error) {
		return typed{}, 0, &ParseError{Text: text, Problem: problem, Advice: advice}
	}
	if len(text) > longestText*utf8.UTFMax || utf8.RuneCountInString(text) > longestText {
		return refuse("is too long for a length", examples)
	}
	plain, odd := folded(strings.TrimSpace(text))
	if odd != "" {
		return refuse("has “"+odd+"” in it, which is not part of a length", examples)
	}
	s := scanner{rest: plain}
	if plain == "" {
		return refuse("is not a length", examples)
	}
	t, problem, advice := s.typed()
	if problem != "" {
		return refuse(problem, advice)
	}
	if problem, advice = t.problem(unit); problem != "" {
		return refuse(problem, advice)
	}
	l := t.length(t.meant(unit))
	if l > Longest || l < -Longest {
		return refuse(pastLongest, pastLongestAdvice)
	}
	return t, l, nil
}

const (
	pastLongest       = "is more than 10 km"
	pastLongestAdvice = "check the unit mark and the number of digits"
)

// problem returns what is wrong with a length that can be read, and what to
// write instead.
func (t typed) problem(unit Unit) (problem, advice string) {
	a := t.number
	for _, digits := range []string{t.feet, a.whole + a.decimals} {
		if len(digits) > longestNumber {
			return "has a number of more than " + strconv.Itoa(longestNumber) + " digits", "leave out those no tape can show"
		}
	}
	if len(a.num) > longestFractionPart || len(a.den) > longestFractionPart {
		return "has too many digits in its fraction", "write a fraction like 1/4 or 3/16"
	}
	for _, digits := range []string{t.feet, a.whole} {
		if len(strings.TrimLeft(digits, "0")) > longestWhole {
			return pastLongest, pastLongestAdvice
		}
	}
	mark := t.meant(unit)
	if a.num != "" {
		num, den := count(a.num), count(a.den)
		switch {
		case den == 0:
			return "divides by zero", "write a fraction like 1/4 or 3/16"
		case num >= den:
			proper := t
			proper.number = amount{whole: strconv.FormatInt(count(a.whole)+num/den, 10)}
			if num%den != 0 {
				proper.number.num, proper.number.den = strconv.FormatInt(num%den, 10), a.den
			}
			return "has a fraction of one or more", "write " + proper.text() + " if that is meant"
		case t.mark == "" && mark == Millimetres.mark():
			t.mark = Inches.mark()
			return "has a fraction but no unit mark", "write " + t.text() + " if inches are meant"
		case mark != "in" && mark != "ft":
			t.mark = Inches.mark()
			return "has a fraction of a metric unit", "write decimals, or " + t.text() + " if inches are meant"
		}
	}
	if a.comma && len(a.decimals) == 3 && len(a.whole) <= 3 && a.whole[0] != '0' && mark != "m" {
		// In metres three decimals are millimetres. Elsewhere the comma is as
		// likely to part thousands, and a guess would be wrong a thousandfold.
		joined := t
		joined.number = amount{whole: a.whole + a.decimals}
		return "can be read two ways because of its comma", "write " + joined.text() + " or " + t.text()
	}
	if t.feet != "" && count(a.whole) >= 12 {
		return "has 12 inches or more after the feet", "add them to the feet, or write inches only"
	}
	return "", ""
}

// scanner reads folded text from the left.
type scanner struct{ rest string }

// typed reads a whole length. A problem is empty when it can be read.
func (s *scanner) typed() (t typed, problem, advice string) {
	t.negative = s.skip("-")
	s.spaces()
	var ok bool
	if t.number, problem = s.amount(); problem != "" {
		return t, problem, examples
	}
	if t.mark, ok = s.unit(); !ok {
		return t, "has no unit known here after its number", "use mm, cm, m, in or ft"
	}
	if s.rest == "" {
		return t, "", ""
	}
	if t.mark == "" {
		return t, "is not one length", examples
	}
	if t.mark != "ft" {
		return t, "goes on after its unit mark", "write one number and one unit mark, or feet and then inches"
	}
	if !t.number.isWhole() {
		return t, "has inches after feet that are not whole", "write whole feet before inches, like 14ft6-1/2in"
	}
	t.feet = t.number.whole
	s.skip("-") // 14'-6" is how drawings write it
	s.spaces()
	if t.number, problem = s.amount(); problem != "" {
		return t, problem, examples
	}
	if t.mark, ok = s.unit(); !ok || s.rest != "" || t.mark != "" && t.mark != "in" {
		return t, "has more than feet and inches in it", "write it like 14ft6-1/2in"
	}
	return t, "", ""
}

// amount reads a number with the spaces after it.
func (s *scanner) amount() (a amount, problem string) {
	const unreadable = "is not a length"
	a.whole = s.digits()
	isDecimal := false
	if s.rest != "" && (s.rest[0] == '.' || s.rest[0] == ',') {
		isDecimal, a.comma = true, s.rest[0] == ','
		s.rest = s.rest[1:]
		a.decimals = s.digits()
	}
	if a.whole == "" {
		if a.decimals == "" {
			return a, unreadable
		}
		a.whole = "0"
	}
	parted := s.spaces()
	if !isDecimal && s.skip("/") {
		a.num, a.whole = a.whole, ""
		s.spaces()
		if a.den = s.digits(); a.den == "" {
			return a, unreadable
		}
		s.spaces()
		return a, ""
	}
	// A dash or a space parts a whole number from its fraction.
	dash := s.skip("-")
	s.spaces()
	if !dash && !parted {
		return a, ""
	}
	ahead := *s
	num := ahead.digits()
	ahead.spaces()
	if num == "" || !ahead.skip("/") {
		if dash {
			return a, "has a dash without a fraction after it"
		}
		return a, ""
	}
	ahead.spaces()
	a.num, a.den = num, ahead.digits()
	ahead.spaces()
	*s = ahead
	switch {
	case a.den == "":
		return a, unreadable
	case isDecimal:
		return a, "has both decimals and a fraction"
	}
	return a, ""
}

// unit reads a unit mark with the spaces after it and returns its canonical
// spelling, empty when there is none. It reports false for a mark not known.
func (s *scanner) unit() (mark string, ok bool) {
	switch {
	case s.skip(`"`), s.skip("''"):
		mark = "in"
	case s.skip("'"):
		mark = "ft"
	default:
		end := 0
		for end < len(s.rest) && 'a' <= s.rest[end] && s.rest[end] <= 'z' {
			end++
		}
		if end == 0 {
			return "", true
		}
		if mark = markNamed(s.rest[:end]); mark == "" {
			return "", false
		}
		s.rest = s.rest[end:]
		// The point of "14 ft. 6 in." says nothing, but that of "14ft.5in"
		// could be a decimal mark.
		if s.skip(".") && s.rest != "" && isDigit(s.rest[0]) {
			return "", false
		}
	}
	s.spaces()
	return mark, true
}

func (s *scanner) digits() string {
	end := 0
	for end < len(s.rest) && isDigit(s.rest[end]) {
		end++
	}
	digits := s.rest[:end]
	s.rest = s.rest[end:]
	return digits
}

func (s *scanner) skip(mark string) bool {
	rest, found := strings.CutPrefix(s.rest, mark)
	s.rest = rest
	return found
}

func (s *scanner) spaces() bool {
	rest := strings.TrimLeft(s.rest, " ")
	found := len(rest) < len(s.rest)
	s.rest = rest
	return found
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// folded returns text with each of its characters in the one form the scanner
// knows: digits, lower-case letters, and . , - / ' " and spaces. The first
// character that has no such form is returned as odd.
func folded(text string) (plain, odd string) {
	var b strings.Builder
	lastDigit := false
	for _, r := range text {
		part := ""
		switch {
		case r >= '0' && r <= '9', r >= 'a' && r <= 'z', r == '.', r == ',':
			part = string(r)
		case r >= 'A' && r <= 'Z':
			part = string(r - 'A' + 'a')
		default:
			part = sameAs(r)
		}
		if part == "" {
			return "", string(r)
		}
		if fraction := len(part) > 1; fraction {
			if lastDigit {
				b.WriteByte('-')
			}
			part += " " // keeps a digit typed next out of the fraction
		}
		b.WriteString(part)
		lastDigit = isDigit(part[len(part)-1])
	}
	return b.String(), ""
}

// sameAs returns the plain form of a sign: a dash, slash, space or prime, or
// the digits of a ready-made fraction; empty for any other.
func sameAs(r rune) string {
	switch r {
	case '-', '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212', '\uFE63', '\uFF0D':
		return "-"
	case '/', '\u2044', '\u2215':
		return "/"
	case ' ', '\t', '\u00A0', '\u202F', '\u205F', '\u3000':
		return " "
	case '\'', '’', '‘', '′', '´':
		return "'"
	case '"', '”', '“', '″':
		return `"`
	case '½':
		return "1/2"
	case '⅓':
		return "1/3"
	case '⅔':
		return "2/3"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅕':
		return "1/5"
	case '⅖':
		return "2/5"
	case '⅗':
		return "3/5"
	case '⅘':
		return "4/5"
	case '⅙':
		return "1/6"
	case '⅚':
		return "5/6"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	}
	if r >= '\u2000' && r <= '\u200A' { // en, em, figure, thin, hair spaces
		return " "
	}
	return ""
}
