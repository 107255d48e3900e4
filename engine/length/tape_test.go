package length

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// Marks worked out with exact arithmetic from 1 in = 25.4 mm (1959 yard and
// pound agreement): millimetres over 25.4 times the marks to the inch, rounded
// to the nearest whole, halves away from zero, then reduced. Error is mark
// minus true length in mm, to four places.
func TestRead(t *testing.T) {
	type reading struct {
		text  string
		error float64
	}
	for _, tt := range []struct {
		mm   Length
		want [3]reading // at 1/16, 1/32, 1/64
	}{ // derived with exact arithmetic
		{70, [3]reading{{"2-3/4 in", -0.1500}, {"2-3/4 in", -0.1500}, {"2-3/4 in", -0.1500}}},
		{71, [3]reading{{"2-13/16 in", 0.4375}, {"2-25/32 in", -0.3563}, {"2-51/64 in", 0.0406}}},
		{90, [3]reading{{"3-9/16 in", 0.4875}, {"3-17/32 in", -0.3063}, {"3-35/64 in", 0.0906}}},
		{247.487, [3]reading{{"9-3/4 in", 0.1630}, {"9-3/4 in", 0.1630}, {"9-3/4 in", 0.1630}}},
		{350, [3]reading{{"13-3/4 in", -0.7500}, {"13-25/32 in", 0.0437}, {"13-25/32 in", 0.0437}}},
		{494.975, [3]reading{{"19-1/2 in", 0.3250}, {"19-1/2 in", 0.3250}, {"19-31/64 in", -0.0719}}},
		{500, [3]reading{{"19-11/16 in", 0.0625}, {"19-11/16 in", 0.0625}, {"19-11/16 in", 0.0625}}},
		{600, [3]reading{{"23-5/8 in", 0.0750}, {"23-5/8 in", 0.0750}, {"23-5/8 in", 0.0750}}},
		{1000, [3]reading{{"39-3/8 in", 0.1250}, {"39-3/8 in", 0.1250}, {"39-3/8 in", 0.1250}}},
		{2440, [3]reading{{"96-1/16 in", -0.0125}, {"96-1/16 in", -0.0125}, {"96-1/16 in", -0.0125}}},
		{3048, [3]reading{{"120 in", 0}, {"120 in", 0}, {"120 in", 0}}},
		{19.05, [3]reading{{"3/4 in", 0}, {"3/4 in", 0}, {"3/4 in", 0}}},
		{15.875, [3]reading{{"5/8 in", 0}, {"5/8 in", 0}, {"5/8 in", 0}}},
		{0.79375, [3]reading{{"1/16 in", 0.79375}, {"1/32 in", 0}, {"1/32 in", 0}}}, // a tie at 1/16
		{-0.79375, [3]reading{{"-1/16 in", -0.79375}, {"-1/32 in", 0}, {"-1/32 in", 0}}},
		{3.2, [3]reading{{"1/8 in", -0.0250}, {"1/8 in", -0.0250}, {"1/8 in", -0.0250}}},
		{304.7, [3]reading{{"12 in", 0.1000}, {"12 in", 0.1000}, {"12 in", 0.1000}}},
		{-70, [3]reading{{"-2-3/4 in", 0.1500}, {"-2-3/4 in", 0.1500}, {"-2-3/4 in", 0.1500}}},
		{0, [3]reading{{"0 in", 0}, {"0 in", 0}, {"0 in", 0}}},
	} {
		for i, want := range tt.want {
			tape := Tape{Inches, 16 << i}
			got := tape.Read(tt.mm)
			if got.Text() != want.text {
				t.Errorf("%v.Read(%v).Text() = %q, want %q", tape, tt.mm, got.Text(), want.text)
			}
			if math.Abs(float64(-got.Off)-want.error) > 0.00005001 || got.Mark+got.Off != tt.mm && math.Abs(float64(got.Mark+got.Off-tt.mm)) > 1e-12 {
				t.Errorf("%v.Read(%v) has the mark at %v, off by %v, want an error of %v", tape, tt.mm, got.Mark, got.Off, want.error)
			}
		}
	}
}

