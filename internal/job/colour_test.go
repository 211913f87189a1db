package job_test

import (
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// match is how a work's colours in a picture compare with those of its image.
type match struct {
	pixels int
	off    float64 // mean CIEDE2000
	hue    float64 // mean turn of the hue angle in degrees, where there is a hue to speak of
	worst  float64 // greatest turn of the mean hue of any of 16 slices of the hue circle, in degrees
}

// straightOn draws a work from right before its middle and holds every second row of its pixels against its image.
func straightOn(p *booth.Plan, s *picture.Stage, work *booth.Part) match {
	face := work.Work.Face
	mid := face.Centre()
	away := face.Normal().Mul(0.85 * max(work.Work.Width, work.Work.Height*16/9))
	eye := mid.Add(away)
	v := booth.View{Stand: eye, Height: eye.Y, Look: mid, Across: 2 * math.Atan(0.5/0.85*1.04)}
	o := picture.Options{Width: 640, Height: 360}
	m, ids := s.Draw(v, o), s.IDs(v, o)
	x0, y0, _, _ := s.Project(v, o, face[3]) // upper left
	x1, y1, _, _ := s.Project(v, o, face[1]) // lower right
	var r match
	var turns, weights [16]float64
	for y := int(y0) + 2; y < int(y1)-1; y += 2 {
		for x := int(x0) + 2; x < int(x1)-1; x++ {
			if part := ids[y*o.Width+x]; part < 0 || &p.Parts[part] != work {
				continue
			}
			own := under(work.Work.Image.Pixels(), (float64(x)-x0)/(x1-x0), (float64(y)-y0)/(y1-y0), 1/(x1-x0), 1/(y1-y0))
			shown := labAt(m, x, y)
			r.pixels++
			r.off += colour.Difference(own, shown)
			if chroma := math.Hypot(own.A, own.B); chroma > 10 {
				a, b := math.Atan2(own.B, own.A), math.Atan2(shown.B, shown.A)
				turn := math.Remainder(b-a, 2*math.Pi) * 180 / math.Pi
				k := int((a+math.Pi)/(2*math.Pi)*16) % 16
				turns[k], weights[k] = turns[k]+turn, weights[k]+1
			}
		}
	}
	r.off /= float64(r.pixels)
	sum, n := 0.0, 0.0
	for k := range turns {
		sum, n = sum+turns[k], n+weights[k]
		if weights[k] > 100 {
			r.worst = max(r.worst, math.Abs(turns[k]/weights[k]))
		}
	}
	r.hue = sum / max(n, 1)
	return r
}

// under is the mean colour of an image, in linear light, over the rectangle from u, v of so much of its width and height.
func under(m *image.NRGBA, u, v, du, dv float64) colour.Lab {
	const n = 8
	var sum [3]float64
	for j := range n {
		for i := range n {
			x := int((u + du*(float64(i)+0.5)/n) * float64(m.Rect.Dx()))
			y := int((v + dv*(float64(j)+0.5)/n) * float64(m.Rect.Dy()))
			c := m.NRGBAAt(m.Rect.Min.X+min(max(x, 0), m.Rect.Dx()-1), m.Rect.Min.Y+min(max(y, 0), m.Rect.Dy()-1))
			sum[0] += float64(colour.Light(c.R))
			sum[1] += float64(colour.Light(c.G))
			sum[2] += float64(colour.Light(c.B))
		}
	}
	return colour.LabOf(colour.Byte(float32(sum[0]/n/n)), colour.Byte(float32(sum[1]/n/n)), colour.Byte(float32(sum[2]/n/n)))
}

// One work in even light has its image's own colours: from the file through the daylight, the exposure, the tone and the
// sampling to the pixel.
func TestColourInEvenLight(t *testing.T) {
	const text = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, ground: gravel, neighbours: none}
walls:
  - {side: back, hang on: panel, top: 82}
works:
  - {name: work, title: Work, image: art/%s.jpg, size: %s, weight: 5lb, price: 1, wall: back, centre: 58}
`
	for _, w := range [][2]string{{"heron", "24 x 36"}, {"dahlias", "20 x 16"}, {"ferry", "18 x 24"}} {
		dir := t.TempDir()
		if err := os.Mkdir(filepath.Join(dir, "art"), 0o755); err != nil {
			t.Fatal(err)
		}
		file, err := os.ReadFile("../../scenes/art/" + w[0] + ".jpg")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "art", w[0]+".jpg"), file, 0o644); err != nil {
			t.Fatal(err)
		}
		scene := filepath.Join(dir, "scene.yaml")
		if err := os.WriteFile(scene, []byte(fmt.Sprintf(text, w[0], w[1])), 0o644); err != nil {
			t.Fatal(err)
		}
		p, err := job.Load(scene, job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		r := straightOn(p, picture.NewStage(p, light.Bake(p)), p.Part("work/work"))
		t.Logf("%s: %+v", w[0], r)
		if r.pixels < 20000 || r.off > 1 || math.Abs(r.hue) > 1 || r.worst > 2 {
			t.Errorf("%s: %+v", w[0], r)
		}
	}
}

// In the demo every work hangs in its own light. That may be brighter or darker; its hues stay.
func TestHueInTheDemo(t *testing.T) {
	m := demo(t)
	sum, n := 0.0, 0.0
	for i := range m.Plan.Parts {
		w := &m.Plan.Parts[i]
		if w.Work == nil || w.Work.Hung == nil { // one that leans cannot be drawn straight on by a level camera
			continue
		}
		r := straightOn(m.Plan, m.Stage(), w)
		t.Logf("%s: %+v", w.ID, r)
		if r.pixels < 3000 {
			t.Fatalf("%s: only %d pixels", w.ID, r.pixels)
		}
		if math.Abs(r.hue) > 1 || r.worst > 3 {
			t.Errorf("%s: the hue turns: %+v", w.ID, r)
		}
		sum, n = sum+r.off*w.Work.Face.Area(), n+w.Work.Face.Area()
	}
	if sum/n > 2 {
		t.Errorf("the works' colours are off by %.2f on average", sum/n)
	} else {
		t.Logf("all works, by area: %.2f", sum/n)
	}
}

// In no view of any scene does a work wash out: no more of its pixels are at the end of a channel than of its image.
func TestNothingWashesOut(t *testing.T) {
	long(t)
	scenes, err := filepath.Glob("../../scenes/*.yaml")
	if err != nil || len(scenes) < 5 {
		t.Fatal(scenes, err)
	}
	for _, file := range scenes {
		p, err := job.Load(file, job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		own := map[int]float64{} // share of an image's texels at the end of a channel, by part
		s := picture.NewStage(p, light.Bake(p))
		o := picture.Options{Width: 320, Height: 180, Quick: true}
		for _, v := range p.Views {
			img, ids := s.Draw(v, o), s.IDs(v, o)
			full, expected, n := 0.0, 0.0, 0.0
			outlines := map[int][][2]float64{}
			for i := range p.Parts {
				if w := p.Parts[i].Work; w != nil && w.Image != nil {
					outlines[i] = outlineOf(w, s, v, o)
				}
			}
			for i, part := range ids {
				if !inside(outlines[part], float64(i%o.Width)+0.5, float64(i/o.Width)+0.5) {
					continue
				}
				if _, ok := own[part]; !ok {
					own[part] = ended(p.Parts[part].Work.Image.Pixels())
				}
				n++
				expected += own[part]
				if c := img.Pix[4*i : 4*i+3]; max(c[0], c[1], c[2]) == 255 {
					full++
				}
			}
			if n == 0 && v.Name != "seat" {
				t.Errorf("%s, %s: no works are seen", filepath.Base(file), v.Name)
			}
			if n > 0 && (full-expected)/n > 0.001 {
				t.Errorf("%s, %s: %.2f %% of the works' pixels are at the end, %.2f %% of their images", filepath.Base(file), v.Name, 100*full/n, 100*expected/n)
			}
		}
	}
}

// outlineOf is where the corners of a work's picture are in the picture of a view; nil if one is behind the camera.
func outlineOf(w *booth.Work, s *picture.Stage, v booth.View, o picture.Options) [][2]float64 {
	var out [][2]float64
	for _, c := range w.Face {
		x, y, _, ok := s.Project(v, o, c)
		if !ok {
			return nil
		}
		out = append(out, [2]float64{x, y})
	}
	return out
}

// inside reports whether a pixel shows the picture of a work, not its frame or edge.
func inside(outline [][2]float64, x, y float64) bool {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (b[0]-a[0])*(y-a[1])-(b[1]-a[1])*(x-a[0]) > 0 { // counterclockwise, and y runs down
			return false
		}
	}
	return outline != nil
}

// ended is the share of an image's texels that have a channel at its end.
func ended(m *image.NRGBA) float64 {
	n := 0
	for i := 0; i < len(m.Pix); i += 4 {
		if max(m.Pix[i], m.Pix[i+1], m.Pix[i+2]) == 255 {
			n++
		}
	}
	return 4 * float64(n) / float64(len(m.Pix))
}
