package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

func nobody(int) bool { return false }

// A board that stands so high over a square has its shadow so far from its foot as similar triangles say: all day long, the sun
// turning about it.
func TestAlongBySimilarTriangles(t *testing.T) {
	var g Gaze
	floor := geom.Rect(geom.Frame{X: geom.Vec{X: 1}, Y: geom.Vec{Z: -1}, Z: geom.Up}, -2, -2, 2, 2)
	board := NewCrowd([]Solid{NewSolid(geom.Box(geom.World, geom.Vec{X: -.5, Y: 1, Z: -.5}, geom.Vec{X: .5, Y: 1 + 1e-6, Z: .5}), 7)})
	for hour := range 24 {
		turn := 2 * math.Pi * float64(hour) / 24
		for _, altitude := range []float64{0.2, 0.5, 0.8, 1.2, math.Pi / 2} {
			sun := geom.Vec{X: math.Cos(altitude) * math.Cos(turn), Y: math.Sin(altitude), Z: math.Cos(altitude) * math.Sin(turn)}
			x, z := -sun.X/sun.Y, -sun.Z/sun.Y // of the shadow's middle
			within := func(c float64) float64 { return max(0, min(c+.5, 2)-max(c-.5, -2)) }
			s := g.SeeAlong(sun, floor, board, nobody)
			near(t, "lit share", s.Visible, 1-within(x)*within(z)/16, 1e-5)
			near(t, "altitude", s.Turned, altitude, 1e-9)
		}
	}
	if s := g.SeeAlong(geom.Vec{X: 1}, floor, board, nobody); s.Visible != 0 {
		t.Errorf("a sun on the horizon lights %v of the ground", s.Visible)
	}
}

// An eye at infinity sees what an eye a hundred kilometres away sees, past solids and wires.
func TestAlongIsFarAway(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	var g, h Gaze
	partly := 0
	for k := range 400 {
		eye, target, solids := scene(t, r, 1+r.IntN(12))
		toward := eye.Sub(target.Centre()).Unit()
		var screens []Screen
		if k%3 == 0 {
			f := geom.World.Moved(geom.Vec{X: -1, Y: -1, Z: .3})
			screens = append(screens, NewScreen(geom.Wires{From: f.Origin, Along: geom.Vec{Y: 2}, Step: geom.Vec{X: .05}, Count: 40, Radius: .002}, 99))
		}
		crowd := NewCrowd(solids, screens...)
		along := g.SeeAlong(toward, target, crowd, nobody)
		far := h.SeePast(target.Centre().Add(toward.Mul(1e5)), target, crowd, nobody)
		if along.Visible > .01 && along.Visible < .99 {
			partly++
		}
		near(t, "visible", along.Visible, far.Visible, 2e-5)
		sum := along.Visible
		for _, x := range along.Hidden {
			sum += x.Part
		}
		near(t, "parts add up", sum, 1, 1e-9)
	}
	if partly < 100 {
		t.Errorf("only %d of the scenes hide a part of the target", partly)
	}
}
