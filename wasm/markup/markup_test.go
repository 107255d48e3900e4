package markup

import (
	"math"
	"testing"

	"keelrow/engine/plane"
)

func TestMarkup(t *testing.T) {
	// HTML, section 13.3, "escaping a string"; SVG 2, section 9.3, path data.
	for _, tt := range []struct{ got, want string }{
		{Escape(`a <b> & "c"`), "a &lt;b&gt; &amp; &quot;c&quot;"},
		{Escape("plain"), "plain"},
		{Attr("title", `14' 6-1/2"`), ` title="14' 6-1/2&quot;"`},
		{Num(100), "100"}, {Num(2.5), "2.5"}, {Num(1.005e2), "100.5"}, {Num(-0.001), "0"}, {Num(math.Copysign(0, -1)), "0"}, {Num(-1.239), "-1.24"},
		{Path([]plane.Point{{X: 0, Y: 0}, {X: 10, Y: 0.5}}, false), "M0 0L10 0.5"},
		{Path([]plane.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: -5}}, true), "M0 0L10 0L10 -5Z"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
