//go:build js && wasm

package main

import (
	"math"
	"strconv"
	"syscall/js"

	"keelrow/engine/floor"
	"keelrow/engine/plane"
	"keelrow/wasm/look"
	"keelrow/wasm/paint"
	"keelrow/wasm/scene"
	"keelrow/wasm/state"
)

// floorView is the picture of the floor: the painter with its canvas, the
// lines over it, and where the person has moved it.
type floorView struct {
	app     *app
	box     js.Value
	painter paint.Painter
	scene   *scene.Scene
	spare   *scene.Scene

	wide, high float64 // of the box in CSS pixels
	ratio      float64 // device pixels for each of them
	centre     plane.Point
	scale      float64 // CSS pixels for each mm
	fitted     bool    // the room is fitted and stays so when the box changes

	frame   js.Func
	asked   bool
	time    float64 // of the last frame in ms, 0 after a pause
	viewBox string
	paper   look.Colour
}

// What is left round a fitted room, in CSS pixels: all round for its corners'
// letters, and below for the buttons.
const (
	margin = 30
	foot   = 74
)

func newFloorView(a *app) *floorView {
	f := &floorView{app: a, fitted: true, scale: 0.1, ratio: 1}
	f.box, _ = a.element("floor")
	f.frame = js.FuncOf(func(_ js.Value, args []js.Value) any {
		f.asked = false
		f.draw(args[0].Float())
		return nil
	})
	observer := js.Global().Get("ResizeObserver").New(js.FuncOf(func(js.Value, []js.Value) any {
		f.resize()
		return nil
	}))
	observer.Call("observe", f.box)
	f.readTheme()
	f.size()
	f.makePainter()
	return f
}

// size reads the box's size.
func (f *floorView) size() {
	f.wide, f.high = f.box.Get("clientWidth").Float(), f.box.Get("clientHeight").Float()
	f.ratio = min(2, max(1, js.Global().Get("devicePixelRatio").Float()))
}

func (f *floorView) resize() {
	f.size()
	if f.fitted {
		f.fit()
	}
	f.wake()
}

// makePainter puts a fresh canvas into its place: one that has been drawn on
// cannot change its kind.
func (f *floorView) makePainter() {
	if f.painter != nil {
		f.painter.Release()
		f.painter = nil
	}
	place, _ := f.app.element("painting")
	force := map[string]paint.Force{"webgl": paint.WebGL, "canvas": paint.Canvas}[f.app.page.State.View.Paint]
	f.app.page.Painter = ""
	try := func(force paint.Force) bool {
		canvas := f.app.document.Call("createElement", "canvas")
		place.Call("replaceChildren", canvas)
		painter, err := paint.New(canvas, paint.Options{Force: force, Wake: f.wake})
		if err == nil {
			f.painter = painter
		}
		return err == nil
	}
	switch {
	case try(force):
	case try(paint.Canvas):
	default:
		f.app.page.Painter = f.app.page.Words.NoPainter
		return
	}
	name := "webgl"
	if !f.painter.Stands() {
		name = "canvas"
		if force != paint.Canvas {
			f.app.page.Painter = f.app.page.Words.PainterNote
		}
	}
	f.box.Call("setAttribute", "data-painter", name)
}

// repaint changes the painter to what the link asks for.
func (f *floorView) repaint() {
	f.makePainter()
	if f.painter != nil && f.scene != nil {
		f.painter.Show(f.scene)
	}
}

// show builds the scene of a plan.
func (f *floorView) show(p *floor.Plan) {
	old := f.scene
	f.scene = scene.Of(p, f.spare)
	f.spare = nil
	if f.painter != nil {
		f.painter.Show(f.scene)
	}
	f.spare = old
	if f.fitted {
		f.fit()
	}
	f.app.laying.shown = math.Inf(1)
	f.wake()
}

