package strike

import (
	"math"
	"testing"

	"keelrow/engine/floor"
	"keelrow/engine/length"
	"keelrow/engine/pattern"
	"keelrow/engine/plane"
)

// The tests in this file answer cases met on site. Source of every wanted
// value: field cases: worked here, with the working beside it. What a case
// leaves open is assumed, and the assumption stated.

const (
	in = length.Inch
	ft = length.Foot
)

// part returns the first part of the first mark of a kind, seam and side.
func part(t testing.TB, marks []Mark, kind Kind, seam, side int) Part {
	t.Helper()
	for _, m := range marks {
		if m.Kind == kind && m.Seam == seam && m.Side == side {
			return m.Parts[0]
		}
	}
	t.Fatalf("no line of kind %d, seam %d, side %d", kind, seam, side)
	return Part{}
}

func point(x, y length.Length) plane.Point { return plane.Point{X: float64(x), Y: float64(y)} }

// Room 14 x 14 ft, slats 3 x 12 in, gap 1/2 in (assumed), work from left to
// right only.
//
// Interval 12/√2 = 8.4853 in. Half of the field is 84 - 1/2 = 83.5 in. With a
// seam on the middle, 9 intervals = 76.3675 in fit and 7.1325 in are left at
// either side; with the middle between two seams, 9-1/2 intervals = 80.6102 in
// leave 2.8898 in. The first is better: the first row's line lies 76.3675 in
// left of the middle, 84 - 76.3675 = 7.6325 in off the wall, and its tip lines
// 3√2/4 = 1.0607 in to either side of it. 12 is four times 3, so the ends
// finish evenly with the pattern's centre in the middle of the room, or a
// quarter step (1.0607 in) further on.
func TestCase01NailedFloorStartsAtOneSide(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(14*ft, 14*ft), Width: 3 * in, Length: 12 * in, Gap: in / 2})
	lines, err := OneWay(p, Left)
	if err != nil || len(lines) != 4 {
		t.Fatalf("%d placings, %v", len(lines), err)
	}
	for i, want := range []struct{ first, along float64 }{{7.1325, 0}, {7.1325, 1.0607}, {2.8898, 0}, {2.8898, 1.0607}} {
		nearIn(t, "left at the first side", lines[i].First, want.first)
		nearIn(t, "left at the last side", lines[i].Last, want.first)
		nearIn(t, "shift along", lines[i].Shift.Along, want.along)
		e := Ends(lines[i].Plan, in)
		if math.Abs(float64(e[Near].Plain.Narrowest-e[Far].Plain.Narrowest)) > 1e-6 || math.Abs(float64(e[Left].Plain.Narrowest-e[Right].Plain.Narrowest)) > 1e-6 {
			t.Errorf("placing %d does not finish evenly: %+v", i, e)
		}
	}
	best := lines[0]
	nearIn(t, "first line from the middle", best.FromCentre, -76.3675)
	near0 := best.Line[0].Ends[0]
	if near0.Wall != 0 || near0.Corner != 0 {
		t.Errorf("the near end is read on wall %d from corner %d", near0.Wall, near0.Corner)
	}
	nearIn(t, "first line from the wall", near0.Distance, 7.6325)
	if got, want := near0.Reading(length.Tape{Unit: length.Inches, Fraction: 16}).String(), "7-5/8 in, strong by 0.007"; got != want { // 7.6325 - 7.625
		t.Errorf("reading %q, want %q", got, want)
	}
	if len(best.Lines) != 2 {
		t.Fatalf("%d working lines", len(best.Lines))
	}
	nearIn(t, "left tip line from the wall", best.Lines[0].Parts[0].Ends[0].Distance, 7.6325-1.0607)
	nearIn(t, "right tip line from the wall", best.Lines[1].Parts[0].Ends[0].Distance, 7.6325+1.0607)
	other, err := OneWay(p, Right)
	if err != nil {
		t.Fatal(err)
	}
	nearIn(t, "first line from the right wall", 168*in-other[0].Line[0].Ends[0].Distance, 7.6325)
}

// Blocks 5 x 15 in: the tips lie W√2/4 = 5 * 1.41421/4 = 1.7678 in off the
// seam's mean for any length. 1-3/4 in off the tape is 0.0178 in (0.45 mm)
// shy, and the two tip lines so struck are 3-1/2 in apart instead of 3.5355.
func TestCase02TipLinesOffTheCentreLine(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(10*ft, 12*ft), Width: 5 * in, Length: 15 * in})
	marks := Marks(p)
	centre := part(t, marks, Centre, 0, 0).Ends[0].Distance
	left, right := part(t, marks, Working, 0, -1).Ends[0].Distance, part(t, marks, Working, 0, 1).Ends[0].Distance
	nearIn(t, "centre line", centre, 60)
	nearIn(t, "left tip line off it", centre-left, 1.7678)
	nearIn(t, "right tip line off it", right-centre, 1.7678)
	nearIn(t, "from tip line to tip line", right-left, 3.5355)
	r := length.Tape{Unit: length.Inches, Fraction: 16}.Read(p.Pattern().Spacing())
	if r.Text() != "1-3/4 in" || !r.Strong() {
		t.Errorf("on the tape: %v, want 1-3/4 in and strong", r)
	}
	near(t, "the tape value is off", r.Off, 0.4513) // 1.767767 - 1.75 = 0.017767 in
	// The same for any width: the geometry of a square's diagonal.
	for _, w := range []length.Length{2.25 * in, 70, 127} {
		near(t, "tip offset", pattern.Herringbone{Width: w, Length: 4 * w, Strands: 1}.Spacing(), w*0.35355339)
	}
}

