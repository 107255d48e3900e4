package teach

import (
	"flag"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/wasm/opened"
	"keelrow/wasm/tables"
	"keelrow/wasm/words"
)

var seed = flag.Int("seed", 0, "seed of the question that TestQuestions looks at; 0 looks at the usual ones")

func order(t testing.TB, text string) tables.Order {
	t.Helper()
	plan, view := opened.Plan(t, text)
	return tables.Order{Plan: plan, View: view, Words: words.English()}
}

var tags = regexp.MustCompile(`<[^>]*>`)

func plain(html string) string {
	return strings.Join(strings.Fields(tags.ReplaceAllString(html, " ")), " ")
}

const usual = "room=4200x3600&gap=12&border=100&block=70x350"

// By hand, with √2 = 1.41421356 (OEIS A002193). 70 mm: diagonal 98.9949,
// which a tape in mm reads as 99; 99/4 = 24.75 and 98.9949/4 = 24.7487, 0.0013
// apart. 350/√2 = 247.4874. The field is 4200-2*112 = 3976 by 3376 mm, 13.42
// m² of 15.12. The diagonal of a square of 350 is 494.9747.
func TestStepsSayThisFloorsNumbers(t *testing.T) {
	for _, c := range []struct {
		link string
		want [][]string // of each step
	}{
		{usual, [][]string{
			{"Step 1 of 13", "45 degrees", "90° ÷ 2 = 45°"},
			{"70 mm wide and 350 mm long", "350 ÷ 70 = 5", "It is a whole number"},
			{"sides of 70 mm", "99 mm", "99 ÷ 4 = 24.75 mm"},
			{"√(70² + 70²) = 98.99 mm", "98.99 ÷ 4 = 24.75 mm"},
			{"350 ÷ √2 = 247.49 mm", "247 mm (247.49 mm exactly)"},
			{"25 mm (24.75 mm exactly)", "pairs of working lines", "Centre line, wall AB: from corner A 2100 mm"},
			{"to the right", "√(24.75² + 24.75²) = 35 mm"},
			{"350 × √2 = 494.97 mm"},
			{"The first row", "99 mm (98.99 mm exactly)"},
			{"on the right", "rows"},
			{"What lies behind the start", "blocks"},
			{"gap of 12 mm", "border of 100 mm", "13.42 m²", "15.12 m²", "12 + 100 = 112 mm"},
			{"AB", "BC", "Narrowest"},
		}},
		// 80/√2... of a length that is no whole number of widths: 350 = 4 × 80 + 30.
		{"room=4200x3600&block=80x350", [][]string{nil, {"350 ÷ 80 = 4.375", "miss each other by 30 mm", "320 mm or 400 mm"}}},
		// Two side by side are 140 wide: the diagonal is 197.99, a quarter 49.50.
		{"room=4200x3600&block=70x420&strands=2", [][]string{nil, {"140 mm wide", "420 ÷ 140 = 3"}, nil, {"197.99 ÷ 4 = 49.5 mm"}}},
		// sin 60° = 0.8660254, cos 60° = 0.5, tan 60° = 1.7320508 (OEIS A002194 is √3).
		{"room=4200x3600&pattern=chevron&block=90x600&mitre=60", [][]string{
			{"Step 1 of 12", "60 degrees"},
			{"90 ÷ tan 60° = 51.96 mm", "600 + 51.96 = 651.96 mm"},
			{"90 ÷ sin 60° = 103.92 mm"},
			{"600 × cos 60° = 300 mm"},
			{"600 × sin 60° = 519.62 mm"},
			{"no spacing"},
			{"two wedges", "520 mm (519.62 mm exactly) wide and 300 mm high"},
		}},
		// Common practice, no source: 2-1/4 by 9 in. 2.25 × 1.41421 = 3.182, a
		// quarter 0.795; 9/1.41421 = 6.364, which is nearest to 6-3/8.
		{"unit=in&room=14ftx12ft&block=2-1/4x9", [][]string{nil, {"2-1/4 in wide and 9 in long"}, nil, {"3.182 ÷ 4 = 0.795 in"}, {"9 ÷ √2 = 6.364 in", "6-3/8 in"}}},
	} {
		o := order(t, c.link)
		for i, want := range c.want {
			got := plain(Step(o, i+1))
			for _, w := range want {
				if !strings.Contains(got, w) {
					t.Errorf("step %d of %s lacks %q:\n%s", i+1, c.link, w, got)
				}
			}
		}
	}
}

