//go:build js && wasm

package paint

import (
	"syscall/js"

	"keelrow/engine/plane"
	"keelrow/wasm/scene"
)

// flat paints blocks in flat tones on a 2D canvas. What is painted stays:
// while the view is the same only new blocks are added. A new view of a large
// floor is painted piece by piece on a second canvas, with the old picture
// moved and stretched in its place until that is done.
type flat struct {
	canvas        js.Value
	wake          func()
	lost          bool
	onLost, onNew js.Func
	path2D, now   js.Value

	scene   *scene.Scene
	batches []batch
	texts   [buckets][]byte // paths under way
	counts  [buckets]int

	view    scene.View // of what the canvas shows
	valid   bool       // whether it shows anything
	painted int        // instances painted, on the sheet while there is one
	front   sheet
	back    sheet // made when first needed
	fresh   bool  // a new picture is under way on the back sheet
	colours [buckets]string
	joint   string
}

// sheet is a canvas with its methods bound.
type sheet struct {
	canvas                  js.Value
	ctx                     js.Value
	set, fill, stroke, rect js.Value
}

// batch is a stretch of the laying order with the paths of its blocks, kept
// from the first time they are painted.
type batch struct {
	from, to  int // instances
	low, high plane.Point
	paths     []tonedPath
}

type tonedPath struct {
	bucket int
	path   js.Value
}

const (
	tones    = 6
	buckets  = 3 * tones // left, right, border
	perBatch = 768       // blocks; enough for paths of nearly perPath each
	perPath  = 64        // beyond, Chromium's paths get slow

	// A frame's share: script time, and instances, which the browser
	// rasters after the script is done.
	shareMS        = 10
	shareInstances = 8000
	// At most so many instances are painted straight over the old picture.
	atOnce = 6000
)

func newFlat(canvas js.Value, o Options) Painter {
	p := &flat{canvas: canvas, wake: o.Wake}
	var ok bool
	if p.front, ok = sheetOf(canvas); !ok {
		return nil
	}
	p.path2D = js.Global().Get("Path2D")
	performance := js.Global().Get("performance")
	p.now = performance.Get("now").Call("bind", performance)
	p.onLost = js.FuncOf(func(js.Value, []js.Value) any {
		p.lost = true
		return nil
	})
	p.onNew = js.FuncOf(func(js.Value, []js.Value) any {
		p.lost, p.valid, p.fresh = false, false, false
		p.wake()
		return nil
	})
	canvas.Call("addEventListener", "contextlost", p.onLost)
	canvas.Call("addEventListener", "contextrestored", p.onNew)
	return p
}

func sheetOf(canvas js.Value) (sheet, bool) {
	ctx := canvas.Call("getContext", "2d")
	if ctx.IsNull() {
		return sheet{}, false
	}
	bound := func(method string) js.Value { return ctx.Get(method).Call("bind", ctx) }
	ctx.Set("lineJoin", "bevel")
	return sheet{canvas, ctx, bound("setTransform"), bound("fill"), bound("stroke"), bound("fillRect")}, true
}

func (p *flat) Show(s *scene.Scene) {
	p.scene, p.valid, p.fresh = s, false, false
	p.batches = p.batches[:0]
	for i := 0; i < s.Instances(); {
		b := batch{from: i, low: s.Middle(i), high: s.Middle(i)}
		after := s.Order(i) + perBatch
		for i < s.Instances() && s.Order(i) < after {
			m := s.Middle(i)
			b.low = plane.Point{X: min(b.low.X, m.X), Y: min(b.low.Y, m.Y)}
			b.high = plane.Point{X: max(b.high.X, m.X), Y: max(b.high.Y, m.Y)}
			i++
		}
		b.to = i
		p.batches = append(p.batches, b)
	}
}

// Surround takes no walls: this painter has only the plan.
func (p *flat) Surround(*scene.Shell) {}

