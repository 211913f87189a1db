package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// trodden is the aisle before the pitch where the ground shows that people walk on it: grass is worn.
func (s *Site) trodden(ground string) {
	if ground != "grass" {
		return
	}
	const long, verge, above = 40.0, 0.35, 0.004 // metres
	g, p := grounds[ground], s.Plan.Pitch
	worn := booth.Colour{0x7d, 0x86, 0x55}
	mesh := geom.Grid(10, 1, func(u, v float64) (geom.Vec, float64, float64) {
		x, z := long*(2*u-1), p.Aisle-verge-float64(v*(p.Aisle-2*verge))
		sin, cos := math.Sincos(g.askew)
		return geom.Vec{X: x, Y: above, Z: z}, float64(cos*x) - float64(sin*z), float64(sin*x) + float64(cos*z)
	})
	s.add(booth.Part{
		ID: "aisle", Parent: "ground", Kind: "pitch", Name: "the aisle", At: p.At, Frame: geom.World, Flat: true, Beyond: true,
		Surfaces: []booth.Surface{{Mesh: mesh, Look: finished(worn, g.tile)}},
	})
}

// wood is the edge of a wood round the fair, in the muted tones of what is far off: it ends the meadow and draws no eye.
func (s *Site) wood() {
	const (
		trees       = 84   // in the ring, as outlines
		arcs        = 4    // of an outline
		away        = 38.0 // metres from the pitch, on the ground that is drawn
		high        = 4.2  // metres
		low, uneven = 0.62, 0.16
	)
	n := trees * arcs
	mesh := geom.Grid(n, 1, func(u, v float64) (geom.Vec, float64, float64) {
		sin, cos := math.Sincos(2 * math.Pi * u)
		tree := math.Abs(math.Sin(math.Pi * trees * u))
		big := math.Sin(7*2*math.Pi*u) + math.Sin(17*2*math.Pi*u+1) + math.Sin(29*2*math.Pi*u+2)
		top := high * (low + float64(uneven*big) + float64(0.3*math.Sqrt(tree)))
		return geom.Vec{X: away * sin, Y: v * top, Z: -away * cos}, 0, 0
	})
	s.add(booth.Part{
		ID: "wood", Parent: "ground", Kind: "pitch", Name: "the wood", At: s.Plan.Pitch.At, Frame: geom.World, Beyond: true,
		Surfaces: []booth.Surface{{Mesh: mesh, Look: booth.Look{Colour: booth.Colour{0xb2, 0xbc, 0xb1}, TwoSided: true}}},
	})
}

// hall is the walls of the hall around the fair, whose pitches stand so many metres from each other, and the ceiling with its
// beams, plain and muted. They are drawn, and give and take no light: what light the hall has, the scene says. Measures are common
// practice, no source.
func (s *Site) hall(apart float64) {
	const (
		high, away = 6.5, 15.0 // metres: up to the ceiling, and from the last pitch to the walls
		bay        = 6.0       // metres from beam to beam, about
		beam, deep = 0.3, 0.5  // metres
	)
	var walls, ceiling, beams geom.Mesh
	p := s.Plan.Pitch
	x, back, front := p.Width/2+2.5*apart+away, -2*p.Depth-apart-away, p.Aisle+p.Depth+away
	ring := [4]geom.Vec{{X: -x, Z: back}, {X: x, Z: back}, {X: x, Z: front}, {X: -x, Z: front}}
	up := geom.Vec{Y: high}
	for i, a := range ring {
		b := ring[(i+1)%4]
		walls.AddPolygon(geom.Polygon{a, b, b.Add(up), a.Add(up)})
	}
	ceiling.AddPolygon(geom.Polygon{ring[0].Add(up), ring[1].Add(up), ring[2].Add(up), ring[3].Add(up)})
	bays := math.Round((front - back) / bay)
	for z := 1.0; z < bays; z++ {
		at := back + float64((front-back)*z/bays)
		beams.AddSolid(geom.Box(geom.World, geom.Vec{X: -x, Y: high - deep, Z: at - beam/2}, geom.Vec{X: x, Y: high, Z: at + beam/2}))
	}
	part := booth.Part{ID: "hall", Parent: "ground", Kind: "pitch", Name: "the hall", At: s.Plan.Pitch.At, Frame: geom.World, Beyond: true}
	for _, of := range []struct {
		mesh geom.Mesh
		grey booth.Colour
	}{{walls, booth.Colour{0xb4, 0xb3, 0xaf}}, {ceiling, booth.Colour{0xa8, 0xa8, 0xa6}}, {beams, booth.Colour{0x84, 0x85, 0x86}}} {
		part.Surfaces = append(part.Surfaces, booth.Surface{Mesh: of.mesh, Look: booth.Look{Colour: of.grey, TwoSided: true}})
	}
	s.add(part)
}
