package link

import (
	"slices"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
)

// Looks is what a floor is made of and what it looks like.
type Looks struct {
	Wood, Border string // species; the border's may be same
	Grade        string // mixed, calm or lively
	Finish       string // oiled, raw or lacquered
	Tone         string // natural, smoked or limed
	Edge         string // bevelled or square
	Joint        string // natural, dark or light
}

// Light is what falls on the floor. Directions are degrees clockwise from
// straight away from the near wall, heights degrees above the floor.
type Light struct {
	From      string  // sun, day, window or lamp
	Direction float64 // sun
	Height    float64 // sun
	Hour      float64 // day
	North     float64 // day: where north is
	Window    int     // window: its number, from 0
}

// Stand is where somebody stands in the room and which way they look.
type Stand struct {
	In            bool // seen from there, and not from above
	Placed, Aimed bool // whether the link says where, and which way
	X, Y, Height  length.Length
	Direction     float64 // degrees clockwise from straight away from the near wall
	Down          float64 // degrees below level
}

// Woods is the species there are.
var Woods = []string{"oak", "ash", "beech", "birch", "maple", "walnut", "cherry", "elm", "chestnut", "larch", "teak", "wenge"}

// The hours between which a day has light.
const (
	FirstHour = 6
	LastHour  = 18
)

// usual is how a floor is looked at where the link says nothing.
var usual = View{Show: ShowAll, Laid: -1, Speed: 12, Stage: "measure", Paint: "auto", Lang: "en", Face: "work",
	Sliver: 20, Same: 0.5, Marking: 0.8, Step: 1,
	Looks: Looks{Wood: "oak", Border: "same", Grade: "mixed", Finish: "oiled", Tone: "natural", Edge: "bevelled", Joint: "natural"},
	Light: Light{From: "sun", Direction: 305, Height: 32}, Stand: Stand{Height: 1600}}

// ofChoice is the keys by which one choice may differ from another. The room,
// the light and the place one looks from are the same for both.
var ofChoice = []string{"border", "pattern", "block", "strands", "mitre", "axis", "centre", "line", "shift",
	"wood", "borderwood", "grade", "finish", "tone", "edge", "joint"}

func readWood(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Wood, Woods...)
}

func readBorderWood(s *settings, text string) (string, bool) {
	return "", text == "same" && word(text, &s.view.Looks.Border, "same") || word(text, &s.view.Looks.Border, Woods...)
}

func readGrade(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Grade, "mixed", "calm", "lively")
}

func readFinish(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Finish, "oiled", "raw", "lacquered")
}

func readTone(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Tone, "natural", "smoked", "limed")
}

func readEdge(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Edge, "bevelled", "square")
}

func readJoint(s *settings, text string) (string, bool) {
	return "", word(text, &s.view.Looks.Joint, "natural", "dark", "light")
}

func readLight(s *settings, text string) (string, bool) {
	from, rest, _ := strings.Cut(text, ":")
	light := Light{From: from, North: s.view.Light.North}
	ok := false
	switch from {
	case "sun":
		direction, height, _ := strings.Cut(rest, ",")
		ok = within(direction, &light.Direction, 0, 360) && within(height, &light.Height, 1, 90)
	case "day":
		ok = within(rest, &light.Hour, FirstHour, LastHour)
	case "window":
		var n int
		n, ok = number(rest)
		light.Window, ok = n-1, ok && n > 0
	case "lamp":
		ok = text == "lamp"
	}
	if ok {
		s.view.Light = light
	}
	return "", ok
}

func readNorth(s *settings, text string) (string, bool) {
	return "", within(text, &s.view.Light.North, 0, 360)
}

func readSeen(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.view.Stand.In, map[string]bool{"plan": false, "standing": true})
}

func readEye(s *settings, text string) (string, bool) {
	at, why, ok := s.list(text, ",", "Length")
	if !ok || len(at) != 3 || !(at[2] >= 100 && at[2] <= 2400) {
		return why, false
	}
	v := &s.view.Stand
	v.Placed, v.X, v.Y, v.Height = true, at[0], at[1], at[2]
	return "", true
}

