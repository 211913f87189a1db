package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
)

func box(f geom.Frame, w, d, h float64) made {
	c := geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})
	return made{own: []geom.Convex{c}, fronts: []geom.Polygon{c.Face(0)}}
}

const roundSides = 20

func round(f geom.Frame, w, d, h float64) made {
	return made{own: []geom.Convex{geom.Drum(f, roundSides, 0, w/2, d/2, h, w/2, d/2)}}
}

// crate is boards with gaps between them round a frame.
func crate(f geom.Frame, w, d, h float64) made {
	const slats, gap = 3, 0.012
	var m made
	thick := min(0.014, w/8, d/8)
	m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w/2 + thick, Z: -d/2 + thick}, geom.Vec{X: w/2 - thick, Y: h, Z: d/2 - thick}))
	high := h / slats
	for i := range slats {
		lo, hi := float64(i)*high, float64(i+1)*high-min(gap, high/4)
		if i == slats-1 {
			hi = h
		}
		for _, z := range []float64{-d / 2, d/2 - thick} {
			m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w / 2, Y: lo, Z: z}, geom.Vec{X: w / 2, Y: hi, Z: z + thick}))
		}
		for _, x := range []float64{-w / 2, w/2 - thick} {
			m.wood = append(m.wood, geom.Box(f, geom.Vec{X: x, Y: lo, Z: -d/2 + thick}, geom.Vec{X: x + thick, Y: hi, Z: d/2 - thick}))
		}
	}
	return m
}

// ledgeAt is where an easel's ledge is, as a share of its height; easelLean, in radians, is how far it and what stands on it
// lean back, as a work on a table does.
const (
	ledgeAt   = 0.45
	easelLean = 12 * math.Pi / 180
)

// onEasel is its ledge, and room beside it for a work that is wider.
func onEasel(w, d, h float64) (up, wide, deep float64) { return ledgeAt * h, 2 * w, 0.1 }

// easel is two uprights that lean back behind the work, a leg behind, and a ledge.
func easel(f geom.Frame, w, d, h float64) made {
	const bar = 0.022
	ledge := ledgeAt * h
	sin, cos := math.Sincos(easelLean)
	at := f.Moved(geom.Vec{Y: ledge}).Tilted(easelLean)
	down, up := (ledge-float64(bar*sin))/cos, (h-ledge)/cos
	var m made
	for _, x := range []float64{-w/2 + bar, w/2 - bar} {
		m.wood = append(m.wood, geom.Box(at, geom.Vec{X: x - bar, Y: -down, Z: -bar}, geom.Vec{X: x + bar, Y: 0.6 * up}))
	}
	m.wood = append(m.wood,
		geom.Box(at, geom.Vec{X: -bar, Y: -0.3 * down, Z: -bar}, geom.Vec{X: bar, Y: up}),
		geom.Box(at, geom.Vec{X: -w / 2, Y: 0.56 * up, Z: -2 * bar}, geom.Vec{X: w / 2, Y: 0.6 * up, Z: -bar}),
		geom.Box(f, geom.Vec{X: -w / 2, Y: ledge - bar, Z: -bar}, geom.Vec{X: w / 2, Y: ledge, Z: 0.05}),
		geom.Rod(at.At(geom.Vec{Y: 0.9 * up, Z: -bar}), f.At(geom.Vec{Y: bar, Z: -max(0.2, d-ledge*sin/cos)}), bar, 6))
	return m
}

func bench(f geom.Frame, w, d, h float64) made {
	const thick = 0.03
	var m made
	m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w / 2, Y: h - min(thick, h/2), Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2}))
	for _, x := range []float64{-0.42 * w, 0.42 * w} {
		m.wood = append(m.wood, geom.Box(f, geom.Vec{X: x - min(thick, w/8)/2, Z: -0.45 * d}, geom.Vec{X: x + min(thick, w/8)/2, Y: h - min(thick, h/2), Z: 0.45 * d}))
	}
	return m
}

func cooler(f geom.Frame, w, d, h float64) made {
	return made{
		own:   []geom.Convex{geom.Box(f, geom.Vec{X: -0.48 * w, Z: -0.48 * d}, geom.Vec{X: 0.48 * w, Y: 0.8 * h, Z: 0.48 * d})},
		paper: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Y: 0.8 * h, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})},
	}
}

// plant is a clipped tree in a pot, in a muted green.
func plant(f geom.Frame, w, d, h float64) made {
	x, z := w/2, d/2
	drum := func(y0, r0, y1, r1 float64) geom.Convex {
		return geom.Drum(f, roundSides, y0*h, r0*x, r0*z, y1*h, r1*x, r1*z)
	}
	m := made{
		clay: []geom.Convex{drum(0, 0.4, 0.22, 0.55), drum(0.22, 0.62, 0.27, 0.62)},
		wood: []geom.Convex{drum(0.27, 0.06, 0.5, 0.06)},
	}
	m.own = ball(f.Moved(geom.Vec{Y: 0.72 * h}), roundSides, 6, x, 0.28*h, z)
	return m
}

