package order

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// project is one list of a booth's tasks on its way to a rehearsal. Its network has the tasks and the trips.
type project struct {
	which    Which
	names    []string
	tasks    []booth.Task // of the jobs, in their order; trips have tasks of their own
	net      Network      // resources: people, and the trolley
	lacks    []int        // of the jobs: people that are not there
	measured []bool
	variance []float64
	loads    []Load
	from     []int // of the jobs: the load that a trip brings, or -1
	learnt   []Learnt
}

// newProject puts the tasks in order: what the list says, what would stand in the way, and the trips.
func newProject(p *booth.Plan, o Options) (*project, error) {
	su := p.SetUp
	g := &project{which: cmp.Or(o.Which, SetUp), learnt: []Learnt{}}
	n := max(1, su.People)
	for k := range n {
		name := string(rune('A' + k%26))
		if n == len(su.Names) {
			name = su.Names[k]
		}
		g.names = append(g.names, name)
	}
	tasks := slices.Clone(map[Which][]booth.Task{SetUp: su.Tasks, Strike: su.Strike, Night: su.Night}[g.which])
	carry(tasks, o.Goods, g.which)
	plain := waits(p, tasks, g.which != SetUp)
	sequence, err := plain.Order()
	if err != nil {
		return nil, loopFault(plain, tasks, err)
	}
	g.loads = loads(tasks, sequence, su.Trolley)
	if err := g.assemble(p, tasks, sequence, plain); err != nil {
		return nil, err
	}
	g.minutes(o.Times)
	return g, nil
}

// waits is the network of the tasks alone, without minutes.
func waits(p *booth.Plan, tasks []booth.Task, down bool) Network {
	net := make(Network, len(tasks))
	makers := makersOf(tasks)
	for j, t := range tasks {
		net[j] = Job{Name: string(t.ID), AtOnce: t.AtOnce}
		for _, id := range t.After {
			for _, a := range makers(id) {
				net.wait(j, a)
			}
		}
	}
	for _, w := range inTheWay(p, tasks, down) {
		if !slices.Contains(tasks[w.late].NotAfter, tasks[w.early].ID) {
			net.wait(w.late, w.early)
		}
	}
	return net
}

// wait lets job j wait for job a.
func (n Network) wait(j, a int) {
	if j != a && !slices.Contains(n[j].After, a) {
		n[j].After = append(n[j].After, a)
	}
}

// makersOf gives the tasks of an ID, or those after which the part stands.
func makersOf(tasks []booth.Task) func(id booth.ID) []int {
	named, parts := map[booth.ID][]int{}, map[booth.ID][]int{}
	for k, t := range tasks {
		if named[t.ID] == nil {
			named[t.ID] = []int{k}
		}
		for _, id := range t.Parts {
			if n := len(parts[id]); n == 0 || parts[id][n-1] != k {
				parts[id] = append(parts[id], k)
			}
		}
	}
	return func(id booth.ID) []int {
		if k := named[id]; k != nil {
			return k
		}
		return parts[id]
	}
}

// loopFault is a loop as a fault, at the place of one of its tasks: one that the scene's own tasks speak of, if there is.
func loopFault(net Network, tasks []booth.Task, err error) error {
	var loop Loop
	if !errors.As(err, &loop) {
		return err
	}
	at := loop[0]
	for _, j := range loop {
		if tasks[j].Stated {
			at = j
			break
		}
	}
	return fault.List{{At: tasks[at].At, Text: "these steps wait for each other: " + loop.Say(net), Hint: "take one of their after: or before: away, or write not after:"}}
}

// assemble makes the jobs, and has each wait for what must be done before it.
func (g *project) assemble(p *booth.Plan, tasks []booth.Task, sequence []int, plain Network) error {
	su := p.SetUp
	job, trip := g.lineUp(p, tasks, sequence)
	for t := range tasks {
		for _, a := range plain[t].After { // first, as what follows at once follows the first
			g.net.wait(job[t], job[a])
		}
		if slices.Contains(tasks[t].After, booth.Trips) {
			for _, k := range trip {
				if k >= 0 {
					g.net.wait(job[t], k)
				}
			}
		}
	}
	makers := makersOf(tasks)
	for k, l := range g.loads {
		if trip[k] < 0 {
			continue
		}
		if k > 0 {
			g.net.wait(trip[k], trip[k-1]) // they lie in the car in this order
		}
		for _, t := range l.tasks {
			if g.which == SetUp {
				g.net.wait(job[t], trip[k])
			} else {
				g.net.wait(trip[k], job[t])
			}
		}
		if l.Tender && g.which == SetUp {
			for _, id := range su.Roof {
				for _, a := range makers(id) {
					g.net.wait(trip[k], job[a])
				}
			}
		}
		for _, id := range su.TripsAfter {
			for _, a := range makers(id) {
				g.net.wait(trip[k], job[a])
			}
		}
	}
	if _, err := g.net.Order(); err != nil {
		return loopFault(g.net, g.tasks, err)
	}
	return g.unparted()
}

