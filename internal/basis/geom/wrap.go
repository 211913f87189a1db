package geom

import (
	"cmp"
	"math"
	"slices"
)

// Skin is the surface of a body: points, and triangles counterclockwise from outside.
type Skin struct {
	Points    []Vec
	Triangles [][3]int
}

// Fit is how closely solids fit a skin.
type Fit struct {
	Out    float64 // metres that they may stand out of it where it is hollow
	Slack  float64 // metres that a point of it may be outside of them
	Rough  float64 // metres that a point may be outside while a piece is to be cut further anyway: quicker; 0: no more than in the end
	Fewest int     // triangles: a piece with fewer is not cut further
	Most   int     // solids: of more that there could be, the worst pieces are cut first
}

// Wrapped are convex hulls of pieces of the skin that some of its triangles make, so small that they fit. Together they hide what the skin
// hides: whatever meets the skin meets the hull of a piece of it. A skin that is no closed body is a millimetre thick.
func (s Skin) Wrapped(triangles []int, fit Fit) []Convex {
	patches := []patch{s.wrap(triangles, fit)}
	for len(patches) < fit.Most {
		worst := 0
		for i := range patches {
			if patches[i].out > patches[worst].out {
				worst = i
			}
		}
		if p := patches[worst]; p.out <= fit.Out {
			break
		} else if len(p.triangles) < fit.Fewest {
			patches[worst].out = 0
		} else {
			two := s.cut(p, fit)
			patches = slices.Replace(patches, worst, worst+1, two[0], two[1])
		}
	}
	out := make([]Convex, len(patches))
	for i, p := range patches {
		if p.rough {
			p = s.wrapAt(p.triangles, fit.Slack)
		}
		out[i] = p.hull
	}
	return out
}

// patch is a piece of a skin with its hull, and how far that stands out.
type patch struct {
	triangles []int
	hull      Convex
	out       float64 // metres
	worst     int     // the triangle that is deepest in it
	rough     bool    // its hull is
}

// cut is a piece in two, across its longest axis, in the middle or where it is hollowest, whichever leaves less standing out.
func (s Skin) cut(p patch, fit Fit) (best [2]patch) {
	along := func(v Vec) float64 { return v.Y }
	lo, hi := p.hull.Bounds()
	if d := hi.Sub(lo); d.X > d.Y && d.X > d.Z {
		along = func(v Vec) float64 { return v.X }
	} else if d.Z > d.Y {
		along = func(v Vec) float64 { return v.Z }
	}
	order := slices.Clone(p.triangles)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(along(s.Middle(a)), along(s.Middle(b))) })
	least, n := math.Inf(1), len(order)
	for _, at := range [2]int{n / 2, max(1, n/6, min(slices.Index(order, p.worst), n*5/6))} {
		two := [2]patch{s.wrap(order[:at], fit), s.wrap(order[at:], fit)}
		if o := two[0].out + two[1].out; o < least {
			least, best = o, two
		}
	}
	return best
}

// wrap is some triangles with their hull, roughly where that says enough.
func (s Skin) wrap(triangles []int, fit Fit) patch {
	if fit.Rough > fit.Slack {
		if p := s.wrapAt(triangles, fit.Rough); p.out > fit.Out+2*fit.Rough {
			p.rough = true
			return p
		}
	}
	return s.wrapAt(triangles, fit.Slack)
}

func (s Skin) wrapAt(triangles []int, slack float64) patch {
	var points []Vec
	known := map[int]bool{}
	for _, i := range triangles {
		for _, k := range s.Triangles[i] {
			if !known[k] {
				known[k] = true
				points = append(points, s.Points[k])
			}
		}
	}
	c, ok := Hull(points, slack)
	if !ok { // they lie in one plane: a little of what is behind it too
		return s.flat(triangles, points)
	}
	p := patch{triangles: triangles, hull: c, worst: triangles[0]}
	var planes []Polygon
	var normals []Vec
	for i := range c.Faces {
		planes = append(planes, c.Face(i))
		normals = append(normals, planes[i].Normal())
	}
	for _, i := range triangles {
		n := s.area(i).Unit()
		for _, k := range s.Triangles[i] {
			v, out := s.Points[k].Lerp(s.Middle(i), 0.5), 1.0 // metres from there straight out of the hull
			for m, q := range normals {
				if t := q.Dot(n); t > 1e-6 {
					out = min(out, planes[m][0].Sub(v).Dot(q)/t)
				}
			}
			if out > p.out {
				p.out, p.worst = out, i
			}
		}
	}
	return p
}

// flat is the hull of triangles in one plane. It stands out into what they leave free, by the side of a square as large.
func (s Skin) flat(triangles []int, points []Vec) patch {
	const deep = 0.001 // metres
	n := s.area(triangles[0]).Unit()
	c, _ := Hull(append(points, s.Middle(triangles[0]).Sub(n.Mul(deep))), 0)
	free := 0.0
	for i := range c.Faces {
		if f := c.Face(i); f.Normal().Dot(n) > 0.999 {
			free += f.Area()
		}
	}
	for _, i := range triangles {
		free -= s.area(i).Len() / 2
	}
	return patch{triangles: triangles, hull: c, out: math.Sqrt(max(0, free)), worst: triangles[len(triangles)/2]}
}

// Middle is the middle of triangle i.
func (s Skin) Middle(i int) Vec {
	t := s.Triangles[i]
	return s.Points[t[0]].Add(s.Points[t[1]]).Add(s.Points[t[2]]).Mul(1.0 / 3)
}

// area points out of triangle i and is twice as long as it is large.
func (s Skin) area(i int) Vec {
	t := s.Triangles[i]
	a := s.Points[t[0]]
	return s.Points[t[1]].Sub(a).Cross(s.Points[t[2]].Sub(a))
}
