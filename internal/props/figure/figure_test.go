package figure

import (
	"math"
	"reflect"
	"testing"

	"boothmock/internal/basis/geom"
)

// Statures and eye heights in metres: adult, the mean of both means of ANSUR II (men 1.756, women 1.629; Natick/TR-15/007,
// 2014); child, the median of girls and boys of six in the CDC growth charts of 2000 (1.150 and 1.157, near 1.155); eyes
// in a wheelchair, the middle of 43 to 51 in (1991 ADAAG, figure A3).
const (
	stature    = 1.69
	childTall  = 1.155
	seatedEyes = 47 * 0.0254
)

func all() map[string]Figure {
	return map[string]Figure{
		"adult": Adult(stature), "tall": Adult(1.87), "child": Child(childTall), "seated": InWheelchair(seatedEyes),
		"seated low": InWheelchair(43 * 0.0254), "seated high": InWheelchair(51 * 0.0254),
	}
}

func points(m geom.Mesh) []geom.Vec {
	var out []geom.Vec
	for _, v := range m.Vertices {
		out = append(out, v.P)
	}
	return out
}

func TestFiguresAreSound(t *testing.T) {
	for name, f := range all() {
		if err := f.Mesh.Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if n := len(f.Mesh.Triangles); n < 1000 || n >= 3000 {
			t.Errorf("%s: %d triangles", name, n)
		}
		away, area := 0.0, 0.0
		for _, v := range f.Mesh.Triangles { // what is seen from outside has its light from outside
			a, b, c := f.Mesh.Vertices[v[0]], f.Mesh.Vertices[v[1]], f.Mesh.Vertices[v[2]]
			p := geom.Polygon{a.P, b.P, c.P}
			area += p.Area()
			if p.Normal().Dot(a.N.Add(b.N).Add(c.N)) < 0 {
				away += p.Area()
			}
		}
		if away > 0.001*area { // in a fold a small triangle may
			t.Errorf("%s: %.2f %% of the surface faces away from its normals", name, 100*away/area)
		}
		lo, hi := geom.Bounds(points(f.Mesh))
		for i, s := range f.Solids {
			if err := s.Check(); err != nil {
				t.Errorf("%s: solid %d: %v", name, i, err)
			}
			l, h := s.Bounds()
			if l.X < lo.X-0.02 || l.Y < lo.Y-0.02 || l.Z < lo.Z-0.02 || h.X > hi.X+0.02 || h.Y > hi.Y+0.02 || h.Z > hi.Z+0.02 {
				t.Errorf("%s: solid %d, %v to %v, leaves the mesh, %v to %v", name, i, l, h, lo, hi)
			}
		}
		if n := len(f.Solids); n < 10 || n > 250 {
			t.Errorf("%s: %d solids", name, n)
		}
	}
}

func TestStature(t *testing.T) {
	for want, f := range map[float64]Figure{1.5: Adult(1.5), stature: Adult(stature), 1.9: Adult(1.9), childTall: Child(childTall), 0.95: Child(0.95)} {
		lo, hi := geom.Bounds(points(f.Mesh))
		if math.Abs(hi.Y-want) > 0.001 || math.Abs(lo.Y) > 0.003 {
			t.Errorf("from %.4f to %.4f m, want %.3f", lo.Y, hi.Y, want)
		}
		if math.Abs(lo.X+hi.X) > 0.06*want || hi.X-lo.X < 0.25*want || hi.X-lo.X > 0.45*want {
			t.Errorf("%.2f m tall: from %.3f to %.3f m across", want, lo.X, hi.X)
		}
	}
	for _, eye := range []float64{43 * 0.0254, seatedEyes, 51 * 0.0254} {
		lo, hi := geom.Bounds(points(InWheelchair(eye).Mesh))
		// ANSUR II: the top of the head is 109 (women) to 114 mm (men) above the eyes, SD 9.
		if over := hi.Y - eye; over < 0.095 || over > 0.13 {
			t.Errorf("eyes at %.3f m: the head ends %.3f m above them", eye, over)
		}
		// 1991 ADAAG, figure A3: 26 in wide, 48 in long with the toes.
		if w := hi.X - lo.X; math.Abs(w-26*0.0254) > 0.03 {
			t.Errorf("the chair is %.3f m wide", w)
		}
		if l := hi.Z - lo.Z; l < 1 || l > 48*0.0254 {
			t.Errorf("the chair is %.3f m long", l)
		}
		if math.Abs(lo.Y) > 0.003 {
			t.Errorf("the chair stands at %.4f m", lo.Y)
		}
	}
}

