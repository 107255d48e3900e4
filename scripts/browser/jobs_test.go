package browser

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const jobsLink = "#room=4200x3600&block=70x350&paint=canvas&stage=choose"

// openJobs opens a link where nothing is kept, with a script that runs before
// the page does.
func openJobs(t *testing.T, link, before string, on screen) *person {
	t.Helper()
	p := newPerson(t, on)
	// A tab that was shut in another test has kept its last change.
	p.visit("404.html")
	p.run(`() => { localStorage.clear(); }`)
	if before != "" {
		must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: before})
	}
	p.visit(link)
	p.ready()
	t.Cleanup(func() {
		if !p.left {
			try[bool](p, `() => { localStorage.clear(); return true; }`)
		}
	})
	return p
}

// keepJob keeps the floor that is shown under a name, with the panel open.
func (p *person) keepJob(name, button string) {
	p.t.Helper()
	p.typeInto("Name", name, ".job-keep")
	p.click(button)
	p.comes(".job-open", name)
	p.wait("the picture", `(name) => [...document.querySelectorAll('.job')].some((e) => e.textContent.includes(name) && e.querySelector('img').naturalWidth === 240)`, name)
}

// more opens what is behind "More" of the job of that name, and returns the
// job's place in the page.
func (p *person) more(name string) string {
	p.t.Helper()
	id := eval[string](p, `(name) => {
		const job = [...document.querySelectorAll('.job')].find((e) => person.tidy(e.querySelector('.job-name').textContent) === name);
		if (!job) throw new Error('no job is called ' + name);
		return '#' + CSS.escape(job.id);
	}`, name)
	if !eval[bool](p, `(id) => document.querySelector(id + ' details').open`, id) {
		p.click("More", id)
	}
	return id
}

func (p *person) jobNames() string {
	p.t.Helper()
	return eval[string](p, `() => [...document.querySelectorAll('.job .job-name')].map((e) => e.textContent).sort().join('|')`)
}

// saved waits until the open job has so many states.
func (p *person) saved(states int) {
	p.t.Helper()
	p.wait("the change to be kept", `(n) => (localStorage.getItem(Object.keys(localStorage).find((k) => k.startsWith('keelrow job '))).match(/^state /mg) || []).length === n`, states)
}

func (p *person) reload() {
	p.t.Helper()
	p.do(chromedp.Reload())
	p.ready()
}

func TestJobIsKept(t *testing.T) {
	p := openJobs(t, jobsLink, "", phone)
	p.click("Jobs")
	p.see(".stage", "No job is kept yet")
	same(p, "suggested", strings.HasPrefix(p.value("Name", ".job-keep"), "Floor, "), true)
	p.keepJob("Living room, 25 Nov", "Keep this job")
	p.see(".jobs", "15.12 m²") // 4.2 m by 3.6 m
	p.see(".jobs", "Open now")
	p.click("Choose")

	// Changes are kept as they are made, and can be stepped through.
	p.typeInto("Width", "80")
	p.saved(2)
	p.typeInto("Width", "90")
	p.reload() // at once: what is not kept yet is kept on leaving
	p.saved(3)
	p.see(".job-open", "Living room, 25 Nov")
	same(p, "block", p.key("block"), "90x350")
	p.click("Undo")
	same(p, "block after undo", p.key("block"), "80x350")
	p.click("Strike")
	p.run(`() => { document.activeElement.blur(); }`)
	p.undoKey(false)
	same(p, "block after the key", p.key("block"), "70x350")
	same(p, "stage", p.key("stage"), "strike")
	p.reload()
	same(p, "undo is at its end", eval[bool](p, `() => person.find('Undo').disabled`), true)
	p.click("Redo")
	p.run(`() => { document.activeElement.blur(); }`)
	p.undoKey(true)
	same(p, "block after redo", p.key("block"), "90x350")

	// A link from elsewhere opens no job, and Back comes back to it.
	p.run(`() => { location.hash = '#room=5000x4000&paint=canvas'; }`)
	p.wait("the job to be shut", `() => document.querySelector('.job-line').hidden`)
	p.typeInto("Width", "5100")
	p.run(`() => new Promise((r) => setTimeout(r, 1200))`)
	p.saved(3)
	p.do(chromedp.NavigateBack())
	p.do(chromedp.NavigateBack())
	p.comes(".job-open", "Living room, 25 Nov")
	same(p, "block", p.key("block"), "90x350")
	// The very link of a kept job opens it.
	p.visit("404.html")
	p.visit("#room=4200x3600&block=90x350&paint=canvas")
	p.ready()
	p.comes(".job-open", "Living room, 25 Nov")
}

