//go:build !race

package page_test

import (
	"testing"

	"boothmock/internal/browser"
)

// In WebKit and in Firefox the page opens on the set-up, a step is begun and ticked by hand, and the walk is drawn or says that it cannot be.
func TestOtherEnginesSetUp(t *testing.T) {
	for _, e := range browser.Others {
		t.Run(e.Name, func(t *testing.T) {
			address := "file://" + saved(t, write(t, hung(t)))
			p := e.Visit(t, address, address)
			p.Until(`document.title.startsWith('Set up · ')`)
			p.Click("#step-next")
			p.Until(`document.querySelector('.step.now')`)
			p.Click(".step.now label.tick")
			p.Until(`document.querySelector('.step [data-tick]').checked && document.querySelector('.step.now').dataset.number !== '1'`)
			p.Click(`nav a[href="#walk"]`)
			p.Until(`document.querySelector('#walk.current')`)
			if !browser.Read[bool](p, `document.getElementById('unable').getClientRects().length > 0`) {
				t.Error("a page without a model says nothing of it")
			}
			p.Click(`nav a[href="#hang"]`)
			p.Until(`document.querySelector('#hang.current')`)
			p.Click("svg .hung:nth-of-type(2)")
			p.Until(`document.getElementById('hooks-1-2').open`)
		})
	}
}
