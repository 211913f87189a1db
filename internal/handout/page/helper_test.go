//go:build !race

package page_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"boothmock/internal/browser"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
)

// A helper sets up from the first step to the last, and what the steps took is a log that the rehearsal reads.
func TestAHelperSetsUp(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 360, 740, "")
	eval[any](o, `location.hash = '#setup'; 0`)
	next := `document.getElementById('step-next')`
	steps := 0
	for eval[string](o, next+`.textContent`) != "All done" {
		if steps++; steps > 20 {
			t.Fatal("the steps do not end")
		}
		if eval[bool](o, next+`.hidden`) { // a wait
			o.Do(chromedp.Click(chromedp.CSS("#turn button")))
			steps--
			continue
		}
		o.Do(chromedp.Click(chromedp.CSS("#step-next")))
		if steps == 1 {
			if n := eval[int](o, `[...document.querySelectorAll('.step')].filter((s) => s.offsetParent).length`); n != 1 {
				t.Errorf("%d steps are shown while one is done", n)
			}
		}
	}
	log := eval[string](o, `document.getElementById('minutes-text').value`)
	took, err := order.ReadTimes([]byte(log), "times.csv")
	if err != nil || len(took) == 0 {
		t.Errorf("the times cannot be read: %v\n%s", err, log)
	}
	if mine := eval[int](o, `[...document.querySelectorAll('.step')].filter((s) => s.dataset.who.split('|').includes('Odile')).length`); len(took) != mine || steps != mine+1 {
		t.Errorf("%d presses and %d times for %d steps", steps, len(took), mine)
	}
}

// Taking down is a list of its own: it is chosen, goes on after a reload, and leaves ticks and minutes of the set-up as they are.
func TestTakingDownIsAListOfItsOwn(t *testing.T) {
	v := hung(t)
	down := v.Lists[0]
	down.Which = order.Strike
	v.Lists = append(v.Lists, down)
	o := open(t, saved(t, write(t, v)), 360, 740, "")
	shown := func() string {
		return eval[string](o, `[...document.querySelectorAll('.list')].filter((l) => l.getClientRects().length).map((l) => l.dataset.which + ' ' + l.querySelectorAll('input:checked').length + ' ' + document.getElementById('clock-end').textContent.slice(0, 7)).join()`)
	}
	if got := shown(); got != "set-up 0 planned" {
		t.Errorf("it opens on %q", got)
	}
	o.Do(chromedp.Click(chromedp.CSS("#which input[value=strike]")))
	if got := shown(); got != "strike 0 planned" {
		t.Errorf("chosen is %q", got)
	}
	o.Do(chromedp.Click(chromedp.CSS("#step-next")), chromedp.Click(chromedp.CSS("#step-next")), chromedp.Reload())
	if got := shown(); got != "strike 1 done ab" {
		t.Errorf("after a reload: %q", got)
	}
	if got := eval[string](o, `document.getElementById('minutes-text').value.split('\n')[1]`); !strings.HasPrefix(got, "1,strike/"+string(down.Steps[0].ID)+",") {
		t.Errorf("the minutes are %q", got)
	}
	clear := `document.getElementById('times-clear').click(); 0`
	eval[any](o, clear)
	if got := shown(); got != "strike 0 planned" {
		t.Errorf("started afresh: %q", got)
	}
	eval[any](o, clear) // it was pressed by mistake
	if got := shown(); got != "strike 1 done ab" {
		t.Errorf("brought back: %q", got)
	}
	eval[any](o, `location.hash = '#step-2'; 0`) // a link to a step of the other list
	o.Until(`document.querySelector('.list[data-which=set-up]').getClientRects().length`)
	if got := shown(); got != "set-up 0 planned" {
		t.Errorf("a link to the set-up shows %q", got)
	}
}

func TestReloadKeepsTicks(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 360, 740, "")
	eval[any](o, `location.hash = '#lists'; 0`)
	o.Do(chromedp.Click(chromedp.CSS("#lists .tick input")), chromedp.Reload())
	if on := eval[[]bool](o, `[...document.querySelectorAll('#lists .tick input')].map((b) => b.checked)`); len(on) < 5 || !on[0] || on[1] {
		t.Errorf("after a reload the ticks are %v", on)
	}
	o.Do(chromedp.Click(chromedp.CSS("#lists .tick input")), chromedp.Reload())
	if eval[bool](o, `document.querySelector('#lists .tick input').checked`) {
		t.Error("a tick taken away came back")
	}
}

