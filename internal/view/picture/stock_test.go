//go:build amd64

package picture

import (
	"testing"

	"github.com/fogleman/fauxgl"
)

// BenchmarkStock is the same booth with fauxgl's own loop, Phong shader and image textures, at four times the width
// and height, which is as many samples a pixel as Draw takes; for comparison only. That loop does not return on arm64.
func BenchmarkStock(b *testing.B) {
	s := fair(1600).stage()
	c := cameraFor(entrance, s.filled(Options{}))
	var textures []fauxgl.Texture
	var meshes []*fauxgl.Mesh
	lit := fair(1600).lit
	for i, u := range s.surfaces {
		var m fauxgl.Mesh
		for _, f := range u.facets {
			for _, t := range f.corners[:f.sides-2] {
				m.Triangles = append(m.Triangles, fauxgl.NewTriangle(u.vertices[t[0]], u.vertices[t[1]], u.vertices[t[2]]))
			}
		}
		meshes = append(meshes, &m)
		var texture fauxgl.Texture
		if im := lit.Surfaces[i].Look.Image; im != nil {
			texture = fauxgl.NewImageTexture(im.Pixels())
		}
		textures = append(textures, texture)
	}
	for b.Loop() {
		dc := fauxgl.NewContext(4*1920, 4*1080)
		for i, m := range meshes {
			shader := fauxgl.NewPhongShader(c.matrix, fauxgl.Vector{X: 0.3, Y: 0.6, Z: 0.74}, vector(c.eye))
			shader.Texture = textures[i]
			dc.Shader = shader
			dc.Cull = fauxgl.CullBack
			if s.surfaces[i].twoSided {
				dc.Cull = fauxgl.CullNone
			}
			dc.DrawMesh(m)
		}
	}
}
