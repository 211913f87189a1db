package art

import (
	"encoding/binary"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"
)

// The map of the unit square onto a quad is fixed by its four corners; what follows from that is in any textbook
// (Heckbert 1989; Hartley and Zisserman, "Multiple View Geometry", 2nd ed., 2.3): corners go to corners, the meeting of
// the diagonals to the middle, and the cross-ratio of four points in a line is kept.
func TestProjectiveMap(t *testing.T) {
	for _, q := range []Quad{
		{{0, 0}, {100, 0}, {100, 80}, {0, 80}},              // no slant at all
		{{10, 20}, {110, 50}, {120, 150}, {20, 120}},        // a parallelogram: affine
		{{30, 10}, {90, 10}, {120, 100}, {0, 100}},          // from below
		{{120, 95}, {1830, 140}, {1795, 1320}, {150, 1290}}, // by hand
	} {
		m := ontoQuad(q)
		for i, c := range [4]Spot{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
			if p := m.at(c.X, c.Y); math.Hypot(p.X-q[i].X, p.Y-q[i].Y) > 1e-9 {
				t.Errorf("%v: corner %d goes to %v", q, i, p)
			}
		}
		// The diagonals' meeting point by Cramer's rule.
		d1, d2 := Spot{q[2].X - q[0].X, q[2].Y - q[0].Y}, Spot{q[3].X - q[1].X, q[3].Y - q[1].Y}
		s := ((q[1].X-q[0].X)*d2.Y - (q[1].Y-q[0].Y)*d2.X) / (d1.X*d2.Y - d1.Y*d2.X)
		want := Spot{q[0].X + s*d1.X, q[0].Y + s*d1.Y}
		if p := m.at(0.5, 0.5); math.Hypot(p.X-want.X, p.Y-want.Y) > 1e-9 {
			t.Errorf("%v: the middle goes to %v, the diagonals meet at %v", q, p, want)
		}
		var on [4]float64
		for i, u := range []float64{0, 0.2, 0.5, 1} {
			p := m.at(u, 0.3)
			a := m.at(0, 0.3)
			on[i] = math.Hypot(p.X-a.X, p.Y-a.Y)
		}
		cross := func(a, b, c, d float64) float64 { return (c - a) * (d - b) / ((c - b) * (d - a)) }
		if got, want := cross(on[0], on[1], on[2], on[3]), cross(0, 0.2, 0.5, 1); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v: cross-ratio %v, want %v", q, got, want)
		}
	}
	// Worked by hand from Heckbert's formulas: the square onto the trapezium (0,0) (4,0) (3,2) (1,2): sx = -2, sy = 0,
	// dx1 = 1, dy1 = -2, dx2 = -2, dy2 = 0, so det = -4, g = 0, h = (1·0 - (-2)(-2)) / -4 = 1.
	m := ontoQuad(Quad{{0, 0}, {4, 0}, {3, 2}, {1, 2}})
	if want := (projective{a: 4, b: 2, c: 0, d: 0, e: 4, f: 0, g: 0, h: 1}); m != want {
		t.Errorf("trapezium: %+v, want %+v", m, want)
	}
}

// dots is a work with nine dark dots, in shares of its width and height.
var dots = [][2]float64{{0.1, 0.1}, {0.5, 0.1}, {0.9, 0.1}, {0.1, 0.5}, {0.5, 0.5}, {0.9, 0.5}, {0.1, 0.9}, {0.5, 0.9}, {0.9, 0.9}}

// slanted is a photograph of that work, width to height 3 : 2, on a grey wall, made by following each ray back: the
// inverse of the map onto q by the adjugate matrix, so not by the code under test.
func slanted(q Quad, w, h int) *image.NRGBA {
	p := ontoQuad(q)
	m := [3][3]float64{{p.a, p.b, p.c}, {p.d, p.e, p.f}, {p.g, p.h, 1}}
	var inv [3][3]float64
	for i := range 3 {
		for j := range 3 {
			a, b, c, d := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			inv[i][j] = m[a][c]*m[b][d] - m[a][d]*m[b][c]
		}
	}
	out := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sum := 0.0
			const n = 4
			for k := range n * n {
				px, py := float64(x)+(float64(k%n)+0.5)/n, float64(y)+(float64(k/n)+0.5)/n
				u, v, z := inv[0][0]*px+inv[0][1]*py+inv[0][2], inv[1][0]*px+inv[1][1]*py+inv[1][2], inv[2][0]*px+inv[2][1]*py+inv[2][2]
				u, v = u/z, v/z
				light := 128.0 // the wall
				if u >= 0 && u <= 1 && v >= 0 && v <= 1 {
					light = 240
					for _, d := range dots {
						if math.Hypot((u-d[0])*3, (v-d[1])*2) < 0.12 {
							light = 20
						}
					}
				}
				sum += light / (n * n)
			}
			g := uint8(math.Round(sum))
			out.SetNRGBA(x, y, color.NRGBA{g, g, g, 255})
		}
	}
	return out
}

