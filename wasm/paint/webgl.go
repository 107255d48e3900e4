//go:build js && wasm

package paint

import (
	_ "embed"
	"encoding/binary"
	"errors"
	"math"
	"strings"
	"syscall/js"

	"keelrow/wasm/scene"
)

//go:embed block.vert
var blockVertex string

//go:embed block.frag
var blockFragment string

//go:embed grain.vert
var grainVertex string

//go:embed grain.frag
var grainFragment string

// webGL draws the whole scene in one call a frame. The buffer holds the
// scene's bytes as they are; the view goes over as fields of uniforms.
type webGL struct {
	canvas        js.Value
	gl            js.Value
	wake          func()
	lost          bool
	onLost, onNew js.Func

	scene         *scene.Scene
	width, height int
	bytes         js.Value // a Uint8Array as large as the buffer

	// The fields of a frame as bytes here, as bytes there, and the same
	// memory there as numbers.
	fields           [fields * 16]byte
	there, numbers   js.Value
	place            js.Value // of the fields in the program
	clearColor, wipe js.Value // methods bound to gl, which halves a call
	setFields, draw  js.Value
	viewport         js.Value
}

// fields is how many four-number uniforms a frame has:
//
//	0 to 2  rows of the view's matrix; then laid, landing, how far blocks slide in mm
//	3       paper
//	4, 5    lightest and middle wood; then the light's direction
//	6       darkest wood; then half a joint in mm
//	7       joint; then the border's tone
//	8       half length, half width, skew of a left and of a right block
const fields = 9

const (
	halfJoint = 0.35 // mm, as an eased joint looks
	slide     = 0.45 // of a block's length, from where it is let go to home
)

const (
	tileLong, tileWide = 512, 512 // texels of the grain tile
)

