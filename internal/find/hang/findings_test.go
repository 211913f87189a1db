package hang

import (
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// what is what a sheet finds, one line a finding, without what the wind does.
func what(p *booth.Plan) (out []string) {
	for _, f := range Findings(p, Of(p)) {
		if f.Check != Standing.Name && f.Open == "" {
			out = append(out, string(f.Level)+" "+string(f.Item)+": "+f.Message)
		}
	}
	return out
}

// Works of the bench, by hand as in TestOneWallByHand and TestEveryKindOfWall of package hook.
func TestWhatHooksDoNotHoldWhereItShouldBe(t *testing.T) {
	rings := func(apart float64) booth.Fixing {
		return booth.Fixing{By: booth.Rings, Spacing: apart * in, Drop: 3 * in, Hooks: 2}
	}
	for _, c := range []struct {
		hold booth.Hold
		work booth.Part
		want []string
	}{
		{booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), nil},
		{booth.Chains, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), []string{"caution work/Heron: Heron hangs 2 in further right than the scene puts it, where the chains are"}},
		{booth.Chains, work("Heron", 24, 36, 30, 74, rings(24)), []string{"caution work/Heron: Heron hangs 2 1/4 in lower than the scene puts it, its middle at 71 3/4 in, as nothing holds a hook that high"}},
		{booth.Chains, work("Heron", 24, 36, 32, 74, rings(24)), []string{"caution work/Heron: Heron hangs 2 in further left and 2 1/4 in lower than the scene puts it, " +
			"where the chains are; its middle at 71 3/4 in, as nothing holds a hook that high"}},
		{booth.Chains, work("Heron", 24, 36, 10, 58, rings(16)), []string{"fail work/Heron: Heron cannot hang by its rings on chains: put a wire between the rings, or set them as far apart as the chains are"}},
		{booth.Mesh, work("Heron", 24, 36, 10, 58, booth.Fixing{By: booth.Cleat, Drop: 2 * in, Hooks: 2}), []string{"fail work/Heron: Heron cannot hang by its cleat on mesh: put two rings or a wire on its back"}},
		{booth.Panel, work("Heron", 24, 36, 110, 58, rings(18)), []string{"fail work/Heron: Heron cannot hang there, as a hook would be 20 in past the right end of the back wall: move it in"}},
		{booth.Rail, work("Heron", 24, 36, -12, 58, rings(18)), []string{"fail work/Heron: Heron cannot hang there, as a hook would be 3 in past the left end of the back wall: move it in"}},
		{booth.Panel, work("Heron", 24, 36, 10, -7, rings(18)), []string{"caution work/Heron: Heron hangs 4 in higher than the scene puts it, its middle at -3 in, as nothing holds a hook that low"}},
		{booth.None, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), []string{"fail wall/back: The back wall holds no hook, but it is to carry Heron: put mesh, chains, a rail or a panel behind the cloth"}},
		// Rings 8 in down and 20 apart on 27 in of wire: it sags √(27² − 20²)/2 = 9.07 in, 1.07 in more than there is.
		{booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 27, 8)), []string{"caution work/Heron: The wire of Heron is so long that its hook shows 1 1/8 in above the upper edge: shorten it"}},
	} {
		if got := what(bench(c.hold, c.work)); !slices.Equal(got, c.want) {
			t.Errorf("%s on %s:\n%q, want\n%q", c.work.Work.Fixing.By, c.hold, got, c.want)
		}
	}
	f := Findings(bench(booth.Chains, work("Heron", 24, 36, 32, 74, rings(24))), Of(bench(booth.Chains, work("Heron", 24, 36, 32, 74, rings(24)))))[0]
	near(t, "how far it moved", f.Measured/in, 3.010399, 5e-7) // √(2² + 2.25²)
	if f.Unit != finding.Metres {
		t.Errorf("in %s", f.Unit)
	}
}

