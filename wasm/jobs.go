//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"github.com/hexops/vecty"

	"keelrow/engine/link"
	"keelrow/wasm/shelf"
	"keelrow/wasm/state"
	"keelrow/wasm/view"
	"keelrow/wasm/words"
)

// jobs is the jobs kept on this device. Which of them is open in this tab is
// written into each entry of the tab's history, so that going back to a link
// goes back to its job, and with its last known record into the session's
// store. A link that comes from elsewhere has no such entry and opens no job,
// unless a kept job is just at that link.
type jobs struct {
	shelf   shelf.Shelf
	open    shelf.Job // as this tab saved or read it last; no ID when none is
	due     bool      // the floor was changed and is not saved yet
	turn    int       // counts changes, so that the last one of several saves
	deleted shelf.Job // to be put back
	picture string    // its picture
}

// localStore is the browser's store for this page.
type localStore struct{}

func (localStore) Get(key string) (value string, ok bool) {
	defer func() { _ = recover() }()
	if store, open := storage(); open {
		if v := store.Call("getItem", key); !v.IsNull() {
			return v.String(), true
		}
	}
	return "", false
}

func (localStore) Set(key, value string) (err error) {
	defer func() {
		if recover() != nil {
			err = shelf.ErrFull
		}
	}()
	store, ok := storage()
	if !ok {
		return shelf.ErrFull
	}
	store.Call("setItem", key, value)
	return nil
}

func (localStore) Remove(key string) {
	defer func() { _ = recover() }()
	if store, ok := storage(); ok {
		store.Call("removeItem", key)
	}
}

func (localStore) Keys() (keys []string) {
	defer func() { _ = recover() }()
	if store, ok := storage(); ok {
		for i := range store.Get("length").Int() {
			keys = append(keys, store.Call("key", i).String())
		}
	}
	return keys
}

// entryMark stands before the job's ID in an entry of the history.
const entryMark = "job "

// entry is what the tab's history keeps beside the link.
func (j *jobs) entry() any {
	if j.open.ID == "" {
		return nil
	}
	return entryMark + j.open.ID
}

func entryNow() (id string) {
	if now := js.Global().Get("history").Get("state"); now.Type() == js.TypeString {
		id, _ = strings.CutPrefix(now.String(), entryMark)
	}
	return id
}

// sessionKey is where this tab keeps the record of its job.
const sessionKey = "keelrow open"

// session reads or, with a value, writes the tab's own store.
func session(write ...string) (value string) {
	defer func() { _ = recover() }() // it may be closed to the page
	store := js.Global().Get("Reflect").Call("get", js.Global(), "sessionStorage")
	if len(write) > 0 {
		store.Call("setItem", sessionKey, write[0])
		return ""
	}
	if v := store.Call("getItem", sessionKey); !v.IsNull() {
		return v.String()
	}
	return ""
}

func (a *app) jobsStart() {
	j := &a.jobs
	j.shelf.Store = localStore{}
	window := js.Global()
	on := func(target js.Value, event string, hear func(e js.Value)) {
		target.Call("addEventListener", event, js.FuncOf(func(_ js.Value, args []js.Value) any {
			hear(args[0])
			return nil
		}))
	}
	on(window, "storage", a.jobElsewhere)
	on(window, "pagehide", func(js.Value) { a.saveJob() })
	on(a.document, "visibilitychange", func(js.Value) { a.saveJob() })
	on(a.document, "dragover", func(e js.Value) { e.Call("preventDefault") })
	on(a.document, "drop", func(e js.Value) {
		e.Call("preventDefault")
		if file := e.Get("dataTransfer").Get("files").Index(0); file.Truthy() {
			a.do(state.OpenJobs{Open: true})
			later(50, func() { a.bringIn(file) })
		}
	})
	navigator := window.Get("navigator")
	if navigator.Get("canShare").Truthy() {
		probe := window.Get("File").New([]any{"x"}, "x.csv", map[string]any{"type": "text/csv"})
		a.page.Jobs.Shares = navigator.Call("canShare", map[string]any{"files": []any{probe}}).Bool()
	}
	if id := entryNow(); id != "" {
		a.jobAgain(id)
	} else {
		a.jobAttach()
	}
}

