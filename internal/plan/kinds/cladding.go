package kinds

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Usual weights where the scene states none, in grams a square metre: common practice, no source. Welded mesh of 8 gauge
// wire at 2 in is about 8 lb for a panel of 2 x 7 ft.
var holdGrams = map[booth.Hold]float64{booth.Mesh: 3000, booth.Panel: 4500, booth.Chains: 1000, booth.Rail: 700, booth.None: 700}

const (
	pipeGrams = 900.0 // a metre of drape pipe
	side10    = 3.05  // metres: the side of ten feet that the rules' minutes are for
)

// panelWide is how wide one panel is, in metres, where a wall comes in panels: two feet of mesh, 38 in of padded panel.
var panelWide = map[booth.Hold]float64{booth.Mesh: 0.61, booth.Panel: 0.97}

var standUp = map[booth.Hold]string{
	booth.Mesh: "Stand up the mesh of %s, panel by panel, and tie each to its neighbour and to %s", booth.Panel: "Stand up the panels of %s and join them",
	booth.Chains: "Put up the rail of %s and hang its chains", booth.Rail: "Put up the hanging rail of %s with its wires", booth.None: "Put up the bare frame of %s",
}

var holdWords = map[booth.Hold]string{
	booth.Mesh: "mesh panels", booth.Panel: "panels", booth.Chains: "chains with their rail", booth.Rail: "the hanging rail with its wires", booth.None: "the bare frame",
}

// cladding is everything between the frame and the furniture: tent walls, mesh and drapes, and what hangs on them.
func (s *Site) cladding(covered bool) {
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
		if w.Wall.Back == "" {
			s.standWall(w)
		}
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
		if w.Wall.Back == "" {
			s.strikeWall(w, works)
		}
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
		Fetch: cargo, Place: c.ID, Parts: []booth.ID{c.ID}, Check: "It is fastened at the foot too: a loose wall flaps and tears.", Caution: gust + " " + ladder,
	})
}

// panelsOf is how many panels a wall comes in.
func panelsOf(hold booth.Hold, width float64) int {
	if one := panelWide[hold]; one > 0 {
		return max(1, int(math.Ceil(width/one-0.2)))
	}
	return 1
}

func (s *Site) standWall(w *booth.Part) {
	n := max(1, w.Wall.Panels)
	words := []any{w.Name}
	if w.Wall.Hold == booth.Mesh {
		words = append(words, map[bool]string{true: "the frame", false: "its stands"}[s.eave > 0 && (w.Wall.Tied || !w.Wall.Free)])
	}
	t := booth.Task{
		ID: w.ID, Name: fmt.Sprintf(standUp[w.Wall.Hold], words...), At: w.At, After: s.standsFirm, Crew: 2, Minutes: share(rules.PanelTime.In(s.Plan.Rules), w.Wall.Width), Place: w.ID, Parts: []booth.ID{w.ID},
		Fetch: []booth.Cargo{{What: holdWords[w.Wall.Hold] + " of " + w.Name, Count: n, Weight: grams(math.Round(1000 * w.Heft.Kg() / float64(n))), Assumed: w.Taken}},
		Check: "Lean on it at the top with one hand: nothing gives.",
	}
	for _, p := range s.Plan.Parts {
		if p.Wall != nil && p.Wall.Back == w.ID { // its other face
			t.Parts = append(t.Parts, p.ID)
		}
	}
	if w.Wall.Joins != "" {
		t.After = append(slices.Clone(t.After), w.Wall.Joins)
		t.Check = "It is joined to the panel on its left from top to bottom."
	}
	if feet, ok := s.standsOn[w.ID]; ok {
		t.Parts = append(t.Parts, feet)
		t.Check = "Lean on it at the top with one hand, from both sides: it stands on its feet or hangs in its ties, and nothing gives."
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
	after := s.standsFirm
	for _, w := range walls {
		if w.Wall.Cover == c.ID {
			after = append(slices.Clone(after), standing(w))
		}
	}
	t := booth.Task{
		ID: c.ID, Name: "Slide " + c.Name + " on its pipe, lift the pipe into place at both ends together; spread the folds evenly", At: c.At, After: after, Crew: 2,
		Minutes: share(rules.ClothTime.In(s.Plan.Rules), cl.Width), Place: c.ID, Parts: []booth.ID{c.ID},
		Fetch: []booth.Cargo{{What: strings.TrimPrefix(c.Name, "the ") + " with its pipe", Count: 1, Weight: c.Heft, Assumed: true}},
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

// standing is the task of the wall that a face belongs to.
func standing(w *booth.Part) booth.ID {
	if w.Wall.Back != "" {
		return w.Wall.Back
	}
	return w.ID
}

// strikeWall is what a wall is made of on its way out, after the cloth before it.
func (s *Site) strikeWall(w *booth.Part, after []booth.ID) {
	if w.Wall.Cover != "" {
		after = append(slices.Clone(after), w.Wall.Cover)
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
