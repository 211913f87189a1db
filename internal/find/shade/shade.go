// Package shade is which works the sun shines on, when and how long, into whose eyes it falls, and what keeps most of it off.
//
// A work's sunlit part is exact: it is what an eye at the sun's place sees of it past everything in the booth. Cloth and boards
// stop the sun; of wire mesh only the wires do. Who walks about casts no lasting shadow and is left out. The sun's course is
// followed in steps of minutes; when it comes and goes is found to a quarter of a minute.
package shade

import (
	"fmt"
	"math"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/basis/sun"
	"boothmock/internal/plan/booth"
)

// Spell is a while from one time to another.
type Spell struct{ From, To time.Time }

// Minutes is how long it takes.
func (s Spell) Minutes() float64 { return s.To.Sub(s.From).Minutes() }

// Work is a work in the sun of the fair.
type Work struct {
	Part   *booth.Part
	Spells [][]Spell // by day of the fair: when some of it is in direct sun
	Most   float64   // the greatest share of its face that is in the sun at once
	Dose   float64   // lux hours of direct sun over the whole fair, on the sixteenth of its face that gets most
}

// Day is for how many minutes on its sunniest day it is in direct sun, and which day that is.
func (w Work) Day() (minutes float64, day int) { return longest(w.Spells) }

// longest is for how many minutes something lasts on the day on which it lasts longest, and which day that is.
func longest(days [][]Spell) (minutes float64, day int) {
	for i, list := range days {
		sum := 0.0
		for _, s := range list {
			sum += s.Minutes()
		}
		if sum > minutes {
			minutes, day = sum, i
		}
	}
	return minutes, day
}

// Course is the sun over a booth during the fair.
type Course struct {
	fair  *booth.Fair
	place sun.Place
	sky   sun.Sky
	turn  float64 // radians by which the booth is turned from how it faces
	kept  *answer.Kept
}

func newCourse(f *booth.Fair, kept *answer.Kept) Course {
	return Course{fair: f, place: sun.Place{Latitude: f.Latitude, Longitude: f.Longitude}, sky: sun.Sky(f.Sky), kept: kept}
}

// at is the direction to the sun, in the booth's axes, and its light on a surface square to it.
func (c Course) at(t time.Time) (toward geom.Vec, lux float64) {
	type sunAt struct {
		place sun.Place
		nano  int64
	}
	p := answer.Of(c.kept, sunAt{c.place, t.UnixNano()}, func() (sun.Position, int) { return sun.At(t, c.place), 100 })
	return p.Toward(c.fair.Faces + c.turn), c.sky.Direct(p.Altitude)
}

// hall is what stands in the way of the sun.
type hall struct {
	crowd  *sight.Crowd
	solids []sight.Solid
	parts  []booth.Part
	gaze   sight.Gaze
	sheets []geom.Convex // that are no part's, and may be hung: their owners are -1, -2 ...
	hung   int           // the owner of the sheet that hangs; 0: none

	kept   *answer.Kept // from other versions; nil: nothing
	bounds []bounds     // of the parts, if anything is kept
}

func newHall(p *booth.Plan, kept *answer.Kept, sheets ...geom.Convex) *hall {
	h := &hall{parts: p.Parts, kept: kept, sheets: sheets}
	var screens []sight.Screen
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Moving {
			continue
		}
		var body answer.Sum
		if kept != nil {
			body = part.Body()
			if b, ok := boundsOf(part, i, body); ok {
				h.bounds = append(h.bounds, b)
			}
		}
		if !part.SeeThrough {
			h.solids = append(h.solids, sight.NewSolids(part.Solids, i, kept, body)...)
		}
		for _, w := range part.Screen {
			screens = append(screens, sight.NewScreen(w, i))
		}
	}
	all := h.solids
	for k, c := range sheets {
		all = append(all, sight.NewSolid(c, -1-k))
	}
	h.crowd = sight.NewCrowd(all, screens...)
	return h
}

// hang is the hall with one of its sheets hung.
func (h *hall) hang(sheet int) *hall {
	o := *h
	o.hung, o.gaze = -1-sheet, sight.Gaze{}
	return &o
}

// lit is the share of a face of part number own that the sun shines on.
func (h *hall) lit(face geom.Polygon, own int, toward geom.Vec) float64 {
	if toward.Y <= 0 || face.Normal().Dot(toward) <= 0 {
		return 0
	}
	return h.gaze.SeeAlong(toward, face, h.crowd, func(o int) bool { return o == own || o < 0 && o != h.hung }).Visible
}

// shines reports whether the sun shines on a point.
func (h *hall) shines(p geom.Vec, toward geom.Vec) bool {
	const far = 100 // metres
	for i := range h.solids {
		if h.solids[i].Stops(p, p.Add(toward.Mul(far))) {
			return false
		}
	}
	return toward.Y > 0
}

// Sunlit is a work in direct sun, and how much of it is.
type Sunlit struct {
	Part  *booth.Part
	Share float64
}

// some is how much of a work: less is a glint past an edge.
const some = 0.01

// At are the works on which the sun shines at each of some times.
func At(p *booth.Plan, times []time.Time) [][]Sunlit {
	h, c := newHall(p, nil), newCourse(p.Fair, nil)
	out := make([][]Sunlit, len(times))
	for k, t := range times {
		toward, lux := c.at(t)
		for i := range p.Parts {
			part := &p.Parts[i]
			if part.Work == nil || lux == 0 {
				continue
			}
			if s := h.lit(part.Work.Face, i, toward); s > some {
				out[k] = append(out[k], Sunlit{part, s})
			}
		}
	}
	return out
}

