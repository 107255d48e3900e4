// Package link is the grammar of a link: the exact text behind the '#' of an
// address, and the job and view settings it stands for.
//
// A link is a list of key=value pairs joined by '&'. The text of every pair is
// kept byte for byte until that pair is changed, unknown keys included, so a
// link that is opened and written again is the same link. Nothing here knows
// whether a floor can be laid from the job; floor.New judges that.
package link

import (
	"slices"
	"strings"
)

// Most is the length, in bytes, of the longest text that is opened.
const Most = 64 << 10

// Link is the pairs of one link in order. The zero value is an empty link,
// which stands for the zero job. A Link is never changed; With and Rebased
// return another.
type Link struct {
	pairs   []pair
	refused int // length of a text that was too long to open
}

// pair is one key=value with its exact text.
type pair struct {
	text       string // as it stands in the link
	key, value string // escapes decoded; key without spaces around it
}

// Open takes a link apart. The text may be a whole address, a fragment with
// or without its '#', or a query with or without its '?'. Of an address with
// both, the fragment is used if it has a '=', and else the query. A text of
// more than Most bytes is not opened: the link is empty and Job reports it.
func Open(text string) Link {
	if len(text) > Most {
		return Link{refused: len(text)}
	}
	text = body(text)
	if text == "" {
		return Link{}
	}
	var l Link
	for part := range strings.SplitSeq(text, "&") {
		l.pairs = append(l.pairs, opened(part))
	}
	return l
}

// body returns the part of an address that holds the pairs.
func body(text string) string {
	if head, fragment, found := strings.Cut(text, "#"); found {
		if strings.TrimSpace(head) == "" || strings.Contains(fragment, "=") {
			return fragment
		}
		text = head
	}
	equals := strings.IndexByte(text, '=')
	if equals < 0 {
		equals = len(text)
	}
	scheme := strings.Index(text, "://")
	address := scheme >= 0 && scheme < equals
	// A '?' behind the first '=' belongs to a value, unless a scheme in front
	// says that the text is an address.
	question := strings.IndexByte(text, '?')
	switch {
	case question >= 0 && (question < equals || address):
		return text[question+1:]
	case address, equals == len(text) && strings.Contains(text, "/"):
		return "" // an address without any pairs
	}
	return text
}

func opened(text string) pair {
	key, value, _ := strings.Cut(text, "=")
	return pair{text, strings.TrimSpace(decoded(key)), decoded(value)}
}

// String returns the link's text without '#', exact for every pair that was
// not changed. Put a '#' before it to open it again: without one, a text that
// was kept may itself look like an address.
func (l Link) String() string {
	var b strings.Builder
	for i, p := range l.pairs {
		if i > 0 {
			b.WriteByte('&')
		}
		b.WriteString(p.text)
	}
	return b.String()
}

// Get returns the value of the first pair with this key, escapes decoded, and
// whether there is one. A '+' stays a '+'.
func (l Link) Get(key string) (string, bool) {
	for _, p := range l.pairs {
		if key != "" && p.key == key {
			return p.value, true
		}
	}
	return "", false
}

// All returns the values of every pair with this key, in order.
func (l Link) All(key string) []string {
	var values []string
	for _, p := range l.pairs {
		if key != "" && p.key == key {
			values = append(values, p.value)
		}
	}
	return values
}

// Unknown returns the keys this version does not know, each once, in order.
// A pair without a key is returned as it stands.
func (l Link) Unknown() []string {
	var unknown []string
	for _, p := range l.pairs {
		name := p.key
		if name == "" {
			name = p.text
		}
		if name != "" && rank(p.key) < 0 && !slices.Contains(unknown, name) {
			unknown = append(unknown, name)
		}
	}
	return unknown
}

// With returns the link with these values for the key. They take the places
// of the key's pairs, and a pair whose value stays the same keeps its exact
// text. Pairs left over are dropped, all of them if no values are given. A key
// that was not there yet goes where the table of Keys has it, and an unknown
// one to the end. Spaces around a key do not count, and an empty key changes
// nothing.
func (l Link) With(key string, values ...string) Link {
	key = strings.TrimSpace(key)
	if key == "" {
		return l
	}
	var pairs []pair
	place := -1 // behind the last pair of this key
	for _, p := range l.pairs {
		if p.key != key {
			pairs = append(pairs, p)
			continue
		}
		if len(values) == 0 {
			continue
		}
		if p.value != values[0] {
			p = written(key, values[0])
		}
		pairs = append(pairs, p)
		values, place = values[1:], len(pairs)
	}
	if place < 0 {
		place = placeFor(pairs, key)
	}
	for i, v := range values {
		pairs = slices.Insert(pairs, place+i, written(key, v))
	}
	return Link{pairs: pairs}
}

// placeFor returns where a new key goes: before the first pair that the table
// has behind it.
func placeFor(pairs []pair, key string) int {
	if r := rank(key); r >= 0 {
		for i, p := range pairs {
			if rank(p.key) > r {
				return i
			}
		}
	}
	return len(pairs)
}

func written(key, value string) pair {
	return pair{escaped(key, "") + "=" + escaped(value, ",;:/+*@!$()'"), key, value}
}

// escaped writes text so that it can stand in a fragment, in a query and in a
// message: letters, digits, "-._~" and the bytes in keep stay as they are.
func escaped(text, keep string) string {
	const hex = "0123456789ABCDEF"
	var b strings.Builder
	for i := range len(text) {
		c := text[i]
		switch {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9',
			strings.IndexByte("-._~", c) >= 0, strings.IndexByte(keep, c) >= 0:
			b.WriteByte(c)
		default:
			b.Write([]byte{'%', hex[c>>4], hex[c&15]})
		}
	}
	return b.String()
}

// decoded resolves percent escapes. A '%' that starts none stays.
func decoded(text string) string {
	if !strings.Contains(text, "%") {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '%' && i+2 < len(text) {
			high, low := nibble(text[i+1]), nibble(text[i+2])
			if high >= 0 && low >= 0 {
				b.WriteByte(byte(high<<4 | low))
				i += 2
				continue
			}
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

func nibble(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'a' <= c && c <= 'f':
		return int(c-'a') + 10
	case 'A' <= c && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}
