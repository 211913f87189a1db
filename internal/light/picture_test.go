package light

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"boothmock/internal/booth"
	"boothmock/internal/colour"
	"boothmock/internal/geom"
	"boothmock/internal/kinds"
	"boothmock/internal/rules"
	"boothmock/internal/scene"
	"boothmock/scenes"
)

// demo is the built-in scene.
var demo = sync.OnceValues(func() (*booth.Plan, error) {
	f, err := scene.Read(scenes.FS, scenes.Demo)
	if err != nil {
		return nil, err
	}
	book, err := rules.Merge(nil, nil)
	if err != nil {
		return nil, err
	}
	return kinds.Build(f, book, scenes.FS)
})

// miss is how far the picture is off at some place, in 255ths of the signal, and how many of a picture's pixels that
// stands for.
type miss struct{ off, pixels float64 }

// misses compares what a view's picture shows with the light itself, at n places spread evenly over the picture, each a
// vertex that a mesh four times finer would have.
func misses(r *room, t tone, p *booth.Plan, lit *Lit, v booth.View, n int) []miss {
	eye := v.From(p.Eyes[0])
	ahead := v.Look.Sub(eye)
	shift := ahead.Y / math.Hypot(ahead.X, ahead.Z)
	z := geom.Vec{X: ahead.X, Z: ahead.Z}.Unit()
	x := geom.Vec{X: -z.Z, Z: z.X}
	half := math.Tan(v.Across / 2)
	// density is how many pixels a square metre at q with normal n fills; 0 outside the picture.
	density := func(q, n geom.Vec) float64 {
		d := q.Sub(eye)
		depth, face := d.Dot(z), -d.Dot(n)
		if face <= 0 || depth < 0.05 || math.Abs(d.Dot(x)) > half*depth || math.Abs(d.Y-shift*depth) > half*depth*9/16 {
			return 0
		}
		return face / (depth * depth * depth)
	}
	type tri struct {
		surface int
		t       [3]int
		area    float64
		guess   float64
	}
	var tris []tri
	total := 0.0
	for i, s := range lit.Surfaces {
		for _, k := range s.Mesh.Triangles {
			a, b, c := s.Mesh.Vertices[k[0]], s.Mesh.Vertices[k[1]], s.Mesh.Vertices[k[2]]
			q := geom.Polygon{a.P, b.P, c.P}
			most := density(q.Centre(), q.Normal())
			for _, u := range q {
				most = max(most, density(u, q.Normal()))
			}
			if most > 0 {
				tris = append(tris, tri{i, k, q.Area(), most})
				total += q.Area() * most
			}
		}
	}
	rnd := rand.New(rand.NewPCG(3, 5))
	found := make([]miss, n)
	type pick struct {
		tri
		w [3]float64
	}
	picks := make([]pick, n)
	sum, k := tris[0].area*tris[0].guess, 0
	for i := range n {
		for want := (float64(i) + 0.5) / float64(n) * total; sum < want && k+1 < len(tris); {
			k++
			sum += tris[k].area * tris[k].guess
		}
		a, b := rnd.IntN(5), rnd.IntN(5)
		if a+b > 4 {
			a, b = 4-a, 4-b
		}
		picks[i] = pick{tris[k], [3]float64{float64(a) / 4, float64(b) / 4, float64(4-a-b) / 4}}
	}
	r.each(n, func(g *gatherer, i int) {
		c := picks[i]
		s := &lit.Surfaces[c.surface]
		part := &p.Parts[s.Part]
		var q geom.Vertex
		var drawn rgb
		for k, x := range c.t {
			v := s.Mesh.Vertices[x]
			q.P, q.N = q.P.Add(v.P.Mul(c.w[k])), q.N.Add(v.N.Mul(c.w[k]))
			l := s.Light[x]
			drawn = drawn.plus(rgb{float64(l[0]), float64(l[1]), float64(l[2])}, c.w[k])
		}
		q.N = q.N.Unit()
		v := s.Mesh.Vertices
		flat := geom.Polygon{v[c.t[0]].P, v[c.t[1]].P, v[c.t[2]].P}.Normal()
		d := density(q.P, flat)
		if d == 0 {
			return
		}
		if in := r.within(s.Part, part); in != r {
			g = newGatherer(in)
		}
		lift, ok := g.free(q.P, q.N, s.Part)
		if !ok {
			return
		}
		for k := range g.solids {
			if hides(g.solids[k].Convex, eye, lift) {
				return
			}
		}
		skin := newSkin(g, t, s.Part, part, s.Look, 1)
		spot := skin.spot(q)
		skin.light(&spot, q)
		is, paint := spot.rgb, skin.paint
		off := 0.0
		for k := range 3 {
			off = max(off, math.Abs(colour.Signal(paint[k]*is[k])-colour.Signal(paint[k]*drawn[k])))
		}
		found[i] = miss{off * 255, d / c.guess}
	})
	return slices.DeleteFunc(found, func(m miss) bool { return m.pixels == 0 })
}

// hides reports whether the solid is between a and b.
func hides(c geom.Convex, a, b geom.Vec) bool {
	t0, t1 := 0.0, 1.0
	for i, f := range c.Faces {
		n := c.Face(i).Normal()
		p := c.Corners[f[0]]
		h, k := n.Dot(p.Sub(a)), n.Dot(b.Sub(a))
		switch {
		case k > 0:
			t1 = min(t1, h/k)
		case k < 0:
			t0 = max(t0, h/k)
		case h < 0:
			return false
		}
	}
	return t0 < t1-1e-9
}

// In three pictures of the demo nearly every pixel is right to one step of 255. Where it is not, light changes faster than
// the mesh: where things touch, and from fold to fold.
func TestErrorInThePicture(t *testing.T) {
	p, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	lit := Bake(p)
	r := newRoom(p)
	r.settle()
	exposure := expose(r, p)
	var all []miss
	for _, v := range p.Views {
		if v.Name == "entrance" || v.Name == "inside" || v.Name == "aisle-left" {
			all = append(all, misses(r, exposure, p, lit, v, 12000)...)
		}
	}
	slices.SortFunc(all, func(a, b miss) int { return cmp.Compare(a.off, b.off) })
	total, over, mean := 0.0, 0.0, 0.0
	for _, m := range all {
		total, mean = total+m.pixels, mean+m.pixels*m.off
		if m.off > 1 {
			over += m.pixels
		}
	}
	mean, over = mean/total, over/total
	at := func(share float64) float64 {
		sum := 0.0
		for _, m := range all {
			if sum += m.pixels; sum >= share*total {
				return m.off
			}
		}
		return all[len(all)-1].off
	}
	vertices, triangles := 0, 0
	for _, s := range lit.Surfaces {
		vertices, triangles = vertices+len(s.Mesh.Vertices), triangles+len(s.Mesh.Triangles)
	}
	t.Logf("off in 255ths: mean %.3f, 90 %% of the pixels at most %.2f, 95 %% %.2f, 99 %% %.2f, 99.9 %% %.1f, all %.1f; %.2f %% over 1 (%d samples)",
		mean, at(.9), at(.95), at(.99), at(.999), at(1), 100*over, len(all))
	t.Logf("%d vertices, %d triangles", vertices, triangles)
	if mean > 0.36 || at(.9) > 0.75 || at(.99) > 4.3 || over > 0.065 {
		t.Error("the mesh is too coarse")
	}
	if vertices > 40000 || triangles > 59000 {
		t.Error("the mesh is too fine")
	}
}

func BenchmarkDemo(b *testing.B) {
	p, err := demo()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		Bake(p)
	}
}
