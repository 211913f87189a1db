package hang

import (
	"cmp"
	"fmt"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// WallSection is what the person with the tape needs at one wall.
func (s Sheet) WallSection(w Wall) Section {
	sec := Section{Title: unit.Capital(w.Name), Intro: []string{s.wallIntro(w) + s.measured()}}
	if len(w.Works) == 0 {
		sec.Notes = append(sec.Notes, "Nothing hangs on this wall.")
		return sec
	}
	works := Table{
		Title: "Works, from the left",
		Head:  []string{"", "work", "left edge from the left end", "gap on its left", "upper edge at", "middle at", "hook below upper edge", "how it hangs"},
		Wide:  []float64{4, 21, 11, 10, 10, 10, 10, 24},
	}
	hooks := Table{
		Title: "Hooks",
		Head:  []string{"hook", "work", "from the left end", "from the right end", "from the neighbour's edge", "from its own left edge", "height: carries", "height: holds on", "on, from the top", "tie loop"},
		Wide:  []float64{5, 21, 9, 9, 12, 10, 9, 9, 9, 7},
	}
	holes := Table{
		Title: "Holes in the cloth",
		Head:  []string{"hook", "hung: from the left end", "hung: height", "flat: from the cloth's left edge", "flat: down from its upper edge"},
		Wide:  []float64{10, 22, 20, 25, 23},
	}
	guessed, loops := false, false
	for _, work := range w.Works {
		star := ""
		if work.Assumed {
			star, guessed = "\u00a0*", true
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
				fmt.Sprint(h.Number), work.Title, s.length(h.X), s.length(w.Width - h.X), s.length(h.FromSide), s.length(h.FromEdge), s.length(h.Y), s.length(h.Grip), cmp.Or(w.fromTop(h), none), loop,
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
	sec.Tables = filled(hooks, works, holes)
	if len(holes.Rows) > 0 {
		sec.Notes = append(sec.Notes, "A hole is where a hook, or its loop, goes through the cloth, laid flat and smooth (folds are counted in, hems are not).")
	}
	if w.Step > 0 {
		loop := ""
		if loops {
			loop = ", or a loop of cord hung so long,"
		}
		sec.Notes = append(sec.Notes, fmt.Sprintf("Carries: where the work rests, in the S-hook's lower bend. Holds on: the %s that its upper bend%s goes over. Middles are then level within %s.", map[booth.Hold]string{booth.Mesh: "lying wire", booth.Chains: "link"}[w.Hold], loop, s.full(s.Tolerance)))
	}
	if guessed {
		sec.Notes = append(sec.Notes, assumed)
	}
	return sec
}

// assumed is what the star at a work means.
const assumed = "* The scene does not say all of how this work hangs: usual measures stand in (rings two thirds of the width apart, wire a sixth longer). Turn the work round, measure, and write hang by, rings, wire and rings down into the scene."

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
	return fmt.Sprintf("%s, %s wide, hooks from %s to %s above the ground. Face its front: left is your left.", hold, s.full(w.Width), s.full(w.Bottom), s.full(w.Top))
}

// measured says what the numbers of a wall are.
func (s Sheet) measured() string {
	units := "inches"
	if s.system == unit.Centimetres {
		units = "centimetres"
	}
	return fmt.Sprintf(" Measures are %s; heights from the ground, edges the frame's.", units)
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
