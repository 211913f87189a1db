package check

import (
	"math"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// overhang is how far canopy, valance and banner may stand out over the line, above people's heads, in metres; and cloth
// that hangs, such as a rain curtain, or a banner before a table, at any height.
const overhang = 6 * float64(unit.Inch)

var inside = Check{
	Name: "inside the pitch", Doc: "Nothing stands past the line; canopy, valance and banner may stand out by 6 in above people's heads, hanging cloth, the hem of a table's cloth and what hangs before it anywhere. How far things may stand out into the aisle, and whether boards may stand there, the fair's rule sheet says, if it says so.",
	Source: practice,
	Run: func(p *Pass) {
		// Things of tents side by side stand out alike: they are reported together.
		type out struct {
			side         booth.Side
			out, allowed int // tenths of a millimetre
			number       int // of the part; -1 for those of tents
		}
		var order []out
		parts := map[out][]*booth.Part{}
		figures := map[out]*Figure{}
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Flat || part.Moving || part.Beyond || p.onWall(part) { // what is on a wall is for the check of its fit
				continue
			}
			side, far, allowed := p.outside(part)
			if far == 0 || side == booth.Front && slices.ContainsFunc(p.Plan.Rules.Asks(), func(a rules.Ask) bool { return a.Line != nil || a.Boards && part.Placard }) {
				continue // the check of what the fair asks tells of it
			}
			o := out{side, int(math.Round(far * 1e4)), int(math.Round(allowed * 1e4)), i}
			if p.Plan.Part(p.root(part)).Tent != nil {
				o.number = -1
			}
			if parts[o] == nil {
				order = append(order, o)
			}
			parts[o], figures[o] = append(parts[o], part), metres(far, allowed)
		}
		for _, o := range order {
			var names []string
			for _, part := range parts[o] {
				names = append(names, part.Name)
			}
			verb := "stands"
			if len(names) > 1 {
				verb = "stand"
			}
			f := Finding{Figure: figures[o], Source: practice}
			switch {
			case o.side == booth.Front && parts[o][0].Placard:
				p.report(Caution, parts[o][0], f, "%s stands %s past the front edge of the pitch, in the aisle: ask the organiser whether a board may stand there", unit.Capital(parts[o][0].Name), p.length(f.Measured))
			case o.allowed > 0:
				p.report(Caution, parts[o][0], f, "%s %s out %s over the %s edge of the pitch; %s is usual at most", unit.Capital(list(names)), verb, p.length(f.Measured), o.side, p.length(f.Limit))
			default:
				p.report(Fail, parts[o][0], f, "%s %s %s past the %s edge of the pitch", unit.Capital(list(names)), verb, p.length(f.Measured), o.side)
			}
		}
	},
}

// outside is past which side of the pitch a part stands out most beyond what is allowed there, how far, and what is allowed,
// in metres; 0 where it is inside.
func (p *Pass) outside(part *booth.Part) (side booth.Side, out, allowed float64) {
	high, low := p.usual().Height, 0.0
	if part.Cloth != nil || part.Hangs {
		low = overhang
	}
	for _, c := range part.Room() { // the hem of a table's cloth may stand out, and so what hangs before it
		for _, band := range [2][3]float64{{lowest, high, low}, {high, math.Inf(1), overhang}} {
			s, d := p.beyond(way.Footprint(c, band[0], band[1]))
			if d > band[2]+hair && d-band[2] > out-allowed+1e-9 {
				side, out, allowed = s, d, band[2]
			}
		}
	}
	return side, out, allowed
}

// beyond is how far a shape stands out of the pitch, in metres, and past which side: the first of several that it stands
// out past as far.
func (p *Pass) beyond(s way.Shape) (side booth.Side, out float64) {
	for _, q := range s {
		for k, d := range [4]float64{q.Z, -p.Plan.Pitch.Width/2 - q.X, -p.Plan.Pitch.Depth - q.Z, q.X - p.Plan.Pitch.Width/2} {
			if d > out+1e-9 {
				side, out = booth.Side(k), d
			}
		}
	}
	return side, out
}
