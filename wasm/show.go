//go:build js && wasm

package main

import (
	"math"
	"strconv"
	"strings"
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/engine/plane"
	"keelrow/wasm/look"
	"keelrow/wasm/paint"
	"keelrow/wasm/scene"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
)

// show is the picture alone, and how the floor looks on every face.
type show struct {
	plan  *floor.Plan // that the shell is of
	shell *scene.Shell
	walls paint.Painter // that has it
	stand scene.Eye     // where the shell lets one stand to begin with

	eye   scene.Eye
	moves int     // of the eye, so far
	blend float64 // 0 from above, 1 in the room

	day, hour float64 // how far a day that is played is, as a part of it, or below 0; the hour shown
	x, y      float64 // where a finger went down
	down      bool
	moved     bool
	other     other
	removed   view.Kept
	at        int // where it was
	said      int // how often something was said
	recording bool
}

// showing says whether the picture is alone.
func (a *app) showing() bool { return a.page.State.View.Face == "show" }

// standing says whether the picture is what one in the room sees.
func (a *app) standing() bool {
	return a.showing() && a.page.State.View.Stand.In && a.floor.painter != nil && a.floor.painter.Stands()
}

func (a *app) showStart() {
	s := &a.show
	s.day = -1
	a.page.Show.Kept = a.kept()
	box := a.floor.box
	on := func(target js.Value, event string, hear func(e js.Value)) {
		target.Call("addEventListener", event, js.FuncOf(func(_ js.Value, args []js.Value) any {
			if a.showing() {
				hear(args[0])
			}
			return nil
		}))
	}
	at := func(e js.Value) (x, y float64) {
		rect := box.Call("getBoundingClientRect")
		return e.Get("clientX").Float() - rect.Get("left").Float(), e.Get("clientY").Float() - rect.Get("top").Float()
	}
	on(box, "pointerdown", func(e js.Value) {
		if s.moved = s.down; s.down { // a second finger is no tap
			return
		}
		s.down = true
		s.x, s.y = at(e)
		if a.placing() {
			p := a.floor.room(s.x, s.y)
			a.walk(func(eye *scene.Eye) { eye.X, eye.Y = p.X, p.Y })
		}
	})
	on(box, "pointermove", func(e js.Value) {
		x, y := at(e)
		if !s.down || math.Hypot(x-s.x, y-s.y) < 8 {
			return
		}
		s.moved = true
		if a.placing() {
			a.walk(func(eye *scene.Eye) { eye.Direction = math.Atan2(x-s.x, s.y-y) * 180 / math.Pi })
		}
	})
	on(box, "pointerup", func(js.Value) {
		if s.down && !s.moved && !a.placing() {
			a.page.Show.Hidden = !a.page.Show.Hidden
			vecty.Rerender(a.page)
		}
		s.down = false
	})
	on(box, "pointercancel", func(js.Value) { s.down = false })

	held := false
	divide := func(e js.Value) {
		if !held {
			return
		}
		x, _ := at(e)
		a.divide(x / a.floor.wide)
	}
	on(a.document, "pointerdown", func(e js.Value) {
		if e.Get("target").Get("id").String() == "show-divider" {
			held = true
			e.Get("target").Call("setPointerCapture", e.Get("pointerId"))
		}
	})
	on(a.document, "pointermove", divide)
	on(a.document, "pointerup", func(js.Value) { held = false })
	on(a.document, "pointercancel", func(js.Value) { held = false })
	a.divide(0.5)
	a.showFollow(state.State{}, a.page.State)
	vecty.Rerender(a.page)
}

// placing says whether a finger on the plan says where one stands.
func (a *app) placing() bool {
	return a.page.Show.Panel == "view" && !a.page.State.View.Stand.In && a.show.blend == 0 && a.floor.painter.Stands()
}

