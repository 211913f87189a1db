package kinds

import (
	"testing"

	"boothmock/internal/basis/geom"
)

// Cloth before a panel along a side hangs clear of it, and a work clear of the cloth.
func TestClothBeforeAPanel(t *testing.T) {
	p := mustPlan(t, "units: in\ntent: {}\ndrapes: {}\nwalls: [{side: back, hang on: panel}]\nworks: [{name: a, size: 20 x 20, wall: back}]\n")
	order := []geom.Vec{}
	for _, id := range []string{"wall/back", "drape/back", "work/a"} {
		for _, part := range p.Parts {
			if string(part.ID) == id {
				lo, hi := geom.BoundsOf(part.Room())
				order = append(order, geom.Vec{X: lo.Z, Y: hi.Z})
			}
		}
	}
	if len(order) != 3 || order[1].X < order[0].Y-1e-9 || order[2].X < order[1].Y-1e-9 || order[2].X > order[1].Y+0.01 {
		t.Errorf("from the back to the front they reach (X to Y): %v", order)
	}
}
