package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

// How much of the sun is open is the share of rays to its disc that meet nothing.
func TestOutlinesAgainstRays(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	const size = 0.02 // larger than the sun, so that more places see a part of it
	partly, worst, sum, n := 0, 0.0, 0.0, 0.0
	for range 60 {
		eye, target, solids := scene(t, r, 1+r.IntN(4))
		toward := eye.Sub(target.Centre()).Unit()
		o := NewOutlines(toward, size, solids)
		for range 300 {
			p := geom.Vec{X: r.Float64()*4 - 2, Y: r.Float64()*4 - 2, Z: -1}
			hit, count := 0, 0
			for i := range 20 {
				for k := range 20 {
					u, v := (float64(i)+.5)/10-1, (float64(k)+.5)/10-1
					if u*u+v*v > 1 {
						continue
					}
					count++
					d := toward.Add(o.x.Mul(u * size)).Add(o.y.Mul(v * size))
					for j := range solids {
						if solids[j].Stops(p, p.Add(d.Mul(50))) {
							hit++
							break
						}
					}
				}
			}
			want := 1 - float64(hit)/float64(count)
			off := math.Abs(o.Open(p, -1, nil) - want)
			if want > 0 && want < 1 {
				partly++
				sum, n = sum+off, n+1
			} else if off > 0.08 {
				t.Errorf("%.3f of the light is open, by rays %.3f", o.Open(p, -1, nil), want)
			}
			worst = max(worst, off)
		}
	}
	t.Logf("%d places see a part: off by %.3f on average, %.2f at most", partly, sum/n, worst)
	if partly < 150 || sum/n > 0.02 {
		t.Errorf("%d places see a part of the light; off by %.3f on average", partly, sum/n)
	}
}

// The edge of a board's shadow is as wide as the light is, times the distance; on the board itself, and over it, there is no shadow.
func TestSoftEdge(t *testing.T) {
	board := []Solid{NewSolid(geom.Box(geom.World, geom.Vec{X: -9, Y: 2, Z: 0}, geom.Vec{X: 9, Y: 2.01, Z: 9}), 3)}
	const size = 0.00465
	o := NewOutlines(geom.Up, size, board)
	for _, c := range []struct{ y, z, want float64 }{{0, 0, .5}, {0, -2.02 * size, 0}, {0, 2.02 * size, 0}, {2.01, 1, 1}, {3, 1, 1}, {0, 1, 0}, {0, -1, 1}} {
		want := c.want
		if c.z == -2.02*size {
			want = 1
		}
		near(t, "open", o.Open(geom.Vec{Y: c.y, Z: c.z}, -1, nil), want, 0.005)
	}
	// Half way out of the half shadow the board covers a segment of the disc as high as half its radius: (π/3 − √3/4)/π of it.
	near(t, "half way out", o.Open(geom.Vec{Z: -size}, -1, nil), 1-(math.Pi/3-math.Sqrt(3)/4)/math.Pi, 0.06)
	// The higher an edge rises, the softer its shadow: one that runs across both axes, 1.5 m up here and 4.5 m there.
	rising := geom.Frame{Origin: geom.Vec{Y: 3}, X: geom.Vec{X: 1, Y: 1, Z: 1}.Unit(), Z: geom.Vec{X: 1, Z: -1}.Unit()}
	rising.Y = rising.Z.Cross(rising.X)
	slope := NewOutlines(geom.Up, size, []Solid{NewSolid(geom.Box(rising, geom.Vec{X: -5}, geom.Vec{X: 5, Y: .001, Z: 9}), 0)})
	for _, x := range []float64{-1.5, 1.5} {
		out := rising.Z.Mul(-size * (3 + x) / 2)
		near(t, "half way out of a rising edge", slope.Open(geom.Vec{X: x, Z: x}.Add(out), -1, nil), 1-(math.Pi/3-math.Sqrt(3)/4)/math.Pi, 0.06)
	}
	near(t, "left out", o.Open(geom.Vec{Z: 1}, -1, []bool{false, false, false, true}), 1, 0)
	// A rod that is narrower than the light hides its own width of it: 2·size·2 m across, so many times the rod's share of the disc.
	rod := NewOutlines(geom.Up, size, []Solid{NewSolid(geom.Box(geom.World, geom.Vec{X: -9, Y: 2, Z: -.001}, geom.Vec{X: 9, Y: 2.001, Z: .001}), 0)})
	near(t, "past a rod", rod.Open(geom.Vec{}, -1, nil), 1-.002*2/(math.Pi*2*size), 0.01)
}

// A place up to 4 mm under a thing's skin counts as on it.
func TestUnderTheSkin(t *testing.T) {
	o := NewOutlines(geom.Up, 0.0001, []Solid{NewSolid(geom.Box(geom.World, geom.Vec{X: -1, Y: -1, Z: -1}, geom.Vec{X: 1, Z: 1}), 0)})
	near(t, "just under it", o.Open(geom.Vec{Y: -.0039}, -1, nil), 1, 1e-9)
	near(t, "deeper", o.Open(geom.Vec{Y: -.0041}, -1, nil), 0, 1e-9)
}

// No light comes through where pieces of a board meet, at their corners neither.
func TestPiecesAreTight(t *testing.T) {
	var pieces []Solid
	for i := range 40 {
		for k := range 40 {
			x, z := float64(i-20)*0.02, float64(k-20)*0.02
			pieces = append(pieces, NewSolid(geom.Box(geom.World, geom.Vec{X: x, Y: 3, Z: z}, geom.Vec{X: x + 0.02, Y: 3.001, Z: z + 0.02}), 0))
		}
	}
	o := NewOutlines(geom.Up, 0.00465, pieces)
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		if p := (geom.Vec{X: r.Float64()*0.4 - 0.2, Z: r.Float64()*0.4 - 0.2}); o.Open(p, -1, nil) > 0.1 {
			t.Fatalf("%.3f of the light comes through a board at %v", o.Open(p, -1, nil), p)
		}
	}
}

func BenchmarkOutlines(b *testing.B) {
	r := rand.New(rand.NewPCG(4, 4))
	_, _, solids := scene(b, r, 60)
	o := NewOutlines(geom.Vec{X: .3, Y: .7, Z: .6}.Unit(), .00465, solids)
	for b.Loop() {
		o.Open(geom.Vec{X: .3, Y: .2, Z: -1}, -1, nil)
	}
}
