package kinds

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"
	"testing/fstest"

	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// Drapes and a table's cloth show the photograph of the cloth at its true size: 40 in wide and square, its tile covers 7/8 of them. One
// photograph is one picture, however many cloths are made of it.
func TestPattern(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewNRGBA(image.Rect(0, 0, 64, 64))); err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{"cloth.png": {Data: b.Bytes()}}
	f, err := scene.Parse("a.yaml", []byte("units: in\ndrapes: {walls: [left, back], pattern: {image: cloth.png, width: 40}}\ntables: [{name: t, size: 40 x 20, pattern: {image: cloth.png, width: 20}}]\n"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatal(err)
	}
	left, back, table := p.Part("drape/left").Surfaces[0].Look, p.Part("drape/back").Surfaces[0].Look, p.Part("table/t").Surfaces[0].Look
	if left.Image == nil || left.Image != back.Image || left.Image != table.Image || !left.TwoSided || table.TwoSided {
		t.Errorf("%+v, %+v, %+v", left, back, table)
	}
	if math.Abs(left.Tile-35*0.0254) > 1e-9 || math.Abs(table.Tile-17.5*0.0254) > 1e-9 {
		t.Errorf("they cover %v and %v m", left.Tile, table.Tile)
	}
	if _, err := plan(t, "units: in\ndrapes: {pattern: {image: cloth.jpg, width: 40}}\n"); err == nil {
		t.Error("no fault")
	}
}
