package state

import (
	"math"
	"testing"
)

// A way of setting the centre line starts with walls or points that leave it
// where it is, as far as they can.
func TestLineStartsWhereItIs(t *testing.T) {
	for _, tt := range []struct{ kind, want string }{
		{"midway", "midway:DA:BC"}, // the walls on both sides
		{"square", "square:AB"},    // the near wall
		{"wall", "wall:AB"},
		{"through", "through:2100,1800:2100,2800"}, // the centre, and a metre on
	} {
		s, _ := Open("#room=4200x3600&block=70x350").Do(Edit{Input: "line.kind", Text: tt.kind})
		if got, _ := s.Link.Get("line"); got != tt.want {
			t.Errorf("%s starts with %q, want %q; problems: %v", tt.kind, got, tt.want, s.Problems)
		}
		centre, along := s.Plan.Axis()
		if math.Abs(centre.X-2100) > 1e-9 || math.Abs(along.X) > 1e-9 || along.Y < 0 {
			t.Errorf("%s: the line runs through %v along %v, want x = 2100 along y", tt.kind, centre, along)
		}
		s, _ = s.Do(Edit{Input: "line.kind", Text: "axis"})
		if got, ok := s.Link.Get("line"); ok {
			t.Errorf("after %s and back the link has line=%s", tt.kind, got)
		}
	}
	// A clockwise room: its left wall is from A to B.
	s, _ := Open("#room=0,0;0,3600;4200,3600;4200,0&block=70x350").Do(Edit{Input: "line.kind", Text: "midway"})
	if got, _ := s.Link.Get("line"); got != "midway:AB:CD" {
		t.Errorf("in a clockwise room midway starts with %q, want midway:AB:CD", got)
	}
}

// What the room does not have is said, and the line stays.
func TestLineWithoutADoorway(t *testing.T) {
	s, step := Open("#room=4200x3600&block=70x350&line=wall:AB").Do(Edit{Input: "line.kind", Text: "door"})
	if got, _ := s.Link.Get("line"); got != "wall:AB" || step != Stay {
		t.Errorf("line=%s after step %v, want wall:AB and no step", got, step)
	}
	if s.Problems["line"] == "" {
		t.Errorf("nothing is said: %v", s.Problems)
	}
}