// lineUp makes the jobs: the tasks in their sequence, and the trip of each load before the first task that wants it, or, when things are
// taken away, after the last that fills it. job is that of a task, trip that of a load, -1 for one that takes no trip.
func (g *project) lineUp(p *booth.Plan, tasks []booth.Task, sequence []int) (job, trip []int) {
	job = make([]int, len(tasks)) // the job of a task
	trip = make([]int, len(g.loads))
	for k := range trip {
		trip[k] = -1
	}
	add := func(t booth.Task, load int, need ...int) int {
		g.tasks, g.from = append(g.tasks, t), append(g.from, load)
		g.lacks = append(g.lacks, max(0, need[0]-len(g.names)))
		need[0] = min(need[0], len(g.names))
		g.net = append(g.net, Job{Name: string(t.ID), AtOnce: t.AtOnce, Need: need})
		return len(g.net) - 1
	}
	addTrip := func(k int) {
		if p.SetUp.Trip > 0 && trip[k] < 0 {
			trip[k] = add(tripTask(p, g.loads[k], g.which), k, g.loads[k].hands(), 1)
		}
	}
	for _, t := range sequence {
		if g.which == SetUp {
			for k, l := range g.loads {
				if slices.Contains(l.tasks, t) {
					addTrip(k)
				}
			}
		}
		job[t] = add(tasks[t], -1, tasks[t].Crew, 0)
		if g.which != SetUp {
			for k, l := range g.loads {
				if l.tasks[len(l.tasks)-1] == t {
					addTrip(k)
				}
			}
		}
	}
	return job, trip
}

// hands are the people that a load takes.
func (l Load) hands() int {
	if l.Over {
		return 2
	}
	return 1
}

// tripTask is a trip with one load.
func tripTask(p *booth.Plan, l Load, which Which) booth.Task {
	su := p.SetUp
	name := "Fetch load %d from the car"
	if which != SetUp {
		name = "Carry load %d to the car"
	}
	t := booth.Task{
		ID: booth.ID(fmt.Sprintf(trip, l.Number)), Name: fmt.Sprintf(name, l.Number), At: su.At, Minutes: su.Trip, Crew: l.hands(), Steps: []string{strings.Join(l.Words(), ", ")},
	}
	if l.Tender {
		t.Check = "What is tender stands upright, padded, face to face; nothing lies on it."
	}
	if l.Weight > 25 {
		kg, lb := fmt.Sprintf("%.0f kg", l.Weight), fmt.Sprintf("%.0f lb", l.Weight/unit.Pound.Kg())
		if p.Units == unit.Inches {
			kg, lb = lb, kg
		}
		t.Caution = fmt.Sprintf("The load is about %s (%s): heavy things low, strapped; push, do not pull, downhill.", kg, lb)
	}
	return t
}

// unparted checks that nothing must come between a task and the one that follows it at once.
func (g *project) unparted() error {
	ahead := g.net.ahead()
	for _, job := range g.net {
		if !job.AtOnce {
			continue
		}
		first := job.After[0]
		for _, a := range job.After[1:] {
			if ahead[a][first] {
				return fault.List{{At: g.tasks[a].At, Text: fmt.Sprintf("%s cannot come between %s and %s", g.net[a].Name, g.net[first].Name, job.Name),
					Hint: "nobody lets go of a tent before its weights are on: do it before or after"}}
			}
		}
	}
	return nil
}

// minutes sets how long each job takes: what practice says, else the mean of the scene's least, usual and most, else
// what is usual.
func (g *project) minutes(log TimesLog) {
	g.measured, g.variance = make([]bool, len(g.net)), make([]float64, len(g.net))
	for j, t := range g.tasks {
		usual := float64(t.Minutes)
		mean := usual
		g.variance[j] = float64(unsure * usual * unsure * usual)
		if t.Least > 0 && t.Most > 0 {
			mean, g.variance[j] = Mean(float64(t.Least), usual, float64(t.Most)), Variance(float64(t.Least), float64(t.Most))
		}
		planned := int(math.Round(mean))
		if took, v, n := log.of(g.which.Logged(t.ID)); n > 0 {
			g.measured[j], mean, g.variance[j] = true, took, v
			g.learnt = append(g.learnt, Learnt{Step: g.which.Logged(t.ID), Name: t.Name, Planned: planned, Took: math.Round(took*100) / 100, Times: n})
		}
		g.net[j].Minutes = int(math.Ceil(mean - 0.5))
		if mean > 0 {
			g.net[j].Minutes = max(1, g.net[j].Minutes)
		}
	}
}

