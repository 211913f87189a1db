package hang

import (
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// What a tent stands and what is told of it agree: in a gust just as strong as it is good for, all stays up.
func TestTheVeryGust(t *testing.T) {
	p := tented()
	p.Weather.Stated, p.Weather.Gust = true, Of(p).Weather.Up.GoodFor
	s := Of(p)
	if !s.Weather.Up.Enough || s.Stays(booth.Forecast{Gust: p.Weather.Gust}) != All || s.standing(p)[0].Level != "note" {
		t.Errorf("in the gust that it is good for: %+v, %v", s.Weather.Up, s.standing(p))
	}
	for _, f := range []string{s.standing(p)[0].Message, flatten(s.WindSection())} {
		if strings.Contains(f, "before") && strings.Contains(f, "reach") || !strings.Contains(f, "of more than 18 mph") {
			t.Errorf("good up to 18 mph, and told: %s", f)
		}
	}
}

// By hand (TestWindByHand): 18.3 mph with the drape, and without it only roof, valance and wires stand in the wind. What is named is enough,
// costs the fewest works, and where nothing is enough nothing is named.
func TestWallsToLeaveOff(t *testing.T) {
	p := tented()
	side := func(id booth.ID, name string, of booth.Side, works ...string) {
		p.Parts = append(p.Parts, booth.Part{ID: id, Name: name, Wall: &booth.Wall{Side: of, Hold: booth.Panel, Width: 10 * ft, Top: 7 * ft}})
		for _, w := range works {
			p.Parts = append(p.Parts, booth.Part{ID: booth.ID(w), Work: &booth.Work{Hung: &booth.Hung{Wall: id, Hooks: nil}}})
		}
	}
	names := func(gust float64) string {
		return strings.Join(Of(p).Weather.lighter(p, gust*wind.MilesPerHour), "; ")
	}
	if got := names(20); got != "the back drape" {
		t.Errorf("in 20 mph, off goes %q", got)
	}
	side("wall/left", "the left wall", booth.Left, "a", "b")
	side("wall/right", "the right wall", booth.Right, "c")
	if got := names(20); got != "the back drape; the left wall with its 2 works; the right wall with its 1 work" {
		t.Errorf("in 20 mph, with panels on both sides, off goes %q", got)
	}
	if got := names(18); got != "" { // it stands as it is
		t.Errorf("in 18 mph, off goes %q", got)
	}
	if got := names(60); got != "" || !strings.Contains(Of(p).Weather.mend(p, 60*wind.MilesPerHour), "not enough either") {
		t.Errorf("in 60 mph, off goes %q", got)
	}
	// Without them it stands.
	p.Parts = slices.DeleteFunc(p.Parts, func(o booth.Part) bool {
		return o.ID == "drape/back" || o.Work != nil || o.Wall != nil && o.Wall.Side != booth.Back
	})
	if w := Of(p).Weather; !w.Up.holds(20 * wind.MilesPerHour) {
		t.Errorf("without them it is good for %v", w.Up.GoodFor)
	}
}

// A stake that is stated to hold 40 lb counts as 40 lb more on its leg, and no more; it is told where weights are.
func TestStakes(t *testing.T) {
	heavy, staked := tented(), tented()
	of := func(p *booth.Plan) *booth.Tent { return p.Parts[len(p.Parts)-1].Tent }
	of(heavy).Ballast = unit.Weight(80 * lb)
	of(staked).Stake = unit.Weight(40 * lb)
	a, b := Of(heavy), Of(staked)
	near(t, "good for", b.Weather.Up.GoodFor, a.Weather.Up.GoodFor, 1e-9)
	near(t, "needed besides", b.Weather.Up.PerLeg/lb, a.Weather.Up.PerLeg/lb-40, 1e-9)
	text := flatten(b.WindSection()) + b.standing(staked)[0].Message
	for _, want := range []string{"which you state to hold 40 lb", "less what its stake holds", "depends on the ground", "40 lb and a stake"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing about %q", want)
		}
	}
	of(staked).Ballast = 0
	var kit []string
	for _, i := range Of(staked).Kit {
		kit = append(kit, i.What)
	}
	if list := strings.Join(kit, "; "); strings.Contains(list, "weights for") || !strings.Contains(list, "stakes with straps for the tent's legs; hammer") {
		t.Errorf("with stakes alone the kit is %s", list)
	}
}
