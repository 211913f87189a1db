package light

import (
	"math"
	"reflect"
	"runtime"
	"sync"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// baked is the stall and its light, for the tests that only read them.
var baked = sync.OnceValues(func() (*booth.Plan, *Lit) {
	p := stall()
	return p, Bake(p)
})

func TestEverySurfaceIsLit(t *testing.T) {
	p, lit := baked()
	vertices, bytes := 0, 0
	parts := map[int]bool{}
	for _, s := range lit.Surfaces {
		parts[s.Part] = true
		if err := s.Mesh.Check(); err != nil {
			t.Errorf("%s: %v", p.Parts[s.Part].ID, err)
		}
		if len(s.Light) != len(s.Mesh.Vertices) {
			t.Fatalf("%s: %d vertices and %d lights", p.Parts[s.Part].ID, len(s.Mesh.Vertices), len(s.Light))
		}
		if s.Look.TwoSided {
			t.Errorf("%s: a surface is still two-sided", p.Parts[s.Part].ID)
		}
		for i, l := range s.Light {
			for _, c := range l {
				if !(c >= 0 && c <= 2) {
					t.Fatalf("%s: light %v at %v", p.Parts[s.Part].ID, l, s.Mesh.Vertices[i].P)
				}
			}
		}
		vertices += len(s.Mesh.Vertices)
		bytes += 20*len(s.Mesh.Vertices) + 6*len(s.Mesh.Triangles) // place, light and indices in a .glb
	}
	if len(parts) != len(p.Parts) {
		t.Errorf("%d of %d parts are lit", len(parts), len(p.Parts))
	}
	t.Logf("%d vertices, about %d bytes in a .glb without images", vertices, bytes)
	if bytes > 1.5e6 {
		t.Errorf("%d bytes of mesh, want at most 1.5 MB", bytes)
	}
}

func TestSameEveryTime(t *testing.T) {
	p, want := baked()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !reflect.DeepEqual(Bake(p).Surfaces, want.Surfaces) {
		t.Error("another light with another number of processors")
	}
}

// mean is the light on the works by area, from the baked triangles of their faces.
func mean(p *booth.Plan, lit *Lit) (sum rgb) {
	total := 0.0
	for _, s := range lit.Surfaces {
		if p.Parts[s.Part].Work == nil || s.Look.Image == nil {
			continue
		}
		for _, t := range s.Mesh.Triangles {
			v := s.Mesh.Vertices
			a := geom.Polygon{v[t[0]].P, v[t[1]].P, v[t[2]].P}.Area()
			total += a
			for _, k := range t {
				l := s.Tone.Of(s.Light[k], [3]float32{1, 1, 1})
				sum = sum.plus(rgb{float64(l[0]), float64(l[1]), float64(l[2])}, a/3)
			}
		}
	}
	return rgb{}.plus(sum, 1/total)
}

// Works keep the colours of their photographs: under the mean light that falls on them the difference is at most 1 by
// CIEDE2000 (Sharma, Wu and Dalal 2005) on average over the colours that sRGB can show.
func TestWorksKeepTheirColours(t *testing.T) {
	p, lit := baked()
	m := mean(p, lit)
	t.Logf("mean light on the works: %.4f", m)
	for c := range 3 {
		if math.Abs(m[c]-m[(c+1)%3]) > 0.006 {
			t.Errorf("mean light on the works is not neutral: %v", m)
		}
		if m[c] < .9 || m[c] > 1 {
			t.Errorf("mean light on the works: %v, want 0.9 to 1", m)
		}
	}
	sum, n := 0.0, 0.0
	for r := 0; r < 256; r += 15 {
		for g := 0; g < 256; g += 15 {
			for b := 0; b < 256; b += 15 {
				in := [3]uint8{uint8(r), uint8(g), uint8(b)}
				var out [3]uint8
				for c := range 3 {
					out[c] = colour.Byte(colour.Light(in[c]) * float32(ofWorks.at(1)))
				}
				sum += colour.Difference(colour.LabOf(in[0], in[1], in[2]), colour.LabOf(out[0], out[1], out[2]))
				n++
			}
		}
	}
	t.Logf("mean CIEDE2000 at the works' mean light: %.3f", sum/n)
	if sum/n > 1 {
		t.Errorf("mean CIEDE2000 %.3f, want at most 1", sum/n)
	}
}

// A coloured canopy does not tint the works as a whole.
func TestRedCanopyLeavesWorksNeutral(t *testing.T) {
	p := stall()
	for i := range p.Parts {
		for k := range p.Parts[i].Surfaces {
			if l := &p.Parts[i].Surfaces[k].Look; l.Passes > 0 {
				l.Colour = booth.Colour{200, 60, 50}
			}
		}
	}
	if m := mean(p, Bake(p)); math.Abs(m[0]-m[1]) > 0.01 || math.Abs(m[0]-m[2]) > 0.01 {
		t.Errorf("mean light on the works under a red canopy: %v, want neutral", m)
	}
}

// No vertex lies on another triangle's side without being a corner of it: through such a place the background shows.
func TestNoGapOpens(t *testing.T) {
	p, lit := baked()
	for n, s := range lit.Surfaces {
		if p.Parts[s.Part].Work == nil && s.Mesh.Vertices[0].N.Y != 1 && n%7 != 0 {
			continue // a selection: the works, level surfaces and every seventh
		}
		v := s.Mesh.Vertices
		for _, t3 := range s.Mesh.Triangles {
			for k, a := range t3 {
				a, b := v[a].P, v[t3[(k+1)%3]].P
				along := b.Sub(a)
				l := along.Len()
				for i := range v {
					d := v[i].P.Sub(a)
					x := d.Dot(along) / l
					if x > 1e-6 && x < l-1e-6 && d.Sub(along.Mul(x/l)).Len() < 1e-9 {
						t.Fatalf("%s: vertex %v lies on the side from %v to %v", p.Parts[s.Part].ID, v[i].P, a, b)
					}
				}
			}
		}
	}
}

func BenchmarkBake(b *testing.B) {
	p := stall()
	for b.Loop() {
		Bake(p)
	}
}

// BenchmarkPoint is the light at one point of the back drape.
func BenchmarkPoint(b *testing.B) {
	p := stall()
	r := newRoom(p, eyes(p), nothing)
	r.settle()
	g := newGatherer(r)
	b.ReportAllocs()
	k := 0
	for b.Loop() {
		k = (k + 7) % 100
		g.light(geom.Vec{X: -1.3 + .026*float64(k), Y: 1.1, Z: -2.919}, geom.Vec{Z: 1}, -1)
	}
}

// Shadows lie where a painter would look for them.
func TestShadows(t *testing.T) {
	r := newRoom(stall(), eyes(stall()), nothing)
	r.settle()
	g := newGatherer(r)
	at := func(x, y, z float64, n geom.Vec) float64 { return g.light(geom.Vec{X: x, Y: y, Z: z}, n, -1)[1] }
	in := geom.Vec{Z: 1}
	// The middle work of the back wall is 0.4 m wide and 0.3 m high about (0.04, 1.5), 4 cm before the drape.
	if under, low := at(-.01, 1.32, -2.919, in), at(-.01, .9, -2.919, in); under > .8*low {
		t.Errorf("just under a canvas the drape gets %.3f, half a metre lower %.3f: want a shadow", under, low)
	}
	if under, over := at(-.01, 1.32, -2.919, in), at(-.01, 1.68, -2.919, in); under > over {
		t.Errorf("light comes from above, but under a canvas there is %.3f and over it %.3f", under, over)
	}
	if below, open := at(1.1, .001, -.95, geom.Up), at(0, .001, -.95, geom.Up); below > .6*open {
		t.Errorf("under the bin the ground gets %.3f, beside it %.3f: want a shadow", below, open)
	}
	if inside, outside := at(0, .001, -2.5, geom.Up), at(0, .001, 3, geom.Up); inside > .5*outside {
		t.Errorf("deep in the tent the ground gets %.3f, in the aisle %.3f", inside, outside)
	}
	if corner := at(-1.4, .001, -2.9, geom.Up); corner < .005 {
		t.Errorf("a corner gets %.4f: it is black", corner)
	}
}

func TestNothingToLight(t *testing.T) {
	if lit := Bake(&booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}}); len(lit.Surfaces) != 0 {
		t.Errorf("%d surfaces of an empty pitch", len(lit.Surfaces))
	}
}
