package draft

import (
	"math"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// What a plan from above shows is between these heights above the ground, in metres: canopy and rails are cut away, carpets walked over.
const (
	CutAt = 1.9
	foot  = 0.02
)

// Around is how much of the ground about the pitch is drawn, in metres.
type Around struct{ Beside, Behind, Aisle float64 }

// Plan is the booth as seen from above, the aisle below.
type Plan struct {
	Sheet
	Ground Box // all that is drawn of the ground, on the sheet
	plan   *booth.Plan
}

// Above lays a booth out as seen from above, in the middle and at the top of a piece of the sheet.
func Above(p *booth.Plan, around Around, within Box, set Setting) *Plan {
	s := &Plan{Sheet: Sheet{Setting: set}, plan: p}
	wide, high := p.Pitch.Width+2*around.Beside, p.Pitch.Depth+around.Behind+around.Aisle
	s.fit(min((within.X1-within.X0)/wide, (within.Y1-within.Y0)/high))
	left := (within.X0+within.X1)/2 - wide/2*s.Scale
	s.Ground = Box{left, within.Y0, left + wide*s.Scale, within.Y0 + high*s.Scale}
	s.Origin = Point{left + wide/2*s.Scale, within.Y0 + (p.Pitch.Depth+around.Behind)*s.Scale}

	h, back := p.Pitch.Width/2, -p.Pitch.Depth
	s.area(Pitch, Hollow, way.Shape{{X: -h}, {X: -h, Z: back}, {X: h, Z: back}, {X: h}})
	s.things()
	aisle := words(0, 0, "aisle: visitors come from here")
	s.put(s.over(aisle, way.Point{Z: around.Aisle - 0.15})...)
	s.walls()
	s.names()
	return s
}

// On is a place on the ground on the sheet.
func (s *Plan) On(q way.Point) Point { return s.At(q.X, -q.Z) }

func (s *Plan) area(pen Pen, fill Fill, shape way.Shape) {
	var path []Point
	for _, q := range shape {
		path = append(path, s.On(q))
	}
	s.Marks = append(s.Marks, Mark{Pen: pen, Path: path, Closed: true, Fill: fill})
}

// things draws what is cut through or shows as a line from above, dark: walls, cloth and works; and all else, if it is not seen in a
// picture below.
func (s *Plan) things() {
	for i := range s.plan.Parts {
		part := &s.plan.Parts[i]
		pen, fill, solids := Thing, Pale, part.Room()
		switch {
		case part.Flat || part.Moving || part.Beyond && !s.Seen:
			continue
		case part.Work != nil:
			pen, fill = Hung, Ink
		case part.Cloth != nil || part.Wall != nil:
			pen, fill = Cut, Ink
		case s.Seen:
			continue
		}
		if s.Seen { // with its folds
			solids = part.Solids
		}
		for _, c := range solids {
			if f := way.Footprint(c, foot, CutAt); len(f) > 2 {
				s.area(pen, fill, f)
			}
		}
	}
}

// names letters what stands on the ground by itself, in its middle or near that.
func (s *Plan) names() {
	for i := range s.plan.Parts {
		part := &s.plan.Parts[i]
		if part.Bring == "" || part.Parent != "" || part.Wall != nil || part.Cloth != nil || part.Tent != nil {
			continue
		}
		var corners way.Shape
		for _, c := range part.Solids {
			corners = append(corners, way.Footprint(c, foot, CutAt)...)
		}
		if len(corners) > 0 {
			s.put(s.over(words(0, 0, short(part)), corners.Middle())...)
		}
	}
}

// short is a thing's name as a label: without its article.
func short(part *booth.Part) string { return strings.TrimPrefix(part.Name, "the ") }

// over are a label's places with its middle on a place of the ground, and above and below that.
func (s *Plan) over(m Mark, at way.Point) (out []Mark) {
	p := s.On(at)
	m.Held = 0.5
	for away := 0.0; away < 4; away += 0.55 {
		for _, down := range [2]float64{away, -away} {
			m.Path = []Point{{p.X, p.Y + float64((down+0.28)*s.Em)}}
			out = append(out, m)
		}
	}
	return out
}

// walls letters the walls: on the side that works are not on, level or along the wall; or else within.
func (s *Plan) walls() {
	for i := range s.plan.Parts {
		part := &s.plan.Parts[i]
		if part.Wall == nil || part.Wall.Back != "" {
			continue
		}
		f, m := part.Frame, words(0, 0, short(part))
		middle := f.At(geom.Vec{X: part.Wall.Width / 2})
		long := s.Width(false, m.Text) / 2
		beside := func(side, across, along float64) Mark { // so many ems off the wall, by how far the label goes that way
			off := side * (float64(math.Abs(f.Z.X)*across) + float64(math.Abs(f.Z.Z)*along) + 0.8) * s.Em / s.Scale
			return s.over(m, way.Point{X: middle.X + float64(f.Z.X*off), Z: middle.Z + float64(f.Z.Z*off)})[0]
		}
		upright := beside(-1, 0.5, long)
		upright.Turned = true
		s.put(beside(-1, long, 0.5), upright, beside(1, long, 0.5))
	}
}