// Room 4.20 m wide, block 70 x 350; 3.60 m deep (assumed).
//
// The centre line itself goes on the room's centre; the first line that tips
// run on is the right one, for the block that climbs to the right, and its
// pair lies as far to the left: S * 70 * √2/4 = 24.749, 49.497, 74.246 mm. The
// other way to sit symmetrically is with the centre midway between two seams:
// then the spine's line lies 350/(2√2) = 123.744 mm to the side, either one.
func TestCase03SymmetryShift(t *testing.T) {
	for strands, want := range map[int]length.Length{1: 24.7487, 2: 49.4975, 3: 74.2462} {
		p := newPlan(t, floor.Job{Room: rect(4200, 3600), Width: 70, Length: 350, Strands: strands})
		marks := Marks(p)
		near(t, "centre line", part(t, marks, Centre, 0, 0).Ends[0].Distance, 2100)
		near(t, "right line", part(t, marks, Working, 0, 1).Ends[0].Distance, 2100+want)
		near(t, "left line", part(t, marks, Working, 0, -1).Ends[0].Distance, 2100-want)
		placings, err := Placings(p, 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, pl := range placings {
			if pl.Shift.Across != 0 {
				near(t, "spine off the centre", pl.Shift.Across, 123.7437)
			}
			l, r := pl.Ends[Left].Plain, pl.Ends[Right].Plain
			if math.Abs(float64(l.Narrowest-r.Narrowest)) > 1e-6 || math.Abs(float64(l.Widest-r.Widest)) > 1e-6 {
				t.Errorf("%d strands, %+v: left %+v, right %+v", strands, pl.Shift, l, r)
			}
		}
	}
}

// The area of every cut piece that lies against wall 3 and no other.
func plainAreas(p *floor.Plan, wall int) (areas []float64, corners []int) {
	for _, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, cut := range c.Cuts {
				for _, piece := range cut.Pieces {
					var on []int
					walls := p.FieldWalls()[0]
					for i := range p.Field()[0] {
						side := newSide(p.Field()[0], i, walls[i])
						if side.holds(piece) {
							on = append(on, walls[i])
						}
					}
					if len(on) == 1 && on[0] == wall {
						areas, corners = append(areas, piece.Area), append(corners, len(piece.Outline))
					}
				}
			}
		}
	}
	return areas, corners
}

// Paving 4 x 8 in, edge course laid, no joint; and 100 x 200 mm with 2 mm
// joints (assumed). "Half pieces" can be read in two ways, so both are given.
//
// Half squares: the edge touches the outer tips of the first strand. The first
// tip line is then the strand's inner one, (L+W)/√2 on: 12/√2 = 8.4853 in, so
// 8-1/2 in is 0.0147 in too much, and right for every use. Between the tips
// stay triangles of W²/2 = 8 sq in, a quarter of a block.
//
// Half blocks: the edge passes through the middles of blocks, midway between
// two seams. Tip lines are then L/(2√2) -/+ W√2/4 = 2.8284 -/+ 1.4142 = 1.4142
// and 4.2426 in away, and an interval of 5.6569 in further on: 7.0711 and
// 9.8995. 8-1/2 in is none of them: it does not halve blocks.
//
// 100 x 200 with 2 mm joints: 300/√2 + 2 = 214.132 mm with the edge a joint
// off the tips. Half blocks: (202)/(2√2) -/+ (102√2/4 - 2/√2) + 2 =
// 71.418 -/+ 34.648 + 2 = 38.770 and 108.066 mm.
func TestCase04FirstTipsFromAnEdge(t *testing.T) {
	e := FromEdge(4*in, 8*in, 0)
	nearIn(t, "first tip line from the edge", e.Tips, 8.4853)
	nearIn(t, "8-1/2 in is off by", 8.5*in-e.Tips, 0.0147)
	nearIn(t, "halves, first tip line", e.Halves[0], 1.4142)
	nearIn(t, "halves, second tip line", e.Halves[1], 4.2426)
	metric := FromEdge(100, 200, 2)
	near(t, "first tip line, 100 x 200", metric.Tips, 214.1320)
	near(t, "halves, 100 x 200", metric.Halves[0], 38.7695)
	near(t, "halves, 100 x 200", metric.Halves[1], 108.0660)

	// The edge is the left wall of a field.
	at := func(mean length.Length) *floor.Plan {
		c := point(mean, 1500)
		return newPlan(t, floor.Job{Room: rect(2600, 3000), Width: 4 * in, Length: 8 * in, Centre: &c})
	}
	spacing := 4 * in * math.Sqrt2 / 4
	areas, corners := plainAreas(at(e.Tips-spacing), 3)
	for i, a := range areas {
		if math.Abs(a-float64(8*in*in)) > 1e-3 || corners[i] != 3 {
			t.Errorf("tips at the edge: a piece of %.4f sq in with %d corners, want triangles of 8", a/645.16, corners[i])
		}
	}
	for i, mean := range []length.Length{e.Halves[0] + spacing, e.Halves[1] - spacing} {
		halves, _ := plainAreas(at(mean), 3)
		if len(halves) < 10 || len(areas) < 10 {
			t.Fatalf("only %d and %d pieces at the edge", len(areas), len(halves))
		}
		for _, a := range halves {
			if math.Abs(a-float64(16*in*in)) > 1e-3 {
				t.Errorf("half blocks %d: a piece of %.4f sq in, want 16", i, a/645.16)
			}
		}
	}
}

// Nine loose bricks of 3-5/8 x 7-5/8 in with 3/8 in joints (assumed): from tip
// to tip across one strand (7.625+3.625)/√2 = 7.9550 in. Set a joint off the
// edge course, the first tip line lies 8.3300 in from it: 8-5/16 in, strong.
// Believing the 4 x 8 module, 8.4853, would leave it 0.1553 in too wide.
func TestCase05NineLooseBricks(t *testing.T) {
	w, l, joint := 3.625*in, 7.625*in, 0.375*in
	e := FromEdge(w, l, joint)
	nearIn(t, "tip to tip", e.Reach, 7.9550)
	nearIn(t, "from the edge course", e.Tips, 8.3300)
	if r := (length.Tape{Unit: length.Inches, Fraction: 16}).Read(e.Tips); r.Text() != "8-5/16 in" || !r.Strong() {
		t.Errorf("on the tape: %v", r)
	}
	nearIn(t, "too wide by the module", FromEdge(4*in, 8*in, 0).Tips-e.Tips, 0.1553)
	// The nine bricks, laid: three in each of three strands on the module,
	// each brick less its joint, measured across the middle strand's tips.
	c := plane.Point{}
	job := floor.Job{Width: w + joint, Length: l + joint, Strands: 1, Centre: &c}
	low, high := math.Inf(1), math.Inf(-1)
	for strand := -1; strand <= 1; strand++ {
		for i := range 3 {
			r := lay(job, strand, 0, i)
			middle := r[0].Add(r[2]).Times(0.5)
			for _, q := range r {
				// In its own two directions a corner comes in by half a joint.
				d := q.Sub(middle)
				u, v := plane.Point{X: 1, Y: 1}.Times(math.Sqrt2/2), plane.Point{X: -1, Y: 1}.Times(math.Sqrt2/2)
				du, dv := d.Dot(u), d.Dot(v)
				du -= math.Copysign(float64(joint/2), du)
				dv -= math.Copysign(float64(joint/2), dv)
				x := middle.Add(u.Times(du)).Add(v.Times(dv)).X
				if strand == 0 {
					low, high = min(low, x), max(high, x)
				}
			}
		}
	}
	nearIn(t, "across the nine bricks", length.Length(high-low), 7.9550)
}

