package light

import (
	"context"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Bake gives every surface of the plan its daylight. A surface that is seen from both sides becomes two, as each side
// has its own light. Meshes are divided where the light on them changes.
func Bake(p *booth.Plan) *Lit { return bake(context.Background(), p, fine(p), nil) }

// Next is Bake for another version of the booth: the same to the last bit, and the quicker the less was moved. l may be nil. When
// the context ends it gives up, and nil.
func (l *Lit) Next(ctx context.Context, p *booth.Plan) *Lit {
	var before *found
	if l != nil {
		before = l.found
	}
	lit := bake(ctx, p, fine(p), before)
	if ctx.Err() != nil {
		return nil
	}
	return lit
}

// Rough is Bake for small pictures from some places: meshes are divided less, and what is not seen from there is lit roughly.
func Rough(p *booth.Plan, from []geom.Vec) *Lit {
	return bake(context.Background(), p, wish{eyes: from, slack: 3}, nil) // what is rough is not built on
}

// Hours is Rough for small pictures of the same booth at several times, which ask At. What was found on the way to l is taken over.
func (l *Lit) Hours(p *booth.Plan, from []geom.Vec) *Lit {
	return bake(context.Background(), p, wish{eyes: from, slack: 8, keep: true}, l.found)
}

// At is the light of the booth that l is of at another time, with the sun; l keeps its own. What was found on the way to l is taken
// over: where light goes is the same all day.
func (l *Lit) At(p *booth.Plan, day Daylight) *Lit {
	if l.found == nil {
		return l
	}
	w := l.wish
	w.day = day
	return bake(context.Background(), p, w, l.found)
}

// Bare is the light of the booth that l is of, with everything gone that is left out of a picture for a jury: quickly, as in Preview.
func (l *Lit) Bare(p *booth.Plan) *Lit {
	if l.found == nil {
		return l
	}
	w := wish{eyes: eyes(p), slack: previewSlack, day: l.wish.day, bare: true}
	lit := l.preview(context.Background(), p, w)
	lit.shine(p, w.day, w.without())
	return lit
}

// wish is what is to be worked out.
type wish struct {
	eyes  []geom.Vec // that meshes are divided for
	slack float64    // how many times the usual tolerance surfaces have
	keep  bool       // what is gathered is kept for the version after, or another time
	day   Daylight
	bare  bool // without what is left out of a picture for a jury
}

func (w *wish) without() func(*booth.Part) bool {
	if w.bare {
		return dressing
	}
	return nothing
}

// fine is the light of a booth for all who look at it.
func fine(p *booth.Plan) wish { return wish{eyes: eyes(p), slack: 1, keep: true} }

// bake divides meshes, where some eye sees them, until they keep to the tolerance. What was found before may be nil.
func bake(ctx context.Context, p *booth.Plan, w wish, before *found) *Lit {
	b := begin(ctx, p, w, before)
	jobs := jobsOf(p)
	b.room.each(len(jobs), largest(jobs), func(g *gatherer, i int) { b.refine(g, &jobs[i]) })
	lit := &Lit{found: b.found, tone: b.tone, wish: w}
	for i := range jobs {
		lit.Surfaces = append(lit.Surfaces, jobs[i].surfaces()...)
	}
	lit.shine(p, w.day, w.without())
	lit.Dusk = b.room.dusk(b.tone)
	return lit
}

// baking is light on its way.
type baking struct {
	plan *booth.Plan
	room *room
	tone tone
	wish
	before *found  // in the version before; nil: nothing
	moves  *moves  // how its room's solids differ from those; nil: nothing was before
	found  *found  // in this one
	stands float64 // see known
}

func begin(ctx context.Context, p *booth.Plan, w wish, before *found) *baking {
	r := newRoom(p, w.eyes, w.without())
	r.ctx = patient(ctx)
	r.under(p, w.day)
	if before != nil && before.room.indoor != r.indoor {
		before = nil
	}
	b := &baking{plan: p, room: r, wish: w, found: newFound(p, r), before: before}
	b.settle()
	b.tone = expose(r, p)
	return b
}

// job is one side of a part: the sides of cloth are lit apart, everything else of a part is divided along with its neighbours.
type job struct {
	part   int
	back   bool
	meshes []geom.Mesh
	looks  []booth.Look
	sheets []*sheet
}

func jobsOf(p *booth.Plan) (jobs []job) {
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
	return jobs
}

// largest are the numbers of the jobs, the large ones first, so that no processor is left with one at the end.
func largest(jobs []job) []int {
	order := make([]int, len(jobs))
	size := make([]int, len(jobs))
	for i := range order {
		order[i] = i
		for _, m := range jobs[i].meshes {
			size[i] += len(m.Vertices)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return size[b] - size[a] })
	return order
}

// refine lights a side and divides its meshes.
func (b *baking) refine(g *gatherer, j *job) {
	part := &b.plan.Parts[j.part]
	g = b.at(g, j)
	var skins []skin
	for _, look := range j.looks {
		skins = append(skins, newSkin(g, b.tone, j.part, part, look, b.slack))
	}
	j.sheets = refine(j.meshes, skins, b.room, j.part)
}

// at is the gatherer as the side meets the room.
func (b *baking) at(g *gatherer, j *job) *gatherer {
	part := &b.plan.Parts[j.part]
	if in := b.room.within(j.part, part); in != b.room {
		g = newGatherer(in)
	}
	g.last = b.known(partSide{part.ID, j.back}, g.room)
	return g
}

// surfaces are the side's, with their light.
func (j *job) surfaces() (out []Surface) {
	for k, s := range j.sheets {
		out = append(out, s.surface(j.part, j.looks[k], j.back, j.meshes[k].Triangles))
	}
	return out
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

// each runs do for 0 to n-1, in the given order if that is not nil, on all processors, each with its own gatherer. What do writes must
// depend on i alone.
func (r *room) each(n int, order []int, do func(g *gatherer, i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			g := newGatherer(r)
			for i := int(next.Add(1) - 1); i < n; i = int(next.Add(1) - 1) {
				if order != nil {
					do(g, order[i])
				} else {
					do(g, i)
				}
			}
		})
	}
	wait.Wait()
}
