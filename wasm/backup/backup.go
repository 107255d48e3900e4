// Package backup writes kept jobs as a file to put away or pass on, and reads
// such a file.
//
// The file is JSON in UTF-8 (RFC 8259):
//
//	{
//	  "keelrow-jobs": 1,
//	  "jobs": [
//	    {
//	      "id": "mid3k2-4f",
//	      "name": "Living room, 25 Nov",
//	      "states": [
//	        {"at": "2026-11-25T07:00:00Z", "link": "room=4200x3600&gap=12"}
//	      ],
//	      "now": 0,
//	      "picture": "data:image/jpeg;base64,..."
//	    }
//	  ]
//	}
//
// "keelrow-jobs" is the version of the format. A state is a link the job has
// had, without '#', and when it got it (RFC 3339); the oldest stands first,
// and "now" counts from 0 which one the job is at. "at", "now" and "picture"
// may be missing: then the job is at the last state, and it has no picture.
// Keys that are not known are passed over.
//
// Jobs come and go as package shelf packs them.
package backup

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"
	"strings"
	"time"

	"keelrow/engine/floor"
	"keelrow/engine/link"
	"keelrow/wasm/shelf"
)

// What a file may have.
const (
	Version     = 1
	Most        = 4 << 20 // bytes
	MostJobs    = 500
	MostPicture = 64 << 10 // bytes
)

type file struct {
	Version int   `json:"keelrow-jobs"`
	Jobs    []job `json:"jobs"`
}

type job struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	States  []state `json:"states"`
	Now     *int    `json:"now,omitempty"`
	Picture string  `json:"picture,omitempty"`
}

type state struct {
	At   string `json:"at,omitempty"`
	Link string `json:"link"`
}

// Export writes packed jobs as a file.
func Export(packed string) string {
	f := file{Version: Version, Jobs: []job{}}
	shelf.Unpack(packed, func(j shelf.Job, picture string) {
		out := job{ID: j.ID, Name: j.Name, Now: &j.Now, Picture: picture}
		for _, s := range j.States {
			out.States = append(out.States, state{written(s.At), s.Link})
		}
		f.Jobs = append(f.Jobs, out)
	})
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // links are full of &
	e.SetIndent("", "  ")
	e.Encode(f) // writing to memory cannot fail
	return b.String()
}

// The last moment a file can give: the end of the year 9999.
var lastMoment = time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC).UnixMilli() - 1

func written(ms int64) string {
	if ms <= 0 {
		return ""
	}
	return time.UnixMilli(min(ms, lastMoment)).UTC().Format("2006-01-02T15:04:05.999Z07:00")
}

func moment(text string) (ms int64, ok bool) {
	if text == "" {
		return 0, true
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return 0, false
	}
	return max(0, t.UnixMilli()), t.UnixMilli() <= lastMoment
}

// Import reads a file. It returns the jobs that can be kept, packed, and
// sentences for the person: about the file if it is none of ours, and about
// every job that is left out or has something wrong with it.
func Import(text string) (packed string, said []string) {
	f, problem := opened(text)
	if problem != "" {
		return "", []string{problem}
	}
	list, pictures, ids := []shelf.Job{}, map[string]string{}, map[string]bool{}
	for i, raw := range f.Jobs {
		which := "Job " + strconv.Itoa(i+1)
		if name := shelf.Named(raw.Name); name != "" {
			which += " (“" + name + "”)"
		}
		j, problem := read(raw)
		if problem == "" && ids[j.ID] {
			problem = "its id stands in the file twice"
		}
		if problem != "" {
			said = append(said, which+" is left out: "+problem+".")
			continue
		}
		ids[j.ID] = true
		var notes []string
		j.Area, notes = looked(j.Link())
		for _, note := range notes {
			said = append(said, which+": "+note)
		}
		picture := raw.Picture
		if picture != "" && !isPicture(picture) {
			said = append(said, which+": its picture cannot be used. The job has a new one once it is opened.")
			picture = ""
		}
		list = append(list, j)
		pictures[j.ID] = picture
	}
	return shelf.Pack(list, func(id string) string { return pictures[id] }), said
}

