//go:build !race

package page_test

import (
	"bytes"
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"

	"boothmock/internal/browser"
	"boothmock/internal/find/order"
)

// phone is the page in the hands of one person. Its clock is the tab's name, which outlives a reload, and its store is its own.
type phone struct {
	tab
	who   string
	doing int // number of the step at work; 0: none
	until int // the minute at which it will be done
}

// turn is what the page says: the step to do now, or the steps waited for, or that all is done.
type turn struct {
	Now   int
	Waits []int
	Over  bool
}

func takeUp(t *testing.T, file, who string) *phone {
	p := &phone{tab: open(t, file, 390, 844, fmt.Sprintf(`Date.now = () => 1.7e12 + Number(window.name || 0) * 60000;
		for (const f of ['getItem', 'setItem']) { const own = Storage.prototype[f]; Storage.prototype[f] = function (key, ...rest) { return own.call(this, %q + key, ...rest); }; }`, who)), who: who}
	eval[any](p.tab, fmt.Sprintf(`[...document.querySelectorAll('#who input')].find((i) => i.value === %q).click(); 0`, who))
	p.Do(chromedp.Click(chromedp.CSS("#step-next")))
	return p
}

func (p *phone) turn() turn {
	return eval[turn](p.tab, `({Now: Number(document.querySelector('.step.now')?.dataset.number || 0), Waits: [...document.querySelectorAll('#turn [data-due]')].map((e) => Number(e.dataset.due)), Over: document.getElementById('step-next').textContent === 'All done'})`)
}

// at sets the phone's clock; what the page shows follows with the next thing that is pressed.
func (p *phone) at(minute int) { eval[any](p.tab, fmt.Sprintf(`window.name = '%d'; 0`, minute)) }

func (p *phone) press(selector string) {
	eval[any](p.tab, fmt.Sprintf(`document.querySelector(%q).click(); 0`, selector))
}

// scanned is what another phone reads from the square of this one's screen (gozxing, a reader of its own).
func (p *phone) scanned() string {
	eval[any](p.tab, `document.querySelector('#minutes summary').click(); 0`)
	p.Until(`document.querySelector('#minutes-code path').getAttribute('d')`)
	eval[any](p.tab, `document.querySelector('#minutes-code').scrollIntoView({block: 'center'}); 0`)
	file, err := chromedp.Run(p.Ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.Fatal(err)
	}
	m, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		p.Fatal(err)
	}
	dark, err := gozxing.NewBinaryBitmapFromImage(m)
	if err != nil {
		p.Fatal(err)
	}
	r, err := qrcode.NewQRCodeReader().Decode(dark, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true, gozxing.DecodeHintType_CHARACTER_SET: "UTF-8"})
	if err != nil {
		p.Fatal(err)
	}
	return r.GetText()
}

// Two people set a booth up from two phones that know nothing of each other, step by step to the end. Some steps take longer
// than planned, a tick is lost, and a phone is shut for a while: nobody is ever sent to a step before those that it waits for
// are done, and what the page says of the end moves with the delay.
func TestTwoPeopleSetTheDemoUp(t *testing.T) {
	browser.Needed(t, browser.Chromium)
	d, err := demo()
	twoPeople(t, d, err)
}

// So they do indoors, where panels and lamps are put up and no tent is.
func TestTwoPeopleSetTheHallUp(t *testing.T) {
	browser.Needed(t, browser.Chromium)
	d, err := shared("../../../scenes/hall.yaml")
	twoPeople(t, d, err)
}

