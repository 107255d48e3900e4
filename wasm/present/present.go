// Package present writes what is shown and handed to a client, as HTML: the
// controls over the picture, a sheet to print, and the link as a code that a
// camera reads. The controls have no numbers and no words of the trade; the
// sheet has the sizes and no prices.
//
// Nothing here knows about a browser.
package present

import (
	"math"
	"strconv"
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/engine/plane"
	"keelrow/wasm/look"
	"keelrow/wasm/markup"
)

// Order is what is to be written about which floor.
type Order struct {
	Plan  *floor.Plan
	View  link.View
	Link  string // its text
	Texts *Texts
	Home  string // address of the page
	Date  string // as it is written on the sheet
}

// html collects what is written.
type html struct{ strings.Builder }

func (h *html) put(parts ...string) {
	for _, p := range parts {
		h.WriteString(p)
	}
}

// button is a control: what it does, to what, and what is written on it.
func (h *html) button(do, arg, class, inner string) {
	h.put(`<button type="button" class="`, class, `" data-do="`, do, `" data-arg="`, markup.Escape(arg), `">`, inner, `</button>`)
}

func (h *html) say(class, text string) { h.put(`<p class="`, class, `">`, text, `</p>`) }

// group is controls with a name over them.
func (h *html) group(name, class string, write func()) {
	h.put(`<div class="show-group `, class, `" role="group" aria-label="`, name, `"><span class="show-name">`, name, `</span><div>`)
	write()
	h.put(`</div></div>`)
}

// Panel writes the controls of one subject: wood, light, view, compare or
// away.
func Panel(o Order, subject string) string {
	h := &html{}
	t := o.Texts
	switch subject {
	case "wood":
		h.wood(o)
	case "light":
		h.light(o)
	case "view":
		h.group(t.From, "", func() {
			h.button("dress", "view=plan", "", t.Above)
			h.button("dress", "view=standing", "", t.In)
		})
		h.group(t.Pattern, "", func() {
			h.button("show", "turn", "", t.Turn)
			h.button("show", "whole", "", t.Whole)
		})
		h.say("hint full-only", t.ViewHint)
		h.say("hint flat-only", t.Flat)
	case "compare":
		h.compare(o)
	case "away":
		h.group(t.Picture, "", func() {
			h.button("show", "picture", "", t.AsSeen)
			h.button("show", "large", "", t.Large)
			h.button("show", "video", "", t.Video)
			h.button("show", "sheet", "", t.Sheet)
			h.button("show", "share", "", t.Share)
		})
		h.group(t.Link, "show-link", func() {
			h.button("show", "link", "", t.Copy)
			h.put(`<div id="show-code" class="show-code" aria-busy="true"></div>`)
		})
	}
	return h.String()
}

// bordered says whether the floor has a border.
func bordered(job floor.Job) bool {
	return job.Border > 0 || len(job.BorderAt) > 0
}

func (h *html) wood(o Order) {
	t := o.Texts
	choices := func(key string, values []string, names map[string]string) func() {
		return func() {
			for _, v := range values {
				h.button("dress", key+"="+v, "", names[v])
			}
		}
	}
	h.group(t.Wood, "show-swatches", func() {
		for _, w := range link.Woods {
			h.button("dress", "wood="+w, "wood-swatch", swatch(w, false)+t.Woods[w])
		}
	})
	h.group(t.Grade, "", choices("grade", []string{"calm", "mixed", "lively"}, t.Grades))
	h.group(t.Tone, "", choices("tone", look.Tones, t.Tones))
	h.group(t.Finish, "", choices("finish", []string{"raw", "oiled", "lacquered"}, t.Finishes))
	h.group(t.Edge, "", choices("edge", look.Edges, t.Edges))
	h.group(t.Joint, "", choices("joint", look.Joints, t.Joints))
	if bordered(o.Plan.Job()) {
		h.group(t.Border, "show-swatches", func() {
			h.button("dress", "borderwood=same", "", t.Same)
			for _, w := range link.Woods {
				h.button("dress", "borderwood="+w, "wood-swatch", swatch(w, true)+t.Woods[w])
			}
		})
	}
	h.say("hint", t.Sample)
}

// slider is a control that is moved between two ends.
func (h *html) slider(name, label, low, high string, least, most, step float64) {
	n := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	h.put(`<label class="show-slide"><span class="show-name">`, label, `</span><span>`, low, `</span><input type="range" data-slide="`, name,
		`" min="`, n(least), `" max="`, n(most), `" step="`, n(step), `"><span>`, high, `</span></label>`)
}

