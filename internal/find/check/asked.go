package check

import (
	"strings"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// sheet is where what a fair asks is from.
const sheet = "the fair's rule sheet, in its own words"

var asked = Check{
	Name: "fair", Doc: "The booth keeps what the fair's rule sheet asks: ballast, heights, the line of the aisle, flame labels, no boards on the ground.",
	Source: sheet,
	Run: func(p *Pass) {
		for _, a := range p.Plan.Rules.Asks() {
			switch {
			case a.Weight != nil:
				p.askedWeight(a)
			case a.Height != nil:
				p.askedBounds(a, func(y, z float64) float64 { return y }, a.Height.M(), "reaches %s up; %s is the most")
			case a.Line != nil:
				p.askedBounds(a, func(y, z float64) float64 { return z }, a.Line.M(), "stands %s out from the front edge; %s is the most")
			case a.Flame && p.Plan.FlameLabels == "":
				p.asks(a, nil, nil, "the scene states no flame labels: write what they say as flame labels, and bring them")
			case a.Boards:
				for i := range p.Plan.Parts {
					if part := &p.Plan.Parts[i]; (part.Lettering != nil || part.Placard) && part.Parent == "" && !part.Beyond && ground(part) < hair {
						p.asks(a, part, nil, "%s stands on the ground", part.Name)
					}
				}
			}
		}
	},
}

// asks reports what stands against something that the sheet asks.
func (p *Pass) asks(a rules.Ask, part *booth.Part, f *Figure, text string, with ...any) {
	says := strings.TrimRight(strings.TrimSpace(a.Says), ".")
	whole := Finding{Figure: f, Source: sheet}
	if part == nil {
		part = &booth.Part{ID: "rules", At: a.At}
	}
	p.report(Fail, part, whole, "The fair asks “%s”; "+text, append([]any{says}, with...)...)
}

// askedWeight compares the ballast of every tent's legs.
func (p *Pass) askedWeight(a rules.Ask) {
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Tent == nil || part.Tent.Ballast >= *a.Weight {
			continue
		}
		has := "no ballast is stated"
		if part.Tent.Ballast > 0 {
			has = part.Tent.Ballast.Format(p.Plan.Units) + " stand on each leg"
		}
		p.asks(a, part, &Figure{Measured: part.Tent.Ballast.Kg(), Limit: a.Weight.Kg(), Unit: "kg"}, "%s of %s", has, part.Name)
	}
}

// askedBounds compares how far things reach.
func (p *Pass) askedBounds(a rules.Ask, of func(y, z float64) float64, most float64, text string) {
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Moving || part.Beyond || part.Flat {
			continue
		}
		reach := most
		for _, c := range part.Room() {
			_, hi := c.Bounds()
			reach = max(reach, of(hi.Y, hi.Z))
		}
		if reach > most+hair {
			p.asks(a, part, metres(reach, most), "%s "+text, part.Name, p.length(reach), p.length(most))
		}
	}
}

// ground is how far a part's lowest point is above the ground, in metres.
func ground(part *booth.Part) float64 {
	least := 1e9
	for _, c := range part.Room() {
		lo, _ := c.Bounds()
		least = min(least, lo.Y)
	}
	return least
}
