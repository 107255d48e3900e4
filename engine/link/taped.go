package link

import (
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/survey"
)

func readTape(s *settings, text string) (string, bool) {
	n := strings.Count(text, ";") + 1
	if n > mostCorners {
		return "There are " + strconv.Itoa(n) + " readings; up to " + strconv.Itoa(mostCorners) + " can be used.", false
	}
	var tapes []survey.Reading
	for part := range strings.SplitSeq(text, ";") {
		name, rest, found := strings.Cut(part, ":")
		from, after, okFrom := cornerNumber(strings.TrimSpace(name))
		to, after, okTo := cornerNumber(after)
		if !found || !okFrom || !okTo || after != "" {
			return "Reading " + strconv.Itoa(len(tapes)+1) + ", " + quoted(part) + ", is not two corners and a length, such as AC:5530.", false
		}
		size, why, ok := s.length(rest)
		if !ok {
			return "From " + floor.CornerName(from) + " to " + floor.CornerName(to) + ": " + why, false
		}
		tapes = append(tapes, survey.Reading{From: from, To: to, Length: size})
	}
	s.job.Tapes = tapes
	return "", true
}

func readWalk(s *settings, text string) (string, bool) {
	parts := strings.Split(text, ";")
	switch n := (len(parts) + 1) / 2; {
	case n > mostCorners:
		return "There are " + strconv.Itoa(n) + " walls; up to " + strconv.Itoa(mostCorners) + " can be used.", false
	case text == "":
		return "", false
	case len(parts)%2 != 0:
		return "The turn after wall " + strconv.Itoa(n) + " is missing.", false
	}
	var legs []survey.Leg
	for i := 0; i < len(parts); i += 2 {
		wall := strconv.Itoa(len(legs) + 1)
		size, why, ok := s.length(parts[i])
		if !ok {
			return "Wall " + wall + ": " + why, false
		}
		leg := survey.Leg{Length: size}
		switch turn := strings.TrimSpace(parts[i+1]); turn {
		case "L":
			leg.Turn = 90
		case "R":
			leg.Turn = -90
		default:
			if !within(turn, &leg.Turn, -360, 360) {
				return "The turn after wall " + wall + " is " + quoted(turn) + "; write L, R, or degrees to the left.", false
			}
		}
		legs = append(legs, leg)
	}
	s.job.Legs = legs
	return "", true
}

func readShare(s *settings, text string) (string, bool) {
	return "", oneOf(text, &s.job.Share, map[string]bool{"yes": true, "no": false})
}

func readMisfit(s *settings, text string) (string, bool) {
	var most length.Length
	why, ok := s.notNegative(text, &most)
	if !ok || most == 0 {
		return why, false
	}
	s.job.Misfit = most
	return "", true
}

func readJoin(s *settings, text string) (string, bool) {
	parts := strings.SplitN(text, ":", 5)
	if len(parts) < 5 {
		return "", false
	}
	var join floor.Join
	var why string
	var ok bool
	if join.Wall, why, ok = s.wall(parts[0]); !ok {
		return why, false
	}
	door := strings.Split(parts[1], ",")
	if len(door) != 3 {
		return quoted(parts[1]) + " is not a distance along the wall, a width and a depth, such as 1200,813,120.", false
	}
	for i, to := range []*length.Length{&join.At, &join.Width, &join.Depth} {
		if *to, why, ok = s.length(door[i]); !ok {
			return why, false
		}
	}
	if join.Room, why, ok = s.room(strings.TrimSpace(parts[4])); !ok {
		if why == "" {
			why = quoted(parts[4]) + " is not a room, such as 3000x2500."
		}
		return why, false
	}
	if join.OtherWall, why, ok = wallOf(parts[2], len(join.Room)); !ok {
		return why, false
	}
	if join.OtherAt, why, ok = s.length(parts[3]); !ok {
		return why, false
	}
	s.job.Joins = append(s.job.Joins, join)
	return "", true
}

// The write functions below give the text that the read functions above take.

func tape(readings []survey.Reading, mark string) string {
	texts := make([]string, len(readings))
	for i, r := range readings {
		texts[i] = floor.CornerName(r.From) + floor.CornerName(r.To) + ":" + size(r.Length, mark)
	}
	return strings.Join(texts, ";")
}

func walk(legs []survey.Leg, mark string) string {
	var texts []string
	for _, leg := range legs {
		turn := decimal(leg.Turn)
		switch leg.Turn {
		case 90:
			turn = "L"
		case -90:
			turn = "R"
		}
		texts = append(texts, size(leg.Length, mark), turn)
	}
	return strings.Join(texts, ";")
}

func join(j floor.Join, walls int, mark string) string {
	return wallName(j.Wall, walls) + ":" + list([]length.Length{j.At, j.Width, j.Depth}, ",", mark) +
		":" + wallName(j.OtherWall, len(j.Room)) + ":" + size(j.OtherAt, mark) + ":" + room(j.Room, mark)
}

// walkLengths finds the lengths of the walls; the turns between may be plain
// numbers too.
func walkLengths(value string, use func(string) string) string {
	parts := strings.Split(value, ";")
	for i := 0; i < len(parts); i += 2 {
		parts[i] = use(parts[i])
	}
	return strings.Join(parts, ";")
}
