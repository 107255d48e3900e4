//go:build js && wasm

package paint

import (
	"encoding/binary"
	"errors"
	"math"
	"strings"
	"syscall/js"

	"keelrow/wasm/look"
	"keelrow/wasm/scene"
)

// webGL draws the whole scene in one call a frame, and the walls of a standing
// view in one more. The buffers hold the scene's bytes as they are; the view
// goes over as fields of uniforms.
type webGL struct {
	canvas        js.Value
	gl            js.Value
	wake          func()
	lost          bool
	onLost, onNew js.Func

	scene         *scene.Scene
	shell         *scene.Shell
	width, height int

	// The fields of a frame as bytes here, as bytes there, and the same
	// memory there as numbers.
	fields         [fields * 16]byte
	filled         int // bytes of them
	there, numbers js.Value
	floor, walls   part
	methods        [len(methods)]js.Value // bound to gl, which halves a call
}

// part is a program with what it draws.
type part struct {
	program js.Value
	place   js.Value // of the fields in it
	array   js.Value // of its attributes
	buffer  js.Value
}

// methods is what a frame calls.
var methods = [...]string{"clearColor", "clear", "uniform4fv", "drawArraysInstanced", "viewport", "useProgram",
	"bindVertexArray", "enable", "disable", "depthMask"}

// The methods by their places.
const (
	clearColor = iota
	wipe
	setFields
	draw
	viewport
	use
	bind
	enable
	disable
	mask
)

// fields is how many four-number uniforms a frame has:
//
//	0 to 2  rows of the view's matrix
//	3       laid, landing, how far blocks slide in mm, half a joint in mm
//	4       the direction to the eye: a and k of View.Towards
//	5       the direction to the sun and 0, or the place of a window or lamp and 1
//	6       the light's own light; the cube of its distance from the middle of the floor
//	7       light from all sides; the blend to the standing view
//	8       paper; how wide the eased edge is in mm
//	9       joint; a strand's width in mm
//	10      half length, half width, skew of a left and of a right block
//	11      the way a left block lies, the way a right block lies
//	12      the coat: strength and gloss; height of the ceiling; number of windows
//	13      fibres: strength and width of the field's, of the border's
//	14      tilt of the fibres and spread of the tones, of the field and the border
//	15 on   two palettes of 5: lightest and rings, middle and pores, darkest
//	        and rays, figure and clouds; then long, wide, knots, mm a pixel in plan
//	25 on   windows, each: middle and half its height; half its width as a
//	        vector and the way into the room
const (
	atWindows  = 25
	maxWindows = 4
	fields     = atWindows + 2*maxWindows
)

// What WebGL 2.0 calls things (Khronos, WebGL 2.0 Specification, section 3.7,
// and OpenGL ES 3.0).
const (
	arrayBuffer        = 0x8892
	float              = 0x1406
	short              = 0x1402
	unsignedShort      = 0x1403
	staticDraw         = 0x88e4
	texture2D          = 0x0de1
	rgba               = 0x1908
	rgba8              = 0x8058
	unsignedByte       = 0x1401
	framebuffer        = 0x8d40
	colorAttachment0   = 0x8ce0
	textureMinFilter   = 0x2801
	linearMipmapLinear = 0x2703
	triangles          = 4
	triangleStrip      = 5
	lessOrEqual        = 0x0203
	cullFace           = 0x0b44
	depthTest          = 0x0b71
	compileStatus      = 0x8b81
	linkStatus         = 0x8b82
	vertexShader       = 0x8b31
	fragmentShader     = 0x8b30
	nameOfRenderer     = 0x1f01
	textureBinding2D   = 0x8069
	colorBufferBit     = 0x4000
	depthBufferBit     = 0x0100
)

const (
	halfJoint = 0.35 // mm, as an eased joint looks
	slide     = 0.45 // of a block's length, from where it is let go to home
	bevel     = 1.1  // mm, as an eased edge looks
	sharp     = 0.25 // and a square one
)

