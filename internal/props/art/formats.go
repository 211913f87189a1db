package art

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"path"
	"slices"
	"strings"

	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// format is a kind of picture file.
type format struct {
	name   string // as people call it
	mime   string
	begins func(file []byte) bool
	config func(file []byte) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	room   func(c image.Config, file []byte) int64 // bytes that decoding takes, about
	whole  func(file []byte) bool                  // whether its end is there
	exif   func(file []byte) []byte                // the EXIF block (a TIFF head and what follows), or nil
	colour func(file []byte) []byte                // the colour profile, or nil
	plain  func(m image.Image, file []byte)        // makes full-range BT.601 of its YCbCr, in place; nil: it is
	embeds bool                                    // a .glb and a page may hold the file as it is
}

// Figures for the room that decoders take were measured; see BenchmarkFormats.
var formats = []format{
	{
		name: "JPEG", mime: "image/jpeg", begins: magic(0, "\xff\xd8\xff"), config: head(jpeg.DecodeConfig), decode: jpeg.Decode,
		room: jpegRoom, whole: ends("\xff\xd9"), exif: jpegExif, colour: jpegProfile, embeds: true,
	},
	{
		name: "PNG", mime: "image/png", begins: magic(0, "\x89PNG\r\n\x1a\n"), config: head(png.DecodeConfig), decode: png.Decode,
		room: perPixel(8), whole: ends("IEND"), exif: pngExif, colour: pngProfile, embeds: true,
	},
	{
		name: "WebP", begins: both(magic(0, "RIFF"), magic(8, "WEBP")), config: head(webp.DecodeConfig), decode: webp.Decode,
		room: perPixel(6), whole: webpWhole, exif: webpChunk("EXIF"), colour: webpChunk("ICCP"), plain: videoRange,
	},
	{
		name: "TIFF", begins: either(magic(0, "II*\x00"), magic(0, "MM\x00*")), config: tiffConfig, decode: tiff.Decode,
		room: perPixel(8), whole: unknown, exif: all, colour: tiffProfile,
	},
	// The readers of both turn the picture upright themselves, so their EXIF does not count.
	{
		name: "HEIC", begins: heifBrand("heic", "heix", "heim", "heis", "hevc", "hevx", "mif1"), config: heicConfig, decode: decodeHEIC,
		room: perPixel(24), whole: heifWhole, exif: none, colour: heifProfile, plain: heifRange,
	},
	{
		name: "AVIF", begins: heifBrand("avif", "avis"), config: heifConfig, decode: decodeAVIF,
		room: perPixel(60), whole: heifWhole, exif: none, colour: heifProfile,
	},
}

// Is reports whether a file is called as a picture is that can be read.
func Is(name string) bool {
	return slices.Contains([]string{".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff", ".heic", ".heif", ".avif"}, strings.ToLower(path.Ext(name))) &&
		!strings.HasPrefix(path.Base(name), ".")
}

// magic is whether a text stands at a place of a file.
func magic(at int, text string) func([]byte) bool {
	return func(file []byte) bool { return len(file) > at && bytes.HasPrefix(file[at:], []byte(text)) }
}

func both(a, b func([]byte) bool) func([]byte) bool {
	return func(file []byte) bool { return a(file) && b(file) }
}

func either(a, b func([]byte) bool) func([]byte) bool {
	return func(file []byte) bool { return a(file) || b(file) }
}

func head(config func(io.Reader) (image.Config, error)) func([]byte) (image.Config, error) {
	return func(file []byte) (image.Config, error) { return config(bytes.NewReader(file)) }
}

func all(file []byte) []byte { return file }

func none([]byte) []byte { return nil }

// ends is whether a text stands near the end of a file.
func ends(text string) func([]byte) bool {
	return func(file []byte) bool { return bytes.Contains(file[max(0, len(file)-1000):], []byte(text)) }
}

func unknown([]byte) bool { return true }

// webpWhole compares the length of a WebP with what its head says.
func webpWhole(file []byte) bool {
	return 8+int64(binary.LittleEndian.Uint32(file[4:])) <= int64(len(file))
}

func perPixel(bytes int64) func(image.Config, []byte) int64 {
	return func(c image.Config, _ []byte) int64 { return bytes * int64(c.Width) * int64(c.Height) }
}

// jpegRoom: a plain JPEG is decoded as it comes; a progressive one first keeps all its numbers, four bytes each.
func jpegRoom(c image.Config, file []byte) int64 {
	samples := int64(6) // in 4 pixels, with the usual halving of the colours
	each := int64(1)
	jpegSegments(file, func(marker byte, body []byte) bool {
		if marker == 0xc0 || marker == 0xc1 || marker == 0xc2 { // start of frame (ITU-T T.81, table B.1)
			if marker == 0xc2 {
				each = 5
			}
			if len(body) >= 8 {
				samples = 4 * int64(body[5])
				if body[5] == 3 && body[7] == 0x22 {
					samples = 6
				}
			}
			return false
		}
		return true
	})
	return int64(c.Width) * int64(c.Height) * samples * each / 4
}

// webpChunk finds what stands in a chunk of a WebP (RFC 9649, section 2.3), or is nil.
func webpChunk(kind string) func(file []byte) []byte {
	return func(file []byte) []byte {
		for p := file[12:]; len(p) >= 8; {
			n := int64(binary.LittleEndian.Uint32(p[4:]))
			if n > int64(len(p)-8) {
				return nil
			}
			if string(p[:4]) == kind {
				return bytes.TrimPrefix(p[8:8+n], []byte("Exif\x00\x00"))
			}
			p = p[min(int64(len(p)), 8+n+n%2):]
		}
		return nil
	}
}
