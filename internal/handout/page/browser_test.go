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

	"github.com/chromedp/chromedp"

	"boothmock/internal/browser"
	"boothmock/internal/job"
)

func TestMain(m *testing.M) { browser.Main(m) }

// tab is a page open in Chromium.
type tab struct{ browser.Tab }

// open opens a file in a tab of its own, of a size, after running a script in it if there is one.
func open(t *testing.T, file string, width, height int64, before string) tab {
	t.Helper()
	o := tab{browser.Open(t, width, height, before)}
	o.Do(chromedp.Navigate("file://" + file))
	return o
}

func eval[T any](o tab, js string) T {
	o.Helper()
	return browser.Eval[T](o.Tab, js)
}

const place = `document.getElementById('stage').dataset.at` // where the visitor stands and looks

// mocked is a booth and its page in a file.
type mocked struct {
	*job.Mockup
	file string
}

// demo is the built-in demo.
var demo = sync.OnceValues(func() (mocked, error) { return shared("") })

// shared reads a scene and writes its page.
func shared(path string) (d mocked, err error) {
	p, err := job.Load(path, job.Settings{})
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
}

// walked is the tab with the demo's page, its booth drawn with its pictures. All tests of the walk share it: readying it takes
// seconds without a graphics card. The canvas keeps its pixels, and spent has what each picture cost of the processor, in ms.
var walked = sync.OnceValues(func() (context.Context, error) {
	d, err := demo()
	if err != nil {
		return nil, err
	}
	ctx, _, err := browser.NewTab(`window.spent = []; (() => {
		const get = HTMLCanvasElement.prototype.getContext;
		HTMLCanvasElement.prototype.getContext = function (kind, o) { return get.call(this, kind, {...o, preserveDrawingBuffer: true}); };
		window.requestAnimationFrame = (f) => nextFrame((now) => { const t = performance.now(); f(now); spent.push(performance.now() - t); }); })();`)
	if err != nil {
		return nil, err
	}
	return ctx, chromedp.Do(ctx, chromedp.Navigate("file://"+d.file+"#walk"))
})

// openDemo shows the demo's page as it is when it is opened in a window of this size.
func openDemo(t *testing.T, width, height int64) tab {
	t.Helper()
	browser.Needed(t, browser.Chromium)
	ctx, err := walked()
	if err != nil {
		t.Fatal(err)
	}
	o := tab{browser.Tab{T: t, Ctx: ctx}}
	o.Size(width, height)
	o.Media("", "prefers-color-scheme", "")
	o.Until(`document.getElementById('stage').dataset.ready === 'yes'`)
	eval[any](o, fmt.Sprintf(`fine = %v; location.hash = '#walk'; document.documentElement.style.fontSize = ''; scrollTo(0, 0);
		document.getElementById('stage').removeAttribute('style'); document.querySelector('.stage').removeAttribute('style');
		for (const id of ['show-way', 'show-hidden']) if (document.getElementById(id).checked) document.getElementById(id).click();
		document.getElementById('card-shut').click(); 0`, browser.Coarse))
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
