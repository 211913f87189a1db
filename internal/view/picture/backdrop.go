package picture

import (
	"math"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// What stands behind everything, sRGB. Outdoors a pale bright sky, a little bluer overhead; indoors the far walls of a
// hall, darker towards the roof.
var (
	skyLow    = linear(booth.Colour{228, 234, 238})
	skyHigh   = linear(booth.Colour{172, 199, 226})
	hallLow   = linear(booth.Colour{172, 172, 171})
	hallHigh  = linear(booth.Colour{112, 113, 116})
	bareEarth = linear(booth.Colour{150, 152, 132})
)

const (
	hallDepth = 25.0 // metres from the eye to the hall's far walls
	hallRise  = 1.5  // how soon, with the slope of the line of sight, the colour of the horizon becomes the one above
	skyRise   = 2.0
	clearAir  = 35.0 // metres beyond the ground that is drawn in which about two thirds of its colour are lost to haze
)

// ground is the ground beyond the part that is drawn as such: its colour at its farthest corners, and how far they are
// from the middle of the booth's front, in metres.
type ground struct {
	surface *surface // nil: none is drawn
	light   rgb      // that arrives there
	texture rgb      // mean colour of what covers it
	radius  float64
}

// colour is how it looks, exposed so many times brighter than for whoever stands in the booth.
func (g *ground) colour(brighter [3]float32) rgb {
	if g.surface == nil {
		return bareEarth
	}
	return g.surface.factor(g.light, brighter).times(g.texture)
}

func (st *Stage) groundOf(l *light.Lit) ground {
	g := ground{}
	for n, s := range l.Surfaces {
		if !st.plan.Parts[s.Part].Flat {
			continue
		}
		paint := rgb{1, 1, 1}
		if t := st.surfaces[n].texture; t != nil {
			paint = t.mean
		}
		for i, v := range s.Mesh.Vertices {
			if r := math.Hypot(v.P.X, v.P.Z); r > g.radius {
				l := lit(s.Light[i])
				if s.Sun != nil {
					l = l.plus(rgb{1, 1, 1}, s.Sun[i])
				}
				g = ground{&st.surfaces[n], l, paint, r}
			}
		}
	}
	return g
}

// backdrop is the background of each row of the picture: sky, and below the horizon the ground going on into haze; or
// the hall's walls and its floor.
func (s *Stage) backdrop(c lens, brighter [3]float32) []rgb {
	ground := s.ground.colour(brighter)
	skyLow, skyHigh, hallLow, hallHigh := s.dimmed(skyLow), s.dimmed(skyHigh), s.dimmed(hallLow), s.dimmed(hallHigh)
	rows := make([]rgb, c.height)
	for y := range rows {
		slope := (c.horizon - float64(y) - 0.5) / c.focal // up from the horizon
		away := math.Inf(1)                               // metres to where the line of sight meets the ground
		if slope < 0 {
			away = c.eye.Y / -slope
		}
		switch {
		case s.plan.Pitch.Indoor && away < hallDepth:
			rows[y] = ground
		case s.plan.Pitch.Indoor:
			rows[y] = hallLow.toward(hallHigh, 1-math.Exp(-hallRise*max(0, slope)))
		case slope < 0:
			rows[y] = ground.toward(skyLow, 1-math.Exp(-max(0, away-s.ground.radius)/clearAir))
		default:
			rows[y] = skyLow.toward(skyHigh, 1-math.Exp(-skyRise*slope))
		}
	}
	return rows
}

// dimmed is a colour of what stands behind everything, at the time of the stage.
func (s *Stage) dimmed(c rgb) rgb {
	d := 1 - s.dusk
	return c.times(rgb{d, d, d})
}
