// Package light is radiosity with final gathering. Diffuse faces trade light by form factors from point to polygon (Lambert,
// Photometria, 1760; Siegel and Howell, Thermal Radiation Heat Transfer) that are cut exactly by what stands between, found
// as package sight finds it; the exchange is iterated (Jacobi; Goral, Torrance, Greenberg and Battaile, "Modeling
// the interaction of light between diffuse surfaces", SIGGRAPH 1984). Then light is gathered anew at the vertices of a mesh that is
// cut along shadows' edges (discontinuity meshing: Heckbert 1992; Lischinski, Tampieri and Greenberg 1992). The sky is the CIE's.
//
// Every surface gets its light so, once, for the pictures and the .glb alike: bake settles the exchange between coarse faces (settle.go, exchange.go),
// refines a mesh (refine.go) and gathers at its vertices (gather.go); sun and lamps come on top (sunlight.go, lamps.go).
package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Lit is a booth's surfaces with their light.
type Lit struct {
	Surfaces []Surface // in the order of the plan's parts and their surfaces

	// Sun is what its direct light, which is not in that of Surfaces, is drawn by; nil: it does not shine.
	Sun *Sun

	// Dusk is how much less bright the sky, or a hall, is drawn than by day: from 0 to 1.
	Dusk float32

	found *found // on the way; nil for even light
	tone  tone
	wish  wish
}

// Surface is one surface of a part.
type Surface struct {
	Part int // number in Plan.Parts
	Look booth.Look
	Mesh geom.Mesh
	Back bool // it is the back of cloth that is seen from both sides: its front, another surface, lies in the same place

	// Light is, per vertex of Mesh, the linear red, green and blue light that arrives (and what comes through from behind); 1 is what
	// open level ground gets from the whole sky. Middles is the same, per triangle of Mesh, in the middle of each side, of which the
	// first begins at the first corner. Without Middles the light is even from corner to corner.
	Light   [][3]float32
	Middles [][3][3]float32
	// Sun is, per vertex, the light that the sun adds where nothing stands before it; nil: it does not shine.
	Sun []float32
	// Tone makes of light the factor by which the look's linear colour is multiplied. Without it, light is that factor itself.
	Tone *Tone
	// Straight is, per vertex, the factor, as whoever stands in the booth sees it, for who can only draw it evenly from corner to
	// corner, as a viewer of a .glb does.
	Straight [][3]float32

	// Whole are the triangles that the mesh had before they were divided for the light: their corners are vertices of Mesh.
	// Of is, for each triangle of Mesh, the number of the one in Whole that it is a part of. Without them nothing was divided.
	// A triangle that lies across two of Whole, in one plane, has a line in Across with its number and that of the second.
	Whole  [][3]int
	Of     []int
	Across [][2]int
}
