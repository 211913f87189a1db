package kinds

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Fixing is how a work hangs.
type Fixing struct {
	By    string       `yaml:"hang by" oneof:"wire rings sawtooth cleat" doc:"what is on its back: a wire between two rings, two rings, a sawtooth plate or a cleat"`
	Rings *unit.Length `yaml:"rings" range:"1/2in..12ft" doc:"from ring to ring"`
	Wire  *unit.Length `yaml:"wire" range:"1/2in..14ft" doc:"length of the wire from ring to ring"`
	Down  *unit.Length `yaml:"rings down" range:"0in..12ft" doc:"from the work's upper edge down to the rings, the sawtooth or the cleat"`
	Hooks int          `yaml:"hooks" range:"0..2" doc:"hooks that carry it: a wire hangs on 1 or 2"`
	Holds unit.Weight  `yaml:"wire holds" doc:"what the maker says that its wire carries"`
}

// Usual measures where the scene states none, all common practice without a source: rings two thirds of the width apart,
// a wire a sixth longer than that, which leaves it at 31 degrees, and its highest point two inches below the upper edge.
const (
	ringShare    = 2.0 / 3
	wireSlack    = 7.0 / 6
	usualHidden  = 2 * 0.0254         // metres
	usualSaw     = 0.5 * 0.0254       // metres
	usualCleat   = 2 * 0.0254         // metres
	sagOfSpacing = 0.3004626062886658 // sag over spacing of such a wire: sqrt((7/6)² - 1) / 2
)

// fixing is how a work hangs, usual measures standing in for what is not stated.
func (s *Site) fixing(e *workEntry) booth.Fixing {
	h, w := e.outer()
	says := e.Fixing
	f := booth.Fixing{By: booth.Hanger(says.By), Hooks: says.Hooks, Holds: says.Holds, At: e.item.At("")}
	if f.Holds == 0 {
		f.Holds = s.wireHolds
	}
	if f.By == "" {
		f.By, f.Assumed = booth.Wire, says.Wire == nil
		if says.Rings != nil && says.Wire == nil {
			f.By = booth.Rings
		}
	}
	fit := map[booth.Hanger][2]int{booth.Wire: {1, 2}, booth.Rings: {2, 2}, booth.Sawtooth: {1, 1}, booth.Cleat: {2, 2}}[f.By]
	if f.Hooks == 0 {
		f.Hooks = fit[0]
	}
	if f.Hooks < fit[0] || f.Hooks > fit[1] {
		e.item.Fault("hooks", "leave it out", "a work that hangs by %s cannot hang on %d hooks", plainNames[f.By], f.Hooks)
	}
	if f.By != booth.Wire && says.Wire != nil {
		e.item.Fault("wire", "say hang by: wire, or leave the wire out", "a work that hangs by %s has no wire", plainNames[f.By])
	}
	take := func(stated *unit.Length, usual float64) float64 {
		if stated != nil {
			return stated.M()
		}
		f.Assumed = true
		return usual
	}
	switch f.By {
	case booth.Sawtooth:
		f.Drop = take(says.Down, usualSaw)
		return f
	case booth.Cleat:
		f.Drop = take(says.Down, usualCleat)
		return f
	}
	f.Spacing = take(says.Rings, max(0.02, min(ringShare*w, (h/2-usualHidden)/sagOfSpacing)))
	sag := 0.0
	if f.By == booth.Wire {
		f.Wire = take(says.Wire, wireSlack*f.Spacing)
		sag = sagOfSpacing * f.Spacing
		if says.Rings == nil && says.Wire != nil { // the spacing follows from the wire that is there
			f.Spacing = min(f.Spacing, f.Wire/wireSlack)
		}
	}
	f.Drop = take(says.Down, min(max(h/4, sag+usualHidden), h/2))
	switch sys := s.file.Units; {
	case e.Size.A == 0: // that it has no size is told already
	case f.Spacing > w:
		e.item.Fault("rings", "measure from ring to ring", "rings %s apart do not fit on a work %s wide", unit.Length(f.Spacing).Format(sys), unit.Length(w).Format(sys))
	case f.By == booth.Wire && f.Wire <= f.Spacing:
		e.item.Fault("wire", "measure the wire from ring to ring, pulled straight", "a wire of %s does not reach between rings %s apart",
			unit.Length(f.Wire).Format(sys), unit.Length(f.Spacing).Format(sys))
	case f.Drop > h:
		e.item.Fault("rings down", "measure from the upper edge", "the work is only %s high", unit.Length(h).Format(sys))
	}
	return f
}

var plainNames = map[booth.Hanger]string{booth.Wire: "a wire", booth.Rings: "rings", booth.Sawtooth: "a sawtooth", booth.Cleat: "a cleat"}
