package light

import (
	"runtime"
	"sync"
	"sync/atomic"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// Bake gives every surface of the plan its daylight. A surface that is seen from both sides becomes two, as each side
// has its own light. Meshes are divided where the light on them changes.
func Bake(p *booth.Plan) *Lit {
	r := newRoom(p)
	r.settle()
	t := expose(r, p)

	// One job a part and side: the sides of cloth are lit apart, everything else is divided along with its neighbours.
	type job struct {
		part   int
		behind bool // the outer side of cloth that no light comes through: it is not divided
		meshes []geom.Mesh
		looks  []booth.Look
		sheets []*sheet
	}
	var jobs []job
	for i := range p.Parts {
		front, back := job{part: i}, job{part: i, behind: true}
		for _, s := range p.Parts[i].Surfaces {
			look := s.Look
			if look.TwoSided {
				look.TwoSided = false
				back.behind = back.behind && look.Passes == 0
				back.meshes, back.looks = append(back.meshes, turned(s.Mesh)), append(back.looks, look)
			}
			front.meshes, front.looks = append(front.meshes, s.Mesh), append(front.looks, look)
		}
		jobs = append(jobs, front)
		if len(back.meshes) > 0 {
			jobs = append(jobs, back)
		}
	}
	r.each(len(jobs), func(g *gatherer, i int) {
		j := &jobs[i]
		part := &p.Parts[j.part]
		if in := r.within(j.part, part); in != r {
			g = newGatherer(in)
		}
		curve := ofOther
		if part.Work != nil {
			curve = ofWorks
		}
		var shades []func(geom.Vertex) lamp
		for _, look := range j.looks {
			shades = append(shades, func(v geom.Vertex) lamp {
				l := g.on(v, look, j.part, part.Work != nil)
				l.rgb = t.of(l.rgb, curve)
				return l
			})
		}
		j.sheets = refine(j.meshes, shades, !part.SeeThrough && !j.behind)
	})
	lit := &Lit{}
	for _, j := range jobs {
		for k, s := range j.sheets {
			lit.Surfaces = append(lit.Surfaces, s.surface(j.part, j.looks[k], j.meshes[k].Triangles))
		}
	}
	return lit
}

// lamp is the light at a vertex.
type lamp struct {
	rgb
	covered bool // the vertex is inside some other thing: nobody sees it
}

// on is the light on a surface of a part at one of its vertices: what arrives before it, and what cloth lets through from
// behind. A work does not shade itself: the lip of its frame is finer than the mesh.
func (g *gatherer) on(v geom.Vertex, k booth.Look, part int, work bool) lamp {
	skip := -1
	if work {
		skip = part
	}
	q, ok := g.free(v.P, v.N, part)
	if !ok {
		return lamp{covered: true}
	}
	l := g.light(q, v.N, skip)
	if k.Passes > 0 {
		back := v.N.Neg()
		q, _ := g.free(v.P, back, part)
		l = l.plus(g.light(q, back, skip), through(material(k), k.Passes))
	}
	return lamp{l, false}
}

// turned is the mesh seen from its other side.
func turned(m geom.Mesh) geom.Mesh {
	var o geom.Mesh
	for _, v := range m.Vertices {
		v.N = v.N.Neg()
		o.Vertices = append(o.Vertices, v)
	}
	for _, t := range m.Triangles {
		o.Triangles = append(o.Triangles, [3]int{t[0], t[2], t[1]})
	}
	return o
}

// each runs do for 0 to n-1 on all processors, each with its own gatherer. What do writes must depend on i alone.
func (r *room) each(n int, do func(g *gatherer, i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			g := newGatherer(r)
			for i := int(next.Add(1) - 1); i < n; i = int(next.Add(1) - 1) {
				do(g, i)
			}
		})
	}
	wait.Wait()
}
