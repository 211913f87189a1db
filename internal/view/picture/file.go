package picture

import (
	"fmt"
	"image"
	"io"
	"path/filepath"
	"slices"
	"strings"
)

// File is a kind of picture file.
type File struct {
	Name       string
	Extensions []string // with the point, in small letters
	Write      func(io.Writer, *image.NRGBA) error
}

// Files are the kinds in which a picture can be written. All of them say in the file that the picture is sRGB.
var Files = []File{
	{"PNG", []string{".png"}, WritePNG},
	{"JPEG", []string{".jpg", ".jpeg"}, func(w io.Writer, m *image.NRGBA) error {
		const quality = 92 // flat walls and letters show no blocks yet; seen on the demo
		return WriteJPEG(w, m, quality)
	}},
	{"WebP", []string{".webp"}, WriteWebP},
}

// FileNamed is the kind of picture file that a file's name asks for by its extension.
func FileNamed(name string) (File, error) {
	ext := filepath.Ext(name)
	for _, f := range Files {
		if slices.Contains(f.Extensions, strings.ToLower(ext)) {
			return f, nil
		}
	}
	const can = "end the name in .png, .jpg or .webp: a picture is written as PNG, JPEG or WebP"
	if ext == "" || ext == "." {
		return File{}, fmt.Errorf("%s does not say what kind of picture it is to be (%s)", name, can)
	}
	return File{}, fmt.Errorf("%s: no picture is written as %s (%s)", name, ext, can)
}