func (a *app) showFollow(before, next state.State) {
	s := &a.show
	if next.View.Face != before.View.Face {
		a.floor.fitted = a.floor.fitted || next.View.Face == "show"
		if a.showing() && a.laying.still || before.Plan == nil && a.standing() {
			s.blend = 1
		}
	}
	if next.View.Stand != before.View.Stand || next.Plan != s.plan {
		s.plan = nil
	}
	if before.Plan == nil || next.View != before.View || next.Plan != before.Plan {
		a.besideFollow()
	}
	a.pressed()
	if a.showing() {
		later(0, func() { a.desk.fill(a.desk.link()) }) // once the panel is in the page
	}
}

// showFoot is how much of the picture's height lies under the controls, in CSS
// pixels.
func (a *app) showFoot() float64 {
	foot := a.document.Call("querySelector", ".show-foot")
	if foot.IsNull() {
		return margin
	}
	return min(0.62*a.floor.high, foot.Get("offsetHeight").Float()+margin/2)
}

// refit fits the floor anew into what the controls leave of the picture.
func (a *app) refit() {
	if a.floor.fitted {
		a.floor.fit()
	}
	a.floor.wake()
}

// shelled sees to the walls round the floor, and to where one stands.
func (a *app) shelled() *scene.Shell {
	s, now := &a.show, &a.page.State
	if s.plan == now.Plan {
		return s.shell
	}
	s.plan = now.Plan
	s.shell = scene.ShellOf(now.Plan)
	s.eye = s.shell.Stand(now.Plan)
	v := &now.View.Stand
	if v.Placed {
		s.eye.X, s.eye.Y = float64(v.X), float64(v.Y)
		s.eye.Height = float64(v.Height)
	}
	if v.Aimed {
		s.eye.Direction, s.eye.Down = v.Direction, v.Down
	} else if a.floor.high > a.floor.wide {
		s.eye.Down = 24 // an upright screen would be a third ceiling
	}
	return s.shell
}

// dressed makes a view show the wood, the light and the standpoint of the
// link.
func (a *app) dressed(v *scene.View) {
	s, now := &a.show, &a.page.State.View
	shell := a.shelled()
	v.Look, v.Light = lookOf(now.Looks), look.Daylight
	switch l := now.Light; {
	case s.day >= 0:
		v.Light = look.Day(s.hour, l.North)
	case l.From == "sun":
		v.Light = look.Light{Azimuth: l.Direction, Height: l.Height}
	case l.From == "day":
		v.Light = look.Day(l.Hour, l.North)
	case l.From == "window":
		if w, ok := shell.Light(l.Window); ok {
			v.Light = w
		}
	case l.From == "lamp":
		low, high := s.plan.Room()[0].Box()
		middle := low.Add(high).Times(0.5)
		v.Light = look.Light{Kind: look.Lamp, X: middle.X, Y: middle.Y, Z: lampHeight}
	}
	if a.showing() {
		v.Eye, v.Blend = s.eye, s.blend*s.blend*(3-2*s.blend)
	}
}

const lampHeight = 2200 // mm, as it hangs over a table

// lookOf returns the look that a link's words stand for.
func lookOf(l link.Looks) (out look.Look) {
	out.Wood = l.Wood
	if l.Border != "same" {
		out.Border = l.Border
	}
	out.Grade, _ = look.Of[look.Grade](look.Grades, l.Grade)
	out.Finish, _ = look.Of[look.Finish](look.Finishes, l.Finish)
	out.Tone, _ = look.Of[look.Tone](look.Tones, l.Tone)
	out.Edge, _ = look.Of[look.Edge](look.Edges, l.Edge)
	out.Joint, _ = look.Of[look.Joint](look.Joints, l.Joint)
	return out
}

// pace is how many times as fast the laying is played here: all of it in ten
// seconds.
func (a *app) pace() float64 {
	if s := &a.page.State; a.showing() {
		return max(1, float64(s.Blocks())/s.View.Speed/10)
	}
	return 1
}

