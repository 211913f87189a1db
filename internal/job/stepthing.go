package job

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
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
	// cloth of covers, and of the walls that close a tent
	sheet  = color.NRGBA{150, 168, 184, 255}
	canvas = color.NRGBA{255, 255, 255, 255}
)

func box(lo, hi geom.Vec, c color.NRGBA, words string) drawing.Thing {
	lo.Z, hi.Z = min(lo.Z, hi.Z), max(lo.Z, hi.Z)
	return drawing.Thing{Solid: geom.Box(geom.World, lo, hi), Colour: c, Words: words}
}

func bar(points ...geom.Vec) drawing.Thing { return drawing.Thing{Line: points} }

// marks are those of the pitch on the ground: a peg with its flag at each corner; or the line within which nothing is left.
func marks(p *booth.Plan, left bool) (out []drawing.Thing) {
	w, d := p.Pitch.Width/2, p.Pitch.Depth
	corners := []geom.Vec{{X: -w, Z: -d}, {X: w, Z: -d}, {X: w}, {X: -w}}
	if left {
		return []drawing.Thing{bar(append(corners, corners[0])...)}
	}
	for _, c := range corners {
		top := c.Add(geom.Vec{Y: 0.5})
		out = append(out, bar(c, top, top.Add(geom.Vec{X: 0.25, Y: -0.08}), top.Add(geom.Vec{Y: -0.18})))
	}
	return out
}

const loadSide = 0.55 // metres

// waiting are so many loads at the back of the pitch, side by side and then on top of each other.
func waiting(p *booth.Plan, loads int) (out []drawing.Thing) {
	const apart = 0.75 // metres
	across := max(1, int(p.Pitch.Width/apart)-1)
	for k := range loads {
		at := geom.Vec{X: -p.Pitch.Width/2 + 0.3 + float64(k%across)*apart, Y: loadSide * float64(k/across), Z: -0.6 * p.Pitch.Depth}
		out = append(out, box(at, at.Add(geom.Vec{X: loadSide, Y: loadSide, Z: -loadSide}), card, fmt.Sprint(k+1)))
	}
	return out
}

// onTrolley is a load on its trolley at the front edge of the pitch.
func onTrolley(p *booth.Plan, load int) []drawing.Thing {
	at := geom.Vec{X: -0.2 * p.Pitch.Width, Z: -0.3}
	on := at.Add(geom.Vec{Y: 0.12})
	return []drawing.Thing{
		box(at, at.Add(geom.Vec{X: loadSide + 0.2, Y: on.Y, Z: -loadSide}), iron, ""),
		bar(at.Add(geom.Vec{X: loadSide + 0.2, Y: 0.1, Z: -loadSide / 2}), at.Add(geom.Vec{X: loadSide + 0.5, Y: 1, Z: -loadSide / 2})),
		box(on, on.Add(geom.Vec{X: loadSide, Y: loadSide, Z: -loadSide}), card, fmt.Sprint(load)),
	}
}

// cashBox is what the money is in, on the first table, or else on the ground at the front edge.
func cashBox(p *booth.Plan) []drawing.Thing {
	at := geom.Vec{X: -0.15, Z: -0.3}
	for i := range p.Parts {
		if part := &p.Parts[i]; part.Top != nil && part.Parent == "" && part.Wall == nil {
			lo, hi := bounds(part)
			at = geom.Vec{X: (lo.X+hi.X)/2 - 0.15, Y: hi.Y, Z: (lo.Z + hi.Z) / 2}
			break
		}
	}
	top := at.Add(geom.Vec{X: 0.15, Y: 0.3})
	return []drawing.Thing{box(at, at.Add(geom.Vec{X: 0.3, Y: 0.15, Z: -0.22}), iron, ""), {Line: []geom.Vec{top}, Words: "money, cards, papers"}}
}

// lays is what a step lays over things, or closes: it stays until the end of the list.
func lays(p *booth.Plan, s order.Step) []drawing.Thing {
	switch s.Deed {
	case booth.Covers:
		return covers(p, s.About)
	case booth.Closes:
		return closed(p)
	}
	return nil
}

