package hang

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// Weather is what the wind asks of the tent's weights.
type Weather struct {
	Gust            float64   `json:"gust_m_s"`
	GustStated      bool      `json:"gust_stated"`
	Force           int       `json:"beaufort"` // whose gusts reach about so far
	HeightFactor    float64   `json:"kz"`
	Exposure        string    `json:"exposure"`
	Friction        float64   `json:"friction"`
	FrictionAssumed bool      `json:"friction_assumed"`
	Lift            float64   `json:"lift"`
	Pressure        float64   `json:"pressure_pa"` // q Kz Kd
	Roof            float64   `json:"roof_m2"`     // of ground that the canopies cover
	Tent            float64   `json:"tent_kg"`     // all tents; 0: not stated
	Ballast         float64   `json:"ballast_kg_per_leg"`
	Stake           float64   `json:"stake_kg_per_leg"` // what the scene says that a stake at each leg holds
	Legs            int       `json:"legs"`
	Up              WindState `json:"walls_up"`
	Down            WindState `json:"walls_down"`
	Notes           []string  `json:"notes"`
}

// WindState is the tent with its walls up or down, in the worse of the winds from the front and from a side.
type WindState struct {
	From      string  `json:"from"`     // "the front or the back" or "a side"
	Area      float64 `json:"area_m2"`  // of cloth, panels and works that the wind meets
	Height    float64 `json:"height_m"` // of the middle of that area above the ground
	Base      float64 `json:"base_m"`   // from the windward legs to the leeward ones
	Push      float64 `json:"push_n"`   // sideways, in the gust
	Lifts     float64 `json:"lift_n"`   // upwards, in the gust
	ToSlide   float64 `json:"total_kg_against_sliding"`
	ToTip     float64 `json:"total_kg_against_tipping"`
	PerLeg    float64 `json:"ballast_kg_needed_per_leg"` // on top of the tent's stated weight, the larger of the two
	GoodFor   float64 `json:"good_for_gust_m_s"`         // with the stated weight and ballast
	GoodForce int     `json:"good_for_beaufort"`         // whose gusts stay below that; -1 if not even force 0
	SlidesAt  float64 `json:"slides_at_m_s"`
	TipsAt    float64 `json:"tips_at_m_s"`
	Enough    bool    `json:"enough"` // the stated weight holds the gust
}

// weather is the wind on the tents of a booth, taken as tied together; nil without a tent, and under a roof.
func weather(p *booth.Plan) *Weather {
	if p.Pitch.Indoor {
		return nil
	}
	var w Weather
	peak := 0.0
	for i := range p.Parts {
		t := p.Parts[i].Tent
		if t == nil {
			continue
		}
		w.Tent += t.Weight.Kg()
		w.Ballast, w.Stake = t.Ballast.Kg(), t.Stake.Kg()
		w.Legs += t.Legs
		w.Roof += float64(t.Width * t.Depth)
		peak = max(peak, t.Peak)
	}
	if w.Legs == 0 {
		return nil
	}
	in := p.Weather
	w.Gust, w.GustStated, w.Exposure, w.Friction, w.FrictionAssumed, w.Lift = in.Gust, in.Stated, in.Exposure, in.Friction, in.Assumed, in.Lift
	w.Force = forceBelow(in.Gust)
	w.HeightFactor = wind.HeightFactor(wind.Exposure(in.Exposure), peak)
	w.Pressure = wind.Pressure(in.Gust, w.HeightFactor, wind.Directional)
	w.Up, w.Down = w.state(p, wallsUp), w.state(p, wallsDown)
	w.Notes = weatherNotes(p)
	return &w
}

// anyWind stands for a tent that no wind moves, in m/s: more than any gust that was ever measured near the ground but
// in a whirlwind.
const anyWind = 99.0

// forceBelow is the highest Beaufort force whose gusts, by wind.Gustiness, stay within a gust; -1 if none do.
func forceBelow(gust float64) int {
	n := -1
	for k := 0; k < wind.Strongest && float64(wind.Gust(k)) <= gust+1e-9; k++ {
		n = k
	}
	return n
}

// leg is what holds each leg down, in kilograms: weight, and what a stake is stated to hold, which counts as so much weight. A stake holds
// sideways too, without any friction: to count it so is on the safe side.
func (w *Weather) leg() float64 { return w.Ballast + w.Stake }

// holds is whether a state stands a gust: up to the gust that it is good for, and that one.
func (s WindState) holds(gust float64) bool { return gust <= s.GoodFor*(1+1e-9) }

// wallsUp and wallsDown say whether the wind meets a part with the walls up, and with them down: a panel stays when cloth comes down.
func wallsUp(*booth.Part) bool        { return true }
func wallsDown(part *booth.Part) bool { return part.Cloth == nil && part.Work == nil }

// directions are the winds that are asked about: from the front stands for the back too, and from the left for the right.
var directions = [...]booth.Side{booth.Front, booth.Left}

