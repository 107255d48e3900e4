package link

import "strings"

func readStep(s *settings, text string) (string, bool) {
	return "", count(text, 1, 99, &s.view.Step)
}

func readAsk(s *settings, text string) (string, bool) {
	return "", count(text, 0, 999_999, &s.view.Ask)
}

// count reads a whole number between two others.
func count(text string, least, most int, into *int) bool {
	n, ok := number(text)
	if !ok || n < least || n > most {
		return false
	}
	*into = n
	return true
}

// readHost reads an origin as browsers write it: a scheme, a host and perhaps
// a port, in small letters, and nothing behind.
func readHost(s *settings, text string) (string, bool) {
	if text == "any" {
		s.view.Host = ""
		return "", true
	}
	scheme, rest, found := strings.Cut(text, "://")
	if !found || scheme != "http" && scheme != "https" || rest == "" || len(text) > 300 || strings.Trim(rest, "abcdefghijklmnopqrstuvwxyz0123456789.-:[]") != "" {
		return "", false
	}
	s.view.Host = text
	return "", true
}
