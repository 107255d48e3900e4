package look

import (
	"math"
	"slices"
	"testing"

	"keelrow/engine/link"
)

func TestKeysGoBothWays(t *testing.T) {
	keys := map[string]bool{}
	bothWays[Grade](t, Grades)
	bothWays[Finish](t, Finishes)
	bothWays[Tone](t, Tones)
	bothWays[Edge](t, Edges)
	bothWays[Joint](t, Joints)
	if g, ok := Of[Grade](Grades, "select"); ok || g != Mixed {
		t.Errorf("an unknown grade is %v, %v", g, ok)
	}
	for _, w := range Woods() {
		if found, ok := WoodOf(w.Key); !ok || found != w || keys[w.Key] {
			t.Errorf("wood %q is found as %q, or twice", w.Key, found.Key)
		}
		keys[w.Key] = true
	}
	if w, ok := WoodOf("plywood"); ok || w.Key != "oak" {
		t.Errorf("an unknown wood is %q, %v", w.Key, ok)
	}
	if w, ok := WoodOf(""); !ok || w.Key != "oak" {
		t.Errorf("no wood is %q, %v", w.Key, ok)
	}
}

// bothWays fails the test unless every key stands for its place in the list.
func bothWays[E ~uint8](t *testing.T, keys []string) {
	t.Helper()
	for i, k := range keys {
		if e, ok := Of[E](keys, k); !ok || int(e) != i {
			t.Errorf("%q is %d, %v; want %d", k, e, ok, i)
		}
	}
}

// The link's keys are the painter's, and what the link does not say is what
// the zero value shows.
func TestTheLinkHasTheSameKeys(t *testing.T) {
	var names []string
	for _, w := range Woods() {
		names = append(names, w.Key)
	}
	if !slices.Equal(names, link.Woods) {
		t.Errorf("woods are %q, in the link %q", names, link.Woods)
	}
	usual, _ := link.Open("#").View()
	if l := usual.Light; l.From != "sun" || l.Direction != Daylight.Azimuth || l.Height != Daylight.Height {
		t.Errorf("the link's light is %v, the page's %v", l, Daylight)
	}
	if link.FirstHour != Sunrise || link.LastHour != Sunset {
		t.Errorf("the link's day is from %v to %v, ours from %v to %v", link.FirstHour, link.LastHour, Sunrise, Sunset)
	}
	for _, tt := range []struct {
		key    string
		values []string
		of     func(l link.Looks) string
	}{
		{"wood", names, func(l link.Looks) string { return l.Wood }},
		{"grade", Grades, func(l link.Looks) string { return l.Grade }},
		{"finish", Finishes, func(l link.Looks) string { return l.Finish }},
		{"tone", Tones, func(l link.Looks) string { return l.Tone }},
		{"edge", Edges, func(l link.Looks) string { return l.Edge }},
		{"joint", Joints, func(l link.Looks) string { return l.Joint }},
	} {
		if got := tt.of(usual.Looks); got != tt.values[0] {
			t.Errorf("%s is %q where the link is silent, and %q in the zero value", tt.key, got, tt.values[0])
		}
		for _, value := range tt.values {
			v, faults := link.Open("#" + tt.key + "=" + value).View()
			if got := tt.of(v.Looks); got != value || len(faults) > 0 {
				t.Errorf("%s=%s is read as %q, %v", tt.key, value, got, faults)
			}
		}
	}
}

// apart is the difference of two colours in CIELAB, white point D65 (CIE
// 15:2004, formulas 8.4 and 8.11; matrix of IEC 61966-2-1, from memory). About
// 2 can just be seen side by side.
func apart(a, b RGB) float64 {
	lab := func(c RGB) [3]float64 {
		f := func(t float64) float64 {
			if t > 216.0/24389 {
				return math.Cbrt(t)
			}
			return (24389.0/27*t + 16) / 116
		}
		x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505)
		y := f(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
		z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.0890)
		return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
	}
	p, q := lab(a), lab(b)
	return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
}

