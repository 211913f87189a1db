package kinds

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

var rainCloth = booth.Colour{0xd3, 0xdf, 0xe4} // milky plastic

const (
	rainPasses = 0.55 // share of daylight that milky plastic lets through; common practice, no source
	rainDrop   = 0.20 // metres that a table's cover hangs down over the table's edge
	drawnBack  = 0.06 // share of the front that a curtain takes when it is drawn back
)

// rain closes the sides that have no wall of the tent's own with curtains, those of the front drawn back to both legs,
// and covers the tables with all that stands on them.
func (s *Site) rain(at fault.Place) {
	for _, side := range []booth.Side{booth.Front, booth.Left, booth.Back, booth.Right} {
		if s.closed[side] {
			continue
		}
		f, width := s.edge(side)
		if side == booth.Front { // behind the valance, inside the legs
			f, w := f.Moved(geom.Vec{Z: s.leg + 0.005}), width*drawnBack
			s.curtain(side, "-left", f.Moved(geom.Vec{X: width - s.face[booth.Left] - w}), w, 3, width/2, at)
			s.curtain(side, "-right", f.Moved(geom.Vec{X: s.face[booth.Right]}), w, 3, width/2, at)
			continue
		}
		s.curtain(side, "", f.Moved(geom.Vec{Z: -0.03}), width, 1.05, width, at)
	}
	for _, name := range names(s.tops)() {
		s.cover(s.tops[name], at)
	}
}

// curtain hangs from the eave to the ground, wide metres of the side's width when open.
func (s *Site) curtain(side booth.Side, end string, f geom.Frame, width, fullness, wide float64, at fault.Place) {
	top := s.eave - 0.02
	mesh, cloth, deep := s.folds(hanging{f, width, 0.02, top, fullness, 0.11, 0.01})
	s.add(booth.Part{
		ID: booth.ID("rain/" + side.String() + end), Kind: "weather", Name: "the " + side.String() + " rain curtain", At: at, Frame: f.Moved(geom.Vec{X: width / 2}),
		Solids:   cloth,
		Blocks:   []geom.Convex{geom.Box(f, geom.Vec{Y: 0.02}, geom.Vec{X: width, Y: top, Z: deep})},
		Surfaces: []booth.Surface{{Mesh: mesh, Look: booth.Look{Colour: rainCloth, TwoSided: true, Passes: rainPasses}}},
		Cloth:    &booth.Cloth{Side: side, Width: wide, Bottom: 0.02, Top: top, Fullness: 1, Rain: true},
	})
}

// cover is a sheet over a table and all that stands on it. Above the top its back stays clear of what hangs behind.
func (s *Site) cover(t top, at fault.Place) {
	table := s.Plan.Part(t.id)
	high := 0.01
	for i := range s.Plan.Parts {
		p := &s.Plan.Parts[i]
		if p.Parent != t.id {
			continue
		}
		for _, c := range p.Solids {
			_, hi := c.Bounds()
			high = max(high, hi.Y-t.at.Origin.Y+0.01)
		}
	}
	const (
		loose = 0.035 // metres that it stands off a table's own cloth
		clear = 0.06  // metres from the table's back edge
	)
	w, back, front := t.w/2+loose, -t.d/2+clear, t.d/2+loose
	var m geom.Mesh
	var sheet []geom.Convex
	for _, c := range [][2]geom.Vec{
		{{X: -w, Y: high - clothThick, Z: back}, {X: w, Y: high, Z: front}},
		{{X: -w, Y: -rainDrop, Z: front - clothThick}, {X: w, Y: high - clothThick, Z: front}},
		{{X: -w, Y: 0.002, Z: back}, {X: w, Y: high - clothThick, Z: back + clothThick}},
		{{X: -w, Y: -rainDrop, Z: back + clothThick}, {X: -w + clothThick, Y: high - clothThick, Z: front - clothThick}},
		{{X: w - clothThick, Y: -rainDrop, Z: back + clothThick}, {X: w, Y: high - clothThick, Z: front - clothThick}},
	} {
		side := geom.Box(t.at, c[0], c[1])
		sheet = append(sheet, side)
		m.Add(geom.Solids(side))
	}
	s.add(booth.Part{
		ID: "rain/over-" + booth.ID(last(t.id)), Parent: t.id, Kind: "weather", Name: table.Name + "'s rain cover", At: at, Frame: t.at, Sheet: true,
		Solids:   sheet,
		Surfaces: []booth.Surface{{Mesh: m, Look: booth.Look{Colour: rainCloth, TwoSided: true, Passes: rainPasses}}},
	})
}
