package scene

import (
	"math"
	"strconv"
)

// PathUnit is the unit of path coordinates in mm. Whole numbers of it keep
// the path text short; a sixteenth is a quarter of a pixel at four times life
// size.
const PathUnit = 1.0 / 16

// AppendPath appends the outline of the block that instance i begins, as SVG
// path data in PathUnits from the Anchor, and returns the first instance of
// the next block. Cut blocks have one closed part for each outline and hole,
// running opposite ways.
func (s *Scene) AppendPath(path []byte, i int) (longer []byte, next int) {
	order := s.Order(i)
	next = i + 1
	if s.Kind(i) == Block {
		if from, ok := s.cut(order); ok {
			for next < s.Instances() && s.Order(next) == order {
				next++
			}
			for _, r := range s.rings[from:] {
				if int(r.order) != order {
					break
				}
				var pen pen
				for p := r.from; p < r.to; p++ {
					path = pen.to(path, float64(s.points[2*p]), float64(s.points[2*p+1]))
				}
				path = append(path, 'z')
			}
			return path, next
		}
	}
	var pen pen
	for _, p := range s.Corners(i) {
		path = pen.to(path, p.X, p.Y)
	}
	return append(path, 'z'), next
}

// cut finds the first outline of a cut block.
func (s *Scene) cut(order int) (from int, ok bool) {
	low, high := 0, len(s.rings)
	for low < high {
		if middle := (low + high) / 2; int(s.rings[middle].order) < order {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low, low < len(s.rings) && int(s.rings[low].order) == order
}

// pen writes a line in path units, each point relative to the one before.
type pen struct {
	x, y int64
	down bool
}

func (p *pen) to(path []byte, x, y float64) []byte {
	nx, ny := int64(math.Round(x/PathUnit)), int64(math.Round(y/PathUnit))
	dx, dy := nx, ny
	if p.down {
		path = append(path, 'l')
		dx, dy = nx-p.x, ny-p.y
	} else {
		path = append(path, 'M')
	}
	p.x, p.y, p.down = nx, ny, true
	path = strconv.AppendInt(path, dx, 10)
	path = append(path, ' ')
	return strconv.AppendInt(path, dy, 10)
}
