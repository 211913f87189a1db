// Package imprint is what a file says about who made it, as a printmaker's imprint does: every output says that it is this
// program's, at the place that its format has for that, and what another program made or changed is told from it.
package imprint

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
)

// Name is what an output says.
const Name = "boothmock"

// Where the name stands in a file, for whoever writes one. A PDF has it as its Producer (ISO 32000-1, 14.3.3), a .glb as the
// generator of its asset (glTF 2.0, 3.2).
const (
	PNG  = "Software\x00" + Name                            // a tEXt chunk before the picture (PNG third edition, 11.3.3.1)
	JPEG = "\xff\xfe\x00\x0b" + Name                        // a comment, with its length (ISO/IEC 10918-1, B.2.4.5)
	GIF  = "\x21\xfe\x09" + Name + "\x00"                   // a comment extension (GIF89a, 24)
	HTML = `<meta name="generator" content="` + Name + `">` // (HTML, 4.2.5.1)
	JSON = "{\n  \"generator\": \"" + Name + "\""           // its first key
	SVG  = "<!-- " + Name + " -->"                          // no place of its own
	XMP  = `<x:xmpmeta xmlns:x="adobe:ns:meta/">` +         // the XMP chunk of a WebP picture (RFC 9649, 2.7.1.5; ISO 16684-1)
		`<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""` +
		` xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:CreatorTool="` + Name + `"/></rdf:RDF></x:xmpmeta>`
)

// Of is what a file is, as people call it, and whether this program made it and nobody changed it in a way that shows.
func Of(file []byte) (what string, ours bool) {
	for _, f := range formats {
		if bytes.HasPrefix(file, []byte(f.begins)) {
			return f.what, f.ours(file)
		}
	}
	if len(file) == 0 {
		return "an empty file", false
	}
	return "a file", false
}

var formats = []struct {
	what, begins string
	ours         func(file []byte) bool
}{
	{"a PNG picture", "\x89PNG\r\n\x1a\n", ourPNG},
	{"a JPEG picture", "\xff\xd8\xff", ourJPEG},
	{"a GIF picture", "GIF8", func(b []byte) bool { at := afterTable(b); return at > 0 && bytes.HasPrefix(b[at:], []byte(GIF)) }},
	{"a WebP picture", "RIFF", func(b []byte) bool { return len(b) > 12 && string(b[8:12]) == "WEBP" && bytes.Contains(b, []byte(XMP)) }},
	{"a PDF", "%PDF-", func(b []byte) bool { // whoever writes notes on one adds a second end to it
		return bytes.Contains(b, []byte("/Producer ("+Name+")")) && bytes.Count(b, []byte("%%EOF")) == 1
	}},
	{"a glTF model", "glTF", ourGLB},
	{"a web page", "<!doctype html>", func(b []byte) bool { return bytes.Contains(head(b), []byte(HTML)) }},
	{"an SVG drawing", "<svg ", func(b []byte) bool { return bytes.Contains(head(b), []byte(SVG)) }},
	{"a JSON file", "{", func(b []byte) bool { return bytes.HasPrefix(b, []byte(JSON)) }},
}

// head is the beginning of a text, in which its name stands.
func head(file []byte) []byte { return file[:min(len(file), 4096)] }

// ourPNG looks through the chunks before the picture.
func ourPNG(b []byte) bool {
	for b = b[8:]; len(b) >= 12; {
		n := int64(binary.BigEndian.Uint32(b))
		if name := string(b[4:8]); name == "IDAT" || n > int64(len(b))-12 {
			return false
		} else if name == "tEXt" && string(b[8:8+n]) == PNG {
			return true
		}
		b = b[12+n:]
	}
	return false
}

// ourJPEG looks through the segments before the picture.
func ourJPEG(b []byte) bool {
	for b = b[2:]; len(b) >= 4 && b[0] == 0xff && b[1] != 0xda; {
		if bytes.HasPrefix(b, []byte(JPEG)) {
			return true
		}
		b = b[min(len(b), 2+int(binary.BigEndian.Uint16(b[2:]))):]
	}
	return false
}

// ourGLB reads the first chunk (glTF 2.0, 4.4).
func ourGLB(b []byte) bool {
	if len(b) < 20 || string(b[16:20]) != "JSON" {
		return false
	}
	b, n := b[20:], binary.LittleEndian.Uint32(b[12:])
	if int64(n) > int64(len(b)) {
		return false
	}
	var doc struct{ Asset struct{ Generator string } }
	return json.Unmarshal(b[:n], &doc) == nil && doc.Asset.Generator == Name
}

// afterTable is where the first block of a GIF begins, after its table of colours (GIF89a, 18), or 0.
func afterTable(b []byte) int {
	const header = 13
	if len(b) < header {
		return 0
	}
	at := header
	if b[10]&0x80 != 0 {
		at += 3 << (b[10]&7 + 1)
	}
	if at >= len(b) {
		return 0
	}
	return at
}

// InGIF is a GIF with the name in it.
func InGIF(file []byte) ([]byte, error) {
	at := afterTable(file)
	if at == 0 {
		return nil, fmt.Errorf("a GIF of %d bytes is cut short", len(file))
	}
	return append(append(append(make([]byte, 0, len(file)+len(GIF)), file[:at]...), GIF...), file[at:]...), nil
}

// InJSON is an object as indented JSON, with the name in it.
func InJSON(file []byte) []byte {
	rest, ok := bytes.CutPrefix(file, []byte("{\n"))
	if !ok {
		return file // no object, or an empty one
	}
	return append([]byte(JSON+",\n"), rest...)
}
