package sight

import (
	"testing"

	"boothmock/internal/basis/geom"
)

// A slab of cloth 4 cm thick, 2 m wide and 2 m high.
var slab = NewSolid(geom.Box(geom.World, geom.Vec{}, geom.Vec{X: 2, Y: 2, Z: .04}), 1)

func TestWaysOut(t *testing.T) {
	type way struct {
		name      string
		p, toward geom.Vec
		want      geom.Vec
		in        bool
	}
	for _, c := range []way{
		{"ahead", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: 1}, geom.Vec{Z: .011}, true},
		{"behind", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: -1}, geom.Vec{Z: -.031}, true},
		{"the side of a fold, near the hem: through the front", geom.Vec{X: .05, Y: 1, Z: .02}, geom.Vec{X: -.8, Z: .6}, geom.Vec{Z: .021}, true},
		{"clear of it", geom.Vec{X: 1, Y: 1, Z: .05}, geom.Vec{Z: 1}, geom.Vec{}, false},
	} {
		got, in := slab.Leave(c.p, c.toward, .001)
		if in != c.in || got.Dist(c.want) > 1e-12 {
			t.Errorf("leaving %s: %v %v, want %v %v", c.name, got, in, c.want, c.in)
		}
	}
	for _, c := range []way{
		{"by the near face", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: 1}, geom.Vec{Z: .01}, true},
		{"not back", geom.Vec{X: 1, Y: 1, Z: .01}, geom.Vec{Z: 1}, geom.Vec{Z: .03}, true},
		{"sideways", geom.Vec{X: .001, Y: 1, Z: .02}, geom.Vec{Z: 1}, geom.Vec{X: -.001}, true},
	} {
		got, in := slab.Aside(c.p, c.toward, 0)
		if in != c.in || got.Dist(c.want) > 1e-12 {
			t.Errorf("aside %s: %v %v, want %v %v", c.name, got, in, c.want, c.in)
		}
	}
}

func TestStops(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b geom.Vec
		want bool
	}{
		{"through", geom.Vec{X: 1, Y: 1, Z: -1}, geom.Vec{X: 1.2, Y: .8, Z: 1}, true},
		{"past its end", geom.Vec{X: 2.1, Y: 1, Z: -1}, geom.Vec{X: 2.1, Y: 1, Z: 1}, false},
		{"short of it", geom.Vec{X: 1, Y: 1, Z: 2}, geom.Vec{X: 1, Y: 1, Z: .05}, false},
		{"along its face", geom.Vec{X: -1, Y: 1, Z: .04}, geom.Vec{X: 3, Y: 1, Z: .04}, false},
		{"from inside", geom.Vec{X: 1, Y: 1, Z: .02}, geom.Vec{X: 1, Y: 1, Z: 1}, true},
	} {
		if slab.Stops(c.a, c.b) != c.want || slab.Stops(c.b, c.a) != c.want {
			t.Errorf("%s: want %v both ways", c.name, c.want)
		}
	}
}
