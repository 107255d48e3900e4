package files

import (
	"math"
	"strconv"

	"keelrow/engine/cuts"
	"keelrow/engine/drawing"
	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/engine/strike"
)

// JSON returns the whole plan. Lengths are millimetres to nine decimals, areas
// mm² to twelve digits and angles degrees to nine decimals: far finer than any
// use, and short of the digits in which two machines may differ.
func JSON(p *floor.Plan, o Options) []byte {
	return laidOut(drawing.AppendJSON(nil, func(j *drawing.Object) {
		if o.Link != "" {
			j.Text("link", o.Link)
		}
		figures(j, p)
		j.List("rows", func(l *drawing.List) {
			for w := range p.Rows() {
				l.Object(func(j *drawing.Object) {
					j.Number("number", float64(w.Number))
					j.Text("stage", stageName(w.Stage))
					j.Text("side", sideName(w.Strands))
					j.List("strands", func(l *drawing.List) {
						for _, k := range w.Strands {
							l.Number(float64(k))
						}
					})
					j.Number("full", float64(w.Full))
					j.Number("cut", float64(w.Cut))
				})
			}
		})
		j.List("strands", func(l *drawing.List) {
			for k, s := range p.Strands() {
				l.Object(func(j *drawing.Object) {
					j.Number("strand", float64(k))
					counts(j, s.Count)
					j.Number("area_mm2", area(s.Count.Area))
				})
			}
		})
		striking(j, p, o)
		pieces(j, p, o)
	}))
}

// figures writes what the floor comes to.
func figures(j *drawing.Object, p *floor.Plan) {
	j.Object("room", func(j *drawing.Object) {
		var all, round float64
		for _, ring := range p.Room() {
			all += ring.Area()
			round += ring.Perimeter()
		}
		j.Number("area_mm2", area(all))
		j.Number("perimeter_mm", fine(round)) // with that of the holes
	})
	j.Object("field", func(j *drawing.Object) { j.Number("area_mm2", area(p.FieldArea())) })
	laid := p.Pattern()
	j.Object("lines", func(j *drawing.Object) {
		j.Number("spacing_mm", fine(laid.Spacing()))
		j.Number("interval_mm", fine(laid.Interval()))
		j.Number("step_mm", fine(laid.Step()))
		index, at := p.Start()
		j.Object("start", func(j *drawing.Object) {
			place(j, at)
			j.Number("index", float64(index)) // steps from the centre
		})
	})
	if h, ok := laid.(pattern.Herringbone); ok {
		lineUp, miss, shorter, longer := h.LinesUp()
		j.Object("seams", func(j *drawing.Object) {
			j.Flag("line_up", lineUp)
			j.Number("miss_mm", fine(miss))
			j.Number("shorter_mm", fine(shorter))
			j.Number("longer_mm", fine(longer))
		})
	}
	all := p.Count()
	j.Object("blocks", func(j *drawing.Object) {
		counts(j, all)
		j.Number("smallest_piece_mm2", area(all.Smallest)) // 0 when nothing is cut
		j.Object("left", func(j *drawing.Object) { counts(j, p.CountHand(pattern.LeftHand)) })
		j.Object("right", func(j *drawing.Object) { counts(j, p.CountHand(pattern.RightHand)) })
	})
	j.List("balanced", func(l *drawing.List) {
		for _, s := range laid.Balanced() {
			l.Object(func(j *drawing.Object) {
				j.Number("across_mm", fine(s.Across))
				j.Number("along_mm", fine(s.Along))
			})
		}
	})
}

// striking writes the lines to strike and what they are set out by.
func striking(j *drawing.Object, p *floor.Plan, o Options) {
	tape := p.Job().Tape()
	j.List("marks", func(l *drawing.List) {
		for _, m := range strike.Marks(p) {
			for _, part := range m.Parts {
				l.Object(func(j *drawing.Object) {
					j.Text("line", lineName(p, m))
					j.Number("length_mm", fine(part.Long))
					j.List("ends", func(l *drawing.List) {
						for _, e := range part.Ends {
							l.Object(func(j *drawing.Object) { end(j, p, e, tape) })
						}
					})
				})
			}
		}
	})
	interval, step := strike.Trammels(p, tape)
	j.Object("trammels", func(j *drawing.Object) {
		for _, t := range []struct {
			name string
			set  strike.Trammel
		}{{"interval", interval}, {"step", step}} {
			j.Object(t.name, func(j *drawing.Object) {
				j.Number("setting_mm", fine(t.set.Setting))
				j.Text("reading", t.set.Reading.FeetText())
				j.Number("steps", float64(t.set.Steps))
				j.Number("cost_mm", fine(t.set.Cost)) // of stepping the reading instead
			})
		}
	})
	j.List("doorways", func(l *drawing.List) {
		doors := p.Job().Doors
		for _, d := range strike.Doorways(p) {
			l.Object(func(j *drawing.Object) {
				j.Text("name", doors[d.Door].Name)
				j.Text("wall", wallName(p, 0, doors[d.Door].Wall))
				j.Number("width_mm", fine(d.Base))
				j.Number("depth_mm", fine(d.Depth))
				j.Number("axis_degrees", fine(d.Angle)) // to one who comes in
				j.Number("marking_mm", fine(o.Marking))
				j.Number("run_out_mm", fine(d.RunOut(o.Marking)))
			})
		}
	})
	j.List("leftovers", func(l *drawing.List) {
		for _, left := range strike.Leftovers(p, o.Sliver) {
			l.Object(func(j *drawing.Object) {
				j.Text("wall", wallName(p, left.Hole, left.Wall))
				j.Number("pieces", float64(left.Pieces))
				j.Number("narrowest_mm", fine(left.Narrowest))
				j.Number("widest_mm", fine(left.Widest))
				j.Number("sliver_mm", fine(o.Sliver))
				j.Number("slivers", float64(left.Slivers))
			})
		}
	})
}