// At the height of the eyes, and only there and about, is a head: its breadth and length beside the published ones (ANSUR
// II, head breadth 140 to 160 mm, head length 180 to 205 mm, from memory; hair may add 20 mm).
func TestEyesAreInTheHead(t *testing.T) {
	for name, c := range map[string]struct {
		f   Figure
		eye float64
	}{"adult": {Adult(stature), stature - 0.111}, "seated": {InWheelchair(seatedEyes), seatedEyes}} {
		lo, hi := geom.Vec{X: 9, Z: 9}, geom.Vec{X: -9, Z: -9}
		for _, v := range c.f.Mesh.Vertices {
			if math.Abs(v.P.Y-c.eye) < 0.03 {
				lo = geom.Vec{X: min(lo.X, v.P.X), Z: min(lo.Z, v.P.Z)}
				hi = geom.Vec{X: max(hi.X, v.P.X), Z: max(hi.Z, v.P.Z)}
			}
		}
		if w := hi.X - lo.X; w < 0.14 || w > 0.18 {
			t.Errorf("%s: the head is %.3f m broad", name, w)
		}
		if l := hi.Z - lo.Z; l < 0.18 || l > 0.235 {
			t.Errorf("%s: the head is %.3f m long", name, l)
		}
		if lo.X > -0.05 || hi.X < 0.05 || hi.Z < 0.05 || lo.Z > -0.05 {
			t.Errorf("%s: the head is not above the origin: %v to %v", name, lo, hi)
		}
	}
}

// outlined is which squares of a grid of 2 mm the triangles cover, seen along z, x to the right.
func outlined(triangles [][3]geom.Vec, x, y geom.Vec) (out [1200][1200]bool) {
	const grain = 0.002
	for _, t := range triangles {
		var p [3][2]float64
		lo, hi := [2]float64{1e9, 1e9}, [2]float64{}
		for k, v := range t {
			p[k] = [2]float64{600 + v.Dot(x)/grain, 600 + (v.Dot(y)-0.9)/grain}
			lo = [2]float64{min(lo[0], p[k][0]), min(lo[1], p[k][1])}
			hi = [2]float64{max(hi[0], p[k][0]), max(hi[1], p[k][1])}
		}
		area := (p[1][0]-p[0][0])*(p[2][1]-p[0][1]) - (p[1][1]-p[0][1])*(p[2][0]-p[0][0])
		for i := int(math.Floor(lo[0])); i <= int(hi[0]); i++ {
			for j := int(math.Floor(lo[1])); j <= int(hi[1]); j++ {
				cx, cy, in := float64(i)+0.5, float64(j)+0.5, true
				for k, a := range p {
					b := p[(k+1)%3]
					in = in && ((b[0]-a[0])*(cy-a[1])-(b[1]-a[1])*(cx-a[0]))*area >= 0
				}
				if in {
					out[i][j] = true
				}
			}
		}
	}
	return out
}

