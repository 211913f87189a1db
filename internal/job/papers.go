package job

import (
	"io"

	"boothmock/internal/handout/pack"
	"boothmock/internal/plan/booth"
)

// WritePaper writes one of the papers about the works.
func WritePaper(m *Mockup, w io.Writer, which pack.Paper, o pack.Sheets) error {
	if which.Name == "insurance" {
		o.Small = map[booth.ID][]byte{}
		for _, l := range m.Plan.Catalogue() {
			if l.Work.Image == nil {
				continue
			}
			const side = 240 // pixels: at 16 mm, 380 to the inch
			file, err := asJPEG(shrunk(l.Work.Image.Pixels(), side), 80)
			if err != nil {
				return err
			}
			o.Small[l.ID] = file
		}
	}
	switch which.Name {
	case "packing":
		o.Loads = m.SetUp().Loads
	case "days":
		o.Days = days(m)
	case "stock", "tags":
		o.Sheet = m.Sheet()
	}
	return pack.WritePaper(w, m.Plan, which, o)
}
