package picture

import (
	"math"

	"github.com/fogleman/fauxgl"

	"boothmock/internal/booth"
)

const (
	// Corners are set to a grid of this many steps a pixel. With them inside of reach, every product and sum that
	// decides whether a triangle covers a sample is exact in a float64, with fused multiply-add or without: so
	// triangles that share an edge neither overlap nor leave a gap, on any processor.
	grid  = 1 << 10
	reach = 1 << 15 // pixels
	// tie moves the edges that do not own the samples exactly on them; it is less than the least step of an edge's value.
	tie = 1.0 / (2 * grid * grid)
)

// triangle is set up for drawing. Edge i faces corner i; its value at a place on the screen is a·x + b·y + c, more than
// 0 inside.
type triangle struct {
	a, b, c        [3]float64
	per            [3]float64 // 1/a
	owns           [3]float64 // 0 for an edge that owns the samples exactly on it (top or left), else -tie
	dx, dy, d0     float64    // depth is the plane dx·x + dy·y + d0, more towards the eye
	top            float64    // the depth of its nearest corner
	inv            float64    // 1 / twice the area: turns an edge's value into the corner's share
	x0, y0, x1, y1 int        // pixels that it may touch: from x0 to before x1
	perW           plane      // in proportion to 1/w
	light          [3]plane   // the corners' Color, over w in the same proportion: what is over w is a plane on the screen
	u, v           plane      // their Texture, likewise
	surface        *surface
	mosaic         *mosaic
	number         int // of the surface's triangles, which clipping may have made several of
}

// plane is a value that changes evenly over the screen: x·(pixels right) + y·(pixels down) + c.
type plane struct{ x, y, c float64 }

func (p *plane) at(x, y float64) float64 { return p.x*x + p.y*y + p.c }

func (p *plane) add(q *plane, times float64) {
	p.x, p.y, p.c = p.x+q.x*times, p.y+q.y*times, p.c+q.c*times
}

// frame is one picture on its way: the triangles that face the camera, in the order of the plan. Triangle 0 is the
// background.
type frame struct {
	camera
	*pattern
	triangles []triangle
	across    int      // tiles side by side
	bins      []uint32 // bins[k] up to bins[k+1] are the places in list of the triangles that may show in tile k, in their order
	list      []uint32 // row by row
}

func (s *Stage) frame(c camera, p *pattern, leave func(*booth.Part) bool) *frame {
	total := 0
	for _, u := range s.surfaces {
		total += len(u.triangles)
	}
	f := &frame{camera: c, pattern: p, triangles: make([]triangle, 1, total+1), across: (c.width + tile - 1) / tile}
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
		for i := range u.triangles {
			f.add(u, i, out)
		}
	}
	f.bin()
	return f
}

// add takes in triangle i of a surface whose vertices have been placed at out.
func (f *frame) add(u *surface, i int, out []fauxgl.VectorW) {
	n := u.triangles[i]
	p, q, r := out[n[0]], out[n[1]], out[n[2]]
	switch { // all of it beside the picture
	case p.X > p.W && q.X > q.W && r.X > r.W, p.X < -p.W && q.X < -q.W && r.X < -r.W,
		p.Y > p.W && q.Y > q.W && r.Y > r.W, p.Y < -p.W && q.Y < -q.W && r.Y < -r.W,
		p.Z > p.W && q.Z > q.W && r.Z > r.W, p.Z < -p.W && q.Z < -q.W && r.Z < -r.W:
		return
	}
	if f.within(p) && f.within(q) && f.within(r) {
		f.set(u, i, [3]*fauxgl.Vertex{&u.vertices[n[0]], &u.vertices[n[1]], &u.vertices[n[2]]}, [3]fauxgl.VectorW{p, q, r})
		return
	}
	v := [3]fauxgl.Vertex{u.vertices[n[0]], u.vertices[n[1]], u.vertices[n[2]]}
	for i := range v {
		v[i].Output = out[n[i]]
	}
	for _, t := range fauxgl.ClipTriangle(fauxgl.NewTriangle(v[0], v[1], v[2])) {
		f.set(u, i, [3]*fauxgl.Vertex{&t.V1, &t.V2, &t.V3}, [3]fauxgl.VectorW{t.V1.Output, t.V2.Output, t.V3.Output})
	}
}

