package check

import (
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/rules"
)

var shape = Check{
	Name: "shape", Doc: "Every photograph has the shape of the work's stated size, so that nothing is stretched.",
	Source: rules.ShapeSlack.Source,
	Run: func(p *Pass) {
		slack := rules.ShapeSlack.In(p.Plan.Rules)
		for _, w := range p.Works {
			k := w.Work
			if k.Whole != nil && k.ImageAt == k.Whole.Work.ImageAt { // one photograph of all its parts
				if k.Part > 1 {
					continue
				}
				k = k.Itself()
			}
			if k.Image == nil || k.Image.Height == 0 || w.Skinned { // one that has a shape of its own is not drawn from its photograph
				continue
			}
			size := func(h, w float64) string { return unit.Size{A: unit.Length(h), B: unit.Length(w)}.Format(p.Plan.Units) }
			image := float64(k.Image.Width) / float64(k.Image.Height)
			off := stretch(image, k.Width/k.Height)
			f := Finding{At: k.ImageAt.String(), Figure: shares(off, slack), Source: rules.ShapeSlack.Source}
			switch {
			case off <= slack:
			case stretch(image, k.Height/k.Width) <= slack:
				is, stated := "wide", "tall"
				if image < 1 {
					is, stated = stated, is
				}
				p.report(Fail, w.Part, f, "The photograph %s is %s but %s is %s (height x width): did you mean %s?", k.Image.Name, is, size(k.Height, k.Width), stated, size(k.Width, k.Height))
			default:
				p.report(Caution, w.Part, f, "The photograph %s is stretched by %s to fit %s (height x width): crop the photograph to the work, or measure the work again", k.Image.Name, percent(off), size(k.Height, k.Width))
			}
		}
	},
}

// stretch is by how much one shape is wider or taller than the other, 0 for the same.
func stretch(a, b float64) float64 { return math.Max(a/b, b/a) - 1 }
