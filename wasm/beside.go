//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/paint"
	"keelrow/wasm/scene"
)

// other is the second floor, beside the first.
type other struct {
	text    string // its link, or "" for none
	job     string // what of it is laid out
	looks   link.Looks
	scene   *scene.Scene
	painter paint.Painter
	shell   *scene.Shell // that the painter has
	builds  int
	at      float64 // where the two meet, as a part of the picture's width
}

// besideFollow takes note of which floor is beside the first, if any.
func (a *app) besideFollow() {
	o := &a.show.other
	l, there := a.page.State.Link.Beside()
	if !there || !a.showing() {
		o.text, o.job = "", ""
		o.builds++ // what is being built is not wanted
		o.scene = nil
		if o.painter != nil {
			o.painter.Release()
			o.painter, o.shell = nil, nil
			if place, ok := a.element("beside"); ok {
				place.Call("replaceChildren")
			}
		}
		a.page.Show.Divided = false
		return
	}
	text := l.String()
	if text == o.text {
		return
	}
	o.text = text
	view, _ := l.View()
	o.looks = view.Looks
	job, _ := l.Job()
	written := link.FromJob(job).String()
	if written == o.job && o.scene != nil {
		return // only the looks differ
	}
	o.job = written
	o.builds++
	go a.besideBuild(job, o.builds)
}

// slice is how long the second floor is worked on at a time, in ms, so that
// frames of the first come between.
const slice = 7

// besideBuild lays the second floor out, a little at a time.
func (a *app) besideBuild(job floor.Job, build int) {
	o := &a.show.other
	defer func() {
		if p := recover(); p != nil {
			a.besideFailed(build)
		}
	}()
	performance := js.Global().Get("performance")
	now := func() float64 { return performance.Call("now").Float() }
	begun := now()
	rest := func() {
		if now()-begun > slice {
			waited := make(chan struct{})
			later(0, func() { close(waited) })
			<-waited
			begun = now()
		}
	}
	plan, err := floor.New(job)
	if err != nil {
		a.besideFailed(build)
		return
	}
	for k, last := plan.Span(); k <= last; k++ {
		plan.Strand(k)
		if rest(); o.builds != build {
			return
		}
	}
	made := scene.Slowly(plan, nil, rest)
	if o.builds != build {
		return
	}
	o.scene = made
	if o.painter == nil {
		place, _ := a.element("beside")
		canvas := a.document.Call("createElement", "canvas")
		place.Call("replaceChildren", canvas)
		force := paint.Canvas
		if a.floor.painter != nil && a.floor.painter.Stands() {
			force = paint.WebGL
		}
		if o.painter, err = paint.New(canvas, paint.Options{Force: force, Wake: a.floor.wake}); err != nil {
			o.painter = nil
			a.besideFailed(build)
			return
		}
	}
	o.painter.Show(made)
	a.page.Show.Divided = true
	vecty.Rerender(a.page)
	a.floor.wake()
}

func (a *app) besideFailed(build int) {
	if o := &a.show.other; o.builds == build {
		o.job = ""
		a.page.Show.Divided = false
		a.say(a.page.Words.Show.BesideFails)
	}
}

// besideFrame draws the second floor as the first is seen.
func (a *app) besideFrame(v scene.View) bool {
	o := &a.show.other
	if o.painter == nil || o.scene == nil {
		return false
	}
	if shell := a.shelled(); o.shell != shell {
		o.shell = shell
		o.painter.Surround(shell)
	}
	return o.painter.Frame(a.besideView(v))
}

// besideView returns the view of the second floor that goes with one of the
// first.
func (a *app) besideView(v scene.View) scene.View {
	o := &a.show.other
	v.Look = lookOf(o.looks)
	v.Laid *= float64(o.scene.Orders) / max(1, float64(a.floor.scene.Orders))
	return v
}

// divide puts the line between the two floors at a part of the width.
func (a *app) divide(at float64) {
	o := &a.show.other
	o.at = min(0.97, max(0.03, at))
	percent := strconv.FormatFloat(100*o.at, 'f', 1, 64)
	if e, ok := a.element("app"); ok {
		e.Get("style").Call("setProperty", "--divide", percent+"%")
	}
	if e, ok := a.element("show-divider"); ok {
		e.Call("setAttribute", "aria-valuenow", strconv.Itoa(int(100*o.at+0.5)))
	}
}
