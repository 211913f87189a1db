package hang

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Loose is what stands by itself in the open, under no tent: a wall with what it is joined to, an umbrella, an easel, with what is on it.
type Loose struct {
	ID       booth.ID `json:"id"`
	Name     string   `json:"name"`
	Weight   float64  `json:"weight_kg"` // with what stands and hangs on it, as far as that is known
	Assumed  bool     `json:"weight_assumed"`
	Area     float64  `json:"area_m2"`  // that the worst wind meets
	Needs    float64  `json:"needs_kg"` // in all, in the gust
	SlidesAt float64  `json:"slides_at_m_s"`
	TipsAt   float64  `json:"tips_at_m_s"`
	GoodFor  float64  `json:"good_for_gust_m_s"`
}

// LooseHigh is how high a thing is, in metres, of which it is asked whether wind moves it. What is no higher than a table falls on nobody:
// common practice, no source.
const LooseHigh = 0.8

// usualStand is how deep the stands of walls along the sides are taken to be where there is no tent: common practice, no source.
const usualStand = 18 * float64(unit.Inch)

// loose are those things of a booth, the ones that wind moves first in front.
func loose(p *booth.Plan) []Loose {
	out := []Loose{}
	if p.Pitch.Indoor {
		return out
	}
	var roofs []*booth.Part
	for i := range p.Parts {
		if p.Parts[i].Tent != nil {
			roofs = append(roofs, &p.Parts[i])
		}
	}
	bodies, order := map[booth.ID][]*booth.Part{}, []booth.ID{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Beyond || part.Moving || part.Flat || part.Sheet || part.Tent != nil || len(part.Solids) == 0 {
			continue
		}
		root := standsWith(p, part, len(roofs) > 0)
		if root == nil {
			continue
		}
		if bodies[root.ID] == nil {
			order = append(order, root.ID)
		}
		bodies[root.ID] = append(bodies[root.ID], part)
	}
	for _, id := range order {
		root := p.Part(id)
		_, hi := root.In(geom.World)
		under := slices.ContainsFunc(roofs, func(r *booth.Part) bool {
			at := r.Frame.Local(root.Middle())
			return math.Abs(at.X) <= r.Tent.Width/2 && math.Abs(at.Z) <= r.Tent.Depth/2
		})
		if under || hi.Y < LooseHigh || root.Heft == 0 {
			continue
		}
		if l := inTheWind(p, root, bodies[id]); l.GoodFor < anyWind {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b Loose) int { return cmp.Compare(math.Round(a.GoodFor*1e6), math.Round(b.GoodFor*1e6)) })
	return out
}

// standsWith is what a part falls with when the wind tips it: what it stands or hangs on, the first panel that it is joined to; walls along
// the sides hold each other where no tent holds them. It is nil for what something fixed holds.
func standsWith(p *booth.Plan, part *booth.Part, tented bool) *booth.Part {
	for range p.Parts {
		on := part.Parent
		if c := part.Cloth; c != nil {
			if c.Rain || tented && !c.Free {
				return nil
			}
			k := slices.IndexFunc(p.Parts, func(o booth.Part) bool { return o.Wall != nil && o.Wall.Cover == part.ID })
			switch {
			case k >= 0:
				on = p.Parts[k].ID
			case c.Free: // the curtain of a store
				return nil
			default:
				return firstAlong(p)
			}
		}
		if w := part.Wall; w != nil {
			switch {
			case w.Tied || !w.Free && tented:
				return nil
			case !w.Free:
				return firstAlong(p)
			}
			on = cmp.Or(w.Back, w.Joins)
		} else if part.Shell && part.Cloth == nil {
			return nil // feet: their wall says how deep they are
		}
		if on == "" {
			return part
		}
		if part = p.Part(on); part == nil || part.Beyond {
			return nil
		}
	}
	return nil
}

// firstAlong is the first wall, or else cloth, along a side of the pitch.
func firstAlong(p *booth.Plan) (first *booth.Part) {
	for i := range p.Parts {
		w, c := p.Parts[i].Wall, p.Parts[i].Cloth
		if w != nil && !w.Free {
			return &p.Parts[i]
		}
		if first == nil && c != nil && !c.Free && !c.Rain {
			first = &p.Parts[i]
		}
	}
	return first
}

