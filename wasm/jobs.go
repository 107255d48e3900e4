//go:build js && wasm

package main

import (
	"syscall/js"

	"keelrow/wasm/state"
)

// jobs is the jobs kept on this device.
type jobs struct{}

func (a *app) jobsStart() {}

func (a *app) jobsFollow(before, next state.State) {}

func (a *app) jobsDo(name, arg string, e js.Value) bool { return false }
