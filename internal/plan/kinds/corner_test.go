package kinds

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// A red work photographed on a grey wall: with its corners, only red is left, in the shape of its size.
func TestCornersOfAWork(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			m.Set(x, y, color.RGBA{128, 128, 128, 255})
			if x > 100 && x < 300 && y > 50+x/10 && y < 250-x/10 {
				m.Set(x, y, color.RGBA{200, 30, 30, 255})
			}
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	build := func(corners string) (w, h int, edge color.NRGBA, err error) {
		fsys := fstest.MapFS{"a.jpg": {Data: b.Bytes()}}
		f, err := scene.Parse("a.yaml", []byte("units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 20 x 30, image: a.jpg, wall: back, corners: ["+corners+"]}]\n"))
		if err != nil {
			t.Fatal(err)
		}
		p, err := Build(f, rules.Book{}, fsys)
		if err != nil {
			return 0, 0, edge, err
		}
		im := p.Part("work/a").Work.Image
		return im.Width, im.Height, im.Pixels().NRGBAAt(2, 2), nil
	}
	w, h, edge, err := build("102 62, 298 81, 298 219, 102 238")
	if err != nil || w*2 != h*3 && w*2 != h*3+1 && w*2 != h*3-1 || edge.R < 180 || edge.G > 60 {
		t.Errorf("%d x %d, %v, %v", w, h, edge, err)
	}
	for corners, want := range map[string]string{
		"102 62, 298 81": `"a" has 2 corners`, "1 2 3, 4 5, 6 7, 8 9": "is not a corner",
		"102 62, 102 238, 298 219, 298 81": "the wrong way", "102 62, 298 81, 298 219, 102 999": "is not in a.jpg",
	} {
		if _, _, _, err := build(corners); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", corners, err, want)
		}
	}
}

// A corner is within a million pixels to all sides.
func TestCornersWithinReason(t *testing.T) {
	for text, ok := range map[string]bool{"999999 -999999": true, "-999999 999999": true, "1000001 0": false, "0 1000001": false, "-1000001 0": false, "0 -1000001": false, "1 2 3": false, "1 x": false} {
		var c Corner
		if err := c.UnmarshalText([]byte(text)); (err == nil) != ok {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Mesh panels are 0.61 m wide, padded ones 0.97: a fifth of one more than so many needs none (common practice, no source).
func TestPanelsOf(t *testing.T) {
	for _, c := range []struct {
		hold  booth.Hold
		width float64
		want  int
	}{{booth.Mesh, 0.3, 1}, {booth.Mesh, 4.19 * 0.61, 4}, {booth.Mesh, 4.21 * 0.61, 5}, {booth.Panel, 3.19 * 0.97, 3}, {booth.Panel, 3.21 * 0.97, 4}, {booth.Chains, 9, 1}} {
		if got := panelsOf(c.hold, c.width); got != c.want {
			t.Errorf("%s %v m wide: %d panels, want %d", c.hold, c.width, got, c.want)
		}
	}
}
