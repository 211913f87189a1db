package check

import (
	"strings"
	"testing"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// Two boxes that reach into each other by more than cloth gives way are told of; a work that leans on its table, a
// visitor and things that only touch are not.
func TestTwoInOnePlace(t *testing.T) {
	box := func(id, parent booth.ID, x float64) booth.Part {
		return booth.Part{ID: id, Parent: parent, Name: "the " + string(id), Solids: []geom.Convex{
			geom.Box(geom.World, geom.Vec{X: x, Z: -2}, geom.Vec{X: x + 0.5, Y: 0.7, Z: -1.5}),
		}}
	}
	for _, c := range []struct {
		name string
		b    booth.Part
		want bool
	}{
		{"an inch in", box("b", "", 0.5-in), true},
		{"more than cloth gives, 3/8 in, and a hair, 1/16 in", box("b", "", 0.5-0.45*in), true},
		{"less", box("b", "", 0.5-0.42*in), false},
		{"touching", box("b", "", 0.5), false},
		{"on it", box("b", "a", 0.2), false},
		{"a visitor", func() booth.Part { v := box("b", "", 0.2); v.Moving = true; return v }(), false},
	} {
		p := newPass(&booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}, Eyes: []booth.Eye{{Name: "adult", Height: 1.6}}, Parts: []booth.Part{box("a", "", 0), c.b}})
		p.run(clash)
		if got := len(p.findings) == 1 && strings.Contains(p.findings[0].Message, "take the same room, by "); got != c.want {
			t.Errorf("%s: %v", c.name, p.findings)
		}
	}
}
