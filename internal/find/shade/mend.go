package shade

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// mend is something that keeps sun off the works, in words, and the share of the sun's effect on them that is left.
type mend struct {
	words string
	left  float64
}

// hung is a face in a place where a work could be, and how much a lux hour on a square metre of it counts.
type hung struct {
	face   geom.Polygon
	own    int
	weight float64
}

// search tries out what keeps the sun off, on one day in the middle of the fair.
type search struct {
	plan  *booth.Plan
	hall  *hall
	all   []hung    // every work
	alone []float64 // the sun's effect on each of them as the booth is
	now   float64   // and on all
	sunny []hung    // those on which it has one
	rays  []ray     // from the sun, as the booth stands
}

func newSearch(p *booth.Plan, h *hall) *search {
	s := &search{plan: p, hall: h}
	s.rays = s.turned(0)
	for i := range p.Parts {
		if w := p.Parts[i].Work; w != nil {
			s.all = append(s.all, hung{w.Face, i, weight(w)})
		}
	}
	for _, f := range s.all {
		e := s.effect(h, []hung{f}, s.rays, math.Inf(1))
		s.alone, s.now = append(s.alone, e), s.now+e
		if e > 0 {
			s.sunny = append(s.sunny, f)
		}
	}
	return s
}

// turned are the rays of the day, with the booth turned by an angle.
func (s *search) turned(by float64) []ray {
	c := newCourse(s.plan.Fair, s.hall.kept)
	c.turn = by
	day, every := s.plan.Fair.Days[len(s.plan.Fair.Days)/2], 4*step(s.plan.Works())
	var times []time.Time
	for t := day.From.Add(every / 2); t.Before(day.To); t = t.Add(every) {
		times = append(times, t)
	}
	return c.rays(times)
}

// weight is by how much more than the least sensitive a work fades. An unknown medium counts as such a one, and so does one that
// light does not fade, which heats up all the same.
func weight(w *booth.Work) float64 {
	const least = 600_000
	if c, ok := sensitivity(w.Medium); ok && c.Year > 0 {
		return least / c.Year
	}
	return 1
}

// effect is the sun's dose on some faces along some rays, weighted by area and by how fast each fades. Once it is more than some
// number, no more faces are looked at.
func (s *search) effect(h *hall, list []hung, rays []ray, most float64) float64 {
	type dose answer.Sum
	sum := 0.0
	for _, f := range list {
		if sum > most {
			break
		}
		sum += f.face.Area() * f.weight * answer.Of(h.kept, dose(h.sum(f.face, f.own, rays, 0)), func() (lux float64, bytes int) {
			n := f.face.Normal()
			for _, r := range rays {
				lux += h.lit(f.face, f.own, r.toward) * r.lux * max(0, n.Dot(r.toward))
			}
			return lux, 100
		})
	}
	return sum
}

// mends are what helps most of each kind, the best first; none that leaves more than four fifths.
func (s *search) mends() []mend {
	if s.now == 0 {
		return nil
	}
	var out []mend
	for _, best := range []func() mend{s.closing, s.swapping, s.turning} {
		if m := best(); m.words != "" && m.left < 0.8 {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b mend) int { return cmp.Compare(math.Round(a.left*100), math.Round(b.left*100)) })
	return out
}

// less is the share of the sun's effect that is left, and whether it is less than that of a mend, by a difference that counts.
func (s *search) less(h *hall, list []hung, rays []ray, than mend) (left float64, ok bool) {
	left = s.effect(h, list, rays, than.left*s.now) / s.now
	return left, left < than.left-0.005
}

// turning is the best of the sixteen points of the compass for the entrance to face.
func (s *search) turning() (best mend) {
	best.left = 1
	for k := range 16 {
		to := unit.Bearing(float64(k) * math.Pi / 8)
		if left, ok := s.less(s.hall, s.all, s.turned(float64(to)-s.plan.Fair.Faces), best); ok {
			best = mend{"a pitch whose entrance faces " + to.Word(), left}
		}
	}
	return best
}

// awning is by how much one comes out as they are sold: common practice, no source.
const awning = 3 * unit.Foot

