package job

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/find/arrange"
	"boothmock/internal/find/compare"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/stocklist"
)

// Arranged is what was proposed for a scene, each way measured on the booth that it really makes.
type Arranged struct {
	Now           *Mockup
	Before, Bound float64           // scores: see arrange.Score
	Views         []string          // that count
	Best          *Way              // nil: nothing better was found
	Ways          []*Way            // ways to hang that differ truly, the best one left out
	Tried         int               // arrangements that the search looked at
	Refused       []finding.Finding // what would be worse in the proposal with the most to see, for which it was rejected
	Rejected      int               // proposals with more to see that would make a finding worse
	Stood         int               // places of furniture that were tried
	path          string
	was           []byte
}

// Way is one way to hang the works in a scene's rows, and what it costs.
type Way struct {
	Name, Doc  string
	As         string // the way before this one that it is; empty: its own
	Mockup     *Mockup
	Score      float64
	Rows       string         // to paste
	Less, More []Change       // works of which less and more is seen, the greatest change first
	Costs      compare.Result // beside the plan as it is
	Text       []byte         // of the scene, hung in this way
	file       *scene.File
}

// All are the best way, if there is one, and the others.
func (a *Arranged) All() []*Way {
	if a.Best == nil {
		return a.Ways
	}
	return append([]*Way{a.Best}, a.Ways...)
}

// Change is a work and what is seen of it, in steradians times what it matters.
type Change struct {
	Title         string
	Before, After float64
}

// Arrange seeks a better arrangement of the works in a scene's rows, and other ways to hang them; if asked, also where the
// furniture stands best. Nothing is written.
func Arrange(path string, set Settings, furniture bool) (*Arranged, error) {
	w := Workshop{Path: path, Settings: set}
	f, err := w.Read()
	if err != nil {
		return nil, err
	}
	return ArrangeText(path, set, f.Source(), furniture)
}

// ArrangeText is Arrange for a text of the scene that its file does not have yet.
func ArrangeText(path string, set Settings, text []byte, furniture bool) (*Arranged, error) {
	s := sitting{Workshop: Workshop{Path: path, Settings: set}, was: text}
	f, err := s.Parse(text)
	if err != nil {
		return nil, err
	}
	if s.plan, err = s.Build(f); err != nil { // what is built is noted in the file
		return nil, err
	}
	if len(s.plan.Rows) == 0 && !furniture {
		return nil, fault.List{{At: fault.Place{File: path}, Text: "no work hangs in a row, so there is nothing to arrange", Hint: "name your works in rows: boothmock explain rows"}}
	}
	if works := s.plan.Works(); works > arrange.Most {
		return nil, fault.List{{At: s.plan.Rows[0].At, Text: fmt.Sprintf("the booth has %d works; an arrangement is sought for %d at most", works, arrange.Most),
			Hint: "arrange a scene with some of the walls at a time"}}
	}
	now, err := New(s.plan)
	if err != nil {
		return nil, err
	}
	s.last = now
	a := &Arranged{Now: now, path: path, was: s.was}
	plan, spares, err := s.crowded()
	if err != nil {
		return nil, err
	}
	hall := arrange.Of(plan, spares...)
	if err := s.best(a, hall.Propose()); err != nil {
		return nil, err
	}
	ways, _ := hall.Ways()
	if err := s.others(a, ways); err != nil || !furniture {
		return a, err
	}
	w, err := s.furnished(a)
	if err != nil {
		return nil, err
	}
	if w == nil {
		w = &Way{As: "now, as nothing better was found"}
	}
	w.Name, w.Doc = "furniture", "the works as they hang, and tables, bins and chair where the way in is wide and most is seen"
	a.Ways = append(a.Ways, w)
	return a, nil
}

// sitting is one search for a better hang: booths that differ by their rows, one after the other.
type sitting struct {
	Workshop
	plan *booth.Plan // as it is
	was  []byte
	last *Mockup // the one that was asked last, from which the next takes over what is the same
}

