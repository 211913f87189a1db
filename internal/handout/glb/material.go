package glb

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"boothmock/internal/basis/colour"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/unlit"
)

// material is what tells one glTF material from another. Surfaces of one look share it.
type material struct {
	colour   booth.Colour
	image    int // number of the texture, -1 for none
	twoSided bool
}

// embedded is an image that is in the file already; its texture has the same number.
type embedded struct {
	name    string
	file    []byte
	repeats bool
}

// material returns the number of the look's material. It is unlit (KHR_materials_unlit), since the vertex colours hold
// the light; a viewer that does not know the extension falls back to a matt surface.
func (b *builder) material(l booth.Look) (int, error) {
	m := material{l.Colour, -1, l.TwoSided}
	name := fmt.Sprintf("#%02x%02x%02x", l.Colour[0], l.Colour[1], l.Colour[2])
	if l.Image != nil {
		n, err := b.texture(l.Image, l.Tile > 0)
		if err != nil {
			return 0, err
		}
		m.image = n
		name = l.Image.Name
	}
	if n, ok := b.materials[m]; ok {
		return n, nil
	}
	pbr := &gltf.PBRMetallicRoughness{
		BaseColorFactor: &[4]float64{0, 0, 0, 1},
		MetallicFactor:  gltf.Float(0),
		RoughnessFactor: gltf.Float(1),
	}
	for i, c := range l.Colour {
		pbr.BaseColorFactor[i] = round(colour.Linear(float64(c) / 255))
	}
	if m.image >= 0 {
		pbr.BaseColorTexture = &gltf.TextureInfo{Index: m.image}
	}
	b.doc.Materials = append(b.doc.Materials, &gltf.Material{
		Name:                 name,
		PBRMetallicRoughness: pbr,
		DoubleSided:          l.TwoSided,
		Extensions:           gltf.Extensions{unlit.ExtensionName: unlit.Unlit{}},
	})
	b.materials[m] = len(b.doc.Materials) - 1
	return b.materials[m], nil
}

// texture embeds the image's file as it is, unless it is in already, and returns the number of its texture. Only a
// picture with see-through places is made anew on white, which is what shows through them in the pictures too.
func (b *builder) texture(i *art.Image, repeats bool) (int, error) {
	for n, e := range b.images {
		if e.name == i.Name && e.repeats == repeats && bytes.Equal(e.file, i.Encoded()) {
			return n, nil
		}
	}
	if len(i.Encoded()) == 0 || i.MIME != "image/jpeg" && i.MIME != "image/png" {
		return 0, fmt.Errorf("glb: image %q is no JPEG or PNG file (%d bytes of %q)", i.Name, len(i.Encoded()), i.MIME)
	}
	n := len(b.images)
	b.images = append(b.images, embedded{i.Name, i.Encoded(), repeats})
	if b.link != nil {
		b.doc.Images = append(b.doc.Images, &gltf.Image{Name: i.Name, URI: b.link(i)})
	} else {
		mime, file, err := Embeddable(i)
		if err != nil {
			return 0, err
		}
		b.doc.Images = append(b.doc.Images, &gltf.Image{Name: i.Name, MimeType: mime, BufferView: gltf.Index(len(b.streams))})
		b.streams = append(b.streams, stream{image: true, data: file})
	}
	wrap := gltf.WrapClampToEdge // no far edge of a picture bleeds into the near one
	if repeats {
		wrap = gltf.WrapRepeat
	}
	sampler := b.sampler(wrap)
	b.doc.Textures = append(b.doc.Textures, &gltf.Texture{Name: i.Name, Sampler: gltf.Index(sampler), Source: gltf.Index(n)})
	return n, nil
}

// Embeddable is an image as a file that shows it as the pictures do.
func Embeddable(i *art.Image) (mime string, file []byte, err error) {
	if !i.Pixels().Opaque() {
		return onWhite(i.Pixels())
	}
	return i.MIME, i.Shareable(), nil
}

// sampler is the number of the sampler that goes on so beyond an image's edges.
func (b *builder) sampler(wrap gltf.WrappingMode) int {
	for n, s := range b.doc.Samplers {
		if s.WrapS == wrap {
			return n
		}
	}
	b.doc.Samplers = append(b.doc.Samplers, &gltf.Sampler{
		MagFilter: gltf.MagLinear, MinFilter: gltf.MinLinearMipMapLinear, WrapS: wrap, WrapT: wrap,
	})
	return len(b.doc.Samplers) - 1
}

// onWhite is the picture on a white ground, as a PNG file.
func onWhite(m *image.NRGBA) (mime string, file []byte, err error) {
	o := image.NewNRGBA(image.Rectangle{Max: m.Rect.Size()})
	for y := range o.Rect.Dy() {
		for x := range o.Rect.Dx() {
			from, to := m.Pix[m.PixOffset(m.Rect.Min.X+x, m.Rect.Min.Y+y):], o.Pix[o.PixOffset(x, y):]
			share := float32(from[3]) / 255
			for k := range 3 {
				to[k] = colour.Byte(float32(colour.Light(from[k])*share) + 1 - share)
			}
			to[3] = 255
		}
	}
	var b bytes.Buffer
	err = png.Encode(&b, o)
	return "image/png", b.Bytes(), err
}
