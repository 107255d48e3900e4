package serve

import "testing"

func TestChoose(t *testing.T) {
	for _, tt := range []struct {
		source string
		header string
		want   string // empty when nothing is acceptable
	}{
		{"RFC 9110 12.5.3, example 1: compress, gzip", "compress, gzip", "gzip"},
		{"RFC 9110 12.5.3, example 2: an empty field asks for no coding", "", identity},
		{"RFC 9110 12.5.3, example 3: * is any coding", "*", "br"},
		{"RFC 9110 12.5.3, example 4", "compress;q=0.5, gzip;q=1.0", "gzip"},
		{"RFC 9110 12.5.3, example 5", "gzip;q=1.0, identity; q=0.5, *;q=0", "gzip"},
		{"common practice of browsers, no source", "gzip, deflate, br, zstd", "br"},
		{"12.4.2: the higher weight is preferred", "br;q=0.5, gzip;q=0.8", "gzip"},
		{"12.4.2: weight 0 is not acceptable", "br;q=0, gzip;q=0.001", "gzip"},
		{"12.4.2: weight 0, with nothing else named", "br;q=0", identity},
		{"12.5.3: * stands for what is not named", "br;q=0.2, *;q=0.3", "gzip"},
		{"12.5.3: identity preferred", "gzip;q=0.5, identity", identity},
		{"12.5.3: identity ruled out and nothing we have", "identity;q=0, zstd", ""},
		{"12.5.3: everything ruled out", "*;q=0", ""},
		{"12.5.3: everything but identity ruled out", "*;q=0, identity", identity},
		{"8.4.1: names are case-insensitive", "GZip;Q=1", "gzip"},
		{"8.4.1.3: x-gzip is gzip", "x-gzip", "gzip"},
		{"5.6.1.2: empty list elements are ignored", ", ,gzip", "gzip"},
		{"12.4.2: no weight above 1", "br;q=2, gzip;q=0.1", "gzip"},
		{"12.4.2: no other parameter", "br;level=1, gzip", "gzip"},
	} {
		got, ok := choose(tt.header, true, []string{"br", "gzip"})
		if !ok {
			got = ""
		}
		if got != tt.want {
			t.Errorf("%s: choose(%q) = %q, want %q", tt.source, tt.header, got, tt.want)
		}
	}
	if got, ok := choose("", false, []string{"br", "gzip"}); got != identity || !ok {
		t.Errorf("choose without the header = %q, %v, want %s", got, ok, identity)
	}
	if got, ok := choose("br", true, nil); got != identity || !ok {
		t.Errorf("choose for a file without compressed copies = %q, %v, want %s", got, ok, identity)
	}
}
