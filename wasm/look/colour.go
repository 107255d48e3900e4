package look

import "math"

// Colour is 0xrrggbb, as a style sheet has it.
type Colour uint32

// CSS returns the colour as a style sheet has it.
func (c Colour) CSS() string {
	const digits = "0123456789abcdef"
	out := []byte("#000000")
	for i := range 6 {
		out[6-i] = digits[c>>(4*i)&15]
	}
	return string(out)
}

// RGB is red, green and blue as amounts of light: 1 is what white paper
// sends back.
type RGB [3]float64

// Linear returns the amounts of light that a screen gives for a colour (sRGB,
// IEC 61966-2-1).
func (c Colour) Linear() (out RGB) {
	for i := range out {
		s := float64(c>>(16-8*i)&255) / 255
		if out[i] = s / 12.92; s > 0.04045 {
			out[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return out
}

// Colour returns the colour for amounts of light, the way back from Linear.
func (l RGB) Colour() (out Colour) {
	for _, v := range l {
		s := min(1, max(0, v))
		if s > 0.0031308 {
			s = 1.055*math.Pow(s, 1/2.4) - 0.055
		} else {
			s *= 12.92
		}
		out = out<<8 | Colour(math.Round(255*s))
	}
	return out
}

// Luminance is how light a colour looks (weights of Rec. ITU-R BT.709).
func (l RGB) Luminance() float64 { return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2] }

// Times returns more or less of the light.
func (l RGB) Times(k float64) RGB { return RGB{l[0] * k, l[1] * k, l[2] * k} }

// By returns the light that a coloured thing sends back.
func (l RGB) By(m RGB) RGB { return RGB{l[0] * m[0], l[1] * m[1], l[2] * m[2]} }

// Mixed returns the light a part of the way to another.
func (l RGB) Mixed(to RGB, part float64) RGB {
	for i := range l {
		l[i] += (to[i] - l[i]) * part
	}
	return l
}
