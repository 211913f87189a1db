package check

import (
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// Clearance is the widest way from one place to another, and where it is narrowest.
type Clearance struct {
	From    string       `json:"from"`
	To      booth.ID     `json:"to"`
	Width   *float64     `json:"width"`   // metres; null where nothing narrows the way
	Between []booth.ID   `json:"between"` // the things on either side of the narrowest place
	At      [][2]float64 `json:"at"`      // [x, z] of their nearest points
	Stand   [2]float64   `json:"stand"`   // [x, z] of the place that the way leads to: before the work, or the middle of the room inside
}

// WayInWords says how wide the way in is, and between what; nothing where nothing narrows it, or where visitors stay outside.
func (r Result) WayInWords(p *booth.Plan) string {
	if p.Pitch.Counter || len(r.Clearances) == 0 || r.Clearances[0].Width == nil || *r.Clearances[0].Width < hair {
		return ""
	}
	s := "The way in is " + r.Clearances[0].inWords(p)
	for _, c := range r.Clearances[1:] {
		if c.To == "inside" && c.Width != nil && *c.Width >= hair {
			for _, v := range p.Views {
				if v.Name == c.From {
					s += " From " + aisleOf[v.Side] + " it is " + c.inWords(p)
				}
			}
		}
	}
	return s
}

// inWords says how wide a way is, and between what.
func (c Clearance) inWords(p *booth.Plan) string {
	s := unit.Length(*c.Width).Format(p.Units) + " wide"
	var between []string
	for _, id := range c.Between {
		if part := p.Part(id); part != nil {
			between = append(between, part.Name)
		}
	}
	if len(between) == 2 {
		s += " at its narrowest, between " + strings.Join(between, " and ")
	}
	return s + "."
}

// aisleOf is what people call the aisle along a side.
var aisleOf = [4]string{booth.Front: "the aisle", booth.Left: "the aisle on the left", booth.Back: "the aisle behind", booth.Right: "the aisle on the right"}

// sideWay is the way in across one further open side, as if all others were closed.
type sideWay struct {
	view   booth.View // of somebody who stands before that side
	floor  *way.Floor
	way    passage
	circle way.Circle
}

// pitch is the ground of the pitch.
func (p *Pass) pitch() way.Shape {
	w := p.Plan.Pitch.Width / 2
	return way.Rect(way.Point{X: -w}, way.Point{X: w, Z: -p.Plan.Pitch.Depth})
}

// sideWays are the ways in across the further open sides, to where the way in leads, or where that is cut off to a room of its own.
func (p *Pass) sideWays() []sideWay {
	r := p.room()
	if r.circle.Diameter == 0 {
		return nil
	}
	if p.ways == nil {
		p.ways = []sideWay{}
		for _, v := range p.Plan.Views {
			if !v.Before || v.Side == booth.Front {
				continue
			}
			only := *p.Plan
			only.Pitch.Open = [4]bool{}
			only.Pitch.Open[v.Side] = true
			f := (&Pass{Plan: &only, kept: p.kept, bodies: p.bodies}).floor()
			from := way.Point{X: v.Stand.X, Z: v.Stand.Z}
			in := sideWay{v, f, p.passageOn(f, from, r.circle.Centre), r.circle}
			if !in.way.ok { // walls in the middle may part the room: this side has one of its own then
				if own := p.roomOn(f, from); own.way.ok && own.circle.Diameter >= r.circle.Diameter*2/3 {
					in.way, in.circle = own.way, own.circle
				}
			}
			p.ways = append(p.ways, in)
		}
	}
	return p.ways
}

// Circle is a clear circle on the floor, in metres.
type Circle struct {
	Centre   [2]float64 `json:"centre"` // [x, z]
	Diameter float64    `json:"diameter"`
}

// room is a clear circle inside the pitch and the way to it from the entrance.
type room struct {
	circle way.Circle
	way    passage
	beyond way.Circle // a larger one that no good way leads to; its diameter is 0 where there is none
}

// door is where the visitor at the entrance stands; without such a view, before the middle of the front edge.
func (p *Pass) door() way.Point {
	for _, v := range p.Plan.Views {
		if v.Name == "entrance" {
			return way.Point{X: v.Stand.X, Z: v.Stand.Z}
		}
	}
	return way.Point{Z: p.Plan.Pitch.Aisle / 2}
}

// room is the inside of the booth as the visitor finds it: the largest clear circle. If no good way leads there (it may
// be the artist's own place behind a table), it is one that a good way leads to and that is at least two thirds as large.
func (p *Pass) room() room {
	if p.inside == nil {
		r := p.roomOn(p.floor(), p.door())
		p.inside = &r
	}
	return *p.inside
}

// roomOn is the same on a floor of its own, for somebody who comes from elsewhere.
func (p *Pass) roomOn(floor *way.Floor, from way.Point) (best room) {
	f, things, pitch := floor, len(floor.Obstacles), p.pitch()
	for range 4 {
		r := room{circle: f.Largest(pitch)}
		if r.circle.Diameter == 0 || r.circle.Diameter < best.circle.Diameter*2/3 {
			break
		}
		r.circle.Touches = slices.DeleteFunc(r.circle.Touches, func(o int) bool { return o >= things }) // other circles
		r.way = p.passageOn(floor, from, r.circle.Centre)
		if best.circle.Diameter == 0 || r.way.ok {
			r.beyond = best.circle
			best = r
		}
		if r.way.ok {
			break
		}
		f = way.NewFloor(append(f.Obstacles[:len(f.Obstacles):len(f.Obstacles)], way.Obstacle{Shape: disc(r.circle), Owner: 0}))
	}
	return best
}

func disc(c way.Circle) way.Shape {
	var points []way.Point
	for i := range 24 {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		points = append(points, way.Point{X: c.Centre.X + float64(k*c.Diameter/2), Z: c.Centre.Z + float64(s*c.Diameter/2)})
	}
	return way.Hull(points)
}

// line is the way in to draw: from the aisle to the middle of the clear circle inside, as corners on the floor; nil where
// there is no way.
func (p *Pass) line() []way.Point {
	r := p.room()
	g := r.way.gap
	if !(g.Width > 0) {
		return nil
	}
	type line struct {
		floor    answer.Sum
		from, to way.Point
		by       way.Gap
	}
	f, from, to := p.floor(), p.door(), r.circle.Centre
	return answer.Of(p.kept, line{p.outlined, from, to, g}, func() ([]way.Point, int) { return lineBy(f, from, to, g), 1000 })
}

// lineBy is such a line, by the narrowest place of the widest way.
func lineBy(f *way.Floor, from, to way.Point, g way.Gap) []way.Point {
	if g.B >= 0 { // through the narrow place that is reported, where another is as wide
		mid := way.Point{X: (g.AtA.X + g.AtB.X) / 2, Z: (g.AtA.Z + g.AtB.Z) / 2}
		before, on := f.Route(from, mid, g.Width), f.Route(mid, to, g.Width)
		if before != nil && on != nil {
			return append(before, on[1:]...)
		}
	}
	return f.Route(from, to, g.Width)
}

func (p *Pass) circle() *Circle {
	r := p.room()
	if !r.way.ok {
		return nil
	}
	return &Circle{[2]float64{r.circle.Centre.X, r.circle.Centre.Z}, r.circle.Diameter}
}

// WayIn is only the way in of a plan, as Of has it: its clearances to the room inside, the clear circle there and the line to it.
func WayIn(plan *booth.Plan) Result {
	p := &Pass{Plan: plan}
	return Result{Clearances: p.clearances(false), Circle: p.circle(), Way: p.line()}
}

// clearances are the way in, those across further open sides, and the way to every work that somebody can stand before.
func (p *Pass) clearances(works bool) []Clearance {
	out := []Clearance{}
	add := func(from string, f *way.Floor, to booth.ID, w passage, stand [2]float64) {
		c := Clearance{From: from, To: to, Between: []booth.ID{}, At: [][2]float64{}, Stand: stand}
		if g := w.gap; !math.IsInf(g.Width, 1) {
			c.Width = &g.Width
			for _, o := range []int{g.A, g.B} {
				if o >= 0 {
					c.Between = append(c.Between, p.id(f.Obstacles[o].Owner))
				}
			}
			c.At = append(c.At, [2]float64{g.AtA.X, g.AtA.Z}, [2]float64{g.AtB.X, g.AtB.Z})
		}
		out = append(out, c)
	}
	if r := p.room(); r.circle.Diameter > 0 {
		add("entrance", p.floor(), "inside", r.way, [2]float64{r.circle.Centre.X, r.circle.Centre.Z})
		for _, w := range p.sideWays() {
			add(w.view.Name, w.floor, "inside", w.way, [2]float64{w.circle.Centre.X, w.circle.Centre.Z})
		}
	}
	if !works {
		return out
	}
	for _, w := range p.Works {
		if s := p.stand(w); s.found {
			add("entrance", p.floor(), w.ID, s.way, [2]float64{s.at.X, s.at.Z})
		}
	}
	return out
}