// Squares of 12 in begun on a straight board; the wall of 12 ft bows 3/8 in
// into the room (which way is assumed), day one's line lies 5 ft from the
// straight line between its ends (assumed).
//
// Every restart has its own line, n * 12 in from day one's line, read from one
// hook: 12, 24, 36, 48 in. From the wall instead, squares follow the arc: its
// radius is 144²/(8*0.375) + 0.375/2 = 6912.19 in, so a foot from the end the
// wall stands in by 0.375 - 60²/(2*6912.19) = 0.1146 in, in the middle by
// 0.375. So neighbours at the ends step by 0.1146 in, and the row in the
// middle runs 3/8 in off day one's.
func TestCase06DayTwoFromAnotherWall(t *testing.T) {
	lines := NewTrammel(12*in, 4, length.Tape{Unit: length.Inches, Fraction: 16})
	for n := 1; n <= 4; n++ {
		nearIn(t, "restart line from day one's", lines.At(n), 12*float64(n))
	}
	p := newPlan(t, floor.Job{Room: rect(12*ft, 10*ft), Bows: []floor.Bow{{Wall: 0, Rise: -0.375 * in}}})
	b := room(p)
	off := func(x length.Length) length.Length {
		_, far, ok := b.ahead(point(x, 60*in), plane.Point{Y: -1})
		if !ok {
			t.Fatal("no wall below day one's line")
		}
		return 60*in - far
	}
	for _, tt := range []struct {
		at, want float64
	}{{12, 0.1146}, {72, 0.375}, {132, 0.1146}} {
		// Drawn with straight edges, an arc may be a hair inside itself.
		if got := float64(off(length.Length(tt.at)*in) / in); math.Abs(got-tt.want) > 0.002 {
			t.Errorf("%v in along, the wall stands in by %.4f in, want %.4f", tt.at, got, tt.want)
		}
	}
	worst := length.Length(0)
	for k := range 11 {
		worst = max(worst, off(length.Length(k+1)*12*in)-off((length.Length(k)+0.001)*12*in))
	}
	if math.Abs(float64(worst/in)-0.1146) > 0.002 {
		t.Errorf("neighbouring squares step by %.4f in, want 0.1146", float64(worst/in))
	}
}

// Bathroom 5 x 8 ft (assumed), the string from the oak 1/8 in out of parallel
// with both side walls over their 8 ft, leaning right (way assumed), taken
// from two points 10 ft apart in the hall.
//
// The string turns by 1/8 in 96 in, 1/768. So 96/768 = 0.125 in less is left
// at the far end of the right wall and as much more on the left, 60/768 =
// 0.0781 in over the end walls. The room's own axis has no taper, but bends by
// 1/768 at the door: 0.0746 degrees, 0.1563 in on a 10 ft look back along the
// oak. The oak's line is better: 1/8 in over 8 ft is lost in cut edges, a bend
// in a long joint is not.
func TestCase07AxisFromTheFloorOutside(t *testing.T) {
	line := floor.LineSetting{From: floor.LineThrough, Points: [2]plane.Point{point((30-120.0/768)*in, -120*in), point(30*in, 0)}}
	p := newPlan(t, floor.Job{Room: rect(5*ft, 8*ft), Width: 2.25 * in, Length: 9 * in, Line: line})
	// Walls in order: near, right, far, left, run counter-clockwise. A line
	// square to the string falls to the right, so less is left at the right end
	// of the near wall and at the left end of the far one; the string leans
	// right, so less at the far end of the right wall and at the near end of
	// the left one: less at the last corner of each.
	for i, want := range []float64{-0.0781, -0.125, -0.0781, -0.125} {
		nearIn(t, "taper", Leftovers(p, in)[i].Taper, want)
	}
	own := newPlan(t, floor.Job{Room: rect(5*ft, 8*ft), Width: 2.25 * in, Length: 9 * in})
	for i, l := range Leftovers(own, in) {
		nearIn(t, "taper by the room's own axis at wall "+string(rune('0'+i)), l.Taper, 0)
	}
	bend := p.Job().Axis - own.Job().Axis
	if math.Abs(math.Abs(bend)-0.0746) > 0.0001 {
		t.Errorf("the room's own axis bends by %.4f degrees off the oak, want 0.0746", bend)
	}
	nearIn(t, "seen over 10 ft", 120*in*length.Length(math.Tan(math.Abs(bend)*math.Pi/180)), 0.1563)
}

// Room 4.10 m wide, bay centre 130 mm to the right (side assumed), block 80 x
// 400, 5 m deep, doorway in the near wall with its middle 1000 mm from the
// left corner, 900 wide (all assumed).
//
// Interval 400/√2 = 282.843. From the room's centre 2050 = 7 intervals + 70.10
// on both sides. From the bay's, 2180 to the left = 7 intervals + 200.10, 1920
// to the right = 6 + 222.94: wider edge pieces on both sides, though uneven by
// 22.84. At the doorway: seams at 2050 - 4 * 282.843 = 918.63, 81.37 left of
// its middle; from the bay at 2180 - 4 * 282.843 = 1048.63, 48.63 right of it.
func TestCase10FeatureOrRoomCentre(t *testing.T) {
	job := floor.Job{Room: rect(4100, 5000), Width: 80, Length: 400, Doors: []floor.Door{{Wall: 0, At: 550, Width: 900}}}
	feature := job
	c := point(2180, 2500)
	feature.Centre = &c
	for _, tt := range []struct {
		name             string
		job              floor.Job
		left, right, off length.Length
	}{
		{"room centre", job, 70.1017, 70.1017, -81.3708},
		{"bay centre", feature, 200.1017, 222.9444, 48.6292},
	} {
		p := newPlan(t, tt.job)
		first, last := seams(p)
		marks := Marks(p)
		mean := func(j int) length.Length {
			return (part(t, marks, Working, j, -1).Ends[0].Distance + part(t, marks, Working, j, 1).Ends[0].Distance) / 2
		}
		near(t, tt.name+": left at the left wall", mean(first), tt.left)
		near(t, tt.name+": left at the right wall", 4100-mean(last), tt.right)
		d := Doorways(p)[0]
		if !d.Along || math.Abs(d.Angle) > 1e-9 {
			t.Errorf("%s: at the door the axis lies at %v degrees", tt.name, d.Angle)
		}
		near(t, tt.name+": seam at the doorway", d.Off, tt.off)
		e := Ends(p, 20)
		t.Logf("%s: left %.1f to %.1f, right %.1f to %.1f, slivers under 20: %d and %d", tt.name,
			float64(e[Left].Narrowest), float64(e[Left].Widest), float64(e[Right].Narrowest), float64(e[Right].Widest), e[Left].Slivers, e[Right].Slivers)
	}
}

