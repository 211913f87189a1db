//go:build !race

package main

import (
	"bytes"
	"compress/zlib"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"
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

// What arm64 makes, under emulation, is what amd64 makes: a picture and its light within 2 levels, everything else to the byte. It
// takes a minute, so only .ci/run does it.
func TestBothProcessors(t *testing.T) {
	if !long() {
		t.Skip("slow")
	}
	dir := t.TempDir()
	scene := filepath.Join(dir, "booth.yaml")
	if err := os.WriteFile(scene, []byte(bothProcessors), 0o644); err != nil {
		t.Fatal(err)
	}
	processors := []string{"amd64", "arm64"}
	for _, arch := range processors {
		// Without nodynamic the program is not static, and the emulator has no libraries of arm64.
		build := exec.Command("go", "build", "-tags", "nodynamic", "-o", filepath.Join(dir, arch), ".")
		build.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=linux", "GOARCH="+arch)
		if out, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
	}
	// both are what a command prints, or the file that it writes, on the one and on the other.
	both := func(file string, args ...string) (made [2][]byte) {
		for i, arch := range processors {
			run := exec.Command(filepath.Join(dir, arch), args...)
			if arch == "arm64" {
				run = exec.Command("qemu-aarch64", append([]string{run.Path}, args...)...)
			}
			run.Dir = t.TempDir()
			out, err := run.Output()
			if err == nil && file != "" {
				out, err = os.ReadFile(filepath.Join(run.Dir, file))
			}
			if err != nil {
				t.Fatalf("%v: %v", run, err)
			}
			made[i] = out
		}
		return made
	}
	for _, command := range []string{"check", "rehearse"} {
		if made := both("", command, scene, "--json"); !bytes.Equal(made[0], made[1]) {
			t.Errorf("%s differs", command)
		}
	}
	if made := both("pack.pdf", "hang", scene, "--out", "pack.pdf"); !bytes.Equal(withoutPictures(t, made[0]), withoutPictures(t, made[1])) {
		t.Error("the print pack differs in more than its pictures")
	}
	made := both("entrance.png", "see", scene, "--size", "640x360", "--out", "entrance.png")
	if n, worst := apart(decoded(t, made[0]), decoded(t, made[1])); worst > 2 {
		t.Errorf("%d pixels differ by more than 2 levels, one by %d", n, worst)
	}
}

func decoded(t *testing.T, file []byte) image.Image {
	t.Helper()
	m, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return m
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

func distance(a, b uint32) int { return max(int(a>>8)-int(b>>8), int(b>>8)-int(a>>8)) }

// withoutPictures is what a PDF holds besides JPEG pictures, their names, which are their sums, and places in the file that
// depend on their size.
func withoutPictures(t *testing.T, file []byte) []byte {
	t.Helper()
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
