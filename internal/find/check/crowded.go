package check

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// A thing that is nearer to the eye than this and fills so much of the picture is what the picture shows: common practice,
// no source.
const (
	closeBy  = 60 * float64(unit.Inch)
	fills    = 1.0 / 6 // of the picture: worth knowing
	fillsAll = 1.0 / 3 // of the picture: worth a change
)

var crowded = Check{
	Name: "view", Doc: "Nothing that stands within 60 in of the eye fills a sixth of a view's picture.",
	Source: practice,
	Run: func(p *Pass) {
		for _, v := range p.Plan.Views {
			if v.Across <= 0 {
				continue
			}
			eye := v.From(p.usual())
			frame := pictured(v, eye)
			for _, h := range p.seeFace(eye, frame, func(owner int) bool { return !p.movable(owner, v) }).hidden {
				part := &p.Plan.Parts[h.number]
				share := 1 - p.seeFace(eye, frame, func(owner int) bool { return owner != h.number }).visible
				f := Finding{View: v.Name, Figure: shares(share, fills), Source: practice}
				switch {
				case share < fills:
				case part.Work != nil && part.Work.Face.Normal().Dot(eye.Sub(part.Work.Face.Centre())) < 0:
					p.report(levelOf(share), part, f, "The back of %s fills %s of the view %s: turn it or move it", part.Name, percent(share), v.Name)
				default:
					p.report(levelOf(share), part, f, "%s stands near the eye and fills %s of the view %s", unit.Capital(part.Name), percent(share), v.Name)
				}
			}
		}
	},
}

func levelOf(share float64) Level {
	if share >= fillsAll {
		return Caution
	}
	return Note
}

// movable reports whether a part, by its number, can be in the way of a view: it stands in the booth and can be moved. Walls,
// what is on them and people are what a view is to show.
func (p *Pass) movable(number int, v booth.View) bool {
	part := &p.Plan.Parts[number]
	e := p.ease(part)
	return !part.Flat && !part.Beyond && (e == onTop || e == onGround) && !(v.Bare && part.Dressing)
}

// pictured is the rectangle at the distance closeBy before the eye that fills a view's picture of 16 x 9. Cameras are level,
// their lenses shifted: so it is upright.
func pictured(v booth.View, eye geom.Vec) geom.Polygon {
	look := v.Look.Sub(eye)
	ahead := math.Hypot(look.X, look.Z)
	f := geom.Upright(eye.Add(geom.Vec{X: look.X, Y: look.Y, Z: look.Z}.Mul(closeBy/ahead)), look.Neg())
	half := closeBy * math.Tan(v.Across/2)
	return geom.Rect(f, -half, -half*9/16, half, half*9/16)
}
