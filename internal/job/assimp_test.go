package job_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
)

// A third reader, assimp, which many programs read models with, finds the finished booth in the rest pose: as many triangles as were
// written, within the same bounds, and each with normals on the side that it faces.
func TestAssimp(t *testing.T) {
	const assimp = "/usr/bin/assimp"
	installed(t, assimp)
	m := demo(t)
	file := write(t, m, "booth.glb")
	in, out := filepath.Join(t.TempDir(), "booth.glb"), filepath.Join(t.TempDir(), "booth.obj")
	if err := os.WriteFile(in, file, 0o644); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command(assimp, "export", in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	triangles, lo, hi := 0, geom.Vec{X: 1e9, Y: 1e9, Z: 1e9}, geom.Vec{X: -1e9, Y: -1e9, Z: -1e9}
	d := readable(t, file)
	for _, f := range faces(t, d) {
		triangles++
		for _, p := range f.Polygon {
			lo, hi = geom.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}, geom.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
		}
	}
	obj, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer obj.Close()
	var points, normals []geom.Vec
	read, behind := 0, 0
	for lines := bufio.NewScanner(obj); lines.Scan(); {
		kind, rest, _ := strings.Cut(lines.Text(), " ")
		var v geom.Vec
		switch kind {
		case "v", "vn":
			if _, err := fmt.Sscan(rest, &v.X, &v.Y, &v.Z); err != nil {
				t.Fatalf("%q: %v", lines.Text(), err)
			}
			if kind == "v" {
				points = append(points, v)
				if off := max(lo.X-v.X, v.X-hi.X, lo.Y-v.Y, v.Y-hi.Y, lo.Z-v.Z, v.Z-hi.Z); off > 1e-5 {
					t.Fatalf("a corner at %v is %g m outside", v, off)
				}
			} else {
				normals = append(normals, v)
			}
		case "f":
			read++
			var p geom.Polygon
			var ns []geom.Vec
			for _, corner := range strings.Fields(rest) {
				at := strings.Split(corner, "/") // place, place on the image, normal
				var k, n int
				if _, err := fmt.Sscan(at[0]+" "+at[2], &k, &n); err != nil {
					t.Fatalf("%q: %v", lines.Text(), err)
				}
				p, ns = append(p, points[k-1]), append(ns, normals[n-1])
			}
			for _, n := range ns {
				if p.Area() > 1e-7 && p.Normal().Dot(n) < 0 {
					behind++
				}
			}
		}
	}
	if read != triangles || read < 30000 || behind > read/1000 {
		t.Errorf("%d triangles of %d, %d normals on the wrong side", read, triangles, behind)
	}
	if !slices.ContainsFunc(points, func(p geom.Vec) bool { return p.Y > hi.Y-1e-5 }) {
		t.Errorf("nothing is %g m high", hi.Y)
	}
}
