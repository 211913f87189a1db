package picture

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// halved is a mesh whose triangles were halved across their longest side, again and again: those with a vertex near one
// place oftenest, as for a shadow's edge.
func halved(m geom.Mesh, near geom.Vec) (out geom.Mesh, of []int) {
	out.Vertices = append(out.Vertices, m.Vertices...)
	var cut func(t [3]int, whole, times int)
	cut = func(t [3]int, whole, times int) {
		at := func(k int) geom.Vertex { return out.Vertices[t[k%3]] }
		long, close := 0, math.Inf(1)
		for k := range 3 {
			close = min(close, at(k).P.Dist(near))
			if at(k).P.Dist(at(k+1).P) > at(long).P.Dist(at(long+1).P) {
				long = k
			}
		}
		side := at(long).P.Dist(at(long + 1).P)
		if times == 0 || side < 0.4*close {
			out.Triangles, of = append(out.Triangles, t), append(of, whole)
			return
		}
		a, b := at(long), at(long+1)
		mid := geom.Vertex{P: a.P.Lerp(b.P, 0.5), N: a.N, U: (a.U + b.U) / 2, V: (a.V + b.V) / 2}
		out.Vertices = append(out.Vertices, mid)
		n := len(out.Vertices) - 1
		cut([3]int{t[long], n, t[(long+2)%3]}, whole, times-1)
		cut([3]int{n, t[(long+1)%3], t[(long+2)%3]}, whole, times-1)
	}
	for i, t := range m.Triangles {
		cut(t, i, 12)
	}
	return out, of
}

// A picture of a surface whose triangles were divided for its light shows that light, however finely they were divided,
// from afar and from so near that triangles are clipped: it is the picture of the parts drawn each by itself.
func TestDividedForItsLight(t *testing.T) {
	spot := geom.Vec{X: 0.3, Y: 1.4, Z: -2}
	lamp := func(v geom.Vertex) [3]float32 {
		d := v.P.Dist(spot)
		return [3]float32{float32(1 / (1 + 4*d*d)), float32(0.2 + 0.2*v.P.X*v.P.X), 0.5}
	}
	picture := func(whole bool) *Stage {
		s := new(stand)
		for i, p := range []geom.Polygon{quad(-2, 0.2, 2, 2.6, -2), {{X: -2, Z: 1}, {X: 2, Z: 1}, {X: 2, Z: -2}, {X: -2, Z: -2}}} {
			plain := flatMesh(p)
			fine, of := halved(plain, spot)
			s.add(booth.Part{ID: booth.ID([]string{"wall", "floor"}[i])}, fine, booth.Look{Colour: booth.Colour{255, 255, 255}}, lamp)
			if len(of) < 30 {
				t.Fatalf("only %d parts", len(of))
			}
			if whole {
				u := &s.lit.Surfaces[i]
				u.Whole, u.Of = plain.Triangles, of
			}
		}
		return s.stage()
	}
	fine, whole := picture(false), picture(true)
	if n := len(whole.surfaces[0].facets); n != 1 {
		t.Fatalf("the wall is drawn as %d facets", n)
	}
	for name, v := range map[string]booth.View{
		"afar": {Stand: geom.Vec{Z: 3}, Height: 1.5, Look: geom.Vec{Y: 1.2, Z: -1}, Across: math.Pi / 3},
		"near": {Stand: geom.Vec{X: -1, Z: -1.7}, Height: 1.5, Look: geom.Vec{X: 2, Y: 1.4, Z: -2}, Across: math.Pi / 2},
	} {
		a, b := fine.Draw(v, Options{Width: 320, Height: 180}), whole.Draw(v, Options{Width: 320, Height: 180})
		seen, off := map[uint8]bool{}, 0
		for i := range a.Pix {
			d := int(a.Pix[i]) - int(b.Pix[i])
			if d = max(d, -d); d > 3 {
				t.Fatalf("%s: pixel %d, %d: %d for %d", name, i/4%320, i/4/320, b.Pix[i], a.Pix[i])
			} else if d > 1 {
				off++ // a pixel over several parts is their mean in one picture, and the light of its middle in the other
			}
			seen[a.Pix[i]] = true
		}
		if off > len(a.Pix)/1000 {
			t.Errorf("%s: %d values differ", name, off)
		}
		if len(seen) < 60 {
			t.Errorf("%s: only %d levels of light", name, len(seen))
		}
	}
}

// A place on the border, or a hair beyond it, has light too.
func TestLightOnTheBorder(t *testing.T) {
	s := new(stand)
	plain := flatMesh(geom.Polygon{{}, {X: 1}, {Y: 1}})
	fine, of := halved(plain, geom.Vec{X: 0.5, Y: 0.5})
	s.add(booth.Part{}, fine, booth.Look{Colour: booth.Colour{255, 255, 255}}, func(v geom.Vertex) [3]float32 {
		return [3]float32{float32(v.P.X), float32(v.P.Y), 1}
	})
	s.lit.Surfaces[0].Whole, s.lit.Surfaces[0].Of = plain.Triangles, of
	m := s.stage().surfaces[0].facets[0].mosaics[0]
	for i := range 1001 {
		x := float32(i) / 1000
		for _, at := range [][2]float32{{x, 1 - x}, {x, 0}, {0, x}, {x + 1e-6, 1 - x}, {x, -1e-6}, {-1e-6, x}, {x, x / 2 * (1 - x)}} {
			u, v := max(0, at[0]), max(0, at[1])
			if c, _ := m.at(at[0], at[1], nil); math.Abs(float64(c.r-u)) > 1e-5 || math.Abs(float64(c.g-v)) > 1e-5 || math.Abs(float64(c.b-1)) > 1e-5 {
				t.Fatalf("light %v at %v", c, at)
			}
		}
	}
}

