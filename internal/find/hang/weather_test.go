package hang

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

const lbf = lb * wind.Gravity

// tented is the bench under a tent of 10 x 10 ft: eave 84 in, peak 124 in, valance 9 in, 50 lb, 40 lb on each leg.
func tented() *booth.Plan {
	p := bench(booth.Mesh)
	p.Parts = append(p.Parts, booth.Part{
		ID: "tent", Bring: "tent", Tent: &booth.Tent{
			Width: 10 * ft, Depth: 10 * ft, Eave: 84 * in, Peak: 124 * in, Valance: 9 * in, Legs: 4,
			RoofFront: 10 * ft * 40 * in / 2, RoofSide: 10 * ft * 40 * in / 2, Weight: unit.Weight(50 * lb), Ballast: unit.Weight(40 * lb),
		},
	})
	p.Weather = booth.Weather{Gust: 30 * wind.MilesPerHour, Exposure: "C", Friction: 0.5, Curtain: unit.Size{A: 72 * unit.Inch, B: 70 * unit.Inch}}
	return p
}

// By hand, in pounds, feet and mph: 30 mph, Kz 0.84888 (below 15 ft), Kd 0.85, G 0.85, 1.3 on the areas:
//
//	q = 2.304 × 0.84888 × 0.85 × 0.85 × 1.3 = 1.836995 psf
//	roof     10 × 3.3333 / 2 = 16.66667 ft² at 7 + 1.66667 = 8.66667 ft
//	valance  10 × 0.75 = 7.5 ft² at 7 − 0.375 = 6.625 ft
//	drape    9.75 × (7 − 0.041667) = 67.84375 ft² at 3.520833 ft (its upper edge is at the eave)
//
// Walls up: area 92.01042, F = 169.0227 lb; moment 1.836995 × (144.4444 + 49.6875 + 238.8665) = 795.4157 lb ft.
// Against sliding F / 0.5 / 0.6 = 563.409 lb; against tipping 2 × 795.4157 / 10 / 0.6 = 265.1386 lb. On each leg
// (563.409 − 50) / 4 = 128.352 lb. With 210 lb it slides at 30 √(210/563.409) = 18.3154 mph.
func TestWindByHand(t *testing.T) {
	w := Of(tented()).Weather
	near(t, "push", w.Up.Push/lbf, 169.0227, 0.002)
	near(t, "against sliding", w.Up.ToSlide/lb, 563.409, 0.01)
	near(t, "against tipping", w.Up.ToTip/lb, 265.1386, 0.01)
	near(t, "on each leg", w.Up.PerLeg/lb, 128.352, 0.005)
	near(t, "good for", w.Up.GoodFor/wind.MilesPerHour, 18.3154, 0.0005)
	if w.Up.From != "the front or the back" || w.Up.Enough {
		t.Errorf("%+v", w.Up)
	}
	// 18.3 mph is 8.19 m/s: gusts of force 2 end at 5.1 m/s, those of force 3 at 8.25 m/s.
	if w.Up.GoodForce != 2 {
		t.Errorf("good for force %d", w.Up.GoodForce)
	}
	if w.Down.Push >= w.Up.Push || w.Down.GoodFor <= w.Up.GoodFor {
		t.Errorf("walls down is no better: %+v", w.Down)
	}
	// What is said to be needed is enough, and a little less is not.
	p := tented()
	for share, want := range map[float64]bool{1.001: true, 0.999: false} {
		p.Parts[len(p.Parts)-1].Tent.Ballast = unit.Weight(w.Up.PerLeg * share)
		if got := Of(p).Weather.Up.Enough; got != want {
			t.Errorf("%v of the ballast needed: enough is %v", share, got)
		}
	}
}

