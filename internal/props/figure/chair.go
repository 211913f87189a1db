package figure

import (
	"math"
	"slices"
	"sync"

	"boothmock/internal/basis/geom"
)

// Sizes of a wheelchair and of who sits in it, in metres: 1991 ADAAG, figure A3: seat 19 in, handles 36 in, 26 in wide,
// 48 in long with the toes. The footrest's height, the wheels' size and the places of the tubes are common practice, no
// source.
const (
	seat      = 0.483
	handles   = 0.914
	footrest  = 0.110
	wheel     = 0.305 // radius
	axle      = -0.06 // behind the eyes
	wheelSide = 0.285 // from the middle
	caster    = 0.070
)

// eyeOverSeat is how far the template's eyes are above the seat when it sits upright: ANSUR II, eye height sitting, mean
// of men and women (805 and 748 mm).
const eyeOverSeat = 0.776

// seated is a visitor in a chair, hands in the lap, eyes at the height given. Legs are as long as the footrest asks for;
// the trunk is as tall as the eyes ask for.
func seated(eye float64) (build, body) {
	k := (eye - seat) / eyeOverSeat
	b := build{body: 0.96, head: 0.97}
	for i, y := range template {
		b.heights[i] = seat + float64((y-(1.582-eyeOverSeat))*k)
	}
	b.heights[5] = eye - 0.108 // a head is as tall on every trunk
	at, r := b.at, func(v float64) float64 { return v * b.body }
	sections := []section{
		{0.800, 0, -0.030, 0.186, 0.150, 0},
		{0.880, 0, -0.036, 0.182, 0.138, 0},
		{0.970, 0, -0.036, 0.165, 0.120, 0},
		{1.060, 0, -0.030, 0.152, 0.112, 0},
		{1.180, 0, -0.022, 0.162, 0.116, 0},
		{1.280, 0, -0.020, 0.172, 0.117, 0},
		{1.350, 0, -0.022, 0.168, 0.100, 0},
		{1.400, 0, -0.022, 0.128, 0.076, 0},
		{1.435, 0, -0.020, 0.076, 0.062, 0},
		{1.460, 0, -0.016, 0.058, 0.056, 0},
	}
	for i, c := range sections {
		sections[i] = section{b.height(c.y), r(c.x), r(c.z), r(c.rx), r(c.rz), 0}
	}
	chest := trunk(sections)
	head, neck := b.headOn(at(0, 1.42, -0.020), -0.08, -0.10)
	sides := func(f func(side float64) shape) [2]shape { return [2]shape{f(-1), f(1)} } // right, left
	shoulder := b.height(1.332)
	elbow := shoulder - 0.28
	upper := sides(func(s float64) shape {
		return limb([]geom.Vec{{X: s * 0.160, Y: shoulder, Z: -0.022}, {X: s * 0.226, Y: elbow, Z: -0.010}}, []float64{0.054, 0.044})
	})
	fore := sides(func(s float64) shape {
		return limb([]geom.Vec{{X: s * 0.226, Y: elbow, Z: -0.010}, {X: s * 0.128, Y: 0.660 + 0.004*s, Z: 0.215}}, []float64{0.044, 0.035})
	})
	hand := sides(func(s float64) shape {
		return b.hand(geom.Vec{X: s * 0.126, Y: 0.660 + 0.004*s, Z: 0.225}, geom.Vec{X: -0.35 * s, Y: -0.16, Z: 1}, geom.Vec{X: 0.35 * s, Y: 1}, s)
	})
	thigh := sides(func(s float64) shape {
		return limb([]geom.Vec{{X: s * 0.090, Y: seat + 0.085, Z: -0.06}, {X: s * 0.108, Y: seat + 0.075, Z: 0.40}}, []float64{0.086, 0.065})
	})
	shin := sides(func(s float64) shape {
		return limb([]geom.Vec{{X: s * 0.108, Y: seat + 0.075, Z: 0.40}, {X: s * 0.104, Y: footrest + 0.105, Z: 0.545}}, []float64{0.065, 0.053})
	})
	shoe := sides(func(s float64) shape { return b.shoe(geom.Vec{X: s * 0.104, Y: footrest, Z: 0.545}, 0.10*s) })
	low, high := b.height(1.18), b.height(1.36)
	waist, yoke := b.height(1.06), b.height(1.365) // where a trunk is hollow, it is cut in two
	return b, body{
		skin: func(p geom.Vec) float64 {
			t := max(0, min(1, (p.Y-low)/(high-low)))
			d := either(0.035, chest(p), neck(p))
			d = either(0.018, d, head(p))
			legs := 1.0
			for i := range 2 {
				arm := either(0.006, either(0.02, upper[i](p), fore[i](p)), hand[i](p))
				d = either(0.012+float64(0.055*t), d, arm)
				leg := either(0.006, either(0.03, thigh[i](p), shin[i](p)), shoe[i](p))
				legs = either(0.008, legs, leg)
			}
			return either(0.016, d, legs)
		},
		pieces: []shape{
			head, neck, slice(chest, yoke, b.height(1.425)), slice(chest, waist, yoke), slice(chest, -9, waist), upper[0], fore[0], hand[0], upper[1], fore[1], hand[1],
			thigh[0], shin[0], shoe[0], thigh[1], shin[1], shoe[1],
		},
	}
}

