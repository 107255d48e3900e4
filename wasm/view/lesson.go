package view

import "github.com/hexops/vecty"

func (p *Page) lesson() vecty.List {
	return vecty.List{button("face", "work", "", p.Words.ToWork)}
}