// newWebGL returns nil and no error where there is no WebGL2 worth having.
func newWebGL(canvas js.Value, o Options) (Painter, error) {
	if o.Force != WebGL && drawnBySoftware() {
		return nil, nil
	}
	gl := canvas.Call("getContext", "webgl2", map[string]any{
		"alpha":                        false,
		"antialias":                    true,
		"depth":                        false,
		"stencil":                      false,
		"powerPreference":              "low-power",
		"failIfMajorPerformanceCaveat": o.Force != WebGL,
	})
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

// drawnBySoftware says whether WebGL is there but drawn by the processor. Not
// every browser counts that as a major caveat. It is found out on a canvas of
// its own, because one that has had a WebGL context takes no other.
func drawnBySoftware() bool {
	probe := js.Global().Get("document").Call("createElement", "canvas")
	gl := probe.Call("getContext", "webgl2", map[string]any{"failIfMajorPerformanceCaveat": true})
	if gl.IsNull() {
		return true
	}
	renderer := gl.Call("getParameter", gl.Get("RENDERER"))
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

func (p *webGL) bound(method string) js.Value { return p.gl.Get(method).Call("bind", p.gl) }

// build makes everything that lives in the context.
func (p *webGL) build() error {
	gl := p.gl
	p.width, p.height = 0, 0
	p.bytes = js.Undefined()
	if err := p.bakeGrain(); err != nil {
		return err
	}
	program, err := p.program(blockVertex, blockFragment)
	if err != nil {
		return err
	}
	gl.Call("useProgram", program)
	p.place = gl.Call("getUniformLocation", program, "v")
	gl.Call("uniform1i", gl.Call("getUniformLocation", program, "grain"), 0)

	gl.Call("bindVertexArray", gl.Call("createVertexArray"))
	array := gl.Get("ARRAY_BUFFER")
	gl.Call("bindBuffer", array, gl.Call("createBuffer"))
	float, short := gl.Get("FLOAT"), gl.Get("SHORT")
	unsignedShort := gl.Get("UNSIGNED_SHORT")
	for i, a := range []struct {
		size int
		kind js.Value
		at   int
	}{
		{2, float, scene.AtMiddle},
		{4, short, scene.AtCorners},
		{4, short, scene.AtCorners + 8},
		{2, short, scene.AtDirection},
		{1, float, scene.AtOrder},
		{1, float, scene.AtScale},
		{1, unsignedShort, scene.AtSeed},
		{1, unsignedShort, scene.AtKind}, // with the hand in the upper byte
	} {
		gl.Call("enableVertexAttribArray", i)
		if a.kind.Equal(unsignedShort) {
			gl.Call("vertexAttribIPointer", i, a.size, a.kind, scene.Stride, a.at)
		} else {
			gl.Call("vertexAttribPointer", i, a.size, a.kind, false, scene.Stride, a.at)
		}
		gl.Call("vertexAttribDivisor", i, 1)
	}
	p.clearColor, p.wipe = p.bound("clearColor"), p.bound("clear")
	p.setFields, p.draw = p.bound("uniform4fv"), p.bound("drawArraysInstanced")
	p.viewport = p.bound("viewport")
	return nil
}

// program compiles and links.
func (p *webGL) program(vertex, fragment string) (js.Value, error) {
	gl := p.gl
	program := gl.Call("createProgram")
	for _, part := range []struct{ kind, text string }{{"VERTEX_SHADER", vertex}, {"FRAGMENT_SHADER", fragment}} {
		shader := gl.Call("createShader", gl.Get(part.kind))
		gl.Call("shaderSource", shader, part.text)
		gl.Call("compileShader", shader)
		gl.Call("attachShader", program, shader)
		if !gl.Call("getShaderParameter", shader, gl.Get("COMPILE_STATUS")).Truthy() {
			return program, errors.New("the graphics driver does not take the floor's program: " +
				gl.Call("getShaderInfoLog", shader).String())
		}
	}
	gl.Call("linkProgram", program)
	if !gl.Call("getProgramParameter", program, gl.Get("LINK_STATUS")).Truthy() {
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
	flat, rgba := gl.Get("TEXTURE_2D"), gl.Get("RGBA")
	gl.Call("bindTexture", flat, gl.Call("createTexture"))
	gl.Call("texImage2D", flat, 0, gl.Get("RGBA8"), tileLong, tileWide, 0, rgba, gl.Get("UNSIGNED_BYTE"), nil)
	frame, target := gl.Call("createFramebuffer"), gl.Get("FRAMEBUFFER")
	gl.Call("bindFramebuffer", target, frame)
	gl.Call("framebufferTexture2D", target, gl.Get("COLOR_ATTACHMENT0"), flat, gl.Call("getParameter", gl.Get("TEXTURE_BINDING_2D")), 0)
	gl.Call("useProgram", program)
	gl.Call("uniform2f", gl.Call("getUniformLocation", program, "size"), tileLong, tileWide)
	gl.Call("viewport", 0, 0, tileLong, tileWide)
	gl.Call("drawArrays", gl.Get("TRIANGLES"), 0, 3)
	gl.Call("bindFramebuffer", target, nil)
	gl.Call("deleteFramebuffer", frame)
	gl.Call("deleteProgram", program)
	gl.Call("generateMipmap", flat)
	gl.Call("texParameteri", flat, gl.Get("TEXTURE_MIN_FILTER"), gl.Get("LINEAR_MIPMAP_LINEAR"))
	if ext := gl.Call("getExtension", "EXT_texture_filter_anisotropic"); !ext.IsNull() {
		// The tile is squeezed across the grain, so plain filtering would
		// blur the grain away long before it is too fine to see.
		gl.Call("texParameterf", flat, ext.Get("TEXTURE_MAX_ANISOTROPY_EXT"), 4)
	}
	return nil
}

func (p *webGL) Show(s *scene.Scene) {
	p.scene = s
	p.upload()
}

// upload copies the scene to the card in one go.
func (p *webGL) upload() {
	if p.lost || p.scene == nil || len(p.scene.Data) == 0 {
		return
	}
	if p.bytes.IsUndefined() || p.bytes.Length() != len(p.scene.Data) {
		p.bytes = js.Global().Get("Uint8Array").New(len(p.scene.Data))
	}
	js.CopyBytesToJS(p.bytes, p.scene.Data)
	p.gl.Call("bufferData", p.gl.Get("ARRAY_BUFFER"), p.bytes, p.gl.Get("STATIC_DRAW"))
}

func (p *webGL) Frame(v scene.View) bool {
	if p.lost || p.scene == nil || v.Width <= 0 || v.Height <= 0 {
		return false
	}
	if v.Width != p.width || v.Height != p.height {
		p.width, p.height = v.Width, v.Height
		p.canvas.Set("width", v.Width)
		p.canvas.Set("height", v.Height)
		p.viewport.Invoke(0, 0, v.Width, v.Height)
	}
	r, g, b := parts(v.Theme.Paper)
	p.clearColor.Invoke(r, g, b, 1)
	const colorBufferBit = 0x4000
	p.wipe.Invoke(colorBufferBit)
	n := p.scene.Laid(v.Laid)
	if n == 0 {
		return false
	}
	p.fill(v)
	js.CopyBytesToJS(p.there, p.fields[:])
	p.setFields.Invoke(p.place, p.numbers)
	const triangleStrip = 5
	p.draw.Invoke(triangleStrip, 0, 4, n)
	return false
}

// fill writes the fields of a frame.
func (p *webGL) fill(v scene.View) {
	m := v.Matrix(p.scene.Anchor)
	shape := p.scene.Shape
	p.field(0, m[0], m[1], m[2], min(v.Laid, 1e9))
	p.field(1, m[3], m[4], m[5], v.Landing)
	p.field(2, m[6], m[7], m[8], slide*2*shape.HalfLength)
	p.colour(3, v.Theme.Paper, 0)
	p.colour(4, v.Theme.Light, v.Light.X)
	p.colour(5, v.Theme.Base, v.Light.Y)
	p.colour(6, v.Theme.Dark, halfJoint)
	p.colour(7, v.Theme.Joint, borderTone)
	p.field(8, shape.HalfLength, shape.HalfWidth, shape.Skew[0], shape.Skew[1])
}

func (p *webGL) field(i int, numbers ...float64) {
	for k, f := range numbers {
		binary.LittleEndian.PutUint32(p.fields[16*i+4*k:], math.Float32bits(float32(f)))
	}
}

func (p *webGL) colour(i int, c scene.Colour, last float64) {
	r, g, b := parts(c)
	p.field(i, r, g, b, last)
}

// parts returns red, green and blue from 0 to 1.
func parts(c scene.Colour) (r, g, b float64) {
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
