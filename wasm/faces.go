//go:build js && wasm

package main

import (
	"syscall/js"

	"keelrow/wasm/state"
)

// faceDo does what a control of a face or of the jobs does, and says whether
// it is one.
func (a *app) faceDo(name, arg string, e js.Value) bool {
	if name == "face" {
		a.do(state.Turn{Face: arg})
		return true
	}
	return a.jobsDo(name, arg, e) || a.siteDo(name, arg, e) || a.lessonDo(name, arg, e) || a.showDo(name, arg, e)
}

// faceSlide takes the value of a slider while it is moved.
func (a *app) faceSlide(name, value string) { a.showSlide(name, value) }

// faceKey does what a key means to the face that is open, and says whether it
// means anything.
func (a *app) faceKey(key string) bool {
	if panel := a.page.Show.Panel; key == "Escape" && a.page.State.View.Face == "show" && panel != "" {
		return a.showDo("show", panel, js.Undefined()) // shut, as by its own button
	}
	if key == "Escape" && a.page.State.View.Face != "work" && a.lesson.parent.IsUndefined() {
		a.do(state.Turn{Face: "work"})
		return true
	}
	switch a.page.State.View.Face {
	case "site":
		return a.siteKey(key)
	case "lesson":
		return a.lessonKey(key)
	case "show":
		return a.showKey(key)
	}
	return false
}

// faceStart is called once, when the page stands.
func (a *app) faceStart() {
	a.jobsStart()
	a.siteStart()
	a.lessonStart()
	a.showStart()
}

// faceFollow is called after every action.
func (a *app) faceFollow(before, next state.State) {
	a.jobsFollow(before, next)
	a.siteFollow(before, next)
	a.lessonFollow(before, next)
	a.showFollow(before, next)
}

// faceFilled is called when the desk has filled a box.
func (a *app) faceFilled(id string) {
	a.siteFilled(id)
	a.lessonFilled(id)
	a.showFilled(id)
}
