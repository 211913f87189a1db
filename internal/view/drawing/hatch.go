package drawing

import (
	"image"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

// Hatch covers, on the picture of a view, the pieces of works that the eye does not see, as if one could see through
// what hides them. Pieces that face away are left out.
func Hatch(img *image.NRGBA, s *picture.Stage, v booth.View, o picture.Options, pieces []geom.Polygon) {
	p := newPaper(img)
	eye := v.From(o.Eye)
	var shapes [][]spot
	for _, q := range pieces {
		if q.Normal().Dot(eye.Sub(q.Centre())) <= 0 {
			continue
		}
		var shape []spot
		for _, c := range before(q, func(c geom.Vec) float64 { _, _, d, _ := s.Project(v, o, c); return d }) {
			x, y, _, _ := s.Project(v, o, c)
			shape = append(shape, spot{x, y})
		}
		if len(shape) > 2 {
			shapes = append(shapes, shape)
		}
	}
	p.hatch(shapes)
}

// before is the part of a flat shape that lies more than a hand's breadth before the camera.
func before(q geom.Polygon, depth func(geom.Vec) float64) (out geom.Polygon) {
	const hand = 0.1 // metres
	for i, a := range q {
		b := q[(i+1)%len(q)]
		d, e := depth(a)-hand, depth(b)-hand
		if d >= 0 {
			out = append(out, a)
		}
		if (d < 0) != (e < 0) {
			out = append(out, a.Lerp(b, d/(d-e)))
		}
	}
	return out
}