// Room 5 x 7 m, windows on a long wall; blocks 70 x 350 (assumed). Both run
// directions, centred, with counts that simplefeatures confirms. Half of all
// blocks lie in each of two directions, 45 degrees to either side of the
// light, whichever way the rows run: turning the floor a quarter swaps the
// hands, so it changes which way the points face, not how light and dark the
// two directions look.
func TestCase11SideLight(t *testing.T) {
	for _, axis := range []float64{0, 90} {
		p := newPlan(t, floor.Job{Room: rect(7000, 5000), Axis: axis})
		full, cut, even, odd := counted(t, p)
		c := p.Count()
		if c.Full != full || c.Cut != cut {
			t.Errorf("axis %v: %d full and %d cut, simplefeatures finds %d and %d", axis, c.Full, c.Cut, full, cut)
		}
		left, right := p.CountHand(pattern.LeftHand), p.CountHand(pattern.RightHand)
		if left.Full+left.Cut != even || right.Full+right.Cut != odd {
			t.Errorf("axis %v: %d left and %d right, simplefeatures finds %d and %d", axis, left.Full+left.Cut, right.Full+right.Cut, even, odd)
		}
		rising := 0.0 // area of blocks that run up to the right in the room
		for row := range p.Rows() {
			for b := range p.Blocks(row) {
				d := b.Corners[1].Sub(b.Corners[0])
				if math.Abs(math.Abs(d.X)-math.Abs(d.Y)) > 1e-6 {
					t.Fatalf("a block runs along %v", d)
				}
				area := 70.0 * 350
				if !b.Full {
					area = 0
					for _, piece := range b.Pieces {
						area += piece.Area
					}
				}
				if d.X*d.Y > 0 {
					rising += area
				}
			}
		}
		if share := rising / 35e6; math.Abs(share-0.5) > 0.01 {
			t.Errorf("axis %v: %.4f of the floor runs up to the right, want a half", axis, share)
		}
		t.Logf("axis %v: %d whole, %d cut; %d left, %d right", axis, full, cut, even, odd)
	}
}

// Paving 100 x 200 mm without joints, base line 12 m: a course is 100√2 =
// 141.421 mm, so ticks for every fifth are 707.107 mm apart: 16 of them, the
// last at 11313.708. Each from the line's end; stepped by a stick cut to 707
// the last would be 16 * 0.107 = 1.71 mm short.
//
// The miss to pull back at: what the next five courses can take up. With each
// joint eased by 0.5 mm (assumed) that is 5 * 0.5 * √2 = 3.54 mm; a miss past
// it needs more than one tick to mend.
func TestCase22TicksOnTheBaseLine(t *testing.T) {
	step := pattern.Herringbone{Width: 100, Length: 200, Strands: 1}.Step()
	tr := NewTrammel(step, 84, length.Tape{})
	ticks := tr.Ticks(5, 12*length.Metre)
	if len(ticks) != 16 {
		t.Fatalf("%d ticks, want 16", len(ticks))
	}
	near(t, "first tick", ticks[0], 707.1068)
	near(t, "second tick", ticks[1], 1414.2136)
	near(t, "last tick", ticks[15], 11313.7085)
	near(t, "stepped by a stick", NewTrammel(5*step, 16, length.Tape{}).Cost, 16*(707-707.10678))
	near(t, "pull back at", PullBack(5, 0.5), 3.5355)
	// The same from the pattern: five courses of blocks half a millimetre
	// further apart.
	eased := pattern.Herringbone{Width: 100.5, Length: 200, Strands: 1}.Step()
	near(t, "five eased courses", 5*(eased-step), PullBack(5, 0.5))
}

// Hall 2.7 x 6 m with crooked side walls, the left one running in by 18 mm and
// the right one in by 25 mm over its length, blocks 70 x 350, started
// from the near wall (all assumed). Spine and five rows on each side are 11 rows.
//
// Abreast of y the right wall lies at 2720 - 25 y/6000 and the left one at
// 18 y/6000. Seam j of a centre line at 1350 lies at 1350 + j * 247.487. So
// for the row with outer seam j the distances are their differences: at the
// right less at the far end, by about 1 in over the length, after five rows as
// after one. The crew sees the wall, not the row: the row's own distance from
// the centre line is the same at both ends.
func TestCase23TheEyeIsWrong(t *testing.T) {
	c := point(1350, 3000)
	p := newPlan(t, floor.Job{Room: []plane.Point{{}, {X: 2720}, {X: 2695, Y: 6000}, {X: 18, Y: 6000}}, Centre: &c, Start: floor.FromWall})
	rows := 0
	for check := range RowChecks(p) {
		if check.Row.Stage == floor.Infill {
			continue
		}
		rows++
		for _, s := range check.Seams {
			x := 1350 + float64(s.Seam)*350/math.Sqrt2
			for _, w := range s.ToWall {
				y := w.From.Y
				want := 2720 - 25*y/6000 - x
				if s.Side < 0 {
					want = x - 18*y/6000
				}
				if inside := want > 0; inside != w.OK {
					t.Errorf("row %d: seam %d is read: %v, want %v", check.Row.Number, s.Seam, w.OK, inside)
				}
				if w.OK {
					near(t, "from seam to wall", w.Distance, length.Length(want))
					near(t, "seam from the centre line", length.Length(w.From.X-1350), length.Length(x-1350))
				}
			}
			if more, ok := s.More(); ok {
				run := s.ToWall[1].From.Y - s.ToWall[0].From.Y
				slope := -25.0
				if s.Side < 0 {
					slope = -18
				}
				near(t, "more at the far end", more, length.Length(slope*run/6000))
				t.Logf("row %d, seam %d: %.1f to the wall at the start, %.1f at the end", check.Row.Number, s.Seam, float64(s.ToWall[0].Distance), float64(s.ToWall[1].Distance))
			}
		}
	}
	if rows != 11 {
		t.Errorf("%d rows, want 11", rows)
	}
}