// By hand, in inches: mesh of wires every 2 in, with no cloth before it, stops its wires' share of 117 x 76 in at 44 in above the
// ground, and a work of 20 x 30 in at 58 in stands before it.
func TestBareMeshInTheWind(t *testing.T) {
	p := bench(booth.Mesh, work("a", 20, 30, 40, 58, wire(20, 24, 4)))
	p.Parts = p.Parts[1:]
	p.Parts[0].Wall.Cover = ""
	of := p.Parts[1].Work.Hung
	wires, picture := 117*76*2*booth.MeshWire/(2*in), 20*30.0
	area := wires + picture
	got := sail(p, booth.Back, 84*in, wallsUp)
	near(t, "area", got.Area/(in*in), area, 0.001)
	near(t, "height", got.Height/in, (wires*44+picture*of.Centre()/in)/area, 0.001)
	if taken := sail(p, booth.Back, 84*in, wallsDown); math.Abs(taken.Area/(in*in)-wires) > 0.001 || math.Abs(taken.Height/in-44) > 0.001 {
		t.Errorf("without its works: %+v", taken)
	}
}

// What stays up, just below and above what the tent stands with and without its walls; by day visitors are there, and by night the sides
// are closed.
func TestNights(t *testing.T) {
	p := tented()
	w := Of(p).Weather
	for _, c := range []struct {
		gust  float64
		stays Stays
		says  string
	}{
		{0, All, "No wind is stated"}, {w.Up.GoodFor - 0.01, All, "Walls and cloth stay up"}, {w.Up.GoodFor + 0.01, Bare, "The bare tent stays up, without works, drapes and curtains"},
		{w.Down.GoodFor - 0.01, Bare, "works stay packed, under a roof"}, {w.Down.GoodFor + 0.01, None, "The tent is down and all is packed"},
	} {
		f := booth.Forecast{Gust: c.gust, Rain: true}
		s := Of(p)
		if got := s.Stays(f); got != c.stays || !strings.Contains(strings.Join(s.Asks(f, false), " "), c.says) {
			t.Errorf("in gusts of %v m/s %v stays up: %v", c.gust, got, s.Asks(f, false))
		}
		open, closed := strings.Join(s.Asks(f, true), " "), strings.Join(s.Asks(f, false), " ")
		if all := c.stays == All; strings.Contains(open, "tied back while visitors come in") != all || strings.Contains(closed, "the open sides are closed with") != all {
			t.Errorf("in rain and gusts of %v m/s: by day %q, by night %q", c.gust, open, closed)
		}
		if dry := strings.Join(s.Asks(booth.Forecast{Gust: c.gust}, true), " "); strings.Contains(dry, "Rain") {
			t.Errorf("without rain: %q", dry)
		}
		// Of two days the first has a night; the last one's is nobody's.
		p.Fair = &booth.Fair{Days: []booth.Opening{{From: time.Date(2026, 6, 13, 10, 0, 0, 0, time.UTC), Night: f}, {Night: booth.Forecast{Gust: 99}}}}
		found := s.forecast(p)
		if told := len(found) == 1; len(found) > 1 || told != (c.stays == None) || told && !strings.Contains(found[0].Message, "In the night after Saturday, 13 June, gusts of ") {
			t.Errorf("gusts of %v m/s at night: %+v", c.gust, found)
		}
		// By day, with everything up; a wind that the tent is held against anyway is told with that.
		q := *p
		q.Fair = &booth.Fair{Days: []booth.Opening{{From: p.Fair.Days[0].From, Day: f}}}
		for _, stated := range []float64{0, c.gust} {
			q.Weather.Gust = stated
			found = s.forecast(&q)
			if told := len(found) == 1; told != (c.stays != All && stated < c.gust) || told && (found[0].Level != finding.Fail || !strings.Contains(found[0].Message, "On Saturday, 13 June, gusts of ")) {
				t.Errorf("gusts of %v m/s by day, %v in the weather: %+v", c.gust, stated, found)
			}
		}
	}
}

