package glb

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// How much of the ground is in the file, in metres. A viewer begins with all there is, and in the eighty metres of grass that
// the pictures need the booth would be a speck.
const (
	verge = 2.0 // beside and behind the pitch
	front = 4.0 // before it, or the aisle if that is narrower
)

// nearby leaves out the ground that is farther away, and what stands there.
func nearby(p *booth.Plan, surfaces []light.Surface) []light.Surface {
	x, z, back := p.Pitch.Width/2+verge, min(p.Pitch.Aisle, front), p.Pitch.Depth+verge
	next := func(lo, hi geom.Vec) bool { // beside the pitch, or behind it
		return hi.X > -p.Pitch.Width/2-verge && lo.X < p.Pitch.Width/2+verge && lo.Z < 0 && hi.Z > -p.Pitch.Depth-verge
	}
	out := slices.Clone(surfaces)
	for i := range out {
		if part := &p.Parts[out[i].Part]; part.Beyond && !part.Flat {
			var corners []geom.Vec
			for _, c := range part.Solids {
				corners = append(corners, c.Corners...)
			}
			lo, hi := geom.Bounds(corners)
			if !next(lo, hi) {
				out[i] = light.Surface{Part: out[i].Part, Look: out[i].Look, Back: out[i].Back}
				continue
			}
			x, back = max(x, -lo.X, hi.X), max(back, -lo.Z)
		}
	}
	beyond := []func(geom.Vec) float64{ // metres over an edge of what stays
		func(v geom.Vec) float64 { return v.X - x },
		func(v geom.Vec) float64 { return -x - v.X },
		func(v geom.Vec) float64 { return v.Z - z },
		func(v geom.Vec) float64 { return -back - v.Z },
	}
	for i := range out {
		if s := &out[i]; p.Parts[s.Part].Flat {
			*s = cut(s, beyond)
		}
	}
	return out
}

// lit is a vertex and its light.
type lit struct {
	geom.Vertex
	light [3]float32
}

// cut is the surface as far as it is beyond no edge; only what this package reads of it.
func cut(s *light.Surface, beyond []func(geom.Vec) float64) light.Surface {
	out := light.Surface{Part: s.Part, Look: s.Look, Back: s.Back}
	numbers := map[lit]int{}
	for _, t := range s.Mesh.Triangles {
		var p []lit
		for _, v := range t {
			p = append(p, lit{s.Mesh.Vertices[v], s.Straight[v]})
		}
		for _, edge := range beyond {
			p = within(p, edge)
		}
		var corners []int
		for _, v := range p {
			n, ok := numbers[v]
			if !ok {
				n = len(numbers)
				numbers[v] = n
				out.Mesh.Vertices, out.Straight = append(out.Mesh.Vertices, v.Vertex), append(out.Straight, v.light)
			}
			corners = append(corners, n)
		}
		for k := 2; k < len(corners); k++ {
			out.Mesh.Triangles = append(out.Mesh.Triangles, [3]int{corners[0], corners[k-1], corners[k]})
		}
	}
	return out
}

// within is a convex polygon as far as it is not beyond an edge (Sutherland and Hodgman 1974).
func within(p []lit, beyond func(geom.Vec) float64) []lit {
	var out []lit
	for i, b := range p {
		a := p[(i+len(p)-1)%len(p)]
		da, db := beyond(a.P), beyond(b.P)
		if da*db < 0 {
			out = append(out, a.toward(b, da/(da-db)))
		}
		if db <= 0 {
			out = append(out, b)
		}
	}
	return out
}

func (a lit) toward(b lit, f float64) lit {
	a.P, a.N = a.P.Lerp(b.P, f), a.N.Lerp(b.N, f).Unit()
	a.U, a.V = a.U+float64((b.U-a.U)*f), a.V+float64((b.V-a.V)*f)
	for k := range a.light {
		a.light[k] += float32((b.light[k] - a.light[k]) * float32(f))
	}
	return a
}