func (p *person) undoKey(redo bool) {
	p.t.Helper()
	p.run(`(shift) => { document.body.dispatchEvent(new KeyboardEvent('keydown', { key: shift ? 'Z' : 'z', ctrlKey: true, shiftKey: shift, bubbles: true })); }`, redo)
	p.rest()
}

func TestJobsAreListed(t *testing.T) {
	p := openJobs(t, jobsLink, "", desk)
	p.click("Jobs")
	p.keepJob("Hall", "Keep this job")
	p.click("Choose")
	p.click("Double")
	p.saved(2)
	p.click("Jobs")
	p.enter("Name", ".job-keep")
	p.keys("Kitchen" + kb.Enter)
	p.comes(".job-open", "Kitchen")
	same(p, "names", p.jobNames(), "Hall|Kitchen")

	p.typeInto("Name", "Front hall", p.more("Hall"))
	p.keys(kb.Enter)
	p.wait("the new name", `() => document.querySelector('.jobs').textContent.includes('Front hall')`)
	p.click("Duplicate", p.more("Kitchen"))
	same(p, "names", p.jobNames(), "Front hall|Kitchen|Kitchen (copy)")
	p.click("Delete", p.more("Kitchen"))
	same(p, "names", p.jobNames(), "Front hall|Kitchen (copy)")
	p.see(".job-deleted", "“Kitchen” is deleted.")
	p.click("Put it back")
	same(p, "names", p.jobNames(), "Front hall|Kitchen|Kitchen (copy)")
	same(p, "pictures", eval[int](p, `() => [...document.querySelectorAll('.job img')].filter((e) => e.naturalWidth === 240).length`), 3)

	p.click("Open Front hall")
	same(p, "the panel", p.shown(".jobs"), false)
	p.see(".job-open", "Front hall")
	p.click("Undo")
	same(p, "strands", p.key("strands"), "")
}

// chooseFile hands a file to the field for one.
func (p *person) chooseFile(text string) {
	p.t.Helper()
	path := filepath.Join(p.t.TempDir(), "jobs.json")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		p.t.Fatal(err)
	}
	p.spot(`(selector) => { const e = person.one(selector); return [0, 0, person.control(e)]; }`, "#job-file")
	root := must(p, dom.GetDocument, dom.GetDocumentParams{})
	node := must(p, dom.QuerySelector, dom.QuerySelectorParams{NodeID: root.Root.NodeID, Selector: "#job-file"})
	must(p, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{path}, NodeID: node.NodeID})
}

// written keeps the text of files that the page makes instead of saving them.
const written = `(() => { const own = URL.createObjectURL; URL.createObjectURL = (blob) => { blob.text().then((t) => { window.made = t; }); return own.call(URL, blob); };
	HTMLAnchorElement.prototype.click = function () { window.madeName = this.download; }; })();`

func (p *person) made() string {
	p.t.Helper()
	p.wait("the file", `() => !!window.made`)
	return eval[string](p, `() => { const t = window.made; window.made = ''; return t; }`)
}

