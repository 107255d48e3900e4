package look

import "slices"

// Wood is a species as the painter needs it.
type Wood struct {
	Key string
	// Planed and oiled: the lightest block, one in the middle, the darkest.
	Light, Base, Dark Colour
	Late              Colour // what the figure's dark parts multiply the wood by; white is nothing

	Rings  float64 // how strong the year's rings are drawn, 0 to 1
	Pores  float64 // how strong the pores are drawn, 0 to 1
	Rays   float64 // flecks: above 0 how strong dark ones are on every block, below 0 light ones on a few
	Clouds float64 // broad lights and darks, 0 to 1
	Long   float64 // how long the figure is drawn: 1 is oak
	Wide   float64 // how wide: 1 is oak

	Fibre float64 // how much light the fibres send back along their cone, for that of the wood's colour
	Width float64 // standard deviation of that cone, degrees
}

// woods has the common species of block floors.
var woods = []Wood{
	{"oak", 0xdcc09a, 0xc9a576, 0xae8557, 0x9a7f62, .75, .90, -.5, .45, 1.0, 1.0, .21, 11},
	{"ash", 0xe9dabd, 0xdac6a2, 0xc3a87c, 0xb09474, .85, .80, 0, .35, 1.3, 1.4, .22, 11},
	{"beech", 0xe7c8a8, 0xd7b18d, 0xc1946d, 0xb08a6e, .22, .25, .95, .30, 0.7, 0.7, .19, 12},
	{"birch", 0xeedcbc, 0xe1c9a3, 0xcfb185, 0xc4a380, .28, .10, .10, .75, 1.2, 1.2, .27, 13},
	{"maple", 0xf1e3cb, 0xe6d2b3, 0xd3b890, 0xc8a883, .32, .05, .25, .55, 1.1, 1.0, .28, 13},
	{"walnut", 0x97765a, 0x78583f, 0x553b29, 0x75624f, .70, .60, .05, .85, 1.2, 1.2, .30, 12},
	{"cherry", 0xc99c78, 0xb07f5b, 0x935f41, 0xa67c5d, .45, .18, .30, .65, 1.1, 1.0, .29, 12},
	{"elm", 0xc8a983, 0xb08b63, 0x8d6844, 0x92785e, .85, .70, .10, .70, 0.9, 1.3, .22, 11},
	{"chestnut", 0xd8bd94, 0xc3a277, 0xa58254, 0x997c5c, .95, .85, .02, .45, 1.1, 1.2, .21, 11},
	{"larch", 0xdfb27f, 0xcb9560, 0xa96f40, 0x9a673f, 1.0, .02, .02, .40, 1.6, 1.0, .20, 11},
	{"teak", 0xbf9868, 0xa67a4c, 0x835a34, 0x7f6549, .80, .55, .03, .60, 1.3, 1.1, .24, 12},
	{"wenge", 0x69533f, 0x4d3a2d, 0x31241c, 0x5b4e44, 1.0, .70, .02, .25, 1.5, 0.5, .30, 11},
}

// Woods returns every species, in the order in which they are offered.
func Woods() []Wood { return slices.Clone(woods) }

// WoodOf returns the species with a key, "" being oak.
func WoodOf(key string) (Wood, bool) {
	if key == "" {
		return woods[0], true
	}
	for _, w := range woods {
		if w.Key == key {
			return w, true
		}
	}
	return woods[0], false
}
