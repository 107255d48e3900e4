package files

import (
	"slices"

	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

// How large labels are on the floor, in millimetres: legible where the room is
// printed on one sheet, and clear of the walls.
const (
	letterHeight = 100
	letterOff    = 90
	jamb         = 100 // how far a doorway's jambs are drawn out of the room
)

// Drawing returns the plan at true size: walls and holes, the border, every
// block, the lines to strike and the starting block. A layer is there even
// when it is empty, so that every drawing has the same ones.
func Drawing(p *floor.Plan) drawing.Drawing {
	room := p.Room()
	strips, _ := p.Strips() // a band that does not fit is left out: the border line is there
	var border []plane.Ring
	for _, s := range strips {
		border = append(border, s.Outline)
	}
	full, cut := blocks(p)
	lines := linesOf(p)
	letters := cornerLetters(p)
	doors, names := doorways(p)
	return drawing.Drawing{Title: Title(p), Layers: []drawing.Layer{
		{Name: "walls", Closed: room[:1], Weight: 10},
		{Name: "holes", Closed: room[1:], Weight: 10},
		{Name: "doorways", Lines: doors, Texts: names, Weight: 4},
		{Name: "border strips", Closed: border},
		{Name: "border line", Closed: p.Field(), Weight: 2},
		{Name: "blocks full", Closed: full},
		{Name: "blocks cut", Closed: cut},
		{Name: "centre line", Lines: lines[strike.Centre], Dash: drawing.Chain, Weight: 3},
		{Name: "cross line", Lines: lines[strike.Cross], Dash: drawing.Chain, Weight: 3},
		{Name: "pattern centre lines", Lines: append(lines[strike.Spine], lines[strike.Origin]...), Dash: drawing.Chain, Weight: 2},
		{Name: "working lines", Lines: append(lines[strike.Working], lines[strike.Seam]...), Dash: drawing.Dashed, Weight: 2},
		{Name: "diagonals", Lines: lines[strike.Diagonal], Dash: drawing.Dotted, Weight: 2},
		{Name: "starting block", Closed: p.StartingBlock(), Weight: 4},
		{Name: "corner letters", Texts: letters},
	}}
}

// blocks returns the outlines of the whole blocks and of the pieces of cut
// ones, each piece followed by its holes.
func blocks(p *floor.Plan) (full, cut []plane.Ring) {
	for row := range p.Rows() {
		for b := range p.Blocks(row) {
			if b.Full {
				full = append(full, slices.Clone(b.Corners[:]))
			}
			for _, piece := range b.Pieces {
				cut = append(cut, slices.Clone(piece.Outline))
				for _, hole := range piece.Holes {
					cut = append(cut, slices.Clone(hole))
				}
			}
		}
	}
	return full, cut
}

// linesOf returns the lines to strike by what they are struck for.
func linesOf(p *floor.Plan) (lines [strike.Border + 1][][]plane.Point) {
	for _, m := range strike.Marks(p) {
		for _, part := range m.Parts {
			lines[m.Kind] = append(lines[m.Kind], []plane.Point{part.Ends[0].Point, part.Ends[1].Point})
		}
	}
	return lines
}

// cornerLetters letters the corners of the outline outside the room, and those
// of holes inside the hole where that is clear of the wall.
func cornerLetters(p *floor.Plan) (texts []drawing.Text) {
	job := p.Job()
	letter := func(hole int, outline plane.Ring) {
		for i, at := range Letters(outline, letterOff) {
			middle := plane.Point{X: letterHeight * 0.35, Y: letterHeight / 2}
			texts = append(texts, drawing.Text{At: at.Sub(middle), Height: letterHeight, Text: cornerName(hole, i)})
		}
	}
	letter(0, job.Room)
	for h, hole := range job.Holes {
		letter(h+1, hole)
	}
	return texts
}

// Letters returns where the letter of each corner of an outline goes: off the
// corner by a distance, away from both its walls and out of what the outline
// encloses.
func Letters(outline plane.Ring, off float64) []plane.Point {
	outward := off
	if outline.Area() < 0 {
		outward = -off
	}
	at := make([]plane.Point, len(outline))
	for i, p := range outline {
		before, _ := outline.Edge(i - 1)
		_, after := outline.Edge(i)
		in, out := p.Sub(before), after.Sub(p)
		in, out = in.Times(1/in.Length()), out.Times(1/out.Length())
		away := plane.Point{X: in.Y + out.Y, Y: -in.X - out.X}
		if l := away.Length(); l > 0 {
			away = away.Times(outward / l)
		}
		at[i] = p.Add(away)
	}
	return at
}

// doorways draws each doorway from jamb to jamb, with its name.
func doorways(p *floor.Plan) (lines [][]plane.Point, names []drawing.Text) {
	for _, d := range p.Job().Doors {
		near, far, out := Doorway(p, d)
		out = out.Times(jamb)
		lines = append(lines, []plane.Point{near.Add(out), near, far, far.Add(out)})
		if d.Name != "" {
			middle := near.Add(far).Times(0.5).Add(out)
			half := length.Length(len([]rune(d.Name))) * letterHeight * 0.35
			names = append(names, drawing.Text{
				At: middle.Sub(plane.Point{X: float64(half), Y: letterHeight / 2}), Height: letterHeight, Text: d.Name})
		}
	}
	return lines, names
}

// Doorway returns the two jambs of a doorway, on the straight line between its
// wall's corners, and the unit vector that points out of the room there.
func Doorway(p *floor.Plan, d floor.Door) (near, far, out plane.Point) {
	from, to := p.Chord(0, d.Wall)
	along := to.Sub(from)
	along = along.Times(1 / along.Length())
	near, far = from.Add(along.Times(float64(d.At))), from.Add(along.Times(float64(d.At+d.Width)))
	out = plane.Point{X: along.Y, Y: -along.X}
	if plane.Ring(p.Job().Room).Area() < 0 {
		out = out.Times(-1)
	}
	return near, far, out
}