// A person has to see which wood is chosen, and what each choice does.
func TestEveryWoodIsDistinct(t *testing.T) {
	for i, a := range Woods() {
		for _, b := range Woods()[:i] {
			// Middles that lie close are told apart by their figure.
			figure := math.Abs(a.Rings-b.Rings) + math.Abs(a.Pores-b.Pores) + math.Abs(a.Rays-b.Rays)
			if d := apart(a.Base.Linear(), b.Base.Linear()); d < 2 || d < 5 && figure < 0.3 {
				t.Errorf("%s and %s are %.1f apart, their figure %.2f", a.Key, b.Key, d, figure)
			}
		}
		if !(a.Light.Linear().Luminance() > a.Base.Linear().Luminance() && a.Base.Linear().Luminance() > a.Dark.Linear().Luminance()) {
			t.Errorf("%s does not go from light to dark", a.Key)
		}
		plain := Look{Wood: a.Key}
		base := plain.Field().Base
		for name, other := range map[string]Look{
			"raw": {Wood: a.Key, Finish: Raw}, "smoked": {Wood: a.Key, Tone: Smoked}, "limed": {Wood: a.Key, Tone: Limed},
		} {
			if d := apart(base, other.Field().Base); d < 2 {
				t.Errorf("%s %s is only %.1f from plain", name, a.Key, d)
			}
		}
		smoked, limed := Look{Wood: a.Key, Tone: Smoked}, Look{Wood: a.Key, Tone: Limed}
		if s, l := smoked.Field().Base.Luminance(), limed.Field().Base.Luminance(); !(s < base.Luminance() && l > base.Luminance()) {
			t.Errorf("%s is %.3f light, smoked %.3f, limed %.3f", a.Key, base.Luminance(), s, l)
		}
	}
}

func TestChoicesDoWhatTheySay(t *testing.T) {
	calm, mixed, lively := Look{Grade: Calm}.Field(), Look{}.Field(), Look{Grade: Lively}.Field()
	if !(calm.Spread < mixed.Spread && mixed.Spread < lively.Spread && calm.Tilt < mixed.Tilt && mixed.Tilt < lively.Tilt) {
		t.Error("a livelier grade differs no more")
	}
	if calm.Knots != 0 || mixed.Knots != 0 || !(lively.Knots > 0 && lively.Knots < 0.2) {
		t.Error("knots belong to the lively grade, sparingly")
	}
	raw, oiled, film := Look{Finish: Raw}.Field(), Look{}.Field(), Look{Finish: Lacquered}.Field()
	if !(raw.Coat < oiled.Coat && oiled.Coat < film.Coat && raw.Gloss > oiled.Gloss && oiled.Gloss > film.Gloss) {
		t.Error("lacquer mirrors more, and sharper, than oil, and oil than raw wood")
	}
	// Saturation as the part of the strongest colour that the weakest lacks.
	deep := func(c RGB) float64 { return 1 - c[2]/c[0] }
	if !(deep(raw.Base) < deep(oiled.Base) && deep(oiled.Base) < deep(film.Base)) {
		t.Error("a finish makes the colour no deeper")
	}
	dark, light := Look{Joint: JointDark}.Field().Joint, Look{Joint: JointLight}.Field().Joint
	if !(dark.Luminance() < 0.05 && light.Luminance() > 0.6) || oiled.Joint.Luminance() >= oiled.Dark.Luminance() {
		t.Error("joints are not dark, light, and a dark shade of the wood")
	}
	if (Look{Wood: "ash"}).Edging() != (Look{Wood: "ash"}).Field() || (Look{Border: "walnut"}).Edging() != (Look{Wood: "walnut"}).Field() {
		t.Error("the border is not of its wood")
	}
	if dark, middle, light := oiled.At(0).Luminance(), oiled.At(0.5).Luminance(), oiled.At(1).Luminance(); !(dark < middle && middle < light) || oiled.At(0.5) != oiled.Base {
		t.Error("tones do not run from dark over the middle to light")
	}
}

// IEC 61966-2-1: 0 and 255 are black and white; 188 is about half the light,
// from memory.
func TestColours(t *testing.T) {
	if l := Colour(0x00bcff).Linear(); l[0] != 0 || math.Abs(l[1]-0.5029) > 1e-4 || l[2] != 1 {
		t.Errorf("#00bcff sends back %v", l)
	}
	for _, c := range []Colour{0, 0x010203, 0x7f8081, 0xc9a576, 0xffffff} {
		if got := c.Linear().Colour(); got != c {
			t.Errorf("%s comes back as %s", c.CSS(), got.CSS())
		}
	}
	if got := Colour(0x102030).CSS(); got != "#102030" {
		t.Errorf("0x102030 is %s", got)
	}
	if got := (RGB{2, 0.5, -1}).Colour(); got != 0xffbc00 {
		t.Errorf("more light than there can be is %s", got.CSS())
	}
}

