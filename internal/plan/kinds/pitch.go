package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/material"
)

// Pitch is the ground that the fair lets.
type Pitch struct {
	Width  unit.Length `yaml:"width" range:"2ft..100ft" doc:"width of the pitch along the aisle"`
	Depth  unit.Length `yaml:"depth" range:"2ft..100ft" doc:"depth of the pitch from the aisle to the back"`
	Aisle  unit.Length `yaml:"aisle" range:"3ft..100ft" doc:"width of the walkway in front"`
	Ground string      `yaml:"ground" oneof:"grass gravel asphalt timber carpet concrete" doc:"what the booth stands on"`
	Open   []string    `yaml:"open" doc:"further sides without a neighbour, on which visitors pass: left, right or back (a corner pitch has one). Each has an aisle as wide as the front's, and views from it"`
	Around Neighbours  `yaml:"neighbours" doc:"the fair around the pitch, drawn plainly: it hides and shades. Left out, tents on both sides and a row of them across the aisle, or in a hall drapes, with its walls and ceiling; none if nothing is around. A pitch at the end of its row has one neighbour"`
	Indoor bool        `yaml:"indoor" doc:"the pitch is in a hall, without sky"`
	Lux    *float64    `yaml:"hall lux" range:"0..20000" doc:"lux that the hall's own lamps give level ground, as a telephone or a meter laid on a table there measures them; 300 if left out"`
}

var pitchKind = one("pitch", "The ground that the fair lets to you, and the aisle before it.",
	usualPitch, buildPitch)

// hallLux is the general light of fair and exhibition halls in EN 12464-1, from memory.
const hallLux = 300

var usualPitch = Pitch{Width: 10 * unit.Foot, Depth: 10 * unit.Foot, Aisle: 12 * unit.Foot, Ground: "grass"}

// grounds are the colours and materials of what a booth can stand on. The tiles of loose ones lie askew, so that no row
// of tiles runs along a line of the booth.
var grounds = map[string]struct {
	colour booth.Colour
	tile   *material.Tile
	askew  float64 // radians
}{
	"grass":    {booth.Colour{0x74, 0x8a, 0x4e}, material.Grass, 0.6},
	"gravel":   {booth.Colour{0xa8, 0xa2, 0x97}, material.Gravel, 0.6},
	"asphalt":  {booth.Colour{0x5d, 0x5e, 0x60}, material.Asphalt, 0.6},
	"timber":   {booth.Colour{0x9c, 0x7f, 0x5c}, material.Boards, 0},
	"carpet":   {booth.Colour{0x5b, 0x5f, 0x66}, material.Carpet, 0},
	"concrete": {booth.Colour{0xa6, 0xa5, 0xa1}, material.Concrete, 0.6},
}

var sideNames = map[string]booth.Side{"front": booth.Front, "left": booth.Left, "back": booth.Back, "right": booth.Right}

func buildPitch(s *Site, entries []entry[Pitch]) {
	e, it := usualPitch, s.file.Whole() // a scene that says nothing readable of it has the usual pitch
	if len(entries) > 0 {
		e, it = entries[0].says, entries[0].item
	}
	p := booth.Pitch{At: it.At(""), Width: e.Width.M(), Depth: e.Depth.M(), Aisle: e.Aisle.M(), Indoor: e.Indoor, Soft: !e.Indoor && (e.Ground == "grass" || e.Ground == "gravel")}
	p.Open[booth.Front] = true
	for _, o := range e.Open {
		side, ok := sideNames[o]
		if !ok {
			it.Fault("open", "write left, right or back", "%q is not a side of the pitch", o)
			continue
		}
		p.Open[side] = true
	}
	switch {
	case e.Indoor && e.Lux != nil:
		p.Ceiling = *e.Lux
	case e.Indoor:
		p.Ceiling = hallLux
	case e.Lux != nil:
		it.Fault("hall lux", "say indoor: yes too, or leave it out", "a pitch under the sky has no light of a hall")
	}
	s.Plan.Pitch = p
	g := grounds[e.Ground]
	s.add(booth.Part{
		ID: "ground", Kind: "pitch", Name: "the ground", At: p.At, Frame: geom.World, Flat: true,
		Surfaces: []booth.Surface{{Mesh: groundMesh(p, g.askew), Look: finished(g.colour, g.tile)}},
	})
	s.around(e.Around, it, e.Ground)
}

// groundMesh is fine under and before the booth, where light changes, and coarse far away. Its texture coordinates are
// turned by askew, in radians.
func groundMesh(p booth.Pitch, askew float64) geom.Mesh {
	sin, cos := math.Sincos(askew)
	const far, step = 40.0, 0.61
	axis := func(lo, hi float64) []float64 {
		out := []float64{lo - far, lo - far/3, lo - far/9}
		n := int((hi - lo) / step)
		for i := range n + 1 {
			out = append(out, lo+(hi-lo)*float64(i)/float64(n))
		}
		return append(out, hi+far/9, hi+far/3, hi+far)
	}
	xs, zs := axis(-p.Width/2-0.6, p.Width/2+0.6), axis(-p.Depth-0.6, 1.2)
	return geom.Grid(len(xs)-1, len(zs)-1, func(u, v float64) (geom.Vec, float64, float64) {
		x := xs[int(u*float64(len(xs)-1)+0.5)]
		z := zs[len(zs)-1-int(v*float64(len(zs)-1)+0.5)]
		return geom.Vec{X: x, Z: z}, float64(cos*x) - float64(sin*z), float64(sin*x) + float64(cos*z)
	})
}
