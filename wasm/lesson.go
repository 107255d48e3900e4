//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"keelrow/engine/plane"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
)

// lesson is the lesson, and the page in another page.
type lesson struct {
	embed
	from, to, of int    // blocks that the step plays, and how many steps there are
	right, all   int    // questions answered, and right at the first try
	answered     bool   // the question that is open has been answered
	score        string // in words
	due          bool   // the step is to be played when it has come
}

func (a *app) inLesson() bool { return a.page.State.View.Face == "lesson" }

func (a *app) lessonStart() {
	a.lesson.due = true
	a.document.Call("addEventListener", "keydown", js.FuncOf(func(_ js.Value, args []js.Value) any {
		e := args[0]
		if e.Get("key").String() == "Enter" && e.Get("target").Get("id").String() == "lesson-answer" {
			a.lessonCheck()
		}
		return nil
	}))
	a.embedStart()
}

// lessonFollow has the lesson follow what was done.
func (a *app) lessonFollow(before, next state.State) {
	was, is := before.View.Face == "lesson", next.View.Face == "lesson"
	switch {
	case was && !is:
		a.hideMark()
		a.floor.fit()
		if floor := a.floor.box; floor.Truthy() {
			floor.Call("removeAttribute", "data-lines")
		}
		laid := next.View.Laid
		if laid < 0 {
			laid = next.Blocks()
		}
		later(0, func() {
			if !a.inLesson() {
				a.do(state.Part{From: laid, To: laid})
			}
		})
	case is && (!was || before.View.Step != next.View.Step || before.View.Ask != next.View.Ask || before.Plan != next.Plan):
		a.lesson.due = true
		if box, ok := a.element("desk-lesson"); ok {
			p := view.Page{State: next}
			box.Get("dataset").Set("wants", "lesson "+p.LessonWants())
			a.desk.fill(a.desk.link())
		}
	}
	if before.Playing && !next.Playing && is && int(next.Laid) == a.lesson.to {
		a.tell("played")
	}
}

// lessonCard is a part of what the desk has written.
func (a *app) lessonCard(name string) string {
	card := a.document.Call("querySelector", ".lesson-step")
	if card.IsNull() || card.Get("dataset").Get(name).IsUndefined() {
		return ""
	}
	return card.Get("dataset").Get(name).String()
}

func (a *app) lessonFilled(id string) {
	if id != "desk-lesson" || !a.inLesson() {
		return
	}
	l := &a.lesson
	number := func(name string) int { n, _ := strconv.Atoi(a.lessonCard(name)); return n }
	a.hideMark()
	if now, ok := a.element("overlay-now"); ok {
		now.Call("setAttribute", "d", a.lessonCard("path"))
	}
	a.floor.box.Call("setAttribute", "data-lines", a.lessonCard("lines"))
	l.from, l.to, l.answered = number("from"), number("to"), false
	if of := number("of"); of > 0 {
		l.of = of
	}
	if score, ok := a.element("lesson-score"); ok {
		score.Set("textContent", l.score)
	}
	if l.due {
		l.due = false
		from := l.from
		if a.laying.still {
			from = l.to // nothing moves by itself
		}
		a.do(state.Part{From: from, To: l.to})
		if face, ok := a.element("face"); ok {
			face.Set("scrollTop", 0)
		}
		a.lessonLook(strings.Fields(a.lessonCard("view")))
		a.tell("step")
	}
}

// lessonLook looks at the part of the floor that the step speaks of: its
// middle and its size in mm, or all of the floor.
func (a *app) lessonLook(part []string) {
	f, v := a.floor, [3]float64{}
	f.fit()
	if len(part) != len(v) {
		return
	}
	for i, text := range part {
		v[i], _ = strconv.ParseFloat(text, 64)
	}
	if scale := min(f.wide, f.high) / max(v[2], 1); scale > f.scale {
		f.fitted, f.scale, f.centre = false, scale, plane.Point{X: v[0], Y: v[1]}
	}
}

func (a *app) lessonDo(name, arg string, e js.Value) bool {
	switch name {
	case "own-page":
		a.ownPage(e.Get("target").Call("closest", "details"))
		return true
	case "lesson":
		a.lessonGo(arg)
		return true
	}
	return false
}

