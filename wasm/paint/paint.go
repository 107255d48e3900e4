//go:build js && wasm

// Package paint puts a scene on a canvas: with WebGL2 as wood in its light,
// or, where that is missing or would be slow, flat on a 2D canvas.
//
// A painter draws only when Frame is called. Colours, light and how far the
// laying is come with the View; the caller keeps the time.
package paint

import (
	"errors"
	"syscall/js"

	"keelrow/wasm/scene"
)

// Painter draws one scene on one canvas.
type Painter interface {
	// Show takes the scene that the next frames draw. The painter keeps it,
	// so its memory may be used again only after the next Show.
	Show(s *scene.Scene)
	// Surround takes the walls that a standing view has round the floor. With
	// nil there are none.
	Surround(s *scene.Shell)
	// Frame draws the view. It returns true when there is more to draw of
	// the same view, so that Frame has to be called again in the next
	// animation frame.
	Frame(v scene.View) (more bool)
	// Lost says whether the browser has taken the drawing context away.
	// Frame draws nothing then; Wake is called if it comes back.
	Lost() bool
	// Stands says whether the painter can draw a standing view, and more than
	// flat tones.
	Stands() bool
	// Picture draws a view of any size and returns a canvas of its own that
	// holds it, or null where the browser has no memory for it. The canvas
	// that Frame draws on is as before once the next Frame is done, which the
	// caller has to see to in the same task.
	Picture(v scene.View) js.Value
	// Release gives back listeners and memory of the browser. Nothing else
	// may be called after it.
	Release()
}

// Force says which painter is made.
type Force int

const (
	Auto   Force = iota // WebGL2 where the browser thinks it fast, else 2D
	WebGL               // WebGL2 even where it is slow
	Canvas              // 2D
)

// Options are settings of a painter's whole life.
type Options struct {
	Force Force
	// Wake is called when the picture is lost and has to be drawn again. It
	// must not draw by itself.
	Wake func()
}

// New makes a painter for a canvas that has not been drawn on. After an error
// the canvas may be spoilt for another kind of painter: try with a new one.
func New(canvas js.Value, o Options) (Painter, error) {
	if o.Wake == nil {
		o.Wake = func() {}
	}
	if o.Force != Canvas {
		p, err := newWebGL(canvas, o)
		if p != nil || err != nil {
			return p, err
		}
		if o.Force == WebGL {
			return nil, errors.New("this browser has no WebGL2")
		}
	}
	p := newFlat(canvas, o)
	if p == nil {
		return nil, errors.New("this browser lets nothing be drawn on a canvas")
	}
	return p, nil
}
