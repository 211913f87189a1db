// Package order rehearses a booth: in what order people set it up, take it down and leave it for the night, who does
// what and when, what comes out of the car with which trip, and whether there is time. It is project scheduling under
// limited hands: the critical path method (Kelley and Walker 1959), the serial schedule with forward-backward improvement (Kolisch, Eur. J.
// Oper. Res. 90, 1996), and three-point times for the luck of each step (PERT: Malcolm and others, Operations Research 7, 1959).
//
// Times are whole minutes from the beginning.
package order

import (
	"fmt"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Which is one of the three lists of a booth.
type Which string

const (
	SetUp  Which = "set-up"
	Strike Which = "strike"
	Night  Which = "night"
)

// Options are what a rehearsal is made with besides the booth.
type Options struct {
	Which Which // SetUp if empty
	Times TimesLog
	Goods []booth.Goods // what is carried besides what the tasks fetch
	Kept  *answer.Kept  // schedules of earlier versions of the booth; nil: none
}

// Rehearsal is a list of steps with their times and hands.
type Rehearsal struct {
	Scene    string   `json:"scene"`
	Which    Which    `json:"which"`
	People   []string `json:"people"`
	Steps    []Step   `json:"steps"`
	Length   int      `json:"minutes"`       // from the beginning to the end of the last step
	Chain    int      `json:"longest_chain"` // minutes of the longest chain of steps that wait for each other
	Bound    int      `json:"at_least"`      // no order of these steps for these people can be shorter
	Time     int      `json:"time"`          // minutes that there are; 0: not stated
	Chance   float64  `json:"chance"`        // of being done within that time; 0 when it is not stated
	Loads    []Load   `json:"loads"`         // in the order of the trips
	Learnt   []Learnt `json:"learnt"`
	Cautions []string `json:"cautions"`
	Trolley  float64  `json:"trolley_kg"`
	Morning  int      `json:"morning_minutes"` // work to undo what the night's list does, hands times minutes
	Stands   []Stand  `json:"-"`               // the parts that stand when it begins
	system   unit.System
	mends    []mend // what makes it short enough, where it is not
}

// Step is one line of a rehearsal. Steps are numbered by when they begin: done one by one in this order, each is possible.
type Step struct {
	Number   int        `json:"step"`
	ID       booth.ID   `json:"id"`
	Name     string     `json:"name"`
	Who      []string   `json:"who"`
	Start    int        `json:"start"`
	End      int        `json:"end"`
	Earliest int        `json:"earliest_start"` // with any number of hands
	Latest   int        `json:"latest_start"`   // the same, without making the longest chain longer
	Slack    int        `json:"slack"`          // between the two; 0 on the critical path
	Room     int        `json:"room"`           // minutes that it may be late, for these people in this order, before the end is later
	Measured bool       `json:"measured"`       // its minutes come from practice
	Lacks    int        `json:"lacks"`          // people that it takes and that are not there
	After    []int      `json:"after"`          // numbers of the steps that must be done before
	How      []string   `json:"how"`
	Fetch    []Fetch    `json:"fetch"`
	Check    string     `json:"check"`
	Caution  string     `json:"caution"`
	Place    booth.ID   `json:"-"` // the part at which it is done; empty for what is done nowhere in particular
	Parts    []booth.ID `json:"-"` // the parts that it puts up, or takes away
	Hooks    []booth.ID `json:"-"` // works whose hooks are set with it
	AtOnce   bool       `json:"-"` // it begins the minute that the steps before it end
	Shows    []Stand    `json:"-"` // the parts that stand after it and all steps before it
	Load     int        `json:"-"` // the load that it fetches, or carries away; 0: none
	Deed     booth.Deed `json:"-"` // what is seen of it besides its parts
	About    []booth.ID `json:"-"` // the parts that it is about, and that stay

	people []int // numbers
}

// Minutes that the step takes.
func (s Step) Minutes() int { return s.End - s.Start }

// Fetch is something that a step needs, and the loads that it comes with.
type Fetch struct {
	What  string `json:"what"`
	Count int    `json:"count"`
	Loads []int  `json:"loads"`
}

// Stand is a part that stands, and how much lower than in the end, in metres.
type Stand struct {
	Part booth.ID
	Low  float64
}

// Step is the name of a step among all lists, as findings give it: "set-up/weights".
func (r Rehearsal) Step(s Step) booth.ID { return booth.ID(r.Which) + "/" + s.ID }

// Logged is the name of a step in the log of times. Steps of the set-up have their own; those of other lists that are called the
// same take other minutes.
func (w Which) Logged(step booth.ID) booth.ID {
	if w == SetUp {
		return step
	}
	return booth.ID(w) + "/" + step
}

// System is the system of units that the scene is written in.
func (r Rehearsal) System() unit.System { return r.system }

// Of rehearses a booth. The error is a fault.List: steps that wait for each other.
func Of(p *booth.Plan, o Options) (Rehearsal, error) {
	g, err := newProject(p, o)
	if err != nil {
		return Rehearsal{}, err
	}
	r := Rehearsal{
		Scene: p.File, Which: g.which, People: g.names, Loads: g.loads, Learnt: g.learnt, Trolley: p.SetUp.Trolley.Kg(), system: p.Units,
		Cautions: cautions(p),
	}
	have := []int{len(g.names), 1}
	start, bound := g.net.scheduled(have, o.Kept)
	times, chain, _ := g.net.Times() // the project has no loop
	r.Chain, r.Bound, r.Length = chain, bound, schedule(start).length(g.net)
	if g.which != SetUp {
		for _, t := range p.SetUp.Tasks {
			r.Stands = stand(r.Stands, t, true)
		}
	}
	r.Steps = g.steps(start, times, r.Stands)
	g.handOut(r.Steps)
	rooms(r.Steps, r.Length)
	if g.which == SetUp {
		r.Time = int(p.SetUp.Time)
	}
	if r.Length > r.Time && r.Time > 0 {
		r.mends = mends(p, o, r)
	}
	if r.Time > 0 {
		mean, variance := g.decisive(start)
		r.Chance = Chance(float64(r.Time), mean, variance)
	}
	if g.which == Night {
		r.Morning = g.morning(p)
	}
	return r, nil
}

// scheduled is the network's schedule and its bound. They are made from the jobs but for their names.
func (n Network) scheduled(have []int, kept *answer.Kept) (start []int, bound int) {
	type network string
	type scheduled struct {
		start []int
		bound int
	}
	nameless := slices.Clone(n)
	for i := range nameless {
		nameless[i].Name = ""
	}
	s := answer.Of(kept, network(fmt.Sprint(have, nameless)), func() (scheduled, int) {
		return scheduled{n.Schedule(have), n.Bound(have)}, 300 * len(n)
	})
	return s.start, s.bound
}

// Check is what is wrong with the order of a booth's steps: a fault.List, or nil.
func Check(p *booth.Plan) error {
	for _, w := range []Which{SetUp, Strike, Night} {
		if _, err := newProject(p, Options{Which: w}); err != nil {
			return err
		}
	}
	return nil
}

// cautions are said with every rehearsal.
func cautions(p *booth.Plan) []string {
	out := []string{
		"Minutes and weights that the scene does not state are usual ones, without a source. Send your minutes from the page, or practise with rehearse --time, and the rehearsal learns yours.",
		"Whoever lifts, climbs or handles a tent does it within their own strength. The organiser's rules, the local code and a licensed person come first.",
	}
	if p.Tented() {
		out = append(out, "Wind: weights on every leg the moment the frame stands, and until the canopy is off. If the organiser, the forecast or the sky says no, the tent stays down; if a gale or thunder comes, everybody leaves it.")
	}
	return out
}
