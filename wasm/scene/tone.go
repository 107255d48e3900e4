package scene

import "math"

// Tone returns how light the wood of a block is by nature, from about 0 to
// 1, most of it near the middle. The WebGL painter's shader has the same
// formula.
func Tone(seed uint16) float64 {
	a, b := float64(seed&255)/255, float64(seed>>8)/255
	_, part := math.Modf(float64(seed) * 0.61803)
	return 0.5*(a+b) + 0.22*(part-0.5)
}