func TestReadFields(t *testing.T) {
	// 2-13/16 in is 71.4375 mm exactly (1959 yard and pound agreement).
	want := Reading{Unit: Inches, Negative: true, Whole: 2, Num: 13, Den: 16, Mark: -71.4375, Off: 0.4375}
	if got := (Tape{Inches, 0}).Read(-71); got != want {
		t.Errorf("Read(-71) = %#v, want %#v", got, want)
	}
	want = Reading{Unit: Millimetres, Whole: 247, Mark: 247, Off: 0.25}
	if got := (Tape{}).Read(247.25); got != want {
		t.Errorf("Read(247.25) = %#v, want %#v", got, want)
	}
}

func TestReadingTexts(t *testing.T) {
	for _, tt := range []struct {
		source       string
		tape         Tape
		mm           Length
		feet, string string
		shy, strong  bool
	}{
		// 9 / 1.414213562 = 6.363961 in, 0.011039 in under 6-3/8.
		{"common practice, no source: half a 9 in block's diagonal", Tape{Inches, 16}, 9 * Inch / math.Sqrt2, "6-3/8 in", "6-3/8 in, shy by 0.011", true, false},
		// Worked from 1 in = 25.4 mm: 304.7 mm is 11.996063 in.
		{"1959 yard and pound agreement", Tape{Inches, 16}, 304.7, "1 ft 0 in", "12 in, shy by 0.004", true, false},
		{"1959 yard and pound agreement", Tape{Inches, 64}, 304.7, "1 ft 0 in", "12 in, shy by 0.004", true, false},
		{"1959 yard and pound agreement", Tape{Inches, 16}, -304.7, "-1 ft 0 in", "-12 in, shy by 0.004", true, false},
		{"1959 yard and pound agreement", Tape{Inches, 16}, 4432.3, "14 ft 6-1/2 in", "174-1/2 in", false, false},
		{"1959 yard and pound agreement", Tape{Inches, 16}, 12.5 * Inch, "1 ft 1/2 in", "12-1/2 in", false, false},
		{"1959 yard and pound agreement: 2.755906 in", Tape{Inches, 16}, 70, "2-3/4 in", "2-3/4 in, strong by 0.006", false, true},
		{"1959 yard and pound agreement: 2.755906 in", Tape{Inches, 16}, -70, "-2-3/4 in", "-2-3/4 in, strong by 0.006", false, true},
		{"1959 yard and pound agreement: 13.779528 in", Tape{Inches, 16}, 350, "1 ft 1-3/4 in", "13-3/4 in, strong by 0.030", false, true},
		{"1959 yard and pound agreement: 0.000394 in", Tape{Inches, 16}, 0.01, "0 in", "0 in", false, false},
		{"1959 yard and pound agreement: 0.000591 in", Tape{Inches, 16}, -0.015, "0 in", "0 in, shy by 0.001", true, false},
		{"rule: halves away from zero", Tape{}, 247.5, "248 mm", "248 mm, shy by 0.5", true, false},
		{"rule: halves away from zero", Tape{}, -247.5, "-248 mm", "-248 mm, shy by 0.5", true, false},
		{"rule: nearest mark", Tape{Millimetres, 16}, 247.487, "247 mm", "247 mm, strong by 0.5", false, true},
		{"rule: nearest mark", Tape{}, 246.96, "247 mm", "247 mm", false, false},
		{"rule: nearest mark", Tape{}, 246.94, "247 mm", "247 mm, shy by 0.1", true, false},
		{"rule: nearest mark", Tape{}, 0, "0 mm", "0 mm", false, false},
	} {
		r := tt.tape.Read(tt.mm)
		if r.FeetText() != tt.feet || r.String() != tt.string || r.Shy() != tt.shy || r.Strong() != tt.strong {
			t.Errorf("%v.Read(%v) reads %q, %q, shy %v, strong %v, want %q, %q, %v, %v (%s)", tt.tape, tt.mm,
				r.FeetText(), r.String(), r.Shy(), r.Strong(), tt.feet, tt.string, tt.shy, tt.strong, tt.source)
		}
	}
}

