package view

import (
	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/wasm/words"
)

// Job is a kept job as it is listed.
type Job struct {
	ID, Name, Date string
	Area           float64
	Picture        string // a data address, or ""
}

// Jobs is what the page knows of the jobs kept on this device.
type Jobs struct {
	List       []Job
	Open, Name string // the job that is open in this tab; "" when none is
	Undo, Redo bool   // there is an earlier or a later state of it
	Elsewhere  bool   // it was changed in another tab and here
	Notice     string
	Deleted    string // the name of the job that was deleted last
	Suggested  string // a name for the floor that is shown
	Store      string // a sentence about the store, if anything is amiss
	Safe       string // whether the browser keeps them
	Shares     bool   // the browser passes on files
	Shared     bool   // and is to
}

// jobLine says above the stage which job is open, and what has become of it.
func (p *Page) jobLine() *vecty.HTML {
	w, j := &p.Words.Jobs, &p.Jobs
	return elem.Div(
		vecty.Markup(vecty.Class("job-line"), vecty.Property("hidden", j.Open == "" && j.Notice == "" && j.Deleted == "")),
		div("job-open",
			span("job-name", vecty.Text(j.Name)),
			elem.Button(vecty.Markup(prop.Disabled(!j.Undo), vecty.Property("hidden", j.Open == "")), markup("quiet", attrs{"type", "button", "data-do", "job-step", "data-arg", "-1"}), vecty.Text(w.Undo)),
			elem.Button(vecty.Markup(prop.Disabled(!j.Redo), vecty.Property("hidden", j.Open == "")), markup("quiet", attrs{"type", "button", "data-do", "job-step", "data-arg", "1"}), vecty.Text(w.Redo)),
		),
		elem.Div(vecty.Markup(vecty.Class("note", "job-notice"), vecty.Attribute("role", "status"), vecty.Property("hidden", j.Notice == "")),
			paragraph("", j.Notice),
			elem.Div(vecty.Markup(vecty.Class("buttons"), vecty.Property("hidden", !j.Elsewhere)),
				button("job-take", "", "", w.TakeThat), button("job-beside", "", "", w.KeepCopy))),
		elem.Div(vecty.Markup(vecty.Class("note", "job-deleted"), vecty.Attribute("role", "status"), vecty.Property("hidden", j.Deleted == "")),
			paragraph("", words.Fill(w.Deleted, "name", j.Deleted)),
			button("job-back", "", "", w.PutBack)),
	)
}

// jobs is the jobs kept on this device, in place of the stage.
func (p *Page) jobs() *vecty.HTML {
	w, j := &p.Words.Jobs, &p.Jobs
	keep := w.Keep
	if j.Open != "" {
		keep = w.KeepNew
	}
	list := []vecty.MarkupOrChild{markup("jobs", nil)}
	for _, job := range j.List {
		list = append(list, p.job(job))
	}
	some := len(j.List) > 0
	return elem.Div(
		vecty.Markup(vecty.Key("jobs"), vecty.Class("stage-body")),
		elem.Heading2(vecty.Markup(prop.ID("stage-title")), vecty.Text(w.Title)),
		paragraph("lead", w.Lead),
		elem.Paragraph(vecty.Markup(vecty.Class("note", "job-store"), vecty.Attribute("role", "status"), vecty.Property("hidden", j.Store == "")), vecty.Text(j.Store)),
		div("field job-keep",
			elem.Label(vecty.Markup(prop.For("job-name")), vecty.Text(w.Name)),
			elem.Input(markup("", attrs{"id", "job-name", "type", "text", "value", j.Suggested, "maxlength", "80", "autocomplete", "off"})),
			button("job-keep", "", "primary", keep)),
		section(w.Kept,
			elem.Paragraph(vecty.Markup(vecty.Class("hint"), vecty.Property("hidden", some)), vecty.Text(w.None)),
			elem.UnorderedList(list...),
			elem.Paragraph(vecty.Markup(vecty.Class("hint"), vecty.Property("hidden", !some)), vecty.Text(j.Safe+" "+w.Private))),
		section(w.File,
			elem.Div(vecty.Markup(vecty.Class("files"), vecty.Property("hidden", !some)),
				button("job-export", "", "", w.ExportAll),
				elem.Div(vecty.Markup(vecty.Property("hidden", !j.Shares)), button("job-share", "", "", w.ShareAll))),
			div("files job-file",
				elem.Input(markup("visually-hidden", attrs{"id", "job-file", "type", "file", "accept", ".json,application/json", "data-do", "job-import"})),
				elem.Label(vecty.Markup(vecty.Class("button"), prop.For("job-file")), vecty.Text(w.Import))),
			paragraph("hint", w.FileHelp)),
		// What comes of it is written past the page.
		elem.Paragraph(markup("note", attrs{"id", "jobs-said", "role", "status"})),
		button("jobs", "", "", w.Close),
	)
}

// job is one job of the list: a tap opens it; the rest is behind "More".
func (p *Page) job(job Job) *vecty.HTML {
	w := &p.Words.Jobs
	facts := job.Date + " · " + p.area(job.Area)
	current := "false"
	if job.ID == p.Jobs.Open {
		facts, current = w.This+" · "+facts, "true"
	}
	id := "job-" + job.ID
	return elem.ListItem(
		vecty.Markup(vecty.Key(job.ID), prop.ID(id), vecty.Class("job")),
		elem.Button(
			markup("job-button", attrs{"type", "button", "data-do", "job-open", "data-arg", job.ID, "aria-current", current, "aria-label", words.Fill(w.Open, "name", job.Name), "aria-describedby", id + "-facts"}),
			elem.Image(vecty.Markup(vecty.Property("hidden", job.Picture == "")), markup("", attrs{"src", job.Picture, "alt", "", "width", "80", "height", "60"})),
			elem.Span(vecty.Markup(vecty.Class("job-none"), vecty.Property("hidden", job.Picture != ""))),
			span("job-text", span("job-name", vecty.Text(job.Name)), elem.Span(markup("hint", attrs{"id", id + "-facts"}), vecty.Text(facts)))),
		elem.Details(
			elem.Summary(vecty.Text(w.More)),
			div("field",
				elem.Label(vecty.Markup(prop.For(id+"-name")), vecty.Text(w.Name)),
				elem.Input(markup("", attrs{"id", id + "-name", "type", "text", "value", job.Name, "maxlength", "80", "autocomplete", "off", "data-do", "job-rename", "data-arg", job.ID}))),
			div("buttons",
				button("job-copy", job.ID, "", w.Copy), button("job-export", job.ID, "", w.Export), button("job-delete", job.ID, "", w.Delete))),
	)
}

// handing chooses what becomes of files, where there is a choice.
func (p *Page) handing() *vecty.HTML {
	w, now := &p.Words.Jobs, "save"
	if p.Jobs.Shared {
		now = "share"
	}
	return elem.Div(vecty.Markup(vecty.Property("hidden", !p.Jobs.Shares)),
		choice("handing", w.Files, now, option{"save", w.ToSave}, option{"share", w.ToShare}))
}
