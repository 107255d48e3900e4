package state

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/engine/plane"
)

// Way is how the outline of the room is given.
type Way string

const (
	BySize    Way = "size"    // width and depth
	ByCorners Way = "corners" // two readings for each corner
	ByTape    Way = "tape"    // taped walls and diagonals
	ByWalk    Way = "walk"    // walls in turn
)

// Way returns how the outline is given.
func (s State) Way() Way {
	switch {
	case s.Items("tape") > 0:
		return ByTape
	case s.Items("walk") > 0:
		return ByWalk
	case s.Rectangle():
		return BySize
	}
	return ByCorners
}

// parts names the inputs of one item of a key that is a list: "tape.0.pair",
// "tape.0.length" and so on.
var parts = map[string][]string{
	"tape":   {"pair", "length"},
	"walk":   {"length", "turn"},
	"door":   {"wall", "at", "width", "name"},
	"column": {"x", "y", "across"},
	"join":   {"wall", "at", "width", "depth", "other", "otherat", "room"},
}

// Items returns how many items of a list have inputs.
func (s State) Items(key string) int {
	n := 0
	for {
		if _, ok := s.Typed[key+"."+strconv.Itoa(n)+"."+parts[key][0]]; !ok {
			return n
		}
		n++
	}
}

// perWall says whether a key holds something at single walls: its inputs are
// there for every wall, "gap.AB", and empty ones are not used.
func perWall(key string) bool {
	return slices.Contains([]string{"gap", "border", "bow", "scribe"}, key)
}

// atWall returns the wall's name that an input is for.
func atWall(input string) (key, wall string, ok bool) {
	key, wall, ok = strings.Cut(input, ".")
	return key, wall, ok && perWall(key)
}

// settings are the keys of the link that change what is reported, not the
// floor. Their inputs carry the same names.
var settings = []string{"repeat", "sliver", "same", "mark"}

// surveyTexts adds the texts of the keys about the room beyond its corners.
func surveyTexts(t map[string]string, l link.Link, get func(key, otherwise string) string) {
	for _, key := range []string{"gap", "border"} {
		all, rest, _ := strings.Cut(get(key, "0"), ";")
		t[key] = all
		wallTexts(t, key, strings.Split(rest, ";"))
	}
	wallTexts(t, "bow", l.All("bow"))
	wallTexts(t, "scribe", l.All("scribe"))
	for i, door := range l.All("door") {
		at := "door." + strconv.Itoa(i)
		wall, rest, _ := strings.Cut(door, ":")
		list := append(strings.SplitN(rest, ",", 3), "", "", "")
		t[at+".wall"], t[at+".at"], t[at+".width"], t[at+".name"] = wall, list[0], list[1], list[2]
	}
	for i, column := range l.All("column") {
		list := append(strings.SplitN(column, ",", 3), "", "")
		for k, part := range parts["column"] {
			t["column."+strconv.Itoa(i)+"."+part] = list[k]
		}
	}
	for i, join := range l.All("join") {
		// WALL:AT,WIDTH,DEPTH:WALL:AT:ROOM
		list := append(strings.SplitN(join, ":", 5), "", "", "", "")
		door := append(strings.Split(list[1], ","), "", "")
		for k, text := range []string{list[0], door[0], door[1], door[2], list[2], list[3], list[4]} {
			t["join."+strconv.Itoa(i)+"."+parts["join"][k]] = text
		}
	}
	if tape, ok := l.Get("tape"); ok {
		for i, reading := range strings.Split(tape, ";") {
			at := "tape." + strconv.Itoa(i)
			t[at+".pair"], t[at+".length"], _ = strings.Cut(reading, ":")
		}
	}
	if walk, ok := l.Get("walk"); ok {
		list := strings.Split(walk, ";")
		for i := 0; i < len(list); i += 2 {
			at := "walk." + strconv.Itoa(i/2)
			t[at+".length"], t[at+".turn"] = list[i], "L"
			if i+1 < len(list) {
				t[at+".turn"] = list[i+1]
			}
		}
	}
	t["misfit"] = get("misfit", "")
	kind, rest, _ := strings.Cut(get("line", "axis"), ":")
	list := append(strings.Split(rest, ":"), "", "")
	t["line.kind"], t["line.a"], t["line.b"] = kind, list[0], list[1]
	for _, key := range settings {
		t[key] = get(key, "")
	}
}

// wallTexts takes values such as AB:10 apart.
func wallTexts(t map[string]string, key string, values []string) {
	for _, value := range values {
		if wall, text, ok := strings.Cut(value, ":"); ok {
			t[key+"."+wall] = text
		}
	}
}

// walls returns the inputs of a key at single walls, by name, in the order of
// their corners.
func (r *reader) walls(key string) (names []string) {
	for input, text := range r.s.Typed {
		if k, wall, ok := atWall(input); ok && k == key && strings.TrimSpace(text) != "" {
			names = append(names, wall)
		}
	}
	slices.SortFunc(names, func(a, b string) int {
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return strings.Compare(a, b)
	})
	return names
}

