package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/basis/lamp"
	"boothmock/internal/plan/booth"
)

// A work that looks along +Z, one metre high and wide, its middle at 1.5 m.
func paneAt(parts ...booth.Part) (*booth.Plan, geom.Polygon) {
	face := geom.Polygon{{X: -0.5, Y: 1}, {X: 0.5, Y: 1}, {X: 0.5, Y: 2}, {X: -0.5, Y: 2}}
	work := booth.Part{ID: "work", Work: &booth.Work{Face: face, Glazing: glass.Glass}, Solids: []geom.Convex{geom.Box(geom.World, geom.Vec{X: -0.5, Y: 1, Z: -0.02}, geom.Vec{X: 0.5, Y: 2})}}
	return &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}, Parts: append([]booth.Part{work}, parts...)}, face
}

// The law of reflection, by similar triangles from the mirrored eye two metres behind the pane.
func TestMirrorBySimilarTriangles(t *testing.T) {
	p, face := paneAt()
	s := Measure(p, Daylight{}).Panes()
	eye := geom.Vec{Y: 1.5, Z: 2}
	// In the open a work gets 0.5 of what open ground gets; the sky near the horizon is 3/7 as bright as that, of which 8 % is little.
	if m := s.Look(eye, face, 0, glass.Glass); m.Lost != 0 {
		t.Errorf("in the open: %+v", m)
	}
	// A work that gets next to no light mirrors all: the upper half is sky, the lower one ground.
	s.light[0] = 0.01
	m := s.Look(eye, face, 0, glass.Glass)
	if math.Abs(m.Lost-1) > 1e-6 {
		t.Errorf("in the dark: %+v", m)
	}
	s.g.openGround = rgb{}
	if m = s.Look(eye, face, 0, glass.Glass); math.Abs(m.Lost-0.5) > 0.001 || m.Most != OpenSky {
		t.Errorf("over black ground: %+v", m)
	}
	if m = s.Look(geom.Vec{Y: 1.5, Z: -2}, face, 0, glass.Glass); m.Lost != 0 {
		t.Errorf("from behind: %+v", m)
	}
	// A black board four metres before the pane, from the height of the eye up to 0.75 m over it, is six metres from the mirrored eye:
	// it takes 0.25 m of the pane, half of its upper half.
	p, face = paneAt(booth.Part{ID: "board", Surfaces: []booth.Surface{{Mesh: geom.Solids(geom.Box(geom.World, geom.Vec{}, geom.Vec{X: 1, Y: 1, Z: 1}))}},
		Solids: []geom.Convex{geom.Box(geom.World, geom.Vec{X: -5, Y: 1.5, Z: 4}, geom.Vec{X: 5, Y: 2.25, Z: 4.1})}})
	s = Measure(p, Daylight{}).Panes()
	s.light[0] = 0.01
	s.g.openGround = rgb{}
	for _, fs := range s.g.faces {
		for i := range fs {
			fs[i].bright = rgb{}
		}
	}
	if m = s.Look(eye, face, 0, glass.Glass); math.Abs(m.Lost-0.25) > 0.001 {
		t.Errorf("over a board: %+v", m)
	}
}

// A lamp is mirrored where the angles are equal: half-way between an eye and a lamp as far before the pane.
func TestLampInAPane(t *testing.T) {
	p, face := paneAt(lampPart("lamp/a", geom.Vec{X: 0.6, Y: 1.5, Z: 2}, geom.Vec{X: -0.3, Z: -2}.Unit(), lampBeam))
	s := Measure(p, Daylight{}).Panes()
	if m := s.Look(geom.Vec{X: -0.6, Y: 1.5, Z: 2}, face, 0, glass.Glass); len(m.Lamps) != 1 || m.Lamps[0] != 1 {
		t.Errorf("at equal angles: %+v", m)
	}
	if m := s.Look(geom.Vec{X: -1.7, Y: 1.5, Z: 2}, face, 0, glass.Glass); len(m.Lamps) != 0 { // half-way is 0.55 m from the middle
		t.Errorf("beside the pane: %+v", m)
	}
}

var lampBeam = lamp.Spot(800, math.Pi/3)
