//go:build js && wasm

package main

import (
	"syscall/js"

	"keelrow/wasm/state"
)

// siteMode is one mark or row at a time, to be read from a distance.
type siteMode struct{}

func (a *app) siteStart() {}

func (a *app) siteFollow(before, next state.State) {}

func (a *app) siteDo(name, arg string, e js.Value) bool { return false }

func (a *app) siteKey(key string) bool { return false }

func (a *app) siteFilled(id string) {}
