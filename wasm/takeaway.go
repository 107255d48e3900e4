//go:build js && wasm

package main

import (
	"math"
	"strings"
	"syscall/js"
)

// picture paints the floor as it is seen, in a size of its own, on a canvas of
// its own; null where that cannot be done.
func (a *app) picture(wide, high int) js.Value {
	f := a.floor
	if f.painter == nil || f.wide == 0 {
		return js.Null()
	}
	laid := a.page.State.Laid
	if int(laid) >= a.page.State.Blocks() {
		laid = float64(f.scene.Orders)
	}
	return a.pictureOf(wide, high, laid, 0)
}

// pictureOf does the same with so many blocks laid.
func (a *app) pictureOf(wide, high int, laid, landing float64) js.Value {
	f := a.floor
	now := f.view(laid, landing)
	v := now
	v.Width, v.Height = wide, high
	v.Scale *= min(float64(wide)/float64(now.Width), float64(high)/float64(now.Height))
	if f.fitted {
		low, high := a.page.State.Plan.Room()[0].Box()
		size := high.Sub(low)
		v.Centre = low.Add(high).Times(0.5)
		v.Scale = 0.94 * min(float64(v.Width)/size.X, float64(v.Height)/size.Y)
	}
	whole := f.painter.Picture(v)
	f.painter.Frame(now)
	o := &a.show.other
	if whole.IsNull() || o.painter == nil || o.scene == nil {
		return whole
	}
	beside := o.painter.Picture(a.besideView(v))
	o.painter.Frame(a.besideView(now))
	if beside.IsNull() {
		return whole
	}
	from := math.Round(o.at * float64(wide))
	ctx := whole.Call("getContext", "2d")
	ctx.Call("drawImage", beside, from, 0, float64(wide)-from, high, from, 0, float64(wide)-from, high)
	ctx.Set("fillStyle", "#fff")
	line := math.Max(2, float64(wide)/640)
	ctx.Call("fillRect", from-line/2, 0, line, high)
	return whole
}

// takeAway makes what the client or the rep goes away with.
func (a *app) takeAway(what string) {
	w := &a.page.Words.Show
	f := a.floor
	switch what {
	case "picture", "large", "share":
		wide, high := int(math.Round(f.wide*f.ratio)), int(math.Round(f.high*f.ratio))
		if what == "large" {
			wide, high = 3840, 2160
			if f.high > f.wide { // held upright
				wide, high = high, wide
			}
		}
		a.say(w.Working)
		later(30, func() { // once that is said
			picture := a.picture(wide, high)
			if picture.IsNull() {
				a.say(w.NoPicture)
				return
			}
			a.blobOf(picture, func(blob js.Value) {
				if what == "share" {
					a.share(blob)
					return
				}
				a.save(blob, "keelrow-floor.png")
				a.say(strings.ReplaceAll(w.Saved, "{name}", "keelrow-floor.png"))
			})
		})
	case "video":
		a.record()
	case "sheet":
		a.clientSheet()
	case "link":
		a.copyTo(a.say)
	}
}

// blobOf makes a file of a canvas.
func (a *app) blobOf(canvas js.Value, then func(blob js.Value)) {
	var once js.Func
	once = js.FuncOf(func(_ js.Value, args []js.Value) any {
		once.Release()
		if args[0].IsNull() {
			a.say(a.page.Words.Show.NoPicture)
		} else {
			then(args[0])
		}
		return nil
	})
	canvas.Call("toBlob", once, "image/png")
}

// share hands the picture and the link to what the device shares with.
func (a *app) share(blob js.Value) {
	navigator := js.Global().Get("navigator")
	file := js.Global().Get("File").New([]any{blob}, "keelrow-floor.png", map[string]any{"type": "image/png"})
	what := map[string]any{"files": []any{file}, "text": a.home() + "#" + a.page.State.Address()}
	if !navigator.Get("canShare").Truthy() || !navigator.Call("canShare", what).Bool() {
		a.say(a.page.Words.Show.NotTaken)
		return
	}
	a.say("")
	// A person who thinks better of it is no fault.
	var ended js.Func
	ended = js.FuncOf(func(js.Value, []js.Value) any {
		ended.Release()
		return nil
	})
	navigator.Call("share", what).Call("then", ended, ended)
}