func readLooking(s *settings, text string) (string, bool) {
	direction, down, _ := strings.Cut(text, ",")
	v := s.view.Stand
	if !within(direction, &v.Direction, 0, 360) || !within(down, &v.Down, -30, 80) {
		return "", false
	}
	v.Aimed = true
	s.view.Stand = v
	return "", true
}

// Whether the values can be used is only known where they are read: walls are
// named as the room has them.
func readBeside(s *settings, text string) (string, bool) {
	if text == "" {
		return "", false
	}
	for _, p := range Open("#" + text).pairs {
		if !slices.Contains(ofChoice, p.key) {
			return "Two choices cannot differ in " + quoted(p.text) + ".", false
		}
	}
	s.view.Beside = text
	return "", true
}

// besideLengths finds the lengths of every value of the other choice.
func besideLengths(value string, use func(string) string) string {
	other := Open("#" + value)
	for i, p := range other.pairs {
		if r := rank(p.key); r >= 0 && keys[r].lengths != nil {
			if with := keys[r].lengths(p.value, use); with != p.value {
				other.pairs[i] = written(p.key, with)
			}
		}
	}
	return other.String()
}

// The key's own reading needs the table, which cannot need itself.
func init() {
	k := &keys[rank("beside")]
	k.read, k.lengths = readBeside, besideLengths
}

// Beside returns the link of the other choice that the link compares itself
// with, and whether there is one.
func (l Link) Beside() (Link, bool) {
	text, ok := l.Get("beside")
	l = l.With("beside")
	if !ok || text == "" {
		return l, false
	}
	other := Open("#" + text)
	for _, key := range ofChoice {
		switch values := other.All(key); {
		case len(values) == 1 && values[0] == "":
			l = l.With(key)
		case values != nil:
			l = l.With(key, values...)
		}
	}
	return l, true
}

// Comparing returns the link with the choice of another link beside its own,
// or with none if they do not differ.
func (l Link) Comparing(other Link) Link {
	job, _ := l.Job()
	other = other.Rebased(job.Unit)
	var differs Link
	for _, key := range ofChoice {
		values := other.All(key)
		switch {
		case slices.Equal(values, l.All(key)):
		case values == nil:
			differs.pairs = append(differs.pairs, pair{key, key, ""})
		default:
			differs = differs.With(key, values...)
		}
	}
	if differs.pairs == nil {
		return l.With("beside")
	}
	return l.With("beside", differs.String())
}

// Choosing returns the link with the choice of another link in place of its
// own.
func (l Link) Choosing(other Link) Link {
	chosen, _ := l.Comparing(other).Beside()
	return chosen
}

func readWindow(s *settings, text string) (string, bool) {
	wall, rest, why, ok := s.wallAnd(text)
	if !ok {
		return why, false
	}
	parts := strings.SplitN(rest, ",", 5)
	w := floor.Window{Wall: wall}
	if len(parts) < 4 && len(parts) != 2 {
		return "", false
	}
	size, why, ok := s.pair(parts[0]+","+parts[1], ",", [2]string{"distance from the wall's first corner", "width"})
	w.At, w.Width = size[0], size[1]
	if ok && len(parts) > 2 {
		size, why, ok = s.pair(parts[2]+","+parts[3], ",", [2]string{"height above the floor", "height"})
		w.Sill, w.Height = size[0], size[1]
		ok = ok && w.Height > 0
	}
	if len(parts) == 5 {
		w.Name = strings.TrimSpace(parts[4])
	}
	if ok {
		s.job.Windows = append(s.job.Windows, w)
	}
	return why, ok
}

// windowLengths finds the lengths of a window: its name may look like one.
func windowLengths(value string, use func(string) string) string {
	wall, rest, found := strings.Cut(value, ":")
	if !found {
		return value
	}
	parts := strings.SplitN(rest, ",", 5)
	for i := range parts[:min(4, len(parts))] {
		parts[i] = use(parts[i])
	}
	return wall + ":" + strings.Join(parts, ",")
}

func window(w floor.Window, walls int, mark string) string {
	text := wallName(w.Wall, walls) + ":" + size(w.At, mark) + "," + size(w.Width, mark)
	if w.Height != 0 || w.Name != "" {
		sill, height := w.Opening()
		text += "," + size(sill, mark) + "," + size(height, mark)
	}
	if w.Name != "" {
		text += "," + w.Name
	}
	return text
}