// InWheelchair is a visitor seated in a wheelchair, with the eyes at the height in metres, from 1.09 to 1.30 (43 to
// 51 in). The head is above the origin, the footrest in front of it.
func InWheelchair(eye float64) Figure {
	if f, ok := seatedAt.Load(eye); ok {
		return f.(Figure).scaled(1)
	}
	f := inWheelchair(eye)
	seatedAt.Store(eye, f)
	return f.scaled(1)
}

// seatedAt holds the figures that were made already, by the height of the eyes.
var seatedAt sync.Map

func inWheelchair(eye float64) Figure {
	b, person := seated(eye)
	f := person.made(geom.Vec{X: -0.34, Y: 0.05, Z: -0.30}, geom.Vec{X: 0.34, Y: b.heights[6] + 0.05, Z: 0.85}, cell, 1780, b.detail)
	solids, mesh := chair()
	f.Mesh.Add(mesh)
	f.Solids = append(f.Solids, solids...)
	return f
}

// chair is an empty wheelchair.
func chair() (solids []geom.Convex, m geom.Mesh) {
	block := func(lo, hi geom.Vec) {
		s := geom.Box(geom.World, lo, hi)
		solids = append(solids, s)
		m.AddSolid(s)
	}
	tube := func(a, b geom.Vec, r float64) {
		solids = append(solids, geom.Rod(a, b, r, 6))
		m.Add(turned(geom.Along(a, b), []rim{{r, 0, 1, 0}, {r, a.Dist(b), 1, 0}}, 6))
	}
	// What is turned hides what its hull does, but for a line that passes between a rim and the disc beside it.
	wrapped := func(o geom.Mesh) {
		var points []geom.Vec
		for _, v := range o.Vertices {
			if !slices.Contains(points, v.P) {
				points = append(points, v.P)
			}
		}
		c, _ := geom.Hull(points, 0.0005)
		solids = append(solids, c)
	}
	spun := func(f geom.Frame, outline []rim, n int) {
		o := turned(f, outline, n)
		m.Add(o)
		wrapped(o)
	}
	block(geom.Vec{X: -0.21, Y: seat - 0.055, Z: -0.19}, geom.Vec{X: 0.21, Y: seat, Z: 0.26})
	block(geom.Vec{X: -0.20, Y: seat + 0.06, Z: -0.190}, geom.Vec{X: 0.20, Y: seat + 0.40, Z: -0.165})
	for _, s := range []float64{-1, 1} {
		at := func(x, y, z float64) geom.Vec { return geom.Vec{X: s * x, Y: y, Z: z} }
		w := geom.Frame{Origin: at(wheelSide, wheel, axle), X: geom.Vec{Z: -s}, Y: geom.Vec{X: s}, Z: geom.Vec{Y: -1}}
		rimmed := w.Moved(geom.Vec{Y: 0.030})
		hub := [2][]rim{{{wheel - 0.02, 0.004, 0.05, 1}, {0.06, 0.018, 0.3, 1}, {0, 0.024, 0, 1}}, {{0, -0.024, 0, -1}, {0.06, -0.018, 0.3, -1}, {wheel - 0.02, -0.004, 0.05, -1}}}
		spun(w, ring(wheel-0.014, 0.014, 5), 20) // tyre
		spun(rimmed, ring(0.262, 0.008, 3), 20)  // the rim that is pushed
		m.Add(turned(w, hub[0], 20))             // the disc inside the tyre,
		m.Add(turned(w, hub[1], 20))             // and what of it stands out of the tyre's sides
		wrapped(turned(w, append(hub[1][:2:2], hub[0][1:]...), 20))
		c := geom.Frame{Origin: at(0.20, caster, 0.33), X: geom.Vec{Z: -s}, Y: geom.Vec{X: s}, Z: geom.Vec{Y: -1}}
		spun(c, []rim{{0, -0.014, 0, -1}, {0.06, -0.014, 0.3, -1}, {caster, -0.008, 1, -0.3}, {caster, 0.008, 1, 0.3}, {0.06, 0.014, 0.3, 1}, {0, 0.014, 0, 1}}, 10)
		tube(at(0.200, caster+0.02, 0.33), at(0.205, seat-0.07, 0.285), 0.012)
		tube(at(0.215, seat-0.07, -0.19), at(0.215, seat-0.07, 0.30), 0.012)
		tube(at(0.215, seat-0.07, 0.30), at(0.185, footrest+0.01, 0.50), 0.012)
		tube(at(0.213, seat-0.07, -0.18), at(0.213, handles, -0.18), 0.012)
		tube(at(0.213, handles-0.006, -0.17), at(0.213, handles-0.012, -0.30), 0.014)
		x0, x1 := 0.035, 0.185
		block(geom.Vec{X: min(s*x0, s*x1), Y: footrest - 0.012, Z: 0.49}, geom.Vec{X: max(s*x0, s*x1), Y: footrest, Z: 0.69})
	}
	return solids, m
}

