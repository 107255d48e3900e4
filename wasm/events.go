//go:build js && wasm

package main

import (
	"math"
	"strconv"
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/engine/length"
	"keelrow/engine/link"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
)

// listen hears everything once, at the document: elements say by their data
// attributes what they do, so rendering makes and drops no listeners.
func (a *app) listen() {
	on := func(target js.Value, event string, hear func(e js.Value)) {
		target.Call("addEventListener", event, js.FuncOf(func(_ js.Value, args []js.Value) any {
			hear(args[0])
			return nil
		}))
	}
	document, window := a.document, js.Global()
	on(document, "click", a.click)
	on(document, "input", a.input)
	on(document, "change", a.change)
	on(document, "keydown", a.key)
	on(document, "focusout", func(js.Value) { a.last = "" })
	on(document, "focusin", a.light)
	on(window, "hashchange", func(js.Value) { a.followed() })
	on(window, "popstate", func(js.Value) { a.followed() })

	on(window, "keelrow-offline", func(js.Value) {
		kept := document.Get("documentElement").Get("dataset")
		a.page.Offline, a.page.Version = kept.Get("offline").String(), kept.Get("version").String()
		vecty.Rerender(a.page)
	})

	still := window.Call("matchMedia", "(prefers-reduced-motion: reduce)")
	a.laying.still = still.Get("matches").Bool()
	on(still, "change", func(e js.Value) { a.laying.still = e.Get("matches").Bool() })
	dark := window.Call("matchMedia", "(prefers-color-scheme: dark)")
	on(dark, "change", func(js.Value) { a.floor.readTheme(); a.floor.wake() })
	a.listenFloor(on)
	a.listenRuler(on)
}

// marked returns the nearest element from an event's target outward that has
// a data attribute, and its value.
func marked(e js.Value, name string) (value, arg string, ok bool) {
	target := e.Get("target")
	if target.Get("closest").IsUndefined() {
		return "", "", false
	}
	target = target.Call("closest", "[data-"+name+"]")
	if target.IsNull() {
		return "", "", false
	}
	if v := target.Call("getAttribute", "data-arg"); !v.IsNull() {
		arg = v.String()
	}
	return target.Call("getAttribute", "data-"+name).String(), arg, true
}

func (a *app) click(e js.Value) {
	name, arg, ok := marked(e, "do")
	if !ok {
		return
	}
	n, _ := strconv.Atoi(arg)
	switch name {
	case "play":
		a.do(state.Play{})
	case "pause":
		a.do(state.Pause{})
	case "step-block":
		a.do(state.StepBlocks{By: n})
	case "step-row":
		a.do(state.StepRows{By: n})
	case "to-row":
		a.do(state.ToRow{Number: n})
	case "leaf-rows":
		a.do(state.TurnRows{By: n})
	case "leaf-strands":
		a.do(state.TurnStrands{By: n})
	case "stage":
		a.do(state.GoTo{Stage: arg})
	case "place":
		a.do(state.Place{Placing: n})
	case "show-mark":
		a.showMark(e)
	case "leaf":
		a.desk.turn(e)
	case "length":
		if v, err := strconv.ParseFloat(arg, 64); err == nil {
			a.do(state.Length{Length: length.Length(v)})
		}
	case "add-corner", "remove-corner":
		outline, corner := cornerOf(arg)
		if name == "add-corner" {
			a.do(state.AddCorner{Outline: outline, After: corner})
		} else {
			a.do(state.RemoveCorner{Outline: outline, Corner: corner})
		}
	case "open-wall":
		if a.page.Wall == arg {
			arg = ""
		}
		a.page.Wall = arg
		vecty.Rerender(a.page)
	case "add-item":
		a.do(state.AddItem{Key: arg})
	case "remove-item":
		key, item := cornerOf(arg)
		a.do(state.RemoveItem{Key: key, Item: item})
	case "add-hole":
		a.do(state.AddHole{})
	case "remove-hole":
		a.do(state.RemoveHole{Hole: n})
	case "zoom":
		a.zoom(n)
	case "fit":
		a.floor.fit()
	case "copy":
		a.shareLink()
	case "keys":
		a.toggleKeys()
	case "new-version":
		js.Global().Call("keelrowRenew")
	case "sheets":
		a.do(state.OpenSheets{Open: !a.page.State.Sheets.Open})
	case "print":
		a.print()
	case "file":
		a.file(arg)
	case "one-file":
		a.oneFile()
	case "skip":
		e.Call("preventDefault")
		if stage, ok := a.element("stage"); ok {
			stage.Call("focus")
		}
	default:
		a.faceDo(name, arg, e)
	}
}