// Every step of every sort of floor says what is to be seen, in order, and has
// no name left in braces.
func TestEveryStep(t *testing.T) {
	data := regexp.MustCompile(`data-(path|lines|from|to)="([^"]*)"`)
	for _, text := range []string{usual, usual + "&start=wall", usual + "&strands=3", "room=4200x3600&pattern=chevron&block=90x600&mitre=52.5&start=wall", "room=900x400&block=70x350",
		"room=0,0;4200,0;4200,3600;2600,3600;2600,2000;0,2000&gap=10&block=80x350&axis=20&shift=30,40", "unit=in&fraction=32&room=14ftx12ft&block=2-1/4x9&border=4+1/2", "room=300x300&block=80x2000"} {
		o := order(t, text)
		all := 0
		for range o.Plan.Rows() {
			all++
		}
		blocks := o.Plan.Count().Full + o.Plan.Count().Cut
		before := 0
		for n := 1; n <= Steps(o.Plan.Job()); n++ {
			html := Step(o, n)
			seen := map[string]string{}
			for _, m := range data.FindAllStringSubmatch(html, -1) {
				seen[m[1]] = m[2]
			}
			from, _ := strconv.Atoi(seen["from"])
			to, _ := strconv.Atoi(seen["to"])
			if from < 0 || to < from || to > blocks {
				t.Errorf("%s, step %d: blocks %d to %d of %d", text, n, from, to, blocks)
			}
			if n >= Steps(o.Plan.Job())-4 {
				if from < before && from != to {
					t.Errorf("%s, step %d plays from %d after %d", text, n, from, before)
				}
				before = to
			}
			if strings.ContainsAny(html, "{}") || strings.Contains(html, "NaN") || strings.Contains(html, "+Inf") || !strings.Contains(html, "<svg") && !strings.Contains(html, "sum") && n < 6 {
				t.Errorf("%s, step %d: %s", text, n, html)
			}
			// Teaching: two to four sentences of text and a title, no more than fits a screen.
			if paragraphs := strings.Count(html, `<p class="">`); paragraphs < 1 || paragraphs > 5 {
				t.Errorf("%s, step %d has %d paragraphs", text, n, paragraphs)
			}
		}
		if before != blocks {
			t.Errorf("%s: the last step has %d of %d blocks", text, before, blocks)
		}
	}
}

func TestAnswers(t *testing.T) {
	o := order(t, usual)
	for what, want := range map[string]string{"1": Step(o, 1), "7": Step(o, 7), "99": Step(o, 13), "": Step(o, 1), "ask 5": AskHTML(o, 5),
		"check 5 1 2 3 24 3/4 in": CheckHTML(o, 5, "24 3/4 in", true, 2, 3)} {
		if got := Answers(o, what); got != want {
			t.Errorf("%q gives %s", what, got)
		}
	}
}

// A link with a question asks the same one in every class.
func TestSameSeedSameQuestion(t *testing.T) {
	o := order(t, usual)
	for seed := range 50 {
		if AskHTML(o, seed) != AskHTML(o, seed) {
			t.Fatalf("seed %d asks two questions", seed)
		}
	}
}

func TestQuestions(t *testing.T) {
	jobs := []floor.Job{{}, {Unit: length.Inches}, {Unit: length.Inches, Fraction: 64}, {Pattern: floor.Chevron}, {Pattern: floor.Chevron, Unit: length.Inches}}
	seen := map[int]bool{}
	first, last := 1, 400
	if *seed != 0 {
		first, last = *seed, *seed
	}
	for _, job := range jobs {
		job = job.WithDefaults()
		for n := first; n <= last; n++ {
			q := Ask(job, n)
			seen[q.kind] = true
			mark := 0.5 // half of a mark, mm
			if job.Unit == length.Inches {
				mark = 25.4 / float64(2*max(16, job.Fraction))
			}
			// Against the definition, not the engine: tan, sin and cos of the
			// angle, and √2 to 20 places (OEIS A002193).
			const root = 1.41421356237309504880
			u, w, l, a := float64(q.Width)*float64(q.Strands), float64(q.Width), float64(q.Length), q.Mitre*math.Pi/180
			want := []float64{u * root / 4, l / root, u * root, u / 2, l * math.Sin(a), w / math.Sin(a), l * math.Cos(a), l + w/math.Tan(a)}[q.kind]
			if math.Abs(float64(q.Want)-want) > 1e-9*l {
				t.Fatalf("seed %d: %+v, want %v", n, q, want)
			}
			if !(q.Length >= q.Width*length.Length(q.Strands)) || q.Width <= 0 {
				t.Fatalf("seed %d: a block of %v by %v", n, q.Width, q.Length)
			}
			tape := job.Tape()
			for _, right := range []length.Length{q.Want, tape.Read(q.Want).Mark, q.Want + length.Length(mark)*0.99, q.Want - length.Length(mark)*0.99} {
				if v := q.Judge(right); !v.Right {
					t.Fatalf("seed %d: %v is wrong for %v", n, right, q.Want)
				}
			}
			for _, wrong := range []length.Length{q.Want + length.Length(mark)*1.01, q.Want - length.Length(mark)*1.01, 0, -q.Want, q.Want * 1.1} {
				v := q.Judge(wrong)
				if v.Right || v.Off > 0 != (wrong > q.Want) || math.Abs(float64(v.Off-(wrong-q.Want))) > 1e-9 {
					t.Fatalf("seed %d: %v for %v: %+v", n, wrong, q.Want, v)
				}
			}
			// Every slip is known for what it is, unless it comes to the right
			// answer or to what another slip gives.
			for _, s := range q.slips {
				v := q.Judge(s.gives)
				if v.Right {
					continue
				}
				if v.slip == slipNone {
					t.Fatalf("seed %d: slip %d gives %v, which is not known", n, s.kind, s.gives)
				}
				i := slices.IndexFunc(q.slips, func(o slip) bool { return o.kind == v.slip && q.near(o.gives, s.gives) })
				if i < 0 {
					t.Fatalf("seed %d: slip %d is taken for slip %d", n, s.kind, v.slip)
				}
			}
		}
	}
	if *seed == 0 && len(seen) != kinds {
		t.Errorf("only the kinds %v were asked", seen)
	}
}