// jobAgain opens the job that this tab had open before it was loaded again.
func (a *app) jobAgain(id string) {
	j := &a.jobs
	mine, unknown := shelf.Parse(session())
	known := unknown == nil && mine.ID == id
	kept, err := j.shelf.Load(id)
	floor := state.Floor(a.page.State.Address())
	switch {
	case err != nil && !known:
		a.address(state.Replace) // it is gone, and so is all about it
		return
	case err != nil: // cleared, perhaps while the page was shut
		a.setJob(mine)
		a.keepJob(mine)
	case known && kept.Count != mine.Count:
		// Changed elsewhere in the meantime: also here?
		seen := false
		for _, s := range kept.States {
			seen = seen || state.Floor(s.Link) == floor
		}
		if seen {
			a.followJob(kept)
			return
		}
		a.setJob(mine)
		j.due = true
		a.saveJob()
	default:
		a.setJob(kept)
		j.due = true
		a.saveJob()
	}
	vecty.Rerender(a.page)
}

// setJob makes a job the one that is open in this tab.
func (a *app) setJob(job shelf.Job) {
	a.jobs.open, a.jobs.due = job, false
	a.page.Jobs.Elsewhere, a.page.Jobs.Notice = false, ""
	a.jobKnown()
}

// jobKnown shows what is known of the open job.
func (a *app) jobKnown() {
	job, p := a.jobs.open, &a.page.Jobs
	record := ""
	if job.ID != "" {
		record = job.Text()
	}
	session(record)
	p.Open, p.Name = job.ID, job.Name
	p.Undo, p.Redo = job.Now > 0, job.Now+1 < len(job.States)
	a.jobList()
}

// jobList reads the list of jobs if it is shown.
func (a *app) jobList() {
	p, w := &a.page.Jobs, &a.page.Words.Jobs
	if !a.page.State.Jobs {
		return
	}
	list, broken, later := a.jobs.shelf.List()
	p.List, p.Store = nil, ""
	for _, job := range list {
		p.List = append(p.List, view.Job{ID: job.ID, Name: job.Name, Area: job.Area,
			Date: a.date(job.Changed()), Picture: a.jobs.shelf.Picture(job.ID)})
	}
	if broken > 0 {
		p.Store = words.Fill(w.Broken, "n", strconv.Itoa(broken)) + " "
	}
	if later > 0 {
		p.Store += words.Fill(w.Later, "n", strconv.Itoa(later))
	}
	if _, ok := storage(); !ok {
		p.Store = w.Blocked
	}
	p.Suggested = words.Fill(w.Suggested, "date", a.date(now()))
}

func now() int64 { return int64(js.Global().Get("Date").Call("now").Float()) }

// date writes a moment as the person's calendar has it.
func (a *app) date(ms int64) string {
	lang := js.Global().Get("navigator").Get("language").String()
	if !strings.HasPrefix(lang, a.page.Words.Lang) {
		lang = a.page.Words.Lang
	}
	return js.Global().Get("Date").New(float64(ms)).Call("toLocaleDateString", lang, map[string]any{"day": "numeric", "month": "short"}).String()
}

// followed opens the link in the address bar, with its job.
func (a *app) followed() {
	if id := entryNow(); id != a.jobs.open.ID {
		a.saveJob()
		job, _ := a.jobs.shelf.Load(id)
		a.setJob(job)
	}
	a.do(state.Follow{Text: a.link()})
	if a.jobs.open.ID == "" {
		a.jobAttach()
		vecty.Rerender(a.page)
	}
}

// jobAttach opens the job that is just at the link that is shown. The example
// is not asked for by anyone, so it opens none.
func (a *app) jobAttach() {
	floor := state.Floor(a.page.State.Address())
	if floor == state.Floor(link.Demo) {
		return
	}
	list, _, _ := a.jobs.shelf.List()
	for _, job := range list {
		if state.Floor(job.Link()) == floor {
			a.setJob(job)
			a.address(state.Replace)
			vecty.Rerender(a.page)
			return
		}
	}
}

func (a *app) jobsFollow(before, next state.State) {
	j := &a.jobs
	if next.Jobs && !before.Jobs {
		a.jobList()
		a.persist("persisted")
	}
	if j.open.ID == "" || before.Address() == next.Address() || state.Floor(next.Address()) == state.Floor(j.open.Link()) {
		return
	}
	j.due = true
	a.page.Jobs.Undo = true
	if !a.page.Jobs.Elsewhere {
		a.page.Jobs.Notice = ""
	}
	j.turn++
	turn := j.turn
	const settled = 1000 // ms without a change
	later(settled, func() {
		if j.turn == turn && j.due {
			a.saveJob()
			vecty.Rerender(a.page)
		}
	})
}

