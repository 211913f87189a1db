//go:build !race

package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/gif"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"boothmock/internal/basis/disk"
)

const bothProcessors = `units: in
pitch: {width: 8ft, depth: 6ft, aisle: 10ft, neighbours: none}
tent: {eave: 84, peak: 110}
walls: [{side: back, hang on: mesh, top: 82}]
drapes: {walls: [back], cloth: slategray, fullness: 1.3}
tables: [{name: desk, size: 30 x 20, cloth: linen, against: left, from front: 4}]
works: [{name: a, title: Weir, size: 24 x 36, weight: 6lb, wall: back, price: 300}]
tags: {}
visitors: [{name: guest, who: adult, from left: 60, before front: 20}]
`

// A build on arm64, under emulation, is that of amd64: pictures and light within 2 levels, everything else to the byte. It takes
// minutes, so only .ci/run does it.
func TestBothProcessors(t *testing.T) {
	if os.Getenv("REQUIRE_TOOLS") == "" {
		t.Skip("slow")
	}
	dir := t.TempDir()
	scene := filepath.Join(dir, "booth.yaml")
	if err := os.WriteFile(scene, []byte(bothProcessors), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, arch := range []string{"amd64", "arm64"} {
		program := filepath.Join(dir, "boothmock-"+arch)
		// Without nodynamic the program is not static, and the emulator has no libraries of arm64.
		build := exec.Command("go", "build", "-tags", "nodynamic", "-o", program, ".")
		build.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=linux", "GOARCH="+arch)
		if out, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		run := []string{program, "build", scene, "--out", filepath.Join(dir, arch)}
		if arch == "arm64" {
			run = append([]string{"qemu-aarch64"}, run...)
		}
		if out, err := exec.Command(run[0], run[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", run, err, out)
		}
	}
	files, err := filepath.Glob(filepath.Join(dir, "amd64", "*"))
	if err != nil || len(files) < 15 {
		t.Fatal(files, err)
	}
	steps, err := filepath.Glob(filepath.Join(dir, "amd64", "*", "*"))
	if err != nil || len(steps) < 5 {
		t.Fatal(steps, err)
	}
	for _, file := range append(files, steps...) {
		name, err := filepath.Rel(filepath.Join(dir, "amd64"), file)
		if err != nil {
			t.Fatal(err)
		}
		a, err := os.ReadFile(file)
		if err != nil {
			continue // a folder
		}
		b, err := os.ReadFile(filepath.Join(dir, "arm64", name))
		if err != nil {
			t.Error(err)
			continue
		}
		if name == disk.ContentsFile {
			continue // sums of files that differ
		}
		switch filepath.Ext(name) {
		case ".png":
			one, two := decoded(t, png.Decode, a), decoded(t, png.Decode, b)
			if n, worst := apart(one, two); worst > 2 {
				t.Errorf("%s: %d pixels differ by more than 2 levels, one by %d", name, n, worst)
			}
		case ".gif": // a level can give a pixel another of the 256 colours
			one, two := decoded(t, gif.DecodeAll, a), decoded(t, gif.DecodeAll, b)
			for i := range one.Image {
				if n, _ := apart(one.Image[i], two.Image[i]); n > 100 {
					t.Errorf("%s, picture %d: %d pixels differ", name, i, n)
				}
			}
		case ".glb":
			if n, worst := words(t, a, b); n > 50 || worst > 2*257 {
				t.Errorf("%s: %d numbers differ, one by %d", name, n, worst)
			}
		case ".jpg", ".webp": // a level can change what is packed after it
		case ".pdf", ".html":
			if !bytes.Equal(withoutPictures(t, a), withoutPictures(t, b)) {
				t.Errorf("%s differs in more than its pictures", name)
			}
		default:
			if !bytes.Equal(a, b) {
				t.Errorf("%s differs", name)
			}
		}
	}
}

func decoded[T any](t *testing.T, decode func(io.Reader) (T, error), file []byte) T {
	t.Helper()
	v, err := decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// apart counts the pixels that differ by more than 2 levels, and is the greatest difference.
func apart(a, b image.Image) (n, worst int) {
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r0, g0, b0, _ := a.At(x, y).RGBA()
			r1, g1, b1, _ := b.At(x, y).RGBA()
			d := max(distance(r0, r1), distance(g0, g1), distance(b0, b1))
			if d > 2 {
				n++
			}
			worst = max(worst, d)
		}
	}
	return n, worst
}

// words counts the numbers of 16 bits, as light has them, that differ in two .glb files, and is the greatest difference: where
// a thing that shades next to nothing is just passed over or just not, the last bit of a sine decides.
func words(t *testing.T, a, b []byte) (n, worst int) {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("a .glb has %d bytes and %d", len(a), len(b))
	}
	for i := 0; i+1 < len(a); i += 2 {
		if d := int(binary.LittleEndian.Uint16(a[i:])) - int(binary.LittleEndian.Uint16(b[i:])); d != 0 {
			n, worst = n+1, max(worst, d, -d)
		}
	}
	return n, worst
}

func distance(a, b uint32) int { return max(int(a>>8)-int(b>>8), int(b>>8)-int(a>>8)) }

// withoutPictures is what a page or a PDF holds besides JPEG pictures, the .glb and its sum, names of pictures that are their
// sums, and places in the file that depend on their size.
func withoutPictures(t *testing.T, file []byte) []byte {
	if !bytes.HasPrefix(file, []byte("%PDF")) {
		return regexp.MustCompile(`data:image/jpeg;base64,[^"')]*|id="model">[^<]*|"key":"[0-9a-f]*"`).ReplaceAll(file, nil)
	}
	var out []byte
	for _, s := range regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`).FindAllSubmatch(file, -1) {
		if z, err := zlib.NewReader(bytes.NewReader(s[1])); err == nil {
			text, err := io.ReadAll(z)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, text...)
		}
	}
	return regexp.MustCompile(`/I[0-9a-f]{40}`).ReplaceAll(out, nil)
}
