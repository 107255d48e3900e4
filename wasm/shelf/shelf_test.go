package shelf

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// drawer is a store with room for so many bytes.
type drawer struct {
	texts map[string]string
	room  int
}

func (d *drawer) Get(key string) (string, bool) { v, ok := d.texts[key]; return v, ok }

func (d *drawer) Set(key, value string) error {
	used := len(key) + len(value)
	for k, v := range d.texts {
		if k != key {
			used += len(k) + len(v)
		}
	}
	if used > d.room {
		return errors.New("full")
	}
	d.texts[key] = value
	return nil
}

func (d *drawer) Remove(key string) { delete(d.texts, key) }

func (d *drawer) Keys() (keys []string) {
	for k := range d.texts {
		keys = append(keys, k)
	}
	return keys
}

func empty(room int) (Shelf, *drawer) {
	d := &drawer{map[string]string{"keelrow tick 1": "1", "another page": "x"}, room}
	return Shelf{d}, d
}

func kept(t *testing.T, s Shelf, id, name string, links ...string) Job {
	t.Helper()
	job := Job{ID: id, Name: name}
	for i, l := range links {
		job = job.With(l, int64(i+1))
	}
	job, err := s.Save(job)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// Any sequence of actions: the list equals a model that is only a map.
func TestListEqualsModel(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		s, d := empty(1 << 30)
		model := map[string]Job{}
		pictures := map[string]string{}
		text := func() string {
			return []string{"room=1x2", "a=\\n\n\r\x1e\x1f", "", "gap=%20\\", "ü=½", strings.Repeat("x", 300)}[r.IntN(6)] + fmt.Sprint(r.IntN(5))
		}
		for at := range 60 {
			id := fmt.Sprint("j", r.IntN(5))
			job, known := model[id]
			switch r.IntN(8) {
			case 0, 1, 2:
				if !known {
					job = Job{ID: id, Name: text(), Area: r.Float64() * 1e9}
				}
				job = job.With(text(), int64(at))
				saved, err := s.Save(job)
				if err != nil {
					t.Fatalf("seed %d: %v", seed, err)
				}
				job.Count++
				if !reflect.DeepEqual(saved, job) {
					t.Fatalf("seed %d: saved %+v, want %+v", seed, saved, job)
				}
				model[id] = job
			case 3:
				s.Remove(id)
				delete(model, id)
				delete(pictures, id)
			case 4:
				if next, ok := job.Step(r.IntN(5) - 2); known && ok {
					next, err := s.Save(next)
					if err != nil {
						t.Fatalf("seed %d: %v", seed, err)
					}
					model[id] = next
				}
			case 5:
				picture := fmt.Sprint("data:", r.IntN(9))
				s.SetPicture(id, picture)
				if known {
					pictures[id] = picture
				}
			case 6: // one who does not know the last save changes nothing
				if known {
					stale := job
					stale.Count += 1 - 2*r.IntN(2)
					if _, err := s.Save(stale.With("stale", 0)); !errors.Is(err, ErrChanged) {
						t.Fatalf("seed %d: a stale save says %v", seed, err)
					}
				}
			case 7: // out and in again
				if known {
					Unpack(Pack([]Job{job}, s.Picture), func(back Job, picture string) {
						if taken, err := s.Take(back, picture, "{name} (copy)"); taken != Known || err != nil {
							t.Fatalf("seed %d: taken again: %v, %v", seed, taken, err)
						}
					})
				}
			}
			list, broken, later := s.List()
			if broken+later > 0 || len(list) != len(model) {
				t.Fatalf("seed %d: %d jobs, %d broken, %d later; want %d", seed, len(list), broken, later, len(model))
			}
			for i, job := range list {
				if !reflect.DeepEqual(job, model[job.ID]) || s.Picture(job.ID) != pictures[job.ID] {
					t.Fatalf("seed %d: %+v, want %+v", seed, job, model[job.ID])
				}
				if i > 0 && job.Changed() > list[i-1].Changed() {
					t.Fatalf("seed %d: the list is out of order", seed)
				}
			}
			if d.texts["another page"] != "x" || d.texts["keelrow tick 1"] != "1" {
				t.Fatal("what is not the shelf's is gone")
			}
		}
	}
}

