package check

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

var overhead = Check{
	Name: "headroom", Doc: "Nothing hangs too low where people walk: no valance, banner or rail.",
	Source: rules.Headroom.Source,
	Run: func(p *Pass) {
		// Of things that hang together, such as a tent's rails and valances, the lowest is named; of tents side by side, all
		// that hang as low.
		var roots []booth.ID
		lowest := map[booth.ID][]jut{}
		for _, j := range p.juts() {
			if !j.over {
				continue
			}
			id := p.root(j.part)
			if p.Plan.Part(id).Tent != nil {
				id = "tent"
			}
			switch l := lowest[id]; {
			case l == nil:
				roots = append(roots, id)
				lowest[id] = []jut{j}
			case j.bottom < l[0].bottom-hair:
				lowest[id] = []jut{j}
			case j.bottom < l[0].bottom+hair && p.root(j.part) != p.root(l[0].part):
				lowest[id] = append(l, j)
			}
		}
		for _, id := range roots {
			j := lowest[id][0]
			var names []string
			for _, l := range lowest[id] {
				names = append(names, l.part.Name)
			}
			verb := "hangs"
			if len(names) > 1 {
				verb = "hang"
			}
			p.report(Caution, j.part, Finding{Figure: metres(j.bottom, p.rule(rules.Headroom)), Source: rules.Headroom.Source},
				"%s %s %s above the ground where people walk; %s is good practice", unit.Capital(list(names)), verb, p.length(j.bottom), p.length(p.rule(rules.Headroom)))
		}
	},
}

var protruding = Check{
	Name: "sticking out", Doc: "Nothing sticks out into the way where a cane does not find it.",
	Source: rules.Protrusion.Source,
	Run: func(p *Pass) {
		juts := p.juts()
		for _, j := range juts {
			on := p.Plan.Part(j.part.Parent)
			told := on != nil && slices.ContainsFunc(juts, func(o jut) bool { return o.part == on }) // the shelf that it stands on
			if !j.over && !told {
				p.report(Caution, j.part, Finding{Figure: metres(j.out, p.rule(rules.Protrusion)), Source: rules.Protrusion.Source},
					"%s sticks out %s with its lower edge %s above the ground, where a cane does not find it; %s is good practice",
					unit.Capital(j.part.Name), p.length(j.out), p.length(j.bottom), p.length(p.rule(rules.Protrusion)))
			}
		}
	},
}

// jut is a part that reaches out over the floor with nothing below it that a cane would find.
type jut struct {
	part   *booth.Part
	bottom float64 // height of its lower edge, in metres
	out    float64 // metres from the nearest thing that a cane finds
	over   bool    // it hangs over people's heads rather than sticking out at them
}

// juts are the parts that lie between cane height and headroom and reach further from whatever stands below than the
// rule allows.
func (p *Pass) juts() []jut {
	cane, head, most := p.rule(rules.CaneHeight), p.rule(rules.Headroom), p.rule(rules.Protrusion)
	below := p.shields(cane)
	var out []jut
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Flat || part.Moving || part.Beyond || part.Cradle || part.Top != nil {
			continue
		}
		worst := jut{part: part}
		for _, c := range part.Room() {
			lo, _ := c.Bounds()
			if lo.Y <= cane+hair || lo.Y >= head-hair {
				continue
			}
			d := farthest(way.Footprint(c, cane, head), below)
			if lower := worst.out == 0 || lo.Y < worst.bottom-hair; d > most+hair && (lower || lo.Y < worst.bottom+hair && d > worst.out) {
				worst.bottom, worst.out = lo.Y, d
			}
		}
		if worst.out > 0 {
			worst.over = worst.bottom >= p.usual().Height && !p.onWall(part)
			out = append(out, worst)
		}
	}
	return out
}

// onWall reports whether the part hangs on a wall.
func (p *Pass) onWall(part *booth.Part) bool {
	parent := p.Plan.Part(part.Parent)
	return part.Parent != "" && parent != nil && parent.Wall != nil && !part.Clamped
}

// root is the part at the bottom of what the part hangs or stands on.
func (p *Pass) root(part *booth.Part) booth.ID {
	for range 8 { // deeper than anything is stacked
		parent := p.Plan.Part(part.Parent)
		if part.Parent == "" || parent == nil {
			break
		}
		part = parent
	}
	return part.ID
}

// shields are the things that a cane finds before the body meets what is above them: whatever reaches below cane height,
// tables of any height, the faces of walls, and the neighbours.
func (p *Pass) shields(cane float64) *way.Floor {
	const wallDeep = 0.3 // metres behind a wall's face that count as the wall
	out := p.neighbours()
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Flat || part.Moving {
			continue
		}
		high := cane
		if part.Top != nil {
			high = *part.Top
		}
		for _, c := range part.Room() {
			if s := way.Footprint(c, lowest, high); s != nil {
				out = append(out, way.Obstacle{Shape: s, Owner: i})
			}
		}
		if w := part.Wall; w != nil {
			f := part.Frame
			out = append(out, way.Obstacle{Owner: i, Shape: way.Hull(flat(
				f.Origin, f.At(geom.Vec{X: w.Width}), f.At(geom.Vec{X: w.Width, Z: -wallDeep}), f.At(geom.Vec{Z: -wallDeep})))})
		}
	}
	return way.NewFloor(outermost(out))
}

// farthest is how far the shape's edge gets from the obstacles: at its corners, at tries 5 cm apart, and in its middle.
func farthest(s way.Shape, f *way.Floor) float64 {
	most := f.Clearance(s.Middle()).Width
	for i, a := range s {
		b := s[(i+1)%len(s)]
		n := int(a.Dist(b)/0.05) + 1
		for k := range n {
			t := float64(k) / float64(n)
			q := way.Point{X: a.X + float64((b.X-a.X)*t), Z: a.Z + float64((b.Z-a.Z)*t)}
			most = max(most, f.Clearance(q).Width)
		}
	}
	return most
}
