package kinds

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/unit"
)

// Usual weights where the scene states none, in grams a square metre: common practice, no source. Welded mesh of 8 gauge
// wire at 2 in is about 8 lb for a panel of 2 x 7 ft.
var holdGrams = map[booth.Hold]float64{booth.Mesh: 3000, booth.Panel: 4500, booth.Chains: 1000, booth.Rail: 700, booth.None: 700}

const (
	workGrams = 6000.0 // a square metre of canvas or framed print
	pipeGrams = 900.0  // a metre of drape pipe
	side10    = 3.05   // metres: the side of ten feet that the rules' minutes are for
	heavy     = 7.0    // kg: a work that two people hang
	wide      = 1.15   // metres: the same
	reachDeep = 0.6    // metres of ground before a wall on which a person stands and reaches it
	reachWide = 0.6
)

// panelWide is how wide one panel is, in metres, where a wall comes in panels: two feet of mesh, 38 in of padded panel.
var panelWide = map[booth.Hold]float64{booth.Mesh: 0.61, booth.Panel: 0.97}

var standUp = map[booth.Hold]string{
	booth.Mesh: "Stand up the mesh of %s, panel by panel, and tie each to its neighbour and to the frame", booth.Panel: "Stand up the panels of %s and join them",
	booth.Chains: "Put up the rail of %s and hang its chains", booth.Rail: "Put up the hanging rail of %s with its wires", booth.None: "Put up the bare frame of %s",
}

var holdWords = map[booth.Hold]string{
	booth.Mesh: "mesh panels", booth.Panel: "panels", booth.Chains: "chains with their rail", booth.Rail: "the hanging rail with its wires", booth.None: "the bare frame",
}

// dressing is everything between the frame and the furniture: tent walls, mesh, drapes, hooks, works and tags.
func (s *Site) dressing(covered bool) {
	var walls, cloths []*booth.Part
	for i := range s.Plan.Parts {
		switch p := &s.Plan.Parts[i]; {
		case p.Wall != nil:
			walls = append(walls, p)
		case p.Cloth != nil && !p.Cloth.Rain:
			cloths = append(cloths, p)
		}
	}
	// The back first: it steadies the sides, and nobody is shut out.
	backFirst := func(a, b booth.Side) int { return cmp.Compare(sideRank[a], sideRank[b]) }
	slices.SortStableFunc(walls, func(a, b *booth.Part) int { return backFirst(a.Wall.Side, b.Wall.Side) })
	slices.SortStableFunc(cloths, func(a, b *booth.Part) int { return backFirst(a.Cloth.Side, b.Cloth.Side) })
	for _, c := range cloths {
		if !c.Cloth.Pipe {
			s.tentWall(c)
		}
	}
	for _, w := range walls {
		s.standWall(w)
	}
	for _, c := range cloths {
		if c.Cloth.Pipe {
			s.hangDrape(c, walls)
		}
	}
	for _, w := range walls {
		s.hangWall(w, covered)
	}
	works := taskIDs(s.Plan.SetUp.Strike) // the money and all works go first
	for _, w := range walls {
		s.strikeWall(w, works)
	}
	for _, c := range cloths {
		s.strikeCloth(c, works)
	}
}

var sideRank = map[booth.Side]int{booth.Back: 0, booth.Left: 1, booth.Right: 2, booth.Front: 3}

// share is the rule's minutes for a side of ten feet, for one so wide.
func share(m unit.Minutes, width float64) unit.Minutes {
	return unit.Minutes(max(1, math.Round(float64(m)*width/side10)))
}

func (s *Site) tentWall(c *booth.Part) {
	kg := grams(math.Round(c.Cloth.Width * (c.Cloth.Top - c.Cloth.Bottom) * wallGrams))
	cargo := []booth.Cargo{{What: strings.TrimPrefix(c.Name, "the "), Count: 1, Weight: kg, Assumed: true}}
	s.setUp(booth.Task{
		ID: c.ID, Name: "Hang " + c.Name + " along the rail and fasten it to both legs", At: c.At, After: s.standsFirm, Crew: 2, Minutes: share(rules.ClothTime.In(s.Plan.Rules), c.Cloth.Width),
		Fetch: cargo, Parts: []booth.ID{c.ID}, Check: "It is fastened at the foot too: a loose wall flaps and tears.", Caution: gust + " " + ladder,
	})
}

