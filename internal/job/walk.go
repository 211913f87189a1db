package job

import (
	"io"
	"slices"

	"boothmock/internal/handout/glb"
	"boothmock/internal/handout/page"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// WalkFacts are what the walk of package page reads besides its model, in a light of the mock-up's, ready for JSON.
func WalkFacts(m *Mockup, lit *light.Lit) any {
	ground := &light.Lit{Surfaces: slices.DeleteFunc(slices.Clone(lit.Surfaces), func(s light.Surface) bool { return !m.Plan.Parts[s.Part].Flat })}
	return page.Facts(page.Values{Plan: m.Plan, Checks: m.Checks(), Sheet: m.Sheet(), Behind: picture.NewStage(m.Plan, ground).Behind()})
}

// WriteWalk writes the booth's model for the walk in a light of the mock-up's, each image at the address that link gives.
func WriteWalk(m *Mockup, w io.Writer, lit *light.Lit, link func(*art.Image) string) error {
	return glb.WriteLinked(w, m.Plan, lit, link)
}

// ImageFile is an image as a file that shows it as the pictures do.
func ImageFile(i *art.Image) (mime string, file []byte, err error) { return glb.Embeddable(i) }
