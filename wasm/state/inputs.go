package state

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/plane"
)

// Names of the inputs. Corners of the outline are "room.0.x", "room.0.y" and
// so on, those of the first hole "hole.0.0.x".
const (
	RoomWidth   = "room.width"
	RoomDepth   = "room.depth"
	Gap         = "gap"
	Border      = "border"
	BlockWidth  = "block.width"
	BlockLength = "block.length"
	Mitre       = "mitre"
	Axis        = "axis"
	CentreX     = "centre.x"
	CentreY     = "centre.y"
	Across      = "shift.across"
	Along       = "shift.along"
)

// keyOf returns the link's key that an input is part of.
func keyOf(input string) string {
	key, _, _ := strings.Cut(input, ".")
	return key
}

// texts returns the text of every input as a link has it, and for what the
// link leaves out the default, if there is one to show.
func texts(l link.Link) map[string]string {
	t := map[string]string{}
	mark := ""
	if unitOf(l) == length.Inches {
		mark = "mm" // defaults are whole millimetres
	}
	defaults := floor.Job{}.WithDefaults()
	bare := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	get := func(key, otherwise string) string {
		if text, ok := l.Get(key); ok {
			return text
		}
		return otherwise
	}
	room := get("room", "4200"+mark+"x3600"+mark)
	if strings.ContainsAny(room, ",;") {
		outlineTexts(t, "room", room)
	} else {
		t[RoomWidth], t[RoomDepth], _ = strings.Cut(room, "x")
	}
	for h, hole := range l.All("hole") {
		outlineTexts(t, "hole."+strconv.Itoa(h), hole)
	}
	surveyTexts(t, l, get)
	t[BlockWidth], t[BlockLength], _ = strings.Cut(
		get("block", bare(float64(defaults.Width))+mark+"x"+bare(float64(defaults.Length))+mark), "x")
	t[Mitre], t[Axis] = get("mitre", bare(defaults.Mitre)), get("axis", "0")
	t[CentreX], t[CentreY], _ = strings.Cut(get("centre", ""), ",")
	t[Across], t[Along], _ = strings.Cut(get("shift", "0,0"), ",")
	return t
}

// outlineTexts takes the corners of an outline apart.
func outlineTexts(t map[string]string, name, text string) {
	for i, corner := range strings.Split(text, ";") {
		x, y, _ := strings.Cut(corner, ",")
		at := name + "." + strconv.Itoa(i)
		t[at+".x"], t[at+".y"] = x, y
	}
}

// sameTexts says whether all inputs of a key hold the same texts in both.
func sameTexts(a, b map[string]string, key string) bool {
	n := 0
	for input, text := range a {
		if keyOf(input) != key {
			continue
		}
		if other, ok := b[input]; !ok || other != text {
			return false
		}
		n++
	}
	for input := range b {
		if keyOf(input) == key {
			n--
		}
	}
	return n == 0
}

// Corners returns how many corners the inputs of an outline have: "room" or
// "hole.0".
func (s State) Corners(name string) int {
	n := 0
	for ; ; n++ {
		if _, ok := s.Typed[name+"."+strconv.Itoa(n)+".x"]; !ok {
			return n
		}
	}
}

// Holes returns how many holes have inputs.
func (s State) Holes() int {
	n := 0
	for s.Corners("hole."+strconv.Itoa(n)) > 0 {
		n++
	}
	return n
}

// Rectangle says whether the room is given by width and depth.
func (s State) Rectangle() bool {
	_, ok := s.Typed[RoomWidth]
	return ok
}

// reader turns typed texts into values for the link.
type reader struct {
	s    *State
	unit length.Unit
	ok   bool
}

// length reads one typed length.
func (r *reader) length(input string) string {
	text, err := length.Canonical(r.s.Typed[input], r.unit)
	if err != nil {
		r.s.Problems[input] = sentence(err.Error())
		r.ok = false
	}
	return text
}

// pair reads two lengths with a sign between them.
func (r *reader) pair(a, sign, b string) string { return r.length(a) + sign + r.length(b) }

// degrees reads an angle: the link's own reading judges it.
func (r *reader) degrees(input string) string {
	text := strings.TrimSpace(r.s.Typed[input])
	text = strings.TrimSpace(strings.TrimSuffix(text, "°"))
	return strings.Replace(text, ",", ".", 1)
}

// hole reads a hole. One that shows what the draft has is left as it is, so
// that a faulty hole of a link is not in the way of the others.
func (r *reader) hole(name string) string {
	n := 0
	for input := range r.s.Typed {
		if strings.HasPrefix(input, name+".") {
			n++
		}
	}
	for _, value := range r.s.draft.All("hole") {
		t := map[string]string{}
		outlineTexts(t, name, value)
		same := len(t) == n
		for input, text := range t {
			same = same && r.s.Typed[input] == text
		}
		if same {
			return value
		}
	}
	return r.outline(name)
}