// At the limit nothing is said; a hair beyond it is to be mended, with both numbers. 8 lb on one hook, on a wire of 22 in over
// rings 20 apart, which 8 lb pull with 9.601584 lb (TestLoads). For 9.501584 lb it would be at asin(8 / 19.003168) = 24.897°,
// 20 / cos 24.897° = 22.05 in long.
func TestWhatIsLoadedTooMuch(t *testing.T) {
	const alone = 8 * 1.200198 // lb in the wire
	for _, c := range []struct {
		hook, wire, wall float64 // stated, in lb
		works            int
		want             []string
	}{
		{8, alone + 0.01, 8, 1, nil},
		{7.9, 0, 0, 1, []string{"fail work/Heron: Heron puts 8 lb on its hook, which is stated to hold 7 lb 14 oz: take a stronger one, or hang it on two (hooks: 2)"}},
		{0, alone - 0.1, 0, 1, []string{"fail work/Heron: The wire of Heron pulls with 9 lb 10 oz, and is stated to hold 9 lb 8 oz: take one of 22 1/8 in or a little more, which is steeper, or a stronger one"}},
		{0, 4, 0, 1, []string{"fail work/Heron: The wire of Heron pulls with 9 lb 10 oz, and is stated to hold 4 lb: take a stronger one"}},
		{0, 0, 15.9, 2, []string{"fail wall/back: The back wall carries works of 16 lb, and is stated to hold 15.9 lb: hang some of them elsewhere"}},
	} {
		works := []booth.Part{work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), work("Alder", 24, 36, 60, 58, wire(20, 22, 8))}[:c.works]
		p := bench(booth.Mesh, works...)
		p.Hooks.Holds, p.Parts[1].Wall.Holds, p.Parts[2].Work.Fixing.Holds = unit.Weight(c.hook*lb), unit.Weight(c.wall*lb), unit.Weight(c.wire*lb)
		if got := what(p); !slices.Equal(got, c.want) {
			t.Errorf("%+v:\n%q, want\n%q", c, got, c.want)
		}
	}
	// 8 lb on two sides of a wire that holds 9.5016 lb: sin = 4/9.5016, and 20 in / cos = 56.005 cm.
	p := bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)))
	p.Units, p.Parts[2].Work.Fixing.Holds = unit.Centimetres, unit.Weight((alone-0.1)*lb)
	if got := what(p); len(got) != 1 || !strings.Contains(got[0], "take one of 56.1 cm or a little more") {
		t.Errorf("%q", got)
	}
	// Over two hooks 8 in apart the sides of a wire on rings 24 in apart are 8 in long, level; each carries half of 8 lb. That of 28 in drops
	// √(10² - 8²) = 6 in on 10, so it pulls with 4 × 10/6 = 6.667 lb. One that holds 6.4 lb wants sin = 4/6.4: 8 + 16/cos = 28.496 in, 28 1/2.
	two := wire(24, 28, 12)
	two.Hooks = 2
	p = bench(booth.Mesh, work("Heron", 24, 36, 10, 58, two))
	p.Parts[2].Work.Fixing.Holds = unit.Weight(6.4 * lb)
	if got := what(p); len(got) != 1 || !strings.Contains(got[0], "pulls with 6 lb 11 oz, and is stated to hold 6 lb 6 oz: take one of 28 1/2 in or a little more") {
		t.Errorf("%q", got)
	}
	// What is known may be too much already.
	p = bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), work("Alder", 24, 36, 60, 58, wire(20, 22, 8)))
	p.Parts[3].Work.Weight, p.Parts[1].Wall.Holds = 0, unit.Weight(5*lb)
	if got := what(p); !slices.Equal(got, []string{"fail wall/back: The back wall carries works of 8 lb and one that is not stated, and is stated to hold 5 lb: hang some of them elsewhere"}) {
		t.Errorf("%q", got)
	}
	// A pipe: cloth of 300 g/m² on 117 in of fullness 1.25, cut 89 in long and 148.25 in wide with its hems: 2.554 kg, 5.63 lb.
	p = bench(booth.Mesh)
	p.Parts[0].Cloth.Grammage, p.Parts[0].Cloth.Holds = 300, unit.Weight(5*lb)
	if got := what(p); len(got) != 1 || got[0] != "fail drape/back: The pipe of the back drape carries 5 lb 10 oz of cloth, and is stated to hold 5 lb: take lighter or less full cloth, or a stronger pipe" {
		t.Errorf("%q", got)
	}
}

// What is not stated is not judged, and that is said with the verdict, until all of it is stated.
func TestWhatIsNotStatedIsSaid(t *testing.T) {
	p := bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), work("Alder", 24, 36, 60, 58, wire(20, 22, 8)))
	heron, alder := p.Part("work/Heron").Work, p.Part("work/Alder").Work
	heron.Weight = 0
	line := func() (string, string) {
		r := finding.Gather(p, nil, Findings(p, Of(p)))
		for _, f := range r.Findings {
			if f.Open != "" {
				return f.Message, r.Line
			}
		}
		return "", r.Line
	}
	const open = "READY: nothing to mend; whether hooks and wires carry the works is not known."
	if said, got := line(); got != open || !strings.Contains(said, "what Heron weighs (weight), what a hook holds (hooks: hold) and what picture wire holds") {
		t.Errorf("nothing is stated: %q, %q", got, said)
	}
	heron.Weight, p.Hooks.Holds = alder.Weight, 100
	if said, got := line(); got != open || !strings.HasSuffix(said, "does not state what picture wire holds (hooks: wire holds)") {
		t.Errorf("but the wire: %q, %q", got, said)
	}
	heron.Fixing.Holds, alder.Fixing.Holds = 100, 100
	if said, got := line(); said != "" || got != "READY: nothing to mend." {
		t.Errorf("all is stated: %q, %q", got, said)
	}
}