func (s *Site) standWall(w *booth.Part) {
	area := w.Wall.Width * (w.Wall.Top - w.Wall.Bottom)
	n := 1
	if one := panelWide[w.Wall.Hold]; one > 0 {
		n = max(1, int(math.Ceil(w.Wall.Width/one-0.2)))
	}
	t := booth.Task{
		ID: w.ID, Name: fmt.Sprintf(standUp[w.Wall.Hold], w.Name), At: w.At, After: s.standsFirm, Crew: 2, Minutes: share(rules.PanelTime.In(s.Plan.Rules), w.Wall.Width), Parts: []booth.ID{w.ID},
		Fetch: []booth.Cargo{{What: holdWords[w.Wall.Hold] + " of " + w.Name, Count: n, Weight: grams(math.Round(area * holdGrams[w.Wall.Hold] / float64(n))), Assumed: true}},
		Check: "Lean on it at the top with one hand: nothing gives.",
	}
	switch {
	case w.Wall.Hold == booth.Mesh || w.Wall.Hold == booth.Panel:
		t.Caution = "A panel that is not tied falls like a door: one person holds, the other ties. "
	case w.Wall.Top < ladderFrom:
		t.Caution = "One person holds the rail until both ends are fast."
	}
	if w.Wall.Top >= ladderFrom {
		t.Caution += ladder
	}
	t.Caution = strings.TrimSpace(t.Caution)
	s.setUp(t)
}

const ladderFrom = 1.9 // metres: higher than this is not reached safely from the ground; common practice, no source

func (s *Site) hangDrape(c *booth.Part, walls []*booth.Part) {
	cl := c.Cloth
	per := wallGrams
	if cl.Grammage > 0 {
		per = cl.Grammage
	}
	g := cl.Width*(cl.Top-cl.Bottom)*cl.Fullness*per + cl.Width*pipeGrams
	after := s.standsFirm
	for _, w := range walls {
		if w.Wall.Cover == c.ID {
			after = append(slices.Clone(after), w.ID)
		}
	}
	t := booth.Task{
		ID: c.ID, Name: "Slide " + c.Name + " on its pipe, lift the pipe into place at both ends together; spread the folds evenly", At: c.At, After: after, Crew: 2,
		Minutes: share(rules.ClothTime.In(s.Plan.Rules), cl.Width), Parts: []booth.ID{c.ID},
		Fetch: []booth.Cargo{{What: strings.TrimPrefix(c.Name, "the ") + " with its pipe", Count: 1, Weight: grams(math.Round(g)), Assumed: true}},
		Check: "The lower edge clears the ground all along; no mesh shows.",
	}
	if s.eave > 0 {
		t.Caution = gust
	}
	if cl.Top >= ladderFrom {
		t.Caution = strings.TrimSpace(t.Caution + " " + ladder)
	}
	s.setUp(t)
}

// reach is the ground on which a person stands who reaches x metres along the wall.
func reach(w *booth.Part, x, depth float64) geom.Polygon {
	at := func(x, z float64) geom.Vec {
		p := w.Frame.At(geom.Vec{X: x, Z: z})
		p.Y = 0
		return p
	}
	const off = 0.1 // metres from the wall to a person's toes
	return geom.Polygon{at(x-reachWide/2, depth+off), at(x+reachWide/2, depth+off), at(x+reachWide/2, depth+off+reachDeep), at(x-reachWide/2, depth+off+reachDeep)}
}

