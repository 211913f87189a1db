package booth

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/lamp"
)

// Lamp is what a part has that gives light.
type Lamp struct {
	At      geom.Vec // the middle of where its light comes out
	Toward  geom.Vec // where it points: the axis of its beam
	Side    geom.Vec // square to that: where the angles round the axis of a maker's file count from
	Radius  float64  // metres: of the opening, as a disc
	Beam    lamp.Beam
	Watts   float64 // 0: not stated
	Kelvin  float64 // its colour temperature
	Battery float64 // watt hours; 0: it hangs on the mains
	Outdoor bool    // its maker says that it may be used in the open
	Aimed   bool    // the scene says where it points
	Aim     ID      // the work that it is aimed at; empty: none
}

// Candela is the lamp's intensity toward a point.
func (l *Lamp) Candela(p geom.Vec) float64 {
	d := p.Sub(l.At).Unit()
	off := math.Acos(max(-1, min(1, d.Dot(l.Toward))))
	return l.Beam.Toward(off, math.Atan2(d.Dot(l.Toward.Cross(l.Side)), d.Dot(l.Side)))
}
