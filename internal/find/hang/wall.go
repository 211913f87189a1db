package hang

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
	"boothmock/internal/plan/rules"
)

// Wall is a wall with what hangs on it, from left to right.
type Wall struct {
	ID     booth.ID   `json:"id"`
	Name   string     `json:"name"`
	Hold   booth.Hold `json:"hang_on"`
	Width  float64    `json:"width_m"`
	Bottom float64    `json:"bottom_m"`
	Top    float64    `json:"top_m"`
	Apart  float64    `json:"chains_apart_m"` // from chain to chain; 0 where there are none
	Step   float64    `json:"step_m"`         // from one lying wire or link to the next; 0 where a hook can be at any height
	Works  []Work     `json:"works"`
	Load   WallLoad   `json:"load"`

	shelves []shelf
}

// Work is a work where it hangs: the same place as in the plan, and so in every picture.
type Work struct {
	ID      booth.ID     `json:"id"`
	Title   string       `json:"title"`
	Order   int          `json:"order"` // on its wall, from the left
	X0      float64      `json:"left_m"`
	X1      float64      `json:"right_m"`
	Y0      float64      `json:"bottom_m"`
	Y1      float64      `json:"top_m"`
	Gap     float64      `json:"gap_m"` // clear space to the neighbour on the left, or to the wall's left end
	Beside  string       `json:"beside"`
	Held    bool         `json:"held"`     // some hook holds it; otherwise it is where the scene puts it
	Moved   float64      `json:"moved_m"`  // to the right of where the scene puts it, onto a chain
	Raised  float64      `json:"raised_m"` // above where the scene puts it
	By      booth.Hanger `json:"hang_by"`
	Assumed bool         `json:"assumed"`
	Rings   float64      `json:"rings_m"`
	Wire    float64      `json:"wire_m"`
	Drop    float64      `json:"rings_down_m"`
	Sag     float64      `json:"sag_m"`
	Below   float64      `json:"hook_below_top_m"` // how far below the work's upper edge its hooks carry; negative: they show above it
	Hooks   []Hook       `json:"hooks"`
	Load    WorkLoad     `json:"load"`
	Problem string       `json:"problem"` // why it does not hang where the scene puts it, as the end of a sentence; empty if it does
}

// Hook is one hook of a work.
type Hook struct {
	Number   int     `json:"number"` // on its wall
	X        float64 `json:"x_m"`
	Y        float64 `json:"y_m"`              // where the work's wire, ring or plate rests
	FromSide float64 `json:"from_neighbour_m"` // from the edge of the neighbour on the left, or the wall's left end
	FromEdge float64 `json:"from_own_left_edge_m"`
	Grip     float64 `json:"grip_m"` // what it holds on to
	Loop     float64 `json:"loop_m"` // tie loop, hung, between that and the S-hook; 0: none
	Hole     *Hole   `json:"hole"`   // null where there is no cloth in front
}

// Hole is where a hook goes through the cloth. The cloth hangs in folds: laid out flat it is longer.
type Hole struct {
	X      float64 `json:"x_m"`
	Y      float64 `json:"y_m"`
	Across float64 `json:"flat_from_left_m"` // on the cloth laid flat, from its left edge
	Down   float64 `json:"flat_from_top_m"`
}

const hair = 1e-9 // metres: rounding

func tolerance(p *booth.Plan) float64 { return rules.LevelSlack.In(p.Rules) }