func twoPeople(t *testing.T, d mocked, err error) {
	if err != nil {
		t.Fatal(err)
	}
	steps := d.SetUp().Steps
	lost := len(steps) / 2 // the step whose tick is lost
	var phones []*phone
	for _, who := range d.SetUp().People {
		phones = append(phones, takeUp(t, d.file, who))
	}
	if w := phones[1].turn(); w.Now != 0 || !slices.Equal(w.Waits, []int{1}) {
		t.Errorf("the second person begins with %+v, want a wait for step 1", w)
	}
	done := map[int]bool{}
	takes := func(s order.Step) int { // the first step takes 9 minutes longer, and every fifth 2
		n := s.Minutes()
		if s.Number == 1 {
			n += 9
		}
		if s.Number%5 == 0 {
			n += 2
		}
		return n
	}
	now, ticked := 0, 0
	for round := 0; len(done) < len(steps); round++ {
		if round > 3*len(steps) {
			t.Fatalf("at minute %d nothing goes on: %d of %d steps are done", now, len(done), len(steps))
		}
		for _, p := range phones {
			for p.doing == 0 {
				w := p.turn()
				k := slices.IndexFunc(w.Waits, func(n int) bool { return done[n] })
				if k < 0 {
					break
				}
				eval[any](p.tab, fmt.Sprintf(`[...document.querySelectorAll('#turn button')].find((b) => b.textContent === 'Step %d is done').click(); 0`, w.Waits[k]))
				ticked++
			}
		}
		for _, p := range phones {
			w := p.turn()
			if p.doing != 0 || w.Now == 0 {
				continue
			}
			s := steps[w.Now-1]
			for _, a := range s.After {
				if !done[a] {
					t.Errorf("minute %d: %s is sent to step %d before step %d is done", now, p.who, s.Number, a)
				}
			}
			together := true
			for _, q := range phones {
				together = together && (!slices.Contains(s.Who, q.who) || q.doing == 0 && q.turn().Now == s.Number)
			}
			if !together {
				continue
			}
			for _, q := range phones {
				if slices.Contains(s.Who, q.who) {
					q.doing, q.until = s.Number, now+takes(s)
				}
			}
		}
		next := 0
		for _, p := range phones {
			if p.doing != 0 && (next == 0 || p.until < next) {
				next = p.until
			}
		}
		now = max(now, next)
		for _, p := range phones {
			p.at(now)
		}
		for _, p := range phones {
			if p.doing == 0 || p.until > now {
				continue
			}
			done[p.doing] = true
			if n := p.doing; n == 1 {
				p.press("#step-next")
				if end := eval[string](p.tab, `document.getElementById('clock-end').textContent`); !strings.Contains(end, "9 min later than planned") {
					t.Errorf("after a delay of nine minutes the page says %q", end)
				}
			} else if n == lost { // the tick is lost, and the phone was shut: it comes back, and is pressed again
				p.press("#step-next")
				p.press("#step-back")
				p.Do(chromedp.Reload())
				if w := p.turn(); w.Now != n {
					t.Errorf("after a lost tick %s stands at %+v, want step %d", p.who, w, n)
				}
				p.press("#step-next")
			} else {
				p.press("#step-next")
			}
			p.doing = 0
		}
	}
	if ticked == 0 {
		t.Error("nobody ever waited")
	}
	for _, p := range phones {
		if w := p.turn(); !w.Over {
			t.Errorf("at the end %s still sees %+v", p.who, w)
		}
		log := eval[string](p.tab, `document.getElementById('minutes-text').value`)
		if sent := p.scanned(); sent != log {
			t.Errorf("%s sends %q, and the square says %q", p.who, log, sent)
		}
		took, err := order.ReadTimes([]byte(log), "times.csv")
		if err != nil {
			t.Errorf("%s's times cannot be read: %v", p.who, err)
		}
		for _, k := range took {
			i := slices.IndexFunc(steps, func(s order.Step) bool { return s.ID == k.Step })
			if want := float64(takes(steps[i])); steps[i].Number != lost && k.Minutes != max(want, 0.1) {
				t.Errorf("%s: %s took %v min, and the page says %v", p.who, k.Step, want, k.Minutes)
			}
		}
	}
	if now <= d.SetUp().Length {
		t.Errorf("with delays it took %d min, planned were %d", now, d.SetUp().Length)
	}
}

