//go:build js && wasm

package main

import (
	"strings"

	"keelrow/wasm/present"
)

func init() {
	answers["show"] = func(o order) (string, string) { return present.Panel(presented(o), o.rest), "" }
	answers["code"] = func(o order) (string, string) {
		return present.Code(o.rest+"#"+o.address, present.In(o.view.Lang)), ""
	}
	answers["client"] = client
}

func presented(o order) present.Order {
	return present.Order{Plan: o.plan, View: o.view, Link: o.address, Texts: present.In(o.view.Lang)}
}

// client sets the client's sheet: rest is where the page is and the date.
func client(o order) (text, problem string) {
	p := presented(o)
	p.Home, p.Date, _ = strings.Cut(o.rest, " ")
	return present.Sheet(p), ""
}
