package browser

import (
	"fmt"
	"math"
	"testing"

	"keelrow/wasm/look"
)

// turnTo opens another link in the page that stands.
func (p *person) turnTo(link string) {
	p.t.Helper()
	p.run(`(link) => { location.hash = link; }`, link)
	p.rest()
}

// decoded is the light that a pixel's colour stands for (IEC 61966-2-1).
var decoded = func() (table [256]float64) {
	for i := range table {
		s := float64(i) / 255
		if table[i] = s / 12.92; s > 0.04045 {
			table[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return table
}()

// glow is the mean light, red, green and blue, of a square round a point of
// the window.
func (pic picture) glow(x, y float64, reach int) (mean colour) {
	px, py := int(math.Floor((x-pic.left)*pic.scale)), int(math.Floor((y-pic.top)*pic.scale))
	n := float64((2*reach + 1) * (2*reach + 1))
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			c := pic.RGBAAt(px+dx, py+dy)
			mean[0] += decoded[c.R] / n
			mean[1] += decoded[c.G] / n
			mean[2] += decoded[c.B] / n
		}
	}
	return mean
}

// handBlocks is the middles of many blocks of a herringbone of 70 by 350 mm
// that is laid from the middle of a room, by hand, along u and v from the
// middle (package pattern): right-hand blocks at [iW-L+mL, iW+mL] ×
// [iW-W/2-mL, + W], left-hand ones at [iW+mL, + W] × [iW+W/2-L-mL, iW+W/2-mL].
func handBlocks(reach float64) (left, right [][2]float64) {
	const w, l = 70.0, 350.0
	for m := -4.0; m <= 4; m++ {
		for i := -30.0; i <= 30; i++ {
			for _, b := range []struct {
				u, v float64
				to   *[][2]float64
			}{{i*w - l/2 + m*l, i*w - m*l, &right}, {i*w + w/2 + m*l, i*w + w/2 - l/2 - m*l, &left}} {
				if x, y := (b.u-b.v)/math.Sqrt2, (b.u+b.v)/math.Sqrt2; math.Hypot(x, y) < reach {
					*b.to = append(*b.to, [2]float64{x, y})
				}
			}
		}
	}
	return left, right
}

// published is how much light finished wood sends straight up for what falls
// on it from a direction in the room's plane and a height, in degrees: what it
// sends to all sides, and the light of its fibres as S. R. Marschner, S. H.
// Westin, A. Arbree and J. T. Moon have it ("Measuring and Modeling the
// Appearance of Finished Wood", ACM Transactions on Graphics 24 (3), 2005,
// pages 727 to 734, from memory): k·g(β, ψi + ψr)/cos²((ψr - ψi)/2). Fibre is
// the fibres' direction in the plane; they rise out of it by up to tilt,
// evenly spread. How strong fibres are, how wide their cone and how much light
// comes from all sides is the page's own choice and taken from there.
func published(of look.Palette, light look.Light, fibre float64) (seen colour) {
	const index, radian = 1.5, math.Pi / 180
	// Snell's law at the surface, for the angle from the vertical.
	bent := math.Asin(math.Sin((90-light.Height)*radian) / index)
	// Schlick's approximation for what comes in, and for what comes out again
	// straight up, where 0.04 is kept in.
	in := 0.96 * (1 - math.Pow(1-math.Sin(light.Height*radian), 5)) / 0.96
	mean := 0.0
	const steps = 400
	for s := range steps {
		rise := of.Tilt * (2*(float64(s)+0.5)/steps - 1)
		// The angle to the plane across the fibre is 90° less the angle to the
		// fibre, by the spherical law of cosines with the vertical as third
		// corner of the triangle.
		toFibre := math.Pi/2 - rise
		towards := math.Cos(bent)*math.Cos(toFibre) + math.Sin(bent)*math.Sin(toFibre)*math.Cos((light.Azimuth-fibre)*radian)
		psiIn, psiOut := math.Pi/2-math.Acos(towards), rise
		g := math.Exp(-math.Pow((psiIn+psiOut)/of.Width, 2)/2) / (of.Width * math.Sqrt(2*math.Pi))
		mean += of.Fibre * g / math.Pow(math.Cos((psiOut-psiIn)/2), 2) / steps
	}
	colour, sky := light.Colour(), light.Sky()
	for c := range seen {
		seen[c] = light.Strength() * (sky[c]*look.Ambient + colour[c]*look.Direct*in*(1+mean))
	}
	return seen
}

// The two hands answer the light differently, by as much as the published
// model says, and change places when the axis turns by 90 degrees.
func TestHandsAnswerTheLight(t *testing.T) {
	for _, tt := range []struct {
		name, link string
		look       look.Look
		light      look.Light
	}{
		{"as the page opens", "", look.Look{}, look.Daylight},
		{"low sun along the left hand", "&light=sun:315,25&wood=walnut&finish=lacquered", look.Look{Wood: "walnut", Finish: look.Lacquered}, look.Light{Azimuth: 315, Height: 25}},
		{"higher sun, between hand and axis", "&light=sun:20,40&grade=calm", look.Look{Grade: look.Calm}, look.Light{Azimuth: 20, Height: 40}},
		{"raw wood, evening", "&light=day:16.5&north=60&wood=ash&finish=raw", look.Look{Wood: "ash", Finish: look.Raw}, look.Day(16.5, 60)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			// A square room: turned by 90 degrees the same blocks, with their
			// own tones, lie in the same places but for the other hand's
			// direction. So tones cancel out.
			left, right := handBlocks(1800)
			var ratio [2][3]float64
			p := open(t, "#room=900x900&paint=webgl", desk)
			p.allows("NavigationEntryMarkedSkippable")
			for turn, axis := range []string{"0", "90"} {
				p.turnTo("#room=4200x4200&block=70x350&show=none&paint=webgl&axis=" + axis + tt.link)
				pic := p.floor()
				at := func(blocks [][2]float64) (sum colour) {
					for _, b := range blocks {
						x, y := b[0], b[1]
						if turn == 1 {
							x, y = -y, x
						}
						x, y = p.place(2100+x, 2100+y)
						g := pic.glow(x, y, 2)
						for c := range sum {
							sum[c] += g[c]
						}
					}
					return sum
				}
				l, r := at(left), at(right)
				for c := range l {
					ratio[turn][c] = l[c] / r[c] * float64(len(right)) / float64(len(left))
				}
			}
			of := tt.look.Field()
			// u, along right-hand blocks, is 45 degrees clockwise from the axis.
			l, r := published(of, tt.light, -45), published(of, tt.light, 45)
			for c := range 3 {
				got, want := math.Sqrt(ratio[0][c]/ratio[1][c]), l[c]/r[c]
				t.Logf("colour %d: left over right %.3f, turned %.3f, so %.3f; by the model %.3f", c, ratio[0][c], ratio[1][c], got, want)
				// Pixels are whole numbers of about 200, the fibres' figure
				// moves their tilt a little, and the brightest are held back:
				// together less than 2 parts in 100.
				if math.Abs(got/want-1) > 0.02 {
					t.Errorf("colour %d: left-hand blocks are %.3f times as bright as right-hand ones, by the model %.3f", c, got, want)
				}
			}
			if d := math.Abs(l[1]/r[1] - 1); d < 0.04 {
				t.Errorf("the hands differ by %.3f only: nothing is tested", d)
			}
			if (ratio[0][1] > 1) == (ratio[1][1] > 1) {
				t.Error("the hands do not change places when the axis turns")
			}
		})
	}
}

