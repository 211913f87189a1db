package job

import (
	"fmt"
	"image/color"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
	"boothmock/internal/view/drawing"
)

// Things on pictures of steps are drawn in usual sizes; common practice, no source.
var (
	card = color.NRGBA{205, 174, 128, 255}
	iron = color.NRGBA{92, 96, 104, 255}
)

func box(lo, hi geom.Vec, c color.NRGBA, words string) drawing.Thing {
	lo.Z, hi.Z = min(lo.Z, hi.Z), max(lo.Z, hi.Z)
	return drawing.Thing{Solid: geom.Box(geom.World, lo, hi), Colour: c, Words: words}
}

func bar(points ...geom.Vec) drawing.Thing { return drawing.Thing{Line: points} }

// marks are those of the pitch on the ground: a peg with its flag at each corner.
func marks(p *booth.Plan) (out []drawing.Thing) {
	w, d := p.Pitch.Width/2, p.Pitch.Depth
	for _, c := range []geom.Vec{{X: -w, Z: -d}, {X: w, Z: -d}, {X: -w}, {X: w}} {
		top := c.Add(geom.Vec{Y: 0.5})
		out = append(out, bar(c, top, top.Add(geom.Vec{X: 0.25, Y: -0.08}), top.Add(geom.Vec{Y: -0.18})))
	}
	return out
}

// trolley is a load on its trolley at the pitch, beside those that came before.
func trolley(p *booth.Plan, load int) (out []drawing.Thing) {
	const side, apart = 0.55, 0.75 // metres
	across := max(1, int(p.Pitch.Width/apart)-1)
	for k := range load {
		at := geom.Vec{X: -p.Pitch.Width/2 + 0.3 + float64(k%across)*apart, Z: -0.9 - 0.8*float64(k/across)}
		if k == load-1 {
			at = at.Add(geom.Vec{Z: 0.5})
			out = append(out, box(at, at.Add(geom.Vec{X: side + 0.2, Y: 0.12, Z: -side}), iron, ""))
			out = append(out, bar(at.Add(geom.Vec{X: side + 0.2, Y: 0.1, Z: -side / 2}), at.Add(geom.Vec{X: side + 0.5, Y: 1, Z: -side / 2})))
			at.Y = 0.12
		}
		out = append(out, box(at, at.Add(geom.Vec{X: side, Y: side, Z: -side}), card, fmt.Sprint(k+1)))
	}
	return out
}

// halfOpen is a tent's frame as it stands half open: its legs pushed in and near each other, its bars crossed between them.
func halfOpen(p *booth.Plan, tent *booth.Part) (out []drawing.Thing) {
	const open, leg = 0.55, 1.15 // of its width; metres, of a leg that is pushed in
	lo, hi := family(p, tent)
	c, half := lo.Add(hi).Mul(0.5), hi.Sub(lo).Mul(open/2)
	foot := func(i int) geom.Vec {
		s := [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}[i%4]
		return geom.Vec{X: c.X + s[0]*half.X, Z: c.Z + s[1]*half.Z}
	}
	peak := geom.Vec{X: c.X, Y: leg + 0.75, Z: c.Z}
	for i := range 4 {
		a, b := foot(i), foot(i+1)
		up, m := geom.Vec{Y: leg}, a.Lerp(b, 0.5)
		low := geom.Vec{Y: leg - 0.5}
		out = append(out, bar(a, a.Add(up), peak), bar(a.Add(up), m.Add(low)), bar(a.Add(low), m.Add(up)), bar(m.Add(up), b.Add(low)), bar(m.Add(low), b.Add(up)))
	}
	return out
}

// family are the bounds of a tent's legs, on the ground: it is made of parts.
func family(p *booth.Plan, tent *booth.Part) (lo, hi geom.Vec) {
	t, o := tent.Tent, tent.Frame.Origin
	x, z := tent.Frame.X.Mul(t.Width/2), tent.Frame.Z.Mul(t.Depth/2)
	return geom.Bounds([]geom.Vec{o.Add(x).Add(z), o.Sub(x).Sub(z)})
}

// weights stand at the feet of a tent's legs, each strapped to its leg; those behind come first.
func weights(p *booth.Plan, tent *booth.Part) (out []drawing.Thing) {
	const side, high = 0.3, 0.35 // metres
	lo, hi := family(p, tent)
	for _, z := range []float64{lo.Z, hi.Z - side} {
		for _, x := range []float64{lo.X, hi.X - side} {
			a := geom.Vec{X: x, Z: z}
			out = append(out, box(a, a.Add(geom.Vec{X: side, Y: high, Z: side}), iron, ""),
				bar(a.Add(geom.Vec{Y: high + 0.15, Z: side}), a.Add(geom.Vec{X: side, Y: high + 0.15, Z: side})))
		}
	}
	return out
}

// atWall is what a step at a wall is done with: a ladder and ties while it is put up, hooks with their numbers when they are set.
func atWall(p *booth.Plan, wall *booth.Part, s order.Step) (out []drawing.Thing) {
	on := func(x, y float64) geom.Vec { return wall.Frame.At(geom.Vec{X: x, Y: y, Z: 0.05}) }
	w := wall.Wall
	name := wall.Frame.At(geom.Vec{X: w.Width / 2, Y: w.Top + 0.12})
	out = append(out, drawing.Thing{Line: []geom.Vec{name}, Words: unit.Capital(wall.Name)})
	n := 0
	for _, k := range hook.OnWall(p, wall.ID) {
		for _, h := range k.Work.Hung.Hooks {
			n++
			if at := on(h.X, h.Grip); slices.Contains(s.Hooks, k.ID) {
				out = append(out, drawing.Thing{Ring: &at, Words: fmt.Sprint(n)})
			}
		}
	}
	for _, id := range s.Parts {
		part := p.Part(id)
		switch {
		case part.Wall != nil:
			panels := max(1, w.Panels)
			for k := range panels + 1 {
				x := w.Width * float64(k) / float64(panels)
				for _, y := range []float64{0.1, 0.37, 0.63, 0.9} {
					y = w.Bottom + y*(w.Top-w.Bottom)
					out = append(out, bar(on(x-0.05, y), on(x+0.05, y)))
				}
			}
		case part.Cloth == nil:
			continue
		}
		out = append(out, ladder(func(x, y float64) geom.Vec { return on(w.Width*0.8+x, y) })...)
		break
	}
	return out
}

// ladder is a step ladder, seen from the front.
func ladder(at func(x, y float64) geom.Vec) (out []drawing.Thing) {
	const high, foot, top = 1.2, 0.27, 0.18 // metres; half as wide as it is at its foot and its top
	for _, side := range []float64{-1, 1} {
		out = append(out, bar(at(side*foot, 0), at(side*top, high)))
	}
	for k := range 5 {
		y := high * float64(k+1) / 5
		half := foot + (top-foot)*y/high
		out = append(out, bar(at(-half, y), at(half, y)))
	}
	return out
}