const (
	tileLong, tileWide = 512, 512 // texels of the grain tile
)

// The sheet that a picture is put together on is drawn in parts no larger, in
// pixels: every WebGL2 has at least this much.
const tile = 2048

// newWebGL returns nil and no error where there is no WebGL2 worth having.
func newWebGL(canvas js.Value, o Options) (Painter, error) {
	if o.Force != WebGL && drawnBySoftware() {
		return nil, nil
	}
	gl := contextOf(canvas, o.Force != WebGL)
	if gl.IsNull() {
		return nil, nil
	}
	p := &webGL{canvas: canvas, gl: gl, wake: o.Wake}
	p.onLost = js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault") // or it never comes back
		p.lost = true
		return nil
	})
	p.onNew = js.FuncOf(func(js.Value, []js.Value) any {
		p.lost = p.build() != nil
		if !p.lost {
			p.upload()
			p.wake()
		}
		return nil
	})
	canvas.Call("addEventListener", "webglcontextlost", p.onLost)
	canvas.Call("addEventListener", "webglcontextrestored", p.onNew)
	p.there = js.Global().Get("Uint8Array").New(len(p.fields))
	p.numbers = js.Global().Get("Float32Array").New(p.there.Get("buffer"))
	if err := p.build(); err != nil {
		p.Release()
		return nil, err
	}
	return p, nil
}

// contextOf asks a canvas for WebGL2, or for none where it would be slow. It
// needs depth because walls of a standing view hide what is behind them.
func contextOf(canvas js.Value, fast bool) js.Value {
	wish := js.Global().Get("JSON").Call("parse", `{"alpha":false,"antialias":true,"depth":true,"stencil":false,"powerPreference":"low-power"}`)
	wish.Set("failIfMajorPerformanceCaveat", fast)
	return canvas.Call("getContext", "webgl2", wish)
}

// drawnBySoftware says whether WebGL is there but drawn by the processor. Not
// every browser counts that as a major caveat. It is found out on a canvas of
// its own, because one that has had a WebGL context takes no other.
func drawnBySoftware() bool {
	probe := js.Global().Get("document").Call("createElement", "canvas")
	gl := contextOf(probe, true)
	if gl.IsNull() {
		return true
	}
	renderer := gl.Call("getParameter", nameOfRenderer)
	if renderer.Type() == js.TypeString && strings.HasPrefix(renderer.String(), "WebKit") {
		// A browser that says only this has an extension for the rest.
		if ext := gl.Call("getExtension", "WEBGL_debug_renderer_info"); !ext.IsNull() {
			renderer = gl.Call("getParameter", ext.Get("UNMASKED_RENDERER_WEBGL"))
		}
	}
	if ext := gl.Call("getExtension", "WEBGL_lose_context"); !ext.IsNull() {
		ext.Call("loseContext")
	}
	if renderer.Type() != js.TypeString {
		return false
	}
	name := strings.ToLower(renderer.String())
	for _, software := range []string{"swiftshader", "llvmpipe", "softpipe", "software", "basic render"} {
		if strings.Contains(name, software) {
			return true
		}
	}
	return false
}

// call calls a method of a frame.
func (p *webGL) call(method int, args ...any) { p.methods[method].Invoke(args...) }

// build makes everything that lives in the context.
func (p *webGL) build() (err error) {
	gl := p.gl
	p.width, p.height = 0, 0
	if err := p.bakeGrain(); err != nil {
		return err
	}
	p.floor, err = p.part(blockVertex, blockFragment, scene.Stride, []attribute{
		{2, float, scene.AtMiddle},
		{4, short, scene.AtCorners},
		{4, short, scene.AtCorners + 8},
		{2, short, scene.AtDirection},
		{1, float, scene.AtOrder},
		{1, float, scene.AtScale},
		{1, unsignedShort, scene.AtSeed},
		{1, unsignedShort, scene.AtKind}, // with the hand in the upper byte
	})
	if err != nil {
		return err
	}
	p.walls, err = p.part(wallVertex, wallFragment, scene.ShellStride, []attribute{{4, float, 0}, {4, float, 16}, {4, float, 32}})
	if err != nil {
		return err
	}
	gl.Call("depthFunc", lessOrEqual)
	for i, method := range methods {
		p.methods[i] = gl.Get(method).Call("bind", gl)
	}
	return nil
}

