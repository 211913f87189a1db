//go:build !race && !js

package whole_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"boothmock/internal/browser"
	"boothmock/internal/job"
	"boothmock/internal/whole"
	"boothmock/scenes/crowd"
)

func TestMain(m *testing.M) { browser.Main(m) }

// built is the page with the program as it is in the source, which takes Go's builder and a while; or the file that WHOLE_PAGE names.
func built(t *testing.T) []byte {
	t.Helper()
	if os.Getenv("WHOLE_PAGE") == "" && os.Getenv("REQUIRE_TOOLS") == "" {
		t.Skip("neither REQUIRE_TOOLS nor WHOLE_PAGE is set")
	}
	file, err := wholePage()
	if err != nil {
		t.Fatal(err)
	}
	if most := 9_000_000; len(file) > most { // it is sent by post and carried on sticks
		t.Errorf("the page has %d bytes, and may have %d", len(file), most)
	}
	return file
}

var wholePage = sync.OnceValues(func() ([]byte, error) {
	if name := os.Getenv("WHOLE_PAGE"); name != "" {
		return os.ReadFile(name)
	}
	dir, err := os.MkdirTemp("", "carried")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if out, err := exec.Command("bash", "../../.ci/carried", dir).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%w: %s", err, out)
	}
	var parts [3][]byte
	for i, name := range []string{"engine.wasm.gz", "wasm_exec.js", "terms.txt"} {
		if parts[i], err = os.ReadFile(filepath.Join(dir, name)); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	err = whole.Write(&b, whole.Parts{Engine: parts[0], Exec: string(parts[1]), Terms: string(parts[2])}, "of a test")
	return b.Bytes(), err
})

// before keeps what the page saves, by its name, in place of saving it, and what went wrong in its scripts.
const before = `window.files = {}; window.broken = '';
	addEventListener('error', (e) => e.error && (broken += e.message)); addEventListener('unhandledrejection', (e) => (broken += e.reason));
	{ const made = URL.createObjectURL, named = {}; URL.createObjectURL = (b) => { const url = made.call(URL, b); named[url] = b; return url; };
	HTMLAnchorElement.prototype.click = function () { files[this.download] = named[this.href]; }; }`

// tab is a page with the program, open in Chromium.
type tab struct{ browser.Tab }

func open(t *testing.T) tab { return openWith(t, before) }

// openWith is an empty tab in a browser that keeps no booth of another test: with one that asks something, nothing can be dropped.
func openWith(t *testing.T, before string) tab {
	t.Helper()
	o := tab{browser.Open(t, 1440, 900, before)}
	empty := filepath.Join(t.TempDir(), "empty.html")
	if err := os.WriteFile(empty, []byte("<!doctype html>"), 0o644); err != nil {
		t.Fatal(err)
	}
	o.Do(chromedp.Navigate("file://" + empty))
	eval[any](o, `new Promise((done, no) => { const r = indexedDB.deleteDatabase('boothmock'); r.onsuccess = () => done(0); r.onerror = no; })`)
	return o
}

func eval[T any](o tab, js string) T {
	o.Helper()
	return browser.Eval[T](o.Tab, js)
}

// until waits for a JavaScript expression to be true, or for a script to break.
func (o tab) until(js string) {
	o.Helper()
	o.Until(`(` + js + `) || broken`)
	if text := eval[string](o, `broken`); text != "" {
		o.Fatal(text)
	}
}

// ready goes to an address and waits for its booth.
func (o tab) ready(address string) {
	o.Helper()
	o.Do(chromedp.Navigate(address))
	o.until(`document.documentElement.dataset.ready && document.documentElement.dataset.at || !document.getElementById('trouble').hidden`)
	if text := o.text("trouble"); text != "" {
		o.Fatal(text)
	}
}

// text is what an element says.
func (o tab) text(id string) string {
	o.Helper()
	return eval[string](o, fmt.Sprintf(`document.getElementById(%q).textContent`, id))
}

// idle waits until the page has done what it was asked for.
func (o tab) idle() {
	o.Helper()
	o.until(`document.getElementById('busy').textContent === ''`)
}

// titled waits for a booth of that name, or for what is wrong.
func (o tab) titled(name string) {
	o.Helper()
	o.until(fmt.Sprintf(`document.getElementById('title').textContent.includes(%q) || !document.getElementById('wrong').hidden`, name))
	if text := o.text("wrong"); text != "" {
		o.Fatal(text)
	}
	o.idle()
}