// within says that a point needs no clipping: it is between near and far, and on the screen's plane not out of reach.
// A triangle that only hangs over the picture's border is not clipped, which keeps its edges the same as its neighbours'.
func (f *frame) within(p fauxgl.VectorW) bool {
	sides := float64(reach)/float64(max(f.width, f.height)) - 1
	return p.Z >= -p.W && p.Z <= p.W && math.Abs(p.X) < sides*p.W && math.Abs(p.Y) < sides*p.W
}

// set makes triangle number, or a part of it, of three points that are all before the camera ready, unless it shows its back
// or no area.
func (f *frame) set(u *surface, number int, corner [3]*fauxgl.Vertex, out [3]fauxgl.VectorW) {
	var x, y, depth, perW [3]float64
	for i, p := range out {
		if !(p.W > 1e-9) {
			return
		}
		x[i], y[i] = f.onScreen(p)
		x[i], y[i] = math.Round(x[i]*grid)/grid, math.Round(y[i]*grid)/grid
		depth[i], perW[i] = 1-p.Z/p.W, 1/p.W
		if !(math.Abs(x[i]) <= reach && math.Abs(y[i]) <= reach) { // clipping a triangle without area can give anything
			return
		}
	}
	area := float64((x[1]-x[0])*(y[2]-y[0])) - float64((x[2]-x[0])*(y[1]-y[0]))
	if area == 0 || (area > 0 && !u.twoSided) { // y runs down: a front has its corners clockwise
		return
	}
	if area < 0 {
		x[1], x[2], y[1], y[2] = x[2], x[1], y[2], y[1]
		depth[1], depth[2], perW[1], perW[2] = depth[2], depth[1], perW[2], perW[1]
		corner[1], corner[2] = corner[2], corner[1]
		area = -area
	}
	t := triangle{inv: 1 / area, surface: u, mosaic: u.mosaics[number], number: number, top: max(depth[0], depth[1], depth[2])}
	t.x0, t.x1 = pixels(min(x[0], x[1], x[2]), max(x[0], x[1], x[2]), f.width)
	t.y0, t.y1 = pixels(min(y[0], y[1], y[2]), max(y[0], y[1], y[2]), f.height)
	if t.x0 >= t.x1 || t.y0 >= t.y1 {
		return
	}
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		t.a[i], t.b[i] = y[j]-y[k], x[k]-x[j]
		t.c[i] = -(float64(t.a[i]*x[j]) + float64(t.b[i]*y[j]))
		t.per[i] = 1 / t.a[i]
		if !(t.a[i] > 0 || (t.a[i] == 0 && t.b[i] > 0)) {
			t.owns[i] = -tie
		}
		t.dx += t.a[i] * t.inv * depth[i]
		t.dy += t.b[i] * t.inv * depth[i]
	}
	t.d0 = depth[0] - t.dx*x[0] - t.dy*y[0]
	for i, p := range corner {
		e := plane{t.a[i] * perW[i], t.b[i] * perW[i], t.c[i] * perW[i]}
		t.perW.add(&e, 1)
		t.light[0].add(&e, p.Color.R)
		t.light[1].add(&e, p.Color.G)
		t.light[2].add(&e, p.Color.B)
		t.u.add(&e, p.Texture.X)
		t.v.add(&e, p.Texture.Y)
	}
	f.triangles = append(f.triangles, t)
}

// pixels is the run of pixels that the stretch from lo to hi touches, out of n.
func pixels(lo, hi float64, n int) (from, to int) {
	return int(max(0, min(math.Floor(lo), float64(n)))), int(max(0, min(math.Ceil(hi), float64(n))))
}
