package floor

import (
	"math"
	"strconv"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"keelrow/engine/plane"
)

// benchRooms are the rooms that are timed, for about as many blocks of 70 x
// 350 mm as asked for: a rectangle, an L with a notch in a wall and two
// columns, and a round room of 64 corners.
func benchRooms(blocks float64) map[string]Job {
	area := blocks * 70 * 350
	s := math.Sqrt(area / 0.75)
	l := plane.Ring{{X: 0, Y: 0}, {X: 0.6 * s, Y: 0}, {X: 0.6 * s, Y: 0.05 * s}, {X: 0.7 * s, Y: 0.05 * s}, {X: 0.7 * s, Y: 0},
		{X: s, Y: 0}, {X: s, Y: 0.5 * s}, {X: 0.52 * s, Y: 0.5 * s}, {X: 0.52 * s, Y: s}, {X: 0, Y: s}}
	columns := [][]plane.Point{
		rect(0.2*s, 0.3*s, 0.23*s, 0.33*s),
		{{X: 0.7 * s, Y: 0.25 * s}, {X: 0.72 * s, Y: 0.27 * s}, {X: 0.7 * s, Y: 0.29 * s}, {X: 0.68 * s, Y: 0.27 * s}},
	}
	r := math.Sqrt(area / math.Pi)
	var round plane.Ring
	for i := range 64 {
		sin, cos := math.Sincos(float64(i) / 64 * 2 * math.Pi)
		round = append(round, plane.Point{X: r * cos, Y: r * sin})
	}
	return map[string]Job{
		"rectangle": {Room: rect(0, 0, math.Sqrt(area*1.25), math.Sqrt(area/1.25))},
		"L":         {Room: l, Holes: columns},
		"64-gon":    {Room: round},
	}
}

// layOut computes the whole floor and writes it as a painter would: four
// corners of every whole block, and the outlines of the pieces.
func layOut(b testing.TB, job Job, out []float32) (written []float32, blocks int) {
	p, err := New(job)
	if err != nil {
		b.Fatal(err)
	}
	out = out[:0]
	for _, s := range p.Strands() {
		for i := range s.Columns {
			c := &s.Columns[i]
			for _, run := range c.Runs {
				n := run.To - run.From
				at := len(out)
				if cap(out) < at+8*n {
					out = append(out, make([]float32, 8*n)...)
				}
				out = out[:at+8*n]
				writeRun(out[at:], &c.First, c.Step, run.From)
				blocks += n
			}
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					for _, q := range piece.Outline {
						out = append(out, float32(q.X), float32(q.Y))
					}
				}
				blocks++
			}
		}
	}
	return out, blocks
}

// writeRun fills to with the corners of blocks from the given one on.
func writeRun(to []float32, first *[4]plane.Point, step plane.Point, from int) {
	f := *first
	for i := from; len(to) >= 8; i++ {
		x, y := float64(i)*step.X, float64(i)*step.Y
		b := to[:8:8]
		b[0], b[1] = float32(f[0].X+x), float32(f[0].Y+y)
		b[2], b[3] = float32(f[1].X+x), float32(f[1].Y+y)
		b[4], b[5] = float32(f[2].X+x), float32(f[2].Y+y)
		b[6], b[7] = float32(f[3].X+x), float32(f[3].Y+y)
		to = to[8:]
	}
}

func eachBenchRoom(b *testing.B, sizes []int, bench func(b *testing.B, job Job)) {
	for _, size := range sizes {
		for _, name := range []string{"rectangle", "L", "64-gon"} {
			b.Run(name+"/"+strconv.Itoa(size/1000)+"k", func(b *testing.B) {
				bench(b, benchRooms(float64(size))[name])
			})
		}
	}
}

func perBlock(b *testing.B, blocks int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(blocks), "ns/block")
	b.ReportMetric(float64(blocks), "blocks")
}

// BenchmarkLayout times a floor from the job to numbers a painter can take.
func BenchmarkLayout(b *testing.B) {
	eachBenchRoom(b, []int{2_000, 20_000, 200_000}, func(b *testing.B, job Job) {
		b.ReportAllocs()
		out, blocks := layOut(b, job, nil)
		for b.Loop() {
			out, blocks = layOut(b, job, out)
		}
		perBlock(b, blocks)
	})
}

// BenchmarkWrite times writing the corners of as many blocks, and nothing
// else: what no layout can beat.
func BenchmarkWrite(b *testing.B) {
	eachBenchRoom(b, []int{2_000, 20_000, 200_000}, func(b *testing.B, job Job) {
		_, blocks := layOut(b, job, nil)
		out := make([]float32, 8*blocks)
		first := [4]plane.Point{{X: 0, Y: 0}, {X: 247, Y: 247}, {X: 198, Y: 297}, {X: -50, Y: 50}}
		for b.Loop() {
			writeRun(out, &first, plane.Point{X: 0, Y: 98.99}, -blocks/2)
		}
		perBlock(b, blocks)
	})
}

// BenchmarkSimplefeatures times a general polygon library that clips every
// block of the L-room, one by one.
func BenchmarkSimplefeatures(b *testing.B) {
	size := 20_000
	if testing.Short() {
		size = 2_000
	}
	b.Run("L/"+strconv.Itoa(size/1000)+"k", func(b *testing.B) {
		job := benchRooms(float64(size))["L"].WithDefaults()
		p, err := New(job)
		if err != nil {
			b.Fatal(err)
		}
		field := polygonUnchecked(p.Field()...)
		var blocks []geom.Geometry
		candidates(job, p.Field(), func(_ place, r plane.Ring) { blocks = append(blocks, polygonUnchecked(r)) })
		for b.Loop() {
			for _, block := range blocks {
				if _, err := geom.Intersection(field, block); err != nil {
					b.Fatal(err)
				}
			}
		}
		perBlock(b, len(blocks))
	})
}
