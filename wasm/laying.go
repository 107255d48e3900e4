//go:build js && wasm

package main

import (
	"math"
	"strconv"

	"keelrow/engine/floor"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
	"keelrow/wasm/words"
)

// landing is how long a block takes to slide home, in seconds: long enough to
// be seen, short enough to be felt as one push.
const landing = 0.22

// laying is how the picture follows the state: what is at rest in the state
// is still landing on the screen.
type laying struct {
	shown float64 // blocks as the picture has them
	still bool    // the person asked for less motion

	ruler view.Ruler
	plan  *floor.Plan // of the ruler
	row   int         // the row that is marked in the list
	rows  string      // what is drawn on the ruler
}

// follow takes note of an action: a step forward of a few blocks is shown,
// anything else is there at once.
func (l *laying) follow(before, next state.State) {
	switch {
	case next.Playing || before.Playing:
	case next.Plan == before.Plan && next.Laid > before.Laid && next.Laid-before.Laid <= 1 && !l.still:
		l.shown = before.Laid
	case next.Plan == before.Plan && next.Laid > before.Laid && next.Blocks() > int(next.Laid) && !l.still:
		l.shown = max(before.Laid, next.Laid-12)
	default:
		l.shown = math.Inf(1) // there at once
	}
}

// frame moves the picture on by so many seconds and returns what the painter
// is to show: blocks, and for how many blocks a block is landing.
//
// All is every block and, after those, every plank of the border, which
// follows when the last block is laid.
func (l *laying) frame(s *state.State, seconds, all float64) (laid, during float64, more bool) {
	due := s.Laid
	if !s.Playing && int(due) >= s.Blocks() {
		due = all
	}
	if l.still {
		// Rows appear: a row is there when its first block is due.
		l.shown = s.Laid
		if s.Playing && s.Row() >= 0 {
			r := s.Rows[s.Row()]
			return float64(r.First + r.Blocks()), 0, true
		}
		return math.Floor(due), 0, s.Playing
	}
	if s.Playing {
		l.shown = s.Laid
		return l.shown, max(landing*s.View.Speed, 1e-3), true
	}
	if l.shown >= due {
		l.shown = due
		return l.shown, 0, false
	}
	l.shown = min(due, l.shown+seconds*max(1, min(12, due-l.shown))/landing)
	return l.shown, 1, l.shown < due
}

// live writes what changes with every frame of the laying: the counter, the
// ruler and the marked row.
func (a *app) live() {
	s, w, l := &a.page.State, a.page.Words, &a.laying
	if l.plan != s.Plan {
		l.plan, l.ruler, l.row, l.rows = s.Plan, view.NewRuler(s.Rows), -2, "-"
	}
	set := func(id, text string) {
		if e, ok := a.element(id); ok {
			e.Set("textContent", text)
		}
	}
	set("laid-count", words.Fill(w.Laid, "n", strconv.Itoa(int(s.Laid)), "all", strconv.Itoa(s.Blocks())))
	rows, now := l.ruler.Fill(s.Laid)
	if e, ok := a.element("ruler-now"); ok {
		e.Call("setAttribute", "d", now)
	}
	row := s.Row()
	name := w.RulerNothing
	if row >= 0 {
		name = words.Fill(w.RulerRow, "n", strconv.Itoa(row+1), "all", strconv.Itoa(len(s.Rows)),
			"name", view.RowName(s.Rows[row], w))
	}
	if e, ok := a.element("ruler-laid"); ok && (rows != l.rows || !e.Call("hasAttribute", "d").Bool()) {
		l.rows = rows
		e.Call("setAttribute", "d", rows)
	}
	set("laid-row", name)
	if e, ok := a.element("ruler"); ok {
		e.Call("setAttribute", "aria-valuenow", strconv.Itoa(row+1))
		e.Call("setAttribute", "aria-valuetext", name)
	}
	if e, ok := a.element("row-" + strconv.Itoa(l.row+1)); ok && l.row != row {
		e.Call("removeAttribute", "aria-current")
	}
	if e, ok := a.element("row-" + strconv.Itoa(row+1)); ok {
		e.Call("setAttribute", "aria-current", "true")
	}
	l.row = row
}
