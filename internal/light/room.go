package light

import (
	"boothmock/internal/booth"
	"boothmock/internal/colour"
	"boothmock/internal/geom"
	"boothmock/internal/sight"
)

// room is what light meets: the solids that stop it or, as veils, pass some of it, and how bright their faces are.
type room struct {
	indoor     bool
	solids     []sight.Solid // owner: number of the part; the ground's tiles have none and the owner -2
	faces      [][]face      // by solid
	openGround rgb           // how bright it looks
}

// face is one side of a solid, of one brightness all over.
type face struct {
	at     geom.Vec // its middle
	n      geom.Vec
	area   float64 // m²
	colour rgb
	passes float64
	points []geom.Vec // where its light is measured
	back   int        // the face on the solid's other side
	light  rgb        // what arrives
	bright rgb        // what leaves it
}

// bounces is how often light goes from face to face before the surfaces gather it. What is left out after four is a few
// hundredths of the bounced light.
const bounces = 4

// newRoom finds the solids of the plan. Wire mesh stops next to no light; things that are left out of some pictures
// must not leave their shadow there.
func newRoom(p *booth.Plan) *room {
	r := &room{indoor: p.Pitch.Indoor}
	ground := rgb{0.2, 0.2, 0.2}
	for i := range p.Parts {
		part := &p.Parts[i]
		c, passes := finish(part)
		c = muted(c)
		if part.Flat {
			if part.Parent == "" && len(part.Solids) == 0 {
				ground = c
			}
			continue
		}
		if part.SeeThrough || part.Dressing || part.Moving {
			continue
		}
		if full(part) {
			r.add(block(part), i, c, passes)
			continue
		}
		for _, s := range part.Solids {
			r.add(s, i, c, passes)
		}
	}
	r.openGround = ground // all of the sky's light, less what the ground keeps
	r.tile(p, ground)
	return r
}

// muted is a colour half way to grey of the same luminance (ITU-R BT.709): light that bounces off a thing tints what is
// near it, but a work's own colours matter more than where it hangs.
func muted(c rgb) rgb {
	grey := float64(0.2126*c[0]) + float64(0.7152*c[1]) + float64(0.0722*c[2])
	return rgb{(c[0] + grey) / 2, (c[1] + grey) / 2, (c[2] + grey) / 2}
}

func (r *room) add(c geom.Convex, owner int, paint rgb, passes float64) {
	s := sight.NewSolid(c, owner)
	s.Veil = passes > 0
	var faces []face
	for i := range c.Faces {
		p := c.Face(i)
		f := face{at: p.Centre(), n: p.Normal(), area: p.Area(), colour: paint, passes: passes}
		switch {
		case f.area > 0.25:
			for _, v := range p {
				f.points = append(f.points, f.at.Lerp(v, 0.55))
			}
		case f.area > 0.005:
			f.points = []geom.Vec{f.at}
		}
		faces = append(faces, f)
	}
	for i, f := range faces {
		for k, o := range faces {
			if o.n.Dot(f.n) < faces[faces[i].back].n.Dot(f.n) {
				faces[i].back = k
			}
		}
	}
	r.solids, r.faces = append(r.solids, s), append(r.faces, faces)
}

// full reports whether a part of several solids fills most of its outline, as a framed work or a bin of prints does: to
// other things it is one block.
func full(p *booth.Part) bool {
	volume := 0.0
	for _, s := range p.Solids {
		volume += size(s)
	}
	return len(p.Solids) > 1 && volume > 0.3*size(block(p))
}

// block is the outline of a part in its own frame.
func block(p *booth.Part) geom.Convex {
	var corners []geom.Vec
	for _, s := range p.Solids {
		for _, v := range s.Corners {
			corners = append(corners, p.Frame.Local(v))
		}
	}
	lo, hi := geom.Bounds(corners)
	return geom.Box(p.Frame, lo, hi)
}

// size is a solid's volume in m³: that of the pyramids over its faces from its first corner.
func size(c geom.Convex) float64 {
	sum := 0.0
	for i := range c.Faces {
		p := c.Face(i)
		sum += p.Area() * p.Normal().Dot(p[0].Sub(c.Corners[0])) / 3
	}
	return sum
}

// within is the room as the surfaces of part number i meet it: a part that is one block to all others is itself the
// solids that it is made of, each as bright as the block.
func (r *room) within(i int, p *booth.Part) *room {
	if p.Work != nil || !full(p) {
		return r
	}
	in := &room{indoor: r.indoor, openGround: r.openGround}
	for k, s := range r.solids {
		if s.Owner != i {
			in.solids, in.faces = append(in.solids, s), append(in.faces, r.faces[k])
			continue
		}
		for _, c := range p.Solids {
			in.add(c, i, rgb{}, 0)
			in.faces[len(in.faces)-1] = r.faces[k]
		}
	}
	return in
}

// groundOwner is the owner of the tiles of ground: no part's number.
const groundOwner = 1 << 30