func TestBrokenRecordHarmsOnlyItself(t *testing.T) {
	s, d := empty(1 << 20)
	good := kept(t, s, "good", "Hall", "gap=1", "gap=2")
	whole := good.Text()
	d.texts["keelrow job later"] = "keelrow-job 2\nwhatever\n"
	d.texts["keelrow job other"] = whole // the ID of another
	texts := []string{"", "x", "keelrow-job", "keelrow-job 0\n", "keelrow-job x\n", "keelrow-job 1\n", "keelrow-job 1\nid good\ncount 1\nnow 7\nstate 1 a\n",
		strings.Replace(whole, "count 1", "count -1", 1), strings.Replace(whole, "area 0", "area NaN", 1), strings.Replace(whole, "state 1", "state one", 1)}
	for cut := range len(whole) {
		texts = append(texts, whole[:cut])
	}
	for _, text := range texts {
		d.texts["keelrow job bad"] = text
		list, broken, later := s.List()
		if len(list) != 1 || !reflect.DeepEqual(list[0], good) || broken != 2 || later != 1 {
			// A record may also be cut behind one of its states.
			if job, err := Parse(text); err == nil {
				t.Fatalf("%q is read as %+v", text, job)
			}
			t.Fatalf("%q: %d jobs, %d broken, %d later", text, len(list), broken, later)
		}
		for _, id := range []string{"bad", "later"} {
			before := d.texts["keelrow job "+id]
			if _, err := s.Save(Job{ID: id}.With("a", 1)); !errors.Is(err, ErrChanged) || d.texts["keelrow job "+id] != before {
				t.Fatalf("a record that is not understood was written over: %v", err)
			}
		}
	}
}

func TestPicturesGoFirst(t *testing.T) {
	s, d := empty(2000)
	job := kept(t, s, "a", "Hall", "gap=1")
	s.SetPicture("a", strings.Repeat("p", 1500))
	if s.Picture("a") == "" {
		t.Fatal("no picture")
	}
	job, err := s.Save(job.With(strings.Repeat("g", 800), 9))
	if err != nil || s.Picture("a") != "" {
		t.Fatalf("saved with %v, picture of %d", err, len(s.Picture("a")))
	}
	before := d.texts["keelrow job a"]
	if again, err := s.Save(job.With(strings.Repeat("h", 1800), 10)); !errors.Is(err, ErrFull) || again.Count != job.Count || d.texts["keelrow job a"] != before {
		t.Errorf("a save without room: %v, count %d, want %d", err, again.Count, job.Count)
	}
}

func TestGone(t *testing.T) {
	s, d := empty(1 << 20)
	job := kept(t, s, "a", "Hall", "gap=1")
	clear(d.texts)
	if _, err := s.Save(job); !errors.Is(err, ErrGone) {
		t.Fatalf("a save after everything was cleared: %v", err)
	}
	job.Count = 0
	if _, err := s.Save(job); err != nil {
		t.Error(err)
	}
}

func TestHistory(t *testing.T) {
	job := Job{ID: "a"}
	for i := range 200 {
		job = job.With(fmt.Sprint("gap=", i), int64(i))
	}
	if len(job.States) != MostStates || job.Link() != "gap=199" || job.States[0].Link != "gap=150" {
		t.Fatalf("%d states, the oldest %q", len(job.States), job.States[0].Link)
	}
	if same := job.With("gap=199", 900); len(same.States) != MostStates || same.Changed() != 199 {
		t.Error("the same link again is a state of its own")
	}
	back, ok := job.Step(-3)
	if !ok || back.Link() != "gap=196" {
		t.Fatalf("three back: %q", back.Link())
	}
	on, _ := back.Step(1)
	branch := back.With("gap=7", 300)
	if _, ok := branch.Step(1); ok || on.Link() != "gap=197" || job.States[48].Link != "gap=198" {
		t.Error("a change after going back keeps what was undone, or spoils the other")
	}
	for range 60 {
		job, _ = job.Step(-1)
	}
	if job.Link() != "gap=150" {
		t.Errorf("all the way back: %q", job.Link())
	}
	long := Job{ID: "a"}
	for i := range 9 {
		long = long.With(strings.Repeat("x", 60<<10)+fmt.Sprint(i), 1)
	}
	if len(long.States) != 3 { // 200 kB hold three of 60 kB
		t.Errorf("%d states of 60 kB", len(long.States))
	}
}

func TestTake(t *testing.T) {
	s, _ := empty(1 << 20)
	kept(t, s, "a", "Hall", "gap=1")
	other := Job{ID: "a", Name: "Hall"}.With("gap=2", 5)
	for i, want := range []Taken{Beside, Known, Known} {
		if got, err := s.Take(other, "data:x", "{name} (copy)"); got != want || err != nil {
			t.Errorf("time %d: %v, %v, want %v", i, got, err, want)
		}
	}
	list, _, _ := s.List()
	names := []string{}
	for _, job := range list {
		names = append(names, job.Name+" "+job.Link())
		if !GoodID(job.ID) {
			t.Errorf("ID %q", job.ID)
		}
	}
	if want := []string{"Hall (copy) gap=2", "Hall gap=1"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}

func TestNamed(t *testing.T) {
	for text, want := range map[string]string{
		"  Living room,\n 25 Nov ": "Living room, 25 Nov", "\x00\x1e": "", "a\u202eb": "a b",
		strings.Repeat("é", 200): strings.Repeat("é", MostName), "\xff": "",
	} {
		if got := Named(text); got != want || Named(got) != got {
			t.Errorf("Named(%q) = %q, want %q", text, got, want)
		}
	}
}
