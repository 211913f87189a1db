package check

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/unit"
	"boothmock/internal/way"
)

// overhang is how far canopy, valance and banner may stand out over the line, above people's heads, in metres; and cloth
// that hangs, such as a rain curtain, at any height.
const overhang = 6 * float64(unit.Inch)

var inside = Check{
	Name: "inside the pitch", Doc: "Nothing stands past the line; canopy, valance and banner may stand out by 6 in above people's heads, hanging cloth anywhere.",
	Source: practice,
	Run: func(p *Pass) {
		high := p.usual().Height
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Flat || part.Moving || p.onWall(part) { // what is on a wall is for the check of its fit
				continue
			}
			low := 0.0
			if part.Cloth != nil {
				low = overhang
			}
			side, out, allowed := booth.Front, 0.0, 0.0
			for _, c := range part.Solids {
				for _, band := range [2][3]float64{{lowest, high, low}, {high, math.Inf(1), overhang}} {
					s, d := p.beyond(way.Footprint(c, band[0], band[1]))
					if d > band[2]+hair && d-band[2] > out-allowed+1e-9 {
						side, out, allowed = s, d, band[2]
					}
				}
			}
			f := Finding{Figure: metres(out, allowed), Source: practice}
			switch {
			case out == 0:
			case allowed > 0:
				p.report(Caution, part, f, "%s stands out %s over the %s edge of the pitch; %s is usual at most", unit.Capital(part.Name), p.length(out), side, p.length(allowed))
			default:
				p.report(Fail, part, f, "%s stands %s past the %s edge of the pitch", unit.Capital(part.Name), p.length(out), side)
			}
		}
	},
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
