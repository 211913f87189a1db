// Package figure makes plain people for scale, like those in a model of a museum: neutral, calm, of published sizes.
// They also hide what is behind them.
//
// A figure is in its own frame: metres, +Y up, the ground at 0, looking along +Z, its head above the origin. Its own left
// is +X.
package figure

import (
	"slices"
	"sync"

	"boothmock/internal/basis/geom"
)

// Figure is a person as a picture shows them and as a sightline meets them.
type Figure struct {
	Solids []geom.Convex // pieces of the mesh, closed: every corner is one of the mesh's
	Mesh   geom.Mesh     // smooth, fewer than 3000 triangles
}

const (
	triangles = 2800  // of a standing body
	cell      = 0.017 // metres between the points of the grid that a body is found on
)

// made turns a body into a figure.
func (b body) made(lo, hi geom.Vec, cell float64, most int, detail func(geom.Vec) float64) Figure {
	fine := skin(b.skin, lo, hi, cell)
	f := fine.thinned(most, detail).laidOn(b.skin)
	return Figure{b.solids(f), f.mesh(b.skin)}
}

// Adult is a standing visitor of the stature in metres.
func Adult(stature float64) Figure { return adultOnce().scaled(stature) }

// Child is a standing child with the proportions of a six-year-old, of the stature in metres.
func Child(stature float64) Figure { return childOnce().scaled(stature) }

// A body takes a tenth of a second to make: each is made once, one metre tall.
var (
	adultOnce = sync.OnceValue(func() Figure { return standing(adult) })
	childOnce = sync.OnceValue(func() Figure { return standing(child) })
)

func standing(b build) Figure {
	lo, hi := b.box()
	f := b.standing().made(lo, hi, cell*b.heights[6]/1.69, triangles, b.detail)
	top := 0.0
	for _, v := range f.Mesh.Vertices {
		top = max(top, v.P.Y)
	}
	return f.scaled(1 / top)
}

// scaled is the figure s times as large.
func (f Figure) scaled(s float64) Figure {
	f.Mesh.Vertices = slices.Clone(f.Mesh.Vertices)
	for i := range f.Mesh.Vertices {
		v := &f.Mesh.Vertices[i]
		v.P, v.U, v.V = v.P.Mul(s), float64(v.U*s), float64(v.V*s)
	}
	f.Solids = slices.Clone(f.Solids)
	for i, c := range f.Solids {
		f.Solids[i].Corners = make([]geom.Vec, len(c.Corners))
		for k, p := range c.Corners {
			f.Solids[i].Corners[k] = p.Mul(s)
		}
	}
	return f
}
