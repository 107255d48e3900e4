package browser

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
)

const sheetsJob = "unit=mm&room=4200x3600&gap=12&border=100&block=70x350"

// printed presses Print and returns the sheets as a file the browser's own
// printing gives.
func (p *person) printed() string {
	p.t.Helper()
	p.run(`() => { window.asked = 0; window.print = () => window.asked++; }`)
	p.click("Print")
	p.wait("the sheets to be handed to the printer", `() => window.asked === 1`)
	own := true
	result := must(p, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &own})
	path := filepath.Join(p.t.TempDir(), "sheets.pdf")
	if err := os.WriteFile(path, result.Data, 0o644); err != nil {
		p.t.Fatal(err)
	}
	return path
}

// poppler runs one of poppler's tools, with which the sheets are read back.
func poppler(t *testing.T, tool string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(tool); err != nil {
		t.Fatalf("%s is not on the path; printed sheets are read back with it. Install it (on Debian and Ubuntu: apt-get install poppler-utils) and run this again.", tool)
	}
	out, err := exec.Command(tool, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", tool, err, out)
	}
	return string(out)
}

// pagesOf returns the text of every page of a file.
func pagesOf(t *testing.T, path string) []string {
	t.Helper()
	text := poppler(t, "pdftotext", "-layout", path, "-")
	return strings.Split(strings.TrimSuffix(text, "\f"), "\f")
}

// Paper sizes in points of 1/72 in: A4 is 210 by 297 mm (ISO 216), Letter 8.5
// by 11 in (ANSI Y14.1, size A).
var papers = []struct {
	label      string
	wide, high float64
}{
	{"A4", 210 / 25.4 * 72, 297 / 25.4 * 72},
	{"Letter", 8.5 * 72, 11 * 72},
}

func TestSheetsArePrinted(t *testing.T) {
	for _, paper := range papers {
		p := open(t, "#"+sheetsJob+"&stage=strike", desk)
		p.click("Sheets")
		if b := p.box("#floor"); b.right-b.left < 600 {
			t.Errorf("beside the sheets the floor is %.0f wide", b.right-b.left)
		}
		p.click(paper.label)
		path := p.printed()
		pages := pagesOf(t, path)
		for i, text := range pages {
			if want := fmt.Sprintf("Sheet %d of %d", i+1, len(pages)); !strings.Contains(text, want) {
				t.Errorf("%s: page %d does not say %q:\n%s", paper.label, i+1, want, text)
			}
			if !strings.Contains(text, "20") || !strings.Contains(strings.ReplaceAll(strings.Join(strings.Fields(text), ""), " ", ""), sheetsJob) {
				t.Errorf("%s: page %d lacks the date or the link", paper.label, i+1)
			}
			if strings.Contains(text, "Share") || strings.Contains(text, "Play") {
				t.Errorf("%s: page %d has the page's controls on it", paper.label, i+1)
			}
		}
		sizes := regexp.MustCompile(`size: +([0-9.]+) x ([0-9.]+) pts`).FindAllStringSubmatch(poppler(t, "pdfinfo", "-f", "1", "-l", "999", path), -1)
		if len(sizes) != len(pages) {
			t.Errorf("%s: %d sizes of %d pages", paper.label, len(sizes), len(pages))
		}
		for i, s := range sizes {
			wide, _ := strconv.ParseFloat(s[1], 64)
			high, _ := strconv.ParseFloat(s[2], 64)
			if math.Abs(wide-paper.wide) > 1 || math.Abs(high-paper.high) > 1 {
				t.Errorf("%s: page %d is %.1f by %.1f pt, want %.1f by %.1f", paper.label, i+1, wide, high, paper.wide, paper.high)
			}
		}
		all := strings.Join(strings.Fields(strings.Join(pages, " ")), " ")
		for _, want := range []string{"Survey", "Striking", "Laying list", "Cut list", "Border strips",
			// The largest 3-4-5 in whole hundreds of mm on 4200 by 3600:
			// ten times 400 and 300, since eleven times is 4400.
			"4000 mm along AB", "3000 mm along", "5000 mm apart",
			// The centre line runs up the middle of the wall.
			"2100 mm from A", "1800 mm from",
			// Step of 70 mm blocks: 70√2 = 98.99; interval 350/√2 = 247.49.
			"99 mm", "(98.99 mm)", "(247.49 mm)",
			// The pair of lines of the spine's seam: 2100 ∓ 70√2/4 = 2075.25, 2124.75.
			"2075 mm strong by 0.3", "2125 mm shy by 0.3",
		} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no sheet says %q", paper.label, want)
			}
		}
		p.leave()
	}
}

