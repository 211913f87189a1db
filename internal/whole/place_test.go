//go:build !race && !js

package whole_test

import (
	"encoding/base64"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// inPrivate has the page pick folders of the browser's own private disk, whose handles are those of folders of the computer
// (File System Standard, WHATWG), and gives ways to look into it.
const inPrivate = `window.folder = async (...names) => { let d = await navigator.storage.getDirectory(); for (const n of names) d = await d.getDirectoryHandle(n, {create: true}); return d; };
	window.showDirectoryPicker = () => folder(...window.pick);
	window.put = async (d, name, bytes) => { const w = await (await d.getFileHandle(name, {create: true})).createWritable(); await w.write(bytes); await w.close(); };
	window.text = async (d, name) => (await (await d.getFileHandle(name)).getFile()).text();`

// Where the browser writes to folders, a booth is saved in the one that it was chosen from: what changed, and nothing that somebody else
// changed meanwhile unless that is wished; also after the page was shut. A booth of no folder gets one of its own.
func TestSavedInPlace(t *testing.T) {
	file := built(t)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write(file)
	}))
	defer server.Close()
	o := openWith(t, before+inPrivate)
	o.ready(server.URL)
	picked := func(folder string) {
		o.Helper()
		eval[any](o, fmt.Sprintf(`window.pick = %s; 0`, folder))
	}
	texts := func(name string) string {
		o.Helper()
		return eval[string](o, fmt.Sprintf(`folder('Prints').then((d) => text(d, %q)).catch((e) => e.name)`, name))
	}
	save := func() {
		o.Helper()
		eval[any](o, `document.getElementById('said').textContent = ''; document.getElementById('save').click(); 0`)
		o.until(`document.getElementById('said').textContent || document.getElementById('ask').open`)
	}
	move := func() {
		o.Helper()
		at := eval[string](o, `document.documentElement.dataset.at`)
		eval[any](o, `document.querySelector('#elevation .work').focus(); 0`)
		o.Do(chromedp.KeyEvent(kb.ArrowDown))
		o.until(fmt.Sprintf(`document.documentElement.dataset.at !== %q && document.title.startsWith('•')`, at))
	}

	const list = "Photo,Title,Size\nweir.jpg,The weir,24 x 36 in\n"
	picked(`['Prints']`)
	eval[any](o, fmt.Sprintf(`folder('Prints').then(async (d) => { await put(d, 'works.csv', %q); await put(d, 'weir.jpg', Uint8Array.from(atob(%q), (c) => c.charCodeAt(0))); })`,
		list, base64.StdEncoding.EncodeToString(photograph(t, 72, 48))))
	eval[any](o, `document.getElementById('choose-folder-button').click(); 0`)
	o.titled("Prints")
	if is := texts("booth.yaml"); is != "NotFoundError" {
		t.Errorf("before it is saved the folder has a scene: %s", is)
	}
	move()
	save()
	if said := o.text("said"); !strings.Contains(said, "Saved in the folder Prints on your computer") {
		t.Errorf("saved, it says %q", said)
	}
	first := texts("booth.yaml")
	if !strings.Contains(first, "sheet: works.csv") || texts("works.csv") != list || texts(".boothmock") == "" {
		t.Errorf("the folder has the scene\n%s", first)
	}
	o.Shot("saved in place")

	// Somebody else writes the scene meanwhile.
	theirs := first + "# theirs\n"
	eval[any](o, fmt.Sprintf(`folder('Prints').then((d) => put(d, 'booth.yaml', %q))`, theirs))
	move()
	save()
	o.Shot("overwrite")
	eval[any](o, `document.querySelector('#ask-hands .main').click(); 0`)
	o.until(`document.getElementById('said').textContent.includes('stays as it is')`)
	if is := texts("booth.yaml"); is != theirs {
		t.Errorf("what somebody else wrote is\n%s", is)
	}
	o.ready(server.URL) // shut and opened again
	picked(`['Prints']`)
	move()
	save()
	eval[any](o, `document.querySelector('#ask-hands button:not(.main)').click(); 0`)
	o.until(`document.getElementById('said').textContent.includes('Saved in the folder Prints')`)
	if is := texts("booth.yaml"); is == theirs || is == first {
		t.Errorf("written over by wish, the folder has\n%s", is)
	}

	eval[any](o, `document.getElementById('output').value = 'hang.json'; document.getElementById('make').click(); 0`)
	o.until(`document.getElementById('said').textContent.includes('is saved in mockup in the folder Prints')`)
	o.idle()
	if made := eval[string](o, `folder('Prints', 'mockup').then((d) => text(d, 'hang.json'))`); !strings.Contains(made, "weir") {
		t.Errorf("the file that was made says %q", made)
	}

	picked(`['Fairs']`)
	eval[any](o, `document.getElementById('demo').click(); 0`)
	o.titled("Lower Fennick")
	eval[any](o, `document.getElementById('into').click(); 0`)
	o.until(`document.getElementById('said').textContent.includes('Saved in the folder demo')`)
	if n := eval[int](o, `folder('Fairs', 'demo 2', 'art').then(async (d) => { let n = 0; for await (const k of d.values()) n++; return n; })`); n != 12 {
		t.Errorf("the demo came with %d photographs", n)
	}
}
