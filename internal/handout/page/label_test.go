package page

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// Of walls from 60 cm to 12 m with 1 to 60 works, each on one or two hooks anywhere, every measure is written in the drawing,
// none is cut off at its edge, and none lies on another. The boxes are those of the widest of the usual typefaces; a drawing is
// scaled as a whole, so they hold at every size of the screen.
func TestNoMeasureIsCutOrLiesOnAnother(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := 1; n <= 60; n++ {
		e := &elevation{Wide: 60 + r.Float64()*1140, High: 190 + r.Float64()*120}
		e.Size = letters(e.Wide, e.High)
		for range n {
			x, y := r.Float64()*e.Wide, 10+r.Float64()*(e.High-60)
			at := func(x float64) mark {
				return mark{At: x, High: y, FromLeft: fmt.Sprintf("%.0f 11/16 in", x/2.54), Up: fmt.Sprintf("%.0f 3/16 in", (e.High-y)/2.54)}
			}
			marks := []mark{at(x)}
			if x2 := x + r.Float64()*40; x2 <= e.Wide && r.IntN(2) == 0 {
				marks = append(marks, at(x2))
			}
			labels := e.place(marks)
			if len(labels) != 2*len(marks) {
				t.Errorf("%d measures of %d hooks are written", len(labels), len(marks))
			}
			for i, l := range labels {
				b := l.box(e.Size)
				if !b.within(e.frame()) {
					t.Errorf("%q at %+v is outside of %+v", l.Text, b, e.frame())
				}
				for _, o := range labels[:i] {
					if b.meets(o.box(e.Size)) {
						t.Errorf("%q lies on %q", l.Text, o.Text)
					}
				}
			}
		}
	}
}
