package kinds

import (
	"math"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Usual weights where the scene states none, and how low a frame stands with its legs pushed in: common practice, no
// source. A 10 x 10 ft steel frame with its canopy is about 60 lb; many fairs ask for 40 lb on each leg.
const (
	frameGrams  = 2900.0 // a square metre of ground
	usualWeight = 40 * unit.Pound
	stakeGrams  = 1000.0 // a stake with its strap
	hammerGrams = 1500.0
	legsIn      = 0.85  // metres that the frame stands lower
	wallGrams   = 250.0 // a square metre of tent wall, drape or rain curtain
)

// Cautions that more than one task gives.
const (
	ladder = "Stand on a step ladder on firm ground; on grass, ask somebody to hold it. Never on a chair, a table or a box."
	gust   = "Cloth on a tent is a sail. Not in a gust, not before every leg has its weight, and not when the organiser says no."
)

func grams(g float64) unit.Weight { return unit.Weight(g / 1000) }

// raising is how the tents are put up and taken down.
func (s *Site) raising() {
	book := s.Plan.Rules
	var tents []*booth.Part
	for i := range s.Plan.Parts {
		if s.Plan.Parts[i].Tent != nil {
			tents = append(tents, &s.Plan.Parts[i])
		}
	}
	minutes := rules.FrameTime.In(book)
	for k, tent := range tents {
		t := tent.Tent
		end, of := "", ""
		if len(tents) > 1 {
			end, of = "/"+last(tent.ID), tentNamed(k, len(tents))
		}
		var frame, cloth []booth.ID
		for _, p := range s.Plan.Parts {
			switch below, ok := strings.CutPrefix(string(p.ID), string(tent.ID)+"/"); {
			case p.ID == tent.ID, ok && (below == "rails" || strings.HasPrefix(below, "leg-")):
				frame = append(frame, p.ID)
			case ok:
				cloth = append(cloth, p.ID)
			}
		}
		var before []booth.ID // tents side by side go up one after the other, each tied to the last
		if k > 0 {
			before = []booth.ID{"weights/" + booth.ID(last(tents[k-1].ID))}
		}
		weight, assumed := t.Weight, t.Weight == 0
		if assumed {
			weight = grams(math.Round(t.Width*t.Depth*frameGrams/100) * 100)
		}
		ballast, guess := t.Ballast, t.Ballast == 0
		if guess {
			ballast = usualWeight
		}
		hold := []booth.Cargo{{What: "weights for the legs" + of, Count: t.Legs, Weight: ballast, Assumed: guess}}
		fasten, tied := "Fasten a weight to every leg", "Each weight is strapped tight to its leg, low down, where nobody trips over it."
		if !guess {
			fasten = "Fasten " + t.Ballast.Format(s.file.Units) + " to every leg"
		}
		const needs = "What a leg needs depends on the wind and on the walls: the hang sheet's weather page is an estimate; the organiser's rules and the local code come first."
		caution, ready := needs, t.HeldBy()
		if t.Stake > 0 {
			if guess {
				hold, fasten, tied = nil, "Strap every leg to a stake beside it", ""
			} else {
				fasten += ", and strap it to a stake beside it"
			}
			hold = append(hold, booth.Cargo{What: "stakes with straps for the legs" + of, Count: t.Legs, Weight: grams(stakeGrams), Assumed: true})
			if k == 0 {
				hold = append(hold, booth.Cargo{What: "hammer for the stakes", Count: 1, Weight: grams(hammerGrams), Assumed: true})
			}
			tied, caution = strings.TrimSpace(tied+" Each stake is driven to its head and does not give when you pull; its strap is tight."), needs+" "+booth.StakeCaution
		}
		id := func(name string) booth.ID { return booth.ID(name + end) }
		low := max(0, min(legsIn, t.Eave-1.1))
		s.setUp(booth.Task{
			ID: id("frame"), Name: "Stand the folded frame" + of + " on its pitch and open it halfway, legs pushed in", At: tent.At, After: before,
			Crew: 2, Minutes: minutes, Place: tent.ID, Parts: frame, Low: low,
			Fetch:   []booth.Cargo{{What: "the tent frame with its canopy" + of, Count: 1, Weight: weight, Assumed: assumed}},
			Check:   "The feet are inside the marks of the pitch, the open front towards the aisle.",
			Caution: "Lift with the legs, not the back. Keep fingers out of the crossing bars.",
		})
		s.setUp(booth.Task{
			ID: id("canopy"), Name: "Pull the canopy" + of + " over the frame while it stands low; fasten its corners", At: tent.At, After: []booth.ID{id("frame")},
			Crew: 2, Minutes: minutes, Place: tent.ID, Parts: cloth, Low: low,
			Fetch:   hold,
			Check:   "The lettering, or the better valance, hangs at the front. The " + ready + " lie ready at the legs.",
			Caution: "From now on somebody holds the tent until its " + ready + " are on: a breeze is enough to carry it off.",
		})
		s.setUp(booth.Task{
			ID: id("raise"), Name: "Open the frame" + of + " fully; push up the legs, two of one side together, until each one locks", At: tent.At, After: []booth.ID{id("canopy")}, AtOnce: true,
			Crew: 2, Minutes: minutes, Place: tent.ID, Parts: append(append([]booth.ID{}, frame...), cloth...),
			Check:   "Every lock has clicked; the canopy is taut.",
			Caution: "Hold on to the frame. In a gust, leave it low. Keep fingers out of the crossing bars.",
		})
		s.setUp(booth.Task{
			ID: id("weights"), Name: fasten + of + " before anybody lets go, the leg towards the wind first", At: tent.At, After: []booth.ID{id("raise")}, AtOnce: true, Deed: booth.Weighs,
			Crew: 2, Minutes: rules.WeightTime.In(book) * unit.Minutes(t.Legs), Place: tent.ID, Steps: []string{"One person holds the frame; the other fastens."},
			Check: tied, Caution: caution, Windy: true,
		})
	}
	if n := len(tents); n > 0 {
		s.standsFirm = []booth.ID{"weights"}
		if n > 1 {
			s.standsFirm = []booth.ID{"weights/" + booth.ID(last(tents[n-1].ID))}
		}
	}
	s.Plan.SetUp.Roof = s.standsFirm
}

// lowering ends a strike: it comes after everything that hangs on the tents. The weights stay on until the canopy is off.
func (s *Site) lowering() {
	minutes := rules.FrameTime.In(s.Plan.Rules)
	legs, number := 0, 0
	holds := "weights"
	for _, p := range s.Plan.Parts {
		if p.Tent != nil {
			legs, number = legs+p.Tent.Legs, number+1
			holds = p.Tent.HeldBy()
		}
	}
	if number == 0 {
		return
	}
	tents := unit.Minutes(number)
	var raised []booth.ID
	var low float64
	for _, t := range s.Plan.SetUp.Tasks {
		if undoes("frame", t.ID) || undoes("canopy", t.ID) {
			raised, low = append(raised, t.Parts...), max(low, t.Low)
		}
	}
	s.strike(booth.Task{
		ID: "lower", Name: "Lower the legs, two of one side together, with the " + holds + " still on", After: taskIDs(s.Plan.SetUp.Strike), Crew: 2, Minutes: minutes * tents, Parts: raised, Low: low,
		Caution: "None of them comes off yet: a tent that stands without its walls is still a sail.",
	})
	s.strike(booth.Task{ID: "canopy", Name: "Take the canopy off and fold it; if it is wet, dry it at home", After: []booth.ID{"lower"}, Crew: 2, Minutes: minutes * tents})
	s.strike(booth.Task{
		ID: "weights", Name: "Now take the " + holds + " off", After: []booth.ID{"canopy"}, Crew: 1, Minutes: rules.WeightTime.In(s.Plan.Rules) * unit.Minutes(legs),
		Fetch: s.cargo("canopy"), Caution: "Lift with the legs, one at a time.",
	})
	s.strike(booth.Task{
		ID: "frame", Name: "Fold the frame and put it in its bag", After: []booth.ID{"weights"}, Crew: 2, Minutes: minutes * tents, Fetch: s.cargo("frame"),
		Caution: "Keep fingers out of the crossing bars.",
	})
}

// cargo is what was fetched for the set-up's task, and for those numbered like it.
func (s *Site) cargo(id booth.ID) []booth.Cargo {
	var out []booth.Cargo
	for _, t := range s.Plan.SetUp.Tasks {
		if undoes(id, t.ID) {
			out = append(out, t.Fetch...)
		}
	}
	return out
}