// A rain curtain of the front is tied back while visitors come in and catches no wind; one of a side does, and no cloth that hangs free.
func TestCurtainsInTheWind(t *testing.T) {
	for _, c := range []struct {
		side       booth.Side
		rain, free bool
		stays      func(*booth.Part) bool
		area       float64 // ft²
	}{{booth.Front, true, false, wallsUp, 0}, {booth.Front, false, false, wallsUp, 50}, {booth.Left, true, false, wallsUp, 50}, {booth.Left, false, true, wallsUp, 0}, {booth.Left, false, false, wallsDown, 0}} {
		p := &booth.Plan{Parts: []booth.Part{{Cloth: &booth.Cloth{Side: c.side, Width: 10 * ft, Top: 6 * ft, Bottom: 1 * ft, Rain: c.rain, Free: c.free}}}}
		got := sail(p, c.side, 7*ft, c.stays)
		near(t, "area", got.Area/(ft*ft), c.area, 1e-9)
		if c.area > 0 {
			near(t, "height", got.Height/ft, 3.5, 1e-9)
		}
	}
}

// Every figure comes with its caution, and what is not stated is called unknown.
func TestWindWords(t *testing.T) {
	p := tented()
	text := flatten(Of(p).WindSection())
	for _, want := range []string{"THE WALLS COME DOWN in gusts of more than 18 mph", "friction 0.5", "Left out:", "organiser", "licensed", "ASCE 7", "3103.9", "400 ft²", "NFPA 701"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing about %q", want)
		}
	}
	tent := p.Parts[len(p.Parts)-1].Tent
	tent.Weight = 0
	if text := flatten(Of(p).WindSection()); strings.Contains(text, "unknown: no weight stated") || strings.Contains(text, "Write weight and ballast") {
		t.Errorf("ballast alone is a weight:\n%s", text)
	}
	tent.Ballast = 0
	text = flatten(Of(p).WindSection())
	for _, want := range []string{"Write weight and ballast under tent", "Ballast: unknown", "unknown: no weight stated", "counted as nothing"} {
		if !strings.Contains(text, want) {
			t.Errorf("without weights: nothing about %q", want)
		}
	}
	p.Parts = p.Parts[:2]
	if s := Of(p); s.Weather != nil || s.Rain != nil {
		t.Error("wind and rain on a booth without a tent")
	}
}

func flatten(s Section) string {
	out := s.Title + "\n" + strings.Join(s.Intro, "\n") + "\n" + strings.Join(s.Notes, "\n")
	for _, t := range s.Tables {
		for _, r := range append([][]string{t.Head}, t.Rows...) {
			out += "\n" + strings.Join(r, "|")
		}
	}
	return out
}

