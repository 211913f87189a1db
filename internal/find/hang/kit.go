package hang

import (
	"fmt"
	"slices"

	"boothmock/internal/plan/booth"
)

// undrawn is what no scene draws and every booth needs, what it usually weighs in grams, and the step that needs it first, by
// its ID or the beginning of it: common practice, no source.
var undrawn = []struct {
	what, why string
	grams     float64
	first     string
}{
	{"tape measure, level, step ladder", "hanging", 9000, "wall/"},
	{"pliers, wire cutter, screwdriver, scissors or knife", "hanging", 1500, "wall/"},
	{"gaffer tape, cord, cable ties", "everything", 1500, "frame"},
	{"pencil, marker, blank tags", "tags that go missing", 300, "hooks/"},
	{"wrapping: boxes, card corners, bubble wrap, tape", "works that sell", 4000, "look"},
	{"cash box with change, card reader, charger and power bank", "selling", 3000, "look"},
	{"receipts, pens, cards, sign-up sheet", "selling", 1000, "look"},
	{"fair's letter, permit, insurance and tax papers", "the gate", 300, inHand},
	{"water, food, sunscreen, hat, warm coat, rain coat", "you", 8000, "look"},
	{"first aid box, torch, cleaning cloths", "you", 2000, "frame"},
	{"this pack on paper, and a copy for your helper", "no telephone needed", 200, inHand},
}

// inHand is what people have on them when they arrive: the gate asks for it, and every step is read from it.
const inHand = "in hand"

// kit is everything to load: what the scene draws, what the hanging and the rain need, and what no scene draws.
func kit(p *booth.Plan, s Sheet) []Item {
	out := []Item{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Bring == "" {
			continue
		}
		item := Item{What: part.Bring, Need: 1}
		if part.Wall != nil {
			item.Need = max(1, part.Wall.Panels)
		}
		if t := part.Tent; t != nil && t.Weight > 0 {
			kg := t.Weight.Kg()
			item.Weight = &kg
		}
		out = append(out, item)
	}
	if w := s.Weather; w != nil {
		if w.Ballast > 0 || w.Stake == 0 {
			item := Item{What: "weights for the tent's legs", Need: w.Legs, Why: "the weather page says how heavy"}
			if w.Ballast > 0 {
				item.Weight = &w.Ballast
			}
			out = append(out, item)
		}
		if w.Stake > 0 {
			out = append(out, Item{What: "stakes with straps for the tent's legs", Need: w.Legs, Why: "each to hold what you state: try it"}, Item{What: "hammer for the stakes", Need: 1})
		}
	}
	for _, c := range s.Cloth {
		out = append(out, Item{What: "cloth of " + c.Name, Need: 1, Weight: c.Weight})
	}
	if n := posts(p); n > 0 {
		out = append(out, Item{What: "stands for walls and pipes along the sides", Need: n, Why: "one for each end, where the hall lends none", usual: 5000, first: "wall/"})
	}
	works := 0
	for _, piece := range s.Stock {
		if piece.Where != "" {
			works++
		}
	}
	if works > 0 {
		out = append(out, Item{What: "works, wrapped", Need: works, Why: "the stock list names them"})
	}
	if r := s.Rain; r != nil {
		n := 0
		for _, o := range r.Openings {
			n += o.Curtains
		}
		if n > 0 {
			out = append(out, kept(p, Item{What: "rain curtains with rings and cord", Need: n, Why: "the rain table has the sizes", usual: 1000}))
		}
		if n := len(r.Covers); n > 0 {
			out = append(out, kept(p, Item{What: "rain covers for tables", Need: n, usual: 500}))
		}
	}
	for _, u := range undrawn {
		out = append(out, Item{What: u.what, Need: 1, Why: u.why, usual: u.grams, first: u.first})
	}
	for _, e := range p.Kit {
		item := Item{What: e.Name, Need: e.Count, Why: "your own list"}
		if kg := e.Weight.Kg(); kg > 0 {
			item.Weight = &kg
		}
		out = append(out, item)
	}
	return out
}

// posts are the stands of what runs along the sides where no tent holds it: one at each end, and one for two that meet at a corner. Panels stand
// by being joined.
func posts(p *booth.Plan) int {
	if p.Tented() {
		return 0
	}
	var corners [4]bool
	for i := range p.Parts {
		w, c := p.Parts[i].Wall, p.Parts[i].Cloth
		var side booth.Side
		switch {
		case w != nil && !w.Free && w.Hold != booth.Panel:
			side = w.Side
		case c != nil && c.Pipe && !c.Free:
			side = c.Side
		default:
			continue
		}
		corners[side], corners[(side+1)%4] = true, true
	}
	n := 0
	for _, there := range corners {
		if there {
			n++
		}
	}
	return n
}

// kept is what keeps the rain out: where the booth is shown without rain no task hangs it, and it lies within reach.
func kept(p *booth.Plan, i Item) Item {
	hangs := slices.ContainsFunc(p.Parts, func(q booth.Part) bool { return q.Sheet || q.Cloth != nil && q.Cloth.Rain })
	if !hangs {
		i.first = "look"
	}
	return i
}

// Weighed is a line of the weights: what is known, and how many things are not.
type Weighed struct {
	What    string  `json:"what"`
	Known   float64 `json:"known_kg"`
	Unknown int     `json:"unknown"`
}

// weights are what the load weighs as far as it is stated.
func weights(p *booth.Plan, s Sheet) []Weighed {
	works := Weighed{What: "works"}
	for _, l := range p.Catalogue() {
		if l.On == "" {
			continue
		}
		works.Known += l.Work.Weight.Kg()
		if l.Work.Weight == 0 {
			works.Unknown++
		}
	}
	out := []Weighed{works}
	if w := s.Weather; w != nil {
		tents, ballast := Weighed{What: "tents"}, Weighed{What: fmt.Sprintf("ballast on %d legs", w.Legs), Known: w.Ballast * float64(w.Legs)}
		for i := range p.Parts {
			if t := p.Parts[i].Tent; t != nil {
				tents.Known += t.Weight.Kg()
				if t.Weight == 0 {
					tents.Unknown++
				}
			}
		}
		if w.Ballast == 0 && w.Stake == 0 {
			ballast.Unknown = w.Legs
		}
		out = append(out, tents, ballast)
	}
	if len(s.Cloth) > 0 {
		cloth := Weighed{What: "cloth"}
		for _, c := range s.Cloth {
			if c.Weight == nil {
				cloth.Unknown++
				continue
			}
			cloth.Known += *c.Weight
		}
		out = append(out, cloth)
	}
	if len(p.Kit) > 0 {
		own := Weighed{What: "your own list"}
		for _, e := range p.Kit {
			own.Known += e.Weight.Kg() * float64(e.Count)
			if e.Weight == 0 {
				own.Unknown += e.Count
			}
		}
		out = append(out, own)
	}
	return out
}
