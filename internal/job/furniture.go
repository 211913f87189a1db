package job

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/arrange"
	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// What is tried of furniture, by coordinate descent: one thing after the other, along each side of the pitch; a table by itself, and
// with the chair at either end of it, as one may stand where the other would have to go first.
const (
	pace     = 18 * unit.Inch // from place to place along a side
	wayCount = 0.5            // what a way as wide as the turning circle counts, beside all that is seen of the works now
	apart    = 4 * unit.Foot  // that a chair may be from the nearest table, middle to middle, unless it is farther now
	farther  = 0.2            // what each metre more costs
	looks    = 8              // places of one thing whose findings are asked for, the best first
)

// furnished is where the tables, the bins and the chair of a scene stand so that the way in is wide and most is seen of the
// works; nil if they stand no worse now. Each stands with its back against a side; what stands in the
// aisle, or on another thing, stays.
func (s *sitting) furnished(a *Arranged) (*Way, error) {
	f, err := s.Parse(s.was)
	if err != nil {
		return nil, err
	}
	now := &furnishing{f, s.plan, 0}
	for _, key := range furniture {
		for n, it := range f.Items(key) {
			if it.Has("before front") || it.Has("on") {
				continue
			}
			path := scene.Path{{Key: key}}
			if key != "chair" {
				path = append(path, scene.Step{Nth: n})
			}
			better, err := s.stood(a, now, path)
			if err != nil {
				return nil, err
			}
			if better != nil {
				now = better
			}
		}
	}
	if now.file == f {
		return nil, nil
	}
	w, err := s.made(now.file, now.plan)
	if err != nil {
		return nil, err
	}
	s.weigh(a, w)
	if len(worse(a.Now.Report(), w.Mockup.Report(), w.Costs.New)) > 0 {
		return nil, nil
	}
	var text []string
	for _, key := range furniture {
		if lines := w.file.Lines(key); lines != f.Lines(key) {
			text = append(text, lines)
		}
	}
	w.Rows = strings.Join(text, "\n")
	return w, nil
}

// furniture are the keys of what is moved.
var furniture = []string{"tables", "bins", "chair"}

// furnishing is a version of the scene and what it is worth.
type furnishing struct {
	file  *scene.File
	plan  *booth.Plan
	value float64
}

// stood is the best place for one thing that makes no finding of the checks worse; nil for where it stands.
func (s *sitting) stood(a *Arranged, now *furnishing, path scene.Path) (*furnishing, error) {
	worth := func(p *booth.Plan) float64 {
		seen, _ := arrange.Score(p)
		return seen/max(a.Before, 1e-12) + wayCount*wayIn(p) - farther*max(0, (nearestTable(p)-max(apart, nearestTable(s.plan))).M())
	}
	now.value = worth(now.plan)
	var tried []*furnishing
	for _, side := range []string{"left", "back", "right"} {
		along, room := "from front", now.plan.Pitch.Depth
		if side == "back" {
			along, room = "from left", now.plan.Pitch.Width
		}
		for at := unit.Length(0); at.M() < room; at += pace {
			f, err := moved(now.file, path, side, along, at)
			if err != nil {
				return nil, err
			}
			plan, err := s.Build(f)
			if err != nil || !onPitch(plan, f.Entry(path)) {
				continue
			}
			versions := []*furnishing{{f, plan, worth(plan)}}
			if path[0].Key == "tables" {
				versions = append(versions, s.seated(f, plan, path, side, along, worth)...)
			}
			a.Stood += len(versions)
			tried = append(tried, versions...)
		}
	}
	slices.SortStableFunc(tried, func(x, y *furnishing) int { return cmp.Compare(y.value, x.value) })
	before := finding.Report{Findings: check.Again(now.plan, &s.kept).Findings}
	for _, t := range tried[:min(looks, len(tried))] {
		if t.value < now.value+0.005 { // half a percent: less is not worth a change
			return nil, nil
		}
		after := finding.Report{Findings: check.Again(t.plan, &s.kept).Findings}
		if len(worse(before, after, finding.Beyond(after.Findings, before.Findings))) == 0 {
			var err error
			t.file, err = s.Parse(t.file.Source()) // what is built is noted in the file
			return t, err
		}
	}
	return nil, nil
}

