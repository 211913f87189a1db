package hang

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Item is something to bring, and how much of it.
type Item struct {
	What   string   `json:"what"`
	Need   int      `json:"need"`
	Spare  int      `json:"spare"`
	Why    string   `json:"why"`
	Weight *float64 `json:"weight_kg"` // of one; null: not stated

	usual float64 // grams of one, of what no task fetches
	first string  // the step that needs it first, by the beginning of its ID; empty for what a task fetches
}

// Allowances, common practice without a source.
const (
	spareShare = 0.1         // of small hardware, and never less than two
	tieEvery   = 24 * 0.0254 // metres from tie to tie along the edge of a mesh
	clipEvery  = 12 * 0.0254 // metres from clip to clip along a pipe of cloth
	knotCord   = 4 * 0.0254  // metres of cord for the knot of a tie loop
	stockPipe  = 10 * 0.3048 // metres: length in which pipe is sold by the foot
	metricPipe = 3.0         // metres: length in which it is sold by the metre
)

func spare(n int) int {
	if n == 0 {
		return 0
	}
	return max(2, int(math.Ceil(float64(n)*spareShare-1e-9)))
}

// carriedFor is what each piece of hardware usually weighs in grams, and the steps that need it first: common practice, no
// source. A pipe is carried with its cloth, and chains with their wall.
var carriedFor = map[string]struct {
	grams float64
	first string
}{
	"S-hooks": {40, "hooks/"}, "tie loops of cord": {5, "hooks/"}, "rail wires with a sliding hook": {60, "hooks/"}, "panel hooks, pins or screws": {30, "hooks/"},
	"wall halves of cleats": {300, "hooks/"}, "mesh ties": {4, "wall/"}, "shackles or S-hooks for chain heads": {60, "wall/"}, "clips for cloth": {20, "drape/"},
	"straps or brackets for pipes": {150, "drape/"},
}

// hardware is what holds works, mesh and cloth.
func hardware(p *booth.Plan, walls []Wall) []Item {
	out := []Item{}
	add := func(n int, what, format string, args ...any) {
		if n > 0 {
			h := carriedFor[what]
			out = append(out, Item{What: what, Need: n, Spare: spare(n), Why: fmt.Sprintf(format, args...), usual: h.grams, first: h.first})
		}
	}
	length := p.Measure
	var shooks, sliding, pins, cleats, loops, ties, chains int
	cord, chain := 0.0, 0.0
	for _, w := range walls {
		for _, work := range w.Works {
			n := len(work.Hooks)
			switch {
			case work.By == booth.Cleat && n > 0:
				cleats++
				pins += n
			case w.Hold == booth.Mesh || w.Hold == booth.Chains:
				shooks += n
			case w.Hold == booth.Rail:
				sliding += n
			case w.Hold == booth.Panel:
				pins += n
			}
			for _, h := range work.Hooks {
				if h.Loop > 0 {
					loops++
					cord += 2*h.Loop + knotCord
				}
			}
		}
		switch w.Hold {
		case booth.Mesh:
			ties += 2 * (whole(w.Width, tieEvery) + 1 + max(0, whole(w.Top-w.Bottom, tieEvery)-1))
		case booth.Chains:
			n := int(math.Floor(w.Width/p.Part(w.ID).Wall.Spacing+hair)) + 1
			chains += n
			chain += float64(n) * (w.Top - w.Bottom)
		}
	}
	add(shooks, "S-hooks", "one for each hook on mesh or chains; each drops %s", length(p.Hooks.Drop))
	add(loops, "tie loops of cord", "where no wire is at the right height; %s of cord in all, knots included", p.Feet(cord))
	add(sliding, "rail wires with a sliding hook", "one for each hook on a rail")
	add(pins, "panel hooks, pins or screws", "one for each mark on a panel; ask the hall what its panels take")
	add(cleats, "wall halves of cleats", "as wide as two thirds of the work")
	add(ties, "mesh ties", "one every %s along the edges of each mesh", length(tieEvery))
	add(chains, "chains", "%s of chain in all, an S-hook or shackle at the head of each", p.Feet(chain))
	add(chains, "shackles or S-hooks for chain heads", "one a chain")
	stockLength := stockPipe
	if p.Units == unit.Centimetres {
		stockLength = metricPipe
	}
	clips := 0
	var cuts []float64
	for i := range p.Parts {
		if c := p.Parts[i].Cloth; c != nil && c.Pipe {
			cuts = append(cuts, c.Width)
			clips += whole(c.Width, clipEvery) + 1
		}
	}
	if n, how := pipesFor(cuts, stockLength, p.Units); n > 0 {
		out = append(out, Item{What: "pipes of " + p.Feet(stockLength), Need: n, Why: how})
		straps := carriedFor["straps or brackets for pipes"]
		out = append(out, Item{What: "straps or brackets for pipes", Need: 2 * len(cuts), Spare: 2, Why: "two a pipe, on legs or stands", usual: straps.grams, first: straps.first})
	}
	add(clips, "clips for cloth", "one every %s along each pipe", length(clipEvery))
	return out
}

// pipesFor lays cuts into pipes of the length sold, longest first, each into the first pipe with room left. A cut longer
// than a pipe is made of whole pipes with a coupler.
func pipesFor(cuts []float64, stock float64, sys unit.System) (pipes int, how string) {
	cuts = slices.Clone(cuts)
	slices.SortFunc(cuts, func(a, b float64) int { return cmp.Compare(b, a) })
	var left []float64
	couplers := 0
	words := "cut "
	for i, c := range cuts {
		if i > 0 {
			words += ", "
		}
		words += unit.Length(c).Format(sys)
		for c > stock+hair {
			left = append(left, 0)
			couplers++
			c -= stock
		}
		k := slices.IndexFunc(left, func(l float64) bool { return l >= c-hair })
		if k < 0 {
			left, k = append(left, stock), len(left)
		}
		left[k] -= c
	}
	if couplers > 0 {
		words += fmt.Sprintf("; couplers: %d", couplers)
	}
	return len(left), words
}
