package link

import (
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// The most strips of a border and the most ordinates of a wall that are read.
const (
	mostStrips    = 20
	mostOrdinates = 200
)

// walls returns how many walls the outline of a job has, or 0 where that is
// not known before rooms are joined.
func walls(job floor.Job) int {
	switch {
	case len(job.Joins) > 0:
		return 0
	case len(job.Tapes) > 0:
		n := 0
		for _, r := range job.Tapes {
			n = max(n, r.From+1, r.To+1)
		}
		return n
	case len(job.Legs) > 0:
		return len(job.Legs)
	case len(job.Room) > 0:
		return len(job.Room)
	}
	return 4 // the room of the zero job
}

// wallName names a wall of n by its two corners. One that is not among them is
// named as in a larger room, so that it reads as the same number.
func wallName(wall, n int) string {
	if wall >= n {
		n = wall + 2
	}
	return floor.WallName(wall, n)
}

// cornerNumber reads the name of a corner, as floor.CornerName writes it, from
// the front of a text.
func cornerNumber(text string) (corner int, rest string, ok bool) {
	if text == "" || text[0] < 'A' || text[0] > 'Z' {
		return 0, "", false
	}
	corner, rest = int(text[0]-'A'), strings.TrimLeft(text[1:], "0123456789")
	if digits := text[1 : len(text)-len(rest)]; digits != "" {
		times, ok := number(digits)
		if !ok || times < 2 || times > mostCorners || digits[0] == '0' {
			return 0, "", false
		}
		corner += 26 * (times - 1)
	}
	return corner, rest, corner < mostCorners
}

// wall reads the name of a wall of the outline.
func (s *settings) wall(text string) (wall int, why string, ok bool) {
	return wallOf(text, walls(s.job))
}

// wallOf reads the name of a wall of n. A corner past the last is left to
// floor.New, but a wall is never taken for another one: DA is none of a room
// with five corners, and DE is none of a room with four.
func wallOf(text string, n int) (wall int, why string, ok bool) {
	from, rest, okFrom := cornerNumber(strings.TrimSpace(text))
	to, rest, okTo := cornerNumber(rest)
	if !okFrom || !okTo || rest != "" {
		return 0, quoted(text) + " is not a wall; name it by the letters of its two corners, such as AB.", false
	}
	if from < n && to != (from+1)%n {
		return 0, "The room has no wall " + quoted(text) + "; from corner " + floor.CornerName(from) + " runs wall " + floor.WallName(from, n) + ".", false
	}
	if from >= n && to != from+1 && to != 0 {
		return 0, "The room has no wall " + quoted(text) + ".", false
	}
	return from, "", true
}

// wallAnd reads a wall and what stands behind its colon.
func (s *settings) wallAnd(text string) (wall int, rest, why string, ok bool) {
	name, rest, found := strings.Cut(text, ":")
	if !found {
		return 0, "", "", false
	}
	wall, why, ok = s.wall(name)
	return wall, rest, why, ok
}

// atWalls reads what holds at single walls, such as AB:10;CD:15.
func (s *settings) atWalls(text string) (at []floor.AtWall, why string, ok bool) {
	given := map[int]bool{}
	for part := range strings.SplitSeq(text, ";") {
		wall, rest, why, ok := s.wallAnd(part)
		if !ok {
			if why == "" {
				why = quoted(part) + " is not a wall with its length, such as AB:10."
			}
			return nil, why, false
		}
		size, why, ok := s.length(rest)
		name := wallName(wall, walls(s.job))
		switch {
		case !ok:
			return nil, "At wall " + name + ", " + why, false
		case !(size >= 0):
			return nil, "At wall " + name + " it is below 0.", false
		case given[wall]:
			return nil, "Wall " + name + " is given more than once.", false
		}
		given[wall] = true
		at = append(at, floor.AtWall{Wall: wall, Length: size})
	}
	return at, "", true
}

// allAndAt reads what holds at every wall, by all, and at single ones.
func (s *settings) allAndAt(text string, at *[]floor.AtWall, all func(text string) (why string, ok bool)) (why string, ok bool) {
	first, rest, more := strings.Cut(text, ";")
	var single []floor.AtWall
	if more {
		if single, why, ok = s.atWalls(rest); !ok {
			return why, false
		}
	}
	if why, ok = all(strings.TrimSpace(first)); ok {
		*at = single
	}
	return why, ok
}

func readGap(s *settings, text string) (string, bool) {
	return s.allAndAt(text, &s.job.GapAt, func(text string) (string, bool) { return s.notNegative(text, &s.job.Gap) })
}

func readBorder(s *settings, text string) (string, bool) {
	return s.allAndAt(text, &s.job.BorderAt, func(text string) (string, bool) {
		if !strings.Contains(text, "+") {
			return s.notNegative(text, &s.job.Border)
		}
		return s.strips(text)
	})
}

// strips reads the strips of a border.
func (s *settings) strips(text string) (why string, ok bool) {
	if n := strings.Count(text, "+") + 1; n > mostStrips {
		return "There are " + strconv.Itoa(n) + " strips; up to " + strconv.Itoa(mostStrips) + " can be used.", false
	}
	strips, why, ok := s.list(text, "+", "Strip")
	if !ok {
		return why, false
	}
	var sum length.Length
	for i, strip := range strips {
		if !(strip > 0) {
			return "Strip " + strconv.Itoa(i+1) + " has to be wider than 0.", false
		}
		sum += strip
	}
	s.job.Strips, s.job.Border = strips, sum
	return "", true
}

// list reads lengths with a separator between them; name says what each is.
func (s *settings) list(text, separator, name string) (list []length.Length, why string, ok bool) {
	for part := range strings.SplitSeq(text, separator) {
		size, why, ok := s.length(part)
		if !ok {
			which := name + " " + strconv.Itoa(len(list)+1)
			if strings.TrimSpace(part) == "" {
				return nil, which + " is missing.", false
			}
			return nil, which + ": " + why, false
		}
		list = append(list, size)
	}
	return list, "", true
}

func readBow(s *settings, text string) (string, bool) {
	wall, rest, why, ok := s.wallAnd(text)
	if !ok {
		return why, false
	}
	rise, why, ok := s.length(rest)
	if ok {
		s.job.Bows = append(s.job.Bows, floor.Bow{Wall: wall, Rise: rise})
	}
	return why, ok
}

func readScribe(s *settings, text string) (string, bool) {
	wall, rest, why, ok := s.wallAnd(text)
	if !ok {
		return why, false
	}
	if n := strings.Count(rest, ",") + 1; n > mostOrdinates {
		return "There are " + strconv.Itoa(n) + " ordinates; up to " + strconv.Itoa(mostOrdinates) + " can be used.", false
	}
	ordinates, why, ok := s.list(rest, ",", "Ordinate")
	if ok {
		s.job.Scribes = append(s.job.Scribes, floor.Scribe{Wall: wall, Ordinates: ordinates})
	}
	return why, ok
}

func readColumn(s *settings, text string) (string, bool) {
	middle, diameter := text, ""
	if i := strings.LastIndexByte(text, ','); i >= 0 {
		middle, diameter = text[:i], text[i+1:]
	}
	at, why, ok := s.pair(middle, ",", [2]string{"distance to the right", "distance away from you"})
	if !ok {
		return why, false
	}
	size, why, ok := s.length(diameter)
	if !ok {
		return "Its diameter " + why, false
	}
	if !(size > 0) {
		return "Its diameter is not more than 0.", false
	}
	s.job.Rounds = append(s.job.Rounds, floor.Round{Centre: plane.Point{X: float64(at[0]), Y: float64(at[1])}, Diameter: size})
	return "", true
}

func readDoor(s *settings, text string) (string, bool) {
	wall, rest, why, ok := s.wallAnd(text)
	if !ok {
		return why, false
	}
	at, rest, _ := strings.Cut(rest, ",")
	width, name, _ := strings.Cut(rest, ",")
	size, why, ok := s.pair(at+","+width, ",", [2]string{"distance from the wall's first corner", "width"})
	if ok {
		s.job.Doors = append(s.job.Doors, floor.Door{Wall: wall, At: size[0], Width: size[1], Name: strings.TrimSpace(name)})
	}
	return why, ok
}

func readLine(s *settings, text string) (string, bool) {
	parts := strings.Split(text, ":")
	var line floor.LineSetting
	from, parts := strings.TrimSpace(parts[0]), parts[1:]
	wanted := 1
	switch from {
	case "axis":
		wanted = 0
	case "midway":
		line.From, wanted = floor.LineMidway, 2
	case "square":
		line.From = floor.LineSquare
	case "wall":
		line.From = floor.LineWall
	case "door":
		line.From = floor.LineDoor
	case "hole":
		line.From = floor.LineHole
	case "through":
		line.From, wanted = floor.LineThrough, 2
	default:
		return "", false
	}
	if len(parts) != wanted {
		return "", false
	}
	for i, part := range parts {
		var n int
		var why string
		var ok bool
		switch line.From {
		case floor.LineThrough:
			var at [2]length.Length
			if at, why, ok = s.pair(part, ",", [2]string{"x", "y"}); !ok && why != "" {
				why = "Point " + strconv.Itoa(i+1) + " is " + quoted(part) + ". " + why
			}
			line.Points[i] = plane.Point{X: float64(at[0]), Y: float64(at[1])}
		case floor.LineDoor, floor.LineHole:
			n, ok = number(strings.TrimSpace(part))
			n--
			ok = ok && n >= 0
		default:
			n, why, ok = s.wall(part)
		}
		if !ok {
			return why, false
		}
		if i == 0 {
			line.A = n
		} else {
			line.B = n
		}
	}
	s.job.Line = line
	return "", true
}

// The write functions below give the text that the read functions above take.

func allAndAt(all string, at []floor.AtWall, walls int, mark string) string {
	for _, a := range at {
		all += ";" + wallName(a.Wall, walls) + ":" + size(a.Length, mark)
	}
	return all
}

// border writes the widths of the strips, or the one width of a border that
// has none.
func border(job floor.Job, mark string) string {
	strips := job.Strips
	if len(strips) == 0 {
		strips = []length.Length{job.Border}
	}
	return list(strips, "+", mark)
}

func list(lengths []length.Length, separator, mark string) string {
	texts := make([]string, len(lengths))
	for i, l := range lengths {
		texts[i] = size(l, mark)
	}
	return strings.Join(texts, separator)
}

func door(d floor.Door, walls int, mark string) string {
	text := wallName(d.Wall, walls) + ":" + size(d.At, mark) + "," + size(d.Width, mark)
	if d.Name != "" {
		text += "," + d.Name
	}
	return text
}

func line(l floor.LineSetting, walls int, mark string) string {
	switch l.From {
	case floor.LineMidway:
		return "midway:" + wallName(l.A, walls) + ":" + wallName(l.B, walls)
	case floor.LineSquare:
		return "square:" + wallName(l.A, walls)
	case floor.LineWall:
		return "wall:" + wallName(l.A, walls)
	case floor.LineDoor:
		return "door:" + strconv.Itoa(l.A+1)
	case floor.LineHole:
		return "hole:" + strconv.Itoa(l.A+1)
	case floor.LineThrough:
		return "through:" + corner(l.Points[0], mark) + ":" + corner(l.Points[1], mark)
	}
	return "axis"
}

// every returns how the lengths of a value are found that stand between these
// separators.
func every(between string) lengthsOf {
	return func(value string, use func(string) string) string {
		var b strings.Builder
		for value != "" {
			end := strings.IndexAny(value, between)
			if end < 0 {
				end = len(value)
			}
			b.WriteString(use(value[:end]))
			if end < len(value) {
				b.WriteByte(value[end])
				end++
			}
			value = value[end:]
		}
		return b.String()
	}
}

// doorLengths finds the two lengths of a doorway: its name may look like one.
func doorLengths(value string, use func(string) string) string {
	parts := strings.SplitN(value, ",", 3)
	wall, at, found := strings.Cut(parts[0], ":")
	if !found {
		return value
	}
	parts[0] = wall + ":" + use(at)
	if len(parts) > 1 {
		parts[1] = use(parts[1])
	}
	return strings.Join(parts, ",")
}

// lineLengths finds the lengths of a centre line: the number of a doorway or
// hole is none.
func lineLengths(value string, use func(string) string) string {
	if from, points, _ := strings.Cut(value, ":"); strings.TrimSpace(from) == "through" {
		return from + ":" + every(":,")(points, use)
	}
	return value
}
