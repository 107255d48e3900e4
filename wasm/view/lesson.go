package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
)

// LessonWants is what the desk is asked for: a step, or a question.
func (p *Page) LessonWants() string {
	v := &p.State.View
	if v.Ask > 0 {
		return "ask " + strconv.Itoa(v.Ask)
	}
	return strconv.Itoa(v.Step)
}

func (p *Page) lesson() vecty.List {
	w, ask := &p.Words.Lesson, p.State.View.Ask > 0
	play, label := "play", w.Play
	if p.State.Playing {
		play, label = "pause", w.Stop
	}
	return vecty.List{
		div("lesson-top",
			button("face", "work", "", p.Words.ToWork),
			pressed("lesson", "steps", w.Steps, !ask),
			pressed("lesson", "ask", w.Ask, ask)),
		p.boxOf("lesson", p.LessonWants()),
		elem.Div(markup("lesson-foot", nil), vecty.Markup(vecty.Property("hidden", ask)),
			button("lesson", "back", "", w.Back), button("lesson", "repeat", "", w.Repeat),
			button("lesson", play, "primary", label), button("lesson", "next", "", w.Next)),
		p.ownPage(),
	}
}

// ownPage is what puts the lesson into another page. The text is filled in
// by the page when it is asked for.
func (p *Page) ownPage() *vecty.HTML {
	w := &p.Words.Lesson
	return elem.Details(
		vecty.Markup(vecty.Class("own-page")),
		elem.Summary(vecty.Markup(vecty.Attribute("data-do", "own-page")), vecty.Text(w.OwnPage)),
		paragraph("hint", w.OwnHelp),
		elem.TextArea(vecty.Markup(vecty.Class("snippet"), vecty.Attribute("readonly", ""), vecty.Attribute("name", "snippet"), vecty.Attribute("rows", "6"),
			vecty.Attribute("spellcheck", "false"), vecty.Attribute("aria-label", w.Snippet))),
	)
}
