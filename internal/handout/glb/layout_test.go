package glb

import (
	"testing"

	"github.com/qmuntal/gltf"
)

// span is the bytes of the buffer, from and up to, that an accessor covers (glTF 2.0, "Data Alignment"):
// EFFECTIVE_BYTE_STRIDE x (count - 1) + SIZE_OF_COMPONENT x NUMBER_OF_COMPONENTS from the sum of the offsets.
func span(v *gltf.BufferView, a *gltf.Accessor) (from, to int) {
	size := a.ComponentType.ByteSize() * a.Type.Components()
	stride := size
	if v.ByteStride > 0 {
		stride = v.ByteStride
	}
	from = v.ByteOffset + a.ByteOffset
	return from, from + stride*(a.Count-1) + size
}

func TestSpan(t *testing.T) {
	// glTF 2.0's own example: a view at 620, an accessor of 42 pairs of short numbers at 4608 in it.
	from, to := span(&gltf.BufferView{ByteOffset: 620}, &gltf.Accessor{ByteOffset: 4608, Count: 42, ComponentType: gltf.ComponentUshort, Type: gltf.AccessorVec2})
	if from != 5228 || to != 5396 {
		t.Errorf("%d to %d, want 5228 to 5396", from, to)
	}
	// Its example of accessors: 585 float triples at 7032 take 7020 bytes, the last is byte 14051.
	from, to = span(&gltf.BufferView{}, &gltf.Accessor{ByteOffset: 7032, Count: 585, ComponentType: gltf.ComponentFloat, Type: gltf.AccessorVec3})
	if to-from != 7020 || to-1 != 14051 {
		t.Errorf("%d to %d, want 7032 to 14052", from, to)
	}
}

// The rules of glTF 2.0, "Data Alignment" and "Buffers and Buffer Views": offsets on multiples of the component, vertex
// numbers on multiples of 4 bytes with a stride of at most 252, indices and vertices in views of their own, no accessor
// beyond its view, no view beyond the buffer or over another.
func TestLayout(t *testing.T) {
	d := decode(t, written(t, testBooth(t)))
	end := 0
	for i, v := range d.BufferViews {
		if v.ByteOffset < end || v.ByteOffset%4 != 0 || v.ByteOffset+v.ByteLength > d.Buffers[0].ByteLength {
			t.Errorf("view %d covers %d bytes from %d, after %d", i, v.ByteLength, v.ByteOffset, end)
		}
		end = v.ByteOffset + v.ByteLength
	}
	covered := map[int]int{}
	for i, a := range d.Accessors {
		v := d.BufferViews[*a.BufferView]
		from, to := span(v, a)
		covered[*a.BufferView] += to - from
		if from%a.ComponentType.ByteSize() != 0 || to > v.ByteOffset+v.ByteLength {
			t.Errorf("accessor %d covers %d to %d", i, from, to)
		}
		want := gltf.TargetElementArrayBuffer
		if a.Type != gltf.AccessorScalar {
			want = gltf.TargetArrayBuffer
			if from%4 != 0 || v.ByteStride%4 != 0 || v.ByteStride < 4 || v.ByteStride > 252 {
				t.Errorf("accessor %d: vertex numbers from %d, every %d bytes", i, from, v.ByteStride)
			}
		}
		if v.Target != want {
			t.Errorf("accessor %d: its view has target %d", i, v.Target)
		}
	}
	for i, n := range covered {
		if n != d.BufferViews[i].ByteLength {
			t.Errorf("view %d: %d of %d bytes are used", i, n, d.BufferViews[i].ByteLength)
		}
	}
}
