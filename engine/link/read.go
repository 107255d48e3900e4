package link

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// The most corners of one outline and the most times that a key is read. A
// real room has far fewer; more would only keep the page busy.
const (
	mostCorners = 2000
	mostRepeats = 200
)

// View is how the page shows the floor. It does not change the floor.
type View struct {
	Show  Set
	Laid  int     // blocks shown as laid; -1 means every block
	Speed float64 // blocks a second
	Stage string  // measure, choose, strike or lay
	Paint string  // auto, webgl or canvas
	Lang  string  // en
	Face  string  // work, site, show or lesson

	Step int    // of the lesson
	Ask  int    // the question that is asked instead; 0 for none
	Host string // the origin that may steer the page when it is framed; empty for any

	Repeat  length.Length // of the border's pattern; 0 for a plain border
	Sliver  length.Length // a cut piece narrower than this is a sliver
	Same    length.Length // cut pieces that differ by no more are equal
	Marking length.Length // error of one mark

	Looks  Looks
	Light  Light
	Stand  Stand
	Beside string // the keys and values of the choice to compare with
}

// Set is the lines drawn over the floor.
type Set uint8

const (
	ShowCentre Set = 1 << iota
	ShowWorking
	ShowDiagonals
	ShowBorder
	ShowStart

	ShowAll = ShowCentre | ShowWorking | ShowDiagonals | ShowBorder | ShowStart
)

// lines is the names of the lines in the order of their bits.
var lines = []string{"centre", "working", "diagonals", "border", "start"}

// Has tells whether every line of t is drawn.
func (s Set) Has(t Set) bool { return s&t == t }

// String returns the set as the value of show.
func (s Set) String() string {
	var names []string
	for i, name := range lines {
		if s.Has(1 << i) {
			names = append(names, name)
		}
	}
	if names == nil {
		return "none"
	}
	return strings.Join(names, ",")
}

// settings is what the keys are read into.
type settings struct {
	job  floor.Job
	view View
}

// Job returns the job the link stands for, and a fault for every value of the
// job that cannot be used, in the order of Keys. A key that is absent or
// faulty leaves its field at zero, which a floor.Job takes for the default.
func (l Link) Job() (floor.Job, []Fault) {
	if l.refused > 0 {
		return floor.Job{}, []Fault{tooLong(l.refused)}
	}
	s, faults := l.read(false)
	return s.job, faults
}

// View returns the link's view settings, and a fault for every one that
// cannot be used, in the order of Keys.
func (l Link) View() (View, []Fault) {
	s, faults := l.read(true)
	return s.view, faults
}

func (l Link) read(view bool) (settings, []Fault) {
	s := settings{view: usual}
	var faults []Fault
	for _, k := range keys {
		if k.View != view {
			if text, given := l.Get(k.Name); given && k.Name == "unit" {
				k.read(&s, strings.TrimSpace(text)) // the view's lengths are in it too; Job reports its fault
			}
			continue
		}
		for i, value := range l.All(k.Name) {
			if i > 0 && !k.Repeatable {
				faults = append(faults, repeated(k, value))
				continue
			}
			if i == mostRepeats {
				faults = append(faults, Fault{Key: k.Name, Got: value, Want: "given at most " + strconv.Itoa(mostRepeats) + " times",
					odd: k.Name + " is given more than " + strconv.Itoa(mostRepeats) + " times: the rest is left out."})
				break
			}
			if why, ok := k.read(&s, strings.TrimSpace(value)); !ok {
				faults = append(faults, Fault{Key: k.Name, Got: value, Want: k.Want, Why: why})
			}
		}
	}
	return s, faults
}

// The read functions below store a value in the settings, or leave these alone
// and return false, with a sentence where the key's Want does not say enough.

func readVersion(_ *settings, text string) (string, bool) {
	if n, ok := number(text); ok && n > 1 {
		return "The link was written by a newer version; what this one understands of it is opened.", false
	}
	return "", text == "1"
}

func readUnit(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Unit, map[string]length.Unit{"mm": length.Millimetres, "in": length.Inches})
}

func readFraction(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Fraction, map[string]int{"16": 16, "32": 32, "64": 64})
}

func readRoom(s *settings, text string) (string, bool) {
	room, why, ok := s.room(text)
	if ok {
		s.job.Room = room
	}
	return why, ok
}

// room reads a rectangle or an outline.
func (s *settings) room(text string) (room []plane.Point, why string, ok bool) {
	if strings.ContainsAny(text, ",;") {
		return s.corners(text)
	}
	size, why, ok := s.pair(text, "x", [2]string{"width", "depth"})
	if !ok || !(size[0] > 0 && size[1] > 0) {
		return nil, why, false
	}
	return rectangle(float64(size[0]), float64(size[1])), "", true
}

func rectangle(w, d float64) []plane.Point {
	return []plane.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: d}, {X: 0, Y: d}}
}

func readHole(s *settings, text string) (string, bool) {
	hole, why, ok := s.corners(text)
	if ok {
		s.job.Holes = append(s.job.Holes, hole)
	}
	return why, ok
}

func readPattern(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Pattern, map[string]floor.Pattern{"herringbone": floor.Herringbone, "chevron": floor.Chevron})
}

