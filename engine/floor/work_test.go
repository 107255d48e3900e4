package floor

import "testing"

// How much work a floor is grows with its edges, not with its area: only
// blocks that an edge may meet are looked at one by one. However large the
// room, they are at most three for every two widths of a block that its edges
// are long.
func TestWorkGrowsWithTheEdges(t *testing.T) {
	for _, name := range []string{"rectangle", "L", "64-gon"} {
		for _, size := range []float64{3_000, 12_000, 48_000, 192_000} {
			p, err := New(benchRooms(size)[name])
			if err != nil {
				t.Fatal(err)
			}
			// After a strand of one column, its spans are the blocks that
			// were looked at.
			looked := 0
			first, last := p.Span()
			for k := first; k <= last; k++ {
				p.Strand(k)
				if len(p.layout.near) == 0 {
					continue
				}
				done := p.layout.spans[0].low
				for _, s := range p.layout.spans {
					looked += max(0, s.high+1-max(done, s.low))
					done = max(done, s.high+1)
				}
			}
			c := p.Count()
			if looked < c.Cut {
				t.Fatalf("%s: %d blocks looked at, %d cut: the count is wrong", name, looked, c.Cut)
			}
			edges := 0.0
			for _, r := range p.Field() {
				edges += r.Perimeter()
			}
			if most := int(1.5 * edges / 70); looked > most {
				t.Errorf("%s: of %d blocks %d are looked at, for %d that are cut, want at most %d", name, c.Full+c.Cut, looked, c.Cut, most)
			}
		}
	}
}

// Nothing is allocated for each block, cut or whole: a floor takes a few
// lists for each strand.
func TestNoAllocationPerBlock(t *testing.T) {
	for name, job := range benchRooms(50_000) {
		p, err := New(job)
		if err != nil {
			t.Fatal(err)
		}
		count := p.Count()
		first, last := p.Span()
		var out []float32
		allocated := testing.AllocsPerRun(5, func() { out, _ = layOut(t, job, out) })
		if most := float64(5*(last-first+1) + 100); allocated > most {
			t.Errorf("%s: %v allocations for %d strands, %d whole and %d cut blocks, want at most %v", name, allocated, last-first+1, count.Full, count.Cut, most)
		}
	}
}