// The sheets hold what they say without colour: everything printed is black,
// white or grey, and lines differ by their dashes.
func TestSheetsAreBlackAndWhite(t *testing.T) {
	p := open(t, "#"+sheetsJob, screen{wide: 1440, high: 900, dark: true})
	p.click("Sheets")
	path := p.printed()
	prefix := filepath.Join(t.TempDir(), "page")
	poppler(t, "pdftoppm", "-r", "50", path, prefix)
	files, _ := filepath.Glob(prefix + "*.ppm")
	if len(files) == 0 {
		t.Fatal("no pictures of the pages")
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var wide, high, most int
		if _, err := fmt.Sscanf(string(data[:40]), "P6\n%d %d\n%d", &wide, &high, &most); err != nil {
			t.Fatal(err)
		}
		dots := data[len(data)-3*wide*high:]
		dark := 0
		for i := 0; i < len(dots); i += 3 {
			low, top := min(dots[i], dots[i+1], dots[i+2]), max(dots[i], dots[i+1], dots[i+2])
			if top-low > 6 {
				t.Fatalf("%s has a dot of colour %v", filepath.Base(file), dots[i:i+3])
			}
			if low < 128 {
				dark++
			}
		}
		if share := float64(dark) / float64(wide*high); share < 0.001 || share > 0.15 {
			t.Errorf("%s: %.4f of it is dark, for ink on white", filepath.Base(file), share)
		}
	}
	dashes := eval[[]string](p, `() => {
		return ['centre', 'working', 'diagonal', 'field'].map((c) => [...document.styleSheets].filter((s) => s.href && s.href.includes('sheets'))
			.flatMap((s) => [...s.cssRules]).flatMap((r) => [...(r.cssRules || [])]).filter((r) => r.selectorText && r.selectorText.endsWith('.' + c) && r.selectorText.startsWith('.sheet'))
			.map((r) => r.style.strokeDasharray).join());
	}`)
	slices.Sort(dashes)
	if len(slices.Compact(dashes)) != 4 {
		t.Errorf("dashes of the four kinds of line: %q", dashes)
	}
}

