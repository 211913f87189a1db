package order

import (
	"fmt"
	"strings"
	"time"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// The questions that rehearsals answer with findings.
var (
	hands = finding.Check{
		Name: "hands", Doc: "Every step of setting up, taking down and the night has the people that it takes.",
		Source: "common practice, no source: the people that a step takes are the scene's own or usual ones",
	}
	inTime = finding.Check{
		Name: "time", Doc: "The set-up is done before the gates open, by the scene's own people.",
		Source: "the scene's own time; minutes of steps are the scene's own, measured ones, or usual ones without a source",
	}
	carried = finding.Check{
		Name: "carried", Doc: "Nothing is heavier than the trolley carries.",
		Source: "the scene's own trolley, or a usual one of 150 lb: common practice, no source",
	}
)

// Checks are the questions that rehearsals answer, in the order in which people read about them.
var Checks = []finding.Check{hands, inTime, carried}

// even is the chance of being in time below which it is worth a change: more likely late than not.
const even = 0.5

// Findings is what stands against doing these lists of a booth as they are.
func Findings(p *booth.Plan, lists ...Rehearsal) []finding.Finding {
	out := lacking(p, lists)
	for _, r := range lists {
		out = append(out, r.asked(p)...)
		out = append(out, r.late(p)...)
		if r.Which != SetUp {
			continue // the strike carries the same
		}
		for _, l := range r.Loads {
			if l.Over {
				out = append(out, finding.Finding{
					Check: carried.Name, Level: finding.Caution, Item: "set-up", At: p.SetUp.At.String(), Source: carried.Source,
					Figure:  &finding.Figure{Measured: l.Weight, Limit: r.Trolley, Unit: finding.Kilograms},
					Message: fmt.Sprintf("%s is more than the trolley carries: two people carry it by hand, or borrow a cart", unit.Capital(l.Items[0].What)),
				})
			}
		}
	}
	return out
}

// asked is what stands against the times that the fair's rule sheet asks for: when to come on the first day, and when it must be
// quiet. Times are minutes since midnight.
func (r Rehearsal) asked(p *booth.Plan) (out []finding.Finding) {
	if p.Fair == nil {
		return nil
	}
	minute := func(t time.Time) int { return 60*t.Hour() + t.Minute() }
	first, last := p.Fair.Days[0], p.Fair.Days[len(p.Fair.Days)-1]
	begin, end := minute(first.From)-max(r.Time, r.Length), minute(last.To)+r.Length
	for _, a := range p.Rules.Asks() {
		say := func(level finding.Level, measured, limit int, text string, with ...any) {
			out = append(out, finding.Finding{
				Check: inTime.Name, Level: level, Item: "rules", At: a.At.String(), Source: "the fair's rule sheet, in its own words",
				Figure:  &finding.Figure{Measured: float64(measured), Limit: float64(limit), Unit: finding.Minutes},
				Message: fmt.Sprintf("The fair asks “%s”; ", strings.TrimRight(a.Says, ". ")) + fmt.Sprintf(text, with...),
			})
		}
		late := minute(first.From) - r.Length // when to begin at the latest
		switch {
		case r.Which == SetUp && a.Arrive != nil && late < a.Arrive.From:
			say(finding.Fail, r.Length, minute(first.From)-a.Arrive.From, "from %s to the gates there are %s, and the set-up takes %s", unit.Clock(a.Arrive.From), unit.Minutes(minute(first.From)-a.Arrive.From).Format(), unit.Minutes(r.Length).Format())
		case r.Which == SetUp && a.Arrive != nil && (begin < a.Arrive.From || begin > a.Arrive.To):
			say(finding.Caution, begin, a.Arrive.To, "by the scene you begin at %s: be there by %s at the latest", unit.Clock(max(0, begin)), unit.Clock(min(late, a.Arrive.To)))
		case r.Which == SetUp && a.Quiet != nil && a.Quiet.From > a.Quiet.To && begin < a.Quiet.To:
			say(finding.Caution, begin, a.Quiet.To, "by the scene you begin to set up at %s", unit.Clock(max(0, begin)))
		case r.Which == Strike && a.Quiet != nil && end > a.Quiet.From && a.Quiet.From > minute(last.From):
			say(finding.Caution, end, a.Quiet.From, "taking down lasts until %s", unit.Clock(end%(24*60)))
		}
	}
	return out
}

// lacking is one finding about all steps that take more people than there are.
func lacking(p *booth.Plan, lists []Rehearsal) []finding.Finding {
	most, there := 0, 0
	var where []string
	for _, r := range lists {
		var names []string
		minutes := 0
		for _, s := range r.Steps {
			if s.Lacks > 0 {
				most = max(most, s.Lacks)
				names = append(names, string(s.ID))
				minutes += s.Minutes()
			}
		}
		if len(names) > 0 {
			there = len(r.People)
			where = append(where, fmt.Sprintf("%s for %s (%s)", unit.Minutes(minutes).Format(), r.doing(), unit.List(names, "and")))
		}
	}
	if most == 0 {
		return nil
	}
	return []finding.Finding{{
		Check: hands.Name, Level: finding.Fail, Item: "set-up", At: p.SetUp.At.String(), Source: hands.Source,
		Figure:  &finding.Figure{Measured: float64(there), Limit: float64(there + most), Unit: finding.Count},
		Message: fmt.Sprintf("%s cannot do it all: %s more wanted, %s. Ask a neighbour before you begin, and write who helps under set-up", unit.Capital(people(there)), people(most), unit.List(where, "and")),
	}}
}

// late is what there is to say about the time before the gates open.
func (r Rehearsal) late(p *booth.Plan) []finding.Finding {
	f := finding.Finding{
		Check: inTime.Name, Item: "set-up", At: p.SetUp.At.String(), Source: inTime.Source,
		Figure: &finding.Figure{Measured: float64(r.Length), Limit: float64(r.Time), Unit: finding.Minutes},
	}
	time := func(m int) string { return unit.Minutes(m).Format() }
	switch {
	case r.Time == 0:
		return nil
	case r.Length > r.Time:
		f.Level = finding.Fail
		f.Message = fmt.Sprintf("There is not enough time: the last step ends after %s, and the gates open after %s", time(r.Length), time(r.Time))
		switch {
		case r.Chain > r.Time:
			f.Message += fmt.Sprintf(". More hands do not help: steps that wait for each other take %s", time(r.Chain))
		case r.Bound > r.Time:
			f.Message += fmt.Sprintf(". No other order helps: for %s it takes %s at least", people(len(r.People)), time(r.Bound))
		}
		helps := []string{fmt.Sprintf("come %s earlier", time(r.Length-r.Time))}
		for _, m := range r.mends {
			helps = append(helps, fmt.Sprintf("%s (then it takes %s)", m.what, time(m.minutes)))
		}
		f.Message += ". What helps: " + unit.List(helps, "or")
	case r.Chance < even:
		f.Level = finding.Caution
		f.Message = fmt.Sprintf("The set-up takes %s of the %s before the gates open; with the usual bad luck, being in time is only %s", time(r.Length), time(r.Time), odds(r.Chance))
	default:
		return nil
	}
	return []finding.Finding{f}
}

// doing is what people do by the list.
func (r Rehearsal) doing() string {
	return map[Which]string{SetUp: "setting up", Strike: "taking down", Night: "the night"}[r.Which]
}
