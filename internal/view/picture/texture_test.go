package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// waves is a square image of one wave along and two down, in light, about 1/2.
func waves(side int, hued bool) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			c := waveAt((float64(x)+0.5)/float64(side), (float64(y)+0.5)/float64(side))
			g := colour.Byte(float32(c))
			p := color.NRGBA{g, g, g, 255}
			if hued {
				p.B = colour.Byte(float32(1 - c))
			}
			m.SetNRGBA(x, y, p)
		}
	}
	return m
}

func waveAt(u, v float64) float64 {
	return 0.5 + 0.2*math.Sin(2*math.Pi*u) + 0.2*math.Sin(4*math.Pi*v)
}

// On every level, over the seams and far from the first tile, the light is that of the waves that go on and on.
func TestTextureGoesOn(t *testing.T) {
	for _, hued := range []bool{false, true} {
		x := newTexture(waves(256, hued))
		if x.hued != hued {
			t.Fatalf("hued is %v", x.hued)
		}
		for _, texels := range []float64{0.3, 1, 1.5, 2.2, 4, 7.9, 11} {
			var w filter
			w.set(&x, footprint{ux: texels / 256, vy: texels / 256})
			for step := range 400 {
				u, v := -1.5+0.0073*float64(step), 77.2-0.0041*float64(step)
				got := w.at(u, v).numbers()
				want := waveAt(u, v)
				if math.Abs(float64(got[0])-want) > 0.02 {
					t.Fatalf("%v texels to a pixel, at %.3f, %.3f: light %.4f, want %.4f", texels, u, v, got[0], want)
				}
				if blue := map[bool]float64{false: want, true: 1 - want}[hued]; math.Abs(float64(got[2])-blue) > 0.02 || got[1] != got[0] {
					t.Fatalf("at %.3f, %.3f: %v, want blue %.4f", u, v, got, blue)
				}
			}
		}
		if m := x.mean; math.Abs(float64(m.r)-0.5) > 0.005 || math.Abs(float64(m.b)-0.5) > 0.005 {
			t.Errorf("mean %v, want 1/2", m)
		}
	}
}

// A chequered ground is the grey of half the light as soon as its squares are too small to be told apart, near and far,
// square on or at a flat angle, and stays so as the eye moves.
func TestFarTextureIsItsMean(t *testing.T) {
	for _, tilt := range []float64{0, 1, 1.4, 1.52} {
		s := new(stand)
		f := geom.World.Moved(geom.Vec{Y: 1.5, Z: -6}).Tilted(tilt)
		tile := checks(256, 1)
		s.add(booth.Part{}, flatMesh(geom.Rect(f, -3, -3, 3, 3)), booth.Look{Colour: white, Image: tile, Tile: 0.9}, full)
		st := s.stage()
		for step := range 3 {
			v := straight
			v.Stand.X = 0.0031 * float64(step)
			o := Options{Width: 400, Height: 400}
			m, ids := st.Draw(v, o), st.IDs(v, o)
			pixels := 0
			for y := 1; y < 399; y++ {
				for x := 1; x < 399; x++ {
					if i := y*400 + x; ids[i] == 0 && ids[i-1] == 0 && ids[i+1] == 0 && ids[i-400] == 0 && ids[i+400] == 0 {
						pixels++
						if c := m.NRGBAAt(x, y); c.R < 187 || c.R > 189 || c.G != c.R || c.B != c.R {
							t.Fatalf("tilted %v, pixel %d, %d is %v, want 188", tilt, x, y, c)
						}
					}
				}
			}
			if pixels < 100 {
				t.Fatalf("tilted %v: only %d pixels", tilt, pixels)
			}
		}
	}
}

// A tile of half a metre is seen four times over on two metres, wherever the polygon begins.
func TestTileIsMetres(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 64, 64))
	for i := range 64 * 64 {
		c := color.NRGBA{20, 20, 20, 255}
		if i%64 < 32 {
			c = color.NRGBA{240, 240, 240, 255}
		}
		m.SetNRGBA(i%64, i/64, c)
	}
	s := new(stand)
	s.add(booth.Part{}, flatMesh(quad(-1, 0.5, 1, 2.5, -1)), booth.Look{Colour: white, Image: imageOf(m), Tile: 0.5}, full)
	row := s.stage().Draw(straight, Options{Width: 400, Height: 400})
	for x := range 400 {
		if in := x % 50; in < 5 || in > 45 {
			continue // beside an edge between light and dark
		}
		want := uint8(20)
		if x%100 < 50 {
			want = 240
		}
		if c := row.NRGBAAt(x, 200); c.R != want {
			t.Fatalf("pixel %d is %d, want %d", x, c.R, want)
		}
	}
}

// The ground beyond the part that is drawn has its mean colour.
func TestGroundGoesOnInItsMean(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{Flat: true}, flatMesh(geom.Polygon{{X: -2, Z: 2}, {X: 2, Z: 2}, {X: 2, Z: -2}, {X: -2, Z: -2}}),
		booth.Look{Colour: white, Image: checks(64, 1), Tile: 1}, full)
	if c := s.stage().ground.colour(Options{}.exposure()); math.Abs(float64(c.r)-0.5) > 0.001 {
		t.Errorf("the far ground's light is %v, want 1/2", c)
	}
}

func BenchmarkTexture(b *testing.B) {
	x := newTexture(waves(512, true))
	g := footprint{ux: 3.1 / 512, vy: 7.7 / 512}
	u := 0.0
	var w filter
	for b.Loop() {
		u += 0.0061
		w.set(&x, g)
		w.at(u, 0.3)
	}
}
