//go:build js && wasm

package main

import (
	"strings"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/state"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

// order is a question about the floor of a link.
type order struct {
	plan    *floor.Plan
	view    link.View
	words   *words.Catalogue
	address string // the link's text
	rest    string // what stands behind the first space of the question
}

// answers says who answers what: the first word of a question.
var answers = map[string]func(o order) (text, problem string){
	"report": func(o order) (string, string) { return tables.Report(o.plan, o.words), "" },
}

// work answers a question: its first word names what is wanted, the rest how.
func work(text, what string) (answer, problem string) {
	// The page's own way of opening a link: what cannot be used takes its
	// default here as there.
	s := state.Open("#" + text)
	name, rest, _ := strings.Cut(what, " ")
	find, ok := answers[name]
	if !ok {
		return "", "The desk does not know “" + name + "”."
	}
	return find(order{s.Plan, s.View, words.In(s.View.Lang), text, rest})
}
