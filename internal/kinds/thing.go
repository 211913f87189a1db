package kinds

import (
	"fmt"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/scene"
)

// thing adds number k of the things that a table's entry names.
func (s *Site) thing(it scene.Item, e Thing, on string, parent booth.ID, k int) {
	w, d, h := e.Size.A.M(), e.Size.B.M(), e.Size.C.M()
	f, _, ok := s.rest(it, Resting{On: on, Along: e.Along, Back: e.Back}, 0, w, d)
	if !ok {
		return
	}
	c := booth.Colour(e.Colour)
	if e.Colour == (Colour{}) {
		c = booth.Colour{0xd9, 0xd3, 0xc6}
	}
	box := geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})
	s.add(booth.Part{
		ID: id("thing", e.Name), Parent: parent, Kind: "tables", Name: "the " + e.Name, At: it.At(fmt.Sprintf("on top.%d", k)), Frame: f, Bring: e.Name, Handled: e.Take,
		Solids: []geom.Convex{box}, Surfaces: []booth.Surface{block(c, box)},
	})
}
