package light

import (
	"cmp"
	"context"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// How much work a preview does, tuned on the demo with a work and a table moved: see TestPreview of package job.
const (
	previewSlack  = 3     // how many times the usual tolerance what is divided anew has
	previewStands = 0.02  // share of the light at a place, where it is divided anew, that may have moved before light is gathered there again
	previewStir   = 0.004 // the same where it is not: below, the light of before is as good
	previewPlaces = 4000  // where light is gathered again on what is not divided anew, at most: those where most of it moved
)

// Preview is light that is quickly there and good to look at, for a version of the booth in which a few things were moved: what moved, and
// what it touches, is lit anew, coarsely; of the rest, only the places whose light changed most. l may be nil, and then
// everything is lit anew. When the context ends it gives up, and nil.
func (l *Lit) Preview(ctx context.Context, p *booth.Plan) *Lit {
	if l == nil || l.found == nil || l.found.room.indoor != p.Pitch.Indoor {
		lit := bake(ctx, p, wish{eyes: eyes(p), slack: previewSlack}, nil)
		if ctx.Err() != nil {
			return nil
		}
		return lit
	}
	return l.preview(ctx, p, wish{eyes: eyes(p), slack: previewSlack})
}

// preview is the light that w wishes, begun from l's.
func (l *Lit) preview(ctx context.Context, p *booth.Plan, w wish) *Lit {
	b := begin(ctx, p, w, l.found)
	b.stands = previewStands
	v := preview{baking: b, moves: b.moves, jobs: jobsOf(p), were: l.bySide()}
	v.sort()
	v.each(len(v.anew), nil, func(g *gatherer, i int) { v.refine(g, &v.jobs[v.anew[i]]) })
	v.each(len(v.kept), nil, func(g *gatherer, i int) { v.kept[i].light(v.baking, g) })
	if ctx.Err() != nil {
		return nil
	}
	out := &Lit{found: l.found, tone: b.tone, Dusk: b.room.dusk(b.tone)} // the next one begins with what is exact
	kept := v.kept
	for i := range v.jobs {
		if j := &v.jobs[i]; len(kept) > 0 && kept[0].job == j {
			out.Surfaces, kept = append(out.Surfaces, kept[0].surfaces...), kept[1:]
		} else {
			out.Surfaces = append(out.Surfaces, j.surfaces()...)
		}
	}
	return out
}

// bySide are the surfaces of each side of a part.
func (l *Lit) bySide() map[partSide][]Surface {
	out := map[partSide][]Surface{}
	for _, s := range l.Surfaces {
		k := partSide{l.found.plan.Parts[s.Part].ID, s.Back}
		out[k] = append(out[k], s)
	}
	return out
}

// preview is a preview on its way.
type preview struct {
	*baking
	*moves
	jobs []job
	were map[partSide][]Surface // in the version before
	anew []int                  // numbers of the jobs that are lit and divided anew, the large ones first
	kept []patch
}

func (v *preview) each(n int, order []int, do func(g *gatherer, i int)) { v.room.each(n, order, do) }

// patch is a side that keeps its division, and most of its light.
type patch struct {
	job      *job
	surfaces []Surface
	places   []corner // where light is gathered again
}

// corner is a vertex, and how much of its light moved.
type corner struct {
	surface, vertex int
	stir            float64
}

// sort finds out which sides keep what they have, and where on them light is gathered again.
func (v *preview) sort() {
	for _, i := range largest(v.jobs) {
		if !v.keeps(&v.jobs[i]) {
			v.anew = append(v.anew, i)
		}
	}
	for i := range v.jobs {
		if j := &v.jobs[i]; !slices.Contains(v.anew, i) {
			v.kept = append(v.kept, patch{job: j, surfaces: v.were[partSide{v.plan.Parts[j.part].ID, j.back}]})
		}
	}
	v.each(len(v.kept), nil, func(_ *gatherer, i int) { v.kept[i].rank(v.moves) })
	var stirs []float64
	for i := range v.kept {
		for _, c := range v.kept[i].places {
			stirs = append(stirs, c.stir)
		}
	}
	if len(stirs) <= previewPlaces {
		return
	}
	slices.SortFunc(stirs, func(a, b float64) int { return cmp.Compare(b, a) })
	least := stirs[previewPlaces]
	for i := range v.kept {
		v.kept[i].places = slices.DeleteFunc(v.kept[i].places, func(c corner) bool { return c.stir <= least })
	}
}

// keeps reports whether a side is what it was, and touches nothing that moved.
func (v *preview) keeps(j *job) bool {
	part := &v.plan.Parts[j.part]
	before := v.were[partSide{part.ID, j.back}]
	was := v.before.plan.Part(part.ID)
	if was == nil || len(before) != len(j.meshes) || len(was.Surfaces) != len(part.Surfaces) {
		return false
	}
	for i, s := range part.Surfaces {
		if !alike(was.Surfaces[i], s) {
			return false
		}
	}
	if part.SeeThrough || part.Cloth != nil {
		return true // on wires and folds the outlines of what touches them hardly show
	}
	var all []geom.Vec
	for _, m := range j.meshes {
		for _, x := range m.Vertices {
			all = append(all, x.P)
		}
	}
	lo, hi := geom.Bounds(all)
	for _, m := range v.list {
		for _, s := range [2]*sight.Solid{m.was, m.is} {
			if s == nil {
				continue
			}
			if from, to := s.Bounds(); !apart(lo, hi, from, to) {
				return false
			}
		}
	}
	return true
}

// alike reports whether two surfaces are the same. Names of images do not count.
func alike(a, b booth.Surface) bool {
	if (a.Look.Image == nil) != (b.Look.Image == nil) || a.Look.Image != nil && a.Look.Image.Content != b.Look.Image.Content {
		return false
	}
	a.Look.Image = b.Look.Image
	return a.Look == b.Look && slices.Equal(a.Mesh.Vertices, b.Mesh.Vertices) && slices.Equal(a.Mesh.Triangles, b.Mesh.Triangles)
}

// rank finds the places whose light moved by enough to show.
func (c *patch) rank(m *moves) {
	if len(m.list) == 0 && len(m.darkened) == 0 && len(m.lit) == 0 {
		return
	}
	for i := range c.surfaces {
		for k, v := range c.surfaces[i].Mesh.Vertices {
			if s := m.stir(v.P, v.N) + m.shift(v.P, v.N)/m.lux; s > previewStir {
				c.places = append(c.places, corner{i, k, s})
			}
		}
	}
}

// light gathers light again where it moved; what lies between follows it.
func (c *patch) light(b *baking, g *gatherer) {
	part := &b.plan.Parts[c.job.part]
	out := make([]Surface, len(c.surfaces))
	if len(c.places) > 0 {
		g = b.at(g, c.job)
		g.last = nil // it is known to have moved
	}
	at := 0
	for i := range c.surfaces {
		k := newSkin(g, b.tone, c.job.part, part, c.job.looks[i], b.slack)
		s := c.surfaces[i]
		light := slices.Clone(s.Light)
		for ; at < len(c.places) && c.places[at].surface == i; at++ {
			n := c.places[at].vertex
			v := s.Mesh.Vertices[n]
			q, ok := k.free(v.P, v.N, k.part)
			if !ok || !k.seen(q, v.N) {
				continue
			}
			here := spot{at: q, seen: true, counts: true}
			k.light(&here, v)
			light[n] = single(here.rgb)
		}
		s.Part, s.Look = c.job.part, c.job.looks[i]
		out[i] = s.relit(light, k.tone)
	}
	c.surfaces = out
}

// relit is the surface with other light at its vertices, and another tone; the middles of its triangles' sides follow.
func (s Surface) relit(light [][3]float32, tone *Tone) Surface {
	before, was := s.Light, s.Tone
	s.Light, s.Tone, s.Straight, s.Middles = light, tone, slices.Clone(s.Straight), slices.Clone(s.Middles)
	alone := [3]float32{1, 1, 1}
	for i := range light {
		a, b := was.Of(before[i], alone), tone.Of(light[i], alone)
		for c := range 3 {
			s.Straight[i][c] = max(0, min(1, follow(s.Straight[i][c], a[c], b[c])))
		}
	}
	for t := range s.Middles {
		for k, a := range s.Mesh.Triangles[t] {
			b := s.Mesh.Triangles[t][(k+1)%3]
			if light[a] == before[a] && light[b] == before[b] {
				continue
			}
			for c := range 3 {
				s.Middles[t][k][c] = follow(s.Middles[t][k][c], (before[a][c]+before[b][c])/2, (light[a][c]+light[b][c])/2)
			}
		}
	}
	return s
}

// follow is x, changed as something changed that was a and is b.
func follow(x, a, b float32) float32 {
	if a <= 0 {
		return b
	}
	return x * b / a
}