// Nothing is cut off: whatever a sheet holds ends above its foot and left of
// its edge.
func TestSheetsHoldWhatIsOnThem(t *testing.T) {
	for _, job := range []string{
		sheetsJob,
		"unit=in&fraction=64&room=0,0;14ft7-5/8in,0;14ft8-1/8in,12ft3/8in;9ft,12ft1/4in;9ft,10ft;5ft,10ft;5ft,12ft3/16in;1/8in,12ft&gap=1/2&border=5-1/8&block=2-1/4x13-7/16&axis=12.5&door=AB:2ft,2ft8in,Kitchen&hole=3ft,3ft;5ft,3ft;5ft,5ft;3ft,5ft",
		"room=6000x5000&gap=10&pattern=chevron&block=90x600&mitre=52.5&start=wall&line=door:1&door=AB:1000,900,A%20door%20with%20a%20very%20long%20name",
		"room=30000x12000&gap=15&block=90x600&axis=45&hole=9000,3000;9500,3000;9500,3500;9000,3500",
	} {
		for _, paper := range papers {
			p := open(t, "#"+job, desk)
			p.click("Sheets")
			p.click(paper.label)
			pages := len(pagesOf(t, p.printed()))
			must(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
			faults := eval[[]string](p, `() => {
				const out = [];
				const sheets = [...document.querySelectorAll('.sheet')];
				sheets.forEach((sheet, i) => {
					const frame = sheet.getBoundingClientRect(), body = sheet.querySelector('.body').getBoundingClientRect();
					for (const part of [...sheet.querySelectorAll('.body > *, td, th, .group > *, dl > *, header > *, footer')]) {
						const r = part.getBoundingClientRect();
						const within = part.closest('.body') ? body : frame;
						if (r.bottom > within.bottom + 1 || part.closest('.body') && part.scrollWidth > part.clientWidth + 1 && part.clientWidth > 0 || r.right > frame.right - 40) {
							out.push('sheet ' + (i + 1) + ' of ' + sheets.length + ': ' + part.tagName + ' "' + person.tidy(part.textContent).slice(0, 60) + '" ends at ' + r.right.toFixed(0) + ', ' + r.bottom.toFixed(0) + ' of ' + frame.right.toFixed(0) + ', ' + within.bottom.toFixed(0));
						}
					}
					for (const text of sheet.querySelectorAll('svg text')) {
						const r = text.getBoundingClientRect();
						if (r.right > frame.right - 20 || r.left < frame.left + 20) out.push('sheet ' + (i + 1) + ': label "' + text.textContent + '" leaves the paper');
					}
				});
				return out.slice(0, 6);
			}`)
			for _, fault := range faults {
				t.Errorf("%s on %s: %s", job, paper.label, fault)
			}
			small := eval[[]string](p, `() => [...document.querySelectorAll('.sheet :is(p, td, th, b, dt, dd, h2, h3, span, footer)')].filter((e) => e.textContent.trim() && parseFloat(getComputedStyle(e).fontSize) < 13.3)
				.map((e) => person.tidy(e.textContent).slice(0, 40)).slice(0, 3)`)
			for _, text := range small { // 10 pt are 13.33 CSS pixels
				t.Errorf("%s: set smaller than 10 pt: %q", job, text)
			}
			same(p, "sheets and pages", eval[int](p, `() => document.querySelectorAll('.sheet').length`), pages)
			p.leave()
		}
	}
}

// Boxes choose what is printed; sheets go when they no longer show the floor.
func TestSheetsAreChosen(t *testing.T) {
	p := open(t, "#"+sheetsJob, phone)
	p.click("Sheets")
	same(p, "title", p.text("#stage-title"), "Sheets")
	p.click("Survey")
	p.click("Laying list")
	p.click("Cut list")
	pages := pagesOf(t, p.printed())
	all := strings.Join(pages, "\n")
	if !strings.Contains(all, "Striking") || strings.Contains(all, "Laying list") || strings.Contains(all, "Survey") || strings.Contains(all, "Cut list") {
		t.Errorf("only the striking sheets were asked for, printed was:\n%s", all)
	}
	if p.shown(".sheets") {
		t.Error("the sheets are seen on the screen")
	}
	p.click("Striking")
	if !eval[bool](p, `() => person.find('Print').disabled`) {
		t.Error("with no sheet chosen there is something to print")
	}
	same(p, "sheets kept", eval[int](p, `() => document.querySelectorAll('.sheets').length`), 0)
	p.click("Striking")
	p.click("Back to the stage")
	same(p, "title", p.text("#stage-title"), "Measure")
	p.click("Sheets")
	p.click("Choose")
	same(p, "title", p.text("#stage-title"), "Choose")

	// Inch tapes have Letter before them.
	p.run(`(link) => { location.hash = link; }`, "#unit=in&room=14ftx12ft&block=3x15")
	p.rest()
	p.click("Sheets")
	if !eval[bool](p, `() => person.find('Letter').checked`) {
		t.Error("an inch tape does not go with Letter")
	}
	if all := strings.Join(pagesOf(t, p.printed()), "\n"); !strings.Contains(all, "14 ft 0 in") {
		t.Errorf("sheets in feet and inches:\n%s", all)
	}
}

// What a link says is text on a sheet, whatever it looks like.
func TestSheetsQuoteWhatALinkSays(t *testing.T) {
	p := open(t, "#"+sheetsJob+"&door=AB:600,900,%3Cimg%20src=x%20onerror=alert(1)%3E%26amp;", desk)
	p.click("Sheets")
	all := strings.Join(pagesOf(t, p.printed()), "\n")
	if !strings.Contains(all, "<img src=x onerror=alert(1)>&amp;") {
		t.Errorf("the doorway's name is not on the sheets as it was given:\n%s", all)
	}
	same(p, "pictures on the sheets", eval[int](p, `() => document.querySelectorAll('.sheets img').length`), 0)
}

// Every file comes down, is what scripts/plan prints, and opens.
func TestFilesAreSaved(t *testing.T) {
	p := open(t, "#"+sheetsJob, desk)
	dir := t.TempDir()
	must(p, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir})
	p.click("Sheets")
	for _, file := range []struct {
		label, name string
		args        []string
		opens       func(data string) error
	}{
		{"Drawing (SVG)", "keelrow-floor.svg", []string{"-format", "svg"}, opensXML},
		{"Drawing (DXF)", "keelrow-floor.dxf", []string{"-format", "dxf"}, func(data string) error {
			if !strings.HasPrefix(data, "999\r\n") || !strings.HasSuffix(data, "  0\r\nEOF\r\n") {
				return fmt.Errorf("it begins %q and ends %q", data[:10], data[len(data)-10:])
			}
			return nil
		}},
		{"Marks (CSV)", "keelrow-marks.csv", []string{"-format", "csv", "-what", "marks"}, opensCSV},
		{"Rows (CSV)", "keelrow-rows.csv", []string{"-format", "csv", "-what", "rows"}, opensCSV},
		{"Cuts (CSV)", "keelrow-cuts.csv", []string{"-format", "csv", "-what", "cuts"}, opensCSV},
		{"Everything (JSON)", "keelrow-floor.json", []string{"-format", "json"}, func(data string) error { var v map[string]any; return json.Unmarshal([]byte(data), &v) }},
	} {
		p.click(file.label)
		path := filepath.Join(dir, file.name)
		var data []byte
		p.until(file.name+" to come down", func() bool {
			var err error
			data, err = os.ReadFile(path)
			return err == nil && len(data) > 0
		})
		time.Sleep(50 * time.Millisecond) // the whole of it
		data, _ = os.ReadFile(path)
		if err := file.opens(string(data)); err != nil {
			t.Errorf("%s does not open: %v", file.name, err)
		}
		cmd := exec.Command("go", append(append([]string{"run", "./scripts/plan"}, file.args...), "#"+sheetsJob)...)
		cmd.Dir = p.h.root
		want, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		if string(want) != string(data) {
			t.Errorf("%s: the page saves %d bytes, scripts/plan prints %d others", file.name, len(data), len(want))
		}
		p.see("#sheets-said", file.name)
	}
}

