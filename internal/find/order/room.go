package order

import (
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// standing is the height, in metres, up to which a thing on the ground keeps a person from standing there.
const standing = 1.2

// wait is a task that must wait for another because it would stand in its way: numbers in a list of tasks.
type wait struct{ late, early int }

// inTheWay finds, of the tasks that put something on the ground, those that take the ground on which somebody has to
// stand for another task. When setting up, what would be in the way waits; when taking down, it goes first.
func inTheWay(p *booth.Plan, tasks []booth.Task, down bool) []wait {
	var out []wait
	needs := make([][]ground, len(tasks))
	for j, t := range tasks {
		for _, g := range t.Reach {
			var points []way.Point
			for _, v := range g {
				points = append(points, way.Point{X: v.X, Z: v.Z})
			}
			needs[j] = append(needs[j], newGround(way.Hull(points)))
		}
	}
	for i := range tasks {
		if !tasks[i].InTheWay {
			continue
		}
		var taken []ground
		for _, id := range tasks[i].Parts {
			part := p.Part(id)
			if part == nil || part.SeeThrough || part.Flat || part.Moving {
				continue
			}
			for _, c := range part.Room() {
				if s := way.Footprint(c, 0, standing); s != nil {
					taken = append(taken, newGround(s))
				}
			}
		}
		for j := range tasks {
			if i == j || !meets(taken, needs[j]) {
				continue
			}
			if w := (wait{late: i, early: j}); down {
				out = append(out, wait{late: j, early: i})
			} else {
				out = append(out, w)
			}
		}
	}
	return out
}

// ground is a shape on the floor with its bounds, so that most of what is apart is seen to be so at once.
type ground struct {
	shape  way.Shape
	lo, hi way.Point
}

func newGround(s way.Shape) ground {
	lo, hi := s.Bounds()
	return ground{s, lo, hi}
}

// meets is whether any of the shapes takes ground that is needed; what only touches does not.
func meets(taken, needed []ground) bool {
	const hair = 1e-6 // metres
	for _, need := range needed {
		for _, s := range taken {
			if max(s.lo.X-need.hi.X, need.lo.X-s.hi.X, s.lo.Z-need.hi.Z, need.lo.Z-s.hi.Z) >= hair {
				continue
			}
			if _, _, d := way.Closest(s.shape, need.shape); d < hair && overlap(s.shape, need.shape) {
				return true
			}
		}
	}
	return false
}

// overlap is whether two convex shapes that are not apart share more than an edge: whether they still meet when one is
// drawn in by a centimetre.
func overlap(a, b way.Shape) bool {
	m := b.Middle()
	var inner []way.Point
	for _, p := range b {
		d := p.Dist(m)
		f := 1 - 0.01/d
		inner = append(inner, way.Point{X: m.X + float64((p.X-m.X)*f), Z: m.Z + float64((p.Z-m.Z)*f)})
	}
	_, _, d := way.Closest(a, way.Hull(inner))
	return d < 1e-6
}
