package picture

import (
	"math"
	"slices"

	"github.com/fogleman/fauxgl"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

const (
	// Corners are set to a grid of this many steps a pixel. With them inside of reach, every product and sum that
	// decides whether a triangle covers a sample is exact in a float64, with fused multiply-add or without: so
	// triangles that share an edge neither overlap nor leave a gap, on any processor.
	grid  = 1 << 10
	reach = 1 << 15 // pixels
	// tie moves the edges that do not own the samples exactly on them; it is less than the least step of an edge's value.
	tie = 1.0 / (2 * grid * grid)
	// bent is by how much, as a share of depth, two triangles that are drawn as one may be off the plane of each other a pixel
	// beyond their common edge, as a pixel is told by one of them: 4 mm at 3 m.
	bent = 64 * (1 - flush)
)

// triangle is set up for drawing: a triangle, or two that share an edge and are seen as a convex quadrilateral, so that what is
// covered is decided once for both. Edge i goes from corner i to the next; its value at a place on the screen is
// a·x + b·y + c, more than 0 inside.
type triangle struct {
	sides          int
	a, b, c        [4]float64
	per            [4]float64 // 1/a
	owns           [4]float64 // 0 for an edge that owns the samples exactly on it (top or left), else -tie
	top            float64    // the depth of its nearest corner
	x0, y0, x1, y1 int        // pixels that it may touch: from x0 to before x1
	split          plane      // less than 0 in the second of two
	panes          [2]pane
	surface        *surface
	number         int // of the surface's facets, which clipping may have made several of
}

// goesOn is whether the surface bends smoothly from one triangle into the other, so that near their edge the light on both is the
// same.
func (t *triangle) goesOn(u *triangle) bool {
	switch s := t.surface; {
	case s == nil || s != u.surface:
		return false
	case t.number == u.number+1:
		return s.facets[t.number].smooth
	case u.number == t.number+1:
		return s.facets[u.number].smooth
	}
	return t.number == u.number
}

// pane is what is seen of a triangle, or of one of two. What is over w is a plane on the screen.
type pane struct {
	depth  plane    // more towards the eye
	perW   plane    // 1/w
	light  [3]plane // the corners' Color, over w
	sun    plane    // what the sun would add, likewise
	u, v   plane    // their Texture, likewise
	mosaic *mosaic
}

// pane is the one at a place on the screen, the same on any processor.
func (t *triangle) pane(x, y float64) *pane {
	if t.sides == 4 && float64(t.split.x*x)+float64(t.split.y*y)+t.split.c < 0 {
		return &t.panes[1]
	}
	return &t.panes[0]
}

// plane is a value that changes evenly over the screen: x·(pixels right) + y·(pixels down) + c.
type plane struct{ x, y, c float64 }

func (p *plane) at(x, y float64) float64 { return p.x*x + p.y*y + p.c }

// line is a plane's values along a row of pixels: x·(pixels right) + c.
type line struct{ x, c float64 }

// along is the plane's line at a height on the screen.
func (p *plane) along(y float64) line { return line{p.x, p.y*y + p.c} }

func (l line) at(x float64) float64 { return l.x*x + l.c }

// sway is the most by which it changes from the middle of a pixel to places so far from it along x and y.
func (p *plane) sway(half float64) float64 { return (math.Abs(p.x) + math.Abs(p.y)) * half }

func (p *plane) add(q *plane, times float64) {
	p.x, p.y, p.c = p.x+q.x*times, p.y+q.y*times, p.c+q.c*times
}

// frame is one picture on its way: the triangles that face the camera, in the order of the plan. Triangle 0 is the
// background.
type frame struct {
	lens
	*pattern
	brighter  [3]float32      // than to whoever stands in the booth, by colour
	sun       *light.Sun      // nil: it does not shine
	panes     map[int]*glazed // by part: what its pane mirrors; nil: none does
	left      []bool          // by part: it is left out, and casts no shadow
	triangles []triangle
	across    int      // tiles side by side
	bins      []uint32 // bins[k] up to bins[k+1] are the places in list of the triangles that may show in tile k, in their order
	list      []uint32 // row by row
}

func (s *Stage) frame(c lens, p *pattern, leave func(*booth.Part) bool) *frame {
	total := 0
	for _, u := range s.surfaces {
		total += len(u.facets)
	}
	f := &frame{lens: c, pattern: p, sun: s.sun, triangles: make([]triangle, 1, total+1), across: (c.width + tile - 1) / tile}
	if leave != nil && s.sun != nil {
		f.left = make([]bool, len(s.plan.Parts))
		for i := range f.left {
			f.left[i] = leave(&s.plan.Parts[i])
		}
	}
	var out []fauxgl.VectorW
	for i := range s.surfaces {
		u := &s.surfaces[i]
		if leave != nil && leave(&s.plan.Parts[u.part]) {
			continue
		}
		out = out[:0]
		for _, v := range u.vertices {
			out = append(out, f.Vertex(v).Output)
		}
		for i := range u.facets {
			if c.mirror != nil && c.mirror.cuts(u, i) {
				continue
			}
			f.add(u, i, out)
		}
	}
	f.bin()
	return f
}

// corner is a place in the picture, with a vertex for each half that has it.
type corner struct {
	vertices          [2]*fauxgl.Vertex
	out               fauxgl.VectorW
	x, y, depth, perW float64
}

// outline is which corners of a quadrilateral its halves have.
var outline = [2][3]int{{0, 1, 2}, {0, 2, 3}}

// add takes in facet i of a surface whose vertices have been placed at out.
func (f *frame) add(u *surface, i int, out []fauxgl.VectorW) {
	n := &u.facets[i]
	var c [4]corner
	for h, of := range n.corners[:n.sides-2] {
		for k, v := range of {
			to := &c[outline[h][k]]
			to.vertices[h], to.out = &u.vertices[v], out[v]
		}
	}
	f.place(u, i, n.mosaics, c[:n.sides])
}

// place takes in a facet, or a part of it, with these corners. A quadrilateral that is not drawn as one is two triangles.
func (f *frame) place(u *surface, number int, mosaics [2]*mosaic, c []corner) {
	within, beside := true, uint8(math.MaxUint8)
	for i := range c {
		within = within && f.within(c[i].out)
		beside &= outside(c[i].out)
	}
	switch {
	case beside != 0 || within && f.set(u, number, mosaics, c):
	case len(c) == 4:
		second := [3]corner{c[0], c[2], c[3]}
		for i := range second {
			second[i].vertices[0] = second[i].vertices[1]
		}
		f.place(u, number, mosaics, c[:3])
		f.place(u, number, [2]*mosaic{mosaics[1]}, second[:])
	case !within:
		var v [3]fauxgl.Vertex
		for i := range v {
			v[i], v[i].Output = *c[i].vertices[0], c[i].out
		}
		for _, t := range fauxgl.ClipTriangle(fauxgl.NewTriangle(v[0], v[1], v[2])) {
			for i, v := range []*fauxgl.Vertex{&t.V1, &t.V2, &t.V3} {
				c[i] = corner{vertices: [2]*fauxgl.Vertex{v}, out: v.Output}
			}
			f.set(u, number, mosaics, c)
		}
	}
}

// outside is a bit for each side of what the camera sees that a point lies beyond.
func outside(p fauxgl.VectorW) (sides uint8) {
	for i, beyond := range [...]bool{p.X > p.W, p.X < -p.W, p.Y > p.W, p.Y < -p.W, p.Z > p.W, p.Z < -p.W} {
		if beyond {
			sides |= 1 << i
		}
	}
	return sides
}

// within says that a point needs no clipping: it is between near and far, and on the screen's plane not out of reach.
// A triangle that only hangs over the picture's border is not clipped, which keeps its edges the same as its neighbours'.
func (f *frame) within(p fauxgl.VectorW) bool {
	sides := float64(reach)/float64(max(f.width, f.height)) - 1
	return p.Z >= -p.W && p.Z <= p.W && math.Abs(p.X) < sides*p.W && math.Abs(p.Y) < sides*p.W
}

// set makes corners that are all before the camera ready, unless they show their back or no area. It is false, and nothing
// is done, for four that are not convex as they are seen, or too much folded.
func (f *frame) set(u *surface, number int, mosaics [2]*mosaic, corners []corner) bool {
	var own [4]corner
	c := own[:copy(own[:], corners)]
	for i := range c {
		p := &c[i]
		if !(p.out.W > 1e-9) {
			return true
		}
		p.x, p.y = f.onScreen(p.out)
		p.x, p.y = math.Round(p.x*grid)/grid, math.Round(p.y*grid)/grid
		p.depth, p.perW = 1-p.out.Z/p.out.W, 1/p.out.W
		if !(math.Abs(p.x) <= reach && math.Abs(p.y) <= reach) { // clipping a triangle without area can give anything
			return true
		}
	}
	area := turn(&c[0], &c[1], &c[2])
	if len(c) == 4 {
		for i := range 3 {
			if !(area*turn(&c[i+1], &c[(i+2)%4], &c[(i+3)%4]) > 0) {
				return false
			}
		}
	}
	if area == 0 || (area > 0) == (f.mirror == nil) && !u.twoSided { // y runs down: a front has its corners clockwise
		return true
	}
	flip := 0
	if area < 0 {
		slices.Reverse(c[1:])
		flip = len(c) - 3 // which of the halves is the first
	}
	t := triangle{sides: len(c), surface: u, number: number}
	least, most := c[0], c[0]
	for i := range c {
		p, q := &c[i], &c[(i+1)%len(c)]
		t.a[i], t.b[i] = p.y-q.y, q.x-p.x
		t.c[i] = -(float64(t.a[i]*p.x) + float64(t.b[i]*p.y))
		t.per[i] = 1 / t.a[i]
		if !(t.a[i] > 0 || (t.a[i] == 0 && t.b[i] > 0)) {
			t.owns[i] = -tie
		}
		t.top = max(t.top, p.depth)
		least.x, least.y, most.x, most.y = min(least.x, p.x), min(least.y, p.y), max(most.x, p.x), max(most.y, p.y)
	}
	t.x0, t.x1 = pixels(least.x, most.x, f.width)
	t.y0, t.y1 = pixels(least.y, most.y, f.height)
	if t.x0 >= t.x1 || t.y0 >= t.y1 {
		return true
	}
	for h := range len(c) - 2 {
		of := [3]*corner{&c[0], &c[h+1], &c[h+2]}
		shares := sharesOf(of)
		if h == 0 {
			t.split = shares[1]
		}
		p, was := &t.panes[h], h^flip
		p.mosaic = mosaics[was]
		for i, q := range of {
			e, v := &shares[i], q.vertices[was]
			p.depth.add(e, q.depth)
			p.perW.add(e, q.perW)
			p.light[0].add(e, q.perW*v.Color.R)
			p.light[1].add(e, q.perW*v.Color.G)
			p.light[2].add(e, q.perW*v.Color.B)
			p.sun.add(e, q.perW*v.Color.A)
			p.u.add(e, q.perW*v.Texture.X)
			p.v.add(e, q.perW*v.Texture.Y)
		}
		p.depth.c = c[0].depth - p.depth.x*c[0].x - p.depth.y*c[0].y
	}
	if len(c) == 4 {
		fold := t.panes[0].depth
		fold.add(&t.panes[1].depth, -1)
		if fold.sway(1) > bent*c[0].depth {
			return false
		}
	}
	f.triangles = append(f.triangles, t)
	return true
}

// turn is twice the area of a triangle on the screen, less than 0 where its corners are clockwise.
func turn(a, b, c *corner) float64 {
	return float64((b.x-a.x)*(c.y-a.y)) - float64((c.x-a.x)*(b.y-a.y))
}

// sharesOf is the share that each corner has of a place on the triangle.
func sharesOf(c [3]*corner) (out [3]plane) {
	area := turn(c[0], c[1], c[2])
	for i := range c {
		p, q := c[(i+1)%3], c[(i+2)%3]
		x, y := (p.y-q.y)/area, (q.x-p.x)/area
		out[i] = plane{x, y, -(float64(x*p.x) + float64(y*p.y))}
	}
	return out
}

// pixels is the run of pixels that the stretch from lo to hi touches, out of n.
func pixels(lo, hi float64, n int) (from, to int) {
	return int(max(0, min(math.Floor(lo), float64(n)))), int(max(0, min(math.Ceil(hi), float64(n))))
}
