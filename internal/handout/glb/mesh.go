package glb

import (
	"encoding/binary"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"

	"github.com/qmuntal/gltf"
)

// primitive adds one surface, its corners as seen from origin.
func (b *builder) primitive(s *light.Surface, origin geom.Vec) (*gltf.Primitive, error) {
	m, err := b.material(s.Look)
	if err != nil {
		return nil, err
	}
	attributes := gltf.PrimitiveAttributes{
		gltf.POSITION: b.positions(s.Mesh.Vertices, origin),
		gltf.COLOR_0:  b.colours(s.Straight),
	}
	if b.normals {
		attributes[gltf.NORMAL] = b.directions(s.Mesh.Vertices)
	}
	if s.Look.Image != nil {
		attributes[gltf.TEXCOORD_0] = b.textureCoords(onImage(s.Mesh.Vertices, s.Look))
	}
	return &gltf.Primitive{
		Attributes: attributes,
		Indices:    gltf.Index(b.indices(s.Mesh.Triangles, len(s.Mesh.Vertices))),
		Material:   gltf.Index(m),
	}, nil
}

// layout is what the numbers of a stream are.
type layout struct {
	target     gltf.Target
	component  gltf.ComponentType
	kind       gltf.AccessorType
	normalized bool
}

var (
	positions  = layout{gltf.TargetArrayBuffer, gltf.ComponentFloat, gltf.AccessorVec3, false} // normals too
	colours    = layout{gltf.TargetArrayBuffer, gltf.ComponentUshort, gltf.AccessorVec4, true}
	coordShort = layout{gltf.TargetArrayBuffer, gltf.ComponentUshort, gltf.AccessorVec2, true}
	coordFloat = layout{gltf.TargetArrayBuffer, gltf.ComponentFloat, gltf.AccessorVec2, false}
	indexShort = layout{gltf.TargetElementArrayBuffer, gltf.ComponentUshort, gltf.AccessorScalar, false}
	indexLong  = layout{gltf.TargetElementArrayBuffer, gltf.ComponentUint, gltf.AccessorScalar, false}
)

// stream becomes one buffer view: an image, or the numbers of one layout of every surface, one after the other.
type stream struct {
	layout layout // nothing for an image
	image  bool
	data   []byte
}

// accessor adds numbers to the stream of their layout.
func (b *builder) accessor(l layout, count int, data []byte) int {
	n := 0
	for n < len(b.streams) && (b.streams[n].image || b.streams[n].layout != l) {
		n++
	}
	if n == len(b.streams) {
		b.streams = append(b.streams, stream{layout: l})
	}
	s := &b.streams[n]
	b.doc.Accessors = append(b.doc.Accessors, &gltf.Accessor{
		BufferView: gltf.Index(n), ByteOffset: len(s.data), Count: count,
		ComponentType: l.component, Type: l.kind, Normalized: l.normalized,
	})
	s.data = append(s.data, data...)
	return len(b.doc.Accessors) - 1
}

// pack lays the streams one after the other into the buffer, each on a multiple of 4 bytes.
func (b *builder) pack() {
	if len(b.streams) == 0 {
		return
	}
	var all []byte
	for _, s := range b.streams {
		v := &gltf.BufferView{ByteOffset: len(all), ByteLength: len(s.data), Target: s.layout.target}
		if v.Target == gltf.TargetArrayBuffer {
			v.ByteStride = gltf.SizeOfElement(s.layout.component, s.layout.kind)
		}
		b.doc.BufferViews = append(b.doc.BufferViews, v)
		all = append(all, s.data...)
		all = append(all, make([]byte, -len(all)&3)...)
	}
	b.doc.Buffers = []*gltf.Buffer{{ByteLength: len(all), Data: all}}
}

func (b *builder) positions(vertices []geom.Vertex, origin geom.Vec) int {
	inf := math.Inf(1)
	lo, hi := []float64{inf, inf, inf}, []float64{-inf, -inf, -inf}
	var data []byte
	for _, v := range vertices {
		p := v.P.Sub(origin)
		for k, x := range [3]float64{p.X, p.Y, p.Z} {
			f := float32(x)
			lo[k], hi[k] = min(lo[k], float64(f)), max(hi[k], float64(f))
			data = binary.LittleEndian.AppendUint32(data, math.Float32bits(f))
		}
	}
	n := b.accessor(positions, len(vertices), data)
	b.doc.Accessors[n].Min, b.doc.Accessors[n].Max = lo, hi
	return n
}

// directions are the vertices' normals. The materials are unlit, so only who lights the booth anew asks for them.
func (b *builder) directions(vertices []geom.Vertex) int {
	var data []byte
	for _, v := range vertices {
		for _, x := range [3]float64{v.N.X, v.N.Y, v.N.Z} {
			data = binary.LittleEndian.AppendUint32(data, math.Float32bits(float32(x)))
		}
	}
	return b.accessor(positions, len(vertices), data)
}

// colours are the light as linear red, green and blue in 65535ths: a byte would show steps in the darks. The fourth
// number, 1, keeps every colour on 4 bytes without a gap.
func (b *builder) colours(light [][3]float32) int {
	var data []byte
	for _, c := range light {
		for _, x := range c {
			data = binary.LittleEndian.AppendUint16(data, share(float64(x)))
		}
		data = binary.LittleEndian.AppendUint16(data, math.MaxUint16)
	}
	return b.accessor(colours, len(light), data)
}

// share is x, from 0 to 1, in 65535ths.
func share(x float64) uint16 {
	return uint16(math.Round(float64(max(0, min(x, 1)) * math.MaxUint16)))
}

// onImage are the vertices with their texture coordinates in widths of the look's image.
func onImage(vertices []geom.Vertex, k booth.Look) []geom.Vertex {
	if k.Tile == 0 {
		return vertices
	}
	out := slices.Clone(vertices)
	for i := range out {
		out[i].U, out[i].V = out[i].U/k.Tile, out[i].V/k.Tile
	}
	return out
}

func (b *builder) textureCoords(vertices []geom.Vertex) int {
	for _, v := range vertices {
		if v.U < 0 || v.U > 1 || v.V < 0 || v.V > 1 {
			return b.accessor(coordFloat, len(vertices), floatCoords(vertices))
		}
	}
	var data []byte
	for _, v := range vertices {
		data = binary.LittleEndian.AppendUint16(data, share(v.U))
		data = binary.LittleEndian.AppendUint16(data, share(v.V))
	}
	return b.accessor(coordShort, len(vertices), data)
}

func floatCoords(vertices []geom.Vertex) []byte {
	var data []byte
	for _, v := range vertices {
		data = binary.LittleEndian.AppendUint32(data, math.Float32bits(float32(v.U)))
		data = binary.LittleEndian.AppendUint32(data, math.Float32bits(float32(v.V)))
	}
	return data
}

// indices are the triangles' corners. The highest number of a type is not for use (glTF 2.0, primitive restart), so
// short numbers do for up to 65535 vertices.
func (b *builder) indices(triangles [][3]int, vertices int) int {
	var data []byte
	for _, t := range triangles {
		for _, v := range t {
			if vertices <= math.MaxUint16 {
				data = binary.LittleEndian.AppendUint16(data, uint16(v))
			} else {
				data = binary.LittleEndian.AppendUint32(data, uint32(v))
			}
		}
	}
	l := indexShort
	if vertices > math.MaxUint16 {
		l = indexLong
	}
	return b.accessor(l, 3*len(triangles), data)
}