// feetOf is the ground that a body stands on: of walls as deep as their feet, of the rest what is near the ground.
func feetOf(body []*booth.Part) []way.Point {
	const low = 0.05 // metres
	var out []way.Point
	for _, part := range body {
		w, c := part.Wall, part.Cloth
		switch {
		case part.Parent != "" || c != nil && w == nil && len(body) > 1:
		case w != nil || c != nil:
			lo, hi := part.In(part.Frame)
			deep := usualStand / 2
			if w != nil && w.Free {
				deep = w.Feet / 2
			}
			for _, x := range [2]float64{lo.X, hi.X} {
				for _, z := range [2]float64{min(lo.Z, (lo.Z+hi.Z)/2-deep), max(hi.Z, (lo.Z+hi.Z)/2+deep)} {
					v := part.Frame.At(geom.Vec{X: x, Z: z})
					out = append(out, way.Point{X: v.X, Z: v.Z})
				}
			}
		default:
			bottom, _ := part.In(geom.World)
			for _, c := range part.Room() {
				out = append(out, way.Footprint(c, bottom.Y-low, bottom.Y+low)...)
			}
		}
	}
	return out
}

// inTheWind is a body in the wind that moves it first, of sixteen directions.
func inTheWind(p *booth.Plan, root *booth.Part, body []*booth.Part) Loose {
	const directions, layers = 16, 40
	l := Loose{ID: root.ID, Name: root.Name, GoodFor: math.Inf(1)}
	var middle geom.Vec
	_, top := root.In(geom.World)
	for _, part := range body {
		kg, taken := part.Heft.Kg(), part.Taken
		if kg == 0 && part.Work != nil {
			kg, taken = part.Work.Weight.Kg(), part.Work.Weight == 0
		}
		_, hi := part.In(geom.World)
		l.Weight += kg
		l.Assumed = l.Assumed || taken
		middle = middle.Add(part.Middle().Mul(kg))
		top.Y = max(top.Y, hi.Y)
	}
	if slices.ContainsFunc(body, func(o *booth.Part) bool {
		return o.ID != root.ID && (o.Wall != nil || o.Cloth != nil) && o.Parent == ""
	}) {
		l.Name += " with what is joined to it"
	}
	middle = middle.Mul(1 / l.Weight)
	feet := feetOf(body)
	high := top.Y / layers
	for k := range directions {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / directions)
		along := func(q way.Point) float64 { return float64(q.X*sin) + float64(q.Z*cos) }
		across := func(q way.Point) float64 { return float64(q.X*cos) - float64(q.Z*sin) }
		lever := math.Inf(-1)
		for _, q := range feet {
			lever = max(lever, along(q)-along(way.Point{X: middle.X, Z: middle.Z}))
		}
		t := wind.Tent{
			Base: max(1e-3, 2*lever), Roof: root.Canopy, Lift: p.Weather.Lift, Friction: p.Weather.Friction, Counted: wind.Counted,
			Factor: wind.HeightFactor(wind.Exposure(p.Weather.Exposure), top.Y) * wind.Directional * wind.GustEffect * wind.Wall,
		}
		for i := range layers {
			y := (float64(i) + 0.5) * high
			if w := sailAt(body, y, across); w > 0 {
				t.Sails = append(t.Sails, wind.Sail{Area: w * high, Height: y})
			}
		}
		slides, tips := min(anyWind, t.SlideSpeed(l.Weight)), min(anyWind, t.TipSpeed(l.Weight))
		if good := min(slides, tips); good < l.GoodFor-1e-9 {
			l.Area, l.SlidesAt, l.TipsAt, l.GoodFor = t.Area(), slides, tips, good
			l.Needs = max(t.SlideWeight(p.Weather.Gust), t.TipWeight(p.Weather.Gust))
		}
	}
	return l
}

