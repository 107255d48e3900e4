package teach

import (
	"math"
	"strconv"
	"strings"

	"keelrow/engine/pattern"
	"keelrow/engine/plane"
	"keelrow/wasm/markup"
)

// picture is a working, drawn: y downward, in units of the drawing.
type picture struct {
	body       strings.Builder
	wide, high float64
}

// line draws points one after the other.
func (d *picture) line(class string, closed bool, points ...plane.Point) {
	d.body.WriteString("<path" + markup.Attr("class", class) + markup.Attr("d", markup.Path(points, closed)) + "/>")
}

// text writes with its beginning, middle or end at a point.
func (d *picture) text(class, anchor string, at plane.Point, s string) {
	d.body.WriteString("<text" + markup.Attr("class", class) + markup.Attr("text-anchor", anchor) + markup.Attr("x", markup.Num(at.X)) + markup.Attr("y", markup.Num(at.Y)) + ">" + markup.Escape(s) + "</text>")
}

// html returns the drawing; says is what it shows, for those who cannot see it.
func (d *picture) html(says string) string {
	return `<svg class="lesson-draw" viewBox="0 0 ` + markup.Num(d.wide) + " " + markup.Num(d.high) + `" role="img"` + markup.Attr("aria-label", says) + ">" + d.body.String() + "</svg>"
}

// Room left round a drawing for what is written beside it.
const beside, over, under = 96.0, 26.0, 30.0

// triangle draws a right-angled triangle to its own proportions. The labels
// are those of its base, its rise and its slope, and result says which of the
// three is looked for.
func triangle(base, rise float64, labels [3]string, result int, says string) string {
	k := min(200/base, 130/rise)
	b, r := base*k, rise*k
	right := plane.Point{X: beside, Y: over + r}
	top, end := right.Add(plane.Point{Y: -r}), right.Add(plane.Point{X: b})
	d := picture{wide: beside + b + beside, high: over + r + under}
	square := min(12, r/3, b/3)
	d.line("thin", false, right.Add(plane.Point{Y: -square}), right.Add(plane.Point{X: square, Y: -square}), right.Add(plane.Point{X: square}))
	middle := func(p, q plane.Point) plane.Point { return p.Add(q).Times(0.5) }
	sides := [3][2]plane.Point{{right, end}, {right, top}, {top, end}}
	anchors := [3]string{"middle", "end", "start"}
	off := [3]plane.Point{{Y: 22}, {X: -8, Y: 5}, {X: 10, Y: -6}}
	for i, s := range sides {
		class := "side"
		if i == result {
			class = "side result"
		}
		d.line(class, false, s[0], s[1])
		d.text(strings.Replace(class, "side", "label", 1), anchors[i], middle(s[0], s[1]).Add(off[i]), labels[i])
	}
	return d.html(says)
}

// square draws a square standing on its point, as it lies in the row, with
// its upright diagonal in quarters.
func square(side, diagonal, quarter, says string) string {
	const half = 84.0
	c := plane.Point{X: beside + half, Y: over + half}
	at := func(x, y float64) plane.Point { return c.Add(plane.Point{X: x * half, Y: y * half}) }
	d := picture{wide: 2 * (beside + half), high: 2*half + over + 12}
	d.line("side", true, at(0, -1), at(1, 0), at(0, 1), at(-1, 0))
	d.line("side result", false, at(0, -1), at(0, 1))
	d.line("thin", false, at(-1, 0), at(1, 0))
	for _, y := range []float64{-0.5, 0.5} {
		d.line("thin", false, at(-0.1, y), at(0.1, y))
	}
	d.line("side result", false, at(0, 0), at(0.5, 0))
	d.line("thin dashed", false, at(0.5, -0.9), at(0.5, 0.9))
	d.text("label", "start", at(0.56, 0.66), side)
	d.text("label", "end", at(-0.56, 0.66), side)
	d.text("label result", "end", at(-0.56, -0.6), diagonal)
	d.text("label result", "start", at(0.58, -0.66), quarter)
	return d.html(says)
}

// meeting draws the first blocks of a spine with the axis, and the angle that
// each leans by, in degrees.
func meeting(p pattern.Pattern, degrees float64, says string) string {
	var shapes [][]plane.Point
	var classes []string
	low, high := plane.Point{X: math.Inf(1), Y: math.Inf(1)}, plane.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i := range 3 {
		for k := -1; k <= 0; k++ {
			for _, c := range p.Columns(k) {
				var shape []plane.Point
				for _, q := range c.Block {
					q = plane.Point{X: q.X, Y: -q.Y - float64(i)*float64(p.Step())}
					low, high = plane.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}, plane.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
					shape = append(shape, q)
				}
				shapes = append(shapes, shape)
				class := "block"
				if c.Hand == pattern.RightHand {
					class = "block turned"
				}
				classes = append(classes, class)
			}
		}
	}
	size := high.Sub(low)
	scale := min(280/size.X, 170/size.Y)
	d := picture{wide: size.X*scale + 2*beside, high: size.Y*scale + over + 8}
	at := func(q plane.Point) plane.Point {
		return q.Sub(low).Times(scale).Add(plane.Point{X: beside, Y: over})
	}
	for i, shape := range shapes {
		for j := range shape {
			shape[j] = at(shape[j])
		}
		d.line(classes[i], true, shape...)
	}
	x := at(plane.Point{}).X
	d.line("axis", false, plane.Point{X: x, Y: 4}, plane.Point{X: x, Y: d.high - 4})
	angle := strconv.FormatFloat(degrees, 'f', -1, 64) + "°"
	d.text("label result", "end", plane.Point{X: x - 14, Y: 18}, angle)
	d.text("label result", "start", plane.Point{X: x + 14, Y: 18}, angle)
	return d.html(says)
}

// strip draws a block lying down with its width marked off along its length.
func strip(ratio float64, wide, long, says string) string {
	const length = 300.0
	w := length / max(ratio, 1)
	d := picture{wide: length + 2*beside, high: w + over + under}
	at := func(x, y float64) plane.Point { return plane.Point{X: beside + x, Y: over + y} }
	d.line("block", true, at(0, 0), at(length, 0), at(length, w), at(0, w))
	for x := w; x < length-0.5; x += w {
		d.line("thin", false, at(x, 0), at(x, w))
	}
	d.text("label", "end", at(-8, w/2+5), wide)
	d.text("label", "middle", at(length/2, w+22), long)
	return d.html(says)
}