// end writes where a line ends.
func end(j *drawing.Object, p *floor.Plan, e strike.End, tape length.Tape) {
	r := e.Reading(tape)
	j.Text("wall", wallName(p, e.Hole, e.Wall))
	j.Text("corner", cornerName(e.Hole, e.Corner))
	j.Number("distance_mm", fine(e.Distance))
	j.Text("reading", r.FeetText())
	j.Text("off", r.OffText())
	j.Number("offset_mm", fine(e.Offset))
	place(j, e.Point)
}

// pieces writes the strips of the border and the cut list.
func pieces(j *drawing.Object, p *floor.Plan, o Options) {
	j.List("strips", func(l *drawing.List) {
		strips, _ := p.Strips() // none where a band does not fit
		for _, s := range strips {
			l.Object(func(j *drawing.Object) {
				j.Number("band", float64(s.Band+1))
				j.Text("wall", wallName(p, s.Hole, s.Wall))
				j.Number("width_mm", fine(s.Width))
				j.Number("outer_mm", fine(s.Outer))
				j.Number("inner_mm", fine(s.Inner))
				j.Number("from_degrees", fine(s.From))
				j.Number("to_degrees", fine(s.To))
			})
		}
	})
	j.Number("same_mm", fine(o.Same))
	j.List("cuts", func(l *drawing.List) {
		for _, g := range cuts.List(p, cuts.Options{Tolerance: o.Same}) {
			l.Object(func(j *drawing.Object) {
				j.Text("mark", g.Mark)
				j.Number("pieces", float64(g.Count()))
				j.Text("hand", handName(g.Hand))
				j.Number("area_mm2", area(g.Shape.Area))
				j.Flag("scribed", g.Shape.Notch)
				j.List("outline_mm", func(l *drawing.List) {
					for _, q := range g.Shape.Outline {
						l.List(func(l *drawing.List) { l.Number(fine(q.X)); l.Number(fine(q.Y)) })
					}
				})
				j.List("saw", func(l *drawing.List) {
					for _, c := range g.Shape.Cuts {
						l.Object(func(j *drawing.Object) { saw(j, c) })
					}
				})
				j.List("blocks", func(l *drawing.List) {
					for _, at := range g.Places {
						l.Number(float64(at.Order + 1))
					}
				})
			})
		}
	})
}

func saw(j *drawing.Object, c cuts.Cut) {
	j.Text("kind", cutNames[c.Kind])
	j.Text("keep", keepNames[c.Keep])
	j.Number("degrees", fine(c.Angle))
	if c.Kind == cuts.Rip {
		j.Number("at_stop_mm", fine(c.AtStop))
		j.Number("at_far_mm", fine(c.AtFar))
		return
	}
	j.List("marks_mm", func(l *drawing.List) {
		for _, q := range c.Marks {
			l.List(func(l *drawing.List) { l.Number(fine(q.X)); l.Number(fine(q.Y)) })
		}
	})
}

func place(j *drawing.Object, q plane.Point) {
	j.Number("x_mm", fine(q.X))
	j.Number("y_mm", fine(q.Y))
}

// counts writes whole blocks, blocks that are cut, and the pieces those give.
func counts(j *drawing.Object, c floor.Count) {
	j.Number("full", float64(c.Full))
	j.Number("cut", float64(c.Cut))
	j.Number("pieces", float64(c.Pieces))
}

func fine[L length.Length | float64](l L) float64 {
	return math.Round(float64(l)*1e9)/1e9 + 0 // +0 turns -0 into 0
}

func area(mm2 float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(mm2, 'g', 12, 64), 64)
	if err != nil {
		panic(err) // our own digits
	}
	return short
}

// laidOut returns JSON with line ends and spaces for people to read: what lies
// within the members of the outermost object stands on a line of its own, and
// what lies within that on the same line.
func laidOut(flat []byte) []byte {
	var out []byte
	depth, quoted := 0, false
	line := func() {
		out = append(out, '\n')
		for range depth {
			out = append(out, ' ', ' ')
		}
	}
	const open = 2 // containers within so many others stay on one line
	for i, c := range flat {
		if quoted {
			out = append(out, c)
			quoted = c != '"' || escaped(flat[:i])
			continue
		}
		switch c {
		case '"':
			quoted = true
			out = append(out, c)
		case '{', '[':
			out = append(out, c)
			depth++
			if depth <= open && flat[i+1] != c+2 { // ASCII has } and ] two after { and [
				line()
			}
		case '}', ']':
			depth--
			if depth < open && flat[i-1] != c-2 {
				line()
			}
			out = append(out, c)
		case ',':
			out = append(out, c)
			if depth <= open {
				line()
			} else {
				out = append(out, ' ')
			}
		case ':':
			out = append(out, c, ' ')
		default:
			out = append(out, c)
		}
	}
	return append(out, '\n')
}

// escaped says whether what follows text in a JSON string is escaped: an odd
// number of backslashes stands before it.
func escaped(text []byte) bool {
	n := 0
	for n < len(text) && text[len(text)-1-n] == '\\' {
		n++
	}
	return n%2 == 1
}
