package scene

import (
	"keelrow/engine/floor"
	"keelrow/engine/pattern"
)

// Of returns the scene of a whole plan. Memory of a scene that is no longer
// shown may be handed over in reuse, or nil.
func Of(p *floor.Plan, reuse *Scene) *Scene { return Slowly(p, reuse, func() {}) }

// Slowly returns the same and rests between the rows.
func Slowly(p *floor.Plan, reuse *Scene, rest func()) *Scene {
	low, high := p.Room()[0].Box()
	count := p.Count()
	// A cut block is one instance for most pieces, a few more for odd ones.
	b := NewBuilder(low.Add(high).Times(0.5), p.Job().Axis, count.Full+2*count.Pieces+64, reuse)
	for row := range p.Rows() {
		rest()
		b.Row(row.Number)
		for block := range p.Blocks(row) {
			name := Name{block.Strand, block.Sub, block.Index}
			hand := 0
			if block.Hand == pattern.RightHand {
				hand = 1
			}
			if block.Full {
				b.Whole(name, hand, &block.Corners)
			} else {
				b.Cut(name, hand, &block.Corners, block.Pieces)
			}
		}
	}
	if strips, err := p.Strips(); err == nil {
		b.Border(strips)
	}
	return b.Scene()
}

// Fit returns the view of the whole scene on a canvas, with a margin in
// device pixels all round.
func (s *Scene) Fit(width, height int, margin float64) View {
	size := s.High.Sub(s.Low)
	v := View{
		Centre: s.Anchor.Add(s.Low.Add(s.High).Times(0.5)),
		Width:  width, Height: height, Scale: 1,
	}
	if size.X > 0 && size.Y > 0 {
		v.Scale = max(1e-3, min((float64(width)-2*margin)/size.X, (float64(height)-2*margin)/size.Y))
	}
	return v
}
