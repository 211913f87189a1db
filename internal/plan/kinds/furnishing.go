package kinds

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Usual weights where the scene states none: common practice, no source. A folding table of 6 ft x 30 in is about 33 lb.
const (
	tableGrams    = 11000.0 // a square metre of table top
	pedestalGrams = 60000.0 // a square metre of ground under a plywood pedestal
	binGrams      = 6000.0  // an empty bin
	printGrams    = 200.0   // a matted print
	chairGrams    = 4000.0
	thingGrams    = 1000.0
	longTable     = 1.3 // metres: a longer one takes two people
)

// furnish keeps the task of a thing that stands on the ground until the tents' tasks are known; do says what
// to do, g is its usual weight in grams, if the scene states none.
func (s *Site) furnish(p booth.Part, do string, crew int, minutes unit.Minutes, tender bool, g float64) {
	of := s.Plan.Part(p.ID)
	if of.Heft == 0 {
		of.Heft, of.Taken = grams(math.Round(g/100)*100), true
	}
	s.furniture = append(s.furniture, booth.Task{
		ID: p.ID, Name: do, At: p.At, Crew: crew, Minutes: minutes, Place: p.ID, Parts: []booth.ID{p.ID}, InTheWay: true, Tender: tender,
		Check: "It stands level, does not rock, and nothing of it lies where people walk.",
		Fetch: []booth.Cargo{{What: strings.TrimPrefix(p.Name, "the "), Count: 1, Weight: of.Heft, Assumed: of.Taken}},
	})
}

// furnishing is what stands on the ground and what lies on it, then the banner and what keeps the rain out.
func (s *Site) furnishing() {
	for _, t := range s.furniture {
		t.After = s.standsFirm
		if !slices.Contains(s.rugs, t.ID) {
			t.After = append(slices.Clone(t.After), s.rugs...)
		}
		s.setUp(t)
		s.layOut(s.Plan.Part(t.ID))
		empty := []booth.ID{"money"}
		if on := onTop(t.ID); slices.Contains(taskIDs(s.Plan.SetUp.Strike), on) {
			empty = append(empty, on)
		}
		s.strike(booth.Task{
			ID: t.ID, Name: "Fold or carry away " + s.Plan.Part(t.ID).Name, At: t.At, After: empty, Crew: t.Crew, Minutes: (t.Minutes + 1) / 2,
			Place: t.ID, Parts: t.Parts, InTheWay: true, Tender: t.Tender, Fetch: t.Fetch,
		})
	}
	s.hangFromBars()
	s.bannerTask()
	s.lampTask()
	s.rainTasks()
	s.lowering()
}

// onTop is the ID of the task of what stands on a thing.
func onTop(thing booth.ID) booth.ID { return "on/" + booth.ID(last(thing)) }

// layOut is what stands or hangs on a table, a bin or a pedestal.
func (s *Site) layOut(on *booth.Part) {
	var names []string
	var parts []booth.ID
	var cargo []booth.Cargo
	for _, p := range s.Plan.Parts {
		if p.Parent != on.ID || p.Sheet {
			continue
		}
		name := strings.TrimPrefix(p.Name, "the ")
		c := booth.Cargo{What: name, Count: 1, Weight: grams(thingGrams), Assumed: true}
		if p.Work != nil {
			c.Weight, c.Assumed = weightOf(&p)
			name = titled(&p)
			c.What = name
		}
		names, parts, cargo = append(names, name), append(parts, p.ID), append(cargo, c)
	}
	if len(parts) == 0 {
		return
	}
	id := onTop(on.ID)
	minutes := rules.ThingTime.In(s.Plan.Rules) * unit.Minutes(len(parts))
	s.setUp(booth.Task{
		ID: id, Name: fmt.Sprintf("Set out on %s: %s", on.Name, strings.Join(names, ", ")), At: on.At, After: []booth.ID{on.ID}, Crew: 1, Minutes: minutes, Place: on.ID, Parts: parts, Tender: true, Fetch: cargo,
		Check: "Nothing stands where an elbow or a bag sweeps it off.",
	})
	pack := booth.Task{
		ID: id, Name: fmt.Sprintf("Pack what is on %s", on.Name), At: on.At, After: []booth.ID{"money"}, Crew: 1, Minutes: minutes, Place: on.ID, Parts: parts, Tender: true, Fetch: cargo,
	}
	s.strike(pack)
	s.night(pack)
}

