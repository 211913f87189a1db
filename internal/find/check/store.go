package check

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

const (
	sellerWide = 18 * float64(unit.Inch) // metres that somebody who sells goes through sideways with a parcel
	storeSeen  = 0.03                    // of a store's ground, that may be seen before it is told
	storeHigh  = 30 * float64(unit.Inch) // metres above the ground to which things in a store are stacked
)

var stores = Check{
	Name: "store", Doc: "You get into the store behind a wall, and visitors do not see into it.",
	Source: practice,
	Run: func(p *Pass) {
		for _, s := range p.Plan.Stores {
			wall := p.Plan.Part(s.Wall)
			if wall == nil {
				continue
			}
			p.reachStore(s, wall)
			p.seeStore(s, wall)
		}
	},
}

// reachStore tells of a store that whoever sells cannot get into: stores and their curtains stop nobody who sells.
func (p *Pass) reachStore(s booth.Store, wall *booth.Part) {
	open := *p.Plan
	open.Stores = nil
	var curtains []booth.ID
	for _, st := range p.Plan.Stores {
		curtains = append(curtains, st.Curtains...)
	}
	f := way.NewFloor((&Pass{Plan: &open}).closed(func(part *booth.Part) bool {
		return !part.Moving && !slices.Contains(curtains, part.ID)
	}))
	lo, hi := geom.Bounds(s.Ground)
	room := f.Largest(way.Rect(way.Point{X: lo.X, Z: lo.Z}, way.Point{X: hi.X, Z: hi.Z}))
	in := f.Widest(p.door(), room.Centre)
	width := min(in.Width, room.Diameter)
	if room.Diameter > 0 && width >= sellerWide-hair {
		return
	}
	p.report(Fail, wall, Finding{Figure: metres(max(0, width), sellerWide), Source: practice},
		"You cannot get into the store behind %s: the way is %s wide, and %s is the least; make the wall narrower, or its distance larger", wall.Name, p.length(max(0, width)), p.length(sellerWide))
}

// seeStore tells from where visitors see most of what stands in a store.
func (p *Pass) seeStore(s booth.Store, wall *booth.Part) {
	floor := slices.Clone(s.Ground)
	for i := range floor {
		floor[i].Y = storeHigh
	}
	if floor.Normal().Y < 0 {
		slices.Reverse(floor)
	}
	most, from := 0.0, booth.View{}
	for _, v := range p.Plan.Views {
		if v.Height > 0 { // your own chair
			continue
		}
		if share := p.seeFace(v.From(p.usual()), floor, func(owner int) bool { return p.Plan.Parts[owner].Moving }).visible; share > most {
			most, from = share, v
		}
	}
	if most > storeSeen {
		p.report(Caution, wall, Finding{View: from.Name, Figure: shares(most, storeSeen), Source: practice},
			"Visitors see %s of the store behind %s (%s): make the wall higher or wider, or draw its curtain further", percent(most), wall.Name, from.Name)
	}
}