// unevenness returns how much the light of a part of the picture goes up and
// down from pixel to pixel, and from one square of so many pixels to the
// next, each as a part of its mean.
func unevenness(pic picture, b box, square int) (fine, coarse float64) {
	x0, y0 := int((b.left-pic.left)*pic.scale), int((b.top-pic.top)*pic.scale)
	x1, y1 := int((b.right-pic.left)*pic.scale), int((b.bottom-pic.top)*pic.scale)
	var pixels, squares []float64
	for y := y0; y+square <= y1; y += square {
		for x := x0; x+square <= x1; x += square {
			sum := 0.0
			for dy := range square {
				for dx := range square {
					c := pic.RGBAAt(x+dx, y+dy)
					l := colour{decoded[c.R], decoded[c.G], decoded[c.B]}.light()
					pixels = append(pixels, l)
					sum += l
				}
			}
			squares = append(squares, sum/float64(square*square))
		}
	}
	spread := func(list []float64) float64 {
		mean, off := 0.0, 0.0
		for _, v := range list {
			mean += v / float64(len(list))
		}
		for _, v := range list {
			off += (v - mean) * (v - mean) / float64(len(list))
		}
		return math.Sqrt(off) / mean
	}
	return spread(pixels), spread(squares)
}

// From ever further away the pattern gets weaker, but never suddenly stronger,
// and no beats of pattern and pixels show, at 100 % and at 200 %.
func TestNothingShimmersFromFar(t *testing.T) {
	for _, scale := range []float64{1, 2} {
		t.Run(fmt.Sprintf("%.0f%%", 100*scale), func(t *testing.T) {
			on := screen{wide: 700, high: 900, scale: scale}
			before := math.Inf(1)
			p := open(t, "#room=900x900&paint=webgl", on)
			p.allows("NavigationEntryMarkedSkippable")
			for _, size := range []int{4000, 6000, 9000, 13000, 19000, 28000, 41000, 60000} {
				p.turnTo(fmt.Sprintf("#room=%dx%d&block=70x350&show=none&paint=webgl", size, size))
				pic, wall := p.floor(), p.box("#overlay .wall")
				mm := (wall.right - wall.left) * scale / float64(size) // device pixels
				inset := (wall.right - wall.left) / 12
				wall.left, wall.top, wall.right, wall.bottom = wall.left+inset, wall.top+inset, wall.right-inset, wall.bottom-inset
				fine, coarse := unevenness(pic, wall, 16)
				t.Logf("a block is %5.2f pixels wide: contrast %.4f, of squares of 16 pixels %.4f", 70*mm, fine, coarse)
				if fine > before*1.08 {
					t.Errorf("blocks of %.2f pixels have a contrast of %.4f, nearer by it is %.4f", 70*mm, fine, before)
				}
				before = fine
				// Where a square holds two strands and more, bands must average
				// out in it but for the blocks' own tones.
				if 16 > 2*247*mm && coarse > 0.03 {
					t.Errorf("blocks of %.2f pixels: squares differ by %.4f", 70*mm, coarse)
				}
				// While blocks are 4 pixels wide and more, the joint can be
				// told from the middle of the block.
				if 70*mm > 4 {
					if dark := jointed(p, pic, float64(size)/2); dark < 0.03 {
						t.Errorf("blocks of %.2f pixels: joints are only %.3f darker", 70*mm, dark)
					} else {
						t.Logf("joints are %.3f darker", dark)
					}
				}
			}
		})
	}
}

