// Package picture draws a lit booth as a visitor's eye sees it: a z-buffer rasteriser (Catmull 1974) with sixteen samples a pixel, a
// hierarchical depth buffer (Greene, Kass and Miller, SIGGRAPH 1993), and textures read from mip chains (Williams, SIGGRAPH
// 1983) along the footprint of the pixel.
//
// It is the only package that knows the rasteriser, fauxgl. Its matrices, vertices and clipping are used as they are. Its
// triangle loop (DrawMesh, DrawTriangle, DrawLine) is not: it does not return on arm64 for a triangle with a level edge, and
// its picture depends on the timing of its goroutines. The loop in fill.go takes its place. It first finds which triangle
// each of sixteen samples of a pixel sees, then shades each triangle of a pixel once: so hidden surfaces cost little, and
// any number of cores gives the same bytes.
package picture

import (
	"maps"
	"sync"

	"github.com/fogleman/fauxgl"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
)

// Stage is a booth made ready to be drawn, any number of times and by several goroutines at once.
type Stage struct {
	plan     *booth.Plan
	surfaces []surface
	ground   ground
	sun      *light.Sun                // nil: it does not shine
	dusk     float32                   // see light.Lit
	pyramids map[*art.Content]*pyramid // of the images that lie on surfaces once
	textures map[*art.Content]*texture // of those that cover them over and over
}

// surface is one surface of a part. A vertex's Texture is its place on the image; its Color the light that arrives there, with what the
// sun would add in the place of A.
type surface struct {
	part     int
	material rgb         // its own colour
	tone     *light.Tone // nil: light is shown as it is
	image    *pyramid    // lies on the surface once
	texture  *texture    // covers it over and over; with neither it is plain
	twoSided bool
	glass    glass.Kind // a pane lies before it
	vertices []fauxgl.Vertex
	facets   []facet
}

// NewStage makes a booth ready. The plan and its light must not change afterwards.
func NewStage(p *booth.Plan, l *light.Lit) *Stage {
	return (&Stage{plan: p}).In(l)
}

// Next is a stage of another version of the booth. Images that both have are made ready once. s may be nil.
func (s *Stage) Next(p *booth.Plan, l *light.Lit) *Stage {
	next := &Stage{plan: p}
	if s != nil {
		next.pyramids, next.textures = map[*art.Content]*pyramid{}, map[*art.Content]*texture{}
		for i := range l.Surfaces {
			if im := l.Surfaces[i].Look.Image; im != nil {
				if y, ok := s.pyramids[im.Content]; ok {
					next.pyramids[im.Content] = y
				}
				if t, ok := s.textures[im.Content]; ok {
					next.textures[im.Content] = t
				}
			}
		}
	}
	return next.In(l)
}

// In is the stage in another light. Images are made ready once for both.
func (s *Stage) In(l *light.Lit) *Stage {
	s = &Stage{plan: s.plan, sun: l.Sun, dusk: l.Dusk, pyramids: maps.Clone(s.pyramids), textures: maps.Clone(s.textures)}
	if s.pyramids == nil {
		s.pyramids, s.textures = map[*art.Content]*pyramid{}, map[*art.Content]*texture{}
	}
	var wait sync.WaitGroup
	s.surfaces = make([]surface, len(l.Surfaces))
	for n := range l.Surfaces {
		f, u := &l.Surfaces[n], &s.surfaces[n]
		u.part, u.twoSided, u.material, u.tone, u.glass = f.Part, f.Look.TwoSided, linear(f.Look.Colour), f.Tone, f.Look.Glass
		unit := 1.0 // of texture coordinates to one width of the image
		if im := f.Look.Image; im != nil && f.Look.Tile > 0 {
			if s.textures[im.Content] == nil {
				t := new(texture)
				s.textures[im.Content] = t
				wait.Go(func() { *t = newTexture(im.Pixels()) })
			}
			u.texture, unit = s.textures[im.Content], f.Look.Tile
		} else if im != nil {
			if s.pyramids[im.Content] == nil {
				y := new(pyramid)
				s.pyramids[im.Content] = y
				wait.Go(func() { *y = newPyramid(im.Pixels()) })
			}
			u.image = s.pyramids[im.Content]
		}
		wait.Go(func() {
			vertices := make([]fauxgl.Vertex, len(f.Mesh.Vertices))
			for i, v := range f.Mesh.Vertices {
				vertices[i] = fauxgl.Vertex{
					Position: vector(v.P),
					Texture:  fauxgl.Vector{X: v.U / unit, Y: v.V / unit},
					Color:    lit(f.Light[i]).vertex(),
				}
				vertices[i].Color.A = 0
				if f.Sun != nil {
					vertices[i].Color.A = float64(f.Sun[i])
				}
			}
			u.assemble(f, vertices)
		})
	}
	wait.Wait()
	s.ground = s.groundOf(l)
	return s
}

// factor is what linear light makes of the surface's colour, exposed so many times brighter than for whoever stands in the booth.
func (u *surface) factor(c rgb, brighter [3]float32) rgb {
	if u.tone != nil {
		c = lit(u.tone.Of(c.numbers(), brighter))
	}
	return c.times(u.material)
}

func vector(v geom.Vec) fauxgl.Vector { return fauxgl.Vector{X: v.X, Y: v.Y, Z: v.Z} }
