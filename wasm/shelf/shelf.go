package shelf

import (
	"errors"
	"strconv"
	"strings"
)

// Store is where texts are kept under keys.
type Store interface {
	Get(key string) (value string, ok bool)
	// Set returns an error when there is no room, and then has changed
	// nothing.
	Set(key, value string) error
	Remove(key string)
	Keys() []string
}

// Shelf is the jobs in a store.
type Shelf struct{ Store Store }

const (
	jobs     = "keelrow job "
	pictures = "keelrow picture "
)

var (
	// ErrChanged is a save of a job that has been saved elsewhere since.
	ErrChanged = errors.New("the job was changed elsewhere")
	// ErrGone is a save of a job that is no longer in the store.
	ErrGone = errors.New("the job is no longer in the store")
	// ErrFull is a save for which the store has no room.
	ErrFull = errors.New("the store is full")
)

// IDOf returns the ID of the job that is kept under a key, if one is.
func IDOf(key string) (id string, ok bool) { return strings.CutPrefix(key, jobs) }

// List returns the jobs, the one changed last first, and how many records are
// broken and how many of a later version.
func (s Shelf) List() (list []Job, broken, later int) {
	for _, key := range s.Store.Keys() {
		id, ok := IDOf(key)
		if !ok {
			continue
		}
		switch job, err := s.Load(id); {
		case err == nil:
			list = append(list, job)
		case err == ErrLater:
			later++
		case err != ErrGone:
			broken++
		}
	}
	for i := range list { // few enough to be put in order one by one
		for ; i > 0 && list[i].before(list[i-1]); i-- {
			list[i], list[i-1] = list[i-1], list[i]
		}
	}
	return list, broken, later
}

func (j Job) before(o Job) bool {
	return j.Changed() > o.Changed() || j.Changed() == o.Changed() && j.ID < o.ID
}

// Load returns a job, or ErrGone, ErrBroken or ErrLater.
func (s Shelf) Load(id string) (Job, error) {
	text, ok := s.Store.Get(jobs + id)
	if !ok {
		return Job{}, ErrGone
	}
	job, err := Parse(text)
	if err == nil && job.ID != id {
		err = ErrBroken
	}
	if err != nil {
		return Job{}, err
	}
	return job, nil
}

// Save keeps a job if the store has it as it was when job was loaded or saved
// last, and returns it with its new count. Otherwise the store stays as it is
// and the error is ErrChanged, ErrGone or ErrFull.
func (s Shelf) Save(job Job) (Job, error) {
	switch kept, err := s.Load(job.ID); {
	case err == ErrGone:
		if job.Count > 0 {
			return job, ErrGone
		}
	case err != nil: // broken or later: not ours to write over
		return job, ErrChanged
	case kept.Count != job.Count:
		return job, ErrChanged
	}
	next := job
	next.Count++
	if err := s.set(jobs+job.ID, next.Text()); err != nil {
		return job, err
	}
	return next, nil
}

// set gives up pictures when there is no room: they can be made again.
func (s Shelf) set(key, value string) error {
	if s.Store.Set(key, value) == nil {
		return nil
	}
	for _, k := range s.Store.Keys() {
		if strings.HasPrefix(k, pictures) {
			s.Store.Remove(k)
		}
	}
	if s.Store.Set(key, value) != nil {
		return ErrFull
	}
	return nil
}

// Remove takes a job and its picture away.
func (s Shelf) Remove(id string) {
	s.Store.Remove(jobs + id)
	s.Store.Remove(pictures + id)
}

// Picture returns a job's picture as a data address, or "".
func (s Shelf) Picture(id string) string {
	text, _ := s.Store.Get(pictures + id)
	return text
}

// SetPicture keeps a picture of a job that is kept. Without room there is
// none.
func (s Shelf) SetPicture(id, picture string) {
	if _, ok := s.Store.Get(jobs + id); !ok || picture == "" || s.Store.Set(pictures+id, picture) != nil {
		s.Store.Remove(pictures + id)
	}
}

// Taken says what became of a job that was brought in.
type Taken int

const (
	Added  Taken = iota
	Known        // it was here already
	Beside       // another of its ID was here: it is kept as a copy
)

// Take keeps a job from elsewhere. One whose ID is here with other contents
// is kept beside it, under an ID made of what it holds, so that taking it
// again makes no second copy. copied is the name of a copy, with {name} in it.
func (s Shelf) Take(job Job, picture, copied string) (Taken, error) {
	taken := Added
	job.Count = 0
	kept, err := s.Load(job.ID)
	if err == nil && kept.Same(job) {
		return Known, nil
	}
	if err != ErrGone {
		taken = Beside
		hold := job.Name + strconv.Itoa(job.Now)
		for _, p := range job.States {
			hold += "\n" + p.Link
		}
		sum := uint32(2166136261) // FNV-1a
		for i := range len(hold) {
			sum = (sum ^ uint32(hold[i])) * 16777619
		}
		job.ID = job.ID[:min(len(job.ID), mostID-9)] + "-" + strconv.FormatUint(uint64(sum), 16)
		job.Name = Named(strings.ReplaceAll(copied, "{name}", job.Name))
		if _, err := s.Load(job.ID); err != ErrGone {
			return Known, nil
		}
	}
	job, err = s.Save(job)
	if err == nil && picture != "" {
		s.SetPicture(job.ID, picture)
	}
	return taken, err
}

// Between records that are handed on as one text, and between a record and
// its picture. Records hold neither.
const (
	between = "\x1e"
	behind  = "\x1f"
)

// Pack joins jobs and their pictures into one text.
func Pack(list []Job, picture func(id string) string) string {
	parts := make([]string, len(list))
	for i, job := range list {
		parts[i] = job.Text() + behind + picture(job.ID)
	}
	return strings.Join(parts, between)
}

// Unpack takes them apart again. What cannot be read is left out.
func Unpack(text string, each func(job Job, picture string)) {
	for part := range strings.SplitSeq(text, between) {
		record, picture, _ := strings.Cut(part, behind)
		if job, err := Parse(record); err == nil {
			each(job, picture)
		}
	}
}