// file is one that the page has saved.
func (o tab) file(name string) []byte {
	o.Helper()
	o.until(fmt.Sprintf(`files[%q] || document.getElementById('busy').textContent === ''`, name))
	text := eval[string](o, fmt.Sprintf(`new Promise((done) => { const r = new FileReader(); r.onload = () => done(r.result.split(',')[1] || ''); r.readAsDataURL(files[%q]); })`, name))
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		o.Fatal(err)
	}
	return file
}

// saved is a file that the page makes, as its browser would save it.
func (o tab) saved(which, name string) []byte {
	o.Helper()
	o.idle()
	eval[any](o, fmt.Sprintf(`document.getElementById('output').value = %q; document.getElementById('make').click(); 0`, which))
	return o.file(name)
}

// choose gives the page files, by their names, as somebody who chose them.
func (o tab) choose(files ...string) {
	o.Helper()
	var add strings.Builder
	for i := 0; i < len(files); i += 2 {
		fmt.Fprintf(&add, "d.items.add(new File([Uint8Array.from(atob(%q), (c) => c.charCodeAt(0))], %q));", base64.StdEncoding.EncodeToString([]byte(files[i+1])), files[i])
	}
	eval[any](o, `(() => { const d = new DataTransfer(); `+add.String()+` const i = document.getElementById('choose-files'); i.files = d.files; i.dispatchEvent(new Event('change')); })()`)
	o.idle()
}

// dropped lets a file or a folder of this computer fall onto the box.
func (o tab) dropped(path string) {
	o.Helper()
	at := eval[[2]float64](o, `(() => { const e = document.getElementById('drop'); e.scrollIntoView({block: 'center'}); const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + 8]; })()`)
	for _, kind := range []input.DispatchDragEventType{input.DispatchDragEventTypeDragEnter, input.DispatchDragEventTypeDragOver, input.DispatchDragEventTypeDrop} {
		p := input.DispatchDragEventParams{Type: kind, X: at[0], Y: at[1], Data: &input.DragData{Items: []*input.DragDataItem{}, Files: []string{path}, DragOperationsMask: 1}}
		if _, err := chromedp.Call(o.Ctx, input.DispatchDragEvent, p); err != nil {
			o.Fatal(err)
		}
	}
}

