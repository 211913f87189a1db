package sight

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Outlines are solids as an eye at infinity sees them, sorted by where they are: for asking at many points how much of a round
// light there, such as the sun, they leave open.
type Outlines struct {
	toward, x, y geom.Vec
	size         float64 // tangent of half the angle across which the light is seen
	list         []outline
	lo           point   // of the cells
	cell         float64 // metres
	across, down int
	cells        [][]int32 // row by row
}

// outline is one solid's.
type outline struct {
	solid *Solid
	rims  []rim
	exits []exit
}

// rim is an edge of a solid that is on its outline, which is on the line's negative side: it begins at from, is so long, and lies so
// far towards the eye at both ends.
type rim struct {
	line
	from       point
	length     float64
	near, grow float64 // metres towards the eye at its beginning, and more with each metre
}

// exit is a face through which light that goes towards the eye leaves the solid.
type exit struct {
	plane
	lean float64 // cosine between it and the direction
}

// A solid is passed over at places that are drawn on its own skin, which is not just where it is (see booth.Part.Solids), and all
// solids of the place's own part are that are so near: what is finer than a fold of cloth would speckle.
const (
	skin = 0.004 // metres
	fold = 0.03
)

// NewOutlines sorts solids, which must not be changed afterwards, for an eye in the direction of the unit vector toward.
func NewOutlines(toward geom.Vec, size float64, solids []Solid) *Outlines {
	o := &Outlines{toward: toward, size: size}
	o.x = geom.Up.Cross(toward)
	if o.x.Dot(o.x) < 1e-12 {
		o.x = geom.Vec{X: 1}
	}
	o.x = o.x.Unit()
	o.y = toward.Cross(o.x)
	lo, hi := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	var boxes [][2]point
	for i := range solids {
		a, b := o.add(&solids[i])
		boxes = append(boxes, [2]point{a, b})
		lo, hi = point{min(lo.x, a.x), min(lo.y, a.y)}, point{max(hi.x, b.x), max(hi.y, b.y)}
	}
	if len(solids) == 0 {
		return o
	}
	const most = 96 // cells a side
	o.lo, o.cell = lo, max(0.05, max(hi.x-lo.x, hi.y-lo.y)/most)
	o.across, o.down = int((hi.x-lo.x)/o.cell)+1, int((hi.y-lo.y)/o.cell)+1
	o.cells = make([][]int32, o.across*o.down)
	for i, b := range boxes {
		for y := int((b[0].y - lo.y) / o.cell); y <= int((b[1].y-lo.y)/o.cell); y++ {
			for x := int((b[0].x - lo.x) / o.cell); x <= int((b[1].x-lo.x)/o.cell); x++ {
				o.cells[y*o.across+x] = append(o.cells[y*o.across+x], int32(i))
			}
		}
	}
	return o
}

// flat is a point as the eye at infinity sees it.
func (o *Outlines) flat(p geom.Vec) point { return point{p.Dot(o.x), p.Dot(o.y)} }

// add takes a solid in, and returns the box of its outline with the softness of its edges.
func (o *Outlines) add(s *Solid) (lo, hi point) {
	u := outline{solid: s}
	facing := make([]bool, len(s.planes))
	for i, q := range s.planes {
		lean := q.n.Dot(o.toward)
		if facing[i] = lean > 0; facing[i] {
			u.exits = append(u.exits, exit{q, lean})
		}
	}
	for _, e := range s.edges {
		if facing[e.left] == facing[e.right] {
			continue
		}
		a, b := s.Convex.Corners[e.a], s.Convex.Corners[e.b]
		if !facing[e.left] {
			a, b = b, a
		}
		p, q := o.flat(a), o.flat(b)
		dx, dy := q.y-p.y, p.x-q.x // of a side that is walked counterclockwise, outwards
		if l := math.Hypot(dx, dy); l > hair {
			dx, dy = dx/l, dy/l
			near := a.Dot(o.toward)
			u.rims = append(u.rims, rim{line{dx, dy, -(float64(dx*p.x) + float64(dy*p.y))}, p, l, near, (b.Dot(o.toward) - near) / l})
		}
	}
	o.list = append(o.list, u)
	const soft = 10 // metres over a place up to which a solid's edge is softened in full
	r := o.size * soft
	lo, hi = point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, c := range s.Convex.Corners {
		q := o.flat(c)
		lo, hi = point{min(lo.x, q.x-r), min(lo.y, q.y-r)}, point{max(hi.x, q.x+r), max(hi.y, q.y+r)}
	}
	return lo, hi
}

