// Package browser opens pages in real browsers, for the tests of what is shown there: Chromium, steered by its own protocol.
//
// All tests of a package share one Chromium, each with tabs of its own. Without a graphics card a picture costs a second of the
// processor at the size of a window, so canvases are drawn coarsely (Coarse) unless a test looks at them. A test waits for what
// happens on the page, never for a time; Patience only ends what would never come.
package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

const Chromium = "/usr/bin/chromium"

// Patience is how long anything in a tab may take before the test fails, instead of hanging: some hundred times what the slowest takes.
const Patience = 10 * time.Minute

// Coarse is how many pixels of a canvas there are to one of the window, along each side.
const Coarse = 0.2

// setting comes before every page: its canvases are coarse, their edges are not smoothed, which would double what a picture costs,
// and there is a way to wait for a frame that no test counts.
var setting = fmt.Sprintf(`window.fine = %v; Object.defineProperty(window, 'devicePixelRatio', {get: () => window.fine}); window.nextFrame = requestAnimationFrame.bind(window);
	{ const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, o) { return get.call(this, kind, {...o, antialias: false}); }; }
`, Coarse)

// Needed skips a test that lacks a file, or fails it where tools are required.
func Needed(t *testing.T, files ...string) {
	t.Helper()
	if testing.Short() {
		t.Skip("slow")
	}
	for _, file := range files {
		if _, err := os.Stat(file); err != nil {
			if os.Getenv("REQUIRE_TOOLS") != "" {
				t.Fatalf("%s is not there: .ci/run installs it", file)
			}
			t.Skipf("%s is not there", file)
		}
	}
}

// started says that there is a Chromium to end.
var started bool

// chromium is the one for all tests; WebGL is drawn by its software renderer.
var chromium = sync.OnceValues(func() (context.Context, error) {
	a, _ := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(Chromium),
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.NoSandbox, chromedp.Headless,
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.Flag("disable-quic", true))
	ctx, _ := chromedp.NewContext(a)
	started = true
	return ctx, chromedp.Do(ctx)
})

// Main runs the tests of a package and ends their Chromium: func TestMain(m *testing.M) { browser.Main(m) }.
func Main(m *testing.M) {
	code := m.Run()
	if started {
		if ctx, err := chromium(); err == nil {
			chromedp.Cancel(ctx)
		}
	}
	os.Exit(code)
}

// Tab is a page open in Chromium, in a test.
type Tab struct {
	*testing.T
	Ctx context.Context
}

// NewTab is an empty tab, until shut is called; before is a script that runs ahead of every page in it.
func NewTab(before string) (ctx context.Context, shut func(), err error) {
	all, err := chromium()
	if err != nil {
		return nil, nil, err
	}
	ctx, shut = chromedp.NewContext(all)
	if err := chromedp.Do(ctx); err != nil {
		return nil, nil, err
	}
	_, err = chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: setting + before})
	return ctx, shut, err
}

// Open is an empty tab of a size for one test.
func Open(t *testing.T, width, height int64, before string) Tab {
	t.Helper()
	Needed(t, Chromium)
	ctx, shut, err := NewTab(before)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(shut)
	o := Tab{t, ctx}
	o.Size(width, height)
	return o
}

// Size makes the window as large as that, in pixels.
func (o Tab) Size(width, height int64) {
	o.Helper()
	o.Do(chromedp.EmulateViewport(width, height, chromedp.EmulateScale(1)))
}

// Do does steps, one after the other.
func (o Tab) Do(steps ...chromedp.Action[chromedp.Void]) {
	o.Helper()
	ctx, stop := context.WithTimeout(o.Ctx, Patience)
	defer stop()
	if err := chromedp.Do(ctx, steps...); err != nil {
		o.Fatal(err)
	}
}

// Eval is what a JavaScript expression, or the promise that it makes, comes to.
func Eval[T any](o Tab, js string) T {
	o.Helper()
	ctx, stop := context.WithTimeout(o.Ctx, Patience)
	defer stop()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		o.Fatalf("%s: %v", js[:min(len(js), 200)], err)
	}
	return v
}

// Until waits for a JavaScript expression to be true.
func (o Tab) Until(js string) {
	o.Helper()
	Eval[any](o, `new Promise((done) => (function look() { `+js+` ? done(0) : nextFrame(look); })())`)
}

// Frames lets the page draw so many times.
func (o Tab) Frames(n int) {
	o.Helper()
	Eval[any](o, fmt.Sprintf(`new Promise((done) => { let left = %d; (function next() { left-- > 0 ? nextFrame(next) : done(0); })(); })`, n))
}

// Still waits until a JavaScript expression has been the same for five frames of the page.
func (o Tab) Still(js string) {
	o.Helper()
	Eval[any](o, `new Promise((done) => { let calm = 0, was = `+js+`;
		(function next() { const now = `+js+`; calm = now === was ? calm + 1 : 0; was = now; calm >= 5 ? done(0) : nextFrame(next); })(); })`)
}

// Media sets a media type, and features each followed by its value.
func (o Tab) Media(kind string, features ...string) {
	o.Helper()
	p := emulation.SetEmulatedMediaParams{Media: kind}
	for i := 0; i < len(features); i += 2 {
		p.Features = append(p.Features, &emulation.MediaFeature{Name: features[i], Value: features[i+1]})
	}
	if _, err := chromedp.Call(o.Ctx, emulation.SetEmulatedMedia, p); err != nil {
		o.Fatal(err)
	}
}

// Mouse moves, presses or lets go at a place in the window.
func (o Tab) Mouse(kind input.DispatchMouseEventType, x, y float64) {
	o.Helper()
	p := input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: input.MouseButtonLeft, ClickCount: 1}
	if kind == input.DispatchMouseEventTypeMouseMoved {
		p.ClickCount, p.Buttons = 0, 1
	}
	if _, err := chromedp.Call(o.Ctx, input.DispatchMouseEvent, p); err != nil {
		o.Fatal(err)
	}
}

// Shot writes a screenshot of the whole page into the folder that the environment names in SHOTS, to be looked at.
func (o Tab) Shot(name string) {
	o.Helper()
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	jpeg, err := chromedp.Run(o.Ctx, chromedp.FullScreenshot(90))
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".jpg"), jpeg, 0o644)
	}
	if err != nil {
		o.Fatal(err)
	}
}

// Axe readies the page for Violations. root is the way to the top of the repository.
func (o Tab) Axe(root string) {
	o.Helper()
	file := filepath.Join(root, ".ci/node_modules/axe-core/axe.min.js")
	Needed(o.T, file)
	rules, err := os.ReadFile(file)
	if err != nil {
		o.Fatal(err)
	}
	Eval[any](o, string(rules)+";0")
}

// Violations are what axe-core's rules for WCAG 2.2, levels A and AA, or those that are named, find on the page as it is, and
// whether it is wider than the window.
func (o Tab) Violations(rules ...string) (out []string) {
	o.Helper()
	if rules == nil {
		rules = []string{"wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"}
	}
	only, _ := json.Marshal(rules)
	found := Eval[string](o, `axe.run(document, {preload: false, resultTypes: ['violations'], runOnly: `+string(only)+`}).then((r) => JSON.stringify(r.violations.map((v) => [v.id, v.help, v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160) + ' ' + n.failureSummary)])))`)
	var broken [][]any
	if err := json.Unmarshal([]byte(found), &broken); err != nil {
		o.Fatal(err)
	}
	for _, r := range broken {
		out = append(out, fmt.Sprint(r...))
	}
	if over := Eval[float64](o, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
		out = append(out, fmt.Sprintf("%.0f px too wide", over))
	}
	return out
}
