package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/wasm/words"
)

// Site is how one mark or row at a time stands.
type Site struct {
	At        int  // from 0; below 0 while the list is not known, past the last at its end
	Done, All int  // ticks
	Ticked    bool // the one that is shown
	Aloud     bool
	Black     bool   // ground
	Wake      string // why the screen may go dark
	Voice     string // why nothing is read aloud
}

// Wants is what the desk is asked for.
func (s *Site) Wants(stage string) string {
	list := "marks "
	if stage == "lay" {
		list = "rows "
	}
	list += strconv.Itoa(s.At)
	if s.All > 0 && s.Done == s.All {
		list += " all"
	}
	return list
}

func (p *Page) siteMode() vecty.List {
	w, s := &p.Words.Site, &p.Site
	lay := p.State.View.Stage == "lay"
	ground := w.Black
	if s.Black {
		ground = w.White
	}
	live := "polite"
	if s.Aloud {
		live = "off" // one voice is enough
	}
	// A button that does nothing now keeps the keyboard.
	off := func(is bool) vecty.MarkupList {
		return vecty.Markup(vecty.Attribute("aria-disabled", strconv.FormatBool(is)))
	}
	return vecty.List{
		div("site-top",
			button("face", "work", "", p.Words.ToWork),
			pressed("stage", "strike", w.Marks, !lay), pressed("stage", "lay", w.Rows, lay),
			button("site", "ground", "", ground),
			pressed("site", "aloud", w.Aloud, s.Aloud)),
		div("site-progress",
			span("", vecty.Text(words.Fill(w.DoneOf, "n", strconv.Itoa(s.Done), "all", strconv.Itoa(s.All)))),
			button("site", "first", "", w.First, vecty.Markup(prop.Disabled(s.Done == s.All)))),
		elem.Paragraph(markup("site-warns", attrs{"role", "status"}), vecty.Markup(vecty.Property("hidden", s.Wake+s.Voice == "")), vecty.Text(s.Wake+" "+s.Voice)),
		elem.Div(markup("site-box", attrs{"aria-live", live}), p.boxOf("onsite", s.Wants(p.State.View.Stage))),
		div("site-foot",
			button("site", "back", "", w.Back, off(s.At <= 0)),
			pressed("site", "done", w.Done, s.Ticked, off(s.At < 0 || s.At >= s.All)),
			button("site", "next", "", w.Next, vecty.Markup(prop.ID("site-next")), off(s.At < 0 || s.At >= s.All))),
	}
}

// pressed is a button that stays in.
func pressed(do, arg, text string, on bool, more ...vecty.MarkupOrChild) *vecty.HTML {
	return button(do, arg, "", text, append(more, vecty.Markup(vecty.Attribute("aria-pressed", strconv.FormatBool(on))))...)
}

// toSite opens one mark or row at a time.
func (p *Page) toSite(text string) *vecty.HTML {
	return button("face", "site", "", text, vecty.Markup(prop.ID("to-site")))
}