// trip is the ID of the step that fetches a load of that number.
const trip = "trip/%d"

// steps are the jobs in the order of their start, with what stands after each.
func (g *project) steps(start []int, times []Times, stands []Stand) []Step {
	order := make([]int, len(g.net))
	for j := range order {
		order[j] = j
	}
	topological, _ := g.net.Order() // the project has no loop
	rank := make([]int, len(g.net))
	for k, j := range topological {
		rank[j] = k
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(start[a], start[b]), cmp.Compare(rank[a], rank[b])) })
	number := make([]int, len(g.net))
	for k, j := range order {
		number[j] = k + 1
	}
	var out []Step
	for k, j := range order {
		t := g.tasks[j]
		s := Step{
			Number: k + 1, ID: t.ID, Name: t.Name, Start: start[j], End: start[j] + g.net[j].Minutes,
			Earliest: times[j].EarliestStart, Latest: times[j].LatestStart, Slack: times[j].Slack(), Measured: g.measured[j], Lacks: g.lacks[j], After: []int{}, How: append([]string{}, t.Steps...), Fetch: g.fetch(j),
			Check: t.Check, Caution: t.Caution, Place: t.Place, Parts: t.Parts, Hooks: t.Hooks, AtOnce: t.AtOnce, Deed: t.Deed, About: t.About, people: make([]int, g.net[j].Need[0]),
		}
		for _, a := range g.net[j].After {
			s.After = append(s.After, number[a])
		}
		slices.Sort(s.After)
		fmt.Sscanf(string(t.ID), trip, &s.Load)
		stands = stand(stands, t, g.which == SetUp)
		s.Shows = stands
		out = append(out, s)
	}
	return out
}

// stand is what stands after a task. Taking down, what it leaves lower stands, and its other parts are gone.
func stand(before []Stand, t booth.Task, up bool) []Stand {
	moved := map[booth.ID]bool{}
	for _, id := range t.Parts {
		moved[id] = true
	}
	after := slices.DeleteFunc(slices.Clone(before), func(s Stand) bool { return moved[s.Part] })
	if up || t.Low > 0 {
		for _, id := range t.Parts {
			after = append(after, Stand{id, t.Low})
		}
	}
	return after
}

// fetch is what job j needs, with the loads that bring it.
func (g *project) fetch(j int) []Fetch {
	out := []Fetch{}
	for _, c := range g.tasks[j].Fetch {
		f := Fetch{What: c.What, Count: c.Count, Loads: []int{}}
		for _, l := range g.loads {
			if slices.ContainsFunc(l.Items, func(i Carried) bool { return i.What == c.What }) {
				f.Loads = append(f.Loads, l.Number)
			}
		}
		out = append(out, f)
	}
	return out
}

// decisive is the expected minutes and their variance of the jobs that make the schedule as long as it is: from the last
// one back, always to one that ends when it begins and that it waits for, or else that had its people.
func (g *project) decisive(start []int) (mean, variance float64) {
	end := func(j int) int { return start[j] + g.net[j].Minutes }
	at := 0
	for j := range g.net {
		if end(j) > end(at) {
			at = j
		}
	}
	ahead := g.net.ahead()
	for {
		mean, variance = mean+float64(g.net[at].Minutes), variance+g.variance[at]
		next := -1
		for j := range g.net {
			if end(j) == start[at] && g.net[j].Minutes > 0 && (next < 0 || ahead[at][j]) {
				next = j
			}
		}
		if next < 0 {
			return mean + float64(start[at]), variance
		}
		at = next
	}
}

// morning is the work of hanging again what the night's list took away: hands times minutes of the set-up's tasks whose
// parts are gone.
func (g *project) morning(p *booth.Plan) int {
	var gone []booth.ID
	for _, t := range g.tasks {
		gone = append(gone, t.Parts...)
	}
	work := 0
	for _, t := range p.SetUp.Tasks {
		if slices.ContainsFunc(t.Parts, func(id booth.ID) bool { return slices.Contains(gone, id) }) {
			work += t.Crew * int(t.Minutes)
		}
	}
	return work
}
