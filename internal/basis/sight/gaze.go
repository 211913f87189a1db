// Package sight answers one question exactly: of a flat polygon, which parts can a point see past convex solids, and
// which solid hides how much? It is hidden-surface removal in object space: polygons are cut by shadow volumes (Weiler and Atherton,
// SIGGRAPH 1977; Crow, SIGGRAPH 1977), found through a bounding-volume hierarchy, and areas of what is left are solid angles
// (Van Oosterom and Strackee, IEEE Trans. Biomed. Eng. 30, 1983).
//
// Every solid's shadow on the polygon's plane is a convex region bounded by straight lines; the shadows are taken from
// the polygon one after the other, and what is left are the visible pieces. There is no sampling and nothing to tune.
// Lengths are metres, angles radians.
package sight

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Seen is what an eye sees of a polygon. Visible and the shares of Hidden add up to 1, unless the polygon is seen from
// behind.
type Seen struct {
	Visible    float64 // share of the polygon's area, 0 to 1
	Hidden     []Share // by owner, greatest first; one entry an owner
	Turned     float64 // radians between the line of sight to the polygon's centre and its face: pi/2 is square on, 0 edge-on, negative from behind (then nothing is visible)
	SolidAngle float64 // of the visible pieces, in steradians
}

// Share is the part of a polygon's area that an owner's solids hide, 0 to 1. Where several solids hide the same spot, the
// one that the line of sight to it meets first has it.
type Share struct {
	Owner int
	Part  float64
}

// Gaze looks from points at polygons. It keeps its buffers, so that looking allocates nothing; the zero value is ready.
// It is not for several goroutines at once.
type Gaze struct {
	// Least is the share of what a surface at the eye sees, weighted by the cosine from the target's middle, below which
	// Look passes a solid over; 0: none is passed over.
	Least float64

	pane
	fine        float64 // metres below which lengths on the plane count as nothing
	at          []point // the corners of all pieces
	target      piece
	seen, born  []piece
	hidden      []piece
	rest, inner []point
	offs        []float64
	middle      []float64
	lines       []line
	facing      []bool
	near, far   float64 // of the solid whose shadow was last found: see cast
	corners     []geom.Vec
	sides       []geom.Vec
	offsets     []float64 // of the sides' planes from the eye, if it is infinitely far away; else 0
	casts       []cast
	shares      []Share
	open, cover []float64 // m² of each seen piece: still open, and under wires
	out         []geom.Vec
}

// cast is the shadow of solid number solid: lines[from:to]. Those of a lower order are taken first: it is how near the solid
// comes to the eye, and far how far it goes away, along the square to the target, in metres.
type cast struct {
	solid, from, to int
	order, far      float64
}

// See works out what eye sees of target past the solids; those of owner skip are passed over (-1: none). target is flat
// and convex. The result's slices are valid until the next look.
func (g *Gaze) See(eye geom.Vec, target geom.Polygon, solids []Solid, skip int) Seen {
	s, _ := g.see(eye, target, solids, func() { g.look(solids, skip) })
	return s
}

// Crowd is many solids, sorted so that those off a line of sight are passed over together, and screens.
type Crowd struct {
	solids  []Solid
	tree    *geom.Tree
	screens []Screen
}

// NewCrowd sorts the solids, which must not be changed afterwards, nor must the screens.
func NewCrowd(solids []Solid, screens ...Screen) *Crowd {
	return &Crowd{solids, geom.NewTree(len(solids), func(i int) (lo, hi geom.Vec) { return solids[i].Bounds() }), screens}
}

// SeePast is See past a crowd: the same answer, and the time grows with what stands near the line of sight, not with
// the crowd. The solids and screens of owners for whom skip is true are passed over.
func (g *Gaze) SeePast(eye geom.Vec, target geom.Polygon, c *Crowd, skip func(owner int) bool) Seen {
	s, whole := g.see(eye, target, c.solids, func() {
		c.tree.Each(func(lo, hi geom.Vec) bool {
			return !g.beside(lo.Lerp(hi, 0.5), hi.Sub(lo).Mul(0.5+1e-12)) // a hair larger than what it holds, for rounding
		}, func(i int) {
			if s := &c.solids[i]; !g.misses(s) && !skip(s.Owner) {
				g.shade(c.solids, i)
			}
		})
		g.take()
	})
	if s.Visible > 0 && len(c.screens) > 0 {
		g.through(&s, whole, c.screens, skip)
	}
	return s
}

