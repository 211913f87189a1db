//go:build !race && !js

package whole_test

import (
	"bytes"
	"context"
	"encoding/base64"
	"fmt"
	"image"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"boothmock/internal/job"
	"boothmock/internal/whole"
)

const (
	chromium = "/usr/bin/chromium"
	axe      = "../../.ci/node_modules/axe-core/axe.min.js"
	wait     = 8 * time.Minute // for anything in a tab: then the test fails instead of hanging
)

// built is the page with the program as it is in the source, which takes Go's builder and a while; or the file that WHOLE_PAGE names.
func built(t *testing.T) []byte {
	t.Helper()
	if name := os.Getenv("WHOLE_PAGE"); name != "" {
		file, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return file
	}
	if os.Getenv("REQUIRE_TOOLS") == "" {
		t.Skip("REQUIRE_TOOLS is not set")
	}
	for _, tool := range []string{chromium, axe} {
		if _, err := os.Stat(tool); err != nil {
			t.Fatalf("%s is not there", tool)
		}
	}
	dir := t.TempDir()
	if out, err := exec.Command("bash", "../../.ci/carried", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	parts := map[string][]byte{}
	for _, name := range []string{"engine.wasm.gz", "wasm_exec.js", "terms.txt"} {
		file, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		parts[name] = file
	}
	var page bytes.Buffer
	if err := whole.Write(&page, whole.Parts{Engine: parts["engine.wasm.gz"], Exec: string(parts["wasm_exec.js"]), Terms: string(parts["terms.txt"])}, "of a test"); err != nil {
		t.Fatal(err)
	}
	if most := 9_000_000; page.Len() > most { // it is sent by post and carried on sticks
		t.Errorf("the page has %d bytes, and may have %d", page.Len(), most)
	}
	return page.Bytes()
}

// tab is a page open in the browser.
type tab struct {
	*testing.T
	ctx context.Context
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
	eval[any](o, `new Promise((done) => (function look() { `+js+` ? done(0) : setTimeout(look, 50); })())`)
}

// ready goes to an address and waits for its booth.
func (o tab) ready(address string) {
	o.Helper()
	o.do(chromedp.Navigate(address))
	o.until(`document.documentElement.dataset.ready && document.documentElement.dataset.at || !document.getElementById('trouble').hidden`)
	if text := eval[string](o, `document.getElementById('trouble').textContent`); text != "" {
		o.Fatal(text)
	}
	eval[any](o, `window.files = {}; (() => { const made = URL.createObjectURL; let last; URL.createObjectURL = (b) => { last = b; return made.call(URL, b); };
		HTMLAnchorElement.prototype.click = function () { files[this.download] = last; }; })(); 0`)
}

// shot keeps a picture of the page for whoever looks at it, in the folder that the environment names.
func (o tab) shot(name string) {
	o.Helper()
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	file, err := chromedp.Run(o.ctx, chromedp.FullScreenshot(90))
	if err != nil {
		o.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".jpg"), file, 0o644); err != nil {
		o.Fatal(err)
	}
}

// saved is a file that the page makes, as its browser would save it.
func (o tab) saved(which, name string) []byte {
	o.Helper()
	o.until(`!document.getElementById('make').disabled`)
	eval[any](o, fmt.Sprintf(`document.getElementById('which').value = %q; document.getElementById('make').click(); 0`, which))
	o.until(fmt.Sprintf(`files[%q] || !document.getElementById('wrong').hidden`, name))
	text := eval[string](o, fmt.Sprintf(`new Promise((done) => { const r = new FileReader(); r.onload = () => done(r.result.split(',')[1]); r.readAsDataURL(files[%q]); })`, name))
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		o.Fatal(err)
	}
	return file
}

// choose gives the page files, by their names, as somebody who chose them.
func (o tab) choose(files ...string) {
	o.Helper()
	var add strings.Builder
	for i := 0; i < len(files); i += 2 {
		fmt.Fprintf(&add, "d.items.add(new File([%q], %q));", files[i+1], files[i])
	}
	eval[any](o, `(() => { const d = new DataTransfer(); `+add.String()+` const i = document.getElementById('choose-files'); i.files = d.files; i.dispatchEvent(new Event('change')); })()`)
	o.until(`document.getElementById('busy').textContent === ''`)
}

// small is a scene that is soon lit.
const small = `units: in
pitch: {width: 10ft, depth: 10ft, neighbours: none}
event: Two prints
walls: [{side: back}]
works:
  - {name: weir, title: The weir, size: 24 x 36, price: 100}
  - {name: carr, title: Alder carr, size: 36 x 24, price: 120}
rows: [{wall: back, works: [weir, carr]}]
`

