//go:build js && wasm

package main

import (
	"strings"

	"keelrow/engine/files"
	"keelrow/wasm/paper"
)

func init() {
	answers["sheets"] = sheets
	answers["file"] = file
}

// sheets sets sheets of paper: rest is their names with commas between, the
// paper, where the page is, and the date.
func sheets(o order) (text, problem string) {
	part := strings.SplitN(o.rest, " ", 4)
	return paper.HTML(paper.Order{
		Plan: o.plan, View: o.view, Words: o.words,
		Which: strings.Split(part[0], ","), Paper: paper.PaperOf(part[1]),
		Address: part[2] + "#" + o.address, Date: part[3],
	}), ""
}

// file writes a file: rest is its kind.
func file(o order) (text, problem string) {
	data, _ := files.Write(o.plan, o.rest, files.Options{
		Link: o.address, Sliver: o.view.Sliver, Same: o.view.Same, Marking: o.view.Marking})
	return string(data), ""
}
