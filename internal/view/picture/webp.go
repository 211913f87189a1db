package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"io"

	"github.com/HugoSmits86/nativewebp"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/imprint"
)

// WriteWebP writes an opaque picture without loss, with the profile of sRGB in it: the extended form of RFC 9649, section
// 2.7. The same picture always gives the same bytes.
func WriteWebP(w io.Writer, m *image.NRGBA) error {
	var b bytes.Buffer
	if err := nativewebp.Encode(&b, m, nil); err != nil {
		return err
	}
	const profileInside, xmpInside = 1 << 5, 1 << 2
	sides := binary.LittleEndian.AppendUint64(nil, uint64(m.Rect.Dx()-1)|uint64(m.Rect.Dy()-1)<<24) // less one, of three bytes each
	body := riffChunk([]byte("WEBP"), "VP8X", append([]byte{profileInside | xmpInside, 0, 0, 0}, sides[:6]...))
	body = riffChunk(body, "ICCP", colour.Profile())
	body = append(body, b.Bytes()[len("RIFF????WEBP"):]...) // the picture's own chunk
	body = riffChunk(body, "XMP ", []byte(imprint.XMP))
	_, err := w.Write(append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...))
	return err
}

// riffChunk adds a chunk to those of a file.
func riffChunk(to []byte, name string, data []byte) []byte {
	to = binary.LittleEndian.AppendUint32(append(to, name...), uint32(len(data)))
	return append(append(to, data...), make([]byte, len(data)&1)...)
}
