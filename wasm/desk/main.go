//go:build js && wasm

// Command desk is the page's second program. It runs in a worker beside the
// page and works out, from the link alone, what the page shows only on
// demand: tables of marks, leftovers and cuts, sheets to print and files to
// take away. So the first load stays small, and no long table holds up a
// frame.
//
// The worker (site/desk.js) calls keelrowDesk(link, what) and passes on what
// it returns: {text} or {problem}.
package main

import "syscall/js"

func main() {
	js.Global().Set("keelrowDesk", js.FuncOf(func(_ js.Value, args []js.Value) any {
		text, problem := answer(args[0].String(), args[1].String())
		return js.ValueOf(map[string]any{"text": text, "problem": problem})
	}))
	js.Global().Call("keelrowDeskReady")
	select {}
}

// answer works out one thing. A panic is a sentence, like any other problem.
func answer(link, what string) (text, problem string) {
	defer func() {
		if p := recover(); p != nil {
			text, problem = "", "This could not be worked out for this floor."
		}
	}()
	return work(link, what)
}
