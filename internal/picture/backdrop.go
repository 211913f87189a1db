package picture

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/colour"
	"boothmock/internal/light"
)

// What stands behind everything, sRGB. Outdoors a pale bright sky, a little bluer overhead; indoors a hall's grey.
var (
	skyLow    = linear(booth.Colour{228, 234, 238})
	skyHigh   = linear(booth.Colour{172, 199, 226})
	hall      = linear(booth.Colour{196, 195, 192})
	bareEarth = linear(booth.Colour{150, 152, 132})
)

func linear(c booth.Colour) rgb {
	return rgb{colour.Light(c[0]), colour.Light(c[1]), colour.Light(c[2])}
}

func (a rgb) toward(b rgb, t float64) rgb {
	f := float32(t)
	return rgb{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1]), a[2] + f*(b[2]-a[2])}
}

// ground is the ground beyond the part that is drawn as such: its colour at its farthest corners, and how far they are
// from the middle of the booth's front, in metres.
type ground struct {
	colour rgb
	radius float64
}

func groundOf(p *booth.Plan, l *light.Lit) ground {
	g := ground{colour: bareEarth}
	for _, s := range l.Surfaces {
		if !p.Parts[s.Part].Flat {
			continue
		}
		for i, v := range s.Mesh.Vertices {
			if r := math.Hypot(v.P.X, v.P.Z); r > g.radius {
				c, e := linear(s.Look.Colour), s.Light[i]
				g = ground{rgb{c[0] * e[0], c[1] * e[1], c[2] * e[2]}, r}
			}
		}
	}
	return g
}

// backdrop is the background of each row of the picture: sky, and below the horizon the ground going on into haze.
func (s *Stage) backdrop(c camera) []rgb {
	rows := make([]rgb, c.height)
	top := skyLow
	if s.plan.Pitch.Indoor {
		top = hall
	}
	for y := range rows {
		slope := (c.horizon - float64(y) - 0.5) / c.focal // up from the horizon
		switch {
		case slope < 0:
			away := c.eye.Y / -slope
			haze := 1 - math.Exp(-max(0, away-s.ground.radius)/(2*s.ground.radius+40))
			rows[y] = s.ground.colour.toward(top, haze)
		case s.plan.Pitch.Indoor:
			rows[y] = hall
		default:
			rows[y] = skyLow.toward(skyHigh, 1-math.Exp(-2*slope))
		}
	}
	return rows
}
