package survey

import (
	"math"
	"slices"

	"keelrow/engine/plane"
)

// adjusted is a room brought as near to all readings as it can be.
type adjusted struct {
	n        int
	ring     plane.Ring
	residual []float64 // by reading, 0 for one left out
	sum      float64   // of their squares
	factor   []float64 // lower Cholesky factor of the normal equations
}

// worst returns the largest residual by size.
func (a adjusted) worst() (largest float64) {
	for _, v := range a.residual {
		largest = max(largest, math.Abs(v))
	}
	return largest
}

// unknowns returns how many coordinates of n corners are free: A is held, and
// B on the x axis.
func unknowns(n int) int { return 2*n - 3 }

// column returns where the coordinates of corner i stand among the unknowns,
// -1 for one that is held.
func column(i int) (x, y int) {
	switch i {
	case 0:
		return -1, -1
	case 1:
		return 0, -1
	}
	return 2*i - 3, 2*i - 2
}

// row returns how the distance between two corners changes with the unknowns,
// and the distance.
func row(ring plane.Ring, r Reading) (at [4]int, by [4]float64, d float64) {
	way := ring[r.To].Sub(ring[r.From])
	d = way.Length()
	unit := plane.Point{X: 1}
	if d > 0 {
		unit = way.Times(1 / d)
	}
	at[0], at[1] = column(r.From)
	at[2], at[3] = column(r.To)
	return at, [4]float64{-unit.X, -unit.Y, unit.X, unit.Y}, d
}

// How far adjust damps its steps, as a share of the largest entry of the
// normal equations.
const (
	undamped = 1e-12 // so little that results do not show it
	damped   = 1e-6
)

// adjust moves the corners until the squared residuals add up to least, by
// Gauss-Newton steps, damped (Levenberg and Marquardt) where a step would make
// the fit worse or a corner is hardly held.
func (w *web) adjust(start plane.Ring) adjusted {
	const (
		mostSteps = 80
		stepDone  = 1e-10 // mm
		sumDone   = 1e-14 // share of the sum that a step still saved
	)
	room := adjusted{n: w.n, ring: start}
	room.residual, room.sum = w.residuals(start)
	damp := undamped
	for range mostSteps {
		next, moved := w.stepped(room, damp)
		residual, sum := w.residuals(next)
		if !(sum <= room.sum) { // so that NaN fails too
			if moved < stepDone || damp > 1 {
				break
			}
			damp = max(damp*10, damped)
			continue
		}
		done := moved < stepDone || sum >= room.sum*(1-sumDone)
		room.ring, room.residual, room.sum = next, residual, sum
		if done {
			break
		}
		damp = max(damp/100, undamped)
	}
	if room.ring.Area() < 0 {
		room.ring = framed(room.ring)
	}
	normal, _ := w.normal(room.ring, room.residual)
	room.factor = factored(normal, unknowns(w.n), undamped)
	return room
}

// stepped returns where one damped Gauss-Newton step takes the corners, and
// the largest change of a coordinate.
func (w *web) stepped(room adjusted, damp float64) (next plane.Ring, moved float64) {
	normal, step := w.normal(room.ring, room.residual)
	n := len(step)
	factor := factored(normal, n, damp)
	solveLower(factor, n, step)
	solveUpper(factor, n, step)
	next = slices.Clone(room.ring)
	for i := range next {
		x, y := column(i)
		if x >= 0 {
			next[i].X += step[x]
			moved = max(moved, math.Abs(step[x]))
		}
		if y >= 0 {
			next[i].Y += step[y]
			moved = max(moved, math.Abs(step[y]))
		}
	}
	return next, moved
}

// factored returns the lower Cholesky factor of normal equations with their
// diagonal raised by a share of its largest entry: by damp, or by more if
// rounding leaves them indefinite.
func factored(normal []float64, n int, damp float64) []float64 {
	largest := 0.0
	for i := range n {
		largest = max(largest, normal[i*n+i])
	}
	for ; ; damp *= 10 {
		factor := slices.Clone(normal)
		for i := range n {
			factor[i*n+i] += damp * largest
		}
		if cholesky(factor, n) || damp > 1 {
			return factor
		}
	}
}