func (h *html) light(o Order) {
	t := o.Texts
	h.group(t.LightFrom, "", func() {
		h.button("dress", "light=sun:305,32", "", t.Sun)
		h.button("dress", "light=day:10", "", t.Day)
		h.button("dress", "light=lamp", "", t.Lamp)
	})
	h.group(t.Window, "", func() { h.windows(o) })
	h.slider("hour", t.Hour, t.Morning, t.Evening, look.Sunrise, look.Sunset, 0.1)
	h.button("show", "day", "show-day", t.PlayDay)
	h.slider("direction", t.Round, "", "", 0, 360, 1)
	h.slider("height", t.Height, t.Low, t.High, 4, 80, 1)
	h.say("hint flat-only", t.Flat)
}

// windows offers the windows of the room, and one in each side that has none.
func (h *html) windows(o Order) {
	t := o.Texts
	job := o.Plan.Job()
	room := plane.Ring(job.Room)
	outward := 1.0
	if room.Area() < 0 {
		outward = -1
	}
	used := map[int]bool{}
	name := func(wall int) string {
		from, to := room.Edge(wall)
		d := to.Sub(from).Times(outward)
		switch out := (plane.Point{X: d.Y, Y: -d.X}); {
		case math.Abs(out.X) > math.Abs(out.Y) && out.X > 0:
			return t.Right
		case math.Abs(out.X) > math.Abs(out.Y):
			return t.Left
		case out.Y > 0:
			return t.Ahead
		}
		return t.Behind
	}
	sides := map[string]bool{}
	for i, w := range job.Windows {
		side := name(w.Wall)
		label := side
		if w.Name != "" {
			label = markup.Escape(w.Name)
		} else if sides[side] {
			label = t.Further
		}
		used[w.Wall], sides[side] = true, true
		h.button("dress", "light=window:"+strconv.Itoa(i+1), "", label)
	}
	for _, side := range []string{t.Left, t.Ahead, t.Right, t.Behind} {
		best, most := -1, 500.0 // mm; a shorter wall has no window
		for i := range room {
			from, to := room.Edge(i)
			if long := to.Sub(from).Length(); name(i) == side && long > most {
				best, most = i, long
			}
		}
		if best >= 0 && !sides[side] {
			h.button("light-window", floor.WallName(best, len(room)), "", side)
		}
	}
}

func (h *html) compare(o Order) {
	t := o.Texts
	job := o.Plan.Job()
	size := func(wide, long float64) string {
		n := func(v float64) string { return strconv.FormatFloat(5*math.Round(v/5), 'f', -1, 64) + "mm" }
		return n(wide) + "x" + n(long)
	}
	w, l := float64(job.Width), float64(job.Length)
	beside := func(arg, label string) { h.button("beside", arg, "", label) }
	h.group(t.OtherSize, "", func() {
		beside("block="+size(max(40, 0.7*w), max(160, 0.7*l)), t.Smaller)
		beside("block="+size(1.4*w, 1.4*l), t.Larger)
		beside("block="+size(w, 1.5*l), t.Longer)
	})
	h.group(t.OtherPattern, "", func() {
		if job.Pattern == floor.Chevron {
			beside("pattern", t.Herringbone)
			beside("mitre=60", t.Steeper)
			beside("mitre=35", t.Flatter)
		} else {
			beside("pattern=chevron", t.Chevron)
			if job.Strands == 1 {
				beside("strands=2", t.Double)
			} else {
				beside("strands", t.Single)
			}
		}
		axis := math.Mod(job.Axis+90, 360)
		if axis > 180 {
			axis -= 360
		}
		turned := "axis=" + strconv.FormatFloat(axis, 'f', -1, 64)
		if job.Line.From != floor.LineTyped {
			mm := func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) + "mm" }
			turned += "&line&centre=" + mm(job.Centre.X) + "," + mm(job.Centre.Y)
		}
		beside(turned, t.Turned)
		if bordered(job) {
			beside("border", t.NoBorder)
		} else {
			beside("border=110mm", t.WithBorder)
		}
	})
	h.group(t.OtherWood, "show-swatches", func() {
		for _, w := range link.Woods {
			h.button("beside", "wood="+w, "wood-swatch", swatch(w, false)+t.Woods[w])
		}
	})
	h.group(t.Then, "show-then", func() {
		h.button("show", "change-places", "", t.ChangePlaces)
		h.button("show", "take-beside", "", t.TakeOther)
		h.button("show", "alone", "", t.Alone)
	})
	h.say("hint", t.CompareHint)
}
