package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"keelrow/engine/cuts"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/strike"
	"keelrow/engine/survey"
)

// sum is a small question that takes a few readings, or the plan of a link,
// and no drawing. Lengths are in millimetres unless they carry a unit mark.
type sum struct {
	name, form, asks string
	work             func(a *arguments) any
}

// arguments are what a sum is asked with. After the first that cannot be read,
// what is read is 0 and problem says why.
type arguments struct {
	rest    []string
	plan    *floor.Plan // nil without a link
	problem error
}

func (a *arguments) next(what string) string {
	if len(a.rest) == 0 {
		a.fail(fmt.Errorf("the %s is missing", what))
		return ""
	}
	text := a.rest[0]
	a.rest = a.rest[1:]
	return text
}

func (a *arguments) fail(err error) {
	if a.problem == nil && err != nil {
		a.problem = err
	}
}

func (a *arguments) length(what string) length.Length {
	text := a.next(what)
	if a.problem != nil {
		return 0
	}
	l, err := length.Parse(text, length.Millimetres)
	a.fail(err)
	return l
}

func (a *arguments) number(what string) float64 {
	text := a.next(what)
	if a.problem != nil {
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		a.fail(fmt.Errorf("%q is not a number", text))
	}
	return v
}

// sums are the questions, in the order in which they are listed.
var sums = []sum{
	{"edge", "WIDTH LENGTH JOINT", "first tip lines off an edge course, for half squares and for half blocks", func(a *arguments) any {
		e := strike.FromEdge(a.length("width"), a.length("length"), a.length("joint"))
		return map[string]any{"tips_mm": e.Tips, "reach_mm": e.Reach, "half_blocks_mm": e.Halves}
	}},
	{"seam", "INTERVAL FIRST ATLEAST", "where a seam's mean lies in a further room off one base line", func(a *arguments) any {
		interval, first, least := a.length("interval"), a.length("first seam"), a.length("least distance")
		if !(interval > 0) {
			a.fail(fmt.Errorf("the interval has to be more than 0"))
			return nil
		}
		at, n := strike.NextSeam(interval, first, least, false)
		same, m := strike.NextSeam(interval, first, least, true)
		return map[string]any{"at_mm": at, "intervals": n, "same_hands_at_mm": same, "same_hands_intervals": m}
	}},
	{"runout", "BASE MISS DISTANCE", "how far a line may run out beyond a base whose marks are good to MISS", func(a *arguments) any {
		return map[string]any{"runout_mm": strike.RunOut(a.length("base"), a.length("miss"), a.length("distance"))}
	}},
	{"base", "LIMIT MISS DISTANCE", "the base that holds the run-out to LIMIT", func(a *arguments) any {
		base, ok := strike.BaseFor(a.length("limit"), a.length("miss"), a.length("distance"))
		return map[string]any{"base_mm": base, "possible": ok}
	}},
	{"pullback", "COURSES EASE", "how far a row can be brought along its line when each joint is eased by EASE", func(a *arguments) any {
		return map[string]any{"pullback_mm": strike.PullBack(int(a.number("number of courses")), a.length("ease"))}
	}},
	{"ease", "MISS EASE", "over how many courses a miss has to be spread", func(a *arguments) any {
		return map[string]any{"courses": strike.CoursesToEase(a.length("miss"), a.length("ease"))}
	}},
	{"phase", "WIDTH LENGTH ACROSS ALONG", "how far two herringbone fields are out of phase", func(a *arguments) any {
		h := pattern.Herringbone{Width: a.length("width"), Length: a.length("length"), Strands: 1}
		across, along := a.length("shift across"), a.length("shift along")
		if !(h.Width > 0 && h.Length > 0) {
			a.fail(fmt.Errorf("the block has to have a width and a length"))
			return nil
		}
		x, y := strike.Residual(h, across, along)
		return map[string]any{"across_mm": x, "along_mm": y}
	}},
	{"equal", "RUN BLOCK SHORTEST", "a short run divided into equal pieces", func(a *arguments) any {
		n, each := cuts.Equal(a.length("run"), a.length("block"), a.length("shortest piece"))
		return map[string]any{"pieces": n, "each_mm": each}
	}},
	{"offset", "STRIP REPEAT", "the offset of a repeat that leaves the largest smallest piece", func(a *arguments) any {
		offset, smallest := cuts.BestOffset(a.length("strip"), a.length("repeat"))
		return map[string]any{"offset_mm": offset, "smallest_mm": smallest}
	}},
	{"rows", "ACROSS LENGTH LEASTGAP", "whole and even rows of blocks of LENGTH between two walls, and the gap left", func(a *arguments) any {
		rows, gap := cuts.EvenRows(a.length("room"), pattern.Herringbone{Length: a.length("length")}.Interval(), a.length("least gap"))
		return map[string]any{"rows": rows, "gap_mm": gap}
	}},
	{"angle", "DEGREES head|v|axis|saw", "a chevron's angle in every way it is given", func(a *arguments) any {
		degrees := a.number("angle")
		said := survey.Said(0)
		if len(a.rest) > 0 {
			said = map[string]survey.Said{"head": survey.HeadAngle, "v": survey.VeeAngle, "axis": survey.AxisAngle, "saw": survey.SawSetting}[a.next("kind")]
		}
		angles, err := survey.ChevronAngle(degrees, said)
		a.fail(err)
		return map[string]any{"head": angles.Head, "v": angles.Vee, "axis": angles.Axis, "saw": angles.Saw}
	}},
	{"match", "ACROSS STEP WIDTH", "angle and length of the blocks of a chevron that lies already", func(a *arguments) any {
		angles, long, err := survey.MatchChevron(a.length("distance across a strand"), a.length("step"), a.length("width"))
		a.fail(err)
		return map[string]any{"mitre_deg": angles.Axis, "length_mm": long}
	}},
	{"mitres", "WHOLE TURN TURN…", "mitres of a border whose corners do not add up", func(a *arguments) any {
		whole := a.number("whole turn")
		var turns []float64
		for len(a.rest) > 0 {
			turns = append(turns, a.number("turn"))
		}
		mitres, miss := survey.Mitres(turns, whole)
		return map[string]any{"mitres": mitres, "miss_deg": miss}
	}},
	{"graduated", "FROM TO PIECES", "the cut of each piece where a saw angle drifts", func(a *arguments) any {
		angles, err := survey.Graduated(a.number("first angle"), a.number("last angle"), int(a.number("number of pieces")))
		a.fail(err)
		return map[string]any{"angles_deg": angles}
	}},
	{"scribe", "GAP ORDINATE ORDINATE…", "a straight first row along an uneven wall", func(a *arguments) any {
		gap := a.length("gap")
		var ordinates []length.Length
		for len(a.rest) > 0 {
			ordinates = append(ordinates, a.length("ordinate"))
		}
		if len(ordinates) == 0 {
			a.fail(fmt.Errorf("the ordinates are missing"))
			return nil
		}
		line, offsets, narrowest := survey.ScribeLine(ordinates, gap)
		return map[string]any{"line_mm": line, "offsets_mm": offsets, "narrowest": narrowest + 1}
	}},
	{"oneway", "left|right, and a LINK", "the first line where work can only run from one side", func(a *arguments) any {
		if a.plan == nil {
			a.fail(fmt.Errorf("it is asked of a floor: give its link as well"))
			return nil
		}
		from := strike.Left
		if a.next("side") == "right" {
			from = strike.Right
		}
		lines, err := strike.OneWay(a.plan, from)
		a.fail(err)
		var list []map[string]any
		for _, l := range lines {
			list = append(list, map[string]any{"across_mm": l.Shift.Across, "along_mm": l.Shift.Along, "seam": l.Seam,
				"from_centre_mm": l.FromCentre, "first_mm": l.First, "last_mm": l.Last})
		}
		return list
	}},
}

// ask works out a sum and prints it as JSON. It returns the exit status.
func ask(question string, plan *floor.Plan, stdout, stderr io.Writer) int {
	words := strings.Fields(question)
	for _, s := range sums {
		if len(words) > 0 && words[0] == s.name {
			a := &arguments{rest: words[1:], plan: plan}
			answer := s.work(a)
			if a.problem == nil && len(a.rest) > 0 {
				a.fail(fmt.Errorf("%q is one too many", a.rest[0]))
			}
			if a.problem != nil {
				fmt.Fprintf(stderr, "%s: %v. It is asked as: %s %s\n", s.name, a.problem, s.name, s.form)
				return 2
			}
			data, err := json.MarshalIndent(answer, "", "  ")
			if err != nil {
				fmt.Fprintf(stderr, "%s: these readings give no answer\n", s.name)
				return 2
			}
			fmt.Fprintf(stdout, "%s\n", data)
			return 0
		}
	}
	fmt.Fprintln(stderr, "There are these sums, with lengths in mm unless they carry a unit mark:")
	for _, s := range sums {
		fmt.Fprintf(stderr, "  %-9s %-28s %s\n", s.name, s.form, s.asks)
	}
	return 2
}
