package kinds

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

const (
	barUnder = 0.05  // metres from the eave down to what hangs under a tent's bar, or is clamped there
	barAt    = 0.015 // metres from the eave down to its middle, about
	barIn    = 0.02  // metres from the pitch's edge to its middle, about
	cord     = 0.003 // metres, of a cord that something hangs by
)

// tent is the first tent, to whose bars things are clamped; empty without one.
func (s *Site) tent() booth.ID {
	for _, p := range s.Plan.Parts {
		if p.Tent != nil {
			return p.ID
		}
	}
	return ""
}

// bar is a bar of the tent by its name: the frame of its side of the pitch, and its length.
func (s *Site) bar(name string) (f geom.Frame, width float64, of booth.Side, ok bool) {
	side, found := strings.CutSuffix(name, " bar")
	if of, ok = sideNames[side]; !found || !ok {
		return f, 0, 0, false
	}
	f, width = s.edge(of)
	return f, width, of, true
}

// suspend says on the part of a thing w wide, d deep and h high where it hangs: its frame is at the middle of its underside.
func (s *Site) suspend(it scene.Item, e Belonging, p *booth.Part, w, d, h float64) bool {
	key, from := "hangs on", e.HangsOn
	if e.HangsUnder != "" {
		key, from = "hangs under", e.HangsUnder
	}
	for _, field := range []string{"hangs on", "wall", "on", "along", "back", "against", "from left", "from right", "from front", "from back", "before front", "fixed"} {
		if field != key && it.Has(field) {
			it.Fault(field, "keep one of the two", "%s hangs, and %q is of one that does not, or hangs elsewhere", p.Name, field)
			return false
		}
	}
	p.Hangs = true
	across := func(width float64) float64 { // from the left end to its middle
		if e.Left != nil {
			return e.Left.M() + w/2
		}
		return width / 2
	}
	upper := func(usual float64) float64 {
		if e.Height != nil {
			return e.Height.M()
		}
		return usual
	}
	t, known := s.tops[from]
	side, width, of, bar := s.bar(from)
	id, wall := s.walls[from]
	switch {
	case bar && s.eave == 0:
		it.Fault(key, "write the name of a wall or a table", "without a tent there is no %s", from)
	case bar: // on either key: what hangs on a bar hangs under it
		p.Frame, p.Parent, p.Clamped = side.Moved(geom.Vec{X: across(width), Y: upper(s.eave-barUnder) - h, Z: barIn}), s.tent(), true
		if of == booth.Front || s.Plan.Pitch.Open[of] { // people look at it from the aisle
			p.Frame = p.Frame.Turned(math.Pi)
		}
		p.Frame = p.Frame.Turned(float64(e.Turn))
		p.Solids = cords(p.Frame, w, h, s.eave-barAt)
		return true
	case key == "hangs under" && !known:
		s.unknown(it, key, "table, shelf or bar of the tent", from, names(s.tops), "tables", "things")
	case key == "hangs under" && t.thick == 0:
		it.Fault(key, "say hangs on: for its front", "nothing hangs under %s, which has no room below", s.Plan.Part(t.id).Name)
	case key == "hangs under":
		high := t.at.Origin.Y - t.thick
		p.Frame, p.Parent = t.at.Moved(geom.Vec{X: across(t.w) - t.w/2, Y: upper(high) - h - t.at.Origin.Y}).Turned(float64(e.Turn)), t.id
		p.Solids = cords(p.Frame, w, h, high)
		return true
	case wall && s.Plan.Part(id).Wall.Hold == booth.None:
		it.Fault(key, "hang it on mesh, a panel, chains or a rail", "nothing holds %s on %s", p.Name, s.Plan.Part(id).Name)
	case wall:
		on := s.Plan.Part(id)
		p.Frame, p.Parent = on.Frame.Moved(geom.Vec{X: across(on.Wall.Width), Y: upper(rules.HangingCentre.In(s.Plan.Rules)+h/2) - h, Z: d / 2}), id
		return true
	case known:
		p.Frame, p.Parent = t.at.Moved(geom.Vec{X: across(t.w) - t.w/2, Y: upper(t.at.Origin.Y) - h - t.at.Origin.Y, Z: t.d/2 + t.folds + d/2}), t.id
		return true
	default:
		all := maps.Clone(s.walls)
		for name := range s.tops {
			all[name] = ""
		}
		s.unknown(it, key, "wall, table or thing", from, names(all), "walls", "tables", "pedestals", "things")
	}
	return false
}

// cords are two, from the upper edge of what hangs up to what it hangs under.
func cords(f geom.Frame, w, h, high float64) (out []geom.Convex) {
	long := high - f.Origin.Y - h
	if long < cord {
		return nil
	}
	for _, x := range []float64{-0.4 * w, 0.4 * w} {
		out = append(out, geom.Box(f, geom.Vec{X: x - cord/2, Y: h, Z: -cord / 2}, geom.Vec{X: x + cord/2, Y: h + long, Z: cord / 2}))
	}
	return out
}

// hangFromBars are the tasks of what hangs under the bars of the tent.
func (s *Site) hangFromBars() {
	for i := range s.Plan.Parts {
		p := &s.Plan.Parts[i]
		if !p.Hangs || p.Parent != s.tent() {
			continue
		}
		cargo := []booth.Cargo{{What: strings.TrimPrefix(p.Name, "the ") + " with its cords", Count: 1, Weight: p.Heft, Assumed: true}}
		s.setUp(booth.Task{
			ID: p.ID, Name: fmt.Sprintf("Hang %s from the tent", p.Name), At: p.At, After: slices.Clone(s.standsFirm), Crew: 1, Minutes: 2 * rules.ThingTime.In(s.Plan.Rules), Place: p.ID, Parts: []booth.ID{p.ID},
			Fetch: cargo, Check: "It is tied twice, and nobody's head meets it.", Caution: ladder,
		})
		s.strike(booth.Task{ID: p.ID, Name: "Take down " + p.Name, At: p.At, After: []booth.ID{"money"}, Crew: 1, Minutes: rules.ThingTime.In(s.Plan.Rules), Place: p.ID, Parts: []booth.ID{p.ID}, Fetch: cargo, Caution: ladder})
	}
}
