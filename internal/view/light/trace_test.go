package light

import (
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// tracer is a path tracer over the drawn triangles of a booth, to hold the light against: Monte Carlo integration of the rendering
// equation (Kajiya, "The rendering equation", SIGGRAPH 1986) for diffuse surfaces and cloth that lets light through, with Russian
// roulette. It shares nothing with how light is worked out but the meshes, the colours and the CIE overcast sky's formula.
type tracer struct {
	indoor bool
	lux    float64 // what 1 is
	ceil   float64 // how bright a hall is above
	lamps  []source
	faces  []traced
	tree   *geom.Tree
}

type traced struct {
	a, ab, ac, n geom.Vec
	part         int
	own, through rgb // shares of light that go back, and through
}

// newTracer takes in the triangles of all parts but people and what is left out of some pictures, and mesh, as Bake does.
func newTracer(p *booth.Plan) *tracer {
	t := &tracer{indoor: p.Pitch.Indoor, lux: 1, ceil: 1}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.SeeThrough || part.Dressing || part.Moving || part.Beyond && (part.Flat || t.indoor && len(part.Solids) == 0) {
			continue // what light a hall has, its walls with it, is stated
		}
		for _, s := range part.Surfaces {
			c := material(s.Look)
			most := max(c[0], c[1], c[2], 0.05)
			f := traced{part: i, own: rgb{}.plus(c, 1-s.Look.Passes), through: rgb{}.plus(c, s.Look.Passes/most)}
			for _, k := range s.Mesh.Triangles {
				v := s.Mesh.Vertices
				f.a, f.ab, f.ac = v[k[0]].P, v[k[1]].P.Sub(v[k[0]].P), v[k[2]].P.Sub(v[k[0]].P)
				if n := f.ab.Cross(f.ac); n.Len() > 1e-12 {
					f.n = n.Unit()
					t.faces = append(t.faces, f)
				}
			}
		}
	}
	t.tree = geom.NewTree(len(t.faces), func(i int) (lo, hi geom.Vec) {
		f := &t.faces[i]
		return geom.Bounds([]geom.Vec{f.a, f.a.Add(f.ab), f.a.Add(f.ac)})
	})
	return t
}

// hit is the first face on the ray from p along d (Möller and Trumbore, 1997), and how far away it is; -1 for none.
func (t *tracer) hit(p, d geom.Vec) (int, float64) {
	const reach, near = 120.0, 1e-4 // metres
	best, at := -1, reach
	far := d.Mul(reach)
	t.tree.Each(func(lo, hi geom.Vec) bool {
		return crosses(p, far.Mul(at/reach), lo, hi)
	}, func(i int) {
		f := &t.faces[i]
		q := d.Cross(f.ac)
		det := f.ab.Dot(q)
		if math.Abs(det) < 1e-14 {
			return
		}
		s := p.Sub(f.a)
		u := s.Dot(q) / det
		r := s.Cross(f.ab)
		v := d.Dot(r) / det
		if x := f.ac.Dot(r) / det; u >= 0 && v >= 0 && u+v <= 1 && x > near && x < at {
			best, at = i, x
		}
	})
	return best, at
}

// malley is a direction before n, as often as light from there counts (Malley's method); u and v are from 0 to 1.
func malley(n geom.Vec, u, v float64) geom.Vec {
	f := facing(n)
	r, s, c := math.Sqrt(u), math.Sin(2*math.Pi*v), math.Cos(2*math.Pi*v)
	return f.X.Mul(r * c).Add(f.Y.Mul(r * s)).Add(n.Mul(math.Sqrt(1 - u)))
}

// light is what arrives at p before n, by grid × grid paths.
func (t *tracer) light(rnd *rand.Rand, p, n geom.Vec, grid int) (sum rgb) {
	for i := range grid {
		for k := range grid {
			d := malley(n, (float64(i)+rnd.Float64())/float64(grid), (float64(k)+rnd.Float64())/float64(grid))
			sum = sum.plus(t.path(rnd, p, d), 1/float64(grid*grid))
			sum = sum.plus(t.lamplight(rnd, p, n), 1/float64(grid*grid))
		}
	}
	return sum
}

func (t *tracer) path(rnd *rand.Rand, p, d geom.Vec) rgb {
	carried, got := white, rgb{}
	for range 60 {
		k, far := t.hit(p, d)
		switch {
		case k < 0 && t.indoor:
			return got.plus(carried, t.ceil)
		case k < 0 && d.Y <= 0: // beyond the ground that is drawn
			return got
		case k < 0:
			return got.plus(carried, 3./7*(1+2*d.Y))
		}
		f := &t.faces[k]
		n := f.n
		if n.Dot(d) > 0 {
			n = n.Neg()
		}
		p = p.Add(d.Mul(far))
		back, on := max(f.own[0], f.own[1], f.own[2]), max(f.through[0], f.through[1], f.through[2])
		switch x := rnd.Float64(); {
		case x < back:
			carried = carried.times(rgb{}.plus(f.own, 1/back))
		case x < back+on:
			carried, n = carried.times(rgb{}.plus(f.through, 1/on)), n.Neg()
		default:
			return got
		}
		got = got.plus(carried.times(t.lamplight(rnd, p.Add(n.Mul(1e-5)), n)), 1)
		p, d = p.Add(n.Mul(1e-5)), malley(n, rnd.Float64(), rnd.Float64())
	}
	return got
}

