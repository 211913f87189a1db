package hang

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// The wind that is stated decides: what does not stand it fails, with both numbers; with none stated the gusts at which
// walls and tent come down are told.
func TestStanding(t *testing.T) {
	const lb, mph = 0.45359237, wind.MilesPerHour
	for name, c := range map[string]struct {
		gust            float64 // mph; 0: not stated
		ballast, weight float64 // lb
		indoor          bool
		want            finding.Level
		says            []string
	}{
		"too light":          {gust: 30, ballast: 40, weight: 50, want: finding.Fail, says: []string{"40 lb on each leg is not enough", "gusts of 30 mph", "needs 129 lb", "in gusts of more than 18 mph the walls must come down"}},
		"by a little":        {gust: 18.4, ballast: 40, weight: 50, want: finding.Fail, says: []string{"gusts of 18.4 mph", "of more than 18.3 mph"}},
		"ballast not stated": {gust: 30, weight: 50, want: finding.Fail, says: []string{"not stated", "needs 129 lb"}},
		"just held":          {gust: 18, ballast: 40, weight: 50, want: finding.Note, says: []string{"In gusts of more than 18 mph the walls must come down"}},
		"no wind stated":     {ballast: 40, weight: 50, want: finding.Caution, says: []string{"No wind is stated", "in gusts of more than 18 mph the walls must come down, and of more than "}},
		"nothing stated":     {want: finding.Caution, says: []string{"The ballast is not stated", "only a guess", "with the walls up and "}},
		"in a hall":          {gust: 30, indoor: true},
	} {
		p := tented()
		p.Pitch.Indoor = c.indoor
		if p.Weather.Stated = c.gust > 0; p.Weather.Stated {
			p.Weather.Gust = c.gust * mph
		}
		tent := p.Parts[len(p.Parts)-1].Tent
		tent.Ballast, tent.Weight = unit.Weight(c.ballast*lb), unit.Weight(c.weight*lb)
		s := Of(p)
		found := s.standing(p)
		if c.want == "" {
			if len(found) != 0 || s.StandsUpTo() != nil {
				t.Errorf("%s: %v, stands up to %v", name, found, s.StandsUpTo())
			}
			continue
		}
		if len(found) != 1 || found[0].Level != c.want || found[0].Item == "" {
			t.Errorf("%s: %+v, want one %s", name, found, c.want)
			continue
		}
		for _, say := range c.says {
			if !strings.Contains(found[0].Message, say) {
				t.Errorf("%s: %q does not say %q", name, found[0].Message, say)
			}
		}
		if got := *s.StandsUpTo(); math.Abs(got-s.Weather.Up.GoodFor) > 0 {
			t.Errorf("%s: stands up to %v, the sheet says %v", name, got, s.Weather.Up.GoodFor)
		}
	}
}

// The verdict of the wind is known where weights go on, and at night where the sides are closed.
func TestWindIsSaidAtItsSteps(t *testing.T) {
	p := tented()
	p.SetUp.Tasks = []booth.Task{{ID: "frame"}, {ID: "weights", Windy: true}}
	p.SetUp.Night = []booth.Task{{ID: "close", Windy: true}, {ID: "look"}}
	r := finding.Gather(p, nil, Findings(p, Of(p)))
	for step, want := range map[booth.ID]int{"set-up/weights": 1, "set-up/frame": 0, "night/close": 1, "night/look": 0, "strike/weights": 0} {
		if got := len(r.Of(step)); got != want {
			t.Errorf("%d findings at %s, want %d", got, step, want)
		}
	}
}

// The figures of the wind page follow from each other as its method says: recomputed from what is printed.
func TestMethodCanBeFollowed(t *testing.T) {
	p := tented()
	p.Weather.Lift = 0.6
	s := Of(p)
	w := s.Weather
	v := w.Gust / wind.MilesPerHour
	psf := 0.00256 * v * v
	const lb, ft2 = 0.45359237, 0.09290304
	for name, x := range map[string]WindState{"up": w.Up, "down": w.Down} {
		push := psf * w.HeightFactor * 0.85 * 0.85 * 1.3 * x.Area / ft2
		lift := psf * w.Lift * w.Roof / ft2
		near(t, name+": push", x.Push/wind.Gravity/lb, push, 0.01)
		near(t, name+": lift", x.Lifts/wind.Gravity/lb, lift, 0.01)
		near(t, name+": against sliding", x.ToSlide/lb, (push/w.Friction+lift)/0.6, 0.05)
		near(t, name+": against tipping", x.ToTip/lb, (2*push*x.Height/x.Base+lift)/0.6, 0.05)
		near(t, name+": on each leg", x.PerLeg/lb, max(0, max(x.ToSlide, x.ToTip)-w.Tent)/lb/float64(w.Legs), 0.01)
	}
	text := flatten(s.WindSection())
	for _, want := range []string{fmt.Sprintf("0.00256 V² (V in mph) = %.3g lb on each ft²", psf), "Upwards it counts 0.6 times the 100 ft² of canopy", "Sideways that counts"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// By hand: a curtain of 72 in under an eave of 84 in ends 12 in above the ground; one of 80 in is near enough.
func TestShortCurtains(t *testing.T) {
	p := tented()
	for _, c := range []struct {
		rain bool
		high unit.Length
		want int
	}{{true, 72, 1}, {false, 72, 0}, {true, 80, 0}, {true, 77.9, 1}} {
		p.Weather.Rain, p.Weather.Curtain = c.rain, unit.Size{A: c.high * unit.Inch, B: 70 * unit.Inch}
		found := Of(p).dry(p)
		if len(found) != c.want {
			t.Errorf("%+v: %v", c, found)
		}
	}
}