// attribute is a part of an instance.
type attribute struct {
	size int
	kind int
	at   int // bytes from the instance's beginning
}

// part makes a program with an empty buffer of instances.
func (p *webGL) part(vertex, fragment string, stride int, attributes []attribute) (part, error) {
	gl := p.gl
	program, err := p.program(vertex, fragment)
	if err != nil {
		return part{}, err
	}
	a := part{program, gl.Call("getUniformLocation", program, "v"), gl.Call("createVertexArray"), gl.Call("createBuffer")}
	gl.Call("bindVertexArray", a.array)
	gl.Call("bindBuffer", arrayBuffer, a.buffer)
	for i, attribute := range attributes {
		gl.Call("enableVertexAttribArray", i)
		if attribute.kind == unsignedShort {
			gl.Call("vertexAttribIPointer", i, attribute.size, attribute.kind, stride, attribute.at)
		} else {
			gl.Call("vertexAttribPointer", i, attribute.size, attribute.kind, false, stride, attribute.at)
		}
		gl.Call("vertexAttribDivisor", i, 1)
	}
	return a, nil
}

// program compiles and links.
func (p *webGL) program(vertex, fragment string) (js.Value, error) {
	gl := p.gl
	program := gl.Call("createProgram")
	for _, part := range []struct {
		kind int
		text string
	}{{vertexShader, vertex}, {fragmentShader, fragment}} {
		shader := gl.Call("createShader", part.kind)
		gl.Call("shaderSource", shader, part.text)
		gl.Call("compileShader", shader)
		gl.Call("attachShader", program, shader)
		if !gl.Call("getShaderParameter", shader, compileStatus).Truthy() {
			return program, errors.New("the graphics driver does not take the floor's program: " +
				gl.Call("getShaderInfoLog", shader).String())
		}
	}
	gl.Call("linkProgram", program)
	if !gl.Call("getProgramParameter", program, linkStatus).Truthy() {
		return program, errors.New("the graphics driver does not take the floor's program: " +
			gl.Call("getProgramInfoLog", program).String())
	}
	return program, nil
}

// bakeGrain draws the grain tile once and lets the card make the smaller
// sizes of it, which is what keeps grain from shimmering.
func (p *webGL) bakeGrain() error {
	gl := p.gl
	program, err := p.program(grainVertex, grainFragment)
	if err != nil {
		return err
	}
	gl.Call("bindTexture", texture2D, gl.Call("createTexture"))
	gl.Call("texImage2D", texture2D, 0, rgba8, tileLong, tileWide, 0, rgba, unsignedByte, nil)
	frame := gl.Call("createFramebuffer")
	gl.Call("bindFramebuffer", framebuffer, frame)
	gl.Call("framebufferTexture2D", framebuffer, colorAttachment0, texture2D, gl.Call("getParameter", textureBinding2D), 0)
	gl.Call("useProgram", program)
	gl.Call("uniform2f", gl.Call("getUniformLocation", program, "size"), tileLong, tileWide)
	gl.Call("viewport", 0, 0, tileLong, tileWide)
	gl.Call("drawArrays", triangles, 0, 3)
	gl.Call("bindFramebuffer", framebuffer, nil)
	gl.Call("deleteFramebuffer", frame)
	gl.Call("deleteProgram", program)
	gl.Call("generateMipmap", texture2D)
	gl.Call("texParameteri", texture2D, textureMinFilter, linearMipmapLinear)
	if ext := gl.Call("getExtension", "EXT_texture_filter_anisotropic"); !ext.IsNull() {
		// The tile is squeezed across the grain, so plain filtering would
		// blur the grain away long before it is too fine to see.
		gl.Call("texParameterf", texture2D, ext.Get("TEXTURE_MAX_ANISOTROPY_EXT"), 4)
	}
	return nil
}

