//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"

	"keelrow/wasm/state"
)

// print sets the sheets that are chosen and hands them to the browser to
// print. The desk does the setting, so they come a moment later.
func (a *app) print() {
	chosen := strings.Join(a.page.SheetsChosen(), ",")
	if chosen == "" {
		return
	}
	paper := a.page.State.Paper()
	a.fetch("sheets "+chosen+" "+paper+" "+a.home()+" "+a.today(), func(html string) {
		a.toPaper(html, paper)
		js.Global().Call("print")
	})
}

// today returns the date as a sheet says it.
func (a *app) today() string {
	lang := js.Global().Get("navigator").Get("language").String()
	if !strings.HasPrefix(lang, a.page.Words.Lang) {
		lang = a.page.Words.Lang
	}
	return js.Global().Get("Date").New().Call("toLocaleDateString", lang,
		map[string]any{"year": "numeric", "month": "long", "day": "numeric"}).String()
}

// toPaper puts sheets into the page, for a size of paper.
func (a *app) toPaper(html, paper string) (sheets js.Value) {
	a.shelve()
	sheets = a.document.Call("createElement", "div")
	sheets.Set("className", "sheets "+strings.ToLower(paper))
	sheets.Set("innerHTML", html)
	a.document.Get("body").Call("append", sheets)
	// A page's size can only be given in a style sheet, and inline ones are
	// not allowed.
	size := js.Global().Get("CSSStyleSheet").New()
	size.Call("replaceSync", "@page{size:"+paper+";margin:0}")
	a.document.Set("adoptedStyleSheets", []any{size})
	return sheets
}

// shelve takes the sheets out of the page again. They stay after printing,
// since some browsers say that it is over while they still look at the page,
// but not once anything has changed.
func (a *app) shelve() {
	if old := a.document.Call("querySelector", "body > .sheets"); !old.IsNull() {
		old.Call("remove")
		a.document.Set("adoptedStyleSheets", []any{})
	}
}

// shelved takes out sheets that no longer show what the page does.
func (a *app) shelved(before, next *state.State) {
	if before.Plan != next.Plan || before.View != next.View || before.Sheets != next.Sheets {
		a.shelve()
	}
}

// kinds is the media types of files, by how their names end.
var kinds = map[string]string{"svg": "image/svg+xml", "dxf": "image/vnd.dxf", "csv": "text/csv", "json": "application/json"}

// file makes a file of the floor and hands it to the browser to keep.
func (a *app) file(kind string) {
	a.fetch("file "+kind, func(text string) {
		// floor.svg, but marks.csv.
		name := kind
		if !strings.Contains(kind, ".") {
			name = "floor." + kind
		}
		a.hand(text, kinds[name[strings.LastIndexByte(name, '.')+1:]], "keelrow-"+name, a.page.Jobs.Shared, a.sheetsSaid)
	})
}

// save hands a file to the browser to keep.
func (a *app) save(blob js.Value, name string) {
	url := js.Global().Get("URL").Call("createObjectURL", blob)
	link := a.document.Call("createElement", "a")
	link.Set("href", url)
	link.Set("download", name)
	link.Call("click")
	later(60_000, func() { js.Global().Get("URL").Call("revokeObjectURL", url) })
}

// home returns the page's address without a link. As one file the page has
// that of where it was taken from, if it was taken from anywhere.
func (a *app) home() string {
	return a.document.Get("documentElement").Get("dataset").Get("home").String()
}

// oneFile hands the page over as one file with this job in it.
func (a *app) oneFile() {
	a.sheetsSaid(a.page.Words.DeskWorks)
	var said js.Func
	said = js.FuncOf(func(_ js.Value, args []js.Value) any {
		said.Release()
		text := a.page.Words.Sheets.NoOneFile
		if args[0].Bool() {
			text = strings.ReplaceAll(a.page.Words.Sheets.Saved, "{name}", "keelrow.html")
		}
		a.sheetsSaid(text)
		return nil
	})
	js.Global().Call("keelrowOneFile", a.page.State.Address(), said)
}

// fetch asks the desk for sheets or a file and says that it is at work. A
// problem is said in the same place.
func (a *app) fetch(what string, then func(text string)) {
	link := a.desk.link()
	said, ok := a.element("sheets-said")
	if !ok {
		return
	}
	said.Get("dataset").Set("shows", link)
	a.sheetsSaid(a.page.Words.DeskWorks)
	a.desk.ask(what, question{element: "sheets-said", link: link, shows: link, then: func(text string) {
		a.sheetsSaid("")
		then(text)
	}})
}

func (a *app) sheetsSaid(text string) {
	if said, ok := a.element("sheets-said"); ok {
		said.Set("textContent", text)
	}
}
