package main

import "math"

type pt struct{ x, y float64 }

// shape is a silhouette: d is the signed distance, negative inside, and the box holds
// all points where d < 0. Heights run 0 (top) to 1; x uses the same unit.
type shape struct {
	x0, y0, x1, y1 float64
	d              func(x, y float64) float64
}

// everywhere is an unbounded box around a distance function.
func everywhere(d func(x, y float64) float64) shape { return shape{-1, -1, 9, 9, d} }

// below is all that lies under the line y = top(x).
func below(top func(x float64) float64) shape {
	return everywhere(func(x, y float64) float64 { return top(x) - y })
}

// band lies between two lines y = top(x) and y = bottom(x).
func band(top, bottom func(x float64) float64) shape {
	return everywhere(func(x, y float64) float64 { return max(top(x)-y, y-bottom(x)) })
}

// oval is an ellipse turned by rot radians; its distance is a good approximation.
func oval(cx, cy, rx, ry, rot float64) shape {
	c, s := math.Cos(rot), math.Sin(rot)
	m := max(rx, ry)
	return shape{cx - m, cy - m, cx + m, cy + m, func(x, y float64) float64 {
		dx, dy := x-cx, y-cy
		u, v := (dx*c+dy*s)/rx, (dy*c-dx*s)/ry
		k := length(u, v)
		if k < 1e-9 {
			return -min(rx, ry)
		}
		return (k - 1) * k / length(u/rx, v/ry)
	}}
}

// outline is a closed polygon.
func outline(p []pt) shape {
	s := bounds(p, 0)
	s.d = func(x, y float64) float64 {
		best, inside := math.MaxFloat64, false
		for i, a := range p {
			b := p[(i+1)%len(p)]
			d, _ := toSegment(x, y, a, b)
			best = min(best, d)
			if (a.y > y) != (b.y > y) && x < (b.x-a.x)*(y-a.y)/(b.y-a.y)+a.x {
				inside = !inside
			}
		}
		if inside {
			return -best
		}
		return best
	}
	return s
}

// ribbon is a line whose half-width is w(t) as t runs 0..1 along it.
func ribbon(p []pt, w func(t float64) float64) shape {
	widest := 0.0
	for i := range 21 {
		widest = max(widest, w(float64(i)/20))
	}
	s := bounds(p, widest)
	half := make([]float64, len(p))
	for i := range p {
		half[i] = w(float64(i) / float64(len(p)-1))
	}
	s.d = func(x, y float64) float64 {
		best := math.MaxFloat64
		for i := range len(p) - 1 {
			d, t := toSegment(x, y, p[i], p[i+1])
			best = min(best, d-lerp(half[i], half[i+1], t))
		}
		return best
	}
	return s
}

// taper is a half-width that runs from a to b.
func taper(a, b float64) func(float64) float64 {
	return func(t float64) float64 { return lerp(a, b, t) }
}

// lens is a half-width that swells to w in the middle: a gouge cut, a leaf.
func lens(w float64) func(float64) float64 {
	return func(t float64) float64 { return w * math.Pow(math.Sin(math.Pi*clamp(t, 0, 1)), 0.75) }
}

func bounds(p []pt, pad float64) shape {
	s := shape{x0: 99, y0: 99, x1: -99, y1: -99}
	for _, q := range p {
		s.x0, s.x1 = min(s.x0, q.x-pad), max(s.x1, q.x+pad)
		s.y0, s.y1 = min(s.y0, q.y-pad), max(s.y1, q.y+pad)
	}
	return s
}

// toSegment gives the distance to segment ab and where along it (0..1) it is nearest.
func toSegment(x, y float64, a, b pt) (d, t float64) {
	dx, dy := b.x-a.x, b.y-a.y
	l := dx*dx + dy*dy
	if l > 0 {
		t = clamp(((x-a.x)*dx+(y-a.y)*dy)/l, 0, 1)
	}
	return length(x-a.x-dx*t, y-a.y-dy*t), t
}

// length is plain Pythagoras: nothing here is near overflow, and math.Hypot is slow.
func length(x, y float64) float64 { return math.Sqrt(x*x + y*y) }

// curve draws a smooth open line through points given as x, y, x, y...
func curve(xy ...float64) []pt { return spline(points(xy), false) }

// loop draws a smooth closed line through points given as x, y, x, y...
func loop(xy ...float64) []pt { return spline(points(xy), true) }

func points(xy []float64) []pt {
	p := make([]pt, len(xy)/2)
	for i := range p {
		p[i] = pt{xy[2*i], xy[2*i+1]}
	}
	return p
}

// spline is a Catmull-Rom curve with six steps between points.
func spline(p []pt, closed bool) []pt {
	const steps = 6
	n := len(p)
	at := func(i int) pt {
		if closed {
			return p[(i+n)%n]
		}
		return p[max(0, min(n-1, i))]
	}
	last := n - 1
	if closed {
		last = n
	}
	var out []pt
	for i := range last {
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		for j := range steps {
			t := float64(j) / steps
			f := func(a, b, c, d float64) float64 {
				return b + 0.5*t*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
			}
			out = append(out, pt{f(a.x, b.x, c.x, d.x), f(a.y, b.y, c.y, d.y)})
		}
	}
	if !closed {
		out = append(out, p[n-1])
	}
	return out
}

// place moves a drawing made around the origin: scaled, turned, set at (cx, cy).
func place(p []pt, cx, cy, scale, turn float64) []pt {
	c, s := math.Cos(turn)*scale, math.Sin(turn)*scale
	out := make([]pt, len(p))
	for i, q := range p {
		out[i] = pt{cx + q.x*c - q.y*s, cy + q.x*s + q.y*c}
	}
	return out
}

// mirror flips a drawing left to right about x = 0.
func mirror(p []pt) []pt {
	out := make([]pt, len(p))
	for i, q := range p {
		out[i] = pt{-q.x, q.y}
	}
	return out
}
