package model

import (
	"encoding/json"
	"fmt"
	"image"
	"math"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/props/art"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/texturetransform"
	"github.com/qmuntal/gltf/modeler"
)

// finish is the colour and the picture of a primitive: glTF's base colour. How it shines is not drawn.
func (r *reader) finish(p *Piece, of *gltf.Primitive, vertices []geom.Vertex) error {
	base := [4]float64{1, 1, 1, 1}
	if of.Material == nil {
		return r.tinted(p, of, base)
	}
	if *of.Material < 0 || *of.Material >= len(r.doc.Materials) {
		return bad(exportHint, "%s is damaged: %v", r.name, errOut)
	}
	m := r.doc.Materials[*of.Material]
	p.TwoSided = m.DoubleSided
	if m.PBRMetallicRoughness == nil {
		return r.tinted(p, of, base)
	}
	base = m.PBRMetallicRoughness.BaseColorFactorOrDefault()
	t := m.PBRMetallicRoughness.BaseColorTexture
	if t == nil {
		return r.tinted(p, of, base)
	}
	if err := r.laid(p, of, t, vertices); err != nil {
		return err
	}
	image, err := r.picture(t.Index, p.Repeats)
	if err != nil {
		return err
	}
	if m.AlphaMode != gltf.AlphaOpaque && image.seeThrough {
		return bad("take another model, or one whose leaves or holes are cut out as shapes", "%s has a picture that is see-through in places, which cannot be drawn", r.name)
	}
	p.Image = image.Image
	return r.tinted(p, of, base)
}

// tinted gives a piece its colour in linear light, with the mean of those of its corners if they have some.
func (r *reader) tinted(p *Piece, of *gltf.Primitive, base [4]float64) error {
	if n, ok := of.Attributes[gltf.COLOR_0]; ok {
		colours, err := modeler.ReadColor64(r.doc, r.doc.Accessors[n], nil)
		if err != nil {
			return bad(exportHint, "%s is damaged: its colours cannot be read", r.name)
		}
		for k := range 3 {
			sum := 0.0
			for _, c := range colours {
				sum += float64(c[k]) / math.MaxUint16
			}
			base[k] *= sum / float64(len(colours))
		}
	}
	for k := range 3 {
		p.Colour[k] = colour.Byte(float32(max(0, min(1, base[k]))))
	}
	return nil
}

// laid reads where on a picture the vertices are (glTF 2.0, 3.9.2, and KHR_texture_transform), and whether it goes on beyond its edges.
func (r *reader) laid(p *Piece, of *gltf.Primitive, t *gltf.TextureInfo, vertices []geom.Vertex) error {
	set := t.TexCoord
	move := texturetransform.TextureTranform{Scale: texturetransform.DefaultScale}
	switch e := t.Extensions[texturetransform.ExtensionName].(type) {
	case *texturetransform.TextureTranform:
		move = *e
	case json.RawMessage:
		return bad(exportHint, "%s is damaged: how its picture is laid on it cannot be read", r.name)
	}
	if move.TexCoord != nil {
		set = *move.TexCoord
	}
	n, ok := of.Attributes[fmt.Sprintf("TEXCOORD_%d", set)]
	if !ok {
		return nil
	}
	coords, err := modeler.ReadTextureCoord(r.doc, r.doc.Accessors[n], nil)
	if err != nil || len(coords) < len(vertices) {
		return bad(exportHint, "%s is damaged: how its picture is laid on it cannot be read", r.name)
	}
	sin, cos := math.Sincos(move.Rotation)
	const edge, most = 0.002, 1000 // widths of the picture
	for i := range vertices {
		u, v := float64(float64(coords[i][0])*move.Scale[0]), float64(float64(coords[i][1])*move.Scale[1])
		u, v = float64(cos*u)+float64(sin*v)+move.Offset[0], float64(cos*v)-float64(sin*u)+move.Offset[1]
		if !(math.Abs(u) < most && math.Abs(v) < most) {
			return bad(exportHint, "%s is damaged: its picture is laid far beside it", r.name)
		}
		vertices[i].U, vertices[i].V = u, v
		p.Repeats = p.Repeats || min(u, v) < -edge || max(u, v) > 1+edge
	}
	return nil
}

// picture is one of the file's.
type picture struct {
	*art.Image
	seeThrough bool
}

// picture reads the image of a texture, once: opaque, and as a square whose side is a power of two if it is to repeat.
func (r *reader) picture(n int, repeats bool) (p picture, err error) {
	key := [2]int{n, 0}
	if repeats {
		key[1] = 1
	}
	if p, ok := r.images[key]; ok {
		return p, nil
	}
	if len(r.images) == mostImages {
		return p, bad("put its pictures into one, which is called an atlas", "%s has more than %d pictures", r.name, mostImages)
	}
	file, err := r.encoded(n)
	if err != nil {
		return p, err
	}
	wish := art.Wish{Name: fmt.Sprintf("picture %d of %s", n+1, r.name), Side: imageSide}
	m, err := wish.Of(file)
	if err != nil {
		return p, err
	}
	p = picture{m, !m.Pixels().Opaque()}
	if repeats || p.seeThrough {
		p.Image = whole(m, repeats)
	}
	r.images[key] = p
	return p, nil
}

// encoded is the file of a texture's image, which is in the .glb itself.
func (r *reader) encoded(n int) ([]byte, error) {
	d := r.doc
	damaged := bad(exportHint, "%s is damaged: a picture of it is missing", r.name)
	if n < 0 || n >= len(d.Textures) || d.Textures[n].Source == nil {
		return nil, damaged
	}
	i := *d.Textures[n].Source
	if i < 0 || i >= len(d.Images) {
		return nil, damaged
	}
	im := d.Images[i]
	switch {
	case im.BufferView != nil && *im.BufferView >= 0 && *im.BufferView < len(d.BufferViews):
		file, err := modeler.ReadBufferView(d, d.BufferViews[*im.BufferView])
		if err != nil {
			return nil, damaged
		}
		return file, nil
	case im.IsEmbeddedResource():
		file, err := im.MarshalData()
		if err != nil {
			return nil, damaged
		}
		return file, nil
	case im.URI != "":
		return nil, bad("export it as a .glb with its pictures in it", "%s is not whole: a picture of it is in another file", r.name)
	}
	return nil, damaged
}

// whole is a picture without its transparency, as glTF shows it, and if it repeats as a square whose side is a power of two.
func whole(m *art.Image, repeats bool) *art.Image {
	size := image.Pt(m.Width, m.Height)
	name := m.Name
	if repeats {
		side := imageSide
		for side > 1 && side > max(size.X, size.Y) {
			side /= 2
		}
		size, name = image.Pt(side, side), name+", repeated"
	}
	return art.Drawn(name, size, func(to *image.NRGBA) {
		from := m.Pixels()
		opaque := &image.NRGBA{Pix: append([]byte(nil), from.Pix...), Stride: from.Stride, Rect: from.Rect}
		for i := 3; i < len(opaque.Pix); i += 4 {
			opaque.Pix[i] = 255
		}
		copy(to.Pix, art.Shrink(opaque, size).Pix)
	})
}
