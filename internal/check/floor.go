package check

import (
	"math"
	"slices"
	"strings"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/unit"
	"boothmock/internal/way"
)

// Clearance is the widest way from one place to another, and where it is narrowest.
type Clearance struct {
	From    string       `json:"from"`
	To      booth.ID     `json:"to"`
	Width   *float64     `json:"width"`   // metres; null where nothing narrows the way
	Between []booth.ID   `json:"between"` // the things on either side of the narrowest place
	At      [][2]float64 `json:"at"`      // [x, z] of their nearest points; then, for a work, Stand
	Stand   *[2]float64  `json:"stand"`   // [x, z] of the place to stand before the work; null where there is none
}

// WayInWords says how wide the way in is, and between what; nothing where nothing narrows it.
func (r Report) WayInWords(p *booth.Plan) string {
	if len(r.Clearances) == 0 || r.Clearances[0].Width == nil {
		return ""
	}
	c := r.Clearances[0]
	s := "The way in is " + unit.Length(*c.Width).Format(p.Units) + " wide"
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

// Circle is a clear circle on the floor, in metres.
type Circle struct {
	Centre   [2]float64 `json:"centre"` // [x, z]
	Diameter float64    `json:"diameter"`
}

const (
	lowest    = 0.5 * float64(unit.Inch) // metres: what is lower is stepped over without noticing (a carpet's edge)
	neighbour = 3.0                      // metres of a neighbour's ground that count as closed
	apart     = 48 * float64(unit.Inch)  // metres between two short narrow places: 2010 ADA Standards 403.5.1, exception
)

// floor is the ground with everything that a visitor cannot walk through: what stands between the ground and the
// height of the usual visitor's eye, and the neighbours beyond the closed sides. What hangs higher is for the check of
// headroom. Visitors move out of the way.
func (p *Pass) floor() *way.Floor {
	if p.ground == nil {
		obstacles := p.neighbours()
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Flat || part.Moving {
				continue
			}
			for _, c := range part.Solids {
				if s := way.Footprint(c, lowest, p.usual().Height); s != nil {
					obstacles = append(obstacles, way.Obstacle{Shape: s, Owner: i})
				}
			}
		}
		p.ground = way.NewFloor(outermost(obstacles))
	}
	return p.ground
}

// neighbours are the grounds beyond the closed sides of the pitch.
func (p *Pass) neighbours() []way.Obstacle {
	var out []way.Obstacle
	for side, open := range p.Plan.Pitch.Open {
		if open {
			continue
		}
		a, b := p.Plan.Pitch.Edge(booth.Side(side))
		away := geom.Up.Cross(b.Sub(a)).Unit().Mul(neighbour)
		if a.Add(away).Len() < a.Len() {
			away = away.Neg()
		}
		out = append(out, way.Obstacle{Shape: way.Hull(flat(a, b, a.Add(away), b.Add(away))), Owner: -1 - side})
	}
	return out
}

// outermost leaves out obstacles that stand within another one: things under a table, prints in a bin.
func outermost(obstacles []way.Obstacle) []way.Obstacle {
	var out []way.Obstacle
	for i, o := range obstacles {
		within := false
		for j, other := range obstacles {
			if i != j && covers(other.Shape, o.Shape) && (!covers(o.Shape, other.Shape) || j < i) {
				within = true
				break
			}
		}
		if !within {
			out = append(out, o)
		}
	}
	return out
}

func covers(s, t way.Shape) bool {
	for _, q := range t {
		if !s.Holds(q) {
			return false
		}
	}
	return true
}

func flat(vs ...geom.Vec) []way.Point {
	out := make([]way.Point, len(vs))
	for i, v := range vs {
		out[i] = way.Point{X: v.X, Z: v.Z}
	}
	return out
}

// passage is the widest way between two places, judged by the rule of 2010 ADA Standards 403.5.1.
type passage struct {
	gap  way.Gap
	long float64 // metres for which the gap is narrower than the rule allows; 0 if that was not asked
	ok   bool
}

// passage finds the widest way. Where it is narrower than the rule for routes, short narrow places may still be let
// through, if each is wide enough for that and far enough from the next.
func (p *Pass) passage(from, to way.Point) passage {
	f := p.floor()
	need, pinch, longest := p.rule(rules.RouteWidth), p.rule(rules.PinchWidth), p.rule(rules.PinchLength)
	var let []way.Gap
	var grounds []way.Shape
	for {
		g := f.Widest(from, to, let...)
		if g.Width >= need-hair {
			if len(let) > 0 {
				g = let[0] // the narrowest of them
			}
			return passage{gap: g, ok: true}
		}
		if g.B < 0 || g.Width < pinch-hair {
			return passage{gap: g}
		}
		ground, long := f.Throat(g, need-hair/2)
		if long > longest+hair {
			return passage{gap: g, long: long}
		}
		for _, other := range grounds {
			// What is too near is one narrow place with it, and the two together must be short.
			if _, _, d := way.Closest(ground, other); d < apart-hair {
				if long = max(long, along(g, append(ground, other...))); long > longest+hair {
					return passage{gap: g, long: long}
				}
			}
		}
		let, grounds = append(let, g), append(grounds, ground)
	}
}

