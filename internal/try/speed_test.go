//go:build !race

package try_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"testing"
	"time"

	"boothmock/internal/try"
	"boothmock/scenes/crowd"
)

// watch is a script that writes down what the person waits for, and what is asked of the program: milliseconds from a move of the
// pointer, and from letting go, to the end of the frame that shows it. A message to oneself from a frame arrives when it is drawn.
const watch = `window.waited = {moved: [], told: [], asked: {}, answered: 0, drawn: 0};
	{
		const drawn = (then) => nextFrame(() => { const c = new MessageChannel(); c.port1.onmessage = () => then(performance.now()); c.port2.postMessage(0); });
		addEventListener('pointermove', (e) => drawn((now) => waited.moved.push(now - e.timeStamp)), true);
		let up = 0;
		addEventListener('pointerup', (e) => { up = e.timeStamp; }, true);
		new MutationObserver(() => drawn((now) => { if (up) waited.told.push(now - up); up = 0; })).observe(document, {attributes: true, subtree: true, attributeFilter: ['data-at']});
		addEventListener('DOMContentLoaded', () => new MutationObserver((list) => (waited.drawn += list.filter((r) => [...r.addedNodes].some((n) => n.matches('.wall'))).length)).observe(document.getElementById('elevation'), {childList: true}));
		const get = fetch;
		window.fetch = async (to, ...o) => {
			const what = String(to).split('?')[0], reply = await get(to, ...o);
			waited.asked[what] = (waited.asked[what] || 0) + 1;
			if (what === 'say') waited.answered = (await reply.clone().arrayBuffer()).byteLength;
			return reply;
		};
	}
`

// waited is what watch wrote down.
type waited struct {
	Moved    []float64      // milliseconds
	Told     []float64      //
	Asked    map[string]int // of the program
	Answered int            // bytes of the last answer
	Drawn    int            // how often all walls were
}

func middling(list []float64) string {
	slices.Sort(list)
	if len(list) == 0 {
		return "none"
	}
	return fmt.Sprintf("%.0f ms (quickest %.0f, slowest %.0f)", list[len(list)/2], list[0], list[len(list)-1])
}

// moves is how often something is moved to measure it: MOVES=1000 go test -v -run 'WaitedFor|LeaveNothing' ./internal/try
// prints times, which are worth something on idle processors, and what the program keeps.
var moves, _ = strconv.Atoi(os.Getenv("MOVES"))

// A work and the chair are dragged to and fro, and what that asks of the program is counted: of a work nothing until it is let go, and
// then one answer, of a bounded size; with the walk, one booth in quick light and one in the full.
func TestWhatIsWaitedFor(t *testing.T) {
	begun := time.Now()
	s, _ := session(t)
	opened := time.Since(begun)
	for _, walk := range []string{blind, ""} {
		rounds, booths := min(max(2, moves), 20), 0
		if walk == "" {
			if moves == 0 {
				continue // it costs seconds
			}
			booths = 2 * (rounds + 1)
		}
		begun = time.Now()
		o := openWith(t, s, 1440, 900, watch+walk)
		shown := time.Since(begun)
		if booths > 0 {
			o.lit("quick")
		}
		t.Logf("opened in %v, the page in %v, the booth in its light in %v", opened, shown, time.Since(begun))
		for what, to := range map[string]func(n int) (x, y float64){
			work("work/heron"): func(int) (x, y float64) { return o.middle(work("work/orchard")) }, // they change places
			thing("chair"): func(n int) (x, y float64) {
				x, y = o.middle(thing("chair"))
				return x + 40*float64(1-n%2*2), y
			},
		} {
			if booths > 0 {
				o.lit("full")
			}
			eval[any](o, `waited.moved = []; waited.told = []; waited.asked = {}; waited.drawn = 0; 0`)
			for n := range rounds {
				o.drag(what, func() (float64, float64) { return to(n) })
				if booths > 0 {
					o.lit("quick")
				}
			}
			w := eval[waited](o, `waited`)
			t.Logf("%s: a move is drawn in %s, findings are there in %s; %d bytes; asked %v", what, middling(w.Moved), middling(w.Told), w.Answered, w.Asked)
			if what == work("work/heron") && w.Asked["say"] != rounds {
				t.Errorf("a work that is dragged %d times asks %d times", rounds, w.Asked["say"])
			}
			if w.Drawn != rounds {
				t.Errorf("after %s was dragged %d times all walls were drawn %d times", what, rounds, w.Drawn)
			}
			if w.Asked["state"] > 0 || w.Asked["model"] > booths || w.Asked["facts"] > booths {
				t.Errorf("%d moves ask %v", rounds, w.Asked)
			}
			if most := 64 << 10; w.Answered > most {
				t.Errorf("an answer has %d bytes, more than %d", w.Answered, most)
			}
		}
	}
}

// In a booth of 300 works times are printed only.
func TestManyWorksAreWaitedFor(t *testing.T) {
	if moves == 0 {
		t.Skip("it only prints times")
	}
	path, err := crowd.Write(t.TempDir(), 300)
	if err != nil {
		t.Fatal(err)
	}
	s := tryAt(t, path)
	o := openWith(t, s, 1440, 900, watch+blind)
	for range 6 {
		o.drag(work(string(s.State().Works[0].ID)), func() (float64, float64) { return o.middle(work(string(s.State().Works[1].ID))) })
	}
	w := eval[waited](o, `waited`)
	t.Logf("300 works: a move is drawn in %s, findings are there in %s; %d bytes", middling(w.Moved), middling(w.Told), w.Answered)
}

// What the program keeps after many moves is, within 20 %, what it keeps after ten: of a text that was, only what differs, and answers of
// the last versions alone. It is tried on a small booth, and with MOVES on the demo.
func TestMovesLeaveNothingBehind(t *testing.T) {
	path, moves := "", moves
	if moves < 100 {
		moves, path = 60, filepath.Join(t.TempDir(), "booth.yaml")
		if err := os.WriteFile(path, []byte("units: in\npitch: {width: 10ft, depth: 10ft}\nwalls: [{side: back}]\nworks: [{name: heron, title: Heron, size: 24 x 36}]\nrows: [{wall: back, works: [heron]}]\n"+
			"tables: [{name: prints, size: 48 x 24, from left: 12, from front: 40}]\nchair: {against: left, from front: 96}\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	s := tryAt(t, path)
	kept := func() float64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc) / (1 << 20)
	}
	ten, started := 0.0, time.Now()
	for n := 1; n <= moves; n++ {
		a := []try.Ask{{Item: "work/heron", Y: 0.0254 / 8}, {Item: "table/prints", Z: -0.0254 / 8}, {Item: "chair", X: 0.0254 / 8}}[n%3]
		if n/30%2 == 1 {
			a.X, a.Y, a.Z = -a.X, -a.Y, -a.Z
		}
		a.Do = "nudge"
		say(t, s, a)
		if n == 10 {
			ten = kept()
		}
	}
	many := kept()
	t.Logf("%d moves, %v each; %.1f MB after ten, %.1f MB after all", moves, time.Since(started)/time.Duration(moves), ten, many)
	if many > 1.2*ten {
		t.Errorf("after %d moves the program keeps %.1f MB, after ten %.1f", moves, many, ten)
	}
}