// best asks for the arrangement with the most to see that makes no finding worse.
func (s *sitting) best(a *Arranged, p arrange.Proposal) error {
	a.Bound, a.Views, a.Tried = p.Bound, p.Views, p.Tried
	a.Before, _ = arrange.Score(s.plan)
	tried := [][]booth.Row{s.plan.Rows}
	for _, rows := range append([][]booth.Row{p.Rows}, p.Others...) {
		if slices.ContainsFunc(tried, func(t []booth.Row) bool { return alike(t, rows) }) {
			continue
		}
		tried = append(tried, rows)
		w, err := s.hung(rows)
		if err != nil {
			return err
		}
		if w.Score <= a.Before {
			continue
		}
		s.weigh(a, w)
		if worse := worse(a.Now.Report(), w.Mockup.Report(), w.Costs.New); len(worse) > 0 {
			if a.Rejected++; a.Rejected == 1 {
				a.Refused = worse
			}
			continue
		}
		w.Name, w.Doc = "best", "the most to see of the works that hang now, and no finding worse"
		a.Best = w
		return nil
	}
	return nil
}

// others asks for the ways that differ, works that wait among them.
func (s *sitting) others(a *Arranged, ways []arrange.Way) error {
	known := []*Way{{Name: "now", Mockup: a.Now}}
	if a.Best != nil {
		known = append(known, a.Best)
	}
	for _, v := range ways {
		w := &Way{}
		if v.Rows == nil {
			w.As = "now, as no work waits"
		} else if i := slices.IndexFunc(known, func(k *Way) bool { return alike(k.Mockup.Plan.Rows, v.Rows) }); i >= 0 {
			w.As = known[i].Name
		} else {
			var err error
			if w, err = s.hung(v.Rows); err != nil {
				return err
			}
			s.weigh(a, w)
			known = append(known, w)
		}
		w.Name, w.Doc = v.Name, v.Doc
		a.Ways = append(a.Ways, w)
	}
	return nil
}

// crowded is the booth with the works that wait in its first row too, as many as an arrangement is sought for, without those that stay.
func (s *sitting) crowded() (*booth.Plan, []booth.ID, error) {
	if len(s.plan.Rows) == 0 {
		return s.plan, nil, nil
	}
	rows := slices.Clone(s.plan.Rows)
	rows[0].Works = slices.Clone(rows[0].Works)
	var spares []booth.ID
	for _, w := range s.plan.Waiting {
		if w.Work.Stays() == "" && s.plan.Works()+len(spares) < arrange.Most {
			spares = append(spares, w.ID)
		}
	}
	if len(spares) == 0 {
		return s.plan, nil, nil
	}
	rows[0].Works = append(rows[0].Works, spares...)
	f, err := s.rehung(rows)
	if err != nil {
		return nil, nil, err
	}
	plan, err := s.Build(f)
	return plan, spares, err
}

// alike is whether rows have the same works in the same places.
func alike(a, b []booth.Row) bool {
	return slices.EqualFunc(a, b, func(x, y booth.Row) bool { return slices.Equal(x.Works, y.Works) })
}

// hung is the booth with other works in its rows.
func (s *sitting) hung(rows []booth.Row) (*Way, error) {
	f, err := s.rehung(rows)
	if err != nil {
		return nil, fmt.Errorf("the rows cannot be rewritten: %w", err)
	}
	plan, err := s.Build(f)
	if err != nil {
		return nil, err
	}
	return s.made(f, plan)
}

// made is a way of which the plan is built.
func (s *sitting) made(f *scene.File, plan *booth.Plan) (w *Way, err error) {
	w = &Way{Text: f.Source(), Rows: f.Lines("rows"), file: f}
	if w.Mockup, err = s.last.Next(plan); err != nil {
		return nil, err
	}
	s.last = w.Mockup
	w.Score, _ = arrange.Score(plan)
	return w, nil
}

// weigh says what a way costs.
func (s *sitting) weigh(a *Arranged, w *Way) {
	w.Costs = Compare(a.Now, w.Mockup)
	_, by := arrange.Score(s.plan)
	_, then := arrange.Score(w.Mockup.Plan)
	for _, part := range s.plan.Parts {
		c := Change{part.Name, by[part.ID], then[part.ID]}
		switch {
		case part.Work == nil || w.Mockup.Plan.Part(part.ID) == nil:
		case c.After < 0.98*c.Before:
			w.Less = append(w.Less, c)
		case c.After > 1.02*c.Before:
			w.More = append(w.More, c)
		}
	}
	slices.SortStableFunc(w.Less, func(x, y Change) int { return cmp.Compare(y.Before-y.After, x.Before-x.After) })
	slices.SortStableFunc(w.More, func(x, y Change) int { return cmp.Compare(y.After-y.Before, x.After-x.Before) })
}