// curtains are the sides of the booth that may be closed with cloth; the front stays open.
var curtains = []booth.Side{booth.Left, booth.Back, booth.Right}

// sheets are the cloths that may be hung against the sun: on the sides, and an awning over the front.
func sheets(p *booth.Plan) (out []geom.Convex) {
	const thick = 0.002 // metres
	top := 2.1          // metres
	for i := range p.Parts {
		if t := p.Parts[i].Tent; t != nil {
			top = t.Eave
		}
	}
	for _, side := range curtains {
		a, b := p.Pitch.Edge(side)
		along := b.Sub(a)
		f := geom.Frame{Origin: a, X: along.Unit(), Y: geom.Up, Z: along.Unit().Cross(geom.Up)}
		out = append(out, geom.Box(f, geom.Vec{Z: -thick}, geom.Vec{X: along.Len(), Y: top}))
	}
	w := p.Pitch.Width / 2
	return append(out, geom.Box(geom.World, geom.Vec{X: -w, Y: top - thick}, geom.Vec{X: w, Y: top, Z: awning.M()}))
}

// closing is the best side of the booth to close, or to close up to its rail, with cloth; or an awning over the front.
func (s *search) closing() (best mend) {
	best.left = 1
	var hangs [4]bool
	for i := range s.plan.Parts {
		if c := s.plan.Parts[i].Cloth; c != nil {
			hangs[c.Side] = true
		}
	}
	for k := range s.hall.sheets {
		left, ok := s.less(s.hall.hang(k), s.sunny, s.rays, best)
		switch {
		case !ok:
		case k == len(curtains):
			best = mend{"put out an awning of " + awning.FormatFeet(s.plan.Units) + " over the front", left}
		case hangs[curtains[k]]:
			best = mend{fmt.Sprintf("close what the cloth on the %s leaves open, from the ground up to the rail", curtains[k]), left}
		default:
			best = mend{fmt.Sprintf("close the %s side with cloth", curtains[k]), left}
		}
	}
	return best
}

// swapping is the best exchange of two works on walls whose sizes are nearly alike, each hung with its centre where the other's was.
func (s *search) swapping() (best mend) {
	best.left = 1
	const alike = 0.2 // metres, of height and of width
	order := make([]int, len(s.all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.alone[b], s.alone[a]) })
	work := func(i int) *booth.Work { return s.plan.Parts[s.all[i].own].Work }
	for _, i := range order[:min(3, len(order))] {
		if s.alone[i] == 0 || work(i).Hung == nil {
			continue
		}
		tried := 0
		for _, k := range slices.Backward(order) { // those in the shade first
			a, b := work(i), work(k)
			if k == i || b.Hung == nil || math.Abs(a.Height-b.Height) > alike || math.Abs(a.Width-b.Width) > alike {
				continue
			}
			if tried++; tried > 40 {
				break
			}
			pair := []hung{
				{moved(a.Face, b.Face), s.all[k].own, s.all[i].weight},
				{moved(b.Face, a.Face), s.all[i].own, s.all[k].weight},
			}
			rest := s.now - s.alone[i] - s.alone[k]
			if left := (rest + s.effect(s.hall, pair, s.rays, best.left*s.now-rest)) / s.now; left < best.left-0.005 {
				best = mend{fmt.Sprintf("exchange %s and %s", s.plan.Parts[s.all[i].own].Name, s.plan.Parts[s.all[k].own].Name), left}
			}
		}
	}
	return best
}

// moved is a face hung with its centre where another's is, in that one's plane.
func moved(face, to geom.Polygon) geom.Polygon {
	centre := to.Centre()
	right, up := to[1].Sub(to[0]).Unit(), to[3].Sub(to[0]).Unit()
	w, h := face[0].Dist(face[1])/2, face[0].Dist(face[3])/2
	at := func(x, y float64) geom.Vec { return centre.Add(right.Mul(x)).Add(up.Mul(y)) }
	return geom.Polygon{at(-w, -h), at(w, -h), at(w, h), at(-w, h)}
}
