package geom

import (
	"cmp"
	"math"
	"slices"
)

// Prismatoid is the convex hull of two sets of points in two level planes of a frame, in the frame's coordinates: those of
// low have one height Y, those of high another, greater one. Points that lie on one line, or within thin metres of one, are
// made thin metres wide, so that a piece of cloth is a solid. It takes n log n steps.
//
// A face between the two planes holds a side of one outline and the corner of the other that is farthest out from that
// side; so the faces come in the order of the sides' directions.
func Prismatoid(f Frame, low, high []Vec, thin float64) Convex {
	p, q := outline(low, thin), outline(high, thin)
	n, m := len(p), len(q)
	corners := make([]Vec, 0, n+m)
	for _, v := range append(p, q...) {
		corners = append(corners, f.At(v))
	}
	faces := make([][]int, 2, n+m+2)
	for i := range n {
		faces[0] = append(faces[0], n-1-i)
	}
	for j := range m {
		faces[1] = append(faces[1], n+j)
	}
	a, b := directions(p), directions(q)
	const parallel = 1e-10 // radians
	for i, j := 0, 0; i < n || j < m; {
		// Beyond its last side an outline is at its first corner again, and waits there for the other one.
		turn := math.Inf(1)
		switch {
		case i == n:
			turn = math.Inf(-1)
		case j < m:
			turn = b[j] - a[i]
		}
		i1, j1, p0, q0 := (i+1)%n, n+(j+1)%m, i%n, n+j%m
		switch {
		case math.Abs(turn) < parallel:
			faces = append(faces, []int{p0, i1, j1, q0})
			i, j = i+1, j+1
		case turn > 0:
			faces = append(faces, []int{p0, i1, q0})
			i++
		default:
			faces = append(faces, []int{p0, j1, q0})
			j++
		}
	}
	return NewConvex(corners, faces)
}

// directions are the angles in radians, from -π/2 up to 3π/2, at which the sides of a level outline run, seen from above.
func directions(p []Vec) []float64 {
	out := make([]float64, len(p))
	for i, v := range p {
		d := p[(i+1)%len(p)].Sub(v)
		if out[i] = math.Atan2(d.X, d.Z); out[i] < -math.Pi/2 || i > 0 && out[i] < out[i-1] {
			out[i] += 2 * math.Pi
		}
	}
	return out
}

// outline is the convex hull of points of one height, counterclockwise seen from above, from the corner of least Z and X on.
func outline(points []Vec, thin float64) []Vec {
	h := level(points)
	wide := 0.0
	var along Vec // of the longest side
	for i, v := range h {
		if d := h[(i+1)%len(h)].Sub(v); d.Len() > along.Len() {
			along = d
		}
	}
	side := Up.Cross(along).Unit()
	for _, v := range h {
		wide = max(wide, math.Abs(v.Sub(h[0]).Dot(side)))
	}
	if len(h) > 2 && wide >= thin {
		return h
	}
	var both []Vec
	for _, v := range h {
		both = append(both, v.Add(side.Mul(thin/2)), v.Sub(side.Mul(thin/2)))
	}
	return level(both)
}

// level is the hull by Andrew's two chains. Corners within a hair of the line between their neighbours are left out.
func level(points []Vec) []Vec {
	const hair = 1e-7 // metres
	points = slices.Clone(points)
	slices.SortFunc(points, func(a, b Vec) int { return cmp.Or(cmp.Compare(a.Z, b.Z), cmp.Compare(a.X, b.X)) })
	points = slices.Compact(points)
	var h []Vec
	chain := func(v Vec, keep int) {
		for len(h) > keep {
			a, b := h[len(h)-1].Sub(h[len(h)-2]), v.Sub(h[len(h)-2])
			if float64(a.Z*b.X)-float64(a.X*b.Z) > hair*b.Len() {
				break
			}
			h = h[:len(h)-1]
		}
		h = append(h, v)
	}
	for _, v := range points {
		chain(v, 1)
	}
	for i, keep := len(points)-2, len(h); i >= 0; i-- {
		chain(points[i], keep)
	}
	return h[:max(1, len(h)-1)]
}
