package glb

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/unlit"
	"github.com/qmuntal/gltf/modeler"
)

func TestMaterials(t *testing.T) {
	d := decode(t, written(t, testBooth(t)))
	if len(d.ExtensionsUsed) != 1 || d.ExtensionsUsed[0] != "KHR_materials_unlit" || len(d.ExtensionsRequired) != 0 {
		t.Errorf("extensions used %v, required %v", d.ExtensionsUsed, d.ExtensionsRequired)
	}
	// Blue paint (tent, tables, sides of works) and cloth once each; two pictures of heron.jpg and the name board.
	if len(d.Materials) != 5 {
		t.Errorf("%d materials, want 5", len(d.Materials))
	}
	// glTF 2.0, "Metallic-Roughness Material": the sRGB texel [64, 124, 231] is [0.051, 0.202, 0.799] in linear light. The
	// paint has that colour.
	paint := 0
	for _, m := range d.Materials {
		p := m.PBRMetallicRoughness
		if _, ok := m.Extensions[unlit.ExtensionName]; !ok || *p.MetallicFactor != 0 || *p.RoughnessFactor != 1 {
			t.Errorf("%s: extensions %v, metallic %v, roughness %v", m.Name, m.Extensions, *p.MetallicFactor, *p.RoughnessFactor)
		}
		if m.Name == "#407ce7" {
			paint++
			for i, want := range [4]float64{0.051, 0.202, 0.799, 1} {
				if math.Abs(p.BaseColorFactor[i]-want) > 0.0005 {
					t.Errorf("paint %v", *p.BaseColorFactor)
				}
			}
		}
	}
	if paint != 1 {
		t.Errorf("%d materials for one paint", paint)
	}
}

// An image is in the file once, byte for byte, however many surfaces show it.
func TestImages(t *testing.T) {
	p := testBooth(t)
	file := written(t, p)
	d := decode(t, file)
	if len(d.Images) != 3 || len(d.Textures) != 3 || len(d.Samplers) != 1 {
		t.Fatalf("%d images, %d textures, %d samplers", len(d.Images), len(d.Textures), len(d.Samplers))
	}
	shown := 0
	found := nodes(t, d)
	for _, part := range p.Parts {
		for i, s := range part.Surfaces {
			if s.Look.Image == nil {
				continue
			}
			m := d.Materials[*d.Meshes[*found[string(part.ID)].node.Mesh].Primitives[i].Material]
			tex := d.Textures[m.PBRMetallicRoughness.BaseColorTexture.Index]
			image := d.Images[*tex.Source]
			data, err := modeler.ReadBufferView(d, d.BufferViews[*image.BufferView])
			if err != nil || !bytes.Equal(data, s.Look.Image.Encoded()) || image.MimeType != s.Look.Image.MIME || image.Name != s.Look.Image.Name {
				t.Errorf("%s: image %s of type %s, %d bytes, %v", part.ID, image.Name, image.MimeType, len(data), err)
			}
			if n := bytes.Count(file, s.Look.Image.Encoded()); n != 1 {
				t.Errorf("%s: its image is in the file %d times", part.ID, n)
			}
			if s := d.Samplers[*tex.Sampler]; s.WrapS != gltf.WrapClampToEdge || s.WrapT != gltf.WrapClampToEdge || s.MinFilter != gltf.MinLinearMipMapLinear || s.MagFilter != gltf.MagLinear {
				t.Errorf("%s: sampler %+v", part.ID, *s)
			}
			shown++
		}
	}
	if shown != 4 {
		t.Errorf("%d images shown, want 4", shown)
	}
}

// A tile is in the file once, goes on and on, and covers its metres; an image that lies once over a surface is held at
// its edges as before, even if it is the same image.
func TestTile(t *testing.T) {
	p := testBooth(t)
	grain := jpegImage(t, "grain", 16, 16)
	board := func(x float64) geom.Mesh {
		var m geom.Mesh
		m.AddPolygon(geom.Rect(geom.World, x, 0, x+3, 1))
		return m
	}
	p.Parts[0].Surfaces = append(p.Parts[0].Surfaces,
		booth.Surface{Mesh: board(0), Look: booth.Look{Colour: booth.Colour{90, 80, 70}, Image: grain, Tile: 0.5}},
		booth.Surface{Mesh: board(3), Look: booth.Look{Colour: booth.Colour{9, 8, 7}, Image: grain, Tile: 0.25}},
		booth.Surface{Mesh: geom.ImageRect(geom.Rect(geom.World, 6, 0, 7, 1)), Look: booth.Look{Colour: booth.Colour{90, 80, 70}, Image: grain}})
	d := decode(t, written(t, p))
	found := nodes(t, d)["tent"].node
	all := d.Meshes[*found.Mesh].Primitives
	all = all[len(all)-3:]
	for i, want := range []struct {
		wrap gltf.WrappingMode
		far  [2]float32
	}{{gltf.WrapRepeat, [2]float32{6, -2}}, {gltf.WrapRepeat, [2]float32{12, -4}}, {gltf.WrapClampToEdge, [2]float32{1, 0}}} {
		tex := d.Textures[d.Materials[*all[i].Material].PBRMetallicRoughness.BaseColorTexture.Index]
		if s := d.Samplers[*tex.Sampler]; s.WrapS != want.wrap || s.WrapT != want.wrap {
			t.Errorf("surface %d: sampler %+v", i, *s)
		}
		coords, err := modeler.ReadTextureCoord(d, d.Accessors[all[i].Attributes[gltf.TEXCOORD_0]], nil)
		if err != nil || coords[2] != want.far {
			t.Errorf("surface %d: texture coordinates %v, %v", i, coords, err)
		}
	}
	a, b := d.Materials[*all[0].Material].PBRMetallicRoughness, d.Materials[*all[1].Material].PBRMetallicRoughness
	if a.BaseColorTexture.Index != b.BaseColorTexture.Index {
		t.Error("one tile is two textures")
	}
}

// White shows through a picture where it is not opaque.
func TestSeeThrough(t *testing.T) {
	m := stripes(3, 1)
	m.SetNRGBA(1, 0, color.NRGBA{0, 0, 0, 0})
	m.SetNRGBA(2, 0, color.NRGBA{0, 0, 0, 128})
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	p := testBooth(t)
	p.Parts[6].Surfaces[0].Look.Image = art.Ready("cut out.png", "image/png", b.Bytes(), m)
	d := decode(t, written(t, p))
	data, err := modeler.ReadBufferView(d, d.BufferViews[*d.Images[0].BufferView])
	if err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	// Half black on white lets 127/255 of the light be: 0.498039, which is sRGB 187.2 (derived from IEC 61966-2-1).
	for x, want := range []color.NRGBA{{0, 0, 90, 255}, {255, 255, 255, 255}, {187, 187, 187, 255}} {
		if c := color.NRGBAModel.Convert(got.At(x, 0)); c != want {
			t.Errorf("pixel %d is %v, want %v", x, c, want)
		}
	}
	if d.Images[0].MimeType != "image/png" {
		t.Errorf("type %s", d.Images[0].MimeType)
	}
}