// ball is a round body about the frame's origin that reaches x, y and z metres from it, as so many sides and rings; none if it
// is too small to have a shape.
func ball(f geom.Frame, sides, rings int, x, y, z float64) []geom.Convex {
	var points []geom.Vec
	for i := range rings + 1 {
		out, up := math.Sincos(math.Pi * float64(i) / float64(rings))
		for k := range sides {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(sides))
			points = append(points, f.At(geom.Vec{X: float64(x*max(0.05, out)) * cos, Y: -float64(y * up), Z: float64(z*max(0.05, out)) * sin}))
		}
	}
	const slack = 0.0005 // metres
	if c, ok := geom.Hull(points, slack); ok {
		return []geom.Convex{c}
	}
	return nil
}

// trunk is how thick a tree is at the ground, as a share of its crown's width.
const trunk = 0.1

// tree is a trunk, and a crown of rounds that keep within its size.
func tree(f geom.Frame, w, d, h float64) made {
	x, z := w/2, d/2
	m := made{bark: []geom.Convex{geom.Drum(f, 10, 0, trunk*x, trunk*z, 0.5*h, 0.7*trunk*x, 0.7*trunk*z)}}
	for _, b := range [][5]float64{{0, 0.78, 0, 0.62, 0.22}, {0.42, 0.66, 0.2, 0.55, 0.2}, {-0.45, 0.64, -0.12, 0.52, 0.18}, {-0.1, 0.62, 0.45, 0.52, 0.17}, {0.12, 0.6, -0.45, 0.53, 0.17}} {
		m.own = append(m.own, ball(f.Moved(geom.Vec{X: b[0] * x, Y: b[1] * h, Z: b[2] * z}), 10, 5, b[3]*x, b[4]*h, b[3]*z)...)
	}
	return m
}

// aBoard is two boards that lean against each other.
func aBoard(f geom.Frame, w, d, h float64) made {
	const thick = 0.012
	lean := math.Atan2(d/2-thick, h)
	long := math.Hypot(d/2-thick, h) - float64(thick*math.Sin(lean))
	var m made
	for _, turn := range []float64{0, math.Pi} {
		at := f.Turned(turn).Moved(geom.Vec{Z: d/2 - thick}).Tilted(lean)
		c := geom.Box(at, geom.Vec{X: -w / 2}, geom.Vec{X: w / 2, Y: long, Z: thick})
		m.own, m.fronts = append(m.own, c), append(m.fronts, c.Face(0))
	}
	return m
}

func umbrella(f geom.Frame, w, d, h float64) made {
	x, z := w/2, d/2
	const pole = 0.02
	return made{
		metal: []geom.Convex{geom.Drum(f, roundSides, 0, 0.25, 0.25, 0.06, 0.22, 0.22), geom.Drum(f, 8, 0.06, pole, pole, h, pole, pole)},
		own:   []geom.Convex{geom.Drum(f, 8, 0.8*h, x, z, 0.98*h, 0.05*x, 0.05*z)},
	}
}

// spinner is a pole with cards on four sides, in tiers.
func spinner(f geom.Frame, w, d, h float64) made {
	const tiers = 4
	r := min(w, d) / 2
	m := made{metal: []geom.Convex{geom.Drum(f, roundSides, 0, r, r, 0.03, r, r), geom.Drum(f, 8, 0.03, 0.018, 0.018, h, 0.018, 0.018)}}
	from, step := 0.35*h, 0.65*h/tiers
	for i := range tiers {
		y := from + float64(i)*step
		for k := range 4 {
			at := f.Turned(float64(k) * math.Pi / 2).Moved(geom.Vec{Y: y, Z: 0.35 * r})
			m.paper = append(m.paper, geom.Box(at, geom.Vec{X: -0.45 * r}, geom.Vec{X: 0.45 * r, Y: 0.75 * step, Z: 0.4 * r}))
			m.own = append(m.own, geom.Box(at, geom.Vec{X: -0.55 * r, Z: 0.4 * r}, geom.Vec{X: 0.55 * r, Y: 0.25 * step, Z: 0.5 * r}))
		}
	}
	return m
}