// take takes in the lamps of a plan.
func (t *tracer) take(p *booth.Plan) {
	r := newRoom(p, nil)
	t.lamps, t.lux, t.ceil = r.lamps, r.lux, r.sky[1]
}

// lamplight is what lamps give p straight, by one ray to a place on each one's disc.
func (t *tracer) lamplight(rnd *rand.Rand, p, n geom.Vec) (sum rgb) {
	for k := range t.lamps {
		l := &t.lamps[k]
		lux := l.onto(p, n)
		if lux == 0 {
			continue
		}
		d := l.At.Sub(p)
		f := facing(d.Unit())
		s, c := math.Sincos(2 * math.Pi * rnd.Float64())
		r := l.Radius * math.Sqrt(rnd.Float64())
		d = d.Add(f.X.Mul(r * c)).Add(f.Y.Mul(r * s))
		if !t.blocked(p, d, l.owner) {
			sum = sum.plus(l.tint, lux/t.lux)
		}
	}
	return sum
}

// blocked is whether something but a part stands between p and p+d.
func (t *tracer) blocked(p, d geom.Vec, but int) bool {
	any := false
	t.tree.Each(func(lo, hi geom.Vec) bool { return !any && crosses(p, d, lo, hi) }, func(i int) {
		f := &t.faces[i]
		q := d.Cross(f.ac)
		det := f.ab.Dot(q)
		if any || f.part == but || math.Abs(det) < 1e-14 {
			return
		}
		s := p.Sub(f.a)
		u := s.Dot(q) / det
		r := s.Cross(f.ab)
		v := d.Dot(r) / det
		x := f.ac.Dot(r) / det
		any = u >= 0 && v >= 0 && u+v <= 1 && x > 1e-4 && x < 1-1e-6
	})
	return any
}

// The tracer itself is right: level ground in the open gets 1, an upright face 0.396 of the CIE overcast sky, and half of what the
// ground gives back.
func TestTracerInTheOpen(t *testing.T) {
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}}
	tr := newTracer(p)
	rnd := rand.New(rand.NewPCG(1, 1))
	if got := tr.light(rnd, geom.Vec{Y: 1}, geom.Up, 200)[1]; math.Abs(got-1) > 0.003 {
		t.Errorf("level: %v, want 1", got)
	}
	if got := tr.light(rnd, geom.Vec{Y: 1}, geom.Vec{Z: 1}, 200)[1]; math.Abs(got-0.396177) > 0.003 {
		t.Errorf("upright: %v, want 0.396", got)
	}
}