func TestJobsGoOutAndIn(t *testing.T) {
	p := openJobs(t, jobsLink, written, desk)
	p.click("Jobs")
	p.keepJob("Hall", "Keep this job")
	p.keepJob("Den", "Keep as another job")
	p.click("Save all as a file")
	all := p.made()
	same(p, "name", eval[string](p, `() => window.madeName`), "keelrow-jobs.json")
	p.comes("#jobs-said", "keelrow-jobs.json is saved.")
	var file struct {
		Version int `json:"keelrow-jobs"`
		Jobs    []struct {
			Name   string
			States []struct{ Link string }
		}
	}
	if err := json.Unmarshal([]byte(all), &file); err != nil || file.Version != 1 || len(file.Jobs) != 2 || file.Jobs[0].States[0].Link != strings.TrimPrefix(jobsLink, "#") {
		t.Fatalf("%v in\n%s", err, all)
	}
	p.click("Save as a file", p.more("Den"))
	if one := p.made(); strings.Contains(one, "Hall") || !strings.Contains(one, "Den") {
		t.Errorf("the file of one job:\n%s", one)
	}

	// The same again makes no second copy.
	p.chooseFile(all)
	p.comes("#jobs-said", "Brought in: 0. Here already: 2. Kept beside as a copy: 0.")
	p.run(`() => { localStorage.clear(); }`)
	p.chooseFile(all)
	p.comes("#jobs-said", "Brought in: 2.")
	same(p, "names", p.jobNames(), "Den|Hall")
	same(p, "pictures", eval[int](p, `() => [...document.querySelectorAll('.job img')].filter((e) => e.getAttribute('src').startsWith('data:image/jpeg')).length`), 2)
	p.chooseFile(strings.ReplaceAll(all, "70x350", "75x350"))
	p.comes("#jobs-said", "Kept beside as a copy: 2.")
	same(p, "names", p.jobNames(), "Den|Den (copy)|Hall|Hall (copy)")

	// What is no such file is said, and nothing is lost by it.
	p.chooseFile("junk\n" + strings.Repeat("0123456789abcde\n", 2<<20/16))
	p.comes("#jobs-said", "This is no file of kept jobs: line 1 is not as such a file has it.")
	p.chooseFile(strings.Repeat("x", 5<<20))
	p.comes("#jobs-said", "at most 4 MB")
	p.chooseFile(`{"keelrow-jobs":1,"jobs":[{"id":"x","name":"Attic","states":[{"link":"gap=wide"}]},{"id":"y"}]}`)
	p.comes("#jobs-said", "Brought in: 1.")
	p.see("#jobs-said", "Job 1 (“Attic”): ")
	p.see("#jobs-said", "Job 2 is left out: it has no name.")
	// A file dropped on the page is brought in as well.
	p.click("Choose")
	p.run(`() => { const d = new DataTransfer(); d.items.add(new File(['{"keelrow-jobs":9}'], 'x.json'));
		document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: d, bubbles: true, cancelable: true })); }`)
	p.wait("the panel", `() => !!document.querySelector('#jobs-said')`)
	p.comes("#jobs-said", "This file is of version 9")
	same(p, "names", p.jobNames(), "Attic|Den|Den (copy)|Hall|Hall (copy)")
}

