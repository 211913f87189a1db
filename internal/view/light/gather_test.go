package light

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

const foot = 0.3048

// hall is a room with the given boxes under an even ceiling, its ground and its boxes black.
func hall(boxes ...geom.Convex) *room {
	r := &room{sky: white, indoor: true}
	for _, b := range boxes {
		r.add(b, len(r.solids), rgb{}.all, 0)
	}
	return r
}

func exact(r *room) *gatherer {
	r.index(0)
	return newGatherer(r)
}

func box(x0, y0, z0, x1, y1, z1 float64) geom.Convex {
	return geom.Box(geom.World, geom.Vec{X: x0, Y: y0, Z: z0}, geom.Vec{X: x1, Y: y1, Z: z1})
}

// The CIE overcast sky gives an open level field 7 pi/9 of the zenith's brightness, which is the unit here, and an upright
// wall 0.396177 of that (derived from the CIE's formula; the formula as in colour.readthedocs.io and Colour's sources).
func TestOvercastSky(t *testing.T) {
	g := exact(&room{sky: white})
	near(t, "open field", g.light(geom.Vec{}, geom.Up, -1)[0], 1, 2e-6)
	near(t, "upright wall", g.light(geom.Vec{}, geom.Vec{Z: 1}, -1)[0], 0.396177, 2e-6)
	near(t, "upright wall, turned", g.light(geom.Vec{X: 2, Y: 1}, geom.Vec{X: .6, Z: -.8}, -1)[0], 0.396177, 2e-6)
	near(t, "face down", g.light(geom.Vec{Y: 1}, geom.Vec{Y: -1}, -1)[0], 0, 2e-6)
	g.openGround = rgb{.2, .2, .2}
	near(t, "upright wall over ground of 20 %", g.light(geom.Vec{}, geom.Vec{Z: 1}, -1)[0], 0.396177+0.2/2, 2e-6)
}

// The sky view factor is the share of the hemisphere that a level surface sees, by the cosine (Oke, Boundary Layer
// Climates, 1987). All of these are derived from its definition.
func TestSkyView(t *testing.T) {
	const far = 1e5 // metres: as good as endless
	roof := func(h float64) *room { return hall(box(-5*foot, h, -5*foot, 5*foot, h+.01, 5*foot)) }
	wall := func(b float64) *room { return hall(box(-far, -1, -2, far, math.Tan(b), -1)) }
	canyon := func(h float64) *room { return hall(box(-far, -1, -2, far, h, -.5), box(-far, -1, .5, far, h, 2)) }
	for _, c := range []struct {
		name string
		room *room
		want float64
	}{
		{"10 x 10 ft flat roof at 7 ft", roof(7 * foot), 0.610354},
		{"10 x 10 ft flat roof at 6 ft 8 in", roof((6 + 8./12) * foot), 0.587150},
		{"endless wall, 45 degrees", wall(math.Pi / 4), 0.853553},
		{"endless wall, 60 degrees", wall(math.Pi / 3), 0.75},
		{"canyon H/W 0.25, middle of the floor", canyon(.25), 0.894427},
		{"canyon H/W 0.5", canyon(.5), 0.707107},
		{"canyon H/W 1", canyon(1), 0.447214},
		{"canyon H/W 2", canyon(2), 0.242536},
		{"canyon H/W 3", canyon(3), 0.164399},
	} {
		near(t, c.name, exact(c.room).light(geom.Vec{}, geom.Up, -1)[0], c.want, 2e-6)
	}
	// Mean over the floor, by Gauss's rule: sqrt(1+r²) - r.
	for r, want := range map[float64]float64{0.5: 0.618034, 1: 0.414214, 2: 0.236068} {
		g := exact(canyon(r))
		sum := 0.0
		const n = 8
		for i := range n {
			for _, x := range gauss {
				sum += x[1] / n * g.light(geom.Vec{Z: -.5 + (float64(i)+x[0])/n}, geom.Up, -1)[0]
			}
		}
		near(t, "mean of a canyon's floor", sum, want, 1e-5)
	}
}

