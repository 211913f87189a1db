package draft

import (
	"math"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// From above a thing lies where it stands, to scale; it and every wall have their names, none of which lies on another or is cut off;
// and over a picture only what is cut through is drawn.
func TestAbove(t *testing.T) {
	box := func(lo, hi geom.Vec) []geom.Convex { return []geom.Convex{geom.Box(geom.World, lo, hi)} }
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 2.4, Aisle: 3}, Parts: []booth.Part{
		{Name: "the back wall", Frame: geom.Upright(geom.Vec{X: -1.5, Z: -2.3}, geom.Vec{Z: 1}), Wall: &booth.Wall{Width: 3, Top: 2.1}, Solids: box(geom.Vec{X: -1.5, Z: -2.3}, geom.Vec{X: 1.5, Y: 2.1, Z: -2.26})},
		{Name: "the left wall", Frame: geom.Upright(geom.Vec{X: -1.45, Z: 0}, geom.Vec{X: 1}), Wall: &booth.Wall{Width: 2.4, Top: 2.1}, Solids: box(geom.Vec{X: -1.5, Z: -2.4}, geom.Vec{X: -1.46, Y: 2.1})},
		{Name: "the table", Bring: "table", Solids: box(geom.Vec{X: 0.5, Z: -1}, geom.Vec{X: 1.1, Y: 0.7, Z: -0.4})},
		{Name: "the stool", Bring: "stool", Solids: box(geom.Vec{X: 0.6, Z: -0.8}, geom.Vec{X: 1, Y: 0.5, Z: -0.6})},
		{Name: "the rail", Bring: "rail", Solids: box(geom.Vec{X: -1, Y: 2, Z: -1}, geom.Vec{X: 1, Y: 2.1, Z: -0.9})}, // above heads
	}}
	for name, set := range settings(p, &booth.Wall{Width: 3, Top: 2.1}) {
		if set.OneByOne {
			continue
		}
		s := Above(p, Around{Beside: 0.5, Behind: 0.5, Aisle: 0.8}, Box{X0: 5, Y0: 5, X1: set.Wide - 5, Y1: set.High - 5}, set)
		if len(set.Scales) > 0 && !slices.Contains(set.Scales, s.Scale) {
			t.Errorf("%s: %v is none of the scales", name, s.Scale)
		}
		if b := s.Ground; !b.Within(Box{5 - 1e-9, 5 - 1e-9, set.Wide - 5 + 1e-9, set.High - 5 + 1e-9}) || math.Abs(b.X1-b.X0-4*s.Scale) > 1e-9 {
			t.Errorf("%s: the ground is at %+v", name, b)
		}
		var texts []string
		var boxes []Box
		tables := 0
		for _, m := range s.Marks {
			if m.Text != "" {
				b := s.Box(m)
				if slices.ContainsFunc(boxes, b.Meets) || !b.Within(Box{0, 0, s.Wide, s.High}) {
					t.Errorf("%s: %q lies on another label or is cut off", name, m.Text)
				}
				texts, boxes = append(texts, m.Text), append(boxes, b)
			} else if q := s.On(way.Point{X: 0.5, Z: -0.4}); m.Pen == Thing && slices.Contains(m.Path, q) {
				tables++
			}
		}
		if (tables == 1) == set.Seen {
			t.Errorf("%s: the table is drawn %d times", name, tables)
		}
		slices.Sort(texts)
		if want := []string{"aisle: visitors come from here", "back wall", "left wall", "stool", "table"}; !slices.Equal(texts, want) {
			t.Errorf("%s: %q", name, texts)
		}
	}
}
