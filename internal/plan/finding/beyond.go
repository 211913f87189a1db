package finding

import "boothmock/internal/plan/booth"

// Key is what two findings have in common that are one and the same, whatever the numbers in them are.
type Key struct {
	Check      string
	Level      Level
	Item, With booth.ID
	View       string
}

// Key is that of the finding.
func (f Finding) Key() Key { return Key{f.Check, f.Level, f.Item, f.With, f.View} }

// Known are findings by their keys, each as often as it was found.
type Known map[Key]int

// KnownOf are the findings of a list.
func KnownOf(list []Finding) Known {
	k := Known{}
	for _, f := range list {
		k[f.Key()]++
	}
	return k
}

// Take is whether a finding is among those that are known; it is used up by that.
func (k Known) Take(f Finding) bool {
	if k[f.Key()] == 0 {
		return false
	}
	k[f.Key()]--
	return true
}

// Beyond are the findings of one list that another does not have.
func Beyond(of, not []Finding) []Finding {
	out, known := []Finding{}, KnownOf(not)
	for _, f := range of {
		if !known.Take(f) {
			out = append(out, f)
		}
	}
	return out
}
