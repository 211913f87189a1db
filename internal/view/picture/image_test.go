package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
)

var white = booth.Colour{255, 255, 255}

func imageOf(m *image.NRGBA) *art.Image {
	return art.Ready("test", "", nil, m)
}

func checks(side, square int) *art.Image {
	m := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			c := color.NRGBA{A: 255}
			if (x/square+y/square)%2 == 0 {
				c = color.NRGBA{255, 255, 255, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return imageOf(m)
}

// A black and white checkerboard too far away to be told apart is the grey of half the light everywhere: 188, the
// rounded 255·Signal(0.5) of IEC 61966-2-1; and it stays so as the eye moves, which is to say that it does not shimmer.
func TestFarChecksAreTheirMean(t *testing.T) {
	for _, turn := range []float64{0, 1.2, 1.45} {
		s := new(stand)
		f := geom.Upright(geom.Vec{Z: -9}, geom.Vec{Z: 1}).Turned(turn).Moved(geom.Vec{X: -1})
		s.add(booth.Part{}, geom.ImageRect(geom.Rect(f, 0, 0.5, 2, 2.5)), booth.Look{Colour: white, Image: checks(1024, 1)}, full)
		st := s.stage()
		for step := range 3 {
			v := straight
			v.Stand.X = 0.003 * float64(step)
			o := Options{Width: 300, Height: 300}
			m, ids := st.Draw(v, o), st.IDs(v, o)
			pixels := 0
			for y := 1; y < 299; y++ {
				for x := 1; x < 299; x++ {
					if i := y*300 + x; ids[i] == 0 && ids[i-1] == 0 && ids[i+1] == 0 && ids[i-300] == 0 && ids[i+300] == 0 {
						pixels++
						if c := m.NRGBAAt(x, y); c.R < 187 || c.R > 189 || c.G != c.R || c.B != c.R {
							t.Fatalf("turned %v, pixel %d, %d is %v, want 188", turn, x, y, c)
						}
					}
				}
			}
			if pixels < 50 {
				t.Fatalf("turned %v: only %d pixels", turn, pixels)
			}
		}
	}
}

// Every size of the footprint, from a texel to hundreds, gives fine stripes their mean, and keeps the mean brightness of
// a picture of chance.
func TestMeanKeepsTheMean(t *testing.T) {
	noise := image.NewNRGBA(image.Rect(0, 0, 301, 211))
	state, want := uint32(1), 0.0
	for i := range noise.Pix {
		state = state*1664525 + 1013904223
		noise.Pix[i] = uint8(state >> 24)
		if i%4 == 3 {
			noise.Pix[i] = 255
		} else if i%4 == 0 {
			want += float64(colour.Light(noise.Pix[i])) / (301 * 211)
		}
	}
	p := newPyramid(noise)
	for _, size := range []float64{1, 1.5, 2, 3, 3.9, 4.1, 7, 20, 55} {
		var w window
		w.set(&p, footprint{ux: size / 301, vy: size / 211}, fine.texels)
		sum, n := 0.0, 0
		for y := size / 2; y < 211; y += size {
			for x := size / 2; x < 301; x += size {
				sum += float64(w.at(x/301, y/211).r)
				n++
			}
		}
		if got := sum / float64(n); math.Abs(got-want) > 0.02*want {
			t.Errorf("footprint %v texels: mean light %.4f, want %.4f", size, got, want)
		}
	}
}

// The blur is that of the pixel: how the light grows as a footprint is moved over an edge between black and white has
// the variance of the pixel's width, size²/12, on average over where the edge falls on the levels' texels.
func TestMeanIsAsSharpAsThePixel(t *testing.T) {
	var edges [16]pyramid
	for e := range edges {
		m := image.NewNRGBA(image.Rect(0, 0, 512, 8))
		for i := range m.Pix {
			if i%4 == 3 || i/4%512 >= 248+e {
				m.Pix[i] = 255
			}
		}
		edges[e] = newPyramid(m)
	}
	for _, size := range []float64{2, 2.5, 3, 3.99, 4.01, 6, 7.99, 8.01, 13, 30} {
		variance, step := 0.0, size/64
		for e, p := range edges {
			var w window
			w.set(&p, footprint{ux: size / 512, vy: 1.0 / 8}, fine.texels)
			was := float32(0)
			for d := -3 * size; d < 3*size; d += step {
				is := w.at((float64(248+e)+d)/512, 0.5).r
				variance += float64(is-was) * (d - step/2) * (d - step/2) / float64(len(edges))
				was = is
			}
		}
		if ideal := size * size / 12; math.Abs(variance/ideal-1) > 0.05 {
			t.Errorf("footprint %v texels: variance %.3f, a pixel of that width has %.3f", size, variance, ideal)
		}
	}
}

// A few texels, much magnified: the middle of each keeps its colour, and no colour appears that was not there.
func TestMagnifiedKeepsColours(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 3, 2))
	texels := []color.NRGBA{{200, 30, 40, 255}, {10, 10, 10, 255}, {240, 240, 250, 255}, {0, 255, 0, 255}, {90, 120, 150, 255}, {255, 0, 255, 255}}
	for i, c := range texels {
		m.SetNRGBA(i%3, i/3, c)
	}
	s := new(stand)
	s.add(booth.Part{}, geom.ImageRect(quad(-1.5+0.5/101, 0.5, 1.5+0.5/101, 2.5, -2)), booth.Look{Colour: white, Image: imageOf(m)}, full)
	got := s.stage().Draw(straight, Options{Width: 404, Height: 404}) // 101 pixels a texel
	for i, want := range texels {
		c := got.NRGBAAt(101*(i%3)+101, 101*(i/3)+151)
		for k, d := range []int{int(c.R) - int(want.R), int(c.G) - int(want.G), int(c.B) - int(want.B)} {
			if d < -1 || d > 1 {
				t.Errorf("texel %d is %v, want %v (channel %d)", i, c, want, k)
			}
		}
	}
	for x := 51; x < 353; x++ { // across the upper row nothing is greener than its ends
		if c := got.NRGBAAt(x, 110); c.G > 241 {
			t.Fatalf("pixel %d of the upper row is %v", x, c)
		}
	}
}

