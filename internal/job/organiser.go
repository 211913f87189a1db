package job

import (
	"io"

	"boothmock/internal/handout/pack"
)

// WriteOrganiser writes the paper for the organiser of the fair. Its drawings are of the booth without tags, signs and people,
// so that no price is on any of them.
func WriteOrganiser(m *Mockup, w io.Writer) error {
	bare := *m.Plan
	bare.Parts = nil
	for _, part := range m.Plan.Parts {
		if part.Lettering == nil && !part.Moving {
			bare.Parts = append(bare.Parts, part)
		}
	}
	plain, err := New(&bare)
	if err != nil {
		return err
	}
	var drawings []pack.Drawing
	for _, p := range Pictures(&bare) {
		if p.View != nil {
			continue
		}
		img := p.Draw(plain, Look{})
		file, err := asJPEG(img, 88)
		if err != nil {
			return err
		}
		d := pack.Drawing{Words: p.Doc, JPEG: file, Width: img.Rect.Dx(), Height: img.Rect.Dy()}
		if p.Name == "plan" { // first, though it is the last to be drawn
			drawings = append([]pack.Drawing{d}, drawings...)
			continue
		}
		drawings = append(drawings, d)
	}
	return pack.WriteOrganiser(w, m.Plan, m.Sheet(), clearWays(m), drawings)
}

// clearWays are the way in and the room to turn, in words.
func clearWays(m *Mockup) []string {
	c := m.Checks()
	var out []string
	if s := c.WayInWords(m.Plan); s != "" {
		out = append(out, s)
	}
	if c.Circle != nil {
		out = append(out, "A circle of "+m.Plan.Measure(c.Circle.Diameter)+" is clear inside, to turn in with a wheelchair.")
	}
	return out
}
