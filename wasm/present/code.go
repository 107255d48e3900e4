package present

import (
	"strconv"

	"rsc.io/qr"
)

// Code draws an address as a code that a camera reads (ISO/IEC 18004), or says
// why not: the largest has 40 sizes up and holds 2953 bytes.
func Code(address string, t *Texts) string {
	drawn, ok := code(address)
	if !ok {
		return `<p class="hint">` + t.NoCode + `</p>`
	}
	return drawn + `<p class="hint">` + t.CodeHint + `</p>`
}

func code(address string) (drawn string, ok bool) {
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		if c, err = qr.Encode(address, qr.L); err != nil {
			return "", false
		}
	}
	const quiet = 4 // modules of clear paper all round, as the standard asks for
	n := strconv.Itoa
	h := &html{}
	side := n(c.Size + 2*quiet)
	h.put(`<svg class="code" viewBox="0 0 `, side, " ", side, `" role="img" shape-rendering="crispEdges"><path fill="#fff" stroke="none" d="M0 0h`, side, "v", side, `H0z"/><path fill="#000" stroke="none" d="`)
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			run := 0
			for x+run < c.Size && c.Black(x+run, y) {
				run++
			}
			if run > 0 {
				h.put("M", n(x+quiet), " ", n(y+quiet), "h", n(run), "v1h-", n(run), "z")
				x += run
			}
		}
	}
	h.put(`"/></svg>`)
	return h.String(), true
}
