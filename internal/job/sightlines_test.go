package job_test

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
)

// rays is what a ray caster knows of the triangles of a .glb: a tree of boxes, a leaf of which holds a few triangles.
type rays struct {
	facets []facet
	boxes  []box
}

// box bounds facets from:to; the first of its halves is the next box, the second is at second, and a leaf has none.
type box struct {
	lo, hi           geom.Vec
	from, to, second int
}

func newRays(facets []facet) *rays {
	r := &rays{facets: slices.Clone(facets)}
	var grow func(from, to int)
	grow = func(from, to int) {
		own := r.facets[from:to]
		var ends []geom.Vec
		for _, f := range own {
			ends = append(ends, f.a, f.b, f.c)
		}
		lo, hi := geom.Bounds(ends)
		at := len(r.boxes)
		r.boxes = append(r.boxes, box{lo: lo, hi: hi, from: from, to: to})
		if to-from <= 4 {
			return
		}
		along := func(v geom.Vec) float64 { return v.X }
		if d := hi.Sub(lo); d.Y >= d.X && d.Y >= d.Z {
			along = func(v geom.Vec) float64 { return v.Y }
		} else if d.Z >= d.X {
			along = func(v geom.Vec) float64 { return v.Z }
		}
		slices.SortStableFunc(own, func(a, b facet) int {
			return cmp.Compare(along(a.a)+along(a.b)+along(a.c), along(b.a)+along(b.b)+along(b.c))
		})
		half := (from + to) / 2
		grow(from, half)
		r.boxes[at].second = len(r.boxes)
		grow(half, to)
	}
	if len(facets) > 0 {
		grow(0, len(facets))
	}
	return r
}

// first is the part whose triangle a line from a to b meets first, -1 if it meets none. Parts for whom skip is true are
// passed over.
func (r *rays) first(a, b geom.Vec, skip []bool) int {
	const hair = 1e-5 // metres before b that are left out: the target lies in a triangle
	d := b.Sub(a)
	most, hit := 1-hair/d.Len(), -1
	for i := 0; i < len(r.boxes); {
		x := &r.boxes[i]
		if !x.crossed(a, d, most) {
			if i = r.after(i); i < 0 {
				break
			}
			continue
		}
		if x.second == 0 {
			for k := x.from; k < x.to; k++ {
				if f := &r.facets[k]; !skip[f.part] {
					if t, ok := f.crossed(a, d); ok && t < most {
						most, hit = t, f.part
					}
				}
			}
		}
		i++
	}
	return hit
}

// after is the box that comes after all that box i holds.
func (r *rays) after(i int) int {
	for k := i; ; k++ {
		if k >= len(r.boxes) {
			return -1
		}
		if r.boxes[k].from >= r.boxes[i].to {
			return k
		}
	}
}

// crossed reports whether the line from a along d meets the box before the share most of it.
func (x *box) crossed(a, d geom.Vec, most float64) bool {
	from, to := 0.0, most
	for _, s := range [3][4]float64{{a.X, d.X, x.lo.X, x.hi.X}, {a.Y, d.Y, x.lo.Y, x.hi.Y}, {a.Z, d.Z, x.lo.Z, x.hi.Z}} {
		if s[1] == 0 {
			if s[0] < s[2] || s[0] > s[3] {
				return false
			}
			continue
		}
		t, u := (s[2]-s[0])/s[1], (s[3]-s[0])/s[1]
		from, to = max(from, min(t, u)), min(to, max(t, u))
	}
	return from <= to
}

// crossed is where the line from a along d goes through the triangle, as a share of d (Möller and Trumbore, "Fast, minimum storage
// ray/triangle intersection", Journal of Graphics Tools 2(1), 1997).
func (f *facet) crossed(a, d geom.Vec) (float64, bool) {
	e1, e2 := f.b.Sub(f.a), f.c.Sub(f.a)
	p := d.Cross(e2)
	det := e1.Dot(p)
	if det == 0 {
		return 0, false
	}
	s := a.Sub(f.a)
	u := s.Dot(p) / det
	if u < 0 || u > 1 {
		return 0, false
	}
	q := s.Cross(e1)
	v := d.Dot(q) / det
	if v < 0 || u+v > 1 {
		return 0, false
	}
	t := e2.Dot(q) / det
	return t, t > 0
}

// counted is the share of a face that an eye sees, and what each part hides of it, by n x n lines to points spread over it.
func (r *rays) counted(eye geom.Vec, face geom.Polygon, n int, skip []bool, at *rand.Rand) (seen float64, hidden map[int]float64) {
	hidden = map[int]float64{}
	one := 1 / float64(n*n)
	for i := range n {
		for j := range n {
			x, y := (float64(i)+at.Float64())/float64(n), (float64(j)+at.Float64())/float64(n)
			p := face[0].Add(face[1].Sub(face[0]).Mul(x)).Add(face[3].Sub(face[0]).Mul(y))
			if by := r.first(eye, p, skip); by < 0 {
				seen += one
			} else {
				hidden[by] += one
			}
		}
	}
	return seen, hidden
}

