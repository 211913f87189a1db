// Package compare says how two plans of a booth differ: what was added, taken away, moved, turned or resized, what is found of
// one and not of the other, how much is seen of each work, and what both come to in ways, hooks, minutes, weight and money.
// Things are known by their IDs, so a work that is called alike in both scenes is one work.
package compare

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Side is one of the two plans with what its readers say.
type Side struct {
	Plan   *booth.Plan
	Report finding.Report
	Checks check.Result
	Sheet  hang.Sheet
	SetUp  order.Rehearsal
}

// Result is how the second plan differs from the first.
type Result struct {
	Same     bool              `json:"same"` // nothing below differs
	Scenes   [2]string         `json:"scenes"`
	Verdicts [2]string         `json:"verdict_lines"`
	Things   []Thing           `json:"things"`          // that differ
	Gone     []finding.Finding `json:"findings_gone"`   // of the first plan only
	New      []finding.Finding `json:"findings_new"`    // of the second only
	Seen     []Seen            `json:"seen"`            // of each work that is in either
	Average  [2]float64        `json:"seen_on_average"` // of the works that each plan has; 0 without works
	Totals   []Total           `json:"totals"`
}

// Thing is a thing that is not the same in both plans.
type Thing struct {
	ID    booth.ID `json:"id"`
	Name  string   `json:"name"`
	What  What     `json:"what"`
	Words string   `json:"words"` // the rest of a sentence that begins with the name
}

// What can have happened to a thing.
type What string

const (
	Added   What = "added"
	Removed What = "removed"
	Moved   What = "moved"
	Turned  What = "turned"
	Resized What = "resized"
	Changed What = "changed" // in what is said of it: its price, its weight
)

// Seen is what passers-by see of a work, as a share of it from 0 to 1, on average over the views of people who pass; nil where
// the plan does not have it on view.
type Seen struct {
	ID     booth.ID    `json:"id"`
	Title  string      `json:"title"`
	Shares [2]*float64 `json:"shares"`
}

// Total is what a plan comes to in one regard. Values are metres, minutes, kilograms, hundredths of the currency or a count;
// nil where there is none.
type Total struct {
	Name   string      `json:"name"`
	Values [2]*float64 `json:"values"`
	Words  [2]string   `json:"words"`
}

// Of compares two plans.
func Of(a, b Side) Result {
	r := Result{
		Scenes: [2]string{a.Plan.File, b.Plan.File}, Verdicts: [2]string{a.Report.Line, b.Report.Line},
		Things: things(a.Plan, b.Plan), Gone: finding.Beyond(a.Report.Findings, b.Report.Findings), New: finding.Beyond(b.Report.Findings, a.Report.Findings), Totals: totals(a, b),
	}
	r.Seen, r.Average = seen(a, b)
	r.Same = len(r.Things)+len(r.Gone)+len(r.New) == 0 && r.Verdicts[0] == r.Verdicts[1]
	for _, t := range r.Totals {
		r.Same = r.Same && t.Words[0] == t.Words[1]
	}
	return r
}

// seen is what passers-by see of each work.
func seen(a, b Side) (out []Seen, average [2]float64) {
	shares := [2]map[booth.ID]float64{passing(a), passing(b)}
	out = []Seen{}
	at := map[booth.ID]int{}
	for n, s := range []Side{a, b} {
		total, faces := 0.0, 0
		for i := range s.Plan.Parts {
			p := &s.Plan.Parts[i]
			if p.Work == nil {
				continue
			}
			v := shares[n][p.ID]
			total, faces = total+v, faces+1
			k, known := at[p.ID]
			if !known {
				k = len(out)
				at[p.ID] = k
				out = append(out, Seen{ID: p.ID, Title: p.Name})
			}
			out[k].Shares[n] = &v
		}
		if faces > 0 {
			average[n] = total / float64(faces)
		}
	}
	return out, average
}

// passing is the mean over the views of people who pass of the share that the usual visitor sees of each work.
func passing(s Side) map[booth.ID]float64 {
	views := map[string]bool{}
	for _, v := range s.Plan.Views {
		if v.Passing {
			views[v.Name] = true
		}
	}
	out := map[booth.ID]float64{}
	for _, l := range s.Checks.Sightlines {
		if views[l.From] && l.Eye == s.Plan.Eyes[0].Name && l.Turned > 0 {
			out[l.Work] += l.Visible / float64(len(views))
		}
	}
	return out
}

// totals are what both plans come to.
func totals(a, b Side) []Total {
	out := []Total{}
	add := func(name string, of func(Side) (float64, bool), words func(Side, float64) string) {
		t := Total{Name: name}
		for n, s := range []Side{a, b} {
			v, ok := of(s)
			t.Words[n] = "-"
			if ok {
				t.Values[n], t.Words[n] = &v, words(s, v)
			}
		}
		out = append(out, t)
	}
	sys := b.Plan.Units // of both, so that what is alike reads alike
	length := func(_ Side, v float64) string { return unit.Length(v).Format(sys) }
	counted := func(_ Side, v float64) string { return whole(v) }
	add("works on view", func(s Side) (float64, bool) { return float64(s.Plan.Works()), true }, counted)
	add("works that wait", func(s Side) (float64, bool) { return float64(len(s.Plan.Waiting)), true }, counted)
	add("way in", func(s Side) (float64, bool) {
		if c := s.Checks.Clearances; len(c) > 0 && c[0].Width != nil {
			return *c[0].Width, true
		}
		return 0, false
	}, length)
	add("circle to turn in", func(s Side) (float64, bool) {
		if s.Checks.Circle == nil {
			return 0, false
		}
		return s.Checks.Circle.Diameter, true
	}, length)
	add("hooks", func(s Side) (float64, bool) { return hooks(s.Plan), true }, counted)
	add("set-up", func(s Side) (float64, bool) { return float64(s.SetUp.Length), true }, func(_ Side, v float64) string { return unit.Minutes(v).Format() })
	add("weight that is stated", func(s Side) (float64, bool) {
		kg := 0.0
		for _, w := range s.Sheet.Weights {
			kg += w.Known
		}
		return kg, true
	}, func(_ Side, v float64) string { return unit.Weight(v).Format(sys) })
	add("money on the walls", func(s Side) (float64, bool) { return money(s.Plan), true }, func(s Side, v float64) string { return unit.Money(v).Format(s.Plan.Currency) })
	return out
}

func hooks(p *booth.Plan) (n float64) {
	for i := range p.Parts {
		if w := p.Parts[i].Work; w != nil && w.Hung != nil {
			n += float64(len(w.Hung.Hooks))
		}
	}
	return n
}

// money is what all works that hang and can be bought cost together.
func money(p *booth.Plan) (hundredths float64) {
	for _, l := range p.Catalogue() {
		if w := l.Work; w.Hung != nil && !w.Sold && w.Status == "" {
			hundredths += float64(w.Price)
		}
	}
	return hundredths
}
