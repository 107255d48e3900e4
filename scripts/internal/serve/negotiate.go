package serve

import (
	"strconv"
	"strings"
)

// identity is the name of a file sent as it is.
const identity = "identity"

// choose returns the coding to send: of the offered ones and identity the one
// that the header's weights put highest, and of several equals the first
// offered. Without the header (sent is false) the file goes as it is. ok is
// false when the header rules out everything. The rules are those of RFC
// 9110, section 12.5.3.
func choose(header string, sent bool, offered []string) (coding string, ok bool) {
	if !sent {
		return identity, true
	}
	weights := weigh(header)
	best := 0.0
	for _, c := range offered {
		w, named := weights[c]
		if !named {
			w = weights["*"]
		}
		if w > best {
			coding, best = c, w
		}
	}
	w, named := weights[identity]
	all, any := weights["*"]
	switch {
	case named && w > best:
		return identity, true
	case coding != "":
		return coding, true
	case named:
		return "", false // identity;q=0
	case any && all == 0:
		return "", false // *;q=0
	}
	return identity, true // acceptable unless ruled out
}

// weigh returns the weight of every coding in the header. An element that
// breaks the grammar is passed over.
func weigh(header string) map[string]float64 {
	weights := map[string]float64{}
	for element := range strings.SplitSeq(header, ",") {
		name, parameter, weighed := strings.Cut(element, ";")
		name = strings.ToLower(strings.TrimSpace(name))
		if name == "" {
			continue
		}
		if name == "x-gzip" {
			name = "gzip" // the same by RFC 9110, section 8.4.1.3
		}
		w := 1.0
		if weighed {
			key, value, _ := strings.Cut(parameter, "=")
			var ok bool
			if w, ok = weight(strings.TrimSpace(value)); !ok || strings.ToLower(strings.TrimSpace(key)) != "q" {
				continue
			}
		}
		weights[name] = w
	}
	return weights
}

// weight reads a number from 0 to 1 with at most three decimals.
func weight(text string) (float64, bool) {
	if len(text) > len("0.999") || strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	w, err := strconv.ParseFloat(text, 64)
	return w, err == nil && w <= 1
}
