package look

import "math"

// LightKind is what the light comes from.
type LightKind uint8

const (
	Sun    LightKind = iota // from so far that all of the floor has it from one side
	Window                  // from the sky through a window
	Lamp
)

// Light is what falls on the floor. The zero value is a sun that stands in
// the horizon: Daylight is a light to begin with.
type Light struct {
	Kind    LightKind
	Azimuth float64 // of the sun: where it comes from, degrees clockwise from +y
	Height  float64 // of the sun, degrees above the floor
	X, Y, Z float64 // of the middle of a window, or of a lamp, in the room
}

// Daylight is the light of the working page: from the left and from behind
// the far wall, as a drawing is lit.
var Daylight = Light{Azimuth: 305, Height: 32}

// Strength is how bright the floor is in this light: 1 by day, less where the
// sun stands low and under a lamp.
func (l Light) Strength() float64 {
	switch l.Kind {
	case Window:
		return 0.97
	case Lamp:
		return 0.78
	}
	return 0.62 + 0.38*rise(0, 25, l.Height)
}

// Warmth is how much the light leans to red: 0 for noon, 1 for the last of
// the sun. A window has the cool of the sky.
func (l Light) Warmth() float64 {
	switch l.Kind {
	case Window:
		return -0.05
	case Lamp:
		return 0.72
	}
	return 1 - rise(0, 38, l.Height)
}

// Sky returns the colour of what comes from all sides: mostly white walls and
// sky, whatever the light.
func (l Light) Sky() RGB { return RGB{1, 1, 1}.Mixed(l.Colour(), 0.35) }

// Colour is the light's colour: what white paper sends back of it, green
// being about 1.
func (l Light) Colour() RGB {
	w := l.Warmth()
	return RGB{1 + 0.24*w, 1 - 0.03*w, 1 - 0.40*w}
}

// highest is how high the sun of Day stands at noon.
const highest = 52 // degrees

// Sunrise and Sunset are the hours between which Day has a sun.
const Sunrise, Sunset = 6, 18

// Day returns the sun at an hour, 6 to 18: a simple path, not an almanac. It
// rises in the east at 6, stands 52 degrees high in the south at noon, and
// sets in the west at 18, going 15 degrees round an hour; its height follows
// a sine. South is where the room's north is not: north is the direction of
// north in the room, degrees clockwise from +y.
func Day(hour, north float64) Light {
	hour = min(Sunset, max(Sunrise, hour))
	turn := (hour - Sunrise) / (Sunset - Sunrise)
	return Light{
		Azimuth: math.Mod(north+90+180*turn+720, 360),
		// Never quite in the horizon, where no light would reach the floor.
		Height: max(3, highest*math.Sin(math.Pi*turn)),
	}
}

// rise goes from 0 at from to 1 at to, level at both.
func rise(from, to, x float64) float64 {
	x = min(1, max(0, (x-from)/(to-from)))
	return x * x * (3 - 2*x)
}
