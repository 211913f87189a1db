package hang

import (
	"fmt"
	"math"
	"strings"

	"boothmock/internal/booth"
	"boothmock/internal/unit"
	"boothmock/internal/wind"
)

// Section is a part of the sheet in words, for the terminal and for paper alike.
type Section struct {
	Title  string
	Intro  []string
	Tables []Table
	Notes  []string
}

// Table is rows of words under a head. Wide gives the columns' widths in shares of the whole.
type Table struct {
	Title string
	Head  []string
	Wide  []float64
	Rows  [][]string
}

// Sections is the whole sheet in the order in which people need it.
func (s Sheet) Sections() []Section {
	var out []Section
	for _, w := range s.Walls {
		out = append(out, s.WallSection(w))
	}
	out = append(out, s.FirstSection(), s.LoadSection())
	if s.Weather != nil {
		out = append(out, s.WindSection(), s.RainSection())
	}
	return append(out, s.ListSection(), s.StockSection())
}

// FirstSection is what to know before the first hook.
func (s Sheet) FirstSection() Section { return Section{Title: "Before you start", Notes: s.Cautions} }

// length is a length without its unit, which the section's introduction names.
func (s Sheet) length(m float64) string {
	return strings.TrimSuffix(unit.Length(m).Format(s.system), " "+s.system.String())
}

func (s Sheet) full(m float64) string    { return unit.Length(m).Format(s.system) }
func (s Sheet) weight(kg float64) string { return unit.Weight(kg).Format(s.system) }
func (s Sheet) force(n float64) string   { return asWeight(n).Format(s.system) }

// speed is a wind in the units of its readers.
func (s Sheet) speed(v float64) string {
	switch {
	case v >= anyWind:
		return "any"
	case s.system == unit.Centimetres:
		return fmt.Sprintf("%.0f km/h", v/wind.KilometresPerHour)
	}
	return fmt.Sprintf("%.0f mph", v/wind.MilesPerHour)
}

const none = "-"

// WallSection is what the person with the tape needs at one wall.
func (s Sheet) WallSection(w Wall) Section {
	sec := Section{Title: unit.Capital(w.Name), Intro: []string{s.wallIntro(w)}}
	if len(w.Works) == 0 {
		sec.Notes = append(sec.Notes, "Nothing hangs on this wall.")
		return sec
	}
	works := Table{
		Title: "Works, from the left",
		Head:  []string{"", "work", "left edge from the left end", "gap on its left", "upper edge at", "middle at", "hook below upper edge", "how it hangs"},
		Wide:  []float64{4, 22, 11, 10, 10, 10, 10, 25},
	}
	hooks := Table{
		Title: "Hooks",
		Head:  []string{"hook", "work", "from the left end", "from the neighbour's edge", "from its own left edge", "height: carries", "height: holds on", "tie loop"},
		Wide:  []float64{7, 27, 12, 15, 12, 10, 10, 9},
	}
	holes := Table{
		Title: "Holes in the cloth",
		Head:  []string{"hook", "hung: from the left end", "hung: height", "flat: from the cloth's left edge", "flat: down from its upper edge"},
		Wide:  []float64{10, 22, 20, 26, 24},
	}
	assumed, loops := false, false
	for _, work := range w.Works {
		star := ""
		if work.Assumed {
			star, assumed = " *", true
		}
		below := s.length(work.Below)
		if len(work.Hooks) == 0 {
			below = none
		}
		works.Rows = append(works.Rows, []string{
			fmt.Sprint(work.Order), work.Title, s.length(work.X0), s.length(work.Gap), s.length(work.Y1), s.length((work.Y0 + work.Y1) / 2), below, s.how(work) + star,
		})
		for _, h := range work.Hooks {
			loop := none
			if h.Loop > 0 {
				loop, loops = s.length(h.Loop), true
			}
			hooks.Rows = append(hooks.Rows, []string{
				fmt.Sprint(h.Number), work.Title, s.length(h.X), s.length(h.FromSide), s.length(h.FromEdge), s.length(h.Y), s.length(h.Grip), loop,
			})
			if h.Hole != nil {
				holes.Rows = append(holes.Rows, []string{
					fmt.Sprint(h.Number), s.length(h.Hole.X), s.length(h.Hole.Y), s.length(h.Hole.Across), s.length(h.Hole.Down),
				})
			}
		}
		if work.Problem != "" {
			sec.Intro = append(sec.Intro, "NOT AS IN THE PICTURES: "+work.Title+": "+work.Problem+".")
		} else if work.Below < 0 {
			sec.Intro = append(sec.Intro, fmt.Sprintf("%s: the wire is so long that the hook shows %s above the upper edge. Shorten it.", work.Title, s.full(-work.Below)))
		}
	}
	sec.Tables = append(sec.Tables, hooks, works)
	if len(holes.Rows) > 0 {
		sec.Tables = append(sec.Tables, holes)
		sec.Notes = append(sec.Notes, "The hole is where the hook, or its tie loop, reaches through the cloth to what holds it. Two ways to find it: on the cloth as it hangs, or at home on the cloth laid flat and pulled smooth (its folds are counted in, hems are not).")
	}
	if s.step(w) {
		note := fmt.Sprintf("Carries: where the work's wire or rings rest, in the lower bend of the S-hook. Holds on: the %s that the upper bend goes over.", map[booth.Hold]string{booth.Mesh: "lying wire", booth.Chains: "link"}[w.Hold])
		if loops {
			note += " Tie loop: tie a loop of cord so long, hung, around it; the S-hook goes into the loop."
		}
		sec.Notes = append(sec.Notes, note+fmt.Sprintf(" All middles are then level within %s.", s.full(s.Tolerance)))
	}
	if assumed {
		sec.Notes = append(sec.Notes, "* The scene does not say all of how this work hangs: usual measures stand in (rings two thirds of the width apart, wire a sixth longer). Turn the work round, measure, and write hang by, rings, wire and rings down into the scene.")
	}
	return sec
}

