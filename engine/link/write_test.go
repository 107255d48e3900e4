package link

import (
	"flag"
	"math"
	"math/rand/v2"
	"net/url"
	"reflect"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
)

var seed = flag.Uint64("seed", 1, "seed of the random jobs")

func TestFromJob(t *testing.T) {
	for _, tt := range []struct {
		job  floor.Job
		want string
	}{
		{floor.Job{}, "v=1"},
		{floor.Job{Unit: length.Inches, Gap: 12.7}, "v=1&unit=in&gap=12.7mm"},
		{floor.Job{Room: rectangle(4200, 3600.5)}, "v=1&room=4200x3600.5"},
		{floor.Job{Room: []plane.Point{{X: 1}, {X: 4200}, {X: 4200, Y: 3600}, {Y: 3600}}}, "v=1&room=1,0;4200,0;4200,3600;0,3600"},
		{floor.Job{Holes: [][]plane.Point{{{X: 1, Y: 1}, {X: 2, Y: 1}, {X: 2, Y: 2}}}}, "v=1&hole=1,1;2,1;2,2"},
		{floor.Job{Length: 420}, "v=1&block=70x420"},
		{floor.Job{Width: 60}, "v=1&block=60x350"},
		{floor.Job{Pattern: floor.Chevron, Mitre: 52.5, Axis: -.5, Start: floor.FromWall}, "v=1&pattern=chevron&mitre=52.5&axis=-0.5&start=wall"},
		{floor.Job{Centre: &plane.Point{X: math.Copysign(0, -1), Y: 2}, Across: 0.1}, "v=1&centre=0,2&shift=0.1,0"},
		{floor.Job{Border: 1e-9 / 3}, "v=1&border=0.0000000003333333333"}, // 20 digits, the most a typed length may have
	} {
		if got := FromJob(tt.job).String(); got != tt.want {
			t.Errorf("FromJob(%+v) = %q, want %q", tt.job, got, tt.want)
		}
	}
}

func TestDemo(t *testing.T) {
	job := must(t, Open(Demo))
	if unknown := Open(Demo).Unknown(); unknown != nil {
		t.Errorf("unknown keys %q", unknown)
	}
	// The corners as drawn, in square metres by the trapezium rule, worked by
	// hand from wall to wall above the near wall:
	// far wall (5200 to 5190, 5190 to 3300, 1900 to 10, 10 to 0) and breast.
	//   10×(0+4120)/2 + 1890×(4120+4115)/2 + 1400×3700 + 1890×(4105+4100)/2 + 10×(4100+0)/2
	//   = 20600 + 7782075 + 5180000 + 7753725 + 20500 = 20756900 mm²
	twice := 0.0
	for i, p := range job.Room {
		twice += p.Cross(job.Room[(i+1)%len(job.Room)])
	}
	if twice/2 != 20756900 {
		t.Errorf("the room's area is %.1f mm², want 20756900, counter-clockwise", twice/2)
	}
	if job.Length/job.Width != 6 {
		t.Errorf("the block is %v by %v, want the length a whole multiple of the width", job.Width, job.Length)
	}
}

func TestRebased(t *testing.T) {
	for _, tt := range []struct {
		link string
		to   length.Unit
		want string
	}{
		{"gap=12", length.Inches, "unit=in&gap=12mm"},
		{"gap=12", length.Millimetres, "gap=12"},
		{"unit=mm&gap=12", length.Millimetres, "unit=mm&gap=12"},
		{"gap=1/2&room=168x150-1/2&unit=in", length.Millimetres, "gap=1/2in&room=168inx150-1/2in&unit=mm"},
		{"border=14ft6-1/2&unit=in", length.Millimetres, "border=14ft6-1/2&unit=mm"}, // after feet it is inches anyway
		{"hole=0,0;1%20CM,0;1,1&axis=5&mine=5", length.Inches, "unit=in&hole=0mm,0mm;1%20CM,0mm;1mm,1mm&axis=5&mine=5"},
		{"gap=5%6Dm&border=3.5m", length.Inches, "unit=in&gap=5%6Dm&border=3.5m"},
		{"gap=abc&border=1/2", length.Inches, "unit=in&gap=abc&border=1/2mm"}, // faulty before, faulty after
		{"unit=in&unit=mm&gap=1", length.Millimetres, "unit=mm&gap=1in"},
		{"shift=-1,2&centre=3,4", length.Inches, "unit=in&shift=-1mm,2mm&centre=3mm,4mm"},
	} {
		if got := Open("#" + tt.link).Rebased(tt.to).String(); got != tt.want {
			t.Errorf("Open(%q).Rebased(%v) = %q, want %q", tt.link, tt.to, got, tt.want)
		}
	}
}