func TestWithoutAStoreThePageSaysSo(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 360, 740, `Object.defineProperty(window, 'localStorage', {get() { throw new Error('no'); }});`)
	eval[any](o, `location.hash = '#lists'; 0`)
	o.Do(chromedp.Click(chromedp.CSS("#lists .tick input")))
	if !strings.Contains(eval[string](o, `document.getElementById('memory').innerText`), "keeps nothing") {
		t.Error("nothing says that ticks are not kept")
	}
}

// A sale in the middle of the day is two taps: the part of the page, and Sold. A spare takes one place only; what sold is kept,
// and can be taken back.
func TestASaleIsTwoTaps(t *testing.T) {
	v := hung(t)
	spare := func(id booth.ID) page.Heir { return page.Heir{ID: id, Title: "Spare " + string(id), How: "same hooks"} }
	v.Sales = []page.Sale{
		{ID: "work/one", Title: hostile, Heirs: []page.Heir{spare("work/a"), spare("work/b")}},
		{ID: "work/two", Title: emoji, Heirs: []page.Heir{spare("work/a")}},
	}
	o := open(t, saved(t, write(t, v)), 360, 740, "")
	says := func(n string) string {
		return eval[string](o, `document.querySelectorAll('[data-place]')[`+n+`].innerText.replace(/\s+/g, ' ')`)
	}
	o.Do(chromedp.Click(chromedp.CSS(`nav a[href="#sales"]`)), chromedp.Click(chromedp.CSS("#sales .sell")))
	if got := says("0"); !strings.Contains(got, "Hang Spare work/a here: same hooks.") || !strings.Contains(got, "If this sells, hang Spare work/b: same hooks.") || !strings.Contains(got, "Sold: "+hostile) {
		t.Errorf("after the sale: %s", got)
	}
	if got := says("1"); !strings.Contains(got, "If this sells, no spare fits here.") {
		t.Errorf("the spare is gone, and the other place says %s", got)
	}
	o.Do(chromedp.Reload())
	if got := says("0"); !strings.Contains(got, "Hang Spare work/a here") || eval[string](o, `document.getElementById('sold-count').textContent`) != "1 sold." {
		t.Errorf("after a reload: %s", got)
	}
	o.Do(chromedp.Click(chromedp.CSS("#sales .sell")), chromedp.Click(chromedp.CSS("#sales .sell")))
	if got := says("0"); !strings.Contains(got, "Nothing hangs here") || !strings.Contains(got, "No spare is left") || strings.Contains(got, "Not sold Sold") {
		t.Errorf("after three sales: %s", got)
	}
	for range 3 {
		o.Do(chromedp.Click(chromedp.CSS("#sales .undo")))
	}
	if got := says("1"); eval[string](o, `document.getElementById('sold-count').textContent`) != "0 sold." || !strings.Contains(got, "hang Spare work/a") {
		t.Errorf("taken back: %s", got)
	}
}

func TestATapOnADrawingOpensItsHooks(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 360, 740, "")
	eval[any](o, `location.hash = '#hang'; 0`)
	o.Do(chromedp.Click(chromedp.CSS("svg .hung:nth-of-type(2)")))
	o.Until(`document.getElementById('hooks-1-2').open && !document.getElementById('hooks-1-1').open`)
	o.Until(`[...document.querySelectorAll('.measure')].map((m) => getComputedStyle(m).display !== 'none').join() === 'false,true'`)
}

