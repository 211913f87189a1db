package finding

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Most is how many findings of one check and level are told one by one: the worst. The rest are counted, so that what
// there is to say of thousands of works in one place is a page.
const Most = 24

// Tally is the findings of one check and level, of which the worst are kept. The zero value is empty.
type Tally struct {
	kept []ranked
	left int // how many are only counted
	seen int
}

type ranked struct {
	Finding
	worse  float64 // by how much it is on the wrong side of its limit
	number int     // in the order of reporting
}

// severity is by how much a finding is on the wrong side of its limit.
func severity(f Finding) float64 {
	if f.Figure == nil {
		return 0
	}
	return math.Abs(f.Measured - f.Limit)
}

// Add keeps the finding if it is among the worst; words makes its message, only if it is kept.
func (t *Tally) Add(f Finding, words func() string) {
	if f.More > 0 { // it stands for those that another tally has left out
		t.left += f.More
		return
	}
	r := ranked{f, severity(f), t.seen}
	t.seen++
	if len(t.kept) == Most {
		mildest := 0
		for i, k := range t.kept {
			if k.worse < t.kept[mildest].worse || k.worse == t.kept[mildest].worse && k.number > t.kept[mildest].number {
				mildest = i
			}
		}
		t.left++
		if r.worse <= t.kept[mildest].worse {
			return
		}
		t.kept = slices.Delete(t.kept, mildest, mildest+1)
	}
	r.Message = words()
	t.kept = append(t.kept, r)
}

// Told are the findings that are kept, in the order of reporting, and how many more there are.
func (t *Tally) Told() []Finding {
	slices.SortFunc(t.kept, func(a, b ranked) int { return cmp.Compare(a.number, b.number) })
	var out []Finding
	for _, r := range t.kept {
		out = append(out, r.Finding)
	}
	if t.left > 0 {
		out = append(out, Finding{
			Check: out[0].Check, Level: out[0].Level, Item: "pitch", At: out[0].At, Source: out[0].Source, More: t.left,
			Message: fmt.Sprintf("And %d more of the kind “%s”, none worse than those named", t.left, out[0].Check),
		})
	}
	return out
}
