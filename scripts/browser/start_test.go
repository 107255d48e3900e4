package browser

import "testing"

// demo is the job shown to someone without a link.
const demo = "v=1&unit=mm" +
	"&room=0,0;5200,0;5190,4120;3300,4115;3300,3700;1900,3700;1900,4105;10,4100" +
	"&gap=12&border=110&pattern=herringbone&block=80x480&strands=1&axis=0"

func TestDemo(t *testing.T) {
	p := open(t, "", desk)
	same(p, "link", p.link(), demo)
	if n, all := p.laid(); n != all || all == 0 {
		t.Errorf("the demo shows %d of %d blocks", n, all)
	}
}