// L-shaped hall, legs 42 in wide, 16 and 14 ft long outside, a pointed end at
// 45 degrees on the second leg, blocks 2-1/4 x 9 in, a soldier course of
// 9 in between accent strips of 1 in, gap 1/2 in, a double door of 60 in and
// two doors of 30 in on the first leg, two on the second (all assumed but the
// shape). These legs make 95.8 sq ft; the 110 that were given need longer ones.
//
// One axis up the first leg carries through: the field does not turn. In the
// first leg the tips run along it; in the second the same rows cross it. A
// person coming in at the far wall has the tips pointing at them, on the side
// walls the rows cross in front of them. (To turn it, the two fields meet on
// the corner's diagonal, which runs along the blocks of one hand and square to
// the others: 42√2 = 59.4 in of straight joint between the walls.)
func TestCase25LShapedHall(t *testing.T) {
	c := point(21*in, 75*in)
	outline := []plane.Point{{}, point(42*in, 0), point(42*in, 150*in), point(168*in, 150*in), point(189*in, 171*in), point(168*in, 192*in), point(0, 192*in)}
	p := newPlan(t, floor.Job{
		Room: outline, Width: 2.25 * in, Length: 9 * in, Gap: in / 2, Strips: []length.Length{in, 9 * in, in}, Centre: &c,
		Doors: []floor.Door{
			{Wall: 6, At: 114 * in, Width: 60 * in, Name: "double door"}, // middle at y = 48
			{Wall: 1, At: 25 * in, Width: 30 * in},                       // y = 40
			{Wall: 1, At: 97 * in, Width: 30 * in},                       // y = 112
			{Wall: 5, At: 53 * in, Width: 30 * in},                       // x = 168 - 68 = 100
			{Wall: 5, At: 113 * in, Width: 30 * in},                      // x = 40
		},
	})
	if area := p.Room()[0].Area() / float64(ft*ft); math.Abs(area-95.8125) > 1e-6 { // 42*192 + 126*42 + 21*21 = 13797 sq in
		t.Errorf("the hall has %.4f sq ft, want 95.8125", area)
	}
	// Interval 9/√2 = 6.36396 in, step 2.25√2 = 3.18198 in, seams counted from
	// x = 21, steps from y = 75. Right is as one comes in.
	for i, want := range []struct {
		angle float64
		along bool
		off   float64
		depth float64
	}{
		{90, false, -1.5442, 42},  // steps -8: 75 - 25.4558 = 49.5442, 1.5442 up from 48, which is to the left
		{-90, false, -0.0018, 42}, // -11: 39.9982; right is up
		{-90, false, 1.1838, 42},  // 12: 113.1838
		{180, true, 2.6325, 42},   // seam 12: 97.3675; right is down in x
		{180, true, -0.0919, 192}, // seam 3: 40.0919
	} {
		d := Doorways(p)[i]
		if math.Abs(d.Angle-want.angle) > 1e-9 || d.Along != want.along {
			t.Errorf("door %d sees the axis at %v degrees, along %v, want %v, %v", i, d.Angle, d.Along, want.angle, want.along)
		}
		nearIn(t, "off the doorway's middle", d.Off, want.off)
		nearIn(t, "depth", d.Depth, want.depth)
	}
	// The soldier course is one block long on every wall, between strips.
	strips, err := p.Strips()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range strips {
		nearIn(t, "strip", s.Width, []float64{1, 9, 1}[s.Band])
	}
	for _, m := range Marks(p) {
		if m.Kind == Border {
			nearIn(t, "border line off its wall", m.Parts[0].Ends[0].Offset, 11.5)
		}
	}
	// Of the corner's diagonal: from (42,150) to (0,192), along the blocks that
	// climb to the left.
	diagonal := outline[6].Sub(outline[2])
	nearIn(t, "diagonal", length.Length(diagonal.Length()), 59.3970)
	if up := climb(p.Pattern()); math.Abs(diagonal.Dot(up)) > 1e-6 {
		t.Errorf("the diagonal does not run square to the blocks that climb to the right")
	}
}

// Herringbone 70 x 280, out of phase by 61 mm along and 18 mm across, wall
// line 115 mm, axis square to the wall line, opening 1 m wide (assumed).
//
// The step is 98.995, so 61 forward is as good as 38.0 back. Easing every
// joint by 0.5 mm (assumed) brings the rows together over 37.995/(0.5√2) =
// 53.7, so 54 courses, 5.3 m: with six strands across 1 m that lifts 324
// blocks, and the 18 mm across still has to go into specially cut lengths. So:
// lift only the cut pieces at both edges of the wall line and make one strip
// as wide as the wall line; across a strip no tips meet, and the mismatch is
// not seen.
func TestCase26WallRemoved(t *testing.T) {
	blocks := pattern.Herringbone{Width: 70, Length: 280, Strands: 1}
	across, along := Residual(blocks, 18, 61)
	near(t, "across", across, 18)
	near(t, "along", along, 61-98.9949)
	courses := CoursesToEase(along, 0.5)
	if courses != 54 {
		t.Errorf("%d courses, want 54", courses)
	}
	near(t, "over", length.Length(courses)*blocks.Step(), 5345.7272)
	if strands := int(math.Ceil(float64(1000 / blocks.Interval()))); strands*courses != 324 { // 1000/197.99 = 5.05
		t.Errorf("%d blocks to lift, want 324", strands*courses)
	}
	// A whole repeat away is no mismatch; the sign of half a repeat is free.
	a, b := Residual(blocks, 4*blocks.Interval(), -7*blocks.Step())
	near(t, "across by whole repeats", a, 0)
	near(t, "along by whole repeats", b, 0)
}

