package way

import "boothmock/internal/basis/geom"

// Footprint is the ground below the part of the solid between the heights lo and hi, in metres: nil if no part of the
// solid is there. A solid that only touches lo from below or hi from above is not there.
func Footprint(c geom.Convex, lo, hi float64) Shape {
	bottom, top := c.Bounds()
	if top.Y <= lo || bottom.Y >= hi {
		return nil
	}
	points := make([]Point, 0, len(c.Corners)+len(c.Edges))
	for _, v := range c.Corners {
		if v.Y >= lo && v.Y <= hi {
			points = append(points, Point{v.X, v.Z})
		}
	}
	// What is cut off leaves a corner wherever an edge passes through a height.
	for _, e := range c.Edges {
		a, b := c.Corners[e[0]], c.Corners[e[1]]
		for _, y := range [2]float64{lo, hi} {
			if (a.Y < y) != (b.Y < y) {
				v := a.Lerp(b, (y-a.Y)/(b.Y-a.Y))
				points = append(points, Point{v.X, v.Z})
			}
		}
	}
	return Hull(points)
}
