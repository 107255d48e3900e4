package view

import (
	"strconv"

	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"

	"keelrow/wasm/state"
)

// sheets is what there is to print and to take away, in place of the stage.
func (p *Page) sheets() *vecty.HTML {
	w, s := &p.Words.Sheets, &p.State
	boxes := []vecty.MarkupOrChild{markup("choice", nil), elem.Legend(vecty.Text(w.Which))}
	chosen := false
	for i, label := range [...]string{w.Survey, w.Striking, w.Laying, w.CutList} {
		n, on := strconv.Itoa(i), s.Sheets.Printed(i)
		chosen = chosen || on
		boxes = append(boxes, span("option",
			elem.Input(vecty.Markup(prop.ID("sheet-"+n), prop.Type(prop.TypeCheckbox), prop.Checked(on),
				vecty.Attribute("data-do", "sheet"), vecty.Attribute("data-arg", n))),
			elem.Label(vecty.Markup(prop.For("sheet-"+n)), vecty.Text(label))))
	}
	files := []vecty.MarkupOrChild{markup("files", nil)}
	for _, f := range [...]option{
		{"svg", w.SVG}, {"dxf", w.DXF}, {"marks.csv", w.MarksCSV}, {"rows.csv", w.RowsCSV}, {"cuts.csv", w.CutsCSV}, {"json", w.JSON},
	} {
		files = append(files, button("file", f.value, "", f.label))
	}
	return elem.Div(
		vecty.Markup(vecty.Key("sheets"), vecty.Class("stage-body")),
		elem.Heading2(vecty.Markup(prop.ID("stage-title")), vecty.Text(w.Title)),
		paragraph("lead", w.Lead),
		section(w.ToPrint,
			elem.FieldSet(boxes...),
			choice("paper", w.Paper, s.Paper(), option{"A4", w.A4}, option{"letter", w.Letter}),
			elem.Button(vecty.Markup(prop.Disabled(!chosen)), markup("primary", attrs{"type", "button", "data-do", "print"}), vecty.Text(w.Print)),
			paragraph("hint", w.PrintHelp)),
		section(w.Files,
			p.handing(),
			elem.Div(files...),
			paragraph("hint", w.FilesHelp),
			div("one-file", button("one-file", "", "", w.OneFile), paragraph("hint", w.OneFileHelp))),
		p.ownPage(),
		// What comes of it is written past the page.
		elem.Paragraph(markup("note", attrs{"id", "sheets-said", "role", "status"})),
		button("sheets", "", "", w.Close),
	)
}

// SheetsChosen returns the names of the sheets to print.
func (p *Page) SheetsChosen() (names []string) {
	for i, name := range state.SheetNames {
		if p.State.Sheets.Printed(i) {
			names = append(names, name)
		}
	}
	return names
}
