package kinds

import (
	"fmt"
	"math"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// covers says whether a triangle that faces the frame's front lies before or behind the point x, y of the frame.
func covers(f geom.Frame, m geom.Mesh, t [3]int, x, y float64) bool {
	var p [3]geom.Vec
	for k, n := range t {
		p[k] = f.Local(m.Vertices[n].P)
	}
	for k, a := range p {
		b := p[(k+1)%3]
		if (b.X-a.X)*(y-a.Y)-(b.Y-a.Y)*(x-a.X) < 0 {
			return false
		}
	}
	return true
}

// Square on, a mesh of pitch p of wires w thick is open over ((p-w)/p)² of its area, from the front and from behind.
func TestWireMeshHasItsOpenArea(t *testing.T) {
	for _, inches := range []float64{1, 2, 4} {
		p := inches * inch
		f := geom.Upright(geom.Vec{X: 1, Z: -3}, geom.Vec{X: 1, Z: 1})
		var part booth.Part
		screen(&part, meshWires(f, geom.Vec{Y: p}, geom.Vec{X: 5 * p, Y: 6 * p, Z: slack}, p), f.Z)
		m := part.Surfaces[0].Mesh
		back := geom.Frame{Origin: f.Origin, X: f.X.Neg(), Y: f.Y, Z: f.Z.Neg()}
		for name, g := range map[string]geom.Frame{"front": f, "back": back} {
			const n = 200
			open := 0
			for i := range n {
				for j := range n {
					x, y := 2*p+p*(float64(i)+0.5)/n, 3*p+p*(float64(j)+0.5)/n
					if name == "back" {
						x = -x
					}
					hit := false
					for _, tri := range m.Triangles {
						hit = hit || covers(g, m, tri, x, y)
					}
					if !hit {
						open++
					}
				}
			}
			want := math.Pow((p-wire)/p, 2)
			if got := float64(open) / (n * n); math.Abs(got-want) > 0.01 {
				t.Errorf("%g in mesh from the %s: %.4f open, want %.4f", inches, name, got, want)
			}
		}
	}
}

// However a surface is covered with a material, its mean colour is the one that the scene states.
func TestFinishKeepsTheColour(t *testing.T) {
	p := mustPlan(t, "pitch: {ground: gravel}\ntent: {canopy: \"#b0c0d0\"}\ndrapes: {cloth: \"#8b8f94\"}\ntables: [{name: t, size: 40in x 20in, cloth: \"#4a4f55\"}]\nbins: [{colour: \"#b09068\"}]\n")
	for id, want := range map[booth.ID]booth.Colour{
		"ground": {0xa8, 0xa2, 0x97}, "tent/canopy": {0xb0, 0xc0, 0xd0}, "drape/back": {0x8b, 0x8f, 0x94}, "table/t": {0x4a, 0x4f, 0x55}, "bin": {0xb0, 0x90, 0x68},
	} {
		k := p.Part(id).Surfaces[0].Look
		if k.Image == nil || k.Tile == 0 {
			t.Errorf("%s is plain", id)
			continue
		}
		var sum [3]float64
		for i, b := range k.Image.Pixels().Pix {
			if i%4 < 3 {
				sum[i%4] += float64(colour.Light(b)) / float64(len(k.Image.Pixels().Pix)/4)
			}
		}
		for c := range 3 {
			if got := 255 * colour.Signal(sum[c]*float64(colour.Light(k.Colour[c]))); math.Abs(got-float64(want[c])) > 1 {
				t.Errorf("%s: channel %d is %.1f on average, want %d", id, c, got, want[c])
			}
		}
	}
}

// Cut into panels and seams a roof is as large as it was, its seams are as wide as they should be, and they pass less.
func TestRoofIsSewnOfAllItsCloth(t *testing.T) {
	for _, roof := range []string{"peak", "ridge", "flat"} {
		p := mustPlan(t, "pitch: {width: 10ft, depth: 8ft}\ntent: {roof: "+roof+", light through: 30%}\n")
		part := p.Part("tent/canopy")
		area := func(m geom.Mesh) (sum float64) {
			for _, t := range m.Triangles {
				sum += geom.Polygon{m.Vertices[t[0]].P, m.Vertices[t[1]].P, m.Vertices[t[2]].P}.Area()
			}
			return sum
		}
		whole := 0.0
		for _, s := range part.Solids {
			whole += s.Face(0).Area()
		}
		once, twice := area(part.Surfaces[0].Mesh), area(part.Surfaces[1].Mesh)
		near(t, roof+" area", once+twice, whole)
		if share := twice / whole; share < 0.02 || share > 0.2 {
			t.Errorf("%s: %.3f of the roof is seams", roof, share)
		}
		// Two sheets that keep no light: 0.3² / (1 - 0.7²) = 0.1765.
		if got := part.Surfaces[1].Look.Passes; math.Abs(got-0.3*0.3/(1-0.7*0.7)) > 1e-12 || part.Surfaces[0].Look.Passes != 0.3 {
			t.Errorf("%s: seams pass %.4f", roof, got)
		}
	}
	// A single strip: a hem of 35 mm along a valance 9 in high and 10 ft and twice 40 mm long.
	v := mustPlan(t, "tent: {}\n").Part("tent/valance-left")
	m := v.Surfaces[1].Mesh
	var corners []geom.Vec
	for _, c := range m.Vertices {
		corners = append(corners, c.P)
	}
	lo, hi := geom.Bounds(corners)
	near(t, "hem", hi.Y-lo.Y, hemWide)
	near(t, "hem's length", hi.Z-lo.Z, 120*inch+2*overhang)
	near(t, "hem's height", lo.Y, (84-9)*inch)
}

// A cloth to the ground reaches it all round, covers the top, stands out most at the corners, and hangs straight where
// the table's back stands against something.
func TestTableCloth(t *testing.T) {
	const w, d, h = 1.2, 0.56, 0.76
	for _, pressed := range []bool{false, true} {
		m, _ := tableCloth(geom.World, w, d, h, pressed)
		if err := m.Check(); err != nil {
			t.Fatal(err)
		}
		top, most, back, corner := 0.0, 0.0, 0.0, 0.0
		for _, v := range m.Vertices {
			if v.P.Y < -1e-9 || v.P.Y > h+1e-9 {
				t.Fatalf("a point at height %g", v.P.Y)
			}
			beyond := geom.Vec{X: max(0, math.Abs(v.P.X)-w/2), Z: max(0, math.Abs(v.P.Z)-d/2)}
			if v.P.Y < 1e-9 && beyond.X > 0 && beyond.Z > 0 {
				corner = max(corner, beyond.Len())
			} else {
				most = max(most, beyond.Len())
			}
			back = max(back, -d/2-v.P.Z)
		}
		for _, tri := range m.Triangles {
			a, b, c := m.Vertices[tri[0]], m.Vertices[tri[1]], m.Vertices[tri[2]]
			if p := (geom.Polygon{a.P, b.P, c.P}); a.P.Y > h-1e-9 && b.P.Y > h-1e-9 && c.P.Y > h-1e-9 {
				top += p.Area()
			} else if out := (geom.Vec{X: a.P.X / w, Z: a.P.Z / d}); p.Normal().Dot(out) < -1e-6 && !pressed {
				t.Fatalf("a triangle at %v faces inwards", a.P)
			}
		}
		if want := (w - 2*clothEdge) * (d - 2*clothEdge); math.Abs(top-want) > 0.001 { // less the rounded corners
			t.Errorf("%.4f m² lie flat, want %.4f", top, want)
		}
		if corner < 0.04 || corner > 0.06 || most > clothCorner {
			t.Errorf("the corners stand out by %.3f m, the rest by %.3f", corner, most)
		}
		if pressed != (back < 1e-9) {
			t.Errorf("pressed %v: the back stands out by %.4f m", pressed, back)
		}
	}
}

// Whatever its shape, a thing keeps within its stated size, and reaches its height.
func TestThingsKeepTheirSize(t *testing.T) {
	for _, shape := range []string{"box", "stack", "jar", "rack"} {
		for _, size := range []string{"9in x 6in x 5in", "3in x 3in x 6in", "12in x 8in x 1in"} {
			p := mustPlan(t, "tables: [{name: t, size: 48in x 24in, on top: [{name: it, shape: "+shape+", size: "+size+"}]}]\n")
			part := p.Part("thing/it")
			var corners []geom.Vec
			for i, s := range part.Solids {
				if err := s.Check(); err != nil {
					t.Errorf("%s %s: solid %d: %v", shape, size, i, err)
				}
				corners = append(corners, s.Corners...)
			}
			for _, s := range part.Surfaces {
				for _, v := range s.Mesh.Vertices {
					corners = append(corners, v.P)
				}
			}
			for i, c := range corners {
				corners[i] = part.Frame.Local(c)
			}
			lo, hi := geom.Bounds(corners)
			var w, d, h float64
			if _, err := fmt.Sscanf(size, "%fin x %fin x %fin", &w, &d, &h); err != nil {
				t.Fatal(err)
			}
			if hi.X > w/2*inch+1e-9 || lo.X < -w/2*inch-1e-9 || hi.Z > d/2*inch+1e-9 || lo.Z < -d/2*inch-1e-9 || hi.Y > h*inch+1e-9 || lo.Y < -1e-9 {
				t.Errorf("%s %s reaches from %v to %v", shape, size, lo.Mul(1/inch), hi.Mul(1/inch))
			}
			if hi.Y < 0.7*h*inch || hi.X < 0.4*w*inch {
				t.Errorf("%s %s is only %v in", shape, size, hi.Mul(1/inch))
			}
		}
	}
}

// A mat leaves the picture free, and its bevel shows a white core.
func TestMatHasABevel(t *testing.T) {
	p := mustPlan(t, booth10+"works: [{name: a, size: 14 x 11, wall: back, image: red.jpg, frame: {width: 1, depth: 1, mat: 2, mat colour: \"#d0c8b8\"}}]\n")
	w := p.Part("work/a")
	front := w.Work.Face.Centre().Dot(w.Frame.Z)
	core := w.Surfaces[len(w.Surfaces)-1]
	for _, v := range core.Mesh.Vertices {
		out := v.P.Dot(w.Frame.Z) - front
		if out < -1e-9 || out > matThick+1e-9 {
			t.Errorf("the bevel stands %.5f m before the picture", out)
		}
		l := w.Frame.Local(v.P)
		if math.Abs(l.X) < 5.5*inch-1e-9 && math.Abs(l.Y) < 7*inch-1e-9 {
			t.Errorf("the bevel covers the picture at %v", l)
		}
		if a := v.N.Dot(w.Frame.Z); math.Abs(a-math.Sqrt2/2) > 1e-9 {
			t.Errorf("the bevel is cut at %.1f degrees", math.Acos(a)*180/math.Pi)
		}
	}
	if core.Look.Colour[0] < 0xf8 || len(core.Mesh.Triangles) != 8 {
		t.Errorf("core: %v, %d triangles", core.Look.Colour, len(core.Mesh.Triangles))
	}
}