// traceOff holds the baked light against the tracer's at n places that somebody sees, spread over the surfaces by area: by how many
// 255ths of the signal each is off, and the mean ratio of all light.
func traceOff(t *testing.T, p *booth.Plan, n, grid int) (offs []float64, ratio float64, worst map[booth.ID]float64) {
	lit := Bake(p)
	tr := newTracer(p)
	tr.take(p)
	rnd := rand.New(rand.NewPCG(7, 7))
	type pick struct{ surface, triangle int }
	var picks []pick
	var sums []float64
	total := 0.0
	for i, s := range lit.Surfaces {
		part := &p.Parts[s.Part]
		if part.SeeThrough || part.Dressing || part.Moving {
			continue
		}
		for k, c := range s.Mesh.Triangles {
			a, b, d := s.Mesh.Vertices[c[0]].P, s.Mesh.Vertices[c[1]].P, s.Mesh.Vertices[c[2]].P
			m := a.Add(b).Add(d).Mul(1. / 3)
			if math.Abs(m.X) > p.Pitch.Width/2 || m.Z > 1 || m.Z < -p.Pitch.Depth {
				continue
			}
			total += b.Sub(a).Cross(d.Sub(a)).Len() / 2
			picks, sums = append(picks, pick{i, k}), append(sums, total)
		}
	}
	r := lit.found.room
	g := newGatherer(r)
	g.eyes = eyes(p)
	var ours, theirs float64
	worst = map[booth.ID]float64{}
	counts := map[booth.ID]float64{}
	for len(offs) < n {
		k, _ := slices.BinarySearch(sums, rnd.Float64()*total)
		s := &lit.Surfaces[picks[k].surface]
		part := &p.Parts[s.Part]
		c := s.Mesh.Triangles[picks[k].triangle]
		u, v := math.Sqrt(rnd.Float64()), rnd.Float64()
		w := [3]float64{1 - u, u * (1 - v), u * v}
		var at, smooth geom.Vec
		var light rgb
		for j, x := range c {
			vx := s.Mesh.Vertices[x]
			at, smooth = at.Add(vx.P.Mul(w[j])), smooth.Add(vx.N.Mul(w[j]))
			light = light.plus(double(s.Light[x]), w[j]*(2*w[j]-1)).plus(double(s.Middles[picks[k].triangle][j]), 4*w[j]*w[(j+1)%3])
		}
		smooth = smooth.Unit()
		if !g.seen(at.Add(smooth.Mul(0.003)), smooth) {
			continue
		}
		m := material(s.Look)
		is := rgb{}.plus(tr.light(rnd, at.Add(smooth.Mul(1e-4)), smooth, grid), 1-s.Look.Passes)
		if s.Look.Passes > 0 {
			is = is.plus(tr.light(rnd, at.Sub(smooth.Mul(1e-4)), smooth.Neg(), grid), through(m, s.Look.Passes))
		}
		ours, theirs = ours+luminance(light), theirs+luminance(is)
		drawn, want := s.Tone.of(light), s.Tone.of(is)
		off := 0.0
		for j := range 3 {
			off = max(off, 255*math.Abs(colour.Signal(m[j]*drawn[j])-colour.Signal(m[j]*want[j])))
		}
		offs = append(offs, off)
		worst[part.ID] += off
		counts[part.ID]++
	}
	for id := range worst {
		worst[id] /= counts[id]
	}
	slices.Sort(offs)
	return offs, ours / theirs, worst
}

func double(c [3]float32) rgb { return rgb{float64(c[0]), float64(c[1]), float64(c[2])} }

// Light is what a path tracer finds on the drawn triangles, as far as measured here: 150 places with 576 paths each, on 2026-11-29. TRACE=all
// looks at more booths at more places; without it one is looked at, roughly. A part of what it is off by is the tracer's own noise.
func TestAgainstPathTracer(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	type limits struct{ mean, p95, ratio float64 }
	most := map[string]limits{"demo": {1.8, 9, 0.02}, "dark": {5.5, 34, 0.05}, "hall": {2, 6, 0.02}, "open": {3, 19, 0.05}}
	places, grid, names := 150, 24, []string{"demo", "dark", "hall", "open"}
	if os.Getenv("TRACE") == "" {
		places, grid, names = 70, 16, names[:1]
		most["demo"] = limits{3, 14, 0.055}
	}
	for _, name := range names {
		file := "demo.yaml"
		if name == "hall" {
			file = "hall.yaml"
		}
		p, err := plan(file)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Parts {
			part := &p.Parts[i]
			for k := range part.Surfaces {
				if l := &part.Surfaces[k].Look; l.Passes > 0 && name == "dark" {
					l.Passes, l.Colour = 0.02, booth.Colour{0x1d, 0x27, 0x40}
				}
			}
			if name == "open" && part.Kind == "tent" {
				*part = booth.Part{ID: part.ID}
			}
		}
		offs, ratio, by := traceOff(t, p, places, grid)
		mean := 0.0
		for _, o := range offs {
			mean += o / float64(len(offs))
		}
		n := len(offs)
		t.Logf("%-5s off in 255ths: mean %.2f, 95 %% %.1f, 99 %% %.1f; light %.3f of the tracer's", name, mean, offs[n*95/100], offs[n*99/100], ratio)
		for _, id := range slices.Sorted(maps.Keys(by)) {
			if by[id] > 3*mean {
				t.Logf("      %-24s %.1f", id, by[id])
			}
		}
		if m := most[name]; mean > m.mean || offs[n*95/100] > m.p95 || math.Abs(ratio-1) > m.ratio {
			t.Errorf("%s: light is not what a path tracer finds", name)
		}
	}
}

// Cloth gives back and lets through no more than it gets: at a face, whatever its colour and however much passes.
func TestEnergyIsConserved(t *testing.T) {
	for _, c := range []rgb{{0.9, 0.9, 0.88}, {1, 1, 1}, {0.02, 0.03, 0.06}, {0.7, 0.1, 0.1}} {
		for passes := 0.0; passes <= 0.9; passes += 0.15 {
			back, on := c.times(crossed(white, rgb{}, c, passes)), c.times(crossed(rgb{}, white, c, passes))
			for k := range c {
				if sum := back[k] + on[k]; sum > 1+1e-12 {
					t.Errorf("cloth of colour %v that passes %.2f gives back %.3f of what it gets", c, passes, sum)
				}
			}
		}
	}
}
