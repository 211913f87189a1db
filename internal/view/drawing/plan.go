package drawing

import (
	"image"
	"image/color"
	"image/draw"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
	"boothmock/internal/view/picture"
)

const (
	cutAt  = 1.9  // metres above the ground: what is higher is cut away
	foot   = 0.02 // metres: what is lower is walked over
	beyond = 0.5  // metres behind the pitch that are drawn
	beside = 1.2  // metres on its left and its right, where walls have their names and a way may come round a corner
	lane   = 2.1  // metres of the aisle that are drawn, or all of a narrower one
)

// ground is the plan from above on paper.
type ground struct {
	paper
	plan     *booth.Plan
	corner   spot // the middle of the pitch's front edge
	perMetre float64
}

func (g ground) at(x, z float64) spot {
	return g.corner.add(spot{x * g.perMetre, z * g.perMetre})
}

// fromAbove draws the booth from above, the aisle below, cut off above people's heads, with the way in.
func fromAbove(plan *booth.Plan, s *picture.Stage, o Options, n Notes) *image.NRGBA {
	p := plan.Pitch
	g := ground{paper: blank(o), plan: plan}
	aisle := min(lane, p.Aisle)
	wide, deep := p.Width+2*beside, p.Depth+beyond+aisle
	above, below := 3*g.em, 2.6*g.em
	g.perMetre = scale(float64(o.Width), float64(o.Height)-above-below, wide, deep)
	frame := geom.Frame{Origin: geom.Vec{X: -wide / 2, Z: aisle}, X: geom.Vec{X: 1}, Y: geom.Vec{Z: -1}, Z: geom.Vec{Y: 1}}
	m := s.DrawFlat(frame, wide, deep, g.perMetre, -0.1, cutAt, nil)
	corner := image.Pt((o.Width-m.Rect.Dx())/2, int(above))
	draw.Draw(g, m.Rect.Add(corner), m, image.Point{}, draw.Src)
	g.corner = spot{float64(corner.X) + wide/2*g.perMetre, float64(corner.Y) + (p.Depth+beyond)*g.perMetre}

	g.cut()
	h := p.Width / 2
	dash := 0.5 * g.em
	g.dashed(ink, 0.1*g.em, dash, dash, g.at(-h, 0), g.at(-h, -p.Depth), g.at(h, -p.Depth), g.at(h, 0), g.at(-h, 0))
	if n.Floor != nil {
		g.walk(n.Floor)
		g.widths(n.Floor)
	}
	g.names()
	feet := func(m float64) string { return unit.Length(m).FormatFeet(plan.Units) }
	g.write(lettering.Bold, ink, 1.2, spot{g.em, 2 * g.em}, "From above: pitch "+feet(p.Width)+" wide, "+feet(p.Depth)+" deep")
	g.label(ink, 0.9, g.at(0, aisle-0.12), 0, "aisle: visitors come from here")
	g.scaleBar(plan, spot{g.at(-h, 0).x, float64(o.Height) - 1.1*g.em}, g.perMetre)
	return g.NRGBA
}

// cut fills what is cut through or seen from above as a line only: walls, cloth and works.
func (g ground) cut() {
	for i := range g.plan.Parts {
		part := &g.plan.Parts[i]
		c := color.NRGBA{96, 100, 106, 255}
		switch {
		case part.Flat || part.Moving:
			continue
		case part.Work != nil:
			c = ink
		case part.Cloth == nil && part.Wall == nil:
			continue
		}
		for _, s := range part.Solids {
			if f := way.Footprint(s, foot, cutAt); len(f) > 2 {
				g.fill(c, g.places(f))
			}
		}
	}
}

func (g ground) places(points []way.Point) []spot {
	var out []spot
	for _, q := range points {
		out = append(out, g.at(q.X, q.Z))
	}
	return out
}

// walk draws the clear circle and the way to it.
func (g ground) walk(f *Floor) {
	if f.Circle != nil {
		m, r := g.at(f.Circle.Centre.X, f.Circle.Centre.Z), f.Circle.Diameter/2*g.perMetre
		g.fill(clear, ring(m, r))
		closed := func(s []spot) []spot { return append(s, s[0]) }
		g.line(blue, 0.12*g.em, closed(ring(m, r))...)
		g.dashed(blue, 0.1*g.em, 0.4*g.em, 0.4*g.em, closed(ring(m, f.Turning/2*g.perMetre))...)
	}
	if len(f.Way) > 1 {
		line := g.places(f.Way)
		end := line[len(line)-1]
		from := line[len(line)-2]
		short := end.to(from, min(1, 0.8*g.em/max(end.sub(from).len(), 1e-9)))
		g.line(blue, 0.24*g.em, append(append([]spot{}, line[:len(line)-1]...), short)...)
		g.arrow(blue, from, end)
	}
}

// widths draws the narrowest place of the way and writes how wide everything is.
func (g ground) widths(f *Floor) {
	c := blue
	if !f.OK {
		c = red
	}
	if f.Narrow != nil {
		a, b := g.at(f.Narrow[0].X, f.Narrow[0].Z), g.at(f.Narrow[1].X, f.Narrow[1].Z)
		g.line(c, 0.16*g.em, a, b)
		g.arrow(c, a, b)
		g.arrow(c, b, a)
		words := []string{length(g.plan, f.Width), "narrowest on the way in"}
		at := a.to(b, 0.5)
		if lettering.Regular.Width(g.em, words[1])+3*g.em > b.sub(a).len() {
			at = spot{at.x, max(a.y, b.y) + 2.2*g.em} // beside it, towards the aisle
		}
		g.label(c, 1, at, 1, words...)
	}
	if f.Circle != nil {
		m := g.at(f.Circle.Centre.X, f.Circle.Centre.Z)
		g.label(blue, 0.9, m.add(spot{0, -f.Circle.Diameter / 4 * g.perMetre}), 1,
			"clear circle "+length(g.plan, f.Circle.Diameter), "a wheelchair turns in "+length(g.plan, f.Turning))
	}
}

// names letters what stands on the ground by itself, and the walls.
func (g ground) names() {
	for i := range g.plan.Parts {
		part := &g.plan.Parts[i]
		if part.Wall != nil && part.Wall.Back == "" {
			g.wallName(part)
		}
		if part.Bring == "" || part.Parent != "" || part.Wall != nil || part.Cloth != nil || part.Tent != nil {
			continue
		}
		var m spot
		n := 0.0
		for _, s := range part.Solids {
			for _, q := range way.Footprint(s, foot, cutAt) {
				m, n = m.add(g.at(q.X, q.Z)), n+1
			}
		}
		if n > 0 {
			g.label(ink, 0.9, m.mul(1/n), 0, short(part.Name))
		}
	}
}

// wallName letters a wall, on the side that works are not on.
func (g ground) wallName(part *booth.Part) {
	f := part.Frame
	m := f.At(geom.Vec{X: part.Wall.Width / 2})
	at := g.at(m.X, m.Z)
	out := spot{-f.Z.X, -f.Z.Z}
	wide := lettering.Regular.Width(0.9*g.em, short(part.Name))/2 + 1.2*g.em
	g.label(ink, 0.9, at.add(spot{out.x * wide, out.y * 1.5 * g.em}), 0, short(part.Name))
}
