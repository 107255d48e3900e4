package survey

import (
	"math"
	"strconv"

	"keelrow/engine/length"
)

// Said is what an angle given for a chevron was measured as.
type Said int

const (
	Unsaid     Said = iota
	HeadAngle       // of the head against the long edge, as sawn
	VeeAngle        // between the long edges of two blocks that meet in a tip
	AxisAngle       // between a long edge and the axis
	SawSetting      // what the saw is swung off a square cut
)

// ChevronAngles is one angle of a chevron, in degrees, in every way it is
// given. As the heads lie along the axis, Head and Axis are the same.
type ChevronAngles struct{ Head, Vee, Axis, Saw float64 }

// ChevronAngle converts an angle of a chevron. A bare number is refused with
// what it could mean: "60" is heads of 60 and a V of 120 to one, and a V of 60
// to another. The error is a *ShapeError.
func ChevronAngle(degree float64, said Said) (ChevronAngles, error) {
	axis := degree
	switch said {
	case VeeAngle:
		axis = degree / 2
	case SawSetting:
		axis = 90 - degree
	}
	if !(axis > 0 && axis < 90) {
		if said == Unsaid && degree >= 90 && degree < 180 { // only a V can be meant, but let it be said
			return ChevronAngles{}, &ShapeError{words{degrees(degree) + " can only be the V of a chevron"}, words{"Say so"}}
		}
		return ChevronAngles{}, &ShapeError{words{"A chevron cannot have an angle of " + degrees(degree) + " there"},
			words{"Heads are cut between 0 and 90 degrees, and the V is twice that"}}
	}
	if said == Unsaid {
		return ChevronAngles{}, &ShapeError{
			words{degrees(degree) + " can be the angle of the head, with a V of " + degrees(2*degree) +
				", or the V itself, with heads of " + degrees(degree/2) + ", or what the saw is swung, with heads of " + degrees(90-degree)},
			words{"Say which it is"},
		}
	}
	return ChevronAngles{Head: axis, Vee: 2 * axis, Axis: axis, Saw: 90 - axis}, nil
}

// MatchChevron finds the blocks of a chevron that lies already, from the
// distance across one strand, seam to seam, the step along a seam from one
// block to the next, and the width of a block. The angle between long edge and
// axis is asin(width/step) and the long edge is across*step/width. The error
// is a *ShapeError.
func MatchChevron(across, step, width length.Length) (angles ChevronAngles, long length.Length, err error) {
	for _, l := range []length.Length{across, step, width} {
		if !(l > 0 && l <= length.Longest) {
			return angles, 0, &ShapeError{words{"A block or a strand cannot measure ", l}, words{"Tape it again"}}
		}
	}
	if step <= width {
		return angles, 0, &ShapeError{
			words{"The step along a seam is ", step, ", and blocks ", width, " wide step further than that"},
			words{"Tape the step along the seam over several blocks, and the width square to the long edge"},
		}
	}
	axis := math.Asin(float64(width/step)) * 180 / math.Pi
	return ChevronAngles{Head: axis, Vee: 2 * axis, Axis: axis, Saw: 90 - axis}, across * step / width, nil
}

// Mitre is the cut at one corner of a border.
type Mitre struct {
	Turn   float64 // degrees that the border turns here, as measured
	Cut    float64 // half of that: what the saw is swung off a square cut
	Shared float64 // the cut when the turns are made to add up
}

// Mitres returns the cuts for a border that turns several times between two
// walls which together turn by whole, and how far the turns miss that. The
// miss is shared between the corners equally, so that the border comes out
// along the second wall.
func Mitres(turns []float64, whole float64) (mitres []Mitre, miss float64) {
	for _, t := range turns {
		miss += t
	}
	miss -= whole
	for _, t := range turns {
		mitres = append(mitres, Mitre{t, t / 2, (t - miss/float64(len(turns))) / 2})
	}
	return mitres, miss
}

// Graduated returns the cut of each of so many pieces along a wall whose angle
// drifts from one value, at the first piece, to another, at the last: the same
// change from each to the next, so that none shows. One piece alone gets the
// middle. The error is a *ShapeError.
func Graduated(from, to float64, pieces int) ([]float64, error) {
	if pieces < 1 || pieces > 10_000 || !(math.Abs(from) <= 180 && math.Abs(to) <= 180) {
		return nil, &ShapeError{words{"A cut cannot go from " + degrees(from) + " to " + degrees(to) + " over " + strconv.Itoa(pieces) + " pieces"},
			words{"Give one piece or more, and angles up to 180 degrees"}}
	}
	if pieces == 1 {
		return []float64{(from + to) / 2}, nil
	}
	cuts := make([]float64, pieces)
	for k := range cuts {
		cuts[k] = from + (to-from)*float64(k)/float64(pieces-1)
	}
	return cuts, nil
}
