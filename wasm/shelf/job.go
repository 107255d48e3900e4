// Package shelf keeps jobs in a store of texts under keys, such as a browser
// has for a page. It knows nothing of a browser.
//
// A job is a link with a name and the links it had before. Each job is a
// record of its own, so that a broken one harms no other. Keys are
// "keelrow job ID" and, for its picture, "keelrow picture ID".
package shelf

import (
	"errors"
	"strconv"
	"strings"
)

// Past is a link a job has had and when it got it, in ms since 1970.
type Past struct {
	At   int64
	Link string // without '#'
}

// Job is one kept job.
type Job struct {
	ID   string
	Name string
	Area float64 // of the room in mm²
	// Count goes up by one with every save. Who saves has to know the one in
	// the store; 0 is a job that has never been saved.
	Count  int
	States []Past // the oldest first; never empty in a kept job
	Now    int    // which of them the job is at
}

// What a job may have. Older states go first.
const (
	MostStates  = 50
	MostHistory = 200 << 10 // bytes of all links of one job
	MostName    = 80        // runes
	mostID      = 40
)

// Link returns the link the job is at.
func (j Job) Link() string { return j.at().Link }

// Changed returns when the job got that link.
func (j Job) Changed() int64 { return j.at().At }

func (j Job) at() Past {
	if j.Now < 0 || j.Now >= len(j.States) {
		return Past{}
	}
	return j.States[j.Now]
}

// With returns the job with another link. States that were undone go.
func (j Job) With(link string, at int64) Job {
	if len(j.States) > 0 && j.Link() == link {
		return j
	}
	j.States = append(append([]Past(nil), j.States[:min(j.Now+1, len(j.States))]...), Past{at, link})
	j.Now = len(j.States) - 1
	return j.trimmed()
}

// trimmed drops the oldest states that are too many.
func (j Job) trimmed() Job {
	size := 0
	for _, s := range j.States {
		size += len(s.Link)
	}
	for len(j.States) > 1 && (len(j.States) > MostStates || size > MostHistory) {
		if last := len(j.States) - 1; j.Now == 0 { // it is at the oldest: the newest go
			size -= len(j.States[last].Link)
			j.States = j.States[:last]
		} else {
			size -= len(j.States[0].Link)
			j.States = j.States[1:]
			j.Now--
		}
	}
	return j
}

// Step returns the job at an earlier (negative) or later state, and whether
// there is one.
func (j Job) Step(by int) (Job, bool) {
	to := j.Now + by
	if to < 0 || to >= len(j.States) {
		return j, false
	}
	j.Now = to
	return j, true
}

// Same says whether two jobs hold the same: name, links and where they are.
func (j Job) Same(o Job) bool {
	if j.Name != o.Name || j.Now != o.Now || len(j.States) != len(o.States) {
		return false
	}
	for i, s := range j.States {
		if s.Link != o.States[i].Link {
			return false
		}
	}
	return true
}

// Named returns a name as it is kept: one line, not too long, printable.
func Named(name string) string {
	var out []rune
	for _, r := range name {
		if !strconv.IsPrint(r) || r == '\uFFFD' {
			r = ' '
		}
		if r == ' ' && (len(out) == 0 || out[len(out)-1] == ' ') {
			continue
		}
		out = append(out, r)
	}
	return strings.TrimSpace(string(out[:min(len(out), MostName)]))
}

// GoodID says whether a text can be a job's ID.
func GoodID(id string) bool {
	for _, c := range id {
		if !('a' <= c && c <= 'z' || '0' <= c && c <= '9' || c == '-') {
			return false
		}
	}
	return id != "" && len(id) <= mostID
}

// The version of a record, in its first line.
const header = "keelrow-job "

const version = 1

var (
	// ErrBroken is a record that cannot be read.
	ErrBroken = errors.New("the record is broken")
	// ErrLater is a record of a later version of the page.
	ErrLater = errors.New("the record is of a later version of this page")
)

// Text writes the job's record: a line each for its version, ID, count, area,
// place and name, and one for every state. Line breaks and backslashes within
// a text are written \n, \r and \\.
func (j Job) Text() string {
	var b strings.Builder
	b.WriteString(header + strconv.Itoa(version) + "\nid " + j.ID + "\ncount " + strconv.Itoa(j.Count) +
		"\narea " + strconv.FormatFloat(j.Area, 'g', -1, 64) + "\nnow " + strconv.Itoa(j.Now) + "\nname " + escaped(j.Name) + "\n")
	for _, s := range j.States {
		b.WriteString("state " + strconv.FormatInt(s.At, 10) + " " + escaped(s.Link) + "\n")
	}
	return b.String()
}

// What a record's lines may not hold, and the letters that stand for it.
const (
	bare    = "\\\n\r\x1e\x1f"
	letters = `\nref`
)

func escaped(text string) string {
	if strings.IndexAny(text, bare) < 0 {
		return text
	}
	var out []byte
	for i := range len(text) {
		if at := strings.IndexByte(bare, text[i]); at >= 0 {
			out = append(out, '\\', letters[at])
		} else {
			out = append(out, text[i])
		}
	}
	return string(out)
}

func unescaped(text string) string {
	if strings.IndexByte(text, '\\') < 0 {
		return text
	}
	var out []byte
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' && i+1 < len(text) {
			if at := strings.IndexByte(letters, text[i+1]); at >= 0 {
				out = append(out, bare[at])
				i++
				continue
			}
		}
		out = append(out, text[i])
	}
	return string(out)
}

// Parse reads a record. Lines of a name it does not know are left out.
func Parse(text string) (j Job, err error) {
	first, rest, _ := strings.Cut(text, "\n")
	number, found := strings.CutPrefix(first, header)
	v, wrong := strconv.Atoi(number)
	switch {
	case !found || wrong != nil || v < 1:
		return Job{}, ErrBroken
	case v > version:
		return Job{}, ErrLater
	case !strings.HasSuffix(rest, "\n"): // cut off
		return Job{}, ErrBroken
	}
	number64 := func(text string) int64 {
		n, e := strconv.ParseInt(text, 10, 64)
		if e != nil || n < 0 {
			err = ErrBroken
		}
		return n
	}
	for line := range strings.SplitSeq(strings.TrimSuffix(rest, "\n"), "\n") {
		key, value, _ := strings.Cut(line, " ")
		switch key {
		case "id":
			j.ID = value
		case "count":
			j.Count = int(number64(value))
		case "area":
			area, e := strconv.ParseFloat(value, 64)
			if e != nil || !(area >= 0) {
				err = ErrBroken
			}
			j.Area = area
		case "now":
			j.Now = int(number64(value))
		case "name":
			j.Name = unescaped(value)
		case "state":
			at, link, _ := strings.Cut(value, " ")
			j.States = append(j.States, Past{number64(at), unescaped(link)})
		}
	}
	if !GoodID(j.ID) || len(j.States) == 0 || j.Now < 0 || j.Now >= len(j.States) {
		err = ErrBroken
	}
	if err != nil {
		return Job{}, err
	}
	return j, nil
}
