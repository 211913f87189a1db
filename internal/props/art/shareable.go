package art

import (
	"bytes"
	"encoding/binary"
)

// Shareable is Encoded without the notes that a camera or a program left in the file: where and when it was taken, by
// whom, with what. A mock-up is handed on, and a photograph's position is often that of the studio. The picture itself and
// its colour profile stay as they are. What is not understood is kept.
func (im *Image) Shareable() []byte {
	file := im.Encoded()
	switch {
	case bytes.HasPrefix(file, []byte("\xff\xd8")):
		return bareJPEG(file)
	case bytes.HasPrefix(file, []byte("\x89PNG\r\n\x1a\n")):
		return barePNG(file)
	}
	return file
}

// bareJPEG leaves out the segments APP1 (Exif, XMP), APP13 (IPTC) and COM before the picture's data (ITU-T T.81, B.1.1).
func bareJPEG(file []byte) []byte {
	out := append(make([]byte, 0, len(file)), file[:2]...)
	at := 2
	for at+4 <= len(file) && file[at] == 0xff {
		marker, size := file[at+1], int(binary.BigEndian.Uint16(file[at+2:]))
		end := at + 2 + size
		if marker == 0xda || size < 2 || end > len(file) {
			break // the picture's data, or nothing that can be walked
		}
		if marker != 0xe1 && marker != 0xed && marker != 0xfe {
			out = append(out, file[at:end]...)
		}
		at = end
	}
	return append(out, file[at:]...)
}

// barePNG leaves out the chunks that hold words, dates and Exif (PNG, third edition, 11.3).
func barePNG(file []byte) []byte {
	out := append(make([]byte, 0, len(file)), file[:8]...)
	at := 8
	for at+12 <= len(file) {
		end := at + 12 + int(binary.BigEndian.Uint32(file[at:]))
		if end < at+12 || end > len(file) {
			break
		}
		switch string(file[at+4 : at+8]) {
		case "tEXt", "zTXt", "iTXt", "eXIf", "tIME":
		default:
			out = append(out, file[at:end]...)
		}
		at = end
	}
	return append(out, file[at:]...)
}