// seated are the versions of a scene in which the chair stands beside a table that has its back against a side, before it and after it.
func (s *sitting) seated(f *scene.File, plan *booth.Plan, path scene.Path, side, along string, worth func(*booth.Plan) float64) (out []*furnishing) {
	const elbow = 2 * unit.Inch // between chair and table
	chair := scene.Path{{Key: "chair"}}
	if chairs := f.Items("chair"); len(chairs) == 0 || chairs[0].Has("before front") || chairs[0].Has("on") {
		return nil
	}
	table, seat := partOf(plan, f.Entry(path)), partOf(plan, f.Entry(chair))
	if table == nil || seat == nil {
		return nil
	}
	low, high := reach(plan, table, along)
	a, b := reach(plan, seat, along)
	for _, at := range []unit.Length{low - elbow - (b - a), high + elbow} {
		if at < 0 {
			continue
		}
		g, err := moved(f, chair, side, along, at)
		if err != nil {
			continue
		}
		if p, err := s.Build(g); err == nil && onPitch(p, g.Entry(chair)) {
			out = append(out, &furnishing{g, p, worth(p)})
		}
	}
	return out
}

// partOf is the part of an entry; nil for none.
func partOf(p *booth.Plan, e scene.Item) *booth.Part {
	i := slices.IndexFunc(p.Parts, func(part booth.Part) bool { return part.Parent == "" && part.At == e.At("") })
	if i < 0 {
		return nil
	}
	return &p.Parts[i]
}

// reach is from where to where a thing stands, from the left or from the front of the pitch.
func reach(p *booth.Plan, part *booth.Part, along string) (from, to unit.Length) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range part.Room() {
		for _, v := range c.Corners {
			at := -v.Z
			if along == "from left" {
				at = v.X + p.Pitch.Width/2
			}
			low, high = min(low, at), max(high, at)
		}
	}
	return unit.Length(low), unit.Length(high)
}

// onPitch is whether the thing of an entry is on the pitch with all that it takes.
func onPitch(p *booth.Plan, e scene.Item) bool {
	part := partOf(p, e)
	return part != nil && !slices.ContainsFunc(part.Room(), func(c geom.Convex) bool {
		return slices.ContainsFunc(c.Corners, func(v geom.Vec) bool {
			return math.Abs(v.X) > p.Pitch.Width/2 || v.Z > 0 || v.Z < -p.Pitch.Depth
		})
	})
}

// moved is the scene with a thing that has its back against a side, so far along it.
func moved(f *scene.File, path scene.Path, side, along string, at unit.Length) (*scene.File, error) {
	e := f.Entry(path)
	var err error
	for _, key := range []string{"from left", "from right", "from front", "from back", "turn"} {
		if key != along && e.Has(key) {
			if f, err = f.Delete(append(slices.Clone(path), scene.Step{Key: key})); err != nil {
				return nil, err
			}
		}
	}
	if f, err = f.Set(append(slices.Clone(path), scene.Step{Key: "against"}), side); err != nil {
		return nil, err
	}
	return f.Set(append(slices.Clone(path), scene.Step{Key: along}), at)
}

// wayIn is how wide the way in is, as a share of the turning circle; more than that helps nobody.
func wayIn(p *booth.Plan) float64 {
	for _, c := range check.WayIn(p).Clearances {
		if c.From == "entrance" {
			if c.Width == nil {
				return 1
			}
			return min(1, *c.Width/rules.TurningCircle.In(p.Rules))
		}
	}
	return 0
}

// nearestTable is how far the chair is from the nearest table; 0 where there is none.
func nearestTable(p *booth.Plan) unit.Length {
	near := math.Inf(1)
	for _, chair := range p.Parts {
		if chair.Kind != "chair" {
			continue
		}
		for _, t := range p.Parts {
			if t.Kind == "tables" {
				near = min(near, t.Frame.Origin.Dist(chair.Frame.Origin))
			}
		}
	}
	if math.IsInf(near, 1) {
		return 0
	}
	return unit.Length(near)
}