// Seen from anywhere, the solids cover what the mesh covers: each covers at most some hundredth that the other does not.
func TestSolidsCoverWhatTheMeshDoes(t *testing.T) {
	for name, f := range map[string]Figure{"adult": Adult(stature), "child": Child(childTall), "seated": InWheelchair(seatedEyes)} {
		var mesh, solids [][3]geom.Vec
		for _, v := range f.Mesh.Triangles {
			mesh = append(mesh, [3]geom.Vec{f.Mesh.Vertices[v[0]].P, f.Mesh.Vertices[v[1]].P, f.Mesh.Vertices[v[2]].P})
		}
		for _, s := range f.Solids {
			for i := range s.Faces {
				face := s.Face(i)
				for k := 1; k+1 < len(face); k++ {
					solids = append(solids, [3]geom.Vec{face[0], face[k], face[k+1]})
				}
			}
		}
		worst, sum, n := 0.0, 0.0, 0.0
		for i := range 6 {
			sin, cos := math.Sincos(float64(i) * 2.4)
			up := geom.Vec{Y: 1, X: 0.3 * sin, Z: -0.3 * cos}.Unit()
			x := up.Cross(geom.Vec{X: sin, Z: cos}).Unit()
			seen, held := outlined(mesh, x, up), outlined(solids, x, up)
			more, less, all := 0, 0, 0
			for i := range seen {
				for j, m := range seen[i] {
					switch h := held[i][j]; {
					case h && !m:
						more++
					case m && !h:
						less++
					}
					if m {
						all++
					}
				}
			}
			d := float64(max(more, less)) / float64(all)
			worst, sum, n = max(worst, d), sum+d, n+1
		}
		t.Logf("%s: %d solids cover up to %.2f %% too much or too little, on average %.2f %%", name, len(f.Solids), 100*worst, 100*sum/n)
		if worst > 0.012 {
			t.Errorf("%s: the solids cover %.2f %% too much or too little", name, 100*worst)
		}
	}
}

func TestSameFigureEveryTime(t *testing.T) {
	if !reflect.DeepEqual(standing(child), standing(child)) {
		t.Error("two makings of one child differ")
	}
	if !reflect.DeepEqual(inWheelchair(seatedEyes), InWheelchair(seatedEyes)) {
		t.Error("two makings of one seated visitor differ")
	}
	a, b := Adult(1.7), Adult(1.8)
	if a.Mesh.Vertices[0].P == b.Mesh.Vertices[0].P || !reflect.DeepEqual(a, Adult(1.7)) {
		t.Error("one adult's size changed another's")
	}
}

// The distance of every building block is true near its skin, or normals and blends would be wrong.
func TestDistances(t *testing.T) {
	f := geom.Upright(geom.Vec{X: 0.1, Y: 0.2, Z: 0.3}, geom.Vec{X: 1, Z: 2})
	for name, s := range map[string]shape{
		"cone":  cone(geom.Vec{}, geom.Vec{X: 0.1, Y: 0.5}, 0.1, 0.05),
		"egg":   egg(f, geom.Vec{X: 0.2, Y: 0.3, Z: 0.15}),
		"trunk": trunk([]section{{0, 0, 0, 0.2, 0.15, 0}, {0.3, 0.02, 0, 0.18, 0.14, 0.03}, {0.6, 0, 0.01, 0.19, 0.15, 0}}),
	} {
		n := 0
		for i := range 20000 {
			at := func(k int) float64 {
				return math.Mod(float64(i)*[3]float64{0.754877666, 0.569840290, 0.32471795}[k], 1)
			}
			p := geom.Vec{X: at(0) - 0.5, Y: at(1), Z: at(2) - 0.4}
			d := s(p)
			if math.Abs(d) > 0.01 {
				continue
			}
			n++
			if q := s.onSkin(p); math.Abs(s(q)) > 1e-5 || p.Dist(q) > 2*math.Abs(d)+5e-4 {
				t.Fatalf("%s: %v is said to be %.4f m from the skin, which is found %.4f m away, %.6f m off", name, p, d, p.Dist(q), s(q))
			}
		}
		if n < 40 {
			t.Errorf("%s: only %d points near the skin", name, n)
		}
	}
	// A cone of equal balls is a capsule: distances by hand.
	c := cone(geom.Vec{}, geom.Vec{Y: 1}, 0.1, 0.1)
	for p, want := range map[geom.Vec]float64{{X: 0.3, Y: 0.5}: 0.2, {Y: 1.5}: 0.4, {Y: -0.2}: 0.1, {Y: 0.5, Z: 0.04}: -0.06, {X: 0.3, Y: 1.4}: 0.4} {
		if got := c(p); math.Abs(got-want) > 1e-9 {
			t.Errorf("capsule at %v: %.6f, want %.6f", p, got, want)
		}
	}
}

func BenchmarkAdult(b *testing.B) {
	for b.Loop() {
		standing(adult)
	}
}

func BenchmarkInWheelchair(b *testing.B) {
	for b.Loop() {
		inWheelchair(seatedEyes)
	}
}
