package kinds

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// Fastened says where a thing is that does not stand: a shelf or a ledge on its wall, and what hangs.
type Fastened struct {
	Wall       string       `yaml:"wall" doc:"of a shelf or a ledge: the wall that it is fastened to"`
	HangsOn    string       `yaml:"hangs on" doc:"what it hangs on, its back to that: a wall, or the front of a table, a pedestal or another thing"`
	HangsUnder string       `yaml:"hangs under" doc:"what it hangs under: a table, a shelf or a ledge, or a bar of the tent: front bar, left bar, back bar or right bar"`
	Left       *unit.Length `yaml:"left" doc:"from the left end of what it is fastened to, hangs on or hangs under, as you face that from inside, to its left edge; the middle if left out"`
	Height     *unit.Length `yaml:"height" range:"2in..16ft" doc:"above the ground: of a shelf or a ledge, where things stand on it, 36 in if left out; of what hangs, its upper edge, and what hangs lower than what it hangs under does so by cords"`
}

// Measures of a shelf and of what leans on it, in metres: common practice, no source.
const (
	usualShelf = 36 * unit.Inch
	plank      = 0.018 // thickness of a ledge's board and of its lip
	leanOut    = 0.17  // of its height, that the foot of a work is before the wall that it leans on: 10 degrees
)

// shelf is a board on two brackets, its underside on the frame's ground.
func shelf(f geom.Frame, w, d, h float64) made {
	const bracket = 0.012
	m := made{wood: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})}}
	for _, x := range []float64{-0.35 * w, 0.35 * w} {
		long := 0.8 * d
		at := f.Moved(geom.Vec{X: x - bracket/2, Z: -d / 2})
		side := geom.Polygon{at.Origin, at.At(geom.Vec{Y: -long}), at.At(geom.Vec{Z: long})}
		m.wood = append(m.wood, geom.Prism(side, at.X.Mul(bracket)))
	}
	return m
}

// onLedge is a ledge's board, behind its lip.
func onLedge(w, d, h float64) (up, wide, deep float64) { return min(plank, h/2, d/4), w, d }

// ledge is a narrow board with a lip before it, over which works are seen that lean on the wall.
func ledge(f geom.Frame, w, d, h float64) made {
	thick, _, _ := onLedge(w, d, h)
	return made{wood: []geom.Convex{
		geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: thick, Z: d/2 - thick}),
		geom.Box(f, geom.Vec{X: -w / 2, Z: d/2 - thick}, geom.Vec{X: w / 2, Y: h, Z: d / 2}),
	}}
}

// fasten is the frame of a shelf or a ledge w wide and d deep, at the middle of its underside, what stands on it up metres
// higher; and its wall. Which of the scene's keys contradict that is a fault.
func (s *Site) fasten(it scene.Item, e Belonging, w, d, up float64) (geom.Frame, booth.ID, bool) {
	for _, field := range []string{"hangs on", "hangs under", "on", "along", "back", "against", "from left", "from right", "from front", "from back", "before front", "turn"} {
		if it.Has(field) {
			it.Fault(field, "say wall:, left: and height: of it", "a %s is fastened to a wall, and has no %q", e.What, field)
			return geom.Frame{}, "", false
		}
	}
	if e.Wall == "" {
		it.Fault("what", "say wall: and a wall's name", "the %s %s is fastened to no wall", e.What, unit.Quote(e.Name))
		return geom.Frame{}, "", false
	}
	wall := s.wall(it, "wall", e.Wall)
	if wall == nil {
		return geom.Frame{}, "", false
	}
	if wall.Wall.Hold == booth.None {
		it.Fault("wall", "hang it on mesh, a panel, chains or a rail", "nothing holds a %s on %s", e.What, wall.Name)
		return geom.Frame{}, "", false
	}
	x, high := wall.Wall.Width/2, usualShelf.M()
	if e.Left != nil {
		x = e.Left.M() + w/2
	}
	if e.Height != nil {
		high = e.Height.M()
	}
	return wall.Frame.Moved(geom.Vec{X: x, Y: high - up, Z: d / 2}), wall.ID, true
}

// leaning is the frame at the foot of a work h high and thick metres deep that stands on a shelf and leans on its wall.
func (t top) leaning(f geom.Frame, r Resting, h, thick float64) geom.Frame {
	const lip = plank
	out := min(leanOut*h, t.d-lip-thick)
	if r.Back != nil {
		out = t.d - r.Back.M() - thick
	}
	out = max(0, min(out, 0.9*h))
	local := t.at.Local(f.Origin)
	local.Z = -t.d/2 + out
	return geom.Frame{Origin: t.at.At(local), X: f.X, Y: f.Y, Z: f.Z}.Tilted(math.Asin(out / h))
}

// fastenShelves are the tasks of the shelves of a wall, of what stands on them, and of things that hang on it.
func (s *Site) fastenShelves(w *booth.Part, before []booth.ID) {
	for i := range s.Plan.Parts {
		p := &s.Plan.Parts[i]
		if p.Parent != w.ID || p.Heft == 0 {
			continue
		}
		name := strings.TrimPrefix(p.Name, "the ")
		do, with, look := fmt.Sprintf("Fasten %s to %s, level", p.Name, w.Name), " with its brackets", "Push down on its front edge with the weight of your hand, at both ends: it holds, and nothing rolls off."
		if p.Hangs {
			do, with, look = fmt.Sprintf("Hang %s on %s", p.Name, w.Name), " with what it hangs by", "Pull down on it with the weight of your hand: it holds."
		}
		cargo := []booth.Cargo{{What: name + with, Count: 1, Weight: p.Heft, Assumed: true}}
		where := []geom.Polygon{reach(w, w.Frame.Local(p.Frame.Origin).X, 0)}
		s.setUp(booth.Task{
			ID: p.ID, Name: do, At: p.At, After: slices.Clone(before), Crew: 1, Minutes: 2*rules.HookTime.In(s.Plan.Rules) + 1,
			Place: w.ID, Parts: []booth.ID{p.ID}, Reach: where, Fetch: cargo, Check: look,
		})
		s.layOut(p)
		after := []booth.ID{"money"}
		if on := onTop(p.ID); slices.Contains(taskIDs(s.Plan.SetUp.Strike), on) {
			after = append(after, on)
		}
		s.strike(booth.Task{ID: p.ID, Name: "Take down " + p.Name, At: p.At, After: after, Crew: 1, Minutes: 2, Place: w.ID, Parts: []booth.ID{p.ID}, Reach: where, Fetch: cargo})
	}
}
