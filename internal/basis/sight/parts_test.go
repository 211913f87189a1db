package sight

import (
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

// cut is the two parts of a convex polygon on either side of a line through it.
func cut(p geom.Polygon, r *rand.Rand) (one, other geom.Polygon) {
	across := func() (int, geom.Vec) {
		i := r.IntN(len(p))
		return i, p[i].Lerp(p[(i+1)%len(p)], 0.02+0.96*r.Float64())
	}
	i, a := across()
	j, b := across()
	for j == i {
		j, b = across()
	}
	if i > j {
		i, j, a, b = j, i, b, a
	}
	one = append(geom.Polygon{a}, p[i+1:j+1]...)
	other = append(geom.Polygon{b}, p[j+1:]...)
	return append(one, b), append(append(other, p[:i+1]...), a)
}

// What is seen of the parts of a polygon, and what each solid hides of them, is what is seen of the whole; so are the
// solid angles.
func TestPartsOfAPolygonAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	var g Gaze
	partly := 0
	for range 300 {
		eye, target, solids := scene(t, r, 1+r.IntN(10))
		whole := g.See(eye, target, solids, -1)
		area, angle, hidden := whole.Visible*target.Area(), whole.SolidAngle, map[int]float64{}
		if whole.Visible > 0.01 && whole.Visible < 0.99 {
			partly++
		}
		for _, h := range whole.Hidden {
			hidden[h.Owner] = h.Part * target.Area()
		}
		one, other := cut(target, r)
		a, b := cut(one, r)
		for _, part := range []geom.Polygon{a, b, other} {
			s := g.See(eye, part, solids, -1)
			area -= s.Visible * part.Area()
			angle -= s.SolidAngle
			for _, h := range s.Hidden {
				hidden[h.Owner] -= h.Part * part.Area()
			}
		}
		near(t, "area seen of the whole, less that of its parts", area, 0, 1e-9)
		near(t, "solid angle of the whole, less those of its parts", angle, 0, 1e-9)
		for owner := range len(solids) {
			near(t, "area hidden of the whole, less that of its parts", hidden[owner], 0, 1e-9)
		}
	}
	if partly < 80 {
		t.Errorf("only %d of 300 polygons are partly hidden: they prove little", partly)
	}
}