// cornerOf takes "hole.0.3" apart into "hole.0" and 3.
func cornerOf(name string) (outline string, corner int) {
	for i := len(name) - 1; i >= 0; i-- {
		if name[i] == '.' {
			corner, _ = strconv.Atoi(name[i+1:])
			return name[:i], corner
		}
	}
	return name, 0
}

func (a *app) input(e js.Value) {
	if name, _, ok := marked(e, "slide"); ok {
		a.faceSlide(name, e.Get("target").Get("value").String())
		return
	}
	if name, _, ok := marked(e, "input"); ok && e.Get("target").Get("tagName").String() != "SELECT" {
		text := e.Get("target").Get("value").String()
		a.do(state.Edit{Input: name, Text: text, On: a.last == name})
		a.last = name
	}
}

// change hears radio buttons, boxes and lists.
func (a *app) change(e js.Value) {
	if tick := e.Get("target").Get("dataset").Get("tick"); tick.Truthy() {
		a.tick(tick.String(), e.Get("target").Get("checked").Bool())
		return
	}
	target := e.Get("target")
	if name, _, ok := marked(e, "input"); ok && target.Get("tagName").String() == "SELECT" {
		a.do(state.Edit{Input: name, Text: target.Get("value").String()})
		return
	}
	name, arg, ok := marked(e, "do")
	if !ok {
		return
	}
	switch name {
	case "unit":
		unit := length.Millimetres
		if arg == "in" {
			unit = length.Inches
		}
		a.do(state.ChangeUnit{Unit: unit})
	case "shape":
		a.do(state.ShapeRoom{Way: state.Way(arg)})
	case "fraction", "pattern", "strands", "start", "share":
		a.do(state.Choose{Key: name, Value: arg})
	case "draw":
		set, _ := strconv.Atoi(arg)
		a.do(state.Draw{Lines: link.Set(set), On: target.Get("checked").Bool()})
	case "sheet":
		sheet, _ := strconv.Atoi(arg)
		a.do(state.ChooseSheet{Sheet: sheet, On: target.Get("checked").Bool()})
	case "paper":
		a.do(state.ChoosePaper{Paper: arg})
	case "pace":
		a.do(state.Pace{Speed: target.Get("value").String()})
	default:
		if target.Get("tagName").String() != "BUTTON" {
			a.faceDo(name, arg, e)
		}
	}
}

// zoom goes in or out by a step about the middle.
func (a *app) zoom(way int) {
	by := 1.25
	if way < 0 {
		by = 1 / by
	}
	a.floor.zoom(by, a.floor.wide/2, a.floor.high/2)
}

// key does what a key does. Keys typed in a field are the field's.
func (a *app) key(e js.Value) {
	if a.jobsKey(e) {
		e.Call("preventDefault")
		return
	}
	if e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() || e.Get("defaultPrevented").Bool() {
		return
	}
	target := e.Get("target")
	tag := target.Get("tagName").String()
	key := e.Get("key").String()
	if key == "Escape" && a.page.Keys {
		a.toggleKeys()
		return
	}
	switch tag {
	case "INPUT", "SELECT", "TEXTAREA":
		return
	case "BUTTON", "SUMMARY", "A":
		if key == " " || key == "Enter" {
			return // they are pressed by it
		}
	}
	if a.faceKey(key) {
		e.Call("preventDefault")
		return
	}
	const move = 60 // CSS pixels
	switch key {
	case " ":
		if a.page.State.Playing {
			a.do(state.Pause{})
		} else {
			a.do(state.Play{})
		}
	case "ArrowRight":
		a.do(state.StepBlocks{By: 1})
	case "ArrowLeft":
		a.do(state.StepBlocks{By: -1})
	case "ArrowDown":
		a.do(state.StepRows{By: 1})
	case "ArrowUp":
		a.do(state.StepRows{By: -1})
	case "Home":
		a.do(state.Scrub{})
	case "End":
		a.do(state.Scrub{Laid: float64(a.page.State.Blocks())})
	case "+", "=":
		a.zoom(1)
	case "-", "−":
		a.zoom(-1)
	case "0":
		a.floor.fit()
	case "w", "W":
		a.floor.pan(0, move)
	case "s", "S":
		a.floor.pan(0, -move)
	case "a", "A":
		a.floor.pan(move, 0)
	case "d", "D":
		a.floor.pan(-move, 0)
	case "1", "2", "3", "4":
		a.do(state.GoTo{Stage: []string{"measure", "choose", "strike", "lay"}[key[0]-'1']})
	case "?":
		a.toggleKeys()
	default:
		return
	}
	e.Call("preventDefault")
}

func (a *app) toggleKeys() {
	a.page.Keys = !a.page.Keys
	vecty.Rerender(a.page)
	// The dialog is in the page by the next frame.
	selector := ".keys button"
	if !a.page.Keys {
		selector = ".keys-button"
	}
	later(50, func() {
		if e := a.document.Call("querySelector", selector); !e.IsNull() {
			e.Call("focus")
		}
	})
}