func readBlock(s *settings, text string) (string, bool) {
	size, why, ok := s.pair(text, "x", [2]string{"width", "length"})
	if !ok || !(size[0] > 0 && size[1] > 0) {
		return why, false
	}
	s.job.Width, s.job.Length = size[0], size[1]
	return "", true
}

func readStrands(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Strands, map[string]int{"1": 1, "2": 2, "3": 3})
}

func readMitre(s *settings, text string) (string, bool) {
	return "", within(text, &s.job.Mitre, 25, 75)
}

func readAxis(s *settings, text string) (string, bool) {
	return "", within(text, &s.job.Axis, -360, 360)
}

func readCentre(s *settings, text string) (string, bool) {
	at, why, ok := s.pair(text, ",", [2]string{"x", "y"})
	if ok {
		s.job.Centre = &plane.Point{X: float64(at[0]), Y: float64(at[1])}
	}
	return why, ok
}

func readShift(s *settings, text string) (string, bool) {
	by, why, ok := s.pair(text, ",", [2]string{"across", "along"})
	if ok {
		s.job.Across, s.job.Along = by[0], by[1]
	}
	return why, ok
}

func readStart(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Start, map[string]floor.Start{"centre": floor.FromCentre, "wall": floor.FromWall})
}

func readShow(s *settings, text string) (string, bool) {
	var show Set
	if text != "none" {
		for name := range strings.SplitSeq(text, ",") {
			i := slices.Index(lines, strings.TrimSpace(name))
			if i < 0 {
				return "", false
			}
			show |= 1 << i
		}
	}
	s.view.Show = show
	return "", true
}

func readLaid(s *settings, text string) (string, bool) {
	n, ok := number(text)
	if ok {
		s.view.Laid = n
	}
	return "", ok
}

func readSpeed(s *settings, text string) (string, bool) {
	var speed float64
	if !within(text, &speed, 0, 1000) || speed == 0 {
		return "", false
	}
	s.view.Speed = speed
	return "", true
}

func readStage(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Stage, "measure", "choose", "strike", "lay")
}

func readPaint(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Paint, "auto", "webgl", "canvas")
}

func readFace(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Face, "work", "site", "show", "lesson")
}

func readLang(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Lang, "en")
}

func readRepeat(s *settings, text string) (string, bool) { return s.notNegative(text, &s.view.Repeat) }
func readSliver(s *settings, text string) (string, bool) { return s.notNegative(text, &s.view.Sliver) }
func readSame(s *settings, text string) (string, bool)   { return s.notNegative(text, &s.view.Same) }
func readMark(s *settings, text string) (string, bool)   { return s.notNegative(text, &s.view.Marking) }

// corners reads an outline.
func (s *settings) corners(text string) (outline []plane.Point, why string, ok bool) {
	n := strings.Count(text, ";") + 1
	if n < 3 || n > mostCorners {
		return nil, "There are " + strconv.Itoa(n) + " corners; from 3 to " + strconv.Itoa(mostCorners) + " can be used.", false
	}
	corners := make([]plane.Point, 0, n)
	for corner := range strings.SplitSeq(text, ";") {
		at, why, ok := s.pair(corner, ",", [2]string{"x", "y"})
		if !ok {
			say := "Corner " + strconv.Itoa(len(corners)+1) + " is " + quoted(corner) + "."
			if why != "" {
				say += " " + why
			}
			return nil, say, false
		}
		corners = append(corners, plane.Point{X: float64(at[0]), Y: float64(at[1])})
	}
	return corners, "", true
}

// pair reads two lengths with a separator between them; names says what they
// are.
func (s *settings) pair(text, separator string, names [2]string) (pair [2]length.Length, why string, ok bool) {
	parts := strings.Split(text, separator)
	if len(parts) != 2 {
		return pair, "", false
	}
	for i, part := range parts {
		if pair[i], why, ok = s.length(part); !ok {
			if strings.TrimSpace(part) == "" {
				return pair, "Its " + names[i] + " is missing.", false
			}
			return pair, "Its " + names[i] + " " + why, false
		}
	}
	return pair, "", true
}

func (s *settings) notNegative(text string, to *length.Length) (why string, ok bool) {
	if text == "" {
		return "", false
	}
	size, why, ok := s.length(text)
	if !ok || !(size >= 0) {
		return why, false
	}
	*to = size
	return "", true
}

func (s *settings) length(text string) (size length.Length, why string, ok bool) {
	size, err := length.Parse(text, s.job.Unit)
	if err != nil {
		return 0, err.Error() + ".", false
	}
	return size, "", true
}

// within reads a plain decimal between two bounds, both included.
func within(text string, to *float64, least, most float64) bool {
	digits := strings.TrimLeft(text, "+-")
	front, back, _ := strings.Cut(digits, ".")
	if len(text)-len(digits) > 1 || front+back == "" || strings.Trim(front+back, "0123456789") != "" {
		return false // ParseFloat knows exponents, hexadecimal and infinity; a layer does not
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || x < least || x > most {
		return false
	}
	*to = x
	return true
}

// number reads a whole number of up to nine digits.
func number(text string) (int, bool) {
	if len(text) > 9 || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}

func oneOf[T any](text string, to *T, values map[string]T) bool {
	v, ok := values[text]
	if ok {
		*to = v
	}
	return ok
}

func word(text string, to *string, words ...string) bool {
	if !slices.Contains(words, text) {
		return false
	}
	*to = text
	return true
}
