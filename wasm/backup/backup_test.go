package backup

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"keelrow/wasm/shelf"
)

var update = flag.Bool("update", false, "write the golden files anew")

func unpacked(packed string) (list []shelf.Job, pictures []string) {
	shelf.Unpack(packed, func(j shelf.Job, picture string) {
		list, pictures = append(list, j), append(pictures, picture)
	})
	return list, pictures
}

// two is two jobs: one with a history in the middle of which it is, and one
// in inches with a picture.
func two() string {
	a := shelf.Job{ID: "hall", Name: "Hall “north”, 25 Nov"}
	a = a.With("room=4200x3600&gap=12", 1795503600000).With("room=4200x3600&gap=12&border=100", 1795503660500).With("room=4200x3600", 1795503720000)
	a.Now = 1
	b := shelf.Job{ID: "mid3k2-4f", Name: `Back\slash & <b>`}.With("unit=in&room=14ftx12ft&block=3x15", 0)
	return shelf.Pack([]shelf.Job{a, b}, func(id string) string {
		if id == "hall" {
			return ""
		}
		return "data:image/jpeg;base64,/9j/4AAQ"
	})
}

func TestExportIsGolden(t *testing.T) {
	got := Export(two())
	path := filepath.Join("testdata", "two-jobs.json")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the file is\n%s\nwant\n%s", got, want)
	}
	// Any reader of JSON reads it.
	var any map[string]any
	if err := json.Unmarshal(want, &any); err != nil || any["keelrow-jobs"] != 1.0 {
		t.Errorf("%v, %v", any, err)
	}
}

func TestImportOfExport(t *testing.T) {
	packed, said := Import(Export(two()))
	if len(said) > 0 {
		t.Errorf("%q", said)
	}
	got, pictures := unpacked(packed)
	want, wanted := unpacked(two())
	for i := range got {
		want[i].Area = got[i].Area
	}
	if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(pictures, wanted) {
		t.Errorf("%+v, want %+v", got, want)
	}
	// 4.2 m by 3.6 m are 15.12 m²; 14 ft by 12 ft are 168 square feet of
	// 0.09290304 m² (1959 yard and pound agreement).
	for i, m2 := range []float64{15.12, 168 * 0.09290304} {
		if diff := got[i].Area/1e6 - m2; diff > 1e-9 || diff < -1e-9 {
			t.Errorf("area of job %d: %v m², want %v", i, got[i].Area/1e6, m2)
		}
	}
}

// What a person is told of a file that cannot be used.
func TestRefusals(t *testing.T) {
	state := `{"link":"gap=1"}`
	one := func(job string) string { return `{"keelrow-jobs":1,"jobs":[` + job + `]}` }
	for text, want := range map[string]string{
		"":                              "it is empty",
		"\n\nhello":                     "line 3 is not as",
		"{\n\"keelrow-jobs\": 1,":       "breaks off after line 2",
		`{"jobs":[]}`:                   "“keelrow-jobs” does not stand in it",
		`[1,2]`:                         "“keelrow-jobs” does not stand in it",
		`{"keelrow-jobs":"one"}`:        "has to be a number from 1",
		`{"keelrow-jobs":0}`:            "has to be a number from 1",
		`{"keelrow-jobs":2,"jobs":[]}`:  "version 2, which this page does not know",
		`{"keelrow-jobs":1}`:            "no jobs in this file",
		`{"keelrow-jobs":1,"jobs":"x"}`: "“jobs” in line 1 is a string",
		strings.Repeat("x", 5<<20):      "it has 5 MB, and such a file has at most 4",
		strings.Repeat("x", 2<<20):      "line 1 is not as",
		`{"keelrow-jobs":1,"jobs":[` + strings.Repeat("{},", 500) + `{}]}`: "501 jobs",
		one(`{}`):                         "Job 1 is left out: its id",
		one(`{"id":"A b","name":"Hall"}`): "Job 1 (“Hall”) is left out: its id",
		one(`{"id":"a"}`):                 "it has no name",
		one(`{"id":"a","name":"x"}`):      "it has no states",
		one(`{"id":"a","name":"x","now":1,"states":[` + state + `]}`):                                        "“now” is 1",
		one(`{"id":"a","name":"x","states":[` + strings.Repeat(state+",", 50) + state + `]}`):                "51 states",
		one(`{"id":"a","name":"x","states":[{"link":"gap 1"}]}`):                                             "state 0 has a space",
		one(`{"id":"a","name":"x","states":[{"link":"gap=1","at":"noon"}]}`):                                 "time of state 0",
		one(`{"id":"a","name":"x","states":[{"link":"gap=` + strings.Repeat("1", 70000) + `"}]}`):            "70004 characters",
		one(`{"id":"a","name":"x","states":[` + state + `]},{"id":"a","name":"y","states":[` + state + `]}`): "Job 2 (“y”) is left out: its id stands in the file twice",
		one(`{"id":"a","name":"x","states":[{"link":"gap=wide&bolck=1"}]}`):                                  "Job 1 (“x”): ",
		one(`{"id":"a","name":"x","states":[{"link":"room=1000000x1000000&block=20x60"}]}`):                  "blocks",
		one(`{"id":"a","name":"x","picture":"https://example.com/x.jpg","states":[` + state + `]}`):          "its picture cannot be used",
		one(`{"id":"a","name":"x","picture":"data:image/jpeg;base64,\"><x","states":[` + state + `]}`):       "its picture cannot be used",
	} {
		_, said := Import(text)
		if len(said) == 0 || !strings.Contains(strings.Join(said, "\n"), want) {
			t.Errorf("%.100q says %q, want %q in it", text, said, want)
		}
	}
	// One that is left out is no hindrance to the others.
	packed, said := Import(one(`{"id":"!"},{"id":"b","name":"Den","states":[` + state + `],"colour":"blue"}`))
	if list, _ := unpacked(packed); len(list) != 1 || list[0].Name != "Den" || len(said) != 1 {
		t.Errorf("%+v, %q", list, said)
	}
	// A link with a fault can be kept: the page says what is wrong with it.
	packed, _ = Import(one(`{"id":"b","name":"Den","states":[{"link":"gap=wide"}]}`))
	if list, _ := unpacked(packed); len(list) != 1 || list[0].Link() != "gap=wide" {
		t.Errorf("%+v", list)
	}
}

// Any text gives a sentence, or jobs which go out and come in again the same.
func FuzzImport(f *testing.F) {
	f.Add(Export(two()))
	f.Add(`{"keelrow-jobs":1,"jobs":[{"id":"a","name":"x","states":[{"link":"#gap=1","at":"0001-01-01T00:00:00Z"},{"link":"gap=wide"}],"now":0}]}`)
	f.Add(`{"keelrow-jobs":2}`)
	f.Add(`{"keelrow-jobs":1,"jobs":[`)
	f.Fuzz(func(t *testing.T, text string) {
		packed, said := Import(text)
		list, pictures := unpacked(packed)
		if len(list) == 0 && len(said) == 0 {
			t.Fatalf("%q gives neither jobs nor a sentence", text)
		}
		for _, s := range said {
			if strings.TrimSpace(s) == "" || len(s) > 2000 {
				t.Fatalf("%q says %q", text, s)
			}
		}
		if len(list) == 0 {
			return
		}
		again, _ := Import(Export(packed))
		list2, pictures2 := unpacked(again)
		if fmt.Sprint(list, pictures) != fmt.Sprint(list2, pictures2) {
			t.Fatalf("%q:\n%+v goes out and comes in as\n%+v", text, list, list2)
		}
	})
}
