package colour

import (
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// tag is what stands in a profile under a name (ICC.1:2022, section 7.3).
func tag(t *testing.T, profile []byte, name string) []byte {
	t.Helper()
	for i := range binary.BigEndian.Uint32(profile[128:]) {
		e := profile[132+12*i:]
		if string(e[:4]) == name {
			at, n := binary.BigEndian.Uint32(e[4:]), binary.BigEndian.Uint32(e[8:])
			if at%4 != 0 {
				t.Errorf("%s begins at %d, which is no multiple of four", name, at)
			}
			return profile[at : at+n]
		}
	}
	t.Fatalf("the profile has no %s", name)
	return nil
}

func numbers(b []byte) (out []float64) {
	for ; len(b) >= 4; b = b[4:] {
		out = append(out, float64(int32(binary.BigEndian.Uint32(b)))/65536)
	}
	return out
}

// The profile's head, primaries and curve, from the chromaticities of IEC 61966-2-1 (red 0.64, 0.33; green 0.30, 0.60;
// blue 0.15, 0.06; white 0.3127, 0.3290) by Bradford's method with its published cone responses, both from memory.
func TestProfile(t *testing.T) {
	p := Profile()
	if n := int(binary.BigEndian.Uint32(p)); n != len(p) || string(p[36:40]) != "acsp" || string(p[12:24]) != "mntrRGB XYZ " {
		t.Fatalf("%d bytes, the head says %d: %q", len(p), n, p[:40])
	}
	xyz := func(x, y float64) [3]float64 { return [3]float64{x / y, 1, (1 - x - y) / y} }
	times := func(m [3][3]float64, v [3]float64) (out [3]float64) {
		for i, r := range m {
			out[i] = r[0]*v[0] + r[1]*v[1] + r[2]*v[2]
		}
		return out
	}
	cones := [3][3]float64{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}
	d65, d50 := xyz(0.3127, 0.3290), [3]float64{0.9642, 1, 0.8249}
	from, to := times(cones, d65), times(cones, d50)
	adapted := func(v [3]float64) [3]float64 {
		c := times(cones, v)
		for k := range c {
			c[k] *= to[k] / from[k]
		}
		return solve(cones, c)
	}
	r, g, b := xyz(0.64, 0.33), xyz(0.30, 0.60), xyz(0.15, 0.06)
	amounts := solve([3][3]float64{{r[0], g[0], b[0]}, {r[1], g[1], b[1]}, {r[2], g[2], b[2]}}, d65)
	near := func(what string, got []float64, want [3]float64) {
		for k := range want {
			if math.Abs(got[k]-want[k]) > 2e-4 {
				t.Errorf("%s is %v, want %v", what, got, want)
			}
		}
	}
	for k, c := range [][3]float64{r, g, b} {
		for i := range c {
			c[i] *= amounts[k]
		}
		name := string("rgb"[k])
		near(name+"XYZ", numbers(tag(t, p, name+"XYZ")[8:]), adapted(c))
		curve := tag(t, p, name+"TRC")
		n := numbers(curve[12:]) // g a b c d
		for v := 0.0; v <= 1; v += 1.0 / 255 {
			got := n[3] * v
			if v >= n[4] {
				got = math.Pow(n[1]*v+n[2], n[0])
			}
			if math.Abs(got-Linear(v)) > 3e-5 {
				t.Errorf("the curve of %s at %.4f is %.6f, sRGB has %.6f", name, v, got, Linear(v))
			}
		}
	}
	near("wtpt", numbers(tag(t, p, "wtpt")[8:]), d50)
	turn := numbers(tag(t, p, "chad")[8:])
	for k := range 3 {
		unit := [3]float64{}
		unit[k] = 1
		near("chad", []float64{turn[k], turn[3+k], turn[6+k]}, adapted(unit))
	}
}

// solve is x of m·x = v, by Cramer's rule.
func solve(m [3][3]float64, v [3]float64) (out [3]float64) {
	det := func(m [3][3]float64) float64 {
		return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	}
	for k := range out {
		n := m
		for i := range n {
			n[i][k] = v[i]
		}
		out[k] = det(n) / det(m)
	}
	return out
}

// A colour engine of others (Little CMS, in ImageMagick) takes the profile for the sRGB that it has from elsewhere.
func TestProfileElsewhere(t *testing.T) {
	const theirs = "/usr/share/color/icc/sRGB.icc" // of Debian's icc-profiles-free
	convert, err := exec.LookPath("convert-im6.q16")
	if err != nil {
		convert, err = exec.LookPath("magick")
	}
	if _, missing := os.Stat(theirs); err != nil || missing != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal("neither ImageMagick nor icc-profiles-free")
		}
		t.Skip("needs ImageMagick and icc-profiles-free")
	}
	ours := filepath.Join(t.TempDir(), "ours.icc")
	if err := os.WriteFile(ours, Profile(), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, way := range [][2]string{{ours, theirs}, {theirs, ours}} {
		for _, c := range []string{"255,255,255", "0,0,0", "128,128,128", "200,60,40", "40,140,60", "50,70,190", "255,0,0", "10,10,12"} {
			out, err := exec.Command(convert, "xc:rgb("+c+")", "-profile", way[0], "-profile", way[1], "-depth", "8",
				"-format", "%[fx:round(255*r)],%[fx:round(255*g)],%[fx:round(255*b)]", "info:").CombinedOutput()
			if err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			got, want := strings.Split(string(out), ","), strings.Split(c, ",")
			for k := range want {
				g, _ := strconv.Atoi(got[k])
				if w, _ := strconv.Atoi(want[k]); g < w-1 || g > w+1 {
					t.Errorf("%s from %s to %s is %s", c, filepath.Base(way[0]), filepath.Base(way[1]), out)
				}
			}
		}
	}
}

// The data of every tag begins at a whole number of four bytes (ICC.1:2022, 7.3.5), and so ends the profile.
func TestTagsAreAligned(t *testing.T) {
	p := Profile()
	for k := range binary.BigEndian.Uint32(p[128:]) {
		entry := p[132+12*k:]
		if at := binary.BigEndian.Uint32(entry[4:]); at%4 != 0 {
			t.Errorf("%s begins at %d", entry[:4], at)
		}
	}
	if len(p)%4 != 0 {
		t.Errorf("%d bytes", len(p))
	}
}
