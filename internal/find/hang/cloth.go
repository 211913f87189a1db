package hang

import (
	"math"

	"boothmock/internal/plan/booth"
)

// Allowances for sewing, common practice without a source: a pocket for the pipe above, a hem below and one at each
// side.
const (
	pocket  = 4 * 0.0254   // metres
	hem     = 1.5 * 0.0254 // metres
	sideHem = 1 * 0.0254   // metres
)

// Cloth is what to buy for one drape: by length from a bolt, or as ready-made sheets.
type Cloth struct {
	Name     string   `json:"name"`
	Width    float64  `json:"side_m"` // of the side that it covers
	Fullness float64  `json:"fullness"`
	Flat     float64  `json:"flat_width_m"` // laid flat, with side hems
	Drop     float64  `json:"cut_length_m"` // with pocket and hem
	Bolt     float64  `json:"bolt_m"`       // width as it is sold
	Widths   int      `json:"widths"`       // lengths to sew side by side
	Metres   float64  `json:"buy_m"`        // of the bolt
	Sheet    *Sheets  `json:"sheets"`       // null if none are used
	Area     float64  `json:"area_m2"`      // of Flat x Drop
	Weight   *float64 `json:"weight_kg"`    // null: not stated
}

// Sheets are ready-made sheets hung side by side.
type Sheets struct {
	Height float64 `json:"height_m"` // as they hang
	Width  float64 `json:"width_m"`
	Count  int     `json:"count"`
	Turned bool    `json:"turned"`  // hung with their stated width upright
	Short  float64 `json:"short_m"` // what is missing at the bottom; 0 if they reach
}

// cut is the width and length of a cloth laid flat, with hems, in metres.
func cut(c *booth.Cloth) (width, length float64) {
	return float64(c.Width*c.Fullness) + 2*sideHem, c.Top - c.Bottom + pocket + hem
}

// whole is the number of pieces of size one that make up a length, forgiving rounding.
func whole(length, one float64) int { return int(math.Ceil(length/one - 1e-9)) }

func cloths(p *booth.Plan) []Cloth {
	out := []Cloth{}
	for i := range p.Parts {
		c := p.Parts[i].Cloth
		if c == nil || !c.Pipe {
			continue
		}
		w, h := cut(c)
		n := whole(w, c.Bolt)
		buy := Cloth{
			Name: p.Parts[i].Name, Width: c.Width, Fullness: c.Fullness, Flat: w, Drop: h, Bolt: c.Bolt, Widths: n, Metres: float64(n) * h, Area: w * h,
		}
		if kg := clothWeight(c); kg > 0 {
			buy.Weight = &kg
		}
		if c.Sheet.A > 0 {
			buy.Sheet = sheets(c)
		}
		out = append(out, buy)
	}
	return out
}

// sheets are hung as stated if they reach the ground so, else turned if that reaches; their own hems are enough at the
// sides, and the pocket is taken from their height.
func sheets(c *booth.Cloth) *Sheets {
	need := c.Top - c.Bottom + pocket
	s := &Sheets{Height: c.Sheet.A.M(), Width: c.Sheet.B.M()}
	if s.Height < need-hair && s.Width > s.Height {
		s.Height, s.Width, s.Turned = s.Width, s.Height, true
	}
	s.Count = whole(c.Width*c.Fullness, s.Width)
	if s.Height < need-hair {
		s.Short = need - s.Height
	}
	return s
}