// saveJob saves the floor that is shown if it was changed since.
func (a *app) saveJob() {
	j := &a.jobs
	if !j.due || j.open.ID == "" || a.page.Jobs.Elsewhere {
		return
	}
	j.due = false
	address := a.page.State.Address()
	if state.Floor(address) != state.Floor(j.open.Link()) {
		a.keepJob(j.open.With(address, now()))
	}
}

// keepJob saves a job and makes it the open one. What stands in the way is
// said.
func (a *app) keepJob(job shelf.Job) bool {
	j, p, w := &a.jobs, &a.page.Jobs, &a.page.Words.Jobs
	job.Area = 0
	for _, ring := range a.page.State.Plan.Room() {
		job.Area += ring.Area()
	}
	notice := ""
	saved, err := j.shelf.Save(job)
	if err == shelf.ErrGone {
		job.Count, notice = 0, w.Cleared
		saved, err = j.shelf.Save(job)
	}
	if err == nil {
		a.setJob(saved)
		p.Notice = notice
		later(0, func() { a.jobPicture(saved) })
		return true
	}
	p.Notice = w.Full
	if _, ok := storage(); !ok {
		p.Notice = w.Blocked
	}
	if err == shelf.ErrChanged {
		j.due, p.Elsewhere, p.Notice = true, true, w.Elsewhere
	}
	return false
}

// jobPicture keeps a small picture of the floor that is shown.
func (a *app) jobPicture(job shelf.Job) {
	f := a.floor
	if f.painter == nil || f.wide == 0 || a.jobs.open.ID != job.ID {
		return
	}
	const wide, high = 240, 180
	picture := a.pictureOf(wide, high, float64(f.scene.Orders), 0)
	f.wake() // for what of it is laid
	if picture.IsNull() {
		return
	}
	a.jobs.shelf.SetPicture(job.ID, picture.Call("toDataURL", "image/jpeg", 0.6).String())
	if a.page.State.Jobs {
		a.jobList()
		vecty.Rerender(a.page)
	}
}

// followJob takes over what was done to the open job elsewhere.
func (a *app) followJob(job shelf.Job) {
	changed := state.Floor(job.Link()) != state.Floor(a.page.State.Address())
	a.setJob(job)
	if changed {
		a.page.Jobs.Notice = a.page.Words.Jobs.Followed
		a.do(state.Bring{Text: job.Link(), Followed: true})
	}
	vecty.Rerender(a.page)
}

// jobElsewhere hears that another tab has changed the store.
func (a *app) jobElsewhere(e js.Value) {
	j, p, w := &a.jobs, &a.page.Jobs, &a.page.Words.Jobs
	a.jobList()
	defer vecty.Rerender(a.page)
	key := e.Get("key")
	if key.IsNull() || j.open.ID == "" {
		return // cleared: the next change keeps the job again
	}
	if id, ok := shelf.IDOf(key.String()); !ok || id != j.open.ID {
		return
	}
	job, err := j.shelf.Load(j.open.ID)
	switch {
	case err == shelf.ErrGone:
		a.setJob(shelf.Job{})
		p.Notice = w.Gone
		a.address(state.Replace)
	case err != nil || job.Count == j.open.Count:
	case j.due:
		p.Elsewhere, p.Notice = true, w.Elsewhere
	default:
		a.followJob(job)
	}
}

// persist asks the browser not to clear the store (persist), or whether it
// has promised that (persisted).
func (a *app) persist(method string) {
	p, w := &a.page.Jobs, &a.page.Words.Jobs
	p.Safe = w.Unsafe
	manager := js.Global().Get("navigator").Get("storage")
	if !manager.Truthy() || !manager.Get(method).Truthy() {
		return
	}
	promised(manager.Call(method), func(answer js.Value, ok bool) {
		if ok && answer.Truthy() {
			p.Safe = w.Safe
			vecty.Rerender(a.page)
		}
	})
}

// promised calls then once with what a promise comes to, and whether it was
// kept.
func promised(promise js.Value, then func(value js.Value, ok bool)) {
	var kept, broken js.Func
	once := func(ok bool) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			kept.Release()
			broken.Release()
			value := js.Undefined()
			if len(args) > 0 {
				value = args[0]
			}
			then(value, ok)
			return nil
		})
	}
	kept, broken = once(true), once(false)
	promise.Call("then", kept, broken)
}

func newJobID() string {
	random := js.Global().Get("Math").Call("random").Float()
	return strconv.FormatInt(now(), 36) + "-" + strconv.FormatInt(int64(random*1e6), 36)
}

