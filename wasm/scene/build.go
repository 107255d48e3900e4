package scene

import (
	"encoding/binary"
	"math"

	"keelrow/engine/floor"
	"keelrow/engine/plane"
)

// Name is what a block is called in the pattern, wherever the laying starts.
type Name struct{ Strand, Sub, Index int }

// Seed returns a number that looks random and is the same for the same block
// of every floor, so that a link always shows the same wood.
func (n Name) Seed() uint16 {
	return uint16(mixed(mixed(uint32(int32(n.Strand)))+uint32(int32(n.Index))*0x9e3779b1) + uint32(n.Sub)*0x3c6f)
}

// mixed scatters h (the final mixing step of MurmurHash3).
func mixed(h uint32) uint32 {
	h ^= h >> 16
	h *= 0x85ebca6b
	h ^= h >> 13
	h *= 0xc2b2ae35
	return h ^ h>>16
}

// Builder collects a scene. Blocks are given in laying order, the border
// after the last of them.
type Builder struct {
	scene  Scene
	outer  plane.Point // which way is right of the axis
	frames [4]frame    // by hand, and on which side of the centre line
	used   int         // bytes of scene.Data
	work   triangles
}

// frame is what all whole blocks of a hand on one side of the centre line
// have in common.
type frame struct {
	known     bool
	long, end plane.Point // from corner 0 to corners 1 and 3
	dir       plane.Point // of u
	reach     plane.Point // from the middle to the sides of the bounding box
	scale     float64
	words     [Stride / 8]uint64 // the instance, but for middle, order and seed
}

// NewBuilder starts a scene of about so many blocks. Axis is the spine's
// direction in degrees from +y, counter-clockwise. Memory of a scene that is
// no longer shown may be handed over in reuse, or nil.
func NewBuilder(anchor plane.Point, axis float64, blocks int, reuse *Scene) *Builder {
	sin, cos := math.Sincos(axis * math.Pi / 180)
	b := &Builder{outer: plane.Point{X: cos, Y: sin}}
	b.scene.Anchor = anchor
	if reuse != nil {
		b.scene.Data, b.scene.Rows = reuse.Data[:cap(reuse.Data)], reuse.Rows[:0]
		b.scene.rings, b.scene.points = reuse.rings[:0], reuse.points[:0]
		*reuse = Scene{}
	}
	if need := blocks * Stride; len(b.scene.Data) < need {
		b.scene.Data = make([]byte, need)
	}
	b.scene.Low = plane.Point{X: math.Inf(1), Y: math.Inf(1)}
	b.scene.High = plane.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	return b
}

// Row starts a row: the blocks that follow belong to it.
func (b *Builder) Row(number int) {
	b.scene.Rows = append(b.scene.Rows, Row{Number: number, First: b.scene.Orders})
}

// Whole adds the next block, uncut. Corners are counter-clockwise in the room
// frame, the first two the ends of a long edge; hand is 0 for left.
func (b *Builder) Whole(name Name, hand int, corners *[4]plane.Point) {
	f := b.frame(name, hand, corners)
	middle := b.middle(corners)
	// Comparing is much cheaper in WebAssembly than min and max of floats,
	// which are calls there.
	low, high := &b.scene.Low, &b.scene.High
	if x := middle.X - f.reach.X; x < low.X {
		low.X = x
	}
	if x := middle.X + f.reach.X; x > high.X {
		high.X = x
	}
	if y := middle.Y - f.reach.Y; y < low.Y {
		low.Y = y
	}
	if y := middle.Y + f.reach.Y; y > high.Y {
		high.Y = y
	}
	f.put(b.room(), middle, b.scene.Orders, name.Seed())
	b.scene.Orders++
}

