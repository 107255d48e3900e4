package link

import "testing"

// Two choices of one floor: the second is the link with the keys of beside in
// the place of its own.
func TestBeside(t *testing.T) {
	for _, tt := range []struct{ name, link, other, beside, back string }{
		{"another wood", "room=9x9&wood=oak", "room=5x5&wood=ash", "wood%3Dash", "room=9x9&wood=ash"},
		{"no border, other blocks", "border=110&block=80x480", "block=70x350", "border%26block%3D70x350", "block=70x350"},
		{"light and place are one's own", "light=lamp&view=standing", "light=day:9&eye=1,1,1600", "", ""},
		{"the other in inches", "block=80x480", "unit=in&block=3x18", "block%3D3inx18in", "block=3inx18in"}, // common practice, no source
		{"a text with escapes", "line=axis", "line=through:1,2:3,4", "line%3Dthrough:1,2:3,4", "line=through:1,2:3,4"},
		{"the same", "wood=oak&axis=3", "wood=oak&axis=3&gap=4", "", ""},
		{"walls by their names", "room=0,0;9,0;9,9;5,9;0,9", "border=5;EA:2", "border%3D5;EA:2", "room=0,0;9,0;9,9;5,9;0,9&border=5;EA:2"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := Open("#" + tt.link).Comparing(Open("#" + tt.other))
			if got := Open("#" + l.String()); got.String() != l.String() {
				t.Errorf("%q opens as %q", l, got)
			}
			want := tt.link
			if tt.beside != "" {
				want += "&beside=" + tt.beside
			}
			if l.String() != want {
				t.Errorf("%q beside %q is %q, want %q", tt.link, tt.other, l, want)
			}
			other, ok := l.Beside()
			if ok != (tt.beside != "") || ok && other.String() != tt.back {
				t.Errorf("%q is compared with %q, %v, want %q", l, other, ok, tt.back)
			}
			if _, faults := l.View(); len(faults) > 0 {
				t.Errorf("%q: %v", l, faults)
			}
			if ok {
				// Changing places gives the first choice beside the second.
				back, _ := other.Comparing(Open("#" + tt.link)).Beside()
				if again := Open("#" + tt.link).Comparing(back); again.String() != tt.link {
					t.Errorf("back from %q to %q, which differs from %q in %q", other, back, tt.link, again)
				}
			}
		})
	}
}