// accessible holds what this package adds to the page of package try against axe-core's rules for WCAG 2.2, levels A and AA.
func (o tab) accessible() {
	o.Helper()
	o.Axe("../..")
	if found := eval[[]string](o, `axe.run('#take', {preload: false, resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}).then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.html).join(' ')))`); len(found) > 0 {
		o.Errorf("axe: %s", strings.Join(found, "\n"))
	}
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

// works says how the works of the booth hang.
const works = `[...document.querySelectorAll('#elevation .work')].map((w) => w.getAttribute('transform') + w.getAttribute('aria-label')).join()`

// From an address the page is the whole program: the demo is changed by keys, and the change is there after the page was shut; a scene is
// given to it, and what it saves is what the program for computers writes; a scene that is wrong changes nothing; nobody is asked
// for anything; and all of it is forgotten when that is wished.
func TestThePageIsTheWholeProgram(t *testing.T) {
	file := built(t)
	var asked atomic.Int32
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Add(1)
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write(file)
	}))
	defer server.Close()
	o := open(t)
	o.ready(server.URL)
	o.Shot("begun")
	if line := o.text("line"); !strings.Contains(line, "READY") {
		t.Errorf("the demo's verdict is %q", line)
	}

	at := eval[string](o, `document.documentElement.dataset.at`)
	eval[any](o, `document.querySelector('#elevation .work').focus(); 0`)
	o.Do(chromedp.KeyEvent(kb.ArrowDown))
	o.until(fmt.Sprintf(`document.documentElement.dataset.at !== %q && document.title.startsWith('•') && document.querySelector('#elevation .work')`, at))
	moved := eval[string](o, works)
	eval[any](o, `new Promise((done) => (function look() { const r = indexedDB.open('boothmock'); r.onsuccess = () => { const k = r.result.transaction('files').objectStore('files').get('/booths/demo/booth.yaml.unsaved');
		k.onsuccess = () => { r.result.close(); k.result ? done(0) : setTimeout(look, 50); }; }; })())`)
	o.ready(server.URL)
	o.until(`document.querySelector('#elevation .work')`)
	if again := eval[string](o, works); again != moved || moved == "" {
		t.Errorf("after the page was shut the works are at\n%s\nand were at\n%s", again, moved)
	}
	o.accessible()

	o.choose("booth.yaml", small)
	o.titled("Two prints")
	o.sameAsNative("booths/booth", []byte(small), "entrance.png", "plan.png", "booth.glb", "hang.json", "findings.json", "timeline.svg", "print-pack.pdf")
	o.Shot("two prints")
	o.choose("booth.yaml", "units: in\npitch: {width: 10ft, depht: 10ft}\n")
	if text := o.text("wrong"); !strings.Contains(text, "booth.yaml:2:") || !strings.Contains(text, "depth") {
		t.Errorf("of a scene that is wrong it says %q", text)
	}
	if text := o.text("said"); text != "" {
		t.Errorf("beside what is wrong it says %q", text)
	}
	o.Shot("wrong")
	if title := o.text("title"); !strings.Contains(title, "Two prints") {
		t.Errorf("a scene that is wrong took the place of the one that was open: %s", title)
	}

	// The demo, which was left for another booth, is still there.
	o.keys("#booths", "demo", "#go-on")
	o.until(fmt.Sprintf(`%s === %q`, works, moved))

	if n := asked.Load(); n != 2 {
		t.Errorf("the page asked its server %d times, and was opened twice", n)
	}
	if names := eval[[]string](o, `performance.getEntriesByType('resource').map((e) => e.name).filter((n) => !n.startsWith('blob:'))`); len(names) > 0 {
		t.Errorf("the page asked for %v", names)
	}

	o.idle()
	o.Size(390, 844)
	if last := eval[string](o, `[...document.querySelectorAll('main button')].filter((b) => b.getClientRects().length).reduce((a, b) => (b.getBoundingClientRect().top > a.getBoundingClientRect().top ? b : a)).id`); last != "forget" {
		t.Errorf("on a phone the last button is %q", last)
	}
	eval[any](o, `document.getElementById('forget').click(); 0`)
	o.Shot("forget")
	if text := eval[string](o, `document.activeElement.textContent`); text != "Keep them" {
		t.Errorf("asked whether all is to be deleted, the focus is on %q", text)
	}
	eval[any](o, `window.old = true; document.querySelector('#ask-hands button:last-child').click(); 0`)
	o.loadedAnew()
	if kept := eval[[]string](o, `[...document.getElementById('booths').options].map((o) => o.value)`); len(kept) != 1 || kept[0] != "demo" || eval[string](o, works) == moved {
		t.Errorf("after all was forgotten there are %v", kept)
	}
}

// loadedAnew waits until the page has loaded itself once more: what waits in a page goes with it, so it is asked again and again.
func (o tab) loadedAnew() {
	o.Helper()
	for late := time.Now().Add(browser.Patience); time.Now().Before(late); time.Sleep(50 * time.Millisecond) {
		there, err := chromedp.Run(o.Ctx, chromedp.Evaluate[bool](`!window.old && Boolean(document.documentElement.dataset.ready)`))
		if err == nil && there {
			return
		}
	}
	o.Fatal("the page was not loaded anew")
}

// keys chooses from a list and presses a button, with the keyboard alone.
func (o tab) keys(list, value, button string) {
	o.Helper()
	eval[any](o, fmt.Sprintf(`document.querySelector(%q).focus(); 0`, list))
	o.Do(chromedp.KeyEvent(value))
	for range 9 {
		if eval[bool](o, fmt.Sprintf(`document.activeElement === document.querySelector(%q)`, button)) {
			break
		}
		o.Do(chromedp.KeyEvent(kb.Tab))
	}
	o.Do(chromedp.KeyEvent(kb.Enter))
}

