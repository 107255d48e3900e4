package length

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

var seed = flag.Uint64("seed", 1959, "seed of the random lengths")

// Sources of the table: exact units are those of the international yard and
// pound agreement of 1959 (1 in = 25.4 mm, 1 ft = 304.8 mm), also in NIST
// SP 811 (2008) appendix B.8; prefixes are those of the SI brochure.
const (
	agreement = "1959 yard and pound agreement"
	si        = "SI brochure, prefixes"
)

func TestParse(t *testing.T) {
	for _, tt := range []struct {
		text   string
		unit   Unit
		want   Length
		canon  string
		marked string
		source string
	}{
		{"350", Millimetres, 350, "350", "350mm", si},
		{"350mm", Inches, 350, "350mm", "350mm", si},
		{"350 mm", Inches, 350, "350mm", "350mm", si},
		{" 350\u202FMM\n", Inches, 350, "350mm", "350mm", si},
		{"57mm", Millimetres, 57, "57mm", "57mm", si},
		{"35cm", Millimetres, 350, "35cm", "35cm", si},
		{"3.5m", Millimetres, 3500, "3.5m", "3.5m", si},
		{"3.5 m", Inches, 3500, "3.5m", "3.5m", si},
		{"3,5 m", Millimetres, 3500, "3.5m", "3.5m", si},
		{"3,500 M", Millimetres, 3500, "3.500m", "3.500m", si},
		{"0,125", Millimetres, 0.125, "0.125", "0.125mm", si},
		{"2,25", Inches, 57.15, "2.25", "2.25in", agreement},
		{".5", Millimetres, 0.5, "0.5", "0.5mm", si},
		{"5.", Millimetres, 5, "5", "5mm", si},
		{"247.48737341529164", Millimetres, 247.48737341529164, "247.48737341529164", "247.48737341529164mm", si},

		{"1in", Millimetres, 25.4, "1in", "1in", agreement},
		{"1/8in", Millimetres, 3.175, "1/8in", "1/8in", agreement},
		{"3/16 IN", Millimetres, 4.7625, "3/16in", "3/16in", agreement},
		{"1/4 inch", Millimetres, 6.35, "1/4in", "1/4in", agreement},
		{"1/2", Inches, 12.7, "1/2", "1/2in", agreement},
		{`3/4"`, Millimetres, 19.05, "3/4in", "3/4in", agreement},
		{"¾″", Millimetres, 19.05, "3/4in", "3/4in", agreement},
		{"5⁄8''", Millimetres, 15.875, "5/8in", "5/8in", agreement},
		{"6.375in", Millimetres, 161.925, "6.375in", "6.375in", agreement},
		{"2-1/4", Inches, 57.15, "2-1/4", "2-1/4in", agreement},
		{"2-1/4in", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2-1/4 in", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2-1/4 in.", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{`2 1/4"`, Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{`2 1 / 4 "`, Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2 1/4 inches", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2¼”", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2\u2009¼ in", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"2–1/4\u00A0in", Millimetres, 57.15, "2-1/4in", "2-1/4in", agreement},
		{"-2-1/4in", Millimetres, -57.15, "-2-1/4in", "-2-1/4in", agreement},
		{"−2 1/4in", Millimetres, -57.15, "-2-1/4in", "-2-1/4in", agreement},
		{"-½in", Millimetres, -12.7, "-1/2in", "-1/2in", agreement},
		{"-0", Millimetres, 0, "-0", "-0mm", si},
		{"- 12", Millimetres, -12, "-12", "-12mm", si},

		{"6ft", Millimetres, 1828.8, "6ft", "6ft", agreement},
		{"10'", Millimetres, 3048, "10ft", "10ft", agreement},
		{"10′", Inches, 3048, "10ft", "10ft", agreement},
		{"10 feet", Inches, 3048, "10ft", "10ft", agreement},
		{"1 FOOT", Inches, 304.8, "1ft", "1ft", agreement},
		{"14ft", Inches, 4267.2, "14ft", "14ft", agreement + ": 14 x 304.8"},
		{"2.5ft", Inches, 762, "2.5ft", "2.5ft", agreement + ": 2.5 x 304.8"},
		{"2-1/2 ft", Inches, 762, "2-1/2ft", "2-1/2ft", agreement + ": 2.5 x 304.8"},
		{`14' 6-1/2"`, Millimetres, 4432.3, "14ft6-1/2in", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{`14'-6 1/2"`, Millimetres, 4432.3, "14ft6-1/2in", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{`14’ 6½“`, Millimetres, 4432.3, "14ft6-1/2in", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{"14'6.5''", Millimetres, 4432.3, "14ft6.5in", "14ft6.5in", agreement + ": 174.5 x 25.4"},
		{"14ft6-1/2in", Millimetres, 4432.3, "14ft6-1/2in", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{"14 ft. 6.5 in.", Millimetres, 4432.3, "14ft6.5in", "14ft6.5in", agreement + ": 174.5 x 25.4"},
		{"14ft6-1/2", Millimetres, 4432.3, "14ft6-1/2", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{"14' 6 1/2", Inches, 4432.3, "14ft6-1/2", "14ft6-1/2in", agreement + ": 174.5 x 25.4"},
		{"14' 1/2", Millimetres, 4279.9, "14ft1/2", "14ft1/2in", agreement + ": 168.5 x 25.4"},
		{"14' 6", Millimetres, 4419.6, "14ft6", "14ft6in", agreement + ": 174 x 25.4"},
		{"-14' 6", Millimetres, -4419.6, "-14ft6", "-14ft6in", agreement + ": 174 x 25.4"},
		{"10000m", Millimetres, Longest, "10000m", "10000m", si},
	} {
		t.Run(tt.text, func(t *testing.T) {
			got, err := Parse(tt.text, tt.unit)
			if err != nil || got != tt.want {
				t.Errorf("Parse(%q, %v) = %v, %v, want %v (%s)", tt.text, tt.unit, got, err, tt.want, tt.source)
			}
			if got == 0 && math.Signbit(float64(got)) {
				t.Errorf("Parse(%q, %v) is a negative zero", tt.text, tt.unit)
			}
			if got, err := Canonical(tt.text, tt.unit); err != nil || got != tt.canon {
				t.Errorf("Canonical(%q, %v) = %q, %v, want %q", tt.text, tt.unit, got, err, tt.canon)
			}
			if got, err := Marked(tt.text, tt.unit); err != nil || got != tt.marked {
				t.Errorf("Marked(%q, %v) = %q, %v, want %q", tt.text, tt.unit, got, err, tt.marked)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	const (
		notALength = "is not a length"
		noUnit     = "has no unit known here after its number"
		goesOn     = "goes on after its unit mark"
		moreThan   = "has more than feet and inches in it"
	)
	for _, tt := range []struct {
		text    string
		unit    Unit
		problem string
		advice  string // empty: any
	}{
		{"", Millimetres, notALength, examples},
		{" \u00A0\t", Millimetres, notALength, examples},
		{"-", Millimetres, notALength, ""},
		{"--5", Millimetres, notALength, ""},
		{"mm", Millimetres, notALength, ""},
		{"wide", Millimetres, notALength, ""},
		{".", Millimetres, notALength, ""},
		{"1/", Inches, notALength, ""},
		{"/2", Inches, notALength, ""},
		{"2-1/", Inches, notALength, ""},
		{"NaN", Millimetres, notALength, ""},
		{"Inf", Millimetres, notALength, ""},
		{"-infinity", Millimetres, notALength, ""},
		{"+5", Millimetres, "has “+” in it, which is not part of a length", ""},
		{"1_000", Millimetres, "has “_” in it, which is not part of a length", ""},
		{"350µm", Millimetres, "has “µ” in it, which is not part of a length", ""},
		{"350\xff", Millimetres, "has “\uFFFD” in it, which is not part of a length", ""},
		{"1e3", Millimetres, noUnit, "use mm, cm, m, in or ft"},
		{"1e", Millimetres, noUnit, ""},
		{"0x10", Millimetres, noUnit, ""},
		{"0x1p4", Millimetres, noUnit, ""},
		{"70x350", Millimetres, noUnit, ""},
		{"5 km", Millimetres, noUnit, ""},
		{"14ft.5in", Millimetres, noUnit, ""},
		{"1.2.3", Millimetres, "is not one length", ""},
		{"1,234.5", Millimetres, "is not one length", ""},
		{"1 200 mm", Millimetres, "is not one length", ""},
		{"1/2/3 in", Inches, "is not one length", ""},
		{".1/2", Inches, "is not one length", ""},
		{"½½", Inches, "is not one length", ""},
		{"½5", Inches, "is not one length", ""},
		{"2-", Inches, "has a dash without a fraction after it", ""},
		{"2-1", Inches, "has a dash without a fraction after it", ""},
		{"2--1/4", Inches, "has a dash without a fraction after it", ""},
		{"2.5-1/4in", Inches, "has both decimals and a fraction", ""},
		{"3m 4in", Millimetres, goesOn, ""},
		{"3m 40cm", Millimetres, goesOn, ""},
		{"6in 14ft", Millimetres, goesOn, ""},
		{`2" 1/4`, Millimetres, goesOn, ""},
		{"350mm-", Millimetres, goesOn, ""},
		{"14ft 40mm", Millimetres, moreThan, "write it like 14ft6-1/2in"},
		{"14ft 6ft", Millimetres, moreThan, ""},
		{"14ft wide", Millimetres, notALength, ""},
		{"14ft 6in 1/2", Millimetres, moreThan, ""},
		{"14.5ft 6in", Millimetres, "has inches after feet that are not whole", ""},
		{"1-1/2' 6", Millimetres, "has inches after feet that are not whole", ""},
		{"14ft 12in", Millimetres, "has 12 inches or more after the feet", ""},
		{"14' 65", Millimetres, "has 12 inches or more after the feet", ""},
		{"1/0in", Millimetres, "divides by zero", ""},
		{"2-0/0", Inches, "divides by zero", ""},
		{"2-5/4in", Millimetres, "has a fraction of one or more", "write 3-1/4in if that is meant"},
		{"2-4/4", Inches, "has a fraction of one or more", "write 3 if that is meant"},
		{"5/4in", Inches, "has a fraction of one or more", "write 1-1/4in if that is meant"},
		{"2 1/4", Millimetres, "has a fraction but no unit mark", "write 2-1/4in if inches are meant"},
		{"½", Millimetres, "has a fraction but no unit mark", "write 1/2in if inches are meant"},
		{"2-1/4mm", Inches, "has a fraction of a metric unit", "write decimals, or 2-1/4in if inches are meant"},
		{"½ m", Inches, "has a fraction of a metric unit", ""},
		{"1,200", Millimetres, "can be read two ways because of its comma", "write 1200 or 1.200"},
		{"1,200 mm", Inches, "can be read two ways because of its comma", "write 1200mm or 1.200mm"},
		{"1/10000in", Inches, "has too many digits in its fraction", ""},
		{"0.00000000000000000001", Millimetres, "has a number of more than 20 digits", ""},
		{"10000001", Millimetres, pastLongest, ""},
		{"-10000001", Millimetres, pastLongest, ""},
		{"99999999m", Millimetres, pastLongest, ""},
		{"99999999999999999999ft", Millimetres, pastLongest, ""},
		{"32809ft", Millimetres, pastLongest, ""}, // 32808 ft is 9999.8784 m
		{strings.Repeat("0", 65), Millimetres, "is too long for a length", ""},
		{strings.Repeat("½", 1000000), Millimetres, "is too long for a length", ""},
	} {
		t.Run(fmt.Sprintf("%.40q", tt.text), func(t *testing.T) {
			l, err := Parse(tt.text, tt.unit)
			var pe *ParseError
			if !errors.As(err, &pe) || l != 0 {
				t.Fatalf("Parse(%.80q, %v) = %v, %v, want a *ParseError", tt.text, tt.unit, l, err)
			}
			if pe.Text != tt.text || pe.Problem != tt.problem || pe.Advice == "" || tt.advice != "" && pe.Advice != tt.advice {
				t.Errorf("Parse(%.80q, %v) says %q, want %q: %q", tt.text, tt.unit, pe, tt.problem, tt.advice)
			}
			if s := pe.Error(); utf8.RuneCountInString(s) > 160 || !utf8.ValidString(s) {
				t.Errorf("Parse(%.80q, %v) has no sentence fit to show: %q", tt.text, tt.unit, s)
			}
			if _, err := Canonical(tt.text, tt.unit); err == nil || err.Error() != pe.Error() {
				t.Errorf("Canonical(%.80q, %v) says %v, Parse says %v", tt.text, tt.unit, err, pe)
			}
			if _, err := Marked(tt.text, tt.unit); err == nil || err.Error() != pe.Error() {
				t.Errorf("Marked(%.80q, %v) says %v, Parse says %v", tt.text, tt.unit, err, pe)
			}
		})
	}
}

func TestParseErrorIsASentence(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"", "No length was typed: write it like 350mm, 3.5m, 2-1/4in or 14ft6-1/2in"},
		{"2-1/4", "“2-1/4” has a fraction but no unit mark: write 2-1/4in if inches are meant"},
		{strings.Repeat("9", 70), "“" + strings.Repeat("9", 32) + "…” is too long for a length: write it like 350mm, 3.5m, 2-1/4in or 14ft6-1/2in"},
	} {
		if _, err := Parse(tt.text, Millimetres); err == nil || err.Error() != tt.want {
			t.Errorf("Parse(%q, Millimetres) says %q, want %q", tt.text, err, tt.want)
		}
	}
}

// Signs that only look different. Source: The Unicode Standard, character
// names and compatibility decompositions.
func TestParseTakesUnicodeSigns(t *testing.T) {
	for sign, plain := range map[string]string{
		"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
		"⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
		"1\u20442": "1/2", "1\u22152": "1/2",
		"2\u20101/2": "2-1/2", "2\u20111/2": "2-1/2", "2\u20121/2": "2-1/2", "2\u20131/2": "2-1/2", "2\u20141/2": "2-1/2",
		"\u22121": "-1", "\uFE631": "-1", "\uFF0D1": "-1",
		"2\u00A01/2": "2-1/2", "2\u20021/2": "2-1/2", "2\u20071/2": "2-1/2", "2\u20091/2": "2-1/2", "2\u200A1/2": "2-1/2",
		"2\u202F1/2": "2-1/2", "2\u205F1/2": "2-1/2", "2\u30001/2": "2-1/2",
	} {
		if got, err := Canonical(sign+"in", Millimetres); err != nil || got != plain+"in" {
			t.Errorf("Canonical(%+q) = %q, %v, want %q", sign+"in", got, err, plain+"in")
		}
	}
}

// markedLength is the grammar of a length in a link, its unit mark required:
// sign, feet, whole or decimal, fraction after it, fraction alone, unit.
var markedLength = regexp.MustCompile(`^(-?)(?:([0-9]+)ft)?(?:([0-9]+(?:\.[0-9]+)?)(?:-([0-9]+/[0-9]+))?|([0-9]+/[0-9]+))(mm|cm|m|in|ft)$`)

// exact returns the length that canonical, marked text stands for in exact
// rational arithmetic. It shares nothing with the parser; the units are those
// of the 1959 agreement.
func exact(t *testing.T, marked string) *big.Rat {
	t.Helper()
	m := markedLength.FindStringSubmatch(marked)
	if m == nil {
		t.Fatalf("%q is not a length as links have it", marked)
	}
	rat := func(s string) *big.Rat {
		if s == "" {
			return new(big.Rat)
		}
		// Over and under the line apart: SetString takes 010/11 for octal.
		over, under, _ := strings.Cut(s, "/")
		r, ok := new(big.Rat).SetString(over)
		if d, isNumber := new(big.Int).SetString(under, 10); isNumber {
			r.Quo(r, new(big.Rat).SetInt(d))
		}
		if !ok {
			t.Fatalf("%q in %q is not a number", s, marked)
		}
		return r
	}
	unit := map[string]*big.Rat{"mm": big.NewRat(1, 1), "cm": big.NewRat(10, 1), "m": big.NewRat(1000, 1), "in": big.NewRat(254, 10), "ft": big.NewRat(3048, 10)}
	l := rat(m[3])
	l.Add(l, rat(m[4])).Add(l, rat(m[5])).Mul(l, unit[m[6]])
	feet := rat(m[2])
	l.Add(l, feet.Mul(feet, unit["ft"]))
	if m[1] != "" {
		l.Neg(l)
	}
	return l
}

// nearestFloat returns the float64 nearest to r.
func nearestFloat(r *big.Rat) Length {
	f, _ := r.Float64()
	return Length(f)
}

func TestParseIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(*seed, 1))
	digits := func(most int) string {
		s := ""
		for range 1 + rng.IntN(most) {
			s += string(rune('0' + rng.IntN(10)))
		}
		return s
	}
	pick := func(s ...string) string { return s[rng.IntN(len(s))] }
	for range 200000 {
		// Spell the same length twice: as people write it and as links have it.
		typed, want := pick("", "", "-", "−"), ""
		if typed != "" {
			want = "-"
		}
		marks := []string{"mm", "cm", "m", "in", "ft"}
		whole := digits(4)
		if rng.IntN(3) == 0 {
			feet := digits(3)
			typed += feet + pick("'", "′", "ft", " feet ", " FT. ", "’") + pick("", " ", "-", "\u00A0")
			want += feet + "ft"
			marks = []string{"in"}
			whole = fmt.Sprint(rng.IntN(12))
		}
		kind := rng.IntN(3)
		if kind == 2 {
			den := []int{2, 4, 8, 16, 32, 64, 3, 7, 10, 9999}[rng.IntN(10)]
			num := rng.IntN(den)
			marks = marks[max(0, len(marks)-2):] // inches or feet
			if rng.IntN(4) == 0 {
				typed += fmt.Sprintf("%d%s%d", num, pick("/", "⁄"), den)
				want += fmt.Sprintf("%d/%d", num, den)
			} else {
				typed += fmt.Sprintf("%s%s%d%s%d", whole, pick(" ", "-", " - ", "\u2009"), num, pick("/", "⁄"), den)
				want += fmt.Sprintf("%s-%d/%d", whole, num, den)
			}
		} else {
			typed, want = typed+whole, want+whole
			if kind == 1 {
				decimals := digits(16)
				typed, want = typed+"."+decimals, want+"."+decimals
			}
		}
		mark := pick(marks...)
		want += mark
		typed += pick("", " ", "\u202F") + map[string]string{
			"mm": pick("mm", "MM"), "cm": "cm", "m": pick("m", "M"),
			"in": pick("in", "inch", "inches", `"`, "″", "''", "”"), "ft": pick("ft", "foot", "'", "′"),
		}[mark]

		got, err := Parse(typed, Unit(rng.IntN(2)))
		if exact := nearestFloat(exact(t, want)); err != nil || got != exact {
			t.Fatalf("seed %d: Parse(%q) = %v, %v, want %v, the nearest to %s", *seed, typed, got, err, exact, want)
		}
		if canon, err := Canonical(typed, Millimetres); err != nil || canon != want {
			t.Fatalf("seed %d: Canonical(%q) = %q, %v, want %q", *seed, typed, canon, err, want)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"350", "350 mm", "35cm", "3,5 m", "2-1/4in", `2 1/4"`, "½", "2¼″", "14ft", "14' 6-1/2\"", "14ft6-1/2", "6.375in",
		"-12", "−2-1/4in", "1,200", "1e3", "0x10", "NaN", "2-5/4", "1/0", "3m 4in", "14ft.5in", "14 ft. .5 in.", "''", "00000000000000000009", `010/11"`,
	} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, inches bool) {
		unit, other := Millimetres, Inches
		if inches {
			unit, other = Inches, Millimetres
		}
		l, err := Parse(text, unit)
		canon, canonErr := Canonical(text, unit)
		marked, markedErr := Marked(text, unit)
		if err != nil {
			var pe *ParseError
			if !errors.As(err, &pe) || pe.Problem == "" || pe.Advice == "" || l != 0 || canonErr == nil || markedErr == nil || canon+marked != "" {
				t.Fatalf("Parse(%q, %v) = %v, %v; Canonical %q, %v; Marked %q, %v", text, unit, l, err, canon, canonErr, marked, markedErr)
			}
			if !utf8.ValidString(err.Error()) {
				t.Fatalf("Parse(%q, %v) says %q, which is not text", text, unit, err)
			}
			return
		}
		if canonErr != nil || markedErr != nil {
			t.Fatalf("%q parses, but Canonical says %v and Marked %v", text, canonErr, markedErr)
		}
		if !(l >= -Longest && l <= Longest) {
			t.Fatalf("Parse(%q, %v) = %v", text, unit, l)
		}
		if want := nearestFloat(exact(t, marked)); l != want {
			t.Fatalf("Parse(%q, %v) = %v, want %v", text, unit, l, want)
		}
		if again, err := Parse(canon, unit); err != nil || again != l {
			t.Fatalf("Parse(%q, %v) = %v, but its canonical %q gives %v, %v", text, unit, l, canon, again, err)
		}
		if again, err := Canonical(canon, unit); err != nil || again != canon {
			t.Fatalf("Canonical(%q, %v) = %q, %v", canon, unit, again, err)
		}
		if marked != canon && marked != canon+"in" && marked != canon+"mm" {
			t.Fatalf("Marked(%q, %v) = %q, canonical %q", text, unit, marked, canon)
		}
		for _, u := range []Unit{unit, other} {
			if again, err := Parse(marked, u); err != nil || again != l {
				t.Fatalf("Parse(%q, %v) = %v, but marked %q gives %v, %v in %v", text, unit, l, marked, again, err, u)
			}
			if again, err := Marked(marked, u); err != nil || again != marked {
				t.Fatalf("Marked(%q, %v) = %q, %v", marked, u, again, err)
			}
		}
	})
}