// One file, opened from an address and from a folder, is the whole program: the demo is changed by keys, and the change is there
// after the page was shut; a scene is given to it, and what it saves is what the program for computers writes; a scene that is
// wrong changes nothing; nobody is asked for anything.
func TestThePageIsTheWholeProgram(t *testing.T) {
	file := built(t)
	var asked atomic.Int32
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Add(1)
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write(file)
	}))
	defer server.Close()
	a, quit := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(chromium),
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.NoSandbox, chromedp.Headless, chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.Flag("disable-quic", true))
	defer quit()
	ctx, stop := chromedp.NewContext(a)
	defer stop()
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	ctx, late := context.WithTimeout(ctx, wait)
	defer late()
	o := tab{t, ctx}
	o.do(chromedp.EmulateViewport(1440, 900, chromedp.EmulateScale(1)))
	o.ready(server.URL)
	o.shot("begun")
	if line := eval[string](o, `document.getElementById('line').textContent`); !strings.Contains(line, "READY") {
		t.Errorf("the demo's verdict is %q", line)
	}

	at := eval[string](o, `document.documentElement.dataset.at`)
	eval[any](o, `document.querySelector('#elevation .work').focus(); 0`)
	o.do(chromedp.KeyEvent(kb.ArrowDown))
	o.until(fmt.Sprintf(`document.documentElement.dataset.at !== %q && document.title.startsWith('•')`, at))
	o.until(`document.querySelector('#elevation .work')`)
	where := `[...document.querySelectorAll('#elevation .work')].map((w) => w.getAttribute('transform') + w.getAttribute('aria-label')).join()`
	moved := eval[string](o, where)
	eval[any](o, `new Promise((done) => (function look() { const r = indexedDB.open('boothmock'); r.onsuccess = () => { const k = r.result.transaction('files').objectStore('files').get('/booths/demo/booth.yaml.unsaved');
		k.onsuccess = () => { r.result.close(); k.result ? done(0) : setTimeout(look, 50); }; }; })())`)
	o.ready(server.URL)
	o.until(`document.querySelector('#elevation .work')`)
	if again := eval[string](o, where); again != moved || moved == "" {
		t.Errorf("after the page was shut the works are at\n%s\nand were at\n%s", again, moved)
	}
	o.accessible()
	o.shot("again")

	o.choose("booth.yaml", small)
	o.titled()
	o.sameAsNative()
	o.shot("two prints")
	o.choose("booth.yaml", "units: in\npitch: {width: 10ft, depht: 10ft}\n")
	if text := eval[string](o, `document.getElementById('wrong').textContent`); !strings.Contains(text, "booth.yaml:2:") || !strings.Contains(text, "depth") {
		t.Errorf("of a scene that is wrong it says %q", text)
	}
	o.shot("wrong")
	if title := eval[string](o, `document.getElementById('title').textContent`); !strings.Contains(title, "Two prints") {
		t.Errorf("a scene that is wrong took the place of the one that was open: %s", title)
	}
	if n := asked.Load(); n != 2 {
		t.Errorf("the page asked its server %d times, and was opened twice", n)
	}
	if names := eval[[]string](o, `performance.getEntriesByType('resource').map((e) => e.name).filter((n) => !n.startsWith('blob:'))`); len(names) > 0 {
		t.Errorf("the page asked for %v", names)
	}

	path := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(path, file, 0o644); err != nil {
		t.Fatal(err)
	}
	o.ready("file://" + path)
	o.choose("booth.yaml", small)
	o.titled()
	o.ready("file://" + path)
	if title := eval[string](o, `document.getElementById('title').textContent`); !strings.Contains(title, "Two prints") {
		t.Errorf("opened again from a folder it shows %s", title)
	}
}

// titled waits for the small scene.
func (o tab) titled() {
	o.Helper()
	o.until(`document.getElementById('title').textContent.includes('Two prints') || !document.getElementById('wrong').hidden`)
	if text := eval[string](o, `document.getElementById('wrong').textContent`); text != "" {
		o.Fatal(text)
	}
}

// accessible holds what this package adds to the page of package try against axe-core's rules for WCAG 2.2, levels A and AA.
func (o tab) accessible() {
	o.Helper()
	text, err := os.ReadFile(axe)
	if err != nil {
		o.Fatal(err)
	}
	eval[any](o, string(text)+"; 0")
	if found := eval[[]string](o, `axe.run("#take", {preload: false, resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}).then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.html).join(' ')))`); len(found) > 0 {
		o.Errorf("axe: %s", strings.Join(found, "\n"))
	}
}

// sameAsNative compares what the page saves of the small scene with what this computer writes.
func (o tab) sameAsNative() {
	o.Helper()
	o.Chdir(o.TempDir())
	const path = "booths/booth/booth.yaml" // as the page calls it
	os.MkdirAll(filepath.Dir(path), 0o755)
	if err := os.WriteFile(path, []byte(small), 0o644); err != nil {
		o.Fatal(err)
	}
	plan, err := job.Load(path, job.Settings{})
	if err != nil {
		o.Fatal(err)
	}
	m, err := job.New(plan)
	if err != nil {
		o.Fatal(err)
	}
	compared := 0
	for _, out := range job.Outputs(m) {
		switch out.Name {
		case "entrance.png", "plan.png", "booth.glb", "hang.json", "findings.json", "timeline.svg", "print-pack.pdf":
		default:
			continue
		}
		compared++
		var want bytes.Buffer
		if err := out.Write(m, &want); err != nil {
			o.Fatal(err)
		}
		got := o.saved(out.Name, out.Name)
		if strings.HasSuffix(out.Name, ".png") {
			if n := apart(o.T, got, want.Bytes()); n > 2 {
				o.Errorf("%s of the page is %d levels off", out.Name, n)
			}
		} else if !bytes.Equal(got, want.Bytes()) {
			o.Errorf("%s of the page has other bytes", out.Name)
		}
	}
	if compared != 7 {
		o.Errorf("only %d files were compared", compared)
	}
}

// apart is by how many levels of a channel two pictures differ at most.
func apart(t *testing.T, a, b []byte) int {
	t.Helper()
	var pix [2][]uint8
	for i, file := range [][]byte{a, b} {
		m, err := png.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		switch m := m.(type) {
		case *image.RGBA:
			pix[i] = m.Pix
		case *image.NRGBA:
			pix[i] = m.Pix
		default:
			t.Fatalf("a picture of kind %T", m)
		}
	}
	if len(pix[0]) != len(pix[1]) {
		t.Fatal("the pictures are not of one size")
	}
	most := 0
	for i, v := range pix[0] {
		most = max(most, int(v)-int(pix[1][i]), int(pix[1][i])-int(v))
	}
	return most
}
