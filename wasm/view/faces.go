package view

import (
	"github.com/hexops/vecty"
	"github.com/hexops/vecty/elem"
	"github.com/hexops/vecty/prop"
)

// face is what stands beside the floor on a face that is not the work.
func (p *Page) face() *vecty.HTML {
	var body vecty.List
	switch p.State.View.Face {
	case "site":
		body = p.siteMode()
	case "show":
		body = p.show()
	case "lesson":
		body = p.lesson()
	}
	return elem.Aside(
		vecty.Markup(prop.ID("face"), vecty.Class("face"), vecty.Property("hidden", body == nil)),
		body,
	)
}
