package picture

import (
	"bytes"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"strings"
	"testing"
)

// A JPEG of a limited size keeps within it, is as good as it can be within it, and is refused where nothing worth looking at fits.
func TestJPEGWithin(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	r := rand.New(rand.NewPCG(1, 2))
	for i := range m.Pix {
		m.Pix[i] = uint8(128 + i/400%64 + r.IntN(48))
		if i%4 == 3 {
			m.Pix[i] = 255
		}
	}
	size := func(quality int) int {
		var b bytes.Buffer
		if err := WriteJPEG(&b, m, quality); err != nil {
			t.Fatal(err)
		}
		return b.Len()
	}
	for q := leastQuality; q < bestQuality; q += 7 {
		for _, most := range []int{size(q), size(q) + 1, size(q+1) - 1} {
			var b bytes.Buffer
			if err := WriteJPEGWithin(&b, m, most); err != nil {
				t.Fatal(err)
			}
			if b.Len() > most || b.Len() < size(q) {
				t.Errorf("of %d bytes at most, and quality %d with %d within it, it has %d", most, q, size(q), b.Len())
			}
			if c, err := jpeg.DecodeConfig(&b); err != nil || c.Width != 400 || c.Height != 300 {
				t.Errorf("%v %+v", err, c)
			}
		}
	}
	var b bytes.Buffer
	if err := WriteJPEGWithin(&b, m, size(leastQuality)-1); err == nil || b.Len() > 0 || !strings.Contains(err.Error(), "ask for fewer pixels") {
		t.Errorf("%d bytes, %v", b.Len(), err)
	}
	if err := WriteJPEGWithin(&b, m, 1<<30); err != nil || b.Len() != size(bestQuality) {
		t.Errorf("%d bytes without a limit, %v", b.Len(), err)
	}
}
