package floor

import (
	"errors"
	"slices"

	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
)

// Join is a further room through a doorway, laid as one field with the rest.
type Join struct {
	Wall      int           // of the outline so far, through which the doorway leads
	At        length.Length // from that wall's first corner to the near jamb
	Width     length.Length // clear
	Depth     length.Length // of the passage through the wall
	Room      []plane.Point // the further room in a frame of its own
	OtherWall int           // its wall with the doorway
	OtherAt   length.Length // from that wall's first corner to the near jamb
}

// Survey works the room out of what was taped: walls and diagonals, or walls
// in turn. It is nil without an error when the room was given otherwise. With
// a *survey.MisfitError or a *survey.ClosingError there is a result all the
// same, to show which reading may be wrong.
func (j Job) Survey() (*survey.Result, error) {
	limit := j.Misfit
	if limit == 0 {
		limit = survey.DefaultLimit
	}
	switch {
	case len(j.Tapes) > 0:
		corners := 0
		for _, r := range j.Tapes {
			corners = max(corners, r.From+1, r.To+1)
		}
		return survey.Solve(corners, j.Tapes, limit)
	case len(j.Legs) > 0:
		return survey.Walk(j.Legs, j.Share, limit)
	}
	return nil, nil
}

// surveyed returns the job with its room's corners worked out from what was
// taped and from the rooms joined to it. Errors are *FieldError, joined.
func (j Job) surveyed() (Job, error) {
	result, err := j.Survey()
	if err != nil {
		key := "tape"
		if len(j.Tapes) == 0 {
			key = "walk"
		}
		return j, asFieldErrors(key, err, j.Tape())
	}
	if result != nil {
		j.Room = result.Outline
	}
	j.Tapes, j.Legs = nil, nil
	for _, join := range j.Joins {
		room := j.WithDefaults().Room
		joined, err := survey.Join(room, join.Room, survey.Doorway{
			WallA: join.Wall, AtA: join.At, WallB: join.OtherWall, AtB: join.OtherAt, Width: join.Width, Depth: join.Depth})
		if err != nil {
			return j, asFieldErrors("join", err, j.Tape())
		}
		outline := joined.Outline
		if plane.Ring(room).Area() < 0 {
			outline = outline.Reversed()
		}
		j.Room = fromCorner(outline, room[0])
	}
	j.Joins = nil
	for i, c := range j.Rounds {
		circle, err := survey.Circle(c.Centre, c.Diameter/2)
		if err != nil {
			return j, asFieldErrors("column", err, j.Tape())
		}
		if i == 0 {
			j.Holes = slices.Clip(j.Holes)
		}
		j.Holes = append(j.Holes, circle)
	}
	j.Rounds = nil
	return j, nil
}

// fromCorner returns the outline begun at the corner that lies at p, so that a
// room keeps its letters, up to the doorway, when another is joined to it.
func fromCorner(outline plane.Ring, p plane.Point) plane.Ring {
	for i, q := range outline {
		if q.Sub(p).Length() < 1e-6 {
			return append(append(plane.Ring{}, outline[i:]...), outline[:i]...)
		}
	}
	return outline
}

// asFieldErrors turns the survey's errors into errors of a field, read on the
// job's tape.
func asFieldErrors(key string, err error, tape length.Tape) error {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var errs []error
		for _, e := range many.Unwrap() {
			errs = append(errs, asFieldErrors(key, e, tape))
		}
		return errors.Join(errs...)
	}
	return &FieldError{Key: key, Wrong: said(err, tape)}
}

// said returns an error of the survey as read on a tape.
func said(err error, tape length.Tape) string {
	if read, ok := err.(interface{ In(length.Tape) string }); ok {
		return read.In(tape)
	}
	return err.Error()
}
