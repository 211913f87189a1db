package light

import (
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// In even light a work that faces any way is as bright as its image, everything else is duller, and what stands before a wall
// changes nothing.
func TestEven(t *testing.T) {
	for _, along := range []geom.Vec{{X: 1}, {Z: 1}, {X: -1}} {
		f := geom.Upright(geom.Vec{Y: 1}, along)
		plan := &booth.Plan{Parts: []booth.Part{
			{ID: "work", Frame: f, Work: &booth.Work{}, Surfaces: []booth.Surface{{Mesh: geom.ImageRect(geom.Rect(f, 0, 0, 1, 1))}}},
			{ID: "cloth", Frame: f, Surfaces: []booth.Surface{{Mesh: geom.ImageRect(geom.Rect(f, 0, 0, 1, 1))}}},
		}}
		before := Even(plan)
		if l := before.Surfaces[0].Light[0]; l != [3]float32{1, 1, 1} {
			t.Errorf("a work along %v: %v", along, l)
		}
		if l := before.Surfaces[1].Light[0][0]; l < 0.7 || l > 0.95 {
			t.Errorf("a cloth along %v: %v", along, l)
		}
		box := geom.Box(f, geom.Vec{Z: 0.1}, geom.Vec{X: 1, Y: 1, Z: 0.2})
		plan.Parts = append(plan.Parts, booth.Part{ID: "box", Frame: f, Solids: []geom.Convex{box}, Surfaces: []booth.Surface{{Mesh: geom.Solids(box)}}})
		if after := Even(plan); after.Surfaces[1].Light[0] != before.Surfaces[1].Light[0] || len(after.Surfaces) != 3 {
			t.Error("a box before a cloth shades it")
		}
	}
}