// covers are sheets over things or works, those at the back first.
func covers(p *booth.Plan, over []booth.ID) (out []drawing.Thing) {
	const loose = 0.03 // metres that a sheet stands off
	off := geom.Vec{X: loose, Y: loose, Z: loose}
	for _, id := range slices.SortedStableFunc(slices.Values(over), func(a, b booth.ID) int {
		lo, _ := bounds(p.Part(a))
		other, _ := bounds(p.Part(b))
		return cmp.Compare(lo.Z, other.Z)
	}) {
		if lo, hi := bounds(p.Part(id)); hi.Y-lo.Y > 0.1 { // no rug
			lo = lo.Sub(off)
			lo.Y = max(0, lo.Y)
			out = append(out, box(lo, hi.Add(off), sheet, ""))
		}
	}
	return out
}

// closed are walls of cloth at the open sides of the tents, the front last.
func closed(p *booth.Plan) []drawing.Thing {
	var sides [3][]drawing.Thing
	for i := range p.Parts {
		t := &p.Parts[i]
		if t.Tent == nil {
			continue
		}
		lo, hi := family(p, t)
		corner := func(x, z float64) geom.Vec { return geom.Vec{X: x, Z: z} }
		for k, s := range [][2]geom.Vec{
			{corner(lo.X, lo.Z), corner(hi.X, lo.Z)}, {corner(lo.X, lo.Z), corner(lo.X, hi.Z)},
			{corner(hi.X, lo.Z), corner(hi.X, hi.Z)}, {corner(lo.X, hi.Z), corner(hi.X, hi.Z)},
		} {
			if !isShut(p, t, s[0], s[1]) {
				n := (k + 1) / 2
				sides[n] = append(sides[n], box(s[0], s[1].Add(geom.Vec{X: 0.02, Y: t.Tent.Eave, Z: 0.02}), canvas, ""))
			}
		}
	}
	return slices.Concat(sides[:]...)
}

// isShut is whether a wall, a cloth or another tent takes most of the side from a to b of a tent.
func isShut(p *booth.Plan, tent *booth.Part, a, b geom.Vec) bool {
	const by = 0.4 // metres off the side
	return slices.ContainsFunc(p.Parts, func(q booth.Part) bool {
		if q.ID == tent.ID || q.Beyond || q.Wall == nil && q.Tent == nil && (q.Cloth == nil || q.Cloth.Rain) {
			return false
		}
		lo, hi := bounds(&q)
		if q.Tent != nil {
			lo, hi = family(p, &q)
		}
		along, off := min(hi.X, b.X)-max(lo.X, a.X), min(math.Abs(lo.Z-a.Z), math.Abs(hi.Z-a.Z))
		if a.X == b.X {
			along, off = min(hi.Z, b.Z)-max(lo.Z, a.Z), min(math.Abs(lo.X-a.X), math.Abs(hi.X-a.X))
		}
		return off < by && along > b.Sub(a).Len()/2
	})
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

// weights, or only stakes, stand at the feet of a tent's legs, each strapped to its leg; those behind come first.
func weights(p *booth.Plan, tent *booth.Part) (out []drawing.Thing) {
	side, high := 0.3, 0.35 // metres
	if t := tent.Tent; t.Ballast == 0 && t.Stake > 0 {
		side, high = 0.05, 0.12
	}
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

// atWall is what a step at a wall is done with: a ladder and ties while it is put up, hooks with their numbers when they are set, rings around tags.
func atWall(p *booth.Plan, wall *booth.Part, s order.Step) (out []drawing.Thing) {
	on := func(x, y float64) geom.Vec { return wall.Frame.At(geom.Vec{X: x, Y: y, Z: 0.05}) }
	w := wall.Wall
	name := wall.Frame.At(geom.Vec{X: w.Width / 2, Y: w.Top + 0.12})
	out = append(out, drawing.Thing{Line: []geom.Vec{name}, Words: unit.Capital(wall.Name)})
	const small = 0.25 // metres: what would not be found without a ring
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
		if lo, hi := bounds(part); part.Work == nil && hi.Sub(lo).Len() < small { // a tag or a sign
			at := lo.Lerp(hi, 0.5)
			out = append(out, drawing.Thing{Ring: &at})
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
