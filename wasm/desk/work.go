//go:build js && wasm

package main

import (
	"strconv"
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
	"report":    func(o order) (string, string) { return tables.Report(o.plan, o.view.Repeat, o.words), "" },
	"marks":     table(tables.Marks),
	"trammel":   table(tables.Trammel),
	"leftovers": table(tables.Leftovers),
	"start":     table(tables.Start),
	"rows":      table(tables.Rows),
	"cuts":      table(tables.Cuts),
}

// table answers with a table: rest is the number of its first row, if not 0.
func table(write func(tables.Order) string) func(order) (text, problem string) {
	return func(o order) (string, string) {
		from, _ := strconv.Atoi(o.rest)
		return write(tables.Order{Plan: o.plan, View: o.view, Words: o.words, From: from, Leaf: state.Leaf}), ""
	}
}

// last is the floor that was asked about last: questions come several at a
// time, and a plan lays out each strand once.
var last struct {
	text  string
	state *state.State
}

// work answers a question: its first word names what is wanted, the rest how.
func work(text, what string) (answer, problem string) {
	if last.state == nil || last.text != text {
		// The page's own way of opening a link: what cannot be used takes its
		// default here as there.
		s := state.Open("#" + text)
		last.text, last.state = text, &s
	}
	s := last.state
	name, rest, _ := strings.Cut(what, " ")
	find, ok := answers[name]
	if !ok {
		return "", "The desk does not know “" + name + "”."
	}
	return find(order{s.Plan, s.View, words.In(s.View.Lang), text, rest})
}