func TestStoreIsFullOrClosed(t *testing.T) {
	p := openJobs(t, jobsLink, "", desk)
	p.click("Jobs")
	p.keepJob("Hall", "Keep this job")
	p.run(`() => { // to the last byte
		for (let n = 1 << 22, i = 0; n > 0; n >>= 1) for (;;) { try { localStorage.setItem('other ' + i++, 'x'.repeat(n)); } catch { break; } }
	}`)
	p.click("Choose")
	// The picture gives way first.
	p.click("Double")
	p.saved(2)
	same(p, "pictures", eval[int](p, `() => Object.keys(localStorage).filter((k) => k.startsWith('keelrow picture')).length`), 0)
	p.run(`() => { for (let n = 1 << 14, i = 0; n > 0; n >>= 1) for (;;) { try { localStorage.setItem('more ' + i++, 'x'.repeat(n)); } catch { break; } } }`)
	p.click("Triple")
	p.comes(".job-notice", "There is no room left on this device")
	same(p, "strands", p.key("strands"), "3")
	p.saved(2)
	// With room again the next change is kept.
	p.run(`() => { for (const k of Object.keys(localStorage)) if (!k.startsWith('keelrow')) localStorage.removeItem(k); }`)
	p.click("Single")
	p.wait("the notice to go", `() => document.querySelector('.job-notice').hidden`)
	p.saved(3)

	// Cleared while open: kept again, and said.
	p.run(`() => { localStorage.clear(); }`)
	p.click("Double")
	p.comes(".job-notice", "The browser had cleared this job. It is kept again.")
	p.saved(4)
	// Cleared while it was shut.
	p.run(`() => { localStorage.clear(); }`)
	p.reload()
	p.comes(".job-notice", "The browser had cleared this job. It is kept again.")
	// A broken record harms only itself; one of a later version stays.
	p.run(`() => { localStorage.setItem('keelrow job b', 'keelrow-job 1\nid'); localStorage.setItem('keelrow job c', 'keelrow-job 7\n'); }`)
	p.click("Jobs")
	p.see(".job-store", "Kept jobs that cannot be read: 1.")
	p.see(".job-store", "Kept jobs of a later version of this page: 1.")
	same(p, "names", p.jobNames(), "Hall")
	p.run(`() => { localStorage.clear(); }`)
	p.leave()

	for _, name := range []string{"localStorage", "sessionStorage"} {
		p = openJobs(t, jobsLink, `Object.defineProperty(window, '`+name+`', { get() { throw new DOMException('closed', 'SecurityError'); } });`, desk)
		p.click("Jobs")
		if name == "localStorage" {
			p.see(".job-store", "its store is closed to this page. The link still holds the job.")
			p.click("Keep this job")
			p.comes(".job-notice", "lets the page keep nothing")
		} else {
			p.keepJob("Hall", "Keep this job")
		}
		p.click("Choose")
		p.click("Double")
		same(p, "strands", p.key("strands"), "2")
		try[bool](p, `() => { localStorage.clear(); return true; }`)
		p.leave()
	}
}

func TestJobInTwoTabs(t *testing.T) {
	p := openJobs(t, jobsLink, `(() => { const own = window.addEventListener; window.addEventListener = (name, hear, ...more) =>
		own.call(window, name, name === 'storage' ? (e) => window.deaf || hear(e) : hear, ...more); })();`, desk)
	p.click("Jobs")
	p.keepJob("Hall", "Keep this job")
	p.click("Choose")
	q := open(t, jobsLink, desk)
	q.comes(".job-open", "Hall")

	// The tab in which nothing is done shows what is done in the other.
	p.click("Double")
	q.comes(".job-notice", "Changed in another tab")
	same(q, "strands", q.key("strands"), "2")
	// Neither writes over what the other did in the meantime.
	// The one does not hear of the other here: it has to find out as it saves.
	records := `() => Object.entries(localStorage).filter(([k]) => k.startsWith('keelrow job ')).sort().join()`
	clash := func(here, there string) {
		t.Helper()
		p.run(`() => { window.deaf = true; }`)
		before := eval[string](q, records)
		q.click(there)
		q.wait("the change to be kept", `(before) => (`+records+`)() !== before`, before)
		p.click(here)
		p.comes(".job-notice", "This job was changed in another tab.")
	}
	clash("Triple", "Single")
	p.click("Take that one")
	same(p, "strands of that one", p.key("strands"), "1")
	clash("Triple", "Double")
	p.run(`() => { window.deaf = false; }`)
	p.click("Keep this one as a copy")
	p.see(".job-open", "Hall (copy)")
	same(p, "strands of this one", p.key("strands"), "3")
	q.wait("no more to be saved", `() => document.querySelector('.job-notice').hidden`)
	same(q, "strands there", q.key("strands"), "2")
	q.click("Jobs")
	same(q, "names", q.jobNames(), "Hall|Hall (copy)")
	q.click("Delete", q.more("Hall (copy)"))
	p.comes(".job-notice", "This job was deleted in another tab.")
	same(p, "strands", p.key("strands"), "3")
}

