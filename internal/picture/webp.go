package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"io"

	"github.com/HugoSmits86/nativewebp"

	"boothmock/internal/colour"
)

// WriteWebP writes an opaque picture without loss, with the profile of sRGB in it: the extended form of RFC 9649, section
// 2.7. The same picture always gives the same bytes.
func WriteWebP(w io.Writer, m *image.NRGBA) error {
	var b bytes.Buffer
	if err := nativewebp.Encode(&b, m, nil); err != nil {
		return err
	}
	const profileInside = 1 << 5
	sides := binary.LittleEndian.AppendUint64(nil, uint64(m.Rect.Dx()-1)|uint64(m.Rect.Dy()-1)<<24) // less one, of three bytes each
	body := []byte("WEBP")
	for _, c := range []struct {
		name string
		data []byte
	}{{"VP8X", append([]byte{profileInside, 0, 0, 0}, sides[:6]...)}, {"ICCP", colour.Profile()}} {
		body = binary.LittleEndian.AppendUint32(append(body, c.name...), uint32(len(c.data)))
		body = append(append(body, c.data...), make([]byte, len(c.data)&1)...)
	}
	body = append(body, b.Bytes()[len("RIFF????WEBP"):]...) // the picture's own chunk
	_, err := w.Write(append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...))
	return err
}
