package scene

import (
	"encoding/binary"
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/plane"
)

// LongestPlank is the length in mm above which a border strip is shown as
// several planks.
const LongestPlank = 1200

// Border adds the planks of the border's strips, as though laid after
// everything else.
func (b *Builder) Border(strips []floor.Strip) {
	b.close()
	for i, s := range strips {
		o := s.Outline
		b.strip(i, [4]plane.Point{o[0], o[1], o[2], o[len(o)-1]})
	}
}

// strip adds one strip's planks. The corners are the ends of the edge at the
// wall's side, then those of the edge at the field's side, backwards.
func (b *Builder) strip(wall int, corners [4]plane.Point) {
	along := corners[1].Sub(corners[0])
	if along.Length() == 0 {
		return
	}
	dir := along.Times(1 / along.Length())
	for i, p := range corners {
		corners[i] = local(p.Sub(b.scene.Anchor), dir)
	}
	v0, v1 := corners[0].Y, corners[3].Y
	if math.Abs(v1-v0) < 1e-3 {
		return
	}
	// Joints between planks are square; they keep clear of the mitres.
	first, last := max(corners[0].X, corners[3].X), min(corners[1].X, corners[2].X)
	start, end := min(corners[0].X, corners[3].X), max(corners[1].X, corners[2].X)
	n := int(math.Ceil((end - start) / LongestPlank))
	if last <= first {
		n = 1
	}
	from0, from1 := corners[0].X, corners[3].X
	for i := 1; i <= n; i++ {
		to0, to1 := corners[1].X, corners[2].X
		if i < n {
			to0 = min(max(start+(end-start)*float64(i)/float64(n), first), last)
			to1 = to0
		}
		if to0 > from0 || to1 > from1 {
			b.plank(wall, i, dir, [4]plane.Point{{X: from0, Y: v0}, {X: to0, Y: v0}, {X: to1, Y: v1}, {X: from1, Y: v1}})
		}
		from0, from1 = to0, to1
	}
}

// plank adds one plank, given in the frame turned to dir. Its instance has
// its middle in the middle of the plank and v = ± half its width.
func (b *Builder) plank(wall, n int, dir plane.Point, corners [4]plane.Point) {
	middle := plane.Point{
		X: (min(corners[0].X, corners[3].X) + max(corners[1].X, corners[2].X)) / 2,
		Y: (corners[0].Y + corners[2].Y) / 2,
	}
	for i, p := range corners {
		corners[i] = p.Sub(middle)
		b.stretch(p.Turned(dir.X, dir.Y))
	}
	if corners[0].Y > 0 { // the field lies to the right of a hole's edge
		corners = [4]plane.Point{corners[3], corners[2], corners[1], corners[0]}
	}
	scale := scaleFor(&corners)
	middle = middle.Turned(dir.X, dir.Y)
	data := b.room()
	clear(data)
	putFloat32(data, AtMiddle, middle.X)
	putFloat32(data, AtMiddle+4, middle.Y)
	putCorners(data, &corners, scale)
	putDirection(data, dir)
	putFloat32(data, AtOrder, float64(b.scene.Orders))
	putFloat32(data, AtScale, scale)
	binary.LittleEndian.PutUint16(data[AtSeed:], uint16(mixed(mixed(uint32(wall)+0xb0ade)+uint32(n))))
	data[AtKind] = byte(Border)
	b.scene.Orders++
}
