//go:build js && wasm

package main

import (
	"syscall/js"

	"keelrow/wasm/state"
)

// show is the picture alone.
type show struct{}

func (a *app) showStart() {}

func (a *app) showFollow(before, next state.State) {}

func (a *app) showDo(name, arg string, e js.Value) bool { return false }

func (a *app) showKey(key string) bool { return false }

func (a *app) showSlide(name, value string) {}
