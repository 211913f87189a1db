//go:build !race

package try_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"boothmock/internal/browser"
	"boothmock/internal/try"
)

func TestMain(m *testing.M) { browser.Main(m) }

// tab is a page open in Chromium.
type tab struct{ browser.Tab }

func eval[T any](o tab, js string) T {
	o.Helper()
	return browser.Eval[T](o.Tab, js)
}

// blind has no canvas draw anything, as in a browser that cannot: all is much quicker without the walk.
const blind = `HTMLCanvasElement.prototype.getContext = () => null;`

// open shows a session in a tab of its own, of a size, with the walk or without.
func open(t *testing.T, s *try.Session, width, height int64, walk bool) tab {
	t.Helper()
	if walk {
		return openWith(t, s, width, height, "")
	}
	return openWith(t, s, width, height, blind)
}

// openWith has a script run before the page's own.
func openWith(t *testing.T, s *try.Session, width, height int64, before string) tab {
	t.Helper()
	o := tab{browser.Open(t, width, height, before)}
	o.Do(chromedp.Navigate(serve(t, s)))
	o.Until(`document.documentElement.dataset.at`)
	return o
}

// lit waits until the walk shows the state in a light: the quick one, or the full one that follows it.
func (o tab) lit(kind string) {
	o.Helper()
	kinds := map[string]string{"quick": `['quick', 'full']`, "full": `['full']`}[kind]
	o.Until(kinds + `.some((k) => document.getElementById('stage').dataset.lit === document.documentElement.dataset.at + ' ' + k)`)
}

// state is the number of the state that is shown.
func (o tab) at() int {
	o.Helper()
	return eval[int](o, `Number(document.documentElement.dataset.at)`)
}

