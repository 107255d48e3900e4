//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"
)

// desk is the page's second program, in a worker beside it. It starts when it
// is first asked for something.
type desk struct {
	app    *app
	worker js.Value
	last   int
	asked  map[int]question
	leaf   int    // first row of the list when they were
	filled string // link, stage, leaf and sheets that the boxes were last filled for
}

// question is what the desk was asked about a link: the answer goes into the
// element with that id, if it still shows that, or to then.
type question struct {
	element, link, shows string
	then                 func(text string)
}

// ask asks the desk about the link that is shown.
func (d *desk) ask(what string, q question) {
	if d.worker.IsUndefined() {
		d.worker = js.Global().Call("keelrowDesk")
		d.asked = map[int]question{}
		d.worker.Call("addEventListener", "message", js.FuncOf(func(_ js.Value, args []js.Value) any {
			d.answer(args[0].Get("data"))
			return nil
		}))
		d.worker.Call("addEventListener", "error", js.FuncOf(func(js.Value, []js.Value) any {
			d.stopped()
			return nil
		}))
	}
	d.last++
	d.asked[d.last] = q
	d.worker.Call("postMessage", map[string]any{"id": d.last, "link": q.link, "what": what})
}

// answer puts an answer where it belongs.
func (d *desk) answer(data js.Value) {
	id := data.Get("id").Int()
	if id == 0 {
		d.stopped()
		return
	}
	q := d.asked[id]
	delete(d.asked, id)
	if problem := data.Get("problem"); problem.Truthy() {
		d.show(q, problem.String(), "textContent")
		return
	}
	text := data.Get("text").String()
	if q.then != nil {
		q.then(text)
		return
	}
	d.show(q, text, "innerHTML")
	d.app.marked()
	d.app.faceFilled(q.element)
	d.app.live()
}

// show fills a box. A button in it that had the keyboard has it again.
func (d *desk) show(q question, text, as string) {
	e, ok := d.app.element(q.element)
	if !ok || e.Get("dataset").Get("shows").String() != q.shows {
		return
	}
	focused := ""
	if now := d.app.document.Get("activeElement"); now.Truthy() && e.Call("contains", now).Bool() {
		focused = now.Get("id").String()
	}
	e.Set(as, text)
	e.Call("setAttribute", "aria-busy", "false")
	if focused != "" {
		if again, ok := d.app.element(focused); ok {
			again.Call("focus", map[string]any{"preventScroll": true})
		}
	}
}

// stopped says that the desk does not run: the download broke off, or the
// browser lets no worker start.
func (d *desk) stopped() {
	for id, q := range d.asked {
		delete(d.asked, id)
		d.show(q, d.app.page.Words.DeskStopped, "textContent")
	}
	d.worker = js.Undefined()
}

// settle is how long the desk waits for the typing to end, in ms.
const settle = 200

// changed says that boxes may be on the page which do not show what belongs
// there.
func (d *desk) changed() {
	link, s := d.link(), &d.app.page.State
	d.leaf = s.RowsFrom()
	if key := link + " " + s.View.Stage + s.View.Face + " " + strconv.Itoa(s.RowsFrom()) + strconv.FormatBool(s.Sheets.Open); key != d.filled {
		d.filled = key
		later(settle, func() {
			if d.link() == link {
				d.fill(link)
			}
		})
	}
}

// link returns the link without what makes no difference to the floor.
func (d *desk) link() string {
	l := d.app.page.State.Link
	for _, key := range []string{"laid", "speed", "stage", "show", "paint", "face", "step", "ask", "host",
		"view", "eye", "looking", "light", "north", "beside", "wood", "borderwood", "grade", "finish", "tone", "edge", "joint"} {
		l = l.With(key)
	}
	return l.String()
}

// fill asks for what belongs into the boxes that are on the page and do not
// show it yet. A box names what it wants in data-wants.
func (d *desk) fill(link string) {
	boxes := d.app.document.Call("querySelectorAll", "[data-wants]")
	for i := range boxes.Length() {
		box := boxes.Index(i)
		data := box.Get("dataset")
		wants := data.Get("wants").String()
		shows := wants + " " + link
		if now := data.Get("shows"); now.Truthy() && now.String() == shows {
			continue
		}
		data.Set("shows", shows)
		box.Call("setAttribute", "aria-busy", "true")
		d.ask(wants, question{element: box.Get("id").String(), link: link, shows: shows})
	}
}

// turn turns a box to another leaf of its list.
func (d *desk) turn(e js.Value) {
	wants, _, _ := marked(e, "leaf")
	e.Get("target").Call("closest", "[data-wants]").Get("dataset").Set("wants", wants)
	d.fill(d.link())
}

// showMark shows a line on the plan, or no longer when it is shown already.
func (a *app) showMark(e js.Value) {
	button := e.Get("target").Call("closest", "[data-path]")
	on := button.Call("getAttribute", "aria-pressed").String() != "true"
	a.hideMark()
	if now, ok := a.element("overlay-now"); ok && on {
		button.Call("setAttribute", "aria-pressed", "true")
		now.Call("setAttribute", "d", button.Get("dataset").Get("path"))
	}
}

// hideMark takes the line that is shown off the plan.
func (a *app) hideMark() {
	if now, ok := a.element("overlay-now"); ok {
		now.Call("removeAttribute", "d")
	}
	if button := a.document.Call("querySelector", "[data-path][aria-pressed=true]"); !button.IsNull() {
		button.Call("setAttribute", "aria-pressed", "false")
	}
}

// storage returns the browser's store for this page, if it lets us have it.
func storage() (store js.Value, ok bool) {
	defer func() {
		if recover() != nil { // it is closed to this page
			ok = false
		}
	}()
	// Called, so that what the browser throws can be caught.
	store = js.Global().Get("Reflect").Call("get", js.Global(), "localStorage")
	return store, store.Truthy()
}

// marked puts the ticks that are kept on this device into the lists.
func (a *app) marked() {
	store, ok := storage()
	if !ok {
		return
	}
	boxes := a.document.Call("querySelectorAll", "input[data-tick]")
	for i := range boxes.Length() {
		box := boxes.Index(i)
		kept := store.Call("getItem", a.tickKey(box.Get("dataset").Get("tick").String()))
		box.Set("checked", !kept.IsNull())
	}
}

// tick keeps a tick on this device.
func (a *app) tick(name string, on bool) {
	store, ok := storage()
	if !ok {
		return
	}
	defer func() { _ = recover() }() // the store may be full: the tick is on the page all the same
	if on {
		store.Call("setItem", a.tickKey(name), "1")
	} else {
		store.Call("removeItem", a.tickKey(name))
	}
}

// tickKey names a tick of this floor: the plan's rows, whatever is shown of
// it.
func (a *app) tickKey(name string) string {
	s := &a.page.State
	return "keelrow tick " + strconv.Itoa(s.Blocks()) + " " + strconv.FormatFloat(s.Plan.FieldArea(), 'f', 0, 64) + " " + name
}