// Open is the share of the light that p sees past the solids. What two of them hide of it adds up, so that no light comes through
// where they meet. p is a place of owner own (-1: of none). Solids whose owner is left out hide nothing; nil leaves none out.
func (o *Outlines) Open(p geom.Vec, own int, left []bool) float64 {
	q := o.flat(p)
	if len(o.cells) == 0 || q.x < o.lo.x || q.y < o.lo.y {
		return 1
	}
	x, y := int((q.x-o.lo.x)/o.cell), int((q.y-o.lo.y)/o.cell)
	if x >= o.across || y >= o.down {
		return 1
	}
	open := 1.0
	for _, i := range o.cells[y*o.across+x] {
		u := &o.list[i]
		if left != nil && u.solid.Owner >= 0 && left[u.solid.Owner] {
			continue
		}
		if open -= o.hides(u, p, q, own); open <= 0 {
			return 0
		}
	}
	return open
}

// hides is the share of the light that a solid hides from p, which the eye at infinity sees at q. An edge of the shadow is as soft as
// the edge of the solid that casts it is far away.
func (o *Outlines) hides(u *outline, p geom.Vec, q point, own int) float64 {
	const most = 8 // edges that part the light; a solid that has more round one place is hardly larger than the light
	var parts [most]parted
	out, n, at, within := 0.0, 0, p.Dot(o.toward), true
	for i := range u.rims {
		e := &u.rims[i]
		d := e.off(q)
		along := max(0, min(float64((q.y-e.from.y)*e.a)-float64((q.x-e.from.x)*e.b), e.length))
		r := o.size * max(0, e.near+float64(e.grow*along)-at)
		switch {
		case d >= r:
			return 0
		case d > -r:
			b := parted{e, beyond(d / r)}
			both := 0.0 // what is beyond this edge and beyond one before
			for _, a := range parts[:n] {
				both = max(both, a.common(b))
			}
			if out += b.share - both; n < most {
				parts[n], n = b, n+1
			}
		}
		within = within && d <= 0
	}
	if within && !u.over(p, own) {
		return 0
	}
	return max(0, 1-out)
}

// parted is an edge that parts the light, and the share of it that is beyond.
type parted struct {
	*rim
	share float64
}

// common is about the share of the light that is beyond both edges. Where they are square to each other the shares are independent;
// where they run side by side it is the smaller share, and where they look away from each other what the two have more than all.
// In between it goes with the cosine of their angle, straight.
func (a parted) common(b parted) float64 {
	square := float64(a.share * b.share)
	switch cos := float64(a.a*b.a) + float64(a.b*b.b); {
	case cos > 0:
		return square + float64(cos*(min(a.share, b.share)-square))
	default:
		return square - float64(cos*(max(0, a.share+b.share-1)-square))
	}
}

// over reports whether light that goes from p, a place of owner own, towards the eye, which sees p within the outline, meets the solid
// after p.
func (u *outline) over(p geom.Vec, own int) bool {
	away, lean := math.Inf(1), 0.0 // to where it leaves the solid
	for i := range u.exits {
		e := &u.exits[i]
		if t := -e.above(p) / e.lean; t < away {
			away, lean = t, e.lean
		}
	}
	return away*lean > skin && (u.solid.Owner != own || away > fold)
}

// beyond is the share of a round disc of radius 1 that is beyond a straight edge at -x from its centre.
func beyond(x float64) float64 {
	return 1 - (math.Acos(x)-float64(x*math.Sqrt(1-float64(x*x))))/math.Pi
}