// tile lays the ground under the booth and a little before it out in tiles, flat solids whose brightness differs.
func (r *room) tile(p *booth.Plan, paint rgb) {
	const n = 3
	w, d := p.Pitch.Width, p.Pitch.Depth
	const front = 1.2 // metres
	at := func(i, j int) geom.Vec {
		return geom.Vec{X: w * (float64(i)/n - 0.5), Z: front - (d+front)*float64(j)/n}
	}
	for i := range n {
		for j := range n {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			r.add(geom.NewConvex([]geom.Vec{a, b, c, d}, [][]int{{0, 1, 2, 3}, {3, 2, 1, 0}}), groundOwner, paint, 0)
		}
	}
}

// finish is a part's mean colour, linear, by the area of its surfaces, and the greatest share of light that they pass.
func finish(p *booth.Part) (rgb, float64) {
	var sum rgb
	total, passes := 0.0, 0.0
	for _, s := range p.Surfaces {
		area := 0.0
		for _, t := range s.Mesh.Triangles {
			v := s.Mesh.Vertices
			area += geom.Polygon{v[t[0]].P, v[t[1]].P, v[t[2]].P}.Area()
		}
		sum, total = sum.plus(material(s.Look), area), total+area
		passes = max(passes, s.Look.Passes)
	}
	if total == 0 {
		return rgb{0.5, 0.5, 0.5}, passes
	}
	return rgb{}.plus(sum, 1/total), passes
}

// material is the linear colour of a look, with its image's mean.
func material(k booth.Look) rgb {
	c := rgb{float64(colour.Light(k.Colour[0])), float64(colour.Light(k.Colour[1])), float64(colour.Light(k.Colour[2]))}
	if k.Image == nil || k.Image.Pixels == nil {
		return c
	}
	m := k.Image.Pixels
	b := m.Bounds()
	var sum rgb
	n := 0.0
	const grid = 24
	for i := range grid {
		for j := range grid {
			px := m.NRGBAAt(b.Min.X+(2*i+1)*b.Dx()/(2*grid), b.Min.Y+(2*j+1)*b.Dy()/(2*grid))
			sum = sum.plus(rgb{float64(colour.Light(px.R)), float64(colour.Light(px.G)), float64(colour.Light(px.B))}, 1)
			n++
		}
	}
	return c.times(rgb{}.plus(sum, 1/n))
}

// settle works out how bright the faces are: what each gets from the sky, and from every other face, is gathered once,
// and then light goes from face to face.
func (r *room) settle() {
	var list []*face
	var owners []int
	for k, fs := range r.faces {
		for i := range fs {
			if len(fs[i].points) > 0 && (r.solids[k].Owner != groundOwner || fs[i].n.Y > 0) {
				list, owners = append(list, &fs[i]), append(owners, r.solids[k].Owner)
			}
		}
	}
	sources := make([][]arrival, len(list))
	r.each(len(list), func(g *gatherer, i int) {
		var clear []geom.Vec
		for _, p := range list[i].points {
			if q, ok := r.free(p, list[i].n, owners[i]); ok {
				clear = append(clear, q)
			}
		}
		for _, q := range clear {
			for _, a := range g.arrive(q, list[i].n, -1) {
				a.share /= float64(len(clear))
				sources[i] = append(sources[i], arrival{a.from, a.share, q})
			}
		}
	})
	g := newGatherer(r)
	for range bounces {
		for i, f := range list {
			f.light = rgb{}
			for k, a := range sources[i] {
				if k == 0 || a.at != sources[i][k-1].at {
					g.count++
				}
				f.light = f.light.plus(g.bright(a), a.share)
			}
		}
		for k, fs := range r.faces {
			mean, total := rgb{}, 0.0
			for i := range fs {
				f := &fs[i]
				f.bright = f.colour.times(f.light.plus(fs[f.back].light, through(f.colour, f.passes)))
				if len(f.points) > 0 {
					mean, total = mean.plus(f.bright, f.area), total+f.area
				}
			}
			for i := range fs {
				if len(fs[i].points) == 0 && total > 0 && r.solids[k].Owner != groundOwner {
					fs[i].bright = rgb{}.plus(mean, 1/total)
				}
			}
		}
	}
}

// through is the factor by which light from behind counts on cloth of the given colour, so that the share passes of it
// comes through in the cloth's own hue.
func through(c rgb, passes float64) float64 {
	return passes / max(c[0], c[1], c[2], 0.05)
}

// free moves p, a point of part own's surface, along n until it is a little clear of that part's solids: a fold of cloth
// lies within the slab that stands for the cloth. It reports false for a point that another part's solid covers.
func (r *room) free(p, n geom.Vec, own int) (geom.Vec, bool) {
	const clear = 0.001 // metres
	q := p.Add(n.Mul(clear))
	for i := range r.solids {
		if s := &r.solids[i]; s.Owner == own {
			if t, in := s.Leave(q, n, clear); in {
				q = q.Add(n.Mul(t))
			}
		}
	}
	for i := range r.solids {
		if s := &r.solids[i]; s.Owner != own {
			if _, in := s.Leave(q, n, 0); in {
				return q, false
			}
		}
	}
	return q, true
}
