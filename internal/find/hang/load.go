package hang

import (
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
)

// Verdict is a load beside what is stated to carry it.
type Verdict string

const (
	Within  Verdict = "within"  // no more than the stated strength
	Over    Verdict = "over"    // more than the stated strength
	Unknown Verdict = "unknown" // no strength or no weight is stated
)

// answer is the verdict as the answer to whether it is enough.
func (v Verdict) answer() string {
	return map[Verdict]string{Within: "yes", Over: "NO", Unknown: "unknown"}[v]
}

func judge(load *float64, stated unit.Weight) Verdict {
	switch {
	case load == nil || stated == 0:
		return Unknown
	case *load > stated.Kg()*wind.Gravity*(1+1e-9):
		return Over
	}
	return Within
}

// WorkLoad is what one work asks of its wire and hooks. What rests on a weight that is not stated is null.
type WorkLoad struct {
	Weight      float64  `json:"weight_kg"` // 0: not stated
	Hook        *float64 `json:"hook_n"`    // on each of its hooks, all directions together
	HookJudged  Verdict  `json:"hook_judged"`
	Angle       *float64 `json:"wire_angle_deg"` // above the level; null without a wire
	Tension     *float64 `json:"wire_n"`
	Times       *float64 `json:"wire_times_weight"` // tension over weight
	WireJudged  Verdict  `json:"wire_judged"`
	LeastAngle  *float64 `json:"least_angle_deg"` // below it the wire is over its stated strength; null if that or the weight is unknown
	Steep       bool     `json:"steep"`           // each side of the wire pulls no more than the whole work weighs: 30 degrees or more
	StatedHook  float64  `json:"hook_holds_kg"`   // 0: not stated
	StatedWire  float64  `json:"wire_holds_kg"`   // 0: not stated
	HooksShared int      `json:"hooks"`
}

// steep is the angle at which each side of a wire pulls just as much as the whole work weighs: T = W / (2 sin 30°) = W.
const steep = math.Pi / 6

// halfDegree keeps a wire that is printed as 30° from being called flat.
const halfDegree = 0.5 * math.Pi / 180

func workLoad(p *booth.Plan, part *booth.Part, t hook.Taut, hooks int) WorkLoad {
	f := part.Work.Fixing
	l := WorkLoad{
		Weight: part.Work.Weight.Kg(), StatedHook: p.Hooks.Holds.Kg(), StatedWire: f.Holds.Kg(), HooksShared: hooks,
		Steep: true, HookJudged: Unknown, WireJudged: Unknown,
	}
	degrees := func(a float64) *float64 { d := unit.Angle(a).Degrees(); return &d }
	if f.By == booth.Wire {
		times := t.Tension(1)
		l.Angle, l.Times, l.Steep = degrees(t.Angle()), &times, t.Angle() >= steep-halfDegree
	}
	if l.Weight == 0 {
		return l
	}
	weight := l.Weight * wind.Gravity
	each := weight / float64(hooks)
	if f.By == booth.Wire {
		pull := t.Tension(weight)
		l.Tension, l.WireJudged = &pull, judge(&pull, f.Holds)
		if f.Holds > 0 {
			l.LeastAngle = degrees(hook.LeastAngle(weight, f.Holds.Kg()*wind.Gravity))
		}
		each = math.Hypot(each, t.Inward(weight))
	}
	l.Hook, l.HookJudged = &each, judge(&each, p.Hooks.Holds)
	return l
}

// WallLoad is what hangs on a wall.
type WallLoad struct {
	Known    float64 `json:"works_kg"`   // of the works whose weight is stated
	Unstated int     `json:"unstated"`   // works whose weight is not
	Shelves  float64 `json:"shelves_kg"` // what shelves on it are taken to weigh; the works that stand on them count as the wall's works
	Left     float64 `json:"left_end_n"` // what the top of the wall brings to its two ends, by the balance of moments
	Right    float64 `json:"right_end_n"`
	Stated   float64 `json:"holds_kg"` // 0: not stated
	Judged   Verdict `json:"judged"`
}

// shelf is what a shelf brings to its wall, at its middle: itself, and the works on it.
type shelf struct {
	x     float64   // metres from the wall's left end
	own   float64   // kg, about
	works []float64 // kg of each; 0: not stated
}

// shelvesOn are the shelves of a wall.
func shelvesOn(p *booth.Plan, wall *booth.Part) (out []shelf) {
	for i := range p.Parts {
		on := &p.Parts[i]
		if on.Parent != wall.ID || on.Heft == 0 {
			continue
		}
		s := shelf{x: wall.Frame.Local(on.Frame.Origin).X, own: on.Heft.Kg()}
		for k := range p.Parts {
			if w := &p.Parts[k]; w.Parent == on.ID && w.Work != nil {
				s.works = append(s.works, w.Work.Weight.Kg())
			}
		}
		out = append(out, s)
	}
	return out
}

func wallLoad(w *booth.Wall, of Wall) WallLoad {
	l := WallLoad{Stated: w.Holds.Kg(), Judged: Unknown}
	carry := func(kg, x float64, sum *float64) {
		*sum += kg
		left, right := hook.Share(kg*wind.Gravity, x, w.Width)
		l.Left, l.Right = l.Left+left, l.Right+right
	}
	for _, work := range of.Works {
		if work.Load.Weight == 0 {
			l.Unstated++
			continue
		}
		carry(work.Load.Weight, (work.X0+work.X1)/2, &l.Known)
	}
	for _, shelf := range of.shelves {
		carry(shelf.own, shelf.x, &l.Shelves)
		for _, kg := range shelf.works {
			if kg == 0 {
				l.Unstated++
				continue
			}
			carry(kg, shelf.x, &l.Known)
		}
	}
	pull := (l.Known + l.Shelves) * wind.Gravity
	switch v := judge(&pull, w.Holds); {
	case v == Over, l.Unstated == 0:
		l.Judged = v // what is known may be too much already
	}
	return l
}

// Pipe is a pipe that cloth hangs from.
type Pipe struct {
	ID     booth.ID `json:"id"` // of the cloth
	Name   string   `json:"name"`
	Length float64  `json:"length_m"`
	Cloth  *float64 `json:"cloth_kg"` // null: the cloth's weight is not stated
	Stated float64  `json:"holds_kg"` // 0: not stated
	Judged Verdict  `json:"judged"`
}

func pipes(p *booth.Plan) []Pipe {
	out := []Pipe{}
	for i := range p.Parts {
		c := p.Parts[i].Cloth
		if c == nil || !c.Pipe {
			continue
		}
		pipe := Pipe{ID: p.Parts[i].ID, Name: p.Parts[i].Name, Length: c.Width, Stated: c.Holds.Kg(), Judged: Unknown}
		if kg := clothWeight(c); kg > 0 {
			pipe.Cloth = &kg
			pull := kg * wind.Gravity
			pipe.Judged = judge(&pull, c.Holds)
		}
		out = append(out, pipe)
	}
	return out
}

// clothWeight is what a cloth weighs with its hems, in kilograms; 0 if its weight is not stated.
func clothWeight(c *booth.Cloth) float64 {
	w, h := cut(c)
	return w * h * c.Grammage / 1000
}