// From a folder it is too: a folder with photographs and a list is dropped on it and becomes a booth, with a print pack and a page to hand
// over; saved as a ZIP it is opened by the program for computers, which writes the same bytes, and by the page again.
func TestAFolderBecomesABooth(t *testing.T) {
	path := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(path, built(t), 0o644); err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(t.TempDir(), "My prints")
	for name, file := range map[string][]byte{
		"works.csv": []byte("Photo,Title,Size,Price\nweir.jpg,The weir,24 x 36 in,480\ncarr.jpg,Alder carr,20 x 16 in,220\n"), ".hidden": []byte("of the computer"),
		"weir.jpg": photograph(t, 720, 480), "carr.jpg": photograph(t, 320, 400),
	} {
		os.MkdirAll(folder, 0o755)
		if err := os.WriteFile(filepath.Join(folder, name), file, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	// Whoever does not let the page write into the folder gets files as browsers save them.
	o := openWith(t, before+`FileSystemHandle.prototype.requestPermission = async () => 'denied';`)
	o.ready("file://" + path)
	o.dropped(folder)
	o.titled("My prints")
	o.Shot("folder")
	for name, begins := range map[string]string{"print-pack.pdf": "%PDF-", "share.html": "<!doctype html>"} {
		if file := o.saved(name, name); !strings.HasPrefix(strings.ToLower(string(file[:min(len(file), 20)])), strings.ToLower(begins)) || len(file) < 20_000 {
			t.Errorf("%s has %d bytes and begins with %q", name, len(file), file[:min(len(file), 20)])
		}
	}
	packed := o.saved(":scene", "My prints.zip")
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.CopyFS("booths/My prints", z); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat("booths/My prints/.hidden"); err == nil {
		t.Error("what the computer hides was taken along")
	}
	o.sameAsNative("booths/My prints", nil, "hang.json", "findings.json", "entrance.png")

	o.choose("My prints.zip", string(packed))
	o.titled("My prints 2")
	o.choose("carr.jpg", string(photograph(t, 40, 40))) // without a list there are bare walls, and it is asked about
	o.titled("Carr")
	o.until(`document.getElementById('ask').open && document.querySelectorAll('#ask-fields input').length === 2`)
	o.ready("file://" + path)
	if title := o.text("title"); title != "Carr" {
		t.Errorf("opened again it shows %s", title)
	}
}

// On a slow computer too the page answers while the daylight is worked out: what is moved meanwhile is answered first, and the daylight of
// the last is what comes.
func TestASlowComputer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(path, built(t), 0o644); err != nil {
		t.Fatal(err)
	}
	o := openWith(t, before+`window.come = []; addEventListener('DOMContentLoaded', () => new MutationObserver((list) => list.forEach((r) => come.push(r.target.id === 'stage' ? r.target.dataset.lit : r.target.dataset.at))).observe(document, {attributes: true, subtree: true, attributeFilter: ['data-at', 'data-lit']}));`)
	if _, err := chromedp.Call(o.Ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4}); err != nil {
		t.Fatal(err)
	}
	o.ready("file://" + path)
	o.until(`document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' full'`)
	eval[any](o, `come.length = 0; document.querySelector('#elevation .work').focus(); 0`)
	for range 2 {
		at := eval[string](o, `document.documentElement.dataset.at`)
		o.Do(chromedp.KeyEvent(kb.ArrowDown))
		o.until(fmt.Sprintf(`document.documentElement.dataset.at !== %q && document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' quick'`, at))
	}
	o.until(`document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' full'`)
	come := slices.Compact(eval[[]string](o, `come`))
	if len(come) != 5 || come[1] != come[0]+" quick" || come[3] != come[2]+" quick" || come[4] != come[2]+" full" {
		t.Errorf("two moves brought %q", come)
	}
}

// A booth of thirty works, in its daylight and with a picture and a print pack made, takes 600 MB at most.
func TestMemoryOfThirtyWorks(t *testing.T) {
	page := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(page, built(t), 0o644); err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(t.TempDir(), "Thirty")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := crowd.Write(folder, 30); err != nil {
		t.Fatal(err)
	}
	o := openWith(t, before+`FileSystemHandle.prototype.requestPermission = async () => 'denied';`)
	o.ready("file://" + page)
	o.dropped(folder)
	o.until(`document.querySelectorAll('#elevation .work').length === 30 && document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' full'`)
	t.Logf("in its daylight it takes %d MB", eval[int](o, `Number(document.documentElement.dataset.memory)`)/1e6)
	for _, name := range []string{"entrance.png", "print-pack.pdf"} {
		if len(o.saved(name, name)) == 0 {
			t.Errorf("there is no %s", name)
		}
	}
	bytes := eval[int](o, `Number(document.documentElement.dataset.memory)`)
	if t.Logf("with a picture and a print pack it takes %d MB", bytes/1e6); bytes == 0 || bytes > 600<<20 {
		t.Errorf("it takes %d bytes", bytes)
	}
}

