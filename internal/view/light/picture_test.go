package light

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/scenes"
)

// demo is the built-in scene.
var demo = sync.OnceValues(func() (*booth.Plan, error) { return plan(scenes.Demo) })

// plan is one of the example scenes.
func plan(name string) (*booth.Plan, error) {
	f, err := scene.Read(scenes.FS, name)
	if err != nil {
		return nil, err
	}
	book, err := rules.Merge(nil, nil)
	if err != nil {
		return nil, err
	}
	return kinds.Build(f, book, scenes.FS)
}

// litScene is an example scene with its light, and what the light is worked out in.
func litScene(t *testing.T, name string) (*booth.Plan, *Lit, *room, tone) {
	p, err := plan(name)
	if err != nil {
		t.Fatal(err)
	}
	r := newRoom(p, eyes(p), nothing)
	r.settle()
	return p, Bake(p), r, expose(r, p)
}

// miss is how far the picture is off at some place, in 255ths of the signal, and how many of a picture's pixels that
// stands for. around are places on the fair around, which has a coarser mesh: nobody looks there.
type miss struct {
	off, pixels float64
	around      bool
}

// parted are the misses in the booth, and those on the fair around it.
func parted(all []miss) (ours, around []miss) {
	for _, m := range all {
		if m.around {
			around = append(around, m)
		} else {
			ours = append(ours, m)
		}
	}
	return ours, around
}