// Where a sheet bends smoothly, a pixel on several of its facets has the colour that each by itself would give; the two sides of
// a sharp edge do not stand for each other.
func TestSmoothFacetsShareAPixel(t *testing.T) {
	var bent geom.Mesh
	const columns = 96
	for i := range columns + 1 {
		x := -1.2 + 2.4*float64(i)/columns
		for _, y := range []float64{0.3, 2.7} {
			bent.Vertices = append(bent.Vertices, geom.Vertex{P: geom.Vec{X: x, Y: y, Z: -2 + 0.1*math.Sin(9*x)}, N: geom.Vec{Z: 1}})
		}
		if i > 0 {
			n := 2 * i
			bent.Triangles = append(bent.Triangles, [3]int{n - 2, n, n + 1}, [3]int{n - 2, n + 1, n - 1})
		}
	}
	s := new(stand)
	s.add(booth.Part{}, bent, booth.Look{Colour: booth.Colour{255, 255, 255}}, func(v geom.Vertex) [3]float32 {
		return [3]float32{float32(0.5 + 0.4*math.Sin(9*v.P.X)), float32(0.2 + 0.2*v.P.Y), 0.5}
	})
	s.add(booth.Part{}, geom.Solids(geom.Box(geom.World, geom.Vec{X: -0.3, Z: -1.5}, geom.Vec{X: 0.3, Y: 1.1, Z: -1})), booth.Look{Colour: booth.Colour{255, 255, 255}}, full)
	st := s.stage()
	for i, want := range []int{columns - 1, 0} {
		got := 0
		for _, q := range st.surfaces[i].facets {
			if q.smooth {
				got++
			}
		}
		if got != want {
			t.Errorf("surface %d has %d smooth edges of %d facets, want %d", i, got, len(st.surfaces[i].facets), want)
		}
	}
	o := Options{Width: 90, Height: 90} // about one column a pixel
	together := st.Draw(straight, o)
	for i := range st.surfaces[0].facets {
		st.surfaces[0].facets[i].smooth = false
	}
	alone := st.Draw(straight, o)
	worst := 0
	for i := range alone.Pix {
		worst = max(worst, int(alone.Pix[i])-int(together.Pix[i]), int(together.Pix[i])-int(alone.Pix[i]))
	}
	if worst > 2 || worst == 0 {
		t.Errorf("the worst channel differs by %d levels", worst)
	}
}

// Light that is a square function of the place is shown as it is when it is known at corners and in the middle of sides, on a
// triangle that was not divided and on the parts of one that was.
func TestLightThatCurves(t *testing.T) {
	lamp := func(v geom.Vertex) [3]float32 {
		x, y := float32(v.P.X), float32(v.P.Y)
		return [3]float32{x * x, 0.2 + 0.5*x*y - 0.1*y*y, 1 - y}
	}
	plain := flatMesh(geom.Polygon{{}, {X: 1}, {Y: 1}})
	fine, of := halved(plain, geom.Vec{X: 0.5, Y: 0.5})
	for name, mesh := range map[string]geom.Mesh{"whole": plain, "divided": fine} {
		s := new(stand)
		s.add(booth.Part{}, mesh, booth.Look{Colour: booth.Colour{200, 120, 255}}, lamp)
		u := &s.lit.Surfaces[0]
		if u.Whole, u.Of = plain.Triangles, []int{0}; name == "divided" {
			u.Of = of
		}
		for _, c := range mesh.Triangles {
			var middles [3][3]float32
			for k := range c {
				a, b := mesh.Vertices[c[k]], mesh.Vertices[c[(k+1)%3]]
				middles[k] = lamp(geom.Vertex{P: a.P.Lerp(b.P, 0.5)})
			}
			u.Middles = append(u.Middles, middles)
		}
		m := s.stage().surfaces[0].facets[0].mosaics[0]
		if m == nil {
			t.Fatalf("%s: the light is even", name)
		}
		for i := range 21 {
			for j := range 21 - i {
				x, y := float32(i)/20, float32(j)/20
				want := lit(lamp(geom.Vertex{P: geom.Vec{X: float64(x), Y: float64(y)}}))
				got, _ := m.at(x, y, nil)
				for k, c := range got.numbers() {
					if math.Abs(float64(c-want.numbers()[k])) > 1e-5 {
						t.Fatalf("%s: light %v instead of %v at %v, %v", name, got, want, x, y)
					}
				}
			}
		}
	}
}