// rehung is the scene with other works in its rows, in the names that it uses. A spare that hangs is none any more, and what is taken
// down is one, if the scene says that its whole list is to be in the booth and nothing else of the work.
func (s *sitting) rehung(rows []booth.Row) (*scene.File, error) {
	f, err := s.Parse(s.was)
	if err != nil {
		return nil, err
	}
	items := f.Items("rows")
	for _, r := range rows {
		was, _ := items[r.Number].Values()["works"].([]any)
		names := make([]any, len(r.Works))
		for k, id := range r.Works {
			if names[k], f, err = onView(f, id); err != nil {
				return nil, err
			}
		}
		if f, err = renamed(f, scene.Path{{Key: "rows"}, {Nth: r.Number}, {Key: "works"}}, was, names); err != nil {
			return nil, err
		}
	}
	if !f.Yes("whole list") {
		return f, nil
	}
	hang := map[booth.ID]bool{}
	for _, r := range rows {
		for _, id := range r.Works {
			hang[id] = true
		}
	}
	for _, r := range s.plan.Rows {
		for _, id := range r.Works {
			n, _ := entryOf(f, id)
			if hang[id] || n < 0 || f.Items("works")[n].Has("status") {
				continue
			}
			if f, err = f.Set(scene.Path{{Key: "works"}, {Nth: n}, {Key: "status"}}, string(stocklist.Spare)); err != nil {
				return nil, err
			}
		}
	}
	return f, nil
}

// onView is what the scene calls a work, and the scene in which that is no spare.
func onView(f *scene.File, id booth.ID) (string, *scene.File, error) {
	n, name := entryOf(f, id)
	if n < 0 || f.Items("works")[n].Values()["status"] != string(stocklist.Spare) {
		return name, f, nil
	}
	f, err := f.Delete(scene.Path{{Key: "works"}, {Nth: n}, {Key: "status"}})
	return name, f, err
}

// entryOf is which entry of a scene's works a work is, and its name there; -1 if it is none.
func entryOf(f *scene.File, id booth.ID) (n int, name string) {
	n = slices.IndexFunc(f.Items("works"), func(it scene.Item) bool {
		name, _ = it.Values()["name"].(string)
		return kinds.WorkID(name) == id
	})
	return n, name
}

// renamed is the scene with other names in a list, each in the place of an old one; comments stay with the place.
func renamed(f *scene.File, list scene.Path, was, names []any) (*scene.File, error) {
	for k := range max(len(was), len(names)) {
		at := append(slices.Clone(list), scene.Step{Nth: min(k, len(names))})
		var err error
		switch {
		case k >= len(names):
			f, err = f.Delete(at)
		case k >= len(was):
			f, err = f.Insert(at, names[k])
		case was[k] != names[k]:
			f, err = f.Set(at, names[k])
		}
		if err != nil {
			return nil, err
		}
	}
	return f, nil
}

// worse are the new findings for which a booth is no better than before: failures, and cautions unless as many others are gone.
func worse(before, after finding.Report, news []finding.Finding) (out []finding.Finding) {
	gone := 0
	for _, f := range finding.Beyond(before.Findings, after.Findings) {
		if f.Level == finding.Caution {
			gone++
		}
	}
	cautions := 0
	for _, f := range news {
		if f.Level == finding.Caution {
			cautions++
		}
	}
	for _, f := range news {
		if f.Level == finding.Fail || f.Level == finding.Caution && cautions > gone {
			out = append(out, f)
		}
	}
	return out
}

// Write puts the rows of a way into the scene's file; every other byte stays.
func (a *Arranged) Write(w *Way) error {
	return rewrite(a.path, a.was, w.Text)
}

// rewrite puts a text into a scene's file in the place of what was read from it, unless that has been changed meanwhile.
func rewrite(path string, was, text []byte) error {
	if !bytes.Equal(Source(path), was) {
		return errors.New(path + " has been changed in the meantime, and was left alone: start again")
	}
	path, err := filepath.EvalSymlinks(path) // within the scene's folder, or it could not have been read
	if err != nil {
		return err
	}
	return disk.Rewrite(path, func(w io.Writer) error { _, err := w.Write(text); return err })
}
