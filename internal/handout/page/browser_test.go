//go:build !race

package page_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"boothmock/internal/job"
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

// open opens a file in a tab of its own, of a size, after running a script in it if there is one.
func open(t *testing.T, file string, width, height int64, before string) tab {
	t.Helper()
	needed(t, chromium)
	all, err := browser()
	if err != nil {
		t.Fatal(err)
	}
	ctx, shut := chromedp.NewContext(all)
	t.Cleanup(shut)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	o := tab{t, ctx}
	o.do(chromedp.EmulateViewport(width, height, chromedp.EmulateScale(1)))
	if before != "" {
		if _, err := chromedp.Call(ctx, cdp.AddScriptToEvaluateOnNewDocument, cdp.AddScriptToEvaluateOnNewDocumentParams{Source: before}); err != nil {
			t.Fatal(err)
		}
	}
	o.do(chromedp.Navigate("file://" + file))
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

// frame asks for the browser's next frame without counting among what the page asks for (see walked).
const frame = `(window.uncounted ?? requestAnimationFrame)`

// until waits for a JavaScript expression to be true, as long as the test may run: a busy machine is no fault.
func (o tab) until(js string) {
	o.Helper()
	eval[any](o, `new Promise((done) => (function look() { `+js+` ? done(0) : `+frame+`(look); })())`)
}

// frames lets the page draw so many times.
func (o tab) frames(n int) {
	o.Helper()
	eval[any](o, fmt.Sprintf(`new Promise((done) => { let left = %d; (function next() { left-- > 0 ? %s(next) : done(0); })(); })`, n, frame))
}

// still waits until a JavaScript expression has been the same for twenty frames of the page.
func (o tab) still(js string) {
	o.Helper()
	eval[any](o, `new Promise((done) => { let calm = 0, was = `+js+`;
		(function next() { const now = `+js+`; calm = now === was ? calm + 1 : 0; was = now; calm > 20 ? done(0) : `+frame+`(next); })(); })`)
}

const place = `document.getElementById('stage').dataset.at` // where the visitor stands and looks

// media sets a media type and a feature.
func (o tab) media(kind string, features ...string) {
	o.Helper()
	p := emulation.SetEmulatedMediaParams{Media: kind}
	for i := 0; i < len(features); i += 2 {
		p.Features = append(p.Features, &emulation.MediaFeature{Name: features[i], Value: features[i+1]})
	}
	if _, err := chromedp.Call(o.ctx, emulation.SetEmulatedMedia, p); err != nil {
		o.Fatal(err)
	}
}

// demo is the built-in demo and its page in a file.
var demo = sync.OnceValues(func() (d struct {
	*job.Mockup
	file string
}, err error) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		return d, err
	}
	if d.Mockup, err = job.New(p); err != nil {
		return d, err
	}
	var b bytes.Buffer
	if err := job.WritePage(d.Mockup, &b, job.Preview); err != nil {
		return d, err
	}
	dir, err := os.MkdirTemp("", "page")
	if err != nil {
		return d, err
	}
	d.file = filepath.Join(dir, "share.html")
	return d, os.WriteFile(d.file, b.Bytes(), 0o644)
})

// walked is the tab with the demo's page, its booth drawn with its pictures. All tests of the walk share it: readying it takes
// seconds without a graphics card. The canvas keeps its pixels, and spent has what each picture cost of the processor, in ms.
var walked = sync.OnceValues(func() (context.Context, error) {
	d, err := demo()
	if err != nil {
		return nil, err
	}
	all, err := browser()
	if err != nil {
		return nil, err
	}
	ctx, _ := chromedp.NewContext(all)
	const before = `window.spent = []; (() => {
		const get = HTMLCanvasElement.prototype.getContext, next = window.requestAnimationFrame.bind(window);
		HTMLCanvasElement.prototype.getContext = function (kind, o) { return get.call(this, kind, {...o, preserveDrawingBuffer: true}); };
		window.uncounted = next;
		window.requestAnimationFrame = (f) => next((now) => { const t = performance.now(); f(now); spent.push(performance.now() - t); }); })();`
	if err := chromedp.Do(ctx); err != nil {
		return nil, err
	}
	if _, err := chromedp.Call(ctx, cdp.AddScriptToEvaluateOnNewDocument, cdp.AddScriptToEvaluateOnNewDocumentParams{Source: before}); err != nil {
		return nil, err
	}
	return ctx, chromedp.Do(ctx, chromedp.Navigate("file://"+d.file+"#walk"))
})

// openDemo shows the demo's page as it is when it is opened in a window of this size.
func openDemo(t *testing.T, width, height int64) tab {
	t.Helper()
	needed(t, chromium)
	ctx, err := walked()
	if err != nil {
		t.Fatal(err)
	}
	o := tab{t, ctx}
	o.do(chromedp.EmulateViewport(width, height, chromedp.EmulateScale(1)))
	o.media("", "prefers-color-scheme", "")
	o.until(`document.getElementById('stage').dataset.ready === 'yes'`)
	eval[any](o, `location.hash = '#walk'; document.documentElement.style.fontSize = ''; scrollTo(0, 0);
		document.getElementById('stage').removeAttribute('style'); document.querySelector('.stage').removeAttribute('style');
		for (const id of ['show-way', 'show-hidden']) if (document.getElementById(id).checked) document.getElementById(id).click();
		document.getElementById('card-shut').click(); 0`)
	o.stand("entrance")
	return o
}

// at is where the visitor is: x and z in metres, yaw in radians, the slope of their look.
func (o tab) at() (x, z, yaw, shift float64) {
	o.Helper()
	f := strings.Fields(eval[string](o, `document.getElementById('stage').dataset.at`))
	var v [4]float64
	for i := range v {
		v[i], _ = strconv.ParseFloat(f[i], 64)
	}
	return v[0], v[1], v[2], v[3]
}

// stand chooses a view.
func (o tab) stand(view string) {
	o.Helper()
	eval[bool](o, `(() => { const s = document.getElementById('view'); s.value = '`+view+`'; s.dispatchEvent(new Event('change'));
		return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true)))); })()`)
}

// saved is text as a file in a folder of the test.
func saved(t *testing.T, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "share.html")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}