// Titles run nothing, no request leaves, and the policy stops one that is tried.
func TestNothingLeavesThePage(t *testing.T) {
	var asked atomic.Int32
	elsewhere := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { asked.Add(1) }))
	defer elsewhere.Close()
	browser.Needed(t, browser.Chromium)
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{d.file, saved(t, write(t, hung(t)))} {
		o := open(t, saved(t, "<title>before</title>"), 360, 740, "")
		ctx, stop := context.WithCancel(o.Ctx)
		requests := chromedp.Events(ctx, network.RequestWillBeSent)
		seen := make(chan []string)
		go func() {
			var urls []string
			for e, err := range requests {
				if err != nil {
					break
				}
				urls = append(urls, e.Request.URL)
			}
			seen <- urls
		}()
		o.Do(chromedp.Navigate("file://" + file))
		for _, part := range []string{"pictures", "hang", "setup", "lists", "findings", "walk"} {
			eval[any](o, `location.hash = '#`+part+`'; 0`)
			o.Frames(2)
		}
		if got := eval[string](o, `fetch('`+elsewhere.URL+`').then(() => 'sent', () => 'stopped')`); got != "stopped" {
			t.Errorf("a request was %s", got)
		}
		if title := eval[string](o, `document.title`); strings.HasPrefix(title, "taken") {
			t.Error("a title ran as a script")
		}
		o.Frames(10) // a request that it makes is sent by then
		stop()
		urls := <-seen
		if len(urls) == 0 {
			t.Error("the page itself was not among the requests that were seen")
		}
		for _, u := range urls {
			if !strings.HasPrefix(u, "file://"+file) && !strings.HasPrefix(u, "data:") && !strings.HasPrefix(u, "blob:") && u != elsewhere.URL+"/" {
				t.Errorf("the page asked for %s", u[:min(len(u), 100)])
			}
		}
	}
	if n := asked.Load(); n != 0 {
		t.Errorf("%d requests arrived", n)
	}
}

// A file cut short says so, and what came is readable.
func TestAFileCutShortSaysSo(t *testing.T) {
	browser.Needed(t, browser.Chromium)
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(d.file)
	if err != nil {
		t.Fatal(err)
	}
	shown := `getComputedStyle(document.querySelector('.cut')).display !== 'none'`
	for _, c := range []struct {
		bytes int
		want  bool
	}{{len(text) / 4, true}, {len(text) - 3000, true}, {len(text), false}} {
		o := open(t, saved(t, string(text[:c.bytes])), 360, 740, "")
		if got := eval[bool](o, shown); got != c.want {
			t.Errorf("with %d of %d bytes the page says that it was cut short: %v", c.bytes, len(text), got)
		}
		if !strings.Contains(eval[string](o, `document.body.innerText`), "Odile Marrowby") {
			t.Error("nothing is readable")
		}
	}
}

// Without WebGL 2 and without script the rest is there.
func TestAnOldBrowserShowsTheRest(t *testing.T) {
	file := saved(t, write(t, hung(t))) // a page without a model cannot draw either
	o := open(t, file, 360, 740, `HTMLCanvasElement.prototype.getContext = () => null;`)
	eval[any](o, `location.hash = '#walk'; 0`)
	o.Until(`document.querySelector('#walk.current')`)
	if !strings.Contains(eval[string](o, `document.querySelector('#walk').innerText`), "cannot show the booth in three dimensions") {
		t.Error("nothing says what this browser cannot do")
	}
	eval[any](o, `location.hash = '#hang'; 0`)
	o.Do(chromedp.Click(chromedp.CSS("#hang summary")))

	o = open(t, saved(t, "<title>before</title>"), 360, 740, "")
	if _, err := chromedp.Call(o.Ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	o.Do(chromedp.Navigate("file://" + file))
	text := eval[string](o, `document.querySelector('main').innerText`)
	for _, want := range []string{"The pictures", "The back wall", "Put up the wall", "Packing list", "Too narrow"} {
		if !strings.Contains(text, want) {
			t.Errorf("without script nothing reads %q", want)
		}
	}
	if strings.Contains(text, "Stand at") {
		t.Error("without script there are controls that do nothing")
	}
}

// On paper there is every part and nothing to press.
func TestPrinting(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 800, 1000, "")
	pages := func() int {
		t.Helper()
		r, err := chromedp.Call(o.Ctx, cdp.PrintToPDF, cdp.PrintToPDFParams{PreferCSSPageSize: new(true)})
		if err != nil {
			t.Fatal(err)
		}
		return strings.Count(string(r.Data), "/Type /Page\n")
	}
	shown := func(part string) bool {
		return eval[float64](o, `document.getElementById('`+part+`').getBoundingClientRect().height`) > 20
	}
	for _, part := range []string{"setup", "hang"} { // only the part on the screen
		eval[any](o, `location.hash = '#`+part+`'; 0`)
		o.Until(`document.querySelector('#` + part + `.current')`)
		if n := pages(); n < 1 || n > 3 {
			t.Errorf("%d pages for %s alone", n, part)
		}
		o.Media("print")
		if !shown(part) || shown("lists") {
			t.Errorf("of the page, %s alone is not what is printed", part)
		}
		o.Media("")
	}
	if d, err := demo(); err != nil {
		t.Error(err)
	} else { // three steps a page or so, and no page that is a third white: it took 14
		on := o
		o = open(t, d.file, 800, 1000, "")
		if n := pages(); n > 12 {
			t.Errorf("the set-up of the demo prints on %d pages", n)
		}
		o = on
	}
	eval[any](o, `document.documentElement.classList.add('print-all'); 0`)
	o.Media("print")
	eval[any](o, `window.dispatchEvent(new Event('beforeprint')); 0`)
	for _, part := range []string{"pictures", "hang", "setup", "lists", "findings"} {
		if !shown(part) {
			t.Errorf("%s is not printed", part)
		}
	}
	if n := eval[int](o, `[...document.querySelectorAll('nav, button, canvas, select')].filter((e) => e.getClientRects().length).length`); n != 0 {
		t.Errorf("%d things to press are printed", n)
	}
	if n := eval[int](o, `[...document.querySelectorAll('#hang td')].filter((e) => e.getClientRects().length).length`); n < 4 {
		t.Errorf("only %d measures are printed", n)
	}
}

