package view

import (
	"strings"

	"github.com/hexops/vecty"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/engine/plane"
	"keelrow/wasm/words"
)

// overlay is the lines, outlines and labels over the painted floor. It is
// drawn in millimetres with y downward; the page moves it by its viewBox.
type overlay struct {
	vecty.Core
	Plan  *floor.Plan      `vecty:"prop"`
	Show  link.Set         `vecty:"prop"`
	Walls string           `vecty:"prop"` // names of walls that a problem speaks of
	Words *words.Catalogue `vecty:"prop"`
}

// SkipRender skips while the same lines of the same plan are drawn.
func (o *overlay) SkipRender(prev vecty.Component) bool {
	before := prev.(*overlay)
	return before.Plan == o.Plan && before.Show == o.Show && before.Words == o.Words
}

// path writes outlines as one path; y is turned downward.
func path(rings []plane.Ring) string {
	var b strings.Builder
	for _, ring := range rings {
		for i, p := range ring {
			if i == 0 {
				b.WriteByte('M')
			} else {
				b.WriteByte('L')
			}
			b.WriteString(num(p.X) + " " + num(-p.Y))
		}
		b.WriteByte('Z')
	}
	return b.String()
}

// strokes writes the parts of lines as one path.
func strokes(lines []floor.Line, kind floor.LineKind) string {
	var b strings.Builder
	for _, l := range lines {
		if l.Kind != kind {
			continue
		}
		for _, part := range l.Parts {
			b.WriteString("M" + num(part[0].X) + " " + num(-part[0].Y) + "L" + num(part[1].X) + " " + num(-part[1].Y))
		}
	}
	return b.String()
}

func (o *overlay) Render() vecty.ComponentOrHTML {
	room := o.Plan.Room()
	lines := o.Plan.Lines()
	// A line is drawn twice: a halo in the paper's colour keeps it clear of
	// the wood.
	layer := func(set link.Set, class, d string) vecty.List {
		if !o.Show.Has(set) {
			d = ""
		}
		if class == "diagonal" { // its dots would drown
			return vecty.List{svg("path", attrs{"class", class, "d", d})}
		}
		return vecty.List{svg("path", attrs{"class", "halo " + class + "-halo", "d", d}), svg("path", attrs{"class", class, "d", d})}
	}
	start := o.Plan.StartingBlock()
	var halves []plane.Ring
	if o.Show.Has(link.ShowStart) {
		for _, k := range []int{-3, -2, 1, 2} {
			halves = append(halves, o.Plan.StartingHalf(k))
		}
	}
	_, point := o.Plan.Start()
	children := []vecty.MarkupOrChild{
		svg("path", attrs{"class", "wall", "d", path(room)}),
		svg("path", attrs{"class", "door", "d", doors(o.Plan.Job())}),
		layer(link.ShowBorder, "border-line", path(o.Plan.Field())),
		layer(link.ShowWorking, "working-line", strokes(lines, floor.WorkingLine)),
		layer(link.ShowDiagonals, "diagonal", strokes(lines, floor.Diagonal)),
		layer(link.ShowCentre, "centre-line", strokes(lines, floor.CentreLine)),
		layer(link.ShowStart, "starting-half", path(halves)),
		layer(link.ShowStart, "starting-block", path(start)),
	}
	if o.Show.Has(link.ShowStart) {
		children = append(children, svg("path", attrs{"class", "start-point",
			"d", "M" + num(point.X) + " " + num(-point.Y) + "h0"}))
	}
	children = append(children, cornerNames(o.Plan.Job().Room)...)
	// The line that is typed in, and the mark that is shown: filled in by the page.
	children = append(children, svg("path", attrs{"class", "line-now", "id", "overlay-line"}),
		svg("path", attrs{"class", "line-now", "id", "overlay-now"}))
	return svg("svg", attrs{"class", "overlay", "id", "overlay", "aria-hidden", "true"}, children...)
}

// doors draws the doorways as openings in their walls.
func doors(job floor.Job) string {
	var b strings.Builder
	for _, d := range job.Doors {
		from, to := plane.Ring(job.Room).Edge(d.Wall)
		along := to.Sub(from)
		along = along.Times(1 / along.Length())
		p, q := from.Add(along.Times(float64(d.At))), from.Add(along.Times(float64(d.At+d.Width)))
		b.WriteString("M" + num(p.X) + " " + num(-p.Y) + "L" + num(q.X) + " " + num(-q.Y))
	}
	return b.String()
}

// LinePath draws the line between two corners of the room, named by their
// letters, or nothing.
func LinePath(p *floor.Plan, name string) string {
	room := p.Job().Room
	for i := range room {
		rest, ok := strings.CutPrefix(name, floor.CornerName(i))
		for j := range room {
			if ok && rest == floor.CornerName(j) {
				return path([]plane.Ring{{room[i], room[j]}})
			}
		}
	}
	return ""
}

// mostNames is how many corners are lettered; those of a round wall are not.
const mostNames = 40

// cornerNames letters the corners, outside the room and off both walls.
func cornerNames(outline plane.Ring) (names []vecty.MarkupOrChild) {
	if len(outline) > mostNames {
		return nil
	}
	outward := 1.0
	if outline.Area() < 0 {
		outward = -1
	}
	for i, p := range outline {
		before, _ := outline.Edge(i - 1)
		_, after := outline.Edge(i)
		in, out := p.Sub(before), after.Sub(p)
		in, out = in.Times(1/in.Length()), out.Times(1/out.Length())
		off := plane.Point{X: in.Y + out.Y, Y: -in.X - out.X}.Times(outward)
		if l := off.Length(); l > 0 {
			off = off.Times(1.1 / l)
		}
		names = append(names, svg("text", attrs{
			"class", "corner-name", "x", num(p.X), "y", num(-p.Y), "dx", num(off.X) + "em", "dy", num(0.35-off.Y) + "em",
		}, vecty.Text(floor.CornerName(i))))
	}
	return names
}
