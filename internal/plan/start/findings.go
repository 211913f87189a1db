package start

import (
	"fmt"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/finding"
)

// List is the question whether the booth has everything that the list and the folder have.
var List = finding.Check{
	Name: "list", Doc: "Every row of the list of works and every photograph of the folder is in the first scene.",
	Source: "the list and the folder themselves",
}

// told is how many of many are named.
const told = 4

// Findings is what was left out of the first scene, or decided for want of a word: a booth that lacks works of its list is
// not ready.
func (d *Draft) Findings() []finding.Finding {
	var out []finding.Finding
	say := func(level finding.Level, message string) {
		f := finding.Finding{Check: List.Name, Level: level, Item: "works", Source: List.Source, Message: strings.TrimSuffix(message, ".")}
		if d.Sheet != nil {
			f.At = d.Sheet.Name
		}
		out = append(out, f)
	}
	some := func(level finding.Level, items []string, one, many, then string) {
		if n := len(items); n > 0 {
			what := one
			if n > 1 {
				what = fmt.Sprintf(many, n)
			}
			if n > told {
				items = append(items[:told-1:told-1], fmt.Sprintf("%d others", n-told+1))
			}
			say(level, what+": "+unit.List(items, "and")+". "+then)
		}
	}
	left := map[Kind][]string{}
	for _, l := range d.Left {
		left[l.Kind] = append(left[l.Kind], fmt.Sprintf("row %d (%s)", l.Row, l.What))
	}
	some(finding.Fail, left[Unread], "One row of the list cannot be read, so its work is missing", "%d rows of the list cannot be read, so their works are missing", "Mend the list and start again in a new folder, or write the works into the scene")
	some(finding.Fail, left[Unsized], "One work has no size that can be right, so it is missing", "%d works have no size that can be right, so they are missing", "Measure them and write height and width into the list")
	some(finding.Fail, left[NoRoom], "There is no room for one work", "There is no room for %d works", "Mark those that stay at home as spare in the list, or give the booth another wall")
	some(finding.Caution, left[Standing], "One row is not for a wall", "%d rows are not for a wall", "Give them a pedestal, a bin or a table in the scene")
	some(finding.Caution, d.Lonely, "One photograph belongs to no row of the list", "%d photographs belong to no row of the list", "Name the file in the work's row")
	some(finding.Caution, d.Unpictured, "One work has no photograph and hangs as a plain surface", "%d works have no photograph and hang as plain surfaces", "Put a photograph with the work's name into the folder")
	some(finding.Caution, d.Unusable, "One file cannot be used", "%d files cannot be used", "Save it as a JPEG or PNG")
	if d.Sheet != nil {
		var doubts []string
		for _, r := range d.Sheet.Doubts {
			doubts = append(doubts, fmt.Sprintf("row %d (%s): %s", r.Number, r.What, r.Why))
		}
		some(finding.Caution, doubts, "Of one row something is left out", "Of %d rows something is left out", "Mend it in the list")
		for _, n := range d.Sheet.Notes {
			say(finding.Caution, n)
		}
	}
	for _, n := range d.Notes {
		say(finding.Caution, n)
	}
	return out
}