// along is how far the shape reaches along the way through the gap, in metres.
func along(g way.Gap, s way.Shape) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range s {
		d := float64((q.X-g.AtA.X)*(g.AtB.Z-g.AtA.Z)) - float64((q.Z-g.AtA.Z)*(g.AtB.X-g.AtA.X))
		lo, hi = min(lo, d/g.Width), max(hi, d/g.Width)
	}
	return hi - lo
}

// sides names the things on either side of a narrow place.
func (p *Pass) sides(g way.Gap) string {
	a := p.name(p.floor().Obstacles[g.A].Owner)
	if g.B < 0 {
		return "beside " + a
	}
	b := p.name(p.floor().Obstacles[g.B].Owner)
	if a == b {
		return "between two parts of " + a
	}
	return "between " + a + " and " + b
}

// enough says how wide the way is and how wide it should be.
func (p *Pass) enough(w passage) string {
	s := p.length(w.gap.Width) + " wide"
	need := p.length(p.rule(rules.RouteWidth)) + " is good practice"
	if w.long > 0 {
		return s + " for " + p.length(w.long) + "; " + need + ", or " + p.length(p.rule(rules.PinchWidth)) + " for at most " + p.length(p.rule(rules.PinchLength))
	}
	return s + "; " + need
}

// room is a clear circle inside the pitch and the way to it from the entrance.
type room struct {
	circle way.Circle
	way    passage
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
	if p.rooms == nil {
		f, things := p.floor(), len(p.floor().Obstacles)
		w, d := p.Plan.Pitch.Width/2, p.Plan.Pitch.Depth
		pitch := way.Rect(way.Point{X: -w}, way.Point{X: w, Z: -d})
		var best room
		for range 4 {
			r := room{circle: f.Largest(pitch)}
			if r.circle.Diameter == 0 || r.circle.Diameter < best.circle.Diameter*2/3 {
				break
			}
			r.circle.Touches = slices.DeleteFunc(r.circle.Touches, func(o int) bool { return o >= things }) // other circles
			r.way = p.passage(p.door(), r.circle.Centre)
			if best.circle.Diameter == 0 || r.way.ok {
				best = r
			}
			if r.way.ok {
				break
			}
			f = way.NewFloor(append(f.Obstacles[:len(f.Obstacles):len(f.Obstacles)], way.Obstacle{Shape: disc(r.circle), Owner: 0}))
		}
		p.rooms = []room{best}
	}
	return p.rooms[0]
}

func disc(c way.Circle) way.Shape {
	var points []way.Point
	for i := range 24 {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		points = append(points, way.Point{X: c.Centre.X + float64(k*c.Diameter/2), Z: c.Centre.Z + float64(s*c.Diameter/2)})
	}
	return way.Hull(points)
}

// WayIn is a line to draw: from the aisle to the middle of the clear circle inside, as corners on the floor; nil where
// there is no way.
func WayIn(plan *booth.Plan) []way.Point {
	p := newPass(plan)
	r := p.room()
	g := r.way.gap
	if !(g.Width > 0) {
		return nil
	}
	if g.B >= 0 { // through the narrow place that is told of, where another is as wide
		mid := way.Point{X: (g.AtA.X + g.AtB.X) / 2, Z: (g.AtA.Z + g.AtB.Z) / 2}
		to, on := p.floor().Route(p.door(), mid, g.Width), p.floor().Route(mid, r.circle.Centre, g.Width)
		if to != nil && on != nil {
			return append(to, on[1:]...)
		}
	}
	return p.floor().Route(p.door(), r.circle.Centre, g.Width)
}

func (p *Pass) circle() *Circle {
	r := p.room()
	if !r.way.ok {
		return nil
	}
	return &Circle{[2]float64{r.circle.Centre.X, r.circle.Centre.Z}, r.circle.Diameter}
}

// clearances are the way in and the way to every work that somebody can stand before.
func (p *Pass) clearances() []Clearance {
	out := []Clearance{}
	add := func(to booth.ID, w passage, stand *[2]float64) {
		c := Clearance{From: "entrance", To: to, Between: []booth.ID{}, At: [][2]float64{}, Stand: stand}
		if g := w.gap; !math.IsInf(g.Width, 1) {
			c.Width = &g.Width
			for _, o := range []int{g.A, g.B} {
				if o >= 0 {
					c.Between = append(c.Between, p.id(p.floor().Obstacles[o].Owner))
				}
			}
			c.At = append(c.At, [2]float64{g.AtA.X, g.AtA.Z}, [2]float64{g.AtB.X, g.AtB.Z})
		}
		out = append(out, c)
	}
	if r := p.room(); r.circle.Diameter > 0 {
		add("inside", r.way, &[2]float64{r.circle.Centre.X, r.circle.Centre.Z})
	}
	for _, w := range p.Works {
		if s := p.stand(w); s.found {
			add(w.ID, s.way, &[2]float64{s.at.X, s.at.Z})
		}
	}
	return out
}