// misses compares what a view's picture shows, or with straight a viewer of the .glb, with the light itself, at n places spread
// evenly over the picture, each a vertex that a mesh four times finer would have.
func misses(r *room, t tone, p *booth.Plan, lit *Lit, v booth.View, n int, straight bool) []miss {
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
		number  int
		area    float64
		guess   float64
	}
	var tris []tri
	total := 0.0
	for i, s := range lit.Surfaces {
		for number, k := range s.Mesh.Triangles {
			a, b, c := s.Mesh.Vertices[k[0]], s.Mesh.Vertices[k[1]], s.Mesh.Vertices[k[2]]
			q := geom.Polygon{a.P, b.P, c.P}
			most := density(q.Centre(), q.Normal())
			for _, u := range q {
				most = max(most, density(u, q.Normal()))
			}
			if most > 0 {
				tris = append(tris, tri{i, number, q.Area(), most})
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
	r.each(n, nil, func(g *gatherer, i int) {
		c := picks[i]
		s := &lit.Surfaces[c.surface]
		part := &p.Parts[s.Part]
		corners := s.Mesh.Triangles[c.number]
		var q geom.Vertex
		var drawn rgb
		add := func(l [3]float32, share float64) {
			drawn = drawn.plus(rgb{float64(l[0]), float64(l[1]), float64(l[2])}, share)
		}
		for k, x := range corners {
			v, w := s.Mesh.Vertices[x], c.w[k]
			q.P, q.N = q.P.Add(v.P.Mul(w)), q.N.Add(v.N.Mul(w))
			if straight {
				add(s.Straight[x], w)
			} else { // the shape functions of a quadratic triangle
				add(s.Light[x], w*(2*w-1))
				add(s.Middles[c.number][k], 4*w*c.w[(k+1)%3])
			}
		}
		q.N = q.N.Unit()
		v := s.Mesh.Vertices
		flat := geom.Polygon{v[corners[0]].P, v[corners[1]].P, v[corners[2]].P}.Normal()
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
		is, paint := skin.tone.of(spot.rgb), skin.paint
		if !straight {
			drawn = skin.tone.of(drawn)
		}
		off := 0.0
		for k := range 3 {
			off = max(off, math.Abs(colour.Signal(paint[k]*is[k])-colour.Signal(paint[k]*drawn[k])))
		}
		found[i] = miss{off * 255, d / c.guess, part.Beyond}
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

// errors are what misses sums up to: in 255ths the mean, and what so great a share of the pixels is off by at most; and the
// share that is off by more than 1.
type errors struct{ mean, p90, p95, p99, p999, all, over float64 }

func summed(all []miss) (e errors) {
	slices.SortFunc(all, func(a, b miss) int { return cmp.Compare(a.off, b.off) })
	total := 0.0
	for _, m := range all {
		total, e.mean = total+m.pixels, e.mean+m.pixels*m.off
		if m.off > 1 {
			e.over += m.pixels
		}
	}
	e.mean, e.over = e.mean/total, e.over/total
	at := func(share float64) float64 {
		sum := 0.0
		for _, m := range all {
			if sum += m.pixels; sum >= share*total {
				return m.off
			}
		}
		return all[len(all)-1].off
	}
	e.p90, e.p95, e.p99, e.p999, e.all = at(.9), at(.95), at(.99), at(.999), at(1)
	return e
}

// In three pictures of the demo nearly every pixel is right to one step of 255. Where it is not, light changes faster than
// the mesh: where things touch, and from fold to fold. A viewer of the .glb, which draws evenly between vertices, is off a
// little more.
func TestErrorInThePicture(t *testing.T) {
	p, lit, r, exposure := litScene(t, scenes.Demo)
	var found [2]errors
	most := [2]float64{2, 3} // 255ths, of what nobody looks at
	for i, straight := range []bool{false, true} {
		var all []miss
		for _, v := range p.Views {
			if v.Name == "entrance" || v.Name == "inside" || v.Name == "aisle-left" {
				all = append(all, misses(r, exposure, p, lit, v, 12000, straight)...)
			}
		}
		ours, around := parted(all)
		found[i] = summed(ours)
		if e := summed(around); e.mean > most[i] {
			t.Errorf("the fair around is off by %.2f/255 on average", e.mean)
		} else {
			t.Logf("the fair around: off in 255ths: mean %.3f, 95 %% at most %.2f, all %.1f", e.mean, e.p95, e.all)
		}
		e := &found[i]
		t.Logf("%s: off in 255ths: mean %.3f, 90 %% of the pixels at most %.2f, 95 %% %.2f, 99 %% %.2f, 99.9 %% %.1f, all %.1f; %.2f %% over 1 (%d samples)",
			[]string{"picture", ".glb"}[i], e.mean, e.p90, e.p95, e.p99, e.p999, e.all, 100*e.over, len(all))
	}
	vertices, triangles, around := 0, 0, 0
	for _, s := range lit.Surfaces {
		if p.Parts[s.Part].Beyond {
			around += len(s.Mesh.Triangles)
			continue
		}
		vertices, triangles = vertices+len(s.Mesh.Vertices), triangles+len(s.Mesh.Triangles)
	}
	t.Logf("%d vertices, %d triangles; %d around", vertices, triangles, around)
	// As measured; the mean and 99 % were within 0.31 and 4.2 before solids followed the folds, the chair moved and the sides of cloth came
	// apart, within 0.36 and 5.5 while the canopy gave back more light than it got, which filled the shadows, and within 0.34 and 5.2 before
	// folds hid light from each other: against a path tracer all is nearer since.
	if e := found[0]; e.mean > 0.51 || e.p90 > 1.05 || e.p99 > 10.5 || e.over > 0.105 {
		t.Error("the mesh is too coarse for pictures")
	}
	if e := found[1]; e.mean > 0.93 || e.p90 > 1.95 || e.p99 > 11.5 {
		t.Error("the mesh is too coarse for the .glb")
	}
	if vertices > 34000 || triangles > 45000 || around > 3000 { // some 1,500 more since chair, people and signs leave shadows
		t.Error("the mesh is too fine")
	}
}

// Between two works that hang one above the other, folds of the drape are as bright as they are, however narrow the part of a
// fold is that both leave open.
func TestBetweenTwoWorks(t *testing.T) {
	p, lit, r, exposure := litScene(t, scenes.Demo)
	g := newGatherer(r)
	below, above := p.Part("work/pears"), p.Part("work/quince")
	lo, hi := geom.Bounds(below.Solids[0].Corners)
	top, _ := geom.Bounds(above.Solids[0].Corners)
	looked := 0
	for _, s := range lit.Surfaces {
		part := &p.Parts[s.Part]
		if part.ID != "drape/right" {
			continue
		}
		skin := newSkin(g, exposure, s.Part, part, s.Look, 1)
		for i, c := range s.Mesh.Triangles {
			var q geom.Vertex
			drawn := 0.0 // green, in the middle of the triangle
			for k, v := range c {
				q.P, q.N = q.P.Add(s.Mesh.Vertices[v].P.Mul(1./3)), q.N.Add(s.Mesh.Vertices[v].N)
				drawn += float64(-s.Light[v][1]+4*s.Middles[i][k][1]) / 9
			}
			q.N = q.N.Unit()
			if q.P.Y < hi.Y+0.005 || q.P.Y > top.Y-0.005 || q.P.Z < lo.Z || q.P.Z > hi.Z || q.N.X > 0 {
				continue
			}
			spot := skin.spot(q)
			spot.counts = true
			skin.light(&spot, q)
			looked++
			paint, tone := skin.paint[1], func(g float64) float64 { return skin.tone.of(rgb{g, g, g})[1] }
			if off := colour.Signal(paint*tone(drawn)) - colour.Signal(paint*tone(spot.rgb[1])); math.Abs(off) > 12./255 {
				t.Errorf("at %.3v the light is off by %.0f/255", q.P, 255*off)
			}
		}
	}
	if looked < 100 {
		t.Errorf("only %d places are looked at", looked)
	}
}

// The other scenes' pictures are not off more than the demo's: on plain walls, under two tents, beside an open side.
func TestErrorInOtherPictures(t *testing.T) {
	for _, name := range []string{"hall.yaml", "double.yaml", "corner.yaml", "wrong.yaml"} {
		if name != "hall.yaml" && !long() {
			continue
		}
		p, lit, r, exposure := litScene(t, name)
		var all []miss
		for _, v := range p.Views {
			if v.Name == "entrance" || v.Name == "inside" {
				all = append(all, misses(r, exposure, p, lit, v, 4000, false)...)
			}
		}
		ours, around := parted(all)
		e, far := summed(ours), summed(around)
		t.Logf("%s: the fair around: mean %.3f, all %.1f", name, far.mean, far.all)
		t.Logf("%s: off in 255ths: mean %.3f, 95 %% of the pixels at most %.2f, 99 %% %.2f, all %.1f; %.2f %% over 1", name, e.mean, e.p95, e.p99, e.all, 100*e.over)
		if e.mean > 0.3 || e.p99 > 4.5 {
			t.Errorf("%s: the mesh is too coarse", name)
		}
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
