//go:build !race

package try_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"boothmock/internal/try"
)

const chromium = "/usr/bin/chromium"

// needed skips a test that lacks a tool, or fails it where tools are required.
func needed(t *testing.T, file string) {
	t.Helper()
	if testing.Short() {
		t.Skip("slow")
	}
	if _, err := os.Stat(file); err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatalf("%s is not there", file)
		}
		t.Skipf("%s is not there", file)
	}
}

// browser is one Chromium for all tests; WebGL is drawn by its software renderer.
var browser = sync.OnceValues(func() (context.Context, error) {
	a, _ := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(chromium),
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.NoSandbox, chromedp.Headless,
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.Flag("disable-quic", true))
	ctx, _ := chromedp.NewContext(a)
	return ctx, chromedp.Do(ctx)
})

func TestMain(m *testing.M) {
	code := m.Run()
	if _, err := os.Stat(chromium); err == nil && !testing.Short() {
		if ctx, err := browser(); err == nil {
			chromedp.Cancel(ctx)
		}
	}
	os.Exit(code)
}

// tab is a page open in the browser.
type tab struct {
	*testing.T
	ctx context.Context
}

// open shows a session in a tab of its own, of a size. Without the walk, as in a browser that cannot draw it, all is much quicker.
func open(t *testing.T, s *try.Session, width, height int64, walk bool) tab {
	t.Helper()
	needed(t, chromium)
	all, err := browser()
	if err != nil {
		t.Fatal(err)
	}
	v, err := try.Serve(s)
	if err != nil {
		t.Fatal(err)
	}
	running, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { v.Run(running); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	return window(t, all, v.Address, width, height, walk)
}

const wait = 4 * time.Minute // for anything in a tab: then the test fails instead of hanging

// window is another window on a page.
func window(t *testing.T, all context.Context, address string, width, height int64, walk bool) tab {
	t.Helper()
	ctx, shut := chromedp.NewContext(all)
	t.Cleanup(shut)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(ctx, wait)
	t.Cleanup(stop)
	o := tab{t, ctx}
	if !walk {
		if _, err := chromedp.Call(ctx, cdp.AddScriptToEvaluateOnNewDocument, cdp.AddScriptToEvaluateOnNewDocumentParams{Source: `HTMLCanvasElement.prototype.getContext = () => null;`}); err != nil {
			t.Fatal(err)
		}
	}
	o.do(chromedp.EmulateViewport(width, height, chromedp.EmulateScale(1)))
	o.do(chromedp.Navigate(address))
	o.until(`document.documentElement.dataset.at`)
	return o
}

func (o tab) do(steps ...chromedp.Action[chromedp.Void]) {
	o.Helper()
	if err := chromedp.Do(o.ctx, steps...); err != nil {
		o.Fatal(err)
	}
}

// eval is what a JavaScript expression, or the promise that it makes, comes to.
func eval[T any](o tab, js string) T {
	o.Helper()
	v, err := chromedp.Run(o.ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		o.Fatalf("%s: %v", js[:min(len(js), 200)], err)
	}
	return v
}

// until waits for a JavaScript expression to be true, as long as the test may run: a busy machine is no fault.
func (o tab) until(js string) {
	o.Helper()
	eval[any](o, `new Promise((done) => (function look() { `+js+` ? done(0) : requestAnimationFrame(look); })())`)
}

// lit waits until the walk shows the state in a light.
func (o tab) lit(kind string) {
	o.Helper()
	o.until(`document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' ` + kind + `'`)
}

// state is the number of the state that is shown.
func (o tab) at() int {
	o.Helper()
	return eval[int](o, `Number(document.documentElement.dataset.at)`)
}

// after waits until a later state than that is shown and nothing is asked any more.
func (o tab) after(at int) {
	o.Helper()
	o.until(fmt.Sprintf(`!Number(document.documentElement.dataset.asking) && (Number(document.documentElement.dataset.at) > %d || document.querySelector('#said.wrong'))`, at))
	if o.at() <= at {
		o.Fatalf("it was refused: %s", eval[string](o, `document.getElementById('said').textContent`))
	}
}

// middle is the middle of an element in the window, after it was scrolled to.
func (o tab) middle(selector string) (x, y float64) {
	o.Helper()
	eval[any](o, `document.querySelector(`+quoted(selector)+`).scrollIntoView({block: 'center'})`)
	return o.where(selector)
}

// where is the middle of an element in the window.
func (o tab) where(selector string) (x, y float64) {
	o.Helper()
	b := eval[[]float64](o, `(() => { const b = document.querySelector(`+quoted(selector)+`).getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
	return b[0], b[1]
}

func quoted(s string) string {
	b, _ := json.Marshal(s)
	return string(b)
}

func work(id string) string  { return fmt.Sprintf(`#elevation [data-id="%s"]`, id) }
func thing(id string) string { return fmt.Sprintf(`#ground [data-id="%s"]`, id) }

// mouse moves, presses or lets go.
func (o tab) mouse(kind input.DispatchMouseEventType, x, y float64) {
	o.Helper()
	p := input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: input.MouseButtonLeft, ClickCount: 1}
	if kind == input.DispatchMouseEventTypeMouseMoved {
		p.Button, p.ClickCount = input.MouseButtonLeft, 0
		p.Buttons = 1
	}
	if _, err := chromedp.Call(o.ctx, input.DispatchMouseEvent, p); err != nil {
		o.Fatal(err)
	}
}

// drag takes something by its middle to a place in the window, and waits for what comes of it.
func (o tab) drag(selector string, to func() (x, y float64)) {
	o.Helper()
	at := o.at()
	x, y := o.lift(selector, to)
	o.mouse("mouseReleased", x, y)
	o.after(at)
}

// lift takes something to a place without letting go.
func (o tab) lift(selector string, to func() (x, y float64)) (x1, y1 float64) {
	o.Helper()
	o.middle(selector)
	x1, y1 = to() // which may scroll
	x0, y0 := o.where(selector)
	o.mouse("mouseMoved", x0, y0)
	o.mouse("mousePressed", x0, y0)
	for k := 1; k <= 4; k++ {
		o.mouse("mouseMoved", x0+(x1-x0)*float64(k)/4, y0+(y1-y0)*float64(k)/4)
	}
	eval[any](o, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))`)
	return x1, y1
}

// media sets the colour scheme and whether motion is reduced.
func (o tab) media(scheme string) {
	o.Helper()
	p := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}
	if _, err := chromedp.Call(o.ctx, emulation.SetEmulatedMedia, p); err != nil {
		o.Fatal(err)
	}
}

// shot writes a screenshot into the folder SHOTS, to be looked at.
func (o tab) shot(name string) {
	o.Helper()
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(o.ctx, chromedp.FullScreenshot(90))
	if err != nil {
		o.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".jpg"), png, 0o644); err != nil {
		o.Fatal(err)
	}
}

// A work is dragged to another wall, another onto a third, a number is typed, and the file says so in its own words.
func TestWorksAreDragged(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	o := open(t, s, 1440, 900, true)
	o.lit("quick")
	o.shot("desk")
	x, y := o.lift(work("work/heron"), func() (float64, float64) { return o.middle(work("work/orchard")) })
	o.shot("lifted")
	if n := eval[int](o, `document.querySelectorAll('.guides .over').length`); n != 1 {
		t.Errorf("%d works are marked to change places", n)
	}
	at := o.at()
	o.mouse("mouseReleased", x, y)
	o.after(at)
	o.drag(work("work/moths"), func() (float64, float64) { x, y := o.middle(work("work/quince")); return x - 40, y - 10 })
	o.lit("full")
	o.shot("moved")
	at = o.at()
	eval[any](o, `(() => { const i = document.querySelector('#label [data-field=centre]'); i.focus(); i.value = '59 1/2'; i.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	at = o.at()
	o.do(chromedp.Click(chromedp.CSS("#save")))
	o.after(at)
	_, come := changedLines(before, contents(t, path))
	want := []string{"  - {wall: left, works: [heron, thistle, bunting], centre: 60}", "  - {wall: right, works: [weir, moths, quince, orchard], centre: 59 1/2}"}
	if !slices.Equal(come, want) {
		t.Errorf("the file says %q, want %q", come, want)
	}
	if said := eval[string](o, `document.getElementById('said').textContent`); !strings.HasPrefix(said, "Saved in ") {
		t.Errorf("the page says %q", said)
	}
}

// The table is dragged into the way: there are findings at once; taken back, they are mended.
func TestTheTableIsDragged(t *testing.T) {
	s, _ := session(t)
	o := open(t, s, 820, 900, false)
	o.shot("820")
	at := o.at()
	was := eval[string](o, `document.getElementById('way-line').textContent`)
	x, y := o.lift(thing("table/prints"), func() (float64, float64) { x, y := o.middle("#ground .pitch"); return x, y + 60 })
	o.until(`document.getElementById('way-line').textContent !== ` + quoted(was)) // before it is let go
	o.shot("held")
	o.mouse("mouseReleased", x, y)
	o.after(at)
	if n := eval[int](o, `document.querySelectorAll('#found .new').length`); n < 3 {
		t.Errorf("%d findings are new", n)
	}
	o.shot("across")
	at = o.at()
	o.do(chromedp.Click(chromedp.CSS("#undo")))
	o.after(at)
	if !s.State().Saved || !strings.Contains(eval[string](o, `document.getElementById('said').textContent`), "Mended:") {
		t.Error("it is not mended")
	}
	at = o.at()
	eval[any](o, `(() => { const s = document.querySelector('#add'); s.focus(); s.value = 'bin|18 x 16 x 34'; s.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	o.until(`document.querySelector('#label-title').textContent === 'The extra bin' && document.querySelector('#label-body').contains(document.activeElement)`)
	o.shot("added")
	at = o.at()
	eval[any](o, `document.querySelector('`+thing("bin/extra")+`').focus()`)
	o.do(chromedp.KeyEvent(kb.Delete))
	o.after(at)
	eval[any](o, `(() => { const d = new DataTransfer(); d.items.add(new File([Uint8Array.from(atob('`+dot+`'), (c) => c.charCodeAt(0))], 'A_red-dot.png')); document.body.dispatchEvent(new DragEvent('drop', {dataTransfer: d, bubbles: true})); })()`)
	o.until(`document.getElementById('ask').open`)
	at = o.at()
	for k, text := range []string{"8 x 10", "Red dot"} {
		eval[any](o, fmt.Sprintf(`(() => { document.querySelectorAll('#ask-fields input')[%d].value = %q; })()`, k, text))
	}
	o.shot("photograph")
	o.do(chromedp.Click(chromedp.CSS("#ask-hands .main")))
	o.after(at)
	o.until(`document.querySelector('#label-title').textContent === 'Red dot' && !document.getElementById('ask').open`)
}

// With keys alone a work goes to another wall, its row up, the chair aside, and all of it back, and is saved.
func TestKeysSuffice(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	o := open(t, s, 1440, 900, false)
	press := func(keys string) {
		t.Helper()
		at := o.at()
		o.do(chromedp.KeyEvent(keys))
		o.after(at)
	}
	eval[any](o, `document.querySelector('`+work("work/moths")+`').focus()`)
	press(kb.ArrowRight)
	press(kb.ArrowUp)
	if got := eval[string](o, `document.activeElement.dataset.id`); got != "work/moths" {
		t.Errorf("the keys are at %q", got)
	}
	o.do(chromedp.KeyEvent(kb.Enter))
	o.until(`document.querySelector('#label-title').textContent === 'Moths' && document.querySelector('#label-body').contains(document.activeElement)`)
	at := o.at()
	eval[any](o, `(() => { const s = document.querySelector('#label select'); s.focus(); s.selectedIndex = [...s.options].findIndex((o) => o.value === 'row 2'); s.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	eval[any](o, `document.querySelector('`+thing("chair")+`').focus()`)
	press(kb.ArrowRight)
	press(kb.PageUp)
	press("c")
	o.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.until(`document.getElementById('said').textContent.startsWith('Taken back')`)
	o.do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.until(`document.getElementById('save').disabled`)
	_, come := changedLines(before, contents(t, path))
	if len(come) != 3 || !strings.Contains(come[0], "turn: 15") || !strings.Contains(come[1], "works: [orchard, thistle, bunting], centre: 60 1/8") || !strings.Contains(come[2], "heron, moths]") {
		t.Errorf("the file says %q", come)
	}
	for eval[bool](o, `!document.getElementById('undo').disabled`) {
		at := o.at()
		o.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
		o.after(at)
	}
	at = o.at()
	o.do(chromedp.Click(chromedp.CSS("#save")))
	o.after(at)
	if contents(t, path) != before {
		t.Error("all taken back, the file is another one")
	}
}

const axe = "../../.ci/node_modules/axe-core/axe.min.js"

// axe-core's rules for WCAG 2.2, levels A and AA, find nothing in any state, light or dark, on a phone, a tablet or a desk, and nothing is
// wider than the window. What is dragged is 44 pixels or more.
func TestNobodyIsShutOut(t *testing.T) {
	needed(t, axe)
	rules, err := os.ReadFile(axe)
	if err != nil {
		t.Fatal(err)
	}
	s, path := session(t)
	o := open(t, s, 390, 844, false)
	eval[any](o, string(rules)+"; 0")
	look := func(state string) {
		t.Helper()
		for _, scheme := range []string{"light", "dark"} {
			o.media(scheme)
			found := eval[string](o, `axe.run(document, {preload: false, resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}).then((r) => JSON.stringify(r.violations.map((v) => [v.id, v.help, v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160) + ' ' + n.failureSummary)])))`)
			var violations [][]any
			if err := json.Unmarshal([]byte(found), &violations); err != nil {
				t.Fatal(err)
			}
			for _, v := range violations {
				t.Errorf("%s, %s: %v", state, scheme, v)
			}
			if over := eval[float64](o, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
				t.Errorf("%s: %.0f pixels too wide", state, over)
			}
			o.shot(strings.ReplaceAll(state, " ", "-") + "-" + scheme)
		}
	}
	for _, width := range []int64{390, 820, 1440} {
		o.do(chromedp.EmulateViewport(width, 844, chromedp.EmulateScale(1)))
		o.until(fmt.Sprintf(`innerWidth === %d && document.getElementById('elevation').viewBox.baseVal.width <= %d`, width, width))
		eval[any](o, `document.querySelectorAll('details').forEach((d) => (d.open = false)); 0`)
		eval[any](o, `document.querySelector('`+work("work/moths")+`').dispatchEvent(new KeyboardEvent('keydown', {key: 'Enter', bubbles: true})); 0`)
		look(fmt.Sprint("a work chosen ", width))
		at := o.at()
		eval[any](o, `document.querySelector('`+thing("table/prints")+`').dispatchEvent(new KeyboardEvent('keydown', {key: 'PageUp', bubbles: true})); 0`)
		o.after(at)
		eval[any](o, `document.querySelector('`+thing("table/prints")+`').dispatchEvent(new KeyboardEvent('keydown', {key: 'Enter', bubbles: true})); document.querySelectorAll('details').forEach((d) => (d.open = true)); 0`)
		look(fmt.Sprint("a table turned ", width))
		small := eval[[]string](o, `[...document.querySelectorAll('.reach, button, select, input:not([type=checkbox])')].filter((e) => e.getClientRects().length && !e.closest('.knob')).filter((e) => { const b = e.getBoundingClientRect(); return b.width < 43.5 || b.height < 43.5; }).map((e) => e.outerHTML.slice(0, 120))`)
		if len(small) > 0 {
			t.Errorf("at %d pixels these are small to touch: %q", width, small)
		}
	}
	eval[any](o, `(() => { const s = document.querySelector('#add'); s.value = 'sign|11 x 8.5'; s.dispatchEvent(new Event('change')); })()`)
	look("a sign asked")
	eval[any](o, `document.getElementById('ask').close()`)
	for _, a := range []try.Ask{{Do: "keep", Name: "another"}, {Do: "remove", Item: "work/pears"}} {
		at := o.at()
		say(t, s, a)
		o.after(at)
	}
	eval[any](o, `document.querySelector('#variants button').click()`)
	o.until(`[0, 1].every((k) => document.getElementById('beside-' + k).naturalWidth === 960)`)
	for _, width := range []int64{390, 1440} {
		o.do(chromedp.EmulateViewport(width, 844, chromedp.EmulateScale(1)))
		look(fmt.Sprint("side by side ", width))
	}
	eval[any](o, `document.querySelector('#beside-hands button:last-child').click()`)
	eval[any](o, `document.getElementById('propose').click()`)
	o.until(`document.querySelector('#ways li')`)
	look("proposed")
	if err := os.WriteFile(path, []byte(strings.Replace(contents(t, path), "from front: 96", "from front: 70", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	at := o.at()
	o.do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.after(at)
	look("asked")
}
