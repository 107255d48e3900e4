package scene

import (
	"math"
	"testing"

	"keelrow/engine/plane"
)

func TestTonesLieRoundTheMiddle(t *testing.T) {
	sum, middle := 0.0, 0
	for seed := range 1 << 16 {
		tone := Tone(uint16(seed))
		if tone < -0.12 || tone > 1.12 {
			t.Fatalf("Tone(%d) = %.3f", seed, tone)
		}
		sum += tone
		if tone > 0.25 && tone < 0.75 {
			middle++
		}
	}
	// Half the sum of two even distributions has three quarters of its weight
	// in the middle half; the small third part spreads it a little.
	if mean, share := sum/65536, float64(middle)/65536; math.Abs(mean-0.5) > 0.01 || share < 0.68 || share > 0.8 {
		t.Errorf("mean %.3f, %.2f of all in the middle half", mean, share)
	}
}

func TestColours(t *testing.T) {
	theme := Theme{Light: 0xffffff, Base: 0x808080, Dark: 0x000000}
	if got := theme.Wood(0.5); got != 0x808080 {
		t.Errorf("middle wood is %s", got.CSS())
	}
	if dark, light := theme.Wood(0.1), theme.Wood(0.9); !(dark < 0x808080 && light > 0x808080) {
		t.Errorf("dark wood %s, light wood %s", dark.CSS(), light.CSS())
	}
	if got := Colour(0x102030).Times(2).CSS(); got != "#204060" {
		t.Errorf("twice #102030 is %s", got)
	}
	if got := Colour(0xf0a010).Times(2).CSS(); got != "#ffff20" {
		t.Errorf("twice #f0a010 is %s", got)
	}
}

// Light along the fibres is lost, light across them comes back, and which way
// round a block lies makes no difference.
func TestLit(t *testing.T) {
	v := View{Light: plane.Point{X: 0.8}}
	along, across := v.Lit(plane.Point{X: 1}), v.Lit(plane.Point{Y: 1})
	if !(along < 1 && across > 1) || v.Lit(plane.Point{X: -1}) != along {
		t.Errorf("along %.3f, across %.3f", along, across)
	}
	if got := (View{}).Lit(plane.Point{X: 1}); got != 1 {
		t.Errorf("light from above gives %.3f", got)
	}
}
