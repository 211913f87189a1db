package kinds

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

const (
	sculptureGrams = 150_000.0 // a cubic metre of what a sculpture takes room, hollows counted in: common practice, no source
	workGrams      = 6000.0    // a square metre of canvas or framed print: common practice, no source
	twoLift        = 7.0       // kg: a heavier work takes two people
	twoWide        = 1.15      // metres: so does a wider one
	reachDeep      = 0.6       // metres of ground before a wall on which a person stands and reaches it
	reachWide      = 0.6
)

// reach is the ground on which a person stands who reaches x metres along the wall.
func reach(w *booth.Part, x, depth float64) geom.Polygon {
	at := func(x, z float64) geom.Vec {
		p := w.Frame.At(geom.Vec{X: x, Z: z})
		p.Y = 0
		return p
	}
	const off = 0.1 // metres from the wall to a person's toes
	return geom.Polygon{at(x-reachWide/2, depth+off), at(x+reachWide/2, depth+off), at(x+reachWide/2, depth+off+reachDeep), at(x-reachWide/2, depth+off+reachDeep)}
}

// hangWall is the hooks, the works, and the tags and signs of one wall, and their way out.
func (s *Site) hangWall(w *booth.Part, covered bool) {
	var works []*booth.Part
	var small []booth.ID // tags and signs
	tags := 0
	for i := range s.Plan.Parts {
		switch p := &s.Plan.Parts[i]; {
		case p.Work != nil && p.Work.Hung != nil && p.Work.Hung.Wall == w.ID:
			works = append(works, p)
		case p.Parent == w.ID && p.Work == nil && p.Heft == 0 && p.Lamp == nil:
			small = append(small, p.ID)
			if p.Kind == tagKind.Key {
				tags++
			}
		}
	}
	before := append(slices.Clone(s.standsFirm), standing(w))
	if w.Wall.Cover != "" {
		before = append(before, w.Wall.Cover)
	}
	s.fastenShelves(w, before)
	if len(works) > 0 {
		hangingOrder(works)
		h := hungWorks(s, w, works)
		before = s.hangOn(w, h, before)
		s.takeOff(w, h, append(slices.Clone(h.parts), small...), covered)
	}
	if len(small) > 0 {
		s.pinTags(w, small, tags, before)
	}
}

// wallTask is the ID of a task at a wall.
func wallTask(kind string, w *booth.Part) booth.ID { return booth.ID(kind + "/" + last(w.ID)) }

// hangOn sets the hooks of a wall and hangs its works; what comes next waits for the tasks that it gives.
func (s *Site) hangOn(w *booth.Part, h hung, before []booth.ID) []booth.ID {
	if h.hooks > 0 {
		through := ""
		if w.Wall.Cover != "" {
			through = " through the cloth"
		}
		t := booth.Task{
			ID: wallTask("hooks", w), Name: fmt.Sprintf("Set %s of %s%s by the hang sheet", counted(h.hooks, "hook"), w.Name, through), At: w.At, After: before, Crew: 1,
			Minutes: rules.HookTime.In(s.Plan.Rules) * unit.Minutes(h.hooks), Place: w.ID, Hooks: h.parts, Reach: h.reach, Check: "Pull down on each hook with the weight of your hand: it holds.",
		}
		if h.high >= ladderFrom {
			t.Caution = ladder
		}
		s.setUp(t)
		before = []booth.ID{t.ID}
	}
	t := booth.Task{
		ID: wallTask("works", w), Name: "Hang the works of " + w.Name + ": " + h.names, At: w.At, After: before, Crew: h.crew, Minutes: h.minutes,
		Steps: h.steps, Tender: true, Fetch: h.cargo, Place: w.ID, Parts: h.parts, Reach: h.reach, Check: "From the front edge of the pitch the middles are level; each work hangs flat and cannot be knocked off its hook.", Caution: h.caution,
	}
	s.setUp(t)
	return []booth.ID{t.ID}
}

