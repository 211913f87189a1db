package draft

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// crowded is a wall of so many works at random places, one or two hooks each, that do not lie on each other if there is room.
func crowded(r *rand.Rand, n int) (*booth.Plan, *booth.Part) {
	wide := 0.6 + r.Float64()*11.4
	hold := []booth.Hold{booth.Mesh, booth.Chains, booth.Panel}[n%3]
	p := &booth.Plan{Units: unit.System(n % 2), Eyes: []booth.Eye{{Name: "adult", Height: 1.57}}, Parts: []booth.Part{{
		ID: "wall/back", Name: "the back wall", Frame: geom.Upright(geom.Vec{X: -wide / 2, Z: -3}, geom.Vec{Z: 1}),
		Wall: &booth.Wall{Width: wide, Bottom: 0.15, Top: 2.1 + r.Float64()*0.8, Hold: hold, Spacing: 0.05, Link: 0.04},
	}}}
	for i := range n {
		h := &booth.Hung{Wall: "wall/back"}
		for range 30 {
			h.X0, h.Y0 = r.Float64()*wide*0.8, 0.3+r.Float64()*1.3
			h.X1, h.Y1 = min(wide, h.X0+0.1+r.Float64()*0.5), h.Y0+0.1+r.Float64()*0.4
			lies := false
			for _, o := range p.Parts[1:] {
				k := o.Work.Hung
				lies = lies || k.X0 < h.X1 && h.X0 < k.X1 && k.Y0 < h.Y1 && h.Y0 < k.Y1
			}
			if !lies {
				break
			}
		}
		for range 1 + r.IntN(2) {
			h.Hooks = append(h.Hooks, booth.Hook{X: h.X0 + r.Float64()*(h.X1-h.X0), Y: h.Y1 - 0.08, Grip: h.Y1 - 0.04})
		}
		p.Parts = append(p.Parts, booth.Part{ID: booth.ID(fmt.Sprint("work/", i)), Work: &booth.Work{
			Title: []string{"Heron at the weir", "Κύματα", "L'étang où dort la brume", "Überschwemmungsgebiet"}[i%4], Height: h.Y1 - h.Y0, Width: h.X1 - h.X0, Hung: h,
		}})
	}
	return p, &p.Parts[0]
}

// settings are the papers that walls are drawn on: the picture, a page's drawing as a telephone of 320 and 390 px, a tablet of 820 and a
// screen of 1440 px show it (it is scaled as a whole, so that one in centimetres holds at each of them), A4 and Letter lying.
func settings(p *booth.Plan, w *booth.Wall) map[string]Setting {
	width := func(bold bool, text string) float64 { // no wider than the widest of the usual faces
		if bold {
			return 0.72 * float64(len([]rune(text)))
		}
		return 0.62 * float64(len([]rune(text)))
	}
	length := func(m float64) string { return unit.Length(m).Format(p.Units) }
	var scales []float64
	for _, s := range []float64{12, 16, 20, 24, 32, 40, 48, 64, 96, 192} {
		scales = append(scales, 1000/s)
	}
	out := map[string]Setting{"1920 x 1080 px": {Wide: 1920, High: 1080, Em: 20.8, Seen: true, Beyond: 0.15}}
	em := max(100*w.Width/29, 100*w.Top/33)
	out["page"] = Setting{Wide: 100*w.Width + em, High: 100*w.Top + 3*em, Em: em, Beyond: 0.04, OneByOne: true}
	for name, s := range map[string][2]float64{"A4": {297, 210}, "Letter": {279.4, 215.9}} {
		out[name] = Setting{Wide: s[0] - 116, High: s[1] - 63, Em: 3.175, Scales: scales, Beyond: 0.05}
	}
	for name, s := range out {
		s.Width, s.Length = width, length
		out[name] = s
	}
	return out
}

// On walls of 0.6 to 12 m with 1 to 60 works no label is cut off, none lies on another that is seen with it, and what finds no
// room is counted. A hook's number always finds room on a picture; of one work after the other all measures do.
func TestNoLabelIsCutOrLiesOnAnother(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := 1; n <= 60; n++ {
		p, part := crowded(r, n)
		all := settings(p, part.Wall)
		for i, name := range slices.Sorted(maps.Keys(all)) {
			if os.Getenv("REQUIRE_TOOLS") == "" && (n+i)%len(all) > 0 {
				continue
			}
			set := all[name]
			w := Of(p, part, set)
			var labels []Mark
			for _, m := range w.Marks {
				if m.Text != "" {
					labels = append(labels, m)
				}
			}
			if len(labels) < 2 || set.OneByOne && len(labels) < 3*len(w.hooks) {
				t.Errorf("%s, %d works: only %d labels", name, n, len(labels))
			}
			if said := w.Missing(); (said == "") != (w.Left == 0) || w.Left > 1 && !strings.HasPrefix(said, fmt.Sprintf("%d labels have no room", w.Left)) {
				t.Errorf("%s, %d works: %d labels are left out, and it says %q", name, n, w.Left, said)
			}
			if foot := w.Missing(); !set.OneByOne && foot != slices.MaxFunc(labels, func(a, b Mark) int { return cmp.Compare(a.Path[0].Y, b.Path[0].Y) }).Text && foot != "" {
				t.Errorf("%s, %d works: the drawing does not say below that %d labels are left out", name, n, w.Left)
			}
			for i, m := range labels {
				b := w.Box(m)
				if !b.Within(Box{-1e-6, -1e-6, w.Wide + 1e-6, w.High + 1e-6}) {
					t.Errorf("%s, %d works: %q at %+v is cut off", name, n, m.Text, b)
				}
				for _, o := range labels[:i] {
					if c := w.Box(o); b.Meets(c) && (!set.OneByOne || m.Of == o.Of || m.Of == 0 || o.Of == 0) {
						t.Errorf("%s, %d works: %q at %+v lies on %q at %+v", name, n, m.Text, b, o.Text, c)
					}
				}
			}
		}
	}
}

