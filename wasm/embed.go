//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/state"
)

// embed is the page in another page: messages to and from the page that
// frames it. DEVELOPERS.md has the protocol.
type embed struct {
	parent js.Value // undefined when nothing frames the page
	host   string   // the only origin that may command, or empty
	second float64  // the second that messages are counted in
	count  int
	high   int // as told last
}

// mostMessages is how many are read in a second: a class that drags a slider
// sends fewer.
const mostMessages = 30

func (a *app) embedStart() {
	window := js.Global()
	m := &a.lesson.embed
	if parent := window.Get("parent"); !parent.Equal(window.Get("window")) {
		m.parent = parent
	} else {
		return // nothing is listened to
	}
	m.host = a.page.State.View.Host
	a.document.Get("documentElement").Call("setAttribute", "data-framed", "")
	window.Call("addEventListener", "message", js.FuncOf(func(_ js.Value, args []js.Value) any {
		// A message may hold what a program in Go cannot look at, such as a
		// BigInt: that is none of this protocol.
		defer func() { _ = recover() }()
		e := args[0]
		origin := e.Get("origin").String()
		if !e.Get("source").Equal(m.parent) || m.host != "" && origin != m.host {
			return nil
		}
		a.hearHost(e.Get("data"), origin)
		return nil
	}))
	page, _ := a.element("app")
	tall := js.FuncOf(func(js.Value, []js.Value) any {
		if high := int(page.Get("offsetHeight").Float()); high != m.high {
			m.high = high
			a.tell("size")
		}
		return nil
	})
	window.Get("ResizeObserver").New(tall).Call("observe", page)
	a.tell("ready")
}

// post sends a message to the page around this one.
func (m *embed) post(data map[string]any, origin string) {
	if m.parent.IsUndefined() {
		return
	}
	if origin == "" || origin == "null" {
		origin = "*" // an origin of no name cannot be asked for
	}
	data["keelrow"] = 1
	m.parent.Call("postMessage", data, origin)
}

// tell says something that was not asked for.
func (a *app) tell(said string) {
	m, v := &a.lesson.embed, &a.page.State.View
	data := map[string]any{"said": said}
	switch said {
	case "size":
		data["height"] = m.high
	case "step":
		data["step"], data["of"], data["ask"] = v.Step, a.lesson.of, v.Ask
		data["title"] = a.lessonCard("title")
	case "ready":
		data["version"] = 1
		data["lang"] = a.page.Words.Lang
	}
	m.post(data, m.host)
}

func (a *app) tellAnswer(ask int, typed string, right bool) {
	a.lesson.post(map[string]any{"said": "answer", "ask": ask, "typed": typed, "right": right}, a.lesson.host)
}

// text returns a short text of a message. Its length is asked first, so that
// a long one is not copied.
func text(v js.Value, most int) (string, bool) {
	if v.Type() != js.TypeString || js.Global().Call("Object", v).Get("length").Int() > most {
		return "", false
	}
	return v.String(), true
}

// whole returns a whole number of a message.
func whole(v js.Value, most int) (int, bool) {
	if v.Type() != js.TypeNumber {
		return 0, false
	}
	f := v.Float()
	return int(f), f >= 1 && f <= float64(most) && f == float64(int(f))
}

// hearHost does what the page around this one asks for. What is no message of
// this protocol is none of its business; one that is wrong gets a sentence.
func (a *app) hearHost(data js.Value, origin string) {
	m, w := &a.lesson.embed, &a.page.Words.Lesson
	if data.Type() != js.TypeObject || data.IsNull() {
		return
	}
	version := data.Get("keelrow")
	if version.IsUndefined() {
		return
	}
	var id any
	if v := data.Get("id"); v.Type() == js.TypeNumber {
		id = v
	} else if s, ok := text(v, 100); ok {
		id = s
	}
	reply := func(said string, more ...any) {
		out := map[string]any{"said": said}
		if id != nil {
			out["id"] = id
		}
		for i := 0; i+1 < len(more); i += 2 {
			out[more[i].(string)] = more[i+1]
		}
		m.post(out, origin)
	}
	wrong := func(why string) { reply("error", "why", why) }

	now := js.Global().Get("performance").Call("now").Float() / 1000
	if now-m.second >= 1 {
		m.second, m.count = now, 0
	}
	if m.count++; m.count > mostMessages {
		if m.count == mostMessages+1 {
			wrong(w.TooMany)
		}
		return
	}
	if version.Type() != js.TypeNumber || version.Float() != 1 {
		wrong(w.NotVersion)
		return
	}
	do, _ := text(data.Get("do"), 20)
	step := a.page.State.View.Step
	switch do {
	case "open":
		job, ok := text(data.Get("link"), link.Most-1)
		if !ok {
			wrong(w.TooLong)
			return
		}
		if why := a.open(job); why != "" {
			wrong(why)
			return
		}
	case "step":
		n, ok := whole(data.Get("step"), 99)
		if !ok {
			wrong(w.NoStep)
			return
		}
		a.do(state.Teach{Step: n})
	case "ask":
		n, ok := whole(data.Get("ask"), 999_999)
		if !ok {
			wrong(w.NoSeed)
			return
		}
		a.do(state.Teach{Step: step, Ask: n})
	case "play", "pause", "repeat", "next", "back":
		a.lessonGo(do)
	case "figures":
		a.desk.ask("file json", question{link: a.desk.link(), then: func(json string) {
			reply("figures", "figures", js.Global().Get("JSON").Call("parse", json))
		}})
		return
	case "link":
	default:
		wrong(w.NotKnown)
		return
	}
	reply("done", "do", do, "link", a.page.State.Address())
}

// open opens the job of a link that a host sends and returns an empty text, or
// it changes nothing and says what is wrong. What the link does not say about
// the page stays: its face, its language, the step.
func (a *app) open(text string) (why string) {
	l := link.Open(text)
	job, faults := l.Job()
	_, more := l.View()
	if faults = append(faults, more...); len(faults) > 0 {
		return faults[0].Error()
	}
	if _, err := floor.New(job); err != nil {
		first, _, _ := strings.Cut(err.Error(), "\n")
		return first
	}
	now := a.page.State.Link
	for _, key := range []string{"face", "lang", "step", "host"} {
		value, given := now.Get(key)
		if _, said := l.Get(key); given && !said {
			l = l.With(key, value)
		}
	}
	a.do(state.Follow{Text: "#" + l.String()})
	a.address(state.Replace)
	return ""
}
