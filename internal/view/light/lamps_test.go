package light

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/lamp"
	"boothmock/internal/plan/booth"
)

const degree = math.Pi / 180

// lampPart is a lamp without a body, 4000 K, which a hall takes for white.
func lampPart(id booth.ID, at, toward geom.Vec, b lamp.Beam) booth.Part {
	side := geom.Vec{X: 1}
	if math.Abs(toward.X) > 0.9 {
		side = geom.Vec{Z: 1}
	}
	return booth.Part{ID: id, Lamp: &booth.Lamp{At: at, Toward: toward, Side: side, Radius: 0.02, Beam: b, Kelvin: hallWhite}}
}

func darkHall(parts ...booth.Part) *booth.Plan {
	return &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3, Indoor: true}, Parts: parts}
}

// onPlane is the light of a plan's lamps alone, in lux, at a place with normal n, past what is in the way.
func onPlane(p *booth.Plan, at, n geom.Vec) float64 {
	r := newRoom(p, nil, nothing)
	sum := 0.0
	for _, t := range newGatherer(r).lamplight(nil, at, n, -1) {
		sum += t.share
	}
	return sum
}

// By hand, from a lamp of I candela h over a table: I/h² below it (inverse square), and I·cos³θ/h² beside, where it is seen at θ: the
// cosine law, and the longer way. A spot has cosⁿ of its intensity there too.
func TestLampOverATable(t *testing.T) {
	const h = 1.8
	ies := lamp.Spot(1000, 180*degree) // alike into all directions below it: I = 1000/2π
	i := 1000 / (2 * math.Pi)
	for _, c := range []struct {
		beam lamp.Beam
		n    float64
		i    float64
	}{{ies, 0, i}, {lamp.Spot(1000, 120*degree), 1, 1000 / math.Pi}, {lamp.Spot(600, 60*degree), math.Log(0.5) / math.Log(math.Cos(30*degree)), 0}} {
		if c.i == 0 {
			c.i = 600 * (c.n + 1) / (2 * math.Pi)
		}
		p := darkHall(lampPart("lamp/a", geom.Vec{Y: 0.7 + h}, geom.Vec{Y: -1}, c.beam))
		for _, x := range []float64{0, 0.5, 1, 2} {
			cos := h / math.Hypot(h, x)
			want := c.i / h / h * math.Pow(cos, 3+c.n)
			if got := onPlane(p, geom.Vec{X: x, Y: 0.7}, geom.Up); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%.1f m beside: %.3f lx, by hand %.3f", x, got, want)
			}
		}
		if got := onPlane(p, geom.Vec{Y: 0.7}, geom.Up.Neg()); got != 0 {
			t.Errorf("from below: %v lx", got)
		}
	}
}

// An edge half-way between a lamp and a table casts a half-shadow as wide as the lamp's opening (similar triangles); in its middle half
// of the light arrives, and beyond none or all.
func TestHalfShadow(t *testing.T) {
	board := booth.Part{ID: "board", Solids: []geom.Convex{geom.Box(geom.World, geom.Vec{X: 0, Y: 1.2, Z: -2}, geom.Vec{X: 2, Y: 1.2001, Z: 2})}}
	open, p := darkHall(), darkHall(board)
	l := lampPart("lamp/a", geom.Vec{Y: 1.7}, geom.Vec{Y: -1}, lamp.Spot(1000, 180*degree))
	open.Parts, p.Parts = append(open.Parts, l), append(p.Parts, l)
	for x, want := range map[float64]float64{-0.025: 1, 0: 0.5, 0.025: 0} {
		at := geom.Vec{X: x, Y: 0.7}
		if got := onPlane(p, at, geom.Up) / onPlane(open, at, geom.Up); math.Abs(got-want) > 0.01 {
			t.Errorf("%.3f m under the board: %.3f of the light, want %.1f", x, got, want)
		}
	}
}

// litBooth are the left and the back wall of the hall scene, with their works and lamps.
func litBooth(t *testing.T) *booth.Plan {
	t.Helper()
	p, err := plan("hall.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p.Parts = slices.DeleteFunc(p.Parts, func(part booth.Part) bool {
		return part.Kind != "pitch" && !slices.Contains([]booth.ID{"", "wall/left", "wall/back"}, part.Parent) || part.Parent == "" && part.ID != "wall/left" && part.ID != "wall/back" && part.Kind != "pitch"
	})
	return p
}