func opensXML(data string) error {
	for d := xml.NewDecoder(strings.NewReader(data)); ; {
		if _, err := d.Token(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
	}
}

func opensCSV(data string) error {
	rows, err := csv.NewReader(strings.NewReader(data)).ReadAll()
	if err == nil && len(rows) < 5 {
		err = fmt.Errorf("%d records", len(rows))
	}
	return err
}

// The panel is as fit for eye and thumb as the stages are.
func TestSheetsPanel(t *testing.T) {
	for _, on := range []screen{phone, {wide: 320, high: 640, touch: true}, {wide: 390, high: 844, touch: true, dark: true}, desk} {
		p := open(t, "#"+sheetsJob, on)
		p.click("Sheets")
		p.run(`() => new Promise((r) => setTimeout(r, 200))`) // colours change over 160 ms
		for _, fault := range eval[[]string](p, contrast) {
			t.Errorf("dark %v, %d wide: %s", on.dark, on.wide, fault)
		}
		for _, fault := range eval[[]string](p, `() => person.all().filter((e) => !e.matches('.skip')).map((e) => {
			const box = e.type === 'radio' || e.type === 'checkbox' ? e.nextElementSibling : e, r = box.getBoundingClientRect();
			return !person.name(e) || r.height < 43.9 && e.getAttribute('role') !== 'slider' && innerWidth < 700 || r.right > innerWidth + 1 ? person.name(e) + ': ' + r.width.toFixed(0) + ' x ' + r.height.toFixed(0) : '';
		}).filter((s) => s)`) {
			t.Errorf("%d wide: %s", on.wide, fault)
		}
		if *shots {
			p.shot(fmt.Sprintf("%d sheets", on.wide))
		}
		p.leave()
	}
}