// Cut adds the next block, cut to pieces.
func (b *Builder) Cut(name Name, hand int, corners *[4]plane.Point, pieces []floor.Piece) {
	order := b.scene.Orders
	f := b.frame(name, hand, corners)
	middle := b.middle(corners)
	whole := middle.Add(b.scene.Anchor)
	for _, piece := range pieces {
		b.outline(int32(order), piece.Outline, true)
		b.work.start(piece.Outline, whole, f.dir)
		for _, hole := range piece.Holes {
			b.outline(int32(order), hole, false)
			b.work.bridge(hole, whole, f.dir)
		}
		for _, quad := range b.work.quads() {
			data := b.room()
			f.put(data, middle, order, name.Seed())
			putCorners(data, &quad, f.scale)
		}
	}
	b.scene.Orders++
}

// room makes room for one more instance and returns it.
func (b *Builder) room() []byte {
	at := b.used
	if b.used += Stride; b.used > len(b.scene.Data) {
		b.grow()
	}
	return b.scene.Data[at:b.used]
}

func (b *Builder) grow() {
	more := make([]byte, 2*b.used+64*Stride)
	copy(more, b.scene.Data)
	b.scene.Data = more
}

// middle returns the middle of a block, from the anchor.
func (b *Builder) middle(corners *[4]plane.Point) plane.Point {
	return plane.Point{
		X: (corners[0].X+corners[2].X)/2 - b.scene.Anchor.X,
		Y: (corners[0].Y+corners[2].Y)/2 - b.scene.Anchor.Y,
	}
}

// put writes a whole block: eight bytes at a time, for it is done for every
// block of the floor.
func (f *frame) put(data []byte, middle plane.Point, order int, seed uint16) {
	_ = data[Stride-1]
	binary.LittleEndian.PutUint64(data[AtMiddle:],
		uint64(math.Float32bits(float32(middle.X)))|uint64(math.Float32bits(float32(middle.Y)))<<32)
	binary.LittleEndian.PutUint64(data[8:], f.words[1])
	binary.LittleEndian.PutUint64(data[16:], f.words[2])
	binary.LittleEndian.PutUint64(data[24:], f.words[3]|uint64(math.Float32bits(float32(order)))<<32)
	binary.LittleEndian.PutUint64(data[32:], f.words[4]|uint64(seed)<<32)
}

// frame returns what the block has in common with others.
func (b *Builder) frame(name Name, hand int, corners *[4]plane.Point) *frame {
	side := 0
	if name.Strand < 0 {
		side = 1
	}
	f := &b.frames[hand<<1|side]
	if long, end := corners[1].Sub(corners[0]), corners[3].Sub(corners[0]); !f.known ||
		math.Abs(long.X-f.long.X)+math.Abs(long.Y-f.long.Y)+math.Abs(end.X-f.end.X)+math.Abs(end.Y-f.end.Y) > sameShape {
		b.learn(f, hand, side, long, end)
	}
	return f
}

// sameShape is the sum of differences in mm up to which two blocks share a
// frame: far below what an instance can hold, far above rounding.
const sameShape = 1e-4

// learn makes a frame out of a block's edges. A block is pushed home along its
// length towards the seam that lies nearer the centre line: there its end
// butts against what is laid.
func (b *Builder) learn(f *frame, hand, side int, long, end plane.Point) {
	f.known, f.long, f.end = true, long, end
	f.dir = long.Times(1 / long.Length())
	f.reach = plane.Point{
		X: (math.Abs(long.X) + math.Abs(end.X)) / 2,
		Y: (math.Abs(long.Y) + math.Abs(end.Y)) / 2,
	}
	corners := [4]plane.Point{long.Add(end).Times(-0.5), long.Sub(end).Times(0.5), long.Add(end).Times(0.5), end.Sub(long).Times(0.5)}
	if (f.dir.Dot(b.outer) > 0) == (side == 0) {
		f.dir = f.dir.Times(-1)
		corners = [4]plane.Point{corners[2], corners[3], corners[0], corners[1]}
	}
	for i, p := range corners {
		corners[i] = local(p, f.dir)
	}
	f.scale = scaleFor(&corners)
	bytes := [Stride]byte{AtKind: byte(Block), AtHand: byte(hand)}
	putCorners(bytes[:], &corners, f.scale)
	putDirection(bytes[:], f.dir)
	putFloat32(bytes[:], AtScale, f.scale)
	for i := range f.words {
		f.words[i] = binary.LittleEndian.Uint64(bytes[8*i:])
	}
	b.scene.Shape.Along[hand] = f.dir
	b.scene.Shape.HalfLength = long.Length() / 2
	b.scene.Shape.HalfWidth = (corners[3].Y - corners[0].Y) / 2
	b.scene.Shape.Skew[hand] = (corners[3].X - corners[0].X) / (corners[3].Y - corners[0].Y)
}

