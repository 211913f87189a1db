package finding

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// Verdict is the one word for a booth: the gravest level among its findings. Notes pass.
type Verdict string

const (
	NotReady  Verdict = "fail"    // something must be mended
	ThinkOver Verdict = "caution" // nothing must be mended, something is worth a change
	Ready     Verdict = "pass"
)

// Report is everything that anybody has to say about a booth.
type Report struct {
	Scene    string    `json:"scene"`
	Verdict  Verdict   `json:"verdict"`
	Line     string    `json:"verdict_line"`         // the verdict as every output says it
	Gust     *float64  `json:"ready_up_to_gust_m_s"` // 0: in still air only; null where no wind moves the booth
	Findings []Finding `json:"findings"`             // the gravest first
}

// Gather makes the report on a booth of what its readers found, those of one level in the order in which they are given.
// gust is what the booth stands, as in Report.
func Gather(p *booth.Plan, gust *float64, found ...[]Finding) Report {
	r := Report{Scene: p.File, Verdict: Ready, Gust: gust, Findings: []Finding{}}
	for _, list := range found {
		r.Findings = append(r.Findings, few(list)...)
	}
	for i := range r.Findings {
		r.Findings[i].Message = unit.ProseAsIn(p.Currency, r.Findings[i].Message)
	}
	slices.SortStableFunc(r.Findings, func(a, b Finding) int { return cmp.Compare(rank(a.Level), rank(b.Level)) })
	words := "nothing to mend."
	switch fails, cautions := r.count(Fail), r.count(Caution); {
	case fails > 0:
		r.Verdict = NotReady
		words = fmt.Sprintf("%s to mend, %s to think over.", things(fails), things(cautions))
	case cautions > 0:
		r.Verdict = ThinkOver
		words = fmt.Sprintf("nothing to mend, %s to think over.", things(cautions))
	}
	for _, f := range r.Findings {
		if f.Open != "" && r.Verdict != NotReady {
			words = strings.TrimSuffix(words, ".") + "; " + f.Open + "."
		}
	}
	r.Line = unit.ProseAsIn(p.Currency, r.Head(p.Units)) + ": " + words
	return r
}

// few are the findings of one reader, of each check and level the worst.
func few(list []Finding) []Finding {
	type kind struct {
		check string
		level Level
	}
	tallies := map[kind]*Tally{}
	var order []kind
	for _, f := range list {
		k := kind{f.Check, f.Level}
		if tallies[k] == nil {
			tallies[k] = &Tally{}
			order = append(order, k)
		}
		tallies[k].Add(f, func() string { return f.Message })
	}
	var out []Finding
	for _, k := range order {
		out = append(out, tallies[k].Told()...)
	}
	return out
}

// Head is the beginning of the line: whether the booth is ready, and up to which gusts.
func (r Report) Head(sys unit.System) string {
	switch {
	case r.Verdict == NotReady:
		return "NOT READY"
	case r.Gust == nil:
		return "READY"
	case wind.Speed(*r.Gust).Below(sys) == wind.Speed(0).Below(sys):
		return "READY in still air only"
	}
	return "READY up to gusts of " + wind.Speed(*r.Gust).Below(sys)
}

// Of are the findings that must be known at a step, which is named with its list: "set-up/weights".
func (r Report) Of(step booth.ID) []Finding {
	var out []Finding
	for _, f := range r.Findings {
		if slices.Contains(f.Steps, step) {
			out = append(out, f)
		}
	}
	return out
}

// Mend are the findings that must be mended.
func (r Report) Mend() []Finding {
	for i, f := range r.Findings {
		if f.Level != Fail {
			return r.Findings[:i]
		}
	}
	return r.Findings
}

// count is how many findings of the level there are, those that are only counted included.
func (r Report) count(l Level) int {
	n := 0
	for _, f := range r.Findings {
		if f.Level == l {
			n += max(1, f.More)
		}
	}
	return n
}

func rank(l Level) int { return slices.Index([]Level{Fail, Caution, Note}, l) }

func things(n int) string {
	if n == 1 {
		return "1 thing"
	}
	return fmt.Sprintf("%d things", n)
}
