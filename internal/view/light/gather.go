package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
)

// rgb is linear light. 1 is the light that an open level field gets from the whole sky.
type rgb [3]float64

func (a rgb) plus(b rgb, f float64) rgb {
	return rgb{a[0] + float64(b[0]*f), a[1] + float64(b[1]*f), a[2] + float64(b[2]*f)}
}

// all is the colour of what has it on all sides.
func (a rgb) all(geom.Vec) rgb { return a }

func (a rgb) times(b rgb) rgb { return rgb{a[0] * b[0], a[1] * b[1], a[2] * b[2]} }

// reach is half the side, in metres, of the square one metre before a surface that stands for all the directions that
// the surface sees. The light from beyond it is one part in reach².
const reach = 1000

// gatherer collects the light that arrives at points of a room. It keeps its buffers and is for one goroutine.
type gatherer struct {
	*room
	gaze  sight.Gaze
	spy   sight.Gaze // at lamps: nothing is too small to stand before them
	last  *known     // what was gathered before, of the part whose light is gathered; nil: nothing
	list  []transfer
	place []int32 // by solid: its place in list, if the transfer there is from it
	which []int   // numbers of the solids that may count
	eye   int     // the eye, and the solid, that decided last who sees what
	stop  int
	skies skylight
}

// slight is what room.least is but for tests.
const slight = 0.006

func newGatherer(r *room) *gatherer {
	return &gatherer{room: r, gaze: sight.Gaze{Least: r.least}, place: make([]int32, len(r.solids))}
}

// transfer is light from one source: the share of it is what the source's brightness, 1, would give.
type transfer struct {
	from  int32 // number of the solid, or sky or field
	share float64
}

const (
	sky   = -1 // a hall's ceiling; of the open sky's parts there are transfers from firstSky on
	field = -2 // open ground
	gone  = -3 // what is there no more
)

// light is what arrives at p on a surface with normal n, past every solid but the owner skip's (-1: none).
//
// What is seen of the part itself, in a fold or between two sheets, is taken to get as much light as p does, so that with a colour c and
// a share s of the view light bounces between them to 1/(1 - c·s) times what comes in: as between endless parallel walls (Stewart and
// Langer, "Toward accurate recovery of shape from shading under diffuse lighting", IEEE PAMI 19, 1997, of places in a hollow; from memory).
func (g *gatherer) light(p, n geom.Vec, skip int) rgb { return g.lightIn(p, n, skip, -1) }

// lightIn is light where the part itself is a share own of the view, or, if that is negative, as much as is found: in a fold of cloth p lies
// before the slab that stands for the cloth.
func (g *gatherer) lightIn(p, n geom.Vec, skip int, own float64) rgb {
	var red, green, blue, self float64 // in registers, where Go keeps no arrays
	list := g.transfers(p, n, skip)
	for i := range list {
		a := &list[i]
		if g.nook != nil && a.from >= 0 && g.solids[a.from].Owner == g.nook.part {
			self += a.share
			continue
		}
		c := g.bright(a.from, p)
		red, green, blue = red+float64(c[0]*a.share), green+float64(c[1]*a.share), blue+float64(c[2]*a.share)
	}
	left := 1.0 // of what else is seen
	if own < 0 {
		own = self
	} else {
		left = (1 - own) / (1 - self)
	}
	if own > 0 || left != 1 {
		c := &g.nook.colour
		red, green, blue = red*left/(1-float64(c[0]*own)), green*left/(1-float64(c[1]*own)), blue*left/(1-float64(c[2]*own))
	}
	return rgb{red, green, blue}
}

