package look

import "math"

// Palette is what a painter needs of one wood of a look.
type Palette struct {
	Light, Base, Dark RGB // the lightest block, one in the middle, the darkest
	Late              RGB // what the figure's dark parts multiply the wood by
	Joint             RGB

	Rings, Pores, Rays, Clouds float64 // as in Wood
	Long, Wide                 float64
	Spread                     float64 // how far tones of blocks lie apart: 1 from Light to Dark
	Knots                      float64 // which part of the blocks has one

	Fibre float64 // as in Wood, with this finish
	Width float64 // radians
	Tilt  float64 // how far fibres may rise out of the floor, radians either way

	Coat  float64 // which part of the light a coat sends back that a full film would
	Gloss float64 // standard deviation of the coat's mirror, radians
}

// Field returns the palette of the field.
func (l Look) Field() Palette { return l.palette(l.Wood) }

// Edging returns the palette of the border.
func (l Look) Edging() Palette {
	if l.Border == "" {
		return l.palette(l.Wood)
	}
	return l.palette(l.Border)
}

func (l Look) palette(key string) Palette {
	w, _ := WoodOf(key)
	p := Palette{
		Rings: w.Rings, Pores: w.Pores, Rays: w.Rays, Clouds: w.Clouds, Long: w.Long, Wide: w.Wide,
		Spread: 0.8, Fibre: w.Fibre, Width: w.Width * math.Pi / 180, Tilt: 3 * math.Pi / 180,
	}
	figure := 1.0 // how strong it is drawn
	switch l.Grade {
	case Calm:
		p.Spread, p.Tilt, figure = 0.35, p.Tilt/2, 0.7
	case Lively:
		p.Spread, p.Tilt, figure, p.Knots = 1.3, p.Tilt*1.5, 1.18, 0.09
	}
	p.Rings, p.Clouds = p.Rings*figure, p.Clouds*figure
	p.Late = RGB{1, 1, 1}.Mixed(w.Late.Linear(), min(1.15, figure))

	wet, dry := 1.0, 0.0 // how deep the finish makes the colour, and how grey the lack of one
	switch l.Finish {
	case Raw:
		wet, dry, p.Fibre, p.Coat, p.Gloss = 0.80, 0.14, p.Fibre*0.72, 0.10, 0.35
	case Oiled:
		p.Coat, p.Gloss = 0.42, 0.16
	case Lacquered:
		wet, p.Fibre, p.Coat, p.Gloss = 1.08, p.Fibre*1.25, 1, 0.035
	}
	for i, c := range [3]Colour{w.Light, w.Base, w.Dark} {
		of := toned(c.Linear(), l.Tone)
		for k, v := range of {
			of[k] = math.Pow(v, wet)
		}
		y := of.Luminance() * 1.04
		*[3]*RGB{&p.Light, &p.Base, &p.Dark}[i] = of.Mixed(RGB{y, y, y}, dry)
	}
	if l.Tone == Limed { // lime stays in the pores, which are then the light part
		p.Late = RGB{1.22, 1.25, 1.30}
	}
	p.Joint = p.Dark.By(RGB{0.22, 0.19, 0.17})
	switch l.Joint {
	case JointDark:
		p.Joint = Colour(0x1c1814).Linear()
	case JointLight:
		p.Joint = Colour(0xe9e2d3).Linear()
	}
	return p
}

// toned returns the colour of wood that has been smoked or limed.
func toned(c RGB, t Tone) RGB {
	y := c.Luminance()
	switch t {
	case Smoked: // ammonia and the wood's tannin: deep browns, whatever the wood was
		brown := RGB{1.30, 0.95, 0.62}.Times(y * (0.36 + 0.02/(y+0.04)))
		return c.Times(0.42).Mixed(brown, 0.65)
	case Limed:
		pale := RGB{1.05, 1, 0.90}.Times(y + 0.45*(0.86-y))
		return c.Times(pale.Luminance()/y).Mixed(pale, 0.72)
	}
	return c
}

// At returns the colour of a block of a tone, 0 to 1, most near the middle.
func (p Palette) At(tone float64) RGB {
	tone = 0.5 + (tone-0.5)*p.Spread
	if tone < 0.5 {
		return p.Dark.Mixed(p.Base, rise(-0.35, 0.5, tone))
	}
	return p.Base.Mixed(p.Light, rise(0.5, 1.2, tone))
}