// step is how far apart the sun's course is looked at for so many things.
func step(things int) time.Duration {
	switch {
	case things <= 60:
		return 5 * time.Minute
	case things <= 600:
		return 15 * time.Minute
	}
	return 30 * time.Minute
}

// each visits the middles of the steps of all days, with the length of each in hours.
func (c Course) each(step time.Duration, visit func(t time.Time, day int, hours float64)) {
	for i, d := range c.fair.Days {
		for t := d.From; t.Before(d.To); t = t.Add(step) {
			end := t.Add(step)
			if end.After(d.To) {
				end = d.To
			}
			visit(t.Add(end.Sub(t)/2), i, end.Sub(t).Hours())
		}
	}
}

// spells are the whiles of a day, looked at in steps, in which is holds.
func spells(d booth.Opening, step time.Duration, is func(t time.Time) bool) (out []Spell) {
	// edge is when it begins or ends to hold, between a time when it does not and one when it does.
	edge := func(no, yes time.Time) time.Time {
		for no.Sub(yes).Abs() > 15*time.Second {
			if mid := no.Add(yes.Sub(no) / 2); is(mid) {
				yes = mid
			} else {
				no = mid
			}
		}
		return yes
	}
	var from time.Time
	held := false
	last := d.From
	for t := d.From; ; t = t.Add(step) {
		if t.After(d.To) {
			t = d.To
		}
		switch now := is(t); {
		case now && !held && t.Equal(d.From):
			from, held = t, true
		case now && !held:
			from, held = edge(last, t), true
		case !now && held:
			out, held = append(out, Spell{from, edge(t, last)}), false
		}
		if last = t; t.Equal(d.To) {
			break
		}
	}
	if held {
		out = append(out, Spell{from, d.To})
	}
	return out
}

// works are the works on which the sun shines at some time, in the order of the plan.
func works(p *booth.Plan, h *hall) []Work {
	c := newCourse(p.Fair, h.kept)
	every := step(p.Works())
	var times []time.Time // at which the sun's course is looked at, and the days' ends
	for _, d := range p.Fair.Days {
		for t := d.From; t.Before(d.To); t = t.Add(every) {
			times = append(times, t)
		}
		times = append(times, d.To)
	}
	rays := c.rays(times)
	days := fmt.Sprint(p.Fair.Days)
	type sunlit struct {
		sum  answer.Sum
		days string
	}
	aside := 2 * math.Pi * every.Hours() / 24 // that the sun moves from one time to the next, at most
	var out []Work
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Work == nil {
			continue
		}
		w := answer.Of(h.kept, sunlit{h.sum(part.Work.Face, i, rays, aside), days}, func() (Work, int) {
			return c.work(h, part.Work.Face, i, every), 300
		})
		if w.Part = part; w.Spells != nil {
			out = append(out, w)
		}
	}
	return out
}

// work is what the sun does to a face; its Spells are nil if it does not shine there.
func (c Course) work(h *hall, face geom.Polygon, own int, every time.Duration) (w Work) {
	any := false
	for _, d := range c.fair.Days {
		list := spells(d, every, func(t time.Time) bool {
			toward, lux := c.at(t)
			return lux > 0 && h.lit(face, own, toward) > some
		})
		w.Spells, any = append(w.Spells, list), any || len(list) > 0
	}
	if !any {
		return Work{}
	}
	w.Most, w.Dose = c.dose(h, face, own, every)
	return w
}

// dose is the greatest share of a face in the sun at once, and the lux hours on the sixteenth of it that gets most.
func (c Course) dose(h *hall, face geom.Polygon, own int, every time.Duration) (most, lxh float64) {
	const n = 4
	at := func(i, k int) geom.Vec {
		u, v := float64(i)/n, float64(k)/n
		return face[0].Lerp(face[1], u).Lerp(face[3].Lerp(face[2], u), v)
	}
	var cells [n * n]float64
	normal := face.Normal()
	c.each(every, func(t time.Time, _ int, hours float64) {
		toward, lux := c.at(t)
		share := 0.0
		if lux > 0 {
			share = h.lit(face, own, toward)
		}
		if most = max(most, share); share == 0 {
			return
		}
		part := 1.0
		for k := range cells {
			x, y := k%n, k/n
			cell := geom.Polygon{at(x, y), at(x+1, y), at(x+1, y+1), at(x, y+1)}
			if share < 1 { // else all of each is in the sun
				part = h.lit(cell, own, toward)
			}
			cells[k] += part * lux * normal.Dot(toward) * hours
		}
	})
	for _, d := range cells {
		lxh = max(lxh, d)
	}
	return most, lxh
}

// glare are, by day of the fair, the whiles in which the sun shines into an eye that looks along a line, from less than some radians
// beside it.
func glare(p *booth.Plan, h *hall, eye, look geom.Vec, within float64) (out [][]Spell, any bool) {
	c := newCourse(p.Fair, h.kept)
	ahead := look.Sub(eye).Unit()
	for _, d := range p.Fair.Days {
		list := spells(d, 5*time.Minute, func(t time.Time) bool {
			toward, lux := c.at(t)
			return lux > 0 && ahead.Dot(toward) > math.Cos(within) && h.shines(eye, toward)
		})
		out, any = append(out, list), any || len(list) > 0
	}
	return out, any
}