// strips reads the widths of the border's strips, joined by plus signs.
func (r *reader) strips(input string) string { return r.lengths(input, "+") }

// lengths reads a list of lengths.
func (r *reader) lengths(input, sign string) string {
	list := strings.Split(r.s.Typed[input], sign)
	for i, text := range list {
		canonical, err := length.Canonical(text, r.unit)
		if err != nil {
			r.s.Problems[input] = sentence(err.Error())
			r.ok = false
		}
		list[i] = canonical
	}
	return strings.Join(list, sign)
}

// outlineText reads a room typed as width x depth or as corners.
func (r *reader) outlineText(input string) string {
	text := strings.ToLower(strings.Join(strings.Fields(r.s.Typed[input]), " "))
	read := func(list []string, sign string) string {
		for i, part := range list {
			canonical, err := length.Canonical(part, r.unit)
			if err != nil {
				r.s.Problems[input] = sentence(err.Error())
				r.ok = false
			}
			list[i] = canonical
		}
		return strings.Join(list, sign)
	}
	if !strings.Contains(text, ";") {
		return read(strings.Split(text, "x"), "x")
	}
	corners := strings.Split(text, ";")
	for i, corner := range corners {
		corners[i] = read(strings.Split(corner, ","), ",")
	}
	return strings.Join(corners, ";")
}

// wallName reads the letters of a wall or of a taped line.
func (r *reader) wallName(input string) string {
	return strings.ToUpper(strings.Join(strings.Fields(r.s.Typed[input]), ""))
}

// survey reads the inputs of a key about the room beyond its corners.
func (r *reader) survey(key string) (values []string) {
	switch key {
	case "gap", "border":
		value := r.length(key)
		if key == "border" && strings.Contains(r.s.Typed[key], "+") {
			delete(r.s.Problems, key)
			r.ok = true
			value = r.strips(key)
		}
		for _, wall := range r.walls(key) {
			value += ";" + wall + ":" + r.length(key+"."+wall)
		}
		return []string{value}
	case "bow":
		for _, wall := range r.walls(key) {
			values = append(values, wall+":"+r.length(key+"."+wall))
		}
	case "scribe":
		for _, wall := range r.walls(key) {
			values = append(values, wall+":"+r.lengths(key+"."+wall, ","))
		}
	case "door":
		for i := range r.s.Items(key) {
			at := "door." + strconv.Itoa(i)
			value := r.wallName(at+".wall") + ":" + r.pair(at+".at", ",", at+".width")
			if name := strings.TrimSpace(r.s.Typed[at+".name"]); name != "" {
				value += "," + name
			}
			values = append(values, value)
		}
	case "column":
		for i := range r.s.Items(key) {
			at := "column." + strconv.Itoa(i) + "."
			values = append(values, r.pair(at+"x", ",", at+"y")+","+r.length(at+"across"))
		}
	case "join":
		for i := range r.s.Items(key) {
			at := "join." + strconv.Itoa(i) + "."
			values = append(values, r.wallName(at+"wall")+":"+r.pair(at+"at", ",", at+"width")+","+r.length(at+"depth")+
				":"+r.wallName(at+"other")+":"+r.length(at+"otherat")+":"+r.outlineText(at+"room"))
		}
	case "tape":
		var list []string
		for i := range r.s.Items(key) {
			at := "tape." + strconv.Itoa(i)
			list = append(list, r.wallName(at+".pair")+":"+r.length(at+".length"))
		}
		if list != nil {
			values = []string{strings.Join(list, ";")}
		}
	case "walk":
		var list []string
		for i := range r.s.Items(key) {
			at := "walk." + strconv.Itoa(i)
			turn := strings.ToUpper(strings.TrimSpace(r.s.Typed[at+".turn"]))
			list = append(list, r.length(at+".length"), strings.Replace(turn, ",", ".", 1))
		}
		if list != nil {
			values = []string{strings.Join(list, ";")}
		}
	case "misfit":
		if strings.TrimSpace(r.s.Typed[key]) != "" {
			values = []string{r.length(key)}
		}
	case "line":
		kind := r.s.Typed["line.kind"]
		switch kind {
		case "axis":
			return nil
		case "midway":
			values = []string{kind + ":" + r.wallName("line.a") + ":" + r.wallName("line.b")}
		case "through":
			values = []string{kind + ":" + r.lengths("line.a", ",") + ":" + r.lengths("line.b", ",")}
		default:
			values = []string{kind + ":" + r.wallName("line.a")}
		}
	}
	return values
}

// ShapeRoom changes how the outline is given. The room stays as it is, but
// for rounding to what a tape shows.
type ShapeRoom struct{ Way Way }

func (a ShapeRoom) apply(s State) (State, Step) {
	if s.Way() == a.Way {
		return s, Stay
	}
	s = s.copied()
	room := plane.Ring(s.Plan.Job().Room)
	for _, key := range []string{"tape", "walk", "join"} {
		s.draft = s.draft.With(key)
		s.forget(key)
	}
	unit := s.Unit()
	switch a.Way {
	case BySize:
		low, high := room.Box()
		size := high.Sub(low)
		return s.retyped("room", written(length.Length(size.X), unit)+"x"+written(length.Length(size.Y), unit))
	case ByCorners:
		return s.retyped("room", cornersOf(room, unit))
	}
	s.draft = s.draft.With("room")
	s.forget("room")
	if a.Way == ByWalk {
		return s.retyped("walk", walkOf(room, unit))
	}
	return s.retyped("tape", tapeOf(room, unit))
}