// Doorway 32 in wide, room 16 ft deep, marks good to 1/32 in: 1/32 * (1 +
// 2*192/32) = 13/32 in at the far wall. To hold 1/8 in: 2 * 1/32 * 192 /
// (1/8 - 1/32) = 12 / (3/32) = 128 in, 10 ft 8 in.
func TestCase27DoorwayBaseLine(t *testing.T) {
	nearIn(t, "run-out", RunOut(32*in, in/32, 16*ft), 13.0/32)
	base, ok := BaseFor(in/8, in/32, 16*ft)
	if !ok {
		t.Fatal("no base line")
	}
	nearIn(t, "base line", base, 128)
	nearIn(t, "its run-out", RunOut(base, in/32, 16*ft), 0.125)
	// The same doorway in a room of 12 x 16 ft (width assumed): the longest
	// base in the room itself is its whole depth, which holds 1/8 in.
	p := newPlan(t, floor.Job{Room: rect(12*ft, 16*ft), Doors: []floor.Door{{Wall: 0, At: 4 * ft, Width: 32 * in}}})
	d := Doorways(p)[0]
	nearIn(t, "depth", d.Depth, 192)
	nearIn(t, "run-out from the doorway", d.RunOut(in/32), 13.0/32)
	if longest, ok := LongestBase(p); !ok || longest.Long < base {
		t.Errorf("the longest base is %v, want at least %v", longest.Long, base)
	}
}

// Three rooms off one base line of 30 ft, herringbone with a column of
// 198 mm. Their near side walls lie 300, 2350 and 5020 mm from it, gap 12, and
// the first seam goes a column in from the first room's gap (all assumed).
//
// First room: 300 + 12 + 198 = 510. The others start where the same pattern
// would: 510 + n * 198, with n even so that hands agree. Second, from 2362:
// (2362-510)/198 = 9.35, so n = 10: 2490. Third, from 5032: 22.84, so n = 23 at
// 5064 with the hands swapped, or n = 24 at 5262 with the same hands. Rooms
// whose walls lie alike start alike, 510 from the line. Marks good to 1/32 in
// (assumed) run out by 1/32 * (1 + 2*192/360) = 0.0646 in, 16 ft past its end.
func TestCase28OneBaseLineForManyRooms(t *testing.T) {
	for _, tt := range []struct {
		from length.Length
		same bool
		at   length.Length
		n    int
	}{{510, true, 510, 0}, {2362, true, 2490, 10}, {5032, true, 5262, 24}, {5032, false, 5064, 23}} {
		if at, n := NextSeam(198, 510, tt.from, tt.same); n != tt.n || math.Abs(float64(at-tt.at)) > 1e-9 {
			t.Errorf("from %v: %v after %d, want %v after %d", tt.from, at, n, tt.at, tt.n)
		}
	}
	nearIn(t, "run-out", RunOut(30*ft, in/32, 16*ft), 0.0646)
}

// Kitchen 3.2 x 4.1 m, gap 12 (10 to 12 given), border of two blocks of
// 75 mm, field of blocks 75 x 300 (assumed). The line lies 12 + 150 = 162 off
// every wall, 3200 - 324 = 2876 and 4100 - 324 = 3776 long: 13304 mm to saw.
// Blocks laid over it reach past it by less than (L+W)/√2 = 265.2 mm; where
// that is more than the 162 to the wall they are cut short first.
func TestCase29TwoBlockBorderLine(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(3200, 4100), Gap: 12, Strips: []length.Length{75, 75}, Width: 75, Length: 300})
	var saw length.Length
	walls := 0
	for _, m := range Marks(p) {
		if m.Kind != Border {
			continue
		}
		walls++
		for k, e := range m.Parts[0].Ends {
			near(t, "off the wall", e.Offset, 162)
			long := []length.Length{3200, 4100}[m.Wall%2]
			near(t, "along the wall", e.Distance, []length.Length{162, long - 162}[k])
		}
		near(t, "line", m.Parts[0].Long, []length.Length{2876, 3776}[m.Wall%2])
		saw += m.Parts[0].Long
	}
	if walls != 4 {
		t.Errorf("lines along %d walls", walls)
	}
	near(t, "to saw", saw, 13304)
	over := 0.0
	for row := range p.Rows() {
		for b := range p.Blocks(row) {
			for _, q := range b.Corners {
				over = max(over, 162-q.X, 162-q.Y, q.X-3038, q.Y-3938)
			}
		}
	}
	if over >= 375/math.Sqrt2 || over <= 162 {
		t.Errorf("blocks reach %v past the line", over)
	}
	t.Logf("blocks reach up to %.1f mm past the line", over)
}

// Blocks 228 x 76, frame set first, 2.84 x 3.61 m inside. The middle is at
// 1420, 1805; the starting block's point goes W√2/4 = 26.870 to the right of
// it and 26.870 short of it: 1446.870 from the left, 1778.130 from the near
// side. Interval 228/√2 = 161.220: with a seam in the middle 1420 - 8 *
// 161.220 = 130.237 is left at either side, with the middle between two seams
// 1420 - 8.5 * 161.220 = 49.627. Every cut piece has to be cut to fit inside
// the frame. Laid first, the same field has as many cut pieces, cut in one go
// along 2 * (2840 + 3610) = 12900 mm of line, and the line is free: 18 whole
// intervals, 2901.97, would put it on seams at both sides, 30.98 further out.
func TestCase35BorderFirst(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(2840, 3610), Width: 76, Length: 228})
	s := NewStart(p)
	near(t, "point from the left", s.FromWalls[0].Distance, 1446.8701)
	near(t, "point from the near side", s.FromWalls[1].Distance, 1778.1299)
	near(t, "point off the middle", s.Across, 26.8701)
	near(t, "point short of the middle", s.Along, -26.8701)
	lines, err := OneWay(p, Left)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "left with a seam in the middle", lines[0].First, 130.2373)
	near(t, "left with the middle between seams", lines[2].First, 49.6271)
	placings, err := Placings(p, 20)
	if err != nil {
		t.Fatal(err)
	}
	for _, pl := range placings {
		full, cut := agrees(t, pl.Plan)
		t.Logf("placing %+v: %d whole, %d cut, slivers under 20 mm at the sides %d, at the ends %d", pl.Shift, full, cut,
			pl.Ends[Left].Slivers+pl.Ends[Right].Slivers, pl.Ends[Near].Slivers+pl.Ends[Far].Slivers)
	}
	// Field first in a room with the frame around it: the same pieces.
	first := newPlan(t, floor.Job{Room: rect(2840+2*162, 3610+2*162), Gap: 12, Border: 150, Width: 76, Length: 228})
	if a, b := first.Count(), p.Count(); a.Full != b.Full || a.Cut != b.Cut {
		t.Errorf("field first: %d whole, %d cut; frame first: %d, %d", a.Full, a.Cut, b.Full, b.Cut)
	}
	var saw length.Length
	for _, m := range Marks(first) {
		if m.Kind == Border {
			saw += m.Parts[0].Long
		}
	}
	near(t, "saw line", saw, 12900)
	near(t, "line on seams", 9*p.Pattern().Interval()-1420, 30.9830)
}

