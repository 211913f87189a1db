package kinds

import (
	"cmp"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// SetUp says who sets the booth up, and what they have to carry with.
type SetUp struct {
	People  int          `yaml:"people" range:"1..20" doc:"how many people set up"`
	Names   []string     `yaml:"names" doc:"what they are called; A, B, … if left out"`
	Time    unit.Minutes `yaml:"time" range:"0min..48h" doc:"from your arrival to the opening of the gates, such as 2h; left out, nothing is said about it"`
	Trolley unit.Weight  `yaml:"trolley" range:"5lb..2000lb" doc:"what your trolley carries at once"`
	Trip    unit.Minutes `yaml:"trip" range:"0min..4h" doc:"one trip from the car to the pitch and back; 0 min when the car stands at the pitch"`
	Night   string       `yaml:"night" oneof:"off covered" doc:"what happens to the works between two days: taken off, or covered where they hang"`
}

// usualSetUp: a folding trolley of 150 lb and five minutes to the car and back are common practice, no source.
var usualSetUp = SetUp{People: 2, Trolley: 150 * unit.Pound, Trip: 5, Night: "off"}

var setUpKind = one("set-up", "Who sets up, in what time, and with what trolley.", usualSetUp, buildSetUp)

// buildSetUp comes after everything that stands: it asks the booth's parts what there is to do.
func buildSetUp(s *Site, entries []entry[SetUp]) {
	e, it := usualSetUp, s.file.Whole()
	if len(entries) > 0 {
		e, it = entries[0].says, entries[0].item
	}
	if len(e.Names) > 0 && len(e.Names) != e.People {
		if it.Has("people") {
			it.Fault("names", "name everybody, or nobody", "there are %d people and %d names", e.People, len(e.Names))
		}
		e.People = len(e.Names)
	}
	s.Plan.SetUp = booth.SetUp{At: it.At(""), People: e.People, Names: e.Names, Time: e.Time, Trolley: e.Trolley, Trip: e.Trip}
	s.money()
	s.raising()
	s.cladding(e.Night == "covered")
	s.furnishing()
	s.lastLook()
}

// chore adds a task to one of the three lists. A task that nothing else places is where the scene speaks of the set-up.
func (s *Site) chore(list *[]booth.Task, t booth.Task) {
	if t.At == (fault.Place{}) {
		t.At = s.Plan.SetUp.At
	}
	*list = append(*list, t)
}

func (s *Site) setUp(t booth.Task) { s.chore(&s.Plan.SetUp.Tasks, t) }
func (s *Site) night(t booth.Task) { s.chore(&s.Plan.SetUp.Night, t) }

// strike adds a task of taking down. One that is called like a task of the set-up undoes it: there, and with what it put up.
func (s *Site) strike(t booth.Task) {
	own := len(t.Parts) > 0
	for _, u := range s.Plan.SetUp.Tasks {
		if !undoes(t.ID, u.ID) {
			continue
		}
		t.Place, t.Deed = cmp.Or(t.Place, u.Place), max(t.Deed, u.Deed)
		if !own {
			t.Parts = append(t.Parts, u.Parts...)
		}
	}
	s.chore(&s.Plan.SetUp.Strike, t)
}

// undoes is whether a task of taking down undoes one of the set-up, of that ID or numbered like it.
func undoes(down, up booth.ID) bool {
	return up == down || strings.HasPrefix(string(up), string(down)+"/")
}

// taskIDs are the IDs of the tasks of a list, in its order.
func taskIDs(list []booth.Task) []booth.ID {
	var ids []booth.ID
	for _, t := range list {
		ids = append(ids, t.ID)
	}
	return ids
}

// money comes out first, when the fair is over and for the night.
func (s *Site) money() {
	const bags = "Take the money, the card reader and the papers out; one person keeps them on their body"
	t := booth.Task{ID: "money", Name: bags, Crew: 1, Minutes: 2, Deed: booth.Pockets}
	s.strike(t)
	s.night(t)
}

// lastLook ends every list.
func (s *Site) lastLook() {
	su := &s.Plan.SetUp
	var kit []booth.Cargo
	for _, k := range s.Plan.Kit {
		kit = append(kit, booth.Cargo{What: k.Name, Count: k.Count, Weight: k.Weight, Assumed: k.Weight == 0})
	}
	for _, w := range s.Plan.Waiting {
		if len(s.Plan.Stores) > 0 && !w.Work.Sold { // without a store they may well stay at home
			kg, assumed := weighs(&w.Work)
			kit = append(kit, booth.Cargo{What: "“" + w.Work.Title + "”, for the store", Count: 1, Weight: kg, Assumed: assumed})
		}
	}
	boxes, fast := "boxes and rain covers", ""
	if s.eave > 0 {
		fast = "every weight fast, "
	}
	if s.Plan.Pitch.Indoor {
		boxes = "boxes"
	}
	s.setUp(booth.Task{
		ID: "look", Name: "Put " + boxes + " out of sight but within reach; walk past both ways and look", After: taskIDs(su.Tasks), Crew: 1, Minutes: 5, Fetch: kit,
		Check: "Middles level, no tag missing, the way in clear, " + fast + "nothing to trip over.",
	})
	s.strike(booth.Task{
		ID: "look", Name: "Walk over the whole pitch: nothing is left on the ground", After: append(taskIDs(su.Strike), booth.Trips), Crew: 1, Minutes: 3,
		Check: "No hook, tie or stake in the grass, where somebody would step on it.",
	})
	t := booth.Task{ID: "look", Name: "Look round once more and say good night to the neighbours", After: append(taskIDs(su.Night), booth.Trips), Crew: 1, Minutes: 3,
		Check: "Nothing of worth is left; nothing can flap."}
	if s.eave > 0 {
		t.Check = "Every weight fast, every leg locked, nothing can flap, nothing of worth is left."
		t.Caution = "Ask the organiser whether tents may stay up, and look at the forecast. If a gale, thunder or heavy rain is forecast, take walls and drapes off and lower the legs, or take the tent down."
	}
	s.night(t)
}