// Near visits the owners of solids and screens of the crowd that may hide some of the target from the eye, in no order and some of
// them several times: what SeePast finds depends on no others.
func (g *Gaze) Near(eye geom.Vec, target geom.Polygon, c *Crowd, visit func(owner int)) {
	n := target.Normal()
	h := n.Dot(eye.Sub(target.Centre()))
	if h <= level {
		return
	}
	g.aim(pane{eye: eye, z: n, h: h}, target)
	c.tree.Each(func(lo, hi geom.Vec) bool {
		return !g.beside(lo.Lerp(hi, 0.5), hi.Sub(lo).Mul(0.5+1e-12))
	}, func(i int) {
		if !g.misses(&c.solids[i]) {
			visit(c.solids[i].Owner)
		}
	})
	for i := range c.screens {
		if s := &c.screens[i]; !g.beside(s.centre, s.half) {
			visit(s.Owner)
		}
	}
}

// see is See, with look to take the shadows of the solids from the target; whole is the target's area in m².
func (g *Gaze) see(eye geom.Vec, target geom.Polygon, solids []Solid, look func()) (s Seen, whole float64) {
	n := target.Normal()
	centre := target.Centre()
	if d := eye.Dist(centre); d > 0 {
		s.Turned = math.Asin(max(-1, min(1, n.Dot(eye.Sub(centre))/d)))
	}
	g.at, g.seen, g.hidden = g.at[:0], g.seen[:0], g.hidden[:0]
	if h := n.Dot(eye.Sub(centre)); h > level {
		whole = g.aim(pane{eye: eye, z: n, h: h}, target)
		look()
		g.settle(solids)
		for i := range g.seen {
			s.Visible += area(g.points(&g.seen[i]))
		}
		s.Visible /= whole
		s.SolidAngle = g.solidAngle()
		s.Hidden = g.blame(solids, whole)
	}
	return s, whole
}

// Look is See for directions: target's corners are directions from eye, all less than a right angle from its normal
// turned round, and whatever lies before the eye hides, however far it is. target must face the origin. Only the solids
// with the numbers which are looked at. Where several hide the same spot, the one whose bounds come nearest to the eye has it: mostly
// that is the one that is met first, but not where a large wall comes nearer beside the board on it.
func (g *Gaze) Look(eye geom.Vec, target geom.Polygon, solids []Solid, which []int) {
	n := target.Normal()
	g.aim(pane{z: n, h: -n.Dot(target.Centre()), endless: true}, target)
	g.eye = eye
	for _, i := range which {
		if !g.misses(&solids[i]) {
			g.shade(solids, i)
		}
	}
	g.take()
}

// aim sets the pane up with the whole target seen and no shadow on it, and returns its area.
func (g *Gaze) aim(c pane, target geom.Polygon) float64 {
	c.x = target[1].Sub(target[0]).Unit()
	c.y = c.z.Cross(c.x)
	g.pane = c
	g.at, g.seen, g.hidden = g.at[:0], g.seen[:0], g.hidden[:0]
	g.casts, g.lines, g.sides, g.offsets = g.casts[:0], g.lines[:0], g.sides[:0], g.offsets[:0]
	reach := 0.0
	for i, p := range target {
		l := c.local(p)
		g.at = append(g.at, point{l.X, l.Y})
		reach = max(reach, math.Abs(l.X), math.Abs(l.Y))
		q := target[(i+1)%len(target)]
		if c.afar {
			side := q.Sub(p).Cross(c.s)
			g.sides, g.offsets = append(g.sides, side), append(g.offsets, side.Dot(p.Sub(c.eye)))
			continue
		}
		g.sides, g.offsets = append(g.sides, p.Sub(c.eye).Cross(q.Sub(c.eye))), append(g.offsets, 0)
	}
	g.target = g.whole(0)
	g.seen = append(g.seen, g.target)
	g.fine = 1e-12 * reach
	return area(g.at)
}

// look takes the shadows of the solids from the target, the nearest solid's first.
func (g *Gaze) look(solids []Solid, skip int) {
	for i := range solids {
		if s := &solids[i]; (s.Owner != skip || skip < 0) && !g.misses(s) {
			g.shade(solids, i)
		}
	}
	g.take()
}

// shade puts the shadow of a solid among g.casts, if it has one on the target.
func (g *Gaze) shade(solids []Solid, i int) {
	s := &solids[i]
	from := len(g.lines)
	if !g.shadow(s) || g.clear(g.at, &g.seen[0], g.lines[from:]) {
		g.lines = g.lines[:from]
		return
	}
	c := cast{i, from, len(g.lines), g.near, g.far}
	if g.endless {
		c.order = s.gap(s.centre.Sub(g.eye))
	}
	g.file(c, solids)
}

