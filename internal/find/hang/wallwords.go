package hang

import (
	"fmt"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

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
		Head:  []string{"hook", "work", "from the left end", "from the right end", "from the neighbour's edge", "from its own left edge", "height: carries", "height: holds on", "on, from the top", "tie loop"},
		Wide:  []float64{6, 23, 10, 10, 13, 11, 9, 9, 9, 8},
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
				fmt.Sprint(h.Number), work.Title, s.length(h.X), s.length(w.Width - h.X), s.length(h.FromSide), s.length(h.FromEdge), s.length(h.Y), s.length(h.Grip), w.counted(h), loop,
			})
			if h.Hole != nil {
				holes.Rows = append(holes.Rows, []string{
					fmt.Sprint(h.Number), s.length(h.Hole.X), s.length(h.Hole.Y), s.length(h.Hole.Across), s.length(h.Hole.Down),
				})
			}
		}
		if work.Problem != "" {
			sec.Intro = append(sec.Intro, warning(work)+": "+work.Title+" "+work.Problem+".")
		} else if work.Below < 0 {
			sec.Intro = append(sec.Intro, fmt.Sprintf("%s: the wire is so long that the hook shows %s above the upper edge. Shorten it.", work.Title, s.full(-work.Below)))
		}
	}
	sec.Tables = append(sec.Tables, hooks, works)
	if len(holes.Rows) > 0 {
		sec.Tables = append(sec.Tables, holes)
		sec.Notes = append(sec.Notes, "The hole is where the hook, or its tie loop, reaches through the cloth to what holds it. Two ways to find it: on the cloth as it hangs, or at home on the cloth laid flat and pulled smooth (its folds are counted in, hems are not).")
	}
	if w.Step > 0 {
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

// warning is the word before a work's problem.
func warning(w Work) string {
	if w.Held {
		return "NOT WHERE THE SCENE PUTS IT"
	}
	return "NOTHING HOLDS IT"
}

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
	return fmt.Sprintf("%s, %s wide, hooks between %s and %s above the ground. Face the wall from the front of it: left is your left. All measures are %s; heights are from the ground, edges are the frame's.",
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