// By hand: an opening of 10 ft takes 120 + 2 × 6 in of sheet; n curtains of 70 in that lap 6 in reach 64 n + 6: two reach
// 134. They end 84 − 72 = 12 in above the ground; the line is 10 ft and two feet for knots. A table of 48 x 22 in with
// a box of 8 in on it: 48 + 2 (8 + 8) by 22 + 32.
func TestRainByHand(t *testing.T) {
	p := tented()
	high := 30 * in
	f := geom.World
	p.Parts = append(p.Parts,
		booth.Part{ID: "table/prints", Name: "the prints table", Frame: f, Top: &high, Solids: []geom.Convex{geom.Box(f, geom.Vec{X: -24 * in, Z: -11 * in}, geom.Vec{X: 24 * in, Y: high, Z: 11 * in})}},
		booth.Part{ID: "thing/box", Parent: "table/prints", Bring: "box", Solids: []geom.Convex{geom.Box(f, geom.Vec{Y: high}, geom.Vec{X: 4 * in, Y: high + 8*in, Z: 4 * in})}},
		booth.Part{ID: "sidewall/back", Cloth: &booth.Cloth{Side: booth.Back, Width: 10 * ft, Top: 83 * in, Fullness: 1}},
	)
	r := Of(p).Rain
	if len(r.Openings) != 3 {
		t.Fatalf("openings %+v", r.Openings)
	}
	o := r.Openings[0]
	near(t, "to buy", o.BuyWidth/in, 132, 1e-9)
	near(t, "short", o.Short/in, 12, 1e-9)
	near(t, "line", o.Line/ft, 12, 1e-9)
	if o.Curtains != 2 || o.Side != "front" {
		t.Errorf("%d curtains on the %s", o.Curtains, o.Side)
	}
	if rain := flatten(Of(p).RainSection()); !strings.Contains(rain, "|2|12 in|12 ft") {
		t.Errorf("the page says\n%s", rain)
	}
	// Four of 37 1/2 in reach 4 × 31 1/2 + 6 = 132, and three do not.
	p.Weather.Curtain.B = 37.5 * unit.Inch
	if n := Of(p).Rain.Openings[0].Curtains; n != 4 {
		t.Errorf("%d narrow curtains", n)
	}
	weights := map[string]Item{}
	for _, i := range Of(p).Kit {
		weights[i.What] = i
	}
	if c, x := weights["rain curtains with rings and cord"], weights["rain covers for tables"]; c.Need != 3*4 || c.usual != 1000 || c.first != "look" || x.Need != 1 || x.usual != 500 || x.first != "look" {
		t.Errorf("%+v %+v", c, x)
	}
	if tent, legs := weights["tent"], weights["weights for the tent's legs"]; tent.Weight == nil || math.Abs(*tent.Weight-50*lb) > 1e-9 || legs.Need != 4 || legs.Weight == nil || math.Abs(*legs.Weight-40*lb) > 1e-9 {
		t.Errorf("%+v %+v", tent, legs)
	}
	near(t, "cover along", r.Covers[0].BuyLength/in, 80, 1e-9)
	near(t, "cover across", r.Covers[0].BuyDepth/in, 54, 1e-9)
}

// By hand: 117 in at fullness 1.25 and two side hems of 1 in are 148.25 in flat, three widths of 60 in; each is cut 83.5 +
// 4 + 1.5 = 89 in: 267 in to buy. At 150 g/m² it weighs 148.25 × 89 × 0.0254² × 0.15 kg. Sheets of 102 x 90 in reach
// (87.5 in with the pocket); two of 90 in cover 146.25.
func TestClothByHand(t *testing.T) {
	p := bench(booth.Mesh)
	c := p.Parts[0].Cloth
	c.Grammage, c.Sheet = 150, unit.Size{A: 102 * unit.Inch, B: 90 * unit.Inch}
	c.Holds = unit.Weight(1)
	s := Of(p)
	b := s.Cloth[0]
	near(t, "flat", b.Flat/in, 148.25, 1e-9)
	near(t, "cut", b.Drop/in, 89, 1e-9)
	near(t, "to buy", b.Metres/in, 267, 1e-9)
	near(t, "weight", *b.Weight, 148.25*89*in*in*0.15, 1e-9)
	if b.Widths != 3 || b.Sheet.Count != 2 || b.Sheet.Short != 0 || b.Sheet.Turned {
		t.Errorf("%+v %+v", b, b.Sheet)
	}
	if s.Pipes[0].Judged != Over {
		t.Errorf("%.2f kg on a pipe for 1 kg: %s", *s.Pipes[0].Cloth, s.Pipes[0].Judged)
	}
	if text := flatten(s.ListSection()); !strings.Contains(text, "|1.25|148 1/4 in|89 in|3 of 60 in|22 ft 3 in|2|") {
		t.Errorf("to buy:\n%s", text)
	}
	c.Sheet = unit.Size{A: 80 * unit.Inch, B: 90 * unit.Inch} // too short, but turned it reaches
	if x := Of(p).Cloth[0].Sheet; !x.Turned || x.Count != 2 || x.Short != 0 {
		t.Errorf("%+v", x)
	}
	bottom := c.Bottom
	c.Bottom = 10 * in // the cloth ends that much higher
	c.Sheet = unit.Size{A: 80 * unit.Inch, B: 90 * unit.Inch}
	if x := Of(p).Cloth[0].Sheet; x.Turned || x.Short != 0 {
		t.Errorf("ending above the ground: %+v", x)
	}
	c.Bottom = bottom
	c.Sheet = unit.Size{A: 80 * unit.Inch, B: 70 * unit.Inch}
	near(t, "short", Of(p).Cloth[0].Sheet.Short/in, 7.5, 1e-9)
}

