//go:build !race && !js

package whole_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/browser"
)

// In the other engines too the page is the program: opened from a folder it shows the demo, a work is moved by a key, the booth is taken
// along as a file, and the change is there when the page is loaded anew.
func TestInOtherEngines(t *testing.T) {
	file := filepath.Join(t.TempDir(), "boothmock.html")
	if err := os.WriteFile(file, built(t), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, e := range browser.Others {
		t.Run(e.Name, func(t *testing.T) {
			p := e.Visit(t, "file://"+file, "file://"+file)
			const arrowDown = "\ue015" // WebDriver, section 15.4.2, normalised key values
			const ready = `document.documentElement?.dataset.ready && document.documentElement.dataset.at && document.querySelector('#elevation .work') || document.getElementById('trouble')?.hidden === false`
			p.Until(ready)
			if text := browser.Read[string](p, `document.getElementById('trouble').textContent`); text != "" {
				t.Fatal(text)
			}
			if line := browser.Read[string](p, `document.getElementById('line').textContent`); !strings.Contains(line, "READY") {
				t.Errorf("the demo's verdict is %q", line)
			}
			t.Logf("missing here, with something else in its place: %v", browser.Read[[]string](p, `['getAsFileSystemHandle' in DataTransferItem.prototype ? '' : 'handles of what is dropped', 'locks' in navigator ? '' : 'locks'].filter(Boolean)`))
			browser.Read[any](p, `document.querySelector('#elevation .work').focus()`)
			p.Type(arrowDown)
			p.Until(`document.title.startsWith('•')`)
			moved := browser.Read[string](p, works)
			browser.Read[any](p, `(document.getElementById('output').value = ':scene', document.getElementById('make').click())`)
			p.Until(`document.getElementById('said').textContent.startsWith('demo.zip is saved')`)
			browser.Read[any](p, `(document.documentElement.dataset.ready = '', setTimeout(() => location.reload()))`)
			p.Until(ready)
			if again := browser.Read[string](p, works); again != moved || moved == "" {
				t.Errorf("after the page was shut the works are at\n%s\nand were at\n%s", again, moved)
			}
		})
	}
}
