package strike

import (
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/length"
)

// Trammel is a distance stepped off over and over with a trammel, or with a
// stick cut to it.
type Trammel struct {
	Setting length.Length // between its points
	Steps   int           // how many times it goes over this room
	Reading length.Reading
	// Cost is how far off the last mark comes when the trammel is set to the
	// tape's nearest mark and stepped that many times: beyond its place when
	// above zero.
	Cost length.Length
}

// NewTrammel returns the trammel for a setting that is stepped so many times.
func NewTrammel(setting length.Length, steps int, t length.Tape) Trammel {
	r := t.Read(setting)
	return Trammel{Setting: setting, Steps: steps, Reading: r, Cost: length.Length(steps) * (r.Mark - setting)}
}

// At returns where mark n belongs, read from one hook of the tape.
func (t Trammel) At(n int) length.Length { return length.Length(n) * t.Setting }

// After returns how far off mark n comes when the rounded setting is stepped.
func (t Trammel) After(n int) length.Length { return length.Length(n) * (t.Reading.Mark - t.Setting) }

// Ticks returns where every so many-th mark belongs on a line of a length,
// each read from the line's start.
func (t Trammel) Ticks(every int, long length.Length) []length.Length {
	var ticks []length.Length
	for n := every; every > 0 && t.At(n) <= long; n += every {
		ticks = append(ticks, t.At(n))
	}
	return ticks
}

// Trammels returns the trammel for the intervals, stepped from the first seam
// in the field to the last, and that for the steps, along the longest part of
// the spine's line in the field.
func Trammels(p *floor.Plan, t length.Tape) (interval, step Trammel) {
	first, last := seams(p)
	origin, along := p.Axis()
	var long length.Length
	for _, part := range field(p).parts(origin, along) {
		long = max(long, part.Long)
	}
	blocks := p.Pattern()
	return NewTrammel(blocks.Interval(), max(0, last-first), t), NewTrammel(blocks.Step(), whole(long, blocks.Step()), t)
}

// seams returns the first and the last seam that crosses the field; last is
// below first when none does.
func seams(p *floor.Plan) (first, last int) {
	first, last = math.MaxInt, math.MinInt
	for _, l := range p.Lines() {
		if l.Kind == floor.WorkingLine {
			first, last = min(first, l.Seam), max(last, l.Seam)
		}
	}
	if first > last {
		return 0, -1
	}
	return first, last
}

// PullBack returns how far a row can be brought along its line over so many
// courses when each joint is eased by ease: a block moved square to its long
// edge by e moves the row along the axis by e√2, as a block of width W does by
// its step W√2. A miss that is larger at a tick cannot be taken up by the next.
func PullBack(courses int, ease length.Length) length.Length {
	return length.Length(courses) * ease * math.Sqrt2
}

// CoursesToEase returns over how many courses a miss along the line has to be
// spread so that no joint is eased by more than ease.
func CoursesToEase(miss, ease length.Length) int {
	return int(math.Ceil(math.Abs(float64(miss/(ease*math.Sqrt2))) - 1e-9))
}
