package light

import (
	"context"
	"math"
	"sync/atomic"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// room is what light meets: the solids that stop it or, as veils, pass some of it, and how bright their faces are.
type room struct {
	indoor     bool
	day        Daylight
	lux        float64 // what 1 is
	sky        rgb     // how bright the sky is on the whole, or the ceiling of a hall
	dome       *dome   // how bright its parts are; nil: overcast
	nook       *nook   // whose room it is: see within; nil: all things'
	lamps      []source
	off        bool          // the lamps are
	crowd      *sight.Crowd  // of the solids, for what lamps light; nil without lamps
	solids     []sight.Solid // their owner is the part's number, or groundOwner
	faces      [][]face      // by solid
	ground     rgb           // its colour
	openGround rgb           // how bright it looks
	eyes       []geom.Vec    // whose sight counts

	places  *geom.Tree           // of the solids, by where they are
	reaches *geom.Tree           // of the solids, by where they may count for the light
	own     map[int][]int        // numbers of the solids by owner
	arrived map[place][]transfer // where the light at the points of faces comes from, when it is settled
	anew    atomic.Int32         // of these points, how many were not taken over from a version before
	ctx     context.Context      // when it ends, no more light is gathered; nil: it never does
	least   float64              // share of a surface's light below which a solid before it is passed over
}

// wide is about how long and wide the faces are into which a side of a solid is divided, in metres.
const wide = 0.7

// face is a patch of a side of a solid, of one brightness all over.
type face struct {
	outline geom.Polygon
	at      geom.Vec // its middle
	n       geom.Vec
	area    float64 // m²
	clear   float64 // of it, what no other thing covers
	itself  float64 // share of what it sees that counts as the face itself: see exchange
	colour  rgb
	passes  float64
	open    rgb     // what arrives straight from the sky, or open ground
	lamps   rgb     // what arrives straight from lamps, on average over the face
	sun     float64 // what arrives straight from the sun, on average over the face
	light   rgb     // what arrives
	behind  rgb     // of cloth, what arrives on its other side
	bright  rgb     // what leaves it
}

// newRoom finds the solids of the plan, which is looked at from some places, without some of its parts. Wire mesh stops next to no
// light.
func newRoom(p *booth.Plan, eyes []geom.Vec, without func(*booth.Part) bool) *room {
	r := &room{indoor: p.Pitch.Indoor, eyes: eyes}
	ground := rgb{0.2, 0.2, 0.2}
	var count []int // the parts whose colours count
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Flat {
			if part.Parent == "" && len(part.Solids) == 0 {
				f := finishOf(part)
				ground = f.toward(geom.Up)
			}
			continue
		}
		if part.SeeThrough || pinned(p, part) || without(part) || part.Beyond && farOff(p, part) {
			continue
		}
		count = append(count, i)
	}
	means(p, count)
	for _, i := range count {
		f := finishOf(&p.Parts[i])
		paint := f.toward
		if p.Parts[i].Cloth != nil {
			paint = f.folded
		}
		for _, s := range blocks(&p.Parts[i]) {
			r.add(s, i, paint, f.passes)
		}
	}
	r.ground = ground
	r.under(p, Daylight{})
	r.addLamps(p)
	r.tile(p, ground)
	r.index(slight)
	return r
}

// What a room may be without: nothing; people, who come and go; all that is left out of a picture for a jury.
func nothing(*booth.Part) bool       { return false }
func people(part *booth.Part) bool   { return part.Moving }
func dressing(part *booth.Part) bool { return part.Dressing }

// pinned is whether a part is a card on a wall: too thin for a shadow.
func pinned(p *booth.Plan, part *booth.Part) bool {
	wall := p.Part(part.Parent)
	return part.Lettering != nil && wall != nil && wall.Wall != nil
}

// farOff is whether a part of the fair around takes next to none of the light on the pitch: it stands beyond the tents on either side
// or behind, or on the other side of the aisle and not opposite, or is no more than a leg.
func farOff(p *booth.Plan, part *booth.Part) bool {
	const near, thin = 1.5, 0.1 // metres from the pitch; metres
	for _, c := range part.Solids {
		lo, hi := c.Bounds()
		if max(hi.X-lo.X, hi.Z-lo.Z) > thin && hi.X > -p.Pitch.Width/2-near && lo.X < p.Pitch.Width/2+near && lo.Z < p.Pitch.Aisle+near && hi.Z > -p.Pitch.Depth-near {
			return false
		}
	}
	return true
}

// add adds a solid of a part, of a colour by where a face of it looks.
func (r *room) add(c geom.Convex, owner int, paint func(n geom.Vec) rgb, passes float64) {
	s := sight.NewSolid(c, owner)
	s.Veil = passes > 0
	var faces []face
	for i := range c.Faces {
		side := c.Face(i)
		n := side.Normal()
		colour := paint(n)
		for _, p := range patches(side, wide) {
			faces = append(faces, face{outline: p, at: p.Centre(), n: n, area: p.Area(), colour: colour, passes: passes})
		}
	}
	r.solids, r.faces = append(r.solids, s), append(r.faces, faces)
}

