package light

import (
	"image"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
)

// stall is a tent of 3 x 3 m with three draped walls, fifteen works, a table and a bin, built by hand.
func stall() *booth.Plan {
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}}
	at := func(x, y, z float64) geom.Vec { return geom.Vec{X: x, Y: y, Z: z} }
	paint := func(r, g, b uint8) booth.Look { return booth.Look{Colour: booth.Colour{r, g, b}} }
	add := func(id booth.ID, look booth.Look, solids ...geom.Convex) *booth.Part {
		p.Parts = append(p.Parts, booth.Part{ID: id, Frame: geom.World, Solids: solids, Surfaces: []booth.Surface{{Mesh: geom.Solids(solids...), Look: look}}})
		return &p.Parts[len(p.Parts)-1]
	}
	ground := geom.Grid(12, 12, func(u, v float64) (geom.Vec, float64, float64) {
		return at(12*(u-.5), 0, 4-12*v), u, v
	})
	p.Parts = append(p.Parts, booth.Part{ID: "ground", Flat: true, Surfaces: []booth.Surface{{Mesh: ground, Look: paint(116, 138, 78)}}})
	for _, c := range [][2]float64{{-1.48, -.02}, {1.48, -.02}, {-1.48, -2.98}, {1.48, -2.98}} {
		add("leg", paint(154, 157, 160), box(c[0]-.02, 0, c[1]-.02, c[0]+.02, 2.2, c[1]+.02))
	}
	cloth := booth.Look{Colour: booth.Colour{244, 243, 238}, TwoSided: true, Passes: 0.3}
	corners := []geom.Vec{at(-1.54, 2.2, .04), at(1.54, 2.2, .04), at(1.54, 2.2, -3.04), at(-1.54, 2.2, -3.04)}
	canopy := booth.Part{ID: "canopy", Frame: geom.World}
	var roof geom.Mesh
	for i, c := range corners {
		q := geom.Polygon{c, corners[(i+1)%4], at(0, 3.1, -1.5)}
		roof.AddPolygon(q)
		canopy.Solids = append(canopy.Solids, geom.Prism(q, q.Normal().Mul(-.002)))
	}
	canopy.Surfaces = []booth.Surface{{Mesh: roof, Look: cloth}}
	p.Parts = append(p.Parts, canopy)

	image1 := art.Ready("grey", "", nil, image.NewNRGBA(image.Rect(0, 0, 4, 4)))
	for i := range image1.Pixels().Pix {
		image1.Pixels().Pix[i] = 128 + 127*uint8(i%4/3)
	}
	for k, side := range []geom.Frame{
		{Origin: at(-1.46, 0, 0), X: at(0, 0, -1), Y: geom.Up, Z: at(1, 0, 0)},
		{Origin: at(-1.46, 0, -2.96), X: at(1, 0, 0), Y: geom.Up, Z: at(0, 0, 1)},
		{Origin: at(1.46, 0, -2.96), X: at(0, 0, 1), Y: geom.Up, Z: at(-1, 0, 0)},
	} {
		const deep = 0.04
		folds := geom.Grid(120, 4, func(u, v float64) (geom.Vec, float64, float64) {
			return side.At(at(2.9*u, .02+2.08*v, deep/2*(1-math.Cos(2*math.Pi*24*u)))), u, v
		})
		p.Parts = append(p.Parts, booth.Part{
			ID: booth.ID("drape" + string(rune('1'+k))), Frame: side, Solids: []geom.Convex{geom.Box(side, at(0, .02, 0), at(2.9, 2.1, deep))},
			Surfaces: []booth.Surface{{Mesh: folds, Look: booth.Look{Colour: booth.Colour{139, 143, 148}, TwoSided: true}}},
		})
		for i := range 5 {
			x, w, h := .15+.55*float64(i), .4, .3+.1*float64((i+k)%3)
			f := side.Moved(at(x+w/2, 1.5, deep))
			canvas := geom.Box(f, at(-w/2, -h/2, 0), at(w/2, h/2, .04))
			face := geom.Rect(f.Moved(at(0, 0, .04)), -w/2, -h/2, w/2, h/2)
			var edges geom.Mesh
			for j := 1; j < len(canvas.Faces); j++ {
				edges.AddPolygon(canvas.Face(j))
			}
			p.Parts = append(p.Parts, booth.Part{
				ID: "work", Frame: f, Solids: []geom.Convex{canvas}, Work: &booth.Work{Face: face, Image: image1},
				Surfaces: []booth.Surface{{Mesh: geom.ImageRect(face), Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Image: image1}}, {Mesh: edges, Look: paint(238, 235, 227)}},
			})
		}
	}
	add("table", paint(240, 230, 220), box(-1.4, 0, -1.4, -.85, .74, -.25))
	add("bin", paint(176, 144, 104), box(.9, .35, -1.2, 1.35, .36, -.7), box(.9, .35, -1.2, 1.35, .8, -1.19), box(.9, 0, -1.2, .93, .35, -1.17), box(1.32, 0, -.73, 1.35, .35, -.7))
	return p
}