// clientSheet prints a sheet for the client: the picture, the choice in words.
func (a *app) clientSheet() {
	picture := a.picture(1600, 1000)
	link := a.page.State.Address()
	a.say(a.page.Words.Show.Working)
	a.desk.ask("client "+a.home()+" "+a.today(), question{element: "show-said", link: link, then: func(html string) {
		a.say("")
		sheets := a.toPaper(html, a.page.State.Paper())
		place := sheets.Call("querySelector", "img")
		if picture.IsNull() || place.IsNull() {
			js.Global().Call("print")
			return
		}
		place.Set("src", picture.Call("toDataURL", "image/jpeg", 0.9))
		var seen js.Func
		seen = js.FuncOf(func(js.Value, []js.Value) any {
			seen.Release()
			js.Global().Call("print")
			return nil
		})
		place.Call("decode").Call("then", seen, seen)
	}})
}

const (
	videoWide, videoHigh = 1280, 720
	videoGrows           = 6.5 // seconds
	videoLasts           = 7.5
)

// record films how the floor grows, out of sight.
func (a *app) record() {
	s, w := &a.show, &a.page.Words.Show
	recorder := js.Global().Get("MediaRecorder")
	canvas := a.document.Call("createElement", "canvas")
	if !recorder.Truthy() || !canvas.Get("captureStream").Truthy() {
		a.say(w.NoVideo)
		return
	}
	kind := ""
	for _, k := range []string{"video/mp4;codecs=avc1.42E01F", "video/webm;codecs=vp9", "video/webm;codecs=vp8", "video/webm"} {
		if recorder.Call("isTypeSupported", k).Bool() {
			kind = k
			break
		}
	}
	if kind == "" {
		a.say(w.NoVideo)
		return
	}
	if s.recording {
		return
	}
	s.recording = true
	canvas.Set("width", videoWide)
	canvas.Set("height", videoHigh)
	ctx := canvas.Call("getContext", "2d")
	film := recorder.New(canvas.Call("captureStream", 30), map[string]any{"mimeType": kind, "videoBitsPerSecond": 8_000_000})
	parts := js.Global().Get("Array").New()
	var frame, data, ended, failed js.Func
	over := func(text string) {
		s.recording = false
		for _, f := range []js.Func{frame, data, ended, failed} {
			f.Release()
		}
		a.say(text)
	}
	data = js.FuncOf(func(_ js.Value, args []js.Value) any {
		parts.Call("push", args[0].Get("data"))
		return nil
	})
	ended = js.FuncOf(func(js.Value, []js.Value) any {
		kind, _, _ := strings.Cut(kind, ";")
		name := "keelrow-floor." + strings.TrimPrefix(kind, "video/")
		a.save(js.Global().Get("Blob").New(parts, map[string]any{"type": kind}), name)
		over(strings.ReplaceAll(w.Saved, "{name}", name))
		return nil
	})
	failed = js.FuncOf(func(js.Value, []js.Value) any {
		film.Set("onstop", js.Null())
		over(w.NoRecord)
		return nil
	})
	begun := -1.0
	frame = js.FuncOf(func(_ js.Value, args []js.Value) any {
		now := args[0].Float() / 1000
		if begun < 0 {
			begun = now
			film.Call("start", 500)
		}
		t := now - begun
		all := float64(a.floor.scene.Orders)
		laid := min(all, t/videoGrows*all)
		if picture := a.pictureOf(videoWide, videoHigh, laid, max(1, landing*all/videoGrows)); !picture.IsNull() {
			ctx.Call("drawImage", picture, 0, 0)
		}
		if t < videoLasts {
			js.Global().Call("requestAnimationFrame", frame)
		} else {
			film.Call("stop")
		}
		return nil
	})
	film.Set("ondataavailable", data)
	film.Set("onstop", ended)
	film.Set("onerror", failed)
	a.say(w.Recording)
	js.Global().Call("requestAnimationFrame", frame)
}
