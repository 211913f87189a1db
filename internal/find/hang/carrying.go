package hang

import (
	"fmt"
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Carrying is the question whether anything is loaded beyond what its maker says.
var Carrying = finding.Check{
	Name:   "loads",
	Doc:    "No hook, picture wire, wall or pipe of cloth carries more than the scene says that it holds.",
	Source: "plain statics: a wire at the angle a pulls with T = W / (2 sin a); the stated strengths are the makers' working loads",
}

// carrying is what is loaded beyond its stated strength. What is not stated is not judged, and that is said.
func (s Sheet) carrying(p *booth.Plan) (out []finding.Finding) {
	over := func(part *booth.Part, at string, steps []booth.ID, newtons, holds float64, format string, args ...any) {
		out = append(out, finding.Finding{
			Check: Carrying.Name, Level: finding.Fail, Item: part.ID, At: at, Steps: steps, Source: Carrying.Source, Message: fmt.Sprintf(format, args...),
			Figure: &finding.Figure{Measured: newtons / wind.Gravity, Limit: holds, Unit: finding.Kilograms},
		})
	}
	for _, w := range s.Walls {
		wall, steps := p.Part(w.ID), wallSteps(p, w.ID)
		for _, k := range w.Works {
			l, part := k.Load, p.Part(k.ID)
			if !k.Held {
				continue
			}
			if l.HookJudged == Over {
				over(part, placeOf(part), steps, *l.Hook, l.StatedHook, "%s puts %s on %s, which is stated to hold %s: %s", k.Title, s.force(*l.Hook), each(k), s.weight(l.StatedHook), stronger(w, k))
			}
			if l.WireJudged == Over {
				over(part, placeOf(part), steps, *l.Tension, l.StatedWire, "The wire of %s pulls with %s, and is stated to hold %s: %s", k.Title, s.force(*l.Tension), s.weight(l.StatedWire), s.longer(k))
			}
		}
		if l := w.Load; l.Judged == Over {
			over(wall, wall.At.String(), steps, l.Known*wind.Gravity, l.Stated, "%s carries works of %s%s, and is stated to hold %s: hang some of them elsewhere",
				unit.Capital(w.Name), s.weight(l.Known), andUnknown(l.Unstated), s.weight(l.Stated))
		}
	}
	for _, pipe := range s.Pipes {
		if pipe.Judged == Over {
			part := p.Part(pipe.ID)
			over(part, part.At.String(), nil, *pipe.Cloth*wind.Gravity, pipe.Stated, "The pipe of %s carries %s of cloth, and is stated to hold %s: take lighter or less full cloth, or a stronger pipe",
				pipe.Name, s.weight(*pipe.Cloth), s.weight(pipe.Stated))
		}
	}
	return append(out, s.unjudged(p)...)
}

// unjudged is what keeps anybody from saying whether hooks and wires carry the works: one finding, which the verdict's line speaks of too.
func (s Sheet) unjudged(p *booth.Plan) []finding.Finding {
	var weightless, missing []string
	var first *booth.Part
	hooks, wires := false, false
	for _, w := range s.Walls {
		for _, k := range w.Works {
			if !k.Held {
				continue
			}
			l, wired := k.Load, k.By == booth.Wire
			if l.Weight == 0 {
				weightless = append(weightless, k.Title)
			}
			hooks, wires = hooks || l.StatedHook == 0, wires || wired && l.StatedWire == 0
			if first == nil && (l.HookJudged == Unknown || wired && l.WireJudged == Unknown) {
				first = p.Part(k.ID)
			}
		}
	}
	if first == nil {
		return nil
	}
	if len(weightless) > 0 {
		missing = append(missing, "what "+finding.Names(weightless)+" weigh"+map[bool]string{true: "s"}[len(weightless) == 1]+" (weight)")
	}
	if hooks {
		missing = append(missing, "what a hook holds (hooks: hold)")
	}
	if wires {
		missing = append(missing, "what picture wire holds (hooks: wire holds)")
	}
	return []finding.Finding{{
		Check: Carrying.Name, Level: finding.Note, Item: first.ID, At: placeOf(first), Source: Carrying.Source, Open: "whether hooks and wires carry the works is not known",
		Message: "Whether hooks and wires carry the works is not known, as the scene does not state " + unit.List(missing, "and"),
	}}
}

// each is what carries a work.
func each(k Work) string {
	if len(k.Hooks) > 1 {
		return fmt.Sprintf("each of its %d hooks", len(k.Hooks))
	}
	return "its hook"
}

// stronger is what to do about a hook that carries too much.
func stronger(w Wall, k Work) string {
	if k.By == booth.Wire && len(k.Hooks) == 1 && w.Hold != booth.Chains {
		return "take a stronger one, or hang it on two (hooks: 2)"
	}
	if k.By == booth.Wire && len(k.Hooks) == 2 {
		return "take stronger ones, or a longer wire, which pulls them together less"
	}
	return "take a stronger kind"
}

// longer is what to do about a wire that is pulled too hard: a longer one is steeper, as long as the hook stays hidden.
func (s Sheet) longer(k Work) string {
	apart := 0.0
	if n := len(k.Hooks); n > 1 {
		apart = k.Hooks[n-1].X - k.Hooks[0].X
	}
	side := (k.Rings - apart) / 2 // level, from a ring to its hook
	least := *k.Load.LeastAngle * math.Pi / 180
	if side*math.Tan(least) > k.Drop {
		return "take a stronger one"
	}
	step := float64(unit.Inch) / 8
	if s.system == unit.Centimetres {
		step = 0.001
	}
	length := math.Ceil((apart+2*side/math.Cos(least))/step-hair) * step
	return fmt.Sprintf("take one of %s or a little more, which is steeper, or a stronger one", s.full(length))
}

func andUnknown(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return " and one that is not stated"
	}
	return fmt.Sprintf(" and %d that are not stated", n)
}