// Hall 6 x 12 ft, tile 4 x 12 in, no joint (assumed), centred. Points along
// the room: axis 0. Square to the walls: the whole pattern turned 45 degrees.
// Waste is what the tiles begun have over the floor's 10368 sq in, no offcut
// used again: 269 tiles of 48 sq in are 12912, 2544 too many (24.5 %); 246 are
// 11808, 1440 too many (13.9 %). Counts are those of simplefeatures.
func TestCase43PointsOrSquare(t *testing.T) {
	for _, tt := range []struct {
		name      string
		axis      float64
		full, cut int
		waste     float64
	}{{"points along the room", 0, 184, 85, 2544}, {"square to the walls", 45, 186, 60, 1440}} {
		p := newPlan(t, floor.Job{Room: rect(6*ft, 12*ft), Width: 4 * in, Length: 12 * in, Axis: tt.axis})
		if full, cut := agrees(t, p); full != tt.full || cut != tt.cut {
			t.Errorf("%s: %d whole, %d cut, want %d, %d", tt.name, full, cut, tt.full, tt.cut)
		}
		c := p.Count()
		if waste := (float64(c.Full+c.Cut)*p.Pattern().BlockArea() - c.Area) / float64(in*in); math.Abs(waste-tt.waste) > 1e-3 {
			t.Errorf("%s: waste of %.4f sq in, want %.0f", tt.name, waste, tt.waste)
		}
		// The drawing: every tile runs at 45 degrees to the walls, or along them.
		for row := range p.Rows() {
			for b := range p.Blocks(row) {
				d := b.Corners[1].Sub(b.Corners[0])
				slant := math.Abs(math.Abs(d.X) - math.Abs(d.Y))
				if tt.axis == 0 && slant > 1e-6 || tt.axis == 45 && min(math.Abs(d.X), math.Abs(d.Y)) > 1e-6 {
					t.Fatalf("%s: a tile runs along %v", tt.name, d)
				}
			}
		}
	}
}

// Duct 4 x 10 in with its middle 24 in from the left wall and 40 in from the
// near one, room 10 x 12 ft (assumed), frame 5-1/2 x 11-1/2 in, herringbone
// 3 x 12 in. The frame goes where the duct is: its rim is (5.5-4)/2 = 3/4 in
// wide all round, its corners at 21.25 and 26.75, 34.25 and 45.75 in, and all
// 4 * 10 = 40 sq in stay open. Moved sideways by d to suit the boards it leaves
// (4-d) * 10: at 2 in half of it is lost.
func TestCase48FlushVent(t *testing.T) {
	duct := []plane.Point{point(22*in, 35*in), point(26*in, 35*in), point(26*in, 45*in), point(22*in, 45*in)}
	frame := []plane.Point{point(21.25*in, 34.25*in), point(26.75*in, 34.25*in), point(26.75*in, 45.75*in), point(21.25*in, 45.75*in)}
	bare := floor.Job{Room: rect(10*ft, 12*ft), Width: 3 * in, Length: 12 * in}
	job := bare
	job.Holes = [][]plane.Point{frame}
	p := newPlan(t, job)
	agrees(t, p)
	// The frame's own outline, read as a border would be: from wall to rim.
	around := Leftovers(p, in)
	for _, l := range around {
		if l.Hole == 1 && l.Pieces == 0 {
			t.Errorf("nothing is cut at side %d of the frame", l.Wall)
		}
	}
	// Blocks cut by the frame: those whole without it that are whole no longer,
	// or were cut at a wall already and now lie against it too.
	before := map[[3]int]bool{}
	for _, b := range cutAll(t, newPlan(t, bare)) {
		before[[3]int{b.strand, b.sub, b.index}] = b.full
	}
	cut := 0
	after := map[[3]int]bool{}
	for _, b := range cutAll(t, p) {
		k := [3]int{b.strand, b.sub, b.index}
		after[k] = true
		if before[k] && !b.full {
			cut++
		}
	}
	for k, full := range before {
		if full && !after[k] {
			t.Errorf("block %v is swallowed whole", k)
		}
	}
	touching := 0
	ring := p.Field()[1]
	for _, s := range p.Strands() {
		for _, c := range s.Columns {
			for _, b := range c.Cuts {
				on := false
				for _, piece := range b.Pieces {
					for i := range ring {
						side := newSide(ring, i, i)
						on = on || side.holds(piece)
					}
				}
				if on {
					touching++
				}
			}
		}
	}
	if touching != cut || cut == 0 {
		t.Errorf("%d blocks cut by the frame, simplefeatures finds %d", touching, cut)
	}
	t.Logf("%d blocks are cut", cut)
	open := func(dx, dy length.Length) float64 {
		wide, high := min(26*in, 26*in+dx)-max(22*in, 22*in+dx), min(45*in, 45*in+dy)-max(35*in, 35*in+dy)
		return float64(wide * high / (in * in))
	}
	if a := plane.Ring(duct).Area() / float64(in*in); math.Abs(a-40) > 1e-9 || math.Abs(open(0, 0)-a) > 1e-9 {
		t.Errorf("the duct has %v sq in, %v stay open", a, open(0, 0))
	}
	if got := open(2*in, 0); math.Abs(got-20) > 1e-9 {
		t.Errorf("moved by 2 in it leaves %v sq in, want 20", got)
	}
}

