package hang

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Holding is the question whether hooks hold every work where the scene puts it.
var Holding = finding.Check{
	Name:   "hold",
	Doc:    "Hooks hold every work where the scene puts it; where they let it hang elsewhere, it is shown there.",
	Source: "plain statics: a work hangs with its middle below its hook, or below the middle between two; the level tolerance is common practice, no source",
}

// holding is what there is to say of works that hang elsewhere than the scene puts them, or by nothing.
func (s Sheet) holding(p *booth.Plan) (out []finding.Finding) {
	for _, w := range s.Walls {
		wall := p.Part(w.ID)
		if w.Hold == booth.None && len(w.Works) > 0 { // all its works are reported together
			var names []string
			for _, k := range w.Works {
				names = append(names, k.Title)
			}
			out = append(out, finding.Finding{
				Check: Holding.Name, Level: finding.Fail, Item: w.ID, At: wall.At.String(), Steps: wallSteps(p, w.ID), Source: Holding.Source,
				Message: fmt.Sprintf("%s holds no hook, but it is to carry %s: %s", unit.Capital(w.Name), unit.List(names, "and"), bare),
			})
			continue
		}
		for _, k := range w.Works {
			f := finding.Finding{Check: Holding.Name, Item: k.ID, At: placeOf(p.Part(k.ID)), Steps: wallSteps(p, w.ID), Source: Holding.Source}
			switch {
			case !k.Held:
				f.Level, f.Message = finding.Fail, k.Title+" "+k.Problem
			case k.Problem != "":
				title := k.Title
				if w := p.Part(k.ID).Work; w.Part == 1 {
					title = w.Whole.Work.Title
				}
				f.Level, f.Message = finding.Caution, title+" "+k.Problem
				f.Figure = &finding.Figure{Measured: math.Hypot(k.Moved, k.Raised), Limit: s.Tolerance, Unit: finding.Metres}
			case k.Below < -hair:
				f.Level = finding.Caution
				f.Message = fmt.Sprintf("The wire of %s is so long that its hook shows %s above the upper edge: shorten it", k.Title, s.full(-k.Below))
				f.Figure = &finding.Figure{Measured: k.Below, Unit: finding.Metres}
			default:
				continue
			}
			out = append(out, f)
		}
	}
	return out
}

// placeOf is where the scene says how a work hangs.
func placeOf(work *booth.Part) string {
	if h := work.Work.Hung; h != nil && h.At != (fault.Place{}) {
		return h.At.String()
	}
	return work.At.String()
}

// wallSteps is the step of the set-up at which somebody must know about a wall's hooks: when they are set, or without any
// when its works are hung.
func wallSteps(p *booth.Plan, wall booth.ID) []booth.ID {
	name, _ := strings.CutPrefix(string(wall), "wall/")
	for _, id := range []booth.ID{booth.ID("hooks/" + name), booth.ID("works/" + name)} {
		if slices.ContainsFunc(p.SetUp.Tasks, func(t booth.Task) bool { return t.ID == id }) {
			return []booth.ID{"set-up/" + id}
		}
	}
	return nil
}