// It opens on the set-up; the walk is made ready when it is first opened, and the title follows the part.
func TestItOpensOnTheSetUp(t *testing.T) {
	browser.Needed(t, browser.Chromium)
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	o := open(t, d.file, 390, 844, "")
	if got := eval[string](o, `[...document.querySelectorAll('main > section')].filter((s) => s.getClientRects().length).map((s) => s.id).join()`); got != "setup" {
		t.Errorf("it opens on %s", got)
	}
	if n := eval[int](o, `document.querySelectorAll('#all-works button').length`); n != 0 {
		t.Errorf("before the walk is opened it lists %d works", n)
	}
	if got := eval[string](o, `document.title`); !strings.HasPrefix(got, "Set up · ") {
		t.Errorf("the title is %q", got)
	}
	// From a step to its wall, and back; then to the thing in the walk.
	eval[any](o, `document.querySelector('.step .links a[href^="#wall-"]').click(); 0`)
	o.Until(`document.querySelector('#hang.current')`)
	if got := eval[string](o, `document.title + '|' + document.getElementById('part-said').textContent`); !strings.HasPrefix(got, "Hang · ") || !strings.HasSuffix(got, "|Hang") {
		t.Errorf("title and announcement are %q", got)
	}
	eval[any](o, `document.querySelector('#came a').click(); 0`)
	o.Until(`document.querySelector('#setup.current')`)
	eval[any](o, `document.querySelector('.step .links .showme').click(); 0`)
	o.Until(`document.querySelector('#walk.current') && document.getElementById('stage').dataset.ready === 'yes'`)
	if n := eval[int](o, `document.querySelectorAll('#all-works button').length`); n < 10 {
		t.Errorf("the walk lists %d works", n)
	}
}

// The parts' names stay on the screen only where they cover at most a tenth of its height, also with letters twice as large.
func TestTheNamesOfPartsCoverLittle(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 320, 568, "")
	for _, size := range [][2]int64{{320, 568}, {568, 320}, {390, 844}, {844, 390}, {820, 1180}, {1280, 460}, {1440, 900}} {
		o.Size(size[0], size[1])
		o.Until(fmt.Sprintf(`innerWidth === %d && innerHeight === %d`, size[0], size[1]))
		for _, letters := range []string{"100%", "200%"} {
			share := eval[float64](o, `(() => { document.documentElement.style.fontSize = '`+letters+`'; const nav = document.querySelector('nav');
				return getComputedStyle(nav).position === 'static' ? 0 : nav.getBoundingClientRect().height / innerHeight; })()`)
			if share > 0.1 {
				t.Errorf("%v, letters at %s: the names of the parts cover %.3f of the screen", size, letters, share)
			}
			if high := eval[float64](o, `Math.min(...[...document.querySelectorAll('nav a')].map((a) => a.getBoundingClientRect().height))`); high < 44 {
				t.Errorf("%v, letters at %s: a name is %.1f px high", size, letters, high)
			}
		}
	}
}

// Where the names of the parts find no room side by side, the edge beyond which there are more is shaded, and at the end it is not.
func TestMoreNamesAreSeenToCome(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 240, 640, "")
	edge := func() uint32 {
		t.Helper()
		o.Frames(3)
		file, err := chromedp.Run(o.Ctx, chromedp.CaptureScreenshot())
		if err != nil {
			t.Fatal(err)
		}
		m, _, err := image.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		_, green, _, _ := m.At(238, 632).RGBA() // below the letters
		return green >> 8
	}
	more := edge()
	eval[any](o, `document.querySelector('nav ul').scrollLeft = 1000; 0`)
	if end := edge(); more+20 > end {
		t.Errorf("the edge is as light where there is more (%d) as at the end (%d)", more, end)
	}
}

// Every tick and button is at least 44 px high: fingers are cold (WCAG 2.2, 2.5.5, target size enhanced).
func TestTargetsAreLargeEnough(t *testing.T) {
	o := open(t, saved(t, write(t, hung(t))), 390, 844, "")
	for _, part := range []string{"setup", "hang", "lists"} {
		eval[any](o, `location.hash = '#`+part+`'; 0`)
		o.Until(`document.querySelector('#` + part + `.current')`)
		small := eval[[]string](o, `[...document.querySelectorAll('label.tick, button, .links a, summary')].filter((e) => e.getClientRects().length && e.getBoundingClientRect().height < 43.9).map((e) => e.outerHTML.slice(0, 80))`)
		for _, s := range small {
			t.Errorf("%s: less than 44 px: %s", part, s)
		}
	}
}
