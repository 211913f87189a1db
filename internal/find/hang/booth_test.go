package hang

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
)

const (
	in = float64(unit.Inch)
	ft = float64(unit.Foot)
	lb = float64(unit.Pound)
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s is %v, want %v within %v", what, got, want, tol)
	}
}

// bench is a booth of one wall, 10 x 10 ft, for tests: mesh of 2 in from 6 in to 82 in, 117 in wide, with cloth of
// fullness 1.25 from 84 in to 1/2 in before it.
func bench(hold booth.Hold, works ...booth.Part) *booth.Plan {
	p := &booth.Plan{
		File: "bench.yaml", Event: "Lower Fennick Green Art Fair", Artist: "Odile Marrowby", Currency: "$",
		Pitch: booth.Pitch{Width: 10 * ft, Depth: 10 * ft, Aisle: 12 * ft},
		Hooks: booth.Hooks{Drop: 1.25 * in, Loop: 0.5 * in},
	}
	face := geom.Upright(geom.Vec{X: -58.5 * in, Z: -118 * in}, geom.Vec{Z: 1})
	p.Parts = []booth.Part{
		{
			ID: "drape/back", Name: "the back drape", Frame: face.Moved(geom.Vec{X: 58.5 * in}),
			Cloth: &booth.Cloth{Side: booth.Back, Width: 117 * in, Bottom: 0.5 * in, Top: 84 * in, Fullness: 1.25, Bolt: 60 * in, Pipe: true},
		},
		{
			ID: "wall/back", Name: "the back wall", Frame: face, Bring: "mesh panels",
			Wall: &booth.Wall{Side: booth.Back, Width: 117 * in, Bottom: 6 * in, Top: 82 * in, Hold: hold, Spacing: 2 * in, Link: 1 * in, Cover: "drape/back"},
		},
	}
	if hold == booth.Chains {
		p.Parts[1].Wall.Spacing = 12 * in
	}
	for _, w := range works {
		hook.Hang(w.Work.Hung, p.Parts[1].Wall, w.Work.Fixing, p.Hooks, tolerance(p))
		p.Parts = append(p.Parts, w)
	}
	return p
}

// work is one that should hang on the bench's wall: high x wide inches, its left edge and its middle in inches.
func work(name string, high, wide, left, centre float64, f booth.Fixing) booth.Part {
	return booth.Part{
		ID: booth.ID("work/" + name), Parent: "wall/back", Name: name,
		Work: &booth.Work{
			Title: name, Height: high * in, Width: wide * in, Weight: unit.Weight(8 * lb), Fixing: f,
			Hung: &booth.Hung{Wall: "wall/back", X0: left * in, X1: (left + wide) * in, Y0: (centre - high/2) * in, Y1: (centre + high/2) * in},
		},
	}
}

// wire is a work's wire: rings apart, length and rings below the upper edge, in inches.
func wire(rings, length, down float64) booth.Fixing {
	return booth.Fixing{By: booth.Wire, Spacing: rings * in, Wire: length * in, Drop: down * in, Hooks: 1}
}