func (p *flat) Frame(v scene.View) bool {
	if p.lost || p.scene == nil || v.Width <= 0 || v.Height <= 0 {
		return false
	}
	n := p.scene.Laid(v.Laid)
	if !p.valid || !sameView(v, p.view) || n < p.painted {
		p.start(v, n)
	}
	to := &p.front
	if p.fresh {
		to = &p.back
	}
	if p.painted < n {
		p.prepare(to)
		p.paint(to, n)
	}
	if p.painted < n {
		return true
	}
	if p.fresh {
		p.fresh = false
		p.front.set.Invoke(1, 0, 0, 1, 0, 0)
		p.front.ctx.Call("drawImage", p.back.canvas, 0, 0)
	}
	return false
}

// sameView says whether what is painted of one view is right in the other.
func sameView(v, w scene.View) bool {
	v.Laid, v.Landing, v.Eye, v.Blend = w.Laid, w.Landing, w.Eye, w.Blend
	return v == w
}

// start begins a new picture.
func (p *flat) start(v scene.View, n int) {
	old, moved := p.view, p.valid && n >= p.painted
	p.view, p.valid, p.painted, p.fresh = v, true, 0, false
	p.mixColours()
	if size := (v.Width != old.Width || v.Height != old.Height); size || !moved {
		if size || p.canvas.Get("width").Int() != v.Width || p.canvas.Get("height").Int() != v.Height {
			p.canvas.Set("width", v.Width)
			p.canvas.Set("height", v.Height)
		}
		moved = false
	}
	if n <= atOnce {
		p.clear(&p.front)
		return
	}
	if p.back.canvas.IsUndefined() {
		made := js.Global().Get("document").Call("createElement", "canvas")
		p.back, _ = sheetOf(made)
	}
	p.back.canvas.Set("width", v.Width)
	p.back.canvas.Set("height", v.Height)
	p.clear(&p.back)
	p.fresh = true
	if !moved {
		p.clear(&p.front)
		return
	}
	k := v.Scale / old.Scale
	w, h := float64(v.Width), float64(v.Height)
	shift := old.Centre.Sub(v.Centre).Times(v.Scale)
	ctx := p.front.ctx
	p.front.set.Invoke(1, 0, 0, 1, 0, 0)
	ctx.Set("globalCompositeOperation", "copy")
	ctx.Call("drawImage", p.front.canvas, w/2-w/2*k+shift.X, h/2-h/2*k-shift.Y, w*k, h*k)
	ctx.Set("globalCompositeOperation", "destination-over")
	p.clear(&p.front)
	ctx.Set("globalCompositeOperation", "source-over")
}

// clear fills a sheet with paper.
func (p *flat) clear(to *sheet) {
	to.set.Invoke(1, 0, 0, 1, 0, 0)
	to.ctx.Set("fillStyle", p.view.Paper.CSS())
	to.rect.Invoke(0, 0, p.view.Width, p.view.Height)
}

// mixColours works out the flat tones of the view.
func (p *flat) mixColours() {
	v := p.view
	low, high := p.scene.Low, p.scene.High
	middle := p.scene.Anchor.Add(low.Add(high).Times(0.5))
	field, edging := v.Look.Field(), v.Look.Edging()
	along := p.scene.Shape.Along
	both := along[0].Add(along[1]) // border strips run between the hands
	for i := range p.colours {
		of, way := edging, both
		if hand := i / tones; hand < 2 {
			of, way = field, along[hand]
		}
		tone := 0.15 + 0.7*(float64(i%tones)+0.5)/tones
		p.colours[i] = of.At(tone).By(v.Light.Seen(of, [2]float64{way.X, way.Y}, middle.X, middle.Y)).Colour().CSS()
	}
	// As in the wood painter: a joint finer than a pixel is a pixel wide and
	// weaker, and blocks a few pixels wide are not drowned in joints.
	strength := 0.36 + 0.5*min(1, 2*halfJoint*v.Scale)
	strength *= min(1, max(0, (2*p.scene.Shape.HalfWidth*v.Scale-0.8)/3))
	p.joint = ""
	if sixteenths := int(strength * 15); sixteenths > 0 {
		p.joint = field.Joint.Colour().CSS() + "0123456789abcdef"[sixteenths:sixteenths+1] + "0"
	}
}

