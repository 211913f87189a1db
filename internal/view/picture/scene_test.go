package picture

import (
	"image"
	"image/color"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
)

// stand is a small booth under construction, with its light.
type stand struct {
	plan booth.Plan
	lit  light.Lit
}

func full(geom.Vertex) [3]float32 { return [3]float32{1, 1, 1} }

// add puts a part with one surface into the booth; lamp gives each vertex its light.
func (s *stand) add(p booth.Part, m geom.Mesh, k booth.Look, lamp func(geom.Vertex) [3]float32) {
	u := light.Surface{Part: len(s.plan.Parts), Look: k, Mesh: m}
	for _, v := range m.Vertices {
		u.Light = append(u.Light, lamp(v))
	}
	p.Surfaces = []booth.Surface{{Mesh: m, Look: k}}
	s.plan.Parts = append(s.plan.Parts, p)
	s.lit.Surfaces = append(s.lit.Surfaces, u)
}

func (s *stand) stage() *Stage { return NewStage(&s.plan, &s.lit) }

// quad is a rectangle in the plane z, facing +Z.
func quad(x0, y0, x1, y1, z float64) geom.Polygon {
	return geom.Rect(geom.World.Moved(geom.Vec{Z: z}), x0, y0, x1, y1)
}

func flatMesh(p geom.Polygon) geom.Mesh {
	var m geom.Mesh
	m.AddPolygon(p)
	return m
}

// straight looks along -Z from height 1.5 at the origin, with a square of slope 1 each way for width = height.
var straight = booth.View{Look: geom.Vec{Y: 1.5, Z: -1}, Height: 1.5, Across: math.Pi / 2}

// painted is an image with smooth areas, fine lines and grain, without chance.
func painted(w, h int) *art.Image {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(h)
			wave := math.Sin(9*u+4*math.Sin(5*v)) * math.Cos(7*v)
			tone := func(k float64) uint8 {
				t := 128 + 90*math.Sin(3*wave+k) + 20*math.Sin(60*u*v+2*k)
				return uint8(min(255, max(0, t)))
			}
			m.SetNRGBA(x, y, color.NRGBA{tone(0), tone(1), tone(2.5), 255})
		}
	}
	return art.Ready("painted", "", nil, m)
}

// shade is a lamp for looking at: bright from the front and above, darker towards the back.
func shade(v geom.Vertex) [3]float32 {
	e := 0.35 + 0.35*max(0, v.N.Dot(geom.Vec{X: 0.3, Y: 0.6, Z: 0.74})) + 0.3*max(0, 1+v.P.Z/3.5)
	return [3]float32{float32(min(1, e)), float32(min(1, e)), float32(min(1, e*0.98))}
}

// drape is a hanging cloth of folds, width metres along the frame's X and 2.1 m high, as cells of nu by nv.
func drape(f geom.Frame, width float64, nu, nv int) geom.Mesh {
	return geom.Grid(nu, nv, func(u, v float64) (geom.Vec, float64, float64) {
		return f.At(geom.Vec{X: width * u, Y: 2.1 * v, Z: 0.025 * math.Sin(40*math.Pi*u)}), width * u, 2.1 * (1 - v)
	})
}

