package art

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"testing"
)

// A photograph that is handed on tells nothing of where it was taken, and shows the same picture.
func TestShareableTellsNothing(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 24, 16))
	for i := range m.Pix {
		m.Pix[i] = uint8(i * 7)
	}
	var j, p bytes.Buffer
	if err := jpeg.Encode(&j, m, nil); err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(&p, m); err != nil {
		t.Fatal(err)
	}
	segment := func(marker byte, body string) string {
		return string([]byte{0xff, marker, 0, byte(len(body) + 2)}) + body
	}
	told := j.String()[:2] + segment(0xe1, "Exif\x00\x00 GPS here") + segment(0xed, "Photoshop GPS") + segment(0xfe, "GPS too") +
		segment(0xe2, "ICC_PROFILE\x00\x01\x01") + j.String()[2:]
	chunk := "\x00\x00\x00\x08tEXtGPS here\x00\x00\x00\x00"
	for _, c := range []struct {
		name, file, want string
	}{
		{"JPEG", told, j.String()[:2] + segment(0xe2, "ICC_PROFILE\x00\x01\x01") + j.String()[2:]},
		{"JPEG that tells nothing", j.String(), j.String()},
		{"PNG", p.String()[:33] + chunk + p.String()[33:], p.String()},
		{"PNG that tells nothing", p.String(), p.String()},
		{"cut JPEG", told[:12], told[:12]},
		{"cut PNG", p.String()[:40], p.String()[:40]},
		{"something else", "RIFF", "RIFF"},
	} {
		if got := string(Ready("", "", []byte(c.file), image.NewNRGBA(image.Rect(0, 0, 1, 1))).Shareable()); got != c.want {
			t.Errorf("%s: %d bytes of %d are left, want %d", c.name, len(got), len(c.file), len(c.want))
		}
	}
}