// state is the worse direction of the wind, that is the one which asks for more weight.
func (w *Weather) state(p *booth.Plan, stays func(*booth.Part) bool) WindState {
	var worst WindState
	for _, from := range directions {
		if s := w.from(p, from, stays); max(s.ToSlide, s.ToTip) > max(worst.ToSlide, worst.ToTip) {
			worst = s
		}
	}
	return worst
}

// from is the tent in a wind from one direction, with the parts that stay.
func (w *Weather) from(p *booth.Plan, from booth.Side, stays func(*booth.Part) bool) WindState {
	t := tentIn(p, from, stays)
	total := w.Tent + w.leg()*float64(w.Legs)
	t.Friction, t.Lift, t.Counted = w.Friction, w.Lift, wind.Counted
	t.Factor = w.HeightFactor * wind.Directional * wind.GustEffect * wind.Wall
	s := WindState{
		From: "the front or the back", Area: t.Area(), Height: t.Height(), Base: t.Base, Push: t.Force(w.Gust), Lifts: t.Uplift(w.Gust), ToSlide: t.SlideWeight(w.Gust), ToTip: t.TipWeight(w.Gust),
		SlidesAt: min(anyWind, t.SlideSpeed(total)), TipsAt: min(anyWind, t.TipSpeed(total)),
	}
	if from == booth.Left {
		s.From = "a side"
	}
	s.PerLeg = max(0, (max(s.ToSlide, s.ToTip)-w.Tent)/float64(w.Legs)-w.Stake)
	s.GoodFor = min(s.SlidesAt, s.TipsAt)
	s.GoodForce = forceBelow(s.GoodFor)
	s.Enough = s.holds(w.Gust)
	return s
}

// tentIn is what a wind from the front (or the back) or from a side meets: roof and valances, and of the rest what stays.
func tentIn(p *booth.Plan, from booth.Side, stays func(*booth.Part) bool) wind.Tent {
	var t wind.Tent
	eave := 0.0
	for i := range p.Parts {
		tent := p.Parts[i].Tent
		if tent == nil {
			continue
		}
		t.Roof += float64(tent.Width * tent.Depth)
		roof, wide := tent.RoofFront, tent.Width
		t.Base = tent.Depth
		if from == booth.Left {
			roof, wide, t.Base = tent.RoofSide, tent.Depth, p.Pitch.Width
			if len(t.Sails) > 0 { // the tents stand behind one another
				continue
			}
		}
		eave = tent.Eave
		t.Sails = append(t.Sails,
			wind.Sail{Area: roof, Height: tent.Eave + (tent.Peak-tent.Eave)/2},
			wind.Sail{Area: float64(wide * tent.Valance), Height: tent.Eave - tent.Valance/2})
	}
	// The wall that takes more wind, of the two that face it.
	var wall wind.Sail
	for _, side := range across[from] {
		if s := sail(p, side, eave, stays); s.Area*s.Height > wall.Area*wall.Height {
			wall = s
		}
	}
	t.Sails = append(t.Sails, wall)
	return t
}

// across are the sides of a booth that face a wind.
var across = map[booth.Side][2]booth.Side{booth.Front: {booth.Front, booth.Back}, booth.Left: {booth.Left, booth.Right}}

// sail is what stands across the wind on one side: its largest cloth or panel, or the works and wires of bare mesh.
func sail(p *booth.Plan, side booth.Side, eave float64, stays func(*booth.Part) bool) wind.Sail {
	var best, bare wind.Sail
	larger := func(width, bottom, top float64) {
		if s := (wind.Sail{Area: width * (top - bottom), Height: (top + bottom) / 2}); s.Area > best.Area {
			best = s
		}
	}
	moment := 0.0
	add := func(area, height float64) {
		bare.Area += area
		moment += float64(area * height)
	}
	for i := range p.Parts {
		part := &p.Parts[i]
		if !stays(part) {
			continue
		}
		if c := part.Cloth; c != nil && c.Side == side && !c.Free && (!c.Rain || side != booth.Front) {
			larger(c.Width, c.Bottom, min(c.Top, eave))
		}
		if w := part.Wall; w != nil && w.Side == side && !w.Free {
			switch {
			case w.Hold == booth.Panel:
				larger(w.Width, 0, w.Top)
			case w.Hold == booth.Mesh:
				add(w.Width*(w.Top-w.Bottom)*min(1, 2*booth.MeshWire/w.Spacing), (w.Top+w.Bottom)/2)
			}
		}
		if h := hungOn(p, part); h != nil && h.Side == side && !h.Free {
			of := part.Work.Hung
			add((of.X1-of.X0)*(of.Y1-of.Y0), of.Centre())
		}
	}
	if bare.Area > best.Area {
		bare.Height = moment / bare.Area
		return bare
	}
	return best
}

// hungOn is the wall that a part, if it is a work, hangs on.
func hungOn(p *booth.Plan, part *booth.Part) *booth.Wall {
	if part.Work == nil || part.Work.Hung == nil {
		return nil
	}
	return p.Part(part.Work.Hung.Wall).Wall
}

// PerLegPractice is the weight on each leg that many fairs ask for, in kilograms: 40 lb. Common practice, no standard
// found.
const PerLegPractice = float64(40 * unit.Pound)
