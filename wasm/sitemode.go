//go:build js && wasm

package main

import (
	"math"
	"strings"
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/wasm/state"
	"keelrow/wasm/view"
)

// siteMode is one mark or row at a time, to be read from a distance.
type siteMode struct {
	names        []string        // of the ticks of the list
	ticked       map[string]bool // also where the browser keeps none
	lock         js.Value        // that keeps the screen awake
	got, refused js.Func
	x, y         float64 // where a finger went down
}

// onSite says whether the face is open.
func (a *app) onSite() bool { return a.page.State.View.Face == "site" }

func (a *app) siteStart() {
	s := &a.site
	s.got = js.FuncOf(func(_ js.Value, args []js.Value) any {
		if s.lock = args[0]; !a.onSite() {
			a.letSleep()
		}
		a.warn(&a.page.Site.Wake, "")
		return nil
	})
	s.refused = js.FuncOf(func(js.Value, []js.Value) any {
		a.warn(&a.page.Site.Wake, a.page.Words.Site.WakeRefused)
		return nil
	})
	on := func(event string, hear func(e js.Value)) {
		a.document.Call("addEventListener", event, js.FuncOf(func(_ js.Value, args []js.Value) any {
			if a.onSite() {
				hear(args[0])
			}
			return nil
		}))
	}
	// A page that is out of sight loses its lock.
	on("visibilitychange", func(js.Value) { a.stayAwake() })
	// Pointers are taken from a page that may be scrolled; touches are not.
	at := func(e js.Value) (x, y float64) {
		finger := e.Get("changedTouches").Index(0)
		return finger.Get("clientX").Float(), finger.Get("clientY").Float()
	}
	on("touchstart", func(e js.Value) {
		s.x, s.y = math.NaN(), 0
		if e.Get("touches").Length() == 1 && !e.Get("target").Call("closest", "#face").IsNull() {
			s.x, s.y = at(e)
		}
	})
	// It is done on the way, since the browser may take the finger over.
	on("touchmove", func(e js.Value) {
		x, y := at(e)
		dx, far := x-s.x, math.Max(60, 2*math.Abs(y-s.y))
		if math.Abs(dx) < far || dx != dx {
			return
		}
		s.x = math.NaN() // once for each finger
		if dx > 0 {
			a.siteGo(a.page.Site.At - 1)
		} else {
			a.siteGo(a.page.Site.At + 1)
		}
	})
	if a.onSite() {
		a.siteOpen()
		vecty.Rerender(a.page)
	}
}

// siteOpen makes the ground and keeps the screen awake.
func (a *app) siteOpen() {
	a.page.Site = view.Site{At: -1, Black: js.Global().Call("matchMedia", "(prefers-color-scheme: dark)").Get("matches").Bool()}
	if store, ok := storage(); ok {
		if kept := store.Call("getItem", groundKey); !kept.IsNull() {
			a.page.Site.Black = kept.String() == "black"
		}
	}
	a.ground()
	a.stayAwake()
	a.focusSoon("site-next")
}

func (a *app) focusSoon(id string) {
	later(50, func() {
		if e, ok := a.element(id); ok {
			e.Call("focus")
		}
	})
}

// groundKey is where the choice of a black or white ground is kept.
const groundKey = "keelrow ground"

// ground turns the page black or white, or back to its own colours.
func (a *app) ground() {
	root := a.document.Get("documentElement")
	switch {
	case !a.onSite():
		root.Call("removeAttribute", "data-sun")
	case a.page.Site.Black:
		root.Call("setAttribute", "data-sun", "black")
	default:
		root.Call("setAttribute", "data-sun", "white")
	}
	a.floor.readTheme()
	a.floor.wake()
}

// warn says why something does not go as asked, or no longer.
func (a *app) warn(at *string, text string) {
	if *at != text {
		*at = text
		vecty.Rerender(a.page)
	}
}

func (a *app) stayAwake() {
	if a.document.Get("visibilityState").String() != "visible" {
		return
	}
	wake := js.Global().Get("navigator").Get("wakeLock")
	if !wake.Truthy() {
		a.page.Site.Wake = a.page.Words.Site.NoWake
		return
	}
	wake.Call("request", "screen").Call("then", a.site.got, a.site.refused)
}

func (a *app) letSleep() {
	if a.site.lock.Truthy() {
		a.site.lock.Call("release")
		a.site.lock = js.Undefined()
	}
}

func (a *app) siteFollow(before, next state.State) {
	was, is := before.View.Face == "site", a.onSite()
	switch {
	case is && !was:
		a.siteOpen()
	case was && !is:
		a.letSleep()
		a.silence()
		a.hideMark()
		a.ground()
		a.focusSoon("to-site")
	case is && (next.Plan != before.Plan || next.View.Stage != before.View.Stage):
		a.hideMark()
		a.page.Site.At = -1 // another list
	}
}