// rim is a circle of a turned surface: its radius, its height along the axis, and the direction that the surface faces
// there, outwards and along the axis.
type rim struct{ r, y, out, up float64 }

// ring is the outline of a round ring: radius of the circle that it runs along, and its own.
func ring(r, own float64, n int) []rim {
	out := make([]rim, n+1)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
		out[i] = rim{r + float64(own*c), float64(own * s), c, s}
	}
	return out
}

// turned is a surface of revolution about the frame's Y axis, of n sides; the outline runs up as seen from outside.
func turned(f geom.Frame, outline []rim, n int) geom.Mesh {
	var m geom.Mesh
	for _, o := range outline {
		for i := range n + 1 {
			s, c := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
			m.Vertices = append(m.Vertices, geom.Vertex{
				P: f.At(geom.Vec{X: float64(o.r * c), Y: o.y, Z: float64(-o.r * s)}),
				N: f.Turn(geom.Vec{X: float64(o.out * c), Y: o.up, Z: float64(-o.out * s)}).Unit(),
				U: float64(i) / float64(n), V: -o.y,
			})
		}
	}
	for k := range len(outline) - 1 {
		for i := range n {
			a := k*(n+1) + i
			b, c, d := a+1, a+n+2, a+n+1
			if outline[k].r > 0 {
				m.Triangles = append(m.Triangles, [3]int{a, b, c})
			}
			if outline[k+1].r > 0 {
				m.Triangles = append(m.Triangles, [3]int{a, c, d})
			}
		}
	}
	return m
}