// arrive finds where the light at p comes from, each source once; the result is valid until the next call.
//
// The directions before the surface are one large square, seen from p past the solids by the kernel: nothing is sampled.
// The pieces that are left are sky, above the horizon, or open ground, below it. A piece that a solid hides is as
// bright as the side of the solid that p sees.
func (g *gatherer) arrive(p, n geom.Vec, skip int) []transfer {
	g.list = g.list[:0]
	g.which = g.which[:0]
	g.reaches.Each(func(lo, hi geom.Vec) bool { return inside(p, lo, hi, 0) }, func(i int) {
		if skip < 0 || g.solids[i].Owner != skip {
			g.which = append(g.which, i)
		}
	})
	f := facing(n)
	square := geom.Rect(geom.Frame{Origin: n, X: f.X, Y: f.Y.Neg(), Z: n.Neg()}, -reach, -reach, reach, reach)
	var buffer [2][8]geom.Vec
	for i, open := range [2]int{sky, field} {
		half := above(square, buffer[i][:0], float64(1-2*i))
		if len(half) < 3 {
			continue
		}
		g.gaze.Look(p, half, g.solids, g.which)
		seen := 0.0
		g.gaze.Each(func(piece []geom.Vec, by int) {
			switch r := ring(piece); {
			case by >= 0:
				k := int(g.place[by])
				if k >= len(g.list) || g.list[k].from != int32(by) {
					k = len(g.list)
					g.place[by] = int32(k)
					g.list = append(g.list, transfer{from: int32(by)})
				}
				g.list[k].share += r.factor(n)
			case open == sky && !g.indoor:
				g.skies.open(r, n)
			default:
				seen += r.factor(n)
			}
		})
		if open == sky && !g.indoor {
			g.list = g.skies.onto(g.list)
		} else {
			g.list = append(g.list, transfer{int32(open), seen})
		}
	}
	return g.list
}

// bright is how bright a source looks from p.
func (r *room) bright(from int32, p geom.Vec) rgb {
	if from < 0 {
		return r.plain(from)
	}
	return r.look(int(from), p)
}

// plain is how bright a source that is no solid looks, from anywhere.
func (r *room) plain(from int32) rgb {
	switch from {
	case sky:
		return r.sky
	case field:
		return r.openGround
	}
	if k := firstSky - int(from); k >= 0 && k < skies {
		return rgb{}.plus(r.sky, r.over()[k/skyTerms][k%skyTerms])
	}
	if r.off {
		return rgb{}
	}
	return rgb{}.plus(r.lamps[firstLamp-from].tint, 1/r.lux)
}

var white = rgb{1, 1, 1}

// look is how bright solid number k looks from p: the mean of its faces, each by the solid angle that it fills.
func (r *room) look(k int, p geom.Vec) rgb {
	var sum rgb
	total := 0.0
	faces := r.faces[k]
	for i := range faces {
		if w := faces[i].fills(p); w > 0 {
			sum, total = sum.plus(faces[i].bright, w), total+w
		}
	}
	if total > 0 {
		sum = rgb{}.plus(sum, 1/total)
	}
	return sum
}

// fills is about the solid angle that a face fills as p sees it; 0 from behind.
func (f *face) fills(p geom.Vec) float64 {
	d := p.Sub(f.at)
	h := d.Dot(f.n)
	if h <= 0 {
		return 0
	}
	l := d.Len()
	return f.area * h / float64(l*l*l)
}

// facing is a frame whose Z axis is n.
func facing(n geom.Vec) geom.Frame {
	x := geom.Up.Cross(n)
	if x.Dot(x) < 1e-12 {
		x = geom.Vec{X: 1}
	}
	x = x.Unit()
	return geom.Frame{X: x, Y: n.Cross(x), Z: n}
}

// above appends to out the part of the polygon of directions that points up (side 1) or down (side -1).
func above(p, out geom.Polygon, side float64) geom.Polygon {
	const level = 1e-6 * reach // a strip as narrow as that at the horizon is left out
	hi := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		ya, yb := a.Y*side, b.Y*side
		hi = max(hi, ya)
		if ya >= 0 {
			out = append(out, a)
		}
		if (ya > 0) != (yb > 0) && ya != 0 && yb != 0 {
			out = append(out, a.Lerp(b, ya/(ya-yb)))
		}
	}
	if hi < level {
		return nil
	}
	return out
}
