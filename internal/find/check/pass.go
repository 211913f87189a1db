package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
)

// hair is the length below which two lengths count as equal, in metres: lengths are printed to 1/8 in, so what is less
// than half of that would read "36 in, and 36 in is needed". The micrometre decides for what is just half of it, however
// that was worked out.
const hair = float64(unit.Inch)/16 + 1e-6

// Pass is one booth under check, with what several checks need worked out once.
type Pass struct {
	Plan  *booth.Plan
	Works []Work // every artwork, from left to right as somebody sees them who stands before the entrance

	check    string
	tallies  map[Level]*finding.Tally // of the check that runs
	findings []Finding

	kept   *answer.Kept
	bodies []answer.Sum // of the parts
	solids *sight.Crowd // of all parts; their owners are the parts' numbers
	gaze   sight.Gaze
	lines  []Sightline

	ground   *way.Floor
	outlined answer.Sum // of what stands on it, if anything is kept
	inside   *room
	ways     []sideWay
	stands   map[int]stand
	rects    map[*booth.Part]rect
	held     map[held][]body
}

// Work is an artwork and its number among the plan's parts.
type Work struct {
	*booth.Part
	Number int
}

func newPass(plan *booth.Plan) *Pass { return newPassAgain(plan, nil) }

func newPassAgain(plan *booth.Plan, kept *answer.Kept) *Pass {
	p := &Pass{Plan: plan, kept: kept, stands: map[int]stand{}, rects: map[*booth.Part]rect{}, held: map[held][]body{}, findings: []Finding{}}
	var solids []sight.Solid
	var screens []sight.Screen
	for i := range plan.Parts {
		part := &plan.Parts[i]
		if part.Work != nil {
			p.Works = append(p.Works, Work{part, i})
		}
		if part.Flat && part.Parent == "" && len(part.Solids) == 0 { // the ground hides what is in it
			const far, deep = 1000, 10 // metres
			solids = append(solids, sight.NewSolid(geom.Box(geom.World, geom.Vec{X: -far, Y: -deep, Z: -far}, geom.Vec{X: far, Z: far}), i))
		}
		if kept != nil {
			body := part.Body()
			if p.beside(i) {
				var s answer.Summing
				s.Sum(body)
				s.Count(1)
				body = s.Done()
			}
			p.bodies = append(p.bodies, body)
		}
		if !part.SeeThrough {
			shape := part.Solids
			if p.beside(i) {
				shape = facets(part)
			}
			solids = append(solids, sight.NewSolids(shape, i, kept, p.body(i))...)
		}
		for _, w := range part.Screen {
			screens = append(screens, sight.NewScreen(w, i))
		}
	}
	p.solids = sight.NewCrowd(solids, screens...)
	slices.SortStableFunc(p.Works, func(a, b Work) int {
		return cmp.Compare(p.bearing(a.Work.Face.Centre()), p.bearing(b.Work.Face.Centre()))
	})
	return p
}

// body is the sum of part number i, if anything is kept by it.
func (p *Pass) body(i int) answer.Sum {
	if p.kept == nil {
		return answer.Sum{}
	}
	return p.bodies[i]
}

// beside reports whether part number i is somebody who stands so near to where a view is from that the few millimetres by which
// the solids of a body stand out of it would cover much of a work.
func (p *Pass) beside(i int) bool {
	const near = 0.4 // metres
	part := &p.Plan.Parts[i]
	if !part.Moving || len(part.Surfaces) == 0 {
		return false
	}
	lo, hi := geom.BoundsOf(part.Solids)
	return slices.ContainsFunc(p.Plan.Views, func(v booth.View) bool {
		return math.Hypot(max(0, lo.X-v.Stand.X, v.Stand.X-hi.X), max(0, lo.Z-v.Stand.Z, v.Stand.Z-hi.Z)) < near
	})
}

// facets are the triangles that are drawn of a part, each as a solid without depth.
func facets(part *booth.Part) (out []geom.Convex) {
	for _, s := range part.Surfaces {
		for _, t := range s.Mesh.Triangles {
			a, b, c := s.Mesh.Vertices[t[0]].P, s.Mesh.Vertices[t[1]].P, s.Mesh.Vertices[t[2]].P
			if b.Sub(a).Cross(c.Sub(a)).Len() > 0 {
				out = append(out, geom.NewConvex([]geom.Vec{a, b, c}, [][]int{{0, 1, 2}, {0, 2, 1}}))
			}
		}
	}
	return out
}

// run asks one check.
func (p *Pass) run(c Check) {
	p.check, p.tallies = c.Name, map[Level]*finding.Tally{Fail: {}, Caution: {}, Note: {}}
	c.Run(p)
	for _, level := range []Level{Fail, Caution, Note} {
		p.findings = append(p.findings, p.tallies[level].Told()...)
	}
}

// bearing is how far to the right of straight on somebody before the entrance sees a point, in radians; to a millionth, so
// that what is above each other is in the order of the plan.
func (p *Pass) bearing(v geom.Vec) float64 {
	d := p.door()
	return math.Round(math.Atan2(v.X-d.X, d.Z-v.Z)*1e6) / 1e6
}

// report adds a finding about the part; at is the part's own place unless the finding has one already.
func (p *Pass) report(level Level, part *booth.Part, f Finding, format string, args ...any) {
	f.Check, f.Level, f.Item = p.check, level, part.ID
	if f.At == "" {
		f.At = part.At.String()
	}
	p.tallies[level].Add(f, func() string { return fmt.Sprintf(format, args...) })
}

// later are words of a message that take long to find: they are asked for only if the message is told.
type later func() string

func (l later) String() string { return l() }

// reportPitch adds a finding about the pitch as a whole.
func (p *Pass) reportPitch(level Level, f Finding, format string, args ...any) {
	p.report(level, &booth.Part{ID: "pitch", At: p.Plan.Pitch.At}, f, format, args...)
}

// placeOf is where the scene says how a work hangs.
func placeOf(w *booth.Part) string {
	if h := w.Work.Hung; h != nil && h.At != (fault.Place{}) {
		return h.At.String()
	}
	return w.At.String()
}

// length is metres in the scene's units.
func (p *Pass) length(m float64) string { return unit.Length(m).Format(p.Plan.Units) }

// rule is the value of a rule, in metres.
func (p *Pass) rule(r rules.Length) float64 { return r.In(p.Plan.Rules) }

func percent(share float64) string { return unit.Share(math.Round(share*100) / 100).Format() }

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// name is what people call an obstacle's owner: a part, or an edge of the pitch.
func (p *Pass) name(owner int) string {
	if owner < 0 {
		return "the " + booth.Side(-1-owner).String() + " edge of the pitch"
	}
	return p.Plan.Parts[owner].Name
}

// id is the same as an ID.
func (p *Pass) id(owner int) booth.ID {
	if owner < 0 {
		return booth.ID("pitch/" + booth.Side(-1-owner).String())
	}
	return p.Plan.Parts[owner].ID
}

// usual is the usual visitor's eye, for which layouts are judged.
func (p *Pass) usual() booth.Eye { return p.Plan.Eyes[0] }
