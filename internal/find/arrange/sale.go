package arrange

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
	"boothmock/internal/plan/rules"
)

// Heir is a spare that can take the place of a work that sells.
type Heir struct {
	ID    booth.ID
	Title string
	Words string  // how it hangs: "same hooks, 1 1/4 in lower loop"
	New   int     // hooks that must be set; behind cloth each needs a hole
	Kin   bool    // it is of the sold work's family
	Seen  float64 // share of it that passers-by see, on average, from 0 to 1
	Hung  booth.Hung
}

// Unfit is a spare that cannot, and why, in words.
type Unfit struct {
	ID         booth.ID
	Title, Why string
}

// near is how far a hook may be from where it is wanted and be taken as it is: a wire slides so far, and nobody sees it;
// common practice, no source.
const near = 0.006 // metres

// AfterSale says which spares can take the place of a work that sells, the best first, as a painter would hang them: those that fill the
// place, then those of its family, then the fewest new hooks, then what is seen most, to a tenth, then those of nearly its size, all with everything else left where it is; and why the others cannot. A spare hangs with its
// middle where that of the sold work was, or as near to it as its hooks allow.
func AfterSale(plan *booth.Plan, sold booth.ID) (heirs []Heir, unfit []Unfit) {
	part := plan.Part(sold)
	if part == nil || part.Work == nil || part.Work.Hung == nil {
		return nil, nil
	}
	s := newSale(plan, part)
	for i := range plan.Waiting {
		w := &plan.Waiting[i]
		if w.Work.Sold || w.ID == sold {
			continue
		}
		h, why := Heir{}, w.Work.Stays()
		switch {
		case why != "":
		case w.Work.Each != nil:
			why = "it hangs in parts, with hooks of its own"
		default:
			h, why = s.heir(w)
		}
		if why != "" {
			unfit = append(unfit, Unfit{w.ID, w.Work.Title, why})
			continue
		}
		heirs = append(heirs, h)
	}
	for i := range heirs {
		if h := &heirs[i]; s.lesser(*h) > 1 && h.Hung.X1-h.Hung.X0 < s.sold.Hung.X1-s.sold.Hung.X0 {
			h.Words += "; much smaller"
		}
	}
	slices.SortStableFunc(heirs, func(a, b Heir) int {
		kin := func(h Heir) int {
			if h.Kin {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(s.lesser(a), s.lesser(b)), cmp.Compare(kin(a), kin(b)), cmp.Compare(a.New, b.New), cmp.Compare(math.Round(10*b.Seen), math.Round(10*a.Seen)), cmp.Compare(s.unlike(a), s.unlike(b)))
	})
	return heirs, unfit
}

// sale is the booth without a work.
type sale struct {
	plan   *booth.Plan
	part   *booth.Part // of a work in parts the first
	sold   *booth.Work // the whole
	wall   *booth.Part
	others []*booth.Part // that hang on the same wall
	crowd  *sight.Crowd
	gone   map[int]bool // parts that hide nothing: the work, what hangs on it, its wall, people
	eyes   []geom.Vec
}

func newSale(plan *booth.Plan, part *booth.Part) *sale {
	s := &sale{plan: plan, part: part, sold: part.Work.Itself(), wall: plan.Part(part.Work.Hung.Wall), gone: map[int]bool{}}
	var solids []sight.Solid
	var screens []sight.Screen
	tag := tagOf(part.ID)
	for i := range plan.Parts {
		p := &plan.Parts[i]
		own := p.ID == part.ID || p.Work != nil && p.Work.Same(part.Work)
		if own || p.ID == tag || p.ID == s.wall.ID || p.Moving {
			s.gone[i] = true
		}
		if p.Work != nil && p.Work.Hung != nil && !own && p.Work.Hung.Wall == s.wall.ID {
			s.others = append(s.others, p)
		}
		if !p.SeeThrough {
			for _, c := range p.Solids {
				solids = append(solids, sight.NewSolid(c, i))
			}
		}
		for _, w := range p.Screen {
			screens = append(screens, sight.NewScreen(w, i))
		}
	}
	s.crowd = sight.NewCrowd(solids, screens...)
	for _, v := range plan.Views {
		if counts(v) && len(plan.Eyes) > 0 {
			s.eyes = append(s.eyes, v.From(plan.Eyes[0]))
		}
	}
	return s
}

// heir is a spare in the place of the sold work, or why it cannot hang there.
func (s *sale) heir(w *booth.Waiting) (h Heir, why string) {
	was, wall := s.sold.Hung, s.wall.Wall
	high, wide := w.Work.Height, w.Work.Width
	if w.Work.FramedHeight > 0 {
		high, wide = w.Work.FramedHeight, w.Work.FramedWidth
	}
	x, y := (was.X0+was.X1)/2, was.Centre()
	k := booth.Hung{Wall: was.Wall, Row: was.Row, Depth: w.Work.Depth, X0: x - wide/2, X1: x + wide/2, Y0: y - high/2, Y1: y + high/2}
	hook.Hang(&k, wall, w.Work.Fixing, s.plan.Hooks, rules.LevelSlack.In(s.plan.Rules))
	length := func(m float64) string { return unit.Length(m).Format(s.plan.Units) }
	switch {
	case k.Unheld != "":
		return h, "no hook would hold it there"
	case k.X0 < -near || k.X1 > wall.Width+near:
		return h, fmt.Sprintf("it stands %s past the end of the wall", length(max(-k.X0, k.X1-wall.Width)))
	case k.Y1 > wall.Top+near && k.Y1 > was.Y1+near:
		return h, fmt.Sprintf("it stands %s above the wall", length(k.Y1-wall.Top))
	case k.Y0 < wall.Bottom && k.Y0 < was.Y0:
		return h, "it reaches too far down"
	}
	if wall.Holds > 0 {
		load := w.Work.Weight
		for _, o := range s.others {
			load += o.Work.Weight
		}
		if load > wall.Holds && w.Work.Weight > s.sold.Weight {
			return h, fmt.Sprintf("the wall holds %s, and would carry %s", wall.Holds.Format(s.plan.Units), load.Format(s.plan.Units))
		}
	}
	least := rules.Gap.In(s.plan.Rules)
	for _, o := range s.others {
		gap := apart(&k, o.Work.Hung)
		if gap < least-near && gap < apart(was, o.Work.Hung)-near {
			if gap <= 0 {
				return h, fmt.Sprintf("it is too large beside %s", o.Name)
			}
			return h, fmt.Sprintf("only %s would be left to %s", length(gap), o.Name)
		}
	}
	h = Heir{ID: w.ID, Title: w.Work.Title, Kin: w.Work.Family != "" && w.Work.Family == s.part.Work.Family, Hung: k}
	h.New, h.Words = s.hooks(was, &k)
	h.Seen = s.seen(w, &k)
	return h, ""
}

// apart is the clear space between two works of a wall: beside or above each other, whichever is more; none or less where they
// overlap.
func apart(a, b *booth.Hung) float64 {
	return max(a.X0-b.X1, b.X0-a.X1, a.Y0-b.Y1, b.Y0-a.Y1)
}

// hooks is how many hooks must be set for a work in the place of another, and that in words.
func (s *sale) hooks(was, k *booth.Hung) (fresh int, words string) {
	length := func(m float64) string { return unit.Length(math.Abs(m)).Format(s.plan.Units) }
	lower := 0.0
	var set []string
	taken := make([]bool, len(was.Hooks))
	for _, h := range k.Hooks {
		same := slices.IndexFunc(was.Hooks, func(o booth.Hook) bool { return math.Abs(o.X-h.X) <= near })
		if same < 0 || taken[same] {
			fresh++
			set = append(set, fmt.Sprintf("%s from the left end, %s up", length(h.X), length(h.Grip)))
			continue
		}
		taken[same] = true
		lower = was.Hooks[same].Y - h.Y
	}
	hooks := func(n int) string {
		if n == 1 {
			return "1 new hook"
		}
		return fmt.Sprintf("%d new hooks", n)
	}
	switch {
	case fresh == 0 && math.Abs(lower) <= near:
		words = "same hooks"
	case fresh == 0 && lower > 0:
		words = "same hooks, " + length(lower) + " lower"
	case fresh == 0:
		words = "same hooks, " + length(lower) + " higher"
	default:
		words = hooks(fresh)
		if s.wall.Wall.Cover != "" {
			words += ", through the cloth"
		}
		words += ": " + unit.List(set, "and")
	}
	if left := len(was.Hooks) - (len(k.Hooks) - fresh); left > 0 && fresh == 0 {
		words += fmt.Sprintf("; %d of them stays empty", left)
	}
	return fresh, words
}

// seen is the mean over the views of people who pass of the share of a spare that is seen where it would hang, as the checks
// see it: past wires, too.
func (s *sale) seen(w *booth.Waiting, k *booth.Hung) float64 {
	if len(s.eyes) == 0 {
		return 0
	}
	middle := s.wall.Frame.Moved(geom.Vec{X: (k.X0 + k.X1) / 2, Y: k.Centre(), Z: k.Depth})
	face := geom.Rect(middle, -w.Work.Width/2, -w.Work.Height/2, w.Work.Width/2, w.Work.Height/2)
	var g sight.Gaze
	sum := 0.0
	for _, eye := range s.eyes {
		if middle.Local(eye).Z <= 0 {
			continue
		}
		sum += g.SeePast(eye, face, s.crowd, func(owner int) bool { return s.gone[owner] }).Visible
	}
	return sum / float64(len(s.eyes))
}

// lesser is how many times, by halves or doubles, a spare is smaller or larger than the sold work: a small print leaves a hole in the
// place of a large painting.
func (s *sale) lesser(h Heir) float64 {
	was := s.sold.Hung
	return math.Round(math.Abs(math.Log2((h.Hung.X1 - h.Hung.X0) * (h.Hung.Y1 - h.Hung.Y0) / ((was.X1 - was.X0) * (was.Y1 - was.Y0)))))
}

// unlike is how far a spare is from the size of the sold work, in metres.
func (s *sale) unlike(h Heir) float64 {
	was := s.sold.Hung
	return math.Abs(h.Hung.X1-h.Hung.X0-was.X1+was.X0) + math.Abs(h.Hung.Y1-h.Hung.Y0-was.Y1+was.Y0)
}
