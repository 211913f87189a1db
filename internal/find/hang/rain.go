package hang

import (
	"boothmock/internal/plan/booth"
)

// Rain is what closes the booth against rain.
type Rain struct {
	Openings []Opening  `json:"openings"`
	Covers   []Cover    `json:"covers"`
	Curtain  [2]float64 `json:"curtain_m"` // height and width of the ready-made ones
	Overlap  float64    `json:"overlap_m"`
}

// Opening is a side of the tent without a wall of its own.
type Opening struct {
	Side     string  `json:"side"`
	Width    float64 `json:"width_m"`
	Height   float64 `json:"height_m"` // from the ground to the eave
	BuyWidth float64 `json:"buy_width_m"`
	Curtains int     `json:"curtains"` // ready-made ones side by side
	Short    float64 `json:"short_m"`  // what they lack to the ground; 0 if they reach
	Line     float64 `json:"line_m"`   // cord to hang them along
}

// Cover is a sheet over a table and what stands on it.
type Cover struct {
	Name      string  `json:"name"`
	Length    float64 `json:"length_m"`
	Depth     float64 `json:"depth_m"`
	BuyLength float64 `json:"buy_length_m"`
	BuyDepth  float64 `json:"buy_depth_m"`
}

// Allowances, common practice without a source.
const (
	lap       = 6 * 0.0254  // metres that one curtain overlaps the next, or the leg at its end
	knots     = 24 * 0.0254 // metres of cord for the knots at both ends
	coverDrop = 8 * 0.0254  // metres that a table's cover hangs over each edge
)

func rain(p *booth.Plan) *Rain {
	r := &Rain{Openings: []Opening{}, Covers: []Cover{}, Overlap: lap, Curtain: [2]float64{p.Weather.Curtain.A.M(), p.Weather.Curtain.B.M()}}
	eave := 0.0
	var closed [4]bool
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Tent != nil {
			eave = max(eave, part.Tent.Eave)
		}
		if c := part.Cloth; c != nil && !c.Pipe && !c.Rain {
			closed[c.Side] = true
		}
	}
	if eave == 0 {
		return nil
	}
	for side, shut := range closed {
		if shut {
			continue
		}
		a, b := p.Pitch.Edge(booth.Side(side))
		o := Opening{Side: booth.Side(side).String(), Width: a.Dist(b), Height: eave}
		o.BuyWidth = o.Width + 2*lap
		o.Curtains = whole(o.BuyWidth-lap, r.Curtain[1]-lap)
		o.Short = max(0, eave-r.Curtain[0])
		o.Line = o.Width + knots
		r.Openings = append(r.Openings, o)
	}
	for i := range p.Parts {
		if part := &p.Parts[i]; part.Top != nil {
			r.Covers = append(r.Covers, cover(p, part))
		}
	}
	return r
}

// cover is the size of a sheet over a table that also goes up and down over the highest thing that stands on it.
func cover(p *booth.Plan, table *booth.Part) Cover {
	lo, hi := table.In(table.Frame)
	c := Cover{Name: table.Name, Length: hi.X - lo.X, Depth: hi.Z - lo.Z}
	stands := 0.0
	for i := range p.Parts {
		if o := &p.Parts[i]; o.Parent == table.ID && (o.Bring != "" || o.Work != nil) {
			for _, s := range o.Room() {
				_, top := s.Bounds()
				stands = max(stands, top.Y-*table.Top)
			}
		}
	}
	c.BuyLength = c.Length + 2*(coverDrop+stands)
	c.BuyDepth = c.Depth + 2*(coverDrop+stands)
	return c
}
