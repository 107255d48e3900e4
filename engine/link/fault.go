package link

import (
	"strconv"
	"strings"
)

// Fault is one value in a link that cannot be used. Its key takes its default
// and the rest of the link is opened all the same.
type Fault struct {
	Key  string // empty when the whole link is refused
	Got  string // as given, escapes decoded
	Want string // completes "has to be ..."
	Why  string // a further sentence where it helps, such as which corner is wrong

	odd string // the sentence, where the usual one does not fit
}

// Error returns a sentence for the person at the form.
func (f Fault) Error() string {
	say := f.odd
	if say == "" {
		got := "empty"
		if f.Got != "" {
			got = quoted(f.Got)
		}
		say = f.Key + " is " + got + " but has to be " + f.Want + "."
	}
	if f.Why != "" {
		say += " " + printable(f.Why)
	}
	return say
}

func repeated(k Key, got string) Fault {
	return Fault{Key: k.Name, Got: got, Want: "given once",
		odd: k.Name + " is given more than once: the first is used and " + quoted(got) + " is left out."}
}

func tooLong(size int) Fault {
	got, most := strconv.Itoa(size), strconv.Itoa(Most)
	return Fault{Got: got + " characters", Want: "at most " + most + " characters",
		odd: "The link is " + got + " characters long but has to be at most " + most + ". None of it was opened."}
}

// quoted returns text in quotation marks, shortened.
func quoted(text string) string {
	const most = 60
	if runes := []rune(text); len(runes) > most {
		text = string(runes[:most]) + "…"
	}
	return "“" + printable(text) + "”"
}

// printable replaces what would break a line of print or turn it round.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if strconv.IsPrint(r) {
			return r
		}
		return '\uFFFD'
	}, text)
}
