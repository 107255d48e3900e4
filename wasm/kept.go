//go:build js && wasm

package main

import (
	"slices"
	"strings"

	"github.com/hexops/vecty"

	"keelrow/engine/link"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
)

// At most so many choices are kept: a client who has more has none.
const mostKept = 6

// keptKey is where they are kept: a line for each, its link and its picture.
const keptKey = "keelrow choices"

func (a *app) kept() (list []view.Kept) {
	store, ok := storage()
	if !ok {
		return nil
	}
	text := store.Call("getItem", keptKey)
	if text.IsNull() {
		return nil
	}
	for line := range strings.SplitSeq(text.String(), "\n") {
		if l, picture, ok := strings.Cut(line, "\t"); ok && len(list) < mostKept {
			list = append(list, view.Kept{Link: l, Picture: picture})
		}
	}
	return list
}

// keepAll writes the choices to the device and shows them.
func (a *app) keepAll(list []view.Kept) {
	a.page.Show.Kept = list
	vecty.Rerender(a.page)
	var b strings.Builder
	for _, k := range list {
		b.WriteString(k.Link + "\t" + k.Picture + "\n")
	}
	store, ok := storage()
	if ok {
		defer func() {
			if recover() != nil { // it is full
				a.say(a.page.Words.Show.NotKept)
			}
		}()
		store.Call("setItem", keptKey, b.String())
	} else {
		a.say(a.page.Words.Show.NotKept)
	}
}

// keep keeps the choice that is shown.
func (a *app) keep() {
	list := a.page.Show.Kept
	if len(list) >= mostKept {
		a.say(a.page.Words.Show.Full)
		return
	}
	picture := a.picture(288, 192)
	if picture.IsNull() {
		return
	}
	a.keepAll(append(slices.Clone(list), view.Kept{
		Link:    a.page.State.Link.With("beside").With("laid").String(),
		Picture: picture.Call("toDataURL", "image/jpeg", 0.82).String(),
	}))
}

func (a *app) keptDo(what string, n int) {
	list, now := a.page.Show.Kept, a.page.State.Link
	k := list[n]
	switch what {
	case "kept":
		a.do(state.Take{Text: link.Open("#"+k.Link).With("face", "show").String()})
	case "kept-beside":
		next := now.With("beside").Comparing(link.Open("#" + k.Link))
		if _, differs := next.Beside(); !differs {
			a.say(a.page.Words.Show.Same)
			return
		}
		a.do(state.Take{Text: next.String()})
	case "kept-remove":
		a.show.removed, a.show.at = k, n
		a.page.Show.Undo = true
		a.keepAll(slices.Delete(slices.Clone(list), n, n+1))
		a.say(a.page.Words.Show.Removed)
	}
}

// putBack puts back the choice that was taken away last.
func (a *app) putBack() {
	s, list := &a.show, a.page.Show.Kept
	a.page.Show.Undo = false
	a.page.Show.Said = ""
	if len(list) < mostKept {
		a.keepAll(slices.Insert(slices.Clone(list), min(s.at, len(list)), s.removed))
	}
}
