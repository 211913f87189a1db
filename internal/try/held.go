package try

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/check"
)

// held is the way in while a thing on the ground is held with its origin at X, Z, turned by Turn degrees more than it is. Nothing is
// changed by it.
func (s *Session) held(a Ask) (*Floor, error) {
	p, err := s.part(a.Item)
	if err != nil {
		return nil, err
	}
	if math.IsNaN(a.X+a.Z+a.Turn) || math.Abs(a.X)+math.Abs(a.Z)+math.Abs(a.Turn) > 1e4 {
		return nil, refuse("It cannot be held there")
	}
	// to takes a point as it is to where it is held.
	to := geom.World.Turned(a.Turn * math.Pi / 180)
	at := p.Frame.Origin
	to.Origin = geom.Vec{X: a.X, Y: at.Y, Z: a.Z}.Sub(to.Turn(at))
	plan := *s.booth.Plan
	plan.Parts = slices.Clone(plan.Parts)
	for i := range plan.Parts {
		q := &plan.Parts[i]
		if q.ID != p.ID && q.Parent != p.ID && (p.Wall == nil || q.At != p.At) {
			continue
		}
		q.Solids, q.Blocks = moved(q.Solids, to), moved(q.Blocks, to)
	}
	f := s.floor(check.WayIn(&plan))
	return &f, nil
}

func moved(list []geom.Convex, to geom.Frame) []geom.Convex {
	if list == nil {
		return nil
	}
	out := make([]geom.Convex, len(list))
	for i, c := range list {
		out[i] = to.Solid(c)
	}
	return out
}
