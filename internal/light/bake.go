package light

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// Bake gives every surface of the plan its daylight. A surface that is seen from both sides becomes two, as each side
// has its own light. Meshes are divided where the light on them changes.
func Bake(p *booth.Plan) *Lit { return bake(p, eyes(p), 1, nil) }

// Next is Bake for another version of the booth: the same to the last bit, and the quicker the less was moved. l may be nil.
func (l *Lit) Next(p *booth.Plan) *Lit {
	if l == nil {
		return Bake(p)
	}
	return bake(p, eyes(p), 1, l.found)
}

// Rough is Bake for small pictures from some places: meshes are divided less, and what is not seen from there is lit roughly.
func Rough(p *booth.Plan, from []geom.Vec) *Lit { return bake(p, from, 3, nil) }

// bake divides meshes, where some eye sees them, until they keep to so many times the usual tolerance. What was found before may
// be nil.
func bake(p *booth.Plan, eyes []geom.Vec, slack float64, before *found) *Lit {
	r := newRoom(p, eyes)
	r.settle()
	t := expose(r, p)
	if before != nil && before.room.indoor != r.indoor {
		before = nil
	}
	f := &found{room: r, names: names(p), sides: map[partSide]partFound{}}

	// One job a part and side: the sides of cloth are lit apart, everything else is divided along with its neighbours.
	type job struct {
		part   int
		meshes []geom.Mesh
		looks  []booth.Look
		back   bool
		sheets []*sheet
	}
	var jobs []job
	for i := range p.Parts {
		front, back := job{part: i}, job{part: i, back: true}
		for _, s := range p.Parts[i].Surfaces {
			look := s.Look
			if look.TwoSided {
				look.TwoSided = false
				back.meshes, back.looks = append(back.meshes, turned(s.Mesh)), append(back.looks, look)
			}
			front.meshes, front.looks = append(front.meshes, s.Mesh), append(front.looks, look)
		}
		jobs = append(jobs, front)
		if len(back.meshes) > 0 {
			jobs = append(jobs, back)
		}
	}
	size := func(i int) (n int) {
		for _, m := range jobs[i].meshes {
			n += len(m.Vertices)
		}
		return n
	}
	order := make([]int, len(jobs)) // the large ones first, so that no processor is left with one at the end
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return size(b) - size(a) })
	r.each(len(jobs), func(g *gatherer, i int) {
		j := &jobs[order[i]]
		part := &p.Parts[j.part]
		if in := r.within(j.part, part); in != r {
			g = newGatherer(in)
		}
		if slack == 1 { // what is rough is not built on
			g.last = f.known(before, partSide{part.ID, j.back}, g.room)
		}
		var skins []skin
		for _, look := range j.looks {
			skins = append(skins, newSkin(g, t, j.part, part, look, slack))
		}
		j.sheets = refine(j.meshes, skins, r, j.part)
	})
	lit := &Lit{found: f, tone: t}
	for _, j := range jobs {
		for k, s := range j.sheets {
			lit.Surfaces = append(lit.Surfaces, s.surface(j.part, j.looks[k], j.back, j.meshes[k].Triangles))
		}
	}
	return lit
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
