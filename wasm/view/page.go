package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/wasm/state"
	"keelrow/wasm/words"
)

// Page is the whole page. It is rendered once for each action; what changes
// with every frame (the canvas, the viewBox of the lines, the fill of the
// ruler, the counter) is written past it.
type Page struct {
	vecty.Core
	State   state.State
	Words   *words.Catalogue
	Keys    bool   // the list of keys is open
	Wall    string // whose own inputs are open, on the Measure stage
	Copied  string // what came of copying the link, for a while
	Painter string // a sentence about the painter, if it is not the best one
	Offline string // what the device keeps: nothing yet, "ready", or "update" when a new version waits
	Version string // of the page that it keeps
	Site    Site
	Show    Show
	Jobs    Jobs
}

func (p *Page) Render() vecty.ComponentOrHTML {
	w, s := p.Words, &p.State
	return elem.Div(
		vecty.Markup(prop.ID("app"), vecty.Class("page"), vecty.Attribute("data-stage", s.View.Stage),
			vecty.Attribute("data-face", s.View.Face), vecty.Attribute("data-standing", strconv.FormatBool(s.View.Stand.In)), vecty.Attribute("lang", w.Lang)),
		elem.Anchor(vecty.Markup(vecty.Class("skip"), prop.Href("#stage"), vecty.Attribute("data-do", "skip")), vecty.Text(w.SkipToStage)),
		p.masthead(),
		p.floor(),
		p.player(),
		p.nav(),
		elem.Main(
			vecty.Markup(prop.ID("stage"), vecty.Class("stage"), vecty.Attribute("tabindex", "-1"), vecty.Attribute("aria-labelledby", "stage-title")),
			p.jobLine(),
			p.notes(),
			p.open(),
		),
		p.face(),
		p.keys(),
	)
}

func (p *Page) masthead() *vecty.HTML {
	w := p.Words
	return elem.Header(
		vecty.Markup(vecty.Class("masthead")),
		elem.Heading1(markup("name", nil), vecty.Text("Keelrow")),
		elem.Span(markup("copied", attrs{"role", "status", "id", "copied"}), vecty.Text(p.Copied)),
		elem.Span(vecty.Markup(vecty.Class("offline"), vecty.Attribute("title", words.Fill(w.Offline.Version, "n", p.Version)),
			vecty.Property("hidden", p.Offline != "ready")), vecty.Text(w.Offline.Works)),
		p.newVersion("quiet offline"),
		button("face", "show", "quiet", w.ToShow),
		button("face", "lesson", "quiet", w.ToLesson),
		button("sheets", "", "quiet", w.Sheets.Title, vecty.Markup(vecty.Attribute("aria-expanded", strconv.FormatBool(p.State.Sheets.Open)))),
		button("jobs", "", "quiet", w.Jobs.Title, vecty.Markup(vecty.Attribute("aria-expanded", strconv.FormatBool(p.State.Jobs)))),
		button("copy", "", "quiet", w.ShareLink),
		button("keys", "", "quiet keys-button", w.Keys, vecty.Markup(vecty.Attribute("aria-expanded", strconv.FormatBool(p.Keys)))),
	)
}

func (p *Page) newVersion(class string) *vecty.HTML {
	return button("new-version", "", class, p.Words.Offline.Renew, vecty.Markup(vecty.Property("hidden", p.Offline != "update")))
}

// floor is the frame of the picture. The canvas is put into #painting by the
// page; nothing here may give that element children.
func (p *Page) floor() *vecty.HTML {
	w, s := p.Words, &p.State
	label := words.Fill(w.FloorLabel, "blocks", strconv.Itoa(s.Blocks()), "rows", strconv.Itoa(len(s.Rows)))
	return elem.Div(
		vecty.Markup(prop.ID("floor"), vecty.Class("floor"), vecty.Attribute("data-stage", s.View.Stage),
			vecty.Attribute("data-done", strconv.FormatBool(int(s.Laid) >= s.Blocks()))),
		elem.Div(vecty.Markup(prop.ID("painting"), vecty.Class("painting"), vecty.Attribute("role", "img"), vecty.Attribute("aria-label", label))),
		elem.Div(vecty.Markup(prop.ID("beside"), vecty.Class("painting", "beside"), vecty.Property("hidden", !p.Show.Divided))),
		div("overlay-box", &overlay{Plan: s.Plan, Show: s.View.Show, Words: w}),
		elem.Div(
			vecty.Markup(vecty.Class("tools"), vecty.Attribute("role", "group"), vecty.Attribute("aria-label", w.Tools)),
			button("zoom", "1", "", w.ZoomIn), button("zoom", "-1", "", w.ZoomOut), button("fit", "", "", w.Fit)),
		elem.Paragraph(vecty.Markup(vecty.Class("painter-note"), vecty.Property("hidden", p.Painter == "")), vecty.Text(p.Painter)),
	)
}

