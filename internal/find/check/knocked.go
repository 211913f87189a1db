package check

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

var knocked = Check{
	Name: "falling over", Doc: "What stands on the ground by itself comes back when somebody knocks it: the middle of its weight, with what stands on it, is far enough inside its feet. A banner hangs from something.",
	Source: tiltFrom,
	Run: func(p *Pass) {
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Parent != "" || part.Beyond || part.Moving || part.Flat || part.Sheet || part.Tent != nil || p.ease(part) == built || len(part.Solids) == 0 {
				continue
			}
			switch lo, hi := extent(part); {
			case lo.Y > lowest:
				if part.Lettering != nil && !p.Plan.Tented() {
					p.report(Fail, part, Finding{Source: practice}, "Nothing holds %s: without a tent say on: and a table, or wall: and a wall", part.Name)
				}
			case hi.Y > knockedFrom && !p.leans(part, hi.Y):
				p.knock(part)
			}
		}
	},
}

const (
	knockedFrom = 20 * float64(unit.Inch) // metres; what is lower is stumbled over rather than knocked over
	onEdge      = 1.0 / 4                 // of the room that its weight is to have inside of its feet: with less it stands on an edge
	leaning     = 0.05                    // metres to what a thing leans against
)

// knock tells of a thing on the ground that falls. How heavy the pieces of one are that is made of several nobody knows: of such it is only told
// if it stands on an edge.
func (p *Pass) knock(part *booth.Part) {
	var feet []way.Point
	for _, c := range part.Room() {
		feet = append(feet, way.Footprint(c, -lowest, 2*lowest)...)
	}
	sum, kg := part.Middle().Mul(part.Heft.Kg()), part.Heft.Kg()
	for i := range p.Plan.Parts {
		if o := &p.Plan.Parts[i]; o.Parent == part.ID && o.Work != nil {
			sum, kg = sum.Add(o.Middle().Mul(o.Work.Weight.Kg())), kg+o.Work.Weight.Kg()
		}
	}
	if kg == 0 {
		return
	}
	mid := sum.Mul(1 / kg)
	hull, inside := way.Hull(feet), math.Inf(1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		if long := a.Dist(b); long > hair {
			inside = min(inside, math.Abs(float64((b.X-a.X)*(mid.Z-a.Z))-float64((b.Z-a.Z)*(mid.X-a.X)))/long)
		}
	}
	need := mid.Y * math.Tan(tilt*math.Pi/180)
	f := Finding{Figure: metres(inside, need), Source: tiltFrom}
	switch {
	case math.IsInf(inside, 1):
	case inside < need*onEdge-hair:
		p.report(Fail, part, f, "%s stands by itself on an edge and falls: lean it against something that holds, or give it feet %s deep", unit.Capital(part.Name), p.length(2*need))
	case len(part.Room()) == 1 && inside < need-hair:
		p.report(Caution, part, f, "%s is easily knocked over: the middle of its weight is %s above the ground and %s inside of its foot; %s is usual: weigh it down inside, or take a wider one",
			unit.Capital(part.Name), p.length(mid.Y), p.length(inside), p.length(need))
	}
}

// leans reports whether something that stands firm is beside a thing, at half its height.
func (p *Pass) leans(part *booth.Part, high float64) bool {
	lo, hi := extent(part)
	margin := geom.Vec{X: leaning, Z: leaning}
	lo, hi = lo.Sub(margin), hi.Add(margin)
	for i := range p.Plan.Parts {
		o := &p.Plan.Parts[i]
		if o == part || o.Moving || o.Flat || o.Parent == part.ID || o.Tent != nil {
			continue
		}
		for _, c := range o.Room() {
			if a, b := c.Bounds(); b.Y >= high/2 && a.X < hi.X && b.X > lo.X && a.Z < hi.Z && b.Z > lo.Z && a.Y < hi.Y {
				return true
			}
		}
	}
	return false
}