func TestDay(t *testing.T) {
	// North ahead: the sun rises on the right, stands behind at noon and sets
	// on the left. The day's path has its own figures: 52 degrees at noon.
	for _, tt := range []struct{ hour, north, azimuth, height float64 }{
		{6, 0, 90, 3}, {12, 0, 180, 52}, {18, 0, 270, 3}, {9, 0, 135, 52 * math.Sqrt2 / 2},
		{12, 180, 0, 52}, {6, 300, 30, 3}, {12, -90, 90, 52}, {3, 0, 90, 3}, {23, 0, 270, 3},
	} {
		l := Day(tt.hour, tt.north)
		if l.Kind != Sun || math.Abs(l.Azimuth-tt.azimuth) > 1e-9 || math.Abs(l.Height-tt.height) > 1e-9 {
			t.Errorf("Day(%v, %v) is at %.3f, %.3f high; want %.3f, %.3f", tt.hour, tt.north, l.Azimuth, l.Height, tt.azimuth, tt.height)
		}
	}
	for h := 6.0; h < 12; h += 0.25 {
		a, b := Day(h, 0), Day(h+0.25, 0)
		if !(a.Azimuth < b.Azimuth && a.Height <= b.Height && a.Strength() <= b.Strength() && a.Warmth() >= b.Warmth()) {
			t.Errorf("the morning does not go on from %v", h)
		}
		c := Day(24-h, 0)
		if math.Abs(a.Height-c.Height) > 1e-9 || math.Abs(a.Azimuth+c.Azimuth-360) > 1e-9 {
			t.Errorf("the afternoon is not the morning's mirror image at %v", h)
		}
	}
	if low, noon := Day(6.3, 0).Colour(), Day(12, 0).Colour(); !(low[0] > low[1] && low[1] > low[2]) || noon != (RGB{1, 1, 1}) {
		t.Errorf("light is %v when low and %v at noon", low, noon)
	}
}

// The published formula worked out in another way: angles to the fibre by
// spherical trigonometry for light and eye in the plane of fibre and
// vertical, where refraction is Snell's law for plane angles.
func TestShineInTheFibresPlane(t *testing.T) {
	p := Look{}.Field()
	p.Fibre, p.Width = 0.2, 10*math.Pi/180
	for _, tt := range []struct{ height, rise float64 }{{20, 0}, {32, 0}, {60, 0}, {89, 0}, {40, 5}, {40, -5}} {
		rise := tt.rise * math.Pi / 180
		fibre := [3]float64{math.Cos(rise), 0, math.Sin(rise)}
		h := tt.height * math.Pi / 180
		got := p.Shine(fibre, [3]float64{math.Cos(h), 0, math.Sin(h)}, [3]float64{0, 0, 1})
		// From the vertical: light bends to asin(sin θ / 1.5), the eye stays.
		in := math.Asin(math.Sin(math.Pi/2-h)/1.5) + rise
		out := rise
		want := 0.2 * math.Exp(-math.Pow((in+out)/p.Width, 2)/2) / (p.Width * math.Sqrt(2*math.Pi)) / math.Pow(math.Cos((out-in)/2), 2)
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("height %v, rise %v: %.9f, want %.9f", tt.height, tt.rise, got, want)
		}
	}
	// Light from straight above, level fibre: the middle of the normal
	// distribution, 0.39894 standard deviations.
	if got := p.Shine([3]float64{0, 1, 0}, [3]float64{0, 0, 1}, [3]float64{0, 0, 1}); math.Abs(got-0.2*0.398942/p.Width) > 1e-6 {
		t.Errorf("from above %.6f", got)
	}
}

// Fibres across the light send more of it up than fibres along it, whichever
// way round a block lies.
func TestHandsDiffer(t *testing.T) {
	for _, w := range Woods() {
		p := Look{Wood: w.Key}.Field()
		light := Light{Azimuth: 45, Height: 30}
		seen := func(x, y float64) float64 { return light.Seen(p, [2]float64{x, y}, 0, 0).Luminance() }
		along, across := seen(1, 1), seen(-1, 1)
		if back := seen(-1, -1); across < along*1.1 || back != along {
			t.Errorf("%s: along %.3f, the other way round %.3f, across %.3f", w.Key, along, back, across)
		}
	}
}
