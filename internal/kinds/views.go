package kinds

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
)

// views sets the places from which the booth is looked at, and the visitors' eyes.
func (s *Site) views() {
	p, book := s.Plan.Pitch, s.Plan.Rules
	s.Plan.Eyes = []booth.Eye{
		{Name: "adult", Height: rules.AdultEye.In(book)},
		{Name: "tall", Height: rules.TallEye.In(book)},
		{Name: "short", Height: rules.ShortEye.In(book)},
		{Name: "wheelchair", Height: rules.WheelchairEye.In(book)},
		{Name: "child", Height: rules.ChildEye.In(book)},
	}
	const deg = math.Pi / 180
	level := 1.40 // metres: a little under the hanging centre, so that the floor is in the picture
	mid := geom.Vec{Y: level, Z: -p.Depth / 2}
	half := p.Width / 2
	// fit is how far back somebody stands to see width metres, and a tenth more, across the angle.
	fit := func(width, across float64) float64 { return 1.1 * width / 2 / math.Tan(across/2) }
	near := min(p.Aisle/2, 1.8)
	s.Plan.Views = []booth.View{
		{Name: "entrance", Doc: "Standing before the middle of the opening.",
			Stand: geom.Vec{Z: near}, Look: mid, Across: 2 * math.Atan((half+0.12)/near)},
		{Name: "aisle-left", Doc: "Walking past from the left, still short of the booth.",
			Stand: geom.Vec{X: -half - 0.8, Z: p.Aisle * 0.45}, Look: geom.Vec{X: 0.15 * p.Width, Y: level, Z: -0.45 * p.Depth}, Across: 72 * deg},
		{Name: "aisle-right", Doc: "Walking past from the right, still short of the booth.",
			Stand: geom.Vec{X: half + 0.8, Z: p.Aisle * 0.45}, Look: geom.Vec{X: -0.15 * p.Width, Y: level, Z: -0.45 * p.Depth}, Across: 72 * deg},
		{Name: "across", Doc: "From the far side of the aisle.",
			Stand: geom.Vec{Z: p.Aisle - 0.3}, Look: mid.Add(geom.Vec{Y: 0.2}), Across: 2 * math.Atan((half+0.9)/(p.Aisle-0.3))},
		{Name: "inside", Doc: "Standing a step inside, facing the back wall.",
			Stand: geom.Vec{Z: -0.15 * p.Depth}, Look: geom.Vec{Y: level, Z: -p.Depth}, Across: 88 * deg},
		{Name: "application", Doc: "Straight on, corner to corner, without people, tags, signs or chair, as juries ask for it.",
			Stand: geom.Vec{Z: fit(p.Width, 52*deg)}, Look: geom.Vec{Y: level + 0.1, Z: 0}, Across: 52 * deg, Bare: true},
	}
	if s.seat != nil {
		s.Plan.Views = append(s.Plan.Views, booth.View{Name: "seat", Doc: "From your chair, towards the entrance.",
			Stand: geom.Vec{X: s.seat.X, Z: s.seat.Z}, Height: s.seat.Y + rules.SeatEye.In(book), Look: geom.Vec{Y: 1.1}, Across: 80 * deg})
	}
}
