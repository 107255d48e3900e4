package browser

import "testing"

// TestShots puts pictures of the demo into artefacts/, for people to look at.
func TestShots(t *testing.T) {
	if !*shots {
		t.Skip("run with -shots")
	}
	screens := []struct {
		name string
		on   screen
	}{{"390", phone}, {"768", tablet}, {"1440", desk}}
	for _, s := range screens {
		for i, stage := range []string{"measure", "choose", "strike", "lay"} {
			for _, paint := range []string{"webgl", "canvas"} {
				if paint == "canvas" && i > 0 {
					continue // the stage does not change the floor
				}
				p := open(t, "#"+demo+"&paint="+paint+"&stage="+stage, s.on)
				p.shot(s.name + " " + stage + " " + paint)
				p.leave()
			}
		}
	}
	for _, more := range []struct {
		name, link string
		on         screen
	}{
		{"390 laying", "&stage=lay&laid=250", phone},
		{"1440 laying", "&stage=lay&laid=250", desk},
		{"1440 laying dark", "&stage=lay&laid=250", screen{wide: 1440, high: 900, dark: true}},
		{"390 strike dark", "&stage=strike", screen{wide: 390, high: 844, touch: true, dark: true}},
		{"844x390 measure", "&stage=measure", screen{wide: 844, high: 390, touch: true}},
		{"390 nothing laid", "&stage=lay&laid=0", phone},
	} {
		p := open(t, "#"+demo+"&paint=webgl"+more.link, more.on)
		p.shot(more.name)
		p.leave()
	}
	p := open(t, "#v=1&unit=in&fraction=32&room=14ftx12ft6in&gap=1/2in&border=5in&block=2-1/4inx9in&stage=strike&paint=webgl", desk)
	p.shot("1440 strike inches")
	p.leave()
	p = open(t, "#v=1&room=4200x3600&gap=12&pattern=chevron&block=90x600&mitre=52.5&stage=choose&paint=webgl", tablet)
	p.shot("768 choose chevron")
	p.leave()
	p = open(t, "#v=1&room=4200x36&bolck=70x350&gap=9000&strands=5&stage=choose&paint=webgl", phone)
	p.shot("390 faulty link")
}
