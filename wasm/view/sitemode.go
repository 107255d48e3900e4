package view

import "github.com/hexops/vecty"

func (p *Page) siteMode() vecty.List {
	return vecty.List{button("face", "work", "", p.Words.ToWork)}
}
