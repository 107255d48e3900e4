package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/wasm/words"
)

// Show is what stands over the picture when it is alone.
type Show struct {
	Panel   string // whose controls are open, or ""
	Hidden  bool   // all controls are put away
	Kept    []Kept
	Undo    bool   // what was taken away can be put back
	Said    string // what came of something, for a while
	Divided bool   // a second floor is beside the first
}

// Kept is a choice that was kept: its link, and its picture as an address.
type Kept struct{ Link, Picture string }

func (p *Page) show() vecty.List {
	w, s := &p.Words.Show, &p.Show
	tab := func(name, label string) *vecty.HTML {
		return button("show", name, "", label, vecty.Markup(vecty.Attribute("aria-expanded", strconv.FormatBool(s.Panel == name))))
	}
	play, label := "play", w.Play
	if p.State.Playing {
		play, label = "pause", w.Stop
	}
	kept := []vecty.MarkupOrChild{vecty.Markup(vecty.Class("show-kept"), vecty.Attribute("role", "group"), vecty.Attribute("aria-label", w.Kept),
		vecty.Property("hidden", len(s.Kept) == 0 && !s.Undo))}
	for i, k := range s.Kept {
		n := strconv.Itoa(i)
		named := func(do, class, name string, inner vecty.MarkupOrChild) *vecty.HTML {
			return elem.Button(markup(class, attrs{"type", "button", "data-do", do, "data-arg", n, "aria-label", words.Fill(name, "n", strconv.Itoa(i+1))}), inner)
		}
		kept = append(kept, div("show-choice",
			named("kept", "picture", w.Open, elem.Image(vecty.Markup(prop.Src(k.Picture), prop.Alt("")))),
			named("kept-beside", "", w.Beside, vecty.Text(w.BesideWord)),
			named("kept-remove", "", w.Remove, vecty.Text(w.RemoveWord))))
	}
	kept = append(kept, button("show", "put-back", "", w.PutBack, vecty.Markup(vecty.Property("hidden", !s.Undo))))
	return vecty.List{
		svg("svg", attrs{"id", "show-stand", "class", "show-stand", "viewBox", "-22 -60 44 82", "aria-hidden", "true"},
			svg("path", attrs{"d", "M0 0L-20 -56Q0 -64 20 -56Z"}), svg("circle", attrs{"r", "13"})),
		elem.Div(vecty.Markup(prop.ID("show-divider"), vecty.Class("show-divider"), vecty.Attribute("role", "slider"), vecty.Attribute("tabindex", "0"),
			vecty.Attribute("aria-label", w.Divider), vecty.Attribute("aria-valuemin", "0"), vecty.Attribute("aria-valuemax", "100"),
			vecty.Property("hidden", !s.Divided))),
		elem.Div(vecty.Markup(vecty.Class("show-foot"), vecty.Property("hidden", s.Hidden)),
			elem.Paragraph(markup("show-said", attrs{"id", "show-said", "role", "status"}), vecty.Text(s.Said)),
			elem.Div(kept...),
			elem.Div(vecty.Markup(vecty.Class("show-panel"), vecty.Property("hidden", s.Panel == "")), p.boxOf("show", s.Panel)),
			div("show-strip",
				tab("wood", w.Wood), tab("light", w.Light), tab("view", w.View), tab("compare", w.Compare),
				button("show", "keep", "", w.Keep), tab("away", w.Away), button(play, "", "", label), button("face", "work", "", w.Back))),
		button("show", "hide", "show-all", w.Controls, vecty.Markup(vecty.Property("hidden", !s.Hidden))),
	}
}