// step is whether hooks on the wall are at fixed heights.
func (s Sheet) step(w Wall) bool { return w.Step > 0 }

func (s Sheet) wallIntro(w Wall) string {
	hold := map[booth.Hold]string{
		booth.Mesh: "Mesh", booth.Chains: "Chains", booth.Rail: "A rail with wires", booth.Panel: "Panels", booth.None: "Bare cloth",
	}[w.Hold]
	if w.Step > 0 {
		hold += fmt.Sprintf(" (%s from one %s to the next)", s.full(w.Step), map[booth.Hold]string{booth.Mesh: "lying wire", booth.Chains: "link"}[w.Hold])
	}
	if w.Apart > 0 {
		hold += fmt.Sprintf(", %s from chain to chain, the first at the left end", s.full(w.Apart))
	}
	units := "inches"
	if s.system == unit.Centimetres {
		units = "centimetres"
	}
	return fmt.Sprintf("%s, %s wide, hooks between %s and %s above the ground. Face the wall from the front of it: left is your left. All measures are %s; heights are from the ground.",
		hold, s.full(w.Width), s.full(w.Bottom), s.full(w.Top), units)
}

// how is how a work hangs in words.
func (s Sheet) how(w Work) string {
	whole := func(m float64) string { return strings.ReplaceAll(s.length(m), " ", "\u00a0") } // a fraction stays on its line
	switch w.By {
	case booth.Wire:
		hooks := ""
		if len(w.Hooks) == 2 {
			hooks = ", on two hooks"
		}
		return fmt.Sprintf("wire %s, rings %s apart, %s down%s", whole(w.Wire), whole(w.Rings), whole(w.Drop), hooks)
	case booth.Rings:
		return fmt.Sprintf("rings %s apart, %s down", whole(w.Rings), whole(w.Drop))
	}
	return fmt.Sprintf("%s, %s down", w.By, whole(w.Drop))
}