// takeOff takes the works of a wall down at the end, with the tags beside them, and for the night, unless they are covered
// then.
func (s *Site) takeOff(w *booth.Part, h hung, down []booth.ID, covered bool) {
	after := []booth.ID{"money"}
	s.strike(booth.Task{
		ID: wallTask("works", w), Name: "Take down and wrap the works of " + w.Name + ", tags and hooks with them", At: w.At, After: after, Crew: h.crew, Minutes: h.minutes,
		Place: w.ID, Parts: down, Reach: h.reach, Tender: true, Fetch: h.cargo, Caution: h.caution,
	})
	if covered {
		s.night(booth.Task{
			ID: wallTask("works", w), Name: "Hang a clean sheet over the works of " + w.Name + " and tie it at top and foot", At: w.At, After: after, Crew: 2, Minutes: share(rules.ClothTime.In(s.Plan.Rules), w.Wall.Width),
			Place: w.ID, About: h.parts, Deed: booth.Covers, Check: "It touches no wet paint and cannot flap against a frame.",
		})
		return
	}
	s.night(booth.Task{
		ID: wallTask("works", w), Name: "Take the works of " + w.Name + " down, tags with them; wrap them and take them with you. The hooks stay", At: w.At, After: after, Crew: h.crew,
		Minutes: h.minutes, Place: w.ID, Parts: down, Reach: h.reach, Tender: true, Fetch: h.cargo, Caution: h.caution,
	})
}

// pinTags pins the tags and the signs of a wall.
func (s *Site) pinTags(w *booth.Part, small []booth.ID, tags int, before []booth.ID) {
	var what []string
	if tags > 0 {
		what = append(what, counted(tags, "tag"))
	}
	if n := len(small) - tags; n > 0 {
		what = append(what, counted(n, "sign"))
	}
	var where []geom.Polygon
	for _, part := range small {
		x := w.Frame.Local(s.Plan.Part(part).Frame.Origin).X
		where = append(where, reach(w, x, 0))
	}
	s.setUp(booth.Task{
		ID: wallTask("tags", w), Name: "Pin " + strings.Join(what, " and ") + " on " + w.Name, At: w.At, After: before, Crew: 1, Minutes: rules.TagTime.In(s.Plan.Rules) * unit.Minutes(len(small)),
		Place: w.ID, Parts: small, Reach: where, Check: "Each tag is beside its own work, its lower edge level.",
	})
}

