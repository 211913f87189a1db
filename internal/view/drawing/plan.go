package drawing

import (
	"image"
	"image/draw"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
	"boothmock/internal/view/draft"
	"boothmock/internal/view/picture"
)

// around is how much of the ground is drawn: so much on the left and on the right, as walls have their names there and a way may come
// round a corner; and so much of the aisle, or all of a narrower one.
var around = draft.Around{Beside: 1.2, Behind: 0.5, Aisle: 2.1}

// ground is the plan from above on paper.
type ground struct {
	paper
	sheet *draft.Plan
	plan  *booth.Plan
}

func (g ground) at(q way.Point) spot { return inked(g.sheet.On(q)) }

// fromAbove draws the booth from above, the aisle below, cut off above people's heads, with the way in.
func fromAbove(plan *booth.Plan, s *picture.Stage, o Options, n Notes) *image.NRGBA {
	p, about := plan.Pitch, around
	about.Aisle = min(about.Aisle, p.Aisle)
	g := ground{paper: blank(o), plan: plan}
	wide, high := float64(o.Width), float64(o.Height)
	g.sheet = draft.Above(plan, about, draft.Box{Y0: 3 * g.em, X1: wide, Y1: high - 2.6*g.em}, setting(plan, o, g.em))
	w, d := p.Width+2*about.Beside, p.Depth+about.Behind+about.Aisle
	frame := geom.Frame{Origin: geom.Vec{X: -w / 2, Z: about.Aisle}, X: geom.Vec{X: 1}, Y: geom.Vec{Z: -1}, Z: geom.Vec{Y: 1}}
	m := s.DrawFlat(frame, w, d, g.sheet.Scale, -0.1, draft.CutAt, nil)
	draw.Draw(g, m.Rect.Add(image.Pt(int(g.sheet.Ground.X0+0.5), int(g.sheet.Ground.Y0+0.5))), m, image.Point{}, draw.Src)
	g.plot(g.sheet.Marks)
	if n.Floor != nil {
		g.walk(n.Floor)
		g.widths(n.Floor)
	}
	feet := plan.Feet
	g.write(lettering.Bold, ink, 1.2, spot{g.em, 2 * g.em}, "From above: pitch "+feet(p.Width)+" wide, "+feet(p.Depth)+" deep")
	g.scaleBar(plan, spot{g.at(way.Point{X: -p.Width / 2}).x, high - 1.1*g.em}, g.sheet.Scale)
	return g.NRGBA
}

// walk draws the clear circle and the way to it.
func (g ground) walk(f *Floor) {
	if f.Circle != nil {
		m, r := g.at(f.Circle.Centre), f.Circle.Diameter/2*g.sheet.Scale
		g.fill(clear, ring(m, r))
		closed := func(s []spot) []spot { return append(s, s[0]) }
		g.line(blue, 0.12*g.em, closed(ring(m, r))...)
		g.dashed(blue, 0.1*g.em, 0.4*g.em, 0.4*g.em, closed(ring(m, f.Turning/2*g.sheet.Scale))...)
	}
	if len(f.Way) > 1 {
		var line []spot
		for _, q := range f.Way {
			line = append(line, g.at(q))
		}
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
		a, b := g.at(f.Narrow[0]), g.at(f.Narrow[1])
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
		m := g.at(f.Circle.Centre)
		g.label(blue, 0.9, m.add(spot{0, -f.Circle.Diameter / 4 * g.sheet.Scale}), 1,
			"clear circle "+length(g.plan, f.Circle.Diameter), "a wheelchair turns in "+length(g.plan, f.Turning))
	}
}