// jointed is how much darker the long joints between blocks of one hand are
// than the blocks' middles, as a part of these.
func jointed(p *person, pic picture, middle float64) float64 {
	_, right := handBlocks(1500)
	joints, blocks := 0.0, 0.0
	for _, b := range right {
		for k := range 5 {
			// Along the block, u, and across it to the joint, v.
			u, v := float64(k-2)*40, 0.0
			x, y := p.place(middle+b[0]+(u-v)/math.Sqrt2, middle+b[1]+(u+v)/math.Sqrt2)
			blocks += pic.glow(x, y, 0).light()
			v = 35
			x, y = p.place(middle+b[0]+(u-v)/math.Sqrt2, middle+b[1]+(u+v)/math.Sqrt2)
			joints += pic.glow(x, y, 0).light()
		}
	}
	return 1 - joints/blocks
}

// Somebody who stands in the room sees floor where floor is, walls where walls
// are, and the window bright: places by a pinhole's geometry, worked out here.
func TestStandingInTheRoom(t *testing.T) {
	const eyeX, eyeY, eyeZ, turn, down, field = 600, 500, 1600, 45, 10, 84 // mm, degrees
	p := open(t, "#room=4200x3600&block=70x350&paint=webgl&face=show&view=standing&eye=600mm,500mm,1600mm&looking=45,10"+
		"&window=CD:1000,1400,800,1400&light=window:1", screen{wide: 1440, high: 900, still: true})
	p.rest()
	canvas := p.box("#painting canvas")
	pic := p.picture(canvas)
	wide, high := canvas.right-canvas.left, canvas.bottom-canvas.top
	foot := p.box(".show-foot")
	see := func(x, y, z float64) (colour, bool) {
		sin, cos := math.Sincos(turn * math.Pi / 180)
		right, ahead := (x-eyeX)*cos-(y-eyeY)*sin, (x-eyeX)*sin+(y-eyeY)*cos
		sin, cos = math.Sincos(down * math.Pi / 180)
		depth, above := ahead*cos-(z-eyeZ)*sin, ahead*sin+(z-eyeZ)*cos
		k := math.Hypot(wide, high) / 2 / math.Tan(field/2*math.Pi/180) / depth
		px, py := canvas.left+wide/2+k*right, canvas.top+high/2-k*above
		inside := depth > 0 && px > canvas.left+5 && px < canvas.right-5 && py > canvas.top+5 && py < min(canvas.bottom-5, foot.top-5)
		if !inside {
			return colour{}, false
		}
		return pic.at(px, py, 2), true
	}
	floor, walls := 0, 0
	for x := 50.0; x < 4200; x += 250 {
		for y := 50.0; y < 3600; y += 250 {
			if c, ok := see(x, y, 0); ok {
				floor++
				if !c.wooden() {
					t.Errorf("%v, %v on the floor is %v: no wood", x, y, c)
				}
			}
		}
	}
	wall := 0.0
	for x := 200.0; x < 4200; x += 250 {
		for _, z := range []float64{60, 400, 700, 2350} {
			if c, ok := see(x, 3600, z); ok {
				walls++
				wall += c.light()
				if c.wooden() {
					t.Errorf("%v, %v on the far wall is %v: wood", x, z, c)
				}
			}
		}
	}
	if floor < 60 || walls < 15 {
		t.Fatalf("only %d places of the floor and %d of the wall are in sight", floor, walls)
	}
	// The window runs from D's side: corner C is at x = 4200, so it is at
	// 3200 to 1800, away from its bar in the middle.
	for _, x := range []float64{2000, 3000} {
		if c, ok := see(x, 3600, 1500); !ok || c.light() < wall/float64(walls)+8 {
			t.Errorf("the window at %v is %v, the wall %.0f light; in sight %v", x, c, wall/float64(walls), ok)
		}
	}
}