// nearestExact is the rule of the tape in exact rational arithmetic.
func nearestExact(r *big.Rat, size *big.Rat) *big.Int {
	q := new(big.Rat).Quo(new(big.Rat).Abs(r), size)
	q.Add(q, big.NewRat(1, 2))
	n := new(big.Int).Quo(q.Num(), q.Denom())
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

// The tie before every mark goes away from zero, and the float64 next to the
// tie on the near side does not.
func TestReadTies(t *testing.T) {
	for d := int64(16); d <= 64; d *= 2 {
		tape := Tape{Inches, int(d)}
		for n := range int64(20000) {
			tie := nearestFloat(big.NewRat(254*(2*n+1), 20*d))
			far := nearestFloat(big.NewRat(254*(n+1), 10*d))
			near := nearestFloat(big.NewRat(254*n, 10*d))
			under := Length(math.Nextafter(float64(tie), 0))
			if got := tape.Read(tie).Mark; got != far {
				t.Fatalf("%v.Read(%v).Mark = %v, want %v", tape, tie, got, far)
			}
			if got := tape.Read(-tie).Mark; got != -far {
				t.Fatalf("%v.Read(%v).Mark = %v, want %v", tape, -tie, got, -far)
			}
			if got := tape.Read(under).Mark; got != near {
				t.Fatalf("%v.Read(%v).Mark = %v, want %v", tape, under, got, near)
			}
		}
	}
}

func TestReadAgreesWithExactArithmetic(t *testing.T) {
	rng := rand.New(rand.NewPCG(*seed, 2))
	for range 50000 {
		l := Length((rng.Float64()*2 - 1) * math.Pow(10, float64(rng.IntN(8))))
		for _, tape := range []Tape{{}, {Inches, 16}, {Inches, 32}, {Inches, 64}} {
			size := big.NewRat(1, 1)
			most := 0.5
			if tape.Unit == Inches {
				size.SetFrac64(254, int64(10*tape.Fraction))
				most = 12.7 / float64(tape.Fraction)
			}
			n := nearestExact(new(big.Rat).SetFloat64(float64(l)), size)
			want := nearestFloat(new(big.Rat).Mul(new(big.Rat).SetInt(n), size))
			r := tape.Read(l)
			if r.Mark != want {
				t.Fatalf("seed %d: %v.Read(%v).Mark = %v, want %v", *seed, tape, l, r.Mark, want)
			}
			if math.Abs(float64(r.Off)) > most+1e-8 {
				t.Fatalf("seed %d: %v.Read(%v) is off by %v", *seed, tape, l, r.Off)
			}
			if r.Den != 0 && (r.Num%2 == 0 || r.Num >= r.Den) {
				t.Fatalf("seed %d: %v.Read(%v) is not reduced: %v", *seed, tape, l, r)
			}
			for _, text := range []string{r.Text(), r.FeetText()} {
				if back, err := Parse(text, Millimetres); err != nil || back != r.Mark {
					t.Fatalf("seed %d: %v.Read(%v) reads %q, which parses as %v, %v, want %v", *seed, tape, l, text, back, err, r.Mark)
				}
			}
			if back := tape.Read(r.Mark); back.Mark != r.Mark || back.Off != 0 || back.Shy() || back.Strong() {
				t.Fatalf("seed %d: %v.Read(%v) reads %v, the mark itself %v", *seed, tape, l, r, back)
			}
		}
	}
}

func TestDecimal(t *testing.T) {
	for _, tt := range []struct {
		mm     Length
		unit   Unit
		places int
		want   string
	}{ // derived with exact arithmetic from 1 in = 25.4 mm
		{247.48737, Millimetres, 1, "247.5 mm"},
		{247.48737, Millimetres, 0, "247 mm"},
		{247.48737, Millimetres, -1, "247 mm"},
		{247.48737, Inches, 3, "9.744 in"},
		{247.487, Inches, 6, "9.743583 in"},
		{350, Inches, 6, "13.779528 in"},
		{350, Millimetres, 2, "350 mm"},
		{3048, Inches, 3, "120 in"},
		{57.15, Inches, 3, "2.25 in"},
		{57.15, Inches, 1, "2.3 in"}, // a tie: 2.25
		{-57.15, Inches, 1, "-2.3 in"},
		{2.5, Millimetres, 0, "3 mm"},
		{1.005, Millimetres, 2, "1.01 mm"},
		{-0.04, Millimetres, 1, "0 mm"},
		{0.1 + 0.2, Millimetres, 99, "0.3 mm"},
		{1e7, Millimetres, 6, "10000000 mm"},
	} {
		if got := Decimal(tt.mm, tt.unit, tt.places); got != tt.want {
			t.Errorf("Decimal(%v, %v, %d) = %q, want %q", tt.mm, tt.unit, tt.places, got, tt.want)
		}
	}
}
