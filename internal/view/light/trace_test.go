package light

import (
	"cmp"
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
	boxes  []bounds
}

type traced struct {
	a, ab, ac, n geom.Vec
	part         int
	own, through rgb     // shares of light that go back, and through
	thick        float64 // metres: of cloth whose other side is a face of its own
}

// newTracer takes in the triangles of all parts but wire mesh, as Bake does.
func newTracer(p *booth.Plan) *tracer {
	t := &tracer{indoor: p.Pitch.Indoor, lux: 1, ceil: 1}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.SeeThrough || part.Beyond && (part.Flat || t.indoor && len(part.Solids) == 0) {
			continue // what light a hall has, its walls with it, is stated
		}
		for _, s := range part.Surfaces {
			c := material(s.Look)
			most := max(c[0], c[1], c[2], 0.05)
			f := traced{part: i, own: rgb{}.plus(c, 1-s.Look.Passes), through: rgb{}.plus(c, s.Look.Passes/most), thick: thick(s.Look)}
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
	if len(t.faces) > 0 {
		t.boxes = make([]bounds, 1)
		t.grow(0, 0, int32(len(t.faces)))
	}
	return t
}

// thick is how far apart the sides of cloth that lets light through are, if they are two surfaces: light that comes in by one of them
// has come through the other too.
func thick(l booth.Look) float64 {
	if l.TwoSided || l.Passes == 0 {
		return 0
	}
	return 0.003 // metres: the valance is drawn 2 mm thick
}

// hit is the first face on the ray from p along d within far metres (Möller and Trumbore, 1997), and how far away it is; -1 for none.
func (t *tracer) hit(p, d geom.Vec, far float64) (int, float64) {
	const near = 1e-4 // metres
	inv := geom.Vec{X: 1 / d.X, Y: 1 / d.Y, Z: 1 / d.Z}
	best := -1
	var wait [64]int32
	for n := min(1, len(t.boxes)); n > 0; {
		n--
		b := &t.boxes[wait[n]]
		if !b.met(p, inv, far) {
			continue
		}
		if b.count == 0 {
			first, then := b.first, b.first+1
			if b.along(d) < 0 {
				first, then = then, first
			}
			wait[n], wait[n+1] = then, first
			n += 2
			continue
		}
		for i := b.first; i < b.first+b.count; i++ {
			f := &t.faces[i]
			q := d.Cross(f.ac)
			det := f.ab.Dot(q)
			if math.Abs(det) < 1e-14 {
				continue
			}
			s := p.Sub(f.a)
			u := s.Dot(q) / det
			if u < 0 || u > 1 {
				continue
			}
			r := s.Cross(f.ab)
			v := d.Dot(r) / det
			if x := f.ac.Dot(r) / det; v >= 0 && u+v <= 1 && x > near && x < far {
				best, far = int(i), x
			}
		}
	}
	return best, far
}

// bounds is a box about faces from first on, or if count is 0 about the boxes first and first+1, which lie one after the other along an axis.
type bounds struct {
	lo, hi       geom.Vec
	first, count int32
	axis         int
}

func (b *bounds) along(d geom.Vec) float64 { return [3]float64{d.X, d.Y, d.Z}[b.axis] }

// met is whether a ray meets the box before it has gone far; inv are one over its direction's components.
func (b *bounds) met(p, inv geom.Vec, far float64) bool {
	x0, x1 := (b.lo.X-p.X)*inv.X, (b.hi.X-p.X)*inv.X
	y0, y1 := (b.lo.Y-p.Y)*inv.Y, (b.hi.Y-p.Y)*inv.Y
	z0, z1 := (b.lo.Z-p.Z)*inv.Z, (b.hi.Z-p.Z)*inv.Z
	return max(0, min(x0, x1), min(y0, y1), min(z0, z1)) <= min(far, max(x0, x1), max(y0, y1), max(z0, z1))*(1+1e-9)
}

// grow sorts the faces from one number to the next into box number at, and those within it.
func (t *tracer) grow(at, from, to int32) {
	var all, middles []geom.Vec
	for i := from; i < to; i++ {
		f := &t.faces[i]
		all = append(all, f.a, f.a.Add(f.ab), f.a.Add(f.ac))
		middles = append(middles, f.a.Add(f.ab.Add(f.ac).Mul(1./3)))
	}
	b := bounds{first: from, count: to - from}
	b.lo, b.hi = geom.Bounds(all)
	if to-from > 4 {
		lo, hi := geom.Bounds(middles)
		d := hi.Sub(lo)
		if d.Y > d.X && d.Y >= d.Z {
			b.axis = 1
		} else if d.Z > d.X {
			b.axis = 2
		}
		along := func(f *traced) float64 { return b.along(f.a.Mul(3).Add(f.ab).Add(f.ac)) }
		slices.SortFunc(t.faces[from:to], func(x, y traced) int { return cmp.Compare(along(&x), along(&y)) })
		b.first, b.count = int32(len(t.boxes)), 0
		t.boxes = append(t.boxes, bounds{}, bounds{})
		half := (from + to) / 2
		t.grow(b.first, from, half)
		t.grow(b.first+1, half, to)
	}
	t.boxes[at] = b
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
		k, far := t.hit(p, d, 120)
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
			p = p.Add(n.Mul(f.thick))
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
	r := newRoom(p, nil, nothing)
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
	far := d.Len()
	d = d.Unit()
	for {
		k, at := t.hit(p, d, far-1e-6)
		if k < 0 || t.faces[k].part != but {
			return k >= 0
		}
		p, far = p.Add(d.Mul(at)), far-at
	}
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

// compared is a place on a surface, and its light as it is drawn and as it is traced.
type compared struct {
	part         *booth.Part
	at, n        geom.Vec
	ours, theirs rgb
	off          float64 // in 255ths of the signal; more than 0 where too bright
}

// pick is a triangle of a surface before it was divided.
type pick struct{ surface, triangle int }

// spots are all triangles in a booth, but of lamps' openings, before they were divided, and the sum of the areas up to each.
func spots(p *booth.Plan, lit *Lit) (picks []pick, sums []float64, total float64) {
	for i, s := range lit.Surfaces {
		if s.Look.Glows {
			continue // a lamp's opening gives light, and what it gets does not show
		}
		for k, c := range s.Whole {
			a, b, d := s.Mesh.Vertices[c[0]].P, s.Mesh.Vertices[c[1]].P, s.Mesh.Vertices[c[2]].P
			m := a.Add(b).Add(d).Mul(1. / 3)
			if math.Abs(m.X) > p.Pitch.Width/2 || m.Z > 1 || m.Z < -p.Pitch.Depth {
				continue
			}
			total += b.Sub(a).Cross(d.Sub(a)).Len() / 2
			picks, sums = append(picks, pick{i, k}), append(sums, total)
		}
	}
	return picks, sums, total
}

// spot is a random place on a triangle before it was divided: the triangle that it is in now, and the place's coordinates there.
func (s *Surface) spot(rnd *rand.Rand, whole int) (triangle int, w [3]float64) {
	u, v := math.Sqrt(rnd.Float64()), rnd.Float64()
	c := s.Whole[whole]
	at := s.Mesh.Vertices[c[0]].P.Mul(1 - u).Add(s.Mesh.Vertices[c[1]].P.Mul(u * (1 - v))).Add(s.Mesh.Vertices[c[2]].P.Mul(u * v))
	second := map[int]int{}
	for _, a := range s.Across {
		second[a[0]] = a[1]
	}
	best := math.Inf(-1)
	for i, c := range s.Mesh.Triangles {
		if two, ok := second[i]; s.Of[i] != whole && !(ok && two == whole) {
			continue
		}
		a, b, d := s.Mesh.Vertices[c[0]].P, s.Mesh.Vertices[c[1]].P, s.Mesh.Vertices[c[2]].P
		n := b.Sub(a).Cross(d.Sub(a))
		x, y := d.Sub(b).Cross(at.Sub(b)).Dot(n)/n.Dot(n), a.Sub(d).Cross(at.Sub(d)).Dot(n)/n.Dot(n)
		if least := min(x, y, 1-x-y); least > best {
			best, triangle, w = least, i, [3]float64{x, y, 1 - x - y}
		}
	}
	return triangle, w
}

// compare holds the baked light against the tracer's at n places that somebody sees, spread over the surfaces by area.
func compare(p *booth.Plan, n, grid int) []compared {
	lit := Bake(p)
	tr := newTracer(p)
	tr.take(p)
	picks, sums, total := spots(p, lit)
	out := make([]compared, n)
	views := eyes(p)
	rooms := make([]*room, len(p.Parts))
	for i := range rooms {
		rooms[i] = lit.found.room.within(i, &p.Parts[i])
		rooms[i].eyes = views
	}
	lit.found.room.each(n, nil, func(_ *gatherer, i int) {
		rnd := rand.New(rand.NewPCG(7, uint64(i)))
		for out[i].part == nil {
			k, _ := slices.BinarySearch(sums, rnd.Float64()*total)
			s := &lit.Surfaces[picks[k].surface]
			out[i] = tr.compare(newGatherer(rooms[s.Part]), rnd, p, s, picks[k].triangle, grid)
		}
	})
	return out
}

// compare compares a place on a surface, in one of its triangles before it was divided; its part is nil if nobody sees it.
func (t *tracer) compare(g *gatherer, rnd *rand.Rand, p *booth.Plan, s *Surface, whole, grid int) (o compared) {
	triangle, w := s.spot(rnd, whole)
	c := s.Mesh.Triangles[triangle]
	for j, x := range c {
		vx := s.Mesh.Vertices[x]
		o.at, o.n = o.at.Add(vx.P.Mul(w[j])), o.n.Add(vx.N.Mul(w[j]))
		o.ours = o.ours.plus(double(s.Light[x]), w[j]*(2*w[j]-1)).plus(double(s.Middles[triangle][j]), 4*w[j]*w[(j+1)%3])
	}
	o.n = o.n.Unit()
	if q, ok := g.free(o.at, o.n, s.Part); !ok || !g.seen(q, o.n) {
		return o
	}
	o.part = &p.Parts[s.Part]
	m := material(s.Look)
	o.theirs = rgb{}.plus(t.light(rnd, o.at.Add(o.n.Mul(1e-4)), o.n, grid), 1-s.Look.Passes)
	if s.Look.Passes > 0 {
		o.theirs = o.theirs.plus(t.light(rnd, o.at.Sub(o.n.Mul(1e-4+thick(s.Look))), o.n.Neg(), grid), through(m, s.Look.Passes))
	}
	drawn, want := s.Tone.of(o.ours), s.Tone.of(o.theirs)
	for j := range 3 {
		if d := 255 * (colour.Signal(m[j]*drawn[j]) - colour.Signal(m[j]*want[j])); math.Abs(d) > math.Abs(o.off) {
			o.off = d
		}
	}
	return o
}

// summary is how far places are off, in order, the light of all as a share of the tracer's, and how far each part is off on average.
func summary(places []compared) (offs []float64, ratio float64, by map[booth.ID]float64) {
	var ours, theirs float64
	by = map[booth.ID]float64{}
	counts := map[booth.ID]float64{}
	for _, c := range places {
		ours, theirs = ours+luminance(c.ours), theirs+luminance(c.theirs)
		offs = append(offs, math.Abs(c.off))
		by[c.part.ID] += math.Abs(c.off)
		counts[c.part.ID]++
	}
	for id := range by {
		by[id] /= counts[id]
	}
	slices.Sort(offs)
	return offs, ours / theirs, by
}

func double(c [3]float32) rgb { return rgb{float64(c[0]), float64(c[1]), float64(c[2])} }

// variant is a booth to try light on: the demo, that under a navy canopy or without a tent, or the hall.
func variant(t *testing.T, name string) *booth.Plan {
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
	return p
}

// Light is what a path tracer finds on the drawn triangles, wires and people among them, as far as measured here: 400 places with 576
// paths each, on 2026-12-01. TRACE=all looks at more booths at more places; without it one is looked at, roughly. A part of what it is
// off by is the tracer's own noise.
func TestAgainstPathTracer(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	type limits struct{ mean, p95, ratio float64 }
	most := map[string]limits{"demo": {5.3, 22, 0.05}, "dark": {7.3, 35, 0.1}, "hall": {4.6, 13, 0.04}, "open": {6, 23, 0.05}}
	places, grid, names := 400, 24, []string{"demo", "dark", "hall", "open"}
	if os.Getenv("TRACE") == "" {
		places, grid, names = 120, 16, names[:1]
		most["demo"] = limits{5.6, 24, 0.06}
	}
	for _, name := range names {
		p := variant(t, name)
		offs, ratio, by := summary(compare(p, places, grid))
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
