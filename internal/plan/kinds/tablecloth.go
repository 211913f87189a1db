package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Measures of a cloth to the ground, in metres: common practice, no source.
const (
	clothFold   = 0.16  // from fold to fold
	clothFlare  = 0.022 // that the deepest folds stand out at the ground
	clothCorner = 0.055 // that the fold at a corner stands out at the ground, where a square of cloth too many hangs
	clothFolds  = 0.025 // that what hangs before it keeps from the table's edge
	clothRound  = 0.02  // radius of a corner seen from above
	clothEdge   = 0.010 // radius of the bend over the table's edge
)

// station is a place on the table's edge from which cloth hangs.
type station struct {
	at, out geom.Vec // on the edge, and the way the cloth faces there
	along   float64  // metres along the cloth
	flare   float64  // metres that it stands out at the ground
}

// tableCloth is a cloth that lies flat on the top, bends over its edge and falls to the ground in shallow, uneven folds
// that open downwards. At each corner it is gathered into one fold. If pressed, the table's back stands against something
// and the cloth hangs straight there. The solids are its folds, and what is above them.
func tableCloth(f geom.Frame, w, d, h float64, pressed bool) (geom.Mesh, []geom.Convex) {
	ring, corners := edgeOfCloth(w, d)
	drops := []float64{1, 0.72, 0.45, 0.2, 0, 0, 0} // from the ground up; the last three are the bend
	bend := map[int]float64{4: 0, 5: math.Pi / 4, 6: math.Pi / 2}
	rows := make([][]geom.Vec, len(drops))
	for k, drop := range drops {
		over, up := math.Sincos(bend[k])
		y := float64((h-clothEdge)*(1-drop)) + float64(clothEdge*over)
		for _, s := range ring {
			stand := float64(s.flare*math.Pow(drop, 0.85)) - float64(clothEdge*(1-up))
			p := s.at.Add(s.out.Mul(stand)).Add(geom.Vec{Y: y})
			if pressed {
				p.Z = max(p.Z, -d/2)
			}
			rows[k] = append(rows[k], p)
		}
	}
	m := geom.Grid(len(ring)-1, len(drops)-1, func(u, v float64) (geom.Vec, float64, float64) {
		i, k := int(u*float64(len(ring)-1)+0.5), int(v*float64(len(drops)-1)+0.5)
		return f.At(rows[k][i]), ring[i].along, -rows[k][i].Y
	})
	var top geom.Polygon
	for _, k := range corners {
		s := ring[k]
		top = append(top, f.At(s.at.Sub(s.out.Mul(clothEdge)).Add(geom.Vec{Y: h})))
	}
	m.AddPolygon(top)
	solids := pleats(f, rows[:5], wholeFold)
	return m, append(solids, geom.Prismatoid(f, rows[4], rows[5], sheetThick), geom.Prismatoid(f, rows[5], rows[6], sheetThick))
}

// edgeOfCloth is the edge of a table's top, w wide and d deep, as stations from the middle of its back once around, the
// last at the place of the first; and which of them are on its corners.
func edgeOfCloth(w, d float64) (ring []station, corners []int) {
	const turns = 6 // steps around a corner
	x, z := w/2-clothRound, d/2-clothRound
	along := 0.0
	side := func(a, b, out geom.Vec, from, to float64) { // from and to: shares of the side that are walked
		length := a.Dist(b)
		folds := max(2, math.Round(length/clothFold))
		n := int(folds) * 8
		for i := int(from*float64(n) + 0.5); i <= int(to*float64(n)+0.5); i++ {
			t := float64(i) / float64(n)
			near := min(t, 1-t) * length
			uneven := 0.75 + float64(0.25*math.Sin(5*float64(t*folds)+length))
			wave := (1 - math.Cos(2*math.Pi*float64(folds*t))) / 2
			flare := float64(clothFlare*uneven*wave) * (1 - gathered(near, 0.12))
			ring = append(ring, station{a.Lerp(b, t), out, along + float64(length*(t-from)), flare + float64(clothCorner*gathered(near+clothRound*math.Pi/4, 0.055))})
		}
		along += length * (to - from)
	}
	corner := func(middle geom.Vec, angle float64) { // turns from angle a quarter clockwise, seen from above with x right
		arc := clothRound * math.Pi / 2
		corners = append(corners, len(ring)-1)
		for i := 1; i < turns; i++ {
			t := float64(i) / turns
			sin, cos := math.Sincos(angle + float64(math.Pi/2*t))
			out := geom.Vec{X: sin, Z: cos}
			corners = append(corners, len(ring))
			ring = append(ring, station{middle.Add(out.Mul(clothRound)), out, along + float64(arc*t), clothCorner * gathered(arc*math.Abs(t-0.5), 0.055)})
		}
		corners = append(corners, len(ring))
		along += arc
	}
	left, front, right, back := geom.Vec{X: -1}, geom.Vec{Z: 1}, geom.Vec{X: 1}, geom.Vec{Z: -1}
	side(geom.Vec{X: x, Z: -d / 2}, geom.Vec{X: -x, Z: -d / 2}, back, 0.5, 1)
	corner(geom.Vec{X: -x, Z: -z}, math.Pi)
	side(geom.Vec{X: -w / 2, Z: -z}, geom.Vec{X: -w / 2, Z: z}, left, 0, 1)
	corner(geom.Vec{X: -x, Z: z}, 1.5*math.Pi)
	side(geom.Vec{X: -x, Z: d / 2}, geom.Vec{X: x, Z: d / 2}, front, 0, 1)
	corner(geom.Vec{X: x, Z: z}, 0)
	side(geom.Vec{X: w / 2, Z: z}, geom.Vec{X: w / 2, Z: -z}, right, 0, 1)
	corner(geom.Vec{X: x, Z: -z}, 0.5*math.Pi)
	side(geom.Vec{X: x, Z: -d / 2}, geom.Vec{X: -x, Z: -d / 2}, back, 0, 0.5)
	return ring, corners
}

// gathered falls from 1 at a corner to nothing a few times reach away from it.
func gathered(away, reach float64) float64 { return math.Exp(-float64(away * away / (reach * reach))) }
