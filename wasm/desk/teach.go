//go:build js && wasm

package main

import (
	"keelrow/wasm/tables"
	"keelrow/wasm/teach"
)

func init() {
	answers["lesson"] = func(o order) (string, string) {
		return teach.Answers(tables.Order{Plan: o.plan, View: o.view, Words: o.words}, o.rest), ""
	}
}