// hangingOrder sorts the works of a wall into the order in which they are hung: those that take two people first, then
// from the middle of all outwards, an upper one before the one under it.
func hangingOrder(works []*booth.Part) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range works {
		lo, hi = min(lo, p.Work.Hung.X0), max(hi, p.Work.Hung.X1)
	}
	off := func(p *booth.Part) int { // whole centimetres from the middle
		return int(math.Round(100 * math.Abs((p.Work.Hung.X0+p.Work.Hung.X1)/2-(lo+hi)/2)))
	}
	big := func(p *booth.Part) int {
		if hands(p) > 1 {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(works, func(a, b *booth.Part) int {
		return cmp.Or(cmp.Compare(big(a), big(b)), cmp.Compare(off(a), off(b)), -cmp.Compare(a.Work.Hung.Y0, b.Work.Hung.Y0))
	})
}

// weightOf is what the work of a part weighs, or usually would.
func weightOf(p *booth.Part) (kg unit.Weight, assumed bool) { return weighs(p.Work) }

// weighs is the same of a work wherever it is.
func weighs(w *booth.Work) (kg unit.Weight, assumed bool) {
	switch {
	case w.Weight > 0:
		return w.Weight, false
	case w.Sculpture:
		return grams(max(300, math.Round(w.Width*w.Height*w.Depth*sculptureGrams/100)*100)), true
	}
	return grams(max(300, math.Round(w.Width*w.Height*workGrams/100)*100)), true
}

// titled is a work's title in quotation marks: a title may have commas of its own.
func titled(p *booth.Part) string { return "“" + p.Name + "”" }

// hands are the people that hang a work.
func hands(p *booth.Part) int {
	kg, _ := weightOf(p)
	if kg.Kg() > twoLift || p.Work.Hung.X1-p.Work.Hung.X0 > twoWide {
		return 2
	}
	return 1
}

// hung is what the works of one wall come to.
type hung struct {
	names   string
	crew    int
	minutes unit.Minutes
	steps   []string
	cargo   []booth.Cargo
	parts   []booth.ID
	reach   []geom.Polygon
	hooks   int
	high    float64 // metres above the ground at which the highest hook holds on
	caution string
}

func hungWorks(s *Site, w *booth.Part, works []*booth.Part) hung {
	h := hung{crew: 1, minutes: rules.WorkTime.In(s.Plan.Rules) * unit.Minutes(len(works))}
	var titles []string
	var large []*booth.Part
	sets := map[*booth.Listed]int{} // works in parts that are packed already, as one
	lifted := 0.0
	for _, p := range works {
		n := hands(p)
		if n > 1 {
			large = append(large, p)
		}
		kg, assumed := weightOf(p)
		h.crew, lifted = max(h.crew, n), max(lifted, kg.Kg())
		alone := "one person"
		if n > 1 {
			alone = "two people"
		}
		whole := titled(p)
		if n := len(p.Work.Itself().Each); n > 0 {
			whole = fmt.Sprintf("“%s” in %d parts", p.Work.Itself().Title, n)
		}
		step := fmt.Sprintf("%s, %s: %s, %s", titled(p), p.Work.Size(s.file.Units), alone, rules.WorkTime.In(s.Plan.Rules).Format())
		if p.Work.Hung.Unheld != "" {
			step += "; NOTHING HOLDS IT on this wall, the hang sheet says why"
		}
		h.steps = append(h.steps, step)
		if k, packed := sets[p.Work.Whole]; packed {
			h.cargo[k].Weight += kg
		} else {
			if p.Work.Whole != nil {
				sets[p.Work.Whole] = len(h.cargo)
			}
			h.cargo = append(h.cargo, booth.Cargo{What: whole, Count: 1, Weight: kg, Assumed: assumed})
			titles = append(titles, whole)
		}
		h.parts = append(h.parts, p.ID)
		hu := p.Work.Hung
		h.reach = append(h.reach, reach(w, (hu.X0+hu.X1)/2, hu.Depth))
		for _, k := range hu.Hooks {
			h.hooks, h.high = h.hooks+1, max(h.high, k.Grip)
		}
	}
	h.names = unit.List(titles, "and")
	if h.crew > 1 {
		h.caution = lifting(large)
	}
	if lifted > 15 {
		h.caution += " A work of more than 33 lb (15 kg) wants lifting gear or a third person."
	}
	return h
}

// lifting is how two people hang works that take two.
func lifting(works []*booth.Part) string {
	backs := map[booth.Hanger]string{booth.Wire: "wire", booth.Rings: "rings", booth.Sawtooth: "plate", booth.Cleat: "cleat"}
	what, back := "the large work", backs[works[0].Work.Fixing.By]
	if len(works) > 1 {
		what += "s"
	}
	one, two := false, false
	for _, p := range works {
		if backs[p.Work.Fixing.By] != back {
			back = "back"
		}
		one, two = one || len(p.Work.Hung.Hooks) == 1, two || len(p.Work.Hung.Hooks) == 2
	}
	onto, until := "its hooks", "every hook holds"
	switch {
	case one && !two:
		onto, until = "its hook", "the hook holds"
	case two && !one:
		onto, until = "its two hooks", "both hooks hold"
	}
	if back == "cleat" {
		onto, until = "its half on the wall", "it sits along its whole length"
	}
	return fmt.Sprintf("Two people lift %s: one guides the %s on to %s, the other carries the weight until %s.", what, back, onto, until)
}

func counted(n int, what string) string {
	if n == 1 {
		return "the " + what
	}
	return fmt.Sprintf("the %d %ss", n, what)
}