// bannerTask hangs the banner from outside, when nobody needs to pass with a panel any more.
func (s *Site) bannerTask() {
	p := s.Plan.Part("banner")
	if p == nil || p.Parent != "" {
		return // a banner on a wall or before a table goes with it
	}
	cargo := []booth.Cargo{{What: "banner with its ties", Count: 1, Weight: grams(2 * thingGrams), Assumed: true}}
	s.setUp(booth.Task{
		ID: p.ID, Name: "Tie the banner over the entrance, from outside", At: p.At, After: taskIDs(s.Plan.SetUp.Tasks), Crew: 2, Minutes: rules.BannerTime.In(s.Plan.Rules), Place: p.ID, Parts: []booth.ID{p.ID}, Fetch: cargo,
		Check: "Level from across the aisle, and nobody has to stoop.", Caution: ladder + " " + gust,
	})
	s.strike(booth.Task{
		ID: p.ID, Name: "Untie the banner, from outside", At: p.At, After: []booth.ID{"money"}, Crew: 2, Minutes: (rules.BannerTime.In(s.Plan.Rules) + 1) / 2, Fetch: cargo, Caution: ladder,
	})
}

// rainTasks are the curtains and covers of a booth that is shown in the rain, and the covers for the night.
func (s *Site) rainTasks() {
	var curtains, covers []booth.ID
	for _, p := range s.Plan.Parts {
		switch {
		case p.Cloth != nil && p.Cloth.Rain:
			curtains = append(curtains, p.ID)
		case p.Sheet:
			covers = append(covers, p.ID)
		}
	}
	cloth, thing := rules.ClothTime.In(s.Plan.Rules), rules.ThingTime.In(s.Plan.Rules)
	at := s.Plan.Weather.At
	if n := len(curtains); n > 0 {
		cargo := []booth.Cargo{{What: "rain curtains with rings and cord", Count: n, Weight: grams(1000), Assumed: true}}
		s.setUp(booth.Task{
			ID: "rain/curtains", Name: "Hang the rain curtains outside; draw those of the front back to the legs", At: at, After: s.standsFirm, Crew: 2, Minutes: cloth * unit.Minutes(n),
			Parts: curtains, Fetch: cargo, Check: "They close with one hand, from inside.", Caution: gust + " " + ladder,
		})
		s.strike(booth.Task{ID: "rain/curtains", Name: "Take the rain curtains down", At: at, After: []booth.ID{"money"}, Crew: 2, Minutes: (cloth*unit.Minutes(n) + 1) / 2, Fetch: cargo, Caution: ladder})
	}
	if n := len(covers); n > 0 {
		after := []booth.ID{}
		for _, t := range s.Plan.SetUp.Tasks {
			if t.InTheWay || strings.HasPrefix(string(t.ID), "on/") {
				after = append(after, t.ID)
			}
		}
		s.setUp(booth.Task{
			ID: "rain/covers", Name: "Lay the rain covers over the tables and clip them at the corners", At: at, After: after, Crew: 1, Minutes: thing * unit.Minutes(n), Parts: covers,
			Fetch: []booth.Cargo{{What: "rain covers for tables", Count: n, Weight: grams(500), Assumed: true}}, Check: "One hand lifts a corner to serve.",
		})
	}
	if n := len(s.furniture); n > 0 {
		with := "the rain covers"
		if s.Plan.Pitch.Indoor {
			with = "cloths"
		}
		s.night(booth.Task{
			ID: "cover", Name: "Cover what stays on the ground with " + with + " and clip them", After: taskIDs(s.Plan.SetUp.Night), Crew: 1, Minutes: thing * unit.Minutes(n),
			About: taskIDs(s.furniture), Deed: booth.Covers,
		})
	}
	if s.eave > 0 {
		s.night(booth.Task{
			ID: "close", Name: "Close the open sides with the tent walls or curtains that you have, fastened at the foot", After: taskIDs(s.Plan.SetUp.Night), Crew: 2, Minutes: cloth,
			Deed: booth.Closes, Caution: gust, Windy: true,
		})
	}
}