const shareStubs = `(() => { window.shared = [];
	navigator.canShare = (what) => !!what.files;
	navigator.share = async (what) => {
		window.shared.push(what.url || (what.files[0].name + ' ' + what.files[0].type + ' ' + (await what.files[0].text()).slice(0, 20)));
		if (window.refuse) throw new DOMException('no', window.refuse);
	}; })();`

func TestSharing(t *testing.T) {
	p := openJobs(t, jobsLink, shareStubs, phone)
	if _, err := chromedp.CallBrowser(p.ctx, browser.SetPermission, browser.SetPermissionParams{
		Permission: &browser.PermissionDescriptor{Name: "clipboard-write"}, Setting: browser.PermissionSettingGranted}); err != nil {
		t.Fatal(err)
	}
	last := func(want string) {
		t.Helper()
		p.wait(want+" to be shared", `(want) => (window.shared.at(-1) || '').startsWith(want)`, want)
	}
	p.click("Share")
	last(p.h.origin + "/" + jobsLink)
	p.run(`() => { window.refuse = 'AbortError'; }`)
	p.click("Share")
	same(p, "said", p.text("#copied"), "")
	p.run(`() => { window.refuse = 'NotAllowedError'; }`)
	p.click("Share") // copied instead
	p.wait("the page to say so", `() => person.text('#copied') === 'Link copied'`)
	p.run(`() => { window.refuse = ''; }`)

	p.click("Sheets")
	p.click("shared")
	p.click("Drawing (SVG)")
	last("keelrow-floor.svg image/svg+xml <")
	p.click("saved")
	p.click("Jobs")
	p.keepJob("Hall", "Keep this job")
	p.click("Share all")
	last("keelrow-jobs.json application/json {")
	p.run(`() => { window.refuse = 'NotAllowedError'; }`)
	p.click("Share all")
	p.comes("#jobs-said", "Save it instead.")
	p.click("Close")
}

// On a phone the masthead stays on one line, and nothing of the panel is
// wider than the screen.
func TestJobsFitThePhone(t *testing.T) {
	for _, on := range []screen{{wide: 360, high: 740, touch: true}, phone, tablet, desk, {wide: 390, high: 844, touch: true, dark: true}, {wide: 844, high: 390, touch: true}} {
		p := openJobs(t, jobsLink, shareStubs, on)
		if b := p.box(".masthead"); b.bottom-b.top > 60 {
			t.Errorf("%d wide: the masthead is %.0f high", on.wide, b.bottom-b.top)
		}
		p.click("Jobs")
		p.keepJob("Living room with the long bay window", "Keep this job")
		p.keepJob("Kitchen", "Keep as another job")
		p.more("Kitchen")
		for _, fault := range eval[[]string](p, `() => {
			const out = [];
			if (document.documentElement.scrollWidth > innerWidth) out.push('the page is ' + document.documentElement.scrollWidth + ' wide');
			for (const e of document.querySelectorAll('.masthead button, .job-line button, .stage-body :is(button, summary, .button, input:not([type=file]))')) {
				const r = e.getBoundingClientRect();
				if (!person.seen(e)) continue;
				if (r.width < 44 || r.height < 44) out.push(person.name(e) + ' is ' + r.width + ' by ' + r.height);
				if (r.right > innerWidth + 1) out.push(person.name(e) + ' ends at ' + r.right);
			}
			return out;
		}`) {
			t.Errorf("%d wide: %s", on.wide, fault)
		}
		if *shots {
			p.run(`() => { document.activeElement.blur(); document.querySelector('#stage-title').scrollIntoView({ block: 'center' }); }`)
			name := "jobs " + map[bool]string{true: "dark ", false: ""}[on.dark]
			p.shot(name + string(rune('a'+on.wide%26)) + " " + map[bool]string{true: "phone", false: "wide"}[on.wide < 400])
		}
		p.run(`() => { localStorage.clear(); }`)
		p.leave()
	}
}
