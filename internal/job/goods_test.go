package job_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/find/order"
	"boothmock/internal/job"
)

// Hardware, tools and the scene's own list are each carried once, in the number that the lists say, with spares; what a task
// fetches by its own name is fetched; and no step needs what comes with a later trip than the last before it.
func TestEverythingIsInOneLoad(t *testing.T) {
	for _, scene := range []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"} {
		p, err := job.Load("../../scenes/"+scene, job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		m, err := job.New(p)
		if err != nil {
			t.Fatal(err)
		}
		r, sheet := m.SetUp(), m.Sheet()
		carried := map[string]int{}
		for _, l := range r.Loads {
			for _, i := range l.Items {
				carried[i.What] += i.Count
			}
		}
		for _, i := range slices.Concat(sheet.Hardware, sheet.Kit) {
			if n, byName := carried[i.What]; byName && n != i.Need+i.Spare {
				t.Errorf("%s: %d of %q are carried, want %d", scene, n, i.What, i.Need+i.Spare)
			} else if !byName && !known(i.What) {
				t.Errorf("%s: %q is in no load", scene, i.What)
			}
		}
		panels := 0
		for what, n := range carried {
			if strings.HasPrefix(what, "mesh panels") || strings.HasPrefix(what, "panels") {
				panels += n
			}
		}
		for _, i := range sheet.Kit {
			if strings.HasPrefix(i.What, "mesh panels") || strings.HasPrefix(i.What, "panels") {
				panels -= i.Need
			}
		}
		if panels != 0 {
			t.Errorf("%s: loads and packing list are %d panels apart", scene, panels)
		}
		inTime(t, scene, r)
	}
}

// known reports whether a line of the packing list is what tasks fetch under names of their own, or what people have on them.
func known(what string) bool {
	if strings.HasPrefix(what, "rain") {
		return false
	}
	for _, part := range []string{"tent", "panels", "rail", "chains", "bare frame", "pipes of", "cloth of", "works, wrapped", "table", "pedestal", "bin", "this pack", "papers", "banner", "sign"} {
		if strings.Contains(what, part) {
			return true
		}
	}
	return false
}

// inTime checks that what a step needs has come before it begins.
func inTime(t *testing.T, scene string, r order.Rehearsal) {
	t.Helper()
	came := map[string]int{}
	for _, s := range r.Steps {
		came[string(s.ID)] = s.End
	}
	for _, s := range r.Steps {
		for _, f := range s.Fetch {
			for _, l := range f.Loads {
				if came[fmt.Sprint("trip/", l)] > s.Start {
					t.Errorf("%s: step %d needs %s at %d, and load %d comes at %d", scene, s.Number, f.What, s.Start, l, came[fmt.Sprint("trip/", l)])
				}
			}
		}
	}
}
