package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// skin is one surface of a part as light meets it.
type skin struct {
	*gatherer
	look  booth.Look
	part  int
	skip  int // owner of the solids that light passes
	tone  *Tone
	paint rgb           // its colour in the picture, or the brightest that it may have there
	slack float64       // how many times the usual tolerance it has
	thin  bool          // it is wires: too thin for anyone to see how even they are
	known map[about]rgb // the light, roughly, where that will do
}

// newSkin is the skin of a surface of part number i. A work does not shade itself: the lip of its frame is finer than the
// mesh.
func newSkin(g *gatherer, t tone, i int, part *booth.Part, look booth.Look, slack float64) skin {
	k := skin{gatherer: g, look: look, part: i, skip: -1, tone: t.on(ofOther), paint: material(look), slack: slack, known: map[about]rgb{}}
	if part.Work != nil {
		k.skip, k.tone = i, t.on(ofWorks)
	}
	if part.Beyond { // it frames the picture: nobody looks for the light on it
		k.slack = 6 * slack
	}
	if g.nook != nil && g.nook.folds != nil { // nobody looks into each fold
		k.slack = 1.3 * slack
	}
	if part.SeeThrough {
		k.slack, k.thin = 4*slack, true
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
	counts  bool     // somebody may see what is next to it
	edge    bool     // it is on the outline of something that touches
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

// about is a place and a direction, rounded.
type about struct {
	grain  float64 // metres
	at, to [3]int
}

// light works out the light on a spot: what arrives before it, and what cloth lets through from behind. It is the same right across a wire, and roughly the same all round a spot that counts for nothing.
func (k *skin) light(s *spot, v geom.Vertex) {
	const wire, unseen = 0.02, 0.25 // metres
	var where about
	switch {
	case !s.counts:
		where.grain = unseen
	case k.thin:
		where.grain = wire
	}
	if where.grain > 0 {
		for i, x := range [3]float64{v.P.X, v.P.Y, v.P.Z} {
			where.at[i] = int(math.Round(x / where.grain))
		}
		for i, x := range [3]float64{v.N.X, v.N.Y, v.N.Z} {
			where.to[i] = int(math.Round(x * 4))
		}
		if l, ok := k.known[where]; ok {
			s.rgb, s.lit = l, true
			return
		}
	}
	if k.look.Glows {
		s.rgb, s.lit = k.glow(k.part), true
		return
	}
	own := -1.0
	if k.nook != nil && k.nook.folds != nil {
		own = k.nook.folds.hide(v.P, v.N)
	}
	l := k.lightIn(s.at, v.N, k.skip, own)
	if k.look.Passes > 0 {
		back := v.N.Neg()
		q, _ := k.free(v.P, back, k.part)
		l = crossed(l, k.gatherer.light(q, back, k.skip), material(k.look), k.look.Passes)
	}
	s.rgb, s.lit = l, true
	if where.grain > 0 {
		k.known[where] = s.rgb
	}
}