func TestStraightenedToHalfAPixel(t *testing.T) {
	q := Quad{{171.5, 63.2}, {702, 130.7}, {668.4, 520}, {120.3, 581.1}}
	m := slanted(q, 800, 640)
	for _, c := range []struct {
		side int
		turn uint16
	}{{2048, 1}, {300, 1}, {600, 6}, {600, 8}, {600, 3}} {
		file := asPNG(t, m)
		if c.turn > 1 { // stored on its side, looked at upright
			back := map[uint16]int{3: 3, 6: 8, 8: 6}[c.turn]
			file = withPNGExif(asPNG(t, upright(m, back)), binary.LittleEndian, c.turn)
		}
		im, err := (Wish{Name: "a", Side: c.side, Corners: &q, Shape: 1.5}).decode(file, nil)
		if err != nil {
			t.Fatal(err)
		}
		if want := min(c.side, 552); im.Width != want || math.Abs(float64(im.Height)-float64(want)/1.5) > 0.5 {
			t.Errorf("side %d: %d x %d", c.side, im.Width, im.Height)
		}
		w, h := float64(im.Width), float64(im.Height)
		worst := 0.0
		for _, d := range dots { // the centre of darkness around each dot
			cx, cy, mass := 0.0, 0.0, 0.0
			for y := int((d[1] - 0.09) * h); y < int((d[1]+0.09)*h); y++ {
				for x := int((d[0] - 0.06) * w); x < int((d[0]+0.06)*w); x++ {
					k := 240 - float64(im.Pixels().NRGBAAt(x, y).G)
					if k > 30 {
						cx, cy, mass = cx+k*(float64(x)+0.5), cy+k*(float64(y)+0.5), mass+k
					}
				}
			}
			worst = max(worst, math.Hypot(cx/mass-d[0]*w, cy/mass-d[1]*h))
		}
		if !(worst < 0.5) {
			t.Errorf("side %d, orientation %d: a dot is %.2f pixels off", c.side, c.turn, worst)
		}
		t.Logf("side %d, orientation %d: the worst dot is %.3f pixels off", c.side, c.turn, worst)
		for _, p := range []image.Point{{1, 1}, {im.Width - 2, 1}, {1, im.Height - 2}, {im.Width - 2, im.Height - 2}} {
			if g := im.Pixels().NRGBAAt(p.X, p.Y).G; g < 215 {
				t.Errorf("side %d: the wall is seen at %v (%d)", c.side, p, g)
			}
		}
	}
}

func TestCornersThatCannotBe(t *testing.T) {
	file := asPNG(t, photograph(400, 300))
	for want, q := range map[string]Quad{
		"go round the wrong way": {{10, 10}, {10, 290}, {390, 290}, {390, 10}},
		"not those of a flat":    {{10, 10}, {390, 290}, {390, 10}, {10, 290}},
		"is not in":              {{10, 10}, {500, 10}, {390, 290}, {10, 290}},
		"not those":              {{10, 10}, {390, 10}, {200, 10}, {10, 290}},
	} {
		if _, err := (Wish{Name: "a", Corners: &q, Shape: 1}).decode(file, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v", q, err)
		}
	}
}

func BenchmarkStraighten12Megapixels(b *testing.B) {
	m := photograph(4000, 3000)
	q := Quad{{171.5, 163.2}, {3702, 330.7}, {3668.4, 2520}, {220.3, 2581.1}}
	for b.Loop() {
		straighten(m, q, image.Pt(1500, 1000))
	}
}