// showMove moves on what moves by itself, and says whether more is to come.
func (a *app) showMove(seconds float64) (more bool) {
	s := &a.show
	to := 0.0
	if a.standing() {
		to = 1
	}
	switch {
	case a.laying.still || !a.showing():
		s.blend = to
	case s.blend < to:
		s.blend = min(to, s.blend+seconds/1.1)
	case s.blend > to:
		s.blend = max(to, s.blend-seconds/1.1)
	}
	if s.day >= 0 {
		s.day += seconds / 8
		s.hour = look.Sunrise + (look.Sunset-look.Sunrise)*min(1, s.day)
		if e := a.slider("hour"); e.Truthy() {
			e.Set("value", s.hour)
		}
		if s.day >= 1 {
			s.day = -1
			a.do(state.Dress{Key: "light", Value: "day:18"})
		}
	}
	if a.showing() && a.floor.painter != s.walls && a.floor.painter != nil {
		s.walls = a.floor.painter
		s.walls.Surround(a.shelled())
	}
	return s.blend != to || s.day >= 0
}

// showFrame draws what stands over the floor.
func (a *app) showFrame(v scene.View) (more bool) {
	if !a.showing() {
		return false
	}
	if e, ok := a.element("show-stand"); ok {
		there := a.placing() || a.page.Show.Panel == "view" && a.show.blend == 0 && !a.standing()
		e.Get("classList").Call("toggle", "there", there)
		if at, ok := v.Pixel(plane.Point{X: v.Eye.X, Y: v.Eye.Y}); ok && there {
			e.Get("style").Set("transform", "translate("+number(at.X/a.floor.ratio)+"px,"+number(at.Y/a.floor.ratio)+"px) rotate("+number(v.Eye.Direction)+"deg)")
		}
	}
	return a.besideFrame(v)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// walk changes where one stands, as long as that is in the room. The link
// follows when the eye has come to rest.
func (a *app) walk(change func(eye *scene.Eye)) {
	s := &a.show
	a.shelled()
	eye := s.eye
	change(&eye)
	if (eye.X != s.eye.X || eye.Y != s.eye.Y) && !plane.Inside(plane.Point{X: eye.X, Y: eye.Y}, a.page.State.Plan.Room()...) {
		return
	}
	eye.Direction = math.Mod(eye.Direction+720, 360)
	eye.Down = max(-30, min(80, eye.Down))
	s.eye = eye
	s.moves++
	now := s.moves
	a.floor.wake()
	later(300, func() {
		if s.moves != now || !a.showing() || s.plan == nil {
			return
		}
		eye := s.eye
		mm := func(v float64) string { return strconv.FormatFloat(math.Round(v), 'f', -1, 64) + "mm" }
		tenth := func(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }
		a.do(state.Dress{Key: "eye", Value: mm(eye.X) + "," + mm(eye.Y) + "," + mm(eye.Height), On: true})
		a.do(state.Dress{Key: "looking", Value: tenth(eye.Direction) + "," + tenth(eye.Down), On: true})
	})
}

// showPan is a finger moving on the picture: it looks round, or does nothing
// where it says where one stands.
func (a *app) showPan(dx, dy float64) bool {
	if !a.showing() {
		return false
	}
	if a.standing() {
		k := scene.EyeField / math.Hypot(a.floor.wide, a.floor.high)
		a.walk(func(eye *scene.Eye) { eye.Direction -= dx * k; eye.Down -= dy * k })
		return true
	}
	return a.placing()
}

// showZoom is a wheel or two fingers: in the room they walk.
func (a *app) showZoom(by float64) bool {
	if a.standing() {
		a.ahead(1500 * math.Log(by))
		return true
	}
	return a.placing()
}

// ahead walks so many mm ahead, or back.
func (a *app) ahead(by float64) {
	a.walk(func(eye *scene.Eye) {
		sin, cos := math.Sincos(eye.Direction * math.Pi / 180)
		eye.X, eye.Y = eye.X+sin*by, eye.Y+cos*by
	})
}

func (a *app) showKey(key string) bool {
	s := &a.show
	if now := a.document.Get("activeElement"); now.Truthy() {
		switch now.Get("id").String() {
		case "show-divider":
			if by, ok := map[string]float64{"ArrowLeft": -0.05, "ArrowRight": 0.05, "Home": -1, "End": 1}[key]; ok {
				a.divide(a.show.other.at + by)
				return true
			}
		}
	}
	turn := func(by, down float64) {
		a.walk(func(eye *scene.Eye) { eye.Direction += by; eye.Down += down })
	}
	inside := a.standing() || a.placing()
	switch {
	case inside && key == "ArrowLeft":
		turn(-5, 0)
	case inside && key == "ArrowRight":
		turn(5, 0)
	case inside && key == "ArrowUp":
		a.ahead(200)
	case inside && key == "ArrowDown":
		a.ahead(-200)
	case inside && key == "PageUp":
		turn(0, -5)
	case inside && key == "PageDown":
		turn(0, 5)
	case key == "v" || key == "V":
		a.lookFrom(!a.page.State.View.Stand.In)
	case key == "t" || key == "T":
		a.showDo("show", "turn", js.Undefined())
	case key == "h" || key == "H":
		a.showDo("show", "hide", js.Undefined())
	case key == "k" || key == "K":
		a.keep()
	default:
		return false
	}
	s.moved = true
	return true
}

// lookFrom goes into the room or above it.
func (a *app) lookFrom(standing bool) {
	if standing && !a.floor.painter.Stands() {
		a.say(a.page.Words.Show.Flat)
		return
	}
	value := "plan"
	if standing {
		value = "standing"
	}
	a.do(state.Dress{Key: "view", Value: value})
}

// showSlide is a slider being moved.
func (a *app) showSlide(name, value string) {
	a.show.day = -1
	switch name {
	case "hour":
		a.do(state.Dress{Key: "light", Value: "day:" + value, On: true})
	case "direction", "height":
		now := &a.page.State.View.Light
		direction, height := 305.0, 32.0
		if now.From == "sun" {
			direction, height = now.Direction, now.Height
		}
		parts := [2]string{strconv.FormatFloat(direction, 'f', -1, 64), strconv.FormatFloat(height, 'f', -1, 64)}
		if name == "direction" {
			parts[0] = value
		} else {
			parts[1] = value
		}
		a.do(state.Dress{Key: "light", Value: "sun:" + parts[0] + "," + parts[1], On: true})
	}
}

func (a *app) slider(name string) js.Value {
	return a.document.Call("querySelector", `#face [data-slide="`+name+`"]`)
}

// pressed shows in the panel what is chosen.
func (a *app) pressed() {
	if !a.showing() {
		return
	}
	v := &a.page.State.View
	has := func(key, value string) bool {
		switch key {
		case "light":
			light := v.Light.From
			if light == "window" {
				light += ":" + strconv.Itoa(v.Light.Window+1)
			}
			return value == light || v.Light.From == "sun" && strings.HasPrefix(value, "sun") || v.Light.From == "day" && strings.HasPrefix(value, "day")
		case "view":
			return (value == "standing") == v.Stand.In
		}
		l := &v.Looks
		return value == map[string]string{"wood": l.Wood, "borderwood": l.Border, "grade": l.Grade, "finish": l.Finish, "tone": l.Tone, "edge": l.Edge, "joint": l.Joint}[key]
	}
	buttons := a.document.Call("querySelectorAll", `#face [data-do="dress"]`)
	for i := range buttons.Length() {
		e := buttons.Index(i)
		key, value, _ := strings.Cut(e.Call("getAttribute", "data-arg").String(), "=")
		e.Call("setAttribute", "aria-pressed", strconv.FormatBool(has(key, value)))
	}
	for name, value := range map[string]float64{"hour": max(look.Sunrise, v.Light.Hour), "direction": v.Light.Direction, "height": v.Light.Height} {
		if e := a.slider(name); e.Truthy() && !e.Equal(a.document.Get("activeElement")) {
			e.Set("value", value)
		}
	}
	if code, ok := a.element("show-code"); ok {
		if address := a.page.State.Address(); code.Get("dataset").Get("shows").String() != address {
			code.Get("dataset").Set("shows", address)
			a.desk.ask("code "+a.home(), question{element: "show-code", link: address, shows: address})
		}
	}
}

func (a *app) showFilled(id string) {
	if id == "desk-show" {
		a.pressed()
		a.refit()
	}
}

// say says what came of something, for a while.
func (a *app) say(text string) {
	a.page.Show.Said = text
	a.show.said++
	now := a.show.said
	vecty.Rerender(a.page)
	later(6000, func() {
		if a.show.said == now && !a.show.recording {
			a.page.Show.Said, a.page.Show.Undo = "", false
			vecty.Rerender(a.page)
		}
	})
}

func (a *app) showDo(name, arg string, e js.Value) bool {
	p, s := &a.page.Show, &a.page.State
	n, _ := strconv.Atoi(arg)
	switch name {
	case "dress":
		key, value, _ := strings.Cut(arg, "=")
		if key == "view" {
			a.lookFrom(value == "standing")
			break
		}
		a.show.day = -1
		a.do(state.Dress{Key: key, Value: value})
	case "beside":
		a.do(state.Dress{Key: "beside", Value: arg})
	case "light-window":
		a.lightWindow(arg)
	case "kept", "kept-beside", "kept-remove":
		if n < 0 || n >= len(p.Kept) {
			break
		}
		a.keptDo(name, n)
	case "show":
		switch arg {
		case "wood", "light", "view", "compare", "away":
			if p.Panel == arg {
				arg = ""
			}
			p.Panel = arg
			vecty.Rerender(a.page)
			later(0, func() { a.desk.fill(a.desk.link()); a.refit() })
		case "hide":
			p.Hidden = !p.Hidden
			vecty.Rerender(a.page)
		case "turn":
			a.do(state.Take{Text: s.Turned().String()})
		case "whole":
			a.floor.fit()
		case "day":
			if a.show.day < 0 {
				a.show.day = 0
			} else {
				a.show.day = -1
			}
			a.floor.wake()
		case "alone":
			a.do(state.Dress{Key: "beside"})
		case "take-beside":
			if other, ok := s.Link.Beside(); ok {
				a.do(state.Take{Text: other.String()})
			}
		case "change-places":
			if other, ok := s.Link.Beside(); ok {
				a.do(state.Take{Text: other.Comparing(s.Link.With("beside")).String()})
			}
		case "keep":
			a.keep()
		case "put-back":
			a.putBack()
		default:
			a.takeAway(arg)
		}
	default:
		return false
	}
	return true
}

// lightWindow takes the light from a window in the middle of a wall, which is
// put there if the wall has none.
func (a *app) lightWindow(wall string) {
	s := &a.page.State
	windows := s.Link.All("window")
	for i, w := range windows {
		if strings.HasPrefix(w, wall+":") {
			a.do(state.Dress{Key: "light", Value: "window:" + strconv.Itoa(i+1)})
			return
		}
	}
	room := plane.Ring(s.Plan.Job().Room)
	for i := range room {
		if floor.WallName(i, len(room)) == wall {
			from, to := room.Edge(i)
			long := to.Sub(from).Length()
			wide := min(1400, 0.6*long)
			mm := func(v float64) string { return strconv.Itoa(int(v)) + "mm" }
			windows = append(windows, wall+":"+mm((long-wide)/2)+","+mm(wide))
			a.do(state.Take{Text: s.Link.With("window", windows...).With("light", "window:"+strconv.Itoa(len(windows))).String()})
			return
		}
	}
}