// hangWall is the hooks, the works, and the tags and signs of one wall, and their way out.
func (s *Site) hangWall(w *booth.Part, covered bool) {
	book := s.Plan.Rules
	var works []*booth.Part
	var small []booth.ID // tags and signs
	tags := 0
	for i := range s.Plan.Parts {
		switch p := &s.Plan.Parts[i]; {
		case p.Work != nil && p.Work.Hung != nil && p.Work.Hung.Wall == w.ID:
			works = append(works, p)
		case p.Parent == w.ID && p.Work == nil:
			small = append(small, p.ID)
			if p.Kind == tagKind.Key {
				tags++
			}
		}
	}
	name := last(w.ID)
	id := func(kind string) booth.ID { return booth.ID(kind + "/" + name) }
	before := append(slices.Clone(s.standsFirm), w.ID)
	if w.Wall.Cover != "" {
		before = append(before, w.Wall.Cover)
	}
	if len(works) > 0 {
		hangingOrder(works)
		h := hungWorks(s, w, works)
		hooks := 0
		for _, p := range works {
			hooks += p.Work.Fixing.Hooks
		}
		t := booth.Task{
			ID: id("hooks"), Name: fmt.Sprintf("Set %s of %s by the hang sheet", counted(hooks, "hook"), w.Name), At: w.At, After: before, Crew: 1,
			Minutes: rules.HookTime.In(book) * unit.Minutes(hooks), Reach: h.reach, Check: "Pull down on each hook with the weight of your hand: it holds.",
		}
		if w.Wall.Cover != "" {
			t.Name = fmt.Sprintf("Set %s of %s through the cloth by the hang sheet", counted(hooks, "hook"), w.Name)
		}
		if h.high >= ladderFrom {
			t.Caution = ladder
		}
		s.setUp(t)
		s.setUp(booth.Task{
			ID: id("works"), Name: "Hang the works of " + w.Name + ": " + h.names, At: w.At, After: []booth.ID{id("hooks")}, Crew: h.crew, Minutes: rules.WorkTime.In(book) * unit.Minutes(len(works)),
			Steps: h.steps, Tender: true, Fetch: h.cargo, Parts: h.parts, Reach: h.reach, Check: "From the front edge of the pitch the middles are level; each work hangs flat and cannot be knocked off its hook.", Caution: h.caution,
		})
		down := append(slices.Clone(h.parts), small...)
		s.strike(booth.Task{
			ID: id("works"), Name: "Take down and wrap the works of " + w.Name + ", tags and hooks with them", At: w.At, After: []booth.ID{"money"}, Crew: h.crew, Minutes: rules.WorkTime.In(book) * unit.Minutes(len(works)),
			Parts: down, Reach: h.reach, Tender: true, Fetch: h.cargo, Caution: h.caution,
		})
		if covered {
			s.night(booth.Task{
				ID: id("works"), Name: "Hang a clean sheet over the works of " + w.Name + " and tie it at top and foot", At: w.At, After: []booth.ID{"money"}, Crew: 2, Minutes: share(rules.ClothTime.In(book), w.Wall.Width),
				Check: "It touches no wet paint and cannot flap against a frame.",
			})
		} else {
			s.night(booth.Task{
				ID: id("works"), Name: "Take the works of " + w.Name + " down, tags with them; wrap them and take them with you. The hooks stay", At: w.At, After: []booth.ID{"money"}, Crew: h.crew,
				Minutes: rules.WorkTime.In(book) * unit.Minutes(len(works)), Parts: down, Reach: h.reach, Tender: true, Fetch: h.cargo, Caution: h.caution,
			})
		}
		before = []booth.ID{id("works")}
	}
	if len(small) > 0 {
		var what []string
		if tags > 0 {
			what = append(what, counted(tags, "tag"))
		}
		if n := len(small) - tags; n > 0 {
			what = append(what, counted(n, "sign"))
		}
		var where []geom.Polygon
		for _, part := range small {
			x := w.Frame.Local(s.Plan.Part(part).Frame.Origin).X
			where = append(where, reach(w, x, 0))
		}
		s.setUp(booth.Task{
			ID: id("tags"), Name: "Pin " + strings.Join(what, " and ") + " on " + w.Name, At: w.At, After: before, Crew: 1, Minutes: rules.TagTime.In(book) * unit.Minutes(len(small)),
			Parts: small, Reach: where, Check: "Each tag is beside its own work, its lower edge level.",
		})
	}
}

// strikeWall is what a wall is made of on its way out, after the cloth before it.
func (s *Site) strikeWall(w *booth.Part, after []booth.ID) {
	if w.Wall.Cover != "" {
		after = []booth.ID{w.Wall.Cover}
	}
	s.strike(booth.Task{
		ID: w.ID, Name: "Untie and stack what " + w.Name + " is made of", At: w.At, After: after, Crew: 2, Minutes: (share(rules.PanelTime.In(s.Plan.Rules), w.Wall.Width) + 1) / 2,
		Fetch: s.cargo(w.ID), Caution: "One person holds the panel or rail while the other unties it.",
	})
}