// A work in full light, square on, about one texel to a pixel, looks like its image: the mean CIEDE2000 difference is
// no more than 1, which a careful eye just begins to see.
func TestWorkLooksLikeItsImage(t *testing.T) {
	const w, h = 360, 240
	im := painted(w, h)
	for _, scale := range []float64{1, 1.03, 0.94} { // pixels a texel
		s := new(stand)
		half := geom.Vec{X: w * scale / 1000, Y: h * scale / 1000}
		s.add(booth.Part{}, geom.ImageRect(quad(-half.X, 1.5-half.Y, half.X, 1.5+half.Y, -1)), booth.Look{Colour: white, Image: im}, full)
		m := s.stage().Draw(straight, Options{Width: 1000, Height: 260})
		sum, worst, n := 0.0, 0.0, 0
		for y := 1; y < h-1; y++ {
			for x := 1; x < w-1; x++ {
				a := im.Pixels().NRGBAAt(x, y)
				b := m.NRGBAAt(int(500+(float64(x)+0.5-w/2)*scale), int(130+(float64(y)+0.5-h/2)*scale))
				d := colour.Difference(colour.LabOf(a.R, a.G, a.B), colour.LabOf(b.R, b.G, b.B))
				sum, worst, n = sum+d, max(worst, d), n+1
			}
		}
		t.Logf("%v pixels a texel: mean %.3f, worst %.2f", scale, sum/float64(n), worst)
		if mean := sum / float64(n); mean > 1 {
			t.Errorf("%v pixels a texel: mean difference %.3f", scale, mean)
		}
	}
}

func TestLightAndColour(t *testing.T) {
	s := new(stand)
	// Half the light on grey 188, which itself sends back half: a quarter is 137, 255·Signal(0.2514).
	half := func(geom.Vertex) [3]float32 { return [3]float32{0.5, 1, 0} }
	s.add(booth.Part{}, flatMesh(quad(-1, 0.5, 1, 2.5, -1)), booth.Look{Colour: booth.Colour{188, 188, 188}}, half)
	if c := s.stage().Draw(straight, Options{Width: 32, Height: 32}).NRGBAAt(16, 16); c.R < 137 || c.R > 138 || c.G != 188 || c.B != 0 || c.A != 255 {
		t.Errorf("got %v, want 137, 188, 0", c)
	}
}

// Half-transparent red shows half of the white beneath it, in light.
func TestTransparentImage(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	for i := range 16 {
		m.SetNRGBA(i%4, i/4, color.NRGBA{255, 0, 0, 128})
	}
	s := new(stand)
	s.add(booth.Part{}, geom.ImageRect(quad(-1, 0.5, 1, 2.5, -1)), booth.Look{Colour: white, Image: imageOf(m)}, full)
	c := s.stage().Draw(straight, Options{Width: 32, Height: 32}).NRGBAAt(16, 16)
	if c.R != 255 || c.G < 186 || c.G > 189 || c.G != c.B {
		t.Errorf("got %v, want about 255, 188, 188", c)
	}
}

// A part of a larger image, and one whose sizes are odd.
func TestSubImage(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 50, 40))
	for y := range 40 {
		for x := range 50 {
			c := color.NRGBA{255, 0, 0, 255}
			if x >= 11 && x < 42 && y >= 7 && y < 34 {
				c = color.NRGBA{0, 0, 255, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	s := new(stand)
	part := m.SubImage(image.Rect(11, 7, 42, 34)).(*image.NRGBA)
	s.add(booth.Part{}, geom.ImageRect(quad(-1, 0.5, 1, 2.5, -1)), booth.Look{Colour: white, Image: imageOf(part)}, full)
	st := s.stage()
	for _, side := range []int{7, 32, 90} {
		got := st.Draw(straight, Options{Width: side, Height: side})
		for i := 0; i < len(got.Pix); i += 4 {
			if got.Pix[i] != 0 || got.Pix[i+2] != 255 {
				t.Fatalf("%d pixels wide: pixel %d is %v", side, i/4, got.Pix[i:i+4])
			}
		}
	}
}