func (p *webGL) Show(s *scene.Scene) {
	p.scene = s
	p.upload()
}

func (p *webGL) Surround(s *scene.Shell) {
	p.shell = s
	p.upload()
}

// upload copies the scene and its shell to the card, each in one go.
func (p *webGL) upload() {
	if p.lost || p.scene == nil {
		return
	}
	p.fillBuffer(&p.floor, p.scene.Data)
	if p.shell != nil {
		p.fillBuffer(&p.walls, p.shell.Bytes(p.scene.Anchor))
	}
}

func (p *webGL) fillBuffer(a *part, data []byte) {
	if len(data) == 0 {
		return
	}
	p.gl.Call("bindBuffer", arrayBuffer, a.buffer)
	bytes := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(bytes, data)
	p.gl.Call("bufferData", arrayBuffer, bytes, staticDraw)
}

func (p *webGL) Frame(v scene.View) bool {
	if p.lost || p.scene == nil || v.Width <= 0 || v.Height <= 0 {
		return false
	}
	p.size(v.Width, v.Height)
	p.fill(v, v.Matrix(p.scene.Anchor))
	p.paint(v)
	return false
}

// size makes the canvas so large.
func (p *webGL) size(width, height int) {
	if width != p.width || height != p.height {
		p.width, p.height = width, height
		p.canvas.Set("width", width)
		p.canvas.Set("height", height)
		p.call(viewport, 0, 0, width, height)
	}
}

// paint draws what the fields say.
func (p *webGL) paint(v scene.View) {
	r, g, b := parts(v.Paper)
	p.call(clearColor, r, g, b, 1)
	js.CopyBytesToJS(p.there, p.fields[:])
	stands := v.Blend > 0 && p.shell != nil
	if stands {
		p.call(mask, true)
		p.call(wipe, colorBufferBit|depthBufferBit)
		p.call(enable, depthTest)
		p.call(enable, cullFace) // walls are seen from inside only
		p.instances(&p.walls, p.shell.Instances())
		p.call(disable, cullFace)
		p.call(mask, false)
	} else {
		p.call(disable, depthTest)
		p.call(wipe, colorBufferBit)
	}
	if n := p.scene.Laid(v.Laid); n > 0 {
		p.instances(&p.floor, n)
	}
}

// instances draws the first so many instances of a part.
func (p *webGL) instances(a *part, n int) {
	p.call(use, a.program)
	p.call(bind, a.array)
	p.call(setFields, a.place, p.numbers)
	p.call(draw, triangleStrip, 0, 4, n)
}

func (p *webGL) Picture(v scene.View) js.Value {
	if p.lost || p.scene == nil || v.Width <= 0 || v.Height <= 0 {
		return js.Null()
	}
	picture := js.Global().Get("document").Call("createElement", "canvas")
	picture.Set("width", v.Width)
	picture.Set("height", v.Height)
	ctx := picture.Call("getContext", "2d")
	if ctx.IsNull() {
		return js.Null()
	}
	whole := v.Matrix(p.scene.Anchor)
	for top := 0; top < v.Height; top += tile {
		for left := 0; left < v.Width; left += tile {
			wide, high := min(tile, v.Width-left), min(tile, v.Height-top)
			m := whole
			// The tile's own -1 to 1 out of the picture's.
			kx, ky := float64(v.Width)/float64(wide), float64(v.Height)/float64(high)
			dx := float64(v.Width-2*left-wide) / float64(wide)
			dy := float64(2*top+high-v.Height) / float64(high)
			for i := range 4 {
				m[i] = kx*whole[i] + dx*whole[8+i]
				m[4+i] = ky*whole[4+i] + dy*whole[8+i]
			}
			p.size(wide, high)
			p.fill(v, m)
			p.paint(v)
			ctx.Call("drawImage", p.canvas, left, top)
		}
	}
	return picture
}