// Frame 5 ft 2 in x 8 ft 7 in inside, 62 x 103 in; slats 2-1/4 x 11-1/4 in.
// Axis along the longer side, on the middle (assumed). Interval 11.25/√2 =
// 7.9550: 31 = 3 intervals + 7.1352 with a seam in the middle, 3-1/2 intervals
// + 3.1577 between two: the first. Seven seams at 31 and 7.9550 apart, tip
// lines 2.25√2/4 = 0.7955 to either side of each. The slats' edge along the
// frame takes 2 * (62 + 103) = 330 in of spline, 27 ft 6 in.
func TestCase50PanelInAnExistingFloor(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(62*in, 103*in), Width: 2.25 * in, Length: 11.25 * in})
	lines, err := OneWay(p, Left)
	if err != nil {
		t.Fatal(err)
	}
	nearIn(t, "left with a seam in the middle", lines[0].First, 7.1352)
	nearIn(t, "left between two", lines[2].First, 3.1577)
	marks := Marks(p)
	for j := -3; j <= 3; j++ {
		nearIn(t, "left tip line", part(t, marks, Working, j, -1).Ends[0].Distance, 31+7.95495*float64(j)-0.79550)
		nearIn(t, "right tip line", part(t, marks, Working, j, 1).Ends[0].Distance, 31+7.95495*float64(j)+0.79550)
	}
	if first, last := seams(p); first != -3 || last != 3 {
		t.Errorf("seams %d to %d, want -3 to 3", first, last)
	}
	full, cut := agrees(t, p)
	nearIn(t, "spline", length.Length(p.Field()[0].Perimeter()), 330)
	for _, l := range Leftovers(p, in) {
		t.Logf("side %d: %d pieces, %.2f to %.2f in, %d under 1 in", l.Wall, l.Pieces, float64(l.Narrowest/in), float64(l.Widest/in), l.Slivers)
	}
	t.Logf("%d whole, %d cut", full, cut)
}

// Foyer panel 6 x 8 ft, slats 5 x 20 in, mitred border of 2 in, axis along the
// longer side (assumed), no gap. Centre line at 36 in; tip lines 5√2/4 =
// 1.7678 in to either side. Saw path 2 * (68 + 92) = 320 in, 26 ft 8 in, which
// is the spline's length too. Border strips 72 and 96 in long outside, 68 and
// 92 inside, mitred at 45 degrees.
func TestCase54FoyerPanel(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(6*ft, 8*ft), Width: 5 * in, Length: 20 * in, Border: 2 * in})
	marks := Marks(p)
	nearIn(t, "centre line", part(t, marks, Centre, 0, 0).Ends[0].Distance, 36)
	nearIn(t, "left tip line", part(t, marks, Working, 0, -1).Ends[0].Distance, 36-1.7678)
	nearIn(t, "right tip line", part(t, marks, Working, 0, 1).Ends[0].Distance, 36+1.7678)
	var saw length.Length
	for _, m := range marks {
		if m.Kind == Border {
			saw += m.Parts[0].Long
			nearIn(t, "saw line", m.Parts[0].Long, []float64{68, 92}[m.Wall%2])
		}
	}
	nearIn(t, "saw path", saw, 320)
	nearIn(t, "spline", length.Length(p.Field()[0].Perimeter()), 320)
	strips, err := p.Strips()
	if err != nil || len(strips) != 4 {
		t.Fatalf("%d strips, %v", len(strips), err)
	}
	for _, s := range strips {
		nearIn(t, "outside", s.Outer, []float64{72, 96}[s.Wall%2])
		nearIn(t, "inside", s.Inner, []float64{68, 92}[s.Wall%2])
		if math.Abs(s.From-45) > 1e-9 || math.Abs(s.To-45) > 1e-9 {
			t.Errorf("mitres of %v and %v degrees", s.From, s.To)
		}
	}
}

// Slats 3-1/4 x 16-1/4 in, kitchen 10 x 12 ft (assumed). The plywood's legs
// are as long as a slat, 16.25 in: the first slat lies along all of the left
// one, the second against 16.25 - 3.25 = 13 in of the right one. With its point
// on the axis itself the tips of both hands would run off centre by half the
// tip lines' spread, so for a seam centred on the axis the point goes 3.25√2/4
// = 1.1490 in to the right of it, on the right tip line, and as far short of
// the cross line. Screws stay clear of glue 2 in (assumed) inside both legs: in
// the corner of the same shape whose point lies 2√2 = 2.8284 in behind.
func TestCase55ScrewedPlywoodStarter(t *testing.T) {
	p := newPlan(t, floor.Job{Room: rect(10*ft, 12*ft), Width: 3.25 * in, Length: 16.25 * in})
	s := NewStart(p)
	nearIn(t, "leg", s.Side, 16.25)
	nearIn(t, "across its corners", s.Wide, 22.9810) // 16.25√2
	nearIn(t, "point right of the axis", s.Across, 1.1490)
	nearIn(t, "point short of the cross line", s.Along, -1.1490)
	right := part(t, Marks(p), Working, 0, 1)
	nearIn(t, "point along its line", s.OnLine, 72-1.1490)
	if s.Mark.Point.Sub(right.Ends[0].Point).Length() > tiny {
		t.Errorf("the point does not stand on the right tip line: %v, %v", s.Mark.Point, right.Ends[0].Point)
	}
	block := p.StartingBlock()[0]
	a, b, c := block[0], block[1], block[len(block)-1]
	nearIn(t, "left leg", length.Length(b.Sub(a).Length()), 16.25)
	nearIn(t, "right leg", length.Length(c.Sub(a).Length()), 16.25)
	if math.Abs(b.Sub(a).Dot(c.Sub(a))) > 1e-6 {
		t.Error("the corner is not square")
	}
	// How much of each leg the first slats touch.
	touch := func(strand int, from, to plane.Point) length.Length {
		u := to.Sub(from).Times(1 / to.Sub(from).Length())
		longest := 0.0
		r := lay(p.Job(), strand, 0, 0)
		for i := range r {
			p, q := r.Edge(i)
			if math.Abs(u.Cross(p.Sub(from))) < 1e-6 && math.Abs(u.Cross(q.Sub(from))) < 1e-6 {
				lo, hi := u.Dot(p.Sub(from)), u.Dot(q.Sub(from))
				longest = max(longest, min(max(lo, hi), to.Sub(from).Length())-max(min(lo, hi), 0))
			}
		}
		return length.Length(longest)
	}
	nearIn(t, "first slat along the left leg", touch(-1, a, b), 16.25)
	nearIn(t, "second slat along the right leg", touch(0, a, c), 13)
	inset, _, err := block.Inset([]float64{float64(2 * in), float64(2 * in), float64(2 * in), float64(2 * in)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "screws behind the point", length.Length(inset[0].Sub(a).Length()), 2*in*math.Sqrt2)
	for _, q := range inset {
		if d := min(plane.FromEdge(q, a, b), plane.FromEdge(q, a, c)); d < float64(2*in)-1e-6 {
			t.Errorf("a screw at %v is only %v off a leg", q, d)
		}
	}
}