// The share of a work that the checks say is seen, from every view and by every eye, is the share of rays that reach it in the
// booth's .glb. Its own frame counts for neither.
func TestSightlinesAreDrawn(t *testing.T) {
	if raced {
		t.Skip("slow")
	}
	const coarse, fine = 16, 100
	every := 5 // of the sightlines, to keep it short
	if os.Getenv("BOOTHS") != "" {
		every = 1
	}
	off := map[string][]float64{}
	blame := []float64{}
	for seed := range booths(t, 3, 7) {
		p, err := build(randomScene(seeded(uint64(seed)), dialect{}))
		if err != nil {
			continue
		}
		sightlinesOf(t, p, fmt.Sprint("booth ", seed), coarse, fine, every, off, &blame)
	}
	for _, somebody := range []string{ // before the view from across the aisle, within 30 cm
		"{from left: 60, before front: 70}", "{from left: 50, before front: 68, who: wheelchair}", "{from left: 30, before front: 71}",
	} {
		p, err := build("units: in\npitch: {width: 10ft, depth: 10ft, neighbours: none}\nwalls: [{side: back}]\nworks:\n  - {name: a, size: 20 x 24, wall: back, left: 32, centre: 60}\n" +
			"  - {name: b, size: 20 x 24, wall: back, left: 88, centre: 60}\n  - {name: c, size: 20 x 24, wall: back, left: 4, centre: 60}\nvisitors: [" + somebody + "]\n")
		if err != nil {
			t.Fatal(err)
		}
		sightlinesOf(t, p, somebody, coarse, fine, 1, off, &blame)
	}
	var all []float64
	for _, kind := range slices.Sorted(maps.Keys(off)) {
		all = append(all, off[kind]...)
		t.Log(spread(kind, off[kind]))
	}
	t.Log(spread("all", all))
	t.Log(spread("blame", blame))
	slices.Sort(all)
	if n := len(all); n < 10 || all[n*95/100] > 0.005 || all[n-1] > 0.02 {
		t.Errorf("%d partly hidden sightlines: more than 5 in 100 are half a point off, or one is two", n)
	}
}

// sightlinesOf adds to off, by the kind of what hides most, how far one in so many partly hidden sightlines is off, and to blame by how much the
// shares of single parts are.
func sightlinesOf(t *testing.T, p *booth.Plan, name string, coarse, fine int, every int, off map[string][]float64, blame *[]float64) {
	all := shapes(t, p)
	r := newRays(all)
	at := rand.New(rand.NewPCG(31, 32))
	views := map[string]booth.View{}
	for _, v := range p.Views {
		views[v.Name] = v
	}
	for i, l := range check.Run(p).Sightlines {
		if l.Turned <= 0 || i%every > 0 {
			continue
		}
		v := views[l.From]
		eye := geom.Vec{X: v.Stand.X, Y: l.EyeM, Z: v.Stand.Z}
		skip := make([]bool, len(p.Parts))
		var face geom.Polygon
		for i := range p.Parts {
			part := &p.Parts[i]
			skip[i] = part.ID == l.Work || v.Bare && (part.Dressing || part.Beyond)
			if part.ID == l.Work {
				face = part.Work.FaceTo(eye)
			}
		}
		seen, _ := r.counted(eye, face, coarse, skip, at)
		if (seen == 0 || seen == 1) && math.Abs(l.Visible-seen) < 0.001 {
			continue
		}
		seen, hidden := r.counted(eye, face, fine, skip, at)
		if seen == 1 && l.Visible > 0.999 || seen == 0 && l.Visible < 0.001 {
			continue
		}
		kind, most := "nothing", 0.0
		shares := map[int]float64{}
		for i, h := range hidden {
			shares[i] = h
			if h > most || h == most && p.Parts[i].Kind < kind {
				kind, most = p.Parts[i].Kind, h
			}
		}
		for _, h := range l.HiddenBy {
			for i := range p.Parts {
				if p.Parts[i].ID == h.Item {
					shares[i] -= h.Share
				}
			}
		}
		worst := 0.0
		for _, s := range shares {
			worst = max(worst, math.Abs(s))
		}
		*blame = append(*blame, worst)
		d := math.Abs(l.Visible - seen)
		off[kind] = append(off[kind], d)
		if d > 0.005 && testing.Verbose() {
			t.Logf("%s: %s from %s (%s): %.4f, counted %.4f; hidden by %v, counted %s", name, l.Work, l.From, l.Eye, l.Visible, seen, l.HiddenBy, by(p, hidden))
		}
	}
}

func by(p *booth.Plan, hidden map[int]float64) (s string) {
	for _, i := range slices.Sorted(maps.Keys(hidden)) {
		s += fmt.Sprintf(" %s %.3f", p.Parts[i].ID, hidden[i])
	}
	return s
}

// spread says how a set of differences is distributed, in percentage points.
func spread(kind string, off []float64) string {
	if len(off) == 0 {
		return kind + ": none"
	}
	slices.Sort(off)
	at := func(share float64) float64 { return 100 * off[min(len(off)-1, int(share*float64(len(off))))] }
	return fmt.Sprintf("%-10s %5d partly hidden: half within %.2f points, 90 %% %.2f, 95 %% %.2f, 99 %% %.2f, all %.2f", kind, len(off), at(0.5), at(0.9), at(0.95), at(0.99), at(1))
}
