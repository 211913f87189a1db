package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
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
	level := eyeLevel
	// fit is how far back somebody stands to see width metres, and a tenth more, across the angle.
	fit := func(width, across float64) float64 { return 1.1 * width / 2 / math.Tan(across/2) }
	front := s.aisle(booth.Front)
	s.Plan.Views = append(front[:], booth.View{Name: "across", Doc: "From the far side of the aisle.", Passing: true,
		Stand: geom.Vec{Z: p.Aisle - 0.3}, Look: geom.Vec{Y: level + 0.2, Z: -p.Depth / 2}, Across: 2 * math.Atan((p.Width/2+0.9)/(p.Aisle-0.3))})
	for _, side := range []booth.Side{booth.Left, booth.Right, booth.Back} {
		if p.Open[side] {
			more := s.aisle(side)
			s.Plan.Views = append(s.Plan.Views, more[:]...)
		}
	}
	s.Plan.Views = append(s.Plan.Views,
		booth.View{Name: "inside", Doc: "Standing a step inside, facing the back wall.",
			Stand: s.stepIn(), Look: geom.Vec{Y: level, Z: -p.Depth}, Across: 88 * deg},
		booth.View{Name: "application", Doc: "Straight on, corner to corner, without people, tags, signs or chair, as juries ask for it.",
			Stand: geom.Vec{Z: fit(p.Width, 52*deg)}, Look: geom.Vec{Y: level + 0.1, Z: 0}, Across: 52 * deg, Bare: true},
	)
	if s.seat != nil {
		s.Plan.Views = append(s.Plan.Views, booth.View{Name: "seat", Doc: "From your chair, towards the entrance.",
			Stand: geom.Vec{X: s.seat.X, Z: s.seat.Z}, Height: s.seat.Y + rules.SeatEye.In(book), Look: geom.Vec{Y: 1.1}, Across: 80 * deg})
	}
}

// stepIn is where somebody stands a step inside: in the middle, or to the freer side where something tall stands there.
func (s *Site) stepIn() geom.Vec {
	const round, hair = 0.5, 1e-6 // metres that are free around them, of what is as high as the eye; less is no difference
	at := geom.Vec{Z: -0.15 * s.Plan.Pitch.Depth}
	free := func(x float64) float64 {
		least := math.Inf(1)
		for i := range s.Plan.Parts {
			p := &s.Plan.Parts[i]
			if p.Flat || p.Moving || p.Beyond {
				continue
			}
			for _, c := range p.Room() {
				if lo, hi := geom.Bounds(c.Corners); lo.Y < eyeLevel && hi.Y > eyeLevel {
					least = min(least, max(math.Abs(x-max(lo.X, min(hi.X, x))), math.Abs(at.Z-max(lo.Z, min(hi.Z, at.Z)))))
				}
			}
		}
		return least
	}
	if free(0) >= round {
		return at
	}
	beside := s.Plan.Pitch.Width / 4
	left, right := free(-beside), free(beside)
	switch {
	case right >= round && right > left+hair:
		at.X = beside
	case left >= round:
		at.X = -beside
	}
	return at
}

const (
	deg      = math.Pi / 180
	step     = 0.6  // metres: common practice, no source
	eyeLevel = 1.40 // metres of what views look at: a little under the hanging centre, so that the floor is in the picture
)

// passersBy are the names of the views from the aisle along a side, and what they are: straight before the side, from its left
// end, as one faces it, and from its right end.
var passersBy = [4][3][2]string{
	booth.Front: {{"entrance", "Standing before the middle of the opening."},
		{"aisle-left", "Walking past from the left, still short of the booth."}, {"aisle-right", "Walking past from the right, still short of the booth."}},
	booth.Left: {{"left-side", "Standing in the aisle on the left, before the middle of that side."},
		{"left-from-back", "Walking along the aisle on the left, from the back."}, {"left-from-front", "Walking along the aisle on the left, from the front."}},
	booth.Back: {{"back-side", "Standing in the aisle behind, before the middle of the back."},
		{"back-from-right", "Walking along the aisle behind, from the right as seen from the front."}, {"back-from-left", "Walking along the aisle behind, from the left as seen from the front."}},
	booth.Right: {{"right-side", "Standing in the aisle on the right, before the middle of that side."},
		{"right-from-front", "Walking along the aisle on the right, from the front."}, {"right-from-back", "Walking along the aisle on the right, from the back."}},
}

// aisle are the views of people who pass along an open side: of one who stands before its middle, of one who comes from the
// left and of one from the right, a step before they have come round the corner of a neighbour.
func (s *Site) aisle(side booth.Side) [3]booth.View {
	p := s.Plan.Pitch
	wide, deep := p.Width, p.Depth
	if side == booth.Left || side == booth.Right {
		wide, deep = deep, wide
	}
	a, b := p.Edge(side)
	right := a.Sub(b).Unit() // of whoever faces the side
	f := geom.Frame{Origin: a.Lerp(b, 0.5), X: right, Y: geom.Up, Z: right.Cross(geom.Up)}
	near := min(p.Aisle/2, 1.8)
	view := func(k int, stand, look geom.Vec, across float64) booth.View {
		return booth.View{Name: passersBy[side][k][0], Doc: passersBy[side][k][1], Passing: true, Before: k == 0, Side: side,
			Stand: f.At(stand), Look: f.At(look), Across: across}
	}
	past := func(k int, left float64) booth.View {
		before := 0.8 // metres before the edge of the pitch
		if side == booth.Front {
			before = max(before, s.corner[k-1]+step)
		}
		return view(k, geom.Vec{X: -left * (wide/2 + before), Z: p.Aisle * 0.45}, geom.Vec{X: left * 0.15 * wide, Y: eyeLevel, Z: -0.45 * deep}, 72*deg)
	}
	return [3]booth.View{
		view(0, geom.Vec{Z: near}, geom.Vec{Y: eyeLevel, Z: -deep / 2}, 2*math.Atan((wide/2+0.12)/near)), past(1, 1), past(2, -1),
	}
}
