//go:build !race

package try_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/browser"
)

// In the other engines too a work is dragged to another wall, a number is typed, the booth is saved, and the file says so.
func TestInOtherEngines(t *testing.T) {
	for _, e := range browser.Others {
		t.Run(e.Name, func(t *testing.T) {
			s, path := session(t)
			before := contents(t, path)
			address := serve(t, s)
			base, _, _ := strings.Cut(address, "?")
			e.Blind = true
			p := e.Visit(t, address, base)
			at := 0
			// done waits for a later state with nothing asked any more, or for what is refused.
			done := func(said string) {
				t.Helper()
				p.Until(fmt.Sprintf(`!Number(document.documentElement.dataset.asking) && (Number(document.documentElement.dataset.at) > %d || document.querySelector('#said.wrong'))`, at))
				if got := browser.Read[string](p, `document.getElementById('said').textContent`); !strings.HasPrefix(got, said) {
					t.Fatalf("it says %q, not %q", got, said)
				}
				at = browser.Read[int](p, `Number(document.documentElement.dataset.at)`)
			}
			done("")
			x1, y1 := p.Middle(work("work/orchard"))
			x0, y0 := p.Where(work("work/heron"))
			p.Drag(x0, y0, x1, y1)
			done("Heron at the weir and")
			browser.Read[any](p, `(() => { const i = document.querySelector('#label [data-field=centre]'); i.focus(); i.select(); })()`)
			p.Type("59 1/2" + browser.EnterKey)
			done("The row on the left wall: height of the middles 59 1/2")
			p.Click("#save")
			done("Saved in ")
			_, come := changedLines(before, contents(t, path))
			if want := []string{"  - {wall: left, works: [heron, moths, thistle, bunting], centre: 59 1/2}", "  - {wall: right, works: [weir, quince, orchard], centre: 60}"}; !slices.Equal(come, want) {
				t.Errorf("the file says %q, want %q", come, want)
			}
		})
	}
}