// after waits until a later state than that is shown and nothing is asked any more.
func (o tab) after(at int) {
	o.Helper()
	o.Until(fmt.Sprintf(`!Number(document.documentElement.dataset.asking) && (Number(document.documentElement.dataset.at) > %d || document.querySelector('#said.wrong'))`, at))
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

// drag takes something by its middle to a place in the window, and waits for what comes of it.
func (o tab) drag(selector string, to func() (x, y float64)) {
	o.Helper()
	at := o.at()
	x, y := o.lift(selector, to)
	o.Mouse("mouseReleased", x, y)
	o.after(at)
}

// lift takes something to a place without letting go.
func (o tab) lift(selector string, to func() (x, y float64)) (x1, y1 float64) {
	o.Helper()
	o.middle(selector)
	x1, y1 = to() // which may scroll
	x0, y0 := o.where(selector)
	o.Mouse("mouseMoved", x0, y0)
	o.Mouse("mousePressed", x0, y0)
	for k := 1; k <= 4; k++ {
		o.Mouse("mouseMoved", x0+(x1-x0)*float64(k)/4, y0+(y1-y0)*float64(k)/4)
	}
	eval[any](o, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))`)
	return x1, y1
}

// A work is dragged to another wall, another onto a third, a number is typed, and the file says so in its own words.
func TestWorksAreDragged(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	o := open(t, s, 1440, 900, true)
	o.lit("quick")
	o.Shot("desk")
	x, y := o.lift(work("work/heron"), func() (float64, float64) { return o.middle(work("work/orchard")) })
	o.Shot("lifted")
	if n := eval[int](o, `document.querySelectorAll('.guides .over').length`); n != 1 {
		t.Errorf("%d works are marked to change places", n)
	}
	at := o.at()
	o.Mouse("mouseReleased", x, y)
	o.after(at)
	o.drag(work("work/moths"), func() (float64, float64) { x, y := o.middle(work("work/quince")); return x - 40, y - 10 })
	o.lit("full")
	o.Shot("moved")
	at = o.at()
	eval[any](o, `(() => { const i = document.querySelector('#label [data-field=centre]'); i.focus(); i.value = '59 1/2'; i.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	at = o.at()
	o.Do(chromedp.Click(chromedp.CSS("#save")))
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
	o.Shot("820")
	at := o.at()
	was := eval[string](o, `document.getElementById('way-line').textContent`)
	x, y := o.lift(thing("table/prints"), func() (float64, float64) { x, y := o.middle("#ground .pitch"); return x, y + 60 })
	o.Until(`document.getElementById('way-line').textContent !== ` + quoted(was)) // before it is let go
	o.Shot("held")
	o.Mouse("mouseReleased", x, y)
	o.after(at)
	if n := eval[int](o, `document.querySelectorAll('#found .new').length`); n < 3 {
		t.Errorf("%d findings are new", n)
	}
	o.Shot("across")
	at = o.at()
	o.Do(chromedp.Click(chromedp.CSS("#undo")))
	o.after(at)
	if !s.State().Saved || !strings.Contains(eval[string](o, `document.getElementById('said').textContent`), "Mended:") {
		t.Error("it is not mended")
	}
	at = o.at()
	eval[any](o, `(() => { const s = document.querySelector('#add'); s.focus(); s.value = 'bin|18 x 16 x 34'; s.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	o.Until(`document.querySelector('#label-title').textContent === 'The extra bin' && document.querySelector('#label-body').contains(document.activeElement)`)
	o.Shot("added")
	at = o.at()
	eval[any](o, `document.querySelector('`+thing("bin/extra")+`').focus()`)
	o.Do(chromedp.KeyEvent(kb.Delete))
	o.after(at)
	eval[any](o, `(() => { const d = new DataTransfer(); d.items.add(new File([Uint8Array.from(atob('`+dot+`'), (c) => c.charCodeAt(0))], 'A_red-dot.png')); document.body.dispatchEvent(new DragEvent('drop', {dataTransfer: d, bubbles: true})); })()`)
	o.Until(`document.getElementById('ask').open`)
	at = o.at()
	for k, text := range []string{"8 x 10", "Red dot"} {
		eval[any](o, fmt.Sprintf(`(() => { document.querySelectorAll('#ask-fields input')[%d].value = %q; })()`, k, text))
	}
	o.Shot("photograph")
	o.Do(chromedp.Click(chromedp.CSS("#ask-hands .main")))
	o.after(at)
	o.Until(`document.querySelector('#label-title').textContent === 'Red dot' && !document.getElementById('ask').open`)
}

// With keys alone a work goes to another wall, its row up, the chair aside, and all of it back, and is saved.
func TestKeysSuffice(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	o := open(t, s, 1440, 900, false)
	press := func(keys string) {
		t.Helper()
		at := o.at()
		o.Do(chromedp.KeyEvent(keys))
		o.after(at)
	}
	eval[any](o, `document.querySelector('`+work("work/moths")+`').focus()`)
	press(kb.ArrowRight)
	press(kb.ArrowUp)
	if got := eval[string](o, `document.activeElement.dataset.id`); got != "work/moths" {
		t.Errorf("the keys are at %q", got)
	}
	o.Do(chromedp.KeyEvent(kb.Enter))
	o.Until(`document.querySelector('#label-title').textContent === 'Moths' && document.querySelector('#label-body').contains(document.activeElement)`)
	at := o.at()
	eval[any](o, `(() => { const s = document.querySelector('#label select'); s.focus(); s.selectedIndex = [...s.options].findIndex((o) => o.value === 'row 2'); s.dispatchEvent(new Event('change')); })()`)
	o.after(at)
	eval[any](o, `document.querySelector('`+thing("chair")+`').focus()`)
	press(kb.ArrowRight)
	press(kb.PageUp)
	press("c")
	o.Do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.Until(`document.getElementById('said').textContent.startsWith('Taken back')`)
	o.Do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.Until(`document.getElementById('save').disabled`)
	_, come := changedLines(before, contents(t, path))
	if len(come) != 3 || !strings.Contains(come[0], "turn: 105") || !strings.Contains(come[1], "works: [orchard, thistle, bunting], centre: 60 1/8") || !strings.Contains(come[2], "heron, moths]") {
		t.Errorf("the file says %q", come)
	}
	for eval[bool](o, `!document.getElementById('undo').disabled`) {
		at := o.at()
		o.Do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
		o.after(at)
	}
	at = o.at()
	o.Do(chromedp.Click(chromedp.CSS("#save")))
	o.after(at)
	if contents(t, path) != before {
		t.Error("all taken back, the file is another one")
	}
}

// On a phone the walls are longer than the window: the page scrolls under a work that is held at its edge.
func TestThePageScrollsUnderAWork(t *testing.T) {
	s, _ := session(t)
	o := open(t, s, 390, 700, false)
	x, y := o.lift(work("work/moths"), func() (float64, float64) { return 195, 690 })
	o.Until(`document.querySelector('` + work("work/heron") + `').getBoundingClientRect().bottom < innerHeight - 130`)
	o.Shot("phone-held")
	o.Mouse("mouseMoved", x, y-300)
	o.Still(`scrollY`)
	at := o.at()
	x, y = o.where(work("work/heron"))
	o.Mouse("mouseMoved", x, y)
	o.Frames(2)
	o.Mouse("mouseReleased", x, y)
	o.after(at)
	if said := eval[string](o, `document.getElementById('said').textContent`); !strings.HasPrefix(said, "Moths and Heron at the weir change places") {
		t.Errorf("it says %q", said)
	}
}

// Whatever the page does is done with keys alone. Each is pressed on what has the focus, and what comes of it is said.
func TestEveryDeedHasAKey(t *testing.T) {
	s, path := session(t)
	o := open(t, s, 1440, 900, false)
	on := func(selector string) {
		o.Helper()
		eval[any](o, `document.querySelector(`+quoted(selector)+`).focus()`)
		if !eval[bool](o, `document.activeElement === document.querySelector(`+quoted(selector)+`)`) {
			o.Fatalf("%s cannot have the focus", selector)
		}
	}
	control := chromedp.KeyModifiers(chromedp.ModifierCtrl)
	// done presses a key, after which the page says something that begins so.
	done := func(key, said string, held ...chromedp.KeyOption) {
		o.Helper()
		at := o.at()
		o.Do(chromedp.KeyEvent(key, held...))
		o.after(at)
		if got := eval[string](o, `document.getElementById('said').textContent`); !strings.HasPrefix(got, said) {
			o.Errorf("after %q it says %q, not %q", key, got, said)
		}
	}
	// listed opens a list, goes down to an option and chooses it.
	listed := func(selector, option, said string) {
		o.Helper()
		on(selector)
		down := eval[int](o, `[...document.activeElement.options].findIndex((o) => o.textContent === `+quoted(option)+`)`)
		if down < 1 {
			o.Fatalf("%s has no %q", selector, option)
		}
		at := o.at()
		o.Do(chromedp.KeyEvent(" "))
		for range down {
			o.Do(chromedp.KeyEvent(kb.ArrowDown))
		}
		if o.at() != at {
			o.Error("going through a list does something")
		}
		done(kb.Enter, said)
	}
	on(work("work/moths"))
	done(kb.ArrowRight, "Moths and its neighbour change places")
	done(kb.ArrowUp, "The row on the left wall moved")
	done(kb.Delete, "Moths waits")
	o.Do(chromedp.KeyEvent(kb.Enter))
	o.Until(`document.querySelector('#label-title').textContent === 'Moths' && document.querySelector('#label-body').contains(document.activeElement)`)
	listed(`#label select[aria-label^=Hang]`, "the back wall, by itself in the middle", "Moths to the back wall")
	listed(`#label select[aria-label^=Change]`, "Three pears", "Moths and Three pears change places")
	on(work("work/pears"))
	done(kb.ArrowLeft, "Three pears moved on the back wall")
	done("c", "Three pears centred on the back wall")
	done(kb.ArrowUp, "Three pears moved on the back wall")
	done("a", "Middles on the back wall at the height of Three pears")
	done(kb.ArrowRight, "Three pears moved on the back wall")
	done("e", "Works on the back wall spaced evenly")
	on(thing("chair"))
	done(kb.ArrowLeft, "The chair moved")
	done(kb.PageDown, "The chair turned")
	done("c", "The chair moved")
	done(kb.Delete, "The chair")
	listed("#add", "bin 18 x 16 x 34 in", "A bin added")
	on("#keep") // where a text is typed, Ctrl with Z is the text's
	done("z", "Taken back", control)
	done("y", "Done again", control)
	o.Do(chromedp.KeyEvent(kb.Enter))
	o.Until(`document.getElementById('ask').open && document.activeElement.matches('#ask input')`)
	o.Do(chromedp.KeyEvent("calm"))
	done(kb.Enter, "Kept in booth-calm.yaml")
	on("#variants button")
	o.Do(chromedp.KeyEvent(kb.Enter))
	o.Until(`!document.getElementById('beside').hidden`)
	on("#propose")
	o.Do(chromedp.KeyEvent(kb.Enter))
	o.Until(`document.querySelector('#ways li')`)
	on("#ways li button:last-child")
	done(kb.Enter, "")
	done("s", "Saved in "+path, control)
}

// axe-core's rules for WCAG 2.2, levels A and AA, find nothing in any state, light or dark, on a phone, a tablet or a desk, and nothing is
// wider than the window. What is dragged is 44 pixels or more.
func TestNobodyIsShutOut(t *testing.T) {
	s, path := session(t)
	o := open(t, s, 390, 844, false)
	o.Axe("../..")
	look := func(state string) {
		t.Helper()
		eval[any](o, `scrollTo(0, 0)`) // nothing is half under the line that stays
		for _, scheme := range []string{"light", "dark"} {
			o.Media("", "prefers-color-scheme", scheme)
			var rules []string // all
			if scheme == "dark" {
				rules = []string{"color-contrast"} // only colours differ
			}
			for _, v := range o.Violations(rules...) {
				t.Errorf("%s, %s: %s", state, scheme, v)
			}
			o.Shot(strings.ReplaceAll(state, " ", "-") + "-" + scheme)
		}
	}
	for _, width := range []int64{390, 820, 1440} {
		o.Size(width, 844)
		o.Until(fmt.Sprintf(`innerWidth === %d && document.getElementById('elevation').viewBox.baseVal.width <= %d`, width, width))
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
	o.Until(`[0, 1].every((k) => document.getElementById('beside-' + k).naturalWidth === 960)`)
	for _, width := range []int64{390, 1440} {
		o.Size(width, 844)
		look(fmt.Sprint("side by side ", width))
	}
	eval[any](o, `document.querySelector('#beside-hands button:last-child').click()`)
	eval[any](o, `document.getElementById('propose').click()`)
	o.Until(`document.querySelector('#ways li')`)
	look("proposed")
	if err := os.WriteFile(path, []byte(strings.Replace(contents(t, path), "from front: 96", "from front: 70", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	at := o.at()
	o.Do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	o.after(at)
	look("asked")
}
