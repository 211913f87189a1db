package kinds

import (
	"fmt"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// Chore is a task of the user's own, or a change to one that the booth itself makes.
type Chore struct {
	Do       string        `yaml:"do" doc:"what to do, in your own words: a task of your own"`
	Name     string        `yaml:"name" doc:"a short name of your own, for after and before"`
	Step     string        `yaml:"step" doc:"the step of the booth's own that you want to change, such as works/back (boothmock rehearse lists them)"`
	Of       string        `yaml:"of" oneof:"set-up strike night" doc:"which of the three lists it is in"`
	Minutes  *unit.Minutes `yaml:"minutes" range:"0min..24h" doc:"how long it takes"`
	Least    *unit.Minutes `yaml:"at least" range:"0min..24h" doc:"how long when all goes well"`
	Most     *unit.Minutes `yaml:"at most" range:"0min..24h" doc:"how long when it goes badly"`
	People   *int          `yaml:"people" range:"0..20" doc:"how many people it takes, all of them all the time; usually 1"`
	After    []string      `yaml:"after" doc:"what must be done before: steps, things that must stand, trips (all carrying) or everything"`
	Before   []string      `yaml:"before" doc:"what must wait for it: steps, or everything"`
	NotAfter []string      `yaml:"not after" doc:"what it need not wait for after all"`
	Caution  string        `yaml:"caution" most:"2000" doc:"what can hurt somebody"`
	Check    string        `yaml:"check" most:"2000" doc:"what to look at when it is done"`
}

var choreKind = many("tasks", "Tasks of your own around the set-up, and changes to the booth's own steps.", Chore{Of: "set-up"}, buildChores)

func buildChores(s *Site, entries []entry[Chore]) {
	for _, en := range entries {
		it, e := en.item, en.says
		list := s.tasksOf(e.Of)
		switch {
		case (e.Do == "") == (e.Step == ""):
			it.Fault("", "write do: and your words for a task of your own, or step: and the name of the booth's own step", "say either do or step")
		case e.Do != "":
			s.ownTask(en, list)
		default:
			known := taskIDs(*list)
			k := slices.Index(known, booth.ID(e.Step))
			if k < 0 {
				s.unknown(it, "step", "step", e.Step, func() []string { return texts(known) })
				continue
			}
			change(&(*list)[k], e, it)
		}
	}
	// Names are looked up when all tasks are there: a task may wait for one that is written further down.
	for _, en := range entries {
		if s.few() {
			s.link(en, *s.tasksOf(en.says.Of))
		}
	}
}

func (s *Site) tasksOf(list string) *[]booth.Task {
	return map[string]*[]booth.Task{"set-up": &s.Plan.SetUp.Tasks, "strike": &s.Plan.SetUp.Strike, "night": &s.Plan.SetUp.Night}[list]
}

func texts(ids []booth.ID) []string {
	var out []string
	for _, id := range ids {
		out = append(out, string(id))
	}
	return out
}

// ownID is the ID of a task of the user's own.
func ownID(en entry[Chore]) booth.ID {
	if en.says.Name != "" {
		return booth.ID(en.says.Name)
	}
	return booth.ID(fmt.Sprintf("task/%d", en.number+1))
}

func (s *Site) ownTask(en entry[Chore], list *[]booth.Task) {
	e, it := en.says, en.item
	id := ownID(en)
	if slices.Contains(taskIDs(*list), id) || id == booth.Trips || id == everything {
		it.Fault("name", "give it another name", "there is a step %q already", id)
		return
	}
	t := booth.Task{ID: id, Name: e.Do, At: it.At(""), Crew: 1, Minutes: 5}
	change(&t, e, it)
	*list = append(*list, t)
}

// change sets what the entry says about the task.
func change(t *booth.Task, e Chore, it scene.Item) {
	if e.Minutes != nil {
		t.Minutes, t.Least, t.Most = *e.Minutes, 0, 0
	}
	if e.Least != nil {
		t.Least = *e.Least
	}
	if e.Most != nil {
		t.Most = *e.Most
	}
	if t.Least > t.Minutes || t.Most > 0 && t.Most < t.Minutes {
		it.Fault("minutes", "at least ≤ minutes ≤ at most", "the minutes are not between the least and the most")
	}
	if e.People != nil {
		t.Crew = *e.People
	}
	if e.Caution != "" {
		t.Caution = e.Caution
	}
	if e.Check != "" {
		t.Check = e.Check
	}
	t.At, t.Stated = it.At(""), true
}

// everything, as a name in after and before, is every other task of the list.
const everything booth.ID = "everything"

// link sets what the entry's task waits for, and what waits for it.
func (s *Site) link(en entry[Chore], list []booth.Task) {
	e, it := en.says, en.item
	own := ownID(en)
	if e.Step != "" {
		own = booth.ID(e.Step)
	}
	k := slices.IndexFunc(list, func(t booth.Task) bool { return t.ID == own })
	if k < 0 {
		return // it has a fault of its own
	}
	t := &list[k]
	itself := func(field string, id booth.ID) bool {
		alone := slices.Contains(t.Parts, id) && !slices.ContainsFunc(list, func(o booth.Task) bool { return o.ID != own && slices.Contains(o.Parts, id) })
		if id != own && !alone { // neither its name nor what it alone makes stand
			return false
		}
		it.Fault(field, "name another step, or take it away", "a task does not wait for itself: %q", id)
		return true
	}
	for n, name := range e.After {
		switch id := booth.ID(name); {
		case slices.Contains(e.After[:n], name): // once is enough
		case itself(fmt.Sprintf("after.%d", n), id):
		case id == everything:
			for i := range list {
				if i != k && !slices.Contains(list[i].After, own) {
					t.After = append(t.After, list[i].ID)
				}
			}
			t.After = append(t.After, booth.Trips)
		case s.known(it, fmt.Sprintf("after.%d", n), id, list, true):
			t.After = append(t.After, id)
		}
	}
	for n, name := range e.Before {
		if slices.Contains(e.Before[:n], name) {
			continue
		}
		id := booth.ID(name)
		if itself(fmt.Sprintf("before.%d", n), id) {
			continue
		}
		if id == everything || id == booth.Trips {
			s.Plan.SetUp.TripsAfter = append(s.Plan.SetUp.TripsAfter, own)
		}
		if id != everything && !s.known(it, fmt.Sprintf("before.%d", n), id, list, false) {
			continue
		}
		for i := range list {
			if id == list[i].ID || id == everything && i != k && !slices.Contains(t.After, list[i].ID) {
				list[i].After = append(list[i].After, own)
			}
		}
	}
	for n, name := range e.NotAfter {
		if id := booth.ID(name); !itself(fmt.Sprintf("not after.%d", n), id) && s.known(it, fmt.Sprintf("not after.%d", n), id, list, true) {
			t.After = slices.DeleteFunc(t.After, func(a booth.ID) bool { return a == id })
			t.NotAfter = append(t.NotAfter, id)
		}
	}
}

// known is whether the name is a task of the list, all trips, or, where things are allowed, a part; else it is a fault.
func (s *Site) known(it scene.Item, field string, id booth.ID, list []booth.Task, things bool) bool {
	if id == booth.Trips || slices.ContainsFunc(list, func(t booth.Task) bool { return t.ID == id || things && slices.Contains(t.Parts, id) }) {
		return true
	}
	s.unknown(it, field, "step", string(id), func() []string { return append(texts(taskIDs(list)), string(booth.Trips), string(everything)) })
	return false
}