// patches are a side of four corners divided into such of about a length in metres; another is one.
func patches(p geom.Polygon, length float64) (out []geom.Polygon) {
	if len(p) != 4 {
		return []geom.Polygon{p}
	}
	nu, nv := cells(p[0].Dist(p[1]), length), cells(p[1].Dist(p[2]), length)
	at := func(a, b int) geom.Vec {
		u, v := float64(a)/float64(nu), float64(b)/float64(nv)
		return p[0].Lerp(p[1], u).Lerp(p[3].Lerp(p[2], u), v)
	}
	for a := range nu {
		for b := range nv {
			out = append(out, geom.Polygon{at(a, b), at(a+1, b), at(a+1, b+1), at(a, b+1)})
		}
	}
	return out
}

// points are where the light of a face is measured: its middle, or if it is large those of Gauss's quadrature.
func (f *face) points() (out []geom.Vec) {
	if f.area < 0.5 {
		return []geom.Vec{f.at}
	}
	for _, v := range f.outline {
		out = append(out, f.at.Lerp(v, 0.577))
	}
	return out
}

// cells is into how many a length is divided.
func cells(length, step float64) int { return max(1, min(12, int(math.Ceil(length/step)))) }

// nook is a part within its own room.
type nook struct {
	part   int
	colour rgb    // of its surfaces, on average
	folds  *folds // of cloth; nil: what is seen of the part is found as what is seen of others
}

// within is the room as the surfaces of part number i meet it: a part that is fewer blocks to all others is itself the
// solids that it is made of, and cloth in folds, a slab to others, has its folds. How bright these look from a place on the part follows from the light there: see gatherer.light. Of a body of
// any shape, which stands out of its boxes and they of it, there is nothing in its own light.
func (r *room) within(i int, p *booth.Part) *room {
	own, solids := len(r.own[i]), p.Room()
	if p.Skinned {
		solids = nil
	}
	f := finishOf(p)
	folded := p.Blocks != nil && (p.Cloth != nil || p.Top != nil) && f.passes == 0
	if p.Work != nil || p.Beyond || own == 0 || own == len(solids) && !folded {
		return r
	}
	in := &room{indoor: r.indoor, day: r.day, lux: r.lux, sky: r.sky, dome: r.dome, lamps: r.lamps, off: r.off, ground: r.ground, openGround: r.openGround, eyes: r.eyes, ctx: r.ctx}
	for k, s := range r.solids {
		if s.Owner != i {
			in.solids, in.faces = append(in.solids, s), append(in.faces, r.faces[k])
		}
	}
	for _, c := range solids {
		in.add(c, i, rgb{}.all, 0)
	}
	in.nook = &nook{part: i, colour: f.toward(geom.Vec{})}
	if folded {
		in.nook.folds = foldsOf(p)
	}
	in.index(r.least)
	return in
}

// groundOwner is the owner of the tiles of ground: no part's number.
const groundOwner = 1 << 30

// tile lays the ground under the booth, before it as far as the aisle goes, and beside and behind it as far as neighbours shade it, out
// in tiles, flat solids whose brightness differs.
func (r *room) tile(p *booth.Plan, paint rgb) {
	const n = 3
	const front, around = 1.2, 3 // metres: more tiles, the finer ones, before the booth; how far they go to the sides and back
	w, d := p.Pitch.Width, p.Pitch.Depth
	x, z := []float64{-w/2 - around}, []float64{max(p.Pitch.Aisle, 2*front)}
	for i := range n + 1 {
		x, z = append(x, w*(float64(i)/n-0.5)), append(z, front-(d+front)*float64(i)/n)
	}
	x, z = append(x, w/2+around), append(z, -d-around)
	for i := range n + 2 {
		for j := range n + 2 {
			corners := []geom.Vec{{X: x[i], Z: z[j]}, {X: x[i+1], Z: z[j]}, {X: x[i+1], Z: z[j+1]}, {X: x[i], Z: z[j+1]}}
			r.add(geom.NewConvex(corners, [][]int{{0, 1, 2, 3}, {3, 2, 1, 0}}), groundOwner, paint.all, 0)
		}
	}
}

// free is where the light at p is measured, a point of part own's surface with normal n: a little before it, and clear of
// that part's solids, as a fold of cloth lies within the slab that stands for the cloth. It reports false for a point that
// another part's solid covers by more than a hair.
func (r *room) free(p, n geom.Vec, own int) (geom.Vec, bool) {
	const clear = 0.001 // metres
	const thick = 0.2   // metres: no cloth is so thick
	const hair = 0.002  // metres
	const hem = 0.003   // metres
	q, ahead := p, n
	for _, i := range r.own[own] {
		s := &r.solids[i]
		out, in := s.Leave(q, n, clear)
		if in && out.Len() > thick { // p lies where two pieces of the part meet
			out, in = s.Aside(q, n, clear)
		}
		if in {
			q, ahead = q.Add(out), out.Unit()
			if math.Abs(n.Y) < 0.5 { // at a hem: a little within, as below it even a corner of two cloths is open
				lo, hi := s.Bounds()
				q.Y = max(min(q.Y, hi.Y-hem), lo.Y+hem)
			}
		}
	}
	if q == p {
		q = p.Add(n.Mul(clear))
	}
	q.Y = max(q.Y, clear) // what stands on the ground touches it
	var few [16]int
	for _, i := range r.near(q, 10*hair, few[:0]) { // q may be moved by a few hairs on the way
		if s := &r.solids[i]; s.Owner != own {
			if out, in := s.Aside(q, ahead, 0); in && (out.Len() > hair || q.Y+out.Y < clear) { // nor is there a way out into the ground
				return q, false
			} else if in {
				q = q.Add(out)
			}
		}
	}
	return q, true
}