// A lamp that is switched off costs no new light: no place is gathered anew. It is then as dark as without it, and on again as bright,
// to the last bit.
func TestSwitchedOff(t *testing.T) {
	p := litBooth(t)
	w := wish{eyes: []geom.Vec{{Y: 1.6, Z: 1}}, slack: 20, keep: true}
	lit := bake(context.Background(), p, w, nil)
	off := lit.At(p, Daylight{Off: true})
	if n := off.found.gathers(); n > lit.found.gathers()/20 { // where meshes are divided otherwise
		t.Errorf("switching off gathers light at %d places, of %d", n, lit.found.gathers())
	}
	on := off.At(p, Daylight{})
	for i := range lit.Surfaces {
		for k, v := range lit.Surfaces[i].Light {
			if len(lit.Surfaces[i].Light) != len(on.Surfaces[i].Light) || v != on.Surfaces[i].Light[k] {
				t.Fatalf("surface %d is lit otherwise after the lamps were off", i)
			}
		}
	}
	dark := *p
	dark.Parts = append([]booth.Part{}, p.Parts...)
	for i := range dark.Parts {
		dark.Parts[i].Lamp = nil
	}
	a, b := Measure(p, Daylight{Off: true}), Measure(&dark, Daylight{})
	for i := range a.Works {
		if math.Abs(a.Works[i].Light-b.Works[i].Light) > 1e-9 {
			t.Errorf("work %d: %v with the lamp off, %v without it", i, a.Works[i].Light, b.Works[i].Light)
		}
	}
}

// A lamp that is turned lights what it is turned to, in the next version as in one made from nothing.
func TestTurnedLamp(t *testing.T) {
	p := litBooth(t)
	q := *p
	q.Parts = append([]booth.Part{}, p.Parts...)
	for i := range q.Parts {
		if l := q.Parts[i].Lamp; l != nil {
			turned := *l
			turned.Toward = geom.Up.Neg()
			q.Parts[i].Lamp = &turned
			break
		}
	}
	w := wish{eyes: []geom.Vec{{Y: 1.6, Z: 1}}, slack: 20, keep: true}
	before := bake(context.Background(), p, w, nil)
	next, fresh := bake(context.Background(), &q, w, before.found), bake(context.Background(), &q, w, nil)
	changed := false
	for i := range fresh.Surfaces {
		for k, v := range fresh.Surfaces[i].Light {
			if v != next.Surfaces[i].Light[k] {
				t.Fatalf("surface %d of the next version is lit as it was", i)
			}
			changed = changed || k < len(before.Surfaces[i].Light) && v != before.Surfaces[i].Light[k]
		}
	}
	if !changed {
		t.Error("nothing is lit otherwise")
	}
}

// By night without lamps all is dark, and nothing is made bright again by getting used to it; with a lamp on it a work has its colours.
func TestNight(t *testing.T) {
	p, _ := baked()
	r := newRoom(p, nil, nothing)
	r.under(p, Daylight{Lux: -1})
	r.settle()
	if _, lights := r.works(p, nil); slices.ContainsFunc(lights, func(c rgb) bool { return c != rgb{} }) || r.dusk(expose(r, p)) < 0.99 {
		t.Errorf("light at night: %v, and the sky is %v darker", lights, r.dusk(expose(r, p)))
	}
	r = newRoom(p, nil, nothing)
	r.under(p, Daylight{Lux: 2}) // a few lux: dark, but not black
	r.settle()
	if g := expose(r, p).gain[1] * darkest / r.lux; math.Abs(g-1) > 0.3 {
		t.Errorf("an eye gets used to 2 lx: %v", g)
	}
}

// A path tracer, with every hit looking at the lamps (next event estimation, Shirley, Wang and Zimmerman, "Monte Carlo techniques for
// direct lighting calculations", 1996) and a disc for each, finds the light that works in the hall get from lamps and walls.
func TestLampsAgainstPathTracer(t *testing.T) {
	p := litBooth(t)
	l := Measure(p, Daylight{})
	tr := newTracer(p)
	tr.take(p)
	rnd := rand.New(rand.NewPCG(3, 3))
	for _, w := range l.Works {
		part := &p.Parts[w.Part]
		sum, n := 0.0, 0
		for i := range 3 {
			for k := range 3 {
				f := part.Work.Face
				q := f[0].Lerp(f[1], (float64(i)+0.5)/3).Lerp(f[3].Lerp(f[2], (float64(i)+0.5)/3), (float64(k)+0.5)/3)
				sum += luminance(tr.light(rnd, q.Add(f.Normal().Mul(0.002)), f.Normal(), 16))
				n++
			}
		}
		if is := sum / float64(n); math.Abs(w.Light/is-1) > 0.06 { // faces of walls are of one brightness each
			t.Errorf("%s gets %.0f lx, traced %.0f lx", part.ID, w.Light*l.Lux, is*l.Lux)
		}
	}
}
