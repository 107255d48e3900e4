//go:build js && wasm

package main

import (
	"strconv"
	"strings"

	"keelrow/wasm/onsite"
	"keelrow/wasm/tables"
)

func init() { answers["onsite"] = site }

// site answers with one mark or row: rest is marks or rows, its number from
// 0, and all if every one is done.
func site(o order) (text, problem string) {
	part := append(strings.Split(o.rest, " "), "", "")
	at, _ := strconv.Atoi(part[1])
	one := onsite.Mark
	if part[0] == "rows" {
		one = onsite.Row
	}
	return one(tables.Order{Plan: o.plan, View: o.view, Words: o.words}, at, part[2] == "all"), ""
}
