package job

import (
	"fmt"
	"io"

	"boothmock/internal/handout/pack"
)

// WritePack writes the print pack, with the first view as its cover picture; strips adds the full-size strips.
func WritePack(m *Mockup, w io.Writer, strips bool) error {
	o := pack.Options{Report: m.Report(), Sales: sales(m), Days: days(m), Strips: strips}
	if len(m.Plan.Views) > 0 {
		// 1440 pixels across a page are about 200 to the inch: sharp on paper, and small enough to send.
		file, err := asJPEG(m.opening(1440, 810), 88)
		if err != nil {
			return fmt.Errorf("the cover picture cannot be made: %w", err)
		}
		o.Picture = file
	}
	return pack.Write(w, m.Plan, m.Sheet(), o)
}