func (p *Page) player() *vecty.HTML {
	w, s := p.Words, &p.State
	play, label := "play", w.Play
	if s.Playing {
		play, label = "pause", w.Pause
	}
	return elem.Div(
		vecty.Markup(vecty.Class("ruler"), vecty.Attribute("role", "group"), vecty.Attribute("aria-label", w.Player)),
		div("ruler-line", &ruler{Plan: s.Plan, Rows: s.Rows, Words: w}),
		div("player",
			button(play, "", "primary play", label),
			step("step-row", "-1", w.RowLess, w.RowBack), step("step-block", "-1", w.BlockLess, w.BlockBack),
			step("step-block", "1", w.BlockMore, w.BlockOn), step("step-row", "1", w.RowMore, w.RowOn),
			// Both are filled in by the page as the laying goes on.
			elem.Span(markup("count", attrs{"id", "laid-count"})),
			elem.Span(markup("row-name", attrs{"id", "laid-row"})),
			p.pace(),
		),
	)
}

// step is a button with a short text and the whole of what it does as its
// name.
func step(do, arg, short, name string) *vecty.HTML {
	return elem.Button(markup("step", attrs{"type", "button", "data-do", do, "data-arg", arg, "aria-label", name, "title", name}), vecty.Text(short))
}

// paces is the speeds offered, in blocks a second.
var paces = [...]string{"1", "3", "12", "40", "150", "600"}

func (p *Page) pace() *vecty.HTML {
	w := p.Words
	now := strconv.FormatFloat(p.State.View.Speed, 'f', -1, 64)
	options := []vecty.MarkupOrChild{vecty.Markup(
		prop.ID("pace"), prop.Value(now), vecty.Attribute("data-do", "pace"), vecty.Attribute("aria-label", w.Speed))}
	offered := paces[:]
	known := false
	for _, o := range offered {
		known = known || o == now
	}
	if !known {
		offered = append([]string{now}, offered...)
	}
	for _, o := range offered {
		options = append(options, elem.Option(
			vecty.Markup(prop.Value(o), vecty.Property("selected", o == now)), vecty.Text(words.Fill(w.SpeedValue, "n", o))))
	}
	return elem.Select(options...)
}

func (p *Page) nav() *vecty.HTML {
	w := p.Words
	row := []vecty.MarkupOrChild{markup("stages", attrs{"aria-label", w.Stages})}
	for _, o := range p.stages() {
		current := "false"
		if o.value == p.State.View.Stage && !p.State.Sheets.Open && !p.State.Jobs {
			current = "step"
		}
		row = append(row, elem.Button(
			markup("", attrs{"type", "button", "data-do", "stage", "data-arg", o.value, "aria-current", current}),
			vecty.Text(o.label)))
	}
	return elem.Navigation(row...)
}

// stages is the stages in the order of the work.
func (p *Page) stages() []option {
	w := p.Words
	return []option{{"measure", w.Measure}, {"choose", w.Choose}, {"strike", w.Strike}, {"lay", w.Lay}}
}

// open is the stage that is open, or the sheets in its place.
func (p *Page) open() *vecty.HTML {
	if p.State.Sheets.Open {
		return p.sheets()
	}
	if p.State.Jobs {
		return p.jobs()
	}
	return p.stage(p.State.View.Stage)
}

func (p *Page) stage(name string) *vecty.HTML {
	w := p.Words
	title, lead := w.Measure, w.MeasureLead
	body := p.measure
	switch name {
	case "choose":
		title, lead, body = w.Choose, w.ChooseLead, p.choose
	case "strike":
		title, lead, body = w.Strike, w.StrikeLead, p.strike
	case "lay":
		title, lead, body = w.Lay, w.LayLead, p.lay
	}
	return elem.Div(
		vecty.Markup(vecty.Key(name), vecty.Class("stage-body")),
		elem.Heading2(vecty.Markup(prop.ID("stage-title")), vecty.Text(title)),
		paragraph("lead", lead),
		body(),
		// On a phone the masthead has no room for it.
		elem.Div(vecty.Markup(vecty.Class("offline-foot"), vecty.Property("hidden", name != "measure" || p.Offline == "")),
			paragraph("", w.Offline.Works+". "+words.Fill(w.Offline.Version, "n", p.Version)+"."),
			p.newVersion("")),
	)
}

// notes is what is to be said of the whole link, and problems of keys whose
// inputs are on another stage.
func (p *Page) notes() *vecty.HTML {
	w, s := p.Words, &p.State
	list := vecty.List{}
	if s.Failure != "" {
		list = append(list, paragraph("failure", words.Fill(w.Failed, "what", s.Failure)))
	}
	for _, text := range s.Notes {
		list = append(list, paragraph("", text))
	}
	for _, text := range s.Elsewhere(s.View.Stage) {
		list = append(list, paragraph("problem", text))
	}
	return elem.Div(vecty.Markup(vecty.Class("note"), prop.ID("notes"), vecty.Attribute("role", "status"),
		vecty.Property("hidden", len(list) == 0)), list)
}

func (p *Page) keys() *vecty.HTML {
	w := p.Words
	list := []vecty.MarkupOrChild{}
	for _, k := range w.KeyList {
		if !p.Keys {
			break
		}
		list = append(list, fact(k[0], vecty.Text(k[1])))
	}
	return elem.Div(
		vecty.Markup(vecty.Class("keys"), prop.ID("keys"), vecty.Attribute("role", "dialog"),
			vecty.Attribute("aria-label", w.KeysTitle), vecty.Property("hidden", !p.Keys)),
		elem.Heading2(vecty.Text(w.KeysTitle)),
		elem.DescriptionList(list...),
		button("keys", "", "", w.KeysClose),
	)
}
