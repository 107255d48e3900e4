package view

import (
	"math"
	"strconv"
	"strings"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/prop"

	"keelrow/engine/floor"
	"keelrow/wasm/words"
)

// Ruler is where the rows stand on the row ruler: a cell for each strand,
// from left to right as on the floor, the spine in the middle; what is laid
// forward from the start above, infill below. Widths are shares of one.
type Ruler struct {
	First, Last int // strands
	Cells       []Cell
}

// Cell is one row's place on the ruler.
type Cell struct {
	Row        floor.Row
	Left, Wide float64
	Outward    int // the way the row's blocks run along the cell: -1 to the left
}

// NewRuler lays out the ruler of the rows.
func NewRuler(rows []floor.Row) Ruler {
	r := Ruler{First: math.MaxInt, Last: math.MinInt}
	for _, row := range rows {
		for _, k := range row.Strands {
			r.First, r.Last = min(r.First, k), max(r.Last, k)
		}
	}
	width := 1 / float64(max(1, r.Last-r.First+1))
	for _, row := range rows {
		c := Cell{Row: row, Outward: 1, Wide: width * float64(len(row.Strands))}
		c.Left = float64(row.Strands[0]-r.First) * width
		if len(row.Strands) == 1 && row.Strands[0] < 0 {
			c.Outward = -1
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// Laid returns how many blocks are laid when the ruler is touched at x, a
// share of its width, above or below its middle. It reports false where no
// row stands.
func (r Ruler) Laid(x float64, below bool) (float64, bool) {
	for _, c := range r.Cells {
		if (c.Row.Stage == floor.Infill) != below || x < c.Left || x > c.Left+c.Wide {
			continue
		}
		share := (x - c.Left) / c.Wide
		if c.Outward < 0 {
			share = 1 - share
		}
		return float64(c.Row.First) + math.Round(share*float64(c.Row.Blocks())), true
	}
	return 0, false
}

// Measures of the drawing: it is stretched to the ruler's width.
const (
	rulerWide = 1000.0
	rulerHigh = 40.0
)

// box writes a part of a cell as a path.
func (c Cell) box(share float64) string {
	top, x, wide := 3.0, c.Left*rulerWide, c.Wide*rulerWide*share
	if c.Row.Stage == floor.Infill {
		top = 23
	}
	if c.Outward < 0 {
		x += c.Wide*rulerWide - wide
	}
	return "M" + num(x) + " " + num(top) + "h" + num(wide) + "v14h" + num(-wide) + "z"
}

// Fill returns the drawing of what is laid: whole rows, and the row begun.
func (r Ruler) Fill(laid float64) (rows, now string) {
	var b strings.Builder
	for _, c := range r.Cells {
		first, blocks := float64(c.Row.First), float64(c.Row.Blocks())
		switch {
		case laid >= first+blocks:
			b.WriteString(c.box(1))
		case laid > first:
			now = c.box((laid - first) / blocks)
		}
	}
	return b.String(), now
}

// ruler is the drawing: ticks for the rows, and two paths that the page fills
// as the laying goes on.
type ruler struct {
	vecty.Core
	Plan  *floor.Plan      `vecty:"prop"`
	Rows  []floor.Row      `vecty:"prop"`
	Words *words.Catalogue `vecty:"prop"`
}

// SkipRender skips while the rows are the same.
func (r *ruler) SkipRender(prev vecty.Component) bool {
	before := prev.(*ruler)
	return before.Plan == r.Plan && before.Words == r.Words
}

func (r *ruler) Render() vecty.ComponentOrHTML {
	layout := NewRuler(r.Rows)
	var ticks, cells strings.Builder
	for _, c := range layout.Cells {
		x := num(c.Left * rulerWide)
		y, h := "0", "20"
		if c.Row.Stage == floor.Infill {
			y = "20"
		}
		ticks.WriteString("M" + x + " " + y + "v" + h)
		cells.WriteString(c.box(1))
	}
	spine := ""
	for _, c := range layout.Cells {
		if c.Row.Stage == floor.Spine {
			spine = "M" + num((c.Left+c.Wide/2)*rulerWide) + " 0v" + num(rulerHigh)
		}
	}
	return div("ruler-box",
		vecty.Markup(prop.ID("ruler"), vecty.Attribute("role", "slider"), vecty.Attribute("tabindex", "0"),
			vecty.Attribute("aria-label", r.Words.RulerLabel), vecty.Attribute("aria-valuemin", "0"),
			vecty.Attribute("aria-valuemax", strconv.Itoa(len(r.Rows)))),
		svg("svg", attrs{"class", "ruler-scale", "viewBox", "0 0 " + num(rulerWide) + " " + num(rulerHigh),
			"preserveAspectRatio", "none", "aria-hidden", "true"},
			svg("path", attrs{"class", "cells", "d", cells.String()}),
			svg("path", attrs{"class", "laid", "id", "ruler-laid"}),
			svg("path", attrs{"class", "now", "id", "ruler-now"}),
			svg("path", attrs{"class", "ticks", "d", ticks.String()}),
			svg("path", attrs{"class", "spine", "d", spine})))
}
