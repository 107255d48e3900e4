package state

// Leaf is how many rows or strands a list shows at a time.
const Leaf = 40

// RowsFrom returns the first row of the leaf that is open: the one turned to,
// or else the one the laying has come to.
func (s State) RowsFrom() int {
	if s.rowsFrom > 0 && s.rowsFrom <= len(s.Rows) {
		return s.rowsFrom - 1
	}
	return max(0, s.Row()) / Leaf * Leaf
}

// TurnRows turns the list of rows by so many leaves.
type TurnRows struct{ By int }

func (a TurnRows) apply(s State) (State, Step) {
	s.rowsFrom = turned(s.RowsFrom(), a.By, len(s.Rows)) + 1
	return s, Stay
}

// TurnStrands turns the list of strands by so many leaves.
type TurnStrands struct{ By int }

func (a TurnStrands) apply(s State) (State, Step) {
	n := 0
	for range s.Plan.Strands() {
		n++
	}
	s.StrandsFrom = turned(s.StrandsFrom, a.By, n)
	return s, Stay
}

// turned returns the first item of the leaf so many leaves on.
func turned(from, by, all int) int {
	last := max(0, all-1) / Leaf * Leaf
	return min(max(0, from+by*Leaf), last)
}