// jobNamed returns a kept job as it is now.
func (a *app) jobNamed(id string) (shelf.Job, bool) {
	if id == a.jobs.open.ID {
		a.saveJob()
		return a.jobs.open, id != ""
	}
	job, err := a.jobs.shelf.Load(id)
	return job, err == nil
}

func (a *app) jobsDo(name, arg string, e js.Value) bool {
	j, p, w := &a.jobs, &a.page.Jobs, &a.page.Words.Jobs
	switch name {
	case "jobs":
		a.do(state.OpenJobs{Open: !a.page.State.Jobs})
		return true
	case "handing":
		p.Shared = arg == "share"
	case "job-keep":
		a.keepShown()
	case "job-open":
		if job, ok := a.jobNamed(arg); ok {
			a.saveJob()
			a.setJob(job)
			a.do(state.Take{Text: "#" + job.Link()})
			a.do(state.OpenJobs{})
			a.address(state.Replace)
			if stage, ok := a.element("stage"); ok {
				stage.Call("focus")
			}
		}
	case "job-step":
		by, _ := strconv.Atoi(arg)
		a.jobStep(by)
	case "job-rename":
		job, ok := a.jobNamed(arg)
		named := shelf.Named(e.Get("target").Get("value").String())
		if e.Get("type").String() != "change" || !ok || named == "" || named == job.Name {
			return true
		}
		job.Name = named
		a.changeJob(job)
	case "job-copy":
		if job, ok := a.jobNamed(arg); ok {
			picture := j.shelf.Picture(arg)
			job.ID, job.Count = newJobID(), 0
			job.Name = shelf.Named(words.Fill(w.Copied, "name", job.Name))
			a.changeJob(job)
			j.shelf.SetPicture(job.ID, picture)
		}
	case "job-delete":
		if job, ok := a.jobNamed(arg); ok {
			j.deleted, j.picture, p.Deleted = job, j.shelf.Picture(arg), job.Name
			j.shelf.Remove(arg)
			if arg == j.open.ID {
				a.setJob(shelf.Job{})
				a.address(state.Replace)
			}
		}
	case "job-back":
		j.deleted.Count = 0
		if _, err := j.shelf.Save(j.deleted); err != nil {
			p.Notice = w.Full
			break
		}
		j.shelf.SetPicture(j.deleted.ID, j.picture)
		p.Deleted = ""
		if j.open.ID == "" {
			a.jobAttach()
		}
	case "job-take":
		if job, err := j.shelf.Load(j.open.ID); err == nil {
			a.setJob(job)
			a.do(state.Bring{Text: job.Link()})
		}
	case "job-beside":
		job := j.open.With(a.page.State.Address(), now())
		job.ID, job.Count = newJobID(), 0
		job.Name = shelf.Named(words.Fill(w.Copied, "name", job.Name))
		if a.keepJob(job) {
			a.address(state.Replace)
		}
	case "job-export", "job-share":
		a.exportJobs(arg, name == "job-share")
	case "job-import":
		if file := e.Get("target").Get("files").Index(0); e.Get("type").String() == "change" && file.Truthy() {
			a.bringIn(file)
		}
		return true
	default:
		return false
	}
	a.jobList()
	vecty.Rerender(a.page)
	return true
}

// changeJob saves a job that need not be the open one.
func (a *app) changeJob(job shelf.Job) {
	if job.ID == a.jobs.open.ID {
		a.keepJob(job)
	} else if _, err := a.jobs.shelf.Save(job); err != nil {
		a.page.Jobs.Notice = a.page.Words.Jobs.Full
	}
}

// keepShown keeps the floor that is shown as a job of its own.
func (a *app) keepShown() {
	field, ok := a.element("job-name")
	if !ok {
		return
	}
	a.saveJob()
	name := shelf.Named(field.Get("value").String())
	if name == "" {
		name = a.page.Jobs.Suggested
	}
	list, _, _ := a.jobs.shelf.List()
	if a.keepJob(shelf.Job{ID: newJobID(), Name: name}.With(a.page.State.Address(), now())) {
		a.address(state.Replace)
		if len(list) == 0 {
			a.persist("persist")
		}
	}
}

// jobStep goes to an earlier or later state of the open job.
func (a *app) jobStep(by int) {
	a.saveJob()
	if next, ok := a.jobs.open.Step(by); ok && !a.page.Jobs.Elsewhere && a.keepJob(next) {
		a.do(state.Bring{Text: next.Link()})
	}
}

