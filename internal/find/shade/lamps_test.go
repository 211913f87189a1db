package shade

import (
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
)

// hallWith is a dark hall with a work on the back wall, and lamps.
func hallWith(lamps string) string {
	return "units: in\npitch: {width: 10ft, depth: 10ft, indoor: true, hall lux: 40, neighbours: none}\nwalls: [{side: back, hang on: panel, top: 96}]\n" +
		"works: [{name: one, size: 24 x 36, wall: back, centre: 60}]\nlamps: [" + lamps + "]\n"
}

func say(t *testing.T, list []finding.Finding, check string, level finding.Level, words ...string) {
	t.Helper()
	for _, f := range of(list, check) {
		all := f.Level == level
		for _, w := range words {
			all = all && strings.Contains(f.Message, w)
		}
		if all {
			return
		}
	}
	t.Errorf("no %s of %q says %q: %+v", level, check, words, of(list, check))
}

// By hand: a spot of 900 lm across 40 degrees has n = 11.1 and 1,740 cd on its axis (I0 = lumens·(n+1)/2π). From 18 in out and 36 in
// over the middle of a work it is 1.02 m away and meets it at 63 degrees: 1740·cos 63.4°/1.05 = 740 lx at the middle by the cosine
// law, besides what the hall and the walls give. A board all over would have that light within a few per cent of its nearest lamp.
func TestLuxByHand(t *testing.T) {
	p := example(t, hallWith("{name: a, clip to: back, aim: one, lumens: 900, beam: 40, watts: 9, height: 96}"))
	list := Findings(p)
	say(t, list, "lamplight", finding.Note, "one gets")
	f := of(list, "lamplight")[0]
	if f.Unit != finding.Lux || f.Measured < 400 || f.Measured > 800 {
		t.Errorf("%+v", f)
	}
	say(t, list, "power", finding.Note, "9 W of the 500 W", "ask the organiser")
	say(t, list, "lamps at hand", finding.Note, "Leads")
	if got := of(list, "aim of lamps"); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

func TestWorkInTheDark(t *testing.T) {
	say(t, Findings(example(t, hallWith("{name: a, clip to: back, aim: down, left: 4, arm: 2, lumens: 100, beam: 20, watts: 2}"))), "lamplight", finding.Caution, "one stands in the dark", "aim a lamp")
	dark := example(t, strings.Replace(hallWith(""), "lamps: []\n", "", 1))
	say(t, Findings(dark), "lamplight", finding.Caution, "one gets only", "bring a lamp")
}

// Common practice, no source: a lamp is aimed, its light gets out, and reaches what it is meant for.
func TestAim(t *testing.T) {
	say(t, Findings(example(t, hallWith("{name: a, clip to: back}"))), "aim of lamps", finding.Caution, "aimed at nothing")
	p := example(t, hallWith("{name: a, clip to: back, aim: one}"))
	p.Part("lamp/a").Lamp.At.Z = -4
	say(t, Findings(p), "aim of lamps", finding.Fail, "at the back of one")
	p = example(t, hallWith("{name: a, clip to: back, aim: one}"))
	l := p.Part("lamp/a")
	l.Lamp.At = p.Part("wall/back").Solids[0].Corners[0].Lerp(p.Part("wall/back").Solids[0].Corners[6], 0.5)
	say(t, Findings(p), "aim of lamps", finding.Fail, "is inside", "does not get out")
	p = example(t, hallWith("{name: a, clip to: back, aim: one}")+"things: [{name: box, size: 36 x 4 x 90, from back: 6}]\n")
	say(t, Findings(p), "aim of lamps", finding.Caution, "box stands between")
}

// EN 12464-1:2011, table 2 (from memory): a lamp of 500,000 cd/m² or more must be 30 degrees over the line of sight. One of 800 lm across
// 24 degrees and 40 mm of radius has 5,700 cd on its axis, on 0.005 m²: 1.1 million.
func TestGlare(t *testing.T) {
	at := func(height, front string) *booth.Plan {
		return example(t, hallWith("{name: a, from left: 58, from back: 4, height: "+height+", lumens: 800, beam: 24, aim at: {from left: 60, from front: "+front+", height: 62}}"))
	}
	say(t, Findings(at("64", "0")), "glare", finding.Caution, "shines into the eyes")
	p := at("64", "0")
	p.Part("lamp/a").Lamp.Toward = geom.Vec{Y: -1}
	if got := of(Findings(p), "glare"); len(got) > 0 {
		t.Errorf("turned down: %+v", got)
	}
	p = at("64", "0")
	l := p.Part("lamp/a").Lamp
	l.Beam = l.Beam.With(5) // 7,000 cd/m²
	if got := of(Findings(p), "glare"); len(got) > 0 {
		t.Errorf("dim: %+v", got)
	}
}

// 500 W with a pitch is common practice, no source; what the fair's own sheet says counts as stated. 100 Wh feed 20 W for five hours.
func TestPower(t *testing.T) {
	halogen := "{name: a, clip to: back, aim: one, watts: 300}, {name: b, clip to: back, aim: one, left: 20, watts: 250}"
	say(t, Findings(example(t, hallWith(halogen))), "power", finding.Caution, "550 W", "500 W")
	p := example(t, hallWith(halogen))
	book, err := rules.Merge(nil, []string{"power=400 W"})
	if err != nil {
		t.Fatal(err)
	}
	p.Rules = book
	say(t, Findings(p), "power", finding.Fail, "400 W")
	say(t, Findings(example(t, hallWith("{name: a, clip to: back, aim: one, watts: 20, watt hours: 100}"))), "power", finding.Note, "lasts 5 h")
	fair := strings.Replace(bare("south", ""), "12:00 to 16:00", "12:00 to 22:00", 1) + "lamps: [{name: a, clip to: back, aim: one, watts: 20, watt hours: 100}]\n"
	list := Findings(example(t, fair))
	say(t, list, "power", finding.Caution, "lasts 5 h", "open for 10 h")
	say(t, list, "lamps at hand", finding.Caution, "under the sky")
	say(t, list, "nightfall", finding.Note, "its lamps alone")
	say(t, list, "lamplight", finding.Note, "after dark, until 22:00")
}

// Common practice, no source: cloth keeps a foot off.
func TestClothBeforeALamp(t *testing.T) {
	cloth := "drapes: {walls: [back], cloth: grey, top: 96, fullness: 1}\n"
	say(t, Findings(example(t, hallWith("{name: a, from back: 2, height: 60, aim at: {from left: 60, from front: 120, height: 60}}")+cloth)), "lamps at hand", finding.Caution, "can scorch")
}