// A drawing says the scale that it has, and a work's outline is as large as it is over the scale.
func TestScaleIsTrue(t *testing.T) {
	p, part := crowded(rand.New(rand.NewPCG(3, 4)), 3)
	w := Of(p, part, settings(p, part.Wall)["A4"])
	said := false
	for _, m := range w.Marks {
		said = said || strings.Contains(m.Text, fmt.Sprintf(" at 1:%.0f", 1000/w.Scale))
	}
	b, h := w.Outline(0), w.Works[0].Work.Hung
	if !said || math.Abs(b.X1-b.X0-(h.X1-h.X0)*w.Scale) > 1e-9 || math.Abs(b.Y1-b.Y0-(h.Y1-h.Y0)*w.Scale) > 1e-9 {
		t.Errorf("1:%.0f is said: %v; the first work is %+v", 1000/w.Scale, said, b)
	}
}

// A work that nothing holds is drawn where the scene puts it, and its caption says so.
func TestUnheldIsSaid(t *testing.T) {
	p, _ := crowded(rand.New(rand.NewPCG(3, 4)), 1)
	k := &p.Parts[1]
	all := func(string) bool { return true }
	_, held := Caption(p, k, all)
	k.Work.Hung.Unheld = booth.NoPlace
	if title, got := Caption(p, k, all); len(got) != len(held)+1 || got[len(got)-1] != "nothing holds it" || title != 1 {
		t.Errorf("%q, and held %q", got, held)
	}
}

// Measures have the decimal mark of the plan's amounts.
func TestDecimalMark(t *testing.T) {
	p, _ := crowded(rand.New(rand.NewPCG(3, 4)), 1)
	k := &p.Parts[1]
	p.Units, k.Work.Height, k.Work.Width = unit.Centimetres, 0.615, 0.91
	for currency, want := range map[string][2]string{"$": {"61.5\u00a0x\u00a091\u00a0cm", "61.5 cm"}, "1.250,00 €": {"61,5\u00a0x\u00a091\u00a0cm", "61,5 cm"}} {
		p.Currency = currency
		_, lines := Caption(p, k, func(string) bool { return true })
		if got := [2]string{strings.ReplaceAll(lines[1], " ", "\u00a0"), p.Measure(0.615)}; got != want {
			t.Errorf("%s: %q, want %q", currency, got, want)
		}
	}
}

// A table before the wall has its line at its height, as long as it stands there; one that stands a step away has none.
func TestTableLine(t *testing.T) {
	p, part := crowded(rand.New(rand.NewPCG(3, 4)), 1)
	high := 0.75
	table := func(z float64) booth.Part {
		box := geom.Box(geom.World, geom.Vec{X: -0.2, Z: z}, geom.Vec{X: 0.2, Y: high, Z: z + 0.5})
		return booth.Part{Top: &high, Solids: []geom.Convex{box}}
	}
	lines := func(parts ...booth.Part) (out []Mark) {
		q := *p
		q.Parts = append(append([]booth.Part{}, p.Parts...), parts...)
		for _, m := range Of(&q, &q.Parts[0], settings(p, part.Wall)["A4"]).Marks {
			if m.Pen == Table && m.Text == "" {
				out = append(out, m)
			}
		}
		return out
	}
	if n := len(lines(table(-1.5))); n != 0 {
		t.Errorf("%d lines of a table away from the wall", n)
	}
	got := lines(table(-2.9))
	if len(got) != 1 {
		t.Fatalf("%d lines of a table before the wall", len(got))
	}
	w := Of(p, part, settings(p, part.Wall)["A4"])
	if a := w.At(part.Wall.Width/2-0.2, high); math.Abs(got[0].Path[0].X-a.X) > 1e-6 || math.Abs(got[0].Path[0].Y-a.Y) > 1e-6 {
		t.Errorf("the line begins at %+v, not %+v", got[0].Path[0], a)
	}
}

// Labels keep their order and their distance, and stay before the end.
func TestSpread(t *testing.T) {
	got := spread([]float64{10, 10.5, 11, 40, 99}, 4, 100)
	for i := 1; i < len(got); i++ {
		if got[i]-got[i-1] < 4-1e-9 {
			t.Errorf("%v: too close", got)
		}
	}
	if got[0] != 10 || got[3] != 40 || got[4] != 99 {
		t.Errorf("%v: moved without need", got)
	}
	if got := spread([]float64{98, 99, 100}, 4, 100); got[2] != 100 || got[0] != 92 {
		t.Errorf("%v: beyond the end", got)
	}
}
