package light

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// skin is one surface of a part as light meets it.
type skin struct {
	*gatherer
	look  booth.Look
	part  int
	skip  int // owner of the solids that light passes
	tone  tone
	curve curve
	paint rgb            // its colour in the picture, or the brightest that it may have there
	slack float64        // how many times the usual tolerance it has
	thin  map[[6]int]rgb // on wires, the light by place and direction, roughly: it is the same right across a wire
}

// newSkin is the skin of a surface of part number i. A work does not shade itself: the lip of its frame is finer than the
// mesh. Wires are too thin for anyone to see how even they are.
func newSkin(g *gatherer, t tone, i int, part *booth.Part, look booth.Look, slack float64) skin {
	k := skin{gatherer: g, look: look, part: i, skip: -1, tone: t, curve: ofOther, paint: material(look), slack: slack}
	if part.Work != nil {
		k.skip, k.curve = i, ofWorks
	}
	if part.SeeThrough {
		k.slack, k.thin = 4*slack, map[[6]int]rgb{}
	}
	if look.Image != nil && look.Tile == 0 {
		k.paint = white // its mean says little about where it is bright
	}
	return k
}

// spot is a place on a skin and its light.
type spot struct {
	at      geom.Vec // where the light is measured
	covered bool     // it is inside some other thing: nobody sees it
	seen    bool     // somebody may see it
	tight   int      // 1 if there is something right before it
	lit     bool     // rgb is known
	rgb
}

// gap is the free space before a surface, in metres, up to which it is tight: a finger's length.
const gap = 0.05

// spot is the place of a vertex, its light not yet known.
func (k *skin) spot(v geom.Vertex) spot {
	q, ok := k.free(v.P, v.N, k.part)
	l := spot{at: q, covered: !ok, seen: ok && k.seen(q, v.N)}
	if l.seen && k.stopped(q, q.Add(v.N.Mul(gap))) {
		l.tight = 1
	}
	return l
}

// light works out the light on a spot: what arrives before it, and what cloth lets through from behind, as the factor
// that the picture has.
func (k *skin) light(s *spot, v geom.Vertex) {
	const wire = 0.008 // metres
	var where [6]int
	if k.thin != nil {
		for i, x := range [3]float64{v.P.X, v.P.Y, v.P.Z} {
			where[i] = int(math.Round(x / wire))
		}
		for i, x := range [3]float64{v.N.X, v.N.Y, v.N.Z} {
			where[3+i] = int(math.Round(x * 4))
		}
		if l, ok := k.thin[where]; ok {
			s.rgb, s.lit = l, true
			return
		}
	}
	l := k.gatherer.light(s.at, v.N, k.skip)
	if k.look.Passes > 0 {
		back := v.N.Neg()
		q, _ := k.free(v.P, back, k.part)
		l = l.plus(k.gatherer.light(q, back, k.skip), through(material(k.look), k.look.Passes))
	}
	s.rgb, s.lit = k.tone.of(l, k.curve), true
	if k.thin != nil {
		k.thin[where] = s.rgb
	}
}
