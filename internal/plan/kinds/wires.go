package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// meshWires are the wires of a welded mesh that fills the room from lo to hi in the frame: standing ones before lying ones,
// pressed into each other as they are welded, with one of each along every edge.
func meshWires(f geom.Frame, lo, hi geom.Vec, spacing float64) []geom.Wires {
	r := wire / 2
	standing := geom.Vec{X: lo.X + r, Y: lo.Y, Z: hi.Z - r}
	lying := geom.Vec{X: lo.X, Y: lo.Y + r, Z: lo.Z + r}
	return append(row(f, standing, geom.Vec{Y: hi.Y - lo.Y}, geom.Vec{X: 1}, hi.X-lo.X-wire, spacing, true),
		row(f, lying, geom.Vec{X: hi.X - lo.X}, geom.Vec{Y: 1}, hi.Y-lo.Y-wire, spacing, true)...)
}

// chains hang from the top to the bottom, drawn as wires, and their room is so wide.
func chains(f geom.Frame, width, bottom, top, spacing, thick float64) (hung []geom.Wires, wide float64) {
	hung = row(f, geom.Vec{X: wire / 2, Y: bottom, Z: thick / 2}, geom.Vec{Y: top - bottom}, geom.Vec{X: 1}, width-wire, spacing, false)
	return hung, wire + float64(float64(hung[0].Count-1)*spacing)
}

// row is wires side by side, from at on over a length beside; if both, with one at the end of it too, in place of one that it would touch.
func row(f geom.Frame, at, along, beside geom.Vec, length, spacing float64, both bool) []geom.Wires {
	n := int(max(0, length)/spacing + 1e-9)
	wires := geom.Wires{From: f.At(at), Along: f.Turn(along), Step: f.Turn(beside.Mul(spacing)), Count: n + 1, Radius: wire / 2}
	rest := length - float64(float64(n)*spacing)
	if !both || rest < 1e-9 {
		return []geom.Wires{wires}
	}
	if rest < wire && n > 0 {
		wires.Count--
	}
	return []geom.Wires{wires, {From: f.At(at.Add(beside.Mul(length))), Along: wires.Along, Count: 1, Radius: wire / 2}}
}

// screen gives the part wires that are seen, and hide what is behind them.
func screen(p *booth.Part, wires []geom.Wires, front geom.Vec) {
	if len(wires) == 0 {
		return
	}
	var m geom.Mesh
	for _, w := range wires {
		m.Add(w.Mesh(front))
	}
	p.Screen, p.Surfaces = wires, append(p.Surfaces, booth.Surface{Mesh: m, Look: plainLook(metal)})
}
