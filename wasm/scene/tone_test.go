package scene

import (
	"math"
	"testing"
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