// Pipes are cut with little waste: 117, 60, 50 and 9 in go into two of 120 in; 150 in is one and a piece, with a coupler.
func TestPipes(t *testing.T) {
	n, how := pipesFor([]float64{60 * in, 117 * in, 50 * in, 9 * in}, 120*in, unit.Inches)
	if n != 2 || how != "cut 117 in, 60 in, 50 in, 9 in" {
		t.Errorf("%d pipes: %s", n, how)
	}
	if n, how := pipesFor([]float64{150 * in}, 120*in, unit.Inches); n != 2 || !strings.Contains(how, "couplers: 1") {
		t.Errorf("%d pipes: %s", n, how)
	}
	if n, _ := pipesFor(nil, 120*in, unit.Inches); n != 0 {
		t.Errorf("%d pipes for nothing", n)
	}
}

// The hardware is counted from the hooks: three hooks, of which two hang in loops.
func TestHardwareIsCounted(t *testing.T) {
	p := bench(booth.Mesh,
		work("Heron", 24, 36, 10, 58, wire(20, 22, 8)),
		work("Alder", 36, 24, 60, 57.75, booth.Fixing{By: booth.Rings, Spacing: 18 * in, Drop: 3 * in, Hooks: 2}))
	p.Kit = []booth.Extra{{Name: "folding trolley", Count: 1, Weight: unit.Weight(12 * lb)}}
	s := Of(p)
	count := map[string]Item{}
	for _, i := range append(s.Hardware, s.Kit...) {
		count[i.What] = i
	}
	if i := count["S-hooks"]; i.Need != 3 || i.Spare != 2 {
		t.Errorf("S-hooks %+v", i)
	}
	if i := count["tie loops of cord"]; i.Need != 1 {
		t.Errorf("loops %+v", i)
	}
	// Around a mesh of 117 x 76 in, a tie every 24 in: 6 along each long edge, 3 more up each side.
	if i := count["mesh ties"]; i.Need != 18 {
		t.Errorf("mesh ties %+v", i)
	}
	// On a pipe of 117 in a clip every 12 in, and one at its end.
	if i := count["clips for cloth"]; i.Need != 11 || i.Why != "one every 12 in along each pipe" {
		t.Errorf("clips %+v", i)
	}
	// The Heron's loop is 2.167 in long and the Alder hangs without: 2 × 2.167 and 4 in for the knot are 8 3/8 in of cord.
	if i := count["tie loops of cord"]; !strings.Contains(i.Why, "; 8 3/8 in of cord in all") {
		t.Errorf("cord %+v", i)
	}
	if i := count["straps or brackets for pipes"]; i.Need != 2 || i.Spare != 2 {
		t.Errorf("straps %+v", i)
	}
	if i := count["mesh ties"]; i.Why != "one every 24 in along the edges of each mesh" {
		t.Errorf("mesh ties %+v", i)
	}
	if i := count["pipes of 10 ft"]; i.Need != 1 {
		t.Errorf("pipes %+v", i)
	}
	// What is carried besides the things of the scene: of each its need and spares, by what a piece usually weighs.
	kg := map[string]float64{}
	for _, g := range s.Goods() {
		kg[g.What] = float64(g.Count) * g.Weight.Kg()
	}
	if math.Abs(kg["S-hooks"]-5*0.04) > 1e-12 || kg["folding trolley"] != 0 || kg["works, wrapped"] != 0 || kg["fair's letter, permit, insurance and tax papers"] != 0 {
		t.Errorf("goods %v", kg)
	}
	if i := count["folding trolley"]; i.Need != 1 || i.Weight == nil || math.Abs(*i.Weight-12*lb) > 1e-9 {
		t.Errorf("own things %+v", i)
	}
	if text := flatten(s.ListSection()); !strings.Contains(text, "[ ]|folding trolley|1|-|your own list; 12 lb each") {
		t.Errorf("the list:\n%s", text)
	}
	if i := count["works, wrapped"]; i.Need != 2 {
		t.Errorf("works %+v", i)
	}
	if text := flatten(s.WallSection(s.Walls[0])); !strings.Contains(text, "Measures are inches") {
		t.Errorf("the wall says\n%s", text)
	}
	text := flatten(s.WallSection(s.Walls[0]))
	for _, want := range []string{"Carries: where the work", "A hole is where a hook", "|tie loop"} {
		if !strings.Contains(text, want) {
			t.Errorf("the wall has no %q:\n%s", want, text)
		}
	}
	if bare := flatten(Of(bench(booth.Mesh)).WallSection(Of(bench(booth.Mesh)).Walls[0])); strings.Contains(bare, "A hole is") || strings.Contains(bare, "Carries") {
		t.Errorf("of a wall on which nothing hangs:\n%s", bare)
	}
}