// siteGo shows the mark or row with a number from 0.
func (a *app) siteGo(at int) {
	p := &a.page.Site
	if at < 0 || at > len(a.site.names) || p.At < 0 {
		return
	}
	p.At = at
	a.siteShow()
}

// siteShow asks the desk for what is to be shown, at once.
func (a *app) siteShow() {
	p := &a.page.Site
	p.Done, p.All = 0, len(a.site.names)
	for _, name := range a.site.names {
		if a.site.ticked[name] {
			p.Done++
		}
	}
	p.Ticked = p.At < p.All && a.site.ticked[a.site.names[p.At]]
	stage := a.page.State.View.Stage
	if stage == "lay" && p.At < p.All {
		a.do(state.ToRow{Number: p.At + 1})
	}
	if box, ok := a.element("desk-onsite"); ok {
		box.Get("dataset").Set("wants", "onsite "+p.Wants(stage))
		a.desk.fill(a.desk.link())
	}
	vecty.Rerender(a.page)
}

// firstNotDone returns the first without a tick, or past the last.
func (a *app) firstNotDone() int {
	for i, name := range a.site.names {
		if !a.site.ticked[name] {
			return i
		}
	}
	return len(a.site.names)
}

func (a *app) siteDo(name, arg string, e js.Value) bool {
	if name != "site" {
		return false
	}
	p := &a.page.Site
	switch arg {
	case "back":
		a.siteGo(p.At - 1)
	case "next":
		a.siteGo(p.At + 1)
	case "first":
		a.siteGo(a.firstNotDone())
	case "done":
		if p.At < 0 || p.At >= p.All {
			break
		}
		name := a.site.names[p.At]
		a.site.ticked[name] = !p.Ticked
		a.tick(name, !p.Ticked)
		if !p.Ticked {
			p.At++ // on to the next
		}
		a.siteShow()
	case "aloud":
		p.Aloud = !p.Aloud
		p.Voice = ""
		if p.Aloud {
			a.readAloud()
		} else {
			a.silence()
		}
		vecty.Rerender(a.page)
	case "ground":
		p.Black = !p.Black
		a.ground()
		if store, ok := storage(); ok {
			store.Call("setItem", groundKey, a.document.Get("documentElement").Get("dataset").Get("sun"))
		}
		vecty.Rerender(a.page)
	}
	return true
}

func (a *app) siteKey(key string) bool {
	p := &a.page.Site
	switch key {
	case "ArrowRight", "ArrowDown", "PageDown", " ", "Enter":
		a.siteGo(p.At + 1)
	case "ArrowLeft", "ArrowUp", "PageUp", "Backspace":
		a.siteGo(p.At - 1)
	case "Home":
		a.siteGo(0)
	default:
		return false
	}
	return true
}

// siteCard returns what is on the card that the desk has written.
func (a *app) siteCard(name string) string {
	card := a.document.Call("querySelector", ".site-card")
	if card.IsNull() {
		return ""
	}
	return card.Get("dataset").Get(name).String()
}

func (a *app) siteFilled(id string) {
	if id != "desk-onsite" {
		return
	}
	s := &a.site
	if a.page.Site.At < 0 {
		// The list is known now: begin with the first that is not done.
		s.names, s.ticked = strings.Fields(a.siteCard("names")), map[string]bool{}
		if store, ok := storage(); ok {
			for _, name := range s.names {
				s.ticked[name] = !store.Call("getItem", a.tickKey(name)).IsNull()
			}
		}
		a.page.Site.At = a.firstNotDone()
		a.siteShow()
		return
	}
	if now, ok := a.element("overlay-now"); ok {
		now.Call("setAttribute", "d", a.siteCard("draw"))
	}
	a.readAloud()
}

// readAloud says the card in the browser's own voice, if it is asked for.
func (a *app) readAloud() {
	p, voice := &a.page.Site, js.Global().Get("speechSynthesis")
	if !p.Aloud {
		return
	}
	if !voice.Truthy() {
		p.Aloud, p.Voice = false, a.page.Words.Site.NoVoice
		return
	}
	voice.Call("cancel")
	words := js.Global().Get("SpeechSynthesisUtterance").New(a.siteCard("say"))
	words.Set("lang", a.page.Words.Lang)
	voice.Call("speak", words)
	later(2000, func() { // voices may be long in coming
		if p.Aloud && voice.Call("getVoices").Length() == 0 && !voice.Get("speaking").Bool() {
			p.Aloud = false
			a.warn(&p.Voice, a.page.Words.Site.NoVoice)
		}
	})
}

func (a *app) silence() {
	if voice := js.Global().Get("speechSynthesis"); voice.Truthy() {
		voice.Call("cancel")
	}
}
