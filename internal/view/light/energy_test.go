package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
)

// What comes in from sky, sun and lamps is taken up by the faces, or leaves for the sky and for what is not of the room; within the
// half percent that is asked, and without it only what has not yet been taken up after the last bounce.
func TestEnergyIsConserved(t *testing.T) {
	sun := Daylight{Toward: geom.Vec{X: 0.3, Y: 0.8, Z: 0.5}.Unit(), Direct: 4, Radius: 0.0046}
	for _, c := range []struct {
		booth string
		day   Daylight
	}{{"demo", sun}, {"dark", Daylight{}}, {"hall", Daylight{}}} {
		p := variant(t, c.booth)
		r := newRoom(p, nil, nothing)
		r.under(p, c.day)
		r.settle()
		came, taken, left := 0.0, 0.0, 0.0
		for k := range r.faces {
			for i := range r.faces[k] {
				f := &r.faces[k][i]
				open, n := 0.0, 0.0
				for _, p := range f.points() {
					q, _ := r.free(p, f.n, r.solids[k].Owner)
					if list, ok := r.arrived[place{q, f.n}]; ok {
						n, open = n+1, open+1
						for _, a := range list {
							if a.from >= 0 {
								open -= a.share
							}
						}
					}
				}
				light, green := luminance(f.light), luminance(f.light.times(f.colour))
				came += f.clear * luminance(f.open.plus(f.lamps, 1).plus(white, f.sun))
				taken += f.clear * (light - green*(1-f.passes) - green*through(f.colour, f.passes))
				left += f.clear * luminance(f.bright) * open / max(1, n)
			}
		}
		if t.Logf("%s: %.4f of what comes in is taken up or leaves", c.booth, (taken+left)/came); math.Abs((taken+left)/came-1) > 0.002 {
			t.Errorf("%s: %.2f comes in, %.2f is taken up, %.2f leaves", c.booth, came, taken, left)
		}
	}
}

// Cloth gives back and lets through no more than it gets: at a face, whatever its colour and however much passes.
func TestClothGivesNoMoreThanItGets(t *testing.T) {
	for _, c := range []rgb{{0.9, 0.9, 0.88}, {1, 1, 1}, {0.02, 0.03, 0.06}, {0.7, 0.1, 0.1}} {
		for passes := 0.0; passes <= 0.9; passes += 0.15 {
			back, on := c.times(crossed(white, rgb{}, c, passes)), c.times(crossed(rgb{}, white, c, passes))
			for k := range c {
				if sum := back[k] + on[k]; sum > 1+1e-12 {
					t.Errorf("cloth of colour %v that passes %.2f gives back %.3f of what it gets", c, passes, sum)
				}
			}
		}
	}
}
