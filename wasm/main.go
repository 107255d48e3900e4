//go:build js && wasm

// Command wasm is the page: it opens the link in the address bar, shows its
// floor and does what a person asks of it.
package main

import (
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/engine/link"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
	"keelrow/wasm/words"
)

// app is the running page: the state with what shows it.
type app struct {
	page     *view.Page
	document js.Value
	location js.Value
	floor    *floorView
	desk     desk
	laying   laying
	jobs     jobs
	site     siteMode
	lesson   lesson
	show     show
	last     string // the input typed in last, while it is the same change
}

func main() {
	a := &app{document: js.Global().Get("document"), location: js.Global().Get("location")}
	text, opened := a.link(), true
	if text == "" {
		text, opened = "#"+link.Demo, false
	}
	s := state.Open(text)
	a.page = &view.Page{State: s, Words: words.In(s.View.Lang)}
	if err := vecty.RenderInto("#app", a.page); err != nil {
		// Nothing can be shown without the page: the script says so.
		panic(err)
	}
	a.document.Get("documentElement").Call("setAttribute", "lang", a.page.Words.Lang)
	if !opened || a.location.Get("search").String() != "" {
		a.address(state.Replace)
	}
	a.desk.app = a
	a.floor = newFloorView(a)
	if a.page.Painter != "" {
		vecty.Rerender(a.page) // it could not be known before there was a canvas
	}
	a.listen()
	a.floor.show(s.Plan)
	a.live()
	a.faceStart()
	js.Global().Call("keelrowReady")
	select {}
}

// link returns the link in the address bar: the fragment, or the query.
func (a *app) link() string {
	if hash := a.location.Get("hash").String(); len(hash) > 1 {
		return hash
	}
	if query := a.location.Get("search").String(); len(query) > 1 {
		return query
	}
	return ""
}

// element returns the element with an id, and whether the page has it now.
func (a *app) element(id string) (e js.Value, ok bool) {
	e = a.document.Call("getElementById", id)
	return e, !e.IsNull()
}

// do is the only place that changes the state.
func (a *app) do(action state.Action) {
	before := a.page.State
	defer func() {
		if p := recover(); p != nil {
			a.page.State, _ = before.Do(state.Fail{What: said(p)})
			vecty.Rerender(a.page)
		}
	}()
	next, step := before.Do(action)
	a.page.State = next
	a.address(step)
	a.shelved(&before, &next)
	a.laying.follow(before, next)
	a.faceFollow(before, next)
	if next.Plan != before.Plan || next.View.Stage != before.View.Stage {
		a.hideMark()
	}
	if next.Plan != before.Plan {
		a.floor.show(next.Plan)
	}
	if next.View.Paint != before.View.Paint {
		a.floor.repaint()
	}
	if _, passing := action.(state.Advance); !passing || next.Playing != before.Playing || next.RowsFrom() != before.RowsFrom() {
		vecty.Rerender(a.page)
	}
	a.floor.wake()
}

// said returns what a panic says.
func said(p any) string {
	switch p := p.(type) {
	case error:
		return p.Error()
	case string:
		return p
	}
	return "?"
}

// address puts the state's link into the address bar. A query gives way to
// the fragment.
func (a *app) address(step state.Step) {
	if step == state.Stay {
		return
	}
	method := "replaceState"
	if step == state.Push {
		method = "pushState"
	}
	url := a.location.Get("pathname").String() + "#" + a.page.State.Address()
	js.Global().Get("history").Call(method, a.jobs.entry(), "", url)
}