// seedOf finds a question.
func seedOf(t *testing.T, job floor.Job, kind int, strands int) (int, Question) {
	t.Helper()
	for seed := 1; seed < 5000; seed++ {
		if q := Ask(job, seed); q.kind == kind && q.Strands == strands {
			return seed, q
		}
	}
	t.Fatalf("no question of kind %d", kind)
	return 0, Question{}
}

func TestCheckSaysWhatWentWrong(t *testing.T) {
	o := order(t, usual)
	job := o.Plan.Job()
	number := func(v length.Length) string { return strconv.FormatFloat(float64(v), 'f', 2, 64) }
	seed, q := seedOf(t, job, askSpacing, 1)
	w := q.Width
	for _, c := range []struct {
		typed string
		right string
		says  string
	}{
		{number(w * 0.35355339), "yes", "Right."},
		{number(w * 0.70710678), "no", "from one working line to the other"},
		{number(w * 1.41421356), "no", "whole diagonal"},
		{number(w / 4), "no", "multiply by √2 first"},
		{number(w * 0.35355339 / 10 * 10), "yes", "on the tape"},
		{number(w*0.35355339+3) + " mm", "no", "Too long by 3 mm."},
		{number(w*0.35355339 - 3), "no", "Too short by 3 mm."},
		{number(w*0.35355339) + "in", "no", "wrong unit"},
		{"", "", "Write a length, such as 24.5."},
		{"a bit", "", "Write a length"},
		{"<b>" + strings.Repeat("9", 5000), "", "Write a length"},
	} {
		html := CheckHTML(o, seed, c.typed, true, 2, 3)
		if !strings.Contains(html, `data-right="`+c.right+`"`) || !strings.Contains(plain(html), c.says) {
			t.Errorf("%q for %v wide says\n%s\nwant %s and %q", c.typed, w, plain(html), c.right, c.says)
		}
	}
	seed, q = seedOf(t, job, askInterval, 1)
	if html := CheckHTML(o, seed, number(q.Length/2), false, 2, 3); !strings.Contains(html, "Divide by √2 instead") || !strings.Contains(html, "2 of 3") {
		t.Errorf("half of the length: %s", plain(html))
	}
	if html := CheckHTML(o, seed, number(q.Length/math.Sqrt2), true, 2, 3); !strings.Contains(html, "3 of 4 right") {
		t.Errorf("right: %s", plain(html))
	}
	seed, q = seedOf(t, job, askStep, 3)
	if html := CheckHTML(o, seed, number(q.Width*math.Sqrt2), true, 0, 0); !strings.Contains(html, "single block") || !strings.Contains(html, "0 of 1 right") {
		t.Errorf("one block of three: %s", plain(html))
	}
}

// Texts that are given in a table by their number are all there.
func TestTexts(t *testing.T) {
	texts := In("en")
	for i, s := range texts.Slips[1:] {
		if s == "" {
			t.Errorf("slip %d has no text", i+1)
		}
	}
	for i, a := range texts.Asked {
		if a.Question == "" || a.Means == "" {
			t.Errorf("question %d has no text", i)
		}
	}
}

func FuzzAnswers(f *testing.F) {
	for _, s := range []string{"1", "13", "99999999999999999999", "-1", "ask 7", "ask", "check 7 1 2 3 24.75", "check 7 1 2 3 2' 3-1/2\" ", "check -9 1 -2 x <b>", "check 1 1 1 1 1e99", ""} {
		f.Add(s)
	}
	mm, in := order(f, usual), order(f, "unit=in&room=14ftx12ft&pattern=chevron&block=3x18")
	f.Fuzz(func(t *testing.T, what string) {
		for _, o := range []tables.Order{mm, in} {
			html := Answers(o, what)
			if strings.Count(html, "<div") != strings.Count(html, "</div>") || strings.Count(html, "<section") != strings.Count(html, "</section>") ||
				strings.Contains(html, "<script") || strings.Contains(html, "NaN") {
				t.Fatalf("%q gives %s", what, html)
			}
		}
	})
}
