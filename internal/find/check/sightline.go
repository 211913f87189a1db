package check

import (
	"cmp"
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Sightline is what one eye sees of one work from one view. Visitors who stand in the booth count, as in the picture.
type Sightline struct {
	Work     booth.ID `json:"work"`
	From     string   `json:"from"`
	Eye      string   `json:"eye"`
	EyeM     float64  `json:"eye_m"`
	Visible  float64  `json:"visible"` // share of the work's area, 0 to 1
	HiddenBy []Hider  `json:"hidden_by"`
	ViewSr   float64  `json:"share_of_view_sr"` // solid angle of what is visible, in steradians
	Turned   float64  `json:"turned_deg"`       // between the line of sight and the work's face: 90 is square on, negative from behind

	work  Work
	view  booth.View
	still seen // with nobody in the way
}

// shown is the share of the work that is seen with nobody in the way: none of one that faces away.
func (l Sightline) shown() float64 {
	if l.still.turned <= 0 {
		return 0
	}
	return l.still.visible
}

// ByWork are the sightlines of each work.
func (r Result) ByWork() map[booth.ID][]Sightline {
	out := map[booth.ID][]Sightline{}
	for _, l := range r.Sightlines {
		out[l.Work] = append(out[l.Work], l)
	}
	return out
}

// Hider is a thing that hides part of a work.
type Hider struct {
	Item  booth.ID `json:"item"`
	Share float64  `json:"share"` // of the work's area, 0 to 1

	number int
}

// seen is how much of a work is visible to an eye, and what hides the rest, greatest first.
type seen struct {
	visible, sr, turned float64
	hidden              []Hider

	eye  geom.Vec
	face geom.Polygon
	skip func(owner int) bool // parts that cannot be in the way
}

// who is which parts can be in the way of a sightline.
type who int

const (
	everything who = iota
	noPeople       // without visitors
	bare           // without anything that a picture for a jury leaves out
)

// see is what an eye sees of a work. The wall that it hangs on, with its frame, cannot hide it.
func (p *Pass) see(eye geom.Vec, w Work, who who) seen {
	var wall booth.ID
	if w.Work.Hung != nil {
		wall = w.Work.Hung.Wall
	}
	return p.seeFace(eye, w.Work.FaceTo(eye), func(owner int) bool {
		part := &p.Plan.Parts[owner]
		return owner == w.Number || wall != "" && part.ID == wall || who == noPeople && part.Moving || who == bare && (part.Dressing || part.Beyond)
	})
}

// seeFace is what an eye sees of a flat face past everything but the parts, by their numbers, that are passed over.
func (p *Pass) seeFace(eye geom.Vec, face geom.Polygon, skip func(owner int) bool) seen {
	s := p.sightline(eye, face, skip)
	out := seen{s.Visible, s.SolidAngle, s.Turned * 180 / math.Pi, []Hider{}, eye, face, skip}
	for _, h := range s.Hidden {
		out.hidden = append(out.hidden, Hider{p.Plan.Parts[h.Owner].ID, h.Part, h.Owner})
	}
	slices.SortStableFunc(out.hidden, func(a, b Hider) int { // those that hide as much are named from left to right
		if c := cmp.Compare(math.Round(b.Share*1e9), math.Round(a.Share*1e9)); c != 0 {
			return c
		}
		return cmp.Compare(p.bearing(p.Plan.Parts[a.number].Frame.Origin), p.bearing(p.Plan.Parts[b.number].Frame.Origin))
	})
	return out
}

// sightline is what SeePast finds. It is made from the eye, the face, and the parts that come near the lines between them; in what is
// kept they are known by their places in the list of those.
func (p *Pass) sightline(eye geom.Vec, face geom.Polygon, skip func(owner int) bool) sight.Seen {
	if p.kept == nil {
		return p.gaze.SeePast(eye, face, p.solids, skip)
	}
	near := map[int]bool{}
	p.gaze.Near(eye, face, p.solids, func(owner int) { near[owner] = near[owner] || !skip(owner) })
	var owners []int
	for owner, counts := range near {
		if counts {
			owners = append(owners, owner)
		}
	}
	slices.Sort(owners)
	var sum answer.Summing
	sum.Add(eye.X, eye.Y, eye.Z)
	for _, v := range face {
		sum.Add(v.X, v.Y, v.Z)
	}
	for _, owner := range owners {
		sum.Sum(p.bodies[owner])
	}
	type sightline answer.Sum
	s := answer.Of(p.kept, sightline(sum.Done()), func() (sight.Seen, int) {
		s := p.gaze.SeePast(eye, face, p.solids, skip)
		s.Hidden = slices.Clone(s.Hidden)
		for i := range s.Hidden {
			s.Hidden[i].Owner, _ = slices.BinarySearch(owners, s.Hidden[i].Owner)
		}
		return s, 150 + 16*len(s.Hidden)
	})
	s.Hidden = slices.Clone(s.Hidden)
	for i := range s.Hidden {
		s.Hidden[i].Owner = owners[s.Hidden[i].Owner]
	}
	return s
}

// sightlines are worked out once: every work from every view by every eye. A view that sets the eye's height itself (a
// seat) has one eye only.
func (p *Pass) sightlines() []Sightline {
	if p.lines != nil {
		return p.lines
	}
	p.lines = []Sightline{}
	for _, v := range p.Plan.Views {
		eyes := p.Plan.Eyes
		if v.Height > 0 {
			eyes = []booth.Eye{{Name: "seated", Height: v.Height}}
		}
		for _, e := range eyes {
			from := v.From(e)
			for _, w := range p.Works {
				scope := everything
				if v.Bare {
					scope = bare
				}
				s := p.see(from, w, scope)
				l := Sightline{
					Work: w.ID, From: v.Name, Eye: e.Name, EyeM: from.Y,
					Visible: s.visible, HiddenBy: s.hidden, ViewSr: s.sr, Turned: s.turned, work: w, view: v, still: s,
				}
				for _, h := range s.hidden {
					if p.Plan.Parts[h.number].Moving {
						l.still = p.see(from, w, noPeople)
						break
					}
				}
				p.lines = append(p.lines, l)
			}
		}
	}
	return p.lines
}

// hiding begins a sentence: what hides a work and how much of it: "The print table hides 43%". Things that hide less than a
// twentieth are left out, but for the greatest.
func (p *Pass) hiding(s seen) string {
	var names []string
	for i, h := range s.hidden {
		if i == 0 || h.Share >= 0.05 {
			names = append(names, p.name(h.number))
		}
	}
	verb := "hides"
	if len(names) > 1 {
		verb = "hide"
	}
	return unit.Capital(list(names)) + " " + verb + " " + percent(1-s.visible)
}

// besides ends such a sentence: what would hide much of the work by itself, too, if all that stands before it were gone: ", and the banner
// behind it would hide 96%". Nothing if there is no such thing.
func (p *Pass) besides(s seen) string {
	const more = 0.05 // of the work: less than that more than it hides anyway is not told
	p.gaze.SeePast(s.eye, s.face, p.solids, s.skip)
	share := map[int]float64{}
	for i, h := range s.hidden {
		if share[h.number] = h.Share; i == 0 || h.Share >= 0.05 { // named already
			share[h.number] = 1
		}
	}
	var names []string
	most := 0.0
	for _, owner := range p.gaze.Owners(p.solids) {
		alone := 1 - p.gaze.SeePast(s.eye, s.face, p.solids, func(o int) bool { return o != owner }).Visible
		if alone > share[owner]+more {
			names, most = append(names, p.name(owner)), max(most, alone)
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return ", and " + names[0] + " behind would hide " + percent(most) + " of it as well"
	}
	return ", and of " + list(names) + " behind each would hide up to " + percent(most) + " of it as well"
}
