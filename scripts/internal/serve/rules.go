package serve

import (
	"fmt"
	"net/http"
	"regexp"
	"strings"

	"github.com/BurntSushi/toml"
)

// Rules are the header rules of the host, in order.
type Rules []rule

type rule struct {
	path   *regexp.Regexp
	values map[string]string
}

// ReadRules reads the [[headers]] tables of a netlify.toml.
func ReadRules(name string) (Rules, error) {
	var config struct {
		Headers []struct {
			For    string
			Values map[string]string
		}
	}
	if _, err := toml.DecodeFile(name, &config); err != nil {
		return nil, err
	}
	var rules Rules
	for _, h := range config.Headers {
		if !strings.HasPrefix(h.For, "/") {
			return nil, fmt.Errorf("%s: for = %q has to be a path that begins with /", name, h.For)
		}
		rules = append(rules, rule{pattern(h.For), h.Values})
	}
	return rules, nil
}

// pattern returns what paths a rule is for, as the host has it: a star stands
// for any characters, slashes too; a part that begins with a colon for one
// whole part; a slash at the end and capitals make no difference.
func pattern(path string) *regexp.Regexp {
	var expr strings.Builder
	for part := range strings.SplitSeq(path, "/") {
		part = strings.TrimRight(part, " ")
		if part == "" {
			continue
		}
		expr.WriteByte('/')
		switch {
		case part == "*":
			expr.WriteString("?.*")
		case part[0] == ':':
			expr.WriteString("[^/]+")
		default:
			expr.WriteString(strings.ReplaceAll(regexp.QuoteMeta(part), `\*`, ".*"))
		}
	}
	return regexp.MustCompile("(?i)^" + expr.String() + "/?$")
}

// set sets the headers for a path. Of two rules with the same header the
// later one holds.
func (rules Rules) set(header http.Header, path string) {
	for _, r := range rules {
		if r.path.MatchString(path) {
			for key, value := range r.values {
				header.Set(key, value)
			}
		}
	}
}