// fit shows the whole room.
func (f *floorView) fit() {
	f.fitted = true
	below := float64(foot)
	switch {
	case f.app.onSite():
		below = margin // no buttons lie there
	case f.app.showing():
		below = f.app.showFoot()
	}
	low, high := f.app.page.State.Plan.Room()[0].Box()
	size := high.Sub(low)
	f.scale = max(1e-4, min((f.wide-2*margin)/size.X, (f.high-margin-below)/size.Y))
	f.centre = low.Add(high).Times(0.5).Sub(plane.Point{Y: (below - margin) / 2 / f.scale})
	f.wake()
}

// zoom makes the picture larger or smaller about a point of the box.
func (f *floorView) zoom(by, x, y float64) {
	if f.app.showZoom(by) {
		return
	}
	at := f.room(x, y)
	f.fitted = false
	f.scale = min(20, max(1e-4, f.scale*by))
	f.centre = f.centre.Add(at.Sub(f.room(x, y)))
	f.wake()
}

// pan moves the picture by CSS pixels.
func (f *floorView) pan(dx, dy float64) {
	if f.app.showPan(dx, dy) {
		return
	}
	f.fitted = false
	f.centre = f.centre.Add(plane.Point{X: -dx / f.scale, Y: dy / f.scale})
	f.wake()
}

// room returns the point of the room under a point of the box.
func (f *floorView) room(x, y float64) plane.Point {
	return f.centre.Add(plane.Point{X: (x - f.wide/2) / f.scale, Y: (f.high/2 - y) / f.scale})
}

// wake asks for a frame. Nothing is drawn while nothing changes.
func (f *floorView) wake() {
	if !f.asked {
		f.asked = true
		js.Global().Call("requestAnimationFrame", f.frame)
	}
}

// draw draws one frame.
func (f *floorView) draw(now float64) {
	seconds := 0.0
	if f.time > 0 {
		seconds = min(0.1, (now-f.time)/1000)
	}
	f.time = now
	a := f.app
	if a.page.State.Playing {
		a.do(state.Advance{Seconds: seconds * a.pace()})
	}
	s := &a.page.State
	laid, landing, more := a.laying.frame(s, seconds, float64(f.scene.Orders))
	if f.painter != nil && f.wide > 0 && f.high > 0 {
		more = a.showMove(seconds) || more
		v := f.view(laid, landing)
		more = f.painter.Frame(v) || more
		more = a.showFrame(v) || more
	}
	f.overlay()
	a.live()
	if !s.Playing || s.RowsFrom() != a.desk.leaf {
		a.desk.changed()
	}
	if more {
		f.wake()
	} else if !f.asked {
		f.time = 0
	}
}

// view returns how the floor is looked at now.
func (f *floorView) view(laid, landing float64) scene.View {
	v := scene.View{
		Centre: f.centre, Scale: f.scale * f.ratio,
		Width: int(math.Round(f.wide * f.ratio)), Height: int(math.Round(f.high * f.ratio)),
		Laid: laid, Landing: landing, Paper: f.paper,
	}
	f.app.dressed(&v)
	return v
}

// overlay moves the lines to where the painter has the floor.
func (f *floorView) overlay() {
	n := func(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }
	w, h := f.wide/f.scale, f.high/f.scale
	box := n(f.centre.X-w/2) + " " + n(-f.centre.Y-h/2) + " " + n(w) + " " + n(h)
	if box == f.viewBox {
		return
	}
	svg, ok := f.app.element("overlay")
	if !ok {
		return
	}
	f.viewBox = box
	svg.Call("setAttribute", "viewBox", box)
	svg.Get("style").Call("setProperty", "--mm", n(1/f.scale))
}

// readTheme takes the paper's colour from the style sheet.
func (f *floorView) readTheme() {
	f.paper = 0xf7f3eb
	style := js.Global().Call("getComputedStyle", f.app.document.Get("documentElement"))
	text := style.Call("getPropertyValue", "--sheet").String()
	for len(text) > 0 && (text[0] == ' ' || text[0] == '#') {
		text = text[1:]
	}
	if v, err := strconv.ParseUint(text, 16, 24); err == nil && len(text) == 6 {
		f.paper = look.Colour(v)
	}
}
