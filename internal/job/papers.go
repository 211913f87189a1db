package job

import (
	"io"

	"boothmock/internal/handout/pack"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
)

// WritePaper writes one of the papers about the works.
func WritePaper(m *Mockup, w io.Writer, which pack.Paper, o pack.Sheets) error {
	if which.Name == "insurance" {
		o.Small = map[booth.ID][]byte{}
		add := func(id booth.ID, img *art.Image) error {
			if img == nil {
				return nil
			}
			const side = 240 // pixels: at 16 mm, 380 to the inch
			file, err := asJPEG(shrunk(img.Pixels(), side), 80)
			o.Small[id] = file
			return err
		}
		for _, part := range m.Plan.Parts {
			if part.Work != nil {
				if err := add(part.ID, part.Work.Image); err != nil {
					return err
				}
			}
		}
		for _, x := range m.Plan.Waiting {
			if err := add(x.ID, x.Work.Image); err != nil {
				return err
			}
		}
	}
	switch which.Name {
	case "packing":
		o.Loads = m.SetUp().Loads
	case "days":
		o.Days = days(m)
	case "stock":
		o.Stock = m.Sheet().StockSection()
	}
	return pack.WritePaper(w, m.Plan, which, o)
}