// randomJob returns a job with any of its fields set, to sizes of a floor.
func randomJob(r *rand.Rand) floor.Job {
	var job floor.Job
	size := func(least, most float64) float64 {
		x := least + (most-least)*r.Float64()
		switch r.IntN(3) {
		case 0:
			return math.Round(x)
		case 1:
			return min(max(least, math.Round(x*16/25.4)/16*25.4), most) // a mark of an inch tape
		}
		return x
	}
	outline := func() []plane.Point {
		corners := make([]plane.Point, 3+r.IntN(9))
		for i := range corners {
			corners[i] = plane.Point{X: size(-9000, 9000), Y: size(-9000, 9000)}
		}
		return corners
	}
	some := func() bool { return r.IntN(2) == 0 }
	if some() {
		job.Unit = length.Inches
	}
	if some() {
		job.Fraction = 16 << r.IntN(3)
	}
	if some() {
		job.Room = outline()
	} else if some() {
		job.Room = rectangle(size(1000, 20000), size(1000, 20000))
	}
	for range r.IntN(4) {
		job.Holes = append(job.Holes, outline())
	}
	if some() {
		job.Gap, job.Border = length.Length(size(0, 30)), length.Length(size(0, 300))
	}
	if some() {
		job.Pattern = floor.Chevron
	}
	if some() {
		job.Width, job.Length = length.Length(size(20, 200)), length.Length(size(100, 2000))
	}
	job.Strands = r.IntN(4)
	if some() {
		job.Mitre = size(25, 75)
	}
	if some() {
		job.Axis = size(-360, 360)
	}
	if some() {
		job.Centre = &plane.Point{X: size(-9000, 9000), Y: size(-9000, 9000)}
	}
	if some() {
		job.Across, job.Along = length.Length(size(-900, 900)), length.Length(size(-900, 900))
	}
	if some() {
		job.Start = floor.FromWall
	}
	return job
}

func TestRandomJobsSurviveTheirLink(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 0))
	for n := range 2000 {
		job := randomJob(r)
		l := FromJob(job)
		got, faults := Open("#" + l.String()).Job()
		if len(faults) > 0 || !reflect.DeepEqual(got, job) {
			t.Fatalf("seed %d, job %d: %q opens as\n%+v, %v, want\n%+v", *seed, n, l, got, faults, job)
		}
		// RFC 3986 as net/url has it: nothing in the link needs an escape.
		u, err := url.Parse("https://example.org/#" + l.String())
		if err != nil || u.Fragment != l.String() || u.String() != "https://example.org/#"+l.String() {
			t.Fatalf("seed %d, job %d: net/url reads %q as %q, %v", *seed, n, l, u, err)
		}
		// Without marks the same numbers mean other lengths, so that Rebased
		// has something to do in both directions.
		bare := Open("#" + strings.ReplaceAll(l.String(), "mm", ""))
		checkRebased(t, bare)
	}
}

// checkRebased checks that a change of unit, there and back, changes nothing
// but the unit.
func checkRebased(t *testing.T, l Link) {
	t.Helper()
	job, faults := l.Job()
	view, _ := l.View()
	for _, unit := range []length.Unit{length.Millimetres, length.Inches, job.Unit} {
		again := l.Rebased(length.Inches - job.Unit).Rebased(unit)
		got, more := again.Job()
		if got.Unit != unit {
			t.Fatalf("%q rebased is %q in unit %v, want %v", l, again, got.Unit, unit)
		}
		got.Unit = job.Unit
		if !reflect.DeepEqual(got, job) || len(values(more)) != len(values(faults)) {
			t.Fatalf("%q opens as\n%+v, %v, but rebased as %q it opens as\n%+v, %v", l, job, faults, again, got, more)
		}
		if v, _ := again.View(); v != view {
			t.Fatalf("%q shows %+v, but rebased as %q it shows %+v", l, view, again, v)
		}
	}
}