// later calls f after so many milliseconds.
func later(ms int, f func()) {
	var once js.Func
	once = js.FuncOf(func(js.Value, []js.Value) any {
		once.Release()
		f()
		return nil
	})
	js.Global().Call("setTimeout", once, ms)
}

// copyLink copies the address with the whole job in it.
func (a *app) copyLink() {
	a.copyTo(func(text string) {
		a.page.Copied = text
		vecty.Rerender(a.page)
		later(4000, func() {
			a.page.Copied = ""
			vecty.Rerender(a.page)
		})
	})
}

// copyTo copies the address and says what came of it.
func (a *app) copyTo(say func(text string)) {
	clipboard := js.Global().Get("navigator").Get("clipboard")
	if clipboard.IsUndefined() {
		say(a.page.Words.LinkShown)
		return
	}
	promised(clipboard.Call("writeText", a.home()+a.location.Get("hash").String()), func(_ js.Value, ok bool) {
		if ok {
			say(a.page.Words.LinkCopied)
		} else {
			say(a.page.Words.LinkShown)
		}
	})
}

// listenFloor hears wheel, drag and pinch on the picture.
func (a *app) listenFloor(on func(js.Value, string, func(js.Value))) {
	f := a.floor
	box := f.box
	type finger struct{ x, y float64 }
	fingers := map[int]finger{}
	at := func(e js.Value) finger {
		rect := box.Call("getBoundingClientRect")
		return finger{e.Get("clientX").Float() - rect.Get("left").Float(), e.Get("clientY").Float() - rect.Get("top").Float()}
	}
	on(box, "wheel", func(e js.Value) {
		e.Call("preventDefault")
		by := 1.0015
		turn := -e.Get("deltaY").Float()
		if e.Get("deltaMode").Int() == 1 { // lines
			turn *= 30
		}
		p := at(e)
		f.zoom(math.Pow(by, turn), p.x, p.y)
	})
	on(box, "pointerdown", func(e js.Value) {
		if _, _, ok := marked(e, "do"); ok {
			return
		}
		box.Call("setPointerCapture", e.Get("pointerId"))
		fingers[e.Get("pointerId").Int()] = at(e)
	})
	on(box, "pointermove", func(e js.Value) {
		id := e.Get("pointerId").Int()
		before, down := fingers[id]
		if !down {
			return
		}
		now := at(e)
		if len(fingers) == 1 {
			f.pan(now.x-before.x, now.y-before.y)
		} else {
			for other, o := range fingers {
				if other == id {
					continue
				}
				// Two fingers: what lies under them stays under them.
				f.pan((now.x-before.x)/2, (now.y-before.y)/2)
				if d := math.Hypot(before.x-o.x, before.y-o.y); d > 0 {
					f.zoom(math.Hypot(now.x-o.x, now.y-o.y)/d, (now.x+o.x)/2, (now.y+o.y)/2)
				}
				break
			}
		}
		fingers[id] = now
	})
	lift := func(e js.Value) { delete(fingers, e.Get("pointerId").Int()) }
	on(box, "pointerup", lift)
	on(box, "pointercancel", lift)
}

// listenRuler hears a finger on the row ruler.
func (a *app) listenRuler(on func(js.Value, string, func(js.Value))) {
	down := false
	scrub := func(e js.Value) {
		ruler, _ := a.element("ruler")
		rect := ruler.Call("getBoundingClientRect")
		x := (e.Get("clientX").Float() - rect.Get("left").Float()) / rect.Get("width").Float()
		below := e.Get("clientY").Float() > rect.Get("top").Float()+rect.Get("height").Float()/2
		if laid, ok := a.laying.ruler.Laid(x, below); ok {
			a.do(state.Scrub{Laid: laid})
		}
	}
	document := a.document
	on(document, "pointerdown", func(e js.Value) {
		target, ok := e.Get("target"), false
		if !target.Get("closest").IsUndefined() {
			ok = !target.Call("closest", "#ruler").IsNull()
		}
		if ok {
			down = true
			scrub(e)
		}
	})
	on(document, "pointermove", func(e js.Value) {
		if down {
			scrub(e)
		}
	})
	up := func(js.Value) { down = false }
	on(document, "pointerup", up)
	on(document, "pointercancel", up)
}

// light lights up the wall or diagonal on the plan that is typed in.
func (a *app) light(e js.Value) {
	now, ok := a.element("overlay-line")
	if !ok {
		return
	}
	name, _, _ := marked(e, "line")
	now.Call("setAttribute", "d", view.LinePath(a.page.State.Plan, name))
}
