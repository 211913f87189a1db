package order

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
)

// Summary is the rehearsal in two or three sentences: how long, how close to the best, and the time to spare.
func (r Rehearsal) Summary() string {
	time := func(m int) string { return unit.Minutes(m).Format() }
	who := people(len(r.People))
	text := fmt.Sprintf("%d steps, %s, %s.", len(r.Steps), who, time(r.Length))
	switch gap := r.Length - r.Bound; {
	case gap == 0:
		text += " No order of these steps is shorter for so many hands."
	default:
		text += fmt.Sprintf(" No order of these steps for so many hands is shorter than %s: at most %s could still be saved.", time(r.Bound), time(gap))
	}
	text += fmt.Sprintf(" With any number of hands: %s.", time(r.Chain))
	if r.Time > 0 && r.Length <= r.Time {
		text += fmt.Sprintf(" That leaves %s before the gates open; with the usual luck and bad luck of each step, being in time is %s.", time(r.Time-r.Length), odds(r.Chance))
	}
	if r.Which == Night && r.Morning > 0 {
		text += fmt.Sprintf(" In the morning, hanging it all again is %s of work, shared by those who are there.", time(r.Morning))
	}
	return text
}

// odds is a chance in words.
func odds(p float64) string {
	switch {
	case p >= 0.995:
		return "almost sure"
	case p < 0.005:
		return "hardly possible"
	}
	return fmt.Sprintf("%.0f %% sure", 100*p)
}

// Words is the thing and how many of it.
func (f Fetch) Words() string { return counted(f.Count, f.What) }

// Hands are the people who do the step, and how many more it takes than there are.
func (s Step) Hands(between string) string {
	who := s.Who
	if s.Lacks > 0 {
		who = append(who[:len(who):len(who)], fmt.Sprintf("%d more", s.Lacks))
	}
	return strings.Join(who, between)
}

// Needs is what the step needs and the loads that bring it, in words; empty for nothing.
func (s Step) Needs() string {
	var out []string
	for i, f := range s.Fetch {
		text := f.Words()
		if i+1 == len(s.Fetch) || !slices.Equal(f.Loads, s.Fetch[i+1].Loads) { // once for all that come together
			text += loadWords(f.Loads)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func loadWords(loads []int) string {
	var numbers []string
	for _, l := range loads {
		numbers = append(numbers, fmt.Sprint(l))
	}
	switch len(loads) {
	case 0:
		return ""
	case 1:
		return " (load " + numbers[0] + ")"
	}
	return " (loads " + unit.List(numbers, "and") + ")"
}

// Words are the things of a load.
func (l Load) Words() []string {
	var out []string
	for _, i := range l.Items {
		out = append(out, i.Words())
	}
	return out
}

// Heavy is the weight of a load in words: "~61 kg" where some of it is a usual weight.
func (l Load) Heavy(sys unit.System) string {
	about := ""
	if l.Assumed {
		about = "~"
	}
	kg := fmt.Sprintf("%s%.0f kg", about, l.Weight)
	if sys == unit.Centimetres {
		return kg
	}
	return fmt.Sprintf("%s%.0f lb", about, l.Weight/unit.Pound.Kg())
}
