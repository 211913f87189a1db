package light

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
)

// In a hall of a thousand works nearly all are far from any point that is to be lit: trees find those that are not.

// index sorts the solids of a room, of which there must be no more afterwards. Those that take less than the share least of
// a surface's light are passed over there.
func (r *room) index(least float64) {
	r.least = least
	r.places = geom.NewTree(len(r.solids), func(i int) (lo, hi geom.Vec) { return r.solids[i].Bounds() })
	r.reaches = geom.NewTree(len(r.solids), func(i int) (lo, hi geom.Vec) { return r.solids[i].Reach(least) })
	if len(r.lamps) > 0 {
		r.crowd = sight.NewCrowd(r.solids)
	}
	r.own = map[int][]int{}
	for i, s := range r.solids {
		r.own[s.Owner] = append(r.own[s.Owner], i)
	}
}

// near appends to out the numbers of the solids that a box about p, reaching so far in metres, may touch, in order.
func (r *room) near(p geom.Vec, far float64, out []int) []int {
	r.places.Each(func(lo, hi geom.Vec) bool { return inside(p, lo, hi, far) }, func(i int) { out = append(out, i) })
	slices.Sort(out)
	return out
}

// stopped reports whether a solid is between a and b. It first tries the one that was the last time: neighbours are seen alike.
func (g *gatherer) stopped(a, b geom.Vec) bool {
	if g.stop < len(g.solids) && g.solids[g.stop].Stops(a, b) {
		return true
	}
	any := false
	d := b.Sub(a)
	g.places.Each(func(lo, hi geom.Vec) bool { return !any && crosses(a, d, lo, hi) }, func(i int) {
		if !any && g.solids[i].Stops(a, b) {
			any, g.stop = true, i
		}
	})
	return any
}

func inside(p, lo, hi geom.Vec, far float64) bool {
	return p.X >= lo.X-far && p.X <= hi.X+far && p.Y >= lo.Y-far && p.Y <= hi.Y+far && p.Z >= lo.Z-far && p.Z <= hi.Z+far
}

// crosses reports whether the straight line from a to a+d meets a box.
func crosses(a, d, lo, hi geom.Vec) bool {
	from, to := 0.0, 1.0
	for _, s := range [3][4]float64{{a.X, d.X, lo.X, hi.X}, {a.Y, d.Y, lo.Y, hi.Y}, {a.Z, d.Z, lo.Z, hi.Z}} {
		if s[1] == 0 {
			if s[0] < s[2] || s[0] > s[3] {
				return false
			}
			continue
		}
		t, u := (s[2]-s[0])/s[1], (s[3]-s[0])/s[1]
		from, to = max(from, min(t, u)), min(to, max(t, u))
	}
	return from <= to+1e-9 // a hair more, for rounding
}