// strikeCloth is a drape or a tent wall on its way out.
func (s *Site) strikeCloth(c *booth.Part, after []booth.ID) {
	t := booth.Task{
		ID: c.ID, Name: "Unfasten " + c.Name + " from the legs and the rail, and roll it up", At: c.At, After: after, Crew: 2,
		Minutes: (share(rules.ClothTime.In(s.Plan.Rules), c.Cloth.Width) + 1) / 2, Fetch: s.cargo(c.ID),
	}
	if c.Cloth.Pipe {
		t.Name = "Lift the pipe of " + c.Name + " down at both ends together; slide off the cloth and fold it"
	}
	if c.Cloth.Top >= ladderFrom {
		t.Caution = ladder
	}
	s.strike(t)
}

// hangingOrder sorts the works of a wall into the order in which they are hung: those that take two people first, then
// from the middle of all outwards, an upper one before the one under it.
func hangingOrder(works []*booth.Part) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range works {
		lo, hi = min(lo, p.Work.Hung.X0), max(hi, p.Work.Hung.X1)
	}
	off := func(p *booth.Part) int { // whole centimetres from the middle
		return int(math.Round(100 * math.Abs((p.Work.Hung.X0+p.Work.Hung.X1)/2-(lo+hi)/2)))
	}
	big := func(p *booth.Part) int {
		if hands(p) > 1 {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(works, func(a, b *booth.Part) int {
		return cmp.Or(cmp.Compare(big(a), big(b)), cmp.Compare(off(a), off(b)), -cmp.Compare(a.Work.Hung.Y0, b.Work.Hung.Y0))
	})
}

// weightOf is what a work weighs, or usually would.
func weightOf(p *booth.Part) (kg unit.Weight, assumed bool) {
	if p.Work.Weight > 0 {
		return p.Work.Weight, false
	}
	return grams(max(300, math.Round(p.Work.Width*p.Work.Height*workGrams/100)*100)), true
}

// titled is a work's title in quotation marks: a title may have commas of its own.
func titled(p *booth.Part) string { return "“" + p.Name + "”" }

// hands are the people that hang a work.
func hands(p *booth.Part) int {
	kg, _ := weightOf(p)
	if kg.Kg() > heavy || p.Work.Hung.X1-p.Work.Hung.X0 > wide {
		return 2
	}
	return 1
}

// hung is what the works of one wall come to.
type hung struct {
	names   string
	crew    int
	steps   []string
	cargo   []booth.Cargo
	parts   []booth.ID
	reach   []geom.Polygon
	high    float64 // metres of the highest hook
	caution string
}

func hungWorks(s *Site, w *booth.Part, works []*booth.Part) hung {
	h := hung{crew: 1}
	var titles []string
	lifted := 0.0
	for _, p := range works {
		n := hands(p)
		kg, assumed := weightOf(p)
		h.crew, lifted = max(h.crew, n), max(lifted, kg.Kg())
		alone := "one person"
		if n > 1 {
			alone = "two people"
		}
		size := unit.Size{A: unit.Length(p.Work.Height), B: unit.Length(p.Work.Width)}.Format(s.file.Units)
		titles = append(titles, titled(p))
		h.steps = append(h.steps, fmt.Sprintf("%s, %s: %s, %s", titled(p), size, alone, rules.WorkTime.In(s.Plan.Rules).Format()))
		h.cargo = append(h.cargo, booth.Cargo{What: titled(p), Count: 1, Weight: kg, Assumed: assumed})
		h.parts = append(h.parts, p.ID)
		hu := p.Work.Hung
		h.reach = append(h.reach, reach(w, (hu.X0+hu.X1)/2, hu.Depth))
		h.high = max(h.high, hu.Y1-p.Work.Fixing.Drop)
	}
	h.names = unit.List(titles, "and")
	if h.crew > 1 {
		h.caution = "Two people lift the large works; one guides the wire on to the hooks, the other carries the weight until both hooks hold."
	}
	if lifted > 15 {
		h.caution += " A work of more than 15 kg (33 lb) wants lifting gear or a third person."
	}
	return h
}

func counted(n int, what string) string {
	if n == 1 {
		return "the " + what
	}
	return fmt.Sprintf("the %d %ss", n, what)
}
