package geom

import "math"

// Wires are straight round wires side by side: the first from From along Along, each further one Step beside the last.
type Wires struct {
	From, Along, Step Vec
	Count             int
	Radius            float64 // metres
}

// Ends are the ends of the axis of wire number i.
func (w Wires) Ends(i int) (a, b Vec) {
	a = w.From.Add(w.Step.Mul(float64(i)))
	return a, a.Add(w.Along)
}

// Mesh draws each wire as a rod of five sides without ends, one of its edges away from front. Seen from all round, it is as
// wide on average as the round wire, and nowhere more than 3.3 % narrower or 1.7 % wider.
func (w Wires) Mesh(front Vec) Mesh {
	const sides = 5
	radius := w.Radius * math.Pi / (sides * math.Sin(math.Pi/sides)) // the mean width of a convex outline is its length over π (Cauchy)
	x := front.Cross(w.Along).Unit()
	z := w.Along.Cross(x).Unit()
	var edge [sides]Vec
	for k := range edge {
		s, c := math.Sincos(2 * math.Pi * float64(k) / sides)
		edge[k] = z.Mul(-float64(radius * c)).Add(x.Mul(-float64(radius * s)))
	}
	var m Mesh
	for i := range w.Count {
		a, b := w.Ends(i)
		for k, e := range edge {
			o := edge[(k+1)%sides]
			m.AddPolygon(Polygon{a.Add(e), b.Add(e), b.Add(o), a.Add(o)})
		}
	}
	return m
}
