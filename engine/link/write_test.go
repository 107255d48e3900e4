package link

import (
	"flag"
	"math"
	"math/rand/v2"
	"net/url"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/plane"
	"keelrow/engine/survey"
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
		{floor.Job{Unit: length.Inches, Tapes: []survey.Reading{{From: 0, To: 1, Length: 4200}, {From: 28, To: 0, Length: 5}}}, "v=1&unit=in&tape=AB:4200mm;C2A:5mm"},
		{floor.Job{Legs: []survey.Leg{{Length: 4200, Turn: 90}, {Length: 3600.5, Turn: -90}, {Length: 1, Turn: 44.5}}, Share: true, Misfit: 5},
			"v=1&walk=4200;L;3600.5;R;1;44.5&share=yes&misfit=5"},
		{floor.Job{Joins: []floor.Join{
			{Wall: 3, At: 1200, Width: 813, Depth: 120, Room: []plane.Point{{X: 0, Y: 1}, {X: 5, Y: 0}, {X: 5, Y: 5}}, OtherWall: 2, OtherAt: 900},
			{Wall: 3, At: 1, Width: 2, Depth: 3, Room: rectangle(5, 6), OtherWall: 3, OtherAt: 4}},
			Bows: []floor.Bow{{Wall: 3, Rise: 1}}},
			"v=1&join=DA:1200,813,120:CA:900:0,1;5,0;5,5&join=DE:1,2,3:DA:4:5x6&bow=DE:1"},
		{floor.Job{GapAt: []floor.AtWall{{Wall: 3, Length: 10}}}, "v=1&gap=0;DA:10"},
		{floor.Job{Unit: length.Inches, BorderAt: []floor.AtWall{{Wall: 0}}}, "v=1&unit=in&border=0mm;AB:0mm"},
		{floor.Job{Border: 108, Strips: []length.Length{38, 13, 57}, BorderAt: []floor.AtWall{{Wall: 1, Length: 90}}}, "v=1&border=38+13+57;BC:90"},
		{floor.Job{Strips: []length.Length{110}}, "v=1&border=110"},
		{floor.Job{Bows: []floor.Bow{{Wall: 1, Rise: -120}, {Wall: 30, Rise: 5}}}, "v=1&bow=BC:-120&bow=E2F2:5"},
		{floor.Job{Scribes: []floor.Scribe{{Wall: 2, Ordinates: []length.Length{0, 2.5, 0}}}}, "v=1&scribe=CD:0,2.5,0"},
		{floor.Job{Doors: []floor.Door{{At: 1200, Width: 813}, {Wall: 3, Width: 800, Name: " back & front, 2 "}}},
			"v=1&door=AB:1200,813&door=DA:0,800,%20back%20%26%20front,%202%20"},
		{floor.Job{Unit: length.Inches, Line: floor.LineSetting{From: floor.LineThrough, Points: [2]plane.Point{{X: 1}, {Y: 2}}}},
			"v=1&unit=in&line=through:1mm,0mm:0mm,2mm"},
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
		{"tape=AB:1;BC:2in&walk=4200;L;90;90;1;-5&misfit=5", length.Inches, "unit=in&tape=AB:1mm;BC:2in&walk=4200mm;L;90mm;90;1mm;-5&misfit=5mm"},
		{"unit=in&join=BC:1,2,1/2:DA:4:5x6&join=BC:1,2,3:DA:4:0,0;1,0;1,1", length.Millimetres,
			"unit=mm&join=BC:1in,2in,1/2in:DA:4in:5inx6in&join=BC:1in,2in,3in:DA:4in:0in,0in;1in,0in;1in,1in"},
		{"gap=12;AB:10&border=38+1%20cm;BC:90", length.Inches, "unit=in&gap=12mm;AB:10mm&border=38mm+1%20cm;BC:90mm"},
		{"unit=in&bow=BC:-1/2&scribe=A2B2:0,1/4", length.Millimetres, "unit=mm&bow=BC:-1/2in&scribe=A2B2:0in,1/4in"},
		{"door=AB:1200,813,2&door=AB:0,1&door=5", length.Inches, "unit=in&door=AB:1200mm,813mm,2&door=AB:0mm,1mm&door=5"}, // 2 is its name
		{"line=door:1", length.Inches, "unit=in&line=door:1"},
		{"line=through:0,0:5,6in", length.Inches, "unit=in&line=through:0mm,0mm:5mm,6in"},
		{"sliver=15&same=1&mark=1", length.Inches, "unit=in&sliver=15mm&same=1mm&mark=1mm"},
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
	wall := func() int {
		if r.IntN(20) == 0 {
			return r.IntN(mostCorners - 1) // most likely none of the room's
		}
		return r.IntN(max(4, walls(job)))
	}
	switch r.IntN(5) {
	case 0:
		n := 3 + r.IntN(30)
		for from := range n {
			job.Tapes = append(job.Tapes, survey.Reading{From: from, To: (from + 1 + r.IntN(n-1)) % n, Length: length.Length(size(10, 9000))})
		}
	case 1:
		for range 3 + r.IntN(30) {
			turn := []float64{90, -90, 0, 45, size(-179, 179)}[r.IntN(5)]
			job.Legs = append(job.Legs, survey.Leg{Length: length.Length(size(10, 9000)), Turn: turn})
		}
		job.Share = some()
	}
	if some() {
		job.Misfit = length.Length(size(1, 20))
	}
	for range max(0, r.IntN(6)-3) {
		j := floor.Join{Wall: wall(), At: length.Length(size(0, 3000)), Width: length.Length(size(500, 2000)), Depth: length.Length(size(0, 400)),
			OtherAt: length.Length(size(0, 3000))}
		if j.Room = outline(); some() {
			j.Room = rectangle(size(1000, 20000), size(1000, 20000))
		}
		j.OtherWall = r.IntN(len(j.Room))
		job.Joins = append(job.Joins, j)
	}
	at := func(most float64) (list []floor.AtWall) {
		for w := range walls(job) {
			if r.IntN(4) == 0 {
				list = append(list, floor.AtWall{Wall: w, Length: length.Length(size(0, most))})
			}
		}
		return list
	}
	for range r.IntN(3) {
		job.Bows = append(job.Bows, floor.Bow{Wall: wall(), Rise: length.Length(size(-500, 500))})
	}
	for range r.IntN(3) {
		s := floor.Scribe{Wall: wall()}
		for range 1 + r.IntN(9) {
			s.Ordinates = append(s.Ordinates, length.Length(size(-50, 50)))
		}
		job.Scribes = append(job.Scribes, s)
	}
	for range r.IntN(3) {
		job.Rounds = append(job.Rounds, floor.Round{Centre: plane.Point{X: size(-9000, 9000), Y: size(-9000, 9000)}, Diameter: length.Length(size(1, 2000))})
	}
	for range r.IntN(3) {
		names := []string{"", "", "hall", "2", "back-door_2", "étage", "a, b: c & d=#%41", "½"}
		job.Doors = append(job.Doors, floor.Door{Wall: wall(), At: length.Length(size(0, 9000)), Width: length.Length(size(500, 2000)),
			Name: names[r.IntN(len(names))]})
	}
	for range r.IntN(3) {
		w := floor.Window{Wall: wall(), At: length.Length(size(0, 9000)), Width: length.Length(size(300, 2000))}
		if some() {
			w.Sill, w.Height, w.Name = length.Length(size(0, 900)), length.Length(size(300, 2000)), "south-2"
		}
		job.Windows = append(job.Windows, w)
	}
	for range r.IntN(4) {
		job.Holes = append(job.Holes, outline())
	}
	if some() {
		job.Gap, job.Border = length.Length(size(0, 30)), length.Length(size(0, 300))
	}
	if some() {
		job.GapAt = at(30)
	}
	if some() {
		job.BorderAt = at(300)
	}
	if some() {
		job.Border = 0
		for range 2 + r.IntN(4) {
			strip := length.Length(size(5, 150))
			job.Strips = append(job.Strips, strip)
			job.Border += strip
		}
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
	switch job.Line.From = floor.LineFrom(r.IntN(int(floor.LineThrough) + 1)); job.Line.From {
	case floor.LineMidway:
		job.Line.A, job.Line.B = wall(), wall()
	case floor.LineSquare, floor.LineWall:
		job.Line.A = wall()
	case floor.LineDoor, floor.LineHole:
		job.Line.A = r.IntN(4)
	case floor.LineThrough:
		for i := range job.Line.Points {
			job.Line.Points[i] = plane.Point{X: size(-9000, 9000), Y: size(-9000, 9000)}
		}
	}
	if some() {
		job.Across, job.Along = length.Length(size(-900, 900)), length.Length(size(-900, 900))
	}
	if some() {
		job.Start = floor.FromWall
	}
	return job
}

// nameBytes is what a doorway's name may hold without an escape.
const nameBytes = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"

func TestRandomJobsSurviveTheirLink(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 0))
	for n := range 2000 {
		job := randomJob(r)
		l := FromJob(job)
		got, faults := Open("#" + l.String()).Job()
		if len(faults) > 0 || !reflect.DeepEqual(got, job) {
			t.Fatalf("seed %d, job %d: %q opens as\n%+v, %v, want\n%+v", *seed, n, l, got, faults, job)
		}
		// RFC 3986 as net/url has it: nothing in the link needs an escape,
		// but for what may stand in a doorway's name.
		u, err := url.Parse("https://example.org/#" + l.String())
		if err != nil || u.String() != "https://example.org/#"+l.String() ||
			u.Fragment != l.String() && !slices.ContainsFunc(job.Doors, func(d floor.Door) bool { return strings.Trim(d.Name, nameBytes) != "" }) {
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
		v, _ := again.View()
		if (v.Beside == "") != (view.Beside == "") {
			t.Fatalf("%q is compared with %q, but rebased as %q with %q", l, view.Beside, again, v.Beside)
		}
		before, _ := l.Beside()
		after, _ := again.Beside()
		was, _ := before.Job()
		is, _ := after.Job()
		if is.Unit = was.Unit; !reflect.DeepEqual(is, was) {
			t.Fatalf("%q is compared with\n%+v, but rebased as %q with\n%+v", l, was, again, is)
		}
		if v.Beside = view.Beside; v != view {
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
	f.Add("#room=0,0;9,0;9,9;5,9;0,9&gap=12;DE:1;EA:2&border=1+2;AB:3&bow=EA:1&bow=GH:1", "border", "38+13")
	f.Add("#unit=in&door=AB:1/2,1,%201/2&line=door:1&scribe=CD:0,1/2,0&sliver=1/2", "line", "hole:2")
	f.Add("#unit=in&tape=AB:1/2;BC:2;CA:3;A2A:1&gap=1;CA:2&share=yes&misfit=1/8", "walk", "1;L;2;R")
	f.Add("#walk=4200;L;90;90;1;-5&join=BC:1,2,3:DA:4:5x6&join=ZA:1,2,3:CA:4:0,0;1,0;1,1&gap=1;DA:1", "tape", "AB:4200;AC:1")
	f.Add("#line=through:1,2:3,4&room=1x1&line=wall:AB&gap=1;A2B2:1;Z77A78:1", "door", "AB:1,2,é")
	f.Add("#room=4200x3600&block=70x350&gap=12", "hole", "1,1;2,1;2,2")
	f.Add("#unit=in&window=AB:1/2,12,3ft,1m,1/2&beside=block%3D3x18%26border%26borderwood%3Dwenge%26line%3Dthrough%3A1%2C2%3A3%2C4&eye=1/2,20,60", "beside", "gap=1")
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
	points := append(job.Room[:len(job.Room):len(job.Room)], job.Line.Points[:]...)
	add := func(lengths ...length.Length) {
		for _, l := range lengths {
			sizes = append(sizes, float64(l))
		}
	}
	for _, a := range slices.Concat(job.GapAt, job.BorderAt) {
		add(a.Length)
	}
	add(job.Strips...)
	add(job.Misfit)
	for _, r := range job.Tapes {
		add(r.Length)
	}
	for _, l := range job.Legs {
		add(l.Length)
	}
	for _, j := range job.Joins {
		add(j.At, j.Width, j.Depth, j.OtherAt)
		points = append(points, j.Room...)
	}
	for _, b := range job.Bows {
		add(b.Rise)
	}
	for _, s := range job.Scribes {
		add(s.Ordinates...)
	}
	for _, d := range job.Doors {
		add(d.At, d.Width)
	}
	for _, w := range job.Windows {
		add(w.At, w.Width, w.Sill, w.Height)
	}
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