// walls are the walls of a booth in the order of the plan; those on which nothing hangs too, for they are still to be
// put up.
func walls(p *booth.Plan) []Wall {
	out := []Wall{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Wall == nil {
			continue
		}
		w := Wall{
			ID: part.ID, Name: part.Name, Hold: part.Wall.Hold, Width: part.Wall.Width, Bottom: part.Wall.Bottom, Top: part.Wall.Top,
			Step: hook.Step(part.Wall), Works: []Work{},
		}
		if w.Hold == booth.Chains {
			w.Apart = part.Wall.Spacing
		}
		for _, work := range hook.OnWall(p, part.ID) {
			w.Works = append(w.Works, hung(p, part, work))
		}
		number := 0
		for k := range w.Works {
			work := &w.Works[k]
			work.Order = k + 1
			edge, beside := neighbour(w.Works, k)
			work.Gap, work.Beside = work.X0-edge, beside
			for h := range work.Hooks {
				number++
				k := &work.Hooks[h]
				k.Number, k.FromSide, k.FromEdge = number, k.X-edge, k.X-work.X0
				k.Hole = hole(p, part, *k)
			}
		}
		w.shelves = shelvesOn(p, part)
		w.Load = wallLoad(part.Wall, w)
		out = append(out, w)
	}
	for _, w := range out { // what hangs on both faces of a wall, the wall carries
		of := p.Part(w.ID).Wall
		k := slices.IndexFunc(out, func(front Wall) bool { return front.ID == of.Back })
		if k < 0 {
			continue
		}
		both := out[k]
		both.Works = slices.Clone(both.Works)
		for _, work := range w.Works {
			work.X0, work.X1 = of.Width-work.X1, of.Width-work.X0
			both.Works = append(both.Works, work)
		}
		both.shelves = slices.Clone(both.shelves)
		for _, s := range w.shelves {
			s.x = of.Width - s.x
			both.shelves = append(both.shelves, s)
		}
		out[k].Load = wallLoad(p.Part(both.ID).Wall, both)
	}
	return out
}

// neighbour is the right edge of the nearest work to the left of work k that is beside it rather than above or below
// it, and its title; without one, the wall's left end.
func neighbour(works []Work, k int) (edge float64, title string) {
	w := works[k]
	title = "the wall's left end"
	for i, o := range works {
		if i != k && o.X1 <= (w.X0+w.X1)/2 && o.X1 > edge && o.Y0 < w.Y1 && o.Y1 > w.Y0 {
			edge, title = o.X1, o.Title
		}
	}
	return edge, title
}

// hung is a work on its wall.
func hung(p *booth.Plan, wall *booth.Part, part *booth.Part) Work {
	h, f := part.Work.Hung, part.Work.Fixing
	w := Work{
		ID: part.ID, Title: part.Work.Title, X0: h.X0, X1: h.X1, Y0: h.Y0, Y1: h.Y1, Held: h.Unheld == "", Moved: h.Moved, Raised: h.Raised,
		By: f.By, Assumed: f.Assumed, Rings: f.Spacing, Wire: f.Wire, Drop: f.Drop, Hooks: []Hook{}, Problem: problem(p, wall, part),
	}
	var across []float64
	for _, k := range h.Hooks {
		across = append(across, k.X)
		w.Hooks = append(w.Hooks, Hook{X: k.X, Y: k.Y, Grip: k.Grip, Loop: k.Loop})
	}
	taut := hook.Wire(f, across)
	w.Sag = taut.Sag()
	w.Below = f.Drop - w.Sag
	w.Load = workLoad(p, part, taut, max(1, len(w.Hooks)))
	return w
}

