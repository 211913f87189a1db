package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Chair is the artist's seat.
type Chair struct {
	Seat    unit.Length `yaml:"seat" range:"8in..40in" doc:"height of the seat"`
	Width   unit.Length `yaml:"width" range:"8in..40in" doc:"width over all"`
	Colour  Colour      `yaml:"colour" doc:"colour of seat and back"`
	Placing `yaml:",squash"`
}

var chairKind = one("chair", "Your own seat; the view `seat` is from it.",
	Chair{Seat: 18 * unit.Inch, Width: 18 * unit.Inch, Colour: Colour{0x5b, 0x62, 0x6b}}, buildChair)

func buildChair(s *Site, entries []entry[Chair]) {
	if len(entries) == 0 {
		return
	}
	it, e := entries[0].item, entries[0].says
	w, h := e.Width.M(), e.Seat.M()
	f := s.stand(it, e.Placing, w, w)
	at := func(x0, y0, z0, x1, y1, z1 float64) geom.Convex {
		return geom.Box(f, geom.Vec{X: x0, Y: y0, Z: z0}, geom.Vec{X: x1, Y: y1, Z: z1})
	}
	const bar = 0.011
	cloth := []geom.Convex{
		at(-w/2+0.02, h-0.03, -w/2+0.03, w/2-0.02, h, w/2),
		at(-w/2+0.03, h+0.18, -w/2, w/2-0.03, h+0.42, -w/2+0.02),
	}
	var frame []geom.Convex
	for _, x := range []float64{-w/2 + bar, w/2 - bar} {
		frame = append(frame,
			at(x-bar, 0, w/2-0.05, x+bar, h, w/2-0.05+2*bar),
			at(x-bar, 0, -w/2, x+bar, h+0.44, -w/2+2*bar),
			at(x-bar, 0.1, -w/2+2*bar, x+bar, 0.1+2*bar, w/2-0.05))
	}
	s.add(booth.Part{
		ID: "chair", Kind: "chair", Name: "the chair", At: it.At(""), Bring: "chair", Frame: f, Dressing: true,
		Solids:   append(append([]geom.Convex{}, cloth...), frame...),
		Surfaces: []booth.Surface{block(booth.Colour(e.Colour), cloth...), block(metal, frame...)},
	})
	s.furnish(s.Plan.Parts[len(s.Plan.Parts)-1], "Stand the chair in its place", 1, rules.ThingTime.In(s.Plan.Rules), false, chairGrams)
	seat := f.At(geom.Vec{Y: h})
	s.seat = &seat
}