// opened reads the file as a whole.
func opened(text string) (f file, problem string) {
	text = strings.TrimPrefix(text, "\ufeff")
	const isNone = "This is no file of kept jobs: "
	if len(text) > Most {
		return f, isNone + "it has " + strconv.Itoa(len(text)/1e6) + " MB, and such a file has at most 4."
	}
	var head struct {
		Version json.RawMessage `json:"keelrow-jobs"`
	}
	err := json.Unmarshal([]byte(text), &head)
	var wrong *json.SyntaxError
	switch {
	case strings.TrimSpace(text) == "":
		return f, isNone + "it is empty."
	case errors.As(err, &wrong) && int(wrong.Offset) >= len(text):
		return f, isNone + "it breaks off after line " + strconv.Itoa(lineOf(text, len(text))) + ". Was all of it copied?"
	case errors.As(err, &wrong):
		return f, isNone + "line " + strconv.Itoa(lineOf(text, int(wrong.Offset))) + " is not as such a file has it."
	case err != nil || head.Version == nil:
		return f, isNone + "“keelrow-jobs” does not stand in it."
	}
	version, err := strconv.Atoi(string(head.Version))
	switch {
	case err != nil || version < 1:
		return f, isNone + "its version (“keelrow-jobs”) has to be a number from 1."
	case version > Version:
		return f, "This file is of version " + strconv.Itoa(version) + ", which this page does not know yet. Load the page again while online and try once more."
	}
	var kind *json.UnmarshalTypeError
	switch err := json.Unmarshal([]byte(text), &f); {
	case errors.As(err, &kind):
		return f, "This file cannot be used: “" + kind.Field + "” in line " + strconv.Itoa(lineOf(text, int(kind.Offset))) + " is a " + kind.Value + ", which does not belong there."
	case err != nil:
		return f, "This file cannot be used: some of it is not as such a file has it."
	case len(f.Jobs) == 0:
		return f, "There are no jobs in this file."
	case len(f.Jobs) > MostJobs:
		return f, "This file has " + strconv.Itoa(len(f.Jobs)) + " jobs. At most " + strconv.Itoa(MostJobs) + " can be brought in at once."
	}
	return f, ""
}

func lineOf(text string, offset int) int {
	return 1 + strings.Count(text[:max(0, min(offset, len(text)))], "\n")
}

// read takes over one job, or says what is wrong with it.
func read(raw job) (j shelf.Job, problem string) {
	j = shelf.Job{ID: raw.ID, Name: shelf.Named(raw.Name), Now: len(raw.States) - 1}
	if raw.Now != nil {
		j.Now = *raw.Now
	}
	size := 0
	switch {
	case !shelf.GoodID(j.ID):
		return j, "its id has to be up to 40 small letters, digits and hyphens"
	case j.Name == "":
		return j, "it has no name"
	case len(raw.States) == 0:
		return j, "it has no states"
	case len(raw.States) > shelf.MostStates:
		return j, "it has " + strconv.Itoa(len(raw.States)) + " states, and a job has at most " + strconv.Itoa(shelf.MostStates)
	case j.Now < 0 || j.Now >= len(raw.States):
		return j, "“now” is " + strconv.Itoa(j.Now) + ", and its states are numbered from 0 to " + strconv.Itoa(len(raw.States)-1)
	}
	for i, s := range raw.States {
		which := "state " + strconv.Itoa(i)
		at, ok := moment(s.At)
		if !ok {
			return j, "the time of " + which + " is not like 2026-11-25T07:00:00Z"
		}
		text := strings.TrimPrefix(s.Link, "#")
		// The address bar would give such a link back otherwise.
		for _, r := range text {
			if r <= ' ' || r > '~' {
				return j, "the link of " + which + " has a space or a character in it that no link has"
			}
		}
		if len(text) > link.Most {
			return j, "the link of " + which + " is " + strconv.Itoa(len(text)) + " characters long, and at most " + strconv.Itoa(link.Most) + " are opened"
		}
		size += len(text)
		j.States = append(j.States, shelf.Past{At: at, Link: text})
	}
	if size > shelf.MostHistory && len(j.States) > 1 {
		return j, "its links are " + strconv.Itoa(size) + " characters long together, and a job has at most " + strconv.Itoa(shelf.MostHistory)
	}
	return j, ""
}

// looked opens the link a job is at as the page would and returns the area of
// its room, in mm², with what is wrong with the link. It can be opened all the
// same: what cannot be used takes its default.
func looked(text string) (area float64, notes []string) {
	const most = 3
	given, faults := link.Open("#" + text).Job()
	_, more := link.Open("#" + text).View()
	for _, fault := range append(faults, more...) {
		if len(notes) == most {
			return 0, append(notes, "There is more that is wrong with this link.")
		}
		notes = append(notes, fault.Error())
	}
	plan, err := floor.New(given)
	if err != nil {
		return 0, append(notes, "Its floor cannot be laid out as it stands: "+strings.ReplaceAll(err.Error(), "\n", " "))
	}
	for _, ring := range plan.Room() { // columns count as less than nothing
		area += ring.Area()
	}
	return max(0, area), notes
}

// isPicture says whether a text is a small JPEG or PNG picture as a data
// address.
func isPicture(text string) bool {
	body, found := strings.CutPrefix(text, "data:image/jpeg;base64,")
	if !found {
		body, found = strings.CutPrefix(text, "data:image/png;base64,")
	}
	return found && len(text) <= MostPicture && strings.Trim(body, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/=") == ""
}