// photograph is a JPEG of colours that change from edge to edge.
func photograph(t *testing.T, w, h int) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, color.RGBA{uint8(255 * x / w), uint8(255 * y / h), uint8(x ^ y), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Files of a stranger do no harm: a ZIP does not leave its folder, words of a scene run nothing, and a photograph that takes more memory
// than there may be ends the program, which is started again with the booth that was open, and the page says so.
func TestFilesOfAStranger(t *testing.T) {
	file := built(t)
	const least = "mostMemory = 230e6" // so that the test is soon over
	page := bytes.Replace(file, []byte("mostMemory = 1 << 30"), []byte(least), 1)
	if bytes.Equal(page, file) {
		t.Fatal("the page says nowhere how much memory there may be")
	}
	path := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(path, page, 0o644); err != nil {
		t.Fatal(err)
	}
	o := open(t)
	o.ready("file://" + path)
	o.choose("booth.yaml", strings.ReplaceAll(small, "Two prints", `"<img src=x onerror='broken = 1'><script>broken = 2</script>Two prints"`))
	o.titled("Two prints")

	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.CreateHeader(&zip.FileHeader{Name: "../booth/booth.yaml"})
	z.Close()
	o.choose("away.zip", b.String())
	if text := o.text("wrong"); !strings.Contains(text, `"../booth/booth.yaml" in this ZIP cannot be put into a folder`) {
		t.Errorf("of a ZIP that would leave its folder it says %q", text)
	}

	o.choose("vast.png", plain(t, 9000), "works.csv", "Photo,Title,Size\nvast.png,Vast,24 x 24 in\n")
	if text := o.text("said"); !strings.Contains(text, "9000 x 9000 pixels, more than can be read") {
		t.Errorf("of a photograph that is too large it says %q", text)
	}
	o.choose("booth.yaml", small)
	o.choose("large.png", plain(t, 7000), "works.csv", "Photo,Title,Size\nlarge.png,Large,24 x 24 in\n")
	o.until(`document.getElementById('wrong').textContent.includes('more memory')`)
	o.until(`document.getElementById('title').textContent.includes('Two prints')`)
	o.Shot("ended")
	o.idle()
	if kept := eval[[]string](o, `[...document.getElementById('booths').options].map((o) => o.value)`); slices.Contains(kept, "large") || !slices.Contains(kept, "vast") {
		t.Errorf("kept are %v", kept)
	}
	if got := o.saved("hang.json", "hang.json"); len(got) == 0 {
		t.Error("the program does not work any more")
	}
}

// plain is a picture of one colour as PNG: few bytes, and many when it is read.
func plain(t *testing.T, side int) string {
	t.Helper()
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, image.NewRGBA(image.Rect(0, 0, side, side))); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// sameAsNative compares what the page saves with what this computer writes of the same scene: that text, or what lies in the folder.
func (o tab) sameAsNative(folder string, scene []byte, names ...string) {
	o.Helper()
	path := folder + "/booth.yaml" // as the page calls it
	if scene != nil {
		o.Chdir(o.TempDir())
		os.MkdirAll(folder, 0o755)
		if err := os.WriteFile(path, scene, 0o644); err != nil {
			o.Fatal(err)
		}
	}
	plan, err := job.Load(path, job.Settings{})
	if err != nil {
		o.Fatal(err)
	}
	m, err := job.New(plan)
	if err != nil {
		o.Fatal(err)
	}
	outputs := job.Outputs(m)
	for _, name := range names {
		k := slices.IndexFunc(outputs, func(out job.Output) bool { return out.Name == name })
		if k < 0 {
			o.Fatalf("there is no %s", name)
		}
		var want bytes.Buffer
		if err := outputs[k].Write(m, &want); err != nil {
			o.Fatal(err)
		}
		got := o.saved(name, name)
		if strings.HasSuffix(name, ".png") {
			if n := apart(o.T, got, want.Bytes()); n > 2 {
				o.Errorf("%s of the page is %d levels off", name, n)
			}
		} else if !bytes.Equal(got, want.Bytes()) {
			o.Errorf("%s of the page has other bytes", name)
		}
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