// violations are what axe-core finds on the part that is shown, or on its colours alone. The parts that are not shown, where it finds
// nothing, are put aside meanwhile: it takes long to read them.
func violations(o tab, all bool) []string {
	o.Helper()
	eval[any](o, `window.aside = [...document.querySelectorAll('main > section:not(.current)')].map((s) => { const f = document.createDocumentFragment(); f.append(...s.childNodes); return [s, f]; }); 0`)
	defer eval[any](o, `aside.forEach(([s, f]) => s.append(f)); 0`)
	if all {
		return o.Violations()
	}
	return o.Violations("color-contrast")
}

// axe-core's rules for WCAG 2.2, levels A and AA, find nothing on any part, light or dark, on a phone or a desk; nothing
// is wider than the window either, at letters twice as large.
func TestAccessible(t *testing.T) {
	browser.Needed(t, browser.Chromium)
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range [][2]int64{{360, 740}, {1280, 800}} {
		o := openDemo(t, size[0], size[1])
		o.Axe("../../..")
		for _, scheme := range []string{"light", "dark"} {
			o.Media("", "prefers-color-scheme", scheme)
			for _, part := range []string{"walk", "pictures", "hang", "setup", "lists", "findings"} {
				eval[any](o, `location.hash = '#`+part+`'; document.querySelectorAll('#`+part+` details').forEach((d) => d.open = true); 0`)
				if part == "walk" {
					o.Until(`document.getElementById('stage').dataset.ready === 'yes'`)
					eval[any](o, `document.querySelector('#all-works button').click(); 0`)
				}
				o.Frames(2)
				for _, v := range violations(o, scheme == "light") {
					t.Errorf("%d px, %s, %s: %v", size[0], scheme, part, v)
				}
			}
		}
		eval[any](o, `location.hash = '#setup'; document.getElementById('step-next').click(); 0`) // a step, then a wait
		for _, who := range d.SetUp().People {
			eval[any](o, `document.getElementById('times-clear').click(); [...document.querySelectorAll('#who input')].find((i) => i.value === '`+who+`').click(); document.getElementById('step-next').click(); 0`)
			for _, v := range violations(o, true) {
				t.Errorf("%d px, %s sets up: %v", size[0], who, v)
			}
		}
		eval[any](o, `document.getElementById('times-clear').click(); 0`)
		eval[any](o, `document.documentElement.style.fontSize = '200%'; 0`)
		for _, part := range []string{"walk", "pictures", "hang", "setup", "lists", "findings"} {
			eval[any](o, `location.hash = '#`+part+`'; 0`)
			o.Frames(2)
			if over := eval[float64](o, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
				t.Errorf("%d px, %s, letters twice as large: %.0f px too wide", size[0], part, over)
			}
		}
	}
}
