package kinds

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/figure"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/unit"
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
		wide, deep := 0.45, 0.30 // metres of ground that a standing person takes
		switch e.Who {
		case "child":
			body = figure.Child(stature)
		case "wheelchair":
			if e.Stature != nil {
				it.Fault("stature", "leave it out, or set the rule wheelchair eye", "a visitor in a wheelchair has no standing height")
			}
			body = figure.InWheelchair(rules.WheelchairEye.In(s.Plan.Rules))
			wide, deep = 0.66, 1.07 // the chair of 1991 ADAAG figure A3: 26 x 42 in
		default:
			body = figure.Adult(stature)
		}
		place := s.stand(it, e.Placing, wide, deep).Origin
		gaze := geom.Vec{Z: -1}
		if e.LooksAt != "" {
			thing := s.Plan.Part(booth.ID(e.LooksAt))
			if thing == nil {
				it.Fault("looks at", "write the thing's kind and name, such as work/heron", "there is no %q", e.LooksAt)
				continue
			}
			gaze = thing.Frame.Origin.Sub(place)
		}
		f := geom.Upright(place, gaze)
		if math.Hypot(gaze.X, gaze.Z) < 1e-6 {
			f = geom.Upright(place, geom.Vec{Z: -1})
		}
		f = f.Turned(float64(e.Turn))
		p := booth.Part{
			ID: en.id("visitor", e.Name), Kind: "visitors", Name: "a visitor", At: it.At(""), Frame: f, Moving: true, Dressing: true,
			Surfaces: []booth.Surface{{Mesh: f.Mesh(body.Mesh), Look: plainLook(booth.Colour{0x9b, 0x98, 0x94})}},
		}
		for _, c := range body.Solids {
			p.Solids = append(p.Solids, f.Solid(c))
		}
		s.add(p)
	}
}
