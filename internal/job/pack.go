package job

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"io"

	"boothmock/internal/pack"
	"boothmock/internal/picture"
)

// WritePack writes the print pack, with the first view as its cover picture; strips adds the full-size strips.
func WritePack(m *Made, w io.Writer, strips bool) error {
	o := pack.Options{Strips: strips}
	if len(m.Plan.Views) > 0 {
		var b bytes.Buffer
		// 1440 pixels across a page are about 200 to the inch: sharp on paper, and small enough to send.
		img := m.Stage.Draw(m.Plan.Views[0], picture.Options{Width: 1440, Height: 810})
		if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 88}); err != nil {
			return fmt.Errorf("the cover picture cannot be made: %w", err)
		}
		o.Picture = b.Bytes()
	}
	return pack.Write(w, m.Plan, m.Sheet, o)
}
