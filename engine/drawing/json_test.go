package drawing

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

func TestJSON(t *testing.T) {
	got := string(AppendJSON(nil, func(o *Object) {
		o.Text("name", `hall "A" \ 2¼″`)
		o.Number("step_mm", 98.99494936611666)
		o.Flag("cut", false)
		o.Object("room", func(o *Object) { o.Number("width_mm", 4200) })
		o.Object("none", func(*Object) {})
		o.List("rows", func(l *List) {
			l.Number(1)
			l.Text("a\nb")
			l.Object(func(o *Object) { o.Flag("yes", true) })
			l.List(func(l *List) { l.Number(-2); l.Number(3) })
			l.List(func(*List) {})
		})
		o.Number("nothing", math.NaN())
	}))
	want := `{"name":"hall \"A\" \\ 2¼″","step_mm":98.99494936611666,"cut":false,"room":{"width_mm":4200},"none":{},` +
		`"rows":[1,"a\nb",{"yes":true},[-2,3],[]],"nothing":null}`
	if got != want {
		t.Errorf("written as\n%s, want\n%s", got, want)
	}
	var values map[string]any
	if err := json.Unmarshal([]byte(got), &values); err != nil {
		t.Fatal(err)
	}
	if rows := []any{1.0, "a\nb", map[string]any{"yes": true}, []any{-2.0, 3.0}, []any{}}; !reflect.DeepEqual(values["rows"], rows) {
		t.Errorf("rows read back as %v, want %v", values["rows"], rows)
	}
}

// RFC 8785, Appendix B: a double by its bits, and how it is written.
func TestJSONNumber(t *testing.T) {
	for _, tt := range []struct {
		bits uint64
		want string
	}{
		{0x0000000000000000, "0"},
		{0x8000000000000000, "0"},
		{0x0000000000000001, "5e-324"},
		{0x8000000000000001, "-5e-324"},
		{0x7fefffffffffffff, "1.7976931348623157e+308"},
		{0xffefffffffffffff, "-1.7976931348623157e+308"},
		{0x4340000000000000, "9007199254740992"},
		{0x4430000000000000, "295147905179352830000"},
		{0x44b52d02c7e14af5, "9.999999999999997e+22"},
		{0x44b52d02c7e14af6, "1e+23"},
		{0x444b1ae4d6e2ef4f, "999999999999999900000"},
		{0x444b1ae4d6e2ef50, "1e+21"},
		{0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
		{0x3eb0c6f7a0b5ed8d, "0.000001"},
		{0x41b3de4355555553, "333333333.3333332"},
		{0x41b3de4355555554, "333333333.33333325"},
		{0xbecbf647612f3696, "-0.0000033333333333333333"},
		{0x43143ff3c1cb0959, "1424953923781206.2"},
		// The RFC makes these an error; here they are null.
		{0x7fffffffffffffff, "null"},
		{0x7ff0000000000000, "null"},
		{0xfff0000000000000, "null"},
	} {
		if got := string(appendNumber(nil, math.Float64frombits(tt.bits))); got != tt.want {
			t.Errorf("%016x is written %s, want %s", tt.bits, got, tt.want)
		}
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 10000 {
		v := math.Float64frombits(rng.Uint64())
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		var back float64
		if err := json.Unmarshal(appendNumber(nil, v), &back); err != nil || back != v {
			t.Fatalf("%g is written %s and reads %g, %v", v, appendNumber(nil, v), back, err)
		}
	}
}

func FuzzJSONText(f *testing.F) {
	for _, s := range []string{"", "a", `"\`, "\x00\x1f\x7f", "\r\n\t", "\xff", "\u2028", "🪵", "</script>"} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, key, text string) {
		data := AppendJSON(nil, func(o *Object) {
			o.Object(key, func(o *Object) { o.Text("text", text) })
		})
		var got map[string]map[string]string
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatalf("%q does not read: %v", data, err)
		}
		valid := func(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }
		if v, ok := got[valid(key)]; !ok || v["text"] != valid(text) || len(got) != 1 {
			t.Fatalf("%q, %q are written %q and read %q", key, text, data, got)
		}
	})
}