// What no source prints: that nobody changes it by accident.
func TestUsualWeights(t *testing.T) {
	small := map[string]float64{}
	for what, h := range carriedFor {
		small[what] = h.grams
	}
	if want := (map[string]float64{"S-hooks": 40, "tie loops of cord": 5, "rail wires with a sliding hook": 60, "panel hooks, pins or screws": 30, "wall halves of cleats": 300,
		"mesh ties": 4, "shackles or S-hooks for chain heads": 60, "clips for cloth": 20, "straps or brackets for pipes": 150}); !maps.Equal(small, want) {
		t.Errorf("%v", small)
	}
	all := 0.0
	for _, u := range undrawn {
		all += u.grams
	}
	if all != 30_800 {
		t.Errorf("what no scene draws weighs %v g", all)
	}
	if n, m := spare(0), spare(1); n != 0 || m != 2 || spare(20) != 2 || spare(21) != 3 || spare(100) != 10 {
		t.Errorf("spares: none of none is %d, of one %d", n, m)
	}
}

// In a scene in metres pipe comes by the metre, three to a piece.
func TestMetricPipes(t *testing.T) {
	p := bench(booth.Mesh)
	p.Units = unit.Centimetres
	i := slices.IndexFunc(Of(p).Hardware, func(i Item) bool { return i.What == "pipes of 3 m" && i.Need == 1 })
	if i < 0 {
		t.Errorf("%+v", Of(p).Hardware)
	}
}

// A table has a heading, and its share of the width in hundredths, for each of its columns.
func TestTablesAreAsWideAsThePaper(t *testing.T) {
	p := tented()
	p.Parts = append(p.Parts, bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8))).Parts[2])
	p.Parts[0].Cloth.Grammage, p.Parts[0].Cloth.Holds = 300, unit.Weight(5*lb)
	high := 30 * in
	p.Parts = append(p.Parts, booth.Part{ID: "table/prints", Name: "the prints table", Frame: geom.World, Top: &high, Solids: []geom.Convex{geom.Box(geom.World, geom.Vec{}, geom.Vec{X: 24 * in, Y: high, Z: 11 * in})}})
	s := Of(p)
	sections := append(s.Sections(), s.StockSection())
	for _, sec := range sections {
		for _, table := range sec.Tables {
			sum := 0.0
			for _, w := range table.Wide {
				sum += w
			}
			if sum != 100 || len(table.Wide) != len(table.Head) {
				t.Errorf("%s, %s: %d columns of %d hundredths for %d headings", sec.Title, table.Title, len(table.Wide), int(sum), len(table.Head))
			}
		}
	}
}