// outline reads the corners of an outline.
func (r *reader) outline(name string) string {
	var corners []string
	for i := range r.s.Corners(name) {
		at := name + "." + strconv.Itoa(i)
		corners = append(corners, r.pair(at+".x", ",", at+".y"))
	}
	return strings.Join(corners, ";")
}

// rewrite reads every input of a key and puts its value into the draft. When
// it cannot be used by itself, the draft gets the value of the floor that is
// shown, so that other inputs can still take effect.
func (s *State) rewrite(key string) {
	r := &reader{s: s, unit: s.Unit(), ok: true}
	var values []string
	switch key {
	case "room":
		if s.Rectangle() {
			values = []string{r.pair(RoomWidth, "x", RoomDepth)}
		} else {
			values = []string{r.outline("room")}
		}
	case "hole":
		for h := range s.Holes() {
			values = append(values, r.hole("hole."+strconv.Itoa(h)))
		}
	case "block":
		values = []string{r.pair(BlockWidth, "x", BlockLength)}
	case "mitre":
		values = []string{r.degrees(Mitre)}
	case "axis":
		values = []string{r.degrees(Axis)}
	case "centre":
		if !s.noCentre() {
			values = []string{r.pair(CentreX, ",", CentreY)}
		}
	case "shift":
		values = []string{r.pair(Across, ",", Along)}
	default:
		values = r.survey(key)
	}
	if r.ok && slices.Equal(s.draft.All(key), values) {
		return
	}
	draft := s.draft.With(key, values...)
	if r.ok {
		if fault, ok := newFault(s.draft, draft, key); ok {
			s.problem(key, fault.Error())
			r.ok = false
		}
	}
	if !r.ok {
		draft = s.draft.With(key, s.Link.All(key)...)
	}
	s.draft = draft
}

// newFault returns a fault of a key that a change of the link brought.
func newFault(before, after link.Link, key string) (link.Fault, bool) {
	_, old := before.Job()
	_, faults := after.Job()
	for _, fault := range faults {
		if fault.Key == key && !slices.Contains(old, fault) {
			return fault, true
		}
	}
	return link.Fault{}, false
}

// noCentre says whether no centre point is typed, which means the middle of
// the outline.
func (s *State) noCentre() bool {
	return strings.TrimSpace(s.Typed[CentreX]+s.Typed[CentreY]) == ""
}

// cornersOf writes an outline for the link, in the job's unit.
func cornersOf(ring []plane.Point, unit length.Unit) string {
	var corners []string
	for _, p := range ring {
		corners = append(corners, written(length.Length(p.X), unit)+","+written(length.Length(p.Y), unit))
	}
	return strings.Join(corners, ";")
}

// written writes a computed length for the link: the shortest decimal that
// reads back as the same length, with a unit mark where a bare number would
// mean inches. What lies below the digits a typed length may have, far below
// a thousandth of a millimetre, is rounded.
func written(l length.Length, unit length.Unit) string {
	const digits = 20
	text := strconv.FormatFloat(float64(l)+0, 'f', -1, 64) // +0 turns -0 into 0
	whole, decimals, _ := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	if len(whole)+len(decimals) > digits && len(whole) < digits {
		text = strconv.FormatFloat(float64(l), 'f', digits-len(whole), 64)
	}
	if unit == length.Inches {
		text += "mm"
	}
	return text
}

// sentence gives a text a capital letter and a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	first := []rune(text)
	head := strings.ToUpper(string(first[0]))
	text = head + string(first[1:])
	if !strings.HasSuffix(text, ".") {
		text += "."
	}
	return text
}

// stageOf says on which stage a key's inputs are.
var stageOf = map[string]string{
	"unit": "measure", "fraction": "measure", "room": "measure", "hole": "measure", "gap": "measure", "border": "measure",
	"tape": "measure", "walk": "measure", "share": "measure", "misfit": "measure", "join": "measure", "column": "measure",
	"bow": "measure", "scribe": "measure", "door": "measure", "line": "strike",
	"pattern": "choose", "strands": "choose", "block": "choose", "mitre": "choose",
	"axis": "strike", "centre": "strike", "shift": "strike", "start": "strike",
	"sliver": "strike", "mark": "strike", "same": "lay",
}

// Elsewhere returns the problems whose inputs are on another stage than the
// one that is open, in the order of the link's keys.
func (s State) Elsewhere(stage string) (list []string) {
	for _, key := range link.Keys() {
		if stageOf[key.Name] == stage {
			continue
		}
		for _, input := range slices.Sorted(maps.Keys(s.Problems)) {
			if keyOf(input) == key.Name {
				list = append(list, s.Problems[input])
			}
		}
	}
	return list
}
