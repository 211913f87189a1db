package order

import (
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// mend is something that makes a set-up short enough, and how long it then takes.
type mend struct {
	what    string
	minutes int
}

// mends are the fewest further people with whom a set-up is in time, and what can be done the day before, each rehearsed like the set-up itself.
func mends(p *booth.Plan, o Options, was Rehearsal) (out []mend) {
	const most = 3 // people more: who finds further ones asks anyway
	try := func(what string, change func(*booth.SetUp)) bool {
		q := *p
		q.SetUp.Tasks = slices.Clone(p.SetUp.Tasks)
		change(&q.SetUp)
		q.SetUp.Time = 0 // its own mends are nobody's question
		r, err := Of(&q, o)
		if err != nil || r.Length > was.Time || slices.ContainsFunc(r.Steps, func(s Step) bool { return s.Lacks > 0 }) {
			return false
		}
		out = append(out, mend{what, r.Length})
		return true
	}
	for n := 1; n <= most && was.Chain <= was.Time; n++ {
		if try("find "+people(n)+" more", func(su *booth.SetUp) { su.People = len(was.People) + n }) {
			break
		}
	}
	var names []string
	stand := func(su *booth.SetUp, of func(*booth.Part) bool) {
		for i := range su.Tasks {
			t := &su.Tasks[i]
			if slices.ContainsFunc(t.Parts, func(id booth.ID) bool { part := p.Part(id); return part != nil && of(part) }) || t.AtOnce {
				t.Minutes, t.Least, t.Most, t.Fetch, t.Crew = 0, 0, 0, nil, min(t.Crew, len(was.People))
			}
		}
	}
	for _, k := range []struct {
		what string
		of   func(*booth.Part) bool
	}{
		{"the tent", func(part *booth.Part) bool { return part.Tent != nil || part.Kind == "tent" && part.Cloth == nil }},
		{"the walls and their cloth", func(part *booth.Part) bool { return part.Wall != nil || part.Cloth != nil }},
	} {
		if !slices.ContainsFunc(p.Parts, func(part booth.Part) bool { return k.of(&part) }) {
			continue
		}
		names = append(names, k.what)
		before := len(names)
		if try("put up "+unit.List(names, "and")+" the evening before, where the fair allows it", func(su *booth.SetUp) {
			stand(su, func(part *booth.Part) bool {
				return k.of(part) || before > 1 && part.Kind == "tent"
			})
		}) {
			break
		}
	}
	return out
}