// fair is a booth of three draped walls, fifteen works, a mesh of wires, a table, legs, a roof and grass: about 20,000
// triangles. Its images have side pixels on their longer side.
func fair(side int) *stand {
	s := new(stand)
	s.plan.Pitch = booth.Pitch{Width: 3, Depth: 3}
	s.plan.Eyes = []booth.Eye{{Name: "adult", Height: 1.58}}
	grass := geom.Grid(24, 24, func(u, v float64) (geom.Vec, float64, float64) {
		return geom.Vec{X: 16 * (u - 0.5), Z: 10 - 16*v}, 0, 0
	})
	s.add(booth.Part{ID: "ground", Flat: true}, grass, booth.Look{Colour: booth.Colour{120, 141, 84}}, func(v geom.Vertex) [3]float32 {
		e := float32(0.9)
		if math.Abs(v.P.X) < 1.6 && v.P.Z < 0 && v.P.Z > -3 {
			e = 0.45
		}
		return [3]float32{e, e, e}
	})
	cloth := booth.Look{Colour: booth.Colour{139, 143, 148}, TwoSided: true}
	walls := []geom.Frame{
		geom.Upright(geom.Vec{X: -1.5, Z: -3}, geom.Vec{Z: 1}),
		geom.Upright(geom.Vec{X: -1.5}, geom.Vec{X: 1}),
		geom.Upright(geom.Vec{X: 1.5, Z: -3}, geom.Vec{X: -1}),
	}
	images := []*art.Image{painted(side, side*3/4), painted(side*3/4, side), painted(side, side*4/5)}
	for i, f := range walls {
		s.add(booth.Part{ID: booth.ID("drape")}, drape(f.Moved(geom.Vec{Z: -0.06}), 3, 200, 14), cloth, shade)
		for k := range 5 {
			x, w, h := 0.1+0.57*float64(k), 0.44, 0.35+0.07*float64(k)
			box := geom.Box(f, geom.Vec{X: x, Y: 1.47 - h/2, Z: 0.002}, geom.Vec{X: x + w, Y: 1.47 + h/2, Z: 0.035})
			s.add(booth.Part{ID: "canvas"}, geom.Solids(box), booth.Look{Colour: booth.Colour{235, 233, 228}}, shade)
			face := geom.Rect(f.Moved(geom.Vec{Z: 0.0355}), x, 1.47-h/2, x+w, 1.47+h/2)
			s.add(booth.Part{ID: "work"}, geom.ImageRect(face), booth.Look{Colour: booth.Colour{255, 255, 255}, Image: images[(i+k)%3]}, shade)
		}
	}
	wire := booth.Look{Colour: booth.Colour{40, 40, 42}}
	var mesh geom.Mesh
	for i := range 31 {
		x := 0.1 * float64(i)
		mesh.AddSolid(geom.Rod(walls[0].At(geom.Vec{X: x}), walls[0].At(geom.Vec{X: x, Y: 2}), 0.002, 6))
		mesh.AddSolid(geom.Rod(walls[1].At(geom.Vec{X: x}), walls[1].At(geom.Vec{X: x, Y: 2}), 0.002, 6))
		if i <= 20 {
			mesh.AddSolid(geom.Rod(walls[0].At(geom.Vec{Y: x}), walls[0].At(geom.Vec{X: 3, Y: x}), 0.002, 6))
			mesh.AddSolid(geom.Rod(walls[1].At(geom.Vec{Y: x}), walls[1].At(geom.Vec{X: 3, Y: x}), 0.002, 6))
		}
	}
	s.add(booth.Part{ID: "mesh", SeeThrough: true}, mesh, wire, shade)
	table := geom.Box(geom.World, geom.Vec{X: 0.5, Z: -1.9}, geom.Vec{X: 1.3, Y: 0.74, Z: -0.6})
	s.add(booth.Part{ID: "table"}, geom.Solids(table), booth.Look{Colour: booth.Colour{226, 216, 196}}, shade)
	var legs geom.Mesh
	for _, p := range []geom.Vec{{X: -1.52}, {X: 1.52}, {X: -1.52, Z: -3}, {X: 1.52, Z: -3}} {
		legs.AddSolid(geom.Rod(p, p.Add(geom.Vec{Y: 2.1}), 0.019, 12))
	}
	s.add(booth.Part{ID: "legs"}, legs, booth.Look{Colour: booth.Colour{90, 92, 96}}, shade)
	var roof geom.Mesh
	peak := geom.Vec{Y: 3.2, Z: -1.5}
	c := []geom.Vec{{X: -1.55, Y: 2.1, Z: 0.05}, {X: 1.55, Y: 2.1, Z: 0.05}, {X: 1.55, Y: 2.1, Z: -3.05}, {X: -1.55, Y: 2.1, Z: -3.05}}
	for i := range c {
		roof.AddPolygon(geom.Polygon{c[i], c[(i+1)%4], peak})
	}
	s.add(booth.Part{ID: "roof"}, roof, booth.Look{Colour: booth.Colour{240, 240, 238}, TwoSided: true}, shade)
	s.add(booth.Part{ID: "tag", Dressing: true}, flatMesh(quad(-0.2, 0.9, 0.2, 1.2, -2)), booth.Look{Colour: booth.Colour{250, 230, 90}}, shade)
	return s
}

// entrance is a visitor's view from the aisle.
var entrance = booth.View{Name: "entrance", Stand: geom.Vec{X: 0.3, Z: 1.6}, Look: geom.Vec{Y: 1.35, Z: -2.9}, Across: 1.15}