// forget drops the inputs of a key.
func (s *State) forget(key string) {
	for input := range s.Typed {
		if keyOf(input) == key {
			delete(s.Typed, input)
		}
	}
}

// taped writes a length for the link as a tape would show it: to a tenth of a
// millimetre, or to the nearest 1/64 in.
func taped(l length.Length, unit length.Unit) string {
	if unit == length.Inches {
		text := (length.Tape{Unit: unit, Fraction: 64}).Read(l).Text()
		if canonical, err := length.Canonical(text, unit); err == nil {
			return canonical
		}
	}
	return strconv.FormatFloat(float64(int(float64(l)*10+0.5))/10, 'f', -1, 64)
}

// walkOf writes an outline as walls in turn.
func walkOf(room plane.Ring, unit length.Unit) string {
	var list []string
	for i := range room {
		a, b := room.Edge(i)
		_, c := room.Edge(i + 1)
		turn := turnAt(a, b, c)
		text := strconv.FormatFloat(turn, 'f', 2, 64)
		switch text {
		case "90.00":
			text = "L"
		case "-90.00":
			text = "R"
		}
		list = append(list, taped(length.Length(b.Sub(a).Length()), unit), text)
	}
	return strings.Join(list, ";")
}

// tapeOf writes an outline as taped walls and, for four corners, both
// diagonals, else the diagonals of triangles that make it up.
func tapeOf(room plane.Ring, unit length.Unit) string {
	n := len(room)
	line := func(i, j int) string {
		name := floor.CornerName(i) + floor.CornerName(j)
		return name + ":" + taped(length.Length(room[j].Sub(room[i]).Length()), unit)
	}
	var list []string
	for i := range n {
		list = append(list, line(i, (i+1)%n))
	}
	if n == 4 {
		return strings.Join(append(list, line(0, 2), line(1, 3)), ";")
	}
	for _, d := range triangles(room) {
		list = append(list, line(d[0], d[1]))
	}
	return strings.Join(list, ";")
}

// triangles returns diagonals that cut a simple outline into triangles, by
// taking off one ear after the other.
func triangles(room plane.Ring) (diagonals [][2]int) {
	left := make([]int, len(room))
	for i := range left {
		left[i] = i
	}
	ccw := room.Area() > 0
	for len(left) > 3 {
		n, cut := len(left), -1
		for k := range n {
			i, j, l := left[(k+n-1)%n], left[k], left[(k+1)%n]
			if corner := room[j].Sub(room[i]).Cross(room[l].Sub(room[j])); corner > 0 != ccw || corner == 0 {
				continue
			}
			ear := plane.Ring{room[i], room[j], room[l]}
			clear := true
			for _, m := range left {
				if m != i && m != j && m != l && plane.Inside(room[m], ear) {
					clear = false
				}
			}
			if clear {
				cut = k
				diagonals = append(diagonals, [2]int{min(i, l), max(i, l)})
				break
			}
		}
		if cut < 0 {
			return diagonals
		}
		left = append(left[:cut:cut], left[cut+1:]...)
	}
	return diagonals
}

// AddItem adds an item at the end of a list: a reading, a wall or a doorway.
type AddItem struct{ Key string }

func (a AddItem) apply(s State) (State, Step) {
	if parts[a.Key] == nil {
		return s, Stay
	}
	s = s.copied()
	at := a.Key + "." + strconv.Itoa(s.Items(a.Key)) + "."
	for _, part := range parts[a.Key] {
		s.Typed[at+part] = ""
	}
	if a.Key == "walk" {
		s.Typed[at+"turn"] = "L"
	}
	return s.recompute(Push, a.Key)
}

// RemoveItem takes an item out of a list.
type RemoveItem struct {
	Key  string
	Item int
}

func (a RemoveItem) apply(s State) (State, Step) {
	if parts[a.Key] == nil || a.Item < 0 || a.Item >= s.Items(a.Key) || s.Items(a.Key) == 1 && (a.Key == "tape" || a.Key == "walk") {
		return s, Stay
	}
	s = s.copied()
	n := s.Items(a.Key)
	for i := a.Item; i < n; i++ {
		for _, part := range parts[a.Key] {
			at := a.Key + "." + strconv.Itoa(i) + "." + part
			if next, ok := s.Typed[a.Key+"."+strconv.Itoa(i+1)+"."+part]; ok {
				s.Typed[at] = next
			} else {
				delete(s.Typed, at)
			}
		}
	}
	return s.recompute(Push, a.Key)
}

// turnAt returns the turn to the left, in degrees, on the way from a by b to
// c.
func turnAt(a, b, c plane.Point) float64 {
	u, v := b.Sub(a), c.Sub(b)
	return math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi
}
