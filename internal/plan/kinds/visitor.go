package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/figure"
)

// Visitor is a plain figure, for scale, that also stands in the way of a view.
type Visitor struct {
	Name    string       `yaml:"name" doc:"a short name of your own"`
	Who     string       `yaml:"who" oneof:"adult child wheelchair" doc:"a grown-up, a child, or somebody in a wheelchair"`
	Stature *unit.Length `yaml:"stature" range:"2ft..8ft" doc:"how tall; the usual of its kind if left out"`
	LooksAt string       `yaml:"looks at" doc:"what it faces, such as work/heron; the back wall if left out"`
	Placing `yaml:",squash"`
}

var visitorKind = many("visitors", "Plain figures for scale; they hide what is behind them.",
	Visitor{Who: "adult"}, buildVisitors)

// Statures in metres: mean of men's and women's means of ANSUR II (2012); CDC 2000 growth charts, median at six years.
const (
	adultStature = 1.69
	childStature = 1.15
)

func buildVisitors(s *Site, entries []entry[Visitor]) {
	for _, en := range entries {
		it, e := en.item, en.says
		stature := adultStature
		if e.Who == "child" {
			stature = childStature
		}
		if e.Stature != nil {
			stature = e.Stature.M()
		}
		var body figure.Figure
		switch e.Who {
		case "child":
			body = figure.Child(stature)
		case "wheelchair":
			if e.Stature != nil {
				it.Fault("stature", "leave it out, or set the rule wheelchair eye", "a visitor in a wheelchair has no standing height")
			}
			body = figure.InWheelchair(rules.WheelchairEye.In(s.Plan.Rules))
		default:
			body = figure.Adult(stature)
		}
		var thing *booth.Part
		if e.LooksAt != "" {
			if thing = s.Plan.Part(booth.ID(e.LooksAt)); thing == nil {
				it.Fault("looks at", "write the thing's kind and name, such as work/heron", "there is no %q", e.LooksAt)
				continue
			}
		}
		f := s.facing(s.stand(it, e.Placing, 0, 0).Origin, thing, e, body.Mesh)
		name := "the visitor"
		if e.Name != "" {
			name += " " + e.Name
		}
		p := booth.Part{
			ID: en.id("visitor", e.Name), Kind: "visitors", Name: name, At: it.At(""), Frame: f, Moving: true, Skinned: true, Dressing: true,
			Surfaces: []booth.Surface{{Mesh: f.Mesh(body.Mesh), Look: plainLook(booth.Colour{0x9b, 0x98, 0x94})}},
		}
		for _, c := range body.Solids {
			p.Solids = append(p.Solids, f.Solid(c))
		}
		s.add(p)
	}
}

// facing is the frame of a visitor who stands near the place, as the entry says, and looks at the thing, or at the back wall
// where there is none. The distances of the entry are clear of the body as it is drawn, which is neither round nor in the
// middle of its origin; so where it stands and how it is turned wait for each other.
func (s *Site) facing(place geom.Vec, thing *booth.Part, e Visitor, body geom.Mesh) geom.Frame {
	const turns, still = 20, 1e-9 // tries, and metres
	points := make([]geom.Vec, len(body.Vertices))
	for i, v := range body.Vertices {
		points[i] = v.P
	}
	var f geom.Frame
	for range turns {
		gaze := geom.Vec{Z: -1}
		if thing != nil {
			if to := thing.Frame.Origin.Sub(place); math.Hypot(to.X, to.Z) > 1e-6 {
				gaze = to
			}
		}
		f = geom.Upright(geom.Vec{}, gaze).Turned(float64(e.Turn))
		turned := make([]geom.Vec, len(points))
		for i, v := range points {
			turned[i] = f.At(v)
		}
		lo, hi := geom.Bounds(turned)
		f.Origin = s.place(e.Placing, lo, hi)
		if f.Origin.Dist(place) < still {
			break
		}
		place = f.Origin
	}
	return f
}
