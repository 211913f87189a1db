package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// Placing says where a thing stands on the ground. What is left out is the middle.
type Placing struct {
	Against   string       `yaml:"against" oneof:"left right back front" doc:"the side that its back stands against"`
	FromLeft  *unit.Length `yaml:"from left" range:"-30ft..200ft" doc:"clear distance from the left edge of the pitch; below 0 it stands out of it"`
	FromRight *unit.Length `yaml:"from right" range:"-30ft..200ft" doc:"clear distance from the right edge of the pitch; below 0 it stands out of it"`
	FromFront *unit.Length `yaml:"from front" range:"-30ft..200ft" doc:"clear distance from the front edge of the pitch; below 0 it stands out of it"`
	FromBack  *unit.Length `yaml:"from back" range:"-30ft..200ft" doc:"clear distance from the back edge of the pitch; below 0 it stands out of it"`
	Ahead     *unit.Length `yaml:"before front" doc:"clear distance out from the front edge, in the aisle"`
	Turn      unit.Angle   `yaml:"turn" range:"-360..360" doc:"how far it is turned, counterclockwise seen from above"`
}

// stand is the frame, on the ground at the middle of its footprint, of a thing that is w wide and d deep.
func (s *Site) stand(it scene.Item, p Placing, w, d float64) geom.Frame {
	facing := geom.Vec{Z: 1}
	switch p.Against {
	case "left":
		facing = geom.Vec{X: 1}
	case "right":
		facing = geom.Vec{X: -1}
	}
	s.oneOfTwo(it)
	f := geom.Upright(geom.Vec{}, facing).Turned(float64(p.Turn))
	// Half the room that the turned thing takes along the pitch's own axes.
	half := geom.Vec{X: math.Abs(f.X.X)*w/2 + math.Abs(f.Z.X)*d/2, Z: math.Abs(f.X.Z)*w/2 + math.Abs(f.Z.Z)*d/2}
	f.Origin = s.place(p, half.Neg(), half)
	return f
}

// oneOfTwo faults places that contradict each other.
func (s *Site) oneOfTwo(it scene.Item) {
	for _, clash := range [][2]string{{"from left", "from right"}, {"from front", "from back"}, {"from front", "before front"}, {"from back", "before front"}} {
		if it.Has(clash[0]) && it.Has(clash[1]) {
			it.Fault(clash[1], "say one of the two", "both %q and %q are given", clash[0], clash[1])
		}
	}
}

// place is where on the ground the origin of a thing is that reaches from lo to hi of it along the pitch's own axes.
func (s *Site) place(p Placing, lo, hi geom.Vec) geom.Vec {
	pw, pd := s.Plan.Pitch.Width, s.Plan.Pitch.Depth
	o := geom.Vec{X: -(lo.X + hi.X) / 2, Z: -pd/2 - (lo.Z+hi.Z)/2}
	switch {
	case p.FromLeft != nil:
		o.X = -pw/2 + p.FromLeft.M() - lo.X
	case p.FromRight != nil:
		o.X = pw/2 - p.FromRight.M() - hi.X
	case p.Against == "left":
		o.X = -pw/2 + s.face[booth.Left] - lo.X
	case p.Against == "right":
		o.X = pw/2 - s.face[booth.Right] - hi.X
	}
	switch {
	case p.FromFront != nil:
		o.Z = -p.FromFront.M() - hi.Z
	case p.FromBack != nil:
		o.Z = -pd + p.FromBack.M() - lo.Z
	case p.Ahead != nil:
		o.Z = p.Ahead.M() - lo.Z
	case p.Against == "back":
		o.Z = -pd + s.face[booth.Back] - lo.Z
	case p.Against == "front":
		o.Z = -hi.Z
	}
	return o
}

// top is a surface that things stand on: the frame at the middle of it, and its size.
type top struct {
	id   booth.ID
	at   geom.Frame
	w, d float64
	wall bool // there is a wall behind it, and works lean on that

	thick, folds float64 // metres: down to its underside, 0 where nothing hangs under it; that a cloth's folds stand out before it
}

// Resting says where a thing stands on a table or pedestal.
type Resting struct {
	On    string       `yaml:"on" doc:"the table, pedestal, easel or other thing that it stands on; a sculpture may stand on the ground, along from the pitch's left edge and back from its front"`
	Along *unit.Length `yaml:"along" doc:"from the left end of the table, as you stand before it, to the thing's left edge; the middle if left out"`
	Back  *unit.Length `yaml:"back" doc:"from the table's front edge to the thing; the middle if left out"`
}

// rest is the frame at the middle of the foot of a thing, w wide and d deep, that stands on a top, turned
// counterclockwise seen from above. Whether it stands there safely is for the checks to say.
func (s *Site) rest(it scene.Item, r Resting, turn unit.Angle, w, d float64) (geom.Frame, booth.ID, bool) {
	t, ok := s.tops[r.On]
	if !ok && r.On == "ground" {
		it.Fault("on", "a size of three lengths is a sculpture's; a picture stands on an easel, a ledge or a table", "only sculpture stands on the ground")
		return geom.Frame{}, "", false
	}
	if !ok {
		s.unknown(it, "on", "table, pedestal or thing", r.On, names(s.tops), "tables", "pedestals", "things")
		return geom.Frame{}, "", false
	}
	return t.rest(r, turn, w, d), t.id, true
}

// rest is the same of a top that is known.
func (t top) rest(r Resting, turn unit.Angle, w, d float64) geom.Frame {
	// Half the room that the turned thing takes along the table and across it.
	s1, c1 := math.Sincos(math.Abs(float64(turn)))
	hx, hz := math.Abs(c1)*w/2+math.Abs(s1)*d/2, math.Abs(s1)*w/2+math.Abs(c1)*d/2
	var x, z float64
	if r.Along != nil {
		x = -t.w/2 + r.Along.M() + hx
	}
	if r.Back != nil {
		z = t.d/2 - r.Back.M() - hz
	}
	return t.at.Moved(geom.Vec{X: x, Z: z}).Turned(float64(turn))
}
