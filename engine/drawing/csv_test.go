package drawing

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
)

func TestCSV(t *testing.T) {
	for _, tt := range []struct {
		source string
		table  Table
		want   string
	}{
		{"RFC 4180, section 2, rules 1 and 3", Table{Header: []string{"field_name", "field_name", "field_name"}, Rows: [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
			"field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"},
		{"RFC 4180, section 2, rule 6", Table{Rows: [][]string{{"aaa", "b\r\nbb", "ccc"}}}, "aaa,\"b\r\nbb\",ccc\r\n"},
		{"RFC 4180, section 2, rule 7", Table{Rows: [][]string{{"aaa", `b"bb`, "ccc"}}}, `aaa,"b""bb",ccc` + "\r\n"},
		{"RFC 4180, section 2, rule 4: spaces are part of a field", Table{Rows: [][]string{{" a ", "1,5"}}}, " a ,\"1,5\"\r\n"},
		{"RFC 4180, section 2, rule 4: as many fields in every line", Table{Header: []string{"a"}, Rows: [][]string{{"1", "2"}, {}}}, "a,\r\n1,2\r\n,\r\n"},
		{"RFC 4180, section 2, grammar: no control characters", Table{Rows: [][]string{{"a\tb\x00c"}}}, "a b c\r\n"},
		{"a field alone and empty is a record all the same", Table{Rows: [][]string{{""}, {"a"}, {}}}, "\"\"\r\na\r\n\"\"\r\n"},
		{"so is one of which nothing is kept", Table{Rows: [][]string{{"\uFEFF"}, {"a"}}}, "\"\"\r\na\r\n"},
		{"OWASP, CSV Injection", Table{Rows: [][]string{{"=1+2", "+1+2", "-1+2", "@SUM(1)", `=1+2";=1+2`, "＝1"}}},
			`'=1+2,'+1+2,'-1+2,'@SUM(1),"'=1+2"";=1+2",'＝1` + "\r\n"},
		{"OWASP, CSV Injection: hidden starts", Table{Rows: [][]string{{"\uFEFF=1", "\n=1", "\r=1"}}}, "'=1,\"'\n=1\",\"'\r=1\"\r\n"},
		{"numbers stay numbers", Table{Rows: [][]string{{"-12.5", "+3", "12", "-0.0001", "6-3/8 in"}}}, "-12.5,+3,12,-0.0001,6-3/8 in\r\n"},
		{"what only starts like a number", Table{Rows: [][]string{{"-", "-6-3/8", "-1.2.3", "-1e5", "-1 in"}}}, "'-,'-6-3/8,'-1.2.3,'-1e5,'-1 in\r\n"},
		{"nothing", Table{}, ""},
	} {
		if got := string(AppendCSV(nil, tt.table)); got != tt.want {
			t.Errorf("%s: %q is written %q, want %q", tt.source, tt.table, got, tt.want)
		}
	}
}

func FuzzCSV(f *testing.F) {
	for _, s := range []string{"", "a", `"`, ",", "\r\n", "a\nb", "=1+2", "-12.5", "\t", "\x00", "\xff", " a ", "\uFEFF=", "''", "\"\r\",\n"} {
		f.Add(s, s, s, s)
	}
	f.Fuzz(func(t *testing.T, a, b, c, d string) {
		for _, table := range []Table{
			{Header: []string{a, b}, Rows: [][]string{{c, d}, {d}}},
			{Rows: [][]string{{a}, {b}, {c}, {d}}},
		} {
			data := string(AppendCSV(nil, table))
			got, err := csv.NewReader(strings.NewReader(data)).ReadAll()
			if err != nil {
				t.Fatalf("%q is written %q, which does not read: %v", table, data, err)
			}
			want := table.Rows
			if len(table.Header) > 0 {
				want = [][]string{table.Header, {c, d}, {d, ""}}
			}
			for i := range want {
				for j := range want[i] {
					want[i][j] = kept(want[i][j])
				}
			}
			if !slices.EqualFunc(got, want, slices.Equal[[]string]) {
				t.Fatalf("%q is written %q and reads %q, want %q", table, data, got, want)
			}
			for _, field := range slices.Concat(got...) {
				signed := strings.HasPrefix(field, "+") || strings.HasPrefix(field, "-")
				if signed && strings.Trim(field[1:], ".0123456789") != "" || strings.IndexAny(field, "=@\r\n＝＋－＠") == 0 {
					t.Errorf("%q would be taken for a formula", field)
				}
			}
		}
	})
}

// kept returns what of a field the documentation says is kept. Go's reader
// takes a CR LF in quotes for LF.
func kept(field string) string {
	field = strings.ToValidUTF8(field, "\uFFFD")
	field = strings.ReplaceAll(field, "\uFEFF", "")
	field = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\r' && r != '\n' || r == 0x7f {
			return ' '
		}
		return r
	}, field)
	if startsFormula(field) {
		field = "'" + field
	}
	return strings.ReplaceAll(field, "\r\n", "\n")
}
