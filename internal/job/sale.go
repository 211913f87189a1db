package job

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/arrange"
	"boothmock/internal/find/hang"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// heirsTold is how many spares are named for a work.
const heirsTold = 3

// heirsOnPage is how many the page knows for each: more sell of one place in a weekend only at a fair that nobody has seen.
const heirsOnPage = 12

// Sold is a work that sells, and what can hang in its place.
type Sold struct {
	ID    booth.ID
	Title string
	Heirs []arrange.Heir
	Unfit []arrange.Unfit
}

// ifSold is, for every work that hangs, what takes its place when it sells; nothing where no work waits.
func ifSold(p *booth.Plan) (out []Sold) {
	if len(p.Waiting) == 0 {
		return nil
	}
	for _, l := range p.Catalogue() {
		if l.Work.Hung == nil {
			continue
		}
		heirs, unfit := arrange.AfterSale(p, l.ID)
		out = append(out, Sold{l.ID, l.Work.Title, heirs, unfit})
	}
	return out
}

// sales is that list as a section of the print pack, so that the helper needs no program.
func sales(m *Mockup) hang.Section {
	t := hang.Table{Head: []string{"if this sells", "hang", "how"}, Wide: []float64{28, 28, 44}}
	for _, s := range m.IfSold() {
		if len(s.Heirs) == 0 {
			t.Rows = append(t.Rows, []string{s.Title, "-", "no spare fits there"})
		}
		for k, h := range s.Heirs[:min(len(s.Heirs), heirsTold)] {
			title := s.Title
			if k > 0 {
				title = "or"
			}
			t.Rows = append(t.Rows, []string{title, h.Title, h.Words})
		}
	}
	if len(t.Rows) == 0 {
		return hang.Section{}
	}
	return hang.Section{Title: "When something sells", Intro: []string{"A spare hangs with its middle where that of the sold work was; everything else stays. The one that fills the place best is first: of its size, of its family, with the fewest new hooks."}, Tables: []hang.Table{t}}
}

// salesOnPage are the works that hang with what takes their places, as the page shows them: all spares that fit, as one may be gone.
func (m *Mockup) salesOnPage() []page.Sale {
	out := []page.Sale{}
	for _, l := range m.Plan.Catalogue() {
		if l.Work.Hung == nil || l.Work.Sold {
			continue
		}
		s := page.Sale{ID: l.ID, Title: l.Work.Title, Heirs: []page.Heir{}}
		for _, sold := range m.IfSold() {
			if sold.ID == l.ID {
				for _, h := range sold.Heirs[:min(len(sold.Heirs), heirsOnPage)] {
					s.Heirs = append(s.Heirs, page.Heir{ID: h.ID, Title: h.Title, How: h.Words})
				}
			}
		}
		out = append(out, s)
	}
	return out
}

// Sale is a sale in a scene: what can take the sold work's place, and the scene with the first of them there.
type Sale struct {
	Sold
	path      string
	was, text []byte
	why       error // why the scene cannot be rewritten; nil: it can
}

// AfterSale looks for what takes the place of a work, which is known by its name in the scene or by its title.
func AfterSale(path, name string, set Settings) (*Sale, error) {
	w := Workshop{Path: path, Settings: set}
	f, err := w.Read()
	if err != nil {
		return nil, err
	}
	plan, err := w.Build(f)
	if err != nil {
		return nil, err
	}
	part, err := hanging(plan, name)
	if err != nil {
		return nil, err
	}
	s := &Sale{Sold: Sold{ID: part.ID, Title: part.Work.Itself().Title}, path: path, was: f.Source()}
	s.Heirs, s.Unfit = arrange.AfterSale(plan, part.ID)
	if len(s.Heirs) > 0 {
		s.text, s.why = swapped(&w, f, plan, part, s.Heirs[0])
	}
	return s, nil
}

// hanging is the work that hangs and is called so.
func hanging(p *booth.Plan, name string) (*booth.Part, error) {
	var names []string
	var found []*booth.Part
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Work == nil || part.Work.Hung == nil || part.Work.Part > 1 {
			continue
		}
		title := part.Work.Itself().Title
		names = append(names, title)
		if short, _ := strings.CutPrefix(string(part.ID), "work/"); strings.EqualFold(short, name) {
			return part, nil
		} else if strings.EqualFold(title, name) {
			found = append(found, part)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return nil, fmt.Errorf("several works are called %q (write the name that it has in the scene: %s)", name, strings.TrimPrefix(string(found[0].ID), "work/"))
	}
	hint := "name one that does"
	if near, ok := fault.Nearest(name, names); ok {
		hint = "did you mean " + near + "?"
	}
	return nil, fmt.Errorf("no work called %q hangs (%s)", name, hint)
}

// swapped is the scene with a spare in the place of a sold work, of which it then says so. The error says why that would move
// other works.
func swapped(w *Workshop, f *scene.File, plan *booth.Plan, sold *booth.Part, heir arrange.Heir) ([]byte, error) {
	was, _ := entryOf(f, sold.ID)
	is, name := entryOf(f, heir.ID)
	row := slices.IndexFunc(plan.Rows, func(r booth.Row) bool { return slices.Contains(r.Works, sold.ID) })
	if was < 0 || is < 0 || row < 0 {
		return nil, errors.New("only a work of a row is exchanged in the scene; change this one there yourself")
	}
	at := scene.Path{{Key: "rows"}, {Nth: plan.Rows[row].Number}, {Key: "works"}, {Nth: slices.Index(plan.Rows[row].Works, sold.ID)}}
	g, err := f.Set(at, name)
	if err == nil {
		g, err = g.Set(scene.Path{{Key: "works"}, {Nth: was}, {Key: "sold"}}, true)
	}
	if err == nil {
		_, g, err = onView(g, heir.ID)
	}
	if err != nil {
		return nil, err
	}
	text := g.Source()
	next, err := w.Build(g)
	if err != nil {
		return nil, err
	}
	const still = 0.003 // metres, an eighth of an inch
	for _, id := range plan.Rows[row].Works {
		a, b := plan.Part(id), next.Part(id)
		if id == sold.ID || b == nil {
			continue
		}
		if d := math.Abs(a.Work.Hung.X0 - b.Work.Hung.X0); d > still {
			return nil, fmt.Errorf("in the scene its row would move %s by %s, as %s is not as wide as %s: hang it as above, and put it into the scene in a place of its own", a.Name, unit.Length(d).Format(plan.Units), heir.Title, sold.Name)
		}
	}
	return text, nil
}

// Write puts the first heir into the scene's file in the place of the sold work, which is marked as sold; every other byte stays.
func (s *Sale) Write() error {
	if s.why != nil {
		return s.why
	}
	return rewrite(s.path, s.was, s.text)
}
