package start

import (
	"fmt"
	"strings"

	"boothmock/internal/plan/finding"
	"boothmock/internal/props/stocklist"
)

// Folder is the question whether the first scene has everything that the folder has.
var Folder = finding.Check{
	Name: "folder", Doc: "Every photograph of the folder is in the first scene, and nothing was left out of the list or decided for want of a word.",
	Source: "the list and the folder themselves",
}

// Findings is what was left out of the first scene, or decided for want of a word. Works of the list that it lacks are told
// by the checks, whoever asks them: the scene says that it is to have all.
func (d *Draft) Findings() []finding.Finding {
	var out []finding.Finding
	say := func(message string) {
		f := finding.Finding{Check: Folder.Name, Level: finding.Caution, Item: "works", Source: Folder.Source, Message: strings.TrimSuffix(message, ".")}
		if d.Sheet != nil {
			f.At = d.Sheet.Name
		}
		out = append(out, f)
	}
	some := func(items []string, one, many, then string) {
		if len(items) > 0 {
			say(finding.Several(items, one, many, then))
		}
	}
	var standing []string
	for _, l := range d.Left {
		if l.Kind == Standing {
			standing = append(standing, fmt.Sprintf("%s (%s)", stocklist.Where(l.Row, l.At), l.What))
		}
	}
	some(standing, "One row is not for a wall", "%d rows are not for a wall", "Give them a pedestal, a bin or a table in the scene")
	some(d.Lonely, "One photograph belongs to no row of the list", "%d photographs belong to no row of the list", "Name the file in the work's row")
	some(d.Unpictured, "One work has no photograph and hangs as a plain surface", "%d works have no photograph and hang as plain surfaces", "Put a photograph with the work's name into the folder")
	some(d.Unusable, "One file cannot be used", "%d files cannot be used", "Save it as a JPEG or PNG")
	if d.Sheet != nil {
		var doubts []string
		for _, r := range d.Sheet.Doubts {
			doubts = append(doubts, fmt.Sprintf("%s (%s): %s", stocklist.Where(r.Number, r.At), r.What, r.Why))
		}
		some(doubts, "Of one row something is left out", "Of %d rows something is left out", "Mend it in the list")
		for _, n := range d.Sheet.Notes {
			say(n)
		}
	}
	for _, n := range d.Notes {
		say(n)
	}
	return out
}