// LoadSection is what hooks, wires, walls and pipes carry.
func (s Sheet) LoadSection() Section {
	sec := Section{Title: "What it carries", Intro: []string{
		"A picture wire pulls harder the flatter it is. At 30° each side pulls as much as the whole work weighs, at 10° nearly three times that: T = W / (2 sin a). Never below: the angle at which the wire would be over what is stated for it.",
	}}
	loads := Table{
		Title: "Works",
		Head:  []string{"work", "weight", "on each hook", "a hook holds", "enough?", "wire's angle", "pull in the wire", "the wire holds", "enough?"},
		Wide:  []float64{22, 9, 9, 9, 9, 13, 11, 9, 9},
	}
	var flat []string
	ends := Table{
		Title: "Walls",
		Head:  []string{"wall", "works on it", "at its left end", "at its right end", "it holds", "enough?"},
		Wide:  []float64{24, 22, 15, 15, 13, 11},
	}
	for _, w := range s.Walls {
		for _, work := range w.Works {
			l := work.Load
			row := []string{work.Title, s.known(l.Weight), s.newtons(l.Hook), s.known(l.StatedHook), l.HookJudged.answer(), none, none, none, none}
			if l.Angle != nil {
				row[5] = fmt.Sprintf("%.0f°", *l.Angle)
				if l.LeastAngle != nil {
					row[5] += fmt.Sprintf(", never below %.0f°", math.Ceil(*l.LeastAngle))
				}
				row[6], row[7], row[8] = s.newtons(l.Tension), s.known(l.StatedWire), l.WireJudged.answer()
				if !l.Steep {
					flat = append(flat, fmt.Sprintf("%s (%.0f°, %.1f times)", work.Title, *l.Angle, *l.Times))
				}
			}
			loads.Rows = append(loads.Rows, row)
		}
		on, left, right := s.weight(w.Load.Known), s.force(w.Load.Left), s.force(w.Load.Right)
		switch n := w.Load.Unstated; {
		case n > 0 && w.Load.Known == 0:
			on, left, right = "unknown", "unknown", "unknown"
		case n > 0:
			on, left, right = fmt.Sprintf("%s + %d unknown", on, n), left+" or more", right+" or more"
		}
		ends.Rows = append(ends.Rows, []string{w.Name, on, left, right, s.known(w.Load.Stated), w.Load.Judged.answer()})
	}
	sec.Tables = append(sec.Tables, loads, ends)
	if len(s.Pipes) > 0 {
		pipes := Table{Title: "Pipes", Head: []string{"pipe of", "length", "cloth on it", "it holds", "enough?"}, Wide: []float64{30, 20, 20, 18, 12}}
		for _, p := range s.Pipes {
			cloth := 0.0
			if p.Cloth != nil {
				cloth = *p.Cloth
			}
			pipes.Rows = append(pipes.Rows, []string{p.Name, s.full(p.Length), s.known(cloth), s.known(p.Stated), p.Judged.answer()})
		}
		sec.Tables = append(sec.Tables, pipes)
	}
	if len(flat) > 0 {
		sec.Notes = append(sec.Notes, "Flat wires, each side of which pulls more than the whole work weighs: "+strings.Join(flat, ", ")+". A longer wire eases it.")
	}
	sec.Notes = append(sec.Notes, "The ends of a wall are where its upper edge is tied to the tent's legs or stands; mesh, panels and cloth weigh on them too.", Caution)
	return sec
}

// known is a weight, or the word for one that is not stated.
func (s Sheet) known(kg float64) string {
	if kg == 0 {
		return "unknown"
	}
	return s.weight(kg)
}

func (s Sheet) newtons(n *float64) string {
	if n == nil {
		return "unknown"
	}
	return s.force(*n)
}

// StockSection is the list to tick when something sells.
func (s Sheet) StockSection() Section {
	t := Table{
		Head: []string{"", "title", "size, height x width", "medium", "edition", "price", "packed", "sold", "paid how"},
		Wide: []float64{4, 25, 17, 15, 9, 10, 8, 7, 9},
	}
	for k, p := range s.Stock {
		t.Rows = append(t.Rows, []string{fmt.Sprint(k + 1), p.Title, p.Size, p.Medium, p.Edition, p.Amount, "[ ]", "[ ]", ""})
	}
	return Section{Title: "Stock", Intro: []string{"Tick what is in the car, then what is sold."}, Tables: []Table{t}}
}
