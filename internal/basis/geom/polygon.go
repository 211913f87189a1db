package geom

import "math"

// Polygon is a flat polygon of at least three corners, counterclockwise seen from the side that it faces.
type Polygon []Vec

// Rect is the rectangle of the frame's XY plane from (x0, y0) to (x1, y1), facing the frame's +Z.
func Rect(f Frame, x0, y0, x1, y1 float64) Polygon {
	return Polygon{f.At(Vec{x0, y0, 0}), f.At(Vec{x1, y0, 0}), f.At(Vec{x1, y1, 0}), f.At(Vec{x0, y1, 0})}
}

// areaVec is the polygon's normal times twice its area (Newell's formula, taken about its first corner).
func (p Polygon) areaVec() Vec {
	var s Vec
	for i := 1; i+1 < len(p); i++ {
		s = s.Add(p[i].Sub(p[0]).Cross(p[i+1].Sub(p[0])))
	}
	return s
}

// Area in square metres.
func (p Polygon) Area() float64 { return p.areaVec().Len() / 2 }

// Normal is the unit direction that the polygon faces; zero if the polygon has no area.
func (p Polygon) Normal() Vec { return p.areaVec().Unit() }

// Centre is the mean of the corners.
func (p Polygon) Centre() Vec {
	var s Vec
	for _, v := range p {
		s = s.Add(v)
	}
	return s.Mul(1 / float64(len(p)))
}

// SolidAngle in steradians that the polygon fills at the point eye, positive when it faces eye, negative when it is
// seen from behind. Sum of the triangles' angles by Van Oosterom and Strackee, IEEE Trans. Biomed. Eng. 30(2), 1983.
func (p Polygon) SolidAngle(eye Vec) float64 {
	total := 0.0
	a := p[0].Sub(eye)
	for i := 1; i+1 < len(p); i++ {
		b, c := p[i].Sub(eye), p[i+1].Sub(eye)
		la, lb, lc := a.Len(), b.Len(), c.Len()
		num := a.Dot(b.Cross(c))
		den := float64(la*lb)*lc + float64(a.Dot(b)*lc) + float64(a.Dot(c)*lb) + float64(b.Dot(c)*la)
		total -= 2 * math.Atan2(num, den)
	}
	return total
}