// sailAt is how wide a body stands across the wind at a height: what is behind something else counts once, of mesh its wires.
func sailAt(body []*booth.Part, y float64, across func(way.Point) float64) float64 {
	const thin = 1e-6
	type span struct{ from, to float64 }
	var spans []span
	bare := 0.0
	for _, part := range body {
		solid := 1.0
		if part.SeeThrough {
			if solid = 0; part.Wall != nil && part.Wall.Hold == booth.Mesh {
				solid = min(1, 2*booth.MeshWire/part.Wall.Spacing)
			}
		}
		for _, c := range part.Room() {
			s := span{math.Inf(1), math.Inf(-1)}
			for _, q := range way.Footprint(c, y-thin, y+thin) {
				s.from, s.to = min(s.from, across(q)), max(s.to, across(q))
			}
			switch {
			case s.to <= s.from:
			case part.SeeThrough:
				bare += solid * (s.to - s.from)
			default:
				spans = append(spans, s)
			}
		}
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	wide, end := 0.0, math.Inf(-1)
	for _, s := range spans {
		wide += max(0, s.to-max(s.from, end))
		end = max(end, s.to)
	}
	return max(wide, bare)
}

// moves is what wind does to it first.
func (l Loose) moves() string {
	if l.TipsAt <= l.SlidesAt {
		return "tips"
	}
	return "slides"
}

// inTheOpen is what there is to say of what stands by itself in the open. A wind that the scene states must be held.
func (s Sheet) inTheOpen(p *booth.Plan) (out []finding.Finding) {
	var list []string
	first := -1
	for i, l := range s.Loose {
		part := p.Part(l.ID)
		f := finding.Finding{
			Check: Standing.Name, Item: l.ID, At: part.At.String(), Source: Standing.Source, Steps: windSteps(p),
			Figure: &finding.Figure{Measured: l.GoodFor, Limit: p.Weather.Gust, Unit: finding.Speed},
		}
		switch {
		case l.GoodFor >= p.Weather.Gust-1e-9:
		case p.Weather.Stated:
			f.Level = finding.Fail
			up, gust := wind.Apart(wind.Speed(l.GoodFor), wind.Speed(p.Weather.Gust), s.system)
			mend := "weigh it down to " + s.atLeast(l.Needs) + " in all, low on its feet (weight), "
			if l.Needs > muchMore*l.Weight {
				mend = "" // it needs wider feet, not weight
			}
			f.Message = fmt.Sprintf("%s %s in the stated gusts of %s: with the %s that it %s it stands %s: %stie it to something that holds, or take it in",
				unit.Capital(l.Name), l.moves(), gust, s.weight(l.Weight), weighs(l), up, mend)
			out = append(out, f)
		default:
			if first < 0 {
				first = i
				out = append(out, f)
			}
			list = append(list, fmt.Sprintf("%s %s from %s", l.Name, l.moves(), s.speed(l.GoodFor)))
		}
	}
	if first >= 0 {
		out[0].Level = finding.Caution
		out[0].Message = fmt.Sprintf("No wind is stated. In the open, %s. Weigh it down (weight), tie it to something that holds, or take it in before; write the gusts of your forecast under weather", strings.Join(list, ", "))
	}
	return out
}

// muchMore is how many times its own weight is not brought to hold a thing.
const muchMore = 20

// weighs is how it is known what something weighs.
func weighs(l Loose) string {
	if l.Assumed {
		return "is taken to weigh"
	}
	return "weighs"
}

// LooseSection is what wind does to what stands by itself in the open, and the weight that holds it.
func (s Sheet) LooseSection() Section {
	t := Table{Head: []string{"in the open", "weight", "area in the wind", "it tips from", "it slides from", "it needs in all"}, Wide: []float64{30, 14, 14, 14, 14, 14}}
	for _, l := range s.Loose {
		weight := s.weight(l.Weight)
		if l.Assumed {
			weight += " *"
		}
		t.Rows = append(t.Rows, []string{l.Name, weight, s.area(l.Area), s.speed(l.TipsAt), s.speed(l.SlidesAt), s.weight(l.Needs)})
	}
	return Section{Title: "Wind in the open", Tables: []Table{t}, Intro: []string{
		fmt.Sprintf("What stands under no tent and is higher than a table. The last column is for gusts of %s.", wind.Speed(s.gust).Format(s.system)),
	}, Notes: []string{
		"* Not stated, or not all of it: usual weights stand in. Weigh it, and write weight.",
		"Worked out as for tents: the velocity pressure of ASCE 7, its Kz, Kd and G, 1.3 for windward and leeward sides together; statics about the leeward edge of the feet and friction on the ground; 0.6 of the weight counted; lift under an umbrella as under a canopy. Works whose weight is not stated count as none; what stands on something is taken as fastened to it: clip or tape it down.",
		"These are estimates to plan with, no proof of safety. Take umbrellas down and boards in when gusts come. The organiser's rules, the local code and a licensed person come first.",
	}}
}