// values returns the faults but those of unit, which a change of unit mends.
func values(faults []Fault) []Fault {
	var rest []Fault
	for _, f := range faults {
		if f.Key != "unit" {
			rest = append(rest, f)
		}
	}
	return rest
}

func FuzzLink(f *testing.F) {
	for _, k := range keys {
		f.Add("#"+k.Name+"="+k.Example, k.Name, k.Default)
	}
	f.Add("#"+Demo, "gap", "10")
	f.Add("#room=4200x3600&block=70x350&gap=12", "hole", "1,1;2,1;2,2")
	f.Add("https://example.org/?unit=in&room=14ft x 12ft6-1/2in&gap=1/2&gap=%C2%BD", "unit", "mm")
	f.Add("gap=1/2&border=2%201/4&unit=cm&&=&a=%zz&v=2", "mine", "50% & more #")
	f.Fuzz(func(t *testing.T, s, key, value string) {
		l := Open(s)
		job, faults := l.Job()
		_, more := l.View()
		for _, fault := range append(faults, more...) {
			if say := fault.Error(); !strings.HasSuffix(say, ".") || printable(say) != say {
				t.Fatalf("%q: fault says %q", s, say)
			}
		}
		if len(s) > Most {
			return
		}

		// A link is its own exact text.
		if !strings.HasSuffix(s, l.String()) && !strings.Contains(s, l.String()+"#") {
			t.Fatalf("%q opens as %q, which it does not hold", s, l)
		}
		if again := Open("#" + l.String()); !reflect.DeepEqual(again, l) {
			t.Fatalf("%q opens as %q, and that as %q", s, l, again)
		}

		// The job's own link gives the job again, once tiny lengths have been
		// rounded to what can be typed.
		canonical := FromJob(job)
		same, faults := canonical.Job()
		if !tiny(job) && (len(faults) > 0 || !reflect.DeepEqual(same, job)) {
			t.Fatalf("%q opens as\n%+v, but its own link %q as\n%+v, %v", s, job, canonical, same, faults)
		}
		if len(faults) == 0 && FromJob(same).String() != canonical.String() {
			t.Fatalf("%q: job's link %q, and that one's job's link %q", s, canonical, FromJob(same))
		}
		checkRebased(t, l)

		// With puts one value and leaves every other pair alone.
		key = strings.TrimSpace(key)
		changed := l.With(key, value)
		if key != "" {
			if got := changed.All(key); len(got) != 1 || got[0] != value {
				t.Fatalf("%q.With(%q, %q) holds %q", l, key, value, got)
			}
			if len(changed.String()) <= Most {
				if got := Open("#" + changed.String()).All(key); len(got) != 1 || got[0] != value {
					t.Fatalf("%q.With(%q, %q) = %q opens with %q", l, key, value, changed, got)
				}
			}
		}
		if !reflect.DeepEqual(changed.With(key).pairs, l.With(key).pairs) {
			t.Fatalf("%q.With(%q, %q) = %q changed another pair", l, key, value, changed)
		}
	})
}

// tiny tells whether a length other than zero is below a thousandth of a
// millimetre.
func tiny(job floor.Job) bool {
	sizes := []float64{float64(job.Gap), float64(job.Border), float64(job.Width), float64(job.Length), float64(job.Across), float64(job.Along)}
	points := job.Room
	for _, h := range job.Holes {
		points = append(points[:len(points):len(points)], h...)
	}
	if job.Centre != nil {
		points = append(points[:len(points):len(points)], *job.Centre)
	}
	for _, p := range points {
		sizes = append(sizes, p.X, p.Y)
	}
	for _, x := range sizes {
		if x != 0 && math.Abs(x) < 1e-3 {
			return true
		}
	}
	return false
}