// fill writes the fields of a frame.
func (p *webGL) fill(v scene.View, m [12]float64) {
	s := p.scene
	shape := &s.Shape
	eye, k := v.Towards(s.Anchor)
	middle := s.Anchor.Add(s.Low.Add(s.High).Times(0.5))
	to := v.Light.From(middle.X, middle.Y)
	near, point := 0.0, 0.0
	if v.Light.Kind != look.Sun {
		near, point = math.Pow(v.Light.Z/to[2], 3), 1
		to = [3]float64{v.Light.X - s.Anchor.X, v.Light.Y - s.Anchor.Y, v.Light.Z}
	}
	strength, edge := v.Light.Strength(), bevel
	if v.Look.Edge == look.Square {
		edge = sharp
	}
	ceiling, windows := 0.0, 0
	if p.shell != nil && v.Blend > 0 {
		ceiling, windows = p.shell.Ceiling, min(maxWindows, len(p.shell.Panes))
	}
	of := [2]look.Palette{v.Look.Field(), v.Look.Edging()}

	p.filled = 0
	p.numbersOf(m[:]...)
	p.numbersOf(min(v.Laid, 1e9), v.Landing, slide*2*shape.HalfLength, halfJoint,
		eye[0], eye[1], eye[2], k, to[0], to[1], to[2], point)
	p.light(v.Light.Colour().Times(look.Direct*strength), near)
	p.light(v.Light.Sky().Times(look.Ambient*strength), v.Blend)
	p.light(v.Paper.Linear(), edge)
	p.light(of[0].Joint, 2*shape.HalfLength/math.Sqrt2)
	p.numbersOf(shape.HalfLength, shape.HalfWidth, shape.Skew[0], shape.Skew[1],
		shape.Along[0].X, shape.Along[0].Y, shape.Along[1].X, shape.Along[1].Y,
		of[0].Coat, of[0].Gloss, ceiling, float64(windows),
		of[0].Fibre, of[0].Width, of[1].Fibre, of[1].Width,
		of[0].Tilt, of[0].Spread, of[1].Tilt, of[1].Spread)
	for i := range of {
		of := &of[i]
		p.light(of.Light, of.Rings)
		p.light(of.Base, of.Pores)
		p.light(of.Dark, of.Rays)
		p.light(of.Late, of.Clouds)
		p.numbersOf(of.Long, of.Wide, of.Knots, 1/v.Scale)
	}
	for i := range windows {
		w := &p.shell.Panes[i]
		at, z := w.Middle()
		half := w.To.Sub(w.From).Times(0.5)
		in := half.Times(1 / half.Length())
		p.numbersOf(at.X-s.Anchor.X, at.Y-s.Anchor.Y, z, (w.High-w.Low)/2, half.X, half.Y, -in.Y, in.X)
	}
}

// numbersOf writes the next numbers of the fields.
func (p *webGL) numbersOf(numbers ...float64) {
	for _, f := range numbers {
		binary.LittleEndian.PutUint32(p.fields[p.filled:], math.Float32bits(float32(f)))
		p.filled += 4
	}
}

// light writes the next field: an amount of light and one more number.
func (p *webGL) light(c look.RGB, last float64) { p.numbersOf(c[0], c[1], c[2], last) }

// parts returns red, green and blue from 0 to 1.
func parts(c look.Colour) (r, g, b float64) {
	return float64(c>>16&255) / 255, float64(c>>8&255) / 255, float64(c&255) / 255
}

func (p *webGL) Lost() bool { return p.lost }

func (p *webGL) Stands() bool { return true }

func (p *webGL) Release() {
	p.canvas.Call("removeEventListener", "webglcontextlost", p.onLost)
	p.canvas.Call("removeEventListener", "webglcontextrestored", p.onNew)
	p.onLost.Release()
	p.onNew.Release()
	p.lost = true
	// The browser keeps a limited number of contexts alive.
	if ext := p.gl.Call("getExtension", "WEBGL_lose_context"); !ext.IsNull() {
		ext.Call("loseContext")
	}
	p.scene = nil
}
