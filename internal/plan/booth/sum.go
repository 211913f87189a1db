package booth

import (
	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
)

// Body is the sum of what the part takes room with and hides things with, in its place: its ID, Solids, Blocks and Screen.
func (p *Part) Body() answer.Sum {
	var s answer.Summing
	s.Text(string(p.ID))
	for _, list := range [2][]geom.Convex{p.Solids, p.Blocks} {
		s.Count(len(list))
		for i := range list {
			c := &list[i]
			s.Count(len(c.Corners), len(c.Faces))
			for _, v := range c.Corners {
				s.Add(v.X, v.Y, v.Z)
			}
			for _, f := range c.Faces {
				s.Count(len(f))
				s.Count(f...)
			}
		}
	}
	s.Count(len(p.Screen))
	for _, w := range p.Screen {
		s.Add(w.From.X, w.From.Y, w.From.Z, w.Along.X, w.Along.Y, w.Along.Z, w.Step.X, w.Step.Y, w.Step.Z, w.Radius)
		s.Count(w.Count)
	}
	for _, yes := range [...]bool{p.SeeThrough, p.Moving, p.Flat, p.Sheet, p.Dressing, p.Beyond} {
		if yes {
			s.Count(1)
		} else {
			s.Count(0)
		}
	}
	return s.Done()
}