// prepare sets what all paths have in common.
func (p *flat) prepare(to *sheet) {
	v := p.view
	c := v.Centre.Sub(p.scene.Anchor)
	k := v.Scale * scene.PathUnit
	to.set.Invoke(k, 0, 0, -k, float64(v.Width)/2-c.X*v.Scale, float64(v.Height)/2+c.Y*v.Scale)
	if p.joint != "" {
		to.ctx.Set("strokeStyle", p.joint)
	}
	to.ctx.Set("lineWidth", max(2*halfJoint, 1/v.Scale)/scene.PathUnit)
}

// paint goes on painting up to instance n until the frame's share is used.
func (p *flat) paint(to *sheet, n int) {
	begun, from := p.now.Invoke().Float(), p.painted
	for p.painted < n {
		b := &p.batches[p.batchOf(p.painted)]
		switch {
		case !p.seen(b):
			p.painted = min(n, b.to)
		case p.painted == b.from && b.to <= n:
			if b.paths == nil {
				p.collect(b.from, b.to, func(t tonedPath) { b.paths = append(b.paths, t) })
			}
			for _, t := range b.paths {
				p.draw(to, t)
			}
			p.painted = b.to
		default: // part of a batch: its paths are not worth keeping
			upTo := min(n, b.to)
			p.collect(p.painted, upTo, func(t tonedPath) { p.draw(to, t) })
			p.painted = upTo
		}
		if p.painted-from >= shareInstances || p.now.Invoke().Float()-begun >= shareMS {
			return
		}
	}
}

func (p *flat) draw(to *sheet, t tonedPath) {
	to.ctx.Set("fillStyle", p.colours[t.bucket])
	to.fill.Invoke(t.path)
	if p.joint != "" {
		to.stroke.Invoke(t.path)
	}
}

// batchOf returns the batch of an instance.
func (p *flat) batchOf(instance int) int {
	low, high := 0, len(p.batches)
	for low < high {
		if middle := (low + high) / 2; p.batches[middle].to <= instance {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low
}

// seen says whether any of a batch can be on the canvas.
func (p *flat) seen(b *batch) bool {
	v := p.view
	reach := max(2*p.scene.Shape.HalfLength, scene.LongestPlank)
	c := v.Centre.Sub(p.scene.Anchor)
	w, h := float64(v.Width)/v.Scale/2+reach, float64(v.Height)/v.Scale/2+reach
	return b.low.X < c.X+w && b.high.X > c.X-w && b.low.Y < c.Y+h && b.high.Y > c.Y-h
}

// collect makes the paths of some instances, one for each tone or more.
func (p *flat) collect(from, to int, each func(tonedPath)) {
	s := p.scene
	flush := func(k int) {
		if p.counts[k] > 0 {
			each(tonedPath{k, p.path2D.New(string(p.texts[k]))})
			p.texts[k], p.counts[k] = p.texts[k][:0], 0
		}
	}
	for i := from; i < to; {
		k := s.Hand(i) * tones
		if s.Kind(i) == scene.Border {
			k = 2 * tones
		}
		k += min(tones-1, max(0, int((scene.Tone(s.Seed(i))-0.15)/0.7*tones)))
		p.texts[k], i = s.AppendPath(p.texts[k], i)
		if p.counts[k]++; p.counts[k] == perPath {
			flush(k)
		}
	}
	for k := range p.texts {
		flush(k)
	}
}

func (p *flat) Picture(v scene.View) js.Value {
	canvas := js.Global().Get("document").Call("createElement", "canvas")
	once := newFlat(canvas, Options{Wake: func() {}})
	if once == nil || p.scene == nil {
		return js.Null()
	}
	once.Show(p.scene)
	for once.Frame(v) {
	}
	once.Release()
	return canvas
}

func (p *flat) Lost() bool { return p.lost }

func (p *flat) Stands() bool { return false }

func (p *flat) Release() {
	p.canvas.Call("removeEventListener", "contextlost", p.onLost)
	p.canvas.Call("removeEventListener", "contextrestored", p.onNew)
	p.onLost.Release()
	p.onNew.Release()
	p.lost, p.scene, p.batches = true, nil, nil
}
