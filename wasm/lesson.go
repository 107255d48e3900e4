//go:build js && wasm

package main

import (
	"syscall/js"

	"keelrow/wasm/state"
)

// lesson is the lesson, and the page in another page.
type lesson struct{}

func (a *app) lessonStart() {}

func (a *app) lessonFollow(before, next state.State) {}

func (a *app) lessonDo(name, arg string, e js.Value) bool { return false }

func (a *app) lessonKey(key string) bool { return false }

func (a *app) lessonFilled(id string) {}
