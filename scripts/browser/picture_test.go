package browser

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"

	"github.com/chromedp/cdproto/page"
)

// picture is a part of the window as it is seen.
type picture struct {
	*image.RGBA
	left, top float64 // in the window
	scale     float64 // pixels for each CSS pixel
}

// picture looks at a part of the window.
func (p *person) picture(b box) picture {
	p.t.Helper()
	left, top := math.Floor(b.left), math.Floor(b.top)
	clip := &page.Viewport{X: left, Y: top, Width: math.Ceil(b.right) - left, Height: math.Ceil(b.bottom) - top, Scale: 1}
	// What is scrolled away counts from the top of the page.
	clip.Y += eval[float64](p, `() => scrollY`)
	quick := true
	shot := must(p, page.CaptureScreenshot, page.CaptureScreenshotParams{Clip: clip, OptimizeForSpeed: &quick})
	img, err := png.Decode(bytes.NewReader(shot.Data))
	if err != nil {
		p.t.Fatal(err)
	}
	pixels, ok := img.(*image.RGBA)
	if !ok {
		pixels = image.NewRGBA(img.Bounds())
		draw.Draw(pixels, pixels.Rect, img, img.Bounds().Min, draw.Src)
	}
	return picture{pixels, left, top, float64(img.Bounds().Dx()) / clip.Width}
}

// floor looks at the floor.
func (p *person) floor() picture {
	p.t.Helper()
	return p.picture(p.box("#floor"))
}

// colour is red, green and blue from 0 to 255.
type colour [3]float64

// at returns the mean colour of a few pixels round a point of the window.
func (pic picture) at(x, y float64, reach int) (mean colour) {
	n := 0.0
	px, py := int(math.Floor((x-pic.left)*pic.scale)), int(math.Floor((y-pic.top)*pic.scale))
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			c := pic.RGBAAt(px+dx, py+dy)
			mean[0] += float64(c.R)
			mean[1] += float64(c.G)
			mean[2] += float64(c.B)
			n++
		}
	}
	for i := range mean {
		mean[i] /= n
	}
	return mean
}

// apart is how far two colours differ.
func (c colour) apart(d colour) float64 {
	return math.Hypot(math.Hypot(c[0]-d[0], c[1]-d[1]), c[2]-d[2])
}

// wooden says whether a colour is one of wood: clearly more red than blue.
// Paper is nearly grey, in the light as in the dark.
func (c colour) wooden() bool { return c[0]-c[2] > 30 && c[0] > c[1] && c[1] > c[2] }

// light is how light a colour is, from 0 to 255 (weights of Rec. ITU-R BT.709).
func (c colour) light() float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// place returns where a point of the room, in mm, lies in the window, as the
// lines over the floor have it.
func (p *person) place(x, y float64) (float64, float64) {
	p.t.Helper()
	at := eval[[]float64](p, `person.place`, x, y)
	return at[0], at[1]
}

// room returns the point of the room under a point of the window.
func (p *person) room(x, y float64) (float64, float64) {
	p.t.Helper()
	at := eval[[]float64](p, `(x, y) => {
		const p = new DOMPoint(x, y).matrixTransform(person.one('#overlay').getScreenCTM().inverse());
		return [p.x, -p.y];
	}`, x, y)
	return at[0], at[1]
}

// shot puts a picture of the window into artefacts/.
func (p *person) shot(name string) {
	p.t.Helper()
	shot := must(p, page.CaptureScreenshot, page.CaptureScreenshotParams{})
	dir := filepath.Join(p.h.root, "artefacts")
	if err := os.MkdirAll(dir, 0o777); err != nil {
		p.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), shot.Data, 0o666); err != nil {
		p.t.Fatal(err)
	}
}