// local turns p into the frame whose u runs along dir.
func local(p, dir plane.Point) plane.Point { return plane.Point{X: dir.Dot(p), Y: dir.Cross(p)} }

// scaleFor returns a scale that holds the furthest distance and comes as near
// as may be to dividing all corners without a rest: side by side, blocks that
// are each a hundredth of a millimetre too wide would add up to a wrong floor.
func scaleFor(corners *[4]plane.Point) float64 {
	furthest, wide := 0.0, 0.0
	for _, p := range corners {
		furthest = max(furthest, math.Abs(p.X), math.Abs(p.Y))
		wide = max(wide, math.Abs(p.Y))
	}
	most := math.Floor(wide / (furthest / 32760))
	if most < 1 {
		return float64(float32(furthest / 32760))
	}
	best, least := 0.0, math.Inf(1)
	for k := most; k >= max(1, most*0.9); k-- {
		scale, miss := wide/k, 0.0
		for _, p := range corners {
			miss += math.Abs(p.X/scale-math.Round(p.X/scale)) + math.Abs(p.Y/scale-math.Round(p.Y/scale))
		}
		if miss < least {
			best, least = scale, miss
		}
	}
	return float64(float32(best))
}

func putCorners(data []byte, corners *[4]plane.Point, scale float64) {
	for c, p := range corners {
		putInt16(data, AtCorners+4*c, p.X/scale)
		putInt16(data, AtCorners+4*c+2, p.Y/scale)
	}
}

// putDirection writes the pair of whole numbers whose ratio comes nearest to
// the direction. Plain rounding of 32767 times the unit vector would shift
// the far corner of a long block by a hundredth of a millimetre.
func putDirection(data []byte, dir plane.Point) {
	best, least := dir, math.Inf(1)
	for m := 32767.0; m > 30000; m-- {
		p := plane.Point{X: math.Round(m * dir.X), Y: math.Round(m * dir.Y)}
		if miss := math.Abs(p.Cross(dir)); miss < least {
			best, least = p, miss
		}
	}
	putInt16(data, AtDirection, best.X)
	putInt16(data, AtDirection+2, best.Y)
}

// outline keeps a ring of a cut block for painters that draw outlines:
// counter-clockwise around wood, clockwise around a hole.
func (b *Builder) outline(order int32, r plane.Ring, wood bool) {
	from := len(b.scene.points) / 2
	n := len(r)
	forward := (r.Area() > 0) == wood
	for i := range r {
		p := r[i]
		if !forward {
			p = r[n-1-i]
		}
		p = p.Sub(b.scene.Anchor)
		b.stretch(p)
		b.scene.points = append(b.scene.points, float32(p.X), float32(p.Y))
	}
	b.scene.rings = append(b.scene.rings, ring{order, int32(from), int32(from + n)})
}

// stretch makes the bounding box hold p.
func (b *Builder) stretch(p plane.Point) {
	low, high := &b.scene.Low, &b.scene.High
	low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
	high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
}

// close ends the rows where the next begins, and the last where the border
// begins.
func (b *Builder) close() {
	if b.scene.Blocks == 0 {
		b.scene.Blocks = b.scene.Orders
	}
	after := b.scene.Blocks
	for i := len(b.scene.Rows) - 1; i >= 0; i-- {
		b.scene.Rows[i].After = after
		after = b.scene.Rows[i].First
	}
}

// Scene returns what has been collected. The builder is not used after it.
func (b *Builder) Scene() *Scene {
	b.close()
	b.scene.Data = b.scene.Data[:b.used]
	if b.scene.Orders == 0 {
		b.scene.Low, b.scene.High = plane.Point{}, plane.Point{}
	}
	return &b.scene
}