// residuals returns distance less reading for every reading.
func (w *web) residuals(ring plane.Ring) (residual []float64, sum float64) {
	residual = make([]float64, len(w.readings))
	for k, r := range w.readings {
		if w.between(r.From, r.To) == k {
			residual[k] = ring[r.To].Sub(ring[r.From]).Length() - w.taped(k)
			sum += residual[k] * residual[k]
		}
	}
	return residual, sum
}

// normal returns the normal equations of a step.
func (w *web) normal(ring plane.Ring, residual []float64) (matrix, right []float64) {
	n := unknowns(w.n)
	matrix, right = make([]float64, n*n), make([]float64, n)
	for k, r := range w.readings {
		if w.between(r.From, r.To) != k {
			continue
		}
		at, by, _ := row(ring, r)
		for i, p := range at {
			if p < 0 {
				continue
			}
			right[p] -= by[i] * residual[k]
			for j, q := range at {
				if q >= 0 {
					matrix[p*n+q] += by[i] * by[j]
				}
			}
		}
	}
	return matrix, right
}

// cholesky replaces a symmetric matrix by its lower factor. It reports false
// when the matrix is not positive definite.
func cholesky(m []float64, n int) bool {
	for i := range n {
		for j := range i + 1 {
			sum := m[i*n+j]
			a, b := m[i*n:i*n+j], m[j*n:j*n+j]
			for k := range a {
				sum -= a[k] * b[k]
			}
			if i != j {
				m[i*n+j] = sum / m[j*n+j]
				continue
			}
			if !(sum > 0) { // so that NaN fails too
				return false
			}
			m[i*n+i] = math.Sqrt(sum)
		}
	}
	return true
}

// solveLower solves L x = b in place, solveUpper solves Lᵀ x = b.
func solveLower(l []float64, n int, b []float64) {
	for i := range n {
		for k := range i {
			b[i] -= l[i*n+k] * b[k]
		}
		b[i] /= l[i*n+i]
	}
}

func solveUpper(l []float64, n int, b []float64) {
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			b[i] -= l[k*n+i] * b[k]
		}
		b[i] /= l[i*n+i]
	}
}

// redundancy returns the redundancy number of every reading: 1 less the
// diagonal of the projection on the adjusted readings.
func (a adjusted) redundancy(w *web) []float64 {
	n := unknowns(a.n)
	numbers := make([]float64, len(w.readings))
	y := make([]float64, n)
	for k, r := range w.readings {
		if w.between(r.From, r.To) != k {
			continue
		}
		at, by, _ := row(a.ring, r)
		clear(y)
		for i, p := range at {
			if p >= 0 {
				y[p] += by[i]
			}
		}
		solveLower(a.factor, n, y)
		share := 0.0
		for _, v := range y {
			share += v * v
		}
		numbers[k] = min(1, max(0, 1-share))
	}
	return numbers
}

// sway returns the long half axis of every corner's error ellipse for readings
// with a standard error of 1.
func (a adjusted) sway() []float64 {
	n := unknowns(a.n)
	out := make([]float64, a.n)
	for i := range a.n {
		x, y := column(i)
		var u, v []float64
		for _, c := range []int{x, y} {
			unit := make([]float64, n)
			if c >= 0 {
				unit[c] = 1
				solveLower(a.factor, n, unit)
			}
			u, v = v, unit
		}
		xx, xy, yy := dot(u, u), dot(u, v), dot(v, v)
		out[i] = math.Sqrt((xx+yy)/2 + math.Hypot((xx-yy)/2, xy))
	}
	return out
}

func dot(u, v []float64) (sum float64) {
	for i := range u {
		sum += u[i] * v[i]
	}
	return sum
}