// jobsKey does what a key means to the jobs, and says whether it means
// anything.
func (a *app) jobsKey(e js.Value) bool {
	target, key := e.Get("target"), e.Get("key").String()
	switch target.Get("tagName").String() {
	case "INPUT", "TEXTAREA", "SELECT":
		if key == "Enter" && target.Get("id").String() == "job-name" {
			a.jobsDo("job-keep", "", e)
			return true
		}
		return false
	}
	if (key != "z" && key != "Z") || !e.Get("ctrlKey").Bool() && !e.Get("metaKey").Bool() || e.Get("altKey").Bool() || a.jobs.open.ID == "" {
		return false
	}
	by := "-1"
	if e.Get("shiftKey").Bool() {
		by = "1"
	}
	return a.jobsDo("job-step", by, e)
}

// jobsSaid says what came of a file.
func (a *app) jobsSaid(text string) {
	if said, ok := a.element("jobs-said"); ok {
		said.Set("textContent", text)
	}
}

// askJobs asks the desk about a file of jobs.
func (a *app) askJobs(what string, then func(text string)) {
	said, ok := a.element("jobs-said")
	if !ok {
		return
	}
	said.Get("dataset").Set("shows", "jobs")
	a.jobsSaid(a.page.Words.DeskWorks)
	a.desk.ask(what, question{element: "jobs-said", shows: "jobs", then: then})
}

// exportJobs hands over one job, or all, as a file.
func (a *app) exportJobs(id string, share bool) {
	a.saveJob()
	list, _, _ := a.jobs.shelf.List()
	if job, ok := a.jobNamed(id); ok {
		list = []shelf.Job{job}
	}
	a.askJobs("export "+shelf.Pack(list, a.jobs.shelf.Picture), func(text string) {
		a.hand(text, "application/json", "keelrow-jobs.json", share, a.jobsSaid)
	})
}

// hand saves a file, or passes it on where the browser can do that.
func (a *app) hand(text, kind, name string, share bool, said func(string)) {
	blob := js.Global().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	w := &a.page.Words.Jobs
	navigator := js.Global().Get("navigator")
	file := js.Global().Get("File").New([]any{blob}, name, map[string]any{"type": kind})
	what := map[string]any{"files": []any{file}}
	if share && navigator.Call("canShare", what).Bool() {
		said("")
		promised(navigator.Call("share", what), func(why js.Value, ok bool) {
			if !ok && why.Get("name").String() != "AbortError" { // a person may think better of it
				said(w.NotShared)
			}
		})
		return
	}
	a.save(blob, name)
	said(words.Fill(w.Saved, "name", name))
}

// shareLink passes the link on where the browser can do that, or copies it.
func (a *app) shareLink() {
	navigator := js.Global().Get("navigator")
	if !navigator.Get("share").Truthy() {
		a.copyLink()
		return
	}
	what := map[string]any{"title": "Keelrow", "url": a.home() + a.location.Get("hash").String()}
	promised(navigator.Call("share", what), func(why js.Value, ok bool) {
		if !ok && why.Get("name").String() != "AbortError" {
			a.copyLink()
		}
	})
}

// bringIn reads a file of jobs and keeps them.
func (a *app) bringIn(file js.Value) {
	w := &a.page.Words.Jobs
	const most = 4 << 20 // as the desk has it
	if file.Get("size").Int() > most {
		a.jobsSaid(w.TooLarge)
		return
	}
	promised(file.Call("text"), func(text js.Value, ok bool) {
		if !ok {
			a.jobsSaid(w.TooLarge)
			return
		}
		a.askJobs("import "+text.String(), func(answer string) {
			report, packed, _ := strings.Cut(answer, "\n\n")
			var count [3]int
			some, full := false, ""
			shelf.Unpack(packed, func(job shelf.Job, picture string) {
				taken, err := a.jobs.shelf.Take(job, picture, w.Copied)
				some = true
				if err != nil {
					full = w.Full
					return
				}
				count[taken]++
			})
			if some {
				n := func(t shelf.Taken) string { return strconv.Itoa(count[t]) }
				report = words.Fill(w.Brought, "added", n(shelf.Added), "known", n(shelf.Known), "beside", n(shelf.Beside)) + "\n" + report + full
			}
			a.jobsSaid(report)
			if input, ok := a.element("job-file"); ok {
				input.Set("value", "") // so that the same file can be chosen again
			}
			a.jobList()
			vecty.Rerender(a.page)
		})
	})
}
