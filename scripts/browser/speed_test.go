package browser

import (
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/page"
)

// TestMeasure prints how long the page takes from a keystroke to the picture.
// It judges nothing: a visitor's machine is another one, and this one may be
// busy.
func TestMeasure(t *testing.T) {
	if !*measure {
		t.Skip("run with -measure")
	}
	t.Log("milliseconds, median of 5")
	t.Logf("%7s  %-6s  %-6s  %9s  %9s  %9s  %9s", "blocks", "paint", "edit", "handler", "to frame", "to rest", "longest task")
	for _, room := range []string{"7000x7000", "22100x22100", "70000x70000"} {
		for _, paint := range []string{"webgl", "canvas"} {
			for _, edit := range []struct {
				name, stage, label string
				texts              [2]string
			}{{"gap", "measure", "Gap at the walls", [2]string{"13", "12"}}, {"shift", "strike", "across", [2]string{"20", "0"}}} {
				p := newPerson(t, desk)
				p.allows("NavigationEntryMarkedSkippable") // nobody presses a key here
				must(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watch})
				p.visit("#room=" + room + "&gap=12&block=70x350&paint=" + paint + "&stage=" + edit.stage)
				p.ready()
				_, blocks := p.laid()
				p.run(`() => atRest()`)
				var columns [4][]float64
				for i := range 6 {
					ms := eval[[]float64](p, `async (label, text) => {
						const field = person.find(label);
						field.focus();
						await atRest();
						longest = 0;
						const begin = performance.now();
						field.value = text;
						field.dispatchEvent(new Event('input', { bubbles: true }));
						const handled = performance.now();
						await new Promise(requestAnimationFrame);
						const framed = await new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = () => done(performance.now()); c.port2.postMessage(0); });
						await atRest();
						const rested = performance.now();
						await new Promise((r) => setTimeout(r, 60)); // long tasks are reported late
						return [handled - begin, framed - begin, rested - begin, longest];
					}`, edit.label, edit.texts[i%2])
					if i == 0 {
						continue // memory is being set aside
					}
					for c := range columns {
						columns[c] = append(columns[c], ms[c])
					}
				}
				row := fmt.Sprintf("%7d  %-6s  %-6s", blocks, paint, edit.name)
				for _, c := range columns {
					slices.Sort(c)
					row += fmt.Sprintf("  %9.1f", c[len(c)/2])
				}
				t.Log(row)
				p.leave()
			}
		}
	}
}

// watch keeps count of the frames that the page asks for and of tasks of more
// than 50 ms.
const watch = `(() => {
	const ask = window.requestAnimationFrame.bind(window);
	let waiting = 0;
	window.requestAnimationFrame = (f) => { waiting++; return ask((now) => { waiting--; f(now); }); };
	window.longest = 0;
	new PerformanceObserver((list) => { for (const e of list.getEntries()) longest = Math.max(longest, e.duration); }).observe({ type: 'longtask' });
	window.atRest = async () => { do { await new Promise((r) => ask(r)); } while (waiting > 0); };
})()`
