package film_test

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"
	"math"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/find/check"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/film"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// The walk begins in the aisle, ends where the way ends, is never faster than a stroll, and never turns the head faster
// than a quarter turn a second, nor jerks it.
func TestWalk(t *testing.T) {
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3, Aisle: 3.6}, Eyes: []booth.Eye{{Name: "adult", Height: 1.58}}}
	in := []way.Point{{X: 0, Z: 1.8}, {X: 0.4, Z: 0.2}, {X: 0.2, Z: -1.6}}
	for name, in := range map[string][]way.Point{"in": in, "no way in": nil} {
		views := film.Walk(p, in)
		if n := len(views); n < 25 || n > 65 {
			t.Fatalf("%s: %d pictures", name, n)
		}
		end := geom.Vec{Z: 1.8}
		if in != nil {
			end = geom.Vec{X: 0.2, Z: -1.6}
		}
		if got := views[len(views)-1].Stand; got.Dist(end) > 1e-9 {
			t.Errorf("%s: the walk ends at %v", name, got)
		}
		if first := views[0].Stand; first.X > -2 || first.Z < 1 {
			t.Errorf("%s: the walk begins at %v", name, first)
		}
		turn := func(v booth.View) float64 { return math.Atan2(v.Look.X-v.Stand.X, v.Stand.Z-v.Look.Z) * 180 / math.Pi }
		before := 0.0
		for i := 1; i < len(views); i++ {
			if d := views[i].Stand.Dist(views[i-1].Stand); d > 1.2/film.PerSecond+1e-6 {
				t.Errorf("%s, picture %d: %.3f m in one step", name, i, d)
			}
			d := turn(views[i]) - turn(views[i-1])
			if math.Abs(d) > 90.0/film.PerSecond {
				t.Errorf("%s, picture %d: the head turns %.1f degrees", name, i, d)
			}
			if i > 1 && math.Abs(d-before) > 4 {
				t.Errorf("%s, picture %d: the turn changes from %.1f to %.1f degrees", name, i, before, d)
			}
			before = d
		}
	}
}

// frames are pictures of many colours that move.
func frames(n int) []*image.NRGBA {
	var out []*image.NRGBA
	for i := range n {
		m := image.NewNRGBA(image.Rect(0, 0, 160, 90))
		for y := range 90 {
			for x := range 160 {
				u, v := float64(x+4*i)/160, float64(y)/90
				s := 40 * math.Sin(9*u) * math.Cos(7*v)
				m.SetNRGBA(x, y, color.NRGBA{uint8(110 + 60*math.Sin(3*u) + s), uint8(120 + 70*v - s), uint8(130 + 90*math.Cos(2*u)*v), 255})
			}
		}
		out = append(out, m)
	}
	return out
}

func written(t *testing.T, fs []*image.NRGBA) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := film.WriteGIF(&b, fs); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// off is the mean colour difference (CIEDE2000) of a frame from what was written of it.
func off(a *image.NRGBA, b image.Image) float64 {
	sum, n := 0.0, 0
	for y := 0; y < a.Rect.Dy(); y += 2 {
		for x := 0; x < a.Rect.Dx(); x += 2 {
			c, d := a.NRGBAAt(x, y), color.NRGBAModel.Convert(b.At(x, y)).(color.NRGBA)
			sum += colour.Difference(colour.LabOf(c.R, c.G, c.B), colour.LabOf(d.R, d.G, d.B))
			n++
		}
	}
	return sum / float64(n)
}

func TestWrite(t *testing.T) {
	fs := frames(12)
	file := written(t, fs)
	g, err := gif.DecodeAll(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Image) != 12 || g.LoopCount != 0 || g.Delay[0] != 10 || g.Delay[11] <= g.Delay[0] {
		t.Fatalf("%d pictures, loop %d, shown for %v", len(g.Image), g.LoopCount, g.Delay)
	}
	for i, m := range g.Image {
		if m.Rect != fs[i].Rect {
			t.Fatalf("picture %d is %v", i, m.Rect)
		}
		if d := off(fs[i], m); d > 2.2 {
			t.Errorf("picture %d: colours are off by %.2f on average", i, d)
		}
	}
	if again := written(t, frames(12)); !bytes.Equal(file, again) {
		t.Error("the same pictures gave other bytes")
	}
	// A picture of few colours keeps them.
	plain := image.NewNRGBA(image.Rect(0, 0, 64, 64))
	for i := range plain.Pix {
		plain.Pix[i] = 255
		if i%4 != 3 && i/4%64 >= 32 {
			plain.Pix[i] = uint8(40 * (i % 4))
		}
	}
	g, err = gif.DecodeAll(bytes.NewReader(written(t, []*image.NRGBA{plain})))
	if err != nil {
		t.Fatal(err)
	}
	if d := off(plain, g.Image[0]); d > 0.01 {
		t.Errorf("two colours are off by %.3f", d)
	}
}

// The film of the demo fits into a mail, and its colours are near to those of the pictures.
func TestDemo(t *testing.T) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	walk := film.Walk(p, check.Run(p).Way)
	if n := len(walk); n < 40 || n > 65 {
		t.Errorf("%d pictures at %d a second", n, film.PerSecond)
	}
	const part = 6 // every sixth picture is enough to measure by
	var some []booth.View
	for i := 0; i < len(walk); i += part {
		some = append(some, walk[i])
	}
	fs := film.Shoot(picture.NewStage(p, light.Bake(p)), some, inside)
	file := written(t, fs)
	if size := len(file) * len(walk) / len(some); size > film.Most {
		t.Errorf("about %d bytes", size)
	}
	g, err := gif.DecodeAll(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i, m := range g.Image {
		sum += off(fs[i], m)
	}
	if d := sum / float64(len(fs)); d > 2 {
		t.Errorf("colours are off by %.2f on average", d)
	} else {
		t.Logf("about %d bytes, colours off by %.2f", len(file)*len(walk)/len(some), d)
	}
}

func BenchmarkShoot(b *testing.B) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	s := picture.NewStage(p, light.Bake(p))
	walk := film.Walk(p, check.Run(p).Way)
	for b.Loop() {
		film.Shoot(s, walk[:8], inside)
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/8, "ms/picture")
}

func BenchmarkWrite(b *testing.B) {
	fs := frames(50)
	for b.Loop() {
		if err := film.WriteGIF(new(bytes.Buffer), fs); err != nil {
			b.Fatal(err)
		}
	}
}

// inside is the exposure for whoever stands in the booth.
func inside(booth.View) [3]float32 { return [3]float32{} }
