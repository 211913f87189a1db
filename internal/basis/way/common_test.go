package way

import (
	"math"
	"testing"
)

// area is a shape's area by the shoelace formula (Gauss).
func area(s Shape) float64 {
	sum := 0.0
	for i, p := range s {
		sum += p.cross(s[(i+1)%len(s)])
	}
	return math.Abs(sum) / 2
}

// What two shapes have in common, by hand: squares a quarter over each other, one in the other, a diamond in a square that cuts its corners off
// (1 less four triangles of legs 1/4), and shapes that only touch or lie apart.
func TestCommonByHand(t *testing.T) {
	square := Rect(Point{0, 0}, Point{1, 1})
	diamond := Hull([]Point{{0.5, -0.25}, {1.25, 0.5}, {0.5, 1.25}, {-0.25, 0.5}})
	for _, c := range []struct {
		name string
		s, t Shape
		area float64
	}{
		{"a quarter", square, Rect(Point{0.5, 0.5}, Point{2, 2}), 0.25},
		{"a strip", square, Rect(Point{-1, 0.25}, Point{2, 0.5}), 0.25},
		{"one in the other", square, Rect(Point{0.25, 0.25}, Point{0.5, 0.75}), 0.125},
		{"the same", square, square, 1},
		{"a diamond", square, diamond, 1 - 4*0.25*0.25/2},
		{"a corner of a triangle", square, Hull([]Point{{0.5, 0.5}, {2, 0.5}, {0.5, 2}}), 0.25},
		{"touching", square, Rect(Point{1, 0}, Point{2, 1}), 0},
		{"apart", square, Rect(Point{3, 3}, Point{4, 4}), 0},
	} {
		for _, got := range []Shape{Common(c.s, c.t), Common(c.t, c.s)} {
			if math.Abs(area(got)-c.area) > 1e-12 {
				t.Errorf("%s: %v, of area %v, want %v", c.name, got, area(got), c.area)
			}
			for _, p := range got {
				if _, d := c.s.Nearest(p); d > 1e-12 {
					t.Errorf("%s: %v is not in the first", c.name, p)
				}
				if _, d := c.t.Nearest(p); d > 1e-12 {
					t.Errorf("%s: %v is not in the second", c.name, p)
				}
			}
		}
	}
}
