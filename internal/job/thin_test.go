package job

import (
	"bytes"
	"image"
	"image/jpeg"
	"testing"

	"boothmock/internal/find/order"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
)

// A page that is too large has smaller pictures of works and steps; those that others were given stay, and a step without one has none.
func TestPagesAreThinned(t *testing.T) {
	file, err := asJPEG(image.NewNRGBA(image.Rect(0, 0, 90, 60)), 80)
	if err != nil {
		t.Fatal(err)
	}
	steps := map[order.Which][][]byte{order.SetUp: {file, nil}}
	v := page.Values{Works: map[booth.ID][]byte{"work/a": file}, Steps: steps}
	if err := thin(&v); err != nil {
		t.Fatal(err)
	}
	for _, got := range [][]byte{v.Works["work/a"], v.Steps[order.SetUp][0]} {
		if c, err := jpeg.DecodeConfig(bytes.NewReader(got)); err != nil || c.Width != 60 || c.Height != 40 {
			t.Errorf("%d x %d, %v", c.Width, c.Height, err)
		}
	}
	if !bytes.Equal(steps[order.SetUp][0], file) || len(v.Steps[order.SetUp]) != 2 || v.Steps[order.SetUp][1] != nil {
		t.Errorf("%d steps", len(v.Steps[order.SetUp]))
	}
}