// take takes the shadows from what is seen of the target.
func (g *Gaze) take() {
	for i, c := range g.casts {
		if len(g.seen) == 0 {
			break
		}
		g.subtract(g.lines[c.from:c.to], c.solid, i)
	}
}

// misses reports whether the solid's bounds lie wholly outside the pyramid from the eye to the target, or it looks too
// small to matter.
func (g *Gaze) misses(s *Solid) bool {
	c := s.centre.Sub(g.eye)
	mid, reach := g.z.Dot(c), spread(g.z, s.half)
	if g.offDepth(mid, reach) {
		return true
	}
	if g.Least > 0 && s.fills(c, reach-mid) < g.Least {
		return true
	}
	return g.aside(c, s.half)
}

// beside reports whether a box lies wholly outside the pyramid from the eye to the target.
func (g *Gaze) beside(centre, half geom.Vec) bool {
	c := centre.Sub(g.eye)
	return g.offDepth(g.z.Dot(c), spread(g.z, half)) || g.aside(c, half)
}

// offDepth reports whether everything within reach of the height mid over the eye's level, along the target's normal, is
// behind the eye or beyond the target.
func (g *Gaze) offDepth(mid, reach float64) bool {
	return mid-reach >= 0 && !g.afar || !g.endless && mid+reach <= level-g.h
}

// aside reports whether a box, its centre c seen from the eye, is outside of a side of the pyramid.
func (g *Gaze) aside(c, half geom.Vec) bool {
	for i, n := range g.sides {
		if n.Dot(c) > spread(n, half)+g.offsets[i] {
			return true
		}
	}
	return false
}

// spread is how far a box of the given half sizes reaches from its centre along n.
func spread(n, half geom.Vec) float64 {
	return math.Abs(float64(n.X*half.X)) + math.Abs(float64(n.Y*half.Y)) + math.Abs(float64(n.Z*half.Z))
}

// file puts a shadow in its place among g.casts.
func (g *Gaze) file(c cast, solids []Solid) {
	s := &solids[c.solid]
	k := len(g.casts)
	g.casts = append(g.casts, c)
	for ; k > 0; k-- {
		p := g.casts[k-1]
		o := &solids[p.solid]
		switch {
		case o.Veil != s.Veil:
			if s.Veil {
				return
			}
		case p.order != c.order:
			if p.order < c.order {
				return
			}
		case !s.before(o):
			return
		}
		g.casts[k], g.casts[k-1] = p, c
	}
}

// blame adds up what was hidden by owner.
func (g *Gaze) blame(solids []Solid, whole float64) []Share {
	g.shares = g.shares[:0]
	for i := range g.hidden {
		pc := &g.hidden[i]
		g.charge(solids[pc.by].Owner, area(g.points(pc))/whole)
	}
	return g.rank()
}

// charge adds a part to an owner's share.
func (g *Gaze) charge(owner int, part float64) []Share {
	k := 0
	for k < len(g.shares) && g.shares[k].Owner != owner {
		k++
	}
	if k == len(g.shares) {
		g.shares = append(g.shares, Share{Owner: owner})
	}
	g.shares[k].Part += part
	return g.shares
}

// rank sorts the shares, the greatest first.
func (g *Gaze) rank() []Share {
	for i := 1; i < len(g.shares); i++ {
		for k := i; k > 0; k-- {
			a, b := g.shares[k-1], g.shares[k]
			if a.Part > b.Part || a.Part == b.Part && a.Owner < b.Owner {
				break
			}
			g.shares[k-1], g.shares[k] = b, a
		}
	}
	return g.shares
}

// Pieces are the visible pieces of the last look: convex, facing as the target does, in the booth's coordinates.
func (g *Gaze) Pieces() []geom.Polygon {
	var ps []geom.Polygon
	for i := range g.seen {
		var p geom.Polygon
		for _, q := range g.points(&g.seen[i]) {
			p = append(p, g.eye.Add(g.toward(q)))
		}
		ps = append(ps, p)
	}
	return ps
}

// Each visits the pieces of the last look without allocating: those seen with by = -1, then those hidden with the number
// of the solid that hides them. A piece's corners are relative to the eye; they are valid during the visit.
func (g *Gaze) Each(visit func(p []geom.Vec, by int)) {
	for _, s := range [2][]piece{g.seen, g.hidden} {
		for i := range s {
			out := g.out[:0]
			for _, q := range g.points(&s[i]) {
				out = append(out, g.toward(q))
			}
			g.out = out
			visit(out, s[i].by)
		}
	}
}

// toward is a point of the plane as seen from the eye, in the booth's axes.
func (g *Gaze) toward(p point) geom.Vec {
	return g.x.Mul(p.x).Add(g.y.Mul(p.y)).Sub(g.z.Mul(g.h))
}
