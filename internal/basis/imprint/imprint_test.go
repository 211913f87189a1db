package imprint

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"hash/crc32"
	"image"
	"image/color/palette"
	"image/gif"
	"image/jpeg"
	"image/png"
	"slices"
	"strings"
	"testing"
)

// encoded is a picture as the standard library writes it, which is somebody else's.
func encoded(t *testing.T, kind string) []byte {
	t.Helper()
	var b bytes.Buffer
	m := image.NewPaletted(image.Rect(0, 0, 5, 3), palette.Plan9[:7])
	var err error
	switch kind {
	case "png":
		err = png.Encode(&b, m)
	case "jpeg":
		err = jpeg.Encode(&b, m, nil)
	case "gif":
		err = gif.Encode(&b, m, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// chunk is one of a PNG.
func chunk(name, data string) string {
	sum := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE([]byte(name+data)))
	return string(binary.BigEndian.AppendUint32(nil, uint32(len(data)))) + name + data + string(sum)
}

func binaryModel(generator string) string {
	doc := `{"asset":{"version":"2.0","generator":"` + generator + `"}}`
	doc += strings.Repeat(" ", -len(doc)&3)
	word := func(n int) string { return string(binary.LittleEndian.AppendUint32(nil, uint32(n))) }
	return "glTF" + word(2) + word(20+len(doc)) + word(len(doc)) + "JSON" + doc
}

func TestWhoMadeAFile(t *testing.T) {
	const pdf = "%PDF-1.4\n1 0 obj <</Producer (boothmock)>>\ntrailer\n%%EOF\n"
	foreign := string(encoded(t, "png"))
	after := strings.Index(foreign, "IDAT") - 4
	marked := foreign[:after] + chunk("tEXt", PNG) + foreign[after:]
	late := foreign[:len(foreign)-12] + chunk("tEXt", PNG) + foreign[len(foreign)-12:]
	for _, c := range []struct {
		file, what string
		ours       bool
	}{
		{foreign, "a PNG picture", false},
		{marked, "a PNG picture", true},
		{late, "a PNG picture", false},
		{marked[:after], "a PNG picture", false},
		{foreign[:after] + chunk("tEXt", "Software\x00boothmock 2") + foreign[after:], "a PNG picture", false},
		{foreign[:8] + "\xff\xff\xff\xff" + "tEXt" + foreign[8:], "a PNG picture", false},
		{string(encoded(t, "jpeg")), "a JPEG picture", false},
		{string(inJPEG(encoded(t, "jpeg"))), "a JPEG picture", true},
		{"\xff\xd8\xff\xfe\x00\x00\xff\xfe", "a JPEG picture", false},
		{string(encoded(t, "gif")), "a GIF picture", false},
		{string(must(InGIF(encoded(t, "gif")))), "a GIF picture", true},
		{"GIF89a", "a GIF picture", false},
		{"RIFF\x00\x00\x00\x00WEBPVP8L" + XMP, "a WebP picture", true},
		{"RIFF\x00\x00\x00\x00WEBPVP8L", "a WebP picture", false},
		{pdf, "a PDF", true},
		{pdf + "2 0 obj <</Type /Annot>>\n%%EOF\n", "a PDF", false},
		{strings.Replace(pdf, "boothmock", "another", 1), "a PDF", false},
		{binaryModel("boothmock"), "a glTF model", true},
		{binaryModel("another"), "a glTF model", false},
		{binaryModel("boothmock")[:30], "a glTF model", false},
		{"<!doctype html>\n<head>\n" + HTML, "a web page", true},
		{"<!doctype html>\n<head>\n", "a web page", false},
		{`<svg xmlns="http://www.w3.org/2000/svg">` + SVG, "an SVG drawing", true},
		{`<svg xmlns="http://www.w3.org/2000/svg">`, "an SVG drawing", false},
		{string(InJSON([]byte("{\n  \"a\": 1\n}\n"))), "a JSON file", true},
		{"{\n  \"a\": 1\n}\n", "a JSON file", false},
		{"units: in\n# boothmock\n", "a file", false},
		{"", "an empty file", false},
	} {
		if what, ours := Of([]byte(c.file)); what != c.what || ours != c.ours {
			t.Errorf("%.60q is %s, ours %t; want %s, %t", c.file, what, ours, c.what, c.ours)
		}
	}
}

// inJPEG is a JPEG with the name in it.
func inJPEG(file []byte) []byte {
	const start = 2 // bytes of the mark that every JPEG begins with
	return slices.Concat(file[:start], []byte(JPEG), file[start:])
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// With the name in it a file still is what it was.
func TestTheImprintHurtsNothing(t *testing.T) {
	if m, err := jpeg.Decode(bytes.NewReader(inJPEG(encoded(t, "jpeg")))); err != nil || m.Bounds().Dx() != 5 {
		t.Error(err)
	}
	if m, err := gif.DecodeAll(bytes.NewReader(must(InGIF(encoded(t, "gif"))))); err != nil || m.Config.Width != 5 {
		t.Error(err)
	}
	var v map[string]any
	if err := json.Unmarshal(InJSON([]byte("{\n  \"a\": 1\n}\n")), &v); err != nil || v["a"] != 1.0 || v["generator"] != Name {
		t.Errorf("%v, %v", v, err)
	}
	for _, plain := range []string{"[]\n", "{}\n", "3\n"} {
		if got := string(InJSON([]byte(plain))); got != plain {
			t.Errorf("%q became %q", plain, got)
		}
	}
	if _, err := InGIF([]byte("GIF89a")); err == nil {
		t.Error("half a GIF was taken")
	}
}

// A file may be anything.
func FuzzOf(f *testing.F) {
	for _, s := range []string{"\x89PNG\r\n\x1a\n\x00\x00\x00\x00IEND\x00\x00\x00\x00", "\xff\xd8\xff\xfe\x00\x02", "GIF89a\x00\x00\x00\x00\x80\x00\x00", "glTF\x02\x00\x00\x00", "%PDF-", "{"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) { Of(b) })
}