// problem is why a work does not hang where the scene puts it.
func problem(p *booth.Plan, wall *booth.Part, part *booth.Part) string {
	h, f, slack := part.Work.Hung, part.Work.Fixing, tolerance(p)
	length := func(m float64) string { return p.Measure(math.Abs(m)) }
	switch h.Unheld {
	case booth.NoPlace:
		return fmt.Sprintf("cannot hang by its %s on %s: %s", f.By, wallWords[wall.Wall.Hold], instead(wall.Wall, f))
	case booth.PastEnd:
		past, end := hook.Past(h, wall.Wall, f, slack)
		return fmt.Sprintf("cannot hang there, as a hook would be %s past the %s end of %s: move it in", length(past), end, wall.Name)
	}
	var ways, why []string
	wide, ok := widened(p, part)
	if first := part.Work.Whole; first != nil && part.Work.Part > 1 {
		f, before := p.Part(first.ID).Work.Hung, p.Part(booth.PartID(first.ID, part.Work.Part-1)).Work.Hung
		if f.Unheld == "" && math.Abs(h.Raised-f.Raised) <= slack+hair && (ok && h.X0 >= before.X1 || math.Abs(h.Moved-f.Moved) <= slack+hair) {
			return "" // it goes with the first part, and that says it of all
		}
	}
	if ok {
		ways = append(ways, "with its parts "+length(wide)+" apart")
		why = append(why, "where the chains are")
	} else if math.Abs(h.Moved) > slack+hair {
		ways = append(ways, length(h.Moved)+" further "+direction(h.Moved, "left", "right"))
		why = append(why, "where the chains are")
	}
	if math.Abs(h.Raised) > slack+hair {
		ways = append(ways, length(h.Raised)+" "+direction(h.Raised, "lower", "higher"))
		why = append(why, fmt.Sprintf("its middle at %s, as nothing holds a hook that %s", p.Measure(h.Centre()), direction(h.Raised, "high", "low")))
	}
	if ways == nil {
		return ""
	}
	than := " than the scene puts it"
	if ok && len(ways) == 1 {
		than = "" // the scene says how far apart, not where each is
	}
	return fmt.Sprintf("hangs %s%s, %s", strings.Join(ways, " and "), than, strings.Join(why, "; "))
}

// widened is how far apart the first two parts of a work hang whose parts have a chain each, if that is farther than the scene has them.
func widened(p *booth.Plan, part *booth.Part) (apart float64, ok bool) {
	w := part.Work
	if w.Whole == nil {
		return 0, false
	}
	a, b := p.Part(booth.PartID(w.Whole.ID, 1)), p.Part(booth.PartID(w.Whole.ID, 2))
	if a == nil || b == nil || a.Work.Hung.Hooks == nil || b.Work.Hung.Hooks == nil {
		return 0, false
	}
	return b.Work.Hung.X0 - a.Work.Hung.X1, b.Work.Hung.Moved-a.Work.Hung.Moved > tolerance(p)+hair
}

func direction(v float64, below, above string) string {
	if v < 0 {
		return below
	}
	return above
}

var wallWords = map[booth.Hold]string{
	booth.Mesh: "mesh", booth.Chains: "chains", booth.Rail: "a rail's wires", booth.Panel: "a panel", booth.None: "bare cloth",
}

// bare is what to do about a wall that holds nothing.
const bare = "put mesh, chains, a rail or a panel behind the cloth"

// instead is what can be done when a work and a wall do not go together.
func instead(wall *booth.Wall, f booth.Fixing) string {
	switch {
	case wall.Hold == booth.None:
		return bare
	case f.By == booth.Rings:
		return "put a wire between the rings, or set them as far apart as the chains are"
	}
	return "put two rings or a wire on its back"
}

// hole is where the hook goes through the cloth in front of its wall; nil without cloth there, or where the cloth ends
// below or above.
func hole(p *booth.Plan, wall *booth.Part, h Hook) *Hole {
	if wall.Wall.Cover == "" {
		return nil
	}
	cover := p.Part(wall.Wall.Cover)
	c := cover.Cloth
	if h.Grip > c.Top || h.Grip < c.Bottom {
		return nil
	}
	// The cloth's frame is at the middle of its width.
	along := cover.Frame.Local(wall.Frame.At(geom.Vec{X: h.X})).X + c.Width/2
	return &Hole{X: h.X, Y: h.Grip, Across: along * c.Fullness, Down: c.Top - h.Grip}
}

// asWeight is the weight whose pull is the force, for printing a force as people feel it.
func asWeight(newtons float64) unit.Weight { return unit.Weight(newtons / wind.Gravity) }