// The share of each kind of source at a point, against rays spread by the cosine and cut with every box.
func TestAgainstCountedRays(t *testing.T) {
	const rays = 10000
	r := rand.New(rand.NewPCG(11, 12))
	span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	for range 25 {
		rm := &room{sky: white}
		for range 1 + r.IntN(8) {
			f := geom.World.Moved(geom.Vec{X: span(-2, 2), Y: span(0, 2), Z: span(-2, 2)}).Turned(span(0, 7)).Tilted(span(0, 7))
			rm.add(geom.Box(f, geom.Vec{X: -span(.05, 1), Y: -span(.05, 1), Z: -span(.05, 1)}, geom.Vec{X: .05, Y: .05, Z: .05}), len(rm.solids), rgb{}.all, 0)
		}
		n := geom.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(-1, 1)}.Unit()
		var sky1, ground, solid float64 // what the kernel says
		for _, a := range exact(rm).arrive(geom.Vec{Y: .5}, n, -1) {
			switch {
			case a.from >= 0:
				solid += a.share
			case a.from == field:
				ground += a.share
			default:
				sky1 += a.share * rm.bright(a.from, geom.Vec{})[0]
			}
		}
		var skyRays, groundRays, solidRays float64
		f := facing(n)
		for range rays {
			s, c := math.Sincos(2 * math.Pi * r.Float64())
			u := r.Float64()
			d := f.Turn(geom.Vec{X: math.Sqrt(u) * c, Y: math.Sqrt(u) * s, Z: math.Sqrt(1 - u)})
			hit := false
			for i := range rm.solids {
				hit = hit || meets(rm.solids[i].Convex, geom.Vec{Y: .5}, d)
			}
			switch {
			case hit:
				solidRays++
			case d.Y > 0:
				skyRays += (1 + 2*d.Y) / 3 / (7. / 9)
			default:
				groundRays++
			}
		}
		// Four standard deviations of a.share of one half; a ray of sky counts for at most 9/7.
		limit := 4 * .5 / math.Sqrt(rays)
		near(t, "sky", sky1, skyRays/rays, limit*9/7)
		near(t, "ground", ground, groundRays/rays, limit)
		near(t, "solids", solid, solidRays/rays, limit)
	}
}

// meets reports whether a ray from p along d meets the solid.
func meets(c geom.Convex, p, d geom.Vec) bool {
	t0, t1 := 0.0, math.Inf(1)
	for i := range c.Faces {
		q := c.Face(i)
		n := q.Normal()
		h, k := n.Dot(p.Sub(q[0])), n.Dot(d)
		switch {
		case k < 0:
			t0 = max(t0, -h/k)
		case k > 0:
			t1 = min(t1, -h/k)
		case h > 0:
			return false
		}
	}
	return t0 < t1
}

// Inside a closed box of one colour every point gets the light that its walls settle at; with no way in, none.
func TestClosedRoomIsDark(t *testing.T) {
	rm := hall(box(-2, -1, -2, 2, 0, 2), box(-2, 2, -2, 2, 3, 2), box(-2, -1, -2, -1, 3, 2), box(1, -1, -2, 2, 3, 2), box(-2, -1, -2, 2, 3, -1), box(-2, -1, 1, 2, 3, 2))
	rm.index(0)
	rm.settle()
	if l := newGatherer(rm).light(geom.Vec{Y: 1}, geom.Up, -1)[0]; l > 1e-9 {
		t.Errorf("light leaks into a closed room: %g", l)
	}
}

// The light under a veil of passes p over the whole sky is p of the sky's, in the cloth's own hue.
func TestVeil(t *testing.T) {
	rm := &room{sky: white, indoor: true}
	rm.add(box(-500, 3, -500, 500, 3.01, 500), 0, rgb{.8, .4, .4}.all, 0.3)
	rm.index(0)
	rm.settle()
	l := newGatherer(rm).light(geom.Vec{}, geom.Up, -1)
	near(t, "red", l[0], 0.3, 0.002)
	near(t, "green", l[1], 0.15, 0.001)
}