// lessonGo does what a control of the lesson does. A number goes to a step.
func (a *app) lessonGo(arg string) {
	s, l := &a.page.State, &a.lesson
	step := s.View.Step
	switch arg {
	case "back":
		a.do(state.Teach{Step: max(1, step-1)})
	case "next":
		a.do(state.Teach{Step: min(max(1, l.of), step+1)})
	case "repeat":
		a.do(state.Part{From: l.from, To: l.to})
	case "pause":
		laid := int(s.Laid + 0.999)
		a.do(state.Part{From: laid, To: laid})
	case "play":
		from := int(s.Laid)
		if from < l.from || from >= l.to {
			from = l.from
		}
		a.do(state.Part{From: from, To: l.to})
	case "steps":
		a.do(state.Teach{Step: step})
	case "ask":
		if s.View.Ask == 0 {
			a.do(state.Teach{Step: step, Ask: a.anySeed()})
		}
	case "another":
		a.do(state.Teach{Step: step, Ask: a.anySeed()})
		a.focusSoon("lesson-answer")
	case "check":
		a.lessonCheck()
	default:
		if n, err := strconv.Atoi(arg); err == nil {
			a.do(state.Teach{Step: n})
		}
	}
}

// anySeed draws a question.
func (a *app) anySeed() int {
	return 1 + int(js.Global().Get("Math").Call("random").Float()*999_998)
}

// lessonCheck has the answer that was typed looked at.
func (a *app) lessonCheck() {
	l, ask := &a.lesson, a.page.State.View.Ask
	field, ok := a.element("lesson-answer")
	if !ok || ask == 0 {
		return
	}
	first := "1"
	if l.answered {
		first = "0"
	}
	typed := field.Get("value").String()
	what := "lesson check " + strconv.Itoa(ask) + " " + first + " " + strconv.Itoa(l.right) + " " + strconv.Itoa(l.all) + " " + typed
	a.desk.ask(what, question{link: a.desk.link(), then: func(html string) {
		said, ok := a.element("lesson-said")
		if !ok || a.page.State.View.Ask != ask {
			return
		}
		said.Set("innerHTML", html)
		data := said.Get("firstElementChild").Get("dataset")
		right := data.Get("right").String()
		if right == "" {
			return
		}
		if !l.answered {
			l.answered = true
			l.all++
			if right == "yes" {
				l.right++
			}
		}
		l.score = data.Get("score").String()
		if score, ok := a.element("lesson-score"); ok {
			score.Set("textContent", l.score)
		}
		a.tellAnswer(ask, typed, right == "yes")
	}})
}

func (a *app) lessonKey(key string) bool {
	if a.page.State.View.Ask > 0 {
		return false
	}
	switch key {
	case "ArrowRight", "ArrowDown", "PageDown":
		a.lessonGo("next")
	case "ArrowLeft", "ArrowUp", "PageUp":
		a.lessonGo("back")
	case "Home":
		a.lessonGo("1")
	case "End":
		a.lessonGo(strconv.Itoa(max(1, a.lesson.of)))
	case "r", "R":
		a.lessonGo("repeat")
	case " ":
		if a.page.State.Playing {
			a.lessonGo("pause")
		} else {
			a.lessonGo("play")
		}
	default:
		return false
	}
	return true
}

// ownPage writes what puts this lesson into another page.
func (a *app) ownPage(box js.Value) {
	link := a.page.State.Link
	if !a.inLesson() {
		link = link.With("face", "lesson").With("stage")
	}
	address := a.home() + "#" + link.With("lang", a.page.Words.Lang).String()
	box.Call("querySelector", "textarea").Set("value", `<iframe src="`+escaped(address)+`"
  title="`+escaped(a.document.Get("title").String())+`" width="100%" height="900"
  sandbox="allow-scripts" loading="lazy" style="border:0"></iframe>`)
}

// escaped makes text fit for an attribute.
func escaped(text string) string {
	out := ""
	for _, r := range text {
		switch r {
		case '&':
			out += "&amp;"
		case '"':
			out += "&quot;"
		case '<':
			out += "&lt;"
		default:
			out += string(r)
		}
	}
	return out
}