// mirror is a pane in a frame that leans back on a strut.
func mirror(f geom.Frame, w, d, h float64) made {
	const bar = 0.022
	edge, thick := min(0.03, w/8, h/8), min(bar, d/4)
	lean := math.Atan2(0.35*(d-thick), h)
	at := f.Moved(geom.Vec{Z: d/2 - thick}).Tilted(lean)
	long := math.Hypot(0.35*(d-thick), h) - float64(thick*math.Sin(lean))
	m := frameOf(at, w, long, edge, thick)
	m.glass = append(m.glass, geom.Box(at, geom.Vec{X: -w/2 + edge, Y: edge, Z: 0.3 * thick}, geom.Vec{X: w/2 - edge, Y: long - edge, Z: 0.6 * thick}))
	m.own = append(m.own, geom.Rod(at.At(geom.Vec{Y: 0.8 * long}), f.At(geom.Vec{Y: thick / 2, Z: -d/2 + thick/2}), thick/2, 6))
	return m
}

// frameOf is four bars around nothing, of a width and a thickness, upright on the frame's ground.
func frameOf(f geom.Frame, w, h, bar, thick float64) (m made) {
	for _, of := range [][4]float64{{-w / 2, 0, w / 2, bar}, {-w / 2, h - bar, w / 2, h}, {-w / 2, bar, -w/2 + bar, h - bar}, {w/2 - bar, bar, w / 2, h - bar}} {
		m.own = append(m.own, geom.Box(f, geom.Vec{X: of[0], Y: of[1]}, geom.Vec{X: of[2], Y: of[3], Z: thick}))
	}
	return m
}

// emptyFrame is empty but for a picture, which lies in it at half its depth.
func emptyFrame(f geom.Frame, w, d, h float64) made {
	bar := min(0.05, w/4, h/4)
	m := frameOf(f.Moved(geom.Vec{Z: -d / 2}), w, h, bar, d)
	m.fronts = []geom.Polygon{geom.Rect(f, bar-w/2, bar, w/2-bar, h-bar)}
	return m
}

func board(f geom.Frame, w, d, h float64) made {
	m := box(f, w, d, h)
	m.wood, m.own = m.own, nil
	return m
}

// bagHooks is a bar with pegs on which visitors and the seller hang bags.
func bagHooks(f geom.Frame, w, d, h float64) made {
	thick, peg := min(0.02, d/3), min(0.01, h/4, w/8)
	m := made{wood: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: thick - d/2})}}
	n := max(1, int(w/0.11))
	for i := range n {
		x := w * ((float64(i)+0.5)/float64(n) - 0.5)
		m.metal = append(m.metal,
			geom.Box(f, geom.Vec{X: x - peg/2, Y: 0.2 * h, Z: thick - d/2}, geom.Vec{X: x + peg/2, Y: 0.2*h + peg, Z: d / 2}),
			geom.Box(f, geom.Vec{X: x - peg/2, Y: 0.2*h + peg, Z: d/2 - peg}, geom.Vec{X: x + peg/2, Y: 0.2*h + 2.5*peg, Z: d / 2}))
	}
	return m
}

// lampStand is a foot, a pole and a bar across its top that lamps clip on.
func lampStand(f geom.Frame, w, d, h float64) made {
	foot, pole, bar := min(0.02, h/4), min(0.016, w/8, d/8), min(0.03, h/8)
	return made{metal: []geom.Convex{
		geom.Drum(f, roundSides, 0, w/2, d/2, foot, w/2, d/2), geom.Drum(f, 8, foot, pole, pole, h-bar, pole, pole),
		geom.Box(f, geom.Vec{X: -w / 2, Y: h - bar, Z: -pole}, geom.Vec{X: w / 2, Y: h, Z: pole}),
	}}
}

// clothesRail is two posts on feet, a bar between them, and prints in sleeves that hang from it.
func clothesRail(f geom.Frame, w, d, h float64) made {
	const sleeve = 0.004
	post := min(0.015, w/16, d/8)
	var m made
	for _, x := range []float64{-w/2 + post, w/2 - post} {
		m.metal = append(m.metal, geom.Box(f, geom.Vec{X: x - post, Z: -d / 2}, geom.Vec{X: x + post, Y: 2 * post, Z: d / 2}),
			geom.Box(f, geom.Vec{X: x - post, Y: 2 * post, Z: -post}, geom.Vec{X: x + post, Y: h, Z: post}))
	}
	m.metal = append(m.metal, geom.Box(f, geom.Vec{X: -w/2 + 2*post, Y: h - 2*post, Z: -post}, geom.Vec{X: w/2 - 2*post, Y: h, Z: post}))
	n := min(12, int(w/0.06))
	for i := range n {
		x := (w - 8*post) * ((float64(i)+0.5)/float64(n) - 0.5)
		m.paper = append(m.paper, geom.Box(f, geom.Vec{X: x - sleeve/2, Y: 0.4 * h, Z: -0.45 * d}, geom.Vec{X: x + sleeve/2, Y: h - 2*post, Z: 0.45 * d}))
	}
	return m
}
